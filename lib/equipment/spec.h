/* A spec as the library sees it. */
#ifndef PV_SPEC_H
#define PV_SPEC_H

#include "../tables/tables.h"
#include "pvsize/spec.h"

enum { PV_MOST_PART_KINDS = 3, PV_MOST_TEXT = 200 };

typedef union pv_value {
    double number;
    char *text;
} pv_value;

typedef struct pv_part_list {
    pvsize_spec **item;
    size_t count, capacity;
} pv_part_list;

struct pvsize_spec {
    uint32_t mark;
    int32_t kind; /* place */
    pv_memory memory;
    uint64_t set; /* bit i: row i has a value */
    pv_part_list parts[PV_MOST_PART_KINDS];
    pv_value value[]; /* by row */
};

bool pv_spec_live(const pvsize_spec *spec);
/* Parts of a kind (its place); the list is empty if this kind holds none. */
const pv_part_list *pv_spec_parts(const pvsize_spec *spec, int32_t kind);
/* Label, "" if none was given. */
const char *pv_spec_name(const pvsize_spec *spec);
/* Same kind and same numbers, whatever the labels. */
bool pv_spec_same_numbers(const pvsize_spec *a, const pvsize_spec *b);

static inline bool pv_spec_has(const pvsize_spec *spec, int32_t row)
{
    return spec->set >> row & 1;
}

/* Number in force of a parameter that the spec is known to have: as set, else
 * the default, else false. Rows of specs are numbered without gaps. */
static inline bool pv_spec_number(const pvsize_spec *spec, int32_t term, double *value)
{
    const pv_kind *kind = &pv_kinds[spec->kind];
    int32_t row = term - kind->number - 1;

    if (pv_spec_has(spec, row))
        *value = spec->value[row].number;
    else if (kind->rows[row].need == PVSIZE_NEED_DEFAULT)
        *value = kind->rows[row].deflt;
    else
        return false;
    return true;
}

#endif
