"""A class for each kind of object, made from its table. Their types stand in _kinds.pyi,
printed by print_kinds.py.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

from ._base import _kind_name, _lib, _text
from ._spec import _CLASSES, Spec
from ._terms import _kind_numbers, _TERMS


def _make_class(number):
    name = _kind_name(number)
    parts = [_lib.pvsize_kind_part_at(number, i)
             for i in range(_lib.pvsize_kind_part_count(number))]
    plurals = {_text(_lib.pvsize_kind_plural(part)): _kind_name(part) for part in parts}
    singles = {_kind_name(part): _kind_name(part) for part in parts
               if _kind_name(part) not in _TERMS[name]}
    lines = [_text(_lib.pvsize_kind_text(number)) + ".", ""]
    lines += [f"{row.name}: {row.text}" + (f" [{row.unit}]" if row.unit else "")
              for row in _TERMS[name].values()]
    return type(name.title().replace("_", ""), (Spec,), {
        "__doc__": "\n".join(lines), "kind": name, "_number": number,
        "_plurals": plurals, "_part_names": {**singles, **plurals}})

_CLASSES.update({_kind_name(number): _make_class(number) for number in _kind_numbers()
                 if _lib.pvsize_kind_is_spec(number)})
globals().update({cls.__name__: cls for cls in _CLASSES.values()})
__all__ = [cls.__name__ for cls in _CLASSES.values()]
