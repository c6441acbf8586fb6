// Finding libpvsize, declaring its calls, and calling them.
// SPDX-License-Identifier: MIT
'use strict';

const childProcess = require('node:child_process');
const fs = require('node:fs');
const path = require('node:path');
const util = require('node:util');
const koffi = require('koffi');

const OK = 0;
const NOT_SET = 301;

// Letters of calls.txt. Places and arrays are typed arrays, which go in as they are.
const TYPES = { i: ['int32_t'], d: ['double'], n: ['size_t'], s: ['str'],
  b: ['void *', 'size_t', 'void *'] };
const RESULTS = { i: 'int32_t', s: 'str', '-': 'void' };
const PLACES = { I: Int32Array, D: Float64Array, N: BigUint64Array, H: BigUint64Array };

// Calls by name: { result, letters }.
function readCalls() {
  const calls = new Map();
  for (const line of fs.readFileSync(path.join(__dirname, '..', 'calls.txt'), 'utf8').split('\n')) {
    if (line && !line.startsWith('#')) {
      const [name, result, letters = ''] = line.split(' ');
      calls.set(name, { result, letters });
    }
  }
  return calls;
}

function fromPkgConfig() {
  const found = childProcess.spawnSync('pkg-config', ['--variable=libdir', 'pvsize'],
    { encoding: 'utf8' });
  return found.status === 0 ? [path.join(found.stdout.trim(), 'libpvsize.so.0')] : [];
}

function fromBuildFolders() {
  const root = path.join(__dirname, '..', '..', '..');
  if (!fs.existsSync(path.join(root, 'lib', 'pvsize.map')))
    return [];
  return fs.readdirSync(root).filter((name) => name.startsWith('build'))
    .map((name) => path.join(root, name, 'lib', 'libpvsize.so')).filter(fs.existsSync)
    .sort((a, b) => fs.statSync(b).mtimeMs - fs.statSync(a).mtimeMs);
}

// PVSIZE_LIBRARY; a build folder of the source tree; the system.
function* candidates() {
  if (process.env.PVSIZE_LIBRARY) {
    yield process.env.PVSIZE_LIBRARY;
    return;
  }
  yield* fromBuildFolders();
  yield 'libpvsize.so.0';
  yield* fromPkgConfig();
}

function open() {
  const tried = [];
  for (const file of candidates()) {
    try {
      return koffi.load(file);
    } catch (error) {
      tried.push(error.message);
    }
  }
  throw new Error(`libpvsize not found; set PVSIZE_LIBRARY to its path. ${tried.join('; ')}`);
}

const calls = readCalls();
const library = open();
const raw = {};
for (const [name, { result, letters }] of calls) {
  const types = [...letters].flatMap((letter) => TYPES[letter] ?? ['void *']);
  raw[name] = library.func(`pvsize_${name}`, RESULTS[result], types);
}

// A failure of the library. `code` is the name of its status, such as "out_of_range";
// `term` the parameter concerned, `value` what was given, `range` what is allowed, `reason` the
// message without the place.
class PvsizeError extends Error {
  constructor(message, detail) {
    super(message);
    Object.assign(this, detail);
  }

  get name() {
    return 'PvsizeError';
  }
}

const newDiag = () => {
  const place = new BigUint64Array(1);
  if (raw.diag_new(null, place))
    throw new Error('out of memory');
  return place[0];
};
const diag = newDiag();

function fullName(number) {
  const kind = raw.term_kind(number);
  return kind ? `${raw.kind_name(kind)}.${raw.term_name(number)}` : raw.kind_name(number);
}

// The error that a diag holds.
function failure(status, from = diag) {
  const value = new Float64Array(3);
  const hasValue = raw.diag_value(from, value) === OK;
  const hasRange = raw.diag_range(from, value.subarray(1, 2), value.subarray(2)) === OK;
  const index = raw.diag_index(from);
  return new PvsizeError(textOf((...buffer) => raw.diag_text(from, ...buffer))[1], {
    reason: textOf((...buffer) => raw.diag_reason(from, ...buffer))[1], status,
    code: raw.status_name(status), term: fullName(raw.diag_term(from)),
    index: index >= 0 ? index : null, value: hasValue ? value[0] : null,
    range: hasRange ? [value[1], value[2]] : null });
}

// Asks for the length, then for the text: [status, text].
function textOf(call) {
  const length = new BigUint64Array(1);
  const status = call(null, 0, length);
  if (status)
    return [status, null];
  const buffer = Buffer.alloc(Number(length[0]) + 1);
  return [call(buffer, buffer.length, length), buffer.toString('utf8', 0, Number(length[0]))];
}

// What was given, short enough for a message.
function shown(value) {
  const text = util.inspect(value, { depth: 0, breakLength: Infinity });
  return text.length <= 60 ? text : `${text.slice(0, 57)}...`;
}

// What a foreign call would cut short in silence is refused here.
const CHECKS = {
  i: ['a whole number of 32 bits', (value) => typeof value === 'number' && value === (value | 0)],
  d: ['a number', (value) => typeof value === 'number'],
  n: ['a count', (value) => Number.isSafeInteger(value) && value >= 0],
  s: ['a text without null characters',
    (value) => value === null || (typeof value === 'string' && !value.includes('\0'))],
};

// A number that a call takes; `what` names it where it is none.
function needNumber(what, value) {
  if (typeof value !== 'number')
    throw new TypeError(`${what}: a number is needed, not ${shown(value)}`);
  return value;
}

function check(name, letter, value) {
  const [wanted, holds] = CHECKS[letter] ?? [];
  if (holds && !holds(value))
    throw new TypeError(`${name}: ${wanted} is needed, not ${shown(value)}`);
}

// Puts the inputs where the letters ask for them, with a place for each output.
// Returns the arguments, the places, and where a text is asked for (-1: nowhere).
function lay(name, inputs, withDiag) {
  const given = [...inputs];
  const places = [];
  const laid = [];
  let text = -1;
  for (const letter of calls.get(name).letters) {
    if (letter === 'b') {
      text = laid.length;
    } else if (letter in PLACES) {
      places.push(new PLACES[letter](1));
      laid.push(places.at(-1));
    } else if (letter === 'g') {
      laid.push(withDiag);
    } else if (letter === 'm') {
      laid.push(null);
    } else {
      check(name, letter, given[0]);
      laid.push(given.shift());
    }
  }
  return { laid, places, text };
}

const values = (places) => places.map((place) => place[0]);

// Calls with the inputs only: [status, outputs], a text being the only output.
function attempt(name, ...inputs) {
  const { laid, places, text } = lay(name, inputs, diag);
  if (text < 0)
    return [raw[name](...laid), values(places)];
  const [status, found] = textOf((...buffer) =>
    raw[name](...laid.slice(0, text), ...buffer, ...laid.slice(text)));
  return [status, [found]];
}

// The outputs of a call: nothing, the only one, or an array. Throws on failure.
function ask(name, ...inputs) {
  const [status, found] = attempt(name, ...inputs);
  if (status)
    throw failure(status);
  return found.length > 1 ? found : found[0];
}

// The same; null where the library says that there is none.
function askOrNull(name, ...inputs) {
  const [status, found] = attempt(name, ...inputs);
  if (status === NOT_SET)
    return null;
  if (status)
    throw failure(status);
  return found.length > 1 ? found : found[0];
}

// A call with every argument given but the diag, for arrays and outputs left out.
function call(name, ...given) {
  given.forEach((value, i) => check(name, calls.get(name).letters[i], value));
  const status = raw[name](...given, diag);
  if (status)
    throw failure(status);
}

// "; did you mean 'voc'?" where the library knows a name much like it in a table; else "".
function lookFor(kind, name) {
  if (typeof name !== 'string' || name.includes('\0'))
    return '';
  const [status] = attempt('term_find', raw.kind_by_name(kind), name);
  const { reason } = failure(status);
  const at = reason.indexOf('; did you mean ');
  return at < 0 ? '' : reason.slice(at);
}

// A call on another thread, as a promise of its outputs. Objects must stay as they are.
function askAsync(name, ...inputs) {
  const own = newDiag();
  const { laid, places } = lay(name, inputs, own);
  return new Promise((resolve, reject) => {
    raw[name].async(...laid, (error, status) => {
      if (error ?? status)
        reject(error ?? failure(status, own));
      else
        resolve(values(places));
      raw.diag_free(own);
    });
  });
}

module.exports = { NOT_SET, PvsizeError, ask, askAsync, askOrNull, attempt, call, calls, failure,
  fullName, koffi, lookFor, needNumber, raw, shown };
