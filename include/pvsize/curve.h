/* pvsize/curve.h - one module's current-voltage curve. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_CURVE_H
#define PVSIZE_CURVE_H

#include "spec.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A curve is the single-diode model of one module, fitted once, then asked at any
 * irradiance and cell temperature. It cannot be changed, and outlives its spec.
 *
 * Model    I = light - saturation (exp(u) - 1) - (V + I Rs) / Rsh, u = (V + I Rs) / a.
 * Fit      Of a module: the curve at STC passes through Isc, (Vmp, Imp) and Voc, its power
 *          is level at Vmp, and Voc at 35 °C follows the data sheet's coefficient.
 *          Translation: light and 1 / Rsh follow irradiance, light its temperature
 *          coefficient, a the absolute temperature, saturation the band gap. All: De Soto,
 *          Klein and Beckman, Solar Energy 80 (2006) 78-88 (from memory), the air mass
 *          modifier taken as 1.
 * Accuracy Points are exact to 1e-9 of their size for the parameters (a current that is
 *          nearly 0 to 1e-13 of the light current). Whether the model is true is
 *          another matter: data sheets state tolerances of per cents, and it fits thin films
 *          less well. It says nothing of the spread of modules, of shade on parts of one, or
 *          of cells that break down in reverse (at some -10 to -30 V each).
 *          Do not take the cold Voc of a string from it where a rule asks for the data
 *          sheet's coefficient: the curve's is a little lower than the straight line, which
 *          is on the safe side.
 * Units    V, A, ohm; effective irradiance in the plane of the module in W/m2, 0 to 2000
 *          (below 0.001 it is dark: current and voltage 0 at maximum power); cell
 *          temperature in °C, -100 to 150. PVSIZE_E_NOT_FINITE or _OUT_OF_RANGE outside;
 *          the failure names the argument, and the place in a row.
 * Bits     Points are computed with + - * / alone, and have the same bits with every
 *          compiler and C library, one by one or in rows.
 *
 * Shared arguments:
 *
 *   irradiance  effective irradiance in the plane of the module, W/m2; of rows, each
 *   cell_temp   cell temperature, degC; of rows, each
 *   voltage     receives the voltage, V
 *   current     receives the current, A */
typedef struct pvsize_curve pvsize_curve;

/* Makes a curve of a module (its data sheet must hold Voc, Isc, Vmp, Imp) or of a
 * diode_model (its required parameters). The caller gives it back to pvsize_curve_free.
 * PVSIZE_E_NOT_SET names what is missing. PVSIZE_E_OUT_OF_RANGE: no concave curve has that
 * Vmp (Voc / 2 to Voc) or Imp (Isc / 2 to Isc), the ends not included. PVSIZE_E_NO_CURVE
 * names the coefficient that no curve meets (without one, cells too few for that Voc), or Imp for
 * a knee too sharp for any diode; of a diode_model the saturation current, if less than 1e-250 A
 * is left of it at -100 degC.
 * PVSIZE_E_WRONG_KIND for another spec. */
PVSIZE_API pvsize_status pvsize_curve_new(const pvsize_spec *spec, const pvsize_allocator *memory,
                                          pvsize_curve **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_curve_free(pvsize_curve *curve);

/* The parameters at a condition as a diode_model, which the caller frees; 1000 W/m2 and
 * 25 °C give those of the fit. No shunt resistance is set where there is none.
 * PVSIZE_E_OUT_OF_RANGE also where a parameter leaves its range in the table, far from STC. */
PVSIZE_API pvsize_status pvsize_curve_model(const pvsize_curve *curve, double irradiance,
                                            double cell_temp, const pvsize_allocator *memory,
                                            pvsize_spec **out, pvsize_diag *diag);
/* The `difference` of what the curve has and what the data sheet has, `what` being a
 * PVSIZE_CURVE_CHECK_ number.
 * PVSIZE_E_NOT_SET where the data sheet is silent; of a diode_model it always is. */
PVSIZE_API pvsize_status pvsize_curve_check(const pvsize_curve *curve, int32_t what,
                                            double *difference, pvsize_diag *diag);
/* What the fit took for granted or gave up: how many, and the i-th, a
 * PVSIZE_CURVE_ASSUMPTION_ number and its value. Words: pvsize_set_text. Each output may be
 * null. PVSIZE_E_BAD_INDEX outside. */
PVSIZE_API pvsize_status pvsize_curve_assumption_count(const pvsize_curve *curve, int32_t *count,
                                                       pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_curve_assumption(const pvsize_curve *curve, int32_t i,
                                                 int32_t *what, double *value, pvsize_diag *diag);

/* Maximum-power point. Each output may be null. */
PVSIZE_API pvsize_status pvsize_curve_mpp(const pvsize_curve *curve, double irradiance,
                                          double cell_temp, double *voltage, double *current,
                                          pvsize_diag *diag);
/* Open-circuit voltage `voc` and short-circuit current `isc`. Each output may be null. */
PVSIZE_API pvsize_status pvsize_curve_ends(const pvsize_curve *curve, double irradiance,
                                           double cell_temp, double *voc, double *isc,
                                           pvsize_diag *diag);
/* Current at a `voltage`, -3000 to 3000 V: negative beyond open circuit, where the module
 * takes current; in reverse bias only as the shunt has it, without bypass diodes.
 * PVSIZE_E_NO_CURVE where a model as no module has it gives no number. */
PVSIZE_API pvsize_status pvsize_curve_current(const pvsize_curve *curve, double irradiance,
                                              double cell_temp, double voltage, double *current,
                                              pvsize_diag *diag);
/* Voltage at a `current`, -10000 to 10000 A. Where the spec states bypass diodes they keep it
 * at -0.5 V each or more (common practice for Schottky diodes), a vertical line. Without
 * them PVSIZE_E_NO_CURVE where no voltage drives the current. */
PVSIZE_API pvsize_status pvsize_curve_voltage(const pvsize_curve *curve, double irradiance,
                                              double cell_temp, double current, double *voltage,
                                              pvsize_diag *diag);
/* n points, 2 to 1e6, from short circuit to open circuit, close together at the knee. */
PVSIZE_API pvsize_status pvsize_curve_sample(const pvsize_curve *curve, double irradiance,
                                             double cell_temp, size_t n, double *voltage,
                                             double *current, pvsize_diag *diag);
/* Maximum-power points at n conditions, into arrays of n: the bits of n single calls, in
 * less than half the time. The outputs may be the inputs' arrays, but not overlap
 * otherwise. n may be 0. Nothing is written on failure. */
PVSIZE_API pvsize_status pvsize_curve_mpps(const pvsize_curve *curve, const double *irradiance,
                                           const double *cell_temp, size_t n, double *voltage,
                                           double *current, pvsize_diag *diag);

/* Strings in parallel on one input, unlike in length, module or light. Mismatch is computed:
 * all branches have one voltage.
 *
 * Shared arguments of these calls; a branch is equal strings:
 *
 *   curves   of each branch, the module's curve, which may stand in several
 *   modules  of each branch, modules in a string, 1 to 10000
 *   strings  of each branch, how many there are, 1 to 10000
 *   n        branches, 1 to 64
 *   blocked  not 0: no current flows back into a string (a blocking diode, whose own
 *            drop is not counted); 0: it does, as the curves have it */

/* Maximum-power point of all together: the highest, where blocked branches make several. */
PVSIZE_API pvsize_status pvsize_parallel_mpp(const pvsize_curve *const *curves,
                                             const double *irradiance, const double *cell_temp,
                                             const int32_t *modules, const int32_t *strings,
                                             size_t n, int32_t blocked, double *voltage,
                                             double *current, pvsize_diag *diag);
/* Current of all together at a `voltage`, 0 to 10000 V; PVSIZE_E_NO_CURVE as above. */
PVSIZE_API pvsize_status pvsize_parallel_current(const pvsize_curve *const *curves,
                                                 const double *irradiance, const double *cell_temp,
                                                 const int32_t *modules, const int32_t *strings,
                                                 size_t n, int32_t blocked, double voltage,
                                                 double *current, pvsize_diag *diag);
/* Voltage of 0 or more at which this `current` flows, 0 to 1e9 A; at 0 A the open-circuit
 * voltage of all together. PVSIZE_E_NO_CURVE where even at 0 V less flows. */
PVSIZE_API pvsize_status pvsize_parallel_voltage(const pvsize_curve *const *curves,
                                                 const double *irradiance, const double *cell_temp,
                                                 const int32_t *modules, const int32_t *strings,
                                                 size_t n, int32_t blocked, double current,
                                                 double *voltage, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
