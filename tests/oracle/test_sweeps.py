# SPDX-License-Identifier: MIT
"""A whole catalogue at once against each of its pairs searched alone, over invented
catalogues, sites and rule sets; and what a sweep takes for known of quantities
(lib/tables/apart.def) against what checks show."""
import os
import random

import pytest

import def_tables
import pvsize
import random_questions

CASES = int(os.environ.get("PVSIZE_ORACLE_QUESTIONS", "240")) // 4


def a_module(rng, alike):
    """Where modules are alike, only their numbers tell many pairs apart."""
    vmp, imp = round(rng.uniform(28, 46), 1), round(rng.uniform(8, 18), 1)
    if alike:
        vmp, imp = rng.choice([(32, 12.5), (40, 10), (32, 12.5), (36, 11)])
    values = dict(pmax=round(vmp * imp / 5) * 5, vmp=vmp, imp=imp, voc=round(vmp * 1.2, 1),
                  isc=round(imp * 1.06, 1), voc_coefficient=-0.27, isc_coefficient=0.04,
                  pmax_coefficient=-0.34, max_system_voltage=rng.choice([600, 1000, 1500]),
                  max_series_fuse=rng.choice([15, 20, 30]), bifaciality=rng.choice([0, 0, 0.7]))
    slip = rng.random()
    if slip < 0.02:
        values["imp"] = values["isc"] + 1
    elif slip < 0.04:
        del values[rng.choice(["max_series_fuse", "voc_coefficient", "bifaciality"])]
    elif slip < 0.05:
        values["pmax_coefficient"] = 0.3  # a hot string with the voltage of a cold one
    return pvsize.Module(**values)


def an_input(rng):
    volts = rng.choice([450, 600, 1000])
    values = dict(max_voltage=volts, tracking_min=rng.choice([60, 60, 90, 160]),
                  tracking_max=round(0.92 * volts), start_voltage=120,
                  max_operating_current=rng.choice([13, 16, 32]),
                  max_short_circuit_current=rng.choice([18, 20, 40, 60]),
                  terminals=rng.choice([1, 1, 2, 3]), terminal_current=rng.choice([20, 30]),
                  max_power=rng.choice(["none", 4000, 6000]), isolator="built_in",
                  isolator_meets_standard=True, isolator_locks_off=rng.random() < 0.98,
                  isolator_voltage=volts, isolator_current=rng.choice([32, 50]))
    for name in ("max_power", "terminals", "terminal_current", "isolator_current", "isolator"):
        if rng.random() < 0.02:
            del values[name]
    if rng.random() < 0.02:
        values["other_source"] = True
    return values


def an_inverter(rng):
    first, inputs = an_input(rng), rng.choice([1, 2, 2, 3])
    alike = rng.random() < 0.7
    values = dict(rated_ac_power=rng.choice([2000, 3000, 5000, 8000]), phases=rng.choice([1, 1, 1, 3]),
                  ac_voltage=230, backfeed_current=rng.choice([0, 0, 0, 2]),
                  max_pv_power=rng.choice(["none", 4000, 7500, 12000]),
                  inputs=[first if alike else an_input(rng) for _ in range(inputs)])
    if rng.random() < 0.05:
        del values["max_pv_power"]
    return pvsize.Inverter(**values)


def a_site(rng):
    ordered = rng.random() < 0.3
    faces = []
    for i in range(rng.choice([1, 2, 2, 3])):
        face = dict(capacity=rng.choice([0, 6, 8, 11, 14, 17, "none"] if i == 0 else [3, 6, 8, 9]),
                    mounting="raised", specific_yield=rng.choice([1200, 1350, 1500]))
        if rng.random() < 0.7:
            face["current_correction"] = rng.choice([1, 1, 1.1])
        if ordered and face["capacity"] != "none":
            face["fill_order"] = rng.randint(1, 2)
        faces.append(pvsize.Plane(**face))
    return pvsize.Site(temp_min=rng.choice([-10, 0]), temp_max=40, building="dwelling",
                       supply_phases=rng.choice([1, 3]), supply_voltage=230,
                       connection_limit=rng.choice(["none", "none", "none", 6000]), export_limit="none",
                       phase_limit="none", planes=faces)


def a_rule_set(rng):
    if rng.random() < 0.15:
        return random_questions.rules(rng)[0]
    made = pvsize.Rules(rng.choice(sorted(pvsize.presets())))
    if rng.random() < 0.3:
        made.add("own", "own", rng.choice(["quantity.input_power", "quantity.system_pv_power"]),
                 "at_most", rng.choice([3000, 5000]), severity="must")
    if rng.random() < 0.2:
        made.add("own_cold", "own", "quantity.string_voc_cold", "at_most", rng.uniform(0.5, 0.9),
                 severity="must", limit_of="input.max_voltage")
    if rng.random() < 0.1:
        made.add("own_share", "own", "quantity.array_power", "at_most", rng.uniform(0.4, 0.8),
                 severity="must", limit_of="quantity.pv_limit")
    for name in ("terminals", "voc_hot_start", "operating_current", "vmp_hot_reserve"):
        if rng.random() < 0.03:
            made.set_severity(name, "must")
    return made


def a_question(rng):
    made = pvsize.Search(system=pvsize.System(site=a_site(rng)), answers=rng.choice([1, 1, 3]),
                         objective=rng.choice(["power", "energy", "nearest_power", "plane_order"]),
                         wanted_power=rng.randrange(1000, 6000, 100))
    for name, often, values in (("wanted_modules", 0.05, [5, 8]), ("shortest_string", 0.3, [2, 4]),
                                ("longest_string", 0.2, [7, 12]), ("node_budget", 1, [25, 100, 5000, 5000, 5000]),
                                ("string_devices", 0.3, [True]), ("external_isolator", 0.2, [True]),
                                ("string_device_voltage", 0.3, [400, 1000])):
        if rng.random() < often:
            setattr(made, name, rng.choice(values))
    return made


def one_by_one(ranking, modules, inverters):
    for i, module in enumerate(modules):
        for k, inverter in enumerate(inverters):
            ranking.add(module, inverter, i, k)


def outcome(judge, ranking, *catalogue):
    """What a ranking comes to, or what is wrong with the question."""
    try:
        judge(ranking, *catalogue)
    except pvsize.Error as error:
        return str(error)
    return ranking.judged, list(ranking)


def compare(seed):
    rng = random.Random(seed)
    question, rules = a_question(rng), a_rule_set(rng)
    alike = rng.random() < 0.5
    modules = [a_module(rng, alike) for _ in range(rng.randint(5, 9))]
    inverters = [an_inverter(rng) for _ in range(rng.randint(3, 7))]
    most = rng.choice([1, 1, 2, 4, 100])
    want = outcome(one_by_one, pvsize.Ranking(question, rules, most=most), modules, inverters)
    found = outcome(pvsize.Ranking.add_all, pvsize.Ranking(question, rules, most=most), modules,
                    inverters)
    assert found == want
    return want


@pytest.mark.parametrize("block", range(4))
def test_all_pairs_searched(block):
    for seed in range(block * CASES // 4, (block + 1) * CASES // 4):
        try:
            compare(seed)
        except AssertionError as error:
            raise AssertionError(f"catalogue {seed}") from error


def test_a_pair_is_a_search():
    """One pair ranked is the best answer of a search for it."""
    told = 0
    for seed in range(40):
        rng = random.Random(seed)
        question, rules = a_question(rng), a_rule_set(rng)
        module, inverter = a_module(rng, False), an_inverter(rng)
        ranking = pvsize.Ranking(question, rules)
        try:
            fits = ranking.add(module, inverter, 0, 0)
        except pvsize.Error:
            continue
        system = question.parts("system")[0]
        system.add(inverter)
        question.replace(0, system)
        question.add(module)
        found = pvsize.search(question, rules)
        assert fits == (len(found) > 0)
        assert ranking.judged == (1, int(fits), int(fits and found.ending != "proven"))
        assert ([(pair.power, pair.energy, pair.modules, pair.strings) for pair in ranking]
                == [(best.power, best.energy, best.modules, best.strings) for best in found][:1])
        told += fits
    assert told >= 10


# what a sweep takes for known

def apart_rows():
    """Traits and quantities of the table."""
    found = list(def_tables.rows(def_tables.TABLES / "apart.def"))
    return ({arguments[0].lower().replace("_", ".", 1) for macro, arguments in found
             if macro == "TRAIT"},
            [arguments[0].lower() for macro, arguments in found if macro == "APART"])


def a_job(rng):
    """Everything stated that can be, so that quantities have values."""
    values = an_input(rng)
    values.update(isolator="built_in", other_source=rng.random() < 0.5, max_power=5000)
    unit = dict(rated_ac_power=5000, phases=1, ac_voltage=230, backfeed_current=2,
                max_pv_power=7500, inputs=[values])
    array = dict(inverter=0, input=0, plane=0, modules_per_string=7, strings=rng.choice([1, 3]),
                 external_isolator=rng.random() < 0.3)
    if rng.random() < 0.5:
        array.update(string_device=20, string_device_voltage=1000, array_device=40,
                     array_device_voltage=1000, strings_per_device=2)
    module = pvsize.Module(pmax=400, vmp=34, imp=11.8, voc=41, isc=12.5, voc_coefficient=-0.27,
                           isc_coefficient=0.04, pmax_coefficient=-0.34, max_system_voltage=1500,
                           max_series_fuse=20, bifaciality=0.7,
                           voc_coefficient_absolute=-0.111, isc_coefficient_absolute=0.005,
                           vmp_coefficient=-0.34, vmp_coefficient_absolute=-0.116)
    site = pvsize.Site(temp_min=-3, temp_max=41, building="dwelling", supply_phases=1,
                       supply_voltage=230, planes=[pvsize.Plane(mounting="raised", capacity=60)])
    return site, unit, pvsize.Array(module=module, **array)


def values_of(site, unit, array, rules, quantities):
    system = pvsize.System(site=site, inverters=[pvsize.Inverter(**unit)])
    system.add(array)
    report = pvsize.check(system, rules)
    return {name: report.quantity(name) for name in quantities}


def others_of(term, rng):
    """Values that a parameter can have as well, and none at all."""
    none = ["none", None] if term.need == "optional" else [None]
    if term.choices:
        return [*term.choices, None]
    low, high = term.range
    return [low, high, rng.uniform(low, high) if term.type == "number"
            else rng.randint(int(low), int(min(high, 1e6))), *none]


def test_the_table_of_what_stands_apart_is_true():
    """No parameter of inverter or input but traits changes what stands apart."""
    traits, quantities = apart_rows()
    seen, rng = set(), random.Random(5)
    for preset in sorted(pvsize.presets()):
        site, unit, array = a_job(rng)
        rules = pvsize.Rules(preset)
        base = values_of(site, unit, array, rules, quantities)
        seen |= {name for name, value in base.items() if value is not None}
        for kind, spec in (("inverter", unit), ("input", unit["inputs"][0])):
            for name, term in pvsize.terms(kind).items():
                if term.type == "text" or f"{kind}.{name}" in traits:
                    continue
                kept = spec.pop(name, None)
                for value in others_of(term, rng):
                    if value is not None:
                        spec[name] = value
                    assert values_of(site, unit, array, rules, quantities) == base, (preset, name)
                    spec.pop(name, None)
                if kept is not None:
                    spec[name] = kept
    assert set(quantities) - seen == set()


def test_each_trait_is_one():
    """Each changes something that stands apart: none is there for nothing."""
    traits, quantities = apart_rows()
    rng = random.Random(7)
    missing = set(traits)
    for preset in sorted(pvsize.presets()):
        site, unit, array = a_job(rng)
        unit["inputs"][0].update(isolator="built_in", isolator_locks_off=True)
        array.external_isolator = False
        array.strings = 3
        rules = pvsize.Rules(preset)
        base = values_of(site, unit, array, rules, quantities)
        for trait in sorted(missing):
            kind, name = trait.split(".")
            spec = unit if kind == "inverter" else unit["inputs"][0]
            term = pvsize.terms(kind)[name]
            kept = spec.pop(name, None)
            for value in others_of(term, rng):
                if value is not None:
                    spec[name] = value
                if values_of(site, unit, array, rules, quantities) != base:
                    missing.discard(trait)
                spec.pop(name, None)
            if kept is not None:
                spec[name] = kept
    assert not missing
