/* Fit of the five parameters.
 *
 * With the ideality factor a given, one number is left: `drop`, how far the diode
 * voltage at maximum power lies below Voc. The three points are then linear in what is left
 * (X = saturation exp(Voc / a), shunt, light), and the level power gives `drop`: one root,
 * between the drop that leaves no shunt and that which leaves no series resistance. Curves
 * exist for a from 0 up to some largest a; the fifth equation is then solved for a. (One
 * root, and one stretch of a: seen in 20,000 random sheets, not proven.) */
#include "diode_fit.h"

#include <stdbool.h>

#include "elementary.h"
#include "root.h"

typedef struct trial {
    const pvsz_sheet *sheet;
    double a;
} trial;

typedef struct bend {
    double series, shunt, at_voc; /* at_voc: X */
    double level;                 /* diode conductance at maximum power less that wanted */
} bend;

static bend bend_at(const trial *t, double drop)
{
    const pvsz_sheet *s = t->sheet;
    double series = (s->voc - s->vmp - drop) / s->imp;
    double rest = s->voc - s->isc * series;
    double em_sc = -pvsz_expm1(-rest / t->a), em_mp = -pvsz_expm1(-drop / t->a);
    double det = em_sc * drop - em_mp * rest;
    double at_voc = (s->isc * drop - s->imp * rest) / det;
    double shunt = (em_sc * s->imp - em_mp * s->isc) / det;

    return (bend){series, shunt, at_voc,
                  at_voc * (1 - em_mp) / t->a + shunt - s->imp / (s->vmp - s->imp * series)};
}

static double level_at(const void *context, double drop)
{
    return bend_at(context, drop).level;
}

static double shunt_at(const void *context, double drop)
{
    return bend_at(context, drop).shunt;
}

/* The drop for an ideality factor; false if there is none. */
static bool find_drop(const trial *t, double *drop)
{
    const pvsz_sheet *s = t->sheet;
    double high = s->voc - s->vmp; /* no series resistance */
    double low = 1e-9 * high;

    if (shunt_at(t, high) < 0)
        return false;
    /* at next to no drop it is below 0: Vmp and Imp are more than half of Voc and Isc */
    low = pvsz_find_root(shunt_at, t, low, high);
    if (level_at(t, low) < 0 || level_at(t, high) > 0)
        return false;
    *drop = pvsz_find_root(level_at, t, low, high);
    return true;
}

static pvsz_module module_of(const trial *t, double drop)
{
    const pvsz_sheet *s = t->sheet;
    bend b = bend_at(t, drop);
    pvsz_module m = {
        .stc = {.saturation = b.at_voc * pvsz_exp(-s->voc / t->a),
                .ideality = t->a,
                .series = b.series,
                .shunt = pvsz_greatest(b.shunt, 0)},
        .light_coefficient = s->isc_coefficient,
        .band_gap = s->band_gap,
        .narrowing = s->narrowing,
    };
    double across = s->isc * b.series;

    m.stc.light = s->isc + m.stc.saturation * pvsz_expm1(across / t->a) + m.stc.shunt * across;
    return m;
}

/* How far the model is above the sheet in the fifth equation. */
static double beyond(const pvsz_sheet *s, const pvsz_module *m)
{
    pvsz_diode warm = pvsz_module_at(m, PVSZ_STC_IRRADIANCE, 25 + PVSZ_FIT_SPAN);
    pvsz_point peak;

    if (s->fifth == PVSZ_FIFTH_VOC)
        return pvsz_diode_voltage(&warm, 0) - (s->voc + s->voc_coefficient * PVSZ_FIT_SPAN);
    if (s->fifth == PVSZ_FIFTH_IDEALITY)
        return s->ideality - m->stc.ideality;
    peak = pvsz_diode_mpp(&warm);
    return peak.voltage * peak.current -
           s->vmp * s->imp * (1 + s->pmax_coefficient * PVSZ_FIT_SPAN);
}

static double beyond_at(const void *context, double a)
{
    trial t = {context, a};
    double drop;
    pvsz_module m;

    if (!find_drop(&t, &drop))
        return -1; /* by rounding, of nearly straight curves: the ends are chosen to have one */
    m = module_of(&t, drop);
    return beyond(context, &m);
}

/* An ideality factor at which the model is not beyond the sheet, or else the largest with a
 * curve; by halving, `low` has a curve. */
static double high_ideality(const pvsz_sheet *s, double low)
{
    double high = s->voc;

    for (int i = 0; i < 60; i++) {
        trial t = {s, 0.5 * (low + high)};
        double drop;

        if (!find_drop(&t, &drop)) {
            high = t.a;
            continue;
        }
        low = t.a;
        if (beyond_at(s, low) <= 0)
            break;
    }
    return low;
}

/* The band gap with which Voc follows its coefficient. */
static double band_gap_for(const pvsz_sheet *s, const pvsz_module *m)
{
    double t = 1 + PVSZ_FIT_SPAN / PVSZ_STC_KELVIN,
           voc = s->voc + s->voc_coefficient * PVSZ_FIT_SPAN;
    double light = m->stc.light + m->light_coefficient * PVSZ_FIT_SPAN;
    double saturation = (light - m->stc.shunt * voc) / pvsz_expm1(voc / (m->stc.ideality * t));
    double barrier = pvsz_log(saturation / (m->stc.saturation * t * t * t));

    return barrier * PVSZ_BOLTZMANN * (PVSZ_STC_KELVIN + PVSZ_FIT_SPAN) /
           (PVSZ_FIT_SPAN * (1 / PVSZ_STC_KELVIN - m->narrowing));
}

static pvsz_fit bent(const pvsz_sheet *s, double a, pvsz_module *module)
{
    trial t = {s, a};
    double drop = 0;
    pvsz_module m;

    find_drop(&t, &drop);
    m = module_of(&t, drop);
    if (s->fifth == PVSZ_FIFTH_VOC) {
        m.band_gap = band_gap_for(s, &m);
        if (!(m.band_gap >= 0.5 && m.band_gap <= 3))
            return PVSZ_FIT_BAD_COEFFICIENT;
    }
    *module = m;
    return PVSZ_FIT_BENT;
}

pvsz_fit pvsz_fit_sheet(const pvsz_sheet *s, pvsz_module *module)
{
    double low = s->voc / 150, high, drop = 0;
    trial t = {s, low};

    if (!(s->vmp < s->voc) || !(s->vmp > 0.5 * s->voc))
        return PVSZ_FIT_BAD_VMP;
    if (!(s->imp < s->isc) || !(s->imp > 0.5 * s->isc))
        return PVSZ_FIT_BAD_IMP;
    if (!find_drop(&t, &drop))
        return PVSZ_FIT_NO_CURVE;
    if (beyond_at(s, low) < 0)
        return PVSZ_FIT_BAD_COEFFICIENT;
    high = high_ideality(s, low);
    if (beyond_at(s, high) > 0)
        return bent(s, high, module);
    t.a = pvsz_find_root(beyond_at, s, low, high);
    find_drop(&t, &drop);
    *module = module_of(&t, drop);
    return PVSZ_FIT_EXACT;
}
