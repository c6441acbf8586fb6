/* Asking a report for its subjects, and for their quantities. */
#include "words.h"

pvsize_status pvsz_check_report(const pvsize_report *report, pvsize_diag *diag)
{
    if (!report)
        return pvsz_fail_null(diag, "report");
    return pvsz_report_live(report) ? PVSIZE_OK : pvsz_fail_handle(diag, "report");
}

/* Number of the first subject of a kind: kinds follow in the order of findings. */
static int32_t first_of(const pvsize_report *report, int32_t scope)
{
    int32_t first = 0;

    for (int32_t i = 0; pvsz_scope_order[i] != scope; i++)
        first += report->design.count[pvsz_scope_order[i]];
    return first;
}

int32_t pvsz_subject_number(const pvsize_report *report, const pvsz_subject *subject)
{
    return first_of(report, subject->scope) + subject->at[subject->scope];
}

const pvsz_subject *pvsz_subject_numbered(const pvsize_report *report, int32_t number)
{
    for (int32_t i = 0; number >= 0 && i < PVSZ_ORDERED_SCOPES; i++) {
        int32_t scope = pvsz_scope_order[i];

        if (number < report->design.count[scope])
            return &report->design.subject[scope][number];
        number -= report->design.count[scope];
    }
    return NULL;
}

static int32_t subject_count(const pvsize_report *report)
{
    return first_of(report, PVSZ_KIND_MODULE) + report->design.count[PVSZ_KIND_MODULE];
}

pvsize_status pvsz_find_subject(const pvsize_report *report, int32_t number,
                                const pvsz_subject **subject, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    *subject = pvsz_subject_numbered(report, number);
    if (*subject)
        return PVSIZE_OK;
    pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, number, subject_count(report));
    pvsz_fail_argument(diag, "subject");
    return PVSIZE_E_BAD_INDEX;
}

pvsize_status pvsize_report_subject_count(const pvsize_report *report, int32_t *count,
                                          pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = subject_count(report);
    return PVSIZE_OK;
}

/* Number of the subject that another is a part of, or hangs on; -1: none. */
static int32_t owner_of(const pvsize_report *report, const pvsz_subject *subject)
{
    static const int32_t owners[PVSZ_SCOPES] = {
        [PVSZ_KIND_INPUT] = PVSZ_KIND_INVERTER, [PVSZ_KIND_INVERTER] = PVSZ_KIND_SYSTEM,
        [PVSZ_KIND_SITE] = PVSZ_KIND_SYSTEM,    [PVSZ_KIND_PLANE] = PVSZ_KIND_SITE,
        [PVSZ_KIND_ARRAY] = PVSZ_KIND_INPUT,    [PVSZ_KIND_CABLE] = PVSZ_KIND_ARRAY,
        [PVSZ_KIND_READING] = PVSZ_KIND_ARRAY,  [PVSZ_KIND_ISOLATOR] = PVSZ_KIND_ARRAY,
    };
    int32_t owner = owners[subject->scope], at = subject->at[owner];

    if (subject->scope == PVSZ_KIND_SYSTEM)
        return -1;
    if (subject->scope == PVSZ_KIND_MODULE) {
        owner = PVSZ_KIND_ARRAY;
        at = subject->first_below;
    }
    if (subject->scope == PVSZ_KIND_CABLE && at < 0) { /* of an a.c. circuit */
        owner = PVSZ_KIND_INVERTER;
        at = subject->at[owner];
    }
    if (subject->scope == PVSZ_KIND_ISOLATOR && at < 0) { /* of a whole input */
        owner = PVSZ_KIND_INPUT;
        at = subject->at[owner];
    }
    return at < 0 ? -1 : first_of(report, owner) + at;
}

pvsize_status pvsize_report_subject(const pvsize_report *report, int32_t subject, int32_t *kind,
                                    int32_t *index, int32_t *owner, pvsize_diag *diag)
{
    const pvsz_subject *found = NULL;
    pvsize_status status = pvsz_find_subject(report, subject, &found, diag);

    if (status)
        return status;
    if (kind)
        *kind = pvsz_kinds[found->scope].number;
    if (index)
        *index = found->index;
    if (owner)
        *owner = owner_of(report, found);
    return PVSIZE_OK;
}

/* Inputs count within their inverter: shifts the index to one among all. */
static pvsize_status find_input(const pvsize_report *report, int32_t *index, int32_t owner,
                                pvsize_diag *diag)
{
    const pvsz_subject *inverter = NULL;
    pvsize_status status = pvsz_find_subject(report, owner, &inverter, diag);

    if (status)
        return status;
    if (inverter->scope != PVSZ_KIND_INVERTER)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[inverter->scope].number,
                              "inverter");
    if (*index < 0 || *index >= inverter->below)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, PVSIZE_KIND_INPUT, *index,
                               inverter->below);
    *index += inverter->first_below;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_find(const pvsize_report *report, int32_t kind, int32_t index,
                                 int32_t owner, int32_t *subject, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_report(report, diag);
    const pvsz_kind *row = pvsz_kind_find(kind);
    int32_t scope, at = index;

    if (status)
        return status;
    if (!subject)
        return pvsz_fail_null(diag, "subject");
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    scope = (int32_t)(row - pvsz_kinds);
    if (!pvsz_is_subject(scope))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, kind, "kind of subject");
    if (scope == PVSZ_KIND_INPUT && report->design.count[PVSZ_KIND_INVERTER] > 0) {
        status = find_input(report, &at, owner, diag);
        if (status)
            return status;
    }
    if (at < 0 || at >= report->design.count[scope])
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, kind, index, report->design.count[scope]);
    *subject = first_of(report, scope) + at;
    return PVSIZE_OK;
}

void pvsz_put_subject_row(pvsz_text *text, const void *object, int32_t i)
{
    pvsz_put_subject(text, object, pvsz_subject_numbered(object, i));
}

pvsize_status pvsize_report_subject_text(const pvsize_report *report, int32_t subject, char *buffer,
                                         size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_subject *row = NULL;
    pvsize_status found = pvsz_find_subject(report, subject, &row, diag);

    return pvsz_row_text(found, pvsz_put_subject_row, report, subject, buffer, capacity, length,
                         diag);
}

/* quantities */

static pvsize_status find_entry(const pvsize_report *report, int32_t quantity, int32_t subject,
                                int32_t *entry, pvsize_diag *diag)
{
    const pvsz_subject *found = NULL;
    const pvsz_term *row = pvsz_term_find(quantity);
    pvsize_status status = pvsz_find_subject(report, subject, &found, diag);

    if (status)
        return status;
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, quantity);
    if (row->kind != PVSZ_KIND_QUANTITY)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, quantity, "quantity");
    *entry = pvsz_report_entry(report, pvsz_term_place(row), found);
    if (*entry < 0 || report->entry[*entry].state != PVSZ_VALUE)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET,
                              *entry >= 0 && report->entry[*entry].missing
                                  ? report->entry[*entry].missing
                                  : quantity);
    return PVSIZE_OK;
}

pvsize_status pvsize_report_quantity(const pvsize_report *report, int32_t quantity, int32_t subject,
                                     double *value, pvsize_diag *diag)
{
    int32_t entry;
    pvsize_status status = find_entry(report, quantity, subject, &entry, diag);

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    *value = report->entry[entry].value;
    return PVSIZE_OK;
}

pvsize_status pvsize_report_working(const pvsize_report *report, int32_t quantity, int32_t subject,
                                    int32_t format, int32_t detail, char *buffer, size_t capacity,
                                    size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    int32_t entry;
    pvsize_status status = find_entry(report, quantity, subject, &entry, diag);

    if (!status && !pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!status && (!pvsz_set_has(PVSIZE_SET_DETAIL, detail) || detail == PVSIZE_DETAIL_FINDINGS))
        return pvsz_fail_choice(diag, "detail", PVSIZE_SET_DETAIL, detail);
    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    pvsz_put_working(&text, report, entry, pvsz_manner_of(format, detail));
    return pvsz_text_end(&text, length, diag);
}
