#!/bin/sh
# Calls that the core must not make: files, clock, locale, environment, output,
# memory outside the hooks, text without bounds, functions that differ between
# C libraries on decision paths. print_ids.c is a build tool, not the core.
set -eu
cd "$(dirname "$0")/.."
words='printf|fprintf|sprintf|snprintf|puts|fopen|getenv|setlocale|localeconv|time|clock|rand|srand|strtod|strtol|atof|atoi|calloc|realloc|strcpy|strcat|abort|exit|assert'
# in numbers that no verdict and no count hangs on they are needed: lib/physics
functions='pow|exp|log|sin|cos|tan|asin|acos|atan|atan2|expm1|log1p'
found=$(grep -nwE "($words) *\(" lib/*/*.c lib/*/*.h | grep -v print_ids || true)
decisions=$(grep -nwE "($functions) *\(" lib/*/*.c lib/*/*.h | grep -v '^lib/physics/' || true)
memory=$(grep -nwE '(malloc|free) *\(' lib/*/*.c lib/*/*.h | grep -v 'lib/base/memory.c' || true)
if [ -n "$found$decisions$memory" ]; then
    printf '%s\n%s\n%s\n' "$found" "$decisions" "$memory" >&2
    exit 1
fi
