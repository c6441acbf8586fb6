/* Bounds as bound_tables.c fills them, bound_prices.c prices and makes them, and bound.c
 * asks them. */
#ifndef PVSZ_BOUND_H
#define PVSZ_BOUND_H

#include "layout.h"

struct pvsz_bounds {
    int32_t mode;
    int32_t step;  /* modules that count as one, where there are very many */
    int32_t total; /* steps in a table of all */
    bool priced;
    int32_t *size;     /* by slot: steps of its table */
    pvsz_key **within; /* by slot: best of it and the rest of its inverter, taking so many steps */
    pvsz_key **rest;   /* by first slot of an inverter: best of it and all behind it */
    pvsz_key *exact, *other;
};

static inline int32_t pvsz_smaller(int64_t a, int64_t b)
{
    int64_t least = a < b ? a : b;

    return (int32_t)(least < 0 ? 0 : least);
}

/* Modules that a limit on power leaves at most. */
static inline int64_t pvsz_modules_within(const pvsz_problem *problem, int64_t left)
{
    if (left == INT64_MAX)
        return INT32_MAX;
    return left < 0 ? -1 : left / problem->least_power;
}

/* bound_tables.c */
/* The size of the tables by the present step; true: too much, a coarser step is needed. */
bool pvsz_choose_step(const pvsz_problem *problem, pvsz_bounds *bounds);
pvsize_status pvsz_make_tables(pvsz_problem *problem, pvsz_bounds *bounds);
/* By the present prices. */
void pvsz_fill_tables(const pvsz_problem *problem, pvsz_bounds *bounds);

#endif
