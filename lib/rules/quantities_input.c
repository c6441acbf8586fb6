/* Quantities of one input with all its arrays. An input without arrays has
 * nothing to compute but that it has none. */
#include <math.h>

#include "calc.h"

void pv_of_input_arrays(pv_calc *calc)
{
    if (calc->subject->at[PV_KIND_SYSTEM] < 0) /* looked at alone, not in a design */
        pv_nothing(calc);
    else
        pv_result(calc, pv_literal(calc, calc->subject->below), "{arrays}");
}

void pv_of_input_strings(pv_calc *calc)
{
    double strings = 0;

    if (calc->subject->below == 0) {
        pv_nothing(calc);
        return;
    }
    for (const pv_subject *at = pv_first_below(calc, PV_KIND_ARRAY); at;
         at = pv_next_below(calc, PV_KIND_ARRAY, at)) {
        double here;

        if (!pv_spec_number(at->spec[PV_KIND_ARRAY], PVSIZE_ARRAY_STRINGS, &here)) {
            pv_missing(calc, PVSIZE_ARRAY_STRINGS);
            return;
        }
        strings += here;
    }
    pv_literal(calc, strings);
    pv_result(calc, strings, "{strings}");
}

void pv_of_input_isc_max(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_ARRAY, PV_QUANTITY_ARRAY_ISC_MAX), "{+Isc,max}");
}

void pv_of_input_imp(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_ARRAY, PV_QUANTITY_ARRAY_IMP), "{+Iop}");
}

void pv_of_input_power(pv_calc *calc)
{
    pv_result(calc, pv_sum(calc, PV_KIND_ARRAY, PV_QUANTITY_ARRAY_POWER), "{+Parray}");
}

void pv_of_input_string_isc_highest(pv_calc *calc)
{
    pv_result(calc, pv_highest(calc, PV_KIND_ARRAY, PV_QUANTITY_STRING_ISC_MAX),
              "max({,Isc,max,string})");
}

/* Strings are spread over the terminals; the fullest pair counts, with the
 * strongest strings on it. */
void pv_of_input_terminal_current(pv_calc *calc)
{
    double current = pv_quantity(calc, PV_QUANTITY_INPUT_STRING_ISC_HIGHEST);
    double strings = pv_quantity(calc, PV_QUANTITY_INPUT_STRINGS);
    double terminals = pv_param(calc, PVSIZE_INPUT_TERMINALS);

    pv_result(calc, terminals > 0 ? current * ceil(strings / terminals) : 0,
              "{Isc,max,string} × ceil({S} / {terminals})");
}

void pv_of_input_voc_highest(pv_calc *calc)
{
    pv_result(calc, pv_highest(calc, PV_KIND_ARRAY, PV_QUANTITY_STRING_VOC_COLD),
              "max({,Ustring,cold})");
}

void pv_of_input_voc_lowest(pv_calc *calc)
{
    pv_result(calc, pv_lowest(calc, PV_KIND_ARRAY, PV_QUANTITY_STRING_VOC_COLD),
              "min({,Ustring,cold})");
}

/* Rules on likeness speak of several arrays only: the strings of one are alike. */
static bool shared(pv_calc *calc)
{
    if (calc->subject->below >= 2)
        return true;
    pv_nothing(calc);
    return false;
}

void pv_of_input_voc_difference(pv_calc *calc)
{
    if (!shared(calc))
        return;
    double high = pv_quantity(calc, PV_QUANTITY_INPUT_VOC_HIGHEST);
    double low = pv_quantity(calc, PV_QUANTITY_INPUT_VOC_LOWEST);

    pv_result(calc, (high - low) / high * 100, "({Uhigh} - {Ulow}) / {Uhigh} × 100");
}

void pv_of_input_length_difference(pv_calc *calc)
{
    double longest = 0, shortest = 0;

    if (!shared(calc))
        return;
    for (const pv_subject *at = pv_first_below(calc, PV_KIND_ARRAY); at;
         at = pv_next_below(calc, PV_KIND_ARRAY, at)) {
        double here;

        if (!pv_spec_number(at->spec[PV_KIND_ARRAY], PVSIZE_ARRAY_MODULES_PER_STRING, &here)) {
            pv_missing(calc, PVSIZE_ARRAY_MODULES_PER_STRING);
            return;
        }
        if (here > longest)
            longest = here;
        if (shortest == 0 || here < shortest)
            shortest = here;
    }
    pv_literal(calc, longest);
    pv_literal(calc, shortest);
    pv_result(calc, longest - shortest, "{Nlongest} - {Nshortest}");
}

/* How many unlike things of a kind the arrays of the input hang on; an array
 * that names none counts for one of its own. */
static double count_unlike(pv_calc *calc, int32_t kind)
{
    double count = 0;

    for (const pv_subject *at = pv_first_below(calc, PV_KIND_ARRAY); at;
         at = pv_next_below(calc, PV_KIND_ARRAY, at)) {
        const pv_subject *before = pv_first_below(calc, PV_KIND_ARRAY);

        while (before != at && before->at[kind] != at->at[kind])
            before = pv_next_below(calc, PV_KIND_ARRAY, before);
        count += before == at;
    }
    return count;
}

void pv_of_input_module_types(pv_calc *calc)
{
    if (shared(calc))
        pv_result(calc, pv_literal(calc, count_unlike(calc, PV_KIND_MODULE)), "{types}");
}

void pv_of_input_planes(pv_calc *calc)
{
    if (shared(calc))
        pv_result(calc, pv_literal(calc, count_unlike(calc, PV_KIND_PLANE)), "{planes}");
}

/* isolation */

static bool has_external(const pv_calc *calc)
{
    for (const pv_subject *at = pv_first_below(calc, PV_KIND_ARRAY); at;
         at = pv_next_below(calc, PV_KIND_ARRAY, at)) {
        double answer = PVSIZE_ANSWER_NO;

        pv_spec_number(at->spec[PV_KIND_ARRAY], PVSIZE_ARRAY_EXTERNAL_ISOLATOR, &answer);
        if (answer != PVSIZE_ANSWER_YES)
            return false;
    }
    return true;
}

/* One "no" settles that the built-in one does not serve, whatever else is
 * missing; only a full set of "yes" settles that it does. */
void pv_of_input_isolated(pv_calc *calc)
{
    static const int32_t needed[] = {PVSIZE_INPUT_ISOLATOR, PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD,
                                     PVSIZE_INPUT_ISOLATOR_LOCKS_OFF};
    int32_t unknown = 0;
    double built_in;

    if (calc->subject->below == 0) {
        pv_nothing(calc);
        return;
    }
    if (has_external(calc)) {
        pv_result(calc, pv_literal(calc, 1), "{external}; external isolator beside the inverter");
        return;
    }
    for (int32_t i = 0; i < PV_COUNT(needed); i++) {
        if (!pv_has_param(calc, needed[i]))
            unknown = unknown ? unknown : needed[i];
        else if (pv_peek_param(calc, needed[i]) == 0) {
            pv_param(calc, needed[i]);
            pv_result(calc, 0, "{built-in}; the built-in isolator does not serve alone");
            return;
        }
    }
    if (unknown) {
        pv_missing(calc, unknown);
        return;
    }
    built_in = pv_param(calc, needed[0]);
    built_in *= pv_param(calc, needed[1]);
    built_in *= pv_param(calc, needed[2]);
    pv_result(calc, built_in, "{built-in} × {standard} × {locks}; 1: yes, 0: no");
}
