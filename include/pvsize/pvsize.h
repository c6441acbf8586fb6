/* pvsize/pvsize.h - sizing of photovoltaic arrays against inverter inputs.
 * SPDX-License-Identifier: MIT
 *
 * CAUTION. Mains and d.c. electricity kill, and a roof is high. This library is
 * a calculation aid. Its results must be checked against the local code in
 * force and the makers' instructions by a licensed person before anything is
 * bought, built or switched on. It comes without warranty.
 *
 * The way of a job: make specs, fill them by their tables, add them up to a system, take a
 * rule set, check, read the report.
 *
 *   base.h          conventions of all calls: status, failures, memory, threads, text
 *   ids.h           every number of the interface
 *   terms.h         the tables: names, units, ranges, defaults of everything
 *   spec.h          specs: data sheets, places and designs
 *   rules.h         rule sets: presets, figures, own rules
 *   report.h        the check, its findings and their working
 *   compare.h       two rule sets or two reports side by side
 *   layout.h        the best stringings of a roof; rankings of a catalogue
 *   bill.h          what must be bought
 *   envelope.h      what may go on an inverter
 *   readings.h      what meters read on the day
 *   curve.h         a module's current-voltage curve; unlike strings in parallel
 *   weather.h       weather, the sun, and planes under the sky
 *   year.h          the energy of a system hour by hour, and where it goes
 *   exercise.h      exercises for the class
 *   certificates.h  certificates for a quote */
#ifndef PVSIZE_PVSIZE_H
#define PVSIZE_PVSIZE_H

#include "base.h"
#include "terms.h"
#include "spec.h"
#include "rules.h"
#include "report.h"
#include "compare.h"
#include "bill.h"
#include "curve.h"
#include "layout.h"
#include "weather.h"
#include "envelope.h"
#include "readings.h"
#include "exercise.h"
#include "certificates.h"
#include "year.h"

#endif
