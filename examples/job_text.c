/* Loading and parsing. The parser is lenient where a slip could pass for a
 * value: odd numbers, line ends inside a text, a zero that cuts a text short.
 * A scan in front of it finds these, and nesting without end. */
#include "job_text.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_BYTES = 64 * 1024 * 1024, MOST_DEPTH = 16 };

/* loading */

static char *read_stream(job_errors *errors, FILE *stream, size_t *length)
{
    size_t room = 1 << 16, used = 0, got = 1;
    char *text = malloc(room);

    while (text && got > 0 && used < MOST_BYTES) {
        got = fread(text + used, 1, room - 1 - used, stream);
        used += got;
        if (used == room - 1) {
            char *more = realloc(text, room *= 2);

            if (!more)
                free(text);
            text = more;
        }
    }
    if (text && !ferror(stream) && used < MOST_BYTES) {
        text[used] = '\0';
        *length = used;
        return text;
    }
    job_fail(errors, NULL, "cannot read: %s",
             !text                ? "no memory"
             : used >= MOST_BYTES ? "more than 64 MiB"
                                  : strerror(errno));
    free(text);
    return NULL;
}

char *job_text_load(job_errors *errors, size_t *length)
{
    FILE *stream;
    char *text;

    if (strcmp(errors->file, "-") == 0) {
        errors->file = "standard input";
        return read_stream(errors, stdin, length);
    }
    stream = fopen(errors->file, "rb");
    if (!stream) {
        job_fail(errors, NULL, "cannot open: %s", strerror(errno));
        return NULL;
    }
    text = read_stream(errors, stream, length);
    fclose(stream);
    return text;
}

/* places */

typedef struct place {
    size_t line, column;
} place;

/* Lines and characters, both from 1, of a spot in the text. */
static place place_of(const char *text, const char *spot)
{
    place at = {1, 1};

    for (; text < spot; text++) {
        if (*text == '\n')
            at = (place){at.line + 1, 1};
        else if (((unsigned char)*text & 0xC0) != 0x80)
            at.column++;
    }
    return at;
}

static void fail_at(job_errors *errors, const char *text, const char *spot, const char *what)
{
    place at = place_of(text, spot);

    job_fail_line(errors, at.line, "column %zu: %s", at.column, what);
}

/* the scan */

static size_t digits(const char *text)
{
    return strspn(text, "0123456789");
}

size_t job_number_length(const char *text)
{
    const char *at = text + (*text == '-');
    size_t n = digits(at);

    if (n == 0 || (n > 1 && *at == '0'))
        return 0;
    at += n;
    if (*at == '.') {
        n = digits(at + 1);
        if (n == 0)
            return 0;
        at += 1 + n;
    }
    if (*at == 'e' || *at == 'E') {
        n = at[1] == '+' || at[1] == '-' ? 2 : 1;
        if (digits(at + n) == 0)
            return 0;
        at += n + digits(at + n);
    }
    return (size_t)(at - text);
}

/* Each takes the spot of its first byte and returns the one behind its last, or
 * null after an error. */

static const char *scan_number(job_errors *errors, const char *text, const char *spot)
{
    size_t run = strspn(spot, "0123456789+-.,eExX_");
    size_t length = job_number_length(spot);

    /* a comma may well follow a number, but not with a digit close behind it */
    while (run > 0 && spot[run - 1] == ',')
        run--;
    if (length > 0 && (length >= run || spot[length] == ','))
        return spot + length;
    fail_at(errors, text, spot, "a number is not written as JSON writes it (such as -0.25 or 1e3)");
    return NULL;
}

static const char *scan_text(job_errors *errors, const char *text, const char *spot)
{
    const char *at = spot + 1;

    for (; *at != '"'; at++) {
        if ((unsigned char)*at < 0x20) {
            fail_at(errors, text, spot, "a text that opens here is not closed on its line");
            return NULL;
        }
        if (strncmp(at, "\\u0000", 6) == 0) {
            fail_at(errors, text, at, "a text must not hold the character zero");
            return NULL;
        }
        at += *at == '\\' && at[1] != '\0';
    }
    return at + 1;
}

static bool scan(job_errors *errors, const char *text, size_t length)
{
    const char *at = text;
    int depth = 0;

    while (at && at < text + length) {
        depth += (*at == '{' || *at == '[') - (*at == '}' || *at == ']');
        if (*at == '"') {
            at = scan_text(errors, text, at);
        } else if (*at == '-' || digits(at) > 0) {
            at = scan_number(errors, text, at);
        } else if (depth > MOST_DEPTH) {
            fail_at(errors, text, at, "nested too deep; at most 16 levels");
            at = NULL;
        } else if ((unsigned char)*at < 0x20 && !strchr("\t\r\n", *at ? *at : 1)) {
            fail_at(errors, text, at, "a control character");
            at = NULL;
        } else {
            at++;
        }
    }
    return at != NULL;
}

static void fail_syntax(job_errors *errors, const char *text, const char *spot)
{
    char rest[160];
    place at;

    /* the parser may stop in front of a blank; what follows it says more */
    spot += strspn(spot, " \t\r\n");
    at = place_of(text, spot);
    snprintf(rest, sizeof rest, "%.*s", (int)strcspn(spot, "\r\n"), spot);
    if (*spot)
        job_fail_line(errors, at.line, "column %zu: not JSON from here on: %s", at.column,
                      job_quote(rest).text);
    else
        job_fail_line(errors, at.line, "column %zu: the JSON text ends too early", at.column);
}

cJSON *job_text_parse(job_errors *errors, const char *text, size_t length)
{
    const char *spot = text;
    cJSON *root;

    if (!scan(errors, text, length))
        return NULL;
    root = cJSON_ParseWithLengthOpts(text, length + 1, &spot, 1);
    if (!root)
        fail_syntax(errors, text, spot);
    return root;
}
