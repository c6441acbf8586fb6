#!/bin/sh
# The interface against its baseline: names with their versions, numbers, and the types that
# cross it (by libabigail's abidw). What is added passes; what was changed or taken away fails.
#
#   sh tests/abi/abi.sh check LIBRARY [IDS_HEADER]    against the baseline
#   sh tests/abi/abi.sh renew LIBRARY                 writes a new baseline
#
# LIBRARY is the shared library, built with -g. doc/abi.md says when the baseline may be renewed.
# SPDX-License-Identifier: MIT
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
top=$here/../..
what=$1
library=$2
header=${3:-$top/include/pvsize/ids.h}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export LC_ALL=C

# names and the versions that they have
symbols() {
    nm -D --defined-only "$library" | awk '$2 != "A" { print $3 }' | sort
}

# every constant of ids.h with its number, by the compiler: what the header says, not how
numbers() {
    grep -oE '^ +PVSIZE_[A-Z0-9_]+ = ' "$header" | tr -d ' =' >"$scratch/names"
    {
        printf '#include <stdio.h>\n#include "%s"\nint main(void) {\n' "$header"
        sed 's/.*/printf("%s %d\\n", "&", (int)&);/' "$scratch/names"
        printf 'return 0; }\n'
    } >"$scratch/numbers.c"
    gcc "$scratch/numbers.c" -o "$scratch/numbers"
    "$scratch/numbers" | sort
}

# what each function takes and gives
signatures() {
    abidw --no-show-locs --exported-interfaces-only "$library" |
        /usr/bin/python3 -B "$here/signatures.py"
}

# compare NAME : lines of the baseline that are no longer there
compare() {
    comm -23 "$here/$1" "$scratch/$1" >"$scratch/gone"
    comm -13 "$here/$1" "$scratch/$1" >"$scratch/new"
    printf '%s: %s as before, %s new\n' "$1" "$(comm -12 "$here/$1" "$scratch/$1" | wc -l)" \
        "$(wc -l <"$scratch/new")"
    if [ -s "$scratch/gone" ]; then
        printf 'changed or gone:\n'
        cat "$scratch/gone"
        return 1
    fi
}

symbols >"$scratch/symbols.txt"
numbers >"$scratch/numbers.txt"
signatures >"$scratch/signatures.txt"
case $what in
renew)
    cp "$scratch/symbols.txt" "$scratch/numbers.txt" "$scratch/signatures.txt" "$here"
    ;;
check)
    result=0
    for list in symbols numbers signatures; do
        [ "$(wc -l <"$scratch/$list.txt")" -gt 100 ] || { echo "$list: not read"; exit 2; }
        compare "$list.txt" || result=1
    done
    exit "$result"
    ;;
*)
    echo "usage: abi.sh check|renew LIBRARY" >&2
    exit 2
    ;;
esac
