#!/bin/sh
# Builds libpvsize with its C example and sizes a job: the built-in, invented
# one, or what is given: run.sh [--markdown] [--working] [FILE.json | -]
# SPDX-License-Identifier: MIT
set -eu

top=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build=$top/build-example
packages='gcc libc6-dev meson ninja-build pkg-config libcjson-dev python3'

have() {
    command -v "$1" >/dev/null 2>&1
}

installed() {
    have dpkg-query && [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# The tool counts, wherever it came from; the package is one way to get it.
present() {
    case $1 in
    gcc) have cc || have gcc || have clang ;;
    meson | python3) have "$1" ;;
    ninja-build) have ninja || have ninja-build ;;
    pkg-config) have pkg-config || have pkgconf ;;
    libcjson-dev) installed "$1" || { have pkg-config && pkg-config --exists libcjson; } ;;
    libc6-dev) installed "$1" || ! have dpkg-query ;;
    esac
}

missing=
for package in $packages; do
    present "$package" || missing="$missing $package"
done

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

if [ -n "$missing" ]; then
    if ! have apt-get || { [ "$(id -u)" -ne 0 ] && ! have sudo; }; then
        echo "run.sh: please install:$missing" >&2
        exit 2
    fi
    echo "run.sh: installing:$missing" >&2
    as_root apt-get update >&2
    # word splitting is wanted: one word for each package
    # shellcheck disable=SC2086
    as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y --no-install-recommends $missing >&2
fi

# The build speaks only when it fails.
quietly() {
    if ! output=$("$@" 2>&1); then
        printf '%s\n' "$output" >&2
        exit 2
    fi
}

[ -f "$build/build.ninja" ] || quietly meson setup "$build" "$top" -Dexamples=true
quietly meson compile -C "$build" size_job

status=0
"$build/examples/size_job" "$@" || status=$?

if [ $# -eq 0 ]; then
    echo
    echo "every step of the working: sh $0 --working (--markdown for Markdown)"
    echo "a job that breaks limits:  sh $0 $top/examples/jobs/must_fail.json"
fi
exit "$status"
