/* Asking a year. */
#include "year.h"

static pvsize_status check_filled(const pvsize_year *year, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_year(year, diag);

    if (!status && !year->body.report)
        status = pvsz_fail(diag, PVSIZE_E_NOT_SET);
    return status;
}

static pvsize_status find_subject(const pvsize_year *year, int32_t number,
                                  const pvsz_subject **subject, pvsize_diag *diag)
{
    pvsize_status status = check_filled(year, diag);

    return status ? status : pvsz_find_subject(year->body.report, number, subject, diag);
}

static pvsize_status fail_kind(pvsize_diag *diag, const pvsz_subject *subject, const char *wanted)
{
    pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[subject->scope].number, wanted);
    pvsz_fail_argument(diag, "subject");
    return PVSIZE_E_WRONG_KIND;
}

pvsize_status pvsz_find_ledger(const pvsize_year *year, int32_t number, const pvsz_ledger **ledger,
                               pvsize_diag *diag)
{
    const pvsz_subject *subject = NULL;
    pvsize_status status = find_subject(year, number, &subject, diag);

    if (status)
        return status;
    switch (subject->scope) {
    case PVSZ_KIND_SYSTEM:
        *ledger = year->body.system;
        return PVSIZE_OK;
    case PVSZ_KIND_INVERTER:
        *ledger = &year->body.inverter[subject->at[PVSZ_KIND_INVERTER]];
        return PVSIZE_OK;
    case PVSZ_KIND_INPUT:
        *ledger = &year->body.input[subject->at[PVSZ_KIND_INPUT]];
        return PVSIZE_OK;
    case PVSZ_KIND_ARRAY:
        *ledger = &year->body.array[subject->at[PVSZ_KIND_ARRAY]];
        return PVSIZE_OK;
    default:
        return fail_kind(diag, subject, "a system, inverter, input or array");
    }
}

pvsize_status pvsize_year_subject(const pvsize_year *year, int32_t kind, int32_t index,
                                  int32_t *subject, pvsize_diag *diag)
{
    const pvsz_kind *found = pvsz_kind_find(kind);
    pvsize_status status = check_filled(year, diag);
    int32_t scope, count;

    if (!status && !subject)
        status = pvsz_fail_null(diag, "subject");
    if (!status && !found)
        status = pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    if (status)
        return status;
    scope = (int32_t)(found - pvsz_kinds);
    count = scope < PVSZ_SCOPES ? year->body.report->design.count[scope] : 0;
    if (index < 0 || index >= count)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, kind, index, count);
    *subject =
        pvsz_subject_number(year->body.report, &year->body.report->design.subject[scope][index]);
    return PVSIZE_OK;
}

static pvsize_status check_month(int32_t month, pvsize_diag *diag)
{
    if (month >= 0 && month <= PVSZ_YEAR_MONTHS)
        return PVSIZE_OK;
    pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, 0, month, 0, PVSZ_YEAR_MONTHS);
    pvsz_fail_argument(diag, "month");
    return PVSIZE_E_OUT_OF_RANGE;
}

pvsize_status pvsize_year_size(const pvsize_year *year, int32_t *rows, int32_t *step, int32_t *lit,
                               int32_t *gaps, pvsize_diag *diag)
{
    pvsize_status status = check_filled(year, diag);

    if (status)
        return status;
    if (rows)
        *rows = year->body.rows;
    if (step)
        *step = year->body.step;
    if (lit)
        *lit = year->body.hours;
    if (gaps)
        *gaps = year->body.gaps;
    return PVSIZE_OK;
}

pvsize_status pvsize_year_energy(const pvsize_year *year, int32_t subject, int32_t month,
                                 int32_t energy, double *kwh, pvsize_diag *diag)
{
    const pvsz_ledger *ledger = NULL;
    const pvsz_months *sums;
    pvsize_status status = pvsz_find_ledger(year, subject, &ledger, diag);

    if (!status)
        status = check_month(month, diag);
    if (!status && !pvsz_set_has(PVSIZE_SET_ENERGY, energy))
        status = pvsz_fail_choice(diag, "energy", PVSIZE_SET_ENERGY, energy);
    if (!status && !kwh)
        status = pvsz_fail_null(diag, "kwh");
    if (status)
        return status;
    if (energy == PVSIZE_ENERGY_REFERENCE)
        sums = &ledger->reference;
    else if (energy == PVSIZE_ENERGY_OUTPUT)
        sums = &ledger->output;
    else if (ledger == year->body.system)
        sums = &year->body.site[energy];
    else
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, 0, "the system only");
    *kwh = pvsz_kwh(*sums, month - 1, year->body.step);
    return PVSIZE_OK;
}

static pvsize_status check_loss(int32_t loss, pvsize_diag *diag)
{
    return pvsz_set_has(PVSIZE_SET_LOSS, loss)
               ? PVSIZE_OK
               : pvsz_fail_choice(diag, "loss", PVSIZE_SET_LOSS, loss);
}

pvsize_status pvsize_year_loss(const pvsize_year *year, int32_t subject, int32_t month,
                               int32_t loss, double *kwh, pvsize_diag *diag)
{
    const pvsz_ledger *ledger = NULL;
    pvsize_status status = pvsz_find_ledger(year, subject, &ledger, diag);

    if (!status)
        status = check_month(month, diag);
    if (!status)
        status = check_loss(loss, diag);
    if (!status && !kwh)
        status = pvsz_fail_null(diag, "kwh");
    if (!status &&
        pvsz_set_place(PVSIZE_SET_LOSS, loss) > pvsz_set_place(PVSIZE_SET_LOSS, ledger->last))
        status =
            pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, 0, pvsize_set_name(PVSIZE_SET_LOSS, loss));
    if (!status)
        *kwh = pvsz_kwh(ledger->loss[loss], month - 1, year->body.step);
    return status;
}

pvsize_status pvsize_year_active(const pvsize_year *year, int32_t subject, int32_t loss,
                                 double *hours, pvsize_diag *diag)
{
    const pvsz_ledger *ledger = NULL;
    pvsize_status status = pvsz_find_ledger(year, subject, &ledger, diag);

    if (!status)
        status = check_loss(loss, diag);
    if (!status && !hours)
        status = pvsz_fail_null(diag, "hours");
    if (!status)
        *hours = ledger->active[loss] * (year->body.step / 60.0);
    return status;
}

pvsize_status pvsize_year_irradiation(const pvsize_year *year, int32_t number, int32_t month,
                                      double *on_plane, double *at_cells, pvsize_diag *diag)
{
    const pvsz_subject *subject = NULL;
    pvsize_status status = find_subject(year, number, &subject, diag);
    int32_t i;

    if (!status)
        status = check_month(month, diag);
    if (status)
        return status;
    if (subject->scope != PVSZ_KIND_ARRAY)
        return fail_kind(diag, subject, "an array");
    i = subject->at[PVSZ_KIND_ARRAY];
    if (on_plane)
        *on_plane = pvsz_kwh(year->body.gross[i], month - 1, year->body.step);
    if (at_cells)
        *at_cells = pvsz_kwh(year->body.net[i], month - 1, year->body.step);
    return PVSIZE_OK;
}

pvsize_status pvsize_year_yield(const pvsize_year *year, int32_t subject, double *rated,
                                double *yield, pvsize_diag *diag)
{
    const pvsz_ledger *ledger = NULL;
    pvsize_status status = pvsz_find_ledger(year, subject, &ledger, diag);

    if (status)
        return status;
    if (rated)
        *rated = ledger->rated / 1000;
    if (yield)
        *yield = ledger->rated > 0
                     ? pvsz_kwh(ledger->output, -1, year->body.step) / (ledger->rated / 1000)
                     : 0;
    return PVSIZE_OK;
}

/* rows */

/* Power of one inverter, or of all (-1), in a row with light that is hour h. */
static double power_at(const pvsz_year_body *body, int32_t inverter, int32_t h)
{
    double sum = 0;

    if (inverter >= 0)
        return pvsz_power_of(body, inverter)[h];
    for (int32_t i = 0; i < body->report->design.count[PVSZ_KIND_INVERTER]; i++)
        sum += pvsz_power_of(body, i)[h];
    return sum;
}

static double night_of(const pvsz_year_body *body, int32_t inverter)
{
    double sum = 0;

    if (inverter >= 0)
        return body->night[inverter];
    for (int32_t i = 0; i < body->report->design.count[PVSZ_KIND_INVERTER]; i++)
        sum += body->night[i];
    return sum;
}

pvsize_status pvsize_year_power(const pvsize_year *year, int32_t number, double gap, double *values,
                                size_t capacity, size_t *count, pvsize_diag *diag)
{
    const pvsz_subject *subject = NULL;
    const pvsz_year_body *body = year ? &year->body : NULL;
    pvsize_status status = find_subject(year, number, &subject, diag);
    int32_t inverter, h = 0;
    double night;

    if (status)
        return status;
    if (subject->scope != PVSZ_KIND_SYSTEM && subject->scope != PVSZ_KIND_INVERTER)
        return fail_kind(diag, subject, "a system or inverter");
    status = pvsz_check_column(body->rows, values, capacity, count, diag);
    if (status || !values)
        return status;
    inverter = subject->scope == PVSZ_KIND_INVERTER ? subject->at[PVSZ_KIND_INVERTER] : -1;
    night = night_of(body, inverter);
    for (int32_t i = 0; i < body->rows; i++) {
        if (body->state[i] == PVSZ_ROW_LIT)
            values[i] = power_at(body, inverter, h++);
        else
            values[i] = body->state[i] == PVSZ_ROW_DARK ? -night : gap;
    }
    return PVSIZE_OK;
}

/* assumptions */

pvsize_status pvsize_year_assumption_count(const pvsize_year *year, int32_t *count,
                                           pvsize_diag *diag)
{
    pvsize_status status = check_filled(year, diag);

    if (!status && !count)
        status = pvsz_fail_null(diag, "count");
    if (!status)
        *count = (int32_t)year->body.grants;
    return status;
}

pvsize_status pvsz_find_granted(const pvsize_year *year, int32_t i, const pvsz_granted **granted,
                                pvsize_diag *diag)
{
    pvsize_status status = check_filled(year, diag);

    if (status)
        return status;
    if (i < 0 || (size_t)i >= year->body.grants)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, (int32_t)year->body.grants);
    *granted = &year->body.granted[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_year_assumption(const pvsize_year *year, int32_t i, int32_t *what,
                                     int32_t *subject, double *value, pvsize_diag *diag)
{
    const pvsz_granted *granted = NULL;
    pvsize_status status = pvsz_find_granted(year, i, &granted, diag);

    if (status)
        return status;
    if (what)
        *what = granted->what;
    if (subject)
        *subject = granted->subject;
    if (value)
        *value = granted->value;
    return PVSIZE_OK;
}
