/* The year by hand, from days at STC: limits of input and inverter, cables, night, export. */
#include "../support/pv_day.h"

/* Above its maximum-power point the input works where the module's own curve says. */
START_TEST(limits_of_the_input)
{
    pvsize_spec *module = invented_module();
    pvsize_curve *curve;
    pvsize_year *year;
    double x;

    stc_all_day();
    OK(pvsize_curve_new(module, NULL, &curve, diag));
    year = year_of(small_system(PAIRS(PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11), NULL, NULL), plain,
                   NULL);
    OK(pvsize_curve_voltage(curve, 1000, 25, 11, &x, diag));
    NEAR(output(year), day(11 * 10 * x), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_INPUT_CURRENT), day(pmp - 11 * 10 * x), 1e-9);
    NEAR(active(year, PVSIZE_KIND_INPUT, PVSIZE_LOSS_INPUT_CURRENT), 24, 0);
    ck_assert(11 * 10 * x > 11 * vmp); /* it went up the curve */
    pvsize_year_free(year);
    for (int k = 0; k < 2; k++) { /* window too high, then too low */
        double at = k == 0 ? 360 : 280;

        year = year_of(small_system(PAIRS(PVSIZE_INPUT_TRACKING_MIN, k == 0 ? at : 90,
                                          PVSIZE_INPUT_TRACKING_MAX, k == 0 ? 560 : at),
                                    NULL, NULL),
                       plain, NULL);
        OK(pvsize_curve_current(curve, 1000, 25, at / 10, &x, diag));
        NEAR(output(year), day(at * x), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_WINDOW), day(pmp - at * x), 1e-9);
        pvsize_year_free(year);
    }
    year = year_of(small_system(PAIRS(PVSIZE_INPUT_MAX_OPERATING_POWER, 4000), NULL, NULL), plain,
                   NULL);
    NEAR(output(year), day(4000), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_INPUT_POWER), day(pmp - 4000), 1e-9);
    pvsize_year_free(year);
    pvsize_curve_free(curve);
    pvsize_spec_free(module);
}
END_TEST

START_TEST(an_input_starts_by_its_open_circuit_voltage)
{
    pvsize_year *year;

    stc_all_day();
    year = year_of(small_system(PAIRS(PVSIZE_INPUT_START_VOLTAGE, 389), NULL, NULL), plain, NULL);
    NEAR(output(year), 0, 1e-12); /* Voc is 388 V */
    NEAR(active(year, PVSIZE_KIND_INPUT, PVSIZE_LOSS_WINDOW), 24, 0);
    pvsize_year_free(year);
    temp[5] =
        -20; /* once at 20 degC, its Voc above 389 V, it goes on, but for the dark and a gap */
    diffuse[9] = 0;
    temp[20] = -999;
    for (int blocked = 0; blocked < 2; blocked++) { /* there is no other string to block */
        year = year_of(small_system(PAIRS(PVSIZE_INPUT_START_VOLTAGE, 389), NULL, NULL),
                       PAIRS(PVSIZE_OUTLOOK_SKY, PVSIZE_SKY_EVEN, PVSIZE_OUTLOOK_COVER,
                             PVSIZE_COVER_NONE, PVSIZE_OUTLOOK_BLOCKED,
                             blocked ? PVSIZE_ANSWER_YES : PVSIZE_ANSWER_NO),
                       NULL);
        NEAR(active(year, PVSIZE_KIND_INPUT, PVSIZE_LOSS_WINDOW), 24 - 4 - 2, 0);
        pvsize_year_free(year);
    }
}
END_TEST

/* A hundred metres of 4 mm2 in the string: 2 x 0.509 ohm at 20 degC (IEC 60228, from memory). */
START_TEST(cables)
{
    pvsize_spec *system =
        small_system(NULL,
                     PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 4000, PVSIZE_INVERTER_PHASES, 1,
                           PVSIZE_INVERTER_AC_VOLTAGE, 230),
                     NULL);
    pvsize_year *year;
    double rise = 2 * 0.0339 * (4000 / 230.0) * (4000 / 230.0);

    stc_all_day();
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING, PVSIZE_CABLE_ARRAY, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 4,
              PVSIZE_CABLE_LENGTH, 100, PVSIZE_CABLE_CONDUCTOR_TEMP, 20));
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_INVERTER, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 6,
              PVSIZE_CABLE_LENGTH, 10, PVSIZE_CABLE_CONDUCTOR_TEMP, 20));
    year = year_of(system, plain, NULL);
    /* the maximum-power point moves a little to its advantage */
    NEAR(loss(year, PVSIZE_LOSS_DC_WIRING), day(2 * 0.509 * imp * imp), 1e-2);
    ck_assert(loss(year, PVSIZE_LOSS_DC_WIRING) < day(2 * 0.509 * imp * imp));
    NEAR(loss(year, PVSIZE_LOSS_AC_WIRING), day(rise), 1e-9);
    NEAR(output(year), day(4000 - rise), 1e-9);
    pvsize_year_free(year);
}
END_TEST

START_TEST(limits_of_the_inverter)
{
    pvsize_spec *system = small_system(NULL, PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 4000), NULL);
    pvsize_year *year;

    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(4000), 1e-12);
    NEAR(loss(year, PVSIZE_LOSS_AC_RATING), day(pmp - 4000), 1e-9);
    NEAR(active(year, PVSIZE_KIND_INVERTER, PVSIZE_LOSS_AC_RATING), 24, 0);
    pvsize_year_free(year);
    /* apparent power: 4000 VA at 0.8 */
    system = small_system(
        NULL, PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 4000, PVSIZE_INVERTER_COS_PHI, 0.8), NULL);
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(3200), 1e-12);
    pvsize_year_free(year);
    system = small_system(
        NULL, PAIRS(PVSIZE_INVERTER_RATED_APPARENT_POWER, 3800, PVSIZE_INVERTER_COS_PHI, 0.9),
        NULL);
    year = year_of(system, plain, NULL); /* apparent power is all that is rated */
    NEAR(output(year), day(3420), 1e-12);
    pvsize_year_free(year);
    /* d.c. limit, then a European efficiency of 97 % */
    system = small_system(NULL,
                          PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 5000,
                                PVSIZE_INVERTER_MAX_OPERATING_POWER, 3500,
                                PVSIZE_INVERTER_EUROPEAN_EFFICIENCY, 97),
                          NULL);
    year = year_of(system, plain, NULL);
    NEAR(loss(year, PVSIZE_LOSS_DC_POWER), day(pmp - 3500), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_CONVERSION) + output(year), day(3500), 1e-9);
    ck_assert(output(year) > day(3500 * 0.965) && output(year) < day(3500 * 0.982));
    pvsize_year_free(year);
    /* the highest there may be still loses its thousandth */
    system = small_system(
        NULL,
        PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 5000, PVSIZE_INVERTER_EUROPEAN_EFFICIENCY, 99.9),
        NULL);
    year = year_of(system, plain, NULL);
    ck_assert(loss(year, PVSIZE_LOSS_CONVERSION) > day(5000 * 0.0005));
    ck_assert(loss(year, PVSIZE_LOSS_CONVERSION) < day(5000 * 0.002));
    pvsize_year_free(year);
}
END_TEST

START_TEST(night_and_export)
{
    double load[ROWS], power[ROWS];
    size_t count;
    pvsize_year *year;

    stc_all_day();
    for (int i = 0; i < ROWS; i++) {
        load[i] = 500;
        if (i < 6)
            diffuse[i] = 0;
    }
    year = year_of(small_system(NULL, PAIRS(PVSIZE_INVERTER_NIGHT_CONSUMPTION, 10),
                                PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000)),
                   plain, load);
    NEAR(loss(year, PVSIZE_LOSS_NIGHT), 0.06, 1e-12);
    NEAR(output(year), 18 * 3.5 - 0.06, 1e-12);
    NEAR(loss(year, PVSIZE_LOSS_EXPORT), 18 * (pmp - 3500) / 1000, 1e-9);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_LOAD), 12, 1e-12);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_USED), 9, 1e-12);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_EXPORTED), 54, 1e-12);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_DRAWN), 3.06, 1e-12);
    NEAR(active(year, PVSIZE_KIND_SYSTEM, PVSIZE_LOSS_EXPORT), 18, 0);
    OK(pvsize_year_power(year, subject(year, PVSIZE_KIND_INVERTER), -1, power, ROWS, &count, diag));
    ck_assert(count == ROWS && power[0] == -10 && fabs(power[6] - 3500) < 1e-9);
    FAILS(PVSIZE_E_CAPACITY, "values",
          pvsize_year_power(year, subject(year, PVSIZE_KIND_SYSTEM), -1, power, 3, NULL, diag));
    pvsize_year_free(year);
}
END_TEST

/* Two inverters share the export limit in proportion. */
START_TEST(inverters_share_the_export_limit)
{
    pvsize_spec *system = small_system(NULL, NULL, PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000));
    pvsize_year *year;
    double kwh;
    int32_t found;

    add_second(system, SPEC(PVSIZE_KIND_INVERTER, 0), 5);
    stc_all_day();
    year = year_of(system, plain, NULL);
    for (int32_t i = 0; i < 2; i++) {
        OK(pvsize_year_subject(year, PVSIZE_KIND_INVERTER, i, &found, diag));
        OK(pvsize_year_energy(year, found, 0, PVSIZE_ENERGY_OUTPUT, &kwh, diag));
        NEAR(kwh, day(i == 0 ? 2000 : 1000), 1e-9);
    }
    pvsize_year_free(year);
}
END_TEST

/* 96 % at every load and voltage, within the rating and cut by the d.c. limit. */
START_TEST(points_of_efficiency)
{
    for (int limited = 0; limited < 2; limited++) {
        pvsize_spec *system, *inverter;
        pvsize_year *year;
        double dc = limited ? 3000 : pmp;

        stc_all_day();
        system = small_system(NULL,
                              PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 5000,
                                    PVSIZE_INVERTER_MAX_OPERATING_POWER, limited ? 3000 : 9000),
                              NULL);
        OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
        for (int k = 0; k < 9; k++)
            give(inverter, SPEC(PVSIZE_KIND_EFFICIENCY_POINT, PVSIZE_EFFICIENCY_POINT_LOAD,
                                k % 3 * 45 + 10, PVSIZE_EFFICIENCY_POINT_VOLTAGE, 250 + k / 3 * 50,
                                PVSIZE_EFFICIENCY_POINT_EFFICIENCY, 96));
        OK(pvsize_spec_replace(system, 0, inverter, diag));
        pvsize_spec_free(inverter);
        year = year_of(system, plain, NULL);
        NEAR(output(year), day(dc * 0.96), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_CONVERSION) + output(year), day(dc), 1e-9);
        pvsize_year_free(year);
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "limits of the input", limits_of_the_input);
    add_test(suite, "starting", an_input_starts_by_its_open_circuit_voltage);
    add_test(suite, "cables", cables);
    add_test(suite, "limits of the inverter", limits_of_the_inverter);
    add_test(suite, "night and export", night_and_export);
    add_test(suite, "two inverters", inverters_share_the_export_limit);
    add_test(suite, "efficiency", points_of_efficiency);
}

int main(void)
{
    return run_cases("year", add);
}
