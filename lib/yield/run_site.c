/* From the inverters to the site. */
#include "../physics/sums.h"
#include "run.h"

/* Takes a share of what each inverter feeds in. */
static void curtail(pvsz_runner *r, int32_t month, int32_t h, double share)
{
    for (int32_t i = 0; i < r->plant->machines; i++) {
        pvsz_ledger *ledger = &r->body->inverter[i];
        double *power = &pvsz_power_of(r->body, i)[h];
        double cut = share * pvsz_greatest(0, *power);

        *power -= cut;
        ledger->loss[PVSIZE_LOSS_EXPORT][month] += cut;
        ledger->active[PVSIZE_LOSS_EXPORT] += cut > 0;
    }
}

/* What all inverters give in an hour, and of that what those give that feed in. */
static double all_power(const pvsz_runner *r, int32_t h, double *fed)
{
    double sum = 0;

    *fed = 0;
    for (int32_t i = 0; i < r->plant->machines; i++) {
        double power = pvsz_power_of(r->body, i)[h];

        sum += power;
        *fed += pvsz_greatest(0, power);
    }
    return sum;
}

/* Where the output of rows goes; each of them the same. */
static void add_site(pvsz_year_body *body, int32_t month, double rows, double power, double load)
{
    double fed = pvsz_greatest(power, 0), used = pvsz_least(load, fed);

    body->site[PVSIZE_ENERGY_LOAD][month] += rows * load;
    body->site[PVSIZE_ENERGY_USED][month] += rows * used;
    body->site[PVSIZE_ENERGY_EXPORTED][month] += rows * (fed - used);
    body->site[PVSIZE_ENERGY_DRAWN][month] += rows * (load - used + pvsz_greatest(-power, 0));
}

static void run_hour(pvsz_runner *r, int32_t month, int32_t h, double load)
{
    double fed, power = all_power(r, h, &fed);
    double cut = power - load - r->plant->export_limit;

    if (cut > 0) {
        curtail(r, month, h, cut / fed);
        r->body->system->active[PVSIZE_LOSS_EXPORT]++;
        power -= cut;
    }
    add_site(r->body, month, 1, power, load);
}

static void add_output(pvsz_runner *r, const pvsz_span *span)
{
    for (int32_t i = 0; i < r->plant->machines; i++) {
        const double *power = pvsz_power_of(r->body, i) + span->first;

        r->body->inverter[i].output[span->month] += pvsz_total((size_t)span->count, power);
    }
}

void pvsz_run_site(pvsz_runner *r, const pvsz_span *span)
{
    const double *load = r->told->load;

    for (int32_t h = span->first; h < span->first + span->count; h++)
        run_hour(r, span->month, h, load ? load[r->light->hour.row[h]] : 0);
    add_output(r, span);
}

static double night_of_all(const pvsz_plant *plant)
{
    double sum = 0;

    for (int32_t i = 0; i < plant->machines; i++)
        sum += plant->machine[i].night;
    return sum;
}

void pvsz_run_dark(pvsz_runner *r)
{
    const double *load = r->told->load;
    double night = night_of_all(r->plant);

    for (int32_t s = 0; s < r->light->stretches; s++) {
        const pvsz_stretch *stretch = &r->light->stretch[s];

        for (int32_t i = 0; i < r->plant->machines; i++) {
            double drawn = r->plant->machine[i].night * stretch->dark;

            r->body->inverter[i].loss[PVSIZE_LOSS_NIGHT][stretch->month] += drawn;
            r->body->inverter[i].output[stretch->month] -= drawn;
        }
        if (!load)
            add_site(r->body, stretch->month, stretch->dark, -night, 0);
        for (int32_t row = stretch->first_row; load && row < stretch->end_row; row++)
            if (r->light->state[row] == PVSZ_ROW_DARK)
                add_site(r->body, stretch->month, 1, -night, load[row]);
    }
}
