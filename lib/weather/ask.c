/* Asking weather. */
#include "weather.h"

static pvsize_status find_column(const pvsize_weather *weather, int32_t term, int32_t *column,
                                 pvsize_diag *diag)
{
    const pvsz_term *found = pvsz_term_find(term);
    pvsize_status status = pvsz_weather_check(weather, diag);

    if (status)
        return status;
    if (!found)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, term);
    if (found->kind != PVSZ_KIND_INTERVAL)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, term, pvsz_kinds[PVSZ_KIND_INTERVAL].name);
    *column = pvsz_term_place(found);
    return PVSIZE_OK;
}

static pvsize_status check_row(const pvsize_weather *weather, int32_t row, pvsize_diag *diag)
{
    pvsize_status status = pvsz_weather_check(weather, diag);

    if (status || (row >= 0 && row < weather->rows))
        return status;
    return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, PVSIZE_KIND_INTERVAL, row, weather->rows);
}

pvsize_status pvsize_weather_size(const pvsize_weather *weather, int32_t *rows, int32_t *step,
                                  pvsize_diag *diag)
{
    pvsize_status status = pvsz_weather_check(weather, diag);

    if (status)
        return status;
    if (rows)
        *rows = weather->rows;
    if (step)
        *step = weather->step;
    return PVSIZE_OK;
}

pvsize_status pvsize_weather_time(const pvsize_weather *weather, int32_t row, int32_t *year,
                                  int32_t *day, int32_t *minute, double *julian_day,
                                  pvsize_diag *diag)
{
    pvsize_status status = check_row(weather, row, diag);
    int32_t in_year, on_day, at_minute;

    if (status)
        return status;
    pvsz_row_time(weather, row, &in_year, &on_day, &at_minute);
    if (year)
        *year = in_year;
    if (day)
        *day = on_day + 1;
    if (minute)
        *minute = at_minute;
    if (julian_day)
        *julian_day = PVSZ_EPOCH + pvsz_day_number(in_year, on_day + 1, 0) +
                      (at_minute - weather->zone) / 1440;
    return PVSIZE_OK;
}

pvsize_status pvsize_weather_value(const pvsize_weather *weather, int32_t row, int32_t term,
                                   double *value, pvsize_diag *diag)
{
    int32_t column = 0;
    pvsize_status status = check_row(weather, row, diag);

    if (!status)
        status = find_column(weather, term, &column, diag);
    if (!status && !value)
        status = pvsz_fail_null(diag, "value");
    if (!status && !pvsz_known(&weather->row[row], column)) {
        status = pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
        pvsz_fail_at(diag, row);
    }
    if (!status)
        *value = weather->row[row].value[column];
    return status;
}

pvsize_status pvsize_weather_origin(const pvsize_weather *weather, int32_t row, int32_t term,
                                    int32_t *origin, pvsize_diag *diag)
{
    int32_t column = 0;
    pvsize_status status = check_row(weather, row, diag);

    if (!status)
        status = find_column(weather, term, &column, diag);
    if (!status && !origin)
        status = pvsz_fail_null(diag, "origin");
    if (!status)
        *origin = weather->row[row].origin[column];
    return status;
}

pvsize_status pvsz_check_column(int32_t rows, const double *values, size_t capacity, size_t *count,
                                pvsize_diag *diag)
{
    if (!values && capacity)
        return pvsz_fail_null(diag, "values");
    if (count)
        *count = (size_t)rows;
    if (!values || capacity >= (size_t)rows)
        return PVSIZE_OK;
    pvsz_fail_value(diag, PVSIZE_E_CAPACITY, 0, rows);
    pvsz_fail_argument(diag, "values");
    return PVSIZE_E_CAPACITY;
}

pvsize_status pvsize_weather_column(const pvsize_weather *weather, int32_t term, double gap,
                                    double *values, size_t capacity, size_t *count,
                                    pvsize_diag *diag)
{
    int32_t column = 0;
    pvsize_status status = find_column(weather, term, &column, diag);

    if (!status)
        status = pvsz_check_column(weather->rows, values, capacity, count, diag);
    for (int32_t i = 0; !status && values && i < weather->rows; i++)
        values[i] = pvsz_known(&weather->row[i], column) ? weather->row[i].value[column] : gap;
    return status;
}

/* runs of one origin */

static pvsize_status check_run(const pvsize_weather *weather, int32_t term, int32_t origin,
                               int32_t *column, pvsize_diag *diag)
{
    pvsize_status status = find_column(weather, term, column, diag);

    if (!status && !pvsz_set_has(PVSIZE_SET_ORIGIN, origin))
        status = pvsz_fail_choice(diag, "origin", PVSIZE_SET_ORIGIN, origin);
    return status;
}

/* The next run from a row on: its first row, or the count of rows; and the row behind. */
static int32_t next_run(const pvsize_weather *weather, int32_t column, int32_t origin, int32_t from,
                        int32_t *behind)
{
    int32_t first = from;

    while (first < weather->rows && weather->row[first].origin[column] != origin)
        first++;
    *behind = first;
    while (*behind < weather->rows && weather->row[*behind].origin[column] == origin)
        ++*behind;
    return first;
}

pvsize_status pvsize_weather_count(const pvsize_weather *weather, int32_t term, int32_t origin,
                                   int32_t *rows, int32_t *runs, pvsize_diag *diag)
{
    int32_t column = 0, behind = 0, all = 0, count = 0;
    pvsize_status status = check_run(weather, term, origin, &column, diag);

    if (status)
        return status;
    for (int32_t first; (first = next_run(weather, column, origin, behind, &behind)) < behind;) {
        all += behind - first;
        count++;
    }
    if (rows)
        *rows = all;
    if (runs)
        *runs = count;
    return PVSIZE_OK;
}

pvsize_status pvsize_weather_run(const pvsize_weather *weather, int32_t term, int32_t origin,
                                 int32_t i, int32_t *first, int32_t *rows, pvsize_diag *diag)
{
    int32_t column = 0, behind = 0, found = 0, count = 0;
    pvsize_status status = check_run(weather, term, origin, &column, diag);

    if (status)
        return status;
    for (; (found = next_run(weather, column, origin, behind, &behind)) < behind; count++) {
        if (count != i)
            continue;
        if (first)
            *first = found;
        if (rows)
            *rows = behind - found;
        return PVSIZE_OK;
    }
    return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, term, i, count);
}

pvsize_status pvsize_weather_closure(const pvsize_weather *weather, int32_t *rows, double *mean,
                                     double *largest, int32_t *row, pvsize_diag *diag)
{
    pvsize_status status = pvsz_weather_check(weather, diag);

    if (status)
        return status;
    if (rows)
        *rows = weather->compared;
    if (mean)
        *mean = weather->mean_difference;
    if (largest)
        *largest = weather->largest_difference;
    if (row)
        *row = weather->worst;
    return PVSIZE_OK;
}

pvsize_status pvsize_weather_on_plane(const pvsize_weather *weather, double tilt, double azimuth,
                                      double gap, double *values, size_t capacity, size_t *count,
                                      pvsize_diag *diag)
{
    pvsize_status status = pvsz_weather_check(weather, diag);
    pvsz_face face;

    if (!status)
        status = pvsz_check_number(pvsz_term_find(PVSIZE_PLANE_TILT), tilt, diag);
    if (!status)
        status = pvsz_check_number(pvsz_term_find(PVSIZE_PLANE_AZIMUTH), azimuth, diag);
    if (!status)
        status = pvsz_check_column(weather->rows, values, capacity, count, diag);
    if (status || !values)
        return status;
    face = pvsz_face_of(PVSZ_SKY_BINNED, tilt, azimuth, NULL);
    for (int32_t i = 0; i < weather->rows; i++) {
        const pvsz_weather_row *row = &weather->row[i];
        pvsz_sky sky = pvsz_sky_of(PVSZ_SKY_BINNED, &row->sun, row->value[PVSZ_BEAM],
                                   row->value[PVSZ_DIFFUSE], row->value[PVSZ_GLOBAL]);
        pvsz_plane_sun on = pvsz_on_face(&face, &sky, &row->sun, row->albedo);

        values[i] = pvsz_known(row, PVSZ_BEAM) && pvsz_known(row, PVSZ_DIFFUSE)
                        ? on.beam + on.sky + on.ground
                        : gap;
    }
    return PVSIZE_OK;
}
