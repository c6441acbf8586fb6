/* What a check leaves behind: the body of a report. */
#ifndef PVSZ_FINDINGS_H
#define PVSZ_FINDINGS_H

#include "../design/design.h"
#include "figure_set.h"
#include "rules.h"
#include "pvsize/report.h"

/* of a formula that is not a list */
enum { PVSZ_MOST_OPERANDS = 6 };

/* How one number came about: one use of a value in a formula. */
typedef struct pvsz_operand {
    double value;
    int32_t term;  /* parameter, figure or quantity; 0: a number from a table */
    int32_t entry; /* of a quantity; else -1 */
} pvsz_operand;

typedef enum pvsz_state {
    PVSZ_NOT_YET,
    PVSZ_COMPUTING, /* met again now: the quantities would run in a circle */
    PVSZ_VALUE,
    PVSZ_MISSING, /* a term has no value */
    PVSZ_NOTHING  /* does not apply to this subject */
} pvsz_state;

/* One quantity of one subject. `formula` is text with the operands' symbols in
 * braces, in the order of their first use; a symbol that starts with + stands
 * for all remaining operands, joined by +, one that starts with , by commas.
 * What follows a semicolon is a remark. */
typedef struct pvsz_entry {
    double value;
    const char *formula;
    const pvsz_subject *subject;
    pvsz_operand *operand;
    int32_t operands;
    int32_t missing;         /* term */
    int32_t turn;            /* how many were begun before */
    int16_t quantity;        /* place */
    int16_t state;           /* PVSZ_NOT_YET ... */
    pvsz_figure_set figures; /* all it looked at, and what it builds on did */
} pvsz_entry;

typedef struct pvsz_finding {
    const pvsz_rule *rule;
    const pvsz_subject *subject;
    double value, limit, margin;
    double limit_term; /* the limit before the rule's factor */
    int32_t missing;   /* term, if not assessed */
    int32_t verdict;
    bool governs;
} pvsz_finding;

/* Something taken for granted: a default, or an estimate. */
typedef struct pvsz_assumption {
    const pvsz_subject *subject;
    double value;
    int32_t term;
} pvsz_assumption;

/* One block of memory holds all arrays; a check that fits reuses it. */
struct pvsize_report {
    pvsz_head head;
    void *block;
    size_t block_size;
    bool filled;

    pvsz_design design;
    const char *title; /* of the rule set */
    pvsz_figure figure[PVSZ_FIGURES];
    pvsz_rule *rule;
    int32_t rules;
    int32_t first_rule[PVSZ_SCOPES + 1]; /* rules stand in the order of their scopes */

    /* rows of subjects, one after the other, with the quantities of their scope */
    pvsz_entry *entry;
    const pvsz_entry **turn; /* the entries in the order in which they were begun */
    int32_t turns;
    pvsz_operand *next_operand, *last_operand; /* the first free; behind the room */
    pvsz_finding *finding;
    int32_t findings;
    double close; /* share of a limit within which a margin is close; -inf: none is */
    pvsz_assumption *assumption;
    int32_t assumptions, assumption_room;
    char *text, *next_text;
};

/* Kinds that rules speak of, from the whole to the parts: the order of findings. */
enum { PVSZ_ORDERED_SCOPES = 10 };
extern const int32_t pvsz_scope_order[PVSZ_ORDERED_SCOPES];

/* Makes room for a check of this spec by these rules, and takes in what it
 * needs; the report is as it was if this fails. Afterwards, once all is found,
 * lets go of the spec. */
pvsize_status pvsz_open_report(pvsize_report *report, const pvsize_spec *spec,
                               const pvsize_rules *rules, pvsize_diag *diag);
void pvsz_close_report(pvsize_report *report);
bool pvsz_report_live(const pvsize_report *report);
/* Entry of a quantity of a subject or of what that hangs on; -1: none. */
int32_t pvsz_report_entry(const pvsize_report *report, int32_t quantity,
                          const pvsz_subject *subject);
/* The value of that, if it has one; else `value` stays. */
bool pvsz_report_value(const pvsize_report *report, int32_t quantity, const pvsz_subject *subject,
                       double *value);
/* The same of an array; 0 without a value. */
double pvsz_array_value(const pvsize_report *report, int32_t quantity, int32_t array);
/* Entry of one side of a rule on a subject; -1: no quantity, or none of it. */
int32_t pvsz_side_entry(const pvsz_ref *ref, const pvsz_subject *subject);

#endif
