/* Isolators listed one by one: what each must break, what it can, and whether it
 * serves. A disconnection point is no switch: of it only voltage and current count. */
#include "isolator.h"

static bool is_of_array(const pvsz_calc *calc)
{
    return calc->subject->at[PVSZ_KIND_ARRAY] >= 0;
}

int32_t pvsz_isolator_place(const pvsz_subject *isolator)
{
    double place = 0;

    pvsz_spec_number(isolator->spec[PVSZ_KIND_ISOLATOR], PVSIZE_ISOLATOR_PLACE, &place);
    return (int32_t)place;
}

/* Whether what is asked of switches is asked of it; else the quantity is told apart. */
static bool is_switch(pvsz_calc *calc)
{
    if (pvsz_isolator_place(calc->subject) == 0)
        pvsz_missing(calc, PVSIZE_ISOLATOR_PLACE);
    else if (pvsz_isolator_place(calc->subject) == PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT)
        pvsz_nothing(calc);
    else
        return true;
    return false;
}

void pvsz_of_isolator_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}

/* what it sees */

void pvsz_of_isolator_voltage_seen(pvsz_calc *calc)
{
    pvsz_result(calc,
                pvsz_quantity(calc, is_of_array(calc) ? PVSZ_QUANTITY_STRING_VOC_COLD
                                                      : PVSZ_QUANTITY_INPUT_VOC_HIGHEST),
                is_of_array(calc) ? "{Ustring,cold}" : "{Uhigh}");
}

void pvsz_of_isolator_current_seen(pvsz_calc *calc)
{
    pvsz_result(calc,
                pvsz_quantity(calc, is_of_array(calc) ? PVSZ_QUANTITY_ARRAY_ISC_MAX
                                                      : PVSZ_QUANTITY_INPUT_ISC_MAX),
                is_of_array(calc) ? "{Isc,max}" : "{Isc,max,input}");
}

/* A rule set that tells no temperatures leaves them to whoever measures. */
void pvsz_of_isolator_temp(pvsz_calc *calc)
{
    bool shade = pvsz_has_figure(calc, PVSZ_FIGURE_ISOLATOR_TEMP_SHADE);
    bool sun = pvsz_has_figure(calc, PVSZ_FIGURE_ISOLATOR_TEMP_SUN);

    if (pvsz_has_param(calc, PVSIZE_ISOLATOR_AMBIENT))
        pvsz_result(calc, pvsz_param(calc, PVSIZE_ISOLATOR_AMBIENT), "{Ta}");
    else if (!shade && !sun)
        pvsz_missing(calc, PVSIZE_ISOLATOR_AMBIENT);
    else if (!pvsz_has_param(calc, PVSIZE_ISOLATOR_IN_SUN))
        pvsz_missing(calc, PVSIZE_ISOLATOR_IN_SUN);
    else if (pvsz_peek_param(calc, PVSIZE_ISOLATOR_IN_SUN) == PVSIZE_ANSWER_YES)
        pvsz_result(calc, pvsz_figure_of(calc, PVSZ_FIGURE_ISOLATOR_TEMP_SUN), "{Tsun}");
    else
        pvsz_result(calc, pvsz_figure_of(calc, PVSZ_FIGURE_ISOLATOR_TEMP_SHADE), "{Tshade}");
}

/* what it can */

/* Between the temperatures that the maker states nothing is interpolated: the
 * hotter one counts. */
void pvsz_of_isolator_capacity(pvsz_calc *calc)
{
    double current = pvsz_param(calc, PVSIZE_ISOLATOR_CURRENT);
    double limit = pvsz_param(calc, PVSIZE_ISOLATOR_CURRENT_TEMP);
    double temp = pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_TEMP);
    double hot, hot_limit;

    if (pvsz_at_most(temp, limit)) {
        pvsz_result(calc, current, "{Ie}; up to {T}, at {Tiso}");
        return;
    }
    hot = pvsz_param(calc, PVSIZE_ISOLATOR_HOT_CURRENT);
    hot_limit = pvsz_param(calc, PVSIZE_ISOLATOR_HOT_TEMP);
    pvsz_note_anew(calc); /* the one that counts comes first */
    if (!pvsz_at_most(temp, hot_limit)) {
        pvsz_literal(calc, 0);
        pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_TEMP);
        pvsz_result(calc, 0, "{Ie}; none stated for {Tiso}");
        return;
    }
    pvsz_param(calc, hot < current ? PVSIZE_ISOLATOR_HOT_CURRENT : PVSIZE_ISOLATOR_CURRENT);
    pvsz_param(calc, PVSIZE_ISOLATOR_HOT_TEMP);
    pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_TEMP);
    pvsz_result(calc, hot < current ? hot : current, "{Ie}; up to {T}, at {Tiso}");
}

/* Where nothing separates the array from the earthed supply, a fault to earth
 * leaves the whole voltage to the poles of one conductor. */
void pvsz_of_isolator_pole_duty(pvsz_calc *calc)
{
    if (!is_switch(calc))
        return;
    if (pvsz_peek_param(calc, PVSIZE_ISOLATOR_POLES_SHARE) == PVSIZE_ANSWER_YES) {
        pvsz_nothing(calc);
        return;
    }
    if (!pvsz_has_param(calc, PVSIZE_INVERTER_SEPARATED))
        pvsz_missing(calc, PVSIZE_INVERTER_SEPARATED);
    else if (pvsz_peek_param(calc, PVSIZE_INVERTER_SEPARATED) == PVSIZE_ANSWER_YES)
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_VOLTAGE_SEEN),
                "{Useen}; nothing separates the array from the supply");
}

void pvsz_of_isolator_pole_voltage(pvsz_calc *calc)
{
    double voltage, own, poles;

    if (!is_switch(calc))
        return;
    if (pvsz_has_param(calc, PVSIZE_ISOLATOR_CONDUCTOR_VOLTAGE)) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_ISOLATOR_CONDUCTOR_VOLTAGE), "{Ue}");
        return;
    }
    voltage = pvsz_param(calc, PVSIZE_ISOLATOR_VOLTAGE);
    own = pvsz_param(calc, PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR);
    poles = pvsz_param(calc, PVSIZE_ISOLATOR_POLES);
    if (pvsz_is_open(calc) && own > poles) /* a slip: no share is more than all */
        pvsz_missing(calc, PVSIZE_ISOLATOR_POLES);
    pvsz_result(calc, voltage * own / poles, "{Ue} × {own} / {poles}");
}

/* category */

/* Whether the rule set lets a device that does not break load serve here. */
static bool may_be_bare(pvsz_calc *calc)
{
    const pvsz_figure *most = &calc->report->figure[PVSZ_FIGURE_LOAD_BREAK_ABOVE];

    return pvsz_has_figure(calc, PVSZ_FIGURE_LOAD_BREAK_ABOVE) &&
           pvsz_has_quantity(calc, PVSZ_QUANTITY_ISOLATOR_CURRENT_SEEN) &&
           pvsz_at_most(pvsz_peek_quantity(calc, PVSZ_QUANTITY_ISOLATOR_CURRENT_SEEN), most->value);
}

static bool breaks_load(pvsz_calc *calc)
{
    return pvsz_has_param(calc, PVSIZE_ISOLATOR_LOAD_BREAK) &&
           pvsz_peek_param(calc, PVSIZE_ISOLATOR_LOAD_BREAK) == PVSIZE_ANSWER_YES;
}

/* Whether what is asked of a switch under load is asked of it. */
static bool is_load_switch(pvsz_calc *calc)
{
    if (!is_switch(calc))
        return false;
    if (breaks_load(calc) || !may_be_bare(calc))
        return true;
    pvsz_nothing(calc);
    return false;
}

void pvsz_of_isolator_category_class(pvsz_calc *calc)
{
    static const int32_t class_of[] = {
        [PVSIZE_UTILISATION_DC_PV0] = 0, [PVSIZE_UTILISATION_DC_PV1] = 1,
        [PVSIZE_UTILISATION_DC_PV2] = 2, [PVSIZE_UTILISATION_DC_21A] = 1,
        [PVSIZE_UTILISATION_DC_21B] = 1,
    };
    double class;

    if (!is_load_switch(calc))
        return;
    if (!pvsz_has_param(calc, PVSIZE_ISOLATOR_CATEGORY)) {
        pvsz_missing(calc, PVSIZE_ISOLATOR_CATEGORY);
        return;
    }
    class = class_of[(int32_t)pvsz_peek_param(calc, PVSIZE_ISOLATOR_CATEGORY)];
    pvsz_literal(calc, class);
    pvsz_param(calc, PVSIZE_ISOLATOR_CATEGORY);
    pvsz_result(calc, class, "{class}; of {category}");
}

int32_t pvsz_isolator_class_figure(double strings)
{
    return strings > 1 ? PVSZ_FIGURE_ISOLATOR_CLASS_PARALLEL : PVSZ_FIGURE_ISOLATOR_CLASS;
}

void pvsz_of_isolator_class_needed(pvsz_calc *calc)
{
    double strings;
    int32_t figure;

    if (!pvsz_has_figure(calc, PVSZ_FIGURE_ISOLATOR_CLASS) &&
        !pvsz_has_figure(calc, PVSZ_FIGURE_ISOLATOR_CLASS_PARALLEL)) {
        pvsz_nothing(calc);
        return;
    }
    strings = pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_STRINGS);
    if (!pvsz_is_open(calc))
        return;
    figure = pvsz_isolator_class_figure(strings);
    pvsz_note_anew(calc); /* the class comes first */
    pvsz_figure_of(calc, figure);
    pvsz_quantity(calc, PVSZ_QUANTITY_INPUT_STRINGS);
    pvsz_result(calc, calc->report->figure[figure].value, "{class}; strings on the input: {S}");
}

/* answers */

static void answer(pvsz_calc *calc, int32_t term)
{
    if (is_load_switch(calc))
        pvsz_result(calc, pvsz_param(calc, term), "{answer}");
}

void pvsz_of_isolator_breaks_load(pvsz_calc *calc)
{
    if (!is_switch(calc))
        return;
    if (!breaks_load(calc) && may_be_bare(calc)) {
        pvsz_literal(calc, PVSIZE_ANSWER_YES);
        pvsz_figure_of(calc, PVSZ_FIGURE_LOAD_BREAK_ABOVE);
        pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_CURRENT_SEEN);
        pvsz_result(calc, PVSIZE_ANSWER_YES,
                    "{serves}; an isolating device does up to {Iiso}, here {Iseen}");
        return;
    }
    pvsz_result(calc, pvsz_param(calc, PVSIZE_ISOLATOR_LOAD_BREAK), "{answer}");
}

void pvsz_of_isolator_of_standard(pvsz_calc *calc)
{
    if (is_switch(calc))
        pvsz_result(calc, pvsz_param(calc, PVSIZE_ISOLATOR_MEETS_STANDARD), "{answer}");
}

void pvsz_of_isolator_locks(pvsz_calc *calc)
{
    answer(calc, PVSIZE_ISOLATOR_LOCKABLE);
}

void pvsz_of_isolator_opens_all(pvsz_calc *calc)
{
    answer(calc, PVSIZE_ISOLATOR_BREAKS_ALL);
}

void pvsz_of_isolator_non_polarised(pvsz_calc *calc)
{
    answer(calc, PVSIZE_ISOLATOR_EITHER_POLARITY);
}

/* One "no" settles that it does not, whatever else is missing. */
void pvsz_of_isolator_serves(pvsz_calc *calc)
{
    static const int32_t asked[] = {PVSZ_QUANTITY_ISOLATOR_BREAKS_LOAD,
                                    PVSZ_QUANTITY_ISOLATOR_OF_STANDARD,
                                    PVSZ_QUANTITY_ISOLATOR_LOCKS};
    bool serves = true;

    if (!is_switch(calc))
        return;
    for (int32_t i = 0; i < PVSZ_COUNT(asked); i++)
        if (pvsz_has_quantity(calc, asked[i]) &&
            pvsz_peek_quantity(calc, asked[i]) == PVSIZE_ANSWER_NO)
            serves = false;
    if (!serves) {
        pvsz_result(calc, pvsz_literal(calc, PVSIZE_ANSWER_NO), "{serves}");
        return;
    }
    pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_BREAKS_LOAD);
    pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_OF_STANDARD);
    if (breaks_load(calc) || !may_be_bare(calc))
        pvsz_quantity(calc, PVSZ_QUANTITY_ISOLATOR_LOCKS);
    pvsz_result(calc, PVSIZE_ANSWER_YES, "min({,answer})");
}

/* where it stands */

static void beside(pvsz_calc *calc, int32_t term)
{
    if (!is_switch(calc))
        return;
    if (pvsz_isolator_place(calc->subject) != PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER)
        pvsz_nothing(calc);
    pvsz_result(calc, pvsz_param(calc, term), "{d}");
}

void pvsz_of_isolator_away(pvsz_calc *calc)
{
    beside(calc, PVSIZE_ISOLATOR_DISTANCE);
}

void pvsz_of_isolator_seen(pvsz_calc *calc)
{
    beside(calc, PVSIZE_ISOLATOR_IN_SIGHT);
}
