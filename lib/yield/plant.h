/* A system as the year sees it: numbers only, taken from the specs once. */
#ifndef PVSZ_PLANT_H
#define PVSZ_PLANT_H

#include "../physics/conversion.h"
#include "../physics/volt_watt.h"
#include "../report/words.h"
#include "light.h"

/* Equal strings. */
typedef struct pvsz_feed {
    const pvsz_pair *pair;
    double modules;
    double strings; /* as many as would give the current that the stated loss leaves */
    double added;   /* ohm, the cables' share of one module */
    double rated;   /* W, all modules */
    double stc;     /* W, by the curves */
    int32_t count;  /* modules */
    int32_t next;   /* feed on the same input; -1: none */
} pvsz_feed;

/* Limits that are not there are 0 below and infinite above. */
typedef struct pvsz_intake {
    double lowest, highest, start; /* V */
    double current, power;
    int32_t first, feeds;
} pvsz_intake;

typedef struct pvsz_machine {
    pvsz_conversion conversion;
    double rating; /* a.c. power that conversion is a share of */
    double dc_limit, ac_limit;
    double ac_wiring; /* W lost for each W squared */
    double night;
    int32_t first, intakes;
    bool responds; /* to the voltage of the supply, which is told */
    pvsz_volt_watt response;
} pvsz_machine;

/* What a caller tells of the site, a number for each row of the weather; null where not told. */
typedef struct pvsz_told {
    const double *load;   /* W */
    const double *supply; /* V */
} pvsz_told;

/* Something taken for granted: PVSIZE_YEAR_ASSUMPTION_..., of a subject, or of none (-1). */
typedef struct pvsz_granted {
    int32_t what, subject;
    double value;
} pvsz_granted;

typedef struct pvsz_plant {
    pvsz_feed *feed;
    pvsz_intake *intake;
    pvsz_machine *machine;
    int32_t feeds, intakes, machines;
    double export_limit;
    pvsz_granted *granted;
    size_t grants, grants_room;
} pvsz_plant;

/* Takes the system that the report was opened on; computes what is new under this light.
 * After a failure too, pvsz_release_plant takes what was made, but for `granted`. */
pvsize_status pvsz_take_plant(const pvsize_report *report, pvsize_light *light,
                              const pvsz_told *told, const pvsz_memory *memory, pvsz_plant *plant,
                              pvsize_diag *diag);
void pvsz_release_plant(const pvsz_memory *memory, pvsz_plant *plant);

#endif
