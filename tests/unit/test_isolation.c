/* Isolators as parts of their own, and how they stand beside the short forms. */
#include "../support/pv_test.h"

static const char *const au = "asnzs_5033_2021", *const au_2014 = "asnzs_5033_2014",
                         *const nfpa = "nfpa_70_2017";

/* A switch that does all that is asked of it, beside the inverter, for array 0:
 * four poles in series, two in each conductor. */
static pvsize_spec *good_switch(void)
{
    return SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER,
                PVSIZE_ISOLATOR_ARRAY, 0, PVSIZE_ISOLATOR_LOAD_BREAK, PVSIZE_ANSWER_YES,
                PVSIZE_ISOLATOR_MEETS_STANDARD, PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_CATEGORY,
                PVSIZE_UTILISATION_DC_PV2, PVSIZE_ISOLATOR_LOCKABLE, PVSIZE_ANSWER_YES,
                PVSIZE_ISOLATOR_BREAKS_ALL, PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_EITHER_POLARITY,
                PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_VOLTAGE, 1000, PVSIZE_ISOLATOR_CURRENT, 40,
                PVSIZE_ISOLATOR_POLES, 4, PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR, 2,
                PVSIZE_ISOLATOR_AMBIENT, 40, PVSIZE_ISOLATOR_DISTANCE, 1, PVSIZE_ISOLATOR_IN_SIGHT,
                PVSIZE_ANSWER_YES);
}

/* The invented job, its built-in isolators taken out and without separation. */
static pvsize_spec *bare_system(void)
{
    pvsize_spec *system = invented_system(), *inverter = invented_inverter();

    for (int32_t i = 0; i < 2; i++)
        OK(pvsize_spec_set_part_number(inverter, i, PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_NONE,
                                       diag));
    OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_NO, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    return system;
}

/* Verdict of a rule, the n-th, on the bare job with the good switch changed. */
static int32_t verdict(const char *rule_set, int32_t rule, int32_t n, int32_t term, double value)
{
    pvsize_spec *system = bare_system();
    pvsize_rules *rules = preset(rule_set);
    pvsize_report *report;
    int32_t found;

    give(system, good_switch());
    if (term)
        OK(pvsize_spec_set_part_number(system, 0, term, value, diag));
    report = checked(system, rules);
    found = verdict_of(report, rule, n);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    return found;
}

/* Regulator's audit page on AS/NZS 5033:2021 cl. 4.3.4: AS 60947.3, DC-PV2, all live
 * conductors together, securable open, not polarity sensitive. */
START_TEST(what_the_2021_edition_asks)
{
    static const int32_t asked[][2] = {
        {PVSIZE_RULE_ISOLATOR_BREAKS_LOAD, PVSIZE_ISOLATOR_LOAD_BREAK},
        {PVSIZE_RULE_ISOLATOR_OF_STANDARD, PVSIZE_ISOLATOR_MEETS_STANDARD},
        {PVSIZE_RULE_ISOLATOR_LOCKS, PVSIZE_ISOLATOR_LOCKABLE},
        {PVSIZE_RULE_ISOLATOR_OPENS_ALL, PVSIZE_ISOLATOR_BREAKS_ALL},
        {PVSIZE_RULE_ISOLATOR_NON_POLARISED, PVSIZE_ISOLATOR_EITHER_POLARITY},
    };

    for (int i = 0; i < 5; i++) {
        ck_assert_int_eq(verdict(au, asked[i][0], 0, 0, 0), PVSIZE_VERDICT_MEETS);
        ck_assert_int_eq(verdict(au, asked[i][0], 0, asked[i][1], PVSIZE_ANSWER_NO),
                         PVSIZE_VERDICT_EXCEEDS);
    }
    ck_assert_int_eq(verdict(au, PVSIZE_RULE_ISOLATOR_CATEGORY, 0, 0, 0), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict(au, PVSIZE_RULE_ISOLATOR_CATEGORY, 0, PVSIZE_ISOLATOR_CATEGORY,
                             PVSIZE_UTILISATION_DC_21B),
                     PVSIZE_VERDICT_EXCEEDS);
    /* regulator's magazine on the 2014 edition: DC-21B */
    ck_assert_int_eq(verdict(au_2014, PVSIZE_RULE_ISOLATOR_CATEGORY, 0, PVSIZE_ISOLATOR_CATEGORY,
                             PVSIZE_UTILISATION_DC_21B),
                     PVSIZE_VERDICT_MEETS);
}
END_TEST

/* A switch maker's paper: DC-PV1 for single strings, DC-PV2 for several. Array 0 has
 * two strings, array 1 one. */
START_TEST(category_by_strings)
{
    const char *iec = "iec_62548_2016";

    ck_assert_int_eq(verdict(iec, PVSIZE_RULE_ISOLATOR_CATEGORY, 0, PVSIZE_ISOLATOR_CATEGORY,
                             PVSIZE_UTILISATION_DC_PV1),
                     PVSIZE_VERDICT_EXCEEDS);
    for (int i = 0; i < 2; i++) {
        pvsize_spec *system = bare_system(), *isolator = good_switch();
        pvsize_rules *rules = preset(iec);
        pvsize_report *report;

        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_ARRAY, 1, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_CATEGORY,
                                  i ? PVSIZE_UTILISATION_DC_PV0 : PVSIZE_UTILISATION_DC_PV1, diag));
        give(system, isolator);
        report = checked(system, rules);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_CATEGORY, 0),
                         i ? PVSIZE_VERDICT_EXCEEDS : PVSIZE_VERDICT_MEETS);
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
}
END_TEST

/* From memory, uncertain: at an inverter without separation each conductor's poles
 * face the whole voltage. 373.6 V against 2 of 4 poles of 700 V, 350 V, and against
 * 800 V, 400 V; not if the maker lets the poles share it. */
START_TEST(poles_that_break_alone)
{
    int32_t rule = PVSIZE_RULE_ISOLATOR_POLES;

    ck_assert_int_eq(verdict(au, rule, 0, PVSIZE_ISOLATOR_VOLTAGE, 800), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict(au, rule, 0, PVSIZE_ISOLATOR_VOLTAGE, 700), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(
        verdict(au, PVSIZE_RULE_ISOLATOR_RATED_VOLTAGE, 0, PVSIZE_ISOLATOR_VOLTAGE, 700),
        PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict(au, rule, 0, PVSIZE_ISOLATOR_CONDUCTOR_VOLTAGE, 370),
                     PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict(au, rule, 0, PVSIZE_ISOLATOR_POLES_SHARE, PVSIZE_ANSWER_YES), 0);
    /* more poles in one conductor than there are is a slip */
    ck_assert_int_eq(verdict(au, rule, 0, PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR, 5),
                     PVSIZE_VERDICT_NOT_ASSESSED);
}
END_TEST

/* 34.75 A against 40 A up to 40 degC; at 60 degC what the maker states for it. */
START_TEST(current_in_the_heat)
{
    static const struct {
        double ambient, hot, hot_temp;
        int32_t verdict;
    } cases[] = {
        {40, 0, 0, PVSIZE_VERDICT_MEETS},       {60, 0, 0, PVSIZE_VERDICT_NOT_ASSESSED},
        {60, 36, 60, PVSIZE_VERDICT_MEETS},     {60, 32, 60, PVSIZE_VERDICT_EXCEEDS},
        {60.5, 36, 60, PVSIZE_VERDICT_EXCEEDS}, /* none stated */
    };

    for (int i = 0; i < 5; i++) {
        pvsize_spec *system = bare_system(), *isolator = good_switch();
        pvsize_report *report;

        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_AMBIENT, cases[i].ambient, diag));
        if (cases[i].hot > 0) {
            OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_HOT_CURRENT, cases[i].hot, diag));
            OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_HOT_TEMP, cases[i].hot_temp, diag));
        }
        give(system, isolator);
        report = checked_au(system);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_RATED_CURRENT, 0),
                         cases[i].verdict);
        pvsize_report_free(report);
        pvsize_spec_free(system);
    }
    /* from memory, uncertain: 60 degC where the sun heats the enclosure */
    for (int sun = 0; sun < 2; sun++) {
        pvsize_spec *system = bare_system(), *isolator = good_switch();
        pvsize_report *report;

        OK(pvsize_spec_unset(isolator, PVSIZE_ISOLATOR_AMBIENT, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_IN_SUN, sun, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_HOT_CURRENT, 20, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_HOT_TEMP, 60, diag));
        give(system, isolator);
        report = checked_au(system);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_RATED_CURRENT, 0),
                         sun ? PVSIZE_VERDICT_EXCEEDS : PVSIZE_VERDICT_MEETS);
        pvsize_report_free(report);
        pvsize_spec_free(system);
    }
}
END_TEST

/* NFPA 70:2017 690.15 (read): above 30 A load break, up to it an isolating device;
 * within sight and 3 m. Array 0 makes 34.75 A, array 1 17.375 A. */
START_TEST(american_isolating_devices)
{
    for (int32_t array = 0; array < 2; array++) {
        pvsize_spec *system = bare_system(), *isolator = good_switch();
        pvsize_rules *rules = preset(nfpa);
        pvsize_report *report;

        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_ARRAY, array, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_LOAD_BREAK, PVSIZE_ANSWER_NO, diag));
        OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_LOCKABLE, PVSIZE_ANSWER_NO, diag));
        give(system, isolator);
        report = checked(system, rules);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_BREAKS_LOAD, 0),
                         array ? PVSIZE_VERDICT_MEETS : PVSIZE_VERDICT_EXCEEDS);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_LOCKS, 0),
                         array ? 0 : PVSIZE_VERDICT_EXCEEDS);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR, array),
                         array ? PVSIZE_VERDICT_MEETS : PVSIZE_VERDICT_EXCEEDS);
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
    ck_assert_int_eq(verdict(nfpa, PVSIZE_RULE_ISOLATOR_DISTANCE, 0, PVSIZE_ISOLATOR_DISTANCE, 3),
                     PVSIZE_VERDICT_MARGINAL);
    ck_assert_int_eq(verdict(nfpa, PVSIZE_RULE_ISOLATOR_DISTANCE, 0, PVSIZE_ISOLATOR_DISTANCE, 3.1),
                     PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(
        verdict(nfpa, PVSIZE_RULE_ISOLATOR_SEEN, 0, PVSIZE_ISOLATOR_IN_SIGHT, PVSIZE_ANSWER_NO),
        PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict(au, PVSIZE_RULE_ISOLATOR_DISTANCE, 0, 0, 0), 0);
}
END_TEST

/* Trade text on the 2021 edition: plugs may stand for the isolator at the array. */
START_TEST(plugs_at_the_array)
{
    static const char *const editions[] = {"asnzs_5033_2014", "asnzs_5033_2021"};

    for (int i = 0; i < 4; i++) {
        pvsize_spec *system = bare_system();
        pvsize_rules *rules = preset(editions[i % 2]);
        pvsize_spec *plugs =
            SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE,
                 PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT, PVSIZE_ISOLATOR_ARRAY, 0);
        pvsize_report *report;

        give(system, plugs);
        give(system, good_switch());
        if (i >= 2)
            OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ISOLATOR_PLACE,
                                           PVSIZE_ISOLATOR_PLACE_AT_ARRAY, diag));
        report = checked(system, rules);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ARRAY_DISCONNECTED, 0),
                         i == 0 ? PVSIZE_VERDICT_EXCEEDS : PVSIZE_VERDICT_MEETS);
        /* nothing is listed for array 1: nothing is judged */
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ARRAY_DISCONNECTED, 1), 0);
        /* plugs are no switch */
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR_LOCKS, 1), 0);
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
}
END_TEST

static int32_t isolated(pvsize_spec *system)
{
    pvsize_report *report = checked_au(system);
    int32_t found = verdict_of(report, PVSIZE_RULE_ISOLATOR, 0);

    pvsize_report_free(report);
    pvsize_spec_free(system);
    return found;
}

/* What is listed takes the place of the short form for the same place, and of that
 * alone. */
START_TEST(listed_before_the_short_form)
{
    pvsize_spec *system = bare_system(), *whole;

    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_EXCEEDS);
    system = bare_system();
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES,
                                   diag));
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_MEETS);
    system = bare_system(); /* listed, and does not serve: the short form's yes is not asked */
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES,
                                   diag));
    give(system, good_switch());
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ISOLATOR_LOCKABLE, PVSIZE_ANSWER_NO, diag));
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_EXCEEDS);
    system = bare_system();
    give(system, good_switch());
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ISOLATOR_PLACE,
                                   PVSIZE_ISOLATOR_PLACE_IN_INVERTER, diag));
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_MEETS);
    system = invented_system(); /* the built-in one serves on, whatever stands on the roof */
    give(system, good_switch());
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_AT_ARRAY,
                                   diag));
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_MEETS);
    system = bare_system(); /* one for the whole input */
    whole = good_switch();
    OK(pvsize_spec_unset(whole, PVSIZE_ISOLATOR_ARRAY, diag));
    OK(pvsize_spec_set_number(whole, PVSIZE_ISOLATOR_INPUT, 0, diag));
    give(system, whole);
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_MEETS);
    system = bare_system(); /* one of two arrays on the input was left out */
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_INPUT, 0, diag));
    give(system, good_switch());
    ck_assert_int_eq(isolated(system), PVSIZE_VERDICT_EXCEEDS);
}
END_TEST

START_TEST(isolators_need_something_to_hang_on)
{
    static const struct {
        double array, inverter, input; /* -1: not given */
        pvsize_status status;
        const char *words;
    } cases[] = {
        {7, -1, -1, PVSIZE_E_BROKEN_REFERENCE, "isolator[0].array"},
        {-1, -1, -1, PVSIZE_E_NOT_SET, "isolator[0].input"},
        {-1, 2, 0, PVSIZE_E_BROKEN_REFERENCE, "isolator[0].inverter"},
        {-1, 0, 2, PVSIZE_E_BROKEN_REFERENCE, "isolator[0].input"},
        {1, -1, 0, PVSIZE_E_BROKEN_REFERENCE, "another input than its array's"},
    };
    pvsize_rules *rules = preset(au);
    pvsize_report *report;

    OK(pvsize_report_new(NULL, &report, diag));
    for (int i = 0; i < 5; i++) {
        pvsize_spec *system = invented_system(), *isolator = SPEC(PVSIZE_KIND_ISOLATOR, 0);

        if (cases[i].array >= 0)
            OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_ARRAY, cases[i].array, diag));
        if (cases[i].inverter >= 0)
            OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_INVERTER, cases[i].inverter, diag));
        if (cases[i].input >= 0)
            OK(pvsize_spec_set_number(isolator, PVSIZE_ISOLATOR_INPUT, cases[i].input, diag));
        give(system, isolator);
        FAILS(cases[i].status, cases[i].words, pvsize_check(system, rules, report, diag));
        pvsize_spec_free(system);
    }
    pvsize_report_free(report);
    pvsize_rules_free(rules);
}
END_TEST

/* A switch with nothing but its place: every rule says what it needs. */
START_TEST(an_isolator_with_gaps)
{
    pvsize_spec *system = bare_system();
    pvsize_spec *isolator = SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_INPUT, 0);
    pvsize_report *report;
    int32_t missing, subject, kind, index, owner;
    int32_t finding;

    give(system, isolator);
    report = checked_au(system);
    finding = finding_of(report, PVSIZE_RULE_GIVEN_ISOLATOR, 0);
    OK(pvsize_report_missing(report, finding, &missing, diag));
    ck_assert_int_eq(missing, PVSIZE_ISOLATOR_PLACE);
    OK(pvsize_report_find(report, PVSIZE_KIND_ISOLATOR, 0, -1, &subject, diag));
    OK(pvsize_report_subject(report, subject, &kind, &index, &owner, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_ISOLATOR);
    ck_assert_int_eq(index, 0);
    OK(pvsize_report_subject(report, owner, &kind, &index, NULL, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_INPUT);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "2021 edition", what_the_2021_edition_asks);
    add_test(suite, "category", category_by_strings);
    add_test(suite, "poles", poles_that_break_alone);
    add_test(suite, "heat", current_in_the_heat);
    add_test(suite, "American", american_isolating_devices);
    add_test(suite, "plugs", plugs_at_the_array);
    add_test(suite, "listed first", listed_before_the_short_form);
    add_test(suite, "references", isolators_need_something_to_hang_on);
    add_test(suite, "gaps", an_isolator_with_gaps);
}

int main(void)
{
    return run_cases("isolation", add);
}
