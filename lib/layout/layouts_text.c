/* Answers and obstacles in words. */
#include "../report/words.h"
#include "layout.h"

void pvsz_put_label(pvsz_text *text, const char *kind, int32_t index, const pvsize_spec *part)
{
    const char *name = pvsz_spec_name(part);

    pvsz_put(text, kind);
    pvsz_put(text, " ");
    pvsz_put_int(text, index + 1);
    if (!name[0])
        return;
    pvsz_put(text, " (");
    pvsz_put_given(text, name);
    pvsz_put(text, ")");
}

static const pvsize_spec *system_of(const pvsize_layouts *layouts)
{
    return pvsz_spec_parts(layouts->search, PVSZ_KIND_SYSTEM)->item[0];
}

static void put_plane(pvsz_text *text, const pvsize_layouts *layouts, int32_t plane)
{
    const pvsize_spec *site = pvsz_spec_parts(system_of(layouts), PVSZ_KIND_SITE)->item[0];

    pvsz_put_label(text, "plane", plane, pvsz_spec_parts(site, PVSZ_KIND_PLANE)->item[plane]);
}

static void put_input(pvsz_text *text, const pvsize_layouts *layouts, int32_t inverter,
                      int32_t input)
{
    const pvsz_part_list *inverters = pvsz_spec_parts(system_of(layouts), PVSZ_KIND_INVERTER);
    const pvsize_spec *owner = inverters->item[inverter];

    if (input >= 0) {
        pvsz_put_label(text, "input", input, pvsz_input_of(owner, input));
        if (inverters->count > 1)
            pvsz_put(text, " of ");
    }
    if (input < 0 || inverters->count > 1)
        pvsz_put_label(text, "inverter", inverter, owner);
}

/* "2 strings of 11 module 1 (M) on plane 1 (north)" */
static void put_option(pvsz_text *text, const pvsize_layouts *layouts, const pvsz_option *option)
{
    const pvsz_part_list *modules = pvsz_spec_parts(layouts->search, PVSZ_KIND_MODULE);

    for (int32_t side = 0; side < 2 && option->plane[side] >= 0; side++) {
        if (side > 0)
            pvsz_put(text, " and ");
        pvsz_put_int(text, option->strings[side]);
        pvsz_put(text, option->strings[side] == 1 ? " string of " : " strings of ");
        pvsz_put_int(text, option->length);
        if (modules->count > 1) {
            pvsz_put(text, " x ");
            pvsz_put_label(text, "module", option->module, modules->item[option->module]);
        }
        pvsz_put(text, " on ");
        put_plane(text, layouts, option->plane[side]);
    }
}

static void put_answer(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_layouts *layouts = object;
    const pvsz_option *option = &layouts->option[(size_t)i * (size_t)layouts->slots];
    const double *number = layouts->layout[i].number;
    bool any = false;

    pvsz_put_rounded(text, number[PVSIZE_LAYOUT_POWER] / 1000, PVSZ_FINDING_DIGITS);
    pvsz_put(text, " kW, ");
    pvsz_put_int(text, (int64_t)number[PVSIZE_LAYOUT_MODULES]);
    pvsz_put(text, " modules: ");
    for (int32_t s = 0; s < layouts->slots; s++) {
        if (option[s].module < 0)
            continue;
        if (any)
            pvsz_put(text, "; ");
        put_input(text, layouts, layouts->slot[s].inverter, layouts->slot[s].input);
        pvsz_put(text, ": ");
        put_option(text, layouts, &option[s]);
        any = true;
    }
    if (!any)
        pvsz_put(text, "the fixed arrays alone");
    if (number[PVSIZE_LAYOUT_OUTCOME] != PVSIZE_OUTCOME_HOLDS) {
        pvsz_put(text, " (");
        pvsz_put(text, pvsize_set_name(PVSIZE_SET_OUTCOME, (int32_t)number[PVSIZE_LAYOUT_OUTCOME]));
        pvsz_put(text, ")");
    }
}

pvsize_status pvsize_layouts_text(const pvsize_layouts *layouts, int32_t i, char *buffer,
                                  size_t capacity, size_t *length, pvsize_diag *diag)
{
    int32_t count;
    pvsize_status found = pvsize_layouts_array_count(layouts, i, &count, diag);

    return pvsz_row_text(found, put_answer, layouts, i, buffer, capacity, length, diag);
}

static void put_title(pvsz_text *text, const pvsize_layouts *layouts, int32_t rule)
{
    const pvsz_rule *row = pvsz_rule_numbered(layouts->rules, rule);

    /* the rules are those that the obstacles were found by */
    pvsz_put_given(text, row ? row->title : ""); /* GCOVR_EXCL_BR_LINE */
}

/* The miss in numbers: "604.1 V, at most 600 V: 4.1 V beyond" */
static void put_numbers(pvsz_text *text, const pvsz_obstacle *obstacle)
{
    const pvsz_term *term = pvsz_term_find(obstacle->unit_term);

    pvsz_put_value(text, term, obstacle->value, PVSZ_FINDING_DIGITS);
    if (term->type == PVSIZE_TYPE_CHOICE)
        return;
    pvsz_put(text, ", ");
    pvsz_put(text, pvsz_compare_words(obstacle->compare));
    pvsz_put_value(text, term, obstacle->limit, PVSZ_FINDING_DIGITS);
    pvsz_put(text, ": missed by ");
    pvsz_put_value(text, term, obstacle->margin < 0 ? -obstacle->margin : obstacle->margin,
                   PVSZ_FINDING_DIGITS);
}

static void put_wanted(pvsz_text *text, const pvsz_obstacle *obstacle)
{
    pvsz_put(text, "wanted ");
    pvsz_put_int(text, (int64_t)obstacle->limit);
    pvsz_put(text, " modules: they cannot be had; nearest ");
    pvsz_put_int(text, (int64_t)obstacle->value);
}

static void put_obstacle(pvsz_text *text, const void *object, int32_t i)
{
    const pvsize_layouts *layouts = object;
    const pvsz_obstacle *obstacle = &layouts->obstacle[i];
    const pvsz_option *option = &obstacle->option;

    if (obstacle->rule == 0) {
        put_wanted(text, obstacle);
        return;
    }
    if (obstacle->inverter >= 0)
        put_input(text, layouts, obstacle->inverter, obstacle->input);
    else
        pvsz_put(text, "system");
    if (option->module >= 0) {
        pvsz_put(text, obstacle->answer >= 0 ? ", more than the best: " : ", ");
        put_option(text, layouts, option);
    }
    pvsz_put(text, ": ");
    put_title(text, layouts, obstacle->rule);
    pvsz_put(text, ": ");
    put_numbers(text, obstacle);
    if (obstacle->passes > 0) {
        pvsz_put(text, "; ");
        pvsz_put_int(text, obstacle->passes);
        pvsz_put(text, obstacle->passes == 1 ? " module in a string passes"
                                             : " modules in a string pass");
    }
}

pvsize_status pvsize_layouts_obstacle_text(const pvsize_layouts *layouts, int32_t i, char *buffer,
                                           size_t capacity, size_t *length, pvsize_diag *diag)
{
    pvsize_status found = pvsize_layouts_obstacle_numbers(layouts, i, NULL, NULL, NULL, diag);

    return pvsz_row_text(found, put_obstacle, layouts, i, buffer, capacity, length, diag);
}
