/* The smallest conductor that does its duty. */
#include <float.h>

#include "../base/base.h"
#include "conductor.h"

static bool is_amount(double value)
{
    return value >= 0 && value <= DBL_MAX;
}

/* Whether the numbers that no table checks make sense. */
static bool is_sound(const pvsz_duty *duty)
{
    const pvsz_run *run = &duty->run;
    bool alternating = run->circuit != PVSZ_CIRCUIT_DC;

    if (run->circuit < 0 || run->circuit >= PVSZ_CIRCUITS)
        return false;
    if (alternating && !(is_amount(run->reactance) && run->cos_phi >= 0 && run->cos_phi <= 1))
        return false;
    return is_amount(duty->current) && is_amount(run->length) && is_amount(run->current) &&
           is_amount(duty->voltage) && duty->voltage > 0 && is_amount(duty->drop_limit);
}

/* Drop of a size in percent, and how it is known. */
static int32_t drop_of(const pvsz_duty *duty, int32_t size, double *percent)
{
    pvsz_run run = duty->run;
    int32_t known = pvsz_resistance(duty->conductor, size, duty->temp, &run.resistance);

    pvsz_reactance(duty->conductor, size, &run.reactance);
    if (known)
        *percent = pvsz_drop_percent(pvsz_drop(&run), duty->voltage);
    return known;
}

/* Capacity in the terminals' column, or in the laying's where that is lower, and
 * how it is known. */
static int32_t terminals_of(const pvsz_duty *duty, int32_t size, double *amps)
{
    double own;
    int32_t known = pvsz_capacity(duty->place.laying, duty->conductor, size, &own);

    known = pvsz_weaker(known, pvsz_capacity(duty->terminals, duty->conductor, size, amps));
    if (known && own < *amps)
        *amps = own;
    return known;
}

/* The numbers of a size; false if one of them is not known. */
static bool measure(const pvsz_duty *duty, int32_t size, pvsz_choice *out)
{
    int32_t capacity = pvsz_capacity_in_place(&duty->place, duty->conductor, size, &out->capacity);
    int32_t drop = drop_of(duty, size, &out->drop);
    int32_t terminals = PVSIZE_KNOWN_READ;

    if (duty->terminals != PVSZ_NO_TERMINALS)
        terminals = terminals_of(duty, size, &out->terminals);
    out->known = pvsz_weaker(capacity, pvsz_weaker(drop, terminals));
    return out->known != 0;
}

/* The first test that a size fails. */
static int32_t failed(const pvsz_duty *duty, const pvsz_choice *size)
{
    if (duty->terminals != PVSZ_NO_TERMINALS) {
        int32_t by = pvsz_two_way(size->terminals, size->capacity, duty->current);

        if (by != PVSZ_BY_NOTHING)
            return by;
    } else if (!pvsz_at_most(duty->current, size->capacity)) {
        return PVSZ_BY_CAPACITY;
    }
    return pvsz_at_most(size->drop, duty->drop_limit) ? PVSZ_BY_NOTHING : PVSZ_BY_DROP;
}

pvsz_choice pvsz_smallest(const pvsz_duty *duty)
{
    pvsz_choice last = {.size = -1, .governs = PVSZ_BY_NOT_KNOWN, .fails = PVSZ_BY_NOTHING};

    if (!is_sound(duty))
        return last;
    for (int32_t i = 0; i < pvsz_size_count(duty->conductor); i++) {
        pvsz_choice here = {.size = i, .governs = last.fails};

        if (!measure(duty, i, &here))
            continue;
        here.fails = failed(duty, &here);
        if (here.fails == PVSZ_BY_NOTHING)
            return here;
        last = here;
        last.size = -1;
        last.governs = PVSZ_BY_NONE_FITS;
    }
    return last;
}
