/* Translation and maximum-power point without branches, for one diode or a row of them: as
 * it is written once, both have the same bits. */
#ifndef PVSZ_DIODE_MPP_H
#define PVSZ_DIODE_MPP_H

#include "diode_shift.h"
#include "elementary.h"

PVSZ_INLINE double pvsz_sun_share(double irradiance)
{
    return irradiance >= PVSZ_LEAST_IRRADIANCE ? irradiance * (1 / PVSZ_STC_IRRADIANCE) : 0;
}

PVSZ_INLINE pvsz_diode pvsz_shift(const pvsz_module *module, double irradiance, double cell_temp)
{
    const pvsz_diode *stc = &module->stc;
    double warmer = cell_temp - 25, kelvin = cell_temp + 273.15;
    double t = kelvin * (1 / PVSZ_STC_KELVIN);
    double sun = pvsz_sun_share(irradiance);
    /* Eg,ref / k Tref - Eg / k T, without taking two large numbers apart */
    double barrier = module->band_gap / PVSZ_BOLTZMANN * warmer *
                     (1 / PVSZ_STC_KELVIN - module->narrowing) / kelvin;
    double light = sun * (stc->light + module->light_coefficient * warmer);

    return (pvsz_diode){
        .light = light > 0 ? light : 0,
        .saturation = stc->saturation * (t * t * t) * pvsz_exp(barrier),
        .ideality = stc->ideality * t,
        .series = stc->series,
        .shunt = stc->shunt * sun,
    };
}

/* dP/dV = I - V flow / rise with its derivatives by u, where flow is -dI/du and rise dV/du. It
 * falls wherever V is not negative, so there is one root. */
typedef struct pvsz_peak {
    double value, first, second;
} pvsz_peak;

/* em1 is exp(u) - 1. */
PVSZ_INLINE pvsz_peak pvsz_peak_at(const pvsz_diode *d, double u, double em1)
{
    double a = d->ideality;
    double e = d->saturation * (em1 + 1), leak = d->shunt * a;
    double flow = e + leak, inverse = 1 / (a + d->series * flow);
    double current = d->light - d->saturation * em1 - leak * u;
    double voltage = a * u - d->series * current;
    double bend = voltage * e * a * inverse * inverse;

    return (pvsz_peak){
        .value = current - voltage * flow * inverse,
        .first = -2 * flow - bend,
        .second = -e * (2 + a * inverse) - bend * (1 - 2 * d->series * e * inverse),
    };
}

/* A step of Halley's method: error e becomes about e^3 / 12. */
PVSZ_INLINE double pvsz_peak_step(pvsz_peak peak)
{
    return -2 * peak.value * peak.first / (2 * peak.first * peak.first - peak.value * peak.second);
}

/* Without resistances the root is y - 1 with y + log(y) = 1 + log(1 + light / saturation);
 * one Newton step from y = its right side, then the resistances: with them the root is where
 * saturation exp(u) (1 + u / rise) = level - shunt a u (1 + 1 / rise), rise = 1 + 2 series g. */
PVSZ_INLINE double pvsz_peak_start(const pvsz_diode *d)
{
    double level = d->light + d->saturation;
    double z = 1 + pvsz_log(1 + d->light / d->saturation);
    double y = z - pvsz_log(z) * z / (1 + z);
    double u = y - 1;
    double leak = d->shunt * d->ideality * u;
    double base = 1 + 2 * d->series * d->shunt;
    double rise = base + 2 * d->series * level / (d->ideality * y);
    double rest = level - pvsz_least(leak + leak / rise, 0.75 * level);

    rise = base + 2 * d->series * rest * rise / (d->ideality * (rise + u));
    double wanted = rest * y * rise, found = level * (rise + u);
    /* log(wanted / found) is near enough 2 (wanted - found) / (wanted + found) */
    return u + 2 * (wanted - found) * y / ((wanted + found) * (1 + y));
}

/* Where a search stands. */
typedef struct pvsz_seeker {
    double u, step; /* the step still to be taken */
    double em1;     /* exp(u) - 1 */
} pvsz_seeker;

PVSZ_INLINE pvsz_seeker pvsz_seek(const pvsz_diode *d, double u)
{
    double em1 = pvsz_expm1(u);

    return (pvsz_seeker){u, pvsz_peak_step(pvsz_peak_at(d, u, em1)), em1};
}

/* The step to be taken is short: exp follows by its series. */
PVSZ_INLINE pvsz_point pvsz_settle(const pvsz_diode *d, pvsz_seeker at)
{
    double s = at.step, u = at.u + s;
    double em1 = at.em1 + (at.em1 + 1) * s * (1 + s * (1 / 2.0 + s * (1 / 6.0 + s * (1 / 24.0))));
    double current = d->light - d->saturation * em1 - d->shunt * d->ideality * u;

    return (pvsz_point){d->ideality * u - d->series * current, current};
}

/* Above 0 where the step to be taken is so short that none after it would count. */
PVSZ_INLINE double pvsz_settled(pvsz_seeker at)
{
    return 1e-4 * at.u - pvsz_size(at.step) * (1 + at.u);
}

/* The point after two steps, in three parts: rows go through one part after the other, since
 * more points are at work at once in short loops. `sure` is not above 0 where the steps have not
 * settled, or in the wrong place: left of short circuit dP/dV may rise. */
PVSZ_INLINE double pvsz_quick_start(const pvsz_diode *d)
{
    return pvsz_greatest(pvsz_peak_start(d), 0);
}

PVSZ_INLINE double pvsz_quick_step(const pvsz_diode *d, double u)
{
    return pvsz_greatest(u + pvsz_seek(d, u).step, 0);
}

PVSZ_INLINE pvsz_point pvsz_quick_end(const pvsz_diode *d, double u, double *sure)
{
    pvsz_seeker at = pvsz_seek(d, u);
    pvsz_point point = pvsz_settle(d, at);

    *sure = pvsz_least(pvsz_settled(at), pvsz_least(point.voltage, point.current));
    return point;
}

PVSZ_INLINE pvsz_point pvsz_mpp_quick(const pvsz_diode *d, double *sure)
{
    return pvsz_quick_end(d, pvsz_quick_step(d, pvsz_quick_start(d)), sure);
}

#endif
