/* The judgement as an object: its memory, and asking it. */
#include "judgement.h"

pvsize_status pvsize_judgement_new(const pvsize_allocator *memory, pvsize_judgement **out,
                                   pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_JUDGEMENT, &made, diag);
    *out = made;
    return status;
}

void pvsize_judgement_free(pvsize_judgement *judgement)
{
    if (!pvsz_is(judgement, PVSZ_MARK_JUDGEMENT))
        return;
    pvsz_release(&judgement->head.memory, judgement->row);
    pvsz_release(&judgement->head.memory, judgement->text);
    pvsz_unmake(judgement);
}

pvsize_status pvsz_check_judgement(const pvsize_judgement *judgement, pvsize_diag *diag)
{
    if (!judgement)
        return pvsz_fail_null(diag, "judgement");
    return pvsz_is(judgement, PVSZ_MARK_JUDGEMENT) ? PVSIZE_OK
                                                   : pvsz_fail_handle(diag, "judgement");
}

pvsize_status pvsize_judgement_count(const pvsize_judgement *judgement, int32_t judged,
                                     int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_judgement(judgement, diag);

    if (status)
        return status;
    if (judged && !pvsz_set_has(PVSIZE_SET_JUDGED, judged))
        return pvsz_fail_choice(diag, "judged", PVSIZE_SET_JUDGED, judged);
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = 0;
    for (int32_t i = 0; i < judgement->rows; i++)
        *count += !judged || judgement->row[i].judged == judged;
    return PVSIZE_OK;
}

static pvsize_status find_row(const pvsize_judgement *judgement, int32_t i, const pvsz_judged **row,
                              pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_judgement(judgement, diag);

    if (status)
        return status;
    if (i < 0 || i >= judgement->rows)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, judgement->rows);
    *row = &judgement->row[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_judgement_row(const pvsize_judgement *judgement, int32_t i, int32_t *reading,
                                   int32_t *measured, int32_t *judged, int32_t *why,
                                   pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status status = find_row(judgement, i, &row, diag);

    if (status)
        return status;
    if (reading)
        *reading = row->reading;
    if (measured)
        *measured = row->measured;
    if (judged)
        *judged = row->judged;
    if (why)
        *why = row->why;
    return PVSIZE_OK;
}

pvsize_status pvsize_judgement_numbers(const pvsize_judgement *judgement, int32_t i, double *value,
                                       double *expected, double *low, double *high,
                                       pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status status = find_row(judgement, i, &row, diag);

    if (status)
        return status;
    if (value)
        *value = row->value;
    if (expected)
        *expected = row->expected;
    if (low)
        *low = row->low;
    if (high)
        *high = row->high;
    return row->why ? pvsz_fail_term(diag, PVSIZE_E_NOT_SET, row->why) : PVSIZE_OK;
}

pvsize_status pvsize_judgement_alike(const pvsize_judgement *judgement, int32_t i,
                                     double *deviation, pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status status = find_row(judgement, i, &row, diag);

    if (status)
        return status;
    if (!deviation)
        return pvsz_fail_null(diag, "deviation");
    if (row->alike < 0)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_READING_MOMENT);
    *deviation = row->alike;
    return PVSIZE_OK;
}

pvsize_status pvsize_judgement_cause_count(const pvsize_judgement *judgement, int32_t i,
                                           int32_t *count, pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status status = find_row(judgement, i, &row, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = row->causes;
    return PVSIZE_OK;
}

pvsize_status pvsize_judgement_cause(const pvsize_judgement *judgement, int32_t i, int32_t k,
                                     int32_t *cause, double *least, double *likeliest, double *most,
                                     double *distance, pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status status = find_row(judgement, i, &row, diag);

    if (status)
        return status;
    if (k < 0 || k >= row->causes) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, k, row->causes);
        pvsz_fail_argument(diag, "k");
        return PVSIZE_E_BAD_INDEX;
    }
    if (cause)
        *cause = row->cause[k].cause;
    if (least)
        *least = row->cause[k].least;
    if (likeliest)
        *likeliest = row->cause[k].likeliest;
    if (most)
        *most = row->cause[k].most;
    if (distance)
        *distance = row->cause[k].distance;
    return PVSIZE_OK;
}

static void put_row(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_judgement *judgement = object;

    pvsz_put_reading(text, &judgement->row[i]);
    pvsz_put(text, ": ");
    pvsz_put_judged(text, &judgement->row[i]);
}

pvsize_status pvsize_judgement_text(const pvsize_judgement *judgement, int32_t i, char *buffer,
                                    size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_judged *row = NULL;
    pvsize_status found = find_row(judgement, i, &row, diag);

    return pvsz_row_text(found, put_row, judgement, i, buffer, capacity, length, diag);
}
