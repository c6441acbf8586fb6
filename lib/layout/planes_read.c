/* The planes of the question: their room, what a module is worth on them, their order, and what
 * the arrays that must be there take of them. */
#include "layout.h"

/* Of fixed modules no more are counted, so that no sum of them overflows. */
enum { MOST_ROOM = 1000000, MOST_FIXED = 1000000000 };

static const pvsz_part_list *planes_of(const pvsize_spec *system)
{
    return pvsz_spec_parts(pvsz_spec_parts(system, PVSZ_KIND_SITE)->item[0], PVSZ_KIND_PLANE);
}

static pvsize_status fail_plane(pvsz_problem *problem, pvsize_status status, int32_t term,
                                int32_t plane)
{
    pvsz_fail_term(problem->diag, status, term);
    pvsz_fail_at(problem->diag, plane);
    return status;
}

static pvsize_status read_plane(pvsz_problem *problem, const pvsize_spec *spec, int32_t i)
{
    pvsz_plane *plane = &problem->plane[i];
    int32_t row = PVSIZE_PLANE_CAPACITY - PVSIZE_KIND_PLANE - 1;
    double room = pvsz_number_of(spec, PVSIZE_PLANE_CAPACITY, -1);
    double yield = pvsz_number_of(spec, PVSIZE_PLANE_SPECIFIC_YIELD, -1);

    if (room < 0 && !pvsz_spec_states_none(spec, row))
        return fail_plane(problem, PVSIZE_E_NOT_SET, PVSIZE_PLANE_CAPACITY, i);
    if (yield < 0 && problem->objective == PVSIZE_OBJECTIVE_ENERGY && room != 0)
        return fail_plane(problem, PVSIZE_E_NOT_SET, PVSIZE_PLANE_SPECIFIC_YIELD, i);
    plane->room = room < 0 ? MOST_ROOM : (int32_t)room;
    plane->yield = yield;
    plane->rank = (int32_t)pvsz_number_of(spec, PVSIZE_PLANE_FILL_ORDER, 1001);
    return PVSIZE_OK;
}

static bool has_order(const pvsz_problem *problem)
{
    for (int32_t i = 0; i < problem->planes; i++)
        if (problem->plane[i].rank <= 1000)
            return true;
    return false;
}

static int64_t room_of_rank(const pvsz_problem *problem, int32_t rank)
{
    int64_t room = 0;

    for (int32_t i = 0; i < problem->planes; i++)
        room += problem->plane[i].rank == rank ? problem->plane[i].room : 0;
    return room;
}

/* A module on an earlier plane weighs more than all that fit on later ones. Without
 * an order given, planes stand as they are listed, and only the objective of that
 * name looks at it. */
static pvsize_status weigh_planes(pvsz_problem *problem)
{
    int64_t weight = 1;
    bool given = has_order(problem);
    int32_t done = 1002;

    if (!given && problem->objective != PVSIZE_OBJECTIVE_PLANE_ORDER)
        return PVSIZE_OK;
    for (int32_t i = 0; !given && i < problem->planes; i++)
        problem->plane[i].rank = i + 1;
    for (;;) {
        int32_t rank = 0;

        for (int32_t i = 0; i < problem->planes; i++)
            if (problem->plane[i].rank < done && problem->plane[i].rank > rank)
                rank = problem->plane[i].rank;
        if (rank == 0)
            return PVSIZE_OK;
        for (int32_t i = 0; i < problem->planes; i++)
            if (problem->plane[i].rank == rank)
                problem->plane[i].weight = weight;
        done = rank;
        if (weight > (INT64_C(1) << 57) / (room_of_rank(problem, rank) + 1))
            return pvsz_fail_name(problem->diag, PVSIZE_E_TOO_MANY, PVSIZE_PLANE_FILL_ORDER,
                                  "more planes, with more room, than can be put in order");
        weight *= room_of_rank(problem, rank) + 1;
    }
}

pvsize_status pvsz_read_planes(pvsz_problem *problem)
{
    const pvsz_part_list *list = planes_of(problem->system);

    if (list->count == 0)
        return pvsz_fail_term(problem->diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_PLANE);
    problem->planes = (int32_t)list->count;
    problem->plane = pvsz_take(problem, list->count, sizeof *problem->plane);
    if (!problem->plane)
        return pvsz_no_memory(problem->diag);
    for (int32_t i = 0; i < problem->planes; i++) {
        pvsize_status status = read_plane(problem, list->item[i], i);

        if (status)
            return status;
    }
    return weigh_planes(problem);
}

/* More than fit is for the rules to tell. */
static void take_room(pvsz_plane *plane, int32_t modules)
{
    plane->room = plane->room > modules ? plane->room - modules : 0;
}

/* What the arrays that must be there take. */
pvsize_status pvsz_read_fixed(pvsz_problem *problem)
{
    const pvsz_part_list *arrays = pvsz_spec_parts(problem->system, PVSZ_KIND_ARRAY);

    problem->fixed = (int32_t)arrays->count;
    for (int32_t i = 0; i < problem->fixed; i++) {
        const pvsize_spec *array = arrays->item[i];
        double plane = pvsz_number_of(array, PVSIZE_ARRAY_PLANE, -1);
        double strings = pvsz_number_of(array, PVSIZE_ARRAY_STRINGS, 0);
        double modules = strings * pvsz_number_of(array, PVSIZE_ARRAY_MODULES_PER_STRING, 0);
        double pmax = pvsz_number_of(pvsz_spec_parts(array, PVSZ_KIND_MODULE)->item[0],
                                     PVSIZE_MODULE_PMAX, 0);

        if (modules == 0) {
            int32_t term = strings > 0 ? PVSIZE_ARRAY_MODULES_PER_STRING : PVSIZE_ARRAY_STRINGS;

            return fail_plane(problem, PVSIZE_E_NOT_SET, term, i);
        }
        if (modules > MOST_ROOM)
            modules = MOST_ROOM;
        if (plane >= 0)
            take_room(&problem->plane[(int32_t)plane], (int32_t)modules);
        problem->fixed_modules += (int32_t)modules;
        if (problem->fixed_modules > MOST_FIXED)
            problem->fixed_modules = MOST_FIXED;
        problem->fixed_strings += (int32_t)strings;
        problem->fixed_power += (int64_t)modules * pvsz_milliwatts(pmax);
    }
    problem->wanted_modules -= problem->fixed_modules;
    return PVSIZE_OK;
}
