// What the library says of its own tables.
// SPDX-License-Identifier: MIT
'use strict';

const { attempt, fullName, lookFor, raw, shown } = require('./library');

const upTo = (count, at) => Array.from({ length: count }, (_, i) => at(i));

const termName = (number) => (number ? fullName(number) : null);

const sets = new Map();

// Names and numbers of one of the library's own sets, such as "verdict".
function setOf(name) {
  if (!sets.has(name)) {
    const set = raw.set_number(name);
    const numbers = upTo(raw.set_count(set), (i) => raw.set_at(set, i));
    sets.set(name, { set, numbers, names: numbers.map((number) => raw.set_name(set, number)) });
  }
  return sets.get(name);
}

const choiceName = (set, number) => raw.set_name(setOf(set).set, number);
const choiceText = (set, number) => raw.set_text(setOf(set).set, number);

function choiceNumber(set, name) {
  const { names, numbers } = setOf(set);
  const place = names.indexOf(name);
  if (place < 0)
    throw new RangeError(`${set} ${String(name)}: allowed ${names.join(', ')}`);
  return numbers[place];
}

function describe(number) {
  const [noRange, range] = attempt('term_range', number);
  const [noDefault, [value]] = attempt('term_default', number);
  const choices = Object.fromEntries(upTo(raw.choice_count(number), (i) => raw.choice_at(number, i))
    .map((choice) => [raw.choice_name(number, choice), raw.choice_text(number, choice)]));
  const byDefault = raw.choice_count(number) ? raw.choice_name(number, value) : value;
  return Object.freeze({
    number, kind: raw.kind_name(raw.term_kind(number)), name: raw.term_name(number),
    unit: raw.term_unit(number), text: raw.term_text(number),
    type: choiceName('type', raw.term_type(number)),
    need: choiceName('need', raw.term_need(number)),
    range: noRange ? null : range, default: noDefault ? null : byDefault, choices,
    refersTo: raw.kind_name(raw.term_refers_to(number)),
    scope: raw.kind_name(raw.term_scope(number)), rule: comparison(number) });
}

// What a rule compares, by names; null for other terms.
function comparison(number) {
  const compare = raw.term_rule_compare(number);
  return compare ? { value: termName(raw.term_rule_value(number)), compare: choiceName('compare', compare),
    limit: termName(raw.term_rule_limit(number)) } : null;
}

const kindNumbers = upTo(raw.kind_count(), (i) => raw.kind_at(i));
const tables = new Map(kindNumbers.map((kind) => [raw.kind_name(kind), new Map(
  upTo(raw.term_count(kind), (i) => describe(raw.term_at(kind, i))).map((row) => [row.name, row]))]));

// Names of all kinds of object and table.
const kinds = () => [...tables.keys()];

function kindNumber(kind) {
  const number = raw.kind_by_name(String(kind));
  if (!number)
    throw new RangeError(`no kind '${String(kind)}'; there are ${kinds().join(', ')}`);
  return number;
}

// What a kind is, and the parts it holds: how few and how many of each.
function describeKind(kind) {
  const number = kindNumber(kind);
  const parts = upTo(raw.kind_part_count(number), (i) => raw.kind_part_at(number, i));
  return { name: kind, plural: raw.kind_plural(number), text: raw.kind_text(number),
    parts: parts.map((part) => ({ kind: raw.kind_name(part), plural: raw.kind_plural(part),
      fewest: raw.kind_part_fewest(number, part), most: raw.kind_part_most(number, part) })) };
}

// What calls can return: number, code and a line on each.
const statuses = () => upTo(raw.status_count(), (i) => raw.status_at(i))
  .map((status) => ({ status, code: raw.status_name(status), text: raw.status_text(status) }));

// Rows of the table of a kind, a Map by name.
function terms(kind) {
  kindNumber(kind);
  return new Map(tables.get(kind));
}

// Number of "quantity.string_voc_cold" or "input.max_voltage".
function termNumber(name) {
  if (typeof name !== 'string')
    throw new TypeError(`the name of a term, such as 'module.voc', is needed, not ${shown(name)}`);
  const [kind, rest] = name.split('.', 2);
  const what = `no term '${name}'`;
  if (!tables.has(kind))
    throw new RangeError(`${what}: no kind '${kind}'; there are ${kinds().join(', ')}`);
  if (!tables.get(kind).has(rest))
    throw new RangeError(`${what}${lookFor(kind, rest)}`);
  return tables.get(kind).get(rest).number;
}

module.exports = { choiceName, choiceNumber, choiceText, describeKind, kindNumber, kindNumbers, kinds, setOf, statuses,
  tables, termName, termNumber, terms, upTo };
