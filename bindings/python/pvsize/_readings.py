"""What meters read on the day.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import _do, _full_name, _get, _get_text, _handle_of, _lib, _Page, _Sequence, StateError, _text
from ._rules import Rules
from ._spec import Spec
from ._terms import _choice_name, _choice_number, _SETS


class Cause(typing.NamedTuple):
    """What a reading can come from, such as "bypassed". `least`, `likeliest` and `most`
    count what `text` names, 0 where there is nothing to count; `distance` is 0 where the
    reading is just what the cause would give, 1 at the end of its band."""
    name: str
    least: float
    likeliest: float
    most: float
    distance: float
    text: str


class Judged(typing.NamedTuple):
    """A number that was read: "voc", "isc", "vmp", "imp" or "insulation" of the reading
    with that index; "fits", "differs" or "not_judged", and then why: a term that is
    missing. `expected`, `low` and `high` are None where it was not judged, `alike` where
    there are no like strings."""
    reading: int
    measured: str
    judged: str
    why: typing.Optional[str]
    value: float
    expected: typing.Optional[float]
    low: typing.Optional[float]
    high: typing.Optional[float]
    alike: typing.Optional[float]
    causes: typing.Tuple[Cause, ...]
    text: str


class Judgement(_Page, _Sequence[Judged]):
    """What the readings of a system come to: a sequence of Judged."""

    _calls = "judgement"
    _free = staticmethod(_lib.pvsize_judgement_free)

    def count(self, judged: str | None = None) -> int:
        """Rows with a judgement; None: all."""
        return _get(ctypes.c_int32, "judgement_count", self._handle,
                    _choice_number("judged", judged) if judged else 0)

    def __len__(self) -> int:
        return self.count()

    def _cause(self, i, k):
        cause = ctypes.c_int32()
        amounts = [ctypes.c_double() for _ in range(4)]
        _do("judgement_cause", self._handle, i, k, cause, *amounts)
        return Cause(_choice_name("cause", cause.value), *(amount.value for amount in amounts),
                     _text(_lib.pvsize_set_text(_SETS["cause"], cause.value)))

    def _row(self, i: int) -> Judged:
        reading, measured, judged, why = (ctypes.c_int32() for _ in range(4))
        numbers = [ctypes.c_double() for _ in range(4)]
        _do("judgement_row", self._handle, i, reading, measured, judged, why)
        band: list[float | None]
        try:
            _do("judgement_numbers", self._handle, i, *numbers)
            band = [number.value for number in numbers[1:]]
        except StateError:
            band = [None, None, None]
        try:
            alike = _get(ctypes.c_double, "judgement_alike", self._handle, i)
        except StateError:
            alike = None
        causes = _get(ctypes.c_int32, "judgement_cause_count", self._handle, i)
        return Judged(reading.value, _choice_name("measured", measured.value),
                      _choice_name("judged", judged.value),
                      _full_name(why.value) if why.value else None, numbers[0].value, band[0],
                      band[1], band[2], alike,
                      tuple(self._cause(i, k) for k in range(causes)),
                      _get_text("judgement_text", self._handle, i))


def judge(system: Spec, rules: Rules | None = None,
          judgement: Judgement | None = None) -> Judgement:
    """Judges the readings of a system. A judgement given is filled again."""
    judgement = Judgement() if judgement is None else judgement
    rules = Rules() if rules is None else rules
    _do("judge", _handle_of(system, Spec), _handle_of(rules, Rules),
        _handle_of(judgement, Judgement))
    return judgement
