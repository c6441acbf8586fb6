/* The tables behind the bounds: by how many modules they take, the best of an inverter from
 * each of its slots on, and of all inverters from each on. */
#include "bound.h"

enum { MOST_ENTRIES = 2000000 };

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

static int32_t largest_of(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot)
{
    return steps_of(bounds, problem->group[problem->slot[slot].group].most);
}

/* How many steps the slot and the rest of its inverter can come to. */
static int32_t size_at(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot)
{
    const pvsz_slot *at = &problem->slot[slot];
    int64_t left = pvsz_modules_within(problem, problem->unit[at->inverter].power_left);
    int64_t sum = 0;

    for (int32_t i = slot; i < at->end; i++)
        sum += largest_of(problem, bounds, i);
    sum = pvsz_smaller(sum, bounds->total);
    return pvsz_smaller(sum, left / bounds->step + at->end - at->first);
}

/* Beyond the largest option no step is left of any: then the tables have a place each. */
static bool is_beyond_all(const pvsz_problem *problem, int32_t step)
{
    for (int32_t i = 0; i < problem->groups; i++)
        if (problem->group[i].most >= step)
            return false;
    return true;
}

bool pvsz_choose_step(const pvsz_problem *problem, pvsz_bounds *bounds)
{
    int64_t sum = 0, entries = 0, units = 1;

    if (bounds->step > 1 && (bounds->mode == PVSZ_EXACTLY || is_beyond_all(problem, bounds->step)))
        bounds->mode = PVSZ_AT_MOST;
    for (int32_t i = 0; i < problem->slots; i++) {
        sum += largest_of(problem, bounds, i);
        units += problem->slot[i].first == i;
    }
    bounds->total = pvsz_smaller(sum, all_room(problem) / bounds->step + problem->slots);
    for (int32_t i = 0; i < problem->slots; i++)
        entries += size_at(problem, bounds, i) + 1;
    entries += units * (bounds->total + 1);
    return entries > MOST_ENTRIES;
}

pvsize_status pvsz_make_tables(pvsz_problem *problem, pvsz_bounds *bounds)
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
    int64_t most = pvsz_modules_within(problem, unit->power_left) / bounds->step;
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

void pvsz_fill_tables(const pvsz_problem *problem, pvsz_bounds *bounds)
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
