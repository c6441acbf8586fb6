/* The sun's position from inside: published examples, and what must hold anywhere.
 * tests/oracle/test_sky_model.py compares with ERFA at random. */
#include "../../lib/physics/angle.h"
#include "../../lib/physics/sun.h"
#include "../support/pv_test.h"

typedef struct seen {
    double zenith, azimuth, hour_angle, declination;
} seen;

static seen look(const pvsz_sun *sun, const pvsz_place *place)
{
    seen s;

    pvsz_horizontal(sun, &s.azimuth, &s.zenith);
    s.zenith = 90 - s.zenith;
    pvsz_hour_angle(sun, place, &s.hour_angle, &s.declination);
    s.hour_angle = PVSZ_DEG(s.hour_angle);
    s.declination = PVSZ_DEG(s.declination);
    return s;
}

static seen look_at(double days, double latitude, double longitude)
{
    pvsz_place place = pvsz_place_at(latitude, longitude);
    pvsz_sun_day day = pvsz_sun_day_of(days);
    pvsz_sun sun = pvsz_sun_at(&day, days - day.start, &place);

    return look(&sun, &place);
}

/* Julian days of NREL/TP-560-34302, table A4.1, in the Gregorian calendar. */
START_TEST(days_are_counted_as_published)
{
    static const struct {
        int32_t year;
        double day, hour, julian;
    } row[] = {
        {2000, 1, 12, 2451545.0}, {1999, 1, 0, 2451179.5},  {1987, 27, 0, 2446822.5},
        {1987, 170, 12, 2446966}, {1988, 27, 0, 2447187.5}, {1988, 171, 12, 2447332.0},
        {1900, 1, 0, 2415020.5},  {1600, 1, 0, 2305447.5},  {1600, 366, 0, 2305812.5},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        ck_assert(pvsz_day_number(row[i].year, row[i].day, row[i].hour) + PVSZ_EPOCH ==
                  row[i].julian);
    ck_assert(pvsz_is_leap(2000) && pvsz_is_leap(2024) && !pvsz_is_leap(1900) &&
              !pvsz_is_leap(2026));
}
END_TEST

/* Worked example of NREL/TP-560-34302 (Reda and Andreas), table A5.1. */
START_TEST(the_worked_example_is_met)
{
    double days = pvsz_day_number(2003, 290, 19.5 + 30.0 / 3600), lift;
    seen s = look_at(days, 39.742476, -105.1786);
    double slope = PVSZ_RAD(30), side = PVSZ_RAD(s.azimuth - 180 + 10), z;
    pvsz_sun_day day = pvsz_sun_day_of(days);

    NEAR(days + PVSZ_EPOCH, 2452930.312847, 1e-12);
    NEAR(90 - s.zenith, 39.872046, 0.004 / 40);
    NEAR(s.azimuth, 194.34024, 0.005 / 194);
    NEAR(s.declination, -9.316179, 0.003 / 9.3);
    NEAR(s.hour_angle, 11.10629, 0.004 / 11);
    lift = pvsz_refraction(39.872046, 820, 11);
    NEAR(lift, 0.016332, 1e-6);
    NEAR(90 - s.zenith + lift, 90 - 50.11162, 0.004 / 40);
    z = PVSZ_RAD(s.zenith - lift);
    NEAR(PVSZ_DEG(acos(cos(z) * cos(slope) + sin(slope) * sin(z) * cos(side))), 25.18700,
         0.005 / 25);
    NEAR(1367 / day.beyond, 0.9965422974 * 0.9965422974, 2e-4); /* taken at noon UT */
}
END_TEST

/* Directions computed with ERFA (IAU 2006/2000A, no refraction). */
START_TEST(directions_of_the_coming_years)
{
    static const struct {
        int32_t year;
        double day, hour, latitude, longitude, zenith, azimuth, declination;
    } row[] = {
        {2026, 172, 11, 48.8566, 2.3522, 27.44210, 153.17657, 23.43789},
        {2026, 355, 12, 52.52, 13.405, 76.92134, 193.06774, -23.43689},
        {2026, 79, 18.5, 33.45, -111.98, 36.74284, 151.98397, 0.06160},
        {2027, 15, 2, -33.8688, 151.2093, 12.71765, 4.59783, -21.18783},
        {2028, 60, 5.5, 28.567, 77.103, 42.82783, 144.44857, -7.75979},
        {2030, 266, 9, -1.2921, 36.8219, 6.37533, 79.77595, -0.15506},
        {2035, 185, 4, 1.3521, 103.8198, 27.29928, 36.63587, 22.88508},
        {2040, 126, 22, 64.82, -147.85, 48.23995, 183.84679, 16.62459},
        {2049, 315, 14.2583333333, -23.55, -46.6333, 10.11490, 55.84235, -17.63482},
    };

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        seen s = look_at(pvsz_day_number(row[i].year, row[i].day, row[i].hour), row[i].latitude,
                         row[i].longitude);

        ck_assert(fabs(s.zenith - row[i].zenith) < 0.005);
        ck_assert(fabs(s.azimuth - row[i].azimuth) * sin(PVSZ_RAD(s.zenith)) < 0.005);
        /* the declination seen from the place: parallax is up to 0.0024 */
        ck_assert(fabs(s.declination - row[i].declination) < 0.007);
    }
}
END_TEST

/* Sunrise, transit and sunset of the same place and day: true elevation -0.8333 at rise and
 * set (NREL/TP-560-34302 as recomputed with ERFA). */
START_TEST(rise_and_set_are_where_they_were)
{
    static const double hours[] = {6.2123, 17.3142};

    for (int i = 0; i < 2; i++) {
        seen s = look_at(pvsz_day_number(2003, 290, hours[i] + 7), 39.742476, -105.1786);
        ck_assert(fabs(s.zenith - 90.8333) < 0.01);
    }
    ck_assert(fabs(look_at(pvsz_day_number(2003, 290, 18.7680), 39.742476, -105.1786).hour_angle) <
              0.01);
}
END_TEST

/* The mean over an interval against a fine sum of instants. In four hours the sun moves against the
 * stars by what the mean leaves out. */
START_TEST(means_are_those_of_many_instants)
{
    enum { STEPS = 1000 };

    for (int trial = 0; trial < 200; trial++) {
        double latitude = -90 + 180.0 * (rand() / (double)RAND_MAX);
        double days = floor(9000 + 365.0 * (rand() / (double)RAND_MAX)) + 0.5;
        double width = trial % 3 ? trial % 3 == 1 ? 1.0 / 24 : 1.0 / 288 : 1.0 / 6;
        double near = trial % 3 ? 5e-5 : 5e-4;
        double from = (1 - width) * (rand() / (double)RAND_MAX), up = 0, east = 0, share = 0;
        pvsz_place place = pvsz_place_at(latitude, 10);
        pvsz_sun_day day = pvsz_sun_day_of(days + 0.5);
        pvsz_sun mean = pvsz_sun_over(&day, from, from + width, &place);

        for (int i = 0; i < STEPS; i++) {
            pvsz_sun sun = pvsz_sun_at(&day, from + width * (i + 0.5) / STEPS, &place);

            up += sun.lit * sun.up / STEPS;
            east += sun.lit * sun.east / STEPS;
            share += sun.lit / STEPS;
        }
        /* where the sun grazes the horizon, its own motion decides */
        ck_assert(fabs(mean.lit - share) < (fabs(latitude) < 60 ? 3.0 / STEPS : 0.02));
        /* parallax makes a mean of instants a little longer */
        ck_assert(fabs(mean.lit * mean.up - up) < near);
        /* by as much as the share: the sun that grazes the horizon may stand in the east */
        ck_assert(fabs(latitude) > 60 || fabs(mean.lit * mean.east - east) < 3.0 / STEPS);
    }
}
END_TEST

START_TEST(poles_and_equator)
{
    pvsz_place pole = pvsz_place_at(90, 0), equator = pvsz_place_at(0, 0);
    pvsz_sun_day june = pvsz_sun_day_of(pvsz_day_number(2026, 172, 12));
    pvsz_sun_day december = pvsz_sun_day_of(pvsz_day_number(2026, 355, 12));
    double lit = 0;

    for (int hour = 0; hour < 24; hour++) {
        pvsz_sun sun = pvsz_sun_over(&june, hour / 24.0, (hour + 1) / 24.0, &pole);

        ck_assert(sun.lit == 1 && fabs(sun.up - sin(PVSZ_RAD(23.436))) < 1e-3);
        ck_assert(pvsz_sun_over(&december, hour / 24.0, (hour + 1) / 24.0, &pole).lit == 0);
        lit += pvsz_sun_over(&december, hour / 24.0, (hour + 1) / 24.0, &equator).lit;
    }
    NEAR(lit, 12, 5e-4); /* solar days are half a minute longer in December */
}
END_TEST

/* Kasten and Young 1989, values of the formula. */
START_TEST(air_masses)
{
    static const double row[][2] = {{0, 0.9997},  {30, 1.1540}, {45, 1.4126}, {60, 1.9943},
                                    {70, 2.9031}, {75, 3.8129}, {80, 5.5860}, {85, 10.3058}};

    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        NEAR(pvsz_air_mass(cos(PVSZ_RAD(row[i][0]))), row[i][1], 5e-5);
    NEAR(pvsz_air_mass(0), 37.9196, 1e-5);
    NEAR(pvsz_air_mass(-1), 37.9196, 1e-5);
}
END_TEST

/* Duffie and Beckman, 5th edition, examples 1.6.2, 1.6.3 and 1.10.1: sunset, and the
 * height of the sun by declination and hour angle. */
START_TEST(textbook_angles)
{
    static const double row[][4] = {
        {43, -14, -37.5, 66.5}, {43, 23.1, 97.5, 79.6}, {43, -2.4, 60, 70.3}};

    for (size_t i = 0; i < 3; i++) {
        double phi = PVSZ_RAD(row[i][0]), d = PVSZ_RAD(row[i][1]), w = PVSZ_RAD(row[i][2]);
        pvsz_place place = pvsz_place_at(row[i][0], 0);
        pvsz_sun sun = {.east = -cos(d) * sin(w),
                        .north = cos(phi) * sin(d) - sin(phi) * cos(d) * cos(w),
                        .up = sin(phi) * sin(d) + cos(phi) * cos(d) * cos(w)};
        seen s = look(&sun, &place);

        ck_assert(fabs(s.zenith - row[i][3]) < 0.06);
        NEAR(s.hour_angle, row[i][2], 1e-12);
        NEAR(s.declination, row[i][1], 1e-12);
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "day numbers", days_are_counted_as_published);
    add_test(suite, "worked example", the_worked_example_is_met);
    add_test(suite, "directions", directions_of_the_coming_years);
    add_test(suite, "rise and set", rise_and_set_are_where_they_were);
    add_test(suite, "means", means_are_those_of_many_instants);
    add_test(suite, "poles", poles_and_equator);
    add_test(suite, "air mass", air_masses);
    add_test(suite, "textbook angles", textbook_angles);
}

int main(void)
{
    return run_cases("sun", add);
}
