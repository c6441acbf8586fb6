/* A year, span by span; then the ledgers are handed on. */
#include "run.h"

void pvsz_hand_on(const pvsz_ledger *from, pvsz_ledger *to)
{
    to->rated += from->rated;
    for (int32_t m = 0; m < PVSZ_YEAR_MONTHS; m++) {
        to->reference[m] += from->reference[m];
        for (int32_t loss = 1; loss < PVSZ_LOSSES; loss++) /* 0 behind its end */
            to->loss[loss][m] += from->loss[loss][m];
    }
}

static void run_span(pvsz_runner *r, const pvsz_span *span)
{
    pvsz_run_tracks(r, span);
    for (int32_t i = 0; i < r->plant->machines; i++)
        pvsz_run_machine(r, i, span);
    pvsz_run_site(r, span);
}

static void run_spans(pvsz_runner *r)
{
    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];

        for (int32_t h = stretch->first_hour; h < stretch->end_hour; h += PVSZ_SPAN) {
            int32_t left = stretch->end_hour - h;
            pvsz_span span = {stretch->month, h, left < PVSZ_SPAN ? left : PVSZ_SPAN};

            run_span(r, &span);
        }
    }
}

/* closing */

/* An input that another stood for has its ledger; then the arrays' go on in it. */
static void close_input(pvsz_runner *r, int32_t i)
{
    const pvsz_intake *in = &r->plant->intake[i];
    pvsz_ledger *ledger = &r->body->input[i];

    ledger->last = PVSIZE_LOSS_INPUT_POWER;
    for (int32_t f = in->first, k = 0; k < in->feeds; k++, f = r->plant->feed[f].next)
        pvsz_hand_on(&r->body->array[f], ledger);
}

static void close_machine(pvsz_runner *r, int32_t i)
{
    const pvsz_machine *m = &r->plant->machine[i];
    pvsz_ledger *ledger = &r->body->inverter[i], *system = r->body->system;

    ledger->last = PVSIZE_LOSS_EXPORT;
    for (int32_t k = m->first; k < m->first + m->intakes; k++)
        if (r->course[k].like != k)
            r->body->input[k] = r->body->input[r->course[k].like];
    for (int32_t k = m->first; k < m->first + m->intakes; k++) {
        close_input(r, k);
        pvsz_hand_on(&r->body->input[k], ledger);
    }
    pvsz_hand_on(ledger, system);
    for (int32_t month = 0; month < PVSZ_YEAR_MONTHS; month++)
        system->output[month] += ledger->output[month];
}

static void close_ledgers(pvsz_runner *r)
{
    r->body->system->last = PVSIZE_LOSS_EXPORT;
    for (int32_t i = 0; i < r->plant->feeds; i++)
        pvsz_close_feed(r, i);
    for (int32_t i = 0; i < r->plant->machines; i++)
        close_machine(r, i);
}

/* all */

static size_t most_intakes(const pvsz_plant *plant)
{
    int32_t most = 1;

    for (int32_t i = 0; i < plant->machines; i++)
        if (plant->machine[i].intakes > most)
            most = plant->machine[i].intakes;
    return (size_t)most;
}

static bool make_scratch(pvsz_runner *r)
{
    size_t feeds = (size_t)r->plant->feeds + 1, most = most_intakes(r->plant);

    r->track = pvsz_new(r->memory, feeds, sizeof *r->track);
    r->track_of = pvsz_new(r->memory, feeds, sizeof *r->track_of);
    r->group = pvsz_new(r->memory, feeds, sizeof *r->group);
    r->branch = pvsz_new(r->memory, feeds, sizeof *r->branch);
    r->course = pvsz_new(r->memory, (size_t)r->plant->intakes + 1, sizeof *r->course);
    r->room = pvsz_new(r->memory, feeds * 2 * PVSZ_SPAN, sizeof *r->room);
    r->power = pvsz_new(r->memory, most * PVSZ_SPAN, sizeof *r->power);
    r->voltage = pvsz_new(r->memory, most * PVSZ_SPAN, sizeof *r->voltage);
    return r->track && r->track_of && r->group && r->branch && r->course && r->room && r->power &&
           r->voltage;
}

static void release_scratch(pvsz_runner *r)
{
    pvsz_release(r->memory, r->track);
    pvsz_release(r->memory, r->track_of);
    pvsz_release(r->memory, r->group);
    pvsz_release(r->memory, r->branch);
    pvsz_release(r->memory, r->course);
    pvsz_release(r->memory, r->room);
    pvsz_release(r->memory, r->power);
    pvsz_release(r->memory, r->voltage);
}

pvsize_status pvsz_run_year(const pvsize_light *light, const pvsz_plant *plant,
                            const pvsz_told *told, const pvsz_memory *memory, pvsz_year_body *body,
                            pvsize_diag *diag)
{
    pvsz_runner r = {.light = light, .plant = plant, .told = told, .memory = memory, .body = body};
    bool made = make_scratch(&r);

    if (made) {
        pvsz_lay_courses(&r);
        run_spans(&r);
        pvsz_run_dark(&r);
        close_ledgers(&r);
    }
    release_scratch(&r);
    return made ? PVSIZE_OK : pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
}
