/* See operations.h: checks and what is made of them, and how operations are found. */
#include "operations.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "plain.h"

typedef struct checking {
    job j;
    pvsize_spec *system;
    pvsize_rules *rules;
    pvsize_report *report;
    pvsize_bill *bill;
    char text[200000];
} checking;

static void *make_checking(size s)
{
    checking *c = room_for(sizeof *c);

    c->j = job_of(s.inputs, s.planes, s.count);
    c->system = system_spec(&c->j, 1);
    c->rules = rules_of_house();
    MUST(pvsize_report_new(job_memory, &c->report, job_diag));
    MUST(pvsize_check(c->system, c->rules, c->report, job_diag));
    MUST(pvsize_bill_new(job_memory, &c->bill, job_diag));
    return c;
}

static void run_check(void *state)
{
    checking *c = state;

    MUST(pvsize_check(c->system, c->rules, c->report, job_diag));
}

static void run_render(void *state)
{
    checking *c = state;

    MUST(pvsize_report_render(c->report, PVSIZE_FORMAT_MARKDOWN, PVSIZE_DETAIL_LONG, c->text,
                              sizeof c->text, NULL, job_diag));
}

static void run_bill(void *state)
{
    checking *c = state;

    MUST(pvsize_bill_fill(c->system, c->rules, c->bill, job_diag));
}

static void run_make(void *state)
{
    pvsize_spec_free(system_spec(&((checking *)state)->j, 1));
}

static void unmake_checking(void *state)
{
    checking *c = state;

    pvsize_spec_free(c->system);
    pvsize_rules_free(c->rules);
    pvsize_report_free(c->report);
    pvsize_bill_free(c->bill);
    free(c);
}

/* many systems, each unlike the others */

typedef struct drawing {
    int count;
    job *jobs;
    pvsize_spec **systems;
    pvsize_rules *rules;
    pvsize_report *report;
    plain_sizing *sizing;
} drawing;

static double units_drawn(size s)
{
    return s.count;
}

static void *make_plain_drawn(size s)
{
    drawing *d = room_for(sizeof *d);

    d->count = s.count;
    d->jobs = room_for((size_t)s.count * sizeof *d->jobs);
    d->sizing = room_for(sizeof *d->sizing);
    for (int i = 0; i < s.count; i++)
        d->jobs[i] = job_drawn((uint64_t)i);
    return d;
}

static void *make_drawn(size s)
{
    drawing *d = make_plain_drawn(s);

    d->systems = room_for((size_t)s.count * sizeof(pvsize_spec *));
    for (int i = 0; i < s.count; i++)
        d->systems[i] = system_spec(&d->jobs[i], 1);
    d->rules = rules_of_house();
    MUST(pvsize_report_new(job_memory, &d->report, job_diag));
    return d;
}

static void run_drawn(void *state)
{
    drawing *d = state;

    for (int i = 0; i < d->count; i++)
        MUST(pvsize_check(d->systems[i], d->rules, d->report, job_diag));
}

static void run_plain_drawn(void *state)
{
    drawing *d = state;

    for (int i = 0; i < d->count; i++)
        plain_check(&d->jobs[i], d->sizing);
}

static void unmake_drawn(void *state)
{
    drawing *d = state;

    for (int i = 0; d->systems && i < d->count; i++)
        pvsize_spec_free(d->systems[i]);
    free(d->systems);
    free(d->jobs);
    free(d->sizing);
    pvsize_rules_free(d->rules);
    pvsize_report_free(d->report);
    free(d);
}

typedef struct plain_checking {
    job j;
    plain_sizing sizing;
} plain_checking;

static void *make_plain(size s)
{
    plain_checking *c = room_for(sizeof *c);

    c->j = job_of(s.inputs, s.planes, s.count);
    return c;
}

static void run_plain(void *state)
{
    plain_checking *c = state;

    plain_check(&c->j, &c->sizing);
}

static void *make_nothing(size s)
{
    (void)s;
    return NULL;
}

static void run_exercise(void *state)
{
    pvsize_exercise *exercise;

    (void)state;
    MUST(pvsize_exercise_new(PVSIZE_LEVEL_PARALLEL, 7, NULL, job_memory, &exercise, job_diag));
    pvsize_exercise_free(exercise);
}

const operation operations[] = {
    {"check", {2, 2, 32, 0}, NULL, make_checking, run_check, unmake_checking, NULL},
    {"plain_check", {2, 2, 32, 0}, NULL, make_plain, run_plain, free, NULL},
    {"check_drawn", {0, 0, 10000, 0}, units_drawn, make_drawn, run_drawn, unmake_drawn, NULL},
    {"plain_check_drawn",
     {0, 0, 10000, 0},
     units_drawn,
     make_plain_drawn,
     run_plain_drawn,
     unmake_drawn,
     NULL},
    {"make_design", {2, 2, 32, 0}, NULL, make_checking, run_make, unmake_checking, NULL},
    {"render", {2, 2, 32, 0}, NULL, make_checking, run_render, unmake_checking, NULL},
    {"bill", {2, 2, 32, 0}, NULL, make_checking, run_bill, unmake_checking, NULL},
    {"exercise", {0, 0, 0, 0}, NULL, make_nothing, run_exercise, free, NULL},
    {NULL, {0, 0, 0, 0}, NULL, NULL, NULL, NULL, NULL},
};

/* finding them */

static const operation *const lists[] = {operations, layout_operations, curve_operations,
                                         year_operations};

void list_operations(void)
{
    for (int i = 0; i < 4; i++)
        for (const operation *o = lists[i]; o->name; o++)
            puts(o->name);
}

static const operation *named(const char *name, size_t length)
{
    for (int i = 0; i < 4; i++)
        for (const operation *o = lists[i]; o->name; o++)
            if (strlen(o->name) == length && strncmp(o->name, name, length) == 0)
                return o;
    return NULL;
}

static void set_size(const char *line, const char *word, int *value)
{
    const char *at = strstr(line, word);

    if (at)
        *value = atoi(at + strlen(word));
}

const operation *operation_of(const char *line, size *s)
{
    const operation *o = named(line, strcspn(line, " \n"));

    if (!o)
        return NULL;
    *s = o->usual;
    set_size(line, " inputs=", &s->inputs);
    set_size(line, " planes=", &s->planes);
    set_size(line, " count=", &s->count);
    set_size(line, " minutes=", &s->minutes);
    if (s->inputs > MOST_INPUTS || s->planes > MOST_PLANES || s->count < 0)
        return NULL;
    return o;
}
