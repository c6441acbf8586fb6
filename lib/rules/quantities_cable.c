/* Cables: resistance, drop and rise, capacity, and the current they must carry. */
#include "../wiring/conductor.h"
#include "calc.h"

static int32_t circuit_of(const pvsz_calc *calc)
{
    double circuit = 0;

    pvsz_spec_number(calc->subject->spec[PVSZ_KIND_CABLE], PVSIZE_CABLE_CIRCUIT, &circuit);
    return (int32_t)circuit;
}

static int32_t conductor_of(pvsz_calc *calc)
{
    return (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_CONDUCTOR) - 1;
}

/* AWG count down to 1, then 1/0 (0) to 4/0 (-3): place in the list of sizes. */
static int32_t size_of_gauge(int32_t gauge)
{
    static const int32_t gauges[] = {14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3};

    for (int32_t i = 0; i < PVSZ_COUNT(gauges); i++)
        if (gauges[i] == gauge)
            return i;
    return -1;
}

/* Place of the cable's size among those of its conductor; -1 and missing where
 * none is given, or no such size is made. */
static int32_t size_of(pvsz_calc *calc)
{
    int32_t conductor = conductor_of(calc), size;
    int32_t term = conductor == PVSZ_CONDUCTOR_AWG ? PVSIZE_CABLE_GAUGE : PVSIZE_CABLE_SECTION;

    if (conductor < 0) {
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR);
        return -1;
    }
    if (!pvsz_has_param(calc, term)) {
        pvsz_missing(calc, term);
        return -1;
    }
    size = conductor == PVSZ_CONDUCTOR_AWG
               ? size_of_gauge((int32_t)pvsz_peek_param(calc, term))
               : pvsz_size_of_section(conductor, pvsz_peek_param(calc, term));
    if (size < 0)
        pvsz_missing(calc, term);
    return size;
}

static int32_t laying_of(pvsz_calc *calc)
{
    return (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_LAYING) - 1;
}

/* As given, else the highest that the laying allows; 0 where neither is known. */
static double conductor_temp(pvsz_calc *calc)
{
    return pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP)
               ? pvsz_peek_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP)
               : pvsz_laying_temp(laying_of(calc));
}

/* resistance and drop */

void pvsz_of_cable_resistance(pvsz_calc *calc)
{
    int32_t size = size_of(calc);
    double temp = conductor_temp(calc), ohm = 0;

    if (size < 0)
        return;
    if (!pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP) && temp > 0)
        pvsz_assume(calc, PVSIZE_CABLE_CONDUCTOR_TEMP, calc->subject, temp);
    else if (!pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP))
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR_TEMP);
    if (!pvsz_resistance(conductor_of(calc), size, temp, &ohm)) {
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR_TEMP);
        return;
    }
    pvsz_literal(calc, ohm);
    pvsz_literal(calc, temp);
    pvsz_result(calc, ohm, "{R}; table of the conductor, at {T} °C");
}

void pvsz_of_inverter_ac_current_max(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_INVERTER_MAX_AC_CURRENT))
        pvsz_result(calc, pvsz_param(calc, PVSIZE_INVERTER_MAX_AC_CURRENT), "{Imax}");
    else
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT), "{Iac}");
}

void pvsz_of_cable_current(pvsz_calc *calc)
{
    switch (circuit_of(calc)) {
    case PVSIZE_CIRCUIT_STRING:
        pvsz_result(calc, pvsz_param(calc, PVSIZE_MODULE_IMP), "{Imp}");
        return;
    case PVSIZE_CIRCUIT_ARRAY:
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_IMP), "{Iop}");
        return;
    case PVSIZE_CIRCUIT_AC:
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX), "{Iac,max}");
        return;
    default:
        pvsz_missing(calc, PVSIZE_CABLE_CIRCUIT);
    }
}

static bool is_three_phase(pvsz_calc *calc)
{
    return circuit_of(calc) == PVSIZE_CIRCUIT_AC &&
           pvsz_peek_param(calc, PVSIZE_INVERTER_PHASES) == 3;
}

/* Length and current, noted in this order; the resistance is not known yet. */
static pvsz_run run_of(pvsz_calc *calc)
{
    pvsz_run run = {.cos_phi = 1};

    run.circuit = is_three_phase(calc) ? PVSZ_CIRCUIT_THREE_PHASE : PVSZ_CIRCUIT_DC;
    run.length = pvsz_param(calc, PVSIZE_CABLE_LENGTH);
    run.current = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CURRENT);
    return run;
}

/* Between the two conductors, or between lines; noted without the sqrt(3). */
static double circuit_voltage(pvsz_calc *calc)
{
    double voltage;

    if (circuit_of(calc) == PVSIZE_CIRCUIT_AC) {
        voltage = pvsz_param(calc, PVSIZE_INVERTER_AC_VOLTAGE);
        return is_three_phase(calc) ? voltage * 1.7320508075688772 : voltage;
    }
    voltage = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    return voltage * pvsz_param(calc, PVSIZE_MODULE_VMP);
}

void pvsz_of_cable_drop(pvsz_calc *calc)
{
    pvsz_run run = run_of(calc);

    run.resistance = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_RESISTANCE);
    if (circuit_of(calc) == PVSIZE_CIRCUIT_AC && !pvsz_has_param(calc, PVSIZE_INVERTER_PHASES))
        pvsz_missing(calc, PVSIZE_INVERTER_PHASES);
    pvsz_result(calc, pvsz_drop(&run),
                is_three_phase(calc) ? "sqrt(3) × {L} × {I} × {R} / 1000; between lines, cos φ 1"
                                     : "2 × {L} × {I} × {R} / 1000");
}

void pvsz_of_cable_drop_share(pvsz_calc *calc)
{
    double drop = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DROP);
    double share = pvsz_drop_percent(drop, circuit_voltage(calc));

    if (circuit_of(calc) != PVSIZE_CIRCUIT_AC)
        pvsz_result(calc, share, "{ΔU} / ({N} × {Vmp}) × 100");
    else
        pvsz_result(calc, share,
                    is_three_phase(calc) ? "{ΔU} / (sqrt(3) × {Uac}) × 100" : "{ΔU} / {Uac} × 100");
}

static void sum_shares(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_CABLE, PVSZ_QUANTITY_CABLE_DROP_SHARE), "{+Δu}");
}

void pvsz_of_array_dc_drop(pvsz_calc *calc)
{
    sum_shares(calc);
}

void pvsz_of_inverter_ac_rise(pvsz_calc *calc)
{
    sum_shares(calc);
}

/* capacity */

void pvsz_of_cable_table_capacity(pvsz_calc *calc)
{
    int32_t size = size_of(calc);
    int32_t laying = laying_of(calc);
    int32_t known;
    double amps = 0;

    if (size < 0)
        return;
    known = laying < 0 ? 0 : pvsz_capacity(laying, conductor_of(calc), size, &amps);
    if (!known) {
        pvsz_missing(calc, PVSIZE_CABLE_LAYING);
        return;
    }
    pvsz_result(calc, pvsz_literal(calc, amps),
                known == PVSIZE_KNOWN_READ ? "{Itab}; table of the laying, read in a source"
                : known == PVSIZE_KNOWN_MEMORY
                    ? "{Itab}; table of the laying, from memory"
                    : "{Itab}; table of the laying, from memory, uncertain");
}

void pvsz_of_cable_capacity(pvsz_calc *calc)
{
    double table = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_TABLE_CAPACITY);
    double ambient = pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    int32_t laying = laying_of(calc);
    int32_t grouping = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPING) - 1;
    double by_ambient = 0, by_grouping = 0;

    if (!pvsz_is_open(calc))
        return;
    if (!pvsz_ambient_factor(pvsz_laying_ambient(laying), ambient, &by_ambient)) {
        pvsz_missing(calc, PVSIZE_CABLE_AMBIENT);
        return;
    }
    if (!pvsz_grouping_factor(grouping, (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPED),
                              &by_grouping)) {
        pvsz_missing(calc, PVSIZE_CABLE_GROUPED);
        return;
    }
    pvsz_note_anew(calc); /* the factors stand in the formula, the ambient in the remark */
    pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_TABLE_CAPACITY);
    pvsz_literal(calc, by_ambient);
    pvsz_literal(calc, by_grouping);
    pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    pvsz_result(calc, table * by_ambient * by_grouping,
                "{Itab} × {kambient} × {kgrouping}; at {Ta}");
}

/* what it must carry */

/* What a device lets through, and past it what the others of its group drive. */
static void protected_duty(pvsz_calc *calc)
{
    double device = pvsz_param(calc, PVSIZE_ARRAY_STRING_DEVICE);
    double factor, others, correction;

    if (pvsz_peek_param(calc, PVSIZE_ARRAY_STRINGS_PER_DEVICE) == 1) {
        pvsz_result(calc, device, "{In}; of its device");
        return;
    }
    factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    others = pvsz_param(calc, PVSIZE_ARRAY_STRINGS_PER_DEVICE) - 1;
    correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    pvsz_result(calc, device + factor * others * correction * pvsz_param(calc, PVSIZE_MODULE_ISC),
                "{In} + {kI} × ({Sg} - 1) × {Kcorr} × {Isc}");
}

/* A string's cable without a device carries what its own string can drive, or
 * what all others drive into it at a fault. */
static void string_duty(pvsz_calc *calc)
{
    double own, factor, all, correction, isc, others;

    if (pvsz_has_param(calc, PVSIZE_ARRAY_STRING_DEVICE)) {
        protected_duty(calc);
        return;
    }
    own = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_ISC_MAX);
    factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    all = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC);
    correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    others = factor * (all - correction * isc);
    pvsz_result(calc, own > others ? own : others,
                "max({Isc,max,string}, {kI} × ({Isc,input} - {Kcorr} × {Isc}))");
}

/* The cable of one array among several on an input: its own, or what the others
 * drive into it. */
static void array_duty(pvsz_calc *calc)
{
    double own = pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC_MAX);
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    double all = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC);
    double others = factor * (all - pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC));

    pvsz_result(calc, own > others ? own : others,
                "max({Isc,max}, {kI} × ({Isc,input} - {Isc,array}))");
}

void pvsz_of_cable_duty(pvsz_calc *calc)
{
    switch (circuit_of(calc)) {
    case PVSIZE_CIRCUIT_STRING:
        string_duty(calc);
        return;
    case PVSIZE_CIRCUIT_ARRAY:
        array_duty(calc);
        return;
    case PVSIZE_CIRCUIT_AC:
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX), "{Iac,max}");
        return;
    default:
        pvsz_missing(calc, PVSIZE_CABLE_CIRCUIT);
    }
}

/* A rule set without such a factor does not ask. */
void pvsz_of_cable_table_duty(pvsz_calc *calc)
{
    if (!pvsz_has_figure(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR)) {
        pvsz_nothing(calc);
        return;
    }
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR);

    pvsz_result(calc, factor * pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DUTY), "{ktab} × {Ib}");
}

void pvsz_of_cable_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}

/* the smallest size */

/* What the drop of this cable may come to: the limit less that of the others in
 * the same circuit. A rule set without a limit leaves it open. */
static double drop_left(pvsz_calc *calc)
{
    bool is_ac = circuit_of(calc) == PVSIZE_CIRCUIT_AC;
    int32_t limit = is_ac ? PVSZ_FIGURE_AC_RISE : PVSZ_FIGURE_DC_DROP;
    int32_t all = is_ac ? PVSZ_QUANTITY_INVERTER_AC_RISE : PVSZ_QUANTITY_ARRAY_DC_DROP;
    double total = pvsz_quantity(calc, all);
    double own = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DROP_SHARE);

    return pvsz_has_figure(calc, limit) ? calc->report->figure[limit].value - (total - own) : 100;
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

/* Where the rule set asks for it, the table itself must carry the current with
 * factor: larger sizes from this one on, until one does. */
static void fit_table(pvsz_calc *calc, const pvsz_duty *duty, pvsz_choice *choice)
{
    double asked, amps;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR))
        return;
    asked = calc->report->figure[PVSZ_FIGURE_CABLE_TABLE_FACTOR].value * duty->current;
    while (choice->size >= 0) {
        if (pvsz_capacity(duty->place.laying, duty->conductor, choice->size, &amps) &&
            pvsz_at_most(asked, amps))
            return;
        choice->governs = PVSZ_BY_CAPACITY;
        if (++choice->size >= pvsz_size_count(duty->conductor)) {
            choice->size = -1;
            choice->governs = PVSZ_BY_NONE_FITS;
        }
    }
}

void pvsz_of_cable_smallest(pvsz_calc *calc)
{
    pvsz_duty duty = {.terminals = PVSZ_NO_TERMINALS};
    pvsz_choice choice;

    duty.conductor = conductor_of(calc);
    duty.place.laying = laying_of(calc);
    duty.place.ambient = pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    duty.place.grouping = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPING) - 1;
    duty.place.grouped = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPED);
    duty.current = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DUTY);
    duty.run = run_of(calc);
    duty.temp = conductor_temp(calc);
    pvsz_note_anew(calc); /* the answer comes first, and is all there is to show */
    duty.voltage = circuit_voltage(calc);
    duty.drop_limit = drop_left(calc);
    if (!pvsz_is_open(calc))
        return;
    if (duty.drop_limit <= 0) { /* the other cables of the circuit take it all */
        pvsz_result(calc, pvsz_literal(calc, 0), smallest_formula(PVSZ_BY_NONE_FITS));
        return;
    }
    choice = pvsz_smallest(&duty);
    fit_table(calc, &duty, &choice);
    if (choice.governs == PVSZ_BY_NOT_KNOWN) {
        pvsz_missing(calc, PVSIZE_CABLE_LAYING);
        return;
    }
    pvsz_note_anew(calc);
    pvsz_result(calc,
                pvsz_literal(calc, choice.size < 0 ? 0 : section_of(duty.conductor, choice.size)),
                smallest_formula(choice.governs));
}
