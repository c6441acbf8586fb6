"""Weather, sun and planes through the binding. Place and numbers are invented unless a
source is named."""

import array
import math

import pytest

import pvsize

SITE = dict(latitude=-33.9, longitude=151.2, time_zone=10)


def months(irradiation=4.0, **others):
    return [dict(irradiation=irradiation, temp_mean=15, **others) for _ in range(12)]


def test_a_year_from_its_months():
    year = pvsize.Weather.from_months(pvsize.Site(**SITE, months=months(wind=3)), 2028)
    assert len(year) == 8784 and year.step == 60
    assert year.time(0)[:3] == (2028, 1, 0)
    assert year.origin(12, "global") == "synthetic"
    assert year.count("wind") == 0 and year.runs("wind") == []
    assert sum(year.column("global")) / 366 == pytest.approx(4000, rel=1e-12)
    assert math.isclose(sum(year.column("temp")) / 8784, 15)
    north, south = sum(year.on_plane(30, 0)), sum(year.on_plane(30, 180))
    assert north > 1.2 * south > 0
    again = pvsize.Weather.from_months(pvsize.Site(**SITE, months=months(wind=3)), 2028)
    assert year.column("beam") == again.column("beam")


def test_weather_outlives_what_it_was_made_from():
    site = pvsize.Site(**SITE, months=months())
    year = pvsize.Weather.from_months(site)
    site.close()
    assert year.value(12, "global") > 0


def test_a_series_of_lists_with_gaps():
    site = pvsize.Site(**SITE)
    series = pvsize.Series(step=30, gap=-9, first_day=15, stamp="beginning")
    rows = pvsize.Weather.from_series(
        site, {"global": [0, 500, -9, 600], "temp": [20, -9, -9, 21]}, series)
    assert len(rows) == 4 and rows.step == 30
    assert rows.value(2, "global") is None and rows.value(1, "temp") is None
    assert rows.runs("temp") == [pvsize.Run(1, 2)] and rows.count("temp") == 2
    assert rows.count("wind") == 4
    assert rows.origin(1, "diffuse") == "estimated" and rows.origin(2, "diffuse") == "missing"
    assert math.isnan(rows.column("temp")[1]) and rows.column("temp", gap=0)[1] == 0
    assert rows.closure == pvsize.Closure(0, 0, 0, None)
    assert math.isnan(rows.on_plane(20, 0)[2])


def test_arrays_are_read_where_they_are():
    numpy = pytest.importorskip("numpy")
    site = pvsize.Site(**SITE)
    table = numpy.zeros((48, 5))
    table[:, 0], table[:, 3] = 300, numpy.linspace(10, 20, 48)
    for layout in (table, numpy.asfortranarray(table), table.astype("float32"),
                   table.astype(">f8"), numpy.flipud(table)[::-1]):
        column = pvsize._weather._Column(layout[:, 3])
        in_place = layout.dtype == numpy.dtype("<f8") and layout[:, 3].strides[0] > 0
        assert (column.address == layout[:, 3].__array_interface__["data"][0]) == in_place
        rows = pvsize.Weather.from_series(site, {"global": layout[:, 0], "temp": layout[:, 3]})
        assert numpy.allclose(rows.column("temp"), table[:, 3], rtol=1e-6)
    backwards = pvsize.Weather.from_series(site, {"global": table[::-1, 3]})
    assert numpy.allclose(backwards.column("global"), table[::-1, 3])
    table.flags.writeable = False
    mixed = pvsize.Weather.from_series(site, {"global": table[:, 0], "temp": numpy.arange(48.0)})
    assert numpy.asarray(mixed.column("temp")).tolist() == list(range(48))
    plain = pvsize.Weather.from_series(site, {"global": array.array("d", [1, 2])})
    assert plain.value(1, "global") == 2


def test_wrong_weather_is_named():
    site = pvsize.Site(**SITE)
    with pytest.raises(pvsize.RangeError, match=r"interval\[1\].beam") as caught:
        pvsize.Weather.from_series(site, {"beam": [0, 5000], "diffuse": [0, 0]})
    assert caught.value.term == "interval.beam" and caught.value.index == 1
    assert caught.value.value == 5000 and caught.value.range == (0, 1500)
    with pytest.raises(pvsize.RangeError, match="not a finite number"):
        pvsize.Weather.from_series(site, {"global": [0, math.nan]})
    with pytest.raises(pvsize.StateError, match="site.latitude"):
        pvsize.Weather.from_series(pvsize.Site(), {"global": [0]})
    with pytest.raises(pvsize.StateError, match="interval.global"):
        pvsize.Weather.from_series(site, {"temp": [0]})
    with pytest.raises(pvsize.StateError, match="month"):
        pvsize.Weather.from_months(site)
    with pytest.raises(ValueError, match="unlike length"):
        pvsize.Weather.from_series(site, {"global": [0, 0], "temp": [0]})
    with pytest.raises(TypeError, match="no column rain"):
        pvsize.Weather.from_series(site, {"rain": [0]})
    with pytest.raises(TypeError, match="from_series"):
        pvsize.Weather()
    rows = pvsize.Weather.from_series(site, {"global": [0]})
    with pytest.raises(KeyError, match="no column"):
        rows.column("rain")
    with pytest.raises(pvsize.ArgumentError):
        rows.value(1, "global")
    with pytest.raises(pvsize.RangeError, match="plane.tilt"):
        rows.on_plane(200, 0)


def test_a_check_on_the_day():
    # NREL/TP-560-34302, worked example
    instant = pvsize.julian_day(2003, 290, 19 + 30 / 60 + 30 / 3600)
    assert instant == pytest.approx(2452930.312847, abs=1e-6)
    azimuth, elevation = pvsize.sun_position(39.742476, -105.1786, instant, 820, 11)
    assert azimuth == pytest.approx(194.34024, abs=0.01)
    assert 90 - elevation == pytest.approx(50.11162, abs=0.01)
    beam, diffuse = pvsize.split_global(39.742476, -105.1786, instant, 600)
    assert beam * math.sin(math.radians(39.872046)) + diffuse == pytest.approx(600, abs=0.1)
    plane = pvsize.plane_irradiance(39.742476, -105.1786, instant, beam, diffuse, 30, 170)
    assert plane.incidence == pytest.approx(25.187, abs=0.02)
    assert plane.total == plane.beam + plane.sky + plane.ground > 600
    with pytest.raises(pvsize.RangeError, match="site.latitude"):
        pvsize.sun_position(95, 0, instant)
