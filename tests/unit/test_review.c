/* What may go on an inverter: the trade's check values, and remarks on its data. By brute force
 * against the check: tests/oracle/test_review.py. */
#include "../support/pv_review.h"

START_TEST(trade_values)
{
    pvsize_spec *inverter = trade_inverter();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review = reviewed(inverter, NULL, NULL, rules);

    NEAR(bound_of(review, PVSIZE_RULE_ISC_INPUT, 0, 2), 10.56, 1e-12);
    NEAR(bound_of(review, PVSIZE_RULE_ISC_INPUT, 1, 1), 10.56, 1e-12);
    NEAR(bound_of(review, PVSIZE_RULE_OPERATING_CURRENT, 0, 2), 11, 1e-12);
    NEAR(bound_of(review, PVSIZE_RULE_OPERATING_CURRENT, 1, 1), 11, 1e-12);
    NEAR(bound_of(review, PVSIZE_RULE_PV_RATIO, -1, 0), 9975, 1e-12);
    NEAR(bound_of(review, PVSIZE_RULE_PV_MAKER, -1, 0), 9980, 1e-12);
    pvsize_review_free(review);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
}
END_TEST

/* The n-th remark of a kind on an input; the numbers in it. */
static void has_remark(const pvsize_review *review, int32_t wanted, int32_t wanted_input,
                       const double *numbers, int32_t count)
{
    int32_t remarks, remark, input;
    double value;

    OK(pvsize_review_remark_count(review, &remarks, diag));
    for (int32_t i = 0; i < remarks; i++) {
        OK(pvsize_review_remark(review, i, &remark, NULL, &input, NULL, diag));
        if (remark != wanted || input != wanted_input)
            continue;
        for (int32_t k = 0; k < count; k++) {
            OK(pvsize_review_remark_number(review, i, k, &value, diag));
            NEAR(value, numbers[k], 1e-12);
        }
        return;
    }
    ck_abort_msg("no remark %d", (int)wanted);
}

/* A built-in isolator and terminals rated below what the input may bring, and data that
 * contradict each other: a short-circuit rating below the operating current. */
START_TEST(ratings_below_the_input_are_remarked)
{
    pvsize_spec *inverter = trade_inverter(), *input;
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;

    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 0, NULL, &input, diag));
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN, diag));
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_ISOLATOR_VOLTAGE, 500, diag));
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_ISOLATOR_CURRENT, 16, diag));
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_TERMINAL_CURRENT, 12, diag));
    OK(pvsize_spec_replace(inverter, 0, input, diag));
    pvsize_spec_free(input);
    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 1, NULL, &input, diag));
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 10, diag));
    OK(pvsize_spec_replace(inverter, 1, input, diag));
    review = reviewed(inverter, NULL, NULL, rules);
    has_remark(review, PVSIZE_REMARK_ISOLATOR_VOLTAGE, 0, (const double[]){500, 600}, 2);
    has_remark(review, PVSIZE_REMARK_ISOLATOR_CURRENT, 0, (const double[]){16, 26.4}, 2);
    has_remark(review, PVSIZE_REMARK_TERMINAL_RATING, 0, (const double[]){12, 24, 26.4}, 3);
    has_remark(review, PVSIZE_REMARK_CONTRADICTION, 1, NULL, 0);
    pvsize_review_free(review);
    pvsize_rules_free(rules);
    pvsize_spec_free(input);
    pvsize_spec_free(inverter);
}
END_TEST

static bool is_remarked(const pvsize_review *review, int32_t wanted)
{
    int32_t remarks, remark;

    OK(pvsize_review_remark_count(review, &remarks, diag));
    for (int32_t i = 0; i < remarks; i++) {
        OK(pvsize_review_remark(review, i, &remark, NULL, NULL, NULL, diag));
        if (remark == wanted)
            return true;
    }
    return false;
}

static bool remarked(const int32_t *unset, int32_t remark, const pvsize_rules *rules)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500,
                                 PVSIZE_INVERTER_MAX_PV_POWER, 9980);
    pvsize_spec *input = stated_input(), *site = invented_site();
    pvsize_review *review;
    bool found;

    for (; *unset; unset++)
        OK(pvsize_spec_unset(pvsize_term_kind(*unset) == PVSIZE_KIND_INPUT ? input : inverter,
                             *unset, diag));
    give(inverter, input);
    review = reviewed(inverter, site, NULL, rules);
    found = is_remarked(review, remark);
    pvsize_review_free(review);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    return found;
}

/* Each remark is made of what it speaks of, and is not made where any of it is not stated. */
START_TEST(what_is_not_stated_is_not_remarked_on)
{
    static const struct {
        int32_t remark, unset[3];
    } rows[] = {
        {PVSIZE_REMARK_FAULT_LIMIT_FIRST, {PVSIZE_INPUT_MAX_OPERATING_CURRENT}},
        {PVSIZE_REMARK_FAULT_LIMIT_FIRST, {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT}},
        {PVSIZE_REMARK_ISOLATOR_VOLTAGE, {PVSIZE_INPUT_ISOLATOR_VOLTAGE}},
        {PVSIZE_REMARK_ISOLATOR_VOLTAGE, {PVSIZE_INPUT_MAX_VOLTAGE}},
        {PVSIZE_REMARK_ISOLATOR_CURRENT, {PVSIZE_INPUT_ISOLATOR_CURRENT}},
        {PVSIZE_REMARK_ISOLATOR_CURRENT, {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT}},
        {PVSIZE_REMARK_TERMINALS, {PVSIZE_INPUT_TERMINALS}},
        {PVSIZE_REMARK_TERMINALS, {PVSIZE_INPUT_MAX_OPERATING_CURRENT}},
        {PVSIZE_REMARK_TERMINALS, {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT}},
        {PVSIZE_REMARK_TERMINAL_RATING, {PVSIZE_INPUT_TERMINAL_CURRENT}},
        {PVSIZE_REMARK_TERMINAL_RATING, {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT}},
        {PVSIZE_REMARK_WINDOW, {PVSIZE_INPUT_FULL_POWER_MIN}},
        {PVSIZE_REMARK_WINDOW, {PVSIZE_INPUT_FULL_POWER_MAX}},
        {PVSIZE_REMARK_WINDOW, {PVSIZE_INPUT_TRACKING_MIN}},
        {PVSIZE_REMARK_WINDOW, {PVSIZE_INPUT_TRACKING_MAX}},
        {PVSIZE_REMARK_BUILDING, {PVSIZE_INPUT_MAX_VOLTAGE}},
        {PVSIZE_REMARK_INPUTS_SHORT, {PVSIZE_INPUT_MAX_POWER}},
        {PVSIZE_REMARK_INPUTS_SHORT, {PVSIZE_INVERTER_MAX_PV_POWER}},
        {PVSIZE_REMARK_FULL_POWER_VOLTAGE, {PVSIZE_INVERTER_RATED_AC_POWER}},
        {PVSIZE_REMARK_ONE_INPUT, {PVSIZE_INVERTER_RATED_AC_POWER}},
        {PVSIZE_REMARK_ONE_INPUT, {PVSIZE_INPUT_MAX_OPERATING_CURRENT}},
        {PVSIZE_REMARK_ONE_INPUT, {PVSIZE_INPUT_FULL_POWER_MAX, PVSIZE_INPUT_TRACKING_MAX}},
    };
    const int32_t nothing = 0;
    pvsize_rules *rules = preset("asnzs_5033_2021");

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ck_assert_msg(remarked(&nothing, rows[i].remark, rules), "%d", (int)rows[i].remark);
        ck_assert_msg(!remarked(rows[i].unset, rows[i].remark, rules), "%d without %d",
                      (int)rows[i].remark, (int)rows[i].unset[0]);
    }
    /* nor where no rule limits it */
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_OPERATING_CURRENT, PVSIZE_SEVERITY_OFF, diag));
    ck_assert(!remarked(&nothing, PVSIZE_REMARK_FAULT_LIMIT_FIRST, rules));
    ck_assert(!remarked(&nothing, PVSIZE_REMARK_TERMINALS, rules));
    ck_assert(remarked(&nothing, PVSIZE_REMARK_ISOLATOR_CURRENT, rules));
    pvsize_rules_free(rules);
}
END_TEST

/* An inverter with the stated input, some of it changed; the second input, if any, as it is. */
static pvsize_review *review_of(const double *changes, pvsize_spec *second, pvsize_spec *enquiry)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500);
    pvsize_spec *input = stated_input();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;

    for (; *changes; changes += 2)
        OK(pvsize_spec_set_number(input, (int32_t)changes[0], changes[1], diag));
    give(inverter, input);
    if (second)
        give(inverter, second);
    review = reviewed(inverter, NULL, enquiry, rules);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
    return review;
}
#define CHANGED(...) ((const double[]){__VA_ARGS__, 0})

/* Full power over 200 V of 480 V is narrow, over 300 V is not; where the ends are not in order there
 * is no window to speak of. */
START_TEST(windows)
{
    static const struct {
        double from, to;
        int32_t remark;
    } rows[] = {{200, 500, PVSIZE_REMARK_WINDOW},
                {300, 500, PVSIZE_REMARK_WINDOW_NARROW},
                {500, 200, 0},
                {300, 300, 0}};
    pvsize_review *review;
    pvsize_spec *enquiry = SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_MODULE_VMP, 25);

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        review = review_of(CHANGED(PVSIZE_INPUT_FULL_POWER_MIN, rows[i].from,
                                   PVSIZE_INPUT_FULL_POWER_MAX, rows[i].to),
                           NULL, enquiry);
        if (rows[i].remark) /* from so many to so many modules of 25 V */
            has_remark(review, rows[i].remark, 0,
                       (const double[]){rows[i].from, rows[i].to, (rows[i].to - rows[i].from) / 4.8,
                                        rows[i].from / 25, rows[i].to / 25},
                       5);
        ck_assert(is_remarked(review, PVSIZE_REMARK_WINDOW) ==
                  (rows[i].remark == PVSIZE_REMARK_WINDOW));
        ck_assert(is_remarked(review, PVSIZE_REMARK_WINDOW_NARROW) ==
                  (rows[i].remark == PVSIZE_REMARK_WINDOW_NARROW));
        pvsize_review_free(review);
    }
    review = review_of(CHANGED(PVSIZE_INPUT_TRACKING_MIN, 600), NULL, enquiry);
    ck_assert(!is_remarked(review, PVSIZE_REMARK_WINDOW) &&
              !is_remarked(review, PVSIZE_REMARK_WINDOW_NARROW));
    ck_assert(is_remarked(review, PVSIZE_REMARK_CONTRADICTION));
    pvsize_review_free(review);
    pvsize_spec_free(enquiry);
}
END_TEST

/* Either input may be the larger; an isolator that lacks one thing, the rest being unknown. */
START_TEST(unlike_inputs_and_half_known_isolators)
{
    pvsize_review *review;

    for (int i = 0; i < 2; i++) {
        review = review_of(CHANGED(0),
                           SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_OPERATING_CURRENT, i ? 5 : 22),
                           NULL);
        has_remark(review, PVSIZE_REMARK_UNLIKE_INPUTS, -1,
                   i ? (const double[]){5, 11} : (const double[]){11, 22}, 2);
        pvsize_review_free(review);
    }
    review =
        review_of(CHANGED(0),
                  SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_ISOLATOR_LOCKS_OFF, PVSIZE_ANSWER_NO), NULL);
    ck_assert(is_remarked(review, PVSIZE_REMARK_ISOLATOR_UNKNOWN) ||
              is_remarked(review, PVSIZE_REMARK_ISOLATOR_NO_LOCK));
    pvsize_review_free(review);
    ck_assert_ptr_null(pvsize_remark_condition(0));
    ck_assert_ptr_nonnull(pvsize_remark_condition(PVSIZE_REMARK_WINDOW));
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "low ratings", ratings_below_the_input_are_remarked);
    add_test(suite, "trade", trade_values);
    add_test(suite, "not stated", what_is_not_stated_is_not_remarked_on);
    add_test(suite, "windows", windows);
    add_test(suite, "unlike", unlike_inputs_and_half_known_isolators);
}

int main(void)
{
    return run_cases("review", add);
}
