/* Small-scale certificates: a product and a floor, and figures that change by year. */
#include <math.h>

#include "../report/words.h"
#include "pvsize/certificates.h"

#define MOST_POWER 100000 /* W; a larger system is not of this scheme */
#define DIGITS(number) DIGITS_OF(number)
#define DIGITS_OF(number) #number
static const double most_price = 1000;
static const double most_count = 1e6;

typedef struct figure_row {
    int32_t of; /* zone or year */
    int32_t value;
    int32_t known;
    const char *source;
} figure_row;

static const figure_row zones[] = {
#define ZONE(number, rating, KNOWN, source) {number, rating, PVSIZE_KNOWN_##KNOWN, source},
#define YEARS(year, years, KNOWN, source)
#include "../tables/certificates.def"
#undef ZONE
#undef YEARS
};

static const figure_row years_left[] = {
#define ZONE(number, rating, KNOWN, source)
#define YEARS(year, years, KNOWN, source) {year, years, PVSIZE_KNOWN_##KNOWN, source},
#include "../tables/certificates.def"
#undef ZONE
#undef YEARS
};
enum { LAST = sizeof years_left / sizeof years_left[0] - 1 };

int32_t pvsize_certificate_first_year(void)
{
    return years_left[0].of;
}

int32_t pvsize_certificate_last_year(void)
{
    return years_left[LAST].of;
}

/* what was given */

static pvsize_status check_range(const char *argument, double value, double low, double high,
                                 pvsize_diag *diag)
{
    pvsize_status status = PVSIZE_OK;

    if (value != value || value - value != 0)
        status = pvsz_fail_value(diag, PVSIZE_E_NOT_FINITE, 0, value);
    else if (value < low || value > high)
        status = pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, value, low, high);
    if (status)
        pvsz_fail_argument(diag, argument);
    return status;
}

static pvsize_status find_zone(int32_t zone, const figure_row **row, pvsize_diag *diag)
{
    for (int32_t i = 0; i < PVSZ_COUNT(zones); i++)
        if (zones[i].of == zone) {
            *row = &zones[i];
            return PVSIZE_OK;
        }
    return pvsz_fail_choice(diag, "zone", PVSIZE_SET_ZONE, zone);
}

/* The row of a year, and the years counted. */
static pvsize_status find_years(int32_t year, int32_t period, const figure_row **row,
                                int32_t *years, pvsize_diag *diag)
{
    int32_t last = LAST;
    pvsize_status status;

    if (!pvsz_set_has(PVSIZE_SET_PERIOD, period))
        return pvsz_fail_choice(diag, "period", PVSIZE_SET_PERIOD, period);
    while (period == PVSIZE_PERIOD_FIVE_YEARS && years_left[last].value < 5)
        last--;
    status = check_range("year", year, years_left[0].of, years_left[last].of, diag);
    if (status)
        return status;
    *row = &years_left[year - years_left[0].of];
    *years = period == PVSIZE_PERIOD_ONE_YEAR     ? 1
             : period == PVSIZE_PERIOD_FIVE_YEARS ? 5
                                                  : (*row)->value;
    return PVSIZE_OK;
}

/* Everything that the number rests on. */
typedef struct claim {
    double power;
    const figure_row *zone, *year;
    int32_t years;
    double count;
} claim;

static pvsize_status make_claim(double power, int32_t zone, int32_t year, int32_t period,
                                claim *out, pvsize_diag *diag)
{
    /* the smallest double above 0 stands for "more than 0" */
    pvsize_status status = check_range("power", power, DBL_MIN, MOST_POWER, diag);

    if (status)
        pvsz_fail_allowed(diag, "more than 0 W to " DIGITS(MOST_POWER) " W");
    out->power = power;
    if (!status)
        status = find_zone(zone, &out->zone, diag);
    if (!status)
        status = find_years(year, period, &out->year, &out->years, diag);
    if (status)
        return status;
    /* The library's guard of a billionth is too wide here: 2432.999999 is not 2433.
     * What remains is room for the rounding of a sum of module powers. */
    out->count = floor(power * out->zone->value * out->years / 1e6 * (1 + 1e-12));
    return PVSIZE_OK;
}

pvsize_status pvsize_certificate_rating(int32_t zone, double *rating, pvsize_diag *diag)
{
    const figure_row *row = NULL;
    pvsize_status status = find_zone(zone, &row, diag);

    if (status)
        return status;
    if (!rating)
        return pvsz_fail_null(diag, "rating");
    *rating = row->value / 1000.0;
    return PVSIZE_OK;
}

pvsize_status pvsize_certificate_years(int32_t year, int32_t period, int32_t *years,
                                       pvsize_diag *diag)
{
    const figure_row *row = NULL;
    int32_t found = 0;
    pvsize_status status = find_years(year, period, &row, &found, diag);

    if (status)
        return status;
    if (!years)
        return pvsz_fail_null(diag, "years");
    *years = found;
    return PVSIZE_OK;
}

pvsize_status pvsize_certificate_count(double power, int32_t zone, int32_t year, int32_t period,
                                       double *count, pvsize_diag *diag)
{
    claim made;
    pvsize_status status = make_claim(power, zone, year, period, &made, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = made.count;
    return PVSIZE_OK;
}

pvsize_status pvsize_certificate_value(double count, double price, double *value, pvsize_diag *diag)
{
    pvsize_status status = check_range("count", count, 0, most_count, diag);

    if (!status)
        status = check_range("price", price, 0, most_price, diag);
    if (!status && floor(count) != count) {
        status = pvsz_fail_value(diag, PVSIZE_E_NOT_WHOLE, 0, count);
        pvsz_fail_argument(diag, "count");
    }
    if (status)
        return status;
    if (!value)
        return pvsz_fail_null(diag, "value");
    *value = count * price;
    return PVSIZE_OK;
}

/* working */

static void put_figure(pvsz_text *text, const char *line, const char *symbol, double value,
                       const char *what, const figure_row *row)
{
    pvsz_put(text, line);
    pvsz_put(text, symbol);
    pvsz_put(text, " = ");
    pvsz_put_exact(text, value);
    pvsz_put(text, what);
    pvsz_put_int(text, row->of);
    pvsz_put(text, "; ");
    pvsz_put_source(text, row->source, row->known);
    pvsz_put(text, "\n");
}

static void put_claim(pvsz_text *text, const claim *made, const char *line)
{
    pvsz_put(text, line);
    pvsz_put(text, "certificates = floor(P / 1000 × rating × years) = floor(");
    pvsz_put_exact(text, made->power);
    pvsz_put(text, " W / 1000 × ");
    pvsz_put_exact(text, made->zone->value / 1000.0);
    pvsz_put(text, " × ");
    pvsz_put_int(text, made->years);
    pvsz_put(text, ") = ");
    pvsz_put_exact(text, made->count);
    pvsz_put(text, "\n");
    put_figure(text, line, "rating", made->zone->value / 1000.0, ": of zone ", made->zone);
    put_figure(text, line, "years", made->years, ": counted for a system installed in ",
               made->year);
}

static void put_value(pvsz_text *text, const claim *made, double price, const char *line)
{
    pvsz_put(text, line);
    pvsz_put(text, "value = certificates × price = ");
    pvsz_put_exact(text, made->count);
    pvsz_put(text, " × ");
    pvsz_put_exact(text, price);
    pvsz_put(text, " = ");
    pvsz_put_rounded(text, made->count * price, 9);
    pvsz_put(text, "\n");
    pvsz_put(text, line);
    pvsz_put(text, "for a quote only: the scheme's own rules of the day decide\n");
}

pvsize_status pvsize_certificate_working(double power, int32_t zone, int32_t year, int32_t period,
                                         double price, int32_t format, char *buffer,
                                         size_t capacity, size_t *length, pvsize_diag *diag)
{
    const char *line = format == PVSIZE_FORMAT_MARKDOWN ? "- " : "";
    claim made;
    pvsz_text text;
    pvsize_status status = make_claim(power, zone, year, period, &made, diag);

    if (!status)
        status = check_range("price", price, 0, most_price, diag);
    if (!status && !pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    put_claim(&text, &made, line);
    put_value(&text, &made, price, line);
    return pvsz_text_end(&text, length, diag);
}
