# SPDX-License-Identifier: MIT
"""The curve against SciPy's Lambert W, over random diodes and conditions.

Explicit solution: Jain and Kapoor, Solar Energy Materials & Solar Cells 81 (2004) 269-277.
PVSIZE_CURVE_POINTS  how many points of each sort (300,000)."""
import os

import pytest

import pvsize

np = pytest.importorskip("numpy")
lambertw = pytest.importorskip("scipy.special").lambertw

POINTS = int(os.environ.get("PVSIZE_CURVE_POINTS", 300_000))
K = 8.617333262145179e-05


def omega(x):
    """W(exp(x)): by SciPy, or by w + log(w) = x where exp would overflow."""
    w = np.where(x < 1, np.exp(np.minimum(x, 1)), np.maximum(x - np.log(np.maximum(x, 1)), 0.5))
    small = x < 600
    w[small] = lambertw(np.exp(x[small])).real
    for _ in range(3):
        w = np.where(small | (w <= 0), w, w - (w + np.log(w) - x) / (1 + 1 / w))
    return w


class Diodes:
    """Rows of five parameters. What the explicit solutions lose where large terms cancel, a
    Newton step of the equation itself brings back."""

    def __init__(self, light, saturation, a, series, shunt):
        self.light, self.saturation, self.a = light, saturation, a
        self.series, self.shunt = series, shunt  # ohm

    def current(self, voltage):
        il, i0, a, rs, rsh = self.light, self.saturation, self.a, self.series, self.shunt
        part = rsh / (a * (rs + rsh))
        x = np.log(rs * i0 * part) + part * (rs * (il + i0) + voltage)
        current = (rsh * (il + i0) - voltage) / (rs + rsh) - a / rs * omega(x)
        rest, g = self.rest(voltage, current)
        return current + rest / (1 + rs * g)

    def rest(self, voltage, current):
        """Light current less all that flows, and the diode's conductance."""
        across = voltage + current * self.series
        g = self.saturation / self.a * np.exp(across / self.a) + 1 / self.shunt
        return (self.light - current - self.saturation * np.expm1(across / self.a)
                - across / self.shunt), g

    def voltage(self, current):
        il, i0, a, rs, rsh = self.light, self.saturation, self.a, self.series, self.shunt
        x = np.log(i0 * rsh / a) + rsh * (il + i0 - current) / a
        voltage = -current * (rs + rsh) + (il + i0) * rsh - a * omega(x)
        rest, g = self.rest(voltage, current)
        return voltage + rest / g

    def rise(self, voltage):
        """dP/dV, by the current of Lambert W."""
        current = self.current(voltage)
        g = self.rest(voltage, current)[1]
        return current - voltage * g / (1 + self.series * g)

    def mpp(self):
        """Bounded search: halving between 0 and open circuit."""
        low = np.zeros_like(self.light)
        high = self.a * np.log1p(self.light / self.saturation)
        for _ in range(60):
            middle = (low + high) / 2
            up = self.rise(middle) > 0
            low, high = np.where(up, middle, low), np.where(up, high, middle)
        voltage = (low + high) / 2
        return voltage, self.current(voltage)


def any_model(rng, wild):
    light = 10 ** rng.uniform(-1, 1.3)
    if wild:
        return pvsize.DiodeModel(
            light_current=light, saturation_current=10 ** rng.uniform(-16, -4),
            ideality_voltage=10 ** rng.uniform(-1.5, 1.2),
            series_resistance=10 ** rng.uniform(-3, 0.5), shunt_resistance=10 ** rng.uniform(0.5, 5))
    return pvsize.DiodeModel(
        light_current=light, saturation_current=light * np.exp(-rng.uniform(20, 30)),
        ideality_voltage=rng.uniform(0.5, 3), series_resistance=rng.uniform(0.05, 1),
        shunt_resistance=10 ** rng.uniform(1.7, 4), light_coefficient=0.0005 * light)


def translated(model, sun, temp):
    """De Soto, Klein and Beckman, Solar Energy 80 (2006) 78-88 (from memory), anew."""
    kelvin, ref = temp + 273.15, 298.15
    gap = model.band_gap * (1 + model.band_gap_narrowing * (kelvin - ref))
    saturation = (model.saturation_current * (kelvin / ref) ** 3
                  * np.exp(model.band_gap / (K * ref) - gap / (K * kelvin)))
    light = sun / 1000 * (model.light_current + model.light_coefficient * (kelvin - ref))
    return Diodes(light, saturation, model.ideality_voltage * kelvin / ref,
                  np.full_like(sun, model.series_resistance),
                  model.shunt_resistance * 1000 / sun)


def conditions(rng, n):
    sun = np.where(rng.random(n) < 0.1, 10 ** rng.uniform(-1, 2, n), rng.uniform(1, 1500, n))
    return sun, rng.uniform(-40, 90, n)


def joined(parts):
    return Diodes(*(np.concatenate(column) for column in
                    zip(*((d.light, d.saturation, d.a, d.series, d.shunt) for d in parts))))


@pytest.mark.parametrize("wild", [False, True])
def test_mpp(wild):
    rng, each = np.random.default_rng(5 + wild), 500
    parts, found = [], []
    for _ in range(max(POINTS // each // 6, 1)):  # sixty searches a point: fewer of them
        model = any_model(rng, wild)
        sun, temp = conditions(rng, each)
        voltage, current = np.empty(each), np.empty(each)
        pvsize.Curve(model).mpps(sun, temp, out=(voltage, current))
        parts.append(translated(model, sun, temp))
        found.append((voltage, current))
    diodes = joined(parts)
    voltage, current = (np.concatenate(column) for column in zip(*found))
    want = diodes.mpp()
    power, wanted = voltage * current, want[0] * want[1]
    assert np.all(np.isfinite(power))
    assert np.max(np.abs(power / wanted - 1)) < 1e-9
    assert np.max(np.abs(voltage / want[0] - 1)) < 1e-9
    scale = np.abs(want[1])
    assert np.max(np.abs(current - diodes.current(voltage)) / scale) < 1e-9


@pytest.mark.parametrize("wild", [False, True])
def test_samples(wild):
    rng, each = np.random.default_rng(8 + wild), 200
    parts, found = [], []
    for _ in range(max(POINTS // each, 1)):
        model = any_model(rng, wild)
        sun, temp = (float(x[0]) for x in conditions(rng, 1))
        points = pvsize.Curve(model).sample(each, sun, temp)
        parts.append(translated(model, np.full(each, sun), np.full(each, temp)))
        found.append(tuple(map(np.array, points)))
    diodes = joined(parts)
    voltage, current = (np.concatenate(column) for column in zip(*found))
    want = diodes.current(voltage)
    scale = np.maximum(np.abs(want), 1e-4 * diodes.light)
    assert np.max(np.abs(current - want) / scale) < 1e-9


@pytest.mark.parametrize("wild", [False, True])
def test_current_and_voltage(wild):
    rng, each = np.random.default_rng(12 + wild), 50
    parts, asked, found = [], [], []
    for _ in range(max(POINTS // 20 // each, 1)):  # one call a point: fewer of them
        model = any_model(rng, wild)
        curve = pvsize.Curve(model)
        sun, temp = conditions(rng, each)
        diodes = translated(model, sun, temp)
        voltage = rng.uniform(-0.2, 1.05, each) * diodes.a * np.log1p(diodes.light
                                                                      / diodes.saturation)
        current = rng.uniform(-0.5, 0.999, each) * diodes.light
        asked.append((voltage, current))
        found.append((
            [curve.current(v, s, t) for v, s, t in zip(voltage, sun, temp)],
            [curve.voltage(i, s, t) for i, s, t in zip(current, sun, temp)]))
        parts.append(diodes)
    diodes = joined(parts)
    voltage, current = (np.concatenate(column) for column in zip(*asked))
    i, v = (np.concatenate(column) for column in zip(*found))
    want = diodes.current(voltage)
    scale = np.maximum(np.abs(want), 1e-4 * diodes.light)
    assert np.max(np.abs(i - want) / scale) < 1e-9
    want = diodes.voltage(current)
    scale = np.maximum(np.abs(want), 1e-5 * diodes.a * np.log1p(diodes.light / diodes.saturation))
    assert np.max(np.abs(v - want) / scale) < 1e-9


@pytest.mark.parametrize("temp, within", [(25, 3e-3), (45, 1.5e-2)])
def test_iec_60891_agrees(temp, within):
    """IEC 60891:2009 procedure 2 (formula from memory), from STC to 800 W/m2 and another cell
    temperature, with the fit's own series resistance, the coefficients of the sheet, the
    irradiance factor of an ideal diode, and 0 for the curve correction factor, which a sheet
    does not give: with temperature the two drift apart. 200 W module of Villalva, Gazoli and
    Filho (2009)."""
    curve = pvsize.Curve(pvsize.Module(pmax=200.143, voc=32.9, isc=8.21, vmp=26.3, imp=7.61,
                                       voc_coefficient_absolute=-0.123, cells=54,
                                       isc_coefficient_absolute=0.00318))
    model = curve.model()
    voltage, current = (np.array(x) for x in curve.sample(2000))
    i2 = current * (1 + 0.00318 / 8.21 * (temp - 25)) * 0.8
    v2 = (voltage - 0.123 * (temp - 25) + model.ideality_voltage * np.log(0.8)
          - model.series_resistance * (i2 - current))
    peak = curve.mpp(800, temp)
    assert np.max(i2 * v2) == pytest.approx(peak.power, rel=within)
    assert v2[-1] == pytest.approx(curve.voc(800, temp), rel=2e-3)
    assert i2[0] == pytest.approx(curve.isc(800, temp), rel=1e-3)
