#!/bin/sh
# The shared library exports pvsize_ and nothing else, and all that the headers declare.
set -eu
library=$1
headers=$(dirname "$0")/../include/pvsize
exported=$(nm -D --defined-only "$library" | awk '$2 != "A" { sub(/@.*/, "", $3); print $3 }' | sort)
foreign=$(printf '%s\n' "$exported" | grep -v '^pvsize_' || true)
if [ -n "$foreign" ]; then
    printf 'foreign symbols:\n%s\n' "$foreign" >&2
    exit 1
fi
declared=$(grep -h 'PVSIZE_API' "$headers"/*.h | grep -o 'pvsize_[a-z0-9_]*(' | tr -d '(' | sort -u)
if [ "$declared" != "$exported" ]; then
    printf '%s\n' "$declared" > /tmp/declared.$$
    printf '%s\n' "$exported" | diff /tmp/declared.$$ - >&2 || true
    rm -f /tmp/declared.$$
    exit 1
fi
printf '%s symbols, all pvsize_\n' "$(printf '%s\n' "$exported" | wc -l)"
