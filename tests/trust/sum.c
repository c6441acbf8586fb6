/* See sum.h. */
#include "sum.h"

#include <string.h>

/* FNV-1a, 64 bits */
void put_bytes(sum *s, const char *bytes, size_t count)
{
    for (size_t i = 0; i < count; i++)
        *s->value = (*s->value ^ (uint8_t)bytes[i]) * 0x100000001B3u;
}

void put_int(sum *s, int64_t value)
{
    for (int i = 0; i < 8; i++) {
        char byte = (char)((uint64_t)value >> (8 * i) & 255);

        put_bytes(s, &byte, 1);
    }
}

void put_double(sum *s, double value)
{
    uint64_t bits;

    memcpy(&bits, &value, sizeof bits);
    /* sign and payload of a NaN are the processor's own */
    put_int(s, value == value ? (int64_t)bits : -1);
}

void put_text(sum *s, const char *text)
{
    if (text)
        put_bytes(s, text, strlen(text));
    put_int(s, text != NULL);
}

void put_ints(sum *s, const int32_t *values, size_t count)
{
    for (size_t i = 0; i < count; i++)
        put_int(s, values[i]);
}

void put_doubles(sum *s, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++)
        put_double(s, values[i]);
}

bool went(sum *s, pvsize_status status)
{
    double value = 0, low = 0, high = 0;
    char text[300];
    size_t length = 0;

    put_int(s, status);
    if (status == PVSIZE_OK)
        return true;
    put_int(s, pvsize_diag_term(s->diag));
    put_int(s, pvsize_diag_index(s->diag));
    pvsize_diag_value(s->diag, &value);
    pvsize_diag_range(s->diag, &low, &high);
    put_double(s, value);
    put_double(s, low);
    put_double(s, high);
    pvsize_diag_text(s->diag, text, sizeof text, &length);
    put_text(s, text);
    pvsize_diag_reason(s->diag, text, sizeof text, &length);
    put_text(s, text);
    pvsize_diag_clear(s->diag);
    return false;
}
