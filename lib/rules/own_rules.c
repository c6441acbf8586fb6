/* Rules that the caller adds. */
#include <math.h>
#include <string.h>

#include "rules.h"

bool pv_reaches(int32_t scope, int32_t kind)
{
    /* what hangs on what, one bit for each kind */
    static const uint32_t reach[PV_SCOPES] = {
        [PV_KIND_MODULE] = 0,
        [PV_KIND_INPUT] = 1U << PV_KIND_INVERTER | 1U << PV_KIND_SITE | 1U << PV_KIND_SYSTEM,
        [PV_KIND_INVERTER] = 1U << PV_KIND_SITE | 1U << PV_KIND_SYSTEM,
        [PV_KIND_SITE] = 0,
        [PV_KIND_PLANE] = 1U << PV_KIND_SITE | 1U << PV_KIND_SYSTEM,
        [PV_KIND_ARRAY] = 1U << PV_KIND_MODULE | 1U << PV_KIND_PLANE | 1U << PV_KIND_INPUT |
                          1U << PV_KIND_INVERTER | 1U << PV_KIND_SITE | 1U << PV_KIND_SYSTEM,
        [PV_KIND_SYSTEM] = 1U << PV_KIND_SITE,
    };

    /* figures hang on nothing and are seen from everywhere */
    return kind < 0 || scope == kind || (scope >= 0 && reach[scope] >> kind & 1);
}

/* One block holds name, title and source. */
bool pv_own_texts(const pv_memory *memory, pv_rule *rule)
{
    size_t name = strlen(rule->name) + 1;
    size_t title = strlen(rule->title) + 1;
    size_t source = strlen(rule->source) + 1;
    char *block = pv_new(memory, name + title + source, 1);

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

static pvsize_status check_texts(const pvsize_rules *rules, const char *name, const char *title,
                                 const char *source, pvsize_diag *diag)
{
    if (!name)
        return pv_fail_null(diag, "name");
    if (!title)
        return pv_fail_null(diag, "title");
    if (!source)
        return pv_fail_null(diag, "source");
    if (!is_name(name) || pvsize_rules_by_name(rules, name))
        return pv_fail_name(diag, PVSIZE_E_BAD_TEXT, PVSIZE_KIND_RULE,
                            pv_is_plain_text(name, PV_MOST_RULE_TEXT) ? name : "");
    if (!pv_is_plain_text(title, PV_MOST_RULE_TEXT))
        return pv_fail_name(diag, PVSIZE_E_BAD_TEXT, PVSIZE_KIND_RULE, "title");
    if (!pv_is_plain_text(source, PV_MOST_RULE_TEXT))
        return pv_fail_name(diag, PVSIZE_E_BAD_TEXT, PVSIZE_KIND_RULE, "source");
    return PVSIZE_OK;
}

/* A term that has a number to compare. */
static pvsize_status check_term(int32_t number, const pv_term **row, pvsize_diag *diag)
{
    *row = pv_term_find(number);
    if (!*row)
        return pv_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, number);
    if ((*row)->kind == PV_KIND_RULE || (*row)->kind == PV_KIND_EFFICIENCY_POINT)
        return pv_fail_name(diag, PVSIZE_E_WRONG_KIND, number, "value to compare");
    if ((*row)->type == PVSIZE_TYPE_TEXT)
        return pv_fail_term(diag, PVSIZE_E_WRONG_TYPE, number);
    return PVSIZE_OK;
}

static pvsize_status check_terms(int32_t value_term, int32_t limit_term, int32_t *scope,
                                 pvsize_diag *diag)
{
    const pv_term *value, *limit;
    pvsize_status status = check_term(value_term, &value, diag);

    if (status)
        return status;
    /* a figure is the rule set's: compare it once, for the system */
    *scope = value->scope < 0 ? PV_KIND_SYSTEM : value->scope;
    if (!limit_term)
        return PVSIZE_OK;
    status = check_term(limit_term, &limit, diag);
    if (!status && !pv_reaches(*scope, limit->scope))
        return pv_fail_name(diag, PVSIZE_E_WRONG_KIND, limit_term, pv_kinds[*scope].name);
    return status;
}

pvsize_status pvsize_rules_add(pvsize_rules *rules, const char *name, const char *title,
                               int32_t value_term, int32_t compare, int32_t limit_term,
                               double limit, int32_t severity, const char *source, int32_t *rule,
                               pvsize_diag *diag)
{
    pvsize_status status;
    pv_rule row = {0}, *grown;

    if (!rules)
        return pv_fail_null(diag, "rules");
    if (!pv_rules_live(rules))
        return pv_fail_handle(diag, "rules");
    status = check_texts(rules, name, title, source, diag);
    if (!status)
        status = check_terms(value_term, limit_term, &row.scope, diag);
    if (status)
        return status;
    if (!pv_set_has(PVSIZE_SET_COMPARE, compare))
        return pv_fail_value(diag, PVSIZE_E_BAD_CHOICE, 0, compare);
    if (!isfinite(limit))
        return pv_fail_value(diag, PVSIZE_E_NOT_FINITE, value_term, limit);
    if (!pv_set_has(PVSIZE_SET_SEVERITY, severity))
        return pv_fail_value(diag, PVSIZE_E_BAD_CHOICE, 0, severity);
    if (rules->own_count >= PV_MOST_OWN_RULES)
        return pv_fail_range(diag, PVSIZE_E_TOO_MANY, PVSIZE_KIND_RULE,
                             (double)rules->own_count + 1, 0, PV_MOST_OWN_RULES);
    grown = pv_grow(&rules->memory, rules->own, rules->own_count, &rules->own_capacity,
                    sizeof *rules->own);
    if (!grown)
        return pv_fail(diag, PVSIZE_E_NO_MEMORY);
    rules->own = grown;
    row.number = PV_OWN_RULES + (int32_t)rules->own_count;
    row.severity = severity;
    row.known = PVSIZE_KNOWN_USER;
    row.compare = compare;
    row.own = true;
    row.value = pv_refer(value_term);
    row.limit = pv_refer(limit_term);
    row.factor = limit;
    row.name = name;
    row.title = title;
    row.source = source;
    row.breach = "an own rule of this rule set is broken";
    if (!pv_own_texts(&rules->memory, &row))
        return pv_fail(diag, PVSIZE_E_NO_MEMORY);
    rules->own[rules->own_count++] = row;
    if (rule)
        *rule = row.number;
    return PVSIZE_OK;
}
