/* Allowances on a bill: the rounding of spares and the doubling of cables can be followed with
 * pencil and paper. */
#include "../support/pv_bill.h"

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

static void add(Suite *suite)
{
    add_test(suite, "allowances", allowances_are_figures);
    add_test(suite, "spares", spares_round_up_but_not_rounding_errors);
    add_test(suite, "no allowance", an_allowance_of_nothing_is_not_told);
    add_test(suite, "many pieces", more_pieces_than_are_counted_one_by_one);
}

int main(void)
{
    return run_cases("bill_allowances", add);
}
