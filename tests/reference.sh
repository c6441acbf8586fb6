#!/bin/sh
# doc/parameters.md and doc/rules.md must be what the tables print.
set -eu
cd "$(dirname "$0")/.."
mkdir -p "$2/reference"
PVSIZE_LIBRARY=$1 PYTHONPATH=bindings/python /usr/bin/python3 -B doc/print_reference.py "$2/reference"
diff -u doc/parameters.md "$2/reference/parameters.md"
diff -u doc/rules.md "$2/reference/rules.md"
