/* Mistakes made on purpose: what each changes, so that the library itself computes
 * the wrong answer. */
#include "class.h"

typedef struct change {
    int32_t mistake, term;
    pvsz_change_kind kind;
    double by; /* number, or a term of the same object */
} change;

static const change changes[] = {
#define CHANGES(MISTAKE, TERM, KIND, by) {PVSIZE_MISTAKE_##MISTAKE, PVSIZE_##TERM, PVSZ_##KIND, by},
#define MAKES(QUESTION, MISTAKE, RESULT)
#include "../tables/mistakes.def"
#undef CHANGES
#undef MAKES
};

static const pvsz_made made[] = {
#define CHANGES(MISTAKE, TERM, KIND, by)
#define MAKES(QUESTION, MISTAKE, RESULT) \
    {PVSIZE_QUESTION_##QUESTION, PVSIZE_MISTAKE_##MISTAKE, PVSZ_##RESULT},
#include "../tables/mistakes.def"
#undef CHANGES
#undef MAKES
};

const pvsz_made *pvsz_made_at(int32_t i)
{
    return i < PVSZ_COUNT(made) ? &made[i] : NULL;
}

static double result_of(const change *c, double value, double other)
{
    switch (c->kind) {
    case PVSZ_BY:
        return value + c->by;
    case PVSZ_ABOUT:
        return 2 * c->by - value;
    case PVSZ_TIMES:
        return value * c->by;
    case PVSZ_OVER:
        return c->by / value;
    case PVSZ_LIKE:
        return other;
    default:
        return c->by;
    }
}

/* A figure that the rule set does not have is not made up. */
static void change_figure(const change *c, pvsize_rules *rules, pvsz_changed *changed)
{
    pvsz_figure *figure = &rules->figure[pvsz_term_place(pvsz_term_find(c->term))];

    /* GCOVR_EXCL_BR_START: no mistake changes more than two figures */
    if (!figure->set || changed->count == PVSZ_MOST_UNDO)
        return;
    /* GCOVR_EXCL_BR_STOP */
    changed->undo[changed->count++] = (pvsz_undo){.figure = figure, .value = figure->value};
    figure->value = result_of(c, figure->value, 0);
}

static void change_part(const change *c, const pvsize_spec *system, int32_t k,
                        pvsz_changed *changed)
{
    const pvsz_term *term = pvsz_term_find(c->term);
    pvsize_spec *spec = pvsz_job_part(system, term->kind, k);
    int32_t row = pvsz_term_place(term);
    double other = c->kind == PVSZ_LIKE ? pvsz_job_number(system, (int32_t)c->by, k) : 0;
    double value;

    /* GCOVR_EXCL_START: ranges.def has each of them, and no mistake changes more than eight */
    if (!pvsz_spec_number(spec, c->term, &value) || changed->count == PVSZ_MOST_UNDO)
        return;
    /* GCOVR_EXCL_STOP */
    changed->undo[changed->count++] =
        (pvsz_undo){.spec = spec, .row = row, .set = spec->set, .none = spec->none, .value = value};
    pvsz_job_set(system, c->term, k, result_of(c, value, other));
}

static void apply(const change *c, const pvsize_spec *system, pvsize_rules *rules,
                  pvsz_changed *changed)
{
    int32_t kind = pvsz_term_find(c->term)->kind;
    int32_t count =
        kind == PVSZ_KIND_SITE || kind == PVSZ_KIND_INVERTER ? 1 : pvsz_job_arrays(system);

    if (kind == PVSZ_KIND_FIGURE)
        change_figure(c, rules, changed);
    else
        for (int32_t k = 0; k < count; k++)
            change_part(c, system, k, changed);
}

void pvsz_mistake_make(int32_t mistake, pvsize_spec *system, pvsize_rules *rules,
                       pvsz_changed *changed)
{
    changed->count = 0;
    for (int32_t i = 0; i < PVSZ_COUNT(changes); i++)
        if (changes[i].mistake == mistake)
            apply(&changes[i], system, rules, changed);
}

void pvsz_nudge(double factor, pvsize_spec *system, pvsz_changed *changed)
{
    static const int32_t terms[] = {PVSIZE_MODULE_VOC, PVSIZE_MODULE_VMP, PVSIZE_MODULE_ISC,
                                    PVSIZE_MODULE_IMP};

    changed->count = 0;
    for (int32_t i = 0; i < PVSZ_COUNT(terms); i++)
        apply(&(change){0, terms[i], PVSZ_TIMES, factor}, system, NULL, changed);
}

/* The last change first, so that the oldest value stands in the end. */
void pvsz_take_back(const pvsz_changed *changed)
{
    for (int32_t i = changed->count; i-- > 0;) {
        const pvsz_undo *undo = &changed->undo[i];

        if (undo->figure) {
            undo->figure->value = undo->value;
            continue;
        }
        undo->spec->value[undo->row].number = undo->value;
        undo->spec->set = undo->set;
        undo->spec->none = undo->none;
    }
}
