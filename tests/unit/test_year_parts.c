/* The ledgers of inputs, arrays and planes in a year. */
#include "../support/pv_day.h"

/* Like inputs give the same each: one is computed, the ledger of both is told. */
START_TEST(like_inputs_have_like_ledgers)
{
    const double limit[] = {PVSIZE_INPUT_MAX_OPERATING_POWER, 4000, 0};
    pvsize_spec *system = small_system(limit, NULL, NULL), *inverter;
    pvsize_year *year;
    double kwh;
    int32_t found;

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    give(inverter, spec_with(PVSIZE_KIND_INPUT, limit));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    give(system, invented_array(1, 0, 10, 1));
    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(8000), 1e-9);
    for (int32_t i = 0; i < 2; i++) {
        OK(pvsize_year_subject(year, PVSIZE_KIND_INPUT, i, &found, diag));
        OK(pvsize_year_loss(year, found, 0, PVSIZE_LOSS_INPUT_POWER, &kwh, diag));
        NEAR(kwh, day(pmp - 4000), 1e-9);
    }
    pvsize_year_free(year);
}
END_TEST

static double of_part(const pvsize_year *year, int32_t kind, int32_t i, int32_t lost)
{
    int32_t found;
    double kwh;

    OK(pvsize_year_subject(year, kind, i, &found, diag));
    if (lost)
        OK(pvsize_year_loss(year, found, 0, lost, &kwh, diag));
    else
        OK(pvsize_year_energy(year, found, 0, PVSIZE_ENERGY_OUTPUT, &kwh, diag));
    return kwh;
}

/* A second input beside that of a small system, and its only array. */
static pvsize_spec *with_second(const double *input, pvsize_spec *array)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL), *inverter;

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    give(inverter, spec_with(PVSIZE_KIND_INPUT, input));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    give(system, array);
    return system;
}

/* Inputs that differ in one thing only are not taken for alike: each gives what it gives alone. */
START_TEST(inputs_that_differ_in_one_thing)
{
    static const double limits[][3] = {{PVSIZE_INPUT_TRACKING_MIN, 340, 0},
                                       {PVSIZE_INPUT_TRACKING_MAX, 300, 0},
                                       {PVSIZE_INPUT_START_VOLTAGE, 389, 0},
                                       {PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11, 0},
                                       {PVSIZE_INPUT_MAX_OPERATING_POWER, 4000, 0}};
    pvsize_year *year, *alone;

    stc_all_day();
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        alone = year_of(small_system(limits[i], NULL, NULL), plain, NULL);
        year = year_of(with_second(limits[i], invented_array(1, 0, 10, 1)), plain, NULL);
        NEAR(of_part(year, PVSIZE_KIND_INPUT, 0, 0), day(pmp), 1e-9);
        NEAR(of_part(year, PVSIZE_KIND_INPUT, 1, 0), output(alone), 1e-12);
        ck_assert(output(alone) < day(pmp) * 0.99);
        pvsize_year_free(alone);
        pvsize_year_free(year);
    }
    year = year_of(with_second(plain + 4, invented_array(1, 0, 9, 1)), plain, NULL);
    NEAR(of_part(year, PVSIZE_KIND_INPUT, 1, 0), day(0.9 * pmp), 1e-9);
    pvsize_year_free(year);
    year = year_of(with_second(plain + 4, invented_array(1, 0, 10, 2)), plain, NULL);
    NEAR(of_part(year, PVSIZE_KIND_INPUT, 1, 0), day(2 * pmp), 1e-9);
    pvsize_year_free(year);
}
END_TEST

static pvsize_spec *string_cable(int32_t array, double length)
{
    return SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING, PVSIZE_CABLE_ARRAY,
                array, PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION,
                4, PVSIZE_CABLE_LENGTH, length, PVSIZE_CABLE_CONDUCTOR_TEMP, 20);
}

/* Strings of one array, or of two arrays alike in all: the same. */
START_TEST(two_arrays_of_one_string_are_one_of_two)
{
    pvsize_spec *system = small_system(PAIRS(PVSIZE_INPUT_MAX_OPERATING_CURRENT, 20), NULL, NULL);
    pvsize_year *two, *one;

    stc_all_day();
    give(system, invented_array(0, 0, 10, 1));
    two = year_of(system, plain, NULL);
    system = small_system(PAIRS(PVSIZE_INPUT_MAX_OPERATING_CURRENT, 20), NULL, NULL);
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 2, diag));
    one = year_of(system, plain, NULL);
    ck_assert(output(two) == output(one));
    ck_assert(loss(two, PVSIZE_LOSS_INPUT_CURRENT) == loss(one, PVSIZE_LOSS_INPUT_CURRENT));
    ck_assert(loss(two, PVSIZE_LOSS_MISMATCH) == 0);
    pvsize_year_free(two);
    pvsize_year_free(one);
}
END_TEST

/* Arrays that differ in their cables, or their modules, each as alone. */
START_TEST(arrays_keep_their_cables_and_modules)
{
    pvsize_spec *system = with_second(plain + 4, invented_array(1, 0, 10, 1)), *array, *module;
    pvsize_curve *curve;
    pvsize_year *year;
    double i, v;

    stc_all_day();
    give(system, string_cable(0, 30));
    give(system, string_cable(1, 60));
    year = year_of(system, plain, NULL);
    NEAR(of_part(year, PVSIZE_KIND_ARRAY, 0, PVSIZE_LOSS_DC_WIRING), day(0.6 * 0.509 * imp * imp),
         1e-2);
    NEAR(of_part(year, PVSIZE_KIND_ARRAY, 1, PVSIZE_LOSS_DC_WIRING), day(1.2 * 0.509 * imp * imp),
         1e-2);
    pvsize_year_free(year);
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 1, PVSIZE_ARRAY_PLANE, 0,
                 PVSIZE_ARRAY_MODULES_PER_STRING, 10, PVSIZE_ARRAY_STRINGS, 1);
    module = invented_module();
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_IMP, 12.5, diag));
    OK(pvsize_curve_new(module, NULL, &curve, diag));
    give(array, module);
    year = year_of(with_second(plain + 4, array), plain, NULL);
    OK(pvsize_curve_mpp(curve, 1000, 25, &v, &i, diag));
    NEAR(of_part(year, PVSIZE_KIND_ARRAY, 0, 0), day(pmp), 1e-9);
    NEAR(of_part(year, PVSIZE_KIND_ARRAY, 1, 0), day(10 * v * i), 1e-9);
    NEAR(v * i, 32.5 * 12.5, 1e-9);
    pvsize_year_free(year);
    pvsize_curve_free(curve);
}
END_TEST

/* An input without strings beside unlike ones changes nothing behind a d.c. limit. */
START_TEST(an_empty_input_takes_no_part)
{
    const double limit[] = {PVSIZE_INVERTER_RATED_AC_POWER, 9000,
                            PVSIZE_INVERTER_MAX_OPERATING_POWER, 5000, 0};
    double got[2];

    stc_all_day();
    for (int empty = 0; empty < 2; empty++) {
        pvsize_spec *system = small_system(NULL, limit, NULL), *inverter;
        pvsize_year *year;

        OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
        for (int k = 0; k < 9; k++)
            give(inverter, SPEC(PVSIZE_KIND_EFFICIENCY_POINT, PVSIZE_EFFICIENCY_POINT_LOAD,
                                k % 3 * 45 + 10, PVSIZE_EFFICIENCY_POINT_VOLTAGE, 250 + k / 3 * 100,
                                PVSIZE_EFFICIENCY_POINT_EFFICIENCY, 94 + k / 3));
        if (empty)
            give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
        OK(pvsize_spec_replace(system, 0, inverter, diag));
        pvsize_spec_free(inverter);
        give(system, invented_array(0, 0, 9, 1));
        year = year_of(system, plain, NULL);
        got[empty] = output(year);
        NEAR(loss(year, PVSIZE_LOSS_CONVERSION) + got[empty], day(5000), 1e-9);
        pvsize_year_free(year);
    }
    ck_assert(got[0] == got[1]);
}
END_TEST

/* More planes than there is room for beforehand: each as with a light of its own. */
START_TEST(planes_by_the_dozen)
{
    enum { MANY = 12 };
    pvsize_spec *module = invented_module();
    pvsize_light *light;
    double first[MANY], again;

    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        beam[i] = 300;
    light = light_with(plain);
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < MANY; i++) {
            pvsize_spec *plane = SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, i % 3 * 15,
                                      PVSIZE_PLANE_AZIMUTH, i % 2 * 90, PVSIZE_PLANE_HEAT_LOSS,
                                      20 + i / 6, PVSIZE_PLANE_HEAT_LOSS_WIND, i % 4);
            pvsize_light *own = light_with(plain);

            OK(pvsize_light_yield(light, module, plane, pass ? &again : &first[i], diag));
            ck_assert(!pass || again == first[i]);
            OK(pvsize_light_yield(own, module, plane, &again, diag));
            ck_assert(again == first[i]);
            pvsize_light_free(own);
            pvsize_spec_free(plane);
        }
    ck_assert(first[0] != first[1] && first[0] < first[6]); /* cooler, with more heat lost */
    pvsize_light_free(light);
    pvsize_spec_free(module);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "like inputs", like_inputs_have_like_ledgers);
    add_test(suite, "differ in one", inputs_that_differ_in_one_thing);
    add_test(suite, "one of two", two_arrays_of_one_string_are_one_of_two);
    add_test(suite, "cables and modules", arrays_keep_their_cables_and_modules);
    add_test(suite, "empty input", an_empty_input_takes_no_part);
    add_test(suite, "dozen", planes_by_the_dozen);
}

int main(void)
{
    return run_cases("year_parts", add);
}
