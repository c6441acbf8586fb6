// Checks and their findings.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, raw, shown } = require('./library');
const { Sequence, a, pointer } = require('./handle');
const { choiceName, choiceNumber, kindNumber, tables, termName, termNumber, upTo } = require('./terms');
const { Spec } = require('./spec');
const { Rules } = require('./rules');

const format = (markdown) => choiceNumber('format', markdown ? 'markdown' : 'plain');
const orNull = (index) => (index >= 0 ? index : null);

// The findings of a check. Of a finding that was not assessed value, limit and margin are
// null and `missing` names what it needs: a parameter, a figure, or a quantity that has no value
// for a reason of its own, such as a coefficient that cannot be believed.
class Report extends Sequence {
  constructor() {
    super('report', ask('report_new'));
  }

  get length() {
    return this.count();
  }

  // Findings with a verdict and at least a severity; null: any.
  count(of = {}) {
    if (typeof of !== 'object')
      throw new TypeError(`{ verdict, severity } is needed, not ${shown(of)}`);
    const { verdict = null, severity = null } = of;
    return ask('report_count', pointer(this),
      verdict === null ? 0 : choiceNumber('verdict', verdict),
      severity === null ? 0 : choiceNumber('severity', severity));
  }

  // A text of finding i: "sentence", "title", "source", "consequence", ...
  text(i, what = 'sentence') {
    return ask('report_text', pointer(this), i, choiceNumber('text', what));
  }

  _row(i) {
    const [, severity, verdict, subject] = ask('report_finding', pointer(this), i);
    const [value, limit, margin] = askOrNull('report_numbers', pointer(this), i) ?? [null, null, null];
    return { rule: this.text(i, 'name'), severity: choiceName('severity', severity),
      verdict: choiceName('verdict', verdict), subject, where: this.text(i, 'subject'),
      value, limit, margin, unit: this.text(i, 'unit'),
      governs: ask('report_governs', pointer(this), i) === 1,
      missing: termName(ask('report_missing', pointer(this), i)), title: this.text(i, 'title'),
      source: this.text(i, 'source'), sentence: this.text(i), working: this.text(i, 'working') };
  }

  // "nothing", "holds", "incomplete" or "broken", by the limits that must hold. Only "holds"
  // is good news.
  get outcome() {
    return choiceName('outcome', ask('report_outcome', pointer(this)));
  }

  // Findings that break a limit of at least this severity. An empty array says nothing of
  // what was not assessed.
  broken(severity = 'must') {
    const rank = choiceNumber('severity', severity);
    return this.rows().filter((finding) => finding.verdict === 'exceeds' &&
      choiceNumber('severity', finding.severity) >= rank);
  }

  // All that findings and quantities speak of, by their numbers.
  subjects() {
    return upTo(ask('report_subject_count', pointer(this)), (number) => {
      const [kind, index, owner] = ask('report_subject', pointer(this), number);
      return { kind: raw.kind_name(kind), index, owner: orNull(owner),
        text: ask('report_subject_text', pointer(this), number) };
    });
  }

  // Number of the subject of a kind; of inputs, those of an inverter.
  find(kind, index = 0, inverter = 0) {
    const owner = kind === 'input' && this.subjects().some((s) => s.kind === 'inverter')
      ? this.find('inverter', inverter) : -1;
    return ask('report_find', pointer(this), kindNumber(kind), index, owner);
  }

  // A computed quantity of one subject: "string_voc_cold", { array: 0 }; "input_imp",
  // { inverter: 0, input: 1 }; or { subject: NUMBER }. Of an index that is not given it is the
  // first: of several arrays that of array 0. null where it does not apply or data are missing.
  quantity(name, where = {}) {
    return askOrNull('report_quantity', pointer(this), termNumber(`quantity.${name}`),
      subjectOf(this, name, where));
  }

  // How that quantity of the same subject came about (without an index: of the first; each
  // line names what it is about), a step a line or with detail "long" every symbol.
  working(name, { markdown = false, detail = 'short', ...where } = {}) {
    return ask('report_working', pointer(this), termNumber(`quantity.${name}`),
      subjectOf(this, name, where), format(markdown), choiceNumber('detail', detail));
  }

  // What was taken for granted: term, value and the line that says so.
  get assumptions() {
    return upTo(ask('report_assumption_count', pointer(this)), (i) => {
      const [term, value] = ask('report_assumption', pointer(this), i);
      return { term: termName(term), value, text: ask('report_assumption_text', pointer(this), i) };
    });
  }

  // The whole report as text; detail "findings", "short" or "long".
  render({ markdown = false, detail = 'findings' } = {}) {
    return ask('report_render', pointer(this), format(markdown), choiceNumber('detail', detail));
  }

  toString() {
    return this.render();
  }
}

// The subject that a quantity speaks of, by the indices that lead to it, the first where one
// is not given; a module by that of an array that has it.
function subjectOf(report, name, where) {
  termNumber(`quantity.${name}`);
  let { scope } = tables.get('quantity').get(name);
  if (scope === 'module' && report.subjects().some((s) => s.kind === 'array'))
    scope = 'array';
  for (const key of Object.keys(where)) {
    if (![scope, 'subject'].includes(key) && !(scope === 'input' && key === 'inverter'))
      throw new TypeError(`${name} is asked of ${a(scope)}, not of ${a(key)}`);
  }
  if (where.subject !== undefined)
    return where.subject;
  return report.find(scope, where[scope] ?? 0, where.inverter ?? 0);
}

// Checks a spec by a rule set. A report given is filled again.
function check(spec, rules = new Rules(), report = new Report()) {
  ask('check', pointer(spec, Spec), pointer(rules, Rules), pointer(report, Report));
  return report;
}

module.exports = { Report, check, format, orNull };
