/* Bracketed root. */
#include "root.h"

#include "elementary.h"

typedef struct place {
    double x, f;
} place;

/* Share of the way from b back to a at which to look next. */
static double next_share(place a, place b, place c, double least)
{
    double xi = (a.x - b.x) / (c.x - b.x), phi = (a.f - b.f) / (c.f - b.f);
    double share = 0.5;

    /* the inverse of the curve through the three is sound there only */
    if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)
        share = a.f / (b.f - a.f) * c.f / (b.f - c.f) +
                (c.x - a.x) / (b.x - a.x) * a.f / (c.f - a.f) * b.f / (c.f - b.f);
    return pvsz_least(pvsz_greatest(share, least), 1 - least);
}

double pvsz_find_root(pvsz_function *f, const void *context, double low, double high)
{
    place a = {high, f(context, high)}, b = {low, f(context, low)};
    double share = 0.5;

    for (int i = 0; i < 198 && a.f != 0 && b.f != 0 && (a.f > 0) != (b.f > 0); i++) {
        place next = {a.x + share * (b.x - a.x), 0}, c;
        double closest, least;

        next.f = f(context, next.x);
        if ((next.f > 0) == (a.f > 0)) {
            c = a;
        } else {
            c = b;
            b = a;
        }
        a = next;
        closest = pvsz_size(a.f) < pvsz_size(b.f) ? a.x : b.x;
        least = 2.5e-16 * pvsz_size(closest) / pvsz_size(b.x - a.x);
        if (least > 0.5)
            break;
        share = next_share(a, b, c, least);
    }
    return pvsz_size(a.f) < pvsz_size(b.f) ? a.x : b.x;
}
