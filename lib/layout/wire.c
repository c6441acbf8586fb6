/* Putting options into specs, in place: nothing is allocated once the arrays are made. */
#include "layout.h"

static pvsize_status make_array(pvsz_problem *problem, pvsize_spec **array)
{
    pvsz_part_list *modules;
    pvsize_status status =
        pvsize_spec_new(PVSIZE_KIND_ARRAY, problem->memory, array, problem->diag);

    if (status)
        return status;
    modules = pvsz_spec_list(*array, PVSZ_KIND_MODULE);
    modules->item = pvsz_new(problem->memory, 1, sizeof *modules->item);
    if (!modules->item)
        return pvsz_no_memory(problem->diag);
    modules->capacity = 1;
    if (problem->isolators)
        status = pvsize_spec_set_number(*array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES,
                                        problem->diag);
    return status;
}

pvsize_status pvsz_make_arrays(pvsz_problem *problem)
{
    pvsz_part_list *list = pvsz_spec_list(problem->system, PVSZ_KIND_ARRAY);
    size_t count = 2 * (size_t)problem->slots;
    pvsize_spec **larger = pvsz_new(problem->memory, list->count + count, sizeof *larger);

    if (!larger)
        return pvsz_no_memory(problem->diag);
    for (size_t i = 0; i < list->count; i++)
        larger[i] = list->item[i];
    pvsz_release(problem->memory, list->item);
    list->item = larger;
    list->capacity = list->count + count;
    problem->array = pvsz_take(problem, count, sizeof *problem->array);
    if (!problem->array)
        return pvsz_no_memory(problem->diag);
    for (size_t i = 0; i < count; i++) {
        pvsize_status status = make_array(problem, &problem->array[i]);

        if (status)
            return status;
    }
    return PVSIZE_OK;
}

/* Values come from specs that were checked, or are places and counts. */
static void set(pvsize_spec *array, int32_t term, double value)
{
    int32_t row = term - PVSIZE_KIND_ARRAY - 1;

    array->value[row].number = value;
    array->set |= UINT64_C(1) << row;
}

static void set_device(const pvsz_problem *problem, double rating, pvsize_spec *array)
{
    int32_t row = PVSIZE_ARRAY_STRING_DEVICE - PVSIZE_KIND_ARRAY - 1;

    if (rating > 0) {
        set(array, PVSIZE_ARRAY_STRING_DEVICE, rating);
        if (problem->device_voltage > 0)
            set(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, problem->device_voltage);
        return;
    }
    array->set &= ~(UINT64_C(3) << row); /* the voltage is the next row */
}

int32_t pvsz_fill(const pvsz_problem *problem, const pvsz_option *option, pvsize_spec *const *array,
                  int32_t inverter, int32_t input)
{
    int32_t used = 0;

    while (option->module >= 0 && used < 2 && option->plane[used] >= 0) {
        pvsz_part_list *modules = pvsz_spec_list(array[used], PVSZ_KIND_MODULE);

        modules->item[0] = problem->module[option->module];
        modules->count = 1;
        set(array[used], PVSIZE_ARRAY_INVERTER, inverter);
        set(array[used], PVSIZE_ARRAY_INPUT, input);
        set(array[used], PVSIZE_ARRAY_PLANE, option->plane[used]);
        set(array[used], PVSIZE_ARRAY_MODULES_PER_STRING, option->length);
        set(array[used], PVSIZE_ARRAY_STRINGS, option->strings[used]);
        set_device(problem, option->device[used], array[used]);
        used++;
    }
    return used;
}

int32_t pvsz_wire(pvsz_problem *problem, const int32_t *choice)
{
    pvsz_part_list *list = pvsz_spec_list(problem->system, PVSZ_KIND_ARRAY);
    int32_t made = 0;

    for (int32_t i = 0; i < problem->slots; i++) {
        const pvsz_slot *slot = &problem->slot[i];
        pvsize_spec **array = &problem->array[2 * i];
        int32_t used = pvsz_fill(problem, &problem->group[slot->group].option[choice[i]], array,
                                 slot->inverter, slot->input);

        for (int32_t k = 0; k < used; k++)
            list->item[problem->fixed + made++] = array[k];
    }
    list->count = (size_t)(problem->fixed + made);
    return made;
}

void pvsz_unwire(pvsz_problem *problem)
{
    pvsz_part_list *list = pvsz_spec_list(problem->system, PVSZ_KIND_ARRAY);

    if (problem->array)
        list->count = (size_t)problem->fixed;
}

pvsize_status pvsz_check_wired(pvsz_problem *problem)
{
    return pvsize_check(problem->system, problem->rules, problem->report, problem->diag);
}

bool pvsz_breaks(const pvsz_finding *finding)
{
    return finding->rule->severity == PVSIZE_SEVERITY_MUST &&
           finding->verdict == PVSIZE_VERDICT_EXCEEDS;
}

int32_t pvsz_place_in_force(const pvsz_problem *problem, const pvsz_finding *finding)
{
    return (int32_t)(finding->rule - problem->report->rule);
}
