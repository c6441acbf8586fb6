/* See plain.h. */
#include "plain.h"

#include <math.h>

#ifdef HAVE_GSL
#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_sf_lambert.h>
#endif

typedef struct diode {
    double light, saturation, a, series, shunt;
} diode;

static diode at(const double *m, double sun, double temp)
{
    double kelvin = temp + 273.15, t = kelvin / 298.15, k = 8.617333262145179e-05;
    double gap = m[6] * (1 + m[7] * (temp - 25));

    return (diode){sun / 1000 * (m[0] + m[5] * (temp - 25)),
                   m[1] * t * t * t * exp(m[6] / (k * 298.15) - gap / (k * kelvin)), m[2] * t, m[3],
                   m[4] * sun / 1000};
}

void plain_points(const plain_diode *m, size_t n, const double *sun, const double *temp,
                  double *voltage, double *current)
{
    for (size_t i = 0; i < n; i++) {
        diode d = at(m->number, sun[i], temp[i]);
        double z = 1 + log(d.light / d.saturation), u = z - log(z) - 1, v = 0, c = 0;

        for (int k = 0; k < 30; k++) {
            double e = d.saturation * exp(u), p = e / d.a, g = p + d.shunt, r = 1 + d.series * g;
            double step;

            c = d.light - (e - d.saturation) - d.shunt * d.a * u;
            v = d.a * u - d.series * c;
            step = (c - v * g / r) / (2 * d.a * g + v * p / (r * r));
            u += step;
            if (fabs(step) < 1e-9)
                break;
        }
        voltage[i] = v;
        current[i] = c;
    }
}

#ifdef HAVE_GSL
static double current_at(const diode *d, double v)
{
    double rsh = 1 / d->shunt, sum = d->series + rsh, level = d->light + d->saturation;
    double x = d->series * rsh * d->saturation / (d->a * sum) *
               exp(rsh * (d->series * level + v) / (d->a * sum));

    return (rsh * level - v) / sum - d->a / d->series * gsl_sf_lambert_W0(x);
}

static double less_power(double v, void *d)
{
    return -v * current_at(d, v);
}

void lambert_points(const plain_diode *m, size_t n, const double *sun, const double *temp,
                    double *voltage, double *current)
{
    gsl_min_fminimizer *search = gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent);

    for (size_t i = 0; i < n; i++) {
        diode d = at(m->number, sun[i], temp[i]);
        double low = 0, high = d.a * log1p(d.light / d.saturation), v = 0.8 * high;
        gsl_function f = {less_power, &d};

        gsl_min_fminimizer_set(search, &f, v, low, high);
        for (int k = 0; k < 100; k++) {
            gsl_min_fminimizer_iterate(search);
            low = gsl_min_fminimizer_x_lower(search);
            high = gsl_min_fminimizer_x_upper(search);
            if (gsl_min_test_interval(low, high, 0, 1e-6) == GSL_SUCCESS)
                break;
        }
        voltage[i] = gsl_min_fminimizer_x_minimum(search);
        current[i] = current_at(&d, voltage[i]);
    }
    gsl_min_fminimizer_free(search);
}

void lambert_currents(const plain_diode *m, size_t n, const double *sun, const double *temp,
                      const double *voltage, double *current)
{
    for (size_t i = 0; i < n; i++) {
        diode d = at(m->number, sun[i], temp[i]);

        current[i] = current_at(&d, voltage[i]);
    }
}
#endif
