/* What each rule compares, which side may be higher, and what it reports: written down a second
 * time, from the sources that stand beside, so that a row turned round is seen. How the sides are
 * computed is for the other tests. */
#include "../support/pv_test.h"
#include "invent.h"

typedef struct relation {
    int32_t rule, value, side, limit;
} relation;

#define R(rule, value, side, limit)                                               \
    {                                                                             \
        PVSIZE_RULE_##rule, PVSIZE_##value, PVSIZE_COMPARE_##side, PVSIZE_##limit \
    }

static void hold(const relation *rows, size_t count)
{
    pvsize_rules *rules = preset(NULL);

    for (size_t i = 0; i < count; i++) {
        int32_t value = 0, side = 0, limit = 0;
        double factor = 0;

        OK(pvsize_rules_definition(rules, rows[i].rule, &value, &side, &limit, &factor, diag));
        ck_assert_msg(value == rows[i].value && side == rows[i].side && limit == rows[i].limit &&
                          factor == 1,
                      "%s compares %s with %s, side %d", pvsize_term_name(rows[i].rule),
                      pvsize_term_name(value), pvsize_term_name(limit), (int)side);
    }
    pvsize_rules_free(rules);
}

#define HOLD(rows) hold((rows), sizeof(rows) / sizeof *(rows))

START_TEST(every_rule_compares_what_its_source_does)
{
    /* Ends of the data sheet's windows: below the most, above the least. The coldest Voc within
     * the input (AS/NZS 5033:2021 cl. 4.5.1.1), the module (IEC 61730-1) and the building (cl. 3.1). */
    static const relation voltage[] = {
        R(VOC_COLD_INPUT, QUANTITY_STRING_VOC_COLD, AT_MOST, INPUT_MAX_VOLTAGE),
        R(VOC_COLD_MODULE, QUANTITY_STRING_VOC_COLD, AT_MOST, MODULE_MAX_SYSTEM_VOLTAGE),
        R(VOC_COLD_BUILDING, QUANTITY_STRING_VOC_COLD, AT_MOST, QUANTITY_BUILDING_VOLTAGE_LIMIT),
        R(VMP_HOT_TRACKING, QUANTITY_STRING_VMP_HOT, AT_LEAST, INPUT_TRACKING_MIN),
        R(VMP_HOT_RESERVE, QUANTITY_STRING_VMP_HOT_AFTER_DROP, AT_LEAST, QUANTITY_TRACKING_FLOOR),
        R(VOC_HOT_START, QUANTITY_STRING_VOC_HOT, AT_LEAST, INPUT_START_VOLTAGE),
        R(VMP_COLD_TRACKING, QUANTITY_STRING_VMP_COLD, AT_MOST, INPUT_TRACKING_MAX),
        R(VMP_HOT_FULL_POWER, QUANTITY_STRING_VMP_HOT, AT_LEAST, INPUT_FULL_POWER_MIN),
        R(VMP_COLD_FULL_POWER, QUANTITY_STRING_VMP_COLD, AT_MOST, INPUT_FULL_POWER_MAX),
    };
    /* Of the data sheet, all of them "maximum": currents within, a pair of terminals for each string.
     * Bifacial modules: IEC TS 60904-1-2. */
    static const relation current[] = {
        R(ISC_INPUT, QUANTITY_INPUT_ISC_MAX, AT_MOST, INPUT_MAX_SHORT_CIRCUIT_CURRENT),
        R(OPERATING_CURRENT, QUANTITY_INPUT_IMP, AT_MOST, INPUT_MAX_OPERATING_CURRENT),
        R(TERMINALS, QUANTITY_INPUT_STRINGS, AT_MOST, INPUT_TERMINALS),
        R(TERMINAL_RATING, QUANTITY_INPUT_TERMINAL_CURRENT, AT_MOST, INPUT_TERMINAL_CURRENT),
        R(INPUT_POWER, QUANTITY_INPUT_POWER, AT_MOST, INPUT_MAX_POWER),
        R(INPUT_USED, QUANTITY_INPUT_ARRAYS, AT_LEAST, FIGURE_ONE),
        R(BIFACIAL, QUANTITY_CURRENT_CORRECTION, AT_LEAST, QUANTITY_BIFACIAL_CORRECTION),
    };
    /* Differences are at most what is allowed (AS/NZS 5033:2014, from memory; common practice). */
    static const relation strings_in_parallel[] = {
        R(UNLIKE_VOLTAGE, QUANTITY_INPUT_VOC_DIFFERENCE, AT_MOST, FIGURE_PARALLEL_VOC_DIFFERENCE),
        R(UNLIKE_LENGTH, QUANTITY_INPUT_LENGTH_DIFFERENCE, AT_MOST, FIGURE_NO_DIFFERENCE),
        R(UNLIKE_MODULES, QUANTITY_INPUT_MODULE_TYPES, AT_MOST, FIGURE_ONE),
        R(UNLIKE_PLANES, QUANTITY_INPUT_PLANES, AT_MOST, FIGURE_PLANES_PER_INPUT),
    };
    /* IS/IEC 62548 (a course's worked example): a device above its least rating, or at it where the
     * rule set says so (NFPA 70 690.9(B)), and below its most; needed where the unprotected current
     * passes the rating; its voltage at least that of the string. */
    static const relation overcurrent_protection_of_strings[] = {
        R(REVERSE_CURRENT, QUANTITY_STRING_UNPROTECTED_CURRENT, AT_MOST,
          QUANTITY_STRING_REVERSE_LIMIT),
        R(DEVICE_EXISTS, QUANTITY_STRING_DEVICE_EXISTS, AT_LEAST, FIGURE_REQUIRED_YES),
        R(DEVICE_LOW, ARRAY_STRING_DEVICE, AT_LEAST, QUANTITY_STRING_DEVICE_LOW),
        R(DEVICE_LOW_STRICT, ARRAY_STRING_DEVICE, MORE_THAN, QUANTITY_STRING_DEVICE_LOW),
        R(DEVICE_HIGH, ARRAY_STRING_DEVICE, AT_MOST, QUANTITY_STRING_DEVICE_HIGH),
        R(DEVICE_VOLTAGE, QUANTITY_STRING_DEVICE_DUTY_VOLTAGE, AT_MOST,
          ARRAY_STRING_DEVICE_VOLTAGE),
        R(ARRAY_DEVICE, QUANTITY_ARRAY_DEVICE_FITTED, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ARRAY_DEVICE_EXISTS, QUANTITY_ARRAY_DEVICE_EXISTS, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ARRAY_DEVICE_LOW, ARRAY_ARRAY_DEVICE, AT_LEAST, QUANTITY_ARRAY_DEVICE_LOW),
        R(ARRAY_DEVICE_LOW_STRICT, ARRAY_ARRAY_DEVICE, MORE_THAN, QUANTITY_ARRAY_DEVICE_LOW),
        R(ARRAY_DEVICE_HIGH, ARRAY_ARRAY_DEVICE, AT_MOST, QUANTITY_ARRAY_DEVICE_HIGH),
        R(ARRAY_DEVICE_VOLTAGE, QUANTITY_ARRAY_DEVICE_DUTY_VOLTAGE, AT_MOST,
          ARRAY_ARRAY_DEVICE_VOLTAGE),
    };
    /* Isolators carry and break what there is: IEC 60947-3; AS/NZS 5033:2021 cl. 4.3.4. */
    static const relation isolation[] = {
        R(ISOLATOR, QUANTITY_INPUT_ISOLATED, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_VOLTAGE, QUANTITY_ISOLATOR_VOLTAGE_DUTY, AT_MOST, INPUT_ISOLATOR_VOLTAGE),
        R(ISOLATOR_CURRENT, QUANTITY_ISOLATOR_CURRENT_DUTY, AT_MOST, INPUT_ISOLATOR_CURRENT),
    };
    /* AS/NZS 5033:2021 cl. 4.3.4; NFPA 70 690.13, 690.15(A): within a distance, in sight. */
    static const relation isolators_listed_one_by_one[] = {
        R(ISOLATOR_BREAKS_LOAD, QUANTITY_ISOLATOR_BREAKS_LOAD, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_OF_STANDARD, QUANTITY_ISOLATOR_OF_STANDARD, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_LOCKS, QUANTITY_ISOLATOR_LOCKS, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_OPENS_ALL, QUANTITY_ISOLATOR_OPENS_ALL, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_NON_POLARISED, QUANTITY_ISOLATOR_NON_POLARISED, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ISOLATOR_CATEGORY, QUANTITY_ISOLATOR_CATEGORY_CLASS, AT_LEAST,
          QUANTITY_ISOLATOR_CLASS_NEEDED),
        R(ISOLATOR_RATED_VOLTAGE, QUANTITY_ISOLATOR_VOLTAGE_SEEN, AT_MOST, ISOLATOR_VOLTAGE),
        R(ISOLATOR_POLES, QUANTITY_ISOLATOR_POLE_DUTY, AT_MOST, QUANTITY_ISOLATOR_POLE_VOLTAGE),
        R(ISOLATOR_RATED_CURRENT, QUANTITY_ISOLATOR_CURRENT_SEEN, AT_MOST,
          QUANTITY_ISOLATOR_CAPACITY),
        R(ISOLATOR_DISTANCE, QUANTITY_ISOLATOR_AWAY, AT_MOST, FIGURE_ISOLATOR_DISTANCE),
        R(ISOLATOR_SEEN, QUANTITY_ISOLATOR_SEEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(ARRAY_DISCONNECTED, QUANTITY_ARRAY_DISCONNECTED, AT_LEAST, FIGURE_REQUIRED_YES),
    };
    /* Scheme guideline cl. 4.4.1 (read): an array at most so much of the inverter; a maker's most. */
    static const relation array_power[] = {
        R(PV_RATIO, QUANTITY_INVERTER_PV_POWER, AT_MOST, QUANTITY_PV_LIMIT_RATIO),
        R(PV_MAKER, QUANTITY_INVERTER_PV_POWER, AT_MOST, INVERTER_MAX_PV_POWER),
        R(PV_UNDERLOAD, QUANTITY_ARRAY_RATIO, AT_LEAST, FIGURE_ARRAY_RATIO_MIN),
    };
    /* A roof, a supply and an agreement hold so much. */
    static const relation room_and_supply[] = {
        R(PLANE_ROOM, QUANTITY_PLANE_MODULES, AT_MOST, PLANE_CAPACITY),
        R(PHASES, INVERTER_PHASES, AT_MOST, SITE_SUPPLY_PHASES),
        R(CONNECTION, QUANTITY_SYSTEM_APPARENT_POWER, AT_MOST, SITE_CONNECTION_LIMIT),
        R(EXPORT, QUANTITY_SYSTEM_EXPORT, AT_MOST, SITE_EXPORT_LIMIT),
    };
    /* A cable carries at least its duty; drop and rise are at most what is allowed (AS/NZS 5033:2021;
     * AS/NZS 4777.1 cl. 3.3.3). */
    static const relation cables[] = {
        R(CABLE_CAPACITY, QUANTITY_CABLE_DUTY, AT_MOST, QUANTITY_CABLE_CAPACITY),
        R(CABLE_TABLE, QUANTITY_CABLE_TABLE_DUTY, AT_MOST, QUANTITY_CABLE_TABLE_CAPACITY),
        R(DC_DROP, QUANTITY_ARRAY_DC_DROP, AT_MOST, FIGURE_DC_DROP),
        R(AC_RISE, QUANTITY_INVERTER_AC_RISE, AT_MOST, FIGURE_AC_RISE),
    };
    /* AS/NZS 4777.2:2020: voltage at most; Ib at most In at most Iz; NFPA 70 705.12(B): a busbar at
     * most; phases at most 5 kVA apart (AS/NZS 4777.1:2016); an agreement begins before, ends after. */
    static const relation ac_side[] = {
        R(TERMINAL_VOLTAGE, QUANTITY_INVERTER_TERMINAL_VOLTAGE, AT_MOST, FIGURE_AC_VOLTAGE_LIMIT),
        R(TERMINAL_VOLTAGE_REDUCES, QUANTITY_INVERTER_TERMINAL_VOLTAGE, AT_MOST,
          FIGURE_AC_VOLTAGE_REDUCES),
        R(PHASE_POWER, QUANTITY_INVERTER_PHASE_POWER, AT_MOST, SITE_PHASE_LIMIT),
        R(BUSBAR, QUANTITY_BUSBAR_LOAD, AT_MOST, QUANTITY_BUSBAR_LIMIT),
        R(AC_DEVICE, INVERTER_AC_DEVICE, AT_LEAST, QUANTITY_AC_DEVICE_DUTY),
        R(AC_DEVICE_CABLE, INVERTER_AC_DEVICE, AT_MOST, QUANTITY_CABLE_DEVICE_LIMIT),
        R(PHASE_TOTAL, QUANTITY_PHASE_POWER_HIGHEST, AT_MOST, SITE_PHASE_LIMIT),
        R(UNBALANCE, QUANTITY_SYSTEM_UNBALANCE, AT_MOST, FIGURE_PHASE_UNBALANCE),
        R(CABLE_TERMINALS, QUANTITY_CABLE_TABLE_DUTY, AT_MOST, QUANTITY_CABLE_TERMINAL_CAPACITY),
        R(AGREEMENT_BEGUN, QUANTITY_AGREEMENT_DAYS_BEFORE, AT_LEAST, FIGURE_NO_DIFFERENCE),
        R(AGREEMENT_LASTS, QUANTITY_AGREEMENT_DAYS_LEFT, AT_LEAST, FIGURE_NO_DIFFERENCE),
    };
    /* Physics of the cell: maximum power lies below both ends of the curve; voltage falls with
     * temperature; low ends lie below high ends. */
    static const relation contradictions_in_the_data[] = {
        R(DATA_VMP, MODULE_VMP, AT_MOST, MODULE_VOC),
        R(DATA_IMP, MODULE_IMP, AT_MOST, MODULE_ISC),
        R(DATA_POWER, QUANTITY_MODULE_POWER_DEVIATION, AT_MOST, FIGURE_DATA_POWER_TOLERANCE),
        R(DATA_VOC_COEFFICIENT_HIGH, QUANTITY_MODULE_VOC_COEFFICIENT, AT_MOST,
          QUANTITY_MODULE_VOC_COEFFICIENT_HIGH),
        R(DATA_VOC_COEFFICIENT_LOW, QUANTITY_MODULE_VOC_COEFFICIENT, AT_LEAST,
          QUANTITY_MODULE_VOC_COEFFICIENT_LOW),
        R(DATA_COEFFICIENTS_AGREE, QUANTITY_MODULE_COEFFICIENT_DEVIATION, AT_MOST,
          FIGURE_DATA_COEFFICIENT_TOLERANCE),
        R(DATA_ISC_COEFFICIENT, QUANTITY_MODULE_ISC_COEFFICIENT, AT_MOST,
          FIGURE_DATA_ISC_COEFFICIENT_HIGH),
        R(DATA_PMAX_COEFFICIENT, MODULE_PMAX_COEFFICIENT, AT_MOST,
          FIGURE_DATA_PMAX_COEFFICIENT_HIGH),
        R(DATA_ISC_COEFFICIENTS_AGREE, QUANTITY_MODULE_ISC_DEVIATION, AT_MOST,
          FIGURE_DATA_COEFFICIENT_TOLERANCE),
        R(DATA_VMP_COEFFICIENTS_AGREE, QUANTITY_MODULE_VMP_DEVIATION, AT_MOST,
          FIGURE_DATA_COEFFICIENT_TOLERANCE),
        R(DATA_WINDOW, INPUT_TRACKING_MIN, AT_MOST, INPUT_TRACKING_MAX),
        R(DATA_WINDOW_MAX, INPUT_TRACKING_MAX, AT_MOST, INPUT_MAX_VOLTAGE),
        R(DATA_FULL_POWER_LOW, INPUT_FULL_POWER_MIN, AT_LEAST, INPUT_TRACKING_MIN),
        R(DATA_FULL_POWER_HIGH, INPUT_FULL_POWER_MAX, AT_MOST, INPUT_TRACKING_MAX),
        R(DATA_FULL_POWER, INPUT_FULL_POWER_MIN, AT_MOST, INPUT_FULL_POWER_MAX),
        R(DATA_START, INPUT_START_VOLTAGE, AT_MOST, INPUT_MAX_VOLTAGE),
        R(DATA_CURRENTS, INPUT_MAX_SHORT_CIRCUIT_CURRENT, AT_LEAST, INPUT_MAX_OPERATING_CURRENT),
        R(DATA_APPARENT, INVERTER_RATED_AC_POWER, AT_MOST, INVERTER_RATED_APPARENT_POWER),
        R(DATA_AC_CURRENT, QUANTITY_INVERTER_AC_CURRENT, AT_MOST,
          QUANTITY_INVERTER_AC_CURRENT_STATED),
        R(DATA_SUPPLY, QUANTITY_SUPPLY_DEVIATION, AT_MOST, FIGURE_DATA_SUPPLY_TOLERANCE),
        R(DATA_TEMPERATURES, SITE_TEMP_MIN, AT_MOST, SITE_TEMP_MAX),
        R(DATA_DATES, QUANTITY_SITE_DATES_REAL, AT_LEAST, FIGURE_REQUIRED_YES),
        R(DATA_GROUPED, QUANTITY_STRING_GROUP, AT_MOST, ARRAY_STRINGS),
        R(DATA_VMP_COEFFICIENT_HIGH, QUANTITY_MODULE_VMP_COEFFICIENT, AT_MOST,
          FIGURE_DATA_VMP_COEFFICIENT_HIGH),
        R(DATA_VMP_COEFFICIENT_LOW, QUANTITY_MODULE_VMP_COEFFICIENT, AT_LEAST,
          FIGURE_DATA_VMP_COEFFICIENT_LOW),
        R(DATA_ISC_COEFFICIENT_LOW, QUANTITY_MODULE_ISC_COEFFICIENT, AT_LEAST,
          FIGURE_DATA_ISC_COEFFICIENT_LOW),
    };
    /* What is asked for is there. */
    static const relation gaps_in_the_data[] = {
        R(GIVEN_MODULE, QUANTITY_MODULE_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_INPUT, QUANTITY_INPUT_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_INVERTER, QUANTITY_INVERTER_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_SITE, QUANTITY_SITE_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_ARRAY, QUANTITY_ARRAY_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_CABLE, QUANTITY_CABLE_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
        R(GIVEN_ISOLATOR, QUANTITY_ISOLATOR_GIVEN, AT_LEAST, FIGURE_REQUIRED_YES),
    };
    /* IEC 62446-1:2016 cl. 6: between lowest and highest; like strings alike; insulation and the
     * test's voltage at least; light strong and steady. */
    static const relation readings_on_the_day[] = {
        R(READING_POLARITY, QUANTITY_READING_POLARITY, AT_LEAST, FIGURE_REQUIRED_YES),
        R(READING_INSULATION, QUANTITY_READING_INSULATION_VALUE, AT_LEAST,
          QUANTITY_INSULATION_RESISTANCE_MIN),
        R(READING_INSULATION_TEST, QUANTITY_READING_INSULATION_VOLTAGE, AT_LEAST,
          QUANTITY_INSULATION_TEST_VOLTAGE),
        R(READING_VOC_LOW, QUANTITY_READING_VOC_SIZE, AT_LEAST, QUANTITY_READING_VOC_LOWEST),
        R(READING_VOC_HIGH, QUANTITY_READING_VOC_SIZE, AT_MOST, QUANTITY_READING_VOC_HIGHEST),
        R(READING_ISC_LOW, QUANTITY_READING_ISC_SIZE, AT_LEAST, QUANTITY_READING_ISC_LOWEST),
        R(READING_ISC_HIGH, QUANTITY_READING_ISC_SIZE, AT_MOST, QUANTITY_READING_ISC_HIGHEST),
        R(READING_VMP_LOW, QUANTITY_READING_VMP_SIZE, AT_LEAST, QUANTITY_READING_VMP_LOWEST),
        R(READING_VMP_HIGH, QUANTITY_READING_VMP_SIZE, AT_MOST, QUANTITY_READING_VMP_HIGHEST),
        R(READING_IMP_LOW, QUANTITY_READING_IMP_SIZE, AT_LEAST, QUANTITY_READING_IMP_LOWEST),
        R(READING_IMP_HIGH, QUANTITY_READING_IMP_SIZE, AT_MOST, QUANTITY_READING_IMP_HIGHEST),
        R(READING_VOC_ALIKE, QUANTITY_READING_VOC_ALIKE, AT_MOST, FIGURE_TEST_ALIKE),
        R(READING_ISC_ALIKE, QUANTITY_READING_ISC_ALIKE, AT_MOST, FIGURE_TEST_ALIKE),
        R(READING_IRRADIANCE, QUANTITY_READING_IRRADIANCE_VALUE, AT_LEAST, FIGURE_TEST_IRRADIANCE),
        R(READING_STEADY, QUANTITY_READING_IRRADIANCE_CHANGE, AT_MOST, FIGURE_TEST_SENSOR),
    };

    HOLD(voltage);
    HOLD(current);
    HOLD(strings_in_parallel);
    HOLD(overcurrent_protection_of_strings);
    HOLD(isolation);
    HOLD(isolators_listed_one_by_one);
    HOLD(array_power);
    HOLD(room_and_supply);
    HOLD(cables);
    HOLD(ac_side);
    HOLD(contradictions_in_the_data);
    HOLD(gaps_in_the_data);
    HOLD(readings_on_the_day);
    ck_assert_int_eq(pvsize_term_count(PVSIZE_KIND_RULE), 117);
}
END_TEST

/* What is said only where it is broken: contradictions in data, and an input that is not used.
 * What is said only where data are missing. What is never called close to its limit: windows of a
 * rating, dates, agreements, and readings, whose band has the uncertainty in it already. */
static const int32_t quiet[] = {PVSIZE_RULE_INPUT_USED,
                                PVSIZE_RULE_DATA_VMP,
                                PVSIZE_RULE_DATA_IMP,
                                PVSIZE_RULE_DATA_POWER,
                                PVSIZE_RULE_DATA_VOC_COEFFICIENT_HIGH,
                                PVSIZE_RULE_DATA_VOC_COEFFICIENT_LOW,
                                PVSIZE_RULE_DATA_COEFFICIENTS_AGREE,
                                PVSIZE_RULE_DATA_ISC_COEFFICIENT,
                                PVSIZE_RULE_DATA_PMAX_COEFFICIENT,
                                PVSIZE_RULE_DATA_ISC_COEFFICIENTS_AGREE,
                                PVSIZE_RULE_DATA_VMP_COEFFICIENTS_AGREE,
                                PVSIZE_RULE_DATA_WINDOW,
                                PVSIZE_RULE_DATA_WINDOW_MAX,
                                PVSIZE_RULE_DATA_FULL_POWER_LOW,
                                PVSIZE_RULE_DATA_FULL_POWER_HIGH,
                                PVSIZE_RULE_DATA_FULL_POWER,
                                PVSIZE_RULE_DATA_START,
                                PVSIZE_RULE_DATA_CURRENTS,
                                PVSIZE_RULE_DATA_APPARENT,
                                PVSIZE_RULE_DATA_AC_CURRENT,
                                PVSIZE_RULE_DATA_SUPPLY,
                                PVSIZE_RULE_DATA_TEMPERATURES,
                                PVSIZE_RULE_DATA_DATES,
                                PVSIZE_RULE_DATA_GROUPED,
                                PVSIZE_RULE_DATA_VMP_COEFFICIENT_HIGH,
                                PVSIZE_RULE_DATA_VMP_COEFFICIENT_LOW,
                                PVSIZE_RULE_DATA_ISC_COEFFICIENT_LOW};
static const int32_t gaps[] = {PVSIZE_RULE_GIVEN_MODULE,   PVSIZE_RULE_GIVEN_INPUT,
                               PVSIZE_RULE_GIVEN_INVERTER, PVSIZE_RULE_GIVEN_SITE,
                               PVSIZE_RULE_GIVEN_ARRAY,    PVSIZE_RULE_GIVEN_CABLE,
                               PVSIZE_RULE_GIVEN_ISOLATOR};
static const int32_t firm[] = {PVSIZE_RULE_BIFACIAL,
                               PVSIZE_RULE_DEVICE_EXISTS,
                               PVSIZE_RULE_DEVICE_HIGH,
                               PVSIZE_RULE_ARRAY_DEVICE_EXISTS,
                               PVSIZE_RULE_ARRAY_DEVICE_HIGH,
                               PVSIZE_RULE_EXPORT,
                               PVSIZE_RULE_AGREEMENT_BEGUN,
                               PVSIZE_RULE_AGREEMENT_LASTS,
                               PVSIZE_RULE_READING_POLARITY,
                               PVSIZE_RULE_READING_INSULATION,
                               PVSIZE_RULE_READING_INSULATION_TEST,
                               PVSIZE_RULE_READING_VOC_LOW,
                               PVSIZE_RULE_READING_VOC_HIGH,
                               PVSIZE_RULE_READING_ISC_LOW,
                               PVSIZE_RULE_READING_ISC_HIGH,
                               PVSIZE_RULE_READING_VMP_LOW,
                               PVSIZE_RULE_READING_VMP_HIGH,
                               PVSIZE_RULE_READING_IMP_LOW,
                               PVSIZE_RULE_READING_IMP_HIGH,
                               PVSIZE_RULE_READING_VOC_ALIKE,
                               PVSIZE_RULE_READING_ISC_ALIKE,
                               PVSIZE_RULE_READING_IRRADIANCE,
                               PVSIZE_RULE_READING_STEADY};

static bool is_among(int32_t rule, const int32_t *list, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (list[i] == rule)
            return true;
    return false;
}

#define AMONG(rule, list) is_among((rule), (list), sizeof(list) / sizeof *(list))

static bool is_measured(const pvsize_rules *rules, int32_t rule)
{
    int32_t value = 0, limit = 0;

    OK(pvsize_rules_definition(rules, rule, &value, NULL, &limit, NULL, diag));
    return pvsize_term_type(value) == PVSIZE_TYPE_NUMBER &&
           pvsize_term_type(limit) == PVSIZE_TYPE_NUMBER;
}

/* By the words above, with a band of half the limit, so that most is close. */
static int32_t expected(const pvsize_rules *rules, int32_t rule, double margin, double limit)
{
    if (margin < 0)
        return PVSIZE_VERDICT_EXCEEDS;
    if (margin < fabs(limit) / 2 && !AMONG(rule, firm) && is_measured(rules, rule))
        return PVSIZE_VERDICT_MARGINAL;
    return PVSIZE_VERDICT_MEETS;
}

enum { MOST_RULES = 200 };

static void look(const pvsize_report *report, const pvsize_rules *rules, bool *met, bool *close)
{
    int32_t count = 0, rule = 0, verdict = 0;
    double value = 0, limit = 0, margin = 0;

    OK(pvsize_report_count(report, 0, 0, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        int32_t place = 0;

        OK(pvsize_report_finding(report, i, &rule, NULL, &verdict, NULL, diag));
        while (pvsize_term_at(PVSIZE_KIND_RULE, place) != rule)
            place++;
        if (AMONG(rule, quiet))
            ck_assert_int_eq(verdict, PVSIZE_VERDICT_EXCEEDS);
        if (AMONG(rule, gaps))
            ck_assert_int_eq(verdict, PVSIZE_VERDICT_NOT_ASSESSED);
        if (verdict == PVSIZE_VERDICT_NOT_ASSESSED)
            continue;
        OK(pvsize_report_numbers(report, i, &value, &limit, &margin, diag));
        if (verdict == PVSIZE_VERDICT_EXCEEDS && margin == 0)
            continue; /* at a limit that must be passed */
        ck_assert_msg(verdict == expected(rules, rule, margin, limit), "%s: %d at %g of %g",
                      pvsize_term_name(rule), (int)verdict, margin, limit);
        met[place] |= verdict != PVSIZE_VERDICT_EXCEEDS;
        close[place] |= verdict == PVSIZE_VERDICT_MARGINAL;
    }
}

/* What invented jobs seldom have: a loaded a.c. side, an agreement with dates, equal strings on
 * one input, like readings, an isolator whose poles are in series, a d.c. cable that nearly loses
 * too much. On three phases, with an inverter on one of them. */
static pvsize_spec *full_job(bool three_phases)
{
    static const double site[][2] = {
        {PVSIZE_SITE_SUPPLY_VOLTAGE_HIGHEST, 240}, {PVSIZE_SITE_BUSBAR_RATING, 200},
        {PVSIZE_SITE_BUSBAR_DEVICE, 100},          {PVSIZE_SITE_JOB_DATE, 20260301},
        {PVSIZE_SITE_AGREEMENT_FROM, 20260101},    {PVSIZE_SITE_AGREEMENT_UNTIL, 20270101}};
    pvsize_spec *system = invented_system();

    for (size_t i = 0; i < sizeof site / sizeof *site; i++)
        OK(pvsize_spec_set_part_number(system, 0, (int32_t)site[i][0], site[i][1], diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_AC_DEVICE, 50, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_NO, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 1, diag));
    give(system, invented_array(0, 0, 9, 1));
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_CONDUCTOR,
              PVSIZE_CONDUCTOR_CLASS2, PVSIZE_CABLE_SECTION, 16, PVSIZE_CABLE_LENGTH, 30,
              PVSIZE_CABLE_LAYING, PVSIZE_LAYING_IEC_B2_PVC, PVSIZE_CABLE_AMBIENT, 30));
    for (int i = 0; i < 3; i++)
        give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0, PVSIZE_READING_STRING,
                          i + 1, PVSIZE_READING_MOMENT, 1, PVSIZE_READING_IRRADIANCE, 900,
                          PVSIZE_READING_CELL_TEMP, 40, PVSIZE_READING_VOC, 335 + i,
                          PVSIZE_READING_ISC, 12.5 + i / 10.0));
    give(system,
         SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_AT_ARRAY,
              PVSIZE_ISOLATOR_ARRAY, 0, PVSIZE_ISOLATOR_VOLTAGE, 1000, PVSIZE_ISOLATOR_CURRENT, 32,
              PVSIZE_ISOLATOR_POLES, 4, PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR, 2,
              PVSIZE_ISOLATOR_CONDUCTOR_VOLTAGE, 800));
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_CONDUCTOR,
              PVSIZE_CONDUCTOR_AWG, PVSIZE_CABLE_GAUGE, 6, PVSIZE_CABLE_LENGTH, 1,
              PVSIZE_CABLE_LAYING, PVSIZE_LAYING_NFPA_90, PVSIZE_CABLE_AMBIENT, 30,
              PVSIZE_CABLE_GROUPING, PVSIZE_GROUPING_NFPA, PVSIZE_CABLE_TERMINAL_TEMP, 75));
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING, PVSIZE_CABLE_ARRAY, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 4,
              PVSIZE_CABLE_LENGTH, 40, PVSIZE_CABLE_CONDUCTOR_TEMP, 60));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_ARRAY_DEVICE, 25, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_ARRAY_DEVICE_VOLTAGE, 500, diag));
    if (three_phases) {
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_SITE_SUPPLY_PHASES, 3, diag));
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_PHASE, 1, diag));
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_RATED_AC_POWER, 4000, diag));
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_RATED_APPARENT_POWER, 4000,
                                       diag));
    }
    return system;
}

/* Over invented jobs: each verdict is what these words make of the finding's own numbers, and
 * every rule that is not quiet has been met at least once, and been close where it can. */
START_TEST(every_rule_reports_as_it_should)
{
    bool met[MOST_RULES] = {false}, close[MOST_RULES] = {false};
    pvsize_rules *none = preset(NULL);

    for (int32_t job = 0; job < 1000; job++) {
        draw d = draw_from_seed((uint64_t)job);
        pvsize_spec *system = job < 18 ? full_job(job < 9) : invent_system(&d, NULL);
        pvsize_rules *rules = preset(pvsize_preset_name(job % pvsize_preset_count()));
        pvsize_report *report;

        OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_MARGINAL_BAND, 50, NULL, diag));
        OK(pvsize_report_new(NULL, &report, diag));
        if (pvsize_check(system, rules, report, NULL) == PVSIZE_OK)
            look(report, rules, met, close);
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
    for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_RULE); i++) {
        int32_t rule = pvsize_term_at(PVSIZE_KIND_RULE, i);

        if (AMONG(rule, quiet) || AMONG(rule, gaps))
            continue;
        ck_assert_msg(close[i] || AMONG(rule, firm) || !is_measured(none, rule),
                      "%s was never close", pvsize_term_name(rule));
        ck_assert_msg(met[i], "%s was never met", pvsize_term_name(rule));
    }
    pvsize_rules_free(none);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "relations", every_rule_compares_what_its_source_does);
    add_test(suite, "reports", every_rule_reports_as_it_should);
}

int main(void)
{
    return run_cases("limits", add);
}
