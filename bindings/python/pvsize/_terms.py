"""What the library says of its tables.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import _bytes, _diag, _full_name, _kind_name, _lib, OK, _text


class Status(typing.NamedTuple):
    """What a call can return."""
    number: int
    name: str
    text: str


class Comparison(typing.NamedTuple):
    """What a rule compares, such as "quantity.string_voc_cold", "at_most",
    "input.max_voltage"."""
    value: str
    compare: str
    limit: str


class PartText(typing.NamedTuple):
    """A kind of part, and how few and how many of it an owner holds."""
    kind: str
    plural: str
    fewest: int
    most: int


class KindText(typing.NamedTuple):
    """What a kind of object is, and the parts it holds."""
    name: str
    plural: str
    text: str
    parts: typing.Tuple[PartText, ...]


class Term(typing.NamedTuple):
    """A row of a table: parameter, figure, quantity or rule."""
    number: int
    kind: str
    name: str
    unit: str
    text: str
    type: str
    need: typing.Optional[str]
    range: typing.Optional[typing.Tuple[float, float]]
    default: typing.Union[float, str, None]
    choices: typing.Tuple[str, ...]
    refers_to: typing.Optional[str]
    scope: typing.Optional[str]
    rule: typing.Optional[Comparison]
    choice_texts: typing.Tuple[str, ...]


class _Sets(dict):
    """Numbers of the library's own sets, by name."""

    def __missing__(self, name):
        number = _lib.pvsize_set_number(name.encode())
        if not number:
            raise KeyError(name)
        self[name] = number
        return number


_SETS = _Sets()


def _choice_name(set_name, number):
    return _text(_lib.pvsize_set_name(_SETS[set_name], number))


def _choice_number(set_name, name):
    number = _lib.pvsize_set_by_name(_SETS[set_name], str(name).encode())
    if number < 0:
        allowed = [_choice_name(set_name, _lib.pvsize_set_at(_SETS[set_name], i))
                   for i in range(_lib.pvsize_set_count(_SETS[set_name]))]
        raise ValueError(f"{set_name} {name!r}: allowed {', '.join(allowed)}")
    return number


def _kind_numbers():
    return [_lib.pvsize_kind_at(i) for i in range(_lib.pvsize_kind_count())]


def _comparison(number):
    compare = _lib.pvsize_term_rule_compare(number)
    if not compare:
        return None
    return Comparison(_full_name(_lib.pvsize_term_rule_value(number)),
                      _choice_name("compare", compare),
                      _full_name(_lib.pvsize_term_rule_limit(number)))


def _describe(number):
    low, high, default = ctypes.c_double(), ctypes.c_double(), ctypes.c_double()
    has_range = _lib.pvsize_term_range(number, ctypes.byref(low), ctypes.byref(high)) == OK
    has_default = _lib.pvsize_term_default(number, ctypes.byref(default)) == OK
    named = _text(_lib.pvsize_choice_name(number, int(default.value)))
    choices = [_lib.pvsize_choice_at(number, i)
               for i in range(_lib.pvsize_choice_count(number))]
    return Term(
        number, _kind_name(_lib.pvsize_term_kind(number)), _text(_lib.pvsize_term_name(number)),
        _text(_lib.pvsize_term_unit(number)), _text(_lib.pvsize_term_text(number)),
        _choice_name("type", _lib.pvsize_term_type(number)),
        _choice_name("need", _lib.pvsize_term_need(number)),
        (low.value, high.value) if has_range else None, (named or default.value) if has_default else None,
        tuple(_text(_lib.pvsize_choice_name(number, choice)) for choice in choices),
        _kind_name(_lib.pvsize_term_refers_to(number)),
        _kind_name(_lib.pvsize_term_scope(number)), _comparison(number),
        tuple(_text(_lib.pvsize_choice_text(number, choice)) for choice in choices))


def kinds() -> list[str]:
    """Names of all kinds of object and table."""
    return [_kind_name(number) for number in _kind_numbers()]


def statuses() -> list[Status]:
    """What calls can return."""
    numbers = [_lib.pvsize_status_at(i) for i in range(_lib.pvsize_status_count())]
    return [Status(number, _text(_lib.pvsize_status_name(number)),
                   _text(_lib.pvsize_status_text(number))) for number in numbers]


def describe_kind(kind: str) -> KindText:
    """What a kind is, and the parts it holds."""
    number = _kind_number(kind)
    parts = [_lib.pvsize_kind_part_at(number, i)
             for i in range(_lib.pvsize_kind_part_count(number))]
    return KindText(kind, _text(_lib.pvsize_kind_plural(number)), _text(_lib.pvsize_kind_text(number)),
                    tuple(PartText(_kind_name(part), _text(_lib.pvsize_kind_plural(part)),
                                   _lib.pvsize_kind_part_fewest(number, part),
                                   _lib.pvsize_kind_part_most(number, part)) for part in parts))


def _kind_number(kind):
    number = _lib.pvsize_kind_by_name(_bytes(kind))
    if not number:
        raise KeyError(f"no kind {kind!r}; there are {', '.join(kinds())}")
    return number


def terms(kind: str) -> dict[str, Term]:
    """Rows of the table of a kind, by name."""
    number = _kind_number(kind)
    rows = [_describe(_lib.pvsize_term_at(number, i))
            for i in range(_lib.pvsize_term_count(number))]
    return {row.name: row for row in rows}


_TERMS = {name: terms(name) for name in kinds()}


def _did_you_mean(kind, name):
    """"; did you mean 'voc'?" where the library knows a name much like it; else ""."""
    found = ctypes.c_int32()
    if not isinstance(name, str) or "\0" in name or _lib.pvsize_term_find(
            _kind_number(kind), name.encode(), found, _diag.handle) == OK:
        return ""
    _, found, rest = _diag.reason().partition("; did you mean ")
    return found + rest


def _term_number(full_name):
    """Number of "quantity.string_voc_cold" or "input.max_voltage"."""
    if not isinstance(full_name, str):
        raise TypeError(f"the name of a term, such as 'module.voc', is needed, not {full_name!r}")
    kind, _, name = full_name.partition(".")
    if kind not in _TERMS:
        raise KeyError(f"no term {full_name!r}: no kind {kind!r}; there are {', '.join(kinds())}")
    if name not in _TERMS[kind]:
        raise KeyError(f"no term {full_name!r}{_did_you_mean(kind, name)}")
    return _TERMS[kind][name].number
