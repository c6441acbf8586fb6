/* Linear law of data sheets, the correction table, and the cell in the sun. */
#include <stddef.h>

#include "pvsize/ids.h"
#include "temperature.h"

static const struct {
    double warmest, coldest, factor;
} bands[] = {
#define VOC_FACTOR(warmest, coldest, factor) {warmest, coldest, factor},
#include "../tables/voc_factors.def"
#undef VOC_FACTOR
};

double pvsz_voltage_at(double stc, double coefficient, double cell_temp)
{
    return stc * (1 + coefficient / 100 * (cell_temp - 25));
}

bool pvsz_voc_factor(double temp, double *factor)
{
    if (temp >= 25) {
        *factor = 1;
        return true;
    }
    for (size_t i = 0; i < sizeof bands / sizeof bands[0]; i++) {
        if (temp >= bands[i].coldest) {
            *factor = bands[i].factor;
            return true;
        }
    }
    return false;
}

static const pvsz_heat_terms heats[] = {
#define CELL_HEAT(ID, a, b, excess) {a, b, excess},
#define MOUNTING_HEAT(MOUNTING, row)
#include "../tables/cell_heat.def"
#undef CELL_HEAT
#undef MOUNTING_HEAT
};

static const struct {
    int32_t mounting;
    pvsz_cell_heat heat;
} mountings[] = {
#define CELL_HEAT(ID, a, b, excess)
#define MOUNTING_HEAT(MOUNTING, row) {PVSIZE_MOUNTING_##MOUNTING, PVSZ_HEAT_##row},
#include "../tables/cell_heat.def"
#undef CELL_HEAT
#undef MOUNTING_HEAT
};

static const double rises[] = {
#define CELL_RISE(ID, rise) rise,
#include "../tables/cell_rise.def"
#undef CELL_RISE
};

double pvsz_cell_temp_nominal_wind(double ambient, double irradiance, double nominal,
                                   double efficiency, double wind)
{
    double rise = (nominal - 20) / 800 * irradiance;

    return ambient + rise * (1 - efficiency / 0.9) * 9.5 / (5.7 + 3.8 * wind);
}

double pvsz_cell_temp_ross(double ambient, double irradiance, double rise)
{
    return ambient + rise * irradiance;
}

double pvsz_cell_temp_exponential(double ambient, double irradiance, pvsz_cell_heat heat,
                                  double wind)
{
    return pvsz_cell_temp_by(&heats[heat], ambient, irradiance, wind);
}

pvsz_heat_terms pvsz_heat_terms_of(pvsz_cell_heat heat)
{
    return heats[heat];
}

pvsz_cell_heat pvsz_heat_of(int32_t mounting)
{
    for (size_t i = 0; i < sizeof mountings / sizeof mountings[0]; i++)
        if (mountings[i].mounting == mounting)
            return mountings[i].heat;
    return PVSZ_HEATS;
}

double pvsz_rise_of(pvsz_cell_rise mounting)
{
    return rises[mounting];
}
