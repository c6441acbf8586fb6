/* See operations.h: searches and rankings. */
#include "operations.h"

#include <stdlib.h>

#include "plain.h"

typedef struct searching {
    job j;
    pvsize_spec *search;
    pvsize_rules *rules;
    pvsize_layouts *layouts;
} searching;

static void *make_for(size s, int32_t objective)
{
    searching *x = room_for(sizeof *x);

    x->j = job_of(s.inputs, s.planes, s.count);
    x->search = search_spec(&x->j, objective, 1);
    x->rules = rules_of_house();
    MUST(pvsize_layouts_new(job_memory, &x->layouts, job_diag));
    return x;
}

static void *make_by_power(size s)
{
    return make_for(s, PVSIZE_OBJECTIVE_POWER);
}

static void *make_by_energy(size s)
{
    return make_for(s, PVSIZE_OBJECTIVE_ENERGY);
}

static void run_search(void *state)
{
    searching *x = state;

    MUST(pvsize_search(x->search, x->rules, NULL, x->layouts, job_diag));
}

static int proven(void *state)
{
    int32_t ending;

    MUST(pvsize_layouts_ending(((searching *)state)->layouts, &ending, job_diag));
    return ending == PVSIZE_ENDING_PROVEN;
}

static void run_plain_search(void *state)
{
    plain_search(&((searching *)state)->j);
}

static void unmake_search(void *state)
{
    searching *x = state;

    pvsize_spec_free(x->search);
    pvsize_rules_free(x->rules);
    pvsize_layouts_free(x->layouts);
    free(x);
}

/* A catalogue of `count` modules and as many inverters. A run judges a hundredth of it; when all
 * is judged it begins anew. */
typedef struct sweeping {
    int count, at;
    job site;
    module_sheet *modules;
    inverter_sheet *inverters;
    pvsize_spec *search, **module, **inverter;
    pvsize_rules *rules;
    pvsize_ranking *ranking;
} sweeping;

static int modules_in_run(int count)
{
    return count < 100 ? 1 : count / 100;
}

static double pairs_in_run(size s)
{
    return (double)modules_in_run(s.count) * s.count;
}

static void *make_plain_sweep(size s)
{
    sweeping *x = room_for(sizeof *x);

    x->count = s.count;
    x->site = job_of(2, 2, 36);
    x->modules = room_for((size_t)s.count * sizeof *x->modules);
    x->inverters = room_for((size_t)s.count * sizeof *x->inverters);
    for (int i = 0; i < s.count; i++) {
        x->modules[i] = module_drawn((uint64_t)i);
        x->inverters[i] = inverter_drawn((uint64_t)i);
    }
    return x;
}

static void *make_ranking(size s)
{
    sweeping *x = make_plain_sweep(s);

    x->search = search_spec(&x->site, PVSIZE_OBJECTIVE_ENERGY, 1);
    x->rules = rules_of_house();
    x->module = room_for((size_t)s.count * sizeof(pvsize_spec *));
    x->inverter = room_for((size_t)s.count * sizeof(pvsize_spec *));
    for (int i = 0; i < s.count; i++) {
        x->module[i] = module_spec(&x->modules[i]);
        x->inverter[i] = inverter_spec(&x->inverters[i]);
    }
    MUST(pvsize_ranking_new(x->search, x->rules, 100, job_memory, &x->ranking, job_diag));
    return x;
}

/* The next pair of the catalogue. */
static void next_run(sweeping *x, void (*judge)(sweeping *x, int module, int inverter))
{
    for (int n = modules_in_run(x->count); n > 0; n--) {
        for (int i = 0; i < x->count; i++)
            judge(x, x->at, i);
        x->at = (x->at + 1) % x->count;
    }
}

static void judge(sweeping *x, int module, int inverter)
{
    MUST(pvsize_ranking_add(x->ranking, x->module[module], x->inverter[inverter], module, inverter,
                            NULL, NULL, job_diag));
}

static void plain_judge(sweeping *x, int module, int inverter)
{
    x->site.module = x->modules[module];
    x->site.inverter = x->inverters[inverter];
    plain_search(&x->site);
}

static void begin_anew(sweeping *x)
{
    pvsize_ranking_free(x->ranking);
    MUST(pvsize_ranking_new(x->search, x->rules, 100, job_memory, &x->ranking, job_diag));
}

static void run_ranking(void *state)
{
    sweeping *x = state;

    if (x->at == 0)
        begin_anew(x);
    next_run(x, judge);
}

/* All of the catalogue at once. */
static double pairs_in_catalogue(size s)
{
    return (double)s.count * s.count;
}

static void run_sweep(void *state)
{
    sweeping *x = state;
    size_t count = (size_t)x->count;

    begin_anew(x);
    MUST(pvsize_ranking_add_all(x->ranking, (const pvsize_spec *const *)x->module, count,
                                (const pvsize_spec *const *)x->inverter, count, 0, 0, NULL, NULL,
                                job_diag));
}

static void run_plain_sweep(void *state)
{
    next_run(state, plain_judge);
}

static void unmake_sweep(void *state)
{
    sweeping *x = state;

    for (int i = 0; x->module && i < x->count; i++) {
        pvsize_spec_free(x->module[i]);
        pvsize_spec_free(x->inverter[i]);
    }
    pvsize_ranking_free(x->ranking);
    pvsize_spec_free(x->search);
    pvsize_rules_free(x->rules);
    free(x->module);
    free(x->inverter);
    free(x->modules);
    free(x->inverters);
    free(x);
}

const operation layout_operations[] = {
    {"search", {2, 2, 32, 0}, NULL, make_by_power, run_search, unmake_search, proven},
    {"search_energy", {2, 2, 32, 0}, NULL, make_by_energy, run_search, unmake_search, proven},
    {"plain_search", {2, 2, 32, 0}, NULL, make_by_energy, run_plain_search, unmake_search, NULL},
    {"ranking", {0, 0, 20, 0}, pairs_in_run, make_ranking, run_ranking, unmake_sweep, NULL},
    {"sweep", {0, 0, 10, 0}, pairs_in_catalogue, make_ranking, run_sweep, unmake_sweep, NULL},
    {"plain_ranking",
     {0, 0, 20, 0},
     pairs_in_run,
     make_plain_sweep,
     run_plain_sweep,
     unmake_sweep,
     NULL},
    {NULL, {0, 0, 0, 0}, NULL, NULL, NULL, NULL, NULL},
};
