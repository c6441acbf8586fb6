/* The rules in force, in the order in which a check goes through them. */
#include <string.h>

#include "rules.h"

static bool in_force(const pvsz_rule *rule)
{
    return rule->severity != PVSIZE_SEVERITY_OFF;
}

static const pvsz_rule *rule_at(const pvsize_rules *rules, int32_t i)
{
    return i < PVSZ_RULES ? &rules->rule[i] : &rules->own[i - PVSZ_RULES];
}

/* Counts and answers are on one side of a limit or the other; only what is measured can
 * be close. */
static bool can_be_close(const pvsz_rule *rule)
{
    return rule->manner == PVSZ_LOUD &&
           pvsz_kinds[rule->value.kind].rows[rule->value.place].type == PVSIZE_TYPE_NUMBER;
}

/* The same for all that are rivals: one more than the place of the first of them. */
static int32_t rivals_of(const pvsize_rules *rules, const pvsz_rule *rule)
{
    int32_t same = 0, first = 0;

    for (int32_t i = rules->first_force[rule->scope]; i < rules->first_force[rule->scope + 1]; i++)
        if (rules->force[i].value.number == rule->value.number &&
            rules->force[i].compare == rule->compare && same++ == 0)
            first = i + 1;
    return same > 1 ? first : 0;
}

static int32_t own_sources(const pvsize_rules *rules)
{
    int32_t count = 0;

    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        count += rules->figure[i].own_source;
    return count;
}

static size_t text_bytes(const pvsize_rules *rules)
{
    size_t bytes = strlen(rules->title) + 1;

    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (rules->figure[i].own_source)
            bytes += strlen(rules->figure[i].source) + 1;
    for (size_t i = 0; i < rules->own_count; i++)
        bytes += strlen(rules->own[i].name) + strlen(rules->own[i].title) +
                 strlen(rules->own[i].source) + 3;
    return bytes;
}

void pvsz_measure_texts(pvsize_rules *rules)
{
    rules->own_sources = own_sources(rules);
    rules->text_bytes = text_bytes(rules);
}

void pvsz_order_rules(pvsize_rules *rules)
{
    int32_t all = PVSZ_RULES + (int32_t)rules->own_count, next[PVSZ_SCOPES] = {0};

    for (int32_t i = 0; i < all; i++)
        if (in_force(rule_at(rules, i)))
            next[rule_at(rules, i)->scope]++;
    rules->forces = 0;
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        rules->first_force[scope] = rules->forces;
        rules->forces += next[scope];
        next[scope] = rules->first_force[scope];
    }
    rules->first_force[PVSZ_SCOPES] = rules->forces;
    for (int32_t i = 0; i < all; i++)
        if (in_force(rule_at(rules, i)))
            rules->force[next[rule_at(rules, i)->scope]++] = *rule_at(rules, i);
    for (int32_t i = 0; i < rules->forces; i++) {
        rules->force[i].can_be_close = can_be_close(&rules->force[i]);
        rules->force[i].rivals = rivals_of(rules, &rules->force[i]);
    }
    pvsz_measure_texts(rules);
}
