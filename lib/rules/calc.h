/* What the functions behind the quantities work with. Each call that yields a
 * number also notes it as the next operand of the formula; a missing number
 * makes the whole quantity missing, and the function need not look. */
#ifndef PVSZ_CALC_H
#define PVSZ_CALC_H

#include "findings.h"

typedef struct pvsz_calc {
    pvsize_report *report;
    const pvsz_subject *subject;
    pvsz_operand operand[PVSZ_MOST_OPERANDS];
    int32_t operands;
    int32_t first_operand; /* in the report, of a list; else -1 */
    int32_t missing;
    pvsz_state state;
    double value;
    const char *formula;
} pvsz_calc;

/* A parameter of the subject or of what it hangs on. */
double pvsz_param(pvsz_calc *calc, int32_t term);
/* Whether it has a value; notes nothing. */
bool pvsz_has_param(const pvsz_calc *calc, int32_t term);
/* Whether it is not known: no value, and not stated to be none. */
bool pvsz_is_unknown(const pvsz_calc *calc, int32_t term);
/* Whether it is stated that there is none. */
bool pvsz_states_none(const pvsz_calc *calc, int32_t term);
/* The value without noting it as an operand; 0 where there is none. */
double pvsz_peek_param(pvsz_calc *calc, int32_t term);
bool pvsz_has_figure(const pvsz_calc *calc, int32_t place);
/* Whether an answer among the figures is yes; not noted. */
bool pvsz_is_yes(const pvsz_calc *calc, int32_t place);
double pvsz_figure_of(pvsz_calc *calc, int32_t place);
/* A quantity of the subject or of what it hangs on, by place. */
double pvsz_quantity(pvsz_calc *calc, int32_t place);
/* Whether it can be had. */
bool pvsz_has_quantity(pvsz_calc *calc, int32_t place);
/* The value without noting it as an operand; 0 where there is none. */
double pvsz_peek_quantity(pvsz_calc *calc, int32_t place);
/* A number that stands in no table of terms. */
double pvsz_literal(pvsz_calc *calc, double value);

/* Over the arrays of an input or plane, the inputs of an inverter, the
 * inverters of a system: each has the quantity noted. */
double pvsz_sum(pvsz_calc *calc, int32_t scope, int32_t place);
/* The same over a parameter; of those that lack it, the other one is taken and
 * noted as an assumption (0: none). */
double pvsz_sum_params(pvsz_calc *calc, int32_t scope, int32_t term, int32_t instead);
double pvsz_highest(pvsz_calc *calc, int32_t scope, int32_t place);
double pvsz_lowest(pvsz_calc *calc, int32_t scope, int32_t place);

/* A parameter of something below; a default in force is noted as an assumption. */
bool pvsz_param_below(pvsz_calc *calc, const pvsz_subject *below, int32_t term, double *value);

/* The first subject of a scope below this one, and the next; null at the end. */
const pvsz_subject *pvsz_first_below(const pvsz_calc *calc, int32_t scope);
const pvsz_subject *pvsz_next_below(const pvsz_calc *calc, int32_t scope, const pvsz_subject *at);

void pvsz_result(pvsz_calc *calc, double value, const char *formula);
void pvsz_missing(pvsz_calc *calc, int32_t term);
/* Result yes if every required parameter of the subject has a value, else
 * missing the first that has none. */
void pvsz_all_given(pvsz_calc *calc);
/* The quantity does not apply to this subject. */
void pvsz_nothing(pvsz_calc *calc);
/* Says in the report that a value was taken for granted. */
void pvsz_assume(pvsz_calc *calc, int32_t term, const pvsz_subject *subject, double value);

/* Finds or computes a quantity; returns its entry, or -1 where it does not apply. */
int32_t pvsz_compute(pvsize_report *report, int32_t place, const pvsz_subject *subject);
/* One side of a rule on a subject; 0 stands for its own constant. */
typedef struct pvsz_side {
    double value;
    int32_t entry; /* of a quantity; else -1 */
    int32_t missing;
    pvsz_state state;
} pvsz_side;
pvsz_side pvsz_side_of(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject);

typedef void pvsz_quantity_function(pvsz_calc *calc);
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) \
    pvsz_quantity_function pvsz_of_##name;
#include "../tables/quantities.def"
#undef QUANTITY

#endif
