/* What stood in the way: of any stringing at all, by input and rule with the nearest
 * miss; of more than the best has, by the next step on each of its inputs. */
#include "layout.h"

pvsz_obstacle pvsz_obstacle_of(const pvsz_finding *finding, const pvsz_option *option,
                               int32_t inverter, int32_t input)
{
    return (pvsz_obstacle){
        .option = *option,
        .rule = finding->rule->number,
        .inverter = inverter,
        .input = input,
        .answer = -1,
        .broken = 1,
        .unit_term = finding->rule->value.number,
        .compare = finding->rule->compare,
        .value = finding->value,
        .limit = finding->limit,
        .margin = finding->margin,
    };
}

pvsize_status pvsz_add_obstacle(pvsz_problem *problem, const pvsz_obstacle *obstacle)
{
    pvsz_obstacle *grown = pvsz_grow(problem->memory, problem->obstacle, problem->obstacles,
                                     &problem->obstacle_room, sizeof *grown);

    if (!grown)
        return pvsz_no_memory(problem->diag);
    problem->obstacle = grown;
    problem->obstacle[problem->obstacles++] = *obstacle;
    return PVSIZE_OK;
}

/* How far beyond the limit, as a share of it. */
static double excess(const pvsz_obstacle *obstacle)
{
    double size = obstacle->limit < 0 ? -obstacle->limit : obstacle->limit;
    double over = obstacle->margin < 0 ? -obstacle->margin : obstacle->margin;

    return size > 0 ? over / size : over;
}

bool pvsz_is_nearer(const pvsz_obstacle *a, const pvsz_obstacle *b)
{
    if (b->rule == 0 || a->broken != b->broken)
        return b->rule == 0 || a->broken < b->broken;
    return excess(a) < excess(b);
}

/* The nearest length that passes with all else the same; 0: none. Rules of an input leave a
 * range of lengths, so that no two are as near. */
static int32_t length_that_passes(const pvsz_group *group, const pvsz_option *missed)
{
    int32_t nearest = 0, distance = INT32_MAX;

    for (size_t i = 0; i < group->count; i++) {
        const pvsz_option *option = &group->option[i];
        int32_t here = option->length - missed->length;

        if (option->module != missed->module || option->plane[0] != missed->plane[0] ||
            option->plane[1] != missed->plane[1] || option->strings[0] != missed->strings[0] ||
            option->strings[1] != missed->strings[1])
            continue;
        here = here < 0 ? -here : here;
        if (here < distance) {
            nearest = option->length;
            distance = here;
        }
    }
    return nearest;
}

static pvsize_status add_misses(pvsz_problem *problem, const pvsz_slot *slot)
{
    const pvsz_group *group = &problem->group[slot->group];

    for (int32_t i = 0; i < problem->rules->forces; i++) {
        pvsz_obstacle miss = group->miss[i];
        pvsize_status status;

        if (miss.rule == 0)
            continue;
        miss.inverter = slot->inverter;
        miss.input = slot->input;
        miss.passes = length_that_passes(group, &miss.option);
        status = pvsz_add_obstacle(problem, &miss);
        if (status)
            return status;
    }
    return PVSIZE_OK;
}

/* One module more in each string, or one string more: why not? */
static pvsize_status add_step(pvsz_problem *problem, int32_t slot, const pvsz_option *more,
                              int32_t passes)
{
    const pvsz_slot *at = &problem->slot[slot];
    const pvsz_answer *best = &problem->list.answer[0];
    pvsize_status status;

    pvsz_wire(problem, best->choice);
    pvsz_fill(problem, more, &problem->array[2 * slot], at->inverter, at->input);
    status = pvsz_check_wired(problem);
    for (int32_t i = 0; !status && i < problem->report->findings; i++) {
        const pvsz_finding *finding = &problem->report->finding[i];
        pvsz_obstacle obstacle;

        if (!pvsz_breaks(finding))
            continue;
        obstacle = pvsz_obstacle_of(finding, more, at->inverter, at->input);
        obstacle.answer = 0;
        obstacle.passes = passes;
        status = pvsz_add_obstacle(problem, &obstacle);
    }
    return status;
}

static pvsize_status add_steps(pvsz_problem *problem, int32_t slot)
{
    const pvsz_group *group = &problem->group[problem->slot[slot].group];
    const pvsz_option *has = &group->option[problem->list.answer[0].choice[slot]];
    pvsz_option more = *has;
    pvsize_status status;

    if (has->module < 0)
        return PVSIZE_OK;
    more.length++;
    status = add_step(problem, slot, &more, has->length);
    for (int32_t side = 0; !status && side < 2 && has->plane[side] >= 0; side++) {
        more = *has;
        more.strings[side]++;
        status = add_step(problem, slot, &more, 0);
    }
    return status;
}

/* What a like input with the same option would only repeat. */
static bool repeats(const pvsz_problem *problem, int32_t slot)
{
    const int32_t *choice = problem->list.answer[0].choice;
    const pvsz_slot *at = &problem->slot[slot];
    int32_t twin = slot - (at->end - at->first);

    if (at->like_before && choice[slot] == choice[slot - 1])
        return true;
    return at->twin && choice[slot] == choice[twin];
}

/* So many modules at least, for so much room on a plane, or on all (-1). */
static pvsize_status add_room(pvsz_problem *problem, int32_t plane, double modules, double room)
{
    const pvsz_obstacle obstacle = {
        .option = {.module = plane < 0 ? -1 : 0,
                   .plane = {plane, -1},
                   .strings = {1, 0},
                   .length = problem->shortest},
        .rule = PVSIZE_RULE_PLANE_ROOM,
        .inverter = -1,
        .input = -1,
        .broken = 1,
        .answer = -1,
        .unit_term = PVSIZE_QUANTITY_PLANE_MODULES,
        .compare = PVSIZE_COMPARE_AT_MOST,
        .value = modules,
        .limit = room,
        .margin = room - modules,
    };

    return room < modules ? pvsz_add_obstacle(problem, &obstacle) : PVSIZE_OK;
}

/* Nothing could even be tried: the shortest string is longer than every plane has room. */
static pvsize_status add_largest_plane(pvsz_problem *problem)
{
    int32_t most = 0;

    for (int32_t i = 1; i < problem->planes; i++)
        if (problem->plane[i].room > problem->plane[most].room)
            most = i;
    return add_room(problem, most, problem->shortest, problem->plane[most].room);
}

/* Each input has options, but not all inputs together: what do the smallest break? */
static pvsize_status add_smallest(pvsz_problem *problem)
{
    const pvsz_option none = {.module = -1, .plane = {-1, -1}};
    double modules = 0, room = 0;
    pvsize_status status;

    for (int32_t i = 0; i < problem->slots; i++) {
        const pvsz_group *group = &problem->group[problem->slot[i].group];

        if (group->count == 0)
            return PVSIZE_OK;
        problem->choice[i] = 0;
        for (size_t k = 1; k < group->count; k++)
            if (group->option[k].modules < group->option[problem->choice[i]].modules)
                problem->choice[i] = (int32_t)k;
        modules += group->option[problem->choice[i]].modules;
    }
    for (int32_t i = 0; i < problem->planes; i++)
        room += problem->plane[i].room;
    pvsz_wire(problem, problem->choice);
    status = pvsz_check_wired(problem);
    for (int32_t i = 0; !status && i < problem->report->findings; i++) {
        const pvsz_finding *finding = &problem->report->finding[i];
        pvsz_obstacle obstacle;

        if (!pvsz_breaks(finding))
            continue;
        obstacle = pvsz_obstacle_of(
            finding, &none, finding->subject->at[PVSZ_KIND_INVERTER],
            finding->subject->scope == PVSZ_KIND_INPUT ? finding->subject->index : -1);
        status = pvsz_add_obstacle(problem, &obstacle);
    }
    if (!status && problem->obstacles == 0)
        status = add_room(problem, -1, modules, room);
    return status;
}

pvsize_status pvsz_explain(pvsz_problem *problem)
{
    pvsize_status status = PVSIZE_OK;

    if (problem->list.count > 0) {
        for (int32_t i = 0; !status && i < problem->slots; i++)
            if (!repeats(problem, i))
                status = add_steps(problem, i);
        return status;
    }
    for (int32_t i = 0; !status && i < problem->slots; i++)
        status = add_misses(problem, &problem->slot[i]);
    if (!status && problem->refused.rule)
        status = pvsz_add_obstacle(problem, &problem->refused);
    if (!status && problem->slots > 0 && problem->obstacles == 0)
        status = add_largest_plane(problem);
    if (!status && problem->obstacles == 0)
        status = add_smallest(problem);
    return status;
}
