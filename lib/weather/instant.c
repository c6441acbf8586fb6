/* The sun and a plane at one instant, for a check on the day. */
#include <math.h>

#include "../physics/clearness.h"
#include "weather.h"

/* from 1950-01-01 to the end of 2100, in days from the epoch */
#define FIRST_INSTANT (-18262.5)
#define LAST_INSTANT 36889.5

static void put(double *place, double value)
{
    if (place)
        *place = value;
}

static pvsize_status check_term(int32_t term, double value, pvsize_diag *diag)
{
    return pvsz_check_number(pvsz_term_find(term), value, diag);
}

static pvsize_status check_range(const char *argument, double value, double low, double high,
                                 pvsize_diag *diag)
{
    pvsize_status status = !isfinite(value)              ? PVSIZE_E_NOT_FINITE
                           : value < low || value > high ? PVSIZE_E_OUT_OF_RANGE
                                                         : PVSIZE_OK;

    if (status) {
        pvsz_fail_range(diag, status, 0, value, low, high);
        pvsz_fail_argument(diag, argument);
    }
    return status;
}

pvsize_status pvsize_julian_day(int32_t year, int32_t day, double hour, double *julian_day,
                                pvsize_diag *diag)
{
    pvsize_status status = check_term(PVSIZE_SERIES_YEAR, year, diag);

    if (!status)
        status = check_range("day", day, 1, 365 + pvsz_is_leap(year), diag);
    if (!status)
        status = check_range("hour", hour, 0, 24, diag);
    if (!status && !julian_day)
        status = pvsz_fail_null(diag, "julian_day");
    if (!status)
        *julian_day = PVSZ_EPOCH + pvsz_day_number(year, day, hour);
    return status;
}

static pvsize_status find_sun(double latitude, double longitude, double julian_day, pvsz_sun *sun,
                              pvsize_diag *diag)
{
    pvsize_status status = check_term(PVSIZE_SITE_LATITUDE, latitude, diag);
    double instant = julian_day - PVSZ_EPOCH;
    pvsz_place place;
    pvsz_sun_day day;

    if (!status)
        status = check_term(PVSIZE_SITE_LONGITUDE, longitude, diag);
    if (!status)
        status = check_range("julian_day", julian_day, FIRST_INSTANT + PVSZ_EPOCH,
                             LAST_INSTANT + PVSZ_EPOCH, diag);
    if (status)
        return status;
    place = pvsz_place_at(latitude, longitude);
    day = pvsz_sun_day_of(instant);
    *sun = pvsz_sun_at(&day, instant - day.start, &place);
    return PVSIZE_OK;
}

pvsize_status pvsize_sun_position(double latitude, double longitude, double julian_day,
                                  double pressure, double temp, double *azimuth, double *elevation,
                                  pvsize_diag *diag)
{
    pvsz_sun sun;
    double side, height;
    pvsize_status status = find_sun(latitude, longitude, julian_day, &sun, diag);

    if (!status)
        status = check_range("pressure", pressure, 0, 1200, diag);
    if (!status)
        status = check_term(PVSIZE_INTERVAL_TEMP, temp, diag);
    if (status)
        return status;
    pvsz_horizontal(&sun, &side, &height);
    put(azimuth, side);
    put(elevation, height + pvsz_refraction(height, pressure, temp));
    return PVSIZE_OK;
}

pvsize_status pvsize_split_global(double latitude, double longitude, double julian_day,
                                  double global, double *beam, double *diffuse, pvsize_diag *diag)
{
    pvsz_sun sun;
    double b, d;
    pvsize_status status = find_sun(latitude, longitude, julian_day, &sun, diag);

    if (!status)
        status = check_term(PVSIZE_INTERVAL_GLOBAL, global, diag);
    if (status)
        return status;
    pvsz_split_global(&sun, global, &b, &d);
    put(beam, b);
    put(diffuse, d);
    return PVSIZE_OK;
}

pvsize_status pvsize_plane_irradiance(double latitude, double longitude, double julian_day,
                                      double beam, double diffuse, double albedo, double tilt,
                                      double azimuth, double *from_beam, double *from_sky,
                                      double *from_ground, double *incidence, pvsize_diag *diag)
{
    const struct {
        int32_t term;
        double value;
    } given[] = {{PVSIZE_INTERVAL_BEAM, beam},
                 {PVSIZE_INTERVAL_DIFFUSE, diffuse},
                 {PVSIZE_SITE_ALBEDO, albedo},
                 {PVSIZE_PLANE_TILT, tilt},
                 {PVSIZE_PLANE_AZIMUTH, azimuth}};
    pvsz_sun sun;
    pvsz_face face;
    pvsz_sky sky;
    pvsz_plane_sun on;
    pvsize_status status = find_sun(latitude, longitude, julian_day, &sun, diag);

    for (int32_t i = 0; !status && i < PVSZ_COUNT(given); i++)
        status = check_term(given[i].term, given[i].value, diag);
    if (status)
        return status;
    face = pvsz_face_of(PVSZ_SKY_BINNED, tilt, azimuth, NULL);
    sky = pvsz_sky_of(PVSZ_SKY_BINNED, &sun, beam, diffuse, beam * fmax(0, sun.up) + diffuse);
    on = pvsz_on_face(&face, &sky, &sun, albedo);
    put(from_beam, on.beam);
    put(from_sky, on.sky);
    put(from_ground, on.ground);
    put(incidence, pvsz_incidence(&face, &sun));
    return PVSIZE_OK;
}
