/* Conductors: sizes and resistance, current-carrying capacity, voltage drop, and
 * the smallest size that does. Numbers in, numbers out.
 *
 * Not known  A call that looks a number up returns how it is known (PVSIZE_KNOWN_
 *            READ, MEMORY or UNCERTAIN), the weakest of what it took, or 0 where
 *            the tables do not have it or an argument is out of range. With 0 the
 *            output is left alone. Nothing is interpolated or extrapolated.
 * Units      ohm/km of one conductor, m one way, A, V, degC, percent, mm.
 * Sources    Stand in lib/tables: conductors, ampacities, ambient_factors,
 *            grouping_factors, roof_adders. */
#ifndef PVSZ_CONDUCTOR_H
#define PVSZ_CONDUCTOR_H

#include <stdint.h>

/* The weakest of two ways of being known; 0 if either is not known. */
int32_t pvsz_weaker(int32_t known, int32_t other);

/* Kinds of conductor: IEC 60228:2004 in mm2, NFPA 70 chapter 9 table 8 in AWG. */
enum {
    PVSZ_CONDUCTOR_CLASS2,        /* copper, stranded, plain; 1 to 240 mm2 */
    PVSZ_CONDUCTOR_CLASS2_COATED, /* copper, stranded, metal-coated; 1 to 240 mm2 */
    PVSZ_CONDUCTOR_CLASS5,        /* copper, flexible, plain; 1 to 240 mm2 */
    PVSZ_CONDUCTOR_CLASS5_TINNED, /* copper, flexible, tinned; 1 to 240 mm2 */
    PVSZ_CONDUCTOR_ALUMINIUM,     /* aluminium, stranded; 10 to 240 mm2 */
    PVSZ_CONDUCTOR_AWG,           /* copper, stranded, uncoated; 14 to 4/0 AWG */
    PVSZ_CONDUCTORS
};

/* Sizes of a kind count from 0, the smallest; 0 sizes for an unknown kind. */
int32_t pvsz_size_count(int32_t conductor);
/* "4 mm2", "2/0 AWG"; null outside the list. Static. */
const char *pvsz_size_name(int32_t conductor, int32_t size);
/* mm2, or circular mils of AWG; 0 outside the list. */
double pvsz_size_section(int32_t conductor, int32_t size);
/* The size of that name, of that section; -1 if there is none. */
int32_t pvsz_size_named(int32_t conductor, const char *name);
int32_t pvsz_size_of_section(int32_t conductor, double section);
/* Of AWG, which counts down to 1, then 1/0 (0) to 4/0 (-3). */
int32_t pvsz_size_of_gauge(int32_t awg);

/* Largest d.c. resistance at a conductor temperature of -60 to 250 degC, by the
 * linear law from 20 degC (copper 0.00393/K, aluminium 0.00403/K) or, of AWG,
 * from 75 degC (0.00323/K). */
int32_t pvsz_resistance(int32_t conductor, int32_t size, double temp, double *ohm_per_km);
/* Reactance in PVC conduit. AWG only: of mm2 sizes it is not known. */
int32_t pvsz_reactance(int32_t conductor, int32_t size, double *ohm_per_km);

/* Layings: a table of base capacities, with the conductors, the conductor
 * temperature and the table of ambient factors that belong to it. */
enum {
    PVSZ_LAYING_IEC_B2_PVC,     /* 1.5 to 95 mm2; IEC: copper, base 30 degC */
    PVSZ_LAYING_IEC_C_PVC,      /* 1.5 to 35 mm2 */
    PVSZ_LAYING_IEC_F_PVC,      /* 25 to 95 mm2 */
    PVSZ_LAYING_IEC_F_XLPE,     /* 25 to 240 mm2 */
    PVSZ_LAYING_IEC_G_PVC,      /* 1.5 to 50 mm2 */
    PVSZ_LAYING_FR_AIR_XLPE,    /* 1.5 to 95 mm2; base ambient not known */
    PVSZ_LAYING_FR_BURIED_XLPE, /* 6 to 95 mm2; base ambient not known */
    PVSZ_LAYING_EN_AIR,         /* 1.5 to 240 mm2; EN 50618: tinned class 5, base 60 degC */
    PVSZ_LAYING_EN_SURFACE,
    PVSZ_LAYING_EN_TOUCHING,
    PVSZ_LAYING_NFPA_60, /* 14 to 4/0 AWG; table 310.16 by column, base 30 degC */
    PVSZ_LAYING_NFPA_75,
    PVSZ_LAYING_NFPA_90,
    PVSZ_LAYINGS
};

/* What it is, and where it is written; null for an unknown laying. Static. */
const char *pvsz_laying_text(int32_t laying);
const char *pvsz_laying_source(int32_t laying);
/* Highest conductor temperature, degC; 0 for an unknown laying. */
double pvsz_laying_temp(int32_t laying);
/* Its table of ambient factors; PVSZ_AMBIENT_NONE if none is known. */
int32_t pvsz_laying_ambient(int32_t laying);

/* Capacity in the table's own conditions, A. */
int32_t pvsz_capacity(int32_t laying, int32_t conductor, int32_t size, double *amps);

enum {
    PVSZ_AMBIENT_NONE,
    PVSZ_AMBIENT_IEC_70,    /* PVC; base 30 degC, rows to 60 (80: no current) */
    PVSZ_AMBIENT_IEC_90,    /* XLPE; base 30 degC, to 80 */
    PVSZ_AMBIENT_ASNZS_75,  /* base 40 degC, to 65 (80: no current) */
    PVSZ_AMBIENT_ASNZS_90,  /* to 80 */
    PVSZ_AMBIENT_ASNZS_110, /* to 80 */
    PVSZ_AMBIENT_EN_120,    /* EN 50618; base 60 degC, to 90 */
    PVSZ_AMBIENT_PFG_120,   /* the cable before it; base 60 degC, to 90 */
    PVSZ_AMBIENT_NFPA_60,   /* base 30 degC, to 55 (85: no current) */
    PVSZ_AMBIENT_NFPA_75,   /* to 70 (85: no current) */
    PVSZ_AMBIENT_NFPA_90,   /* to 85 */
    PVSZ_AMBIENTS
};

const char *pvsz_ambient_source(int32_t table);
/* Ambient at which the factor is 1, degC; 0 for none. */
double pvsz_ambient_base(int32_t table);
/* An ambient between two rows takes the hotter, below all rows the coldest; above
 * all rows it is not known. 0 where the table allows no current. */
int32_t pvsz_ambient_factor(int32_t table, double ambient, double *factor);

enum {
    PVSZ_GROUPING_BUNCHED,      /* circuits, 1 to 20; IEC and AS/NZS */
    PVSZ_GROUPING_SINGLE_LAYER, /* circuits, 1 to 9; IEC */
    PVSZ_GROUPING_NFPA,         /* current-carrying conductors, 1 and more */
    PVSZ_GROUPINGS
};

const char *pvsz_grouping_source(int32_t table);
/* A count between two rows takes the larger. */
int32_t pvsz_grouping_factor(int32_t table, int32_t count, double *factor);

/* Added to the ambient for a raceway whose bottom is so many mm above a sunlit
 * roof, K, by an edition of NFPA 70 (2008 to 2023). Not for XHHW-2, which is
 * exempt (edition not told). */
int32_t pvsz_roof_adder(int32_t edition, double height, double *kelvin);

/* Where a conductor lies. */
typedef struct pvsz_run_place {
    int32_t laying;
    double ambient; /* degC, with what the roof adds */
    int32_t grouping;
    int32_t grouped; /* circuits or conductors together, itself included */
} pvsz_run_place;

/* Base capacity x ambient factor x grouping factor, A. */
int32_t pvsz_capacity_in_place(const pvsz_run_place *place, int32_t conductor, int32_t size,
                               double *amps);

/* What decides a size. */
enum {
    PVSZ_BY_NOTHING,   /* the smallest size whose numbers are known will do */
    PVSZ_BY_CAPACITY,  /* capacity in place below the current */
    PVSZ_BY_TERMINALS, /* capacity in the terminals' column below 1.25 x the current */
    PVSZ_BY_DROP,      /* voltage drop above its limit */
    PVSZ_BY_NONE_FITS,
    PVSZ_BY_NOT_KNOWN /* an argument out of range, or no size has all its numbers */
};

/* NFPA 70:2014 and later, 690.8(B)(1) and (2): the capacity before correction, in
 * the column of the terminals, carries 1.25 times the maximum current, and the
 * corrected one carries that current. The first that fails of _BY_CAPACITY and
 * _BY_TERMINALS; _BY_NOTHING if both hold. */
int32_t pvsz_two_way(double table_amps, double corrected_amps, double current);

enum {
    PVSZ_CIRCUIT_DC,
    PVSZ_CIRCUIT_SINGLE_PHASE,
    PVSZ_CIRCUIT_SPLIT_PHASE, /* between the two lines */
    PVSZ_CIRCUIT_THREE_PHASE, /* between two lines */
    PVSZ_CIRCUITS
};

/* A length of cable with one current in it. */
typedef struct pvsz_run {
    int32_t circuit;
    double length;     /* m, one way */
    double current;    /* A */
    double resistance; /* ohm/km */
    double reactance;  /* ohm/km; not used of d.c. */
    double cos_phi;    /* 0 to 1, taken as lagging; not used of d.c. */
} pvsz_run;

/* Voltage lost along a run, V: L x I x R x 2 of d.c.; L x I x (R cos phi + X sin
 * phi) x 2, or x sqrt(3) of three phases. Feeding in, it is the rise. */
double pvsz_drop(const pvsz_run *run);
/* Of runs one after the other. */
double pvsz_drop_of_runs(const pvsz_run *runs, int32_t count);
/* The circuit of an inverter's a.c. cable: of two phases there and back, as of one. */
int32_t pvsz_ac_circuit(double phases);
/* What its drop is measured against, by the voltage to neutral: of three phases that between
 * lines. */
double pvsz_ac_voltage(int32_t circuit, double to_neutral);
/* In percent of a voltage, which is not 0; of three phases that between lines. */
double pvsz_drop_percent(double drop, double voltage);

#define PVSZ_NO_TERMINALS (-1)

/* What a conductor has to do. */
typedef struct pvsz_duty {
    int32_t conductor;
    pvsz_run_place place;
    int32_t terminals; /* PVSZ_LAYING_NFPA_60, _75, or _NO_TERMINALS for no such test */
    double current;    /* A that it must carry */
    pvsz_run run;      /* its resistance, and its reactance where known, are filled in */
    double temp;       /* degC of the conductor for the drop */
    double voltage;    /* V that the drop is measured against, above 0 */
    double drop_limit; /* percent */
} pvsz_duty;

/* The answer. Where none fits, `size` is -1 and the numbers are those of the
 * largest size, `fails` the test that it fails. */
typedef struct pvsz_choice {
    int32_t size;
    int32_t governs;  /* PVSZ_BY_...: the test that the next smaller size fails */
    int32_t fails;    /* PVSZ_BY_NOTHING if a size fits */
    int32_t known;    /* how the capacity and the drop are known; 0 if not */
    double capacity;  /* A in place */
    double terminals; /* A in the lower of the laying's and the terminals' column; 0 without */
    double drop;      /* percent */
} pvsz_choice;

/* The smallest size that carries the current, suits the terminals and keeps the
 * drop. A size with a number that is not known is passed over. Of several tests
 * failed the first counts: capacity, terminals, drop. */
pvsz_choice pvsz_smallest(const pvsz_duty *duty);

#endif
