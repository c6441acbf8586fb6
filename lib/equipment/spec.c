/* Making, copying and ending specs. Values: spec_values.c; parts: spec_parts.c. */
#include <string.h>

#include "spec.h"

bool pvsz_spec_live(const pvsize_spec *spec)
{
    return pvsz_is(spec, PVSZ_MARK_SPEC);
}

static pvsize_status make(int32_t kind, const pvsize_allocator *memory, pvsize_spec **out,
                          pvsize_diag *diag)
{
    size_t rows = (size_t)pvsz_kinds[kind].count;
    void *made;
    pvsize_status status =
        pvsz_make(memory, sizeof **out + rows * sizeof(pvsz_value), PVSZ_MARK_SPEC, &made, diag);

    *out = made;
    if (!status)
        (*out)->kind = kind;
    return status;
}

pvsize_status pvsize_spec_new(int32_t kind, const pvsize_allocator *memory, pvsize_spec **out,
                              pvsize_diag *diag)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    if (!pvsize_kind_is_spec(kind))
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, kind, "kind of object");
    return make((int32_t)(row - pvsz_kinds), memory, out, diag);
}

/* The first row of every kind that has a text is the label, and no other is one. */
static bool has_label(const pvsize_spec *spec)
{
    return pvsz_spec_has(spec, 0) && pvsz_kinds[spec->kind].rows[0].type == PVSIZE_TYPE_TEXT;
}

static bool copy_values(pvsize_spec *copy, const pvsize_spec *spec)
{
    char *label = NULL;

    if (has_label(spec)) {
        label = pvsz_copy_text(&copy->head.memory, spec->value[0].text);
        if (!label)
            return false;
    }
    memcpy(copy->value, spec->value, (size_t)pvsz_kinds[spec->kind].count * sizeof *spec->value);
    if (label)
        copy->value[0].text = label;
    copy->set = spec->set;
    copy->none = spec->none;
    return true;
}

static bool copy_parts(pvsize_spec *copy, const pvsize_spec *spec)
{
    for (int32_t list = 0; list < PVSZ_MOST_PART_KINDS; list++) {
        const pvsz_part_list *from = &spec->parts[list];
        pvsz_part_list *to = &copy->parts[list];

        if (from->count == 0)
            continue;
        to->item = pvsz_new(&copy->head.memory, from->count, sizeof(pvsize_spec *));
        if (!to->item)
            return false;
        to->capacity = from->count;
        for (; to->count < from->count; to->count++)
            if (pvsize_spec_clone(from->item[to->count], &copy->head.memory, &to->item[to->count],
                                  NULL))
                return false;
    }
    return true;
}

/* Parts nest no deeper than the table of kinds: search, system, site, plane. */
pvsize_status pvsize_spec_clone(const pvsize_spec *spec, const pvsize_allocator *memory,
                                pvsize_spec **out, pvsize_diag *diag)
{
    pvsize_spec *copy;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    status = make(spec->kind, memory, &copy, diag);
    if (status)
        return status;
    if (copy_values(copy, spec) && copy_parts(copy, spec)) {
        *out = copy;
        return PVSIZE_OK;
    }
    pvsize_spec_free(copy);
    return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}

void pvsize_spec_free(pvsize_spec *spec)
{
    pvsz_memory memory;

    if (!pvsz_spec_live(spec))
        return;
    memory = spec->head.memory;
    for (int32_t list = 0; list < PVSZ_MOST_PART_KINDS; list++) {
        for (size_t i = 0; i < spec->parts[list].count; i++)
            pvsize_spec_free(spec->parts[list].item[i]);
        pvsz_release(&memory, spec->parts[list].item);
    }
    if (has_label(spec))
        pvsz_release(&memory, spec->value[0].text);
    pvsz_unmake(spec);
}

int32_t pvsize_spec_kind(const pvsize_spec *spec)
{
    return pvsz_spec_live(spec) ? pvsz_kinds[spec->kind].number : 0;
}

const char *pvsz_spec_name(const pvsize_spec *spec)
{
    return has_label(spec) ? spec->value[0].text : "";
}

bool pvsz_spec_same_numbers(const pvsize_spec *a, const pvsize_spec *b)
{
    const pvsz_kind *kind = &pvsz_kinds[a->kind];

    if (a->kind != b->kind || a->none != b->none)
        return false;
    /* fast where all behind the name is the same */
    if ((a->set ^ b->set) <= 1 &&
        memcmp(a->value + 1, b->value + 1, (size_t)(kind->count - 1) * sizeof *a->value) == 0)
        return true;
    for (int32_t i = 0; i < kind->count; i++) {
        double of_a = 0, of_b = 0;

        if (kind->rows[i].type == PVSIZE_TYPE_TEXT)
            continue;
        if (pvsz_spec_number(a, kind->rows[i].number, &of_a) !=
                pvsz_spec_number(b, kind->rows[i].number, &of_b) ||
            of_a != of_b)
            return false;
    }
    return true;
}
