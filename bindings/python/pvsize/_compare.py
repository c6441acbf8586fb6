"""Two rule sets, or two reports, side by side.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import ArgumentError, _do, _full_name, _get, _get_text, _lib, _Made, StateError, _text
from ._report import Report
from ._rules import _rule_name, Rules
from ._terms import _choice_name, _choice_number, _SETS


class RuleDifference(typing.NamedTuple):
    """What two rule sets do not have in common: a figure ("figure.isc_factor") or a
    rule ("rule.isc_input"). `what` holds "presence", "severity", "value", "limit",
    "definition" or "source". `first` and `second` are the figure's value or the
    rule's severity, None where that set has none."""
    term: str
    what: typing.Tuple[str, ...]
    first: typing.Union[float, str, None]
    second: typing.Union[float, str, None]
    text: str


class FindingDifference(typing.NamedTuple):
    """What two reports do not have in common: the finding of a rule on a subject.
    `what` holds "presence", "severity", "verdict", "value", "limit" or "source".
    `first` and `second` are the finding's indices, None where a report has none;
    `figures` those behind it that the two rule sets do not share; `text` says why."""
    rule: str
    subject: int
    what: typing.Tuple[str, ...]
    first: typing.Optional[int]
    second: typing.Optional[int]
    figures: typing.Tuple[str, ...]
    text: str


class _Comparison(_Made):
    _calls = "comparison"
    _free = staticmethod(_lib.pvsize_comparison_free)

    def __len__(self):
        return _get(ctypes.c_int32, "comparison_count", self._handle)

    def what(self, i):
        """Names of what differs, and the subject."""
        what, subject = ctypes.c_int32(), ctypes.c_int32()
        _do("comparison_difference", self._handle, i, what, subject)
        choices = [_lib.pvsize_set_at(_SETS["differs"], k)
                   for k in range(_lib.pvsize_set_count(_SETS["differs"]))]
        return (tuple(_choice_name("differs", choice) for choice in choices if what.value & choice),
                subject.value)

    def side(self, i, side):
        """Number of the figure or rule, and index of the finding; None: none."""
        term, finding = ctypes.c_int32(), ctypes.c_int32()
        _do("comparison_side", self._handle, i, side, term, finding)
        return term.value or None, finding.value if finding.value >= 0 else None

    def number(self, i, side, what):
        """A number of a side, or None."""
        try:
            return _get(ctypes.c_double, "comparison_number", self._handle, i, side,
                        _choice_number("differs", what))
        except StateError:
            return None

    def figures(self, i):
        """Names of the figures behind a difference."""
        found = []
        while True:
            try:
                number = _get(ctypes.c_int32, "comparison_figure", self._handle, i, len(found))
            except ArgumentError:
                return tuple(found)
            found.append(_text(_lib.pvsize_term_name(number)))

    def text(self, i):
        """The difference in one line."""
        return _get_text("comparison_text", self._handle, i)


def _rule_difference(comparison, i, pair):
    terms = [comparison.side(i, side)[0] for side in (0, 1)]
    side = 0 if terms[0] else 1
    what, _ = comparison.what(i)
    if _lib.pvsize_term_kind(terms[side]) == _lib.pvsize_kind_by_name(b"figure"):
        sides = [comparison.number(i, side, "value") for side in (0, 1)]
        return RuleDifference(_full_name(terms[side]), what, *sides, comparison.text(i))
    sides = [comparison.number(i, side, "severity") for side in (0, 1)]
    return RuleDifference("rule." + _rule_name(pair[side], terms[side]), what,
                          *(None if severity is None else _choice_name("severity", int(severity))
                            for severity in sides), comparison.text(i))


def _finding_difference(comparison, i, pair):
    findings = [comparison.side(i, side)[1] for side in (0, 1)]
    side = 0 if findings[0] is not None else 1
    what, subject = comparison.what(i)
    return FindingDifference(pair[side].text(findings[side], "name"), subject, what, *findings,
                             comparison.figures(i), comparison.text(i))


@typing.overload
def compare(first: Rules, second: Rules,
            wanted: str | typing.Iterable[str] = ()) -> list[RuleDifference]: ...


@typing.overload
def compare(first: Report, second: Report,
            wanted: str | typing.Iterable[str] = ()) -> list[FindingDifference]: ...


def compare(first, second, wanted=()):
    """What two rule sets, or two reports on one system, do not have in common: a list
    of RuleDifference or FindingDifference. `wanted` names what counts, such as
    ["verdict", "presence"]; empty: all but "source"."""
    if not isinstance(first, (Rules, Report)) or type(first) is not type(second):
        raise TypeError("compare takes two rule sets or two reports")
    names = [wanted] if isinstance(wanted, str) else wanted
    mask = sum({_choice_number("differs", name) for name in names})
    of_rules = isinstance(first, Rules)
    with _Comparison() as found:
        _do("compare_rules" if of_rules else "compare_reports", first._handle, second._handle, mask,
            found._handle)
        make = _rule_difference if of_rules else _finding_difference
        return [make(found, i, (first, second)) for i in range(len(found))]
