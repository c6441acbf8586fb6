/* Choices for tests, one after another: from a seed, or from bytes that somebody
 * else thought of (a fuzzer). */
#ifndef DRAW_H
#define DRAW_H

#include <stddef.h>
#include <stdint.h>

typedef struct draw {
    const uint8_t *bytes; /* null: from the seed */
    size_t left;
    uint64_t state;
} draw;

draw draw_from_seed(uint64_t seed);
/* When the bytes are used up all choices are 0. */
draw draw_from_bytes(const uint8_t *bytes, size_t count);

/* 0 to 2^32 - 1 */
uint32_t draw_word(draw *d);
/* 0 to n - 1; 0 if n is less than 1 */
int32_t draw_below(draw *d, int32_t n);
/* A number between, ends included. */
double draw_between(draw *d, double low, double high);
/* What no careful caller would give: not finite, not normal, minus zero, at the ends
 * of the integers and next to them. */
double draw_strange(draw *d);
int32_t draw_strange_count(draw *d);

#endif
