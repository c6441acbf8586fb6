/* From the strings to what their inputs take, span by span. */
#include "../physics/sums.h"
#include "run.h"

/* strings */

static int32_t find_track(const pvsz_runner *r, const pvsz_feed *feed)
{
    int32_t t = 0;

    while (t < r->tracks &&
           !(r->track[t].feed->pair == feed->pair && r->track[t].feed->added == feed->added))
        t++;
    return t;
}

/* The resistance of cables belongs to the curve like that of the cells. */
static void lay_track(pvsz_runner *r, int32_t i)
{
    const pvsz_feed *feed = &r->plant->feed[i];
    int32_t t = find_track(r, feed);
    pvsz_track *track = &r->track[t];

    r->track_of[i] = t;
    if (t < r->tracks)
        return;
    r->tracks++;
    track->feed = feed;
    track->module = feed->pair->module;
    track->module.stc.series += feed->added;
    track->room = feed->added > 0 ? r->room + (size_t)t * 2 * PVSZ_SPAN : NULL;
}

/* Equal strings on an input together; the groups of all inputs stand one after the other. */
static pvsz_group *lay_groups(pvsz_runner *r, pvsz_course *course, pvsz_group *room)
{
    course->group = room;
    for (int32_t i = course->in->first, k = 0; k < course->in->feeds;
         k++, i = r->plant->feed[i].next) {
        const pvsz_feed *feed = &r->plant->feed[i];
        int32_t g = 0;

        while (g < course->groups &&
               !(room[g].track == r->track_of[i] && room[g].modules == feed->modules))
            g++;
        if (g == course->groups)
            room[course->groups++] = (pvsz_group){r->track_of[i], feed->modules, 0};
        room[g].strings += feed->strings;
    }
    return room + course->groups;
}

/* Whether both take the same in every hour: like limits, and like strings alone. */
static bool are_alike(const pvsz_course *a, const pvsz_course *b)
{
    const pvsz_intake *x = a->in, *y = b->in;

    return a->groups == 1 && b->groups == 1 && a->group->track == b->group->track &&
           a->group->modules == b->group->modules && a->group->strings == b->group->strings &&
           x->lowest == y->lowest && x->highest == y->highest && x->start == y->start &&
           x->current == y->current && x->power == y->power;
}

/* Of like inputs of an inverter the first runs for all. */
static void find_likes(pvsz_runner *r, const pvsz_machine *m)
{
    for (int32_t i = m->first; i < m->first + m->intakes; i++) {
        int32_t k = m->first;

        while (k < i && !are_alike(&r->course[k], &r->course[i]))
            k++;
        r->course[i].like = r->course[k].like = k;
        r->course[k].times++;
    }
}

void pvsz_lay_courses(pvsz_runner *r)
{
    pvsz_group *room = r->group;

    for (int32_t i = 0; i < r->plant->feeds; i++)
        lay_track(r, i);
    for (int32_t i = 0; i < r->plant->intakes; i++) {
        r->course[i].in = &r->plant->intake[i];
        room = lay_groups(r, &r->course[i], room);
    }
    for (int32_t i = 0; i < r->plant->machines; i++)
        find_likes(r, &r->plant->machine[i]);
}

static void run_track(pvsz_track *t, const pvsz_span *span)
{
    const pvsz_pair *pair = t->feed->pair;
    size_t first = (size_t)span->first, n = (size_t)span->count;

    t->peaks = (pvsz_peaks){pair->pane->net + first, pair->pane->cell + first,
                            pair->voltage + first, pair->current + first};
    if (t->room) {
        pvsz_wired_mpps(&pair->module, t->feed->added, n, &t->peaks, t->room, t->room + PVSZ_SPAN);
        t->peaks.voltage = t->room;
        t->peaks.current = t->room + PVSZ_SPAN;
    }
    t->sums[span->month] += pvsz_sum_products(n, t->peaks.voltage, t->peaks.current);
}

void pvsz_run_tracks(pvsz_runner *r, const pvsz_span *span)
{
    for (int32_t t = 0; t < r->tracks; t++)
        run_track(&r->track[t], span);
}

void pvsz_close_feed(pvsz_runner *r, int32_t i)
{
    const pvsz_feed *feed = &r->plant->feed[i];
    const pvsz_pair *pair = feed->pair;
    const double *sums = r->track[r->track_of[i]].sums;
    pvsz_ledger *ledger = &r->body->array[i];
    double by_sun = feed->stc / PVSZ_STC_IRRADIANCE, clean = r->light->clean;

    ledger->last = PVSIZE_LOSS_DC_WIRING;
    ledger->rated = feed->rated;
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        double gross = pair->pane->gross[m], glass = pair->pane->glass[m];
        double at_25 = feed->count * pair->at_25[m], own = feed->count * pair->own[m];

        r->body->gross[i][m] = gross;
        r->body->net[i][m] = glass * clean;
        ledger->output[m] = feed->modules * feed->strings * sums[m];
        ledger->reference[m] = by_sun * gross;
        ledger->loss[PVSIZE_LOSS_GLASS][m] = by_sun * (gross - glass);
        ledger->loss[PVSIZE_LOSS_SOILING][m] = by_sun * glass * (1 - clean);
        ledger->loss[PVSIZE_LOSS_LOW_LIGHT][m] = by_sun * glass * clean - at_25;
        ledger->loss[PVSIZE_LOSS_TEMPERATURE][m] = at_25 - own;
        ledger->loss[PVSIZE_LOSS_STATED][m] = own * (1 - r->light->kept);
        ledger->loss[PVSIZE_LOSS_DC_WIRING][m] = own * r->light->kept - ledger->output[m];
    }
}

/* inputs */

pvsz_alike pvsz_alike_of(const pvsz_runner *r, const pvsz_group *group)
{
    const pvsz_track *t = &r->track[group->track];

    return (pvsz_alike){&t->module, t->peaks, group->modules, group->strings};
}

pvsz_joined pvsz_lay_hour(pvsz_runner *r, const pvsz_course *course, int32_t k)
{
    for (int32_t g = 0; g < course->groups; g++) {
        pvsz_alike strings = pvsz_alike_of(r, &course->group[g]);

        r->branch[g] = pvsz_alike_at(&strings, k);
        if (course->groups > 1) /* else no other string to block */
            r->branch[g] = pvsz_branch_of(&r->branch[g].module, strings.modules, strings.strings);
    }
    return (pvsz_joined){r->branch, (size_t)course->groups,
                         r->light->blocked && course->groups > 1};
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

/* Whether light went on from the hour before this one; in the first of all nothing feeds yet. */
static bool follows(const pvsize_light *light, int32_t h)
{
    return light->hour.row[h] == light->hour.row[h - 1] + 1;
}

/* Open-circuit voltage is above that of the maximum-power point. */
static bool may_start(pvsz_runner *r, const pvsz_course *course, int32_t k, double voltage)
{
    pvsz_joined joined;

    if (voltage >= course->in->start)
        return true;
    joined = pvsz_lay_hour(r, course, k);
    return pvsz_may_start(course->in, &joined);
}

/* Where the strings would be by themselves. */
static void lay_own(const pvsz_alike *strings, int32_t count, double *power, double *voltage)
{
    for (int32_t k = 0; k < count; k++) {
        pvsz_point own = pvsz_own_point(strings, k);

        power[k] = own.voltage * own.current;
        voltage[k] = own.voltage;
    }
}

/* Equal strings: all hours at once, then those put to nothing in which the input does not feed. */
static void run_alike(pvsz_runner *r, int32_t i, const pvsz_span *span, double *power,
                      double *voltage)
{
    pvsz_course *course = &r->course[i];
    pvsz_alike strings = pvsz_alike_of(r, course->group);
    pvsz_holds holds;
    int32_t held = 0;

    lay_own(&strings, span->count, power, voltage);
    pvsz_hold_rows(course->in, &strings, span->count, &holds);
    for (int32_t k = 0; k < span->count; k++) {
        bool limited = held < holds.count && holds.hour[held] == k;
        bool feeding =
            course->in->start <= 0 || (course->feeding && follows(r->light, span->first + k));
        pvsz_hold hold;

        course->feeding = true;
        if (feeding && !limited)
            continue;
        if (limited)
            hold = holds.hold[held++];
        else
            hold = (pvsz_hold){{power[k], power[k], power[k], power[k]}, voltage[k], power[k] > 0};
        if (!feeding && !may_start(r, course, k, voltage[k]))
            hold = (pvsz_hold){{power[k], 0, 0, 0}, 0, false};
        add_limits(&r->body->input[i], span->month, &hold);
        course->feeding = hold.feeds;
        power[k] = hold.power[PVSZ_AT_POWER];
        voltage[k] = hold.voltage;
    }
}

/* Unlike strings, in one hour. */
static pvsz_hold hold_unlike(pvsz_runner *r, const pvsz_course *course, int32_t k, bool feeding,
                             double *mismatch)
{
    pvsz_joined joined = pvsz_lay_hour(r, course, k);
    pvsz_point best = pvsz_joined_mpp(&joined);
    double own = 0;
    pvsz_hold hold = {0};

    for (int32_t g = 0; g < course->groups; g++) {
        pvsz_alike strings = pvsz_alike_of(r, &course->group[g]);
        pvsz_point point = pvsz_own_point(&strings, k);

        own += point.voltage * point.current;
    }
    *mismatch = own - best.voltage * best.current;
    if (feeding || pvsz_may_start(course->in, &joined))
        return pvsz_hold_at(course->in, &joined, best);
    hold.power[PVSZ_AT_BEST] = best.voltage * best.current;
    return hold;
}

static void run_unlike(pvsz_runner *r, int32_t i, const pvsz_span *span, double *power,
                       double *voltage)
{
    pvsz_course *course = &r->course[i];
    pvsz_ledger *ledger = &r->body->input[i];

    for (int32_t k = 0; k < span->count; k++) {
        bool feeding =
            course->in->start <= 0 || (course->feeding && follows(r->light, span->first + k));
        double mismatch;
        pvsz_hold hold = hold_unlike(r, course, k, feeding, &mismatch);

        ledger->loss[PVSIZE_LOSS_MISMATCH][span->month] += mismatch;
        add_limits(ledger, span->month, &hold);
        course->feeding = hold.feeds;
        power[k] = hold.power[PVSZ_AT_POWER];
        voltage[k] = hold.voltage;
    }
}

void pvsz_run_input(pvsz_runner *r, int32_t i, const pvsz_span *span, double *power,
                    double *voltage)
{
    if (r->course[i].groups == 1)
        run_alike(r, i, span, power, voltage);
    else if (r->course[i].groups > 1)
        run_unlike(r, i, span, power, voltage);
    else /* without strings; only the power is looked at */
        for (int32_t k = 0; k < span->count; k++)
            power[k] = voltage[k] = 0;
    r->body->input[i].output[span->month] += pvsz_total((size_t)span->count, power);
}
