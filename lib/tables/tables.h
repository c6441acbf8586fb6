/* The tables as data. The public side of this is pvsize/terms.h. */
#ifndef PV_TABLES_H
#define PV_TABLES_H

#include "../base/base.h"
#include "pvsize/terms.h"

/* Kinds and rows by place in their table, for arrays indexed without search. */
enum {
#define KIND(number, ID, name, plural, text) PV_KIND_##ID,
#define PART(owner, part, fewest, most)
#include "kinds.def"
#undef KIND
#undef PART
    PV_KINDS,
    /* kinds up to here are specs, and may be what a rule speaks of */
    PV_SCOPES = PV_KIND_FIGURE
};

enum {
#define FIGURE(number, ID, name, symbol, unit, low, high, text) PV_FIGURE_##ID,
#include "figures.def"
#undef FIGURE
    PV_FIGURES
};

enum {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) PV_QUANTITY_##ID,
#include "quantities.def"
#undef QUANTITY
    PV_QUANTITIES
};

enum {
#define RULE(number, ID, name, SCOPE, LOUDNESS, VALUE, COMPARE, LIMIT, title, breach) PV_RULE_##ID,
#include "rules.def"
#undef RULE
    PV_RULES
};

typedef struct pv_term {
    int32_t number;
    int32_t kind;  /* place of its table among the kinds */
    int32_t scope; /* place of the kind it speaks of; -1: none */
    int32_t type;
    int32_t need;
    int32_t set;       /* PVSIZE_SET_... of a choice */
    int32_t refers_to; /* PVSIZE_KIND_... of an index */
    int32_t value, compare, limit; /* of a rule: term numbers */
    bool head;         /* quantity stated in every report */
    bool quiet;        /* rule reported only when broken */
    double low, high, deflt;
    const char *name, *symbol, *unit, *text;
    const char *breach; /* of a rule: what a breach means */
} pv_term;

typedef struct pv_kind {
    int32_t number;
    const char *name, *plural, *text;
    const pv_term *rows;
    int32_t count;
} pv_kind;

typedef struct pv_part {
    int32_t owner, part; /* places */
    int32_t fewest, most;
} pv_part;

extern const pv_kind pv_kinds[PV_KINDS];
extern const pv_part pv_parts[];
extern const int32_t pv_part_rows;

const pv_kind *pv_kind_find(int32_t number);
const pv_term *pv_term_find(int32_t number);
const pv_term *pv_term_named(const pv_kind *kind, const char *name);
/* Place of the row in its table. */
int32_t pv_term_place(const pv_term *term);
bool pv_set_has(int32_t set, double choice);
/* "module.voc" */
void pv_put_term(pv_text *text, int32_t number);

#endif
