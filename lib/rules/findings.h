/* What a check leaves behind: the body of a report. */
#ifndef PV_FINDINGS_H
#define PV_FINDINGS_H

#include "../design/design.h"
#include "rules.h"
#include "pvsize/report.h"

/* How one number came about: one use of a value in a formula. */
typedef struct pv_operand {
    double value;
    int32_t term;  /* parameter, figure or quantity; 0: a number from a table */
    int32_t entry; /* of a quantity; else -1 */
} pv_operand;

typedef enum pv_state {
    PV_COMPUTING, /* met again now: the quantities would run in a circle */
    PV_VALUE,
    PV_MISSING,   /* a term has no value */
    PV_NOTHING    /* does not apply to this subject */
} pv_state;

/* One quantity of one subject. `formula` is text with the operands' symbols in
 * braces, in the order of their first use; a symbol that starts with + stands
 * for all remaining operands, joined by +, one that starts with , by commas.
 * What follows a semicolon is a remark. */
typedef struct pv_entry {
    double value;
    const char *formula;
    const pv_subject *subject;
    int32_t quantity; /* place */
    int32_t first_operand, operands;
    int32_t missing; /* term */
    pv_state state;
} pv_entry;

/* One side of a comparison: a quantity's entry, or a plain number. */
typedef struct pv_side {
    double value;
    double factor;
    int32_t term;
    int32_t entry;
    int32_t missing;
    pv_state state;
} pv_side;

typedef struct pv_finding {
    const pv_rule *rule;
    const pv_subject *subject;
    pv_side value, limit;
    double margin;
    int32_t verdict;
    int32_t missing;
    bool governs;
} pv_finding;

/* Something taken for granted: a default, or an estimate. */
typedef struct pv_assumption {
    const pv_subject *subject;
    double value;
    int32_t term;
} pv_assumption;

/* One block of memory holds all arrays; a check that fits reuses it. */
struct pvsize_report {
    uint32_t mark;
    pv_memory memory;
    void *block;
    size_t block_size;
    bool filled;

    pv_design design;
    const char *title; /* of the rule set */
    pv_figure figure[PV_FIGURES];
    pv_rule *rule;
    int32_t rules;
    int32_t first_rule[PV_SCOPES + 1]; /* rules stand in the order of their scopes */

    int32_t *memo; /* entry of a quantity of a subject, or -1 */
    int32_t memo_start[PV_SCOPES];
    pv_entry *entry;
    int32_t entries;
    pv_operand *operand;
    int32_t operands, operand_room;
    pv_finding *finding;
    int32_t findings;
    pv_assumption *assumption;
    int32_t assumptions, assumption_room;
    char *text;
};

/* Kinds that rules speak of, from the whole to the parts: the order of findings. */
enum { PV_ORDERED_SCOPES = 7 };
extern const int32_t pv_scope_order[PV_ORDERED_SCOPES];

bool pv_report_live(const pvsize_report *report);
/* Entry of a quantity of a subject or of what that hangs on; -1: none. */
int32_t pv_report_entry(const pvsize_report *report, int32_t quantity, const pv_subject *subject);

#endif
