/* What the functions behind the quantities work with. Each call that yields a
 * number also notes it as the next operand of the formula; a missing number
 * makes the whole quantity missing, and the function need not look. */
#ifndef PV_CALC_H
#define PV_CALC_H

#include "findings.h"

/* of a formula that is not a list */
enum { PV_MOST_OPERANDS = 6 };

typedef struct pv_calc {
    pvsize_report *report;
    const pv_subject *subject;
    pv_operand operand[PV_MOST_OPERANDS];
    int32_t operands;
    int32_t first_operand; /* in the report, of a list; else -1 */
    int32_t missing;
    pv_state state;
    double value;
    const char *formula;
} pv_calc;

/* A parameter of the subject or of what it hangs on. */
double pv_param(pv_calc *calc, int32_t term);
/* Whether it has a value; notes nothing. */
bool pv_has_param(const pv_calc *calc, int32_t term);
/* The value without noting it as an operand; 0 where there is none. */
double pv_peek_param(pv_calc *calc, int32_t term);
bool pv_has_figure(const pv_calc *calc, int32_t place);
double pv_figure_of(pv_calc *calc, int32_t place);
/* A quantity of the subject or of what it hangs on, by place. */
double pv_quantity(pv_calc *calc, int32_t place);
/* Whether it can be had. */
bool pv_has_quantity(pv_calc *calc, int32_t place);
/* A number that stands in no table of terms. */
double pv_literal(pv_calc *calc, double value);

/* Over the arrays of an input or plane, the inputs of an inverter, the
 * inverters of a system: each has the quantity noted. */
double pv_sum(pv_calc *calc, int32_t scope, int32_t place);
double pv_highest(pv_calc *calc, int32_t scope, int32_t place);
double pv_lowest(pv_calc *calc, int32_t scope, int32_t place);

/* The first subject of a scope below this one, and the next; null at the end. */
const pv_subject *pv_first_below(const pv_calc *calc, int32_t scope);
const pv_subject *pv_next_below(const pv_calc *calc, int32_t scope, const pv_subject *at);

void pv_result(pv_calc *calc, double value, const char *formula);
void pv_missing(pv_calc *calc, int32_t term);
/* The quantity does not apply to this subject. */
void pv_nothing(pv_calc *calc);
/* Says in the report that a value was taken for granted. */
void pv_assume(pv_calc *calc, int32_t term, const pv_subject *subject, double value);

/* Finds or computes a quantity; returns its entry, or -1 where it does not apply. */
int32_t pv_compute(pvsize_report *report, int32_t place, const pv_subject *subject);
/* One side of a rule on a subject. */
pv_side pv_side_of(pvsize_report *report, pv_ref ref, double factor, const pv_subject *subject);

typedef void pv_quantity_function(pv_calc *calc);
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) \
    pv_quantity_function pv_of_##name;
#include "../tables/quantities.def"
#undef QUANTITY

#endif
