/* Voltages of a module at another temperature. Numbers in, numbers out. */
#ifndef PVSZ_TEMPERATURE_H
#define PVSZ_TEMPERATURE_H

#include <stdbool.h>

/* Linear law of the data sheet: coefficient in %/K from STC (25 degC). */
double pvsz_voltage_at(double stc, double coefficient, double cell_temp);

/* Factor of the correction table; false below its coldest band. A temperature
 * between two bands, which are whole degrees, takes the colder. At 25 degC and
 * above the factor is 1. */
bool pvsz_voc_factor(double temp, double *factor);

#endif
