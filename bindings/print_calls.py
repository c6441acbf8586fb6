"""Prints the calls that the headers declare, one a line, for the bindings to read:

    python3 bindings/print_calls.py [FOLDER]

writes FOLDER/python/pvsize/calls.txt and FOLDER/node/calls.txt, equal files; FOLDER is
this one unless given. A line is a name without its prefix, a letter for the result, and
one for each argument. A declaration that no letter can tell is an error, so nothing that
a foreign function interface cannot call gets into the headers unseen.

SPDX-License-Identifier: MIT
"""

import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
HEADERS = HERE.parent / "include" / "pvsize"

LEGEND = """\
# The public calls: printed from include/pvsize by bindings/print_calls.py, not by hand.
# name result arguments; all names begin with pvsize_.
# result     i number or status, s static text, - nothing
# argument   i number, d double, n count, s text; h handle, g diag, m memory hooks;
#            I D N H a place for a number, double, count, handle;
#            J E L numbers, doubles, handles to be read;
#            b buffer, its capacity, and the place for the length
"""

RESULTS = {"int32_t": "i", "pvsize_status": "i", "const char *": "s", "void": "-"}

VALUES = {"int32_t": "i", "double": "d", "size_t": "n", "int32_t *": "I", "double *": "D",
          "size_t *": "N", "const int32_t *": "J", "const double *": "E", "const char *": "s",
          "char *": "C", "pvsize_diag *": "g", "const pvsize_diag *": "g",
          "const pvsize_allocator *": "m"}


def letter(kind):
    """The letter of an argument's type."""
    if kind in VALUES:
        return VALUES[kind]
    for pattern, found in ((r"pvsize_\w+ \*\*", "H"), (r"const pvsize_\w+ \*const \*", "L"),
                           (r"(const )?pvsize_\w+ \*", "h")):
        if re.fullmatch(pattern, kind):
            return found
    raise SystemExit(f"no letter for the type {kind!r}")


def arguments(text):
    """The letters of an argument list as it stands in a header."""
    if text == "void":
        return ""
    kinds = [re.fullmatch(r"(.*?)\w+", argument.strip())[1].strip() for argument in text.split(",")]
    found = "".join(letter(kind) for kind in kinds).replace("CnN", "b")
    if "C" in found:
        raise SystemExit(f"a buffer without capacity and length: {text}")
    return found


def calls():
    """Lines of the list, in the order of the umbrella header."""
    umbrella = (HEADERS / "pvsize.h").read_text(encoding="utf-8")
    for name in re.findall(r'#include "(\w+\.h)"', umbrella):
        text = re.sub(r"/\*.*?\*/", " ", (HEADERS / name).read_text(encoding="utf-8"), flags=re.S)
        for result, call, given in re.findall(
                r"^PVSIZE_API ([^()]*?)\bpvsize_(\w+)\(([^()]*)\);", text, flags=re.M):
            line = f"{call} {RESULTS[result.strip()]} {arguments(' '.join(given.split()))}"
            yield line.rstrip()


def page():
    """The whole file."""
    return LEGEND + "".join(line + "\n" for line in calls())


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE
    for place in ("python/pvsize", "node"):
        (folder / place).mkdir(parents=True, exist_ok=True)
        (folder / place / "calls.txt").write_text(page(), encoding="utf-8")
