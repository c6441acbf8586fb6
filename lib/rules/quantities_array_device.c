/* Overcurrent devices of whole arrays, where several join on an input. */
#include "../wiring/ratings.h"
#include "calc.h"

/* A rule set that does not say when a device is needed does not ask for one. */
void pvsz_of_array_device_needed(pvsz_calc *calc)
{
    double arrays, most;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_ARRAY_DEVICE_FREE)) {
        pvsz_nothing(calc);
        return;
    }
    if (pvsz_has_param(calc, PVSIZE_INPUT_OTHER_SOURCE) &&
        pvsz_peek_param(calc, PVSIZE_INPUT_OTHER_SOURCE) == PVSIZE_ANSWER_YES) {
        pvsz_result(calc, pvsz_literal(calc, PVSIZE_ANSWER_YES),
                    "{needed}; another source can feed a fault");
        return;
    }
    arrays = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ARRAYS);
    most = pvsz_figure_of(calc, PVSZ_FIGURE_ARRAY_DEVICE_FREE);
    pvsz_result(calc, arrays > most, "{arrays} > {Afree}");
}

/* What is asked of devices where one is needed; false, and told why, elsewhere. */
static bool is_needed(pvsz_calc *calc)
{
    if (pvsz_decide(calc, PVSZ_QUANTITY_ARRAY_DEVICE_NEEDED) == PVSIZE_ANSWER_YES)
        return true;
    pvsz_nothing(calc);
    return false;
}

static bool is_of_interest(pvsz_calc *calc)
{
    return pvsz_has_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE) || is_needed(calc);
}

/* Silence means that there is no device, and is told. */
void pvsz_of_array_device_fitted(pvsz_calc *calc)
{
    if (!is_needed(calc))
        return;
    if (pvsz_is_unknown(calc, PVSIZE_ARRAY_ARRAY_DEVICE))
        pvsz_assume(calc, PVSIZE_ARRAY_ARRAY_DEVICE, calc->subject, 0);
    pvsz_result(calc, pvsz_literal(calc, pvsz_has_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE)),
                "{fitted}");
}

void pvsz_of_array_device_low(pvsz_calc *calc)
{
    if (!is_of_interest(calc))
        return;
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ARRAY_DEVICE_LOW_FACTOR);

    pvsz_result(calc, factor * pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_ISC),
                "{klow} × {Isc,array}");
}

/* Without the correction: what the modules can make is not raised by it. */
void pvsz_of_array_device_high(pvsz_calc *calc)
{
    if (!is_of_interest(calc))
        return;
    if (!pvsz_has_figure(calc, PVSZ_FIGURE_ARRAY_DEVICE_HIGH_FACTOR)) {
        pvsz_nothing(calc);
        return;
    }
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_ARRAY_DEVICE_HIGH_FACTOR);
    double strings = pvsz_param(calc, PVSIZE_ARRAY_STRINGS);

    pvsz_result(calc, factor * strings * pvsz_param(calc, PVSIZE_MODULE_ISC),
                "{khigh} × {S} × {Isc}");
}

/* Where the rule set has no upper end, the series ends the search. */
#define NO_HIGH 1e6

void pvsz_of_array_device_rating(pvsz_calc *calc)
{
    bool strict = pvsz_is_yes(calc, PVSZ_FIGURE_ARRAY_DEVICE_LOW_STRICT);
    bool has_high = pvsz_has_figure(calc, PVSZ_FIGURE_ARRAY_DEVICE_HIGH_FACTOR);
    double low = pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_DEVICE_LOW);
    double high = has_high ? pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_DEVICE_HIGH) : NO_HIGH;
    int32_t series = (int32_t)pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_SERIES);
    double rating = 0;
    bool fits;

    if (!pvsz_is_open(calc))
        return;
    fits = pvsz_smallest_rating(series, low, strict, high, &rating);
    pvsz_note_anew(calc); /* the rating comes first in the formula */
    pvsz_literal(calc, rating);
    pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_DEVICE_LOW);
    if (has_high)
        pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_DEVICE_HIGH);
    if (!fits)
        pvsz_result(calc, 0,
                    has_high ? "{In}; no standard rating from {In,low} to {In,high}"
                             : "{In}; no standard rating from {In,low}");
    else if (has_high)
        pvsz_result(calc, rating,
                    strict ? "{In}; smallest standard one above {In,low} and up to {In,high}"
                           : "{In}; smallest standard one from {In,low} to {In,high}");
    else
        pvsz_result(calc, rating,
                    strict ? "{In}; smallest standard one above {In,low}"
                           : "{In}; smallest standard one from {In,low}");
}

void pvsz_of_array_device_exists(pvsz_calc *calc)
{
    if (is_needed(calc))
        pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_ARRAY_DEVICE_RATING) > 0, "{In} > 0");
}

void pvsz_of_array_device_duty_voltage(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_ARRAY_ARRAY_DEVICE))
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_STRING_VOC_COLD), "{Ustring,cold}");
}
