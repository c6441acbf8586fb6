/* The year hour by hour: strings to inputs, inputs to inverters, inverters to the site. */
#include <math.h>

#include "operate.h"
#include "year.h"

/* Points of equal feeds, by hour, per module. */
typedef struct track {
    const double *voltage, *current;
    double *made; /* null where they are the pair's own */
} track;

/* Feeds on one input that are alike but for the count of strings. */
typedef struct group {
    int32_t feed;
    pvsz_module module;
    double modules, strings;
} group;

typedef struct runner {
    const pvsize_light *light;
    const pvsz_plant *plant;
    const pvsz_memory *memory;
    pvsz_year_body *body;
    track *track;
    group *group;
    pvsz_branch *branch;
    int32_t groups;          /* on the input at hand */
    double *power, *voltage; /* by input of the inverter at hand, and hour */
} runner;

/* strings */

static pvsz_module wired_module(const pvsz_feed *feed)
{
    pvsz_module module = feed->pair->module;

    module.stc.series += feed->added;
    return module;
}

/* Points with the resistance of the cables, which belong to the curve like that of the cells;
 * equal ones once. */
static bool find_track(runner *r, int32_t i)
{
    const pvsz_feed *feed = &r->plant->feed[i];
    size_t n = (size_t)r->light->hours;
    pvsz_months unused = {0};
    pvsz_module module;

    for (int32_t k = 0; k < i; k++)
        if (r->plant->feed[k].pair == feed->pair && r->plant->feed[k].added == feed->added) {
            r->track[i] = (track){r->track[k].voltage, r->track[k].current, NULL};
            return true;
        }
    r->track[i] = (track){feed->pair->voltage, feed->pair->current, NULL};
    if (feed->added <= 0)
        return true;
    r->track[i].made = pvsz_new(r->memory, 2 * n + 1, sizeof *r->track[i].made);
    if (!r->track[i].made)
        return false;
    module = wired_module(feed);
    pvsz_add_points(r->light, &module, feed->pair->pane->net, feed->pair->pane->cell,
                    r->track[i].made, r->track[i].made + n, unused);
    r->track[i].voltage = r->track[i].made;
    r->track[i].current = r->track[i].made + n;
    return true;
}

/* Sum by month of what a feed gives at its own maximum-power points. */
static void add_own(const runner *r, int32_t i, pvsz_months sums)
{
    const track *t = &r->track[i];
    double scale = r->plant->feed[i].modules * r->plant->feed[i].strings;

    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];
        double sum = 0;

        for (int32_t h = stretch->first_hour; h < stretch->end_hour; h++)
            sum += t->voltage[h] * t->current[h];
        sums[stretch->month] += scale * sum;
    }
}

/* The ledger of an array: everything before strings meet. */
static void run_feed(runner *r, int32_t i)
{
    const pvsz_feed *feed = &r->plant->feed[i];
    const pvsz_pair *pair = feed->pair;
    pvsz_ledger *ledger = &r->body->array[i];
    double by_sun = feed->stc / PVSZ_STC_IRRADIANCE, clean = r->light->clean;

    ledger->last = PVSIZE_LOSS_DC_WIRING;
    ledger->rated = feed->rated;
    add_own(r, i, ledger->output);
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        double gross = pair->pane->gross[m], glass = pair->pane->glass[m];
        double at_25 = feed->count * pair->at_25[m], own = feed->count * pair->own[m];

        r->body->gross[i][m] = gross;
        r->body->net[i][m] = glass * clean;
        ledger->reference[m] = by_sun * gross;
        ledger->loss[PVSIZE_LOSS_GLASS][m] = by_sun * (gross - glass);
        ledger->loss[PVSIZE_LOSS_SOILING][m] = by_sun * glass * (1 - clean);
        ledger->loss[PVSIZE_LOSS_LOW_LIGHT][m] = by_sun * glass * clean - at_25;
        ledger->loss[PVSIZE_LOSS_TEMPERATURE][m] = at_25 - own;
        ledger->loss[PVSIZE_LOSS_STATED][m] = own * (1 - r->light->kept);
        ledger->loss[PVSIZE_LOSS_DC_WIRING][m] = own * r->light->kept - ledger->output[m];
    }
}

/* A ledger goes on in that of what it hangs on. */
static void hand_on(const pvsz_ledger *from, pvsz_ledger *to)
{
    to->rated += from->rated;
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        to->reference[m] += from->reference[m];
        for (int32_t loss = 1; loss <= from->last; loss++)
            to->loss[loss][m] += from->loss[loss][m];
    }
}

/* inputs */

static void find_groups(runner *r, const pvsz_intake *in)
{
    r->groups = 0;
    for (int32_t i = in->first, k = 0; k < in->feeds; k++, i = r->plant->feed[i].next) {
        const pvsz_feed *feed = &r->plant->feed[i];
        int32_t g = 0;

        while (g < r->groups && !(r->track[r->group[g].feed].voltage == r->track[i].voltage &&
                                  r->group[g].modules == feed->modules))
            g++;
        if (g == r->groups)
            r->group[r->groups++] = (group){i, wired_module(feed), feed->modules, 0};
        r->group[g].strings += feed->strings;
    }
}

static pvsz_joined lay_hour(runner *r, int32_t h)
{
    for (int32_t g = 0; g < r->groups; g++) {
        const group *all = &r->group[g];
        const pvsz_pane *pane = r->plant->feed[all->feed].pair->pane;
        pvsz_diode diode = pvsz_module_at(&all->module, pane->net[h], pane->cell[h]);

        if (r->groups > 1)
            r->branch[g] = pvsz_branch_of(&diode, all->modules, all->strings);
        else /* no other string to block: its open-circuit voltage is not needed */
            r->branch[g] = (pvsz_branch){diode, all->modules, all->strings, 0};
    }
    return (pvsz_joined){r->branch, (size_t)r->groups, r->light->blocked && r->groups > 1};
}

static pvsz_point own_point(const runner *r, int32_t g, int32_t h)
{
    const track *t = &r->track[r->group[g].feed];

    return (pvsz_point){r->group[g].modules * t->voltage[h], r->group[g].strings * t->current[h]};
}

static void add_limits(pvsz_ledger *ledger, int32_t month, const pvsz_hold *hold)
{
    for (int32_t k = PVSZ_IN_WINDOW; k < PVSZ_HOLDS; k++) {
        int32_t loss = PVSIZE_LOSS_WINDOW + k - PVSZ_IN_WINDOW;
        double lost = hold->power[k - 1] - hold->power[k];

        ledger->loss[loss][month] += lost;
        ledger->active[loss] += lost > 1e-9 * hold->power[k - 1];
    }
}

/* One hour in which strings are unlike, or a limit may take something. */
static pvsz_hold hold_hour(runner *r, const pvsz_intake *in, int32_t h, bool feeding,
                           double *mismatch)
{
    pvsz_joined joined = lay_hour(r, h);
    pvsz_point best = own_point(r, 0, h);
    double own = 0;
    pvsz_hold hold = {0};

    for (int32_t g = 0; g < r->groups; g++) {
        pvsz_point point = own_point(r, g, h);

        own += point.voltage * point.current;
    }
    if (r->groups > 1)
        best = pvsz_joined_mpp(&joined);
    *mismatch = own - best.voltage * best.current;
    if (feeding || pvsz_may_start(in, &joined))
        return pvsz_hold_at(in, &joined, best);
    hold.power[PVSZ_AT_BEST] = best.voltage * best.current;
    return hold;
}

/* Whether light went on from the hour before this one. */
static bool follows(const pvsize_light *light, int32_t h)
{
    return h > 0 && light->hour[h].row == light->hour[h - 1].row + 1;
}

static void run_intake(runner *r, int32_t i, double *power, double *voltage)
{
    const pvsz_intake *in = &r->plant->intake[i];
    pvsz_ledger *ledger = &r->body->input[i];
    bool feeding = false;

    find_groups(r, in);
    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];
        double sum = 0;

        for (int32_t h = stretch->first_hour; h < stretch->end_hour; h++) {
            pvsz_point point = own_point(r, 0, h);
            double mismatch = 0;

            feeding = (feeding && follows(r->light, h)) || in->start <= 0;
            power[h] = point.voltage * point.current;
            voltage[h] = point.voltage;
            if (!feeding || r->groups > 1 || !pvsz_is_free(in, point)) {
                pvsz_hold hold = hold_hour(r, in, h, feeding, &mismatch);

                power[h] = hold.power[PVSZ_AT_POWER];
                voltage[h] = hold.voltage;
                feeding = hold.feeds;
                ledger->loss[PVSIZE_LOSS_MISMATCH][stretch->month] += mismatch;
                add_limits(ledger, stretch->month, &hold);
            }
            sum += power[h];
        }
        ledger->output[stretch->month] += sum;
    }
}

static void run_input(runner *r, int32_t i, double *power, double *voltage)
{
    const pvsz_intake *in = &r->plant->intake[i];
    pvsz_ledger *ledger = &r->body->input[i];

    ledger->last = PVSIZE_LOSS_INPUT_POWER;
    for (int32_t f = in->first, k = 0; k < in->feeds; k++, f = r->plant->feed[f].next)
        hand_on(&r->body->array[f], ledger);
    if (in->feeds > 0)
        run_intake(r, i, power, voltage);
}

/* inverters */

/* The d.c. limit takes the same share of all inputs, which go up their curves. */
static double throttle(runner *r, const pvsz_machine *m, int32_t h, double share)
{
    size_t n = (size_t)r->light->hours;
    double power = 0, weighted = 0;

    for (int32_t k = 0; k < m->intakes; k++) {
        const pvsz_intake *in = &r->plant->intake[m->first + k];
        double p = share * r->power[(size_t)k * n + (size_t)h];
        pvsz_joined joined;

        if (!(p > 0))
            continue;
        find_groups(r, in);
        joined = lay_hour(r, h);
        power += p;
        weighted += p * pvsz_joined_throttled(&joined, r->voltage[(size_t)k * n + (size_t)h], p);
    }
    return weighted / power;
}

/* From the inputs' d.c. power to a.c. power behind the a.c. cable; `night` while there is none. */
static double convert(runner *r, const pvsz_machine *m, pvsz_ledger *ledger, int32_t month,
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

static void run_machine(runner *r, int32_t i)
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
        run_input(r, m->first + k, of_input, r->voltage + (size_t)k * n);
        hand_on(&r->body->input[m->first + k], ledger);
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
static void curtail(runner *r, int32_t month, int32_t h, double share)
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
static double all_power(const runner *r, int32_t h, double *fed)
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

static void run_site_hour(runner *r, int32_t month, int32_t h, double load)
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

static void run_site(runner *r, const double *load)
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

static void close_ledgers(runner *r)
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
        hand_on(ledger, system);
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

static bool make_scratch(runner *r)
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

static void release_scratch(runner *r)
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
    runner r = {.light = light, .plant = plant, .memory = memory, .body = body};
    bool made = make_scratch(&r);

    for (int32_t i = 0; made && i < r.plant->feeds; i++)
        made = find_track(&r, i);
    if (made) {
        for (int32_t i = 0; i < r.plant->feeds; i++)
            run_feed(&r, i);
        for (int32_t i = 0; i < r.plant->machines; i++)
            run_machine(&r, i);
        run_site(&r, load);
        close_ledgers(&r);
    }
    release_scratch(&r);
    return made ? PVSIZE_OK : pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}
