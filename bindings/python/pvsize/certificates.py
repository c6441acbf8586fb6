"""Small-scale certificates of the Australian scheme, for quotes: the scheme's own rules
of the day decide. `power` of the array in W at STC, `zone` 1 to 4, `period` "one_year",
"five_years" or "longest".

SPDX-License-Identifier: MIT
"""

import ctypes

from . import _choice_number, _get, _get_text, _lib


def first_year():
    """First year of installation in the table."""
    return _lib.pvsize_certificate_first_year()


def last_year():
    """Last year of installation in the table."""
    return _lib.pvsize_certificate_last_year()


def rating(zone):
    """Certificates for a kW and a year in a zone."""
    return _get(ctypes.c_double, "certificate_rating", zone)


def years(year, period="longest"):
    """Years counted for a system installed in `year`."""
    return _get(ctypes.c_int32, "certificate_years", year, _choice_number("period", period))


def count(power, zone, year, period="longest"):
    """How many certificates a system earns."""
    return int(_get(ctypes.c_double, "certificate_count", float(power), zone, year,
                    _choice_number("period", period)))


def value(number, price):
    """What so many are worth at a price each."""
    return _get(ctypes.c_double, "certificate_value", float(number), float(price))


def working(power, zone, year, price, period="longest", markdown=False):
    """How count and value come about, with the source of each figure."""
    return _get_text("certificate_working", float(power), zone, year,
                     _choice_number("period", period), float(price), 2 if markdown else 1)
