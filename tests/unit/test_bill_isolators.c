/* What parts the direct current, on a bill; common practice where no other source is named
 * beside the check. */
#include "../support/pv_bill.h"

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

static void add(Suite *suite)
{
    add_test(suite, "isolators at the array", isolators_at_the_array);
    add_test(suite, "isolators in a row", isolators_in_a_row);
    add_test(suite, "bare isolators", bare_isolators_and_open_inputs);
    add_test(suite, "an isolator without a place", an_isolator_without_a_place);
    add_test(suite, "disconnection points", disconnection_points);
    add_test(suite, "disconnection points there", disconnection_points_that_are_there);
    add_test(suite, "can and must", what_it_can_is_not_what_it_must);
    add_test(suite, "a class that lacks", a_class_that_the_rule_set_lacks);
}

int main(void)
{
    return run_cases("bill_isolators", add);
}
