/* From global irradiance to beam and diffuse, and how clear the days of a month are.
 * Numbers in, numbers out. */
#ifndef PVSZ_CLEARNESS_H
#define PVSZ_CLEARNESS_H

#include <stdint.h>

#include "sun.h"

/* Diffuse share of global irradiance by hourly clearness (Erbs, Klein and Duffie 1982). */
double pvsz_diffuse_share(double clearness);
/* Beam on a plane facing the sun, and diffuse, from the global irradiance of an
 * interval; the two make up the global one exactly. The beam does not exceed what was
 * there outside the atmosphere. */
void pvsz_split_global(const pvsz_sun *sun, double global, double *beam, double *diffuse);
/* Beam from what the horizontal receives of it, within the same bound. */
double pvsz_beam_from(const pvsz_sun *sun, double on_horizontal);

/* How the clearness of days is spread about its mean of a month: Bendt, Collares-Pereira
 * and Rabl 1981, with Herzog's exponent (Duffie and Beckman, eq. 2.9.6 ff.). */
typedef struct pvsz_clear_days {
    double lowest, highest, exponent;
} pvsz_clear_days;

pvsz_clear_days pvsz_clear_days_of(double mean);
/* Clearness that a share of the days stays below. */
double pvsz_clearness_below(const pvsz_clear_days *days, double share);
/* Clearness of each of the `days` days of a month, in the order of the calendar: the
 * middle quantiles of that distribution, dealt by a step prime to their count near its
 * golden section, so that clear and dull days are mixed the same way each time.
 * Its mean is near, not at, the mean asked for. */
void pvsz_deal_days(double mean, int32_t days, double *clearness);

/* Weight of an interval in the global irradiation of its day (Collares-Pereira and Rabl
 * 1979; Duffie and Beckman, eq. 2.13.1): by hour angle and that of sunset, radians. To be
 * divided by the sum over the day. */
double pvsz_day_weight(const pvsz_sun *sun, double hour_angle, double sunset);
/* Hour angle of sunset; 0 in the polar night and pi in the polar day. */
double pvsz_sunset(const pvsz_place *place, double declination);

/* Course of the temperature through a day of mean 0 and range about 1, by the solar hour
 * (0 to 24); and its range by the clearness of the month, K (Erbs, Klein and Beckman
 * 1983). The sum over equal steps of a day is 0. */
double pvsz_temp_course(double solar_hour);
double pvsz_temp_range(double clearness);

#endif
