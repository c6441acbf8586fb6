/* Points of a curve, for those that compare them. */
#ifndef OPERATIONS_CURVE_H
#define OPERATIONS_CURVE_H

#include "operations.h"
#include "plain.h"

typedef struct points {
    size_t count;
    pvsize_spec *module;
    pvsize_curve *curve;
    plain_diode plain;
    double *sun, *temp, *volts, *voltage, *current;
} points;

void *make_points(size s);
void unmake_points(void *state);
/* Each leaves voltages and currents in the state. */
void run_points(void *state);
void run_currents(void *state); /* at the state's own volts; currents only */
void run_plain_points(void *state);
void run_lambert_points(void *state);
void run_lambert_currents(void *state);

#endif
