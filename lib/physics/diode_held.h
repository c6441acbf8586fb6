/* What follows from the maximum-power points of a module, many at once: those behind cables, and
 * where a limit of current or power takes it. Numbers in, numbers out.
 *
 * At that point the diode's conductance is I / (V - I series), so the exponential is known there
 * without computing it, and all is near: a few steps of a fixed number do. What they are not sure
 * of is solved by the plain way; both agree within 1e-10. */
#ifndef PVSZ_DIODE_HELD_H
#define PVSZ_DIODE_HELD_H

#include <stdint.h>

#include "diode_shift.h"

/* Conditions, and the maximum-power points of the module there. */
typedef struct pvsz_peaks {
    const double *irradiance, *cell_temp, *voltage, *current;
} pvsz_peaks;

/* Points of the module with `added` ohm in series, at n conditions. */
void pvsz_wired_mpps(const pvsz_module *module, double added, size_t n, const pvsz_peaks *peaks,
                     double *voltage, double *current);
/* At n of the conditions, picked by their places: the voltage above the maximum-power point at
 * which the module gives this power, or current, above 0 and no more than at the point. An output
 * may be the array of an input. */
void pvsz_throttled_voltages(const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                             const int32_t *pick, const double *power, double *voltage);
void pvsz_held_voltages(const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                        const int32_t *pick, const double *current, double *voltage);

/* The same by one width of vector instructions (widths.h), for tests. */
void pvsz_wired_mpps_by(int width, const pvsz_module *module, double added, size_t n,
                        const pvsz_peaks *peaks, double *voltage, double *current);
void pvsz_throttled_voltages_by(int width, const pvsz_module *module, const pvsz_peaks *peaks,
                                size_t n, const int32_t *pick, const double *power,
                                double *voltage);
void pvsz_held_voltages_by(int width, const pvsz_module *module, const pvsz_peaks *peaks, size_t n,
                           const int32_t *pick, const double *current, double *voltage);

#endif
