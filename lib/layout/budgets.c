/* What rules on sums leave: power for an inverter and for the whole, room on a plane.
 * Only what lies clearly beyond a limit is ruled out here; rounding is for the check. */
#include "layout.h"

/* The number on the limit side of a rule for a subject of the report of the system
 * as it is given; false where there is none, or where wiring changes it. */
static bool limit_of(const pvsz_problem *problem, const pvsz_rule *rule,
                     const pvsz_subject *subject, double *limit)
{
    const pvsize_report *report = problem->report;
    double value = 1;

    if (pvsz_growth_of(rule->limit.number).reach != PVSZ_REACH_FIXED)
        return false;
    if (rule->limit.number && rule->limit.kind == PVSZ_KIND_QUANTITY) {
        if (!pvsz_report_value(report, rule->limit.place, subject, &value))
            return false;
    } else if (rule->limit.number && rule->limit.kind == PVSZ_KIND_FIGURE) {
        if (!report->figure[rule->limit.place].set)
            return false;
        value = report->figure[rule->limit.place].value;
    } else if (rule->limit.number) {
        /* sums hang on these two, and on a system, which has no number */
        bool of_inverter = rule->limit.kind == PVSZ_KIND_INVERTER;
        const pvsz_part_list *parts =
            pvsz_spec_parts(problem->system, of_inverter ? PVSZ_KIND_INVERTER : PVSZ_KIND_SITE);
        int32_t at = of_inverter ? subject->at[PVSZ_KIND_INVERTER] : 0;

        if (!pvsz_spec_number(parts->item[at], rule->limit.number, &value))
            return false;
    }
    *limit = value * rule->factor;
    return *limit >= 0;
}

/* With room for rounding on both sides; what is beyond 1e15 limits nothing. */
static int64_t generous(double limit)
{
    limit = limit * (1 + 4 * PVSZ_GUARD) + 4 * PVSZ_GUARD + 1;
    return limit < 1e15 ? (int64_t)limit : INT64_MAX;
}

static void limit_unit(pvsz_problem *problem, int32_t i, int32_t rule, double watts)
{
    pvsz_unit *unit = &problem->unit[i];
    int64_t power = generous(watts * 1000);

    if (power < unit->power_left) {
        unit->power_left = power;
        unit->rule = rule;
        unit->limit = watts;
    }
}

static double rated_power(const pvsz_problem *problem, int32_t inverter)
{
    double rated = 0;

    pvsz_spec_number(pvsz_spec_parts(problem->system, PVSZ_KIND_INVERTER)->item[inverter],
                     PVSIZE_INVERTER_RATED_AC_POWER, &rated);
    return rated;
}

static void limit_system(pvsz_problem *problem, int32_t rule, double watts)
{
    int64_t power = generous(watts * 1000);

    if (power < problem->power_left) {
        problem->power_left = power;
        problem->power_rule = rule;
        problem->power_limit = watts;
    }
}

static void limit_modules(pvsz_problem *problem, int32_t rule, double limit)
{
    int64_t most = generous(limit) - 1;

    if (most >= problem->modules_left)
        return;
    problem->modules_left = (int32_t)most;
    problem->modules_rule = rule;
}

bool pvsz_is_sum(int32_t term)
{
    return term == PVSIZE_QUANTITY_INVERTER_PV_POWER || term == PVSIZE_QUANTITY_ARRAY_RATIO ||
           term == PVSIZE_QUANTITY_SYSTEM_PV_POWER || term == PVSIZE_QUANTITY_SYSTEM_MODULES;
}

static void apply(pvsz_problem *problem, int32_t place, const pvsz_subject *subject)
{
    const pvsz_rule *rule = &problem->rules->force[place];
    double limit;

    if (!pvsz_is_sum(rule->value.number) || !limit_of(problem, rule, subject, &limit))
        return;
    switch (rule->value.number) {
    case PVSIZE_QUANTITY_INVERTER_PV_POWER:
        limit_unit(problem, subject->index, place, limit);
        break;
    case PVSIZE_QUANTITY_ARRAY_RATIO:
        if (rated_power(problem, subject->index) > 0)
            limit_unit(problem, subject->index, place,
                       limit * rated_power(problem, subject->index));
        break;
    case PVSIZE_QUANTITY_SYSTEM_PV_POWER:
        limit_system(problem, place, limit);
        break;
    default: /* the last of those that pvsz_is_sum knows: PVSIZE_QUANTITY_SYSTEM_MODULES */
        limit_modules(problem, place, limit - problem->fixed_modules);
    }
}

/* Power that the fixed arrays of an inverter have. */
static void take_fixed(pvsz_problem *problem)
{
    for (int32_t i = 0; i < problem->fixed; i++) {
        const pvsz_subject *array = &problem->report->design.subject[PVSZ_KIND_ARRAY][i];
        pvsz_unit *unit = &problem->unit[array->at[PVSZ_KIND_INVERTER]];
        double power = 0;

        pvsz_report_value(problem->report, PVSZ_QUANTITY_ARRAY_POWER, array, &power);
        if (unit->power_left != INT64_MAX)
            unit->power_left -= pvsz_milliwatts(power) - 1;
    }
    if (problem->power_left != INT64_MAX)
        problem->power_left -= problem->fixed_power - problem->fixed;
}

pvsize_status pvsz_set_budgets(pvsz_problem *problem)
{
    const pvsz_design *design = &problem->report->design;

    problem->power_left = INT64_MAX;
    problem->power_rule = -1;
    problem->modules_left = INT32_MAX;
    problem->modules_rule = -1;
    for (int32_t i = 0; i < problem->units; i++) {
        problem->unit[i].power_left = INT64_MAX;
        problem->unit[i].rule = -1;
    }
    for (int32_t place = 0; place < problem->rules->forces; place++) {
        const pvsz_rule *rule = &problem->rules->force[place];

        if (rule->severity != PVSIZE_SEVERITY_MUST || rule->compare != PVSIZE_COMPARE_AT_MOST)
            continue;
        for (int32_t i = 0; i < design->count[rule->scope]; i++)
            apply(problem, place, &design->subject[rule->scope][i]);
    }
    take_fixed(problem);
    return PVSIZE_OK;
}
