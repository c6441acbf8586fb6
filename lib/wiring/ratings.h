/* Standard ratings of overcurrent devices. Numbers in, numbers out. */
#ifndef PVSZ_RATINGS_H
#define PVSZ_RATINGS_H

#include <stdbool.h>
#include <stdint.h>

/* Series count from 1, in the order of lib/tables/device_ratings.def. */
enum {
    PVSZ_SERIES_NONE,
#define SERIES(ID, text, KNOWN, source) PVSZ_SERIES_##ID,
#define RATING(amps)
#include "../tables/device_ratings.def"
#undef SERIES
#undef RATING
    PVSZ_SERIES_END
};

/* Smallest standard rating at or above `low` (above it, if strict) and at most
 * `high`; false if none lies there, or the series is not known. */
bool pvsz_smallest_rating(int32_t series, double low, bool strict, double high, double *rating);

#endif
