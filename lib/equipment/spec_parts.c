/* The parts a spec holds: which kinds, and how many, say the rows of kinds.def. */
#include <string.h>

#include "spec.h"

const uint8_t pvsz_part_row[PVSZ_SPECS][PVSZ_KINDS] = {
#define KIND(number, ID, name, plural, text)
#define PART(owner, part, fewest, most) \
    [PVSZ_KIND_##owner][PVSZ_KIND_##part] = PVSZ_PART_##owner##_##part + 1,
#include "../tables/kinds.def"
#undef KIND
#undef PART
};

pvsz_part_list *pvsz_spec_list(pvsize_spec *spec, int32_t kind)
{
    int32_t list = pvsz_list_of(spec->kind, kind);

    return list < 0 ? NULL : &spec->parts[list];
}

static pvsize_status check_handles(const pvsize_spec *spec, const pvsize_spec *part,
                                   pvsize_diag *diag)
{
    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (!part)
        return pvsz_fail_null(diag, "part");
    if (!pvsz_spec_live(part))
        return pvsz_fail_handle(diag, "part");
    return PVSIZE_OK;
}

static pvsize_status wrong_part(const pvsize_spec *spec, int32_t kind, pvsize_diag *diag)
{
    char takes[64] = "a part of ";

    strncat(takes, pvsz_kinds[spec->kind].name, sizeof takes - strlen(takes) - 1);
    return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, kind, takes);
}

pvsize_status pvsize_spec_add(pvsize_spec *spec, const pvsize_spec *part, int32_t *index,
                              pvsize_diag *diag)
{
    pvsize_status status = check_handles(spec, part, diag);
    const pvsz_part *rule;
    pvsz_part_list *list;
    pvsize_spec *copy, **grown;
    int32_t place;

    if (status)
        return status;
    place = pvsz_list_of(spec->kind, part->kind);
    if (place < 0)
        return wrong_part(spec, pvsz_kinds[part->kind].number, diag);
    rule = &pvsz_parts[pvsz_part_row[spec->kind][part->kind] - 1];
    list = &spec->parts[place];
    if (list->count >= (size_t)rule->most)
        return pvsz_fail_range(diag, PVSIZE_E_TOO_MANY, pvsz_kinds[part->kind].number,
                               (double)list->count + 1, rule->fewest, rule->most);
    status = pvsize_spec_clone(part, &spec->head.memory, &copy, diag);
    if (status)
        return status;
    grown =
        pvsz_grow(&spec->head.memory, list->item, list->count, &list->capacity, sizeof *list->item);
    if (!grown) {
        pvsize_spec_free(copy);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    list->item = grown;
    if (index)
        *index = (int32_t)list->count;
    list->item[list->count++] = copy;
    return PVSIZE_OK;
}

/* The list of a spec that holds parts of a kind. */
static pvsize_status find_list(const pvsize_spec *spec, int32_t kind, const pvsz_part_list **list,
                               pvsize_diag *diag)
{
    const pvsz_kind *row;
    int32_t place;

    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    row = pvsz_kind_find(kind);
    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    place = pvsz_list_of(spec->kind, (int32_t)(row - pvsz_kinds));
    if (place < 0)
        return wrong_part(spec, kind, diag);
    *list = &spec->parts[place];
    return PVSIZE_OK;
}

static pvsize_status find_part(const pvsize_spec *spec, int32_t kind, int32_t index,
                               const pvsz_part_list **list, pvsize_diag *diag)
{
    pvsize_status status = find_list(spec, kind, list, diag);

    if (!status && (index < 0 || (size_t)index >= (*list)->count))
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, kind, index, (int32_t)(*list)->count);
    return status;
}

pvsize_status pvsize_spec_part_count(const pvsize_spec *spec, int32_t kind, int32_t *count,
                                     pvsize_diag *diag)
{
    const pvsz_part_list *list;
    pvsize_status status = find_list(spec, kind, &list, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = (int32_t)list->count;
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_part(const pvsize_spec *spec, int32_t kind, int32_t index,
                               const pvsize_allocator *memory, pvsize_spec **out, pvsize_diag *diag)
{
    const pvsz_part_list *list;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = find_part(spec, kind, index, &list, diag);
    if (status)
        return status;
    return pvsize_spec_clone(list->item[index], memory, out, diag);
}

pvsize_status pvsize_spec_replace(pvsize_spec *spec, int32_t index, const pvsize_spec *part,
                                  pvsize_diag *diag)
{
    pvsize_status status = check_handles(spec, part, diag);
    const pvsz_part_list *list;
    pvsize_spec *copy;

    if (!status)
        status = find_part(spec, pvsz_kinds[part->kind].number, index, &list, diag);
    if (!status)
        status = pvsize_spec_clone(part, &spec->head.memory, &copy, diag);
    if (status)
        return status;
    pvsize_spec_free(list->item[index]);
    list->item[index] = copy;
    return PVSIZE_OK;
}

pvsize_status pvsize_spec_remove(pvsize_spec *spec, int32_t kind, int32_t index, pvsize_diag *diag)
{
    const pvsz_part_list *found;
    pvsize_status status = find_part(spec, kind, index, &found, diag);
    pvsz_part_list *list;

    if (status)
        return status;
    list = &spec->parts[pvsz_list_of(spec->kind, (int32_t)(pvsz_kind_find(kind) - pvsz_kinds))];
    pvsize_spec_free(list->item[index]);
    memmove(&list->item[index], &list->item[index + 1],
            (list->count - (size_t)index - 1) * sizeof(pvsize_spec *));
    list->count--;
    return PVSIZE_OK;
}

/* The part whose parameter a term is. */
static pvsize_status find_part_by_term(const pvsize_spec *spec, int32_t index, int32_t term,
                                       pvsize_spec **part, pvsize_diag *diag)
{
    const pvsz_part_list *list = NULL;
    pvsize_status status;

    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (!pvsz_term_find(term))
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, term);
    status = find_part(spec, pvsize_term_kind(term), index, &list, diag);
    if (!status)
        *part = list->item[index];
    return status;
}

pvsize_status pvsize_spec_set_part_number(pvsize_spec *spec, int32_t index, int32_t term,
                                          double value, pvsize_diag *diag)
{
    pvsize_spec *part;
    pvsize_status status = find_part_by_term(spec, index, term, &part, diag);

    if (status)
        return status;
    status = pvsize_spec_set_number(part, term, value, diag);
    if (status)
        pvsz_fail_at(diag, index);
    return status;
}

pvsize_status pvsize_spec_get_part_number(const pvsize_spec *spec, int32_t index, int32_t term,
                                          double *value, pvsize_diag *diag)
{
    pvsize_spec *part;
    pvsize_status status = find_part_by_term(spec, index, term, &part, diag);

    if (status)
        return status;
    status = pvsize_spec_get_number(part, term, value, diag);
    if (status)
        pvsz_fail_at(diag, index);
    return status;
}
