/* The trial: a system of one array on one input, checked as any other. */
#include "review.h"

void pvsz_set_trial(pvsz_making *making, pvsize_spec *spec, int32_t term, double value)
{
    if (!making->status)
        making->status = pvsize_spec_set_number(spec, term, value, making->diag);
}

bool pvsz_enquiry_number(const pvsz_making *making, int32_t term, double *value)
{
    if (making->enquiry)
        return pvsz_spec_number(making->enquiry, term, value);
    return pvsize_term_default(term, value) == PVSIZE_OK;
}

static pvsize_spec *make(pvsz_making *making, int32_t kind)
{
    pvsize_spec *spec = NULL;

    if (!making->status)
        making->status = pvsize_spec_new(kind, making->memory, &spec, making->diag);
    return spec;
}

/* Adds a part and lets go of it. */
static void give(pvsz_making *making, pvsize_spec *owner, pvsize_spec *part)
{
    if (!making->status)
        making->status = pvsize_spec_add(owner, part, NULL, making->diag);
    pvsize_spec_free(part);
}

static pvsize_spec *copy_of(pvsz_making *making, const pvsize_spec *spec)
{
    pvsize_spec *copy = NULL;

    if (!making->status)
        making->status = pvsize_spec_clone(spec, making->memory, &copy, making->diag);
    return copy;
}

/* The inverter with the one input. */
static pvsize_spec *inverter_of(pvsz_making *making, int32_t input)
{
    pvsize_spec *inverter = copy_of(making, making->inverter);
    int32_t count = (int32_t)pvsz_spec_parts(making->inverter, PVSZ_KIND_INPUT)->count;

    for (int32_t i = count - 1; i >= 0 && !making->status; i--)
        if (i != input)
            making->status = pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, i, making->diag);
    return inverter;
}

/* Rules that are broken or not assessed before there is any array: of the supply, of the
 * data of the inverter. No module is to blame for them. */
static void note_baseline(pvsz_making *making)
{
    pvsz_run_trial(making);
    making->baselines = 0;
    for (int32_t i = 0; !making->status && i < making->report->findings; i++) {
        const pvsz_finding *finding = &making->report->finding[i];

        if (finding->verdict == PVSIZE_VERDICT_EXCEEDS ||
            finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
            making->baseline[making->baselines++] = finding->rule->number;
    }
}

bool pvsz_in_baseline(const pvsz_making *making, int32_t rule)
{
    for (int32_t i = 0; i < making->baselines; i++)
        if (making->baseline[i] == rule)
            return true;
    return false;
}

/* Numbers that break nothing by themselves; what matters is set on trial. */
static pvsize_spec *stand_in(pvsz_making *making)
{
    static const struct {
        int32_t term;
        double value;
    } rows[] = {{PVSIZE_MODULE_PMAX, 1}, {PVSIZE_MODULE_VOC, 1},
                {PVSIZE_MODULE_ISC, 1},  {PVSIZE_MODULE_VMP, 1},
                {PVSIZE_MODULE_IMP, 1},  {PVSIZE_MODULE_ISC_COEFFICIENT, 0}};
    static const int32_t known[][2] = {
        {PVSIZE_ENQUIRY_CELL, PVSIZE_MODULE_CELL},
        {PVSIZE_ENQUIRY_BIFACIALITY, PVSIZE_MODULE_BIFACIALITY},
        {PVSIZE_ENQUIRY_MAX_SYSTEM_VOLTAGE, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE},
    };
    pvsize_spec *module = make(making, PVSIZE_KIND_MODULE);
    double value;

    for (int32_t i = 0; i < PVSZ_COUNT(rows); i++)
        pvsz_set_trial(making, module, rows[i].term, rows[i].value);
    for (int32_t i = 0; i < PVSZ_COUNT(known); i++)
        if (pvsz_enquiry_number(making, known[i][0], &value))
            pvsz_set_trial(making, module, known[i][1], value);
    return module;
}

static pvsize_spec *array_of(pvsz_making *making, const pvsize_spec *module)
{
    pvsize_spec *array = make(making, PVSIZE_KIND_ARRAY);

    pvsz_set_trial(making, array, PVSIZE_ARRAY_INPUT, 0);
    pvsz_set_trial(making, array, PVSIZE_ARRAY_MODULES_PER_STRING, 1);
    pvsz_set_trial(making, array, PVSIZE_ARRAY_STRINGS, 1);
    pvsz_set_trial(making, array, PVSIZE_ARRAY_PLANE, making->plane_index);
    give(making, array, module ? copy_of(making, module) : stand_in(making));
    return array;
}

/* The site, with a plane of which nothing is known where none is named. */
static pvsize_spec *site_of(pvsz_making *making)
{
    pvsize_spec *site =
        making->site ? copy_of(making, making->site) : make(making, PVSIZE_KIND_SITE);

    if (!site || pvsz_enquiry_number(making, PVSIZE_ENQUIRY_PLANE, &making->plane_index))
        return site;
    making->plane_index = (double)pvsz_spec_parts(site, PVSZ_KIND_PLANE)->count;
    give(making, site, make(making, PVSIZE_KIND_PLANE));
    return site;
}

void pvsz_open_trial(pvsz_making *making, int32_t input, const pvsize_spec *module)
{
    making->input = input;
    making->system = make(making, PVSIZE_KIND_SYSTEM);
    give(making, making->system, site_of(making));
    give(making, making->system, inverter_of(making, input));
    if (!making->status)
        making->status = pvsize_report_new(making->memory, &making->report, making->diag);
    note_baseline(making);
    give(making, making->system, array_of(making, module));
    if (making->status)
        return;
    making->array = pvsz_spec_parts(making->system, PVSZ_KIND_ARRAY)->item[0];
    making->module = pvsz_spec_parts(making->array, PVSZ_KIND_MODULE)->item[0];
    making->trial_site = pvsz_spec_parts(making->system, PVSZ_KIND_SITE)->item[0];
    making->trial_plane =
        pvsz_spec_parts(making->trial_site, PVSZ_KIND_PLANE)->item[(int32_t)making->plane_index];
}

void pvsz_close_trial(pvsz_making *making)
{
    pvsize_report_free(making->report);
    pvsize_spec_free(making->system);
    making->report = NULL;
    making->system = making->array = making->module = NULL;
    making->trial_site = making->trial_plane = NULL;
}

void pvsz_fit_isolator(pvsz_making *making)
{
    const pvsz_finding *finding;

    pvsz_run_trial(making);
    finding = pvsz_trial_finding(making, PVSIZE_RULE_ISOLATOR);
    if (finding && finding->verdict == PVSIZE_VERDICT_EXCEEDS)
        pvsz_set_trial(making, making->array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES);
}

void pvsz_run_trial(pvsz_making *making)
{
    if (!making->status)
        making->status = pvsize_check(making->system, making->rules, making->report, making->diag);
}

bool pvsz_trial_quantity(const pvsz_making *making, int32_t place, double *value)
{
    return !making->status &&
           pvsz_report_value(making->report, place, making->report->design.subject[PVSZ_KIND_ARRAY],
                             value);
}

const pvsz_finding *pvsz_trial_finding(const pvsz_making *making, int32_t rule)
{
    for (int32_t i = 0; !making->status && i < making->report->findings; i++)
        if (making->report->finding[i].rule->number == rule)
            return &making->report->finding[i];
    return NULL;
}

/* A trial has one of each kind, but for the planes. */
size_t pvsz_most_findings(const pvsz_making *making)
{
    size_t planes = making->site ? pvsz_spec_parts(making->site, PVSZ_KIND_PLANE)->count : 0;

    return (size_t)making->rules->forces * (planes + 2) + 1;
}
