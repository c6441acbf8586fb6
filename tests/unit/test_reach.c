/* What a search concludes from one stringing about others, and what the tables must keep to for
 * that: growth.def and rules.def, seen from inside. */
#include "../../lib/layout/layout.h"
#include "../support/pv_test.h"

/* What is computed from the arrays on one input is computed of an array, of its module, or of the
 * input; what stands the same whatever is wired, of none of them but the input. Where a search
 * looks at an input alone (options.c, sieve_make.c), no rule of it speaks of anything else. */
START_TEST(reach_and_scope_agree)
{
    int32_t local = 0, fixed = 0;

    for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_QUANTITY); i++) {
        int32_t term = pvsize_term_at(PVSIZE_KIND_QUANTITY, i), scope = pvsize_term_scope(term);
        int32_t reach = pvsz_growth_of(term).reach;

        if (reach == PVSZ_REACH_LOCAL)
            ck_assert_msg(scope == PVSIZE_KIND_ARRAY || scope == PVSIZE_KIND_MODULE ||
                              scope == PVSIZE_KIND_INPUT,
                          "%s", pvsize_term_name(term));
        if (reach == PVSZ_REACH_FIXED)
            ck_assert_msg(scope != PVSIZE_KIND_ARRAY && scope != PVSIZE_KIND_MODULE, "%s",
                          pvsize_term_name(term));
        local += reach == PVSZ_REACH_LOCAL;
        fixed += reach == PVSZ_REACH_FIXED;
    }
    ck_assert_int_gt(local, 50);
    ck_assert_int_gt(fixed, 20);
    /* a sum is of an inverter or of the system */
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_QUANTITY_INVERTER_PV_POWER), PVSIZE_KIND_INVERTER);
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_QUANTITY_ARRAY_RATIO), PVSIZE_KIND_INVERTER);
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_QUANTITY_SYSTEM_PV_POWER), PVSIZE_KIND_SYSTEM);
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_QUANTITY_SYSTEM_MODULES), PVSIZE_KIND_SYSTEM);
}
END_TEST

/* Built-in rules stand where their value stands, as own rules do; on what stands on an input none
 * of them speaks of anything but arrays, modules and inputs, or of what is only beside them. */
START_TEST(rules_stand_where_their_value_does)
{
    pvsize_rules *rules;
    int32_t sums = 0, local = 0;

    OK(pvsize_rules_new(NULL, NULL, &rules, diag));
    for (int32_t i = 0; i < PVSZ_RULES; i++) {
        const pvsz_rule *rule = &rules->rule[i];
        int32_t reach = pvsz_rule_reach(rule);

        if (pvsz_is_sum(rule->value.number)) {
            ck_assert(rule->scope == PVSZ_KIND_INVERTER || rule->scope == PVSZ_KIND_SYSTEM);
            sums++;
        }
        if (reach == PVSZ_REACH_FIXED)
            ck_assert(rule->scope != PVSZ_KIND_ARRAY && rule->scope != PVSZ_KIND_MODULE);
        if (reach == PVSZ_REACH_LOCAL) {
            ck_assert(rule->scope == PVSZ_KIND_ARRAY || rule->scope == PVSZ_KIND_MODULE ||
                      rule->scope == PVSZ_KIND_INPUT || rule->scope == PVSZ_KIND_ISOLATOR ||
                      rule->scope == PVSZ_KIND_CABLE || rule->scope == PVSZ_KIND_READING);
            local++;
        }
    }
    ck_assert_int_gt(sums, 1);
    ck_assert_int_gt(local, 20);
    pvsize_rules_free(rules);
}
END_TEST

/* A figure that can limit a sum, of modules, of watts or of a ratio, is never below nothing. */
START_TEST(figures_of_sums_are_not_negative)
{
    int32_t count = 0;

    for (int32_t i = 0; i < pvsize_term_count(PVSIZE_KIND_FIGURE); i++) {
        int32_t term = pvsize_term_at(PVSIZE_KIND_FIGURE, i);
        const char *unit = pvsize_term_unit(term);
        double low, high;

        if (unit[0] && strcmp(unit, "W") != 0)
            continue;
        if (pvsize_term_range(term, &low, &high) == PVSIZE_OK) {
            ck_assert_msg(low >= 0, "%s", pvsize_term_name(term));
            count++;
        }
    }
    ck_assert_int_gt(count, 10);
}
END_TEST

static pvsz_lesson learnt(int32_t value_term, int32_t compare, double value, double limit,
                          int32_t length, bool fewest)
{
    const pvsz_rule rule = {.value = {.number = value_term}, .compare = compare};
    const pvsz_finding finding = {.rule = &rule, .value = value, .limit = limit};
    pvsz_lesson lesson = {0};

    pvsz_learn(&finding, length, fewest, &lesson);
    return lesson;
}

/* 10 modules of 30 V miss 500 V: 17 would not; the two before that may be roundings. */
START_TEST(lengths_that_cannot_reach_are_left_out)
{
    const int32_t volts = PVSIZE_QUANTITY_STRING_VMP_HOT, least = PVSIZE_COMPARE_AT_LEAST;
    pvsz_lesson lesson = learnt(volts, least, 300, 500, 10, true);

    ck_assert(lesson.never_here && !lesson.no_more && !lesson.no_longer);
    ck_assert_int_eq(lesson.length, 16 - 2);
    ck_assert_int_eq(learnt(volts, least, 300, 330, 10, true).length, 0);  /* the next */
    ck_assert_int_eq(learnt(volts, least, 300, 1e9, 10, true).length, 0);  /* none there is */
    ck_assert_int_eq(learnt(volts, least, -300, 500, 10, true).length, 0); /* nonsense */
    ck_assert_int_eq(learnt(volts, least, 0, 500, 10, true).length, 0);
    ck_assert_int_eq(learnt(volts, least, -300, -100, 10, true).length, 0);
    /* beyond a limit, only longer ones are; below nothing even that is not known */
    lesson = learnt(volts, PVSIZE_COMPARE_AT_MOST, 300, 200, 10, true);
    ck_assert(lesson.no_more && lesson.no_longer && !lesson.never_here);
    lesson = learnt(volts, PVSIZE_COMPARE_AT_MOST, 300, 200, 10, false);
    ck_assert(lesson.no_more && !lesson.no_longer);
    lesson = learnt(volts, PVSIZE_COMPARE_AT_MOST, -10, -20, 10, true);
    ck_assert(!lesson.no_more && !lesson.no_longer && !lesson.never_here && lesson.length == 0);
}
END_TEST

/* What a rule asks for on either side tells places apart. */
START_TEST(places_on_either_side)
{
    const pvsz_rule value = {.value = {.number = PVSIZE_ARRAY_INVERTER}};
    const pvsz_rule limit = {.value = {.number = PVSIZE_ARRAY_STRINGS},
                             .limit = {.number = PVSIZE_ARRAY_INPUT}};
    const pvsz_rule none = {.value = {.number = PVSIZE_ARRAY_STRINGS}};

    ck_assert(pvsz_rule_tells_places(&value));
    ck_assert(pvsz_rule_tells_places(&limit));
    ck_assert(!pvsz_rule_tells_places(&none));
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "scope", reach_and_scope_agree);
    add_test(suite, "rules", rules_stand_where_their_value_does);
    add_test(suite, "figures", figures_of_sums_are_not_negative);
    add_test(suite, "lengths", lengths_that_cannot_reach_are_left_out);
    add_test(suite, "places", places_on_either_side);
}

int main(void)
{
    return run_cases("reach", add);
}
