/* What differs between two rule sets. */
#include <string.h>

#include "comparison.h"

typedef struct rule_sets {
    const pvsize_rules *first, *second;
} rule_sets;

bool pvsz_same_figure(const pvsz_figure *a, const pvsz_figure *b)
{
    return a->set == b->set && (!a->set || a->value == b->value);
}

bool pvsz_same_source(const char *a, int32_t known_a, const char *b, int32_t known_b)
{
    return known_a == known_b && strcmp(a, b) == 0;
}

static bool same_definition(const pvsz_rule *a, const pvsz_rule *b)
{
    return a->value.number == b->value.number && a->compare == b->compare &&
           a->limit.number == b->limit.number;
}

/* figures */

static int32_t figure_difference(const pvsz_figure *a, const pvsz_figure *b)
{
    int32_t what = 0;

    if (a->set != b->set)
        return PVSIZE_DIFFERS_PRESENCE;
    if (!pvsz_same_figure(a, b))
        what |= PVSIZE_DIFFERS_VALUE;
    if (a->set && !pvsz_same_source(a->source, a->known, b->source, b->known))
        what |= PVSIZE_DIFFERS_SOURCE;
    return what;
}

static pvsz_difference_side figure_side(const pvsz_figure *figure, int32_t place)
{
    pvsz_difference_side side = {.finding = -1};

    if (!figure->set)
        return side;
    side.term = pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number;
    side.has = PVSIZE_DIFFERS_VALUE;
    side.value = figure->value;
    return side;
}

static void compare_figures(pvsz_differences *list, const rule_sets *sets)
{
    for (int32_t place = 0; place < PVSZ_FIGURES; place++) {
        const pvsz_figure *a = &sets->first->figure[place], *b = &sets->second->figure[place];
        pvsz_difference row = {.subject = -1};

        pvsz_include_figure(&row.figures, place);
        row.what = figure_difference(a, b);
        row.side[0] = figure_side(a, place);
        row.side[1] = figure_side(b, place);
        pvsz_add_difference(list, &row);
    }
}

/* rules */

int32_t pvsz_rule_difference(const pvsz_rule *a, const pvsz_rule *b)
{
    int32_t what = 0;

    if (!a || !b)
        return PVSIZE_DIFFERS_PRESENCE;
    if (a->severity != b->severity)
        what |= PVSIZE_DIFFERS_SEVERITY;
    if (a->factor != b->factor)
        what |= PVSIZE_DIFFERS_LIMIT;
    if (!same_definition(a, b))
        what |= PVSIZE_DIFFERS_DEFINITION;
    if (!pvsz_same_source(a->source, a->known, b->source, b->known))
        what |= PVSIZE_DIFFERS_SOURCE;
    return what;
}

static pvsz_difference_side rule_side(const pvsz_rule *rule)
{
    pvsz_difference_side side = {.finding = -1};

    if (!rule)
        return side;
    side.term = rule->number;
    side.has = PVSIZE_DIFFERS_SEVERITY | (rule->own ? PVSIZE_DIFFERS_LIMIT : 0);
    side.severity = rule->severity;
    side.limit = rule->factor;
    return side;
}

static void compare_pair(pvsz_differences *list, const pvsz_rule *a, const pvsz_rule *b)
{
    pvsz_difference row = {.subject = -1};

    row.what = pvsz_rule_difference(a, b);
    row.side[0] = rule_side(a);
    row.side[1] = rule_side(b);
    pvsz_add_difference(list, &row);
}

/* The rule of the same name in another set. */
static const pvsz_rule *match(const pvsize_rules *rules, const pvsz_rule *rule)
{
    return pvsz_rule_numbered(rules, pvsize_rules_by_name(rules, rule->name));
}

static void compare_all_rules(pvsz_differences *list, const rule_sets *sets)
{
    for (int32_t i = 0; i < PVSZ_RULES; i++)
        compare_pair(list, &sets->first->rule[i], &sets->second->rule[i]);
    for (size_t i = 0; i < sets->first->own_count; i++)
        compare_pair(list, &sets->first->own[i], match(sets->second, &sets->first->own[i]));
    for (size_t i = 0; i < sets->second->own_count; i++)
        if (!match(sets->first, &sets->second->own[i]))
            compare_pair(list, NULL, &sets->second->own[i]);
}

/* text */

static void put_origin(pvsz_text *text, const char *source, int32_t known)
{
    const char *how = pvsize_set_text(PVSIZE_SET_KNOWN, known);

    pvsz_put(text, " (");
    pvsz_put(text, source);
    if (strcmp(source, how) != 0) {
        pvsz_put(text, "; ");
        pvsz_put(text, how);
    }
    pvsz_put(text, ")");
}

static void put_figure(pvsz_text *text, int32_t place, const pvsz_figure *figure)
{
    if (!figure->set) {
        pvsz_put(text, "not set");
        return;
    }
    pvsz_put_value(text, &pvsz_kinds[PVSZ_KIND_FIGURE].rows[place], figure->value, 0);
    put_origin(text, figure->source, figure->known);
}

void pvsz_put_figures(pvsz_text *text, int32_t place, const pvsz_figure *a, const pvsz_figure *b)
{
    pvsz_put_term(text, pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number);
    pvsz_put(text, ": ");
    put_figure(text, place, a);
    pvsz_put(text, " against ");
    put_figure(text, place, b);
}

static void put_definition(pvsz_text *text, const pvsz_rule *rule)
{
    pvsz_put_term(text, rule->value.number);
    pvsz_put(text, " ");
    pvsz_put(text, pvsz_compare_words(rule->compare));
    if (!rule->limit.number) {
        pvsz_put_value(text, pvsz_term_find(rule->value.number), rule->factor, 0);
        return;
    }
    if (rule->factor != 1) {
        pvsz_put_exact(text, rule->factor);
        pvsz_put(text, " × ");
    }
    pvsz_put_term(text, rule->limit.number);
}

enum {
    ABOUT_DEFINITION = PVSIZE_DIFFERS_PRESENCE | PVSIZE_DIFFERS_LIMIT | PVSIZE_DIFFERS_DEFINITION
};

static void put_rule(pvsz_text *text, const pvsz_rule *rule, int32_t what, const char *none)
{
    if (!rule) {
        pvsz_put(text, none);
        return;
    }
    pvsz_put(text, pvsize_set_name(PVSIZE_SET_SEVERITY, rule->severity));
    if (what & ABOUT_DEFINITION) {
        pvsz_put(text, ", ");
        put_definition(text, rule);
    }
    /* a rule that was never in force has a source that says nothing */
    if (rule->severity != PVSIZE_SEVERITY_OFF || what & PVSIZE_DIFFERS_SOURCE)
        put_origin(text, rule->source, rule->known);
}

void pvsz_put_rules(pvsz_text *text, const pvsz_rule *a, const pvsz_rule *b, int32_t what,
                    const char *none)
{
    pvsz_put(text, "rule.");
    pvsz_put(text, a ? a->name : b->name);
    pvsz_put(text, ": ");
    put_rule(text, a, what, none);
    pvsz_put(text, " against ");
    put_rule(text, b, what, none);
}

static void put_difference(pvsz_text *text, const void *of, const pvsz_difference *row)
{
    const rule_sets *sets = of;
    int32_t place = pvsz_next_figure(&row->figures, 0);

    if (place == PVSZ_FIGURES) {
        pvsz_put_rules(text, pvsz_rule_numbered(sets->first, row->side[0].term),
                       pvsz_rule_numbered(sets->second, row->side[1].term), row->what, "not there");
        return;
    }
    pvsz_put_figures(text, place, &sets->first->figure[place], &sets->second->figure[place]);
}

pvsize_status pvsize_compare_rules(const pvsize_rules *first, const pvsize_rules *second,
                                   int32_t wanted, pvsize_comparison *comparison, pvsize_diag *diag)
{
    rule_sets sets = {first, second};
    pvsz_differences list;
    pvsize_status status;

    if (!first || !second)
        return pvsz_fail_null(diag, first ? "second" : "first");
    if (!pvsz_rules_live(first) || !pvsz_rules_live(second))
        return pvsz_fail_handle(diag, pvsz_rules_live(first) ? "second" : "first");
    status = pvsz_open_differences(comparison, wanted, &list, diag);
    if (status)
        return status;
    compare_figures(&list, &sets);
    compare_all_rules(&list, &sets);
    return pvsz_keep_differences(comparison, &list, put_difference, &sets, diag);
}
