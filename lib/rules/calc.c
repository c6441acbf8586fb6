/* Computing quantities: each once for each subject, with its operands. */
#include "calc.h"

static pvsz_quantity_function *const functions[PVSZ_QUANTITIES] = {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) pvsz_of_##name,
#include "../tables/quantities.def"
#undef QUANTITY
};

/* A parameter of the thing itself is a bit of it, so that no list is searched for it. */
static bool is_assumed(const pvsize_report *report, int32_t term, pvsz_subject *of)
{
    if (pvsz_kind_of(term) == of->scope) {
        uint64_t bit = UINT64_C(1) << pvsz_row_of(term);
        bool before = of->assumed & bit;

        of->assumed |= bit;
        return before;
    }
    for (int32_t i = 0; i < report->assumptions; i++)
        if (report->assumption[i].term == term && report->assumption[i].subject == of)
            return true;
    return false;
}

static void assume(pvsize_report *report, int32_t term, pvsz_subject *of, double value)
{
    if (is_assumed(report, term, of))
        return;
    /* There is room for five of each subject. Only an array may take six, if own rules ask for
     * all its defaults; the room counts a module's type for each array, and that takes four. */
    if (report->assumptions < report->assumption_room) /* GCOVR_EXCL_BR_LINE: see above */
        report->assumption[report->assumptions++] = (pvsz_assumption){of, value, term};
}

void pvsz_assume(pvsz_calc *calc, int32_t term, const pvsz_subject *subject, double value)
{
    int32_t scope = subject->scope;

    assume(calc->report, term, &calc->report->design.subject[scope][subject->at[scope]], value);
}

/* parameters */

bool pvsz_find_unset(pvsize_report *report, const pvsz_subject *subject, int32_t term,
                     double *value)
{
    int32_t kind = pvsz_kind_of(term);

    if (!pvsz_has_default(term))
        return false;
    *value = pvsz_kinds[kind].rows[pvsz_row_of(term)].deflt;
    assume(report, term, &report->design.subject[kind][subject->at[kind]], *value);
    return true;
}

pvsz_state pvsz_lack_of(const pvsz_subject *subject, int32_t term, int32_t *missing)
{
    int32_t kind = pvsz_kind_of(term);

    *missing = term;
    if (subject->spec[kind])
        return pvsz_spec_states_none(subject->spec[kind], pvsz_row_of(term)) ? PVSZ_NOTHING
                                                                             : PVSZ_MISSING;
    if (kind != PVSZ_KIND_PLANE || subject->at[PVSZ_KIND_ARRAY] < 0)
        return PVSZ_NOTHING;
    *missing = PVSIZE_ARRAY_PLANE;
    return PVSZ_MISSING;
}

double pvsz_lacking(pvsz_calc *calc, int32_t term)
{
    int32_t missing;

    if (pvsz_lack_of(calc->subject, term, &missing) == PVSZ_NOTHING)
        pvsz_nothing(calc);
    else
        pvsz_missing(calc, missing);
    return 0;
}

bool pvsz_states_none(const pvsz_calc *calc, int32_t term)
{
    const pvsize_spec *spec = calc->subject->spec[pvsz_kind_of(term)];

    return spec && pvsz_spec_states_none(spec, pvsz_row_of(term));
}

bool pvsz_is_unknown(const pvsz_calc *calc, int32_t term)
{
    int32_t missing;

    return !pvsz_has_param(calc, term) &&
           pvsz_lack_of(calc->subject, term, &missing) == PVSZ_MISSING;
}

void pvsz_all_given(pvsz_calc *calc)
{
    int32_t scope = calc->subject->scope, row = 0;
    uint64_t lacking = pvsz_required[scope] & ~calc->subject->spec[scope]->set;

    if (lacking) {
        while (!(lacking >> row & 1))
            row++;
        pvsz_missing(calc, pvsz_kinds[scope].rows[row].number);
    }
    pvsz_result(calc, pvsz_literal(calc, PVSIZE_ANSWER_YES), "{given}");
}

/* Starts a list of operands behind all others in the report, of any length. */
static void open_list(pvsz_calc *calc)
{
    calc->entry->operand = calc->next = calc->report->next_operand;
    calc->last = calc->report->last_operand;
}

/* Ends it: what follows is not noted. */
static void close_list(pvsz_calc *calc)
{
    calc->report->next_operand = calc->last = calc->next;
}

/* The one thing below needs no list behind the others: it has room among the operands. */
static const pvsz_operand *gather_one(pvsz_calc *calc, int32_t place, int32_t row)
{
    const pvsz_entry *entry = pvsz_compute_in(calc, row);

    if (!pvsz_has_value(entry)) {
        pvsz_pass_on(calc, entry);
        return NULL;
    }
    pvsz_note_anew(calc); /* as a list begins anew */
    pvsz_note_entry(calc, entry, place);
    calc->last = calc->next;
    return calc->entry->operand;
}

/* Computes a quantity of everything below first, then notes them all in the
 * report, so that the list stands in one piece whatever its length. What does
 * not apply is passed over. Returns the list; null where there is none. */
static const pvsz_operand *gather(pvsz_calc *calc, int32_t scope, int32_t place)
{
    int32_t column = place - pvsz_first_quantity[scope];
    const pvsz_entry *of_place = &calc->report->entry[column];
    const pvsz_subject *first = pvsz_first_below(calc, scope);

    if (first && !pvsz_next_below(calc, scope, first))
        return gather_one(calc, place, first->row[scope] + column);
    for (const pvsz_subject *at = first; at; at = pvsz_next_below(calc, scope, at)) {
        const pvsz_entry *entry = pvsz_compute_in(calc, at->row[scope] + column);

        if (entry->state != PVSZ_VALUE && entry->state != PVSZ_NOTHING) {
            pvsz_pass_on(calc, entry);
            return NULL;
        }
    }
    open_list(calc);
    for (const pvsz_subject *at = first; at; at = pvsz_next_below(calc, scope, at))
        if (of_place[at->row[scope]].state == PVSZ_VALUE)
            pvsz_note_entry(calc, &of_place[at->row[scope]], place);
    close_list(calc);
    if (calc->entry->operand < calc->next)
        return calc->entry->operand;
    pvsz_nothing(calc);
    return NULL;
}

double pvsz_sum_params(pvsz_calc *calc, int32_t scope, int32_t term)
{
    const pvsz_subject *at;
    double sum = 0;

    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        double value;

        if (!pvsz_spec_number(at->spec[scope], term, &value)) {
            pvsz_missing(calc, term);
            return 0;
        }
    }
    open_list(calc);
    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        double value = 0;

        pvsz_spec_number(at->spec[scope], term, &value);
        sum += pvsz_note(calc, value, term, -1);
    }
    close_list(calc);
    return sum;
}

double pvsz_sum(pvsz_calc *calc, int32_t scope, int32_t place)
{
    const pvsz_operand *list = gather(calc, scope, place);
    double sum = 0;

    for (; list && list < calc->next; list++)
        sum += list->value;
    return sum;
}

double pvsz_highest(pvsz_calc *calc, int32_t scope, int32_t place)
{
    const pvsz_operand *list = gather(calc, scope, place);
    double best = list ? list->value : 0;

    for (; list && list < calc->next; list++)
        if (list->value > best)
            best = list->value;
    return best;
}

double pvsz_lowest(pvsz_calc *calc, int32_t scope, int32_t place)
{
    const pvsz_operand *list = gather(calc, scope, place);
    double best = list ? list->value : 0;

    for (; list && list < calc->next; list++)
        if (list->value < best)
            best = list->value;
    return best;
}

/* entries */

int32_t pvsz_report_entry(const pvsize_report *report, int32_t quantity,
                          const pvsz_subject *subject)
{
    int32_t scope = pvsz_quantity_scope[quantity];
    int32_t at = subject->at[scope];

    if (at < 0 || at >= report->design.count[scope])
        return -1;
    return subject->row[scope] + quantity - pvsz_first_quantity[scope];
}

bool pvsz_report_value(const pvsize_report *report, int32_t quantity, const pvsz_subject *subject,
                       double *value)
{
    int32_t entry = pvsz_report_entry(report, quantity, subject);

    if (entry < 0 || report->entry[entry].state != PVSZ_VALUE)
        return false;
    *value = report->entry[entry].value;
    return true;
}

double pvsz_array_value(const pvsize_report *report, int32_t quantity, int32_t array)
{
    double value = 0;

    pvsz_report_value(report, quantity, &report->design.subject[PVSZ_KIND_ARRAY][array], &value);
    return value;
}

int32_t pvsz_side_entry(const pvsz_ref *ref, const pvsz_subject *subject)
{
    if (ref->kind != PVSZ_KIND_QUANTITY || subject->row[ref->scope] < 0)
        return -1;
    return subject->row[ref->scope] + ref->column;
}

void pvsz_pass_on(pvsz_calc *calc, const pvsz_entry *entry)
{
    if (!entry || entry->state == PVSZ_NOTHING)
        pvsz_nothing(calc);
    else
        pvsz_missing(calc, entry->missing);
}

/* Room for the operands is set aside first: what is computed on the way puts its
 * own behind. Where nothing was put there, what is left over is given back. */
void pvsz_compute_now(pvsize_report *report, pvsz_entry *entry)
{
    pvsz_operand *first = report->next_operand, *behind = first + PVSZ_MOST_OPERANDS;
    pvsz_calc calc = {report, entry->subject, entry, first, behind};

    entry->value = 0;
    entry->formula = "";
    entry->operand = first;
    entry->missing = 0;
    entry->turn = report->turns;
    entry->state = PVSZ_COMPUTING;
    entry->figures = (pvsz_figure_set){{0}};
    report->turn[report->turns++] = entry;
    report->next_operand = behind;
    functions[entry->quantity](&calc);
    if (entry->state == PVSZ_COMPUTING) /* GCOVR_EXCL_BR_LINE: each of them decides; a net */
        entry->state = PVSZ_NOTHING;    /* GCOVR_EXCL_LINE: for one that forgets to */
    entry->operands = (int32_t)(calc.next - entry->operand);
    if (report->next_operand == behind)
        report->next_operand = calc.next;
}
