/* Many pairs at once. A sieve counts those that fit but cannot be among the best, and
 * those that do not fit; only the others are searched, of each module the most promising
 * first. The order of pairs in a ranking is total, so it is the same as that of all
 * pairs searched one by one. */
#include "ranking.h"
#include "sieve.h"

/* A pair that only a search can judge, or that may be among the best. */
typedef struct candidate {
    size_t inverter;
    bool bounded;
    pvsz_key bound;
} candidate;

/* Modules by inverters; of pairs in the order of modules number `shard` and every
 * `shards`-th behind it. */
typedef struct sweep {
    pvsize_ranking *ranking;
    const pvsize_spec *const *module, *const *inverter;
    size_t modules, inverters;
    int32_t first_module, first_inverter;
    size_t shard, shards;
    const int32_t *cancel;
    pvsz_sieve *sieve;
    candidate *candidate;
    size_t candidates;
} sweep;

/* Whether the sieve spares more than it costs: it looks at each inverter once. */
static bool is_worth_a_sieve(const sweep *s)
{
    return s->modules / s->shards >= 4;
}

static pvsize_status open_sweep(sweep *s, pvsize_diag *diag)
{
    pvsize_ranking *ranking = s->ranking;

    s->candidate = pvsz_new(&ranking->head.memory, s->inverters, sizeof *s->candidate);
    if (!s->candidate)
        return pvsz_no_memory(diag);
    if (!is_worth_a_sieve(s))
        return PVSIZE_OK;
    return pvsz_sieve_new(&ranking->head.memory, ranking->search, ranking->rules, s->inverter,
                          s->inverters, &s->sieve, diag);
}

static void close_sweep(sweep *s)
{
    pvsz_sieve_free(s->sieve);
    pvsz_release(&s->ranking->head.memory, s->candidate);
}

static pvsz_pair pair_of(const sweep *s, size_t module, const candidate *of)
{
    return (pvsz_pair){.key = of->bound,
                       .module = s->first_module + (int32_t)module,
                       .inverter = s->first_inverter + (int32_t)of->inverter};
}

/* Before the other in the order of searching: the unknown first, then the better. */
static bool is_before(const candidate *a, const candidate *b)
{
    int order = pvsz_compare_keys(&a->bound, &b->bound);

    if (a->bounded != b->bounded)
        return !a->bounded;
    return a->bounded && order ? order > 0 : a->inverter < b->inverter;
}

/* Candidates are a heap: none is before the one it hangs below, at half its place. */
static void add_candidate(sweep *s, const candidate *added)
{
    size_t at = s->candidates++;

    for (; at > 0 && is_before(added, &s->candidate[(at - 1) / 2]); at = (at - 1) / 2)
        s->candidate[at] = s->candidate[(at - 1) / 2];
    s->candidate[at] = *added;
}

/* Takes the next candidate out. */
static candidate next_of(sweep *s)
{
    candidate first = s->candidate[0], last = s->candidate[--s->candidates];
    size_t at = 0;

    for (size_t below = 1; below < s->candidates; below = 2 * at + 1) {
        if (below + 1 < s->candidates && is_before(&s->candidate[below + 1], &s->candidate[below]))
            below++;
        if (!is_before(&s->candidate[below], &last))
            break;
        s->candidate[at] = s->candidate[below];
        at = below;
    }
    s->candidate[at] = last;
    return first;
}

/* Judges a pair by the sieve, or leaves it as a candidate. */
static pvsize_status sift(sweep *s, size_t module, size_t inverter, pvsize_diag *diag)
{
    candidate here = {.inverter = inverter};
    int32_t verdict = PVSZ_SIEVE_UNSURE;
    pvsize_status status =
        s->sieve ? pvsz_sift(s->sieve, inverter, &verdict, &here.bound, diag) : PVSIZE_OK;
    pvsz_pair pair;

    if (status)
        return status;
    here.bounded = verdict == PVSZ_SIEVE_FITS;
    pair = pair_of(s, module, &here);
    if (verdict == PVSZ_SIEVE_UNSURE || (here.bounded && pvsz_would_keep(s->ranking, &pair))) {
        add_candidate(s, &here);
        return PVSIZE_OK;
    }
    s->ranking->judged++;
    s->ranking->fitting += here.bounded;
    return PVSIZE_OK;
}

static pvsize_status search_candidates(sweep *s, size_t module, pvsize_diag *diag)
{
    pvsize_ranking *ranking = s->ranking;

    while (s->candidates > 0 && !pvsz_is_raised(s->cancel)) {
        candidate here = next_of(s);
        pvsz_pair pair = pair_of(s, module, &here);
        pvsize_status status;

        if (here.bounded && !pvsz_would_keep(ranking, &pair)) {
            ranking->judged++;
            ranking->fitting++;
            continue;
        }
        status = pvsz_rank_pair(ranking, s->module[module], s->inverter[here.inverter], pair.module,
                                pair.inverter, s->cancel, diag);
        if (status)
            return status;
    }
    return PVSIZE_OK;
}

static pvsize_status sweep_module(sweep *s, size_t module, pvsize_diag *diag)
{
    uint64_t before = (uint64_t)module * s->inverters;
    size_t first = (size_t)((s->shard + s->shards - before % s->shards) % s->shards);
    pvsize_status status = PVSIZE_OK;

    if (s->sieve)
        pvsz_sieve_turn(s->sieve, s->module[module]);
    s->candidates = 0;
    for (size_t i = first; !status && i < s->inverters && !pvsz_is_raised(s->cancel);
         i += s->shards)
        status = sift(s, module, i, diag);
    return status ? status : search_candidates(s, module, diag);
}

static pvsize_status run(sweep *s, double *done, pvsize_diag *diag)
{
    double before = s->ranking->judged;
    pvsize_status status = open_sweep(s, diag);

    for (size_t i = 0; !status && i < s->modules && !pvsz_is_raised(s->cancel); i++)
        status = sweep_module(s, i, diag);
    close_sweep(s);
    if (done)
        *done = s->ranking->judged - before;
    return status;
}

/* the catalogue of the question */

static pvsize_status check_shard(int32_t shard, int32_t shards, pvsize_diag *diag)
{
    if (shards < 1) {
        pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, shards, 1, INT32_MAX);
        pvsz_fail_argument(diag, "shards");
        return PVSIZE_E_OUT_OF_RANGE;
    }
    if (shard >= 0 && shard < shards)
        return PVSIZE_OK;
    pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, shard, 0, shards - 1);
    pvsz_fail_argument(diag, "shard");
    return PVSIZE_E_OUT_OF_RANGE;
}

pvsize_status pvsize_ranking_add_shard(pvsize_ranking *ranking, int32_t shard, int32_t shards,
                                       const int32_t *cancel, double *done, pvsize_diag *diag)
{
    const pvsz_part_list *modules, *inverters;
    sweep s = {.ranking = ranking, .cancel = cancel};
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status)
        status = check_shard(shard, shards, diag);
    if (status)
        return status;
    modules = pvsz_spec_parts(ranking->catalogue, PVSZ_KIND_MODULE);
    inverters = pvsz_spec_parts(pvsz_spec_parts(ranking->catalogue, PVSZ_KIND_SYSTEM)->item[0],
                                PVSZ_KIND_INVERTER);
    s.module = (const pvsize_spec *const *)modules->item;
    s.modules = modules->count;
    s.inverter = (const pvsize_spec *const *)inverters->item;
    s.inverters = inverters->count;
    s.shard = (size_t)shard;
    s.shards = (size_t)shards;
    return run(&s, done, diag);
}

/* a catalogue of the caller's */

static pvsize_status fail_argument(pvsize_diag *diag, const char *name, double value, double most)
{
    pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, value, 0, most);
    pvsz_fail_argument(diag, name);
    return PVSIZE_E_OUT_OF_RANGE;
}

/* Whether so many numbers from the first on are numbers of pairs. Before the list is looked
 * at: a count that is none may be beyond its end. */
static pvsize_status check_numbers(int32_t first, size_t count, bool of_modules, pvsize_diag *diag)
{
    double most = (double)INT32_MAX - (double)(count ? count - 1 : 0);

    if (most < 0)
        return fail_argument(diag, of_modules ? "module_count" : "inverter_count", (double)count,
                             (double)INT32_MAX + 1);
    if (first < 0 || first > most)
        return fail_argument(diag, of_modules ? "first_module" : "first_inverter", first, most);
    return PVSIZE_OK;
}

/* Each handle of a list; the place of a wrong one is told. */
static pvsize_status check_list(const pvsize_spec *const *item, size_t count, bool of_modules,
                                pvsize_diag *diag)
{
    const char *name = of_modules ? "modules" : "inverters";
    int32_t kind = of_modules ? PVSZ_KIND_MODULE : PVSZ_KIND_INVERTER;

    if (!item && count > 0)
        return pvsz_fail_null(diag, name);
    for (size_t i = 0; i < count; i++) {
        pvsize_status status = PVSIZE_OK;

        if (!item[i])
            status = pvsz_fail_null(diag, name);
        else if (!pvsz_spec_live(item[i]))
            status = pvsz_fail_handle(diag, name);
        else if (item[i]->kind != kind)
            status = pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[item[i]->kind].number,
                                    of_modules ? "a module" : "an inverter");
        if (!status)
            continue;
        pvsz_fail_at(diag, (int32_t)i);
        return status;
    }
    return PVSIZE_OK;
}

pvsize_status pvsize_ranking_add_all(pvsize_ranking *ranking, const pvsize_spec *const *modules,
                                     size_t module_count, const pvsize_spec *const *inverters,
                                     size_t inverter_count, int32_t first_module,
                                     int32_t first_inverter, const int32_t *cancel, double *done,
                                     pvsize_diag *diag)
{
    sweep s = {.ranking = ranking,
               .module = modules,
               .modules = module_count,
               .inverter = inverters,
               .inverters = inverter_count,
               .first_module = first_module,
               .first_inverter = first_inverter,
               .shards = 1,
               .cancel = cancel};
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status)
        status = check_numbers(first_module, module_count, true, diag);
    if (!status)
        status = check_numbers(first_inverter, inverter_count, false, diag);
    if (!status)
        status = check_list(modules, module_count, true, diag);
    if (!status)
        status = check_list(inverters, inverter_count, false, diag);
    return status ? status : run(&s, done, diag);
}
