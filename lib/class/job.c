/* The job of an exercise: one site, one inverter, each array on an input and a plane
 * of its own, and invented data. */
#include <math.h>

#include "class.h"

/* frame */

static pvsize_status add_new(pvsize_spec *owner, int32_t kind, const pvsize_allocator *memory,
                             pvsize_diag *diag)
{
    pvsize_spec *part;
    pvsize_status status = pvsize_spec_new(kind, memory, &part, diag);

    if (!status)
        status = pvsize_spec_add(owner, part, NULL, diag);
    pvsize_spec_free(part);
    return status;
}

static pvsize_spec *part_of(const pvsize_spec *owner, int32_t kind, int32_t k)
{
    const pvsz_part_list *list = pvsz_spec_parts(owner, kind);

    /* GCOVR_EXCL_BR_START: no row of ranges.def shares out what there is one of */
    return list->item[(size_t)k < list->count ? (size_t)k : list->count - 1];
    /* GCOVR_EXCL_BR_STOP */
}

int32_t pvsz_job_arrays(const pvsize_spec *system)
{
    return (int32_t)pvsz_spec_parts(part_of(system, PVSZ_KIND_SITE, 0), PVSZ_KIND_PLANE)->count;
}

static pvsize_status add_array(pvsize_spec *system, int32_t k, const pvsize_allocator *memory,
                               pvsize_diag *diag)
{
    pvsize_spec *array;
    pvsize_status status = pvsize_spec_new(PVSIZE_KIND_ARRAY, memory, &array, diag);

    if (!status)
        status = add_new(array, PVSIZE_KIND_MODULE, memory, diag);
    if (!status)
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_INPUT, k, diag);
    if (!status)
        status = pvsize_spec_set_number(array, PVSIZE_ARRAY_PLANE, k, diag);
    if (!status)
        status = pvsize_spec_add(system, array, NULL, diag);
    pvsize_spec_free(array);
    return status;
}

static pvsize_status add_parts(pvsize_spec *system, int32_t arrays, const pvsize_allocator *memory,
                               pvsize_diag *diag)
{
    pvsize_status status = add_new(system, PVSIZE_KIND_SITE, memory, diag);

    if (!status)
        status = add_new(system, PVSIZE_KIND_INVERTER, memory, diag);
    for (int32_t k = 0; k < arrays && !status; k++) {
        status = add_new(part_of(system, PVSZ_KIND_SITE, 0), PVSIZE_KIND_PLANE, memory, diag);
        if (!status)
            status =
                add_new(part_of(system, PVSZ_KIND_INVERTER, 0), PVSIZE_KIND_INPUT, memory, diag);
        if (!status)
            status = add_array(system, k, memory, diag);
    }
    return status;
}

pvsize_status pvsz_make_job(int32_t arrays, const pvsize_allocator *memory, pvsize_spec **out,
                            pvsize_diag *diag)
{
    pvsize_status status = pvsize_spec_new(PVSIZE_KIND_SYSTEM, memory, out, diag);

    if (!status)
        status = add_parts(*out, arrays, memory, diag);
    if (status) {
        pvsize_spec_free(*out);
        *out = NULL;
    }
    return status;
}

/* values */

pvsize_spec *pvsz_job_part(const pvsize_spec *system, int32_t kind, int32_t k)
{
    switch (kind) {
    case PVSZ_KIND_PLANE:
        return part_of(part_of(system, PVSZ_KIND_SITE, 0), kind, k);
    case PVSZ_KIND_INPUT:
        return part_of(part_of(system, PVSZ_KIND_INVERTER, 0), kind, k);
    case PVSZ_KIND_MODULE:
        return part_of(part_of(system, PVSZ_KIND_ARRAY, k), kind, 0);
    default:
        return part_of(system, kind, k);
    }
}

static int32_t kind_of(int32_t term)
{
    return pvsz_term_find(term)->kind;
}

double pvsz_job_number(const pvsize_spec *system, int32_t term, int32_t k)
{
    double value = 0;

    pvsz_spec_number(pvsz_job_part(system, kind_of(term), k), term, &value);
    return value;
}

static void put(pvsize_spec *spec, int32_t term, double value, bool none)
{
    int32_t row = pvsz_term_place(pvsz_term_find(term));
    uint64_t bit = UINT64_C(1) << row;

    spec->value[row].number = value;
    spec->set = none ? spec->set & ~bit : spec->set | bit;
    spec->none = none ? spec->none | bit : spec->none & ~bit;
}

void pvsz_job_set(const pvsize_spec *system, int32_t term, int32_t k, double value)
{
    put(pvsz_job_part(system, kind_of(term), k), term, value, false);
}

/* the table */

typedef struct row {
    enum { DRAW, SHARE, NONE } manner;
    int32_t term;
    const char *label;
    int32_t of, times;
    int32_t low, high, step, parts;
} row;

#define PVSIZE_NO_TERM 0
static const row rows[] = {
#define DRAWS(TERM, label, parts, low, high, step) \
    {DRAW, PVSIZE_##TERM, label, 0, 0, low, high, step, parts},
#define SHARES(TERM, label, OF, TIMES, low, high, step, parts) \
    {SHARE, PVSIZE_##TERM, label, PVSIZE_##OF, PVSIZE_##TIMES, low, high, step, parts},
#define NOTHING(TERM) {NONE, PVSIZE_##TERM, NULL, 0, 0, 0, 0, 0, 0},
#include "../tables/ranges.def"
#undef DRAWS
#undef SHARES
#undef NOTHING
};

int32_t pvsz_told_term(int32_t i, const char **label)
{
    for (int32_t k = 0; k < PVSZ_COUNT(rows); k++)
        if (rows[k].label && i-- == 0) {
            *label = rows[k].label;
            return rows[k].term;
        }
    return 0;
}

/* Whole numbers over a power of ten, so that it is the double that prints so. */
static double drawn(const row *r, const pvsize_spec *system, int32_t k, pvsz_random *random)
{
    double of;

    if (r->manner == DRAW)
        return (double)(r->low + r->step * pvsz_between(random, 0, (r->high - r->low) / r->step)) /
               r->parts;
    of = pvsz_job_number(system, r->of, k) * (r->times ? pvsz_job_number(system, r->times, k) : 1) *
         pvsz_between(random, r->low, r->high) / 1000;
    return floor(of * r->parts / r->step + 0.5) * r->step / r->parts;
}

/* One module type for all arrays: its values are drawn for the first. */
static int32_t count_of(int32_t kind, int32_t arrays)
{
    bool alone = kind == PVSZ_KIND_SITE || kind == PVSZ_KIND_INVERTER || kind == PVSZ_KIND_MODULE;

    return alone ? 1 : arrays;
}

static void draw_row(const row *r, pvsize_spec *system, pvsz_random *random)
{
    int32_t kind = kind_of(r->term), arrays = pvsz_job_arrays(system);

    for (int32_t k = 0; k < count_of(kind, arrays); k++) {
        double value = r->manner == NONE ? 0 : drawn(r, system, k, random);
        int32_t last = kind == PVSZ_KIND_MODULE ? arrays : k + 1;

        for (int32_t copy = k; copy < last; copy++)
            put(pvsz_job_part(system, kind, copy), r->term, value, r->manner == NONE);
    }
}

double pvsz_job_power(const pvsize_spec *system)
{
    double power = 0;

    for (int32_t k = 0; k < pvsz_job_arrays(system); k++)
        power += pvsz_job_number(system, PVSIZE_ARRAY_STRINGS, k) *
                 pvsz_job_number(system, PVSIZE_ARRAY_MODULES_PER_STRING, k) *
                 pvsz_job_number(system, PVSIZE_MODULE_PMAX, k);
    return power;
}

void pvsz_draw_job(pvsize_spec *system, int32_t level, int32_t fault, pvsz_random *random)
{
    static const struct {
        int32_t low, high;
    } strings[][PVSZ_MOST_PLACES] = {
        [PVSIZE_LEVEL_ONE_INPUT] = {{1, 2}},
        [PVSIZE_LEVEL_TWO_INPUTS] = {{2, 3}, {1, 1}},
        [PVSIZE_LEVEL_PARALLEL] = {{2, 5}},
        [PVSIZE_LEVEL_FAULT] = {{1, 2}},
    };

    if (pvsz_is_of_devices(fault)) /* those of many strings */
        level = PVSIZE_LEVEL_PARALLEL;

    for (int32_t k = 0; k < pvsz_job_arrays(system); k++)
        pvsz_job_set(system, PVSIZE_ARRAY_STRINGS, k,
                     pvsz_between(random, strings[level][k].low, strings[level][k].high));
    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        draw_row(&rows[i], system, random);
}
