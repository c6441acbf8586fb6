/* Making, copying and ending rule sets. */
#include "rules.h"

bool pvsz_rules_live(const pvsize_rules *rules)
{
    return pvsz_is(rules, PVSZ_MARK_RULES);
}

pvsize_status pvsz_check_rules(const pvsize_rules *rules, pvsize_diag *diag)
{
    if (!rules)
        return pvsz_fail_null(diag, "rules");
    return pvsz_rules_live(rules) ? PVSIZE_OK : pvsz_fail_handle(diag, "rules");
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
    status = pvsz_check_rules(rules, diag);
    if (status)
        return status;
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

void pvsz_release_text(const pvsz_memory *memory, const char *text)
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
        pvsz_release_text(&memory, rules->title);
    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (rules->figure[i].own_source)
            pvsz_release_text(&memory, rules->figure[i].source);
    for (size_t i = 0; i < rules->own_count; i++)
        pvsz_release_text(&memory, rules->own[i].name);
    pvsz_release(&memory, rules->own);
    pvsz_release(&memory, rules->force);
    pvsz_unmake(rules);
}
