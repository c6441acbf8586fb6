/* Like strings at one moment: the same light and warmth fell on all, so that neither need
 * be known. Alike are readings that bear the same moment, of the same module type, length,
 * plane and count of strings. */
#include "calc.h"

static bool same_number(const pvsz_subject *a, const pvsz_subject *b, int32_t kind, int32_t term)
{
    double of_a = -1, of_b = -1;

    pvsz_spec_number(a->spec[kind], term, &of_a);
    pvsz_spec_number(b->spec[kind], term, &of_b);
    return of_a == of_b;
}

static bool alike(const pvsz_subject *a, const pvsz_subject *b)
{
    double moment;

    return pvsz_spec_number(a->spec[PVSZ_KIND_READING], PVSIZE_READING_MOMENT, &moment) &&
           same_number(a, b, PVSZ_KIND_READING, PVSIZE_READING_MOMENT) &&
           same_number(a, b, PVSZ_KIND_READING, PVSIZE_READING_STRINGS) &&
           same_number(a, b, PVSZ_KIND_ARRAY, PVSIZE_ARRAY_MODULES_PER_STRING) &&
           a->at[PVSZ_KIND_MODULE] == b->at[PVSZ_KIND_MODULE] &&
           a->at[PVSZ_KIND_PLANE] == b->at[PVSZ_KIND_PLANE];
}

/* One of the readings alike with the calc's, if it has what is compared. */
static bool is_member(pvsz_calc *calc, int32_t i, int32_t size, double *value)
{
    const pvsz_subject *other = &calc->report->design.subject[PVSZ_KIND_READING][i];
    const pvsz_entry *entry = alike(calc->subject, other) ? pvsz_compute(calc, size, other) : NULL;

    if (!pvsz_has_value(entry))
        return false;
    *value = entry->value;
    return true;
}

/* How many are alike, and the place of the first. */
static int32_t count_alike(pvsz_calc *calc, int32_t size, int32_t *first)
{
    int32_t count = 0;
    double value;

    for (int32_t i = 0; i < calc->report->design.count[PVSZ_KIND_READING]; i++)
        if (is_member(calc, i, size, &value) && count++ == 0)
            *first = i;
    return count;
}

/* The value with so many others below it. */
static double ranked(pvsz_calc *calc, int32_t size, int32_t rank)
{
    int32_t readings = calc->report->design.count[PVSZ_KIND_READING];
    double value, other;

    for (int32_t i = 0; i < readings; i++) { /* GCOVR_EXCL_BR_LINE: not to the end, see there */
        int32_t below = 0;

        if (!is_member(calc, i, size, &value))
            continue;
        for (int32_t j = 0; j < readings; j++)
            below +=
                is_member(calc, j, size, &other) && (other < value || (other == value && j < i));
        if (below == rank)
            return value;
    }
    return 0; /* GCOVR_EXCL_LINE: of so many members each has a rank of its own */
}

/* Computed once for all that are alike, at the first of them. */
static void median(pvsz_calc *calc, int32_t size, int32_t place)
{
    int32_t first = -1, count = count_alike(calc, size, &first);

    if (count < 2 || !pvsz_has_quantity(calc, size)) {
        pvsz_nothing(calc);
        return;
    }
    if (first != calc->subject->at[PVSZ_KIND_READING]) {
        const pvsz_entry *there =
            pvsz_compute_own(calc, place, &calc->report->design.subject[PVSZ_KIND_READING][first]);

        pvsz_result(calc, pvsz_literal(calc, there->value), "{median}");
        return;
    }
    double low = ranked(calc, size, (count - 1) / 2);
    double high = ranked(calc, size, count / 2);

    pvsz_result(calc, pvsz_literal(calc, (low + high) / 2), "{median}");
}

/* Of two, the median is the middle between them, and each lies twice as far from the
 * other: which of them is at fault two readings cannot tell. */
static void deviation(pvsz_calc *calc, int32_t size, int32_t middle, const char *of_two,
                      const char *of_more)
{
    int32_t first;
    double value = pvsz_quantity(calc, size);
    double median_value = pvsz_quantity(calc, middle);
    double off = value - median_value;
    bool two = pvsz_is_open(calc) && count_alike(calc, size, &first) == 2;

    if (median_value <= 0)
        pvsz_nothing(calc);
    if (pvsz_is_open(calc))
        pvsz_result(calc, (two ? 2 : 1) * (off < 0 ? -off : off) / median_value * 100,
                    two ? of_two : of_more);
}

void pvsz_of_reading_voc_median(pvsz_calc *calc)
{
    median(calc, PVSZ_QUANTITY_READING_VOC_SIZE, PVSZ_QUANTITY_READING_VOC_MEDIAN);
}

void pvsz_of_reading_isc_median(pvsz_calc *calc)
{
    median(calc, PVSZ_QUANTITY_READING_ISC_SIZE, PVSZ_QUANTITY_READING_ISC_MEDIAN);
}

void pvsz_of_reading_voc_alike(pvsz_calc *calc)
{
    deviation(calc, PVSZ_QUANTITY_READING_VOC_SIZE, PVSZ_QUANTITY_READING_VOC_MEDIAN,
              "2 × abs({Uoc} - {Umed}) / {Umed} × 100", "abs({Uoc} - {Umed}) / {Umed} × 100");
}

void pvsz_of_reading_isc_alike(pvsz_calc *calc)
{
    deviation(calc, PVSZ_QUANTITY_READING_ISC_SIZE, PVSZ_QUANTITY_READING_ISC_MEDIAN,
              "2 × abs({Isc} - {Imed}) / {Imed} × 100", "abs({Isc} - {Imed}) / {Imed} × 100");
}
