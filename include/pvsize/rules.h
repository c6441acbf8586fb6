/* pvsize/rules.h - rule sets. Part of libpvsize; include <pvsize/pvsize.h>.
 * SPDX-License-Identifier: MIT */
#ifndef PVSIZE_RULES_H
#define PVSIZE_RULES_H

#include "base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A rule set is data: figures (the numbers a standard, a scheme or a practice
 * sets) and rules (which term must stay on which side of which limit, how
 * severely, and where that is written). It starts from a preset or empty, and
 * each figure and rule can be changed; own rules can be added. */
typedef struct pvsize_rules pvsize_rules;

/* Presets: how many, name and title of the i-th (null outside). Static. */
PVSIZE_API int32_t pvsize_preset_count(void);
PVSIZE_API const char *pvsize_preset_name(int32_t i);
PVSIZE_API const char *pvsize_preset_title(int32_t i);

/* Makes a rule set from a preset, or with preset null one in which every rule
 * is off and no figure is set. PVSIZE_E_UNKNOWN_NAME lists the presets there are. */
PVSIZE_API pvsize_status pvsize_rules_new(const char *preset, const pvsize_allocator *memory,
                                          pvsize_rules **out, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_rules_clone(const pvsize_rules *rules,
                                            const pvsize_allocator *memory, pvsize_rules **out,
                                            pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_rules_free(pvsize_rules *rules);

/* Title shown at the head of a report. */
PVSIZE_API pvsize_status pvsize_rules_set_title(pvsize_rules *rules, const char *title,
                                                pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_rules_get_title(const pvsize_rules *rules, char *buffer,
                                                size_t capacity, size_t *length, pvsize_diag *diag);

/* Sets a figure (PVSIZE_FIGURE_...) to a value within its range. `source` says where the
 * number comes from; null: "given by the caller". */
PVSIZE_API pvsize_status pvsize_rules_set_figure(pvsize_rules *rules, int32_t figure, double value,
                                                 const char *source, pvsize_diag *diag);
/* Takes a figure away; rules that need it are then not assessed. */
PVSIZE_API pvsize_status pvsize_rules_unset_figure(pvsize_rules *rules, int32_t figure,
                                                   pvsize_diag *diag);
/* The value of a figure. PVSIZE_E_NOT_SET if the rule set has no such figure. */
PVSIZE_API pvsize_status pvsize_rules_get_figure(const pvsize_rules *rules, int32_t figure,
                                                 double *value, pvsize_diag *diag);

/* Severity of a rule (PVSIZE_SEVERITY_...); OFF takes it out of reports. */
PVSIZE_API pvsize_status pvsize_rules_set_severity(pvsize_rules *rules, int32_t rule,
                                                   int32_t severity, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_rules_get_severity(const pvsize_rules *rules, int32_t rule,
                                                   int32_t *severity, pvsize_diag *diag);

/* Adds a rule of the caller's own: a retailer's, a network's.
 *
 *   name        word of a to z, 0 to 9 and _, not yet in use
 *   title       one line for reports
 *   value_term  what is compared: a parameter, a quantity or a figure
 *   compare     PVSIZE_COMPARE_AT_MOST, _AT_LEAST or _MORE_THAN
 *   limit_term  0: `limit` is the limit, in the unit of value_term; else the
 *               limit is this term, of the same unit, times `limit`, a factor
 *               of 1e-6 to 1e6
 *   severity    PVSIZE_SEVERITY_...
 *   source      where the limit is written; null: "own rule"
 *   rule        receives the number of the new rule; may be null
 *
 * The rule is applied to every object that value_term speaks of (a figure: once,
 * to the system). limit_term must be a figure, or speak of the same object or of
 * one that it hangs on, or what that hangs on in turn:
 *
 *   array            hangs on its module, plane and input
 *   cable            on its array or inverter
 *   isolator         on its array or input
 *   reading          on its array
 *   input            on its inverter
 *   inverter, plane  on site and system
 *   system           on its site
 *
 * To an object that hangs on none of the limit's kind, as a cable of an a.c. circuit on no
 * array, the rule does not apply; but a parameter of the plane, asked of an array on none,
 * is missing.
 *
 * Own rules are numbered in the order they are added; a clone keeps the numbers. */
PVSIZE_API pvsize_status pvsize_rules_add(pvsize_rules *rules, const char *name, const char *title,
                                          int32_t value_term, int32_t compare, int32_t limit_term,
                                          double limit, int32_t severity, const char *source,
                                          int32_t *rule, pvsize_diag *diag);

/* Rules of this set, own ones last: how many (0 for a bad handle), number of
 * the i-th (0 outside), by name (0 unknown). */
PVSIZE_API int32_t pvsize_rules_count(const pvsize_rules *rules);
PVSIZE_API int32_t pvsize_rules_at(const pvsize_rules *rules, int32_t i);
PVSIZE_API int32_t pvsize_rules_by_name(const pvsize_rules *rules, const char *name);
/* Name and title of a rule, own ones included. */
PVSIZE_API pvsize_status pvsize_rules_rule_name(const pvsize_rules *rules, int32_t rule,
                                                char *buffer, size_t capacity, size_t *length,
                                                pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_rules_rule_title(const pvsize_rules *rules, int32_t rule,
                                                 char *buffer, size_t capacity, size_t *length,
                                                 pvsize_diag *diag);
/* What a rule of this set compares: `value_term`, PVSIZE_COMPARE_..., `limit_term` (0:
 * the limit is `limit`) and limit or factor. Each output may be null. */
PVSIZE_API pvsize_status pvsize_rules_definition(const pvsize_rules *rules, int32_t rule,
                                                 int32_t *value_term, int32_t *compare,
                                                 int32_t *limit_term, double *limit,
                                                 pvsize_diag *diag);
/* Source of a term, a rule or figure, in this set, and how well it is known
 * (PVSIZE_KNOWN_...). */
PVSIZE_API pvsize_status pvsize_rules_source(const pvsize_rules *rules, int32_t term, char *buffer,
                                             size_t capacity, size_t *length, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_rules_known(const pvsize_rules *rules, int32_t term, int32_t *known,
                                            pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
