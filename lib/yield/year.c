/* A year as an object: filled by one call, then asked. */
#include "year.h"

#include <string.h>

#include "../equipment/curve.h"

pvsize_status pvsz_check_year(const pvsize_year *year, pvsize_diag *diag)
{
    if (!year)
        return pvsz_fail_null(diag, "year");
    return pvsz_is(year, PVSZ_MARK_YEAR) ? PVSIZE_OK : pvsz_fail_handle(diag, "year");
}

void pvsz_release_year(const pvsz_memory *memory, pvsz_year_body *body)
{
    pvsize_report_free(body->report);
    pvsz_release(memory, body->state);
    pvsz_release(memory, body->system);
    pvsz_release(memory, body->gross);
    pvsz_release(memory, body->power);
    pvsz_release(memory, body->night);
    pvsz_release(memory, body->granted);
}

pvsize_status pvsize_year_new(const pvsize_allocator *memory, pvsize_year **out, pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_YEAR, &made, diag);
    *out = made;
    return status;
}

void pvsize_year_free(pvsize_year *year)
{
    if (!pvsz_is(year, PVSZ_MARK_YEAR))
        return;
    pvsz_release_year(&year->head.memory, &year->body);
    pvsz_unmake(year);
}

/* filling */

/* A report without rules: it lays the system flat, and keeps its names. */
static pvsize_status open_report(const pvsz_memory *memory, const pvsize_spec *system,
                                 pvsize_report **report, pvsize_diag *diag)
{
    pvsize_rules *rules = NULL;
    pvsize_status status = pvsize_rules_new(NULL, memory, &rules, diag);

    if (!status)
        status = pvsize_report_new(memory, report, diag);
    if (!status)
        status = pvsz_open_report(*report, system, rules, diag);
    pvsize_rules_free(rules);
    return status;
}

static pvsize_status make_room(const pvsz_memory *memory, const pvsize_light *light,
                               const pvsz_plant *plant, pvsz_year_body *body, pvsize_diag *diag)
{
    size_t feeds = (size_t)plant->feeds, machines = (size_t)plant->machines;
    size_t ledgers = 1 + machines + (size_t)plant->intakes + feeds;

    body->step = light->step;
    body->rows = light->rows;
    body->hours = light->hours;
    body->gaps = light->gaps;
    body->state = pvsz_new(memory, (size_t)light->rows, sizeof *body->state);
    body->system = pvsz_new(memory, ledgers, sizeof *body->system);
    body->gross = pvsz_new(memory, 2 * feeds + 1, sizeof *body->gross);
    body->power = pvsz_new(memory, ((size_t)light->hours + 1) * machines, sizeof *body->power);
    body->night = pvsz_new(memory, machines, sizeof *body->night);
    if (!body->state || !body->system || !body->gross || !body->power || !body->night)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    body->inverter = body->system + 1;
    body->input = body->inverter + machines;
    body->array = body->input + plant->intakes;
    body->net = body->gross + feeds;
    memcpy(body->state, light->state, (size_t)light->rows);
    for (size_t i = 0; i < machines; i++)
        body->night[i] = plant->machine[i].night;
    return PVSIZE_OK;
}

static pvsize_status fill(const pvsz_memory *memory, const pvsize_spec *system, pvsize_light *light,
                          const pvsz_told *told, pvsz_year_body *body, pvsize_diag *diag)
{
    pvsz_plant plant = {0};
    pvsize_status status = open_report(memory, system, &body->report, diag);

    if (!status)
        status = pvsz_take_plant(body->report, light, told, memory, &plant, diag);
    body->granted = plant.granted;
    body->grants = plant.grants;
    if (!status)
        status = make_room(memory, light, &plant, body, diag);
    if (!status)
        status = pvsz_run_year(light, &plant, told, memory, body, diag);
    if (!status)
        pvsz_close_report(body->report);
    pvsz_release_plant(memory, &plant);
    return status;
}

/* A series that may be told: what it is called, and what its values must be. */
typedef struct told_series {
    const char *name, *count_name, *hint;
    double low, high;
} told_series;

static const told_series load_series = {"load", "count",
                                        "a load has one value for each row of the weather", 0, 1e9};
static const told_series supply_series = {
    "supply_voltage", "supply_count",
    "a supply voltage has one value for each row of the weather, phase to neutral", 50, 1000};

static pvsize_status check_series(const pvsize_light *light, const told_series *series,
                                  const double *value, size_t count, pvsize_diag *diag)
{
    size_t rows = value ? (size_t)light->rows : 0;
    pvsize_status status;

    if (!value && count)
        return pvsz_fail_null(diag, series->name);
    status = pvsz_check_argument(series->count_name, (double)count, (double)rows, (double)rows, -1,
                                 diag);
    if (status)
        pvsz_fail_hint(diag, series->hint);
    for (int32_t i = 0; !status && value && i < light->rows; i++)
        if (!(value[i] >= series->low && value[i] <= series->high))
            status =
                pvsz_check_argument(series->name, value[i], series->low, series->high, i, diag);
    return status;
}

static pvsize_status check_system(const pvsize_spec *system, pvsize_diag *diag)
{
    if (!system)
        return pvsz_fail_null(diag, "system");
    if (!pvsz_spec_live(system))
        return pvsz_fail_handle(diag, "system");
    if (system->kind != PVSZ_KIND_SYSTEM)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[system->kind].number,
                              "a system");
    return PVSIZE_OK;
}

pvsize_status pvsize_year_fill_at_supply(const pvsize_spec *system, pvsize_light *light,
                                         const double *load, size_t count,
                                         const double *supply_voltage, size_t supply_count,
                                         pvsize_year *year, pvsize_diag *diag)
{
    const pvsz_told told = {load, supply_voltage};
    pvsz_year_body body = {0};
    pvsize_status status = pvsz_check_year(year, diag);

    if (!status)
        status = check_system(system, diag);
    if (!status)
        status = pvsz_check_light(light, diag);
    if (!status)
        status = check_series(light, &load_series, load, count, diag);
    if (!status)
        status = check_series(light, &supply_series, supply_voltage, supply_count, diag);
    if (status)
        return status;
    status = fill(&year->head.memory, system, light, &told, &body, diag);
    if (status) {
        pvsz_release_year(&year->head.memory, &body);
        return status;
    }
    pvsz_release_year(&year->head.memory, &year->body);
    year->body = body;
    return PVSIZE_OK;
}

pvsize_status pvsize_year_fill(const pvsize_spec *system, pvsize_light *light, const double *load,
                               size_t count, pvsize_year *year, pvsize_diag *diag)
{
    return pvsize_year_fill_at_supply(system, light, load, count, NULL, 0, year, diag);
}
