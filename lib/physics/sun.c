/* Position of the sun: low-precision theory with the largest disturbances. */
#include <math.h>

#include "angle.h"
#include "sky_parts.h"
#include "sun.h"

/* radius of the earth over its mean distance from the sun */
#define PARALLAX (6371.01 / 149597870.7)
/* turns of the earth against the stars in a day of universal time */
#define TURN (2 * PVSZ_PI * 1.00273790935)

pvsz_place pvsz_place_at(double latitude, double longitude)
{
    double phi = PVSZ_RAD(latitude);

    return (pvsz_place){sin(phi), cos(phi), PVSZ_RAD(longitude)};
}

bool pvsz_is_leap(int32_t year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

double pvsz_day_number(int32_t year, double day, double hour)
{
    int32_t before = year - 1;
    int32_t leaps = before / 4 - before / 100 + before / 400;

    /* 2000-01-01 is day 730120 of this count */
    return 365.0 * before + leaps - 730119 + (day - 1) - 0.5 + hour / 24;
}

/* Mean anomaly of the earth, radians; t in centuries from the epoch. */
static double anomaly(double t)
{
    return PVSZ_RAD(357.52911 + t * (35999.05029 - t * 0.0001537));
}

/* What Venus (two terms), Jupiter and the moon do, and the term of long period. */
static double disturbance(double t)
{
    double u = t + 1; /* the terms count from 1900 */

    return 0.00134 * cos(PVSZ_RAD(153.23 + 22518.7541 * u)) +
           0.00154 * cos(PVSZ_RAD(216.57 + 45037.5082 * u)) +
           0.00200 * cos(PVSZ_RAD(312.69 + 32964.3577 * u)) +
           0.00179 * sin(PVSZ_RAD(350.74 + u * (445267.1142 - u * 0.00144))) +
           0.00178 * sin(PVSZ_RAD(231.19 + 20.20 * u));
}

/* Degrees by which the nodes of the moon move the equinox; the second term by twice
 * the sun's mean longitude. */
static double nutation(double t)
{
    return -0.00478 * sin(PVSZ_RAD(125.04 - 1934.136 * t)) -
           0.00036 * sin(PVSZ_RAD(2 * (280.46646 + 36000.76983 * t)));
}

/* Apparent longitude, radians. */
static double longitude(double t)
{
    double g = anomaly(t), s = sin(g), c = cos(g);
    double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * s +
                    (0.019993 - 0.000101 * t) * 2 * s * c + 0.000289 * s * (3 - 4 * s * s);
    double aberration = -0.00569;

    return PVSZ_RAD(280.46646 + t * (36000.76983 + t * 0.0003032) + centre + disturbance(t) +
                    aberration + nutation(t));
}

/* Square of the mean distance over that of the moment. */
static double nearness(double t)
{
    double c = cos(anomaly(t));
    double distance = 1.00014 - 0.01671 * c - 0.00014 * (2 * c * c - 1);

    return 1 / (distance * distance);
}

/* Dynamical time runs ahead of universal time: by 29 s in 1950, 69 s in 2020. The sun
 * moves by 0.0008 degrees in a minute and a half of it: one value serves. */
static double centuries(double days)
{
    return (days + 66.0 / 86400) / 36525;
}

pvsz_sun_day pvsz_sun_day_of(double instant)
{
    pvsz_sun_day day = {.start = floor(instant + 0.5) - 0.5};
    double noon = centuries(day.start + 0.5), t = day.start / 36525;
    double node = PVSZ_RAD(125.04 - 1934.136 * noon);
    double obliquity = PVSZ_RAD(23.439291 - 0.0130042 * noon + 0.00256 * cos(node));

    day.sin_obliquity = sin(obliquity);
    day.cos_obliquity = cos(obliquity);
    day.longitude = longitude(centuries(day.start));
    day.motion = longitude(centuries(day.start + 1)) - day.longitude;
    /* at 0 h: the whole turns of the days are left out, so that nothing is lost */
    day.sidereal = PVSZ_RAD(280.46061837 + fmod(0.98564736629 * day.start, 360) - 180 +
                            0.000387933 * t * t + nutation(noon) * day.cos_obliquity);
    day.beyond = PVSZ_SOLAR_CONSTANT * nearness(noon);
    return day;
}

/* The sun against the horizon's axes: `still` along the axis of the earth, `turning`
 * across it, and the hour angle's sine and cosine. */
typedef struct course {
    double still, turning, sin_hour, cos_hour;
} course;

static course course_at(const pvsz_sun_day *day, double share, const pvsz_place *place)
{
    double lambda = day->longitude + day->motion * share;
    double s = sin(lambda), x = cos(lambda), y = day->cos_obliquity * s;
    double angle = day->sidereal + TURN * share + place->longitude;
    double sin_a = sin(angle), cos_a = cos(angle);
    double turning = sqrt(x * x + y * y);

    return (course){day->sin_obliquity * s, turning, (x * sin_a - y * cos_a) / turning,
                    (x * cos_a + y * sin_a) / turning};
}

/* `stretch` is the mean cosine about the middle of the interval. Seen from the ground
 * and not from the centre of the earth. */
static pvsz_sun direction(const course *c, double stretch, const pvsz_place *place, double beyond)
{
    double across = c->turning * c->cos_hour * stretch;

    return (pvsz_sun){
        .east = -c->turning * c->sin_hour * stretch,
        .north = place->cos_latitude * c->still - place->sin_latitude * across,
        .up = place->sin_latitude * c->still + place->cos_latitude * across - PARALLAX,
        .beyond = beyond,
    };
}

pvsz_sun pvsz_sun_at(const pvsz_sun_day *day, double share, const pvsz_place *place)
{
    course c = course_at(day, share, place);
    pvsz_sun sun = direction(&c, 1, place, day->beyond);
    double length = sqrt(sun.east * sun.east + sun.north * sun.north + sun.up * sun.up);

    sun.east /= length;
    sun.north /= length;
    sun.up /= length;
    sun.lit = sun.up > 0;
    return sun;
}

/* Mean cosine within a radian quarter-turn of the middle: sin(d) / d. */
static double mean_cosine(double half)
{
    double q = half * half;

    return half < 0.2 ? 1 - q / 6 * (1 - q / 20 * (1 - q / 42)) : sin(half) / half;
}

/* Hour angles from -set to set, seen again after every turn, inside of middle - half to
 * middle + half: the longest piece, and the share of all. */
static double lit_piece(double middle, double half, double set, double *at, double *piece)
{
    double share = 0;

    *piece = 0;
    for (int32_t turn = -1; turn <= 1; turn++) {
        double from = fmax(middle - half, 2 * PVSZ_PI * turn - set);
        double to = fmin(middle + half, 2 * PVSZ_PI * turn + set);

        if (to <= from)
            continue;
        share += (to - from) / (2 * half);
        if ((to - from) / 2 > *piece) {
            *piece = (to - from) / 2;
            *at = (from + to) / 2;
        }
    }
    return share < 1 ? share : 1;
}

/* Cosine of the hour angle at which the sun sets; beyond 1 it never rises, below -1 it
 * never sets. */
static double set_cosine(const course *c, const pvsz_place *place)
{
    double turning = place->cos_latitude * c->turning;
    double still = place->sin_latitude * c->still - PARALLAX;

    if (turning < 1e-12)
        return still > 0 ? -2 : 2;
    return -still / turning;
}

pvsz_sun pvsz_sun_over(const pvsz_sun_day *day, double from, double to, const pvsz_place *place)
{
    /* of hour angle: the sun, too, moves against the stars */
    double half = PVSZ_PI * (to - from), piece = half, middle = 0, lit = 1;
    course c = course_at(day, (from + to) / 2, place);
    double set = set_cosine(&c, place);
    double edge = fabs(c.sin_hour) * half; /* more than the cosine changes to an end */
    pvsz_sun sun;

    if (set >= 1 || c.cos_hour + edge + half * half / 2 < set)
        return (pvsz_sun){.beyond = day->beyond};
    if (set > -1 && c.cos_hour - edge - half * half / 2 < set) {
        lit = lit_piece(atan2(c.sin_hour, c.cos_hour), half, acos(set), &middle, &piece);
        if (lit == 0)
            return (pvsz_sun){.beyond = day->beyond};
        c.sin_hour = sin(middle);
        c.cos_hour = cos(middle);
    }
    sun = direction(&c, mean_cosine(piece), place, day->beyond);
    sun.lit = lit;
    return sun;
}

double pvsz_refraction(double elevation, double pressure, double temp)
{
    double angle;

    if (elevation < -(0.26667 + 0.5667)) /* its upper edge is not seen */
        return 0;
    angle = PVSZ_RAD(elevation + 10.3 / (elevation + 5.11));
    return pressure / 1010 * (283 / (273 + temp)) * 1.02 / (60 * tan(angle));
}

double pvsz_air_mass(double cos_zenith)
{
    double cosine = pvsz_clamp(cos_zenith, 0, 1);

    return pvsz_mass_of(cosine, pvsz_acos(cosine));
}

void pvsz_horizontal(const pvsz_sun *sun, double *azimuth, double *elevation)
{
    double side = PVSZ_DEG(atan2(sun->east, sun->north));

    *azimuth = side < 0 ? side + 360 : side;
    *elevation = PVSZ_DEG(atan2(sun->up, sqrt(sun->east * sun->east + sun->north * sun->north)));
}

void pvsz_hour_angle(const pvsz_sun *sun, const pvsz_place *place, double *hour_angle,
                     double *declination)
{
    double across = place->cos_latitude * sun->up - place->sin_latitude * sun->north;
    double still = place->sin_latitude * sun->up + place->cos_latitude * sun->north;

    *hour_angle = atan2(-sun->east, across);
    *declination = atan2(still, sqrt(across * across + sun->east * sun->east));
}
