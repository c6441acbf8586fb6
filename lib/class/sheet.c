/* What students and teachers read: the job with its data and questions, and the
 * answers with working and mistakes. */
#include <string.h>

#include "../wiring/ratings.h"
#include "class.h"

/* one question */

/* The finding that a fault exercise is about, for its questions. */
static const pvsz_finding *finding_of(const pvsize_exercise *exercise, const pvsz_asked *asked)
{
    return asked->question->scope == PVSZ_KIND_SYSTEM ? pvsz_broken(exercise->report) : NULL;
}

const char *pvsz_answer_unit(const pvsize_exercise *exercise, const pvsz_asked *asked)
{
    const pvsz_finding *finding = finding_of(exercise, asked);

    if (asked->question->set)
        return "";
    if (finding)
        return pvsz_finding_term(finding)->unit;
    return pvsz_kinds[PVSZ_KIND_QUANTITY].rows[asked->question->quantity].unit;
}

void pvsz_put_answer(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked,
                     double value)
{
    const char *unit = pvsz_answer_unit(exercise, asked);

    if (asked->question->set) {
        pvsz_put(text, pvsize_set_text(asked->question->set, (int32_t)value));
        return;
    }
    pvsz_put_fixed(text, value,
                   asked->question->decimals == PVSZ_EXACT ? 0 : asked->question->decimals);
    pvsz_put(text, unit[0] ? " " : "");
    pvsz_put(text, unit);
}

void pvsz_put_question(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked)
{
    const pvsz_question *question = asked->question;
    const char *gap = strstr(question->text, "{}");

    if (!gap) {
        pvsz_put(text, question->text);
        return;
    }
    pvsz_put_bytes(text, question->text, (size_t)(gap - question->text));
    pvsz_put_subject(text, exercise->report,
                     pvsz_question_subject(question, exercise->report, asked->place));
    pvsz_put(text, gap + 2);
}

void pvsz_put_answer_working(pvsz_text *text, const pvsize_exercise *exercise,
                             const pvsz_asked *asked, pvsz_manner manner)
{
    const pvsz_finding *finding = finding_of(exercise, asked);
    int32_t entry = pvsz_question_entry(asked->question, exercise->report, asked->place);

    if (finding)
        pvsz_put_finding_working(text, exercise->report, finding, manner);
    else if (entry >= 0)
        pvsz_put_working(text, exercise->report, entry, manner);
}

/* How the answer is to be given. */
static void put_manner(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked)
{
    int32_t set = asked->question->set;
    /* of a fault the unit would give away what is asked for */
    const char *unit =
        asked->question->scope == PVSZ_KIND_SYSTEM ? "" : pvsz_answer_unit(exercise, asked);

    if (set) {
        for (int32_t i = 0; i < pvsize_set_count(set); i++) {
            pvsz_put(text, text->markdown ? "\n   - " : "\n      ");
            pvsz_put_int(text, pvsize_set_at(set, i));
            pvsz_put(text, ": ");
            pvsz_put(text, pvsize_set_text(set, pvsize_set_at(set, i)));
        }
        return;
    }
    if (asked->question->decimals == PVSZ_EXACT) {
        pvsz_put(text, unit[0] ? " (in " : "");
        pvsz_put(text, unit);
        pvsz_put(text, unit[0] ? ")" : "");
        return;
    }
    pvsz_put(text, " (to ");
    pvsz_put_fixed(text, pvsz_tolerance(asked->question), asked->question->decimals);
    pvsz_put(text, unit[0] ? " " : "");
    pvsz_put(text, unit);
    pvsz_put(text, asked->question->scope == PVSZ_KIND_SYSTEM ? ", in the limit's unit)" : ")");
}

/* the task */

static void put_heading(pvsz_text *text, const char *words)
{
    pvsz_put(text, text->markdown ? "\n## " : "\n== ");
    pvsz_put(text, words);
    pvsz_put(text, text->markdown ? "\n\n" : "\n");
}

static void open_item(pvsz_text *text)
{
    pvsz_put(text, text->markdown ? "- " : "   ");
}

static void put_title(pvsz_text *text, const pvsize_exercise *exercise, const char *what)
{
    pvsz_put(text, text->markdown ? "# " : "");
    pvsz_put(text, what);
    pvsz_put_int(text, exercise->seed);
    pvsz_put(text, " of level ");
    pvsz_put(text, pvsize_set_name(PVSIZE_SET_LEVEL, exercise->level));
    pvsz_put(text, "\n\n");
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_LEVEL, exercise->level));
    pvsz_put(text, text->markdown ? "\n\nAll data are invented. Rule set: "
                                  : "\nAll data are invented. Rule set: ");
    pvsz_put_given(text, exercise->report->title);
    pvsz_put(text, "\n\n");
    pvsz_put(text, text->markdown ? "> " : "");
    pvsz_put(text, pvsize_caution());
    pvsz_put(text, "\n");
}

static void put_datum(pvsz_text *text, const pvsize_exercise *exercise, int32_t term,
                      const char *label, int32_t k)
{
    const pvsz_term *row = pvsz_term_find(term);
    double value = pvsz_job_number(exercise->system, term, k);

    open_item(text);
    pvsz_put(text, label);
    pvsz_put(text, ": ");
    if (row->type == PVSIZE_TYPE_CHOICE)
        pvsz_put(text, pvsize_set_text(row->set, (int32_t)value));
    else
        pvsz_put_value(text, row, value, 0);
    pvsz_put(text, "\n");
}

/* A thing with what the student is told of it. */
static void put_data(pvsz_text *text, const pvsize_exercise *exercise, int32_t kind, int32_t k)
{
    const pvsz_subject *subject = &exercise->report->design.subject[kind][k];
    const char *label = NULL;
    int32_t term;

    pvsz_put(text, text->markdown ? "\n### " : "\n-- ");
    pvsz_put_subject(text, exercise->report, subject);
    pvsz_put(text, text->markdown ? "\n\n" : "\n");
    for (int32_t i = 0; (term = pvsz_told_term(i, &label)) != 0; i++)
        if (pvsz_term_find(term)->kind == kind)
            put_datum(text, exercise, term, label, k);
}

/* Strings and what is fitted in them. Where the fuses are the question, they are not
 * told. */
static void put_array(pvsz_text *text, const pvsize_exercise *exercise, int32_t k)
{
    pvsize_spec *array = pvsz_job_part(exercise->system, PVSZ_KIND_ARRAY, k);
    double value;

    put_data(text, exercise, PVSZ_KIND_ARRAY, k);
    put_datum(text, exercise, PVSIZE_ARRAY_STRINGS, "strings in parallel", k);
    open_item(text);
    pvsz_put(text, "on input ");
    pvsz_put_int(text, k + 1);
    pvsz_put(text, " and plane ");
    pvsz_put_int(text, k + 1);
    pvsz_put(text, "\n");
    if (exercise->level != PVSIZE_LEVEL_FAULT)
        return;
    if (pvsz_spec_number(array, PVSIZE_ARRAY_STRING_DEVICE, &value)) {
        put_datum(text, exercise, PVSIZE_ARRAY_STRING_DEVICE, "a fuse in each string, rated", k);
        return;
    }
    open_item(text);
    pvsz_put(text, "no fuses in the strings\n");
}

static void put_job(pvsz_text *text, const pvsize_exercise *exercise)
{
    int32_t arrays = pvsz_job_arrays(exercise->system);

    put_heading(text, "The job");
    put_data(text, exercise, PVSZ_KIND_SITE, 0);
    for (int32_t k = 0; k < arrays; k++)
        put_data(text, exercise, PVSZ_KIND_PLANE, k);
    put_data(text, exercise, PVSZ_KIND_MODULE, 0);
    put_data(text, exercise, PVSZ_KIND_INVERTER, 0);
    for (int32_t k = 0; k < arrays; k++)
        put_data(text, exercise, PVSZ_KIND_INPUT, k);
    for (int32_t k = 0; k < arrays; k++)
        put_array(text, exercise, k);
}

static void add_figures(pvsz_figure_set *used, const pvsize_report *report, int32_t entry)
{
    pvsz_figure_set more;

    if (entry < 0)
        return;
    more = pvsz_figures_used(report, entry);
    pvsz_unite_figures(used, &more);
}

/* The figures that the answers rest on; of a fault, those that any could rest on. */
static pvsz_figure_set figures_of(const pvsize_exercise *exercise)
{
    const pvsize_report *report = exercise->report;
    pvsz_figure_set used = {0};

    for (int32_t i = 0; i < exercise->count; i++) {
        const pvsz_asked *asked = &exercise->asked[i];

        add_figures(&used, report, pvsz_question_entry(asked->question, report, asked->place));
    }
    for (int32_t i = 0; i < report->findings && exercise->level == PVSIZE_LEVEL_FAULT; i++) {
        const pvsz_finding *finding = &report->finding[i];

        if (pvsz_fault_of(finding->rule->number) == PVSIZE_FAULT_NONE)
            continue;
        add_figures(&used, report, pvsz_side_entry(&finding->rule->value, finding->subject));
        add_figures(&used, report, pvsz_side_entry(&finding->rule->limit, finding->subject));
    }
    return used;
}

static void put_ratings(pvsz_text *text, const pvsize_exercise *exercise)
{
    const pvsz_figure *series = &exercise->report->figure[PVSZ_FIGURE_DEVICE_SERIES];
    double rating = 0;
    bool first = true;

    if (exercise->level != PVSIZE_LEVEL_PARALLEL) /* every preset has a series */
        return;
    open_item(text);
    pvsz_put(text, "standard ratings of fuses: ");
    while (pvsz_smallest_rating((int32_t)series->value, rating, true, 100, &rating)) {
        pvsz_put(text, first ? "" : ", ");
        pvsz_put_exact(text, rating);
        first = false;
    }
    pvsz_put(text, " A\n");
}

static void put_figures(pvsz_text *text, const pvsize_exercise *exercise)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_FIGURE].rows;
    pvsz_figure_set used = figures_of(exercise);

    put_heading(text, "Figures of the rule set");
    for (int32_t i = pvsz_next_figure(&used, 0); i < PVSZ_FIGURES;
         i = pvsz_next_figure(&used, i + 1)) {
        open_item(text);
        pvsz_put(text, rows[i].text);
        pvsz_put(text, ": ");
        pvsz_put_value(text, &rows[i], exercise->report->figure[i].value, 0);
        pvsz_put(text, "\n");
    }
    put_ratings(text, exercise);
}

static void put_number(pvsz_text *text, int32_t i)
{
    pvsz_put(text, text->markdown ? "" : "   ");
    pvsz_put_int(text, i + 1);
    pvsz_put(text, ". ");
}

static void put_task(pvsz_text *text, const pvsize_exercise *exercise)
{
    put_title(text, exercise, "Exercise ");
    put_job(text, exercise);
    put_figures(text, exercise);
    put_heading(text, "Questions");
    for (int32_t i = 0; i < exercise->count; i++) {
        put_number(text, i);
        pvsz_put_question(text, exercise, &exercise->asked[i]);
        put_manner(text, exercise, &exercise->asked[i]);
        pvsz_put(text, "\n");
    }
}

/* the solution */

static void put_mistakes(pvsz_text *text, const pvsize_exercise *exercise, const pvsz_asked *asked)
{
    pvsz_put(text, text->markdown ? "\nCommon mistakes:\n\n" : "   common mistakes:\n");
    for (int32_t k = 0; k < asked->mistakes; k++) {
        open_item(text);
        pvsz_put_answer(text, exercise, asked, asked->wrong[k]);
        pvsz_put(text, ": ");
        pvsz_put(text, pvsize_set_text(PVSIZE_SET_MISTAKE, asked->mistake[k]));
        pvsz_put(text, "\n");
    }
}

static void put_solution(pvsz_text *text, const pvsize_exercise *exercise)
{
    pvsz_manner manner = pvsz_manner_of(
        text->markdown ? PVSIZE_FORMAT_MARKDOWN : PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_SHORT);

    manner.line = text->markdown ? manner.line : "   ";
    put_title(text, exercise, "Solution of exercise ");
    for (int32_t i = 0; i < exercise->count; i++) {
        const pvsz_asked *asked = &exercise->asked[i];

        pvsz_put(text, text->markdown ? "\n## " : "\n== ");
        pvsz_put_int(text, i + 1);
        pvsz_put(text, ". ");
        pvsz_put_answer(text, exercise, asked, asked->answer);
        pvsz_put(text, text->markdown ? "\n\n" : "\n");
        pvsz_put_question(text, exercise, asked);
        pvsz_put(text, text->markdown ? "\n\n" : "\n");
        pvsz_put_answer_working(text, exercise, asked, manner);
        put_mistakes(text, exercise, asked);
    }
}

void pvsz_put_sheet(pvsz_text *text, const pvsize_exercise *exercise, int32_t sheet)
{
    if (sheet == PVSIZE_SHEET_TASK)
        put_task(text, exercise);
    else
        put_solution(text, exercise);
}
