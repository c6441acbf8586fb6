"""Weather, the sun, and planes under the sky.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import array
import ctypes
import sys
import typing

from ._base import _do, _get, _Handle, _handle_of, _lib, StateError
from ._spec import Spec
from ._terms import _choice_name, _choice_number, _TERMS

_DOUBLES = ctypes.POINTER(ctypes.c_double)
_NATIVE = ("<" if sys.byteorder == "little" else ">") + "f8"
_COLUMNS = ("global", "beam", "diffuse", "temp", "wind")


class Run(typing.NamedTuple):
    """Rows that follow one another."""
    first: int
    rows: int


class Closure(typing.NamedTuple):
    """How global, beam and diffuse agree where all three were given, in W/m2."""
    rows: int
    mean: float
    largest: float
    row: typing.Optional[int]


class PlaneIrradiance(typing.NamedTuple):
    """What a plane receives, in W/m2, and the angle of incidence of the beam in degrees."""
    beam: float
    sky: float
    ground: float
    incidence: float

    @property
    def total(self) -> float:
        """W/m2."""
        return self.beam + self.sky + self.ground


class _Column:
    """A caller's numbers as the library reads them: in place where they are doubles in
    memory (NumPy arrays and columns of them among these), else a copy."""

    def __init__(self, values):
        self._keep = values
        layout = getattr(values, "__array_interface__", None)
        if layout and layout["typestr"] == _NATIVE and len(layout["shape"]) == 1:
            step = layout["strides"][0] if layout.get("strides") else 8
            if step > 0 and step % 8 == 0:
                self._set(layout["data"][0], layout["shape"][0], step // 8)
                return
        self.pack()

    def pack(self):
        """Copies the numbers, one behind the other."""
        self._keep = array.array("d", map(float, self._keep))
        address, count = self._keep.buffer_info()
        self._set(address, count, 1)

    def _set(self, address, count, stride):
        self.address, self.count, self.stride = address, count, stride

    @property
    def pointer(self):
        return ctypes.cast(self.address, _DOUBLES)


def _same_layout(columns):
    """One stride for all; copies where they differ. Returns rows and stride."""
    counts = {column.count for column in columns}
    if len(counts) > 1:
        raise ValueError(f"columns of unlike length: {sorted(counts)}")
    if len({column.stride for column in columns}) > 1:
        for column in columns:
            column.pack()
    return (counts.pop(), columns[0].stride) if columns else (0, 1)


class Weather(_Handle):
    """Equal intervals with global, beam and diffuse irradiance, temperature and wind, each
    value with its origin. Made by from_series or from_months; does not change."""

    _free = staticmethod(_lib.pvsize_weather_free)

    def __init__(self):
        raise TypeError("weather is made by Weather.from_series or Weather.from_months")

    @classmethod
    def _make(cls, name, *arguments):
        weather = cls.__new__(cls)
        _Handle.__init__(weather)
        _do(name, *arguments, None, ctypes.byref(weather._handle))
        return weather

    @classmethod
    def from_series(cls, site: Spec, columns: dict[str, typing.Any],
                    series: Spec | None = None) -> Weather:
        """From columns of numbers by name, such as {"global": [...], "temp": [...]}; there
        are global, beam, diffuse, temp and wind. A missing value is a number equal to
        series.gap; NaN is refused. Arrays of doubles are read where they are."""
        unknown = [name for name in columns if name not in _COLUMNS]
        if unknown:
            raise TypeError(f"no column {', '.join(map(str, unknown))}; there are "
                            f"{', '.join(_COLUMNS)}")
        given = {name: _Column(columns[name]) for name in columns}
        rows, stride = _same_layout(list(given.values()))
        return cls._make("weather_from_series", _handle_of(site, Spec),
                         _handle_of(series, Spec) if series is not None else None,
                         *(given[name].pointer if name in given else None for name in _COLUMNS),
                         rows, stride)

    @classmethod
    def from_months(cls, site: Spec, year: int = 2026) -> Weather:
        """The hours of a year from the site's twelve months, the same each time."""
        return cls._make("weather_from_months", _handle_of(site, Spec), year)

    def _size(self):
        rows, step = ctypes.c_int32(), ctypes.c_int32()
        _do("weather_size", self._handle, rows, step)
        return rows.value, step.value

    def __len__(self) -> int:
        return self._size()[0]

    @property
    def step(self) -> int:
        """Minutes of an interval."""
        return self._size()[1]

    def time(self, row: int) -> tuple[int, int, int, float]:
        """Year, day of the year and minute of the day at which a row begins, in standard
        time, and its Julian day in universal time."""
        year, day, minute = (ctypes.c_int32() for _ in range(3))
        julian = ctypes.c_double()
        _do("weather_time", self._handle, row, year, day, minute, julian)
        return year.value, day.value, minute.value, julian.value

    def value(self, row: int, column: str) -> float | None:
        """A number, or None where it is missing."""
        try:
            return _get(ctypes.c_double, "weather_value", self._handle, row, _term(column))
        except StateError:
            return None

    def origin(self, row: int, column: str) -> str:
        """"missing", "given", "derived", "estimated" or "synthetic"."""
        return _choice_name("origin", _get(ctypes.c_int32, "weather_origin", self._handle, row,
                                           _term(column)))

    def _array(self, name, *arguments):
        values = array.array("d", bytes(8 * len(self)))
        _do(name, self._handle, *arguments,
            ctypes.cast(values.buffer_info()[0], _DOUBLES), len(values), None)
        return values

    def column(self, column: str, gap: float = float("nan")) -> array.array[float]:
        """A column as array.array of doubles (numpy.asarray takes it without copying)."""
        return self._array("weather_column", _term(column), gap)

    def on_plane(self, tilt: float, azimuth: float,
                 gap: float = float("nan")) -> array.array[float]:
        """Irradiance of a plane in every row, in W/m2."""
        return self._array("weather_on_plane", tilt, azimuth, gap)

    def count(self, column: str, origin: str = "missing") -> int:
        """Rows of a column that have an origin."""
        rows = ctypes.c_int32()
        _do("weather_count", self._handle, _term(column), _choice_number("origin", origin), rows,
            None)
        return rows.value

    def runs(self, column: str, origin: str = "missing") -> list[Run]:
        """Where those rows are: of "missing", the gaps."""
        number, runs = _choice_number("origin", origin), ctypes.c_int32()
        _do("weather_count", self._handle, _term(column), number, None, runs)
        found = []
        for i in range(runs.value):
            first, rows = ctypes.c_int32(), ctypes.c_int32()
            _do("weather_run", self._handle, _term(column), number, i, first, rows)
            found.append(Run(first.value, rows.value))
        return found

    @property
    def closure(self) -> Closure:
        """How global, beam and diffuse agree where all three were given."""
        rows, row = ctypes.c_int32(), ctypes.c_int32()
        mean, largest = ctypes.c_double(), ctypes.c_double()
        _do("weather_closure", self._handle, rows, mean, largest, row)
        return Closure(rows.value, mean.value, largest.value,
                       row.value if row.value >= 0 else None)


def _term(column):
    try:
        return _TERMS["interval"][column].number
    except KeyError:
        raise KeyError(f"no column {column!r}; there are {', '.join(_COLUMNS)}") from None


def julian_day(year: int, day: int, hour: float) -> float:
    """Julian day of an hour of universal time, on a day of the year counted from 1."""
    return _get(ctypes.c_double, "julian_day", year, day, hour)


def _numbers(name, count, *arguments):
    places = [ctypes.c_double() for _ in range(count)]
    _do(name, *arguments, *places)
    return tuple(place.value for place in places)


def sun_position(latitude: float, longitude: float, julian_day: float, pressure: float = 0,
                 temp: float = 10) -> tuple[float, float]:
    """Azimuth clockwise from north, and elevation, in degrees."""
    return _numbers("sun_position", 2, latitude, longitude, julian_day, pressure, temp)


def split_global(latitude: float, longitude: float, julian_day: float,
                 irradiance: float) -> tuple[float, float]:
    """Beam and diffuse that go, on average, with a global irradiance."""
    return _numbers("split_global", 2, latitude, longitude, julian_day, irradiance)


def plane_irradiance(latitude: float, longitude: float, julian_day: float, beam: float,
                     diffuse: float, tilt: float, azimuth: float,
                     albedo: float = 0.2) -> PlaneIrradiance:
    """What a plane receives at an instant."""
    return PlaneIrradiance(*_numbers("plane_irradiance", 4, latitude, longitude, julian_day, beam,
                                     diffuse, albedo, tilt, azimuth))
