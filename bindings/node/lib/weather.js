// Weather, the sun, and planes under the sky.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, askOrNull, call } = require('./library');
const { Handle, pointer } = require('./handle');
const { choiceName, choiceNumber, tables, upTo } = require('./terms');
const { Spec } = require('./spec');
const { orNull } = require('./report');

const WRAP = {}; // marks a pointer that is to be owned
const COLUMNS = ['global', 'beam', 'diffuse', 'temp', 'wind'];

function term(column) {
  const row = tables.get('interval').get(column);
  if (!row)
    throw new RangeError(`no column ${String(column)}; there are ${COLUMNS.join(', ')}`);
  return row.number;
}

// Equal intervals with irradiance, temperature and wind, each value with its origin. Made by
// fromSeries or fromMonths; does not change.
class Weather extends Handle {
  constructor(wrap, made) {
    if (wrap !== WRAP)
      throw new TypeError('weather is made by Weather.fromSeries or Weather.fromMonths');
    super('weather', made);
  }

  // From columns of numbers by name: global, beam, diffuse, temp and wind. A missing value
  // is a number equal to series.gap; NaN is refused. Float64Arrays are read where they lie.
  static fromSeries(site, columns, series = null) {
    Object.keys(columns).forEach(term);
    const given = COLUMNS.map((name) => (columns[name] === undefined ? null
      : columns[name] instanceof Float64Array ? columns[name] : Float64Array.from(columns[name])));
    const lengths = new Set(given.filter(Boolean).map((column) => column.length));
    if (lengths.size > 1)
      throw new RangeError('columns of unlike length');
    return new Weather(WRAP, ask('weather_from_series', pointer(site, Spec),
      series && pointer(series, Spec), ...given, [...lengths][0] ?? 0, 1));
  }

  // The hours of a year from the site's twelve months, the same each time.
  static fromMonths(site, year = 2026) {
    return new Weather(WRAP, ask('weather_from_months', pointer(site, Spec), year));
  }

  get length() {
    return ask('weather_size', pointer(this))[0];
  }

  // Minutes of an interval.
  get step() {
    return ask('weather_size', pointer(this))[1];
  }

  // When a row begins: year, day of the year and minute of the day in standard time, and
  // the Julian day in universal time.
  time(row) {
    const [year, day, minute, julianDay] = ask('weather_time', pointer(this), row);
    return { year, day, minute, julianDay };
  }

  // A number, or null where it is missing.
  value(row, column) {
    return askOrNull('weather_value', pointer(this), row, term(column));
  }

  // "missing", "given", "derived", "estimated" or "synthetic".
  origin(row, column) {
    return choiceName('origin', ask('weather_origin', pointer(this), row, term(column)));
  }

  #array(name, ...given) {
    const values = new Float64Array(this.length);
    call(name, pointer(this), ...given, values, values.length, null);
    return values;
  }

  // A column as Float64Array.
  column(column, gap = NaN) {
    return this.#array('weather_column', term(column), gap);
  }

  // Irradiance of a plane in every row, in W/m2.
  onPlane(tilt, azimuth, gap = NaN) {
    return this.#array('weather_on_plane', tilt, azimuth, gap);
  }

  // Rows of a column that have an origin.
  count(column, origin = 'missing') {
    return ask('weather_count', pointer(this), term(column), choiceNumber('origin', origin))[0];
  }

  // Where those rows are: of "missing", the gaps.
  runs(column, origin = 'missing') {
    const given = [pointer(this), term(column), choiceNumber('origin', origin)];
    return upTo(ask('weather_count', ...given)[1], (i) => {
      const [first, rows] = ask('weather_run', ...given, i);
      return { first, rows };
    });
  }

  // How global, beam and diffuse agree where all three were given.
  get closure() {
    const [rows, mean, largest, row] = ask('weather_closure', pointer(this));
    return { rows, mean, largest, row: orNull(row) };
  }
}

// Julian day of an hour of universal time, on a day of the year counted from 1.
const julianDay = (year, day, hour) => ask('julian_day', year, day, hour);

// Azimuth clockwise from north, and elevation, in degrees.
function sunPosition({ latitude, longitude, julianDay: at, pressure = 0, temp = 10 }) {
  const [azimuth, elevation] = ask('sun_position', latitude, longitude, at, pressure, temp);
  return { azimuth, elevation };
}

// Beam and diffuse that go, on average, with a global irradiance.
function splitGlobal({ latitude, longitude, julianDay: at, global }) {
  const [beam, diffuse] = ask('split_global', latitude, longitude, at, global);
  return { beam, diffuse };
}

// What a plane receives at an instant, and the angle of incidence in degrees.
function planeIrradiance({ latitude, longitude, julianDay: at, beam, diffuse, tilt, azimuth,
  albedo = 0.2 }) {
  const [fromBeam, sky, ground, incidence] = ask('plane_irradiance', latitude, longitude, at, beam,
    diffuse, albedo, tilt, azimuth);
  return { beam: fromBeam, sky, ground, incidence, total: fromBeam + sky + ground };
}

module.exports = { Weather, julianDay, planeIrradiance, splitGlobal, sunPosition };
