/* The year by hand, from days at STC. Then gaps, night, starting, errors. */
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
    pvsize_spec *second = SPEC(PVSIZE_KIND_INVERTER, 0), *array = invented_array(0, 0, 5, 1);
    pvsize_year *year;
    double kwh;
    int32_t found;

    give(second, SPEC(PVSIZE_KIND_INPUT, 0));
    give(system, second);
    OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_INVERTER, 1, diag));
    give(system, array);
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

/* Strings of ten modules and of another number on one input, by brute force: currents add up at
 * one voltage, and blocked ones never fall below nothing. */
typedef struct unlike {
    const pvsize_curve *curve;
    double modules;
    bool blocked;
} unlike;

static double current_at(const unlike *u, double voltage)
{
    const double modules[] = {10, u->modules};
    double sum = 0, ampere;

    for (int i = 0; i < 2; i++) {
        OK(pvsize_curve_current(u->curve, 1000, 25, voltage / modules[i], &ampere, diag));
        sum += u->blocked && ampere < 0 ? 0 : ampere;
    }
    return sum;
}

/* The highest power from one voltage to another, of at most so much current. */
static double best_of(const unlike *u, double low, double high, double most)
{
    double best = 0, from = low, to = high, middle = low;

    while (to - from > 1e-7) {
        double step = (to - from) / 200;

        for (int i = 0; i <= 200; i++) {
            double at = from + i * step, ampere = current_at(u, at);

            if (ampere <= most && at * ampere > best) {
                best = at * ampere;
                middle = at;
            }
        }
        from = fmax(low, middle - step);
        to = fmin(high, middle + step);
    }
    return best;
}

static double output_unlike(const unlike *u, const double *input, int inputs)
{
    const double options[] = {PVSIZE_OUTLOOK_SKY,
                              PVSIZE_SKY_EVEN,
                              PVSIZE_OUTLOOK_COVER,
                              PVSIZE_COVER_NONE,
                              PVSIZE_OUTLOOK_BLOCKED,
                              u->blocked ? PVSIZE_ANSWER_YES : PVSIZE_ANSWER_NO,
                              0};
    pvsize_spec *system = small_system(input, NULL, NULL), *inverter;
    pvsize_year *year;
    double found;

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    for (int k = 1; k < inputs; k++) {
        give(inverter, spec_with(PVSIZE_KIND_INPUT, input));
        give(system, invented_array(k, 0, 10, 1));
    }
    for (int k = 0; k < inputs; k++)
        give(system, invented_array(k, 0, (int32_t)u->modules, 1));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    year = year_of(system, options, NULL);
    found = output(year);
    pvsize_year_free(year);
    return found;
}

START_TEST(unlike_strings_on_one_input)
{
    pvsize_spec *module = invented_module();
    pvsize_curve *curve;

    stc_all_day();
    OK(pvsize_curve_new(module, NULL, &curve, diag));
    for (int blocked = 0; blocked < 2; blocked++) {
        unlike u = {curve, 9, blocked};
        const double any[] = {PVSIZE_INPUT_TRACKING_MIN, 90, 0};

        NEAR(output_unlike(&u, any, 1), day(best_of(&u, 90, 349, 99)), 1e-8);
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_TRACKING_MIN, 340), 1),
             day(best_of(&u, 340, 349, 99)), 1e-8);
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_TRACKING_MAX, 250), 1),
             day(best_of(&u, 90, 250, 99)), 1e-8);
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_MAX_OPERATING_CURRENT, 20), 1),
             day(best_of(&u, 90, 349, 20)), 1e-7);
        /* above all of Voc: it never starts */
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_START_VOLTAGE, 389), 1), 0, 1e-12);
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_START_VOLTAGE, 100), 1),
             day(best_of(&u, 90, 349, 99)), 1e-8);
    }
    /* five modules are open at 194 V, and blocked above: the ten give alone what they can */
    {
        unlike u = {curve, 5, true};

        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_TRACKING_MIN, 340), 1),
             day(best_of(&u, 340, 388, 99)), 1e-8);
        NEAR(output_unlike(&u, PAIRS(PVSIZE_INPUT_MAX_OPERATING_CURRENT, 14), 1),
             day(best_of(&u, 90, 388, 14)), 1e-7);
    }
    pvsize_curve_free(curve);
    pvsize_spec_free(module);
}
END_TEST

/* Two like inputs, and one of unlike strings that never starts: the d.c. limit of 5 kW takes from
 * those that feed, and the efficiency is 96 % at any voltage. */
START_TEST(a_dc_limit_over_unlike_inputs)
{
    pvsize_spec *system = small_system(
        NULL,
        PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 9000, PVSIZE_INVERTER_MAX_OPERATING_POWER, 5000),
        NULL);
    pvsize_spec *inverter;
    pvsize_year *year;

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
    give(inverter, SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_START_VOLTAGE, 700));
    for (int k = 0; k < 9; k++)
        give(inverter, SPEC(PVSIZE_KIND_EFFICIENCY_POINT, PVSIZE_EFFICIENCY_POINT_LOAD,
                            k % 3 * 45 + 10, PVSIZE_EFFICIENCY_POINT_VOLTAGE, 250 + k / 3 * 100,
                            PVSIZE_EFFICIENCY_POINT_EFFICIENCY, 96));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    give(system, invented_array(1, 0, 10, 1));
    give(system, invented_array(2, 0, 10, 1));
    give(system, invented_array(2, 0, 9, 1));
    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(5000 * 0.96), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_DC_POWER), day(2 * pmp - 5000), 1e-9);
    pvsize_year_free(year);
}
END_TEST

/* Without a Pmax the rating is Vmp times Imp, and is told as taken for granted. */
START_TEST(a_module_without_pmax)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL), *array, *module;
    pvsize_year *year;
    double rated;
    int32_t count, what, seen = 0;

    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_unset(module, PVSIZE_MODULE_PMAX, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    pvsize_spec_free(module);
    pvsize_spec_free(array);
    stc_all_day();
    year = year_of(system, plain, NULL);
    OK(pvsize_year_yield(year, subject(year, PVSIZE_KIND_SYSTEM), &rated, NULL, diag));
    NEAR(rated, pmp / 1000, 1e-12);
    OK(pvsize_year_assumption_count(year, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_year_assumption(year, i, &what, NULL, NULL, diag));
        seen += what == PVSIZE_YEAR_ASSUMPTION_PMAX;
    }
    ck_assert_int_eq(seen, 1);
    pvsize_year_free(year);
}
END_TEST

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

/* Behind a d.c. limit unlike strings go up their curve to where efficiency is read: of 95 % at
 * 250 V and 97 % at 450 V, straight between them, it is above that of the best point. */
START_TEST(unlike_strings_behind_a_dc_limit)
{
    pvsize_spec *module = invented_module(), *system, *inverter;
    pvsize_curve *curve;
    pvsize_year *year;
    double low = 300, high = 349;
    unlike u = {NULL, 9, false};

    stc_all_day();
    OK(pvsize_curve_new(module, NULL, &curve, diag));
    u.curve = curve;
    while (high - low > 1e-9) { /* 5 kW above the best point */
        double middle = (low + high) / 2;

        if (middle * current_at(&u, middle) > 5000)
            low = middle;
        else
            high = middle;
    }
    system = small_system(
        NULL,
        PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 9000, PVSIZE_INVERTER_MAX_OPERATING_POWER, 5000),
        NULL);
    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    for (int k = 0; k < 9; k++)
        give(inverter, SPEC(PVSIZE_KIND_EFFICIENCY_POINT, PVSIZE_EFFICIENCY_POINT_LOAD,
                            k % 3 * 45 + 10, PVSIZE_EFFICIENCY_POINT_VOLTAGE, 250 + k / 3 * 100,
                            PVSIZE_EFFICIENCY_POINT_EFFICIENCY, 95 + k / 3));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    give(system, invented_array(0, 0, 9, 1));
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(5000 * (0.95 + (low - 250) / 10000)), 1e-4);
    pvsize_year_free(year);
    pvsize_curve_free(curve);
    pvsize_spec_free(module);
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

static int32_t granted(const pvsize_year *year, int32_t wanted)
{
    int32_t count, what, seen = 0;

    OK(pvsize_year_assumption_count(year, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_year_assumption(year, i, &what, NULL, NULL, diag));
        seen += what == wanted;
    }
    return seen;
}

/* An a.c. cable of an inverter whose voltage nothing tells loses nothing, and that is told; an
 * export limit needs something that measures. */
START_TEST(what_is_not_known_is_told)
{
    const double rating[] = {PVSIZE_INVERTER_RATED_AC_POWER, 4000, PVSIZE_INVERTER_PHASES, 1, 0};
    pvsize_spec *system = small_system(NULL, rating, NULL), *site;
    pvsize_year *year;

    stc_all_day();
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    OK(pvsize_spec_unset(site, PVSIZE_SITE_SUPPLY_VOLTAGE, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    pvsize_spec_free(site);
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_INVERTER, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 6,
              PVSIZE_CABLE_LENGTH, 10, PVSIZE_CABLE_CONDUCTOR_TEMP, 20));
    year = year_of(system, plain, NULL);
    ck_assert_int_eq(granted(year, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT), 1);
    ck_assert(loss(year, PVSIZE_LOSS_AC_WIRING) == 0);
    NEAR(output(year), day(4000), 1e-9);
    pvsize_year_free(year);
    for (int32_t control = PVSIZE_EXPORT_CONTROL_NONE; control <= PVSIZE_EXPORT_CONTROL_METER;
         control++) {
        year = year_of(small_system(NULL, NULL,
                                    PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000,
                                          PVSIZE_SITE_EXPORT_CONTROL, control)),
                       plain, NULL);
        ck_assert_int_eq(granted(year, PVSIZE_YEAR_ASSUMPTION_EXPORT_NOT_MEASURED),
                         control == PVSIZE_EXPORT_CONTROL_NONE);
        NEAR(output(year), day(3000), 1e-9);
        pvsize_year_free(year);
    }
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

/* Unlike strings start anew behind a gap: at 25 degC ten modules have 388 V, at 20 degC more. */
START_TEST(unlike_strings_start_anew)
{
    pvsize_spec *system = small_system(PAIRS(PVSIZE_INPUT_START_VOLTAGE, 380), NULL, NULL);
    pvsize_year *year;
    double power[ROWS];

    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        temp[i] = i == 2 ? -35 : 0; /* at 40 degC it would not start */
    temp[12] = -999;
    give(system, invented_array(0, 0, 9, 1));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, 10, diag));
    year = year_of(system, plain, NULL);
    OK(pvsize_year_power(year, subject(year, PVSIZE_KIND_SYSTEM), -1, power, ROWS, NULL, diag));
    for (int i = 0; i < ROWS; i++) {
        bool feeds = i >= 2 && i < 12;

        ck_assert_msg(i == 12 ? power[i] == -1 : (power[i] > 0) == feeds, "row %d", i);
    }
    pvsize_year_free(year);
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

/* Numbers wider than their column push the next one on, by a blank: 1.3 GWh an hour. */
START_TEST(numbers_wider_than_their_column)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL);
    pvsize_year *year;
    char text[12000];

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, 10000, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 10000, diag));
    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        diffuse[i] = 1300;
    year = year_of(system, plain, NULL);
    OK(pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "1341522000.0 \n")); /* 429.975 W x 1.3 x 1e8 x 24 h */
    pvsize_year_free(year);
}
END_TEST

/* A system without strings, of an inverter with a name longer than its column: a year of nothing. */
START_TEST(a_year_of_nothing)
{
    static const char name[] = "the inverter behind the shed, next to the large water tank";
    pvsize_spec *system = small_system(NULL, PAIRS(PVSIZE_INVERTER_NIGHT_CONSUMPTION, 5), NULL);
    pvsize_spec *inverter;
    pvsize_year *year;
    double rated = 7, yield = 7;
    char text[12000];

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    OK(pvsize_spec_set_text(inverter, PVSIZE_INVERTER_NAME, name, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    OK(pvsize_spec_remove(system, PVSIZE_KIND_ARRAY, 0, diag));
    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_REFERENCE), 0, 0);
    OK(pvsize_year_yield(year, subject(year, PVSIZE_KIND_SYSTEM), &rated, &yield, diag));
    ck_assert(rated == 0 && yield == 0);
    OK(pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, name));
    ck_assert_ptr_nonnull(strstr(text, " kWh in 24 intervals of 60 minutes; not computed"));
    pvsize_year_free(year);
}
END_TEST

/* Memory that runs out for good, from each allocation on: one failure, and all comes back. */
static void *dry(void *user, size_t size)
{
    counter *c = user;

    if (c->fail_at >= 0 && c->made >= c->fail_at)
        return NULL;
    return counted(user, size);
}

START_TEST(memory_that_runs_dry)
{
    pvsize_light *light;
    pvsize_spec *system = small_system(NULL, NULL, PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000));
    pvsize_status status = PVSIZE_E_NO_MEMORY;
    counter c = {0, 0, -1};
    pvsize_allocator memory = {dry, released, &c};
    pvsize_year *year;

    stc_all_day();
    for (int i = 0; i < 5; i++) /* of which little is known: more is taken for granted */
        give(system, SPEC(PVSIZE_KIND_INVERTER, 0));
    give(system, invented_array(0, 0, 10, 1));
    light = light_with(plain);
    OK(pvsize_year_new(&memory, &year, diag));
    for (long n = 0; status; n++) {
        c.fail_at = c.made + n;
        status = pvsize_year_fill(system, light, NULL, 0, year, diag);
        ck_assert(!status || status == PVSIZE_E_NO_MEMORY);
        ck_assert(!status || c.live == 1);
    }
    NEAR(output(year), day(3000), 1e-9);
    pvsize_year_free(year);
    ck_assert_int_eq(c.live, 0);
    pvsize_light_free(light);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(gaps_are_counted_and_not_filled)
{
    double power[ROWS], load[ROWS] = {0};
    int32_t gaps;
    pvsize_year *year;

    stc_all_day();
    diffuse[3] = -999;
    temp[4] = -999;
    wind[5] = -999;
    diffuse[6] = 0;
    temp[6] = -999; /* dark: no temperature is needed */
    for (int i = 0; i < ROWS; i++)
        load[i] = 100;
    year = year_of(small_system(NULL, NULL, NULL), plain, load);
    OK(pvsize_year_size(year, NULL, NULL, NULL, &gaps, diag));
    ck_assert_int_eq(gaps, 3);
    OK(pvsize_year_power(year, subject(year, PVSIZE_KIND_SYSTEM), -7, power, ROWS, NULL, diag));
    ck_assert(power[3] == -7 && power[4] == -7 && power[5] == -7 && power[6] == 0);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_LOAD), 2.1, 1e-12);
    pvsize_year_free(year);
    /* a stated wind serves */
    year = year_of(small_system(NULL, NULL, NULL),
                   PAIRS(PVSIZE_OUTLOOK_SKY, PVSIZE_SKY_EVEN, PVSIZE_OUTLOOK_WIND, 1), NULL);
    OK(pvsize_year_size(year, NULL, NULL, NULL, &gaps, diag));
    ck_assert_int_eq(gaps, 2);
    pvsize_year_free(year);
}
END_TEST

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

START_TEST(the_text_cautions_and_tells_what_it_took_for_granted)
{
    char text[12000];
    pvsize_spec *system = small_system(NULL, NULL, PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000));
    pvsize_year *year;
    int32_t count, what, of;

    stc_all_day();
    OK(pvsize_spec_set_text(system, PVSIZE_SYSTEM_NAME, "Shed", diag));
    year = year_of(system, plain, NULL);
    for (int32_t format = PVSIZE_FORMAT_PLAIN; format <= PVSIZE_FORMAT_MARKDOWN; format++) {
        OK(pvsize_year_render(year, format, text, sizeof text, NULL, diag));
        ck_assert_ptr_nonnull(strstr(text, "licensed person"));
        ck_assert_ptr_nonnull(strstr(text, "ac_rating"));
        ck_assert_ptr_nonnull(strstr(text, "Energy: Shed\n\n"));
        ck_assert_ptr_nonnull(strstr(text, "array 1: no cable of its strings is given"));
        ck_assert_ptr_nonnull(strstr(text, "no load is given: all is exported, W of limit: 3000"));
    }
    OK(pvsize_year_assumption_count(year, &count, diag));
    OK(pvsize_year_assumption(year, 0, &what, &of, NULL, diag));
    ck_assert_int_eq(what, PVSIZE_YEAR_ASSUMPTION_NO_STRING_CABLE);
    OK(pvsize_year_assumption_text(year, 0, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 1: no cable of its strings is given: none is counted");
    OK(pvsize_year_subject_text(year, of, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 1");
    pvsize_year_free(year);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "modules give their rating at STC", modules_give_their_rating_at_stc);
    add_test(suite, "stated losses and heat", stated_losses_and_heat);
    add_test(suite, "limits of the input", limits_of_the_input);
    add_test(suite, "starting", an_input_starts_by_its_open_circuit_voltage);
    add_test(suite, "cables", cables);
    add_test(suite, "limits of the inverter", limits_of_the_inverter);
    add_test(suite, "night and export", night_and_export);
    add_test(suite, "two inverters", inverters_share_the_export_limit);
    add_test(suite, "unlike strings", unlike_strings_on_one_input);
    add_test(suite, "unlike inputs, limited", a_dc_limit_over_unlike_inputs);
    add_test(suite, "no Pmax", a_module_without_pmax);
    add_test(suite, "like inputs", like_inputs_have_like_ledgers);
    add_test(suite, "unlike strings, limited", unlike_strings_behind_a_dc_limit);
    add_test(suite, "module alone", yield_of_a_module_alone);
    add_test(suite, "warmth", how_warm_the_cells_get);
    add_test(suite, "efficiency", points_of_efficiency);
    add_test(suite, "differ in one", inputs_that_differ_in_one_thing);
    add_test(suite, "one of two", two_arrays_of_one_string_are_one_of_two);
    add_test(suite, "cables and modules", arrays_keep_their_cables_and_modules);
    add_test(suite, "not known", what_is_not_known_is_told);
    add_test(suite, "empty input", an_empty_input_takes_no_part);
    add_test(suite, "anew", unlike_strings_start_anew);
    add_test(suite, "dozen", planes_by_the_dozen);
    add_test(suite, "no yield", yields_that_cannot_be);
    add_test(suite, "all beam", light_that_is_all_beam);
    add_test(suite, "year of nothing", a_year_of_nothing);
    add_test(suite, "wide", numbers_wider_than_their_column);
    add_test(suite, "dry", memory_that_runs_dry);
    add_test(suite, "gaps", gaps_are_counted_and_not_filled);
    add_test(suite, "nothing", weather_that_gives_nothing_is_refused);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "text", the_text_cautions_and_tells_what_it_took_for_granted);
}

int main(void)
{
    return run_cases("year", add);
}
