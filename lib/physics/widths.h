/* One loop over a row in every width of vector instructions that the processor may have. Nothing
 * but width differs: there is no fused multiply-add (-ffp-contract=off), so the bits are the same.
 * The width is found anew at each call: nothing is remembered. */
#ifndef PVSZ_WIDTHS_H
#define PVSZ_WIDTHS_H

#include "elementary.h"

/* Points in a row: several vectors, so that they overlap. */
enum { PVSZ_ROW = 32 };

/* Makes NAME_by[width] of an inlined NAME(const WITH *, ROW *). Plain on Windows, where GCC does not
 * align the stack for wide vectors (its bug 54412; from memory). */
#if defined(__GNUC__) && defined(__x86_64__) && !defined(_WIN32)
#define PVSZ_IN_WIDTHS(NAME, WITH, ROW)                                                    \
    static void NAME##_plain(const WITH *with, ROW *r)                                     \
    {                                                                                      \
        NAME(with, r);                                                                     \
    }                                                                                      \
    __attribute__((target("avx2"))) static void NAME##_avx2(const WITH *with, ROW *r)      \
    {                                                                                      \
        NAME(with, r);                                                                     \
    }                                                                                      \
    __attribute__((target("avx512f"))) static void NAME##_avx512(const WITH *with, ROW *r) \
    {                                                                                      \
        NAME(with, r);                                                                     \
    }                                                                                      \
    static void (*const NAME##_by[])(const WITH *, ROW *) = {NAME##_plain, NAME##_avx2,    \
                                                             NAME##_avx512};

/* 0 is what every processor of the kind has; more is wider. */
static inline int pvsz_widest(void)
{
    if (__builtin_cpu_supports("avx512f")) /* GCOVR_EXCL_BR_LINE: other processors */
        return 2;
    return __builtin_cpu_supports("avx2") ? 1 : 0; /* GCOVR_EXCL_LINE: other processors */
}
#else
#define PVSZ_IN_WIDTHS(NAME, WITH, ROW)                \
    static void NAME##_plain(const WITH *with, ROW *r) \
    {                                                  \
        NAME(with, r);                                 \
    }                                                  \
    static void (*const NAME##_by[])(const WITH *, ROW *) = {NAME##_plain};

static inline int pvsz_widest(void)
{
    return 0;
}
#endif

#endif
