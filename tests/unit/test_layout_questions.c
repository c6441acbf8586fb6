/* Questions for a search that are asked wrongly, or ask too much. */
#include "../support/pv_layout.h"

START_TEST(wrong_questions_are_refused)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *bare = SPEC(PVSIZE_KIND_SEARCH, 0);
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *site, *module = SPEC(PVSIZE_KIND_MODULE, 0);
    pvsize_spec *plane = SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 9);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;
    double value;
    int32_t number_of;

    OK(pvsize_layouts_new(NULL, &layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "search", pvsize_search(NULL, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "rules", pvsize_search(search, NULL, NULL, layouts, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "layouts", pvsize_search(search, rules, NULL, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "search", pvsize_search(system, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "rules",
          pvsize_search(search, (const pvsize_rules *)(const void *)search, NULL, layouts, diag));
    FAILS(PVSIZE_E_MISSING_PART, "system", pvsize_search(bare, rules, NULL, layouts, diag));
    give(bare, system);
    FAILS(PVSIZE_E_MISSING_PART, "site", pvsize_search(bare, rules, NULL, layouts, diag));
    system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    give(system, trade_site(4, 4));
    give(system, trade_inverter());
    OK(pvsize_spec_replace(bare, 0, system, diag));
    FAILS(PVSIZE_E_MISSING_PART, "module", pvsize_search(bare, rules, NULL, layouts, diag));
    OK(pvsize_spec_add(bare, module, NULL, diag));
    FAILS(PVSIZE_E_NOT_SET, "pmax", pvsize_search(bare, rules, NULL, layouts, diag));
    site = SPEC(PVSIZE_KIND_SITE, 0);
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_MISSING_PART, "plane", pvsize_search(search, rules, NULL, layouts, diag));
    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_TILT, 20));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_NOT_SET, "capacity", pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_NEAREST_POWER,
                              diag));
    FAILS(PVSIZE_E_NOT_SET, "wanted_power", pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_ENERGY, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 8, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_LONGEST_STRING, 7, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "longest_string: outside the allowed range; given 7; allowed 8",
          pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_spec_unset(search, PVSIZE_SEARCH_LONGEST_STRING, diag));
    OK(pvsize_spec_replace(site, 0, plane, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    FAILS(PVSIZE_E_NOT_SET, "specific_yield", pvsize_search(search, rules, NULL, layouts, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "answers",
          pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 0, diag));
    OK(pvsize_layouts_count(layouts, &number_of, diag));
    ck_assert_int_eq(number_of, 0); /* as new: nothing was changed */
    FAILS(PVSIZE_E_BAD_INDEX, "", pvsize_layouts_number(layouts, 0, 1, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_obstacle(layouts, 0, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                  diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "layouts",
          pvsize_search(search, rules, NULL, (pvsize_layouts *)(void *)rules, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_obstacle_numbers(layouts, 0, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "",
          pvsize_layouts_system(layouts, 0, NULL, &(pvsize_spec *){NULL}, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "layouts", pvsize_layouts_count(NULL, &number_of, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "layouts",
          pvsize_layouts_count((const pvsize_layouts *)(const void *)rules, &number_of, diag));
    pvsize_layouts_free(NULL);
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
    pvsize_spec_free(bare);
    pvsize_spec_free(module);
    pvsize_spec_free(site);
    pvsize_spec_free(plane);
    pvsize_spec_free(system);
}
END_TEST

/* Places in an order are weighed in whole numbers, which have an end. */
START_TEST(too_much_to_put_in_order)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system, *site;
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_layouts *layouts;

    OK(pvsize_spec_part(search, PVSIZE_KIND_SYSTEM, 0, NULL, &system, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    for (int i = 0; i < 4; i++)
        give(site, face(100000, 1000));
    OK(pvsize_spec_replace(system, 0, site, diag));
    OK(pvsize_spec_replace(search, 0, system, diag));
    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_OBJECTIVE, PVSIZE_OBJECTIVE_PLANE_ORDER, diag));
    OK(pvsize_layouts_new(NULL, &layouts, diag));
    FAILS(PVSIZE_E_TOO_MANY, "plane.fill_order", pvsize_search(search, rules, NULL, layouts, diag));
    pvsize_layouts_free(layouts);
    pvsize_rules_free(rules);
    pvsize_spec_free(site);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
}
END_TEST

START_TEST(wrong_ways_to_ask)
{
    pvsize_spec *search = question(10.5, 16, 12, 1), *system;
    pvsize_layouts *layouts = searched(search);
    const pvsize_layouts *foreign = (const pvsize_layouts *)(const void *)search;
    double value;
    int32_t count;

    FAILS(PVSIZE_E_BAD_INDEX, "i: ", pvsize_layouts_number(layouts, -1, 1, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given -1", pvsize_layouts_array_count(layouts, -1, &count, diag));
    for (int i = 0; i < 2; i++) {
        const pvsize_layouts *wrong = i ? foreign : NULL;
        pvsize_status status = i ? PVSIZE_E_BAD_HANDLE : PVSIZE_E_NULL_POINTER;

        FAILS(status, "layouts", pvsize_layouts_number(wrong, 0, 1, &value, diag));
        FAILS(status, "layouts", pvsize_layouts_array_count(wrong, 0, &count, diag));
        FAILS(status, "layouts", pvsize_layouts_system(wrong, 0, NULL, &system, diag));
        FAILS(status, "layouts", pvsize_layouts_obstacle_count(wrong, &count, diag));
        FAILS(status, "layouts",
              pvsize_layouts_obstacle(wrong, 0, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
                                      NULL, diag));
        FAILS(status, "layouts", pvsize_layouts_obstacle_numbers(wrong, 0, NULL, NULL, NULL, diag));
        FAILS(status, "layouts",
              pvsize_layouts_array(wrong, 0, 0, NULL, NULL, NULL, NULL, NULL, NULL, diag));
    }
    pvsize_layouts_free(layouts);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "wrong questions", wrong_questions_are_refused);
    add_test(suite, "order", too_much_to_put_in_order);
    add_test(suite, "wrong ways", wrong_ways_to_ask);
}

int main(void)
{
    return run_cases("layout_questions", add);
}
