/* Rule sets as data: presets, changes, copies, own rules. */
#include "../support/pv_test.h"

START_TEST(presets_are_whole)
{
    ck_assert_int_ge(pvsize_preset_count(), 2);
    ck_assert_ptr_null(pvsize_preset_name(-1));
    ck_assert_ptr_null(pvsize_preset_title(pvsize_preset_count()));
    ck_assert_ptr_null(pvsize_preset_title(-1));
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = preset(pvsize_preset_name(i));
        char title[200];

        OK(pvsize_rules_get_title(rules, title, sizeof title, NULL, diag));
        ck_assert_str_eq(title, pvsize_preset_title(i));
        for (int32_t r = 0; r < pvsize_rules_count(rules); r++) {
            int32_t rule = pvsize_rules_at(rules, r), known;
            size_t length;

            OK(pvsize_rules_known(rules, rule, &known, diag));
            ck_assert_ptr_nonnull(pvsize_set_name(PVSIZE_SET_KNOWN, known));
            OK(pvsize_rules_source(rules, rule, NULL, 0, &length, diag));
            ck_assert_uint_gt(length, 0);
        }
        pvsize_rules_free(rules);
    }
}
END_TEST

START_TEST(figures_lie_in_their_range)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = preset(pvsize_preset_name(i));

        for (int32_t f = 0; f < pvsize_term_count(PVSIZE_KIND_FIGURE); f++) {
            int32_t figure = pvsize_term_at(PVSIZE_KIND_FIGURE, f);
            double value, low, high;

            if (pvsize_rules_get_figure(rules, figure, &value, NULL))
                continue;
            OK(pvsize_term_range(figure, &low, &high));
            ck_assert_msg(low <= value && value <= high, "%s", pvsize_term_name(figure));
        }
        pvsize_rules_free(rules);
    }
}
END_TEST

START_TEST(an_empty_rule_set_finds_nothing)
{
    pvsize_rules *rules = preset(NULL);
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked(system, rules);
    int32_t count;

    OK(pvsize_report_count(report, 0, 0, &count, diag));
    ck_assert_int_eq(count, 0);
    pvsize_report_free(report);
    /* a rule without its figure is not assessed, and says what it needs */
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    report = checked(system, rules);
    OK(pvsize_report_missing(report, 0, &count, diag));
    ck_assert_int_eq(count, PVSIZE_FIGURE_ISC_FACTOR);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISC_INPUT, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(figures_can_be_changed_and_taken_away)
{
    pvsize_rules *rules = preset("asnzs_5033_2021"), *copy;
    char source[100];
    int32_t known;
    double value;

    OK(pvsize_rules_known(rules, PVSIZE_FIGURE_ISC_FACTOR, &known, diag));
    ck_assert_int_eq(known, PVSIZE_KNOWN_PRACTICE);
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.4, "site at 2500 m", diag));
    OK(pvsize_rules_clone(rules, NULL, &copy, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.5, NULL, diag));
    OK(pvsize_rules_get_figure(copy, PVSIZE_FIGURE_ISC_FACTOR, &value, diag));
    ck_assert(value == 1.4);
    OK(pvsize_rules_source(copy, PVSIZE_FIGURE_ISC_FACTOR, source, sizeof source, NULL, diag));
    ck_assert_str_eq(source, "site at 2500 m");
    OK(pvsize_rules_known(copy, PVSIZE_FIGURE_ISC_FACTOR, &known, diag));
    ck_assert_int_eq(known, PVSIZE_KNOWN_USER);
    OK(pvsize_rules_source(rules, PVSIZE_FIGURE_ISC_FACTOR, source, sizeof source, NULL, diag));
    ck_assert_str_eq(source, "given by the caller");
    OK(pvsize_rules_unset_figure(copy, PVSIZE_FIGURE_ISC_FACTOR, diag));
    ck_assert_int_eq(pvsize_rules_get_figure(copy, PVSIZE_FIGURE_ISC_FACTOR, &value, diag),
                     PVSIZE_E_NOT_SET);
    pvsize_rules_free(rules);
    pvsize_rules_free(copy);
}
END_TEST

START_TEST(severity_decides_what_is_reported)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked(system, rules);
    int32_t severity;

    ck_assert_int_ge(finding_of(report, PVSIZE_RULE_TERMINALS, 0), 0);
    pvsize_report_free(report);
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_TERMINALS, PVSIZE_SEVERITY_OFF, diag));
    OK(pvsize_rules_get_severity(rules, PVSIZE_RULE_TERMINALS, &severity, diag));
    ck_assert_int_eq(severity, PVSIZE_SEVERITY_OFF);
    report = checked(system, rules);
    ck_assert_int_eq(finding_of(report, PVSIZE_RULE_TERMINALS, 0), -1);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(own_rules_with_a_number_and_with_a_term)
{
    pvsize_rules *rules = preset("asnzs_5033_2021"), *copy;
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t modules, voltage, i;
    double value, limit, margin;
    char *text;

    OK(pvsize_rules_add(rules, "retailer_modules", "at most 20 modules in an offer",
                        PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 20,
                        PVSIZE_SEVERITY_SHOULD, "retailer's offer", &modules, diag));
    OK(pvsize_rules_add(rules, "voltage_reserve", "5 % below the input's maximum",
                        PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST,
                        PVSIZE_INPUT_MAX_VOLTAGE, 0.95, PVSIZE_SEVERITY_MUST, "own practice",
                        &voltage, diag));
    ck_assert_int_eq(pvsize_rules_by_name(rules, "voltage_reserve"), voltage);
    OK(pvsize_rules_clone(rules, NULL, &copy, diag));
    pvsize_rules_free(rules);
    report = checked(system, copy);
    pvsize_rules_free(copy);
    pvsize_spec_free(system); /* the report stands alone */

    ck_assert_int_eq(verdict_of(report, modules, 0), PVSIZE_VERDICT_EXCEEDS);
    i = finding_of(report, modules, 0);
    OK(pvsize_report_numbers(report, i, &value, &limit, &margin, diag));
    ck_assert(value == 26 && limit == 20 && margin == -6);
    text = text_of(report, i, PVSIZE_TEXT_SOURCE);
    ck_assert_str_eq(text, "retailer's offer (given by the caller)");
    free(text);
    i = finding_of(report, voltage, 1);
    ck_assert_int_ge(i, 0);
    OK(pvsize_report_numbers(report, i, &value, &limit, NULL, diag));
    NEAR(limit, 570, 1e-12);
    text = text_of(report, i, PVSIZE_TEXT_WORKING);
    ck_assert_ptr_nonnull(strstr(text, "limit = 0.95 × 600 V = 570 V"));
    free(text);
    pvsize_report_free(report);
}
END_TEST

/* A limit on what is not a design but a datum: scope of the parameter's kind. */
START_TEST(own_rules_on_parameters_and_figures)
{
    pvsize_rules *rules = preset(NULL);
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t mass, figure, fuse, count;

    OK(pvsize_rules_add(rules, "mass", "light modules", PVSIZE_MODULE_MASS, PVSIZE_COMPARE_AT_MOST,
                        0, 25, PVSIZE_SEVERITY_NOTE, "two persons lift", &mass, diag));
    OK(pvsize_rules_add(rules, "figure", "factor kept", PVSIZE_FIGURE_ISC_FACTOR,
                        PVSIZE_COMPARE_AT_LEAST, 0, 1.25, PVSIZE_SEVERITY_MUST, "own", &figure,
                        diag));
    OK(pvsize_rules_add(rules, "fuse", "fuse rating", PVSIZE_MODULE_MAX_SERIES_FUSE,
                        PVSIZE_COMPARE_AT_LEAST, PVSIZE_MODULE_ISC, 1.5, PVSIZE_SEVERITY_MUST,
                        "own", &fuse, diag));
    report = checked(system, rules);
    ck_assert_int_eq(verdict_of(report, mass, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(report, mass, 1), 0); /* equal modules once */
    ck_assert_int_eq(verdict_of(report, figure, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(report, fuse, 0), PVSIZE_VERDICT_MEETS); /* 25 against 20.85 */
    OK(pvsize_report_count(report, 0, 0, &count, diag));
    ck_assert_int_eq(count, 3);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(rules_are_listed)
{
    pvsize_rules *rules = preset(NULL);
    char name[64], title[200];
    int32_t own;

    OK(pvsize_rules_add(rules, "my_own", "My own", PVSIZE_MODULE_MASS, PVSIZE_COMPARE_AT_MOST, 0,
                        25, PVSIZE_SEVERITY_NOTE, "own", &own, diag));
    ck_assert_int_eq(pvsize_rules_count(rules), pvsize_term_count(PVSIZE_KIND_RULE) + 1);
    ck_assert_int_eq(pvsize_rules_at(rules, pvsize_rules_count(rules) - 1), own);
    ck_assert_int_eq(pvsize_rules_at(rules, pvsize_rules_count(rules)), 0);
    ck_assert_int_eq(pvsize_rules_at(rules, -1), 0);
    for (int32_t i = 0; i < pvsize_rules_count(rules); i++) {
        int32_t rule = pvsize_rules_at(rules, i);

        OK(pvsize_rules_rule_name(rules, rule, name, sizeof name, NULL, diag));
        ck_assert_int_eq(pvsize_rules_by_name(rules, name), rule);
        OK(pvsize_rules_rule_title(rules, rule, title, sizeof title, NULL, diag));
        ck_assert_uint_gt(strlen(title), 0);
    }
    ck_assert_int_eq(pvsize_rules_by_name(rules, "none"), 0);
    ck_assert_int_eq(pvsize_rules_by_name(rules, NULL), 0);
    OK(pvsize_rules_set_title(rules, "Retailer, autumn", diag));
    OK(pvsize_rules_get_title(rules, title, sizeof title, NULL, diag));
    ck_assert_str_eq(title, "Retailer, autumn");
    pvsize_rules_free(rules);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "presets", presets_are_whole);
    add_test(suite, "figures in range", figures_lie_in_their_range);
    add_test(suite, "empty", an_empty_rule_set_finds_nothing);
    add_test(suite, "figures", figures_can_be_changed_and_taken_away);
    add_test(suite, "severity", severity_decides_what_is_reported);
    add_test(suite, "own rules", own_rules_with_a_number_and_with_a_term);
    add_test(suite, "own rules on data", own_rules_on_parameters_and_figures);
    add_test(suite, "list", rules_are_listed);
}

int main(void)
{
    return run_cases("rules", add);
}
