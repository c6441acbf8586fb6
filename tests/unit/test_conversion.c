/* The inverter's conversion from inside: published shape, weighted efficiencies, and what
 * must hold for any points. */
#include "../../lib/physics/conversion.h"
#include "../../lib/physics/widths.h"
#include "../support/pv_test.h"

static double uniform(double low, double high)
{
    return low + (high - low) * (rand() / (double)RAND_MAX);
}

static pvsz_conversion fitted(const pvsz_efficiency_point *points, int32_t count)
{
    pvsz_conversion made;

    ck_assert(pvsz_fit_conversion(points, count, &made));
    return made;
}

/* Schmidt and Sauer 1996: three points give the three terms exactly, and by them the other
 * loads and both weighted efficiencies; values of the formulas. The first row has European
 * efficiency 92.96 %. */
START_TEST(three_points_give_the_losses)
{
    static const struct {
        double at[3], loss[3], eta5, eta20, eta30, eta75, euro, cec;
    } row[] = {
        {{.90, .94, .92},
         {.00913649, .01329359, .06452644},
         .83385,
         .93294,
         .94064,
         .93121,
         .92956168,
         .93246557},
        {{.94, .965, .96},
         {.00442752, .01758963, .01964951},
         .90324,
         .95817,
         .96317,
         .96318,
         .95957583,
         .96222247},
        {{.955, .98, .975},
         {.00429146, .00230091, .01904865},
         .91820,
         .97317,
         .97817,
         .97818,
         .97457513,
         .97722269},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        pvsz_efficiency_point points[] = {{.load = 0.5, .efficiency = row[i].at[1]},
                                          {.load = 0.1, .efficiency = row[i].at[0]},
                                          {.load = 1.0, .efficiency = row[i].at[2]}};
        pvsz_conversion c = fitted(points, 3);

        ck_assert_int_eq(c.count, 1);
        for (int k = 0; k < 3; k++)
            NEAR(c.curve[0].loss[k], row[i].loss[k], 6e-9);
        NEAR(pvsz_efficiency(&c, 0.05, 400), row[i].eta5, 6e-6);
        NEAR(pvsz_efficiency(&c, 0.20, 400), row[i].eta20, 6e-6);
        NEAR(pvsz_efficiency(&c, 0.30, 400), row[i].eta30, 6e-6);
        NEAR(pvsz_efficiency(&c, 0.75, 400), row[i].eta75, 6e-6);
        NEAR(pvsz_weighted_efficiency(&c, PVSZ_WEIGHTED_EUROPEAN, 0), row[i].euro, 2e-8);
        NEAR(pvsz_weighted_efficiency(&c, PVSZ_WEIGHTED_CEC, 0), row[i].cec, 2e-8);
    }
}
END_TEST

/* Any points, even foolish ones: bounded, more d.c. gives more a.c., and there and back. */
START_TEST(any_points_give_a_sane_inverter)
{
    for (int trial = 0; trial < 1000; trial++) {
        pvsz_efficiency_point points[24];
        int32_t count = 1 + rand() % 24;
        pvsz_conversion c;
        double before = -1;

        for (int32_t i = 0; i < count; i++)
            points[i] = (pvsz_efficiency_point){uniform(0.01, 1.3), 200 + 100 * (rand() % 5),
                                                uniform(0.5, 1), rand() % 3 > 0};
        c = fitted(points, count);
        for (int32_t i = 0; i <= 60; i++) {
            double dc = i * 0.025, voltage = uniform(100, 900);
            double ac = pvsz_ac_power(&c, dc, 420);

            ck_assert(ac >= 0 && ac <= dc && ac >= before);
            before = ac;
            ac = pvsz_ac_power(&c, dc, voltage);
            if (ac > 0)
                NEAR(pvsz_dc_power(&c, ac, voltage), dc, 1e-12);
        }
    }
}
END_TEST

/* The fit is the least-squares one among all without negative terms: no small step of any
 * term that stays allowed makes the efficiencies fit better. */
static double misfit(const double loss[3], const pvsz_efficiency_point *points, int32_t count)
{
    double sum = 0;

    for (int32_t i = 0; i < count; i++) {
        double p = points[i].load;
        double error = loss[0] / p + loss[1] + loss[2] * p - (1 / points[i].efficiency - 1);

        sum += error * error;
    }
    return sum;
}

START_TEST(the_fit_is_the_best)
{
    for (int trial = 0; trial < 200; trial++) {
        pvsz_efficiency_point points[8];
        pvsz_conversion c;
        double least;

        for (int32_t i = 0; i < 8; i++)
            points[i] = (pvsz_efficiency_point){.load = uniform(0.05, 1),
                                                .efficiency = uniform(0.85, 0.99)};
        c = fitted(points, 8);
        least = misfit(c.curve[0].loss, points, 8);
        for (int i = 0; i < 200; i++) {
            double near[3];

            for (int k = 0; k < 3; k++)
                near[k] = fmax(0, c.curve[0].loss[k] + uniform(-0.01, 0.01));
            ck_assert(misfit(near, points, 8) >= least - 1e-12);
        }
    }
}
END_TEST

START_TEST(voltages_are_kept_apart)
{
    pvsz_efficiency_point points[] = {
        {0.5, 600, 0.95, true}, {1, 600, 0.94, true}, {0.5, 300, 0.97, true}, {1, 300, 0.97, true}};
    pvsz_efficiency_point many[17];
    pvsz_conversion c = fitted(points, 4);
    double low = pvsz_efficiency(&c, 1, 300), high = pvsz_efficiency(&c, 1, 600);

    ck_assert_int_eq(c.count, 2);
    ck_assert(pvsz_efficiency(&c, 1, 100) == low && pvsz_efficiency(&c, 1, 900) == high);
    NEAR(1 / pvsz_efficiency(&c, 1, 450), (1 / low + 1 / high) / 2, 1e-12);
    for (int i = 0; i < 17; i++)
        many[i] = (pvsz_efficiency_point){0.5, 100 + i, 0.9, true};
    ck_assert(!pvsz_fit_conversion(many, 17, &c));
    ck_assert(pvsz_fit_conversion(many, 16, &c) && c.count == 16);
}
END_TEST

START_TEST(what_is_no_efficiency_is_refused)
{
    static const pvsz_efficiency_point bad[] = {{0, 0, 0.9, false},   {-1, 0, 0.9, false},
                                                {0.5, 0, 0, false},   {0.5, 0, 1.01, false},
                                                {NAN, 0, 0.9, false}, {0.5, 0, NAN, false}};
    pvsz_conversion c;

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        ck_assert(!pvsz_fit_conversion(&bad[i], 1, &c));
    ck_assert(!pvsz_fit_conversion(bad, 0, &c));
    c = pvsz_conversion_without_loss();
    ck_assert(pvsz_ac_power(&c, 0.7, 400) == 0.7 && pvsz_ac_power(&c, 0, 400) == 0);
    /* without load no efficiency, and at night what the inverter takes for itself is no d.c. */
    ck_assert(pvsz_conversion_of_weighted(PVSZ_WEIGHTED_EUROPEAN, 0.95, &c));
    ck_assert(pvsz_efficiency(&c, 0, 400) == 0 && pvsz_efficiency(&c, -1, 400) == 0);
    ck_assert(pvsz_dc_power(&c, 0, 400) == 0 && pvsz_dc_power(&c, 1e-9, 400) > 1e-9);
}
END_TEST

START_TEST(one_weighted_number_gives_a_curve)
{
    static const double wanted[] = {0.5, 0.9, 0.96, 0.975, 0.985, 0.999};
    pvsz_conversion c;

    for (int w = 0; w < PVSZ_WEIGHTINGS; w++) {
        for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
            ck_assert(pvsz_conversion_of_weighted(w, wanted[i], &c));
            NEAR(pvsz_weighted_efficiency(&c, w, 0), wanted[i], 1e-12);
            ck_assert(pvsz_efficiency(&c, 0.05, 0) < pvsz_efficiency(&c, 0.5, 0));
        }
        ck_assert(!pvsz_conversion_of_weighted(w, 0.4, &c));
        ck_assert(!pvsz_conversion_of_weighted(w, 1, &c));
        ck_assert(!pvsz_conversion_of_weighted(w, NAN, &c));
    }
}
END_TEST

START_TEST(rows_have_the_bits_of_single_calls)
{
    enum { COUNT = 1003 };
    double dc[COUNT], voltage[COUNT], ac[COUNT];

    for (int32_t curves = 1; curves <= 4; curves++) {
        pvsz_conversion c = {.count = curves};

        for (int32_t k = 0; k < curves; k++)
            c.curve[k] = (pvsz_loss_curve){200 + 100 * k,
                                           {uniform(0, 0.01), uniform(0, 0.02), uniform(0, 0.02)}};
        for (int i = 0; i < COUNT; i++) {
            dc[i] = i % 10 ? uniform(0, 1.5) : 0.001;
            voltage[i] = i % 7 ? uniform(0, 700) : 100 * (i % 8);
        }
        for (int width = 0; width <= pvsz_widest(); width++) {
            pvsz_ac_powers_by(width, &c, COUNT, dc, voltage, ac);
            for (int i = 0; i < COUNT; i++) {
                double want = pvsz_ac_power(&c, dc[i], voltage[i]);

                ck_assert(memcmp(&want, &ac[i], sizeof want) == 0);
            }
        }
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "rows", rows_have_the_bits_of_single_calls);
    add_test(suite, "three points", three_points_give_the_losses);
    add_test(suite, "any points", any_points_give_a_sane_inverter);
    add_test(suite, "best fit", the_fit_is_the_best);
    add_test(suite, "voltages", voltages_are_kept_apart);
    add_test(suite, "refused", what_is_no_efficiency_is_refused);
    add_test(suite, "weighted", one_weighted_number_gives_a_curve);
}

int main(void)
{
    return run_cases("conversion", add);
}
