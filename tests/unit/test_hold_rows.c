/* Limits of many hours at once against those of one hour, which are tested against a model that
 * looks at many voltages (tests/oracle/test_years.py). */
#include "../../lib/physics/diode_rows.h"
#include "../../lib/yield/hold_rows.h"
#include "../../lib/yield/light.h"
#include "../support/pv_test.h"

static double uniform(double low, double high)
{
    return low + (high - low) * (rand() / (double)RAND_MAX);
}

static const pvsz_module module = {
    {4.39494, 1.18724e-10, 1.76816, 1.03751, 1 / 181.771}, 0.00175, 1.121, -0.0002677};

static double sun[PVSZ_SPAN], temp[PVSZ_SPAN], voltage[PVSZ_SPAN], current[PVSZ_SPAN];

static pvsz_alike random_strings(void)
{
    for (int i = 0; i < PVSZ_SPAN; i++) {
        sun[i] = i % 9 ? uniform(1, 1200) : 0;
        temp[i] = uniform(-20, 80);
    }
    pvsz_module_mpps(&module, PVSZ_SPAN, sun, temp, voltage, current);
    return (pvsz_alike){&module, {sun, temp, voltage, current}, 12, 2};
}

/* Each limit there or not, and from harmless to hard. */
static pvsz_intake random_intake(void)
{
    pvsz_intake in = {.lowest = 0, .highest = INFINITY, .current = INFINITY, .power = INFINITY};

    if (rand() % 2)
        in.lowest = uniform(200, 480);
    if (rand() % 2)
        in.highest = uniform(fmax(350, in.lowest), 550);
    if (rand() % 2)
        in.current = uniform(0.5, 9);
    if (rand() % 2)
        in.power = uniform(100, 4000);
    return in;
}

static void expect_near(double got, double want, double range)
{
    ck_assert_msg(fabs(got - want) <= range, "%.17g instead of %.17g", got, want);
}

static void expect_same(const pvsz_hold *got, const pvsz_hold *want)
{
    for (int k = 0; k < PVSZ_HOLDS; k++)
        expect_near(got->power[k], want->power[k], 1e-9 * want->power[PVSZ_AT_BEST]);
    /* near the maximum power hardly changes with it */
    expect_near(got->voltage, want->voltage, 1e-6 * want->voltage);
    ck_assert(got->feeds == want->feeds);
}

START_TEST(rows_hold_as_single_hours_do)
{
    for (int round = 0; round < 400; round++) {
        pvsz_alike strings = random_strings();
        pvsz_intake in = random_intake();
        int32_t hours = 1 + rand() % PVSZ_SPAN, held = 0;
        static pvsz_holds holds;

        pvsz_hold_rows(&in, &strings, hours, &holds);
        for (int32_t h = 0; h < hours; h++) {
            pvsz_point own = pvsz_own_point(&strings, h);
            pvsz_branch branch = pvsz_alike_at(&strings, h);
            pvsz_joined joined = {&branch, 1, false};
            pvsz_hold want = pvsz_hold_at(&in, &joined, own);
            double best = own.voltage * own.current;

            if (held < holds.count && holds.hour[held] == h)
                expect_same(&holds.hold[held++], &want);
            else
                expect_near(want.power[PVSZ_AT_POWER], best, 1e-12 * best);
        }
        ck_assert_int_eq(held, holds.count);
    }
}
END_TEST

static double beam[24], diffuse[24], air[24];

static pvsize_light *bright_day(int32_t cell_temp)
{
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_LATITUDE, -33.9, PVSIZE_SITE_LONGITUDE,
                             151.2, PVSIZE_SITE_TIME_ZONE, 10);
    pvsize_spec *series = SPEC(PVSIZE_KIND_SERIES, 0);
    pvsize_spec *outlook =
        SPEC(PVSIZE_KIND_OUTLOOK, PVSIZE_OUTLOOK_CELL_TEMP, cell_temp, PVSIZE_OUTLOOK_WIND, 1);
    pvsize_weather *weather;
    pvsize_light *light;

    for (int i = 0; i < 24; i++)
        diffuse[i] = 500;
    OK(pvsize_weather_from_series(site, series, NULL, beam, diffuse, air, NULL, 24, 1, NULL,
                                  &weather, diag));
    OK(pvsize_light_new(weather, outlook, NULL, &light, diag));
    pvsize_weather_free(weather);
    pvsize_spec_free(outlook);
    pvsize_spec_free(series);
    pvsize_spec_free(site);
    return light;
}

static const pvsz_pane *pane_with(pvsize_light *light, const double *plane, const double *module_of)
{
    pvsize_spec *face = spec_with(PVSIZE_KIND_PLANE, plane);
    pvsize_spec *type = spec_with(PVSIZE_KIND_MODULE, module_of);
    const pvsz_pane *pane;
    bool rack;

    OK(pvsize_spec_set_number(face, PVSIZE_PLANE_TILT, 20, diag));
    OK(pvsize_spec_set_number(face, PVSIZE_PLANE_AZIMUTH, 10, diag));
    OK(pvsz_pane_of(light, face, type, &pane, &rack, diag));
    pvsize_spec_free(type);
    pvsize_spec_free(face);
    return pane;
}
#define WITH(...) ((const double[]){__VA_ARGS__, 0})

/* Planes that face the same way are one only if their modules get as warm: each found again. */
START_TEST(planes_that_differ_in_warmth_only)
{
    static const double planes[][5] = {
        {PVSIZE_PLANE_HEAT_LOSS, 25, 0},
        {PVSIZE_PLANE_HEAT_LOSS, 26, 0},
        {PVSIZE_PLANE_HEAT_LOSS, 25, PVSIZE_PLANE_HEAT_LOSS_WIND, 3, 0},
        {PVSIZE_PLANE_MOUNTING, PVSIZE_MOUNTING_CLOSE, 0},
        {PVSIZE_PLANE_MOUNTING, PVSIZE_MOUNTING_OPEN_RACK, 0}};
    enum { PLANES = sizeof planes / sizeof *planes };
    pvsize_light *light = bright_day(PVSIZE_CELL_TEMP_MOUNTING);
    const pvsz_pane *found[PLANES], *hot, *cool;

    for (int i = 0; i < PLANES; i++) {
        found[i] = pane_with(light, planes[i], WITH(0));
        for (int k = 0; k < i; k++)
            ck_assert(found[k] != found[i]);
    }
    for (int i = 0; i < PLANES; i++)
        ck_assert_ptr_eq(pane_with(light, planes[i], WITH(0)), found[i]);
    ck_assert(found[0]->cell[9] > found[1]->cell[9] && found[0]->cell[9] > found[2]->cell[9]);
    pvsize_light_free(light);
    light = bright_day(PVSIZE_CELL_TEMP_NOMINAL);
    hot = pane_with(light, planes[0], WITH(PVSIZE_MODULE_NMOT, 47));
    cool = pane_with(light, planes[0], WITH(PVSIZE_MODULE_NMOT, 43));
    ck_assert(hot != cool && hot->cell[9] > cool->cell[9]);
    ck_assert_ptr_eq(pane_with(light, planes[1], WITH(PVSIZE_MODULE_NMOT, 47)), hot);
    pvsize_light_free(light);
}
END_TEST

/* Modules on a plane are one only if all their numbers are. */
START_TEST(modules_that_differ_in_one_number)
{
    pvsize_light *light = bright_day(PVSIZE_CELL_TEMP_MOUNTING);
    const pvsz_pane *pane = pane_with(light, WITH(PVSIZE_PLANE_HEAT_LOSS, 25), WITH(0));
    const pvsz_pane *other = pane_with(light, WITH(PVSIZE_PLANE_HEAT_LOSS, 30), WITH(0));
    pvsz_module types[9];
    double *const numbers[] = {&types[1].stc.light,    &types[2].stc.saturation,
                               &types[3].stc.ideality, &types[4].stc.series,
                               &types[5].stc.shunt,    &types[6].light_coefficient,
                               &types[7].band_gap,     &types[8].narrowing};
    const pvsz_pair *found[9], *again;

    for (int i = 0; i < 9; i++)
        types[i] = module;
    for (int i = 0; i < 8; i++)
        *numbers[i] *= 1.01;
    for (int i = 0; i < 9; i++) {
        OK(pvsz_pair_of(light, &types[i], pane, &found[i], diag));
        for (int k = 0; k < i; k++)
            ck_assert(found[k] != found[i]);
    }
    for (int i = 0; i < 9; i++) {
        OK(pvsz_pair_of(light, &types[i], pane, &again, diag));
        ck_assert_ptr_eq(again, found[i]);
    }
    OK(pvsz_pair_of(light, &types[0], other, &again, diag));
    ck_assert_ptr_ne(again, found[0]);
    ck_assert(found[1]->stc > found[0]->stc && found[2]->stc < found[0]->stc);  /* light, I0 */
    ck_assert(found[3]->stc > found[0]->stc && found[4]->stc < found[0]->stc);  /* n, Rs */
    ck_assert(found[5]->stc < found[0]->stc && found[7]->stc == found[0]->stc); /* G; gap at STC */
    pvsize_light_free(light);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "rows", rows_hold_as_single_hours_do);
    add_test(suite, "planes", planes_that_differ_in_warmth_only);
    add_test(suite, "modules", modules_that_differ_in_one_number);
}

int main(void)
{
    return run_cases("hold_rows", add);
}
