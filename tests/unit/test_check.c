/* Verdicts of the rules, one by one, on an invented job that meets them all. */
#include "../support/pv_test.h"

/* One number of one part changed; `inner` is the place of a part's part. */
static void change_in(pvsize_spec *owner, int32_t kind, int32_t index, int32_t inner, int32_t term,
                      double value)
{
    pvsize_spec *part;

    OK(pvsize_spec_part(owner, kind, index, NULL, &part, diag));
    if (pvsize_term_kind(term) == kind)
        OK(pvsize_spec_set_number(part, term, value, diag));
    else
        OK(pvsize_spec_set_part_number(part, inner, term, value, diag));
    OK(pvsize_spec_replace(owner, index, part, diag));
    pvsize_spec_free(part);
}

static pvsize_report *with(int32_t kind, int32_t index, int32_t inner, int32_t term, double value)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;

    change_in(system, kind, index, inner, term, value);
    report = checked_au(system);
    pvsize_spec_free(system);
    return report;
}

static void expect(int32_t rule, int32_t n, int32_t verdict, int32_t kind, int32_t index,
                   int32_t inner, int32_t term, double value)
{
    pvsize_report *report = with(kind, index, inner, term, value);
    int32_t got = verdict_of(report, rule, n);

    ck_assert_msg(got == verdict, "%s with %s = %g: verdict %d, want %d", pvsize_term_name(rule),
                  pvsize_term_name(term), value, (int)got, (int)verdict);
    pvsize_report_free(report);
}

#define BREAKS(rule, n, ...) expect((rule), (n), PVSIZE_VERDICT_EXCEEDS, __VA_ARGS__)
#define HOLDS(rule, n, ...) expect((rule), (n), PVSIZE_VERDICT_MEETS, __VA_ARGS__)
#define ARRAY(i) PVSIZE_KIND_ARRAY, (i), 0
#define INPUT(i) PVSIZE_KIND_INVERTER, 0, (i)
#define INVERTER PVSIZE_KIND_INVERTER, 0, 0
#define SITE PVSIZE_KIND_SITE, 0, 0
#define PLANE(i) PVSIZE_KIND_SITE, 0, (i)

START_TEST(the_invented_job_meets_every_must)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t count, outcome;

    OK(pvsize_report_count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_MUST, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_report_count(report, PVSIZE_VERDICT_NOT_ASSESSED, 0, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_report_outcome(report, &outcome, diag));
    ck_assert_int_eq(outcome, PVSIZE_OUTCOME_HOLDS);
    OK(pvsize_report_assumption_count(report, &count, diag));
    /* the cell, no external isolator on two arrays, an estimated coefficient, no
     * device in the two strings in parallel */
    ck_assert_int_eq(count, 5);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* 38.8 V at -3 degC, -0.25 %/K: 41.516 V a module; 14 make 581.2 V, 15 622.7 V. */
START_TEST(voltage_rules)
{
    HOLDS(PVSIZE_RULE_VOC_COLD_INPUT, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 14);
    BREAKS(PVSIZE_RULE_VOC_COLD_INPUT, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 15);
    BREAKS(PVSIZE_RULE_VOC_COLD_INPUT, 0, INPUT(0), PVSIZE_INPUT_MAX_VOLTAGE, 373);
    BREAKS(PVSIZE_RULE_VOC_COLD_MODULE, 0, ARRAY(0), PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 373);
    HOLDS(PVSIZE_RULE_VOC_COLD_MODULE, 0, ARRAY(0), PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 390);
    BREAKS(PVSIZE_RULE_VOC_COLD_BUILDING, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 25);
    /* 32.5 V, -0.335 %/K, 41 + 35 = 76 degC: 26.947 V a module */
    HOLDS(PVSIZE_RULE_VMP_HOT_TRACKING, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 4);
    BREAKS(PVSIZE_RULE_VMP_HOT_TRACKING, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 3);
    /* 97 % of 9 x 26.947 = 235.2 V against 1.1 times the lower end */
    HOLDS(PVSIZE_RULE_VMP_HOT_RESERVE, 0, INPUT(0), PVSIZE_INPUT_TRACKING_MIN, 209);
    BREAKS(PVSIZE_RULE_VMP_HOT_RESERVE, 0, INPUT(0), PVSIZE_INPUT_TRACKING_MIN, 214);
    HOLDS(PVSIZE_RULE_VMP_HOT_TRACKING, 0, INPUT(0), PVSIZE_INPUT_TRACKING_MIN, 237);
}
END_TEST

START_TEST(window_rules)
{
    BREAKS(PVSIZE_RULE_VOC_HOT_START, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 3);
    HOLDS(PVSIZE_RULE_VOC_HOT_START, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 4);
    /* 32.5 x (1 + 0.00335 x 28) = 35.55 V a module on the coldest morning */
    HOLDS(PVSIZE_RULE_VMP_COLD_TRACKING, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 15);
    BREAKS(PVSIZE_RULE_VMP_COLD_TRACKING, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 16);
    BREAKS(PVSIZE_RULE_VMP_HOT_FULL_POWER, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 6);
    HOLDS(PVSIZE_RULE_VMP_HOT_FULL_POWER, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 7);
    BREAKS(PVSIZE_RULE_VMP_COLD_FULL_POWER, 0, ARRAY(0), PVSIZE_ARRAY_MODULES_PER_STRING, 15);
}
END_TEST

START_TEST(current_rules)
{
    /* 13.9 x 1.25 = 17.375 A a string */
    BREAKS(PVSIZE_RULE_ISC_INPUT, 0, ARRAY(0), PVSIZE_ARRAY_STRINGS, 3);
    BREAKS(PVSIZE_RULE_ISC_INPUT, 0, PLANE(0), PVSIZE_PLANE_CURRENT_CORRECTION, 1.1);
    BREAKS(PVSIZE_RULE_ISC_INPUT, 1, INPUT(1), PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 17.3);
    BREAKS(PVSIZE_RULE_OPERATING_CURRENT, 0, INPUT(0), PVSIZE_INPUT_MAX_OPERATING_CURRENT, 26);
    BREAKS(PVSIZE_RULE_TERMINALS, 0, ARRAY(0), PVSIZE_ARRAY_STRINGS, 3);
    /* three strings on two pairs: two on one pair, 34.75 A */
    BREAKS(PVSIZE_RULE_TERMINAL_RATING, 0, ARRAY(0), PVSIZE_ARRAY_STRINGS, 3);
    HOLDS(PVSIZE_RULE_TERMINAL_RATING, 0, ARRAY(0), PVSIZE_ARRAY_STRINGS, 2);
    BREAKS(PVSIZE_RULE_INPUT_POWER, 0, INPUT(0), PVSIZE_INPUT_MAX_POWER, 7700);
}
END_TEST

START_TEST(power_and_supply_rules)
{
    /* 26 x 430 W = 11180 W; 9000 W x 1.33 = 11970 W */
    BREAKS(PVSIZE_RULE_PV_RATIO, 0, INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 8400);
    HOLDS(PVSIZE_RULE_PV_RATIO, 0, INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 8600);
    BREAKS(PVSIZE_RULE_PV_MAKER, 0, INVERTER, PVSIZE_INVERTER_MAX_PV_POWER, 11000);
    BREAKS(PVSIZE_RULE_PV_UNDERLOAD, 0, INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 15000);
    BREAKS(PVSIZE_RULE_PLANE_ROOM, 0, PLANE(0), PVSIZE_PLANE_CAPACITY, 17);
    HOLDS(PVSIZE_RULE_PLANE_ROOM, 0, PLANE(0), PVSIZE_PLANE_CAPACITY, 18);
    BREAKS(PVSIZE_RULE_PHASES, 0, INVERTER, PVSIZE_INVERTER_PHASES, 3);
    BREAKS(PVSIZE_RULE_CONNECTION, 0, SITE, PVSIZE_SITE_CONNECTION_LIMIT, 8000);
    BREAKS(PVSIZE_RULE_EXPORT, 0, SITE, PVSIZE_SITE_EXPORT_CONTROL, PVSIZE_EXPORT_CONTROL_NONE);
    HOLDS(PVSIZE_RULE_EXPORT, 0, SITE, PVSIZE_SITE_EXPORT_LIMIT, 0);
    HOLDS(PVSIZE_RULE_EXPORT, 0, SITE, PVSIZE_SITE_EXPORT_LIMIT, 20000);
}
END_TEST

START_TEST(contradictions_in_the_data)
{
    BREAKS(PVSIZE_RULE_DATA_VMP, 0, ARRAY(0), PVSIZE_MODULE_VMP, 39);
    BREAKS(PVSIZE_RULE_DATA_IMP, 0, ARRAY(0), PVSIZE_MODULE_IMP, 14);
    BREAKS(PVSIZE_RULE_DATA_POWER, 0, ARRAY(0), PVSIZE_MODULE_PMAX, 445);
    BREAKS(PVSIZE_RULE_DATA_VOC_COEFFICIENT_HIGH, 0, ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, 0.25);
    BREAKS(PVSIZE_RULE_DATA_VOC_COEFFICIENT_LOW, 0, ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT, -1);
    BREAKS(PVSIZE_RULE_DATA_COEFFICIENTS_AGREE, 0, ARRAY(0), PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE,
           -0.25);
    BREAKS(PVSIZE_RULE_DATA_ISC_COEFFICIENT, 0, ARRAY(0), PVSIZE_MODULE_ISC_COEFFICIENT, 0.5);
    BREAKS(PVSIZE_RULE_DATA_ISC_COEFFICIENT_LOW, 0, ARRAY(0), PVSIZE_MODULE_ISC_COEFFICIENT, -0.9);
    BREAKS(PVSIZE_RULE_DATA_ISC_COEFFICIENTS_AGREE, 0, ARRAY(0),
           PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE, 0.045);
    BREAKS(PVSIZE_RULE_DATA_VMP_COEFFICIENT_LOW, 0, ARRAY(0), PVSIZE_MODULE_VMP_COEFFICIENT, -1);
    BREAKS(PVSIZE_RULE_DATA_SUPPLY, 0, INVERTER, PVSIZE_INVERTER_AC_VOLTAGE, 400);
    BREAKS(PVSIZE_RULE_DATA_PMAX_COEFFICIENT, 0, ARRAY(0), PVSIZE_MODULE_PMAX_COEFFICIENT, 0.3);
    BREAKS(PVSIZE_RULE_DATA_WINDOW, 0, INPUT(0), PVSIZE_INPUT_TRACKING_MIN, 570);
    BREAKS(PVSIZE_RULE_DATA_WINDOW_MAX, 0, INPUT(0), PVSIZE_INPUT_TRACKING_MAX, 610);
    BREAKS(PVSIZE_RULE_DATA_FULL_POWER_LOW, 0, INPUT(0), PVSIZE_INPUT_FULL_POWER_MIN, 80);
    BREAKS(PVSIZE_RULE_DATA_FULL_POWER_HIGH, 0, INPUT(0), PVSIZE_INPUT_FULL_POWER_MAX, 580);
    BREAKS(PVSIZE_RULE_DATA_FULL_POWER, 0, INPUT(0), PVSIZE_INPUT_FULL_POWER_MAX, 170);
    BREAKS(PVSIZE_RULE_DATA_START, 0, INPUT(0), PVSIZE_INPUT_START_VOLTAGE, 700);
    BREAKS(PVSIZE_RULE_DATA_CURRENTS, 0, INPUT(0), PVSIZE_INPUT_MAX_OPERATING_CURRENT, 37);
    BREAKS(PVSIZE_RULE_DATA_APPARENT, 0, INVERTER, PVSIZE_INVERTER_RATED_APPARENT_POWER, 8000);
    /* 9000 VA / 230 V = 39.13 A; 38.4 A is rounding, 38 A is not */
    expect(PVSIZE_RULE_DATA_AC_CURRENT, 0, 0, INVERTER, PVSIZE_INVERTER_MAX_AC_CURRENT, 38.4);
    BREAKS(PVSIZE_RULE_DATA_AC_CURRENT, 0, INVERTER, PVSIZE_INVERTER_MAX_AC_CURRENT, 38);
    /* above by less than rounding: no breach */
    expect(PVSIZE_RULE_DATA_IMP, 0, 0, ARRAY(0), PVSIZE_MODULE_IMP, 13.9 * (1 + 1e-12));
    BREAKS(PVSIZE_RULE_DATA_TEMPERATURES, 0, SITE, PVSIZE_SITE_TEMP_MAX, -5);
}
END_TEST

/* A thing alone is checked for its data: the same contradictions. */
START_TEST(things_alone)
{
    pvsize_spec *module = invented_module(), *inverter = invented_inverter();
    pvsize_spec *site = invented_site(), *empty = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_report *report;
    int32_t count, outcome;

    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VMP, 39, diag));
    report = checked_au(module);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_DATA_VMP, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_DATA_POWER, 0), PVSIZE_VERDICT_EXCEEDS);
    OK(pvsize_report_count(report, 0, 0, &count, diag));
    ck_assert_int_eq(count, 2);
    pvsize_report_free(report);
    report = checked_au(inverter);
    OK(pvsize_report_count(report, 0, 0, &count, diag));
    ck_assert_int_eq(count, 0);
    pvsize_report_free(report);
    report = checked_au(site);
    OK(pvsize_report_count(report, PVSIZE_VERDICT_EXCEEDS, 0, &count, diag));
    ck_assert_int_eq(count, 0);
    pvsize_report_free(report);
    report = checked_au(empty); /* gaps are told, not passed over */
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_GIVEN_MODULE, 0), PVSIZE_VERDICT_NOT_ASSESSED);
    OK(pvsize_report_outcome(report, &outcome, diag));
    ck_assert_int_eq(outcome, PVSIZE_OUTCOME_INCOMPLETE);
    pvsize_report_free(report);
    pvsize_spec_free(module);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(empty);
}
END_TEST

static pvsize_report *with_isolator(double kind, double standard, double locks, double external)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;

    change_in(system, PVSIZE_KIND_INVERTER, 0, 0, PVSIZE_INPUT_ISOLATOR, kind);
    change_in(system, PVSIZE_KIND_INVERTER, 0, 0, PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD, standard);
    change_in(system, PVSIZE_KIND_INVERTER, 0, 0, PVSIZE_INPUT_ISOLATOR_LOCKS_OFF, locks);
    change_in(system, PVSIZE_KIND_ARRAY, 0, 0, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, external);
    report = checked_au(system);
    pvsize_spec_free(system);
    return report;
}

/* Common practice: a built-in isolator serves alone only if it meets IEC 60947-3
 * and locks in the off position; else one goes beside the inverter. */
START_TEST(isolators)
{
    for (int bits = 0; bits < 16; bits++) {
        bool built_in = bits & 1, standard = bits & 2, locks = bits & 4, external = bits & 8;
        pvsize_report *report = with_isolator(built_in, standard, locks, external);
        bool serves = external || (built_in && standard && locks);

        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_ISOLATOR, 0),
                         serves ? PVSIZE_VERDICT_MEETS : PVSIZE_VERDICT_EXCEEDS);
        /* the ratings of one that is not relied on, or not there, do not matter */
        ck_assert_int_eq(finding_of(report, PVSIZE_RULE_ISOLATOR_VOLTAGE, 1) >= 0,
                         built_in && !external);
        pvsize_report_free(report);
    }
    BREAKS(PVSIZE_RULE_ISOLATOR_VOLTAGE, 0, INPUT(0), PVSIZE_INPUT_ISOLATOR_VOLTAGE, 370);
    BREAKS(PVSIZE_RULE_ISOLATOR_CURRENT, 0, INPUT(0), PVSIZE_INPUT_ISOLATOR_CURRENT, 34);
}
END_TEST

/* A second array on the input of the first. */
static pvsize_report *shared(int32_t plane, int32_t modules, double pmax)
{
    pvsize_spec *system = invented_system(), *array = invented_array(0, plane, modules, 1);
    pvsize_report *report;

    OK(pvsize_spec_set_part_number(array, 0, PVSIZE_MODULE_PMAX, pmax, diag));
    give(system, array);
    report = checked_au(system);
    pvsize_spec_free(system);
    return report;
}

START_TEST(strings_in_parallel)
{
    pvsize_report *like = shared(0, 9, 430), *shorter = shared(0, 8, 430);
    pvsize_report *other = shared(0, 9, 431), *plane = shared(1, 9, 430);

    ck_assert_int_eq(verdict_of(like, PVSIZE_RULE_UNLIKE_VOLTAGE, 0), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict_of(like, PVSIZE_RULE_UNLIKE_LENGTH, 0), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict_of(like, PVSIZE_RULE_UNLIKE_MODULES, 0), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict_of(like, PVSIZE_RULE_UNLIKE_PLANES, 0), PVSIZE_VERDICT_MEETS);
    ck_assert_int_eq(verdict_of(like, PVSIZE_RULE_UNLIKE_PLANES, 1), 0); /* one array alone */
    ck_assert_int_eq(verdict_of(shorter, PVSIZE_RULE_UNLIKE_LENGTH, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict_of(shorter, PVSIZE_RULE_UNLIKE_VOLTAGE, 0), PVSIZE_VERDICT_EXCEEDS);
    NEAR(quantity_of(shorter, PVSIZE_QUANTITY_INPUT_VOC_DIFFERENCE, 0, 0), 12.5, 1e-9);
    ck_assert_int_eq(verdict_of(other, PVSIZE_RULE_UNLIKE_MODULES, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict_of(plane, PVSIZE_RULE_UNLIKE_PLANES, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert(quantity_of(like, PVSIZE_QUANTITY_INPUT_STRINGS, 0, 0) == 3);
    NEAR(quantity_of(like, PVSIZE_QUANTITY_INPUT_ISC_MAX, 0, 0), 3 * 13.9 * 1.25, 1e-12);
    pvsize_report_free(like);
    pvsize_report_free(shorter);
    pvsize_report_free(other);
    pvsize_report_free(plane);
}
END_TEST

START_TEST(an_open_input_is_noted)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;

    OK(pvsize_spec_remove(system, PVSIZE_KIND_ARRAY, 1, diag));
    report = checked_au(system);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_INPUT_USED, 0), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_INPUT_USED, 1), 0);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

static int32_t governs(const pvsize_report *report, int32_t rule)
{
    int32_t yes = -1;

    OK(pvsize_report_governs(report, finding_of(report, rule, 0), &yes, diag));
    return yes;
}

START_TEST(the_tightest_limit_governs)
{
    pvsize_report *report = with(INVERTER, PVSIZE_INVERTER_MAX_PV_POWER, 12500);

    ck_assert_int_eq(governs(report, PVSIZE_RULE_VOC_COLD_INPUT), 1);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_VOC_COLD_BUILDING), 0);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PV_RATIO), 1); /* 11970 under 12500 W */
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PV_MAKER), 0);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PLANE_ROOM), 0); /* no other limit */
    /* a note on the same value is tighter, but a must governs */
    ck_assert_int_eq(governs(report, PVSIZE_RULE_VMP_HOT_TRACKING), 1);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_VMP_HOT_FULL_POWER), 0);
    pvsize_report_free(report);
    report = with(INVERTER, PVSIZE_INVERTER_MAX_PV_POWER, 11500);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PV_RATIO), 0);
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PV_MAKER), 1);
    pvsize_report_free(report);
    report = with(INVERTER, PVSIZE_INVERTER_MAX_PV_POWER, 11970); /* a tie */
    ck_assert_int_eq(governs(report, PVSIZE_RULE_PV_MAKER), 1);
    pvsize_report_free(report);
}
END_TEST

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

/* Module type 2 is that of array 1, and its findings say so. */
START_TEST(module_types_lead_back_to_an_array)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t subject, kind, index, owner, array;

    change_in(system, PVSIZE_KIND_ARRAY, 1, 0, PVSIZE_MODULE_VMP, 39);
    report = checked_au(system);
    OK(pvsize_report_finding(report, finding_of(report, PVSIZE_RULE_DATA_VMP, 0), NULL, NULL, NULL,
                             &subject, diag));
    OK(pvsize_report_subject(report, subject, &kind, &index, &owner, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_MODULE);
    ck_assert_int_eq(index, 1);
    OK(pvsize_report_find(report, PVSIZE_KIND_ARRAY, 1, -1, &array, diag));
    ck_assert_int_eq(owner, array);
    pvsize_report_free(report);
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

START_TEST(several_inverters)
{
    int32_t inverter, subject;
    pvsize_spec *system = invented_system(), *array = invented_array(1, 1, 7, 1);
    pvsize_report *report;
    double value;

    give(system, invented_inverter());
    OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_INVERTER, 1, diag));
    give(system, array);
    report = checked_au(system);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_INPUT_POWER,
                              subject_for(report, PVSIZE_QUANTITY_INPUT_POWER, 1, 1, 0), &value,
                              diag));
    NEAR(value, 7 * 430, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0, &value, diag));
    NEAR(value, 33 * 430, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_APPARENT_POWER, 0, &value, diag));
    NEAR(value, 18000, 1e-12);
    OK(pvsize_report_find(report, PVSIZE_KIND_INVERTER, 1, -1, &inverter, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "input: index outside the list; given 2; allowed 0 to 1",
          pvsize_report_find(report, PVSIZE_KIND_INPUT, 2, inverter, &subject, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "system: of another kind than this call takes; it takes 'inverter'",
          pvsize_report_find(report, PVSIZE_KIND_INPUT, 0, 0, &subject, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "inverter",
          pvsize_report_find(report, PVSIZE_KIND_INVERTER, 2, -1, &subject, diag));
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* A report is filled again, larger and smaller, as if it were new. */
START_TEST(reports_are_reused)
{
    pvsize_spec *system = invented_system(), *module = invented_module();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report, *fresh = checked(system, rules);
    char *first = rendered(fresh, PVSIZE_FORMAT_PLAIN, 1), *again;

    OK(pvsize_report_new(NULL, &report, diag));
    OK(pvsize_check(module, rules, report, diag));
    OK(pvsize_check(system, rules, report, diag));
    OK(pvsize_check(module, rules, report, diag));
    OK(pvsize_check(system, rules, report, diag));
    again = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    ck_assert_str_eq(first, again);
    free(first);
    free(again);
    pvsize_report_free(report);
    pvsize_report_free(fresh);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
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

/* Every subject is found again by what it says of itself, and an array leads to
 * all it hangs on. */
START_TEST(subjects_are_found_again)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t count, kind, index, owner, found, steps = 0;
    char text[100];
    double value;

    OK(pvsize_report_subject_count(report, &count, diag));
    ck_assert_int_eq(count, 10); /* system, site, 2 planes, inverter, 2 inputs, 2 arrays, module */
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_report_subject(report, i, &kind, &index, &owner, diag));
        OK(pvsize_report_find(report, kind, index, owner, &found, diag));
        ck_assert_int_eq(found, i);
        OK(pvsize_report_subject_text(report, i, text, sizeof text, NULL, diag));
        ck_assert_uint_gt(strlen(text), 0);
    }
    OK(pvsize_report_find(report, PVSIZE_KIND_ARRAY, 1, -1, &found, diag));
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_INPUT_IMP, found, &value, diag));
    NEAR(value, 13.23, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT, found, &value, diag));
    NEAR(value, -0.25, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_MODULES, found, &value, diag));
    ck_assert(value == 26);
    while (found >= 0 && steps++ < 10)
        OK(pvsize_report_subject(report, found, &kind, NULL, &found, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_SYSTEM);
    ck_assert_int_eq(steps, 4);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* Inputs count within their inverter, and from 0. */
START_TEST(inputs_are_found_on_their_inverter)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t inverter, input = 7;

    OK(pvsize_report_find(report, PVSIZE_KIND_INVERTER, 0, -1, &inverter, diag));
    for (int32_t i = -1; i <= 2; i += 3)
        FAILS(PVSIZE_E_BAD_INDEX, "input: index outside the list; given ",
              pvsize_report_find(report, PVSIZE_KIND_INPUT, i, inverter, &input, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "inverter",
          pvsize_report_find(report, PVSIZE_KIND_INPUT, 0, 0, &input, diag));
    ck_assert_int_eq(input, 7);
    for (int32_t i = 0; i < 2; i++) {
        int32_t index, owner;

        OK(pvsize_report_find(report, PVSIZE_KIND_INPUT, i, inverter, &input, diag));
        OK(pvsize_report_subject(report, input, NULL, &index, &owner, diag));
        ck_assert(index == i && owner == inverter);
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
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
    add_test(suite, "must", the_invented_job_meets_every_must);
    add_test(suite, "voltage", voltage_rules);
    add_test(suite, "window", window_rules);
    add_test(suite, "current", current_rules);
    add_test(suite, "power and supply", power_and_supply_rules);
    add_test(suite, "contradictions", contradictions_in_the_data);
    add_test(suite, "alone", things_alone);
    add_test(suite, "isolators", isolators);
    add_test(suite, "parallel", strings_in_parallel);
    add_test(suite, "open input", an_open_input_is_noted);
    add_test(suite, "governing", the_tightest_limit_governs);
    add_test(suite, "missing", missing_data_are_named);
    add_test(suite, "module types", module_types_lead_back_to_an_array);
    add_test(suite, "signs", signs_show_what_the_figure_says);
    add_test(suite, "own rules and defaults", own_rules_judge_by_defaults);
    add_test(suite, "stated default", a_stated_default_makes_no_other_type);
    add_test(suite, "inverters", several_inverters);
    add_test(suite, "reuse", reports_are_reused);
    add_test(suite, "subjects", subjects_are_found_again);
    add_test(suite, "none stated", none_stated_is_an_answer);
    add_test(suite, "wrong sign", a_wrong_sign_is_not_trusted);
    add_test(suite, "passed over", a_coefficient_passed_over_is_told);
    add_test(suite, "colder than the table", colder_than_the_table_no_factor_will_do);
    add_test(suite, "inputs", inputs_are_found_on_their_inverter);
}

int main(void)
{
    return run_cases("check", add);
}
