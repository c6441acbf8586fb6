/* A year of hours from twelve months' means. */
#include <math.h>

#include "../physics/angle.h"
#include "../physics/clearness.h"
#include "weather.h"

enum { HOURS = 24, MOST_DAYS = 31 };

/* Of what a month would have without air, the most that is believed; and what twilight and
 * refraction alone may bring where the sun hardly rises, Wh/m2 a day. */
#define MOST_CLEAR 0.9
#define TWILIGHT 100.0

/* J/m2 over 3600, that is Wh/m2, in a day without air. */
static double outside(const pvsz_weather_row *day)
{
    double sum = 0;

    for (int32_t h = 0; h < HOURS; h++)
        sum += day[h].sun.beyond * day[h].sun.lit * day[h].sun.up;
    return sum;
}

/* Deals the month's irradiation to its days. `irradiation` is the mean day's, in Wh/m2. */
static void fill_days(const pvsz_weather_row *rows, int32_t days, double mean, double irradiation,
                      double *day_sum)
{
    double clearness[MOST_DAYS], sum = 0;

    pvsz_deal_days(mean, days, clearness);
    for (int32_t d = 0; d < days; d++) {
        day_sum[d] = clearness[d] * outside(&rows[d * HOURS]);
        sum += day_sum[d];
    }
    for (int32_t d = 0; d < days && sum > 0; d++)
        day_sum[d] *= irradiation * days / sum;
}

/* Deals a day's irradiation to its hours. */
static void fill_hours(pvsz_weather_row *day, const pvsz_place *place, double irradiation)
{
    double weight[HOURS], sum = 0;

    for (int32_t h = 0; h < HOURS; h++) {
        double hour_angle, declination;

        pvsz_hour_angle(&day[h].sun, place, &hour_angle, &declination);
        weight[h] = pvsz_day_weight(&day[h].sun, hour_angle, pvsz_sunset(place, declination));
        sum += weight[h];
    }
    for (int32_t h = 0; h < HOURS; h++) {
        day[h].value[PVSZ_GLOBAL] = sum > 0 ? irradiation * weight[h] / sum : 0;
        day[h].origin[PVSZ_GLOBAL] = PVSIZE_ORIGIN_SYNTHETIC;
    }
}

/* The same course of temperature every day, by solar time; wind if the month has it. */
static void fill_air(pvsize_weather *weather, int32_t first, int32_t days, const pvsize_spec *month,
                     double clearness)
{
    double low, high, wind = 0, mean = pvsz_number_of(month, PVSIZE_MONTH_TEMP_MEAN, 0);
    double ahead = PVSZ_DEG(weather->place.longitude) / 15 - weather->zone / 60;
    double range = pvsz_temp_range(clearness), course[HOURS];
    bool has_wind = pvsz_spec_number(month, PVSIZE_MONTH_WIND, &wind);

    if (pvsz_spec_number(month, PVSIZE_MONTH_TEMP_DAILY_MIN, &low) &&
        pvsz_spec_number(month, PVSIZE_MONTH_TEMP_DAILY_MAX, &high))
        range = high - low;
    for (int32_t h = 0; h < HOURS; h++)
        course[h] = mean + range * pvsz_temp_course(h + 0.5 + ahead);
    for (int32_t i = 0; i < days * HOURS; i++) {
        pvsz_weather_row *row = &weather->row[first + i];

        row->value[PVSZ_TEMP] = course[i % HOURS];
        row->origin[PVSZ_TEMP] = PVSIZE_ORIGIN_SYNTHETIC;
        row->value[PVSZ_WIND] = wind;
        row->origin[PVSZ_WIND] = has_wind ? PVSIZE_ORIGIN_SYNTHETIC : PVSIZE_ORIGIN_MISSING;
    }
}

static pvsize_status fill_month(pvsize_weather *weather, int32_t first, int32_t days,
                                const pvsize_spec *month, int32_t index, pvsize_diag *diag)
{
    double irradiation = pvsz_number_of(month, PVSIZE_MONTH_IRRADIATION, 0) * 1000, most = 0,
           believed;
    double sums[MOST_DAYS] = {0}, clearness = 0;

    for (int32_t d = 0; d < days; d++)
        most += outside(&weather->row[first + d * HOURS]) / days;
    believed = most > 0 ? fmax(MOST_CLEAR * most, TWILIGHT) : 0;
    if (irradiation > believed) {
        pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_MONTH_IRRADIATION, irradiation / 1000,
                        0, floor(believed / 10) / 100);
        pvsz_fail_at(diag, index);
        pvsz_fail_hint(diag, "at that latitude no more gets through the air in a day; is it the "
                             "sum of the month, or has the latitude the wrong sign (south is "
                             "negative)?");
        return PVSIZE_E_OUT_OF_RANGE;
    }
    if (irradiation > 0) {
        clearness = fmin(irradiation / most, MOST_CLEAR);
        fill_days(&weather->row[first], days, clearness, irradiation, sums);
    }
    for (int32_t d = 0; d < days; d++)
        fill_hours(&weather->row[first + d * HOURS], &weather->place, sums[d]);
    fill_air(weather, first, days, month, clearness);
    return PVSIZE_OK;
}

/* What a month must have, and extremes on both sides of the mean. */
static pvsize_status check_month(const pvsize_spec *month, int32_t index, pvsize_diag *diag)
{
    static const int32_t needed[] = {PVSIZE_MONTH_IRRADIATION, PVSIZE_MONTH_TEMP_MEAN};
    double mean = 0, value;
    pvsize_status status = PVSIZE_OK;

    for (int32_t i = 0; !status && i < PVSZ_COUNT(needed); i++)
        if (!pvsz_spec_number(month, needed[i], &mean))
            status = pvsz_fail_term(diag, PVSIZE_E_NOT_SET, needed[i]);
    if (!status && pvsz_spec_number(month, PVSIZE_MONTH_TEMP_DAILY_MIN, &value) && value > mean)
        status = pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_MONTH_TEMP_DAILY_MIN, value,
                                 -90, mean);
    if (!status && pvsz_spec_number(month, PVSIZE_MONTH_TEMP_DAILY_MAX, &value) && value < mean)
        status = pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_MONTH_TEMP_DAILY_MAX, value,
                                 mean, 70);
    if (status)
        pvsz_fail_at(diag, index);
    return status;
}

static pvsize_status check_months(const pvsz_part_list *months, pvsize_diag *diag)
{
    pvsize_status status = PVSIZE_OK;

    if (months->count < 12)
        return pvsz_fail_range(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_MONTH,
                               (double)months->count, 12, 12);
    for (int32_t m = 0; !status && m < 12; m++)
        status = check_month(months->item[m], m, diag);
    return status;
}

pvsize_status pvsize_weather_from_months(const pvsize_spec *site, int32_t year,
                                         const pvsize_allocator *memory, pvsize_weather **out,
                                         pvsize_diag *diag)
{
    const pvsz_part_list *months = NULL;
    pvsize_weather *weather = NULL;
    int32_t first = 0;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = pvsz_check_number(pvsz_term_find(PVSIZE_SERIES_YEAR), year, diag);
    if (!status)
        status = pvsz_weather_begin(site, year, 0, 60, (365 + pvsz_is_leap(year)) * HOURS, memory,
                                    &weather, diag);
    if (!status) {
        months = pvsz_spec_parts(site, PVSZ_KIND_MONTH);
        status = check_months(months, diag);
    }
    for (int32_t m = 0; !status && m < 12; m++) {
        int32_t days = pvsz_month_days(year, m);

        status = fill_month(weather, first, days, months->item[m], m, diag);
        first += days * HOURS;
    }
    if (status) {
        pvsize_weather_free(weather);
        return status;
    }
    pvsz_weather_complete(weather, PVSIZE_ORIGIN_SYNTHETIC);
    *out = weather;
    return PVSIZE_OK;
}
