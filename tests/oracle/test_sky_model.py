# SPDX-License-Identifier: MIT
"""lib/physics and pvsize.Weather against a second model, written from the published formulas
in NumPy and SciPy, and against ERFA, over random inputs.

PVSIZE_ORACLE_SKIES sets how many; more take longer."""

import math
import os
import pathlib
import subprocess

import numpy as np
import pytest
from scipy import integrate, optimize

import pvsize

COUNT = int(os.environ.get("PVSIZE_ORACLE_SKIES", "2000"))
ROOT = pathlib.Path(__file__).resolve().parents[2]


def answers_program():
    """Built beside the library under test."""
    library = os.environ.get("PVSIZE_LIBRARY")
    folders = [pathlib.Path(library).parents[1]] if library else sorted(ROOT.glob("build*"))
    for folder in folders:
        if (folder / "tests" / "answers").exists():
            return folder / "tests" / "answers"
    pytest.fail("tests/answers is not built: meson setup -Dtests=true")


def ask(word, questions):
    """The answers to many questions, a list each."""
    text = "".join(word + " " + " ".join(repr(float(x)) for x in q) + "\n" for q in questions)
    got = subprocess.run([str(answers_program())], input=text, capture_output=True, text=True,
                         check=True)
    lines = got.stdout.splitlines()
    assert len(lines) == len(questions)
    return [[float(x) for x in line.split()] for line in lines]


def close(got, want, tolerance=1e-9):
    np.testing.assert_allclose(got, want, rtol=tolerance, atol=tolerance)


# the sun

def erfa_directions(days, latitude, longitude):
    """East, north, up as ERFA has them: IAU 2006/2000A, aberration, parallax, no refraction.
    The difference of the two times is interpolated from the yearbooks."""
    erfa = pytest.importorskip("erfa")
    jd = 2451545.0 + days
    years = 2000 + days / 365.25
    delta = np.interp(years, [1950, 1960, 1970, 1980, 1990, 2000, 2010, 2020, 2050, 2100],
                      [29.1, 33.1, 40.2, 50.5, 56.9, 63.8, 66.1, 69.4, 80, 120]) / 86400
    heliocentric, barycentric = erfa.epv00(jd, delta)
    vector = -heliocentric["p"]
    distance = np.linalg.norm(vector, axis=-1)
    speed = barycentric["v"] / 173.1446327
    unit = erfa.ab(vector / distance[:, None], speed, distance,
                   np.sqrt(1 - np.linalg.norm(speed, axis=-1) ** 2))
    unit = np.einsum("nij,nj->ni", erfa.pnm06a(jd, delta), unit)
    angle = erfa.gst06a(jd, 0.0, jd, delta) + np.radians(longitude)
    phi = np.radians(latitude)
    x = unit[:, 0] * np.cos(angle) + unit[:, 1] * np.sin(angle)
    west = unit[:, 0] * np.sin(angle) - unit[:, 1] * np.cos(angle)
    local = np.stack([-west, np.cos(phi) * unit[:, 2] - np.sin(phi) * x,
                      np.sin(phi) * unit[:, 2] + np.cos(phi) * x], -1) * distance[:, None]
    local[:, 2] -= 6371.01 / 149597870.7
    return local / np.linalg.norm(local, axis=-1)[:, None], distance


def test_the_sun_is_where_erfa_has_it():
    rng = np.random.default_rng(83379866)
    count = 10 * COUNT
    days = rng.uniform(-18262, 36524, count)  # 1950 to 2100
    latitude = np.degrees(np.arcsin(rng.uniform(-1, 1, count)))
    longitude = rng.uniform(-180, 180, count)
    want, distance = erfa_directions(days, latitude, longitude)
    got = np.array(ask("sun", list(zip(days, latitude, longitude))))
    off = np.degrees(np.linalg.norm(got[:, :3] - want, axis=-1))
    print(f"sun: {off.mean():.4f} degrees in the mean, {off.max():.4f} at most")
    assert off.max() < 0.006 and off.mean() < 0.002
    # the distance is that of noon
    np.testing.assert_allclose(got[:, 3] * distance ** 2, 1367, rtol=7e-4)


# planes

BINS = [  # Perez et al. 1990, table 6
    (1.065, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022),
    (1.230, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029),
    (1.500, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026),
    (1.950, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014),
    (2.800, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001),
    (4.500, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056),
    (6.200, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131),
    (math.inf, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251)]


def air_mass(zenith):
    return 1 / (math.cos(math.radians(zenith)) + 0.50572 * (96.07995 - zenith) ** -1.6364)


def through_glass(theta):
    """De Soto et al. 2006 by Snell and Fresnel in angles; n 1.526, 4 /m, 2 mm."""
    def tau(t):
        if t < 1e-9:
            return math.exp(-0.008) * (1 - ((0.526) / 2.526) ** 2)
        r = math.asin(math.sin(t) / 1.526)
        lost = 0.5 * (math.sin(r - t) ** 2 / math.sin(r + t) ** 2 +
                      math.tan(r - t) ** 2 / math.tan(r + t) ** 2)
        return math.exp(-0.008 / math.cos(r)) * (1 - lost)
    return tau(theta) / tau(0)


def passes(cover, theta, slope=None):
    if theta >= math.pi / 2:
        return 0
    if cover == 1:
        return through_glass(theta)
    if cover == 2:
        a = slope or 0.16
        return (1 - math.exp(-math.cos(theta) / a)) / (1 - math.exp(-1 / a))
    if cover == 3:
        return max(0, 1 - (slope or 0.05) * (1 / math.cos(theta) - 1))
    return 1


def mean_passes(cover, tilt, sky, slope=None):
    """Over the directions, by adaptive quadrature in two angles' worth of geometry."""
    b = math.radians(tilt)

    def weight(t):
        edge = math.sin(t) * math.sin(b)
        if edge < 1e-12:
            share = float(math.cos(t) * math.cos(b) >= 0)
        else:
            share = math.acos(min(1, max(-1, -math.cos(t) * math.cos(b) / edge))) / math.pi
        return math.cos(t) * math.sin(t) * (share if sky else 1 - share)

    bends = [abs(math.pi / 2 - b)]
    if cover == 3:  # cut off where it would be negative
        bends.append(math.acos((slope or 0.05) / (1 + (slope or 0.05))))
    bends = sorted(x for x in bends if 1e-6 < x < math.pi / 2 - 1e-6)
    parts = [0, *bends, math.pi / 2]

    def whole(f):
        return sum(integrate.quad(f, lo, hi, epsabs=1e-13, epsrel=1e-12, limit=300)[0]
                   for lo, hi in zip(parts, parts[1:]))

    seen = whole(weight)
    return whole(lambda t: weight(t) * passes(cover, t, slope)) / seen if seen > 1e-9 else 1


def test_glass_passes_what_the_formulas_say():
    rng = np.random.default_rng(2)
    questions, want = [], []
    for _ in range(60):
        cover = int(rng.integers(0, 4))
        slope = float(rng.uniform(0.1, 0.3) if cover == 2 else rng.uniform(0.02, 0.1))
        theta, tilt = float(rng.uniform(0, math.pi / 2)), float(rng.uniform(0.5, 179.5))
        questions.append((cover, slope, math.cos(theta), tilt))
        want.append((passes(cover, theta, slope), mean_passes(cover, tilt, True, slope),
                     mean_passes(cover, tilt, False, slope)))
    close(ask("cover", questions), want)


def random_sky(rng):
    zenith, side = math.radians(rng.uniform(0, 89.9)), math.radians(rng.uniform(0, 360))
    sun = [math.sin(zenith) * math.sin(side), math.sin(zenith) * math.cos(side), math.cos(zenith),
           rng.uniform(1320, 1415), 1.0]
    beam = rng.uniform(0, 1000) if rng.random() > 0.1 else 0.0
    diffuse = rng.uniform(0, 450) if rng.random() > 0.1 else 0.0
    return zenith, side, sun, beam, diffuse, beam * math.cos(zenith) + diffuse


def plane_by_formula(model, zenith, side, beyond, beam, diffuse, total, tilt, azimuth, albedo):
    """The published forms, angle by angle. Beam, sky, ground."""
    b = math.radians(tilt)
    cosine = math.cos(zenith) * math.cos(b) + \
        math.sin(zenith) * math.sin(b) * math.cos(side - math.radians(azimuth))
    a, low = max(0, cosine), max(math.cos(math.radians(85)), math.cos(zenith))
    even = diffuse * (1 + math.cos(b)) / 2
    if model == 0 and diffuse > 0:
        bend = 1.041 * zenith ** 3
        clearness = ((diffuse + beam) / diffuse + bend) / (1 + bend)
        bright = diffuse * air_mass(math.degrees(zenith)) / beyond
        _, f11, f12, f13, f21, f22, f23 = next(row for row in BINS if clearness <= row[0])
        f1 = min(1, max(0, f11 + f12 * bright + f13 * zenith))
        f2 = f21 + f22 * bright + f23 * zenith
        sky = diffuse * ((1 - f1) * (1 + math.cos(b)) / 2 + f1 * a / low + f2 * math.sin(b))
    elif model == 2:
        ai = min(beam / beyond, 1)
        sky = diffuse * ai * a / low + (1 - ai) * even
    elif model == 3 and diffuse > 0:
        ai = min(beam / beyond, 1)
        f = math.sqrt(beam * math.cos(zenith) / total)
        sky = diffuse * ai * a / low + (1 - ai) * even * (1 + f * math.sin(b / 2) ** 3)
    else:
        sky = even
    return beam * a, max(0, sky), total * albedo * (1 - math.cos(b)) / 2


def test_planes_receive_what_the_formulas_say():
    rng = np.random.default_rng(3)
    questions, want = [], []
    for i in range(COUNT):
        zenith, side, sun, beam, diffuse, total = random_sky(rng)
        model, tilt, azimuth = i % 4, rng.uniform(0, 180), rng.uniform(0, 360)
        albedo = rng.uniform(0, 1)
        questions.append((model, *sun, beam, diffuse, total, tilt, azimuth, albedo, 0))
        want.append(plane_by_formula(model, zenith, side, sun[3], beam, diffuse, total, tilt,
                                     azimuth, albedo))
    close(ask("plane", questions), want)


# clearness, heat, conversion

def erbs(k):
    if k <= 0.22:
        return 1 - 0.09 * k
    if k <= 0.8:
        return 0.9511 - 0.1604 * k + 4.388 * k ** 2 - 16.638 * k ** 3 + 12.336 * k ** 4
    return 0.165


def split_by_formula(up, beyond, lit, total):
    most = beyond * lit
    share = erbs(total / (most * up))
    beam = min((1 - share) * total / up, most)
    return beam, total - beam * up


def test_global_is_split_as_published():
    rng = np.random.default_rng(4)
    questions, want = [], []
    for _ in range(COUNT):
        _, _, sun, _, _, _ = random_sky(rng)
        lit, total = rng.uniform(0.01, 1), rng.uniform(0.01, 1300)
        questions.append((*sun[:4], lit, total))
        want.append(split_by_formula(sun[2], sun[3], lit, total))
    close(ask("split", questions), want)


def clearness_of_days(mean, days):
    shaped = min(0.75, max(0.2, mean))
    low, high = 0.05, 0.6313 + 0.267 * shaped - 11.9 * (shaped - 0.75) ** 8
    xi = (high - low) / (high - shaped)
    g = -1.498 + (1.184 * xi - 27.182 * math.exp(-1.5 * xi)) / (high - low)
    p = (np.arange(days) + 0.5) / days
    ranked = np.log((1 - p) * math.exp(g * low) + p * math.exp(g * high)) / g
    step = round(days * (math.sqrt(5) - 1) / 2)
    while math.gcd(days, step) > 1:
        step += 1
    return ranked[np.arange(days) * step % days] * mean / shaped


def test_days_are_dealt_as_published():
    rng = np.random.default_rng(5)
    for _ in range(60):
        mean, days = rng.uniform(0.05, 0.9), int(rng.integers(28, 32))
        close(ask("days", [(mean, days)])[0], clearness_of_days(mean, days), 1e-8)


HEAT = [(-3.47, -0.0594, 3), (-2.98, -0.0471, 1), (-3.56, -0.0750, 3), (-2.81, -0.0455, 0),
        (-3.58, -0.113, 3), (-3.23, -0.130, 13), (-3.27, -0.061, 2)]


def test_cells_get_as_warm_as_published():
    rng = np.random.default_rng(6)
    questions, want = [], []
    for i in range(COUNT):
        ambient, g, wind = rng.uniform(-30, 45), rng.uniform(0, 1300), rng.uniform(0, 20)
        nominal, eta, row = rng.uniform(38, 60), rng.uniform(0, 0.25), i % 7
        a, b, excess = HEAT[row]
        questions.append((ambient, g, wind, nominal, eta, row))
        want.append((ambient + (nominal - 20) * g / 800,
                     ambient + g / 800 * (nominal - 20) * (1 - eta / 0.9) * 9.5 / (5.7 + 3.8 * wind),
                     ambient + g / (25 + 6.84 * wind),
                     ambient + g * math.exp(a + b * wind) + g / 1000 * excess))
    close(ask("cell", questions), want)


def test_losses_are_fitted_as_non_negative_least_squares():
    rng = np.random.default_rng(7)
    for _ in range(min(COUNT, 300)):
        count = int(rng.integers(3, 10))
        load, eta = rng.uniform(0.05, 1.1, count), rng.uniform(0.7, 0.995, count)
        dc = float(rng.uniform(0, 1.2))
        points = np.stack([load, np.zeros(count), eta], -1).ravel()
        got = ask("inverter", [(dc, 400, count, *points)])[0]
        basis = np.stack([1 / load, np.ones(count), load], -1)
        terms, _ = optimize.nnls(basis, 1 / eta - 1)
        close(got[1:], terms, 1e-8)
        loss = lambda p: p + terms[0] + terms[1] * p + terms[2] * p * p - dc  # noqa: E731
        want = optimize.brentq(loss, 0, 2, xtol=1e-15) if dc > terms[0] else 0
        close(got[0], want, 1e-8)


# a year from its months, hour by hour

def test_a_year_is_made_as_published():
    rng = np.random.default_rng(8)
    lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    for latitude, longitude, zone in ((41.98, -87.92, -6), (-33.87, 151.21, 10), (1.3, 103.8, 8),
                                      (64.8, -147.9, -9), (-54.8, -68.3, -3)):
        site = pvsize.Site(latitude=latitude, longitude=longitude, time_zone=zone)
        # 2026-01-01 is Julian day 2461041.5; Julian days are kept to 0.00004 s only
        starts = 2461041.5 - 2451545 + (np.arange(8760) - zone) / 24
        sun = hours_of_sun(starts, latitude, longitude)
        outside = sun["beyond"] * sun["lit"] * sun["up"]
        means, first = [], 0
        for days in lengths:
            hours = slice(first * 24, (first + days) * 24)
            means.append(float(outside[hours].sum() / days * rng.uniform(0.25, 0.7)))
            first += days
        temps = rng.uniform(-5, 25, 12)
        months = [dict(irradiation=m / 1000, temp_mean=float(t)) for m, t in zip(means, temps)]
        year = pvsize.Weather.from_months(pvsize.Site(**site.to_dict(), months=months))
        assert abs(year.time(4000)[3] - 2451545 - starts[4000]) < 1e-9
        want = year_by_formula(sun, means, temps, lengths, latitude, longitude, zone)
        for name in ("global", "beam", "diffuse", "temp"):
            # to a millionth of a watt: where the sun lights seconds of an hour, their share
            # of it is known to fewer digits
            np.testing.assert_allclose(year.column(name), want[name], rtol=1e-9, atol=1e-6)


def hours_of_sun(starts, latitude, longitude):
    """Means over the lit part of each hour. test_sun.c holds them to sums of instants."""
    got = np.array(ask("over", [(s, 1 / 24, latitude, longitude) for s in starts]))
    return dict(zip(("east", "north", "up", "beyond", "lit"), got.T))


def year_by_formula(sun, means, temps, lengths, latitude, longitude, zone):
    phi = math.radians(latitude)
    across = math.cos(phi) * sun["up"] - math.sin(phi) * sun["north"]
    still = math.sin(phi) * sun["up"] + math.cos(phi) * sun["north"]
    hour_angle = np.arctan2(-sun["east"], across)
    declination = np.arctan2(still, np.hypot(across, sun["east"]))
    set_angle = np.arccos(np.clip(-math.tan(phi) * np.tan(declination), -1, 1))
    s = np.sin(set_angle - math.pi / 3)
    weight = (0.409 + 0.5016 * s + (0.6609 - 0.4767 * s) * np.cos(hour_angle)) * \
        sun["up"] * sun["lit"]
    weight = np.where(sun["lit"] > 0, np.maximum(weight, 0), 0).reshape(-1, 24)
    outside = (sun["beyond"] * sun["lit"] * sun["up"])
    total, temp, first = np.zeros(weight.shape), np.zeros(weight.shape), 0
    solar = np.arange(24) + 0.5 + longitude / 15 - zone
    t = 2 * math.pi * (solar - 1) / 24
    course = 0.4632 * np.cos(t - 3.805) + 0.0984 * np.cos(2 * t - 0.360) + \
        0.0168 * np.cos(3 * t - 0.822) + 0.0138 * np.cos(4 * t - 3.513)
    for month, days in enumerate(lengths):
        rows = slice(first, first + days)
        daily = outside.reshape(-1, 24)[rows].sum(1)
        mean = means[month] / (daily.sum() / days)
        sums = clearness_of_days(mean, days) * daily
        sums *= means[month] * days / sums.sum()
        day_weight = weight[rows].sum(1, keepdims=True)
        total[rows] = sums[:, None] * weight[rows] / np.where(day_weight > 0, day_weight, 1)
        temp[rows] = temps[month] + max(0, 25.8 * mean - 5.21) * course
        first += days
    total = total.ravel()
    beam, diffuse = np.zeros(len(total)), total.copy()
    for i in np.flatnonzero((total > 0) & (outside > 0)):
        beam[i], diffuse[i] = split_by_formula(sun["up"][i], sun["beyond"][i], sun["lit"][i],
                                               total[i])
    return {"global": total, "beam": beam, "diffuse": diffuse, "temp": temp.ravel()}
