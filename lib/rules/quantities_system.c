/* Quantities of a plane, of the site and of the whole system. */
#include "calc.h"

void pvsz_of_plane_modules(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_MODULES), "{+n}");
}

void pvsz_of_site_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}

void pvsz_of_system_pv_power(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_INVERTER, PVSZ_QUANTITY_INVERTER_PV_POWER),
                "{+PPV}");
}

void pvsz_of_system_modules(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_MODULES), "{+n}");
}

void pvsz_of_system_ac_power(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum_params(calc, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 0),
                "{+Pac}");
}

void pvsz_of_system_apparent_power(pvsz_calc *calc)
{
    pvsz_result(calc,
                pvsz_sum_params(calc, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_APPARENT_POWER,
                                PVSIZE_INVERTER_RATED_AC_POWER),
                "{+Sac}");
}

/* With nothing to measure it, all power may go out on a day without load. */
void pvsz_of_system_export(pvsz_calc *calc)
{
    double power = pvsz_quantity(calc, PVSZ_QUANTITY_SYSTEM_AC_POWER);
    double limit;

    if (pvsz_peek_param(calc, PVSIZE_SITE_EXPORT_CONTROL) == PVSIZE_EXPORT_CONTROL_NONE) {
        pvsz_result(calc, power, "{Pac,total}; no control: a day without load exports all");
        return;
    }
    if (!pvsz_has_param(calc, PVSIZE_SITE_EXPORT_LIMIT)) {
        pvsz_result(calc, power, "{Pac,total}; no limit is known to hold it to");
        return;
    }
    limit = pvsz_param(calc, PVSIZE_SITE_EXPORT_LIMIT);
    pvsz_result(calc, power < limit ? power : limit,
                "min({Pac,total}, {Plimit}); export is measured and held");
}

/* Of all inverters on the busbar, at the end opposite to the supply. */
void pvsz_of_busbar_load(pvsz_calc *calc)
{
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_BUSBAR_FACTOR);
    double currents = 0;

    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_INVERTER); at;
         at = pvsz_next_below(calc, PVSZ_KIND_INVERTER, at)) {
        int32_t entry = pvsz_compute(calc->report, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX, at);

        if (entry < 0 || calc->report->entry[entry].state != PVSZ_VALUE) {
            pvsz_missing(calc, PVSIZE_INVERTER_MAX_AC_CURRENT);
            return;
        }
        currents += calc->report->entry[entry].value;
    }
    pvsz_literal(calc, currents);
    pvsz_result(calc, factor * currents + pvsz_param(calc, PVSIZE_SITE_BUSBAR_DEVICE),
                "{kbus} × {ΣIac} + {device}");
}

void pvsz_of_busbar_limit(pvsz_calc *calc)
{
    double rating = pvsz_param(calc, PVSIZE_SITE_BUSBAR_RATING);

    pvsz_result(calc, rating * pvsz_figure_of(calc, PVSZ_FIGURE_BUSBAR_SHARE), "{B} × {sbus}");
}
