/* The year at a supply whose voltage is known, by hand, from days at STC. */
#include "../support/pv_day.h"

/* Responds as region A of AS/NZS 4777.2:2020 (253 V to 260 V and 20 %: from the page of a network;
 * 258 V: from memory). */
#define REGION_A                                                                 \
    PVSIZE_INVERTER_RATED_AC_POWER, 4000, PVSIZE_INVERTER_VOLT_WATT_START, 253,  \
        PVSIZE_INVERTER_VOLT_WATT_END, 260, PVSIZE_INVERTER_VOLT_WATT_LEAST, 20, \
        PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 258

static bool grants(const pvsize_year *year, int32_t what)
{
    int32_t count, found;

    OK(pvsize_year_assumption_count(year, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_year_assumption(year, i, &found, NULL, NULL, diag));
        if (found == what)
            return true;
    }
    return false;
}

/* Without cables the voltage at the terminals is that of the supply. 80 % over 7 V. */
START_TEST(power_held_back_at_a_high_voltage)
{
    static const double cases[][2] = {{230, 4000},   {253, 4000},           {253.7, 3680},
                                      {256.5, 2400}, {258, 4000 / 7.0 * 3}, {258.001, 0},
                                      {270, 0}};
    pvsize_spec *system = small_system(NULL, PAIRS(REGION_A), NULL);

    stc_all_day();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pvsize_year *year = year_at(system, cases[i][0], NULL);

        NEAR(output(year), day(cases[i][1]), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_AC_RATING), day(pmp - 4000), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_AC_VOLTAGE), day(4000 - cases[i][1]), 1e-9);
        NEAR(active(year, PVSIZE_KIND_INVERTER, PVSIZE_LOSS_AC_VOLTAGE),
             cases[i][1] < 4000 ? 24 : 0, 0);
        pvsize_year_free(year);
    }
    pvsize_spec_free(system);
}
END_TEST

/* Beyond its end the reduction goes no further; a disconnected inverter draws nothing, for its
 * array keeps it awake. */
START_TEST(the_least_that_is_left_and_the_night)
{
    pvsize_spec *system =
        small_system(NULL, PAIRS(REGION_A, PVSIZE_INVERTER_NIGHT_CONSUMPTION, 10), NULL);
    pvsize_year *year;

    stc_all_day();
    diffuse[0] = 0;
    year = year_at(system, 263, NULL);
    NEAR(output(year), -0.01, 1e-12);
    NEAR(loss(year, PVSIZE_LOSS_NIGHT), 0.01, 1e-12);
    NEAR(active(year, PVSIZE_KIND_INVERTER, PVSIZE_LOSS_AC_VOLTAGE), 23, 0);
    pvsize_year_free(year);
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 264, diag));
    year = year_at(system, 263, NULL);
    NEAR(output(year), 23 * 0.8 - 0.01, 1e-12);
    pvsize_year_free(year);
    pvsize_spec_free(system);
}
END_TEST

/* An a.c. cable, and the power factor at which its reactance counts. */
typedef struct wired {
    double phases, cos_phi, conductor, size, reactance; /* 0: not given */
} wired;

static pvsize_spec *wired_system(const wired *w)
{
    pvsize_spec *system = small_system(
        NULL,
        PAIRS(PVSIZE_INVERTER_RATED_AC_POWER, 3000 * w->cos_phi,
              PVSIZE_INVERTER_RATED_APPARENT_POWER, 3000, PVSIZE_INVERTER_PHASES, w->phases,
              PVSIZE_INVERTER_AC_VOLTAGE, 230, PVSIZE_INVERTER_COS_PHI, w->cos_phi),
        PAIRS(PVSIZE_SITE_SUPPLY_VOLTAGE_HIGHEST, 249));

    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_INVERTER, 0,
              PVSIZE_CABLE_CONDUCTOR, w->conductor,
              w->conductor == PVSIZE_CONDUCTOR_AWG ? PVSIZE_CABLE_GAUGE : PVSIZE_CABLE_SECTION,
              w->size, PVSIZE_CABLE_LENGTH, 45, PVSIZE_CABLE_CONDUCTOR_TEMP, 55));
    if (w->reactance > 0)
        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_CABLE_REACTANCE, w->reactance, diag));
    return system;
}

/* At full power the inverter disconnects just above the voltage that the check tells. */
START_TEST(the_voltage_is_that_of_the_check)
{
    static const wired cases[] = {{1, 1, PVSIZE_CONDUCTOR_CLASS2, 6, 0},
                                  {3, 1, PVSIZE_CONDUCTOR_CLASS2, 2.5, 0.1},
                                  {2, 1, PVSIZE_CONDUCTOR_ALUMINIUM, 16, 0},
                                  {1, 0.9, PVSIZE_CONDUCTOR_CLASS5, 6, 0.1},
                                  {3, 0.8, PVSIZE_CONDUCTOR_AWG, 10, 0}};

    stc_all_day();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pvsize_spec *system = wired_system(&cases[i]);
        pvsize_rules *rules = preset("asnzs_5033_2021");
        pvsize_report *report;
        double volts;

        OK(pvsize_report_new(NULL, &report, diag));
        OK(pvsize_check(system, rules, report, diag));
        volts = quantity_of(report, PVSIZE_QUANTITY_INVERTER_TERMINAL_VOLTAGE, 0, 0);
        ck_assert(volts > 249.5);
        for (int k = -1; k <= 1; k += 2) {
            pvsize_year *year;

            OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_DISCONNECT_VOLTAGE,
                                           volts + k * 1e-6, diag));
            year = year_at(system, 249, NULL);
            NEAR(loss(year, PVSIZE_LOSS_AC_VOLTAGE), k < 0 ? day(3000 * cases[i].cos_phi) : 0,
                 1e-9);
            pvsize_year_free(year);
        }
        pvsize_report_free(report);
        pvsize_rules_free(rules);
        pvsize_spec_free(system);
    }
}
END_TEST

/* 254 V, and a cable that raises 3 V at 4 kW: P = 4000 (1 - 0.8 (1 + 3 P / 4000) / 7), so that
 * P (1 + 2.4 / 7) = 4000 (1 - 0.8 / 7). */
START_TEST(the_rise_is_that_of_the_power_that_is_left)
{
    pvsize_spec *system = small_system(
        NULL, PAIRS(REGION_A, PVSIZE_INVERTER_PHASES, 1, PVSIZE_INVERTER_AC_VOLTAGE, 230), NULL);
    double ohm = 3 / (4000 / 230.0) / 2, left = 4000 * (6.2 / 7) / (9.4 / 7), amps = left / 230;
    pvsize_year *year;

    stc_all_day();
    /* 6 mm2: 3.39 ohm/km at 20 degC (IEC 60228, from memory) */
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_INVERTER, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 6,
              PVSIZE_CABLE_LENGTH, ohm / 0.00339, PVSIZE_CABLE_CONDUCTOR_TEMP, 20));
    year = year_at(system, 254, NULL);
    NEAR(loss(year, PVSIZE_LOSS_AC_VOLTAGE), day(4000 - left), 1e-9);
    NEAR(loss(year, PVSIZE_LOSS_AC_WIRING), day(2 * ohm * amps * amps), 1e-9);
    NEAR(output(year), day(left - 2 * ohm * amps * amps), 1e-9);
    pvsize_year_free(year);
    pvsize_spec_free(system);
}
END_TEST

/* What one inverter may not give at its voltage, the other gives as far as the export goes. */
START_TEST(the_export_limit_acts_on_what_the_voltage_leaves)
{
    pvsize_spec *system =
        small_system(NULL, PAIRS(REGION_A), PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 5000));
    pvsize_year *year;
    double kwh;
    int32_t found;

    add_second(system, SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 4000), 10);
    stc_all_day();
    for (int disconnected = 0; disconnected < 2; disconnected++) {
        double first = disconnected ? 0 : 2400, all = fmin(5000, first + 4000);

        year = year_at(system, disconnected ? 258.5 : 256.5, NULL);
        NEAR(output(year), day(all), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_AC_VOLTAGE), day(4000 - first), 1e-9);
        NEAR(loss(year, PVSIZE_LOSS_EXPORT), day(first + 4000 - all), 1e-9);
        OK(pvsize_year_subject(year, PVSIZE_KIND_INVERTER, 1, &found, diag));
        OK(pvsize_year_energy(year, found, 0, PVSIZE_ENERGY_OUTPUT, &kwh, diag));
        NEAR(kwh, day(all * 4000 / (first + 4000)), 1e-9);
        pvsize_year_free(year);
    }
    pvsize_spec_free(system);
}
END_TEST

/* Each by its own assumption, in either direction. */
START_TEST(what_is_not_told_of_the_voltage)
{
    const double none[] = {PVSIZE_INVERTER_RATED_AC_POWER, 4000, 0};
    pvsize_spec *system = small_system(NULL, PAIRS(REGION_A), NULL);
    pvsize_year *year;

    stc_all_day();
    give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC,
                      PVSIZE_CABLE_INVERTER, 0, PVSIZE_CABLE_LENGTH, 45));
    year = year_at(system, 256.5, NULL);
    ck_assert(grants(year, PVSIZE_YEAR_ASSUMPTION_RISE_LEFT_OUT));
    ck_assert(!grants(year, PVSIZE_YEAR_ASSUMPTION_NO_SUPPLY_VOLTAGE));
    ck_assert(!grants(year, PVSIZE_YEAR_ASSUMPTION_NO_VOLT_WATT));
    ck_assert(!grants(year, PVSIZE_YEAR_ASSUMPTION_NO_DISCONNECT));
    NEAR(output(year), day(2400), 1e-9);
    pvsize_year_free(year);
    year = year_of(system, plain, NULL);
    ck_assert(grants(year, PVSIZE_YEAR_ASSUMPTION_NO_SUPPLY_VOLTAGE));
    ck_assert(!grants(year, PVSIZE_YEAR_ASSUMPTION_RISE_LEFT_OUT));
    NEAR(output(year), day(4000), 1e-9);
    pvsize_year_free(year);
    system = small_system(NULL, none, NULL);
    year = year_at(system, 270, NULL);
    ck_assert(grants(year, PVSIZE_YEAR_ASSUMPTION_NO_VOLT_WATT));
    ck_assert(grants(year, PVSIZE_YEAR_ASSUMPTION_NO_DISCONNECT));
    NEAR(output(year), day(4000), 1e-9);
    pvsize_year_free(year);
    year = year_of(system, plain, NULL);
    ck_assert(!grants(year, PVSIZE_YEAR_ASSUMPTION_NO_SUPPLY_VOLTAGE));
    pvsize_year_free(year);
}
END_TEST

/* A cable whose reactance is needed and not known raises no voltage, and that is said. */
START_TEST(a_reactance_that_is_not_known)
{
    stc_all_day();
    for (int known = 0; known < 2; known++) {
        const wired w = {1, 0.9, PVSIZE_CONDUCTOR_CLASS2, 6, known ? 0.1 : 0};
        pvsize_spec *system = wired_system(&w);
        pvsize_year *year;

        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 250, diag));
        year = year_at(system, 249.9, NULL);
        ck_assert(grants(year, PVSIZE_YEAR_ASSUMPTION_RISE_LEFT_OUT) == !known);
        NEAR(loss(year, PVSIZE_LOSS_AC_VOLTAGE), known ? day(2700) : 0, 1e-9);
        pvsize_year_free(year);
        pvsize_spec_free(system);
    }
}
END_TEST

static void refused_at(pvsize_status status, const char *words, const double *inverter,
                       const double *supply, size_t count)
{
    pvsize_spec *system = small_system(NULL, inverter, NULL);
    pvsize_light *light = light_with(plain);
    pvsize_year *year;

    OK(pvsize_year_new(NULL, &year, diag));
    FAILS(status, words,
          pvsize_year_fill_at_supply(system, light, NULL, 0, supply, count, year, diag));
    FAILS(PVSIZE_E_NOT_SET, "", pvsize_year_size(year, NULL, NULL, NULL, NULL, diag));
    pvsize_year_free(year);
    pvsize_light_free(light);
    pvsize_spec_free(system);
}

START_TEST(wrong_voltages)
{
    static const double wrong[] = {-1, 0, 49.9, 1000.1, 1e300};
    double supply[ROWS];

    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        supply[i] = 240;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        supply[i] = wrong[i];
        refused_at(PVSIZE_E_OUT_OF_RANGE, "supply_voltage", PAIRS(REGION_A), supply, ROWS);
        refused_at(PVSIZE_E_OUT_OF_RANGE, "50 to 1000", NULL, supply, ROWS);
        supply[i] = 240;
    }
    supply[23] = NAN;
    refused_at(PVSIZE_E_NOT_FINITE, "supply_voltage", NULL, supply, ROWS);
    supply[23] = INFINITY;
    refused_at(PVSIZE_E_NOT_FINITE, "supply_voltage", NULL, supply, ROWS);
    supply[23] = 240;
    refused_at(PVSIZE_E_OUT_OF_RANGE, "given 23; allowed only 24; a supply voltage has", NULL,
               supply, 23);
    refused_at(PVSIZE_E_OUT_OF_RANGE, "supply_count", NULL, supply, 0);
    refused_at(PVSIZE_E_NULL_POINTER, "supply_voltage", NULL, NULL, ROWS);
}
END_TEST

START_TEST(a_response_must_be_whole)
{
    static const int32_t terms[] = {PVSIZE_INVERTER_VOLT_WATT_START, PVSIZE_INVERTER_VOLT_WATT_END,
                                    PVSIZE_INVERTER_VOLT_WATT_LEAST,
                                    PVSIZE_INVERTER_RATED_AC_POWER};
    static const char *const names[] = {"inverter[0].volt_watt_start", "inverter[0].volt_watt_end",
                                        "inverter[0].volt_watt_least",
                                        "inverter[0].rated_ac_power"};
    const double value[] = {253, 260, 20, 4000};
    double supply[ROWS];

    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        supply[i] = 240;
    for (int missing = 0; missing < 4; missing++) {
        double pairs[9] = {0};
        int n = 0;

        for (int i = 0; i < 4; i++)
            if (i != missing) {
                pairs[n++] = terms[i];
                pairs[n++] = value[i];
            }
        refused_at(PVSIZE_E_NOT_SET, names[missing], pairs, supply, ROWS);
    }
    refused_at(PVSIZE_E_OUT_OF_RANGE, "inverter[0].volt_watt_end",
               PAIRS(REGION_A, PVSIZE_INVERTER_VOLT_WATT_END, 253), supply, ROWS);
    refused_at(PVSIZE_E_OUT_OF_RANGE, "must end above the voltage at which it begins",
               PAIRS(REGION_A, PVSIZE_INVERTER_VOLT_WATT_END, 240), supply, ROWS);
}
END_TEST

/* The ledger's order is that of the set, in which the newest does not stand last. */
START_TEST(losses_stand_in_the_order_of_the_ledger)
{
    static const int32_t last[] = {PVSIZE_LOSS_AC_RATING, PVSIZE_LOSS_AC_VOLTAGE,
                                   PVSIZE_LOSS_AC_WIRING, PVSIZE_LOSS_NIGHT, PVSIZE_LOSS_EXPORT};
    pvsize_spec *system = small_system(NULL, PAIRS(REGION_A), NULL);
    pvsize_year *year;
    char text[12000];
    double x;

    for (int i = 0; i < 5; i++)
        ck_assert_int_eq(pvsize_set_at(PVSIZE_SET_LOSS, pvsize_set_count(PVSIZE_SET_LOSS) - 5 + i),
                         last[i]);
    stc_all_day();
    year = year_at(system, 256.5, NULL);
    OK(pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert(strstr(text, "ac_rating ") < strstr(text, "ac_voltage "));
    ck_assert(strstr(text, "ac_voltage ") < strstr(text, "ac_wiring "));
    ck_assert_ptr_nonnull(strstr(text, "; ac_voltage in 24 h, 38.4 kWh"));
    FAILS(PVSIZE_E_WRONG_KIND, "ac_voltage",
          pvsize_year_loss(year, subject(year, PVSIZE_KIND_INPUT), 0, PVSIZE_LOSS_AC_VOLTAGE, &x,
                           diag));
    OK(pvsize_year_loss(year, subject(year, PVSIZE_KIND_INPUT), 0, PVSIZE_LOSS_INPUT_POWER, &x,
                        diag));
    pvsize_year_free(year);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "held back", power_held_back_at_a_high_voltage);
    add_test(suite, "least left", the_least_that_is_left_and_the_night);
    add_test(suite, "voltage of the check", the_voltage_is_that_of_the_check);
    add_test(suite, "rise", the_rise_is_that_of_the_power_that_is_left);
    add_test(suite, "voltage, then export", the_export_limit_acts_on_what_the_voltage_leaves);
    add_test(suite, "voltage not told", what_is_not_told_of_the_voltage);
    add_test(suite, "reactance not known", a_reactance_that_is_not_known);
    add_test(suite, "wrong voltages", wrong_voltages);
    add_test(suite, "response whole", a_response_must_be_whole);
    add_test(suite, "order of losses", losses_stand_in_the_order_of_the_ledger);
}

int main(void)
{
    return run_cases("year_voltage", add);
}
