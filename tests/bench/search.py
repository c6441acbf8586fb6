# SPDX-License-Identifier: MIT
"""The best stringing, beside two integer-programming solvers, and of two inputs beside plain C that
tries every one (plain_search.c).

The library's time holds the judging of all options and the proof. That of a solver holds starting
it and reading the program, but not the judging of the options, which was done before. A solver that
proved nothing in the time allowed has a ratio that is at least so much."""
import os
import pathlib
import shutil
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "oracle"))

import brute_force
import integer_program
import pvsize
import roofs
from measure import Row, children_way, compare, memory_of, python_way, quartiles, rounds

PART = "Best stringings"
SOLVERS = {"GLPK": ("glpsol", integer_program.solve_glpk), "CBC": ("cbc", integer_program.solve_cbc)}


class Roof(brute_force.Case):
    """Lengths and counts that a string can have at all on these inputs."""

    def options(self):
        return [None] + [(0, n, ((p, s),)) for p, room in enumerate(self.room)
                         for n in range(1, 27) for s in range(1, 4) if n * s <= room]


def optimum(result):
    """One number from either solver, None if it proved none."""
    if isinstance(result, tuple):
        return result[0] if result[0] == result[1] else None
    return result


def solve(name, path, seconds, value):
    """Processor time, and whether the optimum was proven; it must be the library's. A solver may
    keep its limit by the clock on the wall: on a busy machine it is given more of that."""
    _, solver = SOLVERS[name]
    allowed = seconds
    for _ in range(3):
        found = []
        spent = children_way(lambda: found.append(solver(path, round(allowed))))()
        best = optimum(found[0])
        if best is not None or spent > 0.8 * seconds:
            break
        allowed *= min(10, seconds / max(spent, 0.1))
    if best is not None and round(best) != round(value * 1000):
        raise SystemExit(f"{name}: {best}, the library: {value * 1000}")
    return spent, best is not None


def library_of(question, rules, count):
    """The answers, the times and the memory; a long search is done twice only, one that stops
    unproven once."""
    found = []
    way = python_way(lambda: found.append(pvsize.search(question, rules)))
    first = way()
    if found[0].ending != "proven":
        return found[0], (first,) * 3, None
    own = quartiles(rounds({"": way}, count)[""]) if first < 0.5 else (first,) * 3
    return found[0], own, memory_of(lambda: pvsize.search(question, rules))


def rows_of(what, question, rules, count, seconds):
    found, own, memory = library_of(question, rules, count)
    if found.ending != "proven":
        return [Row(PART, what, "search", own, memory, stopped=True)]
    value = found[0].energy if question.objective == "energy" else found[0].power
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "roof.lp")
        integer_program.write(Roof(question, rules), integer_program.ratio_of(rules), path)
        for name in SOLVERS:
            if shutil.which(SOLVERS[name][0]):
                spent, solved = solve(name, path, seconds, value)
                rows.append(Row(PART, what, "search", own, memory, name, (spent,) * 3,
                                (spent / own[1],) * 3, at_least=not solved))
    return rows or [Row(PART, what, "search", own, memory)]


def measure(bench, count, quick):
    rules, seconds = pvsize.Rules(), 5 if quick else 20
    rows = compare(PART, "two inputs, two faces, in C, by energy", "search", bench.way("search_energy"),
                   {"plain C, every stringing": bench.way("plain_search")}, count,
                   bench.memory("search_energy"), {})
    large = "search_energy inputs=12 planes=4 count=300"
    rows += compare(PART, "twelve inputs, four faces, in C, by energy", "search", bench.way(large), {},
                    count, bench.memory(large))
    for answers in (1, 10):
        question = roofs.two_inputs()
        question.answers = answers
        rows += rows_of(f"two inputs, two faces, best {answers}", question, rules, count, seconds)
    for kind in ("six", "unlike") if quick else ("three large", "three small", "six", "twelve", "unlike"):
        for objective in ("power", "energy"):
            question = roofs.twelve_inputs(kind, objective=objective, answers=1)
            rows += rows_of(f"twelve inputs, four faces: {kind}, {objective}", question, rules, count,
                            seconds)
    question = roofs.twelve_inputs("six", (75, 75, 75, 75), objective="power", answers=1)
    return rows + rows_of("twelve inputs, four like faces: six, power", question, rules, count, seconds)
