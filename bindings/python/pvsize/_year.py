"""The energy of a system, hour by hour, and where it goes.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import array
import ctypes
import typing

from ._base import ArgumentError, _do, _get, _get_text, _Handle, _handle_of, _lib, _Page
from ._spec import Spec
from ._terms import _SETS, _choice_name, _choice_number, _kind_number
from ._weather import _Column, _DOUBLES, Weather


def _names(set_name):
    number = _SETS[set_name]
    return [_choice_name(set_name, _lib.pvsize_set_at(number, i))
            for i in range(_lib.pvsize_set_count(number))]


LOSSES = tuple(_names("loss"))


class Granted(typing.NamedTuple):
    """Something a year took for granted: its name, its subject's number or None, a value or
    0, in words."""
    name: str
    subject: typing.Optional[int]
    value: float
    text: str


class Light(_Handle):
    """Weather made ready for many systems: what falls on each plane, and what each module
    makes of it, is computed once. For one thread at a time."""

    _free = staticmethod(_lib.pvsize_light_free)

    def __init__(self, weather: Weather, outlook: Spec | None = None):
        super().__init__()
        _do("light_new", _handle_of(weather, Weather),
            _handle_of(outlook, Spec) if outlook is not None else None, None,
            ctypes.byref(self._handle))

    def specific_yield(self, module: Spec, plane: Spec) -> float:
        """d.c. energy over rated power, kWh/kW, before cables, limits and conversion."""
        return _get(ctypes.c_double, "light_yield", self._handle, _handle_of(module, Spec), _handle_of(plane, Spec))


class Part:
    """The ledger of a system, inverter, input or array. Energies in kWh; month is 1 to 12, or
    0 for all."""

    def __init__(self, year, subject):
        self._year, self.subject = year, subject

    def __str__(self):
        return _get_text("year_subject_text", self._year._handle, self.subject)

    def energy(self, name: str, month: int = 0) -> float:
        """reference, output; of the system also load, used, exported, drawn."""
        return _get(ctypes.c_double, "year_energy", self._year._handle, self.subject, month,
                    _choice_number("energy", name))

    @property
    def output(self) -> float:
        """kWh behind all losses of this ledger."""
        return self.energy("output")

    @property
    def reference(self) -> float:
        """kWh before all losses."""
        return self.energy("reference")

    def loss(self, name: str, month: int = 0) -> float:
        """kWh that one cause takes."""
        return _get(ctypes.c_double, "year_loss", self._year._handle, self.subject, month,
                    _choice_number("loss", name))

    def losses(self, month: int = 0) -> dict[str, float]:
        """All losses of this ledger by name, in its order."""
        found = {}
        for name in LOSSES:
            try:
                found[name] = self.loss(name, month)
            except ArgumentError:
                break
        return found

    def active(self, loss: str) -> float:
        """Hours in which a limit took something."""
        return _get(ctypes.c_double, "year_active", self._year._handle, self.subject,
                    _choice_number("loss", loss))

    def _two(self, name, *arguments):
        first, second = ctypes.c_double(), ctypes.c_double()
        _do(name, self._year._handle, self.subject, *arguments, first, second)
        return first.value, second.value

    def irradiation(self, month: int = 0) -> tuple[float, float]:
        """Of an array: light on its plane, and at its cells, kWh/m2."""
        return self._two("year_irradiation", month)

    @property
    def rated(self) -> float:
        """kW."""
        return self._two("year_yield")[0]

    @property
    def specific_yield(self) -> float:
        """kWh/kW."""
        return self._two("year_yield")[1]

    def power(self, gap: float = float("nan")) -> array.array[float]:
        """W in each row, of the system or an inverter, as array.array of doubles."""
        values = array.array("d", bytes(8 * self._year.rows))
        _do("year_power", self._year._handle, self.subject, gap,
            ctypes.cast(values.buffer_info()[0], _DOUBLES), len(values), None)
        return values


class _Nothing:
    """No row of numbers."""
    pointer, count = None, 0


def _row(values):
    """A caller's numbers one behind the other, if there are any."""
    if values is None:
        return _Nothing
    column = _Column(values)
    if column.count == 0:  # still a pointer, so that the library refuses it
        column = _Column([0.0])
        column.count = 0
    if column.stride != 1:
        column.pack()
    return column


class Year(_Page):
    """A system under a light, with what the site uses: mean W in each row (any sequence of
    numbers, NumPy arrays too), or nothing; and the voltage of the supply, phase to neutral where
    the inverters' a.c. cables end, mean V in each row, or unknown."""

    _calls = "year"
    _free = staticmethod(_lib.pvsize_year_free)

    def __init__(self, system: Spec, light: Light, load: typing.Any = None, *,
                 supply_voltage: typing.Any = None):
        super().__init__()
        loads, voltages = _row(load), _row(supply_voltage)
        _do("year_fill_at_supply", _handle_of(system, Spec), _handle_of(light, Light), loads.pointer, loads.count,
            voltages.pointer, voltages.count, self._handle)

    def _size(self):
        places = [ctypes.c_int32() for _ in range(4)]
        _do("year_size", self._handle, *places)
        return [place.value for place in places]

    @property
    def rows(self) -> int:
        """Rows of the weather."""
        return self._size()[0]

    @property
    def gaps(self) -> int:
        """Rows not computed for want of weather."""
        return self._size()[3]

    def _part(self, kind, index=0):
        return Part(self, _get(ctypes.c_int32, "year_subject", self._handle, _kind_number(kind),
                               index))

    @property
    def system(self) -> Part:
        """The ledger of the whole."""
        return self._part("system")

    def inverter(self, index: int = 0) -> Part:
        """The ledger of an inverter."""
        return self._part("inverter", index)

    def input(self, index: int = 0) -> Part:
        """Inputs count through all inverters."""
        return self._part("input", index)

    def array(self, index: int = 0) -> Part:
        """The ledger of an array."""
        return self._part("array", index)

    @property
    def assumptions(self) -> list[Granted]:
        """What was taken for granted."""
        found = []
        for i in range(_get(ctypes.c_int32, "year_assumption_count", self._handle)):
            what, subject, value = ctypes.c_int32(), ctypes.c_int32(), ctypes.c_double()
            _do("year_assumption", self._handle, i, what, subject, value)
            found.append(Granted(_choice_name("year_assumption", what.value),
                                 subject.value if subject.value >= 0 else None, value.value,
                                 _get_text("year_assumption_text", self._handle, i)))
        return found
