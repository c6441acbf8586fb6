/* The envelope. A number of the data sheet is tried twice, the second time doubled: a
 * rule whose value doubles with it limits it, and as the value is in proportion, the
 * number at the limit follows from the finding itself. No rule is known here by name:
 * own rules limit as others do. */
#include <string.h>

#include "review.h"

typedef struct probe {
    int32_t what;
    int32_t term;        /* of the module */
    double first;        /* what is tried, and then twice that */
    int32_t coefficient; /* that it moves by; 0: none */
    bool by_strings;
    const char *unit;
} probe;

static const probe probes[] = {
    {PVSIZE_BOUND_MODULE_ISC, PVSIZE_MODULE_ISC, 1, 0, true, "A"},
    {PVSIZE_BOUND_MODULE_IMP, PVSIZE_MODULE_IMP, 1, 0, true, "A"},
    {PVSIZE_BOUND_STRING_VOC, PVSIZE_MODULE_VOC, 100, PVSIZE_MODULE_VOC_COEFFICIENT, false, "V"},
    {PVSIZE_BOUND_STRING_VMP, PVSIZE_MODULE_VMP, 100, PVSIZE_MODULE_VMP_COEFFICIENT, false, "V"},
    {PVSIZE_BOUND_ARRAY_POWER, PVSIZE_MODULE_PMAX, 100, 0, false, "W"},
};

/* The coefficients, as the enquiry gives them or as a check finds them of its modules. */
static const struct {
    int32_t term, low, high, quantity;
} coefficients[] = {
    {PVSIZE_MODULE_VOC_COEFFICIENT, PVSIZE_ENQUIRY_VOC_COEFFICIENT_LOW,
     PVSIZE_ENQUIRY_VOC_COEFFICIENT_HIGH, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT},
    {PVSIZE_MODULE_VMP_COEFFICIENT, PVSIZE_ENQUIRY_VMP_COEFFICIENT_LOW,
     PVSIZE_ENQUIRY_VMP_COEFFICIENT_HIGH, PVSZ_QUANTITY_MODULE_VMP_COEFFICIENT},
};

static void widen(pvsz_making *making, int32_t which, double value)
{
    double *range = making->coefficient[which];

    if (!making->has_coefficient[which] || value < range[0])
        range[0] = value;
    if (!making->has_coefficient[which] || value > range[1])
        range[1] = value;
    making->has_coefficient[which] = true;
}

static void take_coefficients(pvsz_making *making)
{
    const pvsz_part_list *modules =
        making->enquiry ? pvsz_spec_parts(making->enquiry, PVSZ_KIND_MODULE) : NULL;
    bool given[2];
    double value;

    for (int32_t i = 0; i < 2; i++) {
        if (pvsz_enquiry_number(making, coefficients[i].low, &value))
            widen(making, i, value);
        if (pvsz_enquiry_number(making, coefficients[i].high, &value))
            widen(making, i, value);
        given[i] = making->has_coefficient[i];
    }
    for (size_t m = 0; modules && m < modules->count && !making->status; m++) {
        pvsz_open_trial(making, 0, modules->item[m]);
        pvsz_run_trial(making);
        for (int32_t i = 0; i < 2; i++)
            if (!given[i] && pvsz_trial_quantity(making, coefficients[i].quantity, &value))
                widen(making, i, value);
        pvsz_close_trial(making);
    }
}

/* Place of the coefficient of a probe; -1: it moves by none. */
static int32_t coefficient_of(const probe *one)
{
    for (int32_t i = 0; i < 2; i++)
        if (coefficients[i].term == one->coefficient)
            return i;
    return -1;
}

/* What a run found on a rule, by its place among those of the report. */
typedef struct seen {
    double value, limit; /* 0: nothing */
} seen;

static bool is_limit(const pvsz_finding *finding)
{
    return finding->rule->scope != PVSZ_KIND_MODULE && /* data that contradict themselves */
           finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED;
}

static void note_findings(const pvsz_making *making, seen *list)
{
    memset(list, 0, pvsz_most_findings(making) * sizeof *list);
    for (int32_t i = 0; !making->status && i < making->report->findings; i++) {
        const pvsz_finding *finding = &making->report->finding[i];

        if (is_limit(finding))
            list[finding->rule - making->report->rule] = (seen){finding->value, finding->limit};
    }
}

static bool about(double a, double b)
{
    return pvsz_within(a < b ? a - b : b - a, b);
}

/* Whether the finding of the second run is in proportion to what was tried. */
static bool follows(const pvsz_making *making, const seen *list, const pvsz_finding *finding)
{
    const seen *first = &list[finding->rule - making->report->rule];

    return first->value > 0 && about(finding->value, 2 * first->value) &&
           finding->limit == first->limit && finding->limit > 0;
}

static void add_bound(pvsz_making *making, const pvsz_bound *bound)
{
    pvsz_bound *grown = pvsz_grow(making->memory, making->bound, making->bounds,
                                  &making->bound_room, sizeof *grown);

    if (!grown) {
        making->status = pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
        return;
    }
    making->bound = grown;
    grown[making->bounds++] = *bound;
}

/* Data of the place that voltages need, and what stands for them where they are not
 * there, to learn which rules limit, and where. */
static const struct {
    bool of_plane;
    int32_t term, instead; /* either serves; 0: none */
    double value;
} places[] = {
    {false, PVSIZE_SITE_TEMP_MIN, 0, 25},
    {false, PVSIZE_SITE_TEMP_MAX, 0, 25},
    {true, PVSIZE_PLANE_CELL_RISE, PVSIZE_PLANE_MOUNTING, 0},
};

static void set_stand_ins(pvsz_making *making, const probe *one, bool *stood_in)
{
    double value;

    for (int32_t i = 0; i < PVSZ_COUNT(places); i++) {
        pvsize_spec *of = places[i].of_plane ? making->trial_plane : making->trial_site;

        stood_in[i] = !pvsz_spec_number(of, places[i].term, &value) &&
                      !(places[i].instead && pvsz_spec_number(of, places[i].instead, &value));
        if (stood_in[i])
            pvsz_set_trial(making, of, places[i].term, places[i].value);
    }
    if (one->coefficient)
        pvsz_set_trial(making, making->module, one->coefficient, -0.3);
}

/* Back to what is really known. */
static void drop_stand_ins(pvsz_making *making, const probe *one, const bool *stood_in)
{
    for (int32_t i = 0; i < PVSZ_COUNT(places) && !making->status; i++)
        if (stood_in[i])
            pvsize_spec_unset(places[i].of_plane ? making->trial_plane : making->trial_site,
                              places[i].term, NULL);
    if (one->coefficient && !making->status)
        pvsize_spec_unset(making->module, one->coefficient, NULL);
}

/* Rows of every rule that limits what is probed. */
static void find_limits(pvsz_making *making, const probe *one, int32_t strings, seen *list)
{
    bool stood_in[PVSZ_COUNT(places)];

    set_stand_ins(making, one, stood_in);
    pvsz_set_trial(making, making->module, one->term, one->first);
    pvsz_run_trial(making);
    note_findings(making, list);
    pvsz_set_trial(making, making->module, one->term, 2 * one->first);
    pvsz_run_trial(making);
    for (int32_t i = 0; !making->status && i < making->report->findings; i++) {
        const pvsz_finding *finding = &making->report->finding[i];
        const pvsz_rule *rule = pvsz_rule_numbered(making->rules, finding->rule->number);
        bool of_input = rule->scope == PVSZ_KIND_ARRAY || rule->scope == PVSZ_KIND_INPUT;

        if (!is_limit(finding) || !follows(making, list, finding) ||
            (!of_input && making->input > 0)) /* once for the inverter */
            continue;
        add_bound(making, &(pvsz_bound){.what = one->what,
                                        .input = of_input ? making->input : -1,
                                        .strings = one->by_strings ? strings : 0,
                                        .rule = rule->number,
                                        .severity = rule->severity,
                                        .compare = rule->compare,
                                        .missing = -1,
                                        .limit = finding->limit,
                                        .title = rule->title,
                                        .source = rule->source,
                                        .breach = rule->breach,
                                        .known = rule->known,
                                        .unit = one->unit,
                                        .limit_unit = pvsz_finding_term(finding)->unit});
    }
    drop_stand_ins(making, one, stood_in);
}

/* The stricter of two numbers at the limit. */
static double stricter(const pvsz_bound *bound, double value)
{
    if (bound->missing < 0)
        return value;
    return (bound->compare == PVSIZE_COMPARE_AT_MOST) == (value < bound->value) ? value
                                                                                : bound->value;
}

/* The number at the limit, by what the trial gives as it stands. */
static void find_numbers(pvsz_making *making, const probe *one, size_t first)
{
    pvsz_set_trial(making, making->module, one->term, one->first);
    pvsz_run_trial(making);
    for (size_t i = first; i < making->bounds && !making->status; i++) {
        pvsz_bound *bound = &making->bound[i];
        const pvsz_finding *finding = pvsz_trial_finding(making, bound->rule);

        if (bound->missing > 0)
            continue;
        /* GCOVR_EXCL_START: no quantity applies with what stands in and not without; test_review
         * tries each */
        if (!finding)
            continue;
        /* GCOVR_EXCL_STOP */
        if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED) {
            bound->missing = finding->missing;
        } else if (finding->value > 0) {
            bound->value = stricter(bound, one->first * finding->limit / finding->value);
            bound->missing = 0;
        }
    }
}

/* At both ends of what the coefficient may be; without one, as the rule set has it. */
static void find_all_numbers(pvsz_making *making, const probe *one, size_t first)
{
    int32_t which = coefficient_of(one);
    bool known = which >= 0 && making->has_coefficient[which];

    for (int32_t end = 0; end < (known ? 2 : 1); end++) {
        if (known)
            pvsz_set_trial(making, making->module, one->coefficient,
                           making->coefficient[which][end]);
        find_numbers(making, one, first);
    }
    for (size_t i = first; i < making->bounds; i++) {
        int32_t kind = pvsize_term_kind(making->bound[i].missing);

        if (making->bound[i].missing < 0) /* a value of no size: nothing bounds it */
            making->bound[i].missing = PVSIZE_KIND_ENQUIRY;
        /* a made-up module lacks nothing but the coefficient */
        else if (which >= 0 && (kind == PVSIZE_KIND_MODULE || kind == PVSIZE_KIND_QUANTITY))
            making->bound[i].missing = coefficients[which].low;
    }
}

/* The tightest of the highest severity, on each side. */
static void mark_governing(pvsz_making *making, size_t first)
{
    for (size_t i = first; i < making->bounds; i++) {
        pvsz_bound *a = &making->bound[i];

        a->governs = true;
        for (size_t j = first; j < making->bounds; j++) {
            const pvsz_bound *b = &making->bound[j];
            bool at_most = a->compare == PVSIZE_COMPARE_AT_MOST;
            double of_a = a->missing ? a->limit : a->value;
            double of_b = a->missing ? b->limit : b->value;

            if (j == i || a->input != b->input || at_most != (b->compare == PVSIZE_COMPARE_AT_MOST))
                continue;
            if (b->severity > a->severity ||
                (b->severity == a->severity && (at_most ? of_b < of_a : of_b > of_a)))
                a->governs = false;
        }
    }
}

static int32_t most_strings(const pvsz_making *making)
{
    const pvsize_spec *input = pvsz_input_of(making->inverter, making->input);
    double most = 4;

    if (!pvsz_enquiry_number(making, PVSIZE_ENQUIRY_MOST_STRINGS, &most))
        pvsz_spec_number(input, PVSIZE_INPUT_TERMINALS, &most);
    return (int32_t)most;
}

static void probe_input(pvsz_making *making, seen *list)
{
    int32_t strings = most_strings(making);

    pvsz_fit_isolator(making);
    for (int32_t i = 0; i < PVSZ_COUNT(probes); i++)
        for (int32_t s = 1; s <= (probes[i].by_strings ? strings : 1); s++) {
            size_t first = making->bounds;

            pvsz_set_trial(making, making->array, PVSIZE_ARRAY_STRINGS, s);
            find_limits(making, &probes[i], s, list);
            find_all_numbers(making, &probes[i], first);
            mark_governing(making, first);
        }
}

void pvsz_find_bounds(pvsz_making *making)
{
    size_t inputs = pvsz_spec_parts(making->inverter, PVSZ_KIND_INPUT)->count;
    size_t findings = pvsz_most_findings(making);
    seen *list = pvsz_new(making->memory, findings, sizeof *list);

    if (!list)
        making->status = pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
    if (inputs > 0 && !making->status)
        take_coefficients(making);
    for (size_t i = 0; i < inputs && !making->status; i++) {
        pvsz_open_trial(making, (int32_t)i, NULL);
        if (!making->status)
            probe_input(making, list);
        pvsz_close_trial(making);
    }
    pvsz_release(making->memory, list);
}
