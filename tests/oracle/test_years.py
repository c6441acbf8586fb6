# SPDX-License-Identifier: MIT
"""pvsize.Year against year_model.py over random systems, and what must hold of any year.

PVSIZE_ORACLE_YEARS sets how many systems are compared; more take longer (a second each)."""

import math
import os

import numpy as np
import pytest
from scipy import optimize

import pvsize
import year_model

COUNT = int(os.environ.get("PVSIZE_ORACLE_YEARS", "4"))
HOURS = 36
# largest resistance of tinned class 5 conductors, ohm/km at 20 degC (IEC 60228, from memory)
OHM_PER_KM = {2.5: 8.21, 4.0: 5.09, 6.0: 3.39}


def ohm(cable):
    per_km = OHM_PER_KM[cable.section] * (1 + 0.00393 * (cable.conductor_temp - 20))
    return per_km * cable.length / 1000


def random_module(rng):
    isc, voc = rng.uniform(8, 18), rng.uniform(35, 55)
    vmp, imp = voc * rng.uniform(0.81, 0.85), isc * rng.uniform(0.93, 0.955)
    return dict(pmax=vmp * imp, voc=voc, isc=isc, vmp=vmp, imp=imp, voc_coefficient=-0.27,
                isc_coefficient=0.045, pmax_coefficient=-0.35)


def random_weather(rng, site, gaps):
    n = HOURS
    hour = np.arange(n) % 24
    day = np.clip(np.sin((hour - 5.5) / 13 * np.pi), 0, 1)
    beam = np.where(day > 0, 950 * rng.random(n) * (rng.random(n) > 0.2), 0)
    diffuse = day * rng.uniform(20, 350, n)
    temp, wind = rng.uniform(-15, 40, n), rng.uniform(0, 8, n)
    if gaps:
        for column in (beam, diffuse, temp, wind):
            column[rng.integers(0, n, 2)] = -999
    series = pvsize.Series(first_day=int(rng.integers(60, 280)), gap=-999)
    return pvsize.Weather.from_series(site, {"beam": beam, "diffuse": diffuse, "temp": temp,
                                             "wind": wind}, series)


def maybe(rng, values, chance=0.6):
    return {k: v for k, v in values.items() if rng.random() < chance}


def random_plane(rng):
    plane = dict(tilt=float(rng.uniform(0, 60)), azimuth=float(rng.uniform(0, 359)),
                 mounting=str(rng.choice(["open_rack", "raised", "close", "integrated"])))
    if rng.random() < 0.3:
        plane.update(heat_loss=float(rng.uniform(15, 30)), heat_loss_wind=float(rng.uniform(0, 7)))
    return plane


def random_input(rng, n, vmp, imp):
    scale = n * vmp
    return dict(max_voltage=1000, tracking_min=scale * rng.uniform(0.5, 1.0),
                tracking_max=scale * rng.uniform(1.02, 1.4),
                **maybe(rng, dict(start_voltage=scale * rng.uniform(0.8, 1.2),
                                  max_operating_current=imp * rng.uniform(0.4, 1.5),
                                  max_operating_power=scale * imp * rng.uniform(0.4, 1.2))))


def efficiency_points(rng, scale):
    points, voltages = [], [scale * 0.6, scale, scale * 1.3] if rng.random() < 0.7 else [None]
    for v in voltages:
        top = rng.uniform(94, 98.5)
        for load, less in ((5, 8), (10, 3.5), (20, 1.2), (50, 0), (100, 0.7)):
            points.append(dict(load=load, efficiency=top - less * rng.uniform(0.7, 1.3),
                               **({"voltage": v} if v else {})))
    return points


def random_parts(rng):
    """What a system is made of, as keyword arguments, so that limits can be changed."""
    planes = [random_plane(rng) for _ in range(2)]
    modules = [random_module(rng) for _ in range(2)]
    n = int(rng.integers(6, 14))
    vmp, imp = modules[0]["vmp"], modules[0]["imp"]
    inverters, arrays, cables = [], [], []
    for k in range(int(rng.integers(1, 3))):
        inputs = [random_input(rng, n, vmp, imp) for _ in range(int(rng.integers(1, 3)))]
        rated = n * vmp * imp * len(inputs) * rng.uniform(0.4, 1.1)
        for i in range(len(inputs)):
            for _ in range(int(rng.integers(1, 4)) if rng.random() < 0.6 else 1):
                arrays.append(dict(inverter=k, input=i, plane=int(rng.integers(0, 2)),
                                   module=int(rng.integers(0, 2)),
                                   modules_per_string=n + int(rng.integers(-1, 2)),
                                   strings=int(rng.integers(1, 3))))
        inverters.append(dict(
            rated_ac_power=rated, phases=int(rng.choice([1, 3])), ac_voltage=230, inputs=inputs,
            cos_phi=float(rng.choice([1, 0.9])), efficiency_points=efficiency_points(rng, n * vmp),
            **maybe(rng, dict(night_consumption=rng.uniform(0, 20),
                              rated_apparent_power=rated * rng.uniform(0.9, 1.1),
                              max_operating_power=rated * rng.uniform(0.8, 1.6)))))
        cables.append(dict(circuit="ac", inverter=k, conductor="class5_tinned", section=6,
                           length=rng.uniform(1, 60), conductor_temp=60))
    for i in range(len(arrays)):
        for circuit in ("string", "array"):
            if rng.random() < 0.6:
                cables.append(dict(circuit=circuit, array=i, conductor="class5_tinned",
                                   section=float(rng.choice([2.5, 4, 6])),
                                   length=rng.uniform(1, 80), conductor_temp=70))
    total = sum(i["rated_ac_power"] for i in inverters)
    site = dict(latitude=rng.uniform(-50, 50), longitude=0, time_zone=0,
                **maybe(rng, dict(export_limit=total * rng.uniform(0, 0.9))))
    outlook = dict(cover="none", soiling=rng.uniform(0, 6), power_loss=rng.uniform(0, 5),
                   blocked=str(rng.choice(["yes", "no"])))
    load = rng.uniform(0, total, HOURS) if rng.random() < 0.6 else None
    return dict(planes=planes, modules=modules, inverters=inverters, arrays=arrays,
                cables=cables, site=site, outlook=outlook, load=load)


def at_supply(seed, parts):
    """Lets inverters respond to voltage, with cables that have a reactance: a supply by row."""
    rng = np.random.default_rng(9000 + seed)
    for inverter in parts["inverters"]:
        if rng.random() < 0.8:
            start = rng.uniform(244, 254)
            inverter.update(volt_watt_start=start, volt_watt_end=start + rng.uniform(2, 10),
                            volt_watt_least=rng.uniform(0, 60))
        if rng.random() < 0.7:
            inverter["disconnect_voltage"] = rng.uniform(250, 262)
    for cable in parts["cables"]:
        if cable["circuit"] == "ac":
            cable["reactance"] = rng.uniform(0.05, 0.15)
            cable["length"] *= rng.uniform(0, 0.6)
    return rng.uniform(232, 260, HOURS)


def build(parts):
    def inverter(given):
        given = dict(given)
        return pvsize.Inverter(inputs=[pvsize.Input(**i) for i in given.pop("inputs")],
                               efficiency_points=[pvsize.EfficiencyPoint(**p) for p in
                                                  given.pop("efficiency_points")], **given)

    modules = [pvsize.Module(**m) for m in parts["modules"]]
    arrays = [pvsize.Array(**{**a, "module": modules[a["module"]]}) for a in parts["arrays"]]
    site = pvsize.Site(planes=[pvsize.Plane(**p) for p in parts["planes"]], **parts["site"])
    return pvsize.System(site=site, inverters=[inverter(i) for i in parts["inverters"]],
                         arrays=arrays, cables=[pvsize.Cable(**c) for c in parts["cables"]])


def parts_of(year, model):
    """Each ledger, and its place in the model."""
    yield ("system",), year.system
    for k in range(len(model.inverters)):
        yield ("inverter", k), year.inverter(k)
    place = 0
    for k, inverter in enumerate(model.inverters):
        for i in range(len(inverter.inputs)):
            yield ("input", k, i), year.input(place)
            place += 1
    for i in range(len(model.arrays)):
        yield ("array", i), year.array(i)


def collected(model):
    """The model's losses by ledger: those of what hangs on each added in."""
    found = {}
    for (subject, name), value in model.loss.items():
        owners = [subject]
        if subject[0] == "array":
            array = model.arrays[subject[1]]
            owners += [("input", array.inverter, array.input), ("inverter", array.inverter),
                       ("system",)]
        elif subject[0] == "input":
            owners += [("inverter", subject[1]), ("system",)]
        else:
            owners += [("system",)]
        for owner in owners if name != "output" else owners[:1] + (
                [("system",)] if subject[0] == "inverter" else []):
            found[owner, name] = found.get((owner, name), 0) + value / 1000
    return found


@pytest.mark.parametrize("supplied", [False, True])
@pytest.mark.parametrize("seed", range(1, COUNT + 1))
def test_a_year_is_what_a_plain_model_has(seed, supplied):
    rng = np.random.default_rng(1000 + seed)
    parts = random_parts(rng)
    supply = at_supply(seed, parts) if supplied else None
    system, outlook = build(parts), pvsize.Outlook(**parts["outlook"])
    weather = random_weather(rng, pvsize.Site(**parts["site"]), gaps=seed % 3 == 0)
    year = pvsize.Year(system, pvsize.Light(weather, outlook), parts["load"],
                       supply_voltage=supply)
    model = year_model.Model(system, weather, outlook, parts["load"], ohm, supply)
    want = collected(model)
    assert year.gaps == model.gaps
    worst = 0
    for key, part in parts_of(year, model):
        close = 1e-6 * max(part.reference, 1e-9)
        assert part.reference == pytest.approx(want.get((key, "reference"), 0), rel=1e-9)
        for name, value in part.losses().items():
            assert value == pytest.approx(want.get((key, name), 0), abs=close), (key, name)
            worst = max(worst, abs(value - want.get((key, name), 0)) / max(part.reference, 1e-9))
        assert part.output == pytest.approx(want.get((key, "output"), 0), abs=close), key
    print(f"largest difference of a loss: {worst:.1e} of the reference")
    for k in range(len(model.inverters)):
        assert year.inverter(k).active("ac_voltage") == model.active.get(k, 0)
        power = np.asarray(year.inverter(k).power())
        np.testing.assert_allclose(power, model.power[k], rtol=0,
                                   atol=1e-6 * parts["inverters"][k]["rated_ac_power"])


# what must hold of any year

def random_case(seed, one_voltage=False):
    rng = np.random.default_rng(5000 + seed)
    parts = random_parts(rng)
    if one_voltage:  # else a limit may bring an inverter to a voltage that it likes better
        for inverter in parts["inverters"]:
            points = inverter["efficiency_points"]
            inverter["efficiency_points"] = [{k: v for k, v in p.items() if k != "voltage"}
                                             for p in points[:5]]
    outlook = pvsize.Outlook(**{**parts["outlook"], "cover": "glass"})
    weather = random_weather(rng, pvsize.Site(**parts["site"]), gaps=seed % 4 == 0)
    return rng, parts, pvsize.Light(weather, outlook)


def all_parts(year, parts):
    yield year.system
    for k in range(len(parts["inverters"])):
        yield year.inverter(k)
    for k in range(sum(len(i["inputs"]) for i in parts["inverters"])):
        yield year.input(k)
    for k in range(len(parts["arrays"])):
        yield year.array(k)


@pytest.mark.parametrize("supplied", [False, True])
@pytest.mark.parametrize("seed", range(60))
def test_nothing_is_lost_but_what_is_in_the_ledger(seed, supplied):
    _, parts, light = random_case(seed)
    supply = at_supply(seed, parts) if supplied else None
    year = pvsize.Year(build(parts), light, parts["load"], supply_voltage=supply)
    for part in all_parts(year, parts):
        for month in range(13):
            losses, reference = part.losses(month), part.energy("reference", month)
            rest = reference - sum(losses.values()) - part.energy("output", month)
            assert abs(rest) <= 1e-9 * max(reference, 1e-6)
            for name, value in losses.items():
                if name not in ("low_light", "temperature"):
                    assert value >= -1e-9 * max(reference, 1e-6), name
    flows = {name: year.system.energy(name) for name in ("load", "used", "exported", "drawn")}
    assert year.system.output + flows["drawn"] == pytest.approx(
        flows["load"] + flows["exported"], rel=1e-9, abs=1e-9)
    assert year.system.output == pytest.approx(
        np.nansum(np.asarray(year.system.power())) / 1000, rel=1e-9, abs=1e-9)


TIGHTER = {"tracking_min": 1.15, "tracking_max": 0.9, "start_voltage": 1.2,
           "max_operating_current": 0.8, "max_operating_power": 0.8, "rated_apparent_power": 0.8,
           "cos_phi": 0.9, "night_consumption": 2, "export_limit": 0.6}


@pytest.mark.parametrize("seed", range(40))
def test_a_tighter_limit_never_gives_more(seed):
    rng, parts, light = random_case(seed, one_voltage=True)
    before = pvsize.Year(build(parts), light, parts["load"]).system
    for name, factor in TIGHTER.items():
        for holder in [parts["site"], *parts["inverters"],
                       *(i for v in parts["inverters"] for i in v["inputs"])]:
            if holder.get(name) is None:
                continue
            old = holder[name]
            holder[name] = max(old * factor, 0.5 if name == "cos_phi" else 0)
            after = pvsize.Year(build(parts), light, parts["load"]).system
            holder[name] = old
            assert after.output <= before.output + 1e-9 * before.reference, name


UNLIMITED = {"window": ["tracking_min", "tracking_max", "start_voltage"],
             "input_current": ["max_operating_current"], "input_power": ["max_operating_power"],
             "dc_power": ["max_operating_power"], "export": ["export_limit"],
             "night": ["night_consumption"]}


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("nothing", [None, "none"])
def test_a_limit_that_is_not_there_takes_nothing(seed, nothing):
    _, parts, light = random_case(seed)
    for names in UNLIMITED.values():
        for name in names:
            for holder in [parts["site"], *parts["inverters"],
                           *(i for v in parts["inverters"] for i in v["inputs"])]:
                # what sizing cannot do without may be unset, but not stated to be none
                needed = name in ("tracking_min", "tracking_max", "max_operating_current")
                if name in holder:
                    holder[name] = None if needed else nothing
    system = pvsize.Year(build(parts), light, parts["load"]).system
    for loss in UNLIMITED:
        assert system.loss(loss) == 0
        if loss != "night":
            assert system.active(loss) == 0


# at a high voltage of the supply

@pytest.mark.parametrize("seed", range(40))
def test_a_higher_voltage_or_a_longer_cable_never_gives_more(seed):
    rng, parts, light = random_case(seed)
    supply = at_supply(seed, parts)

    def power(volts):
        year = pvsize.Year(build(parts), light, parts["load"], supply_voltage=volts)
        return np.nan_to_num(np.asarray(year.system.power()))

    near = 1e-9 * sum(inverter["rated_ac_power"] for inverter in parts["inverters"])
    before = power(supply)
    assert np.all(power(supply + rng.uniform(0, 5, HOURS)) <= before + near)
    assert np.all(power(supply + 1e-6) <= before + near)
    for cable in parts["cables"]:
        if cable["circuit"] == "ac":
            cable["length"] *= 1.2
            assert np.all(power(supply) <= before + near)
            before = power(supply)
    for inverter in parts["inverters"]:
        for name, factor in (("disconnect_voltage", 0.99), ("volt_watt_start", 0.99),
                             ("volt_watt_end", 0.999), ("volt_watt_least", 0.5)):
            if name not in inverter:
                continue
            inverter[name] = max(inverter[name] * factor,
                                 inverter["volt_watt_start"] + 0.1 if name == "volt_watt_end" else 0)
            assert np.all(power(supply) <= before + near), name
            before = power(supply)


@pytest.mark.parametrize("seed", range(20))
def test_limits_out_of_reach_leave_every_bit(seed):
    _, parts, light = random_case(seed)
    supply = at_supply(seed, parts)
    for inverter in parts["inverters"]:
        inverter.update(volt_watt_start=990, volt_watt_end=1000, volt_watt_least=20,
                        disconnect_voltage=1000)
    system = build(parts)
    one, two = (pvsize.Year(system, light, parts["load"], supply_voltage=volts)
                for volts in (supply, None))
    assert {g.name for g in two.assumptions} - {g.name for g in one.assumptions} == {
        "no_supply_voltage"}
    for a, b in zip(all_parts(one, parts), all_parts(two, parts)):
        for month in range(13):
            assert a.losses(month) == b.losses(month)
            assert a.output == b.output
    assert one.system.loss("ac_voltage") == 0 == one.inverter().active("ac_voltage")
    assert bytes(one.system.power()) == bytes(two.system.power())


def test_what_a_response_leaves_is_the_root_of_its_own_voltage():
    """By brentq over random responses: rated less the slope times the volts above its start."""
    from test_sky_model import ask
    rng = np.random.default_rng(77)
    rows, want = [], []
    for _ in range(4000):
        rated, least = rng.uniform(1000, 50000), rng.uniform(0, 1) * (rng.random() < 0.9)
        start, width = rng.uniform(230, 255), 10 ** rng.uniform(-2, 1.5)
        rise = rng.choice([0, 10 ** rng.uniform(-6, -2)])
        supply, power = rng.uniform(225, 265), rng.uniform(0, rated)
        disconnect = rng.choice([math.inf, rng.uniform(235, 270)])

        def over(watts):
            share = (supply + rise * watts - start) / width
            return watts - rated * (1 - (1 - least) * min(max(share, 0), 1))

        root = 0 if over(0) >= 0 else optimize.brentq(over, 0, rated * 1.001, xtol=1e-12,
                                                      rtol=1e-15, maxiter=1000)
        held = min(power, root)
        close = abs(supply + rise * held - disconnect) < 1e-6 * disconnect
        rows.append((start, rated * (1 - least) / width, rated, rated * least, rise, disconnect,
                     supply, power))
        want.append((root, None if close else held if supply + rise * held < disconnect else 0,
                     rated))
    for (most, fed), (root, held, rated) in zip(ask("supply", rows), want):
        assert most == pytest.approx(root, abs=1e-9 * rated)
        assert held is None or fed == pytest.approx(held, abs=1e-9 * rated)


@pytest.mark.parametrize("seed", range(20))
def test_an_export_limit_is_used_up_whichever_inverter_the_voltage_holds_back(seed):
    """What one may not give at its voltage, another gives as far as the site may export."""
    _, parts, light = random_case(seed)
    supply = at_supply(seed, parts)
    parts["site"].pop("export_limit", None)
    free = pvsize.Year(build(parts), light, parts["load"], supply_voltage=supply)
    most = 0.4 * max(free.system.power(gap=0))
    parts["site"]["export_limit"] = most
    year = pvsize.Year(build(parts), light, parts["load"], supply_voltage=supply)
    load = parts["load"] if parts["load"] is not None else np.zeros(HOURS)
    want = np.minimum(np.asarray(free.system.power()), load + most)
    np.testing.assert_allclose(year.system.power(), want, rtol=1e-12, atol=1e-6)
    for name in ("ac_voltage", "ac_wiring"):
        assert year.system.loss(name) == free.system.loss(name)


@pytest.mark.parametrize("seed", range(10))
def test_a_light_that_has_served_gives_the_same_bits(seed):
    _, parts, light = random_case(seed)
    system = build(parts)
    first = pvsize.Year(system, light, parts["load"]).render()
    _, other, _ = random_case(seed + 100)
    pvsize.Year(build(other), light)
    assert pvsize.Year(system, light, parts["load"]).render() == first


@pytest.mark.parametrize("seed", range(10))
def test_equal_strings_may_be_one_array_or_several(seed):
    _, parts, light = random_case(seed)
    parts["cables"] = [c for c in parts["cables"] if c["circuit"] == "ac"]
    before = pvsize.Year(build(parts), light).system
    parts["arrays"] = [dict(a, strings=1) for a in parts["arrays"] for _ in range(a["strings"])]
    after = pvsize.Year(build(parts), light).system
    for name, value in before.losses().items():
        assert after.loss(name) == pytest.approx(value, abs=1e-9 * before.reference)


@pytest.mark.parametrize("sky", ["binned", "even", "circumsolar", "and_horizon"])
@pytest.mark.parametrize("cover", ["none", "glass", "exponential", "secant"])
def test_the_light_at_the_cells_is_that_of_the_sky_model(sky, cover):
    """By the answers of lib/physics, which test_sky_model holds to the published formulas."""
    from test_sky_model import ask
    rng, parts, _ = random_case(3)
    site = pvsize.Site(**parts["site"])
    weather = random_weather(rng, site, False)
    light = pvsize.Light(weather, pvsize.Outlook(sky=sky, cover=cover, soiling=3))
    year = pvsize.Year(build(parts), light)
    columns = {c: np.asarray(weather.column(c)) for c in ("global", "beam", "diffuse")}
    starts = [weather.time(i)[3] - 2451545 for i in range(HOURS)]
    suns = ask("over", [(s, 1 / 24, site.latitude, site.longitude) for s in starts])
    model = ["binned", "even", "circumsolar", "and_horizon"].index(sky)
    kind = ["none", "glass", "exponential", "secant"].index(cover)
    for i, array in enumerate(parts["arrays"]):
        plane = parts["planes"][array["plane"]]
        for k, got in zip((0, kind), year.array(i).irradiation()):
            rows = ask("plane", [(model, *sun, columns["beam"][h], columns["diffuse"][h],
                                  columns["global"][h], plane["tilt"], plane["azimuth"], 0.2, k)
                                 for h, sun in enumerate(suns)])
            want = np.sum(rows) / 1000 * (0.97 if got != year.array(i).irradiation()[0] else 1)
            assert got == pytest.approx(want, rel=2e-6)


def test_the_specific_yield_of_a_plane_is_that_of_a_system_without_limits():
    _, parts, light = random_case(7)
    parts["cables"], parts["arrays"] = [], parts["arrays"][:1]
    array = parts["arrays"][0]
    year = pvsize.Year(build(parts), light)
    got = light.specific_yield(pvsize.Module(**parts["modules"][array["module"]]),
                               pvsize.Plane(**parts["planes"][array["plane"]]))
    assert got == pytest.approx(year.array(0).specific_yield, rel=1e-12)


@pytest.mark.parametrize("seed", range(4))
def test_hours_are_the_same_alone_and_among_many(seed):
    """Hours are computed many at once; none may look at another but for the start."""
    rng, parts, _ = random_case(seed)
    site, days = pvsize.Site(**parts["site"]), 45
    columns = {"beam": [], "diffuse": [], "temp": [], "wind": []}
    for _ in range(days):
        weather = random_weather(rng, site, gaps=False)
        for name, values in columns.items():
            values.extend(weather.column(name)[:24])
    system = build(parts)

    def power(first, count):
        piece = {name: values[24 * first:24 * (first + count)] for name, values in columns.items()}
        series = pvsize.Series(first_day=1 + first)
        year = pvsize.Year(system, pvsize.Light(pvsize.Weather.from_series(site, piece, series)))
        return list(year.system.power())

    every = power(0, days)
    for first, count in ((0, 1), (9, 13), (30, 1), (44, 1)):
        assert power(first, count) == every[24 * first:24 * (first + count)]


@pytest.mark.parametrize("seed", range(12))
def test_like_inputs_are_computed_once_and_counted_each(seed):
    _, parts, light = random_case(seed)
    inputs = [parts["inverters"][0]["inputs"][0]] * 5
    inputs[3] = dict(inputs[3], start_voltage=inputs[3].get("start_voltage", 100) * 1.2)
    parts["inverters"] = [dict(parts["inverters"][0], inputs=inputs)]
    parts["arrays"] = [dict(parts["arrays"][0], inverter=0, input=i) for i in range(5)]
    parts["cables"] = []
    year = pvsize.Year(build(parts), light)
    for i, given in enumerate(inputs):  # so little that nothing but the likeness goes
        inputs[i] = dict(given, tracking_max=given["tracking_max"] * (1 + (i + 1) * 1e-12))
    other = pvsize.Year(build(parts), light)
    for one, two in zip(all_parts(year, parts), all_parts(other, parts)):
        assert one.output == pytest.approx(two.output, rel=1e-9)
        for name, value in one.losses().items():
            assert two.loss(name) == pytest.approx(value, abs=1e-9 * one.reference), name
            assert two.active(name) == one.active(name)
