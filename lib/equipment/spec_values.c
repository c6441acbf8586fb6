/* The values of specs: set, unset, asked. */
#include <math.h>

#include "spec.h"

/* Handle, term and kind, in this order. */
static pvsize_status find_row(const pvsize_spec *spec, int32_t term, const pvsz_term **row,
                              pvsize_diag *diag)
{
    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    *row = pvsz_term_find(term);
    if (!*row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, term);
    if ((*row)->kind != spec->kind)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, term, pvsz_kinds[spec->kind].name);
    return PVSIZE_OK;
}

pvsize_status pvsz_check_number(const pvsz_term *row, double value, pvsize_diag *diag)
{
    if (row->type == PVSIZE_TYPE_TEXT)
        return pvsz_fail_value(diag, PVSIZE_E_WRONG_TYPE, row->number, value);
    if (!isfinite(value))
        return pvsz_fail_value(diag, PVSIZE_E_NOT_FINITE, row->number, value);
    if (row->type != PVSIZE_TYPE_NUMBER && value != floor(value))
        return pvsz_fail_value(diag, PVSIZE_E_NOT_WHOLE, row->number, value);
    if (row->type == PVSIZE_TYPE_CHOICE)
        return pvsz_set_has(row->set, value)
                   ? PVSIZE_OK
                   : pvsz_fail_value(diag, PVSIZE_E_BAD_CHOICE, row->number, value);
    if (value < row->low || value > row->high)
        return pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, row->number, value, row->low,
                               row->high);
    return PVSIZE_OK;
}

static void store(pvsize_spec *spec, const pvsz_term *row, double value)
{
    int32_t place = pvsz_term_place(row);

    spec->value[place].number = value == 0 ? 0 : value; /* no negative zero */
    spec->set |= UINT64_C(1) << place;
    spec->none &= ~(UINT64_C(1) << place);
}

pvsize_status pvsize_spec_set_number(pvsize_spec *spec, int32_t term, double value,
                                     pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (!status)
        status = pvsz_check_number(row, value, diag);
    if (!status)
        store(spec, row, value);
    return status;
}

pvsize_status pvsize_spec_set_numbers(pvsize_spec *spec, const int32_t *terms, const double *values,
                                      size_t count, pvsize_diag *diag)
{
    const pvsz_term *row;

    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (!terms && count)
        return pvsz_fail_null(diag, "terms");
    if (!values && count)
        return pvsz_fail_null(diag, "values");
    for (size_t i = 0; i < count; i++) {
        pvsize_status status = find_row(spec, terms[i], &row, diag);

        if (!status)
            status = pvsz_check_number(row, values[i], diag);
        if (status)
            return status;
    }
    for (size_t i = 0; i < count; i++)
        store(spec, pvsz_term_find(terms[i]), values[i]);
    return PVSIZE_OK;
}

static pvsize_status set_choice(pvsize_spec *spec, const pvsz_term *row, const char *name,
                                pvsize_diag *diag)
{
    int32_t choice = pvsize_set_by_name(row->set, name);

    if (choice < 0)
        return pvsz_fail_name(diag, PVSIZE_E_BAD_CHOICE, row->number, name);
    store(spec, row, choice);
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_set_text(pvsize_spec *spec, int32_t term, const char *text,
                                   pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    int32_t place;
    char *copy;

    if (status)
        return status;
    if (!text)
        return pvsz_fail_null(diag, "text");
    if (row->type == PVSIZE_TYPE_CHOICE)
        return set_choice(spec, row, text, diag);
    if (row->type != PVSIZE_TYPE_TEXT) {
        pvsz_fail_name(diag, PVSIZE_E_WRONG_TYPE, term, text);
        pvsz_fail_within(diag, row->low, row->high);
        return PVSIZE_E_WRONG_TYPE;
    }
    status = pvsz_check_text(text, PVSZ_MOST_TEXT, term, diag);
    if (status)
        return status;
    copy = pvsz_copy_text(&spec->head.memory, text);
    if (!copy)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    place = pvsz_term_place(row);
    if (pvsz_spec_has(spec, place))
        pvsz_release(&spec->head.memory, spec->value[place].text);
    spec->value[place].text = copy;
    spec->set |= UINT64_C(1) << place;
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_set_none(pvsize_spec *spec, int32_t term, pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    int32_t place;

    if (status)
        return status;
    if (row->type != PVSIZE_TYPE_NUMBER && row->type != PVSIZE_TYPE_COUNT)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_TYPE, term, "none");
    if (row->need != PVSIZE_NEED_OPTIONAL)
        return pvsz_fail_term(diag, PVSIZE_E_NEEDS_VALUE, term);
    place = pvsz_term_place(row);
    spec->set &= ~(UINT64_C(1) << place);
    spec->none |= UINT64_C(1) << place;
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_unset(pvsize_spec *spec, int32_t term, pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    int32_t place;

    if (status)
        return status;
    place = pvsz_term_place(row);
    if (row->type == PVSIZE_TYPE_TEXT && pvsz_spec_has(spec, place))
        pvsz_release(&spec->head.memory, spec->value[place].text);
    spec->value[place] = (pvsz_value){0};
    spec->set &= ~(UINT64_C(1) << place);
    spec->none &= ~(UINT64_C(1) << place);
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_get_number(const pvsize_spec *spec, int32_t term, double *value,
                                     pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    double found;

    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    if (row->type == PVSIZE_TYPE_TEXT)
        return pvsz_fail_term(diag, PVSIZE_E_WRONG_TYPE, term);
    if (!pvsz_spec_number(spec, term, &found))
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
    *value = found;
    return PVSIZE_OK;
}

/* The text of a text, the name of a choice; null if there is no value. */
static const char *text_in_force(const pvsize_spec *spec, const pvsz_term *row)
{
    int32_t place = pvsz_term_place(row);
    double choice;

    if (row->type == PVSIZE_TYPE_TEXT)
        return pvsz_spec_has(spec, place) ? spec->value[place].text : NULL;
    if (!pvsz_spec_number(spec, row->number, &choice))
        return NULL;
    return pvsize_set_name(row->set, (int32_t)choice);
}

pvsize_status pvsize_spec_get_text(const pvsize_spec *spec, int32_t term, char *buffer,
                                   size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_term *row;
    const char *found;
    pvsz_text text;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (status)
        return status;
    if (row->type != PVSIZE_TYPE_TEXT && row->type != PVSIZE_TYPE_CHOICE)
        return pvsz_fail_term(diag, PVSIZE_E_WRONG_TYPE, term);
    found = text_in_force(spec, row);
    if (!found)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    pvsz_put(&text, found);
    return pvsz_text_end(&text, length, diag);
}

pvsize_status pvsize_spec_state(const pvsize_spec *spec, int32_t term, int32_t *state,
                                pvsize_diag *diag)
{
    const pvsz_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (status)
        return status;
    if (!state)
        return pvsz_fail_null(diag, "state");
    if (pvsz_spec_states_none(spec, pvsz_term_place(row)))
        *state = PVSIZE_STATE_NONE;
    else if (pvsz_spec_has(spec, pvsz_term_place(row)))
        *state = PVSIZE_STATE_SET;
    else
        *state = row->need == PVSIZE_NEED_DEFAULT ? PVSIZE_STATE_DEFAULT : PVSIZE_STATE_UNSET;
    return PVSIZE_OK;
}
