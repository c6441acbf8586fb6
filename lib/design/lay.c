/* Laying flat what was measured. */
#include <string.h>

#include "design.h"

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
    const pvsz_subject *input = input_at(design, pvsz_index_of(array, PVSIZE_ARRAY_INVERTER),
                                         pvsz_index_of(array, PVSIZE_ARRAY_INPUT));
    int32_t plane = pvsz_index_of(array, PVSIZE_ARRAY_PLANE);
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
    bool is_ac = pvsz_index_of(cable, PVSIZE_CABLE_CIRCUIT) == PVSIZE_CIRCUIT_AC;
    pvsz_subject *owner =
        is_ac ? &design->subject[PVSZ_KIND_INVERTER][pvsz_index_of(cable, PVSIZE_CABLE_INVERTER)]
              : &design->subject[PVSZ_KIND_ARRAY][pvsz_index_of(cable, PVSIZE_CABLE_ARRAY)];
    pvsz_subject *subject = place(design, PVSZ_KIND_CABLE, i, i, cable, owner);

    subject->next_cable = owner->first_cable;
    owner->first_cable = i;
}

/* An isolator hangs on all that its array hangs on, or on its input. */
static void lay_isolator(pvsz_design *design, const pvsize_spec *isolator, int32_t i)
{
    int32_t array = pvsz_index_of(isolator, PVSIZE_ISOLATOR_ARRAY);
    pvsz_subject *owner = array >= 0
                              ? &design->subject[PVSZ_KIND_ARRAY][array]
                              : input_at(design, pvsz_index_of(isolator, PVSIZE_ISOLATOR_INVERTER),
                                         pvsz_index_of(isolator, PVSIZE_ISOLATOR_INPUT));
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
        int32_t array = pvsz_index_of(readings->item[i], PVSIZE_READING_ARRAY);

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
