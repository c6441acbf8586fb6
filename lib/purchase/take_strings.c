/* Modules, strings, their connectors and combiners. */
#include "bill.h"

static const pvsz_subject *array_at(const pvsz_taking *take, int32_t at)
{
    return pvsz_subject_at(take, PVSZ_KIND_ARRAY, at);
}

static int32_t arrays_of(const pvsz_taking *take)
{
    return take->report->design.count[PVSZ_KIND_ARRAY];
}

static int32_t module_type(const pvsz_taking *take, const pvsz_subject *array)
{
    return pvsz_subject_number(
        take->report, pvsz_subject_at(take, PVSZ_KIND_MODULE, array->at[PVSZ_KIND_MODULE]));
}

/* Equal inverters are one type; the first of them stands for it. */
static int32_t inverter_type(const pvsz_taking *take, int32_t at)
{
    return pvsz_subject_number(take->report,
                               pvsz_subject_at(take, PVSZ_KIND_INVERTER, take->like[at]));
}

static pvsz_told strings_of(const pvsz_taking *take, const pvsz_subject *array)
{
    return pvsz_told_param(pvsz_part_of(take, array), PVSIZE_ARRAY_STRINGS);
}

static pvsz_told module_power(const pvsz_taking *take, const pvsz_subject *array)
{
    const pvsz_part_list *modules = pvsz_spec_parts(pvsz_part_of(take, array), PVSZ_KIND_MODULE);

    return pvsz_told_param(modules->item[0], PVSIZE_MODULE_PMAX);
}

void pvsz_take_modules(pvsz_taking *take)
{
    for (int32_t i = 0; i < arrays_of(take); i++) {
        const pvsz_subject *array = array_at(take, i);
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_MODULE, module_type(take, array));

        pvsz_with(&line, PVSIZE_ATTRIBUTE_POWER, module_power(take, array));
        pvsz_put_share(take, &line, array, PVSIZE_QUANTITY_ARRAY_MODULES,
                       pvsz_told_quantity(take, array, PVSZ_QUANTITY_ARRAY_MODULES));
    }
}

void pvsz_take_strings(pvsz_taking *take)
{
    for (int32_t i = 0; i < arrays_of(take); i++) {
        const pvsz_subject *array = array_at(take, i);
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_STRING, module_type(take, array));

        pvsz_with(&line, PVSIZE_ATTRIBUTE_MODULES,
                  pvsz_told_param(pvsz_part_of(take, array), PVSIZE_ARRAY_MODULES_PER_STRING));
        pvsz_put_share(take, &line, array, PVSIZE_ARRAY_STRINGS, strings_of(take, array));
    }
}

void pvsz_take_inverters(pvsz_taking *take)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_INVERTER]; i++) {
        const pvsz_subject *inverter = pvsz_subject_at(take, PVSZ_KIND_INVERTER, i);
        const pvsize_spec *spec = pvsz_part_of(take, inverter);
        pvsz_told phases = pvsz_told_param(spec, PVSIZE_INVERTER_PHASES);
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_INVERTER, inverter_type(take, i));

        pvsz_with(&line, PVSIZE_ATTRIBUTE_POWER,
                  pvsz_told_param(spec, PVSIZE_INVERTER_RATED_AC_POWER));
        if (!phases.missing) /* the type is known without */
            pvsz_with(&line, PVSIZE_ATTRIBUTE_PHASES, phases);
        pvsz_put_share(take, &line, inverter, PVSIZE_KIND_INVERTER, pvsz_tell(1));
    }
}

/* the way of a string's cables */

static double circuit_of(const pvsize_spec *cable)
{
    return pvsz_told_param(cable, PVSIZE_CABLE_CIRCUIT).value;
}

/* A cable of the array's own circuit goes on from one. */
static bool has_combiner(const pvsz_taking *take, const pvsz_subject *array)
{
    for (int32_t at = array->first_cable; at >= 0;) {
        const pvsz_subject *cable = pvsz_subject_at(take, PVSZ_KIND_CABLE, at);

        if (circuit_of(pvsz_part_of(take, cable)) == PVSIZE_CIRCUIT_ARRAY)
            return true;
        at = cable->next_cable;
    }
    return false;
}

/* All cables of its strings are given as of length 0. */
static bool is_plugged(const pvsz_taking *take, const pvsz_subject *array)
{
    bool any = false;

    for (int32_t at = array->first_cable; at >= 0;) {
        const pvsz_subject *cable = pvsz_subject_at(take, PVSZ_KIND_CABLE, at);
        const pvsize_spec *spec = pvsz_part_of(take, cable);
        pvsz_told length = pvsz_told_param(spec, PVSIZE_CABLE_LENGTH);

        at = cable->next_cable;
        if (circuit_of(spec) != PVSIZE_CIRCUIT_STRING)
            continue;
        any = true;
        if (length.missing || length.value > 0)
            return false;
    }
    return any;
}

bool pvsz_plugs_in(const pvsz_taking *take, const pvsz_subject *array)
{
    return is_plugged(take, array) && !has_combiner(take, array);
}

pvsz_told pvsz_runs(const pvsz_taking *take, const pvsz_subject *array)
{
    return has_combiner(take, array) ? pvsz_tell(1) : strings_of(take, array);
}

/* connectors */

static void at_modules(pvsz_taking *take, const pvsz_subject *array)
{
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CONNECTOR_PAIR, module_type(take, array));

    if (!is_plugged(take, array))
        pvsz_put_share(take, &line, array, PVSIZE_ARRAY_STRINGS, strings_of(take, array));
}

static void at_input(pvsz_taking *take, const pvsz_subject *array)
{
    pvsz_bill_row line =
        pvsz_line(PVSIZE_ITEM_CONNECTOR_PAIR, inverter_type(take, array->at[PVSZ_KIND_INVERTER]));
    bool combined = has_combiner(take, array);

    if (!pvsz_plugs_in(take, array))
        pvsz_put_share(take, &line, array, combined ? PVSIZE_CABLE_CIRCUIT : PVSIZE_ARRAY_STRINGS,
                       pvsz_runs(take, array));
}

/* One for each string that comes in by a cable, and one for the run that goes on. */
static void at_combiner(pvsz_taking *take, const pvsz_subject *array)
{
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CONNECTOR_PAIR, -1);
    pvsz_told sides = pvsz_tell(1);

    if (!has_combiner(take, array))
        return;
    if (!is_plugged(take, array)) {
        sides = strings_of(take, array);
        sides.value += sides.missing ? 0 : 1;
    }
    pvsz_put_share(take, &line, array, PVSIZE_CABLE_CIRCUIT,
                   pvsz_times(sides, pvsz_told_figure(take, PVSZ_FIGURE_CONNECTORS_AT_DEVICE)));
}

/* A run enters and leaves. */
static void at_sides(pvsz_taking *take, const pvsz_subject *array, pvsz_told isolators, int32_t why)
{
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CONNECTOR_PAIR, -1);
    pvsz_told sides = pvsz_times(pvsz_tell(2), pvsz_runs(take, array));

    if (!isolators.missing && isolators.value == 0)
        return;
    sides = pvsz_times(isolators, sides);
    pvsz_put_share(take, &line, array, why,
                   pvsz_times(sides, pvsz_told_figure(take, PVSZ_FIGURE_CONNECTORS_AT_DEVICE)));
}

/* At each that is listed for the array, or for its whole input. */
static void at_listed(pvsz_taking *take, const pvsz_subject *array, const pvsz_subject *owner)
{
    for (int32_t at = owner->first_isolator; at >= 0;) {
        const pvsz_subject *isolator = pvsz_subject_at(take, PVSZ_KIND_ISOLATOR, at);

        at_sides(take, array, pvsz_is_outside(take, isolator), PVSIZE_ISOLATOR_PLACE);
        at = isolator->next_isolator;
    }
}

static void at_isolator(pvsz_taking *take, const pvsz_subject *array)
{
    const pvsz_subject *input = pvsz_subject_at(take, PVSZ_KIND_INPUT, array->at[PVSZ_KIND_INPUT]);
    pvsz_isolation isolation = take->isolation[array->at[PVSZ_KIND_INPUT]];

    if (pvsz_plugs_in(take, array))
        return;
    at_sides(take, array, isolation.count, isolation.why);
    at_listed(take, array, input);
    at_listed(take, array, array);
}

void pvsz_take_connectors(pvsz_taking *take)
{
    static void (*const places[])(pvsz_taking *, const pvsz_subject *) = {at_modules, at_input,
                                                                          at_combiner, at_isolator};

    for (int32_t place = 0; place < PVSZ_COUNT(places); place++)
        for (int32_t i = 0; i < arrays_of(take); i++)
            places[place](take, array_at(take, i));
}

void pvsz_take_combiners(pvsz_taking *take)
{
    for (int32_t i = 0; i < arrays_of(take); i++) {
        const pvsz_subject *array = array_at(take, i);
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_COMBINER, -1);

        if (!has_combiner(take, array))
            continue;
        pvsz_with(&line, PVSIZE_ATTRIBUTE_STRINGS, strings_of(take, array));
        pvsz_with(&line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_VOC_COLD));
        pvsz_put_share(take, &line, array, PVSIZE_CABLE_CIRCUIT, pvsz_tell(1));
    }
}
