"""Finding libpvsize and declaring its calls.

SPDX-License-Identifier: MIT
"""

import ctypes
import ctypes.util
import operator
import os
import pathlib
import subprocess

from ctypes import POINTER, c_char_p, c_double, c_int32, c_size_t, c_void_p

class _Whole:
    """A whole number that fits: ctypes would cut it short in silence."""

    @staticmethod
    def from_param(value):
        try:
            whole = operator.index(value)
        except TypeError:
            whole = None
        if whole is None or not -2**31 <= whole < 2**31:
            raise TypeError(f"a whole number of 32 bits is needed, not {value!r}")
        return c_int32(whole)


class _Double:
    """A number, of Python or of an array."""

    @staticmethod
    def from_param(value):
        number = number_of(value)
        if number is None:
            raise TypeError(f"a number is needed, not {value!r}")
        return c_double(number)


def number_of(value):
    """A float of what is a number; None of a text, a truth value and all else."""
    if isinstance(value, (str, bytes, bool)):
        return None
    try:
        return float(value)
    except (TypeError, ValueError, OverflowError):
        return None


# The letters of calls.txt. Places and what is read take the same pointers.
_TYPES = {
    "h": [c_void_p], "g": [c_void_p], "m": [c_void_p],
    "H": [POINTER(c_void_p)], "L": [POINTER(c_void_p)],
    "i": [_Whole], "I": [POINTER(c_int32)], "J": [POINTER(c_int32)],
    "d": [_Double], "D": [POINTER(c_double)], "E": [POINTER(c_double)],
    "n": [c_size_t], "N": [POINTER(c_size_t)],
    "s": [c_char_p],
    "b": [c_char_p, c_size_t, POINTER(c_size_t)],
}


def _read_calls():
    """The public calls, name: (result, arguments)."""
    found = {}
    text = (pathlib.Path(__file__).parent / "calls.txt").read_text(encoding="utf-8")
    for line in text.splitlines():
        if not line.startswith("#"):
            name, result, *arguments = line.split()
            found[name] = (result, "".join(arguments))
    return found


SIGNATURES = _read_calls()

_RESULTS = {"i": c_int32, "s": c_char_p, "-": None}


def _from_pkg_config():
    try:
        found = subprocess.run(["pkg-config", "--variable=libdir", "pvsize"],
                               capture_output=True, text=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        return None
    return pathlib.Path(found.stdout.strip()) / "libpvsize.so.0"


def _candidates():
    """PVSIZE_LIBRARY; a build folder of the source tree; the system."""
    if os.environ.get("PVSIZE_LIBRARY"):
        yield os.environ["PVSIZE_LIBRARY"]
        return
    for folder in pathlib.Path(__file__).resolve().parents:
        if (folder / "lib" / "pvsize.map").exists():
            builds = sorted(folder.glob("build*/lib/libpvsize.so"),
                            key=lambda path: path.stat().st_mtime, reverse=True)
            yield from (str(path) for path in builds)
    yield "libpvsize.so.0"
    path = _from_pkg_config()
    if path:
        yield str(path)
    name = ctypes.util.find_library("pvsize")
    if name:
        yield name


def load():
    """The library, every call declared. Raises ImportError where none is found."""
    tried = []
    for path in _candidates():
        try:
            library = ctypes.CDLL(path)
        except OSError as error:
            tried.append(str(error))
            continue
        for name, (result, arguments) in SIGNATURES.items():
            call = getattr(library, "pvsize_" + name)
            call.restype = _RESULTS[result]
            call.argtypes = [t for letter in arguments for t in _TYPES[letter]]
        return library
    raise ImportError("libpvsize not found; set PVSIZE_LIBRARY to its path. " + "; ".join(tried))
