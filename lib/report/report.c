/* Asking a report for its findings and assumptions. */
#include "words.h"

static pvsize_status find_finding(const pvsize_report *report, int32_t i,
                                  const pvsz_finding **finding, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    if (i < 0 || i >= report->findings)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, report->findings);
    *finding = &report->finding[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_report_count(const pvsize_report *report, int32_t verdict, int32_t severity,
                                  int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);
    int32_t found = 0;

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    if (verdict != 0 && !pvsz_set_has(PVSIZE_SET_VERDICT, verdict))
        return pvsz_fail_choice(diag, "verdict", PVSIZE_SET_VERDICT, verdict);
    if (severity != 0 && !pvsz_set_has(PVSIZE_SET_SEVERITY, severity))
        return pvsz_fail_choice(diag, "severity", PVSIZE_SET_SEVERITY, severity);
    for (int32_t i = 0; i < report->findings; i++)
        found += (verdict == 0 || report->finding[i].verdict == verdict) &&
                 report->finding[i].rule->severity >= severity;
    *count = found;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_outcome(const pvsize_report *report, int32_t *outcome,
                                    pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    if (!outcome)
        return pvsz_fail_null(diag, "outcome");
    *outcome = pvsz_outcome(report);
    return PVSIZE_OK;
}

pvsize_status pvsize_report_finding(const pvsize_report *report, int32_t i, int32_t *rule,
                                    int32_t *severity, int32_t *verdict, int32_t *subject,
                                    pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (status)
        return status;
    if (rule)
        *rule = finding->rule->number;
    if (severity)
        *severity = finding->rule->severity;
    if (verdict)
        *verdict = finding->verdict;
    if (subject)
        *subject = pvsz_subject_number(report, finding->subject);
    return PVSIZE_OK;
}

pvsize_status pvsize_report_numbers(const pvsize_report *report, int32_t i, double *value,
                                    double *limit, double *margin, pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (status)
        return status;
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, finding->missing);
    if (value)
        *value = finding->value;
    if (limit)
        *limit = finding->limit;
    if (margin)
        *margin = finding->margin;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_governs(const pvsize_report *report, int32_t i, int32_t *governs,
                                    pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (status)
        return status;
    if (!governs)
        return pvsz_fail_null(diag, "governs");
    *governs = finding->governs;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_missing(const pvsize_report *report, int32_t i, int32_t *term,
                                    pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (status)
        return status;
    if (!term)
        return pvsz_fail_null(diag, "term");
    *term = finding->missing;
    return PVSIZE_OK;
}

/* The four ways of working. */
static void put_working(pvsz_text *text, const pvsize_report *report, const pvsz_finding *finding,
                        int32_t what)
{
    bool at_length = what == PVSIZE_TEXT_WORKING_LONG || what == PVSIZE_TEXT_WORKING_LONG_MARKDOWN;

    text->markdown =
        what == PVSIZE_TEXT_WORKING_MARKDOWN || what == PVSIZE_TEXT_WORKING_LONG_MARKDOWN;
    pvsz_put_finding_working(
        text, report, finding,
        pvsz_manner_of(text->markdown ? PVSIZE_FORMAT_MARKDOWN : PVSIZE_FORMAT_PLAIN,
                       at_length ? PVSIZE_DETAIL_LONG : PVSIZE_DETAIL_SHORT));
}

/* Which text of a finding. */
typedef struct wanted {
    const pvsize_report *report;
    int32_t what;
} wanted;

static void put_text(pvsz_text *text, const void *object, int32_t i)
{
    const wanted *want = object;
    const pvsize_report *report = want->report;
    const pvsz_finding *finding = &report->finding[i];

    switch (want->what) {
    case PVSIZE_TEXT_SENTENCE:
        pvsz_put_sentence(text, report, finding);
        break;
    case PVSIZE_TEXT_NAME:
        pvsz_put(text, finding->rule->name);
        break;
    case PVSIZE_TEXT_TITLE:
        pvsz_put(text, finding->rule->title);
        break;
    case PVSIZE_TEXT_SUBJECT:
        pvsz_put_subject(text, report, finding->subject);
        break;
    case PVSIZE_TEXT_UNIT:
        pvsz_put(text, pvsz_finding_term(finding)->unit);
        break;
    case PVSIZE_TEXT_SOURCE:
        pvsz_put_source(text, finding->rule->source, finding->rule->known);
        break;
    case PVSIZE_TEXT_CONSEQUENCE:
        pvsz_put(text, finding->rule->breach);
        break;
    case PVSIZE_TEXT_REASON:
        pvsz_put_reason(text, finding);
        break;
    default:
        put_working(text, report, finding, want->what);
    }
}

pvsize_status pvsize_report_text(const pvsize_report *report, int32_t i, int32_t what, char *buffer,
                                 size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    wanted want = {report, what};
    pvsize_status found = find_finding(report, i, &finding, diag);

    if (!found && !pvsz_set_has(PVSIZE_SET_TEXT, what))
        found = pvsz_fail_choice(diag, "what", PVSIZE_SET_TEXT, what);
    return pvsz_row_text(found, put_text, &want, i, buffer, capacity, length, diag);
}

/* assumptions */

pvsize_status pvsize_report_assumption_count(const pvsize_report *report, int32_t *count,
                                             pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = report->assumptions;
    return PVSIZE_OK;
}

static pvsize_status find_assumption(const pvsize_report *report, int32_t i,
                                     const pvsz_assumption **assumption, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    if (i < 0 || i >= report->assumptions)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, report->assumptions);
    *assumption = &report->assumption[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_report_assumption(const pvsize_report *report, int32_t i, int32_t *term,
                                       double *value, pvsize_diag *diag)
{
    const pvsz_assumption *assumption = NULL;
    pvsize_status status = find_assumption(report, i, &assumption, diag);

    if (status)
        return status;
    if (term)
        *term = assumption->term;
    if (value)
        *value = assumption->value;
    return PVSIZE_OK;
}

static void put_assumption(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_report *report = object;

    pvsz_put_assumption(text, report, &report->assumption[i]);
}

pvsize_status pvsize_report_assumption_text(const pvsize_report *report, int32_t i, char *buffer,
                                            size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_assumption *assumption = NULL;
    pvsize_status found = find_assumption(report, i, &assumption, diag);

    return pvsz_row_text(found, put_assumption, report, i, buffer, capacity, length, diag);
}
