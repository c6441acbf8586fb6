/* What protects and what parts: string fuses and holders, d.c. isolators. */
#include <math.h>

#include "bill.h"

/* string fuses */

/* As fitted in the design; else what the check calls for. */
typedef struct protection {
    pvsz_told needed; /* 1 or 0 */
    pvsz_told rating;
    int32_t why;
} protection;

static protection fuse_of(const pvsz_taking *take, const pvsz_subject *array)
{
    const pvsize_spec *spec = pvsz_part_of(take, array);
    protection result = {pvsz_tell(1), pvsz_told_param(spec, PVSIZE_ARRAY_STRING_DEVICE),
                         PVSIZE_ARRAY_STRING_DEVICE};

    if (!result.rating.missing)
        return result;
    result.needed = pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_DEVICE_NEEDED);
    if (result.needed.missing == PVSIZE_QUANTITY_STRING_DEVICE_NEEDED) {
        /* the module states no rating to judge by: the design has the last word */
        bool none = pvsz_spec_states_none(
            spec, pvsz_term_place(pvsz_term_find(PVSIZE_ARRAY_STRING_DEVICE)));

        result.needed = none ? pvsz_tell(0) : pvsz_needs(PVSIZE_ARRAY_STRING_DEVICE);
        return result;
    }
    result.rating = pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_DEVICE_RATING);
    result.why = PVSIZE_QUANTITY_STRING_DEVICE_NEEDED;
    if (!result.rating.missing && result.rating.value == 0) /* no standard rating fits */
        result.rating = pvsz_needs(PVSIZE_ARRAY_STRING_DEVICE);
    return result;
}

static void with_voltage(const pvsz_taking *take, const pvsz_subject *array, pvsz_bill_row *line)
{
    pvsz_told voltage =
        pvsz_told_param(pvsz_part_of(take, array), PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE);

    if (!voltage.missing)
        pvsz_with(line, PVSIZE_ATTRIBUTE_VOLTAGE, voltage);
    else
        pvsz_with(line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_VOC_COLD));
}

/* Strings may be grouped under one device. */
static pvsz_told poles_of(pvsz_taking *take, const pvsz_subject *array)
{
    const pvsize_spec *spec = pvsz_part_of(take, array);
    pvsz_told strings = pvsz_told_param(spec, PVSIZE_ARRAY_STRINGS);
    pvsz_told grouped = pvsz_told_param(spec, PVSIZE_ARRAY_STRINGS_PER_DEVICE);

    if (!strings.missing)
        strings.value = ceil(strings.value / grouped.value);
    return pvsz_times(strings, pvsz_told_figure(take, PVSZ_FIGURE_STRING_FUSE_POLES));
}

static void take_poles(pvsz_taking *take, int32_t item)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_ARRAY]; i++) {
        const pvsz_subject *array = pvsz_subject_at(take, PVSZ_KIND_ARRAY, i);
        protection fuse = fuse_of(take, array);
        pvsz_bill_row line = pvsz_line(item, -1);

        if (fuse.needed.missing || fuse.needed.value == 0) {
            pvsz_put_share(take, &line, array, fuse.why, fuse.needed);
            continue;
        }
        pvsz_with(&line, PVSIZE_ATTRIBUTE_RATING, fuse.rating);
        with_voltage(take, array, &line);
        pvsz_put_share(take, &line, array, fuse.why, poles_of(take, array));
        if (item == PVSIZE_ITEM_STRING_FUSE)
            pvsz_note_default(take, array, PVSIZE_ARRAY_STRINGS_PER_DEVICE);
    }
}

void pvsz_take_fuses(pvsz_taking *take)
{
    take_poles(take, PVSIZE_ITEM_STRING_FUSE);
}

void pvsz_take_holders(pvsz_taking *take)
{
    take_poles(take, PVSIZE_ITEM_FUSE_HOLDER);
}

/* isolators */

static const pvsz_subject *array_on(const pvsz_taking *take, int32_t at)
{
    return at < 0 ? NULL : pvsz_subject_at(take, PVSZ_KIND_ARRAY, at);
}

/* The next listed isolator that stands beside the inverter; null at the end. */
static const pvsz_subject *beside_from(const pvsz_taking *take, int32_t at)
{
    while (at >= 0) {
        const pvsz_subject *here = pvsz_subject_at(take, PVSZ_KIND_ISOLATOR, at);

        if (pvsz_told_param(pvsz_part_of(take, here), PVSIZE_ISOLATOR_PLACE).value ==
            PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER)
            return here;
        at = here->next_isolator;
    }
    return NULL;
}

static bool has_listed(const pvsz_taking *take, const pvsz_subject *input)
{
    bool found = beside_from(take, input->first_isolator) != NULL;

    for (const pvsz_subject *array = array_on(take, input->first_below); array && !found;
         array = array_on(take, array->next_on_input))
        found = beside_from(take, array->first_isolator) != NULL;
    return found;
}

static bool has_external(const pvsz_taking *take, const pvsz_subject *input)
{
    for (const pvsz_subject *array = array_on(take, input->first_below); array;
         array = array_on(take, array->next_on_input))
        if (pvsz_told_param(pvsz_part_of(take, array), PVSIZE_ARRAY_EXTERNAL_ISOLATOR).value ==
            PVSIZE_ANSWER_YES)
            return true;
    return false;
}

/* One that is in the design is bought; else one is where the built-in one does not
 * serve and the rule set asks for it. */
pvsz_isolation pvsz_isolation_of(const pvsz_taking *take, const pvsz_subject *input)
{
    pvsz_told serves = pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_ISOLATED);

    if (has_listed(take, input))
        return (pvsz_isolation){pvsz_tell(1), PVSIZE_ISOLATOR_PLACE};
    if (has_external(take, input))
        return (pvsz_isolation){pvsz_tell(1), PVSIZE_ARRAY_EXTERNAL_ISOLATOR};
    if (!serves.missing && serves.value == PVSIZE_ANSWER_YES)
        return (pvsz_isolation){pvsz_tell(0), PVSIZE_QUANTITY_INPUT_ISOLATED};
    if (!pvsz_calls_for(take, PVSIZE_RULE_ISOLATOR))
        return (pvsz_isolation){pvsz_tell(0), PVSIZE_RULE_ISOLATOR};
    return (pvsz_isolation){serves.missing ? serves : pvsz_tell(1), PVSIZE_RULE_ISOLATOR};
}

/* Both conductors of every run are opened. */
static pvsz_told poles_through(const pvsz_taking *take, const pvsz_subject *input)
{
    pvsz_told runs = pvsz_tell(0);

    for (const pvsz_subject *array = array_on(take, input->first_below); array;
         array = array_on(take, array->next_on_input)) {
        pvsz_told here = pvsz_runs(take, array);

        if (!runs.missing)
            runs = here.missing ? here : pvsz_tell(runs.value + here.value);
    }
    return pvsz_times(pvsz_tell(2), runs);
}

/* Those of one owner, an array or an input, with what each must be. */
static void take_listed(pvsz_taking *take, const pvsz_subject *owner, pvsz_told poles)
{
    for (const pvsz_subject *at = beside_from(take, owner->first_isolator); at;
         at = beside_from(take, at->next_isolator)) {
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_DC_ISOLATOR, -1);

        pvsz_with(&line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, at, PVSZ_QUANTITY_ISOLATOR_VOLTAGE_SEEN));
        pvsz_with(&line, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST,
                  pvsz_told_quantity(take, at, PVSZ_QUANTITY_ISOLATOR_CURRENT_SEEN));
        pvsz_with(&line, PVSIZE_ATTRIBUTE_POLES, poles);
        pvsz_put_share(take, &line, at, PVSIZE_ISOLATOR_PLACE, pvsz_tell(1));
    }
}

void pvsz_take_isolators(pvsz_taking *take)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_INPUT]; i++) {
        const pvsz_subject *input = pvsz_subject_at(take, PVSZ_KIND_INPUT, i);
        pvsz_isolation isolation = take->isolation[i];
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_DC_ISOLATOR, -1);
        pvsz_told poles = poles_through(take, input);

        if (input->below == 0)
            continue;
        if (isolation.why == PVSIZE_ISOLATOR_PLACE) {
            take_listed(take, input, poles);
            for (const pvsz_subject *array = array_on(take, input->first_below); array;
                 array = array_on(take, array->next_on_input))
                take_listed(take, array, pvsz_times(pvsz_tell(2), pvsz_runs(take, array)));
            continue;
        }
        if (isolation.count.missing || isolation.count.value > 0) {
            pvsz_with(&line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                      pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_VOC_HIGHEST));
            pvsz_with(&line, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST,
                      pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_ISC_MAX));
            pvsz_with(&line, PVSIZE_ATTRIBUTE_POLES, poles);
        }
        pvsz_put_share(take, &line, input, isolation.why, isolation.count);
    }
}
