/* What differs between two reports on one system, and why. */
#include <string.h>

#include "compare_reports.h"

/* are they alike? */

static bool same_place(const pvsz_subject *a, const pvsz_subject *b)
{
    return a->index == b->index && memcmp(a->at, b->at, sizeof a->at) == 0;
}

static bool same_subjects(const pvsz_design *a, const pvsz_design *b)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        if (a->count[scope] != b->count[scope])
            return false;
        for (int32_t i = 0; i < a->count[scope]; i++)
            if (!same_place(&a->subject[scope][i], &b->subject[scope][i]))
                return false;
    }
    return true;
}

/* what differs */

static int32_t number_difference(const pvsz_finding *a, const pvsz_finding *b)
{
    int32_t what = 0;

    if (pvsz_is_assessed(a) != pvsz_is_assessed(b))
        return 0; /* the verdict tells */
    if (!pvsz_is_assessed(a))
        return a->missing != b->missing ? PVSIZE_DIFFERS_VALUE : 0;
    if (a->value != b->value)
        what |= PVSIZE_DIFFERS_VALUE;
    if (a->limit != b->limit)
        what |= PVSIZE_DIFFERS_LIMIT;
    return what;
}

static int32_t finding_difference(const pvsz_finding *a, const pvsz_finding *b)
{
    int32_t what;

    if (!a || !b)
        return PVSIZE_DIFFERS_PRESENCE;
    what = number_difference(a, b);
    if (a->verdict != b->verdict)
        what |= PVSIZE_DIFFERS_VERDICT;
    if (a->rule->severity != b->rule->severity)
        what |= PVSIZE_DIFFERS_SEVERITY;
    if (!pvsz_same_source(a->rule->source, a->rule->known, b->rule->source, b->rule->known))
        what |= PVSIZE_DIFFERS_SOURCE;
    return what;
}

/* why */

/* Adds the figures that a side of a rule, on this subject, looked at. */
static void add_figures_of(pvsz_figure_set *figures, const pvsize_report *report,
                           const pvsz_ref *ref, const pvsz_subject *subject)
{
    int32_t entry;

    if (!ref->number)
        return;
    if (ref->kind == PVSZ_KIND_FIGURE)
        pvsz_include_figure(figures, ref->place);
    entry = pvsz_side_entry(ref, subject);
    if (entry >= 0)
        pvsz_unite_figures(figures, &report->entry[entry].figures);
}

/* Of the sides that differ; where one is not known, either may. That a rule is not in
 * force needs no figure. */
static pvsz_figure_set figures_behind(const pvsz_matching *in, const pvsz_match *found,
                                      int32_t what)
{
    bool either = !pvsz_is_assessed(found->of[0]) || !pvsz_is_assessed(found->of[1]);
    pvsz_figure_set figures = {{0}};

    for (int32_t side = 0; side < 2 && found->rule[0] && found->rule[1]; side++) {
        const pvsz_rule *rule = found->rule[side];

        if (either || what & PVSIZE_DIFFERS_VALUE)
            add_figures_of(&figures, in->report[side], &rule->value, found->subject[side]);
        if (either || what & PVSIZE_DIFFERS_LIMIT)
            add_figures_of(&figures, in->report[side], &rule->limit, found->subject[side]);
        if (what & PVSIZE_DIFFERS_VERDICT && found->of[side]->verdict == PVSIZE_VERDICT_MARGINAL)
            pvsz_include_figure(&figures, PVSZ_FIGURE_MARGINAL_BAND);
    }
    return figures;
}

pvsz_figure_set pvsz_unlike_figures(const pvsz_matching *in)
{
    pvsz_figure_set figures = {{0}};

    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (!pvsz_same_figure(&in->report[0]->figure[i], &in->report[1]->figure[i]))
            pvsz_include_figure(&figures, i);
    return figures;
}

/* matching */

static pvsz_difference_side side_of(const pvsize_report *report, const pvsz_finding *finding)
{
    pvsz_difference_side side = {.finding = -1};

    if (!finding)
        return side;
    side.term = finding->rule->number;
    side.finding = (int32_t)(finding - report->finding);
    side.has = PVSIZE_DIFFERS_SEVERITY | PVSIZE_DIFFERS_VERDICT;
    side.severity = finding->rule->severity;
    side.verdict = finding->verdict;
    if (!pvsz_is_assessed(finding))
        return side;
    side.has |= PVSIZE_DIFFERS_VALUE | PVSIZE_DIFFERS_LIMIT;
    side.value = finding->value;
    side.limit = finding->limit;
    return side;
}

/* Place of a rule of the second report in the first; -1: not in force there. */
static int32_t twin_of(const pvsz_matching *in, int32_t rule)
{
    for (int32_t i = 0; i < in->report[0]->rules; i++)
        if (in->twin[i] == rule)
            return i;
    return -1;
}

static int32_t rule_place(const pvsize_report *report, const pvsz_finding *finding)
{
    return (int32_t)(finding->rule - report->rule);
}

pvsz_match pvsz_match_of(const pvsz_matching *in, const pvsz_finding *a, const pvsz_finding *b)
{
    const pvsz_subject *subject = (a ? a : b)->subject;
    int32_t scope = subject->scope, at = subject->at[scope];
    int32_t rule[2] = {a ? rule_place(in->report[0], a) : twin_of(in, rule_place(in->report[1], b)),
                       b ? rule_place(in->report[1], b) : in->twin[rule_place(in->report[0], a)]};
    pvsz_match found = {.of = {a, b}};

    for (int32_t side = 0; side < 2; side++) {
        found.rule[side] = rule[side] < 0 ? NULL : &in->report[side]->rule[rule[side]];
        found.subject[side] = &in->report[side]->design.subject[scope][at];
    }
    return found;
}

static void compare_findings(pvsz_differences *list, const pvsz_matching *in, const pvsz_finding *a,
                             const pvsz_finding *b)
{
    pvsz_difference row = {.what = finding_difference(a, b)};
    pvsz_figure_set unlike;
    pvsz_match found;

    if (!(row.what & list->wanted))
        return;
    found = pvsz_match_of(in, a, b);
    row.subject = pvsz_subject_number(in->report[0], found.subject[0]);
    row.figures = figures_behind(in, &found, row.what);
    unlike = pvsz_unlike_figures(in);
    pvsz_intersect_figures(&row.figures, &unlike);
    row.side[0] = side_of(in->report[0], a);
    row.side[1] = side_of(in->report[1], b);
    pvsz_add_difference(list, &row);
}

static bool same_rule(const pvsz_rule *a, const pvsz_rule *b)
{
    if (a->own != b->own)
        return false;
    return a->own ? strcmp(a->name, b->name) == 0 : a->number == b->number;
}

/* Rules are some hundreds at most. */
static void match_rules(const pvsz_matching *in)
{
    const pvsize_report *first = in->report[0], *second = in->report[1];

    for (int32_t i = 0; i < first->rules; i++) {
        in->twin[i] = -1;
        for (int32_t j = 0; j < second->rules && in->twin[i] < 0; j++)
            if (same_rule(&first->rule[i], &second->rule[j]))
                in->twin[i] = j;
    }
    for (int32_t j = 0; j < second->rules; j++)
        in->finding_of[j] = -1;
}

/* Findings of one report on one subject: from, and up to but without. */
typedef struct range {
    int32_t from, end;
} range;

static int32_t subject_at(const pvsize_report *report, int32_t i)
{
    return i < report->findings ? pvsz_subject_number(report, report->finding[i].subject)
                                : INT32_MAX;
}

static range next_range(const pvsize_report *report, int32_t from, int32_t subject)
{
    range found = {from, from};

    while (subject_at(report, found.end) == subject)
        found.end++;
    return found;
}

static void compare_subject(pvsz_differences *list, const pvsz_matching *in, range a, range b)
{
    const pvsize_report *first = in->report[0], *second = in->report[1];

    for (int32_t j = b.from; j < b.end; j++)
        in->finding_of[rule_place(second, &second->finding[j])] = j;
    for (int32_t i = a.from; i < a.end; i++) {
        int32_t twin = in->twin[rule_place(first, &first->finding[i])];
        bool both = twin >= 0 && in->finding_of[twin] >= b.from;

        compare_findings(list, in, &first->finding[i],
                         both ? &second->finding[in->finding_of[twin]] : NULL);
        if (both)
            in->finding_of[twin] = -1;
    }
    for (int32_t j = b.from; j < b.end; j++)
        if (in->finding_of[rule_place(second, &second->finding[j])] == j)
            compare_findings(list, in, NULL, &second->finding[j]);
}

/* Findings stand in the order of their subjects. */
static void compare_subjects(pvsz_differences *list, const pvsz_matching *in)
{
    range a = {0, 0}, b = {0, 0};

    while (a.end < in->report[0]->findings || b.end < in->report[1]->findings) {
        int32_t i = subject_at(in->report[0], a.end), j = subject_at(in->report[1], b.end);

        a = next_range(in->report[0], a.end, i < j ? i : j);
        b = next_range(in->report[1], b.end, i < j ? i : j);
        compare_subject(list, in, a, b);
    }
}

/* the call */

static pvsize_status check_reports(const pvsize_report *first, const pvsize_report *second,
                                   pvsize_diag *diag)
{
    if (!first || !second)
        return pvsz_fail_null(diag, first ? "second" : "first");
    if (!pvsz_report_live(first) || !pvsz_report_live(second))
        return pvsz_fail_handle(diag, pvsz_report_live(first) ? "second" : "first");
    if (same_subjects(&first->design, &second->design))
        return PVSIZE_OK;
    pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, 0, "a report on the same subjects as the first");
    pvsz_fail_argument(diag, "second");
    return PVSIZE_E_WRONG_KIND;
}

/* Room for the matching: gone before the call returns. */
static pvsize_status open_matching(pvsz_matching *in, const pvsz_memory *memory, pvsize_diag *diag)
{
    int32_t rules = in->report[0]->rules;

    in->twin = pvsz_new(memory, (size_t)rules + (size_t)in->report[1]->rules, sizeof *in->twin);
    if (!in->twin)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    in->finding_of = in->twin + rules;
    match_rules(in);
    return PVSIZE_OK;
}

pvsize_status pvsize_compare_reports(const pvsize_report *first, const pvsize_report *second,
                                     int32_t wanted, pvsize_comparison *comparison,
                                     pvsize_diag *diag)
{
    pvsz_matching in = {.report = {first, second}};
    pvsz_differences list;
    pvsize_status status = check_reports(first, second, diag);

    if (!status)
        status = pvsz_open_differences(comparison, wanted, &list, diag);
    if (!status)
        status = open_matching(&in, &comparison->head.memory, diag);
    if (status)
        return status;
    compare_subjects(&list, &in);
    status = pvsz_keep_differences(comparison, &list, pvsz_put_report_difference, &in, diag);
    pvsz_release(&comparison->head.memory, in.twin);
    return status;
}
