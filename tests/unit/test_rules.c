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

/* What one rule of a rule set that has no other finds on a spec. */
static pvsize_report *found_by(const pvsize_spec *spec, int32_t value, int32_t compare,
                               int32_t limit_term, double limit, int32_t *rule)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;

    OK(pvsize_rules_add(rules, "own", "own rule", value, compare, limit_term, limit,
                        PVSIZE_SEVERITY_MUST, "own", rule, diag));
    report = checked(spec, rules);
    pvsize_rules_free(rules);
    return report;
}

static int32_t lacks(const pvsize_report *report, int32_t rule, int32_t n)
{
    int32_t missing;

    ck_assert_int_eq(verdict_of(report, rule, n), PVSIZE_VERDICT_NOT_ASSESSED);
    OK(pvsize_report_missing(report, finding_of(report, rule, n), &missing, diag));
    return missing;
}

/* A limit of the plane, of arrays and cables of which one is on none. What the plane comes to
 * does not apply there; what is asked of it needs the array's plane to be named. */
START_TEST(own_rules_across_what_is_not_there)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *input = invented_input(1);
    pvsize_report *report;
    int32_t rule, finding;
    double value, limit;

    give(system, invented_site());
    give(system, invented_inverter());
    give(system, invented_array(0, -1, 9, 2));
    give(system, invented_array(1, 1, 8, 1));
    for (int i = 0; i < 2; i++)
        give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING,
                          PVSIZE_CABLE_ARRAY, i));
    report = found_by(system, PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST,
                      PVSIZE_QUANTITY_PLANE_MODULES, 1, &rule);
    finding = finding_of(report, rule, 0);
    OK(pvsize_report_numbers(report, finding, &value, &limit, NULL, diag));
    ck_assert(value == 8 && limit == 8);
    ck_assert_int_eq(finding_of(report, rule, 1), -1);
    pvsize_report_free(report);

    report = found_by(system, PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST,
                      PVSIZE_PLANE_CAPACITY, 1, &rule);
    ck_assert_int_eq(lacks(report, rule, 0), PVSIZE_ARRAY_PLANE);
    ck_assert_int_eq(verdict_of(report, rule, 1), PVSIZE_VERDICT_MEETS); /* 8 of 10 */
    pvsize_report_free(report);

    report = found_by(system, PVSIZE_CABLE_GROUPED, PVSIZE_COMPARE_AT_MOST, PVSIZE_PLANE_CAPACITY,
                      1, &rule);
    ck_assert_int_eq(lacks(report, rule, 0), PVSIZE_ARRAY_PLANE);
    ck_assert_int_eq(verdict_of(report, rule, 1), PVSIZE_VERDICT_MEETS);
    pvsize_report_free(report);

    /* an a.c. cable is of no array, nor an isolator of a whole input; of one of an array each
     * number is asked */
    give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_INPUT, 0, PVSIZE_ISOLATOR_VOLTAGE, 9));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_ARRAY, 0, PVSIZE_ISOLATOR_VOLTAGE, 9));
    for (int i = 0; i < 2; i++) {
        report = found_by(system, PVSIZE_CABLE_GROUPED, PVSIZE_COMPARE_AT_MOST,
                          i ? PVSIZE_PLANE_CAPACITY : PVSIZE_ARRAY_STRINGS, 1, &rule);
        ck_assert_int_ge(finding_of(report, rule, 1), 0);
        ck_assert_int_eq(finding_of(report, rule, 2), -1);
        pvsize_report_free(report);
    }
    report = found_by(system, PVSIZE_ISOLATOR_VOLTAGE, PVSIZE_COMPARE_AT_LEAST,
                      PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 1, &rule);
    ck_assert_int_eq(verdict_of(report, rule, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(finding_of(report, rule, 1), -1);
    pvsize_report_free(report);

    /* nor has an input that is looked at alone an inverter */
    report = found_by(input, PVSIZE_INPUT_MAX_POWER, PVSIZE_COMPARE_AT_MOST,
                      PVSIZE_QUANTITY_PV_LIMIT, 1, &rule);
    ck_assert_int_eq(finding_of(report, rule, 0), -1);
    pvsize_report_free(report);
    pvsize_spec_free(input);
    pvsize_spec_free(system);
}
END_TEST

/* The guard on a limit of 0 is a billionth of one, and nothing is close to 0 by shares of it. */
START_TEST(own_rules_with_a_limit_of_nothing)
{
    static const double values[] = {-1e-12, 0, 1e-12, 1e-6};
    pvsize_spec *module = invented_module();

    for (int i = 0; i < 4; i++) {
        pvsize_report *report;
        int32_t rule;
        double margin;

        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_ISC_COEFFICIENT, values[i], diag));
        report =
            found_by(module, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_COMPARE_AT_MOST, 0, 0, &rule);
        ck_assert_int_eq(verdict_of(report, rule, 0),
                         i < 3 ? PVSIZE_VERDICT_MEETS : PVSIZE_VERDICT_EXCEEDS);
        OK(pvsize_report_numbers(report, finding_of(report, rule, 0), NULL, NULL, &margin, diag));
        ck_assert(margin == (i == 2 ? 0 : 0 - values[i]));
        pvsize_report_free(report);
    }
    pvsize_spec_free(module);
}
END_TEST

/* A figure that is set is judged as it stands; a share of a negative limit is one of its
 * size. */
START_TEST(own_rules_on_set_figures_and_negative_limits)
{
    pvsize_spec *module = invented_module(), *system = invented_system();
    pvsize_report *report;
    int32_t rule;
    char *text;

    report = found_by(system, PVSIZE_FIGURE_ISC_FACTOR, PVSIZE_COMPARE_AT_LEAST, 0, 1.3, &rule);
    ck_assert_int_eq(verdict_of(report, rule, 0), PVSIZE_VERDICT_EXCEEDS); /* 1.25 */
    ck_assert_int_eq(finding_of(report, rule, 1), -1);
    pvsize_report_free(report);
    report =
        found_by(module, PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_COMPARE_AT_LEAST, 0, -0.4, &rule);
    text = text_of(report, finding_of(report, rule, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_msg(strstr(text, "-0.25 %/K, at least -0.4 %/K: meets, margin 0.15 %/K (37.5 %)") !=
                      NULL,
                  "%s", text);
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(module);
    pvsize_spec_free(system);
}
END_TEST

/* So small a number has no more digits than 15 decimals: what differs beyond reads alike, and
 * the margin tells of it. */
START_TEST(numbers_that_never_read_apart)
{
    pvsize_spec *module = invented_module();
    pvsize_report *report;
    int32_t rule;
    double margin;
    char *text;

    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_ISC_COEFFICIENT, 2e-6, diag));
    report = found_by(module, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_COMPARE_AT_LEAST, 0,
                      2.00000002e-6, &rule);
    OK(pvsize_report_numbers(report, finding_of(report, rule, 0), NULL, NULL, &margin, diag));
    NEAR(margin * 1e14, -2, 1e-6);
    text = text_of(report, finding_of(report, rule, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_msg(strstr(text, "0.000002 %/K, at least 0.00000200000002 %/K: falls short") != NULL,
                  "%s", text);
    free(text);
    pvsize_report_free(report);
    report = found_by(module, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_COMPARE_AT_MOST, 0,
                      2.0000000001e-6, &rule);
    text = text_of(report, finding_of(report, rule, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_msg(strstr(text, "0.000002 %/K, at most 0.000002 %/K: ") != NULL, "%s", text);
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(module);
}
END_TEST

/* A share of a term that is missing comes to no number, and no step says that it did. */
START_TEST(a_share_of_what_is_missing)
{
    pvsize_spec *system = invented_system(), *inverter = SPEC(PVSIZE_KIND_INVERTER, 0);
    pvsize_report *report;
    int32_t rule;
    char *text;

    give(inverter, invented_input(2));
    give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    report = found_by(system, PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST,
                      PVSIZE_INPUT_MAX_VOLTAGE, 0.95, &rule);
    text = text_of(report, finding_of(report, rule, 0), PVSIZE_TEXT_WORKING);
    ck_assert_ptr_nonnull(strstr(text, "limit = 0.95 × 600 V = 570 V"));
    free(text);
    ck_assert_int_eq(lacks(report, rule, 1), PVSIZE_INPUT_MAX_VOLTAGE);
    text = text_of(report, finding_of(report, rule, 1), PVSIZE_TEXT_WORKING);
    ck_assert_ptr_nonnull(strstr(text, "Ustring,cold = "));
    ck_assert_ptr_null(strstr(text, "limit ="));
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(inverter);
    pvsize_spec_free(system);
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
    add_test(suite, "own rules across", own_rules_across_what_is_not_there);
    add_test(suite, "own rules and nothing", own_rules_with_a_limit_of_nothing);
    add_test(suite, "set figures, negative limits", own_rules_on_set_figures_and_negative_limits);
    add_test(suite, "never apart", numbers_that_never_read_apart);
    add_test(suite, "share of a gap", a_share_of_what_is_missing);
}

int main(void)
{
    return run_cases("rules", add);
}
