/* Subjects, values, verdicts, margins, sources. */
#include <string.h>

#include "words.h"

void pvsz_put_subject(pvsz_text *text, const pvsize_report *report, const pvsz_subject *subject)
{
    pvsz_put(text,
             subject->scope == PVSZ_KIND_MODULE ? "module type" : pvsz_kinds[subject->scope].name);
    if (subject->scope != PVSZ_KIND_SYSTEM && subject->scope != PVSZ_KIND_SITE) {
        pvsz_put(text, " ");
        pvsz_put_int(text, subject->index + 1);
    }
    if (subject->scope == PVSZ_KIND_INPUT && subject->at[PVSZ_KIND_INVERTER] >= 0) {
        int32_t inverter = subject->at[PVSZ_KIND_INVERTER];

        pvsz_put(text, " of inverter ");
        pvsz_put_int(text, report->design.subject[PVSZ_KIND_INVERTER][inverter].index + 1);
    }
    if (subject->name[0]) {
        pvsz_put(text, " (");
        pvsz_put_given(text, subject->name);
        pvsz_put(text, ")");
    }
}

void pvsz_put_value(pvsz_text *text, const pvsz_term *term, double value, int32_t digits)
{
    const char *choice = NULL;

    if (term && term->type == PVSIZE_TYPE_CHOICE)
        choice = pvsize_set_name(term->set, (int32_t)value);
    if (choice) {
        pvsz_put(text, choice);
        return;
    }
    if (digits > 0)
        pvsz_put_rounded(text, value, digits);
    else
        pvsz_put_exact(text, value);
    if (term && term->unit[0]) {
        pvsz_put(text, " ");
        pvsz_put(text, term->unit);
    }
}

int32_t pvsz_outcome(const pvsize_report *report)
{
    int32_t outcome = report->findings ? PVSIZE_OUTCOME_HOLDS : PVSIZE_OUTCOME_NOTHING;

    for (int32_t i = 0; i < report->findings; i++) {
        const pvsz_finding *finding = &report->finding[i];

        if (finding->rule->severity != PVSIZE_SEVERITY_MUST)
            continue;
        if (finding->verdict == PVSIZE_VERDICT_EXCEEDS)
            return PVSIZE_OUTCOME_BROKEN;
        if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
            outcome = PVSIZE_OUTCOME_INCOMPLETE;
    }
    return outcome;
}

const pvsz_term *pvsz_finding_term(const pvsz_finding *finding)
{
    return &pvsz_kinds[finding->rule->value.kind].rows[finding->rule->value.place];
}

const char *pvsz_verdict_word(const pvsz_finding *finding)
{
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS &&
        finding->rule->compare != PVSIZE_COMPARE_AT_MOST)
        return "falls short";
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return "not assessed";
    return pvsize_set_name(PVSIZE_SET_VERDICT, finding->verdict);
}

const char *pvsz_compare_words(int32_t compare)
{
    switch (compare) {
    case PVSIZE_COMPARE_AT_MOST:
        return "at most ";
    case PVSIZE_COMPARE_AT_LEAST:
        return "at least ";
    default:
        return "more than ";
    }
}

static bool read_alike(double a, double b, int32_t digits)
{
    char text[2][40] = {"", ""};

    for (int32_t i = 0; i < 2; i++) {
        pvsz_text out;

        pvsz_text_begin(&out, text[i], sizeof text[i], NULL);
        pvsz_put_rounded(&out, i ? b : a, digits);
    }
    return strcmp(text[0], text[1]) == 0;
}

int32_t pvsz_finding_digits(const pvsz_finding *finding)
{
    int32_t digits = PVSZ_FINDING_DIGITS;

    while (finding->margin != 0 && digits < 15 &&
           read_alike(finding->value, finding->limit, digits))
        digits++;
    return digits;
}

void pvsz_put_comparison(pvsz_text *text, const pvsz_finding *finding)
{
    const pvsz_term *term = pvsz_finding_term(finding);
    int32_t digits = pvsz_finding_digits(finding);

    pvsz_put_value(text, term, finding->value, digits);
    if (term->type == PVSIZE_TYPE_CHOICE)
        return;
    pvsz_put(text, ", ");
    pvsz_put(text, pvsz_compare_words(finding->rule->compare));
    pvsz_put_value(text, term, finding->limit, digits);
}

void pvsz_put_margin(pvsz_text *text, const pvsz_finding *finding)
{
    double limit = finding->limit;

    pvsz_put_value(text, pvsz_finding_term(finding), finding->margin, PVSZ_FINDING_DIGITS);
    if (limit == 0 || pvsz_finding_term(finding)->type != PVSIZE_TYPE_NUMBER ||
        finding->rule->manner == PVSZ_QUIET)
        return;
    pvsz_put(text, " (");
    pvsz_put_fixed(text, finding->margin / (limit < 0 ? -limit : limit) * 100, 1);
    pvsz_put(text, " %)");
}

void pvsz_put_reason(pvsz_text *text, const pvsz_finding *finding)
{
    if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED)
        return;
    pvsz_put(text, "needs ");
    pvsz_put_term(text, finding->missing);
}

void pvsz_put_sentence(pvsz_text *text, const pvsize_report *report, const pvsz_finding *finding)
{
    pvsz_put_subject(text, report, finding->subject);
    pvsz_put(text, ": ");
    pvsz_put_given(text, finding->rule->title);
    pvsz_put(text, ": ");
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED) {
        pvsz_put(text, "not assessed, ");
        pvsz_put_reason(text, finding);
        return;
    }
    pvsz_put_comparison(text, finding);
    pvsz_put(text, ": ");
    pvsz_put(text, pvsz_verdict_word(finding));
    if (pvsz_finding_term(finding)->type != PVSIZE_TYPE_CHOICE) {
        pvsz_put(text, ", margin ");
        pvsz_put_margin(text, finding);
    }
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS) {
        pvsz_put(text, "; ");
        pvsz_put(text, finding->rule->breach);
    }
}

void pvsz_put_source(pvsz_text *text, const char *source, int32_t known)
{
    pvsz_put_given(text, source);
    pvsz_put(text, " (");
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_KNOWN, known));
    pvsz_put(text, ")");
}

void pvsz_put_assumption(pvsz_text *text, const pvsize_report *report,
                         const pvsz_assumption *assumption)
{
    const pvsz_term *term = pvsz_term_find(assumption->term);

    pvsz_put_subject(text, report, assumption->subject);
    pvsz_put(text, ": ");
    pvsz_put(text, term->text);
    pvsz_put(text, ": ");
    pvsz_put_value(text, term, assumption->value, PVSZ_FINDING_DIGITS);
    if (assumption->term == PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT) /* never estimated */
        pvsz_put(text, ", which cannot be believed: not used");
    else
        pvsz_put(text, term->kind == PVSZ_KIND_QUANTITY || term->need != PVSIZE_NEED_DEFAULT
                           ? ", estimated"
                           : ", the default");
}

void pvsz_put_caution(pvsz_text *text)
{
    const char *s = pvsize_caution();
    size_t column = 0;

    pvsz_put(text, text->markdown ? "> " : "");
    while (*s) {
        size_t word = strcspn(s, " ");

        if (!text->markdown && column > 0 && column + 1 + word > 78) {
            pvsz_put(text, "\n");
            column = 0;
        } else if (column > 0) {
            pvsz_put(text, " ");
            column++;
        }
        pvsz_put_bytes(text, s, word);
        column += word;
        s += word + (s[word] == ' ');
    }
    pvsz_put(text, "\n");
}

void pvsz_put_page_title(pvsz_text *text, const char *what, const char *name, const char *rules)
{
    pvsz_put(text, text->markdown ? "# " : "");
    pvsz_put(text, what);
    if (name[0]) {
        pvsz_put(text, ": ");
        pvsz_put_given(text, name);
    }
    pvsz_put(text, text->markdown ? "\n\n**Rule set:** " : "\nRule set: ");
    pvsz_put_given(text, rules);
    pvsz_put(text, "\n\n");
}

void pvsz_put_title(pvsz_text *text, const pvsize_report *report, const char *what)
{
    const pvsz_design *design = &report->design;

    pvsz_put_page_title(text, what,
                        design->count[PVSZ_KIND_SYSTEM] ? design->subject[PVSZ_KIND_SYSTEM][0].name
                                                        : "",
                        report->title);
}
