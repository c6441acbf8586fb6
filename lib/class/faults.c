/* Faults: designs that break one limit, and finding which. */
#include <math.h>

#include "../wiring/ratings.h"
#include "class.h"

static const struct {
    int32_t fault, rule;
} faults[] = {
#define BREAKS(FAULT, RULE) {PVSIZE_FAULT_##FAULT, PVSIZE_RULE_##RULE},
#include "../tables/faults.def"
#undef BREAKS
};

int32_t pvsz_fault_of(int32_t rule)
{
    for (int32_t i = 0; i < PVSZ_COUNT(faults); i++)
        if (faults[i].rule == rule)
            return faults[i].fault;
    return PVSIZE_FAULT_NONE;
}

static bool is_broken(const pvsz_finding *finding)
{
    return finding->verdict == PVSIZE_VERDICT_EXCEEDS &&
           finding->rule->severity == PVSIZE_SEVERITY_MUST;
}

int32_t pvsz_broken_count(const pvsize_report *report)
{
    int32_t count = 0;

    for (int32_t i = 0; i < report->findings; i++)
        count += is_broken(&report->finding[i]);
    return count;
}

const pvsz_finding *pvsz_broken(const pvsize_report *report)
{
    const pvsz_finding *found = NULL;

    if (pvsz_broken_count(report) == 1)
        for (int32_t i = 0; i < report->findings; i++)
            if (is_broken(&report->finding[i]))
                found = &report->finding[i];
    return found;
}

bool pvsz_loses_energy(const pvsize_report *report)
{
    for (int32_t i = 0; i < report->findings; i++)
        if (report->finding[i].rule->number == PVSIZE_RULE_OPERATING_CURRENT &&
            report->finding[i].verdict == PVSIZE_VERDICT_EXCEEDS)
            return true;
    return false;
}

int32_t pvsz_draw_fault(const pvsize_rules *rules, pvsz_random *random)
{
    int32_t found[sizeof faults / sizeof faults[0]], count = 0;

    for (int32_t i = 0; i < PVSZ_COUNT(faults); i++) {
        int32_t severity = 0;

        pvsize_rules_get_severity(rules, faults[i].rule, &severity, NULL);
        if (severity == PVSIZE_SEVERITY_MUST)
            found[count++] = faults[i].fault;
    }
    return count ? found[pvsz_between(random, 0, count - 1)] : PVSIZE_FAULT_NONE;
}

bool pvsz_is_of_devices(int32_t fault)
{
    return fault == PVSIZE_FAULT_REVERSE_CURRENT || fault == PVSIZE_FAULT_DEVICE_LOW ||
           fault == PVSIZE_FAULT_DEVICE_HIGH;
}

/* So many thousandths of a value, down to a multiple of a step. */
static double part_of(double value, int32_t low, int32_t high, double step, pvsz_random *random)
{
    return floor(value * pvsz_between(random, low, high) / 1000 / step) * step;
}

/* Imp is less than 96 % of Isc (ranges.def): what operates is no more than the rating. */
static void weaken_input(pvsize_spec *system, pvsz_random *random)
{
    double strings = pvsz_job_number(system, PVSIZE_ARRAY_STRINGS, 0);
    double isc = strings * pvsz_job_number(system, PVSIZE_MODULE_ISC, 0);
    double rating = part_of(isc, 1050, 1230, 0.5, random);
    double operating =
        part_of(strings * pvsz_job_number(system, PVSIZE_MODULE_IMP, 0), 850, 1080, 0.5, random);

    pvsz_job_set(system, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 0, rating);
    pvsz_job_set(system, PVSIZE_INPUT_MAX_OPERATING_CURRENT, 0, operating);
}

/* The next larger fuse; there is one for what modules of these data bring. */
static void set_device(pvsize_spec *system, double amps)
{
    double rating = 0;

    pvsz_smallest_rating(PVSZ_SERIES_IEC, amps, true, 1e6, &rating);
    pvsz_job_set(system, PVSIZE_ARRAY_STRING_DEVICE, 0, rating);
}

void pvsz_provoke(int32_t fault, pvsize_spec *system, double fewest, double most,
                  pvsz_random *random)
{
    double power = pvsz_job_power(system);

    switch (fault) {
    case PVSIZE_FAULT_INPUT_VOLTAGE:
    case PVSIZE_FAULT_MODULE_VOLTAGE:
    case PVSIZE_FAULT_BUILDING_VOLTAGE:
        pvsz_job_set(system, PVSIZE_ARRAY_MODULES_PER_STRING, 0, most + 1);
        break;
    case PVSIZE_FAULT_WINDOW:
        pvsz_job_set(system, PVSIZE_ARRAY_MODULES_PER_STRING, 0, fewest > 1 ? fewest - 1 : 1);
        break;
    case PVSIZE_FAULT_SHORT_CIRCUIT:
        weaken_input(system, random);
        break;
    case PVSIZE_FAULT_RATIO:
        pvsz_job_set(system, PVSIZE_INVERTER_RATED_AC_POWER, 0,
                     part_of(power, 600, 745, 100, random));
        pvsz_job_set(system, PVSIZE_INVERTER_MAX_PV_POWER, 0,
                     part_of(power, 1050, 1300, 100, random));
        break;
    case PVSIZE_FAULT_MAKER:
        pvsz_job_set(system, PVSIZE_INVERTER_MAX_PV_POWER, 0,
                     part_of(power, 800, 980, 100, random));
        break;
    case PVSIZE_FAULT_DEVICE_LOW:
        set_device(system, pvsz_job_number(system, PVSIZE_MODULE_ISC, 0) *
                               pvsz_between(random, 1000, 1250) / 1000);
        break;
    case PVSIZE_FAULT_DEVICE_HIGH:
        set_device(system, pvsz_job_number(system, PVSIZE_MODULE_MAX_SERIES_FUSE, 0));
        break;
    default: /* no fuses in many strings */
        break;
    }
}
