/* The smallest standard size of a cable that does all that is asked of it. */
#include "cable.h"

/* What the drop of this cable may come to: the limit less that of the others in
 * the same circuit. A rule set without a limit leaves it open. */
static double drop_left(pvsz_calc *calc)
{
    const pvsz_design *design = &calc->report->design;
    int32_t limit = pvsz_cable_is_ac(calc) ? PVSZ_FIGURE_AC_RISE : PVSZ_FIGURE_DC_DROP;
    int32_t kind = pvsz_cable_is_ac(calc) ? PVSZ_KIND_INVERTER : PVSZ_KIND_ARRAY;
    int32_t own = calc->subject->at[PVSZ_KIND_CABLE];
    double left;

    if (!pvsz_has_figure(calc, limit))
        return 100;
    left = calc->report->figure[limit].value;
    for (int32_t at = design->subject[kind][calc->subject->at[kind]].first_cable; at >= 0;
         at = design->subject[PVSZ_KIND_CABLE][at].next_cable) {
        const pvsz_entry *share;

        if (at == own)
            continue;
        share = pvsz_compute_own(calc, PVSZ_QUANTITY_CABLE_DROP_SHARE,
                                 &design->subject[PVSZ_KIND_CABLE][at]);
        if (pvsz_has_value(share))
            left -= share->value;
        else
            pvsz_pass_on(calc, share);
    }
    return left;
}

static double section_of(int32_t conductor, int32_t size)
{
    double section = pvsz_size_section(conductor, size);

    /* circular mils: a thousandth of an inch across */
    return conductor == PVSZ_CONDUCTOR_AWG ? section * 0.000506707479 : section;
}

static const char *smallest_formula(int32_t governs)
{
    switch (governs) {
    case PVSZ_BY_CAPACITY:
        return "{Amin}; the next smaller does not carry the current";
    case PVSZ_BY_DROP:
        return "{Amin}; the next smaller loses too much voltage";
    case PVSZ_BY_NONE_FITS:
        return "{Amin}; no standard size does";
    default:
        return "{Amin}; the smallest that is made";
    }
}

/* Whether a size passes what a rule set asks beside capacity and drop: the table, and
 * the terminals' column, carry the current with factor; the device protects it. A larger size
 * than the one that was measured may be in no row of the table. */
static bool is_allowed(pvsz_calc *calc, const pvsz_duty *duty, int32_t size)
{
    bool asks = pvsz_has_figure(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR);
    double amps = 0;

    if (asks) {
        double asked = calc->report->figure[PVSZ_FIGURE_CABLE_TABLE_FACTOR].value *
                       pvsz_peek_quantity(calc, PVSZ_QUANTITY_CABLE_CURRENT_MAX);

        pvsz_capacity(duty->place.laying, duty->conductor, size, &amps);
        if (pvsz_has_param(calc, PVSIZE_CABLE_TERMINAL_TEMP) && pvsz_cable_has_columns(calc))
            amps = pvsz_cable_terminal_capacity(calc, size);
        if (!pvsz_at_most(asked, amps))
            return false;
    }
    if (!pvsz_cable_has_device(calc))
        return true;
    return pvsz_capacity_in_place(&duty->place, duty->conductor, size, &amps) &&
           pvsz_at_most(pvsz_peek_param(calc, PVSIZE_INVERTER_AC_DEVICE),
                        pvsz_cable_device_limit(calc, size, amps));
}

/* Larger sizes from the one chosen on, until one is allowed. */
static void fit_rules(pvsz_calc *calc, const pvsz_duty *duty, pvsz_choice *choice)
{
    while (choice->size >= 0 && !is_allowed(calc, duty, choice->size)) {
        choice->governs = PVSZ_BY_CAPACITY;
        if (++choice->size >= pvsz_size_count(duty->conductor)) {
            choice->size = -1;
            choice->governs = PVSZ_BY_NONE_FITS;
        }
    }
}

/* All that the search needs; what is missing is told. */
static pvsz_duty duty_of(pvsz_calc *calc)
{
    pvsz_duty duty = {.terminals = PVSZ_NO_TERMINALS};

    duty.conductor = pvsz_cable_conductor(calc);
    duty.place.laying = pvsz_cable_laying(calc);
    duty.place.ambient = pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    duty.place.grouping = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPING) - 1;
    duty.place.grouped = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPED);
    duty.current = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DUTY);
    if (pvsz_has_figure(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR))
        pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CURRENT_MAX);
    duty.run = pvsz_cable_run(calc);
    if (duty.run.cos_phi < 1 && duty.conductor != PVSZ_CONDUCTOR_AWG)
        duty.run.reactance = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_REACTANCE);
    duty.temp = pvsz_cable_temp(calc);
    duty.voltage = pvsz_cable_voltage(calc);
    duty.drop_limit = drop_left(calc);
    if (duty.conductor < 0)
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR);
    if (duty.place.laying < 0)
        pvsz_missing(calc, PVSIZE_CABLE_LAYING);
    pvsz_cable_corrections(calc);
    return duty;
}

void pvsz_of_cable_smallest(pvsz_calc *calc)
{
    pvsz_duty duty = duty_of(calc);
    pvsz_choice choice;

    if (!pvsz_is_open(calc))
        return;
    pvsz_note_anew(calc);       /* the answer is all there is to show */
    if (duty.drop_limit <= 0) { /* the other cables of the circuit take it all */
        pvsz_result(calc, pvsz_literal(calc, 0), smallest_formula(PVSZ_BY_NONE_FITS));
        return;
    }
    choice = pvsz_smallest(&duty);
    fit_rules(calc, &duty, &choice);
    if (choice.governs == PVSZ_BY_NOT_KNOWN) {
        pvsz_missing(calc, PVSIZE_CABLE_LAYING);
        return;
    }
    pvsz_result(calc,
                pvsz_literal(calc, choice.size < 0 ? 0 : section_of(duty.conductor, choice.size)),
                smallest_formula(choice.governs));
}
