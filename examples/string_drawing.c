/* A line for each plane, such as
 *
 *     north roof   A-A-A-A-A  A-A-A-A-A  . .
 *
 * Long strings are drawn by their ends and their number: A-(18)-A. */
#include "string_drawing.h"

#include <stdio.h>

enum { LONGEST_DRAWN = 10, MOST_SIGNS = 52, NAME_BYTES = 201 };

typedef struct wired {
    int32_t inverter, input, plane, module, length, strings;
} wired;

static wired array_of(const pvsize_layouts *layouts, int32_t i, int32_t k)
{
    wired at = {0, 0, 0, 0, 0, 0};

    pvsize_layouts_array(layouts, i, k, &at.inverter, &at.input, &at.plane, &at.module, &at.length,
                         &at.strings, NULL);
    return at;
}

/* Label of a part, or its kind and number. */
static void put_name(const pvsize_spec *owner, int32_t kind, int32_t index, int32_t label,
                     int32_t width)
{
    pvsize_spec *part = NULL;
    char name[NAME_BYTES] = "";

    if (pvsize_spec_part(owner, kind, index, NULL, &part, NULL) == PVSIZE_OK)
        pvsize_spec_get_text(part, label, name, sizeof name, NULL, NULL);
    if (name[0] == '\0')
        snprintf(name, sizeof name, "%s %d", pvsize_kind_name(kind), (int)index + 1);
    printf("%-*s", (int)width, name);
    pvsize_spec_free(part);
}

/* One sign for each input that has something, in the order of the arrays. */
static char sign_of(const pvsize_layouts *layouts, int32_t i, int32_t k)
{
    static const char signs[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
    wired before = array_of(layouts, i, 0);
    int32_t sign = 0;

    for (int32_t at = 1; at <= k; at++) {
        wired here = array_of(layouts, i, at);

        sign += here.inverter != before.inverter || here.input != before.input;
        before = here;
    }
    return sign < MOST_SIGNS ? signs[sign] : '#';
}

static void draw_string(char sign, int32_t length)
{
    if (length > LONGEST_DRAWN) {
        printf("  %c-(%d)-%c", sign, (int)length - 2, sign);
        return;
    }
    printf("  %c", sign);
    for (int32_t n = 1; n < length; n++)
        printf("-%c", sign);
}

static void draw_plane(const pvsize_spec *site, const pvsize_layouts *layouts, int32_t i,
                       int32_t arrays, int32_t plane)
{
    double capacity = 0;
    int32_t used = 0;

    printf("    ");
    put_name(site, PVSIZE_KIND_PLANE, plane, PVSIZE_PLANE_NAME, 16);
    for (int32_t k = 0; k < arrays; k++) {
        wired at = array_of(layouts, i, k);

        for (int32_t s = 0; at.plane == plane && s < at.strings; s++) {
            draw_string(sign_of(layouts, i, k), at.length);
            used += at.length;
        }
    }
    if (pvsize_spec_get_part_number(site, plane, PVSIZE_PLANE_CAPACITY, &capacity, NULL) ==
        PVSIZE_OK) {
        printf(" ");
        for (int32_t n = used; n < capacity && n < used + LONGEST_DRAWN; n++)
            printf(" .");
        printf("  %d of %.0f", (int)used, capacity);
    }
    printf("\n");
}

static void explain_signs(const pvsize_spec *system, const pvsize_layouts *layouts, int32_t i,
                          int32_t arrays)
{
    char told = '\0';

    for (int32_t k = 0; k < arrays; k++) {
        wired at = array_of(layouts, i, k);
        char sign = sign_of(layouts, i, k);
        pvsize_spec *inverter = NULL;

        if (sign == told ||
            pvsize_spec_part(system, PVSIZE_KIND_INVERTER, at.inverter, NULL, &inverter, NULL))
            continue;
        told = sign;
        printf("    %c: input ", sign);
        put_name(inverter, PVSIZE_KIND_INPUT, at.input, PVSIZE_INPUT_NAME, 0);
        printf(" of ");
        put_name(system, PVSIZE_KIND_INVERTER, at.inverter, PVSIZE_INVERTER_NAME, 0);
        printf("\n");
        pvsize_spec_free(inverter);
    }
}

void draw_stringing(const pvsize_spec *system, const pvsize_layouts *layouts, int32_t i)
{
    pvsize_spec *site = NULL;
    int32_t arrays = 0, planes = 0;

    if (pvsize_layouts_array_count(layouts, i, &arrays, NULL) ||
        pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, NULL))
        return;
    pvsize_spec_part_count(site, PVSIZE_KIND_PLANE, &planes, NULL);
    for (int32_t plane = 0; plane < planes; plane++)
        draw_plane(site, layouts, i, arrays, plane);
    explain_signs(system, layouts, i, arrays);
    pvsize_spec_free(site);
}
