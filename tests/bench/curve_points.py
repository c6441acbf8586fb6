# SPDX-License-Identifier: MIT
"""Points of a module's curve: the library, plain C (plain_points.c), GSL, and two ways in Python that
year_hours.py uses too. Every way gives the same powers to 1e-9, which is checked first."""
import numpy as np
from scipy.special import lambertw

import pvsize
from measure import compare, memory_of, python_way

PART = "Points of a curve"
K = 8.617333262145179e-05

# Single-crystalline module of De Soto, Klein and Beckman (2006), data sheet from memory.
MODULE = pvsize.Module(voc=42.93, isc=4.37, vmp=33.68, imp=3.96, cells=72, pmax=133.4,
                       voc_coefficient_absolute=-0.15237, isc_coefficient_absolute=0.00175)
CURVE = pvsize.Curve(MODULE)


def model_of(module, ohm):
    """The curve's parameters, with so much more resistance in series."""
    model = pvsize.Curve(module).model()
    model.series_resistance += ohm
    return model


M = model_of(MODULE, 0)


def translated(sun, temp, m):
    kelvin, t = temp + 273.15, (temp + 273.15) / 298.15
    gap = m.band_gap * (1 + m.band_gap_narrowing * (temp - 25))
    return (sun / 1000 * (m.light_current + m.light_coefficient * (temp - 25)),
            m.saturation_current * t ** 3 * np.exp(m.band_gap / (K * 298.15) - gap / (K * kelvin)),
            m.ideality_voltage * t, m.series_resistance, sun / 1000 / m.shunt_resistance)


def by_lambert_w(sun, temp, m=M):
    """The usual script: golden section between 0 and open circuit, current by Lambert W."""
    il, i0, a, rs, gsh = translated(sun, temp, m)
    rsh = 1 / gsh

    def power(v):
        x = rs * rsh * i0 / (a * (rs + rsh)) * np.exp(rsh * (rs * (il + i0) + v) / (a * (rs + rsh)))
        return v * ((rsh * (il + i0) - v) / (rs + rsh) - a / rs * lambertw(x).real)

    share = (5 ** 0.5 - 1) / 2
    low, high = np.zeros_like(sun), a * np.log1p(il / i0)
    left, right = high - share * (high - low), low + share * (high - low)
    at_left, at_right = power(left), power(right)
    for _ in range(40):
        keep = at_left > at_right
        high, low = np.where(keep, right, high), np.where(keep, low, left)
        new = np.where(keep, high - share * (high - low), low + share * (high - low))
        at_new = power(new)
        left, right, at_left, at_right = (np.where(keep, new, right), np.where(keep, left, new),
                                          np.where(keep, at_new, at_right),
                                          np.where(keep, at_left, at_new))
    voltage = (left + right) / 2
    return voltage, power(voltage) / voltage


def by_numpy(sun, temp, m=M):
    """The best that NumPy does: the library's own start and two steps of Halley."""
    il, i0, a, rs, gsh = translated(sun, temp, m)
    u = start(il, i0, a, rs, gsh)
    for _ in range(2):
        e = i0 * np.exp(u)
        step = halley_step(il, e, e - i0, u, a, rs, gsh)
        u = u + step
    return settled(il, i0, e, u, step, a, rs, gsh)


def start(il, i0, a, rs, gsh):
    level = il + i0
    z = 1 + np.log(level / i0)
    y = z - np.log(z) * z / (1 + z)
    u = y - 1
    rise = 1 + 2 * rs * (level / (y * a) + gsh)
    rest = level - gsh * a * u * (1 + 1 / rise)
    wanted, found = rest * y * rise, level * (rise + u)
    return u + 2 * (wanted - found) * y / ((wanted + found) * (1 + y))


def halley_step(il, e, less, u, a, rs, gsh):
    """`e` is the diode's current, `less` that less the saturation current."""
    leak = gsh * a
    flow = e + leak
    inverse = 1 / (a + rs * flow)
    c = il - less - leak * u
    v = a * u - rs * c
    bend = v * e * a * inverse * inverse
    f, f1 = c - v * flow * inverse, 2 * flow + bend
    f2 = e * (2 + a * inverse) + bend * (1 - 2 * rs * e * inverse)
    return 2 * f * f1 / (2 * f1 * f1 + f * f2)


def settled(il, less, e, u, step, a, rs, gsh):
    """After a short last step: exp follows by its series; `less` is what e began with."""
    c = il + less - e * (1 + step * (1 + step * (1 / 2 + step * (1 / 6 + step / 24)))) - gsh * a * u
    return a * u - rs * c, c


def conditions(count):
    """Those of operations_curve.c."""
    i = np.arange(count)
    return 20 + 1080 * (i * 0.6180339887498949 % 1), -5 + 75 * (i * 0.7548776662466927 % 1)


def agree(sun, temp):
    voltage, current = (np.asarray(x) for x in CURVE.mpps(sun, temp))
    for way in (by_numpy, by_lambert_w):
        v, i = way(sun, temp)
        assert np.max(np.abs(v * i / (voltage * current) - 1)) < 1e-9, way


def python_ways(count, names):
    sun, temp = conditions(count)
    ways = {"NumPy, Halley": by_numpy, "SciPy, Lambert W, bounded search": by_lambert_w}
    return {name: lambda way=ways[name]: way(sun, temp) for name in names}


def row(bench, count, rounds, c_ways, python_names):
    """The library in rows, beside all these."""
    line = f"points count={count}"
    calls = python_ways(count, python_names)
    ways = {name: bench.way(f"{word} count={count}", count) for name, word in c_ways.items()}
    ways |= {name: python_way(call, count) for name, call in calls.items()}
    memories = {name: bench.memory(f"{word} count={count}") for name, word in c_ways.items()}
    memories |= {name: memory_of(call) for name, call in calls.items()}
    return compare(PART, f"{count:,} maximum-power points", "point", bench.way(line, count), ways, rounds,
                   bench.memory(line), memories)


def measure(bench, rounds, quick):
    agree(*conditions(8760))
    plain = {"plain C, Newton, libm": "plain_points"}
    gsl = {"C, GSL: Lambert W, Brent": "lambert_points"} if bench.has("lambert_points") else {}
    rows = compare(PART, "one maximum-power point, one call", "point", bench.way("point"),
                   {"plain C, Newton, libm": bench.way("plain_points count=1")}, rounds,
                   bench.memory("point"), {"plain C, Newton, libm": bench.memory("plain_points count=1")})
    rows += row(bench, 8760, rounds, plain | gsl, ["NumPy, Halley", "SciPy, Lambert W, bounded search"])
    rows += row(bench, 1000000, 3 if quick else 7, plain, ["NumPy, Halley"])
    if gsl:
        rows += compare(PART, "1,000 currents at voltages, a call each", "point",
                        bench.way("currents", 1000),
                        {"C, GSL: Lambert W": bench.way("lambert_currents", 1000)}, rounds,
                        bench.memory("currents"), {"C, GSL: Lambert W": bench.memory("lambert_currents")})
    rows += compare(PART, "fit of a curve to a data sheet", "curve", bench.way("fit"), {}, rounds,
                    bench.memory("fit"))
    return rows
