/* The five parameters from the values of a data sheet. Numbers in, numbers out.
 * De Soto, Klein and Beckman, Solar Energy 80 (2006) 78-88 (from memory): the curve at STC
 * passes through short circuit, maximum power and open circuit, its power is level at
 * maximum power, and Voc at another temperature follows the data sheet's coefficient. */
#ifndef PVSZ_DIODE_FIT_H
#define PVSZ_DIODE_FIT_H

#include "diode_shift.h"

/* What the fifth equation is. */
enum { PVSZ_FIFTH_VOC, PVSZ_FIFTH_PMAX, PVSZ_FIFTH_IDEALITY };

typedef struct pvsz_sheet {
    double voc, isc, vmp, imp; /* at STC, V and A */
    double isc_coefficient;    /* A/K */
    int fifth;
    double voc_coefficient;  /* V/K; for PVSZ_FIFTH_VOC */
    double pmax_coefficient; /* 1/K; for PVSZ_FIFTH_PMAX */
    double ideality;         /* modified, V; for PVSZ_FIFTH_IDEALITY */
    double band_gap, narrowing;
} pvsz_sheet;

typedef enum pvsz_fit {
    PVSZ_FIT_EXACT,
    /* No curve with resistances of 0 or more meets the fifth equation. The ideality
     * factor is the largest that leaves them so; a Voc coefficient is met by another
     * band gap instead, a Pmax coefficient or ideality factor is not met. */
    PVSZ_FIT_BENT,
    /* No curve at all. It is concave: Vmp lies between Voc / 2 and Voc, Imp between
     * Isc / 2 and Isc. */
    PVSZ_FIT_BAD_VMP,
    PVSZ_FIT_BAD_IMP,
    PVSZ_FIT_BAD_COEFFICIENT, /* of the fifth equation: Voc rises, or the band gap of the
                                 bent curve would leave 0.5 to 3 eV */
    PVSZ_FIT_NO_CURVE         /* a knee too sharp for an ideality factor of Voc / 150 */
} pvsz_fit;

/* Kelvin from STC at which the coefficients hold. */
#define PVSZ_FIT_SPAN 10.0

/* *module is set with PVSZ_FIT_EXACT and PVSZ_FIT_BENT only. */
pvsz_fit pvsz_fit_sheet(const pvsz_sheet *sheet, pvsz_module *module);

#endif
