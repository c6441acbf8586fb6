/* Judging pairs by a sieve: what the lengths that pass come to on the whole inverter, and
 * how good that can be at best. */
#include "sieve_parts.h"

/* What the inputs of a pair can get. */
typedef struct tally {
    const pvsz_problem *problem;
    const pvsz_allowance *allows;
    int64_t within; /* modules that sums leave at most */
    bool unsure;
    int64_t least;   /* modules of the smallest option */
    int64_t most;    /* of the largest on every input */
    int32_t longest; /* string */
    double options;  /* of the inputs at hand */
    double checks, ways;
} tally;

static int64_t smaller(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* Lengths of so many strings that pass, that have room and that sums leave; the modules
 * of the largest. */
static int64_t count_lengths(const tally *t, const pvsz_window *window, int32_t room,
                             int32_t strings, int32_t *low, int64_t *count)
{
    const pvsz_problem *problem = t->problem;
    int64_t high = smaller(smaller(window->high, room / strings), problem->longest);

    high = smaller(high, t->within / strings);
    *low = window->low > problem->shortest ? window->low : problem->shortest;
    *count = high < *low ? 0 : high - *low + 1;
    return *count ? high * strings : 0;
}

/* The options of an input on a plane; what the largest has. */
static pvsize_status tally_plane(pvsz_sieve *sieve, const pvsz_port *port, int32_t plane, tally *t,
                                 int64_t *largest)
{
    pvsz_family *family = sieve->family[port->family];
    int32_t room = t->problem->plane[plane].room, tried = 0;
    int64_t lengths = smaller(room, t->problem->longest);

    *largest = 0;
    for (int32_t strings = 1; (int64_t)strings * t->problem->shortest <= room; strings++) {
        pvsz_row *row = &family->row[plane * PVSZ_SIEVE_STRINGS + strings - 1];
        pvsz_window window;
        int64_t most, count;
        int32_t low;
        pvsize_status status = strings > PVSZ_SIEVE_STRINGS || row->known
                                   ? PVSIZE_OK
                                   : pvsz_make_row(sieve, family, plane, strings, row);

        t->unsure |= strings > PVSZ_SIEVE_STRINGS;
        if (status || t->unsure)
            return status;
        pvsz_narrow_by_port(sieve, port, row, &window);
        t->unsure |= window.unsure;
        tried++;
        if (strings == 1)
            lengths = smaller(lengths, (int64_t)window.reach + 1);
        most = count_lengths(t, &window, room, strings, &low, &count);
        t->options += (double)count;
        if (count && (t->least == 0 || (int64_t)low * strings < t->least))
            t->least = (int64_t)low * strings;
        if (count && most / strings > t->longest)
            t->longest = (int32_t)(most / strings);
        *largest = most > *largest ? most : *largest;
        if (window.reach < t->problem->shortest)
            break;
    }
    t->checks += (double)lengths * (tried + 1);
    return PVSIZE_OK;
}

/* Ways to give like inputs options, the order left aside. */
static double ways_of(double options, int32_t inputs)
{
    double ways = 1;

    for (int32_t i = 1; i <= inputs; i++)
        ways *= (options + i - 1) / i;
    return ways;
}

static pvsize_status tally_port(pvsz_sieve *sieve, const pvsz_port *port, tally *t)
{
    int64_t most = 0;

    t->options = 1; /* nothing */
    for (int32_t plane = 0; plane < sieve->planes; plane++) {
        int64_t largest;
        pvsize_status status = tally_plane(sieve, port, plane, t, &largest);

        if (status || t->unsure)
            return status;
        sieve->most[plane] = (int32_t)smaller(sieve->most[plane] + largest * port->inputs,
                                              t->problem->plane[plane].room);
        most = largest > most ? largest : most;
    }
    t->most += most * port->inputs;
    t->ways *= ways_of(t->options, port->inputs);
    return PVSIZE_OK;
}

/* At least so many steps are not too many for the budget, whatever a search meets. */
static bool is_within_budget(const tally *t)
{
    double inputs = 0;

    for (int32_t i = 0; i < t->allows->ports; i++)
        inputs += t->allows->port[i].inputs;
    return t->checks + 2 * inputs * t->ways < t->problem->budget;
}

/* Whether the smallest option keeps all sums, and not only by rounding. */
static bool surely_fits(const pvsz_sieve *sieve, const tally *t)
{
    int64_t power = t->least * sieve->power;

    return (t->allows->power == INT64_MAX || power + power / 1000000 + 1000 < t->allows->power) &&
           (t->allows->modules == INT32_MAX || t->least < t->allows->modules);
}

/* Modules put where they are worth most, as far as there is room. */
static int64_t fill(const pvsz_sieve *sieve, int32_t level, int64_t modules)
{
    int64_t sum = 0;

    for (int32_t i = 0; i < sieve->planes && modules > 0; i++) {
        int32_t plane = sieve->order[level][i];
        int64_t here = smaller(modules, sieve->most[plane]);

        sum += here * sieve->worth[level][plane];
        modules -= here;
    }
    return sum;
}

/* The least distance from the wanted power, as both passes value it. */
static int64_t nearest(const pvsz_sieve *sieve, const tally *t, int64_t modules)
{
    int64_t wanted = t->problem->wanted_power;
    int64_t below = smaller(modules, wanted / sieve->power);
    int64_t under = 2 * (below * sieve->power - wanted);
    int64_t over = 2 * (wanted - (below + 1) * sieve->power) - 1;

    return below < modules && over > under ? over : under;
}

/* No answer has a better key: on each level the best that can be, and of strings as
 * many as that takes at least. */
static pvsz_key best_of(const pvsz_sieve *sieve, const tally *t)
{
    int64_t modules = smaller(t->most, t->within), room = 0, needed = 1;
    pvsz_key key = {{0, 0, 0}};

    for (int32_t i = 0; i < sieve->planes; i++)
        room += sieve->most[i];
    modules = smaller(modules, room);
    key.level[1] = fill(sieve, 1, modules);
    if (t->problem->objective == PVSIZE_OBJECTIVE_NEAREST_POWER) {
        key.level[0] = nearest(sieve, t, modules);
    } else {
        int64_t worth = sieve->worth[0][sieve->order[0][0]];

        key.level[0] = fill(sieve, 0, modules);
        if (worth > 0)
            needed = (key.level[0] + worth - 1) / worth;
    }
    needed = (needed + t->longest - 1) / t->longest;
    key.level[2] = -(needed > 1 ? needed : 1) * (1 << 24);
    return key;
}

static pvsize_status tally_pair(pvsz_sieve *sieve, tally *t)
{
    int64_t power = t->allows->power;

    t->within = t->allows->modules;
    if (power != INT64_MAX) /* and not less than none: nothing is fixed */
        t->within = smaller(t->within, power / sieve->power);
    for (int32_t i = 0; i < sieve->planes; i++)
        sieve->most[i] = 0;
    for (int32_t i = 0; i < t->allows->ports; i++) {
        pvsize_status status = tally_port(sieve, &t->allows->port[i], t);

        if (status || t->unsure)
            return status;
    }
    return PVSIZE_OK;
}

pvsize_status pvsz_sift(pvsz_sieve *sieve, size_t inverter, int32_t *verdict, pvsz_key *bound,
                        pvsize_diag *diag)
{
    const pvsz_allowance *allows = &sieve->allowance[inverter];
    tally t = {.allows = allows, .ways = 1};
    pvsize_status status = PVSIZE_OK;

    *verdict = PVSZ_SIEVE_UNSURE;
    if (sieve->blind || sieve->power == 0)
        return PVSIZE_OK;
    if (!allows->known)
        status = pvsz_sieve_take_in(sieve, inverter, diag);
    if (status || sieve->blind || allows->unsure)
        return status;
    if (allows->broken || allows->ports == 0) {
        *verdict = allows->broken ? PVSZ_SIEVE_NOTHING : PVSZ_SIEVE_UNSURE;
        return PVSIZE_OK;
    }
    t.problem = &sieve->family[allows->port[0].family]->problem;
    if (!sieve->valued)
        pvsz_value_planes(sieve, &sieve->family[allows->port[0].family]->problem);
    status = tally_pair(sieve, &t);
    if (status || t.unsure || !is_within_budget(&t))
        return status;
    if (t.least == 0) {
        *verdict = PVSZ_SIEVE_NOTHING;
    } else if (surely_fits(sieve, &t)) {
        *verdict = PVSZ_SIEVE_FITS;
        *bound = best_of(sieve, &t);
    }
    return PVSIZE_OK;
}
