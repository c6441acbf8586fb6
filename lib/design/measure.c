/* Measuring: a system is checked for wholeness, and counted, before anything is laid, so that
 * laying cannot fail. */
#include <string.h>

#include "design.h"

static pvsize_status check_reference(const pvsize_spec *array, int32_t place, int32_t term,
                                     size_t count, pvsize_diag *diag)
{
    int32_t index = pvsz_index_of(array, term);

    pvsize_status status = PVSIZE_E_BROKEN_REFERENCE;

    if (index >= 0 && (size_t)index < count)
        return PVSIZE_OK;
    if (index < 0)
        status = pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
    else
        pvsz_fail_index(diag, status, term, index, (int32_t)count);
    pvsz_fail_at(diag, place);
    return status;
}

static pvsize_status check_array(const pvsize_spec *array, int32_t place,
                                 const pvsz_part_list *inverters, const pvsz_part_list *planes,
                                 pvsize_diag *diag)
{
    const pvsize_spec *inverter;
    pvsize_status status;

    if (pvsz_spec_parts(array, PVSZ_KIND_MODULE)->count == 0) {
        pvsz_fail_name(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_ARRAY, "no module");
        pvsz_fail_at(diag, place);
        return PVSIZE_E_MISSING_PART;
    }
    status = check_reference(array, place, PVSIZE_ARRAY_INVERTER, inverters->count, diag);
    if (status)
        return status;
    inverter = inverters->item[pvsz_index_of(array, PVSIZE_ARRAY_INVERTER)];
    status = check_reference(array, place, PVSIZE_ARRAY_INPUT,
                             pvsz_spec_parts(inverter, PVSZ_KIND_INPUT)->count, diag);
    if (!status && pvsz_index_of(array, PVSIZE_ARRAY_PLANE) >= 0)
        status = check_reference(array, place, PVSIZE_ARRAY_PLANE, planes->count, diag);
    return status;
}

/* A d.c. cable names an array, an a.c. one an inverter. */
static pvsize_status check_cable(const pvsize_spec *cable, int32_t place, size_t inverters,
                                 size_t arrays, pvsize_diag *diag)
{
    if (pvsz_index_of(cable, PVSIZE_CABLE_CIRCUIT) < 0) {
        pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_CABLE_CIRCUIT);
        pvsz_fail_at(diag, place);
        return PVSIZE_E_NOT_SET;
    }
    if (pvsz_index_of(cable, PVSIZE_CABLE_CIRCUIT) == PVSIZE_CIRCUIT_AC)
        return check_reference(cable, place, PVSIZE_CABLE_INVERTER, inverters, diag);
    return check_reference(cable, place, PVSIZE_CABLE_ARRAY, arrays, diag);
}

/* Whether every reading is of an array that is there. */
static pvsize_status check_readings(const pvsz_part_list *readings, size_t arrays,
                                    pvsize_diag *diag)
{
    pvsize_status status = PVSIZE_OK;

    for (size_t i = 0; !status && i < readings->count; i++)
        status = check_reference(readings->item[i], (int32_t)i, PVSIZE_READING_ARRAY, arrays, diag);
    return status;
}

/* An isolator names an array, or an input of an inverter; both only if they agree. */
static pvsize_status check_isolator(const pvsize_spec *isolator, int32_t place,
                                    const pvsz_part_list *inverters, const pvsz_part_list *arrays,
                                    pvsize_diag *diag)
{
    int32_t array = pvsz_index_of(isolator, PVSIZE_ISOLATOR_ARRAY);
    int32_t input = pvsz_index_of(isolator, PVSIZE_ISOLATOR_INPUT);
    int32_t inverter = pvsz_index_of(isolator, PVSIZE_ISOLATOR_INVERTER);
    pvsize_status status;

    if (array < 0) {
        status = check_reference(isolator, place, PVSIZE_ISOLATOR_INVERTER, inverters->count, diag);
        return status
                   ? status
                   : check_reference(
                         isolator, place, PVSIZE_ISOLATOR_INPUT,
                         pvsz_spec_parts(inverters->item[inverter], PVSZ_KIND_INPUT)->count, diag);
    }
    status = check_reference(isolator, place, PVSIZE_ISOLATOR_ARRAY, arrays->count, diag);
    if (status || input < 0 ||
        (input == pvsz_index_of(arrays->item[array], PVSIZE_ARRAY_INPUT) &&
         inverter == pvsz_index_of(arrays->item[array], PVSIZE_ARRAY_INVERTER)))
        return status;
    pvsz_fail_name(diag, PVSIZE_E_BROKEN_REFERENCE, PVSIZE_ISOLATOR_INPUT,
                   "another input than its array's");
    pvsz_fail_at(diag, place);
    return PVSIZE_E_BROKEN_REFERENCE;
}

static pvsize_status measure_system(const pvsize_spec *system, pvsz_design *design,
                                    pvsize_diag *diag)
{
    const pvsz_part_list *sites = pvsz_spec_parts(system, PVSZ_KIND_SITE);
    const pvsz_part_list *inverters = pvsz_spec_parts(system, PVSZ_KIND_INVERTER);
    const pvsz_part_list *arrays = pvsz_spec_parts(system, PVSZ_KIND_ARRAY);
    const pvsz_part_list *cables = pvsz_spec_parts(system, PVSZ_KIND_CABLE);
    const pvsz_part_list *readings = pvsz_spec_parts(system, PVSZ_KIND_READING);
    const pvsz_part_list *isolators = pvsz_spec_parts(system, PVSZ_KIND_ISOLATOR);
    const pvsz_part_list *planes;
    pvsize_status status;

    if (sites->count == 0)
        return pvsz_fail_term(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_SITE);
    if (inverters->count == 0)
        return pvsz_fail_term(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_INVERTER);
    planes = pvsz_spec_parts(sites->item[0], PVSZ_KIND_PLANE);
    for (size_t i = 0; i < arrays->count; i++) {
        status = check_array(arrays->item[i], (int32_t)i, inverters, planes, diag);
        if (status)
            return status;
    }
    for (size_t i = 0; i < cables->count; i++) {
        status = check_cable(cables->item[i], (int32_t)i, inverters->count, arrays->count, diag);
        if (status)
            return status;
    }
    status = check_readings(readings, arrays->count, diag);
    if (status)
        return status;
    for (size_t i = 0; i < isolators->count; i++) {
        status = check_isolator(isolators->item[i], (int32_t)i, inverters, arrays, diag);
        if (status)
            return status;
    }
    design->count[PVSZ_KIND_SYSTEM] = 1;
    design->count[PVSZ_KIND_CABLE] = (int32_t)cables->count;
    design->count[PVSZ_KIND_READING] = (int32_t)readings->count;
    design->count[PVSZ_KIND_ISOLATOR] = (int32_t)isolators->count;
    design->count[PVSZ_KIND_SITE] = 1;
    design->count[PVSZ_KIND_PLANE] = (int32_t)planes->count;
    design->count[PVSZ_KIND_INVERTER] = (int32_t)inverters->count;
    for (size_t i = 0; i < inverters->count; i++)
        design->count[PVSZ_KIND_INPUT] +=
            (int32_t)pvsz_spec_parts(inverters->item[i], PVSZ_KIND_INPUT)->count;
    design->count[PVSZ_KIND_ARRAY] = (int32_t)arrays->count;
    /* at most: equal modules are laid once */
    design->count[PVSZ_KIND_MODULE] = (int32_t)arrays->count;
    return PVSIZE_OK;
}

/* The spec itself, and its parts of one kind. */
static pvsize_status measure_alone(const pvsize_spec *spec, pvsz_design *design, int32_t part)
{
    design->count[spec->kind] = 1;
    if (part >= 0)
        design->count[part] = (int32_t)pvsz_spec_parts(spec, part)->count;
    return PVSIZE_OK;
}

pvsize_status pvsz_design_measure(const pvsize_spec *spec, pvsz_design *design, pvsize_diag *diag)
{
    memset(design, 0, sizeof *design);
    switch (spec->kind) {
    case PVSZ_KIND_SYSTEM:
        return measure_system(spec, design, diag);
    case PVSZ_KIND_SITE:
        return measure_alone(spec, design, PVSZ_KIND_PLANE);
    case PVSZ_KIND_INVERTER:
        return measure_alone(spec, design, PVSZ_KIND_INPUT);
    case PVSZ_KIND_MODULE:
    case PVSZ_KIND_INPUT:
    case PVSZ_KIND_PLANE:
        return measure_alone(spec, design, -1);
    default:
        /* an array or an efficiency point says nothing alone */
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[spec->kind].number,
                              "a system, or a module, input, inverter, site or plane alone");
    }
}

int32_t pvsz_design_size(const pvsz_design *design)
{
    int32_t size = 0;

    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        size += design->count[scope];
    return size;
}
