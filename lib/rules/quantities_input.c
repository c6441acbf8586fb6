/* Quantities of one input with all its arrays. An input without arrays has
 * nothing to compute but that it has none. */
#include <math.h>

#include "calc.h"

void pvsz_of_input_arrays(pvsz_calc *calc)
{
    if (calc->subject->at[PVSZ_KIND_SYSTEM] < 0) /* looked at alone, not in a design */
        pvsz_nothing(calc);
    else
        pvsz_result(calc, pvsz_literal(calc, calc->subject->below), "{arrays}");
}

void pvsz_of_input_strings(pvsz_calc *calc)
{
    double strings = 0;

    if (calc->subject->below == 0) {
        pvsz_nothing(calc);
        return;
    }
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_ARRAY); at;
         at = pvsz_next_below(calc, PVSZ_KIND_ARRAY, at)) {
        double here;

        if (!pvsz_spec_number(at->spec[PVSZ_KIND_ARRAY], PVSIZE_ARRAY_STRINGS, &here)) {
            pvsz_missing(calc, PVSIZE_ARRAY_STRINGS);
            return;
        }
        strings += here;
    }
    pvsz_literal(calc, strings);
    pvsz_result(calc, strings, "{strings}");
}

void pvsz_of_input_isc_max(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_ISC_MAX), "{+Isc,max}");
}

void pvsz_of_input_imp(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_IMP), "{+Iop}");
}

void pvsz_of_input_power(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_POWER), "{+Parray}");
}

void pvsz_of_input_string_isc_highest(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_highest(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_STRING_ISC_MAX),
                "max({,Isc,max,string})");
}

/* Strings are spread over the terminals; the fullest pair counts, with the
 * strongest strings on it. */
void pvsz_of_input_terminal_current(pvsz_calc *calc)
{
    double current = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_STRING_ISC_HIGHEST);
    double strings = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_STRINGS);
    double terminals = pvsz_param(calc, PVSIZE_INPUT_TERMINALS);

    pvsz_result(calc, terminals > 0 ? current * ceil(strings / terminals) : 0,
                "{Isc,string,high} × ceil({S} / {terminals})");
}

void pvsz_of_input_voc_highest(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_highest(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_STRING_VOC_COLD),
                "max({,Ustring,cold})");
}

void pvsz_of_input_voc_lowest(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_lowest(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_STRING_VOC_COLD),
                "min({,Ustring,cold})");
}

/* Rules on likeness speak of several arrays only: the strings of one are alike. */
static bool shared(pvsz_calc *calc)
{
    if (calc->subject->below >= 2)
        return true;
    pvsz_nothing(calc);
    return false;
}

void pvsz_of_input_voc_difference(pvsz_calc *calc)
{
    if (!shared(calc))
        return;
    double high = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_VOC_HIGHEST);
    double low = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_VOC_LOWEST);

    if (low > 0)
        pvsz_result(calc, pvsz_subtract(high, low) / low * 100,
                    "({Uhigh} - {Ulow}) / {Ulow} × 100");
}

void pvsz_of_input_length_difference(pvsz_calc *calc)
{
    double longest = 0, shortest = 0;

    if (!shared(calc))
        return;
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_ARRAY); at;
         at = pvsz_next_below(calc, PVSZ_KIND_ARRAY, at)) {
        double here;

        if (!pvsz_spec_number(at->spec[PVSZ_KIND_ARRAY], PVSIZE_ARRAY_MODULES_PER_STRING, &here)) {
            pvsz_missing(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
            return;
        }
        if (here > longest)
            longest = here;
        if (shortest == 0 || here < shortest)
            shortest = here;
    }
    pvsz_literal(calc, longest);
    pvsz_literal(calc, shortest);
    pvsz_result(calc, longest - shortest, "{Nlongest} - {Nshortest}");
}

/* How many unlike things of a kind the arrays of the input hang on. */
static double count_unlike(pvsz_calc *calc, int32_t kind)
{
    double count = 0;

    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_ARRAY); at;
         at = pvsz_next_below(calc, PVSZ_KIND_ARRAY, at)) {
        const pvsz_subject *before = pvsz_first_below(calc, PVSZ_KIND_ARRAY);

        if (at->at[kind] < 0)
            pvsz_missing(calc, PVSIZE_ARRAY_PLANE); /* a module it always has */
        while (before != at && before->at[kind] != at->at[kind])
            before = pvsz_next_below(calc, PVSZ_KIND_ARRAY, before);
        count += before == at;
    }
    return count;
}

void pvsz_of_input_module_types(pvsz_calc *calc)
{
    if (shared(calc))
        pvsz_result(calc, pvsz_literal(calc, count_unlike(calc, PVSZ_KIND_MODULE)), "{types}");
}

void pvsz_of_input_planes(pvsz_calc *calc)
{
    if (shared(calc))
        pvsz_result(calc, pvsz_literal(calc, count_unlike(calc, PVSZ_KIND_PLANE)), "{planes}");
}

void pvsz_of_input_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}
