/* Choosing from the standard ratings. */
#include "../base/base.h"
#include "ratings.h"

/* A row for each series, by its number. A series closes the row before it, by the 0 behind the
 * last rating: of one more than there is room for a compiler tells. */
enum { MOST_RATINGS = 48 };

/* clang-format off */
static const double ratings[PVSZ_SERIES_END][MOST_RATINGS + 1] = {{
#define SERIES(ID, text, KNOWN, source) 0}, {
#define RATING(amps) amps,
#include "../tables/device_ratings.def"
#undef SERIES
#undef RATING
0}};
/* clang-format on */

static bool is_high_enough(double amps, double low, bool strict)
{
    return strict ? !pvsz_at_most(amps, low) : pvsz_at_most(low, amps);
}

bool pvsz_smallest_rating(int32_t series, double low, bool strict, double high, double *rating)
{
    const double *at = ratings[series > 0 && series < PVSZ_SERIES_END ? series : PVSZ_SERIES_NONE];

    while (*at != 0 && !is_high_enough(*at, low, strict))
        at++;
    if (*at == 0 || !pvsz_at_most(*at, high))
        return false;
    *rating = *at;
    return true;
}
