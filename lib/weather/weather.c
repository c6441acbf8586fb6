/* Weather as an object: its rows, their time, and what follows from what is known. */
#include <math.h>

#include "../physics/clearness.h"
#include "weather.h"

pvsize_status pvsz_weather_check(const pvsize_weather *weather, pvsize_diag *diag)
{
    if (!weather)
        return pvsz_fail_null(diag, "weather");
    return pvsz_is(weather, PVSZ_MARK_WEATHER) ? PVSIZE_OK : pvsz_fail_handle(diag, "weather");
}

void pvsize_weather_free(pvsize_weather *weather)
{
    if (pvsz_is(weather, PVSZ_MARK_WEATHER))
        pvsz_unmake(weather);
}

/* time */

int32_t pvsz_month_days(int32_t year, int32_t month)
{
    static const int8_t days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

    return days[month] + (month == 1 && pvsz_is_leap(year));
}

int32_t pvsz_month_of(int32_t year, int32_t day)
{
    int32_t month = 0;

    while (day >= pvsz_month_days(year, month))
        day -= pvsz_month_days(year, month++);
    return month;
}

void pvsz_row_time(const pvsize_weather *weather, int32_t row, int32_t *year, int32_t *day,
                   int32_t *minute)
{
    int32_t from = weather->minute + row * weather->step;

    *year = weather->year;
    if (from < 0) /* stamped with its end, the first row may belong to the year before */
        from += 1440 * (365 + pvsz_is_leap(--*year));
    *day = from / 1440;
    *minute = from % 1440;
    while (*day >= 365 + pvsz_is_leap(*year))
        *day -= 365 + pvsz_is_leap((*year)++);
}

/* making */

/* A number of the site that cannot be done without. */
static pvsize_status need(const pvsize_spec *site, int32_t term, double *value, pvsize_diag *diag)
{
    return pvsz_spec_number(site, term, value) ? PVSIZE_OK
                                               : pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
}

static pvsize_status check_site(const pvsize_spec *site, pvsize_diag *diag)
{
    if (!site)
        return pvsz_fail_null(diag, "site");
    if (!pvsz_spec_live(site))
        return pvsz_fail_handle(diag, "site");
    if (site->kind != PVSZ_KIND_SITE)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsize_spec_kind(site), "a site");
    return PVSIZE_OK;
}

/* The sun over every row. A day's coordinates serve all rows with their middle in it. */
static void place_sun(pvsize_weather *weather)
{
    double start = pvsz_day_number(weather->year, 1, 0) + (weather->minute - weather->zone) / 1440;
    double width = weather->step / 1440.0;
    pvsz_sun_day day = {.start = -1e9};

    for (int32_t i = 0; i < weather->rows; i++) {
        double middle = start + (i + 0.5) * width;

        if (middle >= day.start + 1)
            day = pvsz_sun_day_of(middle);
        weather->row[i].sun = pvsz_sun_over(&day, middle - day.start - width / 2,
                                            middle - day.start + width / 2, &weather->place);
    }
}

static void place_albedo(pvsize_weather *weather, const pvsize_spec *site)
{
    const pvsz_part_list *months = pvsz_spec_parts(site, PVSZ_KIND_MONTH);

    for (int32_t i = 0; i < weather->rows; i++) {
        int32_t year, day, minute;
        size_t month;

        pvsz_row_time(weather, i, &year, &day, &minute);
        month = (size_t)pvsz_month_of(year, day);
        pvsz_spec_number(site, PVSIZE_SITE_ALBEDO, &weather->row[i].albedo);
        if (month < months->count)
            pvsz_spec_number(months->item[month], PVSIZE_MONTH_ALBEDO, &weather->row[i].albedo);
    }
}

pvsize_status pvsz_weather_begin(const pvsize_spec *site, int32_t year, int32_t minute,
                                 int32_t step, int32_t rows, const pvsize_allocator *memory,
                                 pvsize_weather **out, pvsize_diag *diag)
{
    double latitude = 0, longitude = 0, zone = 0;
    pvsize_status status = check_site(site, diag);
    pvsize_weather *weather;
    void *made;

    if (!status)
        status = need(site, PVSIZE_SITE_LATITUDE, &latitude, diag);
    if (!status)
        status = need(site, PVSIZE_SITE_LONGITUDE, &longitude, diag);
    if (!status)
        status = need(site, PVSIZE_SITE_TIME_ZONE, &zone, diag);
    if (!status)
        status = pvsz_make(memory, sizeof *weather + (size_t)rows * sizeof weather->row[0],
                           PVSZ_MARK_WEATHER, &made, diag);
    if (status)
        return status;
    weather = made;
    weather->rows = rows;
    weather->step = step;
    weather->year = year;
    weather->minute = minute;
    weather->zone = zone * 60;
    weather->place = pvsz_place_at(latitude, longitude);
    weather->worst = -1;
    place_sun(weather);
    place_albedo(weather, site);
    *out = weather;
    return PVSIZE_OK;
}

/* completing */

static void put(pvsz_weather_row *row, int32_t column, double value, int32_t origin)
{
    row->value[column] = value;
    row->origin[column] = (uint8_t)origin;
}

static void complete_row(pvsz_weather_row *row, int32_t estimate)
{
    bool global = pvsz_known(row, PVSZ_GLOBAL), beam = pvsz_known(row, PVSZ_BEAM);
    bool diffuse = pvsz_known(row, PVSZ_DIFFUSE);
    double of_beam = row->value[PVSZ_BEAM] * row->sun.up;

    if (beam && diffuse && !global) {
        put(row, PVSZ_GLOBAL, of_beam + row->value[PVSZ_DIFFUSE], PVSIZE_ORIGIN_DERIVED);
    } else if (global && beam && !diffuse) {
        put(row, PVSZ_DIFFUSE, fmax(0, row->value[PVSZ_GLOBAL] - of_beam), PVSIZE_ORIGIN_DERIVED);
    } else if (global && diffuse && !beam) {
        of_beam = row->value[PVSZ_GLOBAL] - row->value[PVSZ_DIFFUSE];
        put(row, PVSZ_BEAM, pvsz_beam_from(&row->sun, of_beam), PVSIZE_ORIGIN_DERIVED);
    } else if (global && !beam) {
        pvsz_split_global(&row->sun, row->value[PVSZ_GLOBAL], &row->value[PVSZ_BEAM],
                          &row->value[PVSZ_DIFFUSE]);
        row->origin[PVSZ_BEAM] = row->origin[PVSZ_DIFFUSE] = (uint8_t)estimate;
    }
}

/* Global less its parts, where all three are given and the sun is up. */
static void compare_row(pvsize_weather *weather, int32_t i)
{
    const pvsz_weather_row *row = &weather->row[i];
    double difference =
        row->value[PVSZ_GLOBAL] - row->value[PVSZ_DIFFUSE] - row->value[PVSZ_BEAM] * row->sun.up;

    if (row->origin[PVSZ_GLOBAL] != PVSIZE_ORIGIN_GIVEN ||
        row->origin[PVSZ_BEAM] != PVSIZE_ORIGIN_GIVEN ||
        row->origin[PVSZ_DIFFUSE] != PVSIZE_ORIGIN_GIVEN || row->sun.lit <= 0)
        return;
    weather->compared++;
    weather->mean_difference += difference;
    if (weather->worst < 0 || fabs(difference) > fabs(weather->largest_difference)) {
        weather->worst = i;
        weather->largest_difference = difference;
    }
}

void pvsz_weather_complete(pvsize_weather *weather, int32_t estimate)
{
    for (int32_t i = 0; i < weather->rows; i++) {
        complete_row(&weather->row[i], estimate);
        compare_row(weather, i);
    }
    if (weather->compared > 0)
        weather->mean_difference /= weather->compared;
}
