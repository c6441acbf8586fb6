/* pvsize/report.h - checking and its findings. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_REPORT_H
#define PVSIZE_REPORT_H

#include "rules.h"
#include "spec.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A report holds what one check found. It copies all it cites and outlives
 * the spec and the rules. */
typedef struct pvsize_report pvsize_report;

/* Makes an empty report; the caller gives it back to pvsize_report_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_report_new(const pvsize_allocator *memory, pvsize_report **out,
                                           pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_report_free(pvsize_report *report);

/* Checks a spec by a rule set and replaces what the report held. A system is
 * checked as a whole; a module, an input, an inverter, a site or a plane alone
 * for gaps and contradictions in its data.
 *
 * A design that breaks a rule is not an error: it is a finding. Errors are: a
 * system without site or inverter, an array without module or input, an index
 * that refers to nothing. On failure the report keeps what it held. A report
 * that was large enough once is not allocated again.
 *
 * Most rules report every outcome. Rules on contradictions in the data report a
 * breach only, rules on gaps only the gap. Equal modules, whatever their
 * labels, count as one module type. A value that lies within its limit by less
 * than the rule set's marginal band is called marginal, unless it is a count,
 * an answer, or held at its limit by control. */
PVSIZE_API pvsize_status pvsize_check(const pvsize_spec *spec, const pvsize_rules *rules,
                                      pvsize_report *report, pvsize_diag *diag);

/* The outcome, the whole in one word: PVSIZE_OUTCOME_NOTHING, _HOLDS, _INCOMPLETE or _BROKEN,
 * by the rules whose severity is MUST. Only HOLDS is good news. */
PVSIZE_API pvsize_status pvsize_report_outcome(const pvsize_report *report, int32_t *outcome,
                                               pvsize_diag *diag);

/* How many findings the report holds with this verdict (PVSIZE_VERDICT_..., 0:
 * any) and at least this severity (PVSIZE_SEVERITY_..., 0: any). */
PVSIZE_API pvsize_status pvsize_report_count(const pvsize_report *report, int32_t verdict,
                                             int32_t severity, int32_t *count, pvsize_diag *diag);

/* What findings and quantities speak of is called a subject: the system, its
 * site, each plane, inverter, input, array, isolator, cable and reading, and each module
 * type. Subjects are numbered from 0 in a report, in the order of their findings. How
 * many; what the subject is: its kind, its index among the parts of its owner, and its
 * owner, all null-able: an input's inverter, an array's input, a cable's array or
 * inverter, an isolator's array or input, a reading's array, the first array that has a
 * module type, else the system or site; -1 for none. */
PVSIZE_API pvsize_status pvsize_report_subject_count(const pvsize_report *report, int32_t *count,
                                                     pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_report_subject(const pvsize_report *report, int32_t subject,
                                               int32_t *kind, int32_t *index, int32_t *owner,
                                               pvsize_diag *diag);
/* The subject of a kind with an index; of inputs, among those of the inverter that
 * is the subject `owner`; for other kinds `owner` is ignored. */
PVSIZE_API pvsize_status pvsize_report_find(const pvsize_report *report, int32_t kind,
                                            int32_t index, int32_t owner, int32_t *subject,
                                            pvsize_diag *diag);
/* A subject in words, such as "input 2 of inverter 1 (B)". */
PVSIZE_API pvsize_status pvsize_report_subject_text(const pvsize_report *report, int32_t subject,
                                                    char *buffer, size_t capacity, size_t *length,
                                                    pvsize_diag *diag);

/* Finding i: its rule, severity (PVSIZE_SEVERITY_...), verdict (PVSIZE_VERDICT_...) and
 * subject. Every output may be null. */
PVSIZE_API pvsize_status pvsize_report_finding(const pvsize_report *report, int32_t i,
                                               int32_t *rule, int32_t *severity, int32_t *verdict,
                                               int32_t *subject, pvsize_diag *diag);
/* Value, limit and margin (positive: inside the limit) in the finding's unit;
 * PVSIZE_E_NOT_SET if not assessed. */
PVSIZE_API pvsize_status pvsize_report_numbers(const pvsize_report *report, int32_t i,
                                               double *value, double *limit, double *margin,
                                               pvsize_diag *diag);
/* Whether it governs: 1 if the value of finding i has other limits on the same side, and none of a
 * higher severity, nor a tighter one of its own; else 0. Equal limits govern
 * together. */
PVSIZE_API pvsize_status pvsize_report_governs(const pvsize_report *report, int32_t i,
                                               int32_t *governs, pvsize_diag *diag);
/* Term a finding misses if it was not assessed; 0 otherwise: a parameter, a figure, or a
 * quantity that has no value for a reason of its own, such as a coefficient that cannot be
 * believed. */
PVSIZE_API pvsize_status pvsize_report_missing(const pvsize_report *report, int32_t i,
                                               int32_t *term, pvsize_diag *diag);
/* A text of finding i; `what` is PVSIZE_TEXT_... of ids.h. */
PVSIZE_API pvsize_status pvsize_report_text(const pvsize_report *report, int32_t i, int32_t what,
                                            char *buffer, size_t capacity, size_t *length,
                                            pvsize_diag *diag);

/* The value of a computed quantity (PVSIZE_QUANTITY_...) of a subject, or of what it hangs on: of
 * an array, also those of its module, plane, input, inverter and of the system.
 * PVSIZE_E_NOT_SET: it does not apply, or data are missing; the diag names what. */
PVSIZE_API pvsize_status pvsize_report_quantity(const pvsize_report *report, int32_t quantity,
                                                int32_t subject, double *value, pvsize_diag *diag);
/* How that quantity of a subject came about, step by step, as plain text or Markdown. `detail`
 * PVSIZE_DETAIL_SHORT: each step in one line, formula, substitution and result, and
 * then the rule set's figures with their sources. _LONG: each symbol of a step with its
 * name, its value and where that is from, and how numbers are rounded. A printed step
 * can be computed again: from the numbers in it follows its result, to the digits
 * printed. */
PVSIZE_API pvsize_status pvsize_report_working(const pvsize_report *report, int32_t quantity,
                                               int32_t subject, int32_t format, int32_t detail,
                                               char *buffer, size_t capacity, size_t *length,
                                               pvsize_diag *diag);

/* What the report took for granted: defaults and estimates, and a coefficient of Voc that
 * cannot be believed, so that a table or a fixed factor stands in for it
 * (PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT with the value that is not used). How many; the
 * term and its value of the i-th; the line that says so. */
PVSIZE_API pvsize_status pvsize_report_assumption_count(const pvsize_report *report, int32_t *count,
                                                        pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_report_assumption(const pvsize_report *report, int32_t i,
                                                  int32_t *term, double *value, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_report_assumption_text(const pvsize_report *report, int32_t i,
                                                       char *buffer, size_t capacity,
                                                       size_t *length, pvsize_diag *diag);

/* The whole report as plain text or Markdown (PVSIZE_FORMAT_...). `detail`
 * PVSIZE_DETAIL_FINDINGS: findings only; _SHORT or _LONG: every step of the working as
 * well, in a line each or with each symbol explained, and how numbers are rounded. */
PVSIZE_API pvsize_status pvsize_report_render(const pvsize_report *report, int32_t format,
                                              int32_t detail, char *buffer, size_t capacity,
                                              size_t *length, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
