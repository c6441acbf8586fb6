/* What the files on isolators share. */
#ifndef PVSZ_ISOLATOR_H
#define PVSZ_ISOLATOR_H

#include "calc.h"

/* PVSIZE_ISOLATOR_PLACE_...; 0 where none is given: it then serves nowhere. */
int32_t pvsz_isolator_place(const pvsz_subject *isolator);

/* Place of the figure that tells the class of category asked for, by the strings on the
 * input. */
int32_t pvsz_isolator_class_figure(double strings);

#endif
