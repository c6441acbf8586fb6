/* Cables, and the a.c. side: breakers, and what measures the export. */
#include "../wiring/conductor.h"
#include "bill.h"

/* cables */

static pvsz_told insulation_of(const pvsize_spec *cable)
{
    pvsz_told laying = pvsz_told_param(cable, PVSIZE_CABLE_LAYING);

    return laying.missing ? laying : pvsz_tell(pvsz_laying_temp((int32_t)laying.value - 1));
}

static void with_size(pvsz_bill_row *line, const pvsize_spec *cable)
{
    pvsz_told conductor = pvsz_told_param(cable, PVSIZE_CABLE_CONDUCTOR);

    pvsz_with(line, PVSIZE_ATTRIBUTE_CONDUCTOR, conductor);
    if (conductor.value == PVSIZE_CONDUCTOR_AWG)
        pvsz_with(line, PVSIZE_ATTRIBUTE_GAUGE, pvsz_told_param(cable, PVSIZE_CABLE_GAUGE));
    else
        pvsz_with(line, PVSIZE_ATTRIBUTE_SECTION, pvsz_told_param(cable, PVSIZE_CABLE_SECTION));
}

/* Phases, neutral and protective earth; or the two of a d.c. circuit. */
static pvsz_told conductors_of(const pvsz_taking *take, const pvsz_subject *cable, double circuit)
{
    pvsz_told phases = pvsz_tell(0);

    if (circuit == PVSIZE_CIRCUIT_AC)
        phases = pvsz_told_param(pvsz_part_of(take, pvsz_subject_at(take, PVSZ_KIND_INVERTER,
                                                                    cable->at[PVSZ_KIND_INVERTER])),
                                 PVSIZE_INVERTER_PHASES);
    return phases.missing ? phases : pvsz_tell(phases.value + 2);
}

static void take_cable(pvsz_taking *take, const pvsz_subject *cable)
{
    const pvsize_spec *spec = pvsz_part_of(take, cable);
    pvsz_told circuit = pvsz_told_param(spec, PVSIZE_CABLE_CIRCUIT);
    pvsz_told conductors = conductors_of(take, cable, circuit.value);
    pvsz_told metres = pvsz_times(pvsz_told_param(spec, PVSIZE_CABLE_LENGTH), conductors);
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CABLE, -1);

    if (circuit.value == PVSIZE_CIRCUIT_STRING)
        metres = pvsz_times(
            metres, pvsz_told_param(pvsz_part_of(take, pvsz_subject_at(take, PVSZ_KIND_ARRAY,
                                                                       cable->at[PVSZ_KIND_ARRAY])),
                                    PVSIZE_ARRAY_STRINGS));
    pvsz_with(&line, PVSIZE_ATTRIBUTE_CIRCUIT, circuit);
    with_size(&line, spec);
    pvsz_with(&line, PVSIZE_ATTRIBUTE_CONDUCTORS, conductors);
    pvsz_with(&line, PVSIZE_ATTRIBUTE_INSULATION_TEMP, insulation_of(spec));
    pvsz_put_share(take, &line, cable, PVSIZE_CABLE_LENGTH, metres);
}

/* A circuit that no cable of the system is a length of. */
static void take_unknown_cable(pvsz_taking *take, const pvsz_subject *owner, int32_t circuit)
{
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CABLE, -1);

    for (int32_t at = owner->first_cable; at >= 0;) {
        const pvsz_subject *cable = pvsz_subject_at(take, PVSZ_KIND_CABLE, at);

        if (pvsz_told_param(pvsz_part_of(take, cable), PVSIZE_CABLE_CIRCUIT).value == circuit)
            return;
        at = cable->next_cable;
    }
    pvsz_with(&line, PVSIZE_ATTRIBUTE_CIRCUIT, pvsz_tell(circuit));
    pvsz_put_share(take, &line, owner, PVSIZE_KIND_CABLE, pvsz_needs(PVSIZE_CABLE_LENGTH));
}

void pvsz_take_cables(pvsz_taking *take)
{
    const int32_t *count = take->report->design.count;

    for (int32_t i = 0; i < count[PVSZ_KIND_CABLE]; i++)
        take_cable(take, pvsz_subject_at(take, PVSZ_KIND_CABLE, i));
    for (int32_t i = 0; i < count[PVSZ_KIND_ARRAY]; i++)
        take_unknown_cable(take, pvsz_subject_at(take, PVSZ_KIND_ARRAY, i), PVSIZE_CIRCUIT_STRING);
    for (int32_t i = 0; i < count[PVSZ_KIND_INVERTER]; i++)
        take_unknown_cable(take, pvsz_subject_at(take, PVSZ_KIND_INVERTER, i), PVSIZE_CIRCUIT_AC);
}

/* breakers */

void pvsz_take_breakers(pvsz_taking *take)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_INVERTER]; i++) {
        const pvsz_subject *inverter = pvsz_subject_at(take, PVSZ_KIND_INVERTER, i);
        pvsz_told rating = pvsz_told_quantity(take, inverter, PVSZ_QUANTITY_AC_DEVICE_RATING);
        pvsz_told poles = pvsz_told_param(pvsz_part_of(take, inverter), PVSIZE_INVERTER_PHASES);
        pvsz_told neutral = pvsz_told_figure(take, PVSZ_FIGURE_AC_BREAKER_NEUTRAL);
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_AC_BREAKER, -1);

        if (!rating.missing && rating.value == 0) /* no standard rating reaches */
            rating = pvsz_needs(PVSIZE_QUANTITY_AC_DEVICE_RATING);
        if (!poles.missing)
            poles = neutral.missing ? neutral : pvsz_tell(poles.value + neutral.value);
        pvsz_with(&line, PVSIZE_ATTRIBUTE_RATING, rating);
        pvsz_with(&line, PVSIZE_ATTRIBUTE_POLES, poles);
        pvsz_put_share(take, &line, inverter, PVSIZE_QUANTITY_AC_DEVICE_RATING, pvsz_tell(1));
    }
}

/* export control */

/* Without control all may go out: whether the network's limit, if the rule set holds to
 * it, calls for control. */
static pvsz_told export_exceeds(const pvsz_taking *take, const pvsz_subject *site)
{
    const pvsize_spec *spec = pvsz_part_of(take, site);
    pvsz_told limit = pvsz_told_param(spec, PVSIZE_SITE_EXPORT_LIMIT);
    pvsz_told export = pvsz_told_quantity(take, site, PVSZ_QUANTITY_SYSTEM_EXPORT);

    if (!pvsz_calls_for(take, PVSIZE_RULE_EXPORT) ||
        pvsz_spec_states_none(spec, pvsz_term_place(pvsz_term_find(PVSIZE_SITE_EXPORT_LIMIT))))
        return pvsz_tell(0);
    if (limit.missing || export.missing)
        return pvsz_needs(limit.missing ? limit.missing : export.missing);
    return pvsz_tell(!pvsz_at_most(export.value, limit.value));
}

void pvsz_take_export_control(pvsz_taking *take)
{
    const pvsz_subject *site = pvsz_subject_at(take, PVSZ_KIND_SITE, 0);
    const pvsize_spec *spec = pvsz_part_of(take, site);
    int32_t control = (int32_t)pvsz_told_param(spec, PVSIZE_SITE_EXPORT_CONTROL).value;
    pvsz_told phases = pvsz_told_param(spec, PVSIZE_SITE_SUPPLY_PHASES);
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_CURRENT_SENSOR, -1);
    pvsz_told exceeds = export_exceeds(take, site);

    pvsz_note_default(take, site, PVSIZE_SITE_EXPORT_CONTROL);
    if (control == PVSIZE_EXPORT_CONTROL_METER) {
        line = pvsz_line(PVSIZE_ITEM_EXPORT_METER, -1);
        pvsz_with(&line, PVSIZE_ATTRIBUTE_PHASES, phases);
        pvsz_put_share(take, &line, site, PVSIZE_SITE_EXPORT_CONTROL, pvsz_tell(1));
    } else if (control == PVSIZE_EXPORT_CONTROL_CURRENT_SENSOR) {
        pvsz_put_share(take, &line, site, PVSIZE_SITE_EXPORT_CONTROL, phases);
    } else if (!exceeds.missing && exceeds.value > 0) {
        pvsz_put_share(take, &line, site, PVSIZE_RULE_EXPORT, phases);
    } else {
        pvsz_put_share(take, &line, site, PVSIZE_RULE_EXPORT, exceeds);
    }
}
