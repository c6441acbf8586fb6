/* Stringings as a small drawing of the roof. Part of the C example of libpvsize.
 * SPDX-License-Identifier: MIT */
#ifndef STRING_DRAWING_H
#define STRING_DRAWING_H

#include <pvsize/pvsize.h>

/* Draws answer i: a line for each plane, with its modules as the sign of their input,
 * joined to strings, and a dot for each place left; then what the signs stand for. */
void draw_stringing(const pvsize_spec *system, const pvsize_layouts *layouts, int32_t i);

#endif
