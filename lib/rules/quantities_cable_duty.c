/* Cables: the current that they must carry, in operation and at a fault. */
#include "cable.h"

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

/* Of a string behind the array's device: what that lets through from the other
 * arrays, and what the other strings of its own drive. IEC 62548 table 5. */
static void behind_array_device(pvsz_calc *calc)
{
    double own = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_ISC_MAX);
    double device = pvsz_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE);
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    double array = pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC);
    double correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    double isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    double others = device + factor * pvsz_subtract(array, correction * isc);

    pvsz_result(calc, own > others ? own : others,
                "max({Isc,max,string}, {In} + {kI} × ({Isc,array} - {Kcorr} × {Isc}))");
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
    if (pvsz_has_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE)) {
        behind_array_device(calc);
        return;
    }
    own = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_ISC_MAX);
    factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    all = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC);
    correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    others = factor * pvsz_subtract(all, correction * isc);
    pvsz_result(calc, own > others ? own : others,
                "max({Isc,max,string}, {kI} × ({Isc,input} - {Kcorr} × {Isc}))");
}

/* The cable of one array among several on an input: what its device lets through,
 * else its own, or what the others drive into it. */
static void array_duty(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE)) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE), "{In}; of its device");
        return;
    }
    double own = pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC_MAX);
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);
    double all = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC);
    double others = factor * pvsz_subtract(all, pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC));

    pvsz_result(calc, own > others ? own : others,
                "max({Isc,max}, {kI} × ({Isc,input} - {Isc,array}))");
}

/* Ib at most In at most Iz, but where the device may have the next rating. */
static void ac_duty(pvsz_calc *calc)
{
    double current = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX);
    double device;

    if (!pvsz_cable_has_device(calc) || pvsz_is_yes(calc, PVSZ_FIGURE_AC_NEXT_RATING)) {
        pvsz_result(calc, current, "{Iac,max}");
        return;
    }
    device = pvsz_param(calc, PVSIZE_INVERTER_AC_DEVICE);
    pvsz_result(calc, device > current ? device : current, "max({Iac,max}, {In})");
}

void pvsz_of_cable_duty(pvsz_calc *calc)
{
    pvsz_by_circuit(calc, string_duty, array_duty, ac_duty);
}

static void string_current_max(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_STRING_ISC_MAX), "{Isc,max,string}");
}

static void array_current_max(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC_MAX), "{Isc,max}");
}

void pvsz_of_cable_current_max(pvsz_calc *calc)
{
    pvsz_by_circuit(calc, string_current_max, array_current_max, pvsz_cable_ac_current);
}

/* A rule set without such a factor does not ask. */
void pvsz_of_cable_table_duty(pvsz_calc *calc)
{
    if (!pvsz_has_figure(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR)) {
        pvsz_nothing(calc);
        return;
    }
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_CABLE_TABLE_FACTOR);

    pvsz_result(calc, factor * pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CURRENT_MAX),
                "{ktab} × {Imax}");
}

void pvsz_of_cable_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}
