#!/bin/sh
# Static analysis of the core: gcc -fanalyzer, clang-tidy (.clang-tidy says which checks and
# why), cppcheck. Nothing may be found. Some minutes; not part of tests/run.sh.
#
#   sh tests/analyse.sh [gcc|tidy|cppcheck]...
#
# Debian: gcc clang-tidy cppcheck.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/.."
[ $# -gt 0 ] || set -- gcc tidy cppcheck
work=$(pwd)/build-analyse
mkdir -p "$work"
defines="-DPVSIZE_BUILD -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0"
files=$(find lib -name '*.c' ! -name print_ids.c | sort)
failed=0

# verdict NAME LOG FLAGS : what was found and has no reason in analyse_known.txt is shown, and the
# reasons for such flags that no finding needs any more
verdict() {
    awk -v flags="$3" '
        /^#/ || /^$/ { next }
        FILENAME == ARGV[1] { if ($2 ~ flags) known[$1 " " $2] = 1; next }
        /(warning|error|performance|portability):/ {
            file = $1; sub(/:.*/, "", file)
            flag = $NF; gsub(/[][]|,-warnings-as-errors/, "", flag)
            if ((file " " flag) in known) { seen[file " " flag] = 1; next }
            print
        }
        END { for (k in known) if (!(k in seen)) print "no longer found: " k }
    ' tests/analyse_known.txt "$2" >"$2.found"
    if [ -s "$2.found" ]; then
        printf 'FAIL  %s\n' "$1"
        head -n 60 "$2.found"
        failed=1
    else
        printf 'ok    %s, %s files\n' "$1" "$(printf '%s\n' "$files" | wc -l)"
    fi
}

for tool in "$@"; do
    log=$work/$tool.log
    command -v "$(printf %s "$tool" | sed 's/^tidy/clang-tidy/')" >/dev/null || {
        printf 'FAIL  no %s here\n' "$tool"
        failed=1
        continue
    }
    case $tool in
    gcc)
        # shellcheck disable=SC2016
        printf '%s\n' "$files" | xargs -P 2 -n 4 sh -c 'for f; do
            known="-include tests/analyse.h"
            [ "$f" != lib/base/diag.c ] || known=
            gcc $known -std=c11 -O1 -Iinclude '"$defines"' -Wall -Wextra -Wpedantic -Wconversion \
                -Wfloat-conversion -Wshadow -Wnull-dereference -fanalyzer -c "$f" -o /dev/null
        done' x >"$log" 2>&1 || true
        verdict "gcc -fanalyzer" "$log" "^-W"
        ;;
    tidy)
        # shellcheck disable=SC2016
        printf '%s\n' "$files" | xargs -P 2 -n 4 sh -c 'for f; do
            known="-include tests/analyse.h"
            [ "$f" != lib/base/diag.c ] || known=
            clang-tidy --quiet "$f" -- -std=c11 -Iinclude '"$defines"' $known 2>/dev/null
        done' x | sed "s|^$(pwd)/||" | grep -E '(warning|error):' >"$log" || true
        verdict clang-tidy "$log" "^[a-z]+-"
        ;;
    cppcheck)
        # shellcheck disable=SC2086
        cppcheck --quiet --std=c11 --enable=warning,performance,portability -j 2 -Iinclude $defines \
            --template='{file}:{line}: {severity}: {message} [{id}]' $files >"$log" 2>&1 || true
        verdict cppcheck "$log" "^[A-Za-z]+$"
        ;;
    esac
done
exit "$failed"
