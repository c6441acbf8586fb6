# SPDX-License-Identifier: MIT
"""Exercises against an independent model: every answer, and every wrong answer
by the mistake done anew in Python, from the job alone.

PVSIZE_EXERCISES  how many seeds of all levels together; PVSIZE_LIBRARY."""
import os
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction

import pytest

from def_tables import PARAMETERS, PRESETS, RULES, number, preset
from sizing_model import NOT_JUDGED, Missing, Model, NotApplicable, judge
from test_against_library import pvsize

SEEDS = int(os.environ.get("PVSIZE_EXERCISES", 1000))
LEVELS = ("one_input", "two_inputs", "parallel", "fault")
DEFAULT_PRESET = "asnzs_5033_2021"

FAULTS = {"voc_cold_input": "input_voltage", "voc_cold_module": "module_voltage",
          "voc_cold_building": "building_voltage", "vmp_hot_tracking": "window",
          "isc_input": "short_circuit", "pv_ratio": "ratio", "pv_maker": "maker",
          "reverse_current": "reverse_current", "device_low": "device_low",
          "device_low_strict": "device_low", "device_high": "device_high"}

# Questions whose answer is a quantity, and what that is asked of.
QUANTITY_OF = {"input_isc": "input_isc_max", "pv_limit": "pv_limit",
               "reverse_current": "string_reverse_current",
               "device_needed": "string_device_needed", "device_rating": "string_device_rating"}


# -- the job as the model takes it ----------------------------------------------

def node_of(spec, kind):
    """Numbers, choices and "none" of a spec, as a dictionary."""
    found = {}
    for name, row in PARAMETERS[kind].items():
        if row["type"] != "TEXT" and spec._state(pvsize._TERMS[kind][name]) in (1, 3):
            found[name] = getattr(spec, name)
    return found


def job_of(exercise):
    system = exercise.system
    site, inverter = system.sites[0], system.inverters[0]
    modules = []
    arrays = []
    for array in system.arrays:
        modules.append(node_of(array.modules[0], "module"))
        arrays.append(node_of(array, "array") | {"module": modules[0]})
    assert all(module == modules[0] for module in modules)
    return {"site": node_of(site, "site") | {"planes": [node_of(p, "plane") for p in site.planes]},
            "inverters": [node_of(inverter, "inverter")
                          | {"inputs": [node_of(i, "input") for i in inverter.inputs]}],
            "arrays": arrays}


# -- mistakes, done by hand -------------------------------------------------------

def modules(job):
    return [job["arrays"][0]["module"]]  # one for all


def exact(value):
    return number(value)


def stc_temperature(job, figures):
    job["site"].update(temp_min=25, temp_max=25)
    for plane in job["site"]["planes"]:
        plane["cell_rise"] = 0
    if "voc_multiplier" in figures:
        figures["voc_multiplier"] = 1


def hot_for_cold(job, figures):
    job["site"]["temp_min"] = job["site"]["temp_max"]


def cold_for_hot(job, figures):
    job["site"]["temp_max"] = job["site"]["temp_min"]
    ambient_for_cell(job, figures)


def ambient_for_cell(job, figures):
    for plane in job["site"]["planes"]:
        plane["cell_rise"] = 0


def wrong_sign(job, figures):
    site = job["site"]
    site.update(temp_min=50 - site["temp_min"], temp_max=50 - site["temp_max"])
    for plane in site["planes"]:
        plane["cell_rise"] = -plane["cell_rise"]


def not_from_stc(job, figures):
    job["site"]["temp_min"] += 25
    job["site"]["temp_max"] += 25


def figure(name, value):
    def change(job, figures):
        if name in figures:
            figures[name] = value(exact(figures[name]))
    return change


def like(of, target, source):
    def change(job, figures):
        for node in of(job):
            node[target] = node[source]
    return change


def inputs(job):
    return job["inverters"][0]["inputs"]


def power_coefficient(job, figures):
    for module in modules(job):
        module["voc_coefficient"] = module["vmp_coefficient"] = module["pmax_coefficient"]


def maker_ignored(job, figures):
    job["inverters"][0]["max_pv_power"] = 10**7


def strings(change):
    def made(job, figures):
        for array in job["arrays"]:
            array["strings"] = change(array["strings"])
    return made


def module_rating_ignored(job, figures):
    for module in modules(job):
        module["max_series_fuse"] = 400


def other_input(job, figures):
    if len(inputs(job)) < 2:
        raise NotApplicable
    for array in job["arrays"]:
        array["input"] = 1 - array["input"]


def factor_on_imp(job, figures):
    for module in modules(job):
        module["imp"] = exact(module["imp"]) * Fraction(5, 4)


CHANGES = {
    "stc_temperature": stc_temperature, "hot_for_cold": hot_for_cold,
    "cold_for_hot": cold_for_hot, "ambient_for_cell": ambient_for_cell,
    "wrong_sign": wrong_sign, "not_from_stc": not_from_stc,
    "factor_forgotten": figure("isc_factor", lambda v: 1),
    "operating_rating": like(inputs, "max_short_circuit_current", "max_operating_current"),
    "imp_for_isc": like(modules, "isc", "imp"), "vmp_for_voc": like(modules, "voc", "vmp"),
    "voc_coefficient": like(modules, "vmp_coefficient", "voc_coefficient"),
    "power_coefficient": power_coefficient,
    "ratio_inverted": figure("array_ratio_max", lambda v: 1 / v),
    "ratio_ignored": figure("array_ratio_max", lambda v: 10), "maker_ignored": maker_ignored,
    "rating_for_limit": figure("array_ratio_max", lambda v: 1),
    "one_string": strings(lambda n: 1), "own_string": strings(lambda n: n + 1),
    "circuit_factor": figure("device_low_factor", lambda v: Fraction(5, 4)),
    "device_factor_forgotten": figure("device_low_factor", lambda v: 1),
    "module_rating_ignored": module_rating_ignored,
    "window_for_maximum": like(inputs, "max_voltage", "tracking_max"),
    "start_for_window": like(inputs, "tracking_min", "start_voltage"),
    "other_input": other_input, "isc_for_imp": like(modules, "imp", "isc"),
    "factor_on_imp": factor_on_imp,
    "fault_rating": like(inputs, "max_operating_current", "max_short_circuit_current"),
}
OF_THE_ANSWER = {("string_modules_max", "rounded_wrong_way"): lambda a: a + 1,
                 ("string_modules_min", "rounded_wrong_way"): lambda a: a - 1,
                 ("input_strings_max", "rounded_wrong_way"): lambda a: a + 1,
                 ("input_strings_lossless", "rounded_wrong_way"): lambda a: a + 1,
                 ("strings_without_device", "rounded_wrong_way"): lambda a: a + 1,
                 ("strings_without_device", "own_string"): lambda a: a - 1,
                 ("array_ratio", "ratio_inverted"): lambda a: 1 / a}


# -- answers -----------------------------------------------------------------------

def broken(model, severities):
    """Limits that must hold and do not: (rule, excess)."""
    found = []
    for name, row in RULES.items():
        if severities[name] != "must" or name in NOT_JUDGED:
            continue
        for subject in model.rule_subjects(row["scope"]):
            finding = judge(model, name, row, subject)
            if finding and finding[3] == "exceeds":
                found.append((name, abs(finding[4] - finding[5])))
    return found


def lowest_limit(model, kind, place):
    if kind == "voltage_limit":
        limits = {"input": model.input_of(place, "max_voltage"),
                  "module": model.module(place, "max_system_voltage")}
        try:
            limits["building"] = model.get("building_voltage_limit", place)
        except Missing:
            pass
    else:
        limits = {"ratio": model.get("pv_limit_ratio", 0),
                  "maker": model.inverter(0, "max_pv_power")}
    return limits, min(limits, key=limits.get)


def answer(model, severities, question, fault=None):
    """What the model answers, None where it has no answer. `fault`: the right one, where
    the question is by how much."""
    kind, place = question.kind, question.array
    if kind in ("voltage_limit", "power_limit"):
        return lowest_limit(model, kind, place)[1]
    if kind in ("fault", "excess"):
        found = broken(model, severities)
        if len(found) > 1 or found and found[0][0] not in FAULTS:
            return None
        if kind == "fault":
            return FAULTS[found[0][0]] if found else "none"
        return found[0][1] if found and found[0][0] == fault else None
    name = QUANTITY_OF.get(kind, kind)
    subject = {"input_isc": (0, place), "pv_limit": 0, "array_ratio": 0}.get(kind, place)
    value = model.get(name, subject)
    return ("yes" if value else "no") if kind == "device_needed" else value


def same(a, b):
    if isinstance(a, str) or isinstance(b, str) or a is None:
        return a == b
    return abs(Fraction(a) - number(b)) <= Fraction(abs(a)) / 10**9


def changed(job, rules, mistake):
    module, figures = dict(job["arrays"][0]["module"]), dict(rules["figures"])
    job = {"site": dict(job["site"], planes=[dict(p) for p in job["site"]["planes"]]),
           "inverters": [dict(i, inputs=[dict(node) for node in i["inputs"]])
                         for i in job["inverters"]],
           "arrays": [dict(a, module=module) for a in job["arrays"]]}
    CHANGES[mistake](job, figures)
    return Model(job, {"figures": figures, "severity": rules["severity"]})


def wrong_answers(job, rules, right, question, mistake, fault, models):
    """What a mistake may lead to."""
    kind = question.kind
    if mistake == "higher_limit":
        limits, lowest = lowest_limit(models[None], kind, question.array)
        return set(limits) - {lowest}
    if mistake == "loss_for_fault":
        row = RULES["operating_current"]
        lost = [judge(models[None], "operating_current", row, subject)
                for subject in models[None].rule_subjects(row["scope"])]
        return {"operating_current"} if any(f and f[3] == "exceeds" for f in lost) else set()
    if (kind, mistake) in OF_THE_ANSWER:
        return {OF_THE_ANSWER[kind, mistake](right)}
    if mistake not in models:
        models[mistake] = changed(job, rules, mistake)
    try:
        return {answer(models[mistake], rules["severity"], question, fault)}
    except (Missing, NotApplicable):
        return set()


# -- checks ----------------------------------------------------------------------

def mark_faults(exercise, i, question, counts):
    """The marking knows the right answer, each mistake, near misses, and nonsense."""
    if exercise.mark(i, question.answer) != ("right", ()):
        yield f"{question.kind}: the answer is not right"
    for mistake in question.mistakes:
        mark, names = exercise.mark(i, mistake.value)
        alike = {m.name for m in question.mistakes
                 if m.value == mistake.value or not question.choices
                 and abs(m.value - mistake.value) <= question.tolerance}
        if mark != "mistaken" or set(names) != alike:
            yield f"{question.kind}: {mistake.name} is marked {mark} {names}"
        counts["named together"] += len(names) > 1
    if question.choices:
        return
    slack = question.tolerance
    if slack and exercise.mark(i, question.answer + 0.9 * slack).mark != "right":
        yield f"{question.kind}: within the tolerance, and not right"
    others = [m.value for m in question.mistakes]
    near = question.answer * 1.004
    if slack and near - question.answer > 1.1 * slack and all(abs(near - v) > slack for v in others):
        counts["near"] += 1
        if exercise.mark(i, near).mark != "rounded":
            yield f"{question.kind}: {near} is not a near miss"
    if exercise.mark(i, 1e9).mark != "unknown":
        yield f"{question.kind}: nonsense is marked {exercise.mark(i, 1e9)}"


def exercise_faults(level, seed, name, counts):
    exercise = pvsize.Exercise(level, seed, name)
    job, rules = job_of(exercise), preset(name)
    models = {None: Model(job, rules)}
    found = broken(models[None], rules["severity"])
    counts[level] += 1
    if len(found) != (level == "fault"):
        yield f"breaks {found}"
        return
    fault = found[0][0] if found else None
    for i, question in enumerate(exercise):
        counts[question.kind] += 1
        right = answer(models[None], rules["severity"], question, fault)
        if not same(right, question.answer):
            yield f"{question.kind}: {question.answer}, by the model {right}"
            continue
        if not question.mistakes and question.kind != "excess":
            yield f"{question.kind}: no mistakes"
        for mistake in question.mistakes:
            counts["mistakes"] += 1
            counts[mistake.name] += 1
            wrong = wrong_answers(job, rules, right, question, mistake.name, fault, models)
            if not any(same(w, mistake.value) for w in wrong):
                yield f"{question.kind}: {mistake.name} {mistake.value}, by the model {wrong}"
            if question.choices:
                apart = mistake.value != question.answer
            else:
                apart = abs(mistake.value - question.answer) > 3 * question.tolerance
            if not apart:
                yield f"{question.kind}: {mistake.name} changes nothing"
        yield from mark_faults(exercise, i, question, counts)


def run(jobs):
    counts, faults = Counter(), []
    for level, seed, name in jobs:
        faults += [f"{name} {level} {seed}: {fault}"
                   for fault in exercise_faults(level, seed, name, counts)]
    return counts, faults


def every(jobs):
    counts, faults = Counter(), []
    parts = [jobs[start:start + 50] for start in range(0, len(jobs), 50)]
    with ProcessPoolExecutor() as pool:
        for some_counts, some_faults in pool.map(run, parts):
            counts.update(some_counts)
            faults += some_faults
    print(dict(counts))
    assert not faults, f"{len(faults)} faults:\n" + "\n".join(faults[:30])
    return counts


def test_answers_and_mistakes():
    """Seeds spread over the levels; negative ones and the ends of the range as well."""
    jobs = [(level, seed, DEFAULT_PRESET) for seed in range(SEEDS // len(LEVELS))
            for level in LEVELS]
    jobs += [(level, seed, DEFAULT_PRESET) for seed in (-1, -2**31, 2**31 - 1) for level in LEVELS]
    counts = every(jobs)
    if SEEDS >= 1000:
        assert all(counts[name] for name in CHANGES), [n for n in CHANGES if not counts[n]]
        assert counts["higher_limit"] and counts["loss_for_fault"] and counts["near"]


def test_every_preset():
    every([(level, seed, name) for name in PRESETS for level in LEVELS for seed in range(5)])


def test_same_again():
    """The same seed, the same exercise, to the last letter; another seed, another."""
    for level in LEVELS:
        with pvsize.Exercise(level, 5) as a, pvsize.Exercise(level, 5) as b, \
                pvsize.Exercise(level, 6) as c:
            assert a.sheet("solution") == b.sheet("solution")
            assert a.sheet() != c.sheet()


def test_checks_see_a_wrong_answer(monkeypatch):
    job = [("one_input", 3, DEFAULT_PRESET)]
    assert not run(job)[1]
    monkeypatch.setitem(CHANGES, "stc_temperature", hot_for_cold)
    assert run(job)[1]
    monkeypatch.undo()
    monkeypatch.setattr(pvsize.Exercise, "mark", lambda self, i, given: pvsize.Mark("right", ()))
    assert run(job)[1]


@pytest.mark.parametrize("level", LEVELS)
def test_the_task_does_not_tell_the_answer(level):
    """The solution shows every answer; the task shows the data that the model was fed."""
    for seed in range(20):
        exercise = pvsize.Exercise(level, seed)
        task, solution = exercise.sheet(), exercise.sheet("solution")
        for question in exercise:
            assert question.answer_text in solution and question.text in task
            assert all(m.text in solution for m in question.mistakes)
        module = exercise.system.arrays[0].modules[0]
        for value in (module.voc, module.isc, module.imp, module.vmp, module.pmax):
            assert f"{value:g}" in task
        if level == "parallel":
            assert "a fuse in each string, rated" not in task
