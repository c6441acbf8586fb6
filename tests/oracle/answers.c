/* Answers questions about lib/physics for tests/oracle (test_sky_model.py): a line of input is
 * a word and its numbers, a line of output the numbers of the answer. Links the static
 * library, whose inner calls no one else sees. */
#include <stdio.h>
#include <string.h>

#include "../../lib/physics/angle.h"
#include "../../lib/physics/clearness.h"
#include "../../lib/physics/conversion.h"
#include "../../lib/physics/sky.h"
#include "../../lib/physics/temperature.h"
#include "../../lib/physics/volt_watt.h"

/* number of the question, number of the answer */
typedef int answer(const double *q, double *a);

static int put_sun(const pvsz_sun *sun, double *a)
{
    a[0] = sun->east;
    a[1] = sun->north;
    a[2] = sun->up;
    a[3] = sun->beyond;
    a[4] = sun->lit;
    return 5;
}

/* instant, latitude, longitude */
static int sun(const double *q, double *a)
{
    pvsz_place place = pvsz_place_at(q[1], q[2]);
    pvsz_sun_day day = pvsz_sun_day_of(q[0]);
    pvsz_sun at = pvsz_sun_at(&day, q[0] - day.start, &place);

    return put_sun(&at, a);
}

/* beginning, width in days, latitude, longitude */
static int over(const double *q, double *a)
{
    pvsz_place place = pvsz_place_at(q[2], q[3]);
    double middle = q[0] + q[1] / 2;
    pvsz_sun_day day = pvsz_sun_day_of(middle);
    pvsz_sun mean =
        pvsz_sun_over(&day, middle - day.start - q[1] / 2, middle - day.start + q[1] / 2, &place);

    return put_sun(&mean, a);
}

/* model, sun (east north up beyond lit), beam, diffuse, global, tilt, azimuth, albedo, cover */
static int plane(const double *q, double *a)
{
    pvsz_sun at = {q[1], q[2], q[3], q[4], q[5]};
    pvsz_cover cover = pvsz_usual_cover((pvsz_cover_kind)q[12]);
    pvsz_face face = pvsz_face_of((pvsz_sky_model)q[0], q[9], q[10], &cover);
    pvsz_sky sky = pvsz_sky_of((pvsz_sky_model)q[0], &at, q[6], q[7], q[8]);
    pvsz_plane_sun on = pvsz_on_face(&face, &sky, &at, q[11]);

    a[0] = on.beam;
    a[1] = on.sky;
    a[2] = on.ground;
    return 3;
}

/* cover, slope, cosine, tilt */
static int cover(const double *q, double *a)
{
    pvsz_cover c = pvsz_usual_cover((pvsz_cover_kind)q[0]);

    c.slope = q[1];
    a[0] = pvsz_pass(&c, q[2]);
    pvsz_mean_passes(&c, q[3], &a[1], &a[2]);
    return 3;
}

/* sun, global */
static int split(const double *q, double *a)
{
    pvsz_sun at = {q[0], q[1], q[2], q[3], q[4]};

    pvsz_split_global(&at, q[5], &a[0], &a[1]);
    return 2;
}

/* mean clearness, days of the month */
static int days(const double *q, double *a)
{
    pvsz_deal_days(q[0], (int32_t)q[1], a);
    return (int)q[1];
}

/* ambient, irradiance, wind, nominal temperature, efficiency, row of cell_heat.def */
static int cell(const double *q, double *a)
{
    a[0] = pvsz_cell_temp_nominal(q[0], q[1], q[3]);
    a[1] = pvsz_cell_temp_nominal_wind(q[0], q[1], q[3], q[4], q[2]);
    a[2] = pvsz_cell_temp_linear(q[0], q[1], PVSZ_RACK_LOSS, PVSZ_RACK_LOSS_BY_WIND, q[2]);
    a[3] = pvsz_cell_temp_exponential(q[0], q[1], (pvsz_cell_heat)q[5], q[2]);
    return 4;
}

/* d.c. power, voltage, count, then load, voltage (0: none) and efficiency of each point */
static int inverter(const double *q, double *a)
{
    pvsz_efficiency_point point[16];
    pvsz_conversion made;

    for (int i = 0; i < (int)q[2] && i < 16; i++)
        point[i] =
            (pvsz_efficiency_point){q[3 + 3 * i], q[4 + 3 * i], q[5 + 3 * i], q[4 + 3 * i] > 0};
    if (!pvsz_fit_conversion(point, (int32_t)q[2], &made))
        return 0;
    a[0] = pvsz_ac_power(&made, q[0], q[1]);
    for (int k = 0; k < PVSZ_LOSS_TERMS; k++)
        a[1 + k] = made.curve[0].loss[k];
    return 1 + PVSZ_LOSS_TERMS;
}

/* volt-watt start, slope, rated, least, rise, disconnection; supply, power */
static int supply(const double *q, double *a)
{
    pvsz_volt_watt response = {q[0], q[1], q[2], q[3], q[4], q[5]};

    a[0] = pvsz_volt_watt_most(&response, q[6]);
    a[1] = pvsz_at_supply(&response, q[6], q[7]);
    return 2;
}

static const struct {
    const char *word;
    answer *to;
} questions[] = {
    {"sun", sun},   {"over", over}, {"plane", plane},       {"cover", cover},   {"split", split},
    {"days", days}, {"cell", cell}, {"inverter", inverter}, {"supply", supply},
};

int main(void)
{
    static char line[4096];

    while (fgets(line, sizeof line, stdin)) {
        double q[64] = {0}, a[64];
        char word[16];
        int at = 0, used, n = 0, answers = -1;

        if (sscanf(line, "%15s%n", word, &at) != 1)
            return 1;
        while (n < 64 && sscanf(line + at, "%lf%n", &q[n], &used) == 1) {
            at += used;
            n++;
        }
        for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++)
            if (strcmp(word, questions[i].word) == 0)
                answers = questions[i].to(q, a);
        if (answers < 0)
            return 1;
        for (int i = 0; i < answers; i++)
            printf("%.17g ", a[i]);
        printf("\n");
    }
    return 0;
}
