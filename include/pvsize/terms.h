/* pvsize/terms.h - the library describes its own tables. Part of libpvsize;
 * include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_TERMS_H
#define PVSIZE_TERMS_H

#include "base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Everything that has a number and a name is a row of a table: the parameters
 * of each kind of object, and the figures, quantities and rules. A row is
 * called a term. Forms, readers and bindings are written once over these calls
 * and never need to know a parameter by name. All return static data, take any
 * number, and cannot fail: unknown numbers give 0, -1 or null as stated.
 *
 * Shared arguments:
 *
 *   kind    PVSIZE_KIND_...
 *   part    PVSIZE_KIND_... of a part
 *   term    number of a parameter, figure, quantity, rule or attribute
 *   name    text to look up
 *   set     PVSIZE_SET_...
 *   choice  number in that set */

/* Kinds (PVSIZE_KIND_...): how many, the i-th (0 outside), by name (0 unknown). */
PVSIZE_API int32_t pvsize_kind_count(void);
PVSIZE_API int32_t pvsize_kind_at(int32_t i);
PVSIZE_API int32_t pvsize_kind_by_name(const char *name);
/* Name, plural and description of a kind; null if unknown. */
PVSIZE_API const char *pvsize_kind_name(int32_t kind);
PVSIZE_API const char *pvsize_kind_plural(int32_t kind);
PVSIZE_API const char *pvsize_kind_text(int32_t kind);
/* 1 if objects of this kind can be made with pvsize_spec_new, else 0. */
PVSIZE_API int32_t pvsize_kind_is_spec(int32_t kind);
/* Kinds of part an object of this kind holds: how many, the i-th (0 outside),
 * and the fewest and most of each (-1 if it holds none). */
PVSIZE_API int32_t pvsize_kind_part_count(int32_t kind);
PVSIZE_API int32_t pvsize_kind_part_at(int32_t kind, int32_t i);
PVSIZE_API int32_t pvsize_kind_part_fewest(int32_t kind, int32_t part);
PVSIZE_API int32_t pvsize_kind_part_most(int32_t kind, int32_t part);

/* Terms of a kind: how many, the i-th (0 outside), by name (0 unknown). */
PVSIZE_API int32_t pvsize_term_count(int32_t kind);
PVSIZE_API int32_t pvsize_term_at(int32_t kind, int32_t i);
PVSIZE_API int32_t pvsize_term_by_name(int32_t kind, const char *name);
/* The number of a term by its `name`, told where there is none: `term` receives it.
 * PVSIZE_E_UNKNOWN_NAME says in which table what was looked for, and the name, of a term or
 * a part, that may have been meant; PVSIZE_E_UNKNOWN_NUMBER if there is no such kind. */
PVSIZE_API pvsize_status pvsize_term_find(int32_t kind, const char *name, int32_t *term,
                                          pvsize_diag *diag);
/* Kind whose table holds the term; 0 if unknown. */
PVSIZE_API int32_t pvsize_term_kind(int32_t term);
/* Name, unit ("" for none) and one-line description; null if unknown. */
PVSIZE_API const char *pvsize_term_name(int32_t term);
PVSIZE_API const char *pvsize_term_unit(int32_t term);
PVSIZE_API const char *pvsize_term_text(int32_t term);
/* PVSIZE_TYPE_...; 0 if unknown. */
PVSIZE_API int32_t pvsize_term_type(int32_t term);
/* PVSIZE_NEED_...: whether a parameter must be given for its purpose; 0 if
 * the term is not a parameter. */
PVSIZE_API int32_t pvsize_term_need(int32_t term);
/* Allowed range, `low` to `high`, ends included, of a parameter or figure; PVSIZE_E_NOT_SET for
 * quantities and rules; PVSIZE_E_UNKNOWN_NUMBER. Of a text: its bytes. Of a
 * choice: the lowest and highest number of its set, which may have gaps. Outputs
 * may be null. */
PVSIZE_API pvsize_status pvsize_term_range(int32_t term, double *low, double *high);
/* Default `value` of a parameter; PVSIZE_E_NOT_SET if it has none. */
PVSIZE_API pvsize_status pvsize_term_default(int32_t term, double *value);
/* Kind that an index parameter counts in; 0 for other terms. */
PVSIZE_API int32_t pvsize_term_refers_to(int32_t term);
/* Kind of object that a quantity or rule speaks of; a parameter's own kind; 0
 * for figures and unknown terms. */
PVSIZE_API int32_t pvsize_term_scope(int32_t term);
/* What a rule compares: its value term, PVSIZE_COMPARE_..., its limit term;
 * 0 for other terms. */
PVSIZE_API int32_t pvsize_term_rule_value(int32_t term);
PVSIZE_API int32_t pvsize_term_rule_compare(int32_t term);
PVSIZE_API int32_t pvsize_term_rule_limit(int32_t term);

/* Choices of a term of type CHOICE: how many, number of the i-th (-1 outside),
 * number by name (-1 unknown), name and description of a number (null unknown). */
PVSIZE_API int32_t pvsize_choice_count(int32_t term);
PVSIZE_API int32_t pvsize_choice_at(int32_t term, int32_t i);
PVSIZE_API int32_t pvsize_choice_by_name(int32_t term, const char *name);
PVSIZE_API const char *pvsize_choice_name(int32_t term, int32_t choice);
PVSIZE_API const char *pvsize_choice_text(int32_t term, int32_t choice);

/* The same for the library's own sets: PVSIZE_SET_SEVERITY, _VERDICT, _KNOWN,
 * _COMPARE, _FORMAT and those of the parameters. First the number of a set by its name,
 * such as "verdict" (0 unknown), for bindings that do not read ids.h. */
PVSIZE_API int32_t pvsize_set_number(const char *name);
PVSIZE_API int32_t pvsize_set_count(int32_t set);
PVSIZE_API int32_t pvsize_set_at(int32_t set, int32_t i);
PVSIZE_API int32_t pvsize_set_by_name(int32_t set, const char *name);
PVSIZE_API const char *pvsize_set_name(int32_t set, int32_t choice);
PVSIZE_API const char *pvsize_set_text(int32_t set, int32_t choice);

#ifdef __cplusplus
}
#endif
#endif
