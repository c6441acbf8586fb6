/* Changing a rule set: its title, its figures, how severe its rules are. Own rules: own_rules.c. */
#include <math.h>

#include "rules.h"

pvsize_status pvsize_rules_set_title(pvsize_rules *rules, const char *title, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_rules(rules, diag);
    char *copy;

    if (status)
        return status;
    if (!title)
        return pvsz_fail_null(diag, "title");
    status = pvsz_check_text(title, PVSZ_MOST_RULE_TEXT, 0, diag);
    if (status)
        return status;
    copy = pvsz_copy_text(&rules->head.memory, title);
    if (!copy)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    if (rules->own_title)
        pvsz_release_text(&rules->head.memory, rules->title);
    rules->title = copy;
    rules->own_title = true;
    pvsz_measure_texts(rules);
    return PVSIZE_OK;
}

pvsize_status pvsize_rules_set_figure(pvsize_rules *rules, int32_t figure, double value,
                                      const char *source, pvsize_diag *diag)
{
    int32_t place;
    pvsize_status status = pvsz_find_figure(rules, figure, &place, diag);
    const pvsz_term *row;
    char *copy = NULL;

    if (status)
        return status;
    row = &pvsz_kinds[PVSZ_KIND_FIGURE].rows[place];
    if (!isfinite(value))
        return pvsz_fail_value(diag, PVSIZE_E_NOT_FINITE, figure, value);
    if (value < row->low || value > row->high)
        return pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, figure, value, row->low, row->high);
    if (row->type != PVSIZE_TYPE_NUMBER && value != floor(value))
        return pvsz_fail_value(diag, PVSIZE_E_NOT_WHOLE, figure, value);
    if (source) {
        status = pvsz_check_text(source, PVSZ_MOST_RULE_TEXT, figure, diag);
        if (status)
            return status;
        copy = pvsz_copy_text(&rules->head.memory, source);
        if (!copy)
            return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    if (rules->figure[place].own_source)
        pvsz_release_text(&rules->head.memory, rules->figure[place].source);
    rules->figure[place] = (pvsz_figure){.set = true,
                                         .own_source = copy != NULL,
                                         .known = PVSIZE_KNOWN_USER,
                                         .value = value == 0 ? 0 : value,
                                         .source = copy ? copy : "given by the caller"};
    pvsz_measure_texts(rules);
    return PVSIZE_OK;
}

pvsize_status pvsize_rules_unset_figure(pvsize_rules *rules, int32_t figure, pvsize_diag *diag)
{
    int32_t place;
    pvsize_status status = pvsz_find_figure(rules, figure, &place, diag);

    if (status)
        return status;
    if (pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].low ==
        pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].high)
        return pvsz_fail_term(diag, PVSIZE_E_NEEDS_VALUE, figure); /* a constant */
    if (rules->figure[place].own_source)
        pvsz_release_text(&rules->head.memory, rules->figure[place].source);
    rules->figure[place] = (pvsz_figure){.set = false, .known = PVSIZE_KNOWN_USER, .source = ""};
    pvsz_measure_texts(rules);
    return PVSIZE_OK;
}

pvsize_status pvsize_rules_set_severity(pvsize_rules *rules, int32_t rule, int32_t severity,
                                        pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = pvsz_find_rule(rules, rule, &found, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_SEVERITY, severity))
        return pvsz_fail_choice(diag, "severity", PVSIZE_SET_SEVERITY, severity);
    if (found->own)
        rules->own[rule - PVSZ_OWN_RULES].severity = severity;
    else
        rules->rule[pvsz_term_place(pvsz_term_find(rule))].severity = severity;
    pvsz_order_rules(rules);
    return PVSIZE_OK;
}
