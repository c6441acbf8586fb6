/* Models of the sky's brightness. */
#include <math.h>
#include <stddef.h>

#include "angle.h"
#include "sky.h"

static const struct {
    double clearness, f1[3], f2[3];
} bins[] = {
#define SKY_BIN(clearness, f11, f12, f13, f21, f22, f23) \
    {clearness, {f11, f12, f13}, {f21, f22, f23}},
#include "../tables/sky_bins.def"
#undef SKY_BIN
};

/* Cosine of the zenith angle that what lies round a low sun is divided by: 85 degrees,
 * as Perez has it. */
#define LOWEST_SUN 0.087155742747658166

static double lifted(const pvsz_sun *sun)
{
    return fmax(sun->up, LOWEST_SUN);
}

/* Perez 1990, equations 1 to 9, with the relative air mass. */
static void spread_by_bins(pvsz_sky *sky, const pvsz_sun *sun, double diffuse)
{
    double zenith = acos(pvsz_clamp(sun->up, 0, 1));
    double bend = 1.041 * zenith * zenith * zenith;
    double clearness = ((diffuse + sky->beam) / diffuse + bend) / (1 + bend);
    double brightness = diffuse * pvsz_air_mass(sun->up) / sun->beyond;
    size_t i = 0;
    double around, horizon;

    while (clearness > bins[i].clearness)
        i++;
    /* no more than all: skies so bright that it would be lie outside what was measured */
    around = bins[i].f1[0] + bins[i].f1[1] * brightness + bins[i].f1[2] * zenith;
    around = pvsz_clamp(around, 0, 1);
    horizon = bins[i].f2[0] + bins[i].f2[1] * brightness + bins[i].f2[2] * zenith;
    sky->around = diffuse * around / lifted(sun);
    sky->dome = diffuse * (1 - around);
    sky->horizon = diffuse * horizon;
}

/* Hay and Davies 1980: the share that the beam has of what it was outside. */
static void spread_round_sun(pvsz_sky *sky, const pvsz_sun *sun, double diffuse)
{
    double around = fmin(sky->beam / sun->beyond, 1);

    sky->around = diffuse * around / lifted(sun);
    sky->dome = diffuse * (1 - around);
}

/* Reindl 1990 as in Duffie and Beckman, section 2.16. */
static void spread_with_horizon(pvsz_sky *sky, const pvsz_sun *sun, double diffuse)
{
    double on_ground = sky->beam * sun->up;

    spread_round_sun(sky, sun, diffuse);
    sky->horizon = sky->dome * sqrt(on_ground / (on_ground + diffuse));
}

pvsz_sky pvsz_sky_of(pvsz_sky_model model, const pvsz_sun *sun, double beam, double diffuse,
                     double global)
{
    pvsz_sky sky = {.dome = diffuse, .ground = global};

    if (sun->lit <= 0 || sun->up <= 0)
        return sky;
    sky.beam = beam;
    if (diffuse <= 0)
        return sky;
    if (model == PVSZ_SKY_BINNED)
        spread_by_bins(&sky, sun, diffuse);
    else if (model == PVSZ_SKY_CIRCUMSOLAR)
        spread_round_sun(&sky, sun, diffuse);
    else if (model == PVSZ_SKY_AND_HORIZON)
        spread_with_horizon(&sky, sun, diffuse);
    return sky;
}

pvsz_face pvsz_face_of(pvsz_sky_model model, double tilt, double azimuth, const pvsz_cover *cover)
{
    static const pvsz_cover none = {.kind = PVSZ_COVER_NONE};
    double b = PVSZ_RAD(tilt), g = PVSZ_RAD(azimuth), half = sin(b / 2);
    pvsz_face face = {.east = sin(b) * sin(g), .north = sin(b) * cos(g), .up = cos(b)};

    face.ground = half * half; /* (1 - cos b) / 2 */
    face.sky = 1 - face.ground;
    face.horizon = model == PVSZ_SKY_AND_HORIZON ? face.sky * half * half * half : sin(b);
    face.cover = cover ? *cover : none;
    face.sky_pass = pvsz_pass_sky(&face.cover, tilt);
    face.ground_pass = pvsz_pass_ground(&face.cover, tilt);
    return face;
}

static double cosine_of(const pvsz_face *face, const pvsz_sun *sun)
{
    return face->east * sun->east + face->north * sun->north + face->up * sun->up;
}

double pvsz_incidence(const pvsz_face *face, const pvsz_sun *sun)
{
    return PVSZ_DEG(acos(pvsz_clamp(cosine_of(face, sun), -1, 1)));
}

/* `direct` of the light from the sun and round it, and shares of that from sky and ground. A
 * dark horizon can outweigh the rest in front of a steep plane. */
static pvsz_plane_sun add_up(const pvsz_face *face, const pvsz_sky *sky, double albedo,
                             double direct, double sky_share, double ground_share)
{
    double spread = sky->dome * face->sky + sky->horizon * face->horizon;

    return (pvsz_plane_sun){
        .beam = sky->beam * direct,
        .sky = fmax(0, sky->around * direct + spread * sky_share),
        .ground = sky->ground * albedo * face->ground * ground_share,
    };
}

pvsz_plane_sun pvsz_through_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                                 double albedo, pvsz_plane_sun *before)
{
    double direct = fmax(0, cosine_of(face, sun));
    double passed = direct > 0 ? direct * pvsz_pass(&face->cover, direct) : 0;

    *before = add_up(face, sky, albedo, direct, 1, 1);
    return add_up(face, sky, albedo, passed, face->sky_pass, face->ground_pass);
}

pvsz_plane_sun pvsz_on_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                            double albedo)
{
    pvsz_plane_sun before;

    return pvsz_through_face(face, sky, sun, albedo, &before);
}
