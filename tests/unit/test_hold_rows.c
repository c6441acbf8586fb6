/* Limits of many hours at once against those of one hour, which are tested against a model that
 * looks at many voltages (tests/oracle/test_years.py). */
#include "../../lib/physics/diode_rows.h"
#include "../../lib/yield/hold_rows.h"
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

static void add(Suite *suite)
{
    add_test(suite, "rows", rows_hold_as_single_hours_do);
}

int main(void)
{
    return run_cases("hold_rows", add);
}
