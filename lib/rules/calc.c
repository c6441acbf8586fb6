/* Computing quantities: each once for each subject, with its operands. */
#include "calc.h"

static pvsz_quantity_function *const functions[PVSZ_QUANTITIES] = {
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) pvsz_of_##name,
#include "../tables/quantities.def"
#undef QUANTITY
};

void pvsz_missing(pvsz_calc *calc, int32_t term)
{
    if (calc->state != PVSZ_COMPUTING)
        return;
    calc->state = PVSZ_MISSING;
    calc->missing = term;
}

void pvsz_nothing(pvsz_calc *calc)
{
    if (calc->state == PVSZ_COMPUTING)
        calc->state = PVSZ_NOTHING;
}

void pvsz_result(pvsz_calc *calc, double value, const char *formula)
{
    if (calc->state != PVSZ_COMPUTING)
        return;
    calc->state = PVSZ_VALUE;
    calc->value = value;
    calc->formula = formula;
}

static double note(pvsz_calc *calc, double value, int32_t term, int32_t entry)
{
    if (calc->operands < PVSZ_MOST_OPERANDS)
        calc->operand[calc->operands++] = (pvsz_operand){value, term, entry};
    return value;
}

double pvsz_literal(pvsz_calc *calc, double value)
{
    return note(calc, value, 0, -1);
}

static void assume(pvsize_report *report, int32_t term, const pvsz_subject *subject, double value)
{
    for (int32_t i = 0; i < report->assumptions; i++)
        if (report->assumption[i].term == term && report->assumption[i].subject == subject)
            return;
    if (report->assumptions < report->assumption_room)
        report->assumption[report->assumptions++] = (pvsz_assumption){subject, value, term};
}

void pvsz_assume(pvsz_calc *calc, int32_t term, const pvsz_subject *subject, double value)
{
    assume(calc->report, term, subject, value);
}

/* Place of the kind whose table holds a parameter. */
static int32_t kind_of(int32_t term)
{
    return term / 1000 - 1; /* kinds of specs are numbered 1000, 2000, ... in order */
}

bool pvsz_has_param(const pvsz_calc *calc, int32_t term)
{
    const pvsize_spec *spec = calc->subject->spec[kind_of(term)];
    double value;

    return spec && pvsz_spec_number(spec, term, &value);
}

/* The value in force. A default is noted as an assumption about the thing it
 * belongs to. */
static bool find_param(pvsize_report *report, const pvsz_subject *subject, int32_t term,
                       double *value)
{
    int32_t kind = kind_of(term), row = term % 1000 - 1;
    const pvsize_spec *spec = subject->spec[kind];

    if (!spec)
        return false;
    if (pvsz_spec_has(spec, row)) {
        *value = spec->value[row].number;
        return true;
    }
    if (!pvsz_spec_number(spec, term, value))
        return false;
    assume(report, term, &report->design.subject[kind][subject->at[kind]], *value);
    return true;
}

bool pvsz_param_below(pvsz_calc *calc, const pvsz_subject *below, int32_t term, double *value)
{
    return find_param(calc->report, below, term, value);
}

double pvsz_peek_param(pvsz_calc *calc, int32_t term)
{
    double value = 0;

    find_param(calc->report, calc->subject, term, &value);
    return value;
}

/* What a lacking parameter means: where none is stated, and of a thing looked at
 * alone what it would hang on, does not apply; of an array on no plane, the plane is what is missing. */
static pvsz_state lack_of(const pvsz_subject *subject, int32_t term, int32_t *missing)
{
    int32_t kind = kind_of(term);

    *missing = term;
    if (subject->spec[kind])
        return pvsz_spec_states_none(subject->spec[kind], term % 1000 - 1) ? PVSZ_NOTHING
                                                                           : PVSZ_MISSING;
    if (kind == PVSZ_KIND_PLANE && subject->scope == PVSZ_KIND_ARRAY)
        *missing = PVSIZE_ARRAY_PLANE;
    return subject->at[PVSZ_KIND_SYSTEM] < 0 ? PVSZ_NOTHING : PVSZ_MISSING;
}

bool pvsz_states_none(const pvsz_calc *calc, int32_t term)
{
    const pvsize_spec *spec = calc->subject->spec[kind_of(term)];

    return spec && pvsz_spec_states_none(spec, term % 1000 - 1);
}

bool pvsz_is_unknown(const pvsz_calc *calc, int32_t term)
{
    int32_t missing;

    return !pvsz_has_param(calc, term) && lack_of(calc->subject, term, &missing) == PVSZ_MISSING;
}

double pvsz_param(pvsz_calc *calc, int32_t term)
{
    double value = 0;
    int32_t missing;

    if (find_param(calc->report, calc->subject, term, &value))
        return note(calc, value, term, -1);
    if (lack_of(calc->subject, term, &missing) == PVSZ_NOTHING)
        pvsz_nothing(calc);
    else
        pvsz_missing(calc, missing);
    return 0;
}

bool pvsz_has_figure(const pvsz_calc *calc, int32_t place)
{
    calc->report->looked |= UINT64_C(1) << place;
    return calc->report->figure[place].set;
}

bool pvsz_is_yes(const pvsz_calc *calc, int32_t place)
{
    return pvsz_has_figure(calc, place) && calc->report->figure[place].value == PVSIZE_ANSWER_YES;
}

double pvsz_figure_of(pvsz_calc *calc, int32_t place)
{
    int32_t number = pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number;

    calc->report->looked |= UINT64_C(1) << place;
    if (!calc->report->figure[place].set) {
        pvsz_missing(calc, number);
        return 0;
    }
    return note(calc, calc->report->figure[place].value, number, -1);
}

/* Takes over the state of what a quantity builds on. */
static bool usable(pvsz_calc *calc, int32_t entry)
{
    const pvsz_entry *found = entry < 0 ? NULL : &calc->report->entry[entry];

    if (!found || found->state == PVSZ_NOTHING)
        pvsz_nothing(calc);
    else if (found->state != PVSZ_VALUE)
        pvsz_missing(calc, found->missing);
    return found && found->state == PVSZ_VALUE;
}

double pvsz_quantity(pvsz_calc *calc, int32_t place)
{
    int32_t entry = pvsz_compute(calc->report, place, calc->subject);

    if (!usable(calc, entry))
        return 0;
    return note(calc, calc->report->entry[entry].value,
                pvsz_kinds[PVSZ_KIND_QUANTITY].rows[place].number, entry);
}

bool pvsz_has_quantity(pvsz_calc *calc, int32_t place)
{
    int32_t entry = pvsz_compute(calc->report, place, calc->subject);

    return entry >= 0 && calc->report->entry[entry].state == PVSZ_VALUE;
}

double pvsz_peek_quantity(pvsz_calc *calc, int32_t place)
{
    int32_t entry = pvsz_compute(calc->report, place, calc->subject);

    return entry < 0 ? 0 : calc->report->entry[entry].value;
}

/* things below */

static const pvsz_subject *subject_at(const pvsz_calc *calc, int32_t scope, int32_t at)
{
    const pvsz_design *design = &calc->report->design;

    return at >= 0 && at < design->count[scope] ? &design->subject[scope][at] : NULL;
}

const pvsz_subject *pvsz_first_below(const pvsz_calc *calc, int32_t scope)
{
    const pvsz_subject *on = calc->subject;

    if (scope == PVSZ_KIND_CABLE && on->scope != PVSZ_KIND_SYSTEM)
        return subject_at(calc, scope, on->first_cable);
    if (on->scope == PVSZ_KIND_SYSTEM)
        return subject_at(calc, scope, 0);
    return on->below > 0 ? subject_at(calc, scope, on->first_below) : NULL;
}

const pvsz_subject *pvsz_next_below(const pvsz_calc *calc, int32_t scope, const pvsz_subject *at)
{
    const pvsz_subject *on = calc->subject;
    int32_t next = at->at[scope] + 1;

    if (scope == PVSZ_KIND_CABLE && on->scope != PVSZ_KIND_SYSTEM)
        return subject_at(calc, scope, at->next_cable);
    switch (on->scope) {
    case PVSZ_KIND_INPUT:
        return subject_at(calc, scope, at->next_on_input);
    case PVSZ_KIND_PLANE:
        return subject_at(calc, scope, at->next_on_plane);
    case PVSZ_KIND_INVERTER:
        return next < on->first_below + on->below ? subject_at(calc, scope, next) : NULL;
    default:
        return subject_at(calc, scope, next);
    }
}

/* Computes a quantity of everything below first, then notes them all in the
 * report, so that the list stands in one piece whatever its length. What does
 * not apply is passed over. */
static bool gather(pvsz_calc *calc, int32_t scope, int32_t place)
{
    pvsize_report *report = calc->report;
    const pvsz_subject *at;
    int32_t found = 0;

    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        int32_t entry = pvsz_compute(report, place, at);

        if (entry < 0 || report->entry[entry].state == PVSZ_NOTHING)
            continue;
        if (!usable(calc, entry))
            return false;
        found++;
    }
    if (found == 0 || report->operands + found > report->operand_room) {
        pvsz_nothing(calc);
        return false;
    }
    calc->first_operand = report->operands;
    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        int32_t entry = pvsz_compute(report, place, at);

        if (entry >= 0 && report->entry[entry].state == PVSZ_VALUE)
            report->operand[report->operands++] =
                (pvsz_operand){report->entry[entry].value,
                               pvsz_kinds[PVSZ_KIND_QUANTITY].rows[place].number, entry};
    }
    return true;
}

double pvsz_sum_params(pvsz_calc *calc, int32_t scope, int32_t term, int32_t instead)
{
    pvsize_report *report = calc->report;
    const pvsz_subject *at;
    double sum = 0;

    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        double value;

        if (!pvsz_spec_number(at->spec[scope], term, &value) &&
            (!instead || !pvsz_spec_number(at->spec[scope], instead, &value))) {
            pvsz_missing(calc, term);
            return 0;
        }
    }
    calc->first_operand = report->operands;
    for (at = pvsz_first_below(calc, scope); at; at = pvsz_next_below(calc, scope, at)) {
        double value = 0;
        int32_t used = term;

        if (!pvsz_spec_number(at->spec[scope], term, &value)) {
            pvsz_spec_number(at->spec[scope], instead, &value);
            pvsz_assume(calc, term, at, value);
            used = instead;
        }
        sum += value;
        if (report->operands < report->operand_room)
            report->operand[report->operands++] = (pvsz_operand){value, used, -1};
    }
    return sum;
}

double pvsz_sum(pvsz_calc *calc, int32_t scope, int32_t place)
{
    double sum = 0;

    if (gather(calc, scope, place))
        for (int32_t i = calc->first_operand; i < calc->report->operands; i++)
            sum += calc->report->operand[i].value;
    return sum;
}

double pvsz_highest(pvsz_calc *calc, int32_t scope, int32_t place)
{
    double best = 0;

    if (gather(calc, scope, place)) {
        const pvsz_operand *operand = calc->report->operand;

        best = operand[calc->first_operand].value;
        for (int32_t i = calc->first_operand + 1; i < calc->report->operands; i++)
            if (operand[i].value > best)
                best = operand[i].value;
    }
    return best;
}

double pvsz_lowest(pvsz_calc *calc, int32_t scope, int32_t place)
{
    double best = 0;

    if (gather(calc, scope, place)) {
        const pvsz_operand *operand = calc->report->operand;

        best = operand[calc->first_operand].value;
        for (int32_t i = calc->first_operand + 1; i < calc->report->operands; i++)
            if (operand[i].value < best)
                best = operand[i].value;
    }
    return best;
}

void pvsz_all_given(pvsz_calc *calc)
{
    int32_t scope = calc->subject->scope;
    const pvsz_kind *kind = &pvsz_kinds[scope];

    for (int32_t i = 0; i < kind->count; i++)
        if (kind->rows[i].need == PVSIZE_NEED_REQUIRED &&
            !pvsz_spec_has(calc->subject->spec[scope], i))
            pvsz_missing(calc, kind->rows[i].number);
    pvsz_result(calc, pvsz_literal(calc, PVSIZE_ANSWER_YES), "{given}");
}

/* entries */

int32_t pvsz_report_entry(const pvsize_report *report, int32_t quantity,
                          const pvsz_subject *subject)
{
    int32_t scope = pvsz_kinds[PVSZ_KIND_QUANTITY].rows[quantity].scope;
    int32_t at = subject->at[scope];

    if (at < 0 || at >= report->design.count[scope])
        return -1;
    return report->memo[report->memo_start[scope] + at * PVSZ_QUANTITIES + quantity];
}

/* Copies operands that were noted in the calc behind those of the report. */
static void keep(pvsz_calc *calc, pvsz_entry *entry)
{
    pvsize_report *report = calc->report;

    entry->value = calc->value;
    entry->formula = calc->formula;
    entry->missing = calc->missing;
    entry->state = calc->state == PVSZ_COMPUTING ? PVSZ_NOTHING : calc->state;
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

int32_t pvsz_compute(pvsize_report *report, int32_t place, const pvsz_subject *subject)
{
    int32_t scope = pvsz_kinds[PVSZ_KIND_QUANTITY].rows[place].scope;
    int32_t at = subject->at[scope];
    uint64_t looked = report->looked;
    int32_t *memo;
    pvsz_calc calc;

    if (at < 0)
        return -1;
    memo = &report->memo[report->memo_start[scope] + at * PVSZ_QUANTITIES + place];
    if (*memo >= 0) {
        report->looked |= report->entry[*memo].figures;
        return *memo;
    }
    report->looked = 0;
    *memo = report->entries++;
    report->entry[*memo] = (pvsz_entry){
        .state = PVSZ_COMPUTING, .subject = &report->design.subject[scope][at], .quantity = place};
    calc.report = report;
    calc.subject = &report->design.subject[scope][at];
    calc.operands = 0;
    calc.first_operand = -1;
    calc.missing = 0;
    calc.state = PVSZ_COMPUTING;
    calc.value = 0;
    calc.formula = "";
    functions[place](&calc);
    keep(&calc, &report->entry[*memo]);
    report->entry[*memo].figures = report->looked;
    report->looked |= looked; /* what asked for it looked as well */
    return *memo;
}

/* sides of rules */

pvsz_side pvsz_side_of(pvsize_report *report, const pvsz_ref *ref, const pvsz_subject *subject)
{
    pvsz_side side = {.value = 1, .entry = -1, .missing = 0, .state = PVSZ_VALUE};

    if (!ref->number)
        return side;
    if (ref->kind == PVSZ_KIND_QUANTITY) {
        side.entry = pvsz_compute(report, ref->place, subject);
        if (side.entry < 0) {
            side.state = PVSZ_NOTHING;
        } else {
            const pvsz_entry *entry = &report->entry[side.entry];

            side.value = entry->value;
            side.missing = entry->missing;
            side.state = entry->state;
        }
    } else if (ref->kind == PVSZ_KIND_FIGURE) {
        side.value = report->figure[ref->place].value;
        side.state = report->figure[ref->place].set ? PVSZ_VALUE : PVSZ_MISSING;
        side.missing = ref->number;
    } else if (!find_param(report, subject, ref->number, &side.value)) {
        side.state = lack_of(subject, ref->number, &side.missing);
    }
    return side;
}
