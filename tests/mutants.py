#!/usr/bin/python3
"""Changes every row of the rule tables, one at a time, and looks whether a unit test notices:

    figure    a number by a tenth, a count by one, an answer turned round
    severity  a step softer; a note becomes a must
    compare   at_most and at_least turned round, more_than
    limit     another term, of the same unit where there is one
    value     the same on the other side
    manner    loud, firm, quiet, gaps: the next that makes a difference

The Python oracle reads the same rows and cannot notice; printed copies (ids.h, doc) know nothing
better and are not asked. The rows are changed as a library built for it is loaded
(tests/trust/mutate.c), so that nothing is compiled between two. Survivors are listed; those in
tests/mutants_known.txt have a reason there, and a line that nothing needs any more is an error.

    python3 tests/mutants.py BUILD [WORD...]     only mutants with one of the words in the name

BUILD is a meson build folder with the tests. Packages: gcc. SPDX-License-Identifier: MIT"""
import os
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TOP / "tests" / "oracle"))
from def_tables import rows  # noqa: E402

TABLES = TOP / "lib" / "tables"
FLAGS = ("-std=c11 -O1 -g -fPIC -fvisibility=hidden -ffp-contract=off -fno-trapping-math -DPVSIZE_BUILD "
         "-DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0 -Iinclude").split()
STEP = {"MUST": "SHOULD", "SHOULD": "NOTE", "NOTE": "MUST", "OFF": "MUST"}
TURN = {"AT_MOST": "AT_LEAST", "AT_LEAST": "AT_MOST", "MORE_THAN": "AT_MOST"}
MANNERS = ["LOUD", "FIRM", "QUIET", "GAPS"]
# quick ones first: most mutants end there; "limits:relations" is one case of a test
TESTS = ("presets limits:relations limits:reports facts check check_data check_report rules protection cables "
         "isolation supply readings report compare compare_reports compare_wrong bill bill_isolators bill_fuses "
         "bill_gaps bill_allowances bill_object review review_modules review_wrong wrong_input").split()


def numbers():
    text = (TOP / "include/pvsize/ids.h").read_text(encoding="utf-8")
    return {name: int(n) for name, n in re.findall(r"PVSIZE_(\w+) = (-?\d+)", text)}


IDS = numbers()


def terms():
    """Name of every term that a rule may compare: its unit and the kind it speaks of."""
    found = {}
    for path in sorted(TABLES.glob("*.def")):
        for macro, a in rows(path):
            if macro == "TERM":
                found[f"{a[1]}_{a[2]}"] = (a[5], a[1], a[4])
            elif macro == "QUANTITY":
                found[f"QUANTITY_{a[1]}"] = (a[6], a[3], a[5])
            elif macro == "FIGURE":
                found[f"FIGURE_{a[1]}"] = (a[5], "FIGURE", a[4])
    return {name: value for name, value in found.items() if name in IDS}


def another(name, known):
    """The next term of the same kind, type and unit; else of the same kind."""
    unit, kind, sort = known[name]
    order = list(known)
    after = order[order.index(name) + 1:] + order[:order.index(name)]
    for same in (lambda n: known[n] == (unit, kind, sort), lambda n: known[n][1] == kind and known[n][2] != "TEXT"):
        for n in after:
            if same(n):
                return n
    return None


def mutants_of_presets():
    figures = {a[1]: a for macro, a in rows(TABLES / "figures.def") if macro == "FIGURE"}
    for path in sorted((TABLES / "presets").glob("*.def")):
        preset = "*" if path.stem == "house" else path.stem
        last = {a[0]: (macro, a) for macro, a in rows(path) if macro in ("SETS", "APPLIES")}
        for term, (macro, a) in last.items():
            if macro == "APPLIES":
                new, number = STEP[a[1]], IDS[f"RULE_{term}"]
                change = f"set {preset} {number} {IDS['SEVERITY_' + a[1]]} {IDS['SEVERITY_' + new]}"
                yield f"{path.stem}: severity of {term}, {a[1]} -> {new}", change
                continue
            value, kind = eval(a[1], {}), figures[term][4]  # a number, or a quotient of two
            if kind == "ANSWER":
                new = 1 - value
            elif kind == "COUNT":
                new = value + 1
            else:
                new = value * 1.1 if value else 1
            yield (f"{path.stem}: figure {term}, {a[1]} -> {new:.6g}",
                   f"set {preset} {IDS['FIGURE_' + term]} {value!r} {new!r}")


def mutants_of_rules():
    known = terms()
    for macro, a in rows(TABLES / "rules.def"):
        if macro != "RULE":
            continue
        number, name, manner, value, compare, limit = a[0], a[1], a[4], a[5], a[6], a[7]
        # only between numbers is there a "close", which firm rules never are
        close = manner == "LOUD" and known[value][2] == known[limit][2] == "NUMBER"
        turned, other_manner = TURN[compare], {"LOUD": "FIRM" if close else "QUIET"}.get(
            manner, MANNERS[(MANNERS.index(manner) + 1) % 4])
        yield f"rules: compare of {name}, {compare} -> {turned}", f"rule {number} compare {IDS['COMPARE_' + turned]}"
        yield f"rules: manner of {name}, {manner} -> {other_manner}", f"rule {number} manner {MANNERS.index(other_manner)}"
        for field, term in (("value", value), ("limit", limit)):
            other = another(term, known)
            if other:
                yield f"rules: {field} of {name}, {term} -> {other}", f"rule {number} {field} {IDS[other]}"


def build_library(folder):
    sources = [str(p) for p in sorted((TOP / "lib").rglob("*.c")) if p.name != "print_ids.c"]
    sources.append(str(TOP / "tests/trust/mutate.c"))

    def one(source):
        out = folder / (source.replace("/", "_") + ".o")
        subprocess.run(["gcc", *FLAGS, "-c", source, "-o", str(out)], cwd=TOP, check=True)
        return str(out)

    with ThreadPoolExecutor(2) as pool:
        objects = list(pool.map(one, sources))
    subprocess.run(["gcc", "-shared", "-Wl,-soname,libpvsize.so.0", *objects,
                    "-Wl,--version-script=" + str(TOP / "lib/pvsize.map"), "-o", str(folder / "libpvsize.so.0"), "-lm"],
                   check=True)


def noticed(folder, tests, mutant=None):
    """The first test that fails with this change, or none."""
    env = dict(os.environ, LD_LIBRARY_PATH=str(folder), CK_FORK="no")
    if mutant:
        env["PVSIZE_MUTANT"] = mutant
    for test, case in tests:
        env.pop("CK_RUN_CASE", None)
        if case:
            env["CK_RUN_CASE"] = case
        try:
            done = subprocess.run([str(test)], env=env, capture_output=True, timeout=60)
        except subprocess.TimeoutExpired:
            return test.name
        if b"no such row" in done.stderr:
            raise SystemExit(f"{mutant}: {done.stderr.decode()}")
        if done.returncode:
            return test.name
    return None


def main():
    build, words = Path(sys.argv[1]).resolve(), sys.argv[2:]
    known = {}
    for line in (TOP / "tests/mutants_known.txt").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            name, reason = line.split(" | ")
            known[name] = reason
    named = [name.partition(":")[::2] for name in TESTS]
    tests = [(build / "tests" / f"test_{name}", case) for name, case in named]
    all_mutants = [m for m in [*mutants_of_presets(), *mutants_of_rules()]
                   if not words or any(word in m[0] for word in words)]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        build_library(folder)
        failing = noticed(folder, tests)
        assert failing is None, f"{failing} fails without any change"
        survivors = []
        with ThreadPoolExecutor(2) as pool:
            for m, test in zip(all_mutants, pool.map(lambda m: noticed(folder, tests, m[1]), all_mutants)):
                if test is None:
                    survivors.append(m[0])
                    if m[0] not in known:
                        print("survives:", m[0], flush=True)
    unexplained = [s for s in survivors if s not in known]
    stale = [k for k in known if k not in survivors and (not words or any(word in k for word in words))]
    for s in stale:
        print("has a reason, but is noticed or gone:", s)
    print(f"{len(all_mutants)} changes, {len(all_mutants) - len(survivors)} noticed, "
          f"{len(survivors) - len(unexplained)} survive with a reason, {len(unexplained)} without")
    return 1 if unexplained or stale else 0


sys.exit(main())
