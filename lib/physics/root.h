/* A root of a function between two places where it has unlike signs. */
#ifndef PVSZ_ROOT_H
#define PVSZ_ROOT_H

typedef double pvsz_function(const void *context, double x);

/* Bisection and inverse quadratic steps (T. R. Chandrupatla, Advances in Engineering
 * Software 28 (1997) 145-149, from memory). At most 200 evaluations; the end with the
 * smaller value, where the signs are not unlike. */
double pvsz_find_root(pvsz_function *f, const void *context, double low, double high);

#endif
