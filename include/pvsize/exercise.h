/* pvsize/exercise.h - exercises for the class, with answers, working and the common
 * mistakes. Part of libpvsize; include <pvsize/pvsize.h>.
 * SPDX-License-Identifier: MIT */
#ifndef PVSIZE_EXERCISE_H
#define PVSIZE_EXERCISE_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* An exercise is an invented job, some questions on it, and for each question the
 * answer and what the common mistakes make of it. All answers, right and wrong, are
 * computed by this library from the job. It follows from level, seed and rule set
 * alone, and is the same on every machine.
 *
 * A job is drawn until it teaches: the design is sound, or broken by exactly the one
 * limit that the exercise is about; the exact answers stay when the module's data are
 * 0.2 % off, so that rounding on the way does no harm; and every mistake that is listed
 * leads to an answer that can be told from the right one. Two mistakes may lead to the
 * same wrong answer; then both are named.
 *
 * The data are invented. An exercise does not change once it is made, so its calls
 * may run at once on it. Questions count from 0, and so do the mistakes of each. */
typedef struct pvsize_exercise pvsize_exercise;

/* Makes an exercise of a level (PVSIZE_LEVEL_...) by a preset (null: asnzs_5033_2021).
 * Any seed will do; equal ones give equal exercises. The caller gives it back to
 * pvsize_exercise_free.
 * PVSIZE_E_BAD_CHOICE for the level, PVSIZE_E_UNKNOWN_NAME for the preset,
 * PVSIZE_E_NO_MEMORY; PVSIZE_E_INTERNAL if of 20000 jobs none teaches, which no seed
 * tried has come to. */
PVSIZE_API pvsize_status pvsize_exercise_new(int32_t level, int32_t seed, const char *preset,
                                             const pvsize_allocator *memory, pvsize_exercise **out,
                                             pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_exercise_free(pvsize_exercise *exercise);

/* What it was made from: level and seed. Each output may be null. */
PVSIZE_API pvsize_status pvsize_exercise_origin(const pvsize_exercise *exercise, int32_t *level,
                                                int32_t *seed, pvsize_diag *diag);
/* Copies of the job (a system) and of the rule set; the caller frees them. */
PVSIZE_API pvsize_status pvsize_exercise_system(const pvsize_exercise *exercise,
                                                const pvsize_allocator *memory, pvsize_spec **out,
                                                pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_exercise_rules(const pvsize_exercise *exercise,
                                               const pvsize_allocator *memory, pvsize_rules **out,
                                               pvsize_diag *diag);
/* A whole sheet as plain text or Markdown: PVSIZE_SHEET_TASK with all that a student
 * needs, or PVSIZE_SHEET_SOLUTION with answers, working and mistakes. */
PVSIZE_API pvsize_status pvsize_exercise_sheet(const pvsize_exercise *exercise, int32_t sheet,
                                               int32_t format, char *buffer, size_t capacity,
                                               size_t *length, pvsize_diag *diag);

/* How many questions. */
PVSIZE_API pvsize_status pvsize_exercise_question_count(const pvsize_exercise *exercise,
                                                        int32_t *count, pvsize_diag *diag);
/* What question i is: its kind (PVSIZE_QUESTION_...); the set that its answer is chosen
 * from (PVSIZE_SET_ANSWER, _LIMIT or _FAULT), 0 for a number; the index of the array that
 * it is asked of, or whose input or inverter. Each output may be null. */
PVSIZE_API pvsize_status pvsize_exercise_question(const pvsize_exercise *exercise, int32_t i,
                                                  int32_t *question, int32_t *set, int32_t *array,
                                                  pvsize_diag *diag);
/* A text of question i: `what` is PVSIZE_ASKED_QUESTION, _UNIT, _ANSWER or _WORKING. */
PVSIZE_API pvsize_status pvsize_exercise_text(const pvsize_exercise *exercise, int32_t i,
                                              int32_t what, int32_t format, char *buffer,
                                              size_t capacity, size_t *length, pvsize_diag *diag);
/* The answer to question i, its `value` in its unit; of a choice, its number. An answer no further
 * off than `tolerance` is right; 0 for counts, ratings and choices. Each output may be
 * null. */
PVSIZE_API pvsize_status pvsize_exercise_answer(const pvsize_exercise *exercise, int32_t i,
                                                double *value, double *tolerance,
                                                pvsize_diag *diag);

/* Mistakes that lead elsewhere in question i: how many; the k-th (PVSIZE_MISTAKE_...;
 * pvsize_set_text says what it is) and the `value` of the answer that it leads to. */
PVSIZE_API pvsize_status pvsize_exercise_mistake_count(const pvsize_exercise *exercise, int32_t i,
                                                       int32_t *count, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_exercise_mistake(const pvsize_exercise *exercise, int32_t i,
                                                 int32_t k, int32_t *mistake, double *value,
                                                 pvsize_diag *diag);

/* Marks an answer given to question i.
 *
 *   given     in the question's unit; of a choice, its number
 *   mark      receives PVSIZE_MARK_RIGHT, _ROUNDED (within 0.5 % of a number, or a count
 *             left as a fraction that would have been rounded to it), _MISTAKEN or _UNKNOWN
 *   mistakes  receives the mistakes that lead to what was given; may be null
 *   capacity  of `mistakes`
 *   count     receives how many there are; may be null
 *
 * PVSIZE_E_NOT_FINITE; PVSIZE_E_BAD_CHOICE where the answer is a choice and this is
 * none of its set; PVSIZE_E_CAPACITY if `mistakes` is too small: nothing is written
 * to it, and `mark` and `count` are. */
PVSIZE_API pvsize_status pvsize_exercise_mark(const pvsize_exercise *exercise, int32_t i,
                                              double given, int32_t *mark, int32_t *mistakes,
                                              size_t capacity, size_t *count, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
