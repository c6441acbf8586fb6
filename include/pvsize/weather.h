/* pvsize/weather.h - weather, the sun, and planes under the sky. Part of libpvsize;
 * include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_WEATHER_H
#define PVSIZE_WEATHER_H

#include "spec.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Weather is a run of equal intervals without holes between them, each with the columns
 * of the kind "interval": global, beam and diffuse irradiance, temperature and wind, each
 * the mean over the interval, each known or missing. It is made from a caller's series or
 * from means of the months, does not change once made, and refers to nothing that it was
 * made from. Const calls may run at once on it.
 *
 * Nothing is filled in silence: every value of every column has an origin
 * (PVSIZE_ORIGIN_...): given, derived from two others, estimated, synthetic, missing.
 *
 * The irradiance of a typical or synthetic year is that of no year to come, and its lowest
 * temperature is not the lowest to be expected: never size for cold mornings by it.
 *
 * Shared arguments:
 *
 *   row         place of an interval, from 0
 *   rows        receives how many rows
 *   term        the column, PVSIZE_INTERVAL_...
 *   origin      PVSIZE_ORIGIN_...
 *   gap         what is written where a value is missing; may be anything
 *   values      receives a number for each row; may be null where capacity is 0
 *   capacity    numbers that fit into it, or bytes of a text
 *   julian_day  instant, in days of universal time
 *   latitude    degrees, north positive
 *   longitude   degrees, east positive
 *   tilt        of a plane, degrees, 0 to 180
 *   azimuth     degrees clockwise from true north, 0 to 360
 *   albedo      share of the light that the ground reflects
 *   beam        irradiance of a plane that faces the sun, W/m2
 *   diffuse     irradiance of the horizontal by the sky, W/m2 */
typedef struct pvsize_weather pvsize_weather;

/* Makes weather from a caller's series.
 *
 * site    A spec of kind site: latitude, longitude and time_zone must be set; the albedo
 *         comes from it, or from its months where they have one.
 * series  A spec of kind series, or null for its defaults: a year of hours from midnight
 *         of 1 January 2026, standard time, stamped with their ends.
 * columns `global`, `beam`, `diffuse`, `temp` and `wind`, null where there is no such column;
 *         `rows` numbers each, `stride` doubles apart (1: one behind the other; a table of so
 *         many columns, row by row: their count). Ranges as in the table of the kind interval.
 *         Needed are global, or beam and diffuse.
 *
 * A missing value is a number equal to the series' `gap`; NaN is refused. Of global, beam
 * and diffuse, the third follows from two (derived); from global alone come beam and
 * diffuse by the correlation of Erbs, Klein and Duffie 1982 (estimated). All else that is
 * missing stays so. With all three given they are kept as they are, see
 * pvsize_weather_closure; planes then take beam and diffuse.
 *
 * At most 1054080 rows (ten years of five minutes): PVSIZE_E_TOO_MANY. A value refused is
 * named by its term, its index being the row. */
PVSIZE_API pvsize_status pvsize_weather_from_series(
    const pvsize_spec *site, const pvsize_spec *series, const double *global, const double *beam,
    const double *diffuse, const double *temp, const double *wind, size_t rows, size_t stride,
    const pvsize_allocator *memory, pvsize_weather **out, pvsize_diag *diag);

/* Makes the hours of a calendar year (1950 to 2100) from the site's twelve months, without
 * chance: the same year each time. latitude, longitude and time_zone must be set.
 *
 * Days: the clearness of a month's days are the middle quantiles of the distribution of
 * Bendt, Collares-Pereira and Rabl (1981), as many as the month has days, so that there are
 * clear days and dull ones; in the order in which day i (from 0) takes quantile
 * i s mod n, s near 0.618 n and prime to n. Hours: the ratios of Collares-Pereira and Rabl
 * (1979). Beam and diffuse: Erbs, Klein and Duffie (1982). Temperature: the course of Erbs,
 * Klein and Beckman (1983) about the mean, as wide as the daily extremes are apart or, if
 * the month has not both, as its clearness says. Wind: constant, missing if not given.
 *
 * The mean irradiation and the mean temperature of each month are those given, to
 * rounding. PVSIZE_E_MISSING_PART with fewer than twelve months; PVSIZE_E_OUT_OF_RANGE
 * where a month has more irradiation than 0.9 of what it would have without air, with some
 * room for twilight where the sun hardly rises (the index tells the month), or daily
 * extremes on the wrong sides of the mean. */
PVSIZE_API pvsize_status pvsize_weather_from_months(const pvsize_spec *site, int32_t year,
                                                    const pvsize_allocator *memory,
                                                    pvsize_weather **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_weather_free(pvsize_weather *weather);

/* Number of rows, and the `step`, minutes of each. Each output may be null. */
PVSIZE_API pvsize_status pvsize_weather_size(const pvsize_weather *weather, int32_t *rows,
                                             int32_t *step, pvsize_diag *diag);
/* When a row's interval begins: year, day of the year (from 1) and minute of the day in the
 * site's standard time, and the Julian day of the same instant in universal time. Each
 * output may be null. */
PVSIZE_API pvsize_status pvsize_weather_time(const pvsize_weather *weather, int32_t row,
                                             int32_t *year, int32_t *day, int32_t *minute,
                                             double *julian_day, pvsize_diag *diag);
/* A value of a column (PVSIZE_INTERVAL_...); PVSIZE_E_NOT_SET where it is missing. */
PVSIZE_API pvsize_status pvsize_weather_value(const pvsize_weather *weather, int32_t row,
                                              int32_t term, double *value, pvsize_diag *diag);
/* Where it comes from: PVSIZE_ORIGIN_... */
PVSIZE_API pvsize_status pvsize_weather_origin(const pvsize_weather *weather, int32_t row,
                                               int32_t term, int32_t *origin, pvsize_diag *diag);
/* A whole column to the caller's array; `gap` is written where a value is missing, and may
 * be anything. `count` receives the rows. PVSIZE_E_CAPACITY, and nothing written but
 * `count`, if the array is too small; null with capacity 0 asks for the count. */
PVSIZE_API pvsize_status pvsize_weather_column(const pvsize_weather *weather, int32_t term,
                                               double gap, double *values, size_t capacity,
                                               size_t *count, pvsize_diag *diag);
/* How many rows of a column have an origin, and in how many runs they stand: with
 * PVSIZE_ORIGIN_MISSING, the gaps. Each output may be null. */
PVSIZE_API pvsize_status pvsize_weather_count(const pvsize_weather *weather, int32_t term,
                                              int32_t origin, int32_t *rows, int32_t *runs,
                                              pvsize_diag *diag);
/* The i-th of those runs: its first row, and its length. PVSIZE_E_BAD_INDEX behind the
 * last. Each output may be null. */
PVSIZE_API pvsize_status pvsize_weather_run(const pvsize_weather *weather, int32_t term,
                                            int32_t origin, int32_t i, int32_t *first,
                                            int32_t *rows, pvsize_diag *diag);
/* How well global, beam and diffuse agree where all three were given: the rows in which
 * they were, the mean of global less its two parts, and the largest such difference, sign
 * and all, with its row (-1: none), in W/m2. Where the sun is up in a part of the interval
 * only, or the series is at odds with the time or place stated, they do not agree: a mean
 * of more than a few W/m2 is a reason to look. Each output may be null. */
PVSIZE_API pvsize_status pvsize_weather_closure(const pvsize_weather *weather, int32_t *rows,
                                                double *mean, double *largest, int32_t *row,
                                                pvsize_diag *diag);
/* Irradiance of a plane in every row, W/m2: beam, sky by the model of Perez et al. (1990),
 * and what the ground reflects. Tilt from 0 to 180, azimuth clockwise from true north from
 * 0 to 360, both in degrees. No shade, no losses at the glass. The array as with
 * pvsize_weather_column; `gap` where beam or diffuse is missing. */
PVSIZE_API pvsize_status pvsize_weather_on_plane(const pvsize_weather *weather, double tilt,
                                                 double azimuth, double gap, double *values,
                                                 size_t capacity, size_t *count, pvsize_diag *diag);

/* For a check on the day: numbers only.
 *
 * Julian day of an hour (0 to 24) of universal time, on a day of the year counted from 1,
 * from 1950 to 2100. */
PVSIZE_API pvsize_status pvsize_julian_day(int32_t year, int32_t day, double hour,
                                           double *julian_day, pvsize_diag *diag);
/* Where the sun stands, from 1950 to 2100, to 0.01 degrees: azimuth clockwise from true
 * north, 0 to 360, and elevation, -90 to 90. Latitude north and longitude east positive. With a
 * `pressure` of the air (hPa, at most 1200) and its `temp` (degC), as seen through the air;
 * with pressure 0, without it. Outputs may be null. */
PVSIZE_API pvsize_status pvsize_sun_position(double latitude, double longitude, double julian_day,
                                             double pressure, double temp, double *azimuth,
                                             double *elevation, pvsize_diag *diag);
/* Beam (on a plane facing the sun) and diffuse irradiance that go, on average, with a
 * global irradiance of the horizontal at an instant (Erbs, Klein and Duffie 1982). An
 * estimate: on a single day it is often far off. Outputs may be null. */
PVSIZE_API pvsize_status pvsize_split_global(double latitude, double longitude, double julian_day,
                                             double global, double *beam, double *diffuse,
                                             pvsize_diag *diag);
/* Irradiance of a plane at an instant, in three parts, `from_beam`, `from_sky` (Perez et
 * al. 1990) and `from_ground`, what the ground reflects; and the angle of `incidence` of the
 * beam, in degrees. What a meter lying in the plane should read is the sum. Outputs may be
 * null. */
PVSIZE_API pvsize_status pvsize_plane_irradiance(double latitude, double longitude,
                                                 double julian_day, double beam, double diffuse,
                                                 double albedo, double tilt, double azimuth,
                                                 double *from_beam, double *from_sky,
                                                 double *from_ground, double *incidence,
                                                 pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
