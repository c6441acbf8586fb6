#!/bin/sh
# Installs a build into a stage and builds four programs of somebody else's
# against it, through pkg-config alone: C99 and C++11, shared and static.
set -eu
build=$1
stage=$2
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)

rm -rf "$stage"
DESTDIR=$stage meson install -C "$build" --no-rebuild --quiet
pc=$(find "$stage" -name pvsize.pc)
libdir=$(dirname "$(dirname "$pc")")
PKG_CONFIG_PATH=$(dirname "$pc")
PKG_CONFIG_SYSROOT_DIR=$stage
export PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR

# shellcheck disable=SC2046
for language in c cpp; do
    case $language in
    c) compile='gcc -std=c99' ;;
    cpp) compile='g++ -std=c++11' ;;
    esac
    $compile -Wall -Wextra -Wpedantic -Wconversion -Werror "$here/consumer.$language" \
        -o "$stage/$language-shared" $(pkg-config --cflags --libs pvsize) "-Wl,-rpath,$libdir"
    $compile -Wall -Wextra -Wpedantic -Wconversion -Werror "$here/consumer.$language" \
        -o "$stage/$language-static" $(pkg-config --cflags pvsize) \
        "$libdir/libpvsize.a" $(pkg-config --static --libs-only-other pvsize) -lm
done
ldd "$stage/c-shared" | grep -q 'libpvsize.so.0 => '"$libdir"
! ldd "$stage/c-static" | grep -q libpvsize
