/* See tell.h. */
#include "tell.h"

#include "invent.h"
#include "sum.h"
#include "tell_year.h"

const char *const part_names[PARTS] = {"tables",     "specs", "rules",     "report", "text",
                                       "comparison", "bill",  "judgement", "review", "layouts",
                                       "exercise",   "curve", "weather",   "sun",    "year"};

static void tell_spec(sum *s, const pvsize_spec *spec, int depth)
{
    int32_t kind = pvsize_spec_kind(spec);

    put_int(s, kind);
    for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
        int32_t term = pvsize_term_at(kind, i), state = 0;
        double value = 0;

        went(s, pvsize_spec_state(spec, term, &state, s->diag));
        put_int(s, state);
        if (state == PVSIZE_STATE_UNSET || state == PVSIZE_STATE_NONE)
            continue;
        if (pvsize_term_type(term) == PVSIZE_TYPE_TEXT) {
            TEXT(s, pvsize_spec_get_text, spec, term);
        } else {
            went(s, pvsize_spec_get_number(spec, term, &value, s->diag));
            put_double(s, value);
        }
    }
    for (int32_t i = 0; depth < 5 && i < pvsize_kind_part_count(kind); i++) {
        int32_t part = pvsize_kind_part_at(kind, i);
        COUNT_OF(s, count, pvsize_spec_part_count, spec, part);

        for (int32_t k = 0; k < count; k++) {
            pvsize_spec *one = NULL;

            if (went(s, pvsize_spec_part(spec, part, k, NULL, &one, s->diag)))
                tell_spec(s, one, depth + 1);
            pvsize_spec_free(one);
        }
    }
}

static void tell_rules(sum *s, const pvsize_rules *rules)
{
    TEXT(s, pvsize_rules_get_title, rules);
    for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_FIGURE); i++) {
        int32_t figure = pvsize_term_at(PVSIZE_KIND_FIGURE, i), known = 0;
        double value = 0;

        if (!went(s, pvsize_rules_get_figure(rules, figure, &value, s->diag)))
            continue;
        put_double(s, value);
        TEXT(s, pvsize_rules_source, rules, figure);
        went(s, pvsize_rules_known(rules, figure, &known, s->diag));
        put_int(s, known);
    }
    for (int32_t i = 0; i < pvsize_rules_count(rules); i++) {
        int32_t rule = pvsize_rules_at(rules, i), severity = 0, value = 0, side = 0, limit = 0;
        double number = 0;

        went(s, pvsize_rules_get_severity(rules, rule, &severity, s->diag));
        went(s, pvsize_rules_definition(rules, rule, &value, &side, &limit, &number, s->diag));
        INTS(s, severity, value, side, limit);
        put_double(s, number);
        TEXT(s, pvsize_rules_rule_name, rules, rule);
        TEXT(s, pvsize_rules_rule_title, rules, rule);
    }
    put_int(s, pvsize_rules_by_name(rules, "own"));
}

static void tell_subjects(sum *s, const pvsize_report *report)
{
    COUNT_OF(s, subjects, pvsize_report_subject_count, report);

    for (int32_t i = 0; i < subjects; i++) {
        int32_t kind = 0, index = 0, owner = 0, found = 0;

        went(s, pvsize_report_subject(report, i, &kind, &index, &owner, s->diag));
        went(s, pvsize_report_find(report, kind, index, owner, &found, s->diag));
        INTS(s, kind, index, owner, found);
        TEXT(s, pvsize_report_subject_text, report, i);
        for (int32_t k = 0; k < pvsize_term_count(PVSIZE_KIND_QUANTITY); k++) {
            double value = 0;

            went(s, pvsize_report_quantity(report, pvsize_term_at(PVSIZE_KIND_QUANTITY, k), i,
                                           &value, s->diag));
            put_double(s, value);
        }
    }
}

static void tell_report(sum *s, const pvsize_report *report)
{
    COUNT_OF(s, outcome, pvsize_report_outcome, report);
    COUNT_OF(s, count, pvsize_report_count, report, 0, 0);

    tell_subjects(s, report);
    for (int32_t i = 0; i < count; i++) {
        int32_t rule = 0, severity = 0, verdict = 0, subject = 0, governs = 0, missing = 0;
        double value = 0, limit = 0, margin = 0;

        went(s, pvsize_report_finding(report, i, &rule, &severity, &verdict, &subject, s->diag));
        went(s, pvsize_report_numbers(report, i, &value, &limit, &margin, s->diag));
        went(s, pvsize_report_governs(report, i, &governs, s->diag));
        went(s, pvsize_report_missing(report, i, &missing, s->diag));
        INTS(s, rule, severity, verdict, subject, governs, missing);
        DOUBLES(s, value, limit, margin);
    }
}

static void tell_report_text(sum *s, const pvsize_report *report)
{
    int32_t count = 0, subjects = 0;

    for (int32_t format = PVSIZE_FORMAT_PLAIN; format <= PVSIZE_FORMAT_MARKDOWN; format++) {
        int32_t last = pvsize_term_at(PVSIZE_KIND_QUANTITY, 20);

        for (int32_t detail = 0; detail <= PVSIZE_DETAIL_LONG; detail++)
            TEXT(s, pvsize_report_render, report, format, detail);
        TEXT(s, pvsize_report_working, report, last, 0, format, PVSIZE_DETAIL_LONG);
    }
    pvsize_report_count(report, 0, 0, &count, NULL);
    for (int32_t i = 0; i < count; i++)
        TEXT(s, pvsize_report_text, report, i, 1 + i % pvsize_set_count(PVSIZE_SET_TEXT));
    pvsize_report_subject_count(report, &subjects, NULL);
    for (int32_t i = 0; i < subjects; i++)
        TEXT(s, pvsize_report_working, report,
             pvsize_term_at(PVSIZE_KIND_QUANTITY, i * 7 % pvsize_term_count(PVSIZE_KIND_QUANTITY)),
             i, PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_SHORT);
    pvsize_report_assumption_count(report, &count, NULL);
    for (int32_t i = 0; i < count; i++) {
        int32_t term = 0;
        double value = 0;

        went(s, pvsize_report_assumption(report, i, &term, &value, s->diag));
        put_int(s, term);
        put_double(s, value);
        TEXT(s, pvsize_report_assumption_text, report, i);
    }
}

static void tell_comparison(sum *s, const pvsize_comparison *comparison)
{
    COUNT_OF(s, count, pvsize_comparison_count, comparison);

    for (int32_t i = 0; i < count; i++) {
        int32_t what = 0, subject = 0, figure = 0;

        went(s, pvsize_comparison_difference(comparison, i, &what, &subject, s->diag));
        INTS(s, what, subject);
        for (int32_t side = 0; side < 2; side++) {
            int32_t term = 0, finding = 0;
            double value = 0;

            went(s, pvsize_comparison_side(comparison, i, side, &term, &finding, s->diag));
            INTS(s, term, finding);
            for (int32_t bit = 1; bit <= PVSIZE_DIFFERS_SOURCE; bit *= 2) {
                went(s, pvsize_comparison_number(comparison, i, side, bit, &value, s->diag));
                put_double(s, value);
            }
        }
        for (int32_t k = 0; went(s, pvsize_comparison_figure(comparison, i, k, &figure, s->diag));
             k++)
            put_int(s, figure);
        TEXT(s, pvsize_comparison_text, comparison, i);
    }
}

static void tell_bill_row(sum *s, const pvsize_bill *bill, int32_t i)
{
    int32_t a = 0, b = 0, shares = 0, attributes = 0;
    double installed = 0, quantity = 0;

    ROW(s, 4, pvsize_bill_row, bill, i);
    went(s, pvsize_bill_quantity(bill, i, &installed, &quantity, &a, s->diag));
    DOUBLES(s, installed, quantity);
    put_int(s, a);
    went(s, pvsize_bill_attribute_count(bill, i, &attributes, s->diag));
    for (int32_t k = 0; k < attributes; k++) {
        went(s, pvsize_bill_attribute(bill, i, k, &a, &quantity, &b, s->diag));
        put_int(s, a);
        put_double(s, quantity);
        put_int(s, b);
    }
    went(s, pvsize_bill_share_count(bill, i, &shares, s->diag));
    for (int32_t k = 0; k < shares; k++) {
        went(s, pvsize_bill_share(bill, i, k, &a, &quantity, &b, s->diag));
        put_int(s, a);
        put_double(s, quantity);
        put_int(s, b);
        TEXT(s, pvsize_bill_subject_text, bill, a);
    }
    TEXT(s, pvsize_bill_text, bill, i);
}

static void tell_bill(sum *s, const pvsize_bill *bill)
{
    COUNT_OF(s, outcome, pvsize_bill_outcome, bill);
    COUNT_OF(s, count, pvsize_bill_count, bill);
    COUNT_OF(s, assumptions, pvsize_bill_assumption_count, bill);

    for (int32_t i = 0; i < count; i++)
        tell_bill_row(s, bill, i);
    for (int32_t i = 0; i < assumptions; i++) {
        int32_t term = 0, subject = 0;
        double value = 0;

        went(s, pvsize_bill_assumption(bill, i, &term, &value, &subject, s->diag));
        INTS(s, term, subject);
        put_double(s, value);
        TEXT(s, pvsize_bill_assumption_text, bill, i);
    }
    TEXT(s, pvsize_bill_render, bill, PVSIZE_FORMAT_PLAIN);
    TEXT(s, pvsize_bill_render, bill, PVSIZE_FORMAT_MARKDOWN);
}

static void tell_judgement(sum *s, const pvsize_judgement *judgement)
{
    COUNT_OF(s, count, pvsize_judgement_count, judgement, 0);

    for (int32_t i = 0; i < count; i++) {
        int32_t a = 0, causes = 0;
        double v = 0, w = 0, x = 0, y = 0;

        ROW(s, 4, pvsize_judgement_row, judgement, i);
        went(s, pvsize_judgement_numbers(judgement, i, &v, &w, &x, &y, s->diag));
        DOUBLES(s, v, w, x, y);
        went(s, pvsize_judgement_alike(judgement, i, &v, s->diag));
        put_double(s, v);
        went(s, pvsize_judgement_cause_count(judgement, i, &causes, s->diag));
        for (int32_t k = 0; k < causes; k++) {
            went(s, pvsize_judgement_cause(judgement, i, k, &a, &v, &w, &x, &y, s->diag));
            put_int(s, a);
            DOUBLES(s, v, w, x, y);
        }
        TEXT(s, pvsize_judgement_text, judgement, i);
    }
    TEXT(s, pvsize_judgement_render, judgement, PVSIZE_FORMAT_PLAIN);
    TEXT(s, pvsize_judgement_render, judgement, PVSIZE_FORMAT_MARKDOWN);
}

static void tell_review(sum *s, const pvsize_review *review)
{
    COUNT_OF(s, bounds, pvsize_review_bound_count, review);
    COUNT_OF(s, modules, pvsize_review_module_count, review);
    COUNT_OF(s, remarks, pvsize_review_remark_count, review);
    int32_t a = 0;
    double v = 0, w = 0, x = 0;

    for (int32_t i = 0; i < bounds; i++) {
        ROW(s, 3, pvsize_review_bound, review, i);
        ROW(s, 4, pvsize_review_bound_rule, review, i);
        went(s, pvsize_review_bound_numbers(review, i, &v, &w, s->diag));
        DOUBLES(s, v, w);
        TEXT(s, pvsize_review_bound_text, review, i);
    }
    for (int32_t i = 0; i < modules; i++) {
        ROW(s, 4, pvsize_review_module, review, i);
        for (int32_t what = 0; what <= PVSIZE_ROOM_MODULES_TOTAL; what++) {
            went(s, pvsize_review_module_room(review, i, what, &a, s->diag));
            put_int(s, a);
            went(s, pvsize_review_module_stop(review, i, what, &a, &v, &w, &x, s->diag));
            put_int(s, a);
            DOUBLES(s, v, w, x);
        }
        TEXT(s, pvsize_review_module_text, review, i);
    }
    for (int32_t i = 0; i < remarks; i++) {
        ROW(s, 4, pvsize_review_remark, review, i);
        for (int32_t k = 0; went(s, pvsize_review_remark_number(review, i, k, &v, s->diag)); k++)
            put_double(s, v);
        TEXT(s, pvsize_review_remark_text, review, i);
    }
    TEXT(s, pvsize_review_render, review, PVSIZE_FORMAT_PLAIN);
    TEXT(s, pvsize_review_render, review, PVSIZE_FORMAT_MARKDOWN);
}

static void tell_answer(sum *s, const pvsize_layouts *layouts, int32_t i)
{
    int32_t arrays = 0, n[6] = {0};
    double value = 0;

    for (int32_t what = PVSIZE_LAYOUT_POWER; what <= PVSIZE_LAYOUT_OUTCOME; what++) {
        went(s, pvsize_layouts_number(layouts, i, what, &value, s->diag));
        put_double(s, value);
    }
    went(s, pvsize_layouts_array_count(layouts, i, &arrays, s->diag));
    for (int32_t k = 0; k < arrays; k++) {
        went(s, pvsize_layouts_array(layouts, i, k, &n[0], &n[1], &n[2], &n[3], &n[4], &n[5],
                                     s->diag));
        for (int j = 0; j < 6; j++)
            put_int(s, n[j]);
    }
    TEXT(s, pvsize_layouts_text, layouts, i);
}

static void tell_obstacle(sum *s, const pvsize_layouts *layouts, int32_t i)
{
    int32_t n[9] = {0};
    double v = 0, w = 0, x = 0;

    went(s, pvsize_layouts_obstacle(layouts, i, &n[0], &n[1], &n[2], &n[3], &n[4], &n[5], &n[6],
                                    &n[7], &n[8], s->diag));
    for (int j = 0; j < 9; j++)
        put_int(s, n[j]);
    went(s, pvsize_layouts_obstacle_numbers(layouts, i, &v, &w, &x, s->diag));
    DOUBLES(s, v, w, x);
    TEXT(s, pvsize_layouts_obstacle_text, layouts, i);
}

static void tell_layouts(sum *s, const pvsize_layouts *layouts)
{
    COUNT_OF(s, ending, pvsize_layouts_ending, layouts);
    COUNT_OF(s, complete, pvsize_layouts_complete, layouts);
    COUNT_OF(s, count, pvsize_layouts_count, layouts);
    COUNT_OF(s, obstacles, pvsize_layouts_obstacle_count, layouts);
    double bound = 0, nodes = 0;

    went(s, pvsize_layouts_bound(layouts, &bound, s->diag));
    went(s, pvsize_layouts_nodes(layouts, &nodes, s->diag));
    DOUBLES(s, bound, nodes);
    for (int32_t i = 0; i < count; i++)
        tell_answer(s, layouts, i);
    for (int32_t i = 0; i < obstacles; i++)
        tell_obstacle(s, layouts, i);
    if (count > 0) {
        pvsize_spec *system = NULL;
        pvsize_report *report = NULL;

        if (went(s, pvsize_layouts_system(layouts, 0, NULL, &system, s->diag)))
            tell_spec(s, system, 0);
        pvsize_spec_free(system);
        went(s, pvsize_report_new(NULL, &report, s->diag));
        if (went(s, pvsize_layouts_report(layouts, count - 1, report, s->diag)))
            tell_report(s, report);
        pvsize_report_free(report);
    }
}

static void tell_ranking(sum *s, const pvsize_ranking *ranking)
{
    COUNT_OF(s, count, pvsize_ranking_count, ranking);
    double judged = 0, fitting = 0, unproven = 0;

    went(s, pvsize_ranking_judged(ranking, &judged, &fitting, &unproven, s->diag));
    DOUBLES(s, judged, fitting, unproven);
    for (int32_t i = 0; i < count; i++) {
        int32_t module = 0, inverter = 0;
        double value = 0;

        went(s, pvsize_ranking_pair(ranking, i, &module, &inverter, s->diag));
        went(s, pvsize_ranking_number(ranking, i, PVSIZE_LAYOUT_POWER, &value, s->diag));
        INTS(s, module, inverter);
        put_double(s, value);
    }
}

static void tell_exercise(sum *s, const pvsize_exercise *exercise)
{
    COUNT_OF(s, count, pvsize_exercise_question_count, exercise);
    int32_t a = 0, b = 0;
    double v = 0, w = 0;

    went(s, pvsize_exercise_origin(exercise, &a, &b, s->diag));
    INTS(s, a, b);
    for (int32_t i = 0; i < count; i++) {
        int32_t mistakes = 0, made[8] = {0};
        size_t found = 0;

        ROW(s, 3, pvsize_exercise_question, exercise, i);
        went(s, pvsize_exercise_answer(exercise, i, &v, &w, s->diag));
        DOUBLES(s, v, w);
        for (int32_t what = PVSIZE_ASKED_QUESTION; what <= PVSIZE_ASKED_WORKING; what++)
            TEXT(s, pvsize_exercise_text, exercise, i, what, PVSIZE_FORMAT_PLAIN);
        went(s, pvsize_exercise_mistake_count(exercise, i, &mistakes, s->diag));
        for (int32_t k = 0; k < mistakes; k++) {
            went(s, pvsize_exercise_mistake(exercise, i, k, &a, &w, s->diag));
            put_int(s, a);
            put_double(s, w);
            went(s, pvsize_exercise_mark(exercise, i, w, &b, made, 8, &found, s->diag));
            put_int(s, b);
            put_int(s, made[0]);
        }
    }
    TEXT(s, pvsize_exercise_sheet, exercise, PVSIZE_SHEET_TASK, PVSIZE_FORMAT_PLAIN);
    TEXT(s, pvsize_exercise_sheet, exercise, PVSIZE_SHEET_SOLUTION, PVSIZE_FORMAT_MARKDOWN);
}

enum { CONDITIONS = 24 };

static void conditions(double light[CONDITIONS], double cell[CONDITIONS])
{
    for (int i = 0; i < CONDITIONS; i++) {
        light[i] = i * 53.0;
        cell[i] = -20 + i * 4.5;
    }
}

static void tell_curve_points(sum *s, const pvsize_curve *curve)
{
    double light[CONDITIONS], cell[CONDITIONS], volts[CONDITIONS] = {0}, amps[CONDITIONS] = {0};

    conditions(light, cell);
    went(s, pvsize_curve_mpps(curve, light, cell, CONDITIONS, volts, amps, s->diag));
    for (int i = 0; i < CONDITIONS; i++) {
        double v = 0, a = 0;

        put_double(s, volts[i]);
        put_double(s, amps[i]);
        went(s, pvsize_curve_mpp(curve, light[i], cell[i], &v, &a, s->diag));
        DOUBLES(s, v, a);
        went(s, pvsize_curve_ends(curve, light[i], cell[i], &v, &a, s->diag));
        DOUBLES(s, v, a);
        went(s, pvsize_curve_current(curve, light[i], cell[i], 5.0 * i - 20, &a, s->diag));
        put_double(s, a);
        went(s, pvsize_curve_voltage(curve, light[i], cell[i], 0.7 * i - 2, &v, s->diag));
        put_double(s, v);
    }
    went(s, pvsize_curve_sample(curve, 800, 50, CONDITIONS, volts, amps, s->diag));
    for (int i = 0; i < CONDITIONS; i++) {
        put_double(s, volts[i]);
        put_double(s, amps[i]);
    }
}

static void tell_parallel(sum *s, const pvsize_curve *curve)
{
    const pvsize_curve *curves[3] = {curve, curve, curve};
    static const double light[3] = {1000, 600, 150}, cell[3] = {60, 45, 30};
    static const int32_t modules[3] = {9, 9, 7}, strings[3] = {2, 1, 1};

    for (int32_t blocked = 0; blocked < 2; blocked++) {
        double v = 0, a = 0;

        went(s, pvsize_parallel_mpp(curves, light, cell, modules, strings, 3, blocked, &v, &a,
                                    s->diag));
        DOUBLES(s, v, a);
        went(s, pvsize_parallel_current(curves, light, cell, modules, strings, 3, blocked, 250, &a,
                                        s->diag));
        put_double(s, a);
        went(s, pvsize_parallel_voltage(curves, light, cell, modules, strings, 3, blocked, 20, &v,
                                        s->diag));
        put_double(s, v);
    }
}

static void tell_curve(sum *s, const pvsize_curve *curve)
{
    COUNT_OF(s, assumptions, pvsize_curve_assumption_count, curve);
    pvsize_spec *model = NULL;

    for (int32_t i = 0; i < assumptions; i++) {
        int32_t what = 0;
        double value = 0;

        went(s, pvsize_curve_assumption(curve, i, &what, &value, s->diag));
        put_int(s, what);
        put_double(s, value);
    }
    for (int32_t what = 1; what <= pvsize_set_count(PVSIZE_SET_CURVE_CHECK); what++) {
        double value = 0;

        went(s, pvsize_curve_check(curve, what, &value, s->diag));
        put_double(s, value);
    }
    if (went(s, pvsize_curve_model(curve, 900, 40, NULL, &model, s->diag)))
        tell_spec(s, model, 0);
    pvsize_spec_free(model);
    tell_curve_points(s, curve);
    tell_parallel(s, curve);
}

static void tell_column(sum *s, const pvsize_weather *weather, int32_t term)
{
    size_t rows = 0;
    double *values;

    if (!went(s, pvsize_weather_column(weather, term, -9, NULL, 0, &rows, s->diag)))
        return;
    values = calloc(rows + 1, sizeof *values);
    if (values && went(s, pvsize_weather_column(weather, term, -9, values, rows, &rows, s->diag)))
        for (size_t i = 0; i < rows; i++)
            put_double(s, values[i]);
    if (values &&
        went(s, pvsize_weather_on_plane(weather, 20, 300, -9, values, rows, &rows, s->diag)))
        for (size_t i = 0; i < rows; i++)
            put_double(s, values[i]);
    free(values);
}

static void tell_weather(sum *s, const pvsize_weather *weather)
{
    int32_t rows = 0, step = 0, a = 0, b = 0, c = 0;
    double x = 0, y = 0;

    went(s, pvsize_weather_size(weather, &rows, &step, s->diag));
    INTS(s, rows, step);
    went(s, pvsize_weather_closure(weather, &a, &x, &y, &b, s->diag));
    INTS(s, a, b);
    DOUBLES(s, x, y);
    for (int32_t row = 0; row < rows; row += 1 + rows / 40) {
        went(s, pvsize_weather_time(weather, row, &a, &b, &c, &x, s->diag));
        INTS(s, a, b, c);
        put_double(s, x);
        for (int32_t term = PVSIZE_INTERVAL_GLOBAL; term <= PVSIZE_INTERVAL_WIND; term++) {
            went(s, pvsize_weather_value(weather, row, term, &x, s->diag));
            went(s, pvsize_weather_origin(weather, row, term, &a, s->diag));
            put_double(s, x);
            put_int(s, a);
        }
    }
    for (int32_t term = PVSIZE_INTERVAL_GLOBAL; term <= PVSIZE_INTERVAL_WIND; term++) {
        tell_column(s, weather, term);
        went(s, pvsize_weather_count(weather, term, PVSIZE_ORIGIN_GIVEN, &a, &b, s->diag));
        went(s, pvsize_weather_run(weather, term, PVSIZE_ORIGIN_GIVEN, 0, &b, &c, s->diag));
        INTS(s, a, b, c);
    }
}

/* Calls on objects that another call is filled from: they too take theirs as const. */
static void tell_made(sum *s, const objects *o)
{
    pvsize_report *report = NULL;
    pvsize_spec *copy = NULL;
    pvsize_rules *rules = NULL;

    went(s, pvsize_report_new(NULL, &report, s->diag));
    if (went(s, pvsize_check(o->system, o->rules, report, s->diag)))
        tell_report(s, report);
    pvsize_report_free(report);
    if (went(s, pvsize_spec_clone(o->system, NULL, &copy, s->diag)))
        tell_spec(s, copy, 0);
    pvsize_spec_free(copy);
    if (went(s, pvsize_rules_clone(o->rules, NULL, &rules, s->diag)))
        tell_rules(s, rules);
    pvsize_rules_free(rules);
}

/* The same of searches. */
static void tell_made_search(sum *s, const objects *o)
{
    pvsize_layouts *layouts = NULL;
    pvsize_ranking *ranking = NULL;
    double done = 0;

    went(s, pvsize_layouts_new(NULL, &layouts, s->diag));
    if (went(s, pvsize_search(o->search, o->rules, NULL, layouts, s->diag)))
        tell_layouts(s, layouts);
    pvsize_layouts_free(layouts);
    if (went(s, pvsize_ranking_new(o->search, o->rules, 3, NULL, &ranking, s->diag))) {
        went(s, pvsize_ranking_add_shard(ranking, 0, 1, NULL, &done, s->diag));
        put_double(s, done);
        tell_ranking(s, ranking);
    }
    pvsize_ranking_free(ranking);
}

static void open_sums(sum all[PARTS], uint64_t sums[PARTS])
{
    for (int i = 0; i < PARTS; i++) {
        all[i].value = &sums[i];
        all[i].diag = NULL;
        pvsize_diag_new(NULL, &all[i].diag);
    }
}

static void close_sums(sum all[PARTS])
{
    for (int i = 0; i < PARTS; i++)
        pvsize_diag_free(all[i].diag);
}

void objects_tell(const objects *o, uint64_t sums[PARTS])
{
    sum s[PARTS];

    open_sums(s, sums);
    tell_spec(&s[PART_SPECS], o->system, 0);
    tell_spec(&s[PART_SPECS], o->search, 0);
    tell_spec(&s[PART_SPECS], o->enquiry, 0);
    tell_rules(&s[PART_RULES], o->rules);
    tell_report(&s[PART_REPORT], o->report);
    tell_made(&s[PART_REPORT], o);
    tell_report_text(&s[PART_TEXT], o->report);
    tell_comparison(&s[PART_COMPARISON], o->reports);
    tell_comparison(&s[PART_COMPARISON], o->rule_sets);
    tell_bill(&s[PART_BILL], o->bill);
    tell_judgement(&s[PART_JUDGEMENT], o->judgement);
    tell_review(&s[PART_REVIEW], o->review);
    tell_layouts(&s[PART_LAYOUTS], o->layouts);
    tell_ranking(&s[PART_LAYOUTS], o->ranking);
    tell_made_search(&s[PART_LAYOUTS], o);
    tell_exercise(&s[PART_EXERCISE], o->exercise);
    tell_curve(&s[PART_CURVE], o->curve);
    tell_weather(&s[PART_WEATHER], o->series);
    tell_weather(&s[PART_WEATHER], o->year);
    tell_year(&s[PART_YEAR], o->energy);
    tell_made_year(&s[PART_YEAR], o->system, o->series);
    close_sums(s);
}

static void make_specs(objects *o, draw *d, const pvsize_allocator *memory, sum *s)
{
    pvsize_spec *array = NULL;

    o->system = invent_system(d, memory);
    o->search = invent_search(d, o->system, memory);
    o->place = invent_place(d, memory);
    o->enquiry = invent_spec(d, PVSIZE_KIND_ENQUIRY, memory);
    went(s, pvsize_spec_part(o->system, PVSIZE_KIND_SITE, 0, memory, &o->site, s->diag));
    went(s, pvsize_spec_part(o->system, PVSIZE_KIND_INVERTER, 0, memory, &o->inverter, s->diag));
    if (went(s, pvsize_spec_part(o->system, PVSIZE_KIND_ARRAY, 0, memory, &array, s->diag)))
        went(s, pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, memory, &o->module, s->diag));
    went(s, pvsize_spec_add(o->enquiry, o->module, NULL, s->diag));
    pvsize_spec_free(array);
}

static void make_reports(objects *o, draw *d, const pvsize_allocator *memory, sum *s)
{
    o->rules = invent_rules(d, memory);
    o->other_rules = invent_rules(d, memory);
    went(s, pvsize_report_new(memory, &o->report, s->diag));
    went(s, pvsize_report_new(memory, &o->other_report, s->diag));
    went(s, pvsize_check(o->system, o->rules, o->report, s->diag));
    went(s, pvsize_check(o->system, o->other_rules, o->other_report, s->diag));
    went(s, pvsize_comparison_new(memory, &o->reports, s->diag));
    went(s, pvsize_comparison_new(memory, &o->rule_sets, s->diag));
    went(s, pvsize_compare_reports(o->report, o->other_report, 0, o->reports, s->diag));
    went(s, pvsize_compare_rules(o->rules, o->other_rules, 127 - PVSIZE_DIFFERS_VERDICT,
                                 o->rule_sets, s->diag));
    went(s, pvsize_bill_new(memory, &o->bill, s->diag));
    went(s, pvsize_bill_fill(o->system, o->rules, o->bill, s->diag));
    went(s, pvsize_judgement_new(memory, &o->judgement, s->diag));
    went(s, pvsize_judge(o->system, o->rules, o->judgement, s->diag));
    went(s, pvsize_review_new(memory, &o->review, s->diag));
    went(s, pvsize_review_inverter(o->inverter, o->site, o->enquiry, o->rules, o->review, s->diag));
}

static void make_searches(objects *o, const pvsize_allocator *memory, sum *s)
{
    static const int32_t go_on = 0;
    pvsize_ranking *other = NULL;
    int32_t fits = 0;
    double done = 0;

    went(s, pvsize_layouts_new(memory, &o->layouts, s->diag));
    went(s, pvsize_search(o->search, o->rules, &go_on, o->layouts, s->diag));
    went(s, pvsize_ranking_new(o->search, o->rules, 5, memory, &o->ranking, s->diag));
    went(s, pvsize_ranking_new(o->search, o->rules, 5, memory, &other, s->diag));
    went(s, pvsize_ranking_add_shard(o->ranking, 0, 2, NULL, &done, s->diag));
    went(s, pvsize_ranking_add_shard(other, 1, 2, &go_on, &done, s->diag));
    went(s, pvsize_ranking_add(other, o->module, o->inverter, 77, 88, NULL, &fits, s->diag));
    went(s, pvsize_ranking_merge(o->ranking, other, s->diag));
    put_double(s, done);
    put_int(s, fits);
    pvsize_ranking_free(other);
}

enum { HOURS = 72 };

static void make_weather(objects *o, draw *d, const pvsize_allocator *memory, sum *s)
{
    double rows[HOURS][5];
    pvsize_spec *series = invent_spec(d, PVSIZE_KIND_SERIES, memory);

    pvsize_spec_set_number(series, PVSIZE_SERIES_GAP, -9, NULL);
    for (int i = 0; i < HOURS; i++) {
        int32_t hour = i % 24;
        double up = hour > 6 && hour < 18 ? 1 - (hour - 12) * (hour - 12) / 36.0 : 0;

        rows[i][0] = up * draw_between(d, 200, 1000);
        rows[i][1] = up * draw_between(d, 0, 800);
        rows[i][2] = up * draw_between(d, 0, 300);
        rows[i][3] = draw_below(d, 10) ? 10 + 15 * up : -9;
        rows[i][4] = draw_between(d, 0, 12);
    }
    went(s, pvsize_weather_from_series(
                o->place, series, &rows[0][0], draw_below(d, 2) ? &rows[0][1] : NULL, &rows[0][2],
                &rows[0][3], &rows[0][4], HOURS, 5, memory, &o->series, s->diag));
    went(s, pvsize_weather_from_months(o->place, 2026, memory, &o->year, s->diag));
    pvsize_spec_free(series);
}

void objects_make(objects *o, draw *d, const pvsize_allocator *memory, uint64_t sums[PARTS])
{
    static const objects none;
    int32_t level, seed = (int32_t)(draw_word(d) % 1000000);
    sum s[PARTS];

    *o = none;
    open_sums(s, sums);
    make_specs(o, d, memory, &s[PART_SPECS]);
    make_reports(o, d, memory, &s[PART_REPORT]);
    make_searches(o, memory, &s[PART_LAYOUTS]);
    went(&s[PART_CURVE], pvsize_curve_new(o->module, memory, &o->curve, s[PART_CURVE].diag));
    make_weather(o, d, memory, &s[PART_WEATHER]);
    make_year(&s[PART_YEAR], o->system, o->series, memory, &o->light, &o->energy);
    level = pvsize_set_at(PVSIZE_SET_LEVEL, draw_below(d, pvsize_set_count(PVSIZE_SET_LEVEL)));
    went(&s[PART_EXERCISE],
         pvsize_exercise_new(level, seed, NULL, memory, &o->exercise, s[PART_EXERCISE].diag));
    close_sums(s);
}

void objects_free(objects *o)
{
    pvsize_spec_free(o->system);
    pvsize_spec_free(o->site);
    pvsize_spec_free(o->inverter);
    pvsize_spec_free(o->enquiry);
    pvsize_spec_free(o->search);
    pvsize_spec_free(o->place);
    pvsize_spec_free(o->module);
    pvsize_rules_free(o->rules);
    pvsize_rules_free(o->other_rules);
    pvsize_report_free(o->report);
    pvsize_report_free(o->other_report);
    pvsize_comparison_free(o->reports);
    pvsize_comparison_free(o->rule_sets);
    pvsize_bill_free(o->bill);
    pvsize_judgement_free(o->judgement);
    pvsize_review_free(o->review);
    pvsize_layouts_free(o->layouts);
    pvsize_ranking_free(o->ranking);
    pvsize_curve_free(o->curve);
    pvsize_weather_free(o->series);
    pvsize_weather_free(o->year);
    pvsize_light_free(o->light);
    pvsize_year_free(o->energy);
    pvsize_exercise_free(o->exercise);
}

static void tell_kinds(sum *s)
{
    for (int32_t i = 0; i < pvsize_kind_count(); i++) {
        int32_t kind = pvsize_kind_at(i);

        put_int(s, kind);
        put_int(s, pvsize_kind_by_name(pvsize_kind_name(kind)));
        put_int(s, pvsize_kind_is_spec(kind));
        put_text(s, pvsize_kind_plural(kind));
        put_text(s, pvsize_kind_text(kind));
        for (int32_t k = 0; k < pvsize_kind_part_count(kind); k++) {
            put_int(s, pvsize_kind_part_fewest(kind, pvsize_kind_part_at(kind, k)));
            put_int(s, pvsize_kind_part_most(kind, pvsize_kind_part_at(kind, k)));
        }
        for (int32_t k = 0; k < pvsize_term_count(kind); k++) {
            int32_t term = pvsize_term_at(kind, k);
            int32_t found = 0;
            double low = 0, high = 0, value = 0;

            put_int(s, term);
            /* without its first letter: what may have been meant */
            went(s, pvsize_term_find(kind, pvsize_term_name(term) + 1, &found, s->diag));
            put_int(s, found);
            put_int(s, pvsize_term_by_name(kind, pvsize_term_name(term)));
            put_int(s, pvsize_term_kind(term));
            put_int(s, pvsize_term_type(term));
            put_int(s, pvsize_term_need(term));
            put_int(s, pvsize_term_refers_to(term));
            put_int(s, pvsize_term_scope(term));
            put_int(s, pvsize_term_rule_value(term));
            put_int(s, pvsize_term_rule_compare(term));
            put_int(s, pvsize_term_rule_limit(term));
            put_text(s, pvsize_term_unit(term));
            put_text(s, pvsize_term_text(term));
            put_int(s, pvsize_term_range(term, &low, &high));
            put_int(s, pvsize_term_default(term, &value));
            DOUBLES(s, low, high, value);
            for (int32_t j = 0; j < pvsize_choice_count(term); j++) {
                int32_t choice = pvsize_choice_at(term, j);

                put_int(s, pvsize_choice_by_name(term, pvsize_choice_name(term, choice)));
                put_text(s, pvsize_choice_text(term, choice));
            }
        }
    }
}

static void tell_sets(sum *s)
{
    put_int(s, pvsize_set_number("verdict"));
    for (int32_t set = 0; set < 100; set++)
        for (int32_t i = 0; i < pvsize_set_count(set); i++) {
            int32_t choice = pvsize_set_at(set, i);

            put_int(s, pvsize_set_by_name(set, pvsize_set_name(set, choice)));
            put_text(s, pvsize_set_text(set, choice));
            put_text(s, set == PVSIZE_SET_REMARK ? pvsize_remark_condition(choice) : NULL);
            put_text(s, set == PVSIZE_SET_REMARK ? pvsize_remark_sentence(choice) : NULL);
        }
    for (int32_t i = 0; i < pvsize_status_count(); i++) {
        put_text(s, pvsize_status_name(pvsize_status_at(i)));
        put_text(s, pvsize_status_text(pvsize_status_at(i)));
    }
    for (int32_t i = 0; i < pvsize_preset_count(); i++) {
        put_text(s, pvsize_preset_name(i));
        put_text(s, pvsize_preset_title(i));
    }
    put_text(s, pvsize_caution());
    put_text(s, pvsize_version_text());
    put_int(s, pvsize_version());
}

static void tell_certificates(sum *s)
{
    int32_t first = pvsize_certificate_first_year(), last = pvsize_certificate_last_year();

    for (int32_t year = first - 1; year <= last + 1; year++)
        for (int32_t zone = 0; zone < 6; zone++) {
            double rating = 0, count = 0, value = 0;
            int32_t years = 0, period = 1 + zone % 3;

            went(s, pvsize_certificate_rating(zone, &rating, s->diag));
            went(s, pvsize_certificate_years(year, period, &years, s->diag));
            went(s, pvsize_certificate_count(6600, zone, year, period, &count, s->diag));
            went(s, pvsize_certificate_value(count, 38.4, &value, s->diag));
            put_double(s, rating);
            put_int(s, years);
            DOUBLES(s, count, value);
            TEXT(s, pvsize_certificate_working, 6600, zone, year, period, 38.4,
                 PVSIZE_FORMAT_PLAIN);
        }
}

static void tell_sun(sum *s)
{
    for (int32_t day = 1; day < 366; day += 13) {
        double when = 0, a = 0, b = 0, c = 0, e = 0;

        went(s, pvsize_julian_day(2026, day, day % 24, &when, s->diag));
        put_double(s, when);
        went(s, pvsize_sun_position(-35 + day / 4.0, day, when, 1010, 10, &a, &b, s->diag));
        DOUBLES(s, a, b);
        went(s, pvsize_split_global(-33, 151, when, 400, &a, &b, s->diag));
        DOUBLES(s, a, b);
        went(s, pvsize_plane_irradiance(-33, 151, when, 600, 90, 0.2, 22, 300, &a, &b, &c, &e,
                                        s->diag));
        DOUBLES(s, a, b, c, e);
    }
}

void tables_tell(uint64_t sums[PARTS])
{
    sum s[PARTS];

    open_sums(s, sums);
    tell_kinds(&s[PART_TABLES]);
    tell_sets(&s[PART_TABLES]);
    tell_certificates(&s[PART_TABLES]);
    tell_sun(&s[PART_SUN]);
    close_sums(s);
}
