/* What a check says of data: missing, taken for granted, stated as none, of the wrong sign, or
 * beyond its tables. */
#include "../support/pv_check.h"

/* What is missing is named, and nothing else is dragged along. */
START_TEST(missing_data_are_named)
{
    pvsize_spec *system = invented_system(), *array;
    pvsize_report *report;
    int32_t term, outcome;
    char *text;

    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_unset(array, PVSIZE_ARRAY_PLANE, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    report = checked_au(system);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_VMP_HOT_TRACKING, 0),
                     PVSIZE_VERDICT_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_VMP_HOT_TRACKING, 1), PVSIZE_VERDICT_MEETS);
    OK(pvsize_report_missing(report, finding_of(report, PVSIZE_RULE_VMP_HOT_TRACKING, 0), &term,
                             diag));
    ck_assert_int_eq(term, PVSIZE_ARRAY_PLANE);
    text = text_of(report, finding_of(report, PVSIZE_RULE_VMP_HOT_TRACKING, 0), PVSIZE_TEXT_REASON);
    ck_assert_str_eq(text, "needs array.plane");
    free(text);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_VOC_COLD_INPUT, 0), PVSIZE_VERDICT_MEETS);
    OK(pvsize_report_outcome(report, &outcome, diag));
    ck_assert_int_eq(outcome, PVSIZE_OUTCOME_INCOMPLETE);
    pvsize_report_free(report);
    pvsize_spec_free(array);
    pvsize_spec_free(system);
}
END_TEST

/* Two inverters: indices lead to the right input, and sums run over both. */
/* What a sign shows is a figure: no current, that of two strings of 13.9 A, or that times 1.25. */
START_TEST(signs_show_what_the_figure_says)
{
    const double shown[] = {0, 0, 2 * 13.9, 2 * 13.9 * 1.25};

    for (int32_t which = 1; which <= 3; which++) {
        pvsize_spec *system = invented_system();
        pvsize_rules *rules = preset("asnzs_5033_2021");
        pvsize_report *report;
        double value;
        int32_t subject;

        OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_SIGN_VALUES, which, NULL, diag));
        report = checked(system, rules);
        subject = subject_for(report, PVSIZE_QUANTITY_INPUT_SIGN_CURRENT, 0, 0, -1);
        if (which == 1) {
            FAILS(PVSIZE_E_NOT_SET, "",
                  pvsize_report_quantity(report, PVSIZE_QUANTITY_INPUT_SIGN_CURRENT, subject,
                                         &value, diag));
        } else {
            OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_INPUT_SIGN_CURRENT, subject, &value,
                                      diag));
            NEAR(value, shown[which], 1e-12);
        }
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
}
END_TEST

/* An own rule on a parameter that is not set is judged by its default; with a number for a limit
 * the working names that number. */
START_TEST(own_rules_judge_by_defaults)
{
    pvsize_spec *module = invented_module();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    int32_t own, finding;
    double value;
    char *text;

    OK(pvsize_rules_add(rules, "by_light", "rise by light", PVSIZE_MODULE_VOC_BY_LIGHT,
                        PVSIZE_COMPARE_AT_MOST, 0, 0.01, PVSIZE_SEVERITY_MUST, NULL, &own, diag));
    report = checked(module, rules);
    ck_assert_int_eq(verdict_of(report, own, 0), PVSIZE_VERDICT_EXCEEDS);
    finding = finding_of(report, own, 0);
    OK(pvsize_report_numbers(report, finding, &value, NULL, NULL, diag));
    ck_assert(value == 0.05);
    text = text_of(report, finding, PVSIZE_TEXT_WORKING);
    ck_assert_ptr_nonnull(strstr(text, "limit = 0.01"));
    free(text);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
}
END_TEST

/* A default that is stated is the same number as one that is not: one type of module. */
START_TEST(a_stated_default_makes_no_other_type)
{
    static const double cell[] = {PVSIZE_CELL_CRYSTALLINE_SILICON, PVSIZE_CELL_CADMIUM_TELLURIDE};

    for (int other = 0; other < 2; other++) {
        pvsize_spec *system = invented_system(), *array, *module;
        pvsize_report *report;
        int32_t found;

        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 1, NULL, &array, diag));
        OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_CELL, cell[other], diag));
        OK(pvsize_spec_replace(array, 0, module, diag));
        OK(pvsize_spec_replace(system, 1, array, diag));
        report = checked_au(system);
        if (other)
            OK(pvsize_report_find(report, PVSIZE_KIND_MODULE, 1, -1, &found, diag));
        else
            FAILS(PVSIZE_E_BAD_INDEX, "allowed only 0",
                  pvsize_report_find(report, PVSIZE_KIND_MODULE, 1, -1, &found, diag));
        pvsize_report_free(report);
        pvsize_spec_free(module);
        pvsize_spec_free(array);
        pvsize_spec_free(system);
    }
}
END_TEST

/* The wrong sign must not make an unsafe string look safe: with +0.25 %/K the
 * linear law would give 36.1 V a module on a cold morning. */
START_TEST(a_wrong_sign_is_not_trusted)
{
    pvsize_report *report =
        with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, 0.25); /* table: 1.12 at -3 degC */

    NEAR(quantity_of(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, 0, 0), 38.8 * 1.12, 1e-12);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_VOC_HOT_START, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_DATA_VOC_COEFFICIENT_HIGH, 0),
                     PVSIZE_VERDICT_EXCEEDS);
    pvsize_report_free(report);
    /* nor V/K in the place of %/K: -0.098 is no silicon */
    report = with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, -0.098);
    NEAR(quantity_of(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, 0, 0), 38.8 * 1.12, 1e-12);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_DATA_VOC_COEFFICIENT_HIGH, 0),
                     PVSIZE_VERDICT_EXCEEDS);
    pvsize_report_free(report);
    /* nor a positive coefficient of Vmp */
    report = with(ARRAY(0), PVSIZE_MODULE_VMP_COEFFICIENT, 0.35);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_VMP_HOT_TRACKING, 0),
                     PVSIZE_VERDICT_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_DATA_VMP_COEFFICIENT_HIGH, 0),
                     PVSIZE_VERDICT_EXCEEDS);
    pvsize_report_free(report);
    /* of two statements the more negative counts */
    report = with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE, -0.1164); /* -0.3 %/K */
    NEAR(quantity_of(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, 0, 0), 38.8 * 1.084, 1e-12);
    pvsize_report_free(report);
}
END_TEST

/* How a coefficient that is passed over stands among what was taken for granted; "" where
 * it does not. */
static const char *passed_over(const pvsize_report *report, char *text, size_t capacity)
{
    int32_t count, term;

    text[0] = '\0';
    OK(pvsize_report_assumption_count(report, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_report_assumption(report, i, &term, NULL, diag));
        if (term == PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT)
            OK(pvsize_report_assumption_text(report, i, text, capacity, NULL, diag));
    }
    return text;
}

START_TEST(a_coefficient_passed_over_is_told)
{
    char text[300];
    pvsize_report *report = with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, 0.25);

    /* two arrays, of unlike modules now: one row, for the one */
    ck_assert_ptr_nonnull(strstr(passed_over(report, text, sizeof text), "module type 1"));
    ck_assert_ptr_nonnull(strstr(text, ": 0.25 %/K, which cannot be believed: not used"));
    pvsize_report_free(report);
    /* V/K in the place of %/K: too near 0 for silicon */
    report = with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, -0.098);
    ck_assert_ptr_nonnull(strstr(passed_over(report, text, sizeof text), ": -0.098 %/K, which"));
    pvsize_report_free(report);
    report = with(ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, -0.25);
    ck_assert_str_eq(passed_over(report, text, sizeof text), "");
    pvsize_report_free(report);
}
END_TEST

/* A maker who states no limit leaves nothing to judge; silence leaves a gap. */
START_TEST(none_stated_is_an_answer)
{
    pvsize_spec *system = invented_system(), *inverter = invented_inverter();
    pvsize_report *report;
    int32_t outcome, state;

    OK(pvsize_spec_unset(inverter, PVSIZE_INVERTER_MAX_PV_POWER, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    report = checked_au(system);
    OK(pvsize_report_outcome(report, &outcome, diag));
    ck_assert_int_eq(outcome, PVSIZE_OUTCOME_INCOMPLETE);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_PV_MAKER, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    pvsize_report_free(report);
    OK(pvsize_spec_set_none(inverter, PVSIZE_INVERTER_MAX_PV_POWER, diag));
    OK(pvsize_spec_state(inverter, PVSIZE_INVERTER_MAX_PV_POWER, &state, diag));
    ck_assert_int_eq(state, PVSIZE_STATE_NONE);
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    report = checked_au(system);
    OK(pvsize_report_outcome(report, &outcome, diag));
    ck_assert_int_eq(outcome, PVSIZE_OUTCOME_HOLDS);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_PV_MAKER, 0), 0);
    NEAR(quantity_of(report, PVSIZE_QUANTITY_PV_LIMIT, 0, 0), 11970, 1e-12);
    pvsize_report_free(report);
    OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_MAX_PV_POWER, 12000, diag));
    OK(pvsize_spec_state(inverter, PVSIZE_INVERTER_MAX_PV_POWER, &state, diag));
    ck_assert_int_eq(state, PVSIZE_STATE_SET);
    pvsize_spec_free(inverter);
    pvsize_spec_free(system);
}
END_TEST

/* IEC 60364-7-712 annex B (uncertain): the table where the rule set has one, else 1.2; colder
 * than -40 degC, where the table (AS/NZS 5033:2014 table 4.1, from memory) ends, neither is
 * known to be enough, and the coefficient is what is missing. */
START_TEST(colder_than_the_table_no_factor_will_do)
{
    static const struct {
        double temp, table, factor;
    } cases[] = {{-38, 1, 1.25}, {-45, 1, 0}, {-38, 0, 1.2}, {-45, 0, 1.2}};

    for (int i = 0; i < 4; i++) {
        pvsize_spec *system = invented_system(), *array = invented_array(0, 0, 9, 2), *module;
        pvsize_rules *rules = preset("iec_60364_7_712_2017");
        pvsize_report *report;
        int32_t subject;
        double voc;

        OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
        OK(pvsize_spec_unset(module, PVSIZE_MODULE_VOC_COEFFICIENT, diag));
        OK(pvsize_spec_replace(array, 0, module, diag));
        OK(pvsize_spec_replace(system, 0, array, diag));
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_SITE_TEMP_MIN, cases[i].temp, diag));
        OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_VOC_TABLE, cases[i].table, "own", diag));
        report = checked(system, rules);
        subject = subject_for(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, 0, 0, 0);
        if (cases[i].factor > 0)
            NEAR(quantity_of(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, 0, 0), 38.8 * cases[i].factor,
                 1e-12);
        else
            FAILS(PVSIZE_E_NOT_SET, "module.voc_coefficient",
                  pvsize_report_quantity(report, PVSIZE_QUANTITY_MODULE_VOC_COLD, subject, &voc,
                                         diag));
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(module);
        pvsize_spec_free(array);
        pvsize_spec_free(system);
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "missing", missing_data_are_named);
    add_test(suite, "signs", signs_show_what_the_figure_says);
    add_test(suite, "own rules and defaults", own_rules_judge_by_defaults);
    add_test(suite, "stated default", a_stated_default_makes_no_other_type);
    add_test(suite, "none stated", none_stated_is_an_answer);
    add_test(suite, "wrong sign", a_wrong_sign_is_not_trusted);
    add_test(suite, "passed over", a_coefficient_passed_over_is_told);
    add_test(suite, "colder than the table", colder_than_the_table_no_factor_will_do);
}

int main(void)
{
    return run_cases("check_data", add);
}
