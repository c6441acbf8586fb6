/* The rule set of a job: a preset, and what the job changes in it. */
#include "job_reader.h"

#include "job_value.h"

#include <string.h>

static const char *const default_preset = "asnzs_5033_2021";

typedef struct rules_reader {
    job_errors *errors;
    pvsize_diag *diag;
    pvsize_rules *rules;
} rules_reader;

static const job_path top = {NULL, "rules", -1};

/* keys */

/* Checks an object whose keys are the reader's own; false if it is none. */
static bool check_keys(rules_reader *r, const job_path *path, const cJSON *object,
                       const char *const *keys)
{
    const cJSON *item;

    if (!job_is_object(r->errors, path, object))
        return false;
    cJSON_ArrayForEach(item, object)
    {
        job_nearest nearest = job_nearest_to(item->string);
        bool known = false;

        if (job_errors_full(r->errors) || !job_key_counts(r->errors, path, object, item))
            continue;
        for (int i = 0; keys[i] && !known; i++) {
            known = strcmp(keys[i], item->string) == 0;
            job_nearest_try(&nearest, keys[i]);
        }
        if (!known)
            job_fail(r->errors, path, "unknown key %s%s", job_quote(item->string).text,
                     job_nearest_hint(&nearest).text);
    }
    return true;
}

/* Text of a member; null if it is not there, or after an error. */
static const char *text_of(rules_reader *r, const job_path *path, const cJSON *object,
                           const char *key)
{
    const cJSON *item = job_member(object, key);
    job_path here = {path, key, -1};

    if (!item || cJSON_IsNull(item) || !job_is_text(r->errors, &here, item))
        return NULL;
    return item->valuestring;
}

/* Adds a name to a list of them, as far as there is room. */
static void list_name(char *names, size_t room, const char *name)
{
    if (strlen(names) + strlen(name) + 3 < room) {
        strcat(names, names[0] ? ", " : "");
        strcat(names, name);
    }
}

/* The number of a name in one of the library's sets; -1 after an error. */
static int32_t set_member(rules_reader *r, const job_path *path, const cJSON *item, int32_t set)
{
    job_nearest nearest;
    char names[160] = "";
    int32_t number;

    if (!job_is_text(r->errors, path, item))
        return -1;
    number = pvsize_set_by_name(set, item->valuestring);
    if (number >= 0)
        return number;
    nearest = job_nearest_to(item->valuestring);
    for (int32_t i = 0; i < pvsize_set_count(set); i++) {
        const char *name = pvsize_set_name(set, pvsize_set_at(set, i));

        job_nearest_try(&nearest, name);
        list_name(names, sizeof names, name);
    }
    job_fail(r->errors, path, "not one of the choices; given %s; allowed %s%s", job_show(item).text,
             names, job_nearest_hint(&nearest).text);
    return -1;
}

/* preset and title */

static void start(rules_reader *r, const cJSON *object)
{
    const char *given = text_of(r, &top, object, "preset");
    const char *preset = given ? given : default_preset;
    job_nearest nearest = job_nearest_to(preset);
    job_path here = {&top, "preset", -1};
    char names[600] = "";

    if (pvsize_rules_new(preset, NULL, &r->rules, r->diag) == PVSIZE_OK)
        return;
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        job_nearest_try(&nearest, pvsize_preset_name(i));
        list_name(names, sizeof names, pvsize_preset_name(i));
    }
    job_fail(r->errors, &here, "no preset is named %s; allowed %s%s", job_quote(preset).text, names,
             job_nearest_hint(&nearest).text);
}

static void read_title(rules_reader *r, const cJSON *object)
{
    const char *title = text_of(r, &top, object, "title");
    job_path here = {&top, "title", -1};

    if (title && pvsize_rules_set_title(r->rules, title, r->diag))
        job_fail_diag(r->errors, &here, r->diag, job_member(object, "title"));
}

/* figures */

static bool is_number_fault(const pvsize_diag *diag)
{
    return pvsize_diag_status(diag) == PVSIZE_E_OUT_OF_RANGE ||
           pvsize_diag_status(diag) == PVSIZE_E_NOT_FINITE;
}

static void read_figure(rules_reader *r, const job_path *path, const cJSON *item, int32_t figure)
{
    static const char *const keys[] = {"value", "source", NULL};
    job_path here = {path, "value", -1}, text = {path, "source", -1};
    const job_path *at = path;
    const char *source = NULL;
    double value;

    if (cJSON_IsObject(item)) {
        if (!check_keys(r, path, item, keys))
            return;
        source = text_of(r, path, item, "source");
        item = job_member(item, "value");
        at = &here;
    }
    if (job_number(r->errors, at, item, figure, &value) &&
        pvsize_rules_set_figure(r->rules, figure, value, source, r->diag))
        job_fail_diag(r->errors, is_number_fault(r->diag) ? at : &text, r->diag, NULL);
}

static void fail_name(rules_reader *r, const job_path *path, int32_t kind, const char *name)
{
    job_nearest nearest = job_nearest_to(name);

    for (int32_t i = 0; i < pvsize_term_count(kind); i++)
        job_nearest_try(&nearest, pvsize_term_name(pvsize_term_at(kind, i)));
    job_fail(r->errors, path, "no %s is named %s%s", pvsize_kind_name(kind), job_quote(name).text,
             job_nearest_hint(&nearest).text);
}

static void read_figures(rules_reader *r, const cJSON *object)
{
    const cJSON *figures = job_member(object, "figures"), *item;
    job_path path = {&top, "figures", -1};

    if (!figures || cJSON_IsNull(figures) || !job_is_object(r->errors, &path, figures))
        return;
    cJSON_ArrayForEach(item, figures)
    {
        int32_t figure = pvsize_term_by_name(PVSIZE_KIND_FIGURE, item->string);
        job_path here = {&path, item->string, -1};

        if (job_errors_full(r->errors) || !job_key_counts(r->errors, &path, figures, item))
            continue;
        if (figure)
            read_figure(r, &here, item, figure);
        else
            fail_name(r, &path, PVSIZE_KIND_FIGURE, item->string);
    }
}

/* severity */

static void read_severities(rules_reader *r, const cJSON *object)
{
    const cJSON *severities = job_member(object, "severity"), *item;
    job_path path = {&top, "severity", -1};

    if (!severities || cJSON_IsNull(severities) || !job_is_object(r->errors, &path, severities))
        return;
    cJSON_ArrayForEach(item, severities)
    {
        int32_t rule = pvsize_rules_by_name(r->rules, item->string), severity;
        job_path here = {&path, item->string, -1};

        if (job_errors_full(r->errors) || !job_key_counts(r->errors, &path, severities, item))
            continue;
        if (!rule) {
            fail_name(r, &path, PVSIZE_KIND_RULE, item->string);
            continue;
        }
        severity = set_member(r, &here, item, PVSIZE_SET_SEVERITY);
        if (severity >= 0 && pvsize_rules_set_severity(r->rules, rule, severity, r->diag))
            job_fail_diag(r->errors, &here, r->diag, item);
    }
}

/* own rules */

/* Number of a term written as "kind.name"; 0 after an error. */
static int32_t term_of(rules_reader *r, const job_path *path, const char *text)
{
    const char *point = strchr(text, '.');
    job_nearest nearest;
    int32_t kind, term;

    if (!point) {
        job_fail(r->errors, path, "given %s; a name such as quantity.string_voc_cold belongs here",
                 job_quote(text).text);
        return 0;
    }
    nearest = job_nearest_to(text);
    for (int32_t i = 0; i < pvsize_kind_count(); i++) {
        kind = pvsize_kind_at(i);
        if (strncmp(pvsize_kind_name(kind), text, (size_t)(point - text)) == 0 &&
            pvsize_kind_name(kind)[point - text] == '\0') {
            term = pvsize_term_by_name(kind, point + 1);
            if (!term)
                fail_name(r, path, kind, point + 1);
            return term;
        }
        job_nearest_try(&nearest, pvsize_kind_name(kind));
    }
    job_fail(r->errors, path, "given %s; no kind is named so%s", job_quote(text).text,
             job_nearest_hint(&nearest).text);
    return 0;
}

static const char *const name_letters = "abcdefghijklmnopqrstuvwxyz0123456789_";

typedef struct own_rule {
    const char *name, *title, *source;
    int32_t value, compare, limit_of, severity;
    double limit;
} own_rule;

static bool require(rules_reader *r, const job_path *path, const cJSON *object)
{
    static const char *const required[] = {"name", "value", "compare", "severity", NULL};
    bool whole = true;

    for (int i = 0; required[i]; i++) {
        job_path here = {path, required[i], -1};

        if (!job_member(object, required[i])) {
            job_fail(r->errors, &here, "missing");
            whole = false;
        }
    }
    if (!job_member(object, "limit") && !job_member(object, "limit_of")) {
        job_fail(r->errors, path, "needs a limit, or limit_of, the name of what sets the limit");
        whole = false;
    }
    return whole;
}

static void read_names(rules_reader *r, const job_path *path, const cJSON *object, own_rule *own)
{
    job_path here = {path, "name", -1};

    own->name = text_of(r, path, object, "name");
    own->title = text_of(r, path, object, "title");
    own->source = text_of(r, path, object, "source");
    if (own->name && pvsize_rules_by_name(r->rules, own->name))
        job_fail(r->errors, &here, "%s is the name of another rule", job_quote(own->name).text);
    else if (own->name && own->name[strspn(own->name, name_letters)])
        job_fail(r->errors, &here, "given %s; allowed is a word of a to z, 0 to 9 and _",
                 job_quote(own->name).text);
    if (!own->title)
        own->title = own->name;
    if (!own->source)
        own->source = "given in the job";
}

static void read_limit(rules_reader *r, const job_path *path, const cJSON *object, own_rule *own)
{
    const cJSON *limit = job_member(object, "limit");
    job_path here = {path, "limit", -1};

    own->limit = 1;
    if (limit && own->limit_of && !cJSON_IsNumber(limit))
        job_fail(r->errors, &here,
                 "given %s; beside limit_of the limit is a plain number, the factor on it",
                 job_show(limit).text);
    else if (limit && own->limit_of)
        own->limit = limit->valuedouble;
    else if (limit)
        job_number(r->errors, &here, limit, own->value, &own->limit);
}

/* What the library found wrong with a whole rule, at the key it concerns. */
static void fail_rule(rules_reader *r, const job_path *path, const own_rule *own)
{
    pvsize_status status = pvsize_diag_status(r->diag);
    bool at_limit = pvsize_diag_term(r->diag) == own->limit_of && own->limit_of;
    int32_t term = at_limit ? own->limit_of : own->value;
    const char *kind = pvsize_kind_name(pvsize_term_kind(term));
    job_path here = {path, at_limit ? "limit_of" : "value", -1};

    if (status == PVSIZE_E_WRONG_TYPE)
        job_fail(r->errors, &here, "given %s.%s; a text cannot be compared", kind,
                 pvsize_term_name(term));
    else if (status == PVSIZE_E_WRONG_KIND && at_limit && pvsize_term_scope(own->value))
        job_fail(r->errors, &here, "given %s.%s; one %s does not lead to one %s", kind,
                 pvsize_term_name(term), pvsize_kind_name(pvsize_term_scope(own->value)), kind);
    else if (status == PVSIZE_E_WRONG_KIND)
        job_fail(r->errors, &here, "given %s.%s; terms of the kind %s cannot be compared", kind,
                 pvsize_term_name(term), kind);
    else if (status == PVSIZE_E_BAD_TEXT)
        job_fail(r->errors, path, "title or source: %s", pvsize_status_text(status));
    else
        job_fail_diag(r->errors, path, r->diag, NULL);
}

static void read_own_rule(rules_reader *r, const job_path *path, const cJSON *object)
{
    static const char *const keys[] = {"name",     "title",    "value",  "compare", "limit",
                                       "limit_of", "severity", "source", NULL};
    job_path value = {path, "value", -1}, limit_of = {path, "limit_of", -1};
    job_path compare = {path, "compare", -1}, severity = {path, "severity", -1};
    int before = r->errors->count;
    own_rule own = {0};
    const char *text;

    if (!check_keys(r, path, object, keys) || !require(r, path, object))
        return;
    read_names(r, path, object, &own);
    text = text_of(r, path, object, "value");
    own.value = text ? term_of(r, &value, text) : 0;
    text = text_of(r, path, object, "limit_of");
    own.limit_of = text ? term_of(r, &limit_of, text) : 0;
    own.compare = set_member(r, &compare, job_member(object, "compare"), PVSIZE_SET_COMPARE);
    own.severity = set_member(r, &severity, job_member(object, "severity"), PVSIZE_SET_SEVERITY);
    if (own.value)
        read_limit(r, path, object, &own);
    if (r->errors->count == before &&
        pvsize_rules_add(r->rules, own.name, own.title, own.value, own.compare, own.limit_of,
                         own.limit, own.severity, own.source, NULL, r->diag))
        fail_rule(r, path, &own);
}

static void read_own_rules(rules_reader *r, const cJSON *object)
{
    const cJSON *list = job_member(object, "own"), *item;
    job_path path = {&top, "own", -1};

    if (!list || cJSON_IsNull(list) || !job_is_list(r->errors, &path, list))
        return;
    path.index = 0;
    cJSON_ArrayForEach(item, list)
    {
        if (job_errors_full(r->errors))
            return;
        read_own_rule(r, &path, item);
        path.index++;
    }
}

pvsize_rules *job_read_rules(job_errors *errors, pvsize_diag *diag, const cJSON *object)
{
    static const char *const keys[] = {"preset", "title", "figures", "severity", "own", NULL};
    rules_reader r = {errors, diag, NULL};

    /* null was found already, as a value of the job's key */
    if (cJSON_IsNull(object) || (object && !check_keys(&r, &top, object, keys)))
        return NULL;
    start(&r, object);
    if (!r.rules)
        return NULL;
    read_title(&r, object);
    read_figures(&r, object);
    /* own rules first, so that a severity may speak of them */
    read_own_rules(&r, object);
    read_severities(&r, object);
    return r.rules;
}
