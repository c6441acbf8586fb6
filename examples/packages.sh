#!/bin/sh
# Installs the Debian packages that are missing; does nothing, and needs no
# network, when all are there. Sourced by run.sh here and in tests.
# SPDX-License-Identifier: MIT

have() {
    command -v "$1" >/dev/null 2>&1
}

installed() {
    have dpkg-query && [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# A tool counts, wherever it came from; the package is one way to get it.
present() {
    installed "$1" && return 0
    case $1 in
    gcc | g++ | clang | meson | python3 | valgrind | shellcheck | make | cmake | doxygen | mandoc) have "$1" ;;
    ninja-build) have ninja ;;
    nodejs) have node ;;
    npm) have npm ;;
    pkg-config) have pkg-config ;;
    libcjson-dev) have pkg-config && pkg-config --exists libcjson ;;
    check) have pkg-config && pkg-config --exists check ;;
    libc6-dev) ! have dpkg-query ;;
    *) false ;;
    esac
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

install_missing() {
    missing=
    for package in "$@"; do
        present "$package" || missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    if ! have apt-get || { [ "$(id -u)" -ne 0 ] && ! have sudo; }; then
        echo "please install:$missing" >&2
        exit 2
    fi
    echo "installing:$missing" >&2
    as_root apt-get update >&2
    # word splitting is wanted: one word for each package
    # shellcheck disable=SC2086
    as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y --no-install-recommends $missing >&2
}
