/* The library's description of itself, as a binding reads it. */
#include "../support/pv_test.h"

START_TEST(kinds_are_found)
{
    int32_t specs = 0;

    for (int32_t i = 0; i < pvsize_kind_count(); i++) {
        int32_t kind = pvsize_kind_at(i);

        ck_assert_int_eq(pvsize_kind_by_name(pvsize_kind_name(kind)), kind);
        ck_assert_ptr_nonnull(pvsize_kind_plural(kind));
        ck_assert_ptr_nonnull(pvsize_kind_text(kind));
        specs += pvsize_kind_is_spec(kind);
    }
    ck_assert_int_eq(specs, 18);
    ck_assert_int_eq(pvsize_kind_at(-1), 0);
    ck_assert_int_eq(pvsize_kind_at(pvsize_kind_count()), 0);
    ck_assert_int_eq(pvsize_kind_by_name("roof"), 0);
    ck_assert_int_eq(pvsize_kind_by_name(NULL), 0);
    ck_assert_ptr_null(pvsize_kind_name(1));
    ck_assert_ptr_null(pvsize_kind_plural(-5));
    ck_assert_ptr_null(pvsize_kind_text(999999));
    ck_assert_int_eq(pvsize_kind_is_spec(PVSIZE_KIND_RULE), 0);
    ck_assert_int_eq(pvsize_kind_is_spec(1), 0);
}
END_TEST

START_TEST(parts_are_described)
{
    ck_assert_int_eq(pvsize_kind_part_count(PVSIZE_KIND_SYSTEM), 6);
    ck_assert_int_eq(pvsize_kind_part_at(PVSIZE_KIND_SYSTEM, 0), PVSIZE_KIND_SITE);
    ck_assert_int_eq(pvsize_kind_part_at(PVSIZE_KIND_SYSTEM, 4), PVSIZE_KIND_READING);
    ck_assert_int_eq(pvsize_kind_part_at(PVSIZE_KIND_SYSTEM, 6), 0);
    ck_assert_int_eq(pvsize_kind_part_at(PVSIZE_KIND_SYSTEM, -1), 0);
    ck_assert_int_eq(pvsize_kind_part_fewest(PVSIZE_KIND_ARRAY, PVSIZE_KIND_MODULE), 1);
    ck_assert_int_eq(pvsize_kind_part_most(PVSIZE_KIND_ARRAY, PVSIZE_KIND_MODULE), 1);
    ck_assert_int_eq(pvsize_kind_part_most(PVSIZE_KIND_ARRAY, PVSIZE_KIND_SITE), -1);
    ck_assert_int_eq(pvsize_kind_part_fewest(77, 88), -1);
    ck_assert_int_eq(pvsize_kind_part_count(77), 0);
}
END_TEST

static void check_range(int32_t term)
{
    double low, high, value;

    if (pvsize_term_range(term, &low, &high) != PVSIZE_OK)
        return;
    ck_assert_msg(low <= high, "%s", pvsize_term_name(term));
    if (pvsize_term_default(term, &value) == PVSIZE_OK)
        ck_assert_msg(low <= value && value <= high, "%s", pvsize_term_name(term));
}

START_TEST(terms_are_found)
{
    for (int32_t k = 0; k < pvsize_kind_count(); k++) {
        int32_t kind = pvsize_kind_at(k);

        for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
            int32_t term = pvsize_term_at(kind, i);

            ck_assert_int_eq(pvsize_term_kind(term), kind);
            ck_assert_int_eq(pvsize_term_by_name(kind, pvsize_term_name(term)), term);
            ck_assert_ptr_nonnull(pvsize_term_unit(term));
            ck_assert_ptr_nonnull(pvsize_term_text(term));
            ck_assert_int_gt(pvsize_term_type(term), 0);
            check_range(term);
        }
    }
    ck_assert_int_eq(pvsize_term_by_name(PVSIZE_KIND_MODULE, "volts"), 0);
    ck_assert_int_eq(pvsize_term_by_name(3, "voc"), 0);
    ck_assert_int_eq(pvsize_term_by_name(PVSIZE_KIND_MODULE, NULL), 0);
    ck_assert_int_eq(pvsize_term_at(PVSIZE_KIND_MODULE, -1), 0);
    ck_assert_int_eq(pvsize_term_at(PVSIZE_KIND_MODULE, 10000), 0);
}
END_TEST

START_TEST(what_is_not_found_is_told)
{
    int32_t term = 7;

    OK(pvsize_term_find(PVSIZE_KIND_MODULE, "voc", &term, diag));
    ck_assert_int_eq(term, PVSIZE_MODULE_VOC);
    term = 7;
    FAILS(PVSIZE_E_UNKNOWN_NAME,
          "module: no row of the table has this name; given 'vocc'; did you mean 'voc'?",
          pvsize_term_find(PVSIZE_KIND_MODULE, "vocc", &term, diag));
    FAILS(PVSIZE_E_UNKNOWN_NAME, "given 'string_voc_colt'; did you mean 'string_voc_cold'?",
          pvsize_term_find(PVSIZE_KIND_QUANTITY, "string_voc_colt", &term, diag));
    ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_QUANTITY, "x", &term, diag),
                     PVSIZE_E_UNKNOWN_NAME);
    ck_assert_int_eq(pvsize_diag_term(diag), PVSIZE_KIND_QUANTITY);
    FAILS(PVSIZE_E_UNKNOWN_NAME, "input: no row of the table has this name",
          pvsize_term_find(PVSIZE_KIND_INPUT, "", &term, diag));
    FAILS(PVSIZE_E_UNKNOWN_NAME, "given 'arays'; did you mean 'arrays'?",
          pvsize_term_find(PVSIZE_KIND_SYSTEM, "arays", &term, diag));
    FAILS(PVSIZE_E_UNKNOWN_NAME, "given 'arrays'; parts are added to it, not set",
          pvsize_term_find(PVSIZE_KIND_SYSTEM, "arrays", &term, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 3", pvsize_term_find(3, "voc", &term, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "name", pvsize_term_find(PVSIZE_KIND_MODULE, NULL, &term, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "term", pvsize_term_find(PVSIZE_KIND_MODULE, "voc", NULL, diag));
    ck_assert_int_eq(term, 7);
}
END_TEST

/* Another word is no slip, nor one with as many letters more as the name has; a name of any
 * length is taken. */
START_TEST(far_names_have_no_neighbour)
{
    static const char *const far[] = {"", "wombat", "colour", "ocv_of_it", "vocxyz"};
    char text[200], name[101] = "";
    int32_t term;

    memset(name, 'v', 100);
    for (size_t i = 0; i < sizeof far / sizeof far[0] + 1; i++) {
        ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_MODULE,
                                          i < sizeof far / sizeof far[0] ? far[i] : name, &term,
                                          diag),
                         PVSIZE_E_UNKNOWN_NAME);
        OK(pvsize_diag_text(diag, text, sizeof text, NULL));
        ck_assert_ptr_null(strstr(text, "did you mean"));
    }
    /* nor does a hint outlive its failure */
    ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_MODULE, "vocc", &term, diag),
                     PVSIZE_E_UNKNOWN_NAME);
    ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_MODULE, NULL, &term, diag),
                     PVSIZE_E_NULL_POINTER);
    OK(pvsize_diag_text(diag, text, sizeof text, NULL));
    ck_assert_ptr_null(strstr(text, "did you mean"));
}
END_TEST

START_TEST(numbers_that_are_no_terms)
{
    static const int32_t none[] = {0, -1, 999, 1000, 1999, 9099, 20000, INT32_MAX, INT32_MIN};

    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        ck_assert_ptr_null(pvsize_term_name(none[i]));
        ck_assert_ptr_null(pvsize_term_unit(none[i]));
        ck_assert_ptr_null(pvsize_term_text(none[i]));
        ck_assert_int_eq(pvsize_term_kind(none[i]), 0);
        ck_assert_int_eq(pvsize_term_type(none[i]), 0);
        ck_assert_int_eq(pvsize_term_need(none[i]), 0);
        ck_assert_int_eq(pvsize_term_scope(none[i]), 0);
        ck_assert_int_eq(pvsize_term_refers_to(none[i]), 0);
        ck_assert_int_eq(pvsize_term_rule_value(none[i]), 0);
        ck_assert_int_eq(pvsize_term_rule_compare(none[i]), 0);
        ck_assert_int_eq(pvsize_term_rule_limit(none[i]), 0);
        ck_assert_int_eq(pvsize_term_range(none[i], NULL, NULL), PVSIZE_E_UNKNOWN_NUMBER);
        ck_assert_int_eq(pvsize_term_default(none[i], NULL), PVSIZE_E_UNKNOWN_NUMBER);
        ck_assert_int_eq(pvsize_choice_count(none[i]), 0);
    }
}
END_TEST

START_TEST(terms_say_what_they_are)
{
    double low, high, value;

    ck_assert_str_eq(pvsize_term_unit(PVSIZE_MODULE_VOC), "V");
    ck_assert_int_eq(pvsize_term_need(PVSIZE_MODULE_VOC), PVSIZE_NEED_REQUIRED);
    ck_assert_int_eq(pvsize_term_range(PVSIZE_MODULE_VOC, &low, &high), PVSIZE_OK);
    ck_assert(low == 0.1 && high == 1500);
    ck_assert_int_eq(pvsize_term_range(PVSIZE_MODULE_NAME, &low, &high), PVSIZE_OK);
    ck_assert(low == 0 && high == 200);
    ck_assert_int_eq(pvsize_term_range(PVSIZE_RULE_TERMINALS, &low, &high), PVSIZE_E_NOT_SET);
    ck_assert_int_eq(pvsize_term_range(PVSIZE_SITE_BUILDING, &low, &high), PVSIZE_OK);
    ck_assert(low == 1 && high == 3);
    ck_assert_int_eq(pvsize_term_default(PVSIZE_MODULE_VOC, &value), PVSIZE_E_NOT_SET);
    ck_assert_int_eq(pvsize_term_default(PVSIZE_MODULE_CELL, NULL), PVSIZE_OK);
    ck_assert_int_eq(pvsize_term_default(PVSIZE_MODULE_CELL, &value), PVSIZE_OK);
    ck_assert(value == PVSIZE_CELL_CRYSTALLINE_SILICON);
    ck_assert_int_eq(pvsize_term_refers_to(PVSIZE_ARRAY_PLANE), PVSIZE_KIND_PLANE);
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_QUANTITY_PV_LIMIT), PVSIZE_KIND_INVERTER);
    ck_assert_int_eq(pvsize_term_scope(PVSIZE_FIGURE_ISC_FACTOR), 0);
    ck_assert_int_eq(pvsize_term_rule_value(PVSIZE_RULE_ISC_INPUT), PVSIZE_QUANTITY_INPUT_ISC_MAX);
    ck_assert_int_eq(pvsize_term_rule_compare(PVSIZE_RULE_ISC_INPUT), PVSIZE_COMPARE_AT_MOST);
    ck_assert_int_eq(pvsize_term_rule_limit(PVSIZE_RULE_ISC_INPUT),
                     PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT);
}
END_TEST

START_TEST(choices_are_named)
{
    ck_assert_int_eq(pvsize_choice_count(PVSIZE_SITE_BUILDING), 3);
    for (int32_t i = 0; i < pvsize_choice_count(PVSIZE_SITE_BUILDING); i++) {
        int32_t choice = pvsize_choice_at(PVSIZE_SITE_BUILDING, i);

        ck_assert_int_eq(pvsize_choice_by_name(PVSIZE_SITE_BUILDING,
                                               pvsize_choice_name(PVSIZE_SITE_BUILDING, choice)),
                         choice);
        ck_assert_ptr_nonnull(pvsize_choice_text(PVSIZE_SITE_BUILDING, choice));
    }
    ck_assert_int_eq(pvsize_choice_at(PVSIZE_SITE_BUILDING, 3), -1);
    ck_assert_int_eq(pvsize_choice_at(PVSIZE_SITE_BUILDING, -1), -1);
    ck_assert_int_eq(pvsize_choice_by_name(PVSIZE_SITE_BUILDING, "shed"), -1);
    ck_assert_int_eq(pvsize_choice_by_name(PVSIZE_SITE_BUILDING, NULL), -1);
    ck_assert_ptr_null(pvsize_choice_name(PVSIZE_SITE_BUILDING, 9));
    ck_assert_ptr_null(pvsize_choice_text(PVSIZE_SITE_BUILDING, 9));
    ck_assert_int_eq(pvsize_choice_count(PVSIZE_MODULE_VOC), 0);
    ck_assert_int_eq(pvsize_set_number("verdict"), PVSIZE_SET_VERDICT);
    ck_assert_int_eq(pvsize_set_number("verdicts"), 0);
    ck_assert_int_eq(pvsize_set_number(NULL), 0);
    ck_assert_int_eq(pvsize_set_by_name(PVSIZE_SET_VERDICT, "exceeds"), PVSIZE_VERDICT_EXCEEDS);
    ck_assert_str_eq(pvsize_set_name(PVSIZE_SET_KNOWN, PVSIZE_KNOWN_READ), "read");
    ck_assert_ptr_nonnull(pvsize_set_text(PVSIZE_SET_FORMAT, PVSIZE_FORMAT_PLAIN));
    ck_assert_int_eq(pvsize_set_count(0), 0);
    ck_assert_int_eq(pvsize_set_at(999, 0), -1);
}
END_TEST

/* Numbers of a set rise, and the range of a choice ends at the least and the greatest. */
START_TEST(choices_have_a_range)
{
    for (int32_t k = 0; k < pvsize_kind_count(); k++)
        for (int32_t i = 0; i < pvsize_term_count(pvsize_kind_at(k)); i++) {
            int32_t term = pvsize_term_at(pvsize_kind_at(k), i), least = INT32_MAX, most = -1;
            double low, high;

            if (pvsize_term_type(term) != PVSIZE_TYPE_CHOICE ||
                pvsize_term_range(term, &low, &high) != PVSIZE_OK)
                continue;
            for (int32_t c = 0; c < pvsize_choice_count(term); c++) {
                int32_t number = pvsize_choice_at(term, c);

                ck_assert_int_gt(number, most);
                least = number < least ? number : least;
                most = number > most ? number : most;
            }
            ck_assert_msg(low == least && high == most, "%s", pvsize_term_name(term));
        }
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "kinds", kinds_are_found);
    add_test(suite, "parts", parts_are_described);
    add_test(suite, "terms", terms_are_found);
    add_test(suite, "told", what_is_not_found_is_told);
    add_test(suite, "no neighbour", far_names_have_no_neighbour);
    add_test(suite, "no terms", numbers_that_are_no_terms);
    add_test(suite, "content", terms_say_what_they_are);
    add_test(suite, "choices", choices_are_named);
    add_test(suite, "ranges of choices", choices_have_a_range);
}

int main(void)
{
    return run_cases("terms", add);
}
