/* Remarks: a row says when one is made and how it reads; a function looks whether it
 * holds, and finds the numbers. Limits come from a trial's report, never from a formula
 * beside the rules. */
#include <math.h>

#include "review.h"

static const pvsz_remark_row rows[] = {
#define REMARK(ID, SCOPE, SEVERITY, condition, sentence, why) \
    {PVSIZE_REMARK_##ID, SCOPE, PVSIZE_SEVERITY_##SEVERITY, condition, sentence, why},
#define INPUT true
#define INVERTER false
#include "../tables/remarks.def"
#undef INPUT
#undef INVERTER
#undef REMARK
};

const pvsz_remark_row *pvsz_remark_of(int32_t remark)
{
    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        if (rows[i].remark == remark)
            return &rows[i];
    return NULL;
}

const char *pvsize_remark_condition(int32_t remark)
{
    const pvsz_remark_row *row = pvsz_remark_of(remark);

    return row ? row->condition : NULL;
}

const char *pvsize_remark_sentence(int32_t remark)
{
    const pvsz_remark_row *row = pvsz_remark_of(remark);

    return row ? row->sentence : NULL;
}

/* what remarks go by */

static const pvsize_spec *input_at(const pvsz_making *making, int32_t i)
{
    return pvsz_input_of(making->inverter, i);
}

static bool of_input(const pvsz_making *making, int32_t term, double *value)
{
    return pvsz_spec_number(input_at(making, making->input), term, value);
}

static bool of_inverter(const pvsz_making *making, int32_t term, double *value)
{
    return pvsz_spec_number(making->inverter, term, value);
}

/* The bound on this input that a rule on currents sets, with so many strings: one, and nothing is
 * missing for it. */
static bool bound_by(const pvsz_making *making, int32_t rule, int32_t strings, double *value)
{
    for (size_t i = 0; i < making->bounds; i++) {
        const pvsz_bound *bound = &making->bound[i];

        if (bound->rule != rule || bound->strings != strings || bound->input != making->input)
            continue;
        *value = bound->value;
        return true;
    }
    return false;
}

static void add(pvsz_making *making, const pvsz_remark *remark)
{
    pvsz_remark *grown = making->status ? NULL
                                        : pvsz_grow(making->memory, making->remark, making->remarks,
                                                    &making->remark_room, sizeof *grown);

    if (grown) {
        making->remark = grown;
        grown[making->remarks++] = *remark;
    } else if (!making->status) {
        making->status = pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
    }
}

static void say(pvsz_making *making, int32_t remark, const double *numbers, int32_t count)
{
    pvsz_remark made = {.remark = remark, .numbers = count};

    made.input = pvsz_remark_of(remark)->of_input ? making->input : -1;
    for (int32_t i = 0; i < count; i++)
        made.number[i] = numbers[i];
    add(making, &made);
}
#define SAY(making, remark, ...) \
    say(making, remark, (const double[]){__VA_ARGS__}, PVSZ_COUNT(((const double[]){__VA_ARGS__})))

/* one input */

/* Both limits as bounds on one module: the factor is what the check made of them. */
static void remark_on_currents(pvsz_making *making)
{
    double operating, rating, isc, imp;

    if (!of_input(making, PVSIZE_INPUT_MAX_OPERATING_CURRENT, &operating) ||
        !of_input(making, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, &rating) ||
        !bound_by(making, PVSIZE_RULE_ISC_INPUT, 1, &isc) ||
        !bound_by(making, PVSIZE_RULE_OPERATING_CURRENT, 1, &imp))
        return;
    SAY(making,
        !pvsz_at_most(imp, isc)        ? PVSIZE_REMARK_FAULT_LIMIT_FIRST
        : pvsz_at_most(1.1 * imp, isc) ? PVSIZE_REMARK_OPERATING_LIMIT_FIRST
                                       : PVSIZE_REMARK_LIMITS_NEAR,
        rating / operating, rating / isc, isc, imp);
}

/* The verdict is the check's; the data say why. */
static void remark_on_isolator(pvsz_making *making)
{
    static const int32_t needed[][2] = {
        {PVSIZE_INPUT_ISOLATOR, PVSIZE_REMARK_ISOLATOR_NONE},
        {PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD, PVSIZE_REMARK_ISOLATOR_NO_STANDARD},
        {PVSIZE_INPUT_ISOLATOR_LOCKS_OFF, PVSIZE_REMARK_ISOLATOR_NO_LOCK},
    };
    const pvsz_finding *finding = pvsz_trial_finding(making, PVSIZE_RULE_ISOLATOR);
    double answer, voltage, current, most, rating;
    int32_t unknown = 0;

    if (!finding)
        return;
    if (finding->verdict == PVSIZE_VERDICT_MEETS)
        say(making, PVSIZE_REMARK_ISOLATOR_SERVES, NULL, 0);
    for (int32_t i = 0; i < PVSZ_COUNT(needed); i++) {
        if (!of_input(making, needed[i][0], &answer)) {
            unknown++;
        } else if (answer == 0) { /* one such settles it: the rule is broken */
            say(making, needed[i][1], NULL, 0);
            return;
        }
    }
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        SAY(making, PVSIZE_REMARK_ISOLATOR_UNKNOWN, unknown);
    if (of_input(making, PVSIZE_INPUT_ISOLATOR_VOLTAGE, &voltage) &&
        of_input(making, PVSIZE_INPUT_MAX_VOLTAGE, &most) && !pvsz_at_most(most, voltage))
        SAY(making, PVSIZE_REMARK_ISOLATOR_VOLTAGE, voltage, most);
    if (of_input(making, PVSIZE_INPUT_ISOLATOR_CURRENT, &current) &&
        of_input(making, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, &rating) &&
        !pvsz_at_most(rating, current))
        SAY(making, PVSIZE_REMARK_ISOLATOR_CURRENT, current, rating);
}

static void remark_on_terminals(pvsz_making *making)
{
    double terminals, current, rating, imp, isc;

    if (!of_input(making, PVSIZE_INPUT_TERMINALS, &terminals))
        return;
    if (bound_by(making, PVSIZE_RULE_OPERATING_CURRENT, (int32_t)terminals, &imp) &&
        bound_by(making, PVSIZE_RULE_ISC_INPUT, (int32_t)terminals, &isc))
        SAY(making, PVSIZE_REMARK_TERMINALS, terminals, imp, isc);
    if (of_input(making, PVSIZE_INPUT_TERMINAL_CURRENT, &current) &&
        of_input(making, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, &rating) &&
        !pvsz_at_most(rating, terminals * current))
        SAY(making, PVSIZE_REMARK_TERMINAL_RATING, current, terminals * current, rating);
}

static void remark_on_window(pvsz_making *making)
{
    double low, high, from, to, start, vmp = 0;

    if (!of_input(making, PVSIZE_INPUT_TRACKING_MIN, &low) ||
        !of_input(making, PVSIZE_INPUT_TRACKING_MAX, &high))
        return;
    pvsz_enquiry_number(making, PVSIZE_ENQUIRY_MODULE_VMP, &vmp);
    if (!of_input(making, PVSIZE_INPUT_FULL_POWER_MIN, &from) ||
        !of_input(making, PVSIZE_INPUT_FULL_POWER_MAX, &to)) {
        SAY(making, PVSIZE_REMARK_WINDOW_UNKNOWN, low, high);
    } else if (to > from && high > low) {
        double share = (to - from) / (high - low) * 100;

        SAY(making, pvsz_at_most(60, share) ? PVSIZE_REMARK_WINDOW : PVSIZE_REMARK_WINDOW_NARROW,
            from, to, share, pvsz_fewest_that_reach(vmp, from), pvsz_most_that_fit(vmp, to));
    }
    if (of_input(making, PVSIZE_INPUT_START_VOLTAGE, &start) && !pvsz_at_most(start, low))
        SAY(making, PVSIZE_REMARK_START_HIGH, start, low);
}

static void remark_on_building(pvsz_making *making)
{
    double limit, most;

    if (pvsz_trial_quantity(making, PVSZ_QUANTITY_BUILDING_VOLTAGE_LIMIT, &limit) &&
        of_input(making, PVSIZE_INPUT_MAX_VOLTAGE, &most) && !pvsz_at_most(most, limit))
        SAY(making, PVSIZE_REMARK_BUILDING, limit, most);
}

/* the inverter */

static void remark_on_likeness(pvsz_making *making, int32_t inputs)
{
    double least = HUGE_VAL, most = 0, value;

    for (int32_t i = 0; i < inputs; i++)
        if (pvsz_spec_number(input_at(making, i), PVSIZE_INPUT_MAX_OPERATING_CURRENT, &value)) {
            least = value < least ? value : least;
            most = value > most ? value : most;
        }
    if (least < most)
        SAY(making, PVSIZE_REMARK_UNLIKE_INPUTS, least, most);
}

static void remark_on_power(pvsz_making *making)
{
    double ratio, maker;
    bool has_ratio = pvsz_trial_quantity(making, PVSZ_QUANTITY_PV_LIMIT_RATIO, &ratio);
    double off;

    if (!has_ratio)
        return;
    if (!of_inverter(making, PVSIZE_INVERTER_MAX_PV_POWER, &maker)) {
        SAY(making, PVSIZE_REMARK_MAKER_SILENT, ratio);
        return;
    }
    off = maker < ratio ? ratio - maker : maker - ratio;
    SAY(making,
        pvsz_at_most(off, 0.001 * ratio) ? PVSIZE_REMARK_MAKER_ROUNDED
        : maker < ratio                  ? PVSIZE_REMARK_MAKER_GOVERNS
                                         : PVSIZE_REMARK_RATIO_GOVERNS,
        ratio, maker, maker < ratio ? maker : ratio);
}

/* Sum over the inputs; false where one does not say. */
static bool sum_of(const pvsz_making *making, int32_t inputs, int32_t term, double *sum)
{
    double value;

    *sum = 0;
    for (int32_t i = 0; i < inputs; i++) {
        if (!pvsz_spec_number(input_at(making, i), term, &value))
            return false;
        *sum += value;
    }
    return inputs > 0;
}

static void remark_on_inputs(pvsz_making *making, int32_t inputs)
{
    double sum, maker, rated, best = 0, at = 0, current = 0;

    if (sum_of(making, inputs, PVSIZE_INPUT_MAX_POWER, &sum) &&
        of_inverter(making, PVSIZE_INVERTER_MAX_PV_POWER, &maker) && !pvsz_at_most(maker, sum))
        SAY(making, PVSIZE_REMARK_INPUTS_SHORT, sum, maker);
    if (!of_inverter(making, PVSIZE_INVERTER_RATED_AC_POWER, &rated))
        return;
    if (sum_of(making, inputs, PVSIZE_INPUT_MAX_OPERATING_CURRENT, &sum))
        SAY(making, PVSIZE_REMARK_FULL_POWER_VOLTAGE, rated / sum);
    for (int32_t i = 0; i < inputs; i++) {
        double amps, volts;

        if (!pvsz_spec_number(input_at(making, i), PVSIZE_INPUT_MAX_OPERATING_CURRENT, &amps) ||
            (!pvsz_spec_number(input_at(making, i), PVSIZE_INPUT_FULL_POWER_MAX, &volts) &&
             !pvsz_spec_number(input_at(making, i), PVSIZE_INPUT_TRACKING_MAX, &volts)))
            return;
        if (amps * volts > best) {
            best = amps * volts;
            at = volts;
            current = amps;
        }
    }
    if (!pvsz_at_most(rated, best))
        SAY(making, PVSIZE_REMARK_ONE_INPUT, best, at, current, rated);
}

/* Data rules that the inverter or an input breaks, looked at alone. */
static void remark_on_data(pvsz_making *making)
{
    for (int32_t i = 0; i < making->report->findings; i++) {
        const pvsz_finding *finding = &making->report->finding[i];

        if (finding->rule->manner != PVSZ_QUIET) /* one that is tells of breaches only */
            continue;
        add(making, &(pvsz_remark){.remark = PVSIZE_REMARK_CONTRADICTION,
                                   .input = finding->subject->scope == PVSZ_KIND_INPUT
                                                ? finding->subject->index
                                                : -1,
                                   .rule = finding->rule->number,
                                   .numbers = 2,
                                   .number = {finding->value, finding->limit}});
    }
}

/* What limits on the inverter and its inputs need, and is neither there nor stated not to
 * be: once for each, with how many limits need it. */
static void remark_on_gaps(pvsz_making *making, int32_t input)
{
    int32_t kind = input < 0 ? PVSZ_KIND_INVERTER : PVSZ_KIND_INPUT;
    const pvsize_spec *spec = input < 0 ? making->inverter : input_at(making, input);

    for (int32_t row = 0; row < pvsz_kinds[kind].count && !making->status; row++) {
        int32_t term = pvsz_kinds[kind].rows[row].number;
        double needed = 0;

        if (pvsz_spec_has(spec, row) || pvsz_spec_states_none(spec, row))
            continue;
        for (int32_t i = 0; i < making->report->findings; i++)
            needed += making->report->finding[i].verdict == PVSIZE_VERDICT_NOT_ASSESSED &&
                      making->report->finding[i].missing == term;
        if (needed > 0)
            add(making, &(pvsz_remark){.remark = PVSIZE_REMARK_GAP,
                                       .input = input,
                                       .term = term,
                                       .numbers = 1,
                                       .number = {needed}});
    }
}

static void remark_on_input(pvsz_making *making, int32_t input)
{
    pvsz_open_trial(making, input, NULL);
    pvsz_run_trial(making);
    if (!making->status) {
        remark_on_currents(making);
        remark_on_isolator(making);
        remark_on_terminals(making);
        remark_on_window(making);
        remark_on_building(making);
        remark_on_gaps(making, input);
    }
    pvsz_close_trial(making);
}

void pvsz_find_remarks(pvsz_making *making)
{
    int32_t inputs = (int32_t)pvsz_spec_parts(making->inverter, PVSZ_KIND_INPUT)->count;

    for (int32_t i = 0; i < inputs && !making->status; i++)
        remark_on_input(making, i);
    if (inputs == 0 || making->status)
        return;
    pvsz_open_trial(making, 0, NULL);
    pvsz_run_trial(making);
    if (!making->status) {
        remark_on_likeness(making, inputs);
        remark_on_power(making);
        remark_on_inputs(making, inputs);
        remark_on_gaps(making, -1);
        making->status =
            pvsize_check(making->inverter, making->rules, making->report, making->diag);
        remark_on_data(making);
    }
    pvsz_close_trial(making);
}
