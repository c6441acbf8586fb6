# SPDX-License-Identifier: MIT
"""Maximum-power points of a year of hours: the library, and three other ways to them, in one
run. Prints the median of each over interleaved rounds, and ratios.

    ninja -C build all tests/libcurve_reference.so
    PVSIZE_LIBRARY=build/lib/libpvsize.so PYTHONPATH=bindings/python \\
        python3 tests/bench/curve_points.py build/tests/libcurve_reference.so [ROUNDS]

Every way gives the same powers to 1e-9, which is checked first."""
import ctypes
import statistics
import sys
import time

import numpy as np
from scipy.special import lambertw

import pvsize

K, HOURS, MANY = 8.617333262145179e-05, 8760, 1_000_000

# Single-crystalline module of De Soto, Klein and Beckman (2006), data sheet from memory.
CURVE = pvsize.Curve(pvsize.Module(voc=42.93, isc=4.37, vmp=33.68, imp=3.96, cells=72, pmax=133.4,
                                   voc_coefficient_absolute=-0.15237,
                                   isc_coefficient_absolute=0.00175))
M = CURVE.model()


def translated(sun, temp):
    kelvin, t = temp + 273.15, (temp + 273.15) / 298.15
    gap = M.band_gap * (1 + M.band_gap_narrowing * (temp - 25))
    return (sun / 1000 * (M.light_current + M.light_coefficient * (temp - 25)),
            M.saturation_current * t ** 3 * np.exp(M.band_gap / (K * 298.15) - gap / (K * kelvin)),
            M.ideality_voltage * t, M.series_resistance, sun / 1000 / M.shunt_resistance)


def by_lambert_w(sun, temp):
    """The usual script: golden section between 0 and open circuit, current by Lambert W."""
    il, i0, a, rs, gsh = translated(sun, temp)
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


def by_numpy(sun, temp, series=None):
    """The best that NumPy does: the library's own start and two steps of Halley."""
    il, i0, a, rs, gsh = translated(sun, temp)
    rs = rs if series is None else series
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


def buffers(n):
    return np.empty(n), np.empty(n)


def by_c_newton(library, n):
    out, module = buffers(n), np.array([
        M.light_current, M.saturation_current, M.ideality_voltage, M.series_resistance,
        1 / M.shunt_resistance, M.light_coefficient, M.band_gap, M.band_gap_narrowing])
    call = library.reference_mpps
    call.argtypes = [ctypes.c_void_p, ctypes.c_size_t] + [ctypes.c_void_p] * 4

    def run(sun, temp):
        call(module.ctypes.data, len(sun), sun.ctypes.data, temp.ctypes.data, out[0].ctypes.data,
             out[1].ctypes.data)
        return out
    return run


def by_library(n):
    out = buffers(n)
    return lambda sun, temp: CURVE.mpps(sun, temp, out=out)


def timed(way, *arguments):
    start = time.process_time()
    way(*arguments)
    return time.process_time() - start


def main():
    library = ctypes.CDLL(sys.argv[1])
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 21
    rng = np.random.default_rng(1)
    sun, temp = rng.uniform(20, 1100, HOURS), rng.uniform(-5, 70, HOURS)
    ways = {"library, in rows": by_library(HOURS), "C, scalar Newton, libm": by_c_newton(library, HOURS),
            "NumPy, Halley": by_numpy, "SciPy, Lambert W, bounded search": by_lambert_w}
    powers = []
    for way in ways.values():
        voltage, current = way(sun, temp)
        powers.append(voltage * current)
        assert np.max(np.abs(powers[-1] / powers[0] - 1)) < 1e-9
    times = {name: [] for name in ways}
    for _ in range(rounds):
        for name, way in ways.items():
            times[name].append(timed(way, sun, temp))
    base = statistics.median(times["library, in rows"])
    print(f"{HOURS} daylight hours, median of {rounds} interleaved rounds")
    for name, values in times.items():
        median = statistics.median(values)
        print(f"{name:34} {median * 1e3:9.3f} ms {median / HOURS * 1e9:9.1f} ns each "
              f"{median / base:7.1f} x")
    sun, temp = rng.uniform(20, 1100, MANY), rng.uniform(-5, 70, MANY)
    way = by_library(MANY)
    print(f"{MANY} points, library: "
          f"{statistics.median(timed(way, sun, temp) for _ in range(7)):.4f} s")


if __name__ == "__main__":
    main()
