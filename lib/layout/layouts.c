/* The answers as an object: what a search leaves behind. */
#include "../report/words.h"
#include "layout.h"

static bool is_live(const pvsize_layouts *layouts)
{
    return pvsz_is(layouts, PVSZ_MARK_LAYOUTS);
}

pvsize_status pvsize_layouts_new(const pvsize_allocator *memory, pvsize_layouts **out,
                                 pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_LAYOUTS, &made, diag);
    *out = made;
    return status;
}

static void empty(pvsize_layouts *layouts)
{
    pvsize_spec_free(layouts->search);
    pvsize_rules_free(layouts->rules);
    pvsz_release(&layouts->head.memory, layouts->layout);
    pvsz_release(&layouts->head.memory, layouts->slot);
    pvsz_release(&layouts->head.memory, layouts->option);
    pvsz_release(&layouts->head.memory, layouts->obstacle);
}

void pvsize_layouts_free(pvsize_layouts *layouts)
{
    if (!is_live(layouts))
        return;
    empty(layouts);
    pvsz_unmake(layouts);
}

/* filling */

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
    pvsz_key key = problem->bound;

    if (problem->list.count > 0)
        key = pvsz_better_key(key, problem->list.answer[0].key);
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

static pvsize_status check_question(const pvsize_spec *search, const pvsize_rules *rules,
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
    pvsize_status status = check_question(search, rules, diag);

    if (status)
        return status;
    if (!layouts)
        return pvsz_fail_null(diag, "layouts");
    if (!is_live(layouts))
        return pvsz_fail_handle(diag, "layouts");
    made.head = layouts->head;
    problem.memory = &made.head.memory;
    status = pvsz_solve(&problem, search);
    if (!status)
        status = fill(&problem, search, &made);
    pvsz_end_problem(&problem);
    if (status) {
        empty(&made);
        return status;
    }
    empty(layouts);
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

/* asking */

pvsize_status pvsz_check_layouts(const pvsize_layouts *layouts, pvsize_diag *diag)
{
    if (!layouts)
        return pvsz_fail_null(diag, "layouts");
    return is_live(layouts) ? PVSIZE_OK : pvsz_fail_handle(diag, "layouts");
}

static pvsize_status check_out(const pvsize_layouts *layouts, const void *out, const char *name,
                               pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_layouts(layouts, diag);

    return !status && !out ? pvsz_fail_null(diag, name) : status;
}

static pvsize_status check_index(const pvsize_layouts *layouts, int32_t i, int32_t count,
                                 pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_layouts(layouts, diag);

    if (status || (i >= 0 && i < count))
        return status;
    pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, count);
    pvsz_fail_argument(diag, "i");
    return PVSIZE_E_BAD_INDEX;
}

pvsize_status pvsize_layouts_ending(const pvsize_layouts *layouts, int32_t *ending,
                                    pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, ending, "ending", diag);

    if (!status)
        *ending = layouts->filled ? layouts->ending : PVSIZE_ENDING_PROVEN;
    return status;
}

pvsize_status pvsize_layouts_complete(const pvsize_layouts *layouts, int32_t *complete,
                                      pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, complete, "complete", diag);

    if (!status)
        *complete = layouts->complete;
    return status;
}

pvsize_status pvsize_layouts_bound(const pvsize_layouts *layouts, double *bound, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, bound, "bound", diag);

    if (!status && !layouts->has_bound)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    if (!status)
        *bound = layouts->bound;
    return status;
}

pvsize_status pvsize_layouts_nodes(const pvsize_layouts *layouts, double *nodes, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, nodes, "nodes", diag);

    if (!status)
        *nodes = layouts->nodes;
    return status;
}

pvsize_status pvsize_layouts_count(const pvsize_layouts *layouts, int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, count, "count", diag);

    if (!status)
        *count = layouts->layouts;
    return status;
}

pvsize_status pvsize_layouts_number(const pvsize_layouts *layouts, int32_t i, int32_t what,
                                    double *value, pvsize_diag *diag)
{
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->layouts, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (!pvsz_set_has(PVSIZE_SET_LAYOUT, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_LAYOUT, what);
    if (what == PVSIZE_LAYOUT_ENERGY && !layouts->layout[i].has_energy)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_PLANE_SPECIFIC_YIELD);
    *value = layouts->layout[i].number[what];
    return PVSIZE_OK;
}

pvsize_status pvsize_layouts_array_count(const pvsize_layouts *layouts, int32_t i, int32_t *count,
                                         pvsize_diag *diag)
{
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->layouts, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = layouts->layout[i].arrays;
    return PVSIZE_OK;
}

static void put(int32_t *place, int32_t value)
{
    if (place)
        *place = value;
}

/* Slot and side of the k-th array of an answer. */
static const pvsz_option *find_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                     const pvsz_slot **slot, int32_t *side)
{
    const pvsz_option *option = &layouts->option[(size_t)i * (size_t)layouts->slots];

    for (int32_t s = 0; s < layouts->slots; s++)
        for (*side = 0; option[s].module >= 0 && *side < 2 && option[s].plane[*side] >= 0; ++*side)
            if (k-- == 0) {
                *slot = &layouts->slot[s];
                return &option[s];
            }
    return NULL; /* GCOVR_EXCL_LINE: callers ask for k below the count of arrays */
}

pvsize_status pvsize_layouts_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                   int32_t *inverter, int32_t *input, int32_t *plane,
                                   int32_t *module, int32_t *modules_per_string, int32_t *strings,
                                   pvsize_diag *diag)
{
    const pvsz_option *option;
    const pvsz_slot *slot;
    int32_t count, side;
    pvsize_status status = pvsize_layouts_array_count(layouts, i, &count, diag);

    if (!status)
        status = check_index(layouts, k, count, diag);
    if (status == PVSIZE_E_BAD_INDEX && k >= 0)
        pvsz_fail_argument(diag, "k");
    if (status)
        return status;
    option = find_array(layouts, i, k, &slot, &side);
    put(inverter, slot->inverter);
    put(input, slot->input);
    put(plane, option->plane[side]);
    put(module, option->module);
    put(modules_per_string, option->length);
    put(strings, option->strings[side]);
    return PVSIZE_OK;
}

/* answers as systems */

static pvsize_status add_array(const pvsize_layouts *layouts, const pvsz_option *option,
                               const pvsz_slot *slot, int32_t side, pvsize_spec *system,
                               pvsize_diag *diag)
{
    static const int32_t terms[] = {PVSIZE_ARRAY_INVERTER,
                                    PVSIZE_ARRAY_INPUT,
                                    PVSIZE_ARRAY_PLANE,
                                    PVSIZE_ARRAY_MODULES_PER_STRING,
                                    PVSIZE_ARRAY_STRINGS,
                                    PVSIZE_ARRAY_STRING_DEVICE,
                                    PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE};
    const double values[] = {slot->inverter,
                             slot->input,
                             option->plane[side],
                             option->length,
                             option->strings[side],
                             option->device[side],
                             0};
    double voltage, isolators = PVSIZE_ANSWER_NO;
    pvsize_spec *array = NULL;
    pvsize_status status = pvsize_spec_new(PVSIZE_KIND_ARRAY, &system->head.memory, &array, diag);

    if (!status)
        status =
            pvsize_spec_set_numbers(array, terms, values, option->device[side] > 0 ? 6 : 5, diag);
    if (!status && option->device[side] > 0 &&
        pvsz_spec_number(layouts->search, PVSIZE_SEARCH_STRING_DEVICE_VOLTAGE, &voltage))
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, voltage, diag);
    pvsz_spec_number(layouts->search, PVSIZE_SEARCH_EXTERNAL_ISOLATOR, &isolators);
    if (!status && isolators == PVSIZE_ANSWER_YES)
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, isolators, diag);
    if (!status)
        status = pvsize_spec_add(
            array, pvsz_spec_parts(layouts->search, PVSZ_KIND_MODULE)->item[option->module], NULL,
            diag);
    if (!status)
        status = pvsize_spec_add(system, array, NULL, diag);
    pvsize_spec_free(array);
    return status;
}

pvsize_status pvsize_layouts_system(const pvsize_layouts *layouts, int32_t i,
                                    const pvsize_allocator *memory, pvsize_spec **out,
                                    pvsize_diag *diag)
{
    pvsize_spec *system;
    int32_t count = 0;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = pvsize_layouts_array_count(layouts, i, &count, diag);
    if (!status)
        status = pvsize_spec_clone(pvsz_spec_parts(layouts->search, PVSZ_KIND_SYSTEM)->item[0],
                                   memory, &system, diag);
    if (status)
        return status;
    for (int32_t k = 0; !status && k < count; k++) {
        const pvsz_slot *slot;
        int32_t side;
        const pvsz_option *option = find_array(layouts, i, k, &slot, &side);

        status = add_array(layouts, option, slot, side, system, diag);
    }
    if (!status)
        *out = system;
    else
        pvsize_spec_free(system);
    return status;
}

pvsize_status pvsize_layouts_report(const pvsize_layouts *layouts, int32_t i, pvsize_report *report,
                                    pvsize_diag *diag)
{
    pvsize_spec *system = NULL;
    pvsize_status status = pvsz_check_report(report, diag);

    if (!status)
        status = pvsize_layouts_system(layouts, i, &report->head.memory, &system, diag);
    if (!status)
        status = pvsize_check(system, layouts->rules, report, diag);
    pvsize_spec_free(system);
    return status;
}

/* obstacles */

pvsize_status pvsize_layouts_obstacle_count(const pvsize_layouts *layouts, int32_t *count,
                                            pvsize_diag *diag)
{
    pvsize_status status = check_out(layouts, count, "count", diag);

    if (!status)
        *count = layouts->obstacles;
    return status;
}

pvsize_status pvsize_layouts_obstacle(const pvsize_layouts *layouts, int32_t i, int32_t *rule,
                                      int32_t *inverter, int32_t *input, int32_t *plane,
                                      int32_t *second_plane, int32_t *module,
                                      int32_t *modules_per_string, int32_t *strings,
                                      int32_t *passes, pvsize_diag *diag)
{
    const pvsz_obstacle *obstacle;
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->obstacles, diag);

    if (status)
        return status;
    obstacle = &layouts->obstacle[i];
    put(rule, obstacle->rule);
    put(inverter, obstacle->inverter);
    put(input, obstacle->input);
    put(plane, obstacle->option.plane[0]);
    put(second_plane, obstacle->option.plane[1]);
    put(module, obstacle->option.module);
    put(modules_per_string, obstacle->option.length);
    put(strings, obstacle->option.strings[0] + obstacle->option.strings[1]);
    put(passes, obstacle->passes);
    return PVSIZE_OK;
}

pvsize_status pvsize_layouts_obstacle_numbers(const pvsize_layouts *layouts, int32_t i,
                                              double *value, double *limit, double *margin,
                                              pvsize_diag *diag)
{
    const pvsz_obstacle *obstacle;
    pvsize_status status =
        check_index(layouts, i, pvsz_check_layouts(layouts, NULL) ? 0 : layouts->obstacles, diag);

    if (status)
        return status;
    obstacle = &layouts->obstacle[i];
    if (value)
        *value = obstacle->value;
    if (limit)
        *limit = obstacle->limit;
    if (margin)
        *margin = obstacle->margin;
    return PVSIZE_OK;
}
