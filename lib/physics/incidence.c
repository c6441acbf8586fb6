/* Incidence-angle modifiers, and their means over sky and ground. */
#include <math.h>
#include <stdbool.h>
#include <stdint.h>

#include "angle.h"
#include "incidence.h"
#include "sky_parts.h"

pvsz_cover pvsz_usual_cover(pvsz_cover_kind kind)
{
    double slope = kind == PVSZ_COVER_EXPONENTIAL ? 0.16 : 0.05;

    return (pvsz_cover){.kind = kind, .index = 1.526, .depth = 4 * 0.002, .slope = slope};
}

void pvsz_reflectance(double index, double cosine, double *across, double *along)
{
    pvsz_mirrored light = pvsz_mirror(index, cosine);

    *across = light.across;
    *along = light.along;
}

double pvsz_pass(const pvsz_cover *cover, double cosine)
{
    double c = fmin(cosine, 1);

    if (c <= 0)
        return 0;
    switch (cover->kind) {
    case PVSZ_COVER_GLASS:
        return pvsz_pass_glass(cover, c);
    case PVSZ_COVER_EXPONENTIAL:
        return pvsz_pass_exponential(cover, c);
    case PVSZ_COVER_SECANT:
        return pvsz_pass_secant(cover, c);
    default:
        return 1;
    }
}

/* Of the directions at an angle t from the normal, the share above the horizon. */
static double share_of_sky(double t, double tilt)
{
    double edge = sin(t) * sin(tilt);

    if (edge < 1e-12)
        return cos(t) * cos(tilt) >= 0;
    return acos(pvsz_clamp(-cos(t) * cos(tilt) / edge, -1, 1)) / PVSZ_PI;
}

/* Integrals over the directions, with the cover and without. */
typedef struct means {
    double passed, seen;
} means;

/* Adds them over the angle from `from` to `to`, for the sky and the ground. The integrand bends
 * sharply at the ends; a smooth step of the ninth degree brings the points so close together
 * there that the midpoint rule does not see it. */
static void add_piece(const pvsz_cover *cover, double tilt, double from, double to, means *sky,
                      means *ground)
{
    enum { POINTS = 64 };

    for (int32_t i = 0; i < POINTS; i++) {
        double u = (i + 0.5) / POINTS, v = u * (1 - u), square = u * u;
        double step = square * square * u * (126 - u * (420 - u * (540 - u * (315 - 70 * u))));
        double t = from + (to - from) * step, c = cos(t);
        double share = share_of_sky(t, tilt), pass = pvsz_pass(cover, c);
        double weight = v * v * v * v * c * sin(t) * (to - from);

        sky->passed += weight * share * pass;
        sky->seen += weight * share;
        ground->passed += weight * (1 - share) * pass;
        ground->seen += weight * (1 - share);
    }
}

static double mean_of(const means *m)
{
    return m->seen > 1e-9 ? m->passed / m->seen : 1;
}

void pvsz_mean_passes(const pvsz_cover *cover, double tilt, double *sky, double *ground)
{
    double b = PVSZ_RAD(tilt), right = PVSZ_PI / 2;
    double bend = fabs(right - b); /* from here the horizon cuts the circle */
    double corner = right;         /* from here nothing passes */
    means of_sky = {0, 0}, of_ground = {0, 0};

    *sky = *ground = 1;
    if (cover->kind == PVSZ_COVER_NONE)
        return;
    if (cover->kind == PVSZ_COVER_SECANT)
        corner = acos(cover->slope / (1 + cover->slope));
    add_piece(cover, b, 0, fmin(bend, corner), &of_sky, &of_ground);
    add_piece(cover, b, fmin(bend, corner), fmax(bend, corner), &of_sky, &of_ground);
    add_piece(cover, b, fmax(bend, corner), right, &of_sky, &of_ground);
    *sky = mean_of(&of_sky);
    *ground = mean_of(&of_ground);
}
