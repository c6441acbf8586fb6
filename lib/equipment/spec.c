/* Making, copying and ending specs, and their values. Parts: spec_parts.c. */
#include <math.h>
#include <string.h>

#include "spec.h"

bool pv_spec_live(const pvsize_spec *spec)
{
    return spec && spec->mark == PV_MARK_SPEC;
}

static pvsize_spec *make(int32_t kind, const pv_memory *memory)
{
    size_t rows = (size_t)pv_kinds[kind].count;
    pvsize_spec *spec = pv_new(memory, 1, sizeof *spec + rows * sizeof(pv_value));

    if (spec) {
        spec->mark = PV_MARK_SPEC;
        spec->kind = kind;
        spec->memory = *memory;
    }
    return spec;
}

pvsize_status pvsize_spec_new(int32_t kind, const pvsize_allocator *memory, pvsize_spec **out,
                              pvsize_diag *diag)
{
    pv_memory hooks = pv_memory_or_default(memory);
    const pv_kind *row = pv_kind_find(kind);

    if (!out)
        return pv_fail_null(diag, "out");
    *out = NULL;
    if (!row)
        return pv_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    if (!pvsize_kind_is_spec(kind))
        return pv_fail_term(diag, PVSIZE_E_WRONG_KIND, kind);
    *out = make((int32_t)(row - pv_kinds), &hooks);
    return *out ? PVSIZE_OK : pv_fail(diag, PVSIZE_E_NO_MEMORY);
}

static bool copy_values(pvsize_spec *copy, const pvsize_spec *spec)
{
    const pv_kind *kind = &pv_kinds[spec->kind];

    for (int32_t i = 0; i < kind->count; i++) {
        if (!pv_spec_has(spec, i))
            continue;
        copy->value[i] = spec->value[i];
        if (kind->rows[i].type == PVSIZE_TYPE_TEXT) {
            copy->value[i].text = pv_copy_text(&copy->memory, spec->value[i].text);
            if (!copy->value[i].text)
                return false;
        }
        copy->set |= UINT64_C(1) << i;
    }
    return true;
}

static bool copy_parts(pvsize_spec *copy, const pvsize_spec *spec)
{
    for (int32_t list = 0; list < PV_MOST_PART_KINDS; list++) {
        const pv_part_list *from = &spec->parts[list];
        pv_part_list *to = &copy->parts[list];

        if (from->count == 0)
            continue;
        to->item = pv_new(&copy->memory, from->count, sizeof(pvsize_spec *));
        if (!to->item)
            return false;
        to->capacity = from->count;
        for (; to->count < from->count; to->count++)
            if (pvsize_spec_clone(from->item[to->count], &copy->memory, &to->item[to->count], NULL))
                return false;
    }
    return true;
}

/* Parts nest no deeper than the table of kinds: system, site, plane. */
pvsize_status pvsize_spec_clone(const pvsize_spec *spec, const pvsize_allocator *memory,
                                pvsize_spec **out, pvsize_diag *diag)
{
    pv_memory hooks = pv_memory_or_default(memory);
    pvsize_spec *copy;

    if (!out)
        return pv_fail_null(diag, "out");
    *out = NULL;
    if (!pv_spec_live(spec))
        return pv_fail_handle(diag, "spec");
    copy = make(spec->kind, &hooks);
    if (copy && copy_values(copy, spec) && copy_parts(copy, spec)) {
        *out = copy;
        return PVSIZE_OK;
    }
    pvsize_spec_free(copy);
    return pv_fail(diag, PVSIZE_E_NO_MEMORY);
}

void pvsize_spec_free(pvsize_spec *spec)
{
    pv_memory memory;

    if (!pv_spec_live(spec))
        return;
    memory = spec->memory;
    for (int32_t list = 0; list < PV_MOST_PART_KINDS; list++) {
        for (size_t i = 0; i < spec->parts[list].count; i++)
            pvsize_spec_free(spec->parts[list].item[i]);
        pv_release(&memory, spec->parts[list].item);
    }
    for (int32_t i = 0; i < pv_kinds[spec->kind].count; i++)
        if (pv_spec_has(spec, i) && pv_kinds[spec->kind].rows[i].type == PVSIZE_TYPE_TEXT)
            pv_release(&memory, spec->value[i].text);
    spec->mark = PV_MARK_DEAD;
    pv_release(&memory, spec);
}

int32_t pvsize_spec_kind(const pvsize_spec *spec)
{
    return pv_spec_live(spec) ? pv_kinds[spec->kind].number : 0;
}

const char *pv_spec_name(const pvsize_spec *spec)
{
    /* the first row of every kind that has a label is the label */
    if (pv_kinds[spec->kind].rows[0].type != PVSIZE_TYPE_TEXT || !pv_spec_has(spec, 0))
        return "";
    return spec->value[0].text;
}

bool pv_spec_same_numbers(const pvsize_spec *a, const pvsize_spec *b)
{
    const pv_kind *kind = &pv_kinds[a->kind];

    if (a->kind != b->kind)
        return false;
    for (int32_t i = 0; i < kind->count; i++) {
        if (kind->rows[i].type == PVSIZE_TYPE_TEXT)
            continue;
        if (pv_spec_has(a, i) != pv_spec_has(b, i))
            return false;
        if (pv_spec_has(a, i) && a->value[i].number != b->value[i].number)
            return false;
    }
    return true;
}

/* Handle, term and kind, in this order. */
static pvsize_status find_row(const pvsize_spec *spec, int32_t term, const pv_term **row,
                              pvsize_diag *diag)
{
    if (!spec)
        return pv_fail_null(diag, "spec");
    if (!pv_spec_live(spec))
        return pv_fail_handle(diag, "spec");
    *row = pv_term_find(term);
    if (!*row)
        return pv_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, term);
    if ((*row)->kind != spec->kind)
        return pv_fail_name(diag, PVSIZE_E_WRONG_KIND, term, pv_kinds[spec->kind].name);
    return PVSIZE_OK;
}

static pvsize_status check_number(const pv_term *row, double value, pvsize_diag *diag)
{
    if (row->type == PVSIZE_TYPE_TEXT)
        return pv_fail_value(diag, PVSIZE_E_WRONG_TYPE, row->number, value);
    if (!isfinite(value))
        return pv_fail_value(diag, PVSIZE_E_NOT_FINITE, row->number, value);
    if (row->type != PVSIZE_TYPE_NUMBER && value != floor(value))
        return pv_fail_value(diag, PVSIZE_E_NOT_WHOLE, row->number, value);
    if (row->type == PVSIZE_TYPE_CHOICE)
        return pv_set_has(row->set, value)
                   ? PVSIZE_OK
                   : pv_fail_value(diag, PVSIZE_E_BAD_CHOICE, row->number, value);
    if (value < row->low || value > row->high)
        return pv_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, row->number, value, row->low, row->high);
    return PVSIZE_OK;
}

static void store(pvsize_spec *spec, const pv_term *row, double value)
{
    int32_t place = pv_term_place(row);

    spec->value[place].number = value == 0 ? 0 : value; /* no negative zero */
    spec->set |= UINT64_C(1) << place;
}

pvsize_status pvsize_spec_set_number(pvsize_spec *spec, int32_t term, double value,
                                     pvsize_diag *diag)
{
    const pv_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (!status)
        status = check_number(row, value, diag);
    if (!status)
        store(spec, row, value);
    return status;
}

pvsize_status pvsize_spec_set_numbers(pvsize_spec *spec, const int32_t *terms, const double *values,
                                      size_t count, pvsize_diag *diag)
{
    const pv_term *row;

    if (!spec)
        return pv_fail_null(diag, "spec");
    if (!pv_spec_live(spec))
        return pv_fail_handle(diag, "spec");
    if (!terms && count)
        return pv_fail_null(diag, "terms");
    if (!values && count)
        return pv_fail_null(diag, "values");
    for (size_t i = 0; i < count; i++) {
        pvsize_status status = find_row(spec, terms[i], &row, diag);

        if (!status)
            status = check_number(row, values[i], diag);
        if (status) {
            if (diag && diag->mark == PV_MARK_DIAG)
                diag->index = i > INT32_MAX ? INT32_MAX : (int32_t)i;
            return status;
        }
    }
    for (size_t i = 0; i < count; i++)
        store(spec, pv_term_find(terms[i]), values[i]);
    return PVSIZE_OK;
}

static pvsize_status set_choice(pvsize_spec *spec, const pv_term *row, const char *name,
                                pvsize_diag *diag)
{
    int32_t choice = pvsize_set_by_name(row->set, name);

    if (choice < 0)
        return pv_fail_name(diag, PVSIZE_E_BAD_CHOICE, row->number, name);
    store(spec, row, choice);
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_set_text(pvsize_spec *spec, int32_t term, const char *text,
                                   pvsize_diag *diag)
{
    const pv_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    int32_t place;
    char *copy;

    if (status)
        return status;
    if (!text)
        return pv_fail_null(diag, "text");
    if (row->type == PVSIZE_TYPE_CHOICE)
        return set_choice(spec, row, text, diag);
    if (row->type != PVSIZE_TYPE_TEXT)
        return pv_fail_name(diag, PVSIZE_E_WRONG_TYPE, term, text);
    if (!pv_is_plain_text(text, PV_MOST_TEXT))
        return pv_fail_term(diag, PVSIZE_E_BAD_TEXT, term);
    copy = pv_copy_text(&spec->memory, text);
    if (!copy)
        return pv_fail(diag, PVSIZE_E_NO_MEMORY);
    place = pv_term_place(row);
    if (pv_spec_has(spec, place))
        pv_release(&spec->memory, spec->value[place].text);
    spec->value[place].text = copy;
    spec->set |= UINT64_C(1) << place;
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_unset(pvsize_spec *spec, int32_t term, pvsize_diag *diag)
{
    const pv_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    int32_t place;

    if (status)
        return status;
    place = pv_term_place(row);
    if (row->type == PVSIZE_TYPE_TEXT && pv_spec_has(spec, place))
        pv_release(&spec->memory, spec->value[place].text);
    spec->value[place] = (pv_value){0};
    spec->set &= ~(UINT64_C(1) << place);
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_get_number(const pvsize_spec *spec, int32_t term, double *value,
                                     pvsize_diag *diag)
{
    const pv_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);
    double found;

    if (status)
        return status;
    if (!value)
        return pv_fail_null(diag, "value");
    if (row->type == PVSIZE_TYPE_TEXT)
        return pv_fail_term(diag, PVSIZE_E_WRONG_TYPE, term);
    if (!pv_spec_number(spec, term, &found))
        return pv_fail_term(diag, PVSIZE_E_NOT_SET, term);
    *value = found;
    return PVSIZE_OK;
}

/* The text of a text, the name of a choice; null if there is no value. */
static const char *text_in_force(const pvsize_spec *spec, const pv_term *row)
{
    int32_t place = pv_term_place(row);
    double choice;

    if (row->type == PVSIZE_TYPE_TEXT)
        return pv_spec_has(spec, place) ? spec->value[place].text : NULL;
    if (!pv_spec_number(spec, row->number, &choice))
        return NULL;
    return pvsize_set_name(row->set, (int32_t)choice);
}

pvsize_status pvsize_spec_get_text(const pvsize_spec *spec, int32_t term, char *buffer,
                                   size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pv_term *row;
    const char *found;
    pv_text text;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (status)
        return status;
    if (row->type != PVSIZE_TYPE_TEXT && row->type != PVSIZE_TYPE_CHOICE)
        return pv_fail_term(diag, PVSIZE_E_WRONG_TYPE, term);
    found = text_in_force(spec, row);
    if (!found)
        return pv_fail_term(diag, PVSIZE_E_NOT_SET, term);
    status = pv_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    pv_put(&text, found);
    return pv_text_end(&text, length, diag);
}

pvsize_status pvsize_spec_state(const pvsize_spec *spec, int32_t term, int32_t *state,
                                pvsize_diag *diag)
{
    const pv_term *row;
    pvsize_status status = find_row(spec, term, &row, diag);

    if (status)
        return status;
    if (!state)
        return pv_fail_null(diag, "state");
    if (pv_spec_has(spec, pv_term_place(row)))
        *state = PVSIZE_STATE_SET;
    else
        *state = row->need == PVSIZE_NEED_DEFAULT ? PVSIZE_STATE_DEFAULT : PVSIZE_STATE_UNSET;
    return PVSIZE_OK;
}
