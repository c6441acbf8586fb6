/* Two rule sets, and two reports, side by side. */
#include "../support/pv_test.h"

static pvsize_comparison *comparison;

static void compare_sets(const pvsize_rules *a, const pvsize_rules *b, int32_t wanted)
{
    if (!comparison)
        OK(pvsize_comparison_new(NULL, &comparison, diag));
    OK(pvsize_compare_rules(a, b, wanted, comparison, diag));
}

static void compare_found(const pvsize_report *a, const pvsize_report *b, int32_t wanted)
{
    if (!comparison)
        OK(pvsize_comparison_new(NULL, &comparison, diag));
    OK(pvsize_compare_reports(a, b, wanted, comparison, diag));
}

static int32_t differences(void)
{
    int32_t count;

    OK(pvsize_comparison_count(comparison, &count, diag));
    return count;
}

static int32_t what_of(int32_t i)
{
    int32_t what;

    OK(pvsize_comparison_difference(comparison, i, &what, NULL, diag));
    return what;
}

static int32_t term_of(int32_t i, int32_t side)
{
    int32_t term;

    OK(pvsize_comparison_side(comparison, i, side, &term, NULL, diag));
    return term;
}

static double number_of(int32_t i, int32_t side, int32_t what)
{
    double value;

    OK(pvsize_comparison_number(comparison, i, side, what, &value, diag));
    return value;
}

/* Place of the difference on a rule or figure, the n-th of it; -1 if none. */
static int32_t difference_on(int32_t term, int32_t n)
{
    for (int32_t i = 0; i < differences(); i++)
        if ((term_of(i, 0) == term || term_of(i, 1) == term) && n-- == 0)
            return i;
    return -1;
}

static void says(int32_t i, const char *words)
{
    char text[2000];

    OK(pvsize_comparison_text(comparison, i, text, sizeof text, NULL, diag));
    ck_assert_msg(strstr(text, words) != NULL, "'%s' not in '%s'", words, text);
}

static void done(void)
{
    pvsize_comparison_free(comparison);
    comparison = NULL;
}

static pvsize_rules *copy_of(const pvsize_rules *rules)
{
    pvsize_rules *copy;

    OK(pvsize_rules_clone(rules, NULL, &copy, diag));
    return copy;
}

/* rule sets */

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

static int32_t own(pvsize_rules *rules, const char *name, int32_t compare, int32_t limit_term,
                   double limit)
{
    int32_t rule;

    OK(pvsize_rules_add(rules, name, "own", PVSIZE_QUANTITY_STRING_VOC_COLD, compare, limit_term,
                        limit, PVSIZE_SEVERITY_SHOULD, "own practice", &rule, diag));
    return rule;
}

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

/* reports */

/* The invented job with strings of this length on the double input. */
static pvsize_spec *job(int32_t modules)
{
    pvsize_spec *system = invented_system();

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, modules, diag));
    return system;
}

static pvsize_report *checked_by(const pvsize_spec *spec, const char *name)
{
    pvsize_rules *rules = preset(name);
    pvsize_report *report = checked(spec, rules);

    pvsize_rules_free(rules);
    return report;
}

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

/* wrong use */

START_TEST(wrong_handles)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_spec *system = job(9), *module = invented_module();
    pvsize_report *report = checked(system, rules), *alone = checked(module, rules);
    const void *not_rules = system;
    int32_t count;

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_comparison_new(NULL, NULL, diag));
    compare_sets(rules, rules, 0);
    FAILS(PVSIZE_E_NULL_POINTER, "first", pvsize_compare_rules(NULL, rules, 0, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "second", pvsize_compare_rules(rules, NULL, 0, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "comparison", pvsize_compare_rules(rules, rules, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "second",
          pvsize_compare_rules(rules, not_rules, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "comparison",
          pvsize_compare_rules(rules, rules, 0, (void *)rules, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "wanted", pvsize_compare_rules(rules, rules, 128, comparison, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "wanted",
          pvsize_compare_reports(report, report, -1, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "second",
          pvsize_compare_reports(report, NULL, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "first",
          pvsize_compare_reports((const void *)rules, report, 0, comparison, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "second: of another kind",
          pvsize_compare_reports(report, alone, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "comparison",
          pvsize_comparison_count((const void *)rules, &count, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_comparison_count(comparison, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 0",
          pvsize_comparison_text(comparison, 0, NULL, 0, NULL, diag));
    pvsize_comparison_free(NULL);
    pvsize_comparison_free((void *)rules); /* not one: left alone */
    pvsize_rules_free(rules);
    pvsize_report_free(report);
    pvsize_report_free(alone);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    done();
}
END_TEST

START_TEST(unlike_systems)
{
    pvsize_spec *one = job(9), *two = job(9), *array = invented_array(1, 1, 8, 1);
    pvsize_report *a = checked_by(one, "asnzs_5033_2021"), *b;

    /* as many of each, but the second array hangs on another input */
    OK(pvsize_spec_set_part_number(two, 1, PVSIZE_ARRAY_INPUT, 0, diag));
    b = checked_by(two, "asnzs_5033_2021");
    compare_found(a, a, 0);
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(a, b, 0, comparison, diag));
    pvsize_report_free(b);
    OK(pvsize_spec_add(one, array, NULL, diag));
    b = checked_by(one, "asnzs_5033_2021");
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(a, b, 0, comparison, diag));
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(one);
    pvsize_spec_free(two);
    pvsize_spec_free(array);
    done();
}
END_TEST

/* Three inputs on two inverters, two on the first of the one and on the second of the other. */
START_TEST(inputs_in_another_place)
{
    pvsize_report *reports[2];

    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);

        give(system, invented_site());
        for (int32_t k = 0; k < 2; k++) {
            pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, 0);

            give(inverter, invented_input(1));
            if (k == i)
                give(inverter, invented_input(1));
            give(system, inverter);
        }
        reports[i] = checked_by(system, "asnzs_5033_2021");
        pvsize_spec_free(system);
    }
    compare_found(reports[0], reports[0], 0);
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(reports[0], reports[1], 0, comparison, diag));
    pvsize_report_free(reports[0]);
    pvsize_report_free(reports[1]);
    done();
}
END_TEST

START_TEST(indices_and_buffers)
{
    pvsize_rules *old = preset("asnzs_5033_2014"), *new = preset("asnzs_5033_2021");
    char text[20] = "", whole[2000];
    int32_t count, term = 7;
    size_t length;
    double value = 7;

    compare_sets(old, new, 0);
    count = differences();
    FAILS(PVSIZE_E_BAD_INDEX, "given",
          pvsize_comparison_side(comparison, count, 0, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "side", pvsize_comparison_side(comparison, 0, 2, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "side: index outside the list; given -1; allowed 0 to 1",
          pvsize_comparison_side(comparison, 0, -1, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given",
          pvsize_comparison_difference(comparison, -1, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_comparison_figure(comparison, 0, -1, &term, diag));
    FAILS(PVSIZE_E_NOT_SET, "figure",
          pvsize_comparison_number(comparison, 0, 0, PVSIZE_DIFFERS_VERDICT, &value, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_comparison_number(comparison, 0, 0, 3, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "figure", pvsize_comparison_figure(comparison, 0, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "comparison",
          pvsize_comparison_side(NULL, 0, 0, &term, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value",
          pvsize_comparison_number(comparison, 0, 0, PVSIZE_DIFFERS_VALUE, NULL, diag));
    ck_assert(term == 7 && value == 7);
    OK(pvsize_comparison_text(comparison, 0, NULL, 0, &length, diag));
    OK(pvsize_comparison_text(comparison, 0, whole, sizeof whole, NULL, diag));
    ck_assert_uint_eq(strlen(whole), length);
    FAILS(PVSIZE_E_CAPACITY, "needed",
          pvsize_comparison_text(comparison, 0, text, sizeof text, &length, diag));
    ck_assert_uint_eq(strlen(text), sizeof text - 1);
    ck_assert(strncmp(text, whole, sizeof text - 1) == 0);
    ck_assert_uint_eq(strlen(whole), length);
    pvsize_rules_free(old);
    pvsize_rules_free(new);
    done();
}
END_TEST

/* memory */

/* Each allocation fails once; what the comparison held stays. */
START_TEST(every_allocation_fails_once)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *system = job(16);
    pvsize_rules *old = preset("asnzs_5033_2014"), *new = preset("iec_62548_1_2023");
    pvsize_report *a = checked(system, old), *b = checked(system, new);
    int32_t held, tried = 0;
    pvsize_status status[2];

    c.fail_at = 0;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_comparison_new(&memory, &comparison, diag));
    ck_assert_ptr_null(comparison);
    c.fail_at = -1;
    OK(pvsize_comparison_new(&memory, &comparison, diag));
    OK(pvsize_compare_rules(new, old, PVSIZE_DIFFERS_VALUE, comparison, diag));
    held = differences();
    for (int32_t what = 0; what < 2; what++) {
        for (long n = 0;; n++, tried++) {
            long live = c.live;

            c.fail_at = c.made + n;
            status[what] = what ? pvsize_compare_reports(a, b, 0, comparison, NULL)
                                : pvsize_compare_rules(old, new, 0, comparison, NULL);
            ck_assert_int_eq(c.live, live);
            if (status[what] == PVSIZE_OK)
                break;
            ck_assert_int_eq(status[what], PVSIZE_E_NO_MEMORY);
            ck_assert_int_eq(differences(), held);
            says(0, " against ");
        }
        held = differences();
        ck_assert_int_gt(held, 4);
    }
    ck_assert_int_ge(tried, 6);
    done();
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(old);
    pvsize_rules_free(new);
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(system);
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
    add_test(suite, "a string", a_string_that_one_edition_allows);
    add_test(suite, "same report", the_same_report_does_not_differ);
    add_test(suite, "figures behind", a_finding_says_which_figure_is_behind_it);
    add_test(suite, "reasons", every_reason_is_named);
    add_test(suite, "one side", rules_in_force_on_one_side_only);
    add_test(suite, "quiet rule", a_quiet_rule_that_breaks_once);
    add_test(suite, "other data", other_data_are_named_as_the_reason);
    add_test(suite, "large", a_large_system);
    add_test(suite, "wrong handles", wrong_handles);
    add_test(suite, "unlike systems", unlike_systems);
    add_test(suite, "indices", indices_and_buffers);
    add_test(suite, "memory", every_allocation_fails_once);
    add_test(suite, "another limit", own_rules_with_another_limit_differ);
    add_test(suite, "a figure elsewhere", other_data_and_a_figure_elsewhere);
    add_test(suite, "inputs elsewhere", inputs_in_another_place);
}

int main(void)
{
    return run_cases("compare", add);
}
