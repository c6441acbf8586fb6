/* What is tested and marked on the day: insulation, and the values for signs. */
#include "calc.h"

enum { BELOW, UP_TO };

static const struct {
    int32_t edge;
    double most, voltage, resistance;
} insulation_tests[] = {
#define INSULATION_TEST(EDGE, most, voltage, resistance) {EDGE, most, voltage, resistance},
#include "../tables/insulation_tests.def"
#undef INSULATION_TEST
};

void pvsz_of_insulation_system_voltage(pvsz_calc *calc)
{
    double factor = pvsz_literal(calc, 1.25);
    double modules = pvsz_param(calc, PVSIZE_ARRAY_MODULES_PER_STRING);

    pvsz_result(calc, factor * modules * pvsz_param(calc, PVSIZE_MODULE_VOC),
                "{1.25} × {N} × {Voc}; IEC 62446-1");
}

/* The row of the table for a system voltage. */
static int32_t row_of(double voltage)
{
    int32_t row = 0;

    while (row + 1 < PVSZ_COUNT(insulation_tests) &&
           (insulation_tests[row].edge == BELOW
                ? pvsz_at_most(insulation_tests[row].most, voltage)
                : !pvsz_at_most(voltage, insulation_tests[row].most)))
        row++;
    return row;
}

static void from_table(pvsz_calc *calc, bool resistance, const char *formula)
{
    double voltage = pvsz_peek_quantity(calc, PVSZ_QUANTITY_INSULATION_SYSTEM_VOLTAGE);
    int32_t row = row_of(voltage);
    double value = resistance ? insulation_tests[row].resistance : insulation_tests[row].voltage;

    pvsz_literal(calc, value);
    pvsz_quantity(calc, PVSZ_QUANTITY_INSULATION_SYSTEM_VOLTAGE);
    pvsz_result(calc, value, formula);
}

void pvsz_of_insulation_test_voltage(pvsz_calc *calc)
{
    from_table(calc, false, "{Utest}; table of IEC 62446-1, row of {Usys}");
}

void pvsz_of_insulation_resistance_min(pvsz_calc *calc)
{
    from_table(calc, true, "{Rmin}; table of IEC 62446-1, row of {Usys}");
}

/* Signs: what stands on them differs by rule set. */
enum { SIGN_ISC = 2, SIGN_ISC_MAX = 3 };

/* The figure decides, but is no part of the formula. */
static int32_t sign_values(pvsz_calc *calc)
{
    int32_t which = (int32_t)pvsz_figure_of(calc, PVSZ_FIGURE_SIGN_VALUES);

    pvsz_note_anew(calc);
    return which;
}

void pvsz_of_input_sign_voltage(pvsz_calc *calc)
{
    sign_values(calc);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_VOC_HIGHEST), "{Uhigh}");
}

void pvsz_of_input_sign_current(pvsz_calc *calc)
{
    int32_t which = sign_values(calc);

    if (which == SIGN_ISC)
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC), "{Isc,input}");
    else if (which == SIGN_ISC_MAX)
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC_MAX), "{Isc,max,input}");
    else
        pvsz_nothing(calc);
}
