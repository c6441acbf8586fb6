/* A search from the question to the answers as an object: what is kept of it, in the units of
 * the interface. */
#include "layout.h"

static void sum_up(const pvsz_problem *problem, const pvsz_answer *answer, pvsz_layout *out,
                   pvsz_option *option)
{
    double power = (double)problem->fixed_power, energy = 0;

    out->has_energy = problem->fixed == 0;
    out->number[PVSIZE_LAYOUT_MODULES] = problem->fixed_modules;
    out->number[PVSIZE_LAYOUT_STRINGS] = problem->fixed_strings;
    out->key = answer->key;
    for (int32_t i = 0; i < problem->slots; i++) {
        option[i] = problem->group[problem->slot[i].group].option[answer->choice[i]];
        for (int32_t side = 0; option[i].module >= 0 && side < 2 && option[i].plane[side] >= 0;
             side++) {
            double yield = problem->plane[option[i].plane[side]].yield;
            double watts = (double)problem->module_power[option[i].module] / 1000;

            out->arrays++;
            out->has_energy &= yield >= 0;
            energy += option[i].length * option[i].strings[side] * watts * yield / 1000;
        }
        power += (double)option[i].power;
        out->number[PVSIZE_LAYOUT_MODULES] += option[i].modules;
        out->number[PVSIZE_LAYOUT_STRINGS] += option[i].strings[0] + option[i].strings[1];
        out->number[PVSIZE_LAYOUT_DEVICES] += option[i].devices;
        if (option[i].module >= 0) /* as the caller counts them */
            option[i].module = problem->module_index[option[i].module];
    }
    out->number[PVSIZE_LAYOUT_POWER] = power / 1000;
    out->number[PVSIZE_LAYOUT_ENERGY] = energy;
    out->number[PVSIZE_LAYOUT_OUTCOME] = answer->outcome;
}

/* What was proven, in the objective's own unit. */
static void set_bound(const pvsz_problem *problem, pvsize_layouts *out)
{
    const pvsz_list *list = &problem->list;
    pvsz_key key = problem->bound;

    if (list->count > 0 && pvsz_compare_keys(&key, &list->answer[0].key) < 0)
        key = list->answer[0].key;
    out->has_bound = !pvsz_is_never(&key) && problem->objective != PVSIZE_OBJECTIVE_PLANE_ORDER;
    switch (problem->objective) {
    case PVSIZE_OBJECTIVE_ENERGY:
        out->bound = (double)key.level[0] / 1000;
        break;
    case PVSIZE_OBJECTIVE_NEAREST_POWER:
        out->bound = (double)(-key.level[0] / 2) / 1000;
        break;
    default:
        out->bound = ((double)key.level[0] + (double)problem->fixed_power) / 1000;
    }
}

static pvsize_status fill_lists(const pvsz_problem *problem, pvsize_layouts *out)
{
    size_t slots = (size_t)problem->slots, answers = (size_t)problem->list.count;

    out->layout = pvsz_new(&out->head.memory, answers, sizeof *out->layout);
    out->slot = pvsz_new(&out->head.memory, slots, sizeof *out->slot);
    out->option = pvsz_new(&out->head.memory, slots * answers, sizeof *out->option);
    out->obstacle = pvsz_new(&out->head.memory, problem->obstacles, sizeof *out->obstacle);
    if (!out->layout || !out->slot || !out->option || !out->obstacle)
        return pvsz_no_memory(problem->diag);
    for (size_t i = 0; i < slots; i++)
        out->slot[i] = problem->slot[i];
    for (size_t i = 0; i < answers; i++)
        sum_up(problem, &problem->list.answer[i], &out->layout[i], &out->option[i * slots]);
    for (size_t i = 0; i < problem->obstacles; i++) {
        pvsz_option *option = &out->obstacle[i].option;

        out->obstacle[i] = problem->obstacle[i];
        if (option->module >= 0)
            option->module = problem->module_index[option->module];
    }
    out->layouts = problem->list.count;
    out->obstacles = (int32_t)problem->obstacles;
    out->slots = problem->slots;
    return PVSIZE_OK;
}

static pvsize_status fill(const pvsz_problem *problem, const pvsize_spec *search,
                          pvsize_layouts *out)
{
    pvsize_status status =
        pvsize_spec_clone(search, &out->head.memory, &out->search, problem->diag);

    if (!status)
        status = pvsize_rules_clone(problem->rules, &out->head.memory, &out->rules, problem->diag);
    if (!status)
        status = fill_lists(problem, out);
    out->ending = problem->ending;
    out->nodes = problem->nodes;
    out->objective = problem->objective;
    out->complete = problem->ending == PVSIZE_ENDING_PROVEN && !problem->list.overflowed;
    set_bound(problem, out);
    out->filled = true;
    return status;
}

pvsize_status pvsz_check_question(const pvsize_spec *search, const pvsize_rules *rules,
                                  pvsize_diag *diag)
{
    if (!search || !rules)
        return pvsz_fail_null(diag, !search ? "search" : "rules");
    if (!pvsz_spec_live(search))
        return pvsz_fail_handle(diag, "search");
    if (!pvsz_rules_live(rules))
        return pvsz_fail_handle(diag, "rules");
    if (search->kind != PVSZ_KIND_SEARCH)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[search->kind].number,
                              "a search");
    return PVSIZE_OK;
}

pvsize_status pvsize_search(const pvsize_spec *search, const pvsize_rules *rules,
                            const int32_t *cancel, pvsize_layouts *layouts, pvsize_diag *diag)
{
    pvsz_problem problem = {.rules = rules, .cancel = cancel, .diag = diag};
    pvsize_layouts made = {.search = NULL};
    pvsize_status status = pvsz_check_question(search, rules, diag);

    if (status)
        return status;
    status = pvsz_check_layouts(layouts, diag);
    if (status)
        return status;
    made.head = layouts->head;
    problem.memory = &made.head.memory;
    status = pvsz_solve(&problem, search);
    if (!status)
        status = fill(&problem, search, &made);
    pvsz_end_problem(&problem);
    if (status) {
        pvsz_empty_layouts(&made);
        return status;
    }
    pvsz_empty_layouts(layouts);
    *layouts = made;
    return PVSIZE_OK;
}

pvsize_status pvsz_search_best(const pvsize_spec *search, const pvsize_rules *rules,
                               const int32_t *cancel, const pvsz_memory *memory, pvsz_best *best,
                               pvsize_diag *diag)
{
    pvsz_problem problem = {
        .rules = rules, .cancel = cancel, .diag = diag, .memory = memory, .brief = true};
    pvsize_status status = pvsz_solve(&problem, search);

    *best = (pvsz_best){.ending = problem.ending, .answers = problem.list.count};
    if (!status && best->answers > 0) {
        pvsz_option *option = pvsz_new(memory, (size_t)problem.slots, sizeof *option);

        if (option)
            sum_up(&problem, &problem.list.answer[0], &best->layout, option);
        else
            status = pvsz_no_memory(diag);
        pvsz_release(memory, option);
    }
    pvsz_end_problem(&problem);
    return status;
}
