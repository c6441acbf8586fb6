/* Measuring and laying flat. A system is checked for wholeness before anything
 * is laid, so that laying cannot fail. */
#include <string.h>

#include "design.h"

/* Index that an array holds; -1 where it has none. */
static int32_t index_of(const pvsize_spec *spec, int32_t term)
{
    double value = -1;

    pv_spec_number(spec, term, &value);
    return (int32_t)value;
}

static pvsize_status check_reference(const pvsize_spec *array, int32_t place, int32_t term,
                                     size_t count, pvsize_diag *diag)
{
    int32_t index = index_of(array, term);

    pvsize_status status = PVSIZE_E_BROKEN_REFERENCE;

    if (index >= 0 && (size_t)index < count)
        return PVSIZE_OK;
    if (index < 0)
        status = pv_fail_term(diag, PVSIZE_E_NOT_SET, term);
    else
        pv_fail_index(diag, status, term, index, (int32_t)count);
    if (diag && diag->mark == PV_MARK_DIAG)
        diag->index = place; /* of the array, among the system's */
    return status;
}

static pvsize_status check_array(const pvsize_spec *array, int32_t place,
                                 const pv_part_list *inverters, const pv_part_list *planes,
                                 pvsize_diag *diag)
{
    const pvsize_spec *inverter;
    pvsize_status status;

    if (pv_spec_parts(array, PV_KIND_MODULE)->count == 0)
        return pv_fail_index(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_MODULE, place, 0);
    status = check_reference(array, place, PVSIZE_ARRAY_INVERTER, inverters->count, diag);
    if (status)
        return status;
    inverter = inverters->item[index_of(array, PVSIZE_ARRAY_INVERTER)];
    status = check_reference(array, place, PVSIZE_ARRAY_INPUT,
                             pv_spec_parts(inverter, PV_KIND_INPUT)->count, diag);
    if (!status && index_of(array, PVSIZE_ARRAY_PLANE) >= 0)
        status = check_reference(array, place, PVSIZE_ARRAY_PLANE, planes->count, diag);
    return status;
}

static pvsize_status measure_system(const pvsize_spec *system, pv_design *design,
                                    pvsize_diag *diag)
{
    const pv_part_list *sites = pv_spec_parts(system, PV_KIND_SITE);
    const pv_part_list *inverters = pv_spec_parts(system, PV_KIND_INVERTER);
    const pv_part_list *arrays = pv_spec_parts(system, PV_KIND_ARRAY);
    const pv_part_list *planes;

    if (sites->count == 0)
        return pv_fail_term(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_SITE);
    if (inverters->count == 0)
        return pv_fail_term(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_INVERTER);
    planes = pv_spec_parts(sites->item[0], PV_KIND_PLANE);
    for (size_t i = 0; i < arrays->count; i++) {
        pvsize_status status = check_array(arrays->item[i], (int32_t)i, inverters, planes, diag);

        if (status)
            return status;
    }
    design->count[PV_KIND_SITE] = 1;
    design->count[PV_KIND_PLANE] = (int32_t)planes->count;
    design->count[PV_KIND_INVERTER] = (int32_t)inverters->count;
    for (size_t i = 0; i < inverters->count; i++)
        design->count[PV_KIND_INPUT] +=
            (int32_t)pv_spec_parts(inverters->item[i], PV_KIND_INPUT)->count;
    design->count[PV_KIND_ARRAY] = (int32_t)arrays->count;
    /* at most: equal modules are laid once */
    design->count[PV_KIND_MODULE] = (int32_t)arrays->count;
    return PVSIZE_OK;
}

pvsize_status pv_design_measure(const pvsize_spec *spec, pv_design *design, pvsize_diag *diag)
{
    memset(design, 0, sizeof *design);
    design->count[spec->kind] = 1;
    switch (spec->kind) {
    case PV_KIND_SYSTEM:
        return measure_system(spec, design, diag);
    case PV_KIND_SITE:
        design->count[PV_KIND_PLANE] = (int32_t)pv_spec_parts(spec, PV_KIND_PLANE)->count;
        return PVSIZE_OK;
    case PV_KIND_INVERTER:
        design->count[PV_KIND_INPUT] = (int32_t)pv_spec_parts(spec, PV_KIND_INPUT)->count;
        return PVSIZE_OK;
    case PV_KIND_MODULE:
    case PV_KIND_INPUT:
    case PV_KIND_PLANE:
        return PVSIZE_OK;
    default:
        /* an array or an efficiency point says nothing alone */
        return pv_fail_term(diag, PVSIZE_E_WRONG_KIND, pv_kinds[spec->kind].number);
    }
}

int32_t pv_design_size(const pv_design *design)
{
    int32_t size = 0;

    for (int32_t scope = 0; scope < PV_SCOPES; scope++)
        size += design->count[scope];
    return size;
}

size_t pv_design_name_bytes(const pvsize_spec *spec)
{
    size_t bytes = strlen(pv_spec_name(spec)) + 1;

    for (int32_t list = 0; list < PV_MOST_PART_KINDS; list++)
        for (size_t i = 0; i < spec->parts[list].count; i++)
            bytes += pv_design_name_bytes(spec->parts[list].item[i]);
    return bytes;
}

/* A subject that hangs on another, or on none. */
static pv_subject *place(pv_design *design, int32_t scope, int32_t at, int32_t index,
                         const pvsize_spec *spec, const pv_subject *owner)
{
    pv_subject *subject = &design->subject[scope][at];

    if (owner) {
        memcpy(subject->at, owner->at, sizeof subject->at);
        memcpy(subject->spec, owner->spec, sizeof subject->spec);
    } else {
        memset(subject->at, -1, sizeof subject->at);
        memset(subject->spec, 0, sizeof subject->spec);
    }
    subject->scope = scope;
    subject->index = index;
    subject->at[scope] = at;
    subject->spec[scope] = spec;
    subject->first_below = subject->next_on_input = subject->next_on_plane = -1;
    subject->below = 0;
    subject->name = pv_spec_name(spec);
    return subject;
}

static void hang(pv_subject *subject, const pv_subject *on)
{
    subject->at[on->scope] = on->at[on->scope];
    subject->spec[on->scope] = on->spec[on->scope];
}

static void lay_inputs(pv_design *design, const pvsize_spec *inverter, pv_subject *owner,
                       int32_t *next_input)
{
    const pv_part_list *inputs = pv_spec_parts(inverter, PV_KIND_INPUT);

    owner->first_below = *next_input;
    owner->below = (int32_t)inputs->count;
    for (size_t i = 0; i < inputs->count; i++)
        place(design, PV_KIND_INPUT, (*next_input)++, (int32_t)i, inputs->item[i], owner);
}

/* Equal modules count once. Only the latest types are compared, so that a
 * design of thousands of unlike modules stays linear. */
static int32_t lay_module(pv_design *design, const pvsize_spec *module)
{
    enum { COMPARED = 8 };
    int32_t types = design->count[PV_KIND_MODULE];

    for (int32_t i = types - 1; i >= 0 && i >= types - COMPARED; i--)
        if (pv_spec_same_numbers(design->subject[PV_KIND_MODULE][i].spec[PV_KIND_MODULE], module))
            return i;
    place(design, PV_KIND_MODULE, types, types, module, NULL);
    design->count[PV_KIND_MODULE]++;
    return types;
}

static pv_subject *input_of(pv_design *design, const pvsize_spec *array)
{
    int32_t inverter = index_of(array, PVSIZE_ARRAY_INVERTER);
    int32_t first = design->subject[PV_KIND_INVERTER][inverter].first_below;

    return &design->subject[PV_KIND_INPUT][first + index_of(array, PVSIZE_ARRAY_INPUT)];
}

static void lay_array(pv_design *design, const pvsize_spec *array, int32_t i,
                      const pv_subject *system)
{
    pv_subject *subject = place(design, PV_KIND_ARRAY, i, i, array, system);
    const pv_subject *input = input_of(design, array);
    int32_t plane = index_of(array, PVSIZE_ARRAY_PLANE);
    int32_t module = lay_module(design, pv_spec_parts(array, PV_KIND_MODULE)->item[0]);

    hang(subject, &design->subject[PV_KIND_INVERTER][input->at[PV_KIND_INVERTER]]);
    hang(subject, input);
    hang(subject, &design->subject[PV_KIND_MODULE][module]);
    if (plane >= 0)
        hang(subject, &design->subject[PV_KIND_PLANE][plane]);
}

/* Puts an array in front of the lists of its input and its plane. */
static void link_array(pv_design *design, int32_t i)
{
    pv_subject *array = &design->subject[PV_KIND_ARRAY][i];
    pv_subject *input = &design->subject[PV_KIND_INPUT][array->at[PV_KIND_INPUT]];
    int32_t plane = array->at[PV_KIND_PLANE];

    array->next_on_input = input->first_below;
    input->first_below = i;
    input->below++;
    if (plane >= 0) {
        pv_subject *on = &design->subject[PV_KIND_PLANE][plane];

        array->next_on_plane = on->first_below;
        on->first_below = i;
        on->below++;
    }
}

static void lay_system(pv_design *design, const pvsize_spec *system)
{
    const pvsize_spec *site = pv_spec_parts(system, PV_KIND_SITE)->item[0];
    const pv_part_list *planes = pv_spec_parts(site, PV_KIND_PLANE);
    const pv_part_list *inverters = pv_spec_parts(system, PV_KIND_INVERTER);
    const pv_part_list *arrays = pv_spec_parts(system, PV_KIND_ARRAY);
    pv_subject *top = place(design, PV_KIND_SYSTEM, 0, 0, system, NULL);
    int32_t next_input = 0;

    hang(top, place(design, PV_KIND_SITE, 0, 0, site, top));
    for (size_t i = 0; i < planes->count; i++)
        place(design, PV_KIND_PLANE, (int32_t)i, (int32_t)i, planes->item[i], top);
    for (size_t i = 0; i < inverters->count; i++) {
        pv_subject *inverter =
            place(design, PV_KIND_INVERTER, (int32_t)i, (int32_t)i, inverters->item[i], top);

        lay_inputs(design, inverters->item[i], inverter, &next_input);
    }
    design->count[PV_KIND_MODULE] = 0;
    for (size_t i = 0; i < arrays->count; i++)
        lay_array(design, arrays->item[i], (int32_t)i, top);
    /* from the last to the first: the lists come out in order */
    for (int32_t i = (int32_t)arrays->count - 1; i >= 0; i--)
        link_array(design, i);
}

void pv_design_lay(const pvsize_spec *spec, pv_design *design, pv_subject *room)
{
    pv_subject *top;
    int32_t next_input = 0;

    for (int32_t scope = 0; scope < PV_SCOPES; scope++) {
        design->subject[scope] = room;
        room += design->count[scope];
    }
    if (spec->kind == PV_KIND_SYSTEM) {
        lay_system(design, spec);
        return;
    }
    top = place(design, spec->kind, 0, 0, spec, NULL);
    if (spec->kind == PV_KIND_INVERTER)
        lay_inputs(design, spec, top, &next_input);
    if (spec->kind == PV_KIND_SITE)
        for (int32_t i = 0; i < design->count[PV_KIND_PLANE]; i++)
            place(design, PV_KIND_PLANE, i, i, pv_spec_parts(spec, PV_KIND_PLANE)->item[i], top);
}
