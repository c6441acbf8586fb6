/* Which parameters must be given, and which have a default, of the kinds that rules speak
 * of: a bit for each row. Here, so that a compiler sees them. */
#ifndef PVSZ_NEEDS_H
#define PVSZ_NEEDS_H

#include "tables.h"

#define NEED_BIT(number, need, wanted) \
    | ((uint64_t)(PVSIZE_NEED_##need == PVSIZE_NEED_##wanted) << (number % 1000 - 1))

static const uint64_t pvsz_required[PVSZ_SCOPES] = {
#define TERM(number, KIND, ID, name, TYPE, unit, low, high, NEED, deflt, link, text) \
    NEED_BIT(number, NEED, REQUIRED)
#include "needs.def"
#undef TERM
};

static const uint64_t pvsz_defaulted[PVSZ_SCOPES] = {
#define TERM(number, KIND, ID, name, TYPE, unit, low, high, NEED, deflt, link, text) \
    NEED_BIT(number, NEED, DEFAULT)
#include "needs.def"
#undef TERM
};

#undef NEED_BIT

#endif
