/* Comparisons asked wrongly, of what does not compare, and memory that fails. */
#include "../support/pv_compare.h"

START_TEST(wrong_handles)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_spec *system = job(9), *module = invented_module();
    pvsize_report *report = checked(system, rules), *alone = checked(module, rules);
    const void *not_rules = system;
    int32_t count;

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_comparison_new(NULL, NULL, diag));
    compare_sets(rules, rules, 0);
    FAILS(PVSIZE_E_NULL_POINTER, "first", pvsize_compare_rules(NULL, rules, 0, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "second", pvsize_compare_rules(rules, NULL, 0, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "comparison", pvsize_compare_rules(rules, rules, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "second",
          pvsize_compare_rules(rules, not_rules, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "comparison",
          pvsize_compare_rules(rules, rules, 0, (void *)rules, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "wanted", pvsize_compare_rules(rules, rules, 128, comparison, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "wanted",
          pvsize_compare_reports(report, report, -1, comparison, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "second",
          pvsize_compare_reports(report, NULL, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "first",
          pvsize_compare_reports((const void *)rules, report, 0, comparison, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "second: of another kind",
          pvsize_compare_reports(report, alone, 0, comparison, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "comparison",
          pvsize_comparison_count((const void *)rules, &count, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_comparison_count(comparison, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 0",
          pvsize_comparison_text(comparison, 0, NULL, 0, NULL, diag));
    pvsize_comparison_free(NULL);
    pvsize_comparison_free((void *)rules); /* not one: left alone */
    pvsize_rules_free(rules);
    pvsize_report_free(report);
    pvsize_report_free(alone);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    done();
}
END_TEST

START_TEST(unlike_systems)
{
    pvsize_spec *one = job(9), *two = job(9), *array = invented_array(1, 1, 8, 1);
    pvsize_report *a = checked_by(one, "asnzs_5033_2021"), *b;

    /* as many of each, but the second array hangs on another input */
    OK(pvsize_spec_set_part_number(two, 1, PVSIZE_ARRAY_INPUT, 0, diag));
    b = checked_by(two, "asnzs_5033_2021");
    compare_found(a, a, 0);
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(a, b, 0, comparison, diag));
    pvsize_report_free(b);
    OK(pvsize_spec_add(one, array, NULL, diag));
    b = checked_by(one, "asnzs_5033_2021");
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(a, b, 0, comparison, diag));
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(one);
    pvsize_spec_free(two);
    pvsize_spec_free(array);
    done();
}
END_TEST

/* Three inputs on two inverters, two on the first of the one and on the second of the other. */
START_TEST(inputs_in_another_place)
{
    pvsize_report *reports[2];

    for (int32_t i = 0; i < 2; i++) {
        pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);

        give(system, invented_site());
        for (int32_t k = 0; k < 2; k++) {
            pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, 0);

            give(inverter, invented_input(1));
            if (k == i)
                give(inverter, invented_input(1));
            give(system, inverter);
        }
        reports[i] = checked_by(system, "asnzs_5033_2021");
        pvsize_spec_free(system);
    }
    compare_found(reports[0], reports[0], 0);
    FAILS(PVSIZE_E_WRONG_KIND, "the same subjects",
          pvsize_compare_reports(reports[0], reports[1], 0, comparison, diag));
    pvsize_report_free(reports[0]);
    pvsize_report_free(reports[1]);
    done();
}
END_TEST

START_TEST(indices_and_buffers)
{
    pvsize_rules *old = preset("asnzs_5033_2014"), *new = preset("asnzs_5033_2021");
    char text[20] = "", whole[2000];
    int32_t count, term = 7;
    size_t length;
    double value = 7;

    compare_sets(old, new, 0);
    count = differences();
    FAILS(PVSIZE_E_BAD_INDEX, "given",
          pvsize_comparison_side(comparison, count, 0, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "side", pvsize_comparison_side(comparison, 0, 2, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "side: index outside the list; given -1; allowed 0 to 1",
          pvsize_comparison_side(comparison, 0, -1, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given",
          pvsize_comparison_difference(comparison, -1, &term, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_comparison_figure(comparison, 0, -1, &term, diag));
    FAILS(PVSIZE_E_NOT_SET, "figure",
          pvsize_comparison_number(comparison, 0, 0, PVSIZE_DIFFERS_VERDICT, &value, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_comparison_number(comparison, 0, 0, 3, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "figure", pvsize_comparison_figure(comparison, 0, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "comparison",
          pvsize_comparison_side(NULL, 0, 0, &term, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value",
          pvsize_comparison_number(comparison, 0, 0, PVSIZE_DIFFERS_VALUE, NULL, diag));
    ck_assert(term == 7 && value == 7);
    OK(pvsize_comparison_text(comparison, 0, NULL, 0, &length, diag));
    OK(pvsize_comparison_text(comparison, 0, whole, sizeof whole, NULL, diag));
    ck_assert_uint_eq(strlen(whole), length);
    FAILS(PVSIZE_E_CAPACITY, "needed",
          pvsize_comparison_text(comparison, 0, text, sizeof text, &length, diag));
    ck_assert_uint_eq(strlen(text), sizeof text - 1);
    ck_assert(strncmp(text, whole, sizeof text - 1) == 0);
    ck_assert_uint_eq(strlen(whole), length);
    pvsize_rules_free(old);
    pvsize_rules_free(new);
    done();
}
END_TEST

/* Each allocation fails once; what the comparison held stays. */
START_TEST(every_allocation_fails_once)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *system = job(16);
    pvsize_rules *old = preset("asnzs_5033_2014"), *new = preset("iec_62548_1_2023");
    pvsize_report *a = checked(system, old), *b = checked(system, new);
    int32_t held, tried = 0;
    pvsize_status status[2];

    c.fail_at = 0;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_comparison_new(&memory, &comparison, diag));
    ck_assert_ptr_null(comparison);
    c.fail_at = -1;
    OK(pvsize_comparison_new(&memory, &comparison, diag));
    OK(pvsize_compare_rules(new, old, PVSIZE_DIFFERS_VALUE, comparison, diag));
    held = differences();
    for (int32_t what = 0; what < 2; what++) {
        for (long n = 0;; n++, tried++) {
            long live = c.live;

            c.fail_at = c.made + n;
            status[what] = what ? pvsize_compare_reports(a, b, 0, comparison, NULL)
                                : pvsize_compare_rules(old, new, 0, comparison, NULL);
            ck_assert_int_eq(c.live, live);
            if (status[what] == PVSIZE_OK)
                break;
            ck_assert_int_eq(status[what], PVSIZE_E_NO_MEMORY);
            ck_assert_int_eq(differences(), held);
            says(0, " against ");
        }
        held = differences();
        ck_assert_int_gt(held, 4);
    }
    ck_assert_int_ge(tried, 6);
    done();
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(old);
    pvsize_rules_free(new);
    pvsize_report_free(a);
    pvsize_report_free(b);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "wrong handles", wrong_handles);
    add_test(suite, "unlike systems", unlike_systems);
    add_test(suite, "indices", indices_and_buffers);
    add_test(suite, "memory", every_allocation_fails_once);
    add_test(suite, "inputs elsewhere", inputs_in_another_place);
}

int main(void)
{
    return run_cases("compare_wrong", add);
}
