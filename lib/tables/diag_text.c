/* The failure in one line. */
#include "tables.h"

static void put_number(pv_text *text, const pvsize_diag *diag, double value)
{
    const char *unit = pvsize_term_unit(diag->term);

    pv_put_exact(text, value);
    if (unit && unit[0]) {
        pv_put(text, " ");
        pv_put(text, unit);
    }
}

static void put_choices(pv_text *text, int32_t term)
{
    int32_t count = pvsize_choice_count(term);

    for (int32_t i = 0; i < count; i++) {
        pv_put(text, i == 0 ? "; allowed " : ", ");
        pv_put(text, pvsize_choice_name(term, pvsize_choice_at(term, i)));
    }
}

static void put_failure(pv_text *text, const pvsize_diag *diag)
{
    if (diag->term) {
        pv_put_term(text, diag->term);
        pv_put(text, ": ");
    }
    pv_put(text, pvsize_status_text(diag->status));
    if (diag->given[0] || diag->has_value)
        pv_put(text, diag->status == PVSIZE_E_NULL_POINTER || diag->status == PVSIZE_E_BAD_HANDLE
                         ? "; argument "
                         : "; given ");
    if (diag->given[0]) {
        pv_put(text, "'");
        pv_put(text, diag->given);
        pv_put(text, "'");
    }
    if (diag->given[0] && diag->has_value)
        pv_put(text, " ");
    if (diag->has_value)
        put_number(text, diag, diag->value);
    if (diag->status == PVSIZE_E_BAD_CHOICE) {
        put_choices(text, diag->term);
    } else if (diag->has_range) {
        pv_put(text, "; allowed ");
        put_number(text, diag, diag->low);
        pv_put(text, " to ");
        put_number(text, diag, diag->high);
    }
}

pvsize_status pvsize_diag_text(const pvsize_diag *diag, char *buffer, size_t capacity,
                               size_t *length)
{
    pv_text text;
    pvsize_status status;

    if (pvsize_diag_status(diag) == PVSIZE_E_BAD_HANDLE && !(diag && diag->mark == PV_MARK_DIAG))
        return PVSIZE_E_BAD_HANDLE;
    status = pv_text_begin(&text, buffer, capacity, NULL);
    if (status)
        return status;
    put_failure(&text, diag);
    return pv_text_end(&text, length, NULL);
}
