/* Cables: which one, resistance and reactance, drop and rise. */
#include "cable.h"

int32_t pvsz_cable_circuit(const pvsz_calc *calc)
{
    double circuit = 0;

    pvsz_spec_number(calc->subject->spec[PVSZ_KIND_CABLE], PVSIZE_CABLE_CIRCUIT, &circuit);
    return (int32_t)circuit;
}

int32_t pvsz_cable_conductor(pvsz_calc *calc)
{
    return (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_CONDUCTOR) - 1;
}

/* Place of the cable's size among those of its conductor; -1 and missing where
 * none is given, or no such size is made. */
int32_t pvsz_cable_size(pvsz_calc *calc)
{
    int32_t conductor = pvsz_cable_conductor(calc), size;
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
               ? pvsz_size_of_gauge((int32_t)pvsz_peek_param(calc, term))
               : pvsz_size_of_section(conductor, pvsz_peek_param(calc, term));
    if (size < 0)
        pvsz_missing(calc, term);
    return size;
}

int32_t pvsz_cable_laying(pvsz_calc *calc)
{
    return (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_LAYING) - 1;
}

/* As given, else the highest that the laying allows; 0 where neither is known. */
double pvsz_cable_temp(pvsz_calc *calc)
{
    return pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP)
               ? pvsz_peek_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP)
               : pvsz_laying_temp(pvsz_cable_laying(calc));
}

/* resistance and drop */

void pvsz_of_cable_resistance(pvsz_calc *calc)
{
    int32_t size = pvsz_cable_size(calc);
    double temp = pvsz_cable_temp(calc), ohm = 0;

    if (size < 0)
        return;
    if (!pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP) && temp > 0)
        pvsz_assume(calc, PVSIZE_CABLE_CONDUCTOR_TEMP, calc->subject, temp);
    else if (!pvsz_has_param(calc, PVSIZE_CABLE_CONDUCTOR_TEMP))
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR_TEMP);
    /* every size that is found has a row, and the parameter a narrower range than the law */
    pvsz_resistance(pvsz_cable_conductor(calc), size, temp, &ohm);
    pvsz_literal(calc, ohm);
    pvsz_literal(calc, temp);
    pvsz_result(calc, ohm, "{R}; table of the conductor, at {T}");
}

void pvsz_of_inverter_ac_current_max(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_INVERTER_MAX_AC_CURRENT))
        pvsz_result(calc, pvsz_param(calc, PVSIZE_INVERTER_MAX_AC_CURRENT), "{Imax}");
    else
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT), "{Iac}");
}

void pvsz_by_circuit(pvsz_calc *calc, pvsz_quantity_function *of_string,
                     pvsz_quantity_function *of_array, pvsz_quantity_function *of_ac)
{
    switch (pvsz_cable_circuit(calc)) { /* a design takes no cable without one of these three */
    case PVSIZE_CIRCUIT_STRING:
        of_string(calc);
        return;
    case PVSIZE_CIRCUIT_ARRAY:
        of_array(calc);
        return;
    default:
        of_ac(calc);
    }
}

void pvsz_cable_ac_current(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX), "{Iac,max}");
}

static void string_current(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_param(calc, PVSIZE_MODULE_IMP), "{Imp}");
}

static void array_current(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_IMP), "{Iop}");
}

void pvsz_of_cable_current(pvsz_calc *calc)
{
    pvsz_by_circuit(calc, string_current, array_current, pvsz_cable_ac_current);
}

bool pvsz_cable_is_ac(const pvsz_calc *calc)
{
    return pvsz_cable_circuit(calc) == PVSIZE_CIRCUIT_AC;
}

/* Of its run: PVSZ_CIRCUIT_... */
static int32_t circuit_of(pvsz_calc *calc)
{
    return pvsz_cable_is_ac(calc) ? pvsz_ac_circuit(pvsz_peek_param(calc, PVSIZE_INVERTER_PHASES))
                                  : PVSZ_CIRCUIT_DC;
}

static bool is_three_phase(pvsz_calc *calc)
{
    return circuit_of(calc) == PVSZ_CIRCUIT_THREE_PHASE;
}

static double cos_phi_of(pvsz_calc *calc)
{
    return pvsz_cable_is_ac(calc) ? pvsz_peek_param(calc, PVSIZE_INVERTER_COS_PHI) : 1;
}

/* At a power factor of 1 it does not count. */
void pvsz_of_cable_reactance(pvsz_calc *calc)
{
    double ohm = 0;
    int32_t size;

    if (cos_phi_of(calc) >= 1) {
        pvsz_nothing(calc);
        return;
    }
    if (pvsz_cable_conductor(calc) < 0)
        pvsz_missing(calc, PVSIZE_CABLE_CONDUCTOR);
    if (pvsz_cable_conductor(calc) == PVSZ_CONDUCTOR_AWG) {
        size = pvsz_cable_size(calc);
        pvsz_reactance(pvsz_cable_conductor(calc), size, &ohm); /* known of every size */
        pvsz_result(calc, pvsz_literal(calc, ohm), "{X}; table of the conductor");
        return;
    }
    pvsz_result(calc, pvsz_param(calc, PVSIZE_CABLE_REACTANCE), "{X}");
}

/* Length and current, noted in this order; resistance and reactance are not known
 * yet. */
pvsz_run pvsz_cable_run(pvsz_calc *calc)
{
    pvsz_run run = {.circuit = circuit_of(calc), .cos_phi = cos_phi_of(calc)};

    run.length = pvsz_param(calc, PVSIZE_CABLE_LENGTH);
    run.current = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CURRENT);
    if (pvsz_cable_is_ac(calc) && !pvsz_has_param(calc, PVSIZE_INVERTER_PHASES))
        pvsz_missing(calc, PVSIZE_INVERTER_PHASES);
    return run;
}

/* Between the two conductors, or between lines; noted without the sqrt(3). */
double pvsz_cable_voltage(pvsz_calc *calc)
{
    double voltage;

    if (pvsz_cable_is_ac(calc))
        return pvsz_ac_voltage(circuit_of(calc), pvsz_param(calc, PVSIZE_INVERTER_AC_VOLTAGE));
    voltage = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    return voltage * pvsz_param(calc, PVSIZE_MODULE_VMP);
}

void pvsz_of_cable_drop(pvsz_calc *calc)
{
    pvsz_run run = pvsz_cable_run(calc);

    run.resistance = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_RESISTANCE);
    if (run.cos_phi >= 1) {
        pvsz_result(calc, pvsz_drop(&run),
                    is_three_phase(calc)
                        ? "sqrt(3) × {L} × {I} × {R} / 1000; between lines, cos φ 1"
                        : "2 × {L} × {I} × {R} / 1000");
        return;
    }
    pvsz_param(calc, PVSIZE_INVERTER_COS_PHI);
    run.reactance = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_REACTANCE);
    pvsz_result(calc, pvsz_drop(&run),
                is_three_phase(calc)
                    ? "sqrt(3) × {L} × {I} × ({R} × {cosφ} + {X} × sqrt(1 - {cosφ} × {cosφ})) / "
                      "1000; between lines"
                    : "2 × {L} × {I} × ({R} × {cosφ} + {X} × sqrt(1 - {cosφ} × {cosφ})) / 1000");
}

void pvsz_of_cable_drop_share(pvsz_calc *calc)
{
    double drop = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_DROP);
    double share = pvsz_drop_percent(drop, pvsz_cable_voltage(calc));

    if (pvsz_cable_circuit(calc) != PVSIZE_CIRCUIT_AC)
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
