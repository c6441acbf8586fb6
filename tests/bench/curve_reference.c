/* The plain way to a maximum-power point in C: translate with libm, then Newton on dP/dV in
 * the diode voltage, one point after another. */
#include <math.h>
#include <stddef.h>

void reference_mpps(const double *module, size_t n, const double *sun, const double *temp,
                    double *voltage, double *current);

typedef struct diode {
    double light, saturation, a, series, shunt;
} diode;

/* module: light, saturation, a, series, shunt conductance, light per K, band gap, narrowing */
static diode at(const double *m, double sun, double temp)
{
    double kelvin = temp + 273.15, t = kelvin / 298.15, k = 8.617333262145179e-05;
    double gap = m[6] * (1 + m[7] * (temp - 25));

    return (diode){sun / 1000 * (m[0] + m[5] * (temp - 25)),
                   m[1] * t * t * t * exp(m[6] / (k * 298.15) - gap / (k * kelvin)), m[2] * t, m[3],
                   m[4] * sun / 1000};
}

void reference_mpps(const double *module, size_t n, const double *sun, const double *temp,
                    double *voltage, double *current)
{
    for (size_t i = 0; i < n; i++) {
        diode d = at(module, sun[i], temp[i]);
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
