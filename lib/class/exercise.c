/* The exercise as an object. */
#include "class.h"

static pvsize_status check_exercise(const pvsize_exercise *exercise, pvsize_diag *diag)
{
    if (!exercise)
        return pvsz_fail_null(diag, "exercise");
    return pvsz_is(exercise, PVSZ_MARK_EXERCISE) ? PVSIZE_OK : pvsz_fail_handle(diag, "exercise");
}

static pvsize_status fill(pvsize_exercise *exercise, const char *preset, pvsize_diag *diag)
{
    const pvsize_allocator *memory = &exercise->head.memory;
    int32_t arrays = exercise->level == PVSIZE_LEVEL_TWO_INPUTS ? 2 : 1;
    pvsize_status status =
        pvsize_rules_new(preset ? preset : "asnzs_5033_2021", memory, &exercise->rules, diag);

    if (!status)
        status = pvsz_make_job(arrays, memory, &exercise->system, diag);
    if (!status)
        status = pvsize_report_new(memory, &exercise->report, diag);
    if (!status)
        status = pvsize_report_new(memory, &exercise->trial, diag);
    if (!status)
        status = pvsz_generate(exercise, diag);
    pvsize_report_free(exercise->trial);
    exercise->trial = NULL;
    return status;
}

pvsize_status pvsize_exercise_new(int32_t level, int32_t seed, const char *preset,
                                  const pvsize_allocator *memory, pvsize_exercise **out,
                                  pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    *out = NULL;
    if (!pvsz_set_has(PVSIZE_SET_LEVEL, level))
        return pvsz_fail_choice(diag, "level", PVSIZE_SET_LEVEL, level);
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_EXERCISE, &made, diag);
    if (status)
        return status;
    *out = made;
    (*out)->level = level;
    (*out)->seed = seed;
    status = fill(*out, preset, diag);
    if (status) {
        pvsize_exercise_free(*out);
        *out = NULL;
    }
    return status;
}

void pvsize_exercise_free(pvsize_exercise *exercise)
{
    if (!pvsz_is(exercise, PVSZ_MARK_EXERCISE))
        return;
    pvsize_report_free(exercise->report);
    pvsize_rules_free(exercise->rules);
    pvsize_spec_free(exercise->system);
    pvsz_unmake(exercise);
}

pvsize_status pvsize_exercise_origin(const pvsize_exercise *exercise, int32_t *level, int32_t *seed,
                                     pvsize_diag *diag)
{
    pvsize_status status = check_exercise(exercise, diag);

    if (status)
        return status;
    if (level)
        *level = exercise->level;
    if (seed)
        *seed = exercise->seed;
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_system(const pvsize_exercise *exercise,
                                     const pvsize_allocator *memory, pvsize_spec **out,
                                     pvsize_diag *diag)
{
    pvsize_status status = check_exercise(exercise, diag);

    return status ? status : pvsize_spec_clone(exercise->system, memory, out, diag);
}

pvsize_status pvsize_exercise_rules(const pvsize_exercise *exercise, const pvsize_allocator *memory,
                                    pvsize_rules **out, pvsize_diag *diag)
{
    pvsize_status status = check_exercise(exercise, diag);

    return status ? status : pvsize_rules_clone(exercise->rules, memory, out, diag);
}

pvsize_status pvsize_exercise_question_count(const pvsize_exercise *exercise, int32_t *count,
                                             pvsize_diag *diag)
{
    pvsize_status status = check_exercise(exercise, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = exercise->count;
    return PVSIZE_OK;
}

pvsize_status pvsz_find_asked(const pvsize_exercise *exercise, int32_t i, const pvsz_asked **asked,
                              pvsize_diag *diag)
{
    pvsize_status status = check_exercise(exercise, diag);

    if (status)
        return status;
    if (i < 0 || i >= exercise->count) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, i, exercise->count);
        pvsz_fail_argument(diag, "question");
        return PVSIZE_E_BAD_INDEX;
    }
    *asked = &exercise->asked[i];
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_question(const pvsize_exercise *exercise, int32_t i,
                                       int32_t *question, int32_t *set, int32_t *array,
                                       pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    pvsize_status status = pvsz_find_asked(exercise, i, &asked, diag);

    if (status)
        return status;
    if (question)
        *question = asked->question->number;
    if (set)
        *set = asked->question->set;
    if (array)
        *array = asked->place;
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_answer(const pvsize_exercise *exercise, int32_t i, double *value,
                                     double *tolerance, pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    pvsize_status status = pvsz_find_asked(exercise, i, &asked, diag);

    if (status)
        return status;
    if (value)
        *value = asked->answer;
    if (tolerance)
        *tolerance = pvsz_tolerance(asked->question);
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_mistake_count(const pvsize_exercise *exercise, int32_t i,
                                            int32_t *count, pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    pvsize_status status = pvsz_find_asked(exercise, i, &asked, diag);

    if (status)
        return status;
    if (!count)
        return pvsz_fail_null(diag, "count");
    *count = asked->mistakes;
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_mistake(const pvsize_exercise *exercise, int32_t i, int32_t k,
                                      int32_t *mistake, double *value, pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    pvsize_status status = pvsz_find_asked(exercise, i, &asked, diag);

    if (status)
        return status;
    if (k < 0 || k >= asked->mistakes) {
        pvsz_fail_index(diag, PVSIZE_E_BAD_INDEX, 0, k, asked->mistakes);
        pvsz_fail_argument(diag, "mistake");
        return PVSIZE_E_BAD_INDEX;
    }
    if (mistake)
        *mistake = asked->mistake[k];
    if (value)
        *value = asked->wrong[k];
    return PVSIZE_OK;
}

/* texts */

static pvsize_status check_format(int32_t format, pvsize_diag *diag)
{
    return pvsz_set_has(PVSIZE_SET_FORMAT, format)
               ? PVSIZE_OK
               : pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
}

/* Which text of a question, and how. */
typedef struct wanted {
    const pvsize_exercise *exercise;
    int32_t what, format;
} wanted;

static void put_text(pvsz_text *text, const void *object, int32_t i)
{
    const wanted *want = object;
    const pvsize_exercise *exercise = want->exercise;
    const pvsz_asked *asked = &exercise->asked[i];

    text->markdown = want->format == PVSIZE_FORMAT_MARKDOWN;
    switch (want->what) {
    case PVSIZE_ASKED_QUESTION:
        pvsz_put_question(text, exercise, asked);
        break;
    case PVSIZE_ASKED_UNIT:
        pvsz_put(text, pvsz_answer_unit(exercise, asked));
        break;
    case PVSIZE_ASKED_ANSWER:
        pvsz_put_answer(text, exercise, asked, asked->answer);
        break;
    default:
        pvsz_put_answer_working(text, exercise, asked,
                                pvsz_manner_of(want->format, PVSIZE_DETAIL_SHORT));
    }
}

pvsize_status pvsize_exercise_text(const pvsize_exercise *exercise, int32_t i, int32_t what,
                                   int32_t format, char *buffer, size_t capacity, size_t *length,
                                   pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    wanted want = {exercise, what, format};
    pvsize_status found = pvsz_find_asked(exercise, i, &asked, diag);

    if (!found && !pvsz_set_has(PVSIZE_SET_ASKED, what))
        found = pvsz_fail_choice(diag, "what", PVSIZE_SET_ASKED, what);
    if (!found)
        found = check_format(format, diag);
    return pvsz_row_text(found, put_text, &want, i, buffer, capacity, length, diag);
}

pvsize_status pvsize_exercise_sheet(const pvsize_exercise *exercise, int32_t sheet, int32_t format,
                                    char *buffer, size_t capacity, size_t *length,
                                    pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = check_exercise(exercise, diag);

    if (!status && !pvsz_set_has(PVSIZE_SET_SHEET, sheet))
        return pvsz_fail_choice(diag, "sheet", PVSIZE_SET_SHEET, sheet);
    if (!status)
        status = check_format(format, diag);
    if (!status)
        status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = format == PVSIZE_FORMAT_MARKDOWN;
    pvsz_put_sheet(&text, exercise, sheet);
    return pvsz_text_end(&text, length, diag);
}
