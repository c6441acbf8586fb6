/* The text of a job file: loading it, and JSON with the line of each mistake.
 * Part of the C example of libpvsize. SPDX-License-Identifier: MIT */
#ifndef JOB_TEXT_H
#define JOB_TEXT_H

#include "job_error.h"

#include <stddef.h>

/* The whole of a file, or of standard input for "-", with a terminator behind
 * it; the caller frees it. Null after an error, which is printed. */
char *job_text_load(job_errors *errors, size_t *length);

/* The tree of a terminated text; the caller deletes it. Null after an error,
 * which is printed. */
cJSON *job_text_parse(job_errors *errors, const char *text, size_t length);

/* Bytes of the JSON number that a text starts with; 0 if it starts with none. */
size_t job_number_length(const char *text);

#endif
