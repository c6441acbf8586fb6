/* Conductors from inside: tables against a second form of themselves, published
 * worked examples, and the smallest size against brute force. Links the static
 * library. */
#include "../../lib/base/base.h"
#include "../../lib/wiring/conductor.h"
#include "../support/pv_test.h"

enum { BUNCHED = PVSZ_GROUPING_BUNCHED, LAYER = PVSZ_GROUPING_SINGLE_LAYER };

static double resistance(int32_t conductor, const char *size, double temp)
{
    double ohm = NAN;

    ck_assert(pvsz_resistance(conductor, pvsz_size_named(conductor, size), temp, &ohm));
    return ohm;
}

static double capacity(int32_t laying, int32_t conductor, const char *size)
{
    double amps = NAN;

    ck_assert(pvsz_capacity(laying, conductor, pvsz_size_named(conductor, size), &amps));
    return amps;
}

static double by_column(int32_t column, const char *size)
{
    return capacity(column, PVSZ_CONDUCTOR_AWG, size);
}

static double ambient(int32_t table, double temp)
{
    double factor = NAN;

    ck_assert(pvsz_ambient_factor(table, temp, &factor));
    return factor;
}

static double grouping(int32_t table, int32_t count)
{
    double factor = NAN;

    ck_assert(pvsz_grouping_factor(table, count, &factor));
    return factor;
}

static double roof(int32_t edition, double height)
{
    double kelvin = NAN;

    ck_assert(pvsz_roof_adder(edition, height, &kelvin));
    return kelvin;
}

static double uniform(double low, double high)
{
    return low + (high - low) * (rand() / (double)RAND_MAX);
}

/* ---- sizes and resistance ---- */

START_TEST(sizes_are_listed_in_order_and_found)
{
    for (int32_t kind = 0; kind < PVSZ_CONDUCTORS; kind++) {
        int32_t count = pvsz_size_count(kind);

        ck_assert_int_ge(count, 11);
        for (int32_t i = 0; i < count; i++) {
            ck_assert_int_eq(pvsz_size_named(kind, pvsz_size_name(kind, i)), i);
            ck_assert_int_eq(pvsz_size_of_section(kind, pvsz_size_section(kind, i)), i);
            if (i > 0)
                ck_assert(pvsz_size_section(kind, i) > pvsz_size_section(kind, i - 1));
        }
        ck_assert_ptr_null(pvsz_size_name(kind, count));
        ck_assert_ptr_null(pvsz_size_name(kind, -1));
        ck_assert(pvsz_size_section(kind, count) == 0);
    }
    ck_assert_str_eq(pvsz_size_name(PVSZ_CONDUCTOR_CLASS5, 3), "4 mm2");
    ck_assert_str_eq(pvsz_size_name(PVSZ_CONDUCTOR_ALUMINIUM, 0), "10 mm2");
    ck_assert_str_eq(pvsz_size_name(PVSZ_CONDUCTOR_AWG, 10), "2/0 AWG");
    ck_assert_int_eq(pvsz_size_of_section(PVSZ_CONDUCTOR_CLASS2, 3), -1);
    ck_assert_int_eq(pvsz_size_named(PVSZ_CONDUCTOR_AWG, "4 mm2"), -1);
    ck_assert_int_eq(pvsz_size_named(PVSZ_CONDUCTOR_AWG, NULL), -1);
    ck_assert_int_eq(pvsz_size_count(-1), 0);
    ck_assert_int_eq(pvsz_size_count(PVSZ_CONDUCTORS), 0);
}
END_TEST

/* Metric sections of every kind carry "N mm2" as name. */
START_TEST(names_say_the_section)
{
    char want[32];

    for (int32_t kind = 0; kind < PVSZ_CONDUCTOR_AWG; kind++)
        for (int32_t i = 0; i < pvsz_size_count(kind); i++) {
            snprintf(want, sizeof want, "%g mm2", pvsz_size_section(kind, i));
            ck_assert_str_eq(pvsz_size_name(kind, i), want);
        }
}
END_TEST

/* Second form: resistivity over section. Copper 1/58 and aluminium 0.028264
 * ohm mm2/m; the limits of IEC 60228 lie above by what stranding, tinning and
 * tolerance take. */
START_TEST(resistance_follows_the_resistivity)
{
    for (int32_t kind = 0; kind < PVSZ_CONDUCTOR_AWG; kind++) {
        double rho = kind == PVSZ_CONDUCTOR_ALUMINIUM ? 28.264 : 1000.0 / 58;
        double most = kind >= PVSZ_CONDUCTOR_CLASS5 ? 1.20 : 1.14, before = HUGE_VAL;

        for (int32_t i = 0; i < pvsz_size_count(kind); i++) {
            double ohm = NAN, ratio;

            ck_assert(pvsz_resistance(kind, i, 20, &ohm));
            ratio = ohm * pvsz_size_section(kind, i) / rho;
            ck_assert_msg(ratio > 1 && ratio < most, "%d, %s: %g", (int)kind,
                          pvsz_size_name(kind, i), ratio);
            ck_assert(ohm < before);
            before = ohm;
        }
    }
}
END_TEST

/* IEC 60228: tinned above plain, flexible above stranded, but for the known step
 * at 50 mm2. */
START_TEST(kinds_of_copper_stand_in_order)
{
    for (int32_t i = 0; i < pvsz_size_count(PVSZ_CONDUCTOR_CLASS2); i++) {
        double ohm[4];

        for (int32_t kind = 0; kind < 4; kind++)
            ck_assert(pvsz_resistance(kind, i, 20, &ohm[kind]));
        ck_assert(ohm[PVSZ_CONDUCTOR_CLASS2] < ohm[PVSZ_CONDUCTOR_CLASS2_COATED]);
        ck_assert(ohm[PVSZ_CONDUCTOR_CLASS5] < ohm[PVSZ_CONDUCTOR_CLASS5_TINNED]);
        if (pvsz_size_section(PVSZ_CONDUCTOR_CLASS2, i) == 50)
            ck_assert(ohm[PVSZ_CONDUCTOR_CLASS5] < ohm[PVSZ_CONDUCTOR_CLASS2]);
        else
            ck_assert(ohm[PVSZ_CONDUCTOR_CLASS5] > ohm[PVSZ_CONDUCTOR_CLASS2]);
    }
}
END_TEST

/* Second form: K / circular mils with K = 12.9 ohm cmil/ft at 75 degC (read in a
 * text on the circular-mil form); third: ohm/km as NFPA 70 prints it (from
 * memory); fourth: R of chapter 9 table 9, two digits (read). */
START_TEST(gauges_agree_with_circular_mils)
{
    static const double per_km[] = {10.3,  6.50,  4.070, 2.551, 1.608,  1.010, 0.802,
                                    0.634, 0.505, 0.399, 0.317, 0.2512, 0.1996};
    static const double table_9[] = {3.1,  2.0,  1.2,  0.78, 0.49,  0.31, 0.25,
                                     0.19, 0.15, 0.12, 0.10, 0.077, 0.062};

    for (int32_t i = 0; i < pvsz_size_count(PVSZ_CONDUCTOR_AWG); i++) {
        double ohm = NAN, mils = pvsz_size_section(PVSZ_CONDUCTOR_AWG, i);

        ck_assert(pvsz_resistance(PVSZ_CONDUCTOR_AWG, i, 75, &ohm));
        NEAR(ohm * 0.3048 * mils / 12900, 1, 0.006);
        NEAR(ohm / per_km[i], 1, 0.004);
        NEAR(ohm * 0.3048 / table_9[i], 1, 0.035);
    }
    ck_assert_int_eq(PVSZ_COUNT(per_km), pvsz_size_count(PVSZ_CONDUCTOR_AWG));
}
END_TEST

/* A gauge brought to 20 degC is copper of its section in mm2. */
START_TEST(gauges_agree_with_square_millimetres)
{
    for (int32_t i = 0; i < pvsz_size_count(PVSZ_CONDUCTOR_AWG); i++) {
        double mm2 = pvsz_size_section(PVSZ_CONDUCTOR_AWG, i) * 5.06707e-4, ohm = NAN;

        ck_assert(pvsz_resistance(PVSZ_CONDUCTOR_AWG, i, 20, &ohm));
        NEAR(ohm * mm2 * 58 / 1000, 1.02, 0.012);
    }
}
END_TEST

/* Second form of the copper law: (234.5 + T) / 254.5; third: the factors a cable
 * maker prints from 0.004/K, which are up to 0.4 % off (read). */
START_TEST(resistance_rises_with_temperature)
{
    static const double printed[][2] = {{10, 1.042}, {30, 0.962}, {60, 0.862}, {90, 0.781}};

    for (double temp = -40; temp <= 120; temp += 10) {
        double copper = resistance(PVSZ_CONDUCTOR_CLASS5_TINNED, "4 mm2", temp) / 5.09;
        double gauge = resistance(PVSZ_CONDUCTOR_AWG, "4 AWG", temp);

        NEAR(copper, (234.5 + temp) / 254.5, 2e-4);
        NEAR(gauge * 0.3048 / 0.308, (234.5 + temp) / 309.5, 2e-3);
        NEAR(resistance(PVSZ_CONDUCTOR_ALUMINIUM, "25 mm2", temp) / 1.20, 1 + 0.00403 * (temp - 20),
             1e-12);
    }
    for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++)
        NEAR(18.1 / resistance(PVSZ_CONDUCTOR_CLASS2, "1 mm2", printed[i][0]), printed[i][1], 4e-3);
}
END_TEST

START_TEST(what_no_table_has_is_not_known)
{
    double value = 7;

    ck_assert_int_eq(pvsz_resistance(PVSZ_CONDUCTOR_CLASS2, 0, NAN, &value), 0);
    ck_assert_int_eq(pvsz_resistance(PVSZ_CONDUCTOR_CLASS2, 0, 251, &value), 0);
    ck_assert_int_eq(pvsz_resistance(PVSZ_CONDUCTOR_CLASS2, 16, 20, &value), 0);
    ck_assert_int_eq(pvsz_resistance(PVSZ_CONDUCTORS, 0, 20, &value), 0);
    ck_assert_int_eq(pvsz_reactance(PVSZ_CONDUCTOR_CLASS2, 15, &value), 0);
    ck_assert_int_eq(pvsz_reactance(PVSZ_CONDUCTOR_AWG, 13, &value), 0);
    ck_assert_int_eq(pvsz_capacity(PVSZ_LAYING_IEC_C_PVC, PVSZ_CONDUCTOR_CLASS2, 9, &value), 0);
    ck_assert_int_eq(pvsz_capacity(PVSZ_LAYING_IEC_C_PVC, PVSZ_CONDUCTOR_ALUMINIUM, 0, &value), 0);
    ck_assert_int_eq(pvsz_capacity(PVSZ_LAYING_EN_AIR, PVSZ_CONDUCTOR_CLASS5, 3, &value), 0);
    ck_assert_int_eq(pvsz_capacity(PVSZ_LAYING_NFPA_75, PVSZ_CONDUCTOR_CLASS2, 3, &value), 0);
    ck_assert_int_eq(pvsz_capacity(PVSZ_LAYINGS, PVSZ_CONDUCTOR_CLASS2, 3, &value), 0);
    ck_assert_int_eq(pvsz_capacity(-1, PVSZ_CONDUCTOR_CLASS2, 3, &value), 0);
    ck_assert_int_eq(pvsz_capacity(0, -1, 3, &value), 0);
    ck_assert_int_eq(pvsz_ambient_factor(PVSZ_AMBIENT_IEC_90, 80.1, &value), 0);
    ck_assert_int_eq(pvsz_ambient_factor(PVSZ_AMBIENT_IEC_90, NAN, &value), 0);
    ck_assert_int_eq(pvsz_ambient_factor(PVSZ_AMBIENT_NONE, 20, &value), 0);
    ck_assert_int_eq(pvsz_ambient_factor(PVSZ_AMBIENTS, 20, &value), 0);
    ck_assert_int_eq(pvsz_grouping_factor(BUNCHED, 21, &value), 0);
    ck_assert_int_eq(pvsz_grouping_factor(LAYER, 10, &value), 0);
    ck_assert_int_eq(pvsz_grouping_factor(LAYER, 0, &value), 0);
    ck_assert_int_eq(pvsz_grouping_factor(-1, 1, &value), 0);
    ck_assert_int_eq(pvsz_roof_adder(2005, 10, &value), 0);
    ck_assert_int_eq(pvsz_roof_adder(2026, 10, &value), 0);
    ck_assert_int_eq(pvsz_roof_adder(2020, -1, &value), 0);
    ck_assert_int_eq(pvsz_roof_adder(2020, NAN, &value), 0);
    ck_assert_int_eq(pvsz_grouping_factor(PVSZ_GROUPINGS, 1, &value), 0);
    ck_assert_int_eq(pvsz_capacity(0, PVSZ_CONDUCTORS, 0, &value), 0);
    ck_assert_ptr_null(pvsz_grouping_source(-1));
    ck_assert(value == 7);
}
END_TEST

START_TEST(the_ends_of_the_ranges_are_known)
{
    double value;

    NEAR(resistance(PVSZ_CONDUCTOR_CLASS2, "1 mm2", -60), 18.1 * (1 - 0.00393 * 80), 1e-12);
    NEAR(resistance(PVSZ_CONDUCTOR_CLASS2, "1 mm2", 250), 18.1 * (1 + 0.00393 * 230), 1e-12);
    ck_assert_int_eq(pvsz_reactance(PVSZ_CONDUCTOR_AWG, 0, &value), PVSIZE_KNOWN_READ);
    NEAR(value * 0.3048, 0.058, 1e-12);
    ck_assert_int_eq(pvsz_reactance(PVSZ_CONDUCTOR_AWG, 12, &value), PVSIZE_KNOWN_READ);
    NEAR(value * 0.3048, 0.041, 1e-12);
    ck_assert(grouping(BUNCHED, 1) == 1 && grouping(LAYER, 9) == 0.70);
    ck_assert_ptr_nonnull(pvsz_grouping_source(BUNCHED));
}
END_TEST

/* ---- capacity ---- */

/* Every row is reached, rises with the section, and is smooth: the slope of
 * log A over log section lies where those of such tables do. */
START_TEST(capacities_rise_smoothly)
{
    static const int32_t rows[PVSZ_LAYINGS] = {11, 8, 5, 9, 9, 11, 8, 15, 15, 15, 13, 13, 13};

    for (int32_t laying = 0; laying < PVSZ_LAYINGS; laying++) {
        bool gauge = laying >= PVSZ_LAYING_NFPA_60;
        int32_t kind = gauge ? PVSZ_CONDUCTOR_AWG : PVSZ_CONDUCTOR_CLASS5_TINNED, found = 0;
        double amps, before = 0, section = 0;

        for (int32_t i = 0; i < pvsz_size_count(kind); i++) {
            double slope;

            if (!pvsz_capacity(laying, kind, i, &amps))
                continue;
            slope = log(amps / before) / log(pvsz_size_section(kind, i) / section);
            ck_assert_msg(found == 0 || (slope > 0.35 && slope < 0.9), "%d, %s: %g", (int)laying,
                          pvsz_size_name(kind, i), slope);
            before = amps;
            section = pvsz_size_section(kind, i);
            found++;
        }
        ck_assert_int_eq(found, rows[laying]);
        ck_assert_ptr_nonnull(pvsz_laying_text(laying));
        ck_assert_ptr_nonnull(pvsz_laying_source(laying));
        ck_assert(pvsz_laying_temp(laying) >= 60);
    }
    ck_assert_ptr_null(pvsz_laying_text(PVSZ_LAYINGS));
    ck_assert_ptr_null(pvsz_laying_source(-1));
    ck_assert(pvsz_laying_temp(PVSZ_LAYINGS) == 0);
    ck_assert_int_eq(pvsz_laying_ambient(-1), PVSZ_AMBIENT_NONE);
}
END_TEST

/* Better cooling and hotter insulation carry more. */
START_TEST(layings_stand_in_order)
{
    static const int32_t order[][2] = {{PVSZ_LAYING_IEC_B2_PVC, PVSZ_LAYING_IEC_C_PVC},
                                       {PVSZ_LAYING_IEC_C_PVC, PVSZ_LAYING_IEC_F_PVC},
                                       {PVSZ_LAYING_IEC_F_PVC, PVSZ_LAYING_IEC_G_PVC},
                                       {PVSZ_LAYING_IEC_F_PVC, PVSZ_LAYING_IEC_F_XLPE},
                                       {PVSZ_LAYING_EN_TOUCHING, PVSZ_LAYING_EN_SURFACE},
                                       {PVSZ_LAYING_EN_SURFACE, PVSZ_LAYING_EN_AIR},
                                       {PVSZ_LAYING_NFPA_60, PVSZ_LAYING_NFPA_75},
                                       {PVSZ_LAYING_NFPA_75, PVSZ_LAYING_NFPA_90}};

    for (size_t k = 0; k < sizeof order / sizeof order[0]; k++)
        for (int32_t i = 0; i < 16; i++) {
            double low, high;
            int32_t kind = order[k][0] >= PVSZ_LAYING_NFPA_60 ? PVSZ_CONDUCTOR_AWG
                                                              : PVSZ_CONDUCTOR_CLASS5_TINNED;

            if (pvsz_capacity(order[k][0], kind, i, &low) &&
                pvsz_capacity(order[k][1], kind, i, &high))
                ck_assert_msg(low < high, "%d, %s", (int)k, pvsz_size_name(kind, i));
        }
}
END_TEST

/* Two sources of XLPE in air, which agree but at 25 mm2 (138 against 135 A). */
START_TEST(two_sources_of_xlpe_in_air_agree)
{
    static const char *const sizes[] = {"35 mm2", "50 mm2", "70 mm2", "95 mm2"};
    int32_t kind = PVSZ_CONDUCTOR_CLASS2;

    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        ck_assert(capacity(PVSZ_LAYING_IEC_F_XLPE, kind, sizes[i]) ==
                  capacity(PVSZ_LAYING_FR_AIR_XLPE, kind, sizes[i]));
    ck_assert(capacity(PVSZ_LAYING_FR_AIR_XLPE, kind, "25 mm2") == 138);
    ck_assert(capacity(PVSZ_LAYING_IEC_F_XLPE, kind, "25 mm2") == 135);
}
END_TEST

/* Second form of EN 50618 table A.3: on a surface 0.95 of in the open, two
 * touching 0.85 of that, the factor of two circuits in a single layer. */
START_TEST(pv_cable_layings_keep_their_ratios)
{
    int32_t kind = PVSZ_CONDUCTOR_CLASS5_TINNED;

    for (int32_t i = 1; i < pvsz_size_count(kind); i++) {
        const char *size = pvsz_size_name(kind, i);
        double open = capacity(PVSZ_LAYING_EN_AIR, kind, size);
        double surface = capacity(PVSZ_LAYING_EN_SURFACE, kind, size);
        double touching = capacity(PVSZ_LAYING_EN_TOUCHING, kind, size);

        NEAR(surface, 0.95 * open, 0.5 / surface + 0.006);
        NEAR(touching, grouping(LAYER, 2) * surface, 0.5 / touching + 0.012);
    }
}
END_TEST

/* NFPA 70 table 310.16: older copies have 20, 25, 110 and 150 A in these cells. */
START_TEST(four_cells_are_those_from_2011_on)
{
    ck_assert(by_column(PVSZ_LAYING_NFPA_60, "14 AWG") == 15);
    ck_assert(by_column(PVSZ_LAYING_NFPA_60, "12 AWG") == 20);
    ck_assert(by_column(PVSZ_LAYING_NFPA_90, "3 AWG") == 115);
    ck_assert(by_column(PVSZ_LAYING_NFPA_90, "1 AWG") == 145);
    ck_assert(by_column(PVSZ_LAYING_NFPA_75, "14 AWG") == 20);
    ck_assert(by_column(PVSZ_LAYING_NFPA_75, "3 AWG") == 100);
    ck_assert(by_column(PVSZ_LAYING_NFPA_90, "4/0 AWG") == 260);
}
END_TEST

/* ---- ambient ---- */

static const struct {
    int32_t table;
    double temp, base, coldest, hottest, step, off;
} laws[] = {
    {PVSZ_AMBIENT_IEC_70, 70, 30, 10, 60, 5, 0.01},
    {PVSZ_AMBIENT_IEC_90, 90, 30, 10, 80, 5, 0.01},
    {PVSZ_AMBIENT_ASNZS_75, 75, 40, 30, 65, 5, 0.01},
    {PVSZ_AMBIENT_ASNZS_90, 90, 40, 30, 80, 5, 0.01},
    {PVSZ_AMBIENT_ASNZS_110, 110, 40, 30, 80, 5, 0.01},
    {PVSZ_AMBIENT_PFG_120, 120, 60, 60, 90, 10, 0.01},
    {PVSZ_AMBIENT_EN_120, 120, 60, 60, 90, 10, 0.045},
    {PVSZ_AMBIENT_NFPA_60, 60, 30, 10, 55, 5, 0.01},
    {PVSZ_AMBIENT_NFPA_75, 75, 30, 10, 70, 5, 0.01},
    {PVSZ_AMBIENT_NFPA_90, 90, 30, 10, 85, 5, 0.01},
};

/* Second form: heat given off goes with the temperature difference. The set of
 * EN 50618 (from memory) does not follow it and lies above by up to 0.043. */
START_TEST(ambient_factors_follow_the_square_root)
{
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        for (double t = laws[i].coldest; t <= laws[i].hottest; t += laws[i].step) {
            double factor = ambient(laws[i].table, t), law, hotter = t;

            /* IEC has rows of 10 K below 40 degC */
            if (laws[i].table <= PVSZ_AMBIENT_IEC_90 && t < 40 && fmod(t, 10) != 0)
                hotter = t + 5;
            law = sqrt((laws[i].temp - hotter) / (laws[i].temp - laws[i].base));
            ck_assert_msg(fabs(factor - law) <= laws[i].off, "table %d at %g: %g, law %g",
                          (int)laws[i].table, t, factor, law);
        }
        ck_assert(ambient(laws[i].table, laws[i].base) == 1);
        ck_assert(pvsz_ambient_base(laws[i].table) == laws[i].base);
        ck_assert_ptr_nonnull(pvsz_ambient_source(laws[i].table));
    }
    ck_assert(pvsz_ambient_base(PVSZ_AMBIENT_NONE) == 0);
    ck_assert_ptr_null(pvsz_ambient_source(PVSZ_AMBIENTS));
}
END_TEST

/* Just above a row takes the next; never rises; rounding does not change the row. */
START_TEST(ambients_between_rows_take_the_hotter)
{
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        double before = HUGE_VAL;

        for (double t = -20; t <= laws[i].hottest; t += 0.25) {
            double factor = ambient(laws[i].table, t);

            ck_assert(factor <= before);
            ck_assert(factor >= ambient(laws[i].table, laws[i].hottest));
            before = factor;
        }
        ck_assert(ambient(laws[i].table, -20) == ambient(laws[i].table, laws[i].coldest));
    }
    ck_assert(ambient(PVSZ_AMBIENT_IEC_70, 40.1) == 0.79);
    ck_assert(ambient(PVSZ_AMBIENT_IEC_90, 30.5) == 0.91);
    ck_assert(ambient(PVSZ_AMBIENT_ASNZS_90, 41) == 0.95);
    ck_assert(ambient(PVSZ_AMBIENT_EN_120, 61) == 0.92);
    ck_assert(ambient(PVSZ_AMBIENT_NFPA_75, 30.4) == 0.94);
    ck_assert(ambient(PVSZ_AMBIENT_NFPA_90, 40) == 0.91);
    ck_assert(ambient(PVSZ_AMBIENT_NFPA_90, 40 + 1e-9) == 0.91);
}
END_TEST

START_TEST(a_dash_allows_no_current)
{
    ck_assert(ambient(PVSZ_AMBIENT_IEC_70, 61) == 0);
    ck_assert(ambient(PVSZ_AMBIENT_ASNZS_75, 70) == 0);
    ck_assert(ambient(PVSZ_AMBIENT_NFPA_60, 56) == 0);
    ck_assert(ambient(PVSZ_AMBIENT_NFPA_75, 71) == 0);
}
END_TEST

/* Another base is another scale: IEC from 40 degC on over IEC at 40 degC is
 * AS/NZS. The 45 degC base table (90 degC conductor) was read in a cable maker's
 * tables; the generic 40 degC one in an engineering text. */
START_TEST(base_ambients_convert_into_one_another)
{
    static const double from_45[][2] = {{35, 1.10}, {40, 1.05}, {45, 1.00}, {50, 0.94}, {55, 0.88},
                                        {60, 0.82}, {65, 0.74}, {70, 0.67}, {75, 0.58}, {80, 0.47}};

    for (double t = 40; t <= 80; t += 5)
        NEAR(ambient(PVSZ_AMBIENT_IEC_90, t) / ambient(PVSZ_AMBIENT_IEC_90, 40),
             ambient(PVSZ_AMBIENT_ASNZS_90, t), 0.012);
    for (size_t i = 0; i < sizeof from_45 / sizeof from_45[0]; i++)
        NEAR(ambient(PVSZ_AMBIENT_ASNZS_90, from_45[i][0]) / ambient(PVSZ_AMBIENT_ASNZS_90, 45),
             from_45[i][1], 0.012);
    NEAR(ambient(PVSZ_AMBIENT_ASNZS_90, 30), 1.10, 1e-12);
    NEAR(ambient(PVSZ_AMBIENT_ASNZS_90, 50), 0.90, 0.011);
    for (double t = 10; t <= 80; t += 10)
        NEAR(ambient(PVSZ_AMBIENT_NFPA_90, t), ambient(PVSZ_AMBIENT_IEC_90, t), 1e-12);
}
END_TEST

/* ---- grouping and roof ---- */

/* AS/NZS 3008 table 22 has the numbers of IEC table B.52.17 (from memory). */
START_TEST(grouping_factors_of_iec_serve_as_nzs)
{
    static const double as_nzs[] = {1.00, 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50};
    static const double layer[] = {1.00, 0.85, 0.79, 0.75, 0.73, 0.72, 0.72, 0.71, 0.70};

    for (int32_t n = 1; n <= 9; n++) {
        ck_assert(grouping(BUNCHED, n) == as_nzs[n - 1]);
        ck_assert(grouping(LAYER, n) == layer[n - 1]);
        ck_assert(grouping(LAYER, n) >= grouping(BUNCHED, n));
        /* bunched conductors share the surface of one: n^-0.31 or so */
        NEAR(grouping(BUNCHED, n), pow(n, -0.315), 0.02);
    }
    ck_assert(grouping(BUNCHED, 10) == 0.45);
    ck_assert(grouping(BUNCHED, 13) == 0.41);
    ck_assert(grouping(BUNCHED, 20) == 0.38);
    for (int32_t n = 2; n <= 20; n++)
        ck_assert(grouping(BUNCHED, n) < 1 && grouping(BUNCHED, n) <= grouping(BUNCHED, n - 1));
}
END_TEST

/* NFPA 70 310.15(C)(1), read. */
START_TEST(more_than_three_conductors)
{
    static const struct {
        int32_t count;
        double factor;
    } steps[] = {{1, 1},     {3, 1},     {4, 0.8},   {6, 0.8},   {7, 0.7},
                 {9, 0.7},   {10, 0.5},  {20, 0.5},  {21, 0.45}, {30, 0.45},
                 {31, 0.40}, {40, 0.40}, {41, 0.35}, {500, 0.35}};

    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        ck_assert(grouping(PVSZ_GROUPING_NFPA, steps[i].count) == steps[i].factor);
    ck_assert_ptr_nonnull(pvsz_grouping_source(PVSZ_GROUPING_NFPA));
    ck_assert_ptr_null(pvsz_grouping_source(PVSZ_GROUPINGS));
}
END_TEST

START_TEST(roofs_add_by_edition)
{
    double kelvin;

    ck_assert(roof(2008, 0) == 33 && roof(2014, 13) == 33);
    ck_assert(roof(2008, 14) == 22 && roof(2011, 90) == 22);
    ck_assert(roof(2011, 91) == 17 && roof(2011, 12 * 25.4) == 17);
    ck_assert(roof(2014, 305) == 14 && roof(2014, 36 * 25.4) == 14);
    ck_assert(roof(2014, 915) == 0);
    ck_assert(roof(2017, 22.9) == 33 && roof(2017, 23) == 0);
    ck_assert(roof(2020, 0) == 33 && roof(2023, 50) == 0);
    ck_assert_int_eq(pvsz_roof_adder(2014, 50, &kelvin), PVSIZE_KNOWN_MEMORY);
    ck_assert_int_eq(pvsz_roof_adder(2014, 100, &kelvin), PVSIZE_KNOWN_READ);
}
END_TEST

/* ---- in place ---- */

static double in_place(const pvsz_run_place *place, int32_t conductor, const char *size)
{
    double amps = NAN;

    ck_assert(pvsz_capacity_in_place(place, conductor, pvsz_size_named(conductor, size), &amps) !=
              0);
    return amps;
}

START_TEST(capacity_in_place_is_the_product)
{
    pvsz_run_place place = {PVSZ_LAYING_IEC_C_PVC, 41, BUNCHED, 3};
    double amps = 7;

    NEAR(in_place(&place, PVSZ_CONDUCTOR_CLASS2, "6 mm2"), 41 * 0.79 * 0.70, 1e-12);
    ck_assert_int_eq(pvsz_capacity_in_place(&place, PVSZ_CONDUCTOR_CLASS2, 4, &amps),
                     PVSIZE_KNOWN_MEMORY);
    place = (pvsz_run_place){PVSZ_LAYING_EN_SURFACE, 70, LAYER, 1};
    ck_assert_int_eq(pvsz_capacity_in_place(&place, PVSZ_CONDUCTOR_CLASS5_TINNED, 3, &amps),
                     PVSIZE_KNOWN_UNCERTAIN);
    NEAR(amps, 52 * 0.92, 1e-12);
    amps = 7;
    place.laying = PVSZ_LAYING_FR_AIR_XLPE; /* its base ambient is not known */
    ck_assert_int_eq(pvsz_capacity_in_place(&place, PVSZ_CONDUCTOR_CLASS2, 3, &amps), 0);
    place = (pvsz_run_place){PVSZ_LAYING_IEC_C_PVC, 90, BUNCHED, 3};
    ck_assert_int_eq(pvsz_capacity_in_place(&place, PVSZ_CONDUCTOR_CLASS2, 3, &amps), 0);
    place = (pvsz_run_place){PVSZ_LAYING_IEC_C_PVC, 30, BUNCHED, 30};
    ck_assert_int_eq(pvsz_capacity_in_place(&place, PVSZ_CONDUCTOR_CLASS2, 3, &amps), 0);
    ck_assert(amps == 7);
}
END_TEST

START_TEST(the_weaker_knowledge_counts)
{
    ck_assert_int_eq(pvsz_weaker(PVSIZE_KNOWN_READ, PVSIZE_KNOWN_MEMORY), PVSIZE_KNOWN_MEMORY);
    ck_assert_int_eq(pvsz_weaker(PVSIZE_KNOWN_UNCERTAIN, PVSIZE_KNOWN_READ),
                     PVSIZE_KNOWN_UNCERTAIN);
    ck_assert_int_eq(pvsz_weaker(0, PVSIZE_KNOWN_READ), 0);
    ck_assert_int_eq(pvsz_weaker(PVSIZE_KNOWN_READ, 0), 0);
}
END_TEST

/* Course lesson on PV currents, 2023 edition of NFPA 70: Isc 11.2 A, 10 AWG of
 * 90 degC at 45 degC; published 14.0, 17.5 and 34.8 A, and it holds. */
START_TEST(source_circuit_of_a_course_lesson)
{
    pvsz_run_place place = {PVSZ_LAYING_NFPA_90, 45, PVSZ_GROUPING_NFPA, 2};
    double current = 1.25 * 11.2, corrected = in_place(&place, PVSZ_CONDUCTOR_AWG, "10 AWG");

    NEAR(current, 14.0, 1e-12);
    NEAR(1.25 * current, 17.5, 1e-12);
    NEAR(corrected, 34.8, 1e-12);
    for (int32_t column = PVSZ_LAYING_NFPA_60; column <= PVSZ_LAYING_NFPA_90; column++)
        ck_assert_int_eq(pvsz_two_way(by_column(column, "10 AWG"), corrected, current),
                         PVSZ_BY_NOTHING);
}
END_TEST

/* A page on an edition before 2011, hence older: at 61 to 70 degC 10, 12 and 14
 * AWG of 90 degC carry 23.2, 17.4 and 14.5 A; of 10 AWG remain 11.6, 16.24 and
 * 18.56 A at 50, 70 and 80 %. It stacked 125 % on the corrections and refused
 * 11.6 A for 10.585 A; since 2011 the two tests stand apart, and it holds. */
START_TEST(hot_raceway_of_an_older_edition)
{
    static const struct {
        const char *size;
        int32_t count;
        double amps;
    } published[] = {{"10 AWG", 3, 23.2},  {"12 AWG", 3, 17.4},  {"14 AWG", 3, 14.5},
                     {"10 AWG", 20, 11.6}, {"10 AWG", 9, 16.24}, {"10 AWG", 6, 18.56}};
    double current = 10.585, corrected = 0;

    NEAR(1.25 * current, 13.23, 5e-4);
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        pvsz_run_place place = {PVSZ_LAYING_NFPA_90, 70, PVSZ_GROUPING_NFPA, published[i].count};

        NEAR(in_place(&place, PVSZ_CONDUCTOR_AWG, published[i].size), published[i].amps, 1e-12);
        if (published[i].count == 20)
            corrected = in_place(&place, PVSZ_CONDUCTOR_AWG, published[i].size);
    }
    ck_assert(!pvsz_at_most(1.25 * current, corrected)); /* the stacked test */
    ck_assert_int_eq(pvsz_two_way(by_column(PVSZ_LAYING_NFPA_75, "10 AWG"), corrected, current),
                     PVSZ_BY_NOTHING);
}
END_TEST

/* Trade newsletter on the 2008 edition, hence older: 75 degF and a raceway 6 in
 * above the roof give 105 degF, factor 0.87, and 87 of 100 A. From 2017 on the
 * roof adds nothing at that height: 1.04. */
START_TEST(rooftop_of_the_2008_edition)
{
    double temp = (75 - 32) / 1.8, height = 6 * 25.4;

    NEAR(temp + 30 / 1.8, 40.56, 2e-4);
    NEAR(100 * ambient(PVSZ_AMBIENT_NFPA_90, temp + 30 / 1.8), 87, 1e-12);
    NEAR(100 * ambient(PVSZ_AMBIENT_NFPA_90, temp + roof(2008, height)), 87, 1e-12);
    NEAR(100 * ambient(PVSZ_AMBIENT_NFPA_90, temp + roof(2017, height)), 104, 1e-12);
}
END_TEST

/* A page on NFPA 70 2003/2008, hence older: strings of 8.541 A together; it prints
 * 10.67 A, cut and not rounded from 10.676. Its 125 % is 13.35 A. */
START_TEST(parallel_pair_of_an_older_edition)
{
    double current = 1.25 * 8.541;

    NEAR(current, 10.67625, 1e-12);
    NEAR(floor(current * 100) / 100, 10.67, 1e-12);
    NEAR(1.25 * current, 13.3453, 1e-5);
    ck_assert_int_eq(pvsz_two_way(13.35, 20, current), PVSZ_BY_NOTHING);
    ck_assert_int_eq(pvsz_two_way(13.34, 20, current), PVSZ_BY_TERMINALS);
}
END_TEST

START_TEST(two_ways_are_apart)
{
    ck_assert_int_eq(pvsz_two_way(17.5, 14, 14), PVSZ_BY_NOTHING);
    ck_assert_int_eq(pvsz_two_way(17.4999, 14, 14), PVSZ_BY_TERMINALS);
    ck_assert_int_eq(pvsz_two_way(17.5, 13.9999, 14), PVSZ_BY_CAPACITY);
    ck_assert_int_eq(pvsz_two_way(10, 10, 14), PVSZ_BY_CAPACITY);
    ck_assert_int_eq(pvsz_two_way(NAN, 20, 14), PVSZ_BY_TERMINALS);
    /* 1.25 x 1.25 x 8.96 A is 14.000000000000002 A */
    ck_assert_int_eq(pvsz_two_way(14, 14, 1.25 * 8.96), PVSZ_BY_NOTHING);
}
END_TEST

/* ---- drop ---- */

static double drop(int32_t circuit, double length, double current, double ohm_per_km)
{
    pvsz_run run = {circuit, length, current, ohm_per_km, 0, 1};

    return pvsz_drop(&run);
}

/* A regulator's magazine (Australia): 3 kVA at 230 V is 13 A, and 2 % is 4.6 V.
 * AS/NZS 4777.1 clause 3.3.3. How far 4 mm2 at 75 degC reaches is worked here. */
START_TEST(rise_of_a_small_inverter)
{
    double current = 3000 / 230.0, ohm = resistance(PVSZ_CONDUCTOR_CLASS2, "4 mm2", 75);
    double reach = 4.6 / (2 * current * ohm) * 1000;

    NEAR(current, 13, 0.01);
    NEAR(pvsz_drop_percent(4.6, 230), 2, 1e-12);
    NEAR(pvsz_drop_percent(8, 400), 2, 1e-12);
    NEAR(drop(PVSZ_CIRCUIT_SINGLE_PHASE, reach, current, ohm), 4.6, 1e-12);
    NEAR(reach, 31.46, 1e-3);
}
END_TEST

/* Report on a French plant: 2.5 mm2 tinned class 5 has 0.01642 ohm/m out and back.
 * It prints 0.21, 0.059, 0.12, 0.11 V, and 0.109 and 0.17 V with a fuse's 0.05 V.
 * A slip: the first two are cut, not rounded (0.2184, 0.0599). */
START_TEST(segments_of_a_string_cable)
{
    double ohm = resistance(PVSZ_CONDUCTOR_CLASS5_TINNED, "2.5 mm2", 20);
    pvsz_run runs[] = {{PVSZ_CIRCUIT_DC, 7, 1.9, ohm, 0, 1},
                       {PVSZ_CIRCUIT_DC, 1.5, 2.43, ohm, 0, 1},
                       {PVSZ_CIRCUIT_DC, 3, 2.43, ohm, 0, 1},
                       {PVSZ_CIRCUIT_DC, 10, 0.67, ohm, 0, 1}};

    NEAR(2 * ohm / 1000, 0.01642, 1e-12);
    NEAR(pvsz_drop(&runs[0]), 0.218386, 1e-9);
    NEAR(floor(pvsz_drop(&runs[0]) * 100) / 100, 0.21, 1e-12);
    NEAR(pvsz_drop(&runs[1]), 0.0598509, 1e-9);
    NEAR(floor(pvsz_drop(&runs[1]) * 1000) / 1000, 0.059, 1e-12);
    NEAR(pvsz_drop(&runs[2]), 0.12, 0.005);
    NEAR(pvsz_drop(&runs[3]), 0.11, 0.005);
    NEAR(pvsz_drop_of_runs(&runs[2], 2) + 0.05, 0.28, 0.005);
    NEAR(pvsz_drop_of_runs(runs, 4), 0.5079527, 1e-6);
    ck_assert(pvsz_drop_of_runs(runs, 0) == 0);
}
END_TEST

/* A Dutch supplier's note: 1000 W at 230 V, 43 m of 2.5 mm2, 0.0175 ohm mm2/m;
 * published 4.34 A, 0.3 ohm, 2.6 V, 1.1 %. A slip: its table of lengths is not of
 * one percentage; the single-phase rows come to 0.93 to 1.19 %, three phases to
 * 0.71 to 0.73 %. */
START_TEST(rise_of_a_suppliers_note)
{
    static const struct {
        double kw, mm2, length, low, high;
        int32_t phases;
    } rows[] = {
        {1, 2.5, 43, 1.13, 1.16, 1}, {1, 4, 69, 1.13, 1.16, 1},   {1, 6, 105, 1.13, 1.16, 1},
        {1, 10, 171, 1.13, 1.16, 1}, {3, 2.5, 15, 1.13, 1.20, 1}, {3, 4, 24, 1.13, 1.20, 1},
        {3, 6, 36, 1.13, 1.20, 1},   {3, 10, 57, 1.13, 1.20, 1},  {5, 2.5, 7, 0.92, 1.0, 1},
        {5, 4, 12, 0.92, 1.0, 1},    {5, 6, 18, 0.92, 1.0, 1},    {5, 10, 28, 0.92, 1.0, 1},
        {5, 4, 53, 0.71, 0.74, 3},   {5, 6, 80, 0.71, 0.74, 3},   {6, 4, 43, 0.70, 0.72, 3},
        {6, 6, 65, 0.70, 0.72, 3}};
    double volts = drop(PVSZ_CIRCUIT_SINGLE_PHASE, 43, 1000 / 230.0, 17.5 / 2.5);

    NEAR(volts, 2.6174, 1e-4);
    NEAR(pvsz_drop_percent(volts, 230), 1.138, 1e-3);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bool three = rows[i].phases == 3;
        double volt = three ? 400 : 230;
        double amps = rows[i].kw * 1000 / volt / (three ? sqrt(3) : 1);
        double got =
            pvsz_drop_percent(drop(three ? PVSZ_CIRCUIT_THREE_PHASE : PVSZ_CIRCUIT_SINGLE_PHASE,
                                   rows[i].length, amps, 17.5 / rows[i].mm2),
                              volt);

        ck_assert_msg(got > rows[i].low && got < rows[i].high, "row %zu: %g %%", i, got);
    }
}
END_TEST

/* The percent form of the USA (read in study notes): 0.2 x ft x A x ohm/kft / V;
 * and the circular-mil form (read): 2 K I D / CM, 1.732 of three phases. */
START_TEST(forms_of_the_usa_agree)
{
    srand(4);
    for (int n = 0; n < 2000; n++) {
        double feet = uniform(1, 1000), amps = uniform(0.1, 100), volts = uniform(50, 1000);
        int32_t size = rand() % pvsz_size_count(PVSZ_CONDUCTOR_AWG);
        double mils = pvsz_size_section(PVSZ_CONDUCTOR_AWG, size), ohm = NAN, dc, three;

        ck_assert(pvsz_resistance(PVSZ_CONDUCTOR_AWG, size, 75, &ohm));
        dc = drop(PVSZ_CIRCUIT_DC, feet * 0.3048, amps, ohm);
        three = drop(PVSZ_CIRCUIT_THREE_PHASE, feet * 0.3048, amps, ohm);
        NEAR(pvsz_drop_percent(dc, volts), 0.2 * feet * amps * (ohm * 0.3048) / volts, 1e-12);
        NEAR(dc / (2 * 12.9 * amps * feet / mils), 1, 0.006);
        NEAR(three / (1.732 * 12.9 * amps * feet / mils), 1, 0.006);
    }
}
END_TEST

/* Split phase counts as two wires between the lines; the tables of AS/NZS 3008 give
 * three phases, a single phase is 1.155 of them (from memory). */
START_TEST(circuits_differ_by_their_factor)
{
    double single = drop(PVSZ_CIRCUIT_SINGLE_PHASE, 30, 20, 4.61);

    NEAR(single, 2 * 0.030 * 20 * 4.61, 1e-12);
    NEAR(drop(PVSZ_CIRCUIT_DC, 30, 20, 4.61), single, 1e-15);
    NEAR(drop(PVSZ_CIRCUIT_SPLIT_PHASE, 30, 20, 4.61), single, 1e-15);
    NEAR(single / drop(PVSZ_CIRCUIT_THREE_PHASE, 30, 20, 4.61), 1.155, 3e-4);
}
END_TEST

START_TEST(reactance_counts_with_the_sine)
{
    pvsz_run run = {PVSZ_CIRCUIT_SINGLE_PHASE, 100, 50, 0.4, 0.1, 0.8};

    NEAR(pvsz_drop(&run), 2 * 0.1 * 50 * (0.4 * 0.8 + 0.1 * 0.6), 1e-12);
    run.cos_phi = 0;
    NEAR(pvsz_drop(&run), 2 * 0.1 * 50 * 0.1, 1e-12);
    run.circuit = PVSZ_CIRCUIT_DC;
    NEAR(pvsz_drop(&run), 2 * 0.1 * 50 * 0.4, 1e-12);
}
END_TEST

START_TEST(drop_rises_with_length_and_current_and_falls_with_size)
{
    srand(5);
    for (int n = 0; n < 5000; n++) {
        int32_t kind = rand() % PVSZ_CONDUCTORS, size;
        pvsz_run run = {rand() % PVSZ_CIRCUITS, uniform(1, 300), uniform(0.1, 200), 0, 0,
                        uniform(0.5, 1)};
        pvsz_run more = run;
        double volts;

        size = rand() % (pvsz_size_count(kind) - 1);
        ck_assert(pvsz_resistance(kind, size, uniform(-20, 120), &run.resistance));
        pvsz_reactance(kind, size, &run.reactance);
        volts = pvsz_drop(&run);
        more = run;
        more.length *= 1.01;
        ck_assert(pvsz_drop(&more) > volts);
        more = run;
        more.current *= 1.01;
        ck_assert(pvsz_drop(&more) > volts);
        ck_assert(pvsz_resistance(kind, size, 20, &run.resistance));
        more = run;
        ck_assert(pvsz_resistance(kind, size + 1, 20, &more.resistance));
        pvsz_reactance(kind, size + 1, &more.reactance);
        ck_assert(pvsz_drop(&more) < pvsz_drop(&run));
    }
}
END_TEST

/* ---- the smallest size ---- */

/* A German page on cable sections: 10 A at 48 V over 20 m, 2 %, 56 m/(ohm mm2);
 * published 0.96 V, 7.44 mm2, hence 10 mm2. */
START_TEST(section_of_a_german_page)
{
    pvsz_duty duty = {.conductor = PVSZ_CONDUCTOR_CLASS2,
                      .place = {PVSZ_LAYING_IEC_C_PVC, 30, BUNCHED, 1},
                      .terminals = PVSZ_NO_TERMINALS,
                      .current = 10,
                      .run = {.circuit = PVSZ_CIRCUIT_DC, .length = 20, .current = 10},
                      .temp = 20,
                      .voltage = 48,
                      .drop_limit = 2};
    pvsz_choice choice = pvsz_smallest(&duty);

    NEAR(drop(PVSZ_CIRCUIT_DC, 20, 10, 1000 / 56.0 / 7.4405), 0.96, 1e-5);
    ck_assert_str_eq(pvsz_size_name(duty.conductor, choice.size), "10 mm2");
    ck_assert_int_eq(choice.governs, PVSZ_BY_DROP);
    ck_assert_int_eq(choice.fails, PVSZ_BY_NOTHING);
    NEAR(choice.capacity, 57, 1e-12);
    NEAR(choice.drop, 2 * 0.02 * 10 * 1.83 / 48 * 100, 1e-12);
    ck_assert(choice.terminals == 0);
}
END_TEST

/* The circuit of the course lesson above, smallest size asked for: 14 AWG has
 * 25 x 0.87 = 21.75 A in place, and 15, 20 or 25 A at the terminals for 17.5 A. */
START_TEST(terminals_govern_where_they_are_cool)
{
    pvsz_duty duty = {.conductor = PVSZ_CONDUCTOR_AWG,
                      .place = {PVSZ_LAYING_NFPA_90, 45, PVSZ_GROUPING_NFPA, 2},
                      .terminals = PVSZ_LAYING_NFPA_60,
                      .current = 14,
                      .run = {.circuit = PVSZ_CIRCUIT_DC, .length = 5, .current = 10},
                      .temp = 75,
                      .voltage = 400,
                      .drop_limit = 3};
    pvsz_choice choice = pvsz_smallest(&duty);

    ck_assert_str_eq(pvsz_size_name(duty.conductor, choice.size), "12 AWG");
    ck_assert_int_eq(choice.governs, PVSZ_BY_TERMINALS);
    ck_assert(choice.terminals == 20);
    duty.terminals = PVSZ_LAYING_NFPA_75;
    choice = pvsz_smallest(&duty);
    ck_assert_int_eq(choice.size, 0);
    ck_assert_int_eq(choice.governs, PVSZ_BY_NOTHING);
    ck_assert_int_eq(choice.known, PVSIZE_KNOWN_READ);
    /* terminals hotter than the insulation do not help it */
    duty.place = (pvsz_run_place){PVSZ_LAYING_NFPA_60, 20, PVSZ_GROUPING_NFPA, 2};
    choice = pvsz_smallest(&duty);
    ck_assert(choice.terminals == 20);
}
END_TEST

START_TEST(none_fits_and_not_known_are_told)
{
    pvsz_duty duty = {.conductor = PVSZ_CONDUCTOR_CLASS2,
                      .place = {PVSZ_LAYING_IEC_B2_PVC, 30, BUNCHED, 1},
                      .terminals = PVSZ_NO_TERMINALS,
                      .current = 180,
                      .run = {.circuit = PVSZ_CIRCUIT_DC, .length = 20, .current = 10},
                      .temp = 70,
                      .voltage = 400,
                      .drop_limit = 3};
    pvsz_choice choice = pvsz_smallest(&duty);
    pvsz_duty bad;

    ck_assert_int_eq(choice.size, -1);
    ck_assert_int_eq(choice.governs, PVSZ_BY_NONE_FITS);
    ck_assert_int_eq(choice.fails, PVSZ_BY_CAPACITY);
    ck_assert(choice.capacity == 179 && choice.drop > 0 && choice.known);
    duty.current = 179;
    choice = pvsz_smallest(&duty);
    ck_assert_str_eq(pvsz_size_name(duty.conductor, choice.size), "95 mm2");
    ck_assert_int_eq(choice.governs, PVSZ_BY_CAPACITY);
    duty.run.length = 1e7;
    choice = pvsz_smallest(&duty);
    ck_assert_int_eq(choice.governs, PVSZ_BY_NONE_FITS);
    ck_assert_int_eq(choice.fails, PVSZ_BY_DROP);
    duty.run.length = 20;
#define NOT_KNOWN(change)                                                                        \
    do {                                                                                         \
        bad = duty;                                                                              \
        change;                                                                                  \
        choice = pvsz_smallest(&bad);                                                            \
        ck_assert_msg(choice.governs == PVSZ_BY_NOT_KNOWN && choice.size == -1 && !choice.known, \
                      #change);                                                                  \
    } while (0)
    NOT_KNOWN(bad.conductor = PVSZ_CONDUCTOR_ALUMINIUM);
    NOT_KNOWN(bad.conductor = 99);
    NOT_KNOWN(bad.place.laying = 99);
    NOT_KNOWN(bad.place.laying = PVSZ_LAYING_FR_AIR_XLPE);
    NOT_KNOWN(bad.place.ambient = NAN);
    NOT_KNOWN(bad.place.ambient = 81);
    NOT_KNOWN(bad.place.grouped = 0);
    NOT_KNOWN(bad.terminals = PVSZ_LAYING_NFPA_75);
    NOT_KNOWN(bad.terminals = 99);
    NOT_KNOWN(bad.current = NAN);
    NOT_KNOWN(bad.current = -1);
    NOT_KNOWN(bad.run.length = INFINITY);
    NOT_KNOWN(bad.run.current = -1);
    NOT_KNOWN(bad.run.circuit = PVSZ_CIRCUITS);
    NOT_KNOWN(bad.run.circuit = -1);
    NOT_KNOWN(bad.temp = NAN);
    NOT_KNOWN(bad.voltage = 0);
    NOT_KNOWN(bad.drop_limit = -1);
    NOT_KNOWN(bad.voltage = -1);
    NOT_KNOWN((bad.run.circuit = PVSZ_CIRCUIT_THREE_PHASE, bad.run.cos_phi = 1.01));
    NOT_KNOWN((bad.run.circuit = PVSZ_CIRCUIT_THREE_PHASE, bad.run.cos_phi = -0.01));
    NOT_KNOWN((bad.run.circuit = PVSZ_CIRCUIT_SINGLE_PHASE, bad.run.reactance = NAN));
#undef NOT_KNOWN
}
END_TEST

/* Below 25 mm2 method F is not known: its first size is not said to be governed. */
START_TEST(sizes_that_are_not_known_are_passed_over)
{
    pvsz_duty duty = {.conductor = PVSZ_CONDUCTOR_CLASS2,
                      .place = {PVSZ_LAYING_IEC_F_XLPE, 30, BUNCHED, 1},
                      .terminals = PVSZ_NO_TERMINALS,
                      .current = 1,
                      .run = {.circuit = PVSZ_CIRCUIT_DC, .length = 1, .current = 1},
                      .temp = 70,
                      .voltage = 400,
                      .drop_limit = 3};
    pvsz_choice choice = pvsz_smallest(&duty);

    ck_assert_str_eq(pvsz_size_name(duty.conductor, choice.size), "25 mm2");
    ck_assert_int_eq(choice.governs, PVSZ_BY_NOTHING);
    /* a dash in the table of ambients: no current at all */
    duty.place = (pvsz_run_place){PVSZ_LAYING_IEC_B2_PVC, 65, BUNCHED, 1};
    choice = pvsz_smallest(&duty);
    ck_assert_int_eq(choice.fails, PVSZ_BY_CAPACITY);
    ck_assert(choice.capacity == 0);
}
END_TEST

/* Nothing to carry over no length, at both ends of the power factor. */
START_TEST(a_duty_of_nothing_is_sound)
{
    pvsz_duty duty = {.conductor = PVSZ_CONDUCTOR_CLASS2,
                      .place = {PVSZ_LAYING_IEC_C_PVC, 30, BUNCHED, 1},
                      .terminals = PVSZ_NO_TERMINALS,
                      .run = {.circuit = PVSZ_CIRCUIT_SINGLE_PHASE},
                      .temp = 70,
                      .voltage = 230};

    for (int cos_phi = 0; cos_phi <= 1; cos_phi++) {
        duty.run.cos_phi = cos_phi;
        ck_assert_int_eq(pvsz_smallest(&duty).size, 1);
    }
}
END_TEST

static pvsz_duty random_duty(void)
{
    int32_t laying = rand() % PVSZ_LAYINGS;
    bool gauge = laying >= PVSZ_LAYING_NFPA_60;
    int32_t en = laying >= PVSZ_LAYING_EN_AIR ? PVSZ_CONDUCTOR_CLASS5_TINNED : rand() % 4;
    double length = uniform(1, 150);
    pvsz_duty duty = {
        .conductor = gauge ? PVSZ_CONDUCTOR_AWG : en,
        .place = {laying, uniform(-10, 80), gauge ? PVSZ_GROUPING_NFPA : BUNCHED, 1 + rand() % 12},
        .terminals = gauge && rand() % 4 ? PVSZ_LAYING_NFPA_60 + rand() % 3 : PVSZ_NO_TERMINALS,
        .current = uniform(1, 120),
        .run = {rand() % PVSZ_CIRCUITS, length, uniform(1, 100), 0, uniform(0, 0.2),
                uniform(0.6, 1)},
        .temp = uniform(20, 90),
        .voltage = uniform(100, 800),
        .drop_limit = uniform(0.5, 4)};

    return duty;
}

/* Written anew from the numbers: 1 fits, 0 does not, -1 not known. */
static int brute_fit(const pvsz_duty *duty, int32_t size)
{
    double base, by_ambient, by_group, ohm, terminal = HUGE_VAL, x = duty->run.reactance, volts;
    double temp = pvsz_laying_temp(duty->place.laying), phi = acos(duty->run.cos_phi);
    int32_t table = pvsz_laying_ambient(duty->place.laying), column = duty->terminals;

    if (!pvsz_capacity(duty->place.laying, duty->conductor, size, &base) ||
        !pvsz_ambient_factor(table, duty->place.ambient, &by_ambient) ||
        !pvsz_grouping_factor(duty->place.grouping, duty->place.grouped, &by_group) ||
        !pvsz_resistance(duty->conductor, size, duty->temp, &ohm))
        return -1;
    if (column >= 0 && pvsz_laying_temp(column) > temp)
        column = duty->place.laying;
    if (column >= 0 && !pvsz_capacity(column, duty->conductor, size, &terminal))
        return -1;
    pvsz_reactance(duty->conductor, size, &x);
    volts = duty->run.length * duty->run.current / 1000;
    volts *= duty->run.circuit == PVSZ_CIRCUIT_DC ? ohm : ohm * cos(phi) + x * sin(phi);
    volts *= duty->run.circuit == PVSZ_CIRCUIT_THREE_PHASE ? 1.7320508075688772 : 2;
    return base * by_ambient * by_group >= duty->current * (1 - 1e-9) &&
           terminal >= 1.25 * duty->current * (1 - 1e-9) &&
           volts * 100 <= duty->drop_limit * duty->voltage * (1 + 1e-9);
}

START_TEST(smallest_is_smallest_by_brute_force)
{
    int32_t seen[PVSZ_BY_NOT_KNOWN + 1] = {0};

    srand(6);
    for (int n = 0; n < 50000; n++) {
        pvsz_duty duty = random_duty();
        pvsz_choice choice = pvsz_smallest(&duty);
        int32_t want = -1, known = 0;

        for (int32_t i = pvsz_size_count(duty.conductor) - 1; i >= 0; i--) {
            int fit = brute_fit(&duty, i);

            known += fit >= 0;
            if (fit > 0)
                want = i;
        }
        ck_assert_msg(choice.size == want, "case %d: %d, brute force %d", n, (int)choice.size,
                      (int)want);
        ck_assert_int_eq(choice.governs == PVSZ_BY_NOT_KNOWN, known == 0);
        ck_assert_int_eq(choice.governs == PVSZ_BY_NONE_FITS, known > 0 && want < 0);
        seen[choice.governs]++;
    }
    for (int32_t i = 0; i <= PVSZ_BY_NOT_KNOWN; i++)
        ck_assert_msg(seen[i] > 100, "reason %d only %d times", (int)i, (int)seen[i]);
}
END_TEST

/* Dropping the test that governs lets a smaller size through, or another test
 * that the smaller size fails too takes its place. */
START_TEST(what_governs_is_what_the_smaller_size_fails)
{
    srand(7);
    for (int n = 0; n < 20000; n++) {
        pvsz_duty duty = random_duty(), eased;
        pvsz_choice choice = pvsz_smallest(&duty), easier;

        if (choice.size < 1 || choice.governs == PVSZ_BY_NOTHING)
            continue;
        eased = duty;
        if (choice.governs == PVSZ_BY_DROP)
            eased.drop_limit = 1e9;
        if (choice.governs == PVSZ_BY_TERMINALS)
            eased.terminals = PVSZ_NO_TERMINALS;
        if (choice.governs == PVSZ_BY_CAPACITY)
            eased.current = 0;
        easier = pvsz_smallest(&eased);
        ck_assert(easier.size < choice.size || easier.governs != choice.governs);
        /* and a heavier duty never needs less */
        duty.current *= 1.05;
        duty.run.length *= 1.05;
        easier = pvsz_smallest(&duty);
        ck_assert(easier.size == -1 || easier.size >= choice.size);
    }
}
END_TEST

static void add_tables(Suite *suite)
{
    add_test(suite, "sizes", sizes_are_listed_in_order_and_found);
    add_test(suite, "names", names_say_the_section);
    add_test(suite, "resistivity", resistance_follows_the_resistivity);
    add_test(suite, "kinds of copper", kinds_of_copper_stand_in_order);
    add_test(suite, "circular mils", gauges_agree_with_circular_mils);
    add_test(suite, "gauge and mm2", gauges_agree_with_square_millimetres);
    add_test(suite, "temperature", resistance_rises_with_temperature);
    add_test(suite, "not known", what_no_table_has_is_not_known);
    add_test(suite, "ends of ranges", the_ends_of_the_ranges_are_known);
    add_test(suite, "capacities", capacities_rise_smoothly);
    add_test(suite, "layings", layings_stand_in_order);
    add_test(suite, "xlpe in air", two_sources_of_xlpe_in_air_agree);
    add_test(suite, "pv cable", pv_cable_layings_keep_their_ratios);
    add_test(suite, "four cells", four_cells_are_those_from_2011_on);
    add_test(suite, "ambient law", ambient_factors_follow_the_square_root);
    add_test(suite, "ambient rows", ambients_between_rows_take_the_hotter);
    add_test(suite, "ambient dash", a_dash_allows_no_current);
    add_test(suite, "ambient bases", base_ambients_convert_into_one_another);
    add_test(suite, "grouping", grouping_factors_of_iec_serve_as_nzs);
    add_test(suite, "conductors", more_than_three_conductors);
    add_test(suite, "roof", roofs_add_by_edition);
}

static void add(Suite *suite)
{
    add_tables(suite);
    add_test(suite, "in place", capacity_in_place_is_the_product);
    add_test(suite, "weaker", the_weaker_knowledge_counts);
    add_test(suite, "course lesson", source_circuit_of_a_course_lesson);
    add_test(suite, "hot raceway", hot_raceway_of_an_older_edition);
    add_test(suite, "rooftop 2008", rooftop_of_the_2008_edition);
    add_test(suite, "parallel pair", parallel_pair_of_an_older_edition);
    add_test(suite, "two ways", two_ways_are_apart);
    add_test(suite, "rise", rise_of_a_small_inverter);
    add_test(suite, "segments", segments_of_a_string_cable);
    add_test(suite, "supplier's note", rise_of_a_suppliers_note);
    add_test(suite, "forms of the USA", forms_of_the_usa_agree);
    add_test(suite, "circuits", circuits_differ_by_their_factor);
    add_test(suite, "reactance", reactance_counts_with_the_sine);
    add_test(suite, "drop is monotone", drop_rises_with_length_and_current_and_falls_with_size);
    add_test(suite, "german page", section_of_a_german_page);
    add_test(suite, "terminals", terminals_govern_where_they_are_cool);
    add_test(suite, "none fits", none_fits_and_not_known_are_told);
    add_test(suite, "passed over", sizes_that_are_not_known_are_passed_over);
    add_test(suite, "nothing", a_duty_of_nothing_is_sound);
    add_test(suite, "brute force", smallest_is_smallest_by_brute_force);
    add_test(suite, "governs", what_governs_is_what_the_smaller_size_fails);
}

int main(void)
{
    return run_cases("conductor", add);
}
