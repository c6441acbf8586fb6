/* The tables as data. The public side of this is pvsize/terms.h. */
#ifndef PVSZ_TABLES_H
#define PVSZ_TABLES_H

#include "../base/base.h"
#include "pvsize/terms.h"

/* Kinds and rows by place in their table, for arrays indexed without search. */
enum {
#define KIND(number, ID, name, plural, text) PVSZ_KIND_##ID,
#define PART(owner, part, fewest, most)
#include "kinds.def"
#undef KIND
#undef PART
    PVSZ_KINDS,
    /* kinds up to here are specs */
    PVSZ_SPECS = PVSZ_KIND_FIGURE,
    /* and up to here may be what a rule speaks of, but for efficiency points */
    PVSZ_SCOPES = PVSZ_KIND_DIODE_MODEL
};

/* rows of pvsz_parts */
enum {
#define KIND(number, ID, name, plural, text)
#define PART(owner, part, fewest, most) PVSZ_PART_##owner##_##part,
#include "kinds.def"
#undef KIND
#undef PART
    PVSZ_PARTS
};

enum {
#define FIGURE(number, ID, name, symbol, TYPE, unit, low, high, text) PVSZ_FIGURE_##ID,
#include "figures.def"
#undef FIGURE
    PVSZ_FIGURES
};

/* Quantities by place; where those of each scope begin, and behind which they end. */
enum {
#define QUANTITIES_OF(SCOPE) PVSZ_FIRST_OF_##SCOPE, PVSZ_BEFORE_##SCOPE = PVSZ_FIRST_OF_##SCOPE - 1,
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) PVSZ_QUANTITY_##ID,
#define END_OF(SCOPE) PVSZ_END_OF_##SCOPE, PVSZ_LAST_OF_##SCOPE = PVSZ_END_OF_##SCOPE - 1,
#include "quantities.def"
#undef QUANTITY
    PVSZ_QUANTITIES
};

static const int16_t pvsz_first_quantity[PVSZ_SCOPES] = {
#define QUANTITIES_OF(SCOPE) [PVSZ_KIND_##SCOPE] = PVSZ_FIRST_OF_##SCOPE,
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text)
#define END_OF(SCOPE)
#include "quantities.def"
#undef QUANTITY
};

static const int16_t pvsz_quantity_count[PVSZ_SCOPES] = {
#define QUANTITIES_OF(SCOPE) [PVSZ_KIND_##SCOPE] = PVSZ_END_OF_##SCOPE - PVSZ_FIRST_OF_##SCOPE,
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text)
#define END_OF(SCOPE)
#include "quantities.def"
#undef QUANTITY
};

/* The kind that each speaks of; here, so that a compiler sees it. */
static const int8_t pvsz_quantity_scope[PVSZ_QUANTITIES] = {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) PVSZ_KIND_##SCOPE,
#include "quantities.def"
#undef QUANTITY
};

#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) \
    _Static_assert(PVSZ_QUANTITY_##ID >= PVSZ_FIRST_OF_##SCOPE &&         \
                       PVSZ_QUANTITY_##ID < PVSZ_END_OF_##SCOPE,          \
                   #name " stands with the quantities of its scope");
#include "quantities.def"
#undef QUANTITY

static const int32_t pvsz_quantity_number[PVSZ_QUANTITIES] = {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) number,
#include "quantities.def"
#undef QUANTITY
};

static const int32_t pvsz_figure_number[PVSZ_FIGURES] = {
#define FIGURE(number, ID, name, symbol, TYPE, unit, low, high, text) number,
#include "figures.def"
#undef FIGURE
};

enum {
#define RULE(number, ID, name, SCOPE, MANNER, VALUE, COMPARE, LIMIT, title, breach) PVSZ_RULE_##ID,
#include "rules.def"
#undef RULE
    PVSZ_RULES
};

/* bytes of a text parameter */
enum { PVSZ_MOST_TEXT = 200 };

/* What a rule reports: every outcome; the same, but never "marginal"; a breach
 * only; missing data only. */
enum { PVSZ_LOUD, PVSZ_FIRM, PVSZ_QUIET, PVSZ_GAPS };

typedef struct pvsz_term {
    int32_t number;
    int32_t kind;  /* place of its table among the kinds */
    int32_t scope; /* place of the kind it speaks of; -1: none */
    int32_t type;
    int32_t need;
    int32_t set;                   /* PVSIZE_SET_... of a choice */
    int32_t refers_to;             /* PVSIZE_KIND_... of an index */
    int32_t value, compare, limit; /* of a rule: term numbers */
    bool head;                     /* quantity stated in every report */
    int32_t manner;                /* of a rule: PVSZ_LOUD ... */
    double low, high, deflt;
    const char *name, *symbol, *unit, *text;
    const char *breach; /* of a rule: what a breach means */
} pvsz_term;

typedef struct pvsz_kind {
    int32_t number;
    const char *name, *plural, *text;
    const pvsz_term *rows;
    int32_t count;
} pvsz_kind;

typedef struct pvsz_part {
    int32_t owner, part; /* places */
    int32_t fewest, most;
} pvsz_part;

extern const pvsz_kind pvsz_kinds[PVSZ_KINDS];
extern const pvsz_part pvsz_parts[PVSZ_PARTS];

const pvsz_kind *pvsz_kind_find(int32_t number);
const pvsz_term *pvsz_term_find(int32_t number);
const pvsz_term *pvsz_term_named(const pvsz_kind *kind, const char *name);
/* Place of the row in its table. */
int32_t pvsz_term_place(const pvsz_term *term);
bool pvsz_set_has(int32_t set, double choice);
/* Ends of a set's numbers, so that a choice has a range like any other. */
void pvsz_set_range(int32_t set, double *low, double *high);
/* Which of its set a choice is, from 0, in the order of the rows; -1 for none. */
int32_t pvsz_set_place(int32_t set, int32_t choice);
/* Whether two units measure the same; active and apparent power do. */
bool pvsz_same_unit(const char *a, const char *b);
/* "module.voc" */
void pvsz_put_term(pvsz_text *text, int32_t number);

#endif
