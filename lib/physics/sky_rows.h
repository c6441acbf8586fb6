/* Many intervals at once: their skies, and what falls on a plane under them. Numbers in, numbers
 * out. Bit for bit what single calls give, in every width of vector instructions
 * (pvsz_widest). */
#ifndef PVSZ_SKY_ROWS_H
#define PVSZ_SKY_ROWS_H

#include "sky.h"
#include "temperature.h"
#include "widths.h"

/* As pvsz_sky_of: sun, beam and diffuse in, the sky out. Places that are not used hold 0. */
typedef struct pvsz_sky_row {
    double up[PVSZ_ROW], beyond[PVSZ_ROW], lit[PVSZ_ROW]; /* of the sun */
    double beam[PVSZ_ROW], diffuse[PVSZ_ROW];             /* beam: 0 afterwards without sun */
    double around[PVSZ_ROW], dome[PVSZ_ROW], horizon[PVSZ_ROW];
} pvsz_sky_row;

void pvsz_skies_of(int width, pvsz_sky_model model, pvsz_sky_row *row);

/* How warm the cells of a plane get; what a kind does not need is 0. */
typedef struct pvsz_warmth {
    int32_t kind; /* PVSIZE_CELL_TEMP_... */
    int32_t heat; /* pvsz_cell_heat */
    double loss, loss_by_wind, nominal;
} pvsz_warmth;

/* As pvsz_through_face, and the cell temperatures. The ground is what it reflects. */
typedef struct pvsz_plane_row {
    double east[PVSZ_ROW], north[PVSZ_ROW], up[PVSZ_ROW];
    double beam[PVSZ_ROW], around[PVSZ_ROW], dome[PVSZ_ROW], horizon[PVSZ_ROW], ground[PVSZ_ROW];
    double temp[PVSZ_ROW], wind[PVSZ_ROW];
    double gross[PVSZ_ROW], glass[PVSZ_ROW]; /* on the plane, and behind its cover, W/m2 */
    double cell[PVSZ_ROW];
    double direct[PVSZ_ROW], passed[PVSZ_ROW]; /* on the way */
} pvsz_plane_row;

void pvsz_light_plane(int width, const pvsz_face *face, const pvsz_warmth *warmth,
                      pvsz_plane_row *row);

#endif
