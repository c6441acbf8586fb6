# SPDX-License-Identifier: MIT
"""Seeded jobs and rule sets, shaped like data sheets, for comparisons.

job(seed)             every required parameter is there
job(seed, gaps=True)  now and then a required number is left out as well
job(seed, wild=True)  now and then a value from anywhere in its table range,
                      such as a coefficient that turns a voltage negative
rules(seed)           a preset, often with some figures and severities changed
"""
import random
from fractions import Fraction

from def_tables import (FIGURES, PARAMETERS, PRESETS, QUANTITIES, RULES, number,
                        preset)
from sizing_model import Missing, Model, NotApplicable, index

# Without its input an array hangs on nothing: never left out.
# Nor is a cable without its circuit, or without its array, a cable of something.
STRUCTURE = {("array", "input"), ("cable", "circuit")}

PLACES = {"input": (0, 1), "inverter": (0,), "plane": (3,), "site": (),
          "module": (2,), "array": (2,), "cable": (4,), "isolator": (5,)}

# Limits that are put exactly on the value they bound:
# (kind that holds the limit, parameter, quantity, highest or lowest wins)
FITS = [
    ("module", "max_system_voltage", "string_voc_cold", max),
    ("input", "max_voltage", "string_voc_cold", max),
    ("input", "tracking_min", "string_vmp_hot", min),
    ("input", "tracking_max", "string_vmp_cold", max),
    ("input", "full_power_min", "string_vmp_hot", min),
    ("input", "full_power_max", "string_vmp_cold", max),
    ("input", "start_voltage", "string_voc_hot", min),
    ("input", "max_operating_current", "input_imp", max),
    ("input", "max_short_circuit_current", "input_isc_max", max),
    ("input", "terminals", "input_strings", max),
    ("input", "terminal_current", "input_terminal_current", max),
    ("input", "max_power", "input_power", max),
    ("input", "isolator_voltage", "input_voc_highest", max),
    ("input", "isolator_current", "input_isc_max", max),
    ("inverter", "max_pv_power", "inverter_pv_power", max),
    ("inverter", "max_ac_current", "inverter_ac_current", max),
    ("plane", "capacity", "plane_modules", max),
    ("plane", "current_correction", "bifacial_correction", max),
    ("array", "string_device", "string_device_low", max),
    ("array", "string_device", "string_device_high", max),
    ("array", "string_device", "string_device_rating", max),
    ("array", "string_device_voltage", "string_device_duty_voltage", max),
    ("array", "array_device", "array_device_low", max),
    ("array", "array_device", "array_device_high", max),
    ("array", "array_device", "array_device_rating", max),
    ("array", "array_device_voltage", "array_device_duty_voltage", max),
    ("inverter", "ac_device", "ac_device_duty", max),
    ("isolator", "voltage", "isolator_voltage_seen", max),
    ("isolator", "conductor_voltage", "isolator_pole_duty", max),
    ("isolator", "current", "isolator_current_seen", max),
    ("isolator", "hot_current", "isolator_current_seen", max),
    ("site", "connection_limit", "system_apparent_power", max),
    ("site", "phase_limit", "inverter_phase_power", max),
    ("site", "phase_limit", "phase_power_highest", max),
    ("site", "busbar_rating", "busbar_load", max),
    ("site", "export_limit", "system_export", max),
]


def plain(value):
    """int or float that stands for the same decimal."""
    return int(value) if value == int(value) else float(value)


# What may be stated not to exist.
NO_LIMIT = {"inverter": ("max_pv_power", "backfeed_current"),
            "module": ("max_system_voltage", "max_series_fuse"),
            "array": ("string_device", "string_device_voltage", "array_device"),
            "isolator": ("voltage", "current"),
            "input": ("max_power", "terminal_current", "full_power_min", "full_power_max",
                      "start_voltage"),
            "site": ("connection_limit", "export_limit", "agreement_until")}


class Maker:
    def __init__(self, seed):
        self.r = random.Random(seed)

    def chance(self, p):
        return self.r.random() < p

    def real(self, low, high, decimals=1):
        return plain(number(round(self.r.uniform(low, high), decimals)))

    def step(self, low, high, step):
        return plain(number(low) + number(step) * self.r.randint(
            0, int((number(high) - number(low)) / number(step))))

    def choice(self, kind, name):
        return self.r.choice(PARAMETERS[kind][name]["choices"])

    def thin(self, kind, node, p):
        """Leaves out parameters that need not be given."""
        for name in list(node):
            row = PARAMETERS[kind].get(name)
            if row and row["need"] != "REQUIRED" and self.chance(p):
                del node[name]
        return node

    # -- parts ----------------------------------------------------------------

    def module(self):
        r = self.r
        if self.chance(0.4):  # round numbers, whose products are short
            voc, vmp = r.choice([(50, 42), (40, 33.5), (45, 37.5), (38.4, 32)])
            isc, imp = r.choice([(10, 9.5), (10.56, 10), (11.2, 10.4), (13.6, 12.8)])
            beta = r.choice([-0.25, -0.3, -0.28])
        else:
            decimals = r.choice([1, 2])
            voc = self.real(20, 72, decimals)
            vmp = self.real(0.79 * voc, 0.87 * voc, decimals)
            isc = self.real(1.5, 19, 2)
            imp = self.real(0.91 * isc, 0.98 * isc, 2)
            beta = self.real(-0.37, -0.21, r.choice([2, 3]))
        alpha = self.real(0.01, 0.09, r.choice([2, 3]))
        gamma = self.real(-0.46, -0.24, 2)
        node = {
            "cell": (self.choice("module", "cell") if self.chance(0.4)
                     else "crystalline_silicon"),
            "pmax": plain(number(round(vmp * imp / 5) * 5 if self.chance(0.7)
                                 else round(vmp * imp, 1))),
            "voc": voc, "isc": isc, "vmp": vmp, "imp": imp,
            "voc_coefficient": beta,
            "voc_coefficient_absolute": self.real(-0.2, -0.08, 3),
            "isc_coefficient": alpha,
            "isc_coefficient_absolute": self.real(0.001, 0.009, 4),
            "pmax_coefficient": gamma,
            "vmp_coefficient": self.real(-0.5, -0.3, 2),
            "vmp_coefficient_absolute": self.real(-0.2, -0.1, 3),
            "nmot": self.real(40, 48, 0),
            "cells": r.choice([54, 60, 66, 72]),
            "bifaciality": r.choice([0, 0, self.real(0, 0.8, 2)]),
            "max_system_voltage": r.choice([600, 1000, 1500]),
            "max_series_fuse": r.choice([15, 20, 25, 30]),
            "length": r.choice([1722, 1762, 2278]),
            "width": r.choice([1134, 1303]),
            "mass": self.real(17, 34, 1),
            "power_tolerance_minus": 0,
            "power_tolerance_plus": r.choice([3, 5]),
            "voc_tolerance": r.choice([2, 3]),
            "isc_tolerance": r.choice([3, 4]),
        }
        if self.chance(0.5):  # both statements of one coefficient agree
            node["voc_coefficient_absolute"] = plain(number(round(beta * voc / 100, 3)))
        # Most data sheets state no coefficient of Vmp, and only one form each.
        for name, p in (("vmp_coefficient", 0.8), ("vmp_coefficient_absolute", 0.8),
                        ("voc_coefficient_absolute", 0.6),
                        ("isc_coefficient_absolute", 0.6), ("voc_coefficient", 0.2)):
            if self.chance(p):
                del node[name]
        if self.chance(0.15):  # slips of the pen
            slip = r.choice(["sign", "unit", "vmp", "imp", "pmax", "isc", "gamma", "beta"])
            if slip == "sign" and "voc_coefficient" in node:
                node["voc_coefficient"] = -node["voc_coefficient"]
            elif slip == "unit":
                node["voc_coefficient"] = -0.0028
            elif slip == "vmp":
                node["vmp"] = plain(number(round(voc + r.choice([0, 0.1, 2]), 2)))
            elif slip == "imp":
                node["imp"] = plain(number(round(isc + r.choice([0, 0.01, 1]), 2)))
            elif slip == "pmax":
                node["pmax"] = node["pmax"] + r.choice([20, 60])
            elif slip == "isc":
                node["isc_coefficient"] = r.choice([0.2, 0.21, 0.5, -0.05, -0.06, -0.06,
                                                    -0.9, -0.9])
            elif slip == "beta":
                node["vmp_coefficient"] = r.choice([-0.05, 0.35, -0.8, -0.9, 0])
            elif slip == "gamma":
                node["pmax_coefficient"] = r.choice([-0.05, -0.04, 0.35])
        return self.thin("module", node, 0.12)

    def modules(self):
        pool = [self.module() for _ in range(self.r.randint(1, 3))]
        for node in list(pool):
            if self.chance(0.4):  # the same type under another name
                pool.append(dict(node, name="type " + self.r.choice("ABCD")))
            if self.chance(0.2):  # nearly the same type
                pool.append(dict(node, mass=self.real(35, 36, 1)))
            if self.chance(0.1) and "cell" not in node:
                pool.append(dict(node, cell="crystalline_silicon"))
        return pool

    def plane(self):
        r = self.r
        return self.thin("plane", {
            "name": "plane " + r.choice("NESW"),
            "tilt": self.step(0, 90, 5), "azimuth": self.step(0, 360, 15),
            "capacity": r.choice([0, 8, 12, 20, 30, 60]),
            "mounting": self.choice("plane", "mounting"),
            "cell_rise": r.choice([0, 22, 27.5, 30, 35, 40]),
            "current_correction": r.choice([1, 1, 1.05, 1.1, 1.25]),
        }, 0.35)

    def input(self):
        r = self.r
        top = r.choice([100, 500, 550, 600, 1000, 1100, 1500])
        low = r.choice([14, 40, 80, 90, 140, 160, 200])
        low = min(low, top / 5)
        operating = r.choice([11, 13.5, 15, 16, 20, 22, 26, 30, 40])
        node = {
            "name": "input " + r.choice("ABCD"),
            "max_voltage": top, "tracking_min": plain(number(low)),
            "tracking_max": plain(number(top) * number(r.choice([0.8, 0.85, 0.95, 1]))),
            "full_power_min": plain(number(low) * r.choice([1, 2])),
            "full_power_max": plain(number(top) * number(r.choice([0.75, 0.8, 0.85]))),
            "start_voltage": plain(number(low) * number(r.choice([1, 1.25, 1.5]))),
            "max_operating_current": operating,
            "max_short_circuit_current": plain(
                number(operating) * number(r.choice([1, 1.2, 1.25, 1.5]))),
            "terminals": r.choice([1, 1, 2, 2, 3]),
            "terminal_current": r.choice([15, 20, 26.4, 30, 40]),
            "max_power": r.choice([3000, 5000, 7500, 10000, 20000]),
            "isolator": self.choice("input", "isolator"),
            "isolator_meets_standard": r.choice(["yes", "yes", "no"]),
            "isolator_locks_off": r.choice(["yes", "yes", "no"]),
            "isolator_voltage": r.choice([600, 1000, 1200]),
            "isolator_current": r.choice([13, 25, 32]),
            "other_source": r.choice(["no", "no", "no", "yes"]),
        }
        if self.chance(0.05):
            a, b = r.choice([("tracking_min", "tracking_max"),
                             ("max_operating_current", "max_short_circuit_current"),
                             ("full_power_min", "full_power_max"),
                             ("tracking_max", "max_voltage"),
                             ("start_voltage", "max_voltage")])
            node[a], node[b] = node[b], node[a]
        return self.thin("input", node, 0.2)

    def inverter(self):
        r = self.r
        power = r.choice([1500, 3000, 3680, 5000, 7500, 8200, 10000, 15000, 30000])
        phases = r.choice([1, 1, 2, 3, 3])
        voltage = r.choice([220, 220, 230, 230, 230, 240, 240, 253, 400])
        node = {
            "name": "inverter " + r.choice("ABCD"),
            "rated_ac_power": power,
            "rated_apparent_power": plain(number(power) * number(
                r.choice([1, 1, 1.1, 0.98]))),
            "max_ac_current": plain(number(round(
                power / phases / voltage * r.choice([0.95, 1.05, 1.1]), 1))),
            "phases": phases, "ac_voltage": voltage,
            "max_pv_power": plain(number(power) * number(r.choice([1, 1.33, 1.5, 2]))),
            "separated": r.choice(["yes", "no"]),
            "backfeed_current": r.choice([0, 0, 0.5, 5, 20]),
            "cooling": self.choice("inverter", "cooling"),
            "night_consumption": r.choice([0.5, 1, 5]),
            "ac_device": r.choice([10, 16, 20, 25, 32, 40, 50, 63, 80, 100]),
            "phase": r.choice([1, 2, 3]),
            "cos_phi": r.choice([1, 1, 0.95, 0.9, 0.8]),
        }
        self.thin("inverter", node, 0.2)
        node["inputs"] = [self.input() for _ in range(r.randint(1, 6))]
        return node

    def site(self):
        r = self.r
        coldest = r.choice([-41, -40, -40.5, -24, -20.5, -15, -15, -10, -5.3, -5, -0.5,
                            0, 4.5, 5, 15, 24, 24.5, 25, 26])
        node = {
            "name": "site",
            "temp_min": coldest,
            "temp_max": r.choice([20, 25, 30, 35, 38.5, 40, 45]),
            "building": self.choice("site", "building"),
            "supply_phases": r.choice([1, 2, 3]),
            "supply_voltage": r.choice([230, 240]),
            "connection_limit": r.choice([5000, 10000, 30000, 60000]),
            "export_limit": r.choice([0, 1500, 5000, 10000, 30000]),
            "export_control": self.choice("site", "export_control"),
            "supply_voltage_highest": r.choice([230, 245, 249, 250, 252, 253, 257, 258]),
            "phase_limit": r.choice([3680, 4600, 5000, 10000]),
            "busbar_rating": r.choice([100, 125, 200, 225, 400]),
            "busbar_device": r.choice([60, 80, 100, 150, 200]),
            "busbar_rule": self.choice("site", "busbar_rule"),
            "busbar_devices": r.choice([60, 100, 125, 200, 260]),
            "job_date": self.date(), "agreement_from": self.date(),
            "agreement_until": self.date(),
        }
        self.thin("site", node, 0.25)
        node["planes"] = [self.plane() for _ in range(r.randint(0, 4))]
        return node

    def date(self):
        """Often near another, now and then no day of the calendar."""
        r = self.r
        return (r.choice([2024, 2025, 2025, 2026, 1900, 2000]) * 10000
                + r.choice([1, 2, 2, 3, 12]) * 100 + r.choice([1, 28, 29, 30, 31])
                if self.chance(0.9) else r.choice([20251301, 20250001, 20250200, 20251199]))

    def isolator(self, job):
        r = self.r
        node = {
            "name": "isolator", "place": self.choice("isolator", "place"),
            "load_break": r.choice(["yes", "yes", "yes", "no"]),
            "meets_standard": r.choice(["yes", "yes", "yes", "no"]),
            "category": self.choice("isolator", "category"),
            "lockable": r.choice(["yes", "yes", "yes", "no"]),
            "breaks_all": r.choice(["yes", "yes", "no"]),
            "either_polarity": r.choice(["yes", "yes", "no"]),
            "voltage": r.choice([600, 1000, 1000, 1200, 1500]),
            "current": r.choice([16, 25, 32, 45]),
            "current_temp": r.choice([40, 40, 60]),
            "hot_current": r.choice([13, 20, 25, 40]), "hot_temp": r.choice([45, 60, 70]),
            "ambient": r.choice([30, 40, 45, 60, 60.5, 75]),
            "in_sun": r.choice(["yes", "no"]),
            "poles": r.choice([1, 2, 2, 4, 4, 8]),
            "poles_per_conductor": r.choice([1, 1, 2, 2, 4]),
            "conductor_voltage": r.choice([500, 600, 1000, 1500]),
            "poles_share": r.choice(["no", "no", "yes"]),
            "distance": r.choice([0, 0.5, 1, 3, 3.01, 10]),
            "in_sight": r.choice(["yes", "yes", "no"]),
        }
        for name in ("ambient", "conductor_voltage"):  # these outweigh others
            if self.chance(0.6):
                del node[name]
        self.thin("isolator", node, 0.1)
        if job["arrays"] and self.chance(0.6):
            node["array"] = r.randrange(len(job["arrays"]))
            array = job["arrays"][node["array"]]
            if self.chance(0.1):  # named as well, rightly
                node.update(inverter=array.get("inverter", 0), input=array["input"])
        elif job["arrays"] and self.chance(0.85):
            array = r.choice(job["arrays"])
            node.update(inverter=array.get("inverter", 0), input=array["input"])
        else:
            i = r.randrange(len(job["inverters"]))
            node.update(inverter=i, input=r.randrange(len(job["inverters"][i]["inputs"])))
        if "array" not in node and node["inverter"] == 0 and self.chance(0.5):
            del node["inverter"]
        return node

    def array(self, pool, job):
        r = self.r
        inverter = r.randrange(len(job["inverters"]))
        planes = len(job["site"]["planes"])
        node = {
            "name": "array", "inverter": inverter,
            "input": r.randrange(len(job["inverters"][inverter]["inputs"])),
            "modules_per_string": r.choice([1, 2, 6, 8, 9, 10, 11, 12, 13, 14, 18, 20]),
            "strings": r.choice([1, 1, 1, 2, 2, 3, 4, 5, 6, 7, 8]),
            "external_isolator": self.choice("array", "external_isolator"),
            "module": dict(r.choice(pool)),
        }
        if self.chance(0.4):
            node["string_device"] = r.choice([10, 12, 15, 16, 20, 25, 30, 32, 40])
            node["string_device_voltage"] = r.choice([600, 1000, 1100, 1500])
            if self.chance(0.2):
                del node["string_device_voltage"]
        elif self.chance(0.3):
            node["string_device"] = "none"
        if self.chance(0.3):
            node["strings_per_device"] = r.choice([1, 2, 2, 3, 4])
        if self.chance(0.25):
            node["array_device"] = r.choice([16, 20, 32, 40, 50, 63, 80, 100])
            node["array_device_voltage"] = r.choice([600, 1000, 1500])
            if self.chance(0.2):
                del node["array_device_voltage"]
        if inverter == 0 and self.chance(0.5):
            del node["inverter"]
        if self.chance(0.4):
            del node["external_isolator"]
        if planes and self.chance(0.85):
            node["plane"] = r.randrange(planes)
        if job["arrays"] and self.chance(0.35):  # shares the last one's input
            last = job["arrays"][-1]
            for name in ("inverter", "input"):
                node.pop(name, None)
                if name in last:
                    node[name] = last[name]
            if self.chance(0.7):
                node["module"] = dict(last["module"], name="again")
            if self.chance(0.6):
                node["modules_per_string"] = last["modules_per_string"]
            if "plane" in last and self.chance(0.5):
                node["plane"] = last["plane"]
        return node

    def cable(self, job):
        r = self.r
        circuit = r.choice(["string", "array", "ac"] if job["arrays"] else ["ac"])
        node = {"name": "cable", "circuit": circuit,
                "length": r.choice([0, 3, 10, 12.5, 20, 43, 80, 200]),
                "grouped": r.choice([1, 1, 2, 3, 5, 9, 10, 20, 21, 40, 41])}
        if circuit == "ac":
            node["inverter"] = r.randrange(len(job["inverters"]))
        else:
            node["array"] = r.randrange(len(job["arrays"]))
        layings = PARAMETERS["cable"]["laying"]["choices"]
        fit = self.chance(0.8)  # the laying's table is one of this conductor
        node["conductor"] = self.choice("cable", "conductor")
        if node["conductor"] == "awg":
            node["terminal_temp"] = r.choice([30, 60, 60, 75, 75, 90])
            node["gauge"] = r.choice([14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3])
            if self.chance(0.1):
                node["gauge"] = r.choice([13, 11, 9, 7, 5])
            layings = [name for name in layings if name.startswith("nfpa") or not fit]
            node["grouping"] = r.choice(["nfpa", "nfpa", "bunched"])
        else:
            node["section"] = r.choice([1, 1.5, 2.5, 4, 4, 6, 6, 10, 10, 16, 16, 25, 35,
                                        50, 70, 95, 120, 150, 185, 240])
            if self.chance(0.1):
                node["section"] = r.choice([0.5, 3, 7.5, 300])
            of_tinned = node["conductor"] == "class5_tinned" and self.chance(0.5)
            layings = [name for name in layings if not fit
                       or name.startswith("en" if of_tinned else ("iec", "iec", "fr"))]
            node["grouping"] = self.choice("cable", "grouping")
        if self.chance(0.5):
            node["reactance"] = r.choice([0, 0.08, 0.1])
        node["laying"] = r.choice(layings)
        node["ambient"] = r.choice([-5, 10, 25, 30, 30.5, 35, 40, 40, 45, 50, 55, 60,
                                    60.5, 65, 70, 75, 80, 85, 90])
        if self.chance(0.35):
            node["conductor_temp"] = r.choice([20, 45, 50, 70, 75, 90])
        if self.chance(0.1):  # a size of the other kind says nothing
            node.setdefault("gauge", 6)
            node.setdefault("section", 6)
        owner = {name: node[name] for name in ("inverter", "array") if name in node}
        node = dict(self.thin("cable", node, 0.08), **owner)
        if node.get("inverter") == 0 and self.chance(0.5):
            del node["inverter"]
        return node

    def job(self):
        r = self.r
        job = {"site": self.site(),
               "inverters": [self.inverter() for _ in range(r.randint(1, 3))],
               "arrays": []}
        pool = self.modules()
        for _ in range(r.choice([0, 1, 1, 2, 2, 3, 3, 4, 5, 6, 8, 10, 12])):
            job["arrays"].append(self.array(pool, job))
        job["cables"] = [self.cable(job) for _ in range(r.choice([0, 1, 2, 3, 4, 6]))]
        job["isolators"] = [self.isolator(job) for _ in range(r.choice([0, 0, 1, 2, 4, 8]))]
        return job

    # -- limits that just fit -------------------------------------------------

    def fit(self, job, usual, wild):
        self.fit_module_fuses(job, usual, wild)
        self.fit_cables(job, usual, wild)
        for kind, name, quantity, pick in FITS:
            if not self.chance(0.35):
                continue
            scope = QUANTITIES[quantity]["scope"]
            # Afresh each time: a limit may be part of the next value's working.
            model = Model(job, usual)
            found = {}
            for subject in model.subjects(scope):
                try:
                    value = Fraction(model.get(quantity, subject))
                except (Missing, NotApplicable):
                    continue
                if kind == "input" and scope == "array":
                    key = model.place[subject]
                elif kind == "plane" and scope == "array":
                    plane = model.raw("array", model.arrays[subject], "plane")
                    if plane is None:
                        continue
                    key = (int(plane),)
                else:
                    key = tuple(index(scope, subject)[i] for i in PLACES[kind])
                found[key] = pick(found.get(key, value), value)
            # A module's limit is changed rarely: it would part equal types.
            for key, value in found.items():
                if self.chance(0.1 if kind == "module" else 0.5):
                    self.put(job, kind, key, name, value, wild)

    def fit_module_fuses(self, job, usual, wild):
        """Module ratings at the trigger of a device, and at the ends of its window."""
        for a in range(len(job["arrays"])):
            if not self.chance(0.25):
                continue
            model = Model(job, usual)
            try:
                if self.chance(0.6):
                    value = (model.get("string_reverse_current", a)
                             / model.figure("device_trigger_share"))
                else:
                    # a window of one rating, if low is a standard one
                    group = model.array(a, "strings_per_device")
                    value = (model.get("string_device_low", a)
                             + (group - 1) * model.module(a, "isc"))
            except (Missing, NotApplicable):
                continue
            module = job["arrays"][a]["module"]
            alike = [other["module"] for b, other in enumerate(job["arrays"])
                     if model.module_type(b) == model.module_type(a)]
            self.put(job, "module", (a,), "max_series_fuse", value, wild)
            for other in alike:  # types that are one stay one
                if "max_series_fuse" in module:
                    other["max_series_fuse"] = module["max_series_fuse"]

    def fit_cables(self, job, usual, wild):
        """Currents at what a cable and the busbar may take."""
        for c, cable in enumerate(job["cables"]):
            model = Model(job, usual)
            try:
                value = model.get("cable_capacity", c)
            except (Missing, NotApplicable):
                continue
            if not self.chance(0.3):
                continue
            if cable["circuit"] == "ac":
                self.put(job, "inverter", (cable.get("inverter", 0),),
                         "max_ac_current", value, wild)
            elif cable["circuit"] == "string":
                self.put(job, "array", (cable["array"],), "string_device", value, wild)
        if self.chance(0.3):
            model = Model(job, usual)
            try:
                value = (model.get("busbar_limit", None) - model.get("busbar_load", None)
                         + model.site("busbar_device"))
                self.put(job, "site", (), "busbar_device", value, wild)
            except (Missing, NotApplicable):
                pass

    def put(self, job, kind, key, name, value, wild):
        row = PARAMETERS[kind][name]
        if (value * 10**5).denominator != 1:
            return  # no data sheet prints that many digits
        if wild and row["type"] == "NUMBER" and self.chance(0.2):  # a hair off
            value *= 1 + Fraction(self.r.choice([-20, -12, -8, -1, 1, 8, 12, 20]), 10**10)
        elif self.chance(0.3):  # or one step off it
            value += self.r.choice([-1, 1]) * (1 if row["type"] == "COUNT"
                                               else Fraction(1, 100))
        if not row["low"] <= value <= row["high"]:
            return
        node = {"input": lambda: job["inverters"][key[0]]["inputs"][key[1]],
                "inverter": lambda: job["inverters"][key[0]],
                "plane": lambda: job["site"]["planes"][key[0]],
                "array": lambda: job["arrays"][key[0]],
                "module": lambda: job["arrays"][key[0]]["module"],
                "isolator": lambda: job["isolators"][key[0]],
                "site": lambda: job["site"]}[kind]()
        node[name] = plain(value)

    def nodes(self, job):
        yield "site", job["site"]
        for plane in job["site"]["planes"]:
            yield "plane", plane
        for inverter in job["inverters"]:
            yield "inverter", inverter
            for node in inverter["inputs"]:
                yield "input", node
        for array in job["arrays"]:
            yield "array", array
            yield "module", array["module"]
        for cable in job["cables"]:
            yield "cable", cable
        for isolator in job["isolators"]:
            yield "isolator", isolator

    def state_none(self, job):
        """Makers and networks that state no such limit."""
        for kind, node in self.nodes(job):
            for name in NO_LIMIT.get(kind, ()):
                if self.chance(0.08):
                    node[name] = "none"

    def leave_gaps(self, job):
        for kind, node in self.nodes(job):
            for name, row in PARAMETERS[kind].items():
                if (row["need"] == "REQUIRED" and (kind, name) not in STRUCTURE
                        and self.chance(0.03)):
                    node.pop(name, None)

    def run_wild(self, job):
        for kind, node in self.nodes(job):
            for name, row in PARAMETERS[kind].items():
                if name not in node or not self.chance(0.03):
                    continue
                low, high = float(row["low"]), float(row["high"])
                if row["type"] == "COUNT":
                    node[name] = int(self.r.choice([low, high, self.r.uniform(low, high)]))
                elif row["type"] == "NUMBER":
                    node[name] = plain(number(self.r.choice(
                        [low, high, round(self.r.uniform(low, high), 2)])))
                    node[name] = min(max(node[name], plain(row["low"])),
                                     plain(row["high"]))
        if self.chance(0.1):  # voltages about zero, cold ones too
            job["site"].update(temp_min=50, temp_max=self.r.choice([0, 70]))
            for array in job["arrays"]:
                array["module"].update(voc_coefficient_absolute=self.r.choice([-10, -1]),
                                       vmp_coefficient=self.r.choice([-2, 2, -0.3]))


def fitting_preset(seed):
    """The preset that rules(seed) starts from: limits fit where they are judged."""
    return random.Random(f"rules {seed}").choice(PRESETS)


def job(seed, gaps=False, wild=False):
    maker = Maker(f"job {seed}")
    result = maker.job()
    if wild:
        maker.run_wild(result)
    maker.fit(result, preset(fitting_preset(seed)), wild)
    maker.state_none(result)
    if gaps:
        maker.leave_gaps(result)
    return result


# Plausible other values of figures; None takes the figure away.
OTHER_FIGURES = {
    "isc_factor": [1, 1.25, 1.5625, None], "voc_multiplier": [1.15, 1.2],
    "voc_table": [0, 1, None], "array_ratio_max": [1.2, 1.33, 1.5, None],
    "array_ratio_min": [0, 0.75, 0.8, None],
    "voltage_limit_dwelling": [600, 1000, None],
    "voltage_limit_other_building": [1000, 1500, None],
    "voltage_limit_not_on_building": [1500, None],
    "tracking_reserve": [1, 1.1, 1.2, None], "dc_drop": [0, 1, 3, None],
    "cell_rise_open_rack": [22, 25, None], "cell_rise_raised": [30, None],
    "cell_rise_close": [35, None], "cell_rise_integrated": [40, 45, None],
    "parallel_voc_difference": [0, 2, 5, 10, None],
    "planes_per_input": [1, 2, None], "marginal_band": [0, 1, 2, 5, None],
    "data_power_tolerance": [0.5, 3, None],
    "data_coefficient_tolerance": [0, 0.02, None],
    "data_isc_coefficient_high": [0.1, 0.2, None],
    "data_current_tolerance": [0, 2, 5, None],
    "voc_fixed": [0, 1, 1, None],
    "device_trigger_factor": [1, 1.25, None],
    "device_trigger_share": [1, 1.35, None],
    "device_trigger_backfeed": [0, 1, None],
    "device_free_strings": [1, 2, 3, None],
    "device_low_factor": [1.4, 1.5, 1.5625, None],
    "device_low_strict": [0, 1, None],
    "device_high_factor": [2, 2.4, None],
    "device_series": [1, 2, 3, None],
    "ac_rise": [0.5, 1, 2, 5, None], "cable_table_factor": [1, 1.25, None],
    "ac_voltage_limit": [253, 258, 264, None],
    "ac_voltage_reduces": [250, 253, None],
    "ac_device_factor": [1, 1.25, None], "ac_device_series": [1, 2, 3, 4, None],
    "busbar_factor": [1, 1.25, None], "busbar_share": [1, 1.2, None],
    "ac_next_rating": [0, 1, 1, None], "ac_next_rating_most": [60, 800, None],
    "phase_unbalance": [3680, 4600, 5000, 5000, None],
    "isolator_class": [1, 2, None], "isolator_class_parallel": [1, 2, None],
    "isolator_temp_shade": [40, 45, None], "isolator_temp_sun": [60, None],
    "load_break_above": [0, 20, 30, None], "isolator_distance": [1, 3, 3, None],
    "array_disconnection": [0, 1, 2, None], "array_device_free": [1, 1, 2, None],
    "array_device_low_factor": [1.25, 1.5625, None],
    "array_device_low_strict": [0, 1, None],
    "array_device_high_factor": [1.5, 2.4, None],
}


def rules(seed):
    r = random.Random(f"rules {seed}")
    result = preset(r.choice(PRESETS))
    if r.random() < 0.3:
        return result
    for name, values in OTHER_FIGURES.items():
        if r.random() < 0.2:
            value = r.choice(values)
            if value is None:
                result["figures"].pop(name, None)
            else:
                assert FIGURES[name]["low"] <= value <= FIGURES[name]["high"]
                result["figures"][name] = number(value)
    for rule in RULES:
        if r.random() < 0.1:
            result["severity"][rule] = r.choice(["off", "note", "should", "must"])
    return result
