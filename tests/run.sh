#!/bin/sh
# Every test on this machine: two compilers, sanitizers, valgrind, the installed
# library from C and C++, Python, Node, the examples and the README. Installs what is
# missing. Ends with the counts.
# SPDX-License-Identifier: MIT
set -eu

top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
work=$top/build-test
log=$work/log
cd "$top"
# shellcheck source=examples/packages.sh
. "$top/examples/packages.sh"
install_missing gcc g++ libc6-dev clang meson ninja-build pkg-config check libsubunit-dev \
    libcjson-dev valgrind binutils glpk-utils python3 python3-pytest python3-numpy python3-scipy \
    python3-erfa python3-pip python3-setuptools python3-wheel python3-matplotlib python3-pandas \
    python3-distributed mypy nodejs npm shellcheck make cmake doxygen mandoc abigail-tools \
    locales libclang-rt-14-dev gcovr
python=/usr/bin/python3
passed=0
failed=0
mkdir -p "$work"

title() {
    printf '\n== %s\n' "$1"
}

# One thing that is not counted by a test runner.
expect() {
    name=$1
    shift
    if "$@" >"$log" 2>&1; then
        passed=$((passed + 1))
        printf 'ok    %s\n' "$name"
    else
        failed=$((failed + 1))
        printf 'FAIL  %s\n' "$name"
        tail -n 40 "$log"
    fi
}

# Adds up what Check printed: "100%: Checks: 9, Failures: 0, Errors: 0".
count_checks() {
    sums=$(sed -n 's/^.*Checks: \([0-9]*\), Failures: \([0-9]*\), Errors: \([0-9]*\).*$/\1 \2 \3/p' "$1" |
        awk '{ c += $1; f += $2 + $3 } END { print c - f, f + 0 }')
    passed=$((passed + ${sums% *}))
    failed=$((failed + ${sums#* }))
    printf '%s checks passed, %s failed\n' "${sums% *}" "${sums#* }"
}

# unit NAME SETUP-ARGUMENTS... : builds and runs the unit tests once.
unit() {
    build=$work/$1
    title "unit tests: $1"
    shift
    [ -f "$build/build.ninja" ] || meson setup "$build" -Dtests=true -Dexamples=true -Dwerror=true \
        "$@" >"$log" 2>&1 || { tail -n 30 "$log"; failed=$((failed + 1)); return; }
    if ! ninja -C "$build" >"$log" 2>&1; then
        grep -E 'error|warning|FAILED' "$log" | head -n 40
        failed=$((failed + 1))
        return
    fi
    run_unit "$build"
}

# run_unit BUILD [WRAPPER] : runs them, through a wrapper if one is given.
run_unit() {
    result=0
    start=$work/start
    : >"$start"
    if [ $# -gt 1 ]; then
        meson test -C "$1" --no-rebuild --suite unit --timeout-multiplier 20 --wrap "$2" \
            >"$log" 2>&1 || result=$?
    else
        meson test -C "$1" --no-rebuild >"$log" 2>&1 || result=$?
    fi
    tests=$(find "$1/meson-logs" -name 'testlog*.txt' -newer "$start")
    count_checks "$tests"
    [ "$result" -eq 0 ] || { failed=$((failed + 1)); tail -n 200 "$tests"; }
}

unit gcc --buildtype=debugoptimized
CC=clang unit clang --buildtype=release
# without forking, so that leaks at the end of a program are seen
CK_FORK=no unit sanitized --buildtype=debug -Db_sanitize=address,undefined \
    -Dc_args=-fno-sanitize-recover=all

title "valgrind"
CK_FORK=no run_unit "$work/gcc" "valgrind --quiet --error-exitcode=9 --leak-check=full"

title "coverage"
expect "every line and branch of lib, but those marked with a reason" sh tests/coverage.sh

title "threads"
[ -f "$work/threads/build.ninja" ] || meson setup "$work/threads" -Dtests=true \
    --buildtype=debugoptimized -Db_sanitize=thread -Db_lundef=false >"$log" 2>&1 || true
expect "build with ThreadSanitizer" ninja -C "$work/threads" tests/threads
expect "shared and own objects in threads: no race, same bits" "$work/threads/tests/threads" 6 2

title "headers, symbols, installed library"
stage=$work/stage
for header in include/pvsize/*.h; do
    expect "$(basename "$header") alone, C99" \
        gcc -std=c99 -Wall -Wextra -Wpedantic -Werror -Iinclude -fsyntax-only -x c "$header"
    expect "$(basename "$header") alone, C++11" \
        g++ -std=c++11 -Wall -Wextra -Wpedantic -Werror -Iinclude -fsyntax-only -x c++ "$header"
done
expect "staged install" sh tests/consumer/build.sh "$work/gcc" "$stage"
for kind in c-shared c-static cpp-shared cpp-static; do
    expect "consumer, $kind" "$stage/$kind"
done
expect "no writable data in the library" sh tests/no_state.sh "$work/gcc/lib/libpvsize.a"
expect "banned calls" sh tests/banned.sh
expect "shell scripts" shellcheck -x examples/*.sh tests/*.sh tests/consumer/*.sh \
    tests/abi/*.sh tests/bench/*.sh tests/fuzz/*.sh doc/reference/*.sh .ci/run

expect "every call, argument and number is explained" sh doc/reference/make.sh "$work/calls"
for page in doc/man/*; do
    expect "$(basename "$page")" mandoc -T lint -W warning "$page"
done
expect "reference is fresh" sh tests/reference.sh "$work/gcc/lib/libpvsize.so" "$work"

title "interface"
expect "interface as in tests/abi" sh tests/abi/abi.sh check "$work/gcc/lib/libpvsize.so"
expect "forbidden changes are caught" sh tests/abi/demonstrate.sh

title "hostile input"
expect "fuzzed with the same inputs each time: calls curve job search weather year" \
    sh tests/fuzz/run.sh "${PVSIZE_FUZZ:-runs=300}"

title "same bits"
expect "other optimisation, another compiler, a comma locale" \
    sh tests/machines.sh 20 quick

title "instructions and allocations of the main operations"
$python -B tests/bench/counts.py check "$work/gcc" >"$log" 2>&1 || grep -v '^ok ' "$log" | tail -n 40
grep -E '^skipped|: renew' "$log" || true
sums=$(sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p' "$log" | tail -n 1)
sums=${sums:-0 1} # it did not come so far
printf '%s held, %s failed\n' "${sums% *}" "${sums#* }"
passed=$((passed + ${sums% *}))
failed=$((failed + ${sums#* }))
expect "6 % more instructions, or an allocation more, would be noticed" \
    $python -B tests/bench/counts.py demonstrate "$work/gcc"
expect "plain C finds the same: checks, best stringings, points" "$work/gcc/tests/bench" agree

title "Python"
if PVSIZE_LIBRARY=$work/gcc/lib/libpvsize.so PVSIZE_STAGED_LIBRARY=$(find "$stage" -name libpvsize.so) \
    PYTHONPATH=bindings/python $python -B -m pytest -q -p no:cacheprovider \
    bindings/python/tests tests/oracle >"$log" 2>&1; then
    tail -n 1 "$log"
else
    tail -n 60 "$log"
fi
count=$(sed -n 's/.*[^0-9]\([0-9][0-9]*\) passed.*/\1/p; s/^\([0-9][0-9]*\) passed.*/\1/p' "$log" | tail -n 1)
passed=$((passed + ${count:-0}))
count=$(sed -n 's/.*[^0-9]\([0-9][0-9]*\) failed.*/\1/p; s/^\([0-9][0-9]*\) failed.*/\1/p' "$log" | tail -n 1)
failed=$((failed + ${count:-0}))
grep -q passed "$log" || failed=$((failed + 1))

title "Node"
# what the lock file asks for, unless it is there
if [ -z "$(find bindings/node/node_modules/.package-lock.json -newer bindings/node/package-lock.json \
    2>/dev/null)" ]; then
    npm ci --prefix bindings/node --ignore-scripts --no-audit --no-fund >"$log" 2>&1 || tail -n 20 "$log"
fi
PVSIZE_LIBRARY=$work/gcc/lib/libpvsize.so node --test --test-reporter=tap bindings/node/test/*.test.js \
    >"$log" 2>&1 || grep -B 1 -A 20 '^ *not ok' "$log" | tail -n 60
count=$(sed -n 's/^# pass \([0-9]*\)$/\1/p' "$log")
bad=$(sed -n 's/^# \(fail\|cancelled\) \([1-9][0-9]*\)$/\2/p' "$log" | tail -n 1)
printf '%s passed, %s failed\n' "${count:-0}" "${bad:-0}"
passed=$((passed + ${count:-0}))
failed=$((failed + ${bad:-0}))
[ "${count:-0}" -gt 0 ] || failed=$((failed + 1))

title "examples and pages"
expect "job files and wrong input" sh tests/examples.sh "$work/sanitized/examples/size_job" \
    "$work/sanitized/examples/string_job"
expect "the page on job files has the keys that the reader takes" env \
    PVSIZE_LIBRARY="$work/gcc/lib/libpvsize.so" PYTHONPATH=bindings/python \
    $python -B doc/print_job_file.py "$work" "$work/gcc/examples/size_job"
expect "what the pages refer to" $python tests/links.py README.md DEVELOPERS.md doc/*.md
expect "samples of README and guides" $python tests/samples.py "$stage" \
    "$work/gcc/lib/libpvsize.so" "$work" README.md doc/*.md

printf '\n%s passed, %s failed\n' "$passed" "$failed"
[ "$failed" -eq 0 ]
