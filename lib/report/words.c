/* Subjects, values, verdicts, margins, sources. */
#include "words.h"

void pv_put_subject(pv_text *text, const pvsize_report *report, const pv_subject *subject)
{
    pv_put(text, subject->scope == PV_KIND_MODULE ? "module type" : pv_kinds[subject->scope].name);
    if (subject->scope != PV_KIND_SYSTEM && subject->scope != PV_KIND_SITE) {
        pv_put(text, " ");
        pv_put_int(text, subject->index + 1);
    }
    if (subject->scope == PV_KIND_INPUT && subject->at[PV_KIND_INVERTER] >= 0) {
        int32_t inverter = subject->at[PV_KIND_INVERTER];

        pv_put(text, " of inverter ");
        pv_put_int(text, report->design.subject[PV_KIND_INVERTER][inverter].index + 1);
    }
    if (subject->name[0]) {
        pv_put(text, " (");
        pv_put_given(text, subject->name);
        pv_put(text, ")");
    }
}

void pv_put_value(pv_text *text, const pv_term *term, double value, int32_t digits)
{
    const char *choice = NULL;

    if (term && term->type == PVSIZE_TYPE_CHOICE)
        choice = pvsize_set_name(term->set, (int32_t)value);
    if (choice) {
        pv_put(text, choice);
        return;
    }
    if (digits > 0)
        pv_put_rounded(text, value, digits);
    else
        pv_put_exact(text, value);
    if (term && term->unit[0]) {
        pv_put(text, " ");
        pv_put(text, term->unit);
    }
}

const pv_term *pv_finding_term(const pv_finding *finding)
{
    return &pv_kinds[finding->rule->value.kind].rows[finding->rule->value.place];
}

const char *pv_verdict_word(const pv_finding *finding)
{
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS &&
        finding->rule->compare == PVSIZE_COMPARE_AT_LEAST)
        return "falls short";
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return "not assessed";
    return pvsize_set_name(PVSIZE_SET_VERDICT, finding->verdict);
}

void pv_put_comparison(pv_text *text, const pv_finding *finding)
{
    const pv_term *term = pv_finding_term(finding);

    pv_put_value(text, term, finding->value.value, PV_FINDING_DIGITS);
    if (term->type == PVSIZE_TYPE_CHOICE)
        return;
    pv_put(text, finding->rule->compare == PVSIZE_COMPARE_AT_MOST ? ", at most " : ", at least ");
    pv_put_value(text, term, finding->limit.value, PV_FINDING_DIGITS);
}

void pv_put_margin(pv_text *text, const pv_finding *finding)
{
    double limit = finding->limit.value;

    pv_put_value(text, pv_finding_term(finding), finding->margin, PV_FINDING_DIGITS);
    if (limit == 0 || pv_finding_term(finding)->type != PVSIZE_TYPE_NUMBER)
        return;
    pv_put(text, " (");
    pv_put_fixed(text, finding->margin / (limit < 0 ? -limit : limit) * 100, 1);
    pv_put(text, " %)");
}

void pv_put_reason(pv_text *text, const pv_finding *finding)
{
    if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED)
        return;
    pv_put(text, "needs ");
    pv_put_term(text, finding->missing);
}

void pv_put_sentence(pv_text *text, const pvsize_report *report, const pv_finding *finding)
{
    pv_put_subject(text, report, finding->subject);
    pv_put(text, ": ");
    pv_put_given(text, finding->rule->title);
    pv_put(text, ": ");
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED) {
        pv_put(text, "not assessed, ");
        pv_put_reason(text, finding);
        return;
    }
    pv_put_comparison(text, finding);
    pv_put(text, ": ");
    pv_put(text, pv_verdict_word(finding));
    if (pv_finding_term(finding)->type != PVSIZE_TYPE_CHOICE) {
        pv_put(text, ", margin ");
        pv_put_margin(text, finding);
    }
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS) {
        pv_put(text, "; ");
        pv_put(text, finding->rule->breach);
    }
}

void pv_put_source(pv_text *text, const char *source, int32_t known)
{
    pv_put_given(text, source);
    pv_put(text, " (");
    pv_put(text, pvsize_set_text(PVSIZE_SET_KNOWN, known));
    pv_put(text, ")");
}

void pv_put_assumption(pv_text *text, const pvsize_report *report, const pv_assumption *assumption)
{
    const pv_term *term = pv_term_find(assumption->term);

    pv_put_subject(text, report, assumption->subject);
    pv_put(text, ": ");
    pv_put(text, term->text);
    pv_put(text, ": ");
    pv_put_value(text, term, assumption->value, PV_FINDING_DIGITS);
    pv_put(text, term->kind == PV_KIND_QUANTITY || term->need != PVSIZE_NEED_DEFAULT
                     ? ", estimated"
                     : ", the default");
}
