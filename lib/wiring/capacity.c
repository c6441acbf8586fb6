/* What a conductor carries where it lies. */
#include "../base/base.h"
#include "conductor.h"

/* families of rows, each with columns of its own */
enum { FAMILY_IEC, FAMILY_FR, FAMILY_EN, FAMILY_NFPA, FAMILY_ASNZS };
enum { COLUMNS = 5 };

/* conductors that a laying's rows hold for, as bits */
enum {
    AWG = 1 << PVSZ_CONDUCTOR_AWG,
    TINNED_CLASS5 = 1 << PVSZ_CONDUCTOR_CLASS5_TINNED,
    COPPER_MM2 = 1 << PVSZ_CONDUCTOR_CLASS2 | 1 << PVSZ_CONDUCTOR_CLASS2_COATED |
                 1 << PVSZ_CONDUCTOR_CLASS5 | 1 << PVSZ_CONDUCTOR_CLASS5_TINNED
};

static const struct {
    int32_t family, column;
    double temp;
    int32_t ambient, conductors, known;
    const char *source, *text;
} layings[PVSZ_LAYINGS] = {
#define LAYING(id, family, column, temp, ambient, conductors, known, source, text)                \
    [PVSZ_LAYING_##id] = {FAMILY_##family,      column, temp, PVSZ_AMBIENT_##ambient, conductors, \
                          PVSIZE_KNOWN_##known, source, text},
#define AMPACITY(family, section, ...)
#include "../tables/ampacities.def"
#undef AMPACITY
#undef LAYING
};

static const struct {
    int32_t family;
    double section;
    double amps[COLUMNS];
} ampacities[] = {
#define LAYING(id, family, column, temp, ambient, conductors, known, source, text)
#define AMPACITY(family, section, ...) {FAMILY_##family, section, {__VA_ARGS__}},
#include "../tables/ampacities.def"
#undef AMPACITY
#undef LAYING
};

static const struct {
    int32_t family, column;
    double base;
    const char *source;
} ambients[PVSZ_AMBIENTS] = {
#define AMBIENT_TABLE(id, family, column, base, source) \
    [PVSZ_AMBIENT_##id] = {FAMILY_##family, column, base, source},
#define AMBIENT(family, hottest, known, ...)
#include "../tables/ambient_factors.def"
#undef AMBIENT
#undef AMBIENT_TABLE
};

static const struct {
    int32_t family;
    double hottest;
    int32_t known;
    double factor[COLUMNS];
} ambient_rows[] = {
#define AMBIENT_TABLE(id, family, column, base, source)
#define AMBIENT(family, hottest, known, ...) \
    {FAMILY_##family, hottest, PVSIZE_KNOWN_##known, {__VA_ARGS__}},
#include "../tables/ambient_factors.def"
#undef AMBIENT
#undef AMBIENT_TABLE
};

static const struct {
    int32_t known;
    const char *source;
} groupings[PVSZ_GROUPINGS] = {
#define GROUPING_TABLE(id, known, source) [PVSZ_GROUPING_##id] = {PVSIZE_KNOWN_##known, source},
#define GROUPING(id, most, factor)
#include "../tables/grouping_factors.def"
#undef GROUPING
#undef GROUPING_TABLE
};

static const struct {
    int32_t table, most;
    double factor;
} grouping_rows[] = {
#define GROUPING_TABLE(id, known, source)
#define GROUPING(id, most, factor) {PVSZ_GROUPING_##id, most, factor},
#include "../tables/grouping_factors.def"
#undef GROUPING
#undef GROUPING_TABLE
};

enum { BELOW, AT_MOST };

static const struct {
    int32_t first, last, edge;
    double height, kelvin;
    int32_t known;
} roof_rows[] = {
#define ROOF_ADDER(first, last, edge, height, kelvin, known) \
    {first, last, edge, height, kelvin, PVSIZE_KNOWN_##known},
#include "../tables/roof_adders.def"
#undef ROOF_ADDER
};

static const double continuous_load = 1.25;

_Static_assert(PVSIZE_KNOWN_READ < PVSIZE_KNOWN_MEMORY &&
                   PVSIZE_KNOWN_MEMORY < PVSIZE_KNOWN_UNCERTAIN,
               "these numbers rise as trust falls");

int32_t pvsz_weaker(int32_t known, int32_t other)
{
    if (!known || !other)
        return 0;
    return known > other ? known : other;
}

static bool is_laying(int32_t laying)
{
    return laying >= 0 && laying < PVSZ_LAYINGS;
}

const char *pvsz_laying_text(int32_t laying)
{
    return is_laying(laying) ? layings[laying].text : NULL;
}

const char *pvsz_laying_source(int32_t laying)
{
    return is_laying(laying) ? layings[laying].source : NULL;
}

double pvsz_laying_temp(int32_t laying)
{
    return is_laying(laying) ? layings[laying].temp : 0;
}

int32_t pvsz_laying_ambient(int32_t laying)
{
    return is_laying(laying) ? layings[laying].ambient : PVSZ_AMBIENT_NONE;
}

/* Whether a laying's rows hold for a conductor. */
static bool holds_for(int32_t laying, int32_t conductor)
{
    return is_laying(laying) && conductor >= 0 && conductor < PVSZ_CONDUCTORS &&
           (layings[laying].conductors & 1 << conductor);
}

int32_t pvsz_capacity(int32_t laying, int32_t conductor, int32_t size, double *amps)
{
    double section = pvsz_size_section(conductor, size);

    if (!holds_for(laying, conductor))
        return 0;
    for (int32_t i = 0; i < PVSZ_COUNT(ampacities); i++) {
        double there = ampacities[i].amps[layings[laying].column];

        if (ampacities[i].family != layings[laying].family || ampacities[i].section != section)
            continue;
        if (there == 0)
            return 0;
        *amps = there;
        return layings[laying].known;
    }
    return 0;
}

static bool is_ambient(int32_t table)
{
    return table > PVSZ_AMBIENT_NONE && table < PVSZ_AMBIENTS;
}

const char *pvsz_ambient_source(int32_t table)
{
    return is_ambient(table) ? ambients[table].source : NULL;
}

double pvsz_ambient_base(int32_t table)
{
    return is_ambient(table) ? ambients[table].base : 0;
}

int32_t pvsz_ambient_factor(int32_t table, double ambient, double *factor)
{
    if (!is_ambient(table))
        return 0;
    for (int32_t i = 0; i < PVSZ_COUNT(ambient_rows); i++) {
        if (ambient_rows[i].family != ambients[table].family ||
            !pvsz_at_most(ambient, ambient_rows[i].hottest))
            continue;
        *factor = ambient_rows[i].factor[ambients[table].column];
        return ambient_rows[i].known;
    }
    return 0;
}

const char *pvsz_grouping_source(int32_t table)
{
    return table >= 0 && table < PVSZ_GROUPINGS ? groupings[table].source : NULL;
}

int32_t pvsz_grouping_factor(int32_t table, int32_t count, double *factor)
{
    if (table < 0 || table >= PVSZ_GROUPINGS || count < 1)
        return 0;
    for (int32_t i = 0; i < PVSZ_COUNT(grouping_rows); i++) {
        if (grouping_rows[i].table != table || count > grouping_rows[i].most)
            continue;
        *factor = grouping_rows[i].factor;
        return groupings[table].known;
    }
    return 0;
}

/* Whether a height lies within a row. */
static bool is_within(int32_t row, double height)
{
    if (roof_rows[row].edge == BELOW)
        return !pvsz_at_most(roof_rows[row].height, height);
    return pvsz_at_most(height, roof_rows[row].height);
}

int32_t pvsz_roof_adder(int32_t edition, double height, double *kelvin)
{
    if (!(height >= 0))
        return 0;
    for (int32_t i = 0; i < PVSZ_COUNT(roof_rows); i++) {
        if (edition < roof_rows[i].first || edition > roof_rows[i].last || !is_within(i, height))
            continue;
        *kelvin = roof_rows[i].kelvin;
        return roof_rows[i].known;
    }
    return 0;
}

int32_t pvsz_capacity_in_place(const pvsz_run_place *place, int32_t conductor, int32_t size,
                               double *amps)
{
    int32_t table = pvsz_laying_ambient(place->laying);
    double base, ambient, grouping;
    int32_t known = pvsz_capacity(place->laying, conductor, size, &base);
    int32_t of_ambient = pvsz_ambient_factor(table, place->ambient, &ambient);
    int32_t of_grouping = pvsz_grouping_factor(place->grouping, place->grouped, &grouping);

    known = pvsz_weaker(known, pvsz_weaker(of_ambient, of_grouping));
    if (known)
        *amps = base * ambient * grouping;
    return known;
}

int32_t pvsz_two_way(double table_amps, double corrected_amps, double current)
{
    if (!pvsz_at_most(current, corrected_amps))
        return PVSZ_BY_CAPACITY;
    if (!pvsz_at_most(continuous_load * current, table_amps))
        return PVSZ_BY_TERMINALS;
    return PVSZ_BY_NOTHING;
}
