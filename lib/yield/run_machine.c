/* From the inputs to what an inverter gives, span by span. */
#include "../physics/elementary.h"
#include "run.h"

/* Hours in which the d.c. limit takes something. */
typedef struct throttled {
    int32_t count;
    int32_t hour[PVSZ_SPAN];
    double share[PVSZ_SPAN];                      /* that is left of each input */
    double power[PVSZ_SPAN], weighted[PVSZ_SPAN]; /* sums over inputs; by voltage */
} throttled;

static void throttle_alike(pvsz_runner *r, const pvsz_course *course, const double *power,
                           throttled *t)
{
    pvsz_alike strings = pvsz_alike_of(r, course->group);
    int32_t hour[PVSZ_SPAN], place[PVSZ_SPAN], n = 0;
    double left[PVSZ_SPAN], voltage[PVSZ_SPAN];

    for (int32_t i = 0; i < t->count; i++) {
        left[n] = t->share[i] * power[t->hour[i]];
        if (!(left[n] > 0))
            continue;
        hour[n] = t->hour[i];
        place[n++] = i;
    }
    pvsz_throttle_rows(&strings, n, hour, left, voltage);
    for (int32_t i = 0; i < n; i++) {
        t->power[place[i]] += course->times * left[i];
        t->weighted[place[i]] += course->times * left[i] * voltage[i];
    }
}

static void throttle_unlike(pvsz_runner *r, const pvsz_course *course, const double *power,
                            const double *voltage, throttled *t)
{
    for (int32_t i = 0; i < t->count; i++) {
        int32_t k = t->hour[i];
        double left = t->share[i] * power[k];
        pvsz_joined joined;

        if (!(left > 0))
            continue;
        joined = pvsz_lay_hour(r, course, k);
        t->power[i] += left;
        t->weighted[i] += left * pvsz_joined_throttled(&joined, voltage[k], left);
    }
}

/* The d.c. limit takes the same share of all inputs, which go up their curves. */
static void throttle(pvsz_runner *r, const pvsz_machine *m, throttled *t, double *mean_voltage)
{
    for (int32_t i = 0; i < t->count; i++)
        t->power[i] = t->weighted[i] = 0;
    for (int32_t k = 0; k < m->intakes; k++) {
        const pvsz_course *course = &r->course[m->first + k];
        const double *power = r->power + (size_t)k * PVSZ_SPAN;

        if (course->times == 0)
            continue;
        if (course->groups == 1)
            throttle_alike(r, course, power, t);
        else if (course->groups > 1)
            throttle_unlike(r, course, power, r->voltage + (size_t)k * PVSZ_SPAN, t);
    }
    for (int32_t i = 0; i < t->count; i++)
        mean_voltage[t->hour[i]] = t->weighted[i] / t->power[i];
}

/* Of all inputs: power, and voltage weighted by it. */
static void join_inputs(const pvsz_runner *r, const pvsz_machine *m, int32_t count, double *all,
                        double *mean_voltage)
{
    for (int32_t k = 0; k < count; k++)
        all[k] = mean_voltage[k] = 0;
    for (int32_t i = 0; i < m->intakes; i++) {
        const double *power = r->power + (size_t)i * PVSZ_SPAN;
        const double *voltage = r->voltage + (size_t)i * PVSZ_SPAN;
        double times = r->course[m->first + i].times;

        for (int32_t k = 0; times > 0 && k < count; k++) {
            all[k] += times * power[k];
            mean_voltage[k] += times * power[k] * voltage[k];
        }
    }
    for (int32_t k = 0; k < count; k++)
        mean_voltage[k] = all[k] > 0 ? mean_voltage[k] / all[k] : 0;
}

/* What is left behind the d.c. limit, as a share of the rating. */
static void limit_dc(pvsz_runner *r, const pvsz_machine *m, int32_t count, const double *all,
                     double *share, double *mean_voltage)
{
    throttled t;

    t.count = 0;
    for (int32_t k = 0; k < count; k++) {
        double dc = pvsz_least(all[k], m->dc_limit);

        share[k] = dc / m->rating;
        if (!(dc < all[k]))
            continue;
        t.hour[t.count] = k;
        t.share[t.count++] = dc / all[k];
    }
    if (m->conversion.count > 1) /* else the voltage does not matter */
        throttle(r, m, &t, mean_voltage);
}

/* Of d.c. power `all` and a.c. power before any limit: what each step leaves. */
typedef struct steps {
    double dc, ac, rated, held, wired, night;
} steps;

PVSZ_INLINE steps steps_of(const pvsz_machine *m, double all, double ac, const double *supply)
{
    double rated = pvsz_least(ac, m->ac_limit);
    double held = supply ? pvsz_at_supply(&m->response, *supply, rated) : rated;

    return (steps){pvsz_least(all, m->dc_limit),
                   ac,
                   rated,
                   held,
                   held - pvsz_least(held, m->ac_wiring * held * held),
                   rated > 0 ? 0 : m->night};
}

/* To what comes out behind the a.c. cable, drawn power where there is nothing to feed in. An
 * inverter that the voltage has disconnected still lives on its array. */
PVSZ_INLINE void feed_in(const pvsz_machine *m, pvsz_ledger *ledger, const pvsz_span *span,
                         const double *all, const double *ac, const double *supply, double *power)
{
    double dc = 0, conversion = 0, rating = 0, voltage = 0, wiring = 0, night = 0;

    for (int32_t k = 0; k < span->count; k++) {
        steps s = steps_of(m, all[k], m->rating * ac[k], supply ? supply + k : NULL);

        dc += all[k] - s.dc;
        conversion += s.dc - s.ac;
        rating += s.ac - s.rated;
        wiring += s.held - s.wired;
        night += s.night;
        ledger->active[PVSIZE_LOSS_DC_POWER] += s.dc < all[k];
        ledger->active[PVSIZE_LOSS_AC_RATING] += s.rated < s.ac;
        if (supply) {
            voltage += s.rated - s.held;
            ledger->active[PVSIZE_LOSS_AC_VOLTAGE] += s.held < s.rated;
        }
        power[k] = s.wired - s.night;
    }
    ledger->loss[PVSIZE_LOSS_DC_POWER][span->month] += dc;
    ledger->loss[PVSIZE_LOSS_CONVERSION][span->month] += conversion;
    ledger->loss[PVSIZE_LOSS_AC_RATING][span->month] += rating;
    ledger->loss[PVSIZE_LOSS_AC_VOLTAGE][span->month] += voltage;
    ledger->loss[PVSIZE_LOSS_AC_WIRING][span->month] += wiring;
    ledger->loss[PVSIZE_LOSS_NIGHT][span->month] += night;
}

static void feed_in_at_supply(const pvsz_runner *r, const pvsz_machine *m, pvsz_ledger *ledger,
                              const pvsz_span *span, const double *all, const double *ac,
                              double *power)
{
    const int32_t *row = r->light->hour.row + span->first;
    double supply[PVSZ_SPAN];

    for (int32_t k = 0; k < span->count; k++)
        supply[k] = r->told->supply[row[k]];
    feed_in(m, ledger, span, all, ac, supply, power);
}

void pvsz_run_machine(pvsz_runner *r, int32_t i, const pvsz_span *span)
{
    const pvsz_machine *m = &r->plant->machine[i];
    pvsz_ledger *ledger = &r->body->inverter[i];
    double *power = pvsz_power_of(r->body, i) + span->first;
    double all[PVSZ_SPAN], voltage[PVSZ_SPAN], share[PVSZ_SPAN], ac[PVSZ_SPAN];

    for (int32_t k = 0; k < m->intakes; k++)
        if (r->course[m->first + k].times > 0)
            pvsz_run_input(r, m->first + k, span, r->power + (size_t)k * PVSZ_SPAN,
                           r->voltage + (size_t)k * PVSZ_SPAN);
    join_inputs(r, m, span->count, all, voltage);
    limit_dc(r, m, span->count, all, share, voltage);
    pvsz_ac_powers(&m->conversion, (size_t)span->count, share, voltage, ac);
    if (m->responds)
        feed_in_at_supply(r, m, ledger, span, all, ac, power);
    else
        feed_in(m, ledger, span, all, ac, NULL, power);
}
