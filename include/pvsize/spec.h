/* pvsize/spec.h - data sheets, places and designs. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_SPEC_H
#define PVSIZE_SPEC_H

#include "base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A spec is one thing with parameters and parts: a module, an input, an
 * inverter, a site, a plane, an array, a system and more. Its kind is fixed when it is
 * made. Adding a part copies it.
 *
 *     system    one site, inverters, arrays, cables, isolators, readings
 *     site      planes, months
 *     inverter  inputs, efficiency points
 *     array     one module
 *     search    one system, modules (layout.h)
 *     enquiry   modules (envelope.h)
 *
 * An array names its inverter, its input and its plane by index; cables, isolators and
 * readings name what they belong to likewise.
 *
 * Shared arguments:
 *
 *   term    number of a parameter of the spec's kind (ids.h, terms.h)
 *   value   in the unit of the parameter
 *   kind    PVSIZE_KIND_... of a part
 *   index   place of a part among those of its kind, from 0 */
typedef struct pvsize_spec pvsize_spec;

/* Makes an empty spec of a kind (PVSIZE_KIND_...). The caller gives it back to
 * pvsize_spec_free. */
PVSIZE_API pvsize_status pvsize_spec_new(int32_t kind, const pvsize_allocator *memory,
                                         pvsize_spec **out, pvsize_diag *diag);
/* Copies a spec with all its parts. */
PVSIZE_API pvsize_status pvsize_spec_clone(const pvsize_spec *spec, const pvsize_allocator *memory,
                                           pvsize_spec **out, pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_spec_free(pvsize_spec *spec);
/* Kind of a spec; 0 for what is no spec. */
PVSIZE_API int32_t pvsize_spec_kind(const pvsize_spec *spec);

/* Sets a number, a count, an index or (by its number) a choice. Checked in this
 * order: handle, term, kind, type, finite, whole, range. */
PVSIZE_API pvsize_status pvsize_spec_set_number(pvsize_spec *spec, int32_t term, double value,
                                                pvsize_diag *diag);
/* Sets `count` numbers at once, `values` of `terms`: all of them or, on failure, none. */
PVSIZE_API pvsize_status pvsize_spec_set_numbers(pvsize_spec *spec, const int32_t *terms,
                                                 const double *values, size_t count,
                                                 pvsize_diag *diag);
/* Sets a text, or a choice by its name. At most 200 bytes of UTF-8 without
 * control characters. */
PVSIZE_API pvsize_status pvsize_spec_set_text(pvsize_spec *spec, int32_t term, const char *text,
                                              pvsize_diag *diag);
/* States that there is none: the maker gives no such limit, the network asks for
 * none. Rules that need the value do not apply then, where without a word from
 * the caller they would not be assessed. For optional numbers and counts only. */
PVSIZE_API pvsize_status pvsize_spec_set_none(pvsize_spec *spec, int32_t term, pvsize_diag *diag);
/* Takes a value, or the statement that there is none, away again. */
PVSIZE_API pvsize_status pvsize_spec_unset(pvsize_spec *spec, int32_t term, pvsize_diag *diag);
/* The value in force: as set, else the default, else PVSIZE_E_NOT_SET. */
PVSIZE_API pvsize_status pvsize_spec_get_number(const pvsize_spec *spec, int32_t term,
                                                double *value, pvsize_diag *diag);
/* The text, or the name of the choice in force. */
PVSIZE_API pvsize_status pvsize_spec_get_text(const pvsize_spec *spec, int32_t term, char *buffer,
                                              size_t capacity, size_t *length, pvsize_diag *diag);
/* The state of a parameter: PVSIZE_STATE_UNSET, _SET, _DEFAULT or _NONE. */
PVSIZE_API pvsize_status pvsize_spec_state(const pvsize_spec *spec, int32_t term, int32_t *state,
                                           pvsize_diag *diag);

/* Adds a copy of a part at the end of its list. `index` (may be null) receives
 * its place. */
PVSIZE_API pvsize_status pvsize_spec_add(pvsize_spec *spec, const pvsize_spec *part, int32_t *index,
                                         pvsize_diag *diag);
/* How many parts of a kind it has. */
PVSIZE_API pvsize_status pvsize_spec_part_count(const pvsize_spec *spec, int32_t kind,
                                                int32_t *count, pvsize_diag *diag);
/* Copies a part out; the caller frees the copy. */
PVSIZE_API pvsize_status pvsize_spec_part(const pvsize_spec *spec, int32_t kind, int32_t index,
                                          const pvsize_allocator *memory, pvsize_spec **out,
                                          pvsize_diag *diag);
/* Puts a copy of `part` in the place of an old one of its kind. */
PVSIZE_API pvsize_status pvsize_spec_replace(pvsize_spec *spec, int32_t index,
                                             const pvsize_spec *part, pvsize_diag *diag);
/* Takes a part out; those behind it move up, and indices that arrays hold are
 * not changed. */
PVSIZE_API pvsize_status pvsize_spec_remove(pvsize_spec *spec, int32_t kind, int32_t index,
                                            pvsize_diag *diag);
/* Reads and sets a number of a direct part in place, without allocating: the
 * way to try many lengths of a string. The term tells the kind of the part. */
PVSIZE_API pvsize_status pvsize_spec_get_part_number(const pvsize_spec *spec, int32_t index,
                                                     int32_t term, double *value,
                                                     pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_spec_set_part_number(pvsize_spec *spec, int32_t index, int32_t term,
                                                     double value, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
