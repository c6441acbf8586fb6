/* Formulas of the sky and of glass without branches, for one interval or a row of them: as they
 * are written once, both have the same bits. */
#ifndef PVSZ_SKY_PARTS_H
#define PVSZ_SKY_PARTS_H

#include "angle.h"
#include "elementary.h"
#include "sky.h"

/* Kasten and Young 1989, by the zenith angle (radians) and its cosine. */
PVSZ_INLINE double pvsz_mass_of(double cosine, double zenith)
{
    double power = pvsz_exp(-1.6364 * pvsz_log(96.07995 - PVSZ_DEG(zenith)));

    return 1 / (cosine + 0.50572 * power);
}

/* Perez 1990, equations 1 to 9, with the relative air mass. */
typedef struct pvsz_clarity {
    double zenith, clearness, brightness;
} pvsz_clarity;

PVSZ_INLINE pvsz_clarity pvsz_clarity_of(double up, double beyond, double beam, double diffuse)
{
    double cosine = pvsz_clamp(up, 0, 1), zenith = pvsz_acos(cosine);
    double bend = 1.041 * zenith * zenith * zenith;

    return (pvsz_clarity){zenith, ((diffuse + beam) / diffuse + bend) / (1 + bend),
                          diffuse * pvsz_mass_of(cosine, zenith) / beyond};
}

enum { PVSZ_BIN_TERMS = 6 }; /* f11 to f13, f21 to f23 */

static const struct {
    double clearness; /* the highest */
    double term[PVSZ_BIN_TERMS];
} pvsz_sky_bins[] = {
#define SKY_BIN(clearness, f11, f12, f13, f21, f22, f23) \
    {clearness, {f11, f12, f13, f21, f22, f23}},
#include "../tables/sky_bins.def"
#undef SKY_BIN
};
enum { PVSZ_SKY_BINS = sizeof pvsz_sky_bins / sizeof pvsz_sky_bins[0] };

/* Shares of the diffuse light: from round the sun and, as a part of it, from the horizon. No more
 * than all from round the sun: skies so bright that it would be lie outside what was measured. */
PVSZ_INLINE double pvsz_share_around(pvsz_clarity at, double f11, double f12, double f13)
{
    return pvsz_clamp(f11 + f12 * at.brightness + f13 * at.zenith, 0, 1);
}

PVSZ_INLINE double pvsz_share_horizon(pvsz_clarity at, double f21, double f22, double f23)
{
    return f21 + f22 * at.brightness + f23 * at.zenith;
}

/* Cosine of the zenith angle that what lies round a low sun is divided by: 85 degrees,
 * as Perez has it. */
PVSZ_INLINE double pvsz_lifted(double up)
{
    return pvsz_greatest(up, 0.087155742747658166);
}

/* Fresnel, with Snell's law for the ray inside; the two polarizations apart. */
typedef struct pvsz_mirrored {
    double inside, across, along;
} pvsz_mirrored;

PVSZ_INLINE pvsz_mirrored pvsz_mirror(double index, double cosine)
{
    double inside = sqrt(1 - (1 - cosine * cosine) / (index * index));
    double r = (cosine - index * inside) / (cosine + index * inside);
    double p = (index * cosine - inside) / (index * cosine + inside);

    return (pvsz_mirrored){inside, r * r, p * p};
}

/* Shares that pass a cover of each kind, of those at light from straight ahead; the cosine from 0
 * to 1. */
PVSZ_INLINE double pvsz_pass_glass(const pvsz_cover *cover, double cosine)
{
    double straight = (cover->index - 1) / (cover->index + 1);
    pvsz_mirrored light = pvsz_mirror(cover->index, cosine);

    return pvsz_exp(cover->depth - cover->depth / light.inside) *
           (1 - (light.across + light.along) / 2) / (1 - straight * straight);
}

PVSZ_INLINE double pvsz_pass_exponential(const pvsz_cover *cover, double cosine)
{
    return pvsz_expm1(-cosine / cover->slope) / pvsz_expm1(-1 / cover->slope);
}

PVSZ_INLINE double pvsz_pass_secant(const pvsz_cover *cover, double cosine)
{
    return pvsz_greatest(0, 1 - cover->slope * (1 / cosine - 1));
}

/* `ground` is what that reflects; `direct` of the light from the sun and round it, and shares of
 * that from sky and ground. A dark horizon can outweigh the rest in front of a steep plane. */
PVSZ_INLINE pvsz_plane_sun pvsz_add_up(const pvsz_face *face, const pvsz_sky *sky, double ground,
                                       double direct, double sky_share, double ground_share)
{
    double spread = sky->dome * face->sky + sky->horizon * face->horizon;

    return (pvsz_plane_sun){
        .beam = sky->beam * direct,
        .sky = pvsz_greatest(0, sky->around * direct + spread * sky_share),
        .ground = ground * face->ground * ground_share,
    };
}

PVSZ_INLINE double pvsz_sum_of(pvsz_plane_sun on)
{
    return on.beam + on.sky + on.ground;
}

#endif
