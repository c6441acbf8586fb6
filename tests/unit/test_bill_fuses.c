/* Fuses of strings and of whole arrays on a bill; common practice where no other source is named
 * beside the check. */
#include "../support/pv_bill.h"

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
    add_test(suite, "six inputs", six_inputs_with_fuses);
    add_test(suite, "fuses as designed", fuses_as_designed);
    add_test(suite, "fuses of arrays", fuses_of_whole_arrays);
    add_test(suite, "arrays without fuses", arrays_without_fuses);
    add_test(suite, "no module rating", fuses_of_a_module_without_a_rating);
    add_test(suite, "no standard rating", no_standard_rating);
    add_test(suite, "fuses for unknown strings", fuses_for_unknown_strings);
}

int main(void)
{
    return run_cases("bill_fuses", add);
}
