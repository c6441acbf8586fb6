/* Computing quantities: each once for each subject, with its operands. */
#include "calc.h"

static pv_quantity_function *const functions[PV_QUANTITIES] = {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) pv_of_##name,
#include "../tables/quantities.def"
#undef QUANTITY
};

void pv_missing(pv_calc *calc, int32_t term)
{
    if (calc->state != PV_COMPUTING)
        return;
    calc->state = PV_MISSING;
    calc->missing = term;
}

void pv_nothing(pv_calc *calc)
{
    if (calc->state == PV_COMPUTING)
        calc->state = PV_NOTHING;
}

void pv_result(pv_calc *calc, double value, const char *formula)
{
    if (calc->state != PV_COMPUTING)
        return;
    calc->state = PV_VALUE;
    calc->value = value;
    calc->formula = formula;
}

static double note(pv_calc *calc, double value, int32_t term, int32_t entry)
{
    if (calc->operands < PV_MOST_OPERANDS)
        calc->operand[calc->operands++] = (pv_operand){value, term, entry};
    return value;
}

double pv_literal(pv_calc *calc, double value)
{
    return note(calc, value, 0, -1);
}

void pv_assume(pv_calc *calc, int32_t term, const pv_subject *subject, double value)
{
    pvsize_report *report = calc->report;

    for (int32_t i = 0; i < report->assumptions; i++)
        if (report->assumption[i].term == term && report->assumption[i].subject == subject)
            return;
    if (report->assumptions < report->assumption_room)
        report->assumption[report->assumptions++] = (pv_assumption){subject, value, term};
}

/* Place of the kind whose table holds a parameter. */
static int32_t kind_of(int32_t term)
{
    return term / 1000 - 1; /* kinds of specs are numbered 1000, 2000, ... in order */
}

static bool find_param(const pv_calc *calc, int32_t term, double *value)
{
    const pvsize_spec *spec = calc->subject->spec[kind_of(term)];

    return spec && pv_spec_number(spec, term, value);
}

bool pv_has_param(const pv_calc *calc, int32_t term)
{
    double value;

    return find_param(calc, term, &value);
}

/* Notes a default in force as an assumption about the thing it belongs to. */
static void note_default(pv_calc *calc, int32_t term, double value)
{
    int32_t kind = kind_of(term);

    if (!pv_spec_has(calc->subject->spec[kind], term - pv_kinds[kind].number - 1))
        pv_assume(calc, term, &calc->report->design.subject[kind][calc->subject->at[kind]], value);
}

double pv_peek_param(pv_calc *calc, int32_t term)
{
    double value;

    if (!find_param(calc, term, &value))
        return 0;
    note_default(calc, term, value);
    return value;
}

double pv_param(pv_calc *calc, int32_t term)
{
    double value;

    if (!find_param(calc, term, &value)) {
        pv_missing(calc, term);
        return 0;
    }
    note_default(calc, term, value);
    return note(calc, value, term, -1);
}

bool pv_has_figure(const pv_calc *calc, int32_t place)
{
    return calc->report->figure[place].set;
}

double pv_figure_of(pv_calc *calc, int32_t place)
{
    int32_t number = pv_kinds[PV_KIND_FIGURE].rows[place].number;

    if (!calc->report->figure[place].set) {
        pv_missing(calc, number);
        return 0;
    }
    return note(calc, calc->report->figure[place].value, number, -1);
}

/* Takes over the state of what a quantity builds on. */
static bool usable(pv_calc *calc, int32_t entry)
{
    const pv_entry *found = entry < 0 ? NULL : &calc->report->entry[entry];

    if (!found || found->state == PV_NOTHING)
        pv_nothing(calc);
    else if (found->state != PV_VALUE)
        pv_missing(calc, found->missing);
    return found && found->state == PV_VALUE;
}

double pv_quantity(pv_calc *calc, int32_t place)
{
    int32_t entry = pv_compute(calc->report, place, calc->subject);

    if (!usable(calc, entry))
        return 0;
    return note(calc, calc->report->entry[entry].value,
                pv_kinds[PV_KIND_QUANTITY].rows[place].number, entry);
}

bool pv_has_quantity(pv_calc *calc, int32_t place)
{
    int32_t entry = pv_compute(calc->report, place, calc->subject);

    return entry >= 0 && calc->report->entry[entry].state == PV_VALUE;
}

/* things below */

static const pv_subject *subject_at(const pv_calc *calc, int32_t scope, int32_t at)
{
    const pv_design *design = &calc->report->design;

    return at >= 0 && at < design->count[scope] ? &design->subject[scope][at] : NULL;
}

const pv_subject *pv_first_below(const pv_calc *calc, int32_t scope)
{
    const pv_subject *on = calc->subject;

    if (on->scope == PV_KIND_SYSTEM)
        return subject_at(calc, scope, 0);
    return on->below > 0 ? subject_at(calc, scope, on->first_below) : NULL;
}

const pv_subject *pv_next_below(const pv_calc *calc, int32_t scope, const pv_subject *at)
{
    const pv_subject *on = calc->subject;
    int32_t next = at->at[scope] + 1;

    switch (on->scope) {
    case PV_KIND_INPUT:
        return subject_at(calc, scope, at->next_on_input);
    case PV_KIND_PLANE:
        return subject_at(calc, scope, at->next_on_plane);
    case PV_KIND_INVERTER:
        return next < on->first_below + on->below ? subject_at(calc, scope, next) : NULL;
    default:
        return subject_at(calc, scope, next);
    }
}

/* Computes a quantity of everything below first, then notes them all in the
 * report, so that the list stands in one piece whatever its length. What does
 * not apply is passed over. */
static bool gather(pv_calc *calc, int32_t scope, int32_t place)
{
    pvsize_report *report = calc->report;
    const pv_subject *at;
    int32_t found = 0;

    for (at = pv_first_below(calc, scope); at; at = pv_next_below(calc, scope, at)) {
        int32_t entry = pv_compute(report, place, at);

        if (entry < 0 || report->entry[entry].state == PV_NOTHING)
            continue;
        if (!usable(calc, entry))
            return false;
        found++;
    }
    if (found == 0 || report->operands + found > report->operand_room) {
        pv_nothing(calc);
        return false;
    }
    calc->first_operand = report->operands;
    for (at = pv_first_below(calc, scope); at; at = pv_next_below(calc, scope, at)) {
        int32_t entry = pv_compute(report, place, at);

        if (entry >= 0 && report->entry[entry].state == PV_VALUE)
            report->operand[report->operands++] =
                (pv_operand){report->entry[entry].value,
                             pv_kinds[PV_KIND_QUANTITY].rows[place].number, entry};
    }
    return true;
}

double pv_sum(pv_calc *calc, int32_t scope, int32_t place)
{
    double sum = 0;

    if (gather(calc, scope, place))
        for (int32_t i = calc->first_operand; i < calc->report->operands; i++)
            sum += calc->report->operand[i].value;
    return sum;
}

double pv_highest(pv_calc *calc, int32_t scope, int32_t place)
{
    double best = 0;

    if (gather(calc, scope, place)) {
        const pv_operand *operand = calc->report->operand;

        best = operand[calc->first_operand].value;
        for (int32_t i = calc->first_operand + 1; i < calc->report->operands; i++)
            if (operand[i].value > best)
                best = operand[i].value;
    }
    return best;
}

double pv_lowest(pv_calc *calc, int32_t scope, int32_t place)
{
    double best = 0;

    if (gather(calc, scope, place)) {
        const pv_operand *operand = calc->report->operand;

        best = operand[calc->first_operand].value;
        for (int32_t i = calc->first_operand + 1; i < calc->report->operands; i++)
            if (operand[i].value < best)
                best = operand[i].value;
    }
    return best;
}

/* entries */

int32_t pv_report_entry(const pvsize_report *report, int32_t quantity, const pv_subject *subject)
{
    int32_t scope = pv_kinds[PV_KIND_QUANTITY].rows[quantity].scope;
    int32_t at = subject->at[scope];

    if (at < 0 || at >= report->design.count[scope])
        return -1;
    return report->memo[report->memo_start[scope] + at * PV_QUANTITIES + quantity];
}

/* Copies operands that were noted in the calc behind those of the report. */
static void keep(pv_calc *calc, pv_entry *entry)
{
    pvsize_report *report = calc->report;

    entry->value = calc->value;
    entry->formula = calc->formula;
    entry->missing = calc->missing;
    entry->state = calc->state == PV_COMPUTING ? PV_NOTHING : calc->state;
    if (calc->first_operand >= 0) {
        entry->first_operand = calc->first_operand;
        entry->operands = report->operands - calc->first_operand;
        return;
    }
    entry->first_operand = report->operands;
    for (int32_t i = 0; i < calc->operands && report->operands < report->operand_room; i++)
        report->operand[report->operands++] = calc->operand[i];
    entry->operands = report->operands - entry->first_operand;
}

int32_t pv_compute(pvsize_report *report, int32_t place, const pv_subject *subject)
{
    int32_t scope = pv_kinds[PV_KIND_QUANTITY].rows[place].scope;
    int32_t at = subject->at[scope];
    int32_t *memo;
    pv_calc calc;

    if (at < 0)
        return -1;
    memo = &report->memo[report->memo_start[scope] + at * PV_QUANTITIES + place];
    if (*memo >= 0)
        return *memo;
    *memo = report->entries++;
    report->entry[*memo] = (pv_entry){.state = PV_COMPUTING,
                                      .subject = &report->design.subject[scope][at],
                                      .quantity = place};
    calc.report = report;
    calc.subject = &report->design.subject[scope][at];
    calc.operands = 0;
    calc.first_operand = -1;
    calc.missing = 0;
    calc.state = PV_COMPUTING;
    calc.value = 0;
    calc.formula = "";
    functions[place](&calc);
    keep(&calc, &report->entry[*memo]);
    return *memo;
}

/* sides of rules */

static pv_side side_of_param(pvsize_report *report, pv_ref ref, const pv_subject *subject)
{
    const pvsize_spec *spec = subject->spec[ref.kind];
    pv_side side = {.term = ref.number, .entry = -1, .state = PV_VALUE};

    if (spec && pv_spec_number(spec, ref.number, &side.value)) {
        pv_calc calc = {.report = report, .subject = subject};

        note_default(&calc, ref.number, side.value);
        return side;
    }
    side.state = PV_MISSING;
    side.missing = ref.number;
    return side;
}

static pv_side side_of_quantity(pvsize_report *report, pv_ref ref, const pv_subject *subject)
{
    int32_t entry = pv_compute(report, ref.place, subject);
    pv_side side = {.term = ref.number, .entry = entry, .state = PV_NOTHING};

    if (entry >= 0) {
        side.value = report->entry[entry].value;
        side.state = report->entry[entry].state;
        side.missing = report->entry[entry].missing;
    }
    return side;
}

static pv_side side_of_figure(const pvsize_report *report, pv_ref ref)
{
    const pv_figure *figure = &report->figure[ref.place];
    pv_side side = {.term = ref.number, .entry = -1, .state = PV_VALUE, .value = figure->value};

    if (!figure->set) {
        side.state = PV_MISSING;
        side.missing = ref.number;
    }
    return side;
}

pv_side pv_side_of(pvsize_report *report, pv_ref ref, double factor, const pv_subject *subject)
{
    pv_side side;

    if (!ref.number)
        return (pv_side){.value = factor, .factor = 1, .entry = -1, .state = PV_VALUE};
    if (ref.kind == PV_KIND_QUANTITY)
        side = side_of_quantity(report, ref, subject);
    else if (ref.kind == PV_KIND_FIGURE)
        side = side_of_figure(report, ref);
    else
        side = side_of_param(report, ref, subject);
    side.factor = factor;
    side.value *= factor;
    return side;
}
