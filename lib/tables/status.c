/* Status codes by number, and what the library says of itself. */
#include "tables.h"

typedef struct status_row {
    int32_t number;
    const char *name, *text;
} status_row;

static const status_row rows[] = {
#define STATUS(number, ID, name, text) {number, #name, text},
#include "status.def"
#undef STATUS
};

static const status_row *find(int32_t status)
{
    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        if (rows[i].number == status)
            return &rows[i];
    return NULL;
}

const char *pvsize_status_name(int32_t status)
{
    const status_row *row = find(status);

    return row ? row->name : NULL;
}

const char *pvsize_status_text(int32_t status)
{
    const status_row *row = find(status);

    return row ? row->text : NULL;
}

int32_t pvsize_status_count(void)
{
    return PVSZ_COUNT(rows);
}

int32_t pvsize_status_at(int32_t i)
{
    return i >= 0 && i < PVSZ_COUNT(rows) ? rows[i].number : -1;
}

#define TO_TEXT(x) #x
#define AS_TEXT(x) TO_TEXT(x)

int32_t pvsize_version(void)
{
    return PVSIZE_MAJOR * 10000 + PVSIZE_MINOR * 100 + PVSIZE_PATCH;
}

const char *pvsize_version_text(void)
{
    return AS_TEXT(PVSIZE_MAJOR) "." AS_TEXT(PVSIZE_MINOR) "." AS_TEXT(PVSIZE_PATCH);
}

const char *pvsize_caution(void)
{
    return "CAUTION: mains and d.c. electricity kill, and a roof is high. This is a calculation "
           "aid: a licensed person must check it against the local code in force and the "
           "makers' instructions before anything is bought, built or switched on.";
}
