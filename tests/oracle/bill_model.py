# SPDX-License-Identifier: MIT
"""A second, independent count of what must be bought.

bill(job, rules) -> [Row], in the order of the library's bill. Numbers are exact, None
where something is missing. A row's `type` is ("module", first array of that type),
("inverter", first of its like) or None; shares are (identity, installed, why)."""
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from def_tables import LAYINGS, PARAMETERS
from sizing_model import TOLERANCE, Missing, Model, NotApplicable, isolators_of

SPARE = {"connector_pair": "connector_spare", "string_fuse": "fuse_spare",
         "cable": "cable_waste"}


@dataclass
class Row:
    item: str
    type: tuple
    attributes: dict
    installed: Fraction = None
    quantity: Fraction = None
    shares: list = field(default_factory=list)


def tell(function, *arguments):
    """The value, or None where it is missing or there is none."""
    try:
        return function(*arguments)
    except (Missing, NotApplicable):
        return None


def product(*values):
    result = Fraction(1)
    for value in values:
        if value is None:
            return None
        result *= value
    return result


def same(a, b):
    """Equal, or apart by no more than rounding."""
    if isinstance(a, str) or None in (a, b):
        return a == b
    return abs(a - b) <= TOLERANCE * min(abs(a), abs(b))


class Count:
    def __init__(self, job, rules):
        self.m = Model(job, rules)
        self.rules = rules
        self.rows = []
        self.arrays = range(len(self.m.arrays))
        self.inverters = range(len(self.m.inverters))

    def figure(self, name):
        return tell(self.m.figure, name)

    def of_array(self, a, name):
        return tell(self.m.array, a, name)

    def quantity(self, name, subject):
        value = tell(self.m.get, name, subject)
        return None if value is None else Fraction(value)

    def insists(self, rule):
        return self.rules["severity"].get(rule) in ("should", "must")

    def add(self, item, kind, attributes, who, why, installed):
        for row in self.rows:
            if (row.item, row.type, list(row.attributes), row.installed is None) == (
                    item, kind, list(attributes), installed is None) and all(
                        same(row.attributes[name], attributes[name]) for name in attributes):
                break
        else:
            row = Row(item, kind, attributes, None if installed is None else Fraction(0))
            self.rows.append(row)
        if installed is not None:
            row.installed += installed
        row.shares.append((who, installed or 0, why))

    # -- types --------------------------------------------------------------

    def module(self, a):
        mine = self.m.module_type(a)
        return "module", (next(b for b in self.arrays if self.m.module_type(b) == mine),)

    def likeness(self, i):
        node = self.m.inverters[i]

        def numbers(kind, part):
            return tuple((self.m.raw(kind, part, name), part.get(name) == "none")
                         for name in PARAMETERS[kind] if name != "name")
        return (numbers("inverter", node),
                tuple(numbers("input", part) for part in node.get("inputs") or []))

    def inverter(self, i):
        mine = self.likeness(i)
        return "inverter", (next(k for k in self.inverters if self.likeness(k) == mine),)

    # -- strings ------------------------------------------------------------

    def cables(self, circuit, owner):
        kind = "inverter" if circuit == "ac" else "array"
        return [c for c, node in enumerate(self.m.cables) if node["circuit"] == circuit
                and self.m.raw("cable", node, kind) == owner]

    def plugged(self, a):
        lengths = [tell(self.m.cable, c, "length") for c in self.cables("string", a)]
        return bool(lengths) and all(length == 0 for length in lengths)

    def runs(self, a):
        return 1 if self.cables("array", a) else self.of_array(a, "strings")

    def beside(self, place):
        """Listed isolators beside the inverter: of the input, then of each array on it."""
        owners = [{"place": place}, *({"array": a} for a in self.m.on_input(place))]
        return [[s for s in isolators_of(self.m, **owner)
                 if self.m.raw("isolator", self.m.isolators[s], "place") == "beside_inverter"]
                for owner in owners]

    def isolators(self, place):
        """(count, why); None: cannot be told."""
        if any(self.beside(place)):
            return 1, "isolator.place"
        if any(self.of_array(a, "external_isolator") == "yes"
               for a in self.m.on_input(place)):
            return 1, "array.external_isolator"
        serves = self.quantity("input_isolated", place)
        if serves:
            return 0, "quantity.input_isolated"
        if not self.insists("isolator"):
            return 0, "rule.isolator"
        return (None if serves is None else 1), "rule.isolator"

    def count_strings(self):
        for a in self.arrays:
            self.add("module", self.module(a), {"power": tell(self.m.module, a, "pmax")},
                     ("array", (a,)), "quantity.array_modules",
                     product(self.of_array(a, "strings"), self.of_array(a, "modules_per_string")))
        for a in self.arrays:
            self.add("string", self.module(a),
                     {"modules": self.of_array(a, "modules_per_string")}, ("array", (a,)),
                     "array.strings", self.of_array(a, "strings"))
        for i in self.inverters:
            attributes = {"power": tell(self.m.inverter, i, "rated_ac_power")}
            phases = tell(self.m.inverter, i, "phases")
            if phases is not None:
                attributes["phases"] = phases
            self.add("inverter", self.inverter(i), attributes, ("inverter", (i,)), "inverter",
                     Fraction(1))

    def count_connectors(self):
        each = self.figure("connectors_at_device")
        for a in self.arrays:
            if not self.plugged(a):
                self.add("connector_pair", self.module(a), {}, ("array", (a,)), "array.strings",
                         self.of_array(a, "strings"))
        for a in self.arrays:
            combined = bool(self.cables("array", a))
            if combined or not self.plugged(a):
                self.add("connector_pair", self.inverter(self.m.place[a][0]), {},
                         ("array", (a,)), "cable.circuit" if combined else "array.strings",
                         self.runs(a))
        for a in self.arrays:
            if not self.cables("array", a):
                continue
            coming = 0 if self.plugged(a) else self.of_array(a, "strings")
            self.add("connector_pair", None, {}, ("array", (a,)), "cable.circuit",
                     product(None if coming is None else coming + 1, each))
        for a in self.arrays:
            count, why = self.isolators(self.m.place[a])
            if count == 0 or (self.plugged(a) and not self.cables("array", a)):
                continue
            self.add("connector_pair", None, {}, ("array", (a,)), why,
                     product(count, 2, self.runs(a), each))

    # -- devices ------------------------------------------------------------

    def count_combiners(self):
        for a in self.arrays:
            if self.cables("array", a):
                self.add("combiner", None, {"strings": self.of_array(a, "strings"),
                                            "voltage_at_least": self.quantity(
                                                "string_voc_cold", a)},
                         ("array", (a,)), "cable.circuit", Fraction(1))

    def fuse(self, a):
        """(needed, rating, why)."""
        rating = self.of_array(a, "string_device")
        if rating is not None:
            return 1, rating, "array.string_device"
        why = "quantity.string_device_needed"
        try:
            needed = self.m.get("string_device_needed", a)
        except Missing:
            return None, None, why
        except NotApplicable:
            stated = self.m.arrays[a].get("string_device") == "none"
            return (0 if stated else None), None, "array.string_device"
        rating = self.quantity("string_device_rating", a)
        return int(needed), rating or None, why

    def count_poles(self, item):
        for a in self.arrays:
            needed, rating, why = self.fuse(a)
            if not needed:
                self.add(item, None, {}, ("array", (a,)), why, needed)
                continue
            attributes = {"rating": rating}
            voltage = self.of_array(a, "string_device_voltage")
            if voltage is not None:
                attributes["voltage"] = voltage
            else:
                attributes["voltage_at_least"] = self.quantity("string_voc_cold", a)
            strings = self.of_array(a, "strings")
            if strings is not None:
                strings = ceil(Fraction(strings) / self.of_array(a, "strings_per_device"))
            self.add(item, None, attributes, ("array", (a,)), why,
                     product(strings, self.figure("string_fuse_poles")))

    def count_isolators(self):
        for place in self.m.subjects("input"):
            if place not in self.m.place:
                continue
            count, why = self.isolators(place)
            runs = [self.runs(a) for a in self.m.on_input(place)]
            if why == "isolator.place":
                whole = None if None in runs else 2 * sum(runs)
                poles = [whole, *(None if run is None else 2 * run for run in runs)]
                for listed, each in zip(self.beside(place), poles):
                    for s in listed:
                        self.add("dc_isolator", None, {
                            "voltage_at_least": self.quantity("isolator_voltage_seen", s),
                            "current_at_least": self.quantity("isolator_current_seen", s),
                            "poles": each}, ("isolator", (s,)), why, Fraction(1))
                continue
            attributes = {}
            if count != 0:
                attributes = {"voltage_at_least": self.quantity("input_voc_highest", place),
                              "current_at_least": self.quantity("input_isc_max", place),
                              "poles": None if None in runs else 2 * sum(runs)}
            self.add("dc_isolator", None, attributes, ("input", place), why, count)

    # -- circuits -----------------------------------------------------------

    def count_cables(self):
        for c, node in enumerate(self.m.cables):
            circuit = node["circuit"]
            strings, phases = Fraction(1), Fraction(0)
            if circuit == "string":
                strings = self.of_array(int(node["array"]), "strings")
            if circuit == "ac":
                phases = tell(self.m.inverter, int(self.m.raw("cable", node, "inverter")),
                              "phases")
            conductors = None if phases is None else phases + 2
            conductor = tell(self.m.cable, c, "conductor")
            size = "gauge" if conductor == "awg" else "section"
            laying = tell(self.m.cable, c, "laying")
            self.add("cable", None,
                     {"circuit": circuit, "conductor": conductor,
                      size: tell(self.m.cable, c, size), "conductors": conductors,
                      "insulation_temp": laying and LAYINGS[laying][0]},
                     ("cable", (c,)), "cable.length",
                     product(tell(self.m.cable, c, "length"), conductors, strings))
        for kind, circuit, owners in (("array", "string", self.arrays),
                                      ("inverter", "ac", self.inverters)):
            for owner in owners:
                if not self.cables(circuit, owner):
                    self.add("cable", None, {"circuit": circuit}, (kind, (owner,)), "cable", None)

    def count_ac(self):
        neutral = self.figure("ac_breaker_neutral")
        for i in self.inverters:
            phases = tell(self.m.inverter, i, "phases")
            self.add("ac_breaker", None,
                     {"rating": self.quantity("ac_device_rating", i) or None,
                      "poles": None if None in (phases, neutral) else phases + neutral},
                     ("inverter", (i,)), "quantity.ac_device_rating", Fraction(1))
        control = self.m.site("export_control")
        phases = tell(self.m.site, "supply_phases")
        if control == "meter":
            self.add("export_meter", None, {"phases": phases}, ("site", ()),
                     "site.export_control", Fraction(1))
        elif control == "current_sensor":
            self.add("current_sensor", None, {}, ("site", ()), "site.export_control", phases)
        else:
            exceeds = self.export_exceeds()
            self.add("current_sensor", None, {}, ("site", ()), "rule.export",
                     phases if exceeds else exceeds)

    def export_exceeds(self):
        limit = tell(self.m.site, "export_limit")
        power = self.quantity("system_ac_power", None)
        if not self.insists("export") or self.m.site_node.get("export_limit") == "none":
            return 0
        if limit is None or power is None:
            return None
        return int(power - limit > TOLERANCE * (limit or 1))

    def allow(self):
        for row in self.rows:
            row.quantity = row.installed
            if row.item not in SPARE or not row.installed:
                continue
            row.quantity = product(row.installed, self.figure(SPARE[row.item]))
            if row.quantity is None:
                continue
            row.quantity = row.installed + row.quantity / 100
            if row.item != "cable":
                row.quantity = Fraction(ceil(row.quantity))


def bill(job, rules):
    count = Count(job, rules)
    count.count_strings()
    count.count_connectors()
    count.count_combiners()
    count.count_poles("string_fuse")
    count.count_poles("fuse_holder")
    count.count_isolators()
    count.count_cables()
    count.count_ac()
    count.allow()
    return count.rows
