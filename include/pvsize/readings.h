/* pvsize/readings.h - what meters read on the day. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_READINGS_H
#define PVSIZE_READINGS_H

#include "report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* CAUTION. A string in light is live and cannot be switched off; a test needs a person
 * licensed for it, and instruments rated for the voltage.
 *
 * A reading (PVSIZE_KIND_READING) is a part of a system: which string, the light and the
 * warmth, and what the meter showed. pvsize_check judges readings by rules like all
 * else, with the working of every expected value; a judgement goes on from there and
 * says what a reading can come from.
 *
 * Expected are the data sheet's values at the irradiance and cell temperature given
 * (IEC 60891 procedure 2, series resistance left out). The band of a sound string is what
 * the uncertainties of meter, sensor, temperature and module (figures test_... of the rule
 * set) come to, each at its worst: a sound string within them is never called unsound.
 * In light too weak or unsteady for the rule set nothing but insulation is judged.
 *
 * The order of the tests of a visit is the set PVSIZE_SET_SITE_TEST (terms.h). Test
 * voltage and least resistance of the insulation test, and the values for signs, are
 * quantities of each array and input in a report. */
typedef struct pvsize_judgement pvsize_judgement;

/* Makes an empty judgement; the caller gives it back to pvsize_judgement_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_judgement_new(const pvsize_allocator *memory,
                                              pvsize_judgement **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_judgement_free(pvsize_judgement *judgement);

/* Judges the readings of a system by a rule set and replaces what the judgement held: a
 * row for each number that was read (PVSIZE_MEASURED_VOC, _ISC, _VMP, _IMP, _INSULATION),
 * reading by reading. It copies all it cites and outlives system and rules. Fails as
 * pvsize_check does, and with PVSIZE_E_WRONG_KIND for what is no system; the judgement
 * then keeps what it held. */
PVSIZE_API pvsize_status pvsize_judge(const pvsize_spec *system, const pvsize_rules *rules,
                                      pvsize_judgement *judgement, pvsize_diag *diag);

/* How many rows there are, `judged` being PVSIZE_JUDGED_... or, for any, 0. */
PVSIZE_API pvsize_status pvsize_judgement_count(const pvsize_judgement *judgement, int32_t judged,
                                                int32_t *count, pvsize_diag *diag);
/* Row i, from 0 (PVSIZE_E_BAD_INDEX outside): the reading's place in the system, `measured`
 * PVSIZE_MEASURED_..., `judged` PVSIZE_JUDGED_..., and where the size of the number was not
 * judged, why: the term that is missing, PVSIZE_QUANTITY_READING_LIGHT where the light did
 * not serve, PVSIZE_QUANTITY_INSULATION_TEST_VOLTAGE where the test voltage was too low;
 * else 0. A reversed polarity is told whatever is missing. Outputs may be null. */
PVSIZE_API pvsize_status pvsize_judgement_row(const pvsize_judgement *judgement, int32_t i,
                                              int32_t *reading, int32_t *measured, int32_t *judged,
                                              int32_t *why, pvsize_diag *diag);
/* The `value` read (V, A or Mohm), what was expected, and the lowest (`low`) and highest
 * (`high`) of a sound string. Insulation has a least value only: `expected` is that, `high`
 * infinite. Outputs may be null; those but `value` are 0, and the call PVSIZE_E_NOT_SET,
 * where its size was not judged. */
PVSIZE_API pvsize_status pvsize_judgement_numbers(const pvsize_judgement *judgement, int32_t i,
                                                  double *value, double *expected, double *low,
                                                  double *high, pvsize_diag *diag);
/* Its deviation from like strings at the same moment, in percent of their median (of
 * two: from the other). PVSIZE_E_NOT_SET where there are none. Judged or not. */
PVSIZE_API pvsize_status pvsize_judgement_alike(const pvsize_judgement *judgement, int32_t i,
                                                double *deviation, pvsize_diag *diag);

/* What the reading can come from: how many causes fit it, the likeliest first; none where
 * it was not judged. More than one: this number alone cannot tell them apart. A reading
 * that fits a sound string has PVSIZE_CAUSE_SOUND first, and then what it cannot rule
 * out. */
PVSIZE_API pvsize_status pvsize_judgement_cause_count(const pvsize_judgement *judgement, int32_t i,
                                                      int32_t *count, pvsize_diag *diag);
/* Cause k of row i (PVSIZE_CAUSE_...), and how many of what its text names: the least, the
 * likeliest and the most that fit; 0 where there is nothing to count. `distance` is 0 where
 * the reading is just what the cause would give, 1 at the end of its band, above 1 for
 * causes that any number fits. Each output may be null. */
PVSIZE_API pvsize_status pvsize_judgement_cause(const pvsize_judgement *judgement, int32_t i,
                                                int32_t k, int32_t *cause, double *least,
                                                double *likeliest, double *most, double *distance,
                                                pvsize_diag *diag);
/* Row i in one line: numbers, judgement, causes. */
PVSIZE_API pvsize_status pvsize_judgement_text(const pvsize_judgement *judgement, int32_t i,
                                               char *buffer, size_t capacity, size_t *length,
                                               pvsize_diag *diag);
/* All of it as plain text or Markdown (PVSIZE_FORMAT_...), with the caution and the order
 * of the tests. */
PVSIZE_API pvsize_status pvsize_judgement_render(const pvsize_judgement *judgement, int32_t format,
                                                 char *buffer, size_t capacity, size_t *length,
                                                 pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
