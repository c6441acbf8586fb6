/* What checks show of a module, a row for so many strings of it on a plane: which lengths
 * pass, by the rules that do not look at the inverter and then by those that do. */
#include <math.h>

#include "sieve_parts.h"

/* rules on lengths */

/* far more than roundings of the quotient, far less than the guard of a limit */
#define BLUR 1e-11
enum { LONGEST = 1000000 };

/* A quotient as a whole number, from below; unsure where rounding could tell. */
static int32_t whole(double quotient, pvsz_window *window)
{
    double below = floor(quotient);

    if (quotient > LONGEST)
        return LONGEST;
    if (quotient - below < BLUR * quotient || below + 1 - quotient < BLUR * quotient)
        window->unsure = true;
    return (int32_t)below;
}

static bool holds(const pvsz_rule *rule, double value, double limit)
{
    if (rule->compare == PVSIZE_COMPARE_AT_MOST)
        return pvsz_within(pvsz_subtract(limit, value), limit);
    return pvsz_within(pvsz_subtract(value, limit), limit) &&
           !(rule->compare == PVSIZE_COMPARE_MORE_THAN &&
             pvsz_within(pvsz_subtract(limit, value), limit));
}

static void raise_low(pvsz_window *window, int32_t low)
{
    window->low = low > window->low ? low : window->low;
}

/* The value is of one module in the string. */
static void narrow_up(const pvsz_mesh *mesh, double value, double limit, pvsz_window *window)
{
    int32_t high;

    if (!(value > 0) || !(limit > 0)) {
        window->unsure = true;
        return;
    }
    if (mesh->rule->compare == PVSIZE_COMPARE_AT_LEAST) {
        raise_low(window, whole(limit * (1 - PVSZ_GUARD) / value, window) + 1);
        return;
    }
    high = whole(limit * (1 + PVSZ_GUARD) / value, window);
    if (mesh->rule->compare == PVSIZE_COMPARE_MORE_THAN) {
        raise_low(window, high + 1);
        return;
    }
    window->high = high < window->high ? high : window->high;
    if (mesh->ends && high < window->reach)
        window->reach = high;
}

/* What a rule leaves of a window, given its two sides. */
static void narrow(const pvsz_mesh *mesh, const pvsz_side *value, const pvsz_side *limit,
                   pvsz_window *window)
{
    double most;

    if (!value->has || !limit->has)
        return;
    most = limit->value * mesh->rule->factor;
    if (mesh->up) {
        narrow_up(mesh, value->value, most, window);
    } else if (!holds(mesh->rule, value->value, most)) {
        window->high = 0;
        if (mesh->ends)
            window->reach = 0;
    }
}

/* the module */

void pvsz_sieve_turn(pvsz_sieve *sieve, const pvsize_spec *module)
{
    size_t rows = (size_t)sieve->planes * PVSZ_SIEVE_STRINGS;

    sieve->module = module;
    sieve->power = pvsz_milliwatts(pvsz_number_of(module, PVSIZE_MODULE_PMAX, 0));
    sieve->valued = false;
    for (size_t i = 0; i < sieve->families; i++)
        for (size_t k = 0; k < rows; k++)
            sieve->family[i]->row[k].known = false;
}

/* Puts the present module in the place of the one that the family was made with. */
static void put_module(const pvsz_sieve *sieve, pvsz_problem *problem)
{
    problem->module[0] = (pvsize_spec *)sieve->module; /* checks only read it */
    problem->module_power[0] = sieve->power;
}

static void order_planes(const int64_t *worth, int32_t planes, int32_t *order)
{
    for (int32_t i = 0; i < planes; i++) {
        int32_t at = i;

        for (; at > 0 && worth[order[at - 1]] < worth[i]; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}

void pvsz_value_planes(pvsz_sieve *sieve, pvsz_problem *problem)
{
    put_module(sieve, problem);
    for (int32_t i = 0; i < sieve->planes; i++) {
        const pvsz_option one = {.plane = {i, -1}, .strings = {1, 0}, .length = 1};
        pvsz_key key = pvsz_key_of(problem, &one);

        sieve->worth[0][i] = key.level[0];
        sieve->worth[1][i] = key.level[1];
    }
    for (int32_t level = 0; level < 2; level++)
        order_planes(sieve->worth[level], sieve->planes, sieve->order[level]);
    sieve->valued = true;
}

/* rows */

static const pvsize_spec *spec_of(const pvsz_family *family, int32_t kind, int32_t plane)
{
    const pvsize_spec *site = pvsz_spec_parts(family->probe.system, PVSZ_KIND_SITE)->item[0];

    switch (kind) {
    case PVSZ_KIND_MODULE:
        return family->problem.module[0];
    case PVSZ_KIND_ARRAY:
        return family->probe.array[0];
    case PVSZ_KIND_PLANE:
        return pvsz_spec_parts(site, PVSZ_KIND_PLANE)->item[plane];
    default:
        return site;
    }
}

/* A side that does not look at the inverter, after the check of an option. */
static pvsz_side side_apart(const pvsz_family *family, const pvsz_ref *ref, int32_t plane)
{
    const pvsize_report *report = family->problem.report;
    pvsz_side side = {.has = ref->number == 0, .value = 1};

    if (ref->number == 0)
        return side;
    if (ref->kind == PVSZ_KIND_FIGURE)
        side = (pvsz_side){report->figure[ref->place].set, report->figure[ref->place].value};
    else if (ref->kind == PVSZ_KIND_QUANTITY)
        side.has = pvsz_report_value(report, ref->place, report->design.subject[PVSZ_KIND_ARRAY],
                                     &side.value);
    else
        side.has = pvsz_spec_number(spec_of(family, ref->kind, plane), ref->number, &side.value);
    return side;
}

pvsize_status pvsz_make_row(const pvsz_sieve *sieve, pvsz_family *family, int32_t plane,
                            int32_t strings, pvsz_row *row)
{
    pvsz_option option = {.plane = {plane, -1}, .strings = {strings, 0}, .length = 1};
    pvsize_status status;

    put_module(sieve, &family->problem);
    status = pvsz_judge_alone(&family->probe, &option);
    if (status)
        return status;
    row->window = (pvsz_window){.low = 1, .high = LONGEST, .reach = LONGEST};
    for (int32_t i = 0; i < sieve->owns; i++) {
        const pvsz_mesh *mesh = &sieve->own[i];
        pvsz_side value = side_apart(family, &mesh->rule->value, plane);
        pvsz_side limit = side_apart(family, &mesh->rule->limit, plane);

        narrow(mesh, &value, &limit, &row->window);
    }
    for (int32_t i = 0; i < sieve->crosses; i++) {
        const pvsz_mesh *mesh = &sieve->cross[i];

        row->side[i] =
            side_apart(family, mesh->value_apart ? &mesh->rule->value : &mesh->rule->limit, plane);
    }
    row->known = true;
    return PVSIZE_OK;
}

void pvsz_narrow_by_port(const pvsz_sieve *sieve, const pvsz_port *port, const pvsz_row *row,
                         pvsz_window *window)
{
    *window = row->window;
    for (int32_t i = 0; i < sieve->crosses; i++) {
        const pvsz_mesh *mesh = &sieve->cross[i];

        if (mesh->value_apart)
            narrow(mesh, &row->side[i], &port->side[i], window);
        else
            narrow(mesh, &port->side[i], &row->side[i], window);
    }
}
