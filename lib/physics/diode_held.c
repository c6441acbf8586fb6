/* Steps from maximum-power points, in rows. */
#include "diode_held.h"

#include <math.h>
#include <string.h>

#include "diode_mpp.h"
#include "diode_rows.h"
#include "widths.h"

typedef struct row {
    double irradiance[PVSZ_ROW], cell_temp[PVSZ_ROW];
    double from_voltage[PVSZ_ROW], from_current[PVSZ_ROW]; /* at the maximum-power point */
    double asked[PVSZ_ROW];                                /* power or current */
    double voltage[PVSZ_ROW], current[PVSZ_ROW], sure[PVSZ_ROW];
} row;

/* The curve as seen from the point: exponentials are shares of the one there, so `saturation` is
 * the diode's current at the point. Its u stays what it was. */
typedef struct seen {
    pvsz_diode d;
    double u;    /* at the point */
    double sure; /* above 0 where the diode's current can be told from the shunt's */
} seen;

PVSZ_INLINE seen seen_from(const pvsz_module *m, const row *r, int i)
{
    pvsz_diode d = pvsz_shift(m, r->irradiance[i], r->cell_temp[i]);
    double v = r->from_voltage[i], current = r->from_current[i];
    double conducts = current / (v - current * d.series), diode = conducts - d.shunt;
    double u = (v + current * d.series) / d.ideality;

    d.saturation = diode * d.ideality;
    d.light = current + d.shunt * d.ideality * u;
    return (seen){d, u, pvsz_least(diode - conducts / 16, pvsz_least(v, current))};
}

/* behind cables */

typedef struct wiring {
    pvsz_module module;
    double added;
} wiring;

PVSZ_INLINE void wired_row(const wiring *with, row *r)
{
    wiring w = *with; /* of its own: not changed by what is written below */

    for (int i = 0; i < PVSZ_ROW; i++) {
        seen s = seen_from(&w.module, r, i);
        pvsz_seeker at = {s.u, 0, 0};
        pvsz_point point;
        double step;

        s.d.series += w.added;
        step = pvsz_peak_step(pvsz_peak_at(&s.d, s.u, 0));
        at.u += step;
        at.em1 = pvsz_expm1(step);
        at.step = pvsz_peak_step(pvsz_peak_at(&s.d, at.u, at.em1));
        point = pvsz_settle(&s.d, at);
        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
        r->sure[i] = pvsz_least(pvsz_least(s.sure, pvsz_settled(at)),
                                pvsz_least(point.voltage, point.current));
    }
}

/* at a limit */

/* Where a search stands that began at the point: x diode voltages above it. */
typedef struct flows {
    double voltage, current;
    double diode;      /* current of the diode */
    double down, rise; /* -dI/dx, dV/dx */
} flows;

/* em1 is exp(x) - 1. */
PVSZ_INLINE flows flows_at(const seen *s, double x, double em1)
{
    double diode = s->d.saturation * (em1 + 1), leak = s->d.shunt * s->d.ideality;
    double down = diode + leak;
    double current = s->d.light - s->d.saturation * em1 - leak * (s->u + x);

    return (flows){s->d.ideality * (s->u + x) - s->d.series * current, current, diode, down,
                   s->d.ideality + s->d.series * down};
}

/* A step of Halley's method down to a power. */
PVSZ_INLINE double step_to_power(const seen *s, const flows *at, double power)
{
    double over = at->voltage * at->current - power;
    double slope = at->current * at->rise - at->voltage * at->down;
    double bend = at->diode * (s->d.series * at->current - at->voltage) - 2 * at->down * at->rise;

    return -2 * over * slope / (2 * slope * slope - over * bend);
}

PVSZ_INLINE double step_to_current(const flows *at, double current)
{
    double over = at->current - current;

    return 2 * over * at->down / (2 * at->down * at->down + over * at->diode);
}

/* The last step is short: the voltage follows straight. */
PVSZ_INLINE void end_at(const seen *s, const flows *at, double step, row *r, int i)
{
    r->voltage[i] = at->voltage + at->rise * step;
    r->sure[i] = pvsz_least(s->sure, 1e-7 * s->u - pvsz_size(step));
}

/* Behind the point the power is short of its maximum by nearly v e (exp(x) - 1 - x), e the
 * diode's current at the point. */
PVSZ_INLINE void throttled_row(const pvsz_module *module, row *r)
{
    pvsz_module m = *module;

    for (int i = 0; i < PVSZ_ROW; i++) {
        seen s = seen_from(&m, r, i);
        double v = r->from_voltage[i], power = r->asked[i];
        double z = (v * r->from_current[i] - power) / (v * s.d.saturation);
        double em1 = pvsz_greatest(z, 0) + sqrt(pvsz_greatest(2 * z, 0)), x = pvsz_log1p(em1);
        flows at = flows_at(&s, x, em1);

        x += step_to_power(&s, &at, power);
        at = flows_at(&s, x, pvsz_expm1(x));
        x += step_to_power(&s, &at, power);
        at = flows_at(&s, x, pvsz_expm1(x));
        end_at(&s, &at, step_to_power(&s, &at, power), r, i);
    }
}

/* What the shunt takes more is small beside what the diode does. */
PVSZ_INLINE void held_row(const pvsz_module *module, row *r)
{
    pvsz_module m = *module;

    for (int i = 0; i < PVSZ_ROW; i++) {
        seen s = seen_from(&m, r, i);
        double more = pvsz_greatest(r->from_current[i] - r->asked[i], 0);
        double em1 = more / (s.d.saturation + s.d.shunt * s.d.ideality), x = pvsz_log1p(em1);
        flows at = flows_at(&s, x, em1);

        x += step_to_current(&at, r->asked[i]);
        at = flows_at(&s, x, pvsz_expm1(x));
        end_at(&s, &at, step_to_current(&at, r->asked[i]), r, i);
    }
}

PVSZ_IN_WIDTHS(wired_row, wiring, row)
PVSZ_IN_WIDTHS(throttled_row, pvsz_module, row)
PVSZ_IN_WIDTHS(held_row, pvsz_module, row)

/* rows */

/* Places beyond the last repeat it. */
static size_t lay_row(row *r, const pvsz_peaks *peaks, size_t done, size_t n, const int32_t *pick,
                      const double *asked)
{
    for (size_t i = 0; i < PVSZ_ROW; i++) {
        size_t k = done + i < n ? done + i : n - 1, at = (size_t)pick[k];

        r->irradiance[i] = peaks->irradiance[at];
        r->cell_temp[i] = peaks->cell_temp[at];
        r->from_voltage[i] = peaks->voltage[at];
        r->from_current[i] = peaks->current[at];
        r->asked[i] = asked[k];
    }
    return n - done < PVSZ_ROW ? n - done : PVSZ_ROW;
}

/* Of all conditions; places beyond the last hold what stood there before. */
static size_t lay_all(row *r, const pvsz_peaks *peaks, size_t done, size_t n)
{
    size_t count = n - done < PVSZ_ROW ? n - done : PVSZ_ROW, size = count * sizeof(double);

    memcpy(r->irradiance, peaks->irradiance + done, size);
    memcpy(r->cell_temp, peaks->cell_temp + done, size);
    memcpy(r->from_voltage, peaks->voltage + done, size);
    memcpy(r->from_current, peaks->current + done, size);
    return count;
}

/* Long cables, and poor modules: those that two steps do not reach, by the plain way. */
static void mend_wired(int width, const wiring *w, size_t count, row *r)
{
    pvsz_module wired = w->module;
    double voltage[PVSZ_ROW], current[PVSZ_ROW];
    size_t i = 0;

    while (i < count && r->sure[i] > 0)
        i++;
    if (i == count)
        return;
    wired.stc.series += w->added;
    pvsz_module_mpps_by(width, &wired, count, r->irradiance, r->cell_temp, voltage, current);
    for (; i < count; i++)
        if (!(r->sure[i] > 0)) {
            r->voltage[i] = voltage[i];
            r->current[i] = current[i];
        }
}

void pvsz_wired_mpps_by(int width, const pvsz_module *module, double added, size_t n,
                        const pvsz_peaks *peaks, double *voltage, double *current)
{
    wiring w = {*module, added};
    row r = {{0}, {0}, {0}, {0}, {0}, {0}, {0}, {0}};

    for (size_t done = 0; done < n; done += PVSZ_ROW) {
        size_t count = lay_all(&r, peaks, done, n);

        wired_row_by[width](&w, &r);
        mend_wired(width, &w, count, &r);
        memcpy(voltage + done, r.voltage, count * sizeof *voltage);
        memcpy(current + done, r.current, count * sizeof *current);
    }
}

typedef void solve_function(const pvsz_module *module, row *r);
typedef double plain_function(const pvsz_diode *diode, double voltage, double asked);

static void find_voltages(solve_function *solve, plain_function *plain, const pvsz_module *module,
                          const pvsz_peaks *peaks, size_t n, const int32_t *pick,
                          const double *asked, double *voltage)
{
    row r;

    for (size_t done = 0; done < n; done += PVSZ_ROW) {
        size_t count = lay_row(&r, peaks, done, n, pick, asked);

        solve(module, &r);
        for (size_t i = 0; i < count; i++) {
            pvsz_diode d;

            voltage[done + i] = r.voltage[i];
            if (r.sure[i] > 0)
                continue;
            d = pvsz_module_at(module, r.irradiance[i], r.cell_temp[i]);
            voltage[done + i] = plain(&d, r.from_voltage[i], r.asked[i]);
        }
    }
}

void pvsz_throttled_voltages_by(int width, const pvsz_module *module, const pvsz_peaks *peaks,
                                size_t n, const int32_t *pick, const double *power, double *voltage)
{
    find_voltages(throttled_row_by[width], pvsz_diode_throttled, module, peaks, n, pick, power,
                  voltage);
}

static double voltage_at(const pvsz_diode *diode, double unused, double current)
{
    (void)unused;
    return pvsz_diode_voltage(diode, current);
}

void pvsz_held_voltages_by(int width, const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                           const int32_t *pick, const double *current, double *voltage)
{
    find_voltages(held_row_by[width], voltage_at, module, peaks, n, pick, current, voltage);
}

void pvsz_wired_mpps(const pvsz_module *module, double added, size_t n, const pvsz_peaks *peaks,
                     double *voltage, double *current)
{
    pvsz_wired_mpps_by(pvsz_widest(), module, added, n, peaks, voltage, current);
}

void pvsz_throttled_voltages(const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                             const int32_t *pick, const double *power, double *voltage)
{
    pvsz_throttled_voltages_by(pvsz_widest(), module, peaks, n, pick, power, voltage);
}

void pvsz_held_voltages(const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                        const int32_t *pick, const double *current, double *voltage)
{
    pvsz_held_voltages_by(pvsz_widest(), module, peaks, n, pick, current, voltage);
}
