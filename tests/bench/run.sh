#!/bin/sh
# Builds for release, and measures (see run.py for what may be asked):
#
#   sh tests/bench/run.sh [--quick] [--write] [--rounds N] [PART...]
#
# What is missing is installed. The build stands in build-bench; so do the data and the plot, unless
# they are written to doc.
# SPDX-License-Identifier: MIT
set -eu

cd "$(dirname "$0")/../.."
# shellcheck source=examples/packages.sh
. examples/packages.sh
install_missing gcc libc6-dev meson ninja-build pkg-config check libsubunit-dev valgrind binutils \
    libgsl-dev glpk-utils coinor-cbc python3 python3-numpy python3-scipy python3-matplotlib
build=$(pwd)/build-bench
[ -f "$build/build.ninja" ] || meson setup "$build" -Dtests=true --buildtype=release >/dev/null
ninja -C "$build" tests/bench >/dev/null
PVSIZE_LIBRARY=$build/lib/libpvsize.so PYTHONPATH=bindings/python:tests/oracle \
    exec /usr/bin/python3 -B tests/bench/run.py "$build" "$@"
