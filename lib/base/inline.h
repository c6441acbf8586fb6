/* What must not be called for: loops become vector instructions only if all within is
 * inlined, and a check does some things a few hundred times. */
#ifndef PVSZ_INLINE_H
#define PVSZ_INLINE_H

#ifdef __GNUC__
#define PVSZ_INLINE __attribute__((always_inline)) static inline
#else
#define PVSZ_INLINE static inline
#endif

#endif
