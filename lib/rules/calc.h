/* What the functions behind the quantities work with. Each call that yields a
 * number also notes it as the next operand of the formula; a missing number
 * makes the whole quantity missing, and the function need not look.
 *
 * A check computes some hundred quantities in a few microseconds: what each of
 * them goes through stands here as inline functions, what few need in calc.c. */
#ifndef PVSZ_CALC_H
#define PVSZ_CALC_H

#include "../tables/needs.h"
#include "findings.h"

/* The quantity that is being computed: its entry in the report, and where the next of its
 * operands goes, up to the last that there is room for. */
typedef struct pvsz_calc {
    pvsize_report *report;
    const pvsz_subject *subject;
    pvsz_entry *entry;
    pvsz_operand *next, *last;
} pvsz_calc;

typedef void pvsz_quantity_function(pvsz_calc *calc);
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) \
    pvsz_quantity_function pvsz_of_##name;
#include "../tables/quantities.def"
#undef QUANTITY

/* results */

/* Whether nothing is decided yet: no result, nothing missing. */
static inline bool pvsz_is_open(const pvsz_calc *calc)
{
    return calc->entry->state == PVSZ_COMPUTING;
}
static inline void pvsz_result(pvsz_calc *calc, double value, const char *formula)
{
    if (!pvsz_is_open(calc))
        return;
    calc->entry->state = PVSZ_VALUE;
    calc->entry->value = value;
    calc->entry->formula = formula;
}
static inline void pvsz_missing(pvsz_calc *calc, int32_t term)
{
    if (!pvsz_is_open(calc))
        return;
    calc->entry->state = PVSZ_MISSING;
    calc->entry->missing = term;
}
/* The quantity does not apply to this subject. */
static inline void pvsz_nothing(pvsz_calc *calc)
{
    if (pvsz_is_open(calc))
        calc->entry->state = PVSZ_NOTHING;
}
/* Result yes if every required parameter of the subject has a value, else
 * missing the first that has none. */
void pvsz_all_given(pvsz_calc *calc);
/* Says in the report that a value was taken for granted. */
void pvsz_assume(pvsz_calc *calc, int32_t term, const pvsz_subject *subject, double value);

/* operands */

static inline double pvsz_note(pvsz_calc *calc, double value, int32_t term, int32_t entry)
{
    if (calc->next < calc->last)
        *calc->next++ = (pvsz_operand){value, term, entry};
    return value;
}
/* A number that stands in no table of terms. */
static inline double pvsz_literal(pvsz_calc *calc, double value)
{
    return pvsz_note(calc, value, 0, -1);
}
/* Forgets what was noted, where the formula states it in another order. */
static inline void pvsz_note_anew(pvsz_calc *calc)
{
    calc->next = calc->entry->operand;
}

/* parameters */

/* Place of the kind whose table holds a parameter, and of its row there: kinds of
 * specs are numbered 1000, 2000, ... in order. */
static inline int32_t pvsz_kind_of(int32_t term)
{
    return term / 1000 - 1;
}
static inline int32_t pvsz_row_of(int32_t term)
{
    return term % 1000 - 1;
}
static inline bool pvsz_has_default(int32_t term)
{
    return pvsz_defaulted[pvsz_kind_of(term)] >> pvsz_row_of(term) & 1;
}
/* The value in force of a parameter of the subject or of what it hangs on. A
 * default is noted as an assumption about the thing it belongs to. */
bool pvsz_find_unset(pvsize_report *report, const pvsz_subject *subject, int32_t term,
                     double *value);
static inline bool pvsz_find_param(pvsize_report *report, const pvsz_subject *subject, int32_t term,
                                   double *value)
{
    const pvsize_spec *spec = subject->spec[pvsz_kind_of(term)];

    if (!spec)
        return false;
    if (!pvsz_spec_has(spec, pvsz_row_of(term))) {
        if (!pvsz_has_default(term)) /* seen here, it costs no call */
            return false;
        return pvsz_find_unset(report, subject, term, value);
    }
    *value = spec->value[pvsz_row_of(term)].number;
    return true;
}
/* What a lacking parameter means: where none is stated, and of what the thing does not hang
 * on, does not apply; of an array on no plane, and of what hangs on it, the plane is what is
 * missing. */
pvsz_state pvsz_lack_of(const pvsz_subject *subject, int32_t term, int32_t *missing);
/* The same, as the state of the quantity. */
double pvsz_lacking(pvsz_calc *calc, int32_t term);
/* The parameter. */
static inline double pvsz_param(pvsz_calc *calc, int32_t term)
{
    double value;

    if (pvsz_find_param(calc->report, calc->subject, term, &value))
        return pvsz_note(calc, value, term, -1);
    return pvsz_lacking(calc, term);
}
/* The value without noting it as an operand; 0 where there is none. */
static inline double pvsz_peek_param(pvsz_calc *calc, int32_t term)
{
    double value = 0;

    pvsz_find_param(calc->report, calc->subject, term, &value);
    return value;
}
/* Whether it has a value; notes nothing. */
static inline bool pvsz_has_param(const pvsz_calc *calc, int32_t term)
{
    const pvsize_spec *spec = calc->subject->spec[pvsz_kind_of(term)];

    return spec && (pvsz_has_default(term) || pvsz_spec_has(spec, pvsz_row_of(term)));
}
/* Whether it is not known: no value, and not stated to be none. */
bool pvsz_is_unknown(const pvsz_calc *calc, int32_t term);
/* Whether it is stated that there is none. */
bool pvsz_states_none(const pvsz_calc *calc, int32_t term);
/* A parameter of something below; a default in force is noted as an assumption. */
static inline bool pvsz_param_below(pvsz_calc *calc, const pvsz_subject *below, int32_t term,
                                    double *value)
{
    return pvsz_find_param(calc->report, below, term, value);
}

/* figures of the rule set, by place */

static inline bool pvsz_has_figure(const pvsz_calc *calc, int32_t place)
{
    pvsz_include_figure(&calc->entry->figures, place);
    return calc->report->figure[place].set;
}
static inline double pvsz_figure_of(pvsz_calc *calc, int32_t place)
{
    if (pvsz_has_figure(calc, place))
        return pvsz_note(calc, calc->report->figure[place].value, pvsz_figure_number[place], -1);
    pvsz_missing(calc, pvsz_figure_number[place]);
    return 0;
}
/* Whether an answer among the figures is yes; not noted. */
static inline bool pvsz_is_yes(const pvsz_calc *calc, int32_t place)
{
    return pvsz_has_figure(calc, place) && calc->report->figure[place].value == PVSIZE_ANSWER_YES;
}

/* quantities, by place */

/* Computes one for the first time. */
void pvsz_compute_now(pvsize_report *report, pvsz_entry *entry);
static inline const pvsz_entry *pvsz_entry_in(pvsize_report *report, int32_t row)
{
    pvsz_entry *entry = &report->entry[row];

    if (entry->state == PVSZ_NOT_YET)
        pvsz_compute_now(report, entry);
    return entry;
}
/* Finds or computes a quantity of a subject or of what that hangs on, by its place among
 * those of `scope`; null where it does not apply. */
static inline const pvsz_entry *pvsz_entry_for(pvsize_report *report, int32_t scope, int32_t column,
                                               const pvsz_subject *subject)
{
    int32_t row = subject->row[scope];

    return row < 0 ? NULL : pvsz_entry_in(report, row + column);
}
/* The same for a quantity that builds on it, and so on the figures that it looked at. */
static inline const pvsz_entry *pvsz_compute(pvsz_calc *calc, int32_t place,
                                             const pvsz_subject *subject)
{
    int32_t scope = pvsz_quantity_scope[place];
    const pvsz_entry *entry =
        pvsz_entry_for(calc->report, scope, place - pvsz_first_quantity[scope], subject);

    if (entry)
        pvsz_unite_figures(&calc->entry->figures, &entry->figures);
    return entry;
}
/* The same by its row, which is there. */
static inline const pvsz_entry *pvsz_compute_in(pvsz_calc *calc, int32_t row)
{
    const pvsz_entry *entry = pvsz_entry_in(calc->report, row);

    pvsz_unite_figures(&calc->entry->figures, &entry->figures);
    return entry;
}
/* The same of a subject that the quantity speaks of itself, which always has it. */
static inline const pvsz_entry *pvsz_compute_own(pvsz_calc *calc, int32_t place,
                                                 const pvsz_subject *subject)
{
    int32_t scope = pvsz_quantity_scope[place];

    return pvsz_compute_in(calc, subject->row[scope] + place - pvsz_first_quantity[scope]);
}
/* Takes over why an entry has no value. */
void pvsz_pass_on(pvsz_calc *calc, const pvsz_entry *entry);
static inline bool pvsz_has_value(const pvsz_entry *entry)
{
    return entry && entry->state == PVSZ_VALUE;
}
static inline double pvsz_note_entry(pvsz_calc *calc, const pvsz_entry *entry, int32_t place)
{
    return pvsz_note(calc, entry->value, pvsz_quantity_number[place],
                     (int32_t)(entry - calc->report->entry));
}
/* A quantity of the subject or of what it hangs on. */
static inline double pvsz_quantity(pvsz_calc *calc, int32_t place)
{
    const pvsz_entry *entry = pvsz_compute(calc, place, calc->subject);

    if (pvsz_has_value(entry))
        return pvsz_note_entry(calc, entry, place);
    pvsz_pass_on(calc, entry);
    return 0;
}
/* Whether it can be had. */
static inline bool pvsz_has_quantity(pvsz_calc *calc, int32_t place)
{
    return pvsz_has_value(pvsz_compute(calc, place, calc->subject));
}
/* The value without noting it as an operand; 0 where there is none. */
static inline double pvsz_peek_quantity(pvsz_calc *calc, int32_t place)
{
    const pvsz_entry *entry = pvsz_compute(calc, place, calc->subject);

    return entry ? entry->value : 0;
}
/* The same of one that decides what is asked; told why where there is none. */
static inline double pvsz_decide(pvsz_calc *calc, int32_t place)
{
    const pvsz_entry *entry = pvsz_compute(calc, place, calc->subject);

    if (pvsz_has_value(entry))
        return entry->value;
    pvsz_pass_on(calc, entry);
    return 0;
}

/* things below */

static inline const pvsz_subject *pvsz_thing_at(const pvsz_calc *calc, int32_t scope, int32_t at)
{
    const pvsz_design *design = &calc->report->design;

    return at >= 0 && at < design->count[scope] ? &design->subject[scope][at] : NULL;
}
/* The first subject of a scope below this one, and the next; null at the end. */
static inline const pvsz_subject *pvsz_first_below(const pvsz_calc *calc, int32_t scope)
{
    const pvsz_subject *on = calc->subject;

    if (on->scope == PVSZ_KIND_SYSTEM)
        return pvsz_thing_at(calc, scope, 0);
    if (scope == PVSZ_KIND_CABLE)
        return pvsz_thing_at(calc, scope, on->first_cable);
    return on->below > 0 ? pvsz_thing_at(calc, scope, on->first_below) : NULL;
}
static inline const pvsz_subject *pvsz_next_below(const pvsz_calc *calc, int32_t scope,
                                                  const pvsz_subject *at)
{
    const pvsz_subject *on = calc->subject;

    if (on->scope == PVSZ_KIND_INVERTER && scope != PVSZ_KIND_CABLE &&
        at->at[scope] + 1 >= on->first_below + on->below)
        return NULL;
    return pvsz_thing_at(calc, scope,
                         on->scope == PVSZ_KIND_SYSTEM  ? at->at[scope] + 1
                         : scope == PVSZ_KIND_CABLE     ? at->next_cable
                         : on->scope == PVSZ_KIND_INPUT ? at->next_on_input
                         : on->scope == PVSZ_KIND_PLANE ? at->next_on_plane
                                                        : at->at[scope] + 1);
}

/* Over the arrays of an input or plane, the inputs of an inverter, the
 * inverters of a system: each has the quantity noted. */
double pvsz_sum(pvsz_calc *calc, int32_t scope, int32_t place);
/* The same over a parameter. */
double pvsz_sum_params(pvsz_calc *calc, int32_t scope, int32_t term);
double pvsz_highest(pvsz_calc *calc, int32_t scope, int32_t place);
double pvsz_lowest(pvsz_calc *calc, int32_t scope, int32_t place);

/* shared by several files */

/* Whether the coefficient of Voc can be believed; notes nothing. */
bool pvsz_believes_voc_coefficient(pvsz_calc *calc);

#endif
