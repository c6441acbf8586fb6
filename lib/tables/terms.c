/* Lookup in the tables, and their public description. Named values: choices.c. */
#include <string.h>

#include "tables.h"

/* One more than the place of a kind, by the thousands of its number; 0: no such kind. */
static const uint8_t kind_places[] = {
#define KIND(number, ID, name, plural, text) [number / 1000] = PVSZ_KIND_##ID + 1,
#define PART(owner, part, fewest, most)
#include "kinds.def"
#undef KIND
#undef PART
};

/* The same for rows of the long tables that have gaps, by what a number is beyond its
 * kind's. */
static const uint8_t figure_places[] = {
#define FIGURE(number, ID, name, symbol, TYPE, unit, low, high, text) \
    [number % 1000] = PVSZ_FIGURE_##ID + 1,
#include "figures.def"
#undef FIGURE
};
static const uint8_t quantity_places[] = {
#define QUANTITIES_OF(SCOPE)
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text) \
    [number % 1000] = PVSZ_QUANTITY_##ID + 1,
#define END_OF(SCOPE)
#include "quantities.def"
#undef QUANTITY
};
static const uint8_t rule_places[] = {
#define RULE(number, ID, name, SCOPE, MANNER, VALUE, COMPARE, LIMIT, title, breach) \
    [number % 1000] = PVSZ_RULE_##ID + 1,
#include "rules.def"
#undef RULE
};
_Static_assert(PVSZ_FIGURES < 255 && PVSZ_QUANTITIES < 255 && PVSZ_RULES < 255,
               "places of rows fit a byte");

static const pvsz_kind *kind_of_thousand(int32_t thousand)
{
    int32_t place = thousand >= 0 && thousand < PVSZ_COUNT(kind_places) ? kind_places[thousand] : 0;

    return place ? &pvsz_kinds[place - 1] : NULL;
}

const pvsz_kind *pvsz_kind_find(int32_t number)
{
    return number % 1000 == 0 ? kind_of_thousand(number / 1000) : NULL;
}

/* Place of the row of a kind whose number is so much beyond the kind's; -1: none. */
static int32_t row_place(const pvsz_kind *kind, int32_t beyond)
{
    switch (kind - pvsz_kinds) {
    case PVSZ_KIND_FIGURE:
        return beyond < PVSZ_COUNT(figure_places) ? figure_places[beyond] - 1 : -1;
    case PVSZ_KIND_QUANTITY:
        return beyond < PVSZ_COUNT(quantity_places) ? quantity_places[beyond] - 1 : -1;
    case PVSZ_KIND_RULE:
        return beyond < PVSZ_COUNT(rule_places) ? rule_places[beyond] - 1 : -1;
    default: /* no gaps */
        return beyond <= kind->count ? beyond - 1 : -1;
    }
}

const pvsz_term *pvsz_term_find(int32_t number)
{
    const pvsz_kind *kind = number > 0 ? kind_of_thousand(number / 1000) : NULL;
    int32_t place = kind ? row_place(kind, number % 1000) : -1;

    return place < 0 ? NULL : &kind->rows[place];
}

const pvsz_term *pvsz_term_named(const pvsz_kind *kind, const char *name)
{
    for (int32_t i = 0; i < kind->count; i++)
        if (strcmp(kind->rows[i].name, name) == 0)
            return &kind->rows[i];
    return NULL;
}

int32_t pvsz_term_place(const pvsz_term *term)
{
    return (int32_t)(term - pvsz_kinds[term->kind].rows);
}

static bool is_power(const char *unit)
{
    return strcmp(unit, "W") == 0 || strcmp(unit, "VA") == 0;
}

bool pvsz_same_unit(const char *a, const char *b)
{
    return strcmp(a, b) == 0 || (is_power(a) && is_power(b));
}

void pvsz_put_term(pvsz_text *text, int32_t number)
{
    const pvsz_term *term = pvsz_term_find(number);
    const pvsz_kind *kind = term ? &pvsz_kinds[term->kind] : pvsz_kind_find(number);

    if (kind)
        pvsz_put(text, kind->name);
    if (term) {
        pvsz_put(text, ".");
        pvsz_put(text, term->name);
    }
    if (!kind)
        pvsz_put_int(text, number);
}

/* kinds */

int32_t pvsize_kind_count(void)
{
    return PVSZ_KINDS;
}

int32_t pvsize_kind_at(int32_t i)
{
    return i >= 0 && i < PVSZ_KINDS ? pvsz_kinds[i].number : 0;
}

int32_t pvsize_kind_by_name(const char *name)
{
    for (int32_t i = 0; name && i < PVSZ_KINDS; i++)
        if (strcmp(pvsz_kinds[i].name, name) == 0)
            return pvsz_kinds[i].number;
    return 0;
}

const char *pvsize_kind_name(int32_t kind)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row ? row->name : NULL;
}

const char *pvsize_kind_plural(int32_t kind)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row ? row->plural : NULL;
}

const char *pvsize_kind_text(int32_t kind)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row ? row->text : NULL;
}

int32_t pvsize_kind_is_spec(int32_t kind)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row && row - pvsz_kinds < PVSZ_SPECS;
}

static const pvsz_part *part_at(int32_t kind, int32_t i)
{
    for (int32_t row = 0; row < PVSZ_PARTS; row++)
        if (pvsz_kinds[pvsz_parts[row].owner].number == kind && i-- == 0)
            return &pvsz_parts[row];
    return NULL;
}

static const pvsz_part *part_of(int32_t kind, int32_t part)
{
    const pvsz_part *row;

    for (int32_t i = 0; (row = part_at(kind, i)); i++)
        if (pvsz_kinds[row->part].number == part)
            return row;
    return NULL;
}

int32_t pvsize_kind_part_count(int32_t kind)
{
    int32_t count = 0;

    while (part_at(kind, count))
        count++;
    return count;
}

int32_t pvsize_kind_part_at(int32_t kind, int32_t i)
{
    const pvsz_part *row = i >= 0 ? part_at(kind, i) : NULL;

    return row ? pvsz_kinds[row->part].number : 0;
}

int32_t pvsize_kind_part_fewest(int32_t kind, int32_t part)
{
    const pvsz_part *row = part_of(kind, part);

    return row ? row->fewest : -1;
}

int32_t pvsize_kind_part_most(int32_t kind, int32_t part)
{
    const pvsz_part *row = part_of(kind, part);

    return row ? row->most : -1;
}

/* terms */

int32_t pvsize_term_count(int32_t kind)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row ? row->count : 0;
}

int32_t pvsize_term_at(int32_t kind, int32_t i)
{
    const pvsz_kind *row = pvsz_kind_find(kind);

    return row && i >= 0 && i < row->count ? row->rows[i].number : 0;
}

int32_t pvsize_term_by_name(int32_t kind, const char *name)
{
    const pvsz_kind *row = pvsz_kind_find(kind);
    const pvsz_term *term = row && name ? pvsz_term_named(row, name) : NULL;

    return term ? term->number : 0;
}

int32_t pvsize_term_kind(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? pvsz_kinds[row->kind].number : 0;
}

const char *pvsize_term_name(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->name : NULL;
}

const char *pvsize_term_unit(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->unit : NULL;
}

const char *pvsize_term_text(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->text : NULL;
}

int32_t pvsize_term_type(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->type : 0;
}

int32_t pvsize_term_need(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->need : 0;
}

pvsize_status pvsize_term_range(int32_t term, double *low, double *high)
{
    const pvsz_term *row = pvsz_term_find(term);
    double ends[2] = {0, 0};

    if (!row)
        return PVSIZE_E_UNKNOWN_NUMBER;
    if (row->kind == PVSZ_KIND_QUANTITY || row->kind == PVSZ_KIND_RULE)
        return PVSIZE_E_NOT_SET;
    if (row->type == PVSIZE_TYPE_CHOICE) {
        pvsz_set_range(row->set, &ends[0], &ends[1]);
    } else if (row->type == PVSIZE_TYPE_TEXT) {
        ends[1] = PVSZ_MOST_TEXT;
    } else {
        ends[0] = row->low;
        ends[1] = row->high;
    }
    if (low)
        *low = ends[0];
    if (high)
        *high = ends[1];
    return PVSIZE_OK;
}

pvsize_status pvsize_term_default(int32_t term, double *value)
{
    const pvsz_term *row = pvsz_term_find(term);

    if (!row)
        return PVSIZE_E_UNKNOWN_NUMBER;
    if (row->need != PVSIZE_NEED_DEFAULT)
        return PVSIZE_E_NOT_SET;
    if (value)
        *value = row->deflt;
    return PVSIZE_OK;
}

int32_t pvsize_term_refers_to(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->refers_to : 0;
}

int32_t pvsize_term_scope(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row && row->scope >= 0 ? pvsz_kinds[row->scope].number : 0;
}

int32_t pvsize_term_rule_value(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->value : 0;
}

int32_t pvsize_term_rule_compare(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->compare : 0;
}

int32_t pvsize_term_rule_limit(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->limit : 0;
}
