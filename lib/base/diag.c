/* The caller-owned detail of a failure. Rendering it needs the tables and
 * stands in tables/diag_text.c. */
#include <math.h>
#include <string.h>

#include "base.h"

static bool live(const pvsize_diag *diag)
{
    return pvsz_is(diag, PVSZ_MARK_DIAG);
}

pvsize_status pvsize_diag_new(const pvsize_allocator *memory, pvsize_diag **out)
{
    void *made;
    pvsize_status status;

    if (!out)
        return PVSIZE_E_NULL_POINTER;
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_DIAG, &made, NULL);
    *out = made;
    if (!status)
        (*out)->index = -1;
    return status;
}

void pvsize_diag_free(pvsize_diag *diag)
{
    if (live(diag))
        pvsz_unmake(diag);
}

static void reset(pvsize_diag *diag, pvsize_status status)
{
    diag->status = status;
    diag->term = 0;
    diag->set = 0;
    diag->argument = diag->allowed = diag->nearest = diag->hint = NULL;
    diag->index = -1;
    diag->has_value = diag->has_range = false;
    diag->value = diag->low = diag->high = 0;
    diag->given[0] = '\0';
}

pvsize_status pvsize_diag_clear(pvsize_diag *diag)
{
    if (!diag)
        return PVSIZE_E_NULL_POINTER;
    if (!live(diag))
        return PVSIZE_E_BAD_HANDLE;
    reset(diag, PVSIZE_OK);
    return PVSIZE_OK;
}

pvsize_status pvsize_diag_status(const pvsize_diag *diag)
{
    return live(diag) ? diag->status : PVSIZE_E_BAD_HANDLE;
}

int32_t pvsize_diag_term(const pvsize_diag *diag)
{
    return live(diag) ? diag->term : 0;
}

int32_t pvsize_diag_index(const pvsize_diag *diag)
{
    return live(diag) ? diag->index : -1;
}

pvsize_status pvsize_diag_value(const pvsize_diag *diag, double *value)
{
    if (!live(diag))
        return PVSIZE_E_BAD_HANDLE;
    if (value)
        *value = diag->value;
    return diag->has_value ? PVSIZE_OK : PVSIZE_E_NOT_SET;
}

pvsize_status pvsize_diag_range(const pvsize_diag *diag, double *low, double *high)
{
    if (!live(diag))
        return PVSIZE_E_BAD_HANDLE;
    if (low)
        *low = diag->low;
    if (high)
        *high = diag->high;
    return diag->has_range ? PVSIZE_OK : PVSIZE_E_NOT_SET;
}

pvsize_status pvsz_fail(pvsize_diag *diag, pvsize_status status)
{
    if (live(diag))
        reset(diag, status);
    return status;
}

/* What was given may be anything; what is shown must be text. */
static void copy_given(pvsize_diag *diag, const char *given)
{
    size_t to = 0;

    while (*given) {
        size_t n = pvsz_plain_character(given);
        size_t width = n ? n : 1;

        if (to + width >= sizeof diag->given)
            break;
        memcpy(diag->given + to, n ? given : "?", width);
        to += width;
        given += width;
    }
    diag->given[to] = '\0';
}

pvsize_status pvsz_fail_name(pvsize_diag *diag, pvsize_status status, int32_t term,
                             const char *name)
{
    if (live(diag)) {
        reset(diag, status);
        diag->term = term;
        copy_given(diag, name);
    }
    return status;
}

pvsize_status pvsz_fail_null(pvsize_diag *diag, const char *argument)
{
    return pvsz_fail_name(diag, PVSIZE_E_NULL_POINTER, 0, argument);
}

pvsize_status pvsz_fail_handle(pvsize_diag *diag, const char *argument)
{
    return pvsz_fail_name(diag, PVSIZE_E_BAD_HANDLE, 0, argument);
}

pvsize_status pvsz_fail_term(pvsize_diag *diag, pvsize_status status, int32_t term)
{
    if (live(diag)) {
        reset(diag, status);
        diag->term = term;
    }
    return status;
}

pvsize_status pvsz_fail_value(pvsize_diag *diag, pvsize_status status, int32_t term, double value)
{
    if (live(diag)) {
        reset(diag, status);
        diag->term = term;
        diag->has_value = true;
        diag->value = value;
    }
    return status;
}

pvsize_status pvsz_fail_range(pvsize_diag *diag, pvsize_status status, int32_t term, double value,
                              double low, double high)
{
    if (live(diag)) {
        pvsz_fail_value(diag, status, term, value);
        pvsz_fail_within(diag, low, high);
    }
    return status;
}

pvsize_status pvsz_fail_choice(pvsize_diag *diag, const char *argument, int32_t set, double value)
{
    if (live(diag)) {
        pvsz_fail_value(diag, PVSIZE_E_BAD_CHOICE, 0, value);
        diag->set = set;
        diag->argument = argument;
    }
    return PVSIZE_E_BAD_CHOICE;
}

void pvsz_fail_argument(pvsize_diag *diag, const char *argument)
{
    if (live(diag))
        diag->argument = argument;
}

void pvsz_fail_within(pvsize_diag *diag, double low, double high)
{
    if (live(diag)) {
        diag->has_range = true;
        diag->low = low;
        diag->high = high;
    }
}

void pvsz_fail_allowed(pvsize_diag *diag, const char *allowed)
{
    if (live(diag))
        diag->allowed = allowed;
}

void pvsz_fail_nearest(pvsize_diag *diag, const char *nearest)
{
    if (live(diag))
        diag->nearest = nearest;
}

void pvsz_fail_hint(pvsize_diag *diag, const char *hint)
{
    if (live(diag))
        diag->hint = hint;
}

void pvsz_fail_at(pvsize_diag *diag, int32_t index)
{
    if (live(diag))
        diag->index = index;
}

pvsize_status pvsz_fail_index(pvsize_diag *diag, pvsize_status status, int32_t term, int32_t index,
                              int32_t count)
{
    if (live(diag)) {
        pvsz_fail_range(diag, status, term, index, 0, count - 1);
        diag->has_range = count > 0;
    }
    return status;
}
