/* The taking of a bill: what it reads, how equal things become one row, and the
 * allowances at its end. */
#include "bill.h"

/* reading */

pvsz_told pvsz_tell(double value)
{
    return (pvsz_told){.value = value};
}

pvsz_told pvsz_needs(int32_t term)
{
    return (pvsz_told){.missing = term};
}

pvsz_told pvsz_times(pvsz_told a, pvsz_told b)
{
    if (a.missing || b.missing)
        return pvsz_needs(a.missing ? a.missing : b.missing);
    return pvsz_tell(a.value * b.value);
}

const pvsz_subject *pvsz_subject_at(const pvsz_taking *take, int32_t scope, int32_t at)
{
    return &take->report->design.subject[scope][at];
}

/* The report has let go of its specs; the system's parts stand in the same order. */
const pvsize_spec *pvsz_part_of(const pvsz_taking *take, const pvsz_subject *subject)
{
    return pvsz_spec_parts(take->system, subject->scope)->item[subject->index];
}

static void take_for_granted(pvsz_taking *take, int32_t term, int32_t subject, double value)
{
    pvsz_bill_body *body = take->body;
    pvsz_taken *grown =
        pvsz_grow(take->memory, body->taken, body->takens, &body->taken_room, sizeof *grown);

    take->failed = take->failed || !grown;
    if (!grown)
        return;
    body->taken = grown;
    body->taken[body->takens++] = (pvsz_taken){term, subject, value};
}

pvsz_told pvsz_told_param(const pvsize_spec *spec, int32_t term)
{
    double value = 0;

    return pvsz_spec_number(spec, term, &value) ? pvsz_tell(value) : pvsz_needs(term);
}

void pvsz_note_default(pvsz_taking *take, const pvsz_subject *subject, int32_t term)
{
    if (!pvsz_spec_has(pvsz_part_of(take, subject), pvsz_term_place(pvsz_term_find(term))))
        take_for_granted(take, term, pvsz_subject_number(take->report, subject),
                         pvsz_term_find(term)->deflt);
}

pvsz_told pvsz_told_quantity(const pvsz_taking *take, const pvsz_subject *subject, int32_t place)
{
    int32_t number = pvsz_kinds[PVSZ_KIND_QUANTITY].rows[place].number;
    const pvsz_entry *entry = &take->report->entry[pvsz_report_entry(take->report, place, subject)];

    if (entry->state == PVSZ_VALUE)
        return pvsz_tell(entry->value);
    return pvsz_needs(entry->missing ? entry->missing : number);
}

pvsz_told pvsz_told_figure(pvsz_taking *take, int32_t place)
{
    const pvsz_figure *figure = &take->report->figure[place];

    if (!figure->set)
        return pvsz_needs(pvsz_kinds[PVSZ_KIND_FIGURE].rows[place].number);
    take->used[place] = true;
    return pvsz_tell(figure->value);
}

/* A report keeps only rules on what is there; a bill also asks those on what is not yet. */
bool pvsz_calls_for(const pvsz_taking *take, int32_t rule)
{
    return pvsz_rule_numbered(take->rules, rule)->severity >= PVSIZE_SEVERITY_SHOULD;
}

/* rows */

int32_t pvsz_measure_of(int32_t item)
{
    switch (item) {
    case PVSIZE_ITEM_CONNECTOR_PAIR:
    case PVSIZE_ITEM_DISCONNECTION_POINT:
        return PVSIZE_MEASURE_PAIRS;
    case PVSIZE_ITEM_CABLE:
        return PVSIZE_MEASURE_METRES;
    default:
        return PVSIZE_MEASURE_PIECES;
    }
}

int32_t pvsz_row_missing(const pvsz_bill_row *row)
{
    if (row->quantity.missing)
        return row->quantity.missing;
    for (int32_t k = 0; k < row->attributes; k++)
        if (row->attribute[k].is.missing)
            return row->attribute[k].is.missing;
    return 0;
}

pvsz_bill_row pvsz_line(int32_t item, int32_t type)
{
    return (pvsz_bill_row){.item = item, .type = type};
}

void pvsz_with(pvsz_bill_row *line, int32_t attribute, pvsz_told is)
{
    line->attribute[line->attributes++] = (pvsz_attribute){attribute, is};
}

/* What needs a term is never the same as what needs another, or none. Two ways to one
 * number may round to unlike doubles. */
static bool same_told(pvsz_told a, pvsz_told b)
{
    return a.missing == b.missing && pvsz_at_most(a.value, b.value) &&
           pvsz_at_most(b.value, a.value);
}

/* Of rows of one item. */
static bool same_thing(const pvsz_bill_row *row, const pvsz_bill_row *line, int32_t missing)
{
    if (row->type != line->type || row->installed.missing != missing ||
        row->attributes != line->attributes)
        return false;
    for (int32_t k = 0; k < row->attributes; k++)
        if (row->attribute[k].term != line->attribute[k].term ||
            !same_told(row->attribute[k].is, line->attribute[k].is))
            return false;
    return true;
}

/* Rows of one item stand together: looked for from the end. */
static bool find_row(pvsz_taking *take, const pvsz_bill_row *line, int32_t missing, size_t *at)
{
    pvsz_bill_body *body = take->body;
    pvsz_bill_row *grown;

    for (*at = body->rows; *at > 0 && body->row[*at - 1].item == line->item;)
        if (same_thing(&body->row[--*at], line, missing))
            return true;
    grown = pvsz_grow(take->memory, body->row, body->rows, &body->row_room, sizeof *grown);
    if (!grown)
        return false;
    body->row = grown;
    *at = body->rows++;
    body->row[*at] = *line;
    body->row[*at].installed = (pvsz_told){0, missing};
    return true;
}

void pvsz_put_share(pvsz_taking *take, const pvsz_bill_row *line, const pvsz_subject *subject,
                    int32_t why, pvsz_told installed)
{
    pvsz_bill_body *body = take->body;
    pvsz_share *grown;
    size_t at;

    if (take->failed)
        return;
    grown = pvsz_grow(take->memory, body->share, body->shares, &body->share_room, sizeof *grown);
    if (grown)
        body->share = grown;
    if (!grown || !find_row(take, line, installed.missing, &at)) {
        take->failed = true;
        return;
    }
    body->row[at].installed.value += installed.value;
    body->row[at].shares++;
    body->share[body->shares++] =
        (pvsz_share){at, pvsz_subject_number(take->report, subject), why, installed.value};
}

/* the end of a take */

static int32_t allowance_of(int32_t item)
{
    switch (item) {
    case PVSIZE_ITEM_CONNECTOR_PAIR:
    case PVSIZE_ITEM_DISCONNECTION_POINT:
        return PVSZ_FIGURE_CONNECTOR_SPARE;
    case PVSIZE_ITEM_STRING_FUSE:
    case PVSIZE_ITEM_ARRAY_FUSE:
        return PVSZ_FIGURE_FUSE_SPARE;
    case PVSIZE_ITEM_CABLE:
        return PVSZ_FIGURE_CABLE_WASTE;
    default:
        return -1;
    }
}

/* Nothing to buy has no spares. */
static void allow(pvsz_taking *take, pvsz_bill_row *row)
{
    int32_t figure = allowance_of(row->item);
    bool none = row->installed.missing || row->installed.value == 0;
    pvsz_told percent;

    row->quantity = row->installed;
    if (figure < 0 || none)
        return;
    row->allowance = pvsz_kinds[PVSZ_KIND_FIGURE].rows[figure].number;
    percent = pvsz_told_figure(take, figure);
    if (percent.missing) {
        row->quantity = percent;
        return;
    }
    row->quantity.value *= 1 + percent.value / 100;
    if (row->item != PVSIZE_ITEM_CABLE && row->quantity.value < 1e9) /* as far as it counts */
        row->quantity.value = pvsz_fewest_that_reach(1, row->quantity.value);
}

/* Shares were put as they came; now those of a row stand together, in that order. */
static void sort_shares(pvsz_taking *take)
{
    pvsz_bill_body *body = take->body;
    pvsz_share *sorted = pvsz_new(take->memory, body->shares, sizeof *sorted);
    size_t next = 0;

    if (!sorted) {
        take->failed = true;
        return;
    }
    for (size_t i = 0; i < body->rows; i++) {
        body->row[i].first_share = next;
        next += body->row[i].shares;
        body->row[i].shares = 0;
    }
    for (size_t i = 0; i < body->shares; i++) {
        pvsz_bill_row *row = &body->row[body->share[i].row];

        sorted[row->first_share + row->shares++] = body->share[i];
    }
    pvsz_release(take->memory, body->share);
    body->share = sorted;
}

static bool same_inverter(const pvsize_spec *a, const pvsize_spec *b)
{
    const pvsz_part_list *of_a = pvsz_spec_parts(a, PVSZ_KIND_INPUT);
    const pvsz_part_list *of_b = pvsz_spec_parts(b, PVSZ_KIND_INPUT);

    if (of_a->count != of_b->count || !pvsz_spec_same_numbers(a, b))
        return false;
    for (size_t i = 0; i < of_a->count; i++)
        if (!pvsz_spec_same_numbers(of_a->item[i], of_b->item[i]))
            return false;
    return true;
}

/* The first inverter that is the same; only firsts are looked at. */
static int32_t first_like(const pvsz_taking *take, int32_t at)
{
    const pvsz_part_list *list = pvsz_spec_parts(take->system, PVSZ_KIND_INVERTER);
    int32_t like = 0;

    while (like < at &&
           (take->like[like] != like || !same_inverter(list->item[like], list->item[at])))
        like++;
    return like;
}

/* What is asked for again and again is found once. */
static void prepare(pvsz_taking *take)
{
    const int32_t *count = take->report->design.count;

    take->like = pvsz_new(take->memory, (size_t)count[PVSZ_KIND_INVERTER], sizeof *take->like);
    take->isolation =
        pvsz_new(take->memory, (size_t)count[PVSZ_KIND_INPUT] + 1, sizeof *take->isolation);
    take->failed = !take->like || !take->isolation;
    if (take->failed)
        return;
    for (int32_t i = 0; i < count[PVSZ_KIND_INVERTER]; i++)
        take->like[i] = first_like(take, i);
    for (int32_t i = 0; i < count[PVSZ_KIND_INPUT]; i++)
        take->isolation[i] = pvsz_isolation_of(take, pvsz_subject_at(take, PVSZ_KIND_INPUT, i));
}

static void note_figures(pvsz_taking *take)
{
    for (int32_t i = 0; i < PVSZ_FIGURES; i++)
        if (take->used[i])
            take_for_granted(take, pvsz_kinds[PVSZ_KIND_FIGURE].rows[i].number, -1,
                             take->report->figure[i].value);
}

void pvsz_release_body(const pvsz_memory *memory, pvsz_bill_body *body)
{
    pvsize_report_free(body->report);
    pvsz_release(memory, body->row);
    pvsz_release(memory, body->share);
    pvsz_release(memory, body->taken);
}

bool pvsz_take_bill(const pvsz_memory *memory, const pvsize_spec *system, const pvsize_rules *rules,
                    pvsz_bill_body *body)
{
    static void (*const parts[])(pvsz_taking *) = {
        pvsz_take_modules,     pvsz_take_strings,        pvsz_take_inverters,
        pvsz_take_connectors,  pvsz_take_combiners,      pvsz_take_string_fuses,
        pvsz_take_holders,     pvsz_take_isolators,      pvsz_take_cables,
        pvsz_take_breakers,    pvsz_take_export_control, pvsz_take_disconnection_points,
        pvsz_take_array_fuses,
    };
    pvsz_taking take = {
        .memory = memory, .system = system, .rules = rules, .report = body->report, .body = body};

    prepare(&take);
    for (int32_t i = 0; !take.failed && i < PVSZ_COUNT(parts); i++)
        parts[i](&take);
    for (size_t i = 0; !take.failed && i < body->rows; i++)
        allow(&take, &body->row[i]);
    if (!take.failed)
        sort_shares(&take);
    if (!take.failed)
        note_figures(&take);
    pvsz_release(memory, take.like);
    pvsz_release(memory, take.isolation);
    return !take.failed;
}
