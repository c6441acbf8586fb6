# SPDX-License-Identifier: MIT
"""The search and the ranking through the binding, on an invented job."""
import threading

import pytest

import pvsize


def question(**values):
    module = pvsize.Module(name="M", pmax=330, voc=39.2, isc=10.5, vmp=32.6, imp=10.12, voc_coefficient=-0.25,
                           isc_coefficient=0.045, pmax_coefficient=-0.3, max_system_voltage=1000,
                           max_series_fuse=25, bifaciality=0)

    def input_(operating, fault, terminals):
        return pvsize.Input(max_voltage=600, tracking_min=100, tracking_max=550, start_voltage=120,
                            max_operating_current=operating, max_short_circuit_current=fault,
                            terminals=terminals, terminal_current=30, max_power="none",
                            isolator="built_in", isolator_meets_standard=True, isolator_locks_off=True,
                            isolator_voltage=600, isolator_current=50)

    inverter = pvsize.Inverter(name="V", rated_ac_power=7000, max_pv_power=9500, phases=1, ac_voltage=230,
                               backfeed_current=0, inputs=[input_(22, 27, 2), input_(11, 14, 1)])
    planes = [pvsize.Plane(name=name, capacity=room, mounting="raised", current_correction=1,
                           specific_yield=energy)
              for name, room, energy in (("long side", 16, 1500), ("short side", 12, 1350))]
    site = pvsize.Site(temp_min=0, temp_max=40, building="dwelling", supply_phases=1,
                       supply_voltage=230, connection_limit="none", export_limit="none",
                       phase_limit="none", planes=planes)
    return pvsize.Search(system=pvsize.System(site=site, inverters=[inverter]), modules=[module], **values)


def test_answers():
    found = pvsize.search(question(answers=3))
    assert found.ending == "proven" and not found.complete and len(found) == 3
    best = found[0]
    assert best.power == found.bound == 28 * 330
    assert best.modules == 28 and best.outcome == "holds" and best.devices == 0
    assert sum(a.modules_per_string * a.strings for a in best.arrays) == 28
    assert best.energy == pytest.approx(16 * 0.33 * 1500 + 12 * 0.33 * 1350)
    assert best.report().quantity("system_pv_power") == best.power
    assert len(best.system().arrays) == len(best.arrays)
    assert "long side" in str(best)
    assert [layout.power for layout in found] == sorted((l.power for l in found), reverse=True)
    assert found[-1].power == found[2].power
    with pytest.raises(IndexError):
        found[3]


def test_obstacles():
    found = pvsize.search(question())
    assert {o.rule for o in found.obstacles} >= {"isc_input", "plane_room"}
    obstacle = next(o for o in found.obstacles if o.rule == "isc_input" and o.input == 1)
    assert obstacle.limit == 14 and obstacle.value == pytest.approx(2 * 1.25 * 10.5)
    assert obstacle.margin < 0 and "missed by" in obstacle.text
    none = pvsize.search(question(shortest_string=15))
    assert len(none) == 0 and none.bound is None and none.complete
    assert any(o.rule == "voc_cold_input" for o in none.obstacles)
    wanted = pvsize.search(question(wanted_modules=29))
    miss = next(o for o in wanted.obstacles if o.rule is None)
    assert (miss.value, miss.limit) == (28, 29)


def test_options_of_the_question():
    assert pvsize.search(question(wanted_modules=20))[0].modules == 20
    near = pvsize.search(question(objective="nearest_power", wanted_power=8000))[0]
    assert near.power == 24 * 330  # 7920 W; 8250 W is farther
    energy = pvsize.search(question(objective="energy"))
    assert energy[0].energy == pytest.approx(energy.bound)
    with pytest.raises(pvsize.RangeError):
        question(answers=0)
    with pytest.raises(pvsize.StateError, match="wanted_power"):
        pvsize.search(question(objective="nearest_power"))


def test_flag():
    flag = pvsize.Flag()
    thread = threading.Thread(target=flag.raise_)
    thread.start()
    thread.join()
    assert pvsize.search(question(), cancel=flag).ending == "cancelled"
    budget = pvsize.search(question(node_budget=3))
    assert budget.ending == "budget" and budget.nodes == 3


def test_ranking():
    search = question()
    other = search.parts("system")[0].parts("inverter")[0]
    other.rated_ac_power = 3000
    system = search.parts("system")[0]
    system.add(other)
    search.replace(0, system)
    whole = pvsize.Ranking(search, most=5)
    assert whole.add_shard() == 2
    assert whole.judged == (2, 2, 0)
    assert [(pair.module, pair.inverter) for pair in whole] == [(0, 0), (0, 1)]
    assert whole[0].power == 28 * 330 and whole[1].power <= 3990
    parts = [pvsize.Ranking(search, most=5) for _ in range(2)]
    for i, part in enumerate(parts):
        part.add_shard(i, 2)
    parts[1].merge(parts[0])
    assert list(parts[1]) == list(whole)
    fed = pvsize.Ranking(search, most=5)
    for i, inverter in enumerate(system.parts("inverter")):
        assert fed.add(search.parts("module")[0], inverter, 0, i)
    assert list(fed) == list(whole)
    all_ = pvsize.Ranking(search, most=5)
    assert all_.add_all(search.parts("module"), system.parts("inverter")) == 2
    assert list(all_) == list(whole)
    assert all_.add_all((module for module in search.parts("module")), [], 4) == 0
    with pytest.raises(pvsize.ArgumentError, match=r"module\[0\]"):
        all_.add_all(search.parts("module"), search.parts("module"))
    with pytest.raises(pvsize.RangeError, match="first_module"):
        all_.add_all(search.parts("module"), [], -1)


def test_the_table_of_growth_is_true():
    """What growth.def states of a quantity, tried on an input alone and in company."""
    import pathlib
    import re
    rows = re.findall(r"^GROWS\(QUANTITY_(\w+), (\w+), (\w+), (\w+)\)",
                      (pathlib.Path(__file__).resolve().parents[3] / "lib/tables/growth.def").read_text(),
                      re.M)
    rows = [row for row in rows if not row[0].startswith("CABLE_")]  # the search makes none
    rules = pvsize.Rules()

    def values(n, s, company):
        search = question()
        system = search.parts("system")[0]
        module = search.parts("module")[0]
        system.add(pvsize.Array(input=0, plane=0, modules_per_string=n, strings=s, module=module))
        if company:
            system.add(pvsize.Array(input=1, plane=1, modules_per_string=5, strings=1, module=module))
        report = pvsize.check(system, rules)
        return {row[0]: report.quantity(row[0].lower()) for row in rows}

    base = values(6, 2, False)
    longer, more, company = values(12, 2, False), values(6, 4, False), values(6, 2, True)
    for name, reach, length, strings in rows:
        if base[name] is None:
            continue
        assert company[name] == base[name], name
        if length == "FLAT":
            assert longer[name] == base[name], name
        if length == "UP":
            assert longer[name] == pytest.approx(2 * base[name]), name
        if strings == "FLAT":
            assert more[name] == base[name], name
        if strings == "UP":
            assert more[name] >= base[name], name
        if reach == "FIXED":
            assert longer[name] == more[name] == base[name], name
