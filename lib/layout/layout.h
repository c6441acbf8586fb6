/* The search as its steps see it. It goes: the question is read into a problem
 * (problem.c, planes_read.c, inputs.c, budgets.c), every input gets its options (probe.c,
 * options.c, value.c), bounds are prepared (bound*.c, planes.c), options are combined (branch.c,
 * with seen.c and whole.c) and the best kept (answers.c), and what stood in the way is noted
 * (obstacles.c); solve.c runs it all, search.c makes an object of it. Values are whole numbers,
 * so that sums are exact and do not depend on their order. */
#ifndef PVSZ_LAYOUT_H
#define PVSZ_LAYOUT_H

#include "key.h"
#include "pvsize/layout.h"
#include "reach.h"

/* What one input can get: equal strings on one plane or on two. */
typedef struct pvsz_option {
    int32_t module;               /* candidate; -1: nothing */
    int32_t plane[2], strings[2]; /* second plane -1: none */
    int32_t length;
    int32_t modules;
    int32_t devices;
    double device[2]; /* rating of each on a plane, A; 0: none */
    int64_t power;    /* milliwatts */
    pvsz_key key;
} pvsz_option;

/* Why a stringing cannot be: the rule, the numbers, and the length that passes. */
typedef struct pvsz_obstacle {
    pvsz_option option;
    int32_t rule;            /* number; 0: the wanted modules */
    int32_t inverter, input; /* -1: the whole */
    int32_t passes;          /* nearest length that passes all rules of the input; 0: none */
    int32_t broken;          /* rules broken at once */
    int32_t answer;          /* one more than this answer has; -1: nothing to do with an answer */
    int32_t unit_term;
    int32_t compare;
    double value, limit, margin;
} pvsz_obstacle;

/* Inputs that can be exchanged share their options. */
typedef struct pvsz_group {
    int32_t inverter, input; /* the first of them */
    bool unused;             /* may stand open */
    pvsz_option *option;
    size_t count, capacity;
    pvsz_obstacle *miss; /* by rule in force, the nearest; rule 0: none */
    int32_t most;        /* modules of the largest option */
} pvsz_group;

/* An input to be decided. Slots of one inverter stand together, like inputs too,
 * and like inverters follow one another. */
typedef struct pvsz_slot {
    int32_t inverter, input;
    int32_t group;
    int32_t first, end; /* slots of its inverter */
    bool like_before;   /* exchangeable with the slot before */
    bool twin;          /* its inverter is exchangeable with that of the slots before */
    bool has_twin;      /* and with that of the slots behind */
} pvsz_slot;

typedef struct pvsz_unit {
    int64_t power_left; /* milliwatts, INT64_MAX: no limit */
    int32_t rule;       /* in force, that sets it; -1 */
    double limit;
    int32_t likeness;   /* first inverter like it */
    int32_t first, end; /* its slots */
} pvsz_unit;

typedef struct pvsz_plane {
    int32_t room;    /* left by the fixed arrays */
    int32_t *usable; /* of a room of so many modules, how many options can fill */
    pvsz_key *full;  /* by sides, then by room: best key of what fits */
    double yield;    /* kWh of 1 kW in a year; -1: not given */
    int64_t weight;  /* in the order of planes */
    int32_t rank;
    pvsz_key price; /* see bound.c */
} pvsz_plane;

/* What the search says of an answer, with an option for each slot. */
typedef struct pvsz_answer {
    pvsz_key key;
    int32_t outcome;
    int32_t *choice;
} pvsz_answer;

typedef struct pvsz_list {
    pvsz_answer *answer; /* the best first */
    int32_t count, most;
    bool overflowed; /* more were found than it takes */
} pvsz_list;

typedef struct pvsz_block pvsz_block;

/* How sums of modules are bounded in this pass. */
enum { PVSZ_AT_MOST, PVSZ_EXACTLY, PVSZ_AT_LEAST };

typedef struct pvsz_problem {
    const pvsz_memory *memory;
    pvsz_block *block;
    const pvsize_rules *rules;
    const int32_t *cancel;
    pvsize_spec *system; /* own copy, with the arrays tried */
    pvsize_report *report;
    pvsize_diag *diag;

    bool brief; /* nobody asks for reasons */
    int32_t objective;
    int64_t wanted_power;
    bool has_wanted;
    int32_t wanted_modules; /* beside the fixed ones */
    int32_t shortest, longest;
    bool isolators, devices;
    double device_voltage; /* 0: not given */
    int32_t planes_per_input;
    bool tells_places;
    bool ordered; /* the options of all groups */

    pvsize_spec **module; /* candidates, of like ones the first */
    int32_t *module_index;
    int64_t *module_power;
    int32_t modules;
    pvsz_plane *plane;
    int32_t planes;
    pvsz_unit *unit;
    int32_t units;
    pvsz_slot *slot;
    int32_t slots;
    pvsz_group *group;
    int32_t groups;
    pvsize_spec **array; /* two for each slot */
    int32_t fixed;       /* arrays of the system given */
    int32_t fixed_modules, fixed_strings;
    int64_t fixed_power;
    int64_t power_left; /* of the whole system */
    int32_t power_rule;
    double power_limit;
    int32_t modules_left;
    int32_t modules_rule;            /* in force, that sets it; -1 */
    int32_t most_sides;              /* of the tables of planes; more are as many as you like */
    int64_t least_power, most_power; /* of one module of the candidates */

    double nodes, budget;
    int32_t ending;
    int64_t sign;        /* of power in the key: -1 in the second pass for a nearest power */
    pvsz_key offset;     /* key of nothing */
    int64_t floor_power; /* more than this is wanted; INT64_MIN: nothing is */
    int32_t *choice;     /* option for each slot */
    pvsz_list list;
    pvsz_key bound; /* of what was not searched */

    pvsz_obstacle *obstacle;
    size_t obstacles, obstacle_room;
    pvsz_obstacle refused; /* by the full check, the best that was; rule 0: none */
    pvsz_key refused_key;
} pvsz_problem;

/* memory that lives as long as the problem; null when there is none */
void *pvsz_take(pvsz_problem *problem, size_t n, size_t size);
pvsize_status pvsz_no_memory(pvsize_diag *diag);

/* problem.c */
pvsize_status pvsz_pose(pvsz_problem *problem, const pvsize_spec *search);
void pvsz_end_problem(pvsz_problem *problem);
/* Whether somebody wants the search to stop; `flag` may be null. */
bool pvsz_is_raised(const int32_t *flag);
/* Counts a step; false when the search must stop. */
bool pvsz_step(pvsz_problem *problem);
int64_t pvsz_milliwatts(double watts);

/* planes_read.c */
pvsize_status pvsz_read_planes(pvsz_problem *problem);
/* What the arrays that must be there take. */
pvsize_status pvsz_read_fixed(pvsz_problem *problem);

/* inputs.c */
pvsize_status pvsz_read_inputs(pvsz_problem *problem);
/* Whether an input, or (-1) any of the inverter, has an array that must be there. */
bool pvsz_holds_fixed(const pvsz_problem *problem, int32_t inverter, int32_t input);

/* budgets.c: what MUST rules on sums leave for power and room */
/* Sums whose parts are never negative. The room of planes the search keeps itself. */
bool pvsz_is_sum(int32_t term);
pvsize_status pvsz_set_budgets(pvsz_problem *problem);

/* wire.c: putting options into specs */
pvsize_status pvsz_make_arrays(pvsz_problem *problem);
/* The system with what `choice` says; the number of arrays made. */
int32_t pvsz_wire(pvsz_problem *problem, const int32_t *choice);
void pvsz_unwire(pvsz_problem *problem);
/* Fills the arrays of one place with an option; the number used. */
int32_t pvsz_fill(const pvsz_problem *problem, const pvsz_option *option, pvsize_spec *const *array,
                  int32_t inverter, int32_t input);
pvsize_status pvsz_check_wired(pvsz_problem *problem);
/* Whether a finding breaks a rule that must hold. */
bool pvsz_breaks(const pvsz_finding *finding);
/* The rule's place among those in force. */
int32_t pvsz_place_in_force(const pvsz_problem *problem, const pvsz_finding *finding);

/* probe.c: one input alone on the site, with two arrays to fill */
typedef struct pvsz_probe {
    pvsz_problem *problem;
    pvsize_spec *system;
    pvsize_spec **array;
} pvsz_probe;
/* On failure too, give it back to pvsz_free_probe. */
pvsize_status pvsz_make_probe(pvsz_problem *problem, const pvsz_group *group, pvsz_probe *probe);
void pvsz_free_probe(pvsz_probe *probe);
/* Checks an option, into the problem's report; fits the devices that its strings need, if
 * the search may. */
pvsize_status pvsz_judge_alone(pvsz_probe *probe, pvsz_option *option);

/* options.c */
pvsize_status pvsz_find_options(pvsz_problem *problem);
/* value.c */
void pvsz_order_options(pvsz_problem *problem);
pvsz_key pvsz_key_of(const pvsz_problem *problem, const pvsz_option *option);

/* bound.c */
typedef struct pvsz_bounds pvsz_bounds;
typedef struct pvsz_room {
    int64_t unit_power;   /* used on the inverter of the slot */
    int64_t system_power; /* used by the search */
    int32_t modules;
    int32_t *plane; /* room left on each */
} pvsz_room;
pvsize_status pvsz_make_bounds(pvsz_problem *problem, pvsz_bounds **bounds);
/* No way of filling the slots from this one on has a better key: by the inverters. With
 * what planes alone come to (pvsz_all_full) the bound is complete. */
pvsz_key pvsz_bound(const pvsz_problem *problem, const pvsz_bounds *bounds, int32_t slot,
                    const pvsz_room *room);

/* The same of the whole with so many modules, neither more nor fewer. */
pvsz_key pvsz_bound_exactly(const pvsz_problem *problem, const pvsz_bounds *bounds,
                            int32_t modules);

/* planes.c */
/* The best key of one side of an option by its modules, up to `room`. */
void pvsz_best_sides(const pvsz_problem *problem, int32_t plane, pvsz_key *side, int32_t room);
pvsize_status pvsz_fill_planes(pvsz_problem *problem);
int32_t pvsz_usable(const pvsz_plane *plane, int32_t room);
enum { PVSZ_MOST_SIDES = 48 }; /* that tables tell apart */
/* Every plane filled as well as it can be alone, with the inputs from this slot on. */
pvsz_key pvsz_all_full(const pvsz_problem *problem, int32_t slot, const pvsz_room *room);
/* The same in two steps, for many rooms of one plane: all others, by their sides (up to
 * PVSZ_MOST_SIDES), then the plane beside them. False: there is no bound. */
bool pvsz_fill_others(const pvsz_problem *problem, int32_t slot, const pvsz_room *room,
                      int32_t plane, pvsz_key *best);
pvsz_key pvsz_full_beside(const pvsz_problem *problem, int32_t slot, const pvsz_room *room,
                          int32_t plane, const pvsz_key *others);

/* whole.c: no stringing has a better key, its offset included */
typedef struct pvsz_whole pvsz_whole;
/* Memory for it; null when there is none. */
pvsz_whole *pvsz_make_whole(pvsz_problem *problem);
/* Whether so many steps did not end the search, so that it is worth its price. */
bool pvsz_whole_is_due(const pvsz_whole *whole, double nodes);
pvsz_key pvsz_bound_whole(const pvsz_problem *problem, const pvsz_bounds *bounds,
                          pvsz_whole *whole);

/* seen.c: states met before, with what was proven of them */
typedef struct pvsz_seen pvsz_seen;
pvsz_seen *pvsz_make_seen(pvsz_problem *problem);
/* Takes the state at a slot; `tie` are the options that later ones must not precede. */
void pvsz_seen_state(const pvsz_problem *problem, pvsz_seen *seen, int32_t slot, int32_t low,
                     int32_t first, const pvsz_room *room);
const pvsz_key *pvsz_seen_bound(const pvsz_seen *seen);
void pvsz_remember(pvsz_seen *seen, const pvsz_key *bound);

/* answers.c */
/* Whether the list is full of answers as good. */
static inline bool pvsz_is_beaten(const pvsz_list *list, const pvsz_key *key)
{
    return list->count == list->most &&
           pvsz_compare_keys(key, &list->answer[list->count - 1].key) <= 0;
}
/* Whether a stringing as good would be kept; notes that some were not. */
bool pvsz_is_worth(pvsz_problem *problem, const pvsz_key *key);
/* Checks the stringing of `choice`, and keeps it unless a rule is broken. */
pvsize_status pvsz_judge(pvsz_problem *problem, const pvsz_key *key);

/* branch.c: one pass with the present sign and floor */
pvsize_status pvsz_search_pass(pvsz_problem *problem);

/* obstacles.c */
pvsize_status pvsz_add_obstacle(pvsz_problem *problem, const pvsz_obstacle *obstacle);
pvsz_obstacle pvsz_obstacle_of(const pvsz_finding *finding, const pvsz_option *option,
                               int32_t inverter, int32_t input);
/* Whether the first is the nearer miss. */
bool pvsz_is_nearer(const pvsz_obstacle *a, const pvsz_obstacle *b);
pvsize_status pvsz_explain(pvsz_problem *problem);

/* solve.c: the whole of it */
pvsize_status pvsz_solve(pvsz_problem *problem, const pvsize_spec *search);

/* The result: copies of the question, and the answers as numbers. */
struct pvsize_layouts {
    pvsz_head head;
    bool filled;
    pvsize_spec *search;
    pvsize_rules *rules;
    int32_t objective, ending, slots;
    bool complete, has_bound;
    double bound, nodes;
    struct pvsz_layout *layout;
    int32_t layouts;
    pvsz_slot *slot;
    pvsz_option *option; /* slots for each answer */
    pvsz_obstacle *obstacle;
    int32_t obstacles;
};

typedef struct pvsz_layout {
    double number[PVSIZE_LAYOUT_OUTCOME + 1]; /* by PVSIZE_LAYOUT_... */
    bool has_energy;
    int32_t arrays;
    pvsz_key key;
} pvsz_layout;

/* search.c */
/* Whether there is a search, and rules. */
pvsize_status pvsz_check_question(const pvsize_spec *search, const pvsize_rules *rules,
                                  pvsize_diag *diag);
/* What a ranking keeps of a search. */
typedef struct pvsz_best {
    int32_t ending, answers;
    pvsz_layout layout; /* the best, if there are answers */
} pvsz_best;
/* A search whose question is in order, without reasons and without the other answers. */
pvsize_status pvsz_search_best(const pvsize_spec *search, const pvsize_rules *rules,
                               const int32_t *cancel, const pvsz_memory *memory, pvsz_best *best,
                               pvsize_diag *diag);

/* layouts.c */
pvsize_status pvsz_check_layouts(const pvsize_layouts *layouts, pvsize_diag *diag);
/* Lets go of what it holds, but not of the object. */
void pvsz_empty_layouts(pvsize_layouts *layouts);
/* Slot and side of the k-th array of an answer, which there is. */
const pvsz_option *pvsz_find_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                   const pvsz_slot **slot, int32_t *side);

/* layouts_text.c */
/* Label of a part of the question's system, or its number from 1. */
void pvsz_put_label(pvsz_text *text, const char *kind, int32_t index, const pvsize_spec *part);

#endif
