/* Bills as objects: text, subjects, wrong input, memory, asked in part. */
#include "../support/pv_bill.h"

static char *bill_text(int32_t format)
{
    size_t length;
    char *text;

    OK(pvsize_bill_render(bill, format, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_bill_render(bill, format, text, length + 1, NULL, diag));
    return text;
}

START_TEST(texts)
{
    pvsize_spec *system = invented_system();
    char line[400], *text;

    OK(pvsize_spec_set_text(system, PVSIZE_SYSTEM_NAME, "job | one", diag));
    fill(system); /* the system and the rules are gone now */
    OK(pvsize_bill_text(bill, 0, line, sizeof line, NULL, diag));
    ck_assert_str_eq(line, "26: PV modules, module type 1, rated power 430 W; for array 1 18, "
                           "array 2 8; by quantity.array_modules");
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_CONNECTOR_PAIR, 1), line, sizeof line, NULL,
                        diag));
    ck_assert_str_eq(line, "4 pairs (3 and 10 % more): d.c. connectors, plug and socket for "
                           "cables, to mate with inverter 1; for array 1 2, array 2 1; by "
                           "array.strings");
    OK(pvsize_bill_text(bill, row_of(PVSIZE_ITEM_CABLE, 1), line, sizeof line, NULL, diag));
    ck_assert_str_eq(line, "not known: needs cable.length: cable, metres of single conductor, "
                           "circuit ac; for inverter 1; by cable");
    text = bill_text(PVSIZE_FORMAT_PLAIN);
    ck_assert_ptr_nonnull(strstr(text, "What must be bought: job | one\nRule set: AS/NZS 5033"));
    ck_assert_ptr_nonnull(strstr(text, "CAUTION"));
    ck_assert_ptr_nonnull(strstr(text, "licensed person"));
    ck_assert_ptr_nonnull(strstr(text, "\n== not known yet\n   not known: needs cable.length"));
    ck_assert_ptr_nonnull(strstr(text, "\n== none\n   none: string fuses"));
    ck_assert_ptr_nonnull(strstr(text, "10 %; common practice"));
    free(text);
    text = bill_text(PVSIZE_FORMAT_MARKDOWN);
    ck_assert_ptr_nonnull(strstr(text, "# What must be bought: job \\| one"));
    ck_assert_ptr_nonnull(strstr(text, "> CAUTION"));
    ck_assert_ptr_nonnull(strstr(text, "| 26 | PV modules, module type 1, rated power 430 W | "
                                       "array 1 18, array 2 8; by quantity.array_modules |"));
    free(text);
    done();
}
END_TEST

START_TEST(subjects_are_those_of_the_report)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t number, kind, index, type, outcome, of_report;

    fill(system);
    OK(pvsize_bill_share(bill, row_of(PVSIZE_ITEM_DC_ISOLATOR, 0), 1, &number, NULL, NULL, diag));
    OK(pvsize_report_subject(report, number, &kind, &index, NULL, diag));
    ck_assert(kind == PVSIZE_KIND_INPUT && index == 1);
    OK(pvsize_bill_row(bill, 0, NULL, NULL, &type, NULL, diag));
    OK(pvsize_report_subject(report, type, &kind, &index, NULL, diag));
    ck_assert(kind == PVSIZE_KIND_MODULE && index == 0);
    OK(pvsize_bill_outcome(bill, &outcome, diag));
    OK(pvsize_report_outcome(report, &of_report, diag));
    ck_assert_int_eq(outcome, of_report);
    pvsize_report_free(report);
    done();
}
END_TEST

START_TEST(wrong_input)
{
    pvsize_spec *system = invented_system(), *module = invented_module();
    pvsize_spec *empty = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    char small[5];
    int32_t count;

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_bill_new(NULL, NULL, diag));
    OK(pvsize_bill_new(NULL, &bill, diag));
    OK(pvsize_bill_count(bill, &count, diag));
    ck_assert_int_eq(count, 0);
    FAILS(PVSIZE_E_NOT_SET, "no value", pvsize_bill_outcome(bill, &count, diag));
    FAILS(PVSIZE_E_NOT_SET, "no value",
          pvsize_bill_render(bill, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "no value", pvsize_bill_subject_text(bill, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 0", pvsize_bill_text(bill, 0, NULL, 0, NULL, diag));
    fill_by(system, rules);
    FAILS(PVSIZE_E_WRONG_KIND, "a system", pvsize_bill_fill(module, rules, bill, diag));
    FAILS(PVSIZE_E_MISSING_PART, "site", pvsize_bill_fill(empty, rules, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "system", pvsize_bill_fill(NULL, rules, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules", pvsize_bill_fill(system, NULL, bill, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_fill(system, rules, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "system", pvsize_bill_fill((void *)rules, rules, bill, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "rules", pvsize_bill_fill(system, (void *)system, bill, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "bill", pvsize_bill_fill(system, rules, (void *)rules, diag));
    comes_to(PVSIZE_ITEM_MODULE, 0, 26, 26); /* none of these changed it */
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_bill_count(bill, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "outcome", pvsize_bill_outcome(bill, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_row(bill, -1, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k: index outside the list; given 2; allowed 0 to 1",
          pvsize_bill_share(bill, 0, 2, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k: index outside",
          pvsize_bill_attribute(bill, 0, 1, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 99", pvsize_bill_assumption(bill, 99, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject", pvsize_bill_subject_text(bill, 99, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_subject_text(NULL, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_bill_render(bill, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format", pvsize_bill_render(bill, 9, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_CAPACITY, "too small",
          pvsize_bill_text(bill, 0, small, sizeof small, NULL, diag));
    ck_assert_str_eq(small, "26: ");
    FAILS(PVSIZE_E_WRONG_KIND, "number to compare",
          pvsize_rules_add(rules, "own", "own", PVSIZE_ATTRIBUTE_POWER, PVSIZE_COMPARE_AT_MOST, 0,
                           1, PVSIZE_SEVERITY_MUST, NULL, NULL, diag));
    pvsize_bill_free(NULL);
    pvsize_bill_free((void *)rules); /* not one: left alone */
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    pvsize_spec_free(module);
    pvsize_spec_free(empty);
    done();
}
END_TEST

START_TEST(failing_memory_keeps_the_bill)
{
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_spec *small = invented_system(), *large = six_inputs();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_status status = PVSIZE_E_NO_MEMORY;
    char *before, *after;
    long tried;

    c.fail_at = 0;
    FAILS(PVSIZE_E_NO_MEMORY, "null", pvsize_bill_new(&memory, &bill, diag));
    ck_assert_ptr_null(bill);
    c.fail_at = -1;
    OK(pvsize_bill_new(&memory, &bill, diag));
    OK(pvsize_bill_fill(small, rules, bill, diag));
    before = bill_text(PVSIZE_FORMAT_PLAIN);
    for (tried = 0; status == PVSIZE_E_NO_MEMORY; tried++) {
        c.fail_at = c.made + tried;
        status = pvsize_bill_fill(large, rules, bill, NULL);
        after = bill_text(PVSIZE_FORMAT_PLAIN);
        ck_assert_int_eq(strcmp(before, after) == 0, status != PVSIZE_OK);
        free(after);
    }
    ck_assert_int_eq(status, PVSIZE_OK);
    ck_assert_int_gt(tried, 8);
    free(before);
    done();
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(small);
    pvsize_spec_free(large);
}
END_TEST

/* What is not asked for need not be there, and a row that is not there says so by its place. */
START_TEST(a_bill_is_asked_in_part)
{
    int32_t count, term, subject, why;
    double value;

    fill(cabled_system());
    OK(pvsize_bill_attribute(bill, 0, 0, NULL, NULL, NULL, diag));
    OK(pvsize_bill_attribute(bill, 0, 0, &term, &value, NULL, diag));
    ck_assert(term == PVSIZE_ATTRIBUTE_POWER && value == 430);
    OK(pvsize_bill_share(bill, 0, 1, NULL, NULL, &why, diag));
    OK(pvsize_bill_share(bill, 0, 1, NULL, &value, NULL, diag));
    ck_assert(why == PVSIZE_QUANTITY_ARRAY_MODULES && value == 8);
    OK(pvsize_bill_assumption(bill, 0, NULL, &value, NULL, diag));
    OK(pvsize_bill_assumption(bill, 0, &term, NULL, &subject, diag));
    ck_assert(term == PVSIZE_FIGURE_CONNECTOR_SPARE && value == 10 && subject == -1);
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_attribute_count(bill, 99, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside", pvsize_bill_share_count(bill, -1, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_attribute(bill, 99, 0, &term, &value, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "i: index outside",
          pvsize_bill_share(bill, 99, 0, &subject, &value, &why, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_row(NULL, 0, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "bill", pvsize_bill_assumption(NULL, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_bill_share_count(bill, 0, NULL, diag));
    done();
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "texts", texts);
    add_test(suite, "subjects", subjects_are_those_of_the_report);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "failing memory", failing_memory_keeps_the_bill);
    add_test(suite, "asked in part", a_bill_is_asked_in_part);
}

int main(void)
{
    return run_cases("bill_object", add);
}
