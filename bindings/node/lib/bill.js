// What must be bought for a system.
// SPDX-License-Identifier: MIT
'use strict';

const { NOT_SET, ask, call, raw } = require('./library');
const { Sequence, pointer } = require('./handle');
const { choiceName, termName, upTo } = require('./terms');
const { Spec } = require('./spec');
const { Rules } = require('./rules');
const { format, orNull } = require('./report');

// Things to buy. `quantity` is what to buy, `installed` what of it is installed, null where
// that cannot be told; `missing` then names the first term that is needed.
class Bill extends Sequence {
  constructor() {
    super('bill', ask('bill_new'), 'bill_count');
  }

  // What is installed (0) or to be bought (1), null where it cannot be told.
  #amount(i, which) {
    const places = [null, null];
    places[which] = new Float64Array(1);
    try {
      call('bill_quantity', pointer(this), i, ...places, null);
    } catch (error) {
      if (error.status === NOT_SET)
        return null;
      throw error;
    }
    return places[which][0];
  }

  #attribute(i, k) {
    const [term, value, missing] = ask('bill_attribute', pointer(this), i, k);
    const named = raw.choice_count(term) ? raw.choice_name(term, value) : value;
    return [raw.term_name(term), missing ? null : named];
  }

  #share(i, k) {
    const [subject, installed, why] = ask('bill_share', pointer(this), i, k);
    return { subject, where: ask('bill_subject_text', pointer(this), subject), installed,
      why: termName(why) };
  }

  _row(i) {
    const [item, measure, type, missing] = ask('bill_row', pointer(this), i);
    const allowance = new Int32Array(1);
    call('bill_quantity', pointer(this), i, null, null, allowance);
    return { item: choiceName('item', item), quantity: this.#amount(i, 1),
      measure: choiceName('measure', measure),
      attributes: Object.fromEntries(upTo(ask('bill_attribute_count', pointer(this), i),
        (k) => this.#attribute(i, k))),
      type: orNull(type), installed: this.#amount(i, 0), allowance: termName(allowance[0]),
      missing: termName(missing),
      shares: upTo(ask('bill_share_count', pointer(this), i), (k) => this.#share(i, k)),
      text: ask('bill_text', pointer(this), i) };
  }

  // What the check of the design came to; see Report.outcome.
  get outcome() {
    return choiceName('outcome', ask('bill_outcome', pointer(this)));
  }

  // Allowances used, and defaults taken for granted.
  get assumptions() {
    return upTo(ask('bill_assumption_count', pointer(this)), (i) => {
      const [term, value, subject] = ask('bill_assumption', pointer(this), i);
      return { term: termName(term), value, subject: orNull(subject),
        text: ask('bill_assumption_text', pointer(this), i) };
    });
  }

  // The whole bill as text.
  render({ markdown = false } = {}) {
    return ask('bill_render', pointer(this), format(markdown));
  }

  toString() {
    return this.render();
  }
}

// What must be bought for a system by a rule set.
function bill(system, rules = new Rules()) {
  const made = new Bill();
  ask('bill_fill', pointer(system, Spec), pointer(rules, Rules), pointer(made));
  return made;
}

module.exports = { Bill, bill };
