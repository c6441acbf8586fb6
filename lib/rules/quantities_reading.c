/* Quantities of one reading: what a sound string would show, how far a sound one may
 * lie from that, and what like strings showed. What was not read does not apply. */
#include "../physics/temperature.h"
#include "../physics/translate.h"
#include "calc.h"

static double size_of(double value)
{
    return value < 0 ? -value : value;
}

/* the conditions */

void pvsz_of_reading_cell_temp(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_READING_CELL_TEMP) ||
        !pvsz_has_param(calc, PVSIZE_READING_BACK_TEMP)) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_READING_CELL_TEMP), "{Tcell}");
        return;
    }
    double back = pvsz_param(calc, PVSIZE_READING_BACK_TEMP);
    double irradiance = pvsz_param(calc, PVSIZE_READING_IRRADIANCE);
    double rise = pvsz_param(calc, PVSIZE_READING_BACK_RISE);

    pvsz_result(calc, back + irradiance / 1000 * rise, "{Tback} + {G} / 1000 × {ΔTback}");
}

void pvsz_of_reading_irradiance_change(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_READING_IRRADIANCE) ||
        !pvsz_has_param(calc, PVSIZE_READING_IRRADIANCE_AFTER) ||
        pvsz_peek_param(calc, PVSIZE_READING_IRRADIANCE) == 0) {
        pvsz_nothing(calc);
        return;
    }
    double after = pvsz_param(calc, PVSIZE_READING_IRRADIANCE_AFTER);
    double before = pvsz_param(calc, PVSIZE_READING_IRRADIANCE);

    pvsz_result(calc, size_of(after - before) / before * 100, "abs({Gafter} - {G}) / {G} × 100");
}

/* What was not seen to change counts as steady; what a rule set does not limit serves. */
void pvsz_of_reading_light(pvsz_calc *calc)
{
    double irradiance = pvsz_param(calc, PVSIZE_READING_IRRADIANCE);
    bool serves = irradiance > 0;

    if (pvsz_has_figure(calc, PVSZ_FIGURE_TEST_IRRADIANCE))
        serves =
            serves && pvsz_at_most(pvsz_figure_of(calc, PVSZ_FIGURE_TEST_IRRADIANCE), irradiance);
    if (pvsz_has_figure(calc, PVSZ_FIGURE_TEST_SENSOR) &&
        pvsz_has_quantity(calc, PVSZ_QUANTITY_READING_IRRADIANCE_CHANGE)) {
        double change = pvsz_quantity(calc, PVSZ_QUANTITY_READING_IRRADIANCE_CHANGE);

        serves = serves && pvsz_at_most(change, pvsz_figure_of(calc, PVSZ_FIGURE_TEST_SENSOR));
    }
    pvsz_note_anew(calc);
    pvsz_literal(calc, serves);
    pvsz_result(calc, serves, "{light}; 1: strong and steady enough, 0: not");
}

/* Whether what was read can be judged; else says why not. */
static bool has_light(pvsz_calc *calc)
{
    if (!pvsz_has_quantity(calc, PVSZ_QUANTITY_READING_LIGHT))
        pvsz_missing(calc, PVSIZE_READING_IRRADIANCE);
    else if (pvsz_peek_quantity(calc, PVSZ_QUANTITY_READING_LIGHT) != PVSIZE_ANSWER_YES)
        pvsz_nothing(calc);
    return pvsz_is_open(calc);
}

/* what was read */

static void as_read(pvsz_calc *calc, int32_t term, const char *formula)
{
    if (!pvsz_has_param(calc, term))
        pvsz_nothing(calc);
    else
        pvsz_result(calc, size_of(pvsz_param(calc, term)), formula);
}

void pvsz_of_reading_voc_size(pvsz_calc *calc)
{
    as_read(calc, PVSIZE_READING_VOC, "abs({Uoc})");
}

void pvsz_of_reading_isc_size(pvsz_calc *calc)
{
    as_read(calc, PVSIZE_READING_ISC, "abs({Isc})");
}

void pvsz_of_reading_vmp_size(pvsz_calc *calc)
{
    as_read(calc, PVSIZE_READING_VMP, "abs({Ump})");
}

void pvsz_of_reading_imp_size(pvsz_calc *calc)
{
    as_read(calc, PVSIZE_READING_IMP, "abs({Imp})");
}

void pvsz_of_reading_insulation_value(pvsz_calc *calc)
{
    as_read(calc, PVSIZE_READING_INSULATION, "{R}");
}

void pvsz_of_reading_insulation_voltage(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_READING_INSULATION))
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_param(calc, PVSIZE_READING_INSULATION_TEST), "{Utest}");
}

void pvsz_of_reading_irradiance_value(pvsz_calc *calc)
{
    static const int32_t lit[] = {PVSIZE_READING_VOC, PVSIZE_READING_ISC, PVSIZE_READING_VMP,
                                  PVSIZE_READING_IMP};
    bool any = false;

    for (int32_t i = 0; i < PVSZ_COUNT(lit); i++)
        any = any || pvsz_has_param(calc, lit[i]);
    if (!any)
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_param(calc, PVSIZE_READING_IRRADIANCE), "{G}");
}

/* A voltage of nothing has no sign to judge. */
void pvsz_of_reading_polarity(pvsz_calc *calc)
{
    double voc;

    if (!pvsz_has_param(calc, PVSIZE_READING_VOC) ||
        pvsz_peek_param(calc, PVSIZE_READING_VOC) == 0) {
        pvsz_nothing(calc);
        return;
    }
    voc = pvsz_param(calc, PVSIZE_READING_VOC);
    pvsz_result(calc, voc > 0, "{Uoc} > 0; 1: yes, 0: no");
}

/* voltage */

void pvsz_of_reading_voc_light(pvsz_calc *calc)
{
    if (!has_light(calc))
        return;
    double voc = pvsz_param(calc, PVSIZE_MODULE_VOC);
    double rise = pvsz_param(calc, PVSIZE_MODULE_VOC_BY_LIGHT);
    double irradiance = pvsz_param(calc, PVSIZE_READING_IRRADIANCE);

    pvsz_result(calc, pvsz_voltage_by_light(voc, rise, irradiance), "{Voc} × {a} × ln({G} / 1000)");
}

void pvsz_of_reading_module_voc(pvsz_calc *calc)
{
    double voc = pvsz_param(calc, PVSIZE_MODULE_VOC);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_READING_CELL_TEMP);
    double light = pvsz_quantity(calc, PVSZ_QUANTITY_READING_VOC_LIGHT);
    double value = pvsz_voltage_at(voc, coefficient, temp) + light;

    if (!pvsz_believes_voc_coefficient(calc))
        pvsz_missing(calc, PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT);
    if (value <= 0) /* beyond what the law holds for */
        pvsz_nothing(calc);
    pvsz_result(calc, value, "{Voc} × (1 + {βVoc} / 100 × ({Tcell} - 25)) + {ΔVlight}");
}

void pvsz_of_reading_voc_expected(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);

    pvsz_result(calc, modules * pvsz_quantity(calc, PVSZ_QUANTITY_READING_MODULE_VOC),
                "{N} × {Voc,exp}");
}

/* ln(1 - u) lies below -u by no more than u² / (1 - u): hence 100 - tolG. */
void pvsz_of_reading_voc_conditions(pvsz_calc *calc)
{
    double voc = pvsz_param(calc, PVSIZE_MODULE_VOC);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT);
    double temp = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_TEMPERATURE);
    double rise = pvsz_param(calc, PVSIZE_MODULE_VOC_BY_LIGHT);
    double light = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_SENSOR);
    double expected = pvsz_quantity(calc, PVSZ_QUANTITY_READING_MODULE_VOC);

    if (!pvsz_is_open(calc))
        return;
    pvsz_result(calc,
                voc * (size_of(coefficient) * temp + 100 * rise * light / (100 - light)) / expected,
                "{Voc} × (abs({βVoc}) × {tolT} + 100 × {a} × {tolG} / (100 - {tolG})) / {Voc,exp}");
}

void pvsz_of_reading_voc_band(pvsz_calc *calc)
{
    double meter = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_METER);
    double module = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_MODULE);
    double conditions = pvsz_quantity(calc, PVSZ_QUANTITY_READING_VOC_CONDITIONS);

    pvsz_result(calc, pvsz_worst_of(meter, module, conditions),
                "((1 + {tolM} / 100) × (1 + {tolN} / 100) × (1 + {tolU} / 100) - 1) × 100");
}

/* One end of the band of a sound string: `more` 1 the higher, -1 the lower. */
static double end_of_band(pvsz_calc *calc, int32_t expected, int32_t band, double more)
{
    double middle = pvsz_quantity(calc, expected);

    return middle * (1 + more * pvsz_quantity(calc, band) / 100);
}

void pvsz_of_reading_voc_lowest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        end_of_band(calc, PVSZ_QUANTITY_READING_VOC_EXPECTED, PVSZ_QUANTITY_READING_VOC_BAND, -1),
        "{Uoc,exp} × (1 - {bandU} / 100)");
}

void pvsz_of_reading_voc_highest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        end_of_band(calc, PVSZ_QUANTITY_READING_VOC_EXPECTED, PVSZ_QUANTITY_READING_VOC_BAND, 1),
        "{Uoc,exp} × (1 + {bandU} / 100)");
}

/* current */

static void expected_current(pvsz_calc *calc, int32_t stc_term, const char *formula)
{
    if (!has_light(calc))
        return;
    double strings = pvsz_param(calc, PVSIZE_READING_STRINGS);
    double stc = pvsz_param(calc, stc_term);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_ISC_COEFFICIENT);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_READING_CELL_TEMP);
    double irradiance = pvsz_param(calc, PVSIZE_READING_IRRADIANCE);
    double value = strings * pvsz_current_at(stc, coefficient, temp, irradiance);

    if (value <= 0)
        pvsz_nothing(calc);
    pvsz_result(calc, value, formula);
}

void pvsz_of_reading_isc_expected(pvsz_calc *calc)
{
    expected_current(calc, PVSIZE_MODULE_ISC,
                     "{strings} × {Isc} × (1 + {αIsc} / 100 × ({Tcell} - 25)) × {G} / 1000");
}

void pvsz_of_reading_imp_expected(pvsz_calc *calc)
{
    expected_current(calc, PVSIZE_MODULE_IMP,
                     "{strings} × {Imp} × (1 + {αIsc} / 100 × ({Tcell} - 25)) × {G} / 1000");
}

void pvsz_of_reading_isc_conditions(pvsz_calc *calc)
{
    double light = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_SENSOR);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_ISC_COEFFICIENT);
    double temp = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_TEMPERATURE);
    double cell = pvsz_quantity(calc, PVSZ_QUANTITY_READING_CELL_TEMP);
    double here = 100 + coefficient * (cell - 25);

    if (here <= 0)
        pvsz_nothing(calc);
    pvsz_result(calc, ((1 + light / 100) * (1 + size_of(coefficient) * temp / here) - 1) * 100,
                "((1 + {tolG} / 100) × (1 + abs({αIsc}) × {tolT} / (100 + {αIsc} × ({Tcell} - "
                "25))) - 1) × 100");
}

void pvsz_of_reading_isc_band(pvsz_calc *calc)
{
    double meter = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_METER);
    double module = pvsz_figure_of(calc, PVSZ_FIGURE_TEST_MODULE);
    double conditions = pvsz_quantity(calc, PVSZ_QUANTITY_READING_ISC_CONDITIONS);

    pvsz_result(calc, pvsz_worst_of(meter, module, conditions),
                "((1 + {tolM} / 100) × (1 + {tolN} / 100) × (1 + {tolI} / 100) - 1) × 100");
}

void pvsz_of_reading_isc_lowest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        end_of_band(calc, PVSZ_QUANTITY_READING_ISC_EXPECTED, PVSZ_QUANTITY_READING_ISC_BAND, -1),
        "{Isc,exp} × (1 - {bandI} / 100)");
}

void pvsz_of_reading_isc_highest(pvsz_calc *calc)
{
    double high =
        end_of_band(calc, PVSZ_QUANTITY_READING_ISC_EXPECTED, PVSZ_QUANTITY_READING_ISC_BAND, 1);

    pvsz_result(calc, high * pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION),
                "{Isc,exp} × (1 + {bandI} / 100) × {Kcorr}");
}

/* in operation */

void pvsz_of_reading_vmp_expected(pvsz_calc *calc)
{
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
    double vmp = pvsz_param(calc, PVSIZE_MODULE_VMP);
    double coefficient = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_VMP_COEFFICIENT);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_READING_CELL_TEMP);
    double light = pvsz_quantity(calc, PVSZ_QUANTITY_READING_VOC_LIGHT);
    double value = modules * (pvsz_voltage_at(vmp, coefficient, temp) + light);

    if (coefficient >= 0)
        pvsz_missing(calc, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT);
    if (value <= 0)
        pvsz_nothing(calc);
    pvsz_result(calc, value, "{N} × ({Vmp} × (1 + {βVmp} / 100 × ({Tcell} - 25)) + {ΔVlight})");
}

/* The same with what tracking may add or take. */
static double operating_end(pvsz_calc *calc, int32_t expected, int32_t band, double more)
{
    double end = end_of_band(calc, expected, band, more);

    return end * (1 + more * pvsz_figure_of(calc, PVSZ_FIGURE_TEST_TRACKING) / 100);
}

void pvsz_of_reading_vmp_lowest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        operating_end(calc, PVSZ_QUANTITY_READING_VMP_EXPECTED, PVSZ_QUANTITY_READING_VOC_BAND, -1),
        "{Ump,exp} × (1 - {bandU} / 100) × (1 - {tolMPP} / 100)");
}

void pvsz_of_reading_vmp_highest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        operating_end(calc, PVSZ_QUANTITY_READING_VMP_EXPECTED, PVSZ_QUANTITY_READING_VOC_BAND, 1),
        "{Ump,exp} × (1 + {bandU} / 100) × (1 + {tolMPP} / 100)");
}

void pvsz_of_reading_imp_lowest(pvsz_calc *calc)
{
    pvsz_result(
        calc,
        operating_end(calc, PVSZ_QUANTITY_READING_IMP_EXPECTED, PVSZ_QUANTITY_READING_ISC_BAND, -1),
        "{Imp,exp} × (1 - {bandI} / 100) × (1 - {tolMPP} / 100)");
}

void pvsz_of_reading_imp_highest(pvsz_calc *calc)
{
    double high =
        operating_end(calc, PVSZ_QUANTITY_READING_IMP_EXPECTED, PVSZ_QUANTITY_READING_ISC_BAND, 1);

    pvsz_result(calc, high * pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION),
                "{Imp,exp} × (1 + {bandI} / 100) × (1 + {tolMPP} / 100) × {Kcorr}");
}
