/* What must be bought, and the taking of it from a system and its check. */
#ifndef PVSZ_BILL_H
#define PVSZ_BILL_H

#include "../report/words.h"
#include "pvsize/bill.h"

enum { PVSZ_MOST_ATTRIBUTES = 14 }; /* of a listed isolator */

/* A number, or the term that is needed to tell it. */
typedef struct pvsz_told {
    double value;
    int32_t missing; /* 0: none */
} pvsz_told;

typedef struct pvsz_attribute {
    int32_t term;
    pvsz_told is;
} pvsz_attribute;

typedef struct pvsz_bill_row {
    int32_t item;
    int32_t type;      /* subject that stands for it; -1: none */
    int32_t allowance; /* figure; 0: none */
    pvsz_told installed, quantity;
    pvsz_attribute attribute[PVSZ_MOST_ATTRIBUTES];
    int32_t attributes;
    size_t first_share, shares;
} pvsz_bill_row;

typedef struct pvsz_share {
    size_t row;
    int32_t subject, why;
    double installed;
} pvsz_share;

typedef struct pvsz_taken {
    int32_t term, subject; /* subject -1: a figure */
    double value;
} pvsz_taken;

/* All that a fill makes; it is replaced as one. */
typedef struct pvsz_bill_body {
    pvsize_report *report;
    pvsz_bill_row *row;
    size_t rows, row_room;
    pvsz_share *share; /* in the end in the order of their rows */
    size_t shares, share_room;
    pvsz_taken *taken;
    size_t takens, taken_room;
} pvsz_bill_body;

struct pvsize_bill {
    pvsz_head head;
    pvsz_bill_body body;
};

/* Isolators beside the inverter that an input has or needs and does not list, 1 or 0,
 * and why. */
typedef struct pvsz_isolation {
    pvsz_told count;
    int32_t why;
} pvsz_isolation;

/* A bill in the making. */
typedef struct pvsz_taking {
    const pvsz_memory *memory;
    const pvsize_spec *system;
    const pvsize_rules *rules;
    const pvsize_report *report;
    pvsz_bill_body *body;
    int32_t *like;             /* of each inverter: the place of the first that is the same */
    pvsz_isolation *isolation; /* of each input */
    bool used[PVSZ_FIGURES];
    bool failed; /* no memory */
} pvsz_taking;

/* Takes the bill of a system by its check. False without memory. */
bool pvsz_take_bill(const pvsz_memory *memory, const pvsize_spec *system, const pvsize_rules *rules,
                    pvsz_bill_body *body);
void pvsz_release_body(const pvsz_memory *memory, pvsz_bill_body *body);

/* what a take reads */
/* The spec of a part of the system itself: no input, no plane. */
const pvsize_spec *pvsz_part_of(const pvsz_taking *take, const pvsz_subject *subject);
/* The number in force. */
pvsz_told pvsz_told_param(const pvsize_spec *spec, int32_t term);
/* Takes a default for granted, if it is in force. */
void pvsz_note_default(pvsz_taking *take, const pvsz_subject *subject, int32_t term);
/* A quantity of the subject itself or of what it hangs on in every system. */
pvsz_told pvsz_told_quantity(const pvsz_taking *take, const pvsz_subject *subject, int32_t place);
/* An allowance, noted as used. */
pvsz_told pvsz_told_figure(pvsz_taking *take, int32_t place);
/* Whether the rule set holds to a rule as MUST or SHOULD. */
bool pvsz_calls_for(const pvsz_taking *take, int32_t rule);
pvsz_told pvsz_tell(double value);
pvsz_told pvsz_needs(int32_t term);
/* Of two that are told the product; else what the first of them needs. */
pvsz_told pvsz_times(pvsz_told a, pvsz_told b);
const pvsz_subject *pvsz_subject_at(const pvsz_taking *take, int32_t scope, int32_t at);

/* what it writes */
pvsz_bill_row pvsz_line(int32_t item, int32_t type);
void pvsz_with(pvsz_bill_row *line, int32_t attribute, pvsz_told is);
/* Adds a share to the row of the same thing, or to a new one. */
void pvsz_put_share(pvsz_taking *take, const pvsz_bill_row *line, const pvsz_subject *subject,
                    int32_t why, pvsz_told installed);

/* the parts of a take, in the order of the items */
void pvsz_take_modules(pvsz_taking *take);
void pvsz_take_strings(pvsz_taking *take);
void pvsz_take_inverters(pvsz_taking *take);
void pvsz_take_connectors(pvsz_taking *take);
void pvsz_take_combiners(pvsz_taking *take);
void pvsz_take_string_fuses(pvsz_taking *take);
void pvsz_take_holders(pvsz_taking *take);
void pvsz_take_isolators(pvsz_taking *take);
void pvsz_take_cables(pvsz_taking *take);
void pvsz_take_breakers(pvsz_taking *take);
void pvsz_take_export_control(pvsz_taking *take);
void pvsz_take_disconnection_points(pvsz_taking *take);
void pvsz_take_array_fuses(pvsz_taking *take);

/* shared by the d.c. parts */

/* Pairs of conductors that go on to the input. */
pvsz_told pvsz_runs(const pvsz_taking *take, const pvsz_subject *array);
/* Whether its strings go straight to the input by their own leads. */
bool pvsz_plugs_in(const pvsz_taking *take, const pvsz_subject *array);
/* Whether a listed one is a switch outside the inverter, 1 or 0. */
pvsz_told pvsz_is_outside(const pvsz_taking *take, const pvsz_subject *isolator);
pvsz_isolation pvsz_isolation_of(const pvsz_taking *take, const pvsz_subject *input);

/* asking */

pvsize_status pvsz_check_bill(const pvsize_bill *bill, pvsize_diag *diag);
pvsize_status pvsz_find_row(const pvsize_bill *bill, int32_t i, const pvsz_bill_row **row,
                            pvsize_diag *diag);
pvsize_status pvsz_find_taken(const pvsize_bill *bill, int32_t i, const pvsz_taken **taken,
                              pvsize_diag *diag);
int32_t pvsz_measure_of(int32_t item);
/* Of a rule of the tables in the rule set of a report. */
int32_t pvsz_severity_of(const pvsize_report *report, int32_t rule);
/* First term that a row needs; 0: all is told. */
int32_t pvsz_row_missing(const pvsz_bill_row *row);

#endif
