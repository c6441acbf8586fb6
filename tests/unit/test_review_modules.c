/* Which strings of a module an inverter takes, and what bounds them. */
#include "../support/pv_review.h"

static int32_t stopped_by(const pvsize_review *review, int32_t what)
{
    int32_t rule = 0;

    OK(pvsize_review_module_stop(review, 0, what, &rule, NULL, NULL, NULL, diag));
    return rule;
}

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

static void add(Suite *suite)
{
    add_test(suite, "no length", modules_that_fit_at_no_length);
    add_test(suite, "strings", strings_that_ask_for_too_much);
    add_test(suite, "no device", strings_without_a_device_that_fits);
    add_test(suite, "both ways", own_rules_bound_both_ways);
    add_test(suite, "any own rule", any_own_rule_bounds_in_proportion);
    add_test(suite, "no bounds", limits_that_bound_nothing);
    add_test(suite, "nothing left", coefficients_that_leave_nothing);
    add_test(suite, "rule sets", every_rule_set_reviews);
}

int main(void)
{
    return run_cases("review_modules", add);
}
