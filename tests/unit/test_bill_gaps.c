/* What a bill cannot tell, and says so. */
#include "../support/pv_bill.h"

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

static void add(Suite *suite)
{
    add_test(suite, "missing data", missing_data);
    add_test(suite, "sensors need the power", sensors_need_the_power);
    add_test(suite, "unknown strings", a_combiner_of_unknown_strings);
    add_test(suite, "unknown phases", a_circuit_of_unknown_phases_and_a_large_one);
}

int main(void)
{
    return run_cases("bill_gaps", add);
}
