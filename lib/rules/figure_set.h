/* A set of figures: one bit for each, by place. */
#ifndef PVSZ_FIGURE_SET_H
#define PVSZ_FIGURE_SET_H

#include "../tables/tables.h"

enum { PVSZ_FIGURE_WORDS = (PVSZ_FIGURES + 63) / 64 };

typedef struct pvsz_figure_set {
    uint64_t word[PVSZ_FIGURE_WORDS];
} pvsz_figure_set;

static inline void pvsz_include_figure(pvsz_figure_set *set, int32_t place)
{
    set->word[place / 64] |= UINT64_C(1) << place % 64;
}

static inline bool pvsz_includes_figure(const pvsz_figure_set *set, int32_t place)
{
    return set->word[place / 64] >> place % 64 & 1;
}

/* What is in either. */
static inline void pvsz_unite_figures(pvsz_figure_set *set, const pvsz_figure_set *other)
{
    for (int32_t i = 0; i < PVSZ_FIGURE_WORDS; i++)
        set->word[i] |= other->word[i];
}

/* What is in both. */
static inline void pvsz_intersect_figures(pvsz_figure_set *set, const pvsz_figure_set *other)
{
    for (int32_t i = 0; i < PVSZ_FIGURE_WORDS; i++)
        set->word[i] &= other->word[i];
}

/* The first figure from this place on; PVSZ_FIGURES if there is none. */
static inline int32_t pvsz_next_figure(const pvsz_figure_set *set, int32_t place)
{
    while (place < PVSZ_FIGURES && !pvsz_includes_figure(set, place))
        place++;
    return place;
}

#endif
