/* Own rules in a search: which there may be, and how those on sums bound it. */
#include "../support/pv_layout.h"

START_TEST(an_own_rule_cannot_speak_of_a_search)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    FAILS(PVSIZE_E_WRONG_KIND, "search.answers",
          pvsize_rules_add(rules, "own", "own", PVSIZE_SEARCH_ANSWERS, PVSIZE_COMPARE_AT_MOST, 0, 5,
                           PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    pvsize_rules_free(rules);
}
END_TEST

START_TEST(own_rules_on_sums_bound_a_search)
{
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        pvsize_spec *search = question(10.5, 30, 30, 1);
        pvsize_rules *rules =
            with_own_rule(sums[i].value, PVSIZE_COMPARE_AT_MOST, sums[i].limit_of, sums[i].limit);
        pvsize_layouts *layouts;
        int32_t count, rule, told = 0;

        OK(pvsize_layouts_new(NULL, &layouts, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        ck_assert_int_gt(count_of(layouts), 0);
        NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), sums[i].most, 1e-12);
        OK(pvsize_layouts_obstacle_count(layouts, &count, diag));
        for (int32_t k = 0; k < count; k++) {
            OK(pvsize_layouts_obstacle(layouts, k, &rule, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                       NULL, diag));
            told += rule == pvsize_rules_by_name(rules, "own");
        }
        ck_assert_int_gt(told, 0);
        pvsize_layouts_free(layouts);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

/* Of two rules on one sum the lower is the limit, in either order. */
START_TEST(the_lower_of_two_sums_bounds_a_search)
{
    for (int lower_first = 0; lower_first < 2; lower_first++) {
        pvsize_spec *search = question(10.5, 30, 30, 1);
        pvsize_rules *rules = with_own_rule(PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST,
                                            0, lower_first ? 15 : 20);
        pvsize_layouts *layouts;

        OK(pvsize_rules_add(rules, "other", "other", PVSIZE_QUANTITY_SYSTEM_MODULES,
                            PVSIZE_COMPARE_AT_MOST, 0, lower_first ? 20 : 15, PVSIZE_SEVERITY_MUST,
                            NULL, NULL, diag));
        /* no limit: a figure that is not set */
        OK(pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_ARRAY_RATIO_MAX, diag));
        OK(pvsize_rules_add(rules, "unset", "unset", PVSIZE_QUANTITY_ARRAY_RATIO,
                            PVSIZE_COMPARE_AT_MOST, PVSIZE_FIGURE_ARRAY_RATIO_MAX, 0.1,
                            PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
        OK(pvsize_layouts_new(NULL, &layouts, diag));
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        NEAR(number(layouts, 0, PVSIZE_LAYOUT_MODULES), 15, 1e-12);
        pvsize_layouts_free(layouts);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "own rules", an_own_rule_cannot_speak_of_a_search);
    add_test(suite, "sums", own_rules_on_sums_bound_a_search);
    add_test(suite, "two sums", the_lower_of_two_sums_bounds_a_search);
}

int main(void)
{
    return run_cases("layout_rules", add);
}
