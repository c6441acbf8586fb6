/* Prints the sums of many invented jobs, part by part, to be compared between machines,
 * compilers and C libraries: bits [JOBS [LOCALE]]. With a locale, that one is in force; with
 * one of the words up, down and zero instead, floating-point numbers are rounded so. */
#include <fenv.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tell.h"

static int round_as(const char *word)
{
#ifdef FE_UPWARD
    if (strcmp(word, "up") == 0)
        return fesetround(FE_UPWARD) == 0;
    if (strcmp(word, "down") == 0)
        return fesetround(FE_DOWNWARD) == 0;
    if (strcmp(word, "zero") == 0)
        return fesetround(FE_TOWARDZERO) == 0;
#endif
    return 0;
}

int main(int argc, char **argv)
{
    long jobs = argc > 1 ? strtol(argv[1], NULL, 10) : 50;
    uint64_t sums[PARTS] = {0};

    if (argc > 2 && !round_as(argv[2]) && !setlocale(LC_ALL, argv[2])) {
        fprintf(stderr, "no locale %s\n", argv[2]);
        return 77;
    }
    tables_tell(sums);
    for (long job = 0; job < jobs; job++) {
        draw d = draw_from_seed((uint64_t)job);
        objects all;

        objects_make(&all, &d, NULL, sums);
        objects_tell(&all, sums);
        objects_free(&all);
    }
    for (int i = 0; i < PARTS; i++)
        printf("%-10s %08lx%08lx\n", part_names[i], (unsigned long)(sums[i] >> 32),
               (unsigned long)(sums[i] & 0xFFFFFFFFu));
    return 0;
}
