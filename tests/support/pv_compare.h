/* Two rule sets, or two reports, side by side: what differs. */
#ifndef PV_COMPARE_H
#define PV_COMPARE_H

#include "pv_test.h"

static pvsize_comparison *comparison;

static inline void compare_sets(const pvsize_rules *a, const pvsize_rules *b, int32_t wanted)
{
    if (!comparison)
        OK(pvsize_comparison_new(NULL, &comparison, diag));
    OK(pvsize_compare_rules(a, b, wanted, comparison, diag));
}

static inline void compare_found(const pvsize_report *a, const pvsize_report *b, int32_t wanted)
{
    if (!comparison)
        OK(pvsize_comparison_new(NULL, &comparison, diag));
    OK(pvsize_compare_reports(a, b, wanted, comparison, diag));
}

static inline int32_t differences(void)
{
    int32_t count;

    OK(pvsize_comparison_count(comparison, &count, diag));
    return count;
}

static inline int32_t what_of(int32_t i)
{
    int32_t what;

    OK(pvsize_comparison_difference(comparison, i, &what, NULL, diag));
    return what;
}

static inline int32_t term_of(int32_t i, int32_t side)
{
    int32_t term;

    OK(pvsize_comparison_side(comparison, i, side, &term, NULL, diag));
    return term;
}

static inline double number_of(int32_t i, int32_t side, int32_t what)
{
    double value;

    OK(pvsize_comparison_number(comparison, i, side, what, &value, diag));
    return value;
}

/* Place of the difference on a rule or figure, the n-th of it; -1 if none. */
static inline int32_t difference_on(int32_t term, int32_t n)
{
    for (int32_t i = 0; i < differences(); i++)
        if ((term_of(i, 0) == term || term_of(i, 1) == term) && n-- == 0)
            return i;
    return -1;
}

static inline void says(int32_t i, const char *words)
{
    char text[2000];

    OK(pvsize_comparison_text(comparison, i, text, sizeof text, NULL, diag));
    ck_assert_msg(strstr(text, words) != NULL, "'%s' not in '%s'", words, text);
}

static inline void done(void)
{
    pvsize_comparison_free(comparison);
    comparison = NULL;
}

static inline int32_t own(pvsize_rules *rules, const char *name, int32_t compare,
                          int32_t limit_term, double limit)
{
    int32_t rule;

    OK(pvsize_rules_add(rules, name, "own", PVSIZE_QUANTITY_STRING_VOC_COLD, compare, limit_term,
                        limit, PVSIZE_SEVERITY_SHOULD, "own practice", &rule, diag));
    return rule;
}

/* The invented job with strings of this length on the double input. */
static inline pvsize_spec *job(int32_t modules)
{
    pvsize_spec *system = invented_system();

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, modules, diag));
    return system;
}

static inline pvsize_report *checked_by(const pvsize_spec *spec, const char *name)
{
    pvsize_rules *rules = preset(name);
    pvsize_report *report = checked(spec, rules);

    pvsize_rules_free(rules);
    return report;
}

#endif
