/* What a reading can come from: each cause of the table is asked whether the number fits
 * it, and how many of what it counts. */
#include <math.h>

#include "judgement.h"

enum {
    OF_VOC = 1 << PVSIZE_MEASURED_VOC,
    OF_ISC = 1 << PVSIZE_MEASURED_ISC,
    OF_VMP = 1 << PVSIZE_MEASURED_VMP,
    OF_IMP = 1 << PVSIZE_MEASURED_IMP,
    OF_INSULATION = 1 << PVSIZE_MEASURED_INSULATION,
    OF_ALL = OF_VOC | OF_ISC | OF_VMP | OF_IMP | OF_INSULATION
};

typedef enum model {
    SHARE,
    SIGN,
    NOTHING,
    MODULES,
    DIODES,
    STRINGS,
    WARMTH,
    LESS,
    MORE,
    ANY
} model;

static const struct {
    int32_t cause, measured;
    model model;
    double step;
} causes[] = {
#define CAUSE(ID, MEASURED, MODEL, step) {PVSIZE_CAUSE_##ID, MEASURED, MODEL, step},
#include "../tables/causes.def"
#undef CAUSE
};

static double size_of(double value)
{
    return value < 0 ? -value : value;
}

static bool is_below(const pvsz_judged *row)
{
    return !pvsz_at_most(row->low, size_of(row->value));
}

static bool is_above(const pvsz_judged *row)
{
    return !pvsz_at_most(size_of(row->value), row->high);
}

/* How far the reading lies from this share of the expected value, 1 being the end of the
 * band. */
static double distance_from(const pvsz_judged *row, double share)
{
    double value = size_of(row->value) / share;
    double width = value < row->expected ? row->expected - row->low : row->high - row->expected;

    if (!isfinite(width)) /* any number above serves */
        return 0;
    if (width > 0)
        return size_of(value - row->expected) / width;
    return value == row->expected ? 0 : HUGE_VAL;
}

static bool fits_share(const pvsz_judged *row, double share)
{
    return share > 0 && pvsz_at_most(row->low * share, size_of(row->value)) &&
           pvsz_at_most(size_of(row->value), row->high * share);
}

/* No string is counted further. */
enum { MOST_COUNT = 30000 };

/* Count at which (whole + step * count) / whole of an end of the band is what was read. */
static double count_at(const pvsz_judged *row, double end, double whole, double step)
{
    double count = end > 0 ? (size_of(row->value) / end - 1) * whole / step : MOST_COUNT;

    return count < 1 ? 1 : count > MOST_COUNT ? MOST_COUNT : floor(count);
}

/* Whole counts, 1 and more, for which (whole + step * count) / whole of what a sound
 * string reads can be what was read. */
static bool fits_count(const pvsz_judged *row, double whole, double step, pvsz_cause *out)
{
    double first = count_at(row, step > 0 ? row->high : row->low, whole, step);
    double last = count_at(row, step > 0 ? row->low : row->high, whole, step) + 1;

    out->distance = HUGE_VAL;
    for (double count = first; count <= last; count++) {
        double share = (whole + step * count) / whole, distance;

        if (!fits_share(row, share))
            continue;
        distance = distance_from(row, share);
        out->least = out->least > 0 ? out->least : count;
        out->most = count;
        if (distance < out->distance) {
            out->distance = distance;
            out->likeliest = count;
        }
    }
    return out->most > 0;
}

/* Kelvin that bring the expected value to the reading; fewer bring the band to it. A reading is not
 * judged by a coefficient that is not below 0. */
static bool fits_warmth(const pvsz_judged *row, double most, pvsz_cause *out)
{
    double edge = is_below(row) ? row->low : row->high;
    double needed = (size_of(row->value) - edge) / row->per_kelvin;

    if ((!is_below(row) && !is_above(row)) || size_of(needed) > most)
        return false;
    out->likeliest = (size_of(row->value) - row->expected) / row->per_kelvin;
    out->least = needed < out->likeliest ? needed : out->likeliest;
    out->most = needed < out->likeliest ? out->likeliest : needed;
    out->distance = 1 + size_of(needed) / most;
    return true;
}

/* Causes that any number on one side of the band fits come behind those that foretell
 * the number. */
static bool fits_side(const pvsz_judged *row, bool side, double distance, pvsz_cause *out)
{
    if (!side)
        return false;
    if (out->cause == PVSIZE_CAUSE_LESS_LIGHT || out->cause == PVSIZE_CAUSE_MORE_LIGHT)
        out->least = out->likeliest = out->most =
            size_of(size_of(row->value) / row->expected - 1) * 100;
    out->distance = distance;
    return true;
}

static bool fits(const pvsz_judged *row, int32_t i, pvsz_cause *out)
{
    double step = causes[i].step;

    *out = (pvsz_cause){.cause = causes[i].cause};
    if (!(causes[i].measured >> row->measured & 1))
        return false;
    switch (causes[i].model) {
    case SHARE:
        /* turned round, it is not sound */
        out->distance = distance_from(row, step);
        return fits_share(row, step) && !(row->reversed && step == 1);
    case SIGN:
        return row->reversed;
    case NOTHING:
        return pvsz_at_most(size_of(row->value), row->expected * step);
    case MODULES:
        return fits_count(row, row->modules, step, out);
    case DIODES:
        return fits_count(row, row->modules, step / row->diodes, out);
    case STRINGS:
        return fits_count(row, row->strings, step, out);
    case WARMTH:
        return fits_warmth(row, step, out);
    case LESS:
        return fits_side(row, is_below(row), 2, out);
    case MORE:
        return fits_side(row, is_above(row), 2, out);
    default:
        return fits_side(row, is_below(row) || is_above(row), 3, out);
    }
}

/* In front of those that are farther off; rounding does not change the order. What is turned round
 * is at no distance, and stays in front. */
static void insert(pvsz_judged *row, const pvsz_cause *cause)
{
    int32_t at = row->causes;

    /* GCOVR_EXCL_START: causes.def has fewer of any one measured number */
    if (row->causes == PVSZ_MOST_CAUSES)
        return;
    /* GCOVR_EXCL_STOP */
    while (at > 0 && !pvsz_within(cause->distance - row->cause[at - 1].distance, 1) &&
           row->cause[at - 1].cause != PVSIZE_CAUSE_SOUND) {
        row->cause[at] = row->cause[at - 1];
        at--;
    }
    row->cause[at] = *cause;
    row->causes++;
}

void pvsz_find_causes(pvsz_judged *row)
{
    pvsz_cause cause;

    row->causes = 0;
    for (int32_t i = 0; i < PVSZ_COUNT(causes); i++) {
        if (!fits(row, i, &cause))
            continue;
        insert(row, &cause);
        /* of the right size but turned round: nothing else is wrong */
        if (cause.cause == PVSIZE_CAUSE_REVERSED && !is_below(row) && !is_above(row))
            return;
    }
}
