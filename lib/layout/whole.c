/* One bound on the whole, dearer than those of every step: planes, filled by whole sides
 * of options and by no more of them than inputs can take, and inverters, by their limits,
 * must come to the same number of modules. It closes what the others leave open where a
 * limit on power ends in the midst of a plane. */
#include "layout.h"

struct pvsz_whole {
    int32_t sides, total;
    pvsz_key *side, *plane; /* of one plane: best key by modules; by sides and modules */
    pvsz_key *done, *next;  /* of the planes so far, by sides and modules */
    double due;             /* steps after which it is worth its price */
};

enum { MOST_ENTRIES = 100000, WORK_OF_A_STEP = 2000 };

static size_t entries(const pvsz_whole *whole, int32_t modules)
{
    return ((size_t)whole->sides + 1) * ((size_t)modules + 1);
}

static pvsz_key *row(pvsz_key *table, int32_t modules, int32_t sides)
{
    return &table[(size_t)sides * ((size_t)modules + 1)];
}

/* Modules of the least power that a limit leaves at most, up to `most`. */
static int64_t modules_of(const pvsz_problem *problem, int64_t power, int64_t most)
{
    int64_t modules = power < 0 ? 0 : power / problem->least_power;

    return modules < most ? modules : most;
}

/* Modules that room and limits leave at most. */
static int64_t most_modules(const pvsz_problem *problem)
{
    int64_t room = 0, limit = 0;

    for (int32_t i = 0; i < problem->planes; i++)
        room += problem->plane[i].room;
    for (int32_t i = 0; i < problem->units; i++)
        limit += modules_of(problem, problem->unit[i].power_left, room);
    limit = modules_of(problem, problem->power_left, limit);
    limit = limit < room ? limit : room;
    if (problem->modules_left < limit)
        limit = problem->modules_left;
    return limit > 0 ? limit : 0;
}

static int32_t largest_room(const pvsz_problem *problem)
{
    int32_t most = 0;

    for (int32_t i = 0; i < problem->planes; i++)
        most = problem->plane[i].room > most ? problem->plane[i].room : most;
    return most;
}

pvsz_whole *pvsz_make_whole(pvsz_problem *problem)
{
    pvsz_whole *whole = pvsz_take(problem, 1, sizeof *whole);
    int64_t sides = (int64_t)problem->slots * (problem->planes_per_input > 1 ? 2 : 1);
    int64_t total = most_modules(problem);
    int32_t room = largest_room(problem);
    size_t all;

    if (!whole || (sides + 1) * (total + 1) > MOST_ENTRIES ||
        (sides + 1) * (room + 1) > MOST_ENTRIES)
        return whole;
    whole->sides = (int32_t)sides;
    whole->total = (int32_t)total;
    whole->due =
        (double)sides * (double)sides / 2 * (double)total * room * problem->planes / WORK_OF_A_STEP;
    all = entries(whole, whole->total);
    whole->side = pvsz_take(problem, (size_t)room + 1, sizeof *whole->side);
    whole->plane = pvsz_take(problem, entries(whole, room), sizeof *whole->plane);
    whole->done = pvsz_take(problem, all, sizeof *whole->done);
    whole->next = pvsz_take(problem, all, sizeof *whole->next);
    return whole->side && whole->plane && whole->done && whole->next ? whole : NULL;
}

bool pvsz_whole_is_due(const pvsz_whole *whole, double nodes)
{
    return whole->next && nodes >= whole->due;
}

/* The best key of so many modules on a plane with so many sides, neither more nor fewer. */
static void fill_plane(const pvsz_problem *problem, pvsz_whole *whole, int32_t plane)
{
    int32_t room = problem->plane[plane].room;

    pvsz_best_sides(problem, plane, whole->side, room);
    for (size_t i = 0; i < entries(whole, room); i++)
        whole->plane[i] = PVSZ_NEVER;
    whole->plane[0] = (pvsz_key){{0, 0, 0}};
    for (int32_t k = 1; k <= whole->sides; k++) {
        const pvsz_key *before = row(whole->plane, room, k - 1);
        pvsz_key *here = row(whole->plane, room, k);

        for (int32_t n = 1; n <= room; n++)
            for (int32_t m = 0; !pvsz_is_never(&whole->side[n]) && m + n <= room; m++)
                here[m + n] =
                    pvsz_better_key(here[m + n], pvsz_add_key(before[m], whole->side[n], 1));
    }
}

/* Puts one plane, with one number of its modules and sides, beside those before. */
static void add_to(pvsz_whole *whole, const pvsz_key *key, int32_t sides, int32_t modules)
{
    for (int32_t k = 0; k + sides <= whole->sides; k++) {
        const pvsz_key *before = row(whole->done, whole->total, k);
        pvsz_key *here = row(whole->next, whole->total, k + sides);

        for (int32_t t = 0; t + modules <= whole->total; t++)
            if (!pvsz_is_never(&before[t]))
                here[t + modules] =
                    pvsz_better_key(here[t + modules], pvsz_add_key(before[t], *key, 1));
    }
}

static void add_plane(const pvsz_problem *problem, pvsz_whole *whole, int32_t plane)
{
    int32_t room = problem->plane[plane].room;
    pvsz_key *swap = whole->done;

    fill_plane(problem, whole, plane);
    for (size_t i = 0; i < entries(whole, whole->total); i++)
        whole->next[i] = PVSZ_NEVER;
    for (int32_t k = 0; k <= whole->sides; k++)
        for (int32_t m = 0; m <= room; m++)
            if (!pvsz_is_never(&row(whole->plane, room, k)[m]))
                add_to(whole, &row(whole->plane, room, k)[m], k, m);
    whole->done = whole->next;
    whole->next = swap;
}

static bool may_be(const pvsz_problem *problem, int32_t modules)
{
    return (!problem->has_wanted || modules == problem->wanted_modules) &&
           (problem->floor_power == INT64_MIN ||
            modules * problem->most_power > problem->floor_power);
}

pvsz_key pvsz_bound_whole(const pvsz_problem *problem, const pvsz_bounds *bounds, pvsz_whole *whole)
{
    pvsz_key best = PVSZ_NEVER;

    for (size_t i = 0; i < entries(whole, whole->total); i++)
        whole->done[i] = PVSZ_NEVER;
    whole->done[0] = (pvsz_key){{0, 0, 0}};
    for (int32_t i = 0; i < problem->planes; i++)
        add_plane(problem, whole, i);
    for (int32_t t = 0; t <= whole->total; t++) {
        pvsz_key here = PVSZ_NEVER;

        for (int32_t k = 0; k <= whole->sides; k++)
            here = pvsz_better_key(here, row(whole->done, whole->total, k)[t]);
        here = pvsz_worse_key(here, pvsz_bound_exactly(problem, bounds, t));
        if (may_be(problem, t))
            best = pvsz_better_key(best, here);
    }
    return pvsz_add_key(best, problem->offset, 1);
}
