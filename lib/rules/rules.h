/* A rule set as the library sees it. */
#ifndef PVSZ_RULES_H
#define PVSZ_RULES_H

#include "../tables/tables.h"
#include "pvsize/rules.h"

/* Own rules are numbered from here. */
enum { PVSZ_OWN_RULES = 50000, PVSZ_MOST_OWN_RULES = 200, PVSZ_MOST_RULE_TEXT = 400 };

/* What one side of a rule refers to, found once when the rule is made. */
typedef struct pvsz_ref {
    int32_t number; /* term; 0: the rule's own constant */
    int16_t kind;   /* place of its table among the kinds */
    int16_t place;  /* of its row in that table */
    int16_t scope;  /* place of the kind it speaks of; -1: none */
    int16_t column; /* of a quantity: its place among those of its scope */
} pvsz_ref;

typedef struct pvsz_figure {
    bool set;
    bool own_source; /* the rule set owns the text */
    int32_t known;
    double value;
    const char *source;
} pvsz_figure;

typedef struct pvsz_rule {
    int32_t number;
    int32_t scope;
    int32_t severity;
    int32_t known;
    int32_t compare;
    int32_t manner;
    bool own;
    bool can_be_close; /* what it compares is a measured number, and it tells of that */
    int32_t rivals;    /* those in force that limit the same value from one side; 0: it alone */
    pvsz_ref value, limit;
    double factor; /* on the limit term; the limit itself where there is none */
    const char *name, *title, *source, *breach;
} pvsz_rule;

struct pvsize_rules {
    pvsz_head head;
    const char *title;
    bool own_title;
    pvsz_figure figure[PVSZ_FIGURES];
    pvsz_rule rule[PVSZ_RULES];
    pvsz_rule *own;
    size_t own_count, own_capacity;

    /* the rules in force in the order of their scopes, kept at every change, so
     * that a check copies them in one piece */
    pvsz_rule *force;
    int32_t forces;
    int32_t first_force[PVSZ_SCOPES + 1];
    int32_t own_sources; /* figures with a source that the rule set owns */
    size_t text_bytes;   /* of title and own texts */
};

typedef struct pvsz_preset_row {
    int32_t term;
    double value; /* of a figure; severity of a rule */
    int32_t known;
    const char *source;
} pvsz_preset_row;

typedef struct pvsz_preset {
    const char *name, *title;
    const pvsz_preset_row *row;
    int32_t rows;
} pvsz_preset;

const pvsz_preset *pvsz_preset_named(const char *name);
/* Names of all of them, with commas. */
const char *pvsz_preset_names(void);

bool pvsz_rules_live(const pvsize_rules *rules);
/* Whether they are there and alive. */
pvsize_status pvsz_check_rules(const pvsize_rules *rules, pvsize_diag *diag);
/* Of a text that the rule set owns. */
void pvsz_release_text(const pvsz_memory *memory, const char *text);

/* Null for a number that is no rule of this set. */
const pvsz_rule *pvsz_rule_numbered(const pvsize_rules *rules, int32_t number);
/* The same, and the place of a figure, or the failure told. */
pvsize_status pvsz_find_rule(const pvsize_rules *rules, int32_t number, const pvsz_rule **rule,
                             pvsize_diag *diag);
pvsize_status pvsz_find_figure(const pvsize_rules *rules, int32_t number, int32_t *place,
                               pvsize_diag *diag);

/* Puts the rules in force in order again. There must be room for all. */
void pvsz_order_rules(pvsize_rules *rules);
/* After a change of title or sources only. */
void pvsz_measure_texts(pvsize_rules *rules);
/* Whether a rule on one kind of thing can see another. */
bool pvsz_reaches(int32_t scope, int32_t kind);
/* Whether rules speak of things of this kind. */
bool pvsz_is_subject(int32_t scope);
pvsz_ref pvsz_refer(int32_t term);
/* Gives an own rule its own copies of the texts it points to, in one block that
 * starts at its name. */
bool pvsz_own_texts(const pvsz_memory *memory, pvsz_rule *rule);

#endif
