/* Sizes and resistance of conductors: tables against a second form of themselves. */
#include "../support/pv_conductor.h"

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

static void add(Suite *suite)
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
}

int main(void)
{
    return run_cases("conductor", add);
}
