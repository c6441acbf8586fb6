/* Rules that the caller adds. */
#include <math.h>
#include <string.h>

#include "rules.h"

bool pvsz_reaches(int32_t scope, int32_t kind)
{
    /* what hangs on what, one bit for each kind */
    static const uint32_t reach[PVSZ_SCOPES] = {
        [PVSZ_KIND_MODULE] = 0,
        [PVSZ_KIND_INPUT] =
            1U << PVSZ_KIND_INVERTER | 1U << PVSZ_KIND_SITE | 1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_INVERTER] = 1U << PVSZ_KIND_SITE | 1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_SITE] = 0,
        [PVSZ_KIND_PLANE] = 1U << PVSZ_KIND_SITE | 1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_ARRAY] = 1U << PVSZ_KIND_MODULE | 1U << PVSZ_KIND_PLANE | 1U << PVSZ_KIND_INPUT |
                            1U << PVSZ_KIND_INVERTER | 1U << PVSZ_KIND_SITE |
                            1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_SYSTEM] = 1U << PVSZ_KIND_SITE,
        [PVSZ_KIND_CABLE] = 1U << PVSZ_KIND_ARRAY | 1U << PVSZ_KIND_MODULE | 1U << PVSZ_KIND_PLANE |
                            1U << PVSZ_KIND_INPUT | 1U << PVSZ_KIND_INVERTER |
                            1U << PVSZ_KIND_SITE | 1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_READING] = 1U << PVSZ_KIND_ARRAY | 1U << PVSZ_KIND_MODULE |
                              1U << PVSZ_KIND_PLANE | 1U << PVSZ_KIND_INPUT |
                              1U << PVSZ_KIND_INVERTER | 1U << PVSZ_KIND_SITE |
                              1U << PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_ISOLATOR] = 1U << PVSZ_KIND_ARRAY | 1U << PVSZ_KIND_MODULE |
                               1U << PVSZ_KIND_PLANE | 1U << PVSZ_KIND_INPUT |
                               1U << PVSZ_KIND_INVERTER | 1U << PVSZ_KIND_SITE |
                               1U << PVSZ_KIND_SYSTEM,
    };

    /* figures hang on nothing and are seen from everywhere */
    return kind < 0 || scope == kind || reach[scope] >> kind & 1;
}

/* One block holds name, title and source. */
bool pvsz_own_texts(const pvsz_memory *memory, pvsz_rule *rule)
{
    size_t name = strlen(rule->name) + 1;
    size_t title = strlen(rule->title) + 1;
    size_t source = strlen(rule->source) + 1;
    char *block = pvsz_new(memory, name + title + source, 1);

    if (!block)
        return false;
    memcpy(block, rule->name, name);
    memcpy(block + name, rule->title, title);
    memcpy(block + name + title, rule->source, source);
    rule->name = block;
    rule->title = block + name;
    rule->source = block + name + title;
    return true;
}

static bool is_name(const char *name)
{
    size_t n = strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_");

    return n > 0 && n < 64 && name[n] == '\0';
}

static pvsize_status check_text(const char *argument, const char *text, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_text(text, PVSZ_MOST_RULE_TEXT, PVSIZE_KIND_RULE, diag);

    if (status)
        pvsz_fail_argument(diag, argument);
    return status;
}

static pvsize_status check_texts(const pvsize_rules *rules, const char *name, const char *title,
                                 const char *source, pvsize_diag *diag)
{
    pvsize_status status;

    if (!name)
        return pvsz_fail_null(diag, "name");
    if (!title)
        return pvsz_fail_null(diag, "title");
    if (!is_name(name))
        return pvsz_fail_name(diag, PVSIZE_E_BAD_NAME, PVSIZE_KIND_RULE, name);
    if (pvsize_rules_by_name(rules, name))
        return pvsz_fail_name(diag, PVSIZE_E_NAME_TAKEN, PVSIZE_KIND_RULE, name);
    status = check_text("title", title, diag);
    if (!status && source)
        status = check_text("source", source, diag);
    return status;
}

/* What a rule on this kind of thing can see, in words. */
static const char *reach_of(int32_t scope)
{
    switch (scope) {
    case PVSZ_KIND_ARRAY:
        return "what an array hangs on: module, plane, input, inverter, site, system";
    case PVSZ_KIND_CABLE:
        return "what a cable hangs on: array or inverter, and what these hang on";
    case PVSZ_KIND_READING:
        return "what a reading hangs on: array, and what this hangs on";
    case PVSZ_KIND_ISOLATOR:
        return "what an isolator hangs on: array or input, and what these hang on";
    case PVSZ_KIND_INPUT:
        return "what an input hangs on: inverter, site, system";
    case PVSZ_KIND_INVERTER:
    case PVSZ_KIND_PLANE:
        return "what it hangs on: site, system";
    case PVSZ_KIND_SYSTEM:
        return "what a system hangs on: site";
    default:
        return "a term of the same kind, or a figure";
    }
}

/* A limit cannot overflow, and cannot vanish. */
#define LEAST_FACTOR 1e-6
#define MOST_FACTOR 1e6

/* A term that has a number to compare. */
static pvsize_status check_term(int32_t number, const pvsz_term **row, pvsize_diag *diag)
{
    *row = pvsz_term_find(number);
    if (!*row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, number);
    if ((*row)->kind == PVSZ_KIND_RULE || (*row)->kind == PVSZ_KIND_ATTRIBUTE ||
        ((*row)->scope >= 0 && !pvsz_is_subject((*row)->scope)))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, number, "number to compare");
    if ((*row)->type == PVSIZE_TYPE_TEXT)
        return pvsz_fail_term(diag, PVSIZE_E_WRONG_TYPE, number);
    return PVSIZE_OK;
}

/* "'V against A'" */
static pvsize_status fail_unit(const pvsz_term *value, const pvsz_term *limit, pvsize_diag *diag)
{
    char units[40];
    pvsz_text text;

    pvsz_text_begin(&text, units, sizeof units, NULL);
    pvsz_put(&text, value->unit[0] ? value->unit : "none");
    pvsz_put(&text, " against ");
    pvsz_put(&text, limit->unit[0] ? limit->unit : "none");
    pvsz_text_end(&text, NULL, NULL);
    return pvsz_fail_name(diag, PVSIZE_E_WRONG_UNIT, limit->number, units);
}

static pvsize_status check_terms(int32_t value_term, int32_t limit_term, int32_t *scope,
                                 pvsize_diag *diag)
{
    const pvsz_term *value, *limit;
    pvsize_status status = check_term(value_term, &value, diag);

    if (status)
        return status;
    /* a figure is the rule set's: compare it once, for the system */
    *scope = value->scope < 0 ? PVSZ_KIND_SYSTEM : value->scope;
    if (!limit_term)
        return PVSIZE_OK;
    status = check_term(limit_term, &limit, diag);
    if (status)
        return status;
    if (!pvsz_reaches(*scope, limit->scope))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, limit_term, reach_of(*scope));
    if (!pvsz_same_unit(value->unit, limit->unit))
        return fail_unit(value, limit, diag);
    return PVSIZE_OK;
}

static pvsize_status check_limit(double limit, bool is_factor, pvsize_diag *diag)
{
    pvsize_status status = PVSIZE_OK;

    if (!isfinite(limit))
        status = pvsz_fail_value(diag, PVSIZE_E_NOT_FINITE, PVSIZE_KIND_RULE, limit);
    else if (is_factor && (limit < LEAST_FACTOR || limit > MOST_FACTOR))
        status = pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_KIND_RULE, limit, LEAST_FACTOR,
                                 MOST_FACTOR);
    if (status)
        pvsz_fail_argument(diag, "limit");
    return status;
}

pvsize_status pvsize_rules_add(pvsize_rules *rules, const char *name, const char *title,
                               int32_t value_term, int32_t compare, int32_t limit_term,
                               double limit, int32_t severity, const char *source, int32_t *rule,
                               pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_rules(rules, diag);
    pvsz_rule row = {0}, *grown, *force;

    if (!status)
        status = check_texts(rules, name, title, source, diag);
    if (!status)
        status = check_terms(value_term, limit_term, &row.scope, diag);
    if (!status)
        status = check_limit(limit, limit_term != 0, diag);
    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_COMPARE, compare))
        return pvsz_fail_choice(diag, "compare", PVSIZE_SET_COMPARE, compare);
    if (!pvsz_set_has(PVSIZE_SET_SEVERITY, severity))
        return pvsz_fail_choice(diag, "severity", PVSIZE_SET_SEVERITY, severity);
    if (rules->own_count >= PVSZ_MOST_OWN_RULES)
        return pvsz_fail_range(diag, PVSIZE_E_TOO_MANY, PVSIZE_KIND_RULE,
                               (double)rules->own_count + 1, 0, PVSZ_MOST_OWN_RULES);
    grown = pvsz_grow(&rules->head.memory, rules->own, rules->own_count, &rules->own_capacity,
                      sizeof *rules->own);
    if (!grown)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    rules->own = grown;
    row.number = PVSZ_OWN_RULES + (int32_t)rules->own_count;
    row.severity = severity;
    row.known = PVSIZE_KNOWN_USER;
    row.compare = compare;
    row.own = true;
    row.value = pvsz_refer(value_term);
    row.limit = pvsz_refer(limit_term);
    row.factor = limit;
    row.name = name;
    row.title = title;
    row.source = source ? source : "own rule";
    row.breach = "an own rule of this rule set is broken";
    if (!pvsz_own_texts(&rules->head.memory, &row))
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    force = pvsz_new(&rules->head.memory, PVSZ_RULES + rules->own_count + 1, sizeof *force);
    if (!force) {
        pvsz_release_text(&rules->head.memory, row.name);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    rules->own[rules->own_count++] = row;
    pvsz_release(&rules->head.memory, rules->force);
    rules->force = force;
    pvsz_order_rules(rules);
    if (rule)
        *rule = row.number;
    return PVSIZE_OK;
}
