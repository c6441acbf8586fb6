/* The reviewer's page: for each input what a module may have, then the modules asked
 * after, then the remarks. */
#include <string.h>

#include "review.h"

void pvsz_put_input_name(pvsz_text *text, const pvsize_review *review, int32_t input)
{
    if (input < 0) {
        pvsz_put(text, "inverter");
        return;
    }
    pvsz_put(text, "input ");
    pvsz_put_int(text, input + 1);
    if (review->input_name[input][0]) {
        pvsz_put(text, " (");
        pvsz_put_given(text, review->input_name[input]);
        pvsz_put(text, ")");
    }
}

void pvsz_put_module_name(pvsz_text *text, const pvsz_acceptance *row)
{
    pvsz_put(text, "module ");
    pvsz_put_int(text, row->module + 1);
    if (row->name[0]) {
        pvsz_put(text, " (");
        pvsz_put_given(text, row->name);
        pvsz_put(text, ")");
    }
}

static void put_number(pvsz_text *text, double value, const char *unit)
{
    pvsz_put_rounded(text, value, PVSZ_FINDING_DIGITS);
    pvsz_put(text, unit[0] ? " " : "");
    pvsz_put(text, unit);
}

/* "at most 10.56 A with 1 string: short-circuit current within the input's rating, 13.2 A;
 * must" */
static void put_bound_row(pvsz_text *text, const pvsz_bound *bound)
{
    pvsz_put(text, pvsz_compare_words(bound->compare));
    if (bound->missing) {
        pvsz_put(text, "(needs ");
        pvsz_put_term(text, bound->missing);
        pvsz_put(text, ")");
    } else {
        put_number(text, bound->value, bound->unit);
    }
    if (bound->strings) {
        pvsz_put(text, bound->strings == 1 ? " with " : " each with ");
        pvsz_put_int(text, bound->strings);
        pvsz_put(text, bound->strings == 1 ? " string" : " strings in parallel");
    }
    pvsz_put(text, ": ");
    pvsz_put_given(text, bound->title);
    pvsz_put(text, ", ");
    put_number(text, bound->limit, bound->limit_unit);
    pvsz_put(text, " (");
    pvsz_put(text, pvsize_set_name(PVSIZE_SET_SEVERITY, bound->severity));
    pvsz_put(text, bound->governs ? ", governs); " : "); ");
    pvsz_put(text, bound->compare == PVSIZE_COMPARE_AT_MOST ? "beyond it " : "below it ");
    pvsz_put(text, bound->breach);
    pvsz_put(text, "; ");
    pvsz_put_source(text, bound->source, bound->known);
}

void pvsz_put_bound(pvsz_text *text, const pvsz_bound *bound)
{
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_BOUND, bound->what));
    pvsz_put(text, " ");
    put_bound_row(text, bound);
}

/* "... against ..." */
static void put_stop(pvsz_text *text, const pvsz_stop *stop)
{
    pvsz_put_given(text, stop->title);
    pvsz_put(text, ": ");
    put_number(text, stop->value, stop->unit);
    pvsz_put(text, " against ");
    put_number(text, stop->limit, stop->unit);
}

void pvsz_put_acceptance(pvsz_text *text, const pvsz_acceptance *row)
{
    static const int32_t counts[] = {PVSIZE_ROOM_MODULES_MIN,      PVSIZE_ROOM_MODULES_MAX,
                                     PVSIZE_ROOM_STRINGS_LOSSLESS, PVSIZE_ROOM_STRINGS_TERMINALS,
                                     PVSIZE_ROOM_STRINGS_ALLOWED,  PVSIZE_ROOM_MODULES_TOTAL};

    pvsz_put(text, pvsize_set_text(PVSIZE_SET_ACCEPTED, row->accepted));
    if (row->accepted == PVSIZE_ACCEPTED_NO) { /* one module is too much, or too few are too many */
        pvsz_put(text, ": ");
        put_stop(text, &row->stop[0]);
        return;
    }
    if (row->open) {
        pvsz_put(text, " (");
        pvsz_put_int(text, row->open);
        pvsz_put(text, ", the first needs ");
        pvsz_put_term(text, row->missing);
        pvsz_put(text, ")");
    }
    for (int32_t i = 0; i < PVSZ_COUNT(counts); i++) {
        if (!row->has[counts[i]])
            continue;
        pvsz_put(text, "; ");
        pvsz_put(text, pvsize_set_text(PVSIZE_SET_ROOM, counts[i]));
        pvsz_put(text, ": ");
        pvsz_put_int(text, (int64_t)row->room[counts[i]]);
        if (row->stop[counts[i]].rule) {
            pvsz_put(text, counts[i] == PVSIZE_ROOM_MODULES_MIN ? " (one fewer: " : " (one more: ");
            put_stop(text, &row->stop[counts[i]]);
            pvsz_put(text, ")");
        }
    }
}

/* A sentence with its numbers: {0} is the first. */
static void put_sentence(pvsz_text *text, const char *sentence, const pvsz_remark *remark)
{
    while (*sentence) {
        size_t plain = strcspn(sentence, "{");

        pvsz_put_bytes(text, sentence, plain);
        sentence += plain;
        if (*sentence) {
            int32_t k = sentence[1] - '0';

            /* GCOVR_EXCL_BR_START: no sentence of remarks.def asks for more than there is */
            if (k >= 0 && k < remark->numbers)
                pvsz_put_rounded(text, remark->number[k], 4);
            /* GCOVR_EXCL_BR_STOP */
            sentence += 3;
        }
    }
}

/* What a remark is about: a rule's title, a term, or nothing more than its input. */
static void put_topic(pvsz_text *text, const pvsz_remark *remark)
{
    const pvsz_term *term = remark->rule || remark->term
                                ? pvsz_term_find(remark->rule ? remark->rule : remark->term)
                                : NULL;

    if (!term)
        return;
    pvsz_put(text, term->text);
    if (remark->term) {
        pvsz_put(text, " (");
        pvsz_put_term(text, remark->term);
        pvsz_put(text, ")");
    }
    pvsz_put(text, remark->rule ? ": " : ": not stated; ");
}

void pvsz_put_remark(pvsz_text *text, const pvsz_remark *remark)
{
    const pvsz_remark_row *row = pvsz_remark_of(remark->remark);

    put_topic(text, remark);
    put_sentence(text, row->sentence, remark);
    pvsz_put(text, ". Why it matters: ");
    pvsz_put(text, row->why);
}

/* the page */

static void put_heading(pvsz_text *text, const char *title)
{
    pvsz_put(text, text->markdown ? "\n## " : "\n== ");
    pvsz_put(text, title);
}

static void end_heading(pvsz_text *text)
{
    pvsz_put(text, text->markdown ? "\n\n" : "\n");
}

static void put_item(pvsz_text *text, bool strong)
{
    pvsz_put(text, text->markdown ? "- " : strong ? " > " : "   ");
}

/* Bounds of one input (-1: of the inverter), a heading for each thing bounded. */
static void put_bounds(pvsz_text *text, const pvsize_review *review, int32_t input)
{
    int32_t last = 0;

    for (size_t i = 0; i < review->bounds; i++) {
        const pvsz_bound *bound = &review->bound[i];

        if (bound->input != input)
            continue;
        if (bound->what != last) {
            put_item(text, false);
            pvsz_put(text, pvsize_set_text(PVSIZE_SET_BOUND, bound->what));
            pvsz_put(text, "\n");
        }
        last = bound->what;
        pvsz_put(text, text->markdown ? "  " : "   ");
        put_item(text, bound->governs && bound->severity == PVSIZE_SEVERITY_MUST);
        put_bound_row(text, bound);
        pvsz_put(text, "\n");
    }
}

static void put_modules(pvsz_text *text, const pvsize_review *review)
{
    for (size_t i = 0; i < review->modules; i++) {
        const pvsz_acceptance *row = &review->module[i];

        if (i == 0 || row->module != row[-1].module) {
            put_heading(text, "");
            pvsz_put_module_name(text, row);
            end_heading(text);
        }
        put_item(text, row->accepted == PVSIZE_ACCEPTED_NO);
        pvsz_put_input_name(text, review, row->input);
        pvsz_put(text, ": ");
        pvsz_put_acceptance(text, row);
        pvsz_put(text, "\n");
    }
}

static void put_remarks(pvsz_text *text, const pvsize_review *review)
{
    if (review->remarks == 0)
        return;
    put_heading(text, "remarks");
    end_heading(text);
    for (size_t i = 0; i < review->remarks; i++) {
        const pvsz_remark *remark = &review->remark[i];

        put_item(text, pvsz_remark_of(remark->remark)->severity == PVSIZE_SEVERITY_MUST);
        pvsz_put_input_name(text, review, remark->input);
        pvsz_put(text, " (");
        pvsz_put(text,
                 pvsize_set_name(PVSIZE_SET_SEVERITY, pvsz_remark_of(remark->remark)->severity));
        pvsz_put(text, "): ");
        pvsz_put_remark(text, remark);
        pvsz_put(text, "\n");
    }
}

void pvsz_put_review(pvsz_text *text, const pvsize_review *review)
{
    pvsz_put_page_title(text, "What may go on the inverter", review->inverter, review->title);
    pvsz_put_caution(text);
    for (int32_t input = -1; input < review->inputs; input++) {
        put_heading(text, "");
        pvsz_put_input_name(text, review, input);
        end_heading(text);
        put_bounds(text, review, input);
    }
    put_modules(text, review);
    put_remarks(text, review);
}
