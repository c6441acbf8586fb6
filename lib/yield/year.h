/* A year as the library sees it. */
#ifndef PVSZ_YEAR_H
#define PVSZ_YEAR_H

#include "plant.h"

/* Losses by their numbers; their order in the ledger is that of their set. */
enum { PVSZ_LOSSES = PVSIZE_LOSS_AC_VOLTAGE + 1, PVSZ_ENERGIES = PVSIZE_ENERGY_DRAWN + 1 };

/* Sums of watts over rows: the reference less all losses is the output. */
typedef struct pvsz_ledger {
    pvsz_months reference, output;
    pvsz_months loss[PVSZ_LOSSES];
    int32_t active[PVSZ_LOSSES]; /* rows in which a limit took something */
    int32_t last;                /* loss at which the ledger ends */
    double rated;                /* W */
} pvsz_ledger;

/* All that a fill makes; it is replaced as one. */
typedef struct pvsz_year_body {
    pvsize_report *report; /* for the subjects and their names */
    int32_t step, rows, hours, gaps;
    uint8_t *state;
    pvsz_ledger *system, *inverter, *input, *array; /* one block, `system` its first */
    pvsz_months *gross, *net;                       /* light by array, W/m2; one block */
    pvsz_months site[PVSZ_ENERGIES];                /* load, and where the output goes */
    double *power;                                  /* by inverter and hour, W */
    double *night;                                  /* by inverter, drawn in the dark, W */
    pvsz_granted *granted;
    size_t grants;
} pvsz_year_body;

struct pvsize_year {
    pvsz_head head;
    pvsz_year_body body;
};

pvsize_status pvsz_check_year(const pvsize_year *year, pvsize_diag *diag);
void pvsz_release_year(const pvsz_memory *memory, pvsz_year_body *body);
/* The ledger of a system, inverter, input or array, or the failure told. */
pvsize_status pvsz_find_ledger(const pvsize_year *year, int32_t subject, const pvsz_ledger **ledger,
                               pvsize_diag *diag);
pvsize_status pvsz_find_granted(const pvsize_year *year, int32_t i, const pvsz_granted **granted,
                                pvsize_diag *diag);
/* The output of an inverter by hour. */
static inline double *pvsz_power_of(const pvsz_year_body *body, int32_t inverter)
{
    return body->power + (size_t)inverter * (size_t)body->hours;
}
/* Computes all of a body that has room for it. */
pvsize_status pvsz_run_year(const pvsize_light *light, const pvsz_plant *plant,
                            const pvsz_told *told, const pvsz_memory *memory, pvsz_year_body *body,
                            pvsize_diag *diag);

#endif
