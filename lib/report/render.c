/* The whole report, subject by subject, from the whole to the parts. Both
 * formats say the same things in the same order. */
#include <string.h>

#include "words.h"

typedef struct page {
    pv_text *text;
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
    pv_put(out->text, before);
    pv_put_int(out->text, number);
    pv_put(out->text, what);
}

static void put_summary(page *out)
{
    const pvsize_report *report = out->report;
    int32_t must = count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_MUST);

    pv_put(out->text, out->markdown ? "**Result:** " : "Result: ");
    if (must == 0)
        pv_put(out->text, "no limit that must hold is broken");
    else
        put_count(out, "", must,
                  must == 1 ? " limit that must hold is broken"
                            : " limits that must hold are broken");
    put_count(out, "; ", count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_SHOULD),
              " of good practice; ");
    put_count(out, "", count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_NOTE), " to note; ");
    put_count(out, "", count(report, PVSIZE_VERDICT_MARGINAL, 0), " marginal, ");
    put_count(out, "", count(report, PVSIZE_VERDICT_MEETS, 0), " met, ");
    put_count(out, "", count(report, PVSIZE_VERDICT_NOT_ASSESSED, 0), " not assessed\n");
}

/* The caution in lines that fit a page. */
static void put_caution(page *out)
{
    const char *s = pvsize_caution();
    size_t column = 0;

    pv_put(out->text, out->markdown ? "> " : "");
    while (*s) {
        size_t word = strcspn(s, " ");

        if (!out->markdown && column > 0 && column + 1 + word > 78) {
            pv_put(out->text, "\n");
            column = 0;
        } else if (column > 0) {
            pv_put(out->text, " ");
            column++;
        }
        pv_put_bytes(out->text, s, word);
        column += word;
        s += word + (s[word] == ' ');
    }
    pv_put(out->text, "\n");
}

static void put_head(page *out)
{
    const pv_design *design = &out->report->design;
    const char *name =
        design->count[PV_KIND_SYSTEM] ? design->subject[PV_KIND_SYSTEM][0].name : "";

    pv_put(out->text, out->markdown ? "# PV sizing" : "PV sizing");
    if (name[0]) {
        pv_put(out->text, ": ");
        pv_put_given(out->text, name);
    }
    pv_put(out->text, out->markdown ? "\n\n**Rule set:** " : "\nRule set: ");
    pv_put_given(out->text, out->report->title);
    pv_put(out->text, "\n\n");
    put_caution(out);
    pv_put(out->text, "\n");
    put_summary(out);
}

/* one subject: what it comes to, then its findings */

static void put_heading(page *out, const pv_subject *subject)
{
    pv_put(out->text, out->markdown ? "\n## " : "\n== ");
    pv_put_subject(out->text, out->report, subject);
    pv_put(out->text, "\n");
}

static void put_answer(page *out, const pv_entry *entry)
{
    const pv_term *term = &pv_kinds[PV_KIND_QUANTITY].rows[entry->quantity];
    const char *remark = strchr(entry->formula, ';');

    pv_put(out->text, out->markdown ? "- " : "   ");
    pv_put(out->text, term->text);
    pv_put(out->text, ": ");
    pv_put_value(out->text, term, entry->value, PV_FINDING_DIGITS);
    if (remark && !strchr(remark, '{')) {
        pv_put(out->text, " (");
        pv_put(out->text, remark + 2);
        pv_put(out->text, ")");
    }
    pv_put(out->text, "\n");
}

/* Quantities that every report states; false if there are none. */
static bool put_answers(page *out, const pv_subject *subject, bool only_look)
{
    const pv_term *rows = pv_kinds[PV_KIND_QUANTITY].rows;
    bool any = false;

    for (int32_t i = 0; i < PV_QUANTITIES; i++) {
        int32_t entry;

        if (!rows[i].head || rows[i].scope != subject->scope)
            continue;
        entry = pv_report_entry(out->report, i, subject);
        if (entry < 0 || out->report->entry[entry].state != PV_VALUE)
            continue;
        any = true;
        if (!only_look)
            put_answer(out, &out->report->entry[entry]);
    }
    return any;
}

static void put_plain_finding(page *out, const pv_finding *finding)
{
    const char *verdict = pv_verdict_word(finding);
    const char *severity = pvsize_set_name(PVSIZE_SET_SEVERITY, finding->rule->severity);

    pv_put(out->text, finding->verdict == PVSIZE_VERDICT_EXCEEDS ? " > " : "   ");
    pv_put(out->text, verdict);
    pv_put_repeat(out->text, ' ', 13 - (int32_t)strlen(verdict));
    pv_put(out->text, severity);
    pv_put_repeat(out->text, ' ', 8 - (int32_t)strlen(severity));
    pv_put_given(out->text, finding->rule->title);
    pv_put(out->text, "\n                ");
    pv_put_comparison(out->text, finding);
    if (pv_finding_term(finding)->type != PVSIZE_TYPE_CHOICE) {
        pv_put(out->text, "; margin ");
        pv_put_margin(out->text, finding);
    }
    pv_put(out->text, finding->governs ? "; governs" : "");
    if (finding->verdict == PVSIZE_VERDICT_EXCEEDS) {
        pv_put(out->text, "\n                ");
        pv_put(out->text, finding->rule->breach);
    }
    pv_put(out->text, "\n                ");
    pv_put(out->text, finding->rule->name);
    pv_put(out->text, ": ");
    pv_put_source(out->text, finding->rule->source, finding->rule->known);
    pv_put(out->text, "\n");
}

static void put_markdown_row(page *out, const pv_finding *finding)
{
    const pv_term *term = pv_finding_term(finding);
    bool breach = finding->verdict == PVSIZE_VERDICT_EXCEEDS;

    pv_put(out->text, breach ? "| **" : "| ");
    pv_put(out->text, pv_verdict_word(finding));
    pv_put(out->text, breach ? "** | " : " | ");
    pv_put(out->text, pvsize_set_name(PVSIZE_SET_SEVERITY, finding->rule->severity));
    pv_put(out->text, " | ");
    pv_put_given(out->text, finding->rule->title);
    if (breach) {
        pv_put(out->text, ": ");
        pv_put(out->text, finding->rule->breach);
    }
    pv_put(out->text, finding->governs ? " (governs) | " : " | ");
    pv_put_value(out->text, term, finding->value.value, PV_FINDING_DIGITS);
    pv_put(out->text, finding->rule->compare == PVSIZE_COMPARE_AT_MOST ? " | at most "
                                                                       : " | at least ");
    pv_put_value(out->text, term, finding->limit.value, PV_FINDING_DIGITS);
    pv_put(out->text, " | ");
    if (term->type != PVSIZE_TYPE_CHOICE)
        pv_put_margin(out->text, finding);
    pv_put(out->text, " | `");
    pv_put(out->text, finding->rule->name);
    pv_put(out->text, "`: ");
    pv_put_source(out->text, finding->rule->source, finding->rule->known);
    pv_put(out->text, " |\n");
}

/* Findings of one subject stand together in the report. */
static void put_findings(page *out, int32_t first, int32_t end)
{
    bool header = false;

    for (int32_t i = first; i < end; i++) {
        const pv_finding *finding = &out->report->finding[i];

        if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
            continue;
        if (!out->markdown) {
            put_plain_finding(out, finding);
            continue;
        }
        if (!header)
            pv_put(out->text, "\n| verdict | severity | finding | value | limit | margin | rule and source |\n"
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

static void put_subject(page *out, const pv_subject *subject, int32_t first, int32_t end)
{
    bool answers = put_answers(out, subject, true);

    if (!answers && !any_assessed(out->report, first, end))
        return;
    put_heading(out, subject);
    pv_put(out->text, out->markdown && answers ? "\n" : "");
    put_answers(out, subject, false);
    put_findings(out, first, end);
}

static void put_subjects(page *out)
{
    const pvsize_report *report = out->report;
    int32_t next = 0;

    for (int32_t i = 0; i < PV_ORDERED_SCOPES; i++)
        for (int32_t at = 0; at < report->design.count[pv_scope_order[i]]; at++) {
            const pv_subject *subject = &report->design.subject[pv_scope_order[i]][at];
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
        const pv_finding *finding = &out->report->finding[i];

        if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED)
            continue;
        if (!any)
            pv_put(out->text, out->markdown ? "\n## not assessed\n\n" : "\n== not assessed\n");
        any = true;
        pv_put(out->text, out->markdown ? "- " : "   ");
        pv_put_subject(out->text, out->report, finding->subject);
        pv_put(out->text, ": ");
        pv_put_given(out->text, finding->rule->title);
        pv_put(out->text, ": ");
        pv_put_reason(out->text, finding);
        pv_put(out->text, "\n");
    }
}

static void put_working(page *out)
{
    pv_put(out->text, out->markdown ? "\n## working\n\n" : "\n== working\n");
    pv_put_all_working(out->text, out->report, out->markdown ? "- " : "   ");
}

static void put_assumptions(page *out)
{
    for (int32_t i = 0; i < out->report->assumptions; i++) {
        if (i == 0)
            pv_put(out->text,
                   out->markdown ? "\n## taken for granted\n\n" : "\n== taken for granted\n");
        pv_put(out->text, out->markdown ? "- " : "   ");
        pv_put_assumption(out->text, out->report, &out->report->assumption[i]);
        pv_put(out->text, "\n");
    }
}

pvsize_status pvsize_report_render(const pvsize_report *report, int32_t format, int32_t detail,
                                   char *buffer, size_t capacity, size_t *length,
                                   pvsize_diag *diag)
{
    pv_text text;
    page out = {&text, report, format == PVSIZE_FORMAT_MARKDOWN};
    pvsize_status status;

    if (!report)
        return pv_fail_null(diag, "report");
    if (!pv_report_live(report))
        return pv_fail_handle(diag, "report");
    if (!pv_set_has(PVSIZE_SET_FORMAT, format))
        return pv_fail_value(diag, PVSIZE_E_BAD_CHOICE, 0, format);
    if (detail != 0 && detail != 1)
        return pv_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, detail, 0, 1);
    if (!report->filled)
        return pv_fail(diag, PVSIZE_E_NOT_SET);
    status = pv_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = out.markdown;
    put_head(&out);
    put_subjects(&out);
    put_not_assessed(&out);
    put_assumptions(&out);
    if (detail)
        put_working(&out);
    return pv_text_end(&text, length, diag);
}
