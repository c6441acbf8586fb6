/* See tell_year.h. */
#include "tell_year.h"

enum { MOST_ROWS = 9000 };

/* Lets the first inverter respond to voltage, and every second row be high. */
static const double response[][2] = {{PVSIZE_INVERTER_VOLT_WATT_START, 253},
                                     {PVSIZE_INVERTER_VOLT_WATT_END, 260},
                                     {PVSIZE_INVERTER_VOLT_WATT_LEAST, 20},
                                     {PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 258}};

/* A copy whose planes face somewhere, and whose inverter responds: a check does not ask for that.
 * Null where a step failed. */
static pvsize_spec *facing(sum *s, const pvsize_spec *system, const pvsize_allocator *memory)
{
    pvsize_spec *copy = NULL, *site = NULL;
    int32_t planes = 0;

    if (!went(s, pvsize_spec_clone(system, memory, &copy, s->diag)))
        return NULL;
    if (went(s, pvsize_spec_part(copy, PVSIZE_KIND_SITE, 0, memory, &site, s->diag)))
        pvsize_spec_part_count(site, PVSIZE_KIND_PLANE, &planes, NULL);
    for (int32_t i = 0; i < planes; i++) {
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_TILT, 20 + i, NULL);
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_AZIMUTH, 90.0 * i, NULL);
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_HEAT_LOSS, 25, NULL);
    }
    went(s, pvsize_spec_replace(copy, 0, site, s->diag));
    for (size_t i = 0; i < sizeof response / sizeof *response; i++)
        went(s, pvsize_spec_set_part_number(copy, 0, (int32_t)response[i][0], response[i][1],
                                            s->diag));
    pvsize_spec_free(site);
    return copy;
}

void make_year(sum *s, const pvsize_spec *system, const pvsize_weather *weather,
               const pvsize_allocator *memory, pvsize_light **light, pvsize_year **year)
{
    int32_t rows = 0, step = 0;
    double *load = calloc(2 * MOST_ROWS, sizeof *load), *supply = load ? load + MOST_ROWS : NULL;
    pvsize_spec *outlook = NULL, *whole = facing(s, system, memory);

    /* the weather may lack wind and be short */
    if (went(s, pvsize_spec_new(PVSIZE_KIND_OUTLOOK, memory, &outlook, s->diag)))
        went(s, pvsize_spec_set_number(outlook, PVSIZE_OUTLOOK_WIND, 2, s->diag));
    went(s, pvsize_weather_size(weather, &rows, &step, s->diag));
    for (int32_t i = 0; load && i < rows && i < MOST_ROWS; i++) {
        load[i] = 500 + i % 24 * 40;
        supply[i] = 240 + i % 2 * (10 + i % 11);
    }
    went(s, pvsize_light_new(weather, outlook, memory, light, s->diag));
    went(s, pvsize_year_new(memory, year, s->diag));
    went(s, pvsize_year_fill_at_supply(whole, *light, load, load ? (size_t)rows : 0, supply,
                                       supply ? (size_t)rows : 0, *year, s->diag));
    pvsize_spec_free(outlook);
    pvsize_spec_free(whole);
    free(load);
}

static void tell_ledger(sum *s, const pvsize_year *year, int32_t subject)
{
    double a = 0, b = 0;

    for (int32_t month = 0; month <= 12; month += 3) {
        for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_ENERGY); i++) {
            int32_t energy = pvsize_set_at(PVSIZE_SET_ENERGY, i);

            if (went(s, pvsize_year_energy(year, subject, month, energy, &a, s->diag)))
                put_double(s, a);
        }
        for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_LOSS); i++) {
            int32_t loss = pvsize_set_at(PVSIZE_SET_LOSS, i);

            if (went(s, pvsize_year_loss(year, subject, month, loss, &a, s->diag)))
                put_double(s, a);
            if (month == 0 && went(s, pvsize_year_active(year, subject, loss, &a, s->diag)))
                put_double(s, a);
        }
        if (went(s, pvsize_year_irradiation(year, subject, month, &a, &b, s->diag)))
            DOUBLES(s, a, b);
    }
    if (went(s, pvsize_year_yield(year, subject, &a, &b, s->diag)))
        DOUBLES(s, a, b);
    TEXT(s, pvsize_year_subject_text, year, subject);
}

static void tell_power(sum *s, const pvsize_year *year, int32_t subject)
{
    size_t count = 0;
    double *values = calloc(MOST_ROWS, sizeof *values);

    if (values &&
        went(s, pvsize_year_power(year, subject, -1e9, values, MOST_ROWS, &count, s->diag)))
        put_doubles(s, values, count);
    free(values);
}

void tell_year(sum *s, const pvsize_year *year)
{
    static const int32_t kinds[] = {PVSIZE_KIND_SYSTEM, PVSIZE_KIND_INVERTER, PVSIZE_KIND_INPUT,
                                    PVSIZE_KIND_ARRAY};
    int32_t rows = 0, step = 0, lit = 0, gaps = 0, subject = 0;
    COUNT_OF(s, assumptions, pvsize_year_assumption_count, year);

    went(s, pvsize_year_size(year, &rows, &step, &lit, &gaps, s->diag));
    INTS(s, rows, step, lit, gaps);
    for (int k = 0; k < 4; k++)
        for (int32_t i = 0;
             i < 8 && went(s, pvsize_year_subject(year, kinds[k], i, &subject, s->diag)); i++)
            tell_ledger(s, year, subject);
    if (went(s, pvsize_year_subject(year, PVSIZE_KIND_SYSTEM, 0, &subject, s->diag)))
        tell_power(s, year, subject);
    for (int32_t i = 0; i < assumptions; i++) {
        int32_t what = 0;
        double value = 0;

        went(s, pvsize_year_assumption(year, i, &what, &subject, &value, s->diag));
        INTS(s, what, subject);
        put_double(s, value);
        TEXT(s, pvsize_year_assumption_text, year, i);
    }
    TEXT(s, pvsize_year_render, year, PVSIZE_FORMAT_PLAIN);
    TEXT(s, pvsize_year_render, year, PVSIZE_FORMAT_MARKDOWN);
}

void tell_made_year(sum *s, const pvsize_spec *system, const pvsize_weather *weather)
{
    pvsize_light *light = NULL;
    pvsize_year *year = NULL;

    make_year(s, system, weather, NULL, &light, &year);
    tell_year(s, year);
    pvsize_year_free(year);
    pvsize_light_free(light);
}
