/* Turns a job file into a system and a rule set. Part of the C example of
 * libpvsize. SPDX-License-Identifier: MIT */
#ifndef JOB_READER_H
#define JOB_READER_H

#include "job_error.h"

#include <stddef.h>

typedef struct job {
    pvsize_spec *system;
    pvsize_rules *rules;
    pvsize_spec *search; /* with the system in it; null where the job has no "search" */
} job;

/* Reads the terminated text of a job. False after errors, which are printed;
 * the job is then empty. */
bool job_read(job_errors *errors, const char *text, size_t length, job *out);
void job_free(job *old);

/* Reads the "rules" of a job, or with null takes the preset for jobs without
 * any. Null after errors. */
pvsize_rules *job_read_rules(job_errors *errors, pvsize_diag *diag, const cJSON *object);

#endif
