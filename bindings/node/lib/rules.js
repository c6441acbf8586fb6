// Rule sets.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, lookFor, needNumber, raw } = require('./library');
const { Handle, pointer } = require('./handle');
const { choiceName, choiceNumber, termName, termNumber, upTo } = require('./terms');

const WRAP = {}; // marks a pointer that is to be owned

// A rule set from a preset or (null) empty. Rules go by name, own ones too.
class Rules extends Handle {
  constructor(preset = 'asnzs_5033_2021', wrapped = undefined) {
    super('rules', preset === WRAP ? wrapped : ask('rules_new', preset));
  }

  // A rule set that can be changed apart from this one.
  copy() {
    return wrapRules(ask('rules_clone', pointer(this)));
  }

  // Shown at the head of reports.
  get title() {
    return ask('rules_get_title', pointer(this));
  }

  set title(text) {
    ask('rules_set_title', pointer(this), text);
  }

  // A figure, or null where the rule set has none.
  figure(name) {
    return askOrNull('rules_get_figure', pointer(this), termNumber(`figure.${name}`));
  }

  // Changes a figure; null takes it away.
  setFigure(name, value, source = null) {
    const number = termNumber(`figure.${name}`);
    if (value === null)
      ask('rules_unset_figure', pointer(this), number);
    else
      ask('rules_set_figure', pointer(this), number, needNumber(`figure.${name}`, value),
        source);
  }

  // Names of all rules, own ones last.
  names() {
    return upTo(raw.rules_count(pointer(this)),
      (i) => ruleName(this, raw.rules_at(pointer(this), i)));
  }

  // Title of a rule.
  ruleTitle(name) {
    return ask('rules_rule_title', pointer(this), ruleNumber(this, name));
  }

  // "off", "note", "should" or "must".
  severity(name) {
    return choiceName('severity', ask('rules_get_severity', pointer(this), ruleNumber(this, name)));
  }

  // Changes how severely a rule holds.
  setSeverity(name, severity) {
    ask('rules_set_severity', pointer(this), ruleNumber(this, name),
      choiceNumber('severity', severity));
  }

  // What a rule compares; with limitOf null the limit is a number, else a factor of it.
  definition(name) {
    const [value, compare, limitOf, limit] =
      ask('rules_definition', pointer(this), ruleNumber(this, name));
    return { value: termName(value), compare: choiceName('compare', compare),
      limitOf: termName(limitOf), limit };
  }

  // Where a rule or "figure.NAME" is written, and how that is known.
  source(name) {
    const number = name.startsWith('figure.') ? termNumber(name) : ruleNumber(this, name);
    return { text: ask('rules_source', pointer(this), number),
      known: choiceName('known', ask('rules_known', pointer(this), number)) };
  }

  // Adds an own rule: `value` such as "quantity.system_modules", `compare` "at_most",
  // "at_least" or "more_than", `limit` a number, or with `limitOf` that number times another
  // term. Returns its number.
  add({ name, title, value, compare, limit, severity = 'must', source = null, limitOf = null }) {
    return ask('rules_add', pointer(this), name, title, termNumber(value),
      choiceNumber('compare', compare), limitOf === null ? 0 : termNumber(limitOf),
      needNumber('limit', limit),
      choiceNumber('severity', severity), source);
  }
}

const wrapRules = (made) => new Rules(WRAP, made);
const ruleName = (rules, number) => ask('rules_rule_name', pointer(rules), number);

function ruleNumber(rules, name) {
  const number = raw.rules_by_name(pointer(rules), String(name));
  if (!number)
    throw new RangeError(`no rule '${String(name)}'${lookFor('rule', name)}`);
  return number;
}

// Rule sets that come with the library: name and title.
const presets = () => Object.fromEntries(
  upTo(raw.preset_count(), (i) => [raw.preset_name(i), raw.preset_title(i)]));

module.exports = { Rules, presets, ruleName, wrapRules };
