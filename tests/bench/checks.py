# SPDX-License-Identifier: MIT
"""Checks, beside the same numbers in plain C (plain_check.c)."""
from measure import compare

PART = "Checks"


def measure(bench, count, quick):
    many = 2000 if quick else 10000
    rows = compare(PART, "one check, two inputs", "check", bench.way("check"),
                   {"plain C": bench.way("plain_check")}, count, bench.memory("check"),
                   {"plain C": bench.memory("plain_check")})
    rows += compare(PART, "one check, twelve inputs", "check",
                    bench.way("check inputs=12 planes=4 count=300"),
                    {"plain C": bench.way("plain_check inputs=12 planes=4 count=300")}, count,
                    bench.memory("check inputs=12 planes=4 count=300"),
                    {"plain C": bench.memory("plain_check inputs=12 planes=4 count=300")})
    rows += compare(PART, f"{many:,} varied systems", "check",
                    bench.way(f"check_drawn count={many}", many),
                    {"plain C": bench.way(f"plain_check_drawn count={many}", many)}, count,
                    bench.memory(f"check_drawn count={many}", many),
                    {"plain C": bench.memory(f"plain_check_drawn count={many}")})
    for line, what in (("make_design", "a design, made and freed"),
                       ("render", "its report at length, Markdown"), ("bill", "its bill")):
        rows += compare(PART, what, "run", bench.way(line), {}, count, bench.memory(line))
    return rows
