// What may go on an inverter.
// SPDX-License-Identifier: MIT
'use strict';

const { NOT_SET, ask, askOrNull, attempt, failure, raw } = require('./library');
const { Handle, pointer } = require('./handle');
const { choiceName, setOf, termName, upTo } = require('./terms');
const { Spec } = require('./spec');
const { Rules } = require('./rules');
const { format, orNull } = require('./report');

// What may go on an inverter: bounds, modules and remarks.
class Review extends Handle {
  constructor() {
    super('review', ask('review_new'));
  }

  #all(part, row) {
    return upTo(ask(`review_${part}_count`, pointer(this)), row);
  }

  // The envelope: what is bounded on which input (null: on all), by which rule. `value` is
  // as a data sheet states it, null where that needs what was not given.
  get bounds() {
    return this.#all('bound', (i) => {
      const [what, input, strings] = ask('review_bound', pointer(this), i);
      const [rule, severity, compare, governs] = ask('review_bound_rule', pointer(this), i);
      const [status, [value, limit]] = attempt('review_bound_numbers', pointer(this), i);
      if (status && status !== NOT_SET)
        throw failure(status);
      return { what: choiceName('bound', what), input: orNull(input), strings: strings || null, rule,
        severity: choiceName('severity', severity), compare: choiceName('compare', compare),
        governs: governs === 1, value: status ? null : value, limit,
        text: ask('review_bound_text', pointer(this), i) };
    });
  }

  #stop(i, number) {
    const found = askOrNull('review_module_stop', pointer(this), i, number);
    if (!found)
      return null;
    const [rule, value, limit, margin] = found;
    return { rule, value, limit, margin };
  }

  // The enquiry's modules on each input. `room` counts modules and strings by name; `stops`
  // says what stands against one more, "refused" against the module itself.
  get modules() {
    const { names, numbers } = setOf('room');
    const known = (rows) => Object.fromEntries(rows.filter(([, value]) => value !== null));
    return this.#all('module', (i) => {
      const [module, input, accepted, missing] = ask('review_module', pointer(this), i);
      return { module, input, accepted: choiceName('accepted', accepted), missing: termName(missing),
        room: known(names.map((name, k) => [name,
          askOrNull('review_module_room', pointer(this), i, numbers[k])])),
        stops: known([['refused', 0], ...names.map((name, k) => [name, numbers[k]])]
          .map(([name, number]) => [name, this.#stop(i, number)])),
        text: ask('review_module_text', pointer(this), i) };
    });
  }

  #remarkNumbers(i) {
    const found = [];
    for (;;) {
      const [status, [number]] = attempt('review_remark_number', pointer(this), i, found.length);
      if (status)
        return found;
      found.push(number);
    }
  }

  // What a trainer would say.
  get remarks() {
    return this.#all('remark', (i) => {
      const [remark, severity, input, term] = ask('review_remark', pointer(this), i);
      return { name: choiceName('remark', remark), severity: choiceName('severity', severity),
        input: orNull(input), term: termName(term), numbers: this.#remarkNumbers(i),
        text: ask('review_remark_text', pointer(this), i) };
    });
  }

  // The reviewer's page as text.
  render({ markdown = false } = {}) {
    return ask('review_render', pointer(this), format(markdown));
  }

  toString() {
    return this.render();
  }
}

// Reviews an inverter; site and enquiry may be left out. A review given as `page` is filled
// again.
function review(inverter, { rules = new Rules(), site = null, enquiry = null,
  page = new Review() } = {}) {
  ask('review_inverter', pointer(inverter, Spec), site && pointer(site, Spec),
    enquiry && pointer(enquiry, Spec), pointer(rules, Rules), pointer(page, Review));
  return page;
}

// When each remark is made, and its sentence, by name.
function remarkTable() {
  const { names, numbers } = setOf('remark');
  return Object.fromEntries(names.map((name, k) => [name,
    { condition: raw.remark_condition(numbers[k]), sentence: raw.remark_sentence(numbers[k]) }]));
}

module.exports = { Review, remarkTable, review };
