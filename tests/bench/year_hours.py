# SPDX-License-Identifier: MIT
"""A year of 8760 hours of a system with two inputs and every limit, in one run: the library,
from weather to ledger; the usual script (SciPy, Lambert W, bounded search, all hours with light
at once) and the best vectorised NumPy. The scripts run twice: with light and cell temperatures
given to them and no ledger; and the whole job, in which they too make light of the weather (the
sun's directions given, as the library's weather has them) and find the points that the losses
by low light, temperature and cables need. NumPy does that in two ways: each point by itself, and
by every shortcut that the library takes. Prints process times over interleaved rounds, and
ratios.

    PVSIZE_LIBRARY=build/lib/libpvsize.so PYTHONPATH=bindings/python \\
        python3 tests/bench/year_hours.py [ROUNDS]

Place, system and weather are invented. All ways give the same energy to 0.2 %, which is checked:
the scripts leave out what a limit of power does to the voltage, and so to the efficiency."""

import statistics
import sys
import time

import numpy as np
from scipy.special import lambertw

import curve_points
import pvsize

MODULE = pvsize.Module(pmax=440, voc=40, isc=14, vmp=33.4, imp=13.174, voc_coefficient=-0.25,
                       isc_coefficient=0.045, cells=54)
N, OHM, RATED, DC, CURRENT, POWER, EXPORT = 11, 2 * 5.09 * 1.1572 * 30 / 1000, 5000, 6500, 12.4, \
    4500, 4300
WINDOW = (150, 370)
POINTS = [(v, load, eta - less) for v, less in ((200, 1), (380, 0), (550, 0.4))
          for load, eta in ((5, 91), (10, 95), (20, 97), (50, 97.8), (100, 97.2))]


def system():
    planes = [pvsize.Plane(tilt=22, azimuth=a, mounting="raised") for a in (0, 270)]
    site = pvsize.Site(latitude=-31, longitude=145, time_zone=10, planes=planes,
                       export_limit=EXPORT, export_control="meter")
    inputs = [pvsize.Input(tracking_min=WINDOW[0], tracking_max=WINDOW[1], start_voltage=180,
                           max_operating_current=CURRENT, max_operating_power=POWER)
              for _ in planes]
    inverter = pvsize.Inverter(
        rated_ac_power=RATED, rated_apparent_power=RATED, phases=1, ac_voltage=230,
        max_operating_power=DC, night_consumption=4, inputs=inputs,
        efficiency_points=[pvsize.EfficiencyPoint(voltage=v, load=x, efficiency=e)
                           for v, x, e in POINTS])
    arrays = [pvsize.Array(input=i, plane=i, modules_per_string=N, strings=1, module=MODULE)
              for i in range(2)]
    cables = [pvsize.Cable(circuit="string", array=i, conductor="class5_tinned", section=4,
                           length=30, conductor_temp=60) for i in range(2)]
    cables.append(pvsize.Cable(circuit="ac", inverter=0, conductor="class5_tinned", section=6,
                               length=15, conductor_temp=60))
    return pvsize.System(site=site, inverters=[inverter], arrays=arrays, cables=cables)


def weather():
    months = [dict(irradiation=h, temp_mean=t, wind=3.0) for h, t in zip(
        (7.6, 6.7, 5.7, 4.4, 3.3, 2.8, 3.1, 4.1, 5.4, 6.5, 7.3, 7.7),
        (28, 27, 24, 19, 14, 11, 10, 12, 16, 20, 24, 26))]
    return pvsize.Weather.from_months(pvsize.Site(latitude=-31, longitude=145, time_zone=10,
                                                  months=months))


def light_for_nothing(hours):
    """At the cells, and their temperature; glass as one factor, near enough for the time."""
    ambient, wind = np.asarray(hours.column("temp")), np.asarray(hours.column("wind"))
    found = []
    for azimuth in (0, 270):
        sun = np.asarray(hours.on_plane(22, azimuth))
        cell = ambient + sun * (np.exp(-3.27 - 0.061 * wind) + 0.002)
        lit = sun > 0
        found.append((sun[lit], cell[lit]))
    return found


BINS = np.array([  # Perez et al. 1990
    (-0.008, 0.588, -0.062, -0.060, 0.072, -0.022), (0.130, 0.683, -0.151, -0.019, 0.066, -0.029),
    (0.330, 0.487, -0.221, 0.055, -0.064, -0.026), (0.568, 0.187, -0.295, 0.109, -0.152, -0.014),
    (0.873, -0.392, -0.362, 0.226, -0.462, 0.001), (1.132, -1.237, -0.412, 0.288, -0.823, 0.056),
    (1.060, -1.600, -0.359, 0.264, -1.127, 0.131), (0.678, -0.327, -0.250, 0.156, -1.377, 0.251)])
EDGES = np.array([1.065, 1.230, 1.500, 1.950, 2.800, 4.500, 6.200])


def sun_and_columns(hours):
    """In hours with light: what the scripts start from."""
    columns = [np.asarray(hours.column(c)) for c in ("global", "beam", "diffuse", "temp", "wind")]
    lit = columns[0] > 0
    angles = np.radians([pvsize.sun_position(-31, 145, hours.time(int(i))[3] + 1 / 48)
                         for i in np.flatnonzero(lit)])
    azimuth, elevation = angles[:, 0], np.maximum(angles[:, 1], 0.01)
    return (np.cos(elevation) * np.sin(azimuth), np.cos(elevation) * np.cos(azimuth),
            np.sin(elevation)), [c[lit] for c in columns]


def light_by_numpy(sun, columns):
    east, north, up = sun
    total, beam, diffuse, temp, wind = columns
    zenith = np.arccos(up)
    bend = 1.041 * zenith ** 3
    clear = ((diffuse + beam) / diffuse + bend) / (1 + bend)
    mass = 1 / (up + 0.50572 * (96.07995 - np.degrees(zenith)) ** -1.6364)
    bright = diffuse * mass / 1367
    f = BINS[np.searchsorted(EDGES, clear)].T
    f1 = np.clip(f[0] + f[1] * bright + f[2] * zenith, 0, 1)
    f2 = f[3] + f[4] * bright + f[5] * zenith
    found = []
    for azimuth in (0, 270):
        b, g = np.radians(22), np.radians(azimuth)
        cosine = np.maximum(east * np.sin(b) * np.sin(g) + north * np.sin(b) * np.cos(g)
                            + up * np.cos(b), 0)
        inside = np.sqrt(1 - (1 - cosine ** 2) / 1.526 ** 2)
        across = ((cosine - 1.526 * inside) / (cosine + 1.526 * inside)) ** 2
        along = ((1.526 * cosine - inside) / (1.526 * cosine + inside)) ** 2
        passes = np.exp(0.008 - 0.008 / inside) * (1 - (across + along) / 2) / (1 - 0.2082 ** 2)
        direct = cosine * (beam + diffuse * f1 / np.maximum(up, 0.0872))
        spread = diffuse * ((1 - f1) * (1 + np.cos(b)) / 2 + f2 * np.sin(b))
        ground = total * 0.2 * (1 - np.cos(b)) / 2
        cell = temp + (direct + spread + ground) * (np.exp(-3.27 - 0.061 * wind) + 0.002)
        found.append((np.maximum(direct * passes + 0.95 * spread + 0.8 * ground, 1), cell))
    return found


def whole_job(way, start):
    light = light_by_numpy(*start)
    for sun, cell in light:
        way(sun, np.full_like(cell, 25))
        way(sun, cell)
    return script(way, light)


def powers_at_25(sun):
    """One diode in weaker or stronger sun, and one step less: a power hardly changes there."""
    m, share = curve_points.M, sun / 1000
    i0, rest = m.saturation_current, (m.ideality_voltage, BARE, share / m.shunt_resistance)
    il = share * m.light_current
    u = curve_points.start(il, i0, *rest)
    e = i0 * np.exp(u)
    step = curve_points.halley_step(il, e, e - i0, u, *rest)
    v, c = curve_points.settled(il, i0, e, u + step, step, *rest)
    return v * c


def wired(sun, cell, v, i):
    """From the points without cables, where exp is known."""
    m = curve_points.M
    a, gsh, rs = m.ideality_voltage * (cell + 273.15) / 298.15, sun / 1000 / m.shunt_resistance, BARE
    e0 = (i / (v - i * rs) - gsh) * a
    u = (v + i * rs) / a
    il, rest = i + gsh * a * u, (a, rs + OHM / N, gsh)
    step = curve_points.halley_step(il, e0, 0, u, *rest)
    u, e = u + step, e0 * np.exp(step)
    step = curve_points.halley_step(il, e, e - e0, u, *rest)
    return curve_points.settled(il, e0, e, u + step, step, *rest)


def whole_job_by_same_steps(start):
    light, points = light_by_numpy(*start), []
    for sun, cell in light:
        powers_at_25(sun).sum()
        v, i = curve_points.by_numpy(sun, cell, BARE)
        (v * i).sum()
        points.append(wired(sun, cell, v, i))
    points = iter(points)
    return script(lambda sun, cell: next(points), light)


def lambert_current(v, il, i0, a, rs, gsh):
    rsh = 1 / gsh
    x = rs * rsh * i0 / (a * (rs + rsh)) * np.exp(rsh * (rs * (il + i0) + v) / (a * (rs + rsh)))
    return (rsh * (il + i0) - v) / (rs + rsh) - a / rs * lambertw(x).real


def lambert_voltage(i, il, i0, a, rs, gsh):
    rsh = 1 / gsh
    log = np.log(i0 * rsh / a) + rsh * (il + i0 - i) / a
    w = lambertw(np.exp(np.minimum(log, 700))).real
    w = np.where(log < 700, w, log - np.log(log))
    return -i * (rs + rsh) + (il + i0) * rsh - a * w


def script(way, light):
    """The rest of the year, the same for both scripts: limits in the hours that they bind."""
    power, weighted = 0, 0
    for sun, cell in light:
        v, i = way(sun, cell)
        off = (v * N < WINDOW[0]) | (v * N > WINDOW[1])
        if off.any():
            v[off] = np.clip(v[off], WINDOW[0] / N, WINDOW[1] / N)
            i[off] = lambert_current(v[off], *(x[off] if np.ndim(x) else x for x in
                                               curve_points.translated(sun, cell)))
        high = i > CURRENT
        if high.any():
            i[high] = CURRENT
            v[high] = lambert_voltage(CURRENT, *(x[high] if np.ndim(x) else x for x in
                                                 curve_points.translated(sun, cell)))
        p = np.minimum(np.maximum(v * i * N, 0), POWER)
        power, weighted = power + p, weighted + p * v * N
    dc = np.minimum(power, DC)
    terms = [np.interp(weighted / power, CONVERSION[0], t) for t in CONVERSION[1]]
    rest = np.maximum(dc / RATED - terms[0], 0)
    b = 1 + terms[1]
    ac = np.minimum(RATED * 2 * rest / (b + np.sqrt(b * b + 4 * terms[2] * rest)), RATED)
    out = ac - 2 * 3.39 * 1.1572 * 15 / 1000 * (ac / 230) ** 2
    return np.minimum(out, EXPORT).sum() / 1000


def conversion():
    """Losses by voltage, by least squares without negative terms."""
    from scipy.optimize import nnls
    voltages = sorted({v for v, _, _ in POINTS})
    terms = []
    for v in voltages:
        load, eta = (np.array([p[k] for p in POINTS if p[0] == v]) / 100 for k in (1, 2))
        terms.append(nnls(np.stack([1 / load, np.ones_like(load), load], -1), 1 / eta - 1)[0])
    return voltages, np.array(terms).T


CONVERSION = conversion()


# Whole against whole; what is given light and keeps no ledger against the library's system under
# a light it has, with its ledger.
COMPARED = {
    "library, weather to ledger": ["NumPy, whole job", "NumPy, whole job, by the library's steps",
                                   "SciPy, whole job"],
    "library, next system, same light": ["NumPy, light given, no ledger",
                                         "SciPy, light given, no ledger"]}


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    hours, plant = weather(), system()
    curve_points.M = pvsize.Curve(MODULE).model()
    global BARE
    BARE = curve_points.M.series_resistance
    curve_points.M.series_resistance += OHM / N
    light = light_for_nothing(hours)
    start = sun_and_columns(hours)
    bare = pvsize.Outlook(cover="none")
    kept = pvsize.Light(hours, bare)
    ways = {"library, weather to ledger": lambda: pvsize.Year(plant, pvsize.Light(hours)),
            "library, next system, same light": lambda: pvsize.Year(plant, kept),
            "NumPy, light given, no ledger": lambda: script(curve_points.by_numpy, light),
            "SciPy, light given, no ledger": lambda: script(curve_points.by_lambert_w, light),
            "NumPy, whole job": lambda: whole_job(curve_points.by_numpy, start),
            "NumPy, whole job, by the library's steps": lambda: whole_job_by_same_steps(start),
            "SciPy, whole job": lambda: whole_job(curve_points.by_lambert_w, start)}
    year = pvsize.Year(plant, kept).system
    want = year.output + year.loss("night")
    glazed = pvsize.Year(plant, pvsize.Light(hours)).system
    for name in COMPARED["library, weather to ledger"][:2]:
        assert abs(ways[name]() / (glazed.output + glazed.loss("night")) - 1) < 1e-2, name
    for name in list(ways)[2:4]:
        assert abs(ways[name]() / want - 1) < 2e-3, (name, ways[name](), want)
    times = {name: [] for name in ways}
    for _ in range(rounds):
        for name, way in ways.items():
            began = time.process_time()
            way()
            times[name].append(time.process_time() - began)
    print(f"8760 hours, two inputs, {rounds} interleaved rounds, process time in ms: best, median")
    for name, values in times.items():
        print(f"{name:42} {min(values) * 1e3:9.3f} {statistics.median(values) * 1e3:9.3f}")
    print("how many times slower than the library, by medians (by bests):")
    for ours, theirs in COMPARED.items():
        for name in theirs:
            ratios = [f(times[name]) / f(times[ours]) for f in (statistics.median, min)]
            print(f"{name:42} {ratios[0]:9.2f} ({ratios[1]:.2f}) against {ours}")
    losses = ", ".join(f"{name} {100 * kwh / year.reference:.2f}"
                       for name, kwh in year.losses().items())
    print(f"{year.output:.0f} kWh; per cent of the reference: {losses}")


if __name__ == "__main__":
    main()
