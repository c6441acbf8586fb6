"""Rule sets.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes

from ._base import _bytes, _do, _full_name, _get, _get_text, _Handle, _lib, _number, StateError, _text
from ._terms import _choice_name, _choice_number, _did_you_mean, _term_number


class Rules(_Handle):
    """A rule set, from a preset or (None) empty."""

    _free = staticmethod(_lib.pvsize_rules_free)

    def __init__(self, preset: str | None = "asnzs_5033_2021"):
        super().__init__()
        _do("rules_new", _bytes(preset) if preset is not None else None, None,
            ctypes.byref(self._handle))

    def copy(self) -> Rules:
        """A rule set that can be changed apart from this one."""
        rules = Rules.__new__(Rules)
        rules._handle = ctypes.c_void_p()
        _do("rules_clone", self._handle, None, ctypes.byref(rules._handle))
        return rules

    @property
    def title(self) -> str:
        """Shown at the head of reports."""
        return _get_text("rules_get_title", self._handle)

    @title.setter
    def title(self, text: str):
        _do("rules_set_title", self._handle, _bytes(text))

    def figure(self, name: str) -> float | None:
        """A figure, or None where the rule set has none."""
        try:
            return _get(ctypes.c_double, "rules_get_figure", self._handle,
                        _term_number(f"figure.{name}"))
        except StateError:
            return None

    def set_figure(self, name: str, value: float | None, source: str | None = None) -> None:
        """Changes a figure; None takes it away."""
        number = _term_number(f"figure.{name}")
        if value is None:
            _do("rules_unset_figure", self._handle, number)
        else:
            _do("rules_set_figure", self._handle, number, _number(f"figure.{name}", value),
                _bytes(source) if source is not None else None)

    def _rule(self, name):
        number = _lib.pvsize_rules_by_name(self._handle, _bytes(name))
        if not number:
            raise KeyError(f"no rule {name!r}{_did_you_mean('rule', name)}")
        return number

    def names(self) -> list[str]:
        """Names of all rules, own ones last."""
        return [_get_text("rules_rule_name", self._handle, _lib.pvsize_rules_at(self._handle, i))
                for i in range(_lib.pvsize_rules_count(self._handle))]

    def rule_title(self, name: str) -> str:
        """Title of a rule."""
        return _get_text("rules_rule_title", self._handle, self._rule(name))

    def severity(self, name: str) -> str:
        """"off", "note", "should" or "must"."""
        return _choice_name("severity", _get(ctypes.c_int32, "rules_get_severity", self._handle,
                                             self._rule(name)))

    def set_severity(self, name: str, severity: str) -> None:
        """Changes how severely a rule holds."""
        _do("rules_set_severity", self._handle, self._rule(name),
            _choice_number("severity", severity))

    def definition(self, name: str) -> tuple[str, str, str | None, float]:
        """What a rule compares: value, compare, limit_of (None: a number), limit."""
        value, compare, limit_of = (ctypes.c_int32() for _ in range(3))
        limit = ctypes.c_double()
        _do("rules_definition", self._handle, self._rule(name), value, compare, limit_of, limit)
        return (_full_name(value.value), _choice_name("compare", compare.value),
                _full_name(limit_of.value), limit.value)

    def source(self, name: str) -> tuple[str, str]:
        """Where a rule or "figure.NAME" is written, and how that is known."""
        number = _term_number(name) if name.startswith("figure.") else self._rule(name)
        known = _get(ctypes.c_int32, "rules_known", self._handle, number)
        return _get_text("rules_source", self._handle, number), _choice_name("known", known)

    def add(self, name: str, title: str, value: str, compare: str, limit: float,
            severity: str = "must", source: str | None = None,
            limit_of: str | None = None) -> int:
        """Adds an own rule and returns its number: `value` such as "quantity.system_modules", `compare`
        "at_most", "at_least" or "more_than"; the limit is a number, or with `limit_of` that
        number times another term."""
        place = ctypes.c_int32()
        _do("rules_add", self._handle, _bytes(name), _bytes(title),
            _term_number(value), _choice_number("compare", compare),
            _term_number(limit_of) if limit_of else 0, _number("limit", limit),
            _choice_number("severity", severity),
            _bytes(source) if source is not None else None, ctypes.byref(place))
        return place.value


def _rule_name(rules, number):
    return _get_text("rules_rule_name", rules._handle, number)


def presets() -> dict[str, str]:
    """Rule sets that come with the library: name and title."""
    return {_text(_lib.pvsize_preset_name(i)): _text(_lib.pvsize_preset_title(i))
            for i in range(_lib.pvsize_preset_count())}
