/* exp, log and their kin from + - * / and sqrt alone: the same bits with every C library,
 * and loops over them vectorise. Error below 2 ulp of the result (tested against
 * libm in tests/unit/test_diode.c). Arguments must be finite.
 * Reductions, the polynomial of log and the quotient of acos are those of the fdlibm papers
 * (K. C. Ng, Sun Microsystems, 1993: ln 2 in two parts, Lg1 to Lg7, pS0 to qS4); exp is its
 * Taylor series. */
#ifndef PVSZ_ELEMENTARY_H
#define PVSZ_ELEMENTARY_H

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "../base/inline.h"

PVSZ_INLINE uint64_t pvsz_bits(double x)
{
    uint64_t bits;

    memcpy(&bits, &x, sizeof bits);
    return bits;
}

PVSZ_INLINE double pvsz_from_bits(uint64_t bits)
{
    double x;

    memcpy(&x, &bits, sizeof x);
    return x;
}

PVSZ_INLINE double pvsz_least(double a, double b)
{
    return a < b ? a : b;
}

PVSZ_INLINE double pvsz_greatest(double a, double b)
{
    return a > b ? a : b;
}

PVSZ_INLINE double pvsz_size(double x)
{
    return x < 0 ? -x : x;
}

/* exp(x) as scale (1 + rest), scale a power of 2. Beyond ±600 as at ±600, so that
 * what it is multiplied with cannot overflow. */
typedef struct pvsz_power {
    double scale, rest;
} pvsz_power;

PVSZ_INLINE pvsz_power pvsz_power_of_e(double x)
{
    const double shift = 0x1.8p52; /* adding it rounds to a whole number */
    double y = pvsz_least(pvsz_greatest(x, -600), 600);
    double shifted = y * 1.44269504088896338700e+00 + shift;
    double k = shifted - shift;
    double r = (y - k * 6.93147180369123816490e-01) - k * 1.90821492927058770002e-10;
    double r2 = r * r, r4 = r2 * r2;
    double low = (1 / 2.0 + r * (1 / 6.0)) + r2 * (1 / 24.0 + r * (1 / 120.0));
    double middle = (1 / 720.0 + r * (1 / 5040.0)) + r2 * (1 / 40320.0 + r * (1 / 362880.0));
    double high =
        (1 / 3628800.0 + r * (1 / 39916800.0)) + r2 * (1 / 479001600.0 + r * (1 / 6227020800.0));

    return (pvsz_power){pvsz_from_bits((pvsz_bits(shifted) + 1023) << 52),
                        r + r2 * (low + r4 * (middle + r4 * high))};
}

PVSZ_INLINE double pvsz_exp(double x)
{
    pvsz_power power = pvsz_power_of_e(x);

    return power.scale + power.scale * power.rest;
}

/* exp(x) - 1, exact in the relative sense near 0. */
PVSZ_INLINE double pvsz_expm1(double x)
{
    pvsz_power power = pvsz_power_of_e(x);

    return power.scale * power.rest + (power.scale - 1);
}

/* Natural logarithm of a normal number above 0. */
PVSZ_INLINE double pvsz_log(double x)
{
    const uint64_t root_half = UINT64_C(0x3fe6a09e667f3bcd), one = UINT64_C(1) << 52;
    uint64_t from_root = pvsz_bits(x) - root_half + 1024 * one;
    uint64_t exponent = from_root >> 52; /* 1024 more than it is */
    /* a whole number below 2^52, by way of the digits of 2^52 + it */
    double k = pvsz_from_bits(exponent | UINT64_C(0x4330000000000000)) - 0x1.00000000004p52;
    double f = pvsz_from_bits(pvsz_bits(x) - (exponent - 1024) * one) - 1;
    double s = f / (2 + f), z = s * s, w = z * z, half = 0.5 * f * f;
    double even = w * (3.999999999940941908e-01 +
                       w * (2.222219843214978396e-01 + w * 1.531383769920937332e-01));
    double odd = z * (6.666666666666735130e-01 +
                      w * (2.857142874366239149e-01 +
                           w * (1.818357216161805012e-01 + w * 1.479819860511658591e-01)));

    return k * 6.93147180369123816490e-01 -
           ((half - (s * (half + (even + odd)) + k * 1.90821492927058770002e-10)) - f);
}

/* log(1 + x) for x above -1 and below 1e300. */
PVSZ_INLINE double pvsz_log1p(double x)
{
    double w = 1 + x;

    return pvsz_log(w) + (x - (w - 1)) / w;
}

/* acos(x) for x from 0 to 1: by the sine of the angle, or of its half. */
PVSZ_INLINE double pvsz_acos(double x)
{
    double z = x > 0.5 ? 0.5 * (1 - x) : x * x;
    double root = sqrt(z), s = x > 0.5 ? root : x;
    double p =
        z * (1.66666666666666657415e-01 +
             z * (-3.25565818622400915405e-01 +
                  z * (2.01212532134862925881e-01 +
                       z * (-4.00555345006794114027e-02 +
                            z * (7.91534994289814532176e-04 + z * 3.47933107596021167570e-05)))));
    double q = 1 + z * (-2.40339491173441421878e+00 +
                        z * (2.02094576023350569471e+00 +
                             z * (-6.88283971605453293030e-01 + z * 7.70381505559019352791e-02)));
    double more = s * (p / q); /* asin(s) - s */

    return x > 0.5 ? 2 * (s + more)
                   : 1.57079632679489655800e+00 - (s - (6.12323399573676603587e-17 - more));
}

#endif
