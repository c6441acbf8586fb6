/* What is promised of every call: no surprise from strange numbers, from rounding modes, from
 * order and repetition, from memory that fails. The jobs are invented by tests/trust. */
#include <fenv.h>
#include <float.h>

#include "../support/pv_test.h"
#include "invent.h"
#include "tell.h"

static const double strange[] = {
    NAN,      INFINITY,    -INFINITY,   -0.0,         4.9e-324,    -4.9e-324, DBL_MIN, DBL_MAX,
    -DBL_MAX, 2147483647., 2147483648., -2147483649., 4294967296., 9.3e18,    1e300,   0.5};
static const int32_t places[] = {INT32_MIN, -1, 1000000, INT32_MAX};

static char *state_of(const pvsize_spec *spec, int32_t term)
{
    static char text[80];
    int32_t state = 0;
    double value = 0;

    OK(pvsize_spec_state(spec, term, &state, diag));
    pvsize_spec_get_number(spec, term, &value, NULL);
    snprintf(text, sizeof text, "%d %.17g", (int)state, value);
    return text;
}

/* Kept as given, or refused by name and nothing changed. */
START_TEST(strange_numbers_are_kept_or_refused)
{
    for (int32_t k = 0; k < pvsize_kind_count(); k++) {
        int32_t kind = pvsize_kind_at(k);
        pvsize_spec *spec;

        if (!pvsize_kind_is_spec(kind))
            continue;
        OK(pvsize_spec_new(kind, NULL, &spec, diag));
        for (int32_t i = 0; i < pvsize_term_count(kind); i++)
            for (size_t n = 0; n < sizeof strange / sizeof *strange; n++) {
                int32_t term = pvsize_term_at(kind, i);
                char before[80];
                double value = NAN;
                pvsize_status status;

                strcpy(before, state_of(spec, term));
                status = pvsize_spec_set_number(spec, term, strange[n], diag);
                if (status == PVSIZE_OK) {
                    OK(pvsize_spec_get_number(spec, term, &value, diag));
                    ck_assert(value == strange[n] && isfinite(value) &&
                              (value != 0 || !signbit(value)));
                    continue;
                }
                ck_assert_int_eq(pvsize_diag_term(diag), term);
                ck_assert_str_eq(before, state_of(spec, term));
                pvsize_diag_clear(diag);
            }
        pvsize_spec_free(spec);
    }
}
END_TEST

START_TEST(places_outside_a_list_are_refused)
{
    draw d = draw_from_seed(1);
    uint64_t sums[PARTS];
    objects o;
    int32_t n;
    double v;

    objects_make(&o, &d, NULL, sums);
    for (size_t k = 0; k < sizeof places / sizeof *places; k++) {
        int32_t i = places[k];

        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_report_finding(o.report, i, &n, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_report_numbers(o.report, i, &v, &v, &v, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_report_subject(o.report, i, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_report_assumption(o.report, i, &n, &v, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_comparison_difference(o.reports, i, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_bill_row(o.bill, i, &n, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_bill_share(o.bill, 0, i, &n, &v, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_judgement_row(o.judgement, i, &n, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_review_bound(o.review, i, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_review_module(o.review, i, &n, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_review_remark(o.review, i, &n, &n, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_layouts_array_count(o.layouts, i, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_ranking_pair(o.ranking, i, &n, &n, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_exercise_answer(o.exercise, i, &v, &v, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_curve_assumption(o.curve, i, &n, &v, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "",
              pvsize_weather_value(o.series, i, PVSIZE_INTERVAL_TEMP, &v, diag));
        FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_spec_remove(o.system, PVSIZE_KIND_ARRAY, i, diag));
    }
    objects_free(&o);
}
END_TEST

/* Texts of any length: 200 bytes are kept, one more is refused, and a megabyte too. */
START_TEST(long_texts_are_refused)
{
    enum { MEGABYTE = 1 << 20 };
    pvsize_spec *module = invented_module();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    char *text = malloc(MEGABYTE + 1), back[201];

    memset(text, 'x', MEGABYTE);
    text[MEGABYTE] = 0;
    FAILS(PVSIZE_E_TOO_LONG, "name", pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, text, diag));
    FAILS(PVSIZE_E_TOO_LONG, "", pvsize_rules_set_title(rules, text, diag));
    FAILS(PVSIZE_E_TOO_LONG, "",
          pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.3, text, diag));
    FAILS(PVSIZE_E_BAD_NAME, "",
          pvsize_rules_add(rules, text, "own", PVSIZE_QUANTITY_SYSTEM_MODULES,
                           PVSIZE_COMPARE_AT_MOST, 0, 5, PVSIZE_SEVERITY_NOTE, NULL, NULL, diag));
    FAILS(PVSIZE_E_UNKNOWN_NAME, "", pvsize_rules_new(text, NULL, &(pvsize_rules *){NULL}, diag));
    ck_assert_int_eq(pvsize_term_by_name(PVSIZE_KIND_MODULE, text), 0);
    FAILS(PVSIZE_E_UNKNOWN_NAME,
          "module: ", pvsize_term_find(PVSIZE_KIND_MODULE, text, &(int32_t){0}, diag));
    text[201] = 0;
    FAILS(PVSIZE_E_TOO_LONG, "name", pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, text, diag));
    text[200] = 0;
    OK(pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, text, diag));
    OK(pvsize_spec_get_text(module, PVSIZE_MODULE_NAME, back, sizeof back, NULL, diag));
    ck_assert_str_eq(back, text);
    free(text);
    pvsize_spec_free(module);
    pvsize_rules_free(rules);
}
END_TEST

/* 10000 x 10000 modules on each of two arrays: more than fit 31 bits as modules per million. */
START_TEST(the_largest_counts_do_not_overflow)
{
    pvsize_spec *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    pvsize_bill *bill;
    int32_t rows, subject;
    double value, quantity;

    for (int32_t i = 0; i < 2; i++) {
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_MODULES_PER_STRING, 10000, diag));
        OK(pvsize_spec_set_part_number(system, i, PVSIZE_ARRAY_STRINGS, 10000, diag));
    }
    for (int32_t i = 0; i < 30; i++)
        give(system, invented_array(0, 0, 10000, 10000));
    report = checked(system, rules);
    OK(pvsize_report_find(report, PVSIZE_KIND_SYSTEM, 0, -1, &subject, diag));
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_MODULES, subject, &value, diag));
    ck_assert(value == 32e8);
    OK(pvsize_bill_new(NULL, &bill, diag));
    OK(pvsize_bill_fill(system, rules, bill, diag));
    OK(pvsize_bill_count(bill, &rows, diag));
    for (int32_t i = 0; i < rows; i++)
        if (pvsize_bill_quantity(bill, i, NULL, &quantity, NULL, NULL) == PVSIZE_OK)
            ck_assert(quantity >= 0 && isfinite(quantity));
    pvsize_bill_free(bill);
    pvsize_report_free(report);
    pvsize_spec_free(system);
    pvsize_rules_free(rules);
}
END_TEST

static char *page_of(const pvsize_spec *system, const pvsize_rules *rules)
{
    pvsize_report *report = checked(system, rules);
    char *page = rendered(report, PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_LONG);

    pvsize_report_free(report);
    return page;
}

static void same_page(const char *page, const pvsize_spec *system, const pvsize_rules *rules)
{
    char *other = page_of(system, rules);

    ck_assert_str_eq(page, other);
    free(other);
}

/* Sets every number of a spec to what it is. */
static void set_again(pvsize_spec *spec)
{
    int32_t kind = pvsize_spec_kind(spec), state;
    double value;

    for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
        int32_t term = pvsize_term_at(kind, i);

        OK(pvsize_spec_state(spec, term, &state, diag));
        if (state != PVSIZE_STATE_SET || pvsize_term_type(term) == PVSIZE_TYPE_TEXT)
            continue;
        OK(pvsize_spec_get_number(spec, term, &value, diag));
        OK(pvsize_spec_unset(spec, term, diag));
        OK(pvsize_spec_set_number(spec, term, value, diag));
        OK(pvsize_spec_set_number(spec, term, value, diag));
    }
}

START_TEST(setting_again_and_copying_change_nothing)
{
    pvsize_spec *system = invented_system(), *copy, *part;
    pvsize_rules *rules = preset("asnzs_5033_2021"), *twin;
    char *page = page_of(system, rules);
    double factor;

    for (int32_t i = 0; i < 2; i++) {
        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, i, NULL, &part, diag));
        set_again(part);
        OK(pvsize_spec_replace(system, i, part, diag));
        OK(pvsize_spec_replace(system, i, part, diag));
        pvsize_spec_free(part);
    }
    set_again(system);
    same_page(page, system, rules);
    OK(pvsize_spec_clone(system, NULL, &copy, diag));
    OK(pvsize_rules_clone(rules, NULL, &twin, diag));
    pvsize_spec_free(system);
    same_page(page, copy, twin);
    /* an array taken out and put back at the end of its list */
    OK(pvsize_spec_part(copy, PVSIZE_KIND_ARRAY, 1, NULL, &part, diag));
    OK(pvsize_spec_remove(copy, PVSIZE_KIND_ARRAY, 1, diag));
    OK(pvsize_spec_add(copy, part, NULL, diag));
    pvsize_spec_free(part);
    same_page(page, copy, rules);
    /* a figure set to another value is another rule set; its source differs when set back */
    OK(pvsize_rules_get_figure(twin, PVSIZE_FIGURE_ISC_FACTOR, &factor, diag));
    OK(pvsize_rules_set_figure(twin, PVSIZE_FIGURE_ISC_FACTOR, factor * 2, NULL, diag));
    same_page(page, copy, rules);
    free(page);
    pvsize_spec_free(copy);
    pvsize_rules_free(rules);
    pvsize_rules_free(twin);
}
END_TEST

static bool is_voltage(int32_t term)
{
    static const char *const units[] = {"V", "V/K", "W", "VA"};

    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strcmp(pvsize_term_unit(term), units[i]) == 0)
            return true;
    return false;
}

/* Halves all voltages and powers of a spec, and those of its parts. */
static pvsize_spec *halved(const pvsize_spec *spec)
{
    int32_t kind = pvsize_spec_kind(spec), count;
    pvsize_spec *copy, *part, *half;
    double value;

    OK(pvsize_spec_clone(spec, NULL, &copy, diag));
    for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
        int32_t term = pvsize_term_at(kind, i);

        if (is_voltage(term) && pvsize_spec_get_number(spec, term, &value, NULL) == PVSIZE_OK)
            OK(pvsize_spec_set_number(copy, term, value / 2, diag));
    }
    for (int32_t i = 0; i < pvsize_kind_part_count(kind); i++) {
        int32_t sort = pvsize_kind_part_at(kind, i);

        OK(pvsize_spec_part_count(spec, sort, &count, diag));
        for (int32_t k = 0; k < count; k++) {
            OK(pvsize_spec_part(spec, sort, k, NULL, &part, diag));
            half = halved(part);
            OK(pvsize_spec_replace(copy, k, half, diag));
            pvsize_spec_free(half);
            pvsize_spec_free(part);
        }
    }
    return copy;
}

static void same_but_for_scale(const pvsize_report *whole, const pvsize_report *half)
{
    int32_t count, count2, rule, term, verdict, verdict2;
    double value, limit, value2, limit2;

    OK(pvsize_report_count(whole, 0, 0, &count, diag));
    OK(pvsize_report_count(half, 0, 0, &count2, diag));
    ck_assert_int_eq(count, count2);
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_report_finding(whole, i, &rule, NULL, &verdict, NULL, diag));
        OK(pvsize_report_finding(half, i, NULL, NULL, &verdict2, NULL, diag));
        ck_assert_msg(verdict == verdict2, "%s", pvsize_term_name(rule));
        if (pvsize_report_numbers(whole, i, &value, &limit, NULL, NULL))
            continue;
        OK(pvsize_report_numbers(half, i, &value2, &limit2, NULL, diag));
        term = pvsize_term_rule_value(rule);
        ck_assert_msg(value2 == (is_voltage(term) ? value / 2 : value) &&
                          limit2 == (is_voltage(term) ? limit / 2 : limit),
                      "%s: %.17g of %.17g, %.17g of %.17g", pvsize_term_name(rule), value2, value,
                      limit2, limit);
    }
}

/* No law here knows a volt: with all voltages and powers halved, those of the rule set too, each
 * verdict is the same, and each number the same or its half, to the last bit. */
START_TEST(another_scale_changes_no_verdict)
{
    pvsize_rules *rules = preset("asnzs_5033_2021"), *half_rules;
    double value;

    OK(pvsize_rules_clone(rules, NULL, &half_rules, diag));
    for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_FIGURE); i++) {
        int32_t figure = pvsize_term_at(PVSIZE_KIND_FIGURE, i);

        if (is_voltage(figure) && pvsize_rules_get_figure(rules, figure, &value, NULL) == PVSIZE_OK)
            OK(pvsize_rules_set_figure(half_rules, figure, value / 2, NULL, diag));
    }
    for (int32_t seed = 0; seed < 60; seed++) {
        pvsize_exercise *exercise;
        pvsize_spec *system, *half;
        pvsize_report *report, *half_report;

        OK(pvsize_exercise_new(1 + seed % 4, seed, NULL, NULL, &exercise, diag));
        OK(pvsize_exercise_system(exercise, NULL, &system, diag));
        half = halved(system);
        report = checked(system, rules);
        half_report = checked(half, half_rules);
        same_but_for_scale(report, half_report);
        pvsize_report_free(half_report);
        pvsize_report_free(report);
        pvsize_spec_free(half);
        pvsize_spec_free(system);
        pvsize_exercise_free(exercise);
    }
    pvsize_rules_free(half_rules);
    pvsize_rules_free(rules);
}
END_TEST

/* Whatever the rounding mode: same verdicts, numbers within rounding, the mode as it was. */
START_TEST(rounding_modes_change_no_verdict)
{
    static const int modes[] = {FE_UPWARD, FE_DOWNWARD, FE_TOWARDZERO};
    pvsize_rules *rules = preset("asnzs_5033_2021");

    for (int32_t seed = 0; seed < 24; seed++) {
        pvsize_exercise *exercise;
        pvsize_spec *system;
        pvsize_report *plain, *other;
        int32_t count, count2;

        OK(pvsize_exercise_new(1 + seed % 4, seed, NULL, NULL, &exercise, diag));
        OK(pvsize_exercise_system(exercise, NULL, &system, diag));
        plain = checked(system, rules);
        OK(pvsize_report_count(plain, 0, 0, &count, diag));
        for (int m = 0; m < 3; m++) {
            fesetround(modes[m]);
            other = checked(system, rules);
            ck_assert_int_eq(fegetround(), modes[m]);
            fesetround(FE_TONEAREST);
            OK(pvsize_report_count(other, 0, 0, &count2, diag));
            ck_assert_int_eq(count, count2);
            for (int32_t i = 0; i < count; i++) {
                int32_t verdict = 0, verdict2 = 0;
                double value = 0, limit = 0, value2 = 0, limit2 = 0;

                OK(pvsize_report_finding(plain, i, NULL, NULL, &verdict, NULL, diag));
                OK(pvsize_report_finding(other, i, NULL, NULL, &verdict2, NULL, diag));
                ck_assert_int_eq(verdict, verdict2);
                if (pvsize_report_numbers(plain, i, &value, &limit, NULL, NULL))
                    continue;
                OK(pvsize_report_numbers(other, i, &value2, &limit2, NULL, diag));
                NEAR(value2, value, 1e-12);
                NEAR(limit2, limit, 1e-12);
            }
            pvsize_report_free(other);
        }
        pvsize_report_free(plain);
        pvsize_spec_free(system);
        pvsize_exercise_free(exercise);
    }
    pvsize_rules_free(rules);
}
END_TEST

/* A model as no module has it, found by fuzzing: the current at maximum power was a negative
 * rounding error. */
START_TEST(no_point_of_a_curve_is_negative)
{
    pvsize_spec *model =
        SPEC(PVSIZE_KIND_DIODE_MODEL, PVSIZE_DIODE_MODEL_LIGHT_CURRENT, 2.176135006318046,
             PVSIZE_DIODE_MODEL_SATURATION_CURRENT, 244138375.2511678,
             PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE, 2.4367377449111172,
             PVSIZE_DIODE_MODEL_SERIES_RESISTANCE, 1000000, PVSIZE_DIODE_MODEL_SHUNT_RESISTANCE,
             0.0001, PVSIZE_DIODE_MODEL_BAND_GAP, 5, PVSIZE_DIODE_MODEL_BAND_GAP_NARROWING, -0.01);
    pvsize_curve *curve;
    double voltage, current;

    OK(pvsize_curve_new(model, NULL, &curve, diag));
    OK(pvsize_curve_mpp(curve, 11.718749653482519, 46.139190813093258, &voltage, &current, diag));
    ck_assert(voltage >= 0 && current >= 0);
    pvsize_curve_free(curve);
    pvsize_spec_free(model);
}
END_TEST

/* Nor of strings in parallel: dark ones beside lit ones, of a diode that is nearly a short
 * circuit. */
START_TEST(no_point_of_parallel_strings_is_negative)
{
    static const double light[] = {1300, 0.010770559313420802, 1300}, cell[] = {90, -40, 90};
    static const int32_t modules[] = {16, 16, 16}, strings[] = {6, 6, 6};
    pvsize_spec *model = SPEC(PVSIZE_KIND_DIODE_MODEL, PVSIZE_DIODE_MODEL_LIGHT_CURRENT, 1e-300,
                              PVSIZE_DIODE_MODEL_SATURATION_CURRENT, 492187559486.41046,
                              PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE, 2.4415062255859379,
                              PVSIZE_DIODE_MODEL_SERIES_RESISTANCE, 13.749375060360617);
    const pvsize_curve *curves[3];
    pvsize_curve *curve;
    double voltage, current;

    OK(pvsize_curve_new(model, NULL, &curve, diag));
    curves[0] = curves[1] = curves[2] = curve;
    for (int32_t blocked = 0; blocked < 2; blocked++) {
        OK(pvsize_parallel_mpp(curves, light, cell, modules, strings, 3, blocked, &voltage,
                               &current, diag));
        ck_assert(voltage >= 0 && current >= 0);
    }
    pvsize_curve_free(curve);
    pvsize_spec_free(model);
}
END_TEST

/* Found by fuzzing: a model whose current is beyond what a double holds, single and in parallel. */
START_TEST(no_current_is_infinite)
{
    pvsize_spec *model =
        SPEC(PVSIZE_KIND_DIODE_MODEL, PVSIZE_DIODE_MODEL_LIGHT_CURRENT, 74.695684142281692,
             PVSIZE_DIODE_MODEL_SATURATION_CURRENT, 112140680922.22806,
             PVSIZE_DIODE_MODEL_IDEALITY_VOLTAGE, 0.0001, PVSIZE_DIODE_MODEL_SERIES_RESISTANCE, 0,
             PVSIZE_DIODE_MODEL_BAND_GAP, 5, PVSIZE_DIODE_MODEL_BAND_GAP_NARROWING, -0.01);
    const double light = 1000, cell = 150;
    const int32_t one = 1;
    pvsize_curve *curve;
    const pvsize_curve *curves;
    double current = 7;

    OK(pvsize_curve_new(model, NULL, &curve, diag));
    curves = curve;
    FAILS(PVSIZE_E_NO_CURVE, "voltage",
          pvsize_curve_current(curve, light, cell, 200, &current, diag));
    FAILS(PVSIZE_E_NO_CURVE, "voltage",
          pvsize_parallel_current(&curves, &light, &cell, &one, &one, 1, 0, 200, &current, diag));
    ck_assert(current == 7);
    pvsize_curve_free(curve);
    pvsize_spec_free(model);
}
END_TEST

/* Everything that can be asked, of nothing. */
START_TEST(null_is_refused)
{
    static const objects none;
    uint64_t sums[PARTS] = {0};

    objects_tell(&none, sums);
}
END_TEST

/* The same, of objects that nothing was put into. */
START_TEST(empty_objects_answer_or_refuse)
{
    objects o = {.system = SPEC(PVSIZE_KIND_SYSTEM, 0),
                 .site = SPEC(PVSIZE_KIND_SITE, 0),
                 .inverter = SPEC(PVSIZE_KIND_INVERTER, 0),
                 .enquiry = SPEC(PVSIZE_KIND_ENQUIRY, 0),
                 .search = SPEC(PVSIZE_KIND_SEARCH, 0),
                 .place = SPEC(PVSIZE_KIND_SITE, 0),
                 .module = SPEC(PVSIZE_KIND_MODULE, 0),
                 .rules = preset(NULL),
                 .other_rules = preset(NULL)};
    uint64_t sums[PARTS] = {0};

    OK(pvsize_report_new(NULL, &o.report, diag));
    OK(pvsize_comparison_new(NULL, &o.reports, diag));
    OK(pvsize_bill_new(NULL, &o.bill, diag));
    OK(pvsize_judgement_new(NULL, &o.judgement, diag));
    OK(pvsize_review_new(NULL, &o.review, diag));
    OK(pvsize_layouts_new(NULL, &o.layouts, diag));
    OK(pvsize_year_new(NULL, &o.energy, diag));
    objects_tell(&o, sums);
    objects_free(&o);
}
END_TEST

/* The same, of handles that are none of the sort that is asked for. */
START_TEST(handles_of_another_type_are_refused)
{
    enum { SLOTS = sizeof(objects) / sizeof(void *) };
    pvsize_spec *spec = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    uint64_t sums[PARTS] = {0};
    void *slots[SLOTS];
    objects o;

    for (int i = 0; i < SLOTS; i++)
        slots[i] = spec;
    memcpy(&o, slots, sizeof o);
    o.system = o.site = o.inverter = o.enquiry = o.search = o.place = o.module = (void *)rules;
    objects_tell(&o, sums);
    FAILS(PVSIZE_E_BAD_HANDLE, "", pvsize_check(o.system, rules, o.report, diag));
    pvsize_spec_free(spec);
    pvsize_rules_free(rules);
}
END_TEST

/* One job, every sort of object, every allocation: it fails, all comes back, and what could
 * be made still answers. */
START_TEST(every_allocation_of_every_object_fails_once)
{
    long n, tried = 0;

    for (n = 0;; n++) {
        counter c = {0, 0, n};
        pvsize_allocator memory = {counted, released, &c};
        draw d = draw_from_seed(5);
        uint64_t sums[PARTS] = {0};
        objects o;

        objects_make(&o, &d, &memory, sums);
        objects_free(&o);
        ck_assert_msg(c.live == 0, "%ld blocks left after failing allocation %ld", c.live, n);
        if (c.made <= n)
            break;
        tried++;
    }
    ck_assert_int_gt(tried, 150);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "strange numbers", strange_numbers_are_kept_or_refused);
    add_test(suite, "places", places_outside_a_list_are_refused);
    add_test(suite, "long texts", long_texts_are_refused);
    add_test(suite, "largest counts", the_largest_counts_do_not_overflow);
    add_test(suite, "again", setting_again_and_copying_change_nothing);
    add_test(suite, "scale", another_scale_changes_no_verdict);
    add_test(suite, "rounding modes", rounding_modes_change_no_verdict);
    add_test(suite, "no negative point", no_point_of_a_curve_is_negative);
    add_test(suite, "no negative point of strings", no_point_of_parallel_strings_is_negative);
    add_test(suite, "no infinite current", no_current_is_infinite);
    add_test(suite, "null", null_is_refused);
    add_test(suite, "empty", empty_objects_answer_or_refuse);
    add_test(suite, "other handles", handles_of_another_type_are_refused);
    add_test(suite, "every allocation", every_allocation_of_every_object_fails_once);
}

int main(void)
{
    return run_cases("promises", add);
}
