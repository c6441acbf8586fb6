/* Strings in parallel: against a search over every voltage. */
#include "../../lib/physics/diode_shift.h"
#include "../../lib/physics/joined.h"
#include "../support/pv_test.h"

static uint64_t state = 11;

static double random_between(double low, double high)
{
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static const pvsz_module silicon = {
    {4.39494, 1.18724e-10, 1.76816, 1.03751, 1 / 181.771}, 0.00175, 1.121, -0.0002677};
static const pvsz_module amorphous = {
    {4.63915, 6.49677e-10, 1.02986, 1.23184, 1 / 27.464}, 0.00561, 1.121, -0.0002677};

static pvsz_branch branch(const pvsz_module *m, double sun, double temp, double modules,
                          double strings)
{
    pvsz_diode d = pvsz_module_at(m, sun, temp);

    return pvsz_branch_of(&d, modules, strings);
}

/* Sum of the branches, written down anew. */
static double current_of(const pvsz_branch *b, size_t n, bool blocked, double v)
{
    double sum = 0;

    for (size_t i = 0; i < n; i++) {
        double one = pvsz_diode_current(&b[i].module, v / b[i].modules) * b[i].strings;

        sum += blocked && one < 0 ? 0 : one;
    }
    return sum;
}

static double best_power(const pvsz_branch *b, size_t n, bool blocked)
{
    double high = 0, best = 0, at = 0, width;

    for (size_t i = 0; i < n; i++)
        high = fmax(high, b[i].open);
    width = high / 2000;
    for (int k = 0; k <= 2000; k++) {
        double v = k * width, p = v * current_of(b, n, blocked, v);

        if (p > best) {
            best = p;
            at = v;
        }
    }
    for (int k = 0; k <= 4000; k++) {
        double v = at - width + k * width / 2000;

        best = fmax(best, v * current_of(b, n, blocked, v));
    }
    return best;
}

static size_t any_branches(pvsz_branch *b)
{
    size_t n = 1 + (size_t)random_between(0, 4);

    for (size_t i = 0; i < n; i++)
        b[i] = branch(random_between(0, 1) < 0.7 ? &silicon : &amorphous,
                      random_between(0, 1) < 0.1 ? 0 : random_between(1, 1200),
                      random_between(-20, 80), floor(random_between(1, 20)),
                      floor(random_between(1, 4)));
    return n;
}

START_TEST(mpp_is_the_best_of_every_voltage)
{
    for (int i = 0; i < 150; i++) {
        pvsz_branch b[8];
        pvsz_joined joined = {b, any_branches(b), i % 2};
        pvsz_point peak = pvsz_joined_mpp(&joined);
        double best = best_power(b, joined.count, joined.blocked);

        ck_assert_double_ge(peak.voltage * peak.current, best * (1 - 1e-12));
        ck_assert_double_le(peak.voltage * peak.current, best * (1 + 1e-5) + 1e-12);
        NEAR(peak.current, current_of(b, joined.count, joined.blocked, peak.voltage), 1e-12);
    }
}
END_TEST

START_TEST(voltage_at_a_current)
{
    for (int i = 0; i < 1000; i++) {
        pvsz_branch b[8];
        pvsz_joined joined = {b, any_branches(b), i % 2};
        double most = pvsz_joined_current(&joined, 0), current = random_between(0, most), v;

        if (most <= 0)
            continue;
        ck_assert(pvsz_joined_voltage(&joined, current, &v));
        NEAR(current_of(b, joined.count, joined.blocked, v), current, 1e-8);
        ck_assert(!pvsz_joined_voltage(&joined, most * 1.001, &v));
        ck_assert(pvsz_joined_voltage(&joined, 0, &v));
        NEAR(current_of(b, joined.count, joined.blocked, v), 0, 1e-8);
    }
}
END_TEST

START_TEST(equal_strings_are_one_module_scaled)
{
    pvsz_branch b[2] = {branch(&silicon, 800, 45, 10, 2), branch(&silicon, 800, 45, 10, 1)};
    pvsz_joined joined = {b, 2, false};
    pvsz_diode d = pvsz_module_at(&silicon, 800, 45);
    pvsz_point one = pvsz_diode_mpp(&d), all = pvsz_joined_mpp(&joined);

    NEAR(all.voltage, 10 * one.voltage, 1e-12);
    NEAR(all.current, 3 * one.current, 1e-12);
}
END_TEST

/* A short string next to a long one takes current back; a diode stops it. */
START_TEST(a_short_string_takes_current)
{
    pvsz_branch b[2] = {branch(&silicon, 1000, 25, 10, 2), branch(&silicon, 1000, 25, 5, 1)};
    pvsz_joined open = {b, 2, false}, blocked = {b, 2, true};
    pvsz_point with = pvsz_joined_mpp(&blocked), without = pvsz_joined_mpp(&open);
    double long_alone = 2667.456, v;

    ck_assert_double_lt(pvsz_joined_current(&open, 330), pvsz_joined_current(&blocked, 330));
    NEAR(with.voltage * with.current, long_alone, 1e-5);
    ck_assert_double_lt(without.voltage * without.current, 0.9 * long_alone);
    ck_assert(pvsz_joined_voltage(&open, 0, &v));
    ck_assert(v > b[1].open && v < b[0].open);
    ck_assert(pvsz_joined_voltage(&blocked, 0, &v));
    NEAR(v, b[0].open, 1e-12);
}
END_TEST

static double power_at(const pvsz_joined *joined, double v)
{
    return v * current_of(joined->branch, joined->count, joined->blocked, v);
}

/* Inside a window: against every voltage of it. */
START_TEST(best_in_a_window)
{
    for (int i = 0; i < 150; i++) {
        pvsz_branch b[8];
        pvsz_joined joined = {b, any_branches(b), true};
        double open = b[0].open, low = random_between(0, 1.1 * open);
        double high = low + random_between(0, open), best = 0;
        pvsz_point found = pvsz_joined_best(&joined, low, high);

        for (int k = 0; k <= 4000; k++)
            best = fmax(best, power_at(&joined, low + k * (high - low) / 4000));
        ck_assert(found.voltage * found.current >= best * (1 - 1e-9));
        ck_assert(found.voltage == 0 || (found.voltage >= low && found.voltage <= high));
        NEAR(found.voltage * found.current, power_at(&joined, found.voltage), 1e-9);
    }
}
END_TEST

/* Less power than there is: found above the maximum-power point, and it is that power. */
START_TEST(throttled_to_a_power)
{
    for (int i = 0; i < 150; i++) {
        pvsz_branch b[8];
        pvsz_joined joined = {b, any_branches(b), true};
        pvsz_point peak = pvsz_joined_mpp(&joined);
        double power = random_between(0.1, 0.99) * peak.voltage * peak.current, v;

        if (!(power > 0))
            continue;
        v = pvsz_joined_throttled(&joined, peak.voltage, power);
        ck_assert(v >= peak.voltage);
        NEAR(power_at(&joined, v), power, 1e-7);
    }
}
END_TEST

START_TEST(in_the_dark)
{
    pvsz_branch b[2] = {branch(&silicon, 0, 10, 10, 1), branch(&silicon, 0, 10, 5, 1)};

    for (int blocked = 0; blocked < 2; blocked++) {
        pvsz_joined joined = {b, 2, blocked};
        pvsz_point peak = pvsz_joined_mpp(&joined);
        double v = 1;

        ck_assert(peak.voltage == 0 && peak.current == 0);
        ck_assert(pvsz_joined_voltage(&joined, 0, &v) && v == 0);
        ck_assert(!pvsz_joined_voltage(&joined, 1, &v));
    }
}
END_TEST

/* A voltage that no string reaches stays, whatever power is asked for. */
START_TEST(nothing_above_open_circuit)
{
    pvsz_branch b[2] = {branch(&silicon, 500, 40, 10, 1), branch(&silicon, 400, 40, 5, 1)};
    pvsz_joined joined = {b, 2, true};
    double open = b[0].open;

    ck_assert(open > b[1].open);
    ck_assert(pvsz_joined_throttled(&joined, open, 1) == open);
    ck_assert(pvsz_joined_throttled(&joined, 2 * open, 1) == 2 * open);
    ck_assert(pvsz_joined_throttled(&joined, 0.9 * open, 1e-3) < open);
}
END_TEST

/* Diodes as no module has them, where the steps end by their count: between the ends all the same. */
START_TEST(steps_have_an_end)
{
    static const pvsz_diode odd[] = {
        {0.20838479816879266, 0.0093164468392898953, 0.00021395963575213619, 1.7809780760579641,
         6.9762161701344745e-07},
        {162.02979445421298, 2.6181088613033072e-31, 265.9030055290587, 1.1484511127455399,
         2.9280823353650133e-10},
        {6387.8979611439227, 906784914805733.12, 0.00015585921607020771, 0, 0}};
    pvsz_branch b[] = {pvsz_branch_of(&odd[0], 20, 1), pvsz_branch_of(&odd[1], 8, 3),
                       pvsz_branch_of(&odd[2], 12, 1)};
    pvsz_joined joined = {b, 3, false};
    pvsz_point peak = pvsz_joined_mpp(&joined);
    double v = pvsz_joined_throttled(&joined, peak.voltage, 2.2843518657683512e-11);

    ck_assert(peak.voltage > 0 && v >= peak.voltage);
    ck_assert(v <= fmax(b[0].open, fmax(b[1].open, b[2].open)));
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "mpp", mpp_is_the_best_of_every_voltage);
    add_test(suite, "voltage", voltage_at_a_current);
    add_test(suite, "equal", equal_strings_are_one_module_scaled);
    add_test(suite, "short", a_short_string_takes_current);
    add_test(suite, "window", best_in_a_window);
    add_test(suite, "throttled", throttled_to_a_power);
    add_test(suite, "dark", in_the_dark);
    add_test(suite, "open", nothing_above_open_circuit);
    add_test(suite, "end", steps_have_an_end);
}

int main(void)
{
    return run_cases("joined", add);
}
