/* Quantities of a plane and of the whole system. */
#include "calc.h"

void pv_of_plane_modules(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_ARRAY, PV_QUANTITY_ARRAY_MODULES), "{+n}");
}

void pv_of_system_pv_power(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_INVERTER, PV_QUANTITY_INVERTER_PV_POWER), "{+PPV}");
}

void pv_of_system_modules(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_ARRAY, PV_QUANTITY_ARRAY_MODULES), "{+n}");
}

/* Sum of a rating over the inverters; the second one where the first is not
 * stated. */
static void sum_rating(pv_calc *calc, int32_t term, int32_t instead, const char *formula)
{
    double sum = 0;

    for (const pv_subject *at = pv_first_below(calc, PV_KIND_INVERTER); at;
         at = pv_next_below(calc, PV_KIND_INVERTER, at)) {
        const pvsize_spec *inverter = at->spec[PV_KIND_INVERTER];
        double rating;

        if (!pv_spec_number(inverter, term, &rating)) {
            if (!pv_spec_number(inverter, instead, &rating)) {
                pv_missing(calc, term);
                return;
            }
            if (term != instead)
                pv_assume(calc, term, at, rating);
        }
        sum += rating;
    }
    pv_literal(calc, sum);
    pv_result(calc, sum, formula);
}

void pv_of_system_ac_power(pv_calc *calc)
{
    sum_rating(calc, PVSIZE_INVERTER_RATED_AC_POWER, PVSIZE_INVERTER_RATED_AC_POWER,
               "{ΣPac}; all inverters");
}

void pv_of_system_apparent_power(pv_calc *calc)
{
    sum_rating(calc, PVSIZE_INVERTER_RATED_APPARENT_POWER, PVSIZE_INVERTER_RATED_AC_POWER,
               "{ΣSac}; all inverters");
}

/* With nothing to measure it, all power may go out on a day without load. */
void pv_of_system_export(pv_calc *calc)
{
    double power = pv_quantity(calc, PV_QUANTITY_SYSTEM_AC_POWER);
    double limit;

    if (pv_peek_param(calc, PVSIZE_SITE_EXPORT_CONTROL) == PVSIZE_EXPORT_CONTROL_NONE ||
        !pv_has_param(calc, PVSIZE_SITE_EXPORT_LIMIT)) {
        pv_result(calc, power, "{Pac,total}; no control: a day without load exports all");
        return;
    }
    limit = pv_param(calc, PVSIZE_SITE_EXPORT_LIMIT);
    pv_result(calc, power < limit ? power : limit,
              "min({Pac,total}, {Plimit}); export is measured and held");
}
