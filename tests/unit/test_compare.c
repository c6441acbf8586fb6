/* Two rule sets side by side. */
#include "../support/pv_compare.h"

static pvsize_rules *copy_of(const pvsize_rules *rules)
{
    pvsize_rules *copy;

    OK(pvsize_rules_clone(rules, NULL, &copy, diag));
    return copy;
}

START_TEST(the_same_set_does_not_differ)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = preset(pvsize_preset_name(i)), *copy = copy_of(rules);

        compare_sets(rules, copy, 127);
        ck_assert_int_eq(differences(), 0);
        compare_sets(rules, rules, 0);
        ck_assert_int_eq(differences(), 0);
        pvsize_rules_free(rules);
        pvsize_rules_free(copy);
    }
    done();
}
END_TEST

/* Changes one figure, then takes it away. */
static void change_figure(const pvsize_rules *rules, pvsize_rules *copy, int32_t figure)
{
    double low, high, value = 0;
    bool set = !pvsize_rules_get_figure(rules, figure, &value, NULL);
    int32_t behind;

    OK(pvsize_term_range(figure, &low, &high));
    OK(pvsize_rules_set_figure(copy, figure, value == low ? high : low, NULL, diag));
    compare_sets(rules, copy, 0);
    ck_assert_int_eq(differences(), 1);
    ck_assert_int_eq(term_of(0, 1), figure);
    ck_assert_int_eq(term_of(0, 0), set ? figure : 0);
    ck_assert_int_eq(what_of(0), set ? PVSIZE_DIFFERS_VALUE : PVSIZE_DIFFERS_PRESENCE);
    ck_assert(number_of(0, 1, PVSIZE_DIFFERS_VALUE) == (value == low ? high : low));
    OK(pvsize_comparison_figure(comparison, 0, 0, &behind, diag));
    ck_assert_int_eq(behind, figure);
    OK(pvsize_rules_unset_figure(copy, figure, diag));
    compare_sets(rules, copy, 0);
    ck_assert_int_eq(differences(), set);
    if (set)
        says(0, "against not set");
}

START_TEST(every_figure_is_found_alone)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    int32_t changed = 0;

    for (int32_t f = 0; f < pvsize_term_count(PVSIZE_KIND_FIGURE); f++) {
        int32_t figure = pvsize_term_at(PVSIZE_KIND_FIGURE, f);
        pvsize_rules *copy = copy_of(rules);

        /* a constant cannot be changed */
        if (pvsize_rules_unset_figure(copy, figure, NULL) != PVSIZE_E_NEEDS_VALUE) {
            change_figure(rules, copy, figure);
            changed++;
        }
        pvsize_rules_free(copy);
    }
    ck_assert_int_ge(changed, 30);
    pvsize_rules_free(rules);
    done();
}
END_TEST

START_TEST(every_severity_is_found_alone)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    for (int32_t i = 0; i < pvsize_rules_count(rules); i++) {
        int32_t rule = pvsize_rules_at(rules, i), severity;
        pvsize_rules *copy = copy_of(rules);

        OK(pvsize_rules_get_severity(rules, rule, &severity, diag));
        OK(pvsize_rules_set_severity(copy, rule, (severity + 1) % 4, diag));
        compare_sets(rules, copy, 0);
        ck_assert_int_eq(differences(), 1);
        ck_assert_int_eq(term_of(0, 0), rule);
        ck_assert_int_eq(term_of(0, 1), rule);
        ck_assert_int_eq(what_of(0), PVSIZE_DIFFERS_SEVERITY);
        ck_assert(number_of(0, 0, PVSIZE_DIFFERS_SEVERITY) == severity);
        ck_assert(number_of(0, 1, PVSIZE_DIFFERS_SEVERITY) == (severity + 1) % 4);
        says(0, " against ");
        pvsize_rules_free(copy);
    }
    pvsize_rules_free(rules);
    done();
}
END_TEST

START_TEST(a_source_counts_on_request)
{
    pvsize_rules *rules = preset("asnzs_5033_2021"), *copy = copy_of(rules);
    double factor;

    OK(pvsize_rules_get_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, &factor, diag));
    OK(pvsize_rules_set_figure(copy, PVSIZE_FIGURE_ISC_FACTOR, factor, "another book", diag));
    compare_sets(rules, copy, 0);
    ck_assert_int_eq(differences(), 0);
    compare_sets(rules, copy, PVSIZE_DIFFERS_SOURCE);
    ck_assert_int_eq(differences(), 1);
    ck_assert_int_eq(what_of(0), PVSIZE_DIFFERS_SOURCE);
    says(0, "against 1.25 (another book; given by the caller)");
    OK(pvsize_rules_set_figure(copy, PVSIZE_FIGURE_ISC_FACTOR, 1.5, NULL, diag));
    compare_sets(rules, copy, PVSIZE_DIFFERS_SOURCE | PVSIZE_DIFFERS_VALUE);
    ck_assert_int_eq(what_of(0), PVSIZE_DIFFERS_SOURCE | PVSIZE_DIFFERS_VALUE);
    says(0, "against 1.5 (given by the caller)");
    compare_sets(rules, copy, PVSIZE_DIFFERS_SEVERITY);
    ck_assert_int_eq(differences(), 0);
    pvsize_rules_free(rules);
    pvsize_rules_free(copy);
    done();
}
END_TEST

START_TEST(own_rules_are_matched_by_name)
{
    pvsize_rules *a = preset("asnzs_5033_2021"), *b = preset("asnzs_5033_2021");
    int32_t only_a = own(a, "only_a", PVSIZE_COMPARE_AT_MOST, 0, 500);
    int32_t limit_a = own(a, "limit", PVSIZE_COMPARE_AT_MOST, PVSIZE_INPUT_MAX_VOLTAGE, 0.95);
    int32_t other = own(a, "definition", PVSIZE_COMPARE_AT_MOST, 0, 400), i;

    own(a, "same", PVSIZE_COMPARE_AT_MOST, 0, 300);
    own(b, "same", PVSIZE_COMPARE_AT_MOST, 0, 300);
    own(b, "definition", PVSIZE_COMPARE_AT_LEAST, 0, 400);
    own(b, "limit", PVSIZE_COMPARE_AT_MOST, PVSIZE_INPUT_MAX_VOLTAGE, 0.9);
    own(b, "only_b", PVSIZE_COMPARE_AT_MOST, 0, 500);
    compare_sets(a, b, 0);
    ck_assert_int_eq(differences(), 4);
    ck_assert_int_eq(term_of(0, 0), only_a);
    ck_assert_int_eq(term_of(0, 1), 0);
    ck_assert_int_eq(what_of(0), PVSIZE_DIFFERS_PRESENCE);
    says(0, "rule.only_a: should, quantity.string_voc_cold at most 500 V (own practice; given by "
            "the caller) against not there");
    ck_assert_int_eq(term_of(1, 0), limit_a);
    ck_assert_int_eq(term_of(1, 1), limit_a + 1);
    ck_assert_int_eq(what_of(1), PVSIZE_DIFFERS_LIMIT);
    ck_assert(number_of(1, 0, PVSIZE_DIFFERS_LIMIT) == 0.95);
    ck_assert(number_of(1, 1, PVSIZE_DIFFERS_LIMIT) == 0.9);
    says(1, "at most 0.9 × input.max_voltage");
    ck_assert_int_eq(term_of(2, 0), other);
    ck_assert_int_eq(what_of(2), PVSIZE_DIFFERS_DEFINITION);
    says(2, "at least 400 V");
    ck_assert_int_eq(term_of(3, 0), 0);
    ck_assert_int_eq(
        pvsize_comparison_number(comparison, 3, 0, PVSIZE_DIFFERS_SEVERITY, &(double){0}, diag),
        PVSIZE_E_NOT_SET);
    i = difference_on(pvsize_rules_by_name(b, "only_b"), 0);
    ck_assert_int_ge(i, 0);
    pvsize_rules_free(a);
    pvsize_rules_free(b);
    says(3, "rule.only_b: not there against should"); /* it stands alone */
    done();
}
END_TEST

/* The same name and comparison, but with another term: two rules, whatever the number. */
START_TEST(own_rules_with_another_limit_differ)
{
    pvsize_rules *a = preset("asnzs_5033_2021"), *b = preset("asnzs_5033_2021");

    own(a, "limit", PVSIZE_COMPARE_AT_MOST, PVSIZE_INPUT_MAX_VOLTAGE, 0.9);
    own(b, "limit", PVSIZE_COMPARE_AT_MOST, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 0.9);
    compare_sets(a, b, 0);
    ck_assert_int_eq(differences(), 1);
    ck_assert_int_eq(what_of(0) & PVSIZE_DIFFERS_DEFINITION, PVSIZE_DIFFERS_DEFINITION);
    says(0, "at most 0.9 × input.max_voltage");
    says(0, "at most 0.9 × module.max_system_voltage");
    pvsize_rules_free(a);
    pvsize_rules_free(b);
    done();
}
END_TEST

START_TEST(two_editions)
{
    pvsize_rules *old = preset("asnzs_5033_2014"), *new = preset("asnzs_5033_2021");
    int32_t i;

    compare_sets(old, new, 0);
    i = difference_on(PVSIZE_FIGURE_VOLTAGE_LIMIT_DWELLING, 0);
    ck_assert_int_ge(i, 0);
    ck_assert(number_of(i, 0, PVSIZE_DIFFERS_VALUE) == 600);
    ck_assert(number_of(i, 1, PVSIZE_DIFFERS_VALUE) == 1000);
    says(i, "figure.voltage_limit_dwelling: 600 V (AS/NZS 5033:2014");
    says(i, "; read in a source) against 1000 V (AS/NZS 5033:2021 cl. 3.1");
    compare_sets(new, old, 0);
    says(i, "figure.voltage_limit_dwelling: 1000 V (AS/NZS 5033:2021");
    pvsize_rules_free(old);
    pvsize_rules_free(new);
    done();
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "same set", the_same_set_does_not_differ);
    add_test(suite, "figures", every_figure_is_found_alone);
    add_test(suite, "severities", every_severity_is_found_alone);
    add_test(suite, "sources", a_source_counts_on_request);
    add_test(suite, "own rules", own_rules_are_matched_by_name);
    add_test(suite, "editions", two_editions);
    add_test(suite, "another limit", own_rules_with_another_limit_differ);
}

int main(void)
{
    return run_cases("compare", add);
}
