/* Which inputs are to be decided, and which of them are alike. */
#include "layout.h"

static const pvsize_spec *inverter_at(const pvsz_problem *problem, int32_t i)
{
    return pvsz_spec_parts(problem->system, PVSZ_KIND_INVERTER)->item[i];
}

static const pvsize_spec *input_at(const pvsz_problem *problem, int32_t inverter, int32_t i)
{
    return pvsz_input_of(inverter_at(problem, inverter), i);
}

static int32_t inputs_of(const pvsz_problem *problem, int32_t inverter)
{
    return (int32_t)pvsz_spec_parts(inverter_at(problem, inverter), PVSZ_KIND_INPUT)->count;
}

bool pvsz_holds_fixed(const pvsz_problem *problem, int32_t inverter, int32_t input)
{
    const pvsz_part_list *arrays = pvsz_spec_parts(problem->system, PVSZ_KIND_ARRAY);

    for (int32_t i = 0; i < problem->fixed; i++)
        if (pvsz_number_of(arrays->item[i], PVSIZE_ARRAY_INVERTER, 0) == inverter &&
            (input < 0 || pvsz_number_of(arrays->item[i], PVSIZE_ARRAY_INPUT, -1) == input))
            return true;
    return false;
}

static bool holds_cable(const pvsz_problem *problem, int32_t inverter)
{
    const pvsz_part_list *cables = pvsz_spec_parts(problem->system, PVSZ_KIND_CABLE);

    for (size_t i = 0; i < cables->count; i++)
        if (pvsz_number_of(cables->item[i], PVSIZE_CABLE_INVERTER, -1) == inverter)
            return true;
    return false;
}

/* Inverters can be exchanged if nothing tells them apart but their place. */
static bool are_twins(const pvsz_problem *problem, int32_t a, int32_t b)
{
    if (problem->tells_places || inputs_of(problem, a) != inputs_of(problem, b) ||
        !pvsz_spec_same_numbers(inverter_at(problem, a), inverter_at(problem, b)) ||
        pvsz_holds_fixed(problem, a, -1) || pvsz_holds_fixed(problem, b, -1) ||
        holds_cable(problem, a) || holds_cable(problem, b))
        return false;
    for (int32_t i = 0; i < inputs_of(problem, a); i++)
        if (!pvsz_spec_same_numbers(input_at(problem, a, i), input_at(problem, b, i)))
            return false;
    return true;
}

/* Whether options that one inverter's limits leave are those that the other's leave: an array
 * that must be there takes of them. */
static bool leaves_the_same(const pvsz_problem *problem, int32_t a, int32_t b)
{
    return a == b || (pvsz_spec_same_numbers(inverter_at(problem, a), inverter_at(problem, b)) &&
                      !pvsz_holds_fixed(problem, a, -1) && !pvsz_holds_fixed(problem, b, -1));
}

/* The group of an input: that of the first like it, or a new one. */
static int32_t group_of(pvsz_problem *problem, int32_t inverter, int32_t input)
{
    for (int32_t i = 0; i < problem->groups && !problem->tells_places; i++) {
        const pvsz_group *group = &problem->group[i];

        if (leaves_the_same(problem, group->inverter, inverter) &&
            pvsz_spec_same_numbers(input_at(problem, group->inverter, group->input),
                                   input_at(problem, inverter, input)))
            return i;
    }
    problem->group[problem->groups] =
        (pvsz_group){.inverter = inverter, .input = input, .unused = true};
    return problem->groups++;
}

/* The slots of an inverter, like inputs side by side. */
static void add_slots(pvsz_problem *problem, int32_t inverter)
{
    int32_t first = problem->slots;

    for (int32_t input = 0; input < inputs_of(problem, inverter); input++) {
        int32_t at = problem->slots, group;

        if (pvsz_holds_fixed(problem, inverter, input))
            continue;
        group = group_of(problem, inverter, input);
        for (int32_t i = first; i < problem->slots; i++)
            if (problem->slot[i].group == group)
                at = i + 1;
        for (int32_t i = problem->slots; i > at; i--)
            problem->slot[i] = problem->slot[i - 1];
        problem->slot[at] =
            (pvsz_slot){.inverter = inverter, .input = input, .group = group, .first = first};
        problem->slot[at].like_before = at > first && problem->slot[at - 1].group == group;
        problem->slots++;
    }
    for (int32_t i = first; i < problem->slots; i++)
        problem->slot[i].end = problem->slots;
    problem->unit[inverter].first = first;
    problem->unit[inverter].end = problem->slots;
}

/* Twins follow one another. */
static void add_twins(pvsz_problem *problem, int32_t inverter)
{
    for (int32_t i = inverter; i < problem->units; i++) {
        if (i != inverter && problem->unit[i].likeness != inverter)
            continue;
        add_slots(problem, i);
        for (int32_t k = problem->unit[i].first; i != inverter && k < problem->slots; k++) {
            int32_t before = k - (problem->unit[i].end - problem->unit[i].first);

            problem->slot[k].twin = true;
            problem->slot[before].has_twin = true;
        }
    }
}

pvsize_status pvsz_read_inputs(pvsz_problem *problem)
{
    size_t inputs = 0;

    problem->units = (int32_t)pvsz_spec_parts(problem->system, PVSZ_KIND_INVERTER)->count;
    for (int32_t i = 0; i < problem->units; i++)
        inputs += (size_t)inputs_of(problem, i);
    problem->unit = pvsz_take(problem, (size_t)problem->units, sizeof *problem->unit);
    problem->slot = pvsz_take(problem, inputs + 1, sizeof *problem->slot);
    problem->group = pvsz_take(problem, inputs, sizeof *problem->group);
    problem->choice = pvsz_take(problem, inputs, sizeof *problem->choice);
    if (!problem->unit || !problem->slot || !problem->group || !problem->choice)
        return pvsz_no_memory(problem->diag);
    for (int32_t i = 0; i < problem->units; i++) {
        problem->unit[i].likeness = i;
        for (int32_t k = i - 1; k >= 0; k--)
            if (problem->unit[k].likeness == k && are_twins(problem, k, i))
                problem->unit[i].likeness = k;
    }
    for (int32_t i = 0; i < problem->units; i++)
        if (problem->unit[i].likeness == i)
            add_twins(problem, i);
    return PVSIZE_OK;
}
