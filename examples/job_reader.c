/* The reader knows no parameter by name. A key of an object is the name of a
 * row of its kind's table, or the name of a kind that it holds as a part; the
 * rows tell type, unit, range and what an index counts. A parameter added to
 * the library is read here without a change. */
#include "job_reader.h"

#include "job_text.h"
#include "job_value.h"

#include <stdlib.h>
#include <string.h>

/* Modules that arrays may name stand in a list of their own. */
static const char *const shared_key = "modules";
static const char *const rules_key = "rules";
static const char *const search_key = "search"; /* of the system that the job itself is */
enum { SHARED_KIND = PVSIZE_KIND_MODULE };

typedef struct reader {
    job_errors *errors;
    pvsize_diag *diag;
    const cJSON *root;
    pvsize_spec **shared;
    int shared_count;
} reader;

static pvsize_spec *read_spec(reader *r, const job_path *path, const cJSON *object, int32_t kind);

/* Kind that holds parts of a kind; 0 if none does. */
static int32_t owner_of(int32_t part)
{
    for (int32_t i = 0; i < pvsize_kind_count(); i++)
        if (pvsize_kind_part_fewest(pvsize_kind_at(i), part) >= 0)
            return pvsize_kind_at(i);
    return 0;
}

/* names */

static const cJSON *name_of(const cJSON *object)
{
    const cJSON *name = job_member(object, "name");

    return cJSON_IsString(name) ? name : NULL;
}

static bool is_named(const cJSON *object, const char *name)
{
    const cJSON *own = name_of(object);

    return own && strcmp(own->valuestring, name) == 0;
}

/* Place in a list of the one element of that name; -1 after an error. With
 * `path` null the error stays silent: it is printed where it belongs. */
static int place_of_name(reader *r, const job_path *path, const cJSON *list, const char *name,
                         int32_t kind)
{
    int32_t owner = kind == SHARED_KIND ? PVSIZE_KIND_SYSTEM : owner_of(kind);
    job_nearest nearest = job_nearest_to(name);
    int place = 0, found = -1, count = 0;
    const cJSON *item;

    cJSON_ArrayForEach(item, list)
    {
        if (is_named(item, name)) {
            found = place;
            count++;
        } else if (name_of(item)) {
            job_nearest_try(&nearest, name_of(item)->valuestring);
        }
        place++;
    }
    if (path && count == 0)
        job_fail(r->errors, path, "no %s of the %s is named %s%s", pvsize_kind_name(kind),
                 pvsize_kind_name(owner), job_quote(name).text, job_nearest_hint(&nearest).text);
    if (path && count > 1)
        job_fail(r->errors, path, "%d %s of the %s are named %s", count, pvsize_kind_plural(kind),
                 pvsize_kind_name(owner), job_quote(name).text);
    return count == 1 ? found : -1;
}

/* what an index counts in */

static const cJSON *list_for(reader *r, const cJSON *self, int32_t self_kind, int32_t kind);

/* The parameter of a kind that refers to another kind; 0 if there is none. */
static int32_t reference_to(int32_t kind, int32_t other)
{
    for (int32_t i = 0; i < pvsize_term_count(kind); i++)
        if (pvsize_term_refers_to(pvsize_term_at(kind, i)) == other)
            return pvsize_term_at(kind, i);
    return 0;
}

/* Place that an object names for a parameter, or the default; -1 if it is wrong. */
static int reference(reader *r, const cJSON *self, int32_t self_kind, int32_t term)
{
    const cJSON *item = job_member(self, pvsize_term_name(term));
    int32_t kind = pvsize_term_refers_to(term);
    double place = -1;

    if (cJSON_IsString(item))
        return place_of_name(r, NULL, list_for(r, self, self_kind, kind), item->valuestring, kind);
    if (cJSON_IsNumber(item))
        place = item->valuedouble;
    else if (!item)
        pvsize_term_default(term, &place);
    return place >= 0 && place < INT32_MAX ? (int)place : -1;
}

/* The object that holds the parts an object's index counts in. */
static const cJSON *holder_for(reader *r, const cJSON *self, int32_t self_kind, int32_t owner)
{
    if (owner == PVSIZE_KIND_SYSTEM)
        return r->root;
    if (pvsize_kind_part_most(PVSIZE_KIND_SYSTEM, owner) == 1)
        return job_member(r->root, pvsize_kind_name(owner));
    return cJSON_GetArrayItem(list_for(r, self, self_kind, owner),
                              reference(r, self, self_kind, reference_to(self_kind, owner)));
}

static const cJSON *list_for(reader *r, const cJSON *self, int32_t self_kind, int32_t kind)
{
    const cJSON *holder = holder_for(r, self, self_kind, owner_of(kind));
    const cJSON *list = job_member(holder, pvsize_kind_plural(kind));

    return cJSON_IsArray(list) ? list : NULL;
}

static void fail_place(reader *r, const job_path *path, int32_t kind, int place, int count)
{
    const char *plural = pvsize_kind_plural(kind);

    if (count > 0)
        job_fail(r->errors, path,
                 "refers to a part that is not there; given %d; allowed 0 to %d: %s count from 0",
                 place, count - 1, plural);
    else
        job_fail(r->errors, path,
                 "refers to a part that is not there; given %d; the job has no %s for it", place,
                 plural);
}

static bool read_index(reader *r, const job_path *path, const cJSON *self, int32_t term,
                       double *value)
{
    const cJSON *item = job_member(self, pvsize_term_name(term));
    int32_t self_kind = pvsize_term_kind(term), kind = pvsize_term_refers_to(term);
    const cJSON *list = list_for(r, self, self_kind, kind);
    int count = cJSON_GetArraySize(list);

    if (!cJSON_IsString(item) && !cJSON_IsNumber(item)) {
        job_fail(r->errors, path,
                 "given %s; the name of one of the %s belongs here, or its place, counted from 0",
                 job_show(item).text, pvsize_kind_plural(kind));
        return false;
    }
    /* what is missing or misnamed is an error of its own, told once */
    if (!list &&
        (owner_of(kind) == PVSIZE_KIND_SYSTEM || !holder_for(r, self, self_kind, owner_of(kind))))
        return false;
    if (cJSON_IsString(item)) {
        *value = place_of_name(r, path, list, item->valuestring, kind);
        return *value >= 0;
    }
    *value = item->valuedouble;
    /* the library has more to say on what is no index at all */
    if (!(*value >= -1 && *value < INT32_MAX) || *value != (int)*value)
        return true;
    if (*value >= 0 && *value < count)
        return true;
    fail_place(r, path, kind, (int)*value, count);
    return false;
}

/* parameters */

static void read_parameter(reader *r, const job_path *path, const cJSON *self, const cJSON *item,
                           int32_t term, pvsize_spec *spec)
{
    pvsize_status status = PVSIZE_OK;
    double value;

    if (job_is_wordy(term)) {
        const char *words = job_words(r->errors, path, item, term);

        if (words)
            status = pvsize_spec_set_text(spec, term, words, r->diag);
    } else if (job_says_none(item)) {
        status = pvsize_spec_set_none(spec, term, r->diag);
    } else if (pvsize_term_refers_to(term) ? read_index(r, path, self, term, &value)
                                           : job_number(r->errors, path, item, term, &value)) {
        status = pvsize_spec_set_number(spec, term, value, r->diag);
    }
    if (status)
        job_fail_diag(r->errors, path, r->diag, item);
}

static void require_parameters(reader *r, const job_path *path, const cJSON *object, int32_t kind)
{
    for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
        int32_t term = pvsize_term_at(kind, i);
        job_path here = {path, pvsize_term_name(term), -1};

        if (pvsize_term_need(term) == PVSIZE_NEED_REQUIRED && !job_member(object, here.key))
            job_fail(r->errors, &here, "missing: %s%s", pvsize_term_text(term),
                     job_allows(term).text);
    }
}

/* parts */

static const char *part_key(int32_t owner, int32_t part)
{
    return pvsize_kind_part_most(owner, part) == 1 ? pvsize_kind_name(part)
                                                   : pvsize_kind_plural(part);
}

/* Kind of the part that a key of an owner stands for; 0 if it stands for none. */
static int32_t part_named(int32_t owner, const char *key)
{
    for (int32_t i = 0; i < pvsize_kind_part_count(owner); i++)
        if (strcmp(part_key(owner, pvsize_kind_part_at(owner, i)), key) == 0)
            return pvsize_kind_part_at(owner, i);
    return 0;
}

static void add_part(reader *r, const job_path *path, pvsize_spec *spec, const pvsize_spec *part)
{
    if (part && pvsize_spec_add(spec, part, NULL, r->diag))
        job_fail_diag(r->errors, path, r->diag, NULL);
}

static void add_shared(reader *r, const job_path *path, const char *name, pvsize_spec *spec)
{
    const cJSON *list = job_member(r->root, shared_key);
    int place;

    if (list && !cJSON_IsArray(list)) /* told where it stands */
        return;
    place = place_of_name(r, path, list, name, SHARED_KIND);
    if (place >= 0 && place < r->shared_count)
        add_part(r, path, spec, r->shared[place]);
}

static void read_part(reader *r, const job_path *path, const cJSON *item, int32_t kind,
                      pvsize_spec *spec)
{
    pvsize_spec *part;

    if (kind == SHARED_KIND && cJSON_IsString(item)) {
        add_shared(r, path, item->valuestring, spec);
        return;
    }
    part = read_spec(r, path, item, kind);
    add_part(r, path, spec, part);
    pvsize_spec_free(part);
}

static void read_parts(reader *r, const job_path *path, const cJSON *item, int32_t kind,
                       pvsize_spec *spec)
{
    job_path here = *path;
    const cJSON *element;

    if (pvsize_kind_part_most(pvsize_spec_kind(spec), kind) == 1) {
        read_part(r, path, item, kind, spec);
        return;
    }
    if (!job_is_list(r->errors, path, item))
        return;
    here.index = 0;
    cJSON_ArrayForEach(element, item)
    {
        if (job_errors_full(r->errors))
            return;
        read_part(r, &here, element, kind, spec);
        here.index++;
    }
}

static void require_parts(reader *r, const job_path *path, const cJSON *object, int32_t kind)
{
    for (int32_t i = 0; i < pvsize_kind_part_count(kind); i++) {
        int32_t part = pvsize_kind_part_at(kind, i);
        /* the system of a search is the job itself */
        int32_t fewest = kind == PVSIZE_KIND_SEARCH && part == PVSIZE_KIND_SYSTEM
                             ? 0
                             : pvsize_kind_part_fewest(kind, part);
        const cJSON *item = job_member(object, part_key(kind, part));
        job_path here = {path, part_key(kind, part), -1};

        if (fewest > 0 && !item)
            job_fail(r->errors, &here, "missing: %s", pvsize_kind_text(part));
        else if (cJSON_IsArray(item) && cJSON_GetArraySize(item) < fewest)
            job_fail(r->errors, &here, "given %d; allowed %d to %d", cJSON_GetArraySize(item),
                     fewest, pvsize_kind_part_most(kind, part));
    }
}

/* objects */

static bool is_reader_key(int32_t kind, const char *key)
{
    return kind == PVSIZE_KIND_SYSTEM &&
           (strcmp(key, shared_key) == 0 || strcmp(key, rules_key) == 0 ||
            strcmp(key, search_key) == 0);
}

/* Kind whose objects do take a key; 0 if none does. */
static int32_t taker_of(const char *key)
{
    for (int32_t i = 0; i < pvsize_kind_count(); i++) {
        int32_t kind = pvsize_kind_at(i);

        if (pvsize_kind_is_spec(kind) && (pvsize_term_by_name(kind, key) || part_named(kind, key)))
            return kind;
    }
    return 0;
}

static const char *article(int32_t kind)
{
    return strchr("aeiou", pvsize_kind_name(kind)[0]) ? "an" : "a";
}

static void fail_key(reader *r, const job_path *path, int32_t kind, const char *key)
{
    job_nearest nearest = job_nearest_to(key);
    int32_t taker = taker_of(key);

    for (int32_t i = 0; i < pvsize_term_count(kind); i++)
        job_nearest_try(&nearest, pvsize_term_name(pvsize_term_at(kind, i)));
    for (int32_t i = 0; i < pvsize_kind_part_count(kind); i++)
        job_nearest_try(&nearest, part_key(kind, pvsize_kind_part_at(kind, i)));
    if (kind == PVSIZE_KIND_SYSTEM) {
        job_nearest_try(&nearest, shared_key);
        job_nearest_try(&nearest, rules_key);
        job_nearest_try(&nearest, search_key);
    }
    if (taker && job_nearest_hint(&nearest).text[0] == '\0')
        job_fail(r->errors, path, "unknown key %s of %s %s; it belongs to %s %s",
                 job_quote(key).text, article(kind), pvsize_kind_name(kind), article(taker),
                 pvsize_kind_name(taker));
    else
        job_fail(r->errors, path, "unknown key %s of %s %s%s", job_quote(key).text, article(kind),
                 pvsize_kind_name(kind), job_nearest_hint(&nearest).text);
}

static void read_key(reader *r, const job_path *path, const cJSON *object, const cJSON *item,
                     pvsize_spec *spec)
{
    int32_t kind = pvsize_spec_kind(spec);
    int32_t term = pvsize_term_by_name(kind, item->string);
    int32_t part = part_named(kind, item->string);
    job_path here = {path, item->string, -1};

    if (term)
        read_parameter(r, &here, object, item, term, spec);
    else if (part)
        read_parts(r, &here, item, part, spec);
    else if (!is_reader_key(kind, item->string))
        fail_key(r, path, kind, item->string);
}

/* A spec, with errors counted for what is wrong in it; null if there is none. */
static pvsize_spec *read_spec(reader *r, const job_path *path, const cJSON *object, int32_t kind)
{
    pvsize_spec *spec;
    const cJSON *item;

    if (!job_is_object(r->errors, path, object))
        return NULL;
    if (pvsize_spec_new(kind, NULL, &spec, r->diag)) {
        job_fail_diag(r->errors, path, r->diag, NULL);
        return NULL;
    }
    cJSON_ArrayForEach(item, object)
    {
        if (job_errors_full(r->errors))
            break;
        if (job_key_counts(r->errors, path, object, item))
            read_key(r, path, object, item, spec);
    }
    require_parameters(r, path, object, kind);
    require_parts(r, path, object, kind);
    return spec;
}

/* the modules that arrays may name */

static void read_shared(reader *r)
{
    const cJSON *list = job_member(r->root, shared_key), *item;
    job_path path = {NULL, shared_key, -1};

    if (!list || cJSON_IsNull(list) || !job_is_list(r->errors, &path, list))
        return;
    r->shared = calloc((size_t)cJSON_GetArraySize(list) + 1, sizeof(pvsize_spec *));
    if (!r->shared) {
        job_fail(r->errors, &path, "no memory");
        return;
    }
    cJSON_ArrayForEach(item, list)
    {
        path.index = r->shared_count;
        if (cJSON_IsObject(item) && !job_member(item, "name"))
            job_fail(r->errors, &path, "a module of this list needs a name");
        r->shared[r->shared_count++] = read_spec(r, &path, item, SHARED_KIND);
    }
}

static void free_shared(reader *r)
{
    for (int i = 0; i < r->shared_count; i++)
        pvsize_spec_free(r->shared[i]);
    free(r->shared);
}

/* the job */

static void read_search(reader *r, job *out)
{
    const cJSON *object = job_member(r->root, search_key);
    job_path path = {NULL, search_key, -1};

    if (!object || cJSON_IsNull(object))
        return;
    out->search = read_spec(r, &path, object, PVSIZE_KIND_SEARCH);
    if (out->search && job_member(object, pvsize_kind_name(PVSIZE_KIND_SYSTEM)))
        job_fail(r->errors, &path, "the system of a search is the job itself");
    else if (out->search && out->system)
        add_part(r, &path, out->search, out->system);
}

static void read_root(reader *r, job *out)
{
    if (!job_is_object(r->errors, NULL, r->root))
        return;
    read_shared(r);
    out->system = read_spec(r, NULL, r->root, PVSIZE_KIND_SYSTEM);
    out->rules = job_read_rules(r->errors, r->diag, job_member(r->root, rules_key));
    read_search(r, out);
    free_shared(r);
}

bool job_read(job_errors *errors, const char *text, size_t length, job *out)
{
    cJSON *root = job_text_parse(errors, text, length);
    reader r = {.errors = errors, .root = root};

    *out = (job){NULL, NULL, NULL};
    if (root && pvsize_diag_new(NULL, &r.diag) == PVSIZE_OK)
        read_root(&r, out);
    else if (root)
        job_fail(errors, NULL, "no memory");
    pvsize_diag_free(r.diag);
    cJSON_Delete(root);
    if (errors->count == 0 && out->system && out->rules)
        return true;
    job_free(out);
    return false;
}

void job_free(job *old)
{
    pvsize_spec_free(old->system);
    pvsize_rules_free(old->rules);
    pvsize_spec_free(old->search);
    *old = (job){NULL, NULL, NULL};
}
