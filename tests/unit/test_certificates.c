/* Small-scale certificates: published examples, the table, wrong input. */
#include "../support/pv_test.h"

static double count_of(double power, int32_t zone, int32_t year, int32_t period)
{
    double count = -1;

    OK(pvsize_certificate_count(power, zone, year, period, &count, diag));
    return count;
}

/* A trade page on the scheme's zones (read): 5 kW in zone 3, 2019: 82.92, so 82. */
START_TEST(published_in_2019)
{
    int32_t years;

    OK(pvsize_certificate_years(2019, PVSIZE_PERIOD_LONGEST, &years, diag));
    ck_assert_int_eq(years, 12);
    NEAR(5 * 1.382 * years, 82.92, 1e-12);
    ck_assert(count_of(5000, PVSIZE_ZONE_3, 2019, PVSIZE_PERIOD_LONGEST) == 82);
}
END_TEST

/* A trade page on rebates (read): 6.6 kW in 2024 at 39.30 each: 2908. The zone is not
 * printed; of the four only zone 1 gives this sum. */
START_TEST(published_in_2024)
{
    double count = count_of(6600, PVSIZE_ZONE_1, 2024, PVSIZE_PERIOD_LONGEST), value;

    ck_assert(count == 74);
    OK(pvsize_certificate_value(count, 39.30, &value, diag));
    NEAR(value, 2908.20, 1e-12);
    for (int32_t zone = 2; zone <= 4; zone++) {
        OK(pvsize_certificate_value(count_of(6600, zone, 2024, PVSIZE_PERIOD_LONGEST), 39.30,
                                    &value, diag));
        ck_assert(value < 2800);
    }
}
END_TEST

/* Every year to the end of 2030 counts once: 2031 less the year. */
START_TEST(years_run_out)
{
    int32_t years;

    ck_assert_int_eq(pvsize_certificate_first_year(), 2016);
    ck_assert_int_eq(pvsize_certificate_last_year(), 2030);
    for (int32_t year = 2016; year <= 2030; year++) {
        OK(pvsize_certificate_years(year, PVSIZE_PERIOD_LONGEST, &years, diag));
        ck_assert_int_eq(years, 2031 - year);
        OK(pvsize_certificate_years(year, PVSIZE_PERIOD_ONE_YEAR, &years, diag));
        ck_assert_int_eq(years, 1);
    }
    OK(pvsize_certificate_years(2026, PVSIZE_PERIOD_FIVE_YEARS, &years, diag));
    ck_assert_int_eq(years, 5);
    FAILS(PVSIZE_E_OUT_OF_RANGE,
          "year: outside the allowed range; given 2027; allowed 2016 to 2026",
          pvsize_certificate_years(2027, PVSIZE_PERIOD_FIVE_YEARS, &years, diag));
}
END_TEST

/* Down to a whole number, and not up for want of a millionth; in whole numbers. */
START_TEST(floor_is_exact)
{
    static const int64_t thousandths[] = {1622, 1536, 1382, 1185};

    for (int32_t zone = 1; zone <= 4; zone++)
        for (int32_t year = 2016; year <= 2030; year++)
            for (int64_t watt = 1; watt <= 100000; watt += year % 2 ? 997 : 1250) {
                int64_t exact = watt * thousandths[zone - 1] * (2031 - year) / 1000000;

                ck_assert(count_of((double)watt, zone, year, PVSIZE_PERIOD_LONGEST) ==
                          (double)exact);
            }
    /* a sum of module powers that rounds below what it should be */
    ck_assert(count_of(nextafter(100000, 0), PVSIZE_ZONE_2, 2021, PVSIZE_PERIOD_LONGEST) == 1536);
}
END_TEST

START_TEST(wrong_input)
{
    double value;
    int32_t years;

    FAILS(PVSIZE_E_OUT_OF_RANGE, "power: outside the allowed range; given 0",
          pvsize_certificate_count(0, 3, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "to 100000",
          pvsize_certificate_count(100001, 3, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "power", pvsize_certificate_count(-1, 3, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 0; allowed more than 0 W to 100000 W",
          pvsize_certificate_count(0, 3, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "power", pvsize_certificate_count(NAN, 3, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "zone: not one of the choices; given 5; allowed zone_1 (1)",
          pvsize_certificate_count(5000, 5, 2024, 3, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE,
          "year: outside the allowed range; given 2031; allowed 2016 to 2030",
          pvsize_certificate_count(5000, 3, 2031, 3, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 2015",
          pvsize_certificate_count(5000, 3, 2015, 3, &value, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "period", pvsize_certificate_count(5000, 3, 2024, 4, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_certificate_count(5000, 3, 2024, 3, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "years", pvsize_certificate_years(2024, 3, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "period", pvsize_certificate_years(2024, 0, &years, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "zone", pvsize_certificate_rating(0, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rating", pvsize_certificate_rating(1, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "price", pvsize_certificate_value(74, -1, &value, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "price", pvsize_certificate_value(74, INFINITY, &value, diag));
    FAILS(PVSIZE_E_NOT_WHOLE, "count", pvsize_certificate_value(74.5, 1, &value, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "count", pvsize_certificate_value(-1, 1, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value", pvsize_certificate_value(74, 1, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format",
          pvsize_certificate_working(5000, 3, 2024, 3, 39, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "price",
          pvsize_certificate_working(5000, 3, 2024, 3, 1001, 1, NULL, 0, NULL, diag));
}
END_TEST

START_TEST(working)
{
    char text[1000];

    OK(pvsize_certificate_working(6600, PVSIZE_ZONE_1, 2024, PVSIZE_PERIOD_LONGEST, 39.3,
                                  PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert_str_eq(
        text, "certificates = floor(P / 1000 × rating × years) = floor(6600 W / 1000 × 1.622 × 7) "
              "= 74\n"
              "rating = 1.622: of zone 1; scheme's zone ratings; published sums for 5 kW come out "
              "by it (from memory)\n"
              "years = 7: counted for a system installed in 2024; trade page on the deeming period "
              "(read in a source)\n"
              "value = certificates × price = 74 × 39.3 = 2908.2\n"
              "for a quote only: the scheme's own rules of the day decide\n");
}
END_TEST

/* In Markdown the same lines, each the item of a list. */
START_TEST(working_in_markdown)
{
    char plain[1000], markdown[1000], *line = plain, want[1100] = "";

    OK(pvsize_certificate_working(6600, PVSIZE_ZONE_1, 2024, PVSIZE_PERIOD_LONGEST, 39.3,
                                  PVSIZE_FORMAT_PLAIN, plain, sizeof plain, NULL, diag));
    OK(pvsize_certificate_working(6600, PVSIZE_ZONE_1, 2024, PVSIZE_PERIOD_LONGEST, 39.3,
                                  PVSIZE_FORMAT_MARKDOWN, markdown, sizeof markdown, NULL, diag));
    for (line = strtok(plain, "\n"); line; line = strtok(NULL, "\n")) {
        strcat(want, "- ");
        strcat(want, line);
        strcat(want, "\n");
    }
    ck_assert_str_eq(markdown, want);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "2019", published_in_2019);
    add_test(suite, "2024", published_in_2024);
    add_test(suite, "years", years_run_out);
    add_test(suite, "floor", floor_is_exact);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "working", working);
    add_test(suite, "working in Markdown", working_in_markdown);
}

int main(void)
{
    return run_cases("certificates", add);
}
