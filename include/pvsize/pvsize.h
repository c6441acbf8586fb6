/* pvsize/pvsize.h - sizing of photovoltaic arrays against inverter inputs.
 * SPDX-License-Identifier: MIT
 *
 * CAUTION. Mains and d.c. electricity kill, and a roof is high. This library is
 * a calculation aid. Its results must be checked against the local code in
 * force and the makers' instructions by a licensed person before anything is
 * bought, built or switched on. It comes without warranty.
 *
 * The way of a job: make specs (spec.h), fill them by their tables (terms.h),
 * add them up to a system, take a rule set (rules.h), check, read the report
 * (report.h). Two rule sets or two reports side by side: compare.h. The best stringings
 * of a roof: layout.h. What must be bought: bill.h. One module's current-voltage curve,
 * and unlike strings in parallel: curve.h. Weather, the sun and planes under the sky:
 * weather.h. What may go on an inverter: envelope.h. What meters read on the day:
 * readings.h. Exercises for the class: exercise.h. Certificates for a quote:
 * certificates.h. The energy of a system hour by hour, and where it goes: year.h.
 * base.h states the conventions that all calls keep. */
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
