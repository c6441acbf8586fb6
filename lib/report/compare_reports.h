/* Two reports on one system, their findings matched. */
#ifndef PVSZ_COMPARE_REPORTS_H
#define PVSZ_COMPARE_REPORTS_H

#include "comparison.h"

/* Both reports, and for matching: of each rule of the first its place in the second;
 * of each rule of the second its finding on the subject in turn. */
typedef struct pvsz_matching {
    const pvsize_report *report[2];
    int32_t *twin;
    int32_t *finding_of;
} pvsz_matching;

/* One finding and its match. */
typedef struct pvsz_match {
    const pvsz_finding *of[2]; /* null: none on that side */
    const pvsz_rule *rule[2];  /* null: not in force there */
    const pvsz_subject *subject[2];
} pvsz_match;

static inline bool pvsz_is_assessed(const pvsz_finding *finding)
{
    return finding && finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED;
}

/* compare_reports.c */
pvsz_match pvsz_match_of(const pvsz_matching *in, const pvsz_finding *a, const pvsz_finding *b);
/* Figures that are not the same in both reports. */
pvsz_figure_set pvsz_unlike_figures(const pvsz_matching *in);

/* compare_reports_text.c */
/* `pair` is the matching. */
void pvsz_put_report_difference(pvsz_text *text, const void *pair, const pvsz_difference *row);

#endif
