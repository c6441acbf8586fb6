/* Places for results that are missing, handles of another sort, and counts out of their range,
 * call by call: refused by name, nothing made. */
#include "../support/pv_test.h"
#include "tell.h"

#define NEEDS(name, call) FAILS(PVSIZE_E_NULL_POINTER, name, call)
#define HANDLE(name, call) FAILS(PVSIZE_E_BAD_HANDLE, name, call)

/* A job whose year could be computed. */
static objects job(void)
{
    draw d = draw_from_seed(1);
    uint64_t sums[PARTS];
    objects o;

    objects_make(&o, &d, NULL, sums);
    pvsize_spec_free(o.system);
    o.system = invented_system();
    OK(pvsize_check(o.system, o.rules, o.report, diag));
    return o;
}

START_TEST(makers_need_a_place)
{
    objects o = job();

    NEEDS("out", pvsize_spec_new(PVSIZE_KIND_MODULE, NULL, NULL, diag));
    NEEDS("out", pvsize_spec_clone(o.system, NULL, NULL, diag));
    NEEDS("out", pvsize_spec_part(o.system, PVSIZE_KIND_SITE, 0, NULL, NULL, diag));
    NEEDS("out", pvsize_rules_new(NULL, NULL, NULL, diag));
    NEEDS("out", pvsize_rules_clone(o.rules, NULL, NULL, diag));
    NEEDS("out", pvsize_report_new(NULL, NULL, diag));
    NEEDS("out", pvsize_comparison_new(NULL, NULL, diag));
    NEEDS("out", pvsize_curve_new(o.module, NULL, NULL, diag));
    NEEDS("out", pvsize_curve_model(o.curve, 1000, 25, NULL, NULL, diag));
    NEEDS("out", pvsize_layouts_new(NULL, NULL, diag));
    NEEDS("out", pvsize_layouts_system(o.layouts, 0, NULL, NULL, diag));
    NEEDS("out", pvsize_ranking_new(o.search, o.rules, 5, NULL, NULL, diag));
    NEEDS("out", pvsize_weather_from_months(o.place, 2026, NULL, NULL, diag));
    NEEDS("out", pvsize_weather_from_series(o.place, o.place, NULL, NULL, NULL, NULL, NULL, 1, 1,
                                            NULL, NULL, diag));
    NEEDS("out", pvsize_light_new(o.series, NULL, NULL, NULL, diag));
    NEEDS("out", pvsize_year_new(NULL, NULL, diag));
    objects_free(&o);
}
END_TEST

START_TEST(counts_need_a_place)
{
    objects o = job();

    NEEDS("count", pvsize_spec_part_count(o.system, PVSIZE_KIND_SITE, NULL, diag));
    NEEDS("count", pvsize_report_count(o.report, 0, 0, NULL, diag));
    NEEDS("count", pvsize_report_subject_count(o.report, NULL, diag));
    NEEDS("count", pvsize_report_assumption_count(o.report, NULL, diag));
    NEEDS("count", pvsize_comparison_count(o.reports, NULL, diag));
    NEEDS("count", pvsize_bill_count(o.bill, NULL, diag));
    NEEDS("count", pvsize_judgement_count(o.judgement, 0, NULL, diag));
    NEEDS("count", pvsize_review_bound_count(o.review, NULL, diag));
    NEEDS("count", pvsize_review_module_count(o.review, NULL, diag));
    NEEDS("count", pvsize_review_remark_count(o.review, NULL, diag));
    NEEDS("count", pvsize_layouts_count(o.layouts, NULL, diag));
    NEEDS("count", pvsize_layouts_obstacle_count(o.layouts, NULL, diag));
    NEEDS("count", pvsize_ranking_count(o.ranking, NULL, diag));
    NEEDS("count", pvsize_exercise_question_count(o.exercise, NULL, diag));
    NEEDS("count", pvsize_exercise_mistake_count(o.exercise, 0, NULL, diag));
    NEEDS("count", pvsize_curve_assumption_count(o.curve, NULL, diag));
    NEEDS("count", pvsize_year_assumption_count(o.energy, NULL, diag));
    objects_free(&o);
}
END_TEST

START_TEST(values_need_a_place)
{
    objects o = job();
    const pvsize_curve *curve = o.curve;
    const double light = 800, cell = 40;
    const int32_t one = 1;
    double volts = 0;

    NEEDS("governs", pvsize_report_governs(o.report, 0, NULL, diag));
    NEEDS("term", pvsize_report_missing(o.report, 0, NULL, diag));
    NEEDS("subject", pvsize_report_find(o.report, PVSIZE_KIND_SYSTEM, 0, -1, NULL, diag));
    NEEDS("value", pvsize_report_quantity(o.report, PVSIZE_QUANTITY_SYSTEM_MODULES, 0, NULL, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "", pvsize_report_quantity(o.report, 7, 0, &volts, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "severity",
          pvsize_report_count(o.report, 0, 77, &(int32_t){0}, diag));
    NEEDS("title", pvsize_rules_set_title(o.rules, NULL, diag));
    NEEDS("value", pvsize_rules_get_figure(o.rules, PVSIZE_FIGURE_ISC_FACTOR, NULL, diag));
    NEEDS("severity", pvsize_rules_get_severity(o.rules, PVSIZE_RULE_ISC_INPUT, NULL, diag));
    NEEDS("known", pvsize_rules_known(o.rules, PVSIZE_RULE_ISC_INPUT, NULL, diag));
    NEEDS("difference", pvsize_curve_check(o.curve, PVSIZE_CURVE_CHECK_ISC, NULL, diag));
    NEEDS("current", pvsize_curve_current(o.curve, 800, 40, 10, NULL, diag));
    NEEDS("voltage", pvsize_curve_voltage(o.curve, 800, 40, 1, NULL, diag));
    NEEDS("voltage", pvsize_curve_sample(o.curve, 800, 40, 3, NULL, &volts, diag));
    NEEDS("current", pvsize_curve_sample(o.curve, 800, 40, 3, &volts, NULL, diag));
    NEEDS("irradiance", pvsize_curve_mpps(o.curve, NULL, &cell, 1, &volts, &volts, diag));
    NEEDS("cell_temp", pvsize_curve_mpps(o.curve, &light, NULL, 1, &volts, &volts, diag));
    NEEDS("current",
          pvsize_parallel_current(&curve, &light, &cell, &one, &one, 1, 0, 10, NULL, diag));
    NEEDS("voltage",
          pvsize_parallel_voltage(&curve, &light, &cell, &one, &one, 1, 0, 1, NULL, diag));
    NEEDS("origin", pvsize_weather_origin(o.series, 0, PVSIZE_INTERVAL_TEMP, NULL, diag));
    NEEDS("subject", pvsize_year_subject(o.energy, PVSIZE_KIND_SYSTEM, 0, NULL, diag));
    NEEDS("kwh", pvsize_year_energy(o.energy, 0, 0, PVSIZE_ENERGY_OUTPUT, NULL, diag));
    NEEDS("kwh", pvsize_year_loss(o.energy, 0, 0, PVSIZE_LOSS_GLASS, NULL, diag));
    objects_free(&o);
}
END_TEST

/* A handle of another sort in each place that takes one beside the first. */
START_TEST(other_handles_are_named)
{
    objects o = job();
    pvsize_spec *wrong = (void *)o.rules;
    pvsize_rules *wrong_rules = (void *)o.system;
    int32_t fits = 0;
    double yield = 0;

    HANDLE("part", pvsize_spec_add(o.system, wrong, NULL, diag));
    HANDLE("part", pvsize_spec_replace(o.system, 0, wrong, diag));
    HANDLE("spec", pvsize_spec_remove(wrong, PVSIZE_KIND_ARRAY, 0, diag));
    HANDLE("spec", pvsize_spec_set_part_number(wrong, 0, PVSIZE_SITE_TEMP_MIN, 1, diag));
    HANDLE("spec", pvsize_spec_get_part_number(wrong, 0, PVSIZE_SITE_TEMP_MIN, &yield, diag));
    NEEDS("spec", pvsize_spec_set_part_number(NULL, 0, PVSIZE_SITE_TEMP_MIN, 1, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "", pvsize_spec_set_part_number(o.system, 0, 4711, 1, diag));
    HANDLE("rules", pvsize_search(o.search, wrong_rules, NULL, o.layouts, diag));
    HANDLE("rules",
           pvsize_ranking_new(o.search, wrong_rules, 5, NULL, &(pvsize_ranking *){NULL}, diag));
    HANDLE("module", pvsize_ranking_add(o.ranking, wrong, o.inverter, 1, 2, NULL, &fits, diag));
    HANDLE("inverter", pvsize_ranking_add(o.ranking, o.module, wrong, 1, 2, NULL, &fits, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "",
          pvsize_ranking_add(o.ranking, o.inverter, o.inverter, 1, 2, NULL, &fits, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "",
          pvsize_ranking_add(o.ranking, o.module, o.module, 1, 2, NULL, &fits, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "module_number",
          pvsize_ranking_add(o.ranking, o.module, o.inverter, -1, 2, NULL, &fits, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "inverter_number",
          pvsize_ranking_add(o.ranking, o.module, o.inverter, 1, -2, NULL, &fits, diag));
    HANDLE("rules",
           pvsize_review_inverter(o.inverter, o.site, o.enquiry, wrong_rules, o.review, diag));
    HANDLE("site", pvsize_weather_from_months(wrong, 2026, NULL, &(pvsize_weather *){NULL}, diag));
    HANDLE("outlook", pvsize_light_new(o.series, wrong, NULL, &(pvsize_light *){NULL}, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "",
          pvsize_light_new(o.series, o.site, NULL, &(pvsize_light *){NULL}, diag));
    HANDLE("module", pvsize_light_yield(o.light, wrong, o.site, &yield, diag));
    HANDLE("plane", pvsize_light_yield(o.light, o.module, wrong, &yield, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "", pvsize_light_yield(o.light, o.site, o.module, &yield, diag));
    HANDLE("system", pvsize_year_fill(wrong, o.light, NULL, 0, o.energy, diag));
    HANDLE("system", pvsize_year_fill_at_supply(wrong, o.light, NULL, 0, NULL, 0, o.energy, diag));
    HANDLE("rules",
           pvsize_rules_add(wrong_rules, "own", "Own", PVSIZE_QUANTITY_SYSTEM_MODULES,
                            PVSIZE_COMPARE_AT_MOST, 0, 5, PVSIZE_SEVERITY_NOTE, NULL, NULL, diag));
    objects_free(&o);
}
END_TEST

/* What has rows to be asked for: a search that finds something, and comes with a ranking. */
START_TEST(rows_need_a_place)
{
    pvsize_spec *search = SPEC(PVSIZE_KIND_SEARCH, PVSIZE_SEARCH_NODE_BUDGET, 2000), *system;
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;
    pvsize_ranking *ranking;
    double value;

    OK(pvsize_spec_new(PVSIZE_KIND_SYSTEM, NULL, &system, diag));
    give(system, invented_site());
    give(system, invented_inverter());
    give(search, system);
    give(search, invented_module());
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    NEEDS("value", pvsize_layouts_number(layouts, 0, PVSIZE_LAYOUT_POWER, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_layouts_number(layouts, 0, 99, &value, diag));
    FAILS(PVSIZE_E_NOT_SET, "specific_yield",
          pvsize_layouts_number(layouts, 0, PVSIZE_LAYOUT_ENERGY, &value, diag));
    NEEDS("count", pvsize_layouts_array_count(layouts, 0, NULL, diag));
    OK(pvsize_ranking_new(search, rules, 5, NULL, &ranking, diag));
    OK(pvsize_ranking_add_shard(ranking, 0, 1, NULL, &value, diag));
    NEEDS("value", pvsize_ranking_number(ranking, 0, PVSIZE_LAYOUT_POWER, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_ranking_number(ranking, 0, 99, &value, diag));
    FAILS(PVSIZE_E_NOT_SET, "specific_yield",
          pvsize_ranking_number(ranking, 0, PVSIZE_LAYOUT_ENERGY, &value, diag));
    pvsize_ranking_free(ranking);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

/* A call that gives only one of its results gives what it gives with the others. */
#define ALONE(of_all, one, call)      \
    do {                              \
        OK(call);                     \
        ck_assert((one) == (of_all)); \
    } while (0)

START_TEST(results_of_weather_may_be_left_out)
{
    objects o = job();
    const pvsize_weather *w = o.year;
    const int32_t term = PVSIZE_INTERVAL_GLOBAL, origin = PVSIZE_ORIGIN_SYNTHETIC;
    int32_t a[3], one;
    double x[2], y;

    OK(pvsize_weather_size(w, &a[0], &a[1], diag));
    ALONE(a[0], one, pvsize_weather_size(w, &one, NULL, diag));
    ALONE(a[1], one, pvsize_weather_size(w, NULL, &one, diag));
    OK(pvsize_weather_time(w, 4000, &a[0], &a[1], &a[2], &x[0], diag));
    ALONE(a[0], one, pvsize_weather_time(w, 4000, &one, NULL, NULL, NULL, diag));
    ALONE(a[1], one, pvsize_weather_time(w, 4000, NULL, &one, NULL, NULL, diag));
    ALONE(a[2], one, pvsize_weather_time(w, 4000, NULL, NULL, &one, NULL, diag));
    ALONE(x[0], y, pvsize_weather_time(w, 4000, NULL, NULL, NULL, &y, diag));
    OK(pvsize_weather_count(w, term, origin, &a[0], &a[1], diag));
    ALONE(a[0], one, pvsize_weather_count(w, term, origin, &one, NULL, diag));
    ALONE(a[1], one, pvsize_weather_count(w, term, origin, NULL, &one, diag));
    OK(pvsize_weather_run(w, term, origin, 0, &a[0], &a[1], diag));
    ALONE(a[0], one, pvsize_weather_run(w, term, origin, 0, &one, NULL, diag));
    ALONE(a[1], one, pvsize_weather_run(w, term, origin, 0, NULL, &one, diag));
    OK(pvsize_weather_closure(w, &a[0], &x[0], &x[1], &a[1], diag));
    ALONE(a[0], one, pvsize_weather_closure(w, &one, NULL, NULL, NULL, diag));
    ALONE(x[0], y, pvsize_weather_closure(w, NULL, &y, NULL, NULL, diag));
    ALONE(x[1], y, pvsize_weather_closure(w, NULL, NULL, &y, NULL, diag));
    ALONE(a[1], one, pvsize_weather_closure(w, NULL, NULL, NULL, &one, diag));
    objects_free(&o);
}
END_TEST

START_TEST(results_of_a_year_may_be_left_out)
{
    objects o = job();
    const pvsize_year *energy = o.energy;
    int32_t array, inverter, a[4], one;
    double x[2], y;
    size_t rows = 0;

    OK(pvsize_year_size(energy, &a[0], &a[1], &a[2], &a[3], diag));
    ALONE(a[0], one, pvsize_year_size(energy, &one, NULL, NULL, NULL, diag));
    ALONE(a[1], one, pvsize_year_size(energy, NULL, &one, NULL, NULL, diag));
    ALONE(a[2], one, pvsize_year_size(energy, NULL, NULL, &one, NULL, diag));
    ALONE(a[3], one, pvsize_year_size(energy, NULL, NULL, NULL, &one, diag));
    OK(pvsize_year_subject(energy, PVSIZE_KIND_ARRAY, 0, &array, diag));
    OK(pvsize_year_irradiation(energy, array, 0, &x[0], &x[1], diag));
    ALONE(x[0], y, pvsize_year_irradiation(energy, array, 0, &y, NULL, diag));
    ALONE(x[1], y, pvsize_year_irradiation(energy, array, 0, NULL, &y, diag));
    OK(pvsize_year_yield(energy, array, &x[0], &x[1], diag));
    ALONE(x[0], y, pvsize_year_yield(energy, array, &y, NULL, diag));
    ALONE(x[1], y, pvsize_year_yield(energy, array, NULL, &y, diag));
    OK(pvsize_year_assumption(energy, 0, &a[0], &a[1], &x[0], diag));
    ALONE(a[0], one, pvsize_year_assumption(energy, 0, &one, NULL, NULL, diag));
    ALONE(a[1], one, pvsize_year_assumption(energy, 0, NULL, &one, NULL, diag));
    ALONE(x[0], y, pvsize_year_assumption(energy, 0, NULL, NULL, &y, diag));
    /* the year of nothing, of no subject, of no place in the list */
    OK(pvsize_year_subject(energy, PVSIZE_KIND_INVERTER, 0, &inverter, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "year", pvsize_year_power(NULL, inverter, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_subject(energy, PVSIZE_KIND_QUANTITY, 0, &one, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_subject(energy, PVSIZE_KIND_ARRAY, -1, &one, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_assumption(energy, -1, &one, NULL, NULL, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "month",
          pvsize_year_energy(energy, inverter, -1, PVSIZE_ENERGY_OUTPUT, &y, diag));
    NEEDS("year", pvsize_year_loss(NULL, inverter, 0, PVSIZE_LOSS_GLASS, &y, diag));
    NEEDS("year", pvsize_year_active(NULL, inverter, PVSIZE_LOSS_AC_RATING, &y, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "loss", pvsize_year_active(energy, inverter, 99, &y, diag));
    NEEDS("hours", pvsize_year_active(energy, inverter, PVSIZE_LOSS_AC_RATING, NULL, diag));
    NEEDS("year", pvsize_year_irradiation(NULL, array, 0, &y, NULL, diag));
    OK(pvsize_year_assumption_count(energy, &a[0], diag));
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_year_assumption(energy, a[0], &one, NULL, NULL, diag));
    OK(pvsize_year_power(energy, inverter, 0, NULL, 0, &rows, diag)); /* how many there are */
    OK(pvsize_year_size(energy, &one, NULL, NULL, NULL, diag));
    ck_assert_uint_eq(rows, (size_t)one);
    NEEDS("weather", pvsize_weather_origin(NULL, 0, PVSIZE_INTERVAL_TEMP, &one, diag));
    NEEDS("weather", pvsize_weather_on_plane(NULL, 20, 0, 0, NULL, 0, &rows, diag));
    objects_free(&o);
}
END_TEST

START_TEST(results_of_the_class_and_the_roof_may_be_left_out)
{
    objects o = job();
    int32_t a[4], one, n;
    double x[4], y;

    OK(pvsize_exercise_origin(o.exercise, &a[0], &a[1], diag));
    ALONE(a[0], one, pvsize_exercise_origin(o.exercise, &one, NULL, diag));
    ALONE(a[1], one, pvsize_exercise_origin(o.exercise, NULL, &one, diag));
    OK(pvsize_exercise_question(o.exercise, 0, &a[0], &a[1], &a[2], diag));
    ALONE(a[0], one, pvsize_exercise_question(o.exercise, 0, &one, NULL, NULL, diag));
    ALONE(a[1], one, pvsize_exercise_question(o.exercise, 0, NULL, &one, NULL, diag));
    ALONE(a[2], one, pvsize_exercise_question(o.exercise, 0, NULL, NULL, &one, diag));
    OK(pvsize_exercise_answer(o.exercise, 0, &x[0], &x[1], diag));
    ALONE(x[0], y, pvsize_exercise_answer(o.exercise, 0, &y, NULL, diag));
    ALONE(x[1], y, pvsize_exercise_answer(o.exercise, 0, NULL, &y, diag));
    OK(pvsize_exercise_mistake(o.exercise, 0, 0, &a[0], &x[0], diag));
    ALONE(a[0], one, pvsize_exercise_mistake(o.exercise, 0, 0, &one, NULL, diag));
    ALONE(x[0], y, pvsize_exercise_mistake(o.exercise, 0, 0, NULL, &y, diag));
    OK(pvsize_curve_assumption_count(o.curve, &n, diag));
    ck_assert_int_gt(n, 0);
    OK(pvsize_curve_assumption(o.curve, 0, &a[0], &x[0], diag));
    ALONE(a[0], one, pvsize_curve_assumption(o.curve, 0, &one, NULL, diag));
    ALONE(x[0], y, pvsize_curve_assumption(o.curve, 0, NULL, &y, diag));
    objects_free(&o);
}
END_TEST

/* Own rules: a title, a severity that can be changed, and no more than there is room for. */
START_TEST(own_rules_have_an_end)
{
    pvsize_rules *rules = preset(NULL);
    int32_t first = 0, severity = 0, added = 0;
    pvsize_status status = PVSIZE_OK;
    char name[20];

    NEEDS("title",
          pvsize_rules_add(rules, "own", NULL, PVSIZE_QUANTITY_SYSTEM_MODULES,
                           PVSIZE_COMPARE_AT_MOST, 0, 5, PVSIZE_SEVERITY_NOTE, NULL, NULL, diag));
    for (; status == PVSIZE_OK && added < 100000; added += status == PVSIZE_OK) {
        snprintf(name, sizeof name, "own_%d", (int)added);
        status = pvsize_rules_add(rules, name, "Own", PVSIZE_QUANTITY_SYSTEM_MODULES,
                                  PVSIZE_COMPARE_AT_MOST, 0, 5, PVSIZE_SEVERITY_NOTE, NULL,
                                  added ? NULL : &first, diag);
    }
    ck_assert_int_eq(status, PVSIZE_E_TOO_MANY);
    ck_assert_int_eq(pvsize_rules_count(rules), pvsize_term_count(PVSIZE_KIND_RULE) + added);
    OK(pvsize_rules_set_severity(rules, first, PVSIZE_SEVERITY_MUST, diag));
    OK(pvsize_rules_get_severity(rules, first, &severity, diag));
    ck_assert_int_eq(severity, PVSIZE_SEVERITY_MUST);
    pvsize_rules_free(rules);
}
END_TEST

/* What is no diag says so itself, having none. */
START_TEST(a_diag_that_is_none)
{
    pvsize_spec *spec = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_diag *wrong = (void *)spec;
    double value;
    size_t length;

    ck_assert_int_eq(pvsize_diag_status(wrong), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_clear(wrong), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_value(wrong, &value), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_range(wrong, &value, &value), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_text(wrong, NULL, 0, &length), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_reason(wrong, NULL, 0, &length), PVSIZE_E_BAD_HANDLE);
    pvsize_spec_free(spec);
}
END_TEST

/* One half of the memory hooks is none. */
START_TEST(half_an_allocator_is_refused)
{
    counter c = {0, 0, -1};
    pvsize_allocator only_takes = {counted, NULL, &c}, only_gives = {NULL, released, &c};
    pvsize_spec *spec = NULL;

    NEEDS("memory->release", pvsize_spec_new(PVSIZE_KIND_SITE, &only_takes, &spec, diag));
    NEEDS("memory->allocate", pvsize_spec_new(PVSIZE_KIND_SITE, &only_gives, &spec, diag));
    ck_assert_ptr_null(spec);
    ck_assert_int_eq(c.made, 0);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "makers", makers_need_a_place);
    add_test(suite, "counts", counts_need_a_place);
    add_test(suite, "values", values_need_a_place);
    add_test(suite, "handles", other_handles_are_named);
    add_test(suite, "rows", rows_need_a_place);
    add_test(suite, "weather", results_of_weather_may_be_left_out);
    add_test(suite, "year", results_of_a_year_may_be_left_out);
    add_test(suite, "class", results_of_the_class_and_the_roof_may_be_left_out);
    add_test(suite, "own rules", own_rules_have_an_end);
    add_test(suite, "no diag", a_diag_that_is_none);
    add_test(suite, "allocator", half_an_allocator_is_refused);
}

int main(void)
{
    return run_cases("outputs", add);
}
