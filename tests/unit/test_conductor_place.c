/* What conductors carry in their place, by published worked examples. */
#include "../support/pv_conductor.h"

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

static void add(Suite *suite)
{
    add_test(suite, "in place", capacity_in_place_is_the_product);
    add_test(suite, "weaker", the_weaker_knowledge_counts);
    add_test(suite, "course lesson", source_circuit_of_a_course_lesson);
    add_test(suite, "hot raceway", hot_raceway_of_an_older_edition);
    add_test(suite, "rooftop 2008", rooftop_of_the_2008_edition);
    add_test(suite, "parallel pair", parallel_pair_of_an_older_edition);
    add_test(suite, "two ways", two_ways_are_apart);
}

int main(void)
{
    return run_cases("conductor_place", add);
}
