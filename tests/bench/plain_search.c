/* See plain.h: every option of every input, with every other. */
#include "plain.h"

#include <math.h>

enum { MOST_OPTIONS = 4000 };

/* what an input can get, with the room for rounding that the library has */
static const double guard = 1 + 1e-9;

typedef struct option {
    int plane, modules; /* modules of all its strings */
    double worth;       /* watt hours */
} option;

typedef struct hunt {
    const job *j;
    int counts[MOST_INPUTS];
    option options[MOST_INPUTS][MOST_OPTIONS];
    double room[MOST_PLANES], watts, best;
} hunt;

static int may(const job *j, const input_sheet *in, int modules, int strings)
{
    const module_sheet *m = &j->module;
    double cold = modules * plain_at(m->voc, m->voc_percent, j->temp_min);
    double hot =
        modules * plain_at(m->vmp, m->pmax_percent - m->isc_percent, j->temp_max + plain_cell_rise);
    double most = fmin(fmin(in->max_voltage, m->system_voltage), plain_dwelling);

    return cold <= most * guard && hot * guard >= in->tracking_min &&
           strings * m->isc * plain_isc_factor <= in->short_circuit * guard &&
           strings * modules * m->pmax <= in->power * guard &&
           ceil(strings / in->terminals) * m->isc * 1.25 <= 30 * guard &&
           (strings == 1 || (strings - 1) * m->isc <= m->fuse * guard);
}

static void list_options(hunt *h, int input)
{
    const job *j = h->j;

    h->counts[input] = 0;
    for (int p = 0; p < j->planes; p++)
        for (int n = 1; n <= (int)j->plane[p].room; n++)
            for (int s = 1; n * s <= (int)j->plane[p].room; s++)
                if (may(j, &j->inverter.input[input], n, s) && h->counts[input] < MOST_OPTIONS)
                    h->options[input][h->counts[input]++] =
                        (option){p, n * s, n * s * floor(j->module.pmax * j->plane[p].yield + 0.5)};
}

static void try_inputs(hunt *h, int input, double watts, double worth)
{
    if (worth > h->best)
        h->best = worth;
    if (input == h->j->inverter.inputs)
        return;
    try_inputs(h, input + 1, watts, worth);
    for (int k = 0; k < h->counts[input]; k++) {
        const option *o = &h->options[input][k];
        double more = watts + o->modules * h->j->module.pmax;

        if (o->modules > h->room[o->plane] || more > h->watts)
            continue;
        h->room[o->plane] -= o->modules;
        try_inputs(h, input + 1, more, worth + o->worth);
        h->room[o->plane] += o->modules;
    }
}

double plain_search(const job *j)
{
    static hunt h; /* large */

    h.j = j;
    h.best = 0;
    h.watts = fmin(plain_ratio * j->inverter.rated, j->inverter.max_pv) * guard;
    for (int p = 0; p < j->planes; p++)
        h.room[p] = j->plane[p].room;
    for (int i = 0; i < j->inverter.inputs; i++)
        list_options(&h, i);
    try_inputs(&h, 0, 0, 0);
    return h.best;
}
