/* A bill of a system, and its rows by item. */
#ifndef PV_BILL_H
#define PV_BILL_H

#include "pv_test.h"

static pvsize_bill *bill;

static inline void fill_by(const pvsize_spec *system, const pvsize_rules *rules)
{
    if (!bill)
        OK(pvsize_bill_new(NULL, &bill, diag));
    OK(pvsize_bill_fill(system, rules, bill, diag));
}

/* By the Australian preset, and without what was given. */
static inline void fill(pvsize_spec *system)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");

    fill_by(system, rules);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}

static inline void done(void)
{
    pvsize_bill_free(bill);
    bill = NULL;
}

/* Place of the n-th row of an item; -1 if none. */
static inline int32_t row_of(int32_t item, int32_t n)
{
    int32_t count, here;

    OK(pvsize_bill_count(bill, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_bill_row(bill, i, &here, NULL, NULL, NULL, diag));
        if (here == item && n-- == 0)
            return i;
    }
    return -1;
}

static inline int32_t rows(int32_t item)
{
    int32_t n = 0;

    while (row_of(item, n) >= 0)
        n++;
    return n;
}

/* The n-th row of an item is all told, and comes to this. */
static inline void comes_to(int32_t item, int32_t n, double installed, double quantity)
{
    int32_t i = row_of(item, n), missing;
    double of_it, of_all;

    ck_assert_int_ge(i, 0);
    OK(pvsize_bill_row(bill, i, NULL, NULL, NULL, &missing, diag));
    ck_assert_int_eq(missing, 0);
    OK(pvsize_bill_quantity(bill, i, &of_it, &of_all, NULL, diag));
    NEAR(of_it, installed, 1e-12);
    NEAR(of_all, quantity, 1e-12);
}

static inline double attribute(int32_t item, int32_t n, int32_t term)
{
    int32_t i = row_of(item, n), count, here, missing;
    double value;

    OK(pvsize_bill_attribute_count(bill, i, &count, diag));
    for (int32_t k = 0; k < count; k++) {
        OK(pvsize_bill_attribute(bill, i, k, &here, &value, &missing, diag));
        if (here == term)
            return missing ? -missing : value;
    }
    ck_abort_msg("no such attribute: %d", (int)term);
    return NAN;
}

/* What the n-th row of an item lacks. */
static inline int32_t missing_of(int32_t item, int32_t n)
{
    int32_t missing = -1, i = row_of(item, n);

    ck_assert_int_ge(i, 0);
    OK(pvsize_bill_row(bill, i, NULL, NULL, NULL, &missing, diag));
    return missing;
}

static inline void is_for(int32_t item, int32_t n, int32_t k, const char *subject, double installed,
                          int32_t why)
{
    int32_t number, reason;
    double share;
    char text[300];

    OK(pvsize_bill_share(bill, row_of(item, n), k, &number, &share, &reason, diag));
    OK(pvsize_bill_subject_text(bill, number, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, subject);
    NEAR(share, installed, 1e-12);
    ck_assert_int_eq(reason, why);
}

static inline int32_t shares_of(int32_t item, int32_t n)
{
    int32_t count;

    OK(pvsize_bill_share_count(bill, row_of(item, n), &count, diag));
    return count;
}

static inline pvsize_spec *cable_of(int32_t circuit, int32_t owner, double section, double length)
{
    bool is_ac = circuit == PVSIZE_CIRCUIT_AC;

    return SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, circuit,
                is_ac ? PVSIZE_CABLE_INVERTER : PVSIZE_CABLE_ARRAY, owner, PVSIZE_CABLE_CONDUCTOR,
                is_ac ? PVSIZE_CONDUCTOR_CLASS2 : PVSIZE_CONDUCTOR_CLASS5_TINNED,
                PVSIZE_CABLE_SECTION, section, PVSIZE_CABLE_LENGTH, length, PVSIZE_CABLE_LAYING,
                is_ac ? PVSIZE_LAYING_IEC_B2_PVC : PVSIZE_LAYING_EN_TOUCHING);
}

/* Six inputs with 4 strings of 12 each, under a module rating of 25 A: 3 x 13.9 A can flow
 * back, so each string has a device of at least 1.5 x 13.9 = 20.85 A: 25 A. */
static inline pvsize_spec *six_inputs(void)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_spec *inverter = SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 60000,
                                 PVSIZE_INVERTER_MAX_AC_CURRENT, 92, PVSIZE_INVERTER_PHASES, 3);

    for (int32_t i = 0; i < 6; i++)
        give(inverter, invented_input(4));
    give(system, invented_site());
    give(system, inverter);
    for (int32_t i = 0; i < 6; i++)
        give(system, invented_array(i, -1, 12, 4));
    return system;
}

/* A switch at array 0: four poles, 32 A up to 60 degrees and 25 A up to 70. */
static inline pvsize_spec *listed_switch(int32_t array)
{
    return SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, PVSIZE_ISOLATOR_PLACE_AT_ARRAY,
                PVSIZE_ISOLATOR_ARRAY, array, PVSIZE_ISOLATOR_LOAD_BREAK, PVSIZE_ANSWER_YES,
                PVSIZE_ISOLATOR_MEETS_STANDARD, PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_LOCKABLE,
                PVSIZE_ANSWER_YES, PVSIZE_ISOLATOR_CATEGORY, PVSIZE_UTILISATION_DC_PV2,
                PVSIZE_ISOLATOR_VOLTAGE, 1000, PVSIZE_ISOLATOR_CURRENT, 32,
                PVSIZE_ISOLATOR_CURRENT_TEMP, 60, PVSIZE_ISOLATOR_HOT_CURRENT, 25,
                PVSIZE_ISOLATOR_HOT_TEMP, 70, PVSIZE_ISOLATOR_POLES, 4,
                PVSIZE_ISOLATOR_POLES_PER_CONDUCTOR, 2);
}

/* One of which only the place is known, for array 1. */
static inline pvsize_spec *bare_one(int32_t place)
{
    return SPEC(PVSIZE_KIND_ISOLATOR, PVSIZE_ISOLATOR_PLACE, place, PVSIZE_ISOLATOR_ARRAY, 1);
}

static inline int32_t attributes_of(int32_t item, int32_t n)
{
    int32_t count;

    OK(pvsize_bill_attribute_count(bill, row_of(item, n), &count, diag));
    return count;
}

/* 41.516 V a module at -3 degrees, 8 in a string; 1.25 x 13.9 A. */
static const double array_1_voltage = 38.8 * 1.07 * 8, array_1_current = 1.25 * 13.9;

static inline pvsize_spec *cabled_system(void)
{
    pvsize_spec *system = invented_system();

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_INVERTER_SEPARATED, PVSIZE_ANSWER_NO, diag));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 0, 4, 20));
    give(system, cable_of(PVSIZE_CIRCUIT_STRING, 1, 4, 20));
    return system;
}

#endif
