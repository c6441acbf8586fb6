/* The bill as an object: its memory, filling and asking it. */
#include "bill.h"

static bool is_live(const pvsize_bill *bill)
{
    return pvsz_is(bill, PVSZ_MARK_BILL);
}

pvsize_status pvsize_bill_new(const pvsize_allocator *memory, pvsize_bill **out, pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_BILL, &made, diag);
    *out = made;
    return status;
}

void pvsize_bill_free(pvsize_bill *bill)
{
    if (!is_live(bill))
        return;
    pvsz_release_body(&bill->head.memory, &bill->body);
    pvsz_unmake(bill);
}

pvsize_status pvsz_check_bill(const pvsize_bill *bill, pvsize_diag *diag)
{
    if (!bill)
        return pvsz_fail_null(diag, "bill");
    return is_live(bill) ? PVSIZE_OK : pvsz_fail_handle(diag, "bill");
}

static pvsize_status fill(pvsize_bill *bill, const pvsize_spec *system, const pvsize_rules *rules,
                          pvsz_bill_body *body, pvsize_diag *diag)
{
    pvsize_status status = pvsize_report_new(&bill->head.memory, &body->report, diag);

    if (!status)
        status = pvsize_check(system, rules, body->report, diag);
    if (!status && !pvsz_take_bill(&bill->head.memory, system, rules, body))
        status = pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    return status;
}

pvsize_status pvsize_bill_fill(const pvsize_spec *system, const pvsize_rules *rules,
                               pvsize_bill *bill, pvsize_diag *diag)
{
    pvsz_bill_body body = {0};
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (status)
        return status;
    if (!system)
        return pvsz_fail_null(diag, "system");
    if (!pvsz_spec_live(system))
        return pvsz_fail_handle(diag, "system");
    if (system->kind != PVSZ_KIND_SYSTEM)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[system->kind].number,
                              "a system");
    status = fill(bill, system, rules, &body, diag);
    if (status) {
        pvsz_release_body(&bill->head.memory, &body);
        return status;
    }
    pvsz_release_body(&bill->head.memory, &bill->body);
    bill->body = body;
    return PVSIZE_OK;
}

/* asking */

pvsize_status pvsize_bill_outcome(const pvsize_bill *bill, int32_t *outcome, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (status)
        return status;
    if (!bill->body.report)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    return pvsize_report_outcome(bill->body.report, outcome, diag);
}

/* A count for the caller. */
static pvsize_status give_count(int32_t *count, size_t found, pvsize_diag *diag)
{
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = (int32_t)found;
    return PVSIZE_OK;
}

/* A place within a list; `argument` names it. */
static pvsize_status check_place(const char *argument, int32_t place, size_t count,
                                 pvsize_diag *diag)
{
    if (place >= 0 && (size_t)place < count)
        return PVSIZE_OK;
    pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, place, (int32_t)count);
    pvsz_fail_argument(diag, argument);
    return PVSIZE_E_BAD_INDEX;
}

pvsize_status pvsize_bill_count(const pvsize_bill *bill, int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    return status ? status : give_count(count, bill->body.rows, diag);
}

pvsize_status pvsz_find_row(const pvsize_bill *bill, int32_t i, const pvsz_bill_row **row,
                            pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (!status)
        status = check_place("i", i, bill->body.rows, diag);
    if (!status)
        *row = &bill->body.row[i];
    return status;
}

int32_t pvsz_severity_of(const pvsize_report *report, int32_t rule)
{
    for (int32_t i = 0; i < report->rules; i++)
        if (report->rule[i].number == rule)
            return report->rule[i].severity;
    return PVSIZE_SEVERITY_OFF;
}

pvsize_status pvsize_bill_row(const pvsize_bill *bill, int32_t i, int32_t *item, int32_t *measure,
                              int32_t *type, int32_t *missing, pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    if (status)
        return status;
    if (item)
        *item = row->item;
    if (measure)
        *measure = pvsz_measure_of(row->item);
    if (type)
        *type = row->type;
    if (missing)
        *missing = pvsz_row_missing(row);
    return PVSIZE_OK;
}

pvsize_status pvsize_bill_quantity(const pvsize_bill *bill, int32_t i, double *installed,
                                   double *quantity, int32_t *allowance, pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    if (status)
        return status;
    if (installed && row->installed.missing)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, row->installed.missing);
    if (quantity && row->quantity.missing)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, row->quantity.missing);
    if (installed)
        *installed = row->installed.value;
    if (quantity)
        *quantity = row->quantity.value;
    if (allowance)
        *allowance = row->allowance;
    return PVSIZE_OK;
}

pvsize_status pvsize_bill_attribute_count(const pvsize_bill *bill, int32_t i, int32_t *count,
                                          pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    return status ? status : give_count(count, (size_t)row->attributes, diag);
}

pvsize_status pvsize_bill_attribute(const pvsize_bill *bill, int32_t i, int32_t k, int32_t *term,
                                    double *value, int32_t *missing, pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    if (!status)
        status = check_place("k", k, (size_t)row->attributes, diag);
    if (status)
        return status;
    if (term)
        *term = row->attribute[k].term;
    if (value)
        *value = row->attribute[k].is.value;
    if (missing)
        *missing = row->attribute[k].is.missing;
    return PVSIZE_OK;
}

pvsize_status pvsize_bill_share_count(const pvsize_bill *bill, int32_t i, int32_t *count,
                                      pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    return status ? status : give_count(count, row->shares, diag);
}

pvsize_status pvsize_bill_share(const pvsize_bill *bill, int32_t i, int32_t k, int32_t *subject,
                                double *installed, int32_t *why, pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    const pvsz_share *share;
    pvsize_status status = pvsz_find_row(bill, i, &row, diag);

    if (!status)
        status = check_place("k", k, row->shares, diag);
    if (status)
        return status;
    share = &bill->body.share[row->first_share + (size_t)k];
    if (subject)
        *subject = share->subject;
    if (installed)
        *installed = share->installed;
    if (why)
        *why = share->why;
    return PVSIZE_OK;
}

pvsize_status pvsize_bill_assumption_count(const pvsize_bill *bill, int32_t *count,
                                           pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    return status ? status : give_count(count, bill->body.takens, diag);
}

pvsize_status pvsz_find_taken(const pvsize_bill *bill, int32_t i, const pvsz_taken **taken,
                              pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (!status)
        status = check_place("i", i, bill->body.takens, diag);
    if (!status)
        *taken = &bill->body.taken[i];
    return status;
}

pvsize_status pvsize_bill_assumption(const pvsize_bill *bill, int32_t i, int32_t *term,
                                     double *value, int32_t *subject, pvsize_diag *diag)
{
    const pvsz_taken *taken = NULL;
    pvsize_status status = pvsz_find_taken(bill, i, &taken, diag);

    if (status)
        return status;
    if (term)
        *term = taken->term;
    if (value)
        *value = taken->value;
    if (subject)
        *subject = taken->subject;
    return PVSIZE_OK;
}
