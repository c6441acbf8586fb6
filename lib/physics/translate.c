/* See the header. */
#include "translate.h"

#include "elementary.h"

double pvsz_voltage_by_light(double voc, double rise, double irradiance)
{
    return voc * rise * pvsz_log(irradiance / 1000);
}

double pvsz_current_at(double stc, double coefficient, double cell_temp, double irradiance)
{
    return stc * (1 + coefficient / 100 * (cell_temp - 25)) * irradiance / 1000;
}

double pvsz_worst_of(double first, double second, double third)
{
    return ((1 + first / 100) * (1 + second / 100) * (1 + third / 100) - 1) * 100;
}
