// One module's current-voltage curve, and unlike strings in parallel.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, call } = require('./library');
const { Handle, pointer } = require('./handle');
const { choiceName, choiceNumber, choiceText, upTo } = require('./terms');
const { Spec, wrap } = require('./spec');

const point = ([voltage, current]) => ({ voltage, current, power: voltage * current });
const doubles = (values) => (values instanceof Float64Array ? values : Float64Array.from(values));

// The single-diode model of a Module, fitted once, or of a DiodeModel. Irradiance in
// W/m2, cell temperature in degrees C; both have STC as default. See the accuracy in
// pvsize/curve.h.
class Curve extends Handle {
  constructor(spec) {
    super('curve', ask('curve_new', pointer(spec, Spec)));
  }

  // The parameters at a condition, as a DiodeModel.
  model(irradiance = 1000, cellTemp = 25) {
    return wrap(ask('curve_model', pointer(this), irradiance, cellTemp));
  }

  // What the fit took for granted or gave up.
  get assumptions() {
    return upTo(ask('curve_assumption_count', pointer(this)), (i) => {
      const [what, value] = ask('curve_assumption', pointer(this), i);
      return { name: choiceName('curve_assumption', what), value,
        text: choiceText('curve_assumption', what) };
    });
  }

  // What the curve has less what the data sheet has, such as check("vmp"); null where the
  // data sheet is silent.
  check(what) {
    return askOrNull('curve_check', pointer(this), choiceNumber('curve_check', what));
  }

  // Maximum-power point.
  mpp(irradiance = 1000, cellTemp = 25) {
    return point(ask('curve_mpp', pointer(this), irradiance, cellTemp));
  }

  // Open-circuit voltage.
  voc(irradiance = 1000, cellTemp = 25) {
    return ask('curve_ends', pointer(this), irradiance, cellTemp)[0];
  }

  // Short-circuit current.
  isc(irradiance = 1000, cellTemp = 25) {
    return ask('curve_ends', pointer(this), irradiance, cellTemp)[1];
  }

  // Current at a voltage.
  current(voltage, irradiance = 1000, cellTemp = 25) {
    return ask('curve_current', pointer(this), irradiance, cellTemp, voltage);
  }

  // Voltage at a current.
  voltage(current, irradiance = 1000, cellTemp = 25) {
    return ask('curve_voltage', pointer(this), irradiance, cellTemp, current);
  }

  // n points from short circuit to open circuit, as Float64Arrays.
  sample(n = 100, irradiance = 1000, cellTemp = 25) {
    const [voltage, current] = [new Float64Array(n), new Float64Array(n)];
    call('curve_sample', pointer(this), irradiance, cellTemp, n, voltage, current);
    return { voltage, current };
  }

  // Maximum-power points of a row of conditions. Float64Arrays are read where they lie, and
  // written into where `out` gives them.
  mpps(irradiance, cellTemp, out = undefined) {
    const [sun, temp] = [doubles(irradiance), doubles(cellTemp)];
    const { voltage, current } = out ??
      { voltage: new Float64Array(sun.length), current: new Float64Array(sun.length) };
    for (const row of [temp, voltage, current]) {
      if (!(row instanceof Float64Array) || row.length !== sun.length)
        throw new TypeError('rows of unlike length, or an output that is no Float64Array');
    }
    call('curve_mpps', pointer(this), sun, temp, sun.length, voltage, current);
    return { voltage, current };
  }
}

// Unlike strings in parallel on one input, by their curves: branches are { curve, modules,
// strings, irradiance, cellTemp }. `blocked`: a diode keeps current from flowing back.
class Parallel {
  #branches;
  #blocked;

  constructor(branches, { blocked = false } = {}) {
    this.#branches = Array.from(branches, (branch) => Object.freeze(
      { strings: 1, irradiance: 1000, cellTemp: 25, ...branch }));
    this.#blocked = blocked ? 1 : 0;
  }

  // Made anew for each call: a curve may have been freed since.
  #arguments() {
    const column = (name) => this.#branches.map((branch) => branch[name]);
    return [BigUint64Array.from(column('curve'), (curve) => pointer(curve, Curve) ?? 0n),
      Float64Array.from(column('irradiance')), Float64Array.from(column('cellTemp')),
      whole(column('modules')), whole(column('strings')), this.#branches.length, this.#blocked];
  }

  // Maximum-power point of all together.
  mpp() {
    return point(ask('parallel_mpp', ...this.#arguments()));
  }

  // Current of all together at a voltage.
  current(voltage) {
    return ask('parallel_current', ...this.#arguments(), voltage);
  }

  // Voltage at which this current flows; at 0 the open-circuit voltage.
  voltage(current) {
    return ask('parallel_voltage', ...this.#arguments(), current);
  }
}

function whole(numbers) {
  if (numbers.some((number) => number !== (number | 0)))
    throw new TypeError('modules and strings are whole numbers');
  return Int32Array.from(numbers);
}

module.exports = { Curve, Parallel };
