/* Measuring and laying flat. A system is checked for wholeness before anything
 * is laid, so that laying cannot fail. */
#include <string.h>

#include "design.h"

/* Index that an array holds; -1 where it has none. */
static int32_t index_of(const pvsize_spec *spec, int32_t term)
{
    double value = -1;

    pvsz_spec_number(spec, term, &value);
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
    inverter = inverters->item[index_of(array, PVSIZE_ARRAY_INVERTER)];
    status = check_reference(array, place, PVSIZE_ARRAY_INPUT,
                             pvsz_spec_parts(inverter, PVSZ_KIND_INPUT)->count, diag);
    if (!status && index_of(array, PVSIZE_ARRAY_PLANE) >= 0)
        status = check_reference(array, place, PVSIZE_ARRAY_PLANE, planes->count, diag);
    return status;
}

/* A d.c. cable names an array, an a.c. one an inverter. */
static pvsize_status check_cable(const pvsize_spec *cable, int32_t place, size_t inverters,
                                 size_t arrays, pvsize_diag *diag)
{
    if (index_of(cable, PVSIZE_CABLE_CIRCUIT) < 0) {
        pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_CABLE_CIRCUIT);
        pvsz_fail_at(diag, place);
        return PVSIZE_E_NOT_SET;
    }
    if (index_of(cable, PVSIZE_CABLE_CIRCUIT) == PVSIZE_CIRCUIT_AC)
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
    int32_t array = index_of(isolator, PVSIZE_ISOLATOR_ARRAY);
    int32_t input = index_of(isolator, PVSIZE_ISOLATOR_INPUT);
    int32_t inverter = index_of(isolator, PVSIZE_ISOLATOR_INVERTER);
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
        (input == index_of(arrays->item[array], PVSIZE_ARRAY_INPUT) &&
         inverter == index_of(arrays->item[array], PVSIZE_ARRAY_INVERTER)))
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

/* A subject that hangs on another, or on none. */
static pvsz_subject *place(pvsz_design *design, int32_t scope, int32_t at, int32_t index,
                           const pvsize_spec *spec, const pvsz_subject *owner)
{
    pvsz_subject *subject = &design->subject[scope][at];

    if (owner) {
        memcpy(subject->at, owner->at, sizeof subject->at);
        memcpy(subject->row, owner->row, sizeof subject->row);
        memcpy(subject->spec, owner->spec, sizeof subject->spec);
    } else {
        memset(subject->at, -1, sizeof subject->at);
        memset(subject->row, -1, sizeof subject->row);
        memset(subject->spec, 0, sizeof subject->spec);
    }
    subject->scope = scope;
    subject->index = index;
    subject->at[scope] = at;
    subject->row[scope] = design->first_row[scope] + at * pvsz_quantity_count[scope];
    subject->spec[scope] = spec;
    subject->first_below = subject->next_on_input = subject->next_on_plane = -1;
    subject->first_cable = subject->next_cable = -1;
    subject->first_isolator = subject->next_isolator = -1;
    subject->below = 0;
    subject->assumed = 0;
    subject->name = pvsz_spec_name(spec);
    return subject;
}

static void hang(pvsz_subject *subject, const pvsz_subject *on)
{
    subject->at[on->scope] = on->at[on->scope];
    subject->row[on->scope] = on->row[on->scope];
    subject->spec[on->scope] = on->spec[on->scope];
}

static void lay_inputs(pvsz_design *design, const pvsize_spec *inverter, pvsz_subject *owner,
                       int32_t *next_input)
{
    const pvsz_part_list *inputs = pvsz_spec_parts(inverter, PVSZ_KIND_INPUT);

    owner->first_below = *next_input;
    owner->below = (int32_t)inputs->count;
    for (size_t i = 0; i < inputs->count; i++)
        place(design, PVSZ_KIND_INPUT, (*next_input)++, (int32_t)i, inputs->item[i], owner);
}

/* Equal modules count once. Unlike ones differ in their first numbers, so that
 * comparing with each is cheap. */
static int32_t lay_module(pvsz_design *design, const pvsize_spec *module, int32_t array)
{
    const pvsz_subject *types = design->subject[PVSZ_KIND_MODULE];
    int32_t count = design->count[PVSZ_KIND_MODULE];

    for (int32_t i = 0; i < count; i++)
        if (pvsz_spec_same_numbers(types[i].spec[PVSZ_KIND_MODULE], module))
            return i;
    place(design, PVSZ_KIND_MODULE, count, count, module, NULL)->first_below = array;
    design->count[PVSZ_KIND_MODULE]++;
    return count;
}

static pvsz_subject *input_at(pvsz_design *design, int32_t inverter, int32_t input)
{
    int32_t first = design->subject[PVSZ_KIND_INVERTER][inverter].first_below;

    return &design->subject[PVSZ_KIND_INPUT][first + input];
}

static void lay_array(pvsz_design *design, const pvsize_spec *array, int32_t i,
                      const pvsz_subject *system)
{
    pvsz_subject *subject = place(design, PVSZ_KIND_ARRAY, i, i, array, system);
    const pvsz_subject *input = input_at(design, index_of(array, PVSIZE_ARRAY_INVERTER),
                                         index_of(array, PVSIZE_ARRAY_INPUT));
    int32_t plane = index_of(array, PVSIZE_ARRAY_PLANE);
    int32_t module = lay_module(design, pvsz_spec_parts(array, PVSZ_KIND_MODULE)->item[0], i);

    hang(subject, &design->subject[PVSZ_KIND_INVERTER][input->at[PVSZ_KIND_INVERTER]]);
    hang(subject, input);
    hang(subject, &design->subject[PVSZ_KIND_MODULE][module]);
    if (plane >= 0)
        hang(subject, &design->subject[PVSZ_KIND_PLANE][plane]);
}

/* Puts an array in front of the lists of its input and its plane. */
static void link_array(pvsz_design *design, int32_t i)
{
    pvsz_subject *array = &design->subject[PVSZ_KIND_ARRAY][i];
    pvsz_subject *input = &design->subject[PVSZ_KIND_INPUT][array->at[PVSZ_KIND_INPUT]];
    int32_t plane = array->at[PVSZ_KIND_PLANE];

    array->next_on_input = input->first_below;
    input->first_below = i;
    input->below++;
    if (plane >= 0) {
        pvsz_subject *on = &design->subject[PVSZ_KIND_PLANE][plane];

        array->next_on_plane = on->first_below;
        on->first_below = i;
        on->below++;
    }
}

/* A cable hangs on all that its array hangs on, or on its inverter. */
static void lay_cable(pvsz_design *design, const pvsize_spec *cable, int32_t i)
{
    bool is_ac = index_of(cable, PVSIZE_CABLE_CIRCUIT) == PVSIZE_CIRCUIT_AC;
    pvsz_subject *owner =
        is_ac ? &design->subject[PVSZ_KIND_INVERTER][index_of(cable, PVSIZE_CABLE_INVERTER)]
              : &design->subject[PVSZ_KIND_ARRAY][index_of(cable, PVSIZE_CABLE_ARRAY)];
    pvsz_subject *subject = place(design, PVSZ_KIND_CABLE, i, i, cable, owner);

    subject->next_cable = owner->first_cable;
    owner->first_cable = i;
}

/* An isolator hangs on all that its array hangs on, or on its input. */
static void lay_isolator(pvsz_design *design, const pvsize_spec *isolator, int32_t i)
{
    int32_t array = index_of(isolator, PVSIZE_ISOLATOR_ARRAY);
    pvsz_subject *owner = array >= 0
                              ? &design->subject[PVSZ_KIND_ARRAY][array]
                              : input_at(design, index_of(isolator, PVSIZE_ISOLATOR_INVERTER),
                                         index_of(isolator, PVSIZE_ISOLATOR_INPUT));
    pvsz_subject *subject = place(design, PVSZ_KIND_ISOLATOR, i, i, isolator, owner);

    subject->next_isolator = owner->first_isolator;
    owner->first_isolator = i;
}

static void lay_system(pvsz_design *design, const pvsize_spec *system)
{
    const pvsize_spec *site = pvsz_spec_parts(system, PVSZ_KIND_SITE)->item[0];
    const pvsz_part_list *planes = pvsz_spec_parts(site, PVSZ_KIND_PLANE);
    const pvsz_part_list *inverters = pvsz_spec_parts(system, PVSZ_KIND_INVERTER);
    const pvsz_part_list *arrays = pvsz_spec_parts(system, PVSZ_KIND_ARRAY);
    const pvsz_part_list *cables = pvsz_spec_parts(system, PVSZ_KIND_CABLE);
    const pvsz_part_list *readings = pvsz_spec_parts(system, PVSZ_KIND_READING);
    const pvsz_part_list *isolators = pvsz_spec_parts(system, PVSZ_KIND_ISOLATOR);
    pvsz_subject *top = place(design, PVSZ_KIND_SYSTEM, 0, 0, system, NULL);
    int32_t next_input = 0;

    hang(top, place(design, PVSZ_KIND_SITE, 0, 0, site, top));
    for (size_t i = 0; i < planes->count; i++)
        place(design, PVSZ_KIND_PLANE, (int32_t)i, (int32_t)i, planes->item[i], top);
    for (size_t i = 0; i < inverters->count; i++) {
        pvsz_subject *inverter =
            place(design, PVSZ_KIND_INVERTER, (int32_t)i, (int32_t)i, inverters->item[i], top);

        lay_inputs(design, inverters->item[i], inverter, &next_input);
    }
    design->count[PVSZ_KIND_MODULE] = 0;
    for (size_t i = 0; i < arrays->count; i++)
        lay_array(design, arrays->item[i], (int32_t)i, top);
    /* from the last to the first: the lists come out in order */
    for (int32_t i = (int32_t)arrays->count - 1; i >= 0; i--)
        link_array(design, i);
    for (int32_t i = (int32_t)cables->count - 1; i >= 0; i--)
        lay_cable(design, cables->item[i], i);
    for (size_t i = 0; i < readings->count; i++) {
        int32_t array = index_of(readings->item[i], PVSIZE_READING_ARRAY);

        place(design, PVSZ_KIND_READING, (int32_t)i, (int32_t)i, readings->item[i],
              &design->subject[PVSZ_KIND_ARRAY][array]);
    }
    for (int32_t i = (int32_t)isolators->count - 1; i >= 0; i--)
        lay_isolator(design, isolators->item[i], i);
}

void pvsz_design_lay(const pvsize_spec *spec, pvsz_design *design, pvsz_subject *room)
{
    pvsz_subject *top;
    int32_t next_input = 0, rows = 0;

    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        design->subject[scope] = room;
        room += design->count[scope];
        design->first_row[scope] = rows;
        rows += design->count[scope] * pvsz_quantity_count[scope];
    }
    if (spec->kind == PVSZ_KIND_SYSTEM) {
        lay_system(design, spec);
        return;
    }
    top = place(design, spec->kind, 0, 0, spec, NULL);
    if (spec->kind == PVSZ_KIND_INVERTER)
        lay_inputs(design, spec, top, &next_input);
    if (spec->kind == PVSZ_KIND_SITE)
        for (int32_t i = 0; i < design->count[PVSZ_KIND_PLANE]; i++)
            place(design, PVSZ_KIND_PLANE, i, i, pvsz_spec_parts(spec, PVSZ_KIND_PLANE)->item[i],
                  top);
}
