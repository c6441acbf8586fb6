#!/bin/sh
# The library keeps no state: no writable data, no common symbols; and all that
# the static library shows begins with the project's own prefixes.
set -eu
writable=$(objdump -t "$1" | grep -E ' O (\.data|\.bss|\.tdata|\.tbss|\*COM\*)[[:space:]]' || true)
if [ -n "$writable" ]; then
    printf 'writable data:\n%s\n' "$writable" >&2
    exit 1
fi
strange=$(nm -g --defined-only "$1" | awk 'NF == 3 && $3 !~ /^(pvsize|pvsz)_/ { print $3 }')
if [ -n "$strange" ]; then
    printf 'names without prefix:\n%s\n' "$strange" >&2
    exit 1
fi
