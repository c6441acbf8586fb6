// The results of the library through the binding, on invented jobs.
// SPDX-License-Identifier: MIT
'use strict';

const test = require('node:test');
const assert = require('node:assert/strict');
const pvsize = require('..');
const { makeModule, makeSearch, makeSystem } = require('./jobs');

const near = (value, wanted, relative = 1e-9) =>
  assert.ok(Math.abs(value - wanted) <= relative * Math.abs(wanted), `${value} is not ${wanted}`);

test('rule sets side by side', () => {
  const [old, current] = [new pvsize.Rules('asnzs_5033_2014'), new pvsize.Rules('asnzs_5033_2021')];
  assert.deepEqual(pvsize.compare(current, current.copy(), 'source'), []);
  const dwelling = pvsize.compare(old, current)
    .find((row) => row.term === 'figure.voltage_limit_dwelling');
  assert.deepEqual([dwelling.first, dwelling.second, dwelling.what], [600, 1000, ['value']]);
  const own = current.copy();
  own.setSeverity('phases', 'off');
  own.setFigure('isc_factor', null);
  own.add({ name: 'few', title: 'few', value: 'quantity.system_modules', compare: 'at_most', limit: 10 });
  assert.deepEqual(pvsize.compare(current, own).map(({ term, first, second }) => [term, first, second]),
    [['figure.isc_factor', 1.25, null], ['rule.phases', 'must', 'off'], ['rule.few', null, 'must']]);
});

test('reports side by side', () => {
  const job = makeSystem({ modules_per_string: 16, strings: 1, max_voltage: 1000, tracking_max: 850 });
  const [old, current] = ['asnzs_5033_2014', 'asnzs_5033_2021']
    .map((name) => pvsize.check(job, new pvsize.Rules(name)));
  const flips = pvsize.compare(old, current, 'verdict');
  assert.deepEqual(flips.map(({ rule, figures }) => [rule, figures]),
    [['voc_cold_building', ['voltage_limit_dwelling']]]);
  assert.equal(old.at(flips[0].first).verdict, 'exceeds');
  assert.equal(current.at(flips[0].second).verdict, 'meets');
  assert.throws(() => pvsize.compare(old, new pvsize.Rules()), TypeError);
  assert.throws(() => pvsize.compare(old, current, 'colour'), RangeError);
  assert.throws(() => pvsize.compare(old, pvsize.check(makeModule())), /the same subjects/);
});

test('a bill', () => {
  const bill = pvsize.bill(makeSystem());
  const modules = bill.at(0);
  assert.deepEqual([modules.item, modules.quantity, modules.measure], ['module', 18, 'pieces']);
  assert.deepEqual(modules.shares.map(({ where, installed, why }) => [where, installed, why]),
    [['array 1', 18, 'quantity.array_modules']]);
  const pairs = bill.rows().find((row) => row.item === 'connector_pair');
  assert.deepEqual([pairs.installed, pairs.quantity, pairs.allowance], [2, 3, 'figure.connector_spare']);
  const cable = bill.rows().find((row) => row.item === 'cable');
  assert.deepEqual([cable.quantity, cable.missing, cable.attributes],
    [null, 'cable.length', { circuit: 'string' }]);
  assert.equal(bill.outcome, 'incomplete');
  assert.ok(bill.assumptions.some((row) => row.text.startsWith('spare connectors')));
  assert.match(bill.render({ markdown: true }), /^# What must/);
  assert.throws(() => pvsize.bill(makeModule()), { code: 'wrong_kind' });
});

test('a curve', () => {
  const curve = new pvsize.Curve(makeModule({ cells: 108 }));
  near(curve.mpp().power, 32.5 * 13.23);
  near(curve.voc(), 38.8);
  near(curve.isc(), 13.9);
  near(curve.current(curve.voltage(7, 800, 40), 800, 40), 7);
  assert.ok(Math.abs(curve.check('vmp')) < 1e-6);
  assert.ok(Array.isArray(curve.assumptions));
  const model = curve.model(800, 40);
  assert.equal(model.kind, 'diode_model');
  near(new pvsize.Curve(curve.model()).mpp().power, curve.mpp().power);
  const { voltage, current } = curve.sample(50);
  assert.equal(voltage.length, 50);
  near(current[0], curve.isc());
  const out = { voltage: new Float64Array(2), current: new Float64Array(2) };
  assert.equal(curve.mpps(Float64Array.of(200, 1000), [30, 60], out).voltage, out.voltage);
  assert.equal(out.voltage[1], curve.mpp(1000, 60).voltage);
  assert.throws(() => curve.mpps([1, 2], [3]), TypeError);
  assert.throws(() => curve.mpps([1, 1], [3, 999]), /cell_temp\[1\]/);
  assert.throws(() => new pvsize.Curve(new pvsize.Site()), { code: 'wrong_kind' });
});

test('unlike strings in parallel', () => {
  const curve = new pvsize.Curve(makeModule());
  const at = { irradiance: 900, cellTemp: 50 };
  const both = new pvsize.Parallel([{ curve, modules: 12, ...at }, { curve, modules: 11, ...at }]);
  const alone = 23 * curve.mpp(900, 50).power;
  const peak = both.mpp();
  assert.ok(peak.power > 0.97 * alone && peak.power < alone);
  near(both.current(peak.voltage), peak.current);
  near(both.voltage(peak.current), peak.voltage);
  assert.throws(() => new pvsize.Parallel([{ curve, modules: 12, strings: 0 }]).mpp(), /strings\[0\]/);
  assert.throws(() => new pvsize.Parallel([{ curve, modules: 1.5 }]).mpp(), TypeError);
  curve.free();
  assert.throws(() => both.mpp(), { code: 'null_pointer' });
});

test('weather', () => {
  const months = Array.from({ length: 12 }, () => ({ irradiation: 4, temp_mean: 15, wind: 3 }));
  const place = { latitude: -33.9, longitude: 151.2, time_zone: 10 };
  const year = pvsize.Weather.fromMonths(new pvsize.Site({ ...place, months }), 2028);
  assert.deepEqual([year.length, year.step, year.origin(12, 'global')], [8784, 60, 'synthetic']);
  assert.deepEqual([year.time(0).year, year.time(0).day, year.time(0).minute], [2028, 1, 0]);
  near(year.column('global').reduce((a, b) => a + b) / 366, 4000);
  const sum = (azimuth) => year.onPlane(30, azimuth).reduce((a, b) => a + b);
  assert.ok(sum(0) > 1.2 * sum(180));
  const series = new pvsize.Series({ step: 30, gap: -9, first_day: 15, stamp: 'beginning' });
  const rows = pvsize.Weather.fromSeries(new pvsize.Site(place),
    { global: [0, 500, -9, 600], temp: Float64Array.of(20, -9, -9, 21) }, series);
  assert.deepEqual([rows.value(2, 'global'), rows.value(3, 'temp')], [null, 21]);
  assert.deepEqual([rows.runs('temp'), rows.count('wind')], [[{ first: 1, rows: 2 }], 4]);
  assert.deepEqual(rows.closure, { rows: 0, mean: 0, largest: 0, row: null });
  assert.ok(Number.isNaN(rows.column('temp')[1]));
  assert.throws(() => pvsize.Weather.fromSeries(new pvsize.Site(place),
    { beam: [0, 5000], diffuse: [0, 0] }), { term: 'interval.beam', index: 1, value: 5000 });
  assert.throws(() => pvsize.Weather.fromSeries(new pvsize.Site(place), { rain: [0] }), RangeError);
  assert.throws(() => new pvsize.Weather(), TypeError);
});

test('the sun on the day', () => {
  // NREL/TP-560-34302, worked example
  const at = { latitude: 39.742476, longitude: -105.1786,
    julianDay: pvsize.julianDay(2003, 290, 19 + 30 / 60 + 30 / 3600) };
  assert.ok(Math.abs(at.julianDay - 2452930.312847) < 1e-6);
  const sun = pvsize.sunPosition({ ...at, pressure: 820, temp: 11 });
  assert.ok(Math.abs(sun.azimuth - 194.34024) < 0.01 && Math.abs(90 - sun.elevation - 50.11162) < 0.01);
  const split = pvsize.splitGlobal({ ...at, global: 600 });
  const plane = pvsize.planeIrradiance({ ...at, ...split, tilt: 30, azimuth: 170 });
  assert.ok(Math.abs(plane.incidence - 25.187) < 0.02);
  assert.equal(plane.total, plane.beam + plane.sky + plane.ground);
});

test('a review', () => {
  const { inverters: [inverter], site: [site] } = { inverters: makeSystem().inverters,
    site: makeSystem().parts('site') };
  const enquiry = new pvsize.Enquiry({ modules: [makeModule(), makeModule({ isc: 40 })] });
  const page = pvsize.review(inverter, { site, enquiry });
  const governing = page.bounds.find((row) => row.what === 'module_isc' && row.strings === 1 && row.governs);
  near(governing.value, 36 / 1.25);
  assert.deepEqual(page.modules.map((row) => row.accepted === 'no'), [false, true]);
  assert.equal(page.modules[0].room.modules_max, 14);
  assert.ok(page.modules[1].stops.refused.margin < 0);
  assert.ok(page.remarks.length > 0 && page.remarks[0].text);
  assert.match(String(page), /CAUTION/);
  assert.ok(Object.values(pvsize.remarkTable()).every((row) => row.condition && row.sentence));
});

test('readings', () => {
  const job = makeSystem();
  job.add(new pvsize.Reading({ array: 0, string: 1, irradiance: 1000, cell_temp: 25,
    voc: 9 * 38.8, isc: 27.8, insulation: 50 }));
  const judgement = pvsize.judge(job);
  assert.deepEqual([judgement.length, judgement.count('not_judged')], [3, 1]);
  const [voc, isc, insulation] = judgement;
  assert.deepEqual([voc.measured, voc.judged, voc.causes[0].name, voc.alike], ['voc', 'fits', 'sound', null]);
  assert.equal(isc.causes[0].name, 'more_strings');
  assert.deepEqual([insulation.why, insulation.expected], ['reading.insulation_test', null]);
  assert.match(judgement.render({ markdown: true }), /# Readings on the day/);
});

test('exercises', () => {
  const exercise = new pvsize.Exercise('one_input', 1);
  assert.deepEqual([exercise.level, exercise.seed], ['one_input', 1]);
  const question = exercise.at(2);
  assert.equal(question.answer, pvsize.check(exercise.system, exercise.rules)
    .quantity('string_modules_max', { array: question.array }));
  assert.equal(exercise.mark(2, question.answer).mark, 'right');
  const { mark, mistakes } = exercise.mark(2, question.mistakes[0].value);
  assert.deepEqual([mark, mistakes.includes(question.mistakes[0].name)], ['mistaken', true]);
  for (const asked of exercise)
    assert.ok(asked.text && asked.working);
  const chosen = exercise.rows().findIndex((row) => typeof row.answer === 'string');
  if (chosen >= 0)
    assert.equal(exercise.mark(chosen, exercise.at(chosen).answer).mark, 'right');
  assert.throws(() => exercise.mark(2, 'yes'), TypeError);
  assert.match(exercise.sheet('solution', { markdown: true }), /^#/);
});

test('certificates', () => {
  const of = { power: 6600, zone: 3, year: 2026 };
  assert.equal(pvsize.certificates.count(of), 45); // 6.6 x 1.382 x 5 = 45.6
  assert.equal(pvsize.certificates.rating(3), 1.382);
  assert.equal(pvsize.certificates.years(2026), 5);
  assert.equal(pvsize.certificates.value(45, 38), 1710);
  assert.match(pvsize.certificates.working({ ...of, price: 38 }), /45/);
  assert.throws(() => pvsize.certificates.count({ ...of, year: pvsize.certificates.lastYear() + 1 }),
    { code: 'out_of_range' });
});

test('the best stringings', () => {
  const found = pvsize.search(makeSearch({ answers: 3 }));
  assert.deepEqual([found.ending, found.complete, found.length], ['proven', false, 3]);
  const best = found.at(0);
  assert.deepEqual([best.power, found.bound, best.modules, best.outcome], [9240, 9240, 28, 'holds']);
  assert.equal(best.arrays.reduce((sum, row) => sum + row.modulesPerString * row.strings, 0), 28);
  assert.equal(best.report().quantity('system_pv_power'), best.power);
  assert.equal(best.system().arrays.length, best.arrays.length);
  assert.match(String(best), /long side/);
  const obstacle = found.obstacles.find((row) => row.rule === 'isc_input' && row.input === 1);
  assert.ok(obstacle.limit === 14 && obstacle.margin < 0);
});

test('a search in the background', async () => {
  const [question, rules] = [makeSearch(), new pvsize.Rules()];
  const running = pvsize.searchAsync(question, rules);
  question.free();
  rules.free();
  const found = await running;
  assert.deepEqual([found.ending, found.at(0).power], ['proven', 9240]);
  assert.ok(found.obstacles.every((row) => row.text));
  const flag = new pvsize.Flag();
  flag.raise();
  assert.equal((await pvsize.searchAsync(makeSearch(), undefined, flag)).ending, 'cancelled');
  await assert.rejects(pvsize.searchAsync(makeSearch({ objective: 'nearest_power' })),
    { term: 'search.wanted_power', code: 'not_set' });
});

test('a ranking', () => {
  const question = makeSearch();
  const [system] = question.parts('system');
  const [second] = system.inverters;
  second.rated_ac_power = 3000;
  system.add(second);
  question.replace(0, system);
  const whole = new pvsize.Ranking(question, { most: 5 });
  assert.equal(whole.addShard(), 2);
  assert.deepEqual(whole.judged, { judged: 2, fitting: 2, unproven: 0 });
  assert.deepEqual(whole.rows().map((row) => [row.module, row.inverter]), [[0, 0], [0, 1]]);
  const parts = [0, 1].map((shard) => {
    const part = new pvsize.Ranking(question, { most: 5 });
    part.addShard(shard, 2);
    return part;
  });
  parts[1].merge(parts[0]);
  assert.deepEqual(parts[1].rows(), whole.rows());
  const fed = new pvsize.Ranking(question);
  assert.ok(fed.add(question.parts('module')[0], second, 0, 7));
  assert.equal(fed.at(0).inverter, 7);
  const all = new pvsize.Ranking(question, { most: 5 });
  assert.equal(all.addAll(question.parts('module'), system.inverters), 2);
  assert.deepEqual(all.rows(), whole.rows());
  assert.throws(() => all.addAll(system.inverters, system.inverters), { code: 'wrong_kind' });
});

test('a year', () => {
  const months = [6.5, 5.8, 4.8, 3.6, 2.7, 2.3, 2.6, 3.5, 4.6, 5.6, 6.3, 6.8]
    .map((irradiation) => ({ irradiation, temp_mean: 17, wind: 2 }));
  const place = { latitude: -33.9, longitude: 151.2, time_zone: 10 };
  const system = new pvsize.System({
    site: { ...place, planes: [{ tilt: 22, azimuth: 0, mounting: 'raised' }] },
    inverters: [{ rated_ac_power: 5000, european_efficiency: 96.8,
      inputs: [{ tracking_min: 80, tracking_max: 560, max_operating_current: 20 }] }],
    arrays: [{ input: 0, plane: 0, modules_per_string: 8, strings: 2, module: makeModule() }] });
  const light = new pvsize.Light(pvsize.Weather.fromMonths(new pvsize.Site({ ...place, months })),
    new pvsize.Outlook({ soiling: 2 }));
  const year = new pvsize.Year(system, light);
  const whole = year.system;
  const losses = whole.losses();
  assert.deepEqual(Object.keys(losses), [...pvsize.LOSSES]);
  assert.ok(Object.keys(year.array().losses()).length < pvsize.LOSSES.length);
  near(whole.reference - Object.values(losses).reduce((a, b) => a + b), whole.output);
  near(whole.power().reduce((a, b) => a + b) / 1000, whole.output);
  assert.ok(year.input().loss('input_current') > 0 && year.input().active('input_current') > 100);
  const { onPlane, atCells } = year.array().irradiation();
  assert.ok(atCells < 0.98 * onPlane && atCells > 0.9 * onPlane);
  near(whole.rated, 16 * 0.43);
  near(whole.specificYield, whole.output / whole.rated);
  assert.ok(light.specificYield(makeModule(), system.parts('site')[0].planes[0]) > whole.specificYield);
  assert.deepEqual([year.rows, year.step, year.gaps, String(year.input())],
    [8760, 60, 0, 'input 1 of inverter 1']);
  assert.ok(year.lit > 4000 && year.lit < 5000);
  assert.ok(year.assumptions.some((row) => row.name === 'no_string_cable' && row.text));
  assert.match(year.render({ markdown: true }), /^# Energy/);
  const used = new pvsize.Year(system, light, new Float64Array(8760).fill(1000)).system;
  near(used.energy('load'), 8760);
  near(used.energy('used') + used.energy('exported'), used.output, 1e-6);
  assert.throws(() => new pvsize.Year(system, light, [1, 2]), { code: 'out_of_range' });
  const response = { volt_watt_start: 253, volt_watt_end: 260, volt_watt_least: 20 };
  for (const [name, value] of Object.entries(response))
    system.setPart(0, `inverter.${name}`, value);
  const supplyVoltage = new Array(8760).fill(256.5); // half way down to 20 %
  const held = new pvsize.Year(system, light, null, { supplyVoltage });
  near(Math.max(...held.system.power()), 0.6 * 5000);
  near(held.inverter().loss('ac_voltage'), whole.output - held.system.output, 1e-6);
  assert.ok(held.inverter().active('ac_voltage') > 1000);
  assert.deepEqual(pvsize.LOSSES.slice(12, 15), ['ac_rating', 'ac_voltage', 'ac_wiring']);
  for (const wrong of [[], [240]])
    assert.throws(() => new pvsize.Year(system, light, null, { supplyVoltage: wrong }),
      { code: 'out_of_range' });
  assert.throws(() => year.array(7), { code: 'bad_index' });
  assert.throws(() => new pvsize.Light(system), TypeError);
});
