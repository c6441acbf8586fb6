/* The plain ways: what a careful engineer would write in C for one purpose, with no data to
 * describe themselves, no findings and no working. */
#ifndef PLAIN_H
#define PLAIN_H

#include "jobs.h"

/* The Australian preset's figures that they need. */
static const double plain_isc_factor = 1.25, plain_ratio = 1.33, plain_cell_rise = 30,
                    plain_dwelling = 1000;

static inline double plain_at(double stc, double percent, double temp)
{
    return stc * (1 + percent / 100 * (temp - 25));
}

/* What the sizing of one array, and of the whole, comes to. */
typedef struct plain_array {
    double voc_cold, vmp_hot, vmp_cold, voc_hot;
    double isc_max, imp, power;
    int broken; /* limits of the array that are passed */
} plain_array;

typedef struct plain_sizing {
    plain_array array[MOST_INPUTS];
    double input_isc[MOST_INPUTS], input_imp[MOST_INPUTS], input_power[MOST_INPUTS];
    double power, ratio;
    int broken;
} plain_sizing;

/* Cold Voc against three limits, hot and cold Vmp and hot Voc against the window and the start,
 * currents, power and terminals of the inputs, room of the planes, ratio and maker's limit.
 * Left out: fuses, isolators, cables, the supply, missing and contradictory data, unlike
 * strings, which limit governs, sources, assumptions, and every word. */
void plain_check(const job *j, plain_sizing *out);

/* The best energy of a stringing in whole watt hours of a module, by trying every one; the
 * inputs must be few. Its limits are those above, and strings need no fuses. */
double plain_search(const job *j);

/* A module's curve: light, saturation, a, series, shunt conductance, light per K, band gap,
 * narrowing. */
typedef struct plain_diode {
    double number[8];
} plain_diode;

/* Translate with libm, then Newton on dP/dV, one point after another. */
void plain_points(const plain_diode *m, size_t n, const double *sun, const double *temp,
                  double *voltage, double *current);
/* The usual way: Lambert W, and Brent's bounded search for the highest power. By GSL. */
void lambert_points(const plain_diode *m, size_t n, const double *sun, const double *temp,
                    double *voltage, double *current);
/* Current at a voltage, by Lambert W. */
void lambert_currents(const plain_diode *m, size_t n, const double *sun, const double *temp,
                      const double *voltage, double *current);

#endif
