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

/* What falls through 0 as voltage rises: dP/dV, or current or power above a limit. */
typedef struct question {
    const pvsz_joined *joined;
    enum { PEAK, CURRENT, POWER } of;
    double kink; /* of dP/dV: branches that open at it or below are out */
    double limit;
} question;

typedef struct fall {
    double value, rate;
} fall;

static fall fall_at(const question *q, double v)
{
    pvsz_slope s = sum(q->joined, v, q->of == PEAK ? q->kink : v);

    if (q->of == PEAK)
        return (fall){s.current + v * s.first, 2 * s.first + v * s.second};
    if (q->of == POWER)
        return (fall){v * s.current - q->limit, s.current + v * s.first};
    return (fall){s.current - q->limit, s.first};
}

enum { SLOW = 20, MOST_STEPS = 140 };

/* Newton's steps inside a bracket, which is halved where they leave it, and by turns where
 * they are slow, as where a short string takes back a large current; an end where nothing
 * falls through 0. dP/dV is smooth: a short step is followed by none worth taking. */
static double answer(const question *q, double low, double high, double start)
{
    double v = start, close = q->of == PEAK ? 1e-8 : 1e-12;

    for (int i = 0; i < MOST_STEPS && high > low; i++) {
        fall at = fall_at(q, v);
        double next = v - at.value / at.rate, step;

        if (at.value > 0)
            low = v;
        else
            high = v;
        if (!(next >= low && next <= high) || (i >= SLOW && i % 2))
            next = 0.5 * (low + high);
        step = pvsz_size(next - v);
        v = next;
        if (step <= close * high)
            break;
    }
    return v;
}

/* There, at the latest, no current flows out. */
static double highest_open(const pvsz_joined *joined)
{
    double high = 0;

    for (size_t i = 0; i < joined->count; i++)
        high = pvsz_greatest(high, joined->branch[i].open);
    return high;
}

bool pvsz_joined_voltage(const pvsz_joined *joined, double current, double *voltage)
{
    question q = {joined, CURRENT, 0, current};
    double high = highest_open(joined);

    if (pvsz_joined_current(joined, 0) < current)
        return false;
    *voltage = pvsz_joined_current(joined, high) >= current ? high : answer(&q, 0, high, high);
    return true;
}

double pvsz_joined_throttled(const pvsz_joined *joined, double voltage, double power)
{
    const pvsz_branch *only = joined->branch;
    question q = {joined, POWER, 0, power};
    double high;

    if (joined->count == 1)
        return only->modules * pvsz_diode_throttled(&only->module, voltage / only->modules,
                                                    power / (only->modules * only->strings));
    high = highest_open(joined);
    return high > voltage ? answer(&q, voltage, high, high) : voltage;
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

static pvsz_point better(pvsz_point a, pvsz_point b)
{
    return b.voltage * b.current > a.voltage * a.current ? b : a;
}

/* Piece by piece between the kinks of blocked branches. */
static pvsz_point best_piece(const pvsz_joined *joined, const span *s)
{
    question q = {joined, PEAK, 0, 0};
    pvsz_point best = {0, 0};

    for (double low = s->low, high;; low = high) {
        double start;

        high = next_kink(joined, low, s->high);
        q.kink = low;
        start = s->start > low && s->start < high ? s->start : 0.5 * (low + high);
        best = better(best, point_at(joined, answer(&q, low, high, start)));
        if (!(high < s->high))
            return best;
    }
}

pvsz_point pvsz_joined_mpp(const pvsz_joined *joined)
{
    span s = span_of(joined);
    question q = {joined, PEAK, 0, 0};

    /* nothing is drawn from strings in light, whatever rounding left */
    if (!joined->blocked)
        return better((pvsz_point){0, 0}, point_at(joined, answer(&q, s.low, s.high, s.start)));
    return best_piece(joined, &s);
}

pvsz_point pvsz_joined_best(const pvsz_joined *joined, double lowest, double highest)
{
    span s = span_of(joined);
    double top = pvsz_greatest(pvsz_least(highest, highest_open(joined)), lowest);
    pvsz_point ends =
        better(better((pvsz_point){0, 0}, point_at(joined, lowest)), point_at(joined, top));

    /* below them the power of each branch rises, above them it falls */
    s.low = pvsz_greatest(s.low, lowest);
    s.high = pvsz_least(s.high, top);
    return s.low <= s.high ? better(ends, best_piece(joined, &s)) : ends;
}
