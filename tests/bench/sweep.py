# SPDX-License-Identifier: MIT
"""A whole catalogue ranked, every module on every inverter: by one call, and by a call for every pair;
beside plain C that tries every stringing of a pair (plain_search.c)."""
from measure import compare

PART = "Catalogues"


def measure(bench, _, quick):
    side = 200 if quick else 1000
    what = f"{side:,} modules x {side:,} inverters"
    pairs = f"ranking count={side}"
    plain = f"plain_{pairs}"
    whole, units = f"sweep count={side}", side * max(side // 100, 1)
    other = bench.way(plain, units, 1)
    kept = bench.memory(plain)
    rows = compare(PART, f"{what}, one call", "pair", bench.way(whole, side * side, 1),
                   {"plain C, every stringing": other}, 5 if quick else 11,
                   bench.memory(whole, side * side), {"plain C, every stringing": kept})
    return rows + compare(PART, f"{what}, a call each", "pair", bench.way(pairs, units, 1),
                          {"plain C, every stringing": other}, 99, bench.memory(pairs, units),
                          {"plain C, every stringing": kept})
