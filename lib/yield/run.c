/* Hour by hour from the inputs to the site. */
#include <math.h>

#include "run.h"

/* inverters */

/* The d.c. limit takes the same share of all inputs, which go up their curves. */
static double throttle(pvsz_runner *r, const pvsz_machine *m, int32_t h, double share)
{
    size_t n = (size_t)r->light->hours;
    double power = 0, weighted = 0;

    for (int32_t k = 0; k < m->intakes; k++) {
        const pvsz_intake *in = &r->plant->intake[m->first + k];
        double p = share * r->power[(size_t)k * n + (size_t)h];
        pvsz_joined joined;

        if (!(p > 0))
            continue;
        pvsz_find_groups(r, in);
        joined = pvsz_lay_hour(r, h);
        power += p;
        weighted += p * pvsz_joined_throttled(&joined, r->voltage[(size_t)k * n + (size_t)h], p);
    }
    return weighted / power;
}

/* From the inputs' d.c. power to a.c. power behind the a.c. cable; `night` while there is none. */
static double convert(pvsz_runner *r, const pvsz_machine *m, pvsz_ledger *ledger, int32_t month,
                      int32_t h)
{
    size_t n = (size_t)r->light->hours;
    double all = 0, weighted = 0, dc, voltage, ac, rated, wired;

    for (int32_t k = 0; k < m->intakes; k++) {
        size_t at = (size_t)k * n + (size_t)h;

        all += r->power[at];
        weighted += r->power[at] * r->voltage[at];
    }
    dc = fmin(all, m->dc_limit);
    voltage = all > 0 ? weighted / all : 0;
    if (dc < all && m->conversion.count > 1)
        voltage = throttle(r, m, h, dc / all);
    ac = m->rating * pvsz_ac_power(&m->conversion, dc / m->rating, voltage);
    rated = fmin(ac, m->ac_limit);
    wired = rated - fmin(rated, m->ac_wiring * rated * rated);
    ledger->loss[PVSIZE_LOSS_DC_POWER][month] += all - dc;
    ledger->loss[PVSIZE_LOSS_CONVERSION][month] += dc - ac;
    ledger->loss[PVSIZE_LOSS_AC_RATING][month] += ac - rated;
    ledger->loss[PVSIZE_LOSS_AC_WIRING][month] += rated - wired;
    ledger->active[PVSIZE_LOSS_DC_POWER] += dc < all;
    ledger->active[PVSIZE_LOSS_AC_RATING] += rated < ac;
    if (rated > 0)
        return wired;
    ledger->loss[PVSIZE_LOSS_NIGHT][month] += m->night;
    return -m->night;
}

static void run_machine(pvsz_runner *r, int32_t i)
{
    const pvsz_machine *m = &r->plant->machine[i];
    pvsz_ledger *ledger = &r->body->inverter[i];
    size_t n = (size_t)r->light->hours;
    double *power = pvsz_power_of(r->body, i);

    ledger->last = PVSIZE_LOSS_EXPORT;
    for (int32_t k = 0; k < m->intakes; k++) {
        double *of_input = r->power + (size_t)k * n;

        for (size_t h = 0; h < n; h++) /* of an input without strings */
            of_input[h] = 0;
        pvsz_run_input(r, m->first + k, of_input, r->voltage + (size_t)k * n);
        pvsz_hand_on(&r->body->input[m->first + k], ledger);
    }
    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];

        for (int32_t h = stretch->first_hour; h < stretch->end_hour; h++)
            power[h] = convert(r, m, ledger, stretch->month, h);
        ledger->loss[PVSIZE_LOSS_NIGHT][stretch->month] += m->night * stretch->dark;
        ledger->output[stretch->month] -= m->night * stretch->dark;
    }
}

/* site */

/* Takes a share of what each inverter feeds in. */
static void curtail(pvsz_runner *r, int32_t month, int32_t h, double share)
{
    for (int32_t i = 0; i < r->plant->machines; i++) {
        pvsz_ledger *ledger = &r->body->inverter[i];
        double *power = &pvsz_power_of(r->body, i)[h];
        double cut = share * fmax(0, *power);

        *power -= cut;
        ledger->loss[PVSIZE_LOSS_EXPORT][month] += cut;
        ledger->active[PVSIZE_LOSS_EXPORT] += cut > 0;
    }
}

/* What all inverters give in an hour, and of that what those give that feed in. */
static double all_power(const pvsz_runner *r, int32_t h, double *fed)
{
    double sum = 0;

    *fed = 0;
    for (int32_t i = 0; i < r->plant->machines; i++) {
        double power = pvsz_power_of(r->body, i)[h];

        sum += power;
        *fed += fmax(0, power);
    }
    return sum;
}

/* Where the output of a row goes. */
static void add_site(pvsz_year_body *body, int32_t month, double power, double load)
{
    double used = fmin(load, fmax(power, 0));

    body->site[PVSIZE_ENERGY_LOAD][month] += load;
    body->site[PVSIZE_ENERGY_USED][month] += used;
    body->site[PVSIZE_ENERGY_EXPORTED][month] += fmax(power, 0) - used;
    body->site[PVSIZE_ENERGY_DRAWN][month] += load - used + fmax(-power, 0);
}

static double night_of_all(const pvsz_plant *plant)
{
    double sum = 0;

    for (int32_t i = 0; i < plant->machines; i++)
        sum += plant->machine[i].night;
    return sum;
}

static void run_site_hour(pvsz_runner *r, int32_t month, int32_t h, double load)
{
    double fed, power = all_power(r, h, &fed);
    double cut = power - load - r->plant->export_limit;

    if (cut > 0) {
        curtail(r, month, h, cut / fed);
        r->body->system->active[PVSIZE_LOSS_EXPORT]++;
        power -= cut;
    }
    add_site(r->body, month, power, load);
}

static void run_site(pvsz_runner *r, const double *load)
{
    const pvsize_light *light = r->light;
    double night = night_of_all(r->plant);
    int32_t h = 0;

    for (int32_t s = 0; s < light->stretches; s++) {
        const pvsz_stretch *stretch = &light->stretch[s];

        for (int32_t row = stretch->first_row; row < stretch->end_row; row++) {
            double of_row = load ? load[row] : 0;

            if (light->state[row] == PVSZ_ROW_LIT)
                run_site_hour(r, stretch->month, h++, of_row);
            else if (light->state[row] == PVSZ_ROW_DARK)
                add_site(r->body, stretch->month, -night, of_row);
        }
    }
}

static void close_ledgers(pvsz_runner *r)
{
    pvsz_ledger *system = r->body->system;

    system->last = PVSIZE_LOSS_EXPORT;
    for (int32_t i = 0; i < r->plant->machines; i++) {
        pvsz_ledger *ledger = &r->body->inverter[i];
        const double *power = pvsz_power_of(r->body, i);

        for (int32_t s = 0; s < r->light->stretches; s++) {
            const pvsz_stretch *stretch = &r->light->stretch[s];

            for (int32_t h = stretch->first_hour; h < stretch->end_hour; h++)
                ledger->output[stretch->month] += power[h];
        }
        pvsz_hand_on(ledger, system);
        for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++)
            system->output[m] += ledger->output[m];
    }
}

/* all */

static int32_t most_intakes(const pvsz_plant *plant)
{
    int32_t most = 1;

    for (int32_t i = 0; i < plant->machines; i++)
        if (plant->machine[i].intakes > most)
            most = plant->machine[i].intakes;
    return most;
}

static bool make_scratch(pvsz_runner *r)
{
    size_t feeds = (size_t)r->plant->feeds + 1;
    size_t hours = (size_t)r->light->hours + 1, most = (size_t)most_intakes(r->plant);

    r->track = pvsz_new(r->memory, feeds, sizeof *r->track);
    r->group = pvsz_new(r->memory, feeds, sizeof *r->group);
    r->branch = pvsz_new(r->memory, feeds, sizeof *r->branch);
    r->power = pvsz_new(r->memory, hours * most, sizeof *r->power);
    r->voltage = pvsz_new(r->memory, hours * most, sizeof *r->voltage);
    return r->track && r->group && r->branch && r->power && r->voltage;
}

static void release_scratch(pvsz_runner *r)
{
    for (int32_t i = 0; r->track && i < r->plant->feeds; i++)
        pvsz_release(r->memory, r->track[i].made);
    pvsz_release(r->memory, r->track);
    pvsz_release(r->memory, r->group);
    pvsz_release(r->memory, r->branch);
    pvsz_release(r->memory, r->power);
    pvsz_release(r->memory, r->voltage);
}

pvsize_status pvsz_run_year(const pvsize_light *light, const pvsz_plant *plant, const double *load,
                            const pvsz_memory *memory, pvsz_year_body *body, pvsize_diag *diag)
{
    pvsz_runner r = {.light = light, .plant = plant, .memory = memory, .body = body};
    bool made = make_scratch(&r);

    for (int32_t i = 0; made && i < r.plant->feeds; i++)
        made = pvsz_find_track(&r, i);
    if (made) {
        for (int32_t i = 0; i < r.plant->feeds; i++)
            pvsz_run_feed(&r, i);
        for (int32_t i = 0; i < r.plant->machines; i++)
            run_machine(&r, i);
        run_site(&r, load);
        close_ledgers(&r);
    }
    release_scratch(&r);
    return made ? PVSIZE_OK : pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}
