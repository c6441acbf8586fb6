/* What a sieve is made of: sieve_make.c makes it, by the rules that sieve_rules.c sorts,
 * sieve_rows.c looks at a module, sieve.c judges pairs. */
#ifndef PVSZ_SIEVE_PARTS_H
#define PVSZ_SIEVE_PARTS_H

#include "sieve.h"

/* strings on one input beyond which only a search tells */
enum { PVSZ_SIEVE_STRINGS = 16 };

/* A side of a rule; without a value the rule is silent. */
typedef struct pvsz_side {
    bool has;
    double value;
} pvsz_side;

/* A rule on what stands on one input. */
typedef struct pvsz_mesh {
    const pvsz_rule *rule;
    bool value_apart, limit_apart; /* else the side is the inverter's */
    bool up;                       /* the value is in proportion to the length */
    bool ends;                     /* what is beyond the limit stays so with more of it */
} pvsz_mesh;

/* Lengths that pass with so many strings. */
typedef struct pvsz_window {
    int32_t low, high;
    int32_t reach; /* of these, by rules that no more strings mend */
    bool unsure;   /* a side is where only a check tells */
} pvsz_window;

/* What the present module comes to with so many strings on a plane. */
typedef struct pvsz_row {
    bool known;
    pvsz_window window; /* by rules with both sides apart */
    pvsz_side *side;    /* of the others, the one apart */
} pvsz_row;

/* Inputs of the same traits. The problem is one of their inverters with any module. */
typedef struct pvsz_family {
    pvsz_problem problem;
    pvsz_probe probe;
    pvsz_side *value; /* of each trait */
    pvsz_row *row;    /* by plane and strings */
} pvsz_family;

/* Like inputs of an inverter. */
typedef struct pvsz_port {
    int32_t family, inputs;
    pvsz_side *side; /* of the rules with one side apart, the other */
} pvsz_port;

/* What an inverter allows. */
typedef struct pvsz_allowance {
    bool known;
    bool unsure;     /* nothing can be told of it */
    bool broken;     /* whatever is wired */
    int64_t power;   /* that sums leave, milliwatts; INT64_MAX: any */
    int32_t modules; /* the same; INT32_MAX: any */
    pvsz_port *port;
    int32_t ports;
} pvsz_allowance;

struct pvsz_sieve {
    const pvsz_memory *memory;
    pvsize_spec *search;
    const pvsize_rules *rules;
    const pvsize_spec *const *inverter;
    size_t inverters;
    bool blind; /* a rule, or the question itself, is none for it */

    pvsz_mesh *own, *cross; /* rules with both sides apart, and with one */
    int32_t owns, crosses;
    pvsz_family **family;
    size_t families, capacity;
    pvsz_allowance *allowance; /* by inverter */

    const pvsize_spec *module; /* the present one */
    int64_t power;             /* of it, milliwatts; 0: not given */
    bool valued;
    int32_t planes;
    int64_t *worth[2]; /* of it on each plane, by the first levels of the key */
    int32_t *order[2]; /* planes by it, the best first */
    int32_t *most;     /* modules that the pair at hand can have on each plane */
};

/* sieve_rules.c */
/* Sorts the rules in force that must hold by how a pair is told by them. */
pvsize_status pvsz_sort_rules(pvsz_sieve *sieve, pvsize_diag *diag);

/* sieve_make.c */
/* Takes in what an inverter allows, with any module that has a power. */
pvsize_status pvsz_sieve_take_in(pvsz_sieve *sieve, size_t inverter, pvsize_diag *diag);

/* sieve_rows.c */
/* What one of the module is worth on each plane. */
void pvsz_value_planes(pvsz_sieve *sieve, pvsz_problem *problem);
/* What a check of the module with so many strings of one module shows. */
pvsize_status pvsz_make_row(const pvsz_sieve *sieve, pvsz_family *family, int32_t plane,
                            int32_t strings, pvsz_row *row);
/* The lengths of a row that pass on a port. */
void pvsz_narrow_by_port(const pvsz_sieve *sieve, const pvsz_port *port, const pvsz_row *row,
                         pvsz_window *window);

#endif
