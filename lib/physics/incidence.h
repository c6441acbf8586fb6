/* What glass lets through at slanting light, as a share of what it lets through at
 * light from straight ahead. Numbers in, numbers out. */
#ifndef PVSZ_INCIDENCE_H
#define PVSZ_INCIDENCE_H

typedef enum pvsz_cover_kind {
    PVSZ_COVER_NONE,        /* no losses */
    PVSZ_COVER_GLASS,       /* reflection and absorption (De Soto et al. 2006) */
    PVSZ_COVER_EXPONENTIAL, /* one parameter (Martin and Ruiz 2001) */
    PVSZ_COVER_SECANT,      /* one parameter (ASHRAE 93) */
    PVSZ_COVERS
} pvsz_cover_kind;

typedef struct pvsz_cover {
    pvsz_cover_kind kind;
    double index; /* of refraction */
    double depth; /* of glass: extinction times thickness */
    double slope; /* the one parameter: a_r of Martin and Ruiz, b_0 of ASHRAE */
} pvsz_cover;

/* The usual figures: glass of index 1.526, 4 /m and 2 mm; 0.16; 0.05. */
pvsz_cover pvsz_usual_cover(pvsz_cover_kind kind);
/* Share that a surface of glass reflects, the two polarizations apart. */
void pvsz_reflectance(double index, double cosine, double *across, double *along);
/* Of light that meets the plane under an angle with this cosine. */
double pvsz_pass(const pvsz_cover *cover, double cosine);
/* Of light that comes evenly from all the sky, and from all the ground, that a plane of this
 * tilt (degrees) sees: the means over the directions, not at one equivalent angle. 1
 * where the plane sees none. */
void pvsz_mean_passes(const pvsz_cover *cover, double tilt, double *sky, double *ground);

#endif
