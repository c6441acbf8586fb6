/* Skies and planes in rows. */
#include "sky_rows.h"

#include "pvsize/ids.h"
#include "sky_parts.h"

/* skies */

typedef struct clarities {
    double zenith[PVSZ_ROW], clearness[PVSZ_ROW], brightness[PVSZ_ROW];
    double term[PVSZ_BIN_TERMS][PVSZ_ROW];
} clarities;

/* The bin that holds is the last whose lower edge is passed. */
PVSZ_INLINE void lay_terms(clarities *at)
{
    for (int32_t k = 0; k < PVSZ_BIN_TERMS; k++)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            at->term[k][i] = pvsz_sky_bins[0].term[k];
    for (int32_t b = 1; b < PVSZ_SKY_BINS; b++)
        for (int32_t k = 0; k < PVSZ_BIN_TERMS; k++) {
            double edge = pvsz_sky_bins[b - 1].clearness, term = pvsz_sky_bins[b].term[k];

            for (int32_t i = 0; i < PVSZ_ROW; i++) {
                double before = at->term[k][i];

                at->term[k][i] = at->clearness[i] > edge ? term : before;
            }
        }
}

PVSZ_INLINE void binned_row(const void *unused, pvsz_sky_row *r)
{
    clarities at;

    (void)unused;
    for (int32_t i = 0; i < PVSZ_ROW; i++) {
        pvsz_clarity one = pvsz_clarity_of(r->up[i], r->beyond[i], r->beam[i], r->diffuse[i]);

        at.zenith[i] = one.zenith;
        at.clearness[i] = one.clearness;
        at.brightness[i] = one.brightness;
    }
    lay_terms(&at);
    for (int32_t i = 0; i < PVSZ_ROW; i++) {
        pvsz_clarity one = {at.zenith[i], at.clearness[i], at.brightness[i]};
        double diffuse = r->diffuse[i];
        double around = pvsz_share_around(one, at.term[0][i], at.term[1][i], at.term[2][i]);
        double horizon = pvsz_share_horizon(one, at.term[3][i], at.term[4][i], at.term[5][i]);
        double sunny = r->lit[i] > 0 ? r->up[i] : 0;
        double spread = diffuse > 0 ? sunny : 0; /* above 0: spread by the sun */

        r->around[i] = spread > 0 ? diffuse * around / pvsz_lifted(r->up[i]) : 0;
        r->dome[i] = spread > 0 ? diffuse * (1 - around) : diffuse;
        r->horizon[i] = spread > 0 ? diffuse * horizon : 0;
        r->beam[i] = sunny > 0 ? r->beam[i] : 0;
    }
}

PVSZ_IN_WIDTHS(binned_row, void, pvsz_sky_row)

/* The other models cost little one by one. */
static void plain_row(pvsz_sky_model model, pvsz_sky_row *r)
{
    for (int32_t i = 0; i < PVSZ_ROW; i++) {
        pvsz_sun sun = {.up = r->up[i], .beyond = r->beyond[i], .lit = r->lit[i]};
        pvsz_sky sky = pvsz_sky_of(model, &sun, r->beam[i], r->diffuse[i], 0);

        r->beam[i] = sky.beam;
        r->around[i] = sky.around;
        r->dome[i] = sky.dome;
        r->horizon[i] = sky.horizon;
    }
}

void pvsz_skies_of(int width, pvsz_sky_model model, pvsz_sky_row *row)
{
    if (model == PVSZ_SKY_BINNED)
        binned_row_by[width](NULL, row);
    else
        plain_row(model, row);
}

/* planes */

typedef struct plane {
    pvsz_face face;
    pvsz_warmth warmth;
    pvsz_heat_terms heat;
} plane;

PVSZ_INLINE void pass_row(const pvsz_cover *cover, pvsz_plane_row *r)
{
    for (int32_t i = 0; i < PVSZ_ROW; i++)
        r->passed[i] = pvsz_least(r->direct[i], 1);
    if (cover->kind == PVSZ_COVER_GLASS)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->passed[i] = pvsz_pass_glass(cover, r->passed[i]);
    else if (cover->kind == PVSZ_COVER_EXPONENTIAL)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->passed[i] = pvsz_pass_exponential(cover, r->passed[i]);
    else if (cover->kind == PVSZ_COVER_SECANT)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->passed[i] = pvsz_pass_secant(cover, r->passed[i]);
    else
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->passed[i] = 1;
    for (int32_t i = 0; i < PVSZ_ROW; i++)
        r->passed[i] *= r->direct[i];
}

PVSZ_INLINE void warm_row(const plane *p, pvsz_plane_row *r)
{
    if (p->warmth.kind == PVSIZE_CELL_TEMP_MOUNTING)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->cell[i] = pvsz_cell_temp_by(&p->heat, r->temp[i], r->gross[i], r->wind[i]);
    else if (p->warmth.kind == PVSIZE_CELL_TEMP_HEAT_LOSS)
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->cell[i] = pvsz_cell_temp_linear(r->temp[i], r->gross[i], p->warmth.loss,
                                               p->warmth.loss_by_wind, r->wind[i]);
    else
        for (int32_t i = 0; i < PVSZ_ROW; i++)
            r->cell[i] = pvsz_cell_temp_nominal(r->temp[i], r->gross[i], p->warmth.nominal);
}

PVSZ_INLINE void plane_row(const plane *with, pvsz_plane_row *r)
{
    plane p = *with; /* of its own: not changed by what is written below */
    const pvsz_face *f = &p.face;

    for (int32_t i = 0; i < PVSZ_ROW; i++) {
        double cosine = f->east * r->east[i] + f->north * r->north[i] + f->up * r->up[i];

        r->direct[i] = pvsz_greatest(cosine, 0); /* this way round -0 becomes 0 */
    }
    pass_row(&f->cover, r);
    for (int32_t i = 0; i < PVSZ_ROW; i++) {
        pvsz_sky sky = {r->beam[i], r->around[i], r->dome[i], r->horizon[i], r->ground[i]};

        r->gross[i] = pvsz_sum_of(pvsz_add_up(f, &sky, sky.ground, r->direct[i], 1, 1));
        r->glass[i] = pvsz_sum_of(
            pvsz_add_up(f, &sky, sky.ground, r->passed[i], f->sky_pass, f->ground_pass));
    }
    warm_row(&p, r);
}

PVSZ_IN_WIDTHS(plane_row, plane, pvsz_plane_row)

void pvsz_light_plane(int width, const pvsz_face *face, const pvsz_warmth *warmth,
                      pvsz_plane_row *row)
{
    plane p = {*face, *warmth, {0, 0, 0}};

    if (warmth->kind == PVSIZE_CELL_TEMP_MOUNTING)
        p.heat = pvsz_heat_terms_of((pvsz_cell_heat)warmth->heat);
    plane_row_by[width](&p, row);
}
