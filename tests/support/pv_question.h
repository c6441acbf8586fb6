/* Small invented questions, drawn from a seed: under own rules of every reach, objectives, wanted
 * totals, fixed arrays and inverters that are alike. */
#ifndef PV_QUESTION_H
#define PV_QUESTION_H

#include "draw.h"
#include "pv_test.h"

enum { MOST_INPUTS = 6, MOST_PLANES = 3 };

typedef struct option {
    int32_t module, plane[2], length, strings[2]; /* module -1: nothing */
} option;

typedef struct place {
    int32_t inverter, input, kind;
} place;

typedef struct job {
    long seed;
    pvsize_spec *search, *system;
    pvsize_rules *rules;
    pvsize_spec *module[2];
    int32_t modules, planes, inverters;
    place place[MOST_INPUTS]; /* that stand open */
    int32_t places;
    int32_t like[3];          /* by inverter: the first that it can be exchanged with */
    double rated[3];          /* 0: not given */
    int32_t inputs[3], fixed; /* fixed: inverter of the fixed array, -1 */
    bool apart;               /* a rule tells places apart: nothing can be exchanged */
    double power[2], yield[MOST_PLANES];
    int32_t room[MOST_PLANES], order[MOST_PLANES]; /* order 0: none */
    int32_t shortest, longest, sides, answers;
    int32_t objective, wanted_modules;
    double wanted_power;
    double fixed_power;
    int32_t fixed_modules;
    option *option;
    int32_t options;
} job;

static inline pvsize_spec *small_input(int32_t kind)
{
    return SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, kind == 2 ? 260 : 600,
                PVSIZE_INPUT_TRACKING_MIN, 100, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
                kind == 1 ? 15 : 29, PVSIZE_INPUT_TERMINALS, 2);
}

/* Of kind 2 the voltage falls below nothing on a very hot day. */
static inline pvsize_spec *small_module(int32_t kind)
{
    return SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, kind ? 330 : 400, PVSIZE_MODULE_VOC, 49,
                PVSIZE_MODULE_ISC, kind ? 8 : 10.5, PVSIZE_MODULE_VMP, 41, PVSIZE_MODULE_IMP,
                kind ? 7.5 : 10, PVSIZE_MODULE_VOC_COEFFICIENT, -0.25,
                PVSIZE_MODULE_VMP_COEFFICIENT, kind == 2 ? -1.9 : -0.3,
                PVSIZE_MODULE_ISC_COEFFICIENT, 0.04, PVSIZE_MODULE_PMAX_COEFFICIENT, -0.3,
                PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 1000);
}

static inline void add_site(job *j, draw *d, pvsize_spec *system)
{
    bool ordered = draw_below(d, 3) == 0;
    bool yields = draw_below(d, 6) > 0; /* else none anywhere */
    bool hot = draw_below(d, 3) == 0;
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, 0, PVSIZE_SITE_TEMP_MAX,
                             hot ? 60 : 40, PVSIZE_SITE_EXPORT_LIMIT, 2500);

    j->planes = 1 + draw_below(d, 2);
    for (int32_t i = 0; i < j->planes; i++) {
        pvsize_spec *plane;

        j->room[i] = 2 + draw_below(d, j->places > 3 ? 3 : 5);
        j->yield[i] = yields ? 1000 + 100 * draw_below(d, 4) : 0;
        j->order[i] = ordered ? draw_below(d, 3) : 0;
        plane = SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, j->room[i],
                     PVSIZE_PLANE_SPECIFIC_YIELD, j->yield[i], PVSIZE_PLANE_CELL_RISE,
                     hot ? 60 : 30, PVSIZE_PLANE_CURRENT_CORRECTION, 1);
        if (j->order[i])
            OK(pvsize_spec_set_number(plane, PVSIZE_PLANE_FILL_ORDER, j->order[i], diag));
        give(site, plane);
    }
    give(system, site);
}

static inline void add_inverters(job *j, draw *d, pvsize_spec *system)
{
    int32_t inputs = 1 + draw_below(d, 3), unlike = draw_below(d, 3);
    int32_t kind[3] = {draw_below(d, 2), draw_below(d, 2), draw_below(d, 3)};

    j->inverters = inputs < 3 ? 1 + draw_below(d, 3) : 1 + draw_below(d, 2);
    for (int32_t i = 0; i < j->inverters; i++) {
        /* the last may differ in its rating, in an input, or in their number */
        bool differs = i > 0 && i + 1 == j->inverters;
        pvsize_spec *inverter =
            SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER,
                 differs && unlike == 1 ? 1500 : 2000, PVSIZE_INVERTER_MAX_PV_POWER, 2500);
        int32_t count = differs && unlike == 2 && inputs > 1 ? inputs - 1 : inputs;

        j->rated[i] = differs && unlike == 1 ? 1500 : 2000;
        j->inputs[i] = count;
        if (draw_below(d, 8) == 0) {
            OK(pvsize_spec_unset(inverter, PVSIZE_INVERTER_RATED_AC_POWER, diag));
            j->rated[i] = 0;
        }
        for (int32_t k = 0; k < count; k++) {
            j->place[j->places++] = (place){i, k, kind[k]};
            give(inverter, small_input(kind[k]));
        }
        give(system, inverter);
    }
}

/* An array that must be there, on the input that is taken from the open ones. */
static inline void fix_array(job *j, draw *d, pvsize_spec *system)
{
    int32_t at = draw_below(d, j->places), plane = draw_below(d, j->planes);
    int32_t modules = 2 + draw_below(d, 3);
    pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INVERTER, j->place[at].inverter,
                              PVSIZE_ARRAY_INPUT, j->place[at].input, PVSIZE_ARRAY_PLANE, plane,
                              PVSIZE_ARRAY_STRINGS, 1, PVSIZE_ARRAY_MODULES_PER_STRING, modules);

    give(array, small_module(0));
    give(system, array);
    j->fixed_modules = modules;
    j->fixed_power = modules * 400;
    j->room[plane] -= modules < j->room[plane] ? modules : j->room[plane];
    j->fixed = j->place[at].inverter;
    j->places--;
    for (int32_t i = at; i < j->places; i++)
        j->place[i] = j->place[i + 1];
}

static inline void find_likes(job *j)
{
    for (int32_t i = 0; i < j->inverters; i++) {
        j->like[i] = i;
        for (int32_t k = i - 1; k >= 0; k--)
            if (j->rated[k] == j->rated[i] && j->inputs[k] == j->inputs[i] && k != j->fixed &&
                i != j->fixed)
                j->like[i] = j->like[k];
    }
}

static const struct own {
    int32_t value, compare, limit_of;
    double limit;
} owns[] = {
    {0, 0, 0, 0}, /* none */
    {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_MORE_THAN, 0, 200},
    {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_LEAST, 0, 1e9},
    {PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST, 0, 250},
    {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_MORE_THAN, 0, 3},
    {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_AT_MOST, 0, 1},
    {PVSIZE_ARRAY_MODULES_PER_STRING, PVSIZE_COMPARE_AT_LEAST, PVSIZE_QUANTITY_ARRAY_MODULES, 0.6},
    {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 0},
    {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_LEAST, 0, -1},
    {PVSIZE_QUANTITY_STRING_VOLTAGE_LIMIT, PVSIZE_COMPARE_AT_LEAST, PVSIZE_QUANTITY_STRING_VOC_COLD,
     3},
    {PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.6},
    {PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.1},
    {PVSIZE_QUANTITY_INPUT_STRINGS, PVSIZE_COMPARE_AT_LEAST, 0, 1},
    {PVSIZE_QUANTITY_INPUT_ARRAYS, PVSIZE_COMPARE_AT_LEAST, 0, 1},
    {PVSIZE_INPUT_TERMINALS, PVSIZE_COMPARE_MORE_THAN, PVSIZE_QUANTITY_INPUT_STRINGS, 1},
    {PVSIZE_INPUT_TERMINALS, PVSIZE_COMPARE_AT_LEAST, 0, 3},
    {PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_LEAST, 0, 9},
    {PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 7},
    {PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, -1},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0, 2700},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0, 1e14},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_SITE_EXPORT_LIMIT, 1},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_AC_POWER, 1},
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_INVERTER_MAX_PV_POWER, 0.8},
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SYSTEM_PV_POWER,
     0.6},
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0, 1700},
    {PVSIZE_QUANTITY_ARRAY_RATIO, PVSIZE_COMPARE_AT_MOST, 0, 0.9},
    {PVSIZE_QUANTITY_ARRAY_RATIO, PVSIZE_COMPARE_AT_MOST, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 1},
    {PVSIZE_ARRAY_INPUT, PVSIZE_COMPARE_AT_MOST, 0, 0},
    {PVSIZE_ARRAY_INVERTER, PVSIZE_COMPARE_AT_LEAST, 0, 1},
    {PVSIZE_ARRAY_STRINGS, PVSIZE_COMPARE_AT_MOST, PVSIZE_ARRAY_INPUT, 1},
    {PVSIZE_ARRAY_STRINGS, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_INPUT_GIVEN, 2},
    {PVSIZE_ARRAY_STRINGS, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_SITE_GIVEN, 2},
    {PVSIZE_QUANTITY_ARRAY_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_INVERTER_RATED_AC_POWER, 0.7},
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_PV_LIMIT, 0.8},
    /* of voltages below nothing, which nonsense can give: the longer the lower */
    {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_MOST, 0, -60},
    {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_LEAST, 0, -90},
    {PVSIZE_QUANTITY_INPUT_VOC_DIFFERENCE, PVSIZE_COMPARE_AT_MOST, 0, 1},
    {PVSIZE_SITE_TEMP_MAX, PVSIZE_COMPARE_AT_MOST, 0, 30}, /* broken whatever is wired */
    {PVSIZE_INPUT_MAX_VOLTAGE, PVSIZE_COMPARE_AT_LEAST, PVSIZE_QUANTITY_INPUT_VOC_HIGHEST, 1.5},
    {PVSIZE_QUANTITY_STRING_VOLTAGE_LIMIT, PVSIZE_COMPARE_AT_LEAST, 0, 500},
    {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_LEAST, 0, 60},
    {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_LEAST, 0, -5},
    {PVSIZE_QUANTITY_STRING_VMP_HOT, PVSIZE_COMPARE_AT_MOST, 0, 250},
    {PVSIZE_QUANTITY_ARRAY_MODULES, PVSIZE_COMPARE_AT_MOST, PVSIZE_ARRAY_STRINGS, 3},
    {PVSIZE_ARRAY_STRINGS, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_INPUT_STRINGS_MAX, 0.5},
    {PVSIZE_QUANTITY_PLANE_MODULES, PVSIZE_COMPARE_AT_MOST, PVSIZE_PLANE_CAPACITY, 1},
    {PVSIZE_QUANTITY_PLANE_MODULES, PVSIZE_COMPARE_AT_MOST, PVSIZE_PLANE_CAPACITY, 0.8},
    {PVSIZE_QUANTITY_PLANE_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 3},
    {PVSIZE_QUANTITY_INVERTER_PV_POWER, PVSIZE_COMPARE_AT_MOST, PVSIZE_QUANTITY_PV_LIMIT_RATIO, 1},
    {PVSIZE_QUANTITY_ARRAY_RATIO, PVSIZE_COMPARE_AT_LEAST, 0, 0.5},
    {PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 2},
    {PVSIZE_QUANTITY_SYSTEM_PV_POWER, PVSIZE_COMPARE_AT_MOST, 0, 800},
};
enum { OWNS = sizeof owns / sizeof *owns };

static inline void make_rules(job *j, draw *d, const struct own *own)
{
    int32_t shares = draw_below(d, 4);

    OK(pvsize_rules_new(NULL, NULL, &j->rules, diag));
    OK(pvsize_rules_set_figure(j->rules, PVSIZE_FIGURE_ISC_FACTOR, 1.25, NULL, diag));
    OK(pvsize_rules_set_severity(j->rules, PVSIZE_RULE_VOC_COLD_INPUT, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_set_severity(j->rules, PVSIZE_RULE_ISC_INPUT, PVSIZE_SEVERITY_MUST, diag));
    if (draw_below(d, 2)) /* else it limits nothing */
        OK(pvsize_rules_set_figure(j->rules, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 1.1, NULL, diag));
    j->sides = shares ? 1 : 2;
    /* one plane, whatever its severity; or two, where it is off or limits nothing */
    if (shares || draw_below(d, 2))
        OK(pvsize_rules_set_severity(j->rules, PVSIZE_RULE_UNLIKE_PLANES,
                                     shares > 1 ? PVSIZE_SEVERITY_SHOULD : PVSIZE_SEVERITY_MUST,
                                     diag));
    if (shares)
        OK(pvsize_rules_set_figure(j->rules, PVSIZE_FIGURE_PLANES_PER_INPUT, 1, NULL, diag));
    if (own->value)
        OK(pvsize_rules_add(j->rules, "own", "own", own->value, own->compare, own->limit_of,
                            own->limit, PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    j->apart |= own->value == PVSIZE_ARRAY_INPUT || own->value == PVSIZE_ARRAY_INVERTER ||
                own->limit_of == PVSIZE_ARRAY_INPUT;
}

static inline void set_terms(job *j, draw *d)
{
    j->objective =
        draw_below(d, 4) ? PVSIZE_OBJECTIVE_POWER + draw_below(d, 4) : PVSIZE_OBJECTIVE_POWER;
    j->shortest = 1 + draw_below(d, 3);
    j->longest = j->shortest + draw_below(d, 4);
    j->answers = draw_below(d, 2) ? 5 : 300;
    OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_OBJECTIVE, j->objective, diag));
    OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_SHORTEST_STRING, j->shortest, diag));
    OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_LONGEST_STRING, j->longest, diag));
    OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_ANSWERS, j->answers, diag));
    j->wanted_power = 400 * (1 + draw_below(d, 14)) + 100 * draw_below(d, 4);
    if (j->objective == PVSIZE_OBJECTIVE_NEAREST_POWER)
        OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_WANTED_POWER, j->wanted_power, diag));
    if (draw_below(d, 4) == 0) {
        j->wanted_modules = 2 + draw_below(d, 12);
        OK(pvsize_spec_set_number(j->search, PVSIZE_SEARCH_WANTED_MODULES, j->wanted_modules,
                                  diag));
    }
}

static inline job make_job(uint64_t seed, const struct own *own)
{
    draw d = draw_from_seed(seed);
    job j = {.search = SPEC(PVSIZE_KIND_SEARCH, 0), .system = SPEC(PVSIZE_KIND_SYSTEM, 0)};

    j.fixed = -1;
    j.seed = (long)seed;
    add_inverters(&j, &d, j.system);
    add_site(&j, &d, j.system);
    if (draw_below(&d, 4) == 0)
        fix_array(&j, &d, j.system);
    find_likes(&j);
    OK(pvsize_spec_add(j.search, j.system, NULL, diag));
    j.modules = 1 + (draw_below(&d, 4) == 0);
    for (int32_t i = 0; i < j.modules; i++) {
        int32_t kind = i == 0 && draw_below(&d, 5) == 0 ? 2 : i;

        j.module[i] = small_module(kind);
        j.power[i] = kind ? 330 : 400;
        OK(pvsize_spec_add(j.search, j.module[i], NULL, diag));
    }
    make_rules(&j, &d, own);
    set_terms(&j, &d);
    return j;
}

static inline void free_job(job *j)
{
    pvsize_spec_free(j->search);
    pvsize_spec_free(j->system);
    pvsize_rules_free(j->rules);
    for (int32_t i = 0; i < j->modules; i++)
        pvsize_spec_free(j->module[i]);
    free(j->option);
}

#endif
