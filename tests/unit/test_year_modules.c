/* What modules give in a year by hand, from days at STC: their rating, losses, heat and light. */
#include "../support/pv_day.h"

START_TEST(modules_give_their_rating_at_stc)
{
    pvsize_year *year;
    int32_t lit, gaps;
    double on, in, rated, yield;

    stc_all_day();
    year = year_of(small_system(NULL, NULL, NULL), plain, NULL);
    OK(pvsize_year_size(year, NULL, NULL, &lit, &gaps, diag));
    ck_assert_int_eq(lit, ROWS);
    ck_assert_int_eq(gaps, 0);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_REFERENCE), day(pmp), 1e-9);
    NEAR(output(year), day(pmp), 1e-9);
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_LOSS); i++)
        NEAR(loss(year, pvsize_set_at(PVSIZE_SET_LOSS, i)), 0, 1e-9);
    OK(pvsize_year_irradiation(year, subject(year, PVSIZE_KIND_ARRAY), 1, &on, &in, diag));
    NEAR(on, 24, 1e-12);
    NEAR(in, 24, 1e-12);
    OK(pvsize_year_yield(year, subject(year, PVSIZE_KIND_INPUT), &rated, &yield, diag));
    NEAR(rated, 4.3, 1e-12);
    NEAR(yield, day(pmp) / 4.3, 1e-9);
    pvsize_year_free(year);
}
END_TEST

START_TEST(stated_losses_and_heat)
{
    pvsize_curve *curve;
    pvsize_spec *module = invented_module();
    double v, i;
    pvsize_year *year;

    stc_all_day();
    for (int k = 0; k < ROWS; k++)
        temp[k] = 20; /* cells at 60 */
    year =
        year_of(small_system(NULL, NULL, NULL),
                PAIRS(PVSIZE_OUTLOOK_SKY, PVSIZE_SKY_EVEN, PVSIZE_OUTLOOK_COVER, PVSIZE_COVER_NONE,
                      PVSIZE_OUTLOOK_SOILING, 5, PVSIZE_OUTLOOK_POWER_LOSS, 3),
                NULL);
    OK(pvsize_curve_new(module, NULL, &curve, diag));
    NEAR(loss(year, PVSIZE_LOSS_SOILING), day(pmp * 0.05), 1e-9);
    OK(pvsize_curve_mpp(curve, 950, 25, &v, &i, diag));
    NEAR(loss(year, PVSIZE_LOSS_LOW_LIGHT), day(pmp * 0.95 - 10 * v * i), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_TEMPERATURE) + output(year) + loss(year, PVSIZE_LOSS_STATED),
         day(10 * v * i), 1e-9);
    OK(pvsize_curve_mpp(curve, 950, 60, &v, &i, diag));
    NEAR(loss(year, PVSIZE_LOSS_STATED), day(10 * v * i * 0.03), 1e-9);
    NEAR(output(year), day(10 * v * i * 0.97), 1e-9);
    pvsize_curve_free(curve);
    pvsize_spec_free(module);
    pvsize_year_free(year);
}
END_TEST

/* What a module gives on a plane alone: its rating all day, over its Pmax. */
START_TEST(yield_of_a_module_alone)
{
    pvsize_light *light;
    pvsize_spec *module = invented_module();
    pvsize_spec *plane = SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 0, PVSIZE_PLANE_AZIMUTH, 0,
                              PVSIZE_PLANE_HEAT_LOSS, 25);
    double yield;

    stc_all_day();
    light = light_with(plain);
    OK(pvsize_light_yield(light, module, plane, &yield, diag));
    NEAR(yield, day(32.5 * imp) / 0.43, 1e-9);
    OK(pvsize_spec_unset(module, PVSIZE_MODULE_PMAX, diag));
    OK(pvsize_light_yield(light, module, plane, &yield, diag));
    NEAR(yield, 24, 1e-9); /* without Pmax, Vmp times Imp counts */
    FAILS(PVSIZE_E_NULL_POINTER, "yield", pvsize_light_yield(light, module, plane, NULL, diag));
    pvsize_light_free(light);
    pvsize_spec_free(plane);
    pvsize_spec_free(module);
}
END_TEST

/* The year of one string whose cells are as warm as `how` says; the module and plane as given. */
static double output_by(int32_t how, const double *module, const double *plane)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL), *array, *part, *site;
    const double options[] = {PVSIZE_OUTLOOK_SKY,
                              PVSIZE_SKY_EVEN,
                              PVSIZE_OUTLOOK_COVER,
                              PVSIZE_COVER_NONE,
                              PVSIZE_OUTLOOK_CELL_TEMP,
                              how,
                              0};
    pvsize_year *year;
    double kwh;

    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &part, diag));
    for (; module && *module != 0; module += 2)
        OK(pvsize_spec_set_number(part, (int32_t)module[0], module[1], diag));
    OK(pvsize_spec_replace(array, 0, part, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    pvsize_spec_free(part);
    pvsize_spec_free(array);
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    OK(pvsize_spec_part(site, PVSIZE_KIND_PLANE, 0, NULL, &part, diag));
    OK(pvsize_spec_unset(part, PVSIZE_PLANE_HEAT_LOSS, diag));
    for (; plane && *plane != 0; plane += 2)
        OK(pvsize_spec_set_number(part, (int32_t)plane[0], plane[1], diag));
    OK(pvsize_spec_replace(site, 0, part, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    pvsize_spec_free(part);
    pvsize_spec_free(site);
    year = year_of(system, options, NULL);
    kwh = output(year);
    pvsize_year_free(year);
    return kwh;
}

/* Cells warmer than the air, by hand, at 1000 W/m2 without wind: by NMOT (NMOT - 20) / 0.8 (IEC
 * 61215-2); on racks 1000 / 25 K (Faiman 2008). */
START_TEST(how_warm_the_cells_get)
{
    pvsize_spec *module = invented_module();
    pvsize_curve *curve;
    double v, i;

    OK(pvsize_curve_new(module, NULL, &curve, diag));
    for (int k = 0; k < 2; k++) {
        stc_all_day();
        for (int row = 0; row < ROWS; row++)
            temp[row] = 10;
        OK(pvsize_curve_mpp(curve, 1000, k == 0 ? 10 + 25 / 0.8 : 10 + 1000 / 25.0, &v, &i, diag));
        NEAR(k == 0 ? output_by(PVSIZE_CELL_TEMP_NOMINAL, PAIRS(PVSIZE_MODULE_NMOT, 45), NULL)
                    : output_by(PVSIZE_CELL_TEMP_HEAT_LOSS, NULL, NULL),
             day(10 * v * i), 1e-9);
    }
    pvsize_curve_free(curve);
    pvsize_spec_free(module);
}
END_TEST

/* A beam that is missing is a gap; one that is all the light there is makes a row with light, as
 * long as there is a sun for it. */
START_TEST(light_that_is_all_beam)
{
    int32_t lit, gaps, sunny = 0;
    pvsize_weather *weather;
    pvsize_year *year;

    stc_all_day();
    beam[3] = -999;
    year = year_of(small_system(NULL, NULL, NULL), plain, NULL);
    OK(pvsize_year_size(year, NULL, NULL, &lit, &gaps, diag));
    ck_assert(gaps == 1 && lit == ROWS - 1);
    pvsize_year_free(year);
    for (int i = 0; i < ROWS; i++) {
        beam[i] = 800;
        diffuse[i] = 0;
    }
    weather = weather_of();
    for (int32_t i = 0; i < ROWS; i++) {
        double julian, elevation;

        OK(pvsize_weather_time(weather, i, NULL, NULL, NULL, &julian, diag));
        OK(pvsize_sun_position(-33.9, 151.2, julian + 0.5 / 24, 0, 0, NULL, &elevation, diag));
        sunny += elevation > 0;
    }
    year = year_of(small_system(NULL, NULL, NULL), plain, NULL);
    OK(pvsize_year_size(year, NULL, NULL, &lit, &gaps, diag));
    ck_assert(gaps == 0 && lit >= 13 && lit <= 16); /* New Year's Day at Sydney: 14.4 h */
    ck_assert(lit >= sunny && lit <= sunny + 2);
    pvsize_year_free(year);
    pvsize_weather_free(weather);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "modules give their rating at STC", modules_give_their_rating_at_stc);
    add_test(suite, "stated losses and heat", stated_losses_and_heat);
    add_test(suite, "module alone", yield_of_a_module_alone);
    add_test(suite, "warmth", how_warm_the_cells_get);
    add_test(suite, "all beam", light_that_is_all_beam);
}

int main(void)
{
    return run_cases("year_modules", add);
}
