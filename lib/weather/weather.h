/* Weather as the library sees it: rows with the sun beside them, so that a plane costs
 * one product for each. */
#ifndef PVSZ_WEATHER_H
#define PVSZ_WEATHER_H

#include "../equipment/spec.h"
#include "../physics/sky.h"
#include "pvsize/weather.h"

enum {
    PVSZ_COLUMNS = 5, /* rows of the kind interval, in its order */
    PVSZ_GLOBAL = PVSIZE_INTERVAL_GLOBAL - PVSIZE_KIND_INTERVAL - 1,
    PVSZ_BEAM = PVSIZE_INTERVAL_BEAM - PVSIZE_KIND_INTERVAL - 1,
    PVSZ_DIFFUSE = PVSIZE_INTERVAL_DIFFUSE - PVSIZE_KIND_INTERVAL - 1,
    PVSZ_TEMP = PVSIZE_INTERVAL_TEMP - PVSIZE_KIND_INTERVAL - 1,
    PVSZ_WIND = PVSIZE_INTERVAL_WIND - PVSIZE_KIND_INTERVAL - 1,
    PVSZ_MOST_ROWS = 1054080
};

typedef struct pvsz_weather_row {
    double value[PVSZ_COLUMNS];   /* 0 where missing */
    uint8_t origin[PVSZ_COLUMNS]; /* PVSIZE_ORIGIN_... */
    double albedo;
    pvsz_sun sun;
} pvsz_weather_row;

struct pvsize_weather {
    pvsz_head head;
    int32_t rows;
    int32_t step;   /* minutes */
    int32_t year;   /* of the first row, in standard time */
    int32_t minute; /* from its 1 January to the beginning of the first row */
    double zone;    /* minutes ahead of universal time */
    pvsz_place place;
    int32_t compared, worst; /* rows with all three given; the row of the largest difference */
    double mean_difference, largest_difference;
    pvsz_weather_row row[];
};

pvsize_status pvsz_weather_check(const pvsize_weather *weather, pvsize_diag *diag);
/* An array of the caller's for one number a row; its count is told. */
pvsize_status pvsz_check_column(int32_t rows, const double *values, size_t capacity, size_t *count,
                                pvsize_diag *diag);
/* Checks the site, and makes rows with nothing in them but the sun and the albedo. `minute`
 * is standard time, from 1 January of the year. */
pvsize_status pvsz_weather_begin(const pvsize_spec *site, int32_t year, int32_t minute,
                                 int32_t step, int32_t rows, const pvsize_allocator *memory,
                                 pvsize_weather **out, pvsize_diag *diag);
/* The days of a month from 0 to 11, and the month of a day from 0. */
int32_t pvsz_month_days(int32_t year, int32_t month);
int32_t pvsz_month_of(int32_t year, int32_t day);
/* When a row begins, in standard time: year, day from 0, minute of the day. */
void pvsz_row_time(const pvsize_weather *weather, int32_t row, int32_t *year, int32_t *day,
                   int32_t *minute);
/* Puts what follows from what is known of global, beam and diffuse beside it, and
 * compares the three. `estimate` is the origin of what comes from global alone. */
void pvsz_weather_complete(pvsize_weather *weather, int32_t estimate);

static inline bool pvsz_known(const pvsz_weather_row *row, int32_t column)
{
    return row->origin[column] != PVSIZE_ORIGIN_MISSING;
}

#endif
