/* See operations.h: years. */
#include "operations.h"

#include <stdlib.h>

typedef struct passing {
    int minutes;
    pvsize_spec *system;
    pvsize_weather *weather;
    pvsize_light *light;
    pvsize_year *year;
    double *supply; /* V by row, where it is told */
    size_t rows;
} passing;

static void *make_year(size s)
{
    passing *y = room_for(sizeof *y);
    job j = job_of(s.inputs, s.planes, s.count);

    y->minutes = s.minutes;
    y->system = system_spec(&j, 1);
    y->weather = weather_of(s.minutes);
    MUST(pvsize_year_new(job_memory, &y->year, job_diag));
    MUST(pvsize_light_new(y->weather, NULL, job_memory, &y->light, job_diag));
    return y;
}

/* Inverters that hold back power, and disconnect, by day. */
static void *make_supplied(size s)
{
    static const double response[][2] = {{PVSIZE_INVERTER_VOLT_WATT_START, 253},
                                         {PVSIZE_INVERTER_VOLT_WATT_END, 260},
                                         {PVSIZE_INVERTER_VOLT_WATT_LEAST, 20},
                                         {PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 258}};
    passing *y = make_year(s);
    int32_t rows = 0;

    for (size_t i = 0; i < sizeof response / sizeof *response; i++)
        MUST(pvsize_spec_set_part_number(y->system, 0, (int32_t)response[i][0], response[i][1],
                                         job_diag));
    MUST(pvsize_weather_size(y->weather, &rows, NULL, job_diag));
    y->rows = (size_t)rows;
    y->supply = room_for(y->rows * sizeof *y->supply);
    for (size_t i = 0; i < y->rows; i++)
        y->supply[i] = 240 + (double)(i * 7 % 24);
    return y;
}

/* From weather to ledger. */
static void run_year(void *state)
{
    passing *y = state;
    pvsize_light *light;

    MUST(pvsize_light_new(y->weather, NULL, job_memory, &light, job_diag));
    MUST(pvsize_year_fill(y->system, light, NULL, 0, y->year, job_diag));
    pvsize_light_free(light);
}

/* The light on the planes and the modules' points are kept from the run before. */
static void run_next(void *state)
{
    passing *y = state;

    MUST(pvsize_year_fill(y->system, y->light, NULL, 0, y->year, job_diag));
}

static void run_supplied(void *state)
{
    passing *y = state;

    MUST(pvsize_year_fill_at_supply(y->system, y->light, NULL, 0, y->supply, y->rows, y->year,
                                    job_diag));
}

static void run_weather(void *state)
{
    pvsize_weather_free(weather_of(((passing *)state)->minutes));
}

static void unmake_year(void *state)
{
    passing *y = state;

    pvsize_spec_free(y->system);
    pvsize_weather_free(y->weather);
    pvsize_light_free(y->light);
    pvsize_year_free(y->year);
    free(y->supply);
    free(y);
}

const operation year_operations[] = {
    {"year", {2, 2, 32, 60}, NULL, make_year, run_year, unmake_year, NULL},
    {"next_year", {2, 2, 32, 60}, NULL, make_year, run_next, unmake_year, NULL},
    {"year_at_supply", {2, 2, 32, 60}, NULL, make_supplied, run_supplied, unmake_year, NULL},
    {"weather", {2, 2, 32, 60}, NULL, make_year, run_weather, unmake_year, NULL},
    {NULL, {0, 0, 0, 0}, NULL, NULL, NULL, NULL, NULL},
};
