/* Changes one row of the rule tables as the library is loaded; only in a build for that, see
 * tests/mutants.py. PVSIZE_MUTANT says which:
 *
 *   set PRESET TERM OLD NEW     row of a figure or a rule, "*" for every preset that has it
 *   rule TERM FIELD NEW         value, compare, limit or manner of a rule
 */
#define _DEFAULT_SOURCE
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "../../lib/rules/rules.h"

/* The tables are constants; the pages that hold them can be opened all the same. */
static void *opened(const void *row, size_t size)
{
    uintptr_t page = (uintptr_t)sysconf(_SC_PAGESIZE), start = (uintptr_t)row / page * page;

    if (mprotect((void *)start, (uintptr_t)row + size - start, PROT_READ | PROT_WRITE))
        abort();
    return (void *)(uintptr_t)row;
}

/* The last row of a term is the one that holds. */
static int set(const char *name, int term, double old, double new_value)
{
    int changed = 0;

    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        const pvsz_preset *preset = pvsz_preset_named(pvsize_preset_name(i));
        const pvsz_preset_row *found = NULL;

        if (strcmp(name, "*") != 0 && strcmp(name, preset->name) != 0)
            continue;
        for (int32_t k = 0; k < preset->rows; k++)
            if (preset->row[k].term == term)
                found = &preset->row[k];
        if (!found || found->value != old)
            continue;
        ((pvsz_preset_row *)opened(found, sizeof *found))->value = new_value;
        changed++;
    }
    return changed;
}

static int rule(int term, const char *field, int value)
{
    const pvsz_term *found = pvsz_term_find(term);
    pvsz_term *row = opened(found, sizeof *found);

    if (strcmp(field, "value") == 0)
        row->value = value;
    else if (strcmp(field, "compare") == 0)
        row->compare = value;
    else if (strcmp(field, "limit") == 0)
        row->limit = value;
    else if (strcmp(field, "manner") == 0)
        row->manner = value;
    else
        return 0;
    return 1;
}

__attribute__((constructor)) static void mutate(void)
{
    const char *mutant = getenv("PVSIZE_MUTANT");
    char word[64];
    int term, value, changed = 0;
    double old, new_value;

    if (!mutant)
        return;
    if (sscanf(mutant, "set %63s %d %lf %lf", word, &term, &old, &new_value) == 4)
        changed = set(word, term, old, new_value);
    else if (sscanf(mutant, "rule %d %63s %d", &term, word, &value) == 3)
        changed = rule(term, word, value);
    if (!changed) {
        fprintf(stderr, "no such row: %s\n", mutant);
        _exit(99);
    }
}
