/* Points of a curve. */
#include <math.h>

#include "../physics/diode_rows.h"
#include "curve.h"

/* V and A beyond which nothing is asked of one module. */
#define MOST_VOLTAGE 3000.0
#define MOST_CURRENT 10000.0
enum { MOST_SAMPLES = 1000000 };

pvsize_status pvsz_check_argument(const char *argument, double value, double low, double high,
                                  int32_t place, pvsize_diag *diag)
{
    pvsize_status status;

    if (value >= low && value <= high)
        return PVSIZE_OK;
    status = isfinite(value) ? PVSIZE_E_OUT_OF_RANGE : PVSIZE_E_NOT_FINITE;
    pvsz_fail_range(diag, status, 0, value, low, high);
    pvsz_fail_argument(diag, argument);
    pvsz_fail_at(diag, place);
    return status;
}

pvsize_status pvsz_check_condition(double irradiance, double cell_temp, int32_t place,
                                   pvsize_diag *diag)
{
    pvsize_status status =
        pvsz_check_argument("irradiance", irradiance, 0, PVSZ_MOST_IRRADIANCE, place, diag);

    if (status)
        return status;
    return pvsz_check_argument("cell_temp", cell_temp, PVSZ_COLDEST_CELL, PVSZ_HOTTEST_CELL, place,
                               diag);
}

pvsize_status pvsz_give_found(double found, const char *argument, double value, double *out,
                              pvsize_diag *diag)
{
    if (!isfinite(found)) {
        pvsz_fail_value(diag, PVSIZE_E_NO_CURVE, 0, value);
        pvsz_fail_argument(diag, argument);
        return PVSIZE_E_NO_CURVE;
    }
    *out = found;
    return PVSIZE_OK;
}

/* Everything that every question checks, and the curve at that condition. */
static pvsize_status begin(const pvsize_curve *curve, double irradiance, double cell_temp,
                           pvsz_diode *diode, pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(curve, diag);

    if (!status)
        status = pvsz_check_condition(irradiance, cell_temp, -1, diag);
    if (!status)
        *diode = pvsz_module_at(&curve->module, irradiance, cell_temp);
    return status;
}

static void put(double *place, double value)
{
    if (place)
        *place = value;
}

pvsize_status pvsize_curve_mpp(const pvsize_curve *curve, double irradiance, double cell_temp,
                               double *voltage, double *current, pvsize_diag *diag)
{
    pvsz_diode d;
    pvsize_status status = begin(curve, irradiance, cell_temp, &d, diag);

    if (status)
        return status;
    pvsz_point point = pvsz_diode_mpp(&d);
    put(voltage, point.voltage);
    put(current, point.current);
    return PVSIZE_OK;
}

pvsize_status pvsize_curve_ends(const pvsize_curve *curve, double irradiance, double cell_temp,
                                double *voc, double *isc, pvsize_diag *diag)
{
    pvsz_diode d;
    pvsize_status status = begin(curve, irradiance, cell_temp, &d, diag);

    if (status)
        return status;
    put(voc, pvsz_diode_voltage(&d, 0));
    put(isc, pvsz_diode_current(&d, 0));
    return PVSIZE_OK;
}

pvsize_status pvsize_curve_current(const pvsize_curve *curve, double irradiance, double cell_temp,
                                   double voltage, double *current, pvsize_diag *diag)
{
    pvsz_diode d;
    pvsize_status status = begin(curve, irradiance, cell_temp, &d, diag);

    if (!status && !current)
        return pvsz_fail_null(diag, "current");
    if (!status)
        status = pvsz_check_argument("voltage", voltage, -MOST_VOLTAGE, MOST_VOLTAGE, -1, diag);
    if (status)
        return status;
    return pvsz_give_found(pvsz_diode_current(&d, voltage), "voltage", voltage, current, diag);
}

pvsize_status pvsize_curve_voltage(const pvsize_curve *curve, double irradiance, double cell_temp,
                                   double current, double *voltage, pvsize_diag *diag)
{
    pvsz_diode d;
    pvsize_status status = begin(curve, irradiance, cell_temp, &d, diag);
    double found;
    pvsz_bypass bypass;

    if (!status && !voltage)
        return pvsz_fail_null(diag, "voltage");
    if (!status)
        status = pvsz_check_argument("current", current, -MOST_CURRENT, MOST_CURRENT, -1, diag);
    if (status)
        return status;
    bypass = (pvsz_bypass){curve->bypass_diodes, PVSZ_BYPASS_DROP};
    found = curve->bypass_diodes > 0 ? pvsz_bypassed_voltage(&d, &bypass, current)
                                     : pvsz_diode_voltage(&d, current);
    return pvsz_give_found(found, "current", current, voltage, diag);
}

static pvsize_status check_outputs(const double *voltage, const double *current, pvsize_diag *diag)
{
    if (!voltage)
        return pvsz_fail_null(diag, "voltage");
    return current ? PVSIZE_OK : pvsz_fail_null(diag, "current");
}

pvsize_status pvsize_curve_sample(const pvsize_curve *curve, double irradiance, double cell_temp,
                                  size_t n, double *voltage, double *current, pvsize_diag *diag)
{
    pvsz_diode d;
    pvsize_status status = begin(curve, irradiance, cell_temp, &d, diag);

    if (!status)
        status = check_outputs(voltage, current, diag);
    if (!status)
        status = pvsz_check_argument("n", (double)n, 2, MOST_SAMPLES, -1, diag);
    if (!status)
        pvsz_diode_sample(&d, n, voltage, current);
    return status;
}

static bool row_is_allowed(const double *irradiance, const double *cell_temp, size_t n)
{
    unsigned bad = 0; /* no way out of the loop: it is quicker so */

    for (size_t i = 0; i < n; i++)
        bad |=
            (unsigned)!((irradiance[i] >= 0) & (irradiance[i] <= PVSZ_MOST_IRRADIANCE) &
                        (cell_temp[i] >= PVSZ_COLDEST_CELL) & (cell_temp[i] <= PVSZ_HOTTEST_CELL));
    return !bad;
}

/* The first condition that is not allowed is told. */
static pvsize_status check_row(const double *irradiance, const double *cell_temp, size_t n,
                               pvsize_diag *diag)
{
    if (row_is_allowed(irradiance, cell_temp, n))
        return PVSIZE_OK;
    for (size_t i = 0; i < n; i++) {                            /* GCOVR_EXCL_BR_LINE: as below */
        int32_t place = i < INT32_MAX ? (int32_t)i : INT32_MAX; /* GCOVR_EXCL_BR_LINE: of 34 GB */
        pvsize_status status = pvsz_check_condition(irradiance[i], cell_temp[i], place, diag);

        if (status)
            return status;
    }
    return PVSIZE_OK; /* GCOVR_EXCL_LINE: what a row is refused for one of its conditions is, too */
}

pvsize_status pvsize_curve_mpps(const pvsize_curve *curve, const double *irradiance,
                                const double *cell_temp, size_t n, double *voltage, double *current,
                                pvsize_diag *diag)
{
    pvsize_status status = pvsz_check_curve(curve, diag);

    if (status)
        return status;
    if (!irradiance && n)
        return pvsz_fail_null(diag, "irradiance");
    if (!cell_temp && n)
        return pvsz_fail_null(diag, "cell_temp");
    if (n)
        status = check_outputs(voltage, current, diag);
    if (!status)
        status = check_row(irradiance, cell_temp, n, diag);
    if (!status)
        pvsz_module_mpps(&curve->module, n, irradiance, cell_temp, voltage, current);
    return status;
}
