/* Invented jobs of any size: as plain numbers, for the plain ways, and as specs. */
#ifndef JOBS_H
#define JOBS_H

#include "pvsize/pvsize.h"

enum { MOST_INPUTS = 24, MOST_PLANES = 8 };

typedef struct module_sheet {
    double pmax, voc, isc, vmp, imp;
    double voc_percent, isc_percent, pmax_percent; /* of each kelvin */
    double system_voltage, fuse;
} module_sheet;

typedef struct input_sheet {
    double max_voltage, tracking_min, tracking_max, start;
    double current, short_circuit, power, terminals;
} input_sheet;

typedef struct inverter_sheet {
    double rated, max_pv;
    int inputs;
    input_sheet input[MOST_INPUTS];
} inverter_sheet;

typedef struct array_sheet {
    int input, plane, modules, strings;
} array_sheet;

typedef struct plane_sheet {
    double tilt, azimuth, room, yield;
} plane_sheet;

typedef struct job {
    double temp_min, temp_max;
    int planes, arrays;
    plane_sheet plane[MOST_PLANES];
    inverter_sheet inverter;
    module_sheet module;
    array_sheet array[MOST_INPUTS];
} job;

/* A job without chance: a string on each input, on the planes in turn. `room`: of all planes
 * together. */
job job_of(int inputs, int planes, int room);
/* A sensible one, another for each seed; some break rules. */
job job_drawn(uint64_t seed);
/* Parts of a catalogue: the i-th. */
module_sheet module_drawn(uint64_t i);
inverter_sheet inverter_drawn(uint64_t i);

/* What everything made here and by the operations is made with; null: malloc. */
extern const pvsize_allocator *job_memory;

pvsize_spec *module_spec(const module_sheet *sheet);
pvsize_spec *inverter_spec(const inverter_sheet *sheet);
/* Site, inverter and arrays; without the arrays for a search. */
pvsize_spec *system_spec(const job *j, int with_arrays);
/* A question for the best stringing, with the job's module. */
pvsize_spec *search_spec(const job *j, int32_t objective, int32_t answers);
/* Twelve months at one place, as a year of intervals of so many minutes. */
pvsize_weather *weather_of(int32_t minutes);
pvsize_rules *rules_of_house(void);

/* Ends the program with the failure's own words. */
void must_at(pvsize_status status, const char *call, const char *file, int line);
#define MUST(call) must_at((call), #call, __FILE__, __LINE__)
extern pvsize_diag *job_diag;
/* Zeros; ends the program if there is no memory left. */
void *room_for(size_t size);

#endif
