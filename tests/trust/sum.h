/* Sums of what the library tells. Everything goes into them byte by byte, the lowest first,
 * whatever the machine's own order is. */
#ifndef SUM_H
#define SUM_H

#include <stdbool.h>
#include <stdlib.h>

#include "pvsize/pvsize.h"

/* One part's sum, with the diag for its calls. */
typedef struct sum {
    uint64_t *value;
    pvsize_diag *diag;
} sum;

void put_bytes(sum *s, const char *bytes, size_t count);
void put_int(sum *s, int64_t value);
void put_double(sum *s, double value);
void put_text(sum *s, const char *text);
void put_ints(sum *s, const int32_t *values, size_t count);
void put_doubles(sum *s, const double *values, size_t count);
#define INTS(s, ...)                              \
    put_ints((s), (const int32_t[]){__VA_ARGS__}, \
             sizeof((const int32_t[]){__VA_ARGS__}) / sizeof(int32_t))
#define DOUBLES(s, ...)                             \
    put_doubles((s), (const double[]){__VA_ARGS__}, \
                sizeof((const double[]){__VA_ARGS__}) / sizeof(double))
/* A call's result and, if it failed, what the diag says of it. */
bool went(sum *s, pvsize_status status);

/* A whole text, asked for in two steps: TEXT(sum, call, arguments before the buffer...). */
#define TEXT(s, call, ...)                                                                      \
    do {                                                                                        \
        size_t length_ = 0;                                                                     \
        if (went((s), call(__VA_ARGS__, NULL, 0, &length_, (s)->diag))) {                       \
            char *text_ = malloc(length_ + 1);                                                  \
            if (text_ && went((s), call(__VA_ARGS__, text_, length_ + 1, &length_, (s)->diag))) \
                put_bytes((s), text_, length_);                                                 \
            free(text_);                                                                        \
        }                                                                                       \
    } while (0)

/* The whole numbers that a call tells of a row. */
#define ROW(s, count, call, of, i)                                \
    do {                                                          \
        int32_t row_[count] = {0};                                \
        went((s), call((of), (i), PLACES_OF_##count, (s)->diag)); \
        put_ints((s), row_, (count));                             \
    } while (0)
#define PLACES_OF_3 &row_[0], &row_[1], &row_[2]
#define PLACES_OF_4 PLACES_OF_3, &row_[3]

#define COUNT_OF(s, variable, call, ...)                \
    int32_t variable = 0;                               \
    went((s), call(__VA_ARGS__, &variable, (s)->diag)); \
    put_int((s), variable)

#endif
