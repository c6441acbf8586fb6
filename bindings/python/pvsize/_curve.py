"""One module's current-voltage curve, and strings of unlike modules in parallel.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import array
import ctypes
import typing

from ._base import _do, E_NOT_SET, Error, _get, _Handle, _handle_of, _lib, _text
from ._kinds import DiodeModel
from ._spec import Spec
from ._terms import _choice_name, _choice_number, _SETS


_Doubles = typing.Any  # a sequence of numbers, or a buffer of doubles


class Point(typing.NamedTuple):
    """V and A."""
    voltage: float
    current: float

    @property
    def power(self) -> float:
        """W."""
        return self.voltage * self.current


class Assumption(typing.NamedTuple):
    """What a fit took for granted or gave up: its name, its value, in words."""
    name: str
    value: float
    text: str


def _numbers(values, writable=False):
    """C doubles for a call. A contiguous buffer of doubles (array.array, a NumPy array) is
    used where it lies; what is read only, or a sequence of numbers, is copied."""
    try:
        view = memoryview(values)
    except TypeError:
        view = None
    if view is None or view.format != "d" or not view.c_contiguous or view.ndim != 1:
        if writable:
            raise TypeError("an output must be a contiguous buffer of doubles")
        values = list(values)
        return (ctypes.c_double * len(values))(*values)
    kind = ctypes.c_double * len(view)
    if view.readonly:
        if writable:
            raise TypeError("an output must be writable")
        return kind.from_buffer_copy(view)
    return kind.from_buffer(view)


def _room(n):
    return array.array("d", bytes(8 * n))


def _pair(name, *arguments):
    """Calls with two places for a number each."""
    first, second = ctypes.c_double(), ctypes.c_double()
    _do(name, *arguments, ctypes.byref(first), ctypes.byref(second))
    return Point(first.value, second.value)


class Curve(_Handle):
    """The single-diode model of a module, fitted once to a Module or made from a
    DiodeModel. Irradiance in W/m2, cell temperature in degrees C; both have STC as
    default. A calculation aid: see the accuracy in pvsize/curve.h."""

    _free = staticmethod(_lib.pvsize_curve_free)

    def __init__(self, spec: Spec):
        super().__init__()
        if not isinstance(spec, Spec):
            raise TypeError("a curve is made of a Module or a DiodeModel")
        _do("curve_new", _handle_of(spec, Spec), None, ctypes.byref(self._handle))

    def model(self, irradiance: float = 1000, cell_temp: float = 25) -> DiodeModel:
        """The parameters at a condition, as a DiodeModel."""
        handle = ctypes.c_void_p()
        _do("curve_model", self._handle, irradiance, cell_temp, None, ctypes.byref(handle))
        return DiodeModel._wrap(handle)

    @property
    def assumptions(self) -> list[Assumption]:
        """What the fit took for granted or gave up."""
        found = []
        for i in range(_get(ctypes.c_int32, "curve_assumption_count", self._handle)):
            what, value = ctypes.c_int32(), ctypes.c_double()
            _do("curve_assumption", self._handle, i, ctypes.byref(what), ctypes.byref(value))
            name = _choice_name("curve_assumption", what.value)
            text = _text(_lib.pvsize_set_text(_SETS["curve_assumption"], what.value))
            found.append(Assumption(name, value.value, text))
        return found

    def check(self, what: str) -> float | None:
        """What the curve has less what the data sheet has, such as check("vmp"); None where
        the data sheet is silent."""
        try:
            return _get(ctypes.c_double, "curve_check", self._handle,
                        _choice_number("curve_check", what))
        except Error as error:
            if error.status == E_NOT_SET:
                return None
            raise

    def mpp(self, irradiance: float = 1000, cell_temp: float = 25) -> Point:
        """Maximum-power point."""
        return _pair("curve_mpp", self._handle, irradiance, cell_temp)

    def voc(self, irradiance: float = 1000, cell_temp: float = 25) -> float:
        """Open-circuit voltage."""
        return _pair("curve_ends", self._handle, irradiance, cell_temp)[0]

    def isc(self, irradiance: float = 1000, cell_temp: float = 25) -> float:
        """Short-circuit current."""
        return _pair("curve_ends", self._handle, irradiance, cell_temp)[1]

    def current(self, voltage: float, irradiance: float = 1000, cell_temp: float = 25) -> float:
        """Current at a voltage."""
        return _get(ctypes.c_double, "curve_current", self._handle, irradiance, cell_temp, voltage)

    def voltage(self, current: float, irradiance: float = 1000, cell_temp: float = 25) -> float:
        """Voltage at a current."""
        return _get(ctypes.c_double, "curve_voltage", self._handle, irradiance, cell_temp, current)

    def sample(self, n: int = 100, irradiance: float = 1000,
               cell_temp: float = 25) -> tuple[array.array[float], array.array[float]]:
        """n points from short circuit to open circuit: voltages, currents."""
        voltage, current = _room(n), _room(n)
        _do("curve_sample", self._handle, irradiance, cell_temp, n, _numbers(voltage, True),
            _numbers(current, True))
        return voltage, current

    def mpps(self, irradiance: _Doubles, cell_temp: _Doubles,
             out: tuple[typing.Any, typing.Any] | None = None) -> tuple[typing.Any, typing.Any]:
        """Maximum-power points of a row of conditions: voltages, currents. Buffers of
        doubles, such as NumPy arrays, are read and written where they lie; `out` is a pair of
        them, else new array.array."""
        sun, temp = _numbers(irradiance), _numbers(cell_temp)
        if len(sun) != len(temp):
            raise ValueError("irradiance and cell_temp have unlike lengths")
        voltage, current = out if out is not None else (_room(len(sun)), _room(len(sun)))
        places = _numbers(voltage, True), _numbers(current, True)
        if any(len(place) != len(sun) for place in places):
            raise ValueError("out has another length")
        _do("curve_mpps", self._handle, sun, temp, len(sun), *places)
        return voltage, current


class Branch(typing.NamedTuple):
    """Equal strings in parallel: their module's curve and conditions, modules in each,
    how many."""
    curve: Curve
    modules: int
    strings: int = 1
    irradiance: float = 1000
    cell_temp: float = 25


class Parallel:
    """Unlike strings in parallel on one input, by their curves. `blocked`: a diode keeps
    current from flowing back into a string."""

    def __init__(self, branches: typing.Iterable[Branch | tuple[typing.Any, ...]],
                 blocked: bool = False):
        self.branches = tuple(Branch(*branch) for branch in branches)
        self.blocked = bool(blocked)

    def _arguments(self):
        """Made anew for each call: a curve may have been closed since."""
        n = len(self.branches)
        column = {name: [getattr(branch, name) for branch in self.branches]
                  for name in Branch._fields}
        return (
            (ctypes.c_void_p * n)(*(_handle_of(curve, Curve).value for curve in column["curve"])),
            (ctypes.c_double * n)(*column["irradiance"]),
            (ctypes.c_double * n)(*column["cell_temp"]),
            (ctypes.c_int32 * n)(*column["modules"]), (ctypes.c_int32 * n)(*column["strings"]),
            n, int(self.blocked))

    def mpp(self) -> Point:
        """Maximum-power point of all together."""
        return _pair("parallel_mpp", *self._arguments())

    def current(self, voltage: float) -> float:
        """Current of all together at a voltage."""
        return _get(ctypes.c_double, "parallel_current", *self._arguments(), voltage)

    def voltage(self, current: float) -> float:
        """Voltage at which this current flows; at 0 the open-circuit voltage."""
        return _get(ctypes.c_double, "parallel_voltage", *self._arguments(), current)
