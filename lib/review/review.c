/* The review as an object: making it, its memory. Asking it: ask.c. */
#include <string.h>

#include "review.h"

pvsize_status pvsize_review_new(const pvsize_allocator *memory, pvsize_review **out,
                                pvsize_diag *diag)
{
    void *made;
    pvsize_status status;

    if (!out)
        return pvsz_fail_null(diag, "out");
    status = pvsz_make(memory, sizeof **out, PVSZ_MARK_REVIEW, &made, diag);
    *out = made;
    return status;
}

static void empty(pvsize_review *review)
{
    const pvsz_memory *memory = &review->head.memory;

    pvsz_release(memory, review->bound);
    pvsz_release(memory, review->module);
    pvsz_release(memory, review->remark);
    pvsz_release(memory, review->input_name);
    pvsz_release(memory, review->text);
}

void pvsize_review_free(pvsize_review *review)
{
    if (!pvsz_is(review, PVSZ_MARK_REVIEW))
        return;
    empty(review);
    pvsz_unmake(review);
}

/* texts: those of own rules, and labels, may go before the review does */

/* Copies a text behind the others, or with a null block counts its bytes. */
static void take(const char **text, char *block, size_t *used)
{
    size_t size = strlen(*text) + 1;

    if (block)
        *text = memcpy(block + *used, *text, size);
    *used += size;
}

static size_t take_all(pvsize_review *review, char *block)
{
    size_t used = 0;

    take(&review->title, block, &used);
    take(&review->inverter, block, &used);
    for (int32_t i = 0; i < review->inputs; i++)
        take(&review->input_name[i], block, &used);
    for (size_t i = 0; i < review->bounds; i++) {
        take(&review->bound[i].title, block, &used);
        take(&review->bound[i].source, block, &used);
    }
    for (size_t i = 0; i < review->modules; i++) {
        take(&review->module[i].name, block, &used);
        for (int32_t k = 0; k < PVSZ_ROOMS; k++)
            if (review->module[i].stop[k].rule)
                take(&review->module[i].stop[k].title, block, &used);
    }
    return used;
}

/* Puts what was made in the place of the old, or leaves all as it was. */
static pvsize_status keep(pvsize_review *review, const pvsz_making *making)
{
    const pvsz_part_list *inputs = pvsz_spec_parts(making->inverter, PVSZ_KIND_INPUT);
    pvsize_review made = {.head = review->head,
                          .filled = true,
                          .bound = making->bound,
                          .module = making->module_row,
                          .remark = making->remark,
                          .bounds = making->bounds,
                          .modules = making->modules,
                          .remarks = making->remarks,
                          .inputs = (int32_t)inputs->count,
                          .title = making->rules->title,
                          .inverter = pvsz_spec_name(making->inverter)};

    made.input_name = pvsz_new(making->memory, inputs->count, sizeof *made.input_name);
    if (!made.input_name)
        return pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
    for (size_t i = 0; i < inputs->count; i++)
        made.input_name[i] = pvsz_spec_name(inputs->item[i]);
    made.text = pvsz_new(making->memory, take_all(&made, NULL), 1);
    if (!made.text) {
        pvsz_release(making->memory, made.input_name);
        return pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
    }
    take_all(&made, made.text);
    empty(review);
    *review = made;
    return PVSIZE_OK;
}

/* A spec of this kind; null only where the call allows it. */
static pvsize_status check_spec(const pvsize_spec *spec, int32_t kind, bool needed,
                                const char *argument, pvsize_diag *diag)
{
    if (!spec)
        return needed ? pvsz_fail_null(diag, argument) : PVSIZE_OK;
    if (!pvsz_spec_live(spec))
        return pvsz_fail_handle(diag, argument);
    if (spec->kind != kind)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[spec->kind].number,
                              pvsz_kinds[kind].name);
    return PVSIZE_OK;
}

static pvsize_status check_plane(const pvsize_spec *site, const pvsize_spec *enquiry,
                                 pvsize_diag *diag)
{
    int32_t planes = site ? (int32_t)pvsz_spec_parts(site, PVSZ_KIND_PLANE)->count : 0;
    double plane;

    if (!enquiry || !pvsz_spec_number(enquiry, PVSIZE_ENQUIRY_PLANE, &plane) || plane < planes)
        return PVSIZE_OK;
    return pvsz_fail_index(diag, PVSIZE_E_BROKEN_REFERENCE, PVSIZE_ENQUIRY_PLANE, (int32_t)plane,
                           planes);
}

static pvsize_status check_arguments(const pvsize_spec *inverter, const pvsize_spec *site,
                                     const pvsize_spec *enquiry, const pvsize_rules *rules,
                                     const pvsize_review *review, pvsize_diag *diag)
{
    pvsize_status status = check_spec(inverter, PVSZ_KIND_INVERTER, true, "inverter", diag);

    if (!status)
        status = check_spec(site, PVSZ_KIND_SITE, false, "site", diag);
    if (!status)
        status = check_spec(enquiry, PVSZ_KIND_ENQUIRY, false, "enquiry", diag);
    if (status)
        return status;
    if (!rules || !review)
        return pvsz_fail_null(diag, rules ? "review" : "rules");
    if (!pvsz_rules_live(rules))
        return pvsz_fail_handle(diag, "rules");
    if (!pvsz_is(review, PVSZ_MARK_REVIEW))
        return pvsz_fail_handle(diag, "review");
    return check_plane(site, enquiry, diag);
}

pvsize_status pvsize_review_inverter(const pvsize_spec *inverter, const pvsize_spec *site,
                                     const pvsize_spec *enquiry, const pvsize_rules *rules,
                                     pvsize_review *review, pvsize_diag *diag)
{
    pvsz_making making = {.inverter = inverter,
                          .site = site,
                          .enquiry = enquiry,
                          .rules = rules,
                          .diag = diag,
                          .status = check_arguments(inverter, site, enquiry, rules, review, diag)};

    if (making.status)
        return making.status;
    making.memory = &review->head.memory;
    making.baseline = pvsz_new(making.memory, pvsz_most_findings(&making), sizeof *making.baseline);
    if (!making.baseline)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    pvsz_find_bounds(&making);
    pvsz_find_modules(&making);
    pvsz_find_remarks(&making);
    if (!making.status)
        making.status = keep(review, &making);
    if (making.status) {
        pvsz_release(making.memory, making.bound);
        pvsz_release(making.memory, making.module_row);
        pvsz_release(making.memory, making.remark);
    }
    pvsz_release(making.memory, making.baseline);
    return making.status;
}
