/* Rows of points against the single calls, which are tested against other models
 * (test_diode.c, tests/oracle/test_curves.py). */
#include "../../lib/physics/diode_held.h"
#include "../../lib/physics/diode_mpp.h"
#include "../../lib/physics/diode_rows.h"
#include "../../lib/physics/widths.h"
#include "../support/pv_test.h"

static double random_between(double low, double high)
{
    static uint64_t state = 1;

    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static double power_of_ten(double low, double high)
{
    return pow(10, random_between(low, high));
}

enum { POINTS = 20011 };

static const pvsz_module some_modules[] = {
    {{4.39494, 1.18724e-10, 1.76816, 1.03751, 1 / 181.771}, 0.00175, 1.121, -0.0002677},
    {{4.63915, 6.49677e-10, 1.02986, 1.23184, 1 / 27.464}, 0.00561, 1.121, -0.0002677},
    {{10, 1e-5, 2, 5, 1}, 0, 1.475, -0.0003}, /* a poor one: the slow way */
    {{10, 1e-30, 0.6, 0, 0}, 0, 1.121, -0.0002677}};
enum { MODULES = sizeof some_modules / sizeof some_modules[0] };

static double sun[POINTS], temp[POINTS], voltages[POINTS], currents[POINTS];
static double asked[POINTS], got[POINTS], first_bits[POINTS], more[POINTS];
static int32_t places[POINTS];

static pvsz_peaks random_peaks(const pvsz_module *module)
{
    for (int i = 0; i < POINTS; i++) {
        sun[i] = i % 7 ? random_between(0, 1500) : power_of_ten(-4, 0);
        temp[i] = random_between(-40, 90);
        places[i] = (int32_t)(i * INT64_C(7919) % POINTS);
    }
    sun[5] = 0;
    pvsz_module_mpps(module, POINTS, sun, temp, voltages, currents);
    return (pvsz_peaks){sun, temp, voltages, currents};
}

START_TEST(rows_have_the_bits_of_single_calls)
{
    for (size_t m = 0; m < MODULES; m++) {
        random_peaks(&some_modules[m]);
        for (int width = 0; width <= pvsz_widest(); width++) {
            pvsz_module_mpps_by(width, &some_modules[m], POINTS, sun, temp, got, more);
            for (int i = 0; i < POINTS; i++) {
                pvsz_diode d = pvsz_module_at(&some_modules[m], sun[i], temp[i]);
                pvsz_point peak = pvsz_diode_mpp(&d);

                ck_assert(memcmp(&peak.voltage, &got[i], sizeof(double)) == 0);
                ck_assert(memcmp(&peak.current, &more[i], sizeof(double)) == 0);
            }
            ck_assert(got[5] == 0 && more[5] == 0);
        }
    }
}
END_TEST

/* The first width's are kept, the others must have their bits. */
static void expect_same_bits(int width)
{
    if (width == 0)
        memcpy(first_bits, got, sizeof got);
    ck_assert(memcmp(first_bits, got, sizeof got) == 0);
}

static void expect_near(double value, double want, double share)
{
    ck_assert_msg(fabs(value - want) <= share * fabs(want), "%.17g instead of %.17g", value, want);
}

START_TEST(powers_are_those_of_the_points)
{
    for (size_t m = 0; m < MODULES; m++) {
        random_peaks(&some_modules[m]);
        for (int width = 0; width <= pvsz_widest(); width++) {
            pvsz_module_powers_by(width, &some_modules[m], POINTS, sun, 31, got);
            expect_same_bits(width);
        }
        for (int i = 0; i < POINTS; i++) {
            pvsz_diode d = pvsz_module_at(&some_modules[m], sun[i], 31);
            pvsz_point peak = pvsz_diode_mpp(&d);

            expect_near(got[i], peak.voltage * peak.current, 1e-11);
        }
        ck_assert(got[5] == 0);
    }
}
END_TEST

START_TEST(cables_move_the_points_to_where_they_are)
{
    const double ohm[] = {1e-6, 0.01, 0.1, 2, 1000};

    for (size_t m = 0; m < MODULES; m++)
        for (size_t k = 0; k < sizeof ohm / sizeof ohm[0]; k++) {
            pvsz_peaks peaks = random_peaks(&some_modules[m]);

            for (int width = 0; width <= pvsz_widest(); width++) {
                pvsz_wired_mpps_by(width, &some_modules[m], ohm[k], POINTS, &peaks, got, more);
                expect_same_bits(width);
            }
            for (int i = 0; i < POINTS; i++) {
                pvsz_diode d = pvsz_module_at(&some_modules[m], sun[i], temp[i]);
                pvsz_point peak;

                d.series += ohm[k];
                peak = pvsz_diode_mpp(&d);
                expect_near(got[i], peak.voltage, 1e-10);
                expect_near(more[i], peak.current, 1e-10);
            }
        }
}
END_TEST

/* A hundredth to all of the power, or current, of the point. */
START_TEST(limits_hold_where_the_curve_has_them)
{
    for (size_t m = 0; m < MODULES; m++)
        for (int of_power = 0; of_power < 2; of_power++) {
            pvsz_peaks peaks = random_peaks(&some_modules[m]);

            for (int i = 0; i < POINTS; i++) {
                int at = places[i];
                double share = i % 5 ? random_between(0.01, 1) : 1 - power_of_ten(-9, -2);

                asked[i] = share * currents[at] * (of_power ? voltages[at] : 1);
            }
            for (int width = 0; width <= pvsz_widest(); width++) {
                (of_power ? pvsz_throttled_voltages_by : pvsz_held_voltages_by)(
                    width, &some_modules[m], &peaks, POINTS, places, asked, got);
                expect_same_bits(width);
            }
            for (int i = 0; i < POINTS; i++) {
                int at = places[i];
                pvsz_diode d = pvsz_module_at(&some_modules[m], sun[at], temp[at]);

                if (!(asked[i] > 0))
                    continue;
                /* where the power has its maximum, its voltage cannot be told so exactly */
                if (of_power) {
                    double off = got[i] * pvsz_diode_current(&d, got[i]) - asked[i];

                    ck_assert(fabs(off) <= 1e-10 * voltages[at] * currents[at]);
                    ck_assert(got[i] >= voltages[at] * (1 - 1e-7));
                } else {
                    expect_near(got[i], pvsz_diode_voltage(&d, asked[i]), 1e-10);
                }
            }
        }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "points", rows_have_the_bits_of_single_calls);
    add_test(suite, "powers", powers_are_those_of_the_points);
    add_test(suite, "cables", cables_move_the_points_to_where_they_are);
    add_test(suite, "limits", limits_hold_where_the_curve_has_them);
}

int main(void)
{
    return run_cases("diode_rows", add);
}
