/* What stood in the way of a search: misses of an input, of the whole, and totals that cannot
 * be had. */
#include "../support/pv_layout.h"

/* 52.9125 V cold: 11 are 582.0 V, 12 are 634.95 V. */
START_TEST(a_miss_is_told_with_what_passes)
{
    pvsize_spec *search = question(10.5, 40, 0, 1);
    pvsize_layouts *layouts;
    int32_t rule = 0, length = 0, i, count, passes;
    double margin;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 12, diag));
    layouts = searched(search);
    ck_assert_int_eq(count_of(layouts), 0);
    OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
    ck_assert_int_gt(count, 0);
    i = obstacle_of(layouts, PVSIZE_RULE_VOC_COLD_INPUT, 0, 1);
    ck_assert_int_ge(i, 0);
    OK(pvsize_layouts_obstacle(layouts, i, &rule, NULL, NULL, NULL, NULL, NULL, &length, NULL,
                               &passes, diag));
    ck_assert_int_eq(length, 12);
    ck_assert_int_eq(passes, 0); /* the shortest allowed is too long */
    OK(pvsize_layouts_obstacle_numbers(layouts, i, NULL, NULL, &margin, diag));
    NEAR(margin, 600 - 12 * 49.8 * (1 + 0.0025 * 25), 1e-9);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(a_total_that_cannot_be_had)
{
    pvsize_spec *search = question(10.5, 11, 0, 1);
    pvsize_layouts *layouts;
    double value, limit;
    int32_t rule = -1, i, count;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 20, diag));
    layouts = searched(search);
    ck_assert_int_eq(count_of(layouts), 0);
    OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
    for (i = 0; rule != 0 && i < count; i++)
        OK(pvsize_layouts_obstacle(layouts, i, &rule, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                   NULL, diag));
    ck_assert_int_eq(rule, 0);
    OK(pvsize_layouts_obstacle_numbers(layouts, i - 1, &value, &limit, NULL, diag));
    ck_assert(value == 11 && limit == 20); /* the plane has room for 11 */
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

/* Of 52.9125 V cold each one module passes 60 V and two do not; five are wanted, on inputs of
 * three strings in all. */
START_TEST(one_module_passes)
{
    pvsize_spec *search = question(10.5, 16, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t i, passes;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 5, diag));
    add_must(rules, "low", PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST, 0, 60);
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    i = obstacle_of(layouts, pvsize_rules_by_name(rules, "low"), 1, 1);
    ck_assert_int_ge(i, 0);
    OK(pvsize_layouts_obstacle(layouts, i, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, &passes,
                               diag));
    ck_assert_int_eq(passes, 1);
    expect_obstacle(layouts, i, pvsize_rules_by_name(rules, "low"), 0, 1,
                    "105.82 V, at most 60 V: missed by 45.825 V; 1 module in a string passes");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Of 3.5 modules' power at most on an input, on planes of three each: four are first tried as one
 * string of one module on the first plane and three on the second. No other length passes with as
 * many strings there. */
START_TEST(a_miss_on_two_planes)
{
    pvsize_spec *search = question(10.5, 3, 3, 1);
    pvsize_rules *rules;
    pvsize_layouts *layouts;
    int32_t i, own, plane, second, length, passes;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 7, diag));
    add_must(rules, "little", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST, 0, 3.5 * 415);
    own = pvsize_rules_by_name(rules, "little");
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    i = obstacle_of(layouts, own, 0, 4);
    ck_assert_int_ge(i, 0);
    OK(pvsize_layouts_obstacle(layouts, i, NULL, NULL, NULL, &plane, &second, NULL, &length, NULL,
                               &passes, diag));
    ck_assert(plane == 0 && second == 1 && length == 1 && passes == 0);
    expect_obstacle(layouts, i, own, 0, 0,
                    "1 string of 1 on plane 1 and 3 strings of 1 on plane 2: little: 1660 W, at "
                    "most 1452.5 W");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* At a limit that must be passed nothing is missing to it, and yet it is missed. */
START_TEST(missed_by_nothing)
{
    pvsize_spec *search = question(10.5, 16, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    double margin;
    int32_t i, rule;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 9, diag));
    add_must(rules, "more", PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_MORE_THAN, 0, 9);
    rule = pvsize_rules_by_name(rules, "more");
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    i = obstacle_of(layouts, rule, 0, 1);
    ck_assert_int_ge(i, 0);
    OK(pvsize_layouts_obstacle_numbers(layouts, i, NULL, NULL, &margin, diag));
    ck_assert(margin == 0);
    expect_obstacle(layouts, i, rule, 0, 0, ": missed by 0");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Of a limit of nothing the nearest miss is the smallest one. */
START_TEST(the_nearest_miss_of_a_limit_of_nothing)
{
    pvsize_spec *search = question(10.5, 16, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    double value;

    add_must(rules, "none", PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 0);
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacles_of(layouts), 2); /* one for each input */
    OK(pvsize_layouts_obstacle_numbers(layouts, 0, &value, NULL, NULL, diag));
    ck_assert(value == 1);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Half of the power at most on each input: of two inputs, one of which stands no string of the
 * module, the other has all of it. */
START_TEST(an_input_is_refused_by_the_whole)
{
    pvsize_spec *search = question(12, 16, 0, 1); /* 15 A: too much for the second */
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t own;

    add_must(rules, "half", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST,
             PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.5);
    own = pvsize_rules_by_name(rules, "half");
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_ge(obstacle_of(layouts, PVSIZE_RULE_ISC_INPUT, 1, 1), 0);
    /* the best that was refused, behind what each input missed: one string of 11 */
    expect_obstacle(layouts, obstacles_of(layouts) - 1, own, 0, 0,
                    "4565 W, at most 2282.5 W: missed by 2282.5 W");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* No plane has room for the shortest string: the largest is told. */
START_TEST(no_plane_for_the_shortest)
{
    pvsize_spec *search = question(10.5, 3, 5, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacles_of(layouts), 1);
    expect_obstacle(
        layouts, 0, PVSIZE_RULE_PLANE_ROOM, -1, -1,
        "1 string of 7 on plane 2: modules fit on the plane: 7, at most 5: missed by 2");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Neither input may stand open, and there is room for the shortest string once: what the
 * smallest on both break is told, of an input too. */
START_TEST(the_smallest_on_all_inputs)
{
    pvsize_spec *search = question(10.5, 10, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t third;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
    add_must(rules, "used", PVSIZE_QUANTITY_INPUT_ARRAYS, PVSIZE_COMPARE_AT_LEAST, 0, 1);
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacles_of(layouts), 1);
    expect_obstacle(layouts, 0, PVSIZE_RULE_PLANE_ROOM, -1, -1, "14, at most 10");
    pvsize_layouts_free(layouts);
    /* and each may have a third of the power */
    add_must(rules, "third", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST,
             PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.3);
    third = pvsize_rules_by_name(rules, "third");
    add_must(rules, "few", PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 13);
    layouts = answered(search, rules);
    ck_assert_int_eq(obstacles_of(layouts), 3);
    expect_obstacle(layouts, 0, pvsize_rules_by_name(rules, "few"), -1, -1, "14, at most 13");
    expect_obstacle(layouts, 1, third, 0, 0, "2905 W, at most 1743 W");
    expect_obstacle(layouts, 2, third, 0, 1, "2905 W, at most 1743 W");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* A fixed array of 1600 W on an inverter that may have 1000: nothing can be added to mend it. */
START_TEST(a_fixed_array_beyond_the_inverters_power)
{
    pvsize_spec *search = question(10.5, 40, 0, 0), *system, *inverter, *array;
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t own;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 1000);
    for (int32_t i = 0; i < 3; i++)
        give(inverter, trade_input(22, 26.4, 2));
    give(system, inverter);
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0, PVSIZE_ARRAY_PLANE, 0,
                 PVSIZE_ARRAY_MODULES_PER_STRING, 4, PVSIZE_ARRAY_STRINGS, 1);
    give(array, trade_module(10.5));
    give(system, array);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    add_must(rules, "little", PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0, 1000);
    own = pvsize_rules_by_name(rules, "little");
    layouts = answered(search, rules);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacles_of(layouts), 2);
    /* the two open ones: the smallest would make it 2075 W */
    expect_obstacle(layouts, 0, own, 0, 1, "2075 W, at most 1000 W");
    expect_obstacle(layouts, 1, own, 0, 2, "2075 W, at most 1000 W");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Every input has its array: the one stringing is an answer, unless another total is wanted. */
START_TEST(all_is_fixed)
{
    pvsize_spec *search = question_of_fixed_arrays();
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    char text[200];

    for (int32_t wanted = 9; wanted < 12; wanted++) {
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, wanted, diag));
        layouts = answered(search, rules);
        ck_assert_int_eq(count_of(layouts), wanted == 10);
        if (wanted == 10) {
            OK(pvsize_layouts_text(layouts, 0, text, sizeof text, NULL, diag));
            ck_assert_ptr_nonnull(strstr(text, "4.15 kW, 10 modules: the fixed arrays alone"));
        } else {
            expect_obstacle(layouts, 0, 0, -1, -1, "nearest 10");
        }
        pvsize_layouts_free(layouts);
    }
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "miss", a_miss_is_told_with_what_passes);
    add_test(suite, "total", a_total_that_cannot_be_had);
    add_test(suite, "one passes", one_module_passes);
    add_test(suite, "two planes", a_miss_on_two_planes);
    add_test(suite, "at the limit", missed_by_nothing);
    add_test(suite, "limit of nothing", the_nearest_miss_of_a_limit_of_nothing);
    add_test(suite, "refused", an_input_is_refused_by_the_whole);
    add_test(suite, "no plane", no_plane_for_the_shortest);
    add_test(suite, "smallest", the_smallest_on_all_inputs);
    add_test(suite, "beyond power", a_fixed_array_beyond_the_inverters_power);
    add_test(suite, "all fixed", all_is_fixed);
}

int main(void)
{
    return run_cases("layout_obstacles", add);
}
