"""Writes exercises.md: ten ready exercises with their answers at the end.

    print_exercises.py FOLDER

A test runs it into another folder and compares: the answers are computed anew.
SPDX-License-Identifier: MIT
"""

import pathlib
import sys

import pvsize

NOTE = "<!-- Made by doc/print_exercises.py from the library; do not edit. -->\n"
READY = [("one_input", 1), ("one_input", 2), ("one_input", 3), ("two_inputs", 1), ("two_inputs", 2),
         ("parallel", 1), ("parallel", 5), ("fault", 1), ("fault", 4), ("fault", 6)]


def below(sheet, number):
    """A sheet as a chapter of this page: its headings one level down, numbered in this
    page, the caution left to the head of the page."""
    lines = [line for line in sheet.splitlines() if not line.startswith("> ")]
    lines[0] = f"# {number}. {lines[0][2:]}"
    return "\n".join("#" + line if line.startswith("#") else line for line in lines)


def page():
    yield NOTE
    yield "# Ten exercises\n"
    yield ("Invented jobs for the class, by the rule set `asnzs_5033_2021`. `examples/exercise.py`\n"
           "prints as many more as are wanted, one for each level and seed, and marks answers: it\n"
           "names the mistake that leads to a wrong one. The answers stand at the end.\n")
    yield f"> {pvsize.caution()}\n"
    for sheet, head in (("task", None), ("solution", "# Answers\n")):
        if head:
            yield head
        for number, (level, seed) in enumerate(READY, 1):
            with pvsize.Exercise(level, seed) as exercise:
                yield below(exercise.sheet(sheet, markdown=True), number) + "\n"


def main():
    folder = pathlib.Path(sys.argv[1])
    text = "\n".join(page())
    while "\n\n\n" in text:
        text = text.replace("\n\n\n", "\n\n")
    (folder / "exercises.md").write_text(text.rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
