# SPDX-License-Identifier: MIT
"""What a run costs whatever the machine's load: by callgrind, with caches of 32 KiB and 8 MiB in
lines of 64 bytes, and none of them in the caches when the run starts. Floating-point operations are
those of the instructions run, named by objdump: each adds, multiplies, divides or takes a root, once for each
number it holds; what plain C spends on the same numbers (plain_check.c, plain_points.c) stands for what
is needed. Code of the C library (exp, log, malloc) counts."""
import collections
import os
import pathlib
import re
import subprocess
import tempfile

import counts

# pairs of an operation, and of the plain one that gives the same numbers
OPERATIONS = [("check", "plain_check"), ("check inputs=12 planes=4 count=300",
                                         "plain_check inputs=12 planes=4 count=300"),
              ("point", "plain_points count=1"), ("points count=100000", "plain_points count=100000"),
              ("fit", None), ("search_energy", "plain_search"), ("ranking", "plain_ranking"),
              ("sweep count=200", None),
              ("year", None), ("next_year", None), ("render", None)]
WIDTH = {"sd": 1, "ss": 1, "pd": 2, "ps": 4}
ARITHMETIC = re.compile(r"^v?(?:add|sub|mul|div|sqrt)(sd|ss|pd|ps)$")
CACHES = ["--cache-sim=yes", "--I1=32768,8,64", "--D1=32768,8,64", "--LL=8388608,16,64"]


def mnemonics(file):
    """Numbers worked on by the instruction at each address."""
    text = subprocess.run(["objdump", "-d", "--no-show-raw-insn", file], check=True,
                          capture_output=True, text=True).stdout
    found = {}
    for address, word in re.findall(r"^ *([0-9a-f]+):\t(\S+)", text, re.M):
        arithmetic = ARITHMETIC.match(word)
        if arithmetic:
            found[int(address, 16)] = WIDTH[arithmetic.group(1)]
    return found


class Profile:
    """One dump of callgrind: costs by event, and floating-point operations."""

    def __init__(self, text, known):
        self.name = re.search(r"^desc: Trigger: Client Request: (.*)$", text, re.M).group(1)
        events = re.search(r"^events: (.*)$", text, re.M).group(1).split()
        totals = re.search(r"^totals: (.*)$", text, re.M).group(1).split()
        self.costs = collections.Counter(dict(zip(events, map(int, totals))))
        self.flops = self.floating(text, known)

    @staticmethod
    def floating(text, known):
        """Lines are "address line costs", relative to the line before; those behind "calls=" are
        of what was called, and counted there."""
        flops, address, table, skip, names = 0, 0, {}, False, {}  # names: of objects by number
        for line in text.splitlines():
            if line.startswith(("ob=", "cob=")):  # of what follows, or of what it calls
                word, number, name = re.match(r"(c?ob)=\((\d+)\) ?(.*)", line).groups()
                names.setdefault(number, name)
                if word == "ob":
                    table = known(names[number])
            elif line.startswith("calls="):
                skip = True
            elif line[:1].isdigit() or line[:1] in ("+", "-", "*"):
                words = line.split()
                if words[0].startswith("0x"):
                    address = int(words[0], 16)
                elif words[0] != "*":
                    address += int(words[0], 16 if "x" in words[0] else 10)
                if not skip and address in table and len(words) > 2:
                    flops += table[address] * int(words[2])
                skip = False
        return flops


def profiles(build, lines):
    tables = {}

    def known(file):
        if file not in tables:
            tables[file] = mnemonics(file) if os.path.exists(file) else {}
        return tables[file]

    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            ["valgrind", "--tool=callgrind", "--collect-atstart=no", "--dump-instr=yes", *CACHES,
             f"--callgrind-out-file={folder}/out", f"{build}/tests/bench", "count", *lines],
            check=True, capture_output=True, text=True,
            env={**os.environ, "GLIBC_TUNABLES": counts.PLAIN, "BENCH_COLD": "1"})
        found = [Profile(file.read_text(encoding="ascii", errors="replace"), known)
                 for file in pathlib.Path(folder).glob("out.*")]
    units = {name: float(each) for name, _, each in
             (line.split(";") for line in done.stdout.splitlines())}
    return {profile.name: (profile, units[profile.name]) for profile in found}


def each(profile, units):
    """Costs of one check, point, pair ... of a run."""
    costs = profile.costs
    found = {"instructions": costs["Ir"], "floating": profile.flops, "loads": costs["Dr"],
             "stores": costs["Dw"], "lines": costs["DLmr"] + costs["DLmw"],
             "misses": costs["D1mr"] + costs["D1mw"]}
    return {word: cost / units for word, cost in found.items()}


def measure(build):
    """Rows as they are saved: of each operation, and of the plain one beside it."""
    lines = [line for pair in OPERATIONS for line in pair if line]
    found, rows = profiles(build, lines), []
    for line, plain in OPERATIONS:
        row = {"operation": line, "units": found[line][1], "library": each(*found[line])}
        if plain:
            row["plain"] = each(*found[plain])
        rows.append(row)
    return rows
