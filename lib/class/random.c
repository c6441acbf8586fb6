/* SplitMix64 (Steele, Lea, Flood 2014), written out: the same numbers of the same
 * seed on every machine. */
#include "class.h"

static uint64_t next(pvsz_random *random)
{
    uint64_t z = random->state += UINT64_C(0x9E3779B97F4A7C15);

    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

int32_t pvsz_between(pvsz_random *random, int32_t low, int32_t high)
{
    uint64_t count = (uint64_t)(int64_t)(high - low) + 1;

    /* 32 bits times a small count, its upper half: no value is favoured that matters */
    return low + (int32_t)((next(random) >> 32) * count >> 32);
}
