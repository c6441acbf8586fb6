/* See draw.h. Integers and + - * / only, so that choices are the same on every machine. */
#include "draw.h"

#include <float.h>
#include <math.h>

/* splitmix64 (Steele, Lea, Flood 2014) */
static uint64_t mixed(uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

draw draw_from_seed(uint64_t seed)
{
    /* mixed twice, lest the choices of the next seed be these, one further on */
    draw d = {NULL, 0, mixed(mixed(seed + 1))};

    return d;
}

draw draw_from_bytes(const uint8_t *bytes, size_t count)
{
    static const uint8_t none[1];
    draw d = {count ? bytes : none, count, 0};

    return d;
}

static uint32_t next_byte(draw *d)
{
    if (d->left == 0)
        return 0;
    d->left--;
    return *d->bytes++;
}

static uint32_t next_seeded(draw *d)
{
    d->state += 0x9E3779B97F4A7C15u;
    return (uint32_t)(mixed(d->state) >> 32);
}

uint32_t draw_word(draw *d)
{
    uint32_t word = 0;

    if (!d->bytes)
        return next_seeded(d);
    for (int i = 0; i < 4; i++)
        word = word << 8 | next_byte(d);
    return word;
}

int32_t draw_below(draw *d, int32_t n)
{
    uint32_t word;

    if (n <= 1)
        return 0;
    /* one byte where one will do: a fuzzer's bytes go further */
    word = d->bytes && n <= 256 ? next_byte(d) : draw_word(d);
    return (int32_t)(word % (uint32_t)n);
}

double draw_between(draw *d, double low, double high)
{
    double share = draw_word(d) / 4294967295.0;

    return low * (1 - share) + high * share;
}

double draw_strange(draw *d)
{
    const double all[] = {
        NAN,          INFINITY,      -INFINITY,     -0.0,         0.0,          4.9e-324,
        -4.9e-324,    DBL_MIN,       DBL_MAX,       -DBL_MAX,     DBL_EPSILON,  2147483647.0,
        2147483648.0, -2147483648.0, -2147483649.0, 4294967295.0, 4294967296.0, 9007199254740993.0,
        9.3e18,       1.9e19,        0.5,           -1.0,         1e-300,       1e300};

    return all[draw_below(d, (int32_t)(sizeof all / sizeof *all))];
}

int32_t draw_strange_count(draw *d)
{
    static const int32_t all[] = {0,         1,         2,  7,  100,           1000,  65535, 65536,
                                  INT32_MAX, INT32_MIN, -1, -2, INT32_MAX - 1, 20301, 40001, 8000};

    return all[draw_below(d, (int32_t)(sizeof all / sizeof *all))];
}
