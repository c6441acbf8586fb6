"""Specs: data sheets, places and designs.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import (_a, _bytes, _do, _get, _get_text, _Handle, _handle_of, _lib, _number,
                    number_of, _shown, StateError)
from ._terms import _did_you_mean, _kind_number, _term_number, _TERMS

_S = typing.TypeVar("_S", bound="Spec")
_STATE_SET, _STATE_NONE = 1, 3
_CLASSES: dict[str, typing.Any] = {}  # kinds by name, filled by _kinds


class Spec(_Handle):
    """One thing with parameters and parts. Parameters are attributes: numbers
    in the unit of their table row, texts and choices as str, None where not
    set and without a default, "none" where the maker states none. Parts are read as tuples of copies."""

    kind: str = ""
    _free = staticmethod(_lib.pvsize_spec_free)

    def __init__(self, *unnamed, **values):
        if type(self) is Spec:
            raise TypeError("make a spec of one of the kinds, such as Module")
        if unnamed:
            raise TypeError(f"{type(self).__name__}: values by name are needed, not "
                            f"{_shown(unnamed[0])}")
        super().__init__()
        _do("spec_new", self._number, None, ctypes.byref(self._handle))
        for name, value in values.items():
            self._give(name, value)

    @classmethod
    def _wrap(cls, handle):
        spec = cls.__new__(cls)
        spec._handle = handle
        return spec

    def _give(self, name, value):
        if name not in self._part_names:
            setattr(self, name, value)
            return
        cls = _CLASSES[self._part_names[name]]
        many = isinstance(value, (list, tuple))
        if many != (name in self._plurals):
            wanted = f"a list of {name}" if name in self._plurals else f"one {cls.kind}"
            raise TypeError(f"{self.kind}.{name}: {wanted} is needed, not "
                            f"{'a list' if many else _shown(value)}")
        for part in value if many else [value]:
            part = cls(**part) if isinstance(part, dict) else part
            if not isinstance(part, cls):
                raise TypeError(f"{self.kind}.{name}: {_a(cls.__name__)} is needed, or its values "
                                f"by name, not {_shown(part)}")
            self.add(part)

    def _term(self, name):
        """Row of a parameter; refuses what is none, with the name that may be meant."""
        term = _TERMS[self.kind].get(name)
        if term is None:
            hint = _did_you_mean(self.kind, name) or f"; it has {', '.join(_TERMS[self.kind])}"
            raise AttributeError(f"{self.kind} has no parameter {name!r}{hint}")
        return term

    def _refuse(self, term, value):
        """A value of a type that the parameter does not take: the library says what it does."""
        shown = _shown(value)
        if term.type == "text" or shown in term.choices:
            raise TypeError(f"{self.kind}.{term.name}: a text is needed, not {shown}")
        _do("spec_set_text", self._handle, term.number, _bytes(shown))

    def __setattr__(self, name, value):
        if name.startswith("_"):
            object.__setattr__(self, name, value)
            return
        term = self._term(name)
        if value is None:
            _do("spec_unset", self._handle, term.number)
        elif isinstance(value, bool) and term.type == "choice":
            _do("spec_set_text", self._handle, term.number, b"yes" if value else b"no")
        elif isinstance(value, str) and value == "none" and term.type in ("number", "count"):
            _do("spec_set_none", self._handle, term.number)
        elif isinstance(value, str):
            _do("spec_set_text", self._handle, term.number, _bytes(value))
        elif term.type == "text" or number_of(value) is None:
            self._refuse(term, value)
        else:
            _do("spec_set_number", self._handle, term.number, value)

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        if name in self._part_names:
            return self.parts(self._part_names[name])
        term = self._term(name)
        try:
            if term.type in ("text", "choice"):
                return _get_text("spec_get_text", self._handle, term.number)
            value = _get(ctypes.c_double, "spec_get_number", self._handle, term.number)
            return value if term.type == "number" else int(value)
        except StateError:
            return "none" if self._state(term) == _STATE_NONE else None

    def _state(self, term):
        return _get(ctypes.c_int32, "spec_state", self._handle, term.number)

    def add(self, part: Spec) -> int:
        """Adds a copy of a part; returns its index."""
        return _get(ctypes.c_int32, "spec_add", self._handle, _handle_of(part, Spec))

    def parts(self, kind: str) -> tuple[typing.Any, ...]:
        """Copies of the parts of a kind."""
        number = _kind_number(kind)
        count = _get(ctypes.c_int32, "spec_part_count", self._handle, number)
        found = []
        for i in range(count):
            handle = ctypes.c_void_p()
            _do("spec_part", self._handle, number, i, None, ctypes.byref(handle))
            found.append(_CLASSES[kind]._wrap(handle))
        return tuple(found)

    def replace(self, index: int, part: Spec) -> None:
        """Puts a copy of a part in the place of an old one of its kind."""
        _do("spec_replace", self._handle, index, _handle_of(part, Spec))

    def remove(self, kind: str, index: int) -> None:
        """Takes a part out; those behind it move up."""
        _do("spec_remove", self._handle, _kind_number(kind), index)

    def part_number(self, index: int, full_name: str) -> float:
        """Number in force of a direct part, such as "array.modules_per_string"."""
        return _get(ctypes.c_double, "spec_get_part_number", self._handle, index,
                    _term_number(full_name))

    def set_part(self, index: int, full_name: str, value: float) -> None:
        """Sets a number of a part in place, such as "array.modules_per_string"."""
        _do("spec_set_part_number", self._handle, index, _term_number(full_name),
            _number(full_name, value))

    def set_numbers(self, **values: float) -> None:
        """Sets numbers at once: all of them or, on failure, none."""
        terms = [self._term(name) for name in values]
        for term, value in zip(terms, values.values()):
            if number_of(value) is None:
                self._refuse(term, value)
        count = len(terms)
        _do("spec_set_numbers", self._handle, (ctypes.c_int32 * count)(*(t.number for t in terms)),
            (ctypes.c_double * count)(*values.values()), count)

    def copy(self: _S) -> _S:
        """A copy with all its parts."""
        handle = ctypes.c_void_p()
        _do("spec_clone", self._handle, None, ctypes.byref(handle))
        return type(self)._wrap(handle)

    def to_dict(self) -> dict[str, typing.Any]:
        """What was set, as the keyword arguments that make it again."""
        values = {}
        for name, term in _TERMS[self.kind].items():
            if self._state(term) in (_STATE_SET, _STATE_NONE):
                values[name] = getattr(self, name)
        for plural, kind in self._plurals.items():
            parts = [part.to_dict() for part in self.parts(kind)]
            if parts:
                values[plural] = parts
        return values

    def __dir__(self):
        return [*super().__dir__(), *_TERMS[self.kind], *self._plurals]

    def __repr__(self):
        return f"<pvsize {self.kind} {self.to_dict()}>" if not self._closed else "<closed>"
