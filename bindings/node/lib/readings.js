// What meters read on the day.
// SPDX-License-Identifier: MIT
'use strict';

const { NOT_SET, ask, askOrNull, attempt, failure } = require('./library');
const { Sequence, pointer } = require('./handle');
const { choiceName, choiceNumber, choiceText, termName, upTo } = require('./terms');
const { Spec } = require('./spec');
const { Rules } = require('./rules');
const { format } = require('./report');

// What the readings of a system come to: a row for each number that was read.
class Judgement extends Sequence {
  constructor() {
    super('judgement', ask('judgement_new'));
  }

  get length() {
    return this.count();
  }

  // Rows with a judgement; null: all.
  count(judged = null) {
    return ask('judgement_count', pointer(this), judged === null ? 0 : choiceNumber('judged', judged));
  }

  #cause(i, k) {
    const [cause, least, likeliest, most, distance] = ask('judgement_cause', pointer(this), i, k);
    return { name: choiceName('cause', cause), least, likeliest, most, distance,
      text: choiceText('cause', cause) };
  }

  _row(i) {
    const [reading, measured, judged, why] = ask('judgement_row', pointer(this), i);
    const [status, [value, ...band]] = attempt('judgement_numbers', pointer(this), i);
    if (status && status !== NOT_SET)
      throw failure(status);
    const [expected, low, high] = status ? [null, null, null] : band;
    return { reading, measured: choiceName('measured', measured), judged: choiceName('judged', judged),
      why: termName(why), value, expected, low, high,
      alike: askOrNull('judgement_alike', pointer(this), i),
      causes: upTo(ask('judgement_cause_count', pointer(this), i), (k) => this.#cause(i, k)),
      text: ask('judgement_text', pointer(this), i) };
  }

  // All of it as text.
  render({ markdown = false } = {}) {
    return ask('judgement_render', pointer(this), format(markdown));
  }

  toString() {
    return this.render();
  }
}

// Judges the readings of a system. A judgement given is filled again.
function judge(system, rules = new Rules(), judgement = new Judgement()) {
  ask('judge', pointer(system, Spec), pointer(rules, Rules), pointer(judgement, Judgement));
  return judgement;
}

module.exports = { Judgement, judge };
