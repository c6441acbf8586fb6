/* Quantities of the strings of one array. */
#include "../physics/temperature.h"
#include "calc.h"

/* temperatures and one module */

void pv_of_cell_temp_hot(pv_calc *calc)
{
    static const int32_t rise_of[] = {
        [PVSIZE_MOUNTING_OPEN_RACK] = PV_FIGURE_CELL_RISE_OPEN_RACK,
        [PVSIZE_MOUNTING_RAISED] = PV_FIGURE_CELL_RISE_RAISED,
        [PVSIZE_MOUNTING_CLOSE] = PV_FIGURE_CELL_RISE_CLOSE,
        [PVSIZE_MOUNTING_INTEGRATED] = PV_FIGURE_CELL_RISE_INTEGRATED,
    };
    double ambient = pv_param(calc, PVSIZE_SITE_TEMP_MAX);
    double rise = 0;

    if (pv_has_param(calc, PVSIZE_PLANE_CELL_RISE))
        rise = pv_param(calc, PVSIZE_PLANE_CELL_RISE);
    else if (pv_has_param(calc, PVSIZE_PLANE_MOUNTING))
        rise = pv_figure_of(calc, rise_of[(int32_t)pv_peek_param(calc, PVSIZE_PLANE_MOUNTING)]);
    else
        pv_missing(calc, PVSIZE_PLANE_MOUNTING);
    pv_result(calc, ambient + rise, "{Tmax} + {ΔT}");
}

/* The maker's coefficient first; else the table, for crystalline silicon and
 * where the rule set allows it; else the rule set's fixed factor. */
void pv_of_module_voc_cold(pv_calc *calc)
{
    double voc = pv_param(calc, PVSIZE_MODULE_VOC);
    double factor;

    if (pv_has_quantity(calc, PV_QUANTITY_MODULE_VOC_COEFFICIENT)) {
        double coefficient = pv_quantity(calc, PV_QUANTITY_MODULE_VOC_COEFFICIENT);
        double temp = pv_param(calc, PVSIZE_SITE_TEMP_MIN);

        pv_result(calc, pv_voltage_at(voc, coefficient, temp),
                  "{Voc} × (1 + {βVoc} / 100 × ({Tmin} - 25))");
    } else if (pv_has_figure(calc, PV_FIGURE_VOC_TABLE) &&
               calc->report->figure[PV_FIGURE_VOC_TABLE].value == 1 &&
               pv_peek_param(calc, PVSIZE_MODULE_CELL) == PVSIZE_CELL_CRYSTALLINE_SILICON &&
               pv_has_param(calc, PVSIZE_SITE_TEMP_MIN) &&
               pv_voc_factor(pv_peek_param(calc, PVSIZE_SITE_TEMP_MIN), &factor)) {
        pv_literal(calc, factor);
        pv_param(calc, PVSIZE_SITE_TEMP_MIN);
        pv_result(calc, voc * factor, "{Voc} × {M}; M: correction table, row of {Tmin}");
    } else if (pv_has_figure(calc, PV_FIGURE_VOC_MULTIPLIER)) {
        pv_result(calc, voc * pv_figure_of(calc, PV_FIGURE_VOC_MULTIPLIER), "{Voc} × {kU}");
    } else {
        pv_missing(calc, pv_has_param(calc, PVSIZE_SITE_TEMP_MIN) ? PVSIZE_MODULE_VOC_COEFFICIENT
                                                                  : PVSIZE_SITE_TEMP_MIN);
    }
}

void pv_of_module_vmp_hot(pv_calc *calc)
{
    double vmp = pv_param(calc, PVSIZE_MODULE_VMP);
    double coefficient = pv_quantity(calc, PV_QUANTITY_MODULE_VMP_COEFFICIENT);
    double temp = pv_quantity(calc, PV_QUANTITY_CELL_TEMP_HOT);

    pv_result(calc, pv_voltage_at(vmp, coefficient, temp),
              "{Vmp} × (1 + {βVmp} / 100 × ({Tcell,hot} - 25))");
}

/* strings */

void pv_of_string_voc_cold(pv_calc *calc)
{
    double modules = pv_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double voc = pv_quantity(calc, PV_QUANTITY_MODULE_VOC_COLD);

    pv_result(calc, modules * voc, "{N} × {Voc,cold}");
}

void pv_of_string_vmp_hot(pv_calc *calc)
{
    double modules = pv_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double vmp = pv_quantity(calc, PV_QUANTITY_MODULE_VMP_HOT);

    pv_result(calc, modules * vmp, "{N} × {Vmp,hot}");
}

void pv_of_string_vmp_hot_after_drop(pv_calc *calc)
{
    double vmp = pv_quantity(calc, PV_QUANTITY_STRING_VMP_HOT);
    double drop = pv_figure_of(calc, PV_FIGURE_DC_DROP);

    pv_result(calc, vmp * (1 - drop / 100), "{Umpp,hot} × (1 - {d} / 100)");
}

void pv_of_string_voc_hot(pv_calc *calc)
{
    double modules = pv_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double voc = pv_param(calc, PVSIZE_MODULE_VOC);
    double coefficient = pv_quantity(calc, PV_QUANTITY_MODULE_VOC_COEFFICIENT);
    double temp = pv_quantity(calc, PV_QUANTITY_CELL_TEMP_HOT);

    pv_result(calc, modules * pv_voltage_at(voc, coefficient, temp),
              "{N} × {Voc} × (1 + {βVoc} / 100 × ({Tcell,hot} - 25))");
}

void pv_of_string_vmp_cold(pv_calc *calc)
{
    double modules = pv_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double vmp = pv_param(calc, PVSIZE_MODULE_VMP);
    double coefficient = pv_quantity(calc, PV_QUANTITY_MODULE_VMP_COEFFICIENT);
    double temp = pv_param(calc, PVSIZE_SITE_TEMP_MIN);

    pv_result(calc, modules * pv_voltage_at(vmp, coefficient, temp),
              "{N} × {Vmp} × (1 + {βVmp} / 100 × ({Tmin} - 25))");
}

/* limits on the string */

void pv_of_building_voltage_limit(pv_calc *calc)
{
    static const int32_t limit_of[] = {
        [PVSIZE_BUILDING_DWELLING] = PV_FIGURE_VOLTAGE_LIMIT_DWELLING,
        [PVSIZE_BUILDING_OTHER_BUILDING] = PV_FIGURE_VOLTAGE_LIMIT_OTHER_BUILDING,
        [PVSIZE_BUILDING_NOT_ON_BUILDING] = PV_FIGURE_VOLTAGE_LIMIT_NOT_ON_BUILDING,
    };

    if (!pv_has_param(calc, PVSIZE_SITE_BUILDING)) {
        pv_missing(calc, PVSIZE_SITE_BUILDING);
        return;
    }
    pv_result(calc,
              pv_figure_of(calc, limit_of[(int32_t)pv_peek_param(calc, PVSIZE_SITE_BUILDING)]),
              "{Ulim}");
}

static double lower(double a, double b)
{
    return a < b ? a : b;
}

/* What is not known does not limit; the rule that needs it says so. */
void pv_of_string_voltage_limit(pv_calc *calc)
{
    double limit = pv_param(calc, PVSIZE_INPUT_MAX_VOLTAGE);

    if (pv_has_param(calc, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE))
        limit = lower(limit, pv_param(calc, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE));
    if (pv_has_quantity(calc, PV_QUANTITY_BUILDING_VOLTAGE_LIMIT))
        limit = lower(limit, pv_quantity(calc, PV_QUANTITY_BUILDING_VOLTAGE_LIMIT));
    pv_result(calc, limit, "min({,Umax})");
}

void pv_of_tracking_floor(pv_calc *calc)
{
    double low = pv_param(calc, PVSIZE_INPUT_TRACKING_MIN);

    pv_result(calc, low * pv_figure_of(calc, PV_FIGURE_TRACKING_RESERVE), "{Umin} × {kres}");
}

void pv_of_string_modules_max(pv_calc *calc)
{
    double limit = pv_quantity(calc, PV_QUANTITY_STRING_VOLTAGE_LIMIT);
    double voc = pv_quantity(calc, PV_QUANTITY_MODULE_VOC_COLD);

    pv_result(calc, pv_most_that_fit(voc, limit), "floor({Umax} / {Voc,cold})");
}

void pv_of_string_modules_min(pv_calc *calc)
{
    double low = pv_param(calc, PVSIZE_INPUT_TRACKING_MIN);
    double vmp = pv_quantity(calc, PV_QUANTITY_MODULE_VMP_HOT);

    pv_result(calc, pv_fewest_that_reach(vmp, low), "ceil({Umin} / {Vmp,hot})");
}

/* power and current */

void pv_of_array_modules(pv_calc *calc)
{
    double modules = pv_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);

    pv_result(calc, modules * pv_param(calc, PVSIZE_ARRAY_STRINGS), "{N} × {S}");
}

void pv_of_array_power(pv_calc *calc)
{
    double modules = pv_quantity(calc, PV_QUANTITY_ARRAY_MODULES);

    pv_result(calc, modules * pv_param(calc, PVSIZE_MODULE_PMAX), "{n} × {Pmax}");
}

/* 1.25 and the plane's correction; an array on no named plane has none. */
static double isc_factor(pv_calc *calc)
{
    double factor = pv_figure_of(calc, PV_FIGURE_ISC_FACTOR);

    if (pv_has_param(calc, PVSIZE_PLANE_CURRENT_CORRECTION))
        return factor * pv_param(calc, PVSIZE_PLANE_CURRENT_CORRECTION);
    pv_assume(calc, PVSIZE_PLANE_CURRENT_CORRECTION, calc->subject, 1);
    return factor * pv_literal(calc, 1);
}

void pv_of_string_isc_max(pv_calc *calc)
{
    double factor = isc_factor(calc);

    pv_result(calc, factor * pv_param(calc, PVSIZE_MODULE_ISC), "{kI} × {Kcorr} × {Isc}");
}

void pv_of_array_isc_max(pv_calc *calc)
{
    double strings = pv_param(calc, PVSIZE_ARRAY_STRINGS);

    pv_result(calc, strings * pv_quantity(calc, PV_QUANTITY_STRING_ISC_MAX),
              "{S} × {Isc,max,string}");
}

void pv_of_array_imp(pv_calc *calc)
{
    double strings = pv_param(calc, PVSIZE_ARRAY_STRINGS);

    pv_result(calc, strings * pv_param(calc, PVSIZE_MODULE_IMP), "{S} × {Imp}");
}

void pv_of_module_isc_limit(pv_calc *calc)
{
    double rating = pv_param(calc, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT);
    double factor = isc_factor(calc);
    double strings = pv_param(calc, PVSIZE_ARRAY_STRINGS);

    pv_result(calc, rating / (factor * strings), "{Isc,input} / ({kI} × {Kcorr} × {S})");
}

void pv_of_input_strings_max(pv_calc *calc)
{
    double rating = pv_param(calc, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT);
    double factor = isc_factor(calc);
    double isc = pv_param(calc, PVSIZE_MODULE_ISC);

    pv_result(calc, pv_most_that_fit(factor * isc, rating),
              "floor({Isc,input} / ({kI} × {Kcorr} × {Isc}))");
}

void pv_of_input_strings_lossless(pv_calc *calc)
{
    double current = pv_param(calc, PVSIZE_INPUT_MAX_OPERATING_CURRENT);
    double imp = pv_param(calc, PVSIZE_MODULE_IMP);

    pv_result(calc, pv_most_that_fit(imp, current), "floor({Imax} / {Imp})");
}
