/* From a module's data sheet to its curve: coefficients in one form, what is usual where the
 * sheet is silent, the fit, and what it leaves. */
#include "../physics/diode_fit.h"
#include "curve.h"

typedef struct cell_type {
    int32_t cell;
    double band_gap, narrowing, voc, isc_coefficient, ideality;
} cell_type;

static const cell_type cell_types[] = {
#define CELL_TYPE(ID, band_gap, narrowing, voc, isc_coefficient, ideality) \
    {PVSIZE_CELL_##ID, band_gap, narrowing, voc, isc_coefficient, ideality},
#include "../tables/cell_types.def"
#undef CELL_TYPE
};

/* Volts of one cell at 25 °C and an ideality factor of 1. */
#define CELL_VOLT (PVSZ_BOLTZMANN * PVSZ_STC_KELVIN)

typedef struct job {
    const pvsize_spec *module;
    const cell_type *type;
    pvsize_curve *curve;
    pvsz_sheet sheet;
    int32_t fifth_term; /* what the fifth equation hangs on */
} job;

static void assume(pvsize_curve *curve, int32_t what, double value)
{
    curve->assumption[curve->assumptions].what = what;
    curve->assumption[curve->assumptions].value = value;
    curve->assumptions++;
}

static const cell_type *type_of(const pvsize_spec *module)
{
    double cell = PVSIZE_CELL_OTHER;
    int32_t i = 0;

    pvsz_spec_number(module, PVSIZE_MODULE_CELL, &cell);
    while (i < PVSZ_COUNT(cell_types) - 1 && cell_types[i].cell != (int32_t)cell)
        i++;
    return &cell_types[i];
}

static pvsize_status take_points(job *j, pvsize_diag *diag)
{
    const struct {
        int32_t term;
        double *value;
    } points[] = {{PVSIZE_MODULE_VOC, &j->sheet.voc},
                  {PVSIZE_MODULE_ISC, &j->sheet.isc},
                  {PVSIZE_MODULE_VMP, &j->sheet.vmp},
                  {PVSIZE_MODULE_IMP, &j->sheet.imp}};

    for (int32_t i = 0; i < PVSZ_COUNT(points); i++)
        if (!pvsz_spec_number(j->module, points[i].term, points[i].value))
            return pvsz_fail_term(diag, PVSIZE_E_NOT_SET, points[i].term);
    return PVSIZE_OK;
}

/* Cells in series. Whole counts near Voc over a usual cell's; large crystalline modules
 * come in multiples of 6 (common practice). Half as many where all in series would have
 * less than 0.45 V each: half-cut cells, counted in both halves. */
static void take_cells(job *j)
{
    double cells;
    bool crystalline = j->type->cell == PVSIZE_CELL_CRYSTALLINE_SILICON;

    if (pvsz_spec_number(j->module, PVSIZE_MODULE_CELLS, &cells)) {
        if (crystalline && cells >= 2 && j->sheet.voc / cells < 0.45) {
            cells = (double)(int32_t)(cells / 2);
            assume(j->curve, PVSIZE_CURVE_ASSUMPTION_CELLS_HALVED, cells);
        }
    } else {
        double step = crystalline && j->sheet.voc > 18 ? 6 : 1;

        cells = step * (double)(int32_t)(j->sheet.voc / j->type->voc / step + 0.5);
        cells = cells < 1 ? 1 : cells;
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_CELLS, cells);
    }
    j->curve->cells = cells;
}

/* A coefficient in the unit of its value per kelvin, stated in %/K or so. */
static bool coefficient(const job *j, int32_t relative, int32_t absolute, double of, double *value)
{
    bool has = pvsz_spec_number(j->module, relative, value);
    double other;

    if (has)
        *value *= of / 100;
    if (!absolute || !pvsz_spec_number(j->module, absolute, &other))
        return has;
    /* of two statements that differ the more negative counts, as in the rules for Voc */
    if (!has || (absolute == PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE && other < *value))
        *value = other;
    return true;
}

static void take_coefficients(job *j)
{
    pvsz_sheet *s = &j->sheet;

    if (!coefficient(j, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE,
                     s->isc, &s->isc_coefficient)) {
        s->isc_coefficient = j->type->isc_coefficient * s->isc / 100;
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_ISC_COEFFICIENT, j->type->isc_coefficient);
    }
    if (coefficient(j, PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE,
                    s->voc, &s->voc_coefficient)) {
        s->fifth = PVSZ_FIFTH_VOC;
        j->fifth_term =
            pvsz_spec_has(j->module, PVSIZE_MODULE_VOC_COEFFICIENT - 1 - PVSIZE_KIND_MODULE)
                ? PVSIZE_MODULE_VOC_COEFFICIENT
                : PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE;
    } else if (coefficient(j, PVSIZE_MODULE_PMAX_COEFFICIENT, 0, 1, &s->pmax_coefficient)) {
        s->fifth = PVSZ_FIFTH_PMAX;
        j->fifth_term = PVSIZE_MODULE_PMAX_COEFFICIENT;
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_PMAX_COEFFICIENT, s->pmax_coefficient * 100);
    } else {
        s->fifth = PVSZ_FIFTH_IDEALITY;
        s->ideality = j->type->ideality * j->curve->cells * CELL_VOLT;
        j->fifth_term = PVSIZE_MODULE_CELLS; /* those supposed are never too few for a curve */
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_IDEALITY, j->type->ideality);
    }
}

static pvsize_status fail_fit(const job *j, pvsz_fit fit, pvsize_diag *diag)
{
    const pvsz_sheet *s = &j->sheet;
    double value = 0;

    switch (fit) {
    case PVSZ_FIT_BAD_VMP:
        return pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_MODULE_VMP, s->vmp, s->voc / 2,
                               s->voc);
    case PVSZ_FIT_BAD_IMP:
        return pvsz_fail_range(diag, PVSIZE_E_OUT_OF_RANGE, PVSIZE_MODULE_IMP, s->imp, s->isc / 2,
                               s->isc);
    case PVSZ_FIT_BAD_COEFFICIENT:
        pvsz_spec_number(j->module, j->fifth_term, &value);
        return pvsz_fail_value(diag, PVSIZE_E_NO_CURVE, j->fifth_term, value);
    default:
        break;
    }
    return pvsz_fail_value(diag, PVSIZE_E_NO_CURVE, PVSIZE_MODULE_IMP, s->imp);
}

static void check(pvsize_curve *curve, int32_t what, double model, double sheet)
{
    curve->check[what] = model - sheet;
    curve->checked |= UINT32_C(1) << what;
}

static void check_stc(const job *j)
{
    const pvsz_diode *stc = &j->curve->module.stc;
    pvsz_point peak = pvsz_diode_mpp(stc);
    pvsz_slope at = pvsz_diode_slope(stc, j->sheet.vmp);
    double pmax;

    check(j->curve, PVSIZE_CURVE_CHECK_ISC, pvsz_diode_current(stc, 0), j->sheet.isc);
    check(j->curve, PVSIZE_CURVE_CHECK_VOC, pvsz_diode_voltage(stc, 0), j->sheet.voc);
    check(j->curve, PVSIZE_CURVE_CHECK_VMP, peak.voltage, j->sheet.vmp);
    check(j->curve, PVSIZE_CURVE_CHECK_IMP, peak.current, j->sheet.imp);
    check(j->curve, PVSIZE_CURVE_CHECK_POWER_SLOPE, at.current + j->sheet.vmp * at.first, 0);
    if (pvsz_spec_number(j->module, PVSIZE_MODULE_PMAX, &pmax))
        check(j->curve, PVSIZE_CURVE_CHECK_PMAX, peak.voltage * peak.current, pmax);
}

/* Mean change per kelvin as a share of the value at STC, %. */
static double percent(double stc, double warm)
{
    return (warm / stc - 1) / PVSZ_FIT_SPAN * 100;
}

static void check_coefficients(const job *j)
{
    const pvsz_diode *stc = &j->curve->module.stc;
    pvsz_diode warm = pvsz_module_at(&j->curve->module, PVSZ_STC_IRRADIANCE, 25 + PVSZ_FIT_SPAN);
    pvsz_point peak = pvsz_diode_mpp(stc), warm_peak = pvsz_diode_mpp(&warm);
    double isc = pvsz_diode_current(stc, 0), voc = pvsz_diode_voltage(stc, 0), stated;

    if (coefficient(j, PVSIZE_MODULE_ISC_COEFFICIENT, PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE,
                    j->sheet.isc, &stated))
        check(j->curve, PVSIZE_CURVE_CHECK_ISC_COEFFICIENT,
              percent(isc, pvsz_diode_current(&warm, 0)), stated / j->sheet.isc * 100);
    if (j->sheet.fifth == PVSZ_FIFTH_VOC)
        check(j->curve, PVSIZE_CURVE_CHECK_VOC_COEFFICIENT,
              percent(voc, pvsz_diode_voltage(&warm, 0)),
              j->sheet.voc_coefficient / j->sheet.voc * 100);
    if (coefficient(j, PVSIZE_MODULE_PMAX_COEFFICIENT, 0, 100, &stated))
        check(j->curve, PVSIZE_CURVE_CHECK_PMAX_COEFFICIENT,
              percent(peak.voltage * peak.current, warm_peak.voltage * warm_peak.current), stated);
}

/* What a bent fit gave up. */
static void tell_bent(const job *j)
{
    const pvsz_module *m = &j->curve->module;

    if (j->sheet.fifth == PVSZ_FIFTH_VOC)
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_BAND_GAP, m->band_gap);
    else
        assume(j->curve, PVSIZE_CURVE_ASSUMPTION_UNMET,
               m->stc.ideality / (j->curve->cells * CELL_VOLT));
}

pvsize_status pvsz_curve_fit(const pvsize_spec *module, pvsize_curve *curve, pvsize_diag *diag)
{
    job j = {.module = module, .type = type_of(module), .curve = curve};
    pvsize_status status = take_points(&j, diag);
    pvsz_fit fit;

    if (status)
        return status;
    j.sheet.band_gap = j.type->band_gap;
    j.sheet.narrowing = j.type->narrowing;
    if (j.type->cell == PVSIZE_CELL_OTHER)
        assume(curve, PVSIZE_CURVE_ASSUMPTION_TECHNOLOGY, j.type->band_gap);
    take_cells(&j);
    take_coefficients(&j);
    fit = pvsz_fit_sheet(&j.sheet, &curve->module);
    if (fit != PVSZ_FIT_EXACT && fit != PVSZ_FIT_BENT)
        return fail_fit(&j, fit, diag);
    if (fit == PVSZ_FIT_BENT)
        tell_bent(&j);
    pvsz_spec_number(module, PVSIZE_MODULE_BYPASS_DIODES, &curve->bypass_diodes);
    check_stc(&j);
    check_coefficients(&j);
    return PVSIZE_OK;
}
