/* What a rule set is asked: its title, its figures, its rules. */
#include <string.h>

#include "rules.h"

static pvsize_status give_text(const char *found, char *buffer, size_t capacity, size_t *length,
                               pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = pvsz_text_begin(&text, buffer, capacity, diag);

    if (status)
        return status;
    pvsz_put(&text, found);
    return pvsz_text_end(&text, length, diag);
}

pvsize_status pvsize_rules_get_title(const pvsize_rules *rules, char *buffer, size_t capacity,
                                     size_t *length, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_rules(rules, diag);

    return status ? status : give_text(rules->title, buffer, capacity, length, diag);
}

/* figures */

pvsize_status pvsz_find_figure(const pvsize_rules *rules, int32_t number, int32_t *place,
                               pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_rules(rules, diag);
    const pvsz_term *row = pvsz_term_find(number);

    if (status)
        return status;
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, number);
    if (row->kind != PVSZ_KIND_FIGURE)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, number, "figure");
    *place = pvsz_term_place(row);
    return PVSIZE_OK;
}

pvsize_status pvsize_rules_get_figure(const pvsize_rules *rules, int32_t figure, double *value,
                                      pvsize_diag *diag)
{
    int32_t place;
    pvsize_status status = pvsz_find_figure(rules, figure, &place, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (!rules->figure[place].set)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, figure);
    *value = rules->figure[place].value;
    return PVSIZE_OK;
}

/* rules */

const pvsz_rule *pvsz_rule_numbered(const pvsize_rules *rules, int32_t number)
{
    const pvsz_term *row = pvsz_term_find(number);

    if (row && row->kind == PVSZ_KIND_RULE)
        return &rules->rule[pvsz_term_place(row)];
    if (number >= PVSZ_OWN_RULES && (size_t)(number - PVSZ_OWN_RULES) < rules->own_count)
        return &rules->own[number - PVSZ_OWN_RULES];
    return NULL;
}

pvsize_status pvsz_find_rule(const pvsize_rules *rules, int32_t number, const pvsz_rule **rule,
                             pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_rules(rules, diag);

    if (status)
        return status;
    *rule = pvsz_rule_numbered(rules, number);
    if (*rule)
        return PVSIZE_OK;
    if (pvsz_term_find(number))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, number, "rule");
    return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, number);
}

pvsize_status pvsize_rules_get_severity(const pvsize_rules *rules, int32_t rule, int32_t *severity,
                                        pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = pvsz_find_rule(rules, rule, &found, diag);

    if (status)
        return status;
    if (!severity)
        return pvsz_fail_null(diag, "severity");
    *severity = found->severity;
    return PVSIZE_OK;
}

int32_t pvsize_rules_count(const pvsize_rules *rules)
{
    return pvsz_rules_live(rules) ? PVSZ_RULES + (int32_t)rules->own_count : 0;
}

int32_t pvsize_rules_at(const pvsize_rules *rules, int32_t i)
{
    if (i < 0 || i >= pvsize_rules_count(rules))
        return 0;
    return i < PVSZ_RULES ? rules->rule[i].number : rules->own[i - PVSZ_RULES].number;
}

int32_t pvsize_rules_by_name(const pvsize_rules *rules, const char *name)
{
    const pvsz_term *row;

    if (!pvsz_rules_live(rules) || !name)
        return 0;
    row = pvsz_term_named(&pvsz_kinds[PVSZ_KIND_RULE], name);
    if (row)
        return row->number;
    for (size_t i = 0; i < rules->own_count; i++)
        if (strcmp(rules->own[i].name, name) == 0)
            return rules->own[i].number;
    return 0;
}

pvsize_status pvsize_rules_rule_name(const pvsize_rules *rules, int32_t rule, char *buffer,
                                     size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = pvsz_find_rule(rules, rule, &found, diag);

    return status ? status : give_text(found->name, buffer, capacity, length, diag);
}

pvsize_status pvsize_rules_rule_title(const pvsize_rules *rules, int32_t rule, char *buffer,
                                      size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = pvsz_find_rule(rules, rule, &found, diag);

    return status ? status : give_text(found->title, buffer, capacity, length, diag);
}

pvsize_status pvsize_rules_definition(const pvsize_rules *rules, int32_t rule, int32_t *value_term,
                                      int32_t *compare, int32_t *limit_term, double *limit,
                                      pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = pvsz_find_rule(rules, rule, &found, diag);

    if (status)
        return status;
    if (value_term)
        *value_term = found->value.number;
    if (compare)
        *compare = found->compare;
    if (limit_term)
        *limit_term = found->limit.number;
    if (limit)
        *limit = found->factor;
    return PVSIZE_OK;
}

/* sources of both */

/* Source and knowledge of a rule or a figure. */
static pvsize_status find_source(const pvsize_rules *rules, int32_t term, const char **source,
                                 int32_t *known, pvsize_diag *diag)
{
    const pvsz_term *row = pvsz_term_find(term);
    const pvsz_rule *rule;
    pvsize_status status;
    int32_t place;

    if (row && row->kind == PVSZ_KIND_FIGURE) {
        status = pvsz_find_figure(rules, term, &place, diag);
        if (status)
            return status;
        if (!rules->figure[place].set)
            return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
        *source = rules->figure[place].source;
        *known = rules->figure[place].known;
        return PVSIZE_OK;
    }
    status = pvsz_find_rule(rules, term, &rule, diag);
    if (!status) {
        *source = rule->source;
        *known = rule->known;
    }
    return status;
}

pvsize_status pvsize_rules_source(const pvsize_rules *rules, int32_t term, char *buffer,
                                  size_t capacity, size_t *length, pvsize_diag *diag)
{
    const char *source;
    int32_t known;
    pvsize_status status = find_source(rules, term, &source, &known, diag);

    return status ? status : give_text(source, buffer, capacity, length, diag);
}

pvsize_status pvsize_rules_known(const pvsize_rules *rules, int32_t term, int32_t *known,
                                 pvsize_diag *diag)
{
    const char *source;
    int32_t found;
    pvsize_status status = find_source(rules, term, &source, &found, diag);

    if (status)
        return status;
    if (!known)
        return pvsz_fail_null(diag, "known");
    *known = found;
    return PVSIZE_OK;
}
