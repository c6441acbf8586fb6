#!/bin/sh
# Shows that the check of the interface can fail: a copy of the library with a forbidden change
# is refused, each time with the line that names it; one with an addition passes.
# SPDX-License-Identifier: MIT
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
top=$here/../..
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cp -r "$top/include" "$top/lib" "$scratch"
cd "$scratch"
mkdir objects
flags="-std=c11 -g -O0 -fPIC -fvisibility=hidden -DPVSIZE_BUILD -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1
    -DPVSIZE_PATCH=0 -Iinclude"
count=0

# compile FILE...
compile() {
    # shellcheck disable=SC2086,SC2016
    printf '%s\n' "$@" | xargs -P 2 -n 8 sh -c 'flags=$0; for f; do
        gcc $flags -c "$f" -o objects/$(printf %s "$f" | tr / _).o || exit 255; done' "$flags"
}

# judge WANTED WORDS : links, checks; 0 is wanted for what passes
judge() {
    gcc -shared objects/*.o -Wl,--version-script=lib/pvsize.map -o changed.so -lm
    result=0
    sh "$here/abi.sh" check changed.so "$scratch/include/pvsize/ids.h" >out 2>&1 || result=$?
    if { [ "$1" = passes ] && [ "$result" -ne 0 ]; } ||
        { [ "$1" = fails ] && [ "$result" -ne 1 ]; } || ! grep -qF -- "$2" out; then
        printf 'wanted: %s, with: %s; status %s\n' "$1" "$2" "$result"
        cat out
        exit 1
    fi
    count=$((count + 1))
}

# change FILE SED-SCRIPT : must change it; the old one is kept
change() {
    cp "$1" kept
    sed "$2" kept >"$1"
    ! cmp -s kept "$1" || { echo "nothing was changed by: $2"; exit 1; }
}

# shellcheck disable=SC2046
compile $(find lib -name '*.c' ! -name print_ids.c)
judge passes "symbols.txt"

# a function is added
printf '#include "pvsize/pvsize.h"\nPVSIZE_API int32_t pvsize_added(int32_t n);\nint32_t pvsize_added(int32_t n) { return n; }\n' >lib/added.c
compile lib/added.c
judge passes "1 new"
rm objects/lib_added.c.o

# the type of an argument
cp include/pvsize/certificates.h header
sed 's/pvsize_certificate_rating(int32_t zone/pvsize_certificate_rating(int64_t zone/' header >include/pvsize/certificates.h
change lib/scheme/certificates.c 's/pvsize_certificate_rating(int32_t zone/pvsize_certificate_rating(int64_t zone/'
compile lib/scheme/certificates.c
judge fails "pvsize_certificate_rating@@PVSIZE_0 (int:32, double:64 *"
cp kept lib/scheme/certificates.c
cp header include/pvsize/certificates.h
compile lib/scheme/certificates.c

# a function is taken away
change lib/pvsize.map 's/local:/local: pvsize_certificate_rating;/'
judge fails "pvsize_certificate_rating"
cp kept lib/pvsize.map

# a function gets another version
change lib/pvsize.map 's/PVSIZE_0/PVSIZE_9/'
judge fails "pvsize_check@@PVSIZE_0"
cp kept lib/pvsize.map

# the number of a constant
change include/pvsize/ids.h 's/PVSIZE_E_CAPACITY = 401/PVSIZE_E_CAPACITY = 402/'
judge fails "PVSIZE_E_CAPACITY 401"
cp kept include/pvsize/ids.h

# a constant is taken away
change include/pvsize/ids.h '/PVSIZE_E_CAPACITY = 401/d'
judge fails "PVSIZE_E_CAPACITY 401"
cp kept include/pvsize/ids.h

# the struct that callers fill
change include/pvsize/base.h 's/    void \*user;/    void *user;\n    int64_t flags;/'
# shellcheck disable=SC2046
compile $(find lib -name '*.c' ! -name print_ids.c)
judge fails "struct pvsize_allocator bits 192"

printf '%s libraries judged as they should be\n' "$count"
