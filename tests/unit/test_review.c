/* What may go on an inverter: the trade's check values, the page, wrong input, memory. By
 * brute force against the check: tests/oracle/test_review.py. */
#include "../support/pv_test.h"

/* Common practice: operating currents 22 A and 11 A, short-circuit ratings 26.4 A and
 * 13.2 A; 7.5 kW, of which 133 % are 9.975 kW. */
static pvsize_spec *trade_inverter(void)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500,
                                 PVSIZE_INVERTER_MAX_PV_POWER, 9980);

    for (int32_t strings = 2; strings >= 1; strings--)
        give(inverter,
             SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 600, PVSIZE_INPUT_TRACKING_MIN, 80,
                  PVSIZE_INPUT_TRACKING_MAX, 560, PVSIZE_INPUT_MAX_OPERATING_CURRENT,
                  11.0 * strings, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 13.2 * strings,
                  PVSIZE_INPUT_TERMINALS, strings));
    return inverter;
}

static pvsize_spec *invented_enquiry(void)
{
    pvsize_spec *enquiry =
        SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_PLANE, 1, PVSIZE_ENQUIRY_VOC_COEFFICIENT_LOW, -0.3,
             PVSIZE_ENQUIRY_VOC_COEFFICIENT_HIGH, -0.24, PVSIZE_ENQUIRY_VMP_COEFFICIENT_LOW, -0.36);
    pvsize_spec *large = invented_module();

    give(enquiry, invented_module());
    OK(pvsize_spec_set_number(large, PVSIZE_MODULE_ISC, 18.4, diag));
    OK(pvsize_spec_set_text(large, PVSIZE_MODULE_NAME, "large | invented", diag));
    give(enquiry, large);
    return enquiry;
}

static pvsize_review *reviewed(const pvsize_spec *inverter, const pvsize_spec *site,
                               const pvsize_spec *enquiry, const pvsize_rules *rules)
{
    pvsize_review *review;

    OK(pvsize_review_new(NULL, &review, diag));
    OK(pvsize_review_inverter(inverter, site, enquiry, rules, review, diag));
    return review;
}

static char *page_of(const pvsize_review *review, int32_t format)
{
    size_t length;
    char *text;

    OK(pvsize_review_render(review, format, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_review_render(review, format, text, length + 1, NULL, diag));
    return text;
}

/* The bound that a rule sets on an input with so many strings. */
static double bound_of(const pvsize_review *review, int32_t wanted_rule, int32_t wanted_input,
                       int32_t wanted_strings)
{
    int32_t count, rule, input, strings;
    double value;

    OK(pvsize_review_bound_count(review, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_review_bound(review, i, NULL, &input, &strings, diag));
        OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, NULL, diag));
        if (rule != wanted_rule || input != wanted_input || strings != wanted_strings)
            continue;
        OK(pvsize_review_bound_numbers(review, i, &value, NULL, diag));
        return value;
    }
    ck_abort_msg("no bound by rule %d", (int)wanted_rule);
    return NAN;
}

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

/* One input of which all is stated, and more: so much that every sort of remark can be made. */
static pvsize_spec *stated_input(void)
{
    return SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 1100, PVSIZE_INPUT_TRACKING_MIN, 80,
                PVSIZE_INPUT_TRACKING_MAX, 560, PVSIZE_INPUT_FULL_POWER_MIN, 200,
                PVSIZE_INPUT_FULL_POWER_MAX, 500, PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11,
                PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 13.2, PVSIZE_INPUT_TERMINALS, 2,
                PVSIZE_INPUT_TERMINAL_CURRENT, 5, PVSIZE_INPUT_MAX_POWER, 3000,
                PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN, PVSIZE_INPUT_ISOLATOR_VOLTAGE, 600,
                PVSIZE_INPUT_ISOLATOR_CURRENT, 10);
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

/* One input on one inverter, and one module in question. */
static pvsize_review *review_of_module(const double *input, pvsize_spec *module,
                                       const pvsize_rules *rules)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 50000,
                                 PVSIZE_INVERTER_MAX_PV_POWER, 60000);
    pvsize_spec *enquiry = SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_PLANE, 0);
    pvsize_spec *site = invented_site();
    pvsize_review *review;

    give(inverter, spec_with(PVSIZE_KIND_INPUT, input));
    give(enquiry, module);
    review = reviewed(inverter, site, enquiry, rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(enquiry);
    pvsize_spec_free(site);
    return review;
}

static int32_t accepted_by(const pvsize_review *review)
{
    int32_t accepted;

    OK(pvsize_review_module(review, 0, NULL, NULL, &accepted, NULL, diag));
    return accepted;
}

static int32_t stopped_by(const pvsize_review *review, int32_t what)
{
    int32_t rule = 0;

    OK(pvsize_review_module_stop(review, 0, what, &rule, NULL, NULL, NULL, diag));
    return rule;
}

static const double wide[] = {PVSIZE_INPUT_MAX_VOLTAGE,
                              1000,
                              PVSIZE_INPUT_TRACKING_MIN,
                              100,
                              PVSIZE_INPUT_TRACKING_MAX,
                              900,
                              PVSIZE_INPUT_MAX_OPERATING_CURRENT,
                              100,
                              PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
                              130,
                              0};

/* What fits above is too short below: no length at all. The text tells the window, and with an
 * own rule that allows nothing, that. */
START_TEST(modules_that_fit_at_no_length)
{
    static const double narrow[] = {PVSIZE_INPUT_MAX_VOLTAGE,
                                    100,
                                    PVSIZE_INPUT_TRACKING_MIN,
                                    95,
                                    PVSIZE_INPUT_TRACKING_MAX,
                                    99,
                                    PVSIZE_INPUT_MAX_OPERATING_CURRENT,
                                    100,
                                    PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
                                    130,
                                    0};
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review = review_of_module(narrow, invented_module(), rules);
    char text[500];
    int32_t own;

    ck_assert_int_eq(accepted_by(review), PVSIZE_ACCEPTED_NO);
    ck_assert_int_eq(stopped_by(review, 0), PVSIZE_RULE_VMP_HOT_TRACKING);
    OK(pvsize_review_module_text(review, 0, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, " against 95 V"));
    pvsize_review_free(review);
    OK(pvsize_rules_add(rules, "none", "no modules", PVSIZE_QUANTITY_SYSTEM_MODULES,
                        PVSIZE_COMPARE_AT_MOST, 0, 0, PVSIZE_SEVERITY_MUST, NULL, &own, diag));
    for (int large = 0; large < 2; large++) { /* and too large a current: that is less of a share */
        pvsize_spec *module = invented_module();

        if (large)
            OK(pvsize_spec_set_number(module, PVSIZE_MODULE_ISC, 150, diag));
        review = review_of_module(wide, module, rules);
        ck_assert_int_eq(accepted_by(review), PVSIZE_ACCEPTED_NO);
        ck_assert_int_eq(stopped_by(review, 0), own);
        pvsize_review_free(review);
    }
    pvsize_rules_free(rules);
}
END_TEST

/* How many strings, where a rule asks for no less of what falls with their number: the Isc that
 * a module may have at most is 130 A over 1.25 over the strings. */
START_TEST(strings_that_ask_for_too_much)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_spec *module = invented_module();
    pvsize_review *review;
    int32_t own, count;

    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_ISC, 5, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_IMP, 4.7, diag));
    OK(pvsize_spec_unset(module, PVSIZE_MODULE_PMAX, diag));
    OK(pvsize_rules_add(rules, "isc", "room for 20 A", PVSIZE_QUANTITY_MODULE_ISC_LIMIT,
                        PVSIZE_COMPARE_AT_LEAST, 0, 20, PVSIZE_SEVERITY_MUST, NULL, &own, diag));
    review = review_of_module(wide, module, rules);
    OK(pvsize_review_module_room(review, 0, PVSIZE_ROOM_STRINGS_ALLOWED, &count, diag));
    ck_assert_int_eq(count, 5); /* 104 A: five of 20.8 A, six of 17.3 A */
    ck_assert_int_eq(stopped_by(review, PVSIZE_ROOM_STRINGS_ALLOWED), own);
    /* without a Pmax no total */
    FAILS(PVSIZE_E_NOT_SET, "",
          pvsize_review_module_room(review, 0, PVSIZE_ROOM_MODULES_TOTAL, &count, diag));
    pvsize_review_free(review);
    pvsize_rules_free(rules);
}
END_TEST

/* Strings that need a device for which there is no rating, or no series of them, stop there. */
START_TEST(strings_without_a_device_that_fits)
{
    for (int none = 0; none < 2; none++) {
        pvsize_rules *rules = preset("asnzs_5033_2021");
        pvsize_spec *module = invented_module();
        pvsize_review *review;
        int32_t count;

        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_ISC, 18.4, diag));
        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, none ? 30 : 25, diag));
        if (none)
            OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_DEVICE_SERIES, diag));
        review = review_of_module(wide, module, rules);
        OK(pvsize_review_module_room(review, 0, PVSIZE_ROOM_STRINGS_ALLOWED, &count, diag));
        ck_assert_int_ge(count, 2);
        ck_assert(none || count == 2); /* one other string drives 23 A, two 46 A */
        pvsize_review_free(review);
        pvsize_rules_free(rules);
    }
}
END_TEST

/* An own rule that asks for power is no limit of the total; the ratio is, and the tightest
 * floor of a voltage governs. */
START_TEST(own_rules_bound_both_ways)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;
    int32_t low, high, power, total, count, rule, governs, seen = 0;

    OK(pvsize_rules_add(rules, "power", "no less than 3 kW", PVSIZE_QUANTITY_INVERTER_PV_POWER,
                        PVSIZE_COMPARE_AT_LEAST, 0, 3000, PVSIZE_SEVERITY_MUST, NULL, &power,
                        diag));
    OK(pvsize_rules_add(rules, "low", "no less than 50 V", PVSIZE_QUANTITY_STRING_VMP_HOT,
                        PVSIZE_COMPARE_AT_LEAST, 0, 50, PVSIZE_SEVERITY_MUST, NULL, &low, diag));
    OK(pvsize_rules_add(rules, "high", "no less than 300 V", PVSIZE_QUANTITY_STRING_VMP_HOT,
                        PVSIZE_COMPARE_AT_LEAST, 0, 300, PVSIZE_SEVERITY_MUST, NULL, &high, diag));
    review = review_of_module(wide, invented_module(), rules);
    OK(pvsize_review_module_room(review, 0, PVSIZE_ROOM_MODULES_TOTAL, &total, diag));
    ck_assert_int_eq(total, 139); /* of 430 W in 60 kW: the maker's */
    OK(pvsize_review_bound_count(review, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, &governs, diag));
        seen += rule == power || rule == low || rule == high;
        if (rule == low || rule == PVSIZE_RULE_VMP_HOT_TRACKING)
            ck_assert(!governs);
        if (rule == high)
            ck_assert(governs);
    }
    ck_assert_int_ge(seen, 3);
    pvsize_review_free(review);
    pvsize_rules_free(rules);
}
END_TEST

/* Whatever quantity an own rule limits: where it bounds a number of the module, the two are in
 * proportion, so that the bound of twice the limit is twice as high. */
START_TEST(any_own_rule_bounds_in_proportion)
{
    for (int32_t scale = 1; scale <= 2; scale++) {
        static double first[2000];
        pvsize_rules *rules = preset("asnzs_5033_2021");
        pvsize_review *review;
        int32_t count, rule, own = 0, at = 0;
        double value;
        char name[20];

        for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_QUANTITY); i++) {
            snprintf(name, sizeof name, "own_%d", (int)i);
            own = pvsize_rules_count(rules);
            pvsize_rules_add(rules, name, "Own", pvsize_term_at(PVSIZE_KIND_QUANTITY, i),
                             PVSIZE_COMPARE_AT_MOST, 0, 7.5 * scale, PVSIZE_SEVERITY_NOTE, NULL,
                             NULL, diag);
        }
        ck_assert_int_gt(own, pvsize_term_count(PVSIZE_KIND_RULE) + 50);
        review = review_of_module(wide, invented_module(), rules);
        OK(pvsize_review_bound_count(review, &count, diag));
        for (int32_t i = 0; i < count && i < 2000; i++) {
            OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, NULL, diag));
            if (pvsize_term_kind(rule) == PVSIZE_KIND_RULE ||
                pvsize_review_bound_numbers(review, i, &value, NULL, NULL))
                continue;
            if (scale == 1)
                first[at] = value;
            else
                NEAR(value, 2 * first[at], 1e-9);
            at++;
        }
        ck_assert_int_gt(at, 10);
        pvsize_review_free(review);
        { /* of a place and modules of which nothing is known */
            pvsize_spec *inverter = trade_inverter();

            review = reviewed(inverter, NULL, NULL, rules);
            ck_assert(bound_of(review, PVSIZE_RULE_ISC_INPUT, 1, 1) == 13.2 / 1.25);
            pvsize_review_free(review);
            pvsize_spec_free(inverter);
        }
        pvsize_rules_free(rules);
    }
}
END_TEST

static int32_t bounds_of(const pvsize_review *review, int32_t wanted, int32_t *missing)
{
    int32_t count, rule, found = 0;
    double value;

    OK(pvsize_review_bound_count(review, &count, diag));
    *missing = 0;
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, NULL, diag));
        if (rule != wanted)
            continue;
        found++;
        *missing += pvsize_review_bound_numbers(review, i, &value, NULL, NULL) != PVSIZE_OK;
    }
    return found;
}

/* A limit that grows with what it limits bounds nothing, nor does one of nothing. */
START_TEST(limits_that_bound_nothing)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;
    int32_t follows, none, missing;

    OK(pvsize_rules_add(rules, "follows", "string no more than its modules",
                        PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST, PVSIZE_MODULE_VOC,
                        1, PVSIZE_SEVERITY_NOTE, NULL, &follows, diag));
    OK(pvsize_rules_add(rules, "none", "no less than nothing", PVSIZE_QUANTITY_STRING_VMP_HOT,
                        PVSIZE_COMPARE_AT_LEAST, 0, 0, PVSIZE_SEVERITY_NOTE, NULL, &none, diag));
    review = review_of_module(wide, invented_module(), rules);
    ck_assert_int_eq(bounds_of(review, follows, &missing), 0);
    ck_assert_int_eq(bounds_of(review, none, &missing), 0);
    ck_assert_int_gt(bounds_of(review, PVSIZE_RULE_VMP_HOT_TRACKING, &missing), 0);
    pvsize_review_free(review);
    pvsize_rules_free(rules);
}
END_TEST

/* Modules that in the heat have no voltage left, by a coefficient that is a slip of the pen: what
 * they may have at STC cannot be told, and is not. */
START_TEST(coefficients_that_leave_nothing)
{
    pvsize_spec *inverter = trade_inverter(), *site = invented_site();
    pvsize_spec *enquiry =
        SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_PLANE, 0, PVSIZE_ENQUIRY_VMP_COEFFICIENT_LOW, -2);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;
    int32_t missing;

    OK(pvsize_spec_set_number(site, PVSIZE_SITE_TEMP_MAX, 60, diag));
    review = reviewed(inverter, site, enquiry, rules);
    ck_assert_int_eq(bounds_of(review, PVSIZE_RULE_VMP_HOT_TRACKING, &missing), 2);
    ck_assert_int_eq(missing, 2);
    ck_assert_int_gt(bounds_of(review, PVSIZE_RULE_ISC_INPUT, &missing), 0);
    ck_assert_int_eq(missing, 0);
    pvsize_review_free(review);
    pvsize_rules_free(rules);
    pvsize_spec_free(enquiry);
    pvsize_spec_free(site);
    pvsize_spec_free(inverter);
}
END_TEST

START_TEST(every_rule_set_reviews)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = preset(pvsize_preset_name(i));
        pvsize_review *review = review_of_module(wide, invented_module(), rules);
        int32_t missing;

        /* 130 A for all strings, whatever the factor on one */
        ck_assert_int_eq(bounds_of(review, PVSIZE_RULE_ISC_INPUT, &missing), 4);
        ck_assert_int_ne(accepted_by(review), PVSIZE_ACCEPTED_NO);
        pvsize_review_free(review);
        pvsize_rules_free(rules);
    }
}
END_TEST

START_TEST(page_outlives_what_it_was_made_from)
{
    pvsize_spec *inverter = invented_inverter(), *site = invented_site();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;
    char *text;

    OK(pvsize_rules_add(rules, "shop_isc", "largest current of the shop",
                        PVSIZE_QUANTITY_INPUT_ISC_MAX, PVSIZE_COMPARE_AT_MOST, 0, 30,
                        PVSIZE_SEVERITY_MUST, "shop", NULL, diag));
    review = reviewed(inverter, site, enquiry, rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(enquiry);
    pvsize_rules_free(rules);
    text = page_of(review, PVSIZE_FORMAT_PLAIN);
    ck_assert_ptr_nonnull(strstr(text, "CAUTION: "));
    ck_assert_ptr_nonnull(strstr(text, "largest current of the shop, 30 A (must, governs)"));
    ck_assert_ptr_nonnull(strstr(text, "may go on the input; fewest modules in a string: "));
    ck_assert_ptr_nonnull(strstr(text, "must not go on the input: "));
    ck_assert_ptr_nonnull(strstr(text, "Why it matters: "));
    free(text);
    text = page_of(review, PVSIZE_FORMAT_MARKDOWN);
    ck_assert_ptr_nonnull(strstr(text, "# What may go on the inverter"));
    ck_assert_ptr_nonnull(strstr(text, "large \\| invented"));
    free(text);
    pvsize_review_free(review);
}
END_TEST

START_TEST(wrong_input)
{
    pvsize_spec *inverter = trade_inverter(), *site = invented_site(), *module = invented_module();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review, *fresh;
    int32_t count, told = 0;
    double value;
    char text[8];

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_review_new(NULL, NULL, diag));
    OK(pvsize_review_new(NULL, &fresh, diag));
    FAILS(PVSIZE_E_NOT_SET, "",
          pvsize_review_render(fresh, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    pvsize_review_free(fresh);
    review = reviewed(inverter, site, enquiry, rules);
    FAILS(PVSIZE_E_NULL_POINTER, "inverter",
          pvsize_review_inverter(NULL, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'inverter'",
          pvsize_review_inverter(module, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'site'",
          pvsize_review_inverter(inverter, module, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'enquiry'",
          pvsize_review_inverter(inverter, site, module, rules, review, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "inverter",
          pvsize_review_inverter((const pvsize_spec *)rules, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules",
          pvsize_review_inverter(inverter, site, enquiry, NULL, review, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review",
          pvsize_review_inverter(inverter, site, enquiry, rules, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "review",
          pvsize_review_inverter(inverter, site, enquiry, rules, (pvsize_review *)rules, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "enquiry.plane",
          pvsize_review_inverter(inverter, NULL, enquiry, rules, review, diag));
    OK(pvsize_spec_set_number(enquiry, PVSIZE_ENQUIRY_PLANE, 2, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "enquiry.plane",
          pvsize_review_inverter(inverter, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "enquiry.voc_coefficient_low",
          pvsize_spec_set_number(enquiry, PVSIZE_ENQUIRY_VOC_COEFFICIENT_LOW, 0.3, diag));
    OK(pvsize_review_module_count(review, &count, diag)); /* still the first one */
    ck_assert_int_eq(count, 4);
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_review_bound_count(review, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review", pvsize_review_bound_count(NULL, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "-1", pvsize_review_bound(review, -1, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "9999",
          pvsize_review_bound_numbers(review, 9999, &value, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "4", pvsize_review_module(review, 4, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_review_module_room(review, 0, 77, &count, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what",
          pvsize_review_module_stop(review, 0, -1, NULL, NULL, NULL, NULL, diag));
    while (pvsize_review_remark_number(review, told, 0, &value, NULL) == PVSIZE_E_BAD_INDEX &&
           told < 99)
        told++; /* the first with a number in it */
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_review_remark_number(review, 0, 9, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_review_remark_number(review, told, -1, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value", pvsize_review_remark_number(review, told, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count",
          pvsize_review_module_room(review, 0, PVSIZE_ROOM_MODULES_MIN, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review", pvsize_review_bound(NULL, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_review_render(review, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format", pvsize_review_render(review, 0, NULL, 0, NULL, diag));
    ck_assert_int_eq(pvsize_review_bound_text(review, 0, text, sizeof text, NULL, diag),
                     PVSIZE_E_CAPACITY);
    ck_assert_ptr_null(pvsize_remark_sentence(4711));
    pvsize_review_free(review);
    pvsize_review_free(NULL);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(module);
    pvsize_spec_free(enquiry);
    pvsize_rules_free(rules);
}
END_TEST

/* An inverter of which nothing is known is no error: all is named as missing. */
START_TEST(empty_data)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 5000);
    pvsize_spec *enquiry = SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_MOST_STRINGS, 3);
    pvsize_spec *input, *module;
    pvsize_rules *rules = preset("asnzs_5033_2021"), *none = preset(NULL);
    pvsize_review *review;
    int32_t count, accepted = 0;

    OK(pvsize_spec_new(PVSIZE_KIND_MODULE, NULL, &module, diag));
    give(enquiry, module);
    review = reviewed(inverter, NULL, enquiry, rules); /* no input */
    OK(pvsize_review_module_count(review, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_spec_new(PVSIZE_KIND_INPUT, NULL, &input, diag));
    give(inverter, input);
    OK(pvsize_review_inverter(inverter, NULL, enquiry, rules, review, diag));
    OK(pvsize_review_module(review, 0, NULL, NULL, &accepted, NULL, diag));
    ck_assert_int_eq(accepted, PVSIZE_ACCEPTED_INCOMPLETE);
    OK(pvsize_review_inverter(inverter, NULL, enquiry, none, review, diag)); /* no rule */
    OK(pvsize_review_bound_count(review, &count, diag));
    ck_assert_int_eq(count, 0);
    free(page_of(review, PVSIZE_FORMAT_PLAIN));
    pvsize_review_free(review);
    pvsize_rules_free(rules);
    pvsize_rules_free(none);
    pvsize_spec_free(inverter);
    pvsize_spec_free(enquiry);
}
END_TEST

/* The data of the only input contradict each other in all that is looked at. */
static void contradict(pvsize_spec *inverter)
{
    static const double values[][2] = {
        {PVSIZE_INPUT_TRACKING_MIN, 700},        {PVSIZE_INPUT_TRACKING_MAX, 650},
        {PVSIZE_INPUT_FULL_POWER_MIN, 600},      {PVSIZE_INPUT_FULL_POWER_MAX, 500},
        {PVSIZE_INPUT_START_VOLTAGE, 700},       {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 5},
        {PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11}};
    pvsize_spec *input;

    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 0, NULL, &input, diag));
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        OK(pvsize_spec_set_number(input, (int32_t)values[i][0], values[i][1], diag));
    OK(pvsize_spec_replace(inverter, 0, input, diag));
    pvsize_spec_free(input);
    OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_RATED_APPARENT_POWER, 5000, diag));
}

START_TEST(every_allocation_fails_once)
{
    pvsize_spec *inverter = trade_inverter(), *site = invented_site();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_review *review;
    char *before, *after;
    pvsize_status status = PVSIZE_E_NO_MEMORY;

    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    OK(pvsize_spec_remove(enquiry, PVSIZE_KIND_MODULE, 1, diag));
    contradict(inverter); /* each is a remark, for which room is taken */
    FAILS(PVSIZE_E_NO_MEMORY, "null", (c.fail_at = 0, pvsize_review_new(&memory, &review, diag)));
    c.fail_at = -1;
    OK(pvsize_review_new(&memory, &review, diag));
    OK(pvsize_review_inverter(inverter, NULL, NULL, rules, review, diag));
    before = page_of(review, PVSIZE_FORMAT_PLAIN);
    for (long n = 0; status; n++) {
        long live = c.live;

        c.fail_at = c.made + n;
        status = pvsize_review_inverter(inverter, site, enquiry, rules, review, NULL);
        if (!status)
            break;
        ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
        ck_assert_int_eq(c.live, live);
        after = page_of(review, PVSIZE_FORMAT_PLAIN);
        ck_assert_str_eq(before, after);
        free(after);
    }
    free(before);
    pvsize_review_free(review);
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(enquiry);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "low ratings", ratings_below_the_input_are_remarked);
    add_test(suite, "trade", trade_values);
    add_test(suite, "not stated", what_is_not_stated_is_not_remarked_on);
    add_test(suite, "windows", windows);
    add_test(suite, "unlike", unlike_inputs_and_half_known_isolators);
    add_test(suite, "no length", modules_that_fit_at_no_length);
    add_test(suite, "strings", strings_that_ask_for_too_much);
    add_test(suite, "no device", strings_without_a_device_that_fits);
    add_test(suite, "both ways", own_rules_bound_both_ways);
    add_test(suite, "any own rule", any_own_rule_bounds_in_proportion);
    add_test(suite, "no bounds", limits_that_bound_nothing);
    add_test(suite, "nothing left", coefficients_that_leave_nothing);
    add_test(suite, "rule sets", every_rule_set_reviews);
    add_test(suite, "page", page_outlives_what_it_was_made_from);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "empty", empty_data);
    add_test(suite, "memory", every_allocation_fails_once);
}

int main(void)
{
    return run_cases("review", add);
}
