/* Every plane alone: how much of a room options can fill, and how well, with so many
 * sides of options; and all planes together, with the inputs that are left. */
#include "layout.h"

enum { MOST_USABLE = 20000, MOST_WORK = 20000000 };

/* What one side of an option adds to the key: a key is the sum of its sides. */
static pvsz_key key_of_side(const pvsz_problem *problem, const pvsz_option *option, int32_t side)
{
    pvsz_option alone = *option;

    alone.plane[0] = option->plane[side];
    alone.plane[1] = -1;
    alone.strings[0] = option->strings[side];
    alone.strings[1] = 0;
    alone.devices = option->device[side] > 0 ? option->strings[side] : 0;
    return pvsz_key_of(problem, &alone);
}

void pvsz_best_sides(const pvsz_problem *problem, int32_t plane, pvsz_key *side, int32_t room)
{
    for (int32_t n = 0; n <= room; n++)
        side[n] = PVSZ_NEVER;
    /* every side has modules, and no more than its plane has room for */
    for (int32_t i = 0; i < problem->groups; i++)
        for (size_t k = 0; k < problem->group[i].count; k++) {
            const pvsz_option *option = &problem->group[i].option[k];

            for (int32_t at = 0; at < 2 && option->module >= 0; at++) {
                int32_t modules = option->length * option->strings[at];

                if (option->plane[at] == plane)
                    side[modules] =
                        pvsz_better_key(side[modules], key_of_side(problem, option, at));
            }
        }
}

/* The row of so many sides, up to most_sides. */
static pvsz_key *full_with(const pvsz_problem *problem, int32_t plane, int32_t sides)
{
    const pvsz_plane *at = &problem->plane[plane];

    return &at->full[(size_t)sides * ((size_t)at->room + 1)];
}

/* One side more than `before`, which for the last row is the row itself: any number. */
static void fill_row(const pvsz_key *before, const pvsz_key *side, int32_t room, pvsz_key *row)
{
    for (int32_t r = 0; r <= room; r++) {
        row[r] = before == row ? (pvsz_key){{0, 0, 0}} : before[r];
        if (r > 0)
            row[r] = pvsz_better_key(row[r], row[r - 1]);
        for (int32_t n = 1; n <= r; n++)
            if (!pvsz_is_never(&side[n]))
                row[r] = pvsz_better_key(row[r], pvsz_add_key(side[n], before[r - n], 1));
    }
}

static void fill_usable(pvsz_plane *plane, const pvsz_key *side)
{
    for (int32_t room = 1; room <= plane->room; room++) {
        int32_t best = plane->usable[room - 1];

        for (int32_t n = 1; n <= room && best < room; n++)
            if (!pvsz_is_never(&side[n]) && n + plane->usable[room - n] > best)
                best = n + plane->usable[room - n];
        plane->usable[room] = best;
    }
}

/* How much of a room can be filled, and how well with so many sides of options. */
static pvsize_status fill_plane(pvsz_problem *problem, int32_t i)
{
    pvsz_plane *plane = &problem->plane[i];
    size_t count = (size_t)plane->room + 1;
    pvsz_key *side;

    if (plane->room > MOST_USABLE)
        return PVSIZE_OK;
    if (!plane->usable) {
        plane->usable = pvsz_take(problem, count, sizeof *plane->usable);
        plane->full =
            pvsz_take(problem, count * ((size_t)problem->most_sides + 1), sizeof *plane->full);
    }
    side = pvsz_take(problem, count, sizeof *side);
    if (!plane->usable || !plane->full || !side)
        return pvsz_no_memory(problem->diag);
    pvsz_best_sides(problem, i, side, plane->room);
    fill_usable(plane, side);
    for (size_t r = 0; r < count; r++)
        plane->full[r] = (pvsz_key){{0, 0, 0}};
    for (int32_t k = 1; k <= problem->most_sides; k++) {
        pvsz_key *row = full_with(problem, i, k);

        fill_row(k == problem->most_sides ? row : full_with(problem, i, k - 1), side, plane->room,
                 row);
    }
    return PVSIZE_OK;
}

/* Sides that the inputs from a slot on can take, as far as the tables tell them apart. */
static int32_t sides_from(const pvsz_problem *problem, int32_t slot)
{
    int32_t sides = (problem->slots - slot) * (problem->planes_per_input > 1 ? 2 : 1);

    return sides < problem->most_sides ? sides : problem->most_sides;
}

/* No bound at all: a plane is too large for a table. */
static const pvsz_key unbounded = {{INT64_MAX / 4, 0, 0}};

bool pvsz_fill_others(const pvsz_problem *problem, int32_t slot, const pvsz_room *room,
                      int32_t plane, pvsz_key *best)
{
    int32_t sides = sides_from(problem, slot);

    for (int32_t k = 0; k <= sides; k++)
        best[k] = (pvsz_key){{0, 0, 0}};
    for (int32_t i = 0; i < problem->planes; i++) {
        if (!problem->plane[i].full)
            return false;
        if (i == plane)
            continue;
        for (int32_t k = sides; k >= 0; k--) {
            pvsz_key here = PVSZ_NEVER;

            for (int32_t n = 0; n <= k; n++)
                here = pvsz_better_key(
                    here, pvsz_add_key(best[k - n], full_with(problem, i, n)[room->plane[i]], 1));
            best[k] = here;
        }
    }
    return true;
}

pvsz_key pvsz_full_beside(const pvsz_problem *problem, int32_t slot, const pvsz_room *room,
                          int32_t plane, const pvsz_key *others)
{
    int32_t sides = sides_from(problem, slot);
    pvsz_key best = PVSZ_NEVER;

    for (int32_t n = 0; n <= sides; n++)
        best = pvsz_better_key(
            best,
            pvsz_add_key(others[sides - n], full_with(problem, plane, n)[room->plane[plane]], 1));
    return best;
}

pvsz_key pvsz_all_full(const pvsz_problem *problem, int32_t slot, const pvsz_room *room)
{
    pvsz_key best[PVSZ_MOST_SIDES + 1];

    return pvsz_fill_others(problem, slot, room, -1, best) ? best[sides_from(problem, slot)]
                                                           : unbounded;
}

/* As many sides as there are inputs to take them, while the tables stay small. The last
 * row is for any number: it must not be reached by counting. */
static int32_t count_sides(const pvsz_problem *problem)
{
    int64_t sides = (int64_t)problem->slots * (problem->planes_per_input > 1 ? 2 : 1) + 1;
    int64_t work = 1;

    for (int32_t i = 0; i < problem->planes; i++)
        if (problem->plane[i].room <= MOST_USABLE)
            work += (int64_t)problem->plane[i].room * problem->plane[i].room;
    if (sides > PVSZ_MOST_SIDES)
        sides = PVSZ_MOST_SIDES;
    if (sides > MOST_WORK / work)
        sides = MOST_WORK / work;
    return sides < 1 ? 1 : (int32_t)sides;
}

int32_t pvsz_usable(const pvsz_plane *plane, int32_t room)
{
    return plane->usable ? plane->usable[room] : room;
}

pvsize_status pvsz_fill_planes(pvsz_problem *problem)
{
    pvsize_status status = PVSIZE_OK;

    problem->most_sides = count_sides(problem);
    for (int32_t i = 0; !status && i < problem->planes; i++)
        status = fill_plane(problem, i);
    return status;
}
