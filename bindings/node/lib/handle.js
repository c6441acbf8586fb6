// Objects of the library, given back when disposed of or forgotten.
// SPDX-License-Identifier: MIT
'use strict';

const { PvsizeError, ask, raw, shown } = require('./library');

const NULL_POINTER = 101;

const forgotten = new FinalizationRegistry(({ free, pointer }) => free(pointer));

const a = (name) => `${/^[aeiou]/i.test(name) ? 'an' : 'a'} ${name}`;

// What was given: an object of the library by its class.
const given = (value) => (value instanceof Handle ? a(value.constructor.name) : shown(value));

// Owns one object.
class Handle {
  #free;
  #pointer = null;

  // `type` names the calls: type_free gives the object back.
  constructor(type, pointer) {
    this.#free = raw[`${type}_free`];
    this.#pointer = pointer;
    forgotten.register(this, { free: this.#free, pointer }, this);
  }

  // Gives the object back; later use throws.
  free() {
    if (this.#pointer === null)
      return;
    forgotten.unregister(this);
    this.#free(this.#pointer);
    this.#pointer = null;
  }

  // The pointer behind a handle of a class; anything else is refused by name.
  static pointer(handle, type = Handle) {
    if (!(handle instanceof type))
      throw new TypeError(`${a(type.name)} is needed, not ${given(handle)}`);
    if (handle.#pointer === null) {
      const reason = `the ${handle.constructor.name} was freed: it cannot be used any more`;
      throw new PvsizeError(reason, { reason, status: NULL_POINTER,
        code: raw.status_name(NULL_POINTER), term: null, index: null, value: null, range: null });
    }
    return handle.#pointer;
  }
}

if (Symbol.dispose)
  Handle.prototype[Symbol.dispose] = Handle.prototype.free;

const pointer = Handle.pointer;

// A handle whose rows are counted by one call, or by a length of its own, and read by index.
class Sequence extends Handle {
  #count;

  constructor(type, made, count) {
    super(type, made);
    this.#count = count;
  }

  get length() {
    return ask(this.#count, pointer(this));
  }

  // Row i, from the end where negative; undefined outside.
  at(i) {
    const length = this.length;
    const place = Math.trunc(i) < 0 ? Math.trunc(i) + length : Math.trunc(i);
    return place >= 0 && place < length ? this._row(place) : undefined;
  }

  * [Symbol.iterator]() {
    for (let i = 0; i < this.length; i++)
      yield this._row(i);
  }

  // All rows, in an array.
  rows() {
    return [...this];
  }
}

module.exports = { Handle, Sequence, a, given, pointer };
