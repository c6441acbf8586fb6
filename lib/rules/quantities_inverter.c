/* Quantities of one inverter. */
#include "../wiring/ratings.h"
#include "calc.h"

void pvsz_of_inverter_pv_power(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_INPUT, PVSZ_QUANTITY_INPUT_POWER), "{+Pinput}");
}

void pvsz_of_pv_limit_ratio(pvsz_calc *calc)
{
    double rated = pvsz_param(calc, PVSIZE_INVERTER_RATED_AC_POWER);

    pvsz_result(calc, rated * pvsz_figure_of(calc, PVSZ_FIGURE_ARRAY_RATIO_MAX), "{Pac} × {rmax}");
}

/* A rule set without a ratio, or a maker without a maximum, leaves the other. */
void pvsz_of_pv_limit(pvsz_calc *calc)
{
    bool ratio = pvsz_has_figure(calc, PVSZ_FIGURE_ARRAY_RATIO_MAX);
    bool maker = pvsz_has_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
    double by_ratio, by_maker;

    if (!maker) {
        by_ratio = pvsz_quantity(calc, PVSZ_QUANTITY_PV_LIMIT_RATIO);
        pvsz_result(calc, by_ratio, "{Pratio}; the maker states no maximum");
        return;
    }
    if (!ratio) {
        by_maker = pvsz_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
        pvsz_result(calc, by_maker, "{Pmaker}; the rule set has no ratio");
        return;
    }
    by_ratio = pvsz_quantity(calc, PVSZ_QUANTITY_PV_LIMIT_RATIO);
    by_maker = pvsz_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
    if (by_ratio <= by_maker)
        pvsz_result(calc, by_ratio, "min({Pratio}, {Pmaker}); the ratio governs");
    else
        pvsz_result(calc, by_maker, "min({Pratio}, {Pmaker}); the maker's maximum governs");
}

void pvsz_of_array_ratio(pvsz_calc *calc)
{
    double power = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_PV_POWER);

    pvsz_result(calc, power / pvsz_param(calc, PVSIZE_INVERTER_RATED_AC_POWER), "{PPV} / {Pac}");
}

void pvsz_of_inverter_apparent_power(pvsz_calc *calc)
{
    double power, apparent;

    if (pvsz_has_param(calc, PVSIZE_INVERTER_RATED_APPARENT_POWER)) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_INVERTER_RATED_APPARENT_POWER), "{Sac}");
        return;
    }
    power = pvsz_param(calc, PVSIZE_INVERTER_RATED_AC_POWER);
    apparent = power / pvsz_param(calc, PVSIZE_INVERTER_COS_PHI);
    if (pvsz_is_open(calc))
        pvsz_assume(calc, PVSIZE_INVERTER_RATED_APPARENT_POWER, calc->subject, apparent);
    pvsz_result(calc, apparent, "{Pac} / {cosφ}");
}

void pvsz_of_inverter_ac_current(pvsz_calc *calc)
{
    double power = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_APPARENT_POWER);
    double phases = pvsz_param(calc, PVSIZE_INVERTER_PHASES);

    pvsz_result(calc, power / (phases * pvsz_param(calc, PVSIZE_INVERTER_AC_VOLTAGE)),
                "{Sac} / ({phases} × {Uac})");
}

void pvsz_of_inverter_ac_current_stated(pvsz_calc *calc)
{
    double stated = pvsz_param(calc, PVSIZE_INVERTER_MAX_AC_CURRENT);
    double tolerance = pvsz_figure_of(calc, PVSZ_FIGURE_DATA_CURRENT_TOLERANCE);

    pvsz_result(calc, stated * (1 + tolerance / 100), "{Imax} × (1 + {tolI} / 100)");
}

void pvsz_of_inverter_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}

void pvsz_of_supply_deviation(pvsz_calc *calc)
{
    double inverter = pvsz_param(calc, PVSIZE_INVERTER_AC_VOLTAGE);
    double supply = pvsz_param(calc, PVSIZE_SITE_SUPPLY_VOLTAGE);
    double difference = pvsz_subtract(inverter, supply);

    pvsz_result(calc, (difference < 0 ? -difference : difference) / supply * 100,
                "abs({Uac} - {Usupply}) / {Usupply} × 100");
}

/* a.c. side */

void pvsz_of_inverter_terminal_voltage(pvsz_calc *calc)
{
    double rise = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_RISE); /* none without cables */
    double nominal = pvsz_param(calc, PVSIZE_INVERTER_AC_VOLTAGE);
    double supply = pvsz_param(calc, PVSIZE_SITE_SUPPLY_VOLTAGE_HIGHEST);

    pvsz_result(calc, rise / 100 * nominal + supply, "{ΔUac} / 100 × {Uac} + {Usupply}");
}

void pvsz_of_inverter_phase_power(pvsz_calc *calc)
{
    double power = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_APPARENT_POWER);

    pvsz_result(calc, power / pvsz_param(calc, PVSIZE_INVERTER_PHASES), "{Sac} / {phases}");
}

void pvsz_of_ac_device_rating(pvsz_calc *calc)
{
    double current = pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX);
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_AC_DEVICE_FACTOR);
    int32_t series = (int32_t)pvsz_figure_of(calc, PVSZ_FIGURE_AC_DEVICE_SERIES);
    double rating = 0;
    bool fits = pvsz_smallest_rating(series, current * factor, false, 1e6, &rating);

    pvsz_note_anew(calc); /* the rating comes first in the formula */
    pvsz_literal(calc, rating);
    pvsz_figure_of(calc, PVSZ_FIGURE_AC_DEVICE_FACTOR);
    pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX);
    pvsz_result(calc, rating,
                fits ? "{In}; smallest standard one from {kac} x {Iac,max}"
                     : "{In}; no standard rating from {kac} x {Iac,max}");
}

/* Of interest where a device is stated; which one to buy says ac_device_rating. */
void pvsz_of_ac_device_duty(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_INVERTER_AC_DEVICE)) {
        pvsz_nothing(calc);
        return;
    }
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_AC_DEVICE_FACTOR);

    pvsz_result(calc, factor * pvsz_quantity(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX),
                "{kac} × {Iac,max}");
}
