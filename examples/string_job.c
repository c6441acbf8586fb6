/* string_job - finds the best stringings for a job file. A C example of libpvsize.
 * SPDX-License-Identifier: MIT
 *
 * The job's "search" says what is wanted and which modules may be used; its arrays,
 * if there are any, must be there. */
#include "built_in_search.h"
#include "job_reader.h"
#include "job_text.h"
#include "string_drawing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FOUND = 0, NOTHING_FITS = 1, BAD_INPUT = 2, LINE_BYTES = 2000 };

static double number_of(const pvsize_layouts *layouts, int32_t i, int32_t what)
{
    double value = 0;

    pvsize_layouts_number(layouts, i, what, &value, NULL);
    return value;
}

static void print_table(const pvsize_layouts *layouts, int32_t count)
{
    printf("rank       kW    kWh/year  modules  strings  limits that must hold\n");
    for (int32_t i = 0; i < count; i++) {
        double energy;
        bool has_energy =
            pvsize_layouts_number(layouts, i, PVSIZE_LAYOUT_ENERGY, &energy, NULL) == PVSIZE_OK;
        int32_t outcome = (int32_t)number_of(layouts, i, PVSIZE_LAYOUT_OUTCOME);

        printf("%4d  %7.3f  ", (int)i + 1, number_of(layouts, i, PVSIZE_LAYOUT_POWER) / 1000);
        if (has_energy)
            printf("%10.0f", energy);
        else
            printf("%10s", "-");
        printf("  %7.0f  %7.0f  %s\n", number_of(layouts, i, PVSIZE_LAYOUT_MODULES),
               number_of(layouts, i, PVSIZE_LAYOUT_STRINGS),
               outcome == PVSIZE_OUTCOME_HOLDS ? "hold" : "some not assessed");
    }
}

static void print_obstacles(const pvsize_layouts *layouts)
{
    char line[LINE_BYTES];
    int32_t count = 0;

    pvsize_layouts_obstacle_count(layouts, &count, NULL);
    for (int32_t i = 0; i < count; i++) {
        /* what is cut at the end of a very long line is cut between characters */
        pvsize_layouts_obstacle_text(layouts, i, line, sizeof line, NULL, NULL);
        printf("    %s\n", line);
    }
}

static void print_ending(const pvsize_layouts *layouts)
{
    int32_t ending = PVSIZE_ENDING_PROVEN;

    pvsize_layouts_ending(layouts, &ending, NULL);
    printf("\n%s\n",
           ending == PVSIZE_ENDING_PROVEN
               ? "Proven: every other stringing was judged or ruled out."
               : "Not proven: the budget of nodes was used up; there may be better ones.");
}

static int print_answers(const job *work, const pvsize_layouts *layouts)
{
    int32_t count = 0;

    pvsize_layouts_count(layouts, &count, NULL);
    if (count == 0) {
        printf("Nothing fits. What stands in the way:\n");
        print_obstacles(layouts);
        return NOTHING_FITS;
    }
    print_table(layouts, count);
    for (int32_t i = 0; i < count; i++) {
        printf("\n%d\n", (int)i + 1);
        draw_stringing(work->system, layouts, i);
    }
    printf("\nA step beyond the first would break:\n");
    print_obstacles(layouts);
    print_ending(layouts);
    return FOUND;
}

static int search(const job *work, job_errors *errors)
{
    pvsize_layouts *layouts = NULL;
    pvsize_diag *diag = NULL;
    int result = BAD_INPUT;

    if (pvsize_diag_new(NULL, &diag) || pvsize_layouts_new(NULL, &layouts, diag)) {
        job_fail(errors, NULL, "no memory");
    } else if (pvsize_search(work->search, work->rules, NULL, layouts, diag)) {
        job_fail_diag(errors, NULL, diag, NULL);
    } else {
        result = print_answers(work, layouts);
        printf("\n%s\n", pvsize_caution());
    }
    pvsize_layouts_free(layouts);
    pvsize_diag_free(diag);
    return result;
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

static void print_usage(FILE *stream)
{
    fputs("usage: string_job [FILE.json | -]\n"
          "  Finds the best stringings of a job file; without one, of an invented job.\n"
          "  exit status 0: found, 1: nothing fits, 2: bad input\n",
          stream);
}

int main(int count, char **words)
{
    const char *file = count == 2 ? words[1] : NULL;
    job_errors errors = {file ? file : "built-in job", 0};
    job work;
    int result = BAD_INPUT;

    if (file && strcmp(file, "--help") == 0) {
        print_usage(stdout);
        return FOUND;
    }
    if (count > 2 || (file && file[0] == '-' && file[1] != '\0')) {
        print_usage(stderr);
        return BAD_INPUT;
    }
    if (!read_job(file, &errors, &work))
        return BAD_INPUT;
    if (!work.search)
        job_fail(&errors, NULL, "the job has no \"search\"");
    else
        result = search(&work, &errors);
    job_free(&work);
    return result;
}
