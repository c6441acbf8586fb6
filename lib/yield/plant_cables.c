/* Taking a system in: its cables. */
#include "../wiring/conductor.h"
#include "taker.h"

static bool of_cable(const pvsz_subject *cable, int32_t term, double *value)
{
    return pvsz_taken_number(cable, PVSZ_KIND_CABLE, term, value);
}

/* Place of its size among those of its conductor; -1 where it cannot be told. */
static int32_t size_of(const pvsz_subject *cable, int32_t conductor)
{
    double section = 0, gauge = 0;

    if (conductor == PVSZ_CONDUCTOR_AWG)
        return of_cable(cable, PVSIZE_CABLE_GAUGE, &gauge) ? pvsz_size_of_gauge((int32_t)gauge)
                                                           : -1;
    return of_cable(cable, PVSIZE_CABLE_SECTION, &section)
               ? pvsz_size_of_section(conductor, section)
               : -1;
}

/* Its length and resistance; false where they cannot be told. */
static bool run_of(const pvsz_subject *cable, pvsz_run *run)
{
    double conductor = 0, laying = 0, temp;
    int32_t size;

    of_cable(cable, PVSIZE_CABLE_CONDUCTOR, &conductor);
    of_cable(cable, PVSIZE_CABLE_LAYING, &laying);
    temp = pvsz_laying_temp((int32_t)laying - 1);
    if (!of_cable(cable, PVSIZE_CABLE_CONDUCTOR_TEMP, &temp) && temp <= 0)
        return false; /* nor does the laying tell it */
    size = size_of(cable, (int32_t)conductor - 1);
    return of_cable(cable, PVSIZE_CABLE_LENGTH, &run->length) &&
           pvsz_resistance((int32_t)conductor - 1, size, temp, &run->resistance);
}

/* Ohm of one conductor; false where it cannot be told. */
static bool ohm_of(const pvsz_subject *cable, double *ohm)
{
    pvsz_run run = {0};
    bool told = run_of(cable, &run);

    *ohm = run.resistance * run.length / 1000;
    return told;
}

static const pvsz_subject *next_cable(const pvsz_taker *t, int32_t at)
{
    return at < 0 ? NULL : &t->report->design.subject[PVSZ_KIND_CABLE][at];
}

double pvsz_added_ohm(pvsz_taker *t, const pvsz_subject *array, const pvsz_feed *feed,
                      double strings)
{
    double sum = 0;
    const pvsz_subject *cable = next_cable(t, array->first_cable);

    if (!cable)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_STRING_CABLE, array, 0);
    for (; cable; cable = next_cable(t, cable->next_cable)) {
        double circuit = 0, ohm = 0;

        of_cable(cable, PVSIZE_CABLE_CIRCUIT, &circuit);
        if (!ohm_of(cable, &ohm))
            pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT, cable, 0);
        else
            sum += 2 * ohm * (circuit == PVSIZE_CIRCUIT_ARRAY ? strings : 1);
    }
    return sum * t->light->kept / feed->modules;
}

/* a.c. */

/* Phases, and nominal voltage to neutral; false where one cannot be told. */
static bool supply_of(const pvsz_subject *inverter, double *phases, double *voltage)
{
    bool known = pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_PHASES, phases);

    return (pvsz_taken_number(inverter, PVSZ_KIND_INVERTER, PVSIZE_INVERTER_AC_VOLTAGE, voltage) ||
            pvsz_taken_number(inverter, PVSZ_KIND_SITE, PVSIZE_SITE_SUPPLY_VOLTAGE, voltage)) &&
           known;
}

double pvsz_ac_wiring(pvsz_taker *t, const pvsz_subject *inverter, double cos_phi)
{
    double phases = 0, voltage = 0, sum = 0;
    const pvsz_subject *cable = next_cable(t, inverter->first_cable);
    bool known = supply_of(inverter, &phases, &voltage);

    if (!cable)
        pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_NO_AC_CABLE, inverter, 0);
    for (; cable; cable = next_cable(t, cable->next_cable)) {
        double ohm = 0;

        if (!known || !ohm_of(cable, &ohm))
            pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT, cable, 0);
        else /* there and back of one phase, or each of more: the neutral carries nothing */
            sum += ohm * (phases == 1 ? 2 : phases);
    }
    voltage *= phases * cos_phi; /* current of a phase: power over this */
    return known ? sum / (voltage * voltage) : 0;
}

/* Reactance of a cable; false where it is needed and cannot be told. */
static bool take_reactance(const pvsz_subject *cable, pvsz_run *run)
{
    double conductor = 0;

    if (run->cos_phi >= 1)
        return true;
    of_cable(cable, PVSIZE_CABLE_CONDUCTOR, &conductor);
    if ((int32_t)conductor - 1 == PVSZ_CONDUCTOR_AWG)
        return pvsz_reactance(PVSZ_CONDUCTOR_AWG, size_of(cable, PVSZ_CONDUCTOR_AWG),
                              &run->reactance);
    return of_cable(cable, PVSIZE_CABLE_REACTANCE, &run->reactance);
}

double pvsz_ac_rise(pvsz_taker *t, const pvsz_subject *inverter, double cos_phi)
{
    double phases = 0, voltage = 0, percent = 0;
    bool known = supply_of(inverter, &phases, &voltage);

    for (const pvsz_subject *cable = next_cable(t, inverter->first_cable); cable;
         cable = next_cable(t, cable->next_cable)) {
        pvsz_run run = {.circuit = pvsz_ac_circuit(phases), .cos_phi = cos_phi};

        if (known && run_of(cable, &run) && take_reactance(cable, &run)) {
            run.current = 1 / (phases * voltage * cos_phi); /* of one watt */
            percent += pvsz_drop_percent(pvsz_drop(&run), pvsz_ac_voltage(run.circuit, voltage));
        } else {
            pvsz_grant(t, PVSIZE_YEAR_ASSUMPTION_RISE_LEFT_OUT, cable, 0);
        }
    }
    return percent / 100 * voltage;
}
