# SPDX-License-Identifier: MIT
"""The library's answers against the model's, over seeded jobs.

PVSIZE_ORACLE_JOBS  how many jobs; PVSIZE_LIBRARY  which library."""
import ctypes
import os
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "bindings" / "python"))

import pvsize
import random_jobs
from def_tables import (DEVICE_RATINGS, FIGURES, PRESETS, QUANTITIES, RULES, number,
                        preset)
from sizing_model import (IDENTITY, MISSING, NOT_APPLICABLE, NOT_JUDGED,
                          NOT_MODELLED, band_of, evaluate,
                          first_gap, on_edge)

LIB = pvsize._lib
DEFAULT_JOBS = 2500
JOBS = int(os.environ.get("PVSIZE_ORACLE_JOBS", DEFAULT_JOBS))
FLAVOURS = [{}, {"gaps": True}, {"wild": True}, {"gaps": True, "wild": True}]

NUMBERS = {name: term.number for name, term in pvsize.terms("quantity").items()}
RULE_NAMES = {term.number: name for name, term in pvsize.terms("rule").items()}

# What never lacks data, whatever is left out.
NEVER_MISSING = {"input_arrays", "input_module_types", "bifacial_correction",
                 "current_correction", "module_isc_deviation", "module_vmp_deviation",
                 "module_voc_coefficient_high", "module_voc_coefficient_low",
                 "array_device_needed", "array_device_fitted", "string_group",
                 "site_dates_real"}

# Where nothing standard fits, these are 0.
HOLDS_ZERO = {"string_device_rating", "ac_device_rating", "cable_smallest",
              "array_device_rating", "isolator_capacity"}

# Answers that no data can turn to no: yes or missing.
NEVER_NO = {"module_given", "array_given", "input_given", "inverter_given", "site_given",
            "cable_given", "isolator_given"}


def job_of(seed):
    return random_jobs.job(seed, **FLAVOURS[seed % len(FLAVOURS)])


def rules_of(seed):
    """A plain preset and its name now and then, else any rule set and None."""
    if seed % 5 == 0:
        name = PRESETS[seed // 5 % len(PRESETS)]
        return preset(name), name
    return random_jobs.rules(seed), None


# -- what the library says ----------------------------------------------------

def library_rules(rules, name=None):
    result = pvsize.Rules(name)
    if name is None:
        for figure, value in rules["figures"].items():
            result.set_figure(figure, float(value))
        for rule, severity in rules["severity"].items():
            result.set_severity(rule, severity)
    return result


class Answers:
    """A report read call by call: the binding's Finding makes texts of all."""

    def __init__(self, job, rules):
        spec = pvsize.System(site=job["site"], inverters=job["inverters"],
                             arrays=job.get("arrays") or [],
                             cables=job.get("cables") or [],
                             isolators=job.get("isolators") or [])
        self.report = pvsize.check(spec, rules)
        self.handle = self.report._handle
        self.ints = [ctypes.c_int32() for _ in range(5)]
        self.places = [ctypes.byref(place) for place in self.ints]
        self.reals = [ctypes.c_double() for _ in range(3)]
        self.real_places = [ctypes.byref(place) for place in self.reals]
        self.subjects = self.report.subjects()
        self.numbers = {self.identity(n): n for n in range(len(self.subjects))}

    def identity(self, number):
        """(kind, the places that tell the subject from others of its kind); a
        module type by the first array that has it."""
        subject = self.subjects[number]
        if subject.kind in ("system", "site"):
            return subject.kind, ()
        if subject.kind == "module":
            return "module", (self.subjects[subject.owner].index,)
        if subject.kind == "input":
            return "input", (self.subjects[subject.owner].index, subject.index)
        return subject.kind, (subject.index,)

    def quantity(self, name, kind, index, diag):
        if kind == "module":  # asked of any array that has it
            kind = "array"
        subject = self.numbers[kind, tuple(index[i] for i in IDENTITY[kind])]
        status = LIB.pvsize_report_quantity(self.handle, NUMBERS[name], subject,
                                            self.real_places[0], diag)
        if status == pvsize.OK:
            return self.reals[0].value
        assert status == pvsize.E_NOT_SET, (name, index, status)
        # What does not apply has no parameter to blame.
        if LIB.pvsize_diag_term(diag) == NUMBERS[name]:
            return NOT_APPLICABLE
        return MISSING

    def findings(self):
        """{(rule, kind, identity): (verdict, value, limit, margin, severity, missing)}"""
        found = {}
        for n in range(self.report.count()):
            status = LIB.pvsize_report_finding(self.handle, n, *self.places[:4], None)
            assert status == pvsize.OK
            rule, severity, verdict, subject = [place.value for place in self.ints[:4]]
            status = LIB.pvsize_report_numbers(self.handle, n, *self.real_places, None)
            values = tuple(place.value for place in self.reals)
            missing = None
            if status != pvsize.OK:
                assert status == pvsize.E_NOT_SET
                values = (None, None, None)
                status = LIB.pvsize_report_missing(self.handle, n, self.places[0], None)
                assert status == pvsize.OK
                missing = pvsize._full_name(self.ints[0].value)
            key = (RULE_NAMES[rule], *self.identity(subject))
            assert key not in found, key
            found[key] = (pvsize._choice_name("verdict", verdict), *values,
                          pvsize._choice_name("severity", severity), missing)
        return found


# -- comparison ---------------------------------------------------------------

def same(got, expected):
    """Equal but for rounding; differences of like numbers keep its size."""
    if isinstance(expected, str) or isinstance(got, str):
        return got == expected
    if got is None or expected is None:
        return got is expected
    expected = float(expected)
    return abs(got - expected) <= max(1e-9 * abs(expected), 1e-11)


def edge(name, value, limit, rules):
    row = RULES[name]
    return on_edge(Fraction(value), row["compare"], Fraction(limit),
                   band_of(row, rules))


def gap_of(job, rule, key):
    """Parameter that a rule on gaps has to name."""
    kind = RULES[rule]["scope"]
    node = {"module": lambda: job["arrays"][key[0]]["module"],
            "array": lambda: job["arrays"][key[0]],
            "input": lambda: job["inverters"][key[0]]["inputs"][key[1]],
            "inverter": lambda: job["inverters"][key[0]],
            "cable": lambda: job["cables"][key[0]],
            "isolator": lambda: job["isolators"][key[0]],
            "site": lambda: job["site"]}[kind]()
    return f"{kind}.{first_gap(kind, node)}"


def compare(seed, counts, faults):
    job, (rules, name) = job_of(seed), rules_of(seed)
    counts["preset", name] += 1
    quantities, findings = evaluate(job, rules)
    answers = Answers(job, library_rules(rules, name))

    for (what, kind, index), expected in quantities.items():
        got = answers.quantity(what, kind, index, pvsize._diag.handle)
        state = expected if isinstance(expected, str) else "value"
        counts["quantities"] += 1
        counts["quantity", what, state] += 1
        if state == "value" and (QUANTITIES[what]["type"] == "ANSWER"
                                 or what in HOLDS_ZERO):
            counts["answer", what, int(expected > 0)] += 1
        if what == "string_device_rating" and state == "value" and expected > 0:
            counts["series", int(rules["figures"]["device_series"])] += 1
        if what == "ac_device_rating" and state == "value" and expected > 0:
            counts["ac series", int(rules["figures"]["ac_device_series"])] += 1
        if not same(got, expected):
            faults.append(f"seed {seed}: {what} of {kind} {index}: library "
                          f"{got}, model {show(expected)}")

    got = answers.findings()
    expected = {(rule, kind, tuple(index[i] for i in IDENTITY[kind])): rest
                for rule, kind, index, *rest in findings}
    assert len(expected) == len(findings)
    for key in sorted(got.keys() | expected.keys()):
        rule = key[0]
        if rule in NOT_JUDGED:
            continue
        theirs, ours = got.get(key), expected.get(key)
        counts["findings"] += 1
        if ours is not None:
            counts["on the limit", RULES[rule]["compare"]] += (
                ours[1] is not None and ours[1] == ours[2])
            counts["verdict", ours[0]] += 1
            counts["rule", rule, ours[0]] += 1
        if theirs is None or ours is None:
            value, limit = (theirs or ours)[1:3]
            if value is None or not edge(rule, value, limit, rules):
                faults.append(f"seed {seed}: {key}: library {theirs}, model {show(ours)}")
            continue
        verdict, value, limit, margin, severity, missing = theirs
        good = (same(value, ours[1]) and same(limit, ours[2])
                and severity == rules["severity"][rule])
        if good and verdict != ours[0]:
            good = value is not None and edge(rule, ours[1], ours[2], rules)
        if good and value is not None:
            side = 1 if RULES[rule]["compare"] == "at_most" else -1
            expected_margin = side * (limit - value)
            if verdict != "exceeds":  # below nothing it is rounding
                expected_margin = max(0.0, expected_margin)
            elif RULES[rule]["compare"] == "more_than":  # and so it is above
                expected_margin = min(0.0, expected_margin)
            if abs(expected_margin) < 1e-13 * (abs(limit) + abs(value)):
                expected_margin = 0.0  # the last bits of two numbers
            good = margin == expected_margin
        if good and RULES[rule]["manner"] == "GAPS":
            good = missing == gap_of(job, rule, key[2])
        if not good:
            faults.append(f"seed {seed}: {key}: library {theirs}, model {show(ours)}")


def show(ours):
    if isinstance(ours, Fraction):
        return float(ours)
    if isinstance(ours, list):
        return [show(part) for part in ours]
    return ours


def run(seeds):
    counts, faults = Counter(), []
    for seed in seeds:
        compare(seed, counts, faults)
    return counts, faults


@pytest.fixture(scope="module")
def outcome():
    counts, faults = Counter(), []
    parts = [range(start, min(start + 50, JOBS)) for start in range(0, JOBS, 50)]
    with ProcessPoolExecutor() as pool:
        for some_counts, some_faults in pool.map(run, parts):
            counts.update(some_counts)
            faults += some_faults
    return counts, faults


# -- tests --------------------------------------------------------------------

def test_tables_agree():
    assert set(NUMBERS) == set(QUANTITIES)
    assert set(RULE_NAMES.values()) == set(RULES)
    assert set(pvsize.terms("figure")) == set(FIGURES)
    assert set(pvsize.presets()) == set(PRESETS)


@pytest.mark.parametrize("name", PRESETS)
def test_presets_agree(name):
    ours, theirs = preset(name), pvsize.Rules(name)
    for figure, row in FIGURES.items():
        value = ours["figures"].get(figure)
        if value is None and row["low"] == row["high"]:
            value = row["low"]  # a constant
        got = theirs.figure(figure)
        assert (None if got is None else number(got)) == value, figure
    for rule in RULES:
        assert theirs.severity(rule) == ours["severity"][rule], rule


def test_library_agrees(outcome):
    counts, faults = outcome
    print(f"{JOBS} jobs, {counts['quantities']} quantities, {counts['findings']} findings")
    assert not faults, f"{len(faults)} differ:\n" + "\n".join(faults[:40])


@pytest.mark.skipif(JOBS < DEFAULT_JOBS, reason="too few jobs to meet every case")
def test_every_case_was_met(outcome):
    counts, _ = outcome
    few, many = JOBS // 300, 2 * JOBS
    assert counts["quantities"] > 100 * JOBS
    for verdict in ("meets", "marginal", "exceeds", "not_assessed"):
        assert counts["verdict", verdict] >= many, verdict
    for rule, row in RULES.items():
        if rule in NOT_JUDGED:
            continue
        breach = "not_assessed" if row["manner"] == "GAPS" else "exceeds"
        assert counts["rule", rule, breach] >= few, (rule, breach)
        if row["manner"] in ("LOUD", "FIRM"):
            assert counts["rule", rule, "meets"] >= few, rule
            if row["value"][1] not in NEVER_MISSING:
                assert counts["rule", rule, "not_assessed"] >= few, rule
    for name in PRESETS:
        assert counts["preset", name] >= few, name
    for name, row in QUANTITIES.items():
        if name in NOT_MODELLED:
            continue
        assert counts["quantity", name, "value"] >= few, name
        if row["type"] == "ANSWER" and name not in NEVER_NO:
            assert min(counts["answer", name, 0], counts["answer", name, 1]) >= few, name
        if name not in NEVER_MISSING:
            assert counts["quantity", name, MISSING] >= few, name
    assert {name for name in QUANTITIES if counts["quantity", name, NOT_APPLICABLE]} >= {
        "module_coefficient_deviation", "string_modules_max", "string_modules_min",
        "input_strings", "input_voc_difference", "isolator_voltage_duty",
        "inverter_pv_power", "array_ratio", "plane_modules", "system_pv_power",
        "input_isc", "string_reverse_limit", "string_device_needed",
        "strings_without_device", "string_device_low", "string_device_high",
        "string_device_rating", "string_device_exists", "string_unprotected_current",
        "string_device_duty_voltage", "array_dc_drop", "inverter_ac_rise",
        "cable_table_duty"}
    rating = "string_device_rating"
    assert min(counts["answer", rating, 0], counts["answer", rating, 1]) >= many // 4
    for name in HOLDS_ZERO:
        assert min(counts["answer", name, 0], counts["answer", name, 1]) >= few, name
    for series in range(1, int(FIGURES["device_series"]["high"]) + 1):
        assert counts["series", series] >= few, series
    for series in range(1, len(DEVICE_RATINGS) + 1):
        assert counts["ac series", series] >= few, series
    # strict comparison: on the limit, above it, close above it
    for verdict in ("meets", "marginal", "exceeds"):
        assert counts["rule", "device_low_strict", verdict] >= few, verdict
    assert counts["on the limit", "more_than"] >= few
