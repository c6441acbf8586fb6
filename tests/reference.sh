#!/bin/sh
# The pages of doc that are printed from the library must be what it prints.
set -eu
cd "$(dirname "$0")/.."
mkdir -p "$2/reference"
for script in print_reference print_exercises print_job_file; do
    PVSIZE_LIBRARY=$1 PYTHONPATH=bindings/python /usr/bin/python3 -B "doc/$script.py" "$2/reference"
done
for page in parameters rules exercises job_file; do
    diff -u "doc/$page.md" "$2/reference/$page.md"
done
