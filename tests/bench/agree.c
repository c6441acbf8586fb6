/* The plain ways and the library find the same: else there is nothing to compare. */
#include "agree.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "operations_curve.h"
#include "plain.h"

static int apart(const char *what, int i, double plain, double library, double tolerance)
{
    if (fabs(plain - library) <= tolerance * fmax(fabs(library), 1))
        return 0;
    fprintf(stderr, "%s %d: plain %.12g, library %.12g\n", what, i, plain, library);
    return 1;
}

static double quantity(const pvsize_report *report, int32_t term, int32_t kind, int32_t index)
{
    int32_t subject, owner = -1;
    double value;

    if (kind == PVSIZE_KIND_INPUT)
        MUST(pvsize_report_find(report, PVSIZE_KIND_INVERTER, 0, -1, &owner, job_diag));
    MUST(pvsize_report_find(report, kind, index, owner, &subject, job_diag));
    MUST(pvsize_report_quantity(report, term, subject, &value, job_diag));
    return value;
}

/* Limits passed of those that the plain check looks at. */
static int broken_of(const pvsize_report *report)
{
    static const int32_t rules[] = {
        PVSIZE_RULE_VOC_COLD_INPUT,   PVSIZE_RULE_VOC_COLD_MODULE,   PVSIZE_RULE_VOC_COLD_BUILDING,
        PVSIZE_RULE_VMP_HOT_TRACKING, PVSIZE_RULE_VMP_COLD_TRACKING, PVSIZE_RULE_VOC_HOT_START,
        PVSIZE_RULE_ISC_INPUT,        PVSIZE_RULE_OPERATING_CURRENT, PVSIZE_RULE_TERMINALS,
        PVSIZE_RULE_INPUT_POWER,      PVSIZE_RULE_PLANE_ROOM,        PVSIZE_RULE_PV_RATIO,
        PVSIZE_RULE_PV_MAKER};
    int32_t count, rule, verdict;
    int broken = 0;

    MUST(pvsize_report_count(report, 0, 0, &count, job_diag));
    for (int32_t i = 0; i < count; i++) {
        MUST(pvsize_report_finding(report, i, &rule, NULL, &verdict, NULL, job_diag));
        for (size_t k = 0; k < sizeof rules / sizeof *rules; k++)
            broken += rule == rules[k] && verdict == PVSIZE_VERDICT_EXCEEDS;
    }
    return broken;
}

static int compare_check(int seed, const pvsize_rules *rules, pvsize_report *report)
{
    job j = job_drawn((uint64_t)seed);
    pvsize_spec *system = system_spec(&j, 1);
    plain_sizing p;
    int bad = 0;

    MUST(pvsize_check(system, rules, report, job_diag));
    plain_check(&j, &p);
    for (int i = 0; i < j.arrays; i++) {
        const double plain[] = {p.array[i].voc_cold, p.array[i].vmp_hot, p.array[i].vmp_cold,
                                p.array[i].voc_hot,  p.array[i].isc_max, p.input_isc[i],
                                p.input_imp[i]};
        static const int32_t terms[] = {
            PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_QUANTITY_STRING_VMP_HOT,
            PVSIZE_QUANTITY_STRING_VMP_COLD, PVSIZE_QUANTITY_STRING_VOC_HOT,
            PVSIZE_QUANTITY_ARRAY_ISC_MAX,   PVSIZE_QUANTITY_INPUT_ISC_MAX,
            PVSIZE_QUANTITY_INPUT_IMP};

        for (int k = 0; k < 7; k++)
            bad +=
                apart(pvsize_term_name(terms[k]), seed, plain[k],
                      quantity(report, terms[k], k < 5 ? PVSIZE_KIND_ARRAY : PVSIZE_KIND_INPUT, i),
                      1e-12);
    }
    bad += apart("ratio", seed, p.ratio,
                 quantity(report, PVSIZE_QUANTITY_ARRAY_RATIO, PVSIZE_KIND_INVERTER, 0), 1e-12);
    bad += apart("limits passed", seed, p.broken, broken_of(report), 0);
    pvsize_spec_free(system);
    return bad;
}

static int compare_checks(int count)
{
    pvsize_rules *rules = rules_of_house();
    pvsize_report *report;
    int bad = 0;

    MUST(pvsize_report_new(job_memory, &report, job_diag));
    for (int i = 0; i < count; i++)
        bad += compare_check(i, rules, report) > 0;
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    return bad;
}

/* The best energy of a pair, to a watt hour of a module. `fitting` counts those with an answer. */
static int compare_search(const job *j, int place, const pvsize_rules *rules,
                          pvsize_layouts *layouts, int *fitting)
{
    pvsize_spec *search = search_spec(j, PVSIZE_OBJECTIVE_ENERGY, 1);
    int32_t count;
    double energy = 0;

    MUST(pvsize_search(search, rules, NULL, layouts, job_diag));
    MUST(pvsize_layouts_count(layouts, &count, job_diag));
    if (count > 0)
        MUST(pvsize_layouts_number(layouts, 0, PVSIZE_LAYOUT_ENERGY, &energy, job_diag));
    pvsize_spec_free(search);
    *fitting += count > 0;
    return apart("best energy", place, plain_search(j) / 1000, energy, 1e-5);
}

static int compare_searches(int side, int *fitting)
{
    pvsize_rules *rules = rules_of_house();
    pvsize_layouts *layouts;
    job j = job_of(2, 2, 36);
    int bad = 0;

    MUST(pvsize_layouts_new(job_memory, &layouts, job_diag));
    bad += compare_search(&j, -1, rules, layouts, fitting);
    for (int i = 0; i < side * side; i++) {
        j.module = module_drawn((uint64_t)(i / side));
        j.inverter = inverter_drawn((uint64_t)(i % side));
        bad += compare_search(&j, i, rules, layouts, fitting);
    }
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    return bad;
}

static int compare_points(size_t count)
{
    size s = {0, 0, (int)count, 0};
    points *p = make_points(s);
    double *power = room_for(count * sizeof *power);
    int bad = 0;

    run_points(p);
    for (size_t i = 0; i < count; i++)
        power[i] = p->voltage[i] * p->current[i];
    run_plain_points(p);
    for (size_t i = 0; i < count; i++)
        bad += apart("power", (int)i, p->voltage[i] * p->current[i], power[i], 1e-9);
#ifdef HAVE_GSL
    run_lambert_points(p);
    for (size_t i = 0; i < count; i++)
        bad += apart("power, Lambert W", (int)i, p->voltage[i] * p->current[i], power[i], 1e-9);
    run_currents(p);
    for (size_t i = 0; i < count; i++)
        power[i] = p->current[i];
    run_lambert_currents(p);
    for (size_t i = 0; i < count; i++)
        bad += apart("current, Lambert W", (int)i, p->current[i], power[i], 1e-9);
#endif
    unmake_points(p);
    free(power);
    return bad;
}

int agree(void)
{
    int fitting = 0, checks = compare_checks(1000), searches = compare_searches(30, &fitting);
    int others = compare_points(1000);

    printf("unlike: %d of 1000 checks, %d of 901 searches (%d have an answer), %d of 1000 points\n",
           checks, searches, fitting, others);
    return checks + searches + others > 0 || fitting < 600;
}
