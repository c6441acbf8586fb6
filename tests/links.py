#!/usr/bin/python3
"""What the pages refer to is there: links to files, and files named as code.

links.py PAGE... : a name in capitals, or with a star, dots or a dollar, is a placeholder.

SPDX-License-Identifier: MIT
"""
import os
import re
import sys

TOP = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
LINK = re.compile(r"\]\(([^)#:]+)\)")
FILE = re.compile(r"`([\w./-]+\.(?:c|h|def|py|sh|md|json|build|map|[13])|[\w-]+(?:/[\w-]+)+/?)`")
# where a file may stand that is named without its folder
FOLDERS = ["", "lib", "lib/tables", "lib/tables/presets", "lib/physics", "include/pvsize",
           "include", "tests", "tests/unit", "tests/oracle", "lib/rules", "lib/layout",
           "lib/design", "lib/class", "lib/yield", "doc", "bindings/python",
           "bindings/python/pvsize"]


def missing(page):
    """Names on a page that lead nowhere."""
    with open(page, encoding="utf-8") as file:
        text = re.sub(r"^```.*?^```", "", file.read(), flags=re.M | re.S)
    for name in LINK.findall(text):
        if not os.path.exists(os.path.join(os.path.dirname(page), name)):
            yield name
    own = set(re.findall(r"`([\w./-]+)`:$", text, re.M))  # files that the page itself shows
    for name in FILE.findall(text):
        if name in own or re.search(r"[A-Z]{3}", name) and not name.endswith(".md"):
            continue
        if name.startswith("build"):
            continue  # made by the tests
        if not any(os.path.exists(os.path.join(TOP, folder, name)) for folder in FOLDERS):
            yield name


def main():
    """Looks through all pages named."""
    found = [(page, name) for page in sys.argv[1:] for name in missing(page)]
    for page, name in found:
        print(f"{page}: {name} is not there")
    sys.exit(bool(found))


main()
