/* pvsize/certificates.h - small-scale certificates of the Australian scheme, for
 * quotes. Part of libpvsize; include <pvsize/pvsize.h>. SPDX-License-Identifier: MIT */
#ifndef PVSIZE_CERTIFICATES_H
#define PVSIZE_CERTIFICATES_H

#include "base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A system of at most 100 kW earns a number of certificates when it is installed: its
 * power in kW, times the rating of its zone, times the years that are counted, down to
 * a whole number. (The scheme's other bound, less than 250 MWh a year, needs the yield
 * and is for the caller to hold.) The figures are a table with the source of each, and
 * how it is known; the working tells them. They help with a quote; the scheme's own
 * rules of the day decide, and whether a design earns any is a matter of the rule sets:
 * see figure.array_ratio_max.
 *
 * The zone goes by the postcode; that list is the scheme's, and the zone is for the
 * caller to give. Numbers in, numbers out; these calls hold no object.
 *
 * Shared arguments:
 *
 *   power   of the array at STC, W, more than 0 and at most 100000
 *   zone    PVSIZE_ZONE_..., 1 to 4
 *   year    of installation
 *   period  PVSIZE_PERIOD_ONE_YEAR, _FIVE_YEARS, or _LONGEST, to the end of the scheme
 *   price   of one certificate, 0 to 1000, in any currency */

/* First and last year of installation in the table. */
PVSIZE_API int32_t pvsize_certificate_first_year(void);
PVSIZE_API int32_t pvsize_certificate_last_year(void);
/* Rating of a zone, in certificates for a kW and a year. */
PVSIZE_API pvsize_status pvsize_certificate_rating(int32_t zone, double *rating, pvsize_diag *diag);
/* Years counted for a system installed in that year.
 * PVSIZE_E_OUT_OF_RANGE outside the table, and for five years where fewer are left. */
PVSIZE_API pvsize_status pvsize_certificate_years(int32_t year, int32_t period, int32_t *years,
                                                  pvsize_diag *diag);

/* How many certificates a system earns. */
PVSIZE_API pvsize_status pvsize_certificate_count(double power, int32_t zone, int32_t year,
                                                  int32_t period, double *count, pvsize_diag *diag);
/* The value of so many, in the currency of the price. */
PVSIZE_API pvsize_status pvsize_certificate_value(double count, double price, double *value,
                                                  pvsize_diag *diag);
/* How count and value come about, with the source of each figure, as plain text or
 * Markdown. */
PVSIZE_API pvsize_status pvsize_certificate_working(double power, int32_t zone, int32_t year,
                                                    int32_t period, double price, int32_t format,
                                                    char *buffer, size_t capacity, size_t *length,
                                                    pvsize_diag *diag);

#ifdef __cplusplus
}
#endif
#endif
