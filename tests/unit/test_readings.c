/* Readings on the day: rows and causes, the sheet, wrong input, memory. Against a model of
 * their own and simulated faults: tests/oracle/test_readings.py. */
#include "../support/pv_test.h"

/* The invented system, array 0 of 9 modules a string. */
static pvsize_spec *with_reading(pvsize_spec *reading)
{
    pvsize_spec *system = invented_system();

    OK(pvsize_spec_set_number(reading, PVSIZE_READING_ARRAY, 0, diag));
    OK(pvsize_spec_set_text(reading, PVSIZE_READING_NAME, "roof | left", diag));
    give(system, reading);
    return system;
}

static pvsize_judgement *judged(const pvsize_spec *system)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_judgement *judgement;

    OK(pvsize_judgement_new(NULL, &judgement, diag));
    OK(pvsize_judge(system, rules, judgement, diag));
    pvsize_rules_free(rules);
    return judgement;
}

static int32_t first_cause(const pvsize_judgement *judgement, int32_t row)
{
    int32_t cause;

    OK(pvsize_judgement_cause(judgement, row, 0, &cause, NULL, NULL, NULL, NULL, diag));
    return cause;
}

/* Row i, with one of its results asked for at a time. */
static void expect_row(const pvsize_judgement *judgement, int32_t i, const int32_t want[4])
{
    int32_t got[4] = {-1, -1, -1, -1};

    OK(pvsize_judgement_row(judgement, i, &got[0], NULL, NULL, NULL, diag));
    OK(pvsize_judgement_row(judgement, i, NULL, &got[1], NULL, NULL, diag));
    OK(pvsize_judgement_row(judgement, i, NULL, NULL, &got[2], NULL, diag));
    OK(pvsize_judgement_row(judgement, i, NULL, NULL, NULL, &got[3], diag));
    for (int k = 0; k < 4; k++)
        ck_assert_int_eq(got[k], want[k]);
}

/* STC is the one state where the data sheet needs no translation. */
START_TEST(at_stc)
{
    pvsize_spec *system = with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                                            PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC,
                                            9 * 38.8, PVSIZE_READING_ISC, 13.9, PVSIZE_READING_VMP,
                                            9 * 32.5, PVSIZE_READING_IMP, 13.23));
    pvsize_judgement *judgement = judged(system);
    const double want[] = {9 * 38.8, 13.9, 9 * 32.5, 13.23};

    pvsize_spec_free(system); /* the judgement stands alone */
    for (int32_t i = 0; i < 4; i++) {
        double value, expected, low, high;
        int32_t reading, measured, judgement_of_it, why;

        OK(pvsize_judgement_row(judgement, i, &reading, &measured, &judgement_of_it, &why, diag));
        OK(pvsize_judgement_numbers(judgement, i, &value, &expected, &low, &high, diag));
        NEAR(value, want[i], 1e-12);
        NEAR(expected, want[i], 1e-12);
        ck_assert(low < value && value < high);
        ck_assert_int_eq(reading, 0);
        ck_assert_int_eq(measured, i + 1);
        ck_assert_int_eq(judgement_of_it, PVSIZE_JUDGED_FITS);
        ck_assert_int_eq(why, 0);
        expect_row(judgement, i, (const int32_t[]){reading, measured, judgement_of_it, why});
        ck_assert_int_eq(first_cause(judgement, i), PVSIZE_CAUSE_SOUND);
    }
    pvsize_judgement_free(judgement);
}
END_TEST

/* Strings of one array measured at one moment, and the finding on how alike reading i is. */
static double unlike(const double *volts, int count, int32_t i, int32_t *verdict)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t finding;
    double value = -1;

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 4, diag));
    for (int k = 0; k < count; k++)
        give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_STRING,
                          k + 1, PVSIZE_READING_MOMENT, 7, PVSIZE_READING_IRRADIANCE, 800,
                          PVSIZE_READING_BACK_TEMP, 40, PVSIZE_READING_VOC, volts[k]));
    report = checked_au(system);
    finding = finding_of(report, PVSIZE_RULE_READING_VOC_ALIKE, i);
    if (finding >= 0) {
        OK(pvsize_report_numbers(report, finding, &value, NULL, NULL, diag));
        OK(pvsize_report_finding(report, finding, NULL, NULL, verdict, NULL, diag));
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
    return value;
}

/* Within 5 % of one another (IEC 62446-1:2016 cl. 6.4, as a test-gear maker restates it): of
 * several from the median, of two from each other. One has no other. */
START_TEST(strings_alike)
{
    const double three[] = {335, 332, 300}, four[] = {330, 334, 340, 310}, two[] = {330, 310};
    int32_t verdict = 0;

    NEAR(unlike(three, 3, 0, &verdict), 100 * 3 / 332.0, 1e-12);
    ck_assert_int_eq(verdict, PVSIZE_VERDICT_MEETS);
    ck_assert(unlike(three, 3, 1, &verdict) == 0);
    NEAR(unlike(three, 3, 2, &verdict), 100 * 32 / 332.0, 1e-12);
    ck_assert_int_eq(verdict, PVSIZE_VERDICT_EXCEEDS);
    NEAR(unlike(four, 4, 3, &verdict), 100 * 22 / 332.0, 1e-12);
    NEAR(unlike(two, 2, 0, &verdict), 100 * 20 / 320.0, 1e-12);
    NEAR(unlike(two, 2, 1, &verdict), 100 * 20 / 320.0, 1e-12);
    ck_assert_int_eq(verdict, PVSIZE_VERDICT_EXCEEDS);
    ck_assert(unlike(two, 1, 0, &verdict) == -1);
}
END_TEST

/* The same in a judgement, which gives the deviation and tells it where it is too much. */
START_TEST(the_sheet_tells_strings_apart)
{
    const double volts[] = {335, 332, 300};
    pvsize_spec *system = invented_system();
    pvsize_judgement *judgement;
    char text[1000];
    double value;

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 3, diag));
    /* at another moment, of another array: not one of them */
    give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 1, PVSIZE_READING_STRING, 1,
                      PVSIZE_READING_MOMENT, 8, PVSIZE_READING_VOC, 300));
    give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_STRING, 1,
                      PVSIZE_READING_MOMENT, 9, PVSIZE_READING_VOC, 100));
    for (int k = 0; k < 3; k++)
        give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_STRING,
                          k + 1, PVSIZE_READING_MOMENT, 7, PVSIZE_READING_VOC, volts[k]));
    judgement = judged(system);
    FAILS(PVSIZE_E_NOT_SET, "", pvsize_judgement_alike(judgement, 0, &value, diag));
    OK(pvsize_judgement_alike(judgement, 2, &value, diag));
    NEAR(value, 100 * 3 / 332.0, 1e-12);
    OK(pvsize_judgement_alike(judgement, 4, &value, diag));
    NEAR(value, 100 * 32 / 332.0, 1e-12);
    OK(pvsize_judgement_text(judgement, 2, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "; 0.904 % from like strings at that moment"));
    ck_assert_ptr_null(strstr(text, "unlike"));
    OK(pvsize_judgement_text(judgement, 4, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "; 9.64 % from like strings at that moment, more than 5 %: "
                                       "one of them is unlike the others"));
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
}
END_TEST

/* A string of 9 x 38.8 V some volts below its band: cells so much warmer than measured, by the
 * data sheet's coefficient in V/K, take the voltage there; no more than 25 K are believed. */
START_TEST(warmer_cells_are_a_cause)
{
    pvsize_spec *module = invented_module();
    double coefficient, volts = 9 * 38.8 * 0.93, found = 0, least = 0, most = 0, at, expected, low;
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, volts));
    pvsize_judgement *judgement = judged(system);
    int32_t count, cause;
    double before = 0;
    bool seen = false;

    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_VOC_COEFFICIENT, &coefficient, diag));
    OK(pvsize_judgement_numbers(judgement, 0, NULL, &expected, &low, NULL, diag));
    OK(pvsize_judgement_cause_count(judgement, 0, &count, diag));
    for (int32_t k = 0; k < count; k++) {
        double likeliest, few, many;

        OK(pvsize_judgement_cause(judgement, 0, k, &cause, &few, &likeliest, &many, &at, diag));
        ck_assert(at >= before); /* the likeliest first */
        before = at;
        if (cause != PVSIZE_CAUSE_WARMTH)
            continue;
        seen = true;
        found = likeliest;
        least = few;
        most = many;
        NEAR(at, 1 + least / 25, 1e-9);
    }
    ck_assert(seen);
    NEAR(found, (volts - expected) / (expected * coefficient / 100), 1e-9);
    NEAR(least, (volts - low) / (expected * coefficient / 100), 1e-9);
    NEAR(most, found, 1e-12);
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
}
END_TEST

/* The same above the band: colder ones, so that the most is the least in size. */
START_TEST(colder_cells_are_a_cause)
{
    double volts = 9 * 38.8 * 1.06, expected, high, coefficient, least, likeliest, most;
    pvsize_spec *module = invented_module();
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, volts));
    pvsize_judgement *judgement = judged(system);
    int32_t cause = 0, count;

    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_VOC_COEFFICIENT, &coefficient, diag));
    OK(pvsize_judgement_numbers(judgement, 0, NULL, &expected, NULL, &high, diag));
    OK(pvsize_judgement_cause_count(judgement, 0, &count, diag));
    for (int32_t k = 0; k < count && cause != PVSIZE_CAUSE_WARMTH; k++) {
        OK(pvsize_judgement_cause(judgement, 0, k, NULL, &least, &likeliest, &most, NULL, diag));
        OK(pvsize_judgement_cause(judgement, 0, k, &cause, NULL, NULL, NULL, NULL, diag));
    }
    ck_assert_int_eq(cause, PVSIZE_CAUSE_WARMTH);
    NEAR(likeliest, (volts - expected) / (expected * coefficient / 100), 1e-9);
    NEAR(most, (volts - high) / (expected * coefficient / 100), 1e-9);
    ck_assert(least == likeliest && likeliest < most && most < 0);
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
}
END_TEST

static bool has_cause(const pvsize_judgement *judgement, int32_t row, int32_t wanted)
{
    int32_t count, cause;

    OK(pvsize_judgement_cause_count(judgement, row, &count, diag));
    for (int32_t k = 0; k < count; k++) {
        OK(pvsize_judgement_cause(judgement, row, k, &cause, NULL, NULL, NULL, NULL, diag));
        if (cause == wanted)
            return true;
    }
    return false;
}

/* Half the current with the sign turned: reversed, and besides read at half of a pair. */
START_TEST(turned_round_and_something_else)
{
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_ISC, -13.9 / 2));
    pvsize_judgement *judgement = judged(system);
    char text[1000];

    ck_assert_int_eq(first_cause(judgement, 0), PVSIZE_CAUSE_REVERSED);
    ck_assert(has_cause(judgement, 0, PVSIZE_CAUSE_SPLIT));
    ck_assert(!has_cause(judgement, 0, PVSIZE_CAUSE_SOUND));
    OK(pvsize_judgement_text(judgement, 0, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "; and besides "));
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
}
END_TEST

static pvsize_judgement *judged_within(const pvsize_spec *system, double meter, double others)
{
    static const int32_t figures[] = {PVSIZE_FIGURE_TEST_SENSOR, PVSIZE_FIGURE_TEST_TEMPERATURE,
                                      PVSIZE_FIGURE_TEST_MODULE};
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_judgement *judgement;

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_TEST_METER, meter, NULL, diag));
    for (int i = 0; i < 3; i++)
        OK(pvsize_rules_set_figure(rules, figures[i], others, NULL, diag));
    OK(pvsize_judgement_new(NULL, &judgement, diag));
    OK(pvsize_judge(system, rules, judgement, diag));
    pvsize_rules_free(rules);
    return judgement;
}

/* A band of no width holds one value; one of half the voltage holds other causes as well. */
START_TEST(bands_of_no_width_and_of_much)
{
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, 9 * 38.8));
    pvsize_judgement *judgement = judged_within(system, 0, 0);
    double expected, low, high, distance = 1;
    char text[2000];
    int32_t how;

    OK(pvsize_judgement_numbers(judgement, 0, NULL, &expected, &low, &high, diag));
    ck_assert(low == expected && high == expected);
    pvsize_judgement_free(judgement);
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_READING_VOC, expected, diag));
    judgement = judged_within(system, 0, 0);
    OK(pvsize_judgement_row(judgement, 0, NULL, NULL, &how, NULL, diag));
    OK(pvsize_judgement_cause(judgement, 0, 0, NULL, NULL, NULL, NULL, &distance, diag));
    ck_assert(how == PVSIZE_JUDGED_FITS && distance == 0);
    pvsize_judgement_free(judgement);
    judgement = judged_within(system, 50, 0);
    OK(pvsize_judgement_row(judgement, 0, NULL, NULL, &how, NULL, diag));
    ck_assert_int_eq(how, PVSIZE_JUDGED_FITS);
    ck_assert(has_cause(judgement, 0, PVSIZE_CAUSE_SHORTER));
    OK(pvsize_judgement_text(judgement, 0, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "; it cannot rule out: "));
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
}
END_TEST

/* No string is counted much beyond 30000 modules. */
START_TEST(strings_are_not_counted_for_ever)
{
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, 3000));
    pvsize_spec *array, *module;
    pvsize_judgement *judgement;
    double low, high, least, most;
    int32_t cause;

    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, 0.1, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    judgement = judged(system);
    OK(pvsize_judgement_numbers(judgement, 0, NULL, NULL, &low, &high, diag));
    ck_assert(3000 / high * 9 < 30000 && 3000 / low * 9 > 31000);
    OK(pvsize_judgement_cause(judgement, 0, 0, &cause, &least, NULL, &most, NULL, diag));
    ck_assert_int_eq(cause, PVSIZE_CAUSE_LONGER);
    NEAR(least, ceil((3000 / high - 1) * 9), 0);
    NEAR(most, 30001, 0);
    pvsize_judgement_free(judgement);
    pvsize_spec_free(module);
    pvsize_spec_free(array);
    pvsize_spec_free(system);
}
END_TEST

/* Two of the 27 thirds of 9 modules bypassed give 25/27 of the voltage, which a missing module
 * could give at a stretch: what foretells the number comes first. */
START_TEST(the_nearer_cause_comes_first)
{
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                          PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, 9 * 38.8 * 25 / 27));
    pvsize_judgement *judgement = judged(system);
    int32_t cause, count, shorter = -1;
    double likeliest, at;

    OK(pvsize_judgement_cause(judgement, 0, 0, &cause, NULL, &likeliest, NULL, &at, diag));
    ck_assert_int_eq(cause, PVSIZE_CAUSE_BYPASSED);
    NEAR(likeliest, 2, 0);
    ck_assert(at < 1e-9);
    OK(pvsize_judgement_cause_count(judgement, 0, &count, diag));
    for (int32_t k = 0; k < count; k++) {
        OK(pvsize_judgement_cause(judgement, 0, k, &cause, NULL, NULL, NULL, &at, diag));
        if (cause == PVSIZE_CAUSE_SHORTER)
            shorter = k;
    }
    ck_assert_int_gt(shorter, 0);
    pvsize_judgement_free(judgement);
    pvsize_spec_free(system);
}
END_TEST

/* Data that no module has: the reading is not judged, and why is told. */
START_TEST(wrong_coefficients_are_not_judged_by)
{
    static const struct {
        int32_t term;
        double value;
        int32_t read;
    } cases[] = {{PVSIZE_MODULE_VOC_COEFFICIENT, 0.3, PVSIZE_READING_VOC},
                 {PVSIZE_MODULE_VMP_COEFFICIENT, 0.1, PVSIZE_READING_VMP},
                 {PVSIZE_MODULE_ISC_COEFFICIENT, -1, PVSIZE_READING_ISC}};

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pvsize_spec *system =
            with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 1000,
                              PVSIZE_READING_CELL_TEMP, 130, cases[i].read, 10));
        pvsize_spec *array, *module;
        pvsize_judgement *judgement;
        int32_t how, why;

        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
        OK(pvsize_spec_set_number(module, cases[i].term, cases[i].value, diag));
        OK(pvsize_spec_replace(array, 0, module, diag));
        OK(pvsize_spec_replace(system, 0, array, diag));
        judgement = judged(system);
        OK(pvsize_judgement_row(judgement, 0, NULL, NULL, &how, &why, diag));
        ck_assert_int_eq(how, PVSIZE_JUDGED_NOT_JUDGED);
        ck_assert_int_ne(why, 0);
        pvsize_judgement_free(judgement);
        pvsize_spec_free(module);
        pvsize_spec_free(array);
        pvsize_spec_free(system);
    }
}
END_TEST

START_TEST(sheet)
{
    pvsize_spec *system =
        with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_STRING, 2, PVSIZE_READING_IRRADIANCE,
                          1000, PVSIZE_READING_CELL_TEMP, 25, PVSIZE_READING_VOC, -9 * 38.8,
                          PVSIZE_READING_ISC, 2 * 13.9, PVSIZE_READING_INSULATION, 0.2));
    pvsize_judgement *judgement = judged(system);
    char text[4000];

    ck_assert_int_eq(first_cause(judgement, 0), PVSIZE_CAUSE_REVERSED);
    ck_assert_int_eq(first_cause(judgement, 1), PVSIZE_CAUSE_MORE_STRINGS);
    ck_assert_int_eq(first_cause(judgement, 2), PVSIZE_CAUSE_EARTH);
    OK(pvsize_judgement_text(judgement, 0, text, sizeof text, NULL, diag));
    ck_assert_str_eq(
        text, "reading 1 (roof | left), string 2 of array 1: open-circuit voltage -349.2 V; "
              "expected 349.2 V, of a sound string 333.23 to 365.17 V: not as a sound string "
              "would read; it can be: polarity reversed, of the string or of the meter's leads");
    OK(pvsize_judgement_render(judgement, PVSIZE_FORMAT_MARKDOWN, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "# Readings on the day"));
    ck_assert_ptr_nonnull(strstr(text, "> CAUTION"));
    ck_assert_ptr_nonnull(strstr(text, "2. polarity of every d.c. cable"));
    ck_assert_ptr_nonnull(strstr(text, "roof \\| left"));
    ck_assert_ptr_nonnull(
        strstr(text, "- **differs:** insulation resistance 0.2 Mohm; at least 1"));
    pvsize_spec_free(system);
    pvsize_judgement_free(judgement);
}
END_TEST

START_TEST(wrong_input)
{
    pvsize_spec *module = invented_module(), *system = invented_system(), *bad;
    pvsize_spec *reading = SPEC(PVSIZE_KIND_READING, PVSIZE_READING_VOC, 300);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_judgement *judgement;
    int32_t count = 7;
    double value;

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_judgement_new(NULL, NULL, diag));
    OK(pvsize_judgement_new(NULL, &judgement, diag));
    FAILS(PVSIZE_E_NOT_SET, "",
          pvsize_judgement_render(judgement, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "system", pvsize_judge(NULL, rules, judgement, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules", pvsize_judge(system, NULL, judgement, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "judgement", pvsize_judge(system, rules, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "a system", pvsize_judge(module, rules, judgement, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "judgement",
          pvsize_judge(system, rules, (pvsize_judgement *)rules, diag));
    OK(pvsize_judge(system, rules, judgement, diag)); /* no readings */
    OK(pvsize_judgement_count(judgement, 0, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_spec_clone(system, NULL, &bad, diag));
    OK(pvsize_spec_add(bad, reading, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "reading[0].array", pvsize_judge(bad, rules, judgement, diag));
    OK(pvsize_spec_set_part_number(bad, 0, PVSIZE_READING_ARRAY, 2, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "reading[0].array", pvsize_judge(bad, rules, judgement, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "reading.irradiance",
          pvsize_spec_set_number(reading, PVSIZE_READING_IRRADIANCE, -1, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "judged", pvsize_judgement_count(judgement, 9, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "0",
          pvsize_judgement_row(judgement, 0, NULL, NULL, NULL, NULL, diag));
    OK(pvsize_spec_set_part_number(bad, 0, PVSIZE_READING_ARRAY, 0, diag));
    OK(pvsize_judge(bad, rules, judgement, diag));
    FAILS(PVSIZE_E_NOT_SET, "reading.cell_temp",
          pvsize_judgement_numbers(judgement, 0, &value, NULL, NULL, NULL, diag));
    ck_assert(value == 300);
    FAILS(PVSIZE_E_NOT_SET, "reading.moment", pvsize_judgement_alike(judgement, 0, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "deviation", pvsize_judgement_alike(judgement, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k",
          pvsize_judgement_cause(judgement, 0, 0, NULL, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format",
          pvsize_judgement_render(judgement, 3, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_judgement_render(judgement, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "judgement",
          pvsize_judgement_numbers(NULL, 0, &value, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "judgement", pvsize_judgement_cause_count(NULL, 0, &count, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_judgement_cause_count(judgement, 0, NULL, diag));
    pvsize_judgement_free(judgement);
    pvsize_judgement_free(NULL);
    pvsize_spec_free(reading);
    pvsize_spec_free(bad);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    pvsize_rules_free(rules);
}
END_TEST

/* Absurd data and absurd tolerances: no judgement, or one with causes; never a crash. */
START_TEST(edges)
{
    pvsize_spec *system = with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_IRRADIANCE, 2000,
                                            PVSIZE_READING_CELL_TEMP, 130, PVSIZE_READING_VOC, 3000,
                                            PVSIZE_READING_ISC, -5000));
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_judgement *judgement = judged(system);

    ck_assert_int_eq(first_cause(judgement, 0), PVSIZE_CAUSE_LONGER);
    ck_assert_int_eq(first_cause(judgement, 1), PVSIZE_CAUSE_REVERSED);
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_TEST_METER, 50, NULL, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_TEST_MODULE, 50, NULL, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_TEST_SENSOR, 50, NULL, diag));
    OK(pvsize_judge(system, rules, judgement, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_READING_VOC, 0, diag));
    OK(pvsize_judge(system, rules, judgement, diag));
    OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_TEST_IRRADIANCE, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_READING_IRRADIANCE, 0, diag));
    OK(pvsize_judge(system, rules, judgement, diag));
    pvsize_judgement_free(judgement);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(every_allocation_fails_once)
{
    pvsize_spec *system = with_reading(SPEC(PVSIZE_KIND_READING, PVSIZE_READING_VOC, 300));
    pvsize_rules *rules = preset("asnzs_5033_2021");
    counter c = {0, 0, 0};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_judgement *judgement;
    pvsize_status status = PVSIZE_E_NO_MEMORY;

    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_judgement_new(&memory, &judgement, diag));
    OK(pvsize_judgement_new(&memory, &judgement, diag));
    for (long n = 0; status; n++) {
        int32_t count;

        c.fail_at = c.made + n;
        status = pvsize_judge(system, rules, judgement, NULL);
        OK(pvsize_judgement_count(judgement, 0, &count, diag));
        ck_assert_int_eq(count, status ? 0 : 1);
        ck_assert(!status || status == PVSIZE_E_NO_MEMORY);
        ck_assert(!status || c.live == 1);
    }
    pvsize_judgement_free(judgement);
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

/* Strings of 9 x 38.8 V: 1.25 times 349 V is within 120 to 500 V, tested with 500 V (IEC 62446-1
 * table 1, from memory). Less is a breach; just that, or more, is none. */
START_TEST(the_test_voltage_is_a_least_one)
{
    static const struct {
        double volts;
        int32_t verdict;
    } tried[] = {
        {250, PVSIZE_VERDICT_EXCEEDS}, {500, PVSIZE_VERDICT_MEETS}, {1000, PVSIZE_VERDICT_MEETS}};

    for (size_t i = 0; i < 3; i++) {
        pvsize_spec *system = invented_system();
        pvsize_report *report;

        give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_INSULATION,
                          50, PVSIZE_READING_INSULATION_TEST, tried[i].volts));
        report = checked_au(system);
        ck_assert_int_eq(verdict_of(report, PVSIZE_RULE_READING_INSULATION_TEST, 0),
                         tried[i].verdict);
        pvsize_report_free(report);
        pvsize_spec_free(system);
    }
}
END_TEST

/* Four readings of one moment: which of the others the last one has for company. By default
 * all are of array 1; `part` of the last reading, array or module is another. */
static double company(int32_t kind, int32_t term, double value)
{
    pvsize_spec *system = invented_system(), *array = invented_array(1, 0, 9, 1), *module;
    pvsize_report *report;
    int32_t subject;
    double median = -1;

    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    if (kind == PVSIZE_KIND_ARRAY)
        OK(pvsize_spec_set_number(array, term, value, diag));
    if (kind == PVSIZE_KIND_MODULE)
        OK(pvsize_spec_set_number(module, term, value, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 1, array, diag));
    for (int k = 0; k < 4; k++) {
        pvsize_spec *reading = SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, k == 3,
                                    PVSIZE_READING_MOMENT, 7, PVSIZE_READING_VOC, 330 + 10.0 * k,
                                    PVSIZE_READING_IRRADIANCE, 800, PVSIZE_READING_BACK_TEMP, 40);

        if (k == 3 && kind == PVSIZE_KIND_READING)
            OK(pvsize_spec_set_number(reading, term, value, diag));
        give(system, reading);
    }
    report = checked_au(system);
    OK(pvsize_report_find(report, PVSIZE_KIND_READING, 3, -1, &subject, diag));
    pvsize_report_quantity(report, PVSIZE_QUANTITY_READING_VOC_MEDIAN, subject, &median, NULL);
    pvsize_report_free(report);
    pvsize_spec_free(system);
    pvsize_spec_free(array);
    pvsize_spec_free(module);
    return median;
}

/* Alike are readings of the same moment, module type, length, plane and count of strings:
 * IEC 62446-1:2016 cl. 6.4 compares identical strings under the same light. 330 to 360 V: the
 * median of four is 345 V; one that is unlike has none. */
START_TEST(only_like_strings_are_compared)
{
    ck_assert(company(0, 0, 0) == 345);
    ck_assert(company(PVSIZE_KIND_READING, PVSIZE_READING_STRINGS, 1) == 345); /* the default */
    ck_assert(company(PVSIZE_KIND_READING, PVSIZE_READING_STRINGS, 2) == -1);
    ck_assert(company(PVSIZE_KIND_READING, PVSIZE_READING_MOMENT, 8) == -1);
    ck_assert(company(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_PLANE, 0) == 345);
    ck_assert(company(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_PLANE, 1) == -1);
    ck_assert(company(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_MODULES_PER_STRING, 8) == -1);
    ck_assert(company(PVSIZE_KIND_MODULE, PVSIZE_MODULE_VOC, 38.9) == -1);
}
END_TEST

/* Strings that read the same are each in their own place, and one without that measurement is
 * told the median of none. */
START_TEST(like_strings_that_tie)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t subject;
    double median;

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 4, diag));
    for (int k = 0; k < 4; k++)
        give(system, k < 3
                         ? SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_MOMENT,
                                7, PVSIZE_READING_VOC, 332, PVSIZE_READING_IRRADIANCE, 800,
                                PVSIZE_READING_BACK_TEMP, 40)
                         : SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_MOMENT,
                                7, PVSIZE_READING_IRRADIANCE, 800, PVSIZE_READING_BACK_TEMP, 40));
    report = checked_au(system);
    for (int k = 0; k < 4; k++) {
        OK(pvsize_report_find(report, PVSIZE_KIND_READING, k, -1, &subject, diag));
        if (k == 3) {
            FAILS(PVSIZE_E_NOT_SET, "reading_voc_median",
                  pvsize_report_quantity(report, PVSIZE_QUANTITY_READING_VOC_MEDIAN, subject,
                                         &median, diag));
            continue;
        }
        OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_READING_VOC_MEDIAN, subject, &median,
                                  diag));
        ck_assert(median == 332);
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "alike", strings_alike);
    add_test(suite, "test voltage", the_test_voltage_is_a_least_one);
    add_test(suite, "stc", at_stc);
    add_test(suite, "sheet", sheet);
    add_test(suite, "unlike strings told", the_sheet_tells_strings_apart);
    add_test(suite, "nearer causes", the_nearer_cause_comes_first);
    add_test(suite, "wrong coefficients", wrong_coefficients_are_not_judged_by);
    add_test(suite, "colder cells", colder_cells_are_a_cause);
    add_test(suite, "besides", turned_round_and_something_else);
    add_test(suite, "bands", bands_of_no_width_and_of_much);
    add_test(suite, "counted", strings_are_not_counted_for_ever);
    add_test(suite, "warmer cells", warmer_cells_are_a_cause);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "edges", edges);
    add_test(suite, "memory", every_allocation_fails_once);
    add_test(suite, "only like strings", only_like_strings_are_compared);
    add_test(suite, "ties", like_strings_that_tie);
}

int main(void)
{
    return run_cases("readings", add);
}
