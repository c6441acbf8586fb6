#!/bin/sh
# Coverage of lib/ by the unit tests, and with the word "all" by the Python tests and examples as
# well: fails, and tells where, if a line or a branch is left that no mark takes out.
#
#   sh tests/coverage.sh [all]
#
# Debian: gcovr.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/.."
build="build-coverage"
[ -f "$build/build.ninja" ] || meson setup "$build" -Dtests=true -Dexamples=true -Db_coverage=true \
    "-Dc_args=-fprofile-update=atomic -DPVSZ_ONE_OF_EACH" --buildtype=debug >/dev/null
ninja -C "$build" >/dev/null
find "$build" -name '*.gcda' -delete
meson test -C "$build" --no-rebuild >"$build/tests.log" || { tail -n 30 "$build/tests.log"; exit 1; }
if [ "${1:-}" = all ]; then
    PVSIZE_LIBRARY=$PWD/$build/lib/libpvsize.so PYTHONPATH=bindings/python /usr/bin/python3 -B \
        -m pytest -q -p no:cacheprovider bindings/python/tests tests/oracle
    sh tests/examples.sh "$build/examples/size_job" "$build/examples/string_job"
fi
# print_ids is a tool of the build, which includes every table again: no part of the library
report() {
    gcovr --root . --filter 'lib/' --exclude-directories '.*print_ids.*' --exclude-throw-branches \
        --gcov-ignore-parse-errors "$build" --txt "$build/coverage.txt" "$@"
}

report --print-summary --fail-under-line 100 --fail-under-branch 100 && exit
# of each file what nothing ran: lines, and lines with a branch not taken
report
awk '/^lib/ && $4 != "100%" && $4 != "--%" { print "lines:", $0 }' "$build/coverage.txt"
report --branches
awk '/^lib/ && $4 != "100%" && $4 != "--%" { print "branches:", $0 }' "$build/coverage.txt"
exit 1
