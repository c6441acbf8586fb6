/* Quantities of one inverter. */
#include "calc.h"

void pv_of_inverter_pv_power(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_INPUT, PV_QUANTITY_INPUT_POWER), "{+Pinput}");
}

void pv_of_pv_limit_ratio(pv_calc *calc)
{
    double rated = pv_param(calc, PVSIZE_INVERTER_RATED_AC_POWER);

    pv_result(calc, rated * pv_figure_of(calc, PV_FIGURE_ARRAY_RATIO_MAX), "{Pac} × {rmax}");
}

/* A rule set without a ratio, or a maker without a maximum, leaves the other. */
void pv_of_pv_limit(pv_calc *calc)
{
    bool ratio = pv_has_quantity(calc, PV_QUANTITY_PV_LIMIT_RATIO);
    bool maker = pv_has_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
    double by_ratio, by_maker;

    if (!maker) {
        by_ratio = pv_quantity(calc, PV_QUANTITY_PV_LIMIT_RATIO);
        pv_result(calc, by_ratio, "{Pratio}; the maker states no maximum");
        return;
    }
    if (!ratio) {
        by_maker = pv_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
        pv_result(calc, by_maker, "{Pmaker}; the rule set has no ratio");
        return;
    }
    by_ratio = pv_quantity(calc, PV_QUANTITY_PV_LIMIT_RATIO);
    by_maker = pv_param(calc, PVSIZE_INVERTER_MAX_PV_POWER);
    if (by_ratio <= by_maker)
        pv_result(calc, by_ratio, "min({Pratio}, {Pmaker}); the ratio governs");
    else
        pv_result(calc, by_maker, "min({Pratio}, {Pmaker}); the maker's maximum governs");
}

void pv_of_array_ratio(pv_calc *calc)
{
    double power = pv_quantity(calc, PV_QUANTITY_INVERTER_PV_POWER);

    pv_result(calc, power / pv_param(calc, PVSIZE_INVERTER_RATED_AC_POWER), "{PPV} / {Pac}");
}

void pv_of_inverter_ac_current(pv_calc *calc)
{
    bool apparent = pv_has_param(calc, PVSIZE_INVERTER_RATED_APPARENT_POWER);
    double power = pv_param(calc, apparent ? PVSIZE_INVERTER_RATED_APPARENT_POWER
                                           : PVSIZE_INVERTER_RATED_AC_POWER);
    double phases = pv_param(calc, PVSIZE_INVERTER_PHASES);

    pv_result(calc, power / (phases * pv_param(calc, PVSIZE_INVERTER_AC_VOLTAGE)),
              apparent ? "{Sac} / ({phases} × {Uac})" : "{Pac} / ({phases} × {Uac})");
}
