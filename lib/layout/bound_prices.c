/* Making bounds: tables of a size that can be had, and prices for the room of planes. */
#include "bound.h"

/* What a module is worth on a plane at most. */
static pvsz_key worth_on(const pvsz_problem *problem, int32_t plane)
{
    pvsz_key best = {{INT64_MIN / 2, 0, 0}};

    for (int32_t i = 0; i < problem->groups; i++)
        for (size_t k = 0; k < problem->group[i].count; k++) {
            const pvsz_option *option = &problem->group[i].option[k];
            pvsz_key key = option->key;

            if (option->module < 0 || option->plane[0] != plane || option->plane[1] >= 0)
                continue;
            for (int32_t level = 0; level < 2; level++)
                key.level[level] /= option->modules;
            key.level[2] = 0;
            best = pvsz_better_key(best, key);
        }
    return best;
}

/* As if the room of this plane were the last to be filled. */
static bool set_prices(pvsz_problem *problem, const pvsz_key *worth, int32_t last)
{
    bool any = false;

    for (int32_t i = 0; i < problem->planes; i++) {
        pvsz_plane *plane = &problem->plane[i];

        plane->price = (pvsz_key){{0, 0, 0}};
        if (last < 0 || pvsz_is_never(&worth[i]) || pvsz_compare_keys(&worth[i], &worth[last]) <= 0)
            continue;
        plane->price = pvsz_add_key(worth[i], worth[last], -1);
        any = true;
    }
    return any;
}

static pvsz_key root(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t *room)
{
    const pvsz_room all = {.plane = room};

    return pvsz_worse_key(pvsz_bound(problem, bounds, 0, &all), pvsz_all_full(problem, 0, &all));
}

enum { MOST_PRICED = 16 };

/* Of the prices that make each plane the last in turn, those with the lowest bound. */
static void choose_prices(pvsz_problem *problem, pvsz_bounds *bounds, int32_t *room)
{
    pvsz_key worth[MOST_PRICED] = {{{0}}}, best, here;
    int32_t chosen = -1, last = -1;

    bounds->priced = set_prices(problem, worth, -1);
    pvsz_fill_tables(problem, bounds);
    if (problem->planes > MOST_PRICED)
        return;
    for (int32_t i = 0; i < problem->planes; i++)
        worth[i] = worth_on(problem, i);
    best = root(problem, bounds, room);
    for (int32_t i = 0; i < problem->planes; i++) {
        if (pvsz_is_never(&worth[i]) || !set_prices(problem, worth, i))
            continue;
        bounds->priced = true;
        pvsz_fill_tables(problem, bounds);
        last = i;
        here = root(problem, bounds, room);
        if (pvsz_compare_keys(&here, &best) < 0) {
            best = here;
            chosen = i;
        }
    }
    bounds->priced = set_prices(problem, worth, chosen);
    if (last != chosen)
        pvsz_fill_tables(problem, bounds);
}

pvsize_status pvsz_make_bounds(pvsz_problem *problem, pvsz_bounds **out)
{
    pvsz_bounds *bounds = pvsz_take(problem, 1, sizeof *bounds);
    int32_t *room = pvsz_take(problem, (size_t)problem->planes, sizeof *room);
    pvsize_status status = PVSIZE_OK;

    if (!bounds || !room)
        return pvsz_no_memory(problem->diag);
    *out = bounds;
    bounds->step = 1;
    bounds->mode = problem->has_wanted                 ? PVSZ_EXACTLY
                   : problem->floor_power != INT64_MIN ? PVSZ_AT_LEAST
                                                       : PVSZ_AT_MOST;
    for (int32_t i = 0; i < problem->planes; i++)
        room[i] = problem->plane[i].room;
    status = pvsz_fill_planes(problem);
    if (status)
        return status;
    while (pvsz_choose_step(problem, bounds))
        bounds->step *= 2;
    status = pvsz_make_tables(problem, bounds);
    if (!status)
        choose_prices(problem, bounds, room);
    return status;
}
