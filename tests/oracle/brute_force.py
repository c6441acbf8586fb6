# SPDX-License-Identifier: MIT
"""The best stringings by trying every one: written from the header of the search and
from nothing of its code. The library is asked only what it says of a whole system."""
import itertools

import pvsize


def millis(value):
    return int(value * 1000 + 0.5)


def signature(spec, *without):
    values = spec.to_dict()
    for key in ("name", *without):
        values.pop(key, None)
    return tuple(sorted((k, repr(v)) for k, v in values.items()))


class Case:
    """A question, looked at from outside."""

    def __init__(self, question, rules):
        self.question, self.rules = question, rules
        self.system = question.parts("system")[0]
        self.site = self.system.parts("site")[0]
        self.planes = self.site.parts("plane")
        self.inverters = self.system.parts("inverter")
        self.inputs = [inverter.parts("input") for inverter in self.inverters]
        self.fixed = self.system.parts("array")
        self.modules = question.parts("module")
        self.report = pvsize.Report()
        taken = {(array.inverter, array.input) for array in self.fixed}
        self.open = [(v, i) for v, inputs in enumerate(self.inputs) for i in range(len(inputs))
                     if (v, i) not in taken]
        self.room = [10 ** 6 if plane.capacity == "none" else plane.capacity for plane in self.planes]
        for array in self.fixed:
            if array.plane is not None:
                self.room[array.plane] -= array.modules_per_string * array.strings
        self.two = self.planes_may_share()

    def planes_may_share(self):
        if self.rules.severity("unlike_planes") == "off":
            return True
        most = self.rules.figure("planes_per_input")
        return most is None or most >= 2

    def distinct_modules(self):
        seen = {}
        for m, module in enumerate(self.modules):
            seen.setdefault(signature(module), m)
        return sorted(seen.values())

    def options(self):
        """What an input can get, as (module, length, ((plane, strings), ...))."""
        low = self.question.shortest_string
        high = self.question.longest_string or 10000
        found = [None]
        for m in self.distinct_modules():
            for p, room in enumerate(self.room):
                for n in range(low, min(high, room) + 1):
                    for s in range(1, room // n + 1):
                        found.append((m, n, ((p, s),)))
            for p, q in itertools.combinations(range(len(self.room)), 2):
                if not self.two:
                    continue
                for n in range(low, min(high, self.room[p], self.room[q]) + 1):
                    for s in range(1, self.room[p] // n + 1):
                        for t in range(1, self.room[q] // n + 1):
                            found.append((m, n, ((p, s), (q, t))))
        return found

    def wired(self, choice):
        """The whole system with one option for every open input."""
        system = self.system.copy()
        for (v, i), option in zip(self.open, choice):
            if option is None:
                continue
            m, n, sides = option
            for p, s in sides:
                array = pvsize.Array(inverter=v, input=i, plane=p, modules_per_string=n, strings=s,
                                     module=self.modules[m])
                if self.question.external_isolator == "yes":
                    array.external_isolator = True
                system.add(array)
        return system

    def fit_devices(self, system):
        """Devices where strings need them, and how many."""
        count = 0
        if self.question.string_devices != "yes":
            return 0
        pvsize.check(system, self.rules, self.report)
        for i, array in enumerate(system.parts("array")):
            if i < len(self.fixed):
                continue
            rating = self.report.quantity("string_device_rating", array=i)
            if self.report.quantity("string_device_needed", array=i) == 1 and rating:
                array.string_device = rating
                if self.question.string_device_voltage is not None:
                    array.string_device_voltage = self.question.string_device_voltage
                system.replace(i, array)
                count += array.strings
        return count

    def fits(self, choice):
        used = [0] * len(self.room)
        for option in filter(None, choice):
            for p, s in option[2]:
                used[p] += option[1] * s
        if any(u > max(r, 0) for u, r in zip(used, self.room)):
            return False
        wanted = self.question.wanted_modules
        have = sum(used) + sum(a.modules_per_string * a.strings for a in self.fixed)
        if wanted is not None and have != wanted:
            return False
        return any(choice) or bool(self.fixed)

    def canonical(self, choice, tells_places):
        """The same for stringings that differ only in the exchange of like things."""
        if tells_places:
            return tuple(choice)
        groups = []
        for v, inverter in enumerate(self.inverters):
            has_fixed = any(array.inverter == v for array in self.fixed)
            inside = sorted((signature(self.inputs[v][i]), repr(option))
                            for (w, i), option in zip(self.open, choice) if w == v)
            groups.append((signature(inverter), v if has_fixed else -1, tuple(inside)))
        return tuple(sorted(groups))

    def order(self, choice):
        """Modules by place in the order of planes."""
        ranks = [plane.fill_order for plane in self.planes]
        if not any(rank is not None for rank in ranks):
            if self.question.objective != "plane_order":
                return ()
            ranks = list(range(len(ranks)))
        ranks = [10 ** 6 if rank is None else rank for rank in ranks]
        used = dict.fromkeys(sorted(set(ranks)), 0)
        for option in filter(None, choice):
            for p, s in option[2]:
                used[ranks[p]] += option[1] * s
        return tuple(used[rank] for rank in sorted(used))

    def key(self, choice, devices):
        power = sum(o[1] * sum(s for _, s in o[2]) * millis(self.modules[o[0]].pmax)
                    for o in choice if o)
        strings = sum(s for o in choice if o for _, s in o[2])
        parts = (-strings, -devices)
        order = self.order(choice)
        objective = self.question.objective
        if objective == "power":
            return (power, order, *parts)
        if objective == "energy":
            energy = sum(o[1] * s * int(self.modules[o[0]].pmax * self.planes[p].specific_yield + 0.5)
                         for o in choice if o for p, s in o[2])
            return (energy, order, *parts)
        if objective == "plane_order":
            return (order, power, *parts)
        fixed = sum(a.modules_per_string * a.strings * millis(a.parts("module")[0].pmax)
                    for a in self.fixed)
        away = power + fixed - millis(self.question.wanted_power)
        return (-abs(away), away <= 0, order, *parts)

    def answers(self, tells_places):
        """Keys of all answers by their canonical form."""
        found = {}
        options = self.options()
        for choice in itertools.product(options, repeat=len(self.open)):
            if not self.fits(choice):
                continue
            name = self.canonical(choice, tells_places)
            if name in found:
                continue
            system = self.wired(choice)
            devices = self.fit_devices(system)
            outcome = pvsize.check(system, self.rules, self.report).outcome
            found[name] = None if outcome == "broken" else (self.key(choice, devices), outcome)
        return {name: value for name, value in found.items() if value}

    def choice_of(self, layout):
        """The options of an answer of the library, by open input."""
        found = {}
        for a in layout.arrays:
            m, n, sides = found.get((a.inverter, a.input), (a.module, a.modules_per_string, ()))
            assert (m, n) == (a.module, a.modules_per_string)
            found[a.inverter, a.input] = (m, n, sides + ((a.plane, a.strings),))
        assert set(found) <= set(self.open)
        return tuple(found.get(place) for place in self.open)
