// Small-scale certificates of the Australian scheme, for quotes: the scheme's own rules of the
// day decide. `power` of the array in W at STC, `zone` 1 to 4, `period` "one_year",
// "five_years" or "longest".
// SPDX-License-Identifier: MIT
'use strict';

const { ask, raw } = require('./library');
const { choiceNumber } = require('./terms');
const { format } = require('./report');

const number = (period) => choiceNumber('period', period);

module.exports = {
  // First and last year of installation in the table.
  firstYear: () => raw.certificate_first_year(),
  lastYear: () => raw.certificate_last_year(),
  // Certificates for a kW and a year in a zone.
  rating: (zone) => ask('certificate_rating', zone),
  // Years counted for a system installed in `year`.
  years: (year, period = 'longest') => ask('certificate_years', year, number(period)),
  // How many certificates a system earns.
  count: ({ power, zone, year, period = 'longest' }) =>
    ask('certificate_count', power, zone, year, number(period)),
  // What so many are worth at a price each.
  value: (count, price) => ask('certificate_value', count, price),
  // How count and value come about, with the source of each figure.
  working: ({ power, zone, year, price, period = 'longest', markdown = false }) =>
    ask('certificate_working', power, zone, year, number(period), price, format(markdown)),
};
