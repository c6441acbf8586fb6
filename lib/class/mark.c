/* Marking: right, right but for the rounding, or which mistake was made. */
#include <math.h>

#include "class.h"

/* Within this share of a number, only rounding is wrong. */
static const double near_share = 0.005;

/* A count left as a fraction, on the side from which it is rounded. */
static bool is_fraction_of(const pvsz_asked *asked, double given)
{
    bool is_fewest = asked->question->number == PVSIZE_QUESTION_STRING_MODULES_MIN;
    double floored = floor(given);

    return floored != given && asked->answer == (is_fewest ? floored + 1 : floored);
}

static bool is_near(const pvsz_asked *asked, double given)
{
    double off = given < asked->answer ? asked->answer - given : given - asked->answer;

    return off <= near_share * asked->answer;
}

static bool is_rounded(const pvsz_asked *asked, double given)
{
    if (asked->question->set)
        return false;
    if (asked->question->decimals != PVSZ_EXACT)
        return is_near(asked, given);
    return asked->question->number != PVSIZE_QUESTION_DEVICE_RATING && is_fraction_of(asked, given);
}

static size_t find_mistakes(const pvsz_asked *asked, double given, int32_t *mistakes)
{
    size_t count = 0;

    for (int32_t k = 0; k < asked->mistakes; k++)
        if (pvsz_same_answer(asked->question, asked->wrong[k], given)) {
            if (mistakes)
                mistakes[count] = asked->mistake[k];
            count++;
        }
    return count;
}

static pvsize_status check_given(const pvsz_asked *asked, double given, pvsize_diag *diag)
{
    if (given != given || given - given != 0) {
        pvsz_fail_value(diag, PVSIZE_E_NOT_FINITE, 0, given);
        pvsz_fail_argument(diag, "given");
        return PVSIZE_E_NOT_FINITE;
    }
    if (asked->question->set &&
        (floor(given) != given || !pvsz_set_has(asked->question->set, given)))
        return pvsz_fail_choice(diag, "given", asked->question->set, given);
    return PVSIZE_OK;
}

pvsize_status pvsize_exercise_mark(const pvsize_exercise *exercise, int32_t i, double given,
                                   int32_t *mark, int32_t *mistakes, size_t capacity, size_t *count,
                                   pvsize_diag *diag)
{
    const pvsz_asked *asked = NULL;
    pvsize_status status = pvsz_find_asked(exercise, i, &asked, diag);
    bool right;
    size_t found;

    if (!status && !mark)
        return pvsz_fail_null(diag, "mark");
    if (!status && !mistakes && capacity)
        return pvsz_fail_null(diag, "mistakes");
    if (!status)
        status = check_given(asked, given, diag);
    if (status)
        return status;
    right = pvsz_same_answer(asked->question, asked->answer, given);
    found = right ? 0 : find_mistakes(asked, given, NULL);
    *mark = right                      ? PVSIZE_MARK_RIGHT
            : found                    ? PVSIZE_MARK_MISTAKEN
            : is_rounded(asked, given) ? PVSIZE_MARK_ROUNDED
                                       : PVSIZE_MARK_UNKNOWN;
    if (count)
        *count = found;
    if (mistakes && found > capacity)
        return pvsz_fail_value(diag, PVSIZE_E_CAPACITY, 0, (double)found);
    if (mistakes && found)
        find_mistakes(asked, given, mistakes);
    return PVSIZE_OK;
}
