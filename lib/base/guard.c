/* Comparisons that decide a verdict or a count use + - * / and floor only. */
#include <math.h>

#include "base.h"

enum { MOST_PIECES = 1000000000 };

double pvsz_most_that_fit(double unit, double limit)
{
    double n;

    if (!(unit > 0) || !(limit > 0))
        return 0;
    n = floor(limit / unit);
    if (n > MOST_PIECES)
        return MOST_PIECES;
    /* the quotient may round across a whole number: let the guard decide */
    if (pvsz_at_most((n + 1) * unit, limit))
        n++;
    return n;
}

double pvsz_fewest_that_reach(double unit, double floor_value)
{
    double n;

    if (!(unit > 0) || !(floor_value > 0))
        return 0;
    n = ceil(floor_value / unit);
    if (n > MOST_PIECES)
        return MOST_PIECES;
    if (n > 0 && pvsz_at_most(floor_value, (n - 1) * unit))
        n--;
    return n;
}
