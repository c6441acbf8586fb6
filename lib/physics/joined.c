/* Parallel strings: currents add up at one voltage.
 *
 * Each branch's power rises to its own maximum-power point and falls behind it, so that
 * of all lies between the lowest and the highest of those. With currents that may flow back
 * the sum is concave and has one maximum; with blocked ones it has a kink at each
 * open-circuit voltage, and is concave between two. */
#include "joined.h"

#include "elementary.h"

pvsz_branch pvsz_branch_of(const pvsz_diode *module, double modules, double strings)
{
    return (pvsz_branch){*module, modules, strings,
                         module->light > 0 ? modules * pvsz_diode_voltage(module, 0) : 0};
}

/* Current and derivatives of the branches; blocked ones count below their open-circuit
 * voltage. At `kink`, such a voltage, that branch counts on its left side only. */
static pvsz_slope sum(const pvsz_joined *joined, double voltage, double kink)
{
    pvsz_slope all = {0, 0, 0};

    for (size_t i = 0; i < joined->count; i++) {
        const pvsz_branch *b = &joined->branch[i];
        pvsz_slope one;

        if (joined->blocked && b->open <= kink)
            continue;
        one = pvsz_diode_slope(&b->module, voltage / b->modules);
        all.current += b->strings * one.current;
        all.first += b->strings * one.first / b->modules;
        all.second += b->strings * one.second / (b->modules * b->modules);
    }
    return all;
}

double pvsz_joined_current(const pvsz_joined *joined, double voltage)
{
    return sum(joined, voltage, voltage).current;
}

/* What falls through 0 as voltage rises: dP/dV, or the current above a limit. */
typedef struct question {
    const pvsz_joined *joined;
    bool peak;    /* dP/dV */
    double kink;  /* of dP/dV: branches that open at it or below are out */
    double limit; /* of the current */
} question;

typedef struct fall {
    double value, rate;
} fall;

static fall fall_at(const question *q, double v)
{
    pvsz_slope s = sum(q->joined, v, q->peak ? q->kink : v);

    if (q->peak)
        return (fall){s.current + v * s.first, 2 * s.first + v * s.second};
    return (fall){s.current - q->limit, s.first};
}

/* Newton's steps inside a bracket, which is halved where they leave it; an end where nothing
 * falls through 0. dP/dV is smooth: a short step is followed by none worth taking. */
static double answer(const question *q, double low, double high, double start)
{
    double v = start, close = q->peak ? 1e-8 : 1e-12;

    for (int i = 0; i < 100 && high > low; i++) {
        fall at = fall_at(q, v);
        double next = v - at.value / at.rate, step;

        if (at.value > 0)
            low = v;
        else
            high = v;
        if (!(next >= low && next <= high))
            next = 0.5 * (low + high);
        step = pvsz_size(next - v);
        v = next;
        if (step <= close * high)
            break;
    }
    return v;
}

bool pvsz_joined_voltage(const pvsz_joined *joined, double current, double *voltage)
{
    question q = {joined, false, 0, current};
    double high = 0;

    for (size_t i = 0; i < joined->count; i++)
        high = pvsz_greatest(high, joined->branch[i].open);
    if (pvsz_joined_current(joined, 0) < current)
        return false;
    /* there, at the latest, no current flows out */
    *voltage = pvsz_joined_current(joined, high) >= current ? high : answer(&q, 0, high, high);
    return true;
}

static pvsz_point point_at(const pvsz_joined *joined, double voltage)
{
    return (pvsz_point){voltage, pvsz_joined_current(joined, voltage)};
}

typedef struct span {
    double low, high; /* own maximum-power voltages */
    double start;     /* their mean by weight of curvature, nearly */
} span;

static span span_of(const pvsz_joined *joined)
{
    span s = {0, 0, 0};
    double weights = 0;

    for (size_t i = 0; i < joined->count; i++) {
        const pvsz_branch *b = &joined->branch[i];
        pvsz_point peak = pvsz_diode_mpp(&b->module);
        double v = b->modules * peak.voltage;
        double weight = v > 0 ? b->strings * peak.current / v : 0;

        s.low = i == 0 ? v : pvsz_least(s.low, v);
        s.high = pvsz_greatest(s.high, v);
        s.start += weight * v;
        weights += weight;
    }
    s.start = weights > 0 ? s.start / weights : 0;
    return s;
}

/* The lowest open-circuit voltage above `low`, but not above `high`. */
static double next_kink(const pvsz_joined *joined, double low, double high)
{
    for (size_t i = 0; i < joined->count; i++) {
        double voc = joined->branch[i].open;

        if (voc > low && voc < high)
            high = voc;
    }
    return high;
}

pvsz_point pvsz_joined_mpp(const pvsz_joined *joined)
{
    span s = span_of(joined);
    question q = {joined, true, 0, 0};
    pvsz_point best = {0, 0};

    if (!joined->blocked)
        return point_at(joined, answer(&q, s.low, s.high, s.start));
    for (double low = s.low, high;; low = high) {
        double start;
        pvsz_point point;

        high = next_kink(joined, low, s.high);
        q.kink = low;
        start = s.start > low && s.start < high ? s.start : 0.5 * (low + high);
        point = point_at(joined, answer(&q, low, high, start));
        if (point.voltage * point.current > best.voltage * best.current)
            best = point;
        if (!(high < s.high))
            return best;
    }
}
