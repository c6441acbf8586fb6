/* Translation of the curve, one by one and in rows. */
#include "diode_shift.h"

#include "diode_mpp.h"
#include "elementary.h"

static inline pvsz_diode shift(const pvsz_module *module, double irradiance, double cell_temp)
{
    const pvsz_diode *stc = &module->stc;
    double warmer = cell_temp - 25, kelvin = cell_temp + 273.15;
    double t = kelvin * (1 / PVSZ_STC_KELVIN);
    double sun = irradiance >= PVSZ_LEAST_IRRADIANCE ? irradiance * (1 / PVSZ_STC_IRRADIANCE) : 0;
    /* Eg,ref / k Tref - Eg / k T, without taking two large numbers apart */
    double barrier = module->band_gap / PVSZ_BOLTZMANN * warmer *
                     (1 / PVSZ_STC_KELVIN - module->narrowing) / kelvin;
    double light = sun * (stc->light + module->light_coefficient * warmer);

    return (pvsz_diode){
        .light = light > 0 ? light : 0,
        .saturation = stc->saturation * (t * t * t) * pvsz_exp(barrier),
        .ideality = stc->ideality * t,
        .series = stc->series,
        .shunt = stc->shunt * sun,
    };
}

pvsz_diode pvsz_module_at(const pvsz_module *module, double irradiance, double cell_temp)
{
    return shift(module, irradiance, cell_temp);
}

/* Points of a row at a time: short loops over arrays, which compilers turn into vector
 * instructions. */
enum { ROW = 16 };

typedef struct row {
    double light[ROW], saturation[ROW], ideality[ROW], shunt[ROW];
    double voltage[ROW], current[ROW], sure[ROW];
} row;

static void shift_row(const pvsz_module *module, const double *irradiance, const double *cell_temp,
                      row *r)
{
    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = shift(module, irradiance[i], cell_temp[i]);

        r->light[i] = d.light;
        r->saturation[i] = d.saturation;
        r->ideality[i] = d.ideality;
        r->shunt[i] = d.shunt;
    }
}

static inline pvsz_diode diode_of(const row *r, double series, int i)
{
    return (pvsz_diode){r->light[i], r->saturation[i], r->ideality[i], series, r->shunt[i]};
}

static void quick_row(double series, row *r)
{
    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = diode_of(r, series, i);
        pvsz_point point = pvsz_mpp_quick(&d, &r->sure[i]);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

static void mpp_row(const pvsz_module *module, const double *irradiance, const double *cell_temp,
                    row *r)
{
    double series = module->stc.series;

    shift_row(module, irradiance, cell_temp, r);
    quick_row(series, r);
    for (int i = 0; i < ROW; i++) {
        if (r->sure[i] > 0 && r->light[i] > 0)
            continue;
        pvsz_diode d = diode_of(r, series, i);
        pvsz_point point = pvsz_diode_mpp(&d);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

void pvsz_module_mpps(const pvsz_module *module, size_t n, const double *irradiance,
                      const double *cell_temp, double *voltage, double *current)
{
    row r;

    for (size_t done = 0; done < n; done += ROW) {
        double sun[ROW], temp[ROW];
        size_t count = n - done < ROW ? n - done : ROW;

        for (size_t i = 0; i < ROW; i++) {
            sun[i] = i < count ? irradiance[done + i] : PVSZ_STC_IRRADIANCE;
            temp[i] = i < count ? cell_temp[done + i] : 25;
        }
        mpp_row(module, sun, temp, &r);
        for (size_t i = 0; i < count; i++) {
            voltage[done + i] = r.voltage[i];
            current[done + i] = r.current[i];
        }
    }
}
