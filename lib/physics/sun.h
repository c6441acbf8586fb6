/* Where the sun stands, at an instant and over an interval. Numbers in, numbers
 * out: days of universal time, radians, directions as (east, north, up).
 *
 * Source: J. Meeus, Astronomical Formulae for Calculators (1979) ch. 18, with the
 * mean elements of his Astronomical Algorithms (1991) ch. 25, from memory. Against
 * ERFA the direction is within 0.006 degrees from 1950 to 2100 (tests/oracle). */
#ifndef PVSZ_SUN_H
#define PVSZ_SUN_H

#include <stdbool.h>
#include <stdint.h>

/* W/m2 at the mean distance: the value that the correlations of sky.h and
 * clearness.h were made with (Duffie and Beckman); 1361 is measured today. */
#define PVSZ_SOLAR_CONSTANT 1367.0
/* Julian day of 2000-01-01 12 h UT; days here are counted from it. */
#define PVSZ_EPOCH 2451545.0

typedef struct pvsz_place {
    double sin_latitude, cos_latitude, longitude; /* east positive */
} pvsz_place;

/* The sun's coordinates through one day of universal time. Good for 0 to 1 day
 * behind its start: the longitude is straight between the ends, which bends it by
 * less than 0.0001 degrees. */
typedef struct pvsz_sun_day {
    double start;             /* 0 h UT, in days from the epoch; ends in .5 */
    double longitude, motion; /* apparent, at the start and in the day */
    double sin_obliquity, cos_obliquity;
    double sidereal; /* apparent, Greenwich, at the start */
    double beyond;   /* W/m2 outside the atmosphere, on a plane facing the sun */
} pvsz_sun_day;

/* Direction of the sun. Over an interval it is the mean over the part in which the
 * sun is up, and by that a little shorter than 1: its product with a plane's normal
 * is then the mean cosine of a plane that sees the sun throughout. */
typedef struct pvsz_sun {
    double east, north, up;
    double beyond;
    double lit; /* share of the interval with the sun above the horizon */
} pvsz_sun;

pvsz_place pvsz_place_at(double latitude, double longitude); /* degrees */
/* Days from the epoch of an instant in UT; `day` of the year counts from 1 and may
 * run past its end. Gregorian calendar. */
double pvsz_day_number(int32_t year, double day, double hour);
bool pvsz_is_leap(int32_t year);
/* The day of universal time that an instant, in days from the epoch, falls into. */
pvsz_sun_day pvsz_sun_day_of(double instant);
/* At a share of the day; lit is 0 or 1. */
pvsz_sun pvsz_sun_at(const pvsz_sun_day *day, double share, const pvsz_place *place);
/* From one share of the day to another; at most a quarter of a day apart. */
pvsz_sun pvsz_sun_over(const pvsz_sun_day *day, double from, double to, const pvsz_place *place);
/* Degrees by which air lifts the sun at a true elevation in degrees (hPa, degC): the
 * formula of NREL/TP-560-34302; 0 where the sun is below the horizon. */
double pvsz_refraction(double elevation, double pressure, double temp);
/* Relative optical air mass by the cosine of the zenith angle (Kasten and Young 1989). */
double pvsz_air_mass(double cos_zenith);
/* Azimuth clockwise from north, 0 to 360, and elevation, degrees. */
void pvsz_horizontal(const pvsz_sun *sun, double *azimuth, double *elevation);
/* Hour angle, -pi to pi, and declination of a direction. */
void pvsz_hour_angle(const pvsz_sun *sun, const pvsz_place *place, double *hour_angle,
                     double *declination);

#endif
