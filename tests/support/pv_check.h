/* The invented job with one thing changed. */
#ifndef PV_CHECK_H
#define PV_CHECK_H

#include "pv_test.h"

/* One number of one part changed; `inner` is the place of a part's part. */
static inline void change_in(pvsize_spec *owner, int32_t kind, int32_t index, int32_t inner,
                             int32_t term, double value)
{
    pvsize_spec *part;

    OK(pvsize_spec_part(owner, kind, index, NULL, &part, diag));
    if (pvsize_term_kind(term) == kind)
        OK(pvsize_spec_set_number(part, term, value, diag));
    else
        OK(pvsize_spec_set_part_number(part, inner, term, value, diag));
    OK(pvsize_spec_replace(owner, index, part, diag));
    pvsize_spec_free(part);
}

static inline pvsize_report *with(int32_t kind, int32_t index, int32_t inner, int32_t term,
                                  double value)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;

    change_in(system, kind, index, inner, term, value);
    report = checked_au(system);
    pvsize_spec_free(system);
    return report;
}

static inline void expect(int32_t rule, int32_t n, int32_t verdict, int32_t kind, int32_t index,
                          int32_t inner, int32_t term, double value)
{
    pvsize_report *report = with(kind, index, inner, term, value);
    int32_t got = verdict_of(report, rule, n);

    ck_assert_msg(got == verdict, "%s with %s = %g: verdict %d, want %d", pvsize_term_name(rule),
                  pvsize_term_name(term), value, (int)got, (int)verdict);
    pvsize_report_free(report);
}

#define BREAKS(rule, n, ...) expect((rule), (n), PVSIZE_VERDICT_EXCEEDS, __VA_ARGS__)
#define HOLDS(rule, n, ...) expect((rule), (n), PVSIZE_VERDICT_MEETS, __VA_ARGS__)
#define ARRAY(i) PVSIZE_KIND_ARRAY, (i), 0
#define INPUT(i) PVSIZE_KIND_INVERTER, 0, (i)
#define INVERTER PVSIZE_KIND_INVERTER, 0, 0
#define SITE PVSIZE_KIND_SITE, 0, 0
#define PLANE(i) PVSIZE_KIND_SITE, 0, (i)

#endif
