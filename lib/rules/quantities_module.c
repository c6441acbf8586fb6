/* Quantities of one module type: its temperature coefficients in one form. */
#include "calc.h"

/* A coefficient that a data sheet may give in %/K or per kelvin of the value. */
static void coefficient(pvsz_calc *calc, int32_t relative, int32_t absolute, int32_t of,
                        const char *conversion)
{
    double per_kelvin, value;

    if (pvsz_has_param(calc, relative) || !pvsz_has_param(calc, absolute)) {
        pvsz_result(calc, pvsz_param(calc, relative), "{β}");
        return;
    }
    per_kelvin = pvsz_param(calc, absolute);
    value = pvsz_param(calc, of);
    pvsz_result(calc, per_kelvin / value * 100, conversion);
}

/* Of two statements that differ the more negative is taken: it is the safer on
 * the cold side, and the data rules tell of the difference. */
void pvsz_of_module_voc_coefficient(pvsz_calc *calc)
{
    if (pvsz_has_quantity(calc, PVSZ_QUANTITY_MODULE_COEFFICIENT_DEVIATION)) {
        double relative = pvsz_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT);
        double absolute = pvsz_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE);
        double other = absolute / pvsz_param(calc, PVSIZE_MODULE_VOC) * 100;

        pvsz_result(calc, relative < other ? relative : other,
                    "min({βVoc}, {βVoc,abs} / {Voc} × 100)");
        return;
    }
    coefficient(calc, PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE,
                PVSIZE_MODULE_VOC, "{βVoc,abs} / {Voc} × 100");
}

void pvsz_of_module_isc_coefficient(pvsz_calc *calc)
{
    coefficient(calc, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE,
                PVSIZE_MODULE_ISC, "{αIsc,abs} / {Isc} × 100");
}

/* Where the maker states none: Pmax = Vmp x Imp, and Imp follows Isc. The
 * coefficient of Voc must not stand in: that of Vmp is larger in %/K. */
void pvsz_of_module_vmp_coefficient(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_MODULE_VMP_COEFFICIENT) ||
        pvsz_has_param(calc, PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE)) {
        coefficient(calc, PVSIZE_MODULE_VMP_COEFFICIENT, PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE,
                    PVSIZE_MODULE_VMP, "{βVmp,abs} / {Vmp} × 100");
        return;
    }
    double power = pvsz_param(calc, PVSIZE_MODULE_PMAX_COEFFICIENT);
    double current = pvsz_quantity(calc, PVSZ_QUANTITY_MODULE_ISC_COEFFICIENT);

    pvsz_result(calc, power - current, "{γPmax} - {αIsc}; estimate, the maker states none");
    if (calc->entry->state == PVSZ_VALUE)
        pvsz_assume(calc, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT, calc->subject, power - current);
}

void pvsz_of_module_power_deviation(pvsz_calc *calc)
{
    double imp = pvsz_param(calc, PVSIZE_MODULE_IMP);
    double vmp = pvsz_param(calc, PVSIZE_MODULE_VMP);
    double pmax = pvsz_param(calc, PVSIZE_MODULE_PMAX);
    double deviation = pvsz_subtract(imp * vmp, pmax);

    pvsz_result(calc, (deviation < 0 ? -deviation : deviation) / pmax * 100,
                "abs({Imp} × {Vmp} - {Pmax}) / {Pmax} × 100");
}

/* Two statements of one coefficient, where there are two. */
static void deviation(pvsz_calc *calc, int32_t relative, int32_t absolute, int32_t of,
                      const char *formula)
{
    double difference;

    if (!pvsz_has_param(calc, relative) || !pvsz_has_param(calc, absolute)) {
        pvsz_nothing(calc);
        return;
    }
    difference = pvsz_param(calc, relative);
    difference = pvsz_subtract(difference, pvsz_param(calc, absolute) / pvsz_param(calc, of) * 100);
    pvsz_result(calc, difference < 0 ? -difference : difference, formula);
}

void pvsz_of_module_coefficient_deviation(pvsz_calc *calc)
{
    deviation(calc, PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE,
              PVSIZE_MODULE_VOC, "abs({βVoc} - {βVoc,abs} / {Voc} × 100)");
}

void pvsz_of_module_isc_deviation(pvsz_calc *calc)
{
    deviation(calc, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE,
              PVSIZE_MODULE_ISC, "abs({αIsc} - {αIsc,abs} / {Isc} × 100)");
}

void pvsz_of_module_vmp_deviation(pvsz_calc *calc)
{
    deviation(calc, PVSIZE_MODULE_VMP_COEFFICIENT, PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE,
              PVSIZE_MODULE_VMP, "abs({βVmp} - {βVmp,abs} / {Vmp} × 100)");
}

static void believable(pvsz_calc *calc, int32_t silicon, int32_t other)
{
    bool is_silicon = pvsz_peek_param(calc, PVSIZE_MODULE_CELL) == PVSIZE_CELL_CRYSTALLINE_SILICON;

    pvsz_result(calc, pvsz_figure_of(calc, is_silicon ? silicon : other), "{β}");
}

void pvsz_of_module_voc_coefficient_high(pvsz_calc *calc)
{
    believable(calc, PVSZ_FIGURE_DATA_SILICON_COEFFICIENT_HIGH,
               PVSZ_FIGURE_DATA_VOC_COEFFICIENT_HIGH);
}

void pvsz_of_module_voc_coefficient_low(pvsz_calc *calc)
{
    believable(calc, PVSZ_FIGURE_DATA_SILICON_COEFFICIENT_LOW,
               PVSZ_FIGURE_DATA_VOC_COEFFICIENT_LOW);
}

void pvsz_of_module_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}
