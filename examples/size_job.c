/* size_job - sizes the PV arrays of a job file. The C example of libpvsize.
 * SPDX-License-Identifier: MIT
 *
 * The way through: the reader makes a system and a rule set of the job, the
 * library checks the one by the other, and the report is printed, then what must
 * be bought. */
#include "built_in_job.h"
#include "job_reader.h"
#include "job_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SIZED = 0, LIMIT_BROKEN = 1, BAD_INPUT = 2 };

typedef struct options {
    const char *file;
    int32_t format;
    int32_t detail;
    bool help;
} options;

static void print_usage(FILE *stream)
{
    fputs("usage: size_job [--markdown] [--working] [FILE.json | -]\n"
          "  Sizes the PV arrays of a job file; without one, those of an invented job.\n"
          "  --markdown  the report as Markdown\n"
          "  --working   every step of the working as well\n"
          "  exit status 0: sized, no limit that must hold is broken; 1: one is; 2: bad input\n",
          stream);
}

static bool read_file_name(const char *word, options *out)
{
    if (word[0] == '\0')
        fputs("size_job: the name of the file is empty\n", stderr);
    else if (word[0] == '-' && word[1] != '\0')
        fprintf(stderr, "size_job: unknown option '%s'\n", word);
    else if (out->file)
        fprintf(stderr, "size_job: one file at a time; given '%s' and '%s'\n", out->file, word);
    else {
        out->file = word;
        return true;
    }
    return false;
}

static bool read_options(int count, char **words, options *out)
{
    *out = (options){NULL, PVSIZE_FORMAT_PLAIN, 0, false};
    for (int i = 1; i < count; i++) {
        if (strcmp(words[i], "--markdown") == 0)
            out->format = PVSIZE_FORMAT_MARKDOWN;
        else if (strcmp(words[i], "--working") == 0)
            out->detail = 1;
        else if (strcmp(words[i], "--help") == 0)
            out->help = true;
        else if (!read_file_name(words[i], out))
            return false;
    }
    return true;
}

static bool read_job(const char *file, job_errors *errors, job *out)
{
    size_t length;
    char *text;
    bool good;

    if (!file)
        return job_read(errors, (const char *)built_in_job, sizeof built_in_job - 1, out);
    text = job_text_load(errors, &length);
    if (!text)
        return false;
    good = job_read(errors, text, length, out);
    free(text);
    return good;
}

/* What is printed: a report, or the bill if there is one. */
typedef struct document {
    const pvsize_report *report;
    const pvsize_bill *bill;
} document;

static pvsize_status render(document what, const options *how, char *buffer, size_t capacity,
                            size_t *length)
{
    if (what.bill)
        return pvsize_bill_render(what.bill, how->format, buffer, capacity, length, NULL);
    return pvsize_report_render(what.report, how->format, how->detail, buffer, capacity, length,
                                NULL);
}

static bool print(document what, const options *how, job_errors *errors)
{
    size_t length = 0;
    char *text = NULL;
    bool good = !render(what, how, NULL, 0, &length) && (text = malloc(length + 1)) != NULL &&
                !render(what, how, text, length + 1, NULL);

    if (!good) {
        job_fail(errors, NULL, "no memory for the report");
    } else if (fputs(text, stdout) < 0 || fflush(stdout) != 0 || ferror(stdout)) {
        job_fail(errors, NULL, "cannot write the report");
        good = false;
    }
    free(text);
    return good;
}

static int result_of(const pvsize_report *report, job_errors *errors)
{
    int32_t broken = 0, open = 0;

    pvsize_report_count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_MUST, &broken, NULL);
    pvsize_report_count(report, PVSIZE_VERDICT_NOT_ASSESSED, PVSIZE_SEVERITY_MUST, &open, NULL);
    /* who reads only the exit status must still hear of this */
    if (open > 0)
        fprintf(stderr, "%s: note: limits that must hold but were not assessed: %d\n", errors->file,
                (int)open);
    return broken > 0 ? LIMIT_BROKEN : SIZED;
}

static int size(const job *work, const options *how, job_errors *errors)
{
    pvsize_report *report = NULL;
    pvsize_bill *bill = NULL;
    pvsize_diag *diag = NULL;
    int result = BAD_INPUT;

    if (pvsize_diag_new(NULL, &diag) || pvsize_report_new(NULL, &report, diag) ||
        pvsize_bill_new(NULL, &bill, diag))
        job_fail(errors, NULL, "no memory");
    else if (pvsize_check(work->system, work->rules, report, diag) ||
             pvsize_bill_fill(work->system, work->rules, bill, diag))
        job_fail_diag(errors, NULL, diag, NULL);
    else if (print((document){report, NULL}, how, errors) && puts("") >= 0 &&
             print((document){NULL, bill}, how, errors))
        result = result_of(report, errors);
    pvsize_bill_free(bill);
    pvsize_report_free(report);
    pvsize_diag_free(diag);
    return result;
}

int main(int count, char **words)
{
    options how;
    job work;
    job_errors errors = {"built-in job", 0};
    int result;

    if (!read_options(count, words, &how)) {
        print_usage(stderr);
        return BAD_INPUT;
    }
    if (how.help) {
        print_usage(stdout);
        return SIZED;
    }
    if (how.file)
        errors.file = how.file;
    if (!read_job(how.file, &errors, &work))
        return BAD_INPUT;
    result = size(&work, &how, &errors);
    job_free(&work);
    return result;
}
