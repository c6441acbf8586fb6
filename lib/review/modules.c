/* Which modules may go on an input, with how many in a string and how many strings. The
 * check judges every trial; lengths are found by halving, as what is too long at one
 * length is too long at all above. A trial that was checked once has all the room that it
 * needs, whatever the counts: nothing fails after that. */
#include "review.h"

enum { MOST_MODULES = 10000, MOST_STRINGS = 100 };

/* Broken limits of one trial that must hold: the worst on each side. */
typedef struct outcome {
    const pvsz_finding *over, *under;
    int32_t open, missing;
} outcome;

/* How far a limit is passed, as a share of it. */
static double excess(const pvsz_finding *finding)
{
    double size = finding->limit < 0 ? -finding->limit : finding->limit;

    return -finding->margin / (size > 0 ? size : 1);
}

static const pvsz_finding *worse(const pvsz_finding *a, const pvsz_finding *b)
{
    return a && excess(a) >= excess(b) ? a : b;
}

static outcome judge(const pvsz_making *making)
{
    outcome found = {0};

    for (int32_t i = 0; i < making->report->findings; i++) {
        const pvsz_finding *finding = &making->report->finding[i];

        if (finding->rule->severity != PVSIZE_SEVERITY_MUST ||
            pvsz_in_baseline(making, finding->rule->number))
            continue;
        if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED) {
            found.missing = found.open++ ? found.missing : finding->missing;
        } else if (finding->verdict == PVSIZE_VERDICT_EXCEEDS) {
            if (finding->rule->compare == PVSIZE_COMPARE_AT_MOST)
                found.over = worse(found.over, finding);
            else
                found.under = worse(found.under, finding);
        }
    }
    return found;
}

static pvsz_stop stop_of(const pvsz_making *making, const pvsz_finding *finding)
{
    const pvsz_rule *rule = pvsz_rule_numbered(making->rules, finding->rule->number);

    return (pvsz_stop){rule->number,    finding->value, finding->limit,
                       finding->margin, rule->title,    pvsz_finding_term(finding)->unit};
}

/* A device in each string where the rule set wants one and a rating fits: what stops a
 * module is a limit, not a device that is still to be bought. */
static void fit_devices(pvsz_making *making)
{
    double needed = 0, rating = 0;

    pvsize_spec_set_none(making->array, PVSIZE_ARRAY_STRING_DEVICE, making->diag);
    pvsz_run_trial(making);
    if (!pvsz_trial_quantity(making, PVSZ_QUANTITY_STRING_DEVICE_NEEDED, &needed) ||
        needed != PVSIZE_ANSWER_YES ||
        !pvsz_trial_quantity(making, PVSZ_QUANTITY_STRING_DEVICE_RATING, &rating) || rating <= 0)
        return;
    pvsz_set_trial(making, making->array, PVSIZE_ARRAY_STRING_DEVICE, rating);
    pvsz_run_trial(making);
}

static outcome try_size(pvsz_making *making, int32_t modules, int32_t strings)
{
    pvsz_set_trial(making, making->array, PVSIZE_ARRAY_MODULES_PER_STRING, modules);
    pvsz_set_trial(making, making->array, PVSIZE_ARRAY_STRINGS, strings);
    fit_devices(making);
    return judge(making);
}

static void set_room(pvsz_acceptance *row, int32_t which, double value, pvsz_stop stop)
{
    row->room[which] = value;
    row->has[which] = true;
    row->stop[which] = stop;
}

/* The most modules that no limit on the high side stands against; 0: not even one. */
static int32_t find_longest(pvsz_making *making, pvsz_acceptance *row)
{
    int32_t good = 0, bad = MOST_MODULES + 1;
    pvsz_stop stop = {0};

    while (bad - good > 1) {
        /* short strings first: few are longer than some dozens */
        int32_t middle = bad > MOST_MODULES && good < MOST_MODULES / 4 ? (good ? good * 4 : 1)
                                                                       : good + (bad - good) / 2;
        outcome found = try_size(making, middle, 1);

        if (found.over) {
            bad = middle;
            stop = stop_of(making, found.over);
        } else {
            good = middle;
        }
    }
    set_room(row, PVSIZE_ROOM_MODULES_MAX, good, stop);
    return good;
}

/* The fewest, of at most `longest`, that no limit on the low side stands against; 0:
 * there is none. */
static int32_t find_shortest(pvsz_making *making, pvsz_acceptance *row, int32_t longest)
{
    int32_t bad = 0, good = longest + 1;
    pvsz_stop stop = {0};

    while (good - bad > 1) {
        int32_t middle = bad + (good - bad) / 2;
        outcome found = try_size(making, middle, 1);

        if (found.under) {
            bad = middle;
            stop = stop_of(making, found.under);
        } else {
            good = middle;
        }
    }
    if (good > longest) {
        row->stop[0] = stop;
        return 0;
    }
    set_room(row, PVSIZE_ROOM_MODULES_MIN, good, stop);
    return good;
}

/* Counts strings up until a limit that must hold is broken. Those of lesser severity are
 * noted on the way. */
static void find_strings(pvsz_making *making, pvsz_acceptance *row, int32_t modules)
{
    static const int32_t watched[][2] = {
        {PVSIZE_ROOM_STRINGS_LOSSLESS, PVSIZE_RULE_OPERATING_CURRENT},
        {PVSIZE_ROOM_STRINGS_TERMINALS, PVSIZE_RULE_TERMINALS},
    };
    bool passed[PVSZ_COUNT(watched)] = {false};
    int32_t strings;

    set_room(row, PVSIZE_ROOM_STRINGS_ALLOWED, 0, (pvsz_stop){0});
    for (strings = 1; strings <= MOST_STRINGS; strings++) {
        outcome found = try_size(making, modules, strings);

        for (int32_t i = 0; i < PVSZ_COUNT(watched); i++) {
            const pvsz_finding *finding = pvsz_trial_finding(making, watched[i][1]);

            if (!finding || finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED || passed[i])
                continue;
            passed[i] = finding->verdict == PVSIZE_VERDICT_EXCEEDS;
            set_room(row, watched[i][0], passed[i] ? strings - 1 : strings,
                     passed[i] ? stop_of(making, finding) : (pvsz_stop){0});
        }
        if (found.over || found.under) {
            row->stop[PVSIZE_ROOM_STRINGS_ALLOWED] =
                stop_of(making, found.over ? found.over : found.under);
            return;
        }
        row->room[PVSIZE_ROOM_STRINGS_ALLOWED] = strings;
    }
}

/* By the tightest limit on power that must hold, of the input and of the inverter. */
static void find_total(pvsz_making *making, pvsz_acceptance *row)
{
    double pmax = 0, best = 0;
    const pvsz_bound *tightest = NULL;

    if (!pvsz_spec_number(making->module, PVSIZE_MODULE_PMAX, &pmax))
        return;
    for (size_t i = 0; i < making->bounds; i++) {
        const pvsz_bound *bound = &making->bound[i];

        /* nothing is missing for power, which hangs on no coefficient */
        if (bound->what != PVSIZE_BOUND_ARRAY_POWER || bound->compare != PVSIZE_COMPARE_AT_MOST ||
            bound->severity != PVSIZE_SEVERITY_MUST ||
            (bound->input >= 0 && bound->input != row->input) ||
            (tightest && bound->value >= tightest->value))
            continue;
        tightest = bound;
    }
    if (!tightest)
        return;
    best = pvsz_most_that_fit(pmax, tightest->value);
    set_room(row, PVSIZE_ROOM_MODULES_TOTAL, best,
             (pvsz_stop){tightest->rule, (best + 1) * pmax, tightest->value,
                         tightest->value - (best + 1) * pmax, tightest->title, "W"});
}

static void look_at(pvsz_making *making, pvsz_acceptance *row)
{
    int32_t longest, shortest = 0;
    outcome found;

    row->accepted = PVSIZE_ACCEPTED_NO;
    longest = find_longest(making, row);
    if (longest > 0)
        shortest = find_shortest(making, row, longest);
    else
        row->stop[0] = row->stop[PVSIZE_ROOM_MODULES_MAX];
    find_total(making, row);
    if (shortest == 0)
        return;
    find_strings(making, row, shortest);
    found = try_size(making, shortest, 1);
    row->open = found.open;
    row->missing = found.missing;
    row->accepted = found.open ? PVSIZE_ACCEPTED_INCOMPLETE : PVSIZE_ACCEPTED_YES;
}

static void add_row(pvsz_making *making, int32_t input, int32_t module, const pvsize_spec *spec)
{
    pvsz_acceptance *grown = pvsz_grow(making->memory, making->module_row, making->modules,
                                       &making->module_room, sizeof *grown);
    pvsz_acceptance row = {.input = input, .module = module, .name = pvsz_spec_name(spec)};

    if (!grown) {
        making->status = pvsz_fail(making->diag, PVSIZE_E_NO_MEMORY);
        return;
    }
    making->module_row = grown;
    pvsz_open_trial(making, input, spec);
    if (!making->status)
        pvsz_fit_isolator(making);
    if (!making->status)
        look_at(making, &row);
    pvsz_close_trial(making);
    grown[making->modules++] = row;
}

void pvsz_find_modules(pvsz_making *making)
{
    const pvsz_part_list *modules =
        making->enquiry ? pvsz_spec_parts(making->enquiry, PVSZ_KIND_MODULE) : NULL;
    size_t inputs = pvsz_spec_parts(making->inverter, PVSZ_KIND_INPUT)->count;

    for (size_t m = 0; modules && m < modules->count; m++)
        for (size_t i = 0; i < inputs && !making->status; i++)
            add_row(making, (int32_t)i, (int32_t)m, modules->item[m]);
}
