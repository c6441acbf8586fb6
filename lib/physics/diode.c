/* Points of the single-diode curve. */
#include "diode.h"

#include <math.h>

#include "diode_mpp.h"
#include "elementary.h"

/* Solves a (exp(u) - 1) + b u = c with a, b not negative and not both 0. The left side
 * is convex and rises: Newton from the right of the root comes down to it and never
 * passes it, but for rounding. At d from it a step is more than 1 - exp(-d), or half of d where b
 * counts more than a exp(u): left of 0 some 38 until exp(u) counts no more beside 1, right of it
 * some 30. */
static double solve(double a, double b, double c)
{
    double u;

    if (a <= 0)
        return c / b;
    if (b <= 0)
        return c > -a ? pvsz_log1p(c / a) : -INFINITY;
    if (c >= 0)
        /* both terms are positive: neither passes c */
        u = pvsz_least(c / b, pvsz_log1p(pvsz_least(c / a, 1e299)));
    else
        u = c / (a + b);            /* root of the tangent in 0 */
    for (int i = 0; i < 100; i++) { /* GCOVR_EXCL_BR_LINE: not so many, see above */
        double em1 = pvsz_expm1(u);
        double step = (a * em1 + b * u - c) / (a * (em1 + 1) + b);

        u -= step;
        if (!(step > 1e-15 * pvsz_size(u)))
            break;
    }
    return u;
}

static double current_at(const pvsz_diode *d, double u)
{
    return d->light - d->saturation * pvsz_expm1(u) - d->shunt * d->ideality * u;
}

/* Diode voltage where the module's voltage is this. */
static double diode_at_voltage(const pvsz_diode *d, double voltage)
{
    return solve(d->series * d->saturation, d->ideality * (1 + d->series * d->shunt),
                 voltage + d->series * d->light);
}

static double diode_at_current(const pvsz_diode *d, double current)
{
    return solve(d->saturation, d->shunt * d->ideality, d->light - current);
}

/* The diode's current follows from u with an error of I0 exp(u) u; what falls along the
 * series resistance has one of a u / Rs: the smaller counts. */
static pvsz_slope slope_at(const pvsz_diode *d, double u, double voltage)
{
    double em1 = pvsz_expm1(u);
    double p = d->saturation * (em1 + 1) / d->ideality;
    double g = p + d->shunt, rise = 1 + d->series * g;

    return (pvsz_slope){
        .current = d->series * p > 1 ? (d->ideality * u - voltage) / d->series
                                     : d->light - d->saturation * em1 - d->shunt * d->ideality * u,
        .first = -g / rise,
        .second = -p / (d->ideality * rise * rise * rise),
    };
}

pvsz_slope pvsz_diode_slope(const pvsz_diode *diode, double voltage)
{
    return slope_at(diode, diode_at_voltage(diode, voltage), voltage);
}

double pvsz_diode_current(const pvsz_diode *diode, double voltage)
{
    return pvsz_diode_slope(diode, voltage).current;
}

double pvsz_diode_voltage(const pvsz_diode *diode, double current)
{
    return diode->ideality * diode_at_current(diode, current) - diode->series * current;
}

/* Halley's steps kept inside a bracket, which is halved where they leave it. */
static double search_peak(const pvsz_diode *d)
{
    double low = diode_at_voltage(d, 0), high = diode_at_current(d, 0);
    double u = 0.5 * (low + high);

    for (int i = 0; i < 200; i++) {
        pvsz_peak peak = pvsz_peak_at(d, u, pvsz_expm1(u));
        double next = u + pvsz_peak_step(peak);

        if (peak.value > 0)
            low = u;
        else
            high = u;
        if (pvsz_size(next - u) <= 1e-15 * pvsz_size(u))
            return next;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        if (high - low <= 4e-16 * high)
            break;
        u = next;
    }
    return u;
}

pvsz_point pvsz_diode_mpp(const pvsz_diode *diode)
{
    double sure, u, current;
    pvsz_point point;

    if (!(diode->light > 0))
        return (pvsz_point){0, 0};
    point = pvsz_mpp_quick(diode, &sure);
    if (sure > 0)
        return point;
    u = search_peak(diode);
    current = current_at(diode, u);
    /* no power is drawn from a module in light, whatever rounding left */
    return (pvsz_point){pvsz_greatest(diode->ideality * u - diode->series * current, 0),
                        pvsz_greatest(current, 0)};
}

/* Halley's steps in u down the falling side of the power, from where the current would give the
 * power at the lower voltage; kept inside a bracket, which is halved where they leave it. */
double pvsz_diode_throttled(const pvsz_diode *diode, double voltage, double power)
{
    const pvsz_diode *d = diode;
    double a = d->ideality, far = d->light > 0 ? pvsz_log1p(d->light / d->saturation) : 0;
    double rest = (d->light - power / voltage) / d->saturation;
    double u = rest > 0 ? pvsz_least(pvsz_log1p(pvsz_least(rest, 1e299)), far) : far, at = 0;
    double low = 0, high = far;

    for (int i = 0; i < 200; i++) {
        double em1 = pvsz_expm1(u), p = d->saturation * (em1 + 1);
        double flow = p + d->shunt * a, rise = a + d->series * flow; /* -dI/du, dV/du */
        double current = current_at(d, u), over, slope, bend, next;

        at = a * u - d->series * current;
        over = at * current - power;
        slope = current * rise - at * flow;
        bend = p * (d->series * current - at) - 2 * flow * rise;
        if (slope < 0 && over <= 0)
            high = u;
        else
            low = u;
        next = u - 2 * over * slope / (2 * slope * slope - over * bend);
        if (!(slope < 0) || !(next >= low && next <= high))
            next = 0.5 * (low + high);
        if (!(pvsz_size(next - u) > 1e-9 * u))
            return at + (next - u) * rise;
        u = next;
    }
    return at;
}

void pvsz_diode_sample(const pvsz_diode *diode, size_t n, double *voltage, double *current)
{
    double first = diode_at_voltage(diode, 0), last = diode_at_current(diode, 0);

    for (size_t i = 0; i < n; i++) {
        double u = first + (last - first) * ((double)i / (double)(n - 1));

        current[i] = current_at(diode, u);
        voltage[i] = diode->ideality * u - diode->series * current[i];
    }
    /* the ends are the ends, whatever rounding left */
    voltage[0] = 0;
    current[n - 1] = 0;
}

double pvsz_bypassed_voltage(const pvsz_diode *diode, const pvsz_bypass *bypass, double current)
{
    return pvsz_greatest(pvsz_diode_voltage(diode, current), -bypass->diodes * bypass->drop);
}
