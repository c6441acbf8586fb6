"""Prints the types of the kinds of object, from the tables of the library:

    PYTHONPATH=bindings/python python3 bindings/python/print_kinds.py [FOLDER]

writes _kinds.pyi in FOLDER, which is the package unless given.

SPDX-License-Identifier: MIT
"""

import keyword
import pathlib
import sys
import textwrap

import pvsize
from pvsize._spec import _CLASSES
from pvsize._terms import _TERMS

HEAD = '''"""Printed from the tables of the library by print_kinds.py, not by hand.

SPDX-License-Identifier: MIT
"""

import typing
from typing import Literal

from ._spec import Spec

_Get = typing.TypeVar("_Get", covariant=True)
_Set = typing.TypeVar("_Set", contravariant=True)

class _Parameter(typing.Generic[_Get, _Set]):
    """Reads as the first type and takes the second."""
    def __get__(self, owner: Spec, kind: typing.Any) -> _Get: ...
    def __set__(self, owner: Spec, value: _Set) -> None: ...
'''


def types(term):
    """What a parameter reads as, and what it takes."""
    plain = {"text": "str", "number": "float", "choice": f"Literal{list(term.choices)}"}.get(
        term.type, "int").replace("'", '"')
    if term.need == "optional" and term.type in ("number", "count"):
        plain += ' | Literal["none"]'
    taken = plain + (" | bool" if "yes" in term.choices else "")
    return plain + ("" if term.default is not None else " | None"), taken + " | None"


def comment(term):
    """What the table says of it."""
    unit = f" [{term.unit}]" if term.unit else ""
    span = f", {term.range[0]:g} to {term.range[1]:g}" if term.type in ("number", "count") else ""
    default = "" if term.default is None else f", {term.default} unless given"
    return textwrap.wrap(term.text + unit + span + default, 92)


def print_kind(kind, cls):
    """Lines of a class."""
    owner = _TERMS[kind]
    yield f"\nclass {cls.__name__}(Spec):"
    yield f'    """{pvsize.describe_kind(kind).text}."""'
    yield "    def __init__(self, *,"
    rows = [term for term in owner.values() if not keyword.iskeyword(term.name)]
    for term in rows:
        yield f"                 {term.name}: {types(term)[1]} = ...,"
    for name, part in cls._part_names.items():
        one = f"{_CLASSES[part].__name__} | dict[str, typing.Any]"
        given = f"typing.Sequence[{one}]" if name in cls._plurals else one
        yield f"                 {name}: {given} = ...,"
    for term in owner.values():
        if term not in rows:
            yield f"                 **{term.name}_: typing.Any,  # {term.name} is a word of Python"
    yield "                 ) -> None: ..."
    for term in rows:
        yield from (f"    # {line}" for line in comment(term))
        yield f"    {term.name}: _Parameter[{', '.join(types(term))}]"
    for plural, part in cls._plurals.items():
        yield f"    @property\n    def {plural}(self) -> tuple[{_CLASSES[part].__name__}, ...]: ..."


def page():
    """The whole file."""
    lines = [line for kind, cls in _CLASSES.items() for line in print_kind(kind, cls)]
    names = ",\n           ".join(f'"{cls.__name__}"' for cls in _CLASSES.values())
    return HEAD + "\n".join(lines) + f"\n\n__all__ = [{names}]\n"


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pvsize.__path__[0])
    (folder / "_kinds.pyi").write_text(page(), encoding="utf-8")
