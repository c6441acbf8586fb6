"""The binding against the library: complete, faithful, and clear in failure."""

import pathlib
import re
import runpy

import pytest

import pvsize

ROOT = pathlib.Path(__file__).resolve().parents[3]


def module(**changes):
    values = dict(pmax=430, voc=38.8, isc=13.9, vmp=32.5, imp=13.23, voc_coefficient=-0.25,
                  isc_coefficient=0.045, pmax_coefficient=-0.29, max_system_voltage=1500)
    return {**values, **changes}


def system(modules_per_string=9, strings=2, **changes):
    given = dict(max_voltage=600, tracking_min=90, tracking_max=560, max_operating_current=28,
                 max_short_circuit_current=36, terminals=2)
    return pvsize.System(
        name="invented", site=dict(temp_min=-3, temp_max=41, building="dwelling",
                                   planes=[dict(name="north", capacity=20, mounting="close")]),
        inverters=[dict(rated_ac_power=9000, inputs=[{**given, **changes}])],
        arrays=[dict(input=0, plane=0, modules_per_string=modules_per_string, strings=strings,
                     module=module())])


def test_every_kind_has_a_class_with_its_parameters():
    for kind in pvsize.kinds():
        name = kind.title().replace("_", "")
        if not hasattr(pvsize, name):
            assert kind in ("figure", "quantity", "rule", "attribute")
            continue
        spec = getattr(pvsize, name)()
        for term in pvsize.terms(kind).values():
            assert getattr(spec, term.name) == term.default
            if term.type == "text":
                setattr(spec, term.name, "Wombat β")
                assert getattr(spec, term.name) == "Wombat β"
            elif term.choices:
                for choice in term.choices:
                    setattr(spec, term.name, choice)
                    assert getattr(spec, term.name) == choice
            else:
                setattr(spec, term.name, term.range[1])
                assert getattr(spec, term.name) == term.range[1]
            setattr(spec, term.name, None)


def test_a_job_in_ten_lines():
    report = pvsize.check(system())
    assert report.quantity("string_voc_cold") == pytest.approx(9 * 38.8 * 1.07)
    assert report.quantity("string_modules_max") == 14
    assert report.broken() == []
    assert "CAUTION" in str(report)
    finding = next(f for f in report if f.rule == "voc_cold_input")
    assert (finding.verdict, finding.severity, finding.unit) == ("meets", "must", "V")
    assert finding.margin == pytest.approx(600 - finding.value)
    assert finding.working.splitlines()[0] == "module type 1: βVoc = -0.25 %/K"


def test_without_an_index_the_first_is_meant():
    job = system(9, 1)
    job.add(pvsize.Array(input=0, plane=0, modules_per_string=8, strings=1, module=module()))
    report = pvsize.check(job)
    assert report.quantity("string_voc_cold") == report.quantity("string_voc_cold", array=0)
    assert report.quantity("string_voc_cold", array=1) == pytest.approx(8 * 38.8 * 1.07)
    assert report.working("string_voc_cold") == report.working("string_voc_cold", array=0)
    assert "array 1: " in report.working("string_voc_cold")  # each line says of what
    assert "array 2: " in report.working("string_voc_cold", array=1)


def test_a_broken_limit_is_a_finding():
    report = pvsize.check(system(modules_per_string=15, strings=1))
    assert [f.rule for f in report.broken()] == ["voc_cold_input"]
    assert report.outcome == "broken"


def test_missing_data_are_named():
    report = pvsize.check(system())
    missing = {f.rule: f.missing for f in report if f.verdict == "not_assessed"}
    assert missing["pv_maker"] == "inverter.max_pv_power"
    assert report.outcome == "incomplete"


@pytest.mark.parametrize("error, words, make", [
    (pvsize.RangeError, "module.voc: outside the allowed range; given -3 V; allowed 0.1 V",
     lambda: pvsize.Module(voc=-3)),
    (pvsize.RangeError, "not a finite number", lambda: pvsize.Module(voc=float("nan"))),
    (pvsize.RangeError, "whole", lambda: pvsize.Module(cells=1.5)),
    (pvsize.RangeError, "allowed crystalline_silicon", lambda: pvsize.Module(cell="mud")),
    (pvsize.RangeError, "too many bytes", lambda: pvsize.Module(name="x" * 201)),
    (pvsize.RangeError, "control characters", lambda: pvsize.Module(name="a\nb")),
    (pvsize.ArgumentError, "holds another type", lambda: pvsize.Module(voc="38 V")),
    (TypeError, "module.voc: the parameter holds another type of value; given '38 V'; "
     "allowed 0.1 V to 1500 V", lambda: pvsize.Module(voc="38 V")),
    (TypeError, "module.voc: the parameter holds another type of value; given '[3]'; "
     "allowed 0.1 V to 1500 V", lambda: pvsize.Module(voc=[3])),
    (TypeError, "module.cells: the parameter holds another type of value; given 'True'",
     lambda: pvsize.Module(cells=True)),
    (TypeError, "module.voc", lambda: pvsize.Module().set_numbers(voc={})),
    (ValueError, "given '[3]'; allowed crystalline_silicon", lambda: pvsize.Module(cell=[3])),
    (TypeError, "module.name: a text is needed, not 5", lambda: pvsize.Module(name=5)),
    (AttributeError, "module has no parameter 'vocc'; did you mean 'voc'?",
     lambda: pvsize.Module(vocc=39)),
    (AttributeError, "system has no parameter 'arays'; did you mean 'arrays'?",
     lambda: pvsize.System(arays=[])),
    (AttributeError, "system has no parameter 'sitee'; did you mean 'site'?",
     lambda: pvsize.System(name="x").sitee),
    (AttributeError, "module has no parameter 'wombat'; it has name, cell, pmax",
     lambda: pvsize.Module(wombat=3)),
    (KeyError, "no term 'quantity.string_voc_colt'; did you mean 'string_voc_cold'?",
     lambda: pvsize.check(system()).quantity("string_voc_colt")),
    (KeyError, "no term 'figure.isc_facter'; did you mean 'isc_factor'?",
     lambda: pvsize.Rules().figure("isc_facter")),
    (TypeError, "string_voc_cold is asked of an array, not of an input",
     lambda: pvsize.check(system()).quantity("string_voc_cold", input=1)),
    (TypeError, "string_voc_cold is asked of an array, not of an arrray",
     lambda: pvsize.check(system()).working("string_voc_cold", arrray=1)),
    (KeyError, "no kind 'arrray'; there are", lambda: system().part_number(0, "arrray.strings")),
    (KeyError, "no rule 'voc_cold_inputs'; did you mean 'voc_cold_input'?",
     lambda: pvsize.Rules().severity("voc_cold_inputs")),
    (TypeError, "system.site: a Site is needed, or its values by name, not an Inverter",
     lambda: pvsize.System(site=pvsize.Inverter())),
    (TypeError, "system.inverters: a list of inverters is needed, not {}",
     lambda: pvsize.System(inverters={})),
    (TypeError, "system.site: one site is needed, not a list", lambda: pvsize.System(site=[{}])),
    (TypeError, "system.arrays: an Array is needed, or its values by name, not 3",
     lambda: pvsize.System(arrays=[3])),
    (TypeError, "a Spec is needed, not 3", lambda: system().add(3)),
    (TypeError, "make a spec of one of the kinds", pvsize.Spec),
    (TypeError, "Module: values by name are needed, not 5", lambda: pvsize.Module(5)),
    (TypeError, "array.strings: a number is needed, not '3'",
     lambda: system().set_part(0, "array.strings", "3")),
    (TypeError, "figure.isc_factor: a number is needed, not 'x'",
     lambda: pvsize.Rules().set_figure("isc_factor", "x")),
    (KeyError, "no term 'quantity.5'", lambda: pvsize.check(system()).quantity(5)),
    (TypeError, "a Spec is needed, not a Rules", lambda: pvsize.check(pvsize.Rules())),
    (TypeError, "a Rules is needed, not 'asnzs'", lambda: pvsize.check(system(), "asnzs")),
    (TypeError, "a number is needed, not 'much'",
     lambda: pvsize.certificates.count("much", 3, 2024)),
    (TypeError, "a whole number of 32 bits is needed, not 'three'",
     lambda: pvsize.certificates.count(5000, "three", 2024)),
    (TypeError, "a text is needed, not 5", lambda: pvsize.Rules(5)),
    (pvsize.ArgumentError, "allowed asnzs_5033_2014, asnzs_5033_2021",
     lambda: pvsize.Rules("nowhere")),
    (IndexError, "Report: no row 900; it has rows 0 to", lambda: pvsize.check(system())[900]),
    (TypeError, "read by a whole number", lambda: pvsize.check(system())["phases"]),
    (IndexError, "Report: no row 0; it has no rows",
     lambda: pvsize.check(system(), pvsize.Rules(None))[0]),
    (AttributeError, "no parameter 'volts'", lambda: pvsize.Module(volts=3)),
    (pvsize.ArgumentError, "a part of module", lambda: pvsize.Module().add(pvsize.Site())),
    (pvsize.StateError, "array[0]: ", lambda: pvsize.check(pvsize.System(
        site={}, inverters=[{"inputs": [{}]}], arrays=[{"input": 0}]))),
    (pvsize.StateError, "inverter", lambda: pvsize.check(pvsize.System(site={}))),
    (pvsize.ArgumentError, "given 'nowhere'", lambda: pvsize.Rules("nowhere")),
    (KeyError, "no rule", lambda: pvsize.Rules().set_severity("nothing", "must")),
    (ValueError, "allowed off, note", lambda: pvsize.Rules().set_severity("phases", "shall")),
    (KeyError, "no term", lambda: pvsize.Rules().set_figure("pi", 3.14)),
    (pvsize.ArgumentError, "index outside", lambda: system().remove("array", 4)),
    (pvsize.RangeError, "must have a value", lambda: pvsize.Module(voc="none")),
])
def test_wrong_input(error, words, make):
    with pytest.raises(error) as caught:
        make()
    assert words in str(caught.value)


def test_what_only_looks_like_a_choice_is_refused():
    class Named:
        def __repr__(self):
            return "cigs"

    module = pvsize.Module()
    with pytest.raises(TypeError, match="module.cell: a text is needed, not cigs"):
        module.cell = Named()
    assert module.cell == "crystalline_silicon"


def test_an_error_carries_its_detail():
    with pytest.raises(pvsize.RangeError) as caught:
        pvsize.Module(voc=2000)
    error = caught.value
    assert (error.name, error.term, error.value, error.range) == (
        "out_of_range", "module.voc", 2000, (0.1, 1500))


def test_parts_are_copies():
    job = system()
    array = job.arrays[0]
    array.strings = 1
    assert job.arrays[0].strings == 2
    job.replace(0, array)
    assert job.arrays[0].strings == 1
    job.set_part(0, "array.modules_per_string", 4)
    assert job.arrays[0].modules_per_string == 4
    assert job.arrays[0].modules[0].voc == 38.8


def test_none_stated_is_an_answer():
    inverter = pvsize.Inverter(max_pv_power="none")
    assert inverter.max_pv_power == "none"
    assert inverter.to_dict() == {"max_pv_power": "none"}
    inverter.max_pv_power = None
    assert inverter.max_pv_power is None and inverter.to_dict() == {}


def test_subjects_lead_to_one_another():
    report = pvsize.check(system())
    kinds = [subject.kind for subject in report.subjects()]
    assert kinds == ["system", "site", "plane", "inverter", "input", "array", "module"]
    array = report.find("array")
    assert report.subjects()[array].owner == report.find("input")
    assert report.quantity("system_modules", subject=array) == 18
    with pytest.raises(pvsize.ArgumentError, match="input: index outside"):
        report.find("input", 3)


def test_isolators_are_parts():
    job = system()
    job.add(pvsize.Isolator(place="beside_inverter", array=0, load_break="yes",
                            meets_standard="yes", lockable="yes", category="dc_21b"))
    report = pvsize.check(job)
    isolator = report.find("isolator")
    assert report.subjects()[isolator].owner == report.find("array")
    assert report.quantity("isolator_serves", subject=isolator) == 1
    verdicts = {f.rule: f.verdict for f in report if f.subject == isolator}
    assert verdicts["isolator_category"] == "exceeds"  # AS/NZS 5033:2021 asks for DC-PV2
    assert pvsize.System(**job.to_dict()).to_dict() == job.to_dict()
    job.add(pvsize.Isolator(place="at_array", array=7))
    with pytest.raises(pvsize.StateError, match=r"isolator\[1\].array"):
        pvsize.check(job)


def test_dicts_make_the_same_job():
    job = system(max_power="none")
    again = pvsize.System(**job.to_dict())
    assert again.to_dict() == job.to_dict()
    assert str(pvsize.check(again)) == str(pvsize.check(job))


def test_rules_can_be_changed():
    rules = pvsize.Rules()
    rules.add("retailer", "at most 16 modules", "quantity.system_modules", "at_most", 16,
              severity="should", source="retailer")
    rules.add("reserve", "95 %", "quantity.string_voc_cold", "at_most", 0.5, source=None,
              limit_of="input.max_voltage")
    rules.set_figure("isc_factor", 1.4, "high site")
    rules.title = "Own"
    copy = rules.copy()
    report = pvsize.check(system(), copy)
    assert [f.rule for f in report.broken("should")] == ["retailer", "isc_input", "reserve"]
    assert copy.source("figure.isc_factor") == ("high site", "user")
    assert copy.source("voc_cold_input")[1] == "read"
    assert copy.title == "Own" and "reserve" in copy.names()
    copy.set_severity("retailer", "off")
    assert copy.severity("retailer") == "off" and rules.severity("retailer") == "should"
    copy.set_figure("isc_factor", None)
    assert copy.figure("isc_factor") is None and rules.figure("isc_factor") == 1.4


def test_reports_can_be_filled_again():
    report = pvsize.Report()
    assert pvsize.check(system(), report=report) is report
    first = str(report)
    pvsize.check(pvsize.Module(**module(vmp=40)), report=report)
    assert {f.rule for f in report} == {"data_vmp", "data_power"}
    pvsize.check(system(), report=report)
    assert str(report) == first
    assert report[-1] == report[len(report) - 1]
    with pytest.raises(IndexError):
        report[len(report)]


def test_closed_handles_are_refused():
    job = system()
    with job:
        pass
    for use in (lambda: pvsize.check(job), lambda: job.name, lambda: job.arrays, job.copy):
        with pytest.raises(pvsize.ArgumentError, match="the System was closed") as caught:
            use()
        assert caught.value.name == "null_pointer"
    assert repr(job) == "<closed>"
    report = pvsize.check(system())
    report.close()
    report.close()
    with pytest.raises(pvsize.ArgumentError, match="the Report was closed"):
        len(report)


def test_presets_and_version():
    assert "asnzs_5033_2021" in pvsize.presets()
    assert pvsize.version() == "0.1.0"
    assert "licensed person" in pvsize.caution()


def test_rule_sets_side_by_side():
    old, new = pvsize.Rules("asnzs_5033_2014"), pvsize.Rules("asnzs_5033_2021")
    assert pvsize.compare(new, new.copy(), "source") == []
    found = {d.term: d for d in pvsize.compare(old, new)}
    dwelling = found["figure.voltage_limit_dwelling"]
    assert (dwelling.first, dwelling.second, dwelling.what) == (600, 1000, ("value",))
    assert dwelling.text.startswith("figure.voltage_limit_dwelling: 600 V (AS/NZS 5033:2014")
    assert "rule.voc_cold_input" in {d.term for d in pvsize.compare(old, new, ["source"])}
    own = new.copy()
    own.set_severity("phases", "off")
    own.set_figure("isc_factor", None)
    own.add("few", "few modules", "quantity.system_modules", "at_most", 10)
    assert [(d.term, d.what, d.first, d.second) for d in pvsize.compare(new, own)] == [
        ("figure.isc_factor", ("presence",), 1.25, None),
        ("rule.phases", ("severity",), "must", "off"),
        ("rule.few", ("presence",), None, "must")]


def test_reports_side_by_side():
    job = system(16, 1, max_voltage=1000, tracking_max=850)
    old, new = (pvsize.check(job, pvsize.Rules(name))
                for name in ("asnzs_5033_2014", "asnzs_5033_2021"))
    assert pvsize.compare(new, new) == []
    (flip,) = pvsize.compare(old, new, "verdict")
    assert (flip.rule, flip.figures) == ("voc_cold_building", ("voltage_limit_dwelling",))
    assert (old[flip.first].verdict, new[flip.second].verdict) == ("exceeds", "meets")
    assert old.subjects()[flip.subject].text == "array 1"
    assert "664.26 V, at most 600 V) against meets (664.26 V, at most 1000 V); reason: " in flip.text
    iec = pvsize.check(job, pvsize.Rules("iec_62548_1_2023"))
    ratio = next(d for d in pvsize.compare(iec, new) if d.rule == "pv_ratio")
    assert (ratio.what, ratio.first, ratio.figures) == (("presence",), None, ())
    assert new[ratio.second].rule == "pv_ratio"


def test_comparisons_refuse_what_is_unlike():
    report = pvsize.check(system())
    with pytest.raises(pvsize.ArgumentError, match="the same subjects"):
        pvsize.compare(report, pvsize.check(pvsize.Module(**module())))
    with pytest.raises(TypeError, match="two rule sets or two reports"):
        pvsize.compare(report, pvsize.Rules())
    with pytest.raises(ValueError, match="allowed presence, severity"):
        pvsize.compare(report, report, "colour")


def test_all_presets_on_one_job(capsys):
    runpy.run_path(str(ROOT / "examples" / "compare_presets.py"))
    printed = capsys.readouterr().out
    head = printed.splitlines()[0].split()
    assert head == ["rule", "of", *pvsize.presets()]
    assert "figure.voltage_limit_other_building: 1500 V" in printed
    assert "CAUTION" in printed


def test_bill():
    job = system(9, 2)
    bill = pvsize.bill(job)
    modules = bill[0]
    assert (modules.item, modules.quantity, modules.measure) == ("module", 18, "pieces")
    assert modules.attributes["power"] == 430 and modules.missing is None
    assert [share[1:] for share in modules.shares] == [("array 1", 18, "quantity.array_modules")]
    assert pvsize.check(job).subjects()[modules.shares[0].subject].text == "array 1"
    pairs = next(row for row in bill if row.item == "connector_pair")
    assert (pairs.installed, pairs.quantity, pairs.allowance) == (2, 3, "figure.connector_spare")
    cable = next(row for row in bill if row.item == "cable")
    assert (cable.quantity, cable.missing) == (None, "cable.length")
    assert cable.attributes == {"circuit": "string"}
    assert bill.outcome == pvsize.check(job).outcome
    assert any(line.startswith("spare connectors") for line in bill.assumptions)
    assert "CAUTION" in str(bill) and bill.render(markdown=True).startswith("# What must")
    with pytest.raises(IndexError):
        bill[len(bill)]


def test_bill_of_listed_isolators():
    job = system(9, 2)
    job.add(pvsize.Isolator(array=0, place="at_array", voltage=1000, category="dc_pv2"))
    job.add(pvsize.Isolator(array=0, place="disconnection_point"))
    bill = pvsize.bill(job)
    rows = [row for row in bill if row.item == "dc_isolator" and row.quantity]
    assert [row.attributes["place"] for row in rows] == ["at_array"]
    listed = rows[0].attributes
    assert (listed["voltage"], listed["category"], listed["poles"]) == (1000, "dc_pv2", 4)
    assert listed["lockable"] == "yes" and "current_at_least" in listed
    point = next(row for row in bill if row.item == "disconnection_point")
    assert (point.installed, point.quantity, point.measure) == (4, 5, "pairs")


def test_bill_by_own_allowances():
    rules = pvsize.Rules()
    rules.set_figure("connector_spare", 50, "own practice")
    job = system(9, 2)
    pairs = next(row for row in pvsize.bill(job, rules) if row.item == "connector_pair")
    assert pairs.quantity == 3
    rules.set_figure("connector_spare", None)
    pairs = next(row for row in pvsize.bill(job, rules) if row.item == "connector_pair")
    assert (pairs.installed, pairs.quantity, pairs.missing) == (2, None, "figure.connector_spare")
    with pytest.raises(pvsize.ArgumentError, match="a system"):
        pvsize.bill(pvsize.Module(**module()))
def test_readings_are_judged():
    job = system()
    job.add(pvsize.Reading(array=0, string=1, irradiance=1000, cell_temp=25, voc=9 * 38.8, isc=27.8,
                           insulation=50))
    job.add(pvsize.Reading(array=0, moment=3, voc=300))
    job.add(pvsize.Reading(array=0, moment=3, voc=330))
    judgement = pvsize.judge(job)
    assert len(judgement) == 5 and judgement.count("not_judged") == 3
    voc, isc, insulation, dark, _ = judgement
    assert (voc.reading, voc.measured, voc.judged, voc.why) == (0, "voc", "fits", None)
    assert voc.value == pytest.approx(voc.expected) and voc.low < voc.value < voc.high
    assert voc.causes[0].name == "sound" and voc.alike is None
    assert isc.causes[0][:2] == ("more_strings", 1) and isc.causes[0].text.startswith("strings in")
    assert insulation.why == "reading.insulation_test" and insulation.expected is None
    assert dark.why == "reading.cell_temp" and dark.alike == pytest.approx(30 / 315 * 100)
    assert judgement[-1] == judgement[4]
    with pytest.raises(IndexError):
        judgement[5]
    assert "# Readings on the day" in judgement.render(markdown=True)
    assert pvsize.judge(job, judgement=judgement) is judgement
    with pytest.raises(pvsize.ArgumentError, match="a system"):
        pvsize.judge(pvsize.Module(**module()))
    assert job.readings[0].voc == pytest.approx(9 * 38.8) and job.readings[1].irradiance is None
    assert [row.text for row in judgement if row.judged == "differs"] == [isc.text]


def test_an_inverter_is_reviewed():
    inverter = system().inverters[0]
    site = system().site[0]
    page = pvsize.review(inverter, site=site, enquiry=pvsize.Enquiry(plane=0, modules=[module()]))
    isc = [b for b in page.bounds if b.what == "module_isc" and b.severity == "must"]
    assert [(b.input, b.strings, b.value) for b in isc] == [
        (0, 1, pytest.approx(36 / 1.25)), (0, 2, pytest.approx(36 / 2.5))]
    assert all(b.compare == "at_most" and b.governs and "must" in b.text for b in isc)
    voc = [b for b in page.bounds if b.what == "string_voc"][0]  # by the module's coefficient
    assert voc.value == pytest.approx(600 / (1 + 0.0025 * 28)) and voc.limit == 600
    row = page.modules[0]
    assert row.accepted == "incomplete" and row.missing
    assert row.room["modules_max"] == 14 and row.room["strings_allowed"] == 2
    assert row.stops["modules_max"].limit == 600 and row.stops["modules_max"].margin < 0
    assert "refused" not in row.stops
    names = {remark.name for remark in page.remarks}
    assert {"isolator_unknown", "terminals", "window_unknown", "maker_silent", "gap"} <= names
    assert names <= set(pvsize.remark_table())
    gap = [remark for remark in page.remarks if remark.name == "gap"][0]
    assert gap.term.startswith("input.") and gap.numbers[0] >= 1
    assert "# What may go on the inverter" in page.render(markdown=True)
    with pytest.raises(pvsize.ArgumentError, match="inverter"):
        pvsize.review(site)
    with pytest.raises(pvsize.StateError, match="enquiry.plane"):
        pvsize.review(inverter, enquiry=pvsize.Enquiry(plane=0))
    bare = pvsize.review(inverter, pvsize.Rules(None))
    assert bare.bounds == [] and bare.modules == []


# -- exercises ------------------------------------------------------------------

def test_an_exercise():
    with pvsize.Exercise("one_input", 1) as exercise:
        assert (exercise.level, exercise.seed, len(exercise)) == ("one_input", 1, 7)
        first, second = exercise[0], exercise[1]
        assert (first.kind, first.unit, first.answer_text) == ("module_voc_cold", "V", "39.2 V")
        assert first.tolerance == 0.1 and first.choices == {}
        assert "39.2156 V" in first.working
        assert pvsize.Mistake("stc_temperature", "took the voltage at 25 degC, as the data sheet "
                              "states it", 36.5) in first.mistakes
        assert (second.answer, second.mistakes[0].value) == ("input", "module")
        assert second.choices["maker"] == "the maker's largest array power"
        assert exercise[-1].kind == "pv_limit"
        assert "- Voc at STC: 36.5 V" in exercise.sheet(markdown=True)
        assert "common mistakes" in exercise.sheet("solution")
        report = pvsize.check(exercise.system, exercise.rules)
        assert report.quantity("string_modules_max", array=0) == exercise[2].answer
        assert exercise.rules.title.startswith("AS/NZS 5033:2021")
        with pytest.raises(IndexError):
            exercise[7]


def test_marks():
    exercise = pvsize.Exercise("one_input", 1)
    assert exercise.mark(1, "input") == exercise.mark(1, 1) == ("right", ())
    assert exercise.mark(2, 32) == ("mistaken", ("stc_temperature", "not_from_stc"))
    assert exercise.mark(2, 30.6).mark == "rounded"
    with pytest.raises(TypeError, match="asks for a number"):
        exercise.mark(0, "input")
    with pytest.raises(ValueError, match="allowed input, module"):
        exercise.mark(1, "wall")
    with pytest.raises(pvsize.RangeError, match="given: not a finite number"):
        exercise.mark(0, float("nan"))
    with pytest.raises(pvsize.ArgumentError, match="question: index outside the list"):
        exercise.mark(7, 1)
    with pytest.raises(ValueError, match="level 'hard'"):
        pvsize.Exercise("hard", 1)
    with pytest.raises(pvsize.ArgumentError, match="'nope'"):
        pvsize.Exercise("fault", 1, "nope")


def example(*words):
    return runpy.run_path(str(ROOT / "examples" / "exercise.py"))["main"](list(words))


def test_the_exercise_example(capsys):
    example("one_input", "1")
    assert "Voc at STC: 36.5 V" in capsys.readouterr().out
    example("one_input", "1", "39,2", "input", "32", "-", "-5", "--solution")
    printed = capsys.readouterr().out
    assert "39,2: right\n" in printed and "-: no answer" in printed and "2 of 7 right" in printed
    assert "32: wrong: took the voltage at 25 degC" in printed and "Solution" in printed
    example("fault", "-7", "--markdown")
    assert "# Exercise -7 of level fault" in capsys.readouterr().out


@pytest.mark.parametrize("words, message", [
    (["hard", "1"], "level 'hard'"), (["fault", "x"], "invalid int"),
    (["fault", "99999999999"], "allowed -2147483648 to 2147483647"),
    (["fault", "1", "--preset", "nope"], "'nope'"), (["one_input", "1", "volts"], "takes a number"),
    (["one_input", "1", "39", "x"], "takes one of input, module"), (["fault", "1", "77"], "allowed"),
    (["one_input", "1", "nan"], "not a finite number"), (["fault"], "required"),
    (["one_input", "1"] + ["1"] * 8, "8 answers to 7 questions"), (["fault", "1", "--x"], "--x")])
def test_the_exercise_example_refuses(capsys, words, message):
    with pytest.raises(SystemExit) as left:
        example(*words)
    assert left.value.code == 2
    assert message in capsys.readouterr().err


# -- certificates ---------------------------------------------------------------

def test_certificates():
    """The two published examples of tests/unit/test_certificates.c."""
    certificates = pvsize.certificates
    assert certificates.count(5000, 3, 2019) == 82
    assert certificates.count(6600, 1, 2024) == 74
    assert certificates.value(74, 39.3) == pytest.approx(2908.2)
    assert certificates.count(6600, 1, 2024, "five_years") == 53
    assert certificates.count(6600, 1, 2024, "one_year") == 10
    assert (certificates.first_year(), certificates.last_year()) == (2016, 2030)
    assert certificates.years(2024) == 7 and certificates.rating(4) == 1.185
    assert "= 74\n" in certificates.working(6600, 1, 2024, 39.3)
    with pytest.raises(pvsize.RangeError, match="year: outside .* allowed 2016 to 2026") as failed:
        certificates.count(6600, 1, 2027, "five_years")
    assert failed.value.range == (2016, 2026)
    with pytest.raises(ValueError, match="period 'ten_years'"):
        certificates.count(6600, 1, 2024, "ten_years")
