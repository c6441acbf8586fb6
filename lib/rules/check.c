/* The check: one loop over subjects and rules. */
#include <math.h>

#include "calc.h"

/* sides of a rule */

/* Where the number of a parameter stands: as set, else the default, which is told. */
static bool look_at_param(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject,
                          const double **value)
{
    const pvsize_spec *spec = subject->spec[ref->scope];
    int32_t missing;
    double number;

    *value = NULL;
    if (!spec)
        return pvsz_lack_of(subject, ref->number, &missing) != PVSZ_NOTHING;
    if (pvsz_spec_has(spec, ref->place))
        *value = &spec->value[ref->place].number;
    else if (pvsz_find_unset(report, subject, ref->number, &number))
        *value = &pvsz_kinds[ref->kind].rows[ref->place].deflt;
    return *value || !pvsz_spec_states_none(spec, ref->place);
}

/* Whether one side of a rule applies to a subject, and where its number stands; null where
 * a term is missing. A rule's own constant is its factor, on a limit of 1. */
PVSZ_INLINE bool look_at(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject,
                         const double **value)
{
    static const double one = 1;
    const pvsz_entry *entry;

    if (ref->kind == PVSZ_KIND_QUANTITY) {
        entry = pvsz_entry_for(report, ref->scope, ref->place, subject);
        *value = pvsz_has_value(entry) ? &entry->value : NULL;
        return entry && entry->state != PVSZ_NOTHING;
    }
    if (ref->number && ref->kind != PVSZ_KIND_FIGURE)
        return look_at_param(report, ref, subject, value);
    *value = &one;
    if (ref->number)
        *value = report->figure[ref->place].set ? &report->figure[ref->place].value : NULL;
    return true;
}

/* Place of its entry, if it is a quantity that applies; else -1. */
static int32_t entry_of(const pvsz_ref *ref, const pvsz_subject *subject)
{
    if (ref->kind != PVSZ_KIND_QUANTITY || subject->row[ref->scope] < 0)
        return -1;
    return subject->row[ref->scope] + ref->place - pvsz_first_quantity[ref->scope];
}

/* The term for want of which it has no number. */
static int32_t missing_of(const pvsize_report *report, const pvsz_ref *ref,
                          const pvsz_subject *subject)
{
    int32_t missing = ref->number;

    if (ref->kind == PVSZ_KIND_QUANTITY)
        return report->entry[entry_of(ref, subject)].missing;
    if (ref->kind != PVSZ_KIND_FIGURE)
        pvsz_lack_of(subject, ref->number, &missing);
    return missing;
}

/* verdicts */

/* Counts and answers are on one side of a limit or the other; only what is
 * measured can be close. */
static bool is_close(const pvsz_figure *band, const pvsz_rule *rule, double margin, double limit)
{
    return rule->manner == PVSZ_LOUD && rule->measured && band->set && limit != 0 &&
           margin < band->value / 100 * fabs(limit);
}

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
    return is_close(&report->figure[PVSZ_FIGURE_MARGINAL_BAND], rule, margin, limit)
               ? PVSIZE_VERDICT_MARGINAL
               : PVSIZE_VERDICT_MEETS;
}

/* findings */

static pvsz_finding *add_finding(pvsize_report *report, const pvsz_rule *rule,
                                 const pvsz_subject *subject)
{
    pvsz_finding *finding = &report->finding[report->findings++];

    finding->rule = rule;
    finding->subject = subject;
    finding->value_entry = entry_of(&rule->value, subject);
    finding->limit_entry = entry_of(&rule->limit, subject);
    finding->governs = false;
    return finding;
}

static void state_numbers(pvsz_finding *finding, double value, double limit, double margin)
{
    finding->value = value;
    finding->limit = limit * finding->rule->factor;
    finding->limit_term = limit;
    finding->margin = margin;
}

/* A term is missing, of the value before the limit. One that tells of a breach only says
 * nothing about that. */
static void find_gap(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject,
                     const double *value, const double *limit)
{
    pvsz_finding *finding;

    if (rule->manner == PVSZ_QUIET)
        return;
    finding = add_finding(report, rule, subject);
    finding->verdict = PVSIZE_VERDICT_NOT_ASSESSED;
    finding->missing = missing_of(report, value ? &rule->limit : &rule->value, subject);
    state_numbers(finding, value ? *value : 0, limit ? *limit : 0, 0);
}

/* Both are there. A rule that tells of gaps has nothing to say, and one that tells of a
 * breach only if there is one. */
static void compare(pvsize_report *report, const pvsz_rule *rule, const pvsz_subject *subject,
                    double value, double limit)
{
    double edge = limit * rule->factor;
    double margin = rule->compare == PVSIZE_COMPARE_AT_MOST ? pvsz_subtract(edge, value)
                                                            : pvsz_subtract(value, edge);
    int32_t verdict = judge(report, rule, margin, edge);
    pvsz_finding *finding;

    if (rule->manner == PVSZ_QUIET && verdict != PVSIZE_VERDICT_EXCEEDS)
        return;
    if ((margin < 0) != (verdict == PVSIZE_VERDICT_EXCEEDS))
        margin = 0; /* rounding only */
    finding = add_finding(report, rule, subject);
    finding->verdict = verdict;
    finding->missing = 0;
    state_numbers(finding, value, limit, margin);
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
    return scope >= 0 && scope < PVSZ_SCOPES && scope != PVSZ_KIND_EFFICIENCY_POINT;
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
        int32_t place = pvsz_first_quantity[scope], quantities = pvsz_quantity_count[scope];
        pvsz_entry *entry = report->entry + report->design.first_row[scope];

        for (int32_t at = 0; at < report->design.count[scope]; at++)
            for (int32_t i = 0; i < quantities; i++, entry++)
                if (entry->state == PVSZ_NOT_YET)
                    pvsz_compute_now(report, place + i, &report->design.subject[scope][at], entry);
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
