/* pvsize/envelope.h - what may go on an inverter. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_ENVELOPE_H
#define PVSIZE_ENVELOPE_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A review looks at an inverter before there is a design: the envelope of modules that
 * its inputs accept, which of a list of modules may go on them, and what a trainer would
 * remark on it. Every limit is found by checking trial systems with the rule set, so that
 * a review and a check cannot differ; own rules count. It copies all it cites and outlives
 * what it was made from. */
typedef struct pvsize_review pvsize_review;

/* Makes an empty review; the caller gives it back to pvsize_review_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_review_new(const pvsize_allocator *memory, pvsize_review **out,
                                           pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_review_free(pvsize_review *review);

/* Reviews an inverter and replaces what the review held.
 *
 *   site     the place: extremes of temperature, class of building, planes; null: nothing
 *            is known of it, and voltages are stated at those extremes only
 *   enquiry  what is known of the modules (PVSIZE_KIND_ENQUIRY): coefficients or their
 *            range, the plane; and modules to be looked at one by one; may be null
 *
 * PVSIZE_E_WRONG_KIND for other kinds, PVSIZE_E_BROKEN_REFERENCE where the enquiry names
 * a plane that the site has not, PVSIZE_E_NO_MEMORY. The review then keeps what it held. */
PVSIZE_API pvsize_status pvsize_review_inverter(const pvsize_spec *inverter,
                                                const pvsize_spec *site, const pvsize_spec *enquiry,
                                                const pvsize_rules *rules, pvsize_review *review,
                                                pvsize_diag *diag);

/* The envelope: a bound for each rule that limits Isc or Imp of a module (for each number
 * of strings in parallel), Voc or Vmp of a string, or power of the array. How many. In the
 * calls below `i` is the place of a row, from 0: PVSIZE_E_BAD_INDEX outside; each output
 * may be null. */
PVSIZE_API pvsize_status pvsize_review_bound_count(const pvsize_review *review, int32_t *count,
                                                   pvsize_diag *diag);
/* What is bounded (PVSIZE_BOUND_...), on which input (-1: on all together), with how many
 * strings (0: whatever their number). */
PVSIZE_API pvsize_status pvsize_review_bound(const pvsize_review *review, int32_t i, int32_t *what,
                                             int32_t *input, int32_t *strings, pvsize_diag *diag);
/* Which rule bounds it, its severity, on which side (`compare`, PVSIZE_COMPARE_...);
 * `governs` 1 where no rule of higher severity, and none tighter of its own, bounds the
 * same on that side. The rule's number is of the rule set given. */
PVSIZE_API pvsize_status pvsize_review_bound_rule(const pvsize_review *review, int32_t i,
                                                  int32_t *rule, int32_t *severity,
                                                  int32_t *compare, int32_t *governs,
                                                  pvsize_diag *diag);
/* The bound as a data sheet states it, at STC, for modules of any coefficient in the
 * enquiry's range (V, A or W); and the limit as the rule has it: a current with its
 * factors, a voltage at the site's extreme. PVSIZE_E_NOT_SET where the first needs what was
 * not given, which the diag names; `limit` is filled nevertheless, `value` 0. */
PVSIZE_API pvsize_status pvsize_review_bound_numbers(const pvsize_review *review, int32_t i,
                                                     double *value, double *limit,
                                                     pvsize_diag *diag);
/* The bound in one line. */
PVSIZE_API pvsize_status pvsize_review_bound_text(const pvsize_review *review, int32_t i,
                                                  char *buffer, size_t capacity, size_t *length,
                                                  pvsize_diag *diag);

/* The enquiry's modules, each on each input. How many rows; which module (its place in the
 * enquiry), which input, and whether it is accepted, PVSIZE_ACCEPTED_YES, _INCOMPLETE or
 * _NO, by the rules whose severity is MUST, with string devices and an isolator beside the
 * inverter fitted where they are needed. `missing` is the term that the first limit not
 * assessed needs; 0: none. */
PVSIZE_API pvsize_status pvsize_review_module_count(const pvsize_review *review, int32_t *count,
                                                    pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_review_module(const pvsize_review *review, int32_t i,
                                              int32_t *module, int32_t *input, int32_t *accepted,
                                              int32_t *missing, pvsize_diag *diag);
/* A count of the row, `what` being PVSIZE_ROOM_...: modules in a string with one string;
 * strings of the fewest modules (0: not even one; up to 100). PVSIZE_E_NOT_SET where there
 * is none. */
PVSIZE_API pvsize_status pvsize_review_module_room(const pvsize_review *review, int32_t i,
                                                   int32_t what, int32_t *count, pvsize_diag *diag);
/* What stops one more (of PVSIZE_ROOM_MODULES_MIN: one fewer); with `what` 0, what refuses
 * the module. The rule, and its value, limit and margin there. PVSIZE_E_NOT_SET: nothing
 * found stops it. */
PVSIZE_API pvsize_status pvsize_review_module_stop(const pvsize_review *review, int32_t i,
                                                   int32_t what, int32_t *rule, double *value,
                                                   double *limit, double *margin,
                                                   pvsize_diag *diag);
/* The row in one line. */
PVSIZE_API pvsize_status pvsize_review_module_text(const pvsize_review *review, int32_t i,
                                                   char *buffer, size_t capacity, size_t *length,
                                                   pvsize_diag *diag);

/* Remarks on the inverter. How many; which (PVSIZE_REMARK_..., severity), on which input
 * (-1: on the inverter), and of a contradiction its rule, of a gap the term that is
 * missing (0 otherwise); the value of the k-th number in its sentence (PVSIZE_E_BAD_INDEX
 * behind the last). */
PVSIZE_API pvsize_status pvsize_review_remark_count(const pvsize_review *review, int32_t *count,
                                                    pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_review_remark(const pvsize_review *review, int32_t i,
                                              int32_t *remark, int32_t *severity, int32_t *input,
                                              int32_t *term, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_review_remark_number(const pvsize_review *review, int32_t i,
                                                     int32_t k, double *value, pvsize_diag *diag);
/* The remark in one line, and why it matters. */
PVSIZE_API pvsize_status pvsize_review_remark_text(const pvsize_review *review, int32_t i,
                                                   char *buffer, size_t capacity, size_t *length,
                                                   pvsize_diag *diag);

/* When a remark is made, and its sentence with places for the numbers; null for an unknown
 * number. Static. */
PVSIZE_API const char *pvsize_remark_condition(int32_t remark);
PVSIZE_API const char *pvsize_remark_sentence(int32_t remark);

/* The reviewer's page as plain text or Markdown (PVSIZE_FORMAT_...), with the caution. */
PVSIZE_API pvsize_status pvsize_review_render(const pvsize_review *review, int32_t format,
                                              char *buffer, size_t capacity, size_t *length,
                                              pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
