/* Reading the question: what is asked, modules, and the system as it is given. */
#include <math.h>

#include "layout.h"

/* Most takings are small: a block has room for many. */
struct pvsz_block {
    pvsz_block *next;
    size_t left; /* of its places, taken from the last to the first */
    max_align_t place[];
};
enum { LEAST_PLACES = 4096 / sizeof(max_align_t) };

void *pvsz_take(pvsz_problem *problem, size_t n, size_t size)
{
    pvsz_block *block = problem->block;
    size_t places;

    if (n > SIZE_MAX / 4 / size)
        return NULL;
    places = n * size / sizeof *block->place + 1;
    if (!block || places > block->left) {
        size_t most = places > LEAST_PLACES ? places : LEAST_PLACES;

        block = pvsz_new(problem->memory, 1, sizeof *block + most * sizeof *block->place);
        if (!block)
            return NULL;
        block->left = most;
        block->next = problem->block;
        problem->block = block;
    }
    block->left -= places;
    return &block->place[block->left];
}

pvsize_status pvsz_no_memory(pvsize_diag *diag)
{
    return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}

/* The flag may be written by another thread while this one reads it. */
bool pvsz_is_raised(const int32_t *flag)
{
    if (!flag)
        return false;
#ifdef __GNUC__
    return __atomic_load_n(flag, __ATOMIC_RELAXED) != 0;
#else
    return *(const volatile int32_t *)flag != 0;
#endif
}

bool pvsz_step(pvsz_problem *problem)
{
    if (problem->ending != PVSIZE_ENDING_PROVEN)
        return false;
    if (pvsz_is_raised(problem->cancel))
        problem->ending = PVSIZE_ENDING_CANCELLED;
    else if (problem->nodes >= problem->budget)
        problem->ending = PVSIZE_ENDING_BUDGET;
    else
        problem->nodes++;
    return problem->ending == PVSIZE_ENDING_PROVEN;
}

int64_t pvsz_milliwatts(double watts)
{
    return (int64_t)floor(watts * 1e3 + 0.5);
}

static pvsize_status read_terms(pvsz_problem *problem, const pvsize_spec *search)
{
    double power = pvsz_number_of(search, PVSIZE_SEARCH_WANTED_POWER, 0);

    problem->objective = (int32_t)pvsz_number_of(search, PVSIZE_SEARCH_OBJECTIVE, 0);
    problem->wanted_power = pvsz_milliwatts(power);
    problem->wanted_modules = (int32_t)pvsz_number_of(search, PVSIZE_SEARCH_WANTED_MODULES, 0);
    problem->has_wanted = problem->wanted_modules > 0;
    problem->shortest = (int32_t)pvsz_number_of(search, PVSIZE_SEARCH_SHORTEST_STRING, 1);
    problem->longest = (int32_t)pvsz_number_of(search, PVSIZE_SEARCH_LONGEST_STRING, 10000);
    problem->list.most = (int32_t)pvsz_number_of(search, PVSIZE_SEARCH_ANSWERS, 1);
    problem->budget = pvsz_number_of(search, PVSIZE_SEARCH_NODE_BUDGET, 0);
    problem->isolators = pvsz_number_of(search, PVSIZE_SEARCH_EXTERNAL_ISOLATOR, 0) != 0;
    problem->devices = pvsz_number_of(search, PVSIZE_SEARCH_STRING_DEVICES, 0) != 0;
    problem->device_voltage = pvsz_number_of(search, PVSIZE_SEARCH_STRING_DEVICE_VOLTAGE, 0);
    if (problem->objective == PVSIZE_OBJECTIVE_NEAREST_POWER && power == 0)
        return pvsz_fail_term(problem->diag, PVSIZE_E_NOT_SET, PVSIZE_SEARCH_WANTED_POWER);
    if (problem->longest < problem->shortest)
        return pvsz_fail_range(problem->diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_SEARCH_LONGEST_STRING,
                               problem->longest, problem->shortest, 10000);
    return PVSIZE_OK;
}

/* A second plane is offered where the rule set lets planes share an input. */
static void read_rules(pvsz_problem *problem)
{
    const pvsize_rules *rules = problem->rules;
    const pvsz_figure *most = &rules->figure[PVSZ_FIGURE_PLANES_PER_INPUT];
    bool limited = rules->rule[PVSZ_RULE_UNLIKE_PLANES].severity != PVSIZE_SEVERITY_OFF;

    problem->planes_per_input = limited && most->set ? (int32_t)most->value : 2;
    for (int32_t i = 0; i < rules->forces; i++)
        problem->tells_places |= rules->force[i].severity == PVSIZE_SEVERITY_MUST &&
                                 pvsz_rule_tells_places(&rules->force[i]);
}

/* modules */

static bool is_new(const pvsz_problem *problem, const pvsize_spec *module)
{
    for (int32_t i = 0; i < problem->modules; i++)
        if (pvsz_spec_same_numbers(problem->module[i], module))
            return false;
    return true;
}

static pvsize_status read_modules(pvsz_problem *problem, const pvsize_spec *search)
{
    const pvsz_part_list *list = pvsz_spec_parts(search, PVSZ_KIND_MODULE);

    if (list->count == 0)
        return pvsz_fail_term(problem->diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_MODULE);
    problem->module = pvsz_take(problem, list->count, sizeof *problem->module);
    problem->module_index = pvsz_take(problem, list->count, sizeof *problem->module_index);
    problem->module_power = pvsz_take(problem, list->count, sizeof *problem->module_power);
    if (!problem->module || !problem->module_index || !problem->module_power)
        return pvsz_no_memory(problem->diag);
    problem->least_power = INT64_MAX;
    for (size_t i = 0; i < list->count; i++) {
        int64_t power = pvsz_milliwatts(pvsz_number_of(list->item[i], PVSIZE_MODULE_PMAX, 0));

        if (power == 0) {
            pvsz_fail_term(problem->diag, PVSIZE_E_NOT_SET, PVSIZE_MODULE_PMAX);
            pvsz_fail_at(problem->diag, (int32_t)i);
            return PVSIZE_E_NOT_SET;
        }
        if (!is_new(problem, list->item[i]))
            continue;
        problem->module[problem->modules] = list->item[i];
        problem->module_index[problem->modules] = (int32_t)i;
        problem->module_power[problem->modules++] = power;
        problem->least_power = power < problem->least_power ? power : problem->least_power;
        problem->most_power = power > problem->most_power ? power : problem->most_power;
    }
    return PVSIZE_OK;
}

/* the system as it is given */

/* What is broken before anything is wired stays broken, but that an input is open. */
static pvsize_status judge_given(pvsz_problem *problem)
{
    const pvsize_report *report = problem->report;

    for (int32_t i = 0; i < report->findings; i++) {
        const pvsz_finding *finding = &report->finding[i];
        int32_t reach = pvsz_rule_reach(finding->rule);
        int32_t inverter = finding->subject->at[PVSZ_KIND_INVERTER];
        int32_t input = finding->subject->scope == PVSZ_KIND_INPUT ? finding->subject->index : -1;
        const pvsz_option nothing = {.module = -1, .plane = {-1, -1}};
        pvsz_obstacle obstacle;
        pvsize_status status;

        if (!pvsz_breaks(finding) || reach == PVSZ_REACH_ANY)
            continue;
        if (reach == PVSZ_REACH_LOCAL && input >= 0 &&
            !pvsz_holds_fixed(problem, inverter, input)) {
            for (int32_t k = 0; k < problem->slots; k++)
                if (problem->slot[k].inverter == inverter && problem->slot[k].input == input)
                    problem->group[problem->slot[k].group].unused = false;
            continue;
        }
        obstacle = pvsz_obstacle_of(finding, &nothing, inverter, input);
        status = pvsz_add_obstacle(problem, &obstacle);
        if (status)
            return status;
    }
    return PVSIZE_OK;
}

pvsize_status pvsz_pose(pvsz_problem *problem, const pvsize_spec *search)
{
    const pvsz_part_list *systems = pvsz_spec_parts(search, PVSZ_KIND_SYSTEM);
    pvsize_status status = PVSIZE_OK;

    if (systems->count == 0)
        return pvsz_fail_term(problem->diag, PVSIZE_E_MISSING_PART, PVSIZE_KIND_SYSTEM);
    problem->ending = PVSIZE_ENDING_PROVEN;
    status = pvsize_spec_clone(systems->item[0], problem->memory, &problem->system, problem->diag);
    if (!status)
        status = pvsize_report_new(problem->memory, &problem->report, problem->diag);
    if (!status)
        status = pvsize_check(problem->system, problem->rules, problem->report, problem->diag);
    if (!status)
        status = read_terms(problem, search);
    if (status)
        return status;
    read_rules(problem);
    status = read_modules(problem, search);
    if (!status)
        status = pvsz_read_planes(problem);
    if (!status)
        status = pvsz_read_fixed(problem);
    if (!status)
        status = pvsz_read_inputs(problem);
    if (!status)
        status = pvsz_set_budgets(problem);
    if (!status)
        status = judge_given(problem);
    if (!status)
        status = pvsz_make_arrays(problem);
    return status;
}

void pvsz_end_problem(pvsz_problem *problem)
{
    if (problem->system)
        pvsz_unwire(problem);
    for (int32_t i = 0; problem->array && i < 2 * problem->slots; i++) {
        /* the module in it is the question's */
        if (problem->array[i])
            pvsz_spec_list(problem->array[i], PVSZ_KIND_MODULE)->count = 0;
        pvsize_spec_free(problem->array[i]);
    }
    for (int32_t i = 0; i < problem->groups; i++)
        pvsz_release(problem->memory, problem->group[i].option);
    pvsz_release(problem->memory, problem->obstacle);
    pvsize_spec_free(problem->system);
    pvsize_report_free(problem->report);
    while (problem->block) {
        pvsz_block *next = problem->block->next;

        pvsz_release(problem->memory, problem->block);
        problem->block = next;
    }
}
