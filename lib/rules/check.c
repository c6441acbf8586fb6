/* The check: one loop over subjects and rules. */
#include "calc.h"

/* What a rule has nothing to say about is left out. */
static bool is_silent(const pvsz_rule *rule, int32_t verdict)
{
    if (rule->manner == PVSZ_QUIET)
        return verdict != PVSIZE_VERDICT_EXCEEDS;
    return rule->manner == PVSZ_GAPS && verdict != PVSIZE_VERDICT_NOT_ASSESSED;
}

/* Counts and answers are on one side of a limit or the other; only what is
 * measured can be close. */
static bool is_close(const pvsize_report *report, const pvsz_finding *finding)
{
    const pvsz_figure *band = &report->figure[PVSZ_FIGURE_MARGINAL_BAND];
    double size = finding->limit < 0 ? -finding->limit : finding->limit;

    return finding->rule->manner == PVSZ_LOUD && finding->rule->measured && band->set &&
           size != 0 && finding->margin < band->value / 100 * size;
}

/* At a limit that must be passed, which rounding does not. */
static bool is_only_at(const pvsz_finding *finding)
{
    return finding->rule->compare == PVSIZE_COMPARE_MORE_THAN &&
           pvsz_within(-finding->margin, finding->limit);
}

static void judge(const pvsize_report *report, pvsz_finding *finding)
{
    bool at_most = finding->rule->compare == PVSIZE_COMPARE_AT_MOST;
    double low = at_most ? finding->value : finding->limit;
    double high = at_most ? finding->limit : finding->value;

    finding->margin = pvsz_subtract(high, low);
    /* the guard is a share of the limit, whichever side that is */
    if (!pvsz_within(finding->margin, finding->limit) || is_only_at(finding))
        finding->verdict = PVSIZE_VERDICT_EXCEEDS;
    else if (is_close(report, finding))
        finding->verdict = PVSIZE_VERDICT_MARGINAL;
    else
        finding->verdict = PVSIZE_VERDICT_MEETS;
    if ((finding->margin < 0) != (finding->verdict == PVSIZE_VERDICT_EXCEEDS))
        finding->margin = 0; /* rounding only */
}

/* One side of a rule on a subject: its value, the entry of a quantity (else -1), and
 * what is missing. */
typedef struct side {
    double value;
    int32_t entry, missing;
    pvsz_state state;
} side;

static inline void look_at_quantity(const pvsize_report *report, int32_t entry, side *out)
{
    out->entry = entry;
    out->state = PVSZ_NOTHING;
    if (entry < 0)
        return;
    out->value = report->entry[entry].value;
    out->missing = report->entry[entry].missing;
    out->state = report->entry[entry].state;
}

static void look_at(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject,
                    side *out)
{
    if (ref->kind == PVSZ_KIND_QUANTITY) {
        look_at_quantity(report, pvsz_compute(report, ref->place, subject), out);
        return;
    }
    out->entry = -1;
    out->missing = ref->number;
    if (ref->kind == PVSZ_KIND_FIGURE) {
        out->value = report->figure[ref->place].value;
        out->state = report->figure[ref->place].set ? PVSZ_VALUE : PVSZ_MISSING;
    } else if (pvsz_find_param(report, subject, ref->number, &out->value)) {
        out->state = PVSZ_VALUE;
    } else {
        out->value = 0;
        out->state = pvsz_lack_of(subject, ref->number, &out->missing);
    }
}

/* Adds the finding of a rule on a subject, unless there is nothing to find. */
static void find(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject)
{
    pvsz_finding *finding = &report->finding[report->findings];
    side value, limit = {.value = 1, .entry = -1, .state = PVSZ_VALUE};

    look_at(report, &rule->value, subject, &value);
    if (value.state == PVSZ_NOTHING)
        return;
    if (rule->limit.number) /* else the rule's own constant, which is its factor */
        look_at(report, &rule->limit, subject, &limit);
    if (limit.state == PVSZ_NOTHING)
        return;
    finding->rule = rule;
    finding->subject = subject;
    finding->value = value.value;
    finding->limit_term = limit.value;
    finding->limit = limit.value * rule->factor;
    finding->value_entry = value.entry;
    finding->limit_entry = limit.entry;
    finding->governs = false;
    finding->missing = 0;
    if (value.state == PVSZ_VALUE && limit.state == PVSZ_VALUE) {
        judge(report, finding);
    } else {
        finding->verdict = PVSIZE_VERDICT_NOT_ASSESSED;
        finding->missing = value.state != PVSZ_VALUE ? value.missing : limit.missing;
    }
    report->findings += !is_silent(rule, finding->verdict);
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

        if (!finding->rule->rivals)
            continue;
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
    PVSZ_KIND_SYSTEM, PVSZ_KIND_SITE,     PVSZ_KIND_PLANE, PVSZ_KIND_INVERTER, PVSZ_KIND_INPUT,
    PVSZ_KIND_ARRAY,  PVSZ_KIND_ISOLATOR, PVSZ_KIND_CABLE, PVSZ_KIND_READING,  PVSZ_KIND_MODULE,
};

bool pvsz_is_subject(int32_t scope)
{
    for (int32_t i = 0; i < PVSZ_ORDERED_SCOPES; i++)
        if (pvsz_scope_order[i] == scope)
            return true;
    return false;
}

static void check_scope(pvsize_report *report, int32_t scope)
{
    for (int32_t at = 0; at < report->design.count[scope]; at++) {
        const pvsz_subject *subject = &report->design.subject[scope][at];
        int32_t first = report->findings;

        for (int32_t i = report->first_rule[scope]; i < report->first_rule[scope + 1]; i++)
            find(report, &report->rule[i], subject);
        mark_governing(report, first);
    }
}

/* What can be asked of a report does not depend on the rules that were on. */
static void compute_the_rest(pvsize_report *report)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        int32_t place = pvsz_first_quantity[scope];
        int32_t *memo = report->memo + report->memo_start[scope] + place;

        for (int32_t at = 0; at < report->design.count[scope]; at++)
            for (int32_t i = 0; i < pvsz_quantity_count[scope]; i++, memo++)
                if (*memo < 0)
                    pvsz_compute_now(report, place + i, &report->design.subject[scope][at], memo);
    }
}

pvsize_status pvsize_check(const pvsize_spec *spec, const pvsize_rules *rules,
                           pvsize_report *report, pvsize_diag *diag)
{
    pvsize_status status;

    if (!spec || !rules || !report)
        return pvsz_fail_null(diag, !spec ? "spec" : !rules ? "rules" : "report");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (!pvsz_rules_live(rules))
        return pvsz_fail_handle(diag, "rules");
    if (!pvsz_report_live(report))
        return pvsz_fail_handle(diag, "report");
    status = pvsz_open_report(report, spec, rules, diag);
    if (status)
        return status;
    for (int32_t i = 0; i < PVSZ_ORDERED_SCOPES; i++)
        check_scope(report, pvsz_scope_order[i]);
    compute_the_rest(report);
    pvsz_close_report(report);
    return PVSIZE_OK;
}
