/* All pairs of drawn modules and inverters ranked at once and one by one, on small invented
 * questions. */
#include "../support/pv_question.h"

enum { MODULES = 6, INVERTERS = 5 };

typedef struct catalogue {
    pvsize_spec *module[MODULES], *inverter[INVERTERS];
} catalogue;

static pvsize_spec *catalogue_inverter(draw *d, int32_t i)
{
    pvsize_spec *inverter =
        SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 1000 + 500 * draw_below(d, 4));
    int32_t inputs = i == 3 ? 0 : 1 + draw_below(d, 2); /* one that has none */

    if (draw_below(d, 2))
        OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_MAX_PV_POWER, 900 + 400 * i, diag));
    for (int32_t k = 0; k < inputs; k++) {
        pvsize_spec *input = small_input(draw_below(d, 3));

        if (draw_below(d, 4) == 0) /* strings without end, almost */
            OK(pvsize_spec_set_number(input, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 900, diag));
        if (draw_below(d, 3) == 0)
            OK(pvsize_spec_set_number(input, PVSIZE_INPUT_TERMINALS, 1 + draw_below(d, 3), diag));
        if (draw_below(d, 5) == 0)
            OK(pvsize_spec_unset(input, PVSIZE_INPUT_TERMINALS, diag));
        give(inverter, input);
    }
    return inverter;
}

static catalogue make_catalogue(draw *d)
{
    catalogue c;

    for (int32_t i = 0; i < MODULES; i++) {
        c.module[i] = small_module(draw_below(d, 3));
        OK(pvsize_spec_set_number(c.module[i], PVSIZE_MODULE_PMAX, 250 + 50 * draw_below(d, 5),
                                  diag));
        if (draw_below(d, 6) == 0) /* on a hot day nothing is left of its voltage */
            OK(pvsize_spec_set_number(c.module[i], PVSIZE_MODULE_VOC_COEFFICIENT, -1.9, diag));
    }
    for (int32_t i = 0; i < INVERTERS; i++)
        c.inverter[i] = catalogue_inverter(d, i);
    return c;
}

static void free_catalogue(catalogue *c)
{
    for (int32_t i = 0; i < MODULES; i++)
        pvsize_spec_free(c->module[i]);
    for (int32_t i = 0; i < INVERTERS; i++)
        pvsize_spec_free(c->inverter[i]);
}

static void same_rankings(const pvsize_ranking *all, const pvsize_ranking *each, long seed)
{
    double judged[2], fitting[2], value[2];
    int32_t count[2];

    OK(pvsize_ranking_judged(all, &judged[0], &fitting[0], NULL, diag));
    OK(pvsize_ranking_judged(each, &judged[1], &fitting[1], NULL, diag));
    ck_assert_msg(judged[0] == judged[1] && fitting[0] == fitting[1],
                  "question %ld: %g of %g and %g of %g fit", seed, fitting[0], judged[0],
                  fitting[1], judged[1]);
    OK(pvsize_ranking_count(all, &count[0], diag));
    OK(pvsize_ranking_count(each, &count[1], diag));
    ck_assert_int_eq(count[0], count[1]);
    for (int32_t i = 0; i < count[0]; i++) {
        int32_t module[2], inverter[2];

        OK(pvsize_ranking_pair(all, i, &module[0], &inverter[0], diag));
        OK(pvsize_ranking_pair(each, i, &module[1], &inverter[1], diag));
        ck_assert_msg(module[0] == module[1] && inverter[0] == inverter[1], "question %ld: pair %d",
                      seed, i);
        for (int32_t what = PVSIZE_LAYOUT_POWER; what <= PVSIZE_LAYOUT_OUTCOME; what++) {
            pvsize_status status[2] = {pvsize_ranking_number(all, i, what, &value[0], NULL),
                                       pvsize_ranking_number(each, i, what, &value[1], NULL)};

            ck_assert_int_eq(status[0], status[1]);
            ck_assert(status[0] || value[0] == value[1]);
        }
    }
}

/* The question's site and rules, its inverters left out; how many pairs fit. */
static double ranks_alike(uint64_t seed, const struct own *own)
{
    job j = make_job(seed, own);
    draw d = draw_from_seed(seed + 1);
    catalogue c = make_catalogue(&d);
    int32_t kept = 1 + draw_below(&d, 4);
    pvsize_ranking *all, *each;
    double fitting;

    while (pvsize_spec_remove(j.system, PVSIZE_KIND_ARRAY, 0, NULL) == PVSIZE_OK)
        continue;
    OK(pvsize_spec_replace(j.search, 0, j.system, diag));
    OK(pvsize_ranking_new(j.search, j.rules, kept, NULL, &all, diag));
    OK(pvsize_ranking_new(j.search, j.rules, kept, NULL, &each, diag));
    OK(pvsize_ranking_add_all(all, (const pvsize_spec *const *)c.module, MODULES,
                              (const pvsize_spec *const *)c.inverter, INVERTERS, 0, 0, NULL, NULL,
                              diag));
    for (int32_t m = 0; m < MODULES; m++)
        for (int32_t i = 0; i < INVERTERS; i++)
            OK(pvsize_ranking_add(each, c.module[m], c.inverter[i], m, i, NULL, NULL, diag));
    same_rankings(all, each, j.seed);
    OK(pvsize_ranking_judged(all, NULL, &fitting, NULL, diag));
    pvsize_ranking_free(all);
    pvsize_ranking_free(each);
    free_catalogue(&c);
    free_job(&j);
    return fitting;
}

START_TEST(a_sweep_ranks_as_pairs_do)
{
    enum { QUESTIONS = 6 };
    int32_t fitting = 0;

    for (int32_t own = 0; own < OWNS; own++)
        for (int32_t i = 0; i < QUESTIONS; i++)
            fitting += ranks_alike((uint64_t)own * 1000 + (uint64_t)i, &owns[own]) > 0;
    ck_assert_int_gt(fitting, OWNS * QUESTIONS / 3);
    ck_assert_int_lt(fitting, OWNS * QUESTIONS);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "sweep", a_sweep_ranks_as_pairs_do);
}

int main(void)
{
    return run_cases("search_pairs", add);
}
