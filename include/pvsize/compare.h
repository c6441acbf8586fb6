/* pvsize/compare.h - two rule sets, or two reports, side by side. Part of
 * libpvsize; include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_COMPARE_H
#define PVSIZE_COMPARE_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A comparison lists what the first of two things and the second do not have in
 * common: a difference for each figure, each rule, or each finding that is not the
 * same. It copies all it cites and outlives what was compared.
 *
 * In every call `i` is the place of a difference in the list, from 0, and `side` is
 * 0 for the first thing compared, 1 for the second. PVSIZE_E_BAD_INDEX outside. */
typedef struct pvsize_comparison pvsize_comparison;

/* Makes an empty comparison; the caller gives it back to pvsize_comparison_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_comparison_new(const pvsize_allocator *memory,
                                               pvsize_comparison **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_comparison_free(pvsize_comparison *comparison);

/* Compares two rule sets and replaces what the comparison held: figures in the order
 * of their table, rules, own rules of the first set, own rules that only the second
 * has. Own rules are matched by name. `wanted` is what counts, a sum of
 * PVSIZE_DIFFERS_... numbers; 0: all but SOURCE. VERDICT does not occur. An own
 * rule's title does not count.
 * PVSIZE_E_BAD_CHOICE for another `wanted`, PVSIZE_E_NO_MEMORY; the comparison then
 * keeps what it held. */
PVSIZE_API pvsize_status pvsize_compare_rules(const pvsize_rules *first, const pvsize_rules *second,
                                              int32_t wanted, pvsize_comparison *comparison,
                                              pvsize_diag *diag);
/* The same for two reports on one system, `wanted` as above, in the order of the findings:
 * findings are matched by rule and subject, and one that only one report has counts.
 * DEFINITION does not occur. VALUE also holds where both were not assessed, but lack unlike
 * terms. PVSIZE_E_WRONG_KIND if the reports do not speak of the same subjects, in the same
 * places; labels and data may differ, and a difference that no figure or rule explains is
 * then put down to them. */
PVSIZE_API pvsize_status pvsize_compare_reports(const pvsize_report *first,
                                                const pvsize_report *second, int32_t wanted,
                                                pvsize_comparison *comparison, pvsize_diag *diag);

/* How many differences the comparison holds. */
PVSIZE_API pvsize_status pvsize_comparison_count(const pvsize_comparison *comparison,
                                                 int32_t *count, pvsize_diag *diag);
/* What differs, the sum of the PVSIZE_DIFFERS_... numbers that hold among those wanted
 * (PRESENCE stands alone); the subject's number in both reports, -1 between rule
 * sets. Each output may be null. */
PVSIZE_API pvsize_status pvsize_comparison_difference(const pvsize_comparison *comparison,
                                                      int32_t i, int32_t *what, int32_t *subject,
                                                      pvsize_diag *diag);
/* What a side has: as `term` the number of the figure or rule in that rule set or report (of an
 * own rule it may differ), 0 where it has none; the finding's index in that report, -1
 * for none and between rule sets. Each output may be null. */
PVSIZE_API pvsize_status pvsize_comparison_side(const pvsize_comparison *comparison, int32_t i,
                                                int32_t side, int32_t *term, int32_t *finding,
                                                pvsize_diag *diag);
/* A number of a side: with `what` PVSIZE_DIFFERS_VALUE the value of the figure or
 * finding, _LIMIT the limit of the finding or the limit or factor of the own rule, each
 * in its unit; _SEVERITY and _VERDICT those numbers. Whether or not it differs.
 * PVSIZE_E_NOT_SET where that side has no such number, PVSIZE_E_BAD_CHOICE if
 * `what` is no PVSIZE_DIFFERS_... number. */
PVSIZE_API pvsize_status pvsize_comparison_number(const pvsize_comparison *comparison, int32_t i,
                                                  int32_t side, int32_t what, double *value,
                                                  pvsize_diag *diag);
/* The k-th figure that is not the same in the two rule sets and that stands behind the
 * finding's value, limit or verdict, as far as that differs; between rule sets the
 * figure itself. PVSIZE_E_BAD_INDEX behind the last. */
PVSIZE_API pvsize_status pvsize_comparison_figure(const pvsize_comparison *comparison, int32_t i,
                                                  int32_t k, int32_t *figure, pvsize_diag *diag);
/* Difference i in one line: both sides and, between reports, why. PVSIZE_E_CAPACITY if
 * the buffer is too small. */
PVSIZE_API pvsize_status pvsize_comparison_text(const pvsize_comparison *comparison, int32_t i,
                                                char *buffer, size_t capacity, size_t *length,
                                                pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
