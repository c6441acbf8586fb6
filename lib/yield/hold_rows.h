/* Limits of an input with equal strings alone, many hours at once. */
#ifndef PVSZ_HOLD_ROWS_H
#define PVSZ_HOLD_ROWS_H

#include "../physics/diode_held.h"
#include "operate.h"

/* Hours at once. */
enum { PVSZ_SPAN = 256 };

/* Equal strings; their points by hour, per module. */
typedef struct pvsz_alike {
    const pvsz_module *module; /* with cables */
    pvsz_peaks peaks;
    double modules, strings;
} pvsz_alike;

/* Hours that a limit takes something of: the places of them, and by place in this list what
 * pvsz_hold_at finds. */
typedef struct pvsz_holds {
    int32_t count;
    int32_t hour[PVSZ_SPAN];
    pvsz_hold hold[PVSZ_SPAN];
} pvsz_holds;

static inline pvsz_point pvsz_own_point(const pvsz_alike *strings, int32_t hour)
{
    return (pvsz_point){strings->modules * strings->peaks.voltage[hour],
                        strings->strings * strings->peaks.current[hour]};
}

/* Of `hours` hours, PVSZ_SPAN at most. */
void pvsz_hold_rows(const pvsz_intake *in, const pvsz_alike *strings, int32_t hours,
                    pvsz_holds *holds);
/* The lower voltages of n picked hours at which the strings give these powers, each no more than
 * at the maximum-power point. */
void pvsz_throttle_rows(const pvsz_alike *strings, int32_t n, const int32_t *hour,
                        const double *power, double *voltage);
/* The strings as one branch, in an hour; it needs no open-circuit voltage. */
pvsz_branch pvsz_alike_at(const pvsz_alike *strings, int32_t hour);

#endif
