/* Answers as systems, and what the check says of them. */
#include "../report/words.h"
#include "layout.h"

static pvsize_status add_array(const pvsize_layouts *layouts, const pvsz_option *option,
                               const pvsz_slot *slot, int32_t side, pvsize_spec *system,
                               pvsize_diag *diag)
{
    static const int32_t terms[] = {PVSIZE_ARRAY_INVERTER,
                                    PVSIZE_ARRAY_INPUT,
                                    PVSIZE_ARRAY_PLANE,
                                    PVSIZE_ARRAY_MODULES_PER_STRING,
                                    PVSIZE_ARRAY_STRINGS,
                                    PVSIZE_ARRAY_STRING_DEVICE,
                                    PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE};
    const double values[] = {slot->inverter,
                             slot->input,
                             option->plane[side],
                             option->length,
                             option->strings[side],
                             option->device[side],
                             0};
    double voltage, isolators = PVSIZE_ANSWER_NO;
    pvsize_spec *array = NULL;
    pvsize_status status = pvsize_spec_new(PVSIZE_KIND_ARRAY, &system->head.memory, &array, diag);

    if (!status)
        status =
            pvsize_spec_set_numbers(array, terms, values, option->device[side] > 0 ? 6 : 5, diag);
    if (!status && option->device[side] > 0 &&
        pvsz_spec_number(layouts->search, PVSIZE_SEARCH_STRING_DEVICE_VOLTAGE, &voltage))
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, voltage, diag);
    pvsz_spec_number(layouts->search, PVSIZE_SEARCH_EXTERNAL_ISOLATOR, &isolators);
    if (!status && isolators == PVSIZE_ANSWER_YES)
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, isolators, diag);
    if (!status)
        status = pvsize_spec_add(
            array, pvsz_spec_parts(layouts->search, PVSZ_KIND_MODULE)->item[option->module], NULL,
            diag);
    if (!status)
        status = pvsize_spec_add(system, array, NULL, diag);
    pvsize_spec_free(array);
    return status;
}

pvsize_status pvsize_layouts_system(const pvsize_layouts *layouts, int32_t i,
                                    const pvsize_allocator *memory, pvsize_spec **out,
                                    pvsize_diag *diag)
{
    pvsize_spec *system;
    int32_t count = 0;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = pvsize_layouts_array_count(layouts, i, &count, diag);
    if (!status)
        status = pvsize_spec_clone(pvsz_spec_parts(layouts->search, PVSZ_KIND_SYSTEM)->item[0],
                                   memory, &system, diag);
    if (status)
        return status;
    for (int32_t k = 0; !status && k < count; k++) {
        const pvsz_slot *slot;
        int32_t side;
        const pvsz_option *option = pvsz_find_array(layouts, i, k, &slot, &side);

        status = add_array(layouts, option, slot, side, system, diag);
    }
    if (!status)
        *out = system;
    else
        pvsize_spec_free(system);
    return status;
}

pvsize_status pvsize_layouts_report(const pvsize_layouts *layouts, int32_t i, pvsize_report *report,
                                    pvsize_diag *diag)
{
    pvsize_spec *system = NULL;
    pvsize_status status = pvsz_check_report(report, diag);

    if (!status)
        status = pvsize_layouts_system(layouts, i, &report->head.memory, &system, diag);
    if (!status)
        status = pvsize_check(system, layouts->rules, report, diag);
    pvsize_spec_free(system);
    return status;
}
