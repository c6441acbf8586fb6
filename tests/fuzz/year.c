/* Years of invented systems under any weather and outlook: the ledger adds up. */
#include "fuzz.h"

enum { ROWS = 30 };

static pvsize_weather *weather_of(draw *d, const pvsize_spec *site, pvsize_diag *diag)
{
    double rows[ROWS][4];
    pvsize_spec *series = NULL;
    pvsize_weather *weather = NULL;
    int32_t given = 2 + draw_below(d, 14), count = 1 + draw_below(d, ROWS);

    if (!went(diag, pvsize_spec_new(PVSIZE_KIND_SERIES, NULL, &series, diag)))
        return NULL;
    pvsize_spec_set_number(series, PVSIZE_SERIES_GAP, -9, NULL);
    for (int i = 0; i < ROWS; i++) {
        int32_t hour = i % 24;
        double up = hour > 5 && hour < 19 ? 1 - (hour - 12) * (hour - 12) / 49.0 : 0;

        rows[i][0] = up * draw_between(d, 0, 1000);
        rows[i][1] = draw_below(d, 20) ? up * draw_between(d, 0, 900) : -9;
        rows[i][2] = draw_below(d, 20) ? draw_between(d, -30, 50) : -9;
        rows[i][3] = draw_between(d, 0, 20);
    }
    went(diag, pvsize_weather_from_series(
                   site, series, NULL, given & 1 ? &rows[0][0] : NULL,
                   given & 2 ? &rows[0][1] : NULL, given & 4 ? &rows[0][2] : NULL,
                   given & 8 ? &rows[0][3] : NULL, (size_t)count, 4, NULL, &weather, diag));
    pvsize_spec_free(series);
    return weather;
}

/* Planes face anywhere, or nowhere. */
static void turn(draw *d, pvsize_spec *system)
{
    pvsize_spec *site = NULL;

    if (pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, NULL))
        return;
    for (int32_t i = 0; i < 4; i++) {
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_TILT, draw_between(d, 0, 180), NULL);
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_AZIMUTH, draw_between(d, 0, 360), NULL);
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_HEAT_LOSS,
                                    invent_number(d, PVSIZE_PLANE_HEAT_LOSS), NULL);
    }
    pvsize_spec_replace(system, 0, site, NULL);
    pvsize_spec_free(site);
}

/* Inverters whose response to voltage is whole, or as it was invented. */
static void respond(draw *d, pvsize_spec *system)
{
    for (int32_t i = 0; i < 4 && draw_below(d, 4); i++) {
        double start = draw_between(d, 230, 262);

        pvsize_spec_set_part_number(system, i, PVSIZE_INVERTER_VOLT_WATT_START, start, NULL);
        pvsize_spec_set_part_number(system, i, PVSIZE_INVERTER_VOLT_WATT_END,
                                    start + draw_between(d, 0, 12), NULL);
        pvsize_spec_set_part_number(system, i, PVSIZE_INVERTER_VOLT_WATT_LEAST,
                                    draw_between(d, 0, 100), NULL);
    }
}

/* The reference less all losses is the output, to rounding. */
static void ask_ledger(const pvsize_year *year, int32_t subject, pvsize_diag *diag)
{
    for (int32_t month = 0; month < 13; month++) {
        double left = 0, loss = 0, output = 0, most = 1e-6;

        HOLDS(went(diag,
                   pvsize_year_energy(year, subject, month, PVSIZE_ENERGY_REFERENCE, &left, diag)));
        HOLDS(isfinite(left) && left >= 0);
        most += left;
        for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_LOSS); i++) {
            int32_t what = pvsize_set_at(PVSIZE_SET_LOSS, i);

            if (!went(diag, pvsize_year_loss(year, subject, month, what, &loss, diag)))
                continue;
            HOLDS(isfinite(loss));
            left -= loss;
            most += fabs(loss);
        }
        HOLDS(went(diag,
                   pvsize_year_energy(year, subject, month, PVSIZE_ENERGY_OUTPUT, &output, diag)));
        HOLDS(isfinite(output) && fabs(left - output) <= 1e-9 * most);
    }
}

static void ask(const pvsize_year *year, pvsize_diag *diag)
{
    static const int32_t kinds[] = {PVSIZE_KIND_SYSTEM, PVSIZE_KIND_INVERTER, PVSIZE_KIND_INPUT,
                                    PVSIZE_KIND_ARRAY};
    int32_t subject = 0, rows = 0;
    double watts[ROWS];
    size_t count = 0;
    char *text;

    HOLDS(went(diag, pvsize_year_size(year, &rows, NULL, NULL, NULL, diag)));
    HOLDS(rows >= 1 && rows <= ROWS);
    for (int k = 0; k < 4; k++)
        for (int32_t i = 0; went(diag, pvsize_year_subject(year, kinds[k], i, &subject, diag)); i++)
            ask_ledger(year, subject, diag);
    HOLDS(went(diag, pvsize_year_subject(year, PVSIZE_KIND_SYSTEM, 0, &subject, diag)));
    HOLDS(went(diag, pvsize_year_power(year, subject, -1e12, watts, ROWS, &count, diag)));
    for (size_t i = 0; i < count; i++)
        HOLDS(isfinite(watts[i]));
    HOLDS(went(diag, pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, NULL, 0, &count, diag)));
    text = malloc(count + 1);
    if (text)
        HOLDS(went(diag,
                   pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, count + 1, &count, diag)));
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    draw d = draw_from_bytes(bytes, count);
    failing memory = {-1, 0};
    pvsize_allocator hooks = {failing_take, failing_give, &memory};
    pvsize_diag *diag = NULL;
    pvsize_light *light = NULL;
    pvsize_year *year = NULL;
    double load[ROWS], supply[ROWS];

    if (pvsize_diag_new(NULL, &diag))
        return 0;
    pvsize_spec *system = invent_system(&d, NULL), *site = invent_place(&d, NULL);
    pvsize_spec *outlook = invent_spec(&d, PVSIZE_KIND_OUTLOOK, NULL);
    pvsize_weather *weather = weather_of(&d, site, diag);
    int32_t rows = 0, step = 0, fails = draw_below(&d, 6) == 0;

    turn(&d, system);
    for (int i = 0; i < ROWS; i++)
        load[i] = draw_below(&d, 40) ? draw_between(&d, 0, 9000) : draw_strange(&d);
    respond(&d, system);
    for (int i = 0; i < ROWS; i++)
        supply[i] = draw_below(&d, 200) ? draw_between(&d, 225, 265) : draw_strange(&d);
    if (fails)
        memory.left = draw_below(&d, 60);
    pvsize_weather_size(weather, &rows, &step, NULL);
    went(diag, pvsize_light_new(weather, outlook, &hooks, &light, diag));
    went(diag, pvsize_year_new(&hooks, &year, diag));
    if (went(diag, pvsize_year_fill(system, light, draw_below(&d, 2) ? load : NULL,
                                    draw_below(&d, 2) ? (size_t)rows : 0, year, diag)))
        ask(year, diag);
    if (went(diag, pvsize_year_fill_at_supply(system, light, draw_below(&d, 2) ? load : NULL,
                                              draw_below(&d, 2) ? (size_t)rows : 0, supply,
                                              (size_t)(rows - !draw_below(&d, 9)), year, diag)))
        ask(year, diag);
    pvsize_year_free(year);
    pvsize_light_free(light);
    HOLDS(memory.live == 0);
    pvsize_weather_free(weather);
    pvsize_spec_free(outlook);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_diag_free(diag);
    return 0;
}
