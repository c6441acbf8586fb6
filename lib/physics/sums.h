/* Sums in eight parts: a chain of additions that waits for nothing but itself would cost more
 * than what is added up. The order is fixed, so the bits are. */
#ifndef PVSZ_SUMS_H
#define PVSZ_SUMS_H

#include <stddef.h>

#include "elementary.h"

PVSZ_INLINE double pvsz_join_parts(const double part[8], double rest)
{
    return (((part[0] + part[4]) + (part[1] + part[5])) +
            ((part[2] + part[6]) + (part[3] + part[7]))) +
           rest;
}

PVSZ_INLINE double pvsz_sum_products(size_t n, const double *a, const double *b)
{
    double part[8] = {0}, rest = 0;
    size_t i = 0;

    for (; i + 8 <= n; i += 8)
        for (size_t k = 0; k < 8; k++)
            part[k] += a[i + k] * b[i + k];
    for (; i < n; i++)
        rest += a[i] * b[i];
    return pvsz_join_parts(part, rest);
}

PVSZ_INLINE double pvsz_total(size_t n, const double *a)
{
    double part[8] = {0}, rest = 0;
    size_t i = 0;

    for (; i + 8 <= n; i += 8)
        for (size_t k = 0; k < 8; k++)
            part[k] += a[i + k];
    for (; i < n; i++)
        rest += a[i];
    return pvsz_join_parts(part, rest);
}

#endif
