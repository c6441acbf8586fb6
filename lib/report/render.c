/* The whole report, subject by subject, from the whole to the parts. Both
 * formats say the same things in the same order. */
#include <string.h>

#include "words.h"

typedef struct page {
    pvsz_text *text;
    const pvsize_report *report;
    bool markdown;
} page;

/* counts at the head */

static int32_t count(const pvsize_report *report, int32_t verdict, int32_t severity)
{
    int32_t found = 0;

    for (int32_t i = 0; i < report->findings; i++)
        found += report->finding[i].verdict == verdict &&
                 (severity == 0 || report->finding[i].rule->severity == severity);
    return found;
}

static void put_count(page *out, const char *before, int32_t number, const char *what)
{
    pvsz_put(out->text, before);
    pvsz_put_int(out->text, number);
    pvsz_put(out->text, what);
}

static void put_summary(page *out)
{
    const pvsize_report *report = out->report;

    pvsz_put(out->text, out->markdown ? "**Result:** " : "Result: ");
    pvsz_put(out->text, pvsize_set_text(PVSIZE_SET_OUTCOME, pvsz_outcome(report)));
    put_count(out, out->markdown ? "\n\nLimits broken: " : "\nLimits broken: ",
              count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_MUST), " that must hold, ");
    put_count(out, "", count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_SHOULD),
              " of good practice, ");
    put_count(out, "", count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_NOTE), " to note; ");
    put_count(out, "marginal: ", count(report, PVSIZE_VERDICT_MARGINAL, 0), "; ");
    put_count(out, "met: ", count(report, PVSIZE_VERDICT_MEETS, 0), "; ");
    put_count(out, "not assessed: ", count(report, PVSIZE_VERDICT_NOT_ASSESSED, 0), ", ");
    put_count(out, "of which must hold: ",
              count(report, PVSIZE_VERDICT_NOT_ASSESSED, PVSIZE_SEVERITY_MUST), "\n");
}

static void put_head(page *out)
{
    pvsz_put_title(out->text, out->report, "PV sizing");
    pvsz_put_caution(out->text);
    pvsz_put(out->text, "\n");
    put_summary(out);
}

/* one subject: what it comes to, then its findings */

static void put_heading(page *out, const pvsz_subject *subject)
{
    pvsz_put(out->text, out->markdown ? "\n## " : "\n== ");
    pvsz_put_subject(out->text, out->report, subject);
    pvsz_put(out->text, "\n");
}

static void put_answer(page *out, const pvsz_entry *entry)
{
    const pvsz_term *term = &pvsz_kinds[PVSZ_KIND_QUANTITY].rows[entry->quantity];
    const char *remark = strchr(entry->formula, ';');

    pvsz_put(out->text, out->markdown ? "- " : "   ");
    pvsz_put(out->text, term->text);
    pvsz_put(out->text, ": ");
    pvsz_put_value(out->text, term, entry->value, PVSZ_FINDING_DIGITS);
    if (remark && !strchr(remark, '{')) {
        pvsz_put(out->text, " (");
        pvsz_put(out->text, remark + 2);
        pvsz_put(out->text, ")");
    }
    pvsz_put(out->text, "\n");
}

/* Quantities that every report states; false if there are none. */
static bool put_answers(page *out, const pvsz_subject *subject, bool only_look)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_QUANTITY].rows;
    bool any = false;

    for (int32_t i = 0; i < PVSZ_QUANTITIES; i++) {
        const pvsz_entry *entry;

        if (!rows[i].head || rows[i].scope != subject->scope)
            continue;
        entry = &out->report->entry[pvsz_report_entry(out->report, i, subject)];
        if (entry->state != PVSZ_VALUE)
            continue;
        any = true;
        if (!only_look)
            put_answer(out, entry);
    }
    return any;
}

static void put_plain_finding(page *out, const pvsz_finding *finding)
{
    const char *verdict = pvsz_verdict_word(finding);
    const char *severity = pvsize_set_name(PVSIZE_SET_SEVERITY, finding->rule->severity);

    pvsz_put(out->text, finding->verdict == PVSIZE_VERDICT_EXCEEDS ? " > " : "   ");
    pvsz_put(out->text, verdict);
    pvsz_put_repeat(out->text, ' ', 13 - (int32_t)strlen(verdict));
    pvsz_put(out->text, severity);
    pvsz_put_repeat(out->text, ' ', 8 - (int32_t)strlen(severity));
    pvsz_put_given(out->text, finding->rule->title);
    pvsz_put(out->text, "\n                ");
    pvsz_put_comparison(out->text, finding);
    if (pvsz_finding_term(finding)->type != PVSIZE_TYPE_CHOICE) {
        pvsz_put(out->text, "; margin ");
        pvsz_put_margin(out->text, finding);
    }
    pvsz_put(out->text, finding->governs ? "; governs" : "");
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS) {
        pvsz_put(out->text, "\n                ");
        pvsz_put(out->text, finding->rule->breach);
    }
    pvsz_put(out->text, "\n                ");
    pvsz_put(out->text, finding->rule->name);
    pvsz_put(out->text, ": ");
    pvsz_put_source(out->text, finding->rule->source, finding->rule->known);
    pvsz_put(out->text, "\n");
}

static void put_markdown_row(page *out, const pvsz_finding *finding)
{
    const pvsz_term *term = pvsz_finding_term(finding);
    bool breach = finding->verdict == PVSIZE_VERDICT_EXCEEDS;

    pvsz_put(out->text, breach ? "| **" : "| ");
    pvsz_put(out->text, pvsz_verdict_word(finding));
    pvsz_put(out->text, breach ? "** | " : " | ");
    pvsz_put(out->text, pvsize_set_name(PVSIZE_SET_SEVERITY, finding->rule->severity));
    pvsz_put(out->text, " | ");
    pvsz_put_given(out->text, finding->rule->title);
    if (breach) {
        pvsz_put(out->text, ": ");
        pvsz_put(out->text, finding->rule->breach);
    }
    pvsz_put(out->text, finding->governs ? " (governs) | " : " | ");
    pvsz_put_value(out->text, term, finding->value, pvsz_finding_digits(finding));
    pvsz_put(out->text, " | ");
    pvsz_put(out->text, pvsz_compare_words(finding->rule->compare));
    pvsz_put_value(out->text, term, finding->limit, pvsz_finding_digits(finding));
    pvsz_put(out->text, " | ");
    if (term->type != PVSIZE_TYPE_CHOICE)
        pvsz_put_margin(out->text, finding);
    pvsz_put(out->text, " | `");
    pvsz_put(out->text, finding->rule->name);
    pvsz_put(out->text, "`: ");
    pvsz_put_source(out->text, finding->rule->source, finding->rule->known);
    pvsz_put(out->text, " |\n");
}

/* Findings of one subject stand together in the report. */
static void put_findings(page *out, int32_t first, int32_t end)
{
    bool header = false;

    for (int32_t i = first; i < end; i++) {
        const pvsz_finding *finding = &out->report->finding[i];

        if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
            continue;
        if (!out->markdown) {
            put_plain_finding(out, finding);
            continue;
        }
        if (!header)
            pvsz_put(
                out->text,
                "\n| verdict | severity | finding | value | limit | margin | rule and source |\n"
                "|---|---|---|---|---|---|---|\n");
        header = true;
        put_markdown_row(out, finding);
    }
}

static bool any_assessed(const pvsize_report *report, int32_t first, int32_t end)
{
    for (int32_t i = first; i < end; i++)
        if (report->finding[i].verdict != PVSIZE_VERDICT_NOT_ASSESSED)
            return true;
    return false;
}

static void put_subject(page *out, const pvsz_subject *subject, int32_t first, int32_t end)
{
    bool answers = put_answers(out, subject, true);

    if (!answers && !any_assessed(out->report, first, end))
        return;
    put_heading(out, subject);
    pvsz_put(out->text, out->markdown && answers ? "\n" : "");
    put_answers(out, subject, false);
    put_findings(out, first, end);
}

static void put_subjects(page *out)
{
    const pvsize_report *report = out->report;
    int32_t next = 0;

    for (int32_t i = 0; i < PVSZ_ORDERED_SCOPES; i++)
        for (int32_t at = 0; at < report->design.count[pvsz_scope_order[i]]; at++) {
            const pvsz_subject *subject = &report->design.subject[pvsz_scope_order[i]][at];
            int32_t first = next;

            while (next < report->findings && report->finding[next].subject == subject)
                next++;
            put_subject(out, subject, first, next);
        }
}

/* what is not known */

static void put_not_assessed(page *out)
{
    bool any = false;

    for (int32_t i = 0; i < out->report->findings; i++) {
        const pvsz_finding *finding = &out->report->finding[i];

        if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED)
            continue;
        if (!any)
            pvsz_put(out->text, out->markdown ? "\n## not assessed\n\n" : "\n== not assessed\n");
        any = true;
        pvsz_put(out->text, out->markdown ? "- " : "   ");
        pvsz_put_subject(out->text, out->report, finding->subject);
        pvsz_put(out->text, ": ");
        pvsz_put_given(out->text, finding->rule->title);
        pvsz_put(out->text, ": ");
        pvsz_put_reason(out->text, finding);
        pvsz_put(out->text, "\n");
    }
}

static void put_working(page *out, int32_t format, int32_t detail)
{
    pvsz_manner manner = pvsz_manner_of(format, detail);

    if (!out->markdown) { /* set in, like all below a heading */
        manner.line = "   ";
        manner.below = "      ";
    }
    pvsz_put(out->text, out->markdown ? "\n## working\n\n" : "\n== working\n");
    pvsz_put_all_working(out->text, out->report, manner);
}

static void put_assumptions(page *out)
{
    for (int32_t i = 0; i < out->report->assumptions; i++) {
        if (i == 0)
            pvsz_put(out->text,
                     out->markdown ? "\n## taken for granted\n\n" : "\n== taken for granted\n");
        pvsz_put(out->text, out->markdown ? "- " : "   ");
        pvsz_put_assumption(out->text, out->report, &out->report->assumption[i]);
        pvsz_put(out->text, "\n");
    }
}

pvsize_status pvsize_report_render(const pvsize_report *report, int32_t format, int32_t detail,
                                   char *buffer, size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    page out = {&text, report, format == PVSIZE_FORMAT_MARKDOWN};
    pvsize_status status;

    if (!report)
        return pvsz_fail_null(diag, "report");
    if (!pvsz_report_live(report))
        return pvsz_fail_handle(diag, "report");
    if (!pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!pvsz_set_has(PVSIZE_SET_DETAIL, detail))
        return pvsz_fail_choice(diag, "detail", PVSIZE_SET_DETAIL, detail);
    if (!report->filled)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = out.markdown;
    put_head(&out);
    put_subjects(&out);
    put_not_assessed(&out);
    put_assumptions(&out);
    if (detail != PVSIZE_DETAIL_FINDINGS)
        put_working(&out, format, detail);
    return pvsz_text_end(&text, length, diag);
}
