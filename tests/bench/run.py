#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Measures the library and its references in one run; run.sh builds first and calls this.

    run.py BUILD [--quick] [--write] [--rounds N] [PART...]

--quick   fewer rounds, smaller catalogues, solvers stopped sooner; the result says so
--write   renews doc/performance.md, .json and .svg; else they go to BUILD
PART      of checks curve_points year_hours search sweep growth limits; else all"""
import argparse
import importlib
import pathlib
import sys

import measure
import report

ALL = ["checks", "search", "sweep", "curve_points", "year_hours", "growth", "limits"]


def about(bench, quick, rounds, parts):
    compiler = bench.compiler()
    return (f"{compiler}, release build, processor time, medians of {rounds} interleaved rounds and quartiles "
            "in brackets." + (" A quick run: smaller, and with fewer rounds." if quick else "")
            + ("" if parts == ALL else f" Only: {', '.join(parts)}."))


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--rounds", type=int)
    parser.add_argument("parts", nargs="*", metavar="PART")
    options = parser.parse_intermixed_args()
    parts = options.parts or ALL
    unknown = set(parts) - set(ALL)
    if unknown:
        parser.error(f"no part: {', '.join(sorted(unknown))}; there are {' '.join(ALL)}")
    if options.rounds is not None and not 2 <= options.rounds <= 1000:
        parser.error("--rounds: 2 to 1000")
    if options.write and options.parts:
        parser.error("--write renews the whole page, and needs all parts")
    count = options.rounds or (5 if options.quick else 21)
    bench = measure.Bench(options.build)
    print(bench.agree(), flush=True)
    rows, series, limits = [], [], []
    for part in parts:
        print(f"{part} ...", file=sys.stderr, flush=True)
        module = importlib.import_module(part)
        if part == "growth":
            series = module.measure(bench, count, options.quick)
        elif part == "limits":
            limits = module.measure(options.build)
        else:
            rows += module.measure(bench, count, options.quick)
    data = report.data_of(rows, series, limits, about(bench, options.quick, count, parts))
    print(report.as_text(data))
    if options.write:
        report.write_page(data)
    else:
        report.save(data, pathlib.Path(options.build))


if __name__ == "__main__":
    main()
