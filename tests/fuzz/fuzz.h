/* What the fuzzers share. A harness is one function that takes bytes: libFuzzer calls it,
 * and so does main.c with files, for AFL++ and for looking at a finding. */
#ifndef FUZZ_H
#define FUZZ_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw.h"
#include "invent.h"
#include "pvsize/pvsize.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count);

/* What must hold whatever the bytes; else the program dies where the fuzzer sees it. */
#define HOLDS(claim) ((claim) ? (void)0 : broken(#claim, __FILE__, __LINE__))

static inline void broken(const char *claim, const char *file, int line)
{
    fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, claim);
    abort();
}

/* The diag tells of a failure what the call returned, in a line that is never empty, and
 * nothing of a success. */
static inline bool went(pvsize_diag *diag, pvsize_status status)
{
    char text[700];
    size_t length = 0;

    HOLDS(status == PVSIZE_OK || pvsize_diag_status(diag) == status);
    HOLDS(status != PVSIZE_OK || pvsize_diag_status(diag) == PVSIZE_OK);
    HOLDS(status != PVSIZE_E_INTERNAL);
    HOLDS(pvsize_status_name(status) != NULL);
    if (status == PVSIZE_OK)
        return true;
    HOLDS(pvsize_diag_text(diag, text, sizeof text, &length) == PVSIZE_OK);
    HOLDS(length > 0 && strlen(text) == length);
    pvsize_diag_clear(diag);
    return false;
}

/* Memory that fails at some allocation, or never. */
typedef struct failing {
    long left; /* -1: never */
    long live;
} failing;

static inline void *failing_take(void *user, size_t size)
{
    failing *f = user;

    if (f->left == 0)
        return NULL;
    f->left -= f->left > 0;
    f->live++;
    return malloc(size);
}

static inline void failing_give(void *user, void *block)
{
    failing *f = user;

    f->live--;
    free(block);
}

#endif
