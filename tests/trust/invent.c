/* See invent.h. It reads the tables and knows few terms by name: new rows are in at once.
 * Failures of single calls are part of the game. No expression draws twice: the order
 * would be the compiler's. */
#include "invent.h"

enum { DEPTH = 4 };

static double choice(draw *d, int32_t term)
{
    return pvsize_choice_at(term, draw_below(d, pvsize_choice_count(term)));
}

double invent_number(draw *d, int32_t term)
{
    double low = 0, high = 1, width;
    int32_t how = draw_below(d, 16), type = pvsize_term_type(term);

    if (how == 0)
        return draw_strange(d);
    if (type == PVSIZE_TYPE_CHOICE)
        return choice(d, term);
    if (type == PVSIZE_TYPE_INDEX && how > 1)
        return how > 14; /* few lists are longer */
    pvsize_term_range(term, &low, &high);
    if (how == 1)
        return draw_below(d, 2) ? low : high;
    width = how < 6 ? (high - low) : how < 11 ? (high - low) / 64 : (high - low) / 4096;
    if (type == PVSIZE_TYPE_COUNT || type == PVSIZE_TYPE_INDEX) {
        if (how > 8)
            width = width < 12 ? width : 12;
        return low + (double)(int64_t)draw_between(d, 0, width);
    }
    return low + draw_between(d, 0, width);
}

static void set_terms(draw *d, pvsize_spec *spec, int32_t kind)
{
    for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
        int32_t term = pvsize_term_at(kind, i), how = draw_below(d, 8);

        if (how == 0)
            continue;
        if (how == 1)
            pvsize_spec_set_none(spec, term, NULL);
        else if (pvsize_term_type(term) == PVSIZE_TYPE_TEXT)
            pvsize_spec_set_text(spec, term, how < 4 ? "Quoll | *\xC3\xBC*" : "Bettong", NULL);
        else
            pvsize_spec_set_number(spec, term, invent_number(d, term), NULL);
    }
}

static pvsize_spec *spec_within(draw *d, int32_t kind, const pvsize_allocator *memory, int depth)
{
    pvsize_spec *spec = NULL;

    if (pvsize_spec_new(kind, memory, &spec, NULL))
        return NULL;
    set_terms(d, spec, kind);
    for (int32_t i = 0; depth < DEPTH && i < pvsize_kind_part_count(kind); i++) {
        int32_t part = pvsize_kind_part_at(kind, i);
        int32_t least = pvsize_kind_part_fewest(kind, part);

        for (int32_t k = least + draw_below(d, depth ? 2 : 4); k > 0; k--) {
            pvsize_spec *one = spec_within(d, part, memory, depth + 1);

            pvsize_spec_add(spec, one, NULL, NULL);
            pvsize_spec_free(one);
        }
    }
    return spec;
}

pvsize_spec *invent_spec(draw *d, int32_t kind, const pvsize_allocator *memory)
{
    return spec_within(d, kind, memory, 0);
}

/* A number near the one in force; else any. */
static double nearby(draw *d, const pvsize_spec *spec, int32_t term)
{
    double value;

    if (pvsize_term_type(term) == PVSIZE_TYPE_NUMBER &&
        pvsize_spec_get_number(spec, term, &value, NULL) == PVSIZE_OK)
        return value * draw_between(d, 0.8, 1.25);
    return invent_number(d, term);
}

/* Changes a few terms of a spec. */
static void touch(draw *d, pvsize_spec *spec)
{
    int32_t kind = pvsize_spec_kind(spec);

    for (int32_t n = draw_below(d, 4); n > 0; n--) {
        int32_t term = pvsize_term_at(kind, draw_below(d, pvsize_term_count(kind)));

        if (draw_below(d, 6) == 0)
            pvsize_spec_unset(spec, term, NULL);
        else
            pvsize_spec_set_number(spec, term, nearby(d, spec, term), NULL);
    }
}

/* Changes a part of a spec, or a part of that part, or adds one. */
static void touch_part(draw *d, pvsize_spec *owner, const pvsize_allocator *memory, int depth)
{
    int32_t kind = pvsize_spec_kind(owner), count = 0, index;
    int32_t part = pvsize_kind_part_at(kind, draw_below(d, pvsize_kind_part_count(kind)));
    pvsize_spec *one = NULL;

    if (part == 0)
        return;
    pvsize_spec_part_count(owner, part, &count, NULL);
    if (count == 0 || draw_below(d, 6) == 0) {
        one = spec_within(d, part, memory, DEPTH - 1);
        pvsize_spec_add(owner, one, NULL, NULL);
        pvsize_spec_free(one);
        return;
    }
    index = draw_below(d, count);
    if (pvsize_spec_part(owner, part, index, memory, &one, NULL))
        return;
    touch(d, one);
    if (depth < 3 && draw_below(d, 2))
        touch_part(d, one, memory, depth + 1);
    pvsize_spec_replace(owner, index, one, NULL);
    pvsize_spec_free(one);
}

/* What a search wants to know of every plane. */
static void finish_planes(draw *d, pvsize_spec *system, const pvsize_allocator *memory)
{
    pvsize_spec *site = NULL;
    int32_t planes = 0;

    if (pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, memory, &site, NULL))
        return;
    pvsize_spec_part_count(site, PVSIZE_KIND_PLANE, &planes, NULL);
    for (int32_t i = 0; i < planes; i++) {
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_SPECIFIC_YIELD,
                                    draw_between(d, 800, 1600), NULL);
        pvsize_spec_set_part_number(site, i, PVSIZE_PLANE_CAPACITY, 4 + draw_below(d, 60), NULL);
    }
    pvsize_spec_replace(system, 0, site, NULL);
    pvsize_spec_free(site);
}

/* Cables, isolators and readings of the first array, which exercises have not. */
static void give_extras(draw *d, pvsize_spec *system, const pvsize_allocator *memory)
{
    static const int32_t kinds[] = {PVSIZE_KIND_CABLE, PVSIZE_KIND_ISOLATOR, PVSIZE_KIND_READING};
    static const int32_t arrays[] = {PVSIZE_CABLE_ARRAY, PVSIZE_ISOLATOR_ARRAY,
                                     PVSIZE_READING_ARRAY};

    for (int i = 0; i < 3; i++)
        for (int32_t n = draw_below(d, 3); n > 0; n--) {
            pvsize_spec *one = spec_within(d, kinds[i], memory, DEPTH);

            for (int32_t k = 0; k < pvsize_term_count(kinds[i]); k++)
                if (pvsize_term_refers_to(pvsize_term_at(kinds[i], k)))
                    pvsize_spec_unset(one, pvsize_term_at(kinds[i], k), NULL);
            pvsize_spec_set_number(one, arrays[i], 0, NULL);
            if (i == 0 && draw_below(d, 2))
                pvsize_spec_set_number(one, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING, NULL);
            pvsize_spec_add(system, one, NULL, NULL);
            pvsize_spec_free(one);
        }
}

pvsize_spec *invent_system(draw *d, const pvsize_allocator *memory)
{
    pvsize_exercise *exercise = NULL;
    pvsize_spec *system = NULL;
    int32_t level =
        pvsize_set_at(PVSIZE_SET_LEVEL, draw_below(d, pvsize_set_count(PVSIZE_SET_LEVEL)));

    if (pvsize_exercise_new(level, (int32_t)(draw_word(d) % 100000), NULL, memory, &exercise, NULL))
        return NULL;
    if (pvsize_exercise_system(exercise, memory, &system, NULL) == PVSIZE_OK) {
        finish_planes(d, system, memory);
        give_extras(d, system, memory);
        for (int32_t n = draw_below(d, 5); n > 0; n--)
            touch_part(d, system, memory, 0);
    }
    pvsize_exercise_free(exercise);
    return system;
}

pvsize_rules *invent_rules(draw *d, const pvsize_allocator *memory)
{
    static const int32_t compare[] = {PVSIZE_COMPARE_AT_MOST, PVSIZE_COMPARE_AT_LEAST,
                                      PVSIZE_COMPARE_MORE_THAN};
    pvsize_rules *rules = NULL;
    int32_t n = pvsize_preset_count() + 1;

    if (pvsize_rules_new(pvsize_preset_name(draw_below(d, n)), memory, &rules, NULL))
        return NULL;
    for (n = draw_below(d, 6); n > 0; n--) {
        int32_t count = pvsize_term_count(PVSIZE_KIND_FIGURE);
        int32_t figure = pvsize_term_at(PVSIZE_KIND_FIGURE, draw_below(d, count));

        pvsize_rules_set_figure(rules, figure, invent_number(d, figure), NULL, NULL);
    }
    for (n = draw_below(d, 6); n > 0; n--) {
        int32_t rule = pvsize_rules_at(rules, draw_below(d, pvsize_rules_count(rules)));
        int32_t severity = pvsize_set_at(PVSIZE_SET_SEVERITY, draw_below(d, 4));

        pvsize_rules_set_severity(rules, rule, severity, NULL);
    }
    for (n = draw_below(d, 3); n > 0; n--) {
        int32_t count = pvsize_term_count(PVSIZE_KIND_QUANTITY);
        int32_t value = pvsize_term_at(PVSIZE_KIND_QUANTITY, draw_below(d, count));
        int32_t limit =
            draw_below(d, 2) ? 0 : pvsize_term_at(PVSIZE_KIND_QUANTITY, draw_below(d, count));
        int32_t side = compare[draw_below(d, 3)];
        double number = draw_between(d, 0, 50);

        pvsize_rules_add(rules, n == 1 ? "own" : "own_too", "Own", value, side, limit, number,
                         PVSIZE_SEVERITY_MUST, NULL, NULL, NULL);
    }
    return rules;
}

/* A copy of a system with so many of its arrays, and nothing that hangs on them. */
static pvsize_spec *bare(const pvsize_spec *system, int32_t fixed, const pvsize_allocator *memory)
{
    static const int32_t kinds[] = {PVSIZE_KIND_CABLE, PVSIZE_KIND_READING, PVSIZE_KIND_ISOLATOR};
    pvsize_spec *copy = NULL;

    if (pvsize_spec_clone(system, memory, &copy, NULL))
        return NULL;
    for (int i = 0; i < 3; i++)
        while (pvsize_spec_remove(copy, kinds[i], 0, NULL) == PVSIZE_OK)
            continue;
    while (pvsize_spec_remove(copy, PVSIZE_KIND_ARRAY, fixed, NULL) == PVSIZE_OK)
        continue;
    return copy;
}

pvsize_spec *invent_search(draw *d, const pvsize_spec *system, const pvsize_allocator *memory)
{
    int32_t count = 0, fixed = draw_below(d, 6);
    pvsize_spec *search = NULL, *array = NULL, *module = NULL;
    pvsize_spec *whole = bare(system, fixed > 2 ? 0 : fixed, memory);

    if (pvsize_spec_new(PVSIZE_KIND_SEARCH, memory, &search, NULL) == PVSIZE_OK) {
        if (draw_below(d, 4) == 0)
            set_terms(d, search, PVSIZE_KIND_SEARCH);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, choice(d, PVSIZE_SEARCH_OBJECTIVE),
                               NULL);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_POWER, 1000 + draw_below(d, 20000),
                               NULL);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, 1 + draw_below(d, 2000), NULL);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 1 + draw_below(d, 8), NULL);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 1 + draw_below(d, 4), NULL);
        pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 4 + draw_below(d, 26), NULL);
        pvsize_spec_add(search, whole, NULL, NULL);
        pvsize_spec_part_count(system, PVSIZE_KIND_ARRAY, &count, NULL);
        for (int32_t i = 0; i < count && i < 2; i++) {
            pvsize_spec_part(system, PVSIZE_KIND_ARRAY, i, memory, &array, NULL);
            pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, memory, &module, NULL);
            pvsize_spec_add(search, module, NULL, NULL);
            pvsize_spec_free(module);
            pvsize_spec_free(array);
        }
    }
    pvsize_spec_free(whole);
    return search;
}

pvsize_spec *invent_place(draw *d, const pvsize_allocator *memory)
{
    pvsize_spec *site = NULL, *month = NULL;
    double latitude = draw_between(d, -60, 60), warm = draw_between(d, -5, 25);

    if (pvsize_spec_new(PVSIZE_KIND_SITE, memory, &site, NULL))
        return NULL;
    pvsize_spec_set_number(site, PVSIZE_SITE_LATITUDE, latitude, NULL);
    pvsize_spec_set_number(site, PVSIZE_SITE_LONGITUDE, draw_between(d, -180, 180), NULL);
    pvsize_spec_set_number(site, PVSIZE_SITE_TIME_ZONE, draw_below(d, 25) - 12, NULL);
    for (int i = 0; i < 12; i++) {
        if (pvsize_spec_new(PVSIZE_KIND_MONTH, memory, &month, NULL))
            continue;
        pvsize_spec_set_number(month, PVSIZE_MONTH_IRRADIATION, draw_between(d, 0.5, 3), NULL);
        pvsize_spec_set_number(month, PVSIZE_MONTH_TEMP_MEAN, warm + i, NULL);
        if (draw_below(d, 2)) {
            pvsize_spec_set_number(month, PVSIZE_MONTH_TEMP_DAILY_MIN, warm + i - 6, NULL);
            pvsize_spec_set_number(month, PVSIZE_MONTH_TEMP_DAILY_MAX, warm + i + 7, NULL);
            pvsize_spec_set_number(month, PVSIZE_MONTH_WIND, 3, NULL);
        }
        pvsize_spec_add(site, month, NULL, NULL);
        pvsize_spec_free(month);
    }
    return site;
}
