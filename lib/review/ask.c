/* Asking a review. */
#include "review.h"

static pvsize_status check_review(const pvsize_review *review, pvsize_diag *diag)
{
    if (!review)
        return pvsz_fail_null(diag, "review");
    return pvsz_is(review, PVSZ_MARK_REVIEW) ? PVSIZE_OK : pvsz_fail_handle(diag, "review");
}

typedef enum part { BOUNDS, MODULES, REMARKS } part;

static int32_t rows_of(const pvsize_review *review, part of)
{
    size_t rows = of == BOUNDS ? review->bounds : of == MODULES ? review->modules : review->remarks;

    return (int32_t)rows;
}

static pvsize_status give_count(const pvsize_review *review, part of, int32_t *count,
                                pvsize_diag *diag)
{
    pvsize_status status = check_review(review, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = rows_of(review, of);
    return PVSIZE_OK;
}

static pvsize_status check_row(const pvsize_review *review, part of, int32_t i, pvsize_diag *diag)
{
    pvsize_status status = check_review(review, diag);

    if (status)
        return status;
    if (i < 0 || i >= rows_of(review, of))
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, rows_of(review, of));
    return PVSIZE_OK;
}

static void put(int32_t *out, int32_t value)
{
    if (out)
        *out = value;
}

static void put_double(double *out, double value)
{
    if (out)
        *out = value;
}

/* bounds */

pvsize_status pvsize_review_bound_count(const pvsize_review *review, int32_t *count,
                                        pvsize_diag *diag)
{
    return give_count(review, BOUNDS, count, diag);
}

pvsize_status pvsize_review_bound(const pvsize_review *review, int32_t i, int32_t *what,
                                  int32_t *input, int32_t *strings, pvsize_diag *diag)
{
    pvsize_status status = check_row(review, BOUNDS, i, diag);

    if (status)
        return status;
    put(what, review->bound[i].what);
    put(input, review->bound[i].input);
    put(strings, review->bound[i].strings);
    return PVSIZE_OK;
}

pvsize_status pvsize_review_bound_rule(const pvsize_review *review, int32_t i, int32_t *rule,
                                       int32_t *severity, int32_t *compare, int32_t *governs,
                                       pvsize_diag *diag)
{
    pvsize_status status = check_row(review, BOUNDS, i, diag);

    if (status)
        return status;
    put(rule, review->bound[i].rule);
    put(severity, review->bound[i].severity);
    put(compare, review->bound[i].compare);
    put(governs, review->bound[i].governs);
    return PVSIZE_OK;
}

pvsize_status pvsize_review_bound_numbers(const pvsize_review *review, int32_t i, double *value,
                                          double *limit, pvsize_diag *diag)
{
    pvsize_status status = check_row(review, BOUNDS, i, diag);

    if (status)
        return status;
    put_double(value, review->bound[i].missing ? 0 : review->bound[i].value);
    put_double(limit, review->bound[i].limit);
    if (review->bound[i].missing)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, review->bound[i].missing);
    return PVSIZE_OK;
}

/* modules */

pvsize_status pvsize_review_module_count(const pvsize_review *review, int32_t *count,
                                         pvsize_diag *diag)
{
    return give_count(review, MODULES, count, diag);
}

pvsize_status pvsize_review_module(const pvsize_review *review, int32_t i, int32_t *module,
                                   int32_t *input, int32_t *accepted, int32_t *missing,
                                   pvsize_diag *diag)
{
    pvsize_status status = check_row(review, MODULES, i, diag);

    if (status)
        return status;
    put(module, review->module[i].module);
    put(input, review->module[i].input);
    put(accepted, review->module[i].accepted);
    put(missing, review->module[i].missing);
    return PVSIZE_OK;
}

pvsize_status pvsize_review_module_room(const pvsize_review *review, int32_t i, int32_t what,
                                        int32_t *count, pvsize_diag *diag)
{
    pvsize_status status = check_row(review, MODULES, i, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_ROOM, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_ROOM, what);
    if (!count)
        return pvsz_fail_null(diag, "count");
    if (!review->module[i].has[what])
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    *count = (int32_t)review->module[i].room[what];
    return PVSIZE_OK;
}

pvsize_status pvsize_review_module_stop(const pvsize_review *review, int32_t i, int32_t what,
                                        int32_t *rule, double *value, double *limit, double *margin,
                                        pvsize_diag *diag)
{
    pvsize_status status = check_row(review, MODULES, i, diag);
    const pvsz_stop *stop;

    if (status)
        return status;
    if (what != 0 && !pvsz_set_has(PVSIZE_SET_ROOM, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_ROOM, what);
    stop = &review->module[i].stop[what];
    if (!stop->rule)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    put(rule, stop->rule);
    put_double(value, stop->value);
    put_double(limit, stop->limit);
    put_double(margin, stop->margin);
    return PVSIZE_OK;
}

/* remarks */

pvsize_status pvsize_review_remark_count(const pvsize_review *review, int32_t *count,
                                         pvsize_diag *diag)
{
    return give_count(review, REMARKS, count, diag);
}

pvsize_status pvsize_review_remark(const pvsize_review *review, int32_t i, int32_t *remark,
                                   int32_t *severity, int32_t *input, int32_t *term,
                                   pvsize_diag *diag)
{
    pvsize_status status = check_row(review, REMARKS, i, diag);
    const pvsz_remark *row;

    if (status)
        return status;
    row = &review->remark[i];
    put(remark, row->remark);
    put(severity, pvsz_remark_of(row->remark)->severity);
    put(input, row->input);
    put(term, row->rule ? row->rule : row->term);
    return PVSIZE_OK;
}

pvsize_status pvsize_review_remark_number(const pvsize_review *review, int32_t i, int32_t k,
                                          double *value, pvsize_diag *diag)
{
    pvsize_status status = check_row(review, REMARKS, i, diag);

    if (status)
        return status;
    if (k < 0 || k >= review->remark[i].numbers) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, k, review->remark[i].numbers);
        pvsz_fail_argument(diag, "k");
        return PVSIZE_E_BAD_INDEX;
    }
    if (!value)
        return pvsz_fail_null(diag, "value");
    *value = review->remark[i].number[k];
    return PVSIZE_OK;
}

/* rows in words */

static void put_bound(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_review *review = object;

    pvsz_put_input_name(text, review, review->bound[i].input);
    pvsz_put(text, ": ");
    pvsz_put_bound(text, &review->bound[i]);
}

pvsize_status pvsize_review_bound_text(const pvsize_review *review, int32_t i, char *buffer,
                                       size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status found = check_row(review, BOUNDS, i, diag);

    return pvsz_row_text(found, put_bound, review, i, buffer, capacity, length, diag);
}

static void put_module(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_review *review = object;

    pvsz_put_module_name(text, &review->module[i]);
    pvsz_put(text, ", ");
    pvsz_put_input_name(text, review, review->module[i].input);
    pvsz_put(text, ": ");
    pvsz_put_acceptance(text, &review->module[i]);
}

pvsize_status pvsize_review_module_text(const pvsize_review *review, int32_t i, char *buffer,
                                        size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status found = check_row(review, MODULES, i, diag);

    return pvsz_row_text(found, put_module, review, i, buffer, capacity, length, diag);
}

static void put_remark(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_review *review = object;

    pvsz_put_input_name(text, review, review->remark[i].input);
    pvsz_put(text, ": ");
    pvsz_put_remark(text, &review->remark[i]);
}

pvsize_status pvsize_review_remark_text(const pvsize_review *review, int32_t i, char *buffer,
                                        size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status found = check_row(review, REMARKS, i, diag);

    return pvsz_row_text(found, put_remark, review, i, buffer, capacity, length, diag);
}

pvsize_status pvsize_review_render(const pvsize_review *review, int32_t format, char *buffer,
                                   size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = check_review(review, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!review->filled)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    pvsz_put_review(&text, review);
    return pvsz_text_end(&text, length, diag);
}
