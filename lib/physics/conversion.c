/* Loss polynomials: fitted, then evaluated either way. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "conversion.h"
#include "widths.h"

/* fitting */

enum { N = PVSZ_LOSS_TERMS };

/* Sums of the normal equations: each point's loss over its load, which is the reciprocal
 * of the efficiency less 1, so that all points err alike in the efficiency. */
typedef struct normal {
    double a[N][N], b[N];
} normal;

static void add_point(normal *sums, const pvsz_efficiency_point *point)
{
    double basis[N] = {1 / point->load, 1, point->load};
    double loss = 1 / point->efficiency - 1;

    for (int32_t i = 0; i < N; i++) {
        for (int32_t k = 0; k < N; k++)
            sums->a[i][k] += basis[i] * basis[k];
        sums->b[i] += basis[i] * loss;
    }
}

/* Solves for the terms in `free` (bits), the others 0. False where they cannot be told
 * apart. */
static bool solve(const normal *sums, unsigned free, double x[N])
{
    double m[N][N + 1];

    for (int32_t i = 0; i < N; i++) {
        for (int32_t k = 0; k < N; k++)
            m[i][k] = (free >> i & 1) && (free >> k & 1) ? sums->a[i][k] : i == k;
        m[i][N] = free >> i & 1 ? sums->b[i] : 0;
    }
    for (int32_t i = 0; i < N; i++) { /* positive definite: no pivots needed */
        if (m[i][i] <= 1e-12 * sums->a[i][i])
            return false;
        for (int32_t row = i + 1; row < N; row++)
            for (int32_t k = N; k >= i; k--)
                m[row][k] -= m[row][i] / m[i][i] * m[i][k];
    }
    for (int32_t i = N - 1; i >= 0; i--) {
        x[i] = m[i][N];
        for (int32_t k = i + 1; k < N; k++)
            x[i] -= m[i][k] * x[k];
        x[i] /= m[i][i];
    }
    return true;
}

/* What the sum of squares gains by x against all terms 0. */
static double gain(const normal *sums, const double x[N])
{
    double sum = 0;

    for (int32_t i = 0; i < N; i++)
        sum += sums->b[i] * x[i]; /* x solves the equations: b.x is all there is */
    return sum;
}

/* Least squares without negative terms: the best of all choices of terms left free. */
static void fit(const normal *sums, double loss[N])
{
    double best = 0;

    for (int32_t i = 0; i < N; i++)
        loss[i] = 0;
    for (unsigned free = 1; free < 1U << N; free++) {
        double x[N];

        if (!solve(sums, free, x) || x[0] < 0 || x[1] < 0 || x[2] < 0 || gain(sums, x) <= best)
            continue;
        best = gain(sums, x);
        for (int32_t i = 0; i < N; i++)
            loss[i] = x[i];
    }
}

/* Inserts a voltage where it belongs, once; false if there is no room. */
static bool note_voltage(pvsz_conversion *conversion, double voltage)
{
    int32_t at = 0;

    while (at < conversion->count && conversion->curve[at].voltage < voltage)
        at++;
    if (at < conversion->count && conversion->curve[at].voltage == voltage)
        return true;
    if (conversion->count == PVSZ_MOST_CURVES)
        return false;
    for (int32_t i = conversion->count++; i > at; i--)
        conversion->curve[i] = conversion->curve[i - 1];
    conversion->curve[at].voltage = voltage;
    return true;
}

bool pvsz_fit_conversion(const pvsz_efficiency_point *points, int32_t count,
                         pvsz_conversion *conversion)
{
    pvsz_conversion made = {0};

    if (count <= 0)
        return false;
    for (int32_t i = 0; i < count; i++) {
        if (!(points[i].load > 0) || !(points[i].efficiency > 0) || points[i].efficiency > 1)
            return false;
        if (points[i].has_voltage && !note_voltage(&made, points[i].voltage))
            return false;
    }
    if (made.count == 0)
        made.count = 1;
    for (int32_t c = 0; c < made.count; c++) {
        normal sums = {0};

        for (int32_t i = 0; i < count; i++)
            if (!points[i].has_voltage || points[i].voltage == made.curve[c].voltage)
                add_point(&sums, &points[i]);
        fit(&sums, made.curve[c].loss);
    }
    *conversion = made;
    return true;
}

/* evaluating */

pvsz_conversion pvsz_conversion_without_loss(void)
{
    return (pvsz_conversion){.count = 1};
}

/* The terms of the loss at a voltage. */
static pvsz_loss_curve curve_at(const pvsz_conversion *conversion, double voltage)
{
    const pvsz_loss_curve *curve = conversion->curve;
    int32_t last = conversion->count - 1, i = 0;
    pvsz_loss_curve between;
    double share;

    if (last == 0 || voltage <= curve[0].voltage)
        return curve[0];
    if (voltage >= curve[last].voltage)
        return curve[last];
    while (curve[i + 1].voltage < voltage)
        i++;
    share = (voltage - curve[i].voltage) / (curve[i + 1].voltage - curve[i].voltage);
    between.voltage = voltage;
    for (int32_t k = 0; k < N; k++)
        between.loss[k] = curve[i].loss[k] + share * (curve[i + 1].loss[k] - curve[i].loss[k]);
    return between;
}

static double loss_of(const pvsz_loss_curve *curve, double load)
{
    return curve->loss[0] + load * (curve->loss[1] + load * curve->loss[2]);
}

/* The root in the form that does not lose digits, whatever the third loss is. */
PVSZ_INLINE double ac_of(double dc_power, double constant, double linear, double square)
{
    double b = 1 + linear, rest = dc_power - constant, some = pvsz_greatest(rest, 0);

    return 2 * some / (b + sqrt(b * b + 4 * square * some));
}

double pvsz_ac_power(const pvsz_conversion *conversion, double dc_power, double voltage)
{
    pvsz_loss_curve curve = curve_at(conversion, voltage);

    return ac_of(dc_power, curve.loss[0], curve.loss[1], curve.loss[2]);
}

typedef struct row {
    double dc[PVSZ_ROW], voltage[PVSZ_ROW], ac[PVSZ_ROW];
    double loss[N][PVSZ_ROW];
} row;

/* The losses of curve_at, without a branch. */
PVSZ_INLINE void lay_losses(const pvsz_conversion *conversion, row *r)
{
    const pvsz_loss_curve *first = conversion->curve, *last = first + conversion->count - 1;

    for (int32_t k = 0; k < N; k++)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->loss[k][i] = first->loss[k];
    for (const pvsz_loss_curve *c = first; c < last; c++)
        for (int32_t k = 0; k < N; k++) {
            double low = c->voltage, step = c[1].voltage - low;
            double from = c->loss[k], more = c[1].loss[k] - from;

            for (int32_t i = 0; i < PVSZ_ROW; i++) {
                double share = (r->voltage[i] - low) / step;

                r->loss[k][i] = r->voltage[i] > low ? from + share * more : r->loss[k][i];
            }
        }
    for (int32_t k = 0; k < N && last > first; k++) {
        double high = last->voltage, loss = last->loss[k];

        for (int32_t i = 0; i < PVSZ_ROW; i++) {
            double before = r->loss[k][i];

            r->loss[k][i] = r->voltage[i] >= high ? loss : before;
        }
    }
}

PVSZ_INLINE void convert_row(const pvsz_conversion *conversion, row *r)
{
    lay_losses(conversion, r);
    for (int32_t i = 0; i < PVSZ_ROW; i++)
        r->ac[i] = ac_of(r->dc[i], r->loss[0][i], r->loss[1][i], r->loss[2][i]);
}

PVSZ_IN_WIDTHS(convert_row, pvsz_conversion, row)

void pvsz_ac_powers_by(int width, const pvsz_conversion *conversion, size_t n,
                       const double *dc_power, const double *voltage, double *ac_power)
{
    row r;

    for (size_t done = 0; done < n; done += PVSZ_ROW) {
        size_t count = n - done < PVSZ_ROW ? n - done : PVSZ_ROW;

        for (size_t i = 0; i < PVSZ_ROW; i++) {
            r.dc[i] = i < count ? dc_power[done + i] : 0;
            r.voltage[i] = i < count ? voltage[done + i] : 0;
        }
        convert_row_by[width](conversion, &r);
        memcpy(ac_power + done, r.ac, count * sizeof *ac_power);
    }
}

void pvsz_ac_powers(const pvsz_conversion *conversion, size_t n, const double *dc_power,
                    const double *voltage, double *ac_power)
{
    pvsz_ac_powers_by(pvsz_widest(), conversion, n, dc_power, voltage, ac_power);
}

double pvsz_dc_power(const pvsz_conversion *conversion, double ac_power, double voltage)
{
    pvsz_loss_curve curve = curve_at(conversion, voltage);

    return ac_power > 0 ? ac_power + loss_of(&curve, ac_power) : 0;
}

double pvsz_efficiency(const pvsz_conversion *conversion, double load, double voltage)
{
    return load > 0 ? load / pvsz_dc_power(conversion, load, voltage) : 0;
}

/* weighted efficiencies */

static const struct {
    pvsz_weighting weighting;
    double load, weight;
} weights[] = {
#define WEIGHT(WEIGHTING, load, weight) {PVSZ_WEIGHTED_##WEIGHTING, load, weight},
#include "../tables/weightings.def"
#undef WEIGHT
};

double pvsz_weighted_efficiency(const pvsz_conversion *conversion, pvsz_weighting weighting,
                                double voltage)
{
    double sum = 0;

    for (size_t i = 0; i < sizeof weights / sizeof weights[0]; i++)
        if (weights[i].weighting == weighting)
            sum += weights[i].weight * pvsz_efficiency(conversion, weights[i].load, voltage);
    return sum;
}

bool pvsz_conversion_of_weighted(pvsz_weighting weighting, double efficiency,
                                 pvsz_conversion *conversion)
{
    static const double form[N] = {0.00429146, 0.00230091, 0.01904865};
    double low = 0, high = 100;
    pvsz_conversion made = pvsz_conversion_without_loss();

    if (!(efficiency >= 0.5 && efficiency <= 0.999))
        return false;
    for (int32_t i = 0; i < 60; i++) { /* to the last digit, and the same everywhere */
        double middle = (low + high) / 2;

        for (int32_t k = 0; k < N; k++)
            made.curve[0].loss[k] = form[k] * middle;
        if (pvsz_weighted_efficiency(&made, weighting, 0) > efficiency)
            low = middle;
        else
            high = middle;
    }
    *conversion = made;
    return true;
}
