/* Rows of points: short loops over arrays, which compilers turn into vector instructions, as
 * wide as the processor has them. */
#include "diode_rows.h"

#include "diode_mpp.h"
#include "widths.h"

typedef struct row {
    double irradiance[PVSZ_ROW], cell_temp[PVSZ_ROW];
    double light[PVSZ_ROW], saturation[PVSZ_ROW], ideality[PVSZ_ROW], shunt[PVSZ_ROW];
    double u[PVSZ_ROW];
    double voltage[PVSZ_ROW], current[PVSZ_ROW], sure[PVSZ_ROW];
} row;

PVSZ_INLINE pvsz_diode diode_of(const row *r, double series, int i)
{
    return (pvsz_diode){r->light[i], r->saturation[i], r->ideality[i], series, r->shunt[i]};
}

PVSZ_INLINE void start_row(double series, row *r)
{
    for (int i = 0; i < PVSZ_ROW; i++) {
        pvsz_diode d = diode_of(r, series, i);

        r->u[i] = pvsz_quick_start(&d);
    }
}

PVSZ_INLINE void shift_row(const pvsz_module *m, row *r)
{
    for (int i = 0; i < PVSZ_ROW; i++) {
        pvsz_diode d = pvsz_shift(m, r->irradiance[i], r->cell_temp[i]);

        r->light[i] = d.light;
        r->saturation[i] = d.saturation;
        r->ideality[i] = d.ideality;
        r->shunt[i] = d.shunt;
    }
}

PVSZ_INLINE void point_row(const pvsz_module *module, row *r)
{
    pvsz_module m = *module; /* of its own: not changed by what is written below */

    shift_row(&m, r);
    start_row(m.stc.series, r);
    for (int i = 0; i < PVSZ_ROW; i++) {
        pvsz_diode d = diode_of(r, m.stc.series, i);

        r->u[i] = pvsz_quick_step(&d, r->u[i]);
    }
    for (int i = 0; i < PVSZ_ROW; i++) {
        pvsz_diode d = diode_of(r, m.stc.series, i);
        pvsz_point point = pvsz_quick_end(&d, r->u[i], &r->sure[i]);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

/* At one temperature only light and shunt follow the sun. One step s leaves u wrong by about
 * s^3 / 12, and the power by the square of that. */
PVSZ_INLINE void power_row(const pvsz_diode *in_full_sun, row *r)
{
    pvsz_diode full = *in_full_sun;

    for (int i = 0; i < PVSZ_ROW; i++) {
        double sun = pvsz_sun_share(r->irradiance[i]);

        r->light[i] = full.light * sun;
        r->shunt[i] = full.shunt * sun;
    }
    start_row(full.series, r);
    for (int i = 0; i < PVSZ_ROW; i++) {
        pvsz_diode d = diode_of(r, full.series, i);
        pvsz_seeker at = pvsz_seek(&d, r->u[i]);
        pvsz_point point = pvsz_settle(&d, at);
        double settled = 0.02 - pvsz_size(at.step);

        r->sure[i] =
            pvsz_least(pvsz_least(settled, at.u - 3), pvsz_least(point.voltage, point.current));
        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

PVSZ_IN_WIDTHS(point_row, pvsz_module, row)
PVSZ_IN_WIDTHS(power_row, pvsz_diode, row)

/* Those that the quick way is not sure of, one by one. Of the dark ones it never is: their u is 0,
 * and with it settled voltage and current. */
static void mend_row(const pvsz_module *module, row *r)
{
    for (int i = 0; i < PVSZ_ROW; i++) {
        if (r->sure[i] > 0)
            continue;
        pvsz_diode d = diode_of(r, module->stc.series, i);
        pvsz_point point = pvsz_diode_mpp(&d);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

static size_t least_count(size_t n)
{
    return n < PVSZ_ROW ? n : PVSZ_ROW;
}

void pvsz_module_mpps_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                         const double *cell_temp, double *voltage, double *current)
{
    row r;

    for (size_t done = 0; done < n; done += PVSZ_ROW) {
        size_t count = least_count(n - done);

        for (size_t i = 0; i < PVSZ_ROW; i++) {
            r.irradiance[i] = i < count ? irradiance[done + i] : PVSZ_STC_IRRADIANCE;
            r.cell_temp[i] = i < count ? cell_temp[done + i] : 25;
        }
        point_row_by[width](module, &r);
        mend_row(module, &r);
        for (size_t i = 0; i < count; i++) {
            voltage[done + i] = r.voltage[i];
            current[done + i] = r.current[i];
        }
    }
}

void pvsz_module_mpps(const pvsz_module *module, size_t n, const double *irradiance,
                      const double *cell_temp, double *voltage, double *current)
{
    pvsz_module_mpps_by(pvsz_widest(), module, n, irradiance, cell_temp, voltage, current);
}

void pvsz_module_powers_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                           double cell_temp, double *power)
{
    pvsz_diode full = pvsz_module_at(module, PVSZ_STC_IRRADIANCE, cell_temp);
    row r;

    for (int i = 0; i < PVSZ_ROW; i++) {
        r.saturation[i] = full.saturation;
        r.ideality[i] = full.ideality;
    }
    for (size_t done = 0; done < n; done += PVSZ_ROW) {
        size_t count = least_count(n - done);

        for (size_t i = 0; i < PVSZ_ROW; i++)
            r.irradiance[i] = i < count ? irradiance[done + i] : PVSZ_STC_IRRADIANCE;
        power_row_by[width](&full, &r);
        mend_row(module, &r);
        for (size_t i = 0; i < count; i++)
            power[done + i] = r.voltage[i] * r.current[i];
    }
}

void pvsz_module_powers(const pvsz_module *module, size_t n, const double *irradiance,
                        double cell_temp, double *power)
{
    pvsz_module_powers_by(pvsz_widest(), module, n, irradiance, cell_temp, power);
}
