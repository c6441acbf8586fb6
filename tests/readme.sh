#!/bin/sh
# The code samples of the README are compiled and run, and their output is the
# one shown: each ```c or ```python block, followed by a ```text block.
set -eu
stage=$1
library=$2
work=$3
cd "$(dirname "$0")/.."
mkdir -p "$work/readme"

# block LANGUAGE N : the N-th block of that language; shown: the text after it
block() {
    awk -v open="\`\`\`$1" -v n="$2" '$0 == open && --n == 0 { on = 1; next }
        /^```/ && on { exit } on' README.md
}
shown() {
    awk -v open="\`\`\`$1" -v n="$2" '$0 == open && --n == 0 { seen = 1 }
        seen && $0 == "```text" { on = 1; next } /^```/ && on { exit } on' README.md
}
compare() {
    shown "$1" "$2" >"$work/readme/$1$2.want"
    [ -s "$work/readme/$1$2.want" ]
    diff -u "$work/readme/$1$2.want" "$work/readme/$1$2.got"
}

block c 1 >"$work/readme/sample.c"
[ -s "$work/readme/sample.c" ]
pc=$(find "$stage" -name pvsize.pc)
PKG_CONFIG_PATH=$(dirname "$pc")
PKG_CONFIG_SYSROOT_DIR=$stage
export PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR
# shellcheck disable=SC2046
gcc -std=c99 -Wall -Wextra -Wpedantic -Werror "$work/readme/sample.c" -o "$work/readme/sample" \
    $(pkg-config --cflags --libs pvsize) "-Wl,-rpath,$(dirname "$(dirname "$pc")")"
"$work/readme/sample" >"$work/readme/c1.got"
compare c 1

for n in 1 2 3; do
    block python $n >"$work/readme/sample$n.py"
    [ -s "$work/readme/sample$n.py" ]
    PVSIZE_LIBRARY=$library PYTHONPATH=bindings/python /usr/bin/python3 -B \
        "$work/readme/sample$n.py" >"$work/readme/python$n.got"
    compare python $n
done
