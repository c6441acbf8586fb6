/* Quantities of one module type: its temperature coefficients in one form. */
#include "calc.h"

/* A coefficient that a data sheet may give in %/K or per kelvin of the value. */
static void coefficient(pv_calc *calc, int32_t relative, int32_t absolute, int32_t of,
                        const char *conversion)
{
    double per_kelvin, value;

    if (pv_has_param(calc, relative) || !pv_has_param(calc, absolute)) {
        pv_result(calc, pv_param(calc, relative), "{β}");
        return;
    }
    per_kelvin = pv_param(calc, absolute);
    value = pv_param(calc, of);
    pv_result(calc, per_kelvin / value * 100, conversion);
}

void pv_of_module_voc_coefficient(pv_calc *calc)
{
    coefficient(calc, PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE,
                PVSIZE_MODULE_VOC, "{βVoc,abs} / {Voc} × 100");
}

void pv_of_module_isc_coefficient(pv_calc *calc)
{
    coefficient(calc, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE,
                PVSIZE_MODULE_ISC, "{αIsc,abs} / {Isc} × 100");
}

/* Where the maker states none: Pmax = Vmp x Imp, and Imp follows Isc. The
 * coefficient of Voc must not stand in: that of Vmp is larger in %/K. */
void pv_of_module_vmp_coefficient(pv_calc *calc)
{
    if (pv_has_param(calc, PVSIZE_MODULE_VMP_COEFFICIENT) ||
        pv_has_param(calc, PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE)) {
        coefficient(calc, PVSIZE_MODULE_VMP_COEFFICIENT, PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE,
                    PVSIZE_MODULE_VMP, "{βVmp,abs} / {Vmp} × 100");
        return;
    }
    double power = pv_param(calc, PVSIZE_MODULE_PMAX_COEFFICIENT);
    double current = pv_quantity(calc, PV_QUANTITY_MODULE_ISC_COEFFICIENT);

    pv_result(calc, power - current, "{γPmax} - {αIsc}; estimate, the maker states none");
    if (calc->state == PV_VALUE)
        pv_assume(calc, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT, calc->subject, power - current);
}

void pv_of_module_power_deviation(pv_calc *calc)
{
    double imp = pv_param(calc, PVSIZE_MODULE_IMP);
    double vmp = pv_param(calc, PVSIZE_MODULE_VMP);
    double pmax = pv_param(calc, PVSIZE_MODULE_PMAX);
    double deviation = imp * vmp - pmax;

    pv_result(calc, (deviation < 0 ? -deviation : deviation) / pmax * 100,
              "abs({Imp} × {Vmp} - {Pmax}) / {Pmax} × 100");
}

void pv_of_module_coefficient_deviation(pv_calc *calc)
{
    if (!pv_has_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT) ||
        !pv_has_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE)) {
        pv_nothing(calc);
        return;
    }
    double relative = pv_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT);
    double absolute = pv_param(calc, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE);
    double voc = pv_param(calc, PVSIZE_MODULE_VOC);
    double deviation = relative - absolute / voc * 100;

    pv_result(calc, deviation < 0 ? -deviation : deviation,
              "abs({βVoc} - {βVoc,abs} / {Voc} × 100)");
}
