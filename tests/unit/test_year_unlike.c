/* A year of strings on one input that are unlike, by looking for the voltage that is best. */
#include "../support/pv_day.h"

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

/* Two like inputs, and one, of like or unlike strings, that never starts: the d.c. limit of 5 kW
 * takes from those that feed, and the efficiency is 96 % at any voltage. */
static void limit_three_inputs(bool like)
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
    if (!like)
        give(system, invented_array(2, 0, 9, 1));
    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(output(year), day(5000 * 0.96), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_DC_POWER), day(2 * pmp - 5000), 1e-9);
    pvsize_year_free(year);
}

START_TEST(a_dc_limit_over_unlike_inputs)
{
    limit_three_inputs(false);
    limit_three_inputs(true);
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

static void add(Suite *suite)
{
    add_test(suite, "unlike strings", unlike_strings_on_one_input);
    add_test(suite, "unlike inputs, limited", a_dc_limit_over_unlike_inputs);
    add_test(suite, "unlike strings, limited", unlike_strings_behind_a_dc_limit);
    add_test(suite, "anew", unlike_strings_start_anew);
}

int main(void)
{
    return run_cases("year_unlike", add);
}
