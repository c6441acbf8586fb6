/* See jobs.h. All data are invented. */
#include "jobs.h"

#include <stdio.h>
#include <stdlib.h>
#include <math.h>

const pvsize_allocator *job_memory;
pvsize_diag *job_diag;

void must_at(pvsize_status status, const char *call, const char *file, int line)
{
    char text[400] = "";

    if (status == PVSIZE_OK)
        return;
    pvsize_diag_text(job_diag, text, sizeof text, NULL);
    fprintf(stderr, "%s:%d: %s: %s: %s\n", file, line, call, pvsize_status_name(status), text);
    exit(1);
}

void *room_for(size_t size)
{
    void *room = calloc(1, size);

    if (room)
        return room;
    fputs("out of memory\n", stderr);
    exit(1);
}

/* specs with numbers: pairs of term and value, ended by term 0 */
static pvsize_spec *spec_with(int32_t kind, const double *pairs)
{
    pvsize_spec *spec;

    MUST(pvsize_spec_new(kind, job_memory, &spec, job_diag));
    for (; *pairs != 0; pairs += 2)
        MUST(pvsize_spec_set_number(spec, (int32_t)pairs[0], pairs[1], job_diag));
    return spec;
}
#define SPEC(kind, ...) spec_with((kind), (const double[]){__VA_ARGS__, 0})

static void give(pvsize_spec *owner, pvsize_spec *part)
{
    MUST(pvsize_spec_add(owner, part, NULL, job_diag));
    pvsize_spec_free(part);
}

job job_of(int inputs, int planes, int room)
{
    job j = {.temp_min = -2, .temp_max = 41, .planes = planes, .arrays = inputs};

    j.module = (module_sheet){440, 39.2, 14.2, 32.6, 13.5, -0.25, 0.045, -0.3, 1500, 30};
    j.inverter =
        (inverter_sheet){.rated = 4400.0 * inputs, .max_pv = 6600.0 * inputs, .inputs = inputs};
    for (int i = 0; i < planes; i++)
        j.plane[i] = (plane_sheet){22, 360.0 * i / planes, room / planes + (i < room % planes),
                                   1500 - 60.0 * i};
    for (int i = 0; i < inputs; i++) {
        j.inverter.input[i] = i % 2 ? (input_sheet){1000, 180, 850, 200, 15, 20, 9000, 1}
                                    : (input_sheet){1000, 180, 850, 200, 30, 40, 9000, 2};
        j.array[i] = (array_sheet){i, i % planes, 12 + i % 3, 1};
    }
    return j;
}

/* 0 to below 1, from a seed and a place: the same everywhere */
static double share_of(uint64_t seed, uint64_t place)
{
    uint64_t x = seed * 0x9e3779b97f4a7c15u + (place + 1) * 0xbf58476d1ce4e5b9u;

    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
    return (double)((x ^ (x >> 31)) >> 11) * 0x1p-53;
}

/* Between, in whole steps. */
static double drawn(uint64_t seed, uint64_t place, double low, double high, double step)
{
    return low + step * floor(share_of(seed, place) * ((high - low) / step + 1));
}

module_sheet module_drawn(uint64_t i)
{
    uint64_t s = 2 * i + 1;
    double cells = drawn(s, 0, 54, 72, 6), vmp = cells * drawn(s, 1, 0.56, 0.64, 0.005);
    double imp = drawn(s, 2, 9, 18, 0.05);
    module_sheet m = {vmp * imp, vmp * drawn(s, 3, 1.17, 1.21, 0.005), 0, vmp, imp, 0, 0.045, 0, 0,
                      0};

    m.isc = imp * drawn(s, 4, 1.04, 1.07, 0.005);
    m.voc_percent = -drawn(s, 5, 0.22, 0.3, 0.005);
    m.pmax_percent = -drawn(s, 6, 0.3, 0.38, 0.005);
    m.system_voltage = drawn(s, 7, 1000, 1500, 500);
    m.fuse = drawn(s, 8, 20, 30, 5);
    return m;
}

inverter_sheet inverter_drawn(uint64_t i)
{
    uint64_t s = 2 * i;
    double rated = drawn(s, 0, 2000, 15000, 250), volts = drawn(s, 1, 550, 1000, 450);
    double current = drawn(s, 2, 12, 32, 4);
    inverter_sheet v = {.rated = rated, .max_pv = 1.5 * rated, .inputs = (int)drawn(s, 3, 1, 3, 1)};
    input_sheet one = {
        volts,       drawn(s, 4, 80, 160, 40), floor(0.92 * volts), 180, current, 1.3 * current,
        1.5 * rated, 1 + (current > 22)};

    for (int k = 0; k < v.inputs; k++)
        v.input[k] = one;
    return v;
}

job job_drawn(uint64_t seed)
{
    job j = job_of(1, (int)drawn(seed, 20, 1, 3, 1), (int)drawn(seed, 21, 16, 60, 1));

    j.temp_min = drawn(seed, 22, -8, 8, 1);
    j.temp_max = drawn(seed, 23, 34, 46, 1);
    j.module = module_drawn(seed);
    j.inverter = inverter_drawn(seed + 7);
    j.arrays = j.inverter.inputs;
    for (int i = 0; i < j.arrays; i++)
        j.array[i] = (array_sheet){i, i % j.planes, (int)drawn(seed, 24 + (uint64_t)i, 5, 16, 1),
                                   (int)drawn(seed, 34 + (uint64_t)i, 1, 2, 1)};
    return j;
}

pvsize_spec *module_spec(const module_sheet *m)
{
    return SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, m->pmax, PVSIZE_MODULE_VOC, m->voc,
                PVSIZE_MODULE_ISC, m->isc, PVSIZE_MODULE_VMP, m->vmp, PVSIZE_MODULE_IMP, m->imp,
                PVSIZE_MODULE_VOC_COEFFICIENT, m->voc_percent, PVSIZE_MODULE_ISC_COEFFICIENT,
                m->isc_percent, PVSIZE_MODULE_PMAX_COEFFICIENT, m->pmax_percent,
                PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, m->system_voltage, PVSIZE_MODULE_MAX_SERIES_FUSE,
                m->fuse, PVSIZE_MODULE_CELLS, 54, PVSIZE_MODULE_BIFACIALITY, 0);
}

static pvsize_spec *input_spec(const input_sheet *i)
{
    return SPEC(
        PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, i->max_voltage, PVSIZE_INPUT_TRACKING_MIN,
        i->tracking_min, PVSIZE_INPUT_TRACKING_MAX, i->tracking_max, PVSIZE_INPUT_START_VOLTAGE,
        i->start, PVSIZE_INPUT_MAX_OPERATING_CURRENT, i->current,
        PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, i->short_circuit, PVSIZE_INPUT_TERMINALS,
        i->terminals, PVSIZE_INPUT_TERMINAL_CURRENT, 30, PVSIZE_INPUT_MAX_POWER, i->power,
        PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN, PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD,
        PVSIZE_ANSWER_YES, PVSIZE_INPUT_ISOLATOR_LOCKS_OFF, PVSIZE_ANSWER_YES,
        PVSIZE_INPUT_ISOLATOR_VOLTAGE, i->max_voltage, PVSIZE_INPUT_ISOLATOR_CURRENT, 50);
}

pvsize_spec *inverter_spec(const inverter_sheet *v)
{
    pvsize_spec *inverter =
        SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, v->rated,
             PVSIZE_INVERTER_RATED_APPARENT_POWER, v->rated, PVSIZE_INVERTER_PHASES, 3,
             PVSIZE_INVERTER_AC_VOLTAGE, 230, PVSIZE_INVERTER_MAX_PV_POWER, v->max_pv,
             PVSIZE_INVERTER_BACKFEED_CURRENT, 0, PVSIZE_INVERTER_NIGHT_CONSUMPTION, 4,
             PVSIZE_INVERTER_EUROPEAN_EFFICIENCY, 97);

    for (int i = 0; i < v->inputs; i++)
        give(inverter, input_spec(&v->input[i]));
    return inverter;
}

static pvsize_spec *site_spec(const job *j)
{
    pvsize_spec *site =
        SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, j->temp_min, PVSIZE_SITE_TEMP_MAX, j->temp_max,
             PVSIZE_SITE_BUILDING, PVSIZE_BUILDING_DWELLING, PVSIZE_SITE_SUPPLY_PHASES, 3,
             PVSIZE_SITE_SUPPLY_VOLTAGE, 230, PVSIZE_SITE_CONNECTION_LIMIT, 1e6,
             PVSIZE_SITE_PHASE_LIMIT, 1e6, PVSIZE_SITE_EXPORT_LIMIT, 0.9 * j->inverter.rated,
             PVSIZE_SITE_EXPORT_CONTROL, PVSIZE_EXPORT_CONTROL_METER, PVSIZE_SITE_LATITUDE, -31,
             PVSIZE_SITE_LONGITUDE, 145, PVSIZE_SITE_TIME_ZONE, 10);

    for (int i = 0; i < j->planes; i++)
        give(site,
             SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, j->plane[i].tilt, PVSIZE_PLANE_AZIMUTH,
                  j->plane[i].azimuth, PVSIZE_PLANE_CAPACITY, j->plane[i].room,
                  PVSIZE_PLANE_MOUNTING, PVSIZE_MOUNTING_RAISED, PVSIZE_PLANE_CURRENT_CORRECTION, 1,
                  PVSIZE_PLANE_SPECIFIC_YIELD, j->plane[i].yield));
    return site;
}

pvsize_spec *system_spec(const job *j, int with_arrays)
{
    pvsize_spec *system;

    MUST(pvsize_spec_new(PVSIZE_KIND_SYSTEM, job_memory, &system, job_diag));
    give(system, site_spec(j));
    give(system, inverter_spec(&j->inverter));
    for (int i = 0; with_arrays && i < j->arrays; i++) {
        const array_sheet *a = &j->array[i];
        pvsize_spec *array =
            SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INVERTER, 0, PVSIZE_ARRAY_INPUT, a->input,
                 PVSIZE_ARRAY_PLANE, a->plane, PVSIZE_ARRAY_MODULES_PER_STRING, a->modules,
                 PVSIZE_ARRAY_STRINGS, a->strings);

        give(array, module_spec(&j->module));
        give(system, array);
    }
    return system;
}

pvsize_spec *search_spec(const job *j, int32_t objective, int32_t answers)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_OBJECTIVE, objective,
                               PVSIZE_SEARCH_ANSWERS, answers);

    give(search, system_spec(j, 0));
    give(search, module_spec(&j->module));
    return search;
}

static pvsize_weather *hours(void)
{
    static const double sun[] = {7.6, 6.7, 5.7, 4.4, 3.3, 2.8, 3.1, 4.1, 5.4, 6.5, 7.3, 7.7};
    static const double warm[] = {28, 27, 24, 19, 14, 11, 10, 12, 16, 20, 24, 26};
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_LATITUDE, -31, PVSIZE_SITE_LONGITUDE,
                             145, PVSIZE_SITE_TIME_ZONE, 10);
    pvsize_weather *weather;

    for (int i = 0; i < 12; i++)
        give(site, SPEC(PVSIZE_KIND_MONTH, PVSIZE_MONTH_IRRADIATION, sun[i], PVSIZE_MONTH_TEMP_MEAN,
                        warm[i], PVSIZE_MONTH_WIND, 3));
    MUST(pvsize_weather_from_months(site, 2026, job_memory, &weather, job_diag));
    pvsize_spec_free(site);
    return weather;
}

/* A column of hours, each held for its intervals. */
static double *held(const pvsize_weather *weather, int32_t term, int32_t each, size_t *rows)
{
    size_t count;
    double *values, *out;

    MUST(pvsize_weather_column(weather, term, -1, NULL, 0, &count, job_diag));
    values = room_for(count * sizeof *values);
    MUST(pvsize_weather_column(weather, term, -1, values, count, NULL, job_diag));
    *rows = count * (size_t)each;
    out = room_for(*rows * sizeof *out);
    for (size_t i = 0; i < *rows; i++)
        out[i] = values[i / (size_t)each];
    free(values);
    return out;
}

pvsize_weather *weather_of(int32_t minutes)
{
    static const int32_t terms[] = {PVSIZE_INTERVAL_GLOBAL, PVSIZE_INTERVAL_BEAM,
                                    PVSIZE_INTERVAL_DIFFUSE, PVSIZE_INTERVAL_TEMP,
                                    PVSIZE_INTERVAL_WIND};
    pvsize_weather *coarse = hours(), *fine;
    pvsize_spec *site, *series;
    double *column[5];
    size_t rows = 0;

    if (minutes == 60)
        return coarse;
    site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_LATITUDE, -31, PVSIZE_SITE_LONGITUDE, 145,
                PVSIZE_SITE_TIME_ZONE, 10);
    series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_STEP, minutes);
    for (int i = 0; i < 5; i++)
        column[i] = held(coarse, terms[i], 60 / minutes, &rows);
    MUST(pvsize_weather_from_series(site, series, column[0], column[1], column[2], column[3],
                                    column[4], rows, 1, job_memory, &fine, job_diag));
    for (int i = 0; i < 5; i++)
        free(column[i]);
    pvsize_spec_free(site);
    pvsize_spec_free(series);
    pvsize_weather_free(coarse);
    return fine;
}

pvsize_rules *rules_of_house(void)
{
    pvsize_rules *rules;

    MUST(pvsize_rules_new("asnzs_5033_2021", job_memory, &rules, job_diag));
    return rules;
}
