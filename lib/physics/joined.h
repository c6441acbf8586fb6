/* Unlike strings in parallel on one input, by their curves. Numbers in, numbers out. */
#ifndef PVSZ_JOINED_H
#define PVSZ_JOINED_H

#include <stdbool.h>

#include "diode.h"

/* Equal strings of equal modules under equal light. */
typedef struct pvsz_branch {
    pvsz_diode module;
    double modules; /* in each string, in series */
    double strings; /* in parallel */
    double open;    /* open-circuit voltage of a string; 0 in the dark */
} pvsz_branch;

pvsz_branch pvsz_branch_of(const pvsz_diode *module, double modules, double strings);

typedef struct pvsz_joined {
    const pvsz_branch *branch;
    size_t count;
    bool blocked; /* a diode in each string keeps current from flowing back into it; its own
                     voltage drop is not counted */
} pvsz_joined;

/* Currents of all branches at one voltage, those that flow back counted as negative. */
double pvsz_joined_current(const pvsz_joined *joined, double voltage);
/* The voltage of 0 or more at which this current flows; false where even at 0 V less does.
 * At current 0 it is the open-circuit voltage of all together. */
bool pvsz_joined_voltage(const pvsz_joined *joined, double current, double *voltage);
/* Highest power of all together; the same of blocked branches at voltages from `lowest` to
 * `highest`, both finite: 0 V and 0 A where none feeds there. */
pvsz_point pvsz_joined_mpp(const pvsz_joined *joined);
pvsz_point pvsz_joined_best(const pvsz_joined *joined, double lowest, double highest);
/* The voltage above this one to which power has to go to come down to `power`, above 0. */
double pvsz_joined_throttled(const pvsz_joined *joined, double voltage, double power);

#endif
