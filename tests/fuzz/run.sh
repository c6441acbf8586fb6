#!/bin/sh
# Fuzzes every harness for so many seconds each, two at a time, with AddressSanitizer and UBSan:
#
#   sh tests/fuzz/run.sh [SECONDS | runs=COUNT [HARNESS...]]
#
# With a count, so many inputs from the same seed: the same ones each time.
# Corpora grow in build-fuzz/corpus and start from tests/fuzz/seeds and
# examples/jobs; findings are put into
# build-fuzz/found and make the script fail. To see one: build-fuzz/NAME FILE.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/../.."
seconds=${1:-20}
[ $# -gt 0 ] && shift
[ $# -gt 0 ] || set -- calls curve job search weather
work=$(pwd)/build-fuzz
case $seconds in
runs=*) limit="-runs=${seconds#runs=} -seed=1" span="from one seed" ;;
*) limit=-max_total_time=$seconds span="$seconds s" ;;
esac
failed=0
mkdir -p "$work/found" "$work/lib"

flags="-std=c11 -g -O1 -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all
    -ffp-contract=off -DPVSIZE_BUILD -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0
    -Iinclude -Iexamples -Itests/trust"
# shellcheck disable=SC2016
printf '%s\n' lib/*/*.c examples/job_*.c tests/trust/draw.c tests/trust/invent.c |
    grep -v print_ids | xargs -P 2 -n 8 sh -c '
        flags=$0
        for file; do
            object=build-fuzz/lib/$(printf %s "$file" | tr / _).o
            [ "$object" -nt "$file" ] && [ "$object" -nt include/pvsize/ids.h ] &&
                [ -z "$(find lib examples tests/trust -name "*.[hd]*" -newer "$object")" ] ||
                clang $flags -c "$file" -o "$object" || exit 255
        done' "$flags"

# fuzz NAME : one harness
fuzz() {
    mkdir -p "$work/corpus/$1"
    # shellcheck disable=SC2086
    clang $flags -fsanitize=fuzzer "tests/fuzz/$1.c" "$work"/lib/*.o -lcjson -lm -o "$work/$1"
    quiet=
    seeds=tests/fuzz/seeds/$1
    if [ "$1" = job ]; then
        quiet=-close_fd_mask=2 # its messages
        seeds=examples/jobs
    fi
    # shellcheck disable=SC2086
    "$work/$1" -len_control=0 $limit -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 \
        -artifact_prefix="$work/found/$1-" $quiet "$work/corpus/$1" "$seeds" \
        >"$work/$1.log" 2>&1 || { touch "$work/$1.failed"; return; }
    rm -f "$work/$1.failed"
}

running=0
for name in "$@"; do
    rm -f "$work/$name.failed"
    fuzz "$name" &
    running=$((running + 1))
    [ $((running % 2)) -ne 0 ] || wait
done
wait
for name in "$@"; do
    if [ -e "$work/$name.failed" ]; then
        printf 'FAIL  %s\n' "$name"
        tail -n 40 "$work/$name.log"
        failed=1
    else
        printf 'ok    %-8s %s inputs, %s, %s\n' "$name" \
            "$(sed -n 's/^stat::number_of_executed_units: *//p' "$work/$name.log")" "$span" \
            "$(sed -n 's/.*\(cov: [0-9]*\).*/\1 edges/p' "$work/$name.log" | tail -n 1)"
    fi
done
exit "$failed"
