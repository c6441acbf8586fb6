/* An inverter at a high a.c. voltage, in closed form. */
#include "volt_watt.h"

#include "../base/base.h"
#include "elementary.h"

/* On the slope P = rated - slope (supply + rise P - start), which is solved for P. With `slope`
 * and `rise` of 0 or more, P less what is allowed at the voltage that P makes only grows with P:
 * it is 0 once. So where P comes out beyond an end of the slope, the root is on that side of it,
 * where what is allowed is that end's. */
double pvsz_volt_watt_most(const pvsz_volt_watt *r, double supply)
{
    double on_slope = (r->rated - r->slope * (supply - r->start)) / (1 + r->slope * r->rise);

    return pvsz_greatest(r->least, pvsz_least(on_slope, r->rated));
}

double pvsz_at_supply(const pvsz_volt_watt *r, double supply, double power)
{
    double held = pvsz_least(power, pvsz_volt_watt_most(r, supply));

    return pvsz_at_most(supply + r->rise * held, r->disconnect) ? held : 0;
}
