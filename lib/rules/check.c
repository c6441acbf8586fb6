/* The check: one loop over subjects and rules. */
#include <math.h>

#include "calc.h"

/* sides of a rule */

/* Of a parameter that is not set: its default, which is told, or none. */
static bool look_for_unset(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject,
                           const double **value)
{
    int32_t missing;
    double number;

    *value = NULL;
    if (!subject->spec[ref->scope] || !pvsz_find_unset(report, subject, ref->number, &number))
        return pvsz_lack_of(subject, ref->number, &missing) != PVSZ_NOTHING;
    *value = &pvsz_kinds[ref->kind].rows[ref->place].deflt;
    return true;
}

/* Whether one side of a rule applies to a subject, and where its number stands; null where
 * a term is missing. A rule's own constant is its factor, on a limit of 1. It stands in `find`
 * twice: the value is of the subject itself, and no constant, so that there some ways are open
 * to nothing (GCOVR_EXCL_BR_LINE). */
PVSZ_INLINE bool look_at(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject,
                         const double **value)
{
    static const double one = 1;

    if (ref->kind == PVSZ_KIND_QUANTITY) {
        const pvsz_entry *entry = pvsz_entry_for(report, ref->scope, ref->column, subject);

        *value = pvsz_has_value(entry) ? &entry->value : NULL;
        return entry && entry->state != PVSZ_NOTHING; /* GCOVR_EXCL_BR_LINE */
    }
    if (ref->kind == PVSZ_KIND_FIGURE) {
        *value = report->figure[ref->place].set ? &report->figure[ref->place].value : NULL;
    } else if (ref->number == 0) { /* GCOVR_EXCL_BR_LINE */
        *value = &one;
    } else {
        const pvsize_spec *spec = subject->spec[ref->scope];

        if (!spec || !pvsz_spec_has(spec, ref->place)) /* GCOVR_EXCL_BR_LINE */
            return look_for_unset(report, ref, subject, value);
        *value = &spec->value[ref->place].number;
    }
    return true;
}

/* The term for want of which it has no number. */
static int32_t missing_of(const pvsize_report *report, const pvsz_ref *ref,
                          const pvsz_subject *subject)
{
    int32_t missing = ref->number;

    if (ref->kind == PVSZ_KIND_QUANTITY)
        return report->entry[pvsz_side_entry(ref, subject)].missing;
    if (ref->kind != PVSZ_KIND_FIGURE)
        pvsz_lack_of(subject, ref->number, &missing);
    return missing;
}

/* findings */

/* At a limit that must be passed, which rounding does not. */
static bool is_only_at(const pvsz_rule *rule, double margin, double limit)
{
    return rule->compare == PVSIZE_COMPARE_MORE_THAN && pvsz_within(-margin, limit);
}

/* The guard is a share of the limit, whichever side that is. */
static int32_t judge(const pvsize_report *report, const pvsz_rule *rule, double margin,
                     double limit)
{
    if (!pvsz_within(margin, limit) || is_only_at(rule, margin, limit))
        return PVSIZE_VERDICT_EXCEEDS;
    return rule->can_be_close && margin < report->close * fabs(limit) && limit != 0
               ? PVSIZE_VERDICT_MARGINAL
               : PVSIZE_VERDICT_MEETS;
}

/* No breach, as is seen without the guard, of a rule that tells of nothing else; none of
 * these asks for more than its limit. */
static bool is_clear_of(const pvsz_rule *rule, double value, double limit)
{
    return rule->compare == PVSIZE_COMPARE_AT_MOST ? value <= limit : value >= limit;
}

/* A term is missing, of the value before the limit. A rule that tells of a breach only
 * says nothing about that. */
static void find_gap(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject,
                     const double *value, const double *limit)
{
    if (rule->manner == PVSZ_QUIET)
        return;
    report->finding[report->findings++] = (pvsz_finding){
        .rule = rule,
        .subject = subject,
        .value = value ? *value : 0,
        .limit = limit ? *limit * rule->factor : 0,
        .limit_term = limit ? *limit : 0,
        .missing = missing_of(report, value ? &rule->limit : &rule->value, subject),
        .verdict = PVSIZE_VERDICT_NOT_ASSESSED,
    };
}

/* Both are there. A rule that tells of gaps has nothing to say, and one that tells of a
 * breach only if there is one. */
PVSZ_INLINE void compare(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject,
                         double value, double limit)
{
    double edge = limit * rule->factor, margin;
    int32_t verdict;

    if (rule->manner == PVSZ_QUIET && is_clear_of(rule, value, edge))
        return;
    margin = rule->compare == PVSIZE_COMPARE_AT_MOST ? pvsz_subtract(edge, value)
                                                     : pvsz_subtract(value, edge);
    verdict = judge(report, rule, margin, edge);
    if (rule->manner == PVSZ_QUIET && verdict != PVSIZE_VERDICT_EXCEEDS)
        return;
    if ((margin < 0) != (verdict == PVSIZE_VERDICT_EXCEEDS))
        margin = 0; /* rounding only */
    report->finding[report->findings++] = (pvsz_finding){
        .rule = rule,
        .subject = subject,
        .value = value,
        .limit = edge,
        .limit_term = limit,
        .margin = margin,
        .verdict = verdict,
    };
}

/* What a rule finds on a subject, unless it does not apply to it. */
static void find(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject)
{
    const double *value, *limit;

    if (!look_at(report, &rule->value, subject, &value) ||
        !look_at(report, &rule->limit, subject, &limit))
        return;
    if (!value || !limit)
        find_gap(report, rule, subject, value, limit);
    else if (rule->manner != PVSZ_GAPS)
        compare(report, rule, subject, *value, *limit);
}

/* Of several limits on one value, from one side, the tightest governs; those
 * of a lower severity have no say. */
static void mark_governing(pvsize_report *report, int32_t first)
{
    for (int32_t i = first; i < report->findings; i++) {
        pvsz_finding *finding = &report->finding[i];
        int32_t rivals = finding->rule->rivals;
        bool alone = true, tightest = finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED;

        if (!rivals)
            continue;
        for (int32_t j = first; tightest && j < report->findings; j++) {
            const pvsz_finding *other = &report->finding[j];

            if (other->rule->rivals != rivals || j == i ||
                other->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
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
    return scope < PVSZ_SCOPES && scope != PVSZ_KIND_EFFICIENCY_POINT;
}

static void check_scope(pvsize_report *report, int32_t scope)
{
    const pvsz_subject *subject = report->design.subject[scope];
    const pvsz_subject *behind = subject + report->design.count[scope];
    const pvsz_rule *last = report->rule + report->first_rule[scope + 1];

    for (; subject < behind; subject++) {
        int32_t first = report->findings;

        for (const pvsz_rule *rule = report->rule + report->first_rule[scope]; rule < last; rule++)
            find(report, rule, subject);
        mark_governing(report, first);
    }
}

/* What can be asked of a report does not depend on the rules that were on. */
static void compute_the_rest(pvsize_report *report)
{
    for (int32_t scope = 0; scope < PVSZ_SCOPES; scope++) {
        int32_t entries = report->design.count[scope] * pvsz_quantity_count[scope];
        pvsz_entry *entry = report->entry + report->design.first_row[scope];

        for (pvsz_entry *last = entry + entries; entry < last; entry++)
            if (entry->state == PVSZ_NOT_YET)
                pvsz_compute_now(report, entry);
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
