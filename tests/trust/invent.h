/* Jobs for tests, invented by drawing: sensible ones, spoilt ones, and nonsense. */
#ifndef INVENT_H
#define INVENT_H

#include "draw.h"
#include "pvsize/pvsize.h"

/* A number for a parameter or figure; now and then one that it must refuse. */
double invent_number(draw *d, int32_t term);
/* A spec of a kind with parts, whatever the tables allow, sense or not. Null where there
 * is no such kind. The caller frees it. */
pvsize_spec *invent_spec(draw *d, int32_t kind, const pvsize_allocator *memory);
/* A system as an exercise has it, then changed and added to in places. */
pvsize_spec *invent_system(draw *d, const pvsize_allocator *memory);
/* A preset with figures and severities changed, and an own rule. */
pvsize_rules *invent_rules(draw *d, const pvsize_allocator *memory);
/* A small search on a system's site and inverters. */
pvsize_spec *invent_search(draw *d, const pvsize_spec *system, const pvsize_allocator *memory);
/* A site with place and twelve months. */
pvsize_spec *invent_place(draw *d, const pvsize_allocator *memory);

#endif
