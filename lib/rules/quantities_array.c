/* Quantities of the strings of one array. */
#include "../physics/temperature.h"
#include "calc.h"

/* temperatures and one module */

void pvsz_of_cell_temp_hot(pvsz_calc *calc)
{
    static const int32_t rise_of[] = {
        [PVSIZE_MOUNTING_OPEN_RACK] = PVSZ_FIGURE_CELL_RISE_OPEN_RACK,
        [PVSIZE_MOUNTING_RAISED] = PVSZ_FIGURE_CELL_RISE_RAISED,
        [PVSIZE_MOUNTING_CLOSE] = PVSZ_FIGURE_CELL_RISE_CLOSE,
        [PVSIZE_MOUNTING_INTEGRATED] = PVSZ_FIGURE_CELL_RISE_INTEGRATED,
    };
    double ambient = pvsz_param(calc, PVSIZE_SITE_TEMP_MAX);
    double rise = 0;

    if (pvsz_has_param(calc, PVSIZE_PLANE_CELL_RISE))
        rise = pvsz_param(calc, PVSIZE_PLANE_CELL_RISE);
    else if (pvsz_has_param(calc, PVSIZE_PLANE_MOUNTING))
        rise = pvsz_figure_of(calc, rise_of[(int32_t)pvsz_peek_param(calc, PVSIZE_PLANE_MOUNTING)]);
    else
        pvsz_param(calc, PVSIZE_PLANE_MOUNTING); /* tells what is missing */
    pvsz_result(calc, ambient + rise, "{Tmax} + {ΔT}");
}

/* A coefficient above what is believable for the cell has a wrong sign or a wrong
 * unit: on a cold morning it would make an unsafe string look safe. The data rules
 * tell of it, and the table or the fixed factor, both stricter, takes its place.
 * Where a rule set says nothing of what is believable, it must be negative. */
bool pvsz_believes_voc_coefficient(pvsz_calc *calc)
{
    const pvsz_entry *stated, *high;

    stated = pvsz_compute(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT, calc->subject);
    if (!pvsz_has_value(stated) || stated->value >= 0)
        return false;
    high = pvsz_compute(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT_HIGH, calc->subject);
    return !pvsz_has_value(high) || pvsz_at_most(stated->value, high->value);
}

/* What is missing for a voltage at another temperature: the coefficient, or one
 * that can be believed. */
static int32_t coefficient_lacking(pvsz_calc *calc)
{
    return pvsz_has_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT)
               ? PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT
               : PVSIZE_MODULE_VOC_COEFFICIENT;
}

/* A stated coefficient that something else stands in for is told. */
static void pass_over_coefficient(pvsz_calc *calc)
{
    const pvsz_subject *subject = calc->subject;

    if (pvsz_has_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT))
        pvsz_assume(calc, PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT,
                    &calc->report->design.subject[PVSZ_KIND_MODULE][subject->at[PVSZ_KIND_MODULE]],
                    pvsz_peek_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT));
}

/* The maker's coefficient first; else the table, for crystalline silicon and
 * where the rule set allows it; else the rule set's fixed factor. Some practice
 * takes its factor before all others for crystalline silicon, and has none for the
 * rest. Colder than the table goes no factor is known to be enough. */
void pvsz_of_module_voc_cold(pvsz_calc *calc)
{
    double voc = pvsz_param(calc, PVSIZE_MODULE_VOC);
    double factor;
    bool has_temp = pvsz_has_param(calc, PVSIZE_SITE_TEMP_MIN);
    bool silicon = pvsz_peek_param(calc, PVSIZE_MODULE_CELL) == PVSIZE_CELL_CRYSTALLINE_SILICON;
    bool fixed = pvsz_is_yes(calc, PVSZ_FIGURE_VOC_FIXED);
    bool has_multiplier = pvsz_has_figure(calc, PVSZ_FIGURE_VOC_MULTIPLIER) && (silicon || !fixed);

    fixed = fixed && has_multiplier;
    bool table = has_temp && !fixed && silicon && pvsz_is_yes(calc, PVSZ_FIGURE_VOC_TABLE);

    if (has_temp && !fixed && pvsz_believes_voc_coefficient(calc)) {
        double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT);
        double temp = pvsz_param(calc, PVSIZE_SITE_TEMP_MIN);

        pvsz_result(calc, pvsz_voltage_at(voc, coefficient, temp),
                    "{Voc} × (1 + {βVoc} / 100 × ({Tmin} - 25))");
    } else if (table && pvsz_voc_factor(pvsz_peek_param(calc, PVSIZE_SITE_TEMP_MIN), &factor)) {
        pass_over_coefficient(calc);
        pvsz_literal(calc, factor);
        pvsz_param(calc, PVSIZE_SITE_TEMP_MIN);
        pvsz_result(calc, voc * factor, "{Voc} × {M}; M: correction table, row of {Tmin}");
    } else if (has_multiplier && !table) {
        if (has_temp && !fixed)
            pass_over_coefficient(calc);
        pvsz_result(calc, voc * pvsz_figure_of(calc, PVSZ_FIGURE_VOC_MULTIPLIER), "{Voc} × {kU}");
    } else {
        pvsz_missing(calc, has_temp ? coefficient_lacking(calc) : PVSIZE_SITE_TEMP_MIN);
    }
}

void pvsz_of_module_vmp_hot(pvsz_calc *calc)
{
    double vmp = pvsz_param(calc, PVSIZE_MODULE_VMP);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VMP_COEFFICIENT);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_CELL_TEMP_HOT);

    if (coefficient >= 0) /* a wrong sign would make a hot string look long */
        pvsz_missing(calc, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT);
    pvsz_result(calc, pvsz_voltage_at(vmp, coefficient, temp),
                "{Vmp} × (1 + {βVmp} / 100 × ({Tcell,hot} - 25))");
}

/* strings */

void pvsz_of_string_voc_cold(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double voc = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COLD);

    pvsz_result(calc, modules * voc, "{N} × {Voc,cold}");
}

void pvsz_of_string_vmp_hot(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double vmp = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VMP_HOT);

    pvsz_result(calc, modules * vmp, "{N} × {Vmp,hot}");
}

void pvsz_of_string_vmp_hot_after_drop(pvsz_calc *calc)
{
    double vmp = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_VMP_HOT);
    double drop = pvsz_figure_of(calc, PVSZ_FIGURE_DC_DROP);

    pvsz_result(calc, vmp * (1 - drop / 100), "{Umpp,hot} × (1 - {d} / 100)");
}

void pvsz_of_string_voc_hot(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double voc = pvsz_param(calc, PVSIZE_MODULE_VOC);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_CELL_TEMP_HOT);

    if (!pvsz_believes_voc_coefficient(calc))
        pvsz_missing(calc, coefficient_lacking(calc));

    pvsz_result(calc, modules * pvsz_voltage_at(voc, coefficient, temp),
                "{N} × {Voc} × (1 + {βVoc} / 100 × ({Tcell,hot} - 25))");
}

void pvsz_of_string_vmp_cold(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double vmp = pvsz_param(calc, PVSIZE_MODULE_VMP);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VMP_COEFFICIENT);
    double temp = pvsz_param(calc, PVSIZE_SITE_TEMP_MIN);

    if (coefficient >= 0) /* a wrong sign would make a cold string look short */
        pvsz_missing(calc, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT);
    pvsz_result(calc, modules * pvsz_voltage_at(vmp, coefficient, temp),
                "{N} × {Vmp} × (1 + {βVmp} / 100 × ({Tmin} - 25))");
}

/* limits on the string */

void pvsz_of_building_voltage_limit(pvsz_calc *calc)
{
    static const int32_t limit_of[] = {
        [PVSIZE_BUILDING_DWELLING] = PVSZ_FIGURE_VOLTAGE_LIMIT_DWELLING,
        [PVSIZE_BUILDING_OTHER_BUILDING] = PVSZ_FIGURE_VOLTAGE_LIMIT_OTHER_BUILDING,
        [PVSIZE_BUILDING_NOT_ON_BUILDING] = PVSZ_FIGURE_VOLTAGE_LIMIT_NOT_ON_BUILDING,
    };

    if (!pvsz_has_param(calc, PVSIZE_SITE_BUILDING)) {
        pvsz_missing(calc, PVSIZE_SITE_BUILDING);
        return;
    }
    pvsz_result(
        calc, pvsz_figure_of(calc, limit_of[(int32_t)pvsz_peek_param(calc, PVSIZE_SITE_BUILDING)]),
        "{Ulim}");
}

static double lower(double a, double b)
{
    return a < b ? a : b;
}

/* What is not known does not limit, but is named. */
void pvsz_of_string_voltage_limit(pvsz_calc *calc)
{
    static const char *const formulas[] = {
        "min({,Umax})",
        "min({,Umax}); the module's system voltage is not known",
        "min({,Umax}); the limit for the building is not known",
        "min({,Umax}); neither the module's nor the building's limit is known",
    };
    double limit = pvsz_param(calc, PVSIZE_INPUT_MAX_VOLTAGE);
    int32_t unknown = 0;

    if (pvsz_has_param(calc, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE))
        limit = lower(limit, pvsz_param(calc, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE));
    unknown += pvsz_is_unknown(calc, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE);
    if (pvsz_has_quantity(calc, PVSZ_QUANTITY_BUILDING_VOLTAGE_LIMIT))
        limit = lower(limit, pvsz_quantity(calc, PVSZ_QUANTITY_BUILDING_VOLTAGE_LIMIT));
    else
        unknown += 2;
    pvsz_result(calc, limit, formulas[unknown]);
}

void pvsz_of_tracking_floor(pvsz_calc *calc)
{
    double low = pvsz_param(calc, PVSIZE_INPUT_TRACKING_MIN);

    pvsz_result(calc, low * pvsz_figure_of(calc, PVSZ_FIGURE_TRACKING_RESERVE), "{Umin} × {kres}");
}

void pvsz_of_string_modules_max(pvsz_calc *calc)
{
    double limit = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_VOLTAGE_LIMIT);
    double voc = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COLD);

    if (voc <= 0)
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_most_that_fit(voc, limit), "floor({Umax} / {Voc,cold})");
}

void pvsz_of_string_modules_min(pvsz_calc *calc)
{
    double low = pvsz_param(calc, PVSIZE_INPUT_TRACKING_MIN);
    double vmp = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VMP_HOT);

    if (vmp <= 0) /* hotter than the linear law holds */
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_fewest_that_reach(vmp, low), "ceil({Umin} / {Vmp,hot})");
}

/* power and current */

void pvsz_of_array_modules(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);

    pvsz_result(calc, modules * pvsz_param(calc, PVSIZE_ARRAY_STRINGS), "{N} × {S}");
}

void pvsz_of_array_power(pvsz_calc *calc)
{
    double modules = pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_MODULES);

    pvsz_result(calc, modules * pvsz_param(calc, PVSIZE_MODULE_PMAX), "{n} × {Pmax}");
}

/* Light from behind is real whether or not somebody thought of it. */
void pvsz_of_current_correction(pvsz_calc *calc)
{
    bool has_plane = calc->subject->at[PVSZ_KIND_PLANE] >= 0;
    const pvsz_subject *of =
        has_plane
            ? &calc->report->design.subject[PVSZ_KIND_PLANE][calc->subject->at[PVSZ_KIND_PLANE]]
            : calc->subject;
    double assumed;

    if (pvsz_has_param(calc, PVSIZE_PLANE_CURRENT_CORRECTION)) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_PLANE_CURRENT_CORRECTION), "{Kcorr}");
        return;
    }
    if (pvsz_has_quantity(calc, PVSZ_QUANTITY_BIFACIAL_CORRECTION))
        assumed = pvsz_quantity(calc, PVSZ_QUANTITY_BIFACIAL_CORRECTION);
    else
        assumed = pvsz_literal(calc, 1);
    pvsz_assume(calc, PVSIZE_PLANE_CURRENT_CORRECTION, of, assumed);
    pvsz_result(calc, assumed, "{Kcorr}; none is given for the plane");
}

/* The rule set's factor and the correction, noted as two operands. */
static double isc_factor(pvsz_calc *calc)
{
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ISC_FACTOR);

    return factor * pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
}

void pvsz_of_string_isc_max(pvsz_calc *calc)
{
    double factor = isc_factor(calc);

    pvsz_result(calc, factor * pvsz_param(calc, PVSIZE_MODULE_ISC), "{kI} × {Kcorr} × {Isc}");
}

void pvsz_of_array_isc_max(pvsz_calc *calc)
{
    double strings = pvsz_param(calc, PVSIZE_ARRAY_STRINGS);

    pvsz_result(calc, strings * pvsz_quantity(calc, PVSZ_QUANTITY_STRING_ISC_MAX),
                "{S} × {Isc,max,string}");
}

/* Bifacial nameplate irradiance: 1000 W/m2 in front, 135 W/m2 behind. */
void pvsz_of_bifacial_correction(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_MODULE_BIFACIALITY) ||
        pvsz_peek_param(calc, PVSIZE_MODULE_BIFACIALITY) == 0) {
        pvsz_nothing(calc);
        return;
    }
    pvsz_result(calc, 1 + 0.135 * pvsz_param(calc, PVSIZE_MODULE_BIFACIALITY), "1 + 0.135 × {φ}");
}

void pvsz_of_array_imp(pvsz_calc *calc)
{
    double strings = pvsz_param(calc, PVSIZE_ARRAY_STRINGS);

    pvsz_result(calc, strings * pvsz_param(calc, PVSIZE_MODULE_IMP), "{S} × {Imp}");
}

void pvsz_of_module_isc_limit(pvsz_calc *calc)
{
    double rating = pvsz_param(calc, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT);
    double factor = isc_factor(calc);
    double strings = pvsz_param(calc, PVSIZE_ARRAY_STRINGS);

    pvsz_result(calc, rating / (factor * strings), "{Isc,input} / ({kI} × {Kcorr} × {S})");
}

void pvsz_of_input_strings_max(pvsz_calc *calc)
{
    double rating = pvsz_param(calc, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT);
    double factor = isc_factor(calc);
    double isc = pvsz_param(calc, PVSIZE_MODULE_ISC);

    pvsz_result(calc, pvsz_most_that_fit(factor * isc, rating),
                "floor({Isc,input} / ({kI} × {Kcorr} × {Isc}))");
}

void pvsz_of_input_strings_lossless(pvsz_calc *calc)
{
    double current = pvsz_param(calc, PVSIZE_INPUT_MAX_OPERATING_CURRENT);
    double imp = pvsz_param(calc, PVSIZE_MODULE_IMP);

    pvsz_result(calc, pvsz_most_that_fit(imp, current), "floor({Imax} / {Imp})");
}

void pvsz_of_array_given(pvsz_calc *calc)
{
    if (calc->report->design.count[PVSZ_KIND_INVERTER] > 1)
        pvsz_peek_param(calc, PVSIZE_ARRAY_INVERTER); /* with one there is no choice */
    pvsz_all_given(calc);
}
