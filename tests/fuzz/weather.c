/* Weather from any series or months. What is told of it is finite and in its range. */
#include "fuzz.h"

enum { MOST_ROWS = 60 };

static void ask_column(const pvsize_weather *weather, int32_t term, pvsize_diag *diag)
{
    size_t rows = 0;
    double *values, low = 0, high = 0;

    HOLDS(went(diag, pvsize_weather_column(weather, term, -1e9, NULL, 0, &rows, diag)));
    values = malloc(rows * sizeof *values + 1);
    HOLDS(went(diag, pvsize_weather_column(weather, term, -1e9, values, rows, &rows, diag)));
    pvsize_term_range(term, &low, &high);
    for (size_t i = 0; i < rows; i += 1 + rows / 500) {
        int32_t origin = -1;

        HOLDS(isfinite(values[i]));
        HOLDS(went(diag, pvsize_weather_origin(weather, (int32_t)i, term, &origin, diag)));
        HOLDS((origin == PVSIZE_ORIGIN_MISSING) == (values[i] == -1e9));
        if (origin == PVSIZE_ORIGIN_GIVEN)
            HOLDS(values[i] >= low && values[i] <= high);
    }
    free(values);
}

static void ask_plane(draw *d, const pvsize_weather *weather, pvsize_diag *diag)
{
    size_t rows = 0;
    double tilt = draw_below(d, 8) ? draw_between(d, 0, 180) : draw_strange(d);
    double azimuth = draw_below(d, 8) ? draw_between(d, 0, 360) : draw_strange(d);
    double *values;

    if (!went(diag, pvsize_weather_on_plane(weather, tilt, azimuth, -1, NULL, 0, &rows, diag)))
        return;
    values = malloc(rows * sizeof *values + 1);
    if (went(diag, pvsize_weather_on_plane(weather, tilt, azimuth, -1, values, rows, &rows, diag)))
        for (size_t i = 0; i < rows; i++)
            HOLDS(values[i] == -1 || (values[i] >= 0 && values[i] < 1e5));
    free(values);
}

static void ask(draw *d, const pvsize_weather *weather, pvsize_diag *diag)
{
    int32_t rows = 0, year = 0, day = 0, minute = 0, runs = 0, first = 0, length = 0;
    double julian = 0;

    HOLDS(went(diag, pvsize_weather_size(weather, &rows, NULL, diag)));
    for (int i = 0; i < 3; i++) {
        int32_t row = draw_below(d, 4) ? draw_below(d, rows) : draw_strange_count(d);

        if (went(diag, pvsize_weather_time(weather, row, &year, &day, &minute, &julian, diag)))
            HOLDS(day >= 1 && day <= 366 && minute >= 0 && minute < 1440 && isfinite(julian));
    }
    for (int32_t term = PVSIZE_INTERVAL_GLOBAL; term <= PVSIZE_INTERVAL_WIND; term++) {
        int32_t origin = draw_below(d, 6);

        ask_column(weather, term, diag);
        if (!went(diag, pvsize_weather_count(weather, term, origin, &rows, &runs, diag)))
            continue;
        for (int32_t i = 0; i < runs && i < 20; i++) {
            HOLDS(went(diag, pvsize_weather_run(weather, term, origin, i, &first, &length, diag)));
            HOLDS(first >= 0 && length >= 1);
        }
        HOLDS(!went(diag, pvsize_weather_run(weather, term, origin, runs, &first, &length, diag)));
    }
    ask_plane(d, weather, diag);
}

static void from_series(draw *d, pvsize_spec *site, pvsize_diag *diag)
{
    double rows[MOST_ROWS][5];
    pvsize_spec *series = invent_spec(d, PVSIZE_KIND_SERIES, NULL);
    pvsize_weather *weather = NULL;
    int32_t given = draw_below(d, 32), count = draw_below(d, MOST_ROWS + 1);
    const double *columns[5];

    pvsize_spec_set_number(series, PVSIZE_SERIES_GAP, -9, NULL);
    for (int i = 0; i < MOST_ROWS; i++)
        for (int k = 0; k < 5; k++) {
            int32_t how = draw_below(d, 24);

            rows[i][k] = how == 0                 ? -9
                         : how == 1 && given > 20 ? draw_strange(d)
                                                  : how * 20.0 / (k < 3 ? 1 : 10);
        }
    for (int k = 0; k < 5; k++)
        columns[k] = given >> k & 1 ? &rows[0][k] : NULL;
    if (went(diag, pvsize_weather_from_series(site, series, columns[0], columns[1], columns[2],
                                              columns[3], columns[4], (size_t)count, 5, NULL,
                                              &weather, diag)))
        ask(d, weather, diag);
    pvsize_weather_free(weather);
    pvsize_spec_free(series);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    draw d = draw_from_bytes(bytes, count);
    pvsize_diag *diag = NULL;
    pvsize_weather *weather = NULL;
    pvsize_spec *site = invent_place(&d, NULL);
    int32_t wild = draw_below(&d, 4), year;

    if (pvsize_diag_new(NULL, &diag))
        return 0;
    for (int32_t i = 0; i < wild; i++) {
        int32_t term = PVSIZE_SITE_LATITUDE + draw_below(&d, 5);
        int32_t part = PVSIZE_MONTH_IRRADIATION + draw_below(&d, 6);

        pvsize_spec_set_number(site, term, invent_number(&d, term), NULL);
        pvsize_spec_set_part_number(site, draw_below(&d, 12), part, invent_number(&d, part), NULL);
    }
    if (draw_below(&d, 4)) {
        from_series(&d, site, diag);
    } else {
        year = draw_below(&d, 4) ? 1950 + draw_below(&d, 151) : draw_strange_count(&d);
        if (went(diag, pvsize_weather_from_months(site, year, NULL, &weather, diag)))
            ask(&d, weather, diag);
    }
    pvsize_weather_free(weather);
    pvsize_spec_free(site);
    pvsize_diag_free(diag);
    return 0;
}
