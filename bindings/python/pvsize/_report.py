"""Checks and their findings.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import (_a, _do, _full_name, _get, _get_text, _handle_of, _kind_name, _lib, _Made, _Sequence,
                    StateError)
from ._rules import Rules
from ._spec import Spec
from ._terms import _choice_name, _choice_number, _kind_number, _term_number, _TERMS


class Finding(typing.NamedTuple):
    """What a rule found on one subject, known by its number in the report.
    `value`, `limit` and `margin` are None where it was not assessed; then
    `missing` names what it needs: a parameter, a figure, or a quantity that has no value for
    a reason of its own, such as a coefficient that cannot be believed."""
    rule: str
    severity: str
    verdict: str
    subject: int
    where: str
    value: typing.Optional[float]
    limit: typing.Optional[float]
    margin: typing.Optional[float]
    unit: str
    governs: bool
    missing: typing.Optional[str]
    title: str
    source: str
    sentence: str
    working: str


class Assumed(typing.NamedTuple):
    """A default or an estimate that was used."""
    term: str
    value: float
    text: str


class Subject(typing.NamedTuple):
    """What findings and quantities speak of. `owner` is a subject's number."""
    kind: str
    index: int  # type: ignore[assignment]  # hides that of tuples
    owner: typing.Optional[int]
    text: str


class Report(_Made, _Sequence[Finding]):
    """The findings of a check: a sequence of Finding."""

    _calls = "report"
    _free = staticmethod(_lib.pvsize_report_free)

    def count(self, verdict: str | None = None, severity: str | None = None) -> int:
        """Findings with a verdict and at least a severity; None: any."""
        return _get(ctypes.c_int32, "report_count", self._handle,
                    _choice_number("verdict", verdict) if verdict else 0,
                    _choice_number("severity", severity) if severity else 0)

    def __len__(self) -> int:
        return self.count()

    def text(self, i: int, what: str) -> str:
        """A text of finding i: sentence, title, source, consequence, ..."""
        return _get_text("report_text", self._handle, i, _choice_number("text", what))

    def _row(self, i: int) -> Finding:
        rule, severity, verdict, subject = (ctypes.c_int32() for _ in range(4))
        _do("report_finding", self._handle, i, rule, severity, verdict, subject)
        places = [ctypes.c_double() for _ in range(3)]
        amounts: list[float | None]
        try:
            _do("report_numbers", self._handle, i, *places)
            amounts = [place.value for place in places]
        except StateError:
            amounts = [None, None, None]
        missing = _get(ctypes.c_int32, "report_missing", self._handle, i)
        return Finding(
            self.text(i, "name"), _choice_name("severity", severity.value),
            _choice_name("verdict", verdict.value), subject.value, self.text(i, "subject"),
            amounts[0], amounts[1], amounts[2], self.text(i, "unit"),
            bool(_get(ctypes.c_int32, "report_governs", self._handle, i)),
            _full_name(missing) if missing else None, self.text(i, "title"),
            self.text(i, "source"), self.text(i, "sentence"), self.text(i, "working"))

    def subjects(self) -> list[Subject]:
        """All subjects, by their numbers."""
        count = _get(ctypes.c_int32, "report_subject_count", self._handle)
        found = []
        for number in range(count):
            kind, index, owner = (ctypes.c_int32() for _ in range(3))
            _do("report_subject", self._handle, number, kind, index, owner)
            found.append(Subject(_kind_name(kind.value), index.value,
                                 owner.value if owner.value >= 0 else None,
                                 _get_text("report_subject_text", self._handle, number)))
        return found

    def find(self, kind: str, index: int = 0, inverter: int = 0) -> int:
        """Number of the subject of a kind; of inputs, those of an inverter."""
        owner = -1
        if kind == "input" and any(s.kind == "inverter" for s in self.subjects()):
            owner = self.find("inverter", inverter)
        return _get(ctypes.c_int32, "report_find", self._handle,
                    _kind_number(kind), index, owner)

    @property
    def outcome(self) -> str:
        """"nothing", "holds", "incomplete" or "broken", by the limits that must
        hold. Only "holds" is good news."""
        return _choice_name("outcome", _get(ctypes.c_int32, "report_outcome", self._handle))

    def broken(self, severity: str = "must") -> list[Finding]:
        """Findings that break a limit of at least this severity. An empty list
        says nothing of what was not assessed: see count("not_assessed")."""
        rank = _choice_number("severity", severity)
        return [finding for finding in self if finding.verdict == "exceeds"
                and _choice_number("severity", finding.severity) >= rank]

    @property
    def assumptions(self) -> list[str]:
        """What was taken for granted, a line each."""
        count = _get(ctypes.c_int32, "report_assumption_count", self._handle)
        return [_get_text("report_assumption_text", self._handle, i) for i in range(count)]

    @property
    def assumed(self) -> list[Assumed]:
        """The same with terms and values."""
        found = []
        for i, text in enumerate(self.assumptions):
            term, value = ctypes.c_int32(), ctypes.c_double()
            _do("report_assumption", self._handle, i, term, value)
            found.append(Assumed(_full_name(term.value), value.value, text))
        return found

    def _subject_of(self, name, where):
        """The subject that a quantity speaks of, by the indices that lead to it, the first
        where one is not given; a module by that of an array that has it."""
        scope = _TERMS["quantity"][name].scope
        if scope == "module" and any(s.kind == "array" for s in self.subjects()):
            scope = "array"
        for key in where:
            if key not in (scope, "subject") and (scope, key) != ("input", "inverter"):
                raise TypeError(f"{name} is asked of {_a(scope)}, not of {_a(key)}")
        if "subject" in where:
            return where["subject"]
        return self.find(scope, where.get(scope, 0), where.get("inverter", 0))

    def quantity(self, name: str, **where: int) -> float | None:
        """A computed quantity of one subject, such as "string_voc_cold", array=0;
        "input_imp", inverter=0, input=1; or of subject=NUMBER. Of an index that is not
        given it is the first: of several arrays that of array 0. None where it does not
        apply or data are missing."""
        number = _term_number(f"quantity.{name}")
        subject = self._subject_of(name, where)
        try:
            return _get(ctypes.c_double, "report_quantity", self._handle, number, subject)
        except StateError:
            return None

    def working(self, name: str, markdown: bool = False, detail: str = "short",
                **where: int) -> str:
        """How that quantity of the same subject came about (without an index: of the first;
        each line names what it is about): a step a line, or with detail="long" every symbol
        explained."""
        return _get_text("report_working", self._handle, _term_number(f"quantity.{name}"),
                         self._subject_of(name, where), 2 if markdown else 1,
                         _choice_number("detail", detail))

    def render(self, markdown: bool = False, working: bool | str = False) -> str:
        """The whole report as text; `working` True or "short" adds each step in a line,
        "long" with every symbol explained."""
        detail = working if isinstance(working, str) else "short" if working else "findings"
        return _get_text("report_render", self._handle, 2 if markdown else 1,
                         _choice_number("detail", detail))

    def __str__(self):
        return self.render()


def check(spec: Spec, rules: Rules | None = None, report: Report | None = None) -> Report:
    """Checks a spec by a rule set. A report given is filled again."""
    report = Report() if report is None else report
    rules = Rules() if rules is None else rules
    _do("check", _handle_of(spec, Spec), _handle_of(rules, Rules), _handle_of(report, Report))
    return report
