/* The single-diode curve: against published parameters and measured points, against
 * bisection in long double, and against libm. */
#include <float.h>

#include "../../lib/physics/diode_mpp.h"
#include "../support/pv_test.h"

/* Constants of the papers of 1986 to 2009, k and q of CODATA 1998. */
#define OLD_BOLTZMANN (1.3806503e-23 / 1.60217646e-19)

static double random_between(double low, double high)
{
    static uint64_t state = 1;

    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

/* Oracles in long double need its digits: some machines have none, valgrind drops them. */
static bool digits_to_spare(void)
{
    volatile long double one = 1, more = DBL_EPSILON / 16;

    if (one + more != one)
        return true;
    printf("skipped: long double has no more digits than double here\n");
    return false;
}

/* elementary functions */

static double ulps(double got, long double want)
{
    return want == 0 ? 0 : (double)(fabsl(((long double)got - want) / want) / DBL_EPSILON);
}

/* Some libraries' acosl loses digits near 1 (that of MinGW-w64); 1 - x has no rounding here. */
static long double acos_by_tangent(double x)
{
    return atan2l(sqrtl((1 - (long double)x) * (1 + (long double)x)), x);
}

START_TEST(elementary_functions_are_within_two_ulp)
{
    const double spans[] = {1e-9, 1e-3, 1, 40, 600};
    double worst = 0;

    if (!digits_to_spare())
        return;
    for (size_t k = 0; k < sizeof spans / sizeof spans[0]; k++) {
        for (int i = 0; i < 100000; i++) {
            double x = random_between(-spans[k], spans[k]), y = exp(x);

            worst = fmax(worst, ulps(pvsz_exp(x), expl(x)));
            worst = fmax(worst, ulps(pvsz_expm1(x), expm1l(x)));
            worst = fmax(worst, ulps(pvsz_log(y), logl(y)));
            worst = fmax(worst, ulps(pvsz_log1p(y), log1pl(y)));
        }
    }
    for (int i = 0; i < 100000; i++) {
        double x = i / 1e5, near_one = 1 - pow(10, -16 * x);

        worst = fmax(worst, ulps(pvsz_acos(x), acos_by_tangent(x)));
        worst = fmax(worst, ulps(pvsz_acos(near_one), acos_by_tangent(near_one)));
    }
    ck_assert_msg(worst < 2, "%g", worst);
    ck_assert(pvsz_acos(1) == 0 && pvsz_acos(0) == acos(0) && pvsz_acos(0.5) > 1);
    ck_assert(pvsz_exp(0) == 1 && pvsz_expm1(0) == 0 && pvsz_log(1) == 0);
    ck_assert(pvsz_exp(1000) == pvsz_exp(600) && pvsz_exp(-1e9) == pvsz_exp(-600));
}
END_TEST

/* published cells */

typedef struct published {
    const char *source;
    double light, saturation, series, shunt, n, cells, kelvin, k_over_q;
    double isc, voc, vmp, imp, tolerance;
} published;

static const published published_cells[] = {
    /* Points: the published list of key points of the cell, 4 digits. */
    {"RTC France cell, 33 degC, Easwarakhanthan and others, Int. J. Solar Energy 4 (1986) 1-12; "
     "best published fit",
     0.76077553, 0.32302079e-6, 0.03637709, 53.71852020, 1.48118359, 1, 306.15, OLD_BOLTZMANN,
     0.7603, 0.5728, 0.4507, 0.6894, 1e-4},
    /* Points: computed with Lambert W, no published answer. */
    {"the same, ten digits", 0.76077553, 0.32302079e-6, 0.03637709, 53.71852020, 1.48118359, 1,
     306.15, OLD_BOLTZMANN, 0.7602603646, 0.5727851487, 0.4506448836, 0.6893499151, 1e-9},
    {"36-cell module, 45 degC, same paper; best published fit (from memory)", 1.0305143,
     3.4822630e-6, 1.2012710, 981.9823, 48.6428349, 1, 318.15, OLD_BOLTZMANN, 1.029249885,
     16.7781935, 12.6458891, 0.912517169, 1e-7},
    {"blue cell, Jain and Kapoor, Solar Energy Materials & Solar Cells 81 (2004) 269-277", 0.1023,
     0.1036e-6, 0.06826, 1000, 1.5019, 1, 300, PVSZ_BOLTZMANN, 0.102292997, 0.535722346,
     0.432795838, 0.093395744, 1e-8},
    {"grey cell, same paper", 0.5610, 5.514e-6, 0.07769, 25.9, 1.7225, 1, 307, PVSZ_BOLTZMANN,
     0.559313481, 0.523747781, 0.386964252, 0.483339261, 1e-8},
    /* Measured by Charles and others, 1981, as quoted there: 0.536 V, 0.1023 A. */
    {"blue cell, measured", 0.1023, 0.1036e-6, 0.06826, 1000, 1.5019, 1, 300, PVSZ_BOLTZMANN,
     0.1023, 0.536, 0.432795838, 0.093395744, 6e-4},
    /* The printed parameters of the paper; its maximum power is 200.143 W (from memory). */
    {"200 W module, Villalva and others, IEEE Trans. Power Electronics 24 (2009) 1198-1208", 8.214,
     9.825e-8, 0.221, 415.405, 1.3, 54, 298.15, OLD_BOLTZMANN, 8.21, 32.9, 26.3, 7.61, 2.5e-3},
};

static pvsz_diode diode_of(const published *p)
{
    return (pvsz_diode){p->light, p->saturation, p->n * p->cells * p->k_over_q * p->kelvin,
                        p->series, 1 / p->shunt};
}

START_TEST(published_cells_have_their_points)
{
    for (size_t i = 0; i < sizeof published_cells / sizeof published_cells[0]; i++) {
        const published *p = &published_cells[i];
        pvsz_diode d = diode_of(p);
        pvsz_point peak = pvsz_diode_mpp(&d);

        NEAR(pvsz_diode_current(&d, 0), p->isc, p->tolerance);
        NEAR(pvsz_diode_voltage(&d, 0), p->voc, p->tolerance);
        NEAR(peak.voltage, p->vmp, p->tolerance);
        NEAR(peak.current, p->imp, p->tolerance);
    }
}
END_TEST

START_TEST(published_cells_have_more_points)
{
    pvsz_diode blue = diode_of(&published_cells[3]), grey = diode_of(&published_cells[4]);
    pvsz_diode villalva = diode_of(&published_cells[6]);
    pvsz_point peak = pvsz_diode_mpp(&villalva);

    NEAR(pvsz_diode_current(&blue, 0.3), 0.101712217, 1e-8);
    NEAR(pvsz_diode_current(&blue, 0.4), 0.098224877, 1e-8);
    NEAR(pvsz_diode_current(&grey, 0.3), 0.537836110, 1e-8);
    NEAR(pvsz_diode_current(&grey, 0.4), 0.465095443, 1e-8);
    NEAR(peak.voltage * peak.current, 200.143, 5e-5);
}
END_TEST

/* measured curves: Easwarakhanthan and others (1986), open test data */

static const double cell_points[][2] = {
    {-0.2057, 0.7640}, {-0.1291, 0.7620}, {-0.0588, 0.7605}, {0.0057, 0.7605},  {0.0646, 0.7600},
    {0.1185, 0.7590},  {0.1678, 0.7570},  {0.2132, 0.7570},  {0.2545, 0.7555},  {0.2924, 0.7540},
    {0.3269, 0.7505},  {0.3585, 0.7465},  {0.3873, 0.7385},  {0.4137, 0.7280},  {0.4373, 0.7065},
    {0.4590, 0.6755},  {0.4784, 0.6320},  {0.4960, 0.5730},  {0.5119, 0.4990},  {0.5265, 0.4130},
    {0.5398, 0.3165},  {0.5521, 0.2120},  {0.5633, 0.1035},  {0.5736, -0.0100}, {0.5833, -0.1230},
    {0.5900, -0.2100}};

static const double module_points[][2] = {
    {0.1248, 1.0315},  {1.8093, 1.0300},   {3.3511, 1.0260},   {4.7622, 1.0220},
    {6.0538, 1.0180},  {7.2364, 1.0155},   {8.3189, 1.0140},   {9.3097, 1.0100},
    {10.2163, 1.0035}, {11.0449, 0.9880},  {11.8018, 0.9630},  {12.4929, 0.9255},
    {13.1231, 0.8725}, {13.6983, 0.8075},  {14.2221, 0.7265},  {14.6995, 0.6345},
    {15.1346, 0.5345}, {15.5311, 0.4275},  {15.8929, 0.3185},  {16.2229, 0.2085},
    {16.5241, 0.1010}, {16.7987, -0.0080}, {17.0499, -0.1110}, {17.2793, -0.2090},
    {17.4885, -0.3030}};

static double deviation(const pvsz_diode *d, const double (*points)[2], size_t n)
{
    double sum = 0;

    for (size_t i = 0; i < n; i++) {
        double e = pvsz_diode_current(d, points[i][0]) - points[i][1];

        sum += e * e;
    }
    return sqrt(sum / (double)n);
}

START_TEST(measured_curves_are_met)
{
    /* exact-current fit of the cell, published to five digits: 0.76079 A, 0.31073 uA,
     * 0.03655 ohm, 52.89134 ohm, 1.47728; its deviation 7.7301e-4 A was computed anew */
    pvsz_diode cell = {0.76078797, 0.31068464e-6, 1.4772678 * OLD_BOLTZMANN * 306.15, 0.03654694,
                       1 / 52.889788};
    pvsz_diode printed = {0.76079, 0.31073e-6, 1.47728 * OLD_BOLTZMANN * 306.15, 0.03655,
                          1 / 52.89134};
    pvsz_diode module = diode_of(&published_cells[2]);

    NEAR(deviation(&cell, cell_points, 26), 7.7300627e-4, 1e-7);
    NEAR(deviation(&printed, cell_points, 26), 7.73e-4, 1e-7);
    /* the implicit residual of its published fit is 2.425e-3 A: the true one is near */
    ck_assert_double_lt(deviation(&module, module_points, 25), 2.5e-3);
}
END_TEST

/* any sane diode, against bisection in long double */

typedef struct oracle {
    long double light, saturation, a, series, shunt;
} oracle;

static long double oracle_current(const oracle *o, long double u)
{
    return o->light - o->saturation * expm1l(u) - o->shunt * o->a * u;
}

static long double oracle_slope(const oracle *o, long double u)
{
    long double current = oracle_current(o, u), voltage = o->a * u - o->series * current;
    long double g = o->saturation * expl(u) / o->a + o->shunt;

    return voltage < 0 ? 1 : current - voltage * g / (1 + o->series * g);
}

/* u where the voltage is at least this */
static long double oracle_at_voltage(const oracle *o, long double voltage)
{
    long double low = -1e6L, high = 2000;

    for (int i = 0; i < 120; i++) {
        long double u = (low + high) / 2;

        if (o->a * u - o->series * oracle_current(o, u) < voltage)
            low = u;
        else
            high = u;
    }
    return low;
}

static long double oracle_at_current(const oracle *o, long double current)
{
    long double low = 0, high = 2000;

    for (int i = 0; i < 120; i++) {
        long double u = (low + high) / 2;

        if (oracle_current(o, u) > current)
            low = u;
        else
            high = u;
    }
    return low;
}

static long double oracle_peak(const oracle *o)
{
    long double low = 0, high = 2000;

    for (int i = 0; i < 120; i++) {
        long double u = (low + high) / 2;

        if (oracle_slope(o, u) > 0)
            low = u;
        else
            high = u;
    }
    return low;
}

static double power_of_ten(double low, double high)
{
    return pow(10, random_between(low, high));
}

static pvsz_diode any_module(void)
{
    double light = power_of_ten(-4, 1.3);

    return (pvsz_diode){light, power_of_ten(-14, -5), random_between(0.3, 4),
                        random_between(0, 1) < 0.05 ? 0 : random_between(0, 1),
                        random_between(0, 1) < 0.05 ? 0 : light / power_of_ten(1.3, 4)};
}

static pvsz_diode any_diode(void)
{
    return (pvsz_diode){power_of_ten(-6, 2), power_of_ten(-20, -2), power_of_ten(-2, 2),
                        random_between(0, 1) < 0.1 ? 0 : power_of_ten(-5, 1),
                        random_between(0, 1) < 0.1 ? 0 : power_of_ten(-9, 0)};
}

static void check_diode(const pvsz_diode *d, double *worst)
{
    oracle o = {d->light, d->saturation, d->ideality, d->series, d->shunt};
    pvsz_point peak = pvsz_diode_mpp(d);
    long double u = oracle_peak(&o), current = oracle_current(&o, u);
    long double voltage = o.a * u - o.series * current;
    double voc = pvsz_diode_voltage(d, 0), v = voc * random_between(-0.3, 1.1), i;
    double c = d->light * random_between(-0.5, 1);

    *worst = fmax(*worst, fabs((double)(peak.voltage / voltage - 1)));
    *worst = fmax(*worst, fabs((double)(peak.current / current - 1)));
    i = pvsz_diode_current(d, v);
    current = oracle_current(&o, oracle_at_voltage(&o, v));
    *worst = fmax(*worst, (double)(fabsl(i - current) / fmaxl(fabsl(current), 1e-5L * o.light)));
    v = pvsz_diode_voltage(d, c);
    u = oracle_at_current(&o, c);
    voltage = o.a * u - o.series * (long double)c;
    *worst = fmax(*worst, (double)(fabsl(v - voltage) / fmaxl(fabsl(voltage), 1e-5L * voc)));
    ck_assert_msg(*worst < 1e-9, "light %g saturation %g a %g series %g shunt %g: %g", d->light,
                  d->saturation, d->ideality, d->series, d->shunt, *worst);
}

START_TEST(any_diode_is_solved)
{
    double worst = 0;

    if (!digits_to_spare())
        return;
    for (int i = 0; i < 20000; i++) {
        pvsz_diode d = i % 2 ? any_module() : any_diode();

        check_diode(&d, &worst);
    }
}
END_TEST

START_TEST(edges)
{
    pvsz_diode ideal = {8, 1e-10, 1.5, 0, 0}, dark = {0, 1e-10, 1.5, 0.3, 0.01};
    pvsz_point none = pvsz_diode_mpp(&dark);
    double worst = 0;

    check_diode(&ideal, &worst);
    ck_assert(pvsz_diode_current(&ideal, 0) == 8);
    /* no shunt: no voltage drives more than light + saturation */
    ck_assert(isinf(pvsz_diode_voltage(&ideal, 9)) && pvsz_diode_voltage(&ideal, 9) < 0);
    ck_assert(none.voltage == 0 && none.current == 0);
    ck_assert(pvsz_diode_voltage(&dark, 0) == 0);
    ck_assert(pvsz_diode_current(&dark, 0) == 0);
    ck_assert_double_lt(pvsz_diode_current(&dark, 40), 0);
    /* far out nothing overflows */
    ck_assert(isfinite(pvsz_diode_current(&ideal, 3000)));
    ck_assert(isfinite(pvsz_diode_current(&dark, 3000)));
    ck_assert(isfinite(pvsz_diode_voltage(&dark, -1e4)));
    ck_assert(isfinite(pvsz_diode_voltage(&dark, 1e4)));
}
END_TEST

/* Diodes as no module has them. Current that is all of what saturates the diode backwards has a
 * voltage as far as its digits tell. Where steps to the maximum power leave their bracket they
 * come back; where they do not settle at all the point stays among those of the curve. */
START_TEST(where_steps_do_not_settle)
{
    pvsz_diode leaky = {0, 1, 1, 0, 1e-30};
    pvsz_diode left = {208.7130481297043, 7.0941616806205893e-59, 110.24595087814676,
                       45.322181718261632, 0.0088283180577510157};
    pvsz_diode steep = {7.2676531142951381e-07, 7.6397656042807636e-290, 0.36558980795744928,
                        0.029657722464603242, 0};
    pvsz_diode faint = {7.8052074325154787e-112, 6.1213913969549486e-180, 0.61675721898283564, 0,
                        3.7387981252182144e-07};
    pvsz_diode tiny = {4.3386626291160261e-206, 1.1494557465128869e-174, 1201.6179022510166,
                       1.1094511109913938, 0};
    oracle o = {left.light, left.saturation, left.ideality, left.series, left.shunt};
    long double u = oracle_peak(&o), current = oracle_current(&o, u);
    double v = pvsz_diode_voltage(&leaky, 1);
    pvsz_point peak;

    ck_assert(v < -36 && pvsz_diode_current(&leaky, v) == 1);
    peak = pvsz_diode_mpp(&left);
    NEAR(peak.current, (double)current, 1e-9);
    NEAR(peak.voltage, (double)(o.a * u - o.series * current), 1e-9);
    peak = pvsz_diode_mpp(&steep);
    ck_assert(peak.voltage > 0 && peak.voltage <= pvsz_diode_voltage(&steep, 0));
    ck_assert(peak.current > 0 && peak.current <= steep.light);
    peak = pvsz_diode_mpp(&tiny);
    ck_assert(peak.voltage >= 0 && peak.voltage <= pvsz_diode_voltage(&tiny, 0));
    ck_assert(peak.current >= 0 && peak.current <= tiny.light);
    v = pvsz_diode_throttled(&faint, 6.4559104037084174e-107, 1.2256841187504009e-230);
    ck_assert(v >= 6.4559104037084174e-107 && v < 1e-60); /* all of that curve is as good as 0 */
}
END_TEST

START_TEST(bypass_diodes_hold_the_voltage)
{
    pvsz_diode d = {8, 1e-10, 1.5, 0.3, 0.005};
    pvsz_bypass bypass = {3, 0.5};

    ck_assert(pvsz_bypassed_voltage(&d, &bypass, 7) == pvsz_diode_voltage(&d, 7));
    ck_assert_double_lt(pvsz_diode_voltage(&d, 9), -100);
    ck_assert(pvsz_bypassed_voltage(&d, &bypass, 9) == -1.5);
}
END_TEST

/* slopes against differences, which far from the bend are little more than rounding */
START_TEST(slopes_are_derivatives)
{
    for (int i = 0; i < 1000; i++) {
        pvsz_diode d = any_module();
        double v = pvsz_diode_voltage(&d, 0) * random_between(0.85, 1), h = 1e-5 * v;
        pvsz_slope low = pvsz_diode_slope(&d, v - h), high = pvsz_diode_slope(&d, v + h);
        pvsz_slope at = pvsz_diode_slope(&d, v);

        NEAR((high.current - low.current) / (2 * h) / at.first, 1, 1e-4);
        ck_assert_double_le(fabs((high.first - low.first) / (2 * h) - at.second),
                            1e-2 * fabs(at.second) + 4 * DBL_EPSILON * fabs(at.first) / h);
    }
}
END_TEST

START_TEST(samples_lie_on_the_curve)
{
    pvsz_diode d = {8, 1e-10, 1.5, 0.3, 0.005};
    double voltage[50], current[50];

    pvsz_diode_sample(&d, 2, voltage, current); /* the ends alone */
    ck_assert(voltage[0] == 0 && current[1] == 0);
    NEAR(current[0], pvsz_diode_current(&d, 0), 1e-14);
    NEAR(voltage[1], pvsz_diode_voltage(&d, 0), 1e-14);
    pvsz_diode_sample(&d, 50, voltage, current);
    ck_assert(voltage[0] == 0 && current[49] == 0);
    NEAR(current[0], pvsz_diode_current(&d, 0), 1e-14);
    NEAR(voltage[49], pvsz_diode_voltage(&d, 0), 1e-14);
    for (int i = 1; i < 49; i++) {
        ck_assert(voltage[i] > voltage[i - 1] && current[i] < current[i - 1]);
        NEAR(current[i], pvsz_diode_current(&d, voltage[i]), 1e-12);
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "elementary", elementary_functions_are_within_two_ulp);
    add_test(suite, "published", published_cells_have_their_points);
    add_test(suite, "more points", published_cells_have_more_points);
    add_test(suite, "measured", measured_curves_are_met);
    add_test(suite, "any diode", any_diode_is_solved);
    add_test(suite, "edges", edges);
    add_test(suite, "unsettled", where_steps_do_not_settle);
    add_test(suite, "bypass", bypass_diodes_hold_the_voltage);
    add_test(suite, "slopes", slopes_are_derivatives);
    add_test(suite, "samples", samples_lie_on_the_curve);
}

int main(void)
{
    return run_cases("diode", add);
}
