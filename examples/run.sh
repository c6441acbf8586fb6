#!/bin/sh
# Builds libpvsize with its C example and sizes a job: the built-in, invented
# one, or what is given:
# run.sh [--markdown] [--working | --explained | --review | --readings] [FILE.json | -]
# SPDX-License-Identifier: MIT
set -eu

top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build=$top/build-example
# shellcheck source=examples/packages.sh
. "$top/examples/packages.sh"
install_missing gcc libc6-dev meson ninja-build pkg-config libcjson-dev python3

# The build speaks only when it fails.
quietly() {
    if ! output=$("$@" 2>&1); then
        printf '%s\n' "$output" >&2
        exit 2
    fi
}

[ -f "$build/build.ninja" ] || quietly meson setup "$build" "$top" -Dexamples=true
quietly meson compile -C "$build" size_job string_job

status=0
"$build/examples/size_job" "$@" || status=$?

if [ $# -eq 0 ]; then
    echo
    echo "== the best stringings of another invented job"
    echo
    "$build/examples/string_job" || status=$?
    echo
    PVSIZE_LIBRARY=$build/lib/libpvsize.so PYTHONPATH=$top/bindings/python \
        python3 -B "$top/examples/compare_ratios.py"
    echo
    echo "every step of the working: sh $0 --working (--explained: with every symbol; --markdown)"
    echo "what may go on the inverter: sh $0 --review"
    echo "a day of readings, with faults put in: sh $0 --readings $top/examples/jobs/test_day.json"
    echo "a job that breaks limits:  sh $0 $top/examples/jobs/must_fail.json"
fi
exit "$status"
