# SPDX-License-Identifier: MIT
"""Synthetic years against real ones: what a plane receives, and what an inverter clips.

PVSIZE_REAL_YEARS names a folder with tmy3-NAME.csv files (open typical years, TMY3): lines
that begin with # are remarks, then month, day, hour (ending, standard time), ghi, dni, dhi,
temp_air, wind. Without it these tests are skipped."""

import csv
import os
import pathlib

import pytest

import pvsize

np = pytest.importorskip("numpy")

FOLDER = os.environ.get("PVSIZE_REAL_YEARS")
pytestmark = pytest.mark.skipif(not FOLDER, reason="PVSIZE_REAL_YEARS names no folder")

PLACES = {"chicago": dict(latitude=41.98, longitude=-87.92, time_zone=-6, elevation=201),
          "golden": dict(latitude=39.74, longitude=-105.18, time_zone=-7, elevation=1829)}


def real_year(name):
    with open(pathlib.Path(FOLDER) / f"tmy3-{name}.csv", newline="", encoding="utf-8") as file:
        rows = [row for row in csv.reader(file) if not row[0].startswith("#")]
    return dict(zip(rows[0], np.array(rows[1:], float).T))


def monthly(data, column, month):
    return data[column][data["month"] == month].mean()


def years(name):
    """The same place three times: hours as measured; made from their monthly means; each
    day of a month the mean of its days."""
    data, place = real_year(name), PLACES[name]
    months = [dict(irradiation=monthly(data, "ghi", m) * 24 / 1000,
                   temp_mean=monthly(data, "temp_air", m), wind=monthly(data, "wind", m))
              for m in range(1, 13)]
    mean = {c: np.empty(8760) for c in ("ghi", "temp_air", "wind")}
    for m in range(1, 13):
        for h in range(1, 25):
            rows = (data["month"] == m) & (data["hour"] == h)
            for c, values in mean.items():
                values[rows] = data[c][rows].mean()
    site = pvsize.Site(**place)
    return {"real": pvsize.Weather.from_series(
                site, {"global": data["ghi"], "beam": data["dni"], "diffuse": data["dhi"],
                       "temp": data["temp_air"], "wind": data["wind"]}),
            "synthetic": pvsize.Weather.from_months(pvsize.Site(**place, months=months)),
            "mean day": pvsize.Weather.from_series(
                site, {"global": mean["ghi"], "temp": mean["temp_air"], "wind": mean["wind"]})}


def work(weather, ratios, tilt=30, azimuth=180):
    """kWh/m2 on the plane, kWh/kWp, and the share in % that is clipped at each ratio of array
    to inverter: a linear array, -0.4 %/K, 8 % other losses, 96.5 % conversion; cells by Faiman
    with half the wind at 10 m."""
    plane = np.asarray(weather.on_plane(tilt, azimuth))
    cell = np.asarray(weather.column("temp")) + \
        plane / (25 + 6.84 * 0.5 * np.asarray(weather.column("wind")))
    power = plane / 1000 * (1 - 0.004 * (cell - 25)) * 0.92 * 0.965
    clipped = [100 * (1 - np.minimum(power, 1 / r).sum() / power.sum()) for r in ratios]
    return plane.sum() / 1000, power.sum(), clipped


def whole_year(weather, place, ratio, tilt=30, azimuth=180):
    """The same by pvsize.Year: yield in kWh/kW, and the share in % that the a.c. rating takes."""
    plane = pvsize.Plane(tilt=tilt, azimuth=azimuth, heat_loss=25, heat_loss_wind=6.84)
    module = pvsize.Module(pmax=440, voc=40, isc=14, vmp=33.4, imp=13.174, cells=54,
                           voc_coefficient=-0.26, isc_coefficient=0.045, pmax_coefficient=-0.35)
    inverter = pvsize.Inverter(rated_ac_power=10 * 440 / ratio, european_efficiency=96.5,
                               inputs=[pvsize.Input(tracking_min=100, tracking_max=500)])
    system = pvsize.System(
        site=pvsize.Site(**place, planes=[plane]), inverters=[inverter],
        arrays=[pvsize.Array(input=0, plane=0, modules_per_string=10, strings=1, module=module)])
    light = pvsize.Light(weather, pvsize.Outlook(soiling=3, power_loss=5))
    whole = pvsize.Year(system, light).system
    return whole.specific_yield, 100 * whole.loss("ac_rating") / (
        whole.output + whole.loss("night") + whole.loss("ac_rating"))


@pytest.mark.parametrize("name", sorted(PLACES))
def test_a_whole_year_clips_on_a_synthetic_year_as_on_a_real_one(name):
    weathers = years(name)
    for ratio in (1.0, 1.33, 1.5):
        found = {kind: whole_year(weather, PLACES[name], ratio)
                 for kind, weather in weathers.items()}
        print(f"{name} at {ratio}: " + "; ".join(
            f"{kind} {energy:.0f} kWh/kW, {clipped:.2f} %" for kind, (energy, clipped)
            in found.items()))
        assert abs(found["synthetic"][1] - found["real"][1]) < 1.0
        assert found["synthetic"][0] == pytest.approx(found["real"][0], rel=0.05)
    # about what a linear array clips on the same hours; temperature and glass differ
    assert abs(found["real"][1] - work(weathers["real"], [1.5])[2][0]) < 1.5


@pytest.mark.parametrize("name", sorted(PLACES))
@pytest.mark.parametrize("azimuth", [180, 270])
def test_a_synthetic_year_clips_like_a_real_one(name, azimuth):
    found = {kind: work(weather, [1.5, 2.0], azimuth=azimuth)
             for kind, weather in years(name).items()}
    for kind, (plane, energy, clipped) in found.items():
        print(f"{name} {azimuth} {kind}: {plane:.0f} kWh/m2, {energy:.0f} kWh/kWp, clipped "
              f"{clipped[0]:.2f} % at 1.5, {clipped[1]:.2f} % at 2.0")
    real, made, mean = found["real"], found["synthetic"], found["mean day"]
    assert made[0] == pytest.approx(real[0], rel=0.045)
    assert abs(made[2][0] - real[2][0]) < 0.8
    assert abs(made[2][1] - real[2][1]) < 1.5
    # one mean day hides most of it: the reason for the quantiles
    assert mean[2][0] < 0.35 * real[2][0]


def test_a_real_year_agrees_with_an_earlier_computation():
    """Chicago: an independent computation with another sun position (PSA+ 2020), the same
    sky model: 1607 kWh/m2, 1396 kWh/kWp, and these losses."""
    weather = years("chicago")["real"]
    plane, energy, clipped = work(weather, [1.2, 1.3, 1.4, 1.5, 1.75, 2.0])
    assert plane == pytest.approx(1607, abs=5) and energy == pytest.approx(1396, abs=5)
    assert clipped == pytest.approx([0.11, 0.63, 1.76, 3.42, 8.59, 13.92], abs=0.12)
    assert weather.closure.rows > 4500 and abs(weather.closure.mean) < 2
