/* What the inverters together do to the supply: the busbar and the phases. */
#include "calc.h"

/* the busbar */

static int32_t busbar_rule(pvsz_calc *calc)
{
    return (int32_t)pvsz_peek_param(calc, PVSIZE_SITE_BUSBAR_RULE);
}

void pvsz_of_busbar_load(pvsz_calc *calc)
{
    double factor, currents = 0;

    if (!pvsz_has_param(calc, PVSIZE_SITE_BUSBAR_RATING)) {
        pvsz_param(calc, PVSIZE_SITE_BUSBAR_RATING); /* tells what is missing */
        return;
    }
    if (busbar_rule(calc) == PVSIZE_BUSBAR_RULE_DEVICES) {
        pvsz_result(calc, pvsz_param(calc, PVSIZE_SITE_BUSBAR_DEVICES), "{devices}");
        return;
    }
    factor = pvsz_figure_of(calc, PVSZ_FIGURE_BUSBAR_FACTOR);
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_INVERTER); at;
         at = pvsz_next_below(calc, PVSZ_KIND_INVERTER, at)) {
        const pvsz_entry *current = pvsz_compute(calc, PVSZ_QUANTITY_INVERTER_AC_CURRENT_MAX, at);

        if (!pvsz_has_value(current)) {
            pvsz_missing(calc, PVSIZE_INVERTER_MAX_AC_CURRENT);
            return;
        }
        currents += current->value;
    }
    pvsz_literal(calc, currents);
    pvsz_result(calc, factor * currents + pvsz_param(calc, PVSIZE_SITE_BUSBAR_DEVICE),
                "{kbus} × {ΣIac} + {device}");
}

/* Only where the inverters feed from the other end may the rating be passed: no
 * piece of the bar then carries both. */
static bool may_pass(pvsz_calc *calc)
{
    int32_t rule = busbar_rule(calc);

    if (rule == PVSIZE_BUSBAR_RULE_OPPOSITE_END)
        return true;
    if (rule != PVSIZE_BUSBAR_RULE_CENTRE_FED)
        return false;
    if (!pvsz_has_param(calc, PVSIZE_SITE_BUILDING))
        pvsz_missing(calc, PVSIZE_SITE_BUILDING);
    return pvsz_peek_param(calc, PVSIZE_SITE_BUILDING) == PVSIZE_BUILDING_DWELLING;
}

void pvsz_of_busbar_limit(pvsz_calc *calc)
{
    double rating = pvsz_param(calc, PVSIZE_SITE_BUSBAR_RATING);

    if (pvsz_is_open(calc) && may_pass(calc))
        pvsz_result(calc, rating * pvsz_figure_of(calc, PVSZ_FIGURE_BUSBAR_SHARE), "{B} × {sbus}");
    else
        pvsz_result(calc, rating, "{B}");
}

/* the phases */

enum { MOST_PHASES = 3 };

typedef struct phases {
    int32_t count;
    double power[MOST_PHASES];
} phases;

static int32_t phases_of(const pvsz_subject *inverter)
{
    double count = 0;

    pvsz_spec_number(inverter->spec[PVSZ_KIND_INVERTER], PVSIZE_INVERTER_PHASES, &count);
    return (int32_t)count;
}

/* How many inverters are on some of the phases only. Of one alone it does not
 * matter on which. */
static int32_t uneven(pvsz_calc *calc, int32_t count)
{
    int32_t found = 0;

    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_INVERTER); at;
         at = pvsz_next_below(calc, PVSZ_KIND_INVERTER, at))
        found += phases_of(at) < count;
    return found;
}

/* First phase of an inverter, from 0. */
static int32_t phase_of(pvsz_calc *calc, const pvsz_subject *inverter, int32_t count, bool asks)
{
    double phase = 1;

    if (phases_of(inverter) >= count || !asks)
        return 0;
    if (!pvsz_spec_number(inverter->spec[PVSZ_KIND_INVERTER], PVSIZE_INVERTER_PHASE, &phase) ||
        phase > count) {
        pvsz_missing(calc, PVSIZE_INVERTER_PHASE);
        return 0;
    }
    return (int32_t)phase - 1;
}

static phases loaded(pvsz_calc *calc)
{
    phases on = {0, {0, 0, 0}};
    bool asks;

    if (!pvsz_has_param(calc, PVSIZE_SITE_SUPPLY_PHASES)) {
        pvsz_missing(calc, PVSIZE_SITE_SUPPLY_PHASES);
        return on;
    }
    on.count = (int32_t)pvsz_peek_param(calc, PVSIZE_SITE_SUPPLY_PHASES);
    asks = uneven(calc, on.count) > 1;
    for (const pvsz_subject *at = pvsz_first_below(calc, PVSZ_KIND_INVERTER); at;
         at = pvsz_next_below(calc, PVSZ_KIND_INVERTER, at)) {
        const pvsz_entry *power = pvsz_compute(calc, PVSZ_QUANTITY_INVERTER_PHASE_POWER, at);
        int32_t first = phase_of(calc, at, on.count, asks);

        if (power->state != PVSZ_VALUE) {
            pvsz_missing(calc, power->missing);
            return on;
        }
        for (int32_t i = 0; i < phases_of(at); i++)
            on.power[(first + i) % on.count] += power->value;
    }
    return on;
}

static void extreme(pvsz_calc *calc, bool highest)
{
    static const char *const formulas[2][MOST_PHASES] = {
        {"{S1}", "min({S1}, {S2})", "min({S1}, {S2}, {S3})"},
        {"{S1}", "max({S1}, {S2})", "max({S1}, {S2}, {S3})"}};
    phases on = loaded(calc);
    double found = on.power[0];

    for (int32_t i = 1; i < on.count; i++)
        if (highest ? on.power[i] > found : on.power[i] < found)
            found = on.power[i];
    for (int32_t i = 0; i < on.count; i++)
        pvsz_literal(calc, on.power[i]);
    if (on.count > 0)
        pvsz_result(calc, found, formulas[highest][on.count - 1]);
}

void pvsz_of_phase_power_highest(pvsz_calc *calc)
{
    extreme(calc, true);
}

void pvsz_of_phase_power_lowest(pvsz_calc *calc)
{
    extreme(calc, false);
}

/* One phase cannot be out of balance. */
void pvsz_of_system_unbalance(pvsz_calc *calc)
{
    double high, low;

    if (pvsz_has_param(calc, PVSIZE_SITE_SUPPLY_PHASES) &&
        pvsz_peek_param(calc, PVSIZE_SITE_SUPPLY_PHASES) == 1) {
        pvsz_nothing(calc);
        return;
    }
    high = pvsz_quantity(calc, PVSZ_QUANTITY_PHASE_POWER_HIGHEST);
    low = pvsz_quantity(calc, PVSZ_QUANTITY_PHASE_POWER_LOWEST);
    pvsz_result(calc, pvsz_subtract(high, low), "{Shigh} - {Slow}");
}
