# SPDX-License-Identifier: MIT
"""Small random questions for the search, with rule sets turned and twisted, and own
rules that are not monotone."""
import pvsize

_RAISED = ("unlike_length", "unlike_planes", "unlike_voltage", "unlike_modules", "terminals",
           "operating_current", "input_used", "pv_underload", "voc_hot_start", "vmp_cold_tracking",
           "vmp_hot_reserve", "vmp_cold_full_power", "vmp_hot_full_power")
_LOWERED = ("voc_cold_input", "vmp_hot_tracking", "isc_input", "reverse_current", "plane_room",
            "pv_ratio", "pv_maker", "isolator")

# term, lowest and highest limit
_CONSTANT = (
    ("quantity.string_voc_cold", 40, 200), ("quantity.string_vmp_hot", 30, 150),
    ("quantity.array_modules", 1, 6), ("quantity.array_power", 300, 2500),
    ("quantity.input_strings", 1, 3), ("quantity.input_power", 300, 2500),
    ("quantity.input_isc_max", 10, 40), ("quantity.inverter_pv_power", 300, 4000),
    ("quantity.array_ratio", 0.1, 1.5), ("quantity.system_pv_power", 300, 5000),
    ("quantity.system_modules", 1, 8), ("quantity.plane_modules", 1, 5),
    ("quantity.input_arrays", 0, 2), ("quantity.input_planes", 1, 2),
    ("quantity.string_device_needed", 0, 1), ("quantity.module_isc_limit", 5, 30),
    ("quantity.input_voc_lowest", 40, 200), ("quantity.string_reverse_current", 0, 30),
    ("array.modules_per_string", 1, 4), ("array.strings", 1, 3), ("array.plane", 0, 1),
    ("array.input", 0, 1), ("array.inverter", 0, 1), ("plane.tilt", 0, 40), ("module.pmax", 300, 450),
    ("input.terminals", 1, 3), ("figure.isc_factor", 1, 2))
# value, limit, lowest and highest factor
_RELATIVE = (
    ("quantity.array_power", "quantity.inverter_pv_power", 0.2, 1),
    ("quantity.array_modules", "quantity.system_modules", 0.2, 1),
    ("array.modules_per_string", "array.strings", 0.5, 3),
    ("array.strings", "array.modules_per_string", 0.3, 2),
    ("quantity.array_power", "quantity.pv_limit", 0.1, 0.8),
    ("quantity.array_modules", "plane.capacity", 0.2, 1),
    ("quantity.string_voc_cold", "input.max_voltage", 0.3, 1),
    ("quantity.input_power", "inverter.rated_ac_power", 0.1, 1),
    ("quantity.system_pv_power", "quantity.system_ac_power", 0.3, 1.5),
    ("quantity.string_vmp_cold", "quantity.string_voltage_limit", 0.3, 1),
    ("array.modules_per_string", "array.plane", 1, 3))


def _module(rng, i):
    vmp = rng.choice([31.0, 33.0, 41.0])
    imp = rng.choice([9.0, 10.0, 12.5])
    return pvsize.Module(
        name=f"M{i}", pmax=round(vmp * imp), voc=vmp * 1.2, isc=imp * 1.06, vmp=vmp, imp=imp,
        voc_coefficient=-0.27, isc_coefficient=0.04, pmax_coefficient=-0.34,
        max_system_voltage=rng.choice([150, 1000]), max_series_fuse=rng.choice([15, 20, 25]),
        bifaciality=rng.choice([0, 0, 0.7]))


def _input(rng):
    values = {
        "max_voltage": rng.choice([145, 160, 210, 300]), "tracking_min": rng.choice([20, 20, 30, 55]),
        "tracking_max": rng.choice([105, 140]), "max_operating_current": rng.choice([11, 13]),
        "max_short_circuit_current": rng.choice([14, 28, 45]), "terminals": rng.choice([1, 2]),
        "isolator": "built_in", "isolator_meets_standard": True,
        "isolator_locks_off": rng.random() < 0.95, "isolator_voltage": rng.choice([120, 600]),
        "isolator_current": rng.choice([30, 60]), "start_voltage": rng.choice([30, 70])}
    if rng.random() < 0.3:
        values["max_power"] = rng.choice([700, 1200, "none"])
    if rng.random() < 0.1:
        del values["isolator_meets_standard"]
    return values


def _inverter(rng, inputs):
    kinds = [_input(rng) for _ in range(rng.choice([1, 1, 2]))]
    values = {"rated_ac_power": rng.choice([700, 1500, 3000]), "phases": 1, "ac_voltage": 230,
              "backfeed_current": 0, "inputs": [rng.choice(kinds) for _ in range(inputs)]}
    if rng.random() < 0.5:
        values["max_pv_power"] = rng.choice([900, 2000, "none"])
    return values


def _site(rng, planes):
    ordered = rng.random() < 0.4
    faces = []
    for i in range(planes):
        face = {"name": f"P{i}", "capacity": rng.choice([0, 2, 3, 4, 5][: 5 if planes == 1 else 4]), "mounting": "raised",
                "tilt": rng.choice([10, 30]), "specific_yield": rng.choice([1200, 1350, 1500])}
        if rng.random() < 0.7:
            face["current_correction"] = rng.choice([1, 1, 1.1])
        if ordered and rng.random() < 0.8:
            face["fill_order"] = rng.randint(1, 2)
        faces.append(face)
    return pvsize.Site(temp_min=rng.choice([-10, 0]), temp_max=40, building="dwelling",
                       supply_phases=rng.choice([1, 1, 1, 1, 3]), supply_voltage=230,
                       connection_limit=rng.choice(["none", "none", 10000]), export_limit="none",
                       planes=faces)


def rules(rng):
    made = pvsize.Rules(rng.choice(["asnzs_5033_2021", "iec_62548_2016", "nfpa_70_2023"]))
    if rng.random() < 0.1:
        made = pvsize.Rules(None)
    for name in _RAISED:
        if rng.random() < 0.12:
            made.set_severity(name, "must")
    for name in _LOWERED:
        if rng.random() < 0.08:
            made.set_severity(name, "off")
    if rng.random() < 0.5:
        made.set_figure("planes_per_input", 2)
    if rng.random() < 0.1:
        made.set_severity("unlike_planes", "off")
    tells_places = False
    for i in range(rng.choice([0, 0, 0, 0, 1, 2])):
        compare = rng.choice(["at_most", "at_least", "more_than"])
        if rng.random() < 0.6:
            value, low, high = rng.choice(_CONSTANT)
            made.add(f"own_{i}", "own", value, compare, rng.uniform(low, high)
                     if rng.random() < 0.5 else round(rng.uniform(low, high)), severity="must")
        else:
            value, limit, low, high = rng.choice(_RELATIVE)
            made.add(f"own_{i}", "own", value, compare, rng.uniform(low, high), severity="must",
                     limit_of=limit)
        tells_places |= value in ("array.input", "array.inverter")
    return made, tells_places


def question(rng):
    planes = rng.choice([1, 1, 2, 2])
    shape = rng.choice([(1,), (1,), (2,), (2,), (1, 1), (3,)] if planes == 1 else
                       [(1,), (1,), (2,), (2,), (1, 1)])
    first = _inverter(rng, shape[0])
    inverters = [first] + [first if rng.random() < 0.6 else _inverter(rng, n) for n in shape[1:]]
    modules = [_module(rng, i) for i in range(rng.choice([1, 1, 1, 2]))]
    system = pvsize.System(site=_site(rng, planes), inverters=inverters)
    if sum(shape) > 1 and rng.random() < 0.2:
        system.add(pvsize.Array(inverter=0, input=0, plane=0, modules_per_string=1,
                                strings=rng.choice([1, 2]), module=modules[0]))
    made = pvsize.Search(system=system, modules=modules, answers=rng.choice([1, 3, 20, 10000]),
                         objective=rng.choice(["power", "energy", "nearest_power", "plane_order"]),
                         wanted_power=rng.choice([600, 1000, 1700]))
    if rng.random() < 0.2:
        made.wanted_modules = rng.randint(1, 6)
    if rng.random() < 0.3:
        made.shortest_string = rng.choice([1, 2])
    if rng.random() < 0.2:
        made.longest_string = rng.choice([2, 3])
    if rng.random() < 0.3:
        made.external_isolator = True
    if rng.random() < 0.4:
        made.string_devices = True
        if rng.random() < 0.7:
            made.string_device_voltage = rng.choice([100, 600])
    return made
