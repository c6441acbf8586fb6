/* A day by hand: light of 1000 W/m2 and cells at 25 degC all day, so that modules work at STC and
 * every step of a year can be told from the data sheet. */
#ifndef PV_DAY_H
#define PV_DAY_H

#include "pv_test.h"

enum { ROWS = 24 };

static double beam[ROWS], diffuse[ROWS], temp[ROWS], wind[ROWS];

/* Vmp times Imp of the invented module; ten in a string */
static const double vmp = 325, imp = 13.23, pmp = 325 * 13.23;

static inline void stc_all_day(void)
{
    for (int i = 0; i < ROWS; i++) {
        beam[i] = wind[i] = 0;
        diffuse[i] = 1000;
        temp[i] = -15; /* 40 K below, at 25 W/(m2 K) */
    }
}

static inline pvsize_spec *flat_site(void)
{
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_LATITUDE, -33.9, PVSIZE_SITE_LONGITUDE,
                             151.2, PVSIZE_SITE_TIME_ZONE, 10, PVSIZE_SITE_SUPPLY_VOLTAGE, 230);

    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 0, PVSIZE_PLANE_AZIMUTH, 0,
                    PVSIZE_PLANE_HEAT_LOSS, 25));
    return site;
}

static inline pvsize_weather *weather_of(void)
{
    pvsize_spec *site = flat_site();
    pvsize_spec *series = SPEC(PVSIZE_KIND_SERIES, PVSIZE_SERIES_GAP, -999);
    pvsize_weather *weather;

    OK(pvsize_weather_from_series(site, series, NULL, beam, diffuse, temp, wind, ROWS, 1, NULL,
                                  &weather, diag));
    pvsize_spec_free(series);
    pvsize_spec_free(site);
    return weather;
}

static inline pvsize_light *light_with(const double *options)
{
    pvsize_spec *outlook = spec_with(PVSIZE_KIND_OUTLOOK, options);
    pvsize_weather *weather = weather_of();
    pvsize_light *light;

    OK(pvsize_light_new(weather, outlook, NULL, &light, diag));
    pvsize_weather_free(weather);
    pvsize_spec_free(outlook);
    return light;
}

static const double plain[] = {PVSIZE_OUTLOOK_SKY, PVSIZE_SKY_EVEN, PVSIZE_OUTLOOK_COVER,
                               PVSIZE_COVER_NONE, 0};

/* One string of ten on one input; pairs of numbers for input, inverter and site. */
static inline pvsize_spec *small_system(const double *input, const double *inverter,
                                        const double *site)
{
    pvsize_spec *system, *unit, *place = flat_site();

    OK(pvsize_spec_new(PVSIZE_KIND_SYSTEM, NULL, &system, diag));
    for (; site && *site != 0; site += 2)
        OK(pvsize_spec_set_number(place, (int32_t)site[0], site[1], diag));
    give(system, place);
    unit = spec_with(PVSIZE_KIND_INVERTER, inverter ? inverter : plain + 4);
    give(unit, spec_with(PVSIZE_KIND_INPUT, input ? input : plain + 4));
    give(system, unit);
    give(system, invented_array(0, 0, 10, 1));
    return system;
}

/* One more inverter, with one input and a string of so many modules. */
static inline void add_second(pvsize_spec *system, pvsize_spec *inverter, int32_t modules)
{
    pvsize_spec *array = invented_array(0, 0, modules, 1);

    give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
    give(system, inverter);
    OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_INVERTER, 1, diag));
    give(system, array);
}

#define PAIRS(...) ((const double[]){__VA_ARGS__, 0})

/* Fills, and frees the system, which the year outlives. */
static inline pvsize_year *year_of(pvsize_spec *system, const double *options, const double *load)
{
    pvsize_light *light = light_with(options);
    pvsize_year *year;

    OK(pvsize_year_new(NULL, &year, diag));
    OK(pvsize_year_fill(system, light, load, load ? ROWS : 0, year, diag));
    pvsize_light_free(light);
    pvsize_spec_free(system);
    return year;
}

/* The same, and keeps the system, at a supply of so many volts all day. */
static inline pvsize_year *year_at(const pvsize_spec *system, double volts, const double *load)
{
    pvsize_light *light = light_with(plain);
    double supply[ROWS];
    pvsize_year *year;

    for (int i = 0; i < ROWS; i++)
        supply[i] = volts;
    OK(pvsize_year_new(NULL, &year, diag));
    OK(pvsize_year_fill_at_supply(system, light, load, load ? ROWS : 0, supply, ROWS, year, diag));
    pvsize_light_free(light);
    return year;
}

static inline int32_t subject(const pvsize_year *year, int32_t kind)
{
    int32_t found;

    OK(pvsize_year_subject(year, kind, 0, &found, diag));
    return found;
}

static inline double energy(const pvsize_year *year, int32_t kind, int32_t what)
{
    double kwh;

    OK(pvsize_year_energy(year, subject(year, kind), 0, what, &kwh, diag));
    return kwh;
}

static inline double loss(const pvsize_year *year, int32_t what)
{
    double kwh;

    OK(pvsize_year_loss(year, subject(year, PVSIZE_KIND_SYSTEM), 0, what, &kwh, diag));
    return kwh;
}

static inline double active(const pvsize_year *year, int32_t kind, int32_t what)
{
    double hours;

    OK(pvsize_year_active(year, subject(year, kind), what, &hours, diag));
    return hours;
}

/* W all day as kWh */
static inline double day(double watts)
{
    return watts * ROWS / 1000;
}

static inline double output(const pvsize_year *year)
{
    return energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_OUTPUT);
}

#endif
