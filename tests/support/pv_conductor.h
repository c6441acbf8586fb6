/* What the tables of conductors say, asked from inside: links the static library. */
#ifndef PV_CONDUCTOR_H
#define PV_CONDUCTOR_H

#include "../../lib/base/base.h"
#include "../../lib/wiring/conductor.h"
#include "pv_test.h"

enum { BUNCHED = PVSZ_GROUPING_BUNCHED, LAYER = PVSZ_GROUPING_SINGLE_LAYER };

static inline double resistance(int32_t conductor, const char *size, double temp)
{
    double ohm = NAN;

    ck_assert(pvsz_resistance(conductor, pvsz_size_named(conductor, size), temp, &ohm));
    return ohm;
}

static inline double capacity(int32_t laying, int32_t conductor, const char *size)
{
    double amps = NAN;

    ck_assert(pvsz_capacity(laying, conductor, pvsz_size_named(conductor, size), &amps));
    return amps;
}

static inline double by_column(int32_t column, const char *size)
{
    return capacity(column, PVSZ_CONDUCTOR_AWG, size);
}

static inline double ambient(int32_t table, double temp)
{
    double factor = NAN;

    ck_assert(pvsz_ambient_factor(table, temp, &factor));
    return factor;
}

static inline double grouping(int32_t table, int32_t count)
{
    double factor = NAN;

    ck_assert(pvsz_grouping_factor(table, count, &factor));
    return factor;
}

static inline double roof(int32_t edition, double height)
{
    double kelvin = NAN;

    ck_assert(pvsz_roof_adder(edition, height, &kelvin));
    return kelvin;
}

static inline double drop(int32_t circuit, double length, double current, double ohm_per_km)
{
    pvsz_run run = {circuit, length, current, ohm_per_km, 0, 1};

    return pvsz_drop(&run);
}

static inline double uniform(double low, double high)
{
    return low + (high - low) * (rand() / (double)RAND_MAX);
}

#endif
