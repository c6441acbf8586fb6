// Sizing of photovoltaic arrays against inverter inputs: libpvsize for Node.
//
// Classes for each kind of object are made at load from the tables that the library describes
// itself by: Module, Input, Inverter, Site, Plane, Array, System and so on.
//
// CAUTION: a calculation aid. Mains and d.c. electricity kill, and a roof is high: a licensed
// person must check every result against the local code in force and the makers' instructions.
//
// SPDX-License-Identifier: MIT
'use strict';

const { PvsizeError, raw } = require('./lib/library');
const { describeKind, kinds, statuses, terms } = require('./lib/terms');
const { Spec, className, classes } = require('./lib/spec');
const { Rules, presets } = require('./lib/rules');
const { Report, check } = require('./lib/report');
const { compare } = require('./lib/compare');
const { Bill, bill } = require('./lib/bill');
const { Curve, Parallel } = require('./lib/curve');
const weather = require('./lib/weather');
const { Review, remarkTable, review } = require('./lib/review');
const { Judgement, judge } = require('./lib/readings');
const { Exercise } = require('./lib/exercise');
const certificates = require('./lib/certificates');
const { Flag, Layout, Layouts, Ranking, search, searchAsync } = require('./lib/layouts');
const { LOSSES, Light, Part, Year } = require('./lib/year');

// Version of the library, such as "0.1.0".
const version = () => raw.version_text();
// The line to show with every result.
const caution = () => raw.caution();

module.exports = {
  ...Object.fromEntries(Object.entries(classes).map(([kind, made]) => [className(kind), made])),
  PvsizeError, version, caution, statuses, kinds, describeKind,
  terms, Spec, Rules, presets, Report, check, compare, Bill,
  bill, Curve, Parallel, ...weather, Review, remarkTable, review, Judgement, judge, Exercise,
  certificates, Flag, Layout, Layouts, Ranking, search, searchAsync, LOSSES,
  Light, Part, Year,
};
