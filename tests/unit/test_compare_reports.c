/* Two reports side by side, and the reasons of what differs. */
#include "../support/pv_compare.h"

START_TEST(a_string_that_one_edition_allows)
{
    pvsize_spec *system = job(16);
    pvsize_report *old = checked_by(system, "asnzs_5033_2014");
    pvsize_report *new = checked_by(system, "asnzs_5033_2021");
    int32_t i, subject, finding[2], figure, wanted = PVSIZE_DIFFERS_VERDICT;

    compare_found(old, new, wanted);
    ck_assert_int_eq(differences(), 1);
    i = difference_on(PVSIZE_RULE_VOC_COLD_BUILDING, 0);
    ck_assert_int_eq(i, 0);
    ck_assert_int_eq(what_of(i), PVSIZE_DIFFERS_VERDICT);
    OK(pvsize_comparison_difference(comparison, i, NULL, &subject, diag));
    ck_assert_int_eq(subject, subject_for(old, PVSIZE_QUANTITY_STRING_VOC_COLD, 0, 0, 0));
    for (int32_t side = 0; side < 2; side++)
        OK(pvsize_comparison_side(comparison, i, side, NULL, &finding[side], diag));
    ck_assert_int_eq(finding[0], finding_of(old, PVSIZE_RULE_VOC_COLD_BUILDING, 0));
    ck_assert_int_eq(finding[1], finding_of(new, PVSIZE_RULE_VOC_COLD_BUILDING, 0));
    ck_assert(number_of(i, 0, PVSIZE_DIFFERS_VERDICT) == PVSIZE_VERDICT_EXCEEDS);
    ck_assert(number_of(i, 1, PVSIZE_DIFFERS_VERDICT) == PVSIZE_VERDICT_MEETS);
    ck_assert(number_of(i, 0, PVSIZE_DIFFERS_LIMIT) == 600);
    ck_assert(number_of(i, 1, PVSIZE_DIFFERS_LIMIT) == 1000);
    NEAR(number_of(i, 1, PVSIZE_DIFFERS_VALUE), 16 * 38.8 * 1.07, 1e-12);
    compare_found(old, new, 0);
    i = difference_on(PVSIZE_RULE_VOC_COLD_BUILDING, 0);
    ck_assert_int_eq(what_of(i), PVSIZE_DIFFERS_VERDICT | PVSIZE_DIFFERS_LIMIT);
    OK(pvsize_comparison_figure(comparison, i, 0, &figure, diag));
    ck_assert_int_eq(figure, PVSIZE_FIGURE_VOLTAGE_LIMIT_DWELLING);
    ck_assert_int_eq(pvsize_comparison_figure(comparison, i, 1, &figure, diag), PVSIZE_E_BAD_INDEX);
    pvsize_report_free(old);
    pvsize_report_free(new);
    pvsize_spec_free(system);
    says(i, "array 1: cold open-circuit voltage within the limit for the building: exceeds "
            "(664.26 V, at most 600 V) against meets (664.26 V, at most 1000 V); reason: "
            "figure.voltage_limit_dwelling: 600 V (AS/NZS 5033:2014");
    done();
}
END_TEST

START_TEST(the_same_report_does_not_differ)
{
    pvsize_spec *system = job(16);
    pvsize_report *empty, *empty_too;

    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_report *a = checked_by(system, pvsize_preset_name(i));
        pvsize_report *b = checked_by(system, pvsize_preset_name(i));

        compare_found(a, b, 127);
        ck_assert_int_eq(differences(), 0);
        compare_found(a, a, 127);
        ck_assert_int_eq(differences(), 0);
        pvsize_report_free(a);
        pvsize_report_free(b);
    }
    OK(pvsize_report_new(NULL, &empty, diag));
    OK(pvsize_report_new(NULL, &empty_too, diag));
    compare_found(empty, empty_too, 0);
    ck_assert_int_eq(differences(), 0);
    pvsize_report_free(empty);
    pvsize_report_free(empty_too);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* One change of the rule set; what it does to the one rule's findings. */
static void change(pvsize_spec *system, int32_t figure, double value, int32_t rule, int32_t what,
                   const char *words)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *a = checked(system, rules), *b;
    int32_t i, behind;

    if (value >= 0)
        OK(pvsize_rules_set_figure(rules, figure, value, "a test", diag));
    else
        OK(pvsize_rules_unset_figure(rules, figure, diag));
    b = checked(system, rules);
    compare_found(a, b, 0);
    i = difference_on(rule, 0);
    ck_assert_int_ge(i, 0);
    ck_assert_int_eq(what_of(i), what);
    OK(pvsize_comparison_figure(comparison, i, 0, &behind, diag));
    ck_assert_int_eq(behind, figure);
    says(i, words);
    pvsize_rules_free(rules);
    pvsize_report_free(a);
    pvsize_report_free(b);
    done();
}

START_TEST(a_finding_says_which_figure_is_behind_it)
{
    pvsize_spec *system = job(14), *module;

    /* value, through sums over arrays */
    change(system, PVSIZE_FIGURE_ISC_FACTOR, 1.5, PVSIZE_RULE_ISC_INPUT,
           PVSIZE_DIFFERS_VALUE | PVSIZE_DIFFERS_VERDICT, "reason: figure.isc_factor: 1.25");
    change(system, PVSIZE_FIGURE_ISC_FACTOR, -1, PVSIZE_RULE_ISC_INPUT, PVSIZE_DIFFERS_VERDICT,
           "against not assessed (needs figure.isc_factor); reason: figure.isc_factor: 1.25");
    /* a limit that is a figure itself */
    change(system, PVSIZE_FIGURE_ARRAY_RATIO_MIN, 5, PVSIZE_RULE_PV_UNDERLOAD,
           PVSIZE_DIFFERS_LIMIT | PVSIZE_DIFFERS_VERDICT, "falls short (");
    /* neither: the band alone; 581.23 of 600 V */
    change(system, PVSIZE_FIGURE_MARGINAL_BAND, 10, PVSIZE_RULE_VOC_COLD_INPUT,
           PVSIZE_DIFFERS_VERDICT, "meets (581.22 V, at most 600 V) against marginal");
    /* a figure that only chooses the formula: the table for a lacking coefficient */
    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &module, diag));
    pvsize_spec_free(module);
    pvsize_spec_free(system);
    module = invented_module();
    OK(pvsize_spec_unset(module, PVSIZE_MODULE_VOC_COEFFICIENT, diag));
    system = invented_array(0, 0, 14, 2);
    OK(pvsize_spec_replace(system, 0, module, diag));
    pvsize_spec_free(module);
    module = invented_system();
    OK(pvsize_spec_replace(module, 0, system, diag));
    change(module, PVSIZE_FIGURE_VOC_TABLE, 0, PVSIZE_RULE_VOC_COLD_INPUT, PVSIZE_DIFFERS_VERDICT,
           "reason: figure.voc_table: yes");
    pvsize_spec_free(module);
    pvsize_spec_free(system);
}
END_TEST

/* Difference i comes from this figure and no other. */
static void names_figure(int32_t i, int32_t figure)
{
    int32_t behind;

    OK(pvsize_comparison_figure(comparison, i, 0, &behind, diag));
    ck_assert_int_eq(behind, figure);
    ck_assert_int_ne(pvsize_comparison_figure(comparison, i, 1, &behind, NULL), PVSIZE_OK);
}

/* Changes one figure; each finding that differs must name it. */
static void name_the_figure(const pvsize_spec *system, const char *name, int32_t figure, bool low)
{
    pvsize_rules *rules = preset(name);
    pvsize_report *a = checked(system, rules), *b;
    double ends[2];

    OK(pvsize_term_range(figure, &ends[0], &ends[1]));
    if (pvsize_rules_set_figure(rules, figure, ends[low ? 0 : 1], NULL, NULL) == PVSIZE_OK) {
        b = checked(system, rules);
        compare_found(a, b, 0);
        for (int32_t i = 0; i < differences(); i++)
            names_figure(i, figure);
        pvsize_report_free(b);
    }
    pvsize_report_free(a);
    pvsize_rules_free(rules);
}

START_TEST(every_reason_is_named)
{
    pvsize_spec *system = job(14), *array = invented_array(0, 0, 14, 3);

    OK(pvsize_spec_add(system, array, NULL, diag));
    for (int32_t i = 0; i < pvsize_preset_count(); i++)
        for (int32_t f = 0; f < 2 * pvsize_term_count(PVSIZE_KIND_FIGURE); f++)
            name_the_figure(system, pvsize_preset_name(i),
                            pvsize_term_at(PVSIZE_KIND_FIGURE, f / 2), f % 2);
    pvsize_spec_free(system);
    pvsize_spec_free(array);
    done();
}
END_TEST

START_TEST(rules_in_force_on_one_side_only)
{
    pvsize_spec *system = job(9);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *a = checked(system, rules), *b;
    int32_t finding;

    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_TERMINALS, PVSIZE_SEVERITY_OFF, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_PV_RATIO, PVSIZE_SEVERITY_NOTE, diag));
    b = checked(system, rules);
    compare_found(a, b, 0);
    ck_assert_int_eq(differences(), 3); /* both inputs, one inverter */
    ck_assert_int_eq(what_of(difference_on(PVSIZE_RULE_PV_RATIO, 0)), PVSIZE_DIFFERS_SEVERITY);
    says(difference_on(PVSIZE_RULE_PV_RATIO, 0), "reason: rule.pv_ratio: must (");
    says(difference_on(PVSIZE_RULE_PV_RATIO, 0), "against note (");
    ck_assert_int_eq(what_of(difference_on(PVSIZE_RULE_TERMINALS, 1)), PVSIZE_DIFFERS_PRESENCE);
    OK(pvsize_comparison_side(comparison, difference_on(PVSIZE_RULE_TERMINALS, 0), 1, NULL,
                              &finding, diag));
    ck_assert_int_eq(finding, -1);
    says(difference_on(PVSIZE_RULE_TERMINALS, 0), "meets (2, at most 2) against not in force");
    compare_found(b, a, 0);
    ck_assert_int_eq(differences(), 3);
    says(difference_on(PVSIZE_RULE_TERMINALS, 0), "not in force against meets (2, at most 2)");
    says(difference_on(PVSIZE_RULE_TERMINALS, 0), "reason: rule.terminals: not in force against");
    pvsize_rules_free(rules);
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* A rule that only speaks up at a breach. */
START_TEST(a_quiet_rule_that_breaks_once)
{
    pvsize_spec *module = invented_module();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *a = checked(module, rules), *b;

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_DATA_ISC_COEFFICIENT_HIGH, 0.01, NULL, diag));
    b = checked(module, rules);
    compare_found(a, b, 0);
    ck_assert_int_eq(differences(), 1);
    ck_assert_int_eq(what_of(0), PVSIZE_DIFFERS_PRESENCE);
    says(0, "nothing to report against exceeds (");
    says(0, "reason: figure.data_isc_coefficient_high: 0.2 %/K");
    pvsize_rules_free(rules);
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(module);
    done();
}
END_TEST

START_TEST(other_data_are_named_as_the_reason)
{
    pvsize_spec *one = job(9), *two = job(10);
    pvsize_report *a = checked_by(one, "asnzs_5033_2021"), *b = checked_by(two, "asnzs_5033_2021");

    compare_found(a, b, 0);
    says(difference_on(PVSIZE_RULE_VOC_COLD_INPUT, 0), "; reason: the data of the two reports");
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(one);
    pvsize_spec_free(two);
    done();
}
END_TEST

/* Where the rule sets differ as well, but in no figure that the finding looked at, either may be
 * the reason: a figure need not stand in a formula to count. */
START_TEST(other_data_and_a_figure_elsewhere)
{
    pvsize_spec *one = job(9), *two = job(10);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *a = checked(one, rules), *b;

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_AC_RISE, 1.5, "own", diag));
    b = checked(two, rules);
    compare_found(a, b, 0);
    says(difference_on(PVSIZE_RULE_VOC_COLD_INPUT, 0),
         "; reason: the data, or a figure that no formula names");
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_rules_free(rules);
    pvsize_spec_free(one);
    pvsize_spec_free(two);
    done();
}
END_TEST

/* Thousands of findings, own rules in another order. */
START_TEST(a_large_system)
{
    enum { ARRAYS = 400, RULES = 20 };
    pvsize_spec *system = invented_system(), *array = invented_array(0, 0, 9, 1);
    pvsize_rules *a = preset(NULL), *b = preset(NULL);
    pvsize_report *first, *second;
    int32_t subject = -1, last = -1;

    for (int i = 2; i < ARRAYS; i++)
        OK(pvsize_spec_add(system, array, NULL, diag));
    for (int i = 0; i < RULES; i++) {
        char name[3] = {'a', (char)('a' + i), '\0'};
        char other[3] = {'a', (char)('a' + RULES - 1 - i), '\0'};

        own(a, name, PVSIZE_COMPARE_AT_MOST, 0, 100 + i);
        own(b, other, PVSIZE_COMPARE_AT_MOST, 0, i == 3 ? 1000 : 100 + RULES - 1 - i);
    }
    first = checked(system, a);
    second = checked(system, b);
    compare_found(first, second, 0);
    ck_assert_int_eq(differences(), ARRAYS);
    for (int32_t i = 0; i < ARRAYS; i++, last = subject) {
        OK(pvsize_comparison_difference(comparison, i, NULL, &subject, diag));
        ck_assert_int_gt(subject, last);
        ck_assert_int_eq(term_of(i, 0), 50000 + RULES - 1 - 3);
        ck_assert_int_eq(term_of(i, 1), 50000 + 3);
    }
    says(0, "reason: rule.aq: should, quantity.string_voc_cold at most 116 V (own practice; given "
            "by the caller) against should, quantity.string_voc_cold at most 1000 V");
    pvsize_report_free(first);
    pvsize_report_free(second);
    pvsize_rules_free(a);
    pvsize_rules_free(b);
    pvsize_spec_free(system);
    pvsize_spec_free(array);
    done();
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "a string", a_string_that_one_edition_allows);
    add_test(suite, "same report", the_same_report_does_not_differ);
    add_test(suite, "figures behind", a_finding_says_which_figure_is_behind_it);
    add_test(suite, "reasons", every_reason_is_named);
    add_test(suite, "one side", rules_in_force_on_one_side_only);
    add_test(suite, "quiet rule", a_quiet_rule_that_breaks_once);
    add_test(suite, "other data", other_data_are_named_as_the_reason);
    add_test(suite, "large", a_large_system);
    add_test(suite, "a figure elsewhere", other_data_and_a_figure_elsewhere);
}

int main(void)
{
    return run_cases("compare_reports", add);
}
