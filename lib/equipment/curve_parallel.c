/* Strings in parallel, by the curves of their modules. */
#include "../physics/joined.h"
#include "curve.h"

#define MOST_VOLTAGE 10000.0
#define MOST_CURRENT 1e9
enum { MOST_BRANCHES = 64, MOST_COUNT = 10000 };

typedef struct given {
    const pvsize_curve *const *curves;
    const double *irradiance, *cell_temp;
    const int32_t *modules, *strings;
    size_t n;
    int32_t blocked;
} given;

static pvsize_status check_arrays(const given *g, pvsize_diag *diag)
{
    const struct {
        const void *array;
        const char *name;
    } arrays[] = {{g->curves, "curves"},
                  {g->irradiance, "irradiance"},
                  {g->cell_temp, "cell_temp"},
                  {g->modules, "modules"},
                  {g->strings, "strings"}};

    for (int32_t i = 0; i < PVSZ_COUNT(arrays); i++)
        if (!arrays[i].array)
            return pvsz_fail_null(diag, arrays[i].name);
    return pvsz_check_argument("n", (double)g->n, 1, MOST_BRANCHES, -1, diag);
}

static pvsize_status lay_branch(const given *g, int32_t i, pvsz_branch *branch, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(g->curves[i], diag);

    if (status) {
        pvsz_fail_argument(diag, "curves");
        pvsz_fail_at(diag, i);
        return status;
    }
    status = pvsz_check_condition(g->irradiance[i], g->cell_temp[i], i, diag);
    if (!status)
        status = pvsz_check_argument("modules", g->modules[i], 1, MOST_COUNT, i, diag);
    if (!status)
        status = pvsz_check_argument("strings", g->strings[i], 1, MOST_COUNT, i, diag);
    if (status)
        return status;
    pvsz_diode d = pvsz_module_at(&g->curves[i]->module, g->irradiance[i], g->cell_temp[i]);
    *branch = pvsz_branch_of(&d, g->modules[i], g->strings[i]);
    return PVSIZE_OK;
}

/* Room for the branches is the caller's: MOST_BRANCHES of them. */
static pvsize_status lay(const given *g, pvsz_branch *branch, pvsz_joined *joined,
                         pvsize_diag *diag)
{
    pvsize_status status = check_arrays(g, diag);

    for (int32_t i = 0; !status && i < (int32_t)g->n; i++)
        status = lay_branch(g, i, &branch[i], diag);
    if (!status)
        *joined = (pvsz_joined){branch, g->n, g->blocked != 0};
    return status;
}

pvsize_status pvsize_parallel_mpp(const pvsize_curve *const *curves, const double *irradiance,
                                  const double *cell_temp, const int32_t *modules,
                                  const int32_t *strings, size_t n, int32_t blocked,
                                  double *voltage, double *current, pvsize_diag *diag)
{
    given g = {curves, irradiance, cell_temp, modules, strings, n, blocked};
    pvsz_branch branch[MOST_BRANCHES];
    pvsz_joined joined;
    pvsize_status status = lay(&g, branch, &joined, diag);

    if (status)
        return status;
    pvsz_point point = pvsz_joined_mpp(&joined);
    if (voltage)
        *voltage = point.voltage;
    if (current)
        *current = point.current;
    return PVSIZE_OK;
}

pvsize_status pvsize_parallel_current(const pvsize_curve *const *curves, const double *irradiance,
                                      const double *cell_temp, const int32_t *modules,
                                      const int32_t *strings, size_t n, int32_t blocked,
                                      double voltage, double *current, pvsize_diag *diag)
{
    given g = {curves, irradiance, cell_temp, modules, strings, n, blocked};
    pvsz_branch branch[MOST_BRANCHES];
    pvsz_joined joined;
    pvsize_status status = lay(&g, branch, &joined, diag);

    if (!status && !current)
        return pvsz_fail_null(diag, "current");
    if (!status)
        status = pvsz_check_argument("voltage", voltage, 0, MOST_VOLTAGE, -1, diag);
    if (status)
        return status;
    return pvsz_give_found(pvsz_joined_current(&joined, voltage), "voltage", voltage, current,
                           diag);
}

pvsize_status pvsize_parallel_voltage(const pvsize_curve *const *curves, const double *irradiance,
                                      const double *cell_temp, const int32_t *modules,
                                      const int32_t *strings, size_t n, int32_t blocked,
                                      double current, double *voltage, pvsize_diag *diag)
{
    given g = {curves, irradiance, cell_temp, modules, strings, n, blocked};
    pvsz_branch branch[MOST_BRANCHES];
    pvsz_joined joined;
    pvsize_status status = lay(&g, branch, &joined, diag);

    if (!status && !voltage)
        return pvsz_fail_null(diag, "voltage");
    if (!status)
        status = pvsz_check_argument("current", current, 0, MOST_CURRENT, -1, diag);
    if (!status && !pvsz_joined_voltage(&joined, current, voltage)) {
        pvsz_fail_value(diag, PVSIZE_E_NO_CURVE, 0, current);
        pvsz_fail_argument(diag, "current");
        return PVSIZE_E_NO_CURVE;
    }
    return status;
}
