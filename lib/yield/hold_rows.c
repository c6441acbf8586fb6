/* Limits in rows: the hours that one takes something of are picked, and solved together. */
#include "hold_rows.h"

#include "../physics/elementary.h"

pvsz_branch pvsz_alike_at(const pvsz_alike *s, int32_t hour)
{
    pvsz_diode diode =
        pvsz_module_at(s->module, s->peaks.irradiance[hour], s->peaks.cell_temp[hour]);

    return (pvsz_branch){diode, s->modules, s->strings, 0};
}

void pvsz_throttle_rows(const pvsz_alike *s, int32_t n, const int32_t *hour, const double *power,
                        double *voltage)
{
    for (int32_t i = 0; i < n; i++)
        voltage[i] = power[i] / (s->modules * s->strings);
    pvsz_throttled_voltages(s->module, &s->peaks, (size_t)n, hour, voltage, voltage);
    for (int32_t i = 0; i < n; i++)
        voltage[i] *= s->modules;
}

/* Hours picked out of those of `holds`, by their places there. */
typedef struct picked {
    int32_t count;
    int32_t place[PVSZ_SPAN], hour[PVSZ_SPAN];
    double asked[PVSZ_SPAN];
} picked;

static void pick(picked *p, const pvsz_holds *holds, int32_t place, double asked)
{
    p->place[p->count] = place;
    p->hour[p->count] = holds->hour[place];
    p->asked[p->count++] = asked;
}

/* Outside the window, which is seldom, by the plain way. */
static pvsz_hold hold_plain(const pvsz_intake *in, const pvsz_alike *s, int32_t hour)
{
    pvsz_branch branch = pvsz_alike_at(s, hour);
    pvsz_joined joined = {&branch, 1, false};

    return pvsz_hold_at(in, &joined, pvsz_own_point(s, hour));
}

static void hold_by_current(const pvsz_intake *in, const pvsz_alike *s, picked *p,
                            pvsz_holds *holds, picked *by_power)
{
    double voltage[PVSZ_SPAN];

    pvsz_held_voltages(s->module, &s->peaks, (size_t)p->count, p->hour, p->asked, voltage);
    for (int32_t i = 0; i < p->count; i++) {
        pvsz_hold *hold = &holds->hold[p->place[i]];
        double power;

        hold->voltage = pvsz_greatest(hold->voltage, s->modules * voltage[i]);
        power = pvsz_least(hold->voltage * in->current, hold->power[PVSZ_IN_WINDOW]);
        hold->power[PVSZ_AT_CURRENT] = power;
        hold->power[PVSZ_AT_POWER] = pvsz_least(power, in->power);
        if (power > in->power)
            pick(by_power, holds, p->place[i], in->power);
    }
}

static void hold_by_power(const pvsz_alike *s, picked *p, pvsz_holds *holds)
{
    double voltage[PVSZ_SPAN];

    pvsz_throttle_rows(s, p->count, p->hour, p->asked, voltage);
    for (int32_t i = 0; i < p->count; i++) {
        pvsz_hold *hold = &holds->hold[p->place[i]];

        hold->power[PVSZ_AT_POWER] = p->asked[i];
        hold->voltage = voltage[i];
    }
}

void pvsz_hold_rows(const pvsz_intake *in, const pvsz_alike *s, int32_t hours, pvsz_holds *holds)
{
    picked by_current, by_power;

    by_current.count = by_power.count = holds->count = 0;
    for (int32_t h = 0; h < hours; h++) {
        holds->hour[holds->count] = h;
        holds->count += !pvsz_is_free(in, pvsz_own_point(s, h));
    }
    for (int32_t i = 0; i < holds->count; i++) {
        pvsz_point own = pvsz_own_point(s, holds->hour[i]);
        double power = own.voltage * own.current;

        if (own.voltage < in->lowest || own.voltage > in->highest) {
            holds->hold[i] = hold_plain(in, s, holds->hour[i]);
            continue;
        }
        holds->hold[i] = (pvsz_hold){{power, power, power, power}, own.voltage, own.current > 0};
        if (own.current > in->current)
            pick(&by_current, holds, i, in->current / s->strings);
        else
            pick(&by_power, holds, i, in->power);
    }
    hold_by_current(in, s, &by_current, holds, &by_power);
    hold_by_power(s, &by_power, holds);
}
