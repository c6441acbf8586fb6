/* All that the library's objects tell, summed up in a few numbers: two runs gave the same
 * bits if the sums are the same. */
#ifndef TELL_H
#define TELL_H

#include "draw.h"
#include "pvsize/pvsize.h"

/* Every sort of object, each made from the same job. What could not be made is null; the
 * calls then refuse it, and their refusals are summed up too. */
typedef struct objects {
    pvsize_spec *system, *site, *inverter, *enquiry, *search, *place, *module;
    pvsize_rules *rules, *other_rules;
    pvsize_report *report, *other_report;
    pvsize_comparison *reports, *rule_sets;
    pvsize_bill *bill;
    pvsize_judgement *judgement;
    pvsize_review *review;
    pvsize_layouts *layouts;
    pvsize_ranking *ranking;
    pvsize_curve *curve;
    pvsize_weather *series, *year;
    pvsize_light *light;
    pvsize_year *energy;
    pvsize_exercise *exercise;
} objects;

/* What is summed up apart. The sun and the sky call the C library's functions, and
 * years stand on them. */
enum {
    PART_TABLES,
    PART_SPECS,
    PART_RULES,
    PART_REPORT,
    PART_TEXT,
    PART_COMPARISON,
    PART_BILL,
    PART_JUDGEMENT,
    PART_REVIEW,
    PART_LAYOUTS,
    PART_EXERCISE,
    PART_CURVE,
    PART_WEATHER,
    PART_SUN,
    PART_YEAR,
    PARTS
};
extern const char *const part_names[PARTS];

/* Makes all of them; how they fare is part of the sums. */
void objects_make(objects *o, draw *d, const pvsize_allocator *memory, uint64_t sums[PARTS]);
void objects_free(objects *o);
/* Asks everything that can be asked of them; changes none. */
void objects_tell(const objects *o, uint64_t sums[PARTS]);
/* The tables, and calls on numbers alone. */
void tables_tell(uint64_t sums[PARTS]);

#endif
