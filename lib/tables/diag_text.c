/* The failure in one line. */
#include "tables.h"

static void put_number(pvsz_text *text, const pvsize_diag *diag, double value)
{
    const char *unit = pvsize_term_unit(diag->term);

    if (diag->status == PVSIZE_E_TOO_LONG || diag->status == PVSIZE_E_CAPACITY)
        unit = "bytes";
    if (diag->status == PVSIZE_E_NOT_FINITE || diag->argument)
        unit = NULL; /* not a number of that unit, or a factor */
    pvsz_put_exact(text, value);
    if (unit && unit[0]) {
        pvsz_put(text, " ");
        pvsz_put(text, unit);
    }
}

static void put_choices(pvsz_text *text, const pvsize_diag *diag)
{
    const pvsz_term *term = pvsz_term_find(diag->term);
    int32_t set = diag->set || !term ? diag->set : term->set;

    for (int32_t i = 0; i < pvsize_set_count(set); i++) {
        int32_t choice = pvsize_set_at(set, i);

        pvsz_put(text, i == 0 ? "; allowed " : ", ");
        pvsz_put(text, pvsize_set_name(set, choice));
        if (diag->given[0]) /* by name: the numbers would not help */
            continue;
        pvsz_put(text, " (");
        pvsz_put_int(text, choice);
        pvsz_put(text, ")");
    }
}

/* What stands in front of what was given. */
static const char *lead(pvsize_status status)
{
    switch (status) {
    case PVSIZE_E_NULL_POINTER:
    case PVSIZE_E_BAD_HANDLE:
        return "; argument ";
    case PVSIZE_E_WRONG_KIND:
        return "; it takes ";
    case PVSIZE_E_CAPACITY:
        return "; needed ";
    default:
        return "; given ";
    }
}

static void put_index(pvsz_text *text, const pvsize_diag *diag)
{
    if (diag->index < 0)
        return;
    pvsz_put(text, "[");
    pvsz_put_int(text, diag->index);
    pvsz_put(text, "]");
}

/* "module.voc", or "array[1].input" where the part is known */
static void put_place(pvsz_text *text, const pvsize_diag *diag)
{
    const pvsz_term *term = pvsz_term_find(diag->term);
    const pvsz_kind *kind = term ? &pvsz_kinds[term->kind] : pvsz_kind_find(diag->term);

    if (diag->term == 0 || !kind)
        return;
    pvsz_put(text, kind->name);
    put_index(text, diag);
    if (term) {
        pvsz_put(text, ".");
        pvsz_put(text, term->name);
    }
    pvsz_put(text, ": ");
}

/* What was given: a text, or a number. */
static void put_given(pvsz_text *text, const pvsize_diag *diag)
{
    if (diag->given[0]) {
        pvsz_put(text, lead(diag->status));
        pvsz_put(text, "'");
        pvsz_put(text, diag->given);
        pvsz_put(text, "'");
    } else if (diag->has_value) {
        pvsz_put(text, lead(diag->status));
        put_number(text, diag, diag->value);
    }
}

static void put_range(pvsz_text *text, const pvsize_diag *diag)
{
    bool one = diag->low == diag->high;

    pvsz_put(text, one ? "; allowed only " : "; allowed ");
    put_number(text, diag, diag->low);
    if (one)
        return;
    pvsz_put(text, " to ");
    put_number(text, diag, diag->high);
}

static void put_allowed(pvsz_text *text, const pvsize_diag *diag)
{
    if (diag->status == PVSIZE_E_BAD_CHOICE) {
        put_choices(text, diag);
    } else if (diag->allowed) {
        pvsz_put(text, "; allowed ");
        pvsz_put(text, diag->allowed);
    } else if (diag->has_range) {
        put_range(text, diag);
    }
}

static void put_reason(pvsz_text *text, const pvsize_diag *diag)
{
    if (diag->argument) {
        pvsz_put(text, diag->argument);
        if (!diag->term) /* its place in a row of values */
            put_index(text, diag);
        pvsz_put(text, ": ");
    }
    pvsz_put(text, pvsize_status_text(diag->status));
    put_given(text, diag);
    put_allowed(text, diag);
    if (diag->nearest) {
        pvsz_put(text, "; did you mean '");
        pvsz_put(text, diag->nearest);
        pvsz_put(text, "'?");
    }
    if (diag->hint) {
        pvsz_put(text, "; ");
        pvsz_put(text, diag->hint);
    }
}

static pvsize_status tell(const pvsize_diag *diag, bool with_place, char *buffer, size_t capacity,
                          size_t *length)
{
    pvsz_text text;
    pvsize_status status;

    if (!pvsz_is(diag, PVSZ_MARK_DIAG))
        return PVSIZE_E_BAD_HANDLE;
    status = pvsz_text_begin(&text, buffer, capacity, NULL);
    if (status)
        return status;
    if (with_place)
        put_place(&text, diag);
    put_reason(&text, diag);
    return pvsz_text_end(&text, length, NULL);
}

pvsize_status pvsize_diag_text(const pvsize_diag *diag, char *buffer, size_t capacity,
                               size_t *length)
{
    return tell(diag, true, buffer, capacity, length);
}

pvsize_status pvsize_diag_reason(const pvsize_diag *diag, char *buffer, size_t capacity,
                                 size_t *length)
{
    return tell(diag, false, buffer, capacity, length);
}
