/* pvsize/layout.h - the best stringings, found exactly. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_LAYOUT_H
#define PVSIZE_LAYOUT_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The question is a spec of kind search (PVSIZE_SEARCH_...). It holds the system to be
 * completed, with site, inverters and the arrays that must be there, and the modules
 * that may be used. The planes of the site must have a capacity, or the statement
 * that there is none.
 *
 * Every input without a fixed array gets either nothing or equal strings of one module
 * on one plane or, where the rule set lets planes share an input (figure
 * planes_per_input above 1, or rule unlike_planes off), on two. A stringing is an
 * answer if the full check of the whole system breaks no rule whose severity is MUST,
 * own rules included. A MUST rule that was not assessed does not refuse it: the
 * answer's outcome is then "incomplete". Planes are never filled beyond their
 * capacity, whatever the rules say of it. At least one array must stand.
 *
 * Answers are ranked by the objective; then, if planes have a fill order, by the
 * modules on the first plane, on the second, and so on; then by the fewest strings;
 * then by the fewest string devices. (With objective plane_order the planes come
 * first, then power; planes without an order are taken as they are listed.) Power is
 * ranked in whole milliwatts of a module, energy in whole watt hours of a module.
 * What is equal in all this comes in the order of the options of its inputs: those
 * worth more first, then by module, plane, second plane, longer string, more strings.
 * Stringings that differ only in which of several like inputs or like inverters has
 * what count once. The same question gives the same answers in the same order.
 *
 * The search is exact. It leaves out unseen only what cannot be an answer or cannot be
 * better, which it concludes from rules whose two sides it knows (lib/tables/growth.def);
 * all other rules are judged by checks. */

/* The answers to one question. They copy all they cite and outlive the question. */
typedef struct pvsize_layouts pvsize_layouts;

/* Makes an object without answers; the caller gives it back to pvsize_layouts_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_layouts_new(const pvsize_allocator *memory, pvsize_layouts **out,
                                            pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_layouts_free(pvsize_layouts *layouts);

/* Searches, and replaces what `layouts` held; on failure it keeps that. `cancel` may be
 * null: else the search only reads it, at every step, and stops once it is not 0.
 * Another thread may write `cancel` meanwhile, by an atomic store; the library reads it
 * atomically.
 * PVSIZE_E_MISSING_PART without system, module, site, inverter or plane;
 * PVSIZE_E_NOT_SET for a plane without capacity, with objective energy one without
 * specific yield, with objective nearest_power no wanted power, a module without pmax;
 * PVSIZE_E_TOO_MANY where planes cannot be put in order in 64 bits; what pvsize_check
 * returns on a system that is not whole. That nothing fits is no failure. */
PVSIZE_API pvsize_status pvsize_search(const pvsize_spec *search, const pvsize_rules *rules,
                                       const int32_t *cancel, pvsize_layouts *layouts,
                                       pvsize_diag *diag);

/* The ending of the search: PVSIZE_ENDING_PROVEN, _BUDGET or _CANCELLED. */
PVSIZE_API pvsize_status pvsize_layouts_ending(const pvsize_layouts *layouts, int32_t *ending,
                                               pvsize_diag *diag);
/* Whether the list is complete: 1 if it is known that there are no answers but those
 * listed; else 0. */
PVSIZE_API pvsize_status pvsize_layouts_complete(const pvsize_layouts *layouts, int32_t *complete,
                                                 pvsize_diag *diag);
/* The bound that no stringing passes: power in W or energy in kWh; with objective nearest_power
 * the least distance from it, in W. Of a proven search that is the best answer's own.
 * PVSIZE_E_NOT_SET where nothing fits, where the search stopped before anything was
 * proven, and with objective plane_order. */
PVSIZE_API pvsize_status pvsize_layouts_bound(const pvsize_layouts *layouts, double *bound,
                                              pvsize_diag *diag);
/* Nodes: steps taken, of the node budget. */
PVSIZE_API pvsize_status pvsize_layouts_nodes(const pvsize_layouts *layouts, double *nodes,
                                              pvsize_diag *diag);

/* Answers, the best first: how many. */
PVSIZE_API pvsize_status pvsize_layouts_count(const pvsize_layouts *layouts, int32_t *count,
                                              pvsize_diag *diag);
/* The value of a number of answer i: `what` is PVSIZE_LAYOUT_... PVSIZE_E_NOT_SET for the energy
 * where a plane in use has no specific yield. */
PVSIZE_API pvsize_status pvsize_layouts_number(const pvsize_layouts *layouts, int32_t i,
                                               int32_t what, double *value, pvsize_diag *diag);
/* Arrays that answer i adds to the fixed ones: how many, and the k-th. Each output may be
 * null.
 *
 *   inverter, input, plane        where it stands, from 0
 *   module                        its place among the candidates
 *   modules_per_string, strings   how many */
PVSIZE_API pvsize_status pvsize_layouts_array_count(const pvsize_layouts *layouts, int32_t i,
                                                    int32_t *count, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_layouts_array(const pvsize_layouts *layouts, int32_t i, int32_t k,
                                              int32_t *inverter, int32_t *input, int32_t *plane,
                                              int32_t *module, int32_t *modules_per_string,
                                              int32_t *strings, pvsize_diag *diag);
/* Answer i as a whole system, which the caller frees. */
PVSIZE_API pvsize_status pvsize_layouts_system(const pvsize_layouts *layouts, int32_t i,
                                               const pvsize_allocator *memory, pvsize_spec **out,
                                               pvsize_diag *diag);
/* Fills a report with the check of answer i by the question's rule set. */
PVSIZE_API pvsize_status pvsize_layouts_report(const pvsize_layouts *layouts, int32_t i,
                                               pvsize_report *report, pvsize_diag *diag);
/* Answer i in one line. */
PVSIZE_API pvsize_status pvsize_layouts_text(const pvsize_layouts *layouts, int32_t i, char *buffer,
                                             size_t capacity, size_t *length, pvsize_diag *diag);

/* What stood in the way. If there is no answer: by input and rule the nearest miss,
 * rules that the job breaks whatever is wired, what the full check refused, and the
 * nearest total of modules that can be had, if one is within 200 of the wanted one. If there
 * are answers: what the next larger step beyond the first of them would break, one module
 * more in each string of an input or one string more; of like inputs with the same strings
 * one is told. */
PVSIZE_API pvsize_status pvsize_layouts_obstacle_count(const pvsize_layouts *layouts,
                                                       int32_t *count, pvsize_diag *diag);
/* What stood in the way, and what was judged there. Each output may be null.
 *
 *   rule                         its number; 0: the wanted modules
 *   inverter, input              where; -1 for the whole
 *   plane, second_plane, module  of the stringing that was judged; -1: none
 *   modules_per_string           of that stringing
 *   strings                      of that stringing, on all planes together
 *   passes                       modules in a string that pass in its place all rules of
 *                                the input; 0 for none */
PVSIZE_API pvsize_status pvsize_layouts_obstacle(const pvsize_layouts *layouts, int32_t i,
                                                 int32_t *rule, int32_t *inverter, int32_t *input,
                                                 int32_t *plane, int32_t *second_plane,
                                                 int32_t *module, int32_t *modules_per_string,
                                                 int32_t *strings, int32_t *passes,
                                                 pvsize_diag *diag);
/* Value, limit and margin (negative: beyond the limit) in the rule's unit. */
PVSIZE_API pvsize_status pvsize_layouts_obstacle_numbers(const pvsize_layouts *layouts, int32_t i,
                                                         double *value, double *limit,
                                                         double *margin, pvsize_diag *diag);
/* Obstacle i in one line. */
PVSIZE_API pvsize_status pvsize_layouts_obstacle_text(const pvsize_layouts *layouts, int32_t i,
                                                      char *buffer, size_t capacity, size_t *length,
                                                      pvsize_diag *diag);

/* Which module on which inverter: the pairs of a catalogue, ranked for one site. The
 * question is a search whose system has no arrays. Every pair of one of its modules and
 * one of its inverters is a search of its own, with one inverter; other pairs can be
 * added. Pairs are ranked as answers are, then by module, then by inverter, so that the
 * ranking of a whole is that of its merged parts, whatever the split. */
typedef struct pvsize_ranking pvsize_ranking;

/* An empty ranking that keeps the best `most` pairs, 1 to 1000000. PVSIZE_E_TOO_MANY if
 * the system has arrays or cables. */
PVSIZE_API pvsize_status pvsize_ranking_new(const pvsize_spec *search, const pvsize_rules *rules,
                                            int32_t most, const pvsize_allocator *memory,
                                            pvsize_ranking **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_ranking_free(pvsize_ranking *ranking);
/* Judges a pair of module and inverter under numbers of the caller's, `module_number` and
 * `inverter_number`, 0 or more, which rank equal pairs. A pair whose search the flag
 * `cancel` stopped (see pvsize_search) is not counted. `fits` (may be null): 1 if the pair
 * has an answer. */
PVSIZE_API pvsize_status pvsize_ranking_add(pvsize_ranking *ranking, const pvsize_spec *module,
                                            const pvsize_spec *inverter, int32_t module_number,
                                            int32_t inverter_number, const int32_t *cancel,
                                            int32_t *fits, pvsize_diag *diag);
/* Judges every module with every inverter: the pairs of `modules` (a list of `module_count`)
 * and `inverters` (`inverter_count`), numbered from `first_module` and `first_inverter` on.
 * The result is that of pvsize_ranking_add for each pair, byte by byte, and is there much
 * sooner: a pair that surely fits and surely is not among the best is counted without being
 * searched. Rules that need a check of every pair (see doc/scale.md) take as long as before.
 * Pairs are judged in an order of the library's. `done` (may be null): how many were; all
 * unless the flag `cancel` was raised. On failure what was judged before stays.
 * PVSIZE_E_OUT_OF_RANGE where the numbers are not from 0 to 2147483647, before a list is read. */
PVSIZE_API pvsize_status pvsize_ranking_add_all(
    pvsize_ranking *ranking, const pvsize_spec *const *modules, size_t module_count,
    const pvsize_spec *const *inverters, size_t inverter_count, int32_t first_module,
    int32_t first_inverter, const int32_t *cancel, double *done, pvsize_diag *diag);
/* Judges pair number shard, shard + shards, ... of the question's own, which are numbered
 * module by module, as pvsize_ranking_add_all does. `done` (may be null): how many were judged;
 * all unless the flag `cancel` was raised. On failure what was judged before stays. */
PVSIZE_API pvsize_status pvsize_ranking_add_shard(pvsize_ranking *ranking, int32_t shard,
                                                  int32_t shards, const int32_t *cancel,
                                                  double *done, pvsize_diag *diag);
/* Adds what another ranking of the same question found. No pair may be in both. */
PVSIZE_API pvsize_status pvsize_ranking_merge(pvsize_ranking *ranking, const pvsize_ranking *other,
                                              pvsize_diag *diag);
/* Pairs `judged`, those with an answer (`fitting`), and of the latter those whose best was
 * not proven within the node budget (`unproven`). Each output may be null. */
PVSIZE_API pvsize_status pvsize_ranking_judged(const pvsize_ranking *ranking, double *judged,
                                               double *fitting, double *unproven,
                                               pvsize_diag *diag);
/* Pairs kept, the best first: how many; module and inverter of the i-th; the `value`
 * of a number of its best answer, `what` being PVSIZE_LAYOUT_... */
PVSIZE_API pvsize_status pvsize_ranking_count(const pvsize_ranking *ranking, int32_t *count,
                                              pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_ranking_pair(const pvsize_ranking *ranking, int32_t i,
                                             int32_t *module, int32_t *inverter, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_ranking_number(const pvsize_ranking *ranking, int32_t i,
                                               int32_t what, double *value, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
