/* Choosing from the standard ratings. */
#include "../base/base.h"
#include "ratings.h"

/* Each row follows its series' marker, a rating of 0. */
static const double rows[] = {
#define SERIES(ID, text, KNOWN, source) 0,
#define RATING(amps) amps,
#include "../tables/device_ratings.def"
#undef SERIES
#undef RATING
};

static bool is_high_enough(double amps, double low, bool strict)
{
    return strict ? !pvsz_at_most(amps, low) : pvsz_at_most(low, amps);
}

bool pvsz_smallest_rating(int32_t series, double low, bool strict, double high, double *rating)
{
    int32_t at = 0;

    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++) {
        at += rows[i] == 0;
        if (at != series || rows[i] == 0 || !is_high_enough(rows[i], low, strict))
            continue;
        if (!pvsz_at_most(rows[i], high))
            return false;
        *rating = rows[i];
        return true;
    }
    return false;
}
