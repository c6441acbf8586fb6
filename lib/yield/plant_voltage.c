/* Taking a system in: what its inverters do at a high a.c. voltage. */
#include <math.h>

#include "taker.h"

enum { START, END, LEAST, TERMS };

static const int32_t terms[TERMS] = {PVSIZE_INVERTER_VOLT_WATT_START, PVSIZE_INVERTER_VOLT_WATT_END,
                                     PVSIZE_INVERTER_VOLT_WATT_LEAST};

/* How much of its response an inverter states; the first term that it lacks, or 0. */
static int32_t find_terms(const pvsz_subject *inverter, double value[TERMS], int32_t *missing)
{
    int32_t found = 0;

    *missing = 0;
    for (int32_t i = 0; i < TERMS; i++) {
        if (pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, terms[i], &value[i]))
            found++;
        else if (*missing == 0)
            *missing = terms[i];
    }
    return found;
}

/* What is stated must be whole, and its end above its start. */
static pvsize_status check_response(const pvsz_machine *m, const double value[TERMS],
                                    int32_t missing, pvsize_diag *diag)
{
    if (missing == 0 && m->ac_limit == INFINITY)
        missing = PVSIZE_INVERTER_RATED_AC_POWER;
    if (missing != 0)
        return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, missing);
    if (value[END] > value[START])
        return PVSIZE_OK;
    pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, terms[END], value[END], value[START], 1000);
    pvsz_fail_hint(diag, "the reduction must end above the voltage at which it begins");
    return PVSIZE_E_OUT_OF_RANGE;
}

static void take_volt_watt(pvsz_taker *t, const pvsz_subject *inverter, int32_t i, pvsz_machine *m)
{
    double value[TERMS] = {0};
    int32_t missing, found = find_terms(inverter, value, &missing);
    pvsize_status status;

    if (found == 0) {
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_VOLT_WATT, inverter, 0);
        return;
    }
    status = check_response(m, value, missing, t->diag);
    if (status) {
        pvsz_fail_at(t->diag, i);
        pvsz_fail_taking(t, status);
        return;
    }
    m->response.start = value[START];
    m->response.rated = m->rating;
    m->response.least = m->rating * value[LEAST] / 100;
    m->response.slope = (m->response.rated - m->response.least) / (value[END] - value[START]);
    m->responds = true;
}

static bool states_any(const pvsz_subject *inverter)
{
    double value[TERMS];
    int32_t missing;

    return find_terms(inverter, value, &missing) > 0 ||
           pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_DISCONNECT_VOLTAGE,
                             value);
}

void pvsz_take_response(pvsz_taker *t, int32_t i, double cos_phi, pvsz_machine *m)
{
    const pvsz_subject *inverter = &t->report->design.subject[PVSZ_KIND_INVERTER][i];

    if (!t->told->supply) {
        if (states_any(inverter))
            pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_SUPPLY_VOLTAGE, inverter, 0);
        return;
    }
    m->response.rated = m->response.least = INFINITY;
    m->response.disconnect = pvsz_limit_of(t, inverter, PVSIZE_INVERTER_DISCONNECT_VOLTAGE,
                                           INFINITY, PVSIZE_YEAR_ASSUMPTION_NO_DISCONNECT);
    m->responds = m->response.disconnect < INFINITY;
    if (!t->status)
        take_volt_watt(t, inverter, i, m);
    if (m->responds && !t->status)
        m->response.rise = pvsz_ac_rise(t, inverter, cos_phi);
}
