/* Any calls in any order on any handles: right ones, null, and those of another type. Buffers
 * are blocks of their own length, so that AddressSanitizer sees one byte too far; memory
 * fails now and then, and all of it must come back. */
#include "fuzz.h"

enum { SPECS = 6, RULES = 3, REPORTS = 3 };

typedef struct world {
    draw *d;
    pvsize_diag *diag;
    failing failing;
    pvsize_allocator memory;
    pvsize_spec *specs[SPECS];
    pvsize_rules *rules[RULES];
    pvsize_report *reports[REPORTS];
    pvsize_comparison *comparison;
    pvsize_bill *bill;
    pvsize_judgement *judgement;
    pvsize_review *review;
    pvsize_layouts *layouts;
    pvsize_ranking *ranking;
    pvsize_exercise *exercise;
} world;

/* One of a list; seldom null, more seldom a handle of another type. */
static void *one_of(world *w, void *const *list, int32_t count)
{
    int32_t how = draw_below(w->d, 40);

    if (how == 0)
        return NULL;
    if (how == 1)
        return w->diag;
    return list[how % count];
}

#define A_SPEC(w) ((pvsize_spec *)one_of((w), (void *const *)(w)->specs, SPECS))
#define A_RULES(w) ((pvsize_rules *)one_of((w), (void *const *)(w)->rules, RULES))
#define A_REPORT(w) ((pvsize_report *)one_of((w), (void *const *)(w)->reports, REPORTS))

/* Small mostly, any now and then. */
static int32_t index_of(world *w)
{
    int32_t how = draw_below(w->d, 32);

    return how < 28 ? how : draw_strange_count(w->d);
}

static int32_t term_of(world *w, int32_t kind)
{
    int32_t count = pvsize_term_count(kind);

    if (draw_below(w->d, 24) == 0)
        return draw_strange_count(w->d);
    return pvsize_term_at(kind, draw_below(w->d, count));
}

static int32_t any_term(world *w)
{
    return term_of(w, pvsize_kind_at(draw_below(w->d, pvsize_kind_count())));
}

static double number_of(world *w)
{
    return draw_below(w->d, 3) ? draw_between(w->d, -10, 1000) : draw_strange(w->d);
}

static void word_of(world *w, char text[260])
{
    int32_t length = draw_below(w->d, 8) ? draw_below(w->d, 12) : draw_below(w->d, 256);

    for (int32_t i = 0; i < length; i++)
        text[i] =
            draw_below(w->d, 6) ? (char)('a' + draw_below(w->d, 26)) : (char)draw_below(w->d, 256);
    text[length] = 0;
}

/* A text call: the size asked for is the size that comes, in a buffer of any length. The
 * arguments are evaluated twice: no draws among them. */
#define TEXT(w, call, ...)                                                                      \
    do {                                                                                        \
        size_t asked = 0, came = 0, room = (size_t)draw_below((w)->d, 300);                     \
        char *buffer = malloc(room ? room : 1);                                                 \
        if (went((w)->diag, call(__VA_ARGS__, NULL, 0, &asked, (w)->diag)) && buffer && room) { \
            pvsize_status got = call(__VA_ARGS__, buffer, room, &came, (w)->diag);              \
            HOLDS(came == asked && memchr(buffer, 0, room));                                    \
            HOLDS(got == (asked < room ? PVSIZE_OK : PVSIZE_E_CAPACITY));                       \
            pvsize_diag_clear((w)->diag);                                                       \
        }                                                                                       \
        free(buffer);                                                                           \
    } while (0)

/* specs */

static void replace_spec(world *w)
{
    int32_t place = draw_below(w->d, SPECS), how = draw_below(w->d, 4);
    pvsize_spec *fresh = NULL;

    if (how == 0)
        fresh = invent_system(w->d, &w->memory);
    else if (how == 1)
        went(w->diag, pvsize_spec_clone(A_SPEC(w), &w->memory, &fresh, w->diag));
    else
        fresh =
            invent_spec(w->d, pvsize_kind_at(draw_below(w->d, pvsize_kind_count())), &w->memory);
    pvsize_spec_free(w->specs[place]);
    w->specs[place] = fresh;
}

static void set_spec(world *w)
{
    pvsize_spec *spec = A_SPEC(w);
    int32_t term = draw_below(w->d, 12) ? term_of(w, pvsize_spec_kind(spec)) : any_term(w);
    double value = draw_below(w->d, 4) ? invent_number(w->d, term) : number_of(w), back = 0;
    int32_t state = 0, terms[3];
    double values[3];
    char word[260];

    if (went(w->diag, pvsize_spec_set_number(spec, term, value, w->diag))) {
        HOLDS(pvsize_spec_get_number(spec, term, &back, NULL) == PVSIZE_OK && back == value);
        HOLDS(pvsize_spec_state(spec, term, &state, NULL) == PVSIZE_OK);
        HOLDS(state == PVSIZE_STATE_SET);
    }
    word_of(w, word);
    went(w->diag, pvsize_spec_set_text(spec, term, word, w->diag));
    TEXT(w, pvsize_spec_get_text, spec, term);
    for (int i = 0; i < 3; i++) {
        terms[i] = term_of(w, pvsize_spec_kind(spec));
        values[i] = invent_number(w->d, terms[i]);
    }
    went(w->diag,
         pvsize_spec_set_numbers(spec, terms, values, (size_t)draw_below(w->d, 4), w->diag));
    if (draw_below(w->d, 8) == 0)
        went(w->diag, pvsize_spec_set_none(spec, term, w->diag));
    if (draw_below(w->d, 8) == 0)
        went(w->diag, pvsize_spec_unset(spec, term, w->diag));
}

static void move_parts(world *w)
{
    pvsize_spec *owner = A_SPEC(w), *part = NULL;
    int32_t owned = pvsize_kind_part_count(pvsize_spec_kind(owner));
    int32_t kind = pvsize_kind_part_at(pvsize_spec_kind(owner), draw_below(w->d, owned));
    int32_t index = draw_below(w->d, 4), how = draw_below(w->d, 6);
    double value = 0;

    if (how < 2)
        went(w->diag, pvsize_spec_add(owner, A_SPEC(w), &index, w->diag));
    else if (how == 2)
        went(w->diag, pvsize_spec_remove(owner, kind, index_of(w), w->diag));
    else if (how == 3)
        went(w->diag, pvsize_spec_replace(owner, index, A_SPEC(w), w->diag));
    else {
        int32_t term = term_of(w, kind);

        went(w->diag, pvsize_spec_get_part_number(owner, index, term, &value, w->diag));
        value = invent_number(w->d, term);
        went(w->diag, pvsize_spec_set_part_number(owner, index, term, value, w->diag));
    }
    if (went(w->diag, pvsize_spec_part(owner, kind, index, &w->memory, &part, w->diag)))
        pvsize_spec_free(part);
    else
        HOLDS(part == NULL);
}

/* rule sets */

static void change_rules(world *w)
{
    pvsize_rules *rules = A_RULES(w), *fresh = NULL;
    int32_t place = draw_below(w->d, RULES), term = any_term(w), rule = 0, known = 0;
    int32_t figure = term_of(w, PVSIZE_KIND_FIGURE);
    double value = 0;
    char word[260], title[260];

    if (draw_below(w->d, 6) == 0) {
        if (draw_below(w->d, 2))
            went(w->diag, pvsize_rules_clone(rules, &w->memory, &fresh, w->diag));
        else
            fresh = invent_rules(w->d, &w->memory);
        pvsize_rules_free(w->rules[place]);
        w->rules[place] = fresh;
        return;
    }
    word_of(w, word);
    word_of(w, title);
    value = draw_below(w->d, 2) ? invent_number(w->d, figure) : number_of(w);
    went(w->diag, pvsize_rules_set_figure(rules, figure, value, draw_below(w->d, 2) ? title : NULL,
                                          w->diag));
    went(w->diag, pvsize_rules_get_figure(rules, figure, &value, w->diag));
    went(w->diag, pvsize_rules_set_severity(rules, term_of(w, PVSIZE_KIND_RULE),
                                            draw_below(w->d, 6), w->diag));
    went(w->diag, pvsize_rules_set_title(rules, title, w->diag));
    went(w->diag, pvsize_rules_add(rules, word, title, any_term(w), draw_below(w->d, 5),
                                   draw_below(w->d, 2) ? 0 : term, number_of(w),
                                   draw_below(w->d, 5), NULL, &rule, w->diag));
    went(w->diag, pvsize_rules_known(rules, term, &known, w->diag));
    went(w->diag, pvsize_rules_get_severity(rules, term, &known, w->diag));
    went(w->diag, pvsize_rules_definition(rules, term, NULL, NULL, NULL, NULL, w->diag));
    if (draw_below(w->d, 8) == 0)
        went(w->diag, pvsize_rules_unset_figure(rules, figure, w->diag));
    TEXT(w, pvsize_rules_source, rules, term);
    TEXT(w, pvsize_rules_rule_title, rules, rule);
    TEXT(w, pvsize_rules_rule_name, rules, term);
    TEXT(w, pvsize_rules_get_title, rules);
    pvsize_rules_by_name(rules, word);
    pvsize_rules_at(rules, index_of(w));
}

/* reports */

static void check(world *w)
{
    went(w->diag, pvsize_check(A_SPEC(w), A_RULES(w), A_REPORT(w), w->diag));
}

static void ask_report(world *w)
{
    pvsize_report *report = A_REPORT(w);
    int32_t i = index_of(w), quantity = term_of(w, PVSIZE_KIND_QUANTITY), n = 0;
    int32_t what = draw_below(w->d, 14), form = draw_below(w->d, 4), detail = draw_below(w->d, 4);
    double value = 0, limit = 0, margin = 0;

    if (went(w->diag, pvsize_report_numbers(report, i, &value, &limit, &margin, w->diag)))
        HOLDS(isfinite(value) && isfinite(limit) && isfinite(margin));
    if (went(w->diag, pvsize_report_quantity(report, quantity, i, &value, w->diag)))
        HOLDS(isfinite(value));
    went(w->diag, pvsize_report_finding(report, i, &n, NULL, &n, &n, w->diag));
    went(w->diag, pvsize_report_governs(report, i, &n, w->diag));
    went(w->diag, pvsize_report_missing(report, i, &n, w->diag));
    went(w->diag, pvsize_report_count(report, index_of(w), draw_below(w->d, 6), &n, w->diag));
    went(w->diag, pvsize_report_find(report, pvsize_kind_at(draw_below(w->d, 22)), i, index_of(w),
                                     &n, w->diag));
    went(w->diag, pvsize_report_subject(report, i, &n, &n, &n, w->diag));
    TEXT(w, pvsize_report_text, report, i, what);
    TEXT(w, pvsize_report_subject_text, report, i);
    TEXT(w, pvsize_report_working, report, quantity, i, form, detail);
    went(w->diag, pvsize_report_assumption(report, i, &n, &value, w->diag));
    TEXT(w, pvsize_report_assumption_text, report, i);
    if (draw_below(w->d, 4) == 0)
        TEXT(w, pvsize_report_render, report, form, detail);
}

static void compare(world *w)
{
    int32_t i = index_of(w), side = draw_below(w->d, 3), n = 0, wanted = draw_below(w->d, 140);
    double value = 0;

    if (draw_below(w->d, 2))
        went(w->diag, pvsize_compare_rules(A_RULES(w), A_RULES(w), wanted, w->comparison, w->diag));
    else
        went(w->diag,
             pvsize_compare_reports(A_REPORT(w), A_REPORT(w), wanted, w->comparison, w->diag));
    went(w->diag, pvsize_comparison_count(w->comparison, &n, w->diag));
    went(w->diag, pvsize_comparison_difference(w->comparison, i, &n, &n, w->diag));
    went(w->diag, pvsize_comparison_side(w->comparison, i, side, &n, &n, w->diag));
    went(w->diag, pvsize_comparison_number(w->comparison, i, side, wanted, &value, w->diag));
    went(w->diag, pvsize_comparison_figure(w->comparison, i, index_of(w), &n, w->diag));
    TEXT(w, pvsize_comparison_text, w->comparison, i);
}

static void buy(world *w)
{
    int32_t i = index_of(w), k = index_of(w), n = 0, form = draw_below(w->d, 4);
    double value = 0, more = 0;

    went(w->diag, pvsize_bill_fill(A_SPEC(w), A_RULES(w), w->bill, w->diag));
    went(w->diag, pvsize_bill_row(w->bill, i, &n, &n, &n, &n, w->diag));
    if (went(w->diag, pvsize_bill_quantity(w->bill, i, &value, &more, &n, w->diag)))
        HOLDS(isfinite(value) && isfinite(more) && more >= 0);
    went(w->diag, pvsize_bill_attribute(w->bill, i, k, &n, &value, &n, w->diag));
    went(w->diag, pvsize_bill_share(w->bill, i, k, &n, &value, &n, w->diag));
    went(w->diag, pvsize_bill_assumption(w->bill, i, &n, &value, &n, w->diag));
    TEXT(w, pvsize_bill_text, w->bill, i);
    TEXT(w, pvsize_bill_subject_text, w->bill, i);
    TEXT(w, pvsize_bill_assumption_text, w->bill, i);
    TEXT(w, pvsize_bill_render, w->bill, form);
}

static void judge(world *w)
{
    int32_t i = draw_below(w->d, 6), n = 0, form = draw_below(w->d, 4);
    double v = 0, x = 0, y = 0, z = 0;

    went(w->diag, pvsize_judge(A_SPEC(w), A_RULES(w), w->judgement, w->diag));
    went(w->diag, pvsize_judgement_count(w->judgement, index_of(w), &n, w->diag));
    went(w->diag, pvsize_judgement_row(w->judgement, i, &n, &n, &n, &n, w->diag));
    if (went(w->diag, pvsize_judgement_numbers(w->judgement, i, &v, &x, &y, &z, w->diag)))
        HOLDS(isfinite(v) && isfinite(x) && isfinite(y) && !isnan(z));
    went(w->diag, pvsize_judgement_alike(w->judgement, i, &v, w->diag));
    if (went(w->diag,
             pvsize_judgement_cause(w->judgement, i, index_of(w), &n, &v, &x, &y, &z, w->diag)))
        HOLDS(!isnan(v) && !isnan(x) && !isnan(y) && !isnan(z));
    TEXT(w, pvsize_judgement_text, w->judgement, i);
    TEXT(w, pvsize_judgement_render, w->judgement, form);
}

static void review(world *w)
{
    int32_t i = index_of(w), n = 0, form = draw_below(w->d, 4);
    double v = 0, x = 0, y = 0;

    went(w->diag,
         pvsize_review_inverter(A_SPEC(w), A_SPEC(w), A_SPEC(w), A_RULES(w), w->review, w->diag));
    if (went(w->diag, pvsize_review_bound_numbers(w->review, i, &v, &x, w->diag)))
        HOLDS(isfinite(v) && isfinite(x));
    went(w->diag, pvsize_review_bound_rule(w->review, i, &n, &n, &n, &n, w->diag));
    went(w->diag, pvsize_review_module(w->review, i, &n, &n, &n, &n, w->diag));
    went(w->diag, pvsize_review_module_room(w->review, i, index_of(w), &n, w->diag));
    went(w->diag, pvsize_review_module_stop(w->review, i, index_of(w), &n, &v, &x, &y, w->diag));
    went(w->diag, pvsize_review_remark_number(w->review, i, index_of(w), &v, w->diag));
    TEXT(w, pvsize_review_bound_text, w->review, i);
    TEXT(w, pvsize_review_module_text, w->review, i);
    TEXT(w, pvsize_review_remark_text, w->review, i);
    TEXT(w, pvsize_review_render, w->review, form);
}

/* A module and an inverter, mostly the question's own, over and over. */
static void sweep(world *w, const pvsize_spec *question)
{
    pvsize_spec *system = NULL, *module = NULL, *inverter = NULL;
    const pvsize_spec *modules[5], *inverters[3];
    double done = 0;

    pvsize_spec_part(question, PVSIZE_KIND_MODULE, 0, NULL, &module, NULL);
    if (pvsize_spec_part(question, PVSIZE_KIND_SYSTEM, 0, NULL, &system, NULL) == PVSIZE_OK)
        pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, NULL);
    for (int i = 0; i < 5; i++)
        modules[i] = draw_below(w->d, 30) ? module : A_SPEC(w);
    for (int i = 0; i < 3; i++)
        inverters[i] = draw_below(w->d, 30) ? inverter : A_SPEC(w);
    went(w->diag, pvsize_ranking_add_all(w->ranking, modules, (size_t)draw_below(w->d, 6),
                                         inverters, (size_t)draw_below(w->d, 4),
                                         draw_below(w->d, 9), index_of(w), NULL, &done, w->diag));
    pvsize_spec_free(module);
    pvsize_spec_free(inverter);
    pvsize_spec_free(system);
}

/* A search with a budget that a fuzzer can afford. */
static void search(world *w)
{
    pvsize_spec *question = NULL;
    int32_t i = draw_below(w->d, 6), n = 0;
    double value = 0;

    if (draw_below(w->d, 3))
        question = invent_search(w->d, A_SPEC(w), NULL);
    else if (!went(w->diag, pvsize_spec_clone(A_SPEC(w), NULL, &question, w->diag)))
        return;
    pvsize_spec_set_number(question, PVSIZE_SEARCH_NODE_BUDGET, 1 + draw_below(w->d, 100), NULL);
    went(w->diag, pvsize_search(question, A_RULES(w), NULL, w->layouts, w->diag));
    went(w->diag, pvsize_layouts_bound(w->layouts, &value, w->diag));
    went(w->diag, pvsize_layouts_number(w->layouts, i, draw_below(w->d, 8), &value, w->diag));
    went(w->diag,
         pvsize_layouts_array(w->layouts, i, index_of(w), &n, &n, &n, &n, &n, &n, w->diag));
    went(w->diag, pvsize_layouts_report(w->layouts, i, A_REPORT(w), w->diag));
    went(w->diag, pvsize_layouts_obstacle_numbers(w->layouts, i, &value, &value, &value, w->diag));
    TEXT(w, pvsize_layouts_text, w->layouts, i);
    TEXT(w, pvsize_layouts_obstacle_text, w->layouts, i);
    pvsize_ranking_free(w->ranking);
    w->ranking = NULL;
    if (went(w->diag, pvsize_ranking_new(question, A_RULES(w), draw_strange_count(w->d), &w->memory,
                                         &w->ranking, w->diag))) {
        went(w->diag,
             pvsize_ranking_add_shard(w->ranking, index_of(w), index_of(w), NULL, &value, w->diag));
        sweep(w, question);
        went(w->diag, pvsize_ranking_merge(w->ranking, w->ranking, w->diag));
        went(w->diag, pvsize_ranking_pair(w->ranking, i, &n, &n, w->diag));
        went(w->diag, pvsize_ranking_number(w->ranking, i, index_of(w), &value, w->diag));
    }
    pvsize_spec_free(question);
}

static void teach(world *w)
{
    int32_t i = draw_below(w->d, 10), n = 0, made[3] = {0};
    int32_t what = draw_below(w->d, 6), form = draw_below(w->d, 4);
    size_t count = 0;
    double value = 0;

    if (draw_below(w->d, 3) == 0) {
        int32_t level = draw_below(w->d, 8) ? 1 + draw_below(w->d, 4) : index_of(w);
        int32_t seed =
            draw_below(w->d, 4) ? (int32_t)draw_word(w->d) % 5000 : draw_strange_count(w->d);

        pvsize_exercise_free(w->exercise);
        w->exercise = NULL;
        went(w->diag,
             pvsize_exercise_new(level, seed,
                                 pvsize_preset_name(draw_below(w->d, pvsize_preset_count() + 1)),
                                 &w->memory, &w->exercise, w->diag));
    }
    went(w->diag, pvsize_exercise_answer(w->exercise, i, &value, NULL, w->diag));
    went(w->diag, pvsize_exercise_mark(w->exercise, i, draw_below(w->d, 2) ? value : number_of(w),
                                       &n, made, (size_t)draw_below(w->d, 4), &count, w->diag));
    went(w->diag, pvsize_exercise_mistake(w->exercise, i, index_of(w), &n, &value, w->diag));
    TEXT(w, pvsize_exercise_text, w->exercise, i, what, form);
    TEXT(w, pvsize_exercise_sheet, w->exercise, what, form);
}

/* Numbers in, numbers out, and the tables. */
static void ask_numbers(world *w)
{
    double x[7], a = 0, b = 0, c = 0, e = 0;
    int32_t any = draw_strange_count(w->d), term = any_term(w), n = 0;
    int32_t zone = draw_below(w->d, 6), year = 2024 + draw_below(w->d, 10),
            period = draw_below(w->d, 5);

    for (int i = 0; i < 7; i++)
        x[i] = number_of(w);
    if (went(w->diag, pvsize_sun_position(x[0], x[1], x[2], x[3], x[4], &a, &b, w->diag)))
        HOLDS(a >= 0 && a <= 360 && b >= -90 && b <= 90);
    if (went(w->diag,
             pvsize_julian_day(1950 + draw_below(w->d, 160), index_of(w), x[0], &c, w->diag))) {
        HOLDS(isfinite(c));
        if (went(w->diag, pvsize_split_global(x[0], x[1], c, x[3], &a, &b, w->diag)))
            HOLDS(a >= 0 && b >= 0 && isfinite(a) && isfinite(b));
        if (went(w->diag, pvsize_plane_irradiance(x[0], x[1], c, x[3], x[4], x[5] / 1000, x[6],
                                                  x[2], &a, &b, &x[0], &e, w->diag)))
            HOLDS(a >= 0 && b >= 0 && isfinite(a) && isfinite(b) && isfinite(e));
    }
    went(w->diag, pvsize_certificate_count(x[0], zone, year, period, &a, w->diag));
    went(w->diag, pvsize_certificate_value(x[1], x[2], &a, w->diag));
    TEXT(w, pvsize_certificate_working, x[0], zone, year, period, x[1], PVSIZE_FORMAT_PLAIN);
    pvsize_term_range(any, &a, &b);
    pvsize_term_range(term, NULL, NULL);
    pvsize_choice_name(term, any);
    pvsize_choice_at(term, any);
    pvsize_set_name(any, index_of(w));
    pvsize_set_at(draw_below(w->d, 60), any);
    pvsize_term_at(any, index_of(w));
    pvsize_kind_part_at(any, n);
    pvsize_remark_sentence(any);
    pvsize_diag_range(w->diag, &a, &b);
}

static void start(world *w, draw *d)
{
    static const world none;

    *w = none;
    w->d = d;
    w->failing.left = -1;
    w->memory.allocate = failing_take;
    w->memory.release = failing_give;
    w->memory.user = &w->failing;
    pvsize_diag_new(NULL, &w->diag);
    for (int i = 0; i < REPORTS; i++)
        pvsize_report_new(&w->memory, &w->reports[i], NULL);
    pvsize_rules_new("asnzs_5033_2021", &w->memory, &w->rules[0], NULL);
    pvsize_rules_new(NULL, &w->memory, &w->rules[1], NULL);
    w->specs[0] = invent_system(d, &w->memory);
    pvsize_spec_part(w->specs[0], PVSIZE_KIND_INVERTER, 0, &w->memory, &w->specs[1], NULL);
    pvsize_spec_part(w->specs[0], PVSIZE_KIND_SITE, 0, &w->memory, &w->specs[2], NULL);
    pvsize_comparison_new(&w->memory, &w->comparison, NULL);
    pvsize_bill_new(&w->memory, &w->bill, NULL);
    pvsize_judgement_new(&w->memory, &w->judgement, NULL);
    pvsize_review_new(&w->memory, &w->review, NULL);
    pvsize_layouts_new(&w->memory, &w->layouts, NULL);
}

static void finish(world *w)
{
    for (int i = 0; i < SPECS; i++)
        pvsize_spec_free(w->specs[i]);
    for (int i = 0; i < RULES; i++)
        pvsize_rules_free(w->rules[i]);
    for (int i = 0; i < REPORTS; i++)
        pvsize_report_free(w->reports[i]);
    pvsize_comparison_free(w->comparison);
    pvsize_bill_free(w->bill);
    pvsize_judgement_free(w->judgement);
    pvsize_review_free(w->review);
    pvsize_layouts_free(w->layouts);
    pvsize_ranking_free(w->ranking);
    pvsize_exercise_free(w->exercise);
    pvsize_diag_free(w->diag);
    HOLDS(w->failing.live == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    static void (*const calls[])(world *) = {
        replace_spec, set_spec, set_spec, move_parts, change_rules, check, check,      ask_report,
        compare,      buy,      judge,    review,     search,       teach, ask_numbers};
    draw d = draw_from_bytes(bytes, count);
    world w;

    start(&w, &d);
    for (int i = 0; i < 200 && d.left > 0; i++) {
        int32_t which = draw_below(&d, (int32_t)(sizeof calls / sizeof *calls));

        w.failing.left = draw_below(&d, 12) ? -1 : draw_below(&d, 40);
        calls[which](&w);
        w.failing.left = -1;
    }
    finish(&w);
    return 0;
}
