/* See operations.h: points of a module's curve. */
#include "operations_curve.h"

#include <stdlib.h>

static double units_points(size s)
{
    return s.count;
}

static plain_diode plain_of(const pvsize_curve *curve)
{
    static const int32_t terms[] = {
        PVSIZE_DIODE_MODEL_LIGHT_CURRENT,    PVSIZE_DIODE_MODEL_SATURATION_CURRENT,
        PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE, PVSIZE_DIODE_MODEL_SERIES_RESISTANCE,
        PVSIZE_DIODE_MODEL_SHUNT_RESISTANCE, PVSIZE_DIODE_MODEL_LIGHT_COEFFICIENT,
        PVSIZE_DIODE_MODEL_BAND_GAP,         PVSIZE_DIODE_MODEL_BAND_GAP_NARROWING};
    plain_diode m;
    pvsize_spec *model;

    MUST(pvsize_curve_model(curve, 1000, 25, job_memory, &model, job_diag));
    for (int i = 0; i < 8; i++)
        MUST(pvsize_spec_get_number(model, terms[i], &m.number[i], job_diag));
    m.number[4] = 1 / m.number[4];
    pvsize_spec_free(model);
    return m;
}

/* Conditions of daylight, spread evenly by the golden section; voltages up to the knee. */
void *make_points(size s)
{
    points *p = room_for(sizeof *p);
    /* single-crystalline module of De Soto, Klein and Beckman (2006), data sheet from memory;
     * coefficients in V/K and A/K made ones in % */
    module_sheet m = {133.4, 42.93, 4.37, 33.68, 3.96, -0.15237 / 42.93 * 100, 0.00175 / 4.37 * 100,
                      -0.45, 1000,  15};
    size_t bytes = (size_t)s.count * sizeof(double);

    p->count = (size_t)s.count;
    p->module = module_spec(&m);
    MUST(pvsize_spec_set_number(p->module, PVSIZE_MODULE_CELLS, 72, job_diag));
    MUST(pvsize_curve_new(p->module, job_memory, &p->curve, job_diag));
    p->plain = plain_of(p->curve);
    p->sun = room_for(bytes);
    p->temp = room_for(bytes);
    p->volts = room_for(bytes);
    p->voltage = room_for(bytes);
    p->current = room_for(bytes);
    for (int i = 0; i < s.count; i++) {
        double a = i * 0.6180339887498949, b = i * 0.7548776662466927;

        p->sun[i] = 20 + 1080 * (a - (double)(long)a);
        p->temp[i] = -5 + 75 * (b - (double)(long)b);
        p->volts[i] = 25 * (b - (double)(long)b);
    }
    return p;
}

void run_points(void *state)
{
    points *p = state;

    MUST(pvsize_curve_mpps(p->curve, p->sun, p->temp, p->count, p->voltage, p->current, job_diag));
}

static void run_single(void *state)
{
    points *p = state;

    for (size_t i = 0; i < p->count; i++)
        MUST(pvsize_curve_mpp(p->curve, p->sun[i], p->temp[i], &p->voltage[i], &p->current[i],
                              job_diag));
}

void run_currents(void *state)
{
    points *p = state;

    for (size_t i = 0; i < p->count; i++)
        MUST(pvsize_curve_current(p->curve, p->sun[i], p->temp[i], p->volts[i], &p->current[i],
                                  job_diag));
}

void run_plain_points(void *state)
{
    points *p = state;

    plain_points(&p->plain, p->count, p->sun, p->temp, p->voltage, p->current);
}

#ifdef HAVE_GSL
void run_lambert_points(void *state)
{
    points *p = state;

    lambert_points(&p->plain, p->count, p->sun, p->temp, p->voltage, p->current);
}

void run_lambert_currents(void *state)
{
    points *p = state;

    lambert_currents(&p->plain, p->count, p->sun, p->temp, p->volts, p->current);
}
#endif

static void run_fit(void *state)
{
    pvsize_curve *curve;

    MUST(pvsize_curve_new(((points *)state)->module, job_memory, &curve, job_diag));
    pvsize_curve_free(curve);
}

void unmake_points(void *state)
{
    points *p = state;

    pvsize_spec_free(p->module);
    pvsize_curve_free(p->curve);
    free(p->sun);
    free(p->temp);
    free(p->volts);
    free(p->voltage);
    free(p->current);
    free(p);
}

const operation curve_operations[] = {
    {"fit", {0, 0, 1, 0}, NULL, make_points, run_fit, unmake_points, NULL},
    {"point", {0, 0, 1, 0}, units_points, make_points, run_single, unmake_points, NULL},
    {"points", {0, 0, 1000, 0}, units_points, make_points, run_points, unmake_points, NULL},
    {"plain_points",
     {0, 0, 1000, 0},
     units_points,
     make_points,
     run_plain_points,
     unmake_points,
     NULL},
    {"currents", {0, 0, 1000, 0}, units_points, make_points, run_currents, unmake_points, NULL},
#ifdef HAVE_GSL
    {"lambert_points",
     {0, 0, 1000, 0},
     units_points,
     make_points,
     run_lambert_points,
     unmake_points,
     NULL},
    {"lambert_currents",
     {0, 0, 1000, 0},
     units_points,
     make_points,
     run_lambert_currents,
     unmake_points,
     NULL},
#endif
    {NULL, {0, 0, 0, 0}, NULL, NULL, NULL, NULL, NULL},
};
