# SPDX-License-Identifier: MIT
"""What the cost grows with: one size is changed and the others kept; the exponent is the slope of a
straight line through the logarithms of sizes and medians, by least squares. A cost with a part that
does not grow has a smaller exponent than what grows in it; the exponent over the upper half
of the sizes tells."""
import math

from measure import quartiles, rounds

# what, the operation, the size that is changed, its values, the others
SERIES = [
    ("check", "check", "inputs", (1, 2, 4, 8, 12, 16, 24), "planes=4 count=400"),
    ("check", "check", "planes", (1, 2, 4, 8), "inputs=8 count=200"),
    ("best by power", "search", "inputs", (1, 2, 4, 8, 12, 16, 24), "planes=4 count=300"),
    ("best by energy", "search_energy", "inputs", (1, 2, 4, 8, 12, 16, 24), "planes=4 count=300"),
    ("best by energy", "search_energy", "planes", (1, 2, 3, 4, 6, 8), "inputs=4 count=100"),
    ("best by energy", "search_energy", "modules", (10, 30, 100, 300, 1000), "inputs=4 planes=4"),
    ("a year", "year", "inputs", (1, 2, 4, 8, 12, 16, 24), "planes=4"),
    ("a year", "year", "planes", (1, 2, 4, 8), "inputs=8"),
    ("a year", "year", "intervals", (8760, 17520, 35040, 52560, 105120), "inputs=2 planes=2"),
    ("points of a curve", "points", "points", (10, 100, 1000, 10000, 100000), ""),
]
WORDS = {"modules": "count", "points": "count"}


def slope(sizes, times):
    x, y = [math.log(size) for size in sizes], [math.log(time) for time in times]
    middle_x, middle_y = sum(x) / len(x), sum(y) / len(y)
    return (sum((a - middle_x) * (b - middle_y) for a, b in zip(x, y))
            / sum((a - middle_x) ** 2 for a in x))


def line_of(operation, size, value, others):
    if size == "intervals":
        return f"{operation} minutes={8760 * 60 // value} {others}"
    return f"{operation} {WORDS.get(size, size)}={value} {others}".rstrip()


def straight(sizes, times):
    """How much of the spread of the logarithms the line explains: 1 is a power of the size."""
    x, y = [math.log(size) for size in sizes], [math.log(time) for time in times]
    middle_x, middle_y, steep = sum(x) / len(x), sum(y) / len(y), slope(sizes, times)
    rest = sum((b - middle_y - steep * (a - middle_x)) ** 2 for a, b in zip(x, y))
    return 1 - rest / sum((b - middle_y) ** 2 for b in y)


def measure(bench, count, quick):
    """Series with sizes, medians and exponents, as they are saved."""
    found = []
    for what, operation, size, values, others in SERIES:
        ways = {value: bench.way(line_of(operation, size, value, others)) for value in values}
        times = rounds(ways, 3 if quick else min(count, 9))
        medians = [quartiles(times[value])[1] for value in values]
        half = len(values) // 2
        unproven = [value for value in values
                    if not bench.memory(line_of(operation, size, value, others)).finished]
        found.append({"what": what, "grows": size, "others": others, "sizes": list(values),
                      "seconds": medians, "unproven": unproven, "exponent": slope(values, medians),
                      "explained": straight(values, medians),
                      "upper_exponent": slope(values[half:], medians[half:])})
    return found
