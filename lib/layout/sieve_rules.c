/* Which rules a sieve can tell by; one it cannot makes it blind. What it takes for granted of
 * the tables, which terms speak of what, tests/unit/test_reach.c looks at. */
#include "sieve_parts.h"

/* Sums that the budgets of a search know, where their limit is known and not negative. */
static bool is_known_sum(const pvsz_rule *rule)
{
    int32_t kind = rule->limit.kind;

    if (rule->compare != PVSIZE_COMPARE_AT_MOST || !(rule->factor >= 0))
        return false;
    if (rule->value.number == PVSIZE_QUANTITY_PLANE_MODULES)
        return rule->limit.number == PVSIZE_PLANE_CAPACITY && rule->factor == 1;
    return pvsz_is_sum(rule->value.number) &&
           (rule->limit.number == 0 || kind == PVSZ_KIND_FIGURE || kind == PVSZ_KIND_INVERTER ||
            kind == PVSZ_KIND_SITE || rule->limit.number == PVSIZE_QUANTITY_PV_LIMIT ||
            rule->limit.number == PVSIZE_QUANTITY_PV_LIMIT_RATIO);
}

/* Whether the inverter alone makes it: data, or what no stringing changes. */
static bool is_of_inverter(const pvsz_ref *ref)
{
    return pvsz_growth_of(ref->number).reach == PVSZ_REACH_FIXED &&
           (ref->scope == PVSZ_KIND_INPUT || ref->scope == PVSZ_KIND_INVERTER ||
            ref->scope == PVSZ_KIND_SYSTEM);
}

/* Adds a rule on what stands on one input; false if a pair cannot be told by it. */
static bool add_mesh(pvsz_sieve *sieve, const pvsz_rule *rule)
{
    pvsz_growth value = pvsz_growth_of(rule->value.number);
    pvsz_growth limit = pvsz_growth_of(rule->limit.number);
    pvsz_mesh mesh = {.rule = rule,
                      .value_apart = pvsz_is_apart(rule->value.number),
                      .limit_apart = pvsz_is_apart(rule->limit.number),
                      .up = value.length == PVSZ_GROWS_UP};

    mesh.ends = rule->compare == PVSIZE_COMPARE_AT_MOST && value.strings != PVSZ_GROWS_OPEN &&
                limit.strings == PVSZ_GROWS_FLAT;
    if (value.length == PVSZ_GROWS_OPEN || limit.length != PVSZ_GROWS_FLAT ||
        (!mesh.value_apart && !is_of_inverter(&rule->value)) ||
        (!mesh.limit_apart && !is_of_inverter(&rule->limit)))
        return false;
    if (mesh.value_apart && mesh.limit_apart)
        sieve->own[sieve->owns++] = mesh;
    else
        sieve->cross[sieve->crosses++] = mesh;
    return true;
}

/* Sorts a rule that must hold into those to tell by; false if it is none. */
static bool sort_rule(pvsz_sieve *sieve, const pvsz_rule *rule)
{
    switch (pvsz_rule_reach(rule)) {
    case PVSZ_REACH_FIXED: /* judged before anything is wired: none is of what is not there then */
        return true;
    case PVSZ_REACH_LOCAL:
        return add_mesh(sieve, rule);
    default:
        return is_known_sum(rule);
    }
}

pvsize_status pvsz_sort_rules(pvsz_sieve *sieve, pvsize_diag *diag)
{
    size_t forces = (size_t)sieve->rules->forces;

    sieve->own = pvsz_new(sieve->memory, forces, sizeof *sieve->own);
    sieve->cross = pvsz_new(sieve->memory, forces, sizeof *sieve->cross);
    if (!sieve->own || !sieve->cross)
        return pvsz_no_memory(diag);
    for (size_t i = 0; i < forces; i++) {
        const pvsz_rule *rule = &sieve->rules->force[i];

        /* of cables, isolators and readings there are none */
        if (rule->severity == PVSIZE_SEVERITY_MUST && rule->scope != PVSZ_KIND_CABLE &&
            rule->scope != PVSZ_KIND_ISOLATOR && rule->scope != PVSZ_KIND_READING &&
            !sort_rule(sieve, rule))
            sieve->blind = true;
    }
    return PVSIZE_OK;
}
