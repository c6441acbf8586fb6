/* What gcc's analyser cannot see across files: that a failure is never PVSIZE_OK. Put before
 * every file of the core by tests/analyse.sh; lib/base/diag.c, which defines them, goes
 * without. */
#include "../lib/base/base.h"

static inline pvsize_status pvsz_failed(pvsize_status status)
{
    if (status == PVSIZE_OK)
        __builtin_unreachable();
    return status;
}

#define pvsz_fail(...) pvsz_failed((pvsz_fail)(__VA_ARGS__))
#define pvsz_fail_null(...) pvsz_failed((pvsz_fail_null)(__VA_ARGS__))
#define pvsz_fail_handle(...) pvsz_failed((pvsz_fail_handle)(__VA_ARGS__))
#define pvsz_fail_term(...) pvsz_failed((pvsz_fail_term)(__VA_ARGS__))
#define pvsz_fail_name(...) pvsz_failed((pvsz_fail_name)(__VA_ARGS__))
#define pvsz_fail_value(...) pvsz_failed((pvsz_fail_value)(__VA_ARGS__))
#define pvsz_fail_range(...) pvsz_failed((pvsz_fail_range)(__VA_ARGS__))
#define pvsz_fail_choice(...) pvsz_failed((pvsz_fail_choice)(__VA_ARGS__))
#define pvsz_fail_index(...) pvsz_failed((pvsz_fail_index)(__VA_ARGS__))
