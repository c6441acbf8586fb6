"""Printed from the tables of the library by print_kinds.py, not by hand.

SPDX-License-Identifier: MIT
"""

import typing
from typing import Literal

from ._spec import Spec

_Get = typing.TypeVar("_Get", covariant=True)
_Set = typing.TypeVar("_Set", contravariant=True)

class _Parameter(typing.Generic[_Get, _Set]):
    """Reads as the first type and takes the second."""
    def __get__(self, owner: Spec, kind: typing.Any) -> _Get: ...
    def __set__(self, owner: Spec, value: _Set) -> None: ...

class Module(Spec):
    """PV module type, as its data sheet states it at STC."""
    def __init__(self, *,
                 name: str | None = ...,
                 cell: Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"] | None = ...,
                 pmax: float | None = ...,
                 voc: float | None = ...,
                 isc: float | None = ...,
                 vmp: float | None = ...,
                 imp: float | None = ...,
                 voc_coefficient: float | Literal["none"] | None = ...,
                 voc_coefficient_absolute: float | Literal["none"] | None = ...,
                 isc_coefficient: float | Literal["none"] | None = ...,
                 isc_coefficient_absolute: float | Literal["none"] | None = ...,
                 pmax_coefficient: float | Literal["none"] | None = ...,
                 vmp_coefficient: float | Literal["none"] | None = ...,
                 vmp_coefficient_absolute: float | Literal["none"] | None = ...,
                 nmot: float | Literal["none"] | None = ...,
                 cells: int | Literal["none"] | None = ...,
                 bifaciality: float | Literal["none"] | None = ...,
                 max_system_voltage: float | Literal["none"] | None = ...,
                 max_series_fuse: float | Literal["none"] | None = ...,
                 length: float | Literal["none"] | None = ...,
                 width: float | Literal["none"] | None = ...,
                 mass: float | Literal["none"] | None = ...,
                 power_tolerance_minus: float | Literal["none"] | None = ...,
                 power_tolerance_plus: float | Literal["none"] | None = ...,
                 voc_tolerance: float | Literal["none"] | None = ...,
                 isc_tolerance: float | Literal["none"] | None = ...,
                 thickness: float | Literal["none"] | None = ...,
                 bypass_diodes: int | Literal["none"] | None = ...,
                 voc_by_light: float | None = ...,
                 ) -> None: ...
    # label of the module type
    name: _Parameter[str | None, str | None]
    # cell technology, crystalline_silicon unless given
    cell: _Parameter[Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"], Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"] | None]
    # maximum power at STC [W], 0.1 to 5000
    pmax: _Parameter[float | None, float | None]
    # open-circuit voltage at STC [V], 0.1 to 1500
    voc: _Parameter[float | None, float | None]
    # short-circuit current at STC [A], 0.01 to 200
    isc: _Parameter[float | None, float | None]
    # voltage at maximum power at STC [V], 0.1 to 1500
    vmp: _Parameter[float | None, float | None]
    # current at maximum power at STC [A], 0.01 to 200
    imp: _Parameter[float | None, float | None]
    # temperature coefficient of Voc [%/K], -2 to 2
    voc_coefficient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of Voc where the data sheet gives it in V/K [V/K], -10 to 10
    voc_coefficient_absolute: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of Isc [%/K], -1 to 1
    isc_coefficient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of Isc where the data sheet gives it in A/K [A/K], -1 to 1
    isc_coefficient_absolute: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of maximum power [%/K], -2 to 2
    pmax_coefficient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of Vmp, where the maker states one [%/K], -2 to 2
    vmp_coefficient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature coefficient of Vmp where the data sheet gives it in V/K [V/K], -10 to 10
    vmp_coefficient_absolute: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # nominal module operating temperature [°C], 20 to 90
    nmot: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # cells in series, 1 to 1000
    cells: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # bifaciality of Isc; 0 for a monofacial module, 0 to 1
    bifaciality: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # maximum system voltage (IEC 61730-1) [V], 10 to 3000
    max_system_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # maximum overcurrent protection rating (maximum series fuse) [A], 0.1 to 400
    max_series_fuse: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # length of the frame [mm], 10 to 5000
    length: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # width of the frame [mm], 10 to 5000
    width: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # mass [kg], 0.01 to 500
    mass: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # how far Pmax may fall below the rating [%], 0 to 50
    power_tolerance_minus: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # how far Pmax may lie above the rating [%], 0 to 50
    power_tolerance_plus: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # production tolerance of Voc, plus or minus; the voltage rules take the rated Voc [%], 0 to
    # 20
    voc_tolerance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # production tolerance of Isc, plus or minus; the current rules take the rated Isc [%], 0 to
    # 20
    isc_tolerance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # thickness of the frame, for clamps [mm], 1 to 500
    thickness: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # bypass diodes in series, 1 to 100
    bypass_diodes: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # rise of Voc with the natural logarithm of irradiance, as a share of Voc at STC; ideal diode
    # law: 72 cells with n = 1.1 give 0.047, 54 with n = 1.3 give 0.055, 0 to 0.2, 0.05 unless
    # given
    voc_by_light: _Parameter[float, float | None]

class Input(Spec):
    """d.c. input of an inverter with its own maximum-power-point tracker."""
    def __init__(self, *,
                 name: str | None = ...,
                 max_voltage: float | None = ...,
                 tracking_min: float | None = ...,
                 tracking_max: float | None = ...,
                 full_power_min: float | Literal["none"] | None = ...,
                 full_power_max: float | Literal["none"] | None = ...,
                 start_voltage: float | Literal["none"] | None = ...,
                 max_operating_current: float | None = ...,
                 max_short_circuit_current: float | None = ...,
                 terminals: int | Literal["none"] | None = ...,
                 terminal_current: float | Literal["none"] | None = ...,
                 max_power: float | Literal["none"] | None = ...,
                 isolator: Literal["none", "built_in"] | None = ...,
                 isolator_meets_standard: Literal["no", "yes"] | bool | None = ...,
                 isolator_locks_off: Literal["no", "yes"] | bool | None = ...,
                 isolator_voltage: float | Literal["none"] | None = ...,
                 isolator_current: float | Literal["none"] | None = ...,
                 other_source: Literal["no", "yes"] | bool | None = ...,
                 max_operating_power: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # label of the input, as marked on the inverter
    name: _Parameter[str | None, str | None]
    # absolute maximum d.c. voltage [V], 1 to 3000
    max_voltage: _Parameter[float | None, float | None]
    # lower end of the tracking window [V], 0.1 to 3000
    tracking_min: _Parameter[float | None, float | None]
    # upper end of the tracking window [V], 0.1 to 3000
    tracking_max: _Parameter[float | None, float | None]
    # lower end of the window in which full power is reached [V], 0.1 to 3000
    full_power_min: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # upper end of the window in which full power is reached [V], 0.1 to 3000
    full_power_max: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # voltage at which the input starts to feed in [V], 0.1 to 3000
    start_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest operating current; beyond it energy is lost [A], 0.01 to 5000
    max_operating_current: _Parameter[float | None, float | None]
    # short-circuit rating (Isc PV of IEC 62109-1) [A], 0.01 to 5000
    max_short_circuit_current: _Parameter[float | None, float | None]
    # pairs of string terminals, 1 to 100
    terminals: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # rated current of one pair of terminals [A], 0.01 to 1000
    terminal_current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest array power at STC that the maker allows on this input [W], 1 to 1e+07
    max_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # d.c. isolator in the inverter
    isolator: _Parameter[Literal["none", "built_in"] | None, Literal["none", "built_in"] | None]
    # the built-in isolator meets IEC 60947-3
    isolator_meets_standard: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # the built-in isolator can be locked in the off position
    isolator_locks_off: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # rated voltage of the built-in isolator [V], 1 to 3000
    isolator_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rated current of the built-in isolator at that voltage [A], 0.1 to 5000
    isolator_current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # another source, such as a battery, can feed current into the arrays on it; where nothing is
    # said, none does
    other_source: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # largest d.c. power that this input draws; beyond it energy is lost [W], 1 to 1e+07
    max_operating_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class Inverter(Spec):
    """inverter (power conversion equipment)."""
    def __init__(self, *,
                 name: str | None = ...,
                 rated_ac_power: float | None = ...,
                 rated_apparent_power: float | Literal["none"] | None = ...,
                 max_ac_current: float | Literal["none"] | None = ...,
                 phases: int | Literal["none"] | None = ...,
                 ac_voltage: float | Literal["none"] | None = ...,
                 max_pv_power: float | Literal["none"] | None = ...,
                 separated: Literal["no", "yes"] | bool | None = ...,
                 backfeed_current: float | Literal["none"] | None = ...,
                 cooling: Literal["natural", "fan"] | None = ...,
                 night_consumption: float | Literal["none"] | None = ...,
                 european_efficiency: float | Literal["none"] | None = ...,
                 cec_efficiency: float | Literal["none"] | None = ...,
                 ac_device: float | Literal["none"] | None = ...,
                 phase: int | Literal["none"] | None = ...,
                 cos_phi: float | None = ...,
                 max_operating_power: float | Literal["none"] | None = ...,
                 volt_watt_start: float | Literal["none"] | None = ...,
                 volt_watt_end: float | Literal["none"] | None = ...,
                 volt_watt_least: float | Literal["none"] | None = ...,
                 disconnect_voltage: float | Literal["none"] | None = ...,
                 input: Input | dict[str, typing.Any] = ...,
                 efficiency_point: EfficiencyPoint | dict[str, typing.Any] = ...,
                 inputs: typing.Sequence[Input | dict[str, typing.Any]] = ...,
                 efficiency_points: typing.Sequence[EfficiencyPoint | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the inverter
    name: _Parameter[str | None, str | None]
    # rated a.c. active power [W], 1 to 1e+07
    rated_ac_power: _Parameter[float | None, float | None]
    # rated a.c. apparent power [VA], 1 to 1e+07
    rated_apparent_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest continuous a.c. current, per phase [A], 0.01 to 20000
    max_ac_current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # a.c. phases, 1 to 3
    phases: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # nominal a.c. voltage, phase to neutral [V], 50 to 1000
    ac_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest array power at STC that the maker allows [W], 1 to 1e+07
    max_pv_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # d.c. and a.c. sides are galvanically separated
    separated: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # largest current fed back into the array (IEC 62109-1) [A], 0 to 5000
    backfeed_current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # cooling of the enclosure
    cooling: _Parameter[Literal["natural", "fan"] | None, Literal["natural", "fan"] | None]
    # power drawn from the supply at night [W], 0 to 10000
    night_consumption: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # European weighted efficiency (EN 50530), for want of single points [%], 50 to 99.9
    european_efficiency: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # efficiency weighted as the California Energy Commission does, for want of single points [%],
    # 50 to 99.9
    cec_efficiency: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rating of the overcurrent device fitted in its a.c. circuit [A], 0.1 to 6000
    ac_device: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # phase of the supply that it is on, the first of two; not of a three-phase one, 1 to 3
    phase: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # power factor at its largest current; reactive power is taken as supplied, which raises the
    # voltage further, 0.1 to 1, 1.0 unless given
    cos_phi: _Parameter[float, float | None]
    # largest d.c. power that all inputs together draw; beyond it energy is lost [W], 1 to 1e+07
    max_operating_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # voltage at its terminals, phase to neutral, above which it reduces its power (volt-watt
    # response; AS/NZS 4777.2:2020, region A: 253 V) [V], 50 to 1000
    volt_watt_start: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # voltage at its terminals, phase to neutral, at which the volt-watt reduction ends (AS/NZS
    # 4777.2:2020, region A: 260 V) [V], 50 to 1000
    volt_watt_end: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # power that the volt-watt reduction leaves at its end, in percent of the rated a.c. power
    # (AS/NZS 4777.2:2020, region A: 20 %) [%], 0 to 100
    volt_watt_least: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # mean voltage at its terminals, phase to neutral, above which it disconnects (sustained, of
    # 10 minutes; AS/NZS 4777.2:2020, region A: 258 V, from memory) [V], 50 to 1000
    disconnect_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    @property
    def inputs(self) -> tuple[Input, ...]: ...
    @property
    def efficiency_points(self) -> tuple[EfficiencyPoint, ...]: ...

class EfficiencyPoint(Spec):
    """one measured point of the inverter's conversion efficiency."""
    def __init__(self, *,
                 load: float | None = ...,
                 voltage: float | Literal["none"] | None = ...,
                 efficiency: float | None = ...,
                 ) -> None: ...
    # a.c. power as a share of the rating [%], 0.1 to 200
    load: _Parameter[float | None, float | None]
    # d.c. voltage at the point [V], 0.1 to 3000
    voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # conversion efficiency at the point [%], 1 to 100
    efficiency: _Parameter[float | None, float | None]

class Site(Spec):
    """place, building and supply."""
    def __init__(self, *,
                 name: str | None = ...,
                 temp_min: float | None = ...,
                 temp_max: float | None = ...,
                 building: Literal["dwelling", "other_building", "not_on_building"] | None = ...,
                 supply_phases: int | Literal["none"] | None = ...,
                 supply_voltage: float | Literal["none"] | None = ...,
                 connection_limit: float | Literal["none"] | None = ...,
                 export_limit: float | Literal["none"] | None = ...,
                 export_control: Literal["none", "current_sensor", "meter"] | None = ...,
                 supply_voltage_highest: float | Literal["none"] | None = ...,
                 phase_limit: float | Literal["none"] | None = ...,
                 busbar_rating: float | Literal["none"] | None = ...,
                 busbar_device: float | Literal["none"] | None = ...,
                 latitude: float | Literal["none"] | None = ...,
                 longitude: float | Literal["none"] | None = ...,
                 elevation: float | None = ...,
                 time_zone: float | Literal["none"] | None = ...,
                 albedo: float | None = ...,
                 busbar_rule: Literal["sum", "opposite_end", "devices", "centre_fed", "feeder"] | None = ...,
                 busbar_devices: float | Literal["none"] | None = ...,
                 job_date: int | Literal["none"] | None = ...,
                 agreement_from: int | Literal["none"] | None = ...,
                 agreement_until: int | Literal["none"] | None = ...,
                 plane: Plane | dict[str, typing.Any] = ...,
                 month: Month | dict[str, typing.Any] = ...,
                 planes: typing.Sequence[Plane | dict[str, typing.Any]] = ...,
                 months: typing.Sequence[Month | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the site
    name: _Parameter[str | None, str | None]
    # lowest expected temperature: the mean of the yearly minima, not the minimum of a typical
    # year [°C], -90 to 50
    temp_min: _Parameter[float | None, float | None]
    # highest expected ambient temperature [°C], -40 to 70
    temp_max: _Parameter[float | None, float | None]
    # class of building that carries the array
    building: _Parameter[Literal["dwelling", "other_building", "not_on_building"] | None, Literal["dwelling", "other_building", "not_on_building"] | None]
    # phases of the supply, 1 to 3
    supply_phases: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # nominal voltage of the supply, phase to neutral [V], 50 to 1000
    supply_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest total inverter rating that the network agreed to [VA], 1 to 1e+08
    connection_limit: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest export that the network agreed to [W], 0 to 1e+08
    export_limit: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # what measures the export at the connection point, none unless given
    export_control: _Parameter[Literal["none", "current_sensor", "meter"], Literal["none", "current_sensor", "meter"] | None]
    # voltage at the point of supply on a sunny day of low load, phase to neutral [V], 50 to 1000
    supply_voltage_highest: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # largest inverter rating on one phase that the network agreed to [VA], 1 to 1e+07
    phase_limit: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rating of the busbar that the inverters feed [A], 1 to 10000
    busbar_rating: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # overcurrent device that protects that busbar from the supply [A], 1 to 10000
    busbar_device: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # latitude, north positive [deg], -90 to 90
    latitude: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # longitude, east positive [deg], -180 to 180
    longitude: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # height above the sea [m], -450 to 9000, 0.0 unless given
    elevation: _Parameter[float, float | None]
    # standard time ahead of universal time, without daylight saving [h], -12 to 14
    time_zone: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # share of the light that the ground reflects, 0 to 1, 0.2 unless given
    albedo: _Parameter[float, float | None]
    # which of the rules for the busbar is relied on, opposite_end unless given
    busbar_rule: _Parameter[Literal["sum", "opposite_end", "devices", "centre_fed", "feeder"], Literal["sum", "opposite_end", "devices", "centre_fed", "feeder"] | None]
    # sum of the ratings of all devices on the busbar, of loads and inverters, but not of the one
    # that protects it [A], 0 to 100000
    busbar_devices: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # date on which the agreement must be in force, as year, month and day in one number:
    # 20260131, 1.90001e+07 to 2.99912e+07
    job_date: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # first day on which the network's agreement and its limits hold, in the same form,
    # 1.90001e+07 to 2.99912e+07
    agreement_from: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # last day on which they hold, in the same form, 1.90001e+07 to 2.99912e+07
    agreement_until: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    @property
    def planes(self) -> tuple[Plane, ...]: ...
    @property
    def months(self) -> tuple[Month, ...]: ...

class Plane(Spec):
    """roof face or other surface that carries modules."""
    def __init__(self, *,
                 name: str | None = ...,
                 tilt: float | Literal["none"] | None = ...,
                 azimuth: float | Literal["none"] | None = ...,
                 capacity: int | Literal["none"] | None = ...,
                 mounting: Literal["open_rack", "raised", "close", "integrated"] | None = ...,
                 cell_rise: float | Literal["none"] | None = ...,
                 current_correction: float | Literal["none"] | None = ...,
                 heat_loss: float | Literal["none"] | None = ...,
                 heat_loss_wind: float | Literal["none"] | None = ...,
                 specific_yield: float | Literal["none"] | None = ...,
                 fill_order: int | Literal["none"] | None = ...,
                 ) -> None: ...
    # label of the plane
    name: _Parameter[str | None, str | None]
    # tilt from horizontal [deg], 0 to 180
    tilt: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # direction faced, clockwise from true north [deg], 0 to 360
    azimuth: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # modules that fit on the plane, 0 to 1e+06
    capacity: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # how the modules are mounted
    mounting: _Parameter[Literal["open_rack", "raised", "close", "integrated"] | None, Literal["open_rack", "raised", "close", "integrated"] | None]
    # cell temperature above ambient on a hot afternoon; overrides the rule set's figure for the
    # mounting [K], 0 to 80
    cell_rise: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # factor on Isc for bifacial, tracked or vertical arrays, snow or altitude; where none is
    # given, what a bifacial module calls for, else 1, 1 to 3
    current_correction: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # heat that the modules lose without wind, by kelvin above ambient (IEC 61853-2) [W/(m2 K)], 5
    # to 60
    heat_loss: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # heat that they lose more for each m/s of wind (IEC 61853-2) [W s/(m3 K)], 0 to 20
    heat_loss_wind: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # yearly energy expected of 1 kW at STC on the plane; what a search for energy weighs planes
    # by [kWh/kW], 0 to 5000
    specific_yield: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # place in the order in which a search fills the planes, the lowest first; without one, last,
    # 1 to 1000
    fill_order: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]

class Array(Spec):
    """equal strings of one module type, on one plane, on one input."""
    def __init__(self, *,
                 name: str | None = ...,
                 inverter: int | None = ...,
                 input: int | None = ...,
                 plane: int | None = ...,
                 modules_per_string: int | None = ...,
                 strings: int | None = ...,
                 external_isolator: Literal["no", "yes"] | bool | None = ...,
                 string_device: float | Literal["none"] | None = ...,
                 string_device_voltage: float | Literal["none"] | None = ...,
                 strings_per_device: int | None = ...,
                 array_device: float | Literal["none"] | None = ...,
                 array_device_voltage: float | Literal["none"] | None = ...,
                 module: Module | dict[str, typing.Any] = ...,
                 modules: typing.Sequence[Module | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the array
    name: _Parameter[str | None, str | None]
    # inverter the strings go to, 0.0 unless given
    inverter: _Parameter[int, int | None]
    # input of that inverter
    input: _Parameter[int | None, int | None]
    # plane that carries the modules
    plane: _Parameter[int | None, int | None]
    # modules in series in each string, 1 to 10000
    modules_per_string: _Parameter[int | None, int | None]
    # strings in parallel, 1 to 10000
    strings: _Parameter[int | None, int | None]
    # a load-break d.c. isolator is fitted beside the inverter, no unless given
    external_isolator: _Parameter[Literal["no", "yes"], Literal["no", "yes"] | bool | None]
    # rating of the overcurrent device in the strings; none: there is no device [A], 0.1 to 6000
    string_device: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rated d.c. voltage of that device [V], 1 to 3000
    string_device_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # strings grouped under one device, 1 to 100, 1.0 unless given
    strings_per_device: _Parameter[int, int | None]
    # rating of the overcurrent device of the whole array, where it joins others; none: there is
    # no device [A], 0.1 to 6000
    array_device: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rated d.c. voltage of that device [V], 1 to 3000
    array_device_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    @property
    def modules(self) -> tuple[Module, ...]: ...

class System(Spec):
    """inverters and their arrays on one site."""
    def __init__(self, *,
                 name: str | None = ...,
                 site: Site | dict[str, typing.Any] = ...,
                 inverter: Inverter | dict[str, typing.Any] = ...,
                 array: Array | dict[str, typing.Any] = ...,
                 cable: Cable | dict[str, typing.Any] = ...,
                 reading: Reading | dict[str, typing.Any] = ...,
                 isolator: Isolator | dict[str, typing.Any] = ...,
                 sites: typing.Sequence[Site | dict[str, typing.Any]] = ...,
                 inverters: typing.Sequence[Inverter | dict[str, typing.Any]] = ...,
                 arrays: typing.Sequence[Array | dict[str, typing.Any]] = ...,
                 cables: typing.Sequence[Cable | dict[str, typing.Any]] = ...,
                 readings: typing.Sequence[Reading | dict[str, typing.Any]] = ...,
                 isolators: typing.Sequence[Isolator | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the job
    name: _Parameter[str | None, str | None]
    @property
    def sites(self) -> tuple[Site, ...]: ...
    @property
    def inverters(self) -> tuple[Inverter, ...]: ...
    @property
    def arrays(self) -> tuple[Array, ...]: ...
    @property
    def cables(self) -> tuple[Cable, ...]: ...
    @property
    def readings(self) -> tuple[Reading, ...]: ...
    @property
    def isolators(self) -> tuple[Isolator, ...]: ...

class Cable(Spec):
    """one length of cable in one circuit, both conductors or all phases."""
    def __init__(self, *,
                 name: str | None = ...,
                 circuit: Literal["string", "array", "ac"] | None = ...,
                 array: int | None = ...,
                 inverter: int | None = ...,
                 conductor: Literal["class2", "class2_coated", "class5", "class5_tinned", "aluminium", "awg"] | None = ...,
                 section: float | Literal["none"] | None = ...,
                 gauge: int | Literal["none"] | None = ...,
                 length: float | None = ...,
                 laying: Literal["iec_b2_pvc", "iec_c_pvc", "iec_f_pvc", "iec_f_xlpe", "iec_g_pvc", "fr_air_xlpe", "fr_buried_xlpe", "en_air", "en_surface", "en_touching", "nfpa_60", "nfpa_75", "nfpa_90"] | None = ...,
                 ambient: float | Literal["none"] | None = ...,
                 grouping: Literal["bunched", "single_layer", "nfpa"] | None = ...,
                 grouped: int | None = ...,
                 conductor_temp: float | Literal["none"] | None = ...,
                 terminal_temp: float | Literal["none"] | None = ...,
                 reactance: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # label of the cable
    name: _Parameter[str | None, str | None]
    # what it carries
    circuit: _Parameter[Literal["string", "array", "ac"] | None, Literal["string", "array", "ac"] | None]
    # array whose current it carries, of a d.c. circuit
    array: _Parameter[int | None, int | None]
    # inverter whose current it carries, of an a.c. circuit, 0.0 unless given
    inverter: _Parameter[int, int | None]
    # conductor
    conductor: _Parameter[Literal["class2", "class2_coated", "class5", "class5_tinned", "aluminium", "awg"] | None, Literal["class2", "class2_coated", "class5", "class5_tinned", "aluminium", "awg"] | None]
    # cross-section of one conductor [mm2], 0.5 to 1000
    section: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # AWG; 0, -1, -2 and -3 for 1/0, 2/0, 3/0 and 4/0, -3 to 14
    gauge: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # length, one way [m], 0 to 10000
    length: _Parameter[float | None, float | None]
    # how it is laid and insulated: the table of its capacity
    laying: _Parameter[Literal["iec_b2_pvc", "iec_c_pvc", "iec_f_pvc", "iec_f_xlpe", "iec_g_pvc", "fr_air_xlpe", "fr_buried_xlpe", "en_air", "en_surface", "en_touching", "nfpa_60", "nfpa_75", "nfpa_90"] | None, Literal["iec_b2_pvc", "iec_c_pvc", "iec_f_pvc", "iec_f_xlpe", "iec_g_pvc", "fr_air_xlpe", "fr_buried_xlpe", "en_air", "en_surface", "en_touching", "nfpa_60", "nfpa_75", "nfpa_90"] | None]
    # highest ambient along it, with what a roof adds [°C], -40 to 90
    ambient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # how circuits lie together, bunched unless given
    grouping: _Parameter[Literal["bunched", "single_layer", "nfpa"], Literal["bunched", "single_layer", "nfpa"] | None]
    # circuits or conductors together, this one included, 1 to 100, 1.0 unless given
    grouped: _Parameter[int, int | None]
    # conductor temperature for the voltage drop; where none is given, the highest of the laying
    # [°C], -40 to 150
    conductor_temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature rating of the terminals at its ends, the lower of the two [°C], 30 to 150
    terminal_temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # reactance of one conductor; needed at a power factor below 1, where the table of the
    # conductor has none [ohm/km], 0 to 10
    reactance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class Isolator(Spec):
    """d.c. isolator of an input or an array, or what stands in its place."""
    def __init__(self, *,
                 name: str | None = ...,
                 place: Literal["in_inverter", "beside_inverter", "at_array", "disconnection_point"] | None = ...,
                 array: int | None = ...,
                 inverter: int | None = ...,
                 input: int | None = ...,
                 load_break: Literal["no", "yes"] | bool | None = ...,
                 meets_standard: Literal["no", "yes"] | bool | None = ...,
                 category: Literal["dc_pv0", "dc_pv1", "dc_pv2", "dc_21a", "dc_21b"] | None = ...,
                 lockable: Literal["no", "yes"] | bool | None = ...,
                 breaks_all: Literal["no", "yes"] | bool | None = ...,
                 either_polarity: Literal["no", "yes"] | bool | None = ...,
                 voltage: float | Literal["none"] | None = ...,
                 current: float | Literal["none"] | None = ...,
                 current_temp: float | None = ...,
                 hot_current: float | Literal["none"] | None = ...,
                 hot_temp: float | Literal["none"] | None = ...,
                 ambient: float | Literal["none"] | None = ...,
                 in_sun: Literal["no", "yes"] | bool | None = ...,
                 poles: int | Literal["none"] | None = ...,
                 poles_per_conductor: int | Literal["none"] | None = ...,
                 conductor_voltage: float | Literal["none"] | None = ...,
                 poles_share: Literal["no", "yes"] | bool | None = ...,
                 distance: float | Literal["none"] | None = ...,
                 in_sight: Literal["no", "yes"] | bool | None = ...,
                 ) -> None: ...
    # label of the isolator
    name: _Parameter[str | None, str | None]
    # where it stands
    place: _Parameter[Literal["in_inverter", "beside_inverter", "at_array", "disconnection_point"] | None, Literal["in_inverter", "beside_inverter", "at_array", "disconnection_point"] | None]
    # array that it isolates, where it does not isolate a whole input
    array: _Parameter[int | None, int | None]
    # inverter whose input it isolates, where it does not isolate one array, 0.0 unless given
    inverter: _Parameter[int, int | None]
    # input of that inverter
    input: _Parameter[int | None, int | None]
    # it may be opened under load
    load_break: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # it meets IEC 60947-3 (AS 60947.3), or is listed for the purpose
    meets_standard: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # utilisation category for direct current
    category: _Parameter[Literal["dc_pv0", "dc_pv1", "dc_pv2", "dc_21a", "dc_21b"] | None, Literal["dc_pv0", "dc_pv1", "dc_pv2", "dc_21a", "dc_21b"] | None]
    # it can be locked in the off position
    lockable: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # it opens all live conductors together
    breaks_all: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # it breaks current of either direction
    either_polarity: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # rated operational voltage of the poles as they are wired, both conductors together [V], 1 to
    # 3000
    voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # rated operational current at that voltage and in that category [A], 0.1 to 5000
    current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature round it up to which it carries that current [°C], 0 to 100, 40.0 unless given
    current_temp: _Parameter[float, float | None]
    # rated operational current where it is hotter, as the maker states it [A], 0.1 to 5000
    hot_current: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature round it up to which it carries that lower current [°C], 0 to 100
    hot_temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # highest temperature round it, inside its enclosure; overrides the rule set's figure for
    # shade or sun [°C], -40 to 100
    ambient: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # the sun shines on its enclosure
    in_sun: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]
    # poles wired in series, both conductors together, 1 to 16
    poles: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # of these in one conductor; in the one that has fewer, 1 to 8
    poles_per_conductor: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # rated operational voltage of the poles of one conductor alone, as the maker states it for
    # that arrangement; else the share of its poles is taken [V], 1 to 3000
    conductor_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # the maker states that the poles of both conductors share the voltage at an inverter without
    # separation too, no unless given
    poles_share: _Parameter[Literal["no", "yes"], Literal["no", "yes"] | bool | None]
    # distance from the equipment that it isolates [m], 0 to 1000
    distance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # it is in sight of the equipment that it isolates
    in_sight: _Parameter[Literal["no", "yes"] | None, Literal["no", "yes"] | bool | None]

class Reading(Spec):
    """what a meter showed on the day, on one string or on strings in parallel."""
    def __init__(self, *,
                 name: str | None = ...,
                 array: int | None = ...,
                 string: int | Literal["none"] | None = ...,
                 strings: int | None = ...,
                 moment: int | Literal["none"] | None = ...,
                 irradiance: float | Literal["none"] | None = ...,
                 irradiance_after: float | Literal["none"] | None = ...,
                 cell_temp: float | Literal["none"] | None = ...,
                 back_temp: float | Literal["none"] | None = ...,
                 back_rise: float | None = ...,
                 voc: float | Literal["none"] | None = ...,
                 isc: float | Literal["none"] | None = ...,
                 vmp: float | Literal["none"] | None = ...,
                 imp: float | Literal["none"] | None = ...,
                 insulation: float | Literal["none"] | None = ...,
                 insulation_test: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # label of the reading, such as the mark of the string
    name: _Parameter[str | None, str | None]
    # array whose string was measured
    array: _Parameter[int | None, int | None]
    # number of the string in its array, from 1, as marked, 1 to 10000
    string: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # strings in parallel at the meter, 1 to 10000, 1.0 unless given
    strings: _Parameter[int, int | None]
    # number of the moment: strings measured in the same light and warmth bear the same, and are
    # compared, 0 to 1e+06
    moment: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # irradiance in the plane of the modules [W/m2], 0 to 2000
    irradiance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # the same when the measurement was over [W/m2], 0 to 2000
    irradiance_after: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # cell temperature [°C], -50 to 130
    cell_temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # temperature at the back of a module, where that of the cell is not given [°C], -50 to 130
    back_temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # cell above back at 1000 W/m2; SAND2004-3535: 3 on an open rack, 0 with an insulated back
    # (from memory) [K], 0 to 20, 3.0 unless given
    back_rise: _Parameter[float, float | None]
    # open-circuit voltage; negative where the meter showed it reversed [V], -3000 to 3000
    voc: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # short-circuit current [A], -5000 to 5000
    isc: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # voltage in operation, the inverter tracking and not at a limit of its own [V], -3000 to 3000
    vmp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # current in operation, the inverter tracking and not at a limit of its own [A], -5000 to 5000
    imp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # insulation resistance to earth, the lower of the readings [Mohm], 0 to 1e+06
    insulation: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # test voltage it was measured with [V], 1 to 10000
    insulation_test: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class DiodeModel(Spec):
    """single-diode model of one module: its current-voltage curve in five parameters."""
    def __init__(self, *,
                 name: str | None = ...,
                 light_current: float | None = ...,
                 saturation_current: float | None = ...,
                 ideality_voltage: float | None = ...,
                 series_resistance: float | None = ...,
                 shunt_resistance: float | Literal["none"] | None = ...,
                 light_coefficient: float | None = ...,
                 band_gap: float | None = ...,
                 band_gap_narrowing: float | None = ...,
                 cells: int | Literal["none"] | None = ...,
                 bypass_diodes: int | Literal["none"] | None = ...,
                 ) -> None: ...
    # label of the module type
    name: _Parameter[str | None, str | None]
    # light current at STC [A], 0 to 10000
    light_current: _Parameter[float | None, float | None]
    # saturation current of the diode at STC [A], 1e-100 to 1e+12
    saturation_current: _Parameter[float | None, float | None]
    # modified ideality factor at STC: cells in series x ideality factor x k T / q [V], 0.0001 to
    # 10000
    ideality_voltage: _Parameter[float | None, float | None]
    # series resistance of the module [ohm], 0 to 1e+06
    series_resistance: _Parameter[float | None, float | None]
    # shunt resistance of the module at STC; no shunt where none is given [ohm], 0.0001 to 1e+18
    shunt_resistance: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # change of the light current with cell temperature at 1000 W/m2 [A/K], -10 to 10, 0.0 unless
    # given
    light_coefficient: _Parameter[float, float | None]
    # band gap at 25 °C; the default is that of silicon [eV], 0.3 to 5, 1.121 unless given
    band_gap: _Parameter[float, float | None]
    # relative change of the band gap per kelvin; the default is that of silicon [1/K], -0.01 to
    # 0.01, -0.0002677 unless given
    band_gap_narrowing: _Parameter[float, float | None]
    # cells in series, 1 to 10000
    cells: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # bypass diodes in series, 1 to 100
    bypass_diodes: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]

class Month(Spec):
    """means of one month of the year at a site."""
    def __init__(self, *,
                 irradiation: float | None = ...,
                 temp_mean: float | None = ...,
                 temp_daily_min: float | Literal["none"] | None = ...,
                 temp_daily_max: float | Literal["none"] | None = ...,
                 wind: float | Literal["none"] | None = ...,
                 albedo: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # global irradiation of the horizontal in a mean day, not the sum of the month; at most 0.9 of
    # what arrives above the air at the latitude of the site [kWh/m2], 0 to 15
    irradiation: _Parameter[float | None, float | None]
    # mean temperature [°C], -80 to 60
    temp_mean: _Parameter[float | None, float | None]
    # mean of the daily minima [°C], -90 to 60
    temp_daily_min: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # mean of the daily maxima [°C], -80 to 70
    temp_daily_max: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # mean wind speed at 10 m; a year of energy needs it, or outlook.wind [m/s], 0 to 60
    wind: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # share of the light that the ground reflects in this month; overrides the site's, 0 to 1
    albedo: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class Series(Spec):
    """how a series of weather is to be read."""
    def __init__(self, *,
                 step: Literal["five_minutes", "ten_minutes", "quarter_hour", "half_hour", "hour"] | None = ...,
                 year: int | None = ...,
                 first_day: int | None = ...,
                 first_minute: int | Literal["none"] | None = ...,
                 stamp: Literal["end", "beginning"] | None = ...,
                 gap: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # length of an interval; its number is the minutes, hour unless given
    step: _Parameter[Literal["five_minutes", "ten_minutes", "quarter_hour", "half_hour", "hour"], Literal["five_minutes", "ten_minutes", "quarter_hour", "half_hour", "hour"] | None]
    # calendar year of the first interval; of a typical year, any without a leap day, 1950 to
    # 2100, 2026.0 unless given
    year: _Parameter[int, int | None]
    # day of the year of the first interval, 1 to 366, 1.0 unless given
    first_day: _Parameter[int, int | None]
    # minute of that day that the first row is stamped with, standard time; where none is given,
    # its interval begins at midnight [min], 0 to 1440
    first_minute: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # which end of the interval the time of a row is, end unless given
    stamp: _Parameter[Literal["end", "beginning"], Literal["end", "beginning"] | None]
    # number that stands where a value is missing, -1e+06 to 1e+06
    gap: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class Interval(Spec):
    """weather of one interval, the means over it."""
    def __init__(self, *,
                 beam: float | Literal["none"] | None = ...,
                 diffuse: float | Literal["none"] | None = ...,
                 temp: float | Literal["none"] | None = ...,
                 wind: float | Literal["none"] | None = ...,
                 **global_: typing.Any,  # global is a word of Python
                 ) -> None: ...
    # beam irradiance of a plane that faces the sun [W/m2], 0 to 1500
    beam: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # diffuse irradiance of the horizontal [W/m2], 0 to 1500
    diffuse: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # ambient temperature [°C], -90 to 70
    temp: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # wind speed at 10 m [m/s], 0 to 100
    wind: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

class Enquiry(Spec):
    """what a review of an inverter asks: modules not chosen yet, or a list of them."""
    def __init__(self, *,
                 name: str | None = ...,
                 plane: int | None = ...,
                 most_strings: int | Literal["none"] | None = ...,
                 voc_coefficient_low: float | Literal["none"] | None = ...,
                 voc_coefficient_high: float | Literal["none"] | None = ...,
                 vmp_coefficient_low: float | Literal["none"] | None = ...,
                 vmp_coefficient_high: float | Literal["none"] | None = ...,
                 cell: Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"] | None = ...,
                 bifaciality: float | None = ...,
                 max_system_voltage: float | Literal["none"] | None = ...,
                 module_vmp: float | None = ...,
                 module: Module | dict[str, typing.Any] = ...,
                 modules: typing.Sequence[Module | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the enquiry
    name: _Parameter[str | None, str | None]
    # plane of the site that carries the modules
    plane: _Parameter[int | None, int | None]
    # most strings in parallel to look at; where not given, the input's pairs of terminals, else
    # 4, 1 to 100
    most_strings: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # most negative temperature coefficient of Voc among the modules in question; where neither
    # end is given, those of the enquiry's modules [%/K], -2 to 0
    voc_coefficient_low: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # least negative one; where only one is given it holds for both [%/K], -2 to 0
    voc_coefficient_high: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # most negative temperature coefficient of Vmp among the modules in question; where neither
    # end is given, those of the enquiry's modules [%/K], -2 to 0
    vmp_coefficient_low: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # least negative one; where only one is given it holds for both [%/K], -2 to 0
    vmp_coefficient_high: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # cell technology of the modules in question, crystalline_silicon unless given
    cell: _Parameter[Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"], Literal["crystalline_silicon", "cadmium_telluride", "cigs", "amorphous_silicon", "other"] | None]
    # bifaciality of Isc of the modules in question, 0 to 1, 0.0 unless given
    bifaciality: _Parameter[float, float | None]
    # their maximum system voltage, where it is to limit [V], 10 to 3000
    max_system_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # Vmp at STC of a common module, to state voltages in modules (invented: 54 cell pairs of 0.61
    # V) [V], 0.1 to 1500, 33.0 unless given
    module_vmp: _Parameter[float, float | None]
    @property
    def modules(self) -> tuple[Module, ...]: ...

class Search(Spec):
    """question for the best stringings of a system."""
    def __init__(self, *,
                 name: str | None = ...,
                 objective: Literal["power", "energy", "nearest_power", "plane_order"] | None = ...,
                 wanted_power: float | Literal["none"] | None = ...,
                 wanted_modules: int | Literal["none"] | None = ...,
                 shortest_string: int | None = ...,
                 longest_string: int | Literal["none"] | None = ...,
                 answers: int | None = ...,
                 node_budget: int | None = ...,
                 external_isolator: Literal["no", "yes"] | bool | None = ...,
                 string_devices: Literal["no", "yes"] | bool | None = ...,
                 string_device_voltage: float | Literal["none"] | None = ...,
                 system: System | dict[str, typing.Any] = ...,
                 module: Module | dict[str, typing.Any] = ...,
                 systems: typing.Sequence[System | dict[str, typing.Any]] = ...,
                 modules: typing.Sequence[Module | dict[str, typing.Any]] = ...,
                 ) -> None: ...
    # label of the search
    name: _Parameter[str | None, str | None]
    # what makes one stringing better than another, power unless given
    objective: _Parameter[Literal["power", "energy", "nearest_power", "plane_order"], Literal["power", "energy", "nearest_power", "plane_order"] | None]
    # array power at STC of the whole system to come near to [W], 1 to 1e+09
    wanted_power: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    # modules that the whole system must have, no more and no fewer, 1 to 1e+06
    wanted_modules: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # fewest modules in a string, 1 to 10000, 1.0 unless given
    shortest_string: _Parameter[int, int | None]
    # most modules in a string, 1 to 10000
    longest_string: _Parameter[int | Literal["none"] | None, int | Literal["none"] | None]
    # how many stringings to keep, the best first, 1 to 10000, 10.0 unless given
    answers: _Parameter[int, int | None]
    # steps after which the search stops: partial stringings and checks, 1 to 1e+12, 2000000.0
    # unless given
    node_budget: _Parameter[int, int | None]
    # every array gets a load-break d.c. isolator beside the inverter, no unless given
    external_isolator: _Parameter[Literal["no", "yes"], Literal["no", "yes"] | bool | None]
    # strings that need an overcurrent device get one, of the smallest standard rating, no unless
    # given
    string_devices: _Parameter[Literal["no", "yes"], Literal["no", "yes"] | bool | None]
    # rated d.c. voltage of these devices [V], 1 to 3000
    string_device_voltage: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]
    @property
    def systems(self) -> tuple[System, ...]: ...
    @property
    def modules(self) -> tuple[Module, ...]: ...

class Outlook(Spec):
    """how the energy of a run of weather is computed."""
    def __init__(self, *,
                 sky: Literal["binned", "even", "circumsolar", "and_horizon"] | None = ...,
                 cover: Literal["none", "glass", "exponential", "secant"] | None = ...,
                 cell_temp: Literal["mounting", "heat_loss", "nominal"] | None = ...,
                 soiling: float | None = ...,
                 power_loss: float | None = ...,
                 blocked: Literal["no", "yes"] | bool | None = ...,
                 wind: float | Literal["none"] | None = ...,
                 ) -> None: ...
    # how the diffuse light is spread over the sky, binned unless given
    sky: _Parameter[Literal["binned", "even", "circumsolar", "and_horizon"], Literal["binned", "even", "circumsolar", "and_horizon"] | None]
    # what the module's glass lets through at slanting light, glass unless given
    cover: _Parameter[Literal["none", "glass", "exponential", "secant"], Literal["none", "glass", "exponential", "secant"] | None]
    # how warm the cells get, mounting unless given
    cell_temp: _Parameter[Literal["mounting", "heat_loss", "nominal"], Literal["mounting", "heat_loss", "nominal"] | None]
    # share of the light lost to dirt on the glass [%], 0 to 90, 0.0 unless given
    soiling: _Parameter[float, float | None]
    # share of every module's current lost to age, spread of ratings and whatever else is stated
    # [%], 0 to 90, 0.0 unless given
    power_loss: _Parameter[float, float | None]
    # a diode in each string keeps current from flowing back into it, no unless given
    blocked: _Parameter[Literal["no", "yes"], Literal["no", "yes"] | bool | None]
    # wind at 10 m to be taken where the weather has none; intervals without wind are not computed
    # where none is given [m/s], 0 to 50
    wind: _Parameter[float | Literal["none"] | None, float | Literal["none"] | None]

__all__ = ["Module",
           "Input",
           "Inverter",
           "EfficiencyPoint",
           "Site",
           "Plane",
           "Array",
           "System",
           "Cable",
           "Isolator",
           "Reading",
           "DiodeModel",
           "Month",
           "Series",
           "Interval",
           "Enquiry",
           "Search",
           "Outlook"]
