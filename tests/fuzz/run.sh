#!/bin/sh
# Fuzzes every harness with AddressSanitizer and UBSan, two at a time:
#
#   sh tests/fuzz/run.sh [SECONDS | runs=COUNT | afl=SECONDS [HARNESS...]]
#
# For so many seconds each; or so many inputs from the same seed, the same ones each time; or
# so many seconds each with AFL++ (Debian: afl++) in the place of libFuzzer, one at a time.
# Corpora grow in build-fuzz/corpus and start from tests/fuzz/seeds and examples/jobs;
# findings are put into build-fuzz/found and make the script fail. To see one:
# build-fuzz/NAME FILE.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/../.."
how=${1:-20}
[ $# -gt 0 ] && shift
[ $# -gt 0 ] || set -- calls curve job search weather year
work=$(pwd)/build-fuzz
compiler=clang
objects=$work/lib
sanitizers=-fsanitize=fuzzer-no-link,address,undefined
case $how in
runs=*) limit="-runs=${how#runs=} -seed=1" span="from one seed" ;;
afl=*)
    limit=${how#afl=} span="${how#afl=} s of AFL++"
    compiler=afl-clang-fast
    objects=$work/afl-lib
    sanitizers=-fsanitize=address,undefined
    export AFL_QUIET=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_SKIP_CPUFREQ=1 AFL_NO_UI=1
    export AFL_NO_AFFINITY=1 ASAN_OPTIONS=abort_on_error=1:symbolize=0:detect_leaks=1
    command -v afl-fuzz >/dev/null || { echo "no afl-fuzz here (Debian: afl++)"; exit 2; }
    ;;
*) limit=-max_total_time=$how span="$how s" ;;
esac
failed=0
mkdir -p "$work/found" "$objects"

flags="-std=c11 -g -O1 $sanitizers -fno-sanitize-recover=all
    -ffp-contract=off -DPVSIZE_BUILD -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0
    -Iinclude -Iexamples -Itests/trust"
# shellcheck disable=SC2016
printf '%s\n' lib/*/*.c examples/job_*.c tests/trust/draw.c tests/trust/invent.c |
    grep -v print_ids | compiler=$compiler objects=$objects xargs -P 2 -n 8 sh -c '
        flags=$0
        for file; do
            object=$objects/$(printf %s "$file" | tr / _).o
            [ "$object" -nt "$file" ] && [ "$object" -nt include/pvsize/ids.h ] &&
                [ -z "$(find lib examples tests/trust -name "*.[hd]*" -newer "$object")" ] ||
                $compiler $flags -c "$file" -o "$object" || exit 255
        done' "$flags"
# what is left of sources that are gone
for object in "$objects"/*.o; do
    name=$(basename "$object" .o)
    for file in lib/*/*.c examples/job_*.c tests/trust/*.c; do
        [ "$(printf %s "$file" | tr / _)" != "$name" ] || continue 2
    done
    rm "$object"
done

# seeds_of NAME : where its first inputs are
seeds_of() {
    [ "$1" = job ] && echo examples/jobs || echo "tests/fuzz/seeds/$1"
}

# with_libfuzzer NAME, with_afl NAME : one harness
with_libfuzzer() {
    quiet=
    [ "$1" != job ] || quiet=-close_fd_mask=2 # its messages
    # shellcheck disable=SC2086
    "$work/$1" -len_control=0 $limit -timeout=120 -rss_limit_mb=2048 -print_final_stats=1 \
        -artifact_prefix="$work/found/$1-" $quiet "$work/corpus/$1" "$(seeds_of "$1")" \
        >"$work/$1.log" 2>&1
}

with_afl() {
    rm -rf "$work/afl/$1"
    mkdir -p "$work/afl"
    # what libFuzzer has found already is a start
    cp "$(seeds_of "$1")"/* "$work/corpus/$1" 2>/dev/null || true
    afl-fuzz -i "$work/corpus/$1" -o "$work/afl/$1" -V "$limit" -t 20000 -m none -- "$work/afl-$1" || return 1
    sed -n 's/^execs_done *: */stat::number_of_executed_units: /p; s/^edges_found *: */cov: /p' \
        "$work/afl/$1/default/fuzzer_stats"
    for finding in "$work/afl/$1"/default/crashes/id* "$work/afl/$1"/default/hangs/id*; do
        [ ! -f "$finding" ] || cp "$finding" "$work/found/$1-afl-$(basename "$finding" | tr -c 'a-zA-Z0-9\n' _)"
    done
    [ -z "$(find "$work/found" -name "$1-afl-*")" ]
}

fuzz() {
    mkdir -p "$work/corpus/$1"
    rm -f "$work/$1.failed"
    case $how in
    afl=*)
        # shellcheck disable=SC2086
        {
            $compiler $flags -fsanitize=fuzzer "tests/fuzz/$1.c" "$objects"/*.o -lcjson -lm -o "$work/afl-$1" &&
                with_afl "$1"
        } >"$work/$1.log" 2>&1 || touch "$work/$1.failed"
        ;;
    *)
        # shellcheck disable=SC2086
        {
            $compiler $flags -fsanitize=fuzzer "tests/fuzz/$1.c" "$objects"/*.o -lcjson -lm -o "$work/$1" \
                >"$work/$1.log" 2>&1 && with_libfuzzer "$1"
        } || touch "$work/$1.failed"
        ;;
    esac
}

running=0
for name in "$@"; do
    fuzz "$name" &
    running=$((running + 1))
    case $how in afl=*) wait ;; esac
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
