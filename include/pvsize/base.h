/* pvsize/base.h - status, memory, diagnostics. Part of libpvsize; include
 * <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_BASE_H
#define PVSIZE_BASE_H

#include <stddef.h>
#include <stdint.h>

#include "ids.h"

/* On Windows a program needs no word of import: there are functions only, no data. */
#if defined(_WIN32) && defined(PVSIZE_BUILD)
#define PVSIZE_API __declspec(dllexport)
#elif defined(__GNUC__) && !defined(_WIN32)
#define PVSIZE_API __attribute__((visibility("default")))
#else
#define PVSIZE_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Conventions of every call
 *
 * Status   Every call that can fail returns a pvsize_status: PVSIZE_OK (0) or
 *          one of the PVSIZE_E_ numbers of ids.h. On failure nothing is
 *          changed: no object, and no output unless its text says so.
 * Detail   The last argument of such a call is a pvsize_diag or null (the calls
 *          on diags themselves and most on the tables have none). A failure fills
 *          it; success leaves it alone, so that the result of a run of calls can
 *          be asked for once at its end.
 * Handles  Opaque. Made by a ..._new or ..._clone call, given back to the
 *          matching ..._free, which takes null. Objects copy what they are
 *          given and never refer to one another: free them in any order. A
 *          handle of another type is refused; one already freed is refused
 *          where its memory still tells, but using it is an error in the
 *          program, as with any pointer.
 * Threads  Calls that take an object as const may run at once on that object;
 *          any other call needs it alone. Different objects are independent.
 *          There is no global state, and no call reads the locale, the clock,
 *          the environment, a file or the network.
 * Text     Null-terminated UTF-8. Text in is copied. Text out goes to the
 *          caller's buffer: `length` receives the bytes of the whole text
 *          without the terminator; buffer null with capacity 0 asks for it and
 *          returns PVSIZE_OK. A buffer too small receives what fits, cut between
 *          characters and terminated, and the call returns
 *          PVSIZE_E_CAPACITY. `length` may be null. Numbers have a decimal
 *          point whatever the locale.
 * Indices  Count from 0 in calls; rendered text counts from 1.
 * Units    Fixed for each parameter and stated in its table row.
 *
 * Shared arguments, which the texts of the calls explain no more:
 *
 *   memory    hooks for what is made; null: malloc and free
 *   out       receives the new object, null on failure; the caller frees it
 *   diag      receives the detail of a failure; may be null
 *   buffer    receives the text; may be null where capacity is 0
 *   capacity  bytes of the buffer, terminator included
 *   length    receives the bytes of the whole text, terminator left out; may be null
 *   format    PVSIZE_FORMAT_PLAIN or _MARKDOWN
 *   count     receives how many there are
 *   i         place in the list, from 0
 *   k         place in the list of what belongs to i, from 0 */

/* Result of a call: PVSIZE_OK or a PVSIZE_E_ number. */
typedef int32_t pvsize_status;

/* Name of a status, such as "out_of_range"; null for an unknown number. Static. */
PVSIZE_API const char *pvsize_status_name(int32_t status);
/* One line on a status; null for an unknown number. Static. */
PVSIZE_API const char *pvsize_status_text(int32_t status);
/* Count of status codes, and the i-th of them (-1 outside the list). */
PVSIZE_API int32_t pvsize_status_count(void);
PVSIZE_API int32_t pvsize_status_at(int32_t i);

/* Version of the linked library: major * 10000 + minor * 100 + patch, and as
 * text such as "0.1.0". Static. */
PVSIZE_API int32_t pvsize_version(void);
PVSIZE_API const char *pvsize_version_text(void);

/* One line that every program built on this library should show with its
 * results: what they are worth, and who must check them. Static. */
PVSIZE_API const char *pvsize_caution(void);

/* Memory hooks for one object. `allocate` returns memory aligned for any type,
 * or null; `release` is never called with null. The object keeps a copy of the
 * struct; `user` is passed through. Null instead of the struct: malloc, free. A
 * struct with only one of the two calls is refused. */
typedef struct pvsize_allocator {
    void *(*allocate)(void *user, size_t size); /* returns memory, or null */
    void (*release)(void *user, void *block);   /* takes it back */
    void *user;                                 /* the caller's own */
} pvsize_allocator;

/* Detail of a failure. Reusable; all its storage is made with it. */
typedef struct pvsize_diag pvsize_diag;

/* Makes an empty diag; the caller gives it back to pvsize_diag_free.
 * PVSIZE_E_NO_MEMORY, or PVSIZE_E_NULL_POINTER without `out` or half a `memory`. */
PVSIZE_API pvsize_status pvsize_diag_new(const pvsize_allocator *memory, pvsize_diag **out);
/* Takes null. */
PVSIZE_API void pvsize_diag_free(pvsize_diag *diag);
/* Forgets the failure held. */
PVSIZE_API pvsize_status pvsize_diag_clear(pvsize_diag *diag);
/* Status of the last failure; PVSIZE_OK if none since made or cleared;
 * PVSIZE_E_BAD_HANDLE for what is no diag. */
PVSIZE_API pvsize_status pvsize_diag_status(const pvsize_diag *diag);
/* Number of the parameter, figure, quantity, rule or kind concerned; 0 if none. */
PVSIZE_API int32_t pvsize_diag_term(const pvsize_diag *diag);
/* Place of the part that the parameter belongs to, among its owner's parts of
 * that kind; -1 if none. */
PVSIZE_API int32_t pvsize_diag_index(const pvsize_diag *diag);
/* Offending value, and the ends `low` and `high` of what is allowed. Each output may be
 * null. PVSIZE_E_NOT_SET where the failure has none; the outputs are then 0. */
PVSIZE_API pvsize_status pvsize_diag_value(const pvsize_diag *diag, double *value);
PVSIZE_API pvsize_status pvsize_diag_range(const pvsize_diag *diag, double *low, double *high);
/* The failure in one line: where, what, what was given, what is allowed. The
 * second leaves out where, for callers that name the place in their own way. */
PVSIZE_API pvsize_status pvsize_diag_text(const pvsize_diag *diag, char *buffer, size_t capacity,
                                          size_t *length);
PVSIZE_API pvsize_status pvsize_diag_reason(const pvsize_diag *diag, char *buffer, size_t capacity,
                                            size_t *length);

#ifdef __cplusplus
}
#endif
#endif
