// The binding against the library: complete, faithful, and clear in failure.
// SPDX-License-Identifier: MIT
'use strict';

const test = require('node:test');
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const pvsize = require('..');
const { makeModule, makeSystem } = require('./jobs');
const { calls } = require('../lib/library');

const near = (value, wanted, relative = 1e-9) =>
  assert.ok(Math.abs(value - wanted) <= relative * Math.abs(wanted), `${value} is not ${wanted}`);

// Looked up once in the tables, or of use to callers of C only.
const UNUSED = ['version', 'diag_clear', 'diag_status', 'term_by_name', 'choice_by_name', 'set_by_name',
  'year_fill'];

test('every public call is reached', () => {
  const folder = path.join(__dirname, '..', 'lib');
  const text = [...fs.readdirSync(folder).map((name) => path.join(folder, name)),
    path.join(folder, '..', 'index.js')].map((file) => fs.readFileSync(file, 'utf8')).join('\n');
  const composed = /^(?!raw).*_free$|^review_(bound|module|remark)_count$/; // names put together
  const missing = [...calls.keys()].filter((name) => !composed.test(name) &&
    !new RegExp(`(['"\`]|raw\\.)${name}\\b`).test(text));
  assert.deepEqual(missing, UNUSED);
});

test('every kind has a class with its parameters', () => {
  const names = pvsize.kinds().map((kind) => [kind, kind.replace(/(^|_)./g, (c) => c.at(-1).toUpperCase())]);
  assert.ok(names.length > 15);
  for (const [kind, name] of names) {
    if (!pvsize[name]?.kind) {
      assert.ok(['figure', 'quantity', 'rule', 'attribute'].includes(kind), kind);
      continue;
    }
    const spec = new pvsize[name]();
    for (const term of pvsize.terms(kind).values()) {
      assert.equal(spec[term.name], term.default, `${kind}.${term.name}`);
      const values = term.type === 'text' ? ['Wombat β']
        : term.type === 'choice' ? Object.keys(term.choices) : [term.range[1]];
      for (const value of values) {
        spec[term.name] = value;
        assert.equal(spec[term.name], value);
      }
      spec[term.name] = null;
    }
  }
});

test('a job in ten lines', () => {
  const report = pvsize.check(makeSystem());
  near(report.quantity('string_voc_cold'), 9 * 38.8 * 1.07);
  assert.equal(report.quantity('string_modules_max'), 14);
  assert.deepEqual(report.broken(), []);
  assert.equal(report.outcome, 'incomplete');
  assert.match(String(report), /CAUTION/);
  const finding = report.rows().find((row) => row.rule === 'voc_cold_input');
  assert.deepEqual([finding.verdict, finding.severity, finding.unit], ['meets', 'must', 'V']);
  near(finding.margin, 600 - finding.value);
  assert.equal(finding.working.split('\n')[0], 'module type 1: βVoc = -0.25 %/K');
  assert.equal([...report].length, report.length);
  assert.deepEqual(report.at(-1), report.at(report.length - 1));
  assert.equal(report.at(report.length), undefined);
  const missing = report.rows().find((row) => row.rule === 'pv_maker');
  assert.deepEqual([missing.verdict, missing.missing, missing.value],
    ['not_assessed', 'inverter.max_pv_power', null]);
  assert.match(report.working('string_voc_cold', { markdown: true, detail: 'long' }), /βVoc/);
  assert.ok(report.assumptions.every((row) => row.text && row.term.includes('.')));
});

test('a broken limit is a finding', () => {
  const report = pvsize.check(makeSystem({ modules_per_string: 15, strings: 1 }));
  assert.deepEqual(report.broken().map((row) => row.rule), ['voc_cold_input']);
  assert.equal(report.outcome, 'broken');
  assert.equal(pvsize.check(makeSystem(), new pvsize.Rules(), report), report);
  assert.equal(report.outcome, 'incomplete');
});

test('subjects lead to one another', () => {
  const report = pvsize.check(makeSystem());
  assert.deepEqual(report.subjects().map((subject) => subject.kind),
    ['system', 'site', 'plane', 'inverter', 'input', 'array', 'module']);
  assert.equal(report.subjects()[report.find('array')].owner, report.find('input'));
  assert.equal(report.quantity('system_modules', { subject: report.find('array') }), 18);
  assert.throws(() => report.find('input', 3), { code: 'bad_index' });
});

for (const [code, words, make] of [
  ['out_of_range', /module.voc: outside the allowed range; given -3 V/, () => new pvsize.Module({ voc: -3 })],
  ['not_finite', /not a finite number/, () => new pvsize.Module({ voc: NaN })],
  ['not_whole', /whole/, () => new pvsize.Module({ cells: 1.5 })],
  ['bad_choice', /allowed crystalline_silicon/, () => new pvsize.Module({ cell: 'mud' })],
  ['wrong_type', /holds another type/, () => new pvsize.Module({ voc: '38 V' })],
  ['wrong_kind', /a part of module/, () => makeModule().add(new pvsize.Site())],
  ['missing_part', /inverter/, () => pvsize.check(new pvsize.System({ site: {} }))],
  ['unknown_name', /given 'nowhere'/, () => new pvsize.Rules('nowhere')],
  ['bad_index', /index outside/, () => makeSystem().remove('array', 4)],
  ['needs_value', /must have a value/, () => new pvsize.Module({ voc: 'none' })],
]) {
  test(`wrong input: ${code}`, () => {
    assert.throws(make, (error) => error instanceof pvsize.PvsizeError && error.code === code &&
      words.test(error.message));
  });
}

// The same in Python: bindings/python/tests/test_binding.py.
for (const [type, words, make] of [
  [TypeError, "module.voc: the parameter holds another type of value; given '[ 3 ]'; allowed 0.1 V to 1500 V",
    () => new pvsize.Module({ voc: [3] })],
  [TypeError, "module.cells: the parameter holds another type of value; given 'true'",
    () => new pvsize.Module({ cells: true })],
  [TypeError, 'module.voc: the parameter', () => new pvsize.Module().setNumbers({ voc: {} })],
  [pvsize.PvsizeError, "given '[ 3 ]'; allowed crystalline_silicon",
    () => new pvsize.Module({ cell: [3] })],
  [TypeError, 'module.name: a text is needed, not 5', () => new pvsize.Module({ name: 5 })],
  [TypeError, "module has no parameter 'vocc'; did you mean 'voc'?", () => new pvsize.Module({ vocc: 39 })],
  [TypeError, "system has no parameter 'arays'; did you mean 'arrays'?",
    () => new pvsize.System({ arays: [] })],
  [TypeError, "module has no parameter 'wombat'; it has name, cell, pmax",
    () => new pvsize.Module({ wombat: 3 })],
  [RangeError, "no term 'quantity.string_voc_colt'; did you mean 'string_voc_cold'?",
    () => pvsize.check(makeSystem()).quantity('string_voc_colt')],
  [RangeError, "no term 'figure.isc_facter'; did you mean 'isc_factor'?",
    () => new pvsize.Rules().figure('isc_facter')],
  [TypeError, 'string_voc_cold is asked of an array, not of an input',
    () => pvsize.check(makeSystem()).quantity('string_voc_cold', { input: 1 })],
  [TypeError, 'string_voc_cold is asked of an array, not of an arrray',
    () => pvsize.check(makeSystem()).working('string_voc_cold', { arrray: 1 })],
  [RangeError, "no kind 'arrray'; there are", () => makeSystem().partNumber(0, 'arrray.strings')],
  [RangeError, "no rule 'voc_cold_inputs'; did you mean 'voc_cold_input'?",
    () => new pvsize.Rules().severity('voc_cold_inputs')],
  [TypeError, 'system.site: a Site is needed, or its values by name, not an Inverter',
    () => new pvsize.System({ site: new pvsize.Inverter() })],
  [TypeError, 'system.inverters: a list of inverters is needed, not {}',
    () => new pvsize.System({ inverters: {} })],
  [TypeError, 'system.site: one site is needed, not a list', () => new pvsize.System({ site: [{}] })],
  [TypeError, 'system.arrays: an Array is needed, or its values by name, not 3',
    () => new pvsize.System({ arrays: [3] })],
  [TypeError, "{ verdict, severity } is needed, not 'exceeds'",
    () => pvsize.check(makeSystem()).count('exceeds')],
  [TypeError, 'make a spec of one of the kinds', () => new pvsize.Spec()],
  [TypeError, 'Module: values by name are needed, not 5', () => new pvsize.Module(5)],
  [TypeError, "array.strings: a number is needed, not '3'",
    () => makeSystem().setPart(0, 'array.strings', '3')],
  [TypeError, "figure.isc_factor: a number is needed, not 'x'",
    () => new pvsize.Rules().setFigure('isc_factor', 'x')],
  [RangeError, "no term 'quantity.5'", () => pvsize.check(makeSystem()).quantity(5)],
  [TypeError, 'a Spec is needed, not 3', () => makeSystem().add(3)],
  [TypeError, 'a Spec is needed, not a Rules', () => pvsize.check(new pvsize.Rules())],
  [TypeError, "a Rules is needed, not 'asnzs'", () => pvsize.check(makeSystem(), 'asnzs')],
  [TypeError, "a number is needed, not 'much'",
    () => pvsize.certificates.count({ power: 'much', zone: 3, year: 2024 })],
  [TypeError, "a whole number of 32 bits is needed, not 'three'",
    () => pvsize.certificates.count({ power: 5000, zone: 'three', year: 2024 })],
  [pvsize.PvsizeError, 'allowed asnzs_5033_2014, asnzs_5033_2021', () => new pvsize.Rules('nowhere')],
]) {
  test(`wrong input: ${words}`, () => {
    assert.throws(make, (error) => error instanceof type && error.message.includes(words),
      String(make));
  });
}

test('what a foreign call would cut short is refused', () => {
  for (const [type, make] of [
    [TypeError, () => new pvsize.Module({ name: 'a\0b' })],
    [TypeError, () => new pvsize.Module({ volts: 3 })],
    [TypeError, () => { makeModule().volts = 3; }],
    [TypeError, () => new pvsize.Module({ voc: {} })],
    [TypeError, () => pvsize.check(3)],
    [TypeError, () => pvsize.check(new pvsize.Rules())],
    [TypeError, () => makeSystem().replace(0.5, makeModule())],
    [TypeError, () => makeSystem().replace(2 ** 32, makeModule())],
    [TypeError, () => new pvsize.Exercise('one_input', 1.5)],
    [RangeError, () => new pvsize.Rules().setSeverity('phases', 'shall')],
    [RangeError, () => new pvsize.Rules().setFigure('pi', 3.14)],
    [RangeError, () => new pvsize.Rules().severity('nothing')],
    [RangeError, () => pvsize.terms('nothing')],
    [TypeError, () => new pvsize.Spec()],
    [TypeError, () => new pvsize.Module(3)],
    [TypeError, () => new pvsize.System({ site: [3] })],
    [TypeError, () => new pvsize.Weather(5n)],
    [TypeError, () => pvsize.search(makeSystem(), 3)],
    [TypeError, () => new pvsize.Curve(makeModule()).sample(1.5)],
    [TypeError, () => new pvsize.Curve(makeModule()).mpp('1000')],
  ])
    assert.throws(make, type, String(make));
});

test('an error carries its detail', () => {
  assert.throws(() => makeModule({ voc: 2000 }), { name: 'PvsizeError', code: 'out_of_range',
    status: 202, term: 'module.voc', value: 2000, range: [0.1, 1500] });
  try {
    makeModule({ voc: 2000 });
  } catch (error) {
    assert.ok(error.reason && !error.reason.startsWith('module.voc'));
  }
  assert.ok(pvsize.statuses().some((row) => row.status === 202 && row.code === 'out_of_range' && row.text));
});

test('parts are copies', () => {
  const job = makeSystem();
  const [array] = job.arrays;
  array.strings = 1;
  assert.equal(job.arrays[0].strings, 2);
  job.replace(0, array);
  assert.equal(job.arrays[0].strings, 1);
  job.setPart(0, 'array.modules_per_string', 4);
  assert.equal(job.partNumber(0, 'array.modules_per_string'), 4);
  assert.equal(job.arrays[0].modules[0].voc, 38.8);
  assert.deepEqual(new pvsize.System(job.toJSON()).toJSON(), job.toJSON());
  assert.equal(JSON.stringify(job.copy()), JSON.stringify(job));
});

test('numbers are set together or not at all', () => {
  const module = makeModule();
  module.setNumbers({ voc: 40, vmp: 33 });
  assert.deepEqual([module.voc, module.vmp], [40, 33]);
  assert.throws(() => module.setNumbers({ voc: 41, vmp: -1 }), { term: 'module.vmp' });
  assert.equal(module.voc, 40);
});

test('none stated is an answer', () => {
  const inverter = new pvsize.Inverter({ max_pv_power: 'none' });
  assert.equal(inverter.max_pv_power, 'none');
  assert.equal(inverter.state('max_pv_power'), 'none');
  assert.deepEqual(inverter.toJSON(), { max_pv_power: 'none' });
  inverter.max_pv_power = null;
  assert.deepEqual([inverter.max_pv_power, inverter.state('max_pv_power')], [null, 'unset']);
});

test('rules can be changed', () => {
  const rules = new pvsize.Rules();
  rules.add({ name: 'retailer', title: 'at most 16 modules', value: 'quantity.system_modules',
    compare: 'at_most', limit: 16, severity: 'should', source: 'retailer' });
  rules.add({ name: 'reserve', title: '50 %', value: 'quantity.string_voc_cold', compare: 'at_most',
    limit: 0.5, limitOf: 'input.max_voltage' });
  rules.setFigure('isc_factor', 1.4, 'high site');
  rules.title = 'Own';
  const copy = rules.copy();
  assert.deepEqual(pvsize.check(makeSystem(), copy).broken('should').map((row) => row.rule),
    ['retailer', 'isc_input', 'reserve']);
  assert.deepEqual(copy.source('figure.isc_factor'), { text: 'high site', known: 'user' });
  assert.deepEqual(copy.definition('reserve'), { value: 'quantity.string_voc_cold',
    compare: 'at_most', limitOf: 'input.max_voltage', limit: 0.5 });
  assert.deepEqual([copy.title, copy.ruleTitle('reserve')], ['Own', '50 %']);
  assert.equal(copy.names().at(-1), 'reserve');
  copy.setSeverity('retailer', 'off');
  assert.deepEqual([copy.severity('retailer'), rules.severity('retailer')], ['off', 'should']);
  copy.setFigure('isc_factor', null);
  assert.deepEqual([copy.figure('isc_factor'), rules.figure('isc_factor')], [null, 1.4]);
});

test('a freed handle is refused', () => {
  const job = makeSystem();
  job.free();
  job.free();
  for (const use of [() => pvsize.check(job), () => job.name, () => job.arrays, () => job.copy()])
    assert.throws(use, { code: 'null_pointer', message: /^the System was freed: it cannot be used/ });
  const curve = new pvsize.Curve(makeModule());
  if (Symbol.dispose)
    curve[Symbol.dispose]();
  else
    curve.free();
  assert.throws(() => curve.mpp(), { code: 'null_pointer' });
});

test('thousands of forgotten objects', () => {
  for (let i = 0; i < 5000; i++)
    makeModule().copy();
});

test('tables, kinds, presets and version', () => {
  assert.deepEqual(pvsize.terms('rule').get('voc_cold_input').rule,
    { value: 'quantity.string_voc_cold', compare: 'at_most', limit: 'input.max_voltage' });
  const system = pvsize.describeKind('system');
  assert.ok(system.text && system.parts.some((part) => part.kind === 'site' && part.fewest === 1));
  assert.ok('asnzs_5033_2021' in pvsize.presets());
  assert.equal(pvsize.version(), require('../package.json').version);
  assert.match(pvsize.caution(), /licensed person/);
});
