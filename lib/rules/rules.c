/* Making, copying, changing and asking rule sets. Own rules: own_rules.c. */
#include <math.h>
#include <string.h>

#include "rules.h"

bool pvsz_rules_live(const pvsize_rules *rules)
{
    return pvsz_is(rules, PVSZ_MARK_RULES);
}

pvsz_ref pvsz_refer(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);
    pvsz_ref ref = {0, 0, 0, -1, 0};

    if (row) {
        ref.number = term;
        ref.kind = (int16_t)row->kind;
        ref.place = (int16_t)pvsz_term_place(row);
        ref.scope = (int16_t)row->scope;
        if (ref.kind == PVSZ_KIND_QUANTITY)
            ref.column = (int16_t)(ref.place - pvsz_first_quantity[ref.scope]);
    }
    return ref;
}

/* Every rule is there from the start, switched off. */
static void fill_rules(pvsize_rules *rules)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_RULE].rows;

    for (int32_t i = 0; i < PVSZ_RULES; i++) {
        pvsz_rule *rule = &rules->rule[i];

        rule->number = rows[i].number;
        rule->scope = rows[i].scope;
        rule->severity = PVSIZE_SEVERITY_OFF;
        rule->known = PVSIZE_KNOWN_USER;
        rule->compare = rows[i].compare;
        rule->manner = rows[i].manner;
        rule->value = pvsz_refer(rows[i].value);
        rule->limit = pvsz_refer(rows[i].limit);
        rule->factor = 1;
        rule->name = rows[i].name;
        rule->title = rows[i].text;
        rule->breach = rows[i].breach;
        rule->source = "given by the caller";
    }
}

/* A figure with only one allowed value is a constant, and always there. */
static void fill_constants(pvsize_rules *rules)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_FIGURE].rows;

    for (int32_t i = 0; i < PVSZ_FIGURES; i++) {
        rules->figure[i].source = "";
        rules->figure[i].known = PVSIZE_KNOWN_USER;
        if (rows[i].low < rows[i].high)
            continue;
        rules->figure[i].set = true;
        rules->figure[i].value = rows[i].low;
        rules->figure[i].known = PVSIZE_KNOWN_HOUSE;
        rules->figure[i].source = "by definition";
    }
}

static void apply_row(pvsize_rules *rules, const pvsz_preset_row *row)
{
    const pvsz_term *term = pvsz_term_find(row->term);
    int32_t place = pvsz_term_place(term);

    if (term->kind == PVSZ_KIND_FIGURE) {
        pvsz_figure *figure = &rules->figure[place];

        figure->set = true;
        figure->value = row->value;
        figure->known = row->known;
        figure->source = row->source;
    } else {
        pvsz_rule *rule = &rules->rule[place];

        rule->severity = (int32_t)row->value;
        rule->known = row->known;
        rule->source = row->source;
    }
}

/* An object with room for so many rules in force. */
static pvsize_status make(const pvsize_allocator *memory, size_t room, pvsize_rules **out,
                          pvsize_diag *diag)
{
    void *made;
    pvsize_status status = pvsz_make(memory, sizeof **out, PVSZ_MARK_RULES, &made, diag);

    if (status)
        return status;
    *out = made;
    (*out)->force = pvsz_new(&(*out)->head.memory, room, sizeof *(*out)->force);
    if ((*out)->force)
        return PVSIZE_OK;
    pvsz_unmake(made);
    return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}

pvsize_status pvsize_rules_new(const char *preset, const pvsize_allocator *memory,
                               pvsize_rules **out, pvsize_diag *diag)
{
    const pvsz_preset *found = preset ? pvsz_preset_named(preset) : NULL;
    pvsize_rules *rules;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (preset && !found) {
        pvsz_fail_name(diag, PVSIZE_E_UNKNOWN_NAME, 0, preset);
        pvsz_fail_argument(diag, "preset");
        pvsz_fail_allowed(diag, pvsz_preset_names());
        return PVSIZE_E_UNKNOWN_NAME;
    }
    status = make(memory, PVSZ_RULES, &rules, diag);
    if (status)
        return status;
    rules->title = found ? found->title : "own rule set";
    fill_rules(rules);
    fill_constants(rules);
    for (int32_t i = 0; found && i < found->rows; i++)
        apply_row(rules, &found->row[i]);
    pvsz_order_rules(rules);
    *out = rules;
    return PVSIZE_OK;
}

/* Texts that the copy owns are taken over one by one, so that a copy cut
 * short by missing memory can be freed like any other. */
static bool copy_own_texts(pvsize_rules *copy, const pvsize_rules *rules)
{
    copy->own_title = false;
    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        copy->figure[i].own_source = false;
    if (rules->own_title) {
        char *title = pvsz_copy_text(&copy->head.memory, rules->title);

        if (!title)
            return false;
        copy->title = title;
        copy->own_title = true;
    }
    for (int32_t i = 0; i < PVSZ_FIGURES; i++) {
        char *source;

        if (!rules->figure[i].own_source)
            continue;
        source = pvsz_copy_text(&copy->head.memory, rules->figure[i].source);
        if (!source)
            return false;
        copy->figure[i].source = source;
        copy->figure[i].own_source = true;
    }
    return true;
}

static bool copy_own_rules(pvsize_rules *copy, const pvsize_rules *rules)
{
    copy->own_count = 0;
    if (rules->own_count == 0)
        return true;
    copy->own = pvsz_new(&copy->head.memory, rules->own_count, sizeof *copy->own);
    if (!copy->own)
        return false;
    copy->own_capacity = rules->own_count;
    for (; copy->own_count < rules->own_count; copy->own_count++) {
        pvsz_rule *to = &copy->own[copy->own_count];

        *to = rules->own[copy->own_count];
        if (!pvsz_own_texts(&copy->head.memory, to))
            return false;
    }
    return true;
}

pvsize_status pvsize_rules_clone(const pvsize_rules *rules, const pvsize_allocator *memory,
                                 pvsize_rules **out, pvsize_diag *diag)
{
    pvsize_rules *copy;
    pvsz_head head;
    pvsz_rule *force;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (!rules)
        return pvsz_fail_null(diag, "rules");
    if (!pvsz_rules_live(rules))
        return pvsz_fail_handle(diag, "rules");
    status = make(memory, PVSZ_RULES + rules->own_count, &copy, diag);
    if (status)
        return status;
    head = copy->head;
    force = copy->force;
    *copy = *rules;
    copy->head = head;
    copy->force = force;
    copy->own = NULL;
    copy->own_count = copy->own_capacity = 0;
    if (!copy_own_texts(copy, rules) || !copy_own_rules(copy, rules)) {
        pvsize_rules_free(copy);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    pvsz_order_rules(copy);
    *out = copy;
    return PVSIZE_OK;
}

static void release_text(const pvsz_memory *memory, const char *text)
{
    pvsz_release(memory, (void *)(uintptr_t)text);
}

void pvsize_rules_free(pvsize_rules *rules)
{
    pvsz_memory memory;

    if (!pvsz_rules_live(rules))
        return;
    memory = rules->head.memory;
    if (rules->own_title)
        release_text(&memory, rules->title);
    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (rules->figure[i].own_source)
            release_text(&memory, rules->figure[i].source);
    for (size_t i = 0; i < rules->own_count; i++)
        release_text(&memory, rules->own[i].name);
    pvsz_release(&memory, rules->own);
    pvsz_release(&memory, rules->force);
    pvsz_unmake(rules);
}

static pvsize_status check_handle(const pvsize_rules *rules, pvsize_diag *diag)
{
    if (!rules)
        return pvsz_fail_null(diag, "rules");
    return pvsz_rules_live(rules) ? PVSIZE_OK : pvsz_fail_handle(diag, "rules");
}

pvsize_status pvsize_rules_set_title(pvsize_rules *rules, const char *title, pvsize_diag *diag)
{
    pvsize_status status = check_handle(rules, diag);
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
        release_text(&rules->head.memory, rules->title);
    rules->title = copy;
    rules->own_title = true;
    pvsz_measure_texts(rules);
    return PVSIZE_OK;
}

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
    pvsize_status status = check_handle(rules, diag);

    return status ? status : give_text(rules->title, buffer, capacity, length, diag);
}

/* figures */

static pvsize_status find_figure(const pvsize_rules *rules, int32_t number, int32_t *place,
                                 pvsize_diag *diag)
{
    pvsize_status status = check_handle(rules, diag);
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

pvsize_status pvsize_rules_set_figure(pvsize_rules *rules, int32_t figure, double value,
                                      const char *source, pvsize_diag *diag)
{
    int32_t place;
    pvsize_status status = find_figure(rules, figure, &place, diag);
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
        release_text(&rules->head.memory, rules->figure[place].source);
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
    pvsize_status status = find_figure(rules, figure, &place, diag);

    if (status)
        return status;
    if (pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].low ==
        pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].high)
        return pvsz_fail_term(diag, PVSIZE_E_NEEDS_VALUE, figure); /* a constant */
    if (rules->figure[place].own_source)
        release_text(&rules->head.memory, rules->figure[place].source);
    rules->figure[place] = (pvsz_figure){.set = false, .known = PVSIZE_KNOWN_USER, .source = ""};
    pvsz_measure_texts(rules);
    return PVSIZE_OK;
}

pvsize_status pvsize_rules_get_figure(const pvsize_rules *rules, int32_t figure, double *value,
                                      pvsize_diag *diag)
{
    int32_t place;
    pvsize_status status = find_figure(rules, figure, &place, diag);

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

static pvsize_status find_rule(const pvsize_rules *rules, int32_t number, const pvsz_rule **rule,
                               pvsize_diag *diag)
{
    pvsize_status status = check_handle(rules, diag);

    if (status)
        return status;
    *rule = pvsz_rule_numbered(rules, number);
    if (*rule)
        return PVSIZE_OK;
    if (pvsz_term_find(number))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, number, "rule");
    return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, number);
}

pvsize_status pvsize_rules_set_severity(pvsize_rules *rules, int32_t rule, int32_t severity,
                                        pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = find_rule(rules, rule, &found, diag);

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

pvsize_status pvsize_rules_get_severity(const pvsize_rules *rules, int32_t rule, int32_t *severity,
                                        pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = find_rule(rules, rule, &found, diag);

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
    pvsize_status status = find_rule(rules, rule, &found, diag);

    return status ? status : give_text(found->name, buffer, capacity, length, diag);
}

pvsize_status pvsize_rules_rule_title(const pvsize_rules *rules, int32_t rule, char *buffer,
                                      size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = find_rule(rules, rule, &found, diag);

    return status ? status : give_text(found->title, buffer, capacity, length, diag);
}

pvsize_status pvsize_rules_definition(const pvsize_rules *rules, int32_t rule, int32_t *value_term,
                                      int32_t *compare, int32_t *limit_term, double *limit,
                                      pvsize_diag *diag)
{
    const pvsz_rule *found;
    pvsize_status status = find_rule(rules, rule, &found, diag);

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

/* Source and knowledge of a rule or a figure. */
static pvsize_status find_source(const pvsize_rules *rules, int32_t term, const char **source,
                                 int32_t *known, pvsize_diag *diag)
{
    const pvsz_term *row = pvsz_term_find(term);
    const pvsz_rule *rule;
    pvsize_status status;
    int32_t place;

    if (row && row->kind == PVSZ_KIND_FIGURE) {
        status = find_figure(rules, term, &place, diag);
        if (status)
            return status;
        if (!rules->figure[place].set)
            return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
        *source = rules->figure[place].source;
        *known = rules->figure[place].known;
        return PVSIZE_OK;
    }
    status = find_rule(rules, term, &rule, diag);
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
