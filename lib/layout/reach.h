/* How far a rule reaches, and how its sides grow: what a search may conclude from
 * one stringing about others. */
#ifndef PVSZ_REACH_H
#define PVSZ_REACH_H

#include "../rules/findings.h"

enum { PVSZ_REACH_FIXED, PVSZ_REACH_LOCAL, PVSZ_REACH_ANY };
enum { PVSZ_GROWS_FLAT, PVSZ_GROWS_UP, PVSZ_GROWS_OPEN };

typedef struct pvsz_growth {
    int32_t reach;
    int32_t length, strings;
} pvsz_growth;

/* Of a term by number; of 0, a rule's own constant. */
pvsz_growth pvsz_growth_of(int32_t term);
/* The farther of both sides. */
int32_t pvsz_rule_reach(const pvsz_rule *rule);
/* Whether a rule asks for the place of an inverter or input: like ones are then not
 * alike. */
bool pvsz_rule_tells_places(const pvsz_rule *rule);

/* Whether a side of a rule is the same on all inputs of the same traits (apart.def): a
 * figure, what modules, planes and arrays state, and what is computed from it. */
bool pvsz_is_apart(int32_t term);
/* Parameters of inverters and inputs that make traits: how many, and the i-th. */
int32_t pvsz_traits(void);
int32_t pvsz_trait(int32_t i);

/* What a broken finding says of more modules in the string and of more strings. */
typedef struct pvsz_lesson {
    bool no_longer;  /* no longer string passes, whatever the strings */
    bool no_more;    /* no more strings of this length pass */
    bool never_here; /* no number of strings of this length passes */
    int32_t length;  /* shorter ones than this do not pass either; 0: not known */
} pvsz_lesson;
/* `length`: modules in the string of what was judged, with the fewest strings or not. */
void pvsz_learn(const pvsz_finding *finding, int32_t length, bool fewest, pvsz_lesson *lesson);

#endif
