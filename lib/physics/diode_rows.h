/* Maximum-power points of many conditions at once. Numbers in, numbers out. */
#ifndef PVSZ_DIODE_ROWS_H
#define PVSZ_DIODE_ROWS_H

#include "diode_shift.h"

/* Points at n conditions, bit for bit those of pvsz_diode_mpp at pvsz_module_at. An output may
 * be the array of an input. */
void pvsz_module_mpps(const pvsz_module *module, size_t n, const double *irradiance,
                      const double *cell_temp, double *voltage, double *current);

/* The same by one width of vector instructions, for tests: 0 is what every processor of the
 * kind has, the last what this one has; none gives other bits. */
int pvsz_widest(void);
void pvsz_module_mpps_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                         const double *cell_temp, double *voltage, double *current);

#endif
