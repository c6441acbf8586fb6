/* Hour by hour from the strings to what their inputs take. */
#include "run.h"

/* strings */

static pvsz_module wired_module(const pvsz_feed *feed)
{
    pvsz_module module = feed->pair->module;

    module.stc.series += feed->added;
    return module;
}

/* Points with the resistance of the cables, which belong to the curve like that of the cells;
 * equal ones once. */
bool pvsz_find_track(pvsz_runner *r, int32_t i)
{
    const pvsz_feed *feed = &r->plant->feed[i];
    size_t n = (size_t)r->light->hours;
    pvsz_months unused = {0};
    pvsz_module module;

    for (int32_t k = 0; k < i; k++)
        if (r->plant->feed[k].pair == feed->pair && r->plant->feed[k].added == feed->added) {
            r->track[i] = (pvsz_track){r->track[k].voltage, r->track[k].current, NULL};
            return true;
        }
    r->track[i] = (pvsz_track){feed->pair->voltage, feed->pair->current, NULL};
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
static void add_own(const pvsz_runner *r, int32_t i, pvsz_months sums)
{
    const pvsz_track *t = &r->track[i];
    double scale = r->plant->feed[i].modules * r->plant->feed[i].strings;

    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];
        double sum = 0;

        for (int32_t h = stretch->first_hour; h < stretch->end_hour; h++)
            sum += t->voltage[h] * t->current[h];
        sums[stretch->month] += scale * sum;
    }
}

void pvsz_run_feed(pvsz_runner *r, int32_t i)
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

void pvsz_hand_on(const pvsz_ledger *from, pvsz_ledger *to)
{
    to->rated += from->rated;
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        to->reference[m] += from->reference[m];
        for (int32_t loss = 1; loss <= from->last; loss++)
            to->loss[loss][m] += from->loss[loss][m];
    }
}

/* inputs */

void pvsz_find_groups(pvsz_runner *r, const pvsz_intake *in)
{
    r->groups = 0;
    for (int32_t i = in->first, k = 0; k < in->feeds; k++, i = r->plant->feed[i].next) {
        const pvsz_feed *feed = &r->plant->feed[i];
        int32_t g = 0;

        while (g < r->groups && !(r->track[r->group[g].feed].voltage == r->track[i].voltage &&
                                  r->group[g].modules == feed->modules))
            g++;
        if (g == r->groups)
            r->group[r->groups++] = (pvsz_group){i, wired_module(feed), feed->modules, 0};
        r->group[g].strings += feed->strings;
    }
}

pvsz_joined pvsz_lay_hour(pvsz_runner *r, int32_t h)
{
    for (int32_t g = 0; g < r->groups; g++) {
        const pvsz_group *all = &r->group[g];
        const pvsz_pane *pane = r->plant->feed[all->feed].pair->pane;
        pvsz_diode diode = pvsz_module_at(&all->module, pane->net[h], pane->cell[h]);

        if (r->groups > 1)
            r->branch[g] = pvsz_branch_of(&diode, all->modules, all->strings);
        else /* no other string to block: its open-circuit voltage is not needed */
            r->branch[g] = (pvsz_branch){diode, all->modules, all->strings, 0};
    }
    return (pvsz_joined){r->branch, (size_t)r->groups, r->light->blocked && r->groups > 1};
}

static pvsz_point own_point(const pvsz_runner *r, int32_t g, int32_t h)
{
    const pvsz_track *t = &r->track[r->group[g].feed];

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
static pvsz_hold hold_hour(pvsz_runner *r, const pvsz_intake *in, int32_t h, bool feeding,
                           double *mismatch)
{
    pvsz_joined joined = pvsz_lay_hour(r, h);
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

static void run_intake(pvsz_runner *r, int32_t i, double *power, double *voltage)
{
    const pvsz_intake *in = &r->plant->intake[i];
    pvsz_ledger *ledger = &r->body->input[i];
    bool feeding = false;

    pvsz_find_groups(r, in);
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

void pvsz_run_input(pvsz_runner *r, int32_t i, double *power, double *voltage)
{
    const pvsz_intake *in = &r->plant->intake[i];
    pvsz_ledger *ledger = &r->body->input[i];

    ledger->last = PVSIZE_LOSS_INPUT_POWER;
    for (int32_t f = in->first, k = 0; k < in->feeds; k++, f = r->plant->feed[f].next)
        pvsz_hand_on(&r->body->array[f], ledger);
    if (in->feeds > 0)
        run_intake(r, i, power, voltage);
}
