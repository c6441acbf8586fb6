/* Threads: the same objects asked by all at once, then each thread with objects of its own;
 * both give the bits of one thread. Run under ThreadSanitizer: threads [THREADS [JOBS]]. */
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tell.h"

enum { MOST = 64 };

typedef struct task {
    const objects *shared; /* null: objects of one's own */
    uint64_t seed;
    uint64_t sums[PARTS];
} task;

static void *work(void *argument)
{
    task *t = argument;
    draw d = draw_from_seed(t->seed);
    objects own;

    memset(t->sums, 0, sizeof t->sums);
    if (t->shared) {
        objects_tell(t->shared, t->sums);
        return NULL;
    }
    tables_tell(t->sums);
    objects_make(&own, &d, NULL, t->sums);
    objects_tell(&own, t->sums);
    objects_free(&own);
    return NULL;
}

/* Runs the same tasks at once and one by one; 0 if all sums agree. */
static int at_once(int threads, const objects *shared, uint64_t seed, const char *what)
{
    pthread_t running[MOST];
    task tasks[MOST], alone;
    int wrong = 0;

    for (int i = 0; i < threads; i++) {
        tasks[i].shared = shared;
        tasks[i].seed = seed + (uint64_t)(i / 2); /* every job twice */
        if (pthread_create(&running[i], NULL, work, &tasks[i]))
            exit(2);
    }
    for (int i = 0; i < threads; i++)
        pthread_join(running[i], NULL);
    for (int i = 0; i < threads; i++) {
        alone = tasks[i];
        work(&alone);
        for (int part = 0; part < PARTS; part++)
            if (alone.sums[part] != tasks[i].sums[part]) {
                printf("%s, job %d: %s differ between threads\n", what, (int)tasks[i].seed,
                       part_names[part]);
                wrong = 1;
            }
    }
    return wrong;
}

/* A search stopped from outside */

typedef struct long_search {
    const objects *shared;
    int32_t cancel;
} long_search;

static void *search_on(void *argument)
{
    long_search *l = argument;
    pvsize_layouts *layouts = NULL;

    pvsize_layouts_new(NULL, &layouts, NULL);
    /* again and again, so that the flag is raised while one runs */
    do {
        pvsize_search(l->shared->search, l->shared->rules, &l->cancel, layouts, NULL);
    } while (!__atomic_load_n(&l->cancel, __ATOMIC_RELAXED));
    pvsize_layouts_free(layouts);
    return NULL;
}

static void stopped_from_outside(const objects *shared)
{
    long_search l = {shared, 0};
    pthread_t thread;
    pvsize_report *report = NULL;

    if (pthread_create(&thread, NULL, search_on, &l))
        exit(2);
    pvsize_report_new(NULL, &report, NULL);
    for (int i = 0; i < 50; i++)
        pvsize_check(shared->system, shared->rules, report, NULL);
    pvsize_report_free(report);
    __atomic_store_n(&l.cancel, 1, __ATOMIC_RELAXED);
    pthread_join(thread, NULL);
}

int main(int argc, char **argv)
{
    int threads = argc > 1 ? atoi(argv[1]) : 8, jobs = argc > 2 ? atoi(argv[2]) : 2, wrong = 0;

    threads = threads < 2 ? 2 : threads > MOST ? MOST : threads;
    for (int job = 0; job < jobs; job++) {
        uint64_t sums[PARTS] = {0};
        draw d = draw_from_seed(1000 + (uint64_t)job);
        objects all;

        objects_make(&all, &d, NULL, sums);
        wrong |= at_once(threads, &all, 0, "shared objects");
        stopped_from_outside(&all);
        objects_free(&all);
        wrong |= at_once(threads, NULL, (uint64_t)job * MOST, "own objects");
    }
    printf("%d threads, %d rounds: %s\n", threads, jobs, wrong ? "DIFFERENT" : "same bits");
    return wrong;
}
