/* Searches larger than the tables that are kept for them. */
#include "../support/pv_layout.h"

/* Inputs that carry 40 strings each, and rules that look at voltage and current alone. */
static pvsize_spec *wide_question(int inverters, int inputs, int planes, double room)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_ANSWERS, 1,
                               PVSIZE_SEARCH_NODE_BUDGET, 3000, PVSIZE_SEARCH_SHORTEST_STRING, 9);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, 0, PVSIZE_SITE_TEMP_MAX, 40);

    for (int i = 0; i < planes; i++)
        give(site, face(room, 1500));
    give(system, site);
    for (int i = 0; i < inverters; i++) {
        pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500);

        for (int k = 0; k < inputs; k++)
            give(inverter, trade_input(400, 40 * 10.5 * 1.25, 40));
        give(system, inverter);
    }
    give(search, system);
    give(search, trade_module(10.5));
    return search;
}

/* More planes than prices are kept for, and more inputs than sides are told apart. */
START_TEST(many_planes_and_inputs)
{
    pvsize_rules *rules = rules_of_inputs();
    pvsize_spec *search = wide_question(1, 18, 18, 11);
    pvsize_layouts *layouts;
    double bound;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 18 * 11, 1e-12); /* each plane is full */
    OK(pvsize_layouts_bound(layouts, &bound, diag));
    ck_assert(bound >= 18 * 11 * 415);
    pvsize_spec_free(search);
    search = wide_question(1, 60, 2, 100);
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 200, 1e-12);
    pvsize_spec_free(search);
    search = wide_question(2, 60, 18, 11);
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 18 * 11, 1e-12);
    pvsize_spec_free(search);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
}
END_TEST

/* 60 inputs of three strings each of exactly 1000 modules of 415 W, on a plane larger than tables
 * are made for: 180 strings at most. Whatever is asked for, the answer is in whole strings. */
START_TEST(more_modules_than_tables_have_places)
{
    static const struct {
        int32_t objective;
        double wanted_power, wanted_modules, strings;
    } asked[] = {
        {PVSIZE_OBJECTIVE_POWER, 0, 0, 180},
        {PVSIZE_OBJECTIVE_POWER, 0, 123000, 123},
        {PVSIZE_OBJECTIVE_NEAREST_POWER, 122.6 * 415000, 0, 123},
        {PVSIZE_OBJECTIVE_NEAREST_POWER, 122.4 * 415000, 0, 122},
    };
    pvsize_rules *rules;
    pvsize_layouts *layouts;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.25, NULL, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_add(rules, "own", "own", PVSIZE_QUANTITY_INVERTER_PV_POWER,
                        PVSIZE_COMPARE_AT_MOST, 0, 1e9, PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        pvsize_spec *search =
            SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_ANSWERS, 1, PVSIZE_SEARCH_SHORTEST_STRING, 1000,
                 PVSIZE_SEARCH_LONGEST_STRING, 1000, PVSIZE_SEARCH_OBJECTIVE, asked[i].objective);
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site = SPEC(PVSIZE_KIND_SITE, 0);
        pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 1e6);
        int32_t ending;

        give(site, face(400000, 1500));
        give(system, site);
        for (int k = 0; k < 60; k++)
            give(inverter, trade_input(400, 40, 3)); /* three of 13.125 A */
        give(system, inverter);
        give(search, system);
        give(search, trade_module(10.5));
        if (asked[i].wanted_power > 0)
            OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_POWER, asked[i].wanted_power,
                                      diag));
        if (asked[i].wanted_modules > 0)
            OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, asked[i].wanted_modules,
                                      diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        OK(pvsize_layouts_ending(layouts, &ending, diag));
        ck_assert_int_eq(ending, PVSIZE_ENDING_PROVEN);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_STRINGS) == asked[i].strings);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 1000 * asked[i].strings);
        pvsize_spec_free(search);
    }
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
}
END_TEST

/* Room without end, and a limit of few modules: what is too large for one bound is not for the
 * others. */
START_TEST(few_modules_on_a_large_plane)
{
    pvsize_spec *search = question(10.5, 90000, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t ending;

    add_must(rules, "few", PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 20);
    layouts = answered(search, rules);
    OK(pvsize_layouts_ending(layouts, &ending, diag));
    ck_assert_int_eq(ending, PVSIZE_ENDING_PROVEN);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 20);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_STRINGS) == 2);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* As many inverters as a system may have: no step makes tables of each small, and the answer is
 * the plane full all the same. */
START_TEST(more_inverters_than_tables_have_places)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_ANSWERS, 3);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site = SPEC(PVSIZE_KIND_SITE, 0);
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;

    give(site, face(20, 1500));
    give(system, site);
    for (int32_t i = 0; i < 3; i++)
        give(inverter, trade_input(22, 26.4, 2));
    for (int32_t i = 0; i < 1000; i++)
        OK(pvsize_spec_add(system, inverter, NULL, diag));
    pvsize_spec_free(inverter);
    give(search, system);
    give(search, trade_module(10.5));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, 4000, diag));
    layouts = answered(search, rules);
    ck_assert_int_gt(count_of(layouts), 0);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 20);
    pvsize_layouts_free(layouts);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_NEAREST_POWER,
                              diag));
    /* all twenty come nearest; the first pass finds them, the second that nothing is above */
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_POWER, 20 * 415 + 100, diag));
    layouts = answered(search, rules);
    ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 20);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "many planes", many_planes_and_inputs);
    add_test(suite, "large tables", more_modules_than_tables_have_places);
    add_test(suite, "large plane", few_modules_on_a_large_plane);
    add_test(suite, "many inverters", more_inverters_than_tables_have_places);
}

int main(void)
{
    return run_cases("layout_large", add);
}
