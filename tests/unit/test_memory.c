/* Memory: every allocation fails once; every object uses its own hooks; a
 * check that has room allocates nothing. */
#include "../support/pv_test.h"

typedef struct all {
    pvsize_spec *module, *input, *inverter, *plane, *site, *array, *system, *copy, *part;
    pvsize_rules *rules, *rules_copy;
    pvsize_report *report;
    pvsize_bill *bill;
    pvsize_curve *curve;
    pvsize_spec *model;
    pvsize_spec *month, *place;
    pvsize_weather *series, *year;
    pvsize_spec *outlook;
    pvsize_light *light;
    pvsize_year *energy;
} all;

static pvsize_status build_specs(all *a, const pvsize_allocator *memory)
{
    pvsize_status s = pvsize_spec_new(PVSIZE_KIND_MODULE, memory, &a->module, NULL);

    if (!s)
        s = pvsize_spec_set_text(a->module, PVSIZE_MODULE_NAME, "Quoll", NULL);
    if (!s)
        s = pvsize_spec_set_text(a->module, PVSIZE_MODULE_NAME, "Quoll 2", NULL);
    if (!s)
        s = pvsize_spec_set_number(a->module, PVSIZE_MODULE_VOC, 40, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_INPUT, memory, &a->input, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_INVERTER, memory, &a->inverter, NULL);
    for (int i = 0; !s && i < 6; i++) /* past the first growth of the list */
        s = pvsize_spec_add(a->inverter, a->input, NULL, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_PLANE, memory, &a->plane, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_SITE, memory, &a->site, NULL);
    if (!s)
        s = pvsize_spec_add(a->site, a->plane, NULL, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_ARRAY, memory, &a->array, NULL);
    if (!s)
        s = pvsize_spec_set_number(a->array, PVSIZE_ARRAY_INPUT, 0, NULL);
    if (!s)
        s = pvsize_spec_add(a->array, a->module, NULL, NULL);
    return s;
}

static pvsize_status build_system(all *a, const pvsize_allocator *memory)
{
    pvsize_status s = pvsize_spec_new(PVSIZE_KIND_SYSTEM, memory, &a->system, NULL);

    if (!s)
        s = pvsize_spec_add(a->system, a->site, NULL, NULL);
    if (!s)
        s = pvsize_spec_add(a->system, a->inverter, NULL, NULL);
    if (!s)
        s = pvsize_spec_add(a->system, a->array, NULL, NULL);
    if (!s)
        s = pvsize_spec_replace(a->system, 0, a->array, NULL);
    if (!s)
        s = pvsize_spec_clone(a->system, memory, &a->copy, NULL);
    if (!s)
        s = pvsize_spec_part(a->copy, PVSIZE_KIND_ARRAY, 0, memory, &a->part, NULL);
    return s;
}

static pvsize_status build_rules(all *a, const pvsize_allocator *memory)
{
    pvsize_status s = pvsize_rules_new("asnzs_5033_2021", memory, &a->rules, NULL);

    if (!s)
        s = pvsize_rules_set_title(a->rules, "Own", NULL);
    if (!s)
        s = pvsize_rules_set_figure(a->rules, PVSIZE_FIGURE_ISC_FACTOR, 1.3, "Own", NULL);
    if (!s)
        s = pvsize_rules_set_figure(a->rules, PVSIZE_FIGURE_ISC_FACTOR, 1.4, "Own 2", NULL);
    for (int i = 0; !s && i < 5; i++) {
        char name[] = "own_a";

        name[4] = (char)('a' + i);
        s = pvsize_rules_add(a->rules, name, "Own", PVSIZE_QUANTITY_SYSTEM_MODULES,
                             PVSIZE_COMPARE_AT_MOST, 0, 5, PVSIZE_SEVERITY_NOTE, "Own", NULL, NULL);
    }
    if (!s)
        s = pvsize_rules_clone(a->rules, memory, &a->rules_copy, NULL);
    return s;
}

static pvsize_status build_curve(all *a, const pvsize_allocator *memory)
{
    pvsize_spec *sheet = invented_module();
    pvsize_status s = pvsize_curve_new(sheet, memory, &a->curve, NULL);

    pvsize_spec_free(sheet);
    if (!s)
        s = pvsize_curve_model(a->curve, 1000, 25, memory, &a->model, NULL);
    return s;
}

static pvsize_status build_weather(all *a, const pvsize_allocator *memory)
{
    static const double global[24] = {0};
    static const int32_t terms[] = {PVSIZE_SITE_LATITUDE, PVSIZE_SITE_LONGITUDE,
                                    PVSIZE_SITE_TIME_ZONE};
    static const double values[] = {-33.9, 151.2, 10};
    pvsize_status s = pvsize_spec_new(PVSIZE_KIND_SITE, memory, &a->place, NULL);

    if (!s)
        s = pvsize_spec_set_numbers(a->place, terms, values, 3, NULL);
    if (!s)
        s = pvsize_spec_new(PVSIZE_KIND_MONTH, memory, &a->month, NULL);
    if (!s)
        s = pvsize_spec_set_number(a->month, PVSIZE_MONTH_IRRADIATION, 2, NULL);
    if (!s)
        s = pvsize_spec_set_number(a->month, PVSIZE_MONTH_TEMP_MEAN, 2, NULL);
    for (int i = 0; !s && i < 12; i++)
        s = pvsize_spec_add(a->place, a->month, NULL, NULL);
    if (!s)
        s = pvsize_weather_from_series(a->place, NULL, global, NULL, NULL, NULL, NULL, 24, 1,
                                       memory, &a->series, NULL);
    if (!s)
        s = pvsize_weather_from_months(a->place, 2026, memory, &a->year, NULL);
    return s;
}

enum { ROWS = 8760 }; /* of a year from months */

/* Unlike strings on one input, with cables, so that every scratch is needed. */
static pvsize_spec *small_plant(void)
{
    static const double section[] = {4, 6};
    pvsize_spec *system, *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 9e3,
                                          PVSIZE_INVERTER_DISCONNECT_VOLTAGE, 258);
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_EXPORT_LIMIT, 100);

    OK(pvsize_spec_new(PVSIZE_KIND_SYSTEM, NULL, &system, diag));
    for (int i = 0; i < 2; i++)
        give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 20, PVSIZE_PLANE_AZIMUTH, 90.0 * i,
                        PVSIZE_PLANE_MOUNTING, PVSIZE_MOUNTING_CLOSE));
    give(inverter, SPEC(PVSIZE_KIND_INPUT, PVSIZE_INPUT_TRACKING_MIN, 100));
    give(system, site);
    give(system, inverter);
    for (int i = 0; i < 2; i++) {
        give(system, invented_array(0, i, 9, 1));
        give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING,
                          PVSIZE_CABLE_ARRAY, i, PVSIZE_CABLE_CONDUCTOR,
                          PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, section[i],
                          PVSIZE_CABLE_LENGTH, 20, PVSIZE_CABLE_CONDUCTOR_TEMP, 60));
    }
    give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC,
                      PVSIZE_CABLE_INVERTER, 0));
    return system;
}

static pvsize_status build_year(all *a, const pvsize_allocator *memory)
{
    pvsize_status s = pvsize_spec_new(PVSIZE_KIND_OUTLOOK, memory, &a->outlook, NULL);
    pvsize_spec *system = small_plant();
    static double supply[ROWS];
    double kwh;

    if (!s)
        s = pvsize_spec_set_number(a->outlook, PVSIZE_OUTLOOK_WIND, 2, NULL);
    if (!s)
        s = pvsize_light_new(a->year, a->outlook, memory, &a->light, NULL);
    if (!s)
        s = pvsize_year_new(memory, &a->energy, NULL);
    for (int i = 0; i < ROWS; i++)
        supply[i] = 240;
    if (!s)
        s = pvsize_year_fill(system, a->light, NULL, 0, a->energy, NULL);
    if (!s) /* replaces the first; grants what an inverter does not state, and a cable's rise */
        s = pvsize_year_fill_at_supply(system, a->light, NULL, 0, supply, ROWS, a->energy, NULL);
    if (!s)
        s = pvsize_year_energy(a->energy, 0, 0, PVSIZE_ENERGY_OUTPUT, &kwh, NULL);
    pvsize_spec_free(system);
    return s;
}

static pvsize_status scenario(all *a, const pvsize_allocator *memory)
{
    pvsize_status s = build_specs(a, memory);

    if (!s)
        s = build_system(a, memory);
    if (!s)
        s = build_rules(a, memory);
    if (!s)
        s = build_curve(a, memory);
    if (!s)
        s = pvsize_report_new(memory, &a->report, NULL);
    if (!s)
        s = pvsize_check(a->copy, a->rules_copy, a->report, NULL);
    if (!s)
        s = pvsize_bill_new(memory, &a->bill, NULL);
    if (!s)
        s = pvsize_bill_fill(a->copy, a->rules_copy, a->bill, NULL);
    if (!s)
        s = build_weather(a, memory);
    if (!s)
        s = build_year(a, memory);
    return s;
}

static void free_all(all *a)
{
    pvsize_bill_free(a->bill);
    pvsize_report_free(a->report);
    pvsize_rules_free(a->rules_copy);
    pvsize_rules_free(a->rules);
    pvsize_spec_free(a->module);
    pvsize_spec_free(a->input);
    pvsize_spec_free(a->inverter);
    pvsize_spec_free(a->plane);
    pvsize_spec_free(a->site);
    pvsize_spec_free(a->array);
    pvsize_spec_free(a->system);
    pvsize_spec_free(a->copy);
    pvsize_spec_free(a->part);
    pvsize_curve_free(a->curve);
    pvsize_spec_free(a->model);
    pvsize_spec_free(a->month);
    pvsize_spec_free(a->place);
    pvsize_weather_free(a->series);
    pvsize_weather_free(a->year);
    pvsize_spec_free(a->outlook);
    pvsize_light_free(a->light);
    pvsize_year_free(a->energy);
}

START_TEST(every_allocation_fails_once)
{
    long n;

    for (n = 0;; n++) {
        counter c = {0, 0, n};
        pvsize_allocator memory = {counted, released, &c};
        all a = {0};
        pvsize_status status = scenario(&a, &memory);

        free_all(&a);
        ck_assert_msg(c.live == 0, "%ld blocks left after failing allocation %ld", c.live, n);
        if (status == PVSIZE_OK)
            break;
        ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
    }
    ck_assert_int_gt(n, 50); /* that many were tried */
}
END_TEST

/* A call that fails for want of memory leaves its object as it was. */
START_TEST(nothing_is_half_changed)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *inverter, *input = invented_input(1);
    pvsize_rules *rules;
    char text[50];
    int32_t count;
    double value;

    OK(pvsize_spec_new(PVSIZE_KIND_INVERTER, &memory, &inverter, diag));
    OK(pvsize_spec_set_text(inverter, PVSIZE_INVERTER_NAME, "before", diag));
    OK(pvsize_rules_new("asnzs_5033_2021", &memory, &rules, diag));
    c.fail_at = c.made;
    FAILS(PVSIZE_E_NO_MEMORY, "null",
          pvsize_spec_set_text(inverter, PVSIZE_INVERTER_NAME, "after", diag));
    c.fail_at = c.made;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_spec_add(inverter, input, NULL, diag));
    c.fail_at = c.made + 1; /* the list, after the copy */
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_spec_add(inverter, input, NULL, diag));
    c.fail_at = c.made;
    FAILS(PVSIZE_E_NO_MEMORY, "null",
          pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 2, "own", diag));
    c.fail_at = -1;
    OK(pvsize_spec_get_text(inverter, PVSIZE_INVERTER_NAME, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "before");
    OK(pvsize_spec_part_count(inverter, PVSIZE_KIND_INPUT, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_rules_get_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, &value, diag));
    ck_assert(value == 1.25);
    pvsize_spec_free(inverter);
    pvsize_spec_free(input);
    pvsize_rules_free(rules);
    ck_assert_int_eq(c.live, 0);
}
END_TEST

START_TEST(a_failed_check_keeps_the_report)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *module = invented_module(), *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    char *before, *after;

    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VMP, 50, diag));
    OK(pvsize_report_new(&memory, &report, diag));
    OK(pvsize_check(module, rules, report, diag));
    before = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    c.fail_at = c.made;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_check(system, rules, report, diag));
    after = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    ck_assert_str_eq(before, after);
    free(before);
    free(after);
    pvsize_report_free(report);
    ck_assert_int_eq(c.live, 0);
    pvsize_spec_free(module);
    pvsize_spec_free(system);
    pvsize_rules_free(rules);
}
END_TEST

START_TEST(checking_and_rendering_allocate_nothing)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    long before;

    give(system, SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_STRING,
                      PVSIZE_CABLE_ARRAY, 0, PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED,
                      PVSIZE_CABLE_SECTION, 4, PVSIZE_CABLE_LENGTH, 15));
    give(system, SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE,
                      PVSIZE_ISOLATOR_PLACE_BESIDE_INVERTER, PVSIZE_ISOLATOR_ARRAY, 0));
    OK(pvsize_report_new(&memory, &report, diag));
    OK(pvsize_check(system, rules, report, diag));
    before = c.made;
    for (int32_t length = 1; length < 30; length++) {
        char buffer[200];

        OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, length, diag));
        OK(pvsize_check(system, rules, report, diag));
        pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 1, buffer, sizeof buffer, NULL, NULL);
    }
    ck_assert_int_eq(c.made, before);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "every allocation", every_allocation_fails_once);
    add_test(suite, "half changed", nothing_is_half_changed);
    add_test(suite, "check", a_failed_check_keeps_the_report);
    add_test(suite, "no allocation", checking_and_rendering_allocate_nothing);
}

int main(void)
{
    return run_cases("memory", add);
}
