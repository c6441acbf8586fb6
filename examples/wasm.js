// An invented job, checked by the library in WebAssembly: node wasm.js PVSIZE_JS
// doc/install.md says how PVSIZE_JS is made. The same calls serve in a browser.
// SPDX-License-Identifier: MIT
'use strict';

const path = require('node:path');

// The calls by their names, with what every caller of C needs: places for outputs, texts
// that are asked for by length, statuses that say why.
function bind(wasm) {
  const place = wasm._malloc(8);
  const raw = (name, result, ...given) => wasm.ccall(`pvsize_${name}`, result,
    given.map((value) => (typeof value === 'string' ? 'string' : 'number')), given);
  const read = (type) => wasm.getValue(place, type);
  const text = (name, ...given) => {
    const last = name === 'diag_text' ? [] : [diag];
    raw(name, 'number', ...given, 0, 0, place, ...last);
    const size = read('i32') + 1;
    const buffer = wasm._malloc(size);
    raw(name, 'number', ...given, buffer, size, 0, ...last);
    const found = wasm.UTF8ToString(buffer);
    wasm._free(buffer);
    return found;
  };
  const run = (name, ...given) => {
    if (raw(name, 'number', ...given, diag))
      throw new Error(text('diag_text', diag));
  };
  const ask = (type, name, ...given) => {
    run(name, ...given, place);
    return read(type);
  };
  raw('diag_new', 'number', 0, place);
  const diag = read('i32');
  const kind = (name) => raw('kind_by_name', 'number', name);
  const term = (name) => ask('i32', 'term_find', kind(name.split('.')[0]), name.split('.')[1]);
  const choice = (set, name) =>
    raw('set_by_name', 'number', raw('set_number', 'number', set), name);

  // A spec of a kind with its numbers by name and its parts.
  const make = (name, values, ...parts) => {
    const spec = ask('i32', 'spec_new', kind(name), 0);
    for (const [key, value] of Object.entries(values))
      run('spec_set_number', spec, term(`${name}.${key}`), value);
    for (const part of parts) {
      run('spec_add', spec, part, 0);
      raw('spec_free', null, part);
    }
    return spec;
  };
  return { ask, choice, make, place, raw, read, run, text };
}

async function main(file) {
  const pvsize = bind(await require(path.resolve(file))());
  const { ask, choice, make, place, read, run } = pvsize;
  const module = make('module', { pmax: 440, voc: 39.2, isc: 14.2, vmp: 32.6, imp: 13.5,
    voc_coefficient: -0.25 });
  const job = make('system', {}, make('site', { temp_min: -2 }),
    make('inverter', {}, make('input', { max_voltage: 600 })),
    make('array', { input: 0, modules_per_string: 15, strings: 1 }, module));
  const rules = ask('i32', 'rules_new', 'asnzs_5033_2021', 0);
  const report = ask('i32', 'report_new', 0);
  run('check', job, rules, report);
  const exceeds = choice('verdict', 'exceeds');
  const sentence = choice('text', 'sentence');
  for (let i = 0; i < ask('i32', 'report_count', report, 0, 0); i++) {
    run('report_finding', report, i, 0, 0, place, 0); // of four outputs the verdict
    if (read('i32') === exceeds)
      console.log(pvsize.text('report_text', report, i, sentence));
  }
  console.log(pvsize.raw('caution', 'string'));
}

main(process.argv[2]).catch((error) => {
  console.error(error.message);
  process.exitCode = 1;
});
