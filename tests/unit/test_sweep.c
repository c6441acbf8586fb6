/* All pairs of modules and inverters at once rank as pair by pair, with few searches. */
#include "../support/pv_layout.h"

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
    add_test(suite, "odd pairs", a_sweep_of_odd_pairs);
    add_test(suite, "wrong sweep", a_sweep_of_a_wrong_question);
    add_test(suite, "sweep and pairs", a_sweep_agrees_with_pairs_under_own_rules);
    add_test(suite, "sweep by objective", a_sweep_agrees_with_pairs_for_every_objective);
    add_test(suite, "sweep", a_sweep_searches_few_pairs);
}

int main(void)
{
    return run_cases("sweep", add);
}
