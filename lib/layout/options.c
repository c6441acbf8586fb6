/* What each input can get. Every option is judged by a check of a system of this input
 * alone; longer and more strings are tried until a rule that is known to grow with
 * them says that no more can pass. */
#include <string.h>

#include "layout.h"

enum { MOST_KNOWN = 32 };

/* One input alone on the site, and what is known of its options. */
typedef struct probe {
    pvsz_probe alone;
    pvsz_problem *problem;
    pvsz_group *group;
    int64_t power;  /* most that an option may have */
    bool separable; /* see is_separable */
    bool fewest_passed;
    /* of one module on one plane, by strings: what a check of another length showed */
    struct {
        bool passes, fails;
        double device;
    } known[MOST_KNOWN];
} probe;

/* judging */

/* Rules of the input and what is on it; the rest is for the full check. Where an input is
 * alone they speak of it, its arrays and their modules only (tests/unit/test_reach.c). */
static bool concerns(const pvsz_finding *finding)
{
    return pvsz_breaks(finding) && pvsz_rule_reach(finding->rule) == PVSZ_REACH_LOCAL;
}

static void note_misses(probe *p, const pvsz_option *option, int32_t broken)
{
    const pvsize_report *report = p->problem->report;

    for (int32_t i = 0; i < report->findings; i++) {
        const pvsz_finding *finding = &report->finding[i];
        pvsz_obstacle miss, *best;

        if (!concerns(finding))
            continue;
        best = &p->group->miss[pvsz_place_in_force(p->problem, finding)];
        miss = pvsz_obstacle_of(finding, option, p->group->inverter, p->group->input);
        miss.broken = broken;
        if (pvsz_is_nearer(&miss, best))
            *best = miss;
    }
}

/* Whether a rule can find a limit at all: one that the maker of the input did not give,
 * or that of a device that is never fitted, it cannot. */
static bool has_limit(const pvsz_problem *problem, const pvsz_group *group, const pvsz_rule *rule)
{
    const pvsize_spec *inverter =
        pvsz_spec_parts(problem->system, PVSZ_KIND_INVERTER)->item[group->inverter];
    double value;

    if (rule->limit.number == PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE)
        return problem->devices && problem->device_voltage > 0;
    if (rule->limit.number == PVSIZE_ARRAY_ARRAY_DEVICE_VOLTAGE)
        return false;
    return rule->limit.number == 0 || rule->limit.kind != PVSZ_KIND_INPUT ||
           pvsz_spec_number(pvsz_input_of(inverter, group->input), rule->limit.number, &value);
}

/* Whether no rule looks at the modules in a string and at the strings at once. Then
 * what passes with one string of this length, and with so many strings of another
 * length, passes with both. */
static bool is_separable(const pvsz_problem *problem, const pvsz_group *group)
{
    for (int32_t i = 0; i < problem->rules->forces; i++) {
        const pvsz_rule *rule = &problem->rules->force[i];
        pvsz_growth value = pvsz_growth_of(rule->value.number);
        pvsz_growth limit = pvsz_growth_of(rule->limit.number);

        if (rule->severity == PVSIZE_SEVERITY_MUST && pvsz_rule_reach(rule) == PVSZ_REACH_LOCAL &&
            has_limit(problem, group, rule) &&
            !(value.length == PVSZ_GROWS_FLAT && limit.length == PVSZ_GROWS_FLAT) &&
            !(value.strings == PVSZ_GROWS_FLAT && limit.strings == PVSZ_GROWS_FLAT))
            return false;
    }
    return true;
}

static pvsize_status keep(probe *p, const pvsz_option *option)
{
    pvsz_group *group = p->group;
    pvsz_option *grown =
        pvsz_grow(p->problem->memory, group->option, group->count, &group->capacity, sizeof *grown);

    if (!grown)
        return pvsz_no_memory(p->problem->diag);
    group->option = grown;
    group->option[group->count++] = *option;
    return PVSIZE_OK;
}

/* Notes that a sum over more than this input leaves no room for the option: there is a rule
 * in this place that sets the limit, since without one there is none. */
static bool note_outgrown(probe *p, const pvsz_option *option, int32_t place, bool of_unit,
                          double limit, double over)
{
    const pvsz_obstacle miss = {
        .option = *option,
        .rule = p->problem->rules->force[place].number,
        .inverter = of_unit ? p->group->inverter : -1,
        .input = -1,
        .answer = -1,
        .broken = 1,
        .unit_term = p->problem->rules->force[place].value.number,
        .compare = PVSIZE_COMPARE_AT_MOST,
        .value = limit + over,
        .limit = limit,
        .margin = -over,
    };

    if (pvsz_is_nearer(&miss, &p->group->miss[place]))
        p->group->miss[place] = miss;
    return true;
}

/* What a sum over more than this input leaves for it alone. */
static bool outgrows(probe *p, const pvsz_option *option)
{
    const pvsz_problem *problem = p->problem;
    const pvsz_unit *unit = &problem->unit[p->group->inverter];
    bool of_unit = unit->power_left <= problem->power_left;
    double over = (double)(option->power - p->power) / 1000;

    if (option->modules > problem->modules_left)
        return note_outgrown(p, option, problem->modules_rule, false,
                             problem->modules_left + problem->fixed_modules,
                             option->modules - problem->modules_left);
    if (option->power <= p->power)
        return false;
    if (of_unit)
        return note_outgrown(p, option, unit->rule, true, unit->limit, over);
    return note_outgrown(p, option, problem->power_rule, false, problem->power_limit, over);
}

/* What so many strings on one plane came to at another length, the fewest having passed
 * at this one. */
static bool is_known(const probe *p, pvsz_option *option, pvsz_lesson *lesson)
{
    int32_t strings = option->strings[0];

    if (!p->separable || option->plane[1] >= 0 || strings >= MOST_KNOWN)
        return false;
    if (p->known[strings].passes) {
        option->device[0] = p->known[strings].device;
        option->devices = option->device[0] > 0 ? strings : 0;
    }
    lesson->no_more |= p->known[strings].fails;
    return p->known[strings].passes || p->known[strings].fails;
}

/* A failure counts only where the fewest strings passed: else it may be the length's. */
static void note_known(probe *p, const pvsz_option *option, bool passes, bool no_more)
{
    int32_t strings = option->strings[0];

    if (option->plane[1] >= 0 || strings >= MOST_KNOWN)
        return;
    p->known[strings].passes |= passes;
    p->known[strings].device = passes ? option->device[0] : p->known[strings].device;
    p->known[strings].fails |= !passes && no_more && strings > 1 && p->fewest_passed;
    if (strings == 1)
        p->fewest_passed = passes;
}

static pvsize_status try_option(probe *p, pvsz_option *option, bool fewest, pvsz_lesson *lesson)
{
    const pvsize_report *report = p->problem->report;
    int32_t broken = 0;
    pvsize_status status;

    option->modules = option->length * (option->strings[0] + option->strings[1]);
    option->power = option->modules * p->problem->module_power[option->module];
    option->device[0] = option->device[1] = option->devices = 0;
    if (outgrows(p, option)) {
        lesson->no_more = true;
        lesson->no_longer |= fewest;
        return PVSIZE_OK;
    }
    if (!fewest && is_known(p, option, lesson))
        return lesson->no_more ? PVSIZE_OK : keep(p, option);
    if (!pvsz_step(p->problem)) {
        lesson->no_more = lesson->no_longer = true;
        return PVSIZE_OK;
    }
    status = pvsz_judge_alone(&p->alone, option);
    if (status)
        return status;
    for (int32_t i = 0; i < report->findings; i++)
        if (concerns(&report->finding[i])) {
            broken++;
            pvsz_learn(&report->finding[i], option->length, fewest, lesson);
        }
    if (broken) {
        note_misses(p, option, broken);
        note_known(p, option, false, lesson->no_more);
        return PVSIZE_OK;
    }
    note_known(p, option, true, false);
    return keep(p, option);
}

/* trying all */

/* Equal strings of one length, on one plane or two. */
static pvsize_status try_strings(probe *p, pvsz_option *option, pvsz_lesson *all)
{
    const pvsz_plane *plane = p->problem->plane;
    bool two = option->plane[1] >= 0;
    int32_t most = plane[option->plane[0]].room / option->length;
    int32_t second = two ? plane[option->plane[1]].room / option->length : 0;

    for (int32_t a = 1; a <= most && !all->no_more; a++) {
        pvsz_lesson row = {0};

        for (int32_t b = two; b <= second && !row.no_more; b++) {
            bool fewest = a == 1 && b <= 1;
            pvsize_status status;

            option->strings[0] = a;
            option->strings[1] = b;
            status = try_option(p, option, fewest, &row);
            if (status)
                return status;
            all->no_longer |= row.no_longer;
            all->length = row.length > all->length ? row.length : all->length;
            /* the first of a row fails: so do all rows behind it */
            all->no_more |= row.no_more && b == two;
            all->no_more |= row.never_here;
            row.no_more |= row.never_here;
        }
    }
    return PVSIZE_OK;
}

static pvsize_status try_lengths(probe *p, int32_t module, int32_t first, int32_t second)
{
    const pvsz_problem *problem = p->problem;
    int32_t room = problem->plane[first].room;
    int32_t length = problem->shortest;
    pvsz_lesson all = {0};

    memset(&p->known, 0, sizeof p->known);
    if (second >= 0 && problem->plane[second].room < room)
        room = problem->plane[second].room;
    if (problem->longest < room)
        room = problem->longest;
    while (length <= room && !all.no_longer) {
        pvsz_option option = {.module = module, .plane = {first, second}, .length = length};
        pvsize_status status;

        all = (pvsz_lesson){0};
        status = try_strings(p, &option, &all);
        if (status)
            return status;
        length = all.length > length ? all.length : length + 1;
    }
    return PVSIZE_OK;
}

static pvsize_status try_planes(probe *p, int32_t module)
{
    const pvsz_problem *problem = p->problem;

    for (int32_t a = 0; a < problem->planes; a++) {
        pvsize_status status = try_lengths(p, module, a, -1);

        for (int32_t b = a + 1; !status && problem->planes_per_input > 1 && b < problem->planes;
             b++)
            status = try_lengths(p, module, a, b);
        if (status)
            return status;
    }
    return PVSIZE_OK;
}

static pvsize_status find_group(pvsz_problem *problem, pvsz_group *group)
{
    const pvsz_unit *unit = &problem->unit[group->inverter];
    probe p = {.problem = problem, .group = group, .power = unit->power_left};
    const pvsz_option nothing = {.module = -1, .plane = {-1, -1}};
    pvsize_status status = PVSIZE_OK;

    if (problem->power_left < p.power)
        p.power = problem->power_left;
    group->miss = pvsz_take(problem, (size_t)problem->rules->forces + 1, sizeof *group->miss);
    if (!group->miss)
        return pvsz_no_memory(problem->diag);
    p.separable = is_separable(problem, group);
    status = pvsz_make_probe(problem, group, &p.alone);
    for (int32_t i = 0; !status && i < problem->modules; i++)
        status = try_planes(&p, i);
    if (!status && group->unused)
        status = keep(&p, &nothing);
    pvsz_free_probe(&p.alone);
    return status;
}

pvsize_status pvsz_find_options(pvsz_problem *problem)
{
    for (int32_t i = 0; i < problem->groups; i++) {
        pvsize_status status = find_group(problem, &problem->group[i]);

        if (status)
            return status;
    }
    return PVSIZE_OK;
}
