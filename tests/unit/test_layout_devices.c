/* String devices and isolators in the answers of a search. */
#include "../support/pv_layout.h"

/* A plane, and an inverter with an input for up to three strings. */
static pvsize_spec *question_of_one_input(double capacity)
{
    pvsize_spec *search = question(10.5, capacity, 0, 0), *system, *inverter = trade_inverter();

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 1, diag));
    OK(pvsize_spec_remove(inverter, PVSIZE_KIND_INPUT, 0, diag));
    give(inverter, trade_input(40, 60, 3));
    give(system, inverter);
    OK(pvsize_spec_replace(search, 0, system, diag));
    pvsize_spec_free(system);
    return search;
}

/* Three strings of Isc 10.5 A: two feed 21 A into the third, above a module's 20 A, so each needs
 * a device of more than 1.5 and under 2.4 times Isc, at most 20 A (IEC 62548): of the usual gPV
 * ratings (IEC 60269-6) 16 A is the smallest. */
START_TEST(devices_and_isolators_stand_in_the_answer)
{
    pvsize_spec *search = question_of_one_input(33), *system, *array;
    pvsize_spec *module;
    pvsize_layouts *layouts;
    double value;

    OK(pvsize_spec_part(search, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, 20, diag));
    OK(pvsize_spec_replace(search, 0, module, diag));
    pvsize_spec_free(module);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICE_VOLTAGE, 1000, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_EXTERNAL_ISOLATOR, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 21, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 7, diag));
    layouts = searched(search);
    ck_assert_int_gt(count_of(layouts), 0);
    NEAR(number(layouts, 0, PVSIZE_LAYOUT_DEVICES), 3, 1e-12);
    OK(pvsize_layouts_system(layouts, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE, &value, diag));
    NEAR(value, 16, 1e-12);
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, &value, diag));
    NEAR(value, 1000, 1e-12);
    OK(pvsize_spec_get_number(array, PVSIZE_ARRAY_EXTERNAL_ISOLATOR, &value, diag));
    ck_assert(value == PVSIZE_ANSWER_YES);
    pvsize_layouts_free(layouts);
    pvsize_spec_free(array);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

/* Three strings of one module each need a device; of which rating, the module's largest series
 * fuse decides: 16 A is the smallest above 1.5 times 10.5 A (IEC 62548), and none of 15 A or less
 * will do. Without a voltage asked for, none is stated. */
START_TEST(a_rating_that_does_not_exist)
{
    pvsize_spec *search = question_of_one_input(9), *system, *array;
    pvsize_layouts *layouts;
    double strings;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 3, diag));
    for (int32_t fuse = 15; fuse <= 16; fuse++) {
        pvsize_spec *module = trade_module(10.5);

        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, fuse, diag));
        OK(pvsize_spec_replace(search, 0, module, diag));
        pvsize_spec_free(module);
        layouts = searched(search);
        ck_assert_int_gt(count_of(layouts), 0);
        strings = number(layouts, 0, PVSIZE_LAYOUT_STRINGS);
        ck_assert(strings == (fuse == 16 ? 3 : 2));
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == 3 * strings);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_DEVICES) == (fuse == 16 ? 3 : 0));
        OK(pvsize_layouts_system(layouts, 0, NULL, &system, diag));
        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        FAILS(PVSIZE_E_NOT_SET, "string_device_voltage",
              pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE, &strings, diag));
        pvsize_spec_free(array);
        pvsize_spec_free(system);
        pvsize_layouts_free(layouts);
    }
    pvsize_spec_free(search);
}
END_TEST

/* What so many strings of one length need, so many of another length need as well: every
 * string of three or more has its device. */
START_TEST(devices_of_every_length)
{
    static const struct {
        int32_t figure;
        double value;
    } figures[] = {
        {PVSIZE_FIGURE_DEVICE_TRIGGER_FACTOR, 1},
        {PVSIZE_FIGURE_DEVICE_TRIGGER_SHARE, 1},
        {PVSIZE_FIGURE_DEVICE_TRIGGER_BACKFEED, PVSIZE_ANSWER_NO},
        {PVSIZE_FIGURE_DEVICE_FREE_STRINGS, 1},
        {PVSIZE_FIGURE_DEVICE_LOW_FACTOR, 1.5},
        {PVSIZE_FIGURE_DEVICE_LOW_STRICT, PVSIZE_ANSWER_YES},
        {PVSIZE_FIGURE_DEVICE_HIGH_FACTOR, 2.4},
        {PVSIZE_FIGURE_DEVICE_SERIES, 1},
    };
    pvsize_spec *search = question_of_one_input(21), *system, *array;
    pvsize_spec *module = trade_module(10.5);
    pvsize_rules *rules = rules_of_inputs();
    pvsize_layouts *layouts;
    int32_t with = 0;

    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        OK(pvsize_rules_set_figure(rules, figures[i].figure, figures[i].value, NULL, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_MAX_SERIES_FUSE, 20, diag));
    OK(pvsize_spec_replace(search, 0, module, diag));
    pvsize_spec_free(module);
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_STRING_DEVICES, PVSIZE_ANSWER_YES, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 100, diag));
    layouts = answered(search, rules);
    for (int32_t i = 0; i < count_of(layouts); i++) {
        double devices = number(layouts, i, PVSIZE_LAYOUT_DEVICES), rating = 0;
        double strings = number(layouts, i, PVSIZE_LAYOUT_STRINGS);

        OK(pvsize_layouts_system(layouts, i, NULL, &system, diag));
        OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
        pvsize_spec_get_number(array, PVSIZE_ARRAY_STRING_DEVICE, &rating, NULL);
        ck_assert(devices == (strings > 2 ? strings : 0));
        ck_assert(rating == (devices > 0 ? 16 : 0));
        with += devices > 0;
        pvsize_spec_free(array);
        pvsize_spec_free(system);
    }
    ck_assert_int_eq(with, 7 + 5); /* three of 1 to 7 modules, and four of 1 to 5 */
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "devices", devices_and_isolators_stand_in_the_answer);
    add_test(suite, "no rating", a_rating_that_does_not_exist);
    add_test(suite, "devices by length", devices_of_every_length);
}

int main(void)
{
    return run_cases("layout_devices", add);
}
