# SPDX-License-Identifier: MIT
"""Invented jobs of the size of a school roof, for the integer program and the benchmark."""
import pvsize


def module(**changes):
    values = {"name": "invented 440 W module", "pmax": 440, "voc": 39.2, "isc": 14.2, "vmp": 32.6, "imp": 13.5,
              "voc_coefficient": -0.25, "isc_coefficient": 0.045, "pmax_coefficient": -0.3,
              "max_system_voltage": 1500, "max_series_fuse": 30, "bifaciality": 0}
    return pvsize.Module(**{**values, **changes})


def input_(**changes):
    values = {"max_voltage": 1000, "tracking_min": 180, "tracking_max": 850, "start_voltage": 200,
              "max_operating_current": 30, "max_short_circuit_current": 40, "terminals": 2,
              "terminal_current": 30, "isolator": "built_in", "isolator_meets_standard": True,
              "isolator_locks_off": True, "isolator_voltage": 1000, "isolator_current": 50,
              "max_power": "none"}
    return pvsize.Input(**{**values, **changes})


def inverter(inputs, watts, **changes):
    return pvsize.Inverter(rated_ac_power=watts, max_pv_power=round(watts * 1.5), phases=3, ac_voltage=230,
                           backfeed_current=0, inputs=[input_(**changes) for _ in range(inputs)])


def site(*rooms):
    yields = (1500, 1430, 1312, 1290)
    return pvsize.Site(temp_min=-2, temp_max=41, building="other_building", supply_phases=3,
                       supply_voltage=230, connection_limit="none", phase_limit="none",
                       export_limit="none",
                       planes=[pvsize.Plane(name=f"face {i + 1}", capacity=room, mounting="raised",
                                            current_correction=1, specific_yield=yields[i])
                               for i, room in enumerate(rooms)])


def question(rooms, inverters, modules=None, **values):
    system = pvsize.System(site=site(*rooms), inverters=inverters)
    return pvsize.Search(system=system, modules=modules or [module()], **values)


def two_inputs():
    """One inverter with unlike inputs, two faces."""
    unit = pvsize.Inverter(rated_ac_power=9000, max_pv_power=13500, phases=3, ac_voltage=230,
                           backfeed_current=0,
                           inputs=[input_(), input_(max_operating_current=15,
                                                    max_short_circuit_current=20, terminals=1)])
    return question((20, 12), [unit])


def twelve_inputs(kind, rooms=(93, 87, 67, 53), **values):
    """Twelve inputs, four faces with room for 300 modules; the faces are the limit where
    the inverters are large, the inverters where they are small."""
    units = {"three large": [inverter(4, 40000)] * 3, "three small": [inverter(4, 25000)] * 3,
             "six": [inverter(2, 17000)] * 6, "twelve": [inverter(1, 8200)] * 12,
             "unlike": [inverter(3, 25000), inverter(4, 33000), inverter(5, 38000)]}
    return question(rooms, units[kind], **values)
