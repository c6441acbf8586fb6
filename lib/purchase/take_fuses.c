/* What protects: fuses of strings and of whole arrays, and their holders. */
#include <math.h>

#include "bill.h"

/* What one kind of them is told by. */
typedef struct kind {
    int32_t item;
    int32_t rating, voltage; /* parameters of the array */
    int32_t standard;        /* quantity: the rating */
} kind;

static const kind of_strings = {PVSIZE_ITEM_STRING_FUSE, PVSIZE_ARRAY_STRING_DEVICE,
                                PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE,
                                PVSZ_QUANTITY_STRING_DEVICE_RATING};
static const kind of_arrays = {PVSIZE_ITEM_ARRAY_FUSE, PVSIZE_ARRAY_ARRAY_DEVICE,
                               PVSIZE_ARRAY_ARRAY_DEVICE_VOLTAGE,
                               PVSZ_QUANTITY_ARRAY_DEVICE_RATING};

/* As fitted in the design; else what the check calls for. */
typedef struct protection {
    pvsz_told needed; /* 1 or 0 */
    pvsz_told rating;
    int32_t why;
} protection;

static protection string_fuse(const pvsz_taking *take, const pvsz_subject *array)
{
    protection result = {.why = PVSIZE_QUANTITY_STRING_DEVICE_NEEDED};

    result.needed = pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_DEVICE_NEEDED);
    if (result.needed.missing == PVSIZE_QUANTITY_STRING_DEVICE_NEEDED) {
        /* the module states no rating to judge by: the design has the last word */
        bool none = pvsz_spec_states_none(
            pvsz_part_of(take, array), pvsz_term_place(pvsz_term_find(PVSIZE_ARRAY_STRING_DEVICE)));

        result.needed = none ? pvsz_tell(0) : pvsz_needs(PVSIZE_ARRAY_STRING_DEVICE);
        result.why = PVSIZE_ARRAY_STRING_DEVICE;
    }
    return result;
}

/* A rule set that does not say when one is needed does not ask for one, nor does one
 * that only notes it. */
static protection array_fuse(const pvsz_taking *take, const pvsz_subject *array)
{
    protection result = {.why = PVSIZE_QUANTITY_ARRAY_DEVICE_NEEDED};

    result.needed = pvsz_told_quantity(take, array, PVSZ_QUANTITY_ARRAY_DEVICE_NEEDED);
    if (result.needed.missing == PVSIZE_QUANTITY_ARRAY_DEVICE_NEEDED)
        result.needed = pvsz_tell(0);
    if (result.needed.value > 0 && !pvsz_calls_for(take, PVSIZE_RULE_ARRAY_DEVICE)) {
        result.needed = pvsz_tell(0);
        result.why = PVSIZE_RULE_ARRAY_DEVICE;
    }
    return result;
}

static protection fuse_of(const pvsz_taking *take, const kind *of, const pvsz_subject *array)
{
    protection result = {pvsz_tell(1), pvsz_told_param(pvsz_part_of(take, array), of->rating),
                         of->rating};

    if (!result.rating.missing)
        return result;
    result = of == &of_strings ? string_fuse(take, array) : array_fuse(take, array);
    result.rating = pvsz_told_quantity(take, array, of->standard);
    if (!result.rating.missing && result.rating.value == 0) /* no standard rating fits */
        result.rating = pvsz_needs(of->rating);
    return result;
}

static void with_voltage(const pvsz_taking *take, const kind *of, const pvsz_subject *array,
                         pvsz_bill_row *line)
{
    pvsz_told voltage = pvsz_told_param(pvsz_part_of(take, array), of->voltage);

    if (!voltage.missing)
        pvsz_with(line, PVSIZE_ATTRIBUTE_VOLTAGE, voltage);
    else
        pvsz_with(line, PVSIZE_ATTRIBUTE_VOLTAGE_AT_LEAST,
                  pvsz_told_quantity(take, array, PVSZ_QUANTITY_STRING_VOC_COLD));
}

/* Strings may be grouped under one device; an array has one. */
static pvsz_told devices_of(const pvsz_taking *take, const kind *of, const pvsz_subject *array)
{
    const pvsize_spec *spec = pvsz_part_of(take, array);
    pvsz_told strings = pvsz_told_param(spec, PVSIZE_ARRAY_STRINGS);
    pvsz_told grouped = pvsz_told_param(spec, PVSIZE_ARRAY_STRINGS_PER_DEVICE);

    if (of == &of_arrays)
        return pvsz_tell(1);
    if (!strings.missing)
        strings.value = ceil(strings.value / grouped.value);
    return strings;
}

static bool is_none(pvsz_told told)
{
    return !told.missing && told.value == 0;
}

/* Fuses, or their holders: what has no fuse has no holder, and says so once. */
static void take_poles(pvsz_taking *take, const kind *of, int32_t item)
{
    for (int32_t i = 0; i < take->report->design.count[PVSZ_KIND_ARRAY]; i++) {
        const pvsz_subject *array = pvsz_subject_at(take, PVSZ_KIND_ARRAY, i);
        protection fuse = fuse_of(take, of, array);
        pvsz_bill_row line = pvsz_line(item, -1);

        if (is_none(fuse.needed) && of == &of_arrays && item == PVSIZE_ITEM_FUSE_HOLDER)
            continue;
        if (fuse.needed.missing || is_none(fuse.needed)) {
            pvsz_put_share(take, &line, array, fuse.why, fuse.needed);
            continue;
        }
        pvsz_with(&line, PVSIZE_ATTRIBUTE_RATING, fuse.rating);
        with_voltage(take, of, array, &line);
        pvsz_put_share(take, &line, array, fuse.why,
                       pvsz_times(devices_of(take, of, array),
                                  pvsz_told_figure(take, PVSZ_FIGURE_STRING_FUSE_POLES)));
        if (item == PVSIZE_ITEM_STRING_FUSE)
            pvsz_note_default(take, array, PVSIZE_ARRAY_STRINGS_PER_DEVICE);
    }
}

void pvsz_take_string_fuses(pvsz_taking *take)
{
    take_poles(take, &of_strings, of_strings.item);
}

void pvsz_take_holders(pvsz_taking *take)
{
    take_poles(take, &of_strings, PVSIZE_ITEM_FUSE_HOLDER);
    take_poles(take, &of_arrays, PVSIZE_ITEM_FUSE_HOLDER);
}

void pvsz_take_array_fuses(pvsz_taking *take)
{
    take_poles(take, &of_arrays, of_arrays.item);
}
