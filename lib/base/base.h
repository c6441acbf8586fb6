/* Shared ground of the library: handles, memory, failures, text. */
#ifndef PV_BASE_H
#define PV_BASE_H

#include <float.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "pvsize/base.h"

#ifdef __FAST_MATH__
#error "libpvsize promises the same bits everywhere: build it without fast-math"
#endif
_Static_assert(FLT_EVAL_METHOD == 0, "doubles must be evaluated as doubles (on x86: SSE2)");

#define PV_COUNT(array) ((int32_t)(sizeof(array) / sizeof((array)[0])))

/* Every object starts with one of these marks, so that a handle of another
 * type, or one already freed, is told apart from a live one. */
enum {
    PV_MARK_DIAG = 0x50564449,
    PV_MARK_SPEC = 0x50565350,
    PV_MARK_RULES = 0x50565255,
    PV_MARK_REPORT = 0x50565245,
    PV_MARK_DEAD = 0x44454144
};

/* memory */
typedef pvsize_allocator pv_memory;
pv_memory pv_memory_or_default(const pvsize_allocator *memory);
/* Zeroed memory for n items; null if there is none or the size overflows. */
void *pv_new(const pv_memory *memory, size_t n, size_t size);
void pv_release(const pv_memory *memory, void *block);
char *pv_copy_text(const pv_memory *memory, const char *text);
/* A list with room for one more item: itself, or a larger copy in its place.
 * Null, and the list as it was, where there is no memory. */
void *pv_grow(const pv_memory *memory, void *items, size_t count, size_t *capacity, size_t size);

/* failures: each fills the diag, if there is one, and returns the status */
struct pvsize_diag {
    uint32_t mark;
    pvsize_status status;
    int32_t term;
    int32_t index;
    bool has_value;
    bool has_range;
    double value;
    double low;
    double high;
    char given[64];
    pv_memory memory;
};

pvsize_status pv_fail(pvsize_diag *diag, pvsize_status status);
pvsize_status pv_fail_null(pvsize_diag *diag, const char *argument);
pvsize_status pv_fail_handle(pvsize_diag *diag, const char *argument);
pvsize_status pv_fail_term(pvsize_diag *diag, pvsize_status status, int32_t term);
pvsize_status pv_fail_name(pvsize_diag *diag, pvsize_status status, int32_t term, const char *name);
pvsize_status pv_fail_value(pvsize_diag *diag, pvsize_status status, int32_t term, double value);
pvsize_status pv_fail_range(pvsize_diag *diag, pvsize_status status, int32_t term, double value,
                            double low, double high);
/* `count` places exist, the last at count - 1 */
pvsize_status pv_fail_index(pvsize_diag *diag, pvsize_status status, int32_t term, int32_t index,
                            int32_t count);

/* text */
typedef struct pv_text {
    char *buffer;
    size_t capacity;
    size_t length;
    bool markdown; /* texts that came from outside are escaped */
} pv_text;

/* Starts writing to a caller's buffer; null with capacity 0 only counts. */
pvsize_status pv_text_begin(pv_text *text, char *buffer, size_t capacity, pvsize_diag *diag);
pvsize_status pv_text_end(pv_text *text, size_t *length, pvsize_diag *diag);
void pv_put(pv_text *text, const char *bytes);
void pv_put_bytes(pv_text *text, const char *bytes, size_t count);
/* Text that a caller gave: may hold signs that Markdown takes for its own. */
void pv_put_given(pv_text *text, const char *bytes);
void pv_put_repeat(pv_text *text, char c, int32_t count);
void pv_put_int(pv_text *text, int64_t value);
/* Rounded half up to so many decimals. */
void pv_put_fixed(pv_text *text, double value, int32_t decimals);
/* Rounded to so many significant digits, trailing zeros dropped. */
void pv_put_rounded(pv_text *text, double value, int32_t digits);
/* The shortest decimal that reads back as the same double, where 15 digits
 * reach; else 15 digits. */
void pv_put_exact(pv_text *text, double value);
/* Characters, not bytes, of UTF-8 text. */
size_t pv_characters(const char *text, size_t bytes);
/* Valid UTF-8 without control characters, at most `most` bytes. */
bool pv_is_plain_text(const char *text, size_t most);

/* The one rounding guard: a value counts as within a limit if it lies beyond
 * it by no more than this share of the limit, which is rounding and nothing else. */
#define PV_GUARD 1e-9
bool pv_at_most(double value, double limit);
/* Largest n with n * unit at most limit, smallest n with n * unit at least
 * floor; 0 to 1e9. */
double pv_most_that_fit(double unit, double limit);
double pv_fewest_that_reach(double unit, double floor_value);

#endif
