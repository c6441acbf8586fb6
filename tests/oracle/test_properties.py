# SPDX-License-Identifier: MIT
"""What must hold of any system, whatever the numbers: directions, sums, counts
at their bounds, and working that can be computed again.

PVSIZE_ORACLE_JOBS  how many jobs; PVSIZE_LIBRARY  which library.

Nothing here knows a formula. Each check is a function of answers alone, so
that the tests at the end can hand it false ones and see it object."""
import ast
import copy
import os
import random
import re
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from math import ceil, floor, sqrt
from typing import NamedTuple

import pytest

from test_against_library import Answers, edge, job_of, library_rules, pvsize, rules_of
from def_tables import CONDUCTORS, DEVICE_RATINGS, FIGURES, PARAMETERS, QUANTITIES, RULES, number
from sizing_model import GAUGES, Model

DEFAULT_JOBS = 2000
JOBS = int(os.environ.get("PVSIZE_ORACLE_JOBS", DEFAULT_JOBS))
ENOUGH = JOBS >= DEFAULT_JOBS  # to ask that every case was met
ALL_ON = {rule: "must" for rule in RULES}


def spread(check, seeds, *arguments):
    """Runs check(seed, counts, *arguments), which yields faults, on all processors."""
    counts, faults = Counter(), []
    parts = [seeds[start:start + 40] for start in range(0, len(seeds), 40)]
    with ProcessPoolExecutor() as pool:
        for some_counts, some_faults in pool.map(
                run, [check] * len(parts), parts, *([a] * len(parts) for a in arguments)):
            counts.update(some_counts)
            faults += some_faults
    return counts, faults


def run(check, seeds, *arguments):
    counts, faults = Counter(), []
    for seed in seeds:
        faults += [f"seed {seed}: {fault}" for fault in check(seed, counts, *arguments)]
    return counts, faults


def none(faults):
    assert not faults, f"{len(faults)} faults:\n" + "\n".join(faults[:30])


def rules_on(seed):
    """The rule set of a seed, with no rule off: what is off says nothing."""
    rules, _ = rules_of(seed)
    return {"figures": rules["figures"], "severity": ALL_ON}


def without_cables(job):
    """Cables and isolators follow one array by its place, and carry what its strings do."""
    return dict(job, cables=[], isolators=[])


def system(job):
    return pvsize.System(**job)


# -- directions ---------------------------------------------------------------
#
# What raising a value does to the rules, from the physics. Every pair of jobs
# that differ in it is read both ways, so lowering is covered by the same row.
#   worse, better  may only become so
#   either         bound from both sides, or judges likeness: may go anywhere
#   gap            may also run out of data: beyond the correction table, or by
#                  a coefficient that is no longer believed
# Any other rule must not notice.

class Row(NamedTuple):
    worse: str = ""
    better: str = ""
    either: str = ""
    gap: str = ""


VOC_COLD = ("voc_cold_input voc_cold_module voc_cold_building isolator_voltage device_voltage "
            "isolator_rated_voltage isolator_poles array_device_voltage")
VMP_COLD = "vmp_cold_tracking vmp_cold_full_power"
VMP_HOT = "vmp_hot_tracking vmp_hot_reserve vmp_hot_full_power"
HOT = VMP_HOT + " voc_hot_start"
# Where a device that does not break load serves up to a current.
BARE = ("isolator_breaks_load isolator_locks isolator_opens_all isolator_non_polarised "
        "isolator_category isolator array_disconnected")
DC_CABLE = "cable_capacity cable_table cable_terminals"
AC_CABLE = f"{DC_CABLE} ac_device_cable"
ISC = f"isc_input terminal_rating isolator_current isolator_rated_current {DC_CABLE} {BARE}"
RISE = "ac_rise terminal_voltage terminal_voltage_reduces"
AC_CURRENT = f"{RISE} {DC_CABLE} busbar ac_device"
PHASES = "phase_power phase_total"
ARRAY_LOW = "array_device_low array_device_low_strict"
ARRAY_WINDOW = f"{ARRAY_LOW} array_device_high array_device_exists"
DATES = "agreement_begun agreement_lasts"
REVERSE = "reverse_current"
POWER = "input_power pv_ratio pv_maker"
STRINGS = REVERSE + " " + ISC + " operating_current terminals plane_room " + POWER
ISC_DATA = "data_isc_coefficient data_isc_coefficient_low data_isc_coefficients_agree"
VMP_DATA = "data_vmp_coefficient_high data_vmp_coefficient_low data_vmp_coefficients_agree"
VOC_DATA = "data_voc_coefficient_high data_voc_coefficient_low data_coefficients_agree"
LIKENESS = "unlike_voltage unlike_length unlike_modules unlike_planes"

ROWS = {
    # weather and place
    "site.temp_min": Row("data_temperatures", f"{VOC_COLD} {VMP_COLD}", "unlike_voltage",
                         VOC_COLD),
    "site.temp_max": Row(HOT, "data_temperatures"),
    "plane.cell_rise": Row(HOT),
    "plane.current_correction": Row(f"{ISC} {REVERSE} {ARRAY_LOW} array_device_exists",
                                    "bifacial", "", BARE),
    # strings
    "array.modules_per_string": Row(f"{VOC_COLD} {VMP_COLD} {POWER} plane_room",
                                    f"{HOT} pv_underload dc_drop",
                                    "unlike_voltage unlike_length"),
    "array.strings": Row(f"{STRINGS} {ARRAY_LOW} dc_drop", "pv_underload array_device_high "
                         "data_grouped", "array_device_exists", f"{REVERSE} {BARE}"),
    # a copy of an array beside it
    "another array": Row(f"{STRINGS} array_device isolator_rated_voltage",
                         "pv_underload", f"{LIKENESS} isolator isolator_voltage {ARRAY_WINDOW}",
                         f"{REVERSE} {BARE}"),
    # modules
    "module.bifaciality": Row(f"{ISC} {REVERSE} bifacial {ARRAY_LOW} array_device_exists",
                              "", "", BARE),
    # Isc turns a coefficient in A/K into %/K, which the estimate for Vmp is made of.
    "module.isc": Row(f"{ISC} {REVERSE} {ARRAY_LOW}", "data_imp array_device_high",
                      f"{HOT} {VMP_COLD} {ISC_DATA} {VMP_DATA} array_device_exists", BARE),
    "module.imp": Row("operating_current data_imp dc_drop", "", "data_power"),
    "module.voc": Row(VOC_COLD, "voc_hot_start data_vmp", f"unlike_voltage {VOC_DATA}",
                      f"{VOC_COLD} voc_hot_start"),
    "module.vmp": Row(f"{VMP_COLD} data_vmp", f"{VMP_HOT} dc_drop",
                      f"data_power {VMP_DATA}"),
    "module.pmax": Row(POWER, "pv_underload", "data_power"),
    # limits
    "module.max_series_fuse": Row("", REVERSE),
    "array.string_device_voltage": Row("", "device_voltage"),
    "inverter.backfeed_current": Row(REVERSE),
    "module.max_system_voltage": Row("", "voc_cold_module"),
    "input.max_voltage": Row("", "voc_cold_input data_window_max data_start"),
    "input.tracking_min": Row("vmp_hot_tracking vmp_hot_reserve data_window data_full_power_low"),
    "input.tracking_max": Row("data_window_max",
                              "vmp_cold_tracking data_window data_full_power_high"),
    "input.full_power_min": Row("vmp_hot_full_power data_full_power", "data_full_power_low"),
    "input.full_power_max": Row("data_full_power_high", "vmp_cold_full_power data_full_power"),
    "input.start_voltage": Row("voc_hot_start data_start"),
    "input.max_operating_current": Row("data_currents", "operating_current"),
    "input.max_short_circuit_current": Row("", "isc_input data_currents"),
    "input.terminals": Row("", "terminals terminal_rating"),
    "input.terminal_current": Row("", "terminal_rating"),
    "input.max_power": Row("", "input_power"),
    "input.isolator_voltage": Row("", "isolator_voltage"),
    "input.isolator_current": Row("", "isolator_current"),
    # The active rating stands in for an apparent one that is not stated.
    "inverter.rated_ac_power": Row(
        f"pv_underload connection export data_apparent data_ac_current {AC_CURRENT} {PHASES}",
        "pv_ratio", "unbalance"),
    "inverter.rated_apparent_power": Row(f"connection data_ac_current {AC_CURRENT} {PHASES}",
                                         "data_apparent", "unbalance"),
    "inverter.max_ac_current": Row(AC_CURRENT, "data_ac_current"),
    "inverter.phases": Row("phases", "data_ac_current phase_power",
                           f"{AC_CURRENT} phase_total unbalance"),
    "inverter.ac_voltage": Row("", f"data_ac_current {AC_CURRENT}", "data_supply"),
    "inverter.ac_device": Row("cable_capacity ac_device_cable", "ac_device"),
    "inverter.phase": Row("", "", "phase_total unbalance"),
    # A lower one makes more apparent power of the rating, and needs a reactance.
    "inverter.cos_phi": Row("", f"connection data_ac_current {DC_CABLE} busbar ac_device {PHASES}",
                            f"{RISE} unbalance"),
    "array.string_device": Row("cable_capacity"),
    "array.array_device": Row("cable_capacity array_device_high", ARRAY_LOW),
    "array.array_device_voltage": Row("", "array_device_voltage"),
    "cable.length": Row(f"dc_drop {RISE}"),
    "cable.ambient": Row("cable_capacity ac_device_cable", "", "",
                         "cable_capacity ac_device_cable"),
    "cable.grouped": Row("cable_capacity ac_device_cable", "", "",
                         "cable_capacity ac_device_cable"),
    "cable.conductor_temp": Row(f"dc_drop {RISE}"),
    "cable.terminal_temp": Row("", "cable_terminals", "", "cable_terminals"),
    "cable.reactance": Row(RISE),
    "a thicker cable": Row("", f"{AC_CABLE} dc_drop {RISE}", "", AC_CABLE),
    "isolator.voltage": Row("", "isolator_rated_voltage isolator_poles"),
    "isolator.conductor_voltage": Row("", "isolator_poles"),
    "isolator.poles": Row("isolator_poles", "", "", "isolator_poles"),
    "isolator.poles_per_conductor": Row("", "isolator_poles", "", "isolator_poles"),
    "isolator.current": Row("", "isolator_rated_current"),
    "isolator.current_temp": Row("", "isolator_rated_current", "", "isolator_rated_current"),
    "isolator.hot_current": Row("", "isolator_rated_current"),
    "isolator.hot_temp": Row("", "isolator_rated_current"),
    "isolator.ambient": Row("isolator_rated_current", "", "", "isolator_rated_current"),
    "isolator.distance": Row("isolator_distance"),
    "inverter.max_pv_power": Row("", "pv_maker"),
    "plane.capacity": Row("", "plane_room"),
    "site.supply_phases": Row("", "phases", "phase_total unbalance"),
    "site.supply_voltage_highest": Row("terminal_voltage terminal_voltage_reduces"),
    "site.phase_limit": Row("", PHASES),
    "site.busbar_rating": Row("", "busbar"),
    "site.busbar_device": Row("busbar"),
    "site.busbar_devices": Row("busbar"),
    # One more may be no day of the calendar.
    "site.job_date": Row("agreement_lasts", "agreement_begun", "data_dates", DATES),
    "site.agreement_from": Row("agreement_begun", "", "data_dates", DATES),
    "site.agreement_until": Row("", "agreement_lasts", "data_dates", DATES),
    "site.supply_voltage": Row("", "", "data_supply"),
    "site.connection_limit": Row("", "connection"),
    "site.export_limit": Row("", "export"),
}

FIGURE_ROWS = {
    "isc_factor": Row(ISC, "", "", BARE),
    "device_trigger_factor": Row(REVERSE),
    "device_trigger_share": Row("", REVERSE),
    "device_free_strings": Row("", REVERSE, "", REVERSE),
    "voc_multiplier": Row(VOC_COLD, "", "unlike_voltage"),
    "array_ratio_max": Row("", "pv_ratio"),
    "array_ratio_min": Row("pv_underload"),
    "voltage_limit_dwelling": Row("", "voc_cold_building"),
    "voltage_limit_other_building": Row("", "voc_cold_building"),
    "voltage_limit_not_on_building": Row("", "voc_cold_building"),
    "tracking_reserve": Row("vmp_hot_reserve"),
    "dc_drop": Row("vmp_hot_reserve", "dc_drop"),
    "ac_rise": Row("", "ac_rise"),
    "cable_table_factor": Row("cable_table cable_terminals"),
    "ac_voltage_limit": Row("", "terminal_voltage"),
    "ac_voltage_reduces": Row("", "terminal_voltage_reduces"),
    "ac_device_factor": Row("ac_device"),
    "ac_next_rating_most": Row("", "ac_device_cable"),
    "busbar_factor": Row("busbar"),
    "busbar_share": Row("", "busbar"),
    "phase_unbalance": Row("", "unbalance"),
    "isolator_class": Row("isolator_category"),
    "isolator_class_parallel": Row("isolator_category"),
    "isolator_temp_shade": Row("isolator_rated_current", "", "", "isolator_rated_current"),
    "isolator_temp_sun": Row("isolator_rated_current", "", "", "isolator_rated_current"),
    "load_break_above": Row("", BARE, "isolator_voltage isolator_current", BARE),
    "isolator_distance": Row("", "isolator_distance"),
    "array_disconnection": Row("", "", "array_disconnected"),
    "array_device_free": Row("", f"array_device {ARRAY_WINDOW}", "", ARRAY_WINDOW),
    "array_device_low_factor": Row(f"{ARRAY_LOW} array_device_exists"),
    "array_device_high_factor": Row("", "array_device_high array_device_exists"),
    "cell_rise_open_rack": Row(HOT),
    "cell_rise_raised": Row(HOT),
    "cell_rise_close": Row(HOT),
    "cell_rise_integrated": Row(HOT),
    "parallel_voc_difference": Row("", "unlike_voltage"),
    "planes_per_input": Row("", "unlike_planes"),
    "data_power_tolerance": Row("", "data_power"),
    "data_coefficient_tolerance": Row(
        "", "data_coefficients_agree data_isc_coefficients_agree data_vmp_coefficients_agree"),
    "data_isc_coefficient_high": Row("", "data_isc_coefficient"),
    "data_isc_coefficient_low": Row("data_isc_coefficient_low"),
    "data_pmax_coefficient_high": Row("", "data_pmax_coefficient"),
    # These two also say which coefficients are believed.
    "data_voc_coefficient_high": Row("", "data_voc_coefficient_high",
                                     f"{VOC_COLD} voc_hot_start unlike_voltage"),
    "data_silicon_coefficient_high": Row("", "data_voc_coefficient_high",
                                         f"{VOC_COLD} voc_hot_start unlike_voltage"),
    "data_voc_coefficient_low": Row("data_voc_coefficient_low"),
    "data_silicon_coefficient_low": Row("data_voc_coefficient_low"),
    "data_vmp_coefficient_high": Row("", "data_vmp_coefficient_high"),
    "data_vmp_coefficient_low": Row("data_vmp_coefficient_low"),
    "data_current_tolerance": Row("", "data_ac_current"),
    "data_supply_tolerance": Row("", "data_supply"),
    # A wider band calls more values marginal and leaves the breaches alone.
    "marginal_band": Row(" ".join(rule for rule, row in RULES.items() if row["manner"] == "LOUD")),
}

# Rules that few pairs move: of these each must move in some row, not in every one.
SELDOM = set(f"{AC_CABLE} {RISE} {ARRAY_WINDOW} busbar dc_drop isolator_poles "
             "isolator_rated_voltage isolator_voltage array_device ac_device "
             "phase_total".split())

# No number moves these: they judge answers, and whether data are there.
STEADY = {"isolator_of_standard", "isolator_seen", "given_isolator", "given_cable",
          "given_module", "given_input", "given_inverter", "given_site",
          "given_array"}
TOLD = STEADY.union(*(" ".join(row[:3]).split() for name, row in [*ROWS.items(),
                      *FIGURE_ROWS.items()] if name != "marginal_band"))

RANK = {"meets": 0, "marginal": 1, "exceeds": 2}


def direction_faults(low, high, row, counts, name):
    """Findings before and after a value was raised, against its row."""
    worse, better, either, gap = (set(part.split()) for part in row)
    for key in low.keys() | high.keys():
        rule = key[0]
        if rule not in TOLD or rule in either:
            continue
        # A rule that is quiet or does not apply stands for nothing broken.
        before, after = (answers.get(key, QUIET) for answers in (low, high))
        counts["pairs"] += 1
        if before[:4] == after[:4]:
            continue
        said = f"{name} raised, {key}: {before[:4]} -> {after[:4]}"
        if rule not in worse and rule not in better:
            yield said + " must not notice"
            continue
        if "not_assessed" in (before[0], after[0]):
            if rule not in gap:
                yield said + " makes or mends a gap"
            continue
        step = RANK[after[0]] - RANK[before[0]]
        counts["verdicts"] += step != 0
        if None not in (before[1], after[1]) and not close(before[3], after[3]):
            # The margin tells even where the verdict stays.
            step = step or (1 if after[3] < before[3] else -1)
        counts[name, rule] += step != 0
        if step * (1 if rule in worse else -1) < 0:
            yield said + " goes the wrong way"


QUIET = ("meets", None, None, None)


def findings(job, rules):
    return Answers(job, rules).findings()


def raised(kind, name, value, r):
    """A higher value of its table range, or the same where there is none."""
    row = PARAMETERS[kind][name] if kind != "figure" else FIGURES[name]
    if row["type"] == "COUNT":
        value += r.choice([1, 1, 2, 5])
    elif row.get("unit") == "°C" or value == 0 or r.random() < 0.2:
        value += r.choice([0.01, 0.5, 3, 12])
    else:
        value += abs(value) * r.choice([1e-6, 1e-3, 0.03, 0.2, 1])
    return min(value, int(row["high"]) if row["type"] == "COUNT" else float(row["high"]))


def lowered(kind, name, value, r):
    row = PARAMETERS[kind][name] if kind != "figure" else FIGURES[name]
    if row["type"] == "COUNT":
        value -= r.choice([1, 1, 2, 5])
    elif row.get("unit") == "°C" or r.random() < 0.2:
        value -= r.choice([0.01, 0.5, 3, 12])
    else:
        value -= abs(value) * r.choice([1e-6, 1e-3, 0.03, 0.2, 0.5])
    return max(value, int(row["low"]) if row["type"] == "COUNT" else float(row["low"]))


def kind_of_module(node):
    return {"cell": "crystalline_silicon", **node, "name": None}


def nodes_of(job, kind, r):
    """The places that hold one value: a module type may stand in many arrays."""
    arrays, site = job["arrays"], job["site"]
    array = r.choice(arrays) if arrays else None
    if kind == "site":
        return [site]
    if kind == "plane" and site["planes"]:
        used = array and array.get("plane")
        return [site["planes"][used if used is not None else r.randrange(len(site["planes"]))]]
    if kind == "inverter":
        return [r.choice(job["inverters"])]
    if kind == "input":
        if array and r.random() < 0.9:
            return [job["inverters"][array.get("inverter", 0)]["inputs"][array["input"]]]
        return [r.choice(r.choice(job["inverters"])["inputs"])]
    if kind == "array" and array:
        return [array]
    if kind in ("cable", "isolator") and job[kind + "s"]:
        return [r.choice(job[kind + "s"])]
    if kind == "module" and array:
        mine = kind_of_module(array["module"])
        return [a["module"] for a in arrays if kind_of_module(a["module"]) == mine]
    return []


def thicken(cable):
    """Makes a cable one standard size larger, if it has such a size."""
    if cable.get("conductor") == "awg" and cable.get("gauge") in GAUGES[:-1]:
        cable["gauge"] = GAUGES[GAUGES.index(cable["gauge"]) + 1]
        return True
    sizes = [float(row[0]) for row in CONDUCTORS["mm2"]]
    if cable.get("conductor") in (None, "awg") or cable.get("section") not in sizes[:-1]:
        return False
    cable["section"] = sizes[sizes.index(cable["section"]) + 1]
    return True


def pair_of(job, name, r):
    """(job, the same with one value raised), or None where there is none."""
    low, high = copy.deepcopy(job), copy.deepcopy(job)
    if name == "another array":
        if not job["arrays"]:
            return None
        high["arrays"].append(copy.deepcopy(r.choice(high["arrays"])))
        return low, high
    if name == "a thicker cable":
        return (low, high) if high["cables"] and thicken(r.choice(high["cables"])) else None
    kind, parameter = name.split(".")
    state = r.getstate()
    nodes = nodes_of(high, kind, r)
    value = nodes[0].get(parameter) if nodes else None
    if value is None or value == "none":
        return None
    changed = high
    if r.random() < 0.5:
        other = raised(kind, parameter, value, r)
    else:
        other = lowered(kind, parameter, value, r)
        r.setstate(state)
        nodes, changed = nodes_of(low, kind, r), low
    if other == value:
        return None
    types = len({repr(sorted(kind_of_module(a["module"]).items(), key=str))
                 for a in job["arrays"]})
    for node in nodes:
        node[parameter] = other
    if kind == "module" and types != len(
            {repr(sorted(kind_of_module(a["module"]).items(), key=str))
             for a in changed["arrays"]}):
        return None  # two types became one
    return low, high


def check_directions(seed, counts):
    r = random.Random(f"directions {seed}")
    # Of plausible data only: a negative voltage grows the other way.
    job, rules = job_of(4 * seed + r.randrange(2)), rules_on(seed)
    handle = library_rules(rules)
    names = list(ROWS)
    for n in range(3):
        name = names[(3 * seed + n) % len(names)]
        pair = pair_of(job, name, r)
        if pair is None:
            continue
        counts["made", name] += 1
        low, high = (findings(part, handle) for part in pair)
        if name == "another array":  # it has findings of its own
            new = len(job["arrays"])
            high = {key: found for key, found in high.items() if key[1:] != ("array", (new,))}
        yield from direction_faults(low, high, ROWS[name], counts, name)


def check_figures(seed, counts):
    r = random.Random(f"figures {seed}")
    job, rules = job_of(4 * seed + r.randrange(2)), rules_on(seed)
    low, high = library_rules(rules), library_rules(rules)
    for n in range(2):
        name = list(FIGURE_ROWS)[(2 * seed + n) % len(FIGURE_ROWS)]
        value = low.figure(name)
        if value is None:
            continue
        r.choice([lambda: high.set_figure(name, raised("figure", name, value, r)),
                  lambda: low.set_figure(name, lowered("figure", name, value, r))])()
        counts["made", name] += 1
        yield from direction_faults(findings(job, low), findings(job, high),
                                    FIGURE_ROWS[name], counts, name)
        low, high = library_rules(rules), library_rules(rules)


def told_pairs(rows):
    return [(name, rule) for name, row in rows.items() for rule in f"{row[0]} {row[1]}".split()]


# -- severities ---------------------------------------------------------------

def severity_faults(before, after, severities):
    for key in before.keys() | after.keys():
        severity = severities[key[0]]
        if (key in after) != (severity != "off" and key in before):
            yield f"{severity} {key}: {before.get(key)} -> {after.get(key)}"
        elif key in after and after[key] != (*before[key][:4], severity, before[key][5]):
            yield f"{severity} {key}: {before[key]} -> {after[key]}"


def every_quantity(answers):
    """{(name, kind, identity): value}; None where there is none."""
    return {(name, *answers.identity(n)): answers.report.quantity(name, subject=n)
            for n, subject in enumerate(answers.subjects)
            for name, row in QUANTITIES.items() if row["scope"] == subject.kind}


def check_severities(seed, counts):
    r = random.Random(f"severities {seed}")
    job, rules = job_of(seed), rules_on(seed)
    before = Answers(job, library_rules(rules))
    severities = {rule: r.choice(["off", "note", "should", "must"]) for rule in RULES}
    after = Answers(job, library_rules(dict(rules, severity=severities)))
    found = before.findings(), after.findings()
    yield from severity_faults(*found, severities)
    counts["findings"] += len(found[1])
    if every_quantity(before) != every_quantity(after):
        yield "the severities change a quantity"


# -- outcome ------------------------------------------------------------------

def outcome_of(found):
    must = {f[0] for f in found if f[4] == "must"}
    if not found:
        return "nothing"
    if "exceeds" in must:
        return "broken"
    return "incomplete" if "not_assessed" in must else "holds"


def check_outcome(seed, counts):
    """Rules that break or lack data are made milder, or are switched off, until
    every outcome comes up."""
    r = random.Random(f"outcome {seed}")
    job, (rules, _), found = job_of(seed), rules_of(seed), {}
    for how in ("as it is", "milder", "milder still", "all off but few"):
        if how.startswith("milder"):
            bad = ["exceeds"] if how == "milder" else ["exceeds", "not_assessed"]
            severity = {key[0]: r.choice(["note", "should", "off"])
                        for key, answer in found.items() if answer[0] in bad}
        elif how != "as it is":
            severity = dict.fromkeys(RULES, "off")
            severity.update({rule: "must" for rule in r.sample(sorted(RULES), 3)})
        else:
            severity = {}
        rules = dict(rules, severity={**rules["severity"], **severity})
        answers = Answers(job, library_rules(rules))
        found = answers.findings()
        expected = outcome_of(found.values())
        counts[expected] += 1
        if answers.report.outcome != expected:
            yield f"{how}: {answers.report.outcome}, by the findings {expected}"


# -- one array as two, order, labels, round trips ------------------------------

def close(a, b):
    """Equal but for the order of a sum."""
    if a is None or b is None:
        return a is b
    return abs(a - b) <= 1e-12 * max(abs(a), abs(b))


def likeness(name):
    """What counts arrays, or compares those that share an input."""
    return name in LIKENESS.split() or name in (
        "input_arrays", "input_used", "input_voc_difference", "input_length_difference",
        "input_module_types", "input_planes")


def kept(answers, wanted, rename=lambda kind, identity: identity):
    """Findings and quantities that `wanted` lets through, by renamed subjects."""
    found = {(rule, kind, rename(kind, identity)): rest
             for (rule, kind, identity), rest in answers.findings().items()
             if wanted(rule, kind)}
    values = {(name, kind, rename(kind, identity)): value
              for (name, kind, identity), value in every_quantity(answers).items()
              if wanted(name, kind)}
    return found, values


def unlike(one, other, rules):
    """Differences that no rounding of sums explains."""
    (found, values), (others, other_values) = one, other
    for key in values.keys() | other_values.keys():
        if key not in values or key not in other_values or not close(
                values[key], other_values[key]):
            yield f"{key}: {values.get(key)} and {other_values.get(key)}"
    for key in found.keys() | others.keys():
        a, b = found.get(key), others.get(key)
        # Of several gaps the first is named: which one, the order tells.
        if a is not None and b is not None and close(a[1], b[1]) and close(a[2], b[2]) and (
                a[4] == b[4]) and (a[0] == b[0] or a[1] is not None and edge(
                    key[0], a[1], a[2], rules)):
            continue
        shown = a or b
        if (a is None or b is None) and shown[1] is not None and edge(
                key[0], shown[1], shown[2], rules):
            continue  # a quiet rule, just at its limit
        yield f"{key}: {a} and {b}"


def split(job, r):
    """The job with the strings of one array shared out to two, or None."""
    many = [a for a, array in enumerate(job["arrays"]) if (array.get("strings") or 0) > 1]
    if not many:
        return None
    other = copy.deepcopy(job)
    a = r.choice(many)
    half = copy.deepcopy(other["arrays"][a])
    half["strings"] = r.randrange(1, half["strings"])
    other["arrays"][a]["strings"] -= half["strings"]
    other["arrays"].append(half)
    return other


def check_split(seed, counts):
    r = random.Random(f"split {seed}")
    job, rules = without_cables(job_of(seed)), rules_on(seed)
    other = split(job, r)
    if other is None:
        return
    handle = library_rules(rules)
    counts["jobs"] += 1

    def wanted(name, kind):
        return kind not in ("array", "module") and not likeness(name)
    one, two = (kept(Answers(j, handle), wanted) for j in (job, other))
    counts["values"] += len(one[1])
    counts["findings"] += len(one[0])
    yield from unlike(one, two, rules)


def check_order(seed, counts):
    r = random.Random(f"order {seed}")
    job, rules = job_of(seed), rules_on(seed)
    if len(job["arrays"]) < 2:
        return
    handle = library_rules(rules)
    order = list(range(len(job["arrays"])))
    r.shuffle(order)
    counts["jobs"] += 1
    counts["moved"] += order != sorted(order)
    cables = [dict(cable, array=order.index(cable["array"])) if "array" in cable else cable
              for cable in job["cables"]]
    isolators = [dict(isolator, array=order.index(isolator["array"]))
                 if "array" in isolator else isolator for isolator in job["isolators"]]
    other = dict(job, arrays=[job["arrays"][a] for a in order], cables=cables,
                 isolators=isolators)
    types = Model(job, {"figures": {}, "severity": {}})
    first = {}
    for a in range(len(order)):
        first.setdefault(types.module_type(a), a)

    def back(kind, identity):
        if kind == "array":
            return (order[identity[0]],)
        return (first[types.module_type(order[identity[0]])],) if kind == "module" else identity

    def wanted(name, kind):
        return True
    one, two = kept(Answers(job, handle), wanted), kept(Answers(other, handle), wanted, back)
    counts["values"] += len(one[1])
    counts["findings"] += len(one[0])
    yield from unlike(one, two, rules)


# What a template, a format or a parser might take for its own.
NASTY = ["{Voc}", "{}", "%s %d", "100 %", "a = b = 1", "N × 3", "[x]", "(", "°ß中", "\\n",
         "array 1", "x" * 200, "input 1 of inverter 1 (A)", "<b>&amp;</b>", "*_`|`_*", ": "]


def named(job, name):
    """The job with every label made by name(i)."""
    job, i = copy.deepcopy(job), 0
    for node in [job["site"], *job["site"]["planes"], *job["inverters"],
                 *(k for inverter in job["inverters"] for k in inverter["inputs"]),
                 *job["arrays"], *(array["module"] for array in job["arrays"]),
                 *job["cables"], *job["isolators"]]:
        node["name"] = name(i)
        i += 1
    return job


def check_labels(seed, counts):
    r = random.Random(f"labels {seed}")
    job, handle = job_of(seed), library_rules(rules_on(seed))
    plain = named(job, lambda i: f"LABEL{i}.")
    labels = {}
    other = named(job, lambda i: labels.setdefault(f"LABEL{i}.", r.choice(NASTY)))
    one, two, unnamed = (Answers(j, handle) for j in (
        plain, other, named(job, lambda i: None)))
    if not one.findings() == two.findings() == unnamed.findings():
        yield "labels change a finding"
    if not every_quantity(one) == every_quantity(two) == every_quantity(unnamed):
        yield "labels change a quantity"
    text = re.sub(r"LABEL\d+\.", lambda m: labels[m.group()], one.report.render(working=True))
    counts["labels"] += len(labels)
    if text != two.report.render(working=True):
        lines = zip(text.splitlines(), two.report.render(working=True).splitlines())
        yield "labels change the text: " + str(next(((a, b) for a, b in lines if a != b), "length"))


def texts(report):
    return [report.render(markdown, working) for markdown in (False, True)
            for working in (False, True)]


used = pvsize.Report()  # filled again and again, by systems of every size


def check_again(seed, counts):
    spec, handle = system(job_of(seed)), library_rules(rules_of(seed)[0])
    expected = texts(pvsize.check(spec, handle))
    counts["characters"] += len(expected[3])
    rebuilt = pvsize.System(**spec.to_dict())
    for how, report in (("checked again", lambda: pvsize.check(spec, handle)),
                        ("from to_dict()", lambda: pvsize.check(rebuilt, handle)),
                        ("copied", lambda: pvsize.check(spec.copy(), handle.copy())),
                        ("in a used report", lambda: pvsize.check(spec, handle, used)),
                        ("in it again", lambda: pvsize.check(spec, handle, used))):
        if texts(report()) != expected:
            yield f"{how}, the text is another"
    if rebuilt.to_dict() != spec.to_dict():
        yield "to_dict() does not come back"


# -- counts at their bounds ---------------------------------------------------

class Bound(NamedTuple):
    quantity: str
    parameter: str
    rules: tuple
    step: int  # towards the breach


BOUNDS = [
    Bound("string_modules_max", "modules_per_string",
          ("voc_cold_input", "voc_cold_module", "voc_cold_building"), 1),
    Bound("string_modules_min", "modules_per_string", ("vmp_hot_tracking",), -1),
    Bound("input_strings_max", "strings", ("isc_input",), 1),
    Bound("input_strings_lossless", "strings", ("operating_current",), 1),
]


def bound_faults(bound, claimed, broken_at, counts):
    """broken_at(n) says whether one of the rules is broken at this count."""
    row = PARAMETERS["array"][bound.parameter]
    for n, expected in ((claimed, False), (claimed + bound.step, True)):
        if row["low"] <= n <= row["high"]:
            counts[bound.quantity, expected] += 1
            if broken_at(n) != expected:
                yield (f"{bound.quantity} {claimed}: at {n} its rules are "
                       f"{'kept' if expected else 'broken'}")


def found_with(job, handle, **values):
    """Findings on a job of one array, that array's values changed."""
    return findings(dict(job, arrays=[dict(job["arrays"][0], **values)]), handle)


def breaks(found, rules):
    return any(key[0] in rules and answer[0] == "exceeds" for key, answer in found.items())


def check_bounds(seed, counts):
    r = random.Random(f"bounds {seed}")
    job, handle = job_of(seed), library_rules(rules_on(seed))
    if not job["arrays"]:
        return
    # These quantities speak of an array alone on its input.
    alone = dict(without_cables(job), arrays=[r.choice(job["arrays"])])
    array = alone["arrays"][0]
    report = Answers(alone, handle).report
    for bound in BOUNDS:
        claimed = report.quantity(bound.quantity)
        if claimed is not None and array.get(bound.parameter) is not None:
            yield from bound_faults(bound, int(claimed), lambda n: breaks(found_with(
                alone, handle, **{bound.parameter: n}), bound.rules), counts)
    limit = report.quantity("string_voltage_limit")
    known = [found[2] for key, found in findings(alone, handle).items()
             if key[0] in BOUNDS[0].rules and found[2] is not None]
    if limit is not None and known:
        counts["voltage limits"] += 1
        if min(known) != limit:
            yield f"string_voltage_limit {limit}, the limits are {known}"
    limit = report.quantity("module_isc_limit")
    for factor, expected in ((1, False), (1 + 1e-6, True)):
        if limit is not None and 0.01 <= limit * factor <= 200:
            counts["module_isc_limit", expected] += 1
            module = dict(array["module"], isc=limit * factor)
            if breaks(found_with(alone, handle, module=module), ("isc_input",)) != expected:
                yield f"module_isc_limit {limit} is not the edge of isc_input"


# -- the smallest that fits, by trying all --------------------------------------

def device_rules(rules, name):
    strict = rules["figures"].get(name + "_low_strict") == 1
    return {name + ("_low_strict" if strict else "_low"), name + "_high"}


def smallest_fault(job, handle, told, claimed, sizes, fit, about, counts):
    """The first of the sizes at which no rule is broken is the claimed one."""
    def fits(value):
        fit(value)
        found = findings(job, handle)
        here = {key[0]: answer[0] for key, answer in found.items()
                if key[0] in told and (key[1:] in about)}
        return "exceeds" not in here.values() and here.get("cable_capacity") != "not_assessed"

    expected = next((value for value in sizes if fits(value)), 0)
    counts[min(told), expected > 0] += 1
    if claimed != expected:
        yield f"{sorted(told)} of {about}: claimed {claimed}, the first that fits {expected}"


def check_smallest(seed, counts):
    r = random.Random(f"smallest {seed}")
    job, rules = copy.deepcopy(job_of(seed)), rules_on(seed)
    handle, figures = library_rules(rules), rules["figures"]
    report = Answers(job, handle)
    for kind, parameter, quantity, series in (
            ("array", "string_device", "string_device_rating", "device_series"),
            ("array", "array_device", "array_device_rating", "device_series"),
            ("inverter", "ac_device", "ac_device_rating", "ac_device_series")):
        if not job[kind + "s"] or series not in figures:
            continue
        at = r.randrange(len(job[kind + "s"]))
        claimed = report.report.quantity(quantity, subject=report.numbers[kind, (at,)])
        if claimed is None:
            continue
        told = {"ac_device"} if kind == "inverter" else device_rules(
            rules, parameter.replace("string_", ""))
        other = copy.deepcopy(job)
        yield from smallest_fault(
            other, handle, told, claimed, DEVICE_RATINGS[int(figures[series]) - 1],
            lambda value: other[kind + "s"][at].update({parameter: float(value)}),
            [(kind, (at,))], counts)
    yield from check_smallest_cable(job, handle, report, r, counts)


def check_smallest_cable(job, handle, report, r, counts):
    if not job["cables"]:
        return
    c = r.randrange(len(job["cables"]))
    cable = job["cables"][c]
    claimed = report.report.quantity("cable_smallest", subject=report.numbers["cable", (c,)])
    if claimed is None or not cable.get("length"):
        return
    owner = (("inverter", (cable.get("inverter", 0),)) if cable["circuit"] == "ac"
             else ("array", (cable["array"],)))
    if cable["conductor"] == "awg":
        sizes, name = GAUGES, "gauge"
        claimed = claimed and min(GAUGES, key=lambda gauge: abs(float(
            CONDUCTORS["awg"][GAUGES.index(gauge)][0]) * 0.000506707479 - claimed))
    else:
        sizes, name = [float(row[0]) for row in CONDUCTORS["mm2"]], "section"
    other = copy.deepcopy(job)
    if name == "gauge":  # 0 is a gauge as well as no answer
        sizes = [99 if gauge == 0 else gauge for gauge in sizes]
        claimed = 99 if claimed == 0 and report.report.quantity(
            "cable_smallest", subject=report.numbers["cable", (c,)]) else claimed
    yield from smallest_fault(
        other, handle, {*AC_CABLE.split(), "dc_drop", "ac_rise"}, claimed, sizes,
        lambda value: other["cables"][c].update({name: 0 if value == 99 else value}),
        [("cable", (c,)), owner], counts)


# -- working, computed again ---------------------------------------------------

DIGITS = 7  # what is not exact is printed to, in steps
SHORT = 5  # and in verdicts
GUARD = Fraction(1, 10**9)  # of the library's counts
UNIT = r"(?:%/K|V/K|A/K|VA|V|A|W/m2|W|%|K|°C|ohm/km|Mohm|mm2|m)"
NUMBER = r"\d+(?:\.\d+)?(?:e-?\d+)?"
VALUE = re.compile(rf"(-?{NUMBER})(?: ({UNIT}))?")
BRACKETED = re.compile(rf"\((-{NUMBER}(?: {UNIT})?)\)")
OPERATORS = re.compile(r"( × | / | \+ | - |, |\(|\))")


class Amount(NamedTuple):
    """What a printed number stands for: itself, or anything that rounds to it."""
    low: Fraction
    shown: Fraction
    high: Fraction


def half_unit(value, digits=DIGITS):
    """Half a unit in the last place that is printed."""
    if value == 0:
        return Fraction(0)
    place = 0
    while abs(value) >= Fraction(10) ** (place + 1):
        place += 1
    while abs(value) < Fraction(10) ** place:
        place -= 1
    return Fraction(10) ** (place - digits + 1) / 2


def printed_within(value):
    """A tie may fall either way by the last bits."""
    return half_unit(value) + abs(value) / 10**13


def bare(text):
    """Without units; what had one ends in a point, if in nothing else."""
    def one(m):
        return m.group(1) + ("." if m.group(2) and m.group(1).strip("-").isdigit() else "")
    return VALUE.sub(one, text)


def amount(text, digits=DIGITS):
    value = Fraction(text)
    # A whole number without a unit is a count or a constant; more digits are exact.
    exact = "." not in text or len(text.replace(".", "").lstrip("0")) > digits
    slack = 0 if exact else half_unit(value, digits)
    return Amount(value - slack, value, value + slack)


def spanned(function, *amounts):
    """A function of each argument monotone, over the amounts."""
    ends = [[]]
    for a in amounts:
        ends = [end + [x] for end in ends for x in (a.low, a.high)]
    values = [function(*end) for end in ends]
    return Amount(min(values), function(*(a.shown for a in amounts)), max(values))


def absolute(a):
    if a.low < 0 < a.high:
        return Amount(Fraction(0), abs(a.shown), max(-a.low, a.high))
    return spanned(abs, a)


def whole(round_, sign):
    """Just beyond a whole number is rounding, and counts as on it."""
    def result(a):
        values = [Fraction(round_(x + s * GUARD * abs(x))) for x in a for s in (0, sign)]
        return Amount(min(values), Fraction(round_(a.shown + sign * GUARD * abs(a.shown))),
                      max(values))
    return result


FUNCTIONS = {"min": lambda *a: spanned(min, *a) if len(a) < 6 else extreme(min, a),
             "max": lambda *a: spanned(max, *a) if len(a) < 6 else extreme(max, a),
             "sqrt": lambda a: spanned(lambda x: Fraction(sqrt(x)), a),
             "abs": absolute, "floor": whole(floor, 1), "ceil": whole(ceil, -1)}
ARITHMETIC = {ast.Add: lambda a, b: a + b, ast.Sub: lambda a, b: a - b,
              ast.Mult: lambda a, b: a * b, ast.Div: lambda a, b: a / b}


def extreme(pick, amounts):
    return Amount(*(pick(a[i] for a in amounts) for i in range(3)))


def computed(text):
    """The substitution worked out: numbers, + - × / and some functions, no more."""
    text = bare(text).replace("×", "*")

    def value(node):
        if isinstance(node, ast.Expression):
            return value(node.body)
        if isinstance(node, ast.Constant):
            return amount(ast.get_source_segment(text, node))
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            a = value(node.operand)
            return Amount(-a.high, -a.shown, -a.low)
        if isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC:
            return spanned(ARITHMETIC[type(node.op)], value(node.left), value(node.right))
        if isinstance(node, ast.Call) and not node.keywords and node.func.id in FUNCTIONS:
            return FUNCTIONS[node.func.id](*(value(a) for a in node.args))
        raise SyntaxError(ast.dump(node))
    return value(ast.parse(text, mode="eval"))


def shape(text, values):
    """The formula with a mark for each symbol or number."""
    text = (BRACKETED.sub(r"\1", text) if values else re.sub(r"\[[^\]]*\]", "", text))
    return "".join(part if OPERATORS.fullmatch(part) or part in FUNCTIONS or not part else "#"
                   for part in OPERATORS.split(text))


STEP = re.compile(r"(?P<symbol>\S+) = (?P<body>.*?)(?P<note> \((?!-\d)[^=]*\))?$")
ANSWER = re.compile(r"(yes|no)")


def step_faults(line, counts):
    """A line of the working without its subject: X = formula = numbers = result."""
    found = STEP.fullmatch(line)
    if not found:
        yield f"not a step: {line}"
        return
    *formulas, result = found.group("body").split(" = ")
    if ANSWER.fullmatch(result):
        counts["answers"] += 1
        return
    printed = VALUE.fullmatch(result)
    if not printed or len(formulas) > 2:
        yield f"not a result: {line}"
    elif not formulas:
        counts["given"] += 1
    elif len(formulas) == 1:  # one symbol, whose number is the result
        counts["named"] += 1
        if shape(formulas[0], False) != "#":
            yield f"no numbers: {line}"
    else:
        counts["computed"] += 1
        formula, numbers = formulas
        if shape(formula, False) != shape(numbers, True):
            yield f"{shape(formula, False)} is not {shape(numbers, True)}: {line}"
        got, shown = computed(numbers), Fraction(printed.group(1))
        slack = printed_within(shown)
        counts["to the digit"] += abs(got.shown - shown) <= slack
        if not got.low - slack <= shown <= got.high + slack:
            yield f"{float(got.shown)}: {line}"


STATED = re.compile(rf"\S+ = (?:{VALUE.pattern}|yes|no): \S.*")
VERDICT = re.compile(rf"({VALUE.pattern}), (at most|at least|more than) ({VALUE.pattern}): "
                     r"(meets|marginal|exceeds|falls short)")


def line_faults(line, subjects, counts):
    """A line of any working: a step, a number and where it is from, a verdict."""
    start = next((s for s in subjects if line.startswith(s)), None)
    verdict = VERDICT.fullmatch(line)
    if start:
        yield from step_faults(line[len(start):], counts)
    elif STATED.fullmatch(line):
        counts["stated"] += 1
    elif verdict:
        counts["verdicts"] += 1
        value, limit = (amount(bare(verdict.group(n)), SHORT) for n in (1, 5))
        above = 1 if verdict.group(4) == "at most" else -1
        margins = [above * (a - b) for a in (limit.low, limit.high)
                   for b in (value.low, value.high)]
        tolerance = GUARD * (abs(limit.shown) or 1)
        broken = verdict.group(8) == ("exceeds" if above > 0 else "falls short")
        edge_ = tolerance if verdict.group(4) == "more than" else -tolerance
        if min(margins) > edge_ if broken else max(margins) < -tolerance:
            yield f"by its numbers not so: {line}"
    elif line not in ("yes: meets", "no: falls short"):
        yield f"not understood: {line}"


# In the long form each step has a head line; below it the equation, then the symbols.
MEANING = re.compile(rf"(?P<name>\S+(?:\[.*?\])?) = (?P<value>{VALUE.pattern}|[a-z_0-9]+): "
                     r"(?P<what>.+?); (?P<origin>\S.*)")
UNEXPLAINED = "a number of the step"
ROUNDING = "rounding: "


def filled_in(formula, meanings):
    """The formula with each name replaced by its value, negative ones in brackets."""
    values = {name: f"({value})" if value.startswith("-") else value
              for name, value in meanings}
    names = "|".join(re.escape(name) for name in sorted(values, key=len, reverse=True))
    return re.sub(rf"(?:^|(?<=[ (]))({names})(?=$|[ )]|, )", lambda m: values[m.group(1)],
                  formula) if names else formula


def like(result, value):
    """Whether a value comes to a result when it is rounded for print."""
    a, b = (VALUE.fullmatch(text) for text in (result, value))
    if not a or not b:
        return False
    # W may stand in for VA that are not known, as at a power factor of 1
    return (a.group(2) or "").replace("VA", "W") == (b.group(2) or "").replace("VA", "W") and abs(
        Fraction(a.group(1)) - Fraction(b.group(1))) <= printed_within(Fraction(b.group(1)))


def long_step_faults(head, equation, below, subjects, counts):
    """A step with its symbols: the equation by itself, and its numbers by their names."""
    if not any(head.startswith(s) for s in subjects):
        yield f"no subject: {head}"
    yield from step_faults(equation, counts)
    meanings = []
    for line in below:
        found = MEANING.fullmatch(line)
        if not found or UNEXPLAINED in line:
            yield f"no meaning: {line}"
            continue
        counts["meanings"] += 1
        meanings.append((found.group("name"), found.group("value")))
    parts = re.sub(r" \((?!-\d)[^=]*\)$", "", equation).split(" = ")
    if not meanings:
        yield f"no symbols: {equation}"
    elif len(parts) == 4 and filled_in(parts[1], meanings) != parts[2]:
        yield f"by its symbols {filled_in(parts[1], meanings)}: {equation}"
    elif len(parts) < 4 and not ANSWER.fullmatch(parts[-1]) and not like(parts[-1], meanings[0][1]):
        yield f"not {meanings[0]}: {equation}"


def outline(text, markdown):
    """(depth, line) of working, without the marks of its format."""
    for line in text.splitlines():
        bare_line = line.lstrip(" ")
        depth = len(line) - len(bare_line)
        if markdown:
            if not bare_line.startswith("- "):
                yield -1, line
            bare_line = re.sub(r"\\(.)", r"\1", bare_line[2:])
        yield depth, bare_line


def working_faults(text, markdown, detail, subjects, counts):
    """Every line of some working; the steps in it, by themselves, in the order printed."""
    lines = list(outline(text, markdown))
    top = min((depth for depth, _ in lines), default=0)
    at = 0
    while at < len(lines):
        line = lines[at][1]
        below = at + 1
        while below < len(lines) and lines[below][0] > top:
            below += 1
        counts["lines"] += below - at
        counts[f"{detail} {'Markdown' if markdown else 'plain'}"] += 1
        if line.startswith(ROUNDING):
            counts["rounding"] += 1
        elif detail == "long" and line.startswith("rule "):
            counts["rules"] += 1
        elif detail == "long" and below > at + 1:
            yield from long_step_faults(line, lines[at + 1][1],
                                        [text for _, text in lines[at + 2:below]], subjects, counts)
        elif below > at + 1:
            yield f"below a short step: {lines[at + 1][1]}"
        else:
            yield from line_faults(line, subjects, counts)
        at = below
    if detail == "long" and sum(line.startswith(ROUNDING) for _, line in lines) != 1:
        yield f"the rounding is not told once: {text}"


def equations(text, markdown, detail, subjects):
    """The steps alone, without subjects: the same in every form and format."""
    for depth, line in outline(text, markdown):
        start = next((s for s in subjects if line.startswith(s)), None)
        if detail == "short" and start:
            yield line[len(start):]
        elif detail == "long" and start:
            wanted = True
            continue
        elif detail == "long" and depth and wanted:
            yield line
        wanted = False


def result_faults(steps, value, unit, counts):
    """The last step of a quantity's working ends in its value."""
    last = re.sub(r" \((?!-\d)[^=]*\)$", "", steps[-1])
    printed = VALUE.fullmatch(last.rpartition(" = ")[2])
    counts["results"] += 1
    if not printed or (printed.group(2) or "") != unit or abs(
            Fraction(printed.group(1)) - number(value)) > printed_within(number(value)):
        yield f"{value} {unit} is not in: {steps[-1]}"


FORMS = [(markdown, detail) for markdown in (False, True) for detail in ("short", "long")]
TEXTS = {(False, "short"): "working", (True, "short"): "working_markdown",
         (False, "long"): "working_long", (True, "long"): "working_long_markdown"}


def quantity_faults(report, name, row, n, subjects, counts):
    """The working of one quantity in every form; all tell the same steps."""
    told = set()
    for markdown, detail in FORMS:
        text = report.working(name, subject=n, markdown=markdown, detail=detail)
        yield from working_faults(text, markdown, detail, subjects, counts)
        steps = list(equations(text, markdown, detail, subjects))
        told.add(tuple(steps))
        if row["type"] != "ANSWER":
            yield from result_faults(steps, report.quantity(name, subject=n), row["unit"], counts)
    if len(told) != 1:
        yield f"{name}: the forms tell unlike steps: {told}"


def check_working(seed, counts):
    r = random.Random(f"working {seed}")
    job, (rules, _) = job_of(seed), rules_of(seed)
    report = Answers(job, library_rules(rules)).report
    subjects = sorted((s.text + ": " for s in report.subjects()), key=len, reverse=True)
    for markdown, detail in FORMS:
        text = report.render(markdown, detail)
        text = text.partition("\n## working\n\n" if markdown else "\n== working\n")[2]
        yield from working_faults(text, markdown, detail, subjects, counts)
        if text.count(ROUNDING) != 1:
            yield "the rounding is not told once"
    for n in r.sample(range(len(report)), min(12, len(report))):
        counts["findings"] += 1
        for markdown, detail in FORMS:
            yield from working_faults(report.text(n, TEXTS[markdown, detail]), markdown, detail,
                                      subjects, counts)
    for name, row in r.sample(sorted(QUANTITIES.items()), 11):
        for n, subject in enumerate(report.subjects()):
            if row["scope"] == subject.kind and report.quantity(name, subject=n) is not None:
                yield from quantity_faults(report, name, row, n, subjects, counts)


# -- tests --------------------------------------------------------------------

def shares(check, share, *wanted):
    """Runs a check over its share of the jobs; each of `wanted` must have come up."""
    counts, faults = spread(check, range(max(1, int(JOBS * share))))
    print(check.__name__, dict(counts))
    none(faults)
    if ENOUGH:
        assert all(counts[name] >= least for name, least in wanted), dict(counts)
    return counts


def test_rows_name_rules():
    for name, row in [*ROWS.items(), *FIGURE_ROWS.items()]:
        assert set(" ".join(row).split()) <= set(RULES), name
    assert STEADY <= set(RULES) and set(FIGURE_ROWS) <= set(FIGURES)


@pytest.mark.parametrize("check, rows", [(check_directions, ROWS), (check_figures, FIGURE_ROWS)])
def test_raising_a_value(check, rows):
    counts = shares(check, 0.65, ("pairs", 100000), ("verdicts", 200))
    # Where a rule moved, a row with its sides swapped would have failed.
    if ENOUGH:
        # Slips in data are too rare to ask for; the rises of the mountings are alike.
        still = [(name, rule) for name, rule in told_pairs(rows) if not counts[name, rule]
                 and not name.startswith(("marginal_band", "cell_rise"))
                 and rule not in SELDOM and rule not in BARE.split()
                 and rule != "isolator_distance"  # few rule sets have one
                 and not rule.startswith("data_")]
        # Few devices lie above the rating up to which they may be the next one.
        told = {rule for name, rule in told_pairs(rows) if name != "marginal_band"}
        for rule in (SELDOM - {"ac_device_cable"}) & told:
            assert sum(counts[name, rule] for name in rows), rule
        for rule in HOT.split() if rows is FIGURE_ROWS else []:
            assert sum(counts[name, rule] for name in rows if name.startswith("cell_rise")), rule
        assert not still, still


def test_severities_change_nothing_else():
    shares(check_severities, 0.12, ("findings", 12000))


def test_outcome_follows_from_the_findings():
    shares(check_outcome, 0.12, ("holds", 100), ("incomplete", 100), ("broken", 100),
           ("nothing", 15))


def test_an_array_may_be_split():
    shares(check_split, 0.12, ("jobs", 200), ("values", 15000), ("findings", 5000))


def test_order_of_arrays_does_not_matter():
    shares(check_order, 0.12, ("moved", 150), ("values", 40000), ("findings", 12000))


def test_labels_do_not_matter():
    shares(check_labels, 0.06, ("labels", 2000))


def test_the_same_text_again():
    shares(check_again, 0.1, ("characters", 5 * 10**6))


def test_counts_at_their_bounds():
    shares(check_bounds, 0.3, *(((bound.quantity, broken), 150) for bound in BOUNDS
                                for broken in (False, True)), ("voltage limits", 400),
           (("module_isc_limit", True), 400))


def test_the_smallest_is_the_first_that_fits():
    shares(check_smallest, 0.15, *(((rule, fits), 1) for rule in (
        "device_high", "array_device_high", "ac_device_cable") for fits in (False, True)))


def test_working_computes():
    counts = shares(check_working, 0.08, ("lines", 250000), ("computed", 60000),
                    ("verdicts", 3200), ("results", 8000), ("meanings", 100000), ("rules", 1600),
                    *((form, 20000) for form in ("short plain", "short Markdown", "long plain",
                                                 "long Markdown")))
    # The rest starts from numbers that were rounded for print.
    assert counts["to the digit"] > 0.97 * counts["computed"]


# -- flaws that were found so, and mended ---------------------------------------

def one_string(**module):
    """Ten modules on one input, on a cold site and a colder one."""
    sheet = {"pmax": 400, "voc": 40, "isc": 10.5, "vmp": 33.5, "imp": 10, **module}
    return {"site": {"temp_min": -40, "temp_max": 35},
            "inverters": [{"rated_ac_power": 5000, "inputs": [{
                "max_voltage": 490, "tracking_min": 80, "tracking_max": 430,
                "max_operating_current": 12, "max_short_circuit_current": 15}]}],
            "arrays": [{"input": 0, "modules_per_string": 10, "strings": 1, "module": sheet}]}


def colder(job, temperature):
    return dict(job, site=dict(job["site"], temp_min=temperature))


def test_colder_than_the_table():
    rules = pvsize.Rules("asnzs_5033_2021")
    rules.set_figure("voc_multiplier", 1.2)
    key = ("voc_cold_input", "array", (0,))
    cold, coldest = (findings(colder(one_string(), t), rules)[key] for t in (-40, -40.1))
    assert cold[0] == "exceeds" and coldest[0] == "not_assessed"


def test_vmp_that_rises_with_temperature():
    key = ("vmp_cold_tracking", "array", (0,))
    found = findings(one_string(vmp_coefficient=0.35), pvsize.Rules())
    assert found[key][0] not in ("meets", "marginal")


# -- the checks object to what is false ---------------------------------------

def some(check, jobs=40):
    """Faults of a check on the first jobs."""
    return run(check, range(jobs))[1]


def swapped(row):
    return Row(row.better, row.worse, row.either, row.gap)


def test_checks_see_a_wrong_direction(monkeypatch):
    monkeypatch.setitem(globals(), "ROWS", {name: swapped(row) for name, row in ROWS.items()})
    monkeypatch.setitem(globals(), "FIGURE_ROWS",
                        {name: swapped(row) for name, row in FIGURE_ROWS.items()})
    assert some(check_directions) and some(check_figures)


def test_checks_see_an_unrelated_rule(monkeypatch):
    monkeypatch.setitem(globals(), "ROWS", dict.fromkeys(ROWS, Row()))
    assert some(check_directions)


@pytest.mark.parametrize("check", [check_severities, check_split, check_order, check_labels])
def test_checks_see_another_answer(monkeypatch, check):
    """Every second report has one finding that is not as it was."""
    true, calls = Answers.findings, []

    def findings_(answers):
        found = true(answers)
        calls.append(1)
        for key in sorted(found, key=str) if len(calls) % 2 else []:
            if key[1] == "input" and found[key][1]:
                found[key] = (found[key][0], found[key][1] * (1 + 1e-9), *found[key][2:])
        return found
    monkeypatch.setattr(Answers, "findings", findings_)
    assert some(check)


@pytest.mark.parametrize("check", [check_severities, check_split, check_order, check_labels])
def test_checks_see_another_quantity(monkeypatch, check):
    true, calls = pvsize.Report.quantity, []

    def quantity(report, name, **where):
        value = true(report, name, **where)
        calls.append(1)
        return value * (1 + 1e-9) if value and len(calls) % 101 == 0 else value
    monkeypatch.setattr(pvsize.Report, "quantity", quantity)
    assert some(check)


def test_checks_see_another_text(monkeypatch):
    true, calls = pvsize.Report.render, []

    def render(*arguments, **more):
        calls.append(1)
        return true(*arguments, **more) + ("" if len(calls) % 7 else " ")
    monkeypatch.setattr(pvsize.Report, "render", render)
    assert some(check_labels) and some(check_again)


@pytest.mark.parametrize("off", [-1, 1])
@pytest.mark.parametrize("name", [bound.quantity for bound in BOUNDS])
def test_checks_see_a_count_beside_the_bound(monkeypatch, name, off):
    true = pvsize.Report.quantity

    def quantity(report, asked, **where):
        value = true(report, asked, **where)
        return value + off if asked == name and value is not None else value
    monkeypatch.setattr(pvsize.Report, "quantity", quantity)
    assert some(check_bounds)


@pytest.mark.parametrize("outcome", ["nothing", "holds", "incomplete", "broken"])
def test_checks_see_another_outcome(monkeypatch, outcome):
    monkeypatch.setattr(pvsize.Report, "outcome", outcome)
    assert some(check_outcome)


def test_checks_see_false_working():
    good = ["X = N × Voc,cold = 14 × 41.12 V = 575.68 V",
            "X = Voc × (1 + b / 100 × (T - 25)) = 40 V × (1 + (-0.28 %/K) / 100 × "
            "((-15 °C) - 25)) = 44.48 V",
            "X = floor(Umax / Voc[array 1 (a b)]) = floor(575.68 V / 41.12 V) = 14 (a note)",
            "X = max(a, b) = max(1.5 A, 2 A) = 2 A", "X = 5 V", "X = Y = 5 V", "X = yes"]
    for line in good:
        assert not list(step_faults(line, Counter())), line
    false = ["X = N × Voc,cold = 14 × 41.12 V = 575.67 V",
             "X = N × Voc,cold = 14 × 41.12 V = 575.6803 V",
             "X = N + Voc,cold = 14 × 41.12 V = 575.68 V",
             "X = N × Voc,cold × Y = 14 × 41.12 V = 575.68 V",
             "X = floor(a / b) = floor(580 V / 41.12 V) = 13",
             "X = ceil(a / b) = ceil(570 V / 41.12 V) = 15",
             "X = max(a, b) = max(1.5 A, 2 A) = 1.5 A", "X = a - b = 3 A - (-1 A) = 2 A",
             "X = N × Voc = 40 V", "X", "X = about 5 V"]
    for line in false:
        assert list(step_faults(line, Counter())), line
    for line in ["4 A, at most 5 A: exceeds", "6 A, at most 5 A: meets",
                 "5.1 A, at most 5 A: marginal", "5 V, at least 4 V: falls short",
                 "5 A, more than 4 A: falls short", "nonsense"]:
        assert list(line_faults(line, [], Counter())), line
    assert list(result_faults(["X = N = 5 V"], 5.01, "V", Counter()))
    assert list(result_faults(["X = N = 5 V"], 5, "A", Counter()))
    step = ["a: what X is", "  X = N × b = 2 × (-3 V) = -6 V",
            "  N = 2: modules; given for the array, array.n", "  b = -3 V: what b is; computed above"]
    text = "\n".join(step + [ROUNDING + "so"])
    assert not list(working_faults(text, False, "long", ["a: "], Counter()))
    for old, new in [("N = 2:", "N = 3:"), ("= -6", "= -7"), ("b = -3 V:", "c = -3 V:"),
                     ("; computed above", ""), ("a: what", "what"), (ROUNDING, "so: "),
                     ("what b is", UNEXPLAINED), ("× (-3 V)", "× (-4 V)")]:
        assert list(working_faults(text.replace(old, new, 1), False, "long", ["a: "],
                                   Counter())), new
    for text in ("__import__('os')", "a.b", "1 ** 2", "f(1)", "[1]"):
        with pytest.raises((SyntaxError, AttributeError, ValueError)):
            computed(text)
