/* A curve as an object: made, read, given back. */
#include "curve.h"

#include <string.h>

pvsize_status pvsz_check_curve(const pvsize_curve *curve, pvsize_diag *diag)
{
    if (!curve)
        return pvsz_fail_null(diag, "curve");
    return pvsz_is(curve, PVSZ_MARK_CURVE) ? PVSIZE_OK : pvsz_fail_handle(diag, "curve");
}

/* Exponentials are computed as far as e^600 (elementary.h): of 22,500 A at most, the light of the
 * largest model, this leaves e^586. Hot cells are nowhere near it, however the band gap widens. */
#define LEAST_SATURATION 1e-250

static pvsize_status check_saturation(const pvsz_module *m, pvsize_diag *diag)
{
    pvsz_diode coldest = pvsz_module_at(m, PVSZ_STC_IRRADIANCE, PVSZ_COLDEST_CELL);

    return coldest.saturation >= LEAST_SATURATION
               ? PVSIZE_OK
               : pvsz_fail_value(diag, PVSIZE_E_NO_CURVE, PVSIZE_DIODE_MODEL_SATURATION_CURRENT,
                                 m->stc.saturation);
}

/* The five parameters as the spec states them. */
static pvsize_status take_model(const pvsize_spec *spec, pvsize_curve *curve, pvsize_diag *diag)
{
    pvsz_module *m = &curve->module;
    double shunt;
    const struct {
        int32_t term;
        double *value;
    } rows[] = {
        {PVSIZE_DIODE_MODEL_LIGHT_CURRENT, &m->stc.light},
        {PVSIZE_DIODE_MODEL_SATURATION_CURRENT, &m->stc.saturation},
        {PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE, &m->stc.ideality},
        {PVSIZE_DIODE_MODEL_SERIES_RESISTANCE, &m->stc.series},
        {PVSIZE_DIODE_MODEL_LIGHT_COEFFICIENT, &m->light_coefficient},
        {PVSIZE_DIODE_MODEL_BAND_GAP, &m->band_gap},
        {PVSIZE_DIODE_MODEL_BAND_GAP_NARROWING, &m->narrowing},
    };

    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        if (!pvsz_spec_number(spec, rows[i].term, rows[i].value))
            return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, rows[i].term);
    if (pvsz_spec_number(spec, PVSIZE_DIODE_MODEL_SHUNT_RESISTANCE, &shunt))
        m->stc.shunt = 1 / shunt;
    pvsz_spec_number(spec, PVSIZE_DIODE_MODEL_CELLS, &curve->cells);
    pvsz_spec_number(spec, PVSIZE_DIODE_MODEL_BYPASS_DIODES, &curve->bypass_diodes);
    return check_saturation(m, diag);
}

static pvsize_status take(const pvsize_spec *spec, pvsize_curve *curve, pvsize_diag *diag)
{
    const char *name = pvsz_spec_name(spec);

    memcpy(curve->name, name, strlen(name) + 1);
    if (spec->kind == PVSZ_KIND_MODULE)
        return pvsz_curve_fit(spec, curve, diag);
    return take_model(spec, curve, diag);
}

pvsize_status pvsize_curve_new(const pvsize_spec *spec, const pvsize_allocator *memory,
                               pvsize_curve **out, pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (!spec)
        return pvsz_fail_null(diag, "spec");
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, "spec");
    if (spec->kind != PVSZ_KIND_MODULE && spec->kind != PVSZ_KIND_DIODE_MODEL)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[spec->kind].number,
                              "a module or a diode_model");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_CURVE, &made, diag);
    if (status)
        return status;
    status = take(spec, made, diag);
    if (status)
        pvsz_unmake(made);
    else
        *out = made;
    return status;
}

void pvsize_curve_free(pvsize_curve *curve)
{
    if (pvsz_is(curve, PVSZ_MARK_CURVE))
        pvsz_unmake(curve);
}

static pvsize_status give_model(const pvsize_curve *curve, const pvsz_diode *d, pvsize_spec *spec,
                                pvsize_diag *diag)
{
    const int32_t terms[] = {
        PVSIZE_DIODE_MODEL_LIGHT_CURRENT,      PVSIZE_DIODE_MODEL_SATURATION_CURRENT,
        PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE,   PVSIZE_DIODE_MODEL_SERIES_RESISTANCE,
        PVSIZE_DIODE_MODEL_LIGHT_COEFFICIENT,  PVSIZE_DIODE_MODEL_BAND_GAP,
        PVSIZE_DIODE_MODEL_BAND_GAP_NARROWING,
    };
    const double values[] = {
        d->light,
        d->saturation,
        d->ideality,
        d->series,
        curve->module.light_coefficient,
        curve->module.band_gap,
        curve->module.narrowing,
    };
    pvsize_status status =
        pvsize_spec_set_numbers(spec, terms, values, sizeof terms / sizeof terms[0], diag);

    if (!status && d->shunt >= 1e-18)
        status =
            pvsize_spec_set_number(spec, PVSIZE_DIODE_MODEL_SHUNT_RESISTANCE, 1 / d->shunt, diag);
    if (!status && curve->cells > 0)
        status = pvsize_spec_set_number(spec, PVSIZE_DIODE_MODEL_CELLS, curve->cells, diag);
    if (!status && curve->bypass_diodes > 0)
        status = pvsize_spec_set_number(spec, PVSIZE_DIODE_MODEL_BYPASS_DIODES,
                                        curve->bypass_diodes, diag);
    if (!status && curve->name[0])
        status = pvsize_spec_set_text(spec, PVSIZE_DIODE_MODEL_NAME, curve->name, diag);
    return status;
}

pvsize_status pvsize_curve_model(const pvsize_curve *curve, double irradiance, double cell_temp,
                                 const pvsize_allocator *memory, pvsize_spec **out,
                                 pvsize_diag *diag)
{
    pvsize_status status;
    pvsize_spec *spec;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    status = pvsz_check_curve(curve, diag);
    if (!status)
        status = pvsz_check_condition(irradiance, cell_temp, -1, diag);
    if (!status)
        status = pvsize_spec_new(PVSIZE_KIND_DIODE_MODEL, memory, &spec, diag);
    if (status)
        return status;
    pvsz_diode d = pvsz_module_at(&curve->module, irradiance, cell_temp);
    status = give_model(curve, &d, spec, diag);
    if (status)
        pvsize_spec_free(spec);
    else
        *out = spec;
    return status;
}

pvsize_status pvsize_curve_check(const pvsize_curve *curve, int32_t what, double *difference,
                                 pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(curve, diag);

    if (status)
        return status;
    if (!difference)
        return pvsz_fail_null(diag, "difference");
    if (!pvsz_set_has(PVSIZE_SET_CURVE_CHECK, what))
        return pvsz_fail_choice(diag, "what", PVSIZE_SET_CURVE_CHECK, what);
    if (!(curve->checked >> what & 1))
        return pvsz_fail_name(diag, PVSIZE_E_NOT_SET, 0,
                              pvsize_set_name(PVSIZE_SET_CURVE_CHECK, what));
    *difference = curve->check[what];
    return PVSIZE_OK;
}

pvsize_status pvsize_curve_assumption_count(const pvsize_curve *curve, int32_t *count,
                                            pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(curve, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = curve->assumptions;
    return PVSIZE_OK;
}

pvsize_status pvsize_curve_assumption(const pvsize_curve *curve, int32_t i, int32_t *what,
                                      double *value, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(curve, diag);

    if (status)
        return status;
    if (i < 0 || i >= curve->assumptions)
        return pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, curve->assumptions);
    if (what)
        *what = curve->assumption[i].what;
    if (value)
        *value = curve->assumption[i].value;
    return PVSIZE_OK;
}
