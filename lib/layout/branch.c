/* Combining options: depth first over the slots, the best option first, leaving out
 * what cannot be better than the answers kept. Of stringings that differ only in the
 * exchange of like inputs or like inverters one is looked at: options of like inputs
 * come in order, and so do like inverters. */
#include "layout.h"

typedef struct frame {
    int32_t next; /* option to be tried */
    int32_t low;  /* like inputs and inverters before it allow no lower one */
    bool tied;    /* so far like the inverter before */
    int64_t unit_power;
    pvsz_key prefix; /* of the slots before */
    pvsz_key bound;  /* of this slot and those behind */
    pvsz_key best;   /* proven so far of the options tried */
} frame;

typedef struct branch {
    pvsz_problem *problem;
    pvsz_bounds *bounds;
    pvsz_seen *seen;
    pvsz_whole *whole;
    pvsz_key cap; /* no stringing is better */
    bool capped;
    double start; /* nodes before */
    frame *frame;
    pvsz_key *others; /* by slot and plane: the other planes full, at the room of its frame */
    uint8_t *others_known;
    int32_t sides; /* in a row of these; 0: there is no room for them */
    pvsz_room room;
    int32_t at;
} branch;

static const pvsz_option *option_at(const pvsz_problem *problem, int32_t slot, int32_t i)
{
    return &problem->group[problem->slot[slot].group].option[i];
}

/* going down and up */

static bool fits(const branch *b, const pvsz_option *option)
{
    const pvsz_problem *problem = b->problem;
    const pvsz_unit *unit = &problem->unit[problem->slot[b->at].inverter];
    int32_t here = option->length * option->strings[0];

    if (option->module < 0)
        return true;
    if (here > b->room.plane[option->plane[0]])
        return false;
    if (option->plane[1] >= 0 && option->modules - here > b->room.plane[option->plane[1]])
        return false;
    return option->power <= unit->power_left - b->frame[b->at].unit_power &&
           option->power <= problem->power_left - b->room.system_power;
}

static void take(branch *b, const pvsz_option *option, int32_t times)
{
    for (int32_t i = 0; option->module >= 0 && i < 2 && option->plane[i] >= 0; i++)
        b->room.plane[option->plane[i]] -= times * option->length * option->strings[i];
    b->room.modules += times * option->modules;
    b->room.system_power += times * option->power;
}

/* What planes leave to the slots behind the present one, which has this option. */
static pvsz_key full_behind(branch *b, const pvsz_option *option)
{
    const pvsz_problem *problem = b->problem;
    int32_t behind = b->at + 1, plane = option->plane[0];
    pvsz_key *others;
    uint8_t *known;

    if (b->sides == 0 || option->module < 0 || option->plane[1] >= 0)
        return pvsz_all_full(problem, behind, &b->room);
    known = &b->others_known[b->at * problem->planes + plane];
    others = &b->others[(size_t)(b->at * problem->planes + plane) * (size_t)b->sides];
    if (!*known && !pvsz_fill_others(problem, behind, &b->room, plane, others))
        return pvsz_all_full(problem, behind, &b->room);
    *known = true;
    return pvsz_full_beside(problem, behind, &b->room, plane, others);
}

static void forget_others(branch *b, int32_t slot)
{
    for (int32_t i = 0; b->sides > 0 && i < b->problem->planes; i++)
        b->others_known[slot * b->problem->planes + i] = false;
}

/* Which option a slot may start from, and whether it then equals its twin so far. */
static void open_frame(branch *b, int32_t at, frame *f)
{
    const pvsz_problem *problem = b->problem;
    const pvsz_slot *slot = &problem->slot[at];
    int32_t inputs = slot->end - slot->first;
    int32_t twin = slot->twin ? problem->choice[at - inputs] : 0;

    f->low = slot->like_before ? problem->choice[at - 1] : 0;
    f->tied = slot->twin;
    if (slot->first == at)
        f->low = twin;
    else if (slot->twin)
        f->tied =
            b->frame[at - 1].tied && problem->choice[at - 1] == problem->choice[at - 1 - inputs];
    f->next = f->low;
    f->best = PVSZ_NEVER;
    if (f->tied && twin > f->low) {
        /* those before count for what is proven of the state, whose like may be untied */
        f->next = twin;
        f->best = f->bound;
    }
}

static void look_up(branch *b, int32_t at, const frame *f)
{
    const pvsz_slot *slot = &b->problem->slot[at];
    int32_t first = slot->has_twin && slot->first != at ? b->problem->choice[slot->first] : -1;

    b->room.unit_power = f->unit_power;
    pvsz_seen_state(b->problem, b->seen, at, f->low, first, &b->room);
}

/* The bound of the slots behind the present one, which has this option. What is beaten by
 * the cheap part of it is not looked at more closely. */
static pvsz_key bound_behind(branch *b, const pvsz_option *option, frame *f)
{
    const pvsz_problem *problem = b->problem;
    int32_t behind = b->at + 1;
    const pvsz_key *known;
    pvsz_key whole;

    f->prefix = pvsz_add_key(b->frame[b->at].prefix, option->key, 1);
    f->unit_power = b->frame[b->at].unit_power + option->power;
    if (behind == problem->slots || problem->slot[behind].first == behind)
        f->unit_power = 0;
    b->room.unit_power = f->unit_power;
    f->bound = pvsz_bound(problem, b->bounds, behind, &b->room);
    whole = pvsz_add_key(f->prefix, f->bound, 1);
    if (pvsz_is_never(&f->bound) || pvsz_is_beaten(&problem->list, &whole))
        return f->bound;
    f->bound = pvsz_worse_key(f->bound, full_behind(b, option));
    whole = pvsz_add_key(f->prefix, f->bound, 1);
    if (behind == problem->slots || pvsz_is_beaten(&problem->list, &whole))
        return f->bound;
    open_frame(b, behind, f);
    look_up(b, behind, f);
    known = pvsz_seen_bound(b->seen);
    if (known)
        f->bound = pvsz_worse_key(f->bound, *known);
    return f->bound;
}

static void learn(frame *f, const pvsz_option *option, const pvsz_key *bound)
{
    f->best = pvsz_better_key(f->best, pvsz_add_key(option->key, *bound, 1));
}

/* Every option of the slot was tried: what was proven goes to the slot before. */
static void close_frame(branch *b)
{
    frame *f = &b->frame[b->at];
    pvsz_key proven = f->best;
    const pvsz_option *option;

    if (pvsz_compare_keys(&f->bound, &proven) < 0)
        proven = f->bound;
    look_up(b, b->at, f);
    pvsz_remember(b->seen, &proven);
    if (b->at-- == 0)
        return;
    option = option_at(b->problem, b->at, b->problem->choice[b->at]);
    take(b, option, -1);
    learn(&b->frame[b->at], option, &proven);
}

/* The best that a stringing with the options so far can be. */
static pvsz_key best_whole(const branch *b, const pvsz_key *bound)
{
    pvsz_key whole = pvsz_add_key(b->frame[b->at + 1].prefix, *bound, 1);

    return b->capped ? pvsz_worse_key(b->cap, whole) : whole;
}

/* Tries the next option of the present slot. */
static pvsize_status step(branch *b)
{
    pvsz_problem *problem = b->problem;
    frame *f = &b->frame[b->at];
    int32_t i = f->next++;
    const pvsz_option *option = option_at(problem, b->at, i);
    pvsize_status status = PVSIZE_OK;
    pvsz_key bound, whole;

    if (!fits(b, option))
        return PVSIZE_OK;
    take(b, option, 1);
    problem->choice[b->at] = i;
    bound = bound_behind(b, option, &b->frame[b->at + 1]);
    whole = best_whole(b, &bound);
    if (pvsz_is_worth(problem, &whole)) {
        if (!pvsz_step(problem)) {
            problem->bound = pvsz_better_key(problem->bound, whole);
        } else if (b->at + 1 < problem->slots) {
            b->at++;
            forget_others(b, b->at);
            return PVSIZE_OK;
        } else {
            status = pvsz_judge(problem, &whole);
        }
    }
    learn(f, option, &bound);
    take(b, option, -1);
    return status;
}

/* The best that is still possible in what was not searched. */
static void bound_the_rest(branch *b)
{
    pvsz_problem *problem = b->problem;

    for (;;) {
        frame *f = &b->frame[b->at];
        int32_t count = (int32_t)problem->group[problem->slot[b->at].group].count;

        for (; f->next < count; f->next++) {
            const pvsz_option *option = option_at(problem, b->at, f->next);
            pvsz_key whole, bound;

            if (!fits(b, option))
                continue;
            take(b, option, 1);
            problem->choice[b->at] = f->next;
            bound = bound_behind(b, option, &b->frame[b->at + 1]);
            whole = best_whole(b, &bound);
            problem->bound = pvsz_better_key(problem->bound, whole);
            take(b, option, -1);
        }
        if (b->at == 0)
            return;
        b->at--;
        take(b, option_at(problem, b->at, b->frame[b->at].next - 1), -1);
    }
}

static pvsize_status run(branch *b)
{
    pvsz_problem *problem = b->problem;

    while (b->at >= 0 && problem->ending == PVSIZE_ENDING_PROVEN) {
        int32_t count = (int32_t)problem->group[problem->slot[b->at].group].count;

        if (!b->capped && pvsz_whole_is_due(b->whole, problem->nodes - b->start)) {
            b->cap = pvsz_bound_whole(problem, b->bounds, b->whole);
            b->capped = true;
        }
        if (b->frame[b->at].next < count) {
            pvsize_status status = step(b);

            if (status)        /* GCOVR_EXCL_BR_LINE: warm_up made room for every check */
                return status; /* GCOVR_EXCL_LINE */
        } else {
            close_frame(b);
        }
    }
    if (problem->ending != PVSIZE_ENDING_PROVEN)
        bound_the_rest(b);
    return PVSIZE_OK;
}

/* a pass */

/* A check of as many arrays as there can be, so that the report need not grow later:
 * the search itself allocates nothing. */
static pvsize_status warm_up(pvsz_problem *problem)
{
    for (int32_t i = 0; i < problem->slots; i++) {
        const pvsz_group *group = &problem->group[problem->slot[i].group];

        problem->choice[i] = 0;
        for (int32_t k = 0; k < (int32_t)group->count; k++)
            if (group->option[k].module >= 0 &&
                (group->option[problem->choice[i]].module < 0 || group->option[k].plane[1] >= 0))
                problem->choice[i] = k;
        if (group->count == 0)
            return PVSIZE_OK;
    }
    pvsz_wire(problem, problem->choice);
    return pvsz_check_wired(problem);
}

/* Room for what is known of other planes, unless it would be very much. */
static bool take_others(branch *b)
{
    enum { MOST_KEYS = 100000 };
    pvsz_problem *problem = b->problem;
    size_t places = (size_t)problem->slots * (size_t)problem->planes;
    size_t sides = (size_t)problem->most_sides + 1;

    if (places * sides > MOST_KEYS)
        return true;
    b->others = pvsz_take(problem, places * sides, sizeof *b->others);
    b->others_known = pvsz_take(problem, places, sizeof *b->others_known);
    b->sides = (int32_t)sides;
    return b->others && b->others_known;
}

pvsize_status pvsz_search_pass(pvsz_problem *problem)
{
    branch b = {.problem = problem};
    frame *first;
    pvsize_status status;

    pvsz_order_options(problem);
    status = pvsz_make_bounds(problem, &b.bounds);
    if (status)
        return status;
    status = warm_up(problem);
    if (status)
        return status;
    b.seen = pvsz_make_seen(problem);
    b.whole = pvsz_make_whole(problem);
    b.start = problem->nodes;
    b.frame = pvsz_take(problem, (size_t)problem->slots + 1, sizeof *b.frame);
    b.room.plane = pvsz_take(problem, (size_t)problem->planes, sizeof *b.room.plane);
    if (!b.seen || !b.whole || !b.frame || !b.room.plane || !take_others(&b))
        return pvsz_no_memory(problem->diag);
    for (int32_t i = 0; i < problem->planes; i++)
        b.room.plane[i] = problem->plane[i].room;
    first = &b.frame[0];
    first->prefix = problem->offset;
    first->bound = pvsz_worse_key(pvsz_bound(problem, b.bounds, 0, &b.room),
                                  pvsz_all_full(problem, 0, &b.room));
    if (problem->slots == 0) /* all is fixed: there is one stringing */
        return pvsz_is_never(&first->bound) ? PVSIZE_OK : pvsz_judge(problem, &first->prefix);
    open_frame(&b, 0, first);
    return run(&b);
}
