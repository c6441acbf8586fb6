/* Values. What a value must look like follows from the row's type and unit. */
#include "job_value.h"

#include "job_text.h"

#include <stdlib.h>
#include <string.h>

const cJSON *job_member(const cJSON *object, const char *key)
{
    return cJSON_GetObjectItemCaseSensitive(object, key);
}

bool job_key_counts(job_errors *errors, const job_path *path, const cJSON *object,
                    const cJSON *item)
{
    job_path here = {path, item->string, -1};

    if (item->string[0] == '_')
        return false;
    if (job_member(object, item->string) != item) {
        job_fail(errors, path, "the key %s stands here more than once",
                 job_quote(item->string).text);
        return false;
    }
    if (cJSON_IsNull(item)) {
        job_fail(errors, &here, "null is no value; leave the key out");
        return false;
    }
    return true;
}

/* shapes */

static bool is_shape(job_errors *errors, const job_path *path, const cJSON *item, bool right,
                     const char *shape)
{
    if (!right)
        job_fail(errors, path, "%smust be %s; given %s", path ? "" : "the job ", shape,
                 job_show(item).text);
    return right;
}

bool job_is_object(job_errors *errors, const job_path *path, const cJSON *item)
{
    return is_shape(errors, path, item, cJSON_IsObject(item), "an object");
}

bool job_is_list(job_errors *errors, const job_path *path, const cJSON *item)
{
    return is_shape(errors, path, item, cJSON_IsArray(item), "a list");
}

bool job_is_text(job_errors *errors, const job_path *path, const cJSON *item)
{
    return is_shape(errors, path, item, cJSON_IsString(item), "a text");
}

/* numbers */

static bool has_unit(int32_t term)
{
    return pvsize_term_unit(term)[0] != '\0';
}

static void fail_unit(job_errors *errors, const job_path *path, const cJSON *item, int32_t term,
                      const char *unit)
{
    if (!has_unit(term))
        job_fail(errors, path, "given %s; a plain number without a unit belongs here%s",
                 job_show(item).text, job_allows(term).text);
    else if (unit[0] == '\0')
        job_fail(errors, path, "given %s without its unit; expected %s%s", job_show(item).text,
                 pvsize_term_unit(term), job_allows(term).text);
    else
        job_fail(errors, path, "given %s in the unit %s; expected the unit %s%s",
                 job_show(item).text, job_quote(unit).text, pvsize_term_unit(term),
                 job_allows(term).text);
}

static bool number_and_unit(job_errors *errors, const job_path *path, const cJSON *item,
                            int32_t term, double *value)
{
    const char *text = item->valuestring;
    size_t length = job_number_length(text);
    const char *unit = text + length;

    unit += strspn(unit, " ");
    if (length == 0 || (unit == text + length && strchr("0123456789.,+-", *unit) && *unit)) {
        job_fail(errors, path, "given %s; a number%s%s belongs here, written such as 1234.5%s",
                 job_show(item).text, has_unit(term) ? " in " : "", pvsize_term_unit(term),
                 job_allows(term).text);
        return false;
    }
    if (strcmp(unit, pvsize_term_unit(term)) != 0) {
        fail_unit(errors, path, item, term, unit);
        return false;
    }
    /* nobody calls setlocale here, so that the decimal mark is a point */
    *value = strtod(text, NULL);
    return true;
}

bool job_number(job_errors *errors, const job_path *path, const cJSON *item, int32_t term,
                double *value)
{
    if (cJSON_IsString(item))
        return number_and_unit(errors, path, item, term, value);
    if (cJSON_IsNumber(item)) {
        *value = item->valuedouble;
        return true;
    }
    job_fail(errors, path, "given %s; a number%s%s belongs here%s", job_show(item).text,
             has_unit(term) ? " in " : "", pvsize_term_unit(term), job_allows(term).text);
    return false;
}

bool job_says_none(const cJSON *item)
{
    return cJSON_IsString(item) && strcmp(item->valuestring, "none") == 0;
}

/* words */

bool job_is_wordy(int32_t term)
{
    int32_t type = pvsize_term_type(term);

    return type == PVSIZE_TYPE_TEXT || type == PVSIZE_TYPE_CHOICE;
}

static bool is_yes_or_no(int32_t term)
{
    return pvsize_choice_count(term) == 2 && pvsize_choice_by_name(term, "yes") >= 0 &&
           pvsize_choice_by_name(term, "no") >= 0;
}

const char *job_words(job_errors *errors, const job_path *path, const cJSON *item, int32_t term)
{
    if (cJSON_IsString(item))
        return item->valuestring;
    if (cJSON_IsBool(item) && is_yes_or_no(term))
        return cJSON_IsTrue(item) ? "yes" : "no";
    job_fail(errors, path, "given %s; a %s belongs here%s", job_show(item).text,
             pvsize_term_type(term) == PVSIZE_TYPE_TEXT ? "text" : "name", job_allows(term).text);
    return NULL;
}
