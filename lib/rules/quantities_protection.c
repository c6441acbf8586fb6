/* Overcurrent protection of strings: when a device is needed, which ratings
 * protect, and which standard rating is the smallest of them. */
#include "../wiring/ratings.h"
#include "calc.h"

void pvsz_of_array_isc(pvsz_calc *calc)
{
    double strings = pvsz_param(calc, PVSIZE_ARRAY_STRINGS);
    double correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);

    pvsz_result(calc, strings * correction * pvsz_param(calc, PVSIZE_MODULE_ISC),
                "{S} × {Kcorr} × {Isc}");
}

void pvsz_of_input_isc(pvsz_calc *calc)
{
    pvsz_result(calc, pvsz_sum(calc, PVSZ_KIND_ARRAY, PVSZ_QUANTITY_ARRAY_ISC), "{+Isc,array}");
}

/* Whether what flows back from the inverter counts. A maker who states none of it
 * adds nothing. */
static bool has_backfeed(const pvsz_calc *calc)
{
    return pvsz_is_yes(calc, PVSZ_FIGURE_DEVICE_TRIGGER_BACKFEED) &&
           !pvsz_states_none(calc, PVSIZE_INVERTER_BACKFEED_CURRENT);
}

/* All other strings on the input feed the one at fault. */
void pvsz_of_string_reverse_current(pvsz_calc *calc)
{
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_TRIGGER_FACTOR);
    double all = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_ISC);
    double correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    double isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    double others = pvsz_subtract(all, correction * isc);

    if (!has_backfeed(calc)) {
        pvsz_result(calc, factor * others, "{kT} × ({Isc,input} - {Kcorr} × {Isc})");
        return;
    }
    pvsz_result(calc, factor * others + pvsz_param(calc, PVSIZE_INVERTER_BACKFEED_CURRENT),
                "{kT} × ({Isc,input} - {Kcorr} × {Isc}) + {Ibackfeed}");
}

void pvsz_of_string_reverse_limit(pvsz_calc *calc)
{
    double share = pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_TRIGGER_SHARE);

    pvsz_result(calc, share * pvsz_param(calc, PVSIZE_MODULE_MAX_SERIES_FUSE), "{kS} × {Imod}");
}

/* Few strings are free whatever the current; one alone has none to fear. */
static bool are_free(pvsz_calc *calc)
{
    const pvsz_figure *most = &calc->report->figure[PVSZ_FIGURE_DEVICE_FREE_STRINGS];
    const pvsz_entry *strings;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_DEVICE_FREE_STRINGS))
        return false;
    strings = pvsz_compute(calc, PVSZ_QUANTITY_INPUT_STRINGS, calc->subject);
    return pvsz_has_value(strings) && pvsz_at_most(strings->value, most->value);
}

void pvsz_of_string_device_needed(pvsz_calc *calc)
{
    double reverse, limit;

    if (are_free(calc)) {
        pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_STRINGS);
        pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_FREE_STRINGS);
        pvsz_result(calc, PVSIZE_ANSWER_NO, "{S} > {Sfree}");
        return;
    }
    reverse = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_REVERSE_CURRENT);
    limit = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_REVERSE_LIMIT);
    pvsz_result(calc, !pvsz_at_most(reverse, limit), "{Irev} > {Irev,max}");
}

/* (S - 1) x kT x Isc and what flows back within the limit; never fewer than those
 * that are free. */
void pvsz_of_strings_without_device(pvsz_calc *calc)
{
    bool fed_back = has_backfeed(calc);
    double limit = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_REVERSE_LIMIT);
    double left = limit - (fed_back ? pvsz_param(calc, PVSIZE_INVERTER_BACKFEED_CURRENT) : 0);
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_TRIGGER_FACTOR);
    double correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);
    double isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    double least = pvsz_has_figure(calc, PVSZ_FIGURE_DEVICE_FREE_STRINGS)
                       ? pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_FREE_STRINGS)
                       : pvsz_literal(calc, 1);
    double most = pvsz_most_that_fit(factor * correction * isc, left) + 1;

    pvsz_result(calc, most > least ? most : least,
                fed_back ? "max(floor(({Irev,max} - {Ibackfeed}) / ({kT} × {Kcorr} × {Isc})) + 1, "
                           "{Sfree})"
                         : "max(floor({Irev,max} / ({kT} × {Kcorr} × {Isc})) + 1, {Sfree})");
}

/* the window of ratings */

/* Ratings are of interest where a device is needed or fitted. */
static bool is_of_interest(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_ARRAY_STRING_DEVICE))
        return true;
    if (pvsz_decide(calc, PVSZ_QUANTITY_STRING_DEVICE_NEEDED) == PVSIZE_ANSWER_YES)
        return true;
    pvsz_nothing(calc);
    return false;
}

void pvsz_of_string_device_low(pvsz_calc *calc)
{
    if (!is_of_interest(calc))
        return;
    double factor = pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_LOW_FACTOR);
    double grouped = pvsz_param(calc, PVSIZE_ARRAY_STRINGS_PER_DEVICE);
    double correction = pvsz_quantity(calc, PVSZ_QUANTITY_CURRENT_CORRECTION);

    pvsz_result(calc, factor * grouped * correction * pvsz_param(calc, PVSIZE_MODULE_ISC),
                "{klow} × {Sg} × {Kcorr} × {Isc}");
}

/* Of grouped strings the others of the group feed the one at fault past the
 * device: what is left of the module's rating is for the device. */
void pvsz_of_string_device_high(pvsz_calc *calc)
{
    if (!is_of_interest(calc))
        return;
    double rating = pvsz_param(calc, PVSIZE_MODULE_MAX_SERIES_FUSE);
    double grouped = pvsz_param(calc, PVSIZE_ARRAY_STRINGS_PER_DEVICE);
    double isc = pvsz_param(calc, PVSIZE_MODULE_ISC);
    double left = rating - (grouped - 1) * isc;
    double band;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_DEVICE_HIGH_FACTOR)) {
        pvsz_result(calc, left, "{Imod} - ({Sg} - 1) × {Isc}");
        return;
    }
    band = pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_HIGH_FACTOR) * grouped * isc;
    pvsz_result(calc, band < left ? band : left,
                "min({Imod} - ({Sg} - 1) × {Isc}, {khigh} × {Sg} × {Isc})");
}

void pvsz_of_string_group(pvsz_calc *calc)
{
    double grouped = 1;

    pvsz_spec_number(calc->subject->spec[PVSZ_KIND_ARRAY], PVSIZE_ARRAY_STRINGS_PER_DEVICE,
                     &grouped);
    if (grouped == 1) { /* the default, which is of no interest here */
        pvsz_nothing(calc);
        return;
    }
    pvsz_result(calc, pvsz_param(calc, PVSIZE_ARRAY_STRINGS_PER_DEVICE), "{Sg}");
}

void pvsz_of_string_device_rating(pvsz_calc *calc)
{
    bool strict = pvsz_is_yes(calc, PVSZ_FIGURE_DEVICE_LOW_STRICT);
    double low = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_DEVICE_LOW);
    double high = pvsz_quantity(calc, PVSZ_QUANTITY_STRING_DEVICE_HIGH);
    int32_t series = (int32_t)pvsz_figure_of(calc, PVSZ_FIGURE_DEVICE_SERIES);
    double rating = 0;
    bool fits;

    if (!pvsz_is_open(calc))
        return;
    fits = pvsz_smallest_rating(series, low, strict, high, &rating);
    pvsz_note_anew(calc); /* the rating comes first in the formula */
    pvsz_literal(calc, rating);
    pvsz_quantity(calc, PVSZ_QUANTITY_STRING_DEVICE_LOW);
    pvsz_quantity(calc, PVSZ_QUANTITY_STRING_DEVICE_HIGH);
    if (!fits)
        pvsz_result(calc, 0, "{In}; no standard rating from {In,low} to {In,high}");
    else if (strict)
        pvsz_result(calc, rating, "{In}; smallest standard one above {In,low} and up to {In,high}");
    else
        pvsz_result(calc, rating, "{In}; smallest standard one from {In,low} to {In,high}");
}

void pvsz_of_string_device_exists(pvsz_calc *calc)
{
    if (pvsz_decide(calc, PVSZ_QUANTITY_STRING_DEVICE_NEEDED) == PVSIZE_ANSWER_NO)
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_STRING_DEVICE_RATING) > 0, "{In} > 0");
}

/* what is fitted */

/* A device takes the place of this limit, and few strings have none. Silence means
 * that there is no device, and is told. */
void pvsz_of_string_unprotected_current(pvsz_calc *calc)
{
    if (pvsz_has_param(calc, PVSIZE_ARRAY_STRING_DEVICE) || are_free(calc)) {
        pvsz_nothing(calc);
        return;
    }
    if (pvsz_is_unknown(calc, PVSIZE_ARRAY_STRING_DEVICE))
        pvsz_assume(calc, PVSIZE_ARRAY_STRING_DEVICE, calc->subject, 0);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_STRING_REVERSE_CURRENT), "{Irev}");
}

void pvsz_of_string_device_duty_voltage(pvsz_calc *calc)
{
    if (!pvsz_has_param(calc, PVSIZE_ARRAY_STRING_DEVICE))
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_STRING_VOC_COLD), "{Ustring,cold}");
}
