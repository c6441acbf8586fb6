#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Instructions and allocations of the main operations against those in instructions.txt. One
that takes 5 % more instructions, or one allocation more, fails.

    counts.py check BUILD         compares
    counts.py demonstrate BUILD   shows that the comparison notices what it should
    counts.py renew BUILD         writes the file anew; its operations stay

Counted by callgrind in one warm run of each, so the machine's load does not matter. glibc is told to
use no newer instructions than every x86-64 has, so the machine does not matter either. Counts of another
compiler, C library or optimisation are not compared: "skipped" says so."""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

FILE = pathlib.Path(__file__).with_name("instructions.txt")
GROWTH = 1.05
PLAIN = "glibc.cpu.hwcaps=-AVX512F,-AVX2,-AVX,-FMA,-FMA4,-BMI2,-ERMS,-FSRM,-SSE4_2,-SSE4_1,-SSSE3"


def built_by(build):
    """What counts depend on, in words."""
    found = subprocess.run(["meson", "introspect", "--buildoptions", build], check=True,
                           capture_output=True, text=True).stdout
    options = {option["name"]: option["value"] for option in json.loads(found)}
    compiler = subprocess.run([f"{build}/tests/bench", "compiler"], check=True, capture_output=True,
                              text=True).stdout.strip()
    extra = "".join(f", {name} {options[name]}" for name in ("b_sanitize", "b_coverage", "b_lto", "b_pgo",
                                                             "c_args")
                    if options.get(name) not in (None, "none", "off", False, []))
    return f"{compiler}, optimization {options['optimization']}{extra}"


def read(file):
    """Who built what was counted, and counts by operation."""
    built, counts = "", {}
    for line in file.read_text(encoding="ascii").splitlines():
        if line.startswith("# built by "):
            built = line[len("# built by "):]
        elif line and not line.startswith("#"):
            instructions, allocations, operation = line.split(None, 2)
            counts[operation] = int(instructions), int(allocations)
    return built, counts


def count(build, operations):
    """Instructions and allocations of a run of each."""
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            ["valgrind", "--tool=callgrind", "--collect-atstart=no",
             f"--callgrind-out-file={folder}/out", f"{build}/tests/bench", "count", *operations],
            check=True, capture_output=True, text=True, env={**os.environ, "GLIBC_TUNABLES": PLAIN})
        instructions = {}
        for file in pathlib.Path(folder).glob("out.*"):
            text = file.read_text(encoding="ascii", errors="replace")
            name = re.search(r"^desc: Trigger: Client Request: (.*)$", text, re.M).group(1)
            instructions[name] = int(re.search(r"^totals: (\d+)", text, re.M).group(1))
    return {name: (instructions[name], int(allocations)) for name, allocations, _ in
            (line.split(";") for line in done.stdout.splitlines())}


def judge(name, before, now):
    """Whether it holds, and a line that says so."""
    change = 100 * (now[0] / before[0] - 1)
    line = f"{name}: {now[0]} instructions ({change:+.1f} %), {now[1]} allocations"
    if now[0] > before[0] * GROWTH or now[1] > before[1]:
        return False, f"FAIL  {line}, where {before[0]} and {before[1]} stood"
    if now[0] < before[0] / GROWTH or now[1] < before[1]:
        return True, f"ok    {line}: renew, {-change:.1f} % fewer, {before[1] - now[1]} allocations fewer"
    return True, f"ok    {line}"


def check(before, now):
    held = 0
    for name, counted in before.items():
        good, line = judge(name, counted, now[name])
        held += good
        print(line)
    print(f"{held} passed, {len(before) - held} failed")
    return held == len(before)


def demonstrate(now):
    """Baselines with which what was counted now is 6 % more, 4 % more, fewer, and one
    allocation more."""
    cases = {"6 % more instructions": (1 / 1.06, 0, False), "4 % more": (1 / 1.04, 0, True),
             "20 % fewer": (1.25, 0, True), "an allocation more": (1, -1, False)}
    failed = 0
    for what, (factor, allocations, wanted) in cases.items():
        found = [judge(name, (int(i * factor), a + allocations), (i, a)) for name, (i, a) in now.items()]
        good = all(held == wanted for held, _ in found)
        if what == "20 % fewer":
            good = good and all("renew, 20.0 % fewer" in line for _, line in found)
        failed += not good
        print(f"{'ok  ' if good else 'FAIL'}  {what}: {found[0][1]}")
    return not failed


def renew(built, now):
    head = [line for line in FILE.read_text(encoding="ascii").splitlines()
            if line.startswith("#") and not line.startswith("# built by ")]
    rows = [f"{i:12} {a:6}  {name}" for name, (i, a) in now.items()]
    FILE.write_text("\n".join([*head, f"# built by {built}", *rows]) + "\n", encoding="ascii")


def main():
    if len(sys.argv) != 3 or sys.argv[1] not in ("check", "demonstrate", "renew"):
        print(__doc__, file=sys.stderr)
        return 2
    what, build = sys.argv[1:]
    subprocess.run(["ninja", "-C", build, "tests/bench"], check=True, stdout=subprocess.DEVNULL)
    built, counts = read(FILE)
    here = built_by(build)
    if what != "renew" and here != built:
        print(f"skipped: counts are of {built}; this is {here}\n0 passed, 0 failed")
        return 0
    now = count(build, counts)
    if what == "renew":
        renew(here, now)
        return 0
    return 0 if (check(counts, now) if what == "check" else demonstrate(now)) else 1


if __name__ == "__main__":
    try:
        sys.exit(main())
    except subprocess.CalledProcessError as failure:
        sys.exit(f"{failure}\n{failure.stderr or ''}".rstrip())
