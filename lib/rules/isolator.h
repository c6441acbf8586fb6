/* What the files on isolators share. */
#ifndef PVSZ_ISOLATOR_H
#define PVSZ_ISOLATOR_H

#include "calc.h"

/* PVSIZE_ISOLATOR_PLACE_...; 0 where none is given: it then serves nowhere. */
int32_t pvsz_isolator_place(const pvsz_subject *isolator);

#endif
