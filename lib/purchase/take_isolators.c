/* What parts the direct current: isolators outside the inverter, listed or called for,
 * and the disconnection points in their place. */
#include "../rules/isolator.h"
#include "bill.h"

/* the way of the runs */

static const pvsz_subject *array_on(const pvsz_taking *take, int32_t at)
{
    return at < 0 ? NULL : pvsz_subject_at(take, PVSZ_KIND_ARRAY, at);
}

static const pvsz_subject *isolator_at(const pvsz_taking *take, int32_t at)
{
    return at < 0 ? NULL : pvsz_subject_at(take, PVSZ_KIND_ISOLATOR, at);
}

static int32_t place_of(const pvsz_taking *take, const pvsz_subject *isolator)
{
    return (int32_t)pvsz_told_param(pvsz_part_of(take, isolator), PVSIZE_ISOLATOR_PLACE).value;
}

static bool has_beside(const pvsz_taking *take, const pvsz_subject *owner)
{
    for (const pvsz_subject *at = isolator_at(take, owner->first_isolator); at;
         at = isolator_at(take, at->next_isolator))
        if (place_of(take, at) == PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER)
            return true;
    return false;
}

static bool has_listed(const pvsz_taking *take, const pvsz_subject *input)
{
    bool found = has_beside(take, input);

    for (const pvsz_subject *array = array_on(take, input->first_below); array && !found;
         array = array_on(take, array->next_on_input))
        found = has_beside(take, array);
    return found;
}

static bool has_external(const pvsz_taking *take, const pvsz_subject *input)
{
    for (const pvsz_subject *array = array_on(take, input->first_below); array;
         array = array_on(take, array->next_on_input))
        if (pvsz_told_param(pvsz_part_of(take, array), PVSIZE_ARRAY_EXTERNAL_ISOLATOR).value ==
            PVSIZE_ANSWER_YES)
            return true;
    return false;
}

/* One that is in the design is bought; else one is where the built-in one does not
 * serve and the rule set asks for it. */
pvsz_isolation pvsz_isolation_of(const pvsz_taking *take, const pvsz_subject *input)
{
    pvsz_told serves = pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_ISOLATED);

    if (has_listed(take, input))
        return (pvsz_isolation){pvsz_tell(0), PVSIZE_ISOLATOR_PLACE};
    if (has_external(take, input))
        return (pvsz_isolation){pvsz_tell(1), PVSIZE_ARRAY_EXTERNAL_ISOLATOR};
    if (!serves.missing && serves.value == PVSIZE_ANSWER_YES)
        return (pvsz_isolation){pvsz_tell(0), PVSIZE_QUANTITY_INPUT_ISOLATED};
    if (!pvsz_calls_for(take, PVSIZE_RULE_ISOLATOR))
        return (pvsz_isolation){pvsz_tell(0), PVSIZE_RULE_ISOLATOR};
    return (pvsz_isolation){serves.missing ? serves : pvsz_tell(1), PVSIZE_RULE_ISOLATOR};
}

pvsz_told pvsz_is_outside(const pvsz_taking *take, const pvsz_subject *isolator)
{
    int32_t place = place_of(take, isolator);

    if (place == 0)
        return pvsz_needs(PVSIZE_ISOLATOR_PLACE);
    return pvsz_tell(place == PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER ||
                     place == PVSIZE_ISOLATOR_PLACE_AT_ARRAY);
}

static pvsz_told sum_of(pvsz_told a, pvsz_told b)
{
    if (a.missing || b.missing)
        return pvsz_needs(a.missing ? a.missing : b.missing);
    return pvsz_tell(a.value + b.value);
}

typedef pvsz_told runs_fn(const pvsz_taking *take, const pvsz_subject *array);

/* Conductors of the runs of all arrays on an input. */
static pvsz_told through_input(const pvsz_taking *take, const pvsz_subject *input, runs_fn *runs)
{
    pvsz_told sum = pvsz_tell(0);

    for (const pvsz_subject *array = array_on(take, input->first_below); array;
         array = array_on(take, array->next_on_input))
        sum = sum_of(sum, runs(take, array));
    return pvsz_times(pvsz_tell(2), sum);
}

/* Conductors through a listed one: of its array, else of its input. */
static pvsz_told through(const pvsz_taking *take, const pvsz_subject *isolator, runs_fn *runs)
{
    if (isolator->at[PVSZ_KIND_ARRAY] >= 0)
        return pvsz_times(pvsz_tell(2), runs(take, array_on(take, isolator->at[PVSZ_KIND_ARRAY])));
    return through_input(
        take, pvsz_subject_at(take, PVSZ_KIND_INPUT, isolator->at[PVSZ_KIND_INPUT]), runs);
}

/* what each is, or must be */

/* The number of a listed one; one that is only called for has none. */
static pvsz_told stated(const pvsize_spec *spec, int32_t term)
{
    return spec ? pvsz_told_param(spec, term) : pvsz_needs(term);
}

static bool put_stated(pvsz_bill_row *line, const pvsize_spec *spec, int32_t term,
                       int32_t attribute)
{
    pvsz_told is = stated(spec, term);

    if (!is.missing)
        pvsz_with(line, attribute, is);
    return !is.missing;
}

/* A temperature goes with the current that it is told for. */
static void with_ratings(pvsz_taking *take, const pvsz_subject *isolator, pvsz_bill_row *line)
{
    const pvsize_spec *spec = pvsz_part_of(take, isolator);
    pvsz_told temp = pvsz_told_quantity(take, isolator, PVSZ_QUANTITY_ISOLATOR_TEMP);

    if (!put_stated(line, spec, PVSIZE_ISOLATOR_VOLTAGE, PVSIZE_ATTRIBUTE_VOLTAGE))
        pvsz_with(line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, isolator, PVSZ_QUANTITY_ISOLATOR_VOLTAGE_SEEN));
    if (put_stated(line, spec, PVSIZE_ISOLATOR_CURRENT, PVSIZE_ATTRIBUTE_RATING)) {
        put_stated(line, spec, PVSIZE_ISOLATOR_CURRENT_TEMP, PVSIZE_ATTRIBUTE_AMBIENT);
        pvsz_note_default(take, isolator, PVSIZE_ISOLATOR_CURRENT_TEMP);
    } else {
        pvsz_with(line, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST,
                  pvsz_told_quantity(take, isolator, PVSZ_QUANTITY_ISOLATOR_CURRENT_SEEN));
        if (!temp.missing)
            pvsz_with(line, PVSIZE_ATTRIBUTE_AMBIENT, temp);
    }
    if (put_stated(line, spec, PVSIZE_ISOLATOR_HOT_CURRENT, PVSIZE_ATTRIBUTE_HOT_RATING))
        put_stated(line, spec, PVSIZE_ISOLATOR_HOT_TEMP, PVSIZE_ATTRIBUTE_HOT_AMBIENT);
}

static void with_poles(const pvsize_spec *spec, pvsz_told conductors, pvsz_bill_row *line)
{
    if (!conductors.missing && conductors.value == 0) /* an open input */
        conductors = pvsz_needs(PVSIZE_ISOLATOR_POLES);
    if (!put_stated(line, spec, PVSIZE_ISOLATOR_POLES, PVSIZE_ATTRIBUTE_POLES))
        pvsz_with(line, PVSIZE_ATTRIBUTE_POLES, conductors);
}

/* What the poles of one conductor must break alone, if the rule set asks for it. */
static void with_pole_duty(const pvsz_taking *take, pvsz_told duty, pvsz_bill_row *line)
{
    if (pvsz_calls_for(take, PVSIZE_RULE_ISOLATOR_POLES) &&
        duty.missing != PVSIZE_QUANTITY_ISOLATOR_POLE_DUTY) /* they have none */
        pvsz_with(line, PVSIZE_ATTRIBUTE_CONDUCTOR_VOLTAGE_AT_LEAST, duty);
}

/* Unless it is told what they can. */
static void with_conductor_voltage(const pvsz_taking *take, const pvsz_subject *isolator,
                                   pvsz_bill_row *line)
{
    if (put_stated(line, pvsz_part_of(take, isolator), PVSIZE_ISOLATOR_CONDUCTOR_VOLTAGE,
                   PVSIZE_ATTRIBUTE_CONDUCTOR_VOLTAGE))
        return;
    if (pvsz_told_quantity(take, isolator, PVSZ_QUANTITY_ISOLATOR_POLE_VOLTAGE).missing)
        with_pole_duty(take, pvsz_told_quantity(take, isolator, PVSZ_QUANTITY_ISOLATOR_POLE_DUTY),
                       line);
}

/* That of one that is not listed. */
static pvsz_told pole_duty_at(const pvsz_taking *take, const pvsz_subject *input)
{
    pvsz_told separated =
        pvsz_told_param(pvsz_part_of(take, pvsz_subject_at(take, PVSZ_KIND_INVERTER,
                                                           input->at[PVSZ_KIND_INVERTER])),
                        PVSIZE_INVERTER_SEPARATED);

    if (separated.missing)
        return separated;
    return separated.value == PVSIZE_ANSWER_YES
               ? pvsz_needs(PVSIZE_QUANTITY_ISOLATOR_POLE_DUTY)
               : pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_VOC_HIGHEST);
}

/* The class that the rule set asks for by the strings on the input, if it asks for any. */
static void with_class(const pvsz_taking *take, const pvsz_subject *input, pvsz_bill_row *line)
{
    const pvsz_figure *figure = take->report->figure;
    pvsz_told class = pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_STRINGS);

    if (!pvsz_calls_for(take, PVSIZE_RULE_ISOLATOR_CATEGORY) ||
        (!figure[PVSZ_FIGURE_ISOLATOR_CLASS].set &&
         !figure[PVSZ_FIGURE_ISOLATOR_CLASS_PARALLEL].set))
        return;
    if (!class.missing) {
        int32_t place = pvsz_isolator_class_figure(class.value);

        class = figure[place].set ? pvsz_tell(figure[place].value)
                                  : pvsz_needs(pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number);
    }
    pvsz_with(line, PVSIZE_ATTRIBUTE_CLASS_AT_LEAST, class);
}

/* Of what is not said to be a bare isolating device, what the rule set asks of switches. */
static void with_answers(const pvsz_taking *take, const pvsize_spec *spec, bool breaks_load,
                         pvsz_bill_row *line)
{
    static const struct {
        int32_t term, attribute, rule;
    } answers[] = {
        {PVSIZE_ISOLATOR_MEETS_STANDARD, PVSIZE_ATTRIBUTE_MEETS_STANDARD,
         PVSIZE_RULE_ISOLATOR_OF_STANDARD},
        {PVSIZE_ISOLATOR_LOCKABLE, PVSIZE_ATTRIBUTE_LOCKABLE, PVSIZE_RULE_ISOLATOR_LOCKS},
        {PVSIZE_ISOLATOR_BREAKS_ALL, PVSIZE_ATTRIBUTE_BREAKS_ALL, PVSIZE_RULE_ISOLATOR_OPENS_ALL},
        {PVSIZE_ISOLATOR_EITHER_POLARITY, PVSIZE_ATTRIBUTE_EITHER_POLARITY,
         PVSIZE_RULE_ISOLATOR_NON_POLARISED},
    };

    for (int32_t i = 0; i < PVSZ_COUNT(answers); i++)
        if (!put_stated(line, spec, answers[i].term, answers[i].attribute) &&
            (breaks_load || answers[i].term == PVSIZE_ISOLATOR_MEETS_STANDARD) &&
            pvsz_calls_for(take, answers[i].rule))
            pvsz_with(line, answers[i].attribute, pvsz_tell(PVSIZE_ANSWER_YES));
}

static void with_switching(const pvsz_taking *take, const pvsize_spec *spec,
                           const pvsz_subject *input, pvsz_bill_row *line)
{
    pvsz_told breaks = stated(spec, PVSIZE_ISOLATOR_LOAD_BREAK);
    bool breaks_load = breaks.missing || breaks.value == PVSIZE_ANSWER_YES;

    pvsz_with(line, PVSIZE_ATTRIBUTE_LOAD_BREAK, pvsz_tell(breaks_load));
    if (!put_stated(line, spec, PVSIZE_ISOLATOR_CATEGORY, PVSIZE_ATTRIBUTE_CATEGORY) && breaks_load)
        with_class(take, input, line);
    with_answers(take, spec, breaks_load, line);
}

/* isolators */

/* The one of an input that lists none beside the inverter. */
static void take_called_for(pvsz_taking *take, const pvsz_subject *input, pvsz_isolation isolation)
{
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_DC_ISOLATOR, -1);

    if (isolation.count.missing || isolation.count.value > 0) {
        pvsz_with(&line, PVSIZE_ATTRIBUTE_PLACE, pvsz_tell(PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER));
        pvsz_with(&line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_VOC_HIGHEST));
        pvsz_with(&line, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST,
                  pvsz_told_quantity(take, input, PVSZ_QUANTITY_INPUT_ISC_MAX));
        with_poles(NULL, through_input(take, input, pvsz_runs), &line);
        with_pole_duty(take, pole_duty_at(take, input), &line);
        with_switching(take, NULL, input, &line);
    }
    pvsz_put_share(take, &line, input, isolation.why, isolation.count);
}

/* One that is listed: a part of the inverter costs nothing. */
static void take_listed(pvsz_taking *take, const pvsz_subject *isolator)
{
    const pvsize_spec *spec = pvsz_part_of(take, isolator);
    pvsz_told count = pvsz_is_outside(take, isolator);
    pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_DC_ISOLATOR, -1);

    if (!count.missing && count.value > 0) {
        pvsz_with(&line, PVSIZE_ATTRIBUTE_PLACE, pvsz_tell(place_of(take, isolator)));
        with_ratings(take, isolator, &line);
        with_poles(spec, through(take, isolator, pvsz_runs), &line);
        with_conductor_voltage(take, isolator, &line);
        with_switching(take, spec,
                       pvsz_subject_at(take, PVSZ_KIND_INPUT, isolator->at[PVSZ_KIND_INPUT]),
                       &line);
    }
    pvsz_put_share(take, &line, isolator, PVSIZE_ISOLATOR_PLACE, count);
}

void pvsz_take_isolators(pvsz_taking *take)
{
    const int32_t *count = take->report->design.count;

    for (int32_t i = 0; i < count[PVSZ_KIND_INPUT]; i++) {
        const pvsz_subject *input = pvsz_subject_at(take, PVSZ_KIND_INPUT, i);

        if (input->below > 0 && take->isolation[i].why != PVSIZE_ISOLATOR_PLACE)
            take_called_for(take, input, take->isolation[i]);
    }
    for (int32_t i = 0; i < count[PVSZ_KIND_ISOLATOR]; i++) {
        const pvsz_subject *isolator = isolator_at(take, i);

        if (place_of(take, isolator) != PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT)
            take_listed(take, isolator);
    }
}

/* disconnection points */

/* What plugs straight in is parted at its own leads. */
static pvsz_told cut_runs(const pvsz_taking *take, const pvsz_subject *array)
{
    return pvsz_plugs_in(take, array) ? pvsz_tell(0) : pvsz_runs(take, array);
}

/* No cable on the way, or nothing on the input. */
static int32_t why_none(const pvsz_taking *take, const pvsz_subject *point)
{
    const pvsz_subject *input = pvsz_subject_at(take, PVSZ_KIND_INPUT, point->at[PVSZ_KIND_INPUT]);

    return input->below > 0 ? PVSIZE_CABLE_LENGTH : PVSIZE_ISOLATOR_INPUT;
}

void pvsz_take_disconnection_points(pvsz_taking *take)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_ISOLATOR]; i++) {
        const pvsz_subject *point = isolator_at(take, i);
        pvsz_told pairs = through(take, point, cut_runs);
        bool none = !pairs.missing && pairs.value == 0;
        pvsz_bill_row line = pvsz_line(PVSIZE_ITEM_DISCONNECTION_POINT, -1);

        if (place_of(take, point) != PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT)
            continue;
        if (!none)
            with_ratings(take, point, &line);
        pvsz_put_share(take, &line, point, none ? why_none(take, point) : PVSIZE_ISOLATOR_PLACE,
                       pairs);
    }
}
