/* Quantities of the site: gaps, and the dates of the network's agreement. A date is
 * year, month and day in one number. */
#include "calc.h"

void pvsz_of_site_given(pvsz_calc *calc)
{
    pvsz_all_given(calc);
}

static bool is_leap(int32_t year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* Days since the start of the year 1 in today's calendar; false for no date. */
static bool day_of(double date, int32_t *day)
{
    static const int32_t before[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};
    int32_t number = (int32_t)date;
    int32_t year = number / 10000, month = number / 100 % 100, of_month = number % 100;
    int32_t leap = is_leap(year), past = year - 1;

    if (month < 1 || month > 12 || of_month < 1)
        return false;
    if (of_month > before[month] - before[month - 1] + (month == 2 && leap))
        return false;
    *day = past * 365 + past / 4 - past / 100 + past / 400 + before[month - 1] +
           (month > 2 && leap) + of_month;
    return true;
}

/* A date that is given and real, or what is missing. */
static int32_t day_of_term(pvsz_calc *calc, int32_t term)
{
    double date = pvsz_param(calc, term);
    int32_t day = 0;

    if (pvsz_is_open(calc) && !day_of(date, &day))
        pvsz_missing(calc, term);
    return day;
}

static void days_between(pvsz_calc *calc, int32_t from, int32_t to)
{
    double days = day_of_term(calc, to) - day_of_term(calc, from);

    pvsz_note_anew(calc); /* the days come first */
    pvsz_literal(calc, days);
    pvsz_param(calc, from);
    pvsz_param(calc, to);
    pvsz_result(calc, days, "{days}; from {from} to {to}");
}

/* An agreement without dates is one without an end: there is nothing to judge. */
static bool has_date(pvsz_calc *calc, int32_t term)
{
    if (!pvsz_has_param(calc, term))
        pvsz_nothing(calc);
    return pvsz_has_param(calc, term);
}

void pvsz_of_agreement_days_before(pvsz_calc *calc)
{
    if (has_date(calc, PVSIZE_SITE_AGREEMENT_FROM))
        days_between(calc, PVSIZE_SITE_AGREEMENT_FROM, PVSIZE_SITE_JOB_DATE);
}

void pvsz_of_agreement_days_left(pvsz_calc *calc)
{
    if (has_date(calc, PVSIZE_SITE_AGREEMENT_UNTIL))
        days_between(calc, PVSIZE_SITE_JOB_DATE, PVSIZE_SITE_AGREEMENT_UNTIL);
}

void pvsz_of_site_dates_real(pvsz_calc *calc)
{
    static const int32_t dates[] = {PVSIZE_SITE_JOB_DATE, PVSIZE_SITE_AGREEMENT_FROM,
                                    PVSIZE_SITE_AGREEMENT_UNTIL};
    bool all = true, any = false;
    int32_t day;

    for (int32_t i = 0; i < PVSZ_COUNT(dates); i++) {
        if (!pvsz_has_param(calc, dates[i]))
            continue;
        any = true;
        all = day_of(pvsz_param(calc, dates[i]), &day) && all;
    }
    if (!any)
        pvsz_nothing(calc);
    pvsz_note_anew(calc);
    pvsz_result(calc, pvsz_literal(calc, all), "{real}");
}
