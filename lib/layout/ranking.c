/* Pairs of module and inverter for one site, the best first. The order of pairs is
 * total, so that parts of a catalogue can be ranked apart and merged. */
#include "ranking.h"

pvsize_status pvsz_check_ranking(const pvsize_ranking *ranking, const char *name, pvsize_diag *diag)
{
    if (!ranking)
        return pvsz_fail_null(diag, name);
    return pvsz_is(ranking, PVSZ_MARK_RANKING) ? PVSIZE_OK : pvsz_fail_handle(diag, name);
}

/* making */

enum { MOST_ROWS = 1000000 };

/* A search like the question's, with nothing but the site in its system. */
static pvsize_status strip(pvsize_ranking *ranking, pvsize_diag *diag)
{
    pvsize_spec *system;
    pvsize_status status =
        pvsize_spec_clone(ranking->catalogue, &ranking->head.memory, &ranking->search, diag);

    if (status)
        return status;
    for (size_t i = pvsz_spec_parts(ranking->search, PVSZ_KIND_MODULE)->count; i > 0; i--)
        pvsize_spec_remove(ranking->search, PVSIZE_KIND_MODULE, (int32_t)i - 1, NULL);
    system = pvsz_spec_parts(ranking->search, PVSZ_KIND_SYSTEM)->item[0];
    for (size_t i = pvsz_spec_parts(system, PVSZ_KIND_INVERTER)->count; i > 0; i--)
        pvsize_spec_remove(system, PVSIZE_KIND_INVERTER, (int32_t)i - 1, NULL);
    return PVSIZE_OK;
}

static pvsize_status check_catalogue(const pvsize_spec *search, const pvsize_rules *rules,
                                     int32_t most, pvsize_diag *diag)
{
    const pvsz_part_list *systems;
    pvsize_status status = pvsz_check_question(search, rules, diag);

    if (status)
        return status;
    systems = pvsz_spec_parts(search, PVSZ_KIND_SYSTEM);
    if (systems->count == 0)
        return pvsz_fail_term(diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_SYSTEM);
    if (pvsz_spec_parts(systems->item[0], PVSZ_KIND_ARRAY)->count > 0)
        return pvsz_fail_name(diag, PVSIZE_E_TOO_MANY, PVSIZE_KIND_ARRAY,
                              "arrays; a catalogue has none");
    if (pvsz_spec_parts(systems->item[0], PVSZ_KIND_CABLE)->count > 0)
        return pvsz_fail_name(diag, PVSIZE_E_TOO_MANY, PVSIZE_KIND_CABLE,
                              "cables; a catalogue has none");
    if (most < 1 || most > MOST_ROWS) {
        pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, most, 1, MOST_ROWS);
        pvsz_fail_argument(diag, "most");
        return PVSIZE_E_OUT_OF_RANGE;
    }
    return PVSIZE_OK;
}

pvsize_status pvsize_ranking_new(const pvsize_spec *search, const pvsize_rules *rules, int32_t most,
                                 const pvsize_allocator *memory, pvsize_ranking **out,
                                 pvsize_diag *diag)
{
    void *object;
    pvsize_ranking *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = check_catalogue(search, rules, most, diag);
    if (status)
        return status;
    status = pvsz_make(memory, sizeof *made, PVSZ_MARK_RANKING, &object, diag);
    if (status)
        return status;
    made = object;
    made->most = most;
    status = pvsize_spec_clone(search, &made->head.memory, &made->catalogue, diag);
    if (!status)
        status = strip(made, diag);
    if (!status)
        status = pvsize_rules_clone(rules, &made->head.memory, &made->rules, diag);
    if (!status)
        *out = made;
    else
        pvsize_ranking_free(made);
    return status;
}

void pvsize_ranking_free(pvsize_ranking *ranking)
{
    if (!pvsz_is(ranking, PVSZ_MARK_RANKING))
        return;
    pvsize_spec_free(ranking->catalogue);
    pvsize_spec_free(ranking->search);
    pvsize_rules_free(ranking->rules);
    pvsz_release(&ranking->head.memory, ranking->row);
    pvsz_unmake(ranking);
}

/* ranking */

static bool precedes(const pvsz_pair *a, const pvsz_pair *b)
{
    int order = pvsz_compare_keys(&a->key, &b->key);

    if (order)
        return order > 0;
    return a->module != b->module ? a->module < b->module : a->inverter < b->inverter;
}

/* Room for one more is made before. */
static pvsize_status make_room(pvsize_ranking *ranking, pvsize_diag *diag)
{
    pvsz_pair *grown = pvsz_grow(&ranking->head.memory, ranking->row, (size_t)ranking->rows,
                                 &ranking->capacity, sizeof *grown);

    if (!grown)
        return pvsz_no_memory(diag);
    ranking->row = grown;
    return PVSIZE_OK;
}

bool pvsz_would_keep(const pvsize_ranking *ranking, const pvsz_pair *pair)
{
    return ranking->rows < ranking->most || precedes(pair, &ranking->row[ranking->rows - 1]);
}

static void put_in_order(pvsize_ranking *ranking, const pvsz_pair *added)
{
    int32_t at = ranking->rows, low = 0;

    if (!pvsz_would_keep(ranking, added))
        return;
    while (low < at) {
        int32_t middle = low + (at - low) / 2;

        if (precedes(&ranking->row[middle], added))
            low = middle + 1;
        else
            at = middle;
    }
    if (ranking->rows < ranking->most)
        ranking->rows++;
    for (int32_t i = ranking->rows - 1; i > at; i--)
        ranking->row[i] = ranking->row[i - 1];
    ranking->row[at] = *added;
}

pvsize_status pvsz_check_pair(const pvsize_spec *module, const pvsize_spec *inverter,
                              int32_t module_number, int32_t inverter_number, pvsize_diag *diag)
{
    int32_t bad = module_number < 0 ? module_number : inverter_number;

    if (!module || !inverter)
        return pvsz_fail_null(diag, !module ? "module" : "inverter");
    if (!pvsz_spec_live(module))
        return pvsz_fail_handle(diag, "module");
    if (!pvsz_spec_live(inverter))
        return pvsz_fail_handle(diag, "inverter");
    if (module->kind != PVSZ_KIND_MODULE)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[module->kind].number,
                              "a module");
    if (inverter->kind != PVSZ_KIND_INVERTER)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[inverter->kind].number,
                              "an inverter");
    if (module_number >= 0 && inverter_number >= 0)
        return PVSIZE_OK;
    pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, bad, 0, INT32_MAX);
    pvsz_fail_argument(diag, module_number < 0 ? "module_number" : "inverter_number");
    return PVSIZE_E_OUT_OF_RANGE;
}

/* The search with the pair in it; afterwards without. */
static pvsize_status search_pair(pvsize_ranking *ranking, const pvsize_spec *module,
                                 const pvsize_spec *inverter, const int32_t *cancel,
                                 pvsize_diag *diag)
{
    pvsize_spec *system = pvsz_spec_parts(ranking->search, PVSZ_KIND_SYSTEM)->item[0];
    pvsize_status status = pvsize_spec_add(ranking->search, module, NULL, diag);

    if (status)
        return status;
    status = pvsize_spec_add(system, inverter, NULL, diag);
    if (!status) {
        status = pvsz_search_best(ranking->search, ranking->rules, cancel, &ranking->head.memory,
                                  &ranking->best, diag);
        pvsize_spec_remove(system, PVSIZE_KIND_INVERTER, 0, NULL);
    }
    pvsize_spec_remove(ranking->search, PVSIZE_KIND_MODULE, 0, NULL);
    return status;
}

static void count_pair(pvsize_ranking *ranking, int32_t module, int32_t inverter)
{
    const pvsz_best *best = &ranking->best;
    pvsz_pair added = {.module = module, .inverter = inverter};

    ranking->judged++;
    if (best->answers == 0)
        return;
    ranking->fitting++;
    ranking->unproven += best->ending != PVSIZE_ENDING_PROVEN;
    added.key = best->layout.key;
    added.has_energy = best->layout.has_energy;
    for (int32_t i = 0; i <= PVSIZE_LAYOUT_OUTCOME; i++)
        added.number[i] = best->layout.number[i];
    put_in_order(ranking, &added);
}

pvsize_status pvsz_rank_pair(pvsize_ranking *ranking, const pvsize_spec *module,
                             const pvsize_spec *inverter, int32_t module_number,
                             int32_t inverter_number, const int32_t *cancel, pvsize_diag *diag)
{
    pvsize_status status = make_room(ranking, diag);

    if (!status)
        status = search_pair(ranking, module, inverter, cancel, diag);
    if (!status && ranking->best.ending != PVSIZE_ENDING_CANCELLED)
        count_pair(ranking, module_number, inverter_number);
    return status;
}

pvsize_status pvsize_ranking_add(pvsize_ranking *ranking, const pvsize_spec *module,
                                 const pvsize_spec *inverter, int32_t module_number,
                                 int32_t inverter_number, const int32_t *cancel, int32_t *fits,
                                 pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status)
        status = pvsz_check_pair(module, inverter, module_number, inverter_number, diag);
    if (!status)
        status =
            pvsz_rank_pair(ranking, module, inverter, module_number, inverter_number, cancel, diag);
    if (!status && fits)
        *fits = ranking->best.answers > 0;
    return status;
}

pvsize_status pvsize_ranking_merge(pvsize_ranking *ranking, const pvsize_ranking *other,
                                   pvsize_diag *diag)
{
    size_t wanted, capacity;
    pvsz_pair *grown;
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status)
        status = pvsz_check_ranking(other, "other", diag);
    if (!status && other == ranking) {
        pvsz_fail(diag, PVSIZE_E_BAD_HANDLE);
        pvsz_fail_argument(diag, "other");
        status = PVSIZE_E_BAD_HANDLE;
    }
    if (status)
        return status;
    wanted = (size_t)ranking->rows + (size_t)other->rows;
    capacity = wanted > (size_t)ranking->most ? (size_t)ranking->most : wanted;
    grown = pvsz_new(&ranking->head.memory, capacity + 1, sizeof *grown);
    if (!grown)
        return pvsz_no_memory(diag);
    for (int32_t i = 0; i < ranking->rows; i++)
        grown[i] = ranking->row[i];
    pvsz_release(&ranking->head.memory, ranking->row);
    ranking->row = grown;
    ranking->capacity = capacity + 1;
    for (int32_t i = 0; i < other->rows; i++)
        put_in_order(ranking, &other->row[i]);
    ranking->judged += other->judged;
    ranking->fitting += other->fitting;
    ranking->unproven += other->unproven;
    return PVSIZE_OK;
}

/* asking */

pvsize_status pvsize_ranking_judged(const pvsize_ranking *ranking, double *judged, double *fitting,
                                    double *unproven, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status && judged)
        *judged = ranking->judged;
    if (!status && fitting)
        *fitting = ranking->fitting;
    if (!status && unproven)
        *unproven = ranking->unproven;
    return status;
}

pvsize_status pvsize_ranking_count(const pvsize_ranking *ranking, int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (!status && !count)
        return pvsz_fail_null(diag, "count");
    if (!status)
        *count = ranking->rows;
    return status;
}

static pvsize_status find_row(const pvsize_ranking *ranking, int32_t i, const pvsz_pair **row,
                              pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_ranking(ranking, "ranking", diag);

    if (status)
        return status;
    if (i < 0 || i >= ranking->rows) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, ranking->rows);
        pvsz_fail_argument(diag, "i");
        return PVSIZE_E_BAD_INDEX;
    }
    *row = &ranking->row[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_ranking_pair(const pvsize_ranking *ranking, int32_t i, int32_t *module,
                                  int32_t *inverter, pvsize_diag *diag)
{
    const pvsz_pair *row;
    pvsize_status status = find_row(ranking, i, &row, diag);

    if (!status && module)
        *module = row->module;
    if (!status && inverter)
        *inverter = row->inverter;
    return status;
}

pvsize_status pvsize_ranking_number(const pvsize_ranking *ranking, int32_t i, int32_t what,
                                    double *value, pvsize_diag *diag)
{
    const pvsz_pair *row = NULL;
    pvsize_status status = find_row(ranking, i, &row, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (!pvsz_set_has(PVSIZE_SET_LAYOUT, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_LAYOUT, what);
    if (what == PVSIZE_LAYOUT_ENERGY && !row->has_energy)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_PLANE_SPECIFIC_YIELD);
    *value = row->number[what];
    return PVSIZE_OK;
}
