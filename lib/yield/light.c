/* Light as an object: the hours of the weather with light, and how they are computed. */
#include "light.h"

#include <string.h>

#include "../equipment/curve.h"

pvsize_status pvsz_check_light(const pvsize_light *light, pvsize_diag *diag)
{
    if (!light)
        return pvsz_fail_null(diag, "light");
    return pvsz_is(light, PVSZ_MARK_LIGHT) ? PVSIZE_OK : pvsz_fail_handle(diag, "light");
}

static void free_list(const pvsz_memory *memory, pvsz_list *list)
{
    for (size_t i = 0; i < list->count; i++)
        pvsz_release(memory, list->item[i]);
    pvsz_release(memory, list->item);
}

void pvsize_light_free(pvsize_light *light)
{
    if (!pvsz_is(light, PVSZ_MARK_LIGHT))
        return;
    free_list(&light->head.memory, &light->pairs);
    free_list(&light->head.memory, &light->panes);
    pvsz_release(&light->head.memory, light->state);
    pvsz_release(&light->head.memory, light->stretch);
    pvsz_release(&light->head.memory, light->hour.east);
    pvsz_unmake(light);
}

/* options */

static double option(const pvsize_spec *outlook, int32_t term)
{
    double value = pvsz_term_find(term)->deflt;

    if (outlook)
        pvsz_spec_number(outlook, term, &value);
    return value;
}

static void take_options(pvsize_light *light, const pvsize_spec *outlook)
{
    /* both run in the order of their sets */
    light->sky = (pvsz_sky_model)(option(outlook, PVSIZE_OUTLOOK_SKY) - PVSIZE_SKY_BINNED);
    light->cover = pvsz_usual_cover(
        (pvsz_cover_kind)(option(outlook, PVSIZE_OUTLOOK_COVER) - PVSIZE_COVER_NONE));
    light->cell_temp = (int32_t)option(outlook, PVSIZE_OUTLOOK_CELL_TEMP);
    light->clean = 1 - option(outlook, PVSIZE_OUTLOOK_SOILING) / 100;
    light->kept = 1 - option(outlook, PVSIZE_OUTLOOK_POWER_LOSS) / 100;
    light->blocked = option(outlook, PVSIZE_OUTLOOK_BLOCKED) == PVSIZE_ANSWER_YES;
    light->wind = -1;
    if (outlook)
        pvsz_spec_number(outlook, PVSIZE_OUTLOOK_WIND, &light->wind);
}

/* rows */

static bool needs_wind(const pvsize_light *light)
{
    return light->cell_temp != PVSIZE_CELL_TEMP_NOMINAL && light->wind < 0;
}

static pvsz_row_state state_of(const pvsize_light *light, const pvsz_weather_row *row)
{
    if (!pvsz_known(row, PVSZ_BEAM) || !pvsz_known(row, PVSZ_DIFFUSE))
        return PVSZ_ROW_GAP;
    if (row->value[PVSZ_DIFFUSE] <= 0 && (row->value[PVSZ_BEAM] <= 0 || row->sun.lit <= 0))
        return PVSZ_ROW_DARK;
    if (!pvsz_known(row, PVSZ_TEMP) || (needs_wind(light) && !pvsz_known(row, PVSZ_WIND)))
        return PVSZ_ROW_GAP;
    return PVSZ_ROW_LIT;
}

/* How many rows have light, and in how many stretches of one month all rows stand. */
static void measure_rows(pvsize_light *light, const pvsize_weather *weather)
{
    int32_t last = -1;

    light->rows = weather->rows;
    light->step = weather->step;
    for (int32_t i = 0; i < weather->rows; i++) {
        pvsz_row_state state = state_of(light, &weather->row[i]);
        int32_t since = weather->minute + i * weather->step;
        int32_t year, day, minute, month, count = since < 0 ? -1 : since / 1440;

        light->hours += state == PVSZ_ROW_LIT;
        light->gaps += state == PVSZ_ROW_GAP;
        light->state[i] = (uint8_t)state;
        if (i > 0 && count == last) /* the same day */
            continue;
        last = count;
        pvsz_row_time(weather, i, &year, &day, &minute);
        month = pvsz_month_of(year, day);
        /* the calendar goes through all months one after the other */
        if (light->stretches == 0 || light->stretch[light->stretches - 1].month != month)
            light->stretch[light->stretches++] = (pvsz_stretch){month, i, 0, 0, 0, 0};
    }
    for (int32_t s = 0; s < light->stretches; s++)
        light->stretch[s].end_row =
            s + 1 < light->stretches ? light->stretch[s + 1].first_row : light->rows;
}

/* Puts a row into the columns, and what the sky needs into place i of its own. */
static void take_hour(pvsize_light *light, const pvsize_weather *weather, int32_t row, int32_t hour,
                      pvsz_sky_row *sky, int32_t i)
{
    const pvsz_weather_row *from = &weather->row[row];
    pvsz_hours *to = &light->hour;
    bool wind = pvsz_known(from, PVSZ_WIND);

    to->row[hour] = row;
    to->east[hour] = from->sun.east;
    to->north[hour] = from->sun.north;
    to->up[hour] = sky->up[i] = from->sun.up;
    to->ground[hour] = from->value[PVSZ_GLOBAL] * from->albedo;
    to->temp[hour] = from->value[PVSZ_TEMP];
    to->wind[hour] = wind ? from->value[PVSZ_WIND] : light->wind;
    light->took_wind |= !wind && light->cell_temp != PVSIZE_CELL_TEMP_NOMINAL;
    sky->beyond[i] = from->sun.beyond;
    sky->lit[i] = from->sun.lit;
    sky->beam[i] = from->value[PVSZ_BEAM];
    sky->diffuse[i] = from->value[PVSZ_DIFFUSE];
}

static void take_skies(pvsize_light *light, pvsz_sky_row *sky, int32_t first, int32_t count)
{
    size_t size = (size_t)count * sizeof(double);
    pvsz_hours *to = &light->hour;

    pvsz_skies_of(pvsz_widest(), light->sky, sky);
    memcpy(to->beam + first, sky->beam, size);
    memcpy(to->around + first, sky->around, size);
    memcpy(to->dome + first, sky->dome, size);
    memcpy(to->horizon + first, sky->horizon, size);
}

static void take_hours(pvsize_light *light, const pvsize_weather *weather)
{
    pvsz_sky_row sky = {{0}, {0}, {0}, {0}, {0}, {0}, {0}, {0}};
    int32_t hour = 0, taken = 0;

    for (int32_t s = 0; s < light->stretches; s++) {
        pvsz_stretch *stretch = &light->stretch[s];

        stretch->first_hour = hour;
        for (int32_t i = stretch->first_row; i < stretch->end_row; i++) {
            stretch->dark += light->state[i] == PVSZ_ROW_DARK;
            if (light->state[i] != PVSZ_ROW_LIT)
                continue;
            take_hour(light, weather, i, hour, &sky, hour - taken);
            if (++hour - taken == PVSZ_ROW) {
                take_skies(light, &sky, taken, PVSZ_ROW);
                taken = hour;
            }
        }
        stretch->end_hour = hour;
    }
    take_skies(light, &sky, taken, hour - taken);
}

/* With columns for a module on each of two planes: freed as one, the block stays with the C
 * library, where smaller ones go back to the system and each new one costs page faults. */
static bool make_hours(pvsize_light *light)
{
    enum { COLUMNS = 11, ROOM = 8 };
    size_t n = (size_t)light->hours + 1; /* never none */
    pvsz_hours *to = &light->hour;
    double *column = pvsz_new_unset(&light->head.memory, n * (COLUMNS + ROOM), sizeof *column);
    double **const columns[] = {&to->east, &to->north,   &to->up,     &to->beam, &to->around,
                                &to->dome, &to->horizon, &to->ground, &to->temp, &to->wind};

    if (!column)
        return false;
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++, column += n)
        *columns[i] = column;
    to->row = (int32_t *)(void *)column;
    light->room = column + n;
    light->room_left = ROOM;
    return true;
}

/* Weather of which no hour with light can be computed would give a year of nothing. */
static pvsize_status check_rows(const pvsize_light *light, const pvsize_weather *weather,
                                pvsize_diag *diag)
{
    static const int32_t columns[] = {PVSZ_BEAM, PVSZ_DIFFUSE, PVSZ_TEMP, PVSZ_WIND};
    const pvsz_weather_row *row = weather->row;
    int32_t i = 0;

    if (light->hours > 0 || light->gaps == 0)
        return PVSIZE_OK;
    while (light->state[row - weather->row] != PVSZ_ROW_GAP)
        row++;
    while (pvsz_known(row, columns[i]))
        i++;
    return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, PVSIZE_INTERVAL_GLOBAL + columns[i]);
}

static pvsize_status take_weather(pvsize_light *light, const pvsize_weather *weather,
                                  pvsize_diag *diag)
{
    const pvsz_memory *memory = &light->head.memory;
    /* of 28 days at least, but for the two ends */
    size_t most = (size_t)weather->rows / (28 * (1440 / (size_t)weather->step)) + 2;
    pvsize_status status;

    light->state = pvsz_new(memory, (size_t)weather->rows, 1);
    light->stretch = pvsz_new(memory, most, sizeof *light->stretch);
    if (!light->state || !light->stretch)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    measure_rows(light, weather);
    status = check_rows(light, weather, diag);
    if (status)
        return status;
    if (!make_hours(light))
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    take_hours(light, weather);
    return PVSIZE_OK;
}

static pvsize_status check_outlook(const pvsize_spec *outlook, pvsize_diag *diag)
{
    if (!outlook)
        return PVSIZE_OK;
    if (!pvsz_spec_live(outlook))
        return pvsz_fail_handle(diag, "outlook");
    if (outlook->kind != PVSZ_KIND_OUTLOOK)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[outlook->kind].number,
                              "an outlook");
    return PVSIZE_OK;
}

pvsize_status pvsize_light_new(const pvsize_weather *weather, const pvsize_spec *outlook,
                               const pvsize_allocator *memory, pvsize_light **out,
                               pvsize_diag *diag)
{
    void *made = NULL;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = pvsz_weather_check(weather, diag);
    if (!status)
        status = check_outlook(outlook, diag);
    if (!status)
        status = pvsz_make(memory, sizeof **out, PVSZ_MARK_LIGHT, &made, diag);
    if (status)
        return status;
    take_options(made, outlook);
    status = take_weather(made, weather, diag);
    if (status)
        pvsize_light_free(made);
    else
        *out = made;
    return status;
}

pvsize_status pvsize_light_yield(pvsize_light *light, const pvsize_spec *module,
                                 const pvsize_spec *plane, double *yield, pvsize_diag *diag)
{
    const pvsz_pane *pane = NULL;
    const pvsz_pair *pair = NULL;
    pvsize_curve curve = {0};
    bool ignored;
    pvsize_status status = pvsz_check_light(light, diag);

    if (status)
        return status;
    if (!module || !plane || !yield)
        return pvsz_fail_null(diag, !module ? "module" : !plane ? "plane" : "yield");
    if (!pvsz_spec_live(module) || !pvsz_spec_live(plane))
        return pvsz_fail_handle(diag, pvsz_spec_live(module) ? "plane" : "module");
    if (module->kind != PVSZ_KIND_MODULE)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[module->kind].number,
                              "a module");
    if (plane->kind != PVSZ_KIND_PLANE)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[plane->kind].number, "a plane");
    status = pvsz_pane_of(light, plane, module, &pane, &ignored, diag);
    if (!status)
        status = pvsz_curve_fit(module, &curve, diag);
    if (!status)
        status = pvsz_pair_of(light, &curve.module, pane, &pair, diag);
    if (!status)
        *yield = 1000 * light->kept * pvsz_kwh(pair->own, -1, light->step) /
                 pvsz_rated_power(module, &ignored);
    return status;
}
