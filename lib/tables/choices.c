/* Sets of named values: lookup, and their public description. */
#include <string.h>

#include "tables.h"

typedef struct choice {
    int32_t set, number;
    const char *name, *text;
} choice;

static const choice choices[] = {
#define SET(number, ID, name)
#define CHOICE(SET, ID, number, name, text) {PVSIZE_SET_##SET, number, #name, text},
#include "choices.def"
#undef SET
#undef CHOICE
};

void pvsz_set_range(int32_t set, double *low, double *high)
{
    bool first = true;

    for (int32_t i = 0; i < PVSZ_COUNT(choices); i++) {
        if (choices[i].set != set)
            continue;
        if (first)
            *low = choices[i].number;
        *high = choices[i].number;
        first = false;
    }
}

static const choice *find_choice(int32_t set, int32_t number)
{
    for (int32_t i = 0; i < PVSZ_COUNT(choices); i++)
        if (choices[i].set == set && choices[i].number == number)
            return &choices[i];
    return NULL;
}

bool pvsz_set_has(int32_t set, double number)
{
    return number >= 0 && number < 1000 && find_choice(set, (int32_t)number);
}

int32_t pvsize_set_number(const char *name)
{
    static const struct {
        int32_t number;
        const char *name;
    } sets[] = {
#define SET(number, ID, name) {number, #name},
#define CHOICE(SET_, ID, number, name, text)
#include "choices.def"
#undef SET
#undef CHOICE
    };

    for (int32_t i = 0; name && i < PVSZ_COUNT(sets); i++)
        if (strcmp(sets[i].name, name) == 0)
            return sets[i].number;
    return 0;
}

int32_t pvsize_set_count(int32_t set)
{
    int32_t count = 0;

    for (int32_t i = 0; i < PVSZ_COUNT(choices); i++)
        count += choices[i].set == set;
    return count;
}

int32_t pvsize_set_at(int32_t set, int32_t i)
{
    for (int32_t row = 0; i >= 0 && row < PVSZ_COUNT(choices); row++)
        if (choices[row].set == set && i-- == 0)
            return choices[row].number;
    return -1;
}

int32_t pvsz_set_place(int32_t set, int32_t number)
{
    int32_t place = 0;

    for (int32_t row = 0; row < PVSZ_COUNT(choices); row++) {
        if (choices[row].set == set && choices[row].number == number)
            return place;
        place += choices[row].set == set;
    }
    return -1;
}

int32_t pvsize_set_by_name(int32_t set, const char *name)
{
    for (int32_t i = 0; name && i < PVSZ_COUNT(choices); i++)
        if (choices[i].set == set && strcmp(choices[i].name, name) == 0)
            return choices[i].number;
    return -1;
}

const char *pvsize_set_name(int32_t set, int32_t number)
{
    const choice *row = find_choice(set, number);

    return row ? row->name : NULL;
}

const char *pvsize_set_text(int32_t set, int32_t number)
{
    const choice *row = find_choice(set, number);

    return row ? row->text : NULL;
}

/* choices of a term: its set, if it has one */

static int32_t set_of(int32_t term)
{
    const pvsz_term *row = pvsz_term_find(term);

    return row ? row->set : 0;
}

int32_t pvsize_choice_count(int32_t term)
{
    return pvsize_set_count(set_of(term));
}

int32_t pvsize_choice_at(int32_t term, int32_t i)
{
    return pvsize_set_at(set_of(term), i);
}

int32_t pvsize_choice_by_name(int32_t term, const char *name)
{
    return pvsize_set_by_name(set_of(term), name);
}

const char *pvsize_choice_name(int32_t term, int32_t number)
{
    return pvsize_set_name(set_of(term), number);
}

const char *pvsize_choice_text(int32_t term, int32_t number)
{
    return pvsize_set_text(set_of(term), number);
}
