/* Kinds and sizes of conductors, and their resistance. */
#include <string.h>

#include "../base/base.h"
#include "conductor.h"

enum { METRIC_KINDS = PVSZ_CONDUCTOR_AWG };

static const struct {
    double section;
    const char *name;
    double ohm[METRIC_KINDS];
} metric[] = {
#define CONDUCTOR_MM2(mm2, name, ...) {mm2, name, {__VA_ARGS__}},
#define CONDUCTOR_AWG(mils, name, ohm, reactance)
#include "../tables/conductors.def"
#undef CONDUCTOR_AWG
#undef CONDUCTOR_MM2
};

static const struct {
    double section;
    const char *name;
    double ohm, reactance; /* ohm per 1000 ft */
} gauge[] = {
#define CONDUCTOR_MM2(mm2, name, ...)
#define CONDUCTOR_AWG(mils, name, ohm, reactance) {mils, name, ohm, reactance},
#include "../tables/conductors.def"
#undef CONDUCTOR_AWG
#undef CONDUCTOR_MM2
};

static const double km_per_kft = 0.3048;

/* The law that takes a resistance to another temperature. */
static const struct {
    int32_t first; /* row of its smallest size */
    double temp, coefficient;
    int32_t known; /* the coefficient */
} kinds[PVSZ_CONDUCTORS] = {
    [PVSZ_CONDUCTOR_CLASS2] = {0, 20, 0.00393, PVSIZE_KNOWN_READ},
    [PVSZ_CONDUCTOR_CLASS2_COATED] = {0, 20, 0.00393, PVSIZE_KNOWN_READ},
    [PVSZ_CONDUCTOR_CLASS5] = {0, 20, 0.00393, PVSIZE_KNOWN_READ},
    [PVSZ_CONDUCTOR_CLASS5_TINNED] = {0, 20, 0.00393, PVSIZE_KNOWN_READ},
    [PVSZ_CONDUCTOR_ALUMINIUM] = {5, 20, 0.00403, PVSIZE_KNOWN_MEMORY},
    [PVSZ_CONDUCTOR_AWG] = {0, 75, 0.00323, PVSIZE_KNOWN_READ},
};

int32_t pvsz_size_count(int32_t conductor)
{
    if (conductor < 0 || conductor >= PVSZ_CONDUCTORS)
        return 0;
    if (conductor == PVSZ_CONDUCTOR_AWG)
        return PVSZ_COUNT(gauge);
    return PVSZ_COUNT(metric) - kinds[conductor].first;
}

/* Row of a size in its table; -1 outside the list. */
static int32_t row_of(int32_t conductor, int32_t size)
{
    if (size < 0 || size >= pvsz_size_count(conductor))
        return -1;
    return kinds[conductor].first + size;
}

const char *pvsz_size_name(int32_t conductor, int32_t size)
{
    int32_t row = row_of(conductor, size);

    if (row < 0)
        return NULL;
    return conductor == PVSZ_CONDUCTOR_AWG ? gauge[row].name : metric[row].name;
}

double pvsz_size_section(int32_t conductor, int32_t size)
{
    int32_t row = row_of(conductor, size);

    if (row < 0)
        return 0;
    return conductor == PVSZ_CONDUCTOR_AWG ? gauge[row].section : metric[row].section;
}

int32_t pvsz_size_named(int32_t conductor, const char *name)
{
    for (int32_t i = 0; name && i < pvsz_size_count(conductor); i++)
        if (strcmp(pvsz_size_name(conductor, i), name) == 0)
            return i;
    return -1;
}

int32_t pvsz_size_of_section(int32_t conductor, double section)
{
    for (int32_t i = 0; i < pvsz_size_count(conductor); i++)
        if (pvsz_size_section(conductor, i) == section)
            return i;
    return -1;
}

int32_t pvsz_size_of_gauge(int32_t awg)
{
    static const int32_t gauges[] = {14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3};

    for (int32_t i = 0; i < (int32_t)(sizeof gauges / sizeof gauges[0]); i++)
        if (gauges[i] == awg)
            return i;
    return -1;
}

int32_t pvsz_resistance(int32_t conductor, int32_t size, double temp, double *ohm_per_km)
{
    int32_t row = row_of(conductor, size);
    double ohm, warmer;

    if (row < 0 || !(temp >= -60 && temp <= 250))
        return 0;
    if (conductor == PVSZ_CONDUCTOR_AWG)
        ohm = gauge[row].ohm / km_per_kft;
    else
        ohm = metric[row].ohm[conductor];
    warmer = temp - kinds[conductor].temp;
    *ohm_per_km = ohm * (1 + kinds[conductor].coefficient * warmer);
    return kinds[conductor].known;
}

int32_t pvsz_reactance(int32_t conductor, int32_t size, double *ohm_per_km)
{
    int32_t row = row_of(conductor, size);

    if (row < 0 || conductor != PVSZ_CONDUCTOR_AWG)
        return 0;
    *ohm_per_km = gauge[row].reactance / km_per_kft;
    return PVSIZE_KNOWN_READ;
}
