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

PARTS = ["checks", "search", "sweep", "curve_points", "year_hours"]


def about(bench, quick, rounds, parts):
    compiler = bench.compiler()
    return (f"{compiler}, release build, processor time, medians of {rounds} interleaved rounds and quartiles "
            "in brackets." + (" A quick run: smaller, and with fewer rounds." if quick else "")
            + ("" if parts == PARTS + ["growth", "limits"] else f" Only: {', '.join(parts)}."))


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--rounds", type=int)
    parser.add_argument("parts", nargs="*", metavar="PART")
    options = parser.parse_intermixed_args()
    parts = options.parts or PARTS + ["growth", "limits"]
    unknown = set(parts) - set(PARTS) - {"growth", "limits"}
    if unknown or (options.rounds is not None and options.rounds < 2):
        parser.error(f"unknown: {', '.join(unknown)}" if unknown else "--rounds: 2 or more")
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
