/* Degrees and radians. */
#ifndef PVSZ_ANGLE_H
#define PVSZ_ANGLE_H

#define PVSZ_PI 3.14159265358979323846
#define PVSZ_RAD(degrees) ((degrees) * (PVSZ_PI / 180))
#define PVSZ_DEG(radians) ((radians) * (180 / PVSZ_PI))

static inline double pvsz_clamp(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

#endif
