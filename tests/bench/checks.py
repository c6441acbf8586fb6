# SPDX-License-Identifier: MIT
"""Checks, beside the same numbers in plain C (plain_check.c), and what the Python binding adds."""
import pvsize
import roofs
from measure import compare, memory_of, python_way

PART = "Checks"


def binding():
    """A hundred checks of a system of two inputs."""
    question = roofs.two_inputs()
    system, rules, report = question.parts("system")[0], pvsize.Rules(), pvsize.Report()
    for i in range(2):
        system.add(pvsize.Array(input=i, plane=i, modules_per_string=12, strings=1,
                                module=roofs.module()))

    def call():
        for _ in range(100):
            pvsize.check(system, rules, report)
    return call


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
    rows += compare(PART, "one like it, through the Python binding", "check", bench.way("check"),
                    {"Python binding": python_way(binding(), 100)}, count, bench.memory("check"),
                    {"Python binding": memory_of(binding())})
    for line, what in (("make_design", "a design, made and freed"),
                       ("render", "its report at length, Markdown"), ("bill", "its bill")):
        rows += compare(PART, what, "run", bench.way(line), {}, count, bench.memory(line))
    return rows
