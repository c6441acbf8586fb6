/* Exercises as the library sees them. */
#ifndef PVSZ_CLASS_H
#define PVSZ_CLASS_H

#include "../report/words.h"
#include "pvsize/exercise.h"

/* Numbers that follow from a seed alone, the same on every machine. */
typedef struct pvsz_random {
    uint64_t state;
} pvsz_random;
/* A whole number from low to high, both included. */
int32_t pvsz_between(pvsz_random *random, int32_t low, int32_t high);

/* jobs */

enum { PVSZ_MOST_PLACES = 2 }; /* arrays of a job, each on an input of its own */
/* Makes the frame of a job of some arrays: all parts, and no values. */
pvsize_status pvsz_make_job(int32_t arrays, const pvsize_allocator *memory, pvsize_spec **out,
                            pvsize_diag *diag);
/* Fills a frame with invented data, one module in each string. */
void pvsz_draw_job(pvsize_spec *system, int32_t level, int32_t fault, pvsz_random *random);
/* Power of all arrays at STC. */
double pvsz_job_power(const pvsize_spec *system);
/* The part of a kind (its place among the kinds) that hangs on array k. */
pvsize_spec *pvsz_job_part(const pvsize_spec *system, int32_t kind, int32_t k);
int32_t pvsz_job_arrays(const pvsize_spec *system);
double pvsz_job_number(const pvsize_spec *system, int32_t term, int32_t k);
/* Sets a number, in or out of its range: wrong answers come of wrong numbers. */
void pvsz_job_set(const pvsize_spec *system, int32_t term, int32_t k, double value);
/* Which terms the student is told, and under which label, in the order they were drawn;
 * 0 behind the last. */
int32_t pvsz_told_term(int32_t i, const char **label);

/* changes */

typedef enum pvsz_change_kind {
    PVSZ_TO,
    PVSZ_BY,
    PVSZ_ABOUT,
    PVSZ_TIMES,
    PVSZ_OVER,
    PVSZ_LIKE
} pvsz_change_kind;

typedef struct pvsz_undo {
    pvsize_spec *spec;   /* null: a figure */
    pvsz_figure *figure; /* null: a parameter */
    int32_t row;
    uint64_t set, none;
    double value;
} pvsz_undo;

enum { PVSZ_MOST_UNDO = 32 };
typedef struct pvsz_changed {
    pvsz_undo undo[PVSZ_MOST_UNDO];
    int32_t count;
} pvsz_changed;

/* Changes a job and its rule set as a mistake would; the other takes it back. */
void pvsz_mistake_make(int32_t mistake, pvsize_spec *system, pvsize_rules *rules,
                       pvsz_changed *changed);
/* All electrical data of the module times a factor. */
void pvsz_nudge(double factor, pvsize_spec *system, pvsz_changed *changed);
void pvsz_take_back(const pvsz_changed *changed);

/* questions */

typedef struct pvsz_question pvsz_question;
typedef bool pvsz_answer(const pvsz_question *question, const pvsize_report *report, int32_t place,
                         double *value);
struct pvsz_question {
    int32_t number; /* PVSIZE_QUESTION_... */
    int32_t scope;  /* place of the kind it is asked of */
    int32_t quantity;
    pvsz_answer *answer;
    int32_t set;
    int32_t decimals; /* PVSZ_EXACT */
    const char *text;
};
enum { PVSZ_EXACT = -1 };

typedef enum pvsz_result_kind {
    PVSZ_RERUN,
    PVSZ_ONE_MORE,
    PVSZ_ONE_LESS,
    PVSZ_INVERSE,
    PVSZ_OTHER_LIMIT,
    PVSZ_LOSS
} pvsz_result_kind;

typedef struct pvsz_made {
    int32_t question, mistake;
    pvsz_result_kind result;
} pvsz_made;

/* Which mistakes are made where: row i; null behind the last. */
const pvsz_made *pvsz_made_at(int32_t i);
/* What a level asks: row i of it and where; null behind the last. */
const pvsz_question *pvsz_asked_at(int32_t level, int32_t i, int32_t *place);
/* The k-th limit, where a question asks for the one that governs; 0 behind the last. */
int32_t pvsz_limit_at(const pvsz_question *question, const pvsize_report *report, int32_t place,
                      int32_t k);
/* Entry of the quantity that a question asks of; -1: none. */
int32_t pvsz_question_entry(const pvsz_question *question, const pvsize_report *report,
                            int32_t place);
/* What a question is asked of. */
const pvsz_subject *pvsz_question_subject(const pvsz_question *question,
                                          const pvsize_report *report, int32_t place);
/* The most that an answer may be off. */
double pvsz_tolerance(const pvsz_question *question);

/* faults */

/* Fault that a rule's breach is; PVSIZE_FAULT_NONE: none of those in the table. */
int32_t pvsz_fault_of(int32_t rule);
/* The one finding by which a limit that must hold is broken; null if there is none or
 * more than one. */
const pvsz_finding *pvsz_broken(const pvsize_report *report);
int32_t pvsz_broken_count(const pvsize_report *report);
bool pvsz_loses_energy(const pvsize_report *report);
/* A fault that a rule set can find; PVSIZE_FAULT_NONE: it finds none of them. */
int32_t pvsz_draw_fault(const pvsize_rules *rules, pvsz_random *random);
/* Whether a fault is one of the fuses in many strings. */
bool pvsz_is_of_devices(int32_t fault);
/* Spoils a sound design so that it should have the fault. `most` and `fewest` are the
 * modules a string may have. */
void pvsz_provoke(int32_t fault, pvsize_spec *system, double fewest, double most,
                  pvsz_random *random);

/* the exercise */

enum { PVSZ_MOST_ASKED = 12, PVSZ_MOST_MISTAKES = 12 };
typedef struct pvsz_asked {
    const pvsz_question *question;
    int32_t place;
    double answer;
    int32_t mistakes;
    int32_t mistake[PVSZ_MOST_MISTAKES];
    double wrong[PVSZ_MOST_MISTAKES];
} pvsz_asked;

struct pvsize_exercise {
    pvsz_head head;
    int32_t level, seed;
    pvsize_spec *system;
    pvsize_rules *rules;
    pvsize_report *report;
    pvsize_report *trial; /* of one mistake; only while the exercise is made */
    int32_t count;
    pvsz_asked asked[PVSZ_MOST_ASKED];
};

/* Draws jobs until one is fit for teaching. */
pvsize_status pvsz_generate(pvsize_exercise *exercise, pvsize_diag *diag);
/* Whether two answers cannot be told apart. */
bool pvsz_same_answer(const pvsz_question *question, double a, double b);
pvsize_status pvsz_find_asked(const pvsize_exercise *exercise, int32_t i, const pvsz_asked **asked,
                              pvsize_diag *diag);
void pvsz_put_answer(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked,
                     double value);
const char *pvsz_answer_unit(const pvsize_exercise *exercise, const pvsz_asked *asked);
void pvsz_put_question(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked);
void pvsz_put_answer_working(pvsz_text *text, const pvsize_exercise *exercise,
                             const pvsz_asked *asked, pvsz_manner manner);
void pvsz_put_sheet(pvsz_text *text, const pvsize_exercise *exercise, int32_t sheet);

#endif
