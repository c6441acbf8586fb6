// Two rule sets, or two reports, side by side.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, attempt, raw } = require('./library');
const { Sequence, pointer } = require('./handle');
const { choiceName, choiceNumber, setOf, termName } = require('./terms');
const { Rules, ruleName } = require('./rules');
const { Report, orNull } = require('./report');

class Comparison extends Sequence {
  constructor(pair) {
    super('comparison', ask('comparison_new'), 'comparison_count');
    this.pair = pair;
  }

  _row(i) {
    const [what, subject] = ask('comparison_difference', pointer(this), i);
    const { names, numbers } = setOf('differs');
    const made = { what: names.filter((_, k) => what & numbers[k]),
      text: ask('comparison_text', pointer(this), i) };
    const sides = [0, 1].map((side) => ask('comparison_side', pointer(this), i, side));
    return subject < 0 ? { ...this.#ofRules(i, sides), ...made }
      : { ...this.#ofReports(sides), subject, figures: this.#figures(i), ...made };
  }

  #number(i, side, what) {
    return askOrNull('comparison_number', pointer(this), i, side, choiceNumber('differs', what));
  }

  #ofRules(i, sides) {
    const side = sides[0][0] ? 0 : 1;
    const term = sides[side][0];
    if (raw.kind_name(raw.term_kind(term)) === 'figure') {
      return { term: termName(term), first: this.#number(i, 0, 'value'),
        second: this.#number(i, 1, 'value') };
    }
    const [first, second] = [0, 1].map((k) => this.#number(i, k, 'severity'))
      .map((number) => (number === null ? null : choiceName('severity', number)));
    return { term: `rule.${ruleName(this.pair[side], term)}`, first, second };
  }

  #ofReports(sides) {
    const [first, second] = sides.map(([, finding]) => orNull(finding));
    const rule = first === null ? this.pair[1].text(second, 'name') : this.pair[0].text(first, 'name');
    return { rule, first, second };
  }

  #figures(i) {
    const found = [];
    for (;;) {
      const [status, [figure]] = attempt('comparison_figure', pointer(this), i, found.length);
      if (status)
        return found;
      found.push(raw.term_name(figure));
    }
  }
}

// What two rule sets, or two reports on one system, do not have in common: an array of
// differences. `wanted` names what counts, such as ["verdict", "presence"]; empty: all but
// "source".
function compare(first, second, wanted = []) {
  const type = first instanceof Rules ? Rules : Report;
  if (!(first instanceof type && second instanceof type))
    throw new TypeError('compare takes two rule sets or two reports');
  const mask = [wanted].flat().reduce((sum, name) => sum | choiceNumber('differs', name), 0);
  const found = new Comparison([first, second]);
  try {
    ask(type === Rules ? 'compare_rules' : 'compare_reports', pointer(first), pointer(second), mask,
      pointer(found));
    return found.rows();
  } finally {
    found.free();
  }
}

module.exports = { compare };
