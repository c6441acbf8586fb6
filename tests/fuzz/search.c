/* Small searches on invented jobs. Every answer passes the full check, the order is that of
 * the objective, and there are no more than were asked for. */
#include "fuzz.h"

static void ask_answers(const pvsize_layouts *layouts, const pvsize_spec *search, pvsize_diag *diag)
{
    int32_t count = 0, outcome = 0, obstacles = 0;
    double wanted = 0, power = 0, before = 1e300, objective = 0;
    pvsize_report *report = NULL;
    char line[400];

    HOLDS(went(diag, pvsize_layouts_count(layouts, &count, diag)));
    pvsize_spec_get_number(search, PVSIZE_SEARCH_ANSWERS, &wanted, NULL);
    pvsize_spec_get_number(search, PVSIZE_SEARCH_OBJECTIVE, &objective, NULL);
    HOLDS(count <= wanted);
    pvsize_report_new(NULL, &report, NULL);
    for (int32_t i = 0; i < count; i++) {
        HOLDS(went(diag, pvsize_layouts_report(layouts, i, report, diag)));
        HOLDS(went(diag, pvsize_report_outcome(report, &outcome, diag)));
        HOLDS(outcome != PVSIZE_OUTCOME_BROKEN);
        HOLDS(went(diag, pvsize_layouts_number(layouts, i, PVSIZE_LAYOUT_POWER, &power, diag)));
        if (objective == PVSIZE_OBJECTIVE_POWER) {
            HOLDS(power <= before + 1e-6);
            before = power;
        }
        pvsize_layouts_text(layouts, i, line, sizeof line, NULL, NULL);
    }
    HOLDS(went(diag, pvsize_layouts_obstacle_count(layouts, &obstacles, diag)));
    for (int32_t i = 0; i < obstacles; i++)
        pvsize_layouts_obstacle_text(layouts, i, line, sizeof line, NULL, NULL);
    pvsize_report_free(report);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    draw d = draw_from_bytes(bytes, count);
    pvsize_diag *diag = NULL;
    pvsize_layouts *layouts = NULL;
    failing f = {-1, 0};
    pvsize_allocator memory = {failing_take, failing_give, &f};
    pvsize_spec *system = invent_system(&d, NULL);
    pvsize_spec *search = invent_search(&d, system, NULL);
    pvsize_rules *rules = invent_rules(&d, NULL);

    if (pvsize_diag_new(NULL, &diag))
        return 0;
    pvsize_spec_set_number(search, PVSIZE_SEARCH_NODE_BUDGET, 1 + draw_below(&d, 200), NULL);
    if (draw_below(&d, 2) == 0)
        pvsize_spec_replace(search, 0, system, NULL); /* with its arrays fixed */
    if (went(diag, pvsize_layouts_new(&memory, &layouts, diag))) {
        if (draw_below(&d, 4) == 0)
            f.left = draw_below(&d, 60);
        if (went(diag, pvsize_search(search, rules, NULL, layouts, diag))) {
            f.left = -1;
            ask_answers(layouts, search, diag);
        }
    }
    pvsize_layouts_free(layouts);
    HOLDS(f.live == 0);
    pvsize_spec_free(system);
    pvsize_spec_free(search);
    pvsize_rules_free(rules);
    pvsize_diag_free(diag);
    return 0;
}
