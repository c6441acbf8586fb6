/* See plain.h. Formulas as doc/rules.md has them for the Australian preset. */
#include "plain.h"

static void size_array(const job *j, const array_sheet *a, plain_array *out)
{
    const module_sheet *m = &j->module;
    const input_sheet *in = &j->inverter.input[a->input];
    double vmp_percent = m->pmax_percent - m->isc_percent, hot = j->temp_max + plain_cell_rise;

    out->voc_cold = a->modules * plain_at(m->voc, m->voc_percent, j->temp_min);
    out->voc_hot = a->modules * plain_at(m->voc, m->voc_percent, hot);
    out->vmp_hot = a->modules * plain_at(m->vmp, vmp_percent, hot);
    out->vmp_cold = a->modules * plain_at(m->vmp, vmp_percent, j->temp_min);
    out->isc_max = a->strings * m->isc * plain_isc_factor;
    out->imp = a->strings * m->imp;
    out->power = a->strings * a->modules * m->pmax;
    out->broken = (out->voc_cold > in->max_voltage) + (out->voc_cold > m->system_voltage) +
                  (out->voc_cold > plain_dwelling) + (out->vmp_hot < in->tracking_min) +
                  (out->vmp_cold > in->tracking_max) + (out->voc_hot < in->start);
}

static void size_inputs(const job *j, plain_sizing *out)
{
    double strings[MOST_INPUTS] = {0};

    for (int i = 0; i < j->inverter.inputs; i++)
        out->input_isc[i] = out->input_imp[i] = out->input_power[i] = 0;
    for (int k = 0; k < j->arrays; k++) {
        int i = j->array[k].input;

        out->input_isc[i] += out->array[k].isc_max;
        out->input_imp[i] += out->array[k].imp;
        out->input_power[i] += out->array[k].power;
        strings[i] += j->array[k].strings;
    }
    for (int i = 0; i < j->inverter.inputs; i++) {
        const input_sheet *in = &j->inverter.input[i];

        out->broken += (out->input_isc[i] > in->short_circuit) + (out->input_imp[i] > in->current) +
                       (out->input_power[i] > in->power) + (strings[i] > in->terminals);
    }
}

static void fill_planes(const job *j, plain_sizing *out)
{
    double on_plane[MOST_PLANES] = {0};

    for (int k = 0; k < j->arrays; k++)
        on_plane[j->array[k].plane] += j->array[k].modules * j->array[k].strings;
    for (int i = 0; i < j->planes; i++)
        out->broken += on_plane[i] > j->plane[i].room;
}

void plain_check(const job *j, plain_sizing *out)
{
    out->broken = 0;
    out->power = 0;
    for (int k = 0; k < j->arrays; k++) {
        size_array(j, &j->array[k], &out->array[k]);
        out->broken += out->array[k].broken;
        out->power += out->array[k].power;
    }
    size_inputs(j, out);
    fill_planes(j, out);
    out->ratio = out->power / j->inverter.rated;
    out->broken += (out->ratio > plain_ratio) + (out->power > j->inverter.max_pv);
}
