/* Shared ground of the library: handles, memory, failures, text. */
#ifndef PVSZ_BASE_H
#define PVSZ_BASE_H

#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "inline.h"
#include "pvsize/base.h"

#ifdef __FAST_MATH__
#error "libpvsize promises the same bits everywhere: build it without fast-math"
#endif
/* 1, as on s390x, is about the type float, which is used nowhere */
_Static_assert(FLT_EVAL_METHOD == 0 || FLT_EVAL_METHOD == 1,
               "doubles must be evaluated as doubles (on x86: SSE2)");

#define PVSZ_COUNT(array) ((int32_t)(sizeof(array) / sizeof((array)[0])))

/* Every object starts with one of these marks, so that a handle of another
 * type, or one already freed, is told apart from a live one. */
enum {
    PVSZ_MARK_DIAG = 0x50564449,
    PVSZ_MARK_SPEC = 0x50565350,
    PVSZ_MARK_RULES = 0x50565255,
    PVSZ_MARK_REPORT = 0x50565245,
    PVSZ_MARK_COMPARISON = 0x5056434F,
    PVSZ_MARK_BILL = 0x5056424C,
    PVSZ_MARK_CURVE = 0x50564355,
    PVSZ_MARK_WEATHER = 0x50565745,
    PVSZ_MARK_JUDGEMENT = 0x50564A55,
    PVSZ_MARK_REVIEW = 0x50565657,
    PVSZ_MARK_EXERCISE = 0x50564558,
    PVSZ_MARK_LAYOUTS = 0x50564C41,
    PVSZ_MARK_RANKING = 0x5056524B,
    PVSZ_MARK_LIGHT = 0x50564C49,
    PVSZ_MARK_YEAR = 0x50565945,
    PVSZ_MARK_DEAD = 0x44454144
};

/* memory */
typedef pvsize_allocator pvsz_memory;
/* What an object that is made by a ..._new call starts with. */
typedef struct pvsz_head {
    uint32_t mark;
    pvsz_memory memory;
} pvsz_head;
/* Whether it is one of this mark, still alive; its head comes first. */
bool pvsz_is(const void *object, uint32_t mark);
/* Makes one, zeroed but for its head. Null in *out, and the status told, on failure. */
pvsize_status pvsz_make(const pvsize_allocator *memory, size_t size, uint32_t mark, void **out,
                        pvsize_diag *diag);
/* Gives it back, marked dead. What it owns must have gone before. */
void pvsz_unmake(void *object);
/* Null means malloc and free; hooks that are only half there are refused. */
pvsize_status pvsz_take_memory(const pvsize_allocator *memory, pvsz_memory *out, pvsize_diag *diag);
/* Zeroed memory for n items; null if there is none or the size overflows. */
void *pvsz_new(const pvsz_memory *memory, size_t n, size_t size);
/* The same, not zeroed: for what is written before it is read. */
void *pvsz_new_unset(const pvsz_memory *memory, size_t n, size_t size);
void pvsz_release(const pvsz_memory *memory, void *block);
char *pvsz_copy_text(const pvsz_memory *memory, const char *text);
/* A list with room for one more item: itself, or a larger copy in its place.
 * Null, and the list as it was, where there is no memory. */
void *pvsz_grow(const pvsz_memory *memory, void *items, size_t count, size_t *capacity,
                size_t size);

/* failures: each fills the diag, if there is one, and returns the status */
struct pvsize_diag {
    pvsz_head head;
    pvsize_status status;
    int32_t term;
    int32_t set;          /* whose choices are allowed; 0: the term's own */
    const char *argument; /* of the call, where no term names it; static */
    const char *allowed;  /* in words, where neither range nor set says it; static */
    const char *nearest;  /* a name much like the one given; static */
    const char *hint;     /* what such a failure mostly comes from; static */
    int32_t index;        /* of the part of that kind the term belongs to */
    bool has_value;
    bool has_range;
    double value;
    double low;
    double high;
    char given[80];
};

pvsize_status pvsz_fail(pvsize_diag *diag, pvsize_status status);
pvsize_status pvsz_fail_null(pvsize_diag *diag, const char *argument);
pvsize_status pvsz_fail_handle(pvsize_diag *diag, const char *argument);
pvsize_status pvsz_fail_term(pvsize_diag *diag, pvsize_status status, int32_t term);
pvsize_status pvsz_fail_name(pvsize_diag *diag, pvsize_status status, int32_t term,
                             const char *name);
pvsize_status pvsz_fail_value(pvsize_diag *diag, pvsize_status status, int32_t term, double value);
pvsize_status pvsz_fail_range(pvsize_diag *diag, pvsize_status status, int32_t term, double value,
                              double low, double high);
/* A choice of one of the library's own sets; `argument` names it. */
pvsize_status pvsz_fail_choice(pvsize_diag *diag, const char *argument, int32_t set, double value);
/* Adds the place of the part that a failure is about; the argument of the call. */
void pvsz_fail_at(pvsize_diag *diag, int32_t index);
void pvsz_fail_argument(pvsize_diag *diag, const char *argument);
/* Adds a range to a failure that has none. */
void pvsz_fail_within(pvsize_diag *diag, double low, double high);
/* Add what is allowed, in words; a name that may be meant; a hint. All static. */
void pvsz_fail_allowed(pvsize_diag *diag, const char *allowed);
void pvsz_fail_nearest(pvsize_diag *diag, const char *nearest);
void pvsz_fail_hint(pvsize_diag *diag, const char *hint);
/* `count` places exist, the last at count - 1 */
pvsize_status pvsz_fail_index(pvsize_diag *diag, pvsize_status status, int32_t term, int32_t index,
                              int32_t count);

/* text */
typedef struct pvsz_text {
    char *buffer;
    size_t capacity;
    size_t length;
    bool markdown; /* texts that came from outside are escaped */
} pvsz_text;

/* Starts writing to a caller's buffer; null with capacity 0 only counts. */
pvsize_status pvsz_text_begin(pvsz_text *text, char *buffer, size_t capacity, pvsize_diag *diag);
pvsize_status pvsz_text_end(pvsz_text *text, size_t *length, pvsize_diag *diag);
/* Puts row i of an object that has it. */
typedef void pvsz_row_put(pvsz_text *text, const void *object, int32_t i);
/* The text of a row that was looked for with the status `found`: that failure, or what
 * `put` puts. Nothing looks at the object unless the row was found. */
pvsize_status pvsz_row_text(pvsize_status found, pvsz_row_put *put, const void *object, int32_t i,
                            char *buffer, size_t capacity, size_t *length, pvsize_diag *diag);
void pvsz_put(pvsz_text *text, const char *bytes);
void pvsz_put_bytes(pvsz_text *text, const char *bytes, size_t count);
/* Text that a caller gave: may hold signs that Markdown takes for its own. */
void pvsz_put_given(pvsz_text *text, const char *bytes);
void pvsz_put_repeat(pvsz_text *text, char c, int32_t count);
void pvsz_put_int(pvsz_text *text, int64_t value);
/* Rounded half up to so many decimals. */
void pvsz_put_fixed(pvsz_text *text, double value, int32_t decimals);
/* Rounded to so many significant digits, trailing zeros dropped. */
void pvsz_put_rounded(pvsz_text *text, double value, int32_t digits);
/* The shortest decimal that reads back as the same double, where 15 digits
 * reach; else 15 digits. */
void pvsz_put_exact(pvsz_text *text, double value);
/* Bytes of the character at s if it is UTF-8 and no control character; else 0. */
size_t pvsz_plain_character(const char *s);
/* Valid UTF-8 without control characters, at most `most` bytes. */
bool pvsz_is_plain_text(const char *text, size_t most);
/* The same, with the failure told. */
pvsize_status pvsz_check_text(const char *text, size_t most, int32_t term, pvsize_diag *diag);

/* The one rounding guard: a value counts as within a limit if it lies beyond
 * it by no more than this share of the limit (of 1 where the limit is 0), which
 * is rounding and nothing else. */
#define PVSZ_GUARD 1e-9
/* Whether a negative margin on a limit is rounding only. */
static inline bool pvsz_within(double margin, double limit)
{
    double size = fabs(limit);

    return margin >= 0 || margin >= -PVSZ_GUARD * (size > 0 ? size : 1);
}
static inline bool pvsz_at_most(double value, double limit)
{
    return pvsz_within(limit - value, limit);
}
/* a less b; 0 where only the last bits of the two differ: some hundred roundings of the
 * larger number. */
#define PVSZ_DUST 1e-13
static inline double pvsz_subtract(double a, double b)
{
    double difference = a - b;
    double most = PVSZ_DUST * (fabs(a) + fabs(b));

    return fabs(difference) <= most ? 0 : difference;
}
/* Largest n with n * unit at most limit, smallest n with n * unit at least
 * floor; 0 to 1e9. */
double pvsz_most_that_fit(double unit, double limit);
double pvsz_fewest_that_reach(double unit, double floor_value);

#endif
