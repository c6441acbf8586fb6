/* Voltage drop along a cable; fed from the far end it is the rise. */
#include <math.h>

#include "conductor.h"

static double impedance(const pvsz_run *run)
{
    if (run->circuit == PVSZ_CIRCUIT_DC)
        return run->resistance;
    return run->resistance * run->cos_phi + run->reactance * sqrt(1 - run->cos_phi * run->cos_phi);
}

double pvsz_drop(const pvsz_run *run)
{
    double there_and_back = run->circuit == PVSZ_CIRCUIT_THREE_PHASE ? sqrt(3) : 2;

    return there_and_back * run->length / 1000 * run->current * impedance(run);
}

double pvsz_drop_of_runs(const pvsz_run *runs, int32_t count)
{
    double sum = 0;

    for (int32_t i = 0; i < count; i++)
        sum += pvsz_drop(&runs[i]);
    return sum;
}

int32_t pvsz_ac_circuit(double phases)
{
    return phases == 3 ? PVSZ_CIRCUIT_THREE_PHASE : PVSZ_CIRCUIT_SINGLE_PHASE;
}

double pvsz_ac_voltage(int32_t circuit, double to_neutral)
{
    return circuit == PVSZ_CIRCUIT_THREE_PHASE ? to_neutral * sqrt(3) : to_neutral;
}

double pvsz_drop_percent(double drop, double voltage)
{
    return drop / voltage * 100;
}
