/* What options are worth, and the order in which they are tried. */
#include <math.h>

#include "layout.h"

/* The best first; of equals by module, planes, the longer string, strings. */
static int compare_options(const pvsz_option *a, const pvsz_option *b)
{
    const int32_t pairs[][2] = {
        {a->module < 0, b->module < 0},   {a->module, b->module},
        {a->plane[0], b->plane[0]},       {a->plane[1], b->plane[1]},
        {-a->length, -b->length},         {-a->strings[0], -b->strings[0]},
        {-a->strings[1], -b->strings[1]},
    };
    int order = -pvsz_compare_keys(&a->key, &b->key);

    /* no two options of a group are the same, so that one pair differs */
    for (int32_t i = 0; order == 0 && i < PVSZ_COUNT(pairs); i++) /* GCOVR_EXCL_BR_LINE */
        if (pairs[i][0] != pairs[i][1])
            order = pairs[i][0] < pairs[i][1] ? -1 : 1;
    return order;
}

static void sink(pvsz_option *option, size_t at, size_t count)
{
    for (size_t below = 2 * at + 1; below < count; below = 2 * at + 1) {
        pvsz_option kept = option[at];

        if (below + 1 < count && compare_options(&option[below], &option[below + 1]) < 0)
            below++;
        if (compare_options(&kept, &option[below]) >= 0)
            return;
        option[at] = option[below];
        option[below] = kept;
        at = below;
    }
}

/* A heap: no memory, and no order of the library's qsort. */
static void sort(pvsz_option *option, size_t count)
{
    for (size_t i = count / 2; i-- > 0;)
        sink(option, i, count);
    for (size_t i = count; i-- > 1;) {
        pvsz_option last = option[i];

        option[i] = option[0];
        option[0] = last;
        sink(option, 0, i);
    }
}

/* Worth of one module on a plane, in whole units of the objective. */
static int64_t worth(const pvsz_problem *problem, int32_t module, int32_t plane)
{
    double milliwatts = (double)problem->module_power[module];
    double yield = problem->plane[plane].yield;

    switch (problem->objective) {
    case PVSIZE_OBJECTIVE_ENERGY: /* watt hours */
        return (int64_t)floor(milliwatts / 1000 * yield + 0.5);
    case PVSIZE_OBJECTIVE_PLANE_ORDER:
        return problem->plane[plane].weight;
    case PVSIZE_OBJECTIVE_NEAREST_POWER: /* doubled: of two as near the lower is better */
        return 2 * problem->sign * problem->module_power[module];
    default:
        return problem->module_power[module];
    }
}

pvsz_key pvsz_key_of(const pvsz_problem *problem, const pvsz_option *option)
{
    bool by_plane = problem->objective == PVSIZE_OBJECTIVE_PLANE_ORDER;
    pvsz_key key = {{0, 0, 0}};

    for (int32_t i = 0; option->module >= 0 && i < 2 && option->plane[i] >= 0; i++) {
        int64_t modules = (int64_t)option->length * option->strings[i];
        int32_t plane = option->plane[i];

        key.level[0] += modules * worth(problem, option->module, plane);
        key.level[1] += modules * (by_plane ? problem->module_power[option->module]
                                            : problem->plane[plane].weight);
    }
    key.level[2] =
        -((int64_t)(option->strings[0] + option->strings[1]) * (1 << 24)) - option->devices;
    return key;
}

/* Values the options of all groups for the present sign, and puts them in order. */
void pvsz_order_options(pvsz_problem *problem)
{
    for (int32_t i = 0; i < problem->groups; i++) {
        pvsz_group *group = &problem->group[i];

        group->most = 0;
        for (size_t k = 0; k < group->count; k++) {
            group->option[k].key = pvsz_key_of(problem, &group->option[k]);
            if (group->option[k].modules > group->most)
                group->most = group->option[k].modules;
        }
        /* answers point to options by place: the order is made once */
        if (group->count && !problem->ordered)
            sort(group->option, group->count);
    }
    problem->ordered = true;
}
