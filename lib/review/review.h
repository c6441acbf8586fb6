/* A review: what may go on an inverter, found by asking the check itself on trial
 * systems, so that there is no second formula for any limit. */
#ifndef PVSZ_REVIEW_H
#define PVSZ_REVIEW_H

#include "../report/words.h"
#include "pvsize/envelope.h"

/* A limit on something about modules that are not chosen yet. */
typedef struct pvsz_bound {
    int32_t what, input, strings; /* input -1: of the inverter; strings 0: whatever they are */
    int32_t rule, severity, compare, missing;
    double limit; /* as the rule has it */
    double value; /* as the data sheet would: at STC */
    bool governs;
    const char *title, *source, *breach;
    const char *unit, *limit_unit;
    int32_t known;
} pvsz_bound;

/* What stops one more of something. */
typedef struct pvsz_stop {
    int32_t rule; /* 0: nothing found does */
    double value, limit, margin;
    const char *title, *unit;
} pvsz_stop;

enum { PVSZ_ROOMS = PVSIZE_ROOM_MODULES_TOTAL + 1 };

/* A module on an input. */
typedef struct pvsz_acceptance {
    int32_t input, module, accepted;
    int32_t open, missing; /* limits not assessed, and the term that the first needs */
    double room[PVSZ_ROOMS];
    bool has[PVSZ_ROOMS];
    pvsz_stop stop[PVSZ_ROOMS]; /* of place 0: what refuses the module */
    const char *name;
} pvsz_acceptance;

enum { PVSZ_MOST_REMARK_NUMBERS = 5 };

typedef struct pvsz_remark {
    int32_t remark, input, rule, term;
    int32_t numbers;
    double number[PVSZ_MOST_REMARK_NUMBERS];
} pvsz_remark;

typedef struct pvsz_remark_row {
    int32_t remark;
    bool of_input;
    int32_t severity;
    const char *condition, *sentence, *why;
} pvsz_remark_row;

const pvsz_remark_row *pvsz_remark_of(int32_t remark);

struct pvsize_review {
    pvsz_head head;
    bool filled;
    pvsz_bound *bound;
    pvsz_acceptance *module;
    pvsz_remark *remark;
    size_t bounds, modules, remarks;
    int32_t inputs;
    char *text; /* one block for all texts that are not static */
    const char *title, *inverter;
    const char **input_name;
};

/* A review in the making. */
typedef struct pvsz_making {
    const pvsz_memory *memory;
    const pvsize_spec *inverter, *site, *enquiry; /* the latter two may be null */
    const pvsize_rules *rules;
    pvsize_diag *diag;
    pvsize_status status; /* the first failure; nothing is done after it */

    /* the trial: one array on one input of the inverter */
    pvsize_spec *system;
    pvsize_report *report;
    pvsize_spec *array, *module, *trial_site, *trial_plane; /* inside the system */
    double plane_index;
    int32_t *baseline; /* rules that no module is to blame for */
    int32_t baselines;
    int32_t input;

    /* coefficients of Voc and Vmp, the most negative and the least */
    double coefficient[2][2];
    bool has_coefficient[2];

    pvsz_bound *bound;
    pvsz_acceptance *module_row;
    pvsz_remark *remark;
    size_t bounds, bound_room, modules, module_room, remarks, remark_room;
} pvsz_making;

/* Findings that a trial can have at most. */
size_t pvsz_most_findings(const pvsz_making *making);
/* A trial on an input, with a module or (null) one made up from the enquiry. */
void pvsz_open_trial(pvsz_making *making, int32_t input, const pvsize_spec *module);
void pvsz_close_trial(pvsz_making *making);
void pvsz_set_trial(pvsz_making *making, pvsize_spec *spec, int32_t term, double value);
/* Checks the trial as it stands. */
void pvsz_run_trial(pvsz_making *making);
/* Whether a rule fails or is not assessed before there is an array. */
bool pvsz_in_baseline(const pvsz_making *making, int32_t rule);
/* Where no isolator in the inverter serves, one beside it does, and sets no limit. */
void pvsz_fit_isolator(pvsz_making *making);
/* A quantity of the trial's array or of what it hangs on; false: none. */
bool pvsz_trial_quantity(const pvsz_making *making, int32_t place, double *value);
/* The finding of a rule on the trial; null: none. */
const pvsz_finding *pvsz_trial_finding(const pvsz_making *making, int32_t rule);
/* Number of an enquiry; false: not given. */
bool pvsz_enquiry_number(const pvsz_making *making, int32_t term, double *value);

/* The three parts of a review; each adds its rows. */
void pvsz_find_bounds(pvsz_making *making);
void pvsz_find_modules(pvsz_making *making);
void pvsz_find_remarks(pvsz_making *making);

/* One row of each in words. */
void pvsz_put_bound(pvsz_text *text, const pvsz_bound *bound);
void pvsz_put_acceptance(pvsz_text *text, const pvsz_acceptance *row);
void pvsz_put_remark(pvsz_text *text, const pvsz_remark *remark);
void pvsz_put_module_name(pvsz_text *text, const pvsz_acceptance *row);
void pvsz_put_review(pvsz_text *text, const pvsize_review *review);
void pvsz_put_input_name(pvsz_text *text, const pvsize_review *review, int32_t input);

#endif
