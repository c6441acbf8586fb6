/* How good what is still open can become. Three things are kept at once: the room of
 * all planes together, the limit of every inverter, and that strings come in whole
 * options. For that the slots of an inverter are laid out by how many modules they
 * take, and so are all inverters behind it. Which plane has the room is left aside;
 * what a module is worth more on one plane than on another is paid for instead by
 * a price for its room (the Lagrange multiplier of that plane's capacity). */
#include "layout.h"

struct pvsz_bounds {
    int32_t mode;
    int32_t step;  /* modules that count as one, where there are very many */
    int32_t total; /* steps in a table of all */
    bool priced;
    int32_t *size;     /* by slot: steps of its table */
    pvsz_key **within; /* by slot: best of it and the rest of its inverter, taking so many steps */
    pvsz_key **rest;   /* by first slot of an inverter: best of it and all behind it */
    pvsz_key *exact, *other;
};

enum { MOST_ENTRIES = 2000000 };

static int32_t smaller(int64_t a, int64_t b)
{
    int64_t least = a < b ? a : b;

    return (int32_t)(least < 0 ? 0 : least);
}

/* tables */

static int32_t steps_of(const pvsz_bounds *bounds, int32_t modules)
{
    /* rounded so that the bound errs to the good side */
    return bounds->mode == PVSZ_AT_LEAST ? (modules + bounds->step - 1) / bounds->step
                                         : modules / bounds->step;
}

static int64_t all_room(const pvsz_problem *problem)
{
    int64_t room = 0;

    for (int32_t i = 0; i < problem->planes; i++)
        room += pvsz_usable(&problem->plane[i], problem->plane[i].room);
    return room < problem->modules_left ? room : problem->modules_left;
}

/* Modules that a limit on power leaves at most. */
static int64_t modules_within(const pvsz_problem *problem, int64_t left)
{
    if (left == INT64_MAX)
        return INT32_MAX;
    return left < 0 ? -1 : left / problem->least_power;
}

static int32_t largest_of(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot)
{
    int32_t most = problem->group[problem->slot[slot].group].most;

    return (most + bounds->step - 1) / bounds->step;
}

/* How many steps the slot and the rest of its inverter can come to. */
static int32_t size_at(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot)
{
    const pvsz_slot *at = &problem->slot[slot];
    int64_t left = modules_within(problem, problem->unit[at->inverter].power_left);
    int64_t sum = 0;

    for (int32_t i = slot; i < at->end; i++)
        sum += largest_of(problem, bounds, i);
    sum = smaller(sum, bounds->total);
    return smaller(sum, left / bounds->step + at->end - at->first);
}

static bool choose_step(const pvsz_problem *problem, pvsz_bounds *bounds)
{
    int64_t sum = 0, entries = 0, units = 1;

    for (int32_t i = 0; i < problem->slots; i++) {
        sum += largest_of(problem, bounds, i);
        units += problem->slot[i].first == i;
    }
    bounds->total = smaller(sum, all_room(problem) / bounds->step + problem->slots);
    for (int32_t i = 0; i < problem->slots; i++)
        entries += size_at(problem, bounds, i) + 1;
    entries += units * (bounds->total + 1);
    if (bounds->step > 1 && bounds->mode == PVSZ_EXACTLY)
        bounds->mode = PVSZ_AT_MOST;
    return entries > MOST_ENTRIES && bounds->total > 64;
}

static pvsize_status make_tables(pvsz_problem *problem, pvsz_bounds *bounds)
{
    size_t slots = (size_t)problem->slots;

    bounds->size = pvsz_take(problem, slots + 1, sizeof *bounds->size);
    bounds->within = pvsz_take(problem, slots + 1, sizeof *bounds->within);
    bounds->rest = pvsz_take(problem, slots + 1, sizeof *bounds->rest);
    bounds->exact = pvsz_take(problem, (size_t)bounds->total + 1, sizeof *bounds->exact);
    bounds->other = pvsz_take(problem, (size_t)bounds->total + 1, sizeof *bounds->other);
    if (!bounds->size || !bounds->within || !bounds->rest || !bounds->exact || !bounds->other)
        return pvsz_no_memory(problem->diag);
    for (int32_t i = problem->slots; i >= 0; i--) {
        const pvsz_slot *slot = &problem->slot[i];

        if (i < problem->slots) {
            bounds->size[i] = size_at(problem, bounds, i);
            /* twins have the same table */
            bounds->within[i] = slot->has_twin ? bounds->within[i + slot->end - slot->first]
                                               : pvsz_take(problem, (size_t)bounds->size[i] + 1,
                                                           sizeof **bounds->within);
            if (!bounds->within[i])
                return pvsz_no_memory(problem->diag);
        }
        if (i < problem->slots && slot->first != i)
            continue;
        bounds->rest[i] = pvsz_take(problem, (size_t)bounds->total + 1, sizeof **bounds->rest);
        if (!bounds->rest[i])
            return pvsz_no_memory(problem->diag);
    }
    return PVSIZE_OK;
}

/* The key of an option, its room paid for. */
static pvsz_key paid(const pvsz_problem *problem, const pvsz_option *option)
{
    pvsz_key key = option->key;

    for (int32_t i = 0; option->module >= 0 && i < 2 && option->plane[i] >= 0; i++)
        key = pvsz_add_key(key, problem->plane[option->plane[i]].price,
                           -(int64_t)option->length * option->strings[i]);
    return key;
}

static void fill_within(const pvsz_problem *problem, pvsz_bounds *bounds, int32_t slot)
{
    const pvsz_slot *at = &problem->slot[slot];
    const pvsz_group *group = &problem->group[at->group];
    pvsz_key *table = bounds->within[slot];
    bool last = slot + 1 == at->end;
    int32_t size = last ? 0 : bounds->size[slot + 1];

    for (int32_t t = 0; t <= bounds->size[slot]; t++)
        table[t] = PVSZ_NEVER;
    for (size_t i = 0; i < group->count; i++) {
        int32_t taken = steps_of(bounds, group->option[i].modules);
        pvsz_key key = paid(problem, &group->option[i]);

        for (int32_t t = 0; t <= size && t + taken <= bounds->size[slot]; t++) {
            pvsz_key sum = last ? key : pvsz_add_key(key, bounds->within[slot + 1][t], 1);

            table[t + taken] = pvsz_better_key(table[t + taken], sum);
        }
    }
}

/* From exactly so many steps to at most, or at least, so many. */
static void fill_rest(pvsz_bounds *bounds, int32_t slot)
{
    pvsz_key *rest = bounds->rest[slot];

    for (int32_t t = 0; t <= bounds->total; t++)
        rest[t] = bounds->exact[t];
    for (int32_t t = 1; bounds->mode == PVSZ_AT_MOST && t <= bounds->total; t++)
        rest[t] = pvsz_better_key(rest[t], rest[t - 1]);
    for (int32_t t = bounds->total - 1; bounds->mode == PVSZ_AT_LEAST && t >= 0; t--)
        rest[t] = pvsz_better_key(rest[t], rest[t + 1]);
}

/* Puts an inverter in front of those behind it. */
static void join(const pvsz_problem *problem, pvsz_bounds *bounds, int32_t slot)
{
    const pvsz_unit *unit = &problem->unit[problem->slot[slot].inverter];
    int64_t most = modules_within(problem, unit->power_left) / bounds->step;
    const pvsz_key *within = bounds->within[slot];
    pvsz_key *joined = bounds->other;

    if (bounds->mode == PVSZ_AT_LEAST && bounds->step > 1)
        most = bounds->total;
    for (int32_t t = 0; t <= bounds->total; t++)
        joined[t] = PVSZ_NEVER;
    for (int32_t a = 0; a <= bounds->size[slot] && a <= most; a++)
        for (int32_t b = 0; !pvsz_is_never(&within[a]) && a + b <= bounds->total; b++)
            if (!pvsz_is_never(&bounds->exact[b]))
                joined[a + b] =
                    pvsz_better_key(joined[a + b], pvsz_add_key(within[a], bounds->exact[b], 1));
    bounds->other = bounds->exact;
    bounds->exact = joined;
}

static void fill_tables(const pvsz_problem *problem, pvsz_bounds *bounds)
{
    for (int32_t t = 0; t <= bounds->total; t++)
        bounds->exact[t] = t ? PVSZ_NEVER : (pvsz_key){{0, 0, 0}};
    fill_rest(bounds, problem->slots);
    for (int32_t i = problem->slots - 1; i >= 0; i--) {
        if (!problem->slot[i].has_twin)
            fill_within(problem, bounds, i);
        if (problem->slot[i].first == i) {
            join(problem, bounds, i);
            fill_rest(bounds, i);
        }
    }
}

/* asking */

/* Steps that may, must or shall at least be taken; -1: it cannot be. */
static int32_t steps_open(const pvsz_problem *problem, const pvsz_bounds *bounds,
                          const pvsz_room *room)
{
    int64_t left = problem->modules_left - room->modules, fits = 0, need;

    for (int32_t i = 0; i < problem->planes; i++)
        fits += pvsz_usable(&problem->plane[i], room->plane[i]);
    left = fits < left ? fits : left;
    if (problem->power_left != INT64_MAX) {
        fits = modules_within(problem, problem->power_left - room->system_power);
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
    return bounds->rest[slot][smaller(steps, bounds->total)];
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
        left = modules_within(problem, left - room->unit_power);
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
                                   rest_at(bounds, at->end, smaller(steps - t, steps)), 1));
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

/* prices */

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
    fill_tables(problem, bounds);
    if (problem->planes > MOST_PRICED)
        return;
    for (int32_t i = 0; i < problem->planes; i++)
        worth[i] = worth_on(problem, i);
    best = root(problem, bounds, room);
    for (int32_t i = 0; i < problem->planes; i++) {
        if (pvsz_is_never(&worth[i]) || !set_prices(problem, worth, i))
            continue;
        bounds->priced = true;
        fill_tables(problem, bounds);
        last = i;
        here = root(problem, bounds, room);
        if (pvsz_compare_keys(&here, &best) < 0) {
            best = here;
            chosen = i;
        }
    }
    bounds->priced = set_prices(problem, worth, chosen);
    if (last != chosen)
        fill_tables(problem, bounds);
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
    while (choose_step(problem, bounds))
        bounds->step *= 2;
    status = make_tables(problem, bounds);
    if (!status)
        choose_prices(problem, bounds, room);
    return status;
}
