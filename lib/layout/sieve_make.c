/* Making a sieve: what each inverter allows, and which inputs are of one family. Whatever it
 * cannot tell for certain it leaves to a search. */
#include "sieve_parts.h"

/* The system may hold a site and nothing else. */
static bool is_bare(const pvsize_spec *search)
{
    const pvsize_spec *system = pvsz_spec_parts(search, PVSZ_KIND_SYSTEM)->item[0];

    return pvsz_spec_parts(system, PVSZ_KIND_ISOLATOR)->count == 0 &&
           pvsz_spec_parts(system, PVSZ_KIND_READING)->count == 0;
}

pvsize_status pvsz_sieve_new(const pvsz_memory *memory, pvsize_spec *search,
                             const pvsize_rules *rules, const pvsize_spec *const *inverter,
                             size_t inverters, pvsz_sieve **out, pvsize_diag *diag)
{
    pvsz_sieve *sieve = pvsz_new(memory, 1, sizeof *sieve);

    *out = sieve;
    if (!sieve)
        return pvsz_no_memory(diag);
    *sieve = (pvsz_sieve){.memory = memory,
                          .search = search,
                          .rules = rules,
                          .inverter = inverter,
                          .inverters = inverters,
                          .blind = !is_bare(search)};
    sieve->allowance = pvsz_new(memory, inverters, sizeof *sieve->allowance);
    if (!sieve->allowance)
        return pvsz_no_memory(diag);
    return pvsz_sort_rules(sieve, diag);
}

static void free_family(pvsz_sieve *sieve, pvsz_family *family)
{
    pvsz_free_probe(&family->probe);
    pvsz_end_problem(&family->problem);
    if (family->row)
        pvsz_release(sieve->memory, family->row[0].side);
    pvsz_release(sieve->memory, family->row);
    pvsz_release(sieve->memory, family->value);
    pvsz_release(sieve->memory, family);
}

void pvsz_sieve_free(pvsz_sieve *sieve)
{
    if (!sieve)
        return;
    for (size_t i = 0; i < sieve->families; i++)
        free_family(sieve, sieve->family[i]);
    for (size_t i = 0; sieve->allowance && i < sieve->inverters; i++) {
        if (sieve->allowance[i].port)
            pvsz_release(sieve->memory, sieve->allowance[i].port[0].side);
        pvsz_release(sieve->memory, sieve->allowance[i].port);
    }
    pvsz_release(sieve->memory, sieve->family);
    pvsz_release(sieve->memory, sieve->allowance);
    pvsz_release(sieve->memory, sieve->own);
    pvsz_release(sieve->memory, sieve->cross);
    pvsz_release(sieve->memory, sieve->worth[0]);
    pvsz_release(sieve->memory, sieve->order[0]);
    pvsz_release(sieve->memory, sieve);
}

/* inverters */

/* The question with the present module on an inverter, read. What is wrong with it the
 * search tells. */
static pvsize_status pose(pvsz_sieve *sieve, size_t inverter, pvsz_problem *problem)
{
    pvsize_spec *system = pvsz_spec_parts(sieve->search, PVSZ_KIND_SYSTEM)->item[0];
    pvsize_status status = pvsize_spec_add(sieve->search, sieve->module, NULL, NULL);

    *problem = (pvsz_problem){.rules = sieve->rules, .memory = sieve->memory};
    if (status)
        return status;
    status = pvsize_spec_add(system, sieve->inverter[inverter], NULL, NULL);
    if (!status) {
        status = pvsz_pose(problem, sieve->search);
        pvsize_spec_remove(system, PVSIZE_KIND_INVERTER, 0, NULL);
    }
    pvsize_spec_remove(sieve->search, PVSIZE_KIND_MODULE, 0, NULL);
    problem->sign = 1;
    return status;
}

static pvsz_side param_of(const pvsize_spec *inverter, int32_t input, int32_t kind, int32_t term)
{
    pvsz_side side = {.has = false};

    side.has = pvsz_spec_number(kind == PVSZ_KIND_INPUT ? pvsz_input_of(inverter, input) : inverter,
                                term, &side.value);
    return side;
}

/* Where a trait has no value, whether it is stated that there is none. */
static pvsz_side trait_of(const pvsize_spec *inverter, int32_t input, int32_t term)
{
    bool of_input = pvsize_term_kind(term) == PVSIZE_KIND_INPUT;
    const pvsize_spec *spec = of_input ? pvsz_input_of(inverter, input) : inverter;
    pvsz_side side =
        param_of(inverter, input, of_input ? PVSZ_KIND_INPUT : PVSZ_KIND_INVERTER, term);

    if (!side.has)
        side.value = pvsz_spec_states_none(spec, term - pvsz_kinds[spec->kind].number - 1);
    return side;
}

static bool is_of_family(const pvsz_family *family, const pvsize_spec *inverter, int32_t input)
{
    for (int32_t i = 0; i < pvsz_traits(); i++) {
        pvsz_side side = trait_of(inverter, input, pvsz_trait(i));

        if (side.has != family->value[i].has || side.value != family->value[i].value)
            return false;
    }
    return true;
}

static pvsize_status make_rows(pvsz_sieve *sieve, pvsz_family *family)
{
    size_t rows = (size_t)sieve->planes * PVSZ_SIEVE_STRINGS;
    pvsz_side *side = pvsz_new(sieve->memory, rows * (size_t)sieve->crosses + 1, sizeof *side);

    family->value = pvsz_new(sieve->memory, (size_t)pvsz_traits(), sizeof *family->value);
    family->row = side ? pvsz_new(sieve->memory, rows, sizeof *family->row) : NULL;
    if (!family->row) {
        pvsz_release(sieve->memory, side);
        return PVSIZE_E_NO_MEMORY;
    }
    for (size_t i = 0; i < rows; i++)
        family->row[i].side = &side[i * (size_t)sieve->crosses];
    return family->value ? PVSIZE_OK : PVSIZE_E_NO_MEMORY;
}

static pvsize_status make_family(pvsz_sieve *sieve, size_t inverter, const pvsz_group *group)
{
    pvsz_family **grown = pvsz_grow(sieve->memory, sieve->family, sieve->families, &sieve->capacity,
                                    sizeof *sieve->family);
    pvsz_family *family;
    pvsize_status status;

    if (!grown)
        return PVSIZE_E_NO_MEMORY;
    sieve->family = grown;
    family = pvsz_new(sieve->memory, 1, sizeof *family);
    if (!family)
        return PVSIZE_E_NO_MEMORY;
    status = pose(sieve, inverter, &family->problem);
    if (!status)
        status = make_rows(sieve, family);
    if (!status)
        status = pvsz_make_probe(&family->problem, group, &family->probe);
    if (status) {
        free_family(sieve, family);
        return status;
    }
    for (int32_t i = 0; i < pvsz_traits(); i++)
        family->value[i] = trait_of(sieve->inverter[inverter], group->input, pvsz_trait(i));
    sieve->family[sieve->families++] = family;
    return PVSIZE_OK;
}

static pvsize_status find_family(pvsz_sieve *sieve, size_t inverter, const pvsz_group *group,
                                 int32_t *out)
{
    for (size_t i = 0; i < sieve->families; i++)
        if (is_of_family(sieve->family[i], sieve->inverter[inverter], group->input)) {
            *out = (int32_t)i;
            return PVSIZE_OK;
        }
    *out = (int32_t)sieve->families;
    return make_family(sieve, inverter, group);
}

/* The inverter's side of a rule on an input; quantities stand in the report of the
 * system as it is given. */
static pvsz_side side_of(const pvsz_problem *problem, const pvsize_spec *inverter,
                         const pvsz_group *group, const pvsz_ref *ref)
{
    const pvsize_report *report = problem->report;
    pvsz_side side = {.has = false};

    if (ref->kind != PVSZ_KIND_QUANTITY)
        return param_of(inverter, group->input, ref->kind, ref->number);
    side.has = pvsz_report_value(
        report, ref->place, &report->design.subject[PVSZ_KIND_INPUT][group->input], &side.value);
    return side;
}

static pvsize_status make_ports(pvsz_sieve *sieve, size_t inverter, const pvsz_problem *problem)
{
    pvsz_allowance *allows = &sieve->allowance[inverter];
    size_t groups = (size_t)problem->groups, crosses = (size_t)sieve->crosses;
    pvsz_side *side = pvsz_new(sieve->memory, groups * crosses + 1, sizeof *side);

    allows->port = side ? pvsz_new(sieve->memory, groups + 1, sizeof *allows->port) : NULL;
    if (!allows->port) {
        pvsz_release(sieve->memory, side);
        return PVSIZE_E_NO_MEMORY;
    }
    allows->port[0].side = side;
    allows->ports = problem->groups;
    for (int32_t i = 0; i < problem->groups; i++) {
        const pvsz_group *group = &problem->group[i];
        pvsz_port *port = &allows->port[i];
        pvsize_status status = find_family(sieve, inverter, group, &port->family);

        if (status)
            return status;
        port->side = &side[(size_t)i * crosses];
        for (int32_t k = 0; k < problem->slots; k++)
            port->inputs += problem->slot[k].group == i;
        for (int32_t k = 0; k < sieve->crosses; k++) {
            const pvsz_mesh *mesh = &sieve->cross[k];

            port->side[k] = side_of(problem, sieve->inverter[inverter], group,
                                    mesh->value_apart ? &mesh->rule->limit : &mesh->rule->value);
        }
        allows->unsure |= !group->unused;
    }
    return PVSIZE_OK;
}

/* Room for what is kept of planes, once they are known. */
static pvsize_status take_planes(pvsz_sieve *sieve, const pvsz_problem *problem)
{
    size_t planes = (size_t)problem->planes;

    if (sieve->planes > 0)
        return PVSIZE_OK;
    sieve->worth[0] = pvsz_new(sieve->memory, 2 * planes, sizeof *sieve->worth[0]);
    sieve->order[0] = pvsz_new(sieve->memory, 3 * planes, sizeof *sieve->order[0]);
    if (!sieve->worth[0] || !sieve->order[0])
        return PVSIZE_E_NO_MEMORY;
    sieve->worth[1] = sieve->worth[0] + planes;
    sieve->order[1] = sieve->order[0] + planes;
    sieve->most = sieve->order[1] + planes;
    sieve->planes = problem->planes;
    return PVSIZE_OK;
}

pvsize_status pvsz_sieve_take_in(pvsz_sieve *sieve, size_t inverter, pvsize_diag *diag)
{
    pvsz_allowance *allows = &sieve->allowance[inverter];
    pvsz_problem problem;
    pvsize_status status = pose(sieve, inverter, &problem);

    if (!status && (problem.planes_per_input > 1 || problem.has_wanted))
        sieve->blind = true;
    allows->broken = problem.obstacles > 0;
    if (!status && !sieve->blind && !allows->broken) {
        allows->power = problem.unit[0].power_left < problem.power_left ? problem.unit[0].power_left
                                                                        : problem.power_left;
        allows->modules = problem.modules_left;
        status = take_planes(sieve, &problem);
        if (!status)
            status = make_ports(sieve, inverter, &problem);
    }
    pvsz_end_problem(&problem);
    if (status == PVSIZE_E_NO_MEMORY)
        return pvsz_no_memory(diag);
    allows->unsure |= status != PVSIZE_OK; /* the search tells what is wrong */
    allows->known = true;
    return PVSIZE_OK;
}
