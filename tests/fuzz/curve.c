/* Fits curves to any data sheet, and asks them anything. Where there is a curve, it is one. */
#include "fuzz.h"

static double plausible(draw *d, int32_t term, double low, double high)
{
    return draw_below(d, 12) ? draw_between(d, low, high) : invent_number(d, term);
}

static pvsize_spec *data_sheet(draw *d)
{
    static const struct {
        int32_t term;
        double low, high;
    } rows[] = {{PVSIZE_MODULE_VOC, 5, 100},
                {PVSIZE_MODULE_ISC, 0.5, 25},
                {PVSIZE_MODULE_VOC_COEFFICIENT, -0.5, -0.1},
                {PVSIZE_MODULE_ISC_COEFFICIENT, -0.02, 0.1},
                {PVSIZE_MODULE_PMAX_COEFFICIENT, -0.6, -0.1}};
    pvsize_spec *module = NULL;
    double voc = 0, isc = 0;

    if (pvsize_spec_new(PVSIZE_KIND_MODULE, NULL, &module, NULL))
        return NULL;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        pvsize_spec_set_number(module, rows[i].term,
                               plausible(d, rows[i].term, rows[i].low, rows[i].high), NULL);
    pvsize_spec_get_number(module, PVSIZE_MODULE_VOC, &voc, NULL);
    pvsize_spec_get_number(module, PVSIZE_MODULE_ISC, &isc, NULL);
    pvsize_spec_set_number(module, PVSIZE_MODULE_VMP, voc * draw_between(d, 0.45, 1.02), NULL);
    pvsize_spec_set_number(module, PVSIZE_MODULE_IMP, isc * draw_between(d, 0.45, 1.02), NULL);
    if (draw_below(d, 2)) {
        int32_t term = pvsize_term_at(PVSIZE_KIND_MODULE,
                                      draw_below(d, pvsize_term_count(PVSIZE_KIND_MODULE)));

        pvsize_spec_set_number(module, term, invent_number(d, term), NULL);
    }
    return module;
}

/* No sampled power is above the maximum; ends and points agree: of modules. Of a diode_model
 * that no module has (a saturation current of 1e11 A) the last bits of 0 may be all there is. */
static void ask_points(const pvsize_curve *curve, bool module, double light, double cell,
                       pvsize_diag *diag)
{
    enum { POINTS = 9 };
    double v = 0, a = 0, voc = 0, isc = 0, volts[POINTS], amps[POINTS], v2 = 0, a2 = 0, at = 0;

    if (!went(diag, pvsize_curve_mpp(curve, light, cell, &v, &a, diag)))
        return;
    HOLDS(isfinite(v) && isfinite(a) && v >= 0 && a >= 0);
    HOLDS(went(diag, pvsize_curve_ends(curve, light, cell, &voc, &isc, diag)));
    HOLDS(isfinite(voc) && isfinite(isc));
    if (module)
        HOLDS(v <= voc + 1e-9 * (1 + voc) && a <= isc + 1e-9 * (1 + isc));
    HOLDS(went(diag, pvsize_curve_sample(curve, light, cell, POINTS, volts, amps, diag)));
    for (int i = 0; i < POINTS; i++) {
        HOLDS(isfinite(volts[i]) && isfinite(amps[i]));
        HOLDS(volts[i] * amps[i] <= v * a * (1 + 1e-7) + 1e-9 || light < 0.001 || !module);
    }
    if (v <= 3000) { /* as far as that call goes */
        HOLDS(went(diag, pvsize_curve_current(curve, light, cell, v, &at, diag)));
        HOLDS(fabs(at - a) <= 1e-6 * (1 + isc) || light < 0.001 || !module);
    }
    HOLDS(went(diag, pvsize_curve_mpps(curve, &light, &cell, 1, &v2, &a2, diag)));
    HOLDS(v2 == v && a2 == a);
}

static void ask_parallel(draw *d, const pvsize_curve *curve, bool module, pvsize_diag *diag)
{
    const pvsize_curve *curves[4] = {curve, curve, curve, draw_below(d, 30) ? curve : NULL};
    double light[4], cell[4], v = 0, a = 0, at = 0;
    int32_t modules[4], strings[4], blocked = draw_below(d, 2), n = draw_below(d, 6);

    for (int i = 0; i < 4; i++) {
        light[i] = draw_below(d, 20) ? draw_between(d, 0, 1300) : draw_strange(d);
        cell[i] = draw_between(d, -40, 90);
        modules[i] = draw_below(d, 30) ? 1 + draw_below(d, 30) : draw_strange_count(d);
        strings[i] = draw_below(d, 30) ? 1 + draw_below(d, 10) : draw_strange_count(d);
    }
    n = n > 4 ? 4 : n;
    if (!went(diag, pvsize_parallel_mpp(curves, light, cell, modules, strings, (size_t)n, blocked,
                                        &v, &a, diag)))
        return;
    HOLDS(isfinite(v) && isfinite(a) && v >= 0 && a >= 0);
    if (went(diag, pvsize_parallel_current(curves, light, cell, modules, strings, (size_t)n,
                                           blocked, v, &at, diag)))
        HOLDS(isfinite(at) && (fabs(at - a) <= 1e-5 * (1 + a) || !module));
    if (went(diag, pvsize_parallel_voltage(curves, light, cell, modules, strings, (size_t)n,
                                           blocked, draw_between(d, 0, 100), &at, diag)))
        HOLDS(isfinite(at) && at >= 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    draw d = draw_from_bytes(bytes, count);
    pvsize_diag *diag = NULL;
    pvsize_curve *curve = NULL;
    pvsize_spec *spec, *model = NULL;

    if (pvsize_diag_new(NULL, &diag))
        return 0;
    bool module = draw_below(&d, 4) != 0;

    spec = module ? data_sheet(&d) : invent_spec(&d, PVSIZE_KIND_DIODE_MODEL, NULL);
    if (went(diag, pvsize_curve_new(spec, NULL, &curve, diag))) {
        for (int i = 0; i < 4; i++) {
            double light = draw_below(&d, 8) ? draw_between(&d, 0, 1500) : draw_strange(&d);
            double cell = draw_below(&d, 8) ? draw_between(&d, -40, 90) : draw_strange(&d);
            double any = draw_below(&d, 4) ? draw_between(&d, -200, 200) : draw_strange(&d);
            double out = 0;

            ask_points(curve, module, light, cell, diag);
            if (went(diag, pvsize_curve_current(curve, light, cell, any, &out, diag)))
                HOLDS(isfinite(out));
            if (went(diag, pvsize_curve_voltage(curve, light, cell, any, &out, diag)))
                HOLDS(isfinite(out));
            if (went(diag, pvsize_curve_model(curve, light, cell, NULL, &model, diag)))
                pvsize_spec_free(model);
        }
        ask_parallel(&d, curve, module, diag);
    }
    pvsize_curve_free(curve);
    pvsize_spec_free(spec);
    pvsize_diag_free(diag);
    return 0;
}
