/* Cables: what they carry as laid, with cool terminals, and behind an a.c. device. */
#include "../wiring/ratings.h"
#include "cable.h"

void pvsz_of_cable_table_capacity(pvsz_calc *calc)
{
    static const char *const formulas[] = {
        [PVSIZE_KNOWN_READ] = "{Itab}; table of the laying, read in a source",
        [PVSIZE_KNOWN_MEMORY] = "{Itab}; table of the laying, from memory",
        [PVSIZE_KNOWN_UNCERTAIN] = "{Itab}; table of the laying, from memory, uncertain",
    };
    int32_t size = pvsz_cable_size(calc);
    int32_t laying = pvsz_cable_laying(calc);
    int32_t known;
    double amps = 0;

    if (size < 0)
        return;
    known = laying < 0 ? 0 : pvsz_capacity(laying, pvsz_cable_conductor(calc), size, &amps);
    if (!known) {
        pvsz_missing(calc, PVSIZE_CABLE_LAYING);
        return;
    }
    pvsz_result(calc, pvsz_literal(calc, amps), formulas[known]);
}

/* What the place takes off; told as missing where it is beyond its table. */
pvsz_corrections pvsz_cable_corrections(pvsz_calc *calc)
{
    double ambient = pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    int32_t grouping = (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPING) - 1;
    pvsz_corrections by = {0, 0};

    if (!pvsz_is_open(calc))
        return by;
    if (!pvsz_ambient_factor(pvsz_laying_ambient(pvsz_cable_laying(calc)), ambient, &by.ambient))
        pvsz_missing(calc, PVSIZE_CABLE_AMBIENT);
    else if (!pvsz_grouping_factor(grouping, (int32_t)pvsz_peek_param(calc, PVSIZE_CABLE_GROUPED),
                                   &by.grouping))
        pvsz_missing(calc, PVSIZE_CABLE_GROUPED);
    return by;
}

void pvsz_of_cable_capacity(pvsz_calc *calc)
{
    double table = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_TABLE_CAPACITY);
    pvsz_corrections by = pvsz_cable_corrections(calc);

    if (!pvsz_is_open(calc))
        return;
    pvsz_note_anew(calc); /* the factors stand in the formula, the ambient in the remark */
    pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_TABLE_CAPACITY);
    pvsz_literal(calc, by.ambient);
    pvsz_literal(calc, by.grouping);
    pvsz_param(calc, PVSIZE_CABLE_AMBIENT);
    pvsz_result(calc, table * by.ambient * by.grouping,
                "{Itab} × {kambient} × {kgrouping}; at {Ta}");
}

/* Only the tables of NFPA 70 come by temperature of the conductor: the column of the
 * laying or the hottest that the terminals bear, whichever is the lower; 0 where no
 * column is so cool. */
double pvsz_cable_terminal_capacity(pvsz_calc *calc, int32_t size)
{
    static const int32_t columns[] = {PVSZ_LAYING_NFPA_90, PVSZ_LAYING_NFPA_75,
                                      PVSZ_LAYING_NFPA_60};
    double bears = pvsz_peek_param(calc, PVSIZE_CABLE_TERMINAL_TEMP), amps = 0;

    for (int32_t i = 0; amps == 0 && i < PVSZ_COUNT(columns); i++)
        if (columns[i] <= pvsz_cable_laying(calc) &&
            pvsz_at_most(pvsz_laying_temp(columns[i]), bears))
            pvsz_capacity(columns[i], pvsz_cable_conductor(calc), size, &amps);
    return amps;
}

bool pvsz_cable_has_columns(pvsz_calc *calc)
{
    return pvsz_cable_laying(calc) >= PVSZ_LAYING_NFPA_60;
}

void pvsz_of_cable_terminal_capacity(pvsz_calc *calc)
{
    int32_t size;
    double amps;

    if (pvsz_has_param(calc, PVSIZE_CABLE_LAYING) && !pvsz_cable_has_columns(calc)) {
        pvsz_nothing(calc);
        return;
    }
    pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_TABLE_CAPACITY);
    pvsz_param(calc, PVSIZE_CABLE_TERMINAL_TEMP);
    size = pvsz_cable_size(calc);
    if (!pvsz_is_open(calc))
        return;
    amps = pvsz_cable_terminal_capacity(calc, size);
    if (amps == 0)
        pvsz_missing(calc, PVSIZE_CABLE_TERMINAL_TEMP);
    pvsz_note_anew(calc);
    pvsz_literal(calc, amps);
    pvsz_param(calc, PVSIZE_CABLE_TERMINAL_TEMP);
    pvsz_result(calc, amps, "{Itab}; column for terminals of {T}");
}

/* the device of the a.c. circuit */

bool pvsz_cable_has_device(const pvsz_calc *calc)
{
    return pvsz_cable_is_ac(calc) && pvsz_has_param(calc, PVSIZE_INVERTER_AC_DEVICE);
}

/* Highest device for a size that carries so much: that, or where the rule set lets
 * it pass the next standard rating, but for small conductors. */
double pvsz_cable_device_limit(pvsz_calc *calc, int32_t size, double capacity)
{
    static const double small[] = {
#define SMALL_CONDUCTOR(gauge, amps, KNOWN, source) amps,
#include "../tables/small_conductors.def"
#undef SMALL_CONDUCTOR
    };
    const pvsz_figure *figure = calc->report->figure;
    double limit = capacity, next;

    if (!pvsz_is_yes(calc, PVSZ_FIGURE_AC_NEXT_RATING))
        return limit;
    if (pvsz_has_figure(calc, PVSZ_FIGURE_AC_NEXT_RATING_MOST) &&
        pvsz_has_figure(calc, PVSZ_FIGURE_AC_DEVICE_SERIES) &&
        pvsz_smallest_rating((int32_t)figure[PVSZ_FIGURE_AC_DEVICE_SERIES].value, capacity, false,
                             figure[PVSZ_FIGURE_AC_NEXT_RATING_MOST].value, &next))
        limit = next;
    if (pvsz_cable_conductor(calc) == PVSZ_CONDUCTOR_AWG && size < PVSZ_COUNT(small) &&
        small[size] < limit)
        limit = small[size]; /* the sizes begin with those of the table */
    return limit;
}

void pvsz_of_cable_device_limit(pvsz_calc *calc)
{
    double capacity, limit;
    int32_t size;

    if (!pvsz_cable_has_device(calc)) {
        pvsz_nothing(calc);
        return;
    }
    capacity = pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CAPACITY);
    size = pvsz_cable_size(calc);
    if (!pvsz_is_open(calc))
        return;
    limit = pvsz_cable_device_limit(calc, size, capacity);
    if (limit == capacity) {
        pvsz_result(calc, limit, "{Iz}");
        return;
    }
    pvsz_note_anew(calc); /* the limit comes first */
    pvsz_literal(calc, limit);
    pvsz_quantity(calc, PVSZ_QUANTITY_CABLE_CAPACITY);
    pvsz_result(calc, limit,
                limit > capacity ? "{In}; next standard rating above {Iz}"
                                 : "{In}; highest for so small a conductor, which carries {Iz}");
}
