/* Conversion efficiency of an inverter over load and voltage, from single points.
 * Numbers in, numbers out: loads and losses as shares of the rated a.c. power,
 * efficiencies as shares of 1, volts. */
#ifndef PVSZ_CONVERSION_H
#define PVSZ_CONVERSION_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { PVSZ_MOST_CURVES = 16, PVSZ_LOSS_TERMS = 3 };

typedef struct pvsz_efficiency_point {
    double load, voltage, efficiency;
    bool has_voltage;
} pvsz_efficiency_point;

/* Losses at one voltage: loss[0] + loss[1] p + loss[2] p^2 at an a.c. load p (Schmidt and
 * Sauer 1996). No term is negative: so more d.c. power never gives less a.c. power, and
 * the efficiency stays below 1. */
typedef struct pvsz_loss_curve {
    double voltage;
    double loss[PVSZ_LOSS_TERMS];
} pvsz_loss_curve;

/* Curves in the order of their voltages; one alone holds at every voltage. */
typedef struct pvsz_conversion {
    int32_t count;
    pvsz_loss_curve curve[PVSZ_MOST_CURVES];
} pvsz_conversion;

/* How much a share of the load counts in a weighted efficiency. */
typedef enum pvsz_weighting {
    PVSZ_WEIGHTED_EUROPEAN, /* EN 50530 annex D */
    PVSZ_WEIGHTED_CEC,      /* California Energy Commission */
    PVSZ_WEIGHTINGS
} pvsz_weighting;

/* Fits one curve to the points of each voltage, so that the efficiency errs least in the
 * sense of least squares; points without a voltage belong to every curve, or make one of
 * their own. False if there are no points, more voltages than curves, or a load or an
 * efficiency that is not above 0, or an efficiency above 1. */
bool pvsz_fit_conversion(const pvsz_efficiency_point *points, int32_t count,
                         pvsz_conversion *conversion);
/* The curve that has this weighted efficiency, with losses in the proportions of an
 * inverter of 95.5, 98 and 97.5 % at a tenth, half and full load: this library's own
 * choice where a data sheet has nothing else. False outside 0.5 to 0.999. */
bool pvsz_conversion_of_weighted(pvsz_weighting weighting, double efficiency,
                                 pvsz_conversion *conversion);
/* Nothing is lost. */
pvsz_conversion pvsz_conversion_without_loss(void);

/* A.c. power from d.c. power, and the other way round. Between two voltages straight;
 * outside of them as at the nearest. Less d.c. power than the inverter needs for itself
 * gives 0. */
double pvsz_ac_power(const pvsz_conversion *conversion, double dc_power, double voltage);
/* The same of many, bit for bit; and by one width of vector instructions (widths.h), for tests. */
void pvsz_ac_powers(const pvsz_conversion *conversion, size_t n, const double *dc_power,
                    const double *voltage, double *ac_power);
void pvsz_ac_powers_by(int width, const pvsz_conversion *conversion, size_t n,
                       const double *dc_power, const double *voltage, double *ac_power);
double pvsz_dc_power(const pvsz_conversion *conversion, double ac_power, double voltage);
double pvsz_efficiency(const pvsz_conversion *conversion, double load, double voltage);
double pvsz_weighted_efficiency(const pvsz_conversion *conversion, pvsz_weighting weighting,
                                double voltage);

#endif
