/* Isolation of an input, and of an array at its own end: by what is listed, else by
 * the short forms, the input's own rows and the array's external_isolator. What is
 * listed takes the place of the short form for the same place. */
#include "isolator.h"

typedef enum isolation { NOT_LISTED, SERVES_NOT, NOT_KNOWN, SERVES } isolation;

static const pvsz_subject *isolator_at(const pvsz_calc *calc, int32_t at)
{
    return at < 0 ? NULL : &calc->report->design.subject[PVSZ_KIND_ISOLATOR][at];
}

/* Whether one isolator serves; what is missing if that is not known. */
static isolation serves(pvsz_calc *calc, const pvsz_subject *isolator, int32_t *missing)
{
    const pvsz_entry *found = pvsz_compute_own(calc, PVSZ_QUANTITY_ISOLATOR_SERVES, isolator);

    if (found->state == PVSZ_MISSING) {
        *missing = found->missing;
        return NOT_KNOWN;
    }
    return found->value == PVSIZE_ANSWER_YES ? SERVES : SERVES_NOT; /* 0 where there is none */
}

/* The best of those of one owner at one place. */
static isolation best(pvsz_calc *calc, const pvsz_subject *owner, int32_t place, int32_t *missing)
{
    isolation found = NOT_LISTED;
    const pvsz_subject *at;

    for (at = isolator_at(calc, owner->first_isolator); at;
         at = isolator_at(calc, at->next_isolator)) {
        isolation here = pvsz_isolator_place(at) == place ? serves(calc, at, missing) : NOT_LISTED;

        if (here > found)
            found = here;
    }
    return found;
}

/* An input is isolated at a place by one isolator of its own, or by one of each array. */
static isolation listed(pvsz_calc *calc, int32_t place, int32_t *missing)
{
    isolation own, least = SERVES, most = NOT_LISTED;

    if (calc->report->design.count[PVSZ_KIND_ISOLATOR] == 0)
        return NOT_LISTED;
    own = best(calc, calc->subject, place, missing);
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_ARRAY); at;
         at = pvsz_next_below(calc, PVSZ_KIND_ARRAY, at)) {
        isolation here = best(calc, at, place, missing);

        least = here < least ? here : least;
        most = here > most ? here : most;
    }
    if (least == NOT_LISTED && most > NOT_LISTED)
        least = SERVES_NOT; /* an array was left out */
    return own > least ? own : least;
}

/* the short forms */

static isolation external(pvsz_calc *calc)
{
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_ARRAY); at;
         at = pvsz_next_below(calc, PVSZ_KIND_ARRAY, at)) {
        double answer = PVSIZE_ANSWER_NO;

        pvsz_param_below(calc, at, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, &answer);
        if (answer != PVSIZE_ANSWER_YES)
            return SERVES_NOT;
    }
    return SERVES;
}

/* One "no" settles that the built-in one does not serve, whatever else is
 * missing; only a full set of "yes" settles that it does. */
static isolation built_in(pvsz_calc *calc, int32_t *missing)
{
    static const int32_t needed[] = {PVSIZE_INPUT_ISOLATOR, PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD,
                                     PVSIZE_INPUT_ISOLATOR_LOCKS_OFF};
    isolation found = SERVES;

    for (int32_t i = PVSZ_COUNT(needed) - 1; i >= 0; i--) {
        if (!pvsz_has_param(calc, needed[i])) {
            *missing = needed[i];
            found = found == SERVES ? NOT_KNOWN : found;
        } else if (pvsz_peek_param(calc, needed[i]) == 0) {
            found = SERVES_NOT;
        }
    }
    return found;
}

static isolation beside(pvsz_calc *calc, int32_t *missing)
{
    isolation found = listed(calc, PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER, missing);

    return found == NOT_LISTED ? external(calc) : found;
}

void pvsz_of_input_isolated(pvsz_calc *calc)
{
    int32_t missing_outside = 0, missing_inside = 0;
    isolation outside, inside;

    if (calc->subject->below == 0) {
        pvsz_nothing(calc);
        return;
    }
    outside = beside(calc, &missing_outside);
    if (outside == SERVES) {
        pvsz_result(calc, pvsz_literal(calc, 1), "{external}; isolator beside the inverter");
        return;
    }
    inside = listed(calc, PVSIZE_ISOLATOR_PLACE_IN_INVERTER, &missing_inside);
    if (inside == NOT_LISTED)
        inside = built_in(calc, &missing_inside);
    if (inside == SERVES)
        pvsz_result(calc, pvsz_literal(calc, 1), "{built-in}; isolator in the inverter");
    else if (inside == NOT_KNOWN || outside == NOT_KNOWN)
        pvsz_missing(calc, inside == NOT_KNOWN ? missing_inside : missing_outside);
    else
        pvsz_result(calc, pvsz_literal(calc, 0), "{isolated}; no isolator serves alone");
}

/* A built-in isolator that is not relied on, or that is listed, has no duty here. */
static void isolator_duty(pvsz_calc *calc, int32_t quantity, const char *formula)
{
    int32_t missing = 0;

    if (calc->subject->below == 0 || beside(calc, &missing) == SERVES ||
        listed(calc, PVSIZE_ISOLATOR_PLACE_IN_INVERTER, &missing) != NOT_LISTED) {
        pvsz_nothing(calc);
        return;
    }
    if (!pvsz_has_param(calc, PVSIZE_INPUT_ISOLATOR)) {
        pvsz_missing(calc, PVSIZE_INPUT_ISOLATOR);
        return;
    }
    if (pvsz_peek_param(calc, PVSIZE_INPUT_ISOLATOR) == PVSIZE_ISOLATOR_NONE) {
        pvsz_nothing(calc);
        return;
    }
    pvsz_result(calc, pvsz_quantity(calc, quantity), formula);
}

void pvsz_of_isolator_voltage_duty(pvsz_calc *calc)
{
    isolator_duty(calc, PVSZ_QUANTITY_INPUT_VOC_HIGHEST, "{Uhigh}");
}

void pvsz_of_isolator_current_duty(pvsz_calc *calc)
{
    isolator_duty(calc, PVSZ_QUANTITY_INPUT_ISC_MAX, "{Isc,max,input}");
}

/* at the array */

/* How the isolators of one owner part the array at its own end. */
static isolation parts(pvsz_calc *calc, const pvsz_subject *owner, bool by_plugs, int32_t *missing)
{
    isolation found = best(calc, owner, PVSIZE_ISOLATOR_PLACE_AT_ARRAY, missing);
    const pvsz_subject *at;

    for (at = isolator_at(calc, owner->first_isolator); at;
         at = isolator_at(calc, at->next_isolator)) {
        if (found == NOT_LISTED)
            found = SERVES_NOT;
        if (by_plugs && pvsz_isolator_place(at) == PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT)
            found = SERVES;
    }
    return found;
}

/* A job that lists isolators lists all; one that lists none, like one without cables,
 * leaves this to be judged elsewhere. */
void pvsz_of_array_disconnected(pvsz_calc *calc)
{
    const pvsz_figure *asked = &calc->report->figure[PVSZ_FIGURE_ARRAY_DISCONNECTION];
    const pvsz_subject *input =
        &calc->report->design.subject[PVSZ_KIND_INPUT][calc->subject->at[PVSZ_KIND_INPUT]];
    int32_t missing = 0;
    isolation own, shared;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_ARRAY_DISCONNECTION) || asked->value == 0) {
        pvsz_nothing(calc);
        return;
    }
    own = parts(calc, calc->subject, asked->value > 1, &missing);
    shared = parts(calc, input, asked->value > 1, &missing);
    if (shared > own)
        own = shared;
    if (own == NOT_LISTED)
        pvsz_nothing(calc);
    if (own == NOT_KNOWN)
        pvsz_missing(calc, missing);
    pvsz_result(calc, pvsz_literal(calc, own == SERVES), "{parted}");
}
