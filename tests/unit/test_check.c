/* Verdicts of the rules, one by one, on an invented job that meets them all. */
#include "../support/pv_check.h"

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
    add_test(suite, "inverters", several_inverters);
}

int main(void)
{
    return run_cases("check", add);
}
