/* Models of the sky's brightness. */
#include <math.h>
#include <stddef.h>

#include "angle.h"
#include "sky.h"
#include "sky_parts.h"

static void spread_by_bins(pvsz_sky *sky, const pvsz_sun *sun, double diffuse)
{
    pvsz_clarity at = pvsz_clarity_of(sun->up, sun->beyond, sky->beam, diffuse);
    const double *f;
    double around;
    size_t i = 0;

    while (at.clearness > pvsz_sky_bins[i].clearness)
        i++;
    f = pvsz_sky_bins[i].term;
    around = pvsz_share_around(at, f[0], f[1], f[2]);
    sky->around = diffuse * around / pvsz_lifted(sun->up);
    sky->dome = diffuse * (1 - around);
    sky->horizon = diffuse * pvsz_share_horizon(at, f[3], f[4], f[5]);
}

/* Hay and Davies 1980: the share that the beam has of what it was outside. */
static void spread_round_sun(pvsz_sky *sky, const pvsz_sun *sun, double diffuse)
{
    double around = fmin(sky->beam / sun->beyond, 1);

    sky->around = diffuse * around / pvsz_lifted(sun->up);
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
    pvsz_mean_passes(&face.cover, tilt, &face.sky_pass, &face.ground_pass);
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

pvsz_plane_sun pvsz_through_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                                 double albedo, pvsz_plane_sun *before)
{
    double direct = pvsz_greatest(cosine_of(face, sun), 0); /* this way round -0 becomes 0 */
    double ground = sky->ground * albedo;
    double passed = direct > 0 ? direct * pvsz_pass(&face->cover, direct) : 0;

    *before = pvsz_add_up(face, sky, ground, direct, 1, 1);
    return pvsz_add_up(face, sky, ground, passed, face->sky_pass, face->ground_pass);
}

pvsz_plane_sun pvsz_on_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                            double albedo)
{
    pvsz_plane_sun before;

    return pvsz_through_face(face, sky, sun, albedo, &before);
}
