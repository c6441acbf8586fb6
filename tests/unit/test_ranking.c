/* Rankings of modules and inverters: in parts that are merged, and asked for wrongly. */
#include "../support/pv_layout.h"

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

static void add(Suite *suite)
{
    add_test(suite, "shards", shards_merge_to_the_same_ranking);
    add_test(suite, "wrong rankings", wrong_rankings_are_refused);
}

int main(void)
{
    return run_cases("ranking", add);
}
