# SPDX-License-Identifier: MIT
"""A whole catalogue ranked, every module on every inverter, beside plain C that tries every
stringing of a pair (plain_search.c)."""
from measure import compare

PART = "Catalogues"


def measure(bench, _, quick):
    side = 200 if quick else 1000
    line = f"ranking count={side}"
    units = side * max(side // 100, 1)
    return compare(PART, f"{side} modules x {side} inverters", "pair", bench.way(line, units, 1),
                   {"plain C, every stringing": bench.way(f"plain_{line}", units, 1)}, 99,
                   bench.memory(line, units),
                   {"plain C, every stringing": bench.memory(f"plain_{line}")})
