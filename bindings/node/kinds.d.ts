// Printed from the tables of the library by print_kinds.js, not by hand.
// SPDX-License-Identifier: MIT

import { Spec } from "./index";

/** What a new Module may be given. */
export interface ModuleValues {
  name?: string | null;
  cell?: "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other" | null;
  pmax?: number | null;
  voc?: number | null;
  isc?: number | null;
  vmp?: number | null;
  imp?: number | null;
  voc_coefficient?: number | "none" | null;
  voc_coefficient_absolute?: number | "none" | null;
  isc_coefficient?: number | "none" | null;
  isc_coefficient_absolute?: number | "none" | null;
  pmax_coefficient?: number | "none" | null;
  vmp_coefficient?: number | "none" | null;
  vmp_coefficient_absolute?: number | "none" | null;
  nmot?: number | "none" | null;
  cells?: number | "none" | null;
  bifaciality?: number | "none" | null;
  max_system_voltage?: number | "none" | null;
  max_series_fuse?: number | "none" | null;
  length?: number | "none" | null;
  width?: number | "none" | null;
  mass?: number | "none" | null;
  power_tolerance_minus?: number | "none" | null;
  power_tolerance_plus?: number | "none" | null;
  voc_tolerance?: number | "none" | null;
  isc_tolerance?: number | "none" | null;
  thickness?: number | "none" | null;
  bypass_diodes?: number | "none" | null;
  voc_by_light?: number | null;
}

export class Module extends Spec {
  constructor(values?: ModuleValues);
  readonly kind: "module";
  /** label of the module type. */
  get name(): string | null;
  set name(value: string | null);
  /** cell technology, crystalline_silicon unless given. */
  get cell(): "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other";
  set cell(value: "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other" | null);
  /** maximum power at STC [W], 0.1 to 5000. */
  get pmax(): number | null;
  set pmax(value: number | null);
  /** open-circuit voltage at STC [V], 0.1 to 1500. */
  get voc(): number | null;
  set voc(value: number | null);
  /** short-circuit current at STC [A], 0.01 to 200. */
  get isc(): number | null;
  set isc(value: number | null);
  /** voltage at maximum power at STC [V], 0.1 to 1500. */
  get vmp(): number | null;
  set vmp(value: number | null);
  /** current at maximum power at STC [A], 0.01 to 200. */
  get imp(): number | null;
  set imp(value: number | null);
  /** temperature coefficient of Voc [%/K], -2 to 2. */
  get voc_coefficient(): number | "none" | null;
  set voc_coefficient(value: number | "none" | null);
  /** temperature coefficient of Voc where the data sheet gives it in V/K [V/K], -10 to 10. */
  get voc_coefficient_absolute(): number | "none" | null;
  set voc_coefficient_absolute(value: number | "none" | null);
  /** temperature coefficient of Isc [%/K], -1 to 1. */
  get isc_coefficient(): number | "none" | null;
  set isc_coefficient(value: number | "none" | null);
  /** temperature coefficient of Isc where the data sheet gives it in A/K [A/K], -1 to 1. */
  get isc_coefficient_absolute(): number | "none" | null;
  set isc_coefficient_absolute(value: number | "none" | null);
  /** temperature coefficient of maximum power [%/K], -2 to 2. */
  get pmax_coefficient(): number | "none" | null;
  set pmax_coefficient(value: number | "none" | null);
  /** temperature coefficient of Vmp, where the maker states one [%/K], -2 to 2. */
  get vmp_coefficient(): number | "none" | null;
  set vmp_coefficient(value: number | "none" | null);
  /** temperature coefficient of Vmp where the data sheet gives it in V/K [V/K], -10 to 10. */
  get vmp_coefficient_absolute(): number | "none" | null;
  set vmp_coefficient_absolute(value: number | "none" | null);
  /** nominal module operating temperature [°C], 20 to 90. */
  get nmot(): number | "none" | null;
  set nmot(value: number | "none" | null);
  /** cells in series, 1 to 1000. */
  get cells(): number | "none" | null;
  set cells(value: number | "none" | null);
  /** bifaciality of Isc; 0 for a monofacial module, 0 to 1. */
  get bifaciality(): number | "none" | null;
  set bifaciality(value: number | "none" | null);
  /** maximum system voltage (IEC 61730-1) [V], 10 to 3000. */
  get max_system_voltage(): number | "none" | null;
  set max_system_voltage(value: number | "none" | null);
  /** maximum overcurrent protection rating (maximum series fuse) [A], 0.1 to 400. */
  get max_series_fuse(): number | "none" | null;
  set max_series_fuse(value: number | "none" | null);
  /** length of the frame [mm], 10 to 5000. */
  get length(): number | "none" | null;
  set length(value: number | "none" | null);
  /** width of the frame [mm], 10 to 5000. */
  get width(): number | "none" | null;
  set width(value: number | "none" | null);
  /** mass [kg], 0.01 to 500. */
  get mass(): number | "none" | null;
  set mass(value: number | "none" | null);
  /** how far Pmax may fall below the rating [%], 0 to 50. */
  get power_tolerance_minus(): number | "none" | null;
  set power_tolerance_minus(value: number | "none" | null);
  /** how far Pmax may lie above the rating [%], 0 to 50. */
  get power_tolerance_plus(): number | "none" | null;
  set power_tolerance_plus(value: number | "none" | null);
  /** production tolerance of Voc, plus or minus; the voltage rules take the rated Voc [%], 0 to 20. */
  get voc_tolerance(): number | "none" | null;
  set voc_tolerance(value: number | "none" | null);
  /** production tolerance of Isc, plus or minus; the current rules take the rated Isc [%], 0 to 20. */
  get isc_tolerance(): number | "none" | null;
  set isc_tolerance(value: number | "none" | null);
  /** thickness of the frame, for clamps [mm], 1 to 500. */
  get thickness(): number | "none" | null;
  set thickness(value: number | "none" | null);
  /** bypass diodes in series, 1 to 100. */
  get bypass_diodes(): number | "none" | null;
  set bypass_diodes(value: number | "none" | null);
  /** rise of Voc with the natural logarithm of irradiance, as a share of Voc at STC; ideal diode law: 72 cells with n = 1.1 give 0.047, 54 with n = 1.3 give 0.055, 0 to 0.2, 0.05 unless given. */
  get voc_by_light(): number;
  set voc_by_light(value: number | null);
  copy(): Module;
  toJSON(): ModuleValues;
}

/** What a new Input may be given. */
export interface InputValues {
  name?: string | null;
  max_voltage?: number | null;
  tracking_min?: number | null;
  tracking_max?: number | null;
  full_power_min?: number | "none" | null;
  full_power_max?: number | "none" | null;
  start_voltage?: number | "none" | null;
  max_operating_current?: number | null;
  max_short_circuit_current?: number | null;
  terminals?: number | "none" | null;
  terminal_current?: number | "none" | null;
  max_power?: number | "none" | null;
  isolator?: "none" | "built_in" | null;
  isolator_meets_standard?: "no" | "yes" | boolean | null;
  isolator_locks_off?: "no" | "yes" | boolean | null;
  isolator_voltage?: number | "none" | null;
  isolator_current?: number | "none" | null;
  other_source?: "no" | "yes" | boolean | null;
  max_operating_power?: number | "none" | null;
}

export class Input extends Spec {
  constructor(values?: InputValues);
  readonly kind: "input";
  /** label of the input, as marked on the inverter. */
  get name(): string | null;
  set name(value: string | null);
  /** absolute maximum d.c. voltage [V], 1 to 3000. */
  get max_voltage(): number | null;
  set max_voltage(value: number | null);
  /** lower end of the tracking window [V], 0.1 to 3000. */
  get tracking_min(): number | null;
  set tracking_min(value: number | null);
  /** upper end of the tracking window [V], 0.1 to 3000. */
  get tracking_max(): number | null;
  set tracking_max(value: number | null);
  /** lower end of the window in which full power is reached [V], 0.1 to 3000. */
  get full_power_min(): number | "none" | null;
  set full_power_min(value: number | "none" | null);
  /** upper end of the window in which full power is reached [V], 0.1 to 3000. */
  get full_power_max(): number | "none" | null;
  set full_power_max(value: number | "none" | null);
  /** voltage at which the input starts to feed in [V], 0.1 to 3000. */
  get start_voltage(): number | "none" | null;
  set start_voltage(value: number | "none" | null);
  /** largest operating current; beyond it energy is lost [A], 0.01 to 5000. */
  get max_operating_current(): number | null;
  set max_operating_current(value: number | null);
  /** short-circuit rating (Isc PV of IEC 62109-1) [A], 0.01 to 5000. */
  get max_short_circuit_current(): number | null;
  set max_short_circuit_current(value: number | null);
  /** pairs of string terminals, 1 to 100. */
  get terminals(): number | "none" | null;
  set terminals(value: number | "none" | null);
  /** rated current of one pair of terminals [A], 0.01 to 1000. */
  get terminal_current(): number | "none" | null;
  set terminal_current(value: number | "none" | null);
  /** largest array power at STC that the maker allows on this input [W], 1 to 10000000. */
  get max_power(): number | "none" | null;
  set max_power(value: number | "none" | null);
  /** d.c. isolator in the inverter. */
  get isolator(): "none" | "built_in" | null;
  set isolator(value: "none" | "built_in" | null);
  /** the built-in isolator meets IEC 60947-3. */
  get isolator_meets_standard(): "no" | "yes" | null;
  set isolator_meets_standard(value: "no" | "yes" | boolean | null);
  /** the built-in isolator can be locked in the off position. */
  get isolator_locks_off(): "no" | "yes" | null;
  set isolator_locks_off(value: "no" | "yes" | boolean | null);
  /** rated voltage of the built-in isolator [V], 1 to 3000. */
  get isolator_voltage(): number | "none" | null;
  set isolator_voltage(value: number | "none" | null);
  /** rated current of the built-in isolator at that voltage [A], 0.1 to 5000. */
  get isolator_current(): number | "none" | null;
  set isolator_current(value: number | "none" | null);
  /** another source, such as a battery, can feed current into the arrays on it; where nothing is said, none does. */
  get other_source(): "no" | "yes" | null;
  set other_source(value: "no" | "yes" | boolean | null);
  /** largest d.c. power that this input draws; beyond it energy is lost [W], 1 to 10000000. */
  get max_operating_power(): number | "none" | null;
  set max_operating_power(value: number | "none" | null);
  copy(): Input;
  toJSON(): InputValues;
}

/** What a new Inverter may be given. */
export interface InverterValues {
  name?: string | null;
  rated_ac_power?: number | null;
  rated_apparent_power?: number | "none" | null;
  max_ac_current?: number | "none" | null;
  phases?: number | "none" | null;
  ac_voltage?: number | "none" | null;
  max_pv_power?: number | "none" | null;
  separated?: "no" | "yes" | boolean | null;
  backfeed_current?: number | "none" | null;
  cooling?: "natural" | "fan" | null;
  night_consumption?: number | "none" | null;
  european_efficiency?: number | "none" | null;
  cec_efficiency?: number | "none" | null;
  ac_device?: number | "none" | null;
  phase?: number | "none" | null;
  cos_phi?: number | null;
  max_operating_power?: number | "none" | null;
  volt_watt_start?: number | "none" | null;
  volt_watt_end?: number | "none" | null;
  volt_watt_least?: number | "none" | null;
  disconnect_voltage?: number | "none" | null;
  input?: Input | InputValues;
  efficiency_point?: EfficiencyPoint | EfficiencyPointValues;
  inputs?: ReadonlyArray<Input | InputValues>;
  efficiency_points?: ReadonlyArray<EfficiencyPoint | EfficiencyPointValues>;
}

export class Inverter extends Spec {
  constructor(values?: InverterValues);
  readonly kind: "inverter";
  /** label of the inverter. */
  get name(): string | null;
  set name(value: string | null);
  /** rated a.c. active power [W], 1 to 10000000. */
  get rated_ac_power(): number | null;
  set rated_ac_power(value: number | null);
  /** rated a.c. apparent power [VA], 1 to 10000000. */
  get rated_apparent_power(): number | "none" | null;
  set rated_apparent_power(value: number | "none" | null);
  /** largest continuous a.c. current, per phase [A], 0.01 to 20000. */
  get max_ac_current(): number | "none" | null;
  set max_ac_current(value: number | "none" | null);
  /** a.c. phases, 1 to 3. */
  get phases(): number | "none" | null;
  set phases(value: number | "none" | null);
  /** nominal a.c. voltage, phase to neutral [V], 50 to 1000. */
  get ac_voltage(): number | "none" | null;
  set ac_voltage(value: number | "none" | null);
  /** largest array power at STC that the maker allows [W], 1 to 10000000. */
  get max_pv_power(): number | "none" | null;
  set max_pv_power(value: number | "none" | null);
  /** d.c. and a.c. sides are galvanically separated. */
  get separated(): "no" | "yes" | null;
  set separated(value: "no" | "yes" | boolean | null);
  /** largest current fed back into the array (IEC 62109-1) [A], 0 to 5000. */
  get backfeed_current(): number | "none" | null;
  set backfeed_current(value: number | "none" | null);
  /** cooling of the enclosure. */
  get cooling(): "natural" | "fan" | null;
  set cooling(value: "natural" | "fan" | null);
  /** power drawn from the supply at night [W], 0 to 10000. */
  get night_consumption(): number | "none" | null;
  set night_consumption(value: number | "none" | null);
  /** European weighted efficiency (EN 50530), for want of single points [%], 50 to 99.9. */
  get european_efficiency(): number | "none" | null;
  set european_efficiency(value: number | "none" | null);
  /** efficiency weighted as the California Energy Commission does, for want of single points [%], 50 to 99.9. */
  get cec_efficiency(): number | "none" | null;
  set cec_efficiency(value: number | "none" | null);
  /** rating of the overcurrent device fitted in its a.c. circuit [A], 0.1 to 6000. */
  get ac_device(): number | "none" | null;
  set ac_device(value: number | "none" | null);
  /** phase of the supply that it is on, the first of two; not of a three-phase one, 1 to 3. */
  get phase(): number | "none" | null;
  set phase(value: number | "none" | null);
  /** power factor at its largest current; reactive power is taken as supplied, which raises the voltage further, 0.1 to 1, 1 unless given. */
  get cos_phi(): number;
  set cos_phi(value: number | null);
  /** largest d.c. power that all inputs together draw; beyond it energy is lost [W], 1 to 10000000. */
  get max_operating_power(): number | "none" | null;
  set max_operating_power(value: number | "none" | null);
  /** voltage at its terminals, phase to neutral, above which it reduces its power (volt-watt response; AS/NZS 4777.2:2020, region A: 253 V) [V], 50 to 1000. */
  get volt_watt_start(): number | "none" | null;
  set volt_watt_start(value: number | "none" | null);
  /** voltage at its terminals, phase to neutral, at which the volt-watt reduction ends (AS/NZS 4777.2:2020, region A: 260 V) [V], 50 to 1000. */
  get volt_watt_end(): number | "none" | null;
  set volt_watt_end(value: number | "none" | null);
  /** power that the volt-watt reduction leaves at its end, in percent of the rated a.c. power (AS/NZS 4777.2:2020, region A: 20 %) [%], 0 to 100. */
  get volt_watt_least(): number | "none" | null;
  set volt_watt_least(value: number | "none" | null);
  /** mean voltage at its terminals, phase to neutral, above which it disconnects (sustained, of 10 minutes; AS/NZS 4777.2:2020, region A: 258 V, from memory) [V], 50 to 1000. */
  get disconnect_voltage(): number | "none" | null;
  set disconnect_voltage(value: number | "none" | null);
  /** Copies of its parts. */
  get inputs(): Input[];
  /** Copies of its parts. */
  get efficiency_points(): EfficiencyPoint[];
  copy(): Inverter;
  toJSON(): InverterValues;
}

/** What a new EfficiencyPoint may be given. */
export interface EfficiencyPointValues {
  load?: number | null;
  voltage?: number | "none" | null;
  efficiency?: number | null;
}

export class EfficiencyPoint extends Spec {
  constructor(values?: EfficiencyPointValues);
  readonly kind: "efficiency_point";
  /** a.c. power as a share of the rating [%], 0.1 to 200. */
  get load(): number | null;
  set load(value: number | null);
  /** d.c. voltage at the point [V], 0.1 to 3000. */
  get voltage(): number | "none" | null;
  set voltage(value: number | "none" | null);
  /** conversion efficiency at the point [%], 1 to 100. */
  get efficiency(): number | null;
  set efficiency(value: number | null);
  copy(): EfficiencyPoint;
  toJSON(): EfficiencyPointValues;
}

/** What a new Site may be given. */
export interface SiteValues {
  name?: string | null;
  temp_min?: number | null;
  temp_max?: number | null;
  building?: "dwelling" | "other_building" | "not_on_building" | null;
  supply_phases?: number | "none" | null;
  supply_voltage?: number | "none" | null;
  connection_limit?: number | "none" | null;
  export_limit?: number | "none" | null;
  export_control?: "none" | "current_sensor" | "meter" | null;
  supply_voltage_highest?: number | "none" | null;
  phase_limit?: number | "none" | null;
  busbar_rating?: number | "none" | null;
  busbar_device?: number | "none" | null;
  latitude?: number | "none" | null;
  longitude?: number | "none" | null;
  elevation?: number | null;
  time_zone?: number | "none" | null;
  albedo?: number | null;
  busbar_rule?: "sum" | "opposite_end" | "devices" | "centre_fed" | "feeder" | null;
  busbar_devices?: number | "none" | null;
  job_date?: number | "none" | null;
  agreement_from?: number | "none" | null;
  agreement_until?: number | "none" | null;
  plane?: Plane | PlaneValues;
  month?: Month | MonthValues;
  planes?: ReadonlyArray<Plane | PlaneValues>;
  months?: ReadonlyArray<Month | MonthValues>;
}

export class Site extends Spec {
  constructor(values?: SiteValues);
  readonly kind: "site";
  /** label of the site. */
  get name(): string | null;
  set name(value: string | null);
  /** lowest expected temperature: the mean of the yearly minima, not the minimum of a typical year [°C], -90 to 50. */
  get temp_min(): number | null;
  set temp_min(value: number | null);
  /** highest expected ambient temperature [°C], -40 to 70. */
  get temp_max(): number | null;
  set temp_max(value: number | null);
  /** class of building that carries the array. */
  get building(): "dwelling" | "other_building" | "not_on_building" | null;
  set building(value: "dwelling" | "other_building" | "not_on_building" | null);
  /** phases of the supply, 1 to 3. */
  get supply_phases(): number | "none" | null;
  set supply_phases(value: number | "none" | null);
  /** nominal voltage of the supply, phase to neutral [V], 50 to 1000. */
  get supply_voltage(): number | "none" | null;
  set supply_voltage(value: number | "none" | null);
  /** largest total inverter rating that the network agreed to [VA], 1 to 100000000. */
  get connection_limit(): number | "none" | null;
  set connection_limit(value: number | "none" | null);
  /** largest export that the network agreed to [W], 0 to 100000000. */
  get export_limit(): number | "none" | null;
  set export_limit(value: number | "none" | null);
  /** what measures the export at the connection point, none unless given. */
  get export_control(): "none" | "current_sensor" | "meter";
  set export_control(value: "none" | "current_sensor" | "meter" | null);
  /** voltage at the point of supply on a sunny day of low load, phase to neutral [V], 50 to 1000. */
  get supply_voltage_highest(): number | "none" | null;
  set supply_voltage_highest(value: number | "none" | null);
  /** largest inverter rating on one phase that the network agreed to [VA], 1 to 10000000. */
  get phase_limit(): number | "none" | null;
  set phase_limit(value: number | "none" | null);
  /** rating of the busbar that the inverters feed [A], 1 to 10000. */
  get busbar_rating(): number | "none" | null;
  set busbar_rating(value: number | "none" | null);
  /** overcurrent device that protects that busbar from the supply [A], 1 to 10000. */
  get busbar_device(): number | "none" | null;
  set busbar_device(value: number | "none" | null);
  /** latitude, north positive [deg], -90 to 90. */
  get latitude(): number | "none" | null;
  set latitude(value: number | "none" | null);
  /** longitude, east positive [deg], -180 to 180. */
  get longitude(): number | "none" | null;
  set longitude(value: number | "none" | null);
  /** height above the sea [m], -450 to 9000, 0 unless given. */
  get elevation(): number;
  set elevation(value: number | null);
  /** standard time ahead of universal time, without daylight saving [h], -12 to 14. */
  get time_zone(): number | "none" | null;
  set time_zone(value: number | "none" | null);
  /** share of the light that the ground reflects, 0 to 1, 0.2 unless given. */
  get albedo(): number;
  set albedo(value: number | null);
  /** which of the rules for the busbar is relied on, opposite_end unless given. */
  get busbar_rule(): "sum" | "opposite_end" | "devices" | "centre_fed" | "feeder";
  set busbar_rule(value: "sum" | "opposite_end" | "devices" | "centre_fed" | "feeder" | null);
  /** sum of the ratings of all devices on the busbar, of loads and inverters, but not of the one that protects it [A], 0 to 100000. */
  get busbar_devices(): number | "none" | null;
  set busbar_devices(value: number | "none" | null);
  /** date on which the agreement must be in force, as year, month and day in one number: 20260131, 19000101 to 29991231. */
  get job_date(): number | "none" | null;
  set job_date(value: number | "none" | null);
  /** first day on which the network's agreement and its limits hold, in the same form, 19000101 to 29991231. */
  get agreement_from(): number | "none" | null;
  set agreement_from(value: number | "none" | null);
  /** last day on which they hold, in the same form, 19000101 to 29991231. */
  get agreement_until(): number | "none" | null;
  set agreement_until(value: number | "none" | null);
  /** Copies of its parts. */
  get planes(): Plane[];
  /** Copies of its parts. */
  get months(): Month[];
  copy(): Site;
  toJSON(): SiteValues;
}

/** What a new Plane may be given. */
export interface PlaneValues {
  name?: string | null;
  tilt?: number | "none" | null;
  azimuth?: number | "none" | null;
  capacity?: number | "none" | null;
  mounting?: "open_rack" | "raised" | "close" | "integrated" | null;
  cell_rise?: number | "none" | null;
  current_correction?: number | "none" | null;
  heat_loss?: number | "none" | null;
  heat_loss_wind?: number | "none" | null;
  specific_yield?: number | "none" | null;
  fill_order?: number | "none" | null;
}

export class Plane extends Spec {
  constructor(values?: PlaneValues);
  readonly kind: "plane";
  /** label of the plane. */
  get name(): string | null;
  set name(value: string | null);
  /** tilt from horizontal [deg], 0 to 180. */
  get tilt(): number | "none" | null;
  set tilt(value: number | "none" | null);
  /** direction faced, clockwise from true north [deg], 0 to 360. */
  get azimuth(): number | "none" | null;
  set azimuth(value: number | "none" | null);
  /** modules that fit on the plane, 0 to 1000000. */
  get capacity(): number | "none" | null;
  set capacity(value: number | "none" | null);
  /** how the modules are mounted. */
  get mounting(): "open_rack" | "raised" | "close" | "integrated" | null;
  set mounting(value: "open_rack" | "raised" | "close" | "integrated" | null);
  /** cell temperature above ambient on a hot afternoon; overrides the rule set's figure for the mounting [K], 0 to 80. */
  get cell_rise(): number | "none" | null;
  set cell_rise(value: number | "none" | null);
  /** factor on Isc for bifacial, tracked or vertical arrays, snow or altitude; where none is given, what a bifacial module calls for, else 1, 1 to 3. */
  get current_correction(): number | "none" | null;
  set current_correction(value: number | "none" | null);
  /** heat that the modules lose without wind, by kelvin above ambient (IEC 61853-2) [W/(m2 K)], 5 to 60. */
  get heat_loss(): number | "none" | null;
  set heat_loss(value: number | "none" | null);
  /** heat that they lose more for each m/s of wind (IEC 61853-2) [W s/(m3 K)], 0 to 20. */
  get heat_loss_wind(): number | "none" | null;
  set heat_loss_wind(value: number | "none" | null);
  /** yearly energy expected of 1 kW at STC on the plane; what a search for energy weighs planes by [kWh/kW], 0 to 5000. */
  get specific_yield(): number | "none" | null;
  set specific_yield(value: number | "none" | null);
  /** place in the order in which a search fills the planes, the lowest first; without one, last, 1 to 1000. */
  get fill_order(): number | "none" | null;
  set fill_order(value: number | "none" | null);
  copy(): Plane;
  toJSON(): PlaneValues;
}

/** What a new Array may be given. */
export interface ArrayValues {
  name?: string | null;
  inverter?: number | null;
  input?: number | null;
  plane?: number | null;
  modules_per_string?: number | null;
  strings?: number | null;
  external_isolator?: "no" | "yes" | boolean | null;
  string_device?: number | "none" | null;
  string_device_voltage?: number | "none" | null;
  strings_per_device?: number | null;
  array_device?: number | "none" | null;
  array_device_voltage?: number | "none" | null;
  module?: Module | ModuleValues;
  modules?: ReadonlyArray<Module | ModuleValues>;
}

export class Array extends Spec {
  constructor(values?: ArrayValues);
  readonly kind: "array";
  /** label of the array. */
  get name(): string | null;
  set name(value: string | null);
  /** inverter the strings go to, 0 unless given. */
  get inverter(): number;
  set inverter(value: number | null);
  /** input of that inverter. */
  get input(): number | null;
  set input(value: number | null);
  /** plane that carries the modules. */
  get plane(): number | null;
  set plane(value: number | null);
  /** modules in series in each string, 1 to 10000. */
  get modules_per_string(): number | null;
  set modules_per_string(value: number | null);
  /** strings in parallel, 1 to 10000. */
  get strings(): number | null;
  set strings(value: number | null);
  /** a load-break d.c. isolator is fitted beside the inverter, no unless given. */
  get external_isolator(): "no" | "yes";
  set external_isolator(value: "no" | "yes" | boolean | null);
  /** rating of the overcurrent device in the strings; none: there is no device [A], 0.1 to 6000. */
  get string_device(): number | "none" | null;
  set string_device(value: number | "none" | null);
  /** rated d.c. voltage of that device [V], 1 to 3000. */
  get string_device_voltage(): number | "none" | null;
  set string_device_voltage(value: number | "none" | null);
  /** strings grouped under one device, 1 to 100, 1 unless given. */
  get strings_per_device(): number;
  set strings_per_device(value: number | null);
  /** rating of the overcurrent device of the whole array, where it joins others; none: there is no device [A], 0.1 to 6000. */
  get array_device(): number | "none" | null;
  set array_device(value: number | "none" | null);
  /** rated d.c. voltage of that device [V], 1 to 3000. */
  get array_device_voltage(): number | "none" | null;
  set array_device_voltage(value: number | "none" | null);
  /** Copies of its parts. */
  get modules(): Module[];
  copy(): Array;
  toJSON(): ArrayValues;
}

/** What a new System may be given. */
export interface SystemValues {
  name?: string | null;
  site?: Site | SiteValues;
  inverter?: Inverter | InverterValues;
  array?: Array | ArrayValues;
  cable?: Cable | CableValues;
  reading?: Reading | ReadingValues;
  isolator?: Isolator | IsolatorValues;
  sites?: ReadonlyArray<Site | SiteValues>;
  inverters?: ReadonlyArray<Inverter | InverterValues>;
  arrays?: ReadonlyArray<Array | ArrayValues>;
  cables?: ReadonlyArray<Cable | CableValues>;
  readings?: ReadonlyArray<Reading | ReadingValues>;
  isolators?: ReadonlyArray<Isolator | IsolatorValues>;
}

export class System extends Spec {
  constructor(values?: SystemValues);
  readonly kind: "system";
  /** label of the job. */
  get name(): string | null;
  set name(value: string | null);
  /** Copies of its parts. */
  get sites(): Site[];
  /** Copies of its parts. */
  get inverters(): Inverter[];
  /** Copies of its parts. */
  get arrays(): Array[];
  /** Copies of its parts. */
  get cables(): Cable[];
  /** Copies of its parts. */
  get readings(): Reading[];
  /** Copies of its parts. */
  get isolators(): Isolator[];
  copy(): System;
  toJSON(): SystemValues;
}

/** What a new Cable may be given. */
export interface CableValues {
  name?: string | null;
  circuit?: "string" | "array" | "ac" | null;
  array?: number | null;
  inverter?: number | null;
  conductor?: "class2" | "class2_coated" | "class5" | "class5_tinned" | "aluminium" | "awg" | null;
  section?: number | "none" | null;
  gauge?: number | "none" | null;
  length?: number | null;
  laying?: "iec_b2_pvc" | "iec_c_pvc" | "iec_f_pvc" | "iec_f_xlpe" | "iec_g_pvc" | "fr_air_xlpe" | "fr_buried_xlpe" | "en_air" | "en_surface" | "en_touching" | "nfpa_60" | "nfpa_75" | "nfpa_90" | null;
  ambient?: number | "none" | null;
  grouping?: "bunched" | "single_layer" | "nfpa" | null;
  grouped?: number | null;
  conductor_temp?: number | "none" | null;
  terminal_temp?: number | "none" | null;
  reactance?: number | "none" | null;
}

export class Cable extends Spec {
  constructor(values?: CableValues);
  readonly kind: "cable";
  /** label of the cable. */
  get name(): string | null;
  set name(value: string | null);
  /** what it carries. */
  get circuit(): "string" | "array" | "ac" | null;
  set circuit(value: "string" | "array" | "ac" | null);
  /** array whose current it carries, of a d.c. circuit. */
  get array(): number | null;
  set array(value: number | null);
  /** inverter whose current it carries, of an a.c. circuit, 0 unless given. */
  get inverter(): number;
  set inverter(value: number | null);
  /** conductor. */
  get conductor(): "class2" | "class2_coated" | "class5" | "class5_tinned" | "aluminium" | "awg" | null;
  set conductor(value: "class2" | "class2_coated" | "class5" | "class5_tinned" | "aluminium" | "awg" | null);
  /** cross-section of one conductor [mm2], 0.5 to 1000. */
  get section(): number | "none" | null;
  set section(value: number | "none" | null);
  /** AWG; 0, -1, -2 and -3 for 1/0, 2/0, 3/0 and 4/0, -3 to 14. */
  get gauge(): number | "none" | null;
  set gauge(value: number | "none" | null);
  /** length, one way [m], 0 to 10000. */
  get length(): number | null;
  set length(value: number | null);
  /** how it is laid and insulated: the table of its capacity. */
  get laying(): "iec_b2_pvc" | "iec_c_pvc" | "iec_f_pvc" | "iec_f_xlpe" | "iec_g_pvc" | "fr_air_xlpe" | "fr_buried_xlpe" | "en_air" | "en_surface" | "en_touching" | "nfpa_60" | "nfpa_75" | "nfpa_90" | null;
  set laying(value: "iec_b2_pvc" | "iec_c_pvc" | "iec_f_pvc" | "iec_f_xlpe" | "iec_g_pvc" | "fr_air_xlpe" | "fr_buried_xlpe" | "en_air" | "en_surface" | "en_touching" | "nfpa_60" | "nfpa_75" | "nfpa_90" | null);
  /** highest ambient along it, with what a roof adds [°C], -40 to 90. */
  get ambient(): number | "none" | null;
  set ambient(value: number | "none" | null);
  /** how circuits lie together, bunched unless given. */
  get grouping(): "bunched" | "single_layer" | "nfpa";
  set grouping(value: "bunched" | "single_layer" | "nfpa" | null);
  /** circuits or conductors together, this one included, 1 to 100, 1 unless given. */
  get grouped(): number;
  set grouped(value: number | null);
  /** conductor temperature for the voltage drop; where none is given, the highest of the laying [°C], -40 to 150. */
  get conductor_temp(): number | "none" | null;
  set conductor_temp(value: number | "none" | null);
  /** temperature rating of the terminals at its ends, the lower of the two [°C], 30 to 150. */
  get terminal_temp(): number | "none" | null;
  set terminal_temp(value: number | "none" | null);
  /** reactance of one conductor; needed at a power factor below 1, where the table of the conductor has none [ohm/km], 0 to 10. */
  get reactance(): number | "none" | null;
  set reactance(value: number | "none" | null);
  copy(): Cable;
  toJSON(): CableValues;
}

/** What a new Isolator may be given. */
export interface IsolatorValues {
  name?: string | null;
  place?: "in_inverter" | "beside_inverter" | "at_array" | "disconnection_point" | null;
  array?: number | null;
  inverter?: number | null;
  input?: number | null;
  load_break?: "no" | "yes" | boolean | null;
  meets_standard?: "no" | "yes" | boolean | null;
  category?: "dc_pv0" | "dc_pv1" | "dc_pv2" | "dc_21a" | "dc_21b" | null;
  lockable?: "no" | "yes" | boolean | null;
  breaks_all?: "no" | "yes" | boolean | null;
  either_polarity?: "no" | "yes" | boolean | null;
  voltage?: number | "none" | null;
  current?: number | "none" | null;
  current_temp?: number | null;
  hot_current?: number | "none" | null;
  hot_temp?: number | "none" | null;
  ambient?: number | "none" | null;
  in_sun?: "no" | "yes" | boolean | null;
  poles?: number | "none" | null;
  poles_per_conductor?: number | "none" | null;
  conductor_voltage?: number | "none" | null;
  poles_share?: "no" | "yes" | boolean | null;
  distance?: number | "none" | null;
  in_sight?: "no" | "yes" | boolean | null;
}

export class Isolator extends Spec {
  constructor(values?: IsolatorValues);
  readonly kind: "isolator";
  /** label of the isolator. */
  get name(): string | null;
  set name(value: string | null);
  /** where it stands. */
  get place(): "in_inverter" | "beside_inverter" | "at_array" | "disconnection_point" | null;
  set place(value: "in_inverter" | "beside_inverter" | "at_array" | "disconnection_point" | null);
  /** array that it isolates, where it does not isolate a whole input. */
  get array(): number | null;
  set array(value: number | null);
  /** inverter whose input it isolates, where it does not isolate one array, 0 unless given. */
  get inverter(): number;
  set inverter(value: number | null);
  /** input of that inverter. */
  get input(): number | null;
  set input(value: number | null);
  /** it may be opened under load. */
  get load_break(): "no" | "yes" | null;
  set load_break(value: "no" | "yes" | boolean | null);
  /** it meets IEC 60947-3 (AS 60947.3), or is listed for the purpose. */
  get meets_standard(): "no" | "yes" | null;
  set meets_standard(value: "no" | "yes" | boolean | null);
  /** utilisation category for direct current. */
  get category(): "dc_pv0" | "dc_pv1" | "dc_pv2" | "dc_21a" | "dc_21b" | null;
  set category(value: "dc_pv0" | "dc_pv1" | "dc_pv2" | "dc_21a" | "dc_21b" | null);
  /** it can be locked in the off position. */
  get lockable(): "no" | "yes" | null;
  set lockable(value: "no" | "yes" | boolean | null);
  /** it opens all live conductors together. */
  get breaks_all(): "no" | "yes" | null;
  set breaks_all(value: "no" | "yes" | boolean | null);
  /** it breaks current of either direction. */
  get either_polarity(): "no" | "yes" | null;
  set either_polarity(value: "no" | "yes" | boolean | null);
  /** rated operational voltage of the poles as they are wired, both conductors together [V], 1 to 3000. */
  get voltage(): number | "none" | null;
  set voltage(value: number | "none" | null);
  /** rated operational current at that voltage and in that category [A], 0.1 to 5000. */
  get current(): number | "none" | null;
  set current(value: number | "none" | null);
  /** temperature round it up to which it carries that current [°C], 0 to 100, 40 unless given. */
  get current_temp(): number;
  set current_temp(value: number | null);
  /** rated operational current where it is hotter, as the maker states it [A], 0.1 to 5000. */
  get hot_current(): number | "none" | null;
  set hot_current(value: number | "none" | null);
  /** temperature round it up to which it carries that lower current [°C], 0 to 100. */
  get hot_temp(): number | "none" | null;
  set hot_temp(value: number | "none" | null);
  /** highest temperature round it, inside its enclosure; overrides the rule set's figure for shade or sun [°C], -40 to 100. */
  get ambient(): number | "none" | null;
  set ambient(value: number | "none" | null);
  /** the sun shines on its enclosure. */
  get in_sun(): "no" | "yes" | null;
  set in_sun(value: "no" | "yes" | boolean | null);
  /** poles wired in series, both conductors together, 1 to 16. */
  get poles(): number | "none" | null;
  set poles(value: number | "none" | null);
  /** of these in one conductor; in the one that has fewer, 1 to 8. */
  get poles_per_conductor(): number | "none" | null;
  set poles_per_conductor(value: number | "none" | null);
  /** rated operational voltage of the poles of one conductor alone, as the maker states it for that arrangement; else the share of its poles is taken [V], 1 to 3000. */
  get conductor_voltage(): number | "none" | null;
  set conductor_voltage(value: number | "none" | null);
  /** the maker states that the poles of both conductors share the voltage at an inverter without separation too, no unless given. */
  get poles_share(): "no" | "yes";
  set poles_share(value: "no" | "yes" | boolean | null);
  /** distance from the equipment that it isolates [m], 0 to 1000. */
  get distance(): number | "none" | null;
  set distance(value: number | "none" | null);
  /** it is in sight of the equipment that it isolates. */
  get in_sight(): "no" | "yes" | null;
  set in_sight(value: "no" | "yes" | boolean | null);
  copy(): Isolator;
  toJSON(): IsolatorValues;
}

/** What a new Reading may be given. */
export interface ReadingValues {
  name?: string | null;
  array?: number | null;
  string?: number | "none" | null;
  strings?: number | null;
  moment?: number | "none" | null;
  irradiance?: number | "none" | null;
  irradiance_after?: number | "none" | null;
  cell_temp?: number | "none" | null;
  back_temp?: number | "none" | null;
  back_rise?: number | null;
  voc?: number | "none" | null;
  isc?: number | "none" | null;
  vmp?: number | "none" | null;
  imp?: number | "none" | null;
  insulation?: number | "none" | null;
  insulation_test?: number | "none" | null;
}

export class Reading extends Spec {
  constructor(values?: ReadingValues);
  readonly kind: "reading";
  /** label of the reading, such as the mark of the string. */
  get name(): string | null;
  set name(value: string | null);
  /** array whose string was measured. */
  get array(): number | null;
  set array(value: number | null);
  /** number of the string in its array, from 1, as marked, 1 to 10000. */
  get string(): number | "none" | null;
  set string(value: number | "none" | null);
  /** strings in parallel at the meter, 1 to 10000, 1 unless given. */
  get strings(): number;
  set strings(value: number | null);
  /** number of the moment: strings measured in the same light and warmth bear the same, and are compared, 0 to 1000000. */
  get moment(): number | "none" | null;
  set moment(value: number | "none" | null);
  /** irradiance in the plane of the modules [W/m2], 0 to 2000. */
  get irradiance(): number | "none" | null;
  set irradiance(value: number | "none" | null);
  /** the same when the measurement was over [W/m2], 0 to 2000. */
  get irradiance_after(): number | "none" | null;
  set irradiance_after(value: number | "none" | null);
  /** cell temperature [°C], -50 to 130. */
  get cell_temp(): number | "none" | null;
  set cell_temp(value: number | "none" | null);
  /** temperature at the back of a module, where that of the cell is not given [°C], -50 to 130. */
  get back_temp(): number | "none" | null;
  set back_temp(value: number | "none" | null);
  /** cell above back at 1000 W/m2; SAND2004-3535: 3 on an open rack, 0 with an insulated back (from memory) [K], 0 to 20, 3 unless given. */
  get back_rise(): number;
  set back_rise(value: number | null);
  /** open-circuit voltage; negative where the meter showed it reversed [V], -3000 to 3000. */
  get voc(): number | "none" | null;
  set voc(value: number | "none" | null);
  /** short-circuit current [A], -5000 to 5000. */
  get isc(): number | "none" | null;
  set isc(value: number | "none" | null);
  /** voltage in operation, the inverter tracking and not at a limit of its own [V], -3000 to 3000. */
  get vmp(): number | "none" | null;
  set vmp(value: number | "none" | null);
  /** current in operation, the inverter tracking and not at a limit of its own [A], -5000 to 5000. */
  get imp(): number | "none" | null;
  set imp(value: number | "none" | null);
  /** insulation resistance to earth, the lower of the readings [Mohm], 0 to 1000000. */
  get insulation(): number | "none" | null;
  set insulation(value: number | "none" | null);
  /** test voltage it was measured with [V], 1 to 10000. */
  get insulation_test(): number | "none" | null;
  set insulation_test(value: number | "none" | null);
  copy(): Reading;
  toJSON(): ReadingValues;
}

/** What a new DiodeModel may be given. */
export interface DiodeModelValues {
  name?: string | null;
  light_current?: number | null;
  saturation_current?: number | null;
  ideality_voltage?: number | null;
  series_resistance?: number | null;
  shunt_resistance?: number | "none" | null;
  light_coefficient?: number | null;
  band_gap?: number | null;
  band_gap_narrowing?: number | null;
  cells?: number | "none" | null;
  bypass_diodes?: number | "none" | null;
}

export class DiodeModel extends Spec {
  constructor(values?: DiodeModelValues);
  readonly kind: "diode_model";
  /** label of the module type. */
  get name(): string | null;
  set name(value: string | null);
  /** light current at STC [A], 0 to 10000. */
  get light_current(): number | null;
  set light_current(value: number | null);
  /** saturation current of the diode at STC [A], 1e-100 to 1000000000000. */
  get saturation_current(): number | null;
  set saturation_current(value: number | null);
  /** modified ideality factor at STC: cells in series x ideality factor x k T / q [V], 0.0001 to 10000. */
  get ideality_voltage(): number | null;
  set ideality_voltage(value: number | null);
  /** series resistance of the module [ohm], 0 to 1000000. */
  get series_resistance(): number | null;
  set series_resistance(value: number | null);
  /** shunt resistance of the module at STC; no shunt where none is given [ohm], 0.0001 to 1000000000000000000. */
  get shunt_resistance(): number | "none" | null;
  set shunt_resistance(value: number | "none" | null);
  /** change of the light current with cell temperature at 1000 W/m2 [A/K], -10 to 10, 0 unless given. */
  get light_coefficient(): number;
  set light_coefficient(value: number | null);
  /** band gap at 25 °C; the default is that of silicon [eV], 0.3 to 5, 1.121 unless given. */
  get band_gap(): number;
  set band_gap(value: number | null);
  /** relative change of the band gap per kelvin; the default is that of silicon [1/K], -0.01 to 0.01, -0.0002677 unless given. */
  get band_gap_narrowing(): number;
  set band_gap_narrowing(value: number | null);
  /** cells in series, 1 to 10000. */
  get cells(): number | "none" | null;
  set cells(value: number | "none" | null);
  /** bypass diodes in series, 1 to 100. */
  get bypass_diodes(): number | "none" | null;
  set bypass_diodes(value: number | "none" | null);
  copy(): DiodeModel;
  toJSON(): DiodeModelValues;
}

/** What a new Month may be given. */
export interface MonthValues {
  irradiation?: number | null;
  temp_mean?: number | null;
  temp_daily_min?: number | "none" | null;
  temp_daily_max?: number | "none" | null;
  wind?: number | "none" | null;
  albedo?: number | "none" | null;
}

export class Month extends Spec {
  constructor(values?: MonthValues);
  readonly kind: "month";
  /** global irradiation of the horizontal in a mean day, not the sum of the month; at most 0.9 of what arrives above the air at the latitude of the site [kWh/m2], 0 to 15. */
  get irradiation(): number | null;
  set irradiation(value: number | null);
  /** mean temperature [°C], -80 to 60. */
  get temp_mean(): number | null;
  set temp_mean(value: number | null);
  /** mean of the daily minima [°C], -90 to 60. */
  get temp_daily_min(): number | "none" | null;
  set temp_daily_min(value: number | "none" | null);
  /** mean of the daily maxima [°C], -80 to 70. */
  get temp_daily_max(): number | "none" | null;
  set temp_daily_max(value: number | "none" | null);
  /** mean wind speed at 10 m; a year of energy needs it, or outlook.wind [m/s], 0 to 60. */
  get wind(): number | "none" | null;
  set wind(value: number | "none" | null);
  /** share of the light that the ground reflects in this month; overrides the site's, 0 to 1. */
  get albedo(): number | "none" | null;
  set albedo(value: number | "none" | null);
  copy(): Month;
  toJSON(): MonthValues;
}

/** What a new Series may be given. */
export interface SeriesValues {
  step?: "five_minutes" | "ten_minutes" | "quarter_hour" | "half_hour" | "hour" | null;
  year?: number | null;
  first_day?: number | null;
  first_minute?: number | "none" | null;
  stamp?: "end" | "beginning" | null;
  gap?: number | "none" | null;
}

export class Series extends Spec {
  constructor(values?: SeriesValues);
  readonly kind: "series";
  /** length of an interval; its number is the minutes, hour unless given. */
  get step(): "five_minutes" | "ten_minutes" | "quarter_hour" | "half_hour" | "hour";
  set step(value: "five_minutes" | "ten_minutes" | "quarter_hour" | "half_hour" | "hour" | null);
  /** calendar year of the first interval; of a typical year, any without a leap day, 1950 to 2100, 2026 unless given. */
  get year(): number;
  set year(value: number | null);
  /** day of the year of the first interval, 1 to 366, 1 unless given. */
  get first_day(): number;
  set first_day(value: number | null);
  /** minute of that day that the first row is stamped with, standard time; where none is given, its interval begins at midnight [min], 0 to 1440. */
  get first_minute(): number | "none" | null;
  set first_minute(value: number | "none" | null);
  /** which end of the interval the time of a row is, end unless given. */
  get stamp(): "end" | "beginning";
  set stamp(value: "end" | "beginning" | null);
  /** number that stands where a value is missing, -1000000 to 1000000. */
  get gap(): number | "none" | null;
  set gap(value: number | "none" | null);
  copy(): Series;
  toJSON(): SeriesValues;
}

/** What a new Interval may be given. */
export interface IntervalValues {
  global?: number | "none" | null;
  beam?: number | "none" | null;
  diffuse?: number | "none" | null;
  temp?: number | "none" | null;
  wind?: number | "none" | null;
}

export class Interval extends Spec {
  constructor(values?: IntervalValues);
  readonly kind: "interval";
  /** global irradiance of the horizontal [W/m2], 0 to 2000. */
  get global(): number | "none" | null;
  set global(value: number | "none" | null);
  /** beam irradiance of a plane that faces the sun [W/m2], 0 to 1500. */
  get beam(): number | "none" | null;
  set beam(value: number | "none" | null);
  /** diffuse irradiance of the horizontal [W/m2], 0 to 1500. */
  get diffuse(): number | "none" | null;
  set diffuse(value: number | "none" | null);
  /** ambient temperature [°C], -90 to 70. */
  get temp(): number | "none" | null;
  set temp(value: number | "none" | null);
  /** wind speed at 10 m [m/s], 0 to 100. */
  get wind(): number | "none" | null;
  set wind(value: number | "none" | null);
  copy(): Interval;
  toJSON(): IntervalValues;
}

/** What a new Enquiry may be given. */
export interface EnquiryValues {
  name?: string | null;
  plane?: number | null;
  most_strings?: number | "none" | null;
  voc_coefficient_low?: number | "none" | null;
  voc_coefficient_high?: number | "none" | null;
  vmp_coefficient_low?: number | "none" | null;
  vmp_coefficient_high?: number | "none" | null;
  cell?: "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other" | null;
  bifaciality?: number | null;
  max_system_voltage?: number | "none" | null;
  module_vmp?: number | null;
  module?: Module | ModuleValues;
  modules?: ReadonlyArray<Module | ModuleValues>;
}

export class Enquiry extends Spec {
  constructor(values?: EnquiryValues);
  readonly kind: "enquiry";
  /** label of the enquiry. */
  get name(): string | null;
  set name(value: string | null);
  /** plane of the site that carries the modules. */
  get plane(): number | null;
  set plane(value: number | null);
  /** most strings in parallel to look at; where not given, the input's pairs of terminals, else 4, 1 to 100. */
  get most_strings(): number | "none" | null;
  set most_strings(value: number | "none" | null);
  /** most negative temperature coefficient of Voc among the modules in question; where neither end is given, those of the enquiry's modules [%/K], -2 to 0. */
  get voc_coefficient_low(): number | "none" | null;
  set voc_coefficient_low(value: number | "none" | null);
  /** least negative one; where only one is given it holds for both [%/K], -2 to 0. */
  get voc_coefficient_high(): number | "none" | null;
  set voc_coefficient_high(value: number | "none" | null);
  /** most negative temperature coefficient of Vmp among the modules in question; where neither end is given, those of the enquiry's modules [%/K], -2 to 0. */
  get vmp_coefficient_low(): number | "none" | null;
  set vmp_coefficient_low(value: number | "none" | null);
  /** least negative one; where only one is given it holds for both [%/K], -2 to 0. */
  get vmp_coefficient_high(): number | "none" | null;
  set vmp_coefficient_high(value: number | "none" | null);
  /** cell technology of the modules in question, crystalline_silicon unless given. */
  get cell(): "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other";
  set cell(value: "crystalline_silicon" | "cadmium_telluride" | "cigs" | "amorphous_silicon" | "other" | null);
  /** bifaciality of Isc of the modules in question, 0 to 1, 0 unless given. */
  get bifaciality(): number;
  set bifaciality(value: number | null);
  /** their maximum system voltage, where it is to limit [V], 10 to 3000. */
  get max_system_voltage(): number | "none" | null;
  set max_system_voltage(value: number | "none" | null);
  /** Vmp at STC of a common module, to state voltages in modules (invented: 54 cell pairs of 0.61 V) [V], 0.1 to 1500, 33 unless given. */
  get module_vmp(): number;
  set module_vmp(value: number | null);
  /** Copies of its parts. */
  get modules(): Module[];
  copy(): Enquiry;
  toJSON(): EnquiryValues;
}

/** What a new Search may be given. */
export interface SearchValues {
  name?: string | null;
  objective?: "power" | "energy" | "nearest_power" | "plane_order" | null;
  wanted_power?: number | "none" | null;
  wanted_modules?: number | "none" | null;
  shortest_string?: number | null;
  longest_string?: number | "none" | null;
  answers?: number | null;
  node_budget?: number | null;
  external_isolator?: "no" | "yes" | boolean | null;
  string_devices?: "no" | "yes" | boolean | null;
  string_device_voltage?: number | "none" | null;
  system?: System | SystemValues;
  module?: Module | ModuleValues;
  systems?: ReadonlyArray<System | SystemValues>;
  modules?: ReadonlyArray<Module | ModuleValues>;
}

export class Search extends Spec {
  constructor(values?: SearchValues);
  readonly kind: "search";
  /** label of the search. */
  get name(): string | null;
  set name(value: string | null);
  /** what makes one stringing better than another, power unless given. */
  get objective(): "power" | "energy" | "nearest_power" | "plane_order";
  set objective(value: "power" | "energy" | "nearest_power" | "plane_order" | null);
  /** array power at STC of the whole system to come near to [W], 1 to 1000000000. */
  get wanted_power(): number | "none" | null;
  set wanted_power(value: number | "none" | null);
  /** modules that the whole system must have, no more and no fewer, 1 to 1000000. */
  get wanted_modules(): number | "none" | null;
  set wanted_modules(value: number | "none" | null);
  /** fewest modules in a string, 1 to 10000, 1 unless given. */
  get shortest_string(): number;
  set shortest_string(value: number | null);
  /** most modules in a string, 1 to 10000. */
  get longest_string(): number | "none" | null;
  set longest_string(value: number | "none" | null);
  /** how many stringings to keep, the best first, 1 to 10000, 10 unless given. */
  get answers(): number;
  set answers(value: number | null);
  /** steps after which the search stops: partial stringings and checks, 1 to 1000000000000, 2000000 unless given. */
  get node_budget(): number;
  set node_budget(value: number | null);
  /** every array gets a load-break d.c. isolator beside the inverter, no unless given. */
  get external_isolator(): "no" | "yes";
  set external_isolator(value: "no" | "yes" | boolean | null);
  /** strings that need an overcurrent device get one, of the smallest standard rating, no unless given. */
  get string_devices(): "no" | "yes";
  set string_devices(value: "no" | "yes" | boolean | null);
  /** rated d.c. voltage of these devices [V], 1 to 3000. */
  get string_device_voltage(): number | "none" | null;
  set string_device_voltage(value: number | "none" | null);
  /** Copies of its parts. */
  get systems(): System[];
  /** Copies of its parts. */
  get modules(): Module[];
  copy(): Search;
  toJSON(): SearchValues;
}

/** What a new Outlook may be given. */
export interface OutlookValues {
  sky?: "binned" | "even" | "circumsolar" | "and_horizon" | null;
  cover?: "none" | "glass" | "exponential" | "secant" | null;
  cell_temp?: "mounting" | "heat_loss" | "nominal" | null;
  soiling?: number | null;
  power_loss?: number | null;
  blocked?: "no" | "yes" | boolean | null;
  wind?: number | "none" | null;
}

export class Outlook extends Spec {
  constructor(values?: OutlookValues);
  readonly kind: "outlook";
  /** how the diffuse light is spread over the sky, binned unless given. */
  get sky(): "binned" | "even" | "circumsolar" | "and_horizon";
  set sky(value: "binned" | "even" | "circumsolar" | "and_horizon" | null);
  /** what the module's glass lets through at slanting light, glass unless given. */
  get cover(): "none" | "glass" | "exponential" | "secant";
  set cover(value: "none" | "glass" | "exponential" | "secant" | null);
  /** how warm the cells get, mounting unless given. */
  get cell_temp(): "mounting" | "heat_loss" | "nominal";
  set cell_temp(value: "mounting" | "heat_loss" | "nominal" | null);
  /** share of the light lost to dirt on the glass [%], 0 to 90, 0 unless given. */
  get soiling(): number;
  set soiling(value: number | null);
  /** share of every module's current lost to age, spread of ratings and whatever else is stated [%], 0 to 90, 0 unless given. */
  get power_loss(): number;
  set power_loss(value: number | null);
  /** a diode in each string keeps current from flowing back into it, no unless given. */
  get blocked(): "no" | "yes";
  set blocked(value: "no" | "yes" | boolean | null);
  /** wind at 10 m to be taken where the weather has none; intervals without wind are not computed where none is given [m/s], 0 to 50. */
  get wind(): number | "none" | null;
  set wind(value: number | "none" | null);
  copy(): Outlook;
  toJSON(): OutlookValues;
}
