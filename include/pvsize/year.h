/* pvsize/year.h - the energy of a system, hour by hour, and where it goes. Part of libpvsize;
 * include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_YEAR_H
#define PVSIZE_YEAR_H

#include "curve.h"
#include "weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* CAUTION. An outlook on energy, by models and by weather that has passed. It does not say
 * that a design is safe or allowed: pvsize_check does the sizing, a licensed person decides.
 *
 * In each interval of the weather (an hour, as a rule):
 *  - light on the plane (the sky by the outlook, ground by the site's albedo), less what the
 *    glass takes of slanting light and what dirt takes;
 *  - cell temperature by mounting and wind, from the light on the plane before the glass;
 *  - each module by its curve (curve.h), with the cables' resistance as a part of it: those
 *    of circuit "string" carry one string, those of circuit "array" all strings of the array;
 *  - unlike strings on an input by their curves, at one voltage: mismatch is computed;
 *  - the input: tracking window, start voltage, operating current, power; at a limit it goes
 *    up its curve to a higher voltage;
 *  - the inverter: d.c. power, conversion by its points of efficiency over load and voltage,
 *    a.c. rating, apparent power times cos phi; what it holds back, or that it disconnects,
 *    where the voltage at its terminals is high; a.c. cables at nominal voltage;
 *  - the site: the export limit, with what is used there at the time.
 * How exactly, a sentence each: the set PVSIZE_SET_YEAR_METHOD.
 *
 * The ledger. It begins with the REFERENCE, the power of the modules at STC times the light on
 * the plane over 1000 W/m2, and takes the losses (PVSIZE_LOSS_...) in the order in which their
 * set lists them (pvsize_set_at; their numbers tell nothing): each is what its cause takes of
 * what those before it left. So the reference less all losses is the OUTPUT, to rounding. The
 * ledger of an array ends behind its d.c. cables, that of an input behind its own limits; that of
 * an inverter, and of the system, behind the export limit. Low light and temperature may be
 * negative: gains; any other by rounding only.
 *
 * A row that cannot be computed, because light, temperature or (but with NMOT) wind is
 * missing, is a gap: it is counted, nothing is put in its place, and a load in it does not
 * count either. By night only the light is needed.
 *
 * Accuracy is that of its models and means: measured yields of rooftops differ from each
 * other by tens of per cents. Means of hours hide short peaks: what limits take is a little
 * more in truth. Of energies the last bits depend on the C library (sin and its like, in the
 * sun's and the planes' directions).
 *
 * A year holds no reference to what it was made from. Const calls may run at once on it.
 *
 * Shared arguments of what is asked of a year:
 *
 *   subject  number as in any report on the same system (report.h): of the system, an
 *            inverter, an input or an array
 *   month    1 to 12, over all years of the weather, or 0 for all of it */

/* Weather made ready, and what modules make of it. */
typedef struct pvsize_light pvsize_light;
/* The energy of a system as a ledger. */
typedef struct pvsize_year pvsize_year;

/* Makes weather ready: the hours with light and how they are computed. What falls on a plane,
 * and what a module makes of it, is computed when first asked for, and then kept: many systems
 * on the same planes and modules cost little more than their limits. So calls that take a light
 * change it, and need it alone. `outlook` is a spec of kind outlook, null for its defaults;
 * neither it nor the weather is needed afterwards. PVSIZE_E_NOT_SET where no interval with light
 * can be computed: it names the column that is missing, such as interval.wind, which weather
 * from months has only where they state one; an outlook may state one instead. The caller gives
 * it back to pvsize_light_free. */
PVSIZE_API pvsize_status pvsize_light_new(const pvsize_weather *weather, const pvsize_spec *outlook,
                                          const pvsize_allocator *memory, pvsize_light **out,
                                          pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_light_free(pvsize_light *light);
/* What a module gives on a plane at its maximum-power points over all the weather, behind
 * glass, dirt, temperature and the stated loss, but before cables, limits and conversion:
 * `yield`, d.c. energy over rated power, kWh/kW. A search of stringings can weigh planes by
 * it: PVSIZE_PLANE_SPECIFIC_YIELD.
 * PVSIZE_E_NOT_SET names what is missing: the plane's tilt, azimuth and mounting (or heat
 * loss), what the curve needs of the module. */
PVSIZE_API pvsize_status pvsize_light_yield(pvsize_light *light, const pvsize_spec *module,
                                            const pvsize_spec *plane, double *yield,
                                            pvsize_diag *diag);

/* Makes an empty year; the caller gives it back to pvsize_year_free. */
PVSIZE_API pvsize_status pvsize_year_new(const pvsize_allocator *memory, pvsize_year **out,
                                         pvsize_diag *diag);
/* Takes null. */
PVSIZE_API void pvsize_year_free(pvsize_year *year);

/* Computes a system under a light, and replaces what the year held; on failure it keeps that.
 *
 * load   What the site uses, mean W of each row of the weather, 0 to 1e9; `count` is their
 *        number, and must be that of the rows. Null with 0: no load, all is fed in.
 *
 * A limit that is not given, or stated to be none, limits nothing; each such is in the
 * assumptions. Errors: those of pvsize_check on a system that is not whole;
 * PVSIZE_E_NOT_SET for an array without plane, a plane without what pvsize_light_yield needs
 * (the index is the plane's; of a module, that of its array); PVSIZE_E_NO_CURVE and others of
 * pvsize_curve_new; PVSIZE_E_OUT_OF_RANGE for a load or its count.
 * The voltage of the supply is not known, and takes nothing; of an inverter that states what it
 * does at a high one, that is an assumption. */
PVSIZE_API pvsize_status pvsize_year_fill(const pvsize_spec *system, pvsize_light *light,
                                          const double *load, size_t count, pvsize_year *year,
                                          pvsize_diag *diag);

/* The same at a supply whose voltage is known; pvsize_year_fill is this without it.
 *
 * load            With `count`, as with pvsize_year_fill.
 * supply_voltage  Mean V of each row of the weather, phase to neutral, 50 to 1000, at the point
 *                 where the a.c. cables end that the system gives each inverter, away from the
 *                 inverter: the point of supply, if they are given as far as that. It is taken
 *                 as it is with these inverters running: what lies beyond that point, or is
 *                 shared by several inverters and not given as a cable of each, raises nothing.
 *                 One voltage serves all phases; where they differ, the highest is the cautious
 *                 one. `supply_count` is that of the rows. Null with 0: not known.
 *
 * The voltage at an inverter's terminals is this and the rise along its own a.c. cables, by the
 * formula of PVSIZE_QUANTITY_INVERTER_AC_RISE, with the current of the power that it feeds in at
 * nominal voltage (as of the cables' loss) and its cos phi; nothing else of reactive power, such
 * as a volt-var response, is counted. It holds back power until its volt-watt response
 * (inverter.volt_watt_start, _end, _least) allows what is left at the voltage that this makes.
 * Where that voltage is above inverter.disconnect_voltage, the interval is lost: in truth the
 * inverter sees the bare supply then, comes back when that has been low for some time, and may
 * go again, so the loss is the most that it can be, also because the export limit acts only
 * afterwards. Means of intervals hide what happens within them, such as a disconnection by the
 * mean of 10 minutes.
 *
 * Further errors: PVSIZE_E_OUT_OF_RANGE (or NOT_FINITE) for a voltage or the count, and for a
 * volt-watt response that does not end above its start; PVSIZE_E_NOT_SET names what such a
 * response lacks, the rated power among it (the index is the inverter's). */
PVSIZE_API pvsize_status pvsize_year_fill_at_supply(const pvsize_spec *system, pvsize_light *light,
                                                    const double *load, size_t count,
                                                    const double *supply_voltage,
                                                    size_t supply_count, pvsize_year *year,
                                                    pvsize_diag *diag);

/* Of all below: PVSIZE_E_NOT_SET before the year was filled; PVSIZE_E_WRONG_KIND for a subject
 * of another kind, or for what only the system or an array has. */

/* The weather: how many `rows`, minutes of each (`step`), rows with light (`lit`), and `gaps`.
 * Each output may be null. */
PVSIZE_API pvsize_status pvsize_year_size(const pvsize_year *year, int32_t *rows, int32_t *step,
                                          int32_t *lit, int32_t *gaps, pvsize_diag *diag);
/* An `energy`, PVSIZE_ENERGY_..., in `kwh`. All but reference and output are the system's
 * only. */
PVSIZE_API pvsize_status pvsize_year_energy(const pvsize_year *year, int32_t subject, int32_t month,
                                            int32_t energy, double *kwh, pvsize_diag *diag);
/* A `loss`, PVSIZE_LOSS_..., in `kwh`; PVSIZE_E_WRONG_KIND where the subject's ledger ends
 * before it. */
PVSIZE_API pvsize_status pvsize_year_loss(const pvsize_year *year, int32_t subject, int32_t month,
                                          int32_t loss, double *kwh, pvsize_diag *diag);
/* `hours` in which a limit (`loss`) took something: of inputs WINDOW, INPUT_CURRENT,
 * INPUT_POWER; of inverters DC_POWER, AC_RATING, AC_VOLTAGE, EXPORT; of the system
 * EXPORT. Of all else 0. */
PVSIZE_API pvsize_status pvsize_year_active(const pvsize_year *year, int32_t subject, int32_t loss,
                                            double *hours, pvsize_diag *diag);
/* Light on an array's plane (`on_plane`), and what of it gets to the cells (`at_cells`),
 * kWh/m2. Each output may be null. */
PVSIZE_API pvsize_status pvsize_year_irradiation(const pvsize_year *year, int32_t subject,
                                                 int32_t month, double *on_plane, double *at_cells,
                                                 pvsize_diag *diag);
/* Power of the subject's modules in kW (Pmax, `rated`), and output over it in kWh/kW
 * (`yield`): of arrays and inputs d.c. energy. 0 without modules. Each output may be null. */
PVSIZE_API pvsize_status pvsize_year_yield(const pvsize_year *year, int32_t subject, double *rated,
                                           double *yield, pvsize_diag *diag);
/* Power of the system or of an inverter in each row, behind all losses, W: negative at night
 * where that draws. The array of `values` as with pvsize_weather_column: `gap` where a row was
 * not computed. */
PVSIZE_API pvsize_status pvsize_year_power(const pvsize_year *year, int32_t subject, double gap,
                                           double *values, size_t capacity, size_t *count,
                                           pvsize_diag *diag);

/* Number of the index-th subject of a kind (PVSIZE_KIND_...), from 0; inputs count through
 * all inverters. PVSIZE_E_BAD_INDEX behind the last. */
PVSIZE_API pvsize_status pvsize_year_subject(const pvsize_year *year, int32_t kind, int32_t index,
                                             int32_t *subject, pvsize_diag *diag);
/* A subject in words, such as "input 2 of inverter 1 (B)". */
PVSIZE_API pvsize_status pvsize_year_subject_text(const pvsize_year *year, int32_t subject,
                                                  char *buffer, size_t capacity, size_t *length,
                                                  pvsize_diag *diag);
/* What the year took for granted: how many; PVSIZE_YEAR_ASSUMPTION_..., the subject (-1:
 * none) and a value, 0 where it has none, of the i-th; the line that says so. Outputs may be
 * null. */
PVSIZE_API pvsize_status pvsize_year_assumption_count(const pvsize_year *year, int32_t *count,
                                                      pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_year_assumption(const pvsize_year *year, int32_t i, int32_t *what,
                                                int32_t *subject, double *value, pvsize_diag *diag);
PVSIZE_API pvsize_status pvsize_year_assumption_text(const pvsize_year *year, int32_t i,
                                                     char *buffer, size_t capacity, size_t *length,
                                                     pvsize_diag *diag);
/* The whole year as plain text or Markdown (PVSIZE_FORMAT_...), with the caution, what was
 * taken for granted and how it is computed. */
PVSIZE_API pvsize_status pvsize_year_render(const pvsize_year *year, int32_t format, char *buffer,
                                            size_t capacity, size_t *length, pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
