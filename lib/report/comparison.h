/* What two rule sets, or two reports, do not have in common. */
#ifndef PVSZ_COMPARISON_H
#define PVSZ_COMPARISON_H

#include "words.h"
#include "pvsize/compare.h"

typedef struct pvsz_difference_side {
    int32_t term;    /* 0: this side has none */
    int32_t finding; /* -1: none */
    int32_t has;     /* PVSIZE_DIFFERS_... of the numbers below that are there */
    int32_t severity, verdict;
    double value, limit;
} pvsz_difference_side;

typedef struct pvsz_difference {
    int32_t what;
    int32_t subject;         /* -1: none */
    pvsz_figure_set figures; /* behind it; of two rule sets the one that differs */
    pvsz_difference_side side[2];
    const char *text;
    size_t text_at; /* while the texts are put together */
} pvsz_difference;

struct pvsize_comparison {
    pvsz_head head;
    pvsz_difference *row;
    size_t rows;
    char *text;
};

/* A list in the making. */
typedef struct pvsz_differences {
    const pvsz_memory *memory;
    pvsz_difference *row;
    size_t rows, capacity;
    int32_t wanted;
    bool failed; /* no memory */
} pvsz_differences;

/* Writes a difference of the pair compared, without a line's end. */
typedef void pvsz_put_difference(pvsz_text *text, const void *pair, const pvsz_difference *row);

/* Checks what both compare calls take, and starts a list. */
pvsize_status pvsz_open_differences(const pvsize_comparison *comparison, int32_t wanted,
                                    pvsz_differences *list, pvsize_diag *diag);
/* Adds a difference if anything that is wanted differs. */
void pvsz_add_difference(pvsz_differences *list, const pvsz_difference *row);
/* Puts the list, with its texts, in the place of what the comparison held; or lets go
 * of it, and the comparison is as it was. */
pvsize_status pvsz_keep_differences(pvsize_comparison *comparison, pvsz_differences *list,
                                    pvsz_put_difference *put, const void *pair, pvsize_diag *diag);

/* Whether two figures differ in what they say; sources do not count. */
bool pvsz_same_figure(const pvsz_figure *a, const pvsz_figure *b);
bool pvsz_same_source(const char *a, int32_t known_a, const char *b, int32_t known_b);
/* What differs between two rules that match, a sum of PVSIZE_DIFFERS_...; null: none. */
int32_t pvsz_rule_difference(const pvsz_rule *a, const pvsz_rule *b);
/* "figure.voltage_limit_dwelling: 600 V (...) against 1000 V (...)" */
void pvsz_put_figures(pvsz_text *text, int32_t place, const pvsz_figure *a, const pvsz_figure *b);
/* "rule.voc_cold_module: must (...) against off"; `none` stands for a null rule. */
void pvsz_put_rules(pvsz_text *text, const pvsz_rule *a, const pvsz_rule *b, int32_t what,
                    const char *none);

#endif
