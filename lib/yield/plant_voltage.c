/* Taking a system in: what its inverters do at a high a.c. voltage. */
#include <math.h>

#include "taker.h"

static const int32_t terms[] = {PVSIZE_INVERTER_VOLT_WATT_START, PVSIZE_INVERTER_VOLT_WATT_END,
                                PVSIZE_INVERTER_VOLT_WATT_LEAST, PVSIZE_INVERTER_RATED_AC_POWER};

enum { START, END, LEAST, OWN_TERMS, RATING = OWN_TERMS, TERMS };

/* All that the response needs; false, and the failure told, where a part of it is missing.
 * `*stated` where there is one at all. */
static bool find_volt_watt(pvsz_taker *t, const pvsz_subject *inverter, const pvsz_machine *m,
                           double value[TERMS], bool *stated)
{
    int32_t found = 0, missing = -1;

    for (int32_t i = 0; i < OWN_TERMS; i++) {
        if (pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, terms[i], &value[i]))
            found++;
        else if (missing < 0)
            missing = i;
    }
    *stated = found > 0;
    value[RATING] = m->rating;
    if (missing < 0 && m->ac_limit == INFINITY)
        missing = RATING;
    if (found == 0 || missing < 0)
        return true;
    pvsz_fail_taking(t, pvsz_fail_term(t->diag, PVSIZE_E_NOT_SET, terms[missing]));
    return false;
}

/* A response that ends at or below its beginning is none. */
static bool check_ends(pvsz_taker *t, const double value[TERMS])
{
    if (value[END] > value[START])
        return true;
    pvsz_fail_taking(t, pvsz_fail_range(t->diag, PVSIZE_E_OUT_OF_RANGE, terms[END], value[END],
                                        value[START], 1000));
    pvsz_fail_hint(t->diag, "the reduction must end above the voltage at which it begins");
    return false;
}

static void take_volt_watt(pvsz_taker *t, const pvsz_subject *inverter, int32_t i, pvsz_machine *m)
{
    double value[TERMS] = {0};
    bool stated;

    if (!find_volt_watt(t, inverter, m, value, &stated) || (stated && !check_ends(t, value))) {
        pvsz_fail_at(t->diag, i);
        return;
    }
    if (!stated) {
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_VOLT_WATT, inverter, 0);
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
    double value;
    bool any =
        pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_DISCONNECT_VOLTAGE, &value);

    for (int32_t i = 0; i < OWN_TERMS; i++)
        any |= pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, terms[i], &value);
    return any;
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
