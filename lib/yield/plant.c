/* Taking a system in: limits, cables, conversion, and what is not given. */
#include "plant.h"

#include <math.h>

#include "../equipment/curve.h"
#include "../wiring/conductor.h"

typedef struct taker {
    const pvsize_report *report;
    pvsize_light *light;
    const pvsz_memory *memory;
    pvsz_plant *plant;
    bool has_load;
    pvsize_diag *diag;
    pvsize_status status; /* of the first failure */
} taker;

static void fail(taker *t, pvsize_status status)
{
    if (!t->status)
        t->status = status;
}

static void grant(taker *t, int32_t what, const pvsz_subject *subject, double value)
{
    pvsz_plant *p = t->plant;
    pvsz_granted *grown =
        pvsz_grow(t->memory, p->granted, p->grants, &p->grants_room, sizeof *p->granted);
    int32_t number = subject ? pvsz_subject_number(t->report, subject) : -1;

    if (!grown) {
        fail(t, pvsz_fail(t->diag, PVSIZE_E_NO_MEMORY));
        return;
    }
    p->granted = grown;
    p->granted[p->grants++] = (pvsz_granted){what, number, value};
}

/* A number of a subject, or of what it hangs on. */
static bool number_of(const pvsz_subject *subject, int32_t scope, int32_t term, double *value)
{
    return subject->spec[scope] && pvsz_spec_number(subject->spec[scope], term, value);
}

/* A limit, or what stands for none; then `what` is granted, unless it is 0. */
static double limit_of(taker *t, const pvsz_subject *subject, int32_t term, double none,
                       int32_t what)
{
    double value = none;

    if (!number_of(subject, subject->scope, term, &value) && what)
        grant(t, what, subject, 0);
    return value;
}

/* cables */

/* Ohm of one conductor; false where it cannot be told. */
static bool ohm_of(const pvsz_subject *cable, double *ohm)
{
    double conductor = 0, section = 0, gauge = 0, laying = 0, length = 0, temp, per_km = 0;
    int32_t kind, size;

    number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_CONDUCTOR, &conductor);
    number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_LAYING, &laying);
    temp = pvsz_laying_temp((int32_t)laying - 1);
    if (!number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_CONDUCTOR_TEMP, &temp) && temp <= 0)
        return false; /* nor does the laying tell it */
    if (!number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_LENGTH, &length))
        return false;
    kind = (int32_t)conductor - 1;
    if (kind == PVSZ_CONDUCTOR_AWG)
        size = number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_GAUGE, &gauge)
                   ? pvsz_size_of_gauge((int32_t)gauge)
                   : -1;
    else
        size = number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_SECTION, &section)
                   ? pvsz_size_of_section(kind, section)
                   : -1;
    if (size < 0 || !pvsz_resistance(kind, size, temp, &per_km))
        return false;
    *ohm = per_km * length / 1000;
    return true;
}

static const pvsz_subject *next_cable(const taker *t, int32_t at)
{
    return at < 0 ? NULL : &t->report->design.subject[PVSZ_KIND_CABLE][at];
}

/* Ohm that the cables of an array add to each module: those of its own string, and those of
 * the array, which carry the current of all strings. */
static double added_of(taker *t, const pvsz_subject *array, const pvsz_feed *feed, double strings)
{
    double sum = 0;
    const pvsz_subject *cable = next_cable(t, array->first_cable);

    if (!cable)
        grant(t, PVSIZE_YEAR_ASSUMPTION_NO_STRING_CABLE, array, 0);
    for (; cable; cable = next_cable(t, cable->next_cable)) {
        double circuit = 0, ohm = 0;

        number_of(cable, PVSZ_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, &circuit);
        if (!ohm_of(cable, &ohm))
            grant(t, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT, cable, 0);
        sum += 2 * ohm * (circuit == PVSIZE_CIRCUIT_ARRAY ? strings : 1);
    }
    return sum * t->light->kept / feed->modules;
}

/* Watts lost for each watt squared that the inverter gives. */
static double ac_wiring_of(taker *t, const pvsz_subject *inverter, double cos_phi)
{
    double phases = 0, voltage = 0, sum = 0;
    const pvsz_subject *cable = next_cable(t, inverter->first_cable);
    bool known = number_of(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_PHASES, &phases);

    if (!number_of(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_AC_VOLTAGE, &voltage))
        known &= number_of(inverter, PVSZ_KIND_SITE, PVSIZE_SITE_SUPPLY_VOLTAGE, &voltage);
    if (!cable)
        grant(t, PVSIZE_YEAR_ASSUMPTION_NO_AC_CABLE, inverter, 0);
    for (; cable; cable = next_cable(t, cable->next_cable)) {
        double ohm = 0;

        if (!known || !ohm_of(cable, &ohm))
            grant(t, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT, cable, 0);
        else /* there and back of one phase, or each of more: the neutral carries nothing */
            sum += ohm * (phases == 1 ? 2 : phases);
    }
    voltage *= phases * cos_phi; /* current of a phase: power over this */
    return known ? sum / (voltage * voltage) : 0;
}

/* arrays */

/* Fits the curve of an array's module, or takes it from an array before it. */
static pvsize_status fit_module(taker *t, const pvsz_subject *array, int32_t i, pvsize_curve *curve)
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

static void take_feed(taker *t, int32_t i)
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

    if (!number_of(array, PVSZ_KIND_ARRAY, PVSIZE_ARRAY_MODULES_PER_STRING, &feed->modules))
        status = pvsz_fail_term(t->diag, PVSIZE_E_NOT_SET, PVSIZE_ARRAY_MODULES_PER_STRING);
    else if (!number_of(array, PVSZ_KIND_ARRAY, PVSIZE_ARRAY_STRINGS, &strings))
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
        fail(t, status);
        return;
    }
    feed->next = array->next_on_input;
    feed->count = (int32_t)(feed->modules * strings);
    feed->strings = strings * t->light->kept;
    feed->rated = feed->count * pvsz_rated_power(module, &guessed);
    feed->stc = feed->count * feed->pair->stc;
    feed->added = added_of(t, array, feed, strings);
    if (rack)
        grant(t, PVSIZE_YEAR_ASSUMPTION_RACK_HEAT_LOSS, array, PVSZ_RACK_LOSS);
    if (guessed)
        grant(t, PVSIZE_YEAR_ASSUMPTION_PMAX, array, feed->rated / feed->count);
}

static void take_intake(taker *t, int32_t i)
{
    const pvsz_subject *input = &t->report->design.subject[PVSZ_KIND_INPUT][i];
    pvsz_intake *in = &t->plant->intake[i];

    in->first = input->first_below;
    in->feeds = input->below;
    in->lowest = 0;
    in->highest = in->current = in->power = INFINITY;
    if (in->feeds == 0)
        return; /* nothing of it is asked */
    in->lowest = limit_of(t, input, PVSIZE_INPUT_TRACKING_MIN, 0, PVSIZE_YEAR_ASSUMPTION_NO_WINDOW);
    in->highest =
        limit_of(t, input, PVSIZE_INPUT_TRACKING_MAX, INFINITY, PVSIZE_YEAR_ASSUMPTION_NO_WINDOW);
    in->start =
        limit_of(t, input, PVSIZE_INPUT_START_VOLTAGE, 0, PVSIZE_YEAR_ASSUMPTION_NO_START_VOLTAGE);
    in->current = limit_of(t, input, PVSIZE_INPUT_MAX_OPERATING_CURRENT, INFINITY,
                           PVSIZE_YEAR_ASSUMPTION_NO_CURRENT_LIMIT);
    in->power = limit_of(t, input, PVSIZE_INPUT_MAX_OPERATING_POWER, INFINITY, 0);
}

/* inverters */

static bool fit_points(const pvsize_spec *inverter, pvsz_conversion *conversion)
{
    enum { MOST = 256 };
    const pvsz_part_list *parts = pvsz_spec_parts(inverter, PVSZ_KIND_EFFICIENCY_POINT);
    pvsz_efficiency_point points[MOST] = {{0}};
    int32_t count = 0;

    for (size_t i = 0; i < parts->count && count < MOST; i++) {
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

static void take_conversion(taker *t, const pvsz_subject *inverter, pvsz_conversion *conversion)
{
    const pvsize_spec *spec = inverter->spec[PVSZ_KIND_INVERTER];
    double weighted = 0;
    bool european = pvsz_spec_number(spec, PVSIZE_INVERTER_EUROPEAN_EFFICIENCY, &weighted);

    if (fit_points(spec, conversion))
        return;
    if ((european || pvsz_spec_number(spec, PVSIZE_INVERTER_CEC_EFFICIENCY, &weighted)) &&
        pvsz_conversion_of_weighted(european ? PVSZ_WEIGHTED_EUROPEAN : PVSZ_WEIGHTED_CEC,
                                    weighted / 100, conversion)) {
        grant(t, PVSIZE_YEAR_ASSUMPTION_CONVERSION_WEIGHTED, inverter, weighted);
        return;
    }
    *conversion = pvsz_conversion_without_loss();
    grant(t, PVSIZE_YEAR_ASSUMPTION_CONVERSION_PERFECT, inverter, 0);
}

/* Active power: no more than the rating, nor than apparent power times power factor. */
static void take_rating(taker *t, const pvsz_subject *inverter, double cos_phi, pvsz_machine *m)
{
    double apparent = 0;
    bool has_rating =
        number_of(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, &m->rating);
    bool has_apparent =
        number_of(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_RATED_APPARENT_POWER, &apparent);

    if (!has_rating && !has_apparent) {
        grant(t, PVSIZE_YEAR_ASSUMPTION_NO_RATING, inverter, 0);
        m->rating = 1;
        m->ac_limit = INFINITY;
        m->conversion = pvsz_conversion_without_loss();
        return;
    }
    if (!has_apparent) {
        apparent = m->rating;
        if (cos_phi < 1)
            grant(t, PVSIZE_YEAR_ASSUMPTION_APPARENT_POWER, inverter, apparent);
    }
    if (!has_rating)
        m->rating = apparent;
    m->ac_limit = fmin(m->rating, apparent * cos_phi);
}

static void take_machine(taker *t, int32_t i)
{
    const pvsz_subject *inverter = &t->report->design.subject[PVSZ_KIND_INVERTER][i];
    pvsz_machine *m = &t->plant->machine[i];
    double cos_phi = 1;

    number_of(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_COS_PHI, &cos_phi);
    m->first = inverter->first_below;
    m->intakes = inverter->below;
    take_conversion(t, inverter, &m->conversion);
    take_rating(t, inverter, cos_phi, m);
    m->dc_limit = limit_of(t, inverter, PVSIZE_INVERTER_MAX_OPERATING_POWER, INFINITY, 0);
    m->night = limit_of(t, inverter, PVSIZE_INVERTER_NIGHT_CONSUMPTION, 0,
                        PVSIZE_YEAR_ASSUMPTION_NO_NIGHT);
    m->ac_wiring = ac_wiring_of(t, inverter, cos_phi);
}

static void take_site(taker *t)
{
    const pvsz_subject *site = &t->report->design.subject[PVSZ_KIND_SITE][0];
    double control = PVSIZE_EXPORT_CONTROL_NONE, limit = INFINITY;

    number_of(site, PVSZ_KIND_SITE, PVSIZE_SITE_EXPORT_CONTROL, &control);
    number_of(site, PVSZ_KIND_SITE, PVSIZE_SITE_EXPORT_LIMIT, &limit);
    t->plant->export_limit = limit;
    if (limit < INFINITY && control == PVSIZE_EXPORT_CONTROL_NONE)
        grant(t, PVSIZE_YEAR_ASSUMPTION_EXPORT_NOT_MEASURED, site, limit);
    if (limit < INFINITY && !t->has_load)
        grant(t, PVSIZE_YEAR_ASSUMPTION_NO_LOAD, site, limit);
    if (t->light->took_wind)
        grant(t, PVSIZE_YEAR_ASSUMPTION_WIND, NULL, t->light->wind);
}

pvsize_status pvsz_take_plant(const pvsize_report *report, pvsize_light *light, bool has_load,
                              const pvsz_memory *memory, pvsz_plant *plant, pvsize_diag *diag)
{
    taker t = {report, light, memory, plant, has_load, diag, PVSIZE_OK};

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
