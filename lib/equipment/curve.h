/* A curve as the library sees it. */
#ifndef PVSZ_CURVE_H
#define PVSZ_CURVE_H

#include "../physics/diode_shift.h"
#include "pvsize/curve.h"
#include "spec.h"

/* numbers of the two sets start at 1 */
enum { PVSZ_CURVE_CHECKS = PVSIZE_CURVE_CHECK_PMAX_COEFFICIENT + 1, PVSZ_MOST_CURVE_ASSUMED = 8 };

/* V that a conducting bypass diode leaves: common practice for Schottky diodes. */
#define PVSZ_BYPASS_DROP 0.5

struct pvsize_curve {
    pvsz_head head;
    pvsz_module module;
    double cells;         /* in series; 0: not known */
    double bypass_diodes; /* in series; 0: not known */
    double check[PVSZ_CURVE_CHECKS];
    uint32_t checked; /* bit i: check i has a value */
    int32_t assumptions;
    struct {
        int32_t what;
        double value;
    } assumption[PVSZ_MOST_CURVE_ASSUMED];
    char name[PVSZ_MOST_TEXT + 1];
};

pvsize_status pvsz_check_curve(const pvsize_curve *curve, pvsize_diag *diag);
/* Fits the curve to a module's data sheet; the curve is then whole. */
pvsize_status pvsz_curve_fit(const pvsize_spec *module, pvsize_curve *curve, pvsize_diag *diag);
/* Irradiance and cell temperature in their ranges; `place` in a row, or -1. */
pvsize_status pvsz_check_condition(double irradiance, double cell_temp, int32_t place,
                                   pvsize_diag *diag);
/* A number in its range; `argument` names it. */
pvsize_status pvsz_check_argument(const char *argument, double value, double low, double high,
                                  int32_t place, pvsize_diag *diag);
/* Gives what was found at a value of an argument; PVSIZE_E_NO_CURVE if that is no number. */
pvsize_status pvsz_give_found(double found, const char *argument, double value, double *out,
                              pvsize_diag *diag);

#endif
