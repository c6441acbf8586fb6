#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Times the search and two integer-programming solvers on the same jobs in one run:

    PVSIZE_LIBRARY=build/lib/libpvsize.so PYTHONPATH=bindings/python python3 tests/bench/search.py

Medians, in milliseconds. The library is called through the Python binding, whose
overhead counts as the library's; its time holds the judging of all options and the proof.
That of a solver holds starting it and reading the program, but not the judging of the
options, which was done before. "-": not proven in the time allowed."""
import os
import pathlib
import shutil
import statistics
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "oracle"))

import brute_force
import integer_program
import pvsize
import roofs

SECONDS = int(os.environ.get("PVSIZE_BENCH_SECONDS", "20"))


class Roof(brute_force.Case):
    """Lengths and counts that a string can have at all on these inputs."""

    def options(self):
        return [None] + [(0, n, ((p, s),)) for p, room in enumerate(self.room)
                         for n in range(1, 27) for s in range(1, 4) if n * s <= room]


def median_ms(call, times):
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        result = call()
        spent.append((time.perf_counter() - start) * 1000)
    return statistics.median(spent), result


def optimum(result):
    """One number from either solver, None if it proved none."""
    if isinstance(result, tuple):
        return result[0] if result[0] == result[1] else None
    return result


def row(name, question, rules):
    path = os.path.join(tempfile.gettempdir(), f"pvsize-bench-{os.getpid()}.lp")
    integer_program.write(Roof(question, rules), integer_program.ratio_of(rules), path)
    found = pvsize.search(question, rules)
    times = 21 if found.nodes < 2000 else 3
    library, found = median_ms(lambda: pvsize.search(question, rules), times)
    value = found[0].energy if question.objective == "energy" else found[0].power
    cells = [f"{name:34}", f"{library:9.2f}" if found.ending == "proven" else f"{'-':>9}"]
    for tool, solve in (("glpsol", integer_program.solve_glpk), ("cbc", integer_program.solve_cbc)):
        if not shutil.which(tool):
            cells.append(f"{'none':>10}{'':>8}")
            continue
        spent, result = median_ms(lambda: solve(path, SECONDS), 1)
        best = optimum(result)
        same = "" if best is None or round(best) == round(value * 1000) else " UNLIKE"
        cells.append(f"{spent:10.1f}{spent / library:8.0f}x{same}" if best is not None
                     else f"{'-':>10}{'>' + str(round(spent / library)):>8}x")
    os.unlink(path)
    print(" ".join(cells), flush=True)


def main():
    rules = pvsize.Rules()
    print(f"{'job':34} {'library':>9} {'GLPK':>10}{'ratio':>9} {'CBC':>10}{'ratio':>9}")
    for answers in (1, 10):
        question = roofs.two_inputs()
        question.answers = answers
        row(f"2 inputs, 2 faces, best {answers}", question, rules)
    for kind in ("three large", "three small", "six", "twelve", "unlike"):
        for objective in ("power", "energy"):
            row(f"12 inputs, 4 faces: {kind}, {objective}",
                roofs.twelve_inputs(kind, objective=objective, answers=1), rules)
    row("12 inputs, 4 like faces: six, power",
        roofs.twelve_inputs("six", (75, 75, 75, 75), objective="power", answers=1), rules)


if __name__ == "__main__":
    main()
