/* Quantities of a plane and of the whole system, its a.c. side apart. */
#include "calc.h"

void pvsz_of_plane_modules(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_MODULES), "{+n}");
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
    pvsz_result(calc, pvsz_sum_params(calc, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER),
                "{+Pac}");
}

void pvsz_of_system_apparent_power(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_INVERTER, PVSZ_QUANTITY_INVERTER_APPARENT_POWER),
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
