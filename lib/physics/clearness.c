/* Correlations of clearness. */
#include <math.h>

#include "angle.h"
#include "clearness.h"

double pvsz_diffuse_share(double k)
{
    if (k <= 0.22)
        return 1 - 0.09 * k;
    if (k > 0.80)
        return 0.165;
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

double pvsz_beam_from(const pvsz_sun *sun, double on_horizontal)
{
    double most = sun->beyond * sun->lit;

    if (on_horizontal <= 0 || sun->up <= 0)
        return 0;
    /* compared before the division: the sun may stand at the horizon */
    return on_horizontal >= most * sun->up ? most : on_horizontal / sun->up;
}

void pvsz_split_global(const pvsz_sun *sun, double global, double *beam, double *diffuse)
{
    double outside = sun->beyond * sun->lit * sun->up;

    *beam = 0;
    *diffuse = global;
    if (outside <= 0 || global <= 0)
        return;
    *beam = pvsz_beam_from(sun, global * (1 - pvsz_diffuse_share(global / outside)));
    *diffuse = fmax(0, global - *beam * sun->up);
}

pvsz_clear_days pvsz_clear_days_of(double mean)
{
    double away = mean - 0.75, square = away * away, fourth = square * square;
    pvsz_clear_days days = {.lowest = 0.05};
    double span, xi;

    days.highest = 0.6313 + 0.267 * mean - 11.9 * fourth * fourth;
    span = days.highest - days.lowest;
    xi = span / (days.highest - mean);
    days.exponent = -1.498 + (1.184 * xi - 27.182 * exp(-1.5 * xi)) / span;
    return days;
}

double pvsz_clearness_below(const pvsz_clear_days *days, double share)
{
    double span = days->highest - days->lowest, g = days->exponent * span;

    if (fabs(g) < 1e-6) /* evenly spread */
        return days->lowest + share * span;
    return days->lowest + log1p(share * expm1(g)) / days->exponent;
}

static int32_t common_divisor(int32_t a, int32_t b)
{
    while (b != 0) {
        int32_t rest = a % b;

        a = b;
        b = rest;
    }
    return a;
}

void pvsz_deal_days(double mean, int32_t days, double *clearness)
{
    /* the distribution was found between 0.3 and 0.7; it keeps its form to here */
    double shaped = pvsz_clamp(mean, 0.2, 0.75);
    pvsz_clear_days spread = pvsz_clear_days_of(shaped);
    int32_t step = (int32_t)(days * 0.6180339887498949 + 0.5);

    while (common_divisor(days, step) != 1)
        step++;
    for (int32_t i = 0; i < days; i++) {
        int32_t rank = (int32_t)((int64_t)i * step % days);
        double share = (rank + 0.5) / days;

        clearness[i] = pvsz_clearness_below(&spread, share) * mean / shaped;
    }
}

double pvsz_sunset(const pvsz_place *place, double declination)
{
    double turning = place->cos_latitude * cos(declination);
    double still = place->sin_latitude * sin(declination);

    if (turning < 1e-12)
        return still > 0 ? PVSZ_PI : 0;
    return acos(pvsz_clamp(-still / turning, -1, 1));
}

double pvsz_day_weight(const pvsz_sun *sun, double hour_angle, double sunset)
{
    double s = sin(sunset - PVSZ_PI / 3);
    double tilt = (0.409 + 0.5016 * s) + (0.6609 - 0.4767 * s) * cos(hour_angle);

    /* the height of the sun goes as cos w - cos ws */
    return sun->lit > 0 ? fmax(0, tilt * sun->up) * sun->lit : 0;
}

double pvsz_temp_course(double solar_hour)
{
    double t = 2 * PVSZ_PI * (solar_hour - 1) / 24;

    return 0.4632 * cos(t - 3.805) + 0.0984 * cos(2 * t - 0.360) + 0.0168 * cos(3 * t - 0.822) +
           0.0138 * cos(4 * t - 3.513);
}

double pvsz_temp_range(double clearness)
{
    return fmax(0, 25.8 * clearness - 5.21);
}
