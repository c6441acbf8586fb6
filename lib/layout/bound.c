/* How good what is still open can become. Three things are kept at once: the room of
 * all planes together, the limit of every inverter, and that strings come in whole
 * options. For that the slots of an inverter are laid out by how many modules they
 * take, and so are all inverters behind it. Which plane has the room is left aside;
 * what a module is worth more on one plane than on another is paid for instead by
 * a price for its room (the Lagrange multiplier of that plane's capacity). */
#include "bound.h"

/* Steps that may, must or shall at least be taken; -1: it cannot be. */
static int32_t steps_open(const pvsz_problem *problem, const pvsz_bounds *bounds,
                          const pvsz_room *room)
{
    int64_t left = problem->modules_left - room->modules, fits = 0, need;

    for (int32_t i = 0; i < problem->planes; i++)
        fits += pvsz_usable(&problem->plane[i], room->plane[i]);
    left = fits < left ? fits : left;
    if (problem->power_left != INT64_MAX) {
        fits = pvsz_modules_within(problem, problem->power_left - room->system_power);
        left = fits < left ? fits : left;
    }
    if (left < 0)
        return -1;
    need = 0;
    if (problem->floor_power != INT64_MIN && room->system_power <= problem->floor_power)
        need = (problem->floor_power - room->system_power) / problem->most_power + 1;
    if (problem->has_wanted) {
        int64_t wanted = problem->wanted_modules - room->modules;

        if (wanted < need || wanted > left)
            return -1;
        left = need = wanted;
    }
    if (need > left)
        return -1;
    if (bounds->mode == PVSZ_AT_LEAST)
        return (int32_t)((need + bounds->step - 1) / bounds->step);
    return (int32_t)(left / bounds->step);
}

static pvsz_key rest_at(const pvsz_bounds *bounds, int32_t slot, int32_t steps)
{
    if (steps > bounds->total && bounds->mode != PVSZ_AT_MOST)
        return PVSZ_NEVER;
    return bounds->rest[slot][pvsz_smaller(steps, bounds->total)];
}

/* The best split between the slot's own inverter and those behind it. */
static pvsz_key split(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot,
                      const pvsz_room *room, int32_t steps)
{
    const pvsz_slot *at = &problem->slot[slot];
    int64_t left = problem->unit[at->inverter].power_left;
    int64_t most = bounds->size[slot];
    pvsz_key best = PVSZ_NEVER;

    if (left != INT64_MAX && !(bounds->mode == PVSZ_AT_LEAST && bounds->step > 1)) {
        left = pvsz_modules_within(problem, left - room->unit_power);
        most = left / bounds->step < most ? left / bounds->step : most;
        if (left < 0)
            return PVSZ_NEVER;
    }
    if (bounds->mode != PVSZ_AT_LEAST && steps < most)
        most = steps;
    for (int32_t t = 0; t <= most; t++)
        if (!pvsz_is_never(&bounds->within[slot][t]))
            best = pvsz_better_key(
                best, pvsz_add_key(bounds->within[slot][t],
                                   rest_at(bounds, at->end, pvsz_smaller(steps - t, steps)), 1));
    return best;
}

pvsz_key pvsz_bound(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot,
                    const pvsz_room *room)
{
    int32_t steps = steps_open(problem, bounds, room);
    pvsz_key best;

    if (steps < 0)
        return PVSZ_NEVER;
    if (slot == problem->slots || problem->slot[slot].first == slot)
        best = rest_at(bounds, slot, steps);
    else
        best = split(problem, bounds, slot, room, steps);
    for (int32_t i = 0; bounds->priced && slot < problem->slots && i < problem->planes; i++)
        best = pvsz_add_key(best, problem->plane[i].price,
                            pvsz_usable(&problem->plane[i], room->plane[i]));
    return best;
}

pvsz_key pvsz_bound_exactly(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t modules)
{
    pvsz_key best;

    if (bounds->step > 1)
        return (pvsz_key){{INT64_MAX / 4, 0, 0}};
    if (modules > bounds->total)
        return PVSZ_NEVER;
    best = bounds->exact[modules];
    for (int32_t i = 0; bounds->priced && i < problem->planes; i++)
        best = pvsz_add_key(best, problem->plane[i].price,
                            pvsz_usable(&problem->plane[i], problem->plane[i].room));
    return best;
}
