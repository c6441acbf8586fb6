/* The search for stringings: the trade's figures, symmetry, order, whole systems as answers,
 * and arrays that stand already. That nothing better is missed is shown by test_search.c and
 * tests/oracle/test_stringings.py. */
#include "../support/pv_layout.h"

/* Common practice: 133 % of 7.5 kW is 9.975 kW, the maker's own maximum 9.98 kW; inputs
 * of 22/26.4 A with two pairs of terminals and 11/13.2 A with one. 9975 / 415 = 24.04:
 * 24 modules, which two equal strings and one of a length that keeps 600 V carry. */
START_TEST(the_trades_unlike_inputs)
{
    pvsize_spec *search = question(10.5, 16, 12, 1);
    pvsize_layouts *layouts = searched(search);
    double value, limit, margin;
    int32_t i;
    char text[300];

    ck_assert_int_gt(count_of(layouts), 0);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_POWER) == 24 * 415);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 24);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_STRINGS) == 3);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_OUTCOME) == PVSIZE_OUTCOME_HOLDS);
    /* the next larger step: one module more on the single input makes 25 */
    i = obstacle_of(layouts, PVSIZE_RULE_PV_RATIO, 1, 1);
    ck_assert_int_ge(i, 0);
    OK(pvsize_layouts_obstacle_numbers(layouts, i, &value, &limit, &margin, diag));
    ck_assert(value == 25 * 415);
    NEAR(limit, 9975, 1e-12);
    NEAR(margin, -400, 1e-12);
    OK(pvsize_layouts_obstacle_text(layouts, i, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "10375 W, at most 9975 W: missed by 400 W"));
    i = obstacle_of(layouts, PVSIZE_RULE_PV_MAKER, 1, 1);
    OK(pvsize_layouts_obstacle_numbers(layouts, i, NULL, &limit, NULL, diag));
    ck_assert(limit == 9980);
    /* one string more: 1.25 x 10.5 A each */
    i = obstacle_of(layouts, PVSIZE_RULE_ISC_INPUT, 0, 3);
    OK(pvsize_layouts_obstacle_numbers(layouts, i, &value, &limit, NULL, diag));
    NEAR(value, 39.375, 1e-12);
    ck_assert(limit == 26.4);
    i = obstacle_of(layouts, PVSIZE_RULE_ISC_INPUT, 1, 2);
    OK(pvsize_layouts_obstacle_numbers(layouts, i, &value, &limit, NULL, diag));
    NEAR(value, 26.25, 1e-12);
    ck_assert(limit == 13.2);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

/* Common practice: the largest module Isc is 10.56 A on both inputs. Above it one
 * string on the double input is all there is, of at most 11: 600 V / 52.9 V. */
START_TEST(the_trades_largest_isc)
{
    pvsize_spec *search = question(10.56, 16, 12, 1);
    pvsize_layouts *layouts = searched(search);

    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_STRINGS) == 3);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
    search = question(10.57, 16, 12, 1);
    layouts = searched(search);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_STRINGS) == 1);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 11);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

/* Two like inverters: what they exchange is no other answer. */
START_TEST(like_inverters_count_once)
{
    pvsize_spec *search = question(10.5, 5, 0, 2);
    pvsize_layouts *layouts;
    int32_t complete;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 5, diag));
    layouts = searched(search);
    ck_assert_int_eq(count_of(layouts), 2); /* on the double input, or on the single one */
    OK(pvsize_layouts_complete(layouts, &complete, diag));
    ck_assert_int_eq(complete, 1);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

/* Inputs A, B, A, and two inverters that are alike but for one input: of 415 W modules on the
 * double input (22 strings' worth of current) 2 strings, on a single one 1. */
START_TEST(like_inputs_that_stand_apart)
{
    pvsize_spec *search = question(10.5, 60, 60, 0), *system, *inverter = trade_inverter(), *cable;
    pvsize_layouts *layouts;
    pvsize_rules *rules = rules_of_inputs();
    int32_t arrays;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    give(inverter, trade_input(22, 26.4, 2));
    OK(pvsize_spec_add(system, inverter, NULL, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 2, diag));
    give(inverter, trade_input(11, 13.2, 1));
    OK(pvsize_spec_add(system, inverter, NULL, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    /* 5 + 4 strings of 11 modules, and rooms of 60 modules: five strings each at most */
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 99, 1e-12);
    OK(pvsize_layouts_array_count(layouts, 0, &arrays, diag));
    ck_assert_int_eq(arrays, 6);
    /* with two alike, one of which has a cable: the same, each told apart */
    OK(pvsize_spec_remove(system, PVSIZE_KIND_INVERTER, 1, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &cable, diag));
    give(system, cable);
    for (int32_t at = 1; at >= 0; at--) {
        cable = SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC,
                     PVSIZE_CABLE_INVERTER, at);
        if (at == 0)
            OK(pvsize_spec_remove(system, PVSIZE_KIND_CABLE, 0, diag));
        give(system, cable);
        OK(pvsize_spec_replace(search, 0, system, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 110, 1e-12);
    }
    FAILS(PVSIZE_E_TOO_MANY, "cables; a catalogue has none",
          pvsize_ranking_new(search, rules, 1, NULL, &(pvsize_ranking *){NULL}, diag));
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(answers_are_whole_systems)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system;
    pvsize_layouts *layouts = searched(search);
    pvsize_report *report;
    int32_t outcome, subject;
    double power;
    char text[300];

    pvsize_spec_free(search); /* answers outlive the question */
    OK(pvsize_report_new(NULL, &report, diag));
    for (int32_t i = 0; i < count_of(layouts); i++) {
        int32_t arrays, parts;

        OK(pvsize_layouts_system(layouts, i, NULL, &system, diag));
        OK(pvsize_layouts_array_count(layouts, i, &arrays, diag));
        OK(pvsize_spec_part_count(system, PVSIZE_KIND_ARRAY, &parts, diag));
        ck_assert_int_eq(arrays, parts);
        OK(pvsize_layouts_report(layouts, i, report, diag));
        OK(pvsize_report_outcome(report, &outcome, diag));
        ck_assert_int_eq(outcome, PVSIZE_OUTCOME_HOLDS);
        OK(pvsize_report_find(report, PVSIZE_KIND_SYSTEM, 0, -1, &subject, diag));
        OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_PV_POWER, subject, &power, diag));
        NEAR(power, number(layouts, i, PVSIZE_LAYOUT_POWER), 1e-12);
        pvsize_spec_free(system);
    }
    OK(pvsize_layouts_text(layouts, 0, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "9.96 kW, 24 modules: input 1: "));
    pvsize_report_free(report);
    pvsize_layouts_free(layouts);
}
END_TEST

START_TEST(the_same_question_gives_the_same_answers)
{
    pvsize_spec *search = question(10.5, 16, 12, 2);
    pvsize_layouts *first = searched(search), *second = searched(search);
    double bound;

    ck_assert_int_eq(count_of(first), count_of(second));
    for (int32_t i = 0; i < count_of(first); i++) {
        char a[500], b[500];

        OK(pvsize_layouts_text(first, i, a, sizeof a, NULL, diag));
        OK(pvsize_layouts_text(second, i, b, sizeof b, NULL, diag));
        ck_assert_str_eq(a, b);
    }
    OK(pvsize_layouts_bound(first, &bound, diag));
    ck_assert(bound == number(first, 0, PVSIZE_LAYOUT_POWER));
    pvsize_layouts_free(first);
    pvsize_layouts_free(second);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(planes_are_filled_in_order)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *site, *plane;
    pvsize_layouts *layouts;
    int32_t index, modules = 0, count;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    OK(pvsize_spec_part(site, PVSIZE_KIND_PLANE, 1, NULL, &plane, diag));
    OK(pvsize_spec_set_number(plane, PVSIZE_PLANE_FILL_ORDER, 1, diag));
    OK(pvsize_spec_replace(site, 1, plane, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_PLANE_ORDER, diag));
    layouts = searched(search);
    OK(pvsize_layouts_array_count(layouts, 0, &count, diag));
    for (index = 0; index < count; index++) {
        int32_t at, length, strings;

        OK(pvsize_layouts_array(layouts, 0, index, NULL, NULL, &at, NULL, &length, &strings, diag));
        modules += at == 1 ? length * strings : 0;
    }
    ck_assert_int_eq(modules, 12); /* all that the second plane has room for */
    FAILS(PVSIZE_E_NOT_SET, "", pvsize_layouts_bound(layouts, &(double){0}, diag));
    pvsize_layouts_free(layouts);
    pvsize_spec_free(plane);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

/* A plane of no room needs no yield; one module fewer on it than none cannot be had. */
START_TEST(a_plane_without_room_needs_no_yield)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *site;
    pvsize_layouts *layouts;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 0));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_ENERGY, diag));
    layouts = searched(search);
    /* 24 modules of 415 W: two strings of 8 on 1500 kWh/kW, one of 8 on 1300 */
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_ENERGY), 0.415 * (16 * 1500 + 8 * 1300), 1e-9);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

/* More modules in a fixed array than any roof has, or in more of them than 31 bits count: no
 * answer, and nothing overflows. */
static void search_beyond_all_room(int32_t arrays)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *array;
    pvsize_layouts *layouts;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0, PVSIZE_ARRAY_PLANE, 0,
                 PVSIZE_ARRAY_MODULES_PER_STRING, 10000, PVSIZE_ARRAY_STRINGS, 10000);
    give(array, trade_module(10.5));
    for (int32_t i = 0; i < arrays; i++)
        OK(pvsize_spec_add(system, array, NULL, diag));
    pvsize_spec_free(array);
    OK(pvsize_spec_replace(search, 0, system, diag));
    layouts = searched(search);
    ck_assert_int_eq(count_of(layouts), 0);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}

START_TEST(a_fixed_array_beyond_all_room)
{
    search_beyond_all_room(1);
    search_beyond_all_room(2300);
}
END_TEST

/* A fixed array whose module has no power given takes nothing of a limit on power. */
START_TEST(a_fixed_array_without_a_power)
{
    pvsize_spec *search = question(10.5, 40, 0, 1), *system, *array, *module = trade_module(10.5);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;

    OK(pvsize_spec_unset(module, PVSIZE_MODULE_PMAX, diag));
    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 1, PVSIZE_ARRAY_PLANE, 0,
                 PVSIZE_ARRAY_MODULES_PER_STRING, 4, PVSIZE_ARRAY_STRINGS, 1);
    give(array, module);
    give(system, array);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    add_must(rules, "little", PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0,
             5 * 415);
    layouts = answered(search, rules);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 4 + 5);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_OUTCOME) == PVSIZE_OUTCOME_INCOMPLETE);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* The fixed arrays alone, with the power wanted: there is no other stringing. */
START_TEST(all_fixed_is_all_there_is)
{
    pvsize_spec *search = question_of_fixed_arrays();
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t complete;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_NEAREST_POWER,
                              diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 1, diag));
    for (int32_t off = -1; off <= 1; off++) {
        double bound;

        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_POWER, 4150 + off, diag));
        layouts = answered(search, rules);
        ck_assert_int_eq(count_of(layouts), 1);
        OK(pvsize_layouts_complete(layouts, &complete, diag));
        ck_assert_int_eq(complete, 1);
        OK(pvsize_layouts_bound(layouts, &bound, diag));
        NEAR(bound, abs(off), 1e-12);
        pvsize_layouts_free(layouts);
    }
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "trade", the_trades_unlike_inputs);
    add_test(suite, "largest Isc", the_trades_largest_isc);
    add_test(suite, "symmetry", like_inverters_count_once);
    add_test(suite, "systems", answers_are_whole_systems);
    add_test(suite, "determinism", the_same_question_gives_the_same_answers);
    add_test(suite, "plane order", planes_are_filled_in_order);
    add_test(suite, "fixed beyond room", a_fixed_array_beyond_all_room);
    add_test(suite, "inputs apart", like_inputs_that_stand_apart);
    add_test(suite, "no room, no yield", a_plane_without_room_needs_no_yield);
    add_test(suite, "no power", a_fixed_array_without_a_power);
    add_test(suite, "complete", all_fixed_is_all_there_is);
}

int main(void)
{
    return run_cases("layout", add);
}
