/* An inverter under review, stated in full, and what is read from the review. */
#ifndef PV_REVIEW_H
#define PV_REVIEW_H

#include "pv_test.h"

/* Common practice: operating currents 22 A and 11 A, short-circuit ratings 26.4 A and
 * 13.2 A; 7.5 kW, of which 133 % are 9.975 kW. */
static inline pvsize_spec *trade_inverter(void)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 7500,
                                 PVSIZE_INVERTER_MAX_PV_POWER, 9980);

    for (int32_t strings = 2; strings >= 1; strings--)
        give(inverter,
             SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 600, PVSIZE_INPUT_TRACKING_MIN, 80,
                  PVSIZE_INPUT_TRACKING_MAX, 560, PVSIZE_INPUT_MAX_OPERATING_CURRENT,
                  11.0 * strings, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 13.2 * strings,
                  PVSIZE_INPUT_TERMINALS, strings));
    return inverter;
}

static inline pvsize_review *reviewed(const pvsize_spec *inverter, const pvsize_spec *site,
                                      const pvsize_spec *enquiry, const pvsize_rules *rules)
{
    pvsize_review *review;

    OK(pvsize_review_new(NULL, &review, diag));
    OK(pvsize_review_inverter(inverter, site, enquiry, rules, review, diag));
    return review;
}

static inline char *page_of(const pvsize_review *review, int32_t format)
{
    size_t length;
    char *text;

    OK(pvsize_review_render(review, format, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_review_render(review, format, text, length + 1, NULL, diag));
    return text;
}

/* The bound that a rule sets on an input with so many strings. */
static inline double bound_of(const pvsize_review *review, int32_t wanted_rule,
                              int32_t wanted_input, int32_t wanted_strings)
{
    int32_t count, rule, input, strings;
    double value;

    OK(pvsize_review_bound_count(review, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_review_bound(review, i, NULL, &input, &strings, diag));
        OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, NULL, diag));
        if (rule != wanted_rule || input != wanted_input || strings != wanted_strings)
            continue;
        OK(pvsize_review_bound_numbers(review, i, &value, NULL, diag));
        return value;
    }
    ck_abort_msg("no bound by rule %d", (int)wanted_rule);
    return NAN;
}

static inline int32_t bounds_of(const pvsize_review *review, int32_t wanted, int32_t *missing)
{
    int32_t count, rule, found = 0;
    double value;

    OK(pvsize_review_bound_count(review, &count, diag));
    *missing = 0;
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_review_bound_rule(review, i, &rule, NULL, NULL, NULL, diag));
        if (rule != wanted)
            continue;
        found++;
        *missing += pvsize_review_bound_numbers(review, i, &value, NULL, NULL) != PVSIZE_OK;
    }
    return found;
}

/* One input of which all is stated, and more: so much that every sort of remark can be made. */
static inline pvsize_spec *stated_input(void)
{
    return SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 1100, PVSIZE_INPUT_TRACKING_MIN, 80,
                PVSIZE_INPUT_TRACKING_MAX, 560, PVSIZE_INPUT_FULL_POWER_MIN, 200,
                PVSIZE_INPUT_FULL_POWER_MAX, 500, PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11,
                PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 13.2, PVSIZE_INPUT_TERMINALS, 2,
                PVSIZE_INPUT_TERMINAL_CURRENT, 5, PVSIZE_INPUT_MAX_POWER, 3000,
                PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN, PVSIZE_INPUT_ISOLATOR_VOLTAGE, 600,
                PVSIZE_INPUT_ISOLATOR_CURRENT, 10);
}

/* One input on one inverter, and one module in question. */
static inline pvsize_review *review_of_module(const double *input, pvsize_spec *module,
                                              const pvsize_rules *rules)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 50000,
                                 PVSIZE_INVERTER_MAX_PV_POWER, 60000);
    pvsize_spec *enquiry = SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_PLANE, 0);
    pvsize_spec *site = invented_site();
    pvsize_review *review;

    give(inverter, spec_with(PVSIZE_KIND_INPUT, input));
    give(enquiry, module);
    review = reviewed(inverter, site, enquiry, rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(enquiry);
    pvsize_spec_free(site);
    return review;
}

static inline int32_t accepted_by(const pvsize_review *review)
{
    int32_t accepted;

    OK(pvsize_review_module(review, 0, NULL, NULL, &accepted, NULL, diag));
    return accepted;
}

static const double wide[] = {PVSIZE_INPUT_MAX_VOLTAGE,
                              1000,
                              PVSIZE_INPUT_TRACKING_MIN,
                              100,
                              PVSIZE_INPUT_TRACKING_MAX,
                              900,
                              PVSIZE_INPUT_MAX_OPERATING_CURRENT,
                              100,
                              PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
                              130,
                              0};

#endif
