/* What the files on cables share: which cable, which size, which tables. */
#ifndef PVSZ_CABLE_H
#define PVSZ_CABLE_H

#include "../wiring/conductor.h"
#include "calc.h"

/* PVSIZE_CIRCUIT_... */
int32_t pvsz_cable_circuit(const pvsz_calc *calc);
bool pvsz_cable_is_ac(const pvsz_calc *calc);
/* Computes by the circuit that the cable is in. */
void pvsz_by_circuit(pvsz_calc *calc, pvsz_quantity_function *of_string,
                     pvsz_quantity_function *of_array, pvsz_quantity_function *of_ac);
/* The largest a.c. current of its inverter. */
pvsz_quantity_function pvsz_cable_ac_current;
/* PVSZ_CONDUCTOR_..., -1 where none is given; likewise the laying. */
int32_t pvsz_cable_conductor(pvsz_calc *calc);
int32_t pvsz_cable_laying(pvsz_calc *calc);
/* Place of the cable's size among those of its conductor; -1 and missing where
 * none is given, or no such size is made. */
int32_t pvsz_cable_size(pvsz_calc *calc);
/* Conductor temperature as given, else the highest that the laying allows; 0 where
 * neither is known. */
double pvsz_cable_temp(pvsz_calc *calc);
/* Length and current, noted in this order, and the power factor; resistance and
 * reactance are not known yet. */
pvsz_run pvsz_cable_run(pvsz_calc *calc);
/* Between the two conductors, or between lines; noted without the sqrt(3). */
double pvsz_cable_voltage(pvsz_calc *calc);

typedef struct pvsz_corrections {
    double ambient, grouping;
} pvsz_corrections;

/* What the place takes off; told as missing where it is beyond its table. */
pvsz_corrections pvsz_cable_corrections(pvsz_calc *calc);
/* Whether its table comes by temperature of the conductor. */
bool pvsz_cable_has_columns(pvsz_calc *calc);
/* Capacity of a size in the column of the laying or the hottest that the terminals
 * bear, whichever is the lower; 0 where no column is so cool. */
double pvsz_cable_terminal_capacity(pvsz_calc *calc, int32_t size);
bool pvsz_cable_has_device(const pvsz_calc *calc);
/* Highest a.c. device for a size that carries so much: that, or where the rule set
 * lets it pass the next standard rating, but for small conductors. */
double pvsz_cable_device_limit(pvsz_calc *calc, int32_t size, double capacity);

#endif
