/* What no stringing exceeds, seen from inside: tables that count many modules as one, and memory
 * that is not to be had. */
#include "../../lib/layout/layout.h"
#include "../support/pv_test.h"

START_TEST(no_block_of_more_than_there_is)
{
    const pvsz_memory *memory = NULL;
    counter c = {0, 0, -1};
    const pvsize_allocator counting = {counted, released, &c};
    pvsize_layouts *layouts;
    pvsz_problem problem = {.memory = NULL};

    OK(pvsize_layouts_new(&counting, &layouts, diag));
    memory = &layouts->head.memory;
    problem.memory = memory;
    ck_assert_ptr_null(pvsz_take(&problem, SIZE_MAX, 8));
    ck_assert_ptr_null(pvsz_take(&problem, SIZE_MAX / 8 + 2, 8)); /* 16 modulo the largest */
    ck_assert_int_eq(c.made, 1);
    ck_assert_ptr_nonnull(pvsz_take(&problem, 0, 8));
    pvsz_end_problem(&problem);
    pvsize_layouts_free(layouts);
    ck_assert_int_eq(c.live, 0);
}
END_TEST

enum { INPUTS = 60, MOST = 3, LENGTH = 1000 };

/* Inputs of three strings of 1000 modules each, one module of 415 W. */
static pvsize_spec *large_question(void)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_SHORTEST_STRING, LENGTH,
                               PVSIZE_SEARCH_LONGEST_STRING, LENGTH);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site = SPEC(PVSIZE_KIND_SITE, 0);
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 1e6);

    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 400000,
                    PVSIZE_PLANE_CURRENT_CORRECTION, 1));
    give(system, site);
    for (int i = 0; i < INPUTS; i++)
        give(inverter, SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 40));
    give(system, inverter);
    give(search, system);
    give(search, SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, 415, PVSIZE_MODULE_ISC, 10.5,
                      PVSIZE_MODULE_ISC_COEFFICIENT, 0.04, PVSIZE_MODULE_BIFACIALITY, 0));
    return search;
}

/* Whatever the total, and for a total exactly: no less than so many strings give, neither where
 * an inverter is begun nor in the midst of it; and nothing beyond what is left. */
START_TEST(coarse_tables_bound_all_there_is)
{
    pvsize_spec *search = large_question();
    pvsize_rules *rules;
    pvsize_layouts *layouts;
    pvsz_bounds *bounds;
    pvsz_problem problem = {.diag = diag};
    int32_t room = 400000;
    pvsz_room at = {.plane = &room};
    pvsz_key key;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    OK(pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.25, NULL, diag));
    OK(pvsize_rules_set_severity(rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_add(rules, "own", "own", PVSIZE_QUANTITY_INVERTER_PV_POWER,
                        PVSIZE_COMPARE_AT_MOST, 0, 100.5 * LENGTH * 415, PVSIZE_SEVERITY_MUST, NULL,
                        NULL, diag));
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    problem.rules = rules;
    problem.memory = &layouts->head.memory;
    OK(pvsz_pose(&problem, search));
    problem.sign = 1;
    problem.floor_power = INT64_MIN;
    OK(pvsz_find_options(&problem));
    ck_assert_int_eq((int)problem.group[0].count, MOST + 1);
    pvsz_order_options(&problem);
    OK(pvsz_make_bounds(&problem, &bounds));
    for (int32_t strings = 0; strings <= 100; strings++) {
        const int64_t power = (int64_t)strings * LENGTH * 415000;

        key = pvsz_bound_exactly(&problem, bounds, strings * LENGTH);
        ck_assert(key.level[0] >= power);
        /* the same left on the inverter, from an input in its midst */
        at.unit_power = at.system_power = (int64_t)(100 - strings) * LENGTH * 415000;
        key = pvsz_bound(&problem, bounds, 20, &at);
        ck_assert(key.level[0] >= power);
        ck_assert(key.level[0] <= power + (int64_t)LENGTH * 415000);
    }
    at.unit_power = (int64_t)102 * LENGTH * 415000; /* beyond the limit */
    key = pvsz_bound(&problem, bounds, 20, &at);
    ck_assert(pvsz_is_never(&key));
    pvsz_end_problem(&problem);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "memory", no_block_of_more_than_there_is);
    add_test(suite, "coarse tables", coarse_tables_bound_all_there_is);
}

int main(void)
{
    return run_cases("bounds", add);
}
