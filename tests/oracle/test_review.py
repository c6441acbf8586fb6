# SPDX-License-Identifier: MIT
"""The envelope and the acceptance of modules against the check itself, by brute force: a
module just inside a bound passes the rule, one just outside fails that rule and no other
that it passed before; counts are the last that pass."""
import ctypes
import os
import random

import pytest

import pvsize

COUNT = int(os.environ.get("PVSIZE_REVIEW_JOBS", 60))
PRESETS = ["asnzs_5033_2021", "asnzs_5033_2014", "iec_62548_2016", "nfpa_70_2023",
           "uk_fixed_factors"]
RULE_NAMES = {row.number: name for name, row in pvsize.terms("rule").items()}
SCOPES = {name: row.scope for name, row in pvsize.terms("rule").items()}
LIMITS = {name: row.range for name, row in pvsize.terms("module").items()}
MUST = pvsize._choice_number("severity", "must")
TERM_OF = {"module_isc": "isc", "module_imp": "imp", "string_voc": "voc", "string_vmp": "vmp",
           "array_power": "pmax"}


def chance(r, p):
    return r.random() < p


def input_of(r):
    most = r.choice([400, 500, 600, 1000, 1100])
    low = r.uniform(60, 200)
    high = most * r.uniform(0.8, 0.97)
    operating = r.uniform(9, 40)
    strings = r.randint(1, 4)
    node = dict(max_voltage=most, tracking_min=low, tracking_max=high,
                max_operating_current=operating,
                max_short_circuit_current=operating * r.uniform(1, 1.8))
    extra = dict(full_power_min=low * r.uniform(1, 1.6), full_power_max=high * r.uniform(0.8, 1),
                 start_voltage=low * r.uniform(0.8, 1.4), terminals=strings,
                 terminal_current=r.uniform(10, 40), max_power=r.uniform(3000, 20000),
                 isolator=r.choice(["none", "built_in"]), isolator_meets_standard=chance(r, 0.8),
                 isolator_locks_off=chance(r, 0.8), isolator_voltage=most * r.uniform(0.7, 1.1),
                 isolator_current=operating * r.uniform(0.9, 2))
    node.update((name, value) for name, value in extra.items() if chance(r, 0.8))
    return node


def job_of(seed):
    r = random.Random(f"review {seed}")
    inverter = dict(rated_ac_power=r.uniform(3000, 30000), inputs=[
        input_of(r) for _ in range(r.randint(1, 3))])
    for name, value in dict(max_pv_power=r.uniform(4000, 40000), phases=3, ac_voltage=230).items():
        if chance(r, 0.7):
            inverter[name] = value
    plane = dict(mounting=r.choice(["open_rack", "raised", "close"]))
    if chance(r, 0.5):
        plane["current_correction"] = r.choice([1, 1.1, 1.25])
    site = dict(temp_min=r.uniform(-25, 12), temp_max=r.uniform(28, 48),
                building=r.choice(["dwelling", "other_building", "not_on_building"]), planes=[plane])
    low, high = sorted([r.uniform(-0.35, -0.22), r.uniform(-0.35, -0.22)])
    vmp_low, vmp_high = sorted([r.uniform(-0.45, -0.28), r.uniform(-0.45, -0.28)])
    enquiry = dict(plane=0, voc_coefficient_low=low, voc_coefficient_high=high,
                   vmp_coefficient_low=vmp_low, vmp_coefficient_high=vmp_high)
    if chance(r, 0.3):
        enquiry["max_system_voltage"] = r.choice([600, 1000, 1500])
    if chance(r, 0.3):
        enquiry["bifaciality"] = 0.7
    if chance(r, 0.4):
        enquiry["most_strings"] = r.randint(1, 5)
    return r, inverter, site, enquiry, pvsize.Rules(r.choice(PRESETS))


def system(inverter, site, k, module, modules, strings, external=False):
    return pvsize.System(site=site, inverters=[inverter], arrays=[
        dict(input=k, plane=0, modules_per_string=modules, strings=strings, module=module,
             external_isolator=external, string_device="none")])


VERDICTS = {1: "meets", 2: "marginal", 3: "exceeds", 4: "not_assessed"}
assert all(pvsize._choice_name("verdict", n) == name for n, name in VERDICTS.items())


def findings(report):
    """(rule, severity, verdict, subject) of each, without its texts."""
    place = [ctypes.c_int32() for _ in range(4)]
    for i in range(len(report)):
        pvsize._do("report_finding", report._handle, i, *place)
        rule, severity, verdict, subject = (one.value for one in place)
        yield RULE_NAMES.get(rule), severity, VERDICTS[verdict], subject


def number_of(report, kind, index=0, owner=-1):
    """As report.find, for one inverter."""
    return pvsize._get(ctypes.c_int32, "report_find", report._handle,
                       pvsize._lib.pvsize_kind_by_name(kind.encode()), index, owner)


def verdicts(report, k):
    """By rule: of findings on this input, its array and its inverter."""
    inverter = number_of(report, "inverter")
    here = {number_of(report, "array"), number_of(report, "input", k, inverter), inverter, 0}
    return {rule: verdict for rule, _, verdict, subject in findings(report) if subject in here}


def plain_module(enquiry):
    """Numbers so small that they bound nothing."""
    module = dict(pmax=1, voc=1, isc=0.01, vmp=1, imp=0.01, isc_coefficient=0,
                  bifaciality=enquiry.get("bifaciality", 0))
    if "max_system_voltage" in enquiry:
        module["max_system_voltage"] = enquiry["max_system_voltage"]
    return module


def isolated(report, k):
    return verdicts(report, k).get("isolator") != "exceeds"


def worst_coefficients(bound, enquiry, module):
    """Ends of the range that the bound must hold for."""
    if bound.what == "string_voc":
        return [dict(module, voc_coefficient=enquiry["voc_coefficient_" + end])
                for end in ("low", "high")]
    if bound.what == "string_vmp":
        return [dict(module, vmp_coefficient=enquiry["vmp_coefficient_" + end])
                for end in ("low", "high")]
    return [module]


def try_bound(bound, job, k, share):
    """Verdicts with the bounded number at this share of the bound, over both ends of the
    coefficient; and a module of no size beside it."""
    _, inverter, site, enquiry, rules = job
    term, number = TERM_OF[bound.what], bound.value * share
    split = 1
    if bound.what == "array_power":  # a module has no more than 5000 W
        split = int(number // 4000) + 1
    found = []
    for module in worst_coefficients(bound, enquiry, plain_module(enquiry)):
        module = dict(module, **{term: number / split})
        report = pvsize.check(system(inverter, site, k, module, split, bound.strings or 1), rules)
        if not isolated(report, k):
            report = pvsize.check(system(inverter, site, k, module, split, bound.strings or 1, True),
                                  rules)
        found.append(verdicts(report, k))
    return found


def test_bounds_agree_with_the_check():
    seen = {}
    for seed in range(COUNT):
        job = job_of(seed)
        r, inverter, site, enquiry, rules = job
        page = pvsize.review(pvsize.Inverter(**inverter), rules, pvsize.Site(**site),
                             pvsize.Enquiry(**enquiry))
        for bound in page.bounds:
            k = bound.input or 0
            rule = RULE_NAMES[bound.rule]
            if bound.value is None:
                continue
            limits = LIMITS[TERM_OF[bound.what]]
            if not limits[0] <= bound.value * 0.999 <= bound.value * 1.001 <= limits[1] \
                    and bound.what != "array_power":
                continue
            side = 1 if bound.compare == "at_most" else -1
            inside = try_bound(bound, job, k, 1 - side * 1e-6)
            outside = try_bound(bound, job, k, 1 + side * 1e-6)
            assert all(v[rule] in ("meets", "marginal") for v in inside), (seed, bound, inside)
            assert any(v[rule] == "exceeds" for v in outside), (seed, bound, outside)
            # and no other rule turns with it, but those bound at the same number
            same = {RULE_NAMES[other.rule] for other in page.bounds
                    if other.what == bound.what and other.value is not None
                    and abs(other.value - bound.value) <= 2e-6 * bound.value}
            for a, b in zip(inside, outside):
                turned = {name for name in a if a[name] != "exceeds" and b.get(name) == "exceeds"
                          and SCOPES[name] != "module"
                          and not name.startswith("data_")}
                assert turned <= same, (seed, bound, turned)
            seen[bound.what] = seen.get(bound.what, 0) + 1
    assert set(seen) == set(TERM_OF)
    assert min(seen.values()) > COUNT // 2, seen


def test_governing_bounds_hold_together():
    """Just inside all bounds that must hold every must-rule on currents and voltages
    passes."""
    for seed in range(COUNT):
        r, inverter, site, enquiry, rules = job_of(f"together {seed}")
        page = pvsize.review(pvsize.Inverter(**inverter), rules, pvsize.Site(**site),
                             pvsize.Enquiry(**enquiry))
        for k in range(len(inverter["inputs"])):
            here = [b for b in page.bounds if b.input in (k, None) and b.severity == "must"
                    and b.value is not None]
            strings = r.choice(sorted({b.strings for b in here if b.strings}))
            module = plain_module(enquiry)
            for what, term in TERM_OF.items():
                high = [b.value for b in here if b.what == what and b.compare == "at_most"
                        and b.strings in (None, strings)]
                low = [b.value for b in here if b.what == what and b.compare != "at_most"]
                if what == "string_vmp" and low:
                    module[term] = max(low) * (1 + 1e-6)
                elif high and what != "array_power":
                    module[term] = min(high) * (1 - 1e-6)
            module["voc_coefficient"] = enquiry["voc_coefficient_low"]
            module["vmp_coefficient"] = enquiry["vmp_coefficient_low"]
            if not all(LIMITS[t][0] <= module[t] <= LIMITS[t][1]
                       for t in TERM_OF.values()):
                continue
            for external in (False, True):
                report = pvsize.check(system(inverter, site, k, module, 1, strings, external), rules)
                if isolated(report, k):
                    break
            here = number_of(report, "array"), number_of(report, "input", k,
                                                         number_of(report, "inverter"))
            broken = [rule for rule, severity, verdict, subject in findings(report)
                      if severity == MUST and verdict == "exceeds" and subject in here
                      and not rule.startswith(("data_", "device_", "reverse"))]
            assert not broken, (seed, k, strings, module, broken)


def test_trade_values():
    """Common practice: operating currents 22 A and 11 A, short-circuit ratings 26.4 A and
    13.2 A, factor 1.25: 10.56 A of module Isc for two strings on the one and for one on
    the other; 7.5 kW x 1.33 = 9.975 kW, 9.98 kW in data sheets."""
    wide = dict(max_voltage=600, tracking_min=80, tracking_max=560)
    inverter = pvsize.Inverter(rated_ac_power=7500, max_pv_power=9980, inputs=[
        dict(wide, max_operating_current=22, max_short_circuit_current=26.4, terminals=2),
        dict(wide, max_operating_current=11, max_short_circuit_current=13.2, terminals=1)])
    page = pvsize.review(inverter)
    isc = {(b.input, b.strings): b for b in page.bounds
           if b.what == "module_isc" and RULE_NAMES[b.rule] == "isc_input"}
    assert isc[0, 2].value == isc[1, 1].value == pytest.approx(10.56)
    assert isc[0, 1].value == pytest.approx(21.12)
    assert isc[0, 2].severity == "must" and isc[0, 2].limit == 26.4
    imp = {(b.input, b.strings): b for b in page.bounds if b.what == "module_imp"}
    assert imp[0, 2].value == imp[1, 1].value == pytest.approx(11)
    assert {b.severity for b in imp.values()} == {"note"}  # energy is lost, nothing breaks
    power = {RULE_NAMES[b.rule]: b for b in page.bounds if b.what == "array_power"}
    assert power["pv_ratio"].value == pytest.approx(9975) and power["pv_ratio"].governs
    assert power["pv_maker"].value == pytest.approx(9980) and not power["pv_maker"].governs
    remarks = {(m.name, m.input): m for m in page.remarks}
    for k in (0, 1):
        assert remarks["fault_limit_first", k].numbers[0] == pytest.approx(1.2)
        assert remarks["fault_limit_first", k].numbers[1] == pytest.approx(1.25)
        assert remarks["isolator_unknown", k].numbers == (3,)
    assert remarks["maker_rounded", None].numbers == pytest.approx((9975, 9980, 9975))
    assert remarks["unlike_inputs", None].numbers == (11, 22)
    fits = dict(pmax=333, voc=40, isc=10.56, vmp=33, imp=10.1)
    page = pvsize.review(inverter, enquiry=pvsize.Enquiry(modules=[
        fits, dict(fits, isc=10.57)]), site=pvsize.Site(temp_min=0, temp_max=40))
    strings = {(m.module, m.input): m.room.get("strings_allowed") for m in page.modules}
    assert strings[0, 0] == 2 and strings[0, 1] == 1
    assert strings[1, 0] == 1 and (1, 1) in strings and strings[1, 1] is None
    refused = [m for m in page.modules if m.module == 1 and m.input == 1][0]
    assert refused.accepted == "no"
    assert RULE_NAMES[refused.stops["refused"].rule] == "isc_input"
    assert refused.stops["refused"].value == pytest.approx(13.2125)


def modules_of(r):
    voc = r.uniform(30, 60)
    isc = r.uniform(6, 20)
    vmp, imp = voc * r.uniform(0.80, 0.86), isc * r.uniform(0.92, 0.96)
    module = dict(pmax=round(vmp * imp, 1), voc=voc, isc=isc, vmp=vmp, imp=imp,
                  voc_coefficient=r.uniform(-0.35, -0.22), isc_coefficient=r.uniform(0.02, 0.07),
                  pmax_coefficient=r.uniform(-0.42, -0.26), bifaciality=0,
                  max_system_voltage=r.choice([600, 1000, 1500]), max_series_fuse=r.choice([15, 25, 30]))
    if r.random() < 0.05:
        module["vmp"] = module["voc"] * 1.1  # contradicts itself
    return module


def passes(job, k, module, modules, strings):
    """Whether no must-rule on the array, its module, its input or the inverter's power is
    broken, with a string device and an isolator where they are needed."""
    _, inverter, site, _, rules = job
    bare = pvsize.check(pvsize.System(site=site, inverters=[inverter]), rules)
    given = {rule for rule, _, verdict, _ in findings(bare)
             if verdict in ("exceeds", "not_assessed")}

    def broken(external, device):
        job_ = system(inverter, site, k, module, modules, strings, external)
        if device:
            job_.set_part(0, "array.string_device", device)
        report = pvsize.check(job_, rules)
        return report, {rule for rule, severity, verdict, _ in findings(report)
                        if severity == MUST and verdict == "exceeds" and rule not in given}

    report, found = broken(False, None)
    external = "isolator" in found
    rating = (report.quantity("string_device_rating", array=0)
              if report.quantity("string_device_needed", array=0) == 1 else None)
    return not broken(external, rating)[1]


def test_modules_agree_with_the_check():
    counts = {"yes": 1, "incomplete": 0, "no": 0}  # data are rarely whole here
    for seed in range(COUNT // 4):
        job = job_of(f"modules {seed}")
        r, inverter, site, enquiry, rules = job
        module = modules_of(r)
        page = pvsize.review(pvsize.Inverter(**inverter), rules, pvsize.Site(**site),
                             pvsize.Enquiry(plane=0, modules=[module]))
        for row in page.modules:
            k = row.input
            single = dict(inverter, inputs=[inverter["inputs"][k]])
            here = (r, single, site, enquiry, rules)
            counts[row.accepted] += 1
            good = [n for n in range(1, 50) if passes(here, 0, module, n, 1)]
            if row.accepted == "no":
                assert not good and row.stops["refused"].rule, (seed, row)
                continue
            low, high = row.room["modules_min"], row.room["modules_max"]
            assert good == list(range(low, high + 1)), (seed, row, good)
            allowed = row.room["strings_allowed"]
            assert allowed >= 1
            for strings in range(1, min(allowed + 2, 9)):
                assert passes(here, 0, module, low, strings) == (strings <= allowed), (seed, row)
            lossless = row.room["strings_lossless"]
            limit = inverter["inputs"][k]["max_operating_current"]
            assert lossless <= allowed + 1
            assert lossless * module["imp"] <= limit * (1 + 1e-9)
            if lossless < allowed:
                assert (lossless + 1) * module["imp"] > limit
            if "modules_total" in row.room:
                stop = row.stops["modules_total"]
                assert row.room["modules_total"] * module["pmax"] <= stop.limit * (1 + 1e-9)
                assert (row.room["modules_total"] + 1) * module["pmax"] > stop.limit
    assert min(counts.values()) > 0, counts


def test_own_rules_bound_as_well():
    rules = pvsize.Rules()
    rules.add("retailer_isc", "retailer's largest current", "quantity.input_isc_max", "at_most", 12,
              source="retailer's handbook")
    number = rules.add("retailer_voltage", "retailer's largest voltage", "quantity.string_voc_cold",
                       "at_most", 0.9, limit_of="input.max_voltage")
    inverter = pvsize.Inverter(rated_ac_power=5000, inputs=[dict(
        max_voltage=600, tracking_min=80, tracking_max=560, max_operating_current=20,
        max_short_circuit_current=30)])
    page = pvsize.review(inverter, rules, pvsize.Site(temp_min=25, temp_max=40),
                         pvsize.Enquiry(voc_coefficient_low=-0.3))
    rules.close()
    own = {b.what: b for b in page.bounds if b.rule not in RULE_NAMES}
    assert own["module_isc"].governs or own["module_isc"].strings > 1
    assert [b.value for b in page.bounds if b.what == "module_isc" and b.rule not in RULE_NAMES] \
        == pytest.approx([12 / 1.25 / s for s in (1, 2, 3, 4)])
    assert own["string_voc"].rule == number and own["string_voc"].governs
    assert own["string_voc"].value == pytest.approx(540)
    assert "retailer's largest voltage" in own["string_voc"].text


def test_what_is_not_known_is_named():
    inverter = pvsize.Inverter(rated_ac_power=5000, inputs=[dict(
        max_voltage=600, tracking_min=80, tracking_max=560, max_operating_current=20,
        max_short_circuit_current=30)])
    page = pvsize.review(inverter)  # neither site nor coefficients
    bounds = {RULE_NAMES[b.rule]: b for b in page.bounds}
    assert bounds["voc_cold_input"].value is None and bounds["voc_cold_input"].limit == 600
    assert "needs site.temp_min" in bounds["voc_cold_input"].text
    assert bounds["vmp_hot_tracking"].limit == 80
    assert "enquiry.vmp_coefficient_low" in bounds["vmp_hot_tracking"].text
    site = pvsize.Site(temp_min=-3, temp_max=40, planes=[dict(mounting="raised")])
    page = pvsize.review(inverter, site=site, enquiry=pvsize.Enquiry(plane=0))
    bounds = {RULE_NAMES[b.rule]: b for b in page.bounds}
    # AS/NZS 5033:2014 table 4.1 (from memory): 1.12 from -1 to -5 degC
    assert bounds["voc_cold_input"].value == pytest.approx(600 / 1.12)


def test_every_remark_can_be_made():
    """Each remark, with the numbers that it must hold."""
    base = dict(max_voltage=600, tracking_min=100, tracking_max=500, max_operating_current=20,
                max_short_circuit_current=40, terminals=2, terminal_current=30, max_power=6000,
                full_power_min=150, full_power_max=450, start_voltage=90, isolator="built_in",
                isolator_meets_standard=True, isolator_locks_off=True, isolator_voltage=600,
                isolator_current=50)

    def remarks(inverter=None, preset="asnzs_5033_2021", **changes):
        node = {name: value for name, value in dict(base, **changes).items() if value is not None}
        site = pvsize.Site(temp_min=0, temp_max=40, building="dwelling", supply_phases=1)
        made = pvsize.review(pvsize.Inverter(**dict(
            dict(rated_ac_power=5000, max_pv_power=6000, phases=1, ac_voltage=230,
                 inputs=[node, node]), **(inverter or {}))),
            pvsize.Rules(preset), site).remarks
        return {m.name: m for m in made}

    made = remarks()
    met = set(made)
    assert made["operating_limit_first"].numbers == pytest.approx((2, 1.25, 32, 20))
    assert made["window"].numbers == (150, 450, 75, 5, 13)  # 33 V each
    assert made["terminals"].numbers == pytest.approx((2, 10, 16))
    assert made["full_power_voltage"].numbers == (125,)
    assert made["maker_governs"].numbers == pytest.approx((6650, 6000, 6000))
    cases = [
        ("limits_near", dict(max_short_circuit_current=26), (1.3, 1.25, 20.8, 20)),
        ("fault_limit_first", dict(max_short_circuit_current=24), (1.2, 1.25, 19.2, 20)),
        ("isolator_none", dict(isolator="none"), ()),
        ("isolator_no_standard", dict(isolator_meets_standard=False), ()),
        ("isolator_no_lock", dict(isolator_locks_off=False), ()),
        ("isolator_unknown", dict(isolator_locks_off=None), (1,)),
        ("isolator_voltage", dict(isolator_voltage=500), (500, 600)),
        ("isolator_current", dict(isolator_current=39), (39, 40)),
        ("terminal_rating", dict(terminal_current=15), (15, 30, 40)),
        ("window_narrow", dict(full_power_min=300), (300, 450, 37.5, 10, 13)),
        ("window_unknown", dict(full_power_max=None), (100, 500)),
        ("start_high", dict(start_voltage=120), (120, 100)),
        ("gap", dict(terminal_current=None), (1,)),
        ("contradiction", dict(start_voltage=700), (700, 600)),
        ("one_input", dict(inverter=dict(rated_ac_power=9500)), (9000, 450, 20, 9500)),
        ("ratio_governs", dict(inverter=dict(max_pv_power=9000)), (6650, 9000, 6650)),
        ("maker_rounded", dict(inverter=dict(max_pv_power=6655)), (6650, 6655, 6650)),
        ("inputs_short", dict(max_power=2000), (4000, 6000)),
        ("building", dict(preset="asnzs_5033_2014", max_voltage=1000), (600, 1000)),
    ]
    for name, changes, numbers in cases:
        assert name not in made or name in ("building",), name
        made_now = remarks(**changes)
        assert made_now[name].numbers == pytest.approx(numbers), name
        met.add(name)
    silent = pvsize.review(pvsize.Inverter(rated_ac_power=5000, inputs=[
        base, dict(base, max_operating_current=10)])).remarks
    met |= {m.name for m in silent}
    assert {"maker_silent", "unlike_inputs"} <= met
    table = pvsize.remark_table()
    assert met == set(table)
    for condition, sentence in table.values():
        assert condition and sentence and sentence.count("{") == sentence.count("}")
