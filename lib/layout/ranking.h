/* A ranking as ranking.c and sweep.c see it. */
#ifndef PVSZ_RANKING_H
#define PVSZ_RANKING_H

#include "layout.h"

typedef struct pvsz_pair {
    pvsz_key key;
    int32_t module, inverter;
    bool has_energy;
    double number[PVSIZE_LAYOUT_OUTCOME + 1];
} pvsz_pair;

struct pvsize_ranking {
    pvsz_head head;
    pvsize_spec *search; /* with a site, but neither inverter nor module */
    pvsize_spec *catalogue;
    pvsize_rules *rules;
    pvsz_best best; /* of the pair searched last */
    pvsz_pair *row;
    int32_t rows, most;
    size_t capacity;
    double judged, fitting, unproven;
};

pvsize_status pvsz_check_ranking(const pvsize_ranking *ranking, const char *name,
                                 pvsize_diag *diag);
pvsize_status pvsz_check_pair(const pvsize_spec *module, const pvsize_spec *inverter,
                              int32_t module_number, int32_t inverter_number, pvsize_diag *diag);
/* Whether the ranking would keep the pair. */
bool pvsz_would_keep(const pvsize_ranking *ranking, const pvsz_pair *pair);
/* Searches a pair that is in order, and counts it unless it was stopped. */
pvsize_status pvsz_rank_pair(pvsize_ranking *ranking, const pvsize_spec *module,
                             const pvsize_spec *inverter, int32_t module_number,
                             int32_t inverter_number, const int32_t *cancel, pvsize_diag *diag);

#endif
