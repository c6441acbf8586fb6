/* The sentence of a difference between two reports: what each finds, and why not the same. */
#include "compare_reports.h"

/* What a side without the finding has to say. */
static const char *absence(const pvsz_rule *rule)
{
    if (!rule)
        return "not in force";
    return rule->manner == PVSZ_LOUD || rule->manner == PVSZ_FIRM ? "does not apply"
                                                                  : "nothing to report";
}

static void put_finding(pvsz_text *text, const pvsz_finding *finding, const pvsz_rule *rule)
{
    if (!finding) {
        pvsz_put(text, absence(rule));
        return;
    }
    pvsz_put(text, pvsz_verdict_word(finding));
    pvsz_put(text, " (");
    if (!pvsz_is_assessed(finding))
        pvsz_put_reason(text, finding);
    else
        pvsz_put_comparison(text, finding);
    pvsz_put(text, ")");
}

/* Every reason but the first is joined to the one before. */
static void put_joint(pvsz_text *text, int32_t *reasons)
{
    pvsz_put(text, *reasons ? " and " : "; reason: ");
    ++*reasons;
}

static void put_reasons(pvsz_text *text, const pvsz_matching *in, const pvsz_match *found,
                        const pvsz_difference *row)
{
    int32_t rule = pvsz_rule_difference(found->rule[0], found->rule[1]), reasons = 0;
    pvsz_figure_set unlike;

    if (!(row->what & PVSIZE_DIFFERS_SOURCE))
        rule &= ~PVSIZE_DIFFERS_SOURCE;
    if (rule) {
        put_joint(text, &reasons);
        pvsz_put_rules(text, found->rule[0], found->rule[1], rule, "not in force");
    }
    for (int32_t i = 0; i < PVSZ_FIGURES; i++) {
        if (!pvsz_includes_figure(&row->figures, i))
            continue;
        put_joint(text, &reasons);
        pvsz_put_figures(text, i, &in->report[0]->figure[i], &in->report[1]->figure[i]);
    }
    if (reasons)
        return;
    put_joint(text, &reasons);
    unlike = pvsz_unlike_figures(in);
    pvsz_put(text, pvsz_next_figure(&unlike, 0) < PVSZ_FIGURES
                       ? "the data, or a figure that no formula names"
                       : "the data of the two reports");
}

static const pvsz_finding *finding_at(const pvsize_report *report, int32_t i)
{
    return i < 0 ? NULL : &report->finding[i];
}

void pvsz_put_report_difference(pvsz_text *text, const void *pair, const pvsz_difference *row)
{
    const pvsz_matching *in = pair;
    const pvsz_finding *a = finding_at(in->report[0], row->side[0].finding);
    const pvsz_finding *b = finding_at(in->report[1], row->side[1].finding);
    pvsz_match found = pvsz_match_of(in, a, b);

    pvsz_put_subject(text, in->report[!a], found.subject[!a]);
    pvsz_put(text, ": ");
    pvsz_put(text, found.rule[!a]->title);
    pvsz_put(text, ": ");
    put_finding(text, a, found.rule[0]);
    pvsz_put(text, " against ");
    put_finding(text, b, found.rule[1]);
    put_reasons(text, in, &found, row);
}
