# SPDX-License-Identifier: MIT
"""A second model of a year, slow and plain: every operating point by looking at many voltages.

Written from the formulas and from include/pvsize/year.h. A module's curve is walked along its
diode voltage x, where all is elementary:
    I = light - saturation (exp(x / a) - 1) - x / shunt,   V = x - I series.
Light on the planes comes from Weather.on_plane, and the five parameters from Curve, which
tests of their own hold to models of their own."""

import math

import numpy as np
from scipy import optimize

K = 8.617333262145179e-05  # eV/K
MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
LOSSES = ["glass", "soiling", "low_light", "temperature", "stated", "dc_wiring", "mismatch",
          "window", "input_current", "input_power", "dc_power", "conversion", "ac_rating",
          "ac_voltage", "ac_wiring", "night", "export"]
HEAT = {"open_rack": (-3.56, -0.0750, 3), "raised": (-3.27, -0.061, 2),
        "close": (-2.98, -0.0471, 1), "integrated": (-2.81, -0.0455, 0)}


class Strings:
    """Equal strings in one hour: all their current at voltages at the input."""

    def __init__(self, model, sun, temp, modules, strings, kept=1, string_ohm=0, array_ohm=0):
        kelvin, ref = temp + 273.15, 298.15
        gap = model.band_gap * (1 + model.band_gap_narrowing * (kelvin - ref))
        self.light = sun / 1000 * (model.light_current + model.light_coefficient * (kelvin - ref))
        self.saturation = (model.saturation_current * (kelvin / ref) ** 3
                           * math.exp(model.band_gap / (K * ref) - gap / (K * kelvin)))
        self.a = model.ideality_voltage * kelvin / ref
        self.series = model.series_resistance
        shunt = model.get("shunt_resistance") if hasattr(model, "get") else model.shunt_resistance
        self.leak = sun / 1000 / shunt if shunt else 0
        self.modules, self.strings, self.kept = modules, strings, kept
        self.ohm = string_ohm + strings * array_ohm
        self.top = self.a * math.log1p(self.light / self.saturation)  # beyond open circuit

    def at(self, x):
        """Voltage at the input and current of all strings, by the diode voltage."""
        module = self.light - self.saturation * np.expm1(x / self.a) - self.leak * x
        string = self.kept * module
        return (self.modules * (x - module * self.series) - string * self.ohm,
                self.strings * string)

    def current(self, voltage):
        low = np.full_like(voltage, -self.light * self.series - 1)
        high = np.full_like(voltage, self.top)
        while np.any(self.at(high)[0] < voltage):
            high = np.where(self.at(high)[0] < voltage, high + self.a, high)
        while np.any(self.at(low)[0] > voltage):
            low = np.where(self.at(low)[0] > voltage, low - 10, low)
        for _ in range(56):
            middle = (low + high) / 2
            below = self.at(middle)[0] < voltage
            low, high = np.where(below, middle, low), np.where(below, high, middle)
        return self.at((low + high) / 2)[1]

    def open(self):
        return self.at(optimize.brentq(lambda x: self.at(x)[1], 0, self.top + 1e-9, xtol=1e-14))[0]


class Together:
    """Strings in parallel."""

    def __init__(self, parts, blocked):
        self.parts, self.blocked = parts, blocked
        self.highest = max(part.open() for part in parts)

    def current(self, voltage):
        voltage = np.asarray(voltage, float)
        found = [part.current(voltage) for part in self.parts]
        return sum(np.maximum(f, 0) if self.blocked else f for f in found)

    def power(self, voltage):
        return np.asarray(voltage, float) * self.current(voltage)

    def best(self, low=0, high=math.inf):
        """Voltage and power: all voltages, then ever closer round the best."""
        high = min(high, max(self.highest, low))
        low, top = min(low, high), high
        width, points = high - low, 120
        start = low
        for _ in range(6):
            grid = np.linspace(low, high, points)
            power = self.power(grid)
            at = int(np.argmax(power))
            step = (high - low) / (points - 1)
            low, high = max(start, grid[at] - 2 * step), min(top, grid[at] + 2 * step)
            points = 40
            if width == 0:
                break
        return grid[at], max(0.0, power[at])

    def where(self, f, low, high):
        """Voltage at which f falls through 0."""
        if f(np.array([low]))[0] <= 0:
            return low
        return optimize.brentq(lambda v: f(np.array([v]))[0], low, high, xtol=1e-10)

    def open(self):
        return self.where(self.current, 0, self.highest + 1e-6)


def limit(value, none):
    return none if value is None else value


def hold(given, joined, best_power):
    """Powers behind window, current and power limit, the voltage at the last, and whether any
    current flows in the window."""
    low, high = limit(given.tracking_min, 0), limit(given.tracking_max, math.inf)
    voltage, window = joined.best(low, high)
    if window <= 0:
        return [0, 0, 0], voltage, False
    window = min(window, best_power)
    flows = joined.current([voltage])[0]
    most = limit(given.max_operating_current, math.inf)
    current = window
    if flows > most:
        up = max(voltage, joined.where(lambda v: joined.current(v) - most, 0, joined.highest + 1))
        if joined.blocked:
            voltage, current = joined.best(up, max(up, high))
        else:
            voltage, current = up, up * most
        current = min(current, window)
    power = min(current, limit(given.max_operating_power, math.inf))
    if power < current:
        voltage = joined.where(lambda v: joined.power(v) - power, voltage, joined.highest + 1)
    return [window, current, power], voltage, True


class Conversion:
    """Losses a + b p + c p^2 by voltage, fitted without negative terms."""

    def __init__(self, points):
        voltages = sorted({p.voltage for p in points if p.voltage is not None}) or [0]
        self.voltages, self.terms = voltages, []
        for v in voltages:
            own = [p for p in points if p.voltage is None or p.voltage == v]
            load = np.array([p.load / 100 for p in own])
            eta = np.array([p.efficiency / 100 for p in own])
            basis = np.stack([1 / load, np.ones(len(own)), load], -1)
            self.terms.append(optimize.nnls(basis, 1 / eta - 1)[0])

    def ac(self, dc, voltage):
        a, b, c = (np.interp(voltage, self.voltages, [t[k] for t in self.terms])
                   for k in range(3))
        if dc <= a:
            return 0
        return optimize.brentq(lambda p: p + a + b * p + c * p * p - dc, 0, dc, xtol=1e-15)


def cell_temp(plane, sun, ambient, wind):
    if plane.heat_loss is not None:
        by_wind = plane.heat_loss_wind or 0
        return ambient + sun / (plane.heat_loss + by_wind * wind / 2)
    a, b, excess = HEAT[plane.mounting]
    return ambient + sun * (math.exp(a + b * wind) + excess / 1000)


class Model:
    """A system through its weather. `ohm` gives the resistance of one conductor of a cable;
    `supply` the voltage to neutral of each row, if it is known."""

    def __init__(self, system, weather, outlook, load, ohm, supply=None):
        self.system, self.outlook, self.ohm = system, outlook, ohm
        self.site = system.sites[0]
        self.arrays, self.cables = list(system.arrays), list(system.cables)
        self.planes, self.inverters = list(self.site.planes), list(system.inverters)
        self.clean, self.kept = 1 - outlook.soiling / 100, 1 - outlook.power_loss / 100
        self.columns = {c: np.asarray(weather.column(c)) for c in
                        ("beam", "diffuse", "temp", "wind")}
        self.on = [np.asarray(weather.on_plane(p.tilt, p.azimuth)) for p in self.planes]
        self.load, self.supply = load, supply
        self.models = [pvsize_curve(a.modules[0]) for a in self.arrays]
        self.stc = [Together([Strings(m, 1000, 25, 1, 1)], False).best()[1] for m in self.models]
        self.loss = {}
        self.power = np.full((len(self.inverters), len(weather)), np.nan)
        self.gaps = 0
        self.feeding, self.active = {}, {}
        self.conversions = [Conversion(list(i.efficiency_points)) for i in self.inverters]
        for row in range(len(weather)):
            self.row(row)

    def add(self, subject, name, value):
        self.loss[subject, name] = self.loss.get((subject, name), 0) + value

    def row(self, row):
        beam, diffuse, temp, wind = (self.columns[c][row] for c in
                                     ("beam", "diffuse", "temp", "wind"))
        if math.isnan(beam) or math.isnan(diffuse):
            state = "gap"
        elif beam <= 0 and diffuse <= 0:
            state = "dark"
        else:
            state = "gap" if math.isnan(temp) or math.isnan(wind) else "lit"
        if state != "lit":
            self.feeding.clear()
        if state == "gap":
            self.gaps += 1
            return
        power = [self.inverter(k, row, temp, wind) if state == "lit" else self.night(k)
                 for k in range(len(self.inverters))]
        self.export(row, power)

    def night(self, k):
        drawn = self.inverters[k].night_consumption or 0
        self.add(("inverter", k), "night", drawn)
        return -drawn

    def strings(self, i, row, temp, wind, wired=True):
        array = self.arrays[i]
        plane, sun = self.planes[array.plane], self.on[array.plane][row]
        cell = cell_temp(plane, sun, temp, wind)
        ohms = {"string": 0, "array": 0}
        for cable in self.cables if wired else []:
            if cable.circuit != "ac" and cable.array == i:
                ohms[cable.circuit] += 2 * self.ohm(cable)
        return Strings(self.models[i], sun * self.clean, cell, array.modules_per_string,
                       array.strings, self.kept, ohms["string"], ohms["array"])

    def array(self, i, row, temp, wind):
        """Adds the array's own ledger; what it gives by itself."""
        array, model = self.arrays[i], self.models[i]
        sun, count = self.on[array.plane][row], array.modules_per_string * array.strings
        own, key = lambda s: Together([s], False).best()[1], ("array", i)  # noqa: E731
        stc = self.stc[i] * count
        at_25 = own(Strings(model, sun * self.clean, 25, 1, 1)) * count
        bare = self.strings(i, row, temp, wind, wired=False)
        bare.kept = 1
        warm, wired = own(bare), own(self.strings(i, row, temp, wind))
        self.add(key, "reference", stc * sun / 1000)
        for name, value in (("soiling", stc * sun / 1000 * (1 - self.clean)),
                            ("low_light", stc * sun / 1000 * self.clean - at_25),
                            ("temperature", at_25 - warm), ("stated", warm * (1 - self.kept)),
                            ("dc_wiring", warm * self.kept - wired), ("output", wired)):
            self.add(key, name, value)
        return wired

    def input(self, k, number, row, temp, wind):
        own = [i for i, a in enumerate(self.arrays) if a.inverter == k and a.input == number]
        if not own:
            return 0, 0, None
        key, given = ("input", k, number), self.inverters[k].inputs[number]
        each = sum(self.array(i, row, temp, wind) for i in own)
        joined = Together([self.strings(i, row, temp, wind) for i in own],
                          self.outlook.blocked == "yes" and len(own) > 1)
        best = joined.best()[1]
        if not self.feeding.get(key):
            self.feeding[key] = joined.open() >= (given.start_voltage or 0)
        behind, voltage = [0, 0, 0], 0
        if self.feeding[key]:
            behind, voltage, self.feeding[key] = hold(given, joined, best)
        self.add(key, "mismatch", each - best)
        for name, before, after in zip(("window", "input_current", "input_power"),
                                       [best, *behind], behind):
            self.add(key, name, before - after)
        self.add(key, "output", behind[-1])
        return behind[-1], voltage, joined

    def inverter(self, k, row, temp, wind):
        given, key = self.inverters[k], ("inverter", k)
        inputs = [self.input(k, n, row, temp, wind) for n in range(len(given.inputs))]
        dc = sum(power for power, _, _ in inputs)
        most = limit(given.max_operating_power, math.inf)
        if dc > most:
            inputs = [(p * most / dc, j.where(lambda v: j.power(v) - p * most / dc, v,
                                              j.highest + 1) if p > 0 else v, j)
                      for p, v, j in inputs]
            self.add(key, "dc_power", dc - most)
            dc = most
        mean = sum(p * v for p, v, _ in inputs) / dc if dc > 0 else 0
        rated = given.rated_ac_power
        ac = rated * self.conversions[k].ac(dc / rated, mean)
        apparent = limit(given.rated_apparent_power, rated)
        within = min(ac, rated, apparent * given.cos_phi)
        held = within if self.supply is None else self.held(k, self.supply[row], within)
        ohm = sum(self.ohm(c) for c in self.cables if c.circuit == "ac" and c.inverter == k)
        amps = held / (given.phases * given.ac_voltage * given.cos_phi)
        wired = held - (2 if given.phases == 1 else given.phases) * ohm * amps ** 2
        self.add(key, "conversion", dc - ac)
        self.add(key, "ac_rating", ac - within)
        self.add(key, "ac_voltage", within - held)
        self.add(key, "ac_wiring", held - wired)
        self.active[k] = self.active.get(k, 0) + (held < within)
        return wired if within > 0 else self.night(k)

    def terminals(self, k, supply, power):
        """Voltage to neutral at an inverter that feeds in a power: the current's part in phase
        and that across it, each along the resistance and reactance of one conductor, or of two
        where it comes back in the other."""
        given, ways = self.inverters[k], 1 if self.inverters[k].phases == 3 else 2
        amps = power / (given.phases * given.ac_voltage * given.cos_phi)
        across = math.sin(math.acos(given.cos_phi))
        for cable in self.cables:
            if cable.circuit == "ac" and cable.inverter == k:
                ohm = (cable.reactance or 0) * cable.length / 1000
                supply += ways * amps * (self.ohm(cable) * given.cos_phi + ohm * across)
        return supply

    def held(self, k, supply, power):
        """Halves the interval until the power is as high as its own voltage allows."""
        given = self.inverters[k]

        def allowed(watts):
            return given.rated_ac_power * np.interp(
                self.terminals(k, supply, watts), [given.volt_watt_start, given.volt_watt_end],
                [1, given.volt_watt_least / 100])

        if given.volt_watt_start is not None and power > allowed(power):
            low, high = 0, power
            for _ in range(100):
                middle = (low + high) / 2
                low, high = (low, middle) if middle > allowed(middle) else (middle, high)
            power = low
        above = self.terminals(k, supply, power) > limit(given.disconnect_voltage, math.inf)
        return 0 if above else power

    def export(self, row, power):
        load = self.load[row] if self.load is not None else 0
        cut = max(0, sum(power) - load - limit(self.site.export_limit, math.inf))
        fed = sum(p for p in power if p > 0)
        for k, p in enumerate(power):
            own = cut * p / fed if p > 0 else 0
            self.add(("inverter", k), "export", own)
            self.add(("inverter", k), "output", p - own)
            self.power[k, row] = p - own


def pvsize_curve(module):
    import pvsize
    return pvsize.Curve(module).model()
