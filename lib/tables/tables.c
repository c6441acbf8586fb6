/* Makes the tables from their rows. */
#include "tables.h"

/* the link column: the set of a choice, or the kind an index counts in */
#define NO_LINK .set = 0
#define SET_ANSWER .set = PVSIZE_SET_ANSWER
#define SET_CELL .set = PVSIZE_SET_CELL
#define SET_ISOLATOR .set = PVSIZE_SET_ISOLATOR
#define SET_COOLING .set = PVSIZE_SET_COOLING
#define SET_BUILDING .set = PVSIZE_SET_BUILDING
#define SET_MOUNTING .set = PVSIZE_SET_MOUNTING
#define SET_EXPORT_CONTROL .set = PVSIZE_SET_EXPORT_CONTROL
#define TO_INVERTER .refers_to = PVSIZE_KIND_INVERTER
#define TO_INPUT .refers_to = PVSIZE_KIND_INPUT
#define TO_PLANE .refers_to = PVSIZE_KIND_PLANE
#define TO_ARRAY .refers_to = PVSIZE_KIND_ARRAY
#define SET_CIRCUIT .set = PVSIZE_SET_CIRCUIT
#define SET_CONDUCTOR .set = PVSIZE_SET_CONDUCTOR
#define SET_LAYING .set = PVSIZE_SET_LAYING
#define SET_GROUPING .set = PVSIZE_SET_GROUPING
#define SET_STAMP .set = PVSIZE_SET_STAMP
#define SET_STEP .set = PVSIZE_SET_STEP
#define SET_ISOLATOR_PLACE .set = PVSIZE_SET_ISOLATOR_PLACE
#define SET_UTILISATION .set = PVSIZE_SET_UTILISATION
#define SET_BUSBAR_RULE .set = PVSIZE_SET_BUSBAR_RULE
#define SET_OBJECTIVE .set = PVSIZE_SET_OBJECTIVE
#define SET_SKY .set = PVSIZE_SET_SKY
#define SET_COVER .set = PVSIZE_SET_COVER
#define SET_CELL_TEMP .set = PVSIZE_SET_CELL_TEMP

#define TERM(number_, KIND_, ID, name_, TYPE_, unit_, low_, high_, NEED_, deflt_, link, text_) \
    {.number = number_,                                                                        \
     .kind = PVSZ_KIND_##KIND_,                                                                \
     .scope = PVSZ_KIND_##KIND_,                                                               \
     .type = PVSIZE_TYPE_##TYPE_,                                                              \
     .need = PVSIZE_NEED_##NEED_,                                                              \
     link,                                                                                     \
     .low = low_,                                                                              \
     .high = high_,                                                                            \
     .deflt = deflt_,                                                                          \
     .name = #name_,                                                                           \
     .symbol = #name_,                                                                         \
     .unit = unit_,                                                                            \
     .text = text_},

static const pvsz_term module_rows[] = {
#include "module.def"
};
static const pvsz_term input_rows[] = {
#include "input.def"
};
static const pvsz_term inverter_rows[] = {
#include "inverter.def"
};
static const pvsz_term efficiency_point_rows[] = {
#include "efficiency_point.def"
};
static const pvsz_term site_rows[] = {
#include "site.def"
};
static const pvsz_term plane_rows[] = {
#include "plane.def"
};
static const pvsz_term array_rows[] = {
#include "array.def"
};
static const pvsz_term cable_rows[] = {
#include "cable.def"
};
static const pvsz_term diode_model_rows[] = {
#include "diode_model.def"
};
static const pvsz_term month_rows[] = {
#include "month.def"
};
static const pvsz_term series_rows[] = {
#include "series.def"
};
static const pvsz_term interval_rows[] = {
#include "interval.def"
};
static const pvsz_term reading_rows[] = {
#include "reading.def"
};
static const pvsz_term enquiry_rows[] = {
#include "enquiry.def"
};
static const pvsz_term isolator_rows[] = {
#include "isolator.def"
};
static const pvsz_term outlook_rows[] = {
#include "outlook.def"
};
static const pvsz_term system_rows[] = {
#include "system.def"
};
static const pvsz_term search_rows[] = {
#include "search.def"
};

/* a yes-or-no number is a choice of the set of answers */
#define KIND_OF_NUMBER .type = PVSIZE_TYPE_NUMBER
#define KIND_OF_COUNT .type = PVSIZE_TYPE_COUNT
#define KIND_OF_ANSWER .type = PVSIZE_TYPE_CHOICE, .set = PVSIZE_SET_ANSWER
#define FIGURE(number_, ID, name_, symbol_, TYPE_, unit_, low_, high_, text_) \
    {.number = number_,                                                       \
     .kind = PVSZ_KIND_FIGURE,                                                \
     .scope = -1,                                                             \
     KIND_OF_##TYPE_,                                                         \
     .low = low_,                                                             \
     .high = high_,                                                           \
     .name = #name_,                                                          \
     .symbol = symbol_,                                                       \
     .unit = unit_,                                                           \
     .text = text_},

static const pvsz_term figure_rows[] = {
#include "figures.def"
};

#define HEAD true
#define PLAIN false
#define QUANTITY(number_, ID, name_, SCOPE_, symbol_, TYPE_, unit_, HEAD_, text_) \
    {.number = number_,                                                           \
     .kind = PVSZ_KIND_QUANTITY,                                                  \
     .scope = PVSZ_KIND_##SCOPE_,                                                 \
     KIND_OF_##TYPE_,                                                             \
     .head = HEAD_,                                                               \
     .name = #name_,                                                              \
     .symbol = symbol_,                                                           \
     .unit = unit_,                                                               \
     .text = text_},

static const pvsz_term quantity_rows[] = {
#include "quantities.def"
};

#define RULE(number_, ID, name_, SCOPE_, MANNER_, VALUE_, COMPARE_, LIMIT_, title_, breach_) \
    {.number = number_,                                                                      \
     .kind = PVSZ_KIND_RULE,                                                                 \
     .scope = PVSZ_KIND_##SCOPE_,                                                            \
     .type = PVSIZE_TYPE_RULE,                                                               \
     .manner = PVSZ_##MANNER_,                                                               \
     .value = PVSIZE_##VALUE_,                                                               \
     .compare = PVSIZE_COMPARE_##COMPARE_,                                                   \
     .limit = PVSIZE_##LIMIT_,                                                               \
     .name = #name_,                                                                         \
     .symbol = #name_,                                                                       \
     .unit = "",                                                                             \
     .text = title_,                                                                         \
     .breach = breach_},

static const pvsz_term rule_rows[] = {
#include "rules.def"
};

#define ATTRIBUTE(number_, ID, name_, TYPE_, unit_, low_, high_, link, text_) \
    {.number = number_,                                                       \
     .kind = PVSZ_KIND_ATTRIBUTE,                                             \
     .scope = -1,                                                             \
     .type = PVSIZE_TYPE_##TYPE_,                                             \
     link,                                                                    \
     .low = low_,                                                             \
     .high = high_,                                                           \
     .name = #name_,                                                          \
     .symbol = #name_,                                                        \
     .unit = unit_,                                                           \
     .text = text_},

static const pvsz_term attribute_rows[] = {
#include "attributes.def"
};

#define ROWS_MODULE module_rows
#define ROWS_INPUT input_rows
#define ROWS_INVERTER inverter_rows
#define ROWS_DIODE_MODEL diode_model_rows
#define ROWS_EFFICIENCY_POINT efficiency_point_rows
#define ROWS_SITE site_rows
#define ROWS_PLANE plane_rows
#define ROWS_ARRAY array_rows
#define ROWS_SYSTEM system_rows
#define ROWS_CABLE cable_rows
#define ROWS_MONTH month_rows
#define ROWS_SERIES series_rows
#define ROWS_INTERVAL interval_rows
#define ROWS_READING reading_rows
#define ROWS_ENQUIRY enquiry_rows
#define ROWS_ISOLATOR isolator_rows
#define ROWS_SEARCH search_rows
#define ROWS_OUTLOOK outlook_rows
#define ROWS_FIGURE figure_rows
#define ROWS_QUANTITY quantity_rows
#define ROWS_RULE rule_rows
#define ROWS_ATTRIBUTE attribute_rows

const pvsz_kind pvsz_kinds[PVSZ_KINDS] = {
#define KIND(number, ID, name, plural, text) \
    {number, #name, #plural, text, ROWS_##ID, PVSZ_COUNT(ROWS_##ID)},
#define PART(owner, part, fewest, most)
#include "kinds.def"
#undef KIND
#undef PART
};

const pvsz_part pvsz_parts[PVSZ_PARTS] = {
#define KIND(number, ID, name, plural, text)
#define PART(owner, part, fewest, most) {PVSZ_KIND_##owner, PVSZ_KIND_##part, fewest, most},
#include "kinds.def"
#undef KIND
#undef PART
};
