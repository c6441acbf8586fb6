"""What may go on an inverter.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import (ArgumentError, _do, _full_name, _get, _get_text, _handle_of, _lib, _Page,
                    StateError, _text)
from ._rules import Rules
from ._spec import Spec
from ._terms import _choice_name, _SETS


class Bound(typing.NamedTuple):
    """A limit on "module_isc" or "module_imp" (with so many `strings`), "string_voc",
    "string_vmp" or "array_power", on one input or (None) on the inverter: `compare` that
    `value`, as a data sheet states it at STC; None where that needs what was not given.
    `limit` is the rule's own."""
    what: str
    input: typing.Optional[int]
    strings: typing.Optional[int]
    rule: int
    severity: str
    compare: str
    governs: bool
    value: typing.Optional[float]
    limit: float
    text: str


class Stop(typing.NamedTuple):
    """What stands against one more."""
    rule: int
    value: float
    limit: float
    margin: float


class Acceptance(typing.NamedTuple):
    """A module of the enquiry on an input: "yes", "incomplete" or "no". `room` counts
    modules in a string and strings, by name; `stops` says what stands against one more,
    "refused" against the module itself."""
    module: int
    input: int
    accepted: str
    missing: typing.Optional[str]
    room: typing.Dict[str, int]
    stops: typing.Dict[str, Stop]
    text: str


class Remark(typing.NamedTuple):
    """What a trainer would say. `term` is the rule of a contradiction, what is missing of
    a gap."""
    name: str
    severity: str
    input: typing.Optional[int]
    term: typing.Optional[str]
    numbers: typing.Tuple[float, ...]
    text: str


def _or_none(index):
    return index if index >= 0 else None


class Review(_Page):
    """What may go on an inverter: `bounds`, `modules` and `remarks`."""

    _calls = "review"
    _free = staticmethod(_lib.pvsize_review_free)

    def _count(self, part):
        return _get(ctypes.c_int32, f"review_{part}_count", self._handle)

    def _bound(self, i):
        what, place, strings, rule, severity, compare, governs = (ctypes.c_int32() for _ in range(7))
        value, limit = ctypes.c_double(), ctypes.c_double()
        _do("review_bound", self._handle, i, what, place, strings)
        _do("review_bound_rule", self._handle, i, rule, severity, compare, governs)
        try:
            _do("review_bound_numbers", self._handle, i, value, limit)
            number = value.value
        except StateError:
            number = None
        return Bound(_choice_name("bound", what.value), _or_none(place.value), strings.value or None,
                     rule.value, _choice_name("severity", severity.value),
                     _choice_name("compare", compare.value), bool(governs.value), number, limit.value,
                     _get_text("review_bound_text", self._handle, i))

    def _module(self, i):
        module, place, accepted, missing, rule = (ctypes.c_int32() for _ in range(5))
        _do("review_module", self._handle, i, module, place, accepted, missing)
        rooms = {_choice_name("room", number): number
                 for number in (_lib.pvsize_set_at(_SETS["room"], k)
                                for k in range(_lib.pvsize_set_count(_SETS["room"])))}
        room, stops = {}, {}
        for name, number in [("refused", 0), *rooms.items()]:
            try:
                amounts = [ctypes.c_double() for _ in range(3)]
                _do("review_module_stop", self._handle, i, number, rule, *amounts)
                stops[name] = Stop(rule.value, *(amount.value for amount in amounts))
            except StateError:
                pass
            try:
                if number:
                    room[name] = _get(ctypes.c_int32, "review_module_room", self._handle, i, number)
            except StateError:
                pass
        return Acceptance(module.value, place.value, _choice_name("accepted", accepted.value),
                          _full_name(missing.value) if missing.value else None, room, stops,
                          _get_text("review_module_text", self._handle, i))

    def _remark(self, i):
        remark, severity, place, term = (ctypes.c_int32() for _ in range(4))
        _do("review_remark", self._handle, i, remark, severity, place, term)
        numbers = []
        while True:
            try:
                numbers.append(_get(ctypes.c_double, "review_remark_number", self._handle, i,
                                    len(numbers)))
            except ArgumentError:
                break
        return Remark(_choice_name("remark", remark.value), _choice_name("severity", severity.value),
                      _or_none(place.value), _full_name(term.value) if term.value else None,
                      tuple(numbers), _get_text("review_remark_text", self._handle, i))

    @property
    def bounds(self) -> list[Bound]:
        """The envelope, a list of Bound."""
        return [self._bound(i) for i in range(self._count("bound"))]

    @property
    def modules(self) -> list[Acceptance]:
        """The enquiry's modules on each input, a list of Acceptance."""
        return [self._module(i) for i in range(self._count("module"))]

    @property
    def remarks(self) -> list[Remark]:
        """A list of Remark."""
        return [self._remark(i) for i in range(self._count("remark"))]


def review(inverter: Spec, rules: Rules | None = None, site: Spec | None = None,
           enquiry: Spec | None = None, page: Review | None = None) -> Review:
    """Reviews an inverter; site and enquiry may be left out. A review given as `page` is
    filled again."""
    page = Review() if page is None else page
    rules = Rules() if rules is None else rules
    _do("review_inverter", _handle_of(inverter, Spec),
        _handle_of(site, Spec) if site is not None else None,
        _handle_of(enquiry, Spec) if enquiry is not None else None, _handle_of(rules, Rules), page._handle)
    return page


def remark_table() -> dict[str, tuple[str, str]]:
    """When each remark is made, and its sentence, by name."""
    numbers = [_lib.pvsize_set_at(_SETS["remark"], i)
               for i in range(_lib.pvsize_set_count(_SETS["remark"]))]
    return {_choice_name("remark", number): (_text(_lib.pvsize_remark_condition(number)),
                                             _text(_lib.pvsize_remark_sentence(number)))
            for number in numbers}
