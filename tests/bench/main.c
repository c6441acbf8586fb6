/* Runs operations and tells what they cost (see operations.h).
 *
 *   bench serve           reads lines "REPEATS NAME [SIZE=N...]" and answers each with the seconds
 *                         of process time that so many runs took; what was made is kept. REPEATS
 *                         0: as many as take some milliseconds; their number comes first.
 *   bench memory LINE     allocations of the first run and of the next, the most bytes held at
 *                         once, the most resident memory in KiB that came with all of it, and
 *                         whether it finished (a search: proved its best)
 *   bench count LINES...  under callgrind: costs of one warm run each, dumped under its line
 *   bench list            the names
 *   bench agree           compares the plain ways with the library
 *   bench compiler        what counts depend on
 *
 * SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include "agree.h"
#include "operations.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#ifdef __GLIBC__
#include <gnu/libc-version.h>
#endif
#ifdef HAVE_CALLGRIND
#include <valgrind/callgrind.h>
#endif

static double now(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static const operation *must_find(const char *line, size *s)
{
    const operation *o = operation_of(line, s);

    if (!o) {
        fprintf(stderr, "no such operation: %s\n", line);
        exit(2);
    }
    return o;
}

/* serving */

typedef struct made {
    char line[120];
    const operation *operation;
    void *state;
} made;

static made *made_of(const char *line)
{
    static made all[100];
    size s;
    int i = 0;

    while (i < 99 && all[i].operation && strcmp(all[i].line, line) != 0)
        i++;
    if (!all[i].operation) {
        all[i].operation = must_find(line, &s);
        all[i].state = all[i].operation->make(s);
        snprintf(all[i].line, sizeof all[i].line, "%s", line);
    }
    return &all[i];
}

static double timed(const made *m, long repeats)
{
    double start = now();

    while (repeats-- > 0)
        m->operation->run(m->state);
    return now() - start;
}

static void serve(void)
{
    char line[120], rest[120];
    long repeats;

    while (fgets(line, sizeof line, stdin)) {
        double spent;
        const made *m;

        if (sscanf(line, "%ld %119[^\n]", &repeats, rest) != 2)
            exit(2);
        m = made_of(rest);
        if (repeats > 0) {
            printf("%.9f\n", timed(m, repeats));
        } else {
            repeats = 1;
            while ((spent = timed(m, repeats)) < 0.004)
                repeats = spent > 1e-4 ? (long)(0.006 / spent * (double)repeats) + 1 : repeats * 8;
            printf("%ld\n", repeats);
        }
        fflush(stdout);
    }
}

/* memory: a block is told from the size that stands before it */

typedef struct keeper {
    long allocations;
    size_t held, most;
} keeper;

static void *allocated(void *user, size_t bytes)
{
    keeper *k = user;
    size_t *block = malloc(bytes + 16);

    if (!block)
        return NULL;
    block[0] = bytes;
    k->allocations++;
    k->held += bytes;
    if (k->held > k->most)
        k->most = k->held;
    return (char *)block + 16;
}

static void released(void *user, void *block)
{
    keeper *k = user;
    size_t *start = (size_t *)(void *)((char *)block - 16);

    k->held -= start[0];
    free(start);
}

static keeper kept;
static const pvsize_allocator keeping = {allocated, released, &kept};

/* Most resident memory so far, KiB; not getrusage's, which remembers the program that started this
 * one. 0 where the system does not tell. */
static long resident(void)
{
    FILE *file = fopen("/proc/self/status", "r");
    char line[200];
    long most = 0;

    while (file && fgets(line, sizeof line, file))
        sscanf(line, "VmHWM: %ld", &most);
    if (file)
        fclose(file);
    return most;
}

/* Allocations of one more run. */
static long allocations(const operation *o, void *state)
{
    long before = kept.allocations;

    o->run(state);
    return kept.allocations - before;
}

static void tell_memory(const char *line)
{
    size s;
    const operation *o = must_find(line, &s);
    long before = resident(), first, next;
    void *state;

    job_memory = &keeping;
    state = o->make(s);
    first = allocations(o, state);
    next = allocations(o, state);
    printf("%ld %ld %zu %ld %d\n", first, next, kept.most, resident() - before,
           o->finished ? o->finished(state) : 1);
    o->unmake(state);
}

/* counting */

#ifdef HAVE_CALLGRIND
/* So that a run finds none of its lines in the caches that callgrind is told of. */
static void forget_caches(void)
{
    static volatile char other[40 << 20];

    for (size_t i = 0; i < sizeof other; i += 64)
        other[i]++;
}

static void count(const char *line)
{
    size s;
    const operation *o = must_find(line, &s);
    void *state;
    long number;

    memset(&kept, 0, sizeof kept);
    job_memory = &keeping;
    state = o->make(s);
    o->run(state);
    number = allocations(o, state);
    if (getenv("BENCH_COLD"))
        forget_caches();
    CALLGRIND_ZERO_STATS;
    CALLGRIND_TOGGLE_COLLECT;
    o->run(state);
    CALLGRIND_TOGGLE_COLLECT;
    CALLGRIND_DUMP_STATS_AT(line);
    printf("%s;%ld;%.0f\n", line, number, o->units ? o->units(s) : 1);
    o->unmake(state);
}
#endif

static void tell_compiler(void)
{
#if defined(__GNUC__) && !defined(__clang__) && defined(__GLIBC__) && defined(__x86_64__)
    printf("gcc %d, glibc %s, x86-64\n", __GNUC__, gnu_get_libc_version());
#else
    printf("another compiler, C library or machine\n");
#endif
}

int main(int argc, char **argv)
{
    int result = 0;

    if (argc < 2) {
        fputs("usage: bench serve | memory LINE | count LINE... | list | agree | compiler\n",
              stderr);
        return 2;
    }
    MUST(pvsize_diag_new(NULL, &job_diag));
    if (strcmp(argv[1], "serve") == 0)
        serve();
    else if (strcmp(argv[1], "list") == 0)
        list_operations();
    else if (strcmp(argv[1], "compiler") == 0)
        tell_compiler();
    else if (strcmp(argv[1], "agree") == 0)
        result = agree();
    else if (strcmp(argv[1], "memory") == 0 && argc == 3)
        tell_memory(argv[2]);
#ifdef HAVE_CALLGRIND
    else if (strcmp(argv[1], "count") == 0)
        for (int i = 2; i < argc; i++)
            count(argv[i]);
#endif
    else
        return 2;
    pvsize_diag_free(job_diag);
    return result;
}
