#!/bin/sh
# Makes the reference of every call, in HTML: make.sh FOLDER. Fails where a function, an
# argument, a number or a type of the public headers is not explained.
# SPDX-License-Identifier: MIT
set -eu
folder=$(mkdir -p "$1" && CDPATH='' cd -- "$1" && pwd)
cd "$(dirname "$0")/../.."
# Doxygen says nothing of these
if grep -En '^ *PVSIZE_\w+ = -?[0-9]+,$' include/pvsize/*.h; then
    echo "numbers without a word on them" >&2
    exit 1
fi
version=$(sed -n "s/^  version: '\(.*\)',$/\1/p" meson.build)
{
    cat doc/reference/Doxyfile
    echo "PROJECT_NUMBER = $version"
    echo "OUTPUT_DIRECTORY = \"$folder\""
} | doxygen -
