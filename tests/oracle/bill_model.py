# SPDX-License-Identifier: MIT
"""A second, independent count of what must be bought.

bill(job, rules) -> [Row], in the order of the library's bill. Numbers are exact, None
where something is missing. A row's `type` is ("module", first array of that type),
("inverter", first of its like) or None; shares are (identity, installed, why)."""
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from def_tables import LAYINGS, PARAMETERS
from sizing_model import (TOLERANCE, Missing, Model, NotApplicable, input_of_isolator,
                          isolators_of)

SPARE = {"connector_pair": "connector_spare", "disconnection_point": "connector_spare",
         "string_fuse": "fuse_spare", "array_fuse": "fuse_spare", "cable": "cable_waste"}

OUTSIDE = ("beside_inverter", "at_array")

# What a switch must be able to do, and the rule that asks for it.
ABILITIES = {"meets_standard": "isolator_of_standard", "lockable": "isolator_locks",
             "breaks_all": "isolator_opens_all", "either_polarity": "isolator_non_polarised"}


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

    def stated(self, s, name):
        """What the data sheet of a listed isolator says, or None."""
        return self.m.raw("isolator", self.m.isolators[s], name)

    def listed_for(self, place):
        """Listed isolators of an input and of all arrays on it."""
        owners = [{"place": place}, *({"array": a} for a in self.m.on_input(place))]
        return [s for owner in owners for s in isolators_of(self.m, **owner)]

    def isolators(self, place):
        """(count, why) of the one beside the inverter that is not listed; None: cannot
        be told. What is listed there takes its place."""
        if any(self.stated(s, "place") == "beside_inverter" for s in self.listed_for(place)):
            return 0, "isolator.place"
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
            if self.plugged(a) and not self.cables("array", a):
                continue
            place = self.m.place[a]
            through = [self.isolators(place)]
            for s in isolators_of(self.m, place=place) + isolators_of(self.m, array=a):
                where = self.stated(s, "place")
                through.append((None if where is None else int(where in OUTSIDE),
                                "isolator.place"))
            for count, why in through:
                if count != 0:
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

    def array_fuse(self, a):
        """The same of the device of the whole array: a rule set that is silent, or that
        does no more than note, asks for none."""
        rating = self.of_array(a, "array_device")
        if rating is not None:
            return 1, rating, "array.array_device"
        try:
            needed = int(self.m.get("array_device_needed", a))
        except NotApplicable:
            needed = 0
        if needed and not self.insists("array_device"):
            return 0, None, "rule.array_device"
        return (needed, self.quantity("array_device_rating", a) or None,
                "quantity.array_device_needed")

    def count_poles(self, item, fuse, device, none=True):
        for a in self.arrays:
            needed, rating, why = fuse(a)
            if not needed:
                if none or needed is None:
                    self.add(item, None, {}, ("array", (a,)), why, needed)
                continue
            attributes = {"rating": rating}
            voltage = self.of_array(a, device + "_voltage")
            if voltage is not None:
                attributes["voltage"] = voltage
            else:
                attributes["voltage_at_least"] = self.quantity("string_voc_cold", a)
            devices = 1
            if device == "string_device":
                devices = self.of_array(a, "strings")
                if devices is not None:
                    devices = ceil(Fraction(devices) / self.of_array(a, "strings_per_device"))
            self.add(item, None, attributes, ("array", (a,)), why,
                     product(devices, self.figure("string_fuse_poles")))

    # -- isolators ----------------------------------------------------------

    def ratings(self, s):
        """Voltage and current, as the maker states them or as they must be."""
        found = {}
        if self.stated(s, "voltage") is not None:
            found["voltage"] = self.stated(s, "voltage")
        else:
            found["voltage_at_least"] = self.quantity("isolator_voltage_seen", s)
        ambient = self.quantity("isolator_temp", s)
        if self.stated(s, "current") is not None:
            found["rating"] = self.stated(s, "current")
            ambient = self.stated(s, "current_temp")
        else:
            found["current_at_least"] = self.quantity("isolator_current_seen", s)
        if ambient is not None:
            found["ambient"] = ambient
        if self.stated(s, "hot_current") is not None:
            found["hot_rating"] = self.stated(s, "hot_current")
            if self.stated(s, "hot_temp") is not None:
                found["hot_ambient"] = self.stated(s, "hot_temp")
        return found

    def class_at_least(self, place):
        """{}: the rule set asks for none."""
        one, more = (self.figure(name) for name in ("isolator_class", "isolator_class_parallel"))
        if not self.insists("isolator_category") or (one is None and more is None):
            return {}
        strings = self.quantity("input_strings", place)
        return {"class_at_least": None if strings is None else more if strings > 1 else one}

    def switching(self, stated, place):
        breaks = stated("load_break") or "yes"
        found = {"load_break": breaks}
        if stated("category") is not None:
            found["category"] = stated("category")
        elif breaks == "yes":
            found.update(self.class_at_least(place))
        for ability, rule in ABILITIES.items():
            if stated(ability) is not None:
                found[ability] = stated(ability)
            elif self.insists(rule) and (breaks == "yes" or ability == "meets_standard"):
                found[ability] = "yes"
        return found

    def conductor_voltage(self, s):
        if self.stated(s, "conductor_voltage") is not None:
            return {"conductor_voltage": self.stated(s, "conductor_voltage")}
        if (self.quantity("isolator_pole_voltage", s) is not None
                or not self.insists("isolator_poles")):
            return {}
        try:
            duty = self.m.get("isolator_pole_duty", s)
        except NotApplicable:
            return {}
        except Missing:
            duty = None
        return {"conductor_voltage_at_least": duty}

    def pole_duty(self, place):
        """That of one that is not listed: at an inverter without separation, all."""
        separated = tell(self.m.inverter, place[0], "separated")
        if separated == "yes" or not self.insists("isolator_poles"):
            return {}
        return {"conductor_voltage_at_least":
                separated and self.quantity("input_voc_highest", place)}

    def poles(self, arrays):
        """Two for each run; none can be told where no array is."""
        runs = [self.runs(a) for a in arrays]
        return None if not runs or None in runs else 2 * sum(runs)

    def arrays_through(self, s):
        own = self.stated(s, "array")
        if own is not None:
            return [int(own)]
        place = input_of_isolator(self.m, s)
        return [a for a in self.arrays if self.m.place[a] == place]

    def count_isolators(self):
        for place in self.m.subjects("input"):
            if place not in self.m.place:
                continue
            count, why = self.isolators(place)
            if why == "isolator.place":
                continue
            attributes = {}
            if count != 0:
                attributes = {"place": "beside_inverter",
                              "voltage_at_least": self.quantity("input_voc_highest", place),
                              "current_at_least": self.quantity("input_isc_max", place),
                              "poles": self.poles(self.m.on_input(place)),
                              **self.pole_duty(place),
                              **self.switching(lambda name: None, place)}
            self.add("dc_isolator", None, attributes, ("input", place), why, count)
        for s in range(len(self.m.isolators)):
            where = self.stated(s, "place")
            if where == "disconnection_point":
                continue
            attributes = {}
            if where in OUTSIDE:
                poles = self.stated(s, "poles")
                attributes = {
                    "place": where, **self.ratings(s),
                    "poles": self.poles(self.arrays_through(s)) if poles is None else poles,
                    **self.conductor_voltage(s),
                    **self.switching(lambda name: self.stated(s, name),
                                     input_of_isolator(self.m, s))}
            self.add("dc_isolator", None, attributes, ("isolator", (s,)), "isolator.place",
                     None if where is None else int(where in OUTSIDE))

    def count_disconnection_points(self):
        """Two pairs for each run that is cut; what plugs in has its own."""
        for s in range(len(self.m.isolators)):
            if self.stated(s, "place") != "disconnection_point":
                continue
            arrays = self.arrays_through(s)
            runs = [self.runs(a) for a in arrays
                    if self.cables("array", a) or not self.plugged(a)]
            pairs = None if None in runs else 2 * sum(runs)
            why = "isolator.place"
            if pairs == 0:
                why = "cable.length" if arrays else "isolator.input"
            self.add("disconnection_point", None, {} if pairs == 0 else self.ratings(s),
                     ("isolator", (s,)), why, pairs)

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
    count.count_poles("string_fuse", count.fuse, "string_device")
    count.count_poles("fuse_holder", count.fuse, "string_device")
    count.count_poles("fuse_holder", count.array_fuse, "array_device", none=False)
    count.count_isolators()
    count.count_cables()
    count.count_ac()
    count.count_disconnection_points()
    count.count_poles("array_fuse", count.array_fuse, "array_device")
    count.allow()
    return count.rows
