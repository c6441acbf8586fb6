/* The answers as an object: what a search leaves behind, and what it is asked. */
#include "layout.h"

static bool is_live(const pvsize_layouts *layouts)
{
    return pvsz_is(layouts, PVSZ_MARK_LAYOUTS);
}

pvsize_status pvsize_layouts_new(const pvsize_allocator *memory, pvsize_layouts **out,
                                 pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_LAYOUTS, &made, diag);
    *out = made;
    return status;
}

void pvsz_empty_layouts(pvsize_layouts *layouts)
{
    pvsize_spec_free(layouts->search);
    pvsize_rules_free(layouts->rules);
    pvsz_release(&layouts->head.memory, layouts->layout);
    pvsz_release(&layouts->head.memory, layouts->slot);
    pvsz_release(&layouts->head.memory, layouts->option);
    pvsz_release(&layouts->head.memory, layouts->obstacle);
}

void pvsize_layouts_free(pvsize_layouts *layouts)
{
    if (!is_live(layouts))
        return;
    pvsz_empty_layouts(layouts);
    pvsz_unmake(layouts);
}

/* asking */

pvsize_status pvsz_check_layouts(const pvsize_layouts *layouts, pvsize_diag *diag)
{
    if (!layouts)
        return pvsz_fail_null(diag, "layouts");
    return is_live(layouts) ? PVSIZE_OK : pvsz_fail_handle(diag, "layouts");
}

static pvsize_status check_out(const pvsize_layouts *layouts, const void *out, const char *name,
                               pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_layouts(layouts, diag);

    return !status && !out ? pvsz_fail_null(diag, name) : status;
}

static pvsize_status check_index(const pvsize_layouts *layouts, int32_t i, int32_t count,
                                 pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_layouts(layouts, diag);

    if (status || (i >= 0 && i < count))
        return status;
    pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, count);
    pvsz_fail_argument(diag, "i");
    return PVSIZE_E_BAD_INDEX;
}

pvsize_status pvsize_layouts_ending(const pvsize_layouts *layouts, int32_t *ending,
                                    pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, ending, "ending", diag);

    if (!status)
        *ending = layouts->filled ? layouts->ending : PVSIZE_ENDING_PROVEN;
    return status;
}

pvsize_status pvsize_layouts_complete(const pvsize_layouts *layouts, int32_t *complete,
                                      pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, complete, "complete", diag);

    if (!status)
        *complete = layouts->complete;
    return status;
}

pvsize_status pvsize_layouts_bound(const pvsize_layouts *layouts, double *bound, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, bound, "bound", diag);

    if (!status && !layouts->has_bound)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    if (!status)
        *bound = layouts->bound;
    return status;
}

pvsize_status pvsize_layouts_nodes(const pvsize_layouts *layouts, double *nodes, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, nodes, "nodes", diag);

    if (!status)
        *nodes = layouts->nodes;
    return status;
}

pvsize_status pvsize_layouts_count(const pvsize_layouts *layouts, int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, count, "count", diag);

    if (!status)
        *count = layouts->layouts;
    return status;
}

pvsize_status pvsize_layouts_number(const pvsize_layouts *layouts, int32_t i, int32_t what,
                                    double *value, pvsize_diag *diag)
{
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->layouts, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (!pvsz_set_has(PVSIZE_SET_LAYOUT, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_LAYOUT, what);
    if (what == PVSIZE_LAYOUT_ENERGY && !layouts->layout[i].has_energy)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_PLANE_SPECIFIC_YIELD);
    *value = layouts->layout[i].number[what];
    return PVSIZE_OK;
}

pvsize_status pvsize_layouts_array_count(const pvsize_layouts *layouts, int32_t i, int32_t *count,
                                         pvsize_diag *diag)
{
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->layouts, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = layouts->layout[i].arrays;
    return PVSIZE_OK;
}

static void put(int32_t *place, int32_t value)
{
    if (place)
        *place = value;
}

const pvsz_option *pvsz_find_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                   const pvsz_slot **slot, int32_t *side)
{
    const pvsz_option *option = &layouts->option[(size_t)i * (size_t)layouts->slots];

    for (int32_t s = 0; s < layouts->slots; s++) /* GCOVR_EXCL_BR_LINE: see below */
        for (*side = 0; option[s].module >= 0 && *side < 2 && option[s].plane[*side] >= 0; ++*side)
            if (k-- == 0) {
                *slot = &layouts->slot[s];
                return &option[s];
            }
    return NULL; /* GCOVR_EXCL_LINE: callers ask for k below the count of arrays */
}

pvsize_status pvsize_layouts_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                   int32_t *inverter, int32_t *input, int32_t *plane,
                                   int32_t *module, int32_t *modules_per_string, int32_t *strings,
                                   pvsize_diag *diag)
{
    const pvsz_option *option;
    const pvsz_slot *slot;
    int32_t count, side;
    pvsize_status status = pvsize_layouts_array_count(layouts, i, &count, diag);

    if (!status)
        status = check_index(layouts, k, count, diag);
    if (status == PVSIZE_E_BAD_INDEX && k >= 0)
        pvsz_fail_argument(diag, "k");
    if (status)
        return status;
    option = pvsz_find_array(layouts, i, k, &slot, &side);
    put(inverter, slot->inverter);
    put(input, slot->input);
    put(plane, option->plane[side]);
    put(module, option->module);
    put(modules_per_string, option->length);
    put(strings, option->strings[side]);
    return PVSIZE_OK;
}

/* obstacles */

pvsize_status pvsize_layouts_obstacle_count(const pvsize_layouts *layouts, int32_t *count,
                                            pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, count, "count", diag);

    if (!status)
        *count = layouts->obstacles;
    return status;
}

pvsize_status pvsize_layouts_obstacle(const pvsize_layouts *layouts, int32_t i, int32_t *rule,
                                      int32_t *inverter, int32_t *input, int32_t *plane,
                                      int32_t *second_plane, int32_t *module,
                                      int32_t *modules_per_string, int32_t *strings,
                                      int32_t *passes, pvsize_diag *diag)
{
    const pvsz_obstacle *obstacle;
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->obstacles, diag);

    if (status)
        return status;
    obstacle = &layouts->obstacle[i];
    put(rule, obstacle->rule);
    put(inverter, obstacle->inverter);
    put(input, obstacle->input);
    put(plane, obstacle->option.plane[0]);
    put(second_plane, obstacle->option.plane[1]);
    put(module, obstacle->option.module);
    put(modules_per_string, obstacle->option.length);
    put(strings, obstacle->option.strings[0] + obstacle->option.strings[1]);
    put(passes, obstacle->passes);
    return PVSIZE_OK;
}

pvsize_status pvsize_layouts_obstacle_numbers(const pvsize_layouts *layouts, int32_t i,
                                              double *value, double *limit, double *margin,
                                              pvsize_diag *diag)
{
    const pvsz_obstacle *obstacle;
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->obstacles, diag);

    if (status)
        return status;
    obstacle = &layouts->obstacle[i];
    if (value)
        *value = obstacle->value;
    if (limit)
        *limit = obstacle->limit;
    if (margin)
        *margin = obstacle->margin;
    return PVSIZE_OK;
}
