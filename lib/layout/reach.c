/* What is known of the terms that rules compare. Whatever is not stated in
 * growth.def is taken for unknown. */
#include <math.h>

#include "reach.h"

static const struct row {
    int32_t term;
    pvsz_growth growth;
} rows[] = {
#define GROWS(TERM, REACH, LENGTH, STRINGS) \
    {PVSIZE_##TERM, {PVSZ_REACH_##REACH, PVSZ_GROWS_##LENGTH, PVSZ_GROWS_##STRINGS}},
#include "../tables/growth.def"
#undef GROWS
};

static const int32_t traits[] = {
#define TRAIT(TERM) PVSIZE_##TERM,
#define APART(QUANTITY)
#include "../tables/apart.def"
#undef TRAIT
#undef APART
};

static const int32_t apart[] = {
#define TRAIT(TERM)
#define APART(QUANTITY) PVSIZE_QUANTITY_##QUANTITY,
#include "../tables/apart.def"
#undef TRAIT
#undef APART
};

bool pvsz_is_apart(int32_t term)
{
    int32_t kind = term ? pvsize_term_kind(term) : PVSIZE_KIND_FIGURE;

    for (int32_t i = 0; i < PVSZ_COUNT(apart); i++)
        if (apart[i] == term)
            return true;
    return kind == PVSIZE_KIND_FIGURE || kind == PVSIZE_KIND_MODULE || kind == PVSIZE_KIND_PLANE ||
           kind == PVSIZE_KIND_SITE || kind == PVSIZE_KIND_ARRAY;
}

int32_t pvsz_traits(void)
{
    return PVSZ_COUNT(traits);
}

int32_t pvsz_trait(int32_t i)
{
    return traits[i];
}

/* Parameters of everything but an array are data that no stringing changes; which
 * module an input gets is for the search to say. */
static pvsz_growth growth_of_kind(int32_t kind)
{
    pvsz_growth growth = {PVSZ_REACH_ANY, PVSZ_GROWS_OPEN, PVSZ_GROWS_OPEN};

    if (kind == PVSIZE_KIND_MODULE)
        growth = (pvsz_growth){PVSZ_REACH_LOCAL, PVSZ_GROWS_FLAT, PVSZ_GROWS_FLAT};
    else if (kind != PVSIZE_KIND_ARRAY && kind != PVSIZE_KIND_QUANTITY)
        growth = (pvsz_growth){PVSZ_REACH_FIXED, PVSZ_GROWS_FLAT, PVSZ_GROWS_FLAT};
    return growth;
}

pvsz_growth pvsz_growth_of(int32_t term)
{
    const pvsz_growth constant = {PVSZ_REACH_FIXED, PVSZ_GROWS_FLAT, PVSZ_GROWS_FLAT};

    if (term == 0)
        return constant;
    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        if (rows[i].term == term)
            return rows[i].growth;
    return growth_of_kind(pvsize_term_kind(term));
}

int32_t pvsz_rule_reach(const pvsz_rule *rule)
{
    int32_t value = pvsz_growth_of(rule->value.number).reach;
    int32_t limit = pvsz_growth_of(rule->limit.number).reach;

    return value > limit ? value : limit;
}

static bool is_place(int32_t term)
{
    return term == PVSIZE_ARRAY_INVERTER || term == PVSIZE_ARRAY_INPUT;
}

bool pvsz_rule_tells_places(const pvsz_rule *rule)
{
    return is_place(rule->value.number) || is_place(rule->limit.number);
}

/* The length at which a proportional value reaches its floor, less one that may be
 * rounding, less one so that the last miss is seen. A floor that is missed is above it. */
static int32_t length_that_reaches(const pvsz_finding *finding, int32_t length)
{
    double n;

    if (!(finding->value > 0))
        return 0;
    n = floor(finding->limit / finding->value * length) - 2;
    return n > length && n < 1e6 ? (int32_t)n : 0;
}

void pvsz_learn(const pvsz_finding *finding, int32_t length, bool fewest, pvsz_lesson *lesson)
{
    pvsz_growth value = pvsz_growth_of(finding->rule->value.number);
    pvsz_growth limit = pvsz_growth_of(finding->rule->limit.number);
    bool still = limit.length == PVSZ_GROWS_FLAT && limit.strings == PVSZ_GROWS_FLAT;
    bool known = value.length != PVSZ_GROWS_OPEN && value.strings != PVSZ_GROWS_OPEN;
    bool at_most = finding->rule->compare == PVSIZE_COMPARE_AT_MOST && finding->value > 0;
    bool flat = value.length == PVSZ_GROWS_FLAT && value.strings == PVSZ_GROWS_FLAT;

    if (!still || !known)
        return;
    if (at_most || flat) {
        lesson->no_more = true;
        lesson->no_longer |= fewest;
    } else if (value.strings == PVSZ_GROWS_FLAT &&
               finding->rule->compare != PVSIZE_COMPARE_AT_MOST) {
        int32_t reached = length_that_reaches(finding, length);

        lesson->never_here = true;
        if (reached > lesson->length)
            lesson->length = reached;
    }
}
