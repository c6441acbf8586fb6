/* What readings come to: a row for each number read, with what it can come from. */
#ifndef PVSZ_JUDGEMENT_H
#define PVSZ_JUDGEMENT_H

#include "../report/words.h"
#include "pvsize/readings.h"

/* No number fits more causes than this at once. */
enum { PVSZ_MOST_CAUSES = 12 };

typedef struct pvsz_cause {
    int32_t cause;
    double least, likeliest, most; /* of what it counts */
    double distance;
} pvsz_cause;

typedef struct pvsz_judged {
    int32_t reading, array, string; /* places; the string's number, 0: none */
    int32_t measured, judged, why;
    double value, expected, low, high;
    double modules, strings;
    double diodes;     /* bypass diodes of a module */
    double per_kelvin; /* what one kelvin adds to the expected voltage */
    double alike;      /* below 0: there are no like strings */
    double alike_limit;
    bool reversed;
    pvsz_cause cause[PVSZ_MOST_CAUSES];
    int32_t causes;
    const char *name;
} pvsz_judged;

struct pvsize_judgement {
    pvsz_head head;
    bool filled;
    pvsz_judged *row;
    int32_t rows;
    char *text; /* labels of the readings, of the job, title of the rule set */
    const char *job, *title;
};

pvsize_status pvsz_check_judgement(const pvsize_judgement *judgement, pvsize_diag *diag);
/* Finds what a judged row can come from. */
void pvsz_find_causes(pvsz_judged *row);
/* "403 V; expected 439.5 V, ..." */
void pvsz_put_judged(pvsz_text *text, const pvsz_judged *row);
void pvsz_put_reading(pvsz_text *text, const pvsz_judged *row);

#endif
