/* A rule set as the library sees it. */
#ifndef PV_RULES_H
#define PV_RULES_H

#include "../tables/tables.h"
#include "pvsize/rules.h"

/* Own rules are numbered from here. */
enum { PV_OWN_RULES = 50000, PV_MOST_OWN_RULES = 1000, PV_MOST_RULE_TEXT = 400 };

/* What one side of a rule refers to, found once when the rule is made. */
typedef struct pv_ref {
    int32_t number; /* term; 0: the rule's own constant */
    int32_t kind;   /* place of its table among the kinds */
    int32_t place;  /* of its row in that table */
} pv_ref;

typedef struct pv_figure {
    bool set;
    bool own_source; /* the rule set owns the text */
    int32_t known;
    double value;
    const char *source;
} pv_figure;

typedef struct pv_rule {
    int32_t number;
    int32_t scope;
    int32_t severity;
    int32_t known;
    int32_t compare;
    bool quiet;
    bool own;
    pv_ref value, limit;
    double factor; /* on the limit term; the limit itself where there is none */
    const char *name, *title, *source, *breach;
} pv_rule;

struct pvsize_rules {
    uint32_t mark;
    pv_memory memory;
    const char *title;
    bool own_title;
    pv_figure figure[PV_FIGURES];
    pv_rule rule[PV_RULES];
    pv_rule *own;
    size_t own_count, own_capacity;
};

typedef struct pv_preset_row {
    int32_t term;
    double value; /* of a figure; severity of a rule */
    int32_t known;
    const char *source;
} pv_preset_row;

typedef struct pv_preset {
    const char *name, *title;
    const pv_preset_row *row;
    int32_t rows;
} pv_preset;

const pv_preset *pv_preset_named(const char *name);

bool pv_rules_live(const pvsize_rules *rules);
/* Whether a rule on one kind of thing can see another. */
bool pv_reaches(int32_t scope, int32_t kind);
pv_ref pv_refer(int32_t term);
/* Gives an own rule its own copies of the texts it points to, in one block that
 * starts at its name. */
bool pv_own_texts(const pv_memory *memory, pv_rule *rule);

#endif
