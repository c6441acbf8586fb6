// Invented jobs for the tests.
// SPDX-License-Identifier: MIT
'use strict';

const pvsize = require('..');

const moduleData = (changes = {}) => ({ pmax: 430, voc: 38.8, isc: 13.9, vmp: 32.5, imp: 13.23,
  voc_coefficient: -0.25, isc_coefficient: 0.045, pmax_coefficient: -0.29,
  max_system_voltage: 1500, ...changes });

const makeModule = (changes) => new pvsize.Module(moduleData(changes));

function makeSystem({ modules_per_string = 9, strings = 2, ...changes } = {}) {
  const input = { max_voltage: 600, tracking_min: 90, tracking_max: 560, max_operating_current: 28,
    max_short_circuit_current: 36, terminals: 2, ...changes };
  return new pvsize.System({
    name: 'invented',
    site: { temp_min: -3, temp_max: 41, building: 'dwelling',
      planes: [{ name: 'north', capacity: 20, mounting: 'close' }] },
    inverters: [{ rated_ac_power: 9000, inputs: [input] }],
    arrays: [{ input: 0, plane: 0, modules_per_string, strings, module: moduleData() }] });
}

// A search with two unlike inputs and two planes.
function makeSearch(values = {}) {
  const input = (operating, fault, terminals) => ({ max_voltage: 600, tracking_min: 100,
    tracking_max: 550, start_voltage: 120, max_operating_current: operating,
    max_short_circuit_current: fault, terminals, terminal_current: 30, max_power: 'none',
    isolator: 'built_in', isolator_meets_standard: true, isolator_locks_off: true,
    isolator_voltage: 600, isolator_current: 50 });
  const plane = (name, capacity, specific_yield) =>
    ({ name, capacity, mounting: 'raised', current_correction: 1, specific_yield });
  return new pvsize.Search({ ...values,
    system: { site: { temp_min: 0, temp_max: 40, building: 'dwelling', supply_phases: 1,
      supply_voltage: 230, connection_limit: 'none', export_limit: 'none', phase_limit: 'none',
      planes: [plane('long side', 16, 1500), plane('short side', 12, 1350)] },
    inverters: [{ name: 'V', rated_ac_power: 7000, max_pv_power: 9500, phases: 1, ac_voltage: 230,
      backfeed_current: 0, inputs: [input(22, 27, 2), input(11, 14, 1)] }] },
    modules: [{ name: 'M', pmax: 330, voc: 39.2, isc: 10.5, vmp: 32.6, imp: 10.12,
      voc_coefficient: -0.25, isc_coefficient: 0.045, pmax_coefficient: -0.3,
      max_system_voltage: 1000, max_series_fuse: 25, bifaciality: 0 }] });
}

module.exports = { makeModule, makeSearch, makeSystem, moduleData };
