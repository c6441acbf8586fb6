/* The few words the tests need on top of Check, and an invented job. */
#ifndef PV_TEST_H
#define PV_TEST_H

#include <check.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "pvsize/pvsize.h"

/* One diag for a test program; each test starts with a clean one. */
extern pvsize_diag *diag;

/* The call must succeed; the failure's own text is shown if it does not. */
#define OK(call) ok_at((call), #call, __FILE__, __LINE__)
/* The call must fail with this status, and leave a text with this in it. */
#define FAILS(status, words, call) fails_at((status), (words), (call), #call, __FILE__, __LINE__)
/* Equal to a relative tolerance. */
#define NEAR(got, want, tolerance) near_at((got), (want), (tolerance), #got, __FILE__, __LINE__)

void ok_at(pvsize_status status, const char *call, const char *file, int line);
void fails_at(pvsize_status want, const char *words, pvsize_status got, const char *call,
              const char *file, int line);
void near_at(double got, double want, double tolerance, const char *what, const char *file,
             int line);

/* Runs the cases given, prints Check's counts, and returns main's result. */
int run_cases(const char *name, void (*add)(Suite *suite));
/* Adds one test to a suite, as a case of its own. */
void add_test(Suite *suite, const char *name, const TTest *test);

/* specs with numbers: pairs of term and value, ended by term 0 */
pvsize_spec *spec_with(int32_t kind, const double *pairs);
#define SPEC(kind, ...) spec_with((kind), (const double[]){__VA_ARGS__, 0})
/* Adds a part and frees it. */
void give(pvsize_spec *owner, pvsize_spec *part);

/* An invented job: one inverter with a double and a single input, a roof of two
 * planes, an array on each input. Every parameter that a rule asks for is set. */
pvsize_spec *invented_module(void);
pvsize_spec *invented_input(int32_t strings);
pvsize_spec *invented_inverter(void);
pvsize_spec *invented_site(void);
pvsize_spec *invented_array(int32_t input, int32_t plane, int32_t modules, int32_t strings);
pvsize_spec *invented_system(void);

/* An allocator that counts, and fails at a given allocation (-1: never):
 * pvsize_allocator memory = {counted, released, &counter}. */
typedef struct counter {
    long made, live, fail_at;
} counter;
void *counted(void *user, size_t size);
void released(void *user, void *block);

pvsize_rules *preset(const char *name);
/* Checks and returns a new report. */
pvsize_report *checked(const pvsize_spec *spec, const pvsize_rules *rules);
/* The same by the Australian preset. */
pvsize_report *checked_au(const pvsize_spec *spec);
/* Index of the finding of a rule, the n-th of that rule; -1 if none. */
int32_t finding_of(const pvsize_report *report, int32_t rule, int32_t n);
/* Verdict of that finding; 0 if none. */
int32_t verdict_of(const pvsize_report *report, int32_t rule, int32_t n);
/* The subject that a term speaks of, by these indices. */
int32_t subject_for(const pvsize_report *report, int32_t term, int32_t inverter, int32_t input,
                    int32_t array);
/* A quantity at inverter 0 and these indices. */
double quantity_of(const pvsize_report *report, int32_t quantity, int32_t input, int32_t array);
/* A text of a finding; the caller frees it. */
char *text_of(const pvsize_report *report, int32_t finding, int32_t what);
char *rendered(const pvsize_report *report, int32_t format, int32_t detail);

#endif
