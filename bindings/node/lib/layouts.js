// The best stringings, and rankings of a catalogue.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askAsync, askOrNull, koffi } = require('./library');
const { Sequence, pointer } = require('./handle');
const { choiceName, choiceNumber, upTo } = require('./terms');
const { Spec, wrap } = require('./spec');
const { Rules, ruleName } = require('./rules');
const { Report, orNull } = require('./report');

const running = new Set(); // what other threads look at stays alive
const released = new FinalizationRegistry((place) => koffi.free(place));

// Stops a search that runs in the background: flag.raise().
class Flag {
  #place = koffi.alloc('int32_t', 1);

  constructor() {
    koffi.encode(this.#place, 'int32_t', 0);
    released.register(this, this.#place);
  }

  raise() {
    koffi.encode(this.#place, 'int32_t', 1);
  }

  static place(flag) {
    if (flag !== null && !(#place in flag))
      throw new TypeError('a Flag is needed');
    return flag === null ? null : flag.#place;
  }
}

function stringing([inverter, input, plane, module, modulesPerString, strings]) {
  return { inverter, input, plane, module, modulesPerString, strings };
}

// One answer: power in W, energy in kWh or null, modules, strings, devices, outcome
// ("holds" or "incomplete"), and the arrays.
class Layout {
  #layouts;
  #i;

  constructor(layouts, i) {
    this.#layouts = layouts;
    this.#i = i;
    for (const what of ['power', 'energy', 'modules', 'strings', 'devices'])
      this[what] = askOrNull('layouts_number', pointer(layouts), i, choiceNumber('layout', what));
    this.outcome = choiceName('outcome',
      ask('layouts_number', pointer(layouts), i, choiceNumber('layout', 'outcome')));
    this.arrays = upTo(ask('layouts_array_count', pointer(layouts), i),
      (k) => stringing(ask('layouts_array', pointer(layouts), i, k)));
  }

  // The whole system, as a spec of its own.
  system() {
    return wrap(ask('layouts_system', pointer(this.#layouts), this.#i));
  }

  // The check of the whole system.
  report() {
    const report = new Report();
    ask('layouts_report', pointer(this.#layouts), this.#i, pointer(report));
    return report;
  }

  toString() {
    return ask('layouts_text', pointer(this.#layouts), this.#i);
  }
}

// What a search found: a sequence of answers, the best first.
class Layouts extends Sequence {
  #rules;

  constructor(rules) {
    super('layouts', ask('layouts_new'), 'layouts_count');
    this.#rules = rules;
  }

  _row(i) {
    return new Layout(this, i);
  }

  // "proven", "budget" or "cancelled".
  get ending() {
    return choiceName('ending', ask('layouts_ending', pointer(this)));
  }

  // Whether it is known that there are no other answers.
  get complete() {
    return ask('layouts_complete', pointer(this)) === 1;
  }

  // What no stringing passes, or null.
  get bound() {
    return askOrNull('layouts_bound', pointer(this));
  }

  // Steps taken, of the node budget.
  get nodes() {
    return ask('layouts_nodes', pointer(this));
  }

  // What stood in the way. `rule` is null for the wanted modules.
  get obstacles() {
    return upTo(ask('layouts_obstacle_count', pointer(this)), (i) => {
      const [rule, inverter, input, plane, secondPlane, module, modulesPerString, strings, passes] =
        ask('layouts_obstacle', pointer(this), i);
      const [value, limit, margin] = ask('layouts_obstacle_numbers', pointer(this), i);
      return { rule: rule ? ruleName(this.#rules, rule) : null, inverter: orNull(inverter),
        input: orNull(input), plane: orNull(plane), secondPlane: orNull(secondPlane),
        module: orNull(module), modulesPerString: modulesPerString || null, strings: strings || null,
        passes: passes || null, value, limit, margin,
        text: ask('layouts_obstacle_text', pointer(this), i) };
    });
  }
}

// The best stringings of a Search, by a rule set.
function search(question, rules = new Rules()) {
  const given = [pointer(question, Spec), pointer(rules, Rules)];
  const found = new Layouts(rules.copy());
  ask('search', ...given, null, pointer(found));
  return found;
}

// The same in the background; `flag.raise()` stops it. Later changes of question and rules
// do not reach it.
async function searchAsync(question, rules = new Rules(), flag = null) {
  pointer(question, Spec);
  pointer(rules, Rules);
  const [own, ownRules] = [question.copy(), rules.copy()];
  const found = new Layouts(ownRules);
  const job = { own, found, flag };
  running.add(job);
  try {
    await askAsync('search', pointer(own), pointer(ownRules), Flag.place(flag), pointer(found));
  } finally {
    running.delete(job);
    own.free();
  }
  return found;
}

// Pairs of module and inverter for one site, a sequence with the best first.
class Ranking extends Sequence {
  constructor(question, { rules = new Rules(), most = 100 } = {}) {
    super('ranking', ask('ranking_new', pointer(question, Spec), pointer(rules, Rules), most),
      'ranking_count');
  }

  // Judges a pair; whether it has an answer.
  add(module, inverter, moduleNumber, inverterNumber) {
    return ask('ranking_add', pointer(this), pointer(module, Spec), pointer(inverter, Spec),
      moduleNumber, inverterNumber, null) === 1;
  }

  // Judges every module with every inverter, numbered from the given ones on; how many pairs.
  // The same as add for each, and much faster.
  addAll(modules, inverters, firstModule = 0, firstInverter = 0) {
    const list = (specs) => [BigUint64Array.from(specs, (spec) => pointer(spec, Spec)), specs.length];
    return ask('ranking_add_all', pointer(this), ...list(modules), ...list(inverters), firstModule,
      firstInverter, null);
  }

  // Judges every `shards`-th pair of the question's own; how many.
  addShard(shard = 0, shards = 1) {
    return ask('ranking_add_shard', pointer(this), shard, shards, null);
  }

  // Adds what another ranking of the same question found.
  merge(other) {
    ask('ranking_merge', pointer(this), pointer(other, Ranking));
  }

  // Pairs judged, with an answer, and of these not proven best.
  get judged() {
    const [judged, fitting, unproven] = ask('ranking_judged', pointer(this));
    return { judged, fitting, unproven };
  }

  _row(i) {
    const [module, inverter] = ask('ranking_pair', pointer(this), i);
    const number = (what) => askOrNull('ranking_number', pointer(this), i, choiceNumber('layout', what));
    return { module, inverter, power: number('power'), energy: number('energy'),
      modules: number('modules'), strings: number('strings') };
  }
}

module.exports = { Flag, Layout, Layouts, Ranking, search, searchAsync };
