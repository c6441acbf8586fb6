/* Messages about a job file. */
#include "job_error.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { MOST_ERRORS = 20, MOST_NAME = 64 };

/* printing */

/* A job file may come from anywhere: no control character reaches the screen. */
static void print_plain(const char *text, size_t most)
{
    for (; *text && most > 0; text++, most--)
        fputc(iscntrl((unsigned char)*text) ? '?' : *text, stderr);
}

static void print_path(const job_path *path)
{
    if (!path)
        return;
    print_path(path->up);
    fputs(path->up ? "." : "", stderr);
    print_plain(path->key, MOST_NAME);
    if (path->index >= 0)
        fprintf(stderr, "[%d]", path->index);
}

static void print_line(const char *format, va_list values)
{
    char line[1024];

    vsnprintf(line, sizeof line, format, values);
    print_plain(line, sizeof line);
    fputc('\n', stderr);
}

bool job_errors_full(const job_errors *errors)
{
    return errors->count >= MOST_ERRORS;
}

/* False if this error is one too many. */
static bool begin(job_errors *errors)
{
    errors->count++;
    if (errors->count == MOST_ERRORS + 1)
        fprintf(stderr, "%s: too many errors; the rest is not shown\n", errors->file);
    return errors->count <= MOST_ERRORS;
}

void job_fail(job_errors *errors, const job_path *path, const char *format, ...)
{
    va_list values;

    if (!begin(errors))
        return;
    fprintf(stderr, "%s: ", errors->file);
    print_path(path);
    if (path)
        fputs(": ", stderr);
    va_start(values, format);
    print_line(format, values);
    va_end(values);
}

void job_fail_line(job_errors *errors, size_t line, const char *format, ...)
{
    va_list values;

    if (!begin(errors))
        return;
    fprintf(stderr, "%s: line %zu: ", errors->file, line);
    va_start(values, format);
    print_line(format, values);
    va_end(values);
}

/* The path names the parameter already; drop the library's own name for it. */
static const char *without_term(const char *text, int32_t term)
{
    int32_t kind = pvsize_term_kind(term);
    char name[2 * MOST_NAME];
    size_t length;

    if (kind)
        snprintf(name, sizeof name, "%s.%s: ", pvsize_kind_name(kind), pvsize_term_name(term));
    else
        snprintf(name, sizeof name, "%s: ", pvsize_kind_name(term) ? pvsize_kind_name(term) : "");
    length = strlen(name);
    return strncmp(text, name, length) == 0 ? text + length : text;
}

void job_fail_diag(job_errors *errors, const job_path *path, const pvsize_diag *diag,
                   const cJSON *item)
{
    int32_t term = pvsize_diag_term(diag);
    pvsize_status status = pvsize_diag_status(diag);
    char text[600] = "";
    job_allowed allowed = {""};
    job_given given = {""};

    pvsize_diag_text(diag, text, sizeof text, NULL);
    if (status == PVSIZE_E_NOT_FINITE || status == PVSIZE_E_NOT_WHOLE)
        allowed = job_allows(term);
    if (item && status == PVSIZE_E_BAD_TEXT)
        given = job_show(item);
    job_fail(errors, path, "%s%s%s%s", path ? without_term(text, term) : text,
             given.text[0] ? "; given " : "", given.text, allowed.text);
}

/* values */

/* Longest start of a text that fits and does not cut a character. */
static size_t fitting(const char *text, size_t room)
{
    size_t length = strlen(text);

    if (length <= room)
        return length;
    while (room > 0 && ((unsigned char)text[room] & 0xC0) == 0x80)
        room--;
    return room;
}

job_given job_quote(const char *text)
{
    job_given given;
    size_t length = fitting(text, sizeof given.text - sizeof "'...'");

    snprintf(given.text, sizeof given.text, "'%.*s%s'", (int)length, text,
             text[length] ? "..." : "");
    return given;
}

job_given job_show(const cJSON *item)
{
    job_given given = {"nothing"};

    if (cJSON_IsString(item))
        return job_quote(item->valuestring);
    if (cJSON_IsNumber(item))
        snprintf(given.text, sizeof given.text, "%.15g", item->valuedouble);
    else if (item)
        snprintf(given.text, sizeof given.text, "%s",
                 cJSON_IsNull(item)     ? "null"
                 : cJSON_IsTrue(item)   ? "true"
                 : cJSON_IsFalse(item)  ? "false"
                 : cJSON_IsArray(item)  ? "a list"
                 : cJSON_IsObject(item) ? "an object"
                                        : "nothing");
    return given;
}

static void list_choices(job_allowed *allowed, int32_t term)
{
    size_t used = strlen(allowed->text);

    for (int32_t i = 0; i < pvsize_choice_count(term) && used < sizeof allowed->text; i++) {
        snprintf(allowed->text + used, sizeof allowed->text - used, "%s%s", i ? ", " : "",
                 pvsize_choice_name(term, pvsize_choice_at(term, i)));
        used = strlen(allowed->text);
    }
}

job_allowed job_allows(int32_t term)
{
    job_allowed allowed = {"; allowed "};
    const char *unit = pvsize_term_unit(term);
    double low, high;

    if (pvsize_term_type(term) == PVSIZE_TYPE_CHOICE)
        list_choices(&allowed, term);
    else if (pvsize_term_range(term, &low, &high) == PVSIZE_OK)
        snprintf(allowed.text, sizeof allowed.text, "; allowed %.15g%s%s to %.15g%s%s", low,
                 unit[0] ? " " : "", unit, high, unit[0] ? " " : "", unit);
    else
        allowed.text[0] = '\0';
    return allowed;
}

/* nearest name */

static int lower(char c)
{
    return tolower((unsigned char)c);
}

/* Letters to insert, drop or change to make one name of the other. */
static size_t edits(const char *a, const char *b)
{
    size_t row[MOST_NAME + 1], n = strlen(b);

    if (n > MOST_NAME || strlen(a) > MOST_NAME)
        return MOST_NAME;
    for (size_t j = 0; j <= n; j++)
        row[j] = j;
    for (size_t i = 0; a[i]; i++) {
        size_t corner = row[0]++;

        for (size_t j = 1; j <= n; j++) {
            size_t change = corner + (lower(a[i]) != lower(b[j - 1]));
            size_t one = (row[j] < row[j - 1] ? row[j] : row[j - 1]) + 1;

            corner = row[j];
            row[j] = change < one ? change : one;
        }
    }
    return row[n];
}

job_nearest job_nearest_to(const char *given)
{
    return (job_nearest){given, NULL, MOST_NAME};
}

void job_nearest_try(job_nearest *nearest, const char *candidate)
{
    size_t distance = edits(nearest->given, candidate);

    if (distance < nearest->distance) {
        nearest->distance = distance;
        nearest->best = candidate;
    }
}

job_given job_nearest_hint(const job_nearest *nearest)
{
    job_given hint = {""};

    /* farther than this it is another word, not a slip */
    if (nearest->best && nearest->distance <= strlen(nearest->given) / 3 + 1 &&
        nearest->distance < strlen(nearest->best))
        snprintf(hint.text, sizeof hint.text, "; did you mean '%.*s'?",
                 (int)fitting(nearest->best, MOST_NAME - 10), nearest->best);
    return hint;
}
