/* The curve at another irradiance and cell temperature. Numbers in, numbers out.
 * De Soto, Klein and Beckman, Solar Energy 80 (2006) 78-88 (from memory), with an air
 * mass modifier of 1:
 *     ideality    proportional to T
 *     saturation  proportional to T^3 e^(-Eg / k T), Eg = Eg,ref (1 + narrowing (T - Tref))
 *     light       S / 1000 (light,ref + coefficient (T - Tref))
 *     shunt       proportional to S
 *     series      constant
 * S is the effective irradiance, in W/m2, T in kelvin, Tref 298.15 K. */
#ifndef PVSZ_DIODE_SHIFT_H
#define PVSZ_DIODE_SHIFT_H

#include "diode.h"

#define PVSZ_STC_KELVIN 298.15
#define PVSZ_STC_IRRADIANCE 1000.0
/* k / q in V/K (SI, exact in its nine figures and more). */
#define PVSZ_BOLTZMANN 8.617333262145179e-05

/* Where the relations are used: cell temperature in degC, irradiance in W/m2. Below the
 * least irradiance the module counts as dark: no light current, no shunt. */
#define PVSZ_COLDEST_CELL -100.0
#define PVSZ_HOTTEST_CELL 150.0
#define PVSZ_MOST_IRRADIANCE 2000.0
#define PVSZ_LEAST_IRRADIANCE 1e-3

typedef struct pvsz_module {
    pvsz_diode stc;
    double light_coefficient; /* A/K */
    double band_gap;          /* at 25 degC, eV */
    double narrowing;         /* of the band gap, 1/K: negative */
} pvsz_module;

/* The dark curve, with light 0, where light would not be above 0. */
pvsz_diode pvsz_module_at(const pvsz_module *module, double irradiance, double cell_temp);

#endif
