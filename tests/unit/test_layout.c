/* The search for stringings: the trade's figures, symmetry, order, what stood in the
 * way, wrong input, stopping, and rankings. That nothing better is missed is shown by
 * tests/oracle/test_stringings.py. */
#include "../support/pv_test.h"

/* An input of the trade's unlike pair: operating and short-circuit current. */
static pvsize_spec *trade_input(double operating, double fault, double terminals)
{
    return SPEC(
        PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 600, PVSIZE_INPUT_TRACKING_MIN, 100,
        PVSIZE_INPUT_TRACKING_MAX, 550, PVSIZE_INPUT_START_VOLTAGE, 120,
        PVSIZE_INPUT_MAX_OPERATING_CURRENT, operating, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
        fault, PVSIZE_INPUT_TERMINALS, terminals, PVSIZE_INPUT_TERMINAL_CURRENT, 30,
        PVSIZE_INPUT_MAX_POWER, 1e6, PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN,
        PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD, PVSIZE_ANSWER_YES, PVSIZE_INPUT_ISOLATOR_LOCKS_OFF,
        PVSIZE_ANSWER_YES, PVSIZE_INPUT_ISOLATOR_VOLTAGE, 600, PVSIZE_INPUT_ISOLATOR_CURRENT, 40);
}

static pvsize_spec *trade_inverter(void)
{
    pvsize_spec *inverter =
        SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500,
             PVSIZE_INVERTER_MAX_PV_POWER, 9980, PVSIZE_INVERTER_PHASES, 1,
             PVSIZE_INVERTER_AC_VOLTAGE, 230, PVSIZE_INVERTER_BACKFEED_CURRENT, 0);

    give(inverter, trade_input(22, 26.4, 2));
    give(inverter, trade_input(11, 13.2, 1));
    return inverter;
}

static pvsize_spec *trade_module(double isc)
{
    return SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, 415, PVSIZE_MODULE_VOC, 49.8,
                PVSIZE_MODULE_ISC, isc, PVSIZE_MODULE_VMP, 41.5, PVSIZE_MODULE_IMP, 10,
                PVSIZE_MODULE_VOC_COEFFICIENT, -0.25, PVSIZE_MODULE_ISC_COEFFICIENT, 0.04,
                PVSIZE_MODULE_PMAX_COEFFICIENT, -0.3, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 1000,
                PVSIZE_MODULE_MAX_SERIES_FUSE, 25, PVSIZE_MODULE_BIFACIALITY, 0);
}

static pvsize_spec *face(double capacity, double yield)
{
    return SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, capacity, PVSIZE_PLANE_MOUNTING,
                PVSIZE_MOUNTING_RAISED, PVSIZE_PLANE_CURRENT_CORRECTION, 1,
                PVSIZE_PLANE_SPECIFIC_YIELD, yield);
}

static pvsize_spec *trade_site(double first, double second)
{
    pvsize_spec *site =
        SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, 0, PVSIZE_SITE_TEMP_MAX, 40,
             PVSIZE_SITE_BUILDING, PVSIZE_BUILDING_DWELLING, PVSIZE_SITE_SUPPLY_PHASES, 1,
             PVSIZE_SITE_SUPPLY_VOLTAGE, 230, PVSIZE_SITE_CONNECTION_LIMIT, 20000,
             PVSIZE_SITE_EXPORT_LIMIT, 20000, PVSIZE_SITE_PHASE_LIMIT, 20000);

    give(site, face(first, 1500));
    give(site, face(second, 1300));
    return site;
}

/* A question with these inverters, all alike. */
static pvsize_spec *question(double isc, double first, double second, int inverters)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_ANSWERS, 10);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);

    give(system, trade_site(first, second));
    for (int i = 0; i < inverters; i++)
        give(system, trade_inverter());
    give(search, system);
    give(search, trade_module(isc));
    return search;
}

static pvsize_layouts *searched(const pvsize_spec *search)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    pvsize_rules_free(rules);
    return layouts;
}

static double number(const pvsize_layouts *layouts, int32_t i, int32_t what)
{
    double value;

    OK(pvsize_layouts_number(layouts, i, what, &value, diag));
    return value;
}

static int32_t count_of(const pvsize_layouts *layouts)
{
    int32_t count;

    OK(pvsize_layouts_count(layouts, &count, diag));
    return count;
}

/* The obstacle of a rule on an input with so many strings; -1: none. */
static int32_t obstacle_of(const pvsize_layouts *layouts, int32_t rule, int32_t input,
                           int32_t strings)
{
    int32_t count, at_rule, at_input, at_strings;

    OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_layouts_obstacle(layouts, i, &at_rule, NULL, &at_input, NULL, NULL, NULL, NULL,
                                   &at_strings, NULL, diag));
        if (at_rule == rule && at_input == input && at_strings == strings)
            return i;
    }
    return -1;
}

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

START_TEST(it_stops_when_told)
{
    pvsize_spec *search = question(10.5, 16, 12, 2);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;
    const int32_t raised = 1;
    int32_t ending, complete;
    double nodes, whole, bound, best;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, &raised, layouts, diag));
    OK(pvsize_layouts_ending(layouts, &ending, diag));
    ck_assert_int_eq(ending, PVSIZE_ENDING_CANCELLED);
    OK(pvsize_layouts_nodes(layouts, &nodes, diag));
    ck_assert(nodes == 0);
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_layouts_nodes(layouts, &whole, diag));
    best = number(layouts, 0, PVSIZE_LAYOUT_POWER);
    for (double budget = 1; budget < whole; budget += 1 + floor(whole / 50)) {
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, budget, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        OK(pvsize_layouts_ending(layouts, &ending, diag));
        OK(pvsize_layouts_complete(layouts, &complete, diag));
        OK(pvsize_layouts_nodes(layouts, &nodes, diag));
        ck_assert_int_eq(ending, PVSIZE_ENDING_BUDGET);
        ck_assert_int_eq(complete, 0);
        ck_assert(nodes == budget);
        if (pvsize_layouts_bound(layouts, &bound, NULL) == PVSIZE_OK)
            ck_assert(bound >= best); /* a bound is never below what can be had */
    }
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
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

START_TEST(wrong_questions_are_refused)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *bare = SPEC(PVSIZE_KIND_SEARCH, 0);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site, *module = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_spec *plane = SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 9);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;
    double value;
    int32_t number_of;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "search", pvsize_search(NULL, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules", pvsize_search(search, NULL, NULL, layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "layouts", pvsize_search(search, rules, NULL, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "search", pvsize_search(system, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "rules",
          pvsize_search(search, (const pvsize_rules *)(const void *)search, NULL, layouts, diag));
    FAILS(PVSIZE_E_MISSING_PART, "system", pvsize_search(bare, rules, NULL, layouts, diag));
    give(bare, system);
    FAILS(PVSIZE_E_MISSING_PART, "site", pvsize_search(bare, rules, NULL, layouts, diag));
    system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    give(system, trade_site(4, 4));
    give(system, trade_inverter());
    OK(pvsize_spec_replace(bare, 0, system, diag));
    FAILS(PVSIZE_E_MISSING_PART, "module", pvsize_search(bare, rules, NULL, layouts, diag));
    OK(pvsize_spec_add(bare, module, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "pmax", pvsize_search(bare, rules, NULL, layouts, diag));
    site = SPEC(PVSIZE_KIND_SITE, 0);
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_MISSING_PART, "plane", pvsize_search(search, rules, NULL, layouts, diag));
    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 20));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_NOT_SET, "capacity", pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_NEAREST_POWER,
                              diag));
    FAILS(PVSIZE_E_NOT_SET, "wanted_power", pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_ENERGY, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 8, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 7, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "longest_string: outside the allowed range; given 7; allowed 8",
          pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_unset(search, PVSIZE_SEARCH_LONGEST_STRING, diag));
    OK(pvsize_spec_replace(site, 0, plane, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_NOT_SET, "specific_yield", pvsize_search(search, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "answers",
          pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 0, diag));
    OK(pvsize_layouts_count(layouts, &number_of, diag));
    ck_assert_int_eq(number_of, 0); /* as new: nothing was changed */
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_layouts_number(layouts, 0, 1, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_obstacle(layouts, 0, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                  diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "layouts",
          pvsize_search(search, rules, NULL, (pvsize_layouts *)(void *)rules, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_obstacle_numbers(layouts, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_system(layouts, 0, NULL, &(pvsize_spec *){NULL}, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "layouts", pvsize_layouts_count(NULL, &number_of, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "layouts",
          pvsize_layouts_count((const pvsize_layouts *)(const void *)rules, &number_of, diag));
    pvsize_layouts_free(NULL);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
    pvsize_spec_free(bare);
    pvsize_spec_free(module);
    pvsize_spec_free(site);
    pvsize_spec_free(plane);
    pvsize_spec_free(system);
}
END_TEST

/* Places in an order are weighed in whole numbers, which have an end. */
START_TEST(too_much_to_put_in_order)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *site;
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    for (int i = 0; i < 4; i++)
        give(site, face(100000, 1000));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_PLANE_ORDER, diag));
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    FAILS(PVSIZE_E_TOO_MANY, "plane.fill_order", pvsize_search(search, rules, NULL, layouts, diag));
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

/* More modules in a fixed array than any roof has: no answer, and nothing overflows. */
START_TEST(a_fixed_array_beyond_all_room)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *array;
    pvsize_layouts *layouts;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0, PVSIZE_ARRAY_PLANE, 0,
                 PVSIZE_ARRAY_MODULES_PER_STRING, 10000, PVSIZE_ARRAY_STRINGS, 10000);
    give(array, trade_module(10.5));
    give(system, array);
    OK(pvsize_spec_replace(search, 0, system, diag));
    layouts = searched(search);
    ck_assert_int_eq(count_of(layouts), 0);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(an_own_rule_cannot_speak_of_a_search)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    FAILS(PVSIZE_E_WRONG_KIND, "search.answers",
          pvsize_rules_add(rules, "own", "own", PVSIZE_SEARCH_ANSWERS, PVSIZE_COMPARE_AT_MOST, 0, 5,
                           PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    pvsize_rules_free(rules);
}
END_TEST

/* Own rules on sums, and the most modules of 415 W that each leaves: the limit over what one
 * module adds, rounded down. */
static const struct {
    int32_t value, limit_of;
    double limit;
    int32_t most;
} sums[] = {
    {PVSIZE_QUANTITY_SYSTEM_MODULES, 0, 20, 20},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0, 18.5 * 415, 18},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_SITE_EXPORT_LIMIT, 0.3, 14},  /* 6000 W */
    {PVSIZE_QUANTITY_ARRAY_RATIO, 0, 0.9, 16},                             /* 6750 W */
    {PVSIZE_QUANTITY_ARRAY_RATIO, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 0.5, 12}, /* 0.665 */
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_INVERTER_MAX_PV_POWER, 0.5, 12},
};

static pvsize_rules *with_own_rule(int32_t value, int32_t compare, int32_t limit_of, double limit)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 1.33, NULL, diag));
    OK(pvsize_rules_add(rules, "own", "own", value, compare, limit_of, limit, PVSIZE_SEVERITY_MUST,
                        NULL, NULL, diag));
    return rules;
}

START_TEST(own_rules_on_sums_bound_a_search)
{
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        pvsize_spec *search = question(10.5, 30, 30, 1);
        pvsize_rules *rules =
            with_own_rule(sums[i].value, PVSIZE_COMPARE_AT_MOST, sums[i].limit_of, sums[i].limit);
        pvsize_layouts *layouts;
        int32_t count, rule, told = 0;

        OK(pvsize_layouts_new(NULL, &layouts, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        ck_assert_int_gt(count_of(layouts), 0);
        NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), sums[i].most, 1e-12);
        OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
        for (int32_t k = 0; k < count; k++) {
            OK(pvsize_layouts_obstacle(layouts, k, &rule, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                       NULL, diag));
            told += rule == pvsize_rules_by_name(rules, "own");
        }
        ck_assert_int_gt(told, 0);
        pvsize_layouts_free(layouts);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

/* Of two rules on one sum the lower is the limit, in either order. */
START_TEST(the_lower_of_two_sums_bounds_a_search)
{
    for (int lower_first = 0; lower_first < 2; lower_first++) {
        pvsize_spec *search = question(10.5, 30, 30, 1);
        pvsize_rules *rules = with_own_rule(PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST,
                                            0, lower_first ? 15 : 20);
        pvsize_layouts *layouts;

        OK(pvsize_rules_add(rules, "other", "other", PVSIZE_QUANTITY_SYSTEM_MODULES,
                            PVSIZE_COMPARE_AT_MOST, 0, lower_first ? 20 : 15, PVSIZE_SEVERITY_MUST,
                            NULL, NULL, diag));
        /* no limit: a figure that is not set */
        OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_ARRAY_RATIO_MAX, diag));
        OK(pvsize_rules_add(rules, "unset", "unset", PVSIZE_QUANTITY_ARRAY_RATIO,
                            PVSIZE_COMPARE_AT_MOST, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 0.1,
                            PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
        OK(pvsize_layouts_new(NULL, &layouts, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 15, 1e-12);
        pvsize_layouts_free(layouts);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

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

static pvsize_rules *rules_of_inputs(void)
{
    pvsize_rules *rules;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.25, NULL, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_VOC_COLD_INPUT, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    return rules;
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

/* Three strings of Isc 10.5 A: two feed 21 A into the third, above a module's 20 A, so each needs
 * a device of more than 1.5 and under 2.4 times Isc, at most 20 A (IEC 62548): of the usual gPV
 * ratings (IEC 60269-6) 16 A is the smallest. */
START_TEST(devices_and_isolators_stand_in_the_answer)
{
    pvsize_spec *search = question(10.5, 33, 0, 0), *system, *inverter = trade_inverter(), *array;
    pvsize_spec *module;
    pvsize_layouts *layouts;
    double value;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 1, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    give(inverter, trade_input(40, 60, 3));
    give(system, inverter);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    OK(pvsize_spec_part(search, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, 20, diag));
    OK(pvsize_spec_replace(search, 0, module, diag));
    pvsize_spec_free(module);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICE_VOLTAGE, 1000, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 21, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 7, diag));
    layouts = searched(search);
    ck_assert_int_gt(count_of(layouts), 0);
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_DEVICES), 3, 1e-12);
    OK(pvsize_layouts_system(layouts, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE, &value, diag));
    NEAR(value, 16, 1e-12);
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, &value, diag));
    NEAR(value, 1000, 1e-12);
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, &value, diag));
    ck_assert(value == PVSIZE_ANSWER_YES);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(array);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

/* what stood in the way */

/* Rules with MUST rules of one's own, and a question of inputs for them. */
static void add_must(pvsize_rules *rules, const char *name, int32_t value, int32_t compare,
                     int32_t limit_of, double limit)
{
    OK(pvsize_rules_add(rules, name, name, value, compare, limit_of, limit, PVSIZE_SEVERITY_MUST,
                        NULL, NULL, diag));
}

static pvsize_layouts *answered(const pvsize_spec *search, const pvsize_rules *rules)
{
    pvsize_layouts *layouts;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    return layouts;
}

static int32_t obstacles_of(const pvsize_layouts *layouts)
{
    int32_t count;

    OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
    return count;
}

/* Its rule and place, and the text that must be in its line. */
static void expect_obstacle(const pvsize_layouts *layouts, int32_t i, int32_t rule,
                            int32_t inverter, int32_t input, const char *words)
{
    int32_t at_rule, at_inverter, at_input;
    char text[400];

    OK(pvsize_layouts_obstacle(layouts, i, &at_rule, &at_inverter, &at_input, NULL, NULL, NULL,
                               NULL, NULL, NULL, diag));
    ck_assert_int_eq(at_rule, rule);
    ck_assert_int_eq(at_inverter, inverter);
    ck_assert_int_eq(at_input, input);
    OK(pvsize_layouts_obstacle_text(layouts, i, text, sizeof text, NULL, diag));
    ck_assert_msg(strstr(text, words) != NULL, "no '%s' in: %s", words, text);
}

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

/* Stopped before anything was tried there is no reason to tell. */
START_TEST(no_reason_before_anything_is_tried)
{
    pvsize_spec *search = question(10.5, 10, 0, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    const int32_t raised = 1;

    add_must(rules, "used", PVSIZE_QUANTITY_INPUT_ARRAYS, PVSIZE_COMPARE_AT_LEAST, 0, 1);
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, &raised, layouts, diag));
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacles_of(layouts), 0);
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
    pvsize_spec *search = question(10.5, 40, 0, 1), *system;
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    char text[200];

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, i, PVSIZE_ARRAY_PLANE, 0,
                                  PVSIZE_ARRAY_MODULES_PER_STRING, 5, PVSIZE_ARRAY_STRINGS, 1);

        give(array, trade_module(10.5));
        give(system, array);
    }
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
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

/* The budget ends in the search for the wanted total, or in that for the one nearest to it:
 * before the first is done nothing is proven. */
START_TEST(the_budget_ends_before_a_total_is_known)
{
    pvsize_spec *search = question(10.5, 22, 20, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    double nodes;
    int32_t unproven = 0, without = 0, ending, nearest = -1;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 41, diag));
    for (double budget = 1; nearest < 0 && budget < 5000; budget++) {
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, budget, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        OK(pvsize_layouts_ending(layouts, &ending, diag));
        OK(pvsize_layouts_nodes(layouts, &nodes, diag));
        ck_assert_int_eq(count_of(layouts), 0);
        ck_assert(nodes <= budget);
        nearest = obstacle_of(layouts, 0, -1, 0);
        unproven += ending != PVSIZE_ENDING_PROVEN;
        without += ending == PVSIZE_ENDING_PROVEN && nearest < 0;
    }
    ck_assert_int_gt(unproven, 0);
    ck_assert_int_gt(without, 0); /* that it cannot be had is proven, the nearest not known */
    /* three strings of 11 */
    expect_obstacle(layouts, nearest, 0, -1, -1, "nearest 33");
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* every allocation of a search that has no answer, whatever the reason */

static pvsize_spec *without_answer(int32_t reason, pvsize_rules *rules)
{
    pvsize_spec *search = question(reason == 1 ? 12 : 10.5, reason == 3 ? 10 : 16, 0, 1);

    switch (reason) {
    case 0: /* misses of each input */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 12, diag));
        break;
    case 1: /* refused by the whole */
        add_must(rules, "half", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST,
                 PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.5);
        break;
    case 2: /* no plane has room */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 17, diag));
        break;
    case 3: /* not on all inputs */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
        add_must(rules, "used", PVSIZE_QUANTITY_INPUT_ARRAYS, PVSIZE_COMPARE_AT_LEAST, 0, 1);
        add_must(rules, "few", PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 13);
        break;
    case 4: /* broken whatever is wired */
        add_must(rules, "cool", PVSIZE_SITE_TEMP_MAX, PVSIZE_COMPARE_AT_MOST, 0, 30);
        break;
    default: /* a total that cannot be had */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 17, diag));
    }
    return search;
}

START_TEST(every_allocation_fails_once_without_an_answer)
{
    for (int32_t reason = 0; reason < 6; reason++) {
        pvsize_rules *rules = rules_of_inputs();
        pvsize_spec *search = without_answer(reason, rules);
        long n;

        for (n = 0;; n++) {
            counter c = {0, 0, -1};
            const pvsize_allocator memory = {counted, released, &c};
            pvsize_layouts *layouts;
            pvsize_status status;

            OK(pvsize_layouts_new(&memory, &layouts, diag));
            c.fail_at = c.made + n;
            status = pvsize_search(search, rules, NULL, layouts, NULL);
            ck_assert_int_eq(count_of(layouts), 0);
            ck_assert(obstacles_of(layouts) == 0 || status == PVSIZE_OK); /* nothing half-told */
            ck_assert(obstacles_of(layouts) > 0 || status != PVSIZE_OK);
            pvsize_layouts_free(layouts);
            ck_assert_int_eq(c.live, 0);
            if (status == PVSIZE_OK)
                break;
            ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
        }
        ck_assert_int_gt(n, 10);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

START_TEST(wrong_ways_to_ask)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system;
    pvsize_layouts *layouts = searched(search);
    const pvsize_layouts *foreign = (const pvsize_layouts *)(const void *)search;
    double value;
    int32_t count;

    FAILS(PVSIZE_E_BAD_INDEX, "i: ", pvsize_layouts_number(layouts, -1, 1, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given -1", pvsize_layouts_array_count(layouts, -1, &count, diag));
    for (int i = 0; i < 2; i++) {
        const pvsize_layouts *wrong = i ? foreign : NULL;
        pvsize_status status = i ? PVSIZE_E_BAD_HANDLE : PVSIZE_E_NULL_POINTER;

        FAILS(status, "layouts", pvsize_layouts_number(wrong, 0, 1, &value, diag));
        FAILS(status, "layouts", pvsize_layouts_array_count(wrong, 0, &count, diag));
        FAILS(status, "layouts", pvsize_layouts_system(wrong, 0, NULL, &system, diag));
        FAILS(status, "layouts", pvsize_layouts_obstacle_count(wrong, &count, diag));
        FAILS(status, "layouts",
              pvsize_layouts_obstacle(wrong, 0, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                      NULL, diag));
        FAILS(status, "layouts", pvsize_layouts_obstacle_numbers(wrong, 0, NULL, NULL, NULL, diag));
        FAILS(status, "layouts",
              pvsize_layouts_array(wrong, 0, 0, NULL, NULL, NULL, NULL, NULL, NULL, diag));
    }
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

/* Three strings of one module each need a device; of which rating, the module's largest series
 * fuse decides: 16 A is the smallest above 1.5 times 10.5 A (IEC 62548), and none of 15 A or less
 * will do. Without a voltage asked for, none is stated. */
START_TEST(a_rating_that_does_not_exist)
{
    pvsize_spec *search = question(10.5, 9, 0, 0), *system, *inverter = trade_inverter(), *array;
    pvsize_layouts *layouts;
    double strings;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 1, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    give(inverter, trade_input(40, 60, 3));
    give(system, inverter);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 3, diag));
    for (int32_t fuse = 15; fuse <= 16; fuse++) {
        pvsize_spec *module = trade_module(10.5);

        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, fuse, diag));
        OK(pvsize_spec_replace(search, 0, module, diag));
        pvsize_spec_free(module);
        layouts = searched(search);
        ck_assert_int_gt(count_of(layouts), 0);
        strings = number(layouts, 0, PVSIZE_LAYOUT_STRINGS);
        ck_assert(strings == (fuse == 16 ? 3 : 2));
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 3 * strings);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_DEVICES) == (fuse == 16 ? 3 : 0));
        OK(pvsize_layouts_system(layouts, 0, NULL, &system, diag));
        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        FAILS(PVSIZE_E_NOT_SET, "string_device_voltage",
              pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, &strings, diag));
        pvsize_spec_free(array);
        pvsize_spec_free(system);
        pvsize_layouts_free(layouts);
    }
    pvsize_spec_free(search);
}
END_TEST

/* What so many strings of one length need, so many of another length need as well: every
 * string of three or more has its device. */
START_TEST(devices_of_every_length)
{
    static const struct {
        int32_t figure;
        double value;
    } figures[] = {
        {PVSIZE_FIGURE_DEVICE_TRIGGER_FACTOR, 1},
        {PVSIZE_FIGURE_DEVICE_TRIGGER_SHARE, 1},
        {PVSIZE_FIGURE_DEVICE_TRIGGER_BACKFEED, PVSIZE_ANSWER_NO},
        {PVSIZE_FIGURE_DEVICE_FREE_STRINGS, 1},
        {PVSIZE_FIGURE_DEVICE_LOW_FACTOR, 1.5},
        {PVSIZE_FIGURE_DEVICE_LOW_STRICT, PVSIZE_ANSWER_YES},
        {PVSIZE_FIGURE_DEVICE_HIGH_FACTOR, 2.4},
        {PVSIZE_FIGURE_DEVICE_SERIES, 1},
    };
    pvsize_spec *search = question(10.5, 21, 0, 0), *system, *inverter = trade_inverter(), *array;
    pvsize_spec *module = trade_module(10.5);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t with = 0;

    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        OK(pvsize_rules_set_figure(rules, figures[i].figure, figures[i].value, NULL, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, 20, diag));
    OK(pvsize_spec_replace(search, 0, module, diag));
    pvsize_spec_free(module);
    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 1, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    give(inverter, trade_input(40, 60, 3));
    give(system, inverter);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 100, diag));
    layouts = answered(search, rules);
    for (int32_t i = 0; i < count_of(layouts); i++) {
        double devices = number(layouts, i, PVSIZE_LAYOUT_DEVICES), rating = 0;
        double strings = number(layouts, i, PVSIZE_LAYOUT_STRINGS);

        OK(pvsize_layouts_system(layouts, i, NULL, &system, diag));
        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE, &rating, NULL);
        ck_assert(devices == (strings > 2 ? strings : 0));
        ck_assert(rating == (devices > 0 ? 16 : 0));
        with += devices > 0;
        pvsize_spec_free(array);
        pvsize_spec_free(system);
    }
    ck_assert_int_eq(with, 7 + 5); /* three of 1 to 7 modules, and four of 1 to 5 */
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
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

/* Every stringing is refused by the whole, until the budget ends: nothing is proven, and no
 * nearest total is told. */
START_TEST(the_budget_ends_in_refusals)
{
    pvsize_spec *search = question(10.5, 22, 20, 1);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t ending;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 20, diag));
    add_must(rules, "tenth", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST,
             PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.1);
    layouts = answered(search, rules);
    OK(pvsize_layouts_ending(layouts, &ending, diag));
    ck_assert_int_eq(ending, PVSIZE_ENDING_PROVEN);
    pvsize_layouts_free(layouts);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, 150, diag));
    layouts = answered(search, rules);
    OK(pvsize_layouts_ending(layouts, &ending, diag));
    ck_assert_int_eq(ending, PVSIZE_ENDING_BUDGET);
    ck_assert_int_eq(count_of(layouts), 0);
    ck_assert_int_eq(obstacle_of(layouts, 0, -1, 0), -1);
    ck_assert_int_ge(obstacle_of(layouts, pvsize_rules_by_name(rules, "tenth"), 0, 0), 0);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
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

/* The fixed arrays alone, with the power wanted: there is no other stringing. */
START_TEST(all_fixed_is_all_there_is)
{
    pvsize_spec *search = question(10.5, 40, 0, 1), *system;
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t complete;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, i, PVSIZE_ARRAY_PLANE, 0,
                                  PVSIZE_ARRAY_MODULES_PER_STRING, 5, PVSIZE_ARRAY_STRINGS, 1);

        give(array, trade_module(10.5));
        give(system, array);
    }
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
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

/* rankings */

static pvsize_ranking *ranked(const pvsize_spec *search, int32_t shard, int32_t shards)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_ranking *ranking;

    OK(pvsize_ranking_new(search, rules, 5, NULL, &ranking, diag));
    OK(pvsize_ranking_add_shard(ranking, shard, shards, NULL, NULL, diag));
    pvsize_rules_free(rules);
    return ranking;
}

START_TEST(shards_merge_to_the_same_ranking)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *inverter;
    pvsize_ranking *whole, *merged;
    int32_t count;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    for (int i = 0; i < 3; i++) {
        inverter = trade_inverter();
        OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_RATED_AC_POWER, 3000 + 2000 * (i % 2),
                                  diag));
        give(system, inverter);
        give(search, trade_module(8 + i));
    }
    OK(pvsize_spec_replace(search, 0, system, diag));
    whole = ranked(search, 0, 1);
    for (int32_t shards = 2; shards < 6; shards++) {
        double judged, fitting;

        merged = ranked(search, shards - 1, shards);
        for (int32_t i = shards - 2; i >= 0; i--) {
            pvsize_ranking *part = ranked(search, i, shards);

            OK(pvsize_ranking_merge(merged, part, diag));
            pvsize_ranking_free(part);
        }
        OK(pvsize_ranking_judged(merged, &judged, &fitting, NULL, diag));
        ck_assert(judged == 16);
        OK(pvsize_ranking_count(merged, &count, diag));
        ck_assert_int_eq(count, 5);
        for (int32_t i = 0; i < count; i++) {
            int32_t module[2], inverter_at[2];

            OK(pvsize_ranking_pair(whole, i, &module[0], &inverter_at[0], diag));
            OK(pvsize_ranking_pair(merged, i, &module[1], &inverter_at[1], diag));
            ck_assert_int_eq(module[0], module[1]);
            ck_assert_int_eq(inverter_at[0], inverter_at[1]);
        }
        pvsize_ranking_free(merged);
    }
    pvsize_ranking_free(whole);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(wrong_rankings_are_refused)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *module = trade_module(10);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_ranking *ranking;
    const pvsize_spec *none[] = {NULL}, *one[] = {module}, *two[] = {module, module};
    const void *const foreign[] = {rules};
    const int32_t raised = 1;
    double done;

    FAILS(PVSIZE_E_OUT_OF_RANGE, "most",
          pvsize_ranking_new(search, rules, 0, NULL, &ranking, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "search",
          pvsize_ranking_new(module, rules, 1, NULL, &ranking, diag));
    OK(pvsize_ranking_new(search, rules, 3, NULL, &ranking, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "shards",
          pvsize_ranking_add_shard(ranking, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "shard",
          pvsize_ranking_add_shard(ranking, 2, 2, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "other", pvsize_ranking_merge(ranking, ranking, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "inverter",
          pvsize_ranking_add(ranking, module, module, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_ranking_pair(ranking, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "ranking",
          pvsize_ranking_add_all(NULL, one, 1, one, 1, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "modules",
          pvsize_ranking_add_all(ranking, NULL, 1, one, 1, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "modules",
          pvsize_ranking_add_all(ranking, none, 1, one, 1, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "inverters",
          pvsize_ranking_add_all(ranking, one, 1, (const pvsize_spec *const *)foreign, 1, 0, 0,
                                 NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "ranking", pvsize_ranking_pair(NULL, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "inverter",
          pvsize_ranking_add_all(ranking, one, 1, one, 1, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "first_module",
          pvsize_ranking_add_all(ranking, one, 1, NULL, 0, -1, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "first_module",
          pvsize_ranking_add_all(ranking, two, 2, NULL, 0, INT32_MAX, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "first_inverter",
          pvsize_ranking_add_all(ranking, one, 1, NULL, 0, 0, -1, NULL, NULL, diag));
    /* lists that are not as long as that: they are not read */
    FAILS(PVSIZE_E_OUT_OF_RANGE, "module_count: outside the allowed range",
          pvsize_ranking_add_all(ranking, one, SIZE_MAX, NULL, 0, 0, 0, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "inverter_count: outside the allowed range; given 2147483649",
          pvsize_ranking_add_all(ranking, NULL, 0, one, (size_t)INT32_MAX + 2, 0, 0, NULL, NULL,
                                 diag));
    OK(pvsize_ranking_add_all(ranking, one, 1, NULL, 0, INT32_MAX, 0, NULL, &done, diag));
    ck_assert(done == 0);
    OK(pvsize_ranking_add_shard(ranking, 0, 1, &raised, &done, diag));
    ck_assert(done == 0);
    pvsize_ranking_free(ranking);
    pvsize_ranking_free(NULL);
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
    pvsize_spec_free(search);
}
END_TEST

static pvsize_rules *rules_of_one_plane(void)
{
    pvsize_rules *rules = rules_of_inputs();

    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_UNLIKE_PLANES, PVSIZE_SEVERITY_SHOULD, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_PLANES_PER_INPUT, 1, NULL, diag));
    return rules;
}

/* A sweep of modules and inverters, of which one of each may be another. */
static void expect_same_sweep(const pvsize_spec *search, const pvsize_rules *rules,
                              const pvsize_spec *odd_module, const pvsize_spec *odd_inverter)
{
    enum { MODULES = 5, INVERTERS = 3 };
    const pvsize_spec *module[MODULES], *inverter[INVERTERS];
    pvsize_spec *made[MODULES + INVERTERS];
    pvsize_ranking *all, *each;
    pvsize_status status = PVSIZE_OK;
    double judged[2], fitting[2];

    for (int i = 0; i < MODULES; i++) {
        made[i] = trade_module(10.1 + 0.1 * i);
        OK(pvsize_spec_set_number(made[i], PVSIZE_MODULE_PMAX, 415 - 5 * i, diag));
        module[i] = i == 1 && odd_module ? odd_module : made[i];
    }
    for (int i = 0; i < INVERTERS; i++) {
        made[MODULES + i] = trade_inverter();
        OK(pvsize_spec_set_number(made[MODULES + i], PVSIZE_INVERTER_RATED_AC_POWER, 7500 - i,
                                  diag));
        inverter[i] = i == 1 && odd_inverter ? odd_inverter : made[MODULES + i];
    }
    OK(pvsize_ranking_new(search, rules, 2, NULL, &all, diag));
    OK(pvsize_ranking_new(search, rules, 2, NULL, &each, diag));
    for (int32_t m = 0; !status && m < MODULES; m++)
        for (int32_t i = 0; !status && i < INVERTERS; i++)
            status = pvsize_ranking_add(each, module[m], inverter[i], m, i, NULL, NULL, NULL);
    ck_assert_int_eq(
        pvsize_ranking_add_all(all, module, MODULES, inverter, INVERTERS, 0, 0, NULL, NULL, NULL),
        status);
    OK(pvsize_ranking_judged(all, &judged[0], &fitting[0], NULL, diag));
    OK(pvsize_ranking_judged(each, &judged[1], &fitting[1], NULL, diag));
    if (status == PVSIZE_OK) {
        ck_assert(judged[0] == MODULES * INVERTERS && judged[1] == MODULES * INVERTERS);
        ck_assert(fitting[0] == fitting[1]);
    }
    for (int32_t i = 0; status == PVSIZE_OK && i < 2 && i < (int32_t)fitting[0]; i++) {
        int32_t m[2], at[2];

        OK(pvsize_ranking_pair(all, i, &m[0], &at[0], diag));
        OK(pvsize_ranking_pair(each, i, &m[1], &at[1], diag));
        ck_assert(m[0] == m[1] && at[0] == at[1]);
    }
    pvsize_ranking_free(all);
    pvsize_ranking_free(each);
    for (int i = 0; i < MODULES + INVERTERS; i++)
        pvsize_spec_free(made[i]);
}

/* What a sweep cannot tell by itself it leaves to a search, with the same end. */
START_TEST(a_sweep_of_odd_pairs)
{
    pvsize_rules *rules = rules_of_one_plane();
    pvsize_spec *search = question(10.5, 40, 40, 1), *odd, *system;

    expect_same_sweep(search, rules, NULL, NULL);
    odd = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500);
    expect_same_sweep(search, rules, NULL, odd); /* no inputs */
    give(odd, trade_input(400, 525, 40));        /* 40 strings */
    expect_same_sweep(search, rules, NULL, odd);
    pvsize_spec_free(odd);
    odd = trade_module(10.5);
    OK(pvsize_spec_unset(odd, PVSIZE_MODULE_PMAX, diag));
    expect_same_sweep(search, rules, odd, NULL); /* refused */
    OK(pvsize_spec_set_number(odd, PVSIZE_MODULE_PMAX, 415, diag));
    OK(pvsize_spec_set_number(odd, PVSIZE_MODULE_VOC_COEFFICIENT, 1.9, diag));
    OK(pvsize_spec_set_number(odd, PVSIZE_MODULE_VOC, 5, diag));
    expect_same_sweep(search, rules, odd, NULL); /* the coldest voltage is nearly none */
    pvsize_spec_free(odd);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 10, diag));
    expect_same_sweep(search, rules, NULL, NULL);
    OK(pvsize_spec_unset(search, PVSIZE_SEARCH_WANTED_MODULES, diag));
    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_INVERTER, 0, PVSIZE_ISOLATOR_INPUT, 0));
    OK(pvsize_spec_replace(search, 0, system, diag));
    expect_same_sweep(search, rules, NULL, NULL);
    pvsize_spec_free(system);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* A question that is wrong is refused by a sweep as by a search. */
START_TEST(a_sweep_of_a_wrong_question)
{
    pvsize_rules *rules = rules_of_one_plane();
    pvsize_spec *search = question(10.5, 40, 40, 1), *system, *site;
    pvsize_spec *module = trade_module(10), *inverter = trade_inverter();
    const pvsize_spec *modules[] = {module, module, module, module}, *inverters[] = {inverter};
    pvsize_ranking *ranking;
    double done;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 20));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_ranking_new(search, rules, 2, NULL, &ranking, diag));
    FAILS(PVSIZE_E_NOT_SET, "capacity",
          pvsize_ranking_add_all(ranking, modules, 4, inverters, 1, 0, 0, NULL, &done, diag));
    ck_assert(done == 0);
    pvsize_ranking_free(ranking);
    give(system, SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_ranking_new(search, rules, 2, NULL, &ranking, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "array",
          pvsize_ranking_add_all(ranking, modules, 4, inverters, 1, 0, 0, NULL, &done, diag));
    pvsize_ranking_free(ranking);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    pvsize_spec_free(inverter);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* An allocator that raises a flag at its n-th allocation, as another thread might. */
typedef struct signal {
    counter count;
    int32_t raised;
} signal;

static void *signalling(void *user, size_t size)
{
    signal *s = user;

    if (s->count.made == s->count.fail_at)
        s->raised = 1;
    s->count.made++;
    return malloc(size);
}

static void silent(void *user, void *block)
{
    (void)user;
    free(block);
}

/* Stopped anywhere, what was judged is ranked, and the rest can be added later. */
START_TEST(a_sweep_stops_when_told)
{
    enum { MODULES = 6, INVERTERS = 3, PAIRS = MODULES * INVERTERS };
    pvsize_spec *search = question(10.5, 12, 16, 1), *module[MODULES], *inverter[INVERTERS];
    pvsize_rules *rules = preset("asnzs_5033_2021");
    double partial = 0;

    for (int i = 0; i < MODULES; i++)
        module[i] = trade_module(10 + 0.1 * i);
    for (int i = 0; i < INVERTERS; i++) {
        inverter[i] = trade_inverter();
        OK(pvsize_spec_set_number(inverter[i], PVSIZE_INVERTER_RATED_AC_POWER, 7500 - 500 * i,
                                  diag));
    }
    for (long n = 0;; n += 1 + n / 8) {
        signal s = {{0, 0, -1}, 0};
        const pvsize_allocator memory = {signalling, silent, &s};
        pvsize_ranking *ranking;
        double done, judged, fitting;
        int32_t count;

        OK(pvsize_ranking_new(search, rules, PAIRS, &memory, &ranking, diag));
        s.count.fail_at = s.count.made + n;
        OK(pvsize_ranking_add_all(ranking, (const pvsize_spec *const *)module, MODULES,
                                  (const pvsize_spec *const *)inverter, INVERTERS, 0, 0, &s.raised,
                                  &done, diag));
        OK(pvsize_ranking_judged(ranking, &judged, &fitting, NULL, diag));
        OK(pvsize_ranking_count(ranking, &count, diag));
        ck_assert(done == judged && judged <= PAIRS && fitting <= judged && count == fitting);
        ck_assert(s.raised || judged == PAIRS);
        partial += judged > 0 && judged < PAIRS;
        pvsize_ranking_free(ranking);
        if (!s.raised)
            break;
    }
    ck_assert(partial > 10);
    for (int i = 0; i < MODULES; i++)
        pvsize_spec_free(module[i]);
    for (int i = 0; i < INVERTERS; i++)
        pvsize_spec_free(inverter[i]);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* A pair whose search was stopped is not judged. */
START_TEST(a_stopped_pair_is_not_judged)
{
    pvsize_spec *search = question(10.5, 12, 16, 1), *module = trade_module(10);
    pvsize_spec *inverter = trade_inverter();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_ranking *ranking;
    const int32_t raised = 1;
    int32_t fits = -1, at = -1;
    double judged = -1, unproven = -1;

    OK(pvsize_ranking_new(search, rules, 3, NULL, &ranking, diag));
    OK(pvsize_ranking_add(ranking, module, inverter, 7, 9, &raised, &fits, diag));
    ck_assert_int_eq(fits, 0);
    OK(pvsize_ranking_judged(ranking, &judged, NULL, &unproven, diag));
    ck_assert(judged == 0 && unproven == 0);
    OK(pvsize_ranking_add(ranking, module, inverter, 7, 9, NULL, &fits, diag));
    ck_assert_int_eq(fits, 1);
    OK(pvsize_ranking_judged(ranking, &judged, NULL, NULL, diag));
    ck_assert(judged == 1);
    OK(pvsize_ranking_pair(ranking, 0, &at, NULL, diag));
    ck_assert_int_eq(at, 7);
    OK(pvsize_ranking_pair(ranking, 0, NULL, &at, diag));
    ck_assert_int_eq(at, 9);
    pvsize_ranking_free(ranking);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(module);
    pvsize_spec_free(search);
}
END_TEST

/* memory */

static pvsize_status every_call(const pvsize_spec *search, const pvsize_rules *rules,
                                const pvsize_spec *module, const pvsize_spec *inverter,
                                const pvsize_allocator *memory)
{
    const pvsize_spec *modules[] = {module, module, module, module};
    const pvsize_spec *inverters[] = {inverter, inverter};
    pvsize_layouts *layouts = NULL;
    pvsize_ranking *ranking = NULL, *other = NULL;
    pvsize_spec *system = NULL;
    pvsize_report *report = NULL;
    pvsize_status s = pvsize_layouts_new(memory, &layouts, NULL);

    if (!s)
        s = pvsize_search(search, rules, NULL, layouts, NULL);
    if (!s)
        s = pvsize_layouts_system(layouts, 0, memory, &system, NULL);
    if (!s)
        s = pvsize_report_new(memory, &report, NULL);
    if (!s)
        s = pvsize_layouts_report(layouts, 0, report, NULL);
    if (!s)
        s = pvsize_ranking_new(search, rules, 2, memory, &ranking, NULL);
    if (!s)
        s = pvsize_ranking_add_shard(ranking, 0, 1, NULL, NULL, NULL);
    if (!s)
        s = pvsize_ranking_new(search, rules, 2, memory, &other, NULL);
    if (!s)
        s = pvsize_ranking_merge(other, ranking, NULL);
    if (!s)
        s = pvsize_ranking_add_all(other, modules, 4, inverters, 2, 0, 0, NULL, NULL, NULL);
    pvsize_layouts_free(layouts);
    pvsize_ranking_free(ranking);
    pvsize_ranking_free(other);
    pvsize_spec_free(system);
    pvsize_report_free(report);
    return s;
}

START_TEST(every_allocation_fails_once)
{
    pvsize_spec *search = question(10.5, 8, 0, 1), *module = trade_module(10.5);
    pvsize_spec *inverter = trade_inverter();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    long n;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
    for (n = 0;; n++) {
        counter c = {0, 0, n};
        const pvsize_allocator memory = {counted, released, &c};
        pvsize_status status = every_call(search, rules, module, inverter, &memory);

        ck_assert_msg(c.live == 0, "%ld blocks left after failing allocation %ld", c.live, n);
        if (status == PVSIZE_OK)
            break;
        ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
    }
    ck_assert_int_gt(n, 100); /* that many were tried */
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
    pvsize_spec_free(inverter);
    pvsize_spec_free(search);
}
END_TEST

/* An allocator that fails the n-th large block. */
static void *few_blocks(void *user, size_t size)
{
    counter *c = user;

    if (size >= 4096 && c->made++ == c->fail_at)
        return NULL;
    c->live++;
    return malloc(size);
}

/* What a search takes lies in blocks with room for many takings: which of them begins a block
 * depends on those before. With candidates that are the same module over and over, and rooms of
 * several sizes, each begins one some time, and may find none. */
static void fail_blocks(int32_t room, int32_t modules, int inverters)
{
    pvsize_spec *search = question(10.5, room, 0, inverters), *module = trade_module(10.5);
    pvsize_rules *rules = rules_of_inputs();

    for (int32_t i = 0; i < modules; i++) {
        counter c = {0, 0, 0};
        const pvsize_allocator memory = {few_blocks, released, &c};
        pvsize_layouts *layouts;
        pvsize_status status;

        OK(pvsize_layouts_new(&memory, &layouts, diag));
        do {
            c.made = 0;
            status = pvsize_search(search, rules, NULL, layouts, NULL);
            ck_assert(status == PVSIZE_OK || status == PVSIZE_E_NO_MEMORY);
            ck_assert(count_of(layouts) == 0 || status == PVSIZE_OK);
            ck_assert(status == PVSIZE_OK || c.made > c.fail_at);
            c.fail_at++;
        } while (status != PVSIZE_OK);
        ck_assert_int_gt(c.fail_at, 3);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == room);
        pvsize_layouts_free(layouts);
        ck_assert_int_eq(c.live, 0);
        OK(pvsize_spec_add(search, module, NULL, diag));
    }
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
    pvsize_spec_free(search);
}

START_TEST(every_block_fails_once_wherever_it_begins)
{
    fail_blocks(2, 520, 1); /* the candidates themselves fill a block */
    for (int32_t room = 3; room < 6; room++)
        fail_blocks(room, 210, 1);
    fail_blocks(2, 210, 2);
}
END_TEST

/* Once the tables are made, steps cost no memory. */
START_TEST(combining_allocates_nothing)
{
    pvsize_spec *search = question(10.5, 16, 12, 2);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    counter c = {0, 0, -1};
    const pvsize_allocator memory = {counted, released, &c};
    pvsize_layouts *layouts;
    double whole, budget;
    long made[2];

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 500, diag));
    OK(pvsize_layouts_new(&memory, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_layouts_nodes(layouts, &whole, diag));
    ck_assert(whole > 1000);
    for (int i = 0; i < 2; i++) {
        budget = floor(whole * (0.5 + 0.4 * i));
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, budget, diag));
        made[i] = -c.made;
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        made[i] += c.made;
    }
    ck_assert_int_eq(made[0], made[1]);
    pvsize_layouts_free(layouts);
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* Most pairs are judged without a search, and so without an allocation, by every preset:
 * none has a rule that a sweep cannot tell by. */
START_TEST(a_sweep_searches_few_pairs)
{
    enum { MODULES = 30, INVERTERS = 10, PAIRS = MODULES * INVERTERS };
    pvsize_spec *search = question(10.5, 16, 12, 1), *module[MODULES], *inverter[INVERTERS];

    for (int i = 0; i < MODULES; i++) {
        module[i] = trade_module(8 + 0.2 * i);
        OK(pvsize_spec_set_number(module[i], PVSIZE_MODULE_PMAX, 415 - 0.1 * i, diag));
    }
    for (int i = 0; i < INVERTERS; i++) {
        inverter[i] = trade_inverter();
        OK(pvsize_spec_set_number(inverter[i], PVSIZE_INVERTER_RATED_AC_POWER, 7500 - 200 * i,
                                  diag));
    }
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = preset(pvsize_preset_name(i));
        counter c = {0, 0, -1};
        const pvsize_allocator memory = {counted, released, &c};
        pvsize_ranking *ranking;
        double done, fitting;

        OK(pvsize_ranking_new(search, rules, 1, &memory, &ranking, diag));
        OK(pvsize_ranking_add_all(ranking, (const pvsize_spec *const *)module, MODULES,
                                  (const pvsize_spec *const *)inverter, INVERTERS, 0, 0, NULL,
                                  &done, diag));
        OK(pvsize_ranking_judged(ranking, NULL, &fitting, NULL, diag));
        ck_assert(done == PAIRS && fitting > PAIRS / 3);
        ck_assert_msg(c.made < 8 * PAIRS, "%s: %ld", pvsize_preset_name(i), c.made);
        pvsize_ranking_free(ranking);
        pvsize_rules_free(rules);
    }
    for (int i = 0; i < MODULES; i++)
        pvsize_spec_free(module[i]);
    for (int i = 0; i < INVERTERS; i++)
        pvsize_spec_free(inverter[i]);
    pvsize_spec_free(search);
}
END_TEST

/* Judged all at once and pair by pair the ranking is the same. Returns how many pairs fit. */
static double same_both_ways(const pvsize_spec *search, const pvsize_rules *rules)
{
    enum { MODULES = 5, INVERTERS = 3, KEPT = 3 }; /* enough for a sieve */
    pvsize_spec *module[MODULES], *inverter[INVERTERS];
    pvsize_ranking *all, *each;
    double fitting[2];
    int32_t count[2];

    for (int i = 0; i < MODULES; i++) {
        module[i] = trade_module(10.2 + 0.1 * i);
        OK(pvsize_spec_set_number(module[i], PVSIZE_MODULE_PMAX, 415 - 5 * i, diag));
    }
    for (int i = 0; i < INVERTERS; i++) {
        inverter[i] = trade_inverter();
        OK(pvsize_spec_set_number(inverter[i], PVSIZE_INVERTER_RATED_AC_POWER, 7500 - 2000 * i,
                                  diag));
    }
    OK(pvsize_ranking_new(search, rules, KEPT, NULL, &all, diag));
    OK(pvsize_ranking_new(search, rules, KEPT, NULL, &each, diag));
    OK(pvsize_ranking_add_all(all, (const pvsize_spec *const *)module, MODULES,
                              (const pvsize_spec *const *)inverter, INVERTERS, 0, 0, NULL, NULL,
                              diag));
    for (int32_t m = 0; m < MODULES; m++)
        for (int32_t i = 0; i < INVERTERS; i++)
            OK(pvsize_ranking_add(each, module[m], inverter[i], m, i, NULL, NULL, diag));
    OK(pvsize_ranking_judged(all, NULL, &fitting[0], NULL, diag));
    OK(pvsize_ranking_judged(each, NULL, &fitting[1], NULL, diag));
    OK(pvsize_ranking_count(all, &count[0], diag));
    OK(pvsize_ranking_count(each, &count[1], diag));
    ck_assert(fitting[0] == fitting[1] && count[0] == count[1]);
    for (int32_t i = 0; i < count[0]; i++) {
        int32_t m[2], at[2];
        double power[2];

        OK(pvsize_ranking_pair(all, i, &m[0], &at[0], diag));
        OK(pvsize_ranking_pair(each, i, &m[1], &at[1], diag));
        OK(pvsize_ranking_number(all, i, PVSIZE_LAYOUT_POWER, &power[0], diag));
        OK(pvsize_ranking_number(each, i, PVSIZE_LAYOUT_POWER, &power[1], diag));
        ck_assert(m[0] == m[1] && at[0] == at[1] && power[0] == power[1]);
    }
    pvsize_ranking_free(all);
    pvsize_ranking_free(each);
    for (int i = 0; i < MODULES; i++)
        pvsize_spec_free(module[i]);
    for (int i = 0; i < INVERTERS; i++)
        pvsize_spec_free(inverter[i]);
    return fitting[0];
}

START_TEST(a_sweep_agrees_with_pairs_under_own_rules)
{
    static const struct {
        int32_t value, compare, limit_of;
        double limit;
    } own[] = {
        {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_MORE_THAN, 0, 200},
        {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST, 0, 1e9},
        /* just where rounding decides */
        {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_MOST, 0, 35.151 * 10 / (1 + 1e-9)},
        {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 5 / (1 + 1e-9)},
        {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_AT_MOST, 0, 5 / (1 + 1e-9)},
        {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_AT_MOST, 0, 5 * (1 - 2e-12) / (1 + 1e-9)},
        {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_AT_MOST, 0, 5 * (1 + 2e-12) / (1 + 1e-9)},
        {PVSIZE_QUANTITY_ARRAY_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_AC_POWER, 0.4},
        {PVSIZE_INPUT_TERMINALS, PVSIZE_COMPARE_AT_LEAST, PVSIZE_QUANTITY_INPUT_STRINGS, 1},
        {PVSIZE_ARRAY_INPUT, PVSIZE_COMPARE_AT_MOST, 0, 0},
        {PVSIZE_QUANTITY_ARRAY_DC_DROP, PVSIZE_COMPARE_AT_MOST, 0, 5},
        {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_PV_POWER,
         1},
        {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_LEAST, 0, -1},
        {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST, PVSIZE_SITE_SUPPLY_VOLTAGE, 2},
        {PVSIZE_QUANTITY_MODULE_VOC_COLD, PVSIZE_COMPARE_MORE_THAN, 0, 10},
        {PVSIZE_MODULE_ISC, PVSIZE_COMPARE_MORE_THAN, 0, 10.3},
        {PVSIZE_QUANTITY_ARRAY_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_PV_LIMIT, 0.5},
        {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST, PVSIZE_PLANE_CAPACITY, 0.5},
        {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_MORE_THAN, PVSIZE_PLANE_CAPACITY, 0.2},
        {PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_LEAST, 0, 5},
        {PVSIZE_QUANTITY_INPUT_VOC_DIFFERENCE, PVSIZE_COMPARE_AT_MOST, 0, 1},
        {PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST, 0, 4000},
        {PVSIZE_INVERTER_RATED_AC_POWER, PVSIZE_COMPARE_AT_LEAST, 0, 5000},
        {PVSIZE_INPUT_TERMINALS, PVSIZE_COMPARE_AT_LEAST, 0, 3},
    };
    const size_t others = sizeof own / sizeof *own;
    size_t fitting = 0;

    for (size_t i = 0; i < others + sizeof sums / sizeof *sums; i++) {
        pvsize_spec *search = question(10.5, 12, 16, 1);
        pvsize_rules *rules =
            i < others ? with_own_rule(own[i].value, own[i].compare, own[i].limit_of, own[i].limit)
                       : with_own_rule(sums[i - others].value, PVSIZE_COMPARE_AT_MOST,
                                       sums[i - others].limit_of, sums[i - others].limit);

        fitting += same_both_ways(search, rules) > 0;
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
    ck_assert_uint_gt(fitting, others);
}
END_TEST

START_TEST(a_sweep_agrees_with_pairs_for_every_objective)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    for (int32_t objective = PVSIZE_OBJECTIVE_POWER; objective <= PVSIZE_OBJECTIVE_PLANE_ORDER;
         objective++) {
        /* reachable, between two counts of modules, out of reach */
        for (double wanted = 4000; wanted < 40000; wanted *= 2.13) {
            pvsize_spec *search = question(10.5, 12, 16, 1), *system, *site;

            OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
            OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
            give(site, face(20, 1700)); /* the best plane comes last */
            OK(pvsize_spec_replace(system, 0, site, diag));
            OK(pvsize_spec_replace(search, 0, system, diag));
            OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, objective, diag));
            OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_POWER, wanted, diag));
            ck_assert(same_both_ways(search, rules) > 0);
            pvsize_spec_free(site);
            pvsize_spec_free(system);
            pvsize_spec_free(search);
        }
    }
    pvsize_rules_free(rules);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "trade", the_trades_unlike_inputs);
    add_test(suite, "largest Isc", the_trades_largest_isc);
    add_test(suite, "miss", a_miss_is_told_with_what_passes);
    add_test(suite, "total", a_total_that_cannot_be_had);
    add_test(suite, "symmetry", like_inverters_count_once);
    add_test(suite, "systems", answers_are_whole_systems);
    add_test(suite, "determinism", the_same_question_gives_the_same_answers);
    add_test(suite, "stopping", it_stops_when_told);
    add_test(suite, "plane order", planes_are_filled_in_order);
    add_test(suite, "wrong questions", wrong_questions_are_refused);
    add_test(suite, "order", too_much_to_put_in_order);
    add_test(suite, "fixed beyond room", a_fixed_array_beyond_all_room);
    add_test(suite, "own rules", an_own_rule_cannot_speak_of_a_search);
    add_test(suite, "sums", own_rules_on_sums_bound_a_search);
    add_test(suite, "two sums", the_lower_of_two_sums_bounds_a_search);
    add_test(suite, "many planes", many_planes_and_inputs);
    add_test(suite, "large tables", more_modules_than_tables_have_places);
    add_test(suite, "inputs apart", like_inputs_that_stand_apart);
    add_test(suite, "devices", devices_and_isolators_stand_in_the_answer);
    add_test(suite, "one passes", one_module_passes);
    add_test(suite, "two planes", a_miss_on_two_planes);
    add_test(suite, "at the limit", missed_by_nothing);
    add_test(suite, "limit of nothing", the_nearest_miss_of_a_limit_of_nothing);
    add_test(suite, "refused", an_input_is_refused_by_the_whole);
    add_test(suite, "no plane", no_plane_for_the_shortest);
    add_test(suite, "smallest", the_smallest_on_all_inputs);
    add_test(suite, "no reason", no_reason_before_anything_is_tried);
    add_test(suite, "beyond power", a_fixed_array_beyond_the_inverters_power);
    add_test(suite, "all fixed", all_is_fixed);
    add_test(suite, "budget of totals", the_budget_ends_before_a_total_is_known);
    add_test(suite, "memory without answer", every_allocation_fails_once_without_an_answer);
    add_test(suite, "wrong ways", wrong_ways_to_ask);
    add_test(suite, "no rating", a_rating_that_does_not_exist);
    add_test(suite, "devices by length", devices_of_every_length);
    add_test(suite, "no room, no yield", a_plane_without_room_needs_no_yield);
    add_test(suite, "no power", a_fixed_array_without_a_power);
    add_test(suite, "odd pairs", a_sweep_of_odd_pairs);
    add_test(suite, "wrong sweep", a_sweep_of_a_wrong_question);
    add_test(suite, "stopped sweep", a_sweep_stops_when_told);
    add_test(suite, "stopped pair", a_stopped_pair_is_not_judged);
    add_test(suite, "budget in refusals", the_budget_ends_in_refusals);
    add_test(suite, "large plane", few_modules_on_a_large_plane);
    add_test(suite, "many inverters", more_inverters_than_tables_have_places);
    add_test(suite, "complete", all_fixed_is_all_there_is);
    add_test(suite, "sweep and pairs", a_sweep_agrees_with_pairs_under_own_rules);
    add_test(suite, "sweep by objective", a_sweep_agrees_with_pairs_for_every_objective);
    add_test(suite, "sweep", a_sweep_searches_few_pairs);
    add_test(suite, "shards", shards_merge_to_the_same_ranking);
    add_test(suite, "wrong rankings", wrong_rankings_are_refused);
    add_test(suite, "memory", every_allocation_fails_once);
    add_test(suite, "memory by blocks", every_block_fails_once_wherever_it_begins);
    add_test(suite, "no allocation", combining_allocates_nothing);
}

int main(void)
{
    return run_cases("layout", add);
}
