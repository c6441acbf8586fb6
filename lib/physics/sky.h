/* Irradiance on tilted planes. The sky is taken apart once for each hour, whatever
 * the planes; each plane is then one product with the sun's direction and a few
 * factors. Numbers in, numbers out. */
#ifndef PVSZ_SKY_H
#define PVSZ_SKY_H

#include "incidence.h"
#include "sun.h"

/* How the diffuse part is spread over the sky. */
typedef enum pvsz_sky_model {
    PVSZ_SKY_BINNED,      /* brightness by bins of clearness (Perez 1990): the default */
    PVSZ_SKY_EVEN,        /* the same from everywhere (Liu and Jordan 1960) */
    PVSZ_SKY_CIRCUMSOLAR, /* some from the sun's direction (Hay and Davies 1980) */
    PVSZ_SKY_AND_HORIZON, /* and some from the horizon (Reindl 1990) */
    PVSZ_SKY_MODELS
} pvsz_sky_model;

/* The sky of one interval, W/m2. */
typedef struct pvsz_sky {
    double beam;    /* from the sun, on a plane that faces it */
    double around;  /* from round the sun, likewise */
    double dome;    /* from all of the sky */
    double horizon; /* from the horizon: on a plane, times its own factor for it */
    double ground;  /* global, which the ground reflects */
} pvsz_sky;

/* A plane, ready for many hours. */
typedef struct pvsz_face {
    double east, north, up; /* its normal */
    double sky, ground;     /* what it sees of them */
    double horizon;
    pvsz_cover cover;
    double sky_pass, ground_pass; /* shares that pass the cover */
} pvsz_face;

/* Irradiance on a plane, W/m2. */
typedef struct pvsz_plane_sun {
    double beam, sky, ground;
} pvsz_plane_sun;

/* Beam on a plane facing the sun, diffuse and global on the horizontal. */
pvsz_sky pvsz_sky_of(pvsz_sky_model model, const pvsz_sun *sun, double beam, double diffuse,
                     double global);
/* Tilt and azimuth in degrees; a null cover lets all through. */
pvsz_face pvsz_face_of(pvsz_sky_model model, double tilt, double azimuth, const pvsz_cover *cover);
pvsz_plane_sun pvsz_on_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                            double albedo);
/* The same, and what there is before the cover. */
pvsz_plane_sun pvsz_through_face(const pvsz_face *face, const pvsz_sky *sky, const pvsz_sun *sun,
                                 double albedo, pvsz_plane_sun *before);
/* Angle between the plane's normal and the sun, degrees. */
double pvsz_incidence(const pvsz_face *face, const pvsz_sun *sun);

#endif
