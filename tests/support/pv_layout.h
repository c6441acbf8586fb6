/* Questions for a search: an inverter of the trade with two unlike inputs, a roof of two planes,
 * and what is read from the answers. */
#ifndef PV_LAYOUT_H
#define PV_LAYOUT_H

#include "pv_test.h"

/* An input of the trade's unlike pair: operating and short-circuit current. */
static inline pvsize_spec *trade_input(double operating, double fault, double terminals)
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

static inline pvsize_spec *trade_inverter(void)
{
    pvsize_spec *inverter =
        SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500,
             PVSIZE_INVERTER_MAX_PV_POWER, 9980, PVSIZE_INVERTER_PHASES, 1,
             PVSIZE_INVERTER_AC_VOLTAGE, 230, PVSIZE_INVERTER_BACKFEED_CURRENT, 0);

    give(inverter, trade_input(22, 26.4, 2));
    give(inverter, trade_input(11, 13.2, 1));
    return inverter;
}

static inline pvsize_spec *trade_module(double isc)
{
    return SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, 415, PVSIZE_MODULE_VOC, 49.8,
                PVSIZE_MODULE_ISC, isc, PVSIZE_MODULE_VMP, 41.5, PVSIZE_MODULE_IMP, 10,
                PVSIZE_MODULE_VOC_COEFFICIENT, -0.25, PVSIZE_MODULE_ISC_COEFFICIENT, 0.04,
                PVSIZE_MODULE_PMAX_COEFFICIENT, -0.3, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 1000,
                PVSIZE_MODULE_MAX_SERIES_FUSE, 25, PVSIZE_MODULE_BIFACIALITY, 0);
}

static inline pvsize_spec *face(double capacity, double yield)
{
    return SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, capacity, PVSIZE_PLANE_MOUNTING,
                PVSIZE_MOUNTING_RAISED, PVSIZE_PLANE_CURRENT_CORRECTION, 1,
                PVSIZE_PLANE_SPECIFIC_YIELD, yield);
}

static inline pvsize_spec *trade_site(double first, double second)
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
static inline pvsize_spec *question(double isc, double first, double second, int inverters)
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

/* Two inputs, each with an array of its own: nothing is left to be searched. */
static inline pvsize_spec *question_of_fixed_arrays(void)
{
    pvsize_spec *search = question(10.5, 40, 0, 1), *system;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, i, PVSIZE_ARRAY_PLANE, 0,
                                  PVSIZE_ARRAY_MODULES_PER_STRING, 5, PVSIZE_ARRAY_STRINGS, 1);

        give(array, trade_module(10.5));
        give(system, array);
    }
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    return search;
}

static inline pvsize_rules *rules_of_inputs(void)
{
    pvsize_rules *rules;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.25, NULL, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_VOC_COLD_INPUT, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    return rules;
}

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

static inline pvsize_rules *with_own_rule(int32_t value, int32_t compare, int32_t limit_of,
                                          double limit)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 1.33, NULL, diag));
    OK(pvsize_rules_add(rules, "own", "own", value, compare, limit_of, limit, PVSIZE_SEVERITY_MUST,
                        NULL, NULL, diag));
    return rules;
}

/* A rule of one's own, of severity MUST. */
static inline void add_must(pvsize_rules *rules, const char *name, int32_t value, int32_t compare,
                            int32_t limit_of, double limit)
{
    OK(pvsize_rules_add(rules, name, name, value, compare, limit_of, limit, PVSIZE_SEVERITY_MUST,
                        NULL, NULL, diag));
}

static inline pvsize_layouts *answered(const pvsize_spec *search, const pvsize_rules *rules)
{
    pvsize_layouts *layouts;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    return layouts;
}

static inline pvsize_layouts *searched(const pvsize_spec *search)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts = answered(search, rules);

    pvsize_rules_free(rules);
    return layouts;
}

static inline double number(const pvsize_layouts *layouts, int32_t i, int32_t what)
{
    double value;

    OK(pvsize_layouts_number(layouts, i, what, &value, diag));
    return value;
}

static inline int32_t count_of(const pvsize_layouts *layouts)
{
    int32_t count;

    OK(pvsize_layouts_count(layouts, &count, diag));
    return count;
}

static inline int32_t obstacles_of(const pvsize_layouts *layouts)
{
    int32_t count;

    OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
    return count;
}

/* The obstacle of a rule on an input with so many strings; -1: none. */
static inline int32_t obstacle_of(const pvsize_layouts *layouts, int32_t rule, int32_t input,
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

/* Its rule and place, and the text that must be in its line. */
static inline void expect_obstacle(const pvsize_layouts *layouts, int32_t i, int32_t rule,
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

#endif
