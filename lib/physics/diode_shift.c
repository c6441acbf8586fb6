/* One condition. */
#include "diode_shift.h"

#include "diode_mpp.h"

pvsz_diode pvsz_module_at(const pvsz_module *module, double irradiance, double cell_temp)
{
    return pvsz_shift(module, irradiance, cell_temp);
}
