// The energy of a system, hour by hour, and where it goes.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, attempt, call, failure, raw } = require('./library');
const { Handle, pointer } = require('./handle');
const { choiceName, choiceNumber, setOf, upTo } = require('./terms');
const { Spec } = require('./spec');
const { format, orNull } = require('./report');
const { Weather } = require('./weather');

const LOSSES = Object.freeze([...setOf('loss').names]);

// Weather made ready for many systems: what falls on each plane, and what each module makes of
// it, is computed once.
class Light extends Handle {
  constructor(weather, outlook = null) {
    super('light', ask('light_new', pointer(weather, Weather), outlook && pointer(outlook, Spec)));
  }

  // d.c. energy over rated power, kWh/kW, before cables, limits and conversion.
  specificYield(module, plane) {
    return ask('light_yield', pointer(this), pointer(module, Spec), pointer(plane, Spec));
  }
}

// The ledger of a system, inverter, input or array. Energies in kWh; month is 1 to 12, or 0
// for all.
class Part {
  #year;

  constructor(year, subject) {
    this.#year = year;
    this.subject = subject;
  }

  toString() {
    return ask('year_subject_text', pointer(this.#year), this.subject);
  }

  // "reference", "output"; of the system also "load", "used", "exported", "drawn".
  energy(name, month = 0) {
    return ask('year_energy', pointer(this.#year), this.subject, month, choiceNumber('energy', name));
  }

  get output() {
    return this.energy('output');
  }

  get reference() {
    return this.energy('reference');
  }

  // What one cause takes.
  loss(name, month = 0) {
    return ask('year_loss', pointer(this.#year), this.subject, month, choiceNumber('loss', name));
  }

  // All losses of this ledger by name, in its order.
  losses(month = 0) {
    const found = {};
    for (const name of LOSSES) {
      const [status, [kwh]] = attempt('year_loss', pointer(this.#year), this.subject, month,
        choiceNumber('loss', name));
      if (status && raw.status_name(status) === 'wrong_kind')
        break; // the ledger ends before it
      if (status)
        throw failure(status);
      found[name] = kwh;
    }
    return found;
  }

  // Hours in which a limit took something.
  active(loss) {
    return ask('year_active', pointer(this.#year), this.subject, choiceNumber('loss', loss));
  }

  // Of an array: light on its plane, and at its cells, kWh/m2.
  irradiation(month = 0) {
    const [onPlane, atCells] = ask('year_irradiation', pointer(this.#year), this.subject, month);
    return { onPlane, atCells };
  }

  // kW.
  get rated() {
    return ask('year_yield', pointer(this.#year), this.subject)[0];
  }

  // kWh/kW.
  get specificYield() {
    return ask('year_yield', pointer(this.#year), this.subject)[1];
  }

  // W in each row, of the system or an inverter.
  power(gap = NaN) {
    const values = new Float64Array(this.#year.rows);
    call('year_power', pointer(this.#year), this.subject, gap, values, values.length, null);
    return values;
  }
}

// Numbers of each row as the library reads them, and how many. None at all still have a place,
// so that the library refuses them.
function row(values) {
  if (values === null)
    return [null, 0];
  const read = values instanceof Float64Array ? values : Float64Array.from(values);
  return [read.length ? read : new Float64Array(1), read.length];
}

// A system under a light, with what the site uses: mean W in each row, or nothing; and the
// voltage of the supply, phase to neutral where the inverters' a.c. cables end: mean V in each
// row, or unknown.
class Year extends Handle {
  constructor(system, light, load = null, { supplyVoltage = null } = {}) {
    super('year', ask('year_new'));
    ask('year_fill_at_supply', pointer(system, Spec), pointer(light, Light), ...row(load),
      ...row(supplyVoltage), pointer(this));
  }

  get rows() {
    return ask('year_size', pointer(this))[0];
  }

  // Minutes of a row.
  get step() {
    return ask('year_size', pointer(this))[1];
  }

  // Rows with light.
  get lit() {
    return ask('year_size', pointer(this))[2];
  }

  // Rows not computed for want of weather.
  get gaps() {
    return ask('year_size', pointer(this))[3];
  }

  #part(kind, index) {
    return new Part(this, ask('year_subject', pointer(this), raw.kind_by_name(kind), index));
  }

  get system() {
    return this.#part('system', 0);
  }

  inverter(index = 0) {
    return this.#part('inverter', index);
  }

  // Inputs count through all inverters.
  input(index = 0) {
    return this.#part('input', index);
  }

  array(index = 0) {
    return this.#part('array', index);
  }

  // What was taken for granted.
  get assumptions() {
    return upTo(ask('year_assumption_count', pointer(this)), (i) => {
      const [what, subject, value] = ask('year_assumption', pointer(this), i);
      return { name: choiceName('year_assumption', what), subject: orNull(subject), value,
        text: ask('year_assumption_text', pointer(this), i) };
    });
  }

  // The whole year as text.
  render({ markdown = false } = {}) {
    return ask('year_render', pointer(this), format(markdown));
  }

  toString() {
    return this.render();
  }
}

module.exports = { LOSSES, Light, Part, Year };
