/* What must not be called for: loops become vector instructions only if all within is
 * inlined, and a check does some things a few hundred times. PVSZ_ONE_OF_EACH is for
 * tests/coverage.sh, which counts the branches of a function once, not those of each copy. */
#ifndef PVSZ_INLINE_H
#define PVSZ_INLINE_H

#if defined(__GNUC__) && !defined(PVSZ_ONE_OF_EACH)
#define PVSZ_INLINE __attribute__((always_inline)) static inline
#else
#define PVSZ_INLINE static inline
#endif

#endif
