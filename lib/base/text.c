/* Text into a caller's buffer; numbers without libc's locale. */
#include <math.h>
#include <string.h>

#include "base.h"

pvsize_status pvsz_text_begin(pvsz_text *text, char *buffer, size_t capacity, pvsize_diag *diag)
{
    if (!buffer && capacity)
        return pvsz_fail_null(diag, "buffer");
    text->buffer = buffer;
    text->capacity = capacity;
    text->length = 0;
    text->markdown = false;
    return PVSIZE_OK;
}

pvsize_status pvsz_text_end(pvsz_text *text, size_t *length, pvsize_diag *diag)
{
    size_t end = text->length;

    if (length)
        *length = text->length;
    if (!text->buffer)
        return PVSIZE_OK;
    if (end < text->capacity) {
        text->buffer[end] = '\0';
        return PVSIZE_OK;
    }
    /* cut in front of the character that does not fit whole */
    for (end = text->capacity; end > 0;) {
        end--;
        if (((unsigned char)text->buffer[end] & 0xC0) != 0x80) {
            text->buffer[end] = '\0';
            break;
        }
    }
    return pvsz_fail_value(diag, PVSIZE_E_CAPACITY, 0, (double)text->length + 1);
}

pvsize_status pvsz_row_text(pvsize_status found, pvsz_row_put *put, const void *object, int32_t i,
                            char *buffer, size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsz_text text;
    pvsize_status status = found ? found : pvsz_text_begin(&text, buffer, capacity, diag);

    if (status)
        return status;
    put(&text, object, i);
    return pvsz_text_end(&text, length, diag);
}

void pvsz_put_bytes(pvsz_text *text, const char *bytes, size_t count)
{
    if (text->length < text->capacity) {
        size_t room = text->capacity - text->length;
        memcpy(text->buffer + text->length, bytes, count < room ? count : room);
    }
    text->length += count;
}

void pvsz_put(pvsz_text *text, const char *bytes)
{
    pvsz_put_bytes(text, bytes, strlen(bytes));
}

void pvsz_put_given(pvsz_text *text, const char *bytes)
{
    for (; *bytes; bytes++) {
        if (text->markdown && strchr("\\`*_{}[]()<>|#!&~", *bytes))
            pvsz_put(text, "\\");
        pvsz_put_bytes(text, bytes, 1);
    }
}

void pvsz_put_repeat(pvsz_text *text, char c, int32_t count)
{
    for (; count > 0; count--)
        pvsz_put_bytes(text, &c, 1);
}

/* Digits of a non-negative number with a point before the last `decimals`. */
static void put_digits(pvsz_text *text, uint64_t number, int32_t decimals)
{
    char digits[24];
    size_t at = sizeof digits;
    int32_t done = 0;

    do {
        if (decimals > 0 && done == decimals)
            digits[--at] = '.';
        digits[--at] = (char)('0' + number % 10);
        number /= 10;
        done++;
    } while (number > 0 || done <= decimals);
    pvsz_put_bytes(text, digits + at, sizeof digits - at);
}

void pvsz_put_int(pvsz_text *text, int64_t value)
{
    uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;

    if (value < 0)
        pvsz_put(text, "-");
    put_digits(text, size, 0);
}

static const double ten[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                             1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
enum { MOST_DECIMALS = 15 };
/* whole numbers up to here are exact as doubles, and so is the printed form */
static const double exact_whole = 9e15;

/* Anything outside the range of fixed notation, as mantissa and exponent. */
static void put_scientific(pvsz_text *text, double size, int32_t digits)
{
    int32_t exponent = 0;

    while (size >= 1e9) {
        size /= 1e9;
        exponent += 9;
    }
    while (size >= 10) {
        size /= 10;
        exponent++;
    }
    while (size < 1e-8) {
        size *= 1e9;
        exponent -= 9;
    }
    while (size < 1) {
        size *= 10;
        exponent--;
    }
    if (floor(size * ten[digits - 1] + 0.5) >= ten[digits]) { /* rounds up to ten */
        size = 1;
        exponent++;
    }
    pvsz_put_rounded(text, size, digits);
    pvsz_put(text, "e");
    pvsz_put_int(text, exponent);
}

static bool put_special(pvsz_text *text, double value)
{
    if (value == value && value - value == 0)
        return false;
    pvsz_put(text, value != value ? "not a number" : value > 0 ? "infinity" : "-infinity");
    return true;
}

void pvsz_put_fixed(pvsz_text *text, double value, int32_t decimals)
{
    double size = value < 0 ? -value : value;
    double scaled;

    if (put_special(text, value))
        return;
    if (decimals > MOST_DECIMALS)
        decimals = MOST_DECIMALS;
    scaled = floor(size * ten[decimals] + 0.5);
    if (value < 0 && scaled > 0)
        pvsz_put(text, "-");
    if (scaled > exact_whole)
        put_scientific(text, size, 15);
    else
        put_digits(text, (uint64_t)scaled, decimals);
}

/* Drops zeros behind the point, as long as any can be. */
static int32_t needed_decimals(double scaled, int32_t decimals)
{
    while (decimals > 0 && floor(scaled / 10) * 10 == scaled) {
        scaled = floor(scaled / 10);
        decimals--;
    }
    return decimals;
}

void pvsz_put_rounded(pvsz_text *text, double value, int32_t digits)
{
    double size = value < 0 ? -value : value;
    int32_t decimals = digits - 1;

    if (put_special(text, value))
        return;
    if (size != 0 && (size < 1e-6 || size >= 1e15)) {
        if (value < 0)
            pvsz_put(text, "-");
        put_scientific(text, size, digits);
        return;
    }
    for (double power = 10; power <= size && decimals > 0; power *= 10)
        decimals--;
    for (double power = 1; power > size && size > 0 && decimals < MOST_DECIMALS; power /= 10)
        decimals++;
    decimals = needed_decimals(floor(size * ten[decimals] + 0.5), decimals);
    pvsz_put_fixed(text, value, decimals);
}

void pvsz_put_exact(pvsz_text *text, double value)
{
    double size = value < 0 ? -value : value;

    for (int32_t d = 0; d <= MOST_DECIMALS; d++) {
        double scaled = floor(size * ten[d] + 0.5);

        if (scaled > exact_whole)
            break;
        /* both sides exact: the quotient is the double nearest the decimal */
        if (scaled / ten[d] == size) {
            pvsz_put_fixed(text, value, d);
            return;
        }
    }
    pvsz_put_rounded(text, value, 15);
}

size_t pvsz_plain_character(const char *text)
{
    const unsigned char *s = (const unsigned char *)text;
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t n = s[0] < 0x80 ? 1 : s[0] >> 5 == 6 ? 2 : s[0] >> 4 == 14 ? 3 : s[0] >> 3 == 30 ? 4 : 0;
    uint32_t code = n == 1 ? s[0] : s[0] & (0x7FU >> n);

    for (size_t i = 1; i < n; i++) {
        if ((s[i] & 0xC0) != 0x80)
            return 0;
        code = code << 6 | (s[i] & 0x3FU);
    }
    if (n == 0 || code < least[n] || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000))
        return 0;
    if (code < 0x20 || (code >= 0x7F && code < 0xA0))
        return 0;
    /* separators of lines, signs of no width, and those that turn the direction */
    if ((code >= 0x200B && code <= 0x200F) || (code >= 0x2028 && code <= 0x202E) ||
        (code >= 0x2060 && code <= 0x2069) || code == 0x61C || code == 0xFEFF)
        return 0;
    return n;
}

pvsize_status pvsz_check_text(const char *text, size_t most, int32_t term, pvsize_diag *diag)
{
    size_t bytes = strlen(text);

    if (bytes > most)
        return pvsz_fail_range(diag, PVSIZE_E_TOO_LONG, term, (double)bytes, 0, (double)most);
    return pvsz_is_plain_text(text, most) ? PVSIZE_OK
                                          : pvsz_fail_term(diag, PVSIZE_E_BAD_TEXT, term);
}

bool pvsz_is_plain_text(const char *text, size_t most)
{
    size_t at = 0;

    while (text[at]) {
        size_t n = pvsz_plain_character(text + at);

        at += n;
        if (n == 0 || at > most)
            return false;
    }
    return true;
}
