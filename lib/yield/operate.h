/* Where an input works in one hour: at its maximum-power point, or where its limits leave it. */
#ifndef PVSZ_OPERATE_H
#define PVSZ_OPERATE_H

#include "../physics/joined.h"
#include "plant.h"

/* What is left behind each limit of the input, in the order of the ledger. */
enum { PVSZ_AT_BEST, PVSZ_IN_WINDOW, PVSZ_AT_CURRENT, PVSZ_AT_POWER, PVSZ_HOLDS };

typedef struct pvsz_hold {
    double power[PVSZ_HOLDS];
    double voltage; /* at the last of them */
    bool feeds;
} pvsz_hold;

/* Whether a limit of the input takes nothing at this point. */
static inline bool pvsz_is_free(const pvsz_intake *in, pvsz_point point)
{
    return point.voltage >= in->lowest && point.voltage <= in->highest &&
           point.current <= in->current && point.voltage * point.current <= in->power;
}

/* Strings together, whose maximum-power point is `best`, held within the limits. One branch alone
 * needs no open-circuit voltage, and is not blocked. */
pvsz_hold pvsz_hold_at(const pvsz_intake *in, const pvsz_joined *joined, pvsz_point best);
/* Whether the input may begin to feed. */
bool pvsz_may_start(const pvsz_intake *in, const pvsz_joined *joined);

#endif
