#!/bin/sh
# The checked-in header must be what the tables print.
set -eu
"$1" | diff -u "$2" - || { echo "stale: run 'meson compile -C BUILD regenerate'" >&2; exit 1; }
