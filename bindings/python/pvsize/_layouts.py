"""The best stringings, and rankings of a catalogue.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import _do, _get, _get_text, _handle_of, _lib, _Made, _Sequence, StateError
from ._report import Report
from ._rules import _rule_name, Rules
from ._kinds import System
from ._spec import Spec
from ._terms import _choice_name, _choice_number


class Stringing(typing.NamedTuple):
    """Equal strings of one module on one plane. Places count from 0; `module` among
    the candidates of the search."""
    inverter: int
    input: int
    plane: int
    module: int
    modules_per_string: int
    strings: int


class Obstacle(typing.NamedTuple):
    """What stood in the way. `rule` is its name, None for the wanted modules; places are
    None where they do not apply. `strings` of `modules_per_string` were judged;
    `passes` modules in a string pass instead, None if none do."""
    rule: typing.Optional[str]
    inverter: typing.Optional[int]
    input: typing.Optional[int]
    plane: typing.Optional[int]
    second_plane: typing.Optional[int]
    module: typing.Optional[int]
    modules_per_string: typing.Optional[int]
    strings: typing.Optional[int]
    passes: typing.Optional[int]
    value: float
    limit: float
    margin: float
    text: str


class Flag:
    """Stops a search that runs in another thread: flag.raise_()."""

    def __init__(self):
        self._flag = ctypes.c_int32(0)

    def raise_(self) -> None:
        """Stops the searches that were given this flag."""
        self._flag.value = 1


def _place(cancel):
    return ctypes.byref(cancel._flag) if cancel else None


class Layout:
    """One answer: `power` in W, `energy` in kWh or None, `modules`, `strings`,
    `devices`, `outcome` ("holds" or "incomplete"), and `arrays`, as Stringings."""

    def __init__(self, layouts, i):
        self._layouts, self._i = layouts, i
        self.power = self._number("power")
        self.energy = self._number("energy")
        self.modules = int(self._number("modules"))
        self.strings = int(self._number("strings"))
        self.devices = int(self._number("devices"))
        self.outcome = _choice_name("outcome", int(self._number("outcome")))
        count = _get(ctypes.c_int32, "layouts_array_count", layouts._handle, i)
        self.arrays = tuple(self._array(k) for k in range(count))

    def _number(self, what):
        try:
            return _get(ctypes.c_double, "layouts_number", self._layouts._handle, self._i,
                        _choice_number("layout", what))
        except StateError:
            return None

    def _array(self, k):
        places = [ctypes.c_int32() for _ in Stringing._fields]
        _do("layouts_array", self._layouts._handle, self._i, k, *places)
        return Stringing(*(place.value for place in places))

    def system(self) -> System:
        """The whole system, as a spec of its own."""
        handle = ctypes.c_void_p()
        _do("layouts_system", self._layouts._handle, self._i, None, ctypes.byref(handle))
        return System._wrap(handle)

    def report(self) -> Report:
        """The check of the whole system."""
        report = Report()
        _do("layouts_report", self._layouts._handle, self._i, report._handle)
        return report

    def __str__(self):
        return _get_text("layouts_text", self._layouts._handle, self._i)

    def __repr__(self):
        return f"<pvsize layout: {self}>"


class Layouts(_Made, _Sequence[Layout]):
    """What a search found: a sequence of Layouts, the best first."""

    _calls = "layouts"
    _free = staticmethod(_lib.pvsize_layouts_free)

    def __init__(self):
        super().__init__()
        self._rules = None

    def __len__(self) -> int:
        return _get(ctypes.c_int32, "layouts_count", self._handle)

    def _row(self, i: int) -> Layout:
        return Layout(self, i)

    @property
    def ending(self):
        """"proven", "budget" or "cancelled"."""
        return _choice_name("ending", _get(ctypes.c_int32, "layouts_ending", self._handle))

    @property
    def complete(self):
        """Whether there are no answers but these."""
        return bool(_get(ctypes.c_int32, "layouts_complete", self._handle))

    @property
    def nodes(self):
        """Steps taken."""
        return int(_get(ctypes.c_double, "layouts_nodes", self._handle))

    @property
    def bound(self):
        """What no stringing passes: W, kWh, or W of distance; None if not known."""
        try:
            return _get(ctypes.c_double, "layouts_bound", self._handle)
        except StateError:
            return None

    @property
    def obstacles(self):
        """What stood in the way of any answer, or of more than the best."""
        count = _get(ctypes.c_int32, "layouts_obstacle_count", self._handle)
        return [self._obstacle(i) for i in range(count)]

    def _obstacle(self, i):
        places = [ctypes.c_int32() for _ in range(9)]
        numbers = [ctypes.c_double() for _ in range(3)]
        _do("layouts_obstacle", self._handle, i, *places)
        _do("layouts_obstacle_numbers", self._handle, i, *numbers)
        rule, *wheres = (place.value for place in places)
        indices = [where if where >= 0 else None for where in wheres[:5]]
        counts = [where or None for where in wheres[5:]]
        return Obstacle(_rule_name(self._rules, rule) if rule else None, *indices, *counts,
                        *(number.value for number in numbers),
                        _get_text("layouts_obstacle_text", self._handle, i))


def search(question: Spec, rules: Rules | None = None, cancel: Flag | None = None) -> Layouts:
    """The best stringings of a Search, by a rule set."""
    found = Layouts()
    rules = Rules() if rules is None else rules
    _do("search", _handle_of(question, Spec), _handle_of(rules, Rules), _place(cancel), found._handle)
    found._rules = rules.copy()
    return found


def _list(specs):
    """Handles, and how many; the specs must live meanwhile."""
    return (ctypes.c_void_p * len(specs))(*(spec._handle for spec in specs)), len(specs)


class RankedPair(typing.NamedTuple):
    """A module on an inverter, with the numbers of the best stringing."""
    module: int
    inverter: int
    power: float
    energy: typing.Optional[float]
    modules: int
    strings: int


class Ranking(_Sequence[RankedPair]):
    """Pairs of module and inverter for one site, a sequence with the best first."""

    _free = staticmethod(_lib.pvsize_ranking_free)

    def __init__(self, question: Spec, rules: Rules | None = None, most: int = 100):
        super().__init__()
        rules = Rules() if rules is None else rules
        _do("ranking_new", _handle_of(question, Spec), _handle_of(rules, Rules), most, None,
            ctypes.byref(self._handle))

    def add(self, module: Spec, inverter: Spec, module_number: int, inverter_number: int,
            cancel: Flag | None = None) -> bool:
        """Judges a pair; whether it has an answer."""
        fits = ctypes.c_int32()
        _do("ranking_add", self._handle, _handle_of(module, Spec), _handle_of(inverter, Spec), module_number,
            inverter_number, _place(cancel), fits)
        return bool(fits.value)

    def add_all(self, modules: typing.Iterable[Spec], inverters: typing.Iterable[Spec],
                first_module: int = 0, first_inverter: int = 0, cancel: Flag | None = None) -> int:
        """Judges every module with every inverter, numbered from the given ones on; how many
        pairs. The same as `add` for each, and much faster."""
        modules, inverters = list(modules), list(inverters)
        done = ctypes.c_double()
        _do("ranking_add_all", self._handle, *_list(modules), *_list(inverters), first_module,
            first_inverter, _place(cancel), done)
        return int(done.value)

    def add_shard(self, shard: int = 0, shards: int = 1, cancel: Flag | None = None) -> int:
        """Judges every `shards`-th pair of the question's own; how many."""
        done = ctypes.c_double()
        _do("ranking_add_shard", self._handle, shard, shards, _place(cancel), done)
        return int(done.value)

    def merge(self, other: Ranking) -> None:
        """Adds what another ranking of the same question found."""
        _do("ranking_merge", self._handle, _handle_of(other, Ranking))

    @property
    def judged(self) -> tuple[int, int, int]:
        """Pairs judged, with an answer, and of these not proven best."""
        numbers = [ctypes.c_double() for _ in range(3)]
        _do("ranking_judged", self._handle, *numbers)
        judged, fitting, unproven = (int(number.value) for number in numbers)
        return judged, fitting, unproven

    def __len__(self) -> int:
        return _get(ctypes.c_int32, "ranking_count", self._handle)

    def _number(self, i, what):
        try:
            return _get(ctypes.c_double, "ranking_number", self._handle, i,
                        _choice_number("layout", what))
        except StateError:
            return None

    def _row(self, i: int) -> RankedPair:
        module, inverter = ctypes.c_int32(), ctypes.c_int32()
        _do("ranking_pair", self._handle, i, module, inverter)
        return RankedPair(module.value, inverter.value, self._number(i, "power"),
                          self._number(i, "energy"), int(self._number(i, "modules")),
                          int(self._number(i, "strings")))
