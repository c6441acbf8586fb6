/* Bills counted by hand; common practice where no other source is named beside the check.
 * The rounding of spares and the doubling of cables can be followed with pencil and paper. */
#include "../support/pv_test.h"

static pvsize_bill *bill;

static void fill_by(const pvsize_spec *system, const pvsize_rules *rules)
{
    if (!bill)
        OK(pvsize_bill_new(NULL, &bill, diag));
    OK(pvsize_bill_fill(system, rules, bill, diag));
}

/* By the Australian preset, and without what was given. */
static void fill(pvsize_spec *system)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    fill_by(system, rules);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}

static void done(void)
{
    pvsize_bill_free(bill);
    bill = NULL;
}

/* Place of the n-th row of an item; -1 if none. */
static int32_t row_of(int32_t item, int32_t n)
{
    int32_t count, here;

    OK(pvsize_bill_count(bill, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_bill_row(bill, i, &here, NULL, NULL, NULL, diag));
        if (here == item && n-- == 0)
            return i;
    }
    return -1;
}

static int32_t rows(int32_t item)
{
    int32_t n = 0;

    while (row_of(item, n) >= 0)
        n++;
    return n;
}

/* The n-th row of an item is all told, and comes to this. */
static void comes_to(int32_t item, int32_t n, double installed, double quantity)
{
    int32_t i = row_of(item, n), missing;
    double of_it, of_all;

    ck_assert_int_ge(i, 0);
    OK(pvsize_bill_row(bill, i, NULL, NULL, NULL, &missing, diag));
    ck_assert_int_eq(missing, 0);
    OK(pvsize_bill_quantity(bill, i, &of_it, &of_all, NULL, diag));
    NEAR(of_it, installed, 1e-12);
    NEAR(of_all, quantity, 1e-12);
}

static double attribute(int32_t item, int32_t n, int32_t term)
{
    int32_t i = row_of(item, n), count, here, missing;
    double value;

    OK(pvsize_bill_attribute_count(bill, i, &count, diag));
    for (int32_t k = 0; k < count; k++) {
        OK(pvsize_bill_attribute(bill, i, k, &here, &value, &missing, diag));
        if (here == term)
            return missing ? -missing : value;
    }
    ck_abort_msg("no such attribute: %d", (int)term);
    return NAN;
}

/* What the n-th row of an item lacks. */
static int32_t missing_of(int32_t item, int32_t n)
{
    int32_t missing = -1, i = row_of(item, n);

    ck_assert_int_ge(i, 0);
    OK(pvsize_bill_row(bill, i, NULL, NULL, NULL, &missing, diag));
    return missing;
}

static void is_for(int32_t item, int32_t n, int32_t k, const char *subject, double installed,
                   int32_t why)
{
    int32_t number, reason;
    double share;
    char text[300];

    OK(pvsize_bill_share(bill, row_of(item, n), k, &number, &share, &reason, diag));
    OK(pvsize_bill_subject_text(bill, number, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, subject);
    NEAR(share, installed, 1e-12);
    ck_assert_int_eq(reason, why);
}

static int32_t shares_of(int32_t item, int32_t n)
{
    int32_t count;

    OK(pvsize_bill_share_count(bill, row_of(item, n), &count, diag));
    return count;
}

static pvsize_spec *cable_of(int32_t circuit, int32_t owner, double section, double length)
{
    bool is_ac = circuit == PVSIZE_CIRCUIT_AC;

    return SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, circuit,
                is_ac ? PVSIZE_CABLE_INVERTER : PVSIZE_CABLE_ARRAY, owner, PVSIZE_CABLE_CONDUCTOR,
                is_ac ? PVSIZE_CONDUCTOR_CLASS2 : PVSIZE_CONDUCTOR_CLASS5_TINNED,
                PVSIZE_CABLE_SECTION, section, PVSIZE_CABLE_LENGTH, length, PVSIZE_CABLE_LAYING,
                is_ac ? PVSIZE_LAYING_IEC_B2_PVC : PVSIZE_LAYING_EN_TOUCHING);
}

/* counted by hand */

/* 2 strings of 9 and 1 of 8: 26 modules, 3 strings with two cables each. */
START_TEST(two_unlike_inputs)
{
    pvsize_spec *system = invented_system();

    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 20));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 1, 4, 12.5));
    give(system, cable_of(PVSIZE_CIRCUIT_AC, 0, 10, 15));
    fill(system);
    comes_to(PVSIZE_ITEM_MODULE, 0, 26, 26);
    ck_assert_int_eq(rows(PVSIZE_ITEM_MODULE), 1);
    is_for(PVSIZE_ITEM_MODULE, 0, 0, "array 1", 18, PVSIZE_QUANTITY_ARRAY_MODULES);
    is_for(PVSIZE_ITEM_MODULE, 0, 1, "array 2", 8, PVSIZE_QUANTITY_ARRAY_MODULES);
    ck_assert(attribute(PVSIZE_ITEM_MODULE, 0, PVSIZE_ATTRIBUTE_POWER) == 430);
    comes_to(PVSIZE_ITEM_STRING, 0, 2, 2);
    comes_to(PVSIZE_ITEM_STRING, 1, 1, 1);
    ck_assert(attribute(PVSIZE_ITEM_STRING, 1, PVSIZE_ATTRIBUTE_MODULES) == 8);
    comes_to(PVSIZE_ITEM_INVERTER, 0, 1, 1);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 0, 3, 4); /* 3.3 */
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 1, 3, 4);
    ck_assert_int_eq(rows(PVSIZE_ITEM_CONNECTOR_PAIR), 2);
    comes_to(PVSIZE_ITEM_STRING_FUSE, 0, 0, 0); /* at most two strings, 13.9 A into 25 A */
    comes_to(PVSIZE_ITEM_FUSE_HOLDER, 0, 0, 0);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 0, 0, 0); /* both built-in ones serve */
    is_for(PVSIZE_ITEM_DC_ISOLATOR, 0, 1, "input 2 of inverter 1", 0,
           PVSIZE_QUANTITY_INPUT_ISOLATED);
    comes_to(PVSIZE_ITEM_CABLE, 0, 105, 115.5); /* 2 x (2 x 20 + 12.5) m and 10 % */
    comes_to(PVSIZE_ITEM_CABLE, 1, 45, 49.5);   /* phase, neutral, earth */
    ck_assert_int_eq(rows(PVSIZE_ITEM_CABLE), 2);
    ck_assert(attribute(PVSIZE_ITEM_CABLE, 0, PVSIZE_ATTRIBUTE_SECTION) == 4);
    ck_assert(attribute(PVSIZE_ITEM_CABLE, 0, PVSIZE_ATTRIBUTE_INSULATION_TEMP) == 120);
    ck_assert(attribute(PVSIZE_ITEM_CABLE, 1, PVSIZE_ATTRIBUTE_CONDUCTORS) == 3);
    is_for(PVSIZE_ITEM_CABLE, 0, 1, "cable 2", 25, PVSIZE_CABLE_LENGTH);
    comes_to(PVSIZE_ITEM_AC_BREAKER, 0, 1, 1); /* 40 A */
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_RATING) == 40);
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_POLES) == 1);
    comes_to(PVSIZE_ITEM_EXPORT_METER, 0, 1, 1);
    ck_assert_int_eq(row_of(PVSIZE_ITEM_CURRENT_SENSOR, 0), -1);
    ck_assert_int_eq(row_of(PVSIZE_ITEM_COMBINER, 0), -1);
    done();
}
END_TEST

static pvsize_spec *small_inverter(void)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 760,
                                 PVSIZE_INVERTER_MAX_AC_CURRENT, 3.4, PVSIZE_INVERTER_PHASES, 1,
                                 PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_YES);

    for (int32_t i = 0; i < 2; i++)
        give(inverter, SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 60, PVSIZE_INPUT_ISOLATOR,
                            PVSIZE_ISOLATOR_NONE));
    return inverter;
}

/* Three small inverters under six modules that plug straight in. */
START_TEST(micro_inverters)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *part;
    pvsize_rules *rules = preset("asnzs_5033_2021");
    char text[500];

    give(system, SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, 1, PVSIZE_SITE_SUPPLY_PHASES, 1));
    for (int32_t i = 0; i < 3; i++) {
        part = small_inverter();
        OK(pvsize_spec_set_text(part, PVSIZE_INVERTER_NAME, i ? "other" : "one", diag));
        give(system, part); /* the label does not make another type */
    }
    for (int32_t i = 0; i < 6; i++) {
        part = invented_array(i % 2, -1, 1, 1);
        OK(pvsize_spec_set_number(part, PVSIZE_ARRAY_INVERTER, i / 2, diag));
        give(system, part);
        give(system, cable_of(PVSIZE_CIRCUIT_STRING, i, 4, 0));
    }
    for (int32_t i = 0; i < 3; i++)
        give(system, cable_of(PVSIZE_CIRCUIT_AC, i, 2.5, 4));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISOLATOR, PVSIZE_SEVERITY_NOTE, diag));
    fill_by(system, rules);
    comes_to(PVSIZE_ITEM_MODULE, 0, 6, 6);
    ck_assert_int_eq(shares_of(PVSIZE_ITEM_MODULE, 0), 6);
    comes_to(PVSIZE_ITEM_STRING, 0, 6, 6);
    comes_to(PVSIZE_ITEM_INVERTER, 0, 3, 3);
    ck_assert_int_eq(rows(PVSIZE_ITEM_INVERTER), 1);
    ck_assert_int_eq(rows(PVSIZE_ITEM_CONNECTOR_PAIR), 0);
    comes_to(PVSIZE_ITEM_CABLE, 0, 0, 0);
    comes_to(PVSIZE_ITEM_CABLE, 1, 36, 39.6);
    comes_to(PVSIZE_ITEM_AC_BREAKER, 0, 3, 3);
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_RATING) == 6);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 0, 0, 0); /* the rule set does not insist */
    is_for(PVSIZE_ITEM_DC_ISOLATOR, 0, 5, "input 2 of inverter 3", 0, PVSIZE_RULE_ISOLATOR);
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_DC_ISOLATOR, 0), text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "; by rule.isolator (note)"));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISOLATOR, PVSIZE_SEVERITY_SHOULD, diag));
    fill_by(system, rules);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 0, 6, 6);
    ck_assert(attribute(PVSIZE_ITEM_DC_ISOLATOR, 0, PVSIZE_ATTRIBUTE_POLES) == 2);
    NEAR(attribute(PVSIZE_ITEM_DC_ISOLATOR, 0, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST), 1.25 * 13.9,
         1e-12);
    ck_assert_int_eq(rows(PVSIZE_ITEM_CONNECTOR_PAIR), 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* Inverters are one type if their numbers and those of all their inputs are the same. */
START_TEST(types_of_inverters)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *part;

    give(system, SPEC(PVSIZE_KIND_SITE, 0));
    give(system, small_inverter());
    part = small_inverter();
    give(part, SPEC(PVSIZE_KIND_INPUT, 0));
    give(system, part); /* one input more */
    give(system, small_inverter());
    part = small_inverter();
    OK(pvsize_spec_set_part_number(part, 1, PVSIZE_INPUT_MAX_VOLTAGE, 61, diag));
    give(system, part);
    fill(system);
    ck_assert_int_eq(rows(PVSIZE_ITEM_INVERTER), 3);
    comes_to(PVSIZE_ITEM_INVERTER, 0, 2, 2);
    is_for(PVSIZE_ITEM_INVERTER, 0, 1, "inverter 3", 1, PVSIZE_KIND_INVERTER);
    comes_to(PVSIZE_ITEM_INVERTER, 1, 1, 1);
    comes_to(PVSIZE_ITEM_AC_BREAKER, 0, 4, 4);
    done();
}
END_TEST

/* Six inputs with 4 strings of 12 each, under a module rating of 25 A: 3 x 13.9 A can flow
 * back, so each string has a device of at least 1.5 x 13.9 = 20.85 A: 25 A. */
static pvsize_spec *six_inputs(void)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 60000,
                                 PVSIZE_INVERTER_MAX_AC_CURRENT, 92, PVSIZE_INVERTER_PHASES, 3);

    for (int32_t i = 0; i < 6; i++)
        give(inverter, invented_input(4));
    give(system, invented_site());
    give(system, inverter);
    for (int32_t i = 0; i < 6; i++)
        give(system, invented_array(i, -1, 12, 4));
    return system;
}

START_TEST(six_inputs_with_fuses)
{
    /* Voc x (1 - 0.0025 x (-3 - 25)) x 12 */
    double voltage = 38.8 * (1 + -0.25 / 100 * (-3 - 25.0)) * 12;
    char text[300];

    fill(six_inputs());
    comes_to(PVSIZE_ITEM_MODULE, 0, 288, 288);
    comes_to(PVSIZE_ITEM_STRING_FUSE, 0, 48, 53); /* 24 strings, 2 poles; 52.8 */
    ck_assert(attribute(PVSIZE_ITEM_STRING_FUSE, 0, PVSIZE_ATTRIBUTE_RATING) == 25);
    NEAR(attribute(PVSIZE_ITEM_STRING_FUSE, 0, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST), voltage, 1e-12);
    ck_assert_int_eq(shares_of(PVSIZE_ITEM_STRING_FUSE, 0), 6);
    is_for(PVSIZE_ITEM_STRING_FUSE, 0, 5, "array 6", 8, PVSIZE_QUANTITY_STRING_DEVICE_NEEDED);
    comes_to(PVSIZE_ITEM_FUSE_HOLDER, 0, 48, 48);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 0, 24, 27); /* 26.4 */
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_RATING) == 100);
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_POLES) == 3);
    OK(pvsize_bill_assumption_text(bill, 5, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 6: strings grouped under one device: 1, the default");
    done();
}
END_TEST

/* The design's own device, two strings under each, one odd string left over. */
START_TEST(fuses_as_designed)
{
    pvsize_spec *system = six_inputs();
    pvsize_rules *rules = preset("nfpa_70_2020");

    for (int32_t i = 0; i < 6; i++) {
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_STRINGS, 3, diag));
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_STRING_DEVICE, 40, diag));
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE,
                                       i < 2 ? 1000 : 1500, diag));
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_STRINGS_PER_DEVICE, 2, diag));
    }
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_STRING_FUSE_POLES, 1, "own", diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_FUSE_SPARE, 0, "own", diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_AC_BREAKER_NEUTRAL, PVSIZE_ANSWER_YES, "own",
                               diag));
    fill_by(system, rules);
    comes_to(PVSIZE_ITEM_STRING_FUSE, 0, 4, 4);
    comes_to(PVSIZE_ITEM_STRING_FUSE, 1, 8, 8);
    ck_assert(attribute(PVSIZE_ITEM_STRING_FUSE, 1, PVSIZE_ATTRIBUTE_VOLTAGE) == 1500);
    is_for(PVSIZE_ITEM_FUSE_HOLDER, 1, 0, "array 3", 2, PVSIZE_ARRAY_STRING_DEVICE);
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_POLES) == 4);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* A combiner on the first array, an external isolator on the second. */
START_TEST(combiner_and_isolator)
{
    pvsize_spec *system = invented_system();

    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 6));
    give(system, cable_of(PVSIZE_CIRCUIT_ARRAY, 0, 10, 30));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_NO, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES,
                                   diag));
    fill(system);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 0, 3, 4); /* at the modules */
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 1, 2, 3); /* one run of each array; 2.2 */
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 5, 6); /* 2 in, 1 out; 1 in, 1 out */
    is_for(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 0, "array 1", 3, PVSIZE_CABLE_CIRCUIT);
    is_for(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 1, "array 2", 2, PVSIZE_ARRAY_EXTERNAL_ISOLATOR);
    comes_to(PVSIZE_ITEM_COMBINER, 0, 1, 1);
    ck_assert(attribute(PVSIZE_ITEM_COMBINER, 0, PVSIZE_ATTRIBUTE_STRINGS) == 2);
    comes_to(PVSIZE_ITEM_CABLE, 0, 24, 26.4);
    comes_to(PVSIZE_ITEM_CABLE, 1, 60, 66);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 2), PVSIZE_CABLE_LENGTH); /* array 2's */
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 3), PVSIZE_CABLE_LENGTH); /* the a.c. one */
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 0, 0, 0);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 1, 1, 1);
    ck_assert(attribute(PVSIZE_ITEM_DC_ISOLATOR, 1, PVSIZE_ATTRIBUTE_POLES) == 2);
    NEAR(attribute(PVSIZE_ITEM_DC_ISOLATOR, 1, PVSIZE_ATTRIBUTE_CONDUCTOR_VOLTAGE_AT_LEAST),
         38.8 * 1.07 * 8, 1e-12); /* at an earth fault one conductor's poles break it alone */
    done();
}
END_TEST

/* One sensor for each phase of the supply: the site has an export limit of 5 kW. */
START_TEST(export_control)
{
    static const struct {
        double control, limit, phases;
        int32_t item, missing, why;
        double count;
    } cases[] = {
        {PVSIZE_EXPORT_CONTROL_CURRENT_SENSOR, 5000, 3, PVSIZE_ITEM_CURRENT_SENSOR, 0,
         PVSIZE_SITE_EXPORT_CONTROL, 3},
        {PVSIZE_EXPORT_CONTROL_METER, 5000, 3, PVSIZE_ITEM_EXPORT_METER, 0,
         PVSIZE_SITE_EXPORT_CONTROL, 1},
        {PVSIZE_EXPORT_CONTROL_NONE, 5000, 2, PVSIZE_ITEM_CURRENT_SENSOR, 0, PVSIZE_RULE_EXPORT, 2},
        {PVSIZE_EXPORT_CONTROL_NONE, 9000, 2, PVSIZE_ITEM_CURRENT_SENSOR, 0, PVSIZE_RULE_EXPORT, 0},
        {PVSIZE_EXPORT_CONTROL_NONE, -1, 2, PVSIZE_ITEM_CURRENT_SENSOR, PVSIZE_SITE_EXPORT_LIMIT,
         PVSIZE_RULE_EXPORT, 0},
        {PVSIZE_EXPORT_CONTROL_NONE, -2, 2, PVSIZE_ITEM_CURRENT_SENSOR, 0, PVSIZE_RULE_EXPORT, 0},
        {PVSIZE_EXPORT_CONTROL_NONE, 5000, 0, PVSIZE_ITEM_CURRENT_SENSOR, PVSIZE_SITE_SUPPLY_PHASES,
         PVSIZE_RULE_EXPORT, 0},
    };

    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site = invented_site();

        OK(pvsize_spec_set_number(site, PVSIZE_SITE_EXPORT_CONTROL, cases[i].control, diag));
        OK(pvsize_spec_unset(site, PVSIZE_SITE_EXPORT_LIMIT, diag));
        OK(pvsize_spec_unset(site, PVSIZE_SITE_SUPPLY_PHASES, diag));
        if (cases[i].limit == -2)
            OK(pvsize_spec_set_none(site, PVSIZE_SITE_EXPORT_LIMIT, diag));
        else if (cases[i].limit > 0)
            OK(pvsize_spec_set_number(site, PVSIZE_SITE_EXPORT_LIMIT, cases[i].limit, diag));
        if (cases[i].phases > 0)
            OK(pvsize_spec_set_number(site, PVSIZE_SITE_SUPPLY_PHASES, cases[i].phases, diag));
        give(system, site);
        give(system, invented_inverter());
        fill(system);
        ck_assert_int_eq(missing_of(cases[i].item, 0), cases[i].missing);
        is_for(cases[i].item, 0, 0, "site", cases[i].count, cases[i].why);
        if (!cases[i].missing)
            comes_to(cases[i].item, 0, cases[i].count, cases[i].count);
    }
    done();
}
END_TEST

/* what parts the direct current */

/* A switch at array 0: four poles, 32 A up to 60 degrees and 25 A up to 70. */
static pvsize_spec *listed_switch(int32_t array)
{
    return SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_AT_ARRAY,
                PVSIZE_ISOLATOR_ARRAY, array, PVSIZE_ISOLATOR_LOAD_BREAK, PVSIZE_ANSWER_YES,
                PVSIZE_ISOLATOR_MEETS_STANDARD, PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_LOCKABLE,
                PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_CATEGORY, PVSIZE_UTILISATION_DC_PV2,
                PVSIZE_ISOLATOR_VOLTAGE, 1000, PVSIZE_ISOLATOR_CURRENT, 32,
                PVSIZE_ISOLATOR_CURRENT_TEMP, 60, PVSIZE_ISOLATOR_HOT_CURRENT, 25,
                PVSIZE_ISOLATOR_HOT_TEMP, 70, PVSIZE_ISOLATOR_POLES, 4,
                PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR, 2);
}

/* One of which only the place is known, for array 1. */
static pvsize_spec *bare_one(int32_t place)
{
    return SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, place, PVSIZE_ISOLATOR_ARRAY, 1);
}

static int32_t attributes_of(int32_t item, int32_t n)
{
    int32_t count;

    OK(pvsize_bill_attribute_count(bill, row_of(item, n), &count, diag));
    return count;
}

/* 41.516 V a module at -3 degrees, 8 in a string; 1.25 x 13.9 A. */
static const double array_1_voltage = 38.8 * 1.07 * 8, array_1_current = 1.25 * 13.9;

static pvsize_spec *cabled_system(void)
{
    pvsize_spec *system = invented_system();

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_NO, diag));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 20));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 1, 4, 20));
    return system;
}

/* What is given is bought as it is; what is not, as it must be. AS/NZS 5033:2021
 * cl. 4.3.4, as an audit page of a regulator tells it: AS 60947.3, DC-PV2, all live
 * conductors together, securable open, not polarity sensitive. */
START_TEST(isolators_at_the_array)
{
    pvsize_spec *system = cabled_system(), *inside = listed_switch(0);
    int32_t item = PVSIZE_ITEM_DC_ISOLATOR;

    OK(pvsize_spec_set_number(inside, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_IN_INVERTER,
                              diag));
    give(system, listed_switch(0));
    give(system, bare_one(PVSIZE_ISOLATOR_PLACE_AT_ARRAY));
    give(system, inside);
    fill(system);
    ck_assert_int_eq(rows(item), 3);
    comes_to(item, 0, 0, 0); /* the built-in ones serve, the listed one is in the inverter */
    is_for(item, 0, 1, "input 2 of inverter 1", 0, PVSIZE_QUANTITY_INPUT_ISOLATED);
    is_for(item, 0, 2, "isolator 3", 0, PVSIZE_ISOLATOR_PLACE);
    comes_to(item, 1, 1, 1);
    is_for(item, 1, 0, "isolator 1", 1, PVSIZE_ISOLATOR_PLACE);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_PLACE) == PVSIZE_ISOLATOR_PLACE_AT_ARRAY);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_VOLTAGE) == 1000);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_RATING) == 32);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_AMBIENT) == 60);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_HOT_RATING) == 25);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_HOT_AMBIENT) == 70);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_POLES) == 4);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_CATEGORY) == PVSIZE_UTILISATION_DC_PV2);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_LOCKABLE) == PVSIZE_ANSWER_YES);
    ck_assert_int_eq(attributes_of(item, 1), 13); /* asked for, not given: all poles, polarity */
    comes_to(item, 2, 1, 1);
    NEAR(attribute(item, 2, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST), array_1_voltage, 1e-12);
    NEAR(attribute(item, 2, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST), array_1_current, 1e-12);
    NEAR(attribute(item, 2, PVSIZE_ATTRIBUTE_CONDUCTOR_VOLTAGE_AT_LEAST), array_1_voltage, 1e-12);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_POLES) == 2);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_LOAD_BREAK) == PVSIZE_ANSWER_YES);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_CLASS_AT_LEAST) == 2);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_MEETS_STANDARD) == PVSIZE_ANSWER_YES);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_LOCKABLE) == PVSIZE_ANSWER_YES);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_BREAKS_ALL) == PVSIZE_ANSWER_YES);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_EITHER_POLARITY) == PVSIZE_ANSWER_YES);
    /* two strings in and out of the first, one of the second */
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 6, 7); /* 6.6 */
    is_for(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 0, "array 1", 4, PVSIZE_ISOLATOR_PLACE);
    is_for(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 1, "array 2", 2, PVSIZE_ISOLATOR_PLACE);
    done();
}
END_TEST

/* One beside the inverter for the first array, one at it and the same at the other: each
 * run pays for what it goes through, and no more. */
START_TEST(isolators_in_a_row)
{
    pvsize_spec *system = cabled_system(), *beside = listed_switch(0);

    OK(pvsize_spec_set_number(beside, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER,
                              diag));
    give(system, listed_switch(0));
    give(system, beside);
    give(system, listed_switch(1));
    fill(system);
    ck_assert_int_eq(rows(PVSIZE_ITEM_DC_ISOLATOR), 3); /* input 2 needs none */
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 1, 2, 2);
    is_for(PVSIZE_ITEM_DC_ISOLATOR, 1, 1, "isolator 3", 1, PVSIZE_ISOLATOR_PLACE);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 2, 1, 1);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 10, 11); /* 2 x 2 x 2 and 2 */
    ck_assert_int_eq(shares_of(PVSIZE_ITEM_CONNECTOR_PAIR, 2), 3);
    done();
}
END_TEST

/* NFPA 70:2017 690.15: an isolating device that does not break load serves up to 30 A;
 * what is asked of switches is not asked of it. On an open input one is bought, too. */
START_TEST(bare_isolators_and_open_inputs)
{
    pvsize_spec *system = cabled_system(), *bare = bare_one(PVSIZE_ISOLATOR_PLACE_AT_ARRAY);
    pvsize_spec *inverter = invented_inverter();
    pvsize_rules *rules = preset("nfpa_70_2017");
    int32_t item = PVSIZE_ITEM_DC_ISOLATOR;

    give(inverter, invented_input(1));
    OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    OK(pvsize_spec_set_number(bare, PVSIZE_ISOLATOR_LOAD_BREAK, PVSIZE_ANSWER_NO, diag));
    give(system, bare);
    give(system,
         SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER,
              PVSIZE_ISOLATOR_INPUT, 2, PVSIZE_ISOLATOR_VOLTAGE, 1000));
    fill_by(system, rules);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_LOAD_BREAK) == PVSIZE_ANSWER_NO);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_MEETS_STANDARD) == PVSIZE_ANSWER_YES);
    ck_assert_int_eq(attributes_of(item, 1), 6); /* place, voltage, current, poles, these */
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_VOLTAGE) == 1000);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_POLES) == -PVSIZE_ISOLATOR_POLES);
    is_for(item, 2, 0, "isolator 2", 1, PVSIZE_ISOLATOR_PLACE);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    done();
}
END_TEST

START_TEST(an_isolator_without_a_place)
{
    pvsize_spec *system = cabled_system();

    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_ARRAY, 1));
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_DC_ISOLATOR, 1), PVSIZE_ISOLATOR_PLACE);
    is_for(PVSIZE_ITEM_DC_ISOLATOR, 1, 0, "isolator 1", 0, PVSIZE_ISOLATOR_PLACE);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CONNECTOR_PAIR, 2), PVSIZE_ISOLATOR_PLACE);
    done();
}
END_TEST

/* A pair of connectors in each conductor of each run: 2 for one string, 4 for two. */
START_TEST(disconnection_points)
{
    pvsize_spec *system = cabled_system();
    int32_t item = PVSIZE_ITEM_DISCONNECTION_POINT, measure;

    give(system, bare_one(PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE,
                      PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT, PVSIZE_ISOLATOR_INPUT, 0,
                      PVSIZE_ISOLATOR_VOLTAGE, 1500, PVSIZE_ISOLATOR_CURRENT, 30));
    fill(system);
    comes_to(item, 0, 2, 3); /* 2.2 */
    NEAR(attribute(item, 0, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST), array_1_voltage, 1e-12);
    NEAR(attribute(item, 0, PVSIZE_ATTRIBUTE_CURRENT_AT_LEAST), array_1_current, 1e-12);
    is_for(item, 0, 0, "isolator 1", 2, PVSIZE_ISOLATOR_PLACE);
    comes_to(item, 1, 4, 5); /* 4.4 */
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_VOLTAGE) == 1500);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_RATING) == 30);
    OK(pvsize_bill_row(bill, row_of(item, 0), NULL, &measure, NULL, NULL, diag));
    ck_assert_int_eq(measure, PVSIZE_MEASURE_PAIRS);
    ck_assert_int_eq(rows(PVSIZE_ITEM_CONNECTOR_PAIR), 2); /* none at devices */
    done();
}
END_TEST

/* Strings that plug straight in are parted at their own leads; those behind a combiner
 * are not. */
START_TEST(disconnection_points_that_are_there)
{
    pvsize_spec *system = invented_system(), *inverter = invented_inverter();

    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 0));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 1, 4, 0));
    give(system, cable_of(PVSIZE_CIRCUIT_ARRAY, 1, 10, 30));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE,
                      PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT, PVSIZE_ISOLATOR_ARRAY, 0));
    give(system, bare_one(PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT));
    give(inverter, invented_input(1)); /* and nothing on it */
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE,
                      PVSIZE_ISOLATOR_PLACE_DISCONNECTION_POINT, PVSIZE_ISOLATOR_INPUT, 2));
    fill(system);
    comes_to(PVSIZE_ITEM_DISCONNECTION_POINT, 0, 0, 0);
    is_for(PVSIZE_ITEM_DISCONNECTION_POINT, 0, 0, "isolator 1", 0, PVSIZE_CABLE_LENGTH);
    is_for(PVSIZE_ITEM_DISCONNECTION_POINT, 0, 1, "isolator 3", 0, PVSIZE_ISOLATOR_INPUT);
    comes_to(PVSIZE_ITEM_DISCONNECTION_POINT, 1, 2, 3);
    done();
}
END_TEST

/* devices of whole arrays */

/* Three arrays of 2 strings on one input. Each makes 27.8 A: more than 34.75 A and up to
 * 66.72 A, 40 A is the first of the usual gPV ratings (AS/NZS 5033:2021: more than two
 * sub-arrays on one input). Six strings are fused at 25 A, as in the six inputs. */
static pvsize_spec *joined_arrays(int32_t arrays)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 60000,
                                 PVSIZE_INVERTER_MAX_AC_CURRENT, 92, PVSIZE_INVERTER_PHASES, 3);

    give(inverter, invented_input(6));
    give(system, invented_site());
    give(system, inverter);
    for (int32_t i = 0; i < arrays; i++)
        give(system, invented_array(0, -1, 12, 2));
    return system;
}

START_TEST(fuses_of_whole_arrays)
{
    pvsize_spec *system = joined_arrays(3);
    int32_t item = PVSIZE_ITEM_ARRAY_FUSE, holder = PVSIZE_ITEM_FUSE_HOLDER;

    OK(pvsize_spec_set_part_number(system, 2, PVSIZE_ARRAY_ARRAY_DEVICE, 50, diag));
    OK(pvsize_spec_set_part_number(system, 2, PVSIZE_ARRAY_ARRAY_DEVICE_VOLTAGE, 1000, diag));
    fill(system);
    comes_to(item, 0, 4, 5); /* two arrays, two poles; 4.4 */
    ck_assert(attribute(item, 0, PVSIZE_ATTRIBUTE_RATING) == 40);
    NEAR(attribute(item, 0, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST), 38.8 * 1.07 * 12, 1e-12);
    is_for(item, 0, 1, "array 2", 2, PVSIZE_QUANTITY_ARRAY_DEVICE_NEEDED);
    comes_to(item, 1, 2, 3);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_RATING) == 50);
    ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_VOLTAGE) == 1000);
    is_for(item, 1, 0, "array 3", 2, PVSIZE_ARRAY_ARRAY_DEVICE);
    ck_assert_int_eq(rows(holder), 3);
    comes_to(holder, 0, 12, 12);
    ck_assert(attribute(holder, 0, PVSIZE_ATTRIBUTE_RATING) == 25);
    comes_to(holder, 1, 4, 4);
    comes_to(holder, 2, 2, 2);
    done();
}
END_TEST

START_TEST(arrays_without_fuses)
{
    pvsize_spec *system = joined_arrays(3), *unknown = invented_array(0, -1, 12, 2);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    int32_t item = PVSIZE_ITEM_ARRAY_FUSE;

    fill(joined_arrays(2));
    comes_to(item, 0, 0, 0); /* two join without */
    is_for(item, 0, 1, "array 2", 0, PVSIZE_QUANTITY_ARRAY_DEVICE_NEEDED);
    ck_assert_int_eq(rows(PVSIZE_ITEM_FUSE_HOLDER), 1);
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ARRAY_DEVICE, PVSIZE_SEVERITY_NOTE, diag));
    fill_by(system, rules);
    comes_to(item, 0, 0, 0);
    is_for(item, 0, 2, "array 3", 0, PVSIZE_RULE_ARRAY_DEVICE);
    pvsize_rules_free(rules);
    rules = preset("nfpa_70_2020"); /* does not say when one is needed */
    fill_by(system, rules);
    comes_to(item, 0, 0, 0);
    /* 1.25 x 24 x 13.9 A = 417 A: the series ends at 400 A */
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 24, diag));
    OK(pvsize_spec_unset(unknown, PVSIZE_ARRAY_STRINGS, diag));
    OK(pvsize_spec_replace(system, 1, unknown, diag));
    pvsize_spec_free(unknown);
    fill(system);
    ck_assert_int_eq(missing_of(item, 0), PVSIZE_ARRAY_ARRAY_DEVICE);
    ck_assert_int_eq(missing_of(item, 1), PVSIZE_ARRAY_STRINGS);
    ck_assert(attribute(item, 2, PVSIZE_ATTRIBUTE_RATING) == 40);
    pvsize_rules_free(rules);
    done();
}
END_TEST

/* A module without a rating to judge by: the design has the last word, if it has one. */
START_TEST(fuses_of_a_module_without_a_rating)
{
    for (int none = 0; none < 2; none++) {
        pvsize_spec *system = invented_system(), *array, *module;

        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
        OK(pvsize_spec_set_none(module, PVSIZE_MODULE_MAX_SERIES_FUSE, diag));
        OK(pvsize_spec_replace(array, 0, module, diag));
        if (none)
            OK(pvsize_spec_set_none(array, PVSIZE_ARRAY_STRING_DEVICE, diag));
        OK(pvsize_spec_replace(system, 0, array, diag));
        pvsize_spec_free(module);
        pvsize_spec_free(array);
        fill(system);
        if (none)
            comes_to(PVSIZE_ITEM_STRING_FUSE, 0, 0, 0);
        else
            ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING_FUSE, 0), PVSIZE_ARRAY_STRING_DEVICE);
        done();
    }
}
END_TEST

/* what cannot be told */

START_TEST(missing_data)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *array, *inverter;
    double value;

    give(system, SPEC(PVSIZE_KIND_SITE, 0));
    inverter = SPEC(PVSIZE_KIND_INVERTER, 0);
    give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
    give(system, inverter);
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0);
    give(array, SPEC(PVSIZE_KIND_MODULE, 0));
    OK(pvsize_spec_add(system, array, NULL, diag));
    OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_STRINGS, 3, diag));
    give(system, array);
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING, PVSIZE_CABLE_ARRAY, 1,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_AWG, PVSIZE_CABLE_LENGTH, 10));
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_MODULE, 0), PVSIZE_ARRAY_MODULES_PER_STRING);
    FAILS(PVSIZE_E_NOT_SET, "array.modules_per_string",
          pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_MODULE, 0), NULL, &value, NULL, diag));
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING, 0), PVSIZE_ARRAY_STRINGS);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING, 1), PVSIZE_ARRAY_MODULES_PER_STRING);
    OK(pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_STRING, 1), NULL, &value, NULL, diag));
    ck_assert(value == 3); /* the count is told, the length is not */
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_INVERTER, 0), PVSIZE_INVERTER_RATED_AC_POWER);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CONNECTOR_PAIR, 0), PVSIZE_ARRAY_STRINGS);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 1, 3, 4);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING_FUSE, 0), PVSIZE_ARRAY_STRINGS);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_DC_ISOLATOR, 0), PVSIZE_INPUT_ISOLATOR);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 0), PVSIZE_CABLE_GAUGE);
    OK(pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_CABLE, 0), &value, NULL, NULL, diag));
    ck_assert(value == 60);
    ck_assert(attribute(PVSIZE_ITEM_CABLE, 0, PVSIZE_ATTRIBUTE_INSULATION_TEMP) ==
              -PVSIZE_CABLE_LAYING);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 1), PVSIZE_CABLE_LENGTH);
    ck_assert_int_ne(missing_of(PVSIZE_ITEM_AC_BREAKER, 0), 0);
    ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_POLES) ==
              -PVSIZE_INVERTER_PHASES);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CURRENT_SENSOR, 0), PVSIZE_SITE_EXPORT_LIMIT);
    done();
}
END_TEST

/* Where nothing standard fits, the device is to be chosen by hand, and the row says so. */
START_TEST(no_standard_rating)
{
    pvsize_spec *system = six_inputs(), *array = invented_array(0, -1, 12, 4), *module;

    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, 20, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING_FUSE, 0), PVSIZE_ARRAY_STRING_DEVICE);
    comes_to(PVSIZE_ITEM_STRING_FUSE, 1, 40, 44);
    ck_assert_int_eq(rows(PVSIZE_ITEM_MODULE), 2);
    pvsize_spec_free(module);
    pvsize_spec_free(array);
    done();
}
END_TEST

/* allowances */

START_TEST(allowances_are_figures)
{
    pvsize_spec *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    int32_t count, term, subject, allowance;
    double value;
    char text[300];

    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 20));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_CONNECTOR_SPARE, 0, "own", diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_CABLE_WASTE, 100, "reel ends", diag));
    fill_by(system, rules);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 0, 3, 3);
    comes_to(PVSIZE_ITEM_CABLE, 0, 80, 160);
    OK(pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_CABLE, 0), NULL, NULL, &allowance, diag));
    ck_assert_int_eq(allowance, PVSIZE_FIGURE_CABLE_WASTE);
    OK(pvsize_bill_assumption_count(bill, &count, diag));
    ck_assert_int_eq(count, 3); /* no fuse, no device with connectors */
    OK(pvsize_bill_assumption(bill, 1, &term, &value, &subject, diag));
    ck_assert_int_eq(term, PVSIZE_FIGURE_CABLE_WASTE);
    ck_assert(value == 100 && subject == -1);
    OK(pvsize_bill_assumption_text(bill, 1, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "cable that is cut to waste, in percent of what is laid: 100 %; reel "
                           "ends (given by the caller)");
    OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_CABLE_WASTE, diag));
    OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_AC_BREAKER_NEUTRAL, diag));
    fill_by(system, rules);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 0), PVSIZE_FIGURE_CABLE_WASTE);
    OK(pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_CABLE, 0), &value, NULL, NULL, diag));
    ck_assert(value == 80);
    FAILS(PVSIZE_E_NOT_SET, "figure.cable_waste",
          pvsize_bill_quantity(bill, row_of(PVSIZE_ITEM_CABLE, 0), NULL, &value, NULL, diag));
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_AC_BREAKER, 0), PVSIZE_FIGURE_AC_BREAKER_NEUTRAL);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* Spares are whole: 30 pairs and 10 % are 33, not 34 by the rounding of 1.1 x 30. */
START_TEST(spares_round_up_but_not_rounding_errors)
{
    for (int32_t strings = 1; strings <= 400; strings++) {
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);

        give(system, invented_site());
        give(system, invented_inverter());
        give(system, invented_array(0, -1, 2, strings));
        fill(system);
        comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 0, strings, (strings * 11 + 9) / 10);
    }
    done();
}
END_TEST

/* Two systems on one site together come to the sum, but for the rounding of spares. */
START_TEST(bills_add_up)
{
    double one, both;

    for (int32_t strings = 1; strings < 9; strings++) {
        pvsize_spec *single = SPEC(PVSIZE_KIND_SYSTEM, 0), *pair = SPEC(PVSIZE_KIND_SYSTEM, 0);

        for (int32_t i = 0; i < 3; i++) {
            pvsize_spec *system = i ? pair : single, *array = invented_array(0, -1, 12, strings);

            if (i < 2)
                give(system, invented_site());
            give(system, invented_inverter());
            OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_INVERTER, i / 2, diag));
            give(system, array);
            give(system, cable_of(PVSIZE_CIRCUIT_STRING, i / 2, 6, 17));
            give(system, cable_of(PVSIZE_CIRCUIT_AC, i / 2, 10, 9));
        }
        fill(single);
        for (int32_t pass = 0; pass < 2; pass++) {
            static double of_one[40];
            int32_t count;

            OK(pvsize_bill_count(bill, &count, diag));
            ck_assert_int_lt(count, 40);
            for (int32_t i = 0; i < count; i++) {
                int32_t item;

                OK(pvsize_bill_row(bill, i, &item, NULL, NULL, NULL, diag));
                OK(pvsize_bill_quantity(bill, i, &one, &both, NULL, diag));
                if (pass == 0)
                    of_one[i] = both;
                else if (item == PVSIZE_ITEM_EXPORT_METER)
                    ck_assert(both == 1); /* the site's, not the inverter's */
                else
                    ck_assert(both <= 2 * of_one[i] + 1e-9 && both > 2 * of_one[i] - 2);
            }
            if (pass == 0)
                fill(pair);
        }
    }
    done();
}
END_TEST

/* as an object */

static char *bill_text(int32_t format)
{
    size_t length;
    char *text;

    OK(pvsize_bill_render(bill, format, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_bill_render(bill, format, text, length + 1, NULL, diag));
    return text;
}

START_TEST(texts)
{
    pvsize_spec *system = invented_system();
    char line[400], *text;

    OK(pvsize_spec_set_text(system, PVSIZE_SYSTEM_NAME, "job | one", diag));
    fill(system); /* the system and the rules are gone now */
    OK(pvsize_bill_text(bill, 0, line, sizeof line, NULL, diag));
    ck_assert_str_eq(line, "26: PV modules, module type 1, rated power 430 W; for array 1 18, "
                           "array 2 8; by quantity.array_modules");
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_CONNECTOR_PAIR, 1), line, sizeof line, NULL,
                        diag));
    ck_assert_str_eq(line, "4 pairs (3 and 10 % more): d.c. connectors, plug and socket for "
                           "cables, to mate with inverter 1; for array 1 2, array 2 1; by "
                           "array.strings");
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_CABLE, 1), line, sizeof line, NULL, diag));
    ck_assert_str_eq(line, "not known: needs cable.length: cable, metres of single conductor, "
                           "circuit ac; for inverter 1; by cable");
    text = bill_text(PVSIZE_FORMAT_PLAIN);
    ck_assert_ptr_nonnull(strstr(text, "What must be bought: job | one\nRule set: AS/NZS 5033"));
    ck_assert_ptr_nonnull(strstr(text, "CAUTION"));
    ck_assert_ptr_nonnull(strstr(text, "licensed person"));
    ck_assert_ptr_nonnull(strstr(text, "\n== not known yet\n   not known: needs cable.length"));
    ck_assert_ptr_nonnull(strstr(text, "\n== none\n   none: string fuses"));
    ck_assert_ptr_nonnull(strstr(text, "10 %; common practice"));
    free(text);
    text = bill_text(PVSIZE_FORMAT_MARKDOWN);
    ck_assert_ptr_nonnull(strstr(text, "# What must be bought: job \\| one"));
    ck_assert_ptr_nonnull(strstr(text, "> CAUTION"));
    ck_assert_ptr_nonnull(strstr(text, "| 26 | PV modules, module type 1, rated power 430 W | "
                                       "array 1 18, array 2 8; by quantity.array_modules |"));
    free(text);
    done();
}
END_TEST

START_TEST(subjects_are_those_of_the_report)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t number, kind, index, type, outcome, of_report;

    fill(system);
    OK(pvsize_bill_share(bill, row_of(PVSIZE_ITEM_DC_ISOLATOR, 0), 1, &number, NULL, NULL, diag));
    OK(pvsize_report_subject(report, number, &kind, &index, NULL, diag));
    ck_assert(kind == PVSIZE_KIND_INPUT && index == 1);
    OK(pvsize_bill_row(bill, 0, NULL, NULL, &type, NULL, diag));
    OK(pvsize_report_subject(report, type, &kind, &index, NULL, diag));
    ck_assert(kind == PVSIZE_KIND_MODULE && index == 0);
    OK(pvsize_bill_outcome(bill, &outcome, diag));
    OK(pvsize_report_outcome(report, &of_report, diag));
    ck_assert_int_eq(outcome, of_report);
    pvsize_report_free(report);
    done();
}
END_TEST

START_TEST(wrong_input)
{
    pvsize_spec *system = invented_system(), *module = invented_module();
    pvsize_spec *empty = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    char small[5];
    int32_t count;

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_bill_new(NULL, NULL, diag));
    OK(pvsize_bill_new(NULL, &bill, diag));
    OK(pvsize_bill_count(bill, &count, diag));
    ck_assert_int_eq(count, 0);
    FAILS(PVSIZE_E_NOT_SET, "no value", pvsize_bill_outcome(bill, &count, diag));
    FAILS(PVSIZE_E_NOT_SET, "no value",
          pvsize_bill_render(bill, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "no value", pvsize_bill_subject_text(bill, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 0", pvsize_bill_text(bill, 0, NULL, 0, NULL, diag));
    fill_by(system, rules);
    FAILS(PVSIZE_E_WRONG_KIND, "a system", pvsize_bill_fill(module, rules, bill, diag));
    FAILS(PVSIZE_E_MISSING_PART, "site", pvsize_bill_fill(empty, rules, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "system", pvsize_bill_fill(NULL, rules, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules", pvsize_bill_fill(system, NULL, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_fill(system, rules, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "system", pvsize_bill_fill((void *)rules, rules, bill, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "rules", pvsize_bill_fill(system, (void *)system, bill, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "bill", pvsize_bill_fill(system, rules, (void *)rules, diag));
    comes_to(PVSIZE_ITEM_MODULE, 0, 26, 26); /* none of these changed it */
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_bill_count(bill, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "outcome", pvsize_bill_outcome(bill, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_row(bill, -1, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k: index outside the list; given 2; allowed 0 to 1",
          pvsize_bill_share(bill, 0, 2, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k: index outside",
          pvsize_bill_attribute(bill, 0, 1, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 99", pvsize_bill_assumption(bill, 99, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject", pvsize_bill_subject_text(bill, 99, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_subject_text(NULL, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_bill_render(bill, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format", pvsize_bill_render(bill, 9, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_CAPACITY, "too small",
          pvsize_bill_text(bill, 0, small, sizeof small, NULL, diag));
    ck_assert_str_eq(small, "26: ");
    FAILS(PVSIZE_E_WRONG_KIND, "number to compare",
          pvsize_rules_add(rules, "own", "own", PVSIZE_ATTRIBUTE_POWER, PVSIZE_COMPARE_AT_MOST, 0,
                           1, PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    pvsize_bill_free(NULL);
    pvsize_bill_free((void *)rules); /* not one: left alone */
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    pvsize_spec_free(empty);
    done();
}
END_TEST

START_TEST(failing_memory_keeps_the_bill)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *small = invented_system(), *large = six_inputs();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_status status = PVSIZE_E_NO_MEMORY;
    char *before, *after;
    long tried;

    c.fail_at = 0;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_bill_new(&memory, &bill, diag));
    ck_assert_ptr_null(bill);
    c.fail_at = -1;
    OK(pvsize_bill_new(&memory, &bill, diag));
    OK(pvsize_bill_fill(small, rules, bill, diag));
    before = bill_text(PVSIZE_FORMAT_PLAIN);
    for (tried = 0; status == PVSIZE_E_NO_MEMORY; tried++) {
        c.fail_at = c.made + tried;
        status = pvsize_bill_fill(large, rules, bill, NULL);
        after = bill_text(PVSIZE_FORMAT_PLAIN);
        ck_assert_int_eq(strcmp(before, after) == 0, status != PVSIZE_OK);
        free(after);
    }
    ck_assert_int_eq(status, PVSIZE_OK);
    ck_assert_int_gt(tried, 8);
    free(before);
    done();
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(small);
    pvsize_spec_free(large);
}
END_TEST

/* What is not asked for need not be there, and a row that is not there says so by its place. */
START_TEST(a_bill_is_asked_in_part)
{
    int32_t count, term, subject, why;
    double value;

    fill(cabled_system());
    OK(pvsize_bill_attribute(bill, 0, 0, NULL, NULL, NULL, diag));
    OK(pvsize_bill_attribute(bill, 0, 0, &term, &value, NULL, diag));
    ck_assert(term == PVSIZE_ATTRIBUTE_POWER && value == 430);
    OK(pvsize_bill_share(bill, 0, 1, NULL, NULL, &why, diag));
    OK(pvsize_bill_share(bill, 0, 1, NULL, &value, NULL, diag));
    ck_assert(why == PVSIZE_QUANTITY_ARRAY_MODULES && value == 8);
    OK(pvsize_bill_assumption(bill, 0, NULL, &value, NULL, diag));
    OK(pvsize_bill_assumption(bill, 0, &term, NULL, &subject, diag));
    ck_assert(term == PVSIZE_FIGURE_CONNECTOR_SPARE && value == 10 && subject == -1);
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_attribute_count(bill, 99, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside", pvsize_bill_share_count(bill, -1, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_attribute(bill, 99, 0, &term, &value, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_share(bill, 99, 0, &subject, &value, &why, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_row(NULL, 0, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_assumption(NULL, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_bill_share_count(bill, 0, NULL, diag));
    done();
}
END_TEST

/* 0 % more is no more, and is not told as such. */
START_TEST(an_allowance_of_nothing_is_not_told)
{
    pvsize_spec *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    char line[400];

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_CONNECTOR_SPARE, 0, "own", diag));
    fill_by(system, rules);
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_CONNECTOR_PAIR, 1), line, sizeof line, NULL,
                        diag));
    ck_assert_msg(strncmp(line, "3 pairs: d.c. connectors", 24) == 0, "%s", line);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* As many things are told of either, but not the same: of one what it can, of the other what
 * it must, though the number were the same. */
START_TEST(what_it_can_is_not_what_it_must)
{
    pvsize_spec *system = cabled_system(), *one = bare_one(PVSIZE_ISOLATOR_PLACE_AT_ARRAY);

    OK(pvsize_spec_set_number(one, PVSIZE_ISOLATOR_VOLTAGE, array_1_voltage, diag));
    give(system, one);
    give(system, bare_one(PVSIZE_ISOLATOR_PLACE_AT_ARRAY));
    fill(system);
    ck_assert_int_eq(attributes_of(PVSIZE_ITEM_DC_ISOLATOR, 1),
                     attributes_of(PVSIZE_ITEM_DC_ISOLATOR, 2));
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 1, 1, 1);
    comes_to(PVSIZE_ITEM_DC_ISOLATOR, 2, 1, 1);
    NEAR(attribute(PVSIZE_ITEM_DC_ISOLATOR, 1, PVSIZE_ATTRIBUTE_VOLTAGE), array_1_voltage, 1e-12);
    NEAR(attribute(PVSIZE_ITEM_DC_ISOLATOR, 2, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST), array_1_voltage,
         1e-12);
    done();
}
END_TEST

/* The class is asked for by the strings on the input: where the rule set has the figure for
 * neither, of none; where not for so many, the figure is what is missing. */
START_TEST(a_class_that_the_rule_set_lacks)
{
    int32_t item = PVSIZE_ITEM_DC_ISOLATOR;

    for (int32_t lacks = 0; lacks < 4; lacks++) {
        pvsize_spec *system = cabled_system();
        pvsize_rules *rules = preset("asnzs_5033_2021");
        int32_t term;
        bool asked = false;

        if (lacks & 1)
            OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_ISOLATOR_CLASS, diag));
        if (lacks & 2)
            OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_ISOLATOR_CLASS_PARALLEL, diag));
        give(system, bare_one(PVSIZE_ISOLATOR_PLACE_AT_ARRAY));
        fill_by(system, rules);
        for (int32_t k = 0; k < attributes_of(item, 1); k++) {
            OK(pvsize_bill_attribute(bill, row_of(item, 1), k, &term, NULL, NULL, diag));
            asked = asked || term == PVSIZE_ATTRIBUTE_CLASS_AT_LEAST;
        }
        ck_assert_int_eq(asked, lacks != 3);
        if (lacks != 3) /* array 2 is one string */
            ck_assert(attribute(item, 1, PVSIZE_ATTRIBUTE_CLASS_AT_LEAST) ==
                      (lacks & 1 ? -PVSIZE_FIGURE_ISOLATOR_CLASS : 2));
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
    done();
}
END_TEST

/* What may go out is not known without the inverter's power, so nor are the sensors. */
START_TEST(sensors_need_the_power)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site = invented_site();
    pvsize_spec *inverter = invented_inverter();

    OK(pvsize_spec_set_number(site, PVSIZE_SITE_EXPORT_CONTROL, PVSIZE_EXPORT_CONTROL_NONE, diag));
    OK(pvsize_spec_unset(inverter, PVSIZE_INVERTER_RATED_AC_POWER, diag));
    give(system, site);
    give(system, inverter);
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CURRENT_SENSOR, 0), PVSIZE_INVERTER_RATED_AC_POWER);
    is_for(PVSIZE_ITEM_CURRENT_SENSOR, 0, 0, "site", 0, PVSIZE_RULE_EXPORT);
    done();
}
END_TEST

/* Pairs at a combiner: one in for each string. How many go in is not known. */
START_TEST(a_combiner_of_unknown_strings)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *array = invented_array(0, -1, 9, 1);

    OK(pvsize_spec_unset(array, PVSIZE_ARRAY_STRINGS, diag));
    give(system, invented_site());
    give(system, invented_inverter());
    give(system, array);
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 6));
    give(system, cable_of(PVSIZE_CIRCUIT_ARRAY, 0, 10, 30));
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CONNECTOR_PAIR, 0), PVSIZE_ARRAY_STRINGS);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 1, 1, 2); /* one run goes on, whatever comes in */
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_CONNECTOR_PAIR, 2), PVSIZE_ARRAY_STRINGS);
    is_for(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 0, "array 1", 0, PVSIZE_CABLE_CIRCUIT);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_COMBINER, 0), PVSIZE_ARRAY_STRINGS);
    is_for(PVSIZE_ITEM_COMBINER, 0, 0, "array 1", 1, PVSIZE_CABLE_CIRCUIT);
    done();
}
END_TEST

/* More pieces than are rounded one by one: 2600 switches in a row, each with 10 pairs in and 10
 * out of 10000 runs, and as many spares. */
START_TEST(more_pieces_than_are_counted_one_by_one)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *one = listed_switch(0);
    pvsize_rules *rules = preset("asnzs_5033_2021");

    give(system, invented_site());
    give(system, invented_inverter());
    give(system, invented_array(0, -1, 9, 10000));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 20));
    for (int i = 0; i < 2600; i++)
        OK(pvsize_spec_add(system, one, NULL, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_CONNECTORS_AT_DEVICE, 10, "own", diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_CONNECTOR_SPARE, 100, "own", diag));
    fill_by(system, rules);
    comes_to(PVSIZE_ITEM_CONNECTOR_PAIR, 2, 520e6, 1040e6);
    pvsize_rules_free(rules);
    pvsize_spec_free(one);
    pvsize_spec_free(system);
    done();
}
END_TEST

/* An a.c. cable has a conductor for each phase, neutral and earth: none is counted where the
 * phases are not known. 200 A are beyond the breakers of a usual series, which ends at 125 A in
 * IEC 60898 as it is known here. */
START_TEST(a_circuit_of_unknown_phases_and_a_large_one)
{
    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *inverter = invented_inverter();

        OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_MAX_AC_CURRENT, 200, diag));
        if (i == 0)
            OK(pvsize_spec_unset(inverter, PVSIZE_INVERTER_PHASES, diag));
        give(system, invented_site());
        give(system, inverter);
        give(system, cable_of(PVSIZE_CIRCUIT_AC, 0, 6, 10));
        fill(system);
        if (i == 0)
            ck_assert_int_eq(missing_of(PVSIZE_ITEM_CABLE, 0), PVSIZE_INVERTER_PHASES);
        else
            comes_to(PVSIZE_ITEM_CABLE, 0, 30, 33);
        ck_assert(attribute(PVSIZE_ITEM_AC_BREAKER, 0, PVSIZE_ATTRIBUTE_RATING) ==
                  -PVSIZE_QUANTITY_AC_DEVICE_RATING);
        is_for(PVSIZE_ITEM_AC_BREAKER, 0, 0, "inverter 1", 1, PVSIZE_QUANTITY_AC_DEVICE_RATING);
    }
    done();
}
END_TEST

/* Fuses of a known rating for strings that nobody counted. */
START_TEST(fuses_for_unknown_strings)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *array = invented_array(0, -1, 9, 1);

    OK(pvsize_spec_unset(array, PVSIZE_ARRAY_STRINGS, diag));
    OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_STRING_DEVICE, 20, diag));
    give(system, invented_site());
    give(system, invented_inverter());
    give(system, array);
    fill(system);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_STRING_FUSE, 0), PVSIZE_ARRAY_STRINGS);
    ck_assert(attribute(PVSIZE_ITEM_STRING_FUSE, 0, PVSIZE_ATTRIBUTE_RATING) == 20);
    ck_assert_int_eq(missing_of(PVSIZE_ITEM_FUSE_HOLDER, 0), PVSIZE_ARRAY_STRINGS);
    done();
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "two unlike inputs", two_unlike_inputs);
    add_test(suite, "micro-inverters", micro_inverters);
    add_test(suite, "types of inverters", types_of_inverters);
    add_test(suite, "six inputs", six_inputs_with_fuses);
    add_test(suite, "fuses as designed", fuses_as_designed);
    add_test(suite, "combiner and isolator", combiner_and_isolator);
    add_test(suite, "isolators at the array", isolators_at_the_array);
    add_test(suite, "isolators in a row", isolators_in_a_row);
    add_test(suite, "bare isolators", bare_isolators_and_open_inputs);
    add_test(suite, "an isolator without a place", an_isolator_without_a_place);
    add_test(suite, "disconnection points", disconnection_points);
    add_test(suite, "disconnection points there", disconnection_points_that_are_there);
    add_test(suite, "fuses of arrays", fuses_of_whole_arrays);
    add_test(suite, "arrays without fuses", arrays_without_fuses);
    add_test(suite, "export control", export_control);
    add_test(suite, "no module rating", fuses_of_a_module_without_a_rating);
    add_test(suite, "missing data", missing_data);
    add_test(suite, "no standard rating", no_standard_rating);
    add_test(suite, "allowances", allowances_are_figures);
    add_test(suite, "spares", spares_round_up_but_not_rounding_errors);
    add_test(suite, "bills add up", bills_add_up);
    add_test(suite, "texts", texts);
    add_test(suite, "subjects", subjects_are_those_of_the_report);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "failing memory", failing_memory_keeps_the_bill);
    add_test(suite, "asked in part", a_bill_is_asked_in_part);
    add_test(suite, "no allowance", an_allowance_of_nothing_is_not_told);
    add_test(suite, "can and must", what_it_can_is_not_what_it_must);
    add_test(suite, "a class that lacks", a_class_that_the_rule_set_lacks);
    add_test(suite, "sensors need the power", sensors_need_the_power);
    add_test(suite, "unknown strings", a_combiner_of_unknown_strings);
    add_test(suite, "many pieces", more_pieces_than_are_counted_one_by_one);
    add_test(suite, "unknown phases", a_circuit_of_unknown_phases_and_a_large_one);
    add_test(suite, "fuses for unknown strings", fuses_for_unknown_strings);
}

int main(void)
{
    return run_cases("bill", add);
}
