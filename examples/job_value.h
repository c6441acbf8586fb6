/* One value of a job file against one row of the library's tables. Part of the
 * C example of libpvsize. SPDX-License-Identifier: MIT */
#ifndef JOB_VALUE_H
#define JOB_VALUE_H

#include "job_error.h"

/* Member of an object by its exact key; null if there is none. */
const cJSON *job_member(const cJSON *object, const char *key);
/* False for a member to pass over: a comment, or one that repeats a key or is
 * null, which is printed. */
bool job_key_counts(job_errors *errors, const job_path *path, const cJSON *object,
                    const cJSON *item);

/* False, after an error, for anything but an object, a list, a text. */
bool job_is_object(job_errors *errors, const job_path *path, const cJSON *item);
bool job_is_list(job_errors *errors, const job_path *path, const cJSON *item);
bool job_is_text(job_errors *errors, const job_path *path, const cJSON *item);

/* A number, or a text of number and unit, in the unit of a term. False after
 * an error. */
bool job_number(job_errors *errors, const job_path *path, const cJSON *item, int32_t term,
                double *value);
/* The text to set a text or a choice with, from a text or, where the choices
 * are yes and no, from true and false. Null after an error. */
const char *job_words(job_errors *errors, const job_path *path, const cJSON *item, int32_t term);
/* Whether a maker or network states that there is no such limit: "none". */
bool job_says_none(const cJSON *item);
/* True if a term is set by words rather than by a number. */
bool job_is_wordy(int32_t term);

#endif
