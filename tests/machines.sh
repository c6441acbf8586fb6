#!/bin/sh
# The same bits on other machines: what the library tells of invented jobs is summed up (see
# tests/trust/tell.h) and compared with amd64, gcc -O2. In any other sum than those of the
# sun and the weather, which call the C library's functions, a difference is a failure.
#
#   sh tests/machines.sh [JOBS [WORD]]    only variants with WORD in the name
#
# Compilers that are not there are left out and named; the packages are Debian's gcc-i686-linux-gnu
# gcc-aarch64-linux-gnu gcc-arm-linux-gnueabihf gcc-s390x-linux-gnu with their libc6-dev-*-cross,
# musl-tools, gcc-mingw-w64-x86-64, qemu-user, wine64, locales, emscripten.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/.."
jobs=${1:-40}
word=${2:-}
work=$(pwd)/build-machines
mkdir -p "$work"
failed=0
left_out=
# as meson.build has them
flags="-std=c11 -ffp-contract=off -fno-fast-math -fno-trapping-math -ftree-vectorize"
# shellcheck disable=SC2046
set -- $(find lib -name '*.c' ! -name print_ids.c | sort) tests/trust/draw.c tests/trust/invent.c \
    tests/trust/tell.c tests/trust/bits.c

# build NAME COMPILER FLAGS... : the program build-machines/NAME
build() {
    out=$work/$1
    compiler=$2
    extra=$3
    shift 3
    # shellcheck disable=SC2086
    "$compiler" $flags $extra -DPVSIZE_BUILD -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0 -Iinclude \
        "$@" -o "$out" -lm >"$out.log" 2>&1 || { tail -n 20 "$out.log"; return 1; }
}

# compare NAME : its sums with those of the reference
compare() {
    strict=$(grep -vE '^(sun|weather) ' "$work/$1.sums" | tr -d '\r')
    loose=$(grep -E '^(sun|weather) ' "$work/$1.sums" | tr -d '\r')
    if [ "$strict" != "$(grep -vE '^(sun|weather) ' "$work/reference.sums")" ]; then
        printf 'FAIL  %s: other bits in:\n' "$1"
        printf '%s\n' "$strict" | diff - "$work/reference.sums" | grep '^<' | grep -vE ' (sun|weather) ' || true
        failed=1
    elif [ "$loose" != "$(grep -E '^(sun|weather) ' "$work/reference.sums")" ]; then
        printf 'ok    %s (sun and weather by another libm)\n' "$1"
    else
        printf 'ok    %s\n' "$1"
    fi
}

# variant NAME COMPILER FLAGS RUNNER
variant() {
    case $1 in *"$word"*) ;; *) return 0 ;; esac
    tool=${4%% *}
    if ! command -v "$2" >/dev/null || { [ -n "$tool" ] && ! command -v "$tool" >/dev/null; }; then
        left_out="$left_out $1"
        return 0
    fi
    name=$1
    compiler=$2
    extra=$3
    runner=$4
    shift 4
    # shellcheck disable=SC2086
    if ! build "$name" "$compiler" "$extra" $sources; then
        printf 'FAIL  %s does not build\n' "$name"
        failed=1
    elif ! $runner "$work/$name" "$jobs" >"$work/$name.sums"; then
        printf 'FAIL  %s does not run\n' "$name"
        failed=1
    else
        compare "$name"
    fi
}

sources=$*
build reference gcc -O2 "$@"
"$work/reference" "$jobs" >"$work/reference.sums"
# the two that every run of the tests makes
variant quick-gcc-O0 gcc -O0 ''
variant quick-clang-O3 clang -O3 ''
for level in 0 1 2 3 s; do
    variant "amd64-gcc-O$level" gcc "-O$level" ''
    variant "amd64-clang-O$level" clang "-O$level" ''
done
# vector instructions and fused multiply-add are there, and must change nothing
for machine in x86-64-v2 x86-64-v3; do
    grep -q ' avx2 .*' /proc/cpuinfo || continue
    variant "amd64-gcc-O3-$machine" gcc "-O3 -march=$machine" ''
    variant "amd64-clang-O3-$machine" clang "-O3 -march=$machine" ''
done
for level in 0 2 3; do
    variant "i386-gcc-O$level" i686-linux-gnu-gcc "-O$level -msse2 -mfpmath=sse -static" ''
    variant "arm64-gcc-O$level" aarch64-linux-gnu-gcc "-O$level -static" qemu-aarch64
    variant "armhf-gcc-O$level" arm-linux-gnueabihf-gcc "-O$level -static" qemu-arm
    variant "s390x-gcc-O$level" s390x-linux-gnu-gcc "-O$level -static" qemu-s390x
done
variant amd64-musl-O2 musl-gcc "-O2 -static" ''
variant windows-O2 x86_64-w64-mingw32-gcc "-O2 -static -D__USE_MINGW_ANSI_STDIO=1" wine64

# emscripten looks for its tools where Debian's node finds them by itself
export NODE_PATH="${NODE_PATH:-/usr/share/nodejs}"
for level in 0 2; do
    variant "wasm32-O$level" emcc "-O$level -sSINGLE_FILE=1 -sALLOW_MEMORY_GROWTH=1" node
done

# the module of WebAssembly and the sample that uses it, by the commands of doc/install.md
module() {
    mkdir -p "$work/module"
    ln -sfn "$(pwd)" "$work/module/libpvsize"
    sed -n '/^## WebAssembly/,/^## /s/^    //p' doc/install.md >"$work/module/commands"
    if (cd "$work/module" && rm -rf build-wasm && sh -eu commands) >"$work/module.log" 2>&1 &&
        grep -q '^array 1: .* 627.69 V, at most 600 V: exceeds' "$work/module.log"; then
        printf 'ok    wasm32-module\n'
    else
        printf 'FAIL  wasm32-module\n'
        tail -n 20 "$work/module.log"
        failed=1
    fi
}
name=wasm32-module
case $name in *"$word"*)
    if command -v emcc >/dev/null && command -v node >/dev/null; then
        module
    else
        left_out="$left_out $name"
    fi ;;
esac

# whatever the locale: the sums of the reference, run where the decimal point is a comma
if localedef -i de_DE -f UTF-8 "$work/de_DE.UTF-8" 2>/dev/null; then
    LOCPATH=$work "$work/reference" "$jobs" de_DE.UTF-8 >"$work/locale.sums"
    compare locale
else
    left_out="$left_out locale(de_DE.UTF-8)"
fi
[ -z "$left_out" ] || printf 'left out, no compiler or emulator:%s\n' "$left_out"
exit "$failed"
