/* The single-diode model with five parameters: one module's current-voltage curve.
 * Numbers in, numbers out.
 *
 *     I = light - saturation (exp(u) - 1) - shunt ideality u,   u = (V + I series) / ideality
 *
 * Every point of the curve is elementary in u, the diode voltage in units of
 * `ideality`; the solvers look for u. */
#ifndef PVSZ_DIODE_H
#define PVSZ_DIODE_H

#include <stddef.h>

/* light 0 to 1e4 A, saturation 1e-200 to 1e40 A, ideality 1e-5 to 1e5 V, series 0 to 1e6 ohm,
 * shunt 0 to 1e5 S: within that nothing overflows. */
typedef struct pvsz_diode {
    double light;      /* light current, A */
    double saturation; /* saturation current of the diode, A */
    double ideality;   /* modified ideality factor: cells in series × n k T / q, V */
    double series;     /* series resistance, ohm */
    double shunt;      /* shunt conductance, S: 0 where there is none */
} pvsz_diode;

typedef struct pvsz_point {
    double voltage, current;
} pvsz_point;

/* Current at a voltage, also beyond open circuit (negative: the module takes current)
 * and in reverse bias. There the model knows the shunt only: cells break down at some
 * -10 to -30 V each, which it does not show. */
double pvsz_diode_current(const pvsz_diode *diode, double voltage);
/* Voltage at a current; minus infinity where no voltage drives it (without a shunt the
 * current never passes light + saturation). */
double pvsz_diode_voltage(const pvsz_diode *diode, double current);
/* Maximum-power point; 0, 0 in the dark. */
pvsz_point pvsz_diode_mpp(const pvsz_diode *diode);
/* Voltage above that point at which the power is this, above 0 and no more than at the point;
 * `voltage` is some lower one, best the one that gave more. */
double pvsz_diode_throttled(const pvsz_diode *diode, double voltage, double power);

/* Current with its first and second derivative by voltage. */
typedef struct pvsz_slope {
    double current, first, second;
} pvsz_slope;
pvsz_slope pvsz_diode_slope(const pvsz_diode *diode, double voltage);

/* Points at n diode voltages, 2 or more, evenly from short circuit to open circuit. */
void pvsz_diode_sample(const pvsz_diode *diode, size_t n, double *voltage, double *current);

/* Module behind bypass diodes: each holds its share of the cells at no less than -drop
 * while it conducts, a vertical line in the curve. */
typedef struct pvsz_bypass {
    double diodes, drop; /* count in the module; V each */
} pvsz_bypass;
double pvsz_bypassed_voltage(const pvsz_diode *diode, const pvsz_bypass *bypass, double current);

#endif
