/* Bills of whole systems counted by hand; common practice where no other source is named beside
 * the check. */
#include "../support/pv_bill.h"

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

static void add(Suite *suite)
{
    add_test(suite, "two unlike inputs", two_unlike_inputs);
    add_test(suite, "micro-inverters", micro_inverters);
    add_test(suite, "types of inverters", types_of_inverters);
    add_test(suite, "combiner and isolator", combiner_and_isolator);
    add_test(suite, "export control", export_control);
    add_test(suite, "bills add up", bills_add_up);
}

int main(void)
{
    return run_cases("bill", add);
}
