/* Weather through the public calls: series, months, time, gaps, wrong input. The place and
 * the numbers are invented unless a source is named. */
#include "../support/pv_test.h"

static pvsize_spec *place(double latitude, double longitude, double zone)
{
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_LATITUDE, latitude,
                             PVSIZE_SITE_LONGITUDE, longitude, PVSIZE_SITE_TIME_ZONE, zone);
    return site;
}

/* Chicago O'Hare, TMY3: means of the months, kWh/m2 a day, degC (open data). */
static const double chicago[12][2] = {{1.76, -4.6}, {2.49, -2.5}, {3.44, 3.8},  {4.39, 10.0},
                                      {5.98, 15.3}, {6.29, 21.1}, {6.18, 24.1}, {5.16, 21.8},
                                      {4.19, 18.1}, {2.94, 11.0}, {1.82, 4.7},  {1.50, -3.7}};

static pvsize_spec *with_months(pvsize_spec *site, const double (*means)[2])
{
    for (int m = 0; m < 12; m++)
        give(site, SPEC(PVSIZE_KIND_MONTH, PVSIZE_MONTH_IRRADIATION, means[m][0],
                        PVSIZE_MONTH_TEMP_MEAN, means[m][1]));
    return site;
}

static pvsize_weather *year_of(pvsize_spec *site, int32_t year)
{
    pvsize_weather *weather;

    OK(pvsize_weather_from_months(site, year, NULL, &weather, diag));
    pvsize_spec_free(site); /* the weather outlives it */
    return weather;
}

static double value_of(const pvsize_weather *weather, int32_t row, int32_t term)
{
    double value = NAN;

    OK(pvsize_weather_value(weather, row, term, &value, diag));
    return value;
}

static int32_t origin_of(const pvsize_weather *weather, int32_t row, int32_t term)
{
    int32_t origin = -1;

    OK(pvsize_weather_origin(weather, row, term, &origin, diag));
    return origin;
}

static pvsize_weather *from(const pvsize_spec *site, const pvsize_spec *series,
                            const double *global, const double *beam, const double *diffuse,
                            size_t rows)
{
    pvsize_weather *weather;

    OK(pvsize_weather_from_series(site, series, global, beam, diffuse, NULL, NULL, rows, 1, NULL,
                                  &weather, diag));
    return weather;
}

/* ---- months ---- */

/* The sun is up, or on the horizon, at the beginning, middle or end of the hour. */
static bool is_day(const pvsize_weather *weather, int32_t row, double latitude)
{
    double julian, elevation, highest = -90;

    OK(pvsize_weather_time(weather, row, NULL, NULL, NULL, &julian, diag));
    for (int i = 0; i <= 2; i++) {
        double instant = fmin(julian + i / 48.0, 2488434.5);

        OK(pvsize_sun_position(latitude, 20, instant, 0, 0, NULL, &elevation, diag));
        highest = fmax(highest, elevation);
    }
    return highest > -0.1;
}

static void check_means(double latitude, int32_t year, const double (*means)[2])
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    pvsize_weather *weather = year_of(with_months(place(latitude, 20, 1), means), year);
    int32_t rows, step, row = 0;

    OK(pvsize_weather_size(weather, &rows, &step, diag));
    ck_assert_int_eq(rows, leap ? 8784 : 8760);
    ck_assert_int_eq(step, 60);
    for (int m = 0; m < 12; m++) {
        int hours = 24 * (days[m] + (m == 1 && leap));
        double sum = 0, temp = 0;

        for (int h = 0; h < hours; h++, row++) {
            double global = value_of(weather, row, PVSIZE_INTERVAL_GLOBAL);
            double beam = value_of(weather, row, PVSIZE_INTERVAL_BEAM);
            double diffuse = value_of(weather, row, PVSIZE_INTERVAL_DIFFUSE);

            ck_assert(global >= 0 && beam >= 0 && beam < 1415 && diffuse >= 0);
            ck_assert(diffuse <= global);
            ck_assert(global == 0 || is_day(weather, row, latitude));
            sum += global / 1000 * 24 / hours;
            temp += value_of(weather, row, PVSIZE_INTERVAL_TEMP) / hours;
        }
        NEAR(sum, means[m][0], 1e-12);
        NEAR(temp, means[m][1], 1e-12);
    }
    ck_assert_int_eq(row, rows);
    pvsize_weather_free(weather);
}

START_TEST(months_keep_their_means)
{
    /* no sun in December and January, none that sets in June: Spitsbergen, roughly */
    static const double north[12][2] = {{0, -13},  {0.1, -14}, {1.0, -13}, {3.3, -10},
                                        {5.4, -3}, {5.6, 2},   {4.6, 6},   {2.8, 5},
                                        {1.2, 1},  {0.2, -5},  {0, -9},    {0, -12}};
    static const double south[12][2] = {{7.1, 22}, {6.2, 22}, {4.9, 20}, {3.6, 17},
                                        {2.6, 14}, {2.1, 12}, {2.3, 11}, {3.2, 12},
                                        {4.4, 14}, {5.6, 17}, {6.5, 19}, {7.1, 21}};
    static const double equator[12][2] = {{5, 26}, {5, 26}, {5, 26}, {5, 26}, {5, 26}, {5, 26},
                                          {5, 26}, {5, 26}, {5, 26}, {5, 26}, {5, 26}, {5, 26}};

    check_means(41.98, 2026, chicago);
    check_means(41.98, 2028, chicago);
    check_means(78.2, 2026, north);
    check_means(-33.9, 2100, south);
    check_means(0, 1950, equator);
}
END_TEST

/* So little light that nothing is left of it for a day is none. */
START_TEST(a_month_with_next_to_no_light)
{
    pvsize_spec *site = with_months(place(41.98, -87.92, -6), chicago);
    pvsize_weather *weather;

    OK(pvsize_spec_set_part_number(site, 0, PVSIZE_MONTH_IRRADIATION, 5e-324, diag));
    weather = year_of(site, 2026);
    for (int32_t row = 0; row < 31 * 24; row++)
        ck_assert(value_of(weather, row, PVSIZE_INTERVAL_GLOBAL) == 0);
    pvsize_weather_free(weather);
}
END_TEST

/* There are clear days and dull ones: the share of days by clearness is as Bendt,
 * Collares-Pereira and Rabl have it; the largest hour is near that of a clear sky. */
START_TEST(days_differ)
{
    pvsize_weather *weather = year_of(with_months(place(41.98, -87.92, -6), chicago), 2026);
    double most = 0, least = 1e9, largest = 0;

    for (int d = 0; d < 30; d++) { /* June */
        double sum = 0;

        for (int h = 0; h < 24; h++) {
            double global = value_of(weather, (151 + d) * 24 + h, PVSIZE_INTERVAL_GLOBAL);

            sum += global / 1000;
            largest = fmax(largest, global);
        }
        most = fmax(most, sum);
        least = fmin(least, sum);
    }
    ck_assert(most > 8 && most < 9.3 && least < 2);
    ck_assert(largest > 850 && largest < 1100);
    pvsize_weather_free(weather);
}
END_TEST

START_TEST(daily_extremes_widen_the_day)
{
    pvsize_spec *site = place(41.98, -87.92, -6);
    pvsize_weather *weather;
    double low = 1e9, high = -1e9;

    for (int m = 0; m < 12; m++)
        give(site, SPEC(PVSIZE_KIND_MONTH, PVSIZE_MONTH_IRRADIATION, 1.0, PVSIZE_MONTH_TEMP_MEAN,
                        10, PVSIZE_MONTH_TEMP_DAILY_MIN, 4, PVSIZE_MONTH_TEMP_DAILY_MAX, 17,
                        PVSIZE_MONTH_WIND, 3.5));
    weather = year_of(site, 2026);
    for (int h = 0; h < 24; h++) {
        low = fmin(low, value_of(weather, h, PVSIZE_INTERVAL_TEMP));
        high = fmax(high, value_of(weather, h, PVSIZE_INTERVAL_TEMP));
    }
    NEAR(high - low, 13, 0.03);
    ck_assert(value_of(weather, 100, PVSIZE_INTERVAL_WIND) == 3.5);
    ck_assert_int_eq(origin_of(weather, 100, PVSIZE_INTERVAL_WIND), PVSIZE_ORIGIN_SYNTHETIC);
    pvsize_weather_free(weather);
}
END_TEST

START_TEST(months_that_cannot_be)
{
    pvsize_spec *site = with_months(place(41.98, -87.92, -6), chicago);
    pvsize_weather *weather = (pvsize_weather *)site;
    double low, high;

    FAILS(PVSIZE_E_OUT_OF_RANGE, "series.year",
          pvsize_weather_from_months(site, 1900, NULL, &weather, diag));
    ck_assert_ptr_null(weather);
    OK(pvsize_spec_set_part_number(site, 3, PVSIZE_MONTH_IRRADIATION, 12, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month[3].irradiation: outside the allowed range; given 12 kWh/m2",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    ck_assert(pvsize_weather_from_months(site, 2026, NULL, &weather, diag) != PVSIZE_OK);
    OK(pvsize_diag_range(diag, &low, &high));
    /* two decimals, and what they say is taken */
    ck_assert(low == 0 && high > 8 && high < 12 &&
              fabs(high * 100 - floor(high * 100 + 0.5)) < 1e-9);
    FAILS(PVSIZE_E_OUT_OF_RANGE, "the sum of the month, or has the latitude the wrong sign",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    OK(pvsize_spec_set_part_number(site, 3, PVSIZE_MONTH_IRRADIATION, high, diag));
    OK(pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    pvsize_weather_free(weather);
    OK(pvsize_spec_set_part_number(site, 3, PVSIZE_MONTH_IRRADIATION, 4, diag));
    OK(pvsize_spec_set_part_number(site, 5, PVSIZE_MONTH_TEMP_DAILY_MIN, 30, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month[5].temp_daily_min",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    OK(pvsize_spec_set_part_number(site, 5, PVSIZE_MONTH_TEMP_DAILY_MIN, 10, diag));
    OK(pvsize_spec_set_part_number(site, 6, PVSIZE_MONTH_TEMP_DAILY_MAX, 10, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month[6].temp_daily_max",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    OK(pvsize_spec_remove(site, PVSIZE_KIND_MONTH, 6, diag));
    FAILS(PVSIZE_E_MISSING_PART, "month",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    give(site, SPEC(PVSIZE_KIND_MONTH, PVSIZE_MONTH_TEMP_MEAN, 7));
    FAILS(PVSIZE_E_NOT_SET, "month[11].irradiation",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    OK(pvsize_spec_unset(site, PVSIZE_SITE_TIME_ZONE, diag));
    FAILS(PVSIZE_E_NOT_SET, "site.time_zone",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    OK(pvsize_spec_unset(site, PVSIZE_SITE_LATITUDE, diag));
    FAILS(PVSIZE_E_NOT_SET, "site.latitude",
          pvsize_weather_from_months(site, 2026, NULL, &weather, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_weather_from_months(site, 2026, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "site",
          pvsize_weather_from_months(NULL, 2026, NULL, &weather, diag));
    ck_assert_ptr_null(weather);
    pvsize_spec_free(site);
}
END_TEST

/* ---- series ---- */

START_TEST(what_follows_is_told_from_what_is_given)
{
    enum { HOURS = 24 };
    pvsize_spec *site = place(-33.9, 151.2, 10);
    pvsize_spec *series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_GAP, -999);
    double global[HOURS], beam[HOURS], diffuse[HOURS];
    pvsize_weather *all, *two;
    int32_t rows = -1, worst = -1, runs = -1, first = -1;
    double mean, largest;

    for (int h = 0; h < HOURS; h++) {
        bool light = h >= 7 && h < 17; /* January: the sun is up from about 5 to 19 */

        beam[h] = light ? 700 : 0;
        diffuse[h] = light ? 100 : 0;
    }
    two = from(site, series, NULL, beam, diffuse, HOURS);
    for (int h = 0; h < HOURS; h++) {
        global[h] = value_of(two, h, PVSIZE_INTERVAL_GLOBAL);
        ck_assert_int_eq(origin_of(two, h, PVSIZE_INTERVAL_GLOBAL), PVSIZE_ORIGIN_DERIVED);
    }
    ck_assert(global[11] > 700 && global[12] < 800);
    pvsize_weather_free(two);

    all = from(site, series, global, beam, diffuse, HOURS);
    OK(pvsize_weather_closure(all, &rows, &mean, &largest, &worst, diag));
    ck_assert(rows >= 14 && rows <= 16 && fabs(mean) < 1e-9 && fabs(largest) < 1e-9);
    pvsize_weather_free(all);
    global[12] += 50;
    all = from(site, series, global, beam, diffuse, HOURS);
    OK(pvsize_weather_closure(all, NULL, NULL, &largest, &worst, diag));
    ck_assert_int_eq(worst, 12);
    NEAR(largest, 50, 1e-9);
    pvsize_weather_free(all);
    global[12] -= 50;

    /* each of the three from the other two */
    two = from(site, series, global, beam, NULL, HOURS);
    NEAR(value_of(two, 12, PVSIZE_INTERVAL_DIFFUSE), 100, 1e-12);
    pvsize_weather_free(two);
    diffuse[9] = diffuse[10] = global[14] = -999;
    two = from(site, series, global, NULL, diffuse, HOURS);
    NEAR(value_of(two, 12, PVSIZE_INTERVAL_BEAM), 700, 1e-12);
    ck_assert_int_eq(origin_of(two, 12, PVSIZE_INTERVAL_BEAM), PVSIZE_ORIGIN_DERIVED);
    ck_assert_int_eq(origin_of(two, 9, PVSIZE_INTERVAL_BEAM), PVSIZE_ORIGIN_ESTIMATED);
    ck_assert_int_eq(origin_of(two, 9, PVSIZE_INTERVAL_DIFFUSE), PVSIZE_ORIGIN_ESTIMATED);
    ck_assert_int_eq(origin_of(two, 14, PVSIZE_INTERVAL_BEAM), PVSIZE_ORIGIN_MISSING);
    FAILS(PVSIZE_E_NOT_SET, "interval[14].beam: has no value",
          pvsize_weather_value(two, 14, PVSIZE_INTERVAL_BEAM, &mean, diag));
    OK(pvsize_weather_count(two, PVSIZE_INTERVAL_DIFFUSE, PVSIZE_ORIGIN_ESTIMATED, &rows, &runs,
                            diag));
    ck_assert(rows == 2 && runs == 1);
    OK(pvsize_weather_run(two, PVSIZE_INTERVAL_DIFFUSE, PVSIZE_ORIGIN_ESTIMATED, 0, &first, &rows,
                          diag));
    ck_assert(first == 9 && rows == 2);
    OK(pvsize_weather_count(two, PVSIZE_INTERVAL_DIFFUSE, PVSIZE_ORIGIN_GIVEN, &rows, &runs, diag));
    ck_assert(rows == 22 && runs == 2);
    OK(pvsize_weather_run(two, PVSIZE_INTERVAL_DIFFUSE, PVSIZE_ORIGIN_GIVEN, 1, &first, &rows,
                          diag));
    ck_assert(first == 11 && rows == 13);
    OK(pvsize_weather_count(two, PVSIZE_INTERVAL_TEMP, PVSIZE_ORIGIN_MISSING, &rows, &runs, diag));
    ck_assert(rows == 24 && runs == 1);
    pvsize_weather_free(two);
    pvsize_spec_free(site);
    pvsize_spec_free(series);
}
END_TEST

START_TEST(gaps_stay_gaps)
{
    enum { HOURS = 24 };
    pvsize_spec *site = place(-33.9, 151.2, 10);
    pvsize_spec *series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_GAP, 9999);
    double table[HOURS][2], plane[HOURS], column[HOURS];
    pvsize_weather *weather;
    size_t count = 0;

    for (int h = 0; h < HOURS; h++) {
        table[h][0] = h == 12 ? 9999 : 300;
        table[h][1] = h % 5 ? 20.5 : 9999;
    }
    OK(pvsize_weather_from_series(site, series, &table[0][0], NULL, NULL, &table[0][1], NULL, HOURS,
                                  2, NULL, &weather, diag));
    pvsize_spec_free(site);
    pvsize_spec_free(series);
    memset(table, 0, sizeof table); /* all was copied */
    OK(pvsize_weather_column(weather, PVSIZE_INTERVAL_TEMP, -1, NULL, 0, &count, diag));
    ck_assert_uint_eq(count, HOURS);
    OK(pvsize_weather_column(weather, PVSIZE_INTERVAL_TEMP, -1, column, HOURS, NULL, diag));
    OK(pvsize_weather_on_plane(weather, 30, 0, NAN, plane, HOURS, &count, diag));
    for (int h = 0; h < HOURS; h++) {
        ck_assert(column[h] == (h % 5 ? 20.5 : -1));
        ck_assert(h == 12 ? isnan(plane[h]) : plane[h] >= 0);
    }
    FAILS(PVSIZE_E_CAPACITY, "needed 24",
          pvsize_weather_on_plane(weather, 30, 0, -1, plane, HOURS - 1, NULL, diag));
    FAILS(PVSIZE_E_CAPACITY, "values",
          pvsize_weather_column(weather, PVSIZE_INTERVAL_TEMP, 0, column, 3, &count, diag));
    ck_assert_uint_eq(count, HOURS);
    pvsize_weather_free(weather);
}
END_TEST

/* The stamp is the end unless told otherwise, and rows follow the calendar. */
START_TEST(time_is_kept)
{
    static const double none[40] = {0};
    pvsize_spec *site = place(-33.9, 151.2, 10.5);
    pvsize_spec *series =
        SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_STEP, PVSIZE_STEP_QUARTER_HOUR, PVSIZE_SERIES_YEAR,
             2027, PVSIZE_SERIES_FIRST_DAY, 365, PVSIZE_SERIES_FIRST_MINUTE, 23 * 60 + 45);
    pvsize_weather *weather = from(site, series, none, NULL, NULL, 40);
    int32_t year, day, minute;
    double julian, also;

    OK(pvsize_weather_time(weather, 0, &year, &day, &minute, &julian, diag));
    ck_assert(year == 2027 && day == 365 && minute == 23 * 60 + 30);
    OK(pvsize_julian_day(2027, 365, 13, &also, diag));
    NEAR(julian, also, 1e-15);
    OK(pvsize_weather_time(weather, 2, &year, &day, &minute, NULL, diag));
    ck_assert(year == 2028 && day == 1 && minute == 0);
    pvsize_weather_free(weather);
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_STAMP, PVSIZE_STAMP_BEGINNING, diag));
    weather = from(site, series, none, NULL, NULL, 40);
    OK(pvsize_weather_time(weather, 0, NULL, NULL, &minute, NULL, diag));
    ck_assert(minute == 23 * 60 + 45);
    pvsize_weather_free(weather);
    /* stamped with its end at midnight of the first day: the last interval of the year before */
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_STAMP, PVSIZE_STAMP_END, diag));
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_FIRST_DAY, 1, diag));
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_FIRST_MINUTE, 0, diag));
    weather = from(site, series, none, NULL, NULL, 40);
    OK(pvsize_weather_time(weather, 0, &year, &day, &minute, NULL, diag));
    ck_assert(year == 2026 && day == 365 && minute == 23 * 60 + 45);
    pvsize_weather_free(weather);
    /* 29 February is there in leap years */
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_YEAR, 2028, diag));
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_FIRST_DAY, 366, diag));
    weather = from(site, series, none, NULL, NULL, 40);
    OK(pvsize_weather_time(weather, 39, &year, &day, NULL, NULL, diag));
    ck_assert(year == 2028 && day == 366);
    pvsize_weather_free(weather);
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_YEAR, 2027, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "series.first_day",
          pvsize_weather_from_series(site, series, none, NULL, NULL, NULL, NULL, 40, 1, NULL,
                                     &weather, diag));
    pvsize_spec_free(site);
    pvsize_spec_free(series);
}
END_TEST

/* A shorter step carries the same energy: hours cut into twelve. */
START_TEST(short_steps_add_up)
{
    enum { HOURS = 24, PARTS = 12 };
    pvsize_spec *site = place(52, 5, 1);
    pvsize_spec *series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_STEP, PVSIZE_STEP_FIVE_MINUTES,
                               PVSIZE_SERIES_FIRST_DAY, 172);
    double beam[HOURS * PARTS], diffuse[HOURS * PARTS], plane[HOURS * PARTS], fine = 0, coarse = 0;
    pvsize_weather *weather;

    for (int i = 0; i < HOURS * PARTS; i++) {
        beam[i] = 500;
        diffuse[i] = 0;
    }
    weather = from(site, series, NULL, beam, diffuse, HOURS * PARTS);
    OK(pvsize_weather_on_plane(weather, 35, 180, 0, plane, HOURS * PARTS, NULL, diag));
    for (int i = 0; i < HOURS * PARTS; i++)
        fine += plane[i] / PARTS;
    pvsize_weather_free(weather);
    OK(pvsize_spec_set_number(series, PVSIZE_SERIES_STEP, PVSIZE_STEP_HOUR, diag));
    weather = from(site, series, NULL, beam, diffuse, HOURS);
    OK(pvsize_weather_on_plane(weather, 35, 180, 0, plane, HOURS, NULL, diag));
    for (int i = 0; i < HOURS; i++)
        coarse += plane[i];
    NEAR(coarse, fine, 0.005); /* a plane that the sun leaves within an hour errs a little */
    pvsize_weather_free(weather);
    pvsize_spec_free(site);
    pvsize_spec_free(series);
}
END_TEST

START_TEST(series_that_cannot_be)
{
    pvsize_spec *site = place(-33.9, 151.2, 10), *module = invented_module(), *series;
    double rows[3] = {0, 100, 200};
    pvsize_weather *weather = NULL;
    int32_t n;

    OK(pvsize_spec_new(PVSIZE_KIND_SERIES, NULL, &series, diag));
#define TRY(site, series, global, beam, diffuse, count, stride)                                \
    pvsize_weather_from_series(site, series, global, beam, diffuse, NULL, NULL, count, stride, \
                               NULL, &weather, diag)
    rows[1] = NAN;
    FAILS(PVSIZE_E_NOT_FINITE, "interval[1].global", TRY(site, series, rows, NULL, NULL, 3, 1));
    rows[1] = 5000;
    FAILS(PVSIZE_E_OUT_OF_RANGE, "interval[1].beam: outside the allowed range; given 5000 W/m2",
          TRY(site, series, NULL, rows, rows, 3, 1));
    rows[1] = -1;
    FAILS(PVSIZE_E_OUT_OF_RANGE, "allowed 0 W/m2", TRY(site, NULL, rows, NULL, NULL, 3, 1));
    rows[1] = 1;
    FAILS(PVSIZE_E_OUT_OF_RANGE, "rows", TRY(site, series, rows, NULL, NULL, 0, 1));
    FAILS(PVSIZE_E_TOO_MANY, "rows", TRY(site, series, rows, NULL, NULL, (size_t)-1, 1));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "stride", TRY(site, series, rows, NULL, NULL, 3, 0));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "stride", TRY(site, series, rows, NULL, NULL, 3, (size_t)-1));
    FAILS(PVSIZE_E_NOT_SET, "interval.global", TRY(site, series, NULL, rows, NULL, 3, 1));
    FAILS(PVSIZE_E_NULL_POINTER, "site", TRY(NULL, series, rows, NULL, NULL, 3, 1));
    FAILS(PVSIZE_E_WRONG_KIND, "a site", TRY(module, series, rows, NULL, NULL, 3, 1));
    FAILS(PVSIZE_E_WRONG_KIND, "a series", TRY(site, module, rows, NULL, NULL, 3, 1));
    FAILS(PVSIZE_E_BAD_HANDLE, "series",
          TRY(site, (const pvsize_spec *)(const void *)diag, rows, NULL, NULL, 3, 1));
    FAILS(PVSIZE_E_BAD_CHOICE, "quarter_hour (15)",
          pvsize_spec_set_number(series, PVSIZE_SERIES_STEP, 7, diag));
    ck_assert_ptr_null(weather);
    OK(TRY(site, series, rows, NULL, NULL, 3, 1));
#undef TRY
    FAILS(PVSIZE_E_BAD_INDEX, "given 3",
          pvsize_weather_value(weather, 3, PVSIZE_INTERVAL_BEAM, rows, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_weather_time(weather, -1, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "", pvsize_weather_origin(weather, 0, PVSIZE_MODULE_VOC, &n, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "", pvsize_weather_origin(weather, 0, 77, &n, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "origin",
          pvsize_weather_count(weather, PVSIZE_INTERVAL_BEAM, 9, &n, NULL, diag));
    FAILS(
        PVSIZE_E_BAD_INDEX, "",
        pvsize_weather_run(weather, PVSIZE_INTERVAL_WIND, PVSIZE_ORIGIN_MISSING, 1, &n, &n, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value",
          pvsize_weather_value(weather, 0, PVSIZE_INTERVAL_BEAM, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "values",
          pvsize_weather_column(weather, PVSIZE_INTERVAL_BEAM, 0, NULL, 5, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "plane.tilt",
          pvsize_weather_on_plane(weather, 181, 0, 0, rows, 3, NULL, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "plane.azimuth",
          pvsize_weather_on_plane(weather, 30, NAN, 0, rows, 3, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "weather", pvsize_weather_size(NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "weather",
          pvsize_weather_size((const pvsize_weather *)(const void *)site, &n, NULL, diag));
    pvsize_weather_free((pvsize_weather *)(void *)site); /* not one: left alone */
    ck_assert_int_eq(pvsize_spec_kind(site), PVSIZE_KIND_SITE);
    pvsize_weather_free(NULL);
    pvsize_weather_free(weather);
    pvsize_spec_free(site);
    pvsize_spec_free(series);
    pvsize_spec_free(module);
}
END_TEST

START_TEST(the_month_has_its_own_ground)
{
    enum { HOURS = 48 };
    pvsize_spec *site = with_months(place(41.98, -87.92, -6), chicago), *series;
    double diffuse[HOURS], beam[HOURS] = {0}, plane[HOURS];
    pvsize_weather *weather;

    for (int i = 0; i < HOURS; i++)
        diffuse[i] = 100;
    OK(pvsize_spec_set_part_number(site, 1, PVSIZE_MONTH_ALBEDO, 0.7, diag)); /* snow */
    series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_FIRST_DAY, 31);
    weather = from(site, series, NULL, beam, diffuse, HOURS);
    OK(pvsize_weather_on_plane(weather, 180, 0, 0, plane, HOURS, NULL, diag));
    NEAR(plane[12], 20, 1e-9);      /* 31 January: the site's 0.2 */
    NEAR(plane[24 + 12], 70, 1e-9); /* 1 February */
    pvsize_weather_free(weather);
    pvsize_spec_free(site);
    pvsize_spec_free(series);
}
END_TEST

/* ---- on the day ---- */

/* NREL/TP-560-34302, worked example: 17 October 2003, 12:30:30, UTC-7. */
START_TEST(the_sun_on_the_day)
{
    double julian, azimuth, elevation, beam, diffuse, parts[3], incidence;

    OK(pvsize_julian_day(2003, 290, 19.5 + 30.0 / 3600, &julian, diag));
    OK(pvsize_sun_position(39.742476, -105.1786, julian, 820, 11, &azimuth, &elevation, diag));
    ck_assert(fabs(azimuth - 194.34024) < 0.01 && fabs(90 - elevation - 50.11162) < 0.01);
    OK(pvsize_sun_position(39.742476, -105.1786, julian, 0, 0, NULL, &elevation, diag));
    ck_assert(fabs(elevation - 39.872046) < 0.01);
    /* slope 30, 10 degrees east of south */
    OK(pvsize_plane_irradiance(39.742476, -105.1786, julian, 800, 100, 0.2, 30, 170, &parts[0],
                               &parts[1], &parts[2], &incidence, diag));
    ck_assert(fabs(incidence - 25.18700) < 0.02); /* theirs has refraction: 0.016 */
    NEAR(parts[0], 800 * cos(incidence * acos(-1) / 180), 1e-12);
    OK(pvsize_split_global(39.742476, -105.1786, julian, 600, &beam, &diffuse, diag));
    NEAR(beam * sin(elevation * acos(-1) / 180) + diffuse, 600, 1e-9);
    /* at night there is nothing from the sun */
    OK(pvsize_plane_irradiance(39.742476, -105.1786, julian + 0.5, 800, 0, 0.2, 30, 170, &parts[0],
                               &parts[1], &parts[2], NULL, diag));
    ck_assert(parts[0] == 0 && parts[1] == 0 && parts[2] == 0);
    OK(pvsize_plane_irradiance(39.742476, -105.1786, julian, 800, 100, 0.2, 30, 170, NULL, NULL,
                               NULL, NULL, diag));
}
END_TEST

START_TEST(days_that_cannot_be)
{
    double x = 0, julian;

    OK(pvsize_julian_day(2100, 365, 24, &julian, diag));
    OK(pvsize_sun_position(0, 0, julian, 0, 0, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "day: outside", pvsize_julian_day(2026, 366, 0, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "hour", pvsize_julian_day(2026, 1, 24.1, &x, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "hour", pvsize_julian_day(2026, 1, NAN, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "series.year", pvsize_julian_day(2101, 1, 0, &x, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "julian_day", pvsize_julian_day(2026, 1, 0, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "site.latitude",
          pvsize_sun_position(91, 0, julian, 0, 0, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "site.longitude",
          pvsize_sun_position(0, 181, julian, 0, 0, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "julian_day", pvsize_sun_position(0, 0, 0, 0, 0, &x, &x, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "julian_day",
          pvsize_sun_position(0, 0, INFINITY, 0, 0, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "pressure",
          pvsize_sun_position(0, 0, julian, 101325, 0, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "interval.temp",
          pvsize_sun_position(0, 0, julian, 1013, -273, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "interval.global",
          pvsize_split_global(0, 0, julian, -1, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "site.albedo",
          pvsize_plane_irradiance(0, 0, julian, 0, 0, 1.5, 0, 0, &x, &x, &x, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "plane.tilt",
          pvsize_plane_irradiance(0, 0, julian, 0, 0, 0.2, -1, 0, &x, &x, &x, &x, diag));
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "means", months_keep_their_means);
    add_test(suite, "days differ", days_differ);
    add_test(suite, "next to none", a_month_with_next_to_no_light);
    add_test(suite, "daily extremes", daily_extremes_widen_the_day);
    add_test(suite, "wrong months", months_that_cannot_be);
    add_test(suite, "origins", what_follows_is_told_from_what_is_given);
    add_test(suite, "gaps", gaps_stay_gaps);
    add_test(suite, "time", time_is_kept);
    add_test(suite, "short steps", short_steps_add_up);
    add_test(suite, "wrong series", series_that_cannot_be);
    add_test(suite, "albedo", the_month_has_its_own_ground);
    add_test(suite, "on the day", the_sun_on_the_day);
    add_test(suite, "wrong days", days_that_cannot_be);
}

int main(void)
{
    return run_cases("weather", add);
}
