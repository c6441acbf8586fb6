/* The whole search: options, one pass or, for a nearest power, two, and the reasons. */
#include "layout.h"

static pvsize_status make_list(pvsz_problem *problem)
{
    pvsz_list *list = &problem->list;
    size_t most = (size_t)list->most + 1; /* and a spare one */
    size_t slots = (size_t)problem->slots;
    int32_t *choice;

    list->answer = pvsz_take(problem, most, sizeof *list->answer);
    choice = pvsz_take(problem, most * (slots + 1), sizeof *choice);
    if (!list->answer || !choice)
        return pvsz_no_memory(problem->diag);
    for (size_t i = 0; i < most; i++)
        list->answer[i].choice = &choice[i * slots];
    return PVSIZE_OK;
}

/* From below, then from above: keys of both passes compare, since they tell the
 * distance, doubled, and of two as far apart the upper one is a little farther. */
static pvsize_status search_nearest(pvsz_problem *problem)
{
    int64_t wanted = problem->wanted_power - problem->fixed_power;
    int64_t power_left = problem->power_left;
    pvsize_status status;

    if (wanted < power_left)
        problem->power_left = wanted;
    problem->offset.level[0] = -2 * wanted;
    status = pvsz_search_pass(problem);
    problem->power_left = power_left;
    if (status)
        return status;
    if (problem->ending != PVSIZE_ENDING_PROVEN) {
        problem->bound = (pvsz_key){{0, 0, 0}};
        return PVSIZE_OK;
    }
    problem->sign = -1;
    problem->floor_power = wanted;
    problem->offset.level[0] = 2 * wanted - 1;
    return pvsz_search_pass(problem);
}

/* The total nearest to the wanted one that can be had, the lower of two as near. */
static pvsize_status search_nearest_total(pvsz_problem *problem)
{
    enum { FARTHEST = 200 };
    int32_t wanted = problem->wanted_modules;

    for (int32_t i = 2; i <= 2 * FARTHEST + 1 && problem->list.count == 0 &&
                        problem->ending == PVSIZE_ENDING_PROVEN;
         i++) {
        pvsize_status status;

        problem->wanted_modules = i % 2 ? wanted + i / 2 : wanted - i / 2;
        if (problem->wanted_modules < 1 && problem->fixed == 0)
            continue;
        status = pvsz_search_pass(problem);
        if (status)
            return status;
    }
    /* that the wanted total cannot be had is proven all the same */
    problem->ending = PVSIZE_ENDING_PROVEN;
    problem->bound = PVSZ_NEVER;
    problem->list.overflowed = false;
    if (problem->list.count > 0) {
        const pvsz_obstacle obstacle = {
            .option = {.module = -1, .plane = {-1, -1}},
            .inverter = -1,
            .input = -1,
            .answer = -1,
            .unit_term = PVSIZE_SEARCH_WANTED_MODULES,
            .value = problem->wanted_modules + problem->fixed_modules,
            .limit = wanted + problem->fixed_modules,
            .margin = problem->wanted_modules - wanted,
        };

        problem->list.count = 0;
        return pvsz_add_obstacle(problem, &obstacle);
    }
    return PVSIZE_OK;
}

pvsize_status pvsz_solve(pvsz_problem *problem, const pvsize_spec *search)
{
    pvsize_status status = pvsz_pose(problem, search);

    problem->sign = 1;
    problem->floor_power = INT64_MIN;
    problem->bound = PVSZ_NEVER;
    if (!status)
        status = make_list(problem);
    if (status || problem->obstacles > 0) /* broken whatever is wired */
        return status;
    status = pvsz_find_options(problem);
    if (status)
        return status;
    if (problem->ending != PVSIZE_ENDING_PROVEN) /* not even all options are known */
        return problem->brief ? PVSIZE_OK : pvsz_explain(problem);
    if (problem->objective == PVSIZE_OBJECTIVE_NEAREST_POWER)
        status = search_nearest(problem);
    else
        status = pvsz_search_pass(problem);
    if (status || problem->brief)
        return status;
    if (problem->has_wanted && problem->list.count == 0 && problem->ending == PVSIZE_ENDING_PROVEN)
        status = search_nearest_total(problem);
    return status ? status : pvsz_explain(problem);
}
