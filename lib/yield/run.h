/* What the steps of a run share. A year is run span by span: all steps of a few hours, so that
 * what they hand on stays near the processor, and memory does not grow with the year. */
#ifndef PVSZ_RUN_H
#define PVSZ_RUN_H

#include "hold_rows.h"
#include "operate.h"
#include "year.h"

/* Hours of one month, one after the other. */
typedef struct pvsz_span {
    int32_t month, first, count;
} pvsz_span;

/* Points of equal feeds with their cables, per module. */
typedef struct pvsz_track {
    const pvsz_feed *feed; /* the first of them */
    pvsz_module module;    /* with the resistance of the cables */
    double *room;          /* of both columns; null where the pair's own serve */
    pvsz_months sums;      /* of power */
    pvsz_peaks peaks;      /* in the span at hand */
} pvsz_track;

/* Feeds on one input that are alike but for the count of strings. */
typedef struct pvsz_group {
    int32_t track;
    double modules, strings;
} pvsz_group;

/* An input on its way through the hours. */
typedef struct pvsz_course {
    const pvsz_intake *in;
    const pvsz_group *group;
    int32_t groups;
    int32_t like;  /* the input before it that is its equal, or itself */
    int32_t times; /* how many are like it; 0 where another stands for it */
    bool feeding;
} pvsz_course;

typedef struct pvsz_runner {
    const pvsize_light *light;
    const pvsz_plant *plant;
    const pvsz_told *told;
    const pvsz_memory *memory;
    pvsz_year_body *body;
    pvsz_track *track;
    int32_t tracks;
    int32_t *track_of; /* by feed */
    pvsz_group *group;
    pvsz_branch *branch;
    pvsz_course *course;     /* by input */
    double *power, *voltage; /* by input of the inverter at hand, and hour of the span */
    double *room;            /* of the tracks */
} pvsz_runner;

/* Finds which feeds share points, and are alike on an input; which inputs are alike. */
void pvsz_lay_courses(pvsz_runner *r);
void pvsz_run_tracks(pvsz_runner *r, const pvsz_span *span);
/* The ledger of an array, when all spans are through: everything before strings meet. */
void pvsz_close_feed(pvsz_runner *r, int32_t feed);
/* What an input takes: its ledger, power and voltage. */
void pvsz_run_input(pvsz_runner *r, int32_t input, const pvsz_span *span, double *power,
                    double *voltage);
/* An inverter with its inputs, to its output by hour. */
void pvsz_run_machine(pvsz_runner *r, int32_t machine, const pvsz_span *span);
/* Equal strings in the span at hand. */
pvsz_alike pvsz_alike_of(const pvsz_runner *r, const pvsz_group *group);
/* Strings together in an hour: the k-th of a span. */
pvsz_joined pvsz_lay_hour(pvsz_runner *r, const pvsz_course *course, int32_t k);
/* Takes from all inverters what may not be exported. */
void pvsz_run_site(pvsz_runner *r, const pvsz_span *span);
/* The rows without light. */
void pvsz_run_dark(pvsz_runner *r);
/* A ledger goes on in that of what it hangs on. */
void pvsz_hand_on(const pvsz_ledger *from, pvsz_ledger *to);

#endif
