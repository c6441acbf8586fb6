/* A term by its name, for callers that must tell what was not found. */
#include <string.h>

#include "tables.h"

enum { MOST_LETTERS = 63 }; /* of a name */

static int32_t least(int32_t a, int32_t b)
{
    return a < b ? a : b;
}

/* Letters to add, drop or change to make one name of the other. */
static int32_t edits(const char *a, const char *b)
{
    int32_t row[MOST_LETTERS + 1], count = (int32_t)strlen(b);

    for (int32_t j = 0; j <= count; j++)
        row[j] = j;
    for (; *a; a++) {
        int32_t corner = row[0]++;

        for (int32_t j = 1; j <= count; j++) {
            int32_t change = corner + (*a != b[j - 1]);

            corner = row[j];
            row[j] = least(change, least(row[j], row[j - 1]) + 1);
        }
    }
    return row[count];
}

typedef struct neighbour {
    const char *given, *found;
    int32_t distance; /* one that is as far is not near */
} neighbour;

static void try_name(neighbour *near, const char *name)
{
    int32_t distance = edits(near->given, name);

    if (distance < near->distance && distance < (int32_t)strlen(name)) {
        near->distance = distance;
        near->found = name;
    }
}

static const char *part_name(int32_t i)
{
    const pvsz_kind *part = &pvsz_kinds[pvsz_parts[i].part];

    return pvsz_parts[i].most == 1 ? part->name : part->plural;
}

/* The row or part of a kind whose name is most like another; null if none is near. Farther
 * than a third of the letters it is another word, not a slip. */
static const char *nearest(const pvsz_kind *kind, const char *name)
{
    size_t length = strlen(name);
    neighbour near = {name, NULL, 0};

    if (length > MOST_LETTERS)
        return NULL;
    near.distance = (int32_t)length / 3 + 2;
    for (int32_t i = 0; i < kind->count; i++)
        try_name(&near, kind->rows[i].name);
    for (int32_t i = 0; i < PVSZ_PARTS; i++)
        if (&pvsz_kinds[pvsz_parts[i].owner] == kind)
            try_name(&near, part_name(i));
    return near.found;
}

/* Whether parts of a kind are called so, not its rows. */
static bool is_of_parts(const pvsz_kind *kind, const char *name)
{
    for (int32_t i = 0; i < PVSZ_PARTS; i++)
        if (&pvsz_kinds[pvsz_parts[i].owner] == kind && strcmp(part_name(i), name) == 0)
            return true;
    return false;
}

pvsize_status pvsize_term_find(int32_t kind, const char *name, int32_t *term, pvsize_diag *diag)
{
    const pvsz_kind *row = pvsz_kind_find(kind);
    const pvsz_term *found;

    if (!row)
        return pvsz_fail_value(diag, PVSIZE_E_UNKNOWN_NUMBER, 0, kind);
    if (!name)
        return pvsz_fail_null(diag, "name");
    if (!term)
        return pvsz_fail_null(diag, "term");
    found = pvsz_term_named(row, name);
    if (!found) {
        pvsz_fail_name(diag, PVSIZE_E_UNKNOWN_NAME, kind, name);
        if (is_of_parts(row, name))
            pvsz_fail_hint(diag, "parts are added to it, not set");
        else
            pvsz_fail_nearest(diag, nearest(row, name));
        return PVSIZE_E_UNKNOWN_NAME;
    }
    *term = found->number;
    return PVSIZE_OK;
}
