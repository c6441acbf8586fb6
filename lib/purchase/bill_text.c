/* Rows of a bill, and the whole of it, as text. */
#include "bill.h"

static void put_number(pvsz_text *text, double value)
{
    pvsz_put_rounded(text, value, PVSZ_WORKING_DIGITS);
}

static void put_needs(pvsz_text *text, int32_t term)
{
    pvsz_put(text, "not known: needs ");
    pvsz_put_term(text, term);
}

/* one row */

/* "9 pairs (8 and 10 % more)"; pieces have no word of their own. */
static void put_quantity(pvsz_text *text, const pvsize_report *report, const pvsz_bill_row *row)
{
    const pvsz_term *figure = pvsz_term_find(row->allowance);

    if (row->installed.missing) {
        put_needs(text, row->installed.missing);
        return;
    }
    if (row->quantity.missing) {
        put_number(text, row->installed.value);
        pvsz_put(text, " and more, ");
        put_needs(text, row->quantity.missing);
        return;
    }
    if (row->installed.value == 0) {
        pvsz_put(text, "none");
        return;
    }
    put_number(text, row->quantity.value);
    if (pvsz_measure_of(row->item) != PVSIZE_MEASURE_PIECES) {
        pvsz_put(text, " ");
        pvsz_put(text, pvsize_set_name(PVSIZE_SET_MEASURE, pvsz_measure_of(row->item)));
    }
    if (!figure || report->figure[pvsz_term_place(figure)].value == 0)
        return;
    pvsz_put(text, " (");
    put_number(text, row->installed.value);
    pvsz_put(text, " and ");
    pvsz_put_value(text, figure, report->figure[pvsz_term_place(figure)].value, 0);
    pvsz_put(text, " more)");
}

static void put_type(pvsz_text *text, const pvsize_report *report, const pvsz_bill_row *row)
{
    bool connectors = row->item == PVSIZE_ITEM_CONNECTOR_PAIR;
    bool inverter = row->item == PVSIZE_ITEM_INVERTER;

    if (row->type >= 0) {
        pvsz_put(text, connectors ? ", to mate with " : inverter ? ", like " : ", ");
        pvsz_put_subject_row(text, report, row->type);
    } else if (connectors) {
        pvsz_put(text, ", at isolators and combiners");
    }
}

static void put_thing(pvsz_text *text, const pvsize_report *report, const pvsz_bill_row *row)
{
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_ITEM, row->item));
    put_type(text, report, row);
    for (int32_t k = 0; k < row->attributes; k++) {
        const pvsz_attribute *attribute = &row->attribute[k];
        const pvsz_term *term = pvsz_term_find(attribute->term);

        pvsz_put(text, ", ");
        pvsz_put(text, term->text);
        pvsz_put(text, " ");
        if (attribute->is.missing)
            put_needs(text, attribute->is.missing);
        else
            pvsz_put_value(text, term, attribute->is.value, PVSZ_WORKING_DIGITS);
    }
}

/* "rule.isolator (must)" */
static void put_why(pvsz_text *text, const pvsize_report *report, int32_t why)
{
    pvsz_put_term(text, why);
    if (pvsize_term_kind(why) != PVSIZE_KIND_RULE)
        return;
    pvsz_put(text, " (");
    pvsz_put(text, pvsize_set_name(PVSIZE_SET_SEVERITY, pvsz_severity_of(report, why)));
    pvsz_put(text, ")");
}

/* Whether a share is the first of its row with this reason. */
static bool is_new_reason(const pvsz_share *share, const pvsz_share *first)
{
    for (const pvsz_share *other = first; other < share; other++)
        if (other->why == share->why)
            return false;
    return true;
}

/* "array 1 (north) 18, array 2 (porch) 7; by quantity.array_modules" */
static void put_shares(pvsz_text *text, const pvsz_bill_body *body, const pvsz_bill_row *row)
{
    const pvsz_share *first = &body->share[row->first_share];

    for (const pvsz_share *share = first; share < first + row->shares; share++) {
        pvsz_put(text, share > first ? ", " : "");
        pvsz_put_subject_row(text, body->report, share->subject);
        if (share->installed == 0)
            continue;
        pvsz_put(text, " ");
        put_number(text, share->installed);
    }
    for (const pvsz_share *share = first; share < first + row->shares; share++) {
        if (!is_new_reason(share, first))
            continue;
        pvsz_put(text, share > first ? ", " : "; by ");
        put_why(text, body->report, share->why);
    }
}

static void put_line(pvsz_text *text, const pvsz_bill_body *body, const pvsz_bill_row *row)
{
    put_quantity(text, body->report, row);
    pvsz_put(text, ": ");
    put_thing(text, body->report, row);
    pvsz_put(text, "; for ");
    put_shares(text, body, row);
}

static void put_row(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_bill *bill = object;

    put_line(text, &bill->body, &bill->body.row[i]);
}

pvsize_status pvsize_bill_text(const pvsize_bill *bill, int32_t i, char *buffer, size_t capacity,
                               size_t *length, pvsize_diag *diag)
{
    const pvsz_bill_row *row = NULL;
    pvsize_status found = pvsz_find_row(bill, i, &row, diag);

    return pvsz_row_text(found, put_row, bill, i, buffer, capacity, length, diag);
}

pvsize_status pvsize_bill_subject_text(const pvsize_bill *bill, int32_t subject, char *buffer,
                                       size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (status)
        return status;
    if (!bill->body.report)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    return pvsize_report_subject_text(bill->body.report, subject, buffer, capacity, length, diag);
}

/* what was taken for granted */

static void put_taken(pvsz_text *text, const pvsize_report *report, const pvsz_taken *taken)
{
    const pvsz_term *term = pvsz_term_find(taken->term);

    if (taken->subject >= 0) {
        pvsz_assumption assumption = {pvsz_subject_numbered(report, taken->subject), taken->value,
                                      taken->term};

        pvsz_put_assumption(text, report, &assumption);
        return;
    }
    pvsz_put(text, term->text);
    pvsz_put(text, ": ");
    pvsz_put_value(text, term, taken->value, 0);
    pvsz_put(text, "; ");
    pvsz_put_source(text, report->figure[pvsz_term_place(term)].source,
                    report->figure[pvsz_term_place(term)].known);
}

static void put_taken_row(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_bill *bill = object;

    put_taken(text, bill->body.report, &bill->body.taken[i]);
}

pvsize_status pvsize_bill_assumption_text(const pvsize_bill *bill, int32_t i, char *buffer,
                                          size_t capacity, size_t *length, pvsize_diag *diag)
{
    const pvsz_taken *taken = NULL;
    pvsize_status found = pvsz_find_taken(bill, i, &taken, diag);

    return pvsz_row_text(found, put_taken_row, bill, i, buffer, capacity, length, diag);
}

/* the whole */

static void put_heading(pvsz_text *text, const char *words)
{
    pvsz_put(text, text->markdown ? "\n## " : "\n== ");
    pvsz_put(text, words);
    pvsz_put(text, text->markdown ? "\n\n" : "\n");
}

static void put_head(pvsz_text *text, const pvsize_report *report)
{
    pvsz_put_title(text, report, "What must be bought");
    pvsz_put_caution(text);
    pvsz_put(text, text->markdown ? "\n**The design:** " : "\nThe design: ");
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_OUTCOME, pvsz_outcome(report)));
    pvsz_put(text, "\n");
}

static void put_table_row(pvsz_text *text, const pvsz_bill_body *body, const pvsz_bill_row *row)
{
    pvsz_put(text, "| ");
    put_quantity(text, body->report, row);
    pvsz_put(text, " | ");
    put_thing(text, body->report, row);
    pvsz_put(text, " | ");
    put_shares(text, body, row);
    pvsz_put(text, " |\n");
}

/* Told and to be bought; told and none; not told. */
enum { TO_BUY, NONE, NOT_KNOWN, GROUPS };

static int32_t group_of(const pvsz_bill_row *row)
{
    if (pvsz_row_missing(row))
        return NOT_KNOWN;
    return row->quantity.value == 0 ? NONE : TO_BUY;
}

static void put_group(pvsz_text *text, const pvsz_bill_body *body, int32_t group)
{
    static const char *const headings[GROUPS] = {"to buy", "none", "not known yet"};
    bool any = false;

    for (size_t i = 0; i < body->rows; i++) {
        const pvsz_bill_row *row = &body->row[i];

        if (group_of(row) != group)
            continue;
        if (!any) {
            put_heading(text, headings[group]);
            if (text->markdown)
                pvsz_put(text, "| quantity | what | for |\n|---|---|---|\n");
        }
        any = true;
        if (text->markdown) {
            put_table_row(text, body, row);
            continue;
        }
        pvsz_put(text, "   ");
        put_line(text, body, row);
        pvsz_put(text, "\n");
    }
}

static void put_taken_for_granted(pvsz_text *text, const pvsz_bill_body *body)
{
    for (size_t i = 0; i < body->takens; i++) {
        if (i == 0)
            put_heading(text, "taken for granted");
        pvsz_put(text, text->markdown ? "- " : "   ");
        put_taken(text, body->report, &body->taken[i]);
        pvsz_put(text, "\n");
    }
}

static void put_counting(pvsz_text *text)
{
    put_heading(text, "how it counts (common practice)");
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_COUNTING); i++) {
        pvsz_put(text, text->markdown ? "- " : "   ");
        pvsz_put(text, pvsize_set_text(PVSIZE_SET_COUNTING, pvsize_set_at(PVSIZE_SET_COUNTING, i)));
        pvsz_put(text, "\n");
    }
}

pvsize_status pvsize_bill_render(const pvsize_bill *bill, int32_t format, char *buffer,
                                 size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = pvsz_check_bill(bill, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!bill->body.report)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    put_head(&text, bill->body.report);
    for (int32_t group = 0; group < GROUPS; group++)
        put_group(&text, &bill->body, group);
    put_taken_for_granted(&text, &bill->body);
    put_counting(&text);
    return pvsz_text_end(&text, length, diag);
}
