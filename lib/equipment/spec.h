/* A spec as the library sees it. */
#ifndef PVSZ_SPEC_H
#define PVSZ_SPEC_H

#include "../tables/tables.h"
#include "pvsize/spec.h"

enum { PVSZ_MOST_PART_KINDS = 6 };

typedef union pvsz_value {
    double number;
    char *text;
} pvsz_value;

typedef struct pvsz_part_list {
    pvsize_spec **item;
    size_t count, capacity;
} pvsz_part_list;

struct pvsize_spec {
    pvsz_head head;
    int32_t kind;  /* place */
    uint64_t set;  /* bit i: row i has a value */
    uint64_t none; /* bit i: it is stated that row i has none */
    /* the last stays empty, for kinds that are not held */
    pvsz_part_list parts[PVSZ_MOST_PART_KINDS + 1];
    pvsz_value value[]; /* by row */
};

bool pvsz_spec_live(const pvsize_spec *spec);
/* One more than the row of pvsz_parts that tells of parts of a kind in an owner; 0 where
 * it holds none. */
extern const uint8_t pvsz_part_row[PVSZ_SPECS][PVSZ_KINDS];
/* The list that holds parts of a kind, -1 if there is none. Rows of one owner stand
 * together, and are no more than lists: each has a list of its own. */
static inline int32_t pvsz_list_of(int32_t owner, int32_t part)
{
    uint32_t row = pvsz_part_row[owner][part];

    return row ? (int32_t)(row % PVSZ_MOST_PART_KINDS) : -1;
}
/* Parts of a kind (its place); the list is empty if this kind holds none. */
static inline const pvsz_part_list *pvsz_spec_parts(const pvsize_spec *spec, int32_t kind)
{
    int32_t list = pvsz_list_of(spec->kind, kind);

    return &spec->parts[list < 0 ? PVSZ_MOST_PART_KINDS : list];
}
/* The same list, to be changed in place; null if this kind holds none. */
pvsz_part_list *pvsz_spec_list(pvsize_spec *spec, int32_t kind);
/* An input of an inverter, which there is. */
static inline const pvsize_spec *pvsz_input_of(const pvsize_spec *inverter, int32_t input)
{
    return pvsz_spec_parts(inverter, PVSZ_KIND_INPUT)->item[input];
}
/* Label, "" if none was given. */
const char *pvsz_spec_name(const pvsize_spec *spec);
/* Same kind and same numbers in force, whatever the labels. */
bool pvsz_spec_same_numbers(const pvsize_spec *a, const pvsize_spec *b);

static inline bool pvsz_spec_has(const pvsize_spec *spec, int32_t row)
{
    return spec->set >> row & 1;
}

static inline bool pvsz_spec_states_none(const pvsize_spec *spec, int32_t row)
{
    return spec->none >> row & 1;
}

/* Whether a number may stand in a row: type, finite, whole, range. */
pvsize_status pvsz_check_number(const pvsz_term *row, double value, pvsize_diag *diag);

/* Number in force of a parameter that the spec is known to have: as set, else
 * the default, else false. Rows of specs are numbered without gaps. */
static inline bool pvsz_spec_number(const pvsize_spec *spec, int32_t term, double *value)
{
    const pvsz_kind *kind = &pvsz_kinds[spec->kind];
    int32_t row = term - kind->number - 1;

    if (pvsz_spec_has(spec, row))
        *value = spec->value[row].number;
    else if (kind->rows[row].need == PVSIZE_NEED_DEFAULT)
        *value = kind->rows[row].deflt;
    else
        return false;
    return true;
}

/* The same, or `otherwise`. */
static inline double pvsz_number_of(const pvsize_spec *spec, int32_t term, double otherwise)
{
    pvsz_spec_number(spec, term, &otherwise);
    return otherwise;
}

#endif
