/* States met before. Two ways to the same room, power and place in the order of like
 * inputs leave the same to be had; what was proven of it is kept. A table of fixed
 * size: a new state takes the place of an old one. */
#include <string.h>

#include "layout.h"

struct pvsz_seen {
    size_t places; /* a power of two; 0: the problem is too small to be worth it */
    size_t words;
    int64_t *state; /* words for each place; the first is 0 where there is none */
    pvsz_key *bound;
    int64_t *present;
    size_t at;
};

/* places for each slot: more are hardly ever filled */
enum { MOST_BYTES = 8 << 20, MOST_PLACES = 1 << 16, PLACES_PER_SLOT = 4096, LEAST_SLOTS = 3 };

pvsz_seen *pvsz_make_seen(pvsz_problem *problem)
{
    pvsz_seen *seen = pvsz_take(problem, 1, sizeof *seen);
    size_t bytes;

    if (!seen)
        return NULL;
    seen->words = (size_t)problem->planes + 6;
    bytes = seen->words * sizeof *seen->state + sizeof *seen->bound;
    if (problem->slots >= LEAST_SLOTS)
        for (seen->places = 1024; seen->places < MOST_PLACES &&
                                  seen->places < PLACES_PER_SLOT * (size_t)problem->slots &&
                                  seen->places * bytes * 2 < MOST_BYTES;)
            seen->places *= 2;
    seen->present = pvsz_take(problem, seen->words, sizeof *seen->present);
    seen->state = pvsz_take(problem, seen->places * seen->words, sizeof *seen->state);
    seen->bound = pvsz_take(problem, seen->places, sizeof *seen->bound);
    return seen->present && seen->state && seen->bound ? seen : NULL;
}

static uint64_t mix(const int64_t *word, size_t words)
{
    uint64_t hash = UINT64_C(0x9E3779B97F4A7C15);

    for (size_t i = 0; i < words; i++) {
        hash ^= (uint64_t)word[i];
        hash *= UINT64_C(0xBF58476D1CE4E5B9);
        hash ^= hash >> 29;
    }
    return hash;
}

void pvsz_seen_state(const pvsz_problem *problem, pvsz_seen *seen, int32_t slot, int32_t low,
                     int32_t first, const pvsz_room *room)
{
    int64_t *word = seen->present;

    if (seen->places == 0)
        return;
    word[0] = slot + 1;
    word[1] = low;
    word[2] = first;
    word[3] = problem->slot[slot].first == slot ? 0 : room->unit_power;
    word[4] = room->system_power;
    word[5] = room->modules;
    for (int32_t i = 0; i < problem->planes; i++)
        word[6 + i] = room->plane[i];
    seen->at = (size_t)(mix(word, seen->words) & (seen->places - 1));
}

static bool is_here(const pvsz_seen *seen, const int64_t *state)
{
    return memcmp(&seen->state[seen->at * seen->words], state, seen->words * sizeof *state) == 0;
}

const pvsz_key *pvsz_seen_bound(const pvsz_seen *seen)
{
    return seen->places && is_here(seen, seen->present) ? &seen->bound[seen->at] : NULL;
}

void pvsz_remember(pvsz_seen *seen, const pvsz_key *bound)
{
    if (seen->places == 0)
        return;
    memcpy(&seen->state[seen->at * seen->words], seen->present,
           seen->words * sizeof *seen->present);
    seen->bound[seen->at] = *bound;
}
