/* A module at another temperature and irradiance, from the figures of its data sheet:
 * IEC 60891 procedure 2 (edition of 2009) from STC, with the terms for the internal
 * series resistance left out, for which data sheets give no figure. Numbers in, numbers
 * out. A curve fitted to the module could stand in for all of it. */
#ifndef PVSZ_TRANSLATE_H
#define PVSZ_TRANSLATE_H

/* What the irradiance adds to a voltage (below 1000 W/m2: takes from it): `rise` is the
 * share of Voc for each e-fold. Irradiance above 0. */
double pvsz_voltage_by_light(double voc, double rise, double irradiance);
/* A current in proportion to irradiance, its coefficient in %/K from 25 degC. */
double pvsz_current_at(double stc, double coefficient, double cell_temp, double irradiance);
/* Three uncertainties in percent together, each at its worst: what is read lies at most so
 * many percent above what is expected, and by less below. */
double pvsz_worst_of(double first, double second, double third);

#endif
