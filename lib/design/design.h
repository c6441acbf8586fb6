/* What was put together, laid flat: every inverter, input, array, plane and
 * module type of a system in a row of its own, with ways up and down. */
#ifndef PVSZ_DESIGN_H
#define PVSZ_DESIGN_H

#include "../equipment/spec.h"

/* One thing that rules speak of. Places count within the whole design; -1: none. */
typedef struct pvsz_subject {
    int32_t scope;            /* its kind */
    int32_t index;            /* place among its owner's parts, for people */
    int32_t at[PVSZ_SCOPES];  /* itself and what it hangs on, by kind */
    int32_t row[PVSZ_SCOPES]; /* the same, as place of their quantities among those of all */
    const pvsize_spec *spec[PVSZ_SCOPES];
    int32_t first_below;    /* input, plane, module: first array; inverter: first input */
    int32_t below;          /* how many of these */
    int32_t next_on_input;  /* array: the next one on the same input */
    int32_t next_on_plane;  /* array: the next one on the same plane */
    int32_t first_cable;    /* array, inverter: the first of its cables */
    int32_t next_cable;     /* cable: the next one of the same array or inverter */
    int32_t first_isolator; /* array, input: the first of its isolators */
    int32_t next_isolator;  /* isolator: the next one of the same array or input */
    uint64_t assumed;       /* its own parameters that a check took for granted, a bit for each */
    const char *name;
} pvsz_subject;

typedef struct pvsz_design {
    int32_t count[PVSZ_SCOPES];
    int32_t first_row[PVSZ_SCOPES]; /* row of the first subject of a kind */
    pvsz_subject *subject[PVSZ_SCOPES];
} pvsz_design;

/* Index that a spec holds; -1 where it has none. */
static inline int32_t pvsz_index_of(const pvsize_spec *spec, int32_t term)
{
    return (int32_t)pvsz_number_of(spec, term, -1);
}

/* How many subjects of each kind a spec comes to, checking that it is whole. */
pvsize_status pvsz_design_measure(const pvsize_spec *spec, pvsz_design *design, pvsize_diag *diag);
int32_t pvsz_design_size(const pvsz_design *design);
/* Lays the measured spec flat into `room` (pvsz_design_size subjects). */
void pvsz_design_lay(const pvsize_spec *spec, pvsz_design *design, pvsz_subject *room);

#endif
