#!/bin/sh
# Other machines, compilers and C libraries. What the library tells of invented jobs is summed
# up (see tests/trust/tell.h) and compared with amd64, gcc -O2. In any other sum than those of
# the sun, the weather and years, which call the C library's functions, a difference is a failure.
# Where "units" stands with a variant, the unit tests are run there, too, with the few words of
# Check in tests/support/alone.
#
#   sh tests/machines.sh [JOBS [WORD]]    only variants with WORD in the name
#
# Compilers that are not there are left out and named; the packages are Debian's gcc-i686-linux-gnu
# gcc-aarch64-linux-gnu gcc-arm-linux-gnueabihf gcc-s390x-linux-gnu with their libc6-dev-*-cross,
# musl-tools, gcc-mingw-w64-x86-64, gcc-mingw-w64-i686, qemu-user, wine64, wine32:i386, locales,
# emscripten.
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
flags="-std=c11 -ffp-contract=off -fno-fast-math -fno-trapping-math -ftree-vectorize -g
    -DPVSIZE_MAJOR=0 -DPVSIZE_MINOR=1 -DPVSIZE_PATCH=0 -Iinclude -Itests/trust -Itests/support/alone"
sources=$(find lib -name '*.c' ! -name print_ids.c | sort)
invented="tests/trust/draw.c tests/trust/invent.c tests/trust/sum.c
    tests/trust/tell.c tests/trust/tell_year.c"
alone="tests/support/pv_test.c tests/support/alone/check.c"

# fail WORDS : says so, and shows the end of a log
fail() {
    printf 'FAIL  %s\n' "$1"
    tail -n 20 "${2:-/dev/null}"
    failed=1
}

# build NAME COMPILER FLAGS : the library and what the tests share, as objects, and the program bits
build() {
    folder=$work/$1.objects
    rm -rf "$folder"
    mkdir -p "$folder/lib" "$folder/tests"
    # shellcheck disable=SC2016
    compile='for f; do $compiler $flags -c "$f" -o "$to/$(printf %s "$f" | tr / _).o" || exit 255; done'
    # shellcheck disable=SC2086
    {
        printf '%s\n' $sources | compiler=$2 flags="$flags $3 -DPVSIZE_BUILD" to=$folder/lib \
            xargs -P 2 -n 8 sh -c "$compile" x &&
            printf '%s\n' $invented $alone tests/trust/bits.c | compiler=$2 flags="$flags $3" \
                to=$folder/tests xargs -P 2 -n 3 sh -c "$compile" x &&
            $2 $3 "$folder/tests"/tests_trust_*.o "$folder"/lib/*.o -o "$work/$1.run" -lm
    } >"$work/$1.log" 2>&1
}

# compare NAME : its sums with those of the reference
compare() {
    grep -vE '^(sun|weather|year) ' "$work/$1.sums" | tr -d '\r' >"$work/$1.strict"
    grep -E '^(sun|weather|year) ' "$work/$1.sums" | tr -d '\r' >"$work/$1.loose"
    if ! cmp -s "$work/$1.strict" "$work/reference.strict"; then
        diff "$work/$1.strict" "$work/reference.strict" | grep '^<' >"$work/$1.log" || true
        fail "$1: other bits in:" "$work/$1.log"
    elif ! cmp -s "$work/$1.loose" "$work/reference.loose"; then
        printf 'ok    %s (sun, weather and year by another libm)\n' "$1"
    else
        printf 'ok    %s\n' "$1"
    fi
}

# sum_up NAME RUNNER : runs bits
sum_up() {
    if $2 "$work/$1.run" "$jobs" >"$work/$1.sums" 2>"$work/$1.log"; then
        compare "$1"
    else
        fail "$1 does not run" "$work/$1.log"
    fi
}

# units NAME COMPILER FLAGS RUNNER : the unit tests, one by one
units() {
    folder=$work/$1.objects
    checks=0
    broken=0
    with=$(printf '%s\n' "$invented" | tr ' ' '\n' | sed "/./!d; s|/|_|g; s|.*|$folder/tests/&.o|")
    for test in tests/unit/test_*.c; do
        # shellcheck disable=SC2086
        if $2 $flags $3 "$test" "$folder"/tests/tests_support_*.o $with "$folder"/lib/*.o \
            -o "$work/$1.test" -lm >"$work/$1.log" 2>&1 &&
            $4 "$work/$1.test" >"$work/$1.log" 2>&1; then
            count=$(tr -d '\r' <"$work/$1.log" | sed -n 's/.*Checks: \([0-9]*\),.*/\1/p')
            checks=$((checks + ${count:-0}))
        else
            broken=$((broken + 1))
            fail "$1: $(basename "$test" .c)" "$work/$1.log"
        fi
    done
    [ "$broken" -ne 0 ] || printf 'ok    %s: %s unit tests\n' "$1" "$checks"
}

# dll NAME COMPILER FLAGS RUNNER : exports what the interface has, by C's plain names (of functions
# called as __cdecl), and tells the same through it
dll() {
    # shellcheck disable=SC2086
    $2 $3 -shared "$work/$1.objects"/lib/*.o -o "$work/$1.dll" -Wl,--out-implib,"$work/$1.dll.a" &&
        $2 $3 "$work/$1.objects/tests"/tests_trust_*.o "$work/$1.dll.a" -o "$work/$1-dll.run" -lm
    "${2%gcc}objdump" -p "$work/$1.dll" | sed -n 's/.* \(pvs[a-z]*_[A-Za-z0-9_@]*\)$/\1/p' | sort >"$work/$1.names"
    if sed 's/@.*//' tests/abi/symbols.txt | sort | diff - "$work/$1.names" >"$work/$1.log"; then
        printf 'ok    %s-dll: %s exports\n' "$1" "$(wc -l <"$work/$1.names")"
    else
        fail "$1-dll: exports" "$work/$1.log"
    fi
    sum_up "$1-dll" "$4"
}

# variant NAME COMPILER FLAGS RUNNER [units]
variant() {
    case $1 in *"$word"*) ;; *) return 0 ;; esac
    tool=${4%% *}
    if ! command -v "$2" >/dev/null || { [ -n "$tool" ] && ! command -v "$tool" >/dev/null; }; then
        left_out="$left_out $1"
        return 0
    fi
    if ! build "$1" "$2" "$3"; then
        fail "$1 does not build" "$work/$1.log"
        return 0
    fi
    sum_up "$1" "$4"
    [ "${5:-}" != units ] || units "$1" "$2" "$3" "$4"
    case $1 in windows*) dll "$1" "$2" "$3" "$4" ;; esac
    rm -rf "$work/$1.objects"
}

# Windows: without installation, in a place of its own
export WINEPREFIX="$work/wine" WINEDEBUG=-all
wine64=/usr/lib/wine/wine64
wine32=${PVSIZE_WINE32:-/usr/lib/wine/wine}
ansi="-O2 -static -D__USE_MINGW_ANSI_STDIO=1"

build reference gcc -O2 || fail "the reference does not build" "$work/reference.log"
"$work/reference.run" "$jobs" >"$work/reference.sums"
grep -vE '^(sun|weather|year) ' "$work/reference.sums" >"$work/reference.strict"
grep -E '^(sun|weather|year) ' "$work/reference.sums" >"$work/reference.loose"
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
    tests=
    [ "$level" -ne 2 ] || tests=units
    variant "i386-gcc-O$level" i686-linux-gnu-gcc "-O$level -msse2 -mfpmath=sse -static" '' $tests
    variant "arm64-gcc-O$level" aarch64-linux-gnu-gcc "-O$level -static" qemu-aarch64 $tests
    variant "armhf-gcc-O$level" arm-linux-gnueabihf-gcc "-O$level -static" qemu-arm $tests
    variant "s390x-gcc-O$level" s390x-linux-gnu-gcc "-O$level -static" qemu-s390x $tests
done
variant amd64-musl-O2 musl-gcc "-O2 -static" '' units
# every value that a branch looks at was set: the C library apart, all is built for it
variant msan clang "-O1 -fsanitize=memory -fno-sanitize-recover=all" '' units
variant windows64-O2 x86_64-w64-mingw32-gcc "$ansi" "$wine64" units
variant windows32-O2 i686-w64-mingw32-gcc "$ansi -msse2 -mfpmath=sse" "$wine32" units

# emscripten looks for its tools where Debian's node finds them by itself
export NODE_PATH="${NODE_PATH:-/usr/share/nodejs}"
small="-sTOTAL_STACK=65536 -sSTACK_OVERFLOW_CHECK=2" # what newer ones give unless told
for level in 0 2; do
    variant "wasm32-O$level" emcc "-O$level $small -sSINGLE_FILE=1 -sALLOW_MEMORY_GROWTH=1" node
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
    LOCPATH=$work "$work/reference.run" "$jobs" de_DE.UTF-8 >"$work/locale.sums"
    compare locale
else
    left_out="$left_out locale(de_DE.UTF-8)"
fi
[ -z "$left_out" ] || printf 'left out, no compiler or emulator:%s\n' "$left_out"
exit "$failed"
