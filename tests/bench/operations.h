/* What is measured, by name. */
#ifndef OPERATIONS_H
#define OPERATIONS_H

#include "jobs.h"

/* How large: inputs, planes, and how many of what the operation counts: modules that the
 * planes hold, points, parts of a catalogue; minutes of an interval of the year. */
typedef struct size {
    int inputs, planes, count, minutes;
} size;

typedef struct operation {
    const char *name;
    size usual;
    double (*units)(size s);  /* checks, points, pairs ... in a run; null: 1 */
    void *(*make)(size s);    /* what stands before the clock starts */
    void (*run)(void *state); /* may be called any number of times */
    void (*unmake)(void *state);
    int (*finished)(void *state); /* whether the last run came to its end; null: it did */
} operation;

extern const operation operations[];
/* By a line of name and sizes, such as "check inputs=12 planes=4"; null if there is none. */
const operation *operation_of(const char *line, size *s);
void list_operations(void);

extern const operation layout_operations[], curve_operations[], year_operations[];

#endif
