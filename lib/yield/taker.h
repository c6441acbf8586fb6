/* What the steps of taking a system in share. */
#ifndef PVSZ_TAKER_H
#define PVSZ_TAKER_H

#include "plant.h"

typedef struct pvsz_taker {
    const pvsize_report *report;
    pvsize_light *light;
    const pvsz_memory *memory;
    pvsz_plant *plant;
    const pvsz_told *told;
    pvsize_diag *diag;
    pvsize_status status; /* of the first failure */
} pvsz_taker;

void pvsz_fail_taking(pvsz_taker *t, pvsize_status status);
/* Takes something for granted. */
void pvsz_grant(pvsz_taker *t, int32_t what, const pvsz_subject *subject, double value);
/* A number of a subject, or of what it hangs on: a site there always is. */
static inline bool pvsz_taken_number(const pvsz_subject *subject, int32_t scope, int32_t term,
                                     double *value)
{
    return pvsz_spec_number(subject->spec[scope], term, value);
}
/* A limit, or what stands for none; then `what` is granted, unless it is 0. */
double pvsz_limit_of(pvsz_taker *t, const pvsz_subject *subject, int32_t term, double none,
                     int32_t what);

/* Ohm that the cables of an array add to each module: those of its own string, and those of
 * the array, which carry the current of all strings. */
double pvsz_added_ohm(pvsz_taker *t, const pvsz_subject *array, const pvsz_feed *feed,
                      double strings);
/* Watts lost in the a.c. cables for each watt squared that the inverter gives. */
double pvsz_ac_wiring(pvsz_taker *t, const pvsz_subject *inverter, double cos_phi);
/* Volts to neutral that those cables raise its terminals for each watt: the drop that the rules
 * ask for, at the same nominal voltage. */
double pvsz_ac_rise(pvsz_taker *t, const pvsz_subject *inverter, double cos_phi);
/* How the machine responds to voltage, once its rating is taken. */
void pvsz_take_response(pvsz_taker *t, int32_t inverter, double cos_phi, pvsz_machine *m);

#endif
