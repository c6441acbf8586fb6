/* A year asked wrongly. */
#include "../support/pv_day.h"

START_TEST(weather_that_gives_nothing_is_refused)
{
    static const char *const names[] = {"interval.temp", "interval.wind", "interval.diffuse"};
    double *const values[] = {temp, wind, diffuse};

    for (int k = 0; k < 3; k++) {
        pvsize_light *light = NULL;
        pvsize_weather *weather;

        stc_all_day();
        for (int i = 0; i < ROWS; i++)
            values[k][i] = -999;
        weather = weather_of();
        FAILS(PVSIZE_E_NOT_SET, names[k], pvsize_light_new(weather, NULL, NULL, &light, diag));
        ck_assert_ptr_null(light);
        pvsize_weather_free(weather);
    }
}
END_TEST

/* A plane without a tilt, a module without a curve: named, and the next call is served. */
START_TEST(yields_that_cannot_be)
{
    pvsize_spec *module = invented_module(), *bare = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_spec *plane =
        SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_AZIMUTH, 0, PVSIZE_PLANE_HEAT_LOSS, 25);
    pvsize_light *light;
    double yield = 7;

    stc_all_day();
    light = light_with(plain);
    FAILS(PVSIZE_E_NULL_POINTER, "module", pvsize_light_yield(light, NULL, plane, &yield, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "plane", pvsize_light_yield(light, module, NULL, &yield, diag));
    FAILS(PVSIZE_E_NOT_SET, "plane.tilt", pvsize_light_yield(light, module, plane, &yield, diag));
    OK(pvsize_spec_set_number(plane, PVSIZE_PLANE_TILT, 0, diag));
    FAILS(PVSIZE_E_NOT_SET, "module.voc", pvsize_light_yield(light, bare, plane, &yield, diag));
    ck_assert(yield == 7);
    OK(pvsize_light_yield(light, module, plane, &yield, diag));
    NEAR(yield, day(32.5 * imp) / 0.43, 1e-9);
    pvsize_light_free(light);
    pvsize_spec_free(plane);
    pvsize_spec_free(module);
    pvsize_spec_free(bare);
}
END_TEST

static void fails_to_fill(pvsize_status status, const char *words, pvsize_spec *system,
                          pvsize_light *light, pvsize_year *year)
{
    FAILS(status, words, pvsize_year_fill(system, light, NULL, 0, year, diag));
    NEAR(output(year), day(pmp), 1e-9); /* as before */
}

START_TEST(wrong_input)
{
    double load[ROWS] = {0}, x;
    int32_t n;
    pvsize_light *light, *none;
    pvsize_year *year, *empty;
    pvsize_spec *system = small_system(NULL, NULL, NULL), *other, *part;

    stc_all_day();
    year = year_of(small_system(NULL, NULL, NULL), plain, NULL);
    light = light_with(plain);
    OK(pvsize_year_new(NULL, &empty, diag));
    fails_to_fill(PVSIZE_E_NULL_POINTER, "system", NULL, light, year);
    fails_to_fill(PVSIZE_E_NULL_POINTER, "light", system, NULL, year);
    fails_to_fill(PVSIZE_E_BAD_HANDLE, "light", system, (pvsize_light *)year, year);
    other = invented_module();
    fails_to_fill(PVSIZE_E_WRONG_KIND, "a system", other, light, year);
    FAILS(PVSIZE_E_NULL_POINTER, "weather", pvsize_light_new(NULL, NULL, NULL, &none, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "a plane", pvsize_light_yield(light, other, other, &x, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "plane", pvsize_light_yield(light, other, NULL, &x, diag));
    pvsize_spec_free(other);
    other = invented_system(); /* its planes have no tilt */
    fails_to_fill(PVSIZE_E_NOT_SET, "plane[0].tilt", other, light, year);
    pvsize_spec_free(other);
    other = small_system(NULL, NULL, NULL);
    OK(pvsize_spec_remove(other, PVSIZE_KIND_ARRAY, 0, diag));
    part = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0, PVSIZE_ARRAY_STRINGS, 1);
    give(part, invented_module());
    give(other, part);
    fails_to_fill(PVSIZE_E_NOT_SET, "array[0].modules_per_string", other, light, year);
    OK(pvsize_spec_set_part_number(other, 0, PVSIZE_ARRAY_MODULES_PER_STRING, 9, diag));
    fails_to_fill(PVSIZE_E_NOT_SET, "array[0].plane", other, light, year);
    pvsize_spec_free(other);
    other = small_system(NULL, NULL, NULL);
    OK(pvsize_spec_part(other, PVSIZE_KIND_SITE, 0, NULL, &part, diag));
    OK(pvsize_spec_remove(part, PVSIZE_KIND_PLANE, 0, diag));
    give(part, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 0, PVSIZE_PLANE_AZIMUTH, 0));
    OK(pvsize_spec_replace(other, 0, part, diag));
    pvsize_spec_free(part);
    fails_to_fill(PVSIZE_E_NOT_SET, "plane[0].mounting", other, light, year);
    pvsize_spec_free(other);
    load[7] = -1;
    FAILS(PVSIZE_E_OUT_OF_RANGE, "load", pvsize_year_fill(system, light, load, ROWS, year, diag));
    load[7] = NAN;
    FAILS(PVSIZE_E_NOT_FINITE, "load", pvsize_year_fill(system, light, load, ROWS, year, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 7; allowed only 24; a load has one value for each row",
          pvsize_year_fill(system, light, load, 7, year, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "load", pvsize_year_fill(system, light, NULL, 7, year, diag));
    FAILS(PVSIZE_E_NOT_SET, "", pvsize_year_size(empty, &n, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "",
          pvsize_year_render(empty, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject", pvsize_year_energy(year, 99, 0, 1, &x, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month", pvsize_year_energy(year, 0, 13, 1, &x, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "energy", pvsize_year_energy(year, 0, 0, 99, &x, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "loss", pvsize_year_loss(year, 0, 0, 0, &x, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "conversion",
          pvsize_year_loss(year, subject(year, PVSIZE_KIND_ARRAY), 0, PVSIZE_LOSS_CONVERSION, &x,
                           diag));
    FAILS(PVSIZE_E_WRONG_KIND, "",
          pvsize_year_energy(year, subject(year, PVSIZE_KIND_SITE), 0, 1, &x, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "system",
          pvsize_year_energy(year, subject(year, PVSIZE_KIND_ARRAY), 0, PVSIZE_ENERGY_LOAD, &x,
                             diag));
    FAILS(PVSIZE_E_WRONG_KIND, "an array", pvsize_year_irradiation(year, 0, 0, &x, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_subject(year, PVSIZE_KIND_INPUT, 1, &n, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "", pvsize_year_subject(year, 77, 0, &n, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_assumption(year, -1, &n, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format", pvsize_year_render(year, 9, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "year", pvsize_year_subject_text(NULL, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "", pvsize_year_subject_text(empty, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "hours",
          pvsize_year_active(year, 0, PVSIZE_LOSS_AC_RATING, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month", pvsize_year_irradiation(year, 0, 13, &x, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject", pvsize_year_yield(year, 99, &x, &x, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject", pvsize_year_power(year, 99, 0, &x, 1, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "a system or inverter",
          pvsize_year_power(year, subject(year, PVSIZE_KIND_ARRAY), 0, &x, 1, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "year", pvsize_year_assumption(NULL, 0, &n, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "light", pvsize_light_yield(NULL, NULL, NULL, &x, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_year_new(NULL, NULL, diag));
    pvsize_light_free(NULL);
    pvsize_year_free(NULL);
    pvsize_light_free(light);
    pvsize_year_free(empty);
    pvsize_year_free(year);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "no yield", yields_that_cannot_be);
    add_test(suite, "nothing", weather_that_gives_nothing_is_refused);
    add_test(suite, "wrong input", wrong_input);
}

int main(void)
{
    return run_cases("year_wrong", add);
}
