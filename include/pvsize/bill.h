/* pvsize/bill.h - what must be bought for a system, as data. Part of libpvsize;
 * include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_BILL_H
#define PVSIZE_BILL_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* CAUTION. A bill lists what a checked design calls for; it does not say that the
 * design is safe or whole. A licensed person must check design and bill against the
 * local code in force and the makers' instructions before anything is bought.
 *
 * A bill is a list of rows, one for each thing to buy (PVSIZE_ITEM_...), in the order
 * of the items. What is the same thing to buy stands in one row: same item, same
 * attributes, and for modules, inverters and connectors the same type, whatever its
 * label. A row's shares trace it to what it is for.
 *
 * How it counts is common practice, a line for each rule of counting in the set
 * PVSIZE_SET_COUNTING. The allowances are figures of the rule set, 20301 to 20306:
 * spare connectors and fuses, waste of cable, connectors at isolators and combiners,
 * fused conductors of a string or an array, the neutral of the a.c. breaker.
 *
 * An isolator or disconnection point that is listed is bought as it is given. What its
 * data leave open is told as it must be: voltage and current at least, and what rules of
 * the rule set that hold as MUST or SHOULD ask of switches.
 *
 * Nothing is left out in silence. What cannot be told is a row that names the term it
 * needs; a quantity of 0 says that nothing of the kind is to be bought, and its shares
 * why. What a rule of the rule set calls for (isolator, fuses of whole arrays, export
 * control) is in the bill where the rule holds as MUST or SHOULD.
 *
 * In every call `i` is the place of a row, from 0, and subjects are those of any report
 * on the same system (report.h). PVSIZE_E_BAD_INDEX outside. A bill copies all it cites
 * and outlives the system and the rules. */
typedef struct pvsize_bill pvsize_bill;

/* Makes an empty bill; the caller gives it back to pvsize_bill_free. PVSIZE_E_NO_MEMORY,
 * or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_bill_new(const pvsize_allocator *memory, pvsize_bill **out,
                                         pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_bill_free(pvsize_bill *bill);

/* Checks a system by a rule set, as pvsize_check does and with its errors, and replaces
 * what the bill held by what the system needs. PVSIZE_E_WRONG_KIND for what is no
 * system, PVSIZE_E_NO_MEMORY; the bill then keeps what it held. */
PVSIZE_API pvsize_status pvsize_bill_fill(const pvsize_spec *system, const pvsize_rules *rules,
                                          pvsize_bill *bill, pvsize_diag *diag);

/* The outcome of the check behind the bill, PVSIZE_OUTCOME_...; PVSIZE_E_NOT_SET before it
 * was filled. */
PVSIZE_API pvsize_status pvsize_bill_outcome(const pvsize_bill *bill, int32_t *outcome,
                                             pvsize_diag *diag);
/* How many rows. */
PVSIZE_API pvsize_status pvsize_bill_count(const pvsize_bill *bill, int32_t *count,
                                           pvsize_diag *diag);

/* Row i. Every output may be null.
 * item     PVSIZE_ITEM_...
 * measure  PVSIZE_MEASURE_... of its quantities: pieces, pairs, or metres of single
 *          conductor; by the attribute CONDUCTORS, metres of a cable with so many cores
 * type     subject that stands for the type: of modules and strings the module type, of
 *          inverters the first of them, of connectors what they mate with; else -1
 * missing  first term that is needed to tell quantity and attributes; 0 if all is told */
PVSIZE_API pvsize_status pvsize_bill_row(const pvsize_bill *bill, int32_t i, int32_t *item,
                                         int32_t *measure, int32_t *type, int32_t *missing,
                                         pvsize_diag *diag);
/* What is `installed`, and the `quantity` to be bought with the allowance: spares round up
 * to whole pieces, cable is not rounded. `allowance`: the figure of the rule set, 0 for none. Every
 * output may be null. PVSIZE_E_NOT_SET, the diag naming what is needed, where one that is
 * asked for cannot be told. */
PVSIZE_API pvsize_status pvsize_bill_quantity(const pvsize_bill *bill, int32_t i, double *installed,
                                              double *quantity, int32_t *allowance,
                                              pvsize_diag *diag);

/* What tells the thing apart: pairs of a term (PVSIZE_ATTRIBUTE_..., described by the
 * calls of terms.h) and its value. `missing` names what the value needs; then the value
 * is 0, else `missing` is. Every output may be null. */
PVSIZE_API pvsize_status pvsize_bill_attribute_count(const pvsize_bill *bill, int32_t i,
                                                     int32_t *count, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_bill_attribute(const pvsize_bill *bill, int32_t i, int32_t k,
                                               int32_t *term, double *value, int32_t *missing,
                                               pvsize_diag *diag);

/* What row i is for: a subject (array, input, inverter, isolator, cable, site), how much of the
 * installed quantity is for it (0 where that cannot be told), and why: the parameter,
 * quantity, rule or kind behind it. One subject may have several shares. Every output may
 * be null. */
PVSIZE_API pvsize_status pvsize_bill_share_count(const pvsize_bill *bill, int32_t i, int32_t *count,
                                                 pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_bill_share(const pvsize_bill *bill, int32_t i, int32_t k,
                                           int32_t *subject, double *installed, int32_t *why,
                                           pvsize_diag *diag);
/* A subject in words, such as "input 2 of inverter 1 (B)". */
PVSIZE_API pvsize_status pvsize_bill_subject_text(const pvsize_bill *bill, int32_t subject,
                                                  char *buffer, size_t capacity, size_t *length,
                                                  pvsize_diag *diag);

/* What the bill took for granted: the allowances that it used, and defaults that it
 * counted by. How many; term, value and subject (-1: none) of the i-th; the line that says
 * so, with the allowance's source and how that is known. What the check took for granted
 * stands in its report. */
PVSIZE_API pvsize_status pvsize_bill_assumption_count(const pvsize_bill *bill, int32_t *count,
                                                      pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_bill_assumption(const pvsize_bill *bill, int32_t i, int32_t *term,
                                                double *value, int32_t *subject, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_bill_assumption_text(const pvsize_bill *bill, int32_t i,
                                                     char *buffer, size_t capacity, size_t *length,
                                                     pvsize_diag *diag);

/* Row i in one line: quantity, thing, attributes, what it is for and why. */
PVSIZE_API pvsize_status pvsize_bill_text(const pvsize_bill *bill, int32_t i, char *buffer,
                                          size_t capacity, size_t *length, pvsize_diag *diag);
/* The whole bill as plain text or Markdown (PVSIZE_FORMAT_...), with the caution, what is
 * not known, what was taken for granted and how it counts. PVSIZE_E_NOT_SET before it was
 * filled. */
PVSIZE_API pvsize_status pvsize_bill_render(const pvsize_bill *bill, int32_t format, char *buffer,
                                            size_t capacity, size_t *length, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
