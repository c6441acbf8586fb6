/* What stringings are ranked by: whole numbers, compared level by level. */
#ifndef PVSZ_KEY_H
#define PVSZ_KEY_H

#include <stdbool.h>
#include <stdint.h>

/* the objective; what comes next (order of planes, or power); fewest parts */
enum { PVSZ_KEY_LEVELS = 3 };

typedef struct pvsz_key {
    int64_t level[PVSZ_KEY_LEVELS];
} pvsz_key;

/* Below every key that can be reached: sums are held under 2^60. */
#define PVSZ_NEVER ((pvsz_key){{INT64_MIN / 2, 0, 0}})

static inline bool pvsz_is_never(const pvsz_key *key)
{
    return key->level[0] <= INT64_MIN / 4;
}

static inline int pvsz_compare_keys(const pvsz_key *a, const pvsz_key *b)
{
    for (int i = 0; i < PVSZ_KEY_LEVELS; i++)
        if (a->level[i] != b->level[i])
            return a->level[i] < b->level[i] ? -1 : 1;
    return 0;
}

static inline pvsz_key pvsz_better_key(pvsz_key a, pvsz_key b)
{
    return pvsz_compare_keys(&a, &b) < 0 ? b : a;
}

static inline pvsz_key pvsz_worse_key(pvsz_key a, pvsz_key b)
{
    return pvsz_compare_keys(&a, &b) < 0 ? a : b;
}

/* a + times x b; never and anything is never */
static inline pvsz_key pvsz_add_key(pvsz_key a, pvsz_key b, int64_t times)
{
    if (pvsz_is_never(&a) || pvsz_is_never(&b))
        return PVSZ_NEVER;
    for (int i = 0; i < PVSZ_KEY_LEVELS; i++)
        a.level[i] += times * b.level[i];
    return a;
}

#endif
