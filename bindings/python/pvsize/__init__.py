"""Sizing of photovoltaic arrays against inverter inputs.

Everything here is built at import from the tables that libpvsize describes
itself by: a class for each kind of object, an attribute for each parameter.

CAUTION: a calculation aid. Mains and d.c. electricity kill, and a roof is
high: a licensed person must check every result against the local code in
force and the makers' instructions.

SPDX-License-Identifier: MIT
"""

from ._base import (ArgumentError, CapacityError, caution, E_NOT_SET, Error, NoMemoryError, OK,
                    RangeError, StateError, version)
from ._bill import Bill, bill, Purchase, Share
from ._compare import compare, FindingDifference, RuleDifference
from ._curve import Assumption, Branch, Curve, Parallel, Point
from ._envelope import Acceptance, Bound, Remark, remark_table, Review, review, Stop
from ._exercise import Exercise, Mark, Mistake, Question
from ._kinds import *  # noqa: F403
from ._layouts import Flag, Layout, Layouts, Obstacle, RankedPair, Ranking, search, Stringing
from ._readings import Cause, judge, Judged, Judgement
from ._report import Assumed, check, Finding, Report, Subject
from ._rows import rows
from ._rules import presets, Rules
from ._spec import Spec
from ._terms import (Comparison, describe_kind, kinds, KindText, PartText, Status, statuses, Term,
                     terms)
from ._weather import (Closure, julian_day, plane_irradiance, PlaneIrradiance, Run, split_global,
                       sun_position, Weather)
from ._year import LOSSES, Granted, Light, Part, Year
from . import certificates

# the inside, for the tests and tools of this project
from ._base import _diag, _do, _full_name, _get, _lib
from ._terms import _choice_name, _choice_number, _TERMS
