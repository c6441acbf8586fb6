/* A sieve for the pairs of a catalogue: tells quickly, and surely or not at all, whether a
 * module fits an inverter, and how good the pair can be at best. What checks show of a
 * module does not depend on the inverter but for its traits (apart.def), and what limits
 * an inverter sets does not depend on the module: each is looked at once, and a pair
 * compares the two. */
#ifndef PVSZ_SIEVE_H
#define PVSZ_SIEVE_H

#include "layout.h"

/* UNSURE: only a search tells. FITS: it has an answer, proven within the node budget, and
 * none better than the bound. */
enum { PVSZ_SIEVE_UNSURE, PVSZ_SIEVE_NOTHING, PVSZ_SIEVE_FITS };

typedef struct pvsz_sieve pvsz_sieve;

/* For a search with a site and nothing else in its system, and without modules; it and
 * the inverters are borrowed, and the search is changed now and then, and changed back. */
pvsize_status pvsz_sieve_new(const pvsz_memory *memory, pvsize_spec *search,
                             const pvsize_rules *rules, const pvsize_spec *const *inverter,
                             size_t inverters, pvsz_sieve **out, pvsize_diag *diag);
void pvsz_sieve_free(pvsz_sieve *sieve);
/* Turns to a module, which is borrowed until the next. */
void pvsz_sieve_turn(pvsz_sieve *sieve, const pvsize_spec *module);
/* Judges the module with an inverter. `bound`: if it fits, no answer has a better key. */
pvsize_status pvsz_sift(pvsz_sieve *sieve, size_t inverter, int32_t *verdict, pvsz_key *bound,
                        pvsize_diag *diag);

#endif
