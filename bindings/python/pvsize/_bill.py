"""What must be bought for a system.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import _do, _full_name, _get, _get_text, _handle_of, _lib, _Page, _Sequence, StateError, _text
from ._report import Assumed
from ._rules import Rules
from ._spec import Spec
from ._terms import _choice_name


class Share(typing.NamedTuple):
    """What a row of a bill is for: a subject's number in a report on the system, the
    subject in words, how much of what is installed is for it, and why, such as
    "quantity.array_modules" or "rule.isolator"."""
    subject: int
    where: str
    installed: float
    why: str


class Purchase(typing.NamedTuple):
    """One thing to buy. `quantity` is what to buy, `installed` what of it is installed,
    None where that cannot be told; `missing` names the first term that is needed.
    `attributes` tell the thing apart, by name; None where the value is not known.
    `allowance` is the figure between installed and quantity; `type` the number of the
    subject that stands for the type of module or inverter."""
    item: str
    quantity: typing.Optional[float]
    measure: str
    attributes: typing.Dict[str, typing.Union[float, str, None]]
    type: typing.Optional[int]
    installed: typing.Optional[float]
    allowance: typing.Optional[str]
    missing: typing.Optional[str]
    shares: typing.Tuple[Share, ...]
    text: str


class Bill(_Page, _Sequence[Purchase]):
    """What must be bought for a system: a sequence of Purchase."""

    _calls = "bill"
    _free = staticmethod(_lib.pvsize_bill_free)

    def __len__(self) -> int:
        return _get(ctypes.c_int32, "bill_count", self._handle)

    def _amounts(self, i):
        """What is installed and what to buy, each None where it cannot be told."""
        found = []
        for place in (0, 1):
            amounts = [None, None]
            amounts[place] = ctypes.c_double()
            try:
                _do("bill_quantity", self._handle, i, *amounts, None)
                found.append(amounts[place].value)
            except StateError:
                found.append(None)
        return found

    def _attribute(self, i, k):
        term, value, missing = ctypes.c_int32(), ctypes.c_double(), ctypes.c_int32()
        _do("bill_attribute", self._handle, i, k, term, value, missing)
        name = _text(_lib.pvsize_term_name(term.value))
        if missing.value:
            return name, None
        return name, _text(_lib.pvsize_choice_name(term.value, int(value.value))) or value.value

    def _share(self, i, k):
        subject, installed, why = ctypes.c_int32(), ctypes.c_double(), ctypes.c_int32()
        _do("bill_share", self._handle, i, k, subject, installed, why)
        where = _get_text("bill_subject_text", self._handle, subject.value)
        return Share(subject.value, where, installed.value,
                     _full_name(why.value))

    def _row(self, i: int) -> Purchase:
        item, measure, kind, missing, allowance = (ctypes.c_int32() for _ in range(5))
        _do("bill_row", self._handle, i, item, measure, kind, missing)
        _do("bill_quantity", self._handle, i, None, None, allowance)
        installed, quantity = self._amounts(i)
        attributes = _get(ctypes.c_int32, "bill_attribute_count", self._handle, i)
        shares = _get(ctypes.c_int32, "bill_share_count", self._handle, i)
        return Purchase(
            _choice_name("item", item.value), quantity, _choice_name("measure", measure.value),
            dict(self._attribute(i, k) for k in range(attributes)),
            kind.value if kind.value >= 0 else None, installed,
            _full_name(allowance.value) if allowance.value else None,
            _full_name(missing.value) if missing.value else None,
            tuple(self._share(i, k) for k in range(shares)),
            _get_text("bill_text", self._handle, i))

    @property
    def outcome(self) -> str:
        """What the check of the design came to; see Report.outcome."""
        return _choice_name("outcome", _get(ctypes.c_int32, "bill_outcome", self._handle))

    @property
    def assumptions(self) -> list[str]:
        """Allowances used, and defaults taken for granted, a line each."""
        count = _get(ctypes.c_int32, "bill_assumption_count", self._handle)
        return [_get_text("bill_assumption_text", self._handle, i) for i in range(count)]

    @property
    def assumed(self) -> list[Assumed]:
        """The same with terms and values."""
        found = []
        for i, text in enumerate(self.assumptions):
            term, value = ctypes.c_int32(), ctypes.c_double()
            _do("bill_assumption", self._handle, i, term, value, None)
            found.append(Assumed(_full_name(term.value), value.value, text))
        return found


def bill(system: Spec, rules: Rules | None = None) -> Bill:
    """What must be bought for a system by a rule set: a sequence of Purchase."""
    made = Bill()
    rules = Rules() if rules is None else rules
    _do("bill_fill", _handle_of(system, Spec), _handle_of(rules, Rules), made._handle)
    return made
