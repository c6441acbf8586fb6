/* What the steps of a run share. */
#ifndef PVSZ_RUN_H
#define PVSZ_RUN_H

#include "operate.h"
#include "year.h"

/* Points of equal feeds, by hour, per module. */
typedef struct pvsz_track {
    const double *voltage, *current;
    double *made; /* null where they are the pair's own */
} pvsz_track;

/* Feeds on one input that are alike but for the count of strings. */
typedef struct pvsz_group {
    int32_t feed;
    pvsz_module module;
    double modules, strings;
} pvsz_group;

typedef struct pvsz_runner {
    const pvsize_light *light;
    const pvsz_plant *plant;
    const pvsz_memory *memory;
    pvsz_year_body *body;
    pvsz_track *track;
    pvsz_group *group;
    pvsz_branch *branch;
    int32_t groups;          /* on the input at hand */
    double *power, *voltage; /* by input of the inverter at hand, and hour */
} pvsz_runner;

/* The points of a feed with its cables, found or computed; false without memory. */
bool pvsz_find_track(pvsz_runner *r, int32_t feed);
/* The ledger of an array: everything before strings meet. */
void pvsz_run_feed(pvsz_runner *r, int32_t feed);
/* The ledger of an input; its power and voltage by hour, untouched if it has no strings. */
void pvsz_run_input(pvsz_runner *r, int32_t input, double *power, double *voltage);
/* A ledger goes on in that of what it hangs on. */
void pvsz_hand_on(const pvsz_ledger *from, pvsz_ledger *to);
/* Finds which feeds of an input are alike, and lays them for an hour. */
void pvsz_find_groups(pvsz_runner *r, const pvsz_intake *in);
pvsz_joined pvsz_lay_hour(pvsz_runner *r, int32_t h);

#endif
