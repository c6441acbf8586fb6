/* Reports of a check are used again, and their subjects are found again. */
#include "../support/pv_check.h"

/* Module type 2 is that of array 1, and its findings say so. */
START_TEST(module_types_lead_back_to_an_array)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t subject, kind, index, owner, array;

    change_in(system, PVSIZE_KIND_ARRAY, 1, 0, PVSIZE_MODULE_VMP, 39);
    report = checked_au(system);
    OK(pvsize_report_finding(report, finding_of(report, PVSIZE_RULE_DATA_VMP, 0), NULL, NULL, NULL,
                             &subject, diag));
    OK(pvsize_report_subject(report, subject, &kind, &index, &owner, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_MODULE);
    ck_assert_int_eq(index, 1);
    OK(pvsize_report_find(report, PVSIZE_KIND_ARRAY, 1, -1, &array, diag));
    ck_assert_int_eq(owner, array);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* A report is filled again, larger and smaller, as if it were new. */
START_TEST(reports_are_reused)
{
    pvsize_spec *system = invented_system(), *module = invented_module();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report, *fresh = checked(system, rules);
    char *first = rendered(fresh, PVSIZE_FORMAT_PLAIN, 1), *again;

    OK(pvsize_report_new(NULL, &report, diag));
    OK(pvsize_check(module, rules, report, diag));
    OK(pvsize_check(system, rules, report, diag));
    OK(pvsize_check(module, rules, report, diag));
    OK(pvsize_check(system, rules, report, diag));
    again = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    ck_assert_str_eq(first, again);
    free(first);
    free(again);
    pvsize_report_free(report);
    pvsize_report_free(fresh);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
}
END_TEST

/* Every subject is found again by what it says of itself, and an array leads to
 * all it hangs on. */
START_TEST(subjects_are_found_again)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t count, kind, index, owner, found, steps = 0;
    char text[100];
    double value;

    OK(pvsize_report_subject_count(report, &count, diag));
    ck_assert_int_eq(count, 10); /* system, site, 2 planes, inverter, 2 inputs, 2 arrays, module */
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_report_subject(report, i, &kind, &index, &owner, diag));
        OK(pvsize_report_find(report, kind, index, owner, &found, diag));
        ck_assert_int_eq(found, i);
        OK(pvsize_report_subject_text(report, i, text, sizeof text, NULL, diag));
        ck_assert_uint_gt(strlen(text), 0);
    }
    OK(pvsize_report_find(report, PVSIZE_KIND_ARRAY, 1, -1, &found, diag));
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_INPUT_IMP, found, &value, diag));
    NEAR(value, 13.23, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT, found, &value, diag));
    NEAR(value, -0.25, 1e-12);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_SYSTEM_MODULES, found, &value, diag));
    ck_assert(value == 26);
    while (found >= 0 && steps++ < 10)
        OK(pvsize_report_subject(report, found, &kind, NULL, &found, diag));
    ck_assert_int_eq(kind, PVSIZE_KIND_SYSTEM);
    ck_assert_int_eq(steps, 4);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* Inputs count within their inverter, and from 0. */
START_TEST(inputs_are_found_on_their_inverter)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t inverter, input = 7;

    OK(pvsize_report_find(report, PVSIZE_KIND_INVERTER, 0, -1, &inverter, diag));
    for (int32_t i = -1; i <= 2; i += 3)
        FAILS(PVSIZE_E_BAD_INDEX, "input: index outside the list; given ",
              pvsize_report_find(report, PVSIZE_KIND_INPUT, i, inverter, &input, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "inverter",
          pvsize_report_find(report, PVSIZE_KIND_INPUT, 0, 0, &input, diag));
    ck_assert_int_eq(input, 7);
    for (int32_t i = 0; i < 2; i++) {
        int32_t index, owner;

        OK(pvsize_report_find(report, PVSIZE_KIND_INPUT, i, inverter, &input, diag));
        OK(pvsize_report_subject(report, input, NULL, &index, &owner, diag));
        ck_assert(index == i && owner == inverter);
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "module types", module_types_lead_back_to_an_array);
    add_test(suite, "reuse", reports_are_reused);
    add_test(suite, "subjects", subjects_are_found_again);
    add_test(suite, "inputs", inputs_are_found_on_their_inverter);
}

int main(void)
{
    return run_cases("check_report", add);
}
