/* The report as an object: its memory, and what it copies so that it can stand
 * alone. Everything that can fail comes before anything is changed. */
#include <math.h>
#include <string.h>

#include "findings.h"

bool pvsz_report_live(const pvsize_report *report)
{
    return pvsz_is(report, PVSZ_MARK_REPORT);
}

pvsize_status pvsize_report_new(const pvsize_allocator *memory, pvsize_report **out,
                                pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_REPORT, &made, diag);
    *out = made;
    return status;
}

void pvsize_report_free(pvsize_report *report)
{
    if (!pvsz_report_live(report))
        return;
    pvsz_release(&report->head.memory, report->block);
    pvsz_unmake(report);
}

/* How much room a check needs. */
typedef struct room {
    int32_t subjects, rules, entries, operands, findings, assumptions;
    size_t text;
} room;

static room measure(const pvsize_rules *rules, const pvsz_design *design)
{
    room need = {0};

    need.subjects = pvsz_design_size(design);
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        need.entries += design->count[scope] * pvsz_quantity_count[scope];
    /* and each list names everything below its subject once */
    need.operands = need.entries * PVSZ_MOST_OPERANDS + need.subjects * PVSZ_QUANTITIES;
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        int32_t rows = rules->first_force[scope + 1] - rules->first_force[scope];

        need.rules += design->count[scope] > 0 ? rows : 0;
        need.findings += design->count[scope] * rows;
    }
    need.assumptions = need.subjects * 5; /* see `assume` */
    /* no label is longer, and to measure each costs more than the room */
    need.text = rules->text_bytes + (size_t)need.subjects * (PVSZ_MOST_TEXT + 1);
    return need;
}

enum { ALIGNMENT = 16 };

/* Cuts an array off the block; with a null block only counts. What does not fit
 * the address space stays at its end, where no allocation succeeds. */
static void *cut(char *block, size_t *used, size_t count, size_t size)
{
    char *start = block ? block + *used : NULL;
    size_t most = (SIZE_MAX / 4 - ALIGNMENT) / size;

    if (count > most || *used > SIZE_MAX / 4) /* GCOVR_EXCL_BR_LINE: narrow address spaces */
        *used = SIZE_MAX / 2 + 1;             /* GCOVR_EXCL_LINE: counts are of 31 bits */
    else
        *used += (count * size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    return start;
}

typedef struct arrays {
    pvsz_subject *subject;
    pvsz_rule *rule;
    pvsz_entry *entry;
    const pvsz_entry **turn;
    pvsz_operand *operand;
    pvsz_finding *finding;
    pvsz_assumption *assumption;
    char *text;
} arrays;

static size_t cut_all(char *block, const room *need, arrays *out)
{
    size_t used = 0;

    out->subject = cut(block, &used, (size_t)need->subjects, sizeof *out->subject);
    out->rule = cut(block, &used, (size_t)need->rules, sizeof *out->rule);
    out->entry = cut(block, &used, (size_t)need->entries, sizeof *out->entry);
    out->turn = cut(block, &used, (size_t)need->entries, sizeof *out->turn);
    out->operand = cut(block, &used, (size_t)need->operands, sizeof *out->operand);
    out->finding = cut(block, &used, (size_t)need->findings, sizeof *out->finding);
    out->assumption = cut(block, &used, (size_t)need->assumptions, sizeof *out->assumption);
    out->text = cut(block, &used, need->text, 1);
    return used;
}

/* After this nothing can fail. */
static pvsize_status make_room(pvsize_report *report, const room *need, arrays *out,
                               pvsize_diag *diag)
{
    size_t size = cut_all(NULL, need, out);

    if (size > report->block_size) {
        void *block = pvsz_new_unset(&report->head.memory, size, 1);

        if (!block)
            return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
        pvsz_release(&report->head.memory, report->block);
        report->block = block;
        report->block_size = size;
    }
    cut_all(report->block, need, out);
    return PVSIZE_OK;
}

static const char *take_text(char **next, const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = memcpy(*next, text, size);

    *next += size;
    return copy;
}

/* Copies the rules in force on anything that is there; own texts, which may go, as
 * well. */
static void take_rules(pvsize_report *report, const pvsize_rules *rules, char **next)
{
    const pvsz_figure *band = &rules->figure[PVSZ_FIGURE_MARGINAL_BAND];

    report->title = take_text(next, rules->title);
    report->close = band->set ? band->value / 100 : -INFINITY;
    memcpy(report->figure, rules->figure, sizeof report->figure);
    report->rules = 0;
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        int32_t first = rules->first_force[scope], rows = rules->first_force[scope + 1] - first;

        report->first_rule[scope] = report->rules;
        if (report->design.count[scope] == 0)
            continue;
        memcpy(&report->rule[report->rules], &rules->force[first],
               (size_t)rows * sizeof *rules->force);
        report->rules += rows;
    }
    report->first_rule[PVSZ_SCOPES] = report->rules;
    for (int32_t i = 0; rules->own_sources && i < PVSZ_FIGURES; i++)
        if (rules->figure[i].own_source)
            report->figure[i].source = take_text(next, rules->figure[i].source);
    for (int32_t i = 0; rules->own_count && i < report->rules; i++) {
        pvsz_rule *rule = &report->rule[i];

        if (!rule->own)
            continue;
        rule->name = take_text(next, rule->name);
        rule->title = take_text(next, rule->title);
        rule->source = take_text(next, rule->source);
    }
}

/* Labels, and no look at the spec again. */
static void let_go(pvsz_design *design, char **next)
{
    static const pvsize_spec *const none[PVSZ_SCOPES];

    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        for (int32_t i = 0; i < design->count[scope]; i++) {
            pvsz_subject *subject = &design->subject[scope][i];

            subject->name = subject->name[0] ? take_text(next, subject->name) : "";
            memcpy(subject->spec, none, sizeof subject->spec);
        }
}

static void use_arrays(pvsize_report *report, const arrays *from, const room *need)
{
    report->rule = from->rule;
    report->entry = from->entry;
    report->turn = from->turn;
    report->next_operand = from->operand;
    report->last_operand = from->operand + need->operands;
    report->finding = from->finding;
    report->assumption = from->assumption;
    report->text = from->text;
    report->turns = report->findings = report->assumptions = 0;
    report->assumption_room = need->assumptions;
}

/* Says of every entry which quantity of which subject it is. */
static void set_out_entries(pvsize_report *report)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        const pvsz_subject *subject = report->design.subject[scope];
        const pvsz_subject *last = subject + report->design.count[scope];
        pvsz_entry *entry = report->entry + report->design.first_row[scope];
        int32_t first = pvsz_first_quantity[scope], behind = first + pvsz_quantity_count[scope];

        for (; subject < last; subject++)
            for (int32_t place = first; place < behind; place++, entry++) {
                entry->subject = subject;
                entry->quantity = (int16_t)place;
                entry->state = PVSZ_NOT_YET;
            }
    }
}

pvsize_status pvsz_open_report(pvsize_report *report, const pvsize_spec *spec,
                               const pvsize_rules *rules, pvsize_diag *diag)
{
    pvsz_design design;
    arrays from;
    room need;
    pvsize_status status = pvsz_design_measure(spec, &design, diag);

    if (status)
        return status;
    need = measure(rules, &design);
    status = make_room(report, &need, &from, diag);
    if (status)
        return status;
    pvsz_design_lay(spec, &design, from.subject);
    report->design = design;
    use_arrays(report, &from, &need);
    set_out_entries(report);
    report->next_text = report->text;
    take_rules(report, rules, &report->next_text);
    return PVSIZE_OK;
}

void pvsz_close_report(pvsize_report *report)
{
    let_go(&report->design, &report->next_text);
    report->filled = true;
}
