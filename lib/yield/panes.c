/* Planes and the modules on them, each computed once. */
#include <string.h>

#include "../equipment/curve.h"
#include "../physics/diode_rows.h"
#include "../physics/sums.h"
#include "light.h"

/* Of the wind at 10 m, what blows at the modules of a roof or rack: common practice. */
#define WIND_AT_MODULES 0.5

double pvsz_kwh(const pvsz_months sums, int32_t month, int32_t step)
{
    double sum = 0;

    for (int32_t i = 0; i < PVSZ_YEAR_MONTHS; i++)
        if (month < 0 || i == month)
            sum += sums[i];
    return sum * step / 60 / 1000;
}

double pvsz_rated_power(const pvsize_spec *module, bool *guessed)
{
    double power = 0, current = 0;

    *guessed = !pvsz_spec_number(module, PVSIZE_MODULE_PMAX, &power);
    if (!*guessed)
        return power;
    pvsz_spec_number(module, PVSIZE_MODULE_VMP, &power);
    pvsz_spec_number(module, PVSIZE_MODULE_IMP, &current);
    return power * current;
}

/* warmth */

static pvsize_status by_mounting(const pvsize_spec *plane, pvsz_warmth *warmth, pvsize_diag *diag)
{
    double mounting = 0;

    if (!pvsz_spec_number(plane, PVSIZE_PLANE_MOUNTING, &mounting))
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_PLANE_MOUNTING);
    warmth->heat = (int32_t)pvsz_heat_of((int32_t)mounting);
    return PVSIZE_OK;
}

static pvsize_status warmth_of(const pvsize_light *light, const pvsize_spec *plane,
                               const pvsize_spec *module, pvsz_warmth *warmth, bool *rack,
                               pvsize_diag *diag)
{
    bool states_loss = pvsz_spec_number(plane, PVSIZE_PLANE_HEAT_LOSS, &warmth->loss);

    warmth->kind = light->cell_temp;
    if (warmth->kind == PVSIZE_CELL_TEMP_MOUNTING && states_loss)
        warmth->kind = PVSIZE_CELL_TEMP_HEAT_LOSS;
    *rack = warmth->kind == PVSIZE_CELL_TEMP_HEAT_LOSS && !states_loss;
    if (*rack) {
        warmth->loss = PVSZ_RACK_LOSS;
        warmth->loss_by_wind = PVSZ_RACK_LOSS_BY_WIND;
    }
    if (warmth->kind == PVSIZE_CELL_TEMP_MOUNTING)
        return by_mounting(plane, warmth, diag);
    if (warmth->kind == PVSIZE_CELL_TEMP_HEAT_LOSS) {
        pvsz_spec_number(plane, PVSIZE_PLANE_HEAT_LOSS_WIND, &warmth->loss_by_wind);
        return PVSIZE_OK;
    }
    warmth->loss = 0;
    if (!pvsz_spec_number(module, PVSIZE_MODULE_NMOT, &warmth->nominal))
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_MODULE_NMOT);
    return PVSIZE_OK;
}

/* panes */

/* The thing, and two columns: of the room of the light, or behind it. */
static void *make_columns(pvsize_light *light, size_t size, double **first, double **second)
{
    size_t n = (size_t)light->hours + 1; /* never none */
    size_t head = (size + sizeof(double) - 1) / sizeof(double);
    bool has_room = light->room_left >= 2;
    double *block = pvsz_new(&light->head.memory, has_room ? head : head + 2 * n, sizeof *block);

    if (!block)
        return NULL;
    *first = has_room ? light->room : block + head;
    *second = *first + n;
    if (has_room) {
        light->room += 2 * n;
        light->room_left -= 2;
    }
    return block;
}

static pvsize_status keep(const pvsize_light *light, pvsz_list *list, void *item, pvsize_diag *diag)
{
    void **grown = item ? pvsz_grow(&light->head.memory, list->item, list->count, &list->capacity,
                                    sizeof *list->item)
                        : NULL;

    if (!grown) {
        pvsz_release(&light->head.memory, item);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    list->item = grown;
    list->item[list->count++] = item;
    return PVSIZE_OK;
}

static void lay_row(const pvsz_hours *from, size_t first, size_t count, pvsz_plane_row *row)
{
    const double *const columns[] = {from->east,   from->north, from->up,      from->beam,
                                     from->around, from->dome,  from->horizon, from->ground,
                                     from->temp,   from->wind};
    double *const places[] = {row->east, row->north,   row->up,     row->beam, row->around,
                              row->dome, row->horizon, row->ground, row->temp, row->wind};

    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        memcpy(places[i], columns[i] + first, count * sizeof(double));
}

static void light_hours(const pvsize_light *light, const pvsz_face *face, const pvsz_warmth *warmth,
                        const pvsz_stretch *stretch, pvsz_pane *pane)
{
    static const pvsz_plane_row nothing;
    pvsz_plane_row row = nothing;
    int width = pvsz_widest();

    for (int32_t h = stretch->first_hour; h < stretch->end_hour; h += PVSZ_ROW) {
        int32_t count = stretch->end_hour - h < PVSZ_ROW ? stretch->end_hour - h : PVSZ_ROW;

        lay_row(&light->hour, (size_t)h, (size_t)count, &row);
        pvsz_light_plane(width, face, warmth, &row);
        for (int32_t i = 0; i < count; i++) {
            pane->net[h + i] = row.glass[i] * light->clean;
            pane->cell[h + i] = row.cell[i];
        }
        pane->gross[stretch->month] += pvsz_total((size_t)count, row.gross);
        pane->glass[stretch->month] += pvsz_total((size_t)count, row.glass);
    }
}

static void light_pane(const pvsize_light *light, pvsz_pane *pane)
{
    pvsz_face face = pvsz_face_of(light->sky, pane->tilt, pane->azimuth, &light->cover);
    pvsz_warmth warmth = pane->warmth;

    warmth.loss_by_wind *= WIND_AT_MODULES;
    for (int32_t s = 0; s < light->stretches; s++)
        light_hours(light, &face, &warmth, &light->stretch[s], pane);
}

static bool same_warmth(const pvsz_warmth *a, const pvsz_warmth *b)
{
    return a->kind == b->kind && a->heat == b->heat && a->loss == b->loss &&
           a->loss_by_wind == b->loss_by_wind && a->nominal == b->nominal;
}

static pvsize_status need(const pvsize_spec *spec, int32_t term, double *value, pvsize_diag *diag)
{
    return pvsz_spec_number(spec, term, value) ? PVSIZE_OK
                                               : pvsz_fail_term(diag, PVSIZE_E_NOT_SET, term);
}

pvsize_status pvsz_pane_of(pvsize_light *light, const pvsize_spec *plane, const pvsize_spec *module,
                           const pvsz_pane **pane, bool *rack, pvsize_diag *diag)
{
    pvsz_pane wanted = {0}, *made;
    double *net = NULL, *cell = NULL;
    pvsize_status status = need(plane, PVSIZE_PLANE_TILT, &wanted.tilt, diag);

    if (!status)
        status = need(plane, PVSIZE_PLANE_AZIMUTH, &wanted.azimuth, diag);
    if (!status)
        status = warmth_of(light, plane, module, &wanted.warmth, rack, diag);
    if (status)
        return status;
    for (size_t i = 0; i < light->panes.count; i++) {
        const pvsz_pane *old = light->panes.item[i];

        *pane = old;
        if (old->tilt == wanted.tilt && old->azimuth == wanted.azimuth &&
            same_warmth(&old->warmth, &wanted.warmth))
            return PVSIZE_OK;
    }
    made = make_columns(light, sizeof *made, &net, &cell);
    status = keep(light, &light->panes, made, diag);
    if (status)
        return status;
    *made = wanted;
    made->net = net;
    made->cell = cell;
    light_pane(light, made);
    *pane = made;
    return PVSIZE_OK;
}

/* pairs */

static bool same_module(const pvsz_module *a, const pvsz_module *b)
{
    const pvsz_diode *x = &a->stc, *y = &b->stc;

    return x->light == y->light && x->saturation == y->saturation && x->ideality == y->ideality &&
           x->series == y->series && x->shunt == y->shunt &&
           a->light_coefficient == b->light_coefficient && a->band_gap == b->band_gap &&
           a->narrowing == b->narrowing;
}

static const pvsz_pair *find_pair(const pvsize_light *light, const pvsz_module *module,
                                  const pvsz_pane *pane)
{
    for (size_t i = 0; i < light->pairs.count; i++) {
        const pvsz_pair *old = light->pairs.item[i];

        if (old->pane == pane && same_module(&old->module, module))
            return old;
    }
    return NULL;
}

/* The sums at 25 degC need powers only. */
static void add_at_25(pvsz_pair *pair, const pvsz_stretch *stretch)
{
    enum { MANY = 256 };
    double power[MANY];

    for (int32_t h = stretch->first_hour; h < stretch->end_hour; h += MANY) {
        int32_t n = stretch->end_hour - h < MANY ? stretch->end_hour - h : MANY;

        pvsz_module_powers(&pair->module, (size_t)n, pair->pane->net + h, 25, power);
        pair->at_25[stretch->month] += pvsz_total((size_t)n, power);
    }
}

static void solve_pair(const pvsize_light *light, pvsz_pair *pair)
{
    const pvsz_pane *pane = pair->pane;
    pvsz_diode stc = pvsz_module_at(&pair->module, PVSZ_STC_IRRADIANCE, 25);
    pvsz_point peak = pvsz_diode_mpp(&stc);

    pair->stc = peak.voltage * peak.current;
    pvsz_module_mpps(&pair->module, (size_t)light->hours, pane->net, pane->cell, pair->voltage,
                     pair->current);
    for (int32_t s = 0; s < light->stretches; s++) {
        const pvsz_stretch *stretch = &light->stretch[s];
        int32_t first = stretch->first_hour;

        add_at_25(pair, stretch);
        pair->own[stretch->month] += pvsz_sum_products(
            (size_t)(stretch->end_hour - first), pair->voltage + first, pair->current + first);
    }
}

pvsize_status pvsz_pair_of(pvsize_light *light, const pvsz_module *module, const pvsz_pane *pane,
                           const pvsz_pair **pair, pvsize_diag *diag)
{
    double *voltage = NULL, *current = NULL;
    pvsize_status status;
    pvsz_pair *made;

    *pair = find_pair(light, module, pane);
    if (*pair)
        return PVSIZE_OK;
    made = make_columns(light, sizeof *made, &voltage, &current);
    status = keep(light, &light->pairs, made, diag);
    if (status)
        return status;
    made->pane = pane;
    made->module = *module;
    made->voltage = voltage;
    made->current = current;
    solve_pair(light, made);
    *pair = made;
    return PVSIZE_OK;
}
