/* Maximum-power points of many conditions at once. Numbers in, numbers out. */
#ifndef PVSZ_DIODE_ROWS_H
#define PVSZ_DIODE_ROWS_H

#include "diode_shift.h"

/* Points at n conditions, bit for bit those of pvsz_diode_mpp at pvsz_module_at. An output may
 * be the array of an input. */
void pvsz_module_mpps(const pvsz_module *module, size_t n, const double *irradiance,
                      const double *cell_temp, double *voltage, double *current);
/* Their powers at one cell temperature, within 1e-11: near its maximum power hardly changes, so
 * that one step less does. */
void pvsz_module_powers(const pvsz_module *module, size_t n, const double *irradiance,
                        double cell_temp, double *power);

/* The same by one width of vector instructions (widths.h), for tests: none gives other bits. */
void pvsz_module_mpps_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                         const double *cell_temp, double *voltage, double *current);
void pvsz_module_powers_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                           double cell_temp, double *power);

#endif
