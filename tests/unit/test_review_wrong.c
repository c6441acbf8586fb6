/* The page of a review, wrong input and memory. */
#include "../support/pv_review.h"

static pvsize_spec *invented_enquiry(void)
{
    pvsize_spec *enquiry =
        SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_PLANE, 1, PVSIZE_ENQUIRY_VOC_COEFFICIENT_LOW, -0.3,
             PVSIZE_ENQUIRY_VOC_COEFFICIENT_HIGH, -0.24, PVSIZE_ENQUIRY_VMP_COEFFICIENT_LOW, -0.36);
    pvsize_spec *large = invented_module();

    give(enquiry, invented_module());
    OK(pvsize_spec_set_number(large, PVSIZE_MODULE_ISC, 18.4, diag));
    OK(pvsize_spec_set_text(large, PVSIZE_MODULE_NAME, "large | invented", diag));
    give(enquiry, large);
    return enquiry;
}

START_TEST(page_outlives_what_it_was_made_from)
{
    pvsize_spec *inverter = invented_inverter(), *site = invented_site();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review;
    char *text;

    OK(pvsize_rules_add(rules, "shop_isc", "largest current of the shop",
                        PVSIZE_QUANTITY_INPUT_ISC_MAX, PVSIZE_COMPARE_AT_MOST, 0, 30,
                        PVSIZE_SEVERITY_MUST, "shop", NULL, diag));
    review = reviewed(inverter, site, enquiry, rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(enquiry);
    pvsize_rules_free(rules);
    text = page_of(review, PVSIZE_FORMAT_PLAIN);
    ck_assert_ptr_nonnull(strstr(text, "CAUTION: "));
    ck_assert_ptr_nonnull(strstr(text, "largest current of the shop, 30 A (must, governs)"));
    ck_assert_ptr_nonnull(strstr(text, "may go on the input; fewest modules in a string: "));
    ck_assert_ptr_nonnull(strstr(text, "must not go on the input: "));
    ck_assert_ptr_nonnull(strstr(text, "Why it matters: "));
    free(text);
    text = page_of(review, PVSIZE_FORMAT_MARKDOWN);
    ck_assert_ptr_nonnull(strstr(text, "# What may go on the inverter"));
    ck_assert_ptr_nonnull(strstr(text, "large \\| invented"));
    free(text);
    pvsize_review_free(review);
}
END_TEST

START_TEST(wrong_input)
{
    pvsize_spec *inverter = trade_inverter(), *site = invented_site(), *module = invented_module();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_review *review, *fresh;
    int32_t count, told = 0;
    double value;
    char text[8];

    FAILS(PVSIZE_E_NULL_POINTER, "out", pvsize_review_new(NULL, NULL, diag));
    OK(pvsize_review_new(NULL, &fresh, diag));
    FAILS(PVSIZE_E_NOT_SET, "",
          pvsize_review_render(fresh, PVSIZE_FORMAT_PLAIN, NULL, 0, NULL, diag));
    pvsize_review_free(fresh);
    review = reviewed(inverter, site, enquiry, rules);
    FAILS(PVSIZE_E_NULL_POINTER, "inverter",
          pvsize_review_inverter(NULL, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'inverter'",
          pvsize_review_inverter(module, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'site'",
          pvsize_review_inverter(inverter, module, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "it takes 'enquiry'",
          pvsize_review_inverter(inverter, site, module, rules, review, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "inverter",
          pvsize_review_inverter((const pvsize_spec *)rules, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules",
          pvsize_review_inverter(inverter, site, enquiry, NULL, review, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review",
          pvsize_review_inverter(inverter, site, enquiry, rules, NULL, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "review",
          pvsize_review_inverter(inverter, site, enquiry, rules, (pvsize_review *)rules, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "enquiry.plane",
          pvsize_review_inverter(inverter, NULL, enquiry, rules, review, diag));
    OK(pvsize_spec_set_number(enquiry, PVSIZE_ENQUIRY_PLANE, 2, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "enquiry.plane",
          pvsize_review_inverter(inverter, site, enquiry, rules, review, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "enquiry.voc_coefficient_low",
          pvsize_spec_set_number(enquiry, PVSIZE_ENQUIRY_VOC_COEFFICIENT_LOW, 0.3, diag));
    OK(pvsize_review_module_count(review, &count, diag)); /* still the first one */
    ck_assert_int_eq(count, 4);
    FAILS(PVSIZE_E_NULL_POINTER, "count", pvsize_review_bound_count(review, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review", pvsize_review_bound_count(NULL, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "-1", pvsize_review_bound(review, -1, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "9999",
          pvsize_review_bound_numbers(review, 9999, &value, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "4", pvsize_review_module(review, 4, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what", pvsize_review_module_room(review, 0, 77, &count, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "what",
          pvsize_review_module_stop(review, 0, -1, NULL, NULL, NULL, NULL, diag));
    while (pvsize_review_remark_number(review, told, 0, &value, NULL) == PVSIZE_E_BAD_INDEX &&
           told < 99)
        told++; /* the first with a number in it */
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_review_remark_number(review, 0, 9, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "k", pvsize_review_remark_number(review, told, -1, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "value", pvsize_review_remark_number(review, told, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "count",
          pvsize_review_module_room(review, 0, PVSIZE_ROOM_MODULES_MIN, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "review", pvsize_review_bound(NULL, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_review_render(review, PVSIZE_FORMAT_PLAIN, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "format", pvsize_review_render(review, 0, NULL, 0, NULL, diag));
    ck_assert_int_eq(pvsize_review_bound_text(review, 0, text, sizeof text, NULL, diag),
                     PVSIZE_E_CAPACITY);
    ck_assert_ptr_null(pvsize_remark_sentence(4711));
    pvsize_review_free(review);
    pvsize_review_free(NULL);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(module);
    pvsize_spec_free(enquiry);
    pvsize_rules_free(rules);
}
END_TEST

/* An inverter of which nothing is known is no error: all is named as missing. */
START_TEST(empty_data)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 5000);
    pvsize_spec *enquiry = SPEC(PVSIZE_KIND_ENQUIRY, PVSIZE_ENQUIRY_MOST_STRINGS, 3);
    pvsize_spec *input, *module;
    pvsize_rules *rules = preset("asnzs_5033_2021"), *none = preset(NULL);
    pvsize_review *review;
    int32_t count, accepted = 0;

    OK(pvsize_spec_new(PVSIZE_KIND_MODULE, NULL, &module, diag));
    give(enquiry, module);
    review = reviewed(inverter, NULL, enquiry, rules); /* no input */
    OK(pvsize_review_module_count(review, &count, diag));
    ck_assert_int_eq(count, 0);
    OK(pvsize_spec_new(PVSIZE_KIND_INPUT, NULL, &input, diag));
    give(inverter, input);
    OK(pvsize_review_inverter(inverter, NULL, enquiry, rules, review, diag));
    OK(pvsize_review_module(review, 0, NULL, NULL, &accepted, NULL, diag));
    ck_assert_int_eq(accepted, PVSIZE_ACCEPTED_INCOMPLETE);
    OK(pvsize_review_inverter(inverter, NULL, enquiry, none, review, diag)); /* no rule */
    OK(pvsize_review_bound_count(review, &count, diag));
    ck_assert_int_eq(count, 0);
    free(page_of(review, PVSIZE_FORMAT_PLAIN));
    pvsize_review_free(review);
    pvsize_rules_free(rules);
    pvsize_rules_free(none);
    pvsize_spec_free(inverter);
    pvsize_spec_free(enquiry);
}
END_TEST

/* The data of the only input contradict each other in all that is looked at. */
static void contradict(pvsize_spec *inverter)
{
    static const double values[][2] = {
        {PVSIZE_INPUT_TRACKING_MIN, 700},        {PVSIZE_INPUT_TRACKING_MAX, 650},
        {PVSIZE_INPUT_FULL_POWER_MIN, 600},      {PVSIZE_INPUT_FULL_POWER_MAX, 500},
        {PVSIZE_INPUT_START_VOLTAGE, 700},       {PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 5},
        {PVSIZE_INPUT_MAX_OPERATING_CURRENT, 11}};
    pvsize_spec *input;

    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 0, NULL, &input, diag));
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        OK(pvsize_spec_set_number(input, (int32_t)values[i][0], values[i][1], diag));
    OK(pvsize_spec_replace(inverter, 0, input, diag));
    pvsize_spec_free(input);
    OK(pvsize_spec_set_number(inverter, PVSIZE_INVERTER_RATED_APPARENT_POWER, 5000, diag));
}

START_TEST(every_allocation_fails_once)
{
    pvsize_spec *inverter = trade_inverter(), *site = invented_site();
    pvsize_spec *enquiry = invented_enquiry();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    counter c = {0, 0, -1};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_review *review;
    char *before, *after;
    pvsize_status status = PVSIZE_E_NO_MEMORY;

    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    OK(pvsize_spec_remove(enquiry, PVSIZE_KIND_MODULE, 1, diag));
    contradict(inverter); /* each is a remark, for which room is taken */
    FAILS(PVSIZE_E_NO_MEMORY, "null", (c.fail_at = 0, pvsize_review_new(&memory, &review, diag)));
    c.fail_at = -1;
    OK(pvsize_review_new(&memory, &review, diag));
    OK(pvsize_review_inverter(inverter, NULL, NULL, rules, review, diag));
    before = page_of(review, PVSIZE_FORMAT_PLAIN);
    for (long n = 0; status; n++) {
        long live = c.live;

        c.fail_at = c.made + n;
        status = pvsize_review_inverter(inverter, site, enquiry, rules, review, NULL);
        if (!status)
            break;
        ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
        ck_assert_int_eq(c.live, live);
        after = page_of(review, PVSIZE_FORMAT_PLAIN);
        ck_assert_str_eq(before, after);
        free(after);
    }
    free(before);
    pvsize_review_free(review);
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(inverter);
    pvsize_spec_free(site);
    pvsize_spec_free(enquiry);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "page", page_outlives_what_it_was_made_from);
    add_test(suite, "wrong input", wrong_input);
    add_test(suite, "empty", empty_data);
    add_test(suite, "memory", every_allocation_fails_once);
}

int main(void)
{
    return run_cases("review_wrong", add);
}
