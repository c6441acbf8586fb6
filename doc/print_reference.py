"""Writes parameters.md and rules.md from the library's own tables.

    print_reference.py FOLDER

A test runs it into another folder and compares, so that neither page can go
stale. SPDX-License-Identifier: MIT
"""

import pathlib
import sys

import pvsize

NOTE = "<!-- Made by doc/print_reference.py from the library's tables; do not edit. -->\n"


def cell(text):
    return str(text).replace("|", "\\|")


def allowed(term):
    if term.choices:
        return ", ".join(f"`{choice}`" for choice in term.choices)
    if term.type == "text":
        return f"text, at most {term.range[1]:g} bytes"
    if term.type == "index":
        return f"index of {term.refers_to}, from 0 (in a job file also its name)"
    whole = ", whole" if term.type == "count" else ""
    return f"{term.range[0]:g} to {term.range[1]:g}{whole}"


def need(term):
    if term.need != "default":
        return term.need
    return f"default {term.default if term.choices else format(term.default, 'g')}"


def table(heads, rows):
    yield "| " + " | ".join(heads) + " |"
    yield "|" + "---|" * len(heads)
    for row in rows:
        yield "| " + " | ".join(row) + " |"
    yield ""


def parameters():
    yield NOTE
    yield "# Parameters\n"
    yield ("Every kind of object has one table. A value is a number in the unit stated, the\n"
           "name of a choice, or text. *required*: what every data sheet or job has, and forms and\n"
           "the job reader insist on. A spec can be made without it; a check then goes on, says that it\n"
           "is missing, does not assess what needs it, and its outcome is at best incomplete; only\n"
           "without what says where a part belongs (`array.input`, `cable.circuit`, `reading.array`) it\n"
           "fails. *optional*: rules that need it are not assessed without it; of a number it can be\n"
           "stated that there is none. *default*: that value counts unless another is given; one that\n"
           "was used is listed in the report.\n")
    for kind in pvsize.kinds():
        if kind in ("figure", "quantity", "rule", "attribute"):
            continue
        cls = getattr(pvsize, kind.title().replace("_", ""))
        yield f"## {kind}\n"
        yield cls.__doc__.splitlines()[0] + "\n"
        if cls._plurals:
            yield "Parts: " + ", ".join(cls._plurals) + ".\n"
        yield from table(
            ["name", "unit", "allowed", "need", "what it is"],
            ([f"`{term.name}`", cell(term.unit), allowed(term), need(term), cell(term.text)]
             for term in pvsize.terms(kind).values()))
    yield "## Attributes of what is bought\n"
    yield "What a bill tells things apart by; see `pvsize/bill.h`.\n"
    yield from table(["name", "unit", "what it is"],
                     ([f"`{term.name}`", cell(term.unit), cell(term.text)]
                      for term in pvsize.terms("attribute").values()))


def quantities():
    yield "## Quantities\n"
    yield "What the library computes, for every object of the kind. Own rules may limit each.\n"
    yield from table(["name", "of each", "unit", "what it is"],
                     ([f"`{term.name}`", term.scope, cell(term.unit), cell(term.text)]
                      for term in pvsize.terms("quantity").values()))


def compared(rules, name):
    value, compare, limit_of, _ = rules.definition(name)
    return f"`{value}` {compare.replace('_', ' ')} `{limit_of}`"


def sourced(rules, full_name, name, value):
    source, known = rules.source(full_name)
    return [f"`{name}`", value, cell(source), known]


def preset(name, title):
    rules = pvsize.Rules(name)
    yield f"## `{name}`\n"
    yield title + ".\n"
    yield from table(["rule", "severity", "source", "how it is known"],
                     (sourced(rules, rule, rule, rules.severity(rule))
                      for rule in rules.names() if rules.severity(rule) != "off"))
    yield from table(["figure", "value", "source", "how it is known"],
                     (sourced(rules, "figure." + term.name, term.name,
                              f"{rules.figure(term.name):g} {cell(term.unit)}")
                      for term in pvsize.terms("figure").values()
                      if rules.figure(term.name) is not None))


def rules():
    empty = pvsize.Rules(None)
    yield NOTE
    yield "# Rules\n"
    yield ("A rule compares a value with a limit, for every object of its kind. A rule set says\n"
           "how severely each holds (*must*, *should*, *note*, *off*), what its figures are, where\n"
           "that is written, and how it is known: *read* in a source, from *memory*, from memory\n"
           "and *uncertain*, common *practice*, the *maker*'s, the *user*'s, or this library's own\n"
           "choice (*house*).\n")
    yield "## All rules\n"
    yield from table(["rule", "of each", "compares", "what it says"],
                     ([f"`{term.name}`", term.scope, compared(empty, term.name), cell(term.text)]
                      for term in pvsize.terms("rule").values()))
    yield "## Figures\n"
    yield from table(["name", "unit", "allowed", "what it is"],
                     ([f"`{term.name}`", cell(term.unit), allowed(term), cell(term.text)]
                      for term in pvsize.terms("figure").values()))
    yield from quantities()
    for name, title in pvsize.presets().items():
        yield from preset(name, title)


def main():
    folder = pathlib.Path(sys.argv[1])
    for name, lines in (("parameters.md", parameters()), ("rules.md", rules())):
        (folder / name).write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
