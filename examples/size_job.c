/* size_job - sizes the PV arrays of a job file. The C example of libpvsize.
 * SPDX-License-Identifier: MIT
 *
 * The way through: the reader makes a system and a rule set of the job, the
 * library checks the one by the other, and the report is printed, then what must
 * be bought; or the reviewer's page of each inverter, or what the readings of the
 * day come to. */
#include "built_in_job.h"
#include "job_reader.h"
#include "job_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SIZED = 0, LIMIT_BROKEN = 1, BAD_INPUT = 2 };

typedef enum wanted_page { REPORT, REVIEW, READINGS } wanted_page;

typedef struct options {
    const char *file;
    wanted_page wanted;
    int32_t format;
    int32_t detail;
    bool help;
} options;

static void print_usage(FILE *stream)
{
    fputs("usage: size_job [--markdown] [--working | --explained | --review | --readings]\n"
          "                [FILE.json | -]\n"
          "  Sizes the PV arrays of a job file; without one, those of an invented job.\n"
          "  --markdown  the report as Markdown\n"
          "  --working   every step of the working as well, a line each\n"
          "  --explained the same, every symbol with its meaning and source\n"
          "  --review    what may go on each inverter, and the job's modules on its inputs\n"
          "  --readings  what the job's readings come to\n"
          "  exit status 0: sized, no limit that must hold is broken; 1: one is, or a\n"
          "  reading is not as a sound string would read; 2: bad input\n",
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
    *out = (options){NULL, REPORT, PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_FINDINGS, false};
    for (int i = 1; i < count; i++) {
        if (strcmp(words[i], "--markdown") == 0)
            out->format = PVSIZE_FORMAT_MARKDOWN;
        else if (strcmp(words[i], "--working") == 0)
            out->detail = PVSIZE_DETAIL_SHORT;
        else if (strcmp(words[i], "--explained") == 0)
            out->detail = PVSIZE_DETAIL_LONG;
        else if (strcmp(words[i], "--review") == 0)
            out->wanted = REVIEW;
        else if (strcmp(words[i], "--readings") == 0)
            out->wanted = READINGS;
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

/* What is printed: the one that there is. */
typedef struct document {
    const pvsize_report *report;
    const pvsize_bill *bill;
    const pvsize_review *review;
    const pvsize_judgement *judgement;
} document;

static pvsize_status render(document what, const options *how, char *buffer, size_t capacity,
                            size_t *length)
{
    if (what.bill)
        return pvsize_bill_render(what.bill, how->format, buffer, capacity, length, NULL);
    if (what.review)
        return pvsize_review_render(what.review, how->format, buffer, capacity, length, NULL);
    if (what.judgement)
        return pvsize_judgement_render(what.judgement, how->format, buffer, capacity, length, NULL);
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
    else if (print((document){.report = report}, how, errors) && puts("") >= 0 &&
             print((document){.bill = bill}, how, errors))
        result = result_of(report, errors);
    pvsize_bill_free(bill);
    pvsize_report_free(report);
    pvsize_diag_free(diag);
    return result;
}

/* An enquiry after the modules of the job's arrays: after those of one label once. */
static pvsize_spec *enquiry_of(const pvsize_spec *system, pvsize_diag *diag)
{
    pvsize_spec *enquiry = NULL, *array = NULL, *module = NULL;
    char label[256], last[256] = "";
    int32_t arrays = 0;
    double plane;

    pvsize_spec_new(PVSIZE_KIND_ENQUIRY, NULL, &enquiry, diag);
    pvsize_spec_part_count(system, PVSIZE_KIND_ARRAY, &arrays, diag);
    for (int32_t i = 0; i < arrays; i++) {
        pvsize_spec_part(system, PVSIZE_KIND_ARRAY, i, NULL, &array, diag);
        pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag);
        label[0] = '\0';
        pvsize_spec_get_text(module, PVSIZE_MODULE_NAME, label, sizeof label, NULL, NULL);
        if (i == 0 || strcmp(label, last) != 0)
            pvsize_spec_add(enquiry, module, NULL, diag);
        memcpy(last, label, sizeof last);
        /* voltages are those of the first array's plane */
        if (i == 0 && !pvsize_spec_get_number(array, PVSIZE_ARRAY_PLANE, &plane, NULL))
            pvsize_spec_set_number(enquiry, PVSIZE_ENQUIRY_PLANE, plane, diag);
        pvsize_spec_free(array);
        pvsize_spec_free(module);
    }
    return enquiry;
}

static int review(const job *work, const options *how, job_errors *errors, pvsize_diag *diag)
{
    pvsize_spec *site = NULL, *inverter = NULL, *enquiry = enquiry_of(work->system, diag);
    pvsize_review *page = NULL;
    int32_t inverters = 0;
    int result = SIZED;

    pvsize_spec_part(work->system, PVSIZE_KIND_SITE, 0, NULL, &site, diag);
    pvsize_spec_part_count(work->system, PVSIZE_KIND_INVERTER, &inverters, diag);
    pvsize_review_new(NULL, &page, diag);
    for (int32_t i = 0; i < inverters && result == SIZED && !pvsize_diag_status(diag); i++) {
        pvsize_spec_part(work->system, PVSIZE_KIND_INVERTER, i, NULL, &inverter, diag);
        if (!pvsize_review_inverter(inverter, site, enquiry, work->rules, page, diag) &&
            !print((document){.review = page}, how, errors))
            result = BAD_INPUT;
        pvsize_spec_free(inverter);
    }
    pvsize_review_free(page);
    pvsize_spec_free(site);
    pvsize_spec_free(enquiry);
    return result;
}

static int judge(const job *work, const options *how, job_errors *errors, pvsize_diag *diag)
{
    pvsize_judgement *sheet = NULL;
    int32_t differ = 0;
    int result = BAD_INPUT;

    if (!pvsize_judgement_new(NULL, &sheet, diag) &&
        !pvsize_judge(work->system, work->rules, sheet, diag) &&
        print((document){.judgement = sheet}, how, errors)) {
        pvsize_judgement_count(sheet, PVSIZE_JUDGED_DIFFERS, &differ, diag);
        result = differ > 0 ? LIMIT_BROKEN : SIZED;
    }
    pvsize_judgement_free(sheet);
    return result;
}

/* The pages beside the report. */
static int other_page(const job *work, const options *how, job_errors *errors)
{
    pvsize_diag *diag = NULL;
    int result = BAD_INPUT;

    if (pvsize_diag_new(NULL, &diag)) {
        job_fail(errors, NULL, "no memory");
        return result;
    }
    result =
        how->wanted == REVIEW ? review(work, how, errors, diag) : judge(work, how, errors, diag);
    if (pvsize_diag_status(diag)) {
        job_fail_diag(errors, NULL, diag, NULL);
        result = BAD_INPUT;
    }
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
    result = how.wanted == REPORT ? size(&work, &how, &errors) : other_page(&work, &how, &errors);
    job_free(&work);
    return result;
}
