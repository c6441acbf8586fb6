#!/bin/sh
# The code samples of the README are compiled and run, and their output is the
# one shown: each ```c or ```python block, followed by a ```text block.
set -eu
stage=$1
library=$2
work=$3
cd "$(dirname "$0")/.."
mkdir -p "$work/readme"

# block LANGUAGE : the first block of that language; shown: the text after it
block() {
    awk -v open="\`\`\`$1" '$0 == open { on = 1; next } /^```/ && on { exit } on' README.md
}
shown() {
    awk -v open="\`\`\`$1" '$0 == open { seen = 1 } seen && $0 == "```text" { on = 1; next }
        /^```/ && on { exit } on' README.md
}
compare() {
    shown "$1" >"$work/readme/$1.want"
    [ -s "$work/readme/$1.want" ]
    diff -u "$work/readme/$1.want" "$work/readme/$1.got"
}

block c >"$work/readme/sample.c"
[ -s "$work/readme/sample.c" ]
pc=$(find "$stage" -name pvsize.pc)
PKG_CONFIG_PATH=$(dirname "$pc")
PKG_CONFIG_SYSROOT_DIR=$stage
export PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR
# shellcheck disable=SC2046
gcc -std=c99 -Wall -Wextra -Wpedantic -Werror "$work/readme/sample.c" -o "$work/readme/sample" \
    $(pkg-config --cflags --libs pvsize) "-Wl,-rpath,$(dirname "$(dirname "$pc")")"
"$work/readme/sample" >"$work/readme/c.got"
compare c

block python >"$work/readme/sample.py"
[ -s "$work/readme/sample.py" ]
PVSIZE_LIBRARY=$library PYTHONPATH=bindings/python /usr/bin/python3 -B "$work/readme/sample.py" \
    >"$work/readme/python.got"
compare python
