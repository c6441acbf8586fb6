/* Weather made ready for many systems: the hours with light, what falls on each plane, and
 * what each module makes of it, computed once. */
#ifndef PVSZ_LIGHT_H
#define PVSZ_LIGHT_H

#include "../physics/diode_shift.h"
#include "../physics/sky_rows.h"
#include "../weather/weather.h"
#include "pvsize/year.h"

enum { PVSZ_YEAR_MONTHS = 12 };

/* Sums by month of the calendar, over rows. */
typedef double pvsz_months[PVSZ_YEAR_MONTHS];

/* The rows of the weather with light, "hours" below, whatever their length; in columns. */
typedef struct pvsz_hours {
    double *east, *north, *up;                       /* to the sun */
    double *beam, *around, *dome, *horizon, *ground; /* the sky; what the ground reflects */
    double *temp, *wind;
    int32_t *row;
} pvsz_hours;

/* Rows of one month, and the hours among them. */
typedef struct pvsz_stretch {
    int32_t month; /* 0 to 11 */
    int32_t first_row, end_row, first_hour, end_hour;
    int32_t dark; /* rows */
} pvsz_stretch;

typedef enum pvsz_row_state { PVSZ_ROW_DARK, PVSZ_ROW_LIT, PVSZ_ROW_GAP } pvsz_row_state;

/* A plane: by hour the light that gets to the cells, in W/m2, and their temperature. */
typedef struct pvsz_pane {
    double tilt, azimuth;
    pvsz_warmth warmth;
    double *net, *cell;
    pvsz_months gross, glass; /* sums of the light on the plane, and behind the glass */
} pvsz_pane;

/* A module on a plane: by hour its maximum-power point. */
typedef struct pvsz_pair {
    const pvsz_pane *pane;
    pvsz_module module;
    double stc; /* maximum power at STC, W */
    double *voltage, *current;
    pvsz_months at_25, own; /* sums of power at 25 degC, and at its own temperature */
} pvsz_pair;

typedef struct pvsz_list {
    void **item;
    size_t count, capacity;
} pvsz_list;

struct pvsize_light {
    pvsz_head head;
    int32_t step;
    pvsz_sky_model sky;
    pvsz_cover cover;
    int32_t cell_temp;  /* PVSIZE_CELL_TEMP_... */
    double clean, kept; /* what soiling and the stated loss leave: shares of 1 */
    bool blocked;
    bool took_wind; /* a wind is stated for where the weather has none, and it was needed */
    double wind;
    int32_t rows, hours, gaps;
    int32_t stretches;
    pvsz_hours hour; /* one block, `east` its first, with room for the first planes */
    double *room;
    int32_t room_left; /* columns */
    pvsz_stretch *stretch;
    uint8_t *state; /* of each row */
    pvsz_list panes, pairs;
};

pvsize_status pvsz_check_light(const pvsize_light *light, pvsize_diag *diag);
/* The plane of a spec with the heat of a module, computed if it is new. `rack` tells whether
 * the heat loss of racks was taken. */
pvsize_status pvsz_pane_of(pvsize_light *light, const pvsize_spec *plane, const pvsize_spec *module,
                           const pvsz_pane **pane, bool *rack, pvsize_diag *diag);
/* A module on it, computed if it is new. */
pvsize_status pvsz_pair_of(pvsize_light *light, const pvsz_module *module, const pvsz_pane *pane,
                           const pvsz_pair **pair, pvsize_diag *diag);
/* Of the sums of a month from 0, or of all (-1), the mean power in W times the interval in
 * hours, in kWh. */
double pvsz_kwh(const pvsz_months sums, int32_t month, int32_t step);
/* Rated power of a module: Pmax, else Vmp times Imp (and *guessed). */
double pvsz_rated_power(const pvsize_spec *module, bool *guessed);

#endif
