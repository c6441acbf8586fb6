/* A search, and a sweep, that is stopped or comes to the end of its budget. */
#include "../support/pv_layout.h"

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

static void add(Suite *suite)
{
    add_test(suite, "stopping", it_stops_when_told);
    add_test(suite, "no reason", no_reason_before_anything_is_tried);
    add_test(suite, "budget of totals", the_budget_ends_before_a_total_is_known);
    add_test(suite, "stopped sweep", a_sweep_stops_when_told);
    add_test(suite, "stopped pair", a_stopped_pair_is_not_judged);
    add_test(suite, "budget in refusals", the_budget_ends_in_refusals);
}

int main(void)
{
    return run_cases("layout_stopping", add);
}
