#!/usr/bin/python3
"""Changes one row of the rule tables at a time and looks whether a unit test notices:
a figure of a preset by a tenth, the severity of a rule by a step, a rule's comparison turned
round. The Python oracle reads the same rows and cannot notice; golden copies (ids.h, doc) are
not asked. Survivors are listed.

    python3 tests/mutants.py BUILD [COUNT [SEED]]     COUNT rows drawn at random; 0: all

BUILD is a meson build folder with the tests. SPDX-License-Identifier: MIT"""
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
FLAGS = ("-std=c11 -O1 -fPIC -fvisibility=hidden -ffp-contract=off -DPVSIZE_BUILD "
         "-DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0 -Iinclude").split()
STEP = {"MUST": "SHOULD", "SHOULD": "NOTE", "NOTE": "MUST", "OFF": "MUST"}
TURN = {"AT_MOST": "AT_LEAST", "AT_LEAST": "AT_MOST", "MORE_THAN": "AT_MOST"}


def mutants_of(path):
    """(line number, new line, what) for each row of a file that can be changed."""
    for n, line in enumerate(path.read_text(encoding="utf-8").splitlines()):
        sets = re.match(r"(SETS\((\w+), )([-0-9.e/]+)(,.*)", line)
        applies = re.match(r"(APPLIES\((\w+), )(\w+)(,.*)", line)
        rule = re.match(r"(RULE\(\d+, (\w+), .*?, )(AT_MOST|AT_LEAST|MORE_THAN)(,.*)", line)
        if sets:
            try:
                value = float(sets[3])
            except ValueError:
                continue
            new = repr(value * 1.1) if value not in (0, 1) else str(1 - int(value))
            yield n, sets[1] + new + sets[4], f"{sets[2]} {sets[3]} -> {new}"
        elif applies and applies[3] in STEP:
            yield n, applies[1] + STEP[applies[3]] + applies[4], f"{applies[2]} {applies[3]} -> {STEP[applies[3]]}"
        elif rule:
            yield n, rule[1] + TURN[rule[3]] + rule[4], f"{rule[2]} {rule[3]} -> {TURN[rule[3]]}"


def compile_file(folder, source):
    out = folder / "objects" / (source.replace("/", "_") + ".o")
    done = subprocess.run(["gcc", *FLAGS, "-c", source, "-o", str(out)], cwd=folder, capture_output=True)
    return done.returncode == 0


def link(folder):
    objects = sorted(str(o) for o in (folder / "objects").iterdir())
    subprocess.run(["gcc", "-shared", "-Wl,-soname,libpvsize.so.0", *objects, "-Wl,--version-script=lib/pvsize.map",
                    "-o", "libpvsize.so.0", "-lm"], cwd=folder, check=True)


def noticed(folder, tests):
    """The first test that fails with the library as it is now, or none."""
    env = dict(os.environ, LD_LIBRARY_PATH=str(folder))
    for test in tests:
        if subprocess.run([str(test)], env=env, capture_output=True, timeout=300).returncode:
            return test.name
    return None


def main():
    build, count, seed = Path(sys.argv[1]).resolve(), 40, 1
    if len(sys.argv) > 2:
        count = int(sys.argv[2])
    if len(sys.argv) > 3:
        seed = int(sys.argv[3])
    folder = Path(tempfile.mkdtemp())
    for name in ("include", "lib"):
        shutil.copytree(TOP / name, folder / name)
    (folder / "objects").mkdir()
    sources = sorted(str(p.relative_to(folder)) for p in (folder / "lib").rglob("*.c") if p.name != "print_ids.c")
    with ThreadPoolExecutor(2) as pool:
        assert all(pool.map(lambda s: compile_file(folder, s), sources))
    link(folder)
    first = ["test_facts", "test_check", "test_rules", "test_protection", "test_cables", "test_isolation", "test_supply"]
    last = ["test_compare", "test_bill", "test_readings", "test_review", "test_report", "test_presets"]
    tests = [build / "tests" / name for name in first + last if (build / "tests" / name).exists()]
    assert noticed(folder, tests) is None, "the tests fail without any change"

    tables = [folder / "lib/tables/rules.def", *sorted((folder / "lib/tables/presets").glob("*.def"))]
    readers = [s for s in sources if re.search(r'"(\.\./tables/)?(rules\.def|presets/list\.def)"',
                                               (folder / s).read_text(encoding="utf-8"))]
    chosen = [(path, m) for path in tables for m in mutants_of(path)]
    total = len(chosen)
    if count:
        chosen = random.Random(seed).sample(chosen, min(count, total))
    survivors, killed = [], 0
    for path, (n, new, what) in chosen:
        old = path.read_text(encoding="utf-8")
        lines = old.splitlines()
        lines[n] = new
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
        if not all([compile_file(folder, s) for s in readers]):
            killed += 1  # the compiler noticed
        else:
            link(folder)
            if noticed(folder, tests):
                killed += 1
            else:
                survivors.append(f"{path.name}: {what}")
                print("survives:", survivors[-1], flush=True)
        path.write_text(old, encoding="utf-8")
    shutil.rmtree(folder)
    print(f"{len(chosen)} of {total} rows changed, {killed} noticed, {len(survivors)} survive")


main()
