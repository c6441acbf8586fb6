/* The check: one loop over subjects and rules. */
#include <math.h>
#include <string.h>

#include "calc.h"

bool pvsz_report_live(const pvsize_report *report)
{
    return report && report->mark == PVSZ_MARK_REPORT;
}

pvsize_status pvsize_report_new(const pvsize_allocator *memory, pvsize_report **out,
                                pvsize_diag *diag)
{
    pvsz_memory hooks;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (pvsz_take_memory(memory, &hooks, diag))
        return PVSIZE_E_NULL_POINTER;
    *out = pvsz_new(&hooks, 1, sizeof **out);
    if (!*out)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    (*out)->mark = PVSZ_MARK_REPORT;
    (*out)->memory = hooks;
    return PVSIZE_OK;
}

void pvsize_report_free(pvsize_report *report)
{
    pvsz_memory memory;

    if (!pvsz_report_live(report))
        return;
    memory = report->memory;
    pvsz_release(&memory, report->block);
    report->mark = PVSZ_MARK_DEAD;
    pvsz_release(&memory, report);
}

/* How much room a check needs. */
typedef struct room {
    int32_t subjects, rules, memos, entries, operands, findings, assumptions;
    size_t text;
} room;

static bool in_force(const pvsz_rule *rule)
{
    return rule->severity != PVSIZE_SEVERITY_OFF;
}

static size_t own_text_bytes(const pvsize_rules *rules)
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

static room measure(const pvsize_spec *spec, const pvsize_rules *rules, const pvsz_design *design)
{
    int32_t quantities[PVSZ_SCOPES] = {0};
    room need = {0};

    for (int32_t i = 0; i < PVSZ_QUANTITIES; i++)
        quantities[pvsz_kinds[PVSZ_KIND_QUANTITY].rows[i].scope]++;
    need.subjects = pvsz_design_size(design);
    need.memos = need.subjects * PVSZ_QUANTITIES;
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        need.entries += design->count[scope] * quantities[scope];
    /* and each list names everything below its subject once */
    need.operands = need.entries * PVSZ_MOST_OPERANDS + need.memos;
    for (int32_t i = 0; i < PVSZ_RULES; i++)
        if (in_force(&rules->rule[i])) {
            need.rules++;
            need.findings += design->count[rules->rule[i].scope];
        }
    for (size_t i = 0; i < rules->own_count; i++)
        if (in_force(&rules->own[i])) {
            need.rules++;
            need.findings += design->count[rules->own[i].scope];
        }
    need.assumptions = need.subjects * 4;
    need.text = pvsz_design_name_bytes(spec) + own_text_bytes(rules);
    return need;
}

enum { ALIGNMENT = 16 };

/* Cuts an array off the block; with a null block only counts. */
static void *cut(char *block, size_t *used, size_t count, size_t size)
{
    char *start = block ? block + *used : NULL;

    *used += (count * size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    return start;
}

typedef struct arrays {
    pvsz_subject *subject;
    pvsz_rule *rule;
    int32_t *memo;
    pvsz_entry *entry;
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
    out->memo = cut(block, &used, (size_t)need->memos, sizeof *out->memo);
    out->entry = cut(block, &used, (size_t)need->entries, sizeof *out->entry);
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
        void *block = pvsz_new(&report->memory, size, 1);

        if (!block)
            return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
        pvsz_release(&report->memory, report->block);
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

/* Copies the rules in force, in the order of their scopes. */
static void take_rules(pvsize_report *report, const pvsize_rules *rules, char **next)
{
    int32_t total = PVSZ_RULES + (int32_t)rules->own_count;

    report->title = take_text(next, rules->title);
    memcpy(report->figure, rules->figure, sizeof report->figure);
    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (rules->figure[i].own_source)
            report->figure[i].source = take_text(next, rules->figure[i].source);
    report->rules = 0;
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        report->first_rule[scope] = report->rules;
        for (int32_t i = 0; i < total; i++) {
            const pvsz_rule *rule = i < PVSZ_RULES ? &rules->rule[i] : &rules->own[i - PVSZ_RULES];
            pvsz_rule *copy = &report->rule[report->rules];

            if (rule->scope != scope || !in_force(rule))
                continue;
            *copy = *rule;
            report->rules++;
            if (!rule->own)
                continue;
            copy->name = take_text(next, rule->name);
            copy->title = take_text(next, rule->title);
            copy->source = take_text(next, rule->source);
        }
    }
    report->first_rule[PVSZ_SCOPES] = report->rules;
}

static void take_names(pvsz_design *design, char **next)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        for (int32_t i = 0; i < design->count[scope]; i++)
            design->subject[scope][i].name = take_text(next, design->subject[scope][i].name);
}

static void use_arrays(pvsize_report *report, const arrays *from, const room *need)
{
    int32_t start = 0;

    report->rule = from->rule;
    report->memo = from->memo;
    report->entry = from->entry;
    report->operand = from->operand;
    report->finding = from->finding;
    report->assumption = from->assumption;
    report->text = from->text;
    report->entries = report->operands = report->findings = report->assumptions = 0;
    report->operand_room = need->operands;
    report->assumption_room = need->assumptions;
    memset(report->memo, -1, (size_t)need->memos * sizeof *report->memo);
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        report->memo_start[scope] = start;
        start += report->design.count[scope] * PVSZ_QUANTITIES;
    }
}

/* judging */

/* Counts and answers are on one side of a limit or the other; only what is
 * measured can be close. */
static bool can_be_marginal(const pvsz_rule *rule)
{
    const pvsz_term *term = &pvsz_kinds[rule->value.kind].rows[rule->value.place];

    return rule->manner == PVSZ_LOUD && term->type == PVSIZE_TYPE_NUMBER;
}

/* What a rule has nothing to say about is left out. */
static bool is_silent(const pvsz_rule *rule, int32_t verdict)
{
    if (rule->manner == PVSZ_QUIET)
        return verdict != PVSIZE_VERDICT_EXCEEDS;
    return rule->manner == PVSZ_GAPS && verdict != PVSIZE_VERDICT_NOT_ASSESSED;
}

static int32_t judge(const pvsize_report *report, const pvsz_rule *rule,
                     const pvsz_finding *finding)
{
    const pvsz_figure *band = &report->figure[PVSZ_FIGURE_MARGINAL_BAND];
    double value = finding->value.value, limit = finding->limit.value;
    bool inside = rule->compare == PVSIZE_COMPARE_AT_MOST ? pvsz_at_most(value, limit)
                                                          : pvsz_at_most(limit, value);

    if (!inside)
        return PVSIZE_VERDICT_EXCEEDS;
    if (band->set && can_be_marginal(rule) && limit != 0 &&
        finding->margin < band->value / 100 * (limit < 0 ? -limit : limit))
        return PVSIZE_VERDICT_MARGINAL;
    return PVSIZE_VERDICT_MEETS;
}

/* Adds the finding of a rule on a subject, unless there is nothing to find. */
static void find(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject)
{
    pvsz_finding finding = {.rule = rule, .subject = subject};

    finding.value = pvsz_side_of(report, rule->value, 1, subject);
    if (finding.value.state == PVSZ_NOTHING)
        return;
    finding.limit = pvsz_side_of(report, rule->limit, rule->factor, subject);
    if (finding.limit.state == PVSZ_NOTHING)
        return;
    if (finding.value.state != PVSZ_VALUE || finding.limit.state != PVSZ_VALUE) {
        finding.verdict = PVSIZE_VERDICT_NOT_ASSESSED;
        finding.missing =
            finding.value.state != PVSZ_VALUE ? finding.value.missing : finding.limit.missing;
    } else {
        finding.margin = rule->compare == PVSIZE_COMPARE_AT_MOST
                             ? finding.limit.value - finding.value.value
                             : finding.value.value - finding.limit.value;
        finding.verdict = judge(report, rule, &finding);
    }
    if (is_silent(rule, finding.verdict))
        return;
    report->finding[report->findings++] = finding;
}

static bool share_a_value(const pvsz_finding *a, const pvsz_finding *b)
{
    return a->rule->value.number == b->rule->value.number && a->rule->compare == b->rule->compare &&
           b->verdict != PVSIZE_VERDICT_NOT_ASSESSED;
}

/* Of several limits on one value, from one side, the tightest governs; those
 * of a lower severity have no say. */
static void mark_governing(pvsize_report *report, int32_t first)
{
    for (int32_t i = first; i < report->findings; i++) {
        pvsz_finding *finding = &report->finding[i];
        bool alone = true, tightest = finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED;

        for (int32_t j = first; tightest && j < report->findings; j++) {
            const pvsz_finding *other = &report->finding[j];

            if (j == i || !share_a_value(finding, other))
                continue;
            alone = false;
            if (other->rule->severity > finding->rule->severity ||
                (other->rule->severity == finding->rule->severity &&
                 other->margin < finding->margin))
                tightest = false;
        }
        finding->governs = tightest && !alone;
    }
}

const int32_t pvsz_scope_order[PVSZ_ORDERED_SCOPES] = {
    PVSZ_KIND_SYSTEM, PVSZ_KIND_SITE,  PVSZ_KIND_PLANE,  PVSZ_KIND_INVERTER,
    PVSZ_KIND_INPUT,  PVSZ_KIND_ARRAY, PVSZ_KIND_MODULE,
};

static void check_scope(pvsize_report *report, int32_t scope)
{
    const pvsz_term *quantities = pvsz_kinds[PVSZ_KIND_QUANTITY].rows;

    for (int32_t at = 0; at < report->design.count[scope]; at++) {
        const pvsz_subject *subject = &report->design.subject[scope][at];
        int32_t first = report->findings;

        for (int32_t i = report->first_rule[scope]; i < report->first_rule[scope + 1]; i++)
            find(report, &report->rule[i], subject);
        mark_governing(report, first);
        for (int32_t i = 0; i < PVSZ_QUANTITIES; i++)
            if (quantities[i].scope == scope)
                pvsz_compute(report, i, subject);
    }
}

/* The report must not look at the spec again. */
static void let_go(pvsz_design *design)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++)
        for (int32_t i = 0; i < design->count[scope]; i++)
            memset(design->subject[scope][i].spec, 0, sizeof design->subject[scope][i].spec);
}

pvsize_status pvsize_check(const pvsize_spec *spec, const pvsize_rules *rules,
                           pvsize_report *report, pvsize_diag *diag)
{
    pvsize_status status;
    pvsz_design design;
    arrays from;
    room need;
    char *next;

    if (!spec || !rules || !report)
        return pvsz_fail_null(diag, !spec ? "spec" : !rules ? "rules" : "report");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (!pvsz_rules_live(rules))
        return pvsz_fail_handle(diag, "rules");
    if (!pvsz_report_live(report))
        return pvsz_fail_handle(diag, "report");
    status = pvsz_design_measure(spec, &design, diag);
    if (status)
        return status;
    need = measure(spec, rules, &design);
    status = make_room(report, &need, &from, diag);
    if (status)
        return status;
    pvsz_design_lay(spec, &design, from.subject);
    report->design = design;
    use_arrays(report, &from, &need);
    next = report->text;
    take_rules(report, rules, &next);
    for (int32_t i = 0; i < PVSZ_ORDERED_SCOPES; i++)
        check_scope(report, pvsz_scope_order[i]);
    take_names(&report->design, &next);
    let_go(&report->design);
    report->filled = true;
    return PVSIZE_OK;
}
