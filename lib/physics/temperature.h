/* Voltages of a module at another temperature, and the temperature of its cells in the
 * sun. Numbers in, numbers out: degC, W/m2, m/s. */
#ifndef PVSZ_TEMPERATURE_H
#define PVSZ_TEMPERATURE_H

#include <stdbool.h>
#include <stdint.h>

#include "elementary.h"

/* Linear law of the data sheet: coefficient in %/K from STC (25 degC). */
double pvsz_voltage_at(double stc, double coefficient, double cell_temp);

/* Factor of the correction table; false below its coldest band. A temperature
 * between two bands, which are whole degrees, takes the colder. At 25 degC and
 * above the factor is 1. */
bool pvsz_voc_factor(double temp, double *factor);

/* Linear in the irradiance, from the nominal module operating temperature: that at
 * 800 W/m2, 20 degC, 1 m/s (IEC 61215-2). */
PVSZ_INLINE double pvsz_cell_temp_nominal(double ambient, double irradiance, double nominal)
{
    return ambient + (nominal - 20) / 800 * irradiance;
}

/* The same with wind, and with the share of the light that leaves as current
 * (Duffie and Beckman, eq. 23.3.4, absorptance 0.9). `efficiency` is a share. */
double pvsz_cell_temp_nominal_wind(double ambient, double irradiance, double nominal,
                                   double efficiency, double wind);
/* Rise in proportion to the irradiance, K m2/W (Ross 1976). */
double pvsz_cell_temp_ross(double ambient, double irradiance, double rise);
/* Heat loss straight in the wind (Faiman 2008; IEC 61853-3): W/(m2 K), W s/(m3 K). */
PVSZ_INLINE double pvsz_cell_temp_linear(double ambient, double irradiance, double loss,
                                         double loss_by_wind, double wind)
{
    return ambient + irradiance / (loss + loss_by_wind * wind);
}

/* Without wind, and what wind adds: all seven module types of Faiman, Progress in
 * Photovoltaics 16 (2008) 307-315, on a rack, the wind taken at the module (read). */
#define PVSZ_RACK_LOSS 25.0
#define PVSZ_RACK_LOSS_BY_WIND 6.84

/* Rows of cell_heat.def, and of cell_rise.def. */
typedef enum pvsz_cell_heat {
#define CELL_HEAT(ID, a, b, excess) PVSZ_HEAT_##ID,
#define MOUNTING_HEAT(MOUNTING, row)
#include "../tables/cell_heat.def"
#undef CELL_HEAT
#undef MOUNTING_HEAT
    PVSZ_HEATS
} pvsz_cell_heat;

typedef enum pvsz_cell_rise {
#define CELL_RISE(ID, rise) PVSZ_RISE_##ID,
#include "../tables/cell_rise.def"
#undef CELL_RISE
    PVSZ_RISES
} pvsz_cell_rise;

/* Rise falling exponentially with the wind at 10 m, by construction and mounting (King,
 * Boyson and Kratochvil, SAND2004-3535); with the terms of a row for many hours. */
double pvsz_cell_temp_exponential(double ambient, double irradiance, pvsz_cell_heat heat,
                                  double wind);
typedef struct pvsz_heat_terms {
    double a, b, excess; /* K between the cell and the back, at 1000 W/m2 */
} pvsz_heat_terms;
pvsz_heat_terms pvsz_heat_terms_of(pvsz_cell_heat heat);
PVSZ_INLINE double pvsz_cell_temp_by(const pvsz_heat_terms *terms, double ambient,
                                     double irradiance, double wind)
{
    double back = pvsz_exp(terms->a + terms->b * wind);

    return ambient + irradiance * (back + terms->excess / 1000);
}
/* The row for a mounting (PVSIZE_MOUNTING_...); PVSZ_HEATS for none. */
pvsz_cell_heat pvsz_heat_of(int32_t mounting);
/* The rise published for a mounting, K m2/W. */
double pvsz_rise_of(pvsz_cell_rise mounting);

#endif
