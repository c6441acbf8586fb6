"""Small-scale certificates of the Australian scheme, for quotes: the scheme's own rules
of the day decide. `power` of the array in W at STC, `zone` 1 to 4, `period` "one_year",
"five_years" or "longest".

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes

from ._base import _get, _get_text, _lib
from ._terms import _choice_number


def first_year() -> int:
    """First year of installation in the table."""
    return _lib.pvsize_certificate_first_year()


def last_year() -> int:
    """Last year of installation in the table."""
    return _lib.pvsize_certificate_last_year()


def rating(zone: int) -> float:
    """Certificates for a kW and a year in a zone."""
    return _get(ctypes.c_double, "certificate_rating", zone)


def years(year: int, period: str = "longest") -> int:
    """Years counted for a system installed in `year`."""
    return _get(ctypes.c_int32, "certificate_years", year, _choice_number("period", period))


def count(power: float, zone: int, year: int, period: str = "longest") -> int:
    """How many certificates a system earns."""
    return int(_get(ctypes.c_double, "certificate_count", power, zone, year,
                    _choice_number("period", period)))


def value(number: float, price: float) -> float:
    """What so many are worth at a price each."""
    return _get(ctypes.c_double, "certificate_value", number, price)


def working(power: float, zone: int, year: int, price: float, period: str = "longest",
            markdown: bool = False) -> str:
    """How count and value come about, with the source of each figure."""
    return _get_text("certificate_working", power, zone, year,
                     _choice_number("period", period), price, 2 if markdown else 1)
