/* Limits of one input in one hour. */
#include "operate.h"

#include <math.h>

/* Of one branch, or of several that let current flow back, the power rises to one maximum
 * and falls behind it: the best within a window is that maximum or an end of the window. */
static pvsz_point best_within(const pvsz_joined *joined, pvsz_point best, double low, double high)
{
    double voltage = fmin(fmax(best.voltage, low), high);

    if (voltage == best.voltage)
        return best;
    if (joined->blocked)
        return pvsz_joined_best(joined, low, high);
    return (pvsz_point){voltage, fmax(0, pvsz_joined_current(joined, voltage))};
}

/* The voltage at which this current flows. */
static double voltage_of(const pvsz_joined *joined, double current)
{
    const pvsz_branch *only = joined->branch;
    double voltage = 0;

    if (joined->count == 1)
        return only->modules * pvsz_diode_voltage(&only->module, current / only->strings);
    pvsz_joined_voltage(joined, current, &voltage);
    return voltage;
}

static double power_of(pvsz_point point)
{
    return point.voltage * point.current;
}

pvsz_hold pvsz_hold_at(const pvsz_intake *in, const pvsz_joined *joined, pvsz_point best)
{
    pvsz_point at = best_within(joined, best, in->lowest, in->highest);
    pvsz_hold hold = {.feeds = at.current > 0};

    hold.power[PVSZ_AT_BEST] = power_of(best);
    hold.power[PVSZ_IN_WINDOW] = power_of(at);
    if (at.current > in->current) {
        double up = fmax(at.voltage, voltage_of(joined, in->current));

        at = joined->blocked ? pvsz_joined_best(joined, up, fmax(up, in->highest))
                             : (pvsz_point){up, in->current};
    }
    hold.power[PVSZ_AT_CURRENT] = fmin(power_of(at), hold.power[PVSZ_IN_WINDOW]);
    hold.power[PVSZ_AT_POWER] = fmin(hold.power[PVSZ_AT_CURRENT], in->power);
    if (hold.power[PVSZ_AT_CURRENT] > in->power)
        at.voltage = pvsz_joined_throttled(joined, at.voltage, in->power);
    hold.voltage = at.voltage;
    return hold;
}

bool pvsz_may_start(const pvsz_intake *in, const pvsz_joined *joined)
{
    return voltage_of(joined, 0) >= in->start;
}
