/* What an inverter feeds in where the a.c. voltage is high: its volt-watt response, and where it
 * disconnects. Numbers in, numbers out; all voltages are those to neutral, in V, powers in W. */
#ifndef PVSZ_VOLT_WATT_H
#define PVSZ_VOLT_WATT_H

/* Up to `start` at its terminals it may give `rated`, then `slope` less for each volt, but never
 * less than `least`. Without a response all power is allowed: `rated` and `least` are infinite,
 * `slope` 0. */
typedef struct pvsz_volt_watt {
    double start, slope, rated, least;
    double rise;       /* V along its cables for each W, 0 or more */
    double disconnect; /* above this at its terminals it gives nothing; may be infinite */
} pvsz_volt_watt;

/* Most power that the response allows at a voltage of the supply, the rise by that very power
 * included. */
double pvsz_volt_watt_most(const pvsz_volt_watt *response, double supply);
/* What is fed in of `power`: the most that is allowed, and nothing where the voltage that this
 * makes is above that of disconnection. */
double pvsz_at_supply(const pvsz_volt_watt *response, double supply, double power);

#endif
