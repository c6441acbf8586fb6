/* Errors of a job file: where, what was given, what is allowed. Part of the C
 * example of libpvsize. SPDX-License-Identifier: MIT */
#ifndef JOB_ERROR_H
#define JOB_ERROR_H

#include <cjson/cJSON.h>
#include <pvsize/pvsize.h>
#include <stdbool.h>

/* A place in the job, as a chain that lives on the reader's stack. `index` is
 * -1 for a key that is not an element of a list. */
typedef struct job_path {
    const struct job_path *up;
    const char *key;
    int index;
} job_path;

typedef struct job_errors {
    const char *file;
    int count;
} job_errors;

/* A value as messages show it, short enough for a line. */
typedef struct job_given {
    char text[80];
} job_given;

/* What a parameter or figure allows, such as "; allowed 1 V to 3000 V"; "" where
 * no table row says. */
typedef struct job_allowed {
    char text[400];
} job_allowed;

#if defined(__GNUC__)
#define JOB_FORMAT(text, values) __attribute__((format(printf, text, values)))
#else
#define JOB_FORMAT(text, values)
#endif

/* Prints one error; `path` null means the file as a whole. */
void job_fail(job_errors *errors, const job_path *path, const char *format, ...) JOB_FORMAT(3, 4);
/* Prints an error of the text itself, which has a line. */
void job_fail_line(job_errors *errors, size_t line, const char *format, ...) JOB_FORMAT(3, 4);
/* Prints what the library found wrong with a value. `item` may be null. */
void job_fail_diag(job_errors *errors, const job_path *path, const pvsize_diag *diag,
                   const cJSON *item);
/* True once there are more errors than anyone reads. */
bool job_errors_full(const job_errors *errors);

job_given job_quote(const char *text);
job_given job_show(const cJSON *item);
job_allowed job_allows(int32_t term);

/* The name nearest to a mistyped one: offer candidates, then take the hint,
 * which is "" where none is near. */
typedef struct job_nearest {
    const char *given;
    const char *best;
    size_t distance;
} job_nearest;

job_nearest job_nearest_to(const char *given);
void job_nearest_try(job_nearest *nearest, const char *candidate);
job_given job_nearest_hint(const job_nearest *nearest);

#endif
