/* One input alone on the site: what options are judged by. */
#include <string.h>

#include "layout.h"

static pvsize_status add_input(const pvsz_problem *problem, const pvsz_group *group,
                               pvsize_spec *system)
{
    const pvsz_part_list *inverters = pvsz_spec_parts(problem->system, PVSZ_KIND_INVERTER);
    pvsize_spec *inverter;
    pvsz_part_list *inputs;
    pvsize_status status = pvsize_spec_clone(inverters->item[group->inverter], problem->memory,
                                             &inverter, problem->diag);

    if (status)
        return status;
    inputs = pvsz_spec_list(inverter, PVSZ_KIND_INPUT);
    for (int32_t i = (int32_t)inputs->count - 1; i >= 0; i--)
        if (i != group->input)
            pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, i, NULL);
    status = pvsize_spec_add(system, inverter, NULL, problem->diag);
    pvsize_spec_free(inverter);
    return status;
}

pvsize_status pvsz_make_probe(pvsz_problem *problem, const pvsz_group *group, pvsz_probe *probe)
{
    const pvsz_part_list *sites = pvsz_spec_parts(problem->system, PVSZ_KIND_SITE);
    pvsz_part_list *arrays;
    pvsize_status status =
        pvsize_spec_new(PVSIZE_KIND_SYSTEM, problem->memory, &probe->system, problem->diag);

    probe->problem = problem;
    if (!status)
        status = pvsize_spec_add(probe->system, sites->item[0], NULL, problem->diag);
    if (!status)
        status = add_input(problem, group, probe->system);
    if (status)
        return status;
    arrays = pvsz_spec_list(probe->system, PVSZ_KIND_ARRAY);
    arrays->item = pvsz_new(problem->memory, 2, sizeof *arrays->item);
    if (!arrays->item)
        return pvsz_no_memory(problem->diag);
    arrays->capacity = 2;
    probe->array = problem->array; /* any two will do */
    memcpy(arrays->item, probe->array, 2 * sizeof *arrays->item);
    return PVSIZE_OK;
}

void pvsz_free_probe(pvsz_probe *probe)
{
    if (probe->system)
        pvsz_spec_list(probe->system, PVSZ_KIND_ARRAY)->count = 0;
    pvsize_spec_free(probe->system);
}

static pvsize_status check(pvsz_probe *probe, const pvsz_option *option)
{
    const pvsz_problem *problem = probe->problem;

    pvsz_spec_list(probe->system, PVSZ_KIND_ARRAY)->count =
        (size_t)pvsz_fill(problem, option, probe->array, 0, 0);
    return pvsize_check(probe->system, problem->rules, problem->report, problem->diag);
}

pvsize_status pvsz_judge_alone(pvsz_probe *probe, pvsz_option *option)
{
    const pvsize_report *report = probe->problem->report;
    pvsize_status status = check(probe, option);

    if (status || !probe->problem->devices)
        return status;
    for (int32_t i = 0; i < report->design.count[PVSZ_KIND_ARRAY]; i++) {
        if (pvsz_array_value(report, PVSZ_QUANTITY_STRING_DEVICE_NEEDED, i) != PVSIZE_ANSWER_YES)
            continue;
        option->device[i] = pvsz_array_value(report, PVSZ_QUANTITY_STRING_DEVICE_RATING, i);
        if (option->device[i] > 0)
            option->devices += option->strings[i];
    }
    return option->devices ? check(probe, option) : PVSIZE_OK;
}
