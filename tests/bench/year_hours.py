# SPDX-License-Identifier: MIT
"""A year of 8760 hours with every limit, of two inputs and of twelve: the library, from weather to
ledger; the usual script (SciPy, Lambert W, bounded search, all hours with light at once) and the best
vectorised NumPy. The scripts run twice: with light and cell temperatures given to them and no ledger;
and the whole job, in which they too make light of the weather (the sun's directions given, as the library's
weather has them) and find the points that the losses by low light, temperature and cables need. NumPy
does that in two ways: each point by itself, and by every shortcut that the library takes.

Place, system and weather are invented. All ways give the same energy to 0.2 %, which is checked:
the scripts leave out what a limit of power does to the voltage, and so to the efficiency."""
import numpy as np
from scipy.special import lambertw

import curve_points
import pvsize
from measure import compare, memory_of, python_way

PART = "Years"
MODULE = pvsize.Module(pmax=440, voc=40, isc=14, vmp=33.4, imp=13.174, voc_coefficient=-0.25,
                       isc_coefficient=0.045, cells=54)
TILT, WINDOW, CURRENT, POWER = 22, (150, 370), 12.4, 4500
OHM = 2 * 5.09 * 1.1572 * 30 / 1000  # of a string's cable
POINTS = [(v, load, eta - less) for v, less in ((200, 1), (380, 0), (550, 0.4))
          for load, eta in ((5, 91), (10, 95), (20, 97), (50, 97.8), (100, 97.2))]


class Plant:
    """Inputs with a string each, on planes in turn; limits grow with the inputs."""

    def __init__(self, azimuths, lengths):
        self.azimuths, self.lengths = azimuths, lengths
        self.planes = [i % len(azimuths) for i in range(len(lengths))]
        self.rated, self.dc, self.export = (x * len(lengths) for x in (2500, 3250, 2150))
        self.phases = 1 if self.rated <= 5000 else 3
        # of the a.c. cable: two conductors at the whole current, or three at a third
        self.ac_ohm = (2 if self.phases == 1 else 1 / 3) * 3.39 * 1.1572 * 15 / 1000
        self.bare = curve_points.model_of(MODULE, 0)
        self.wired = [curve_points.model_of(MODULE, OHM / n) for n in lengths]

    def system(self):
        planes = [pvsize.Plane(tilt=TILT, azimuth=a, mounting="raised") for a in self.azimuths]
        site = pvsize.Site(latitude=-31, longitude=145, time_zone=10, planes=planes,
                           export_limit=self.export, export_control="meter")
        one = pvsize.Input(tracking_min=WINDOW[0], tracking_max=WINDOW[1], start_voltage=180,
                           max_operating_current=CURRENT, max_operating_power=POWER)
        inverter = pvsize.Inverter(
            rated_ac_power=self.rated, rated_apparent_power=self.rated, phases=self.phases,
            ac_voltage=230, max_operating_power=self.dc, night_consumption=4,
            inputs=[one] * len(self.lengths),
            efficiency_points=[pvsize.EfficiencyPoint(voltage=v, load=x, efficiency=e)
                               for v, x, e in POINTS])
        arrays = [pvsize.Array(input=i, plane=p, modules_per_string=n, strings=1, module=MODULE)
                  for i, (p, n) in enumerate(zip(self.planes, self.lengths))]
        cables = [pvsize.Cable(circuit="string", array=i, conductor="class5_tinned", section=4,
                               length=30, conductor_temp=60) for i in range(len(arrays))]
        cables.append(pvsize.Cable(circuit="ac", inverter=0, conductor="class5_tinned", section=6,
                                   length=15, conductor_temp=60))
        return pvsize.System(site=site, inverters=[inverter], arrays=arrays, cables=cables)


def weather():
    months = [dict(irradiation=h, temp_mean=t, wind=3.0) for h, t in zip(
        (7.6, 6.7, 5.7, 4.4, 3.3, 2.8, 3.1, 4.1, 5.4, 6.5, 7.3, 7.7),
        (28, 27, 24, 19, 14, 11, 10, 12, 16, 20, 24, 26))]
    return pvsize.Weather.from_months(pvsize.Site(latitude=-31, longitude=145, time_zone=10,
                                                  months=months))


def light_for_nothing(hours, azimuths):
    """At the cells of each plane, and their temperature; no glass."""
    ambient, wind = np.asarray(hours.column("temp")), np.asarray(hours.column("wind"))
    found = []
    for azimuth in azimuths:
        sun = np.asarray(hours.on_plane(TILT, azimuth))
        cell = ambient + sun * (np.exp(-3.27 - 0.061 * wind) + 0.002)
        lit = np.asarray(hours.column("global")) > 0
        found.append((np.maximum(sun[lit], 1e-3), cell[lit]))
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


def light_by_numpy(sun, columns, azimuths):
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
    for azimuth in azimuths:
        b, g = np.radians(TILT), np.radians(azimuth)
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


def whole_job(way, plant, start):
    light = light_by_numpy(*start, plant.azimuths)
    for sun, cell in light:
        way(sun, np.full_like(cell, 25), plant.bare)
        way(sun, cell, plant.bare)
    return script(way, plant, light)


def power_at_25(sun, m):
    """One diode in weaker or stronger sun, and one step less: a power hardly changes there."""
    share = sun / 1000
    i0, rest = m.saturation_current, (m.ideality_voltage, m.series_resistance, share / m.shunt_resistance)
    il = share * m.light_current
    u = curve_points.start(il, i0, *rest)
    e = i0 * np.exp(u)
    step = curve_points.halley_step(il, e, e - i0, u, *rest)
    v, c = curve_points.settled(il, i0, e, u + step, step, *rest)
    return v * c


def behind_cables(sun, cell, v, i, bare, ohm):
    """From the points without cables, where exp is known."""
    a, gsh = bare.ideality_voltage * (cell + 273.15) / 298.15, sun / 1000 / bare.shunt_resistance
    rs = bare.series_resistance
    e0 = (i / (v - i * rs) - gsh) * a
    u = (v + i * rs) / a
    il, rest = i + gsh * a * u, (a, rs + ohm, gsh)
    step = curve_points.halley_step(il, e0, 0, u, *rest)
    u, e = u + step, e0 * np.exp(step)
    step = curve_points.halley_step(il, e, e - e0, u, *rest)
    return curve_points.settled(il, e0, e, u + step, step, *rest)


def whole_job_by_same_steps(plant, start):
    light, own = light_by_numpy(*start, plant.azimuths), []
    for sun, cell in light:
        power_at_25(sun, plant.bare)
        own.append(curve_points.by_numpy(sun, cell, plant.bare))
    wired = iter([behind_cables(*light[plane], *own[plane], plant.bare, OHM / n)
                  for plane, n in zip(plant.planes, plant.lengths)])
    return script(lambda sun, cell, model: next(wired), plant, light)


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


def some(hours, sun, cell, model):
    """The parameters in some of the hours."""
    return (x[hours] if np.ndim(x) else x for x in curve_points.translated(sun, cell, model))


def points_of(way, sun, cell, model, n):
    """Voltage and power of an input, within its limits."""
    v, i = way(sun, cell, model)
    off = (v * n < WINDOW[0]) | (v * n > WINDOW[1])
    if off.any():
        v[off] = np.clip(v[off], WINDOW[0] / n, WINDOW[1] / n)
        i[off] = lambert_current(v[off], *some(off, sun, cell, model))
    high = i > CURRENT
    if high.any():
        i[high] = CURRENT
        v[high] = lambert_voltage(CURRENT, *some(high, sun, cell, model))
    return v * n, np.minimum(np.maximum(v * i * n, 0), POWER)


def script(way, plant, light):
    """The rest of the year, the same for both scripts: limits in the hours that they bind."""
    power, weighted = 0, 0
    for plane, n, model in zip(plant.planes, plant.lengths, plant.wired):
        v, p = points_of(way, *light[plane], model, n)
        power, weighted = power + p, weighted + p * v
    dc = np.minimum(power, plant.dc)
    terms = [np.interp(weighted / np.maximum(power, 1e-9), CONVERSION[0], t) for t in CONVERSION[1]]
    rest = np.maximum(dc / plant.rated - terms[0], 0)
    b = 1 + terms[1]
    ac = np.minimum(plant.rated * 2 * rest / (b + np.sqrt(b * b + 4 * terms[2] * rest)), plant.rated)
    return np.minimum(ac - plant.ac_ohm * (ac / 230) ** 2, plant.export).sum() / 1000


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


def agree(plant, hours, bare, start, light):
    """Energies of all ways, less what the night takes."""
    def output(kept):
        year = pvsize.Year(plant.system(), kept).system
        return year.output + year.loss("night")
    glazed = output(pvsize.Light(hours))
    for way in (curve_points.by_numpy, curve_points.by_lambert_w):
        assert abs(script(way, plant, light) / output(bare) - 1) < 2e-3, way
        assert abs(whole_job(way, plant, start) / glazed - 1) < 1e-2, way
    assert abs(whole_job_by_same_steps(plant, start) / glazed - 1) < 1e-2


def rows_of(what, plant, hours, start, rounds):
    system, light = plant.system(), light_for_nothing(hours, plant.azimuths)
    kept = pvsize.Light(hours, pvsize.Outlook(cover="none"))
    agree(plant, hours, kept, start, light)
    numpy, scipy = curve_points.by_numpy, curve_points.by_lambert_w
    groups = [(f"a year, {what}, weather to ledger", lambda: pvsize.Year(system, pvsize.Light(hours)),
               {"NumPy, whole job": lambda: whole_job(numpy, plant, start),
                "NumPy, whole job, by the library's steps":
                    lambda: whole_job_by_same_steps(plant, start),
                "SciPy, whole job": lambda: whole_job(scipy, plant, start)}),
              (f"a year, {what}, light kept", lambda: pvsize.Year(system, kept),
               {"NumPy, light given, no ledger": lambda: script(numpy, plant, light),
                "SciPy, light given, no ledger": lambda: script(scipy, plant, light)})]
    rows = []
    for name, library, ways in groups:
        rows += compare(PART, name, "year", python_way(library),
                        {word: python_way(call) for word, call in ways.items()}, rounds,
                        memory_of(library), {word: memory_of(call) for word, call in ways.items()})
    return rows


def measure(bench, rounds, quick):
    hours = weather()
    start = sun_and_columns(hours)
    rounds = min(rounds, 5 if quick else 11)
    rows = rows_of("two inputs", Plant((0, 270), (11, 11)), hours, start, rounds)
    rows += rows_of("twelve inputs", Plant((0, 90, 180, 270), (11, 11, 11, 11, 12, 12, 12, 12, 10, 10,
                                                               10, 10)), hours, start, rounds)
    for line, what in (("year", "one like it in C, two inputs, no cables"),
                       ("year inputs=12 planes=4", "one like it in C, twelve inputs, no cables"),
                       ("weather", "weather of a year from monthly means")):
        rows += compare(PART, what, "year", bench.way(line), {}, rounds, bench.memory(line))
    return rows
