/* Linear law of data sheets, and the correction table. */
#include <stddef.h>

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
