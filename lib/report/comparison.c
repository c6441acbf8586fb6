/* The comparison as an object: its memory, and asking it. */
#include <string.h>

#include "comparison.h"

static bool is_live(const pvsize_comparison *comparison)
{
    return pvsz_is(comparison, PVSZ_MARK_COMPARISON);
}

pvsize_status pvsize_comparison_new(const pvsize_allocator *memory, pvsize_comparison **out,
                                    pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_COMPARISON, &made, diag);
    *out = made;
    return status;
}

void pvsize_comparison_free(pvsize_comparison *comparison)
{
    if (!is_live(comparison))
        return;
    pvsz_release(&comparison->head.memory, comparison->row);
    pvsz_release(&comparison->head.memory, comparison->text);
    pvsz_unmake(comparison);
}

static pvsize_status check_handle(const pvsize_comparison *comparison, pvsize_diag *diag)
{
    if (!comparison)
        return pvsz_fail_null(diag, "comparison");
    return is_live(comparison) ? PVSIZE_OK : pvsz_fail_handle(diag, "comparison");
}

/* making */

/* Everything that can differ. */
static int32_t every_choice(void)
{
    int32_t all = 0;

    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_DIFFERS); i++)
        all |= pvsize_set_at(PVSIZE_SET_DIFFERS, i);
    return all;
}

pvsize_status pvsz_open_differences(const pvsize_comparison *comparison, int32_t wanted,
                                    pvsz_differences *list, pvsize_diag *diag)
{
    pvsize_status status = check_handle(comparison, diag);

    if (status)
        return status;
    if (wanted & ~every_choice())
        return pvsz_fail_choice(diag, "wanted", PVSIZE_SET_DIFFERS, wanted);
    *list = (pvsz_differences){.memory = &comparison->head.memory};
    list->wanted = wanted ? wanted : every_choice() & ~PVSIZE_DIFFERS_SOURCE;
    return PVSIZE_OK;
}

void pvsz_add_difference(pvsz_differences *list, const pvsz_difference *row)
{
    pvsz_difference *grown;

    if (!(row->what & list->wanted) || list->failed)
        return;
    grown = pvsz_grow(list->memory, list->row, list->rows, &list->capacity, sizeof *grown);
    list->failed = !grown;
    if (!grown)
        return;
    list->row = grown;
    grown[list->rows] = *row;
    grown[list->rows++].what &= list->wanted;
}

/* One after the other, each with its terminator. A null buffer only counts. */
static size_t put_texts(pvsz_differences *list, pvsz_put_difference *put, const void *pair,
                        char *buffer, size_t capacity)
{
    pvsz_text text;

    pvsz_text_begin(&text, buffer, capacity, NULL);
    for (size_t i = 0; i < list->rows; i++) {
        list->row[i].text_at = text.length;
        put(&text, pair, &list->row[i]);
        pvsz_put_bytes(&text, "", 1);
    }
    return text.length;
}

pvsize_status pvsz_keep_differences(pvsize_comparison *comparison, pvsz_differences *list,
                                    pvsz_put_difference *put, const void *pair, pvsize_diag *diag)
{
    size_t bytes = list->failed ? 0 : put_texts(list, put, pair, NULL, 0);
    char *text = list->failed ? NULL : pvsz_new(list->memory, bytes, 1);

    if (!text) {
        pvsz_release(list->memory, list->row);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    put_texts(list, put, pair, text, bytes);
    for (size_t i = 0; i < list->rows; i++)
        list->row[i].text = text + list->row[i].text_at;
    pvsz_release(&comparison->head.memory, comparison->row);
    pvsz_release(&comparison->head.memory, comparison->text);
    comparison->row = list->row;
    comparison->rows = list->rows;
    comparison->text = text;
    return PVSIZE_OK;
}

/* asking */

pvsize_status pvsize_comparison_count(const pvsize_comparison *comparison, int32_t *count,
                                      pvsize_diag *diag)
{
    pvsize_status status = check_handle(comparison, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = (int32_t)comparison->rows;
    return PVSIZE_OK;
}

static pvsize_status find_row(const pvsize_comparison *comparison, int32_t i,
                              const pvsz_difference **row, pvsize_diag *diag)
{
    pvsize_status status = check_handle(comparison, diag);

    if (status)
        return status;
    if (i < 0 || (size_t)i >= comparison->rows)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, (int32_t)comparison->rows);
    *row = &comparison->row[i];
    return PVSIZE_OK;
}

static pvsize_status find_side(const pvsize_comparison *comparison, int32_t i, int32_t side,
                               const pvsz_difference_side **found, pvsize_diag *diag)
{
    const pvsz_difference *row = NULL;
    pvsize_status status = find_row(comparison, i, &row, diag);

    if (status)
        return status;
    if (side < 0 || side > 1) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, side, 2);
        pvsz_fail_argument(diag, "side");
        return PVSIZE_E_BAD_INDEX;
    }
    *found = &row->side[side];
    return PVSIZE_OK;
}

pvsize_status pvsize_comparison_difference(const pvsize_comparison *comparison, int32_t i,
                                           int32_t *what, int32_t *subject, pvsize_diag *diag)
{
    const pvsz_difference *row = NULL;
    pvsize_status status = find_row(comparison, i, &row, diag);

    if (status)
        return status;
    if (what)
        *what = row->what;
    if (subject)
        *subject = row->subject;
    return PVSIZE_OK;
}

pvsize_status pvsize_comparison_side(const pvsize_comparison *comparison, int32_t i, int32_t side,
                                     int32_t *term, int32_t *finding, pvsize_diag *diag)
{
    const pvsz_difference_side *found = NULL;
    pvsize_status status = find_side(comparison, i, side, &found, diag);

    if (status)
        return status;
    if (term)
        *term = found->term;
    if (finding)
        *finding = found->finding;
    return PVSIZE_OK;
}

static double number_of(const pvsz_difference_side *side, int32_t what)
{
    switch (what) {
    case PVSIZE_DIFFERS_SEVERITY:
        return side->severity;
    case PVSIZE_DIFFERS_VERDICT:
        return side->verdict;
    case PVSIZE_DIFFERS_VALUE:
        return side->value;
    default:
        return side->limit;
    }
}

pvsize_status pvsize_comparison_number(const pvsize_comparison *comparison, int32_t i, int32_t side,
                                       int32_t what, double *value, pvsize_diag *diag)
{
    const pvsz_difference_side *found = NULL;
    pvsize_status status = find_side(comparison, i, side, &found, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_DIFFERS, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_DIFFERS, what);
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (!(found->has & what))
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, found->term);
    *value = number_of(found, what);
    return PVSIZE_OK;
}

pvsize_status pvsize_comparison_figure(const pvsize_comparison *comparison, int32_t i, int32_t k,
                                       int32_t *figure, pvsize_diag *diag)
{
    const pvsz_difference *row = NULL;
    pvsize_status status = find_row(comparison, i, &row, diag);
    int32_t found = 0;

    if (status)
        return status;
    if (!figure)
        return pvsz_fail_null(diag, "figure");
    for (int32_t place = 0; place < PVSZ_FIGURES; place++) {
        if (!pvsz_includes_figure(&row->figures, place) || found++ != k)
            continue;
        *figure = pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number;
        return PVSIZE_OK;
    }
    pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, k, found);
    pvsz_fail_argument(diag, "k");
    return PVSIZE_E_BAD_INDEX;
}

static void put_row(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_comparison *comparison = object;

    pvsz_put(text, comparison->row[i].text);
}

pvsize_status pvsize_comparison_text(const pvsize_comparison *comparison, int32_t i, char *buffer,
                                     size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_difference *row = NULL;
    pvsize_status found = find_row(comparison, i, &row, diag);

    return pvsz_row_text(found, put_row, comparison, i, buffer, capacity, length, diag);
}
