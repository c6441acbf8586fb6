/* Specs: every parameter of every kind round-trips, and parts are copied. */
#include "../support/pv_test.h"

static double a_value(int32_t term)
{
    double low = 0, high = 0;

    if (pvsize_term_type(term) == PVSIZE_TYPE_CHOICE)
        return pvsize_choice_at(term, pvsize_choice_count(term) - 1);
    pvsize_term_range(term, &low, &high);
    return high;
}

static void round_trip(pvsize_spec *spec, int32_t term)
{
    double value = a_value(term), got;
    int32_t state;
    char text[64];

    if (pvsize_term_type(term) == PVSIZE_TYPE_TEXT) {
        OK(pvsize_spec_set_text(spec, term, "Rosella", diag));
        OK(pvsize_spec_get_text(spec, term, text, sizeof text, NULL, diag));
        ck_assert_str_eq(text, "Rosella");
    } else {
        OK(pvsize_spec_set_number(spec, term, value, diag));
        OK(pvsize_spec_get_number(spec, term, &got, diag));
        ck_assert(got == value);
    }
    OK(pvsize_spec_state(spec, term, &state, diag));
    ck_assert_int_eq(state, PVSIZE_STATE_SET);
    OK(pvsize_spec_unset(spec, term, diag));
    OK(pvsize_spec_state(spec, term, &state, diag));
    ck_assert_int_eq(state, pvsize_term_need(term) == PVSIZE_NEED_DEFAULT ? PVSIZE_STATE_DEFAULT
                                                                          : PVSIZE_STATE_UNSET);
}

START_TEST(every_parameter_round_trips)
{
    for (int32_t k = 0; k < pvsize_kind_count(); k++) {
        int32_t kind = pvsize_kind_at(k);
        pvsize_spec *spec;

        if (!pvsize_kind_is_spec(kind))
            continue;
        OK(pvsize_spec_new(kind, NULL, &spec, diag));
        ck_assert_int_eq(pvsize_spec_kind(spec), kind);
        for (int32_t i = 0; i < pvsize_term_count(kind); i++)
            round_trip(spec, pvsize_term_at(kind, i));
        pvsize_spec_free(spec);
    }
}
END_TEST

static void beyond(pvsize_spec *spec, int32_t term, double value)
{
    double before = a_value(term), after;

    OK(pvsize_spec_set_number(spec, term, before, diag));
    ck_assert_int_ne(pvsize_spec_set_number(spec, term, value, diag), PVSIZE_OK);
    ck_assert_int_eq(pvsize_diag_term(diag), term);
    OK(pvsize_spec_get_number(spec, term, &after, diag));
    ck_assert(after == before);
}

START_TEST(every_range_has_hard_ends)
{
    for (int32_t k = 0; k < pvsize_kind_count(); k++) {
        int32_t kind = pvsize_kind_at(k);
        pvsize_spec *spec;

        if (!pvsize_kind_is_spec(kind))
            continue;
        OK(pvsize_spec_new(kind, NULL, &spec, diag));
        for (int32_t i = 0; i < pvsize_term_count(kind); i++) {
            int32_t term = pvsize_term_at(kind, i);
            double low, high;

            if (pvsize_term_type(term) == PVSIZE_TYPE_TEXT)
                continue;
            OK(pvsize_term_range(term, &low, &high));
            OK(pvsize_spec_set_number(spec, term, low, diag));
            OK(pvsize_spec_set_number(spec, term, high, diag));
            beyond(spec, term, nextafter(low, -INFINITY));
            beyond(spec, term, nextafter(high, INFINITY));
            beyond(spec, term, NAN);
            beyond(spec, term, INFINITY);
            beyond(spec, term, -INFINITY);
        }
        pvsize_spec_free(spec);
    }
}
END_TEST

START_TEST(defaults_are_in_force)
{
    pvsize_spec *module = SPEC(PVSIZE_KIND_MODULE, 0);
    char text[64];
    size_t length;
    double value;

    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_CELL, &value, diag));
    ck_assert(value == PVSIZE_CELL_CRYSTALLINE_SILICON);
    OK(pvsize_spec_get_text(module, PVSIZE_MODULE_CELL, text, sizeof text, &length, diag));
    ck_assert_str_eq(text, "crystalline_silicon");
    ck_assert_uint_eq(length, strlen(text));
    OK(pvsize_spec_set_text(module, PVSIZE_MODULE_CELL, "cigs", diag));
    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_CELL, &value, diag));
    ck_assert(value == PVSIZE_CELL_CIGS);
    pvsize_spec_free(module);
}
END_TEST

START_TEST(negative_zero_is_zero)
{
    pvsize_spec *site = SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, -0.0);
    double value;

    OK(pvsize_spec_get_number(site, PVSIZE_SITE_TEMP_MIN, &value, diag));
    ck_assert(value == 0 && !signbit(value));
    pvsize_spec_free(site);
}
END_TEST

START_TEST(many_numbers_are_set_as_one)
{
    static const int32_t terms[] = {PVSIZE_MODULE_VOC, PVSIZE_MODULE_ISC, PVSIZE_MODULE_PMAX};
    static const double good[] = {40, 10, 400}, bad[] = {41, 11, -1};
    pvsize_spec *module = SPEC(PVSIZE_KIND_MODULE, 0);
    double value;

    OK(pvsize_spec_set_numbers(module, terms, good, 3, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "module.pmax",
          pvsize_spec_set_numbers(module, terms, bad, 3, diag));
    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_VOC, &value, diag));
    ck_assert(value == 40);
    OK(pvsize_spec_set_numbers(module, NULL, NULL, 0, diag));
    pvsize_spec_free(module);
}
END_TEST

START_TEST(parts_are_copies)
{
    pvsize_spec *inverter = invented_inverter(), *input = invented_input(3), *out;
    int32_t count, index;
    double value;

    OK(pvsize_spec_add(inverter, input, &index, diag));
    ck_assert_int_eq(index, 2);
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_TERMINALS, 9, diag));
    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 2, NULL, &out, diag));
    OK(pvsize_spec_get_number(out, PVSIZE_INPUT_TERMINALS, &value, diag));
    ck_assert(value == 3);
    pvsize_spec_free(out);
    OK(pvsize_spec_replace(inverter, 0, input, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 1, diag));
    OK(pvsize_spec_part_count(inverter, PVSIZE_KIND_INPUT, &count, diag));
    ck_assert_int_eq(count, 2);
    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 0, NULL, &out, diag));
    OK(pvsize_spec_get_number(out, PVSIZE_INPUT_TERMINALS, &value, diag));
    ck_assert(value == 9);
    pvsize_spec_free(out);
    OK(pvsize_spec_set_part_number(inverter, 1, PVSIZE_INPUT_TERMINALS, 7, diag));
    OK(pvsize_spec_part(inverter, PVSIZE_KIND_INPUT, 1, NULL, &out, diag));
    OK(pvsize_spec_get_number(out, PVSIZE_INPUT_TERMINALS, &value, diag));
    ck_assert(value == 7);
    pvsize_spec_free(out);
    pvsize_spec_free(input);
    pvsize_spec_free(inverter);
}
END_TEST

START_TEST(clones_are_whole_and_apart)
{
    pvsize_spec *system = invented_system(), *clone, *other;
    pvsize_report *before = checked_au(system), *after;
    char *first = rendered(before, PVSIZE_FORMAT_PLAIN, 1), *second;

    OK(pvsize_spec_clone(system, NULL, &clone, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 1, diag));
    pvsize_spec_free(system);
    after = checked_au(clone);
    second = rendered(after, PVSIZE_FORMAT_PLAIN, 1);
    ck_assert_str_eq(first, second);
    OK(pvsize_spec_clone(clone, NULL, &other, diag));
    pvsize_spec_free(clone);
    pvsize_spec_free(other);
    free(first);
    free(second);
    pvsize_report_free(before);
    pvsize_report_free(after);
}
END_TEST

START_TEST(lists_have_their_most)
{
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, 0), *input = SPEC(PVSIZE_KIND_INPUT, 0);
    pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, 0), *module = SPEC(PVSIZE_KIND_MODULE, 0);
    int32_t count;

    for (int i = 0; i < 64; i++)
        OK(pvsize_spec_add(inverter, input, NULL, diag));
    FAILS(PVSIZE_E_TOO_MANY, "allowed 0 to 64", pvsize_spec_add(inverter, input, NULL, diag));
    OK(pvsize_spec_part_count(inverter, PVSIZE_KIND_INPUT, &count, diag));
    ck_assert_int_eq(count, 64);
    OK(pvsize_spec_add(array, module, NULL, diag));
    FAILS(PVSIZE_E_TOO_MANY, "module", pvsize_spec_add(array, module, NULL, diag));
    pvsize_spec_free(inverter);
    pvsize_spec_free(input);
    pvsize_spec_free(array);
    pvsize_spec_free(module);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "round trip", every_parameter_round_trips);
    add_test(suite, "ranges", every_range_has_hard_ends);
    add_test(suite, "defaults", defaults_are_in_force);
    add_test(suite, "negative zero", negative_zero_is_zero);
    add_test(suite, "set many", many_numbers_are_set_as_one);
    add_test(suite, "parts", parts_are_copies);
    add_test(suite, "clones", clones_are_whole_and_apart);
    add_test(suite, "most", lists_have_their_most);
}

int main(void)
{
    return run_cases("spec", add);
}
