/* Memory that fails in a search and in a ranking, and what a search takes of it. */
#include "../support/pv_layout.h"

/* every allocation of all calls, and of a search that has no answer, whatever the reason */

static pvsize_status every_call(const pvsize_spec *search, const pvsize_rules *rules,
                                const pvsize_spec *module, const pvsize_spec *inverter,
                                const pvsize_allocator *memory)
{
    const pvsize_spec *modules[] = {module, module, module, module};
    const pvsize_spec *inverters[] = {inverter, inverter};
    pvsize_layouts *layouts = NULL;
    pvsize_ranking *ranking = NULL, *other = NULL;
    pvsize_spec *system = NULL;
    pvsize_report *report = NULL;
    pvsize_status s = pvsize_layouts_new(memory, &layouts, NULL);

    if (!s)
        s = pvsize_search(search, rules, NULL, layouts, NULL);
    if (!s)
        s = pvsize_layouts_system(layouts, 0, memory, &system, NULL);
    if (!s)
        s = pvsize_report_new(memory, &report, NULL);
    if (!s)
        s = pvsize_layouts_report(layouts, 0, report, NULL);
    if (!s)
        s = pvsize_ranking_new(search, rules, 2, memory, &ranking, NULL);
    if (!s)
        s = pvsize_ranking_add_shard(ranking, 0, 1, NULL, NULL, NULL);
    if (!s)
        s = pvsize_ranking_new(search, rules, 2, memory, &other, NULL);
    if (!s)
        s = pvsize_ranking_merge(other, ranking, NULL);
    if (!s)
        s = pvsize_ranking_add_all(other, modules, 4, inverters, 2, 0, 0, NULL, NULL, NULL);
    pvsize_layouts_free(layouts);
    pvsize_ranking_free(ranking);
    pvsize_ranking_free(other);
    pvsize_spec_free(system);
    pvsize_report_free(report);
    return s;
}

START_TEST(every_allocation_fails_once)
{
    pvsize_spec *search = question(10.5, 8, 0, 1), *module = trade_module(10.5);
    pvsize_spec *inverter = trade_inverter();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    long n;

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
    for (n = 0;; n++) {
        counter c = {0, 0, n};
        const pvsize_allocator memory = {counted, released, &c};
        pvsize_status status = every_call(search, rules, module, inverter, &memory);

        ck_assert_msg(c.live == 0, "%ld blocks left after failing allocation %ld", c.live, n);
        if (status == PVSIZE_OK)
            break;
        ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
    }
    ck_assert_int_gt(n, 100); /* that many were tried */
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
    pvsize_spec_free(inverter);
    pvsize_spec_free(search);
}
END_TEST

static pvsize_spec *without_answer(int32_t reason, pvsize_rules *rules)
{
    pvsize_spec *search = question(reason == 1 ? 12 : 10.5, reason == 3 ? 10 : 16, 0, 1);

    switch (reason) {
    case 0: /* misses of each input */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 12, diag));
        break;
    case 1: /* refused by the whole */
        add_must(rules, "half", PVSIZE_QUANTITY_INPUT_POWER, PVSIZE_COMPARE_AT_MOST,
                 PVSIZE_QUANTITY_SYSTEM_PV_POWER, 0.5);
        break;
    case 2: /* no plane has room */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 17, diag));
        break;
    case 3: /* not on all inputs */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_SHORTEST_STRING, 7, diag));
        add_must(rules, "used", PVSIZE_QUANTITY_INPUT_ARRAYS, PVSIZE_COMPARE_AT_LEAST, 0, 1);
        add_must(rules, "few", PVSIZE_QUANTITY_SYSTEM_MODULES, PVSIZE_COMPARE_AT_MOST, 0, 13);
        break;
    case 4: /* broken whatever is wired */
        add_must(rules, "cool", PVSIZE_SITE_TEMP_MAX, PVSIZE_COMPARE_AT_MOST, 0, 30);
        break;
    default: /* a total that cannot be had */
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_WANTED_MODULES, 17, diag));
    }
    return search;
}

START_TEST(every_allocation_fails_once_without_an_answer)
{
    for (int32_t reason = 0; reason < 6; reason++) {
        pvsize_rules *rules = rules_of_inputs();
        pvsize_spec *search = without_answer(reason, rules);
        long n;

        for (n = 0;; n++) {
            counter c = {0, 0, -1};
            const pvsize_allocator memory = {counted, released, &c};
            pvsize_layouts *layouts;
            pvsize_status status;

            OK(pvsize_layouts_new(&memory, &layouts, diag));
            c.fail_at = c.made + n;
            status = pvsize_search(search, rules, NULL, layouts, NULL);
            ck_assert_int_eq(count_of(layouts), 0);
            ck_assert(obstacles_of(layouts) == 0 || status == PVSIZE_OK); /* nothing half-told */
            ck_assert(obstacles_of(layouts) > 0 || status != PVSIZE_OK);
            pvsize_layouts_free(layouts);
            ck_assert_int_eq(c.live, 0);
            if (status == PVSIZE_OK)
                break;
            ck_assert_int_eq(status, PVSIZE_E_NO_MEMORY);
        }
        ck_assert_int_gt(n, 10);
        pvsize_rules_free(rules);
        pvsize_spec_free(search);
    }
}
END_TEST

/* by blocks */

/* An allocator that fails the n-th large block. */
static void *few_blocks(void *user, size_t size)
{
    counter *c = user;

    if (size >= 4096 && c->made++ == c->fail_at)
        return NULL;
    c->live++;
    return malloc(size);
}

/* What a search takes lies in blocks with room for many takings: which of them begins a block
 * depends on those before. With candidates that are the same module over and over, and rooms of
 * several sizes, each begins one some time, and may find none. A place in a block holds four
 * pointers (amd64), so that what begins it does so for four candidates more: by fours none is
 * missed. */
static void fail_blocks(int32_t room, int32_t modules, int inverters)
{
    enum { STEP = 4 };
    pvsize_spec *search = question(10.5, room, 0, inverters), *module = trade_module(10.5);
    pvsize_rules *rules = rules_of_inputs();

    for (int32_t i = 0; i < modules; i += STEP) {
        counter c = {0, 0, 0};
        const pvsize_allocator memory = {few_blocks, released, &c};
        pvsize_layouts *layouts;
        pvsize_status status;

        OK(pvsize_layouts_new(&memory, &layouts, diag));
        do {
            c.made = 0;
            status = pvsize_search(search, rules, NULL, layouts, NULL);
            ck_assert(status == PVSIZE_OK || status == PVSIZE_E_NO_MEMORY);
            ck_assert(count_of(layouts) == 0 || status == PVSIZE_OK);
            ck_assert(status == PVSIZE_OK || c.made > c.fail_at);
            c.fail_at++;
        } while (status != PVSIZE_OK);
        ck_assert_int_gt(c.fail_at, 3);
        ck_assert(number(layouts, 0, PVSIZE_LAYOUT_MODULES) == room);
        pvsize_layouts_free(layouts);
        ck_assert_int_eq(c.live, 0);
        for (int32_t k = 0; k < STEP; k++)
            OK(pvsize_spec_add(search, module, NULL, diag));
    }
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
    pvsize_spec_free(search);
}

START_TEST(every_block_fails_once_wherever_it_begins)
{
    fail_blocks(2, 520, 1); /* the candidates themselves fill a block */
    for (int32_t room = 3; room < 6; room++)
        fail_blocks(room, 210, 1);
    fail_blocks(2, 210, 2);
}
END_TEST

/* Once the tables are made, steps cost no memory. */
START_TEST(combining_allocates_nothing)
{
    pvsize_spec *search = question(10.5, 16, 12, 2);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    counter c = {0, 0, -1};
    const pvsize_allocator memory = {counted, released, &c};
    pvsize_layouts *layouts;
    double whole, budget;
    long made[2];

    OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_ANSWERS, 500, diag));
    OK(pvsize_layouts_new(&memory, &layouts, diag));
    OK(pvsize_search(search, rules, NULL, layouts, diag));
    OK(pvsize_layouts_nodes(layouts, &whole, diag));
    ck_assert(whole > 1000);
    for (int i = 0; i < 2; i++) {
        budget = floor(whole * (0.5 + 0.4 * i));
        OK(pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, budget, diag));
        made[i] = -c.made;
        OK(pvsize_search(search, rules, NULL, layouts, diag));
        made[i] += c.made;
    }
    ck_assert_int_eq(made[0], made[1]);
    pvsize_layouts_free(layouts);
    ck_assert_int_eq(c.live, 0);
    pvsize_rules_free(rules);
    pvsize_spec_free(search);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "memory without answer", every_allocation_fails_once_without_an_answer);
    add_test(suite, "memory", every_allocation_fails_once);
    add_test(suite, "memory by blocks", every_block_fails_once_wherever_it_begins);
    add_test(suite, "no allocation", combining_allocates_nothing);
}

int main(void)
{
    return run_cases("layout_memory", add);
}
