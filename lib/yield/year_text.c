/* A year as text. */
#include "year.h"

static void put_subject(pvsz_text *text, const pvsize_report *report, int32_t number)
{
    const pvsz_subject *subject = NULL;

    /* GCOVR_EXCL_BR_START: nothing is granted to a subject that is not of this report */
    if (!pvsz_find_subject(report, number, &subject, NULL))
        pvsz_put_subject(text, report, subject);
    /* GCOVR_EXCL_BR_STOP */
}

pvsize_status pvsize_year_subject_text(const pvsize_year *year, int32_t subject, char *buffer,
                                       size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_year(year, diag);

    if (status)
        return status;
    if (!year->body.report)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    return pvsize_report_subject_text(year->body.report, subject, buffer, capacity, length, diag);
}

/* "array 1 (north): no cable of its strings is given: none is counted" */
static void put_granted(pvsz_text *text, const pvsize_report *report, const pvsz_granted *granted)
{
    if (granted->subject >= 0) {
        put_subject(text, report, granted->subject);
        pvsz_put(text, ": ");
    }
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_YEAR_ASSUMPTION, granted->what));
    if (granted->value == 0)
        return;
    pvsz_put(text, ": ");
    pvsz_put_rounded(text, granted->value, PVSZ_FINDING_DIGITS);
}

static void put_granted_row(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_year *year = object;

    put_granted(text, year->body.report, &year->body.granted[i]);
}

pvsize_status pvsize_year_assumption_text(const pvsize_year *year, int32_t i, char *buffer,
                                          size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_granted *granted = NULL;
    pvsize_status found = pvsz_find_granted(year, i, &granted, diag);

    return pvsz_row_text(found, put_granted_row, year, i, buffer, capacity, length, diag);
}

/* tables */

enum { FIRST_COLUMN = 26, COLUMN = 11, MOST_COLUMNS = 4 };

static void put_heading(pvsz_text *text, const char *words)
{
    pvsz_put(text, text->markdown ? "\n## " : "\n== ");
    pvsz_put(text, words);
    pvsz_put(text, text->markdown ? "\n\n" : "\n");
}

/* One cell, in plain text as wide as its column. */
static void put_cell(pvsz_text *text, size_t start, int32_t width, bool last)
{
    int32_t written = (int32_t)(text->length - start);

    if (text->markdown)
        pvsz_put(text, last ? " |\n" : " | ");
    else if (last)
        pvsz_put(text, "\n");
    else
        pvsz_put_repeat(text, ' ', written < width ? width - written : 1);
}

static void begin_row(pvsz_text *text, const char *label)
{
    size_t start;

    pvsz_put(text, text->markdown ? "| " : "   ");
    start = text->length;
    pvsz_put(text, label);
    put_cell(text, start, FIRST_COLUMN, false);
}

static void put_words(pvsz_text *text, const char *words, bool last)
{
    size_t start = text->length;

    pvsz_put(text, words);
    put_cell(text, start, COLUMN, last);
}

static void put_number(pvsz_text *text, double value, int32_t decimals, bool last)
{
    size_t start = text->length;

    pvsz_put_fixed(text, value, decimals);
    put_cell(text, start, COLUMN, last);
}

static void put_rule(pvsz_text *text, int32_t columns)
{
    if (!text->markdown)
        return;
    pvsz_put(text, "|");
    for (int32_t i = 0; i < columns; i++)
        pvsz_put(text, i ? "--:|" : "---|");
    pvsz_put(text, "\n");
}

/* the ledger */

static double kwh(const pvsz_year_body *body, const pvsz_months sums)
{
    return pvsz_kwh(sums, -1, body->step);
}

static double share(double part, double whole)
{
    return whole != 0 ? 100 * part / whole : 0;
}

static void put_ledger(pvsz_text *text, const pvsz_year_body *body)
{
    const pvsz_ledger *all = body->system;
    double reference = kwh(body, all->reference), left = reference;

    put_heading(text, "where the energy goes");
    begin_row(text, "");
    put_words(text, "kWh", false);
    put_words(text, "% of what was left", true);
    put_rule(text, 3);
    begin_row(text, pvsize_set_name(PVSIZE_SET_ENERGY, PVSIZE_ENERGY_REFERENCE));
    put_number(text, reference, 1, false);
    put_words(text, "", true);
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_LOSS); i++) {
        int32_t loss = pvsize_set_at(PVSIZE_SET_LOSS, i);
        double lost = kwh(body, all->loss[loss]);

        begin_row(text, pvsize_set_name(PVSIZE_SET_LOSS, loss));
        put_number(text, -lost, 1, false);
        put_number(text, -share(lost, left), 2, true);
        left -= lost;
    }
    begin_row(text, pvsize_set_name(PVSIZE_SET_ENERGY, PVSIZE_ENERGY_OUTPUT));
    put_number(text, kwh(body, all->output), 1, false);
    put_words(text, "", true);
}

static void put_months(pvsz_text *text, const pvsz_year_body *body)
{
    put_heading(text, "by month, kWh");
    begin_row(text, "month");
    put_words(text, "reference", false);
    put_words(text, "output", false);
    put_words(text, "ac_rating", false);
    put_words(text, "export", true);
    put_rule(text, 5);
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        static const char *const names[] = {"1", "2", "3", "4",  "5",  "6",
                                            "7", "8", "9", "10", "11", "12"};
        const pvsz_ledger *all = body->system;

        begin_row(text, names[m]);
        put_number(text, pvsz_kwh(all->reference, m, body->step), 1, false);
        put_number(text, pvsz_kwh(all->output, m, body->step), 1, false);
        put_number(text, pvsz_kwh(all->loss[PVSIZE_LOSS_AC_RATING], m, body->step), 1, false);
        put_number(text, pvsz_kwh(all->loss[PVSIZE_LOSS_EXPORT], m, body->step), 1, true);
    }
}

static const int32_t limits[] = {
    PVSIZE_LOSS_WINDOW,    PVSIZE_LOSS_INPUT_CURRENT, PVSIZE_LOSS_INPUT_POWER, PVSIZE_LOSS_DC_POWER,
    PVSIZE_LOSS_AC_RATING, PVSIZE_LOSS_AC_VOLTAGE,    PVSIZE_LOSS_EXPORT};

/* Limits of a subject that took something: hours, and what they took. */
static void put_limits(pvsz_text *text, const pvsz_year_body *body, const pvsz_ledger *ledger)
{
    for (int32_t i = 0; i < PVSZ_COUNT(limits); i++) {
        if (ledger->active[limits[i]] == 0)
            continue;
        pvsz_put(text, "; ");
        pvsz_put(text, pvsize_set_name(PVSIZE_SET_LOSS, limits[i]));
        pvsz_put(text, " in ");
        pvsz_put_rounded(text, ledger->active[limits[i]] * (body->step / 60.0), 6);
        pvsz_put(text, " h, ");
        pvsz_put_fixed(text, kwh(body, ledger->loss[limits[i]]), 1);
        pvsz_put(text, " kWh");
    }
}

static void put_part(pvsz_text *text, const pvsz_year_body *body, int32_t scope, int32_t i,
                     const pvsz_ledger *ledger)
{
    if (ledger->rated == 0)
        return;
    pvsz_put(text, text->markdown ? "- " : "   ");
    pvsz_put_subject(text, body->report, &body->report->design.subject[scope][i]);
    pvsz_put(text, ": ");
    pvsz_put_fixed(text, kwh(body, ledger->output), 1);
    pvsz_put(text, scope == PVSZ_KIND_INVERTER ? " kWh a.c., " : " kWh d.c., ");
    pvsz_put_fixed(text, kwh(body, ledger->output) / (ledger->rated / 1000), 0);
    pvsz_put(text, " kWh/kW of ");
    pvsz_put_rounded(text, ledger->rated / 1000, PVSZ_FINDING_DIGITS);
    pvsz_put(text, " kW");
    if (scope == PVSZ_KIND_ARRAY) {
        pvsz_put(text, "; ");
        pvsz_put_fixed(text, kwh(body, body->gross[i]), 0);
        pvsz_put(text, " kWh/m2 on its plane");
    }
    put_limits(text, body, ledger);
    pvsz_put(text, "\n");
}

static void put_parts(pvsz_text *text, const pvsz_year_body *body)
{
    const pvsz_design *design = &body->report->design;

    put_heading(text, "by part");
    for (int32_t i = 0; i < design->count[PVSZ_KIND_INVERTER]; i++)
        put_part(text, body, PVSZ_KIND_INVERTER, i, &body->inverter[i]);
    for (int32_t i = 0; i < design->count[PVSZ_KIND_INPUT]; i++)
        put_part(text, body, PVSZ_KIND_INPUT, i, &body->input[i]);
    for (int32_t i = 0; i < design->count[PVSZ_KIND_ARRAY]; i++)
        put_part(text, body, PVSZ_KIND_ARRAY, i, &body->array[i]);
}

static void put_site(pvsz_text *text, const pvsz_year_body *body)
{
    put_heading(text, "at the connection point, kWh");
    for (int32_t i = PVSIZE_ENERGY_LOAD; i < PVSZ_ENERGIES; i++) {
        begin_row(text, pvsize_set_name(PVSIZE_SET_ENERGY, i));
        put_number(text, kwh(body, body->site[i]), 1, true);
        if (i == PVSIZE_ENERGY_LOAD)
            put_rule(text, 2);
    }
}

static void put_lines(pvsz_text *text, int32_t set)
{
    for (int32_t i = 0; i < pvsize_set_count(set); i++) {
        pvsz_put(text, text->markdown ? "- " : "   ");
        pvsz_put(text, pvsize_set_text(set, pvsize_set_at(set, i)));
        pvsz_put(text, "\n");
    }
}

static void put_head(pvsz_text *text, const pvsz_year_body *body)
{
    const pvsz_ledger *all = body->system;
    const pvsz_subject *system = &body->report->design.subject[PVSZ_KIND_SYSTEM][0];

    pvsz_put(text, text->markdown ? "# Energy" : "Energy");
    if (system->name[0]) {
        pvsz_put(text, ": ");
        pvsz_put_given(text, system->name);
    }
    pvsz_put(text, "\n\n");
    pvsz_put_caution(text);
    pvsz_put(text, "\n");
    pvsz_put_fixed(text, kwh(body, all->output), 0);
    pvsz_put(text, " kWh in ");
    pvsz_put_int(text, body->rows);
    pvsz_put(text, " intervals of ");
    pvsz_put_int(text, body->step);
    pvsz_put(text, " minutes");
    if (all->rated > 0) {
        pvsz_put(text, "; ");
        pvsz_put_fixed(text, kwh(body, all->output) / (all->rated / 1000), 0);
        pvsz_put(text, " kWh/kW of ");
        pvsz_put_rounded(text, all->rated / 1000, PVSZ_FINDING_DIGITS);
        pvsz_put(text, " kW");
    }
    pvsz_put(text, "; not computed for want of weather: ");
    pvsz_put_int(text, body->gaps);
    pvsz_put(text, "\n");
}

pvsize_status pvsize_year_render(const pvsize_year *year, int32_t format, char *buffer,
                                 size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = pvsz_check_year(year, diag);
    const pvsz_year_body *body;

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!year->body.report)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    body = &year->body;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    put_head(&text, body);
    put_ledger(&text, body);
    put_parts(&text, body);
    put_months(&text, body);
    put_site(&text, body);
    put_heading(&text, "taken for granted");
    for (size_t i = 0; i < body->grants; i++) {
        pvsz_put(&text, text.markdown ? "- " : "   ");
        put_granted(&text, body->report, &body->granted[i]);
        pvsz_put(&text, "\n");
    }
    put_heading(&text, "how it is computed");
    put_lines(&text, PVSIZE_SET_YEAR_METHOD);
    return pvsz_text_end(&text, length, diag);
}
