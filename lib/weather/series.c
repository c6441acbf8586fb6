/* Weather from a caller's columns. */
#include "weather.h"

/* What a series spec, or its defaults, says. */
typedef struct reading {
    int32_t year, minute, step;
    bool has_gap;
    double gap;
} reading;

static int32_t number_of(const pvsize_spec *series, int32_t term)
{
    double value = 0;

    if (series)
        pvsz_spec_number(series, term, &value);
    else
        pvsize_term_default(term, &value);
    return (int32_t)value;
}

static pvsize_status read_series(const pvsize_spec *series, reading *r, pvsize_diag *diag)
{
    int32_t day;
    double stamp;

    if (series && !pvsz_spec_live(series))
        return pvsz_fail_handle(diag, "series");
    if (series && series->kind != PVSZ_KIND_SERIES)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsize_spec_kind(series), "a series");
    r->year = number_of(series, PVSIZE_SERIES_YEAR);
    r->step = number_of(series, PVSIZE_SERIES_STEP);
    day = number_of(series, PVSIZE_SERIES_FIRST_DAY);
    if (day == 366 && !pvsz_is_leap(r->year))
        return pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_SERIES_FIRST_DAY, day, 1, 365);
    r->minute = (day - 1) * 1440;
    if (series && pvsz_spec_number(series, PVSIZE_SERIES_FIRST_MINUTE, &stamp)) {
        r->minute += (int32_t)stamp;
        if (number_of(series, PVSIZE_SERIES_STAMP) == PVSIZE_STAMP_END)
            r->minute -= r->step;
    }
    r->has_gap = series && pvsz_spec_number(series, PVSIZE_SERIES_GAP, &r->gap);
    return PVSIZE_OK;
}

/* Copies one column in, each number checked by its term. */
static pvsize_status read_column(pvsize_weather *weather, int32_t column, const double *values,
                                 size_t stride, const reading *r, pvsize_diag *diag)
{
    const pvsz_term *term = &pvsz_kinds[PVSZ_KIND_INTERVAL].rows[column];

    for (int32_t i = 0; values && i < weather->rows; i++) {
        double value = values[(size_t)i * stride];
        pvsize_status status;

        if (r->has_gap && value == r->gap)
            continue;
        status = pvsz_check_number(term, value, diag);
        if (status) {
            pvsz_fail_at(diag, i);
            return status;
        }
        weather->row[i].value[column] = value == 0 ? 0 : value; /* no negative zero */
        weather->row[i].origin[column] = PVSIZE_ORIGIN_GIVEN;
    }
    return PVSIZE_OK;
}

static pvsize_status check_sizes(size_t rows, size_t stride, pvsize_diag *diag)
{
    if (rows < 1 || rows > PVSZ_MOST_ROWS) {
        pvsz_fail_range(diag, rows < 1 ? PVSIZE_E_OUT_OF_RANGE : PVSIZE_E_TOO_MANY, 0, (double)rows,
                        1, PVSZ_MOST_ROWS);
        pvsz_fail_argument(diag, "rows");
        return rows < 1 ? PVSIZE_E_OUT_OF_RANGE : PVSIZE_E_TOO_MANY;
    }
    if (stride < 1 || stride > 1000000) {
        pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, (double)stride, 1, 1000000);
        pvsz_fail_argument(diag, "stride");
        return PVSIZE_E_OUT_OF_RANGE;
    }
    return PVSIZE_OK;
}

pvsize_status pvsize_weather_from_series(const pvsize_spec *site, const pvsize_spec *series,
                                         const double *global, const double *beam,
                                         const double *diffuse, const double *temp,
                                         const double *wind, size_t rows, size_t stride,
                                         const pvsize_allocator *memory, pvsize_weather **out,
                                         pvsize_diag *diag)
{
    const double *columns[PVSZ_COLUMNS] = {global, beam, diffuse, temp, wind};
    pvsize_weather *weather = NULL;
    reading r = {0};
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = read_series(series, &r, diag);
    if (!status)
        status = check_sizes(rows, stride, diag);
    if (!status && !global && !(beam && diffuse))
        status = pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_INTERVAL_GLOBAL);
    if (!status)
        status = pvsz_weather_begin(site, r.year, r.minute, r.step, (int32_t)rows, memory, &weather,
                                    diag);
    for (int32_t c = 0; !status && c < PVSZ_COLUMNS; c++)
        status = read_column(weather, c, columns[c], stride, &r, diag);
    if (status) {
        pvsize_weather_free(weather);
        return status;
    }
    pvsz_weather_complete(weather, PVSIZE_ORIGIN_ESTIMATED);
    *out = weather;
    return PVSIZE_OK;
}
