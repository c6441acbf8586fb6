"""Writes job_file.md: the keys of the job files that the example programs read.

    print_job_file.py FOLDER            writes the page
    print_job_file.py FOLDER PROGRAM    also gives each key of each object to the reader:
                                        size_job must know it, and no other

Objects and their keys come from the library's tables, as in the reader; the keys that are the
reader's own from its source, so that none can be missing here. SPDX-License-Identifier: MIT
"""

import json
import pathlib
import re
import subprocess
import sys

import pvsize
from print_reference import allowed, cell, need, table

NOTE = "<!-- Made by doc/print_job_file.py from the library's tables and the reader; do not edit. -->\n"
READER = pathlib.Path(__file__).resolve().parents[1] / "examples"
# What is said of the reader's own keys, by the objects that hold them.
OWN = {
    "the job": {
        "modules": "modules that arrays and a search may name in the place of an object; each needs a `name`",
        "rules": "the rule set; without it the preset `asnzs_5033_2021`",
        "search": "what `string_job` is to find: an object of kind [search](#search); its system is the job itself"},
    "rules": {
        "preset": "name of a preset; `asnzs_5033_2021` unless given",
        "title": "title at the head of the report",
        "figures": "object: the name of a figure with its value, a number with its unit as anywhere, or "
                   "an object of `value` and `source`",
        "severity": "object: the name of a rule, own ones too, with `off`, `note`, `should` or `must`",
        "own": "list of own rules"},
    "a figure": {"value": "the number, with its unit", "source": "where it is written"},
    "an own rule": {
        "name": "a word of a to z, 0 to 9 and _",
        "title": "what it says; the name unless given",
        "value": "what is limited, such as `quantity.string_voc_cold`",
        "compare": "`at_most`, `at_least` or `more_than`",
        "limit": "number with its unit; beside `limit_of` a plain number, the factor on it",
        "limit_of": "what sets the limit, such as `input.max_voltage`",
        "severity": "`off`, `note`, `should` or `must`",
        "source": "where it is written; `given in the job` unless given"}}


def check_own():
    """The keys that stand in the source of the reader are those that something is said of."""
    text = "".join((READER / name).read_text(encoding="utf-8")
                   for name in ("job_reader.c", "job_rules.c"))
    lists = [re.findall(r'static const char \*const \w+_key = "(\w+)"', text)]
    lists += [re.findall(r'"(\w+)"', body) for body in
              re.findall(r"static const char \*const keys\[\] = \{(.*?)\};", text, re.S)]
    if sorted(map(sorted, lists)) != sorted(map(sorted, OWN.values())):
        raise SystemExit(f"the reader has the keys {lists}, this page {list(map(list, OWN.values()))}")


def part_key(part):
    return part.kind if part.most == 1 else part.plural


def kinds():
    """Kinds that stand in a job, the whole before its parts: (kind, its parts)."""
    found, waiting = {}, ["system", "search"]
    while waiting:
        kind = waiting.pop(0)
        if kind not in found:
            found[kind] = [part for part in pvsize.describe_kind(kind).parts
                           if (kind, part.kind) != ("search", "system")]
            waiting += [part.kind for part in found[kind]]
    return found


def shape(part):
    if part.most == 1:
        return "one object" + ("" if part.fewest else ", or none")
    return f"list of {part.fewest} to {part.most} objects"


def rows_of(kind, parts):
    yield from ([f"`{part_key(part)}`", "", f"{shape(part)}: [{part.kind}](#{part.kind})",
                 "required" if part.fewest else "optional",
                 cell(pvsize.describe_kind(part.kind).text)] for part in parts)
    yield from ([f"`{term.name}`", cell(term.unit), allowed(term), need(term), cell(term.text)]
                for term in pvsize.terms(kind).values())


HEAD = """# The job file of the example programs

`size_job` and `string_job` read a job from a file of JSON. **The format is the examples', not the
library's:** the library reads no file, and promises nothing about this one. It shows that a reader
need know no parameter by name; a program of yours takes its jobs in its own form. All of
`examples/jobs` are jobs; their data are invented.

- The file is one object, the job: a [system](#system), with some keys of the reader's own.
- A key is the name of a parameter, or of a part: in the singular where there is at most one, else
  in the plural, with a list.
- A number is plain, or a text with its unit as it stands below: `600`, `"600 V"`. Units are not
  converted. `"none"` states that there is none, where the need is *optional*.
- A choice is its name; for `yes` and `no` also `true` and `false`.
- An index is the place of what it names, from 0, or its `name`.
- A key that begins with an underscore is a remark. `null` is no value.
- *required*: the reader insists on it (the library does not: there a rule is then not assessed).
- What is wrong is told with its place in the file, what was given and what is allowed; a misspelt
  key with the one that may be meant. At most 20 errors are shown.
"""


def page():
    yield NOTE
    yield HEAD
    for name, keys in OWN.items():
        yield f"## Of the reader itself: {name}\n"
        yield from table(["key", "what it is"],
                         ([f"`{key}`", text] for key, text in keys.items()))
    for kind, parts in kinds().items():
        yield f"## {kind}\n"
        yield pvsize.describe_kind(kind).text + ".\n"
        yield from table(["key", "unit", "allowed", "need", "what it is"], rows_of(kind, parts))


def wrap(kind, holders, key):
    """A job in which an object of a kind has a key."""
    inner, at = {key: 0}, kind
    while at not in ("system", "search"):
        owner, part = holders[at]
        inner = {part_key(part): inner if part.most == 1 else [inner]}
        at = owner
    return inner if at == "system" else {"search": inner}


def knows(program, job):
    """Whether the reader finds no unknown key in a job; it may be wrong in other ways."""
    told = subprocess.run([program, "-"], input=json.dumps(job), capture_output=True, text=True,
                          check=False).stderr
    return "unknown key" not in told


def try_keys(program):
    all_kinds = kinds()
    holders = {part.kind: (kind, part) for kind, parts in reversed(all_kinds.items()) for part in parts}
    for kind, parts in all_kinds.items():
        names = {part_key(part) for part in parts} | set(pvsize.terms(kind))
        for key in [*names, "wombat"]:
            if knows(program, wrap(kind, holders, key)) != (key in names):
                raise SystemExit(f"{kind}: {key} is not taken as the page has it")
    objects = {"the job": lambda key: {key: 0}, "rules": lambda key: {"rules": {key: 0}},
               "a figure": lambda key: {"rules": {"figures": {"isc_factor": {key: 0}}}},
               "an own rule": lambda key: {"rules": {"own": [{key: 0}]}}}
    for name, job in objects.items():
        for key in [*OWN[name], "wombat"]:
            if knows(program, job(key)) != (key in OWN[name]):
                raise SystemExit(f"{name}: {key} is not taken as the page has it")


def main():
    check_own()
    folder = pathlib.Path(sys.argv[1])
    (folder / "job_file.md").write_text("\n".join(page()).rstrip() + "\n", encoding="utf-8")
    if len(sys.argv) > 2:
        try_keys(sys.argv[2])


if __name__ == "__main__":
    main()
