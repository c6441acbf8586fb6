/* Asking a report for its findings, quantities and assumptions. */
#include "words.h"

static pvsize_status check_report(const pvsize_report *report, pvsize_diag *diag)
{
    if (!report)
        return pvsz_fail_null(diag, "report");
    return pvsz_report_live(report) ? PVSIZE_OK : pvsz_fail_handle(diag, "report");
}

static pvsize_status find_finding(const pvsize_report *report, int32_t i,
                                  const pvsz_finding **finding, pvsize_diag *diag)
{
    pvsize_status status = check_report(report, diag);

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
    pvsize_status status = check_report(report, diag);
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
    pvsize_status status = check_report(report, diag);

    if (status)
        return status;
    if (!outcome)
        return pvsz_fail_null(diag, "outcome");
    *outcome = pvsz_outcome(report);
    return PVSIZE_OK;
}

pvsize_status pvsize_report_finding(const pvsize_report *report, int32_t i, int32_t *rule,
                                    int32_t *severity, int32_t *verdict, pvsize_diag *diag)
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

/* Index of what the subject hangs on, among its owner's parts; -1: nothing. */
static int32_t index_above(const pvsize_report *report, const pvsz_subject *subject, int32_t scope)
{
    int32_t at = subject->at[scope];

    return at < 0 || at >= report->design.count[scope] ? -1
                                                       : report->design.subject[scope][at].index;
}

pvsize_status pvsize_report_subject(const pvsize_report *report, int32_t i, int32_t *kind,
                                    int32_t *inverter, int32_t *input, int32_t *array,
                                    int32_t *plane, pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (status)
        return status;
    if (kind)
        *kind = pvsz_kinds[finding->subject->scope].number;
    if (inverter)
        *inverter = index_above(report, finding->subject, PVSZ_KIND_INVERTER);
    if (input)
        *input = index_above(report, finding->subject, PVSZ_KIND_INPUT);
    if (array)
        *array = finding->subject->scope == PVSZ_KIND_MODULE
                     ? finding->subject->first_below
                     : index_above(report, finding->subject, PVSZ_KIND_ARRAY);
    if (plane)
        *plane = index_above(report, finding->subject, PVSZ_KIND_PLANE);
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

static void put_text(pvsz_text *text, const pvsize_report *report, const pvsz_finding *finding,
                     int32_t what)
{
    switch (what) {
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
    case PVSIZE_TEXT_WORKING:
        pvsz_put_finding_working(text, report, finding, "");
        break;
    default:
        text->markdown = true;
        pvsz_put_finding_working(text, report, finding, "- ");
    }
}

pvsize_status pvsize_report_text(const pvsize_report *report, int32_t i, int32_t what, char *buffer,
                                 size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_finding *finding = NULL;
    pvsz_text text;
    pvsize_status status = find_finding(report, i, &finding, diag);

    if (!status && !pvsz_set_has(PVSIZE_SET_TEXT, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_TEXT, what);
    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    put_text(&text, report, finding, what);
    return pvsz_text_end(&text, length, diag);
}

/* quantities */

static pvsize_status bad_place(pvsize_diag *diag, int32_t kind, int32_t index, int32_t count)
{
    return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, pvsz_kinds[kind].number, index, count);
}

/* The subject of a kind that the indices lead to. */
static pvsize_status find_subject(const pvsize_report *report, int32_t scope, const int32_t *index,
                                  const pvsz_subject **subject, pvsize_diag *diag)
{
    const pvsz_design *design = &report->design;
    int32_t at = index[scope];

    if (scope == PVSZ_KIND_SYSTEM || scope == PVSZ_KIND_SITE)
        at = 0;
    if (scope == PVSZ_KIND_MODULE && design->count[PVSZ_KIND_ARRAY] > 0) {
        /* the module of an array */
        at = index[PVSZ_KIND_ARRAY];
        if (at < 0 || at >= design->count[PVSZ_KIND_ARRAY])
            return bad_place(diag, PVSZ_KIND_ARRAY, at, design->count[PVSZ_KIND_ARRAY]);
        at = design->subject[PVSZ_KIND_ARRAY][at].at[PVSZ_KIND_MODULE];
    } else if (scope == PVSZ_KIND_MODULE) {
        at = 0;
    }
    if (scope == PVSZ_KIND_INPUT && design->count[PVSZ_KIND_INVERTER] > 0) {
        int32_t inverter = index[PVSZ_KIND_INVERTER], inputs = 0;

        if (inverter < 0 || inverter >= design->count[PVSZ_KIND_INVERTER])
            return bad_place(diag, PVSZ_KIND_INVERTER, inverter, design->count[PVSZ_KIND_INVERTER]);
        for (int32_t i = 0; i < design->count[PVSZ_KIND_INPUT]; i++)
            inputs += design->subject[PVSZ_KIND_INPUT][i].at[PVSZ_KIND_INVERTER] == inverter;
        if (at < 0 || at >= inputs)
            return bad_place(diag, PVSZ_KIND_INPUT, at, inputs);
        at += design->subject[PVSZ_KIND_INVERTER][inverter].first_below;
    }
    if (at < 0 || at >= design->count[scope])
        return bad_place(diag, scope, at, design->count[scope]);
    *subject = &design->subject[scope][at];
    return PVSIZE_OK;
}

static pvsize_status find_entry(const pvsize_report *report, int32_t quantity, const int32_t *index,
                                int32_t *entry, pvsize_diag *diag)
{
    pvsize_status status = check_report(report, diag);
    const pvsz_term *row = pvsz_term_find(quantity);
    const pvsz_subject *subject = NULL;

    if (status)
        return status;
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, quantity);
    if (row->kind != PVSZ_KIND_QUANTITY)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, quantity, "quantity");
    if (!report->filled)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, quantity);
    status = find_subject(report, row->scope, index, &subject, diag);
    if (status)
        return status;
    *entry = pvsz_report_entry(report, pvsz_term_place(row), subject);
    if (*entry < 0 || report->entry[*entry].state != PVSZ_VALUE)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET,
                              *entry >= 0 && report->entry[*entry].missing
                                  ? report->entry[*entry].missing
                                  : quantity);
    return PVSIZE_OK;
}

#define INDICES(inverter_, input_, array_, plane_)                                                \
    {                                                                                             \
        [PVSZ_KIND_INVERTER] = inverter_, [PVSZ_KIND_INPUT] = input_, [PVSZ_KIND_ARRAY] = array_, \
        [PVSZ_KIND_PLANE] = plane_,                                                               \
    }

pvsize_status pvsize_report_quantity(const pvsize_report *report, int32_t quantity,
                                     int32_t inverter, int32_t input, int32_t array, int32_t plane,
                                     double *value, pvsize_diag *diag)
{
    const int32_t index[PVSZ_SCOPES] = INDICES(inverter, input, array, plane);
    int32_t entry;
    pvsize_status status = find_entry(report, quantity, index, &entry, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    *value = report->entry[entry].value;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_working(const pvsize_report *report, int32_t quantity, int32_t inverter,
                                    int32_t input, int32_t array, int32_t plane, int32_t format,
                                    char *buffer, size_t capacity, size_t *length,
                                    pvsize_diag *diag)
{
    const int32_t index[PVSZ_SCOPES] = INDICES(inverter, input, array, plane);
    pvsz_text text;
    int32_t entry;
    pvsize_status status = find_entry(report, quantity, index, &entry, diag);

    if (!status && !pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    pvsz_put_working(&text, report, entry, text.markdown ? "- " : "");
    return pvsz_text_end(&text, length, diag);
}

/* assumptions */

pvsize_status pvsize_report_assumption_count(const pvsize_report *report, int32_t *count,
                                             pvsize_diag *diag)
{
    pvsize_status status = check_report(report, diag);

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
    pvsize_status status = check_report(report, diag);

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

pvsize_status pvsize_report_assumption_text(const pvsize_report *report, int32_t i, char *buffer,
                                            size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_assumption *assumption = NULL;
    pvsz_text text;
    pvsize_status status = find_assumption(report, i, &assumption, diag);

    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    pvsz_put_assumption(&text, report, assumption);
    return pvsz_text_end(&text, length, diag);
}
