/* Taking a system in: limits, conversion, and what is not given. */
#include "taker.h"

#include <math.h>

#include "../equipment/curve.h"

void pvsz_fail_taking(pvsz_taker *t, pvsize_status status)
{
    if (!t->status)
        t->status = status;
}

void pvsz_grant(pvsz_taker *t, int32_t what, const pvsz_subject *subject, double value)
{
    pvsz_plant *p = t->plant;
    pvsz_granted *grown =
        pvsz_grow(t->memory, p->granted, p->grants, &p->grants_room, sizeof *p->granted);
    int32_t number = subject ? pvsz_subject_number(t->report, subject) : -1;

    if (!grown) {
        pvsz_fail_taking(t, pvsz_fail(t->diag, PVSIZE_E_NO_MEMORY));
        return;
    }
    p->granted = grown;
    p->granted[p->grants++] = (pvsz_granted){what, number, value};
}

double pvsz_limit_of(pvsz_taker *t, const pvsz_subject *subject, int32_t term, double none,
                     int32_t what)
{
    double value = none;

    if (!pvsz_taken_number(subject, subject->scope, term, &value) && what)
        pvsz_grant(t, what, subject, 0);
    return value;
}

/* arrays */

/* Fits the curve of an array's module, or takes it from an array before it. */
static pvsize_status fit_module(pvsz_taker *t, const pvsz_subject *array, int32_t i,
                                pvsize_curve *curve)
{
    for (int32_t k = 0; k < i; k++)
        if (t->report->design.subject[PVSZ_KIND_ARRAY][k].at[PVSZ_KIND_MODULE] ==
            array->at[PVSZ_KIND_MODULE]) {
            curve->module = t->plant->feed[k].pair->module;
            return PVSIZE_OK;
        }
    return pvsz_curve_fit(array->spec[PVSZ_KIND_MODULE], curve, t->diag);
}

/* Whether a failure names a parameter of the plane; else it is the array's, or its module's. */
static bool is_of_plane(const pvsize_diag *diag)
{
    const pvsz_term *term = diag ? pvsz_term_find(diag->term) : NULL;

    return term && term->kind == PVSZ_KIND_PLANE;
}

static void take_feed(pvsz_taker *t, int32_t i)
{
    const pvsz_subject *array = &t->report->design.subject[PVSZ_KIND_ARRAY][i];
    const pvsize_spec *module = array->spec[PVSZ_KIND_MODULE],
                      *plane = array->spec[PVSZ_KIND_PLANE];
    pvsz_feed *feed = &t->plant->feed[i];
    const pvsz_pane *pane = NULL;
    pvsize_curve curve = {0};
    bool rack = false, guessed = false;
    double strings = 0;
    pvsize_status status = PVSIZE_OK;

    if (!pvsz_taken_number(array, PVSZ_KIND_ARRAY, PVSIZE_ARRAY_MODULES_PER_STRING, &feed->modules))
        status = pvsz_fail_term(t->diag, PVSIZE_E_NOT_SET, PVSIZE_ARRAY_MODULES_PER_STRING);
    else if (!pvsz_taken_number(array, PVSZ_KIND_ARRAY, PVSIZE_ARRAY_STRINGS, &strings))
        status = pvsz_fail_term(t->diag, PVSIZE_E_NOT_SET, PVSIZE_ARRAY_STRINGS);
    else if (!plane)
        status = pvsz_fail_term(t->diag, PVSIZE_E_NOT_SET, PVSIZE_ARRAY_PLANE);
    if (!status)
        status = pvsz_pane_of(t->light, plane, module, &pane, &rack, t->diag);
    if (!status)
        status = fit_module(t, array, i, &curve);
    if (!status)
        status = pvsz_pair_of(t->light, &curve.module, pane, &feed->pair, t->diag);
    if (status) {
        pvsz_fail_at(t->diag, is_of_plane(t->diag) ? array->at[PVSZ_KIND_PLANE] : i);
        pvsz_fail_taking(t, status);
        return;
    }
    feed->next = array->next_on_input;
    feed->count = (int32_t)(feed->modules * strings);
    feed->strings = strings * t->light->kept;
    feed->rated = feed->count * pvsz_rated_power(module, &guessed);
    feed->stc = feed->count * feed->pair->stc;
    feed->added = pvsz_added_ohm(t, array, feed, strings);
    if (rack)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_RACK_HEAT_LOSS, array, PVSZ_RACK_LOSS);
    if (guessed)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_PMAX, array, feed->rated / feed->count);
}

static void take_intake(pvsz_taker *t, int32_t i)
{
    const pvsz_subject *input = &t->report->design.subject[PVSZ_KIND_INPUT][i];
    pvsz_intake *in = &t->plant->intake[i];

    in->first = input->first_below;
    in->feeds = input->below;
    in->lowest = 0;
    in->highest = in->current = in->power = INFINITY;
    if (in->feeds == 0)
        return; /* nothing of it is asked */
    in->lowest =
        pvsz_limit_of(t, input, PVSIZE_INPUT_TRACKING_MIN, 0, PVSIZE_YEAR_ASSUMPTION_NO_WINDOW);
    in->highest = pvsz_limit_of(t, input, PVSIZE_INPUT_TRACKING_MAX, INFINITY,
                                PVSIZE_YEAR_ASSUMPTION_NO_WINDOW);
    in->start = pvsz_limit_of(t, input, PVSIZE_INPUT_START_VOLTAGE, 0,
                              PVSIZE_YEAR_ASSUMPTION_NO_START_VOLTAGE);
    in->current = pvsz_limit_of(t, input, PVSIZE_INPUT_MAX_OPERATING_CURRENT, INFINITY,
                                PVSIZE_YEAR_ASSUMPTION_NO_CURRENT_LIMIT);
    in->power = pvsz_limit_of(t, input, PVSIZE_INPUT_MAX_OPERATING_POWER, INFINITY, 0);
}

/* inverters */

static bool fit_points(const pvsize_spec *inverter, pvsz_conversion *conversion)
{
    enum { MOST = 256 }; /* as many as an inverter may have */
    const pvsz_part_list *parts = pvsz_spec_parts(inverter, PVSZ_KIND_EFFICIENCY_POINT);
    pvsz_efficiency_point points[MOST] = {{0}};
    int32_t count = 0;

    for (size_t i = 0; i < parts->count; i++) {
        pvsz_efficiency_point *point = &points[count];
        const pvsize_spec *part = parts->item[i];

        if (!pvsz_spec_number(part, PVSIZE_EFFICIENCY_POINT_LOAD, &point->load) ||
            !pvsz_spec_number(part, PVSIZE_EFFICIENCY_POINT_EFFICIENCY, &point->efficiency))
            continue;
        point->load /= 100;
        point->efficiency /= 100;
        point->has_voltage =
            pvsz_spec_number(part, PVSIZE_EFFICIENCY_POINT_VOLTAGE, &point->voltage);
        count++;
    }
    return pvsz_fit_conversion(points, count, conversion);
}

static void take_conversion(pvsz_taker *t, const pvsz_subject *inverter,
                            pvsz_conversion *conversion)
{
    const pvsize_spec *spec = inverter->spec[PVSZ_KIND_INVERTER];
    double weighted = 0;
    bool european = pvsz_spec_number(spec, PVSIZE_INVERTER_EUROPEAN_EFFICIENCY, &weighted);

    if (fit_points(spec, conversion))
        return;
    if (european || pvsz_spec_number(spec, PVSIZE_INVERTER_CEC_EFFICIENCY, &weighted)) {
        /* 99.9 / 100 is more than 0.999 */
        pvsz_conversion_of_weighted(european ? PVSZ_WEIGHTED_EUROPEAN : PVSZ_WEIGHTED_CEC,
                                    fmin(weighted / 100, 0.999), conversion);
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_CONVERSION_WEIGHTED, inverter, weighted);
        return;
    }
    *conversion = pvsz_conversion_without_loss();
    pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_CONVERSION_PERFECT, inverter, 0);
}

/* Active power: no more than the rating, nor than apparent power times power factor. */
static void take_rating(pvsz_taker *t, const pvsz_subject *inverter, double cos_phi,
                        pvsz_machine *m)
{
    double apparent = 0;
    bool has_rating =
        pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, &m->rating);
    bool has_apparent = pvsz_taken_number(inverter, PVSZ_KIND_INVERTER,
                                          PVSIZE_INVERTER_RATED_APPARENT_POWER, &apparent);

    if (!has_rating && !has_apparent) {
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_RATING, inverter, 0);
        m->rating = 1;
        m->ac_limit = INFINITY;
        m->conversion = pvsz_conversion_without_loss();
        return;
    }
    if (!has_apparent) {
        apparent = m->rating;
        if (cos_phi < 1)
            pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_APPARENT_POWER, inverter, apparent);
    }
    if (!has_rating)
        m->rating = apparent;
    m->ac_limit = fmin(m->rating, apparent * cos_phi);
}

static void take_machine(pvsz_taker *t, int32_t i)
{
    const pvsz_subject *inverter = &t->report->design.subject[PVSZ_KIND_INVERTER][i];
    pvsz_machine *m = &t->plant->machine[i];
    double cos_phi = 1;

    pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_COS_PHI, &cos_phi);
    m->first = inverter->first_below;
    m->intakes = inverter->below;
    take_conversion(t, inverter, &m->conversion);
    take_rating(t, inverter, cos_phi, m);
    m->dc_limit = pvsz_limit_of(t, inverter, PVSIZE_INVERTER_MAX_OPERATING_POWER, INFINITY, 0);
    m->night = pvsz_limit_of(t, inverter, PVSIZE_INVERTER_NIGHT_CONSUMPTION, 0,
                             PVSIZE_YEAR_ASSUMPTION_NO_NIGHT);
    m->ac_wiring = pvsz_ac_wiring(t, inverter, cos_phi);
    pvsz_take_response(t, i, cos_phi, m);
}

static void take_site(pvsz_taker *t)
{
    const pvsz_subject *site = &t->report->design.subject[PVSZ_KIND_SITE][0];
    double control = PVSIZE_EXPORT_CONTROL_NONE, limit = INFINITY;

    pvsz_taken_number(site, PVSZ_KIND_SITE, PVSIZE_SITE_EXPORT_CONTROL, &control);
    pvsz_taken_number(site, PVSZ_KIND_SITE, PVSIZE_SITE_EXPORT_LIMIT, &limit);
    t->plant->export_limit = limit;
    if (limit < INFINITY && control == PVSIZE_EXPORT_CONTROL_NONE)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_EXPORT_NOT_MEASURED, site, limit);
    if (limit < INFINITY && !t->told->load)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_LOAD, site, limit);
    if (t->light->took_wind)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_WIND, NULL, t->light->wind);
}

pvsize_status pvsz_take_plant(const pvsize_report *report, pvsize_light *light,
                              const pvsz_told *told, const pvsz_memory *memory, pvsz_plant *plant,
                              pvsize_diag *diag)
{
    pvsz_taker t = {report, light, memory, plant, told, diag, PVSIZE_OK};

    plant->feeds = report->design.count[PVSZ_KIND_ARRAY];
    plant->intakes = report->design.count[PVSZ_KIND_INPUT];
    plant->machines = report->design.count[PVSZ_KIND_INVERTER];
    /* one more of each: never none */
    plant->feed = pvsz_new(memory, (size_t)plant->feeds + 1, sizeof *plant->feed);
    plant->intake = pvsz_new(memory, (size_t)plant->intakes + 1, sizeof *plant->intake);
    plant->machine = pvsz_new(memory, (size_t)plant->machines + 1, sizeof *plant->machine);
    if (!plant->feed || !plant->intake || !plant->machine)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    for (int32_t i = 0; i < plant->feeds && !t.status; i++)
        take_feed(&t, i);
    for (int32_t i = 0; i < plant->intakes && !t.status; i++)
        take_intake(&t, i);
    for (int32_t i = 0; i < plant->machines && !t.status; i++)
        take_machine(&t, i);
    if (!t.status)
        take_site(&t);
    return t.status;
}

void pvsz_release_plant(const pvsz_memory *memory, pvsz_plant *plant)
{
    pvsz_release(memory, plant->feed);
    pvsz_release(memory, plant->intake);
    pvsz_release(memory, plant->machine);
}
