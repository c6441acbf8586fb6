// Specs: a class for each kind of object, an accessor for each of its parameters.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, lookFor, needNumber, raw } = require('./library');
const { Handle, a, given, pointer } = require('./handle');
const { choiceName, kindNumber, kindNumbers, tables, termNumber, upTo } = require('./terms');

const WRAP = {}; // marks a pointer that is to be owned

// One thing with parameters and parts. Parameters are properties by their names in the
// tables: numbers in the unit of their row, texts and choices as strings, null where not set
// and without a default, "none" where there is none. Parts are read as arrays of copies.
class Spec extends Handle {
  constructor(values = {}, wrapped = undefined) {
    if (new.target === Spec)
      throw new TypeError('make a spec of one of the kinds, such as Module');
    if (typeof values !== 'object' || values === null || Array.isArray(values))
      throw new TypeError(`${new.target.name}: values by name are needed, not ${given(values)}`);
    const { number } = new.target;
    super('spec', values === WRAP ? wrapped : ask('spec_new', number));
    if (values !== WRAP) {
      for (const [name, value] of Object.entries(values))
        give(this, name, value);
    }
    Object.preventExtensions(this); // a misspelt property throws
  }

  get kind() {
    return this.constructor.kind;
  }

  // Adds a copy of a part; returns its index.
  add(part) {
    return ask('spec_add', pointer(this), pointer(part, Spec));
  }

  // Copies of the parts of a kind.
  parts(kind) {
    const number = kindNumber(kind);
    const count = ask('spec_part_count', pointer(this), number);
    return upTo(count, (i) => wrap(ask('spec_part', pointer(this), number, i)));
  }

  // Puts a copy of a part in the place of an old one of its kind.
  replace(index, part) {
    ask('spec_replace', pointer(this), index, pointer(part, Spec));
  }

  // Takes a part out; those behind it move up.
  remove(kind, index) {
    ask('spec_remove', pointer(this), kindNumber(kind), index);
  }

  // Number in force of a direct part, such as "array.modules_per_string".
  partNumber(index, name) {
    return ask('spec_get_part_number', pointer(this), index, termNumber(name));
  }

  // Sets a number of a part in place.
  setPart(index, name, value) {
    ask('spec_set_part_number', pointer(this), index, termNumber(name),
      needNumber(name, value));
  }

  // Sets numbers by name, all of them or, on failure, none.
  setNumbers(values) {
    const names = Object.keys(values);
    for (const name of names) {
      if (typeof values[name] !== 'number')
        refuse(this, termOf(this, name), values[name]);
    }
    ask('spec_set_numbers', pointer(this),
      Int32Array.from(names, (name) => termOf(this, name).number),
      Float64Array.from(Object.values(values)), names.length);
  }

  // "unset", "set", "default" or "none".
  state(name) {
    return choiceName('state', ask('spec_state', pointer(this), termOf(this, name).number));
  }

  // A copy with all its parts.
  copy() {
    return wrap(ask('spec_clone', pointer(this)));
  }

  // What was set, as the values that make it again.
  toJSON() {
    const values = {};
    for (const name of tables.get(this.kind).keys()) {
      if (['set', 'none'].includes(this.state(name)))
        values[name] = this[name];
    }
    for (const [plural, kind] of Object.entries(this.constructor.plurals)) {
      const parts = this.parts(kind);
      if (parts.length)
        values[plural] = parts.map((part) => part.toJSON());
    }
    return values;
  }
}

function termOf(spec, name) {
  const table = tables.get(spec.kind);
  if (!table.has(name)) {
    throw new TypeError(`${spec.kind} has no parameter '${String(name)}'` +
      (lookFor(spec.kind, name) || `; it has ${[...table.keys()].join(', ')}`));
  }
  return table.get(name);
}

// A value of a type that the parameter does not take: the library says what it does.
function refuse(spec, term, value) {
  const text = given(value);
  if (term.type === 'text' || text in term.choices)
    throw new TypeError(`${spec.kind}.${term.name}: a text is needed, not ${text}`);
  try {
    ask('spec_set_text', pointer(spec), term.number, text);
  } catch (error) {
    throw error.code === 'wrong_type' ? new TypeError(error.message) : error;
  }
}

function give(spec, name, value) {
  const kind = spec.constructor.partNames[name];
  if (!kind) {
    set(spec, termOf(spec, name), value);
    return;
  }
  const made = classes[kind];
  const many = Array.isArray(value);
  const where = `${spec.kind}.${name}`;
  if (many !== (name in spec.constructor.plurals)) {
    throw new TypeError(`${where}: ${many ? `one ${kind}` : `a list of ${name}`} is needed, not ` +
      (many ? 'a list' : given(value)));
  }
  for (const part of many ? value : [value]) {
    if (!(part instanceof made) && (part instanceof Handle || typeof part !== 'object' || !part ||
        Array.isArray(part))) {
      throw new TypeError(`${where}: ${a(made.name)} is needed, or its values by name, not ` +
        given(part));
    }
    spec.add(part instanceof made ? part : new made(part));
  }
}

function set(spec, term, value) {
  const asText = typeof value === 'boolean' && term.type === 'choice' ? (value ? 'yes' : 'no') : value;
  if (value === null || value === undefined)
    ask('spec_unset', pointer(spec), term.number);
  else if (value === 'none' && ['number', 'count'].includes(term.type))
    ask('spec_set_none', pointer(spec), term.number);
  else if (typeof asText === 'string')
    ask('spec_set_text', pointer(spec), term.number, asText);
  else if (term.type === 'text' || typeof value !== 'number')
    refuse(spec, term, value);
  else
    ask('spec_set_number', pointer(spec), term.number, value);
}

function get(spec, term) {
  const call = ['text', 'choice'].includes(term.type) ? 'spec_get_text' : 'spec_get_number';
  const value = askOrNull(call, pointer(spec), term.number);
  return value === null && spec.state(term.name) === 'none' ? 'none' : value;
}

const className = (kind) => kind.replace(/(^|_)(\w)/g, (_, __, letter) => letter.toUpperCase());

function makeClass(number) {
  const kind = raw.kind_name(number);
  const parts = upTo(raw.kind_part_count(number), (i) => raw.kind_part_at(number, i));
  const plurals = Object.fromEntries(parts.map((part) => [raw.kind_plural(part), raw.kind_name(part)]));
  const singles = Object.fromEntries(parts.map((part) => raw.kind_name(part))
    .filter((part) => !tables.get(kind).has(part)).map((part) => [part, part]));
  const made = { [className(kind)]: class extends Spec {} }[className(kind)];
  Object.assign(made, { kind, number, plurals, partNames: { ...singles, ...plurals } });
  for (const term of tables.get(kind).values()) {
    Object.defineProperty(made.prototype, term.name, { enumerable: true,
      get() { return get(this, term); },
      set(value) { set(this, term, value); } });
  }
  for (const [name, part] of Object.entries(plurals))
    Object.defineProperty(made.prototype, name, { get() { return this.parts(part); } });
  return made;
}

const classes = Object.fromEntries(kindNumbers.filter((number) => raw.kind_is_spec(number))
  .map((number) => [raw.kind_name(number), makeClass(number)]));

// Owns a spec that the library made.
function wrap(made) {
  return new classes[raw.kind_name(raw.spec_kind(made))](WRAP, made);
}

module.exports = { Spec, className, classes, wrap };
