/* Light and years: made, and told. */
#ifndef TELL_YEAR_H
#define TELL_YEAR_H

#include "sum.h"

/* A light of the weather, and a year of the system under it, with a load. */
void make_year(sum *s, const pvsize_spec *system, const pvsize_weather *weather,
               const pvsize_allocator *memory, pvsize_light **light, pvsize_year **year);
void tell_year(sum *s, const pvsize_year *year);
/* Own ones, from a system and weather that others read as well. */
void tell_made_year(sum *s, const pvsize_spec *system, const pvsize_weather *weather);

#endif
