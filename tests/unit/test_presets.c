/* What no edition may soften, and the figures that all or most of them share. */
#include "../support/pv_test.h"

static pvsize_rules *nth(int32_t i)
{
    return preset(pvsize_preset_name(i));
}

/* What destroys, burns, shocks or hides a gap is a MUST in every preset: the inverter's and the
 * module's voltage, fault current, string devices, isolators, cables (data sheets; the clauses
 * stand beside the rows), and data that are not there. */
START_TEST(what_endangers_is_a_must_everywhere)
{
    static const int32_t grave[] = {PVSIZE_RULE_VOC_COLD_INPUT,
                                    PVSIZE_RULE_VOC_COLD_MODULE,
                                    PVSIZE_RULE_VOC_COLD_BUILDING,
                                    PVSIZE_RULE_ISC_INPUT,
                                    PVSIZE_RULE_TERMINAL_RATING,
                                    PVSIZE_RULE_REVERSE_CURRENT,
                                    PVSIZE_RULE_DEVICE_EXISTS,
                                    PVSIZE_RULE_DEVICE_HIGH,
                                    PVSIZE_RULE_DEVICE_VOLTAGE,
                                    PVSIZE_RULE_ISOLATOR,
                                    PVSIZE_RULE_ISOLATOR_VOLTAGE,
                                    PVSIZE_RULE_ISOLATOR_CURRENT,
                                    PVSIZE_RULE_ISOLATOR_RATED_CURRENT,
                                    PVSIZE_RULE_CABLE_CAPACITY,
                                    PVSIZE_RULE_GIVEN_INPUT,
                                    PVSIZE_RULE_GIVEN_SITE};

    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        pvsize_rules *rules = nth(i);

        for (size_t k = 0; k < sizeof grave / sizeof *grave; k++) {
            int32_t severity = 0;

            OK(pvsize_rules_get_severity(rules, grave[k], &severity, diag));
            ck_assert_msg(severity == PVSIZE_SEVERITY_MUST, "%s: %s is %d", pvsize_preset_name(i),
                          pvsize_term_name(grave[k]), (int)severity);
        }
        pvsize_rules_free(rules);
    }
}
END_TEST

static double figure_in(int32_t preset_number, int32_t figure)
{
    pvsize_rules *rules = nth(preset_number);
    double value = NAN;

    pvsize_rules_get_figure(rules, figure, &value, NULL);
    pvsize_rules_free(rules);
    return value;
}

/* Strings in parallel within 5 % (AS/NZS 5033:2014, from memory, and common practice);
 * cells above ambient by 25, 30 and 35 K on a rack, raised and close (Australian design
 * guideline 2013; trade magazine's table, from memory), used by all presets for want of others;
 * module Isc times 1.25 (common practice; NFPA 70 690.8(A), from memory). */
START_TEST(shared_figures)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        ck_assert(figure_in(i, PVSIZE_FIGURE_PARALLEL_VOC_DIFFERENCE) == 5);
        ck_assert(figure_in(i, PVSIZE_FIGURE_CELL_RISE_OPEN_RACK) == 25);
        ck_assert(figure_in(i, PVSIZE_FIGURE_CELL_RISE_RAISED) == 30);
        ck_assert(figure_in(i, PVSIZE_FIGURE_CELL_RISE_CLOSE) == 35);
        ck_assert(figure_in(i, PVSIZE_FIGURE_ISC_FACTOR) == 1.25);
    }
}
END_TEST

/* A table of factors where the maker states no coefficient: AS/NZS 5033 table 4.1, IEC 62548,
 * NFPA 70 table 690.7(A), all from memory; HD 60364-7-712 and the fixed factors have none. */
START_TEST(who_has_a_voltage_table)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        const char *name = pvsize_preset_name(i);
        bool has = strncmp(name, "iec_60364", 9) != 0 && strncmp(name, "uk_", 3) != 0;

        ck_assert_msg(figure_in(i, PVSIZE_FIGURE_VOC_TABLE) == has, "%s", name);
    }
}
END_TEST

/* On one- and two-family dwellings 600 V, on other buildings 1000 V (NFPA 70 690.7, from
 * memory); on dwellings 1000 V (AS/NZS 5033:2021 cl. 3.1). */
START_TEST(voltage_on_buildings)
{
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        double dwelling = figure_in(i, PVSIZE_FIGURE_VOLTAGE_LIMIT_DWELLING);

        if (strncmp(pvsize_preset_name(i), "nfpa", 4) == 0) {
            ck_assert(dwelling == 600);
            ck_assert(figure_in(i, PVSIZE_FIGURE_VOLTAGE_LIMIT_OTHER_BUILDING) == 1000);
        } else if (strcmp(pvsize_preset_name(i), "asnzs_5033_2021") == 0) {
            ck_assert(dwelling == 1000);
        }
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "voltage on buildings", voltage_on_buildings);
    add_test(suite, "grave", what_endangers_is_a_must_everywhere);
    add_test(suite, "shared figures", shared_figures);
    add_test(suite, "voltage tables", who_has_a_voltage_table);
}

int main(void)
{
    return run_cases("presets", add);
}
