/* What quantities and the pages on them work with, from inside: things that are not there,
 * operands and symbols. Links the static library. */
#include "../../lib/report/formula.h"
#include "../../lib/rules/calc.h"
#include "../support/pv_test.h"

enum { ROOM = 8 };

/* A quantity of a subject that is being computed, with room for operands. */
typedef struct making {
    pvsz_entry entry;
    pvsz_operand operand[ROOM];
    pvsz_calc calc;
} making;

static void begin(making *made, pvsize_report *report, const pvsz_subject *subject)
{
    memset(made, 0, sizeof *made);
    made->entry.subject = subject;
    made->entry.operand = made->operand;
    made->entry.state = PVSZ_COMPUTING;
    made->entry.formula = "";
    made->calc = (pvsz_calc){report, subject, &made->entry, made->operand, made->operand + ROOM};
}

/* The invented job, its second array on no plane. */
static pvsize_report *job(void)
{
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0);
    pvsize_report *report;

    give(system, invented_site());
    give(system, invented_inverter());
    give(system, invented_array(0, 0, 9, 2));
    give(system, invented_array(1, -1, 8, 1));
    report = checked_au(system);
    pvsize_spec_free(system);
    return report;
}

/* A quantity of a plane, asked of the array on it and of one on none. */
START_TEST(quantities_of_what_is_not_there)
{
    pvsize_report *report = job();
    const pvsz_subject *arrays = report->design.subject[PVSZ_KIND_ARRAY];
    const pvsz_ref side = pvsz_refer(PVSIZE_QUANTITY_PLANE_MODULES);
    double value = 7;
    making made;

    begin(&made, report, &arrays[0]);
    ck_assert(pvsz_quantity(&made.calc, PVSZ_QUANTITY_PLANE_MODULES) == 18);
    ck_assert(pvsz_peek_quantity(&made.calc, PVSZ_QUANTITY_PLANE_MODULES) == 18);
    ck_assert_int_eq(made.entry.state, PVSZ_COMPUTING);
    ck_assert_int_ge(pvsz_side_entry(&side, &arrays[0]), 0);
    ck_assert(pvsz_report_value(report, PVSZ_QUANTITY_PLANE_MODULES, &arrays[0], &value));
    ck_assert(value == 18);

    begin(&made, report, &arrays[1]);
    ck_assert(pvsz_peek_quantity(&made.calc, PVSZ_QUANTITY_PLANE_MODULES) == 0);
    ck_assert(!pvsz_has_quantity(&made.calc, PVSZ_QUANTITY_PLANE_MODULES));
    ck_assert_int_eq(made.entry.state, PVSZ_COMPUTING);
    ck_assert(pvsz_quantity(&made.calc, PVSZ_QUANTITY_PLANE_MODULES) == 0);
    ck_assert_int_eq(made.entry.state, PVSZ_NOTHING); /* it does not apply */
    ck_assert_ptr_eq(made.calc.next, made.operand);
    ck_assert_int_eq(pvsz_side_entry(&side, &arrays[1]), -1);
    ck_assert(!pvsz_report_value(report, PVSZ_QUANTITY_PLANE_MODULES, &arrays[1], &value));
    ck_assert(value == 18);
    pvsize_report_free(report);
}
END_TEST

/* Places count within one design: a subject of a larger one is not in a smaller. */
START_TEST(subjects_of_another_report)
{
    pvsize_spec *module = invented_module();
    pvsize_report *large = job(), *small = checked_au(module);
    const pvsz_subject *array = &large->design.subject[PVSZ_KIND_ARRAY][0];

    ck_assert_int_ge(pvsz_report_entry(large, PVSZ_QUANTITY_STRING_VOC_COLD, array), 0);
    ck_assert_int_eq(pvsz_report_entry(small, PVSZ_QUANTITY_STRING_VOC_COLD, array), -1);
    pvsize_report_free(large);
    pvsize_report_free(small);
    pvsize_spec_free(module);
}
END_TEST

/* What has a default always has a value; where the thing itself is not there, nothing of it
 * has, and nothing of it is stated to be none. */
START_TEST(parameters_of_what_is_not_there)
{
    pvsize_report *report = job();
    pvsize_spec *inverter = invented_inverter();
    pvsz_subject subject = report->design.subject[PVSZ_KIND_ARRAY][0];
    making made;

    OK(pvsize_spec_unset(inverter, PVSIZE_INVERTER_PHASES, diag));
    OK(pvsize_spec_set_none(inverter, PVSIZE_INVERTER_MAX_PV_POWER, diag));
    subject.spec[PVSZ_KIND_INVERTER] = inverter;
    begin(&made, report, &subject);
    ck_assert(pvsz_has_param(&made.calc, PVSIZE_INVERTER_COS_PHI)); /* 1, unless told otherwise */
    ck_assert(pvsz_has_param(&made.calc, PVSIZE_INVERTER_AC_VOLTAGE));
    ck_assert(!pvsz_has_param(&made.calc, PVSIZE_INVERTER_PHASES));
    ck_assert(pvsz_states_none(&made.calc, PVSIZE_INVERTER_MAX_PV_POWER));
    ck_assert(!pvsz_states_none(&made.calc, PVSIZE_INVERTER_PHASES));
    subject.spec[PVSZ_KIND_INVERTER] = NULL;
    ck_assert(!pvsz_has_param(&made.calc, PVSIZE_INVERTER_COS_PHI));
    ck_assert(!pvsz_has_param(&made.calc, PVSIZE_INVERTER_AC_VOLTAGE));
    ck_assert(!pvsz_states_none(&made.calc, PVSIZE_INVERTER_MAX_PV_POWER));
    pvsize_spec_free(inverter);
    pvsize_report_free(report);
}
END_TEST

/* "a" stands twice, "b" and "c" once. */
START_TEST(symbols_count_in_the_order_of_first_use)
{
    static const char formula[] = "{a} × ({b} - {a}) / {c}; of {b}";
    static const char *const symbols[] = {"a", "b", "c"};
    size_t length;

    for (int32_t k = 0; k < 3; k++) {
        const char *symbol = pvsz_symbol_at(formula, k, &length);

        ck_assert_uint_eq(length, 1);
        ck_assert_int_eq(symbol[0], symbols[k][0]);
    }
    ck_assert_ptr_null(pvsz_symbol_at(formula, 3, &length));
    ck_assert_ptr_null(pvsz_symbol_at("", 0, &length));
}
END_TEST

static const char *equation(const pvsize_report *report, const pvsz_entry *entry)
{
    static char buffer[600];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_equation(&text, report, entry);
    OK(pvsz_text_end(&text, NULL, diag));
    return buffer;
}

static const char *meanings(const pvsize_report *report, const pvsz_entry *entry)
{
    static char buffer[900];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_meanings(&text, report, entry, "- ");
    OK(pvsz_text_end(&text, NULL, diag));
    return buffer;
}

/* A number whose symbol is in no table is told without its meaning; a symbol without a number
 * stays empty, and a number without a symbol is not told of. */
START_TEST(steps_that_are_not_whole)
{
    pvsize_report *report = job();
    making made;

    begin(&made, report, &report->design.subject[PVSZ_KIND_ARRAY][0]);
    made.entry.quantity = PVSZ_QUANTITY_STRING_VOC_COLD;
    pvsz_literal(&made.calc, 2);
    pvsz_result(&made.calc, 6, "{nowhere} × {second}");
    made.entry.operands = 1;
    ck_assert_ptr_null(pvsz_symbol_of(&made.entry, 0));
    ck_assert_str_eq(equation(report, &made.entry), "Ustring,cold = nowhere × second = 2 ×  = 6 V");
    ck_assert_str_eq(meanings(report, &made.entry),
                     "- nowhere = 2: a number of the step; counted in the design\n");
    made.entry.formula = "{nowhere}";
    pvsz_literal(&made.calc, 3);
    made.entry.operands = 2;
    ck_assert_str_eq(meanings(report, &made.entry),
                     "- nowhere = 2 V: a number of the step; counted in the design\n");
    pvsize_report_free(report);
}
END_TEST

/* All that is left, joined by commas or added up, each with whose it is. */
START_TEST(lists_name_what_they_are_of)
{
    pvsize_report *report = job();
    const pvsz_subject *arrays = report->design.subject[PVSZ_KIND_ARRAY];
    making made;

    begin(&made, report, &report->design.subject[PVSZ_KIND_SYSTEM][0]);
    made.entry.quantity = PVSZ_QUANTITY_ARRAY_MODULES;
    for (int i = 0; i < 2; i++) {
        const pvsz_entry *modules =
            &report->entry[pvsz_report_entry(report, PVSZ_QUANTITY_ARRAY_MODULES, &arrays[i])];

        pvsz_note_entry(&made.calc, modules, PVSZ_QUANTITY_ARRAY_MODULES);
    }
    made.entry.operands = 2;
    made.entry.value = 18;
    made.entry.formula = "{,n}";
    ck_assert_str_eq(equation(report, &made.entry), "n = n[array 1], n[array 2] = "
                                                    "18, 8 = 18");
    made.entry.value = 26;
    made.entry.formula = "{+n}";
    ck_assert_str_eq(equation(report, &made.entry), "n = n[array 1] + n[array 2] = "
                                                    "18 + 8 = 26");
    pvsize_report_free(report);
}
END_TEST

/* What an operand belongs to: the subject's own, one of a list, or none. */
START_TEST(operands_belong_to_something)
{
    pvsize_report *report = job();
    const pvsz_design *design = &report->design;
    making made;

    begin(&made, report, &design->subject[PVSZ_KIND_SYSTEM][0]);
    pvsz_note(&made.calc, 9000, PVSIZE_INVERTER_RATED_AC_POWER, -1);
    pvsz_note(&made.calc, 1.25, PVSIZE_FIGURE_ISC_FACTOR, -1);
    pvsz_note(&made.calc, 9000, PVSIZE_INVERTER_RATED_AC_POWER, -1);
    pvsz_literal(&made.calc, 2);
    ck_assert_ptr_eq(pvsz_operand_subject(report, &made.entry, 0),
                     design->subject[PVSZ_KIND_INVERTER]);
    ck_assert_ptr_null(pvsz_operand_subject(report, &made.entry, 1)); /* the rule set's */
    ck_assert_ptr_null(pvsz_operand_subject(report, &made.entry, 2)); /* there is one only */
    ck_assert_ptr_null(pvsz_operand_subject(report, &made.entry, 3));
    made.entry.subject = &design->subject[PVSZ_KIND_ARRAY][1];
    ck_assert_ptr_eq(pvsz_operand_subject(report, &made.entry, 0),
                     design->subject[PVSZ_KIND_INVERTER]);
    pvsize_report_free(report);
}
END_TEST

/* Of every step of the job: each operand has a symbol of its own, or is of the list that
 * ends the symbols; and each symbol has an operand. */
START_TEST(formulas_name_their_operands)
{
    pvsize_report *report = job();
    size_t length;

    for (int32_t t = 0; t < report->turns; t++) {
        const pvsz_entry *entry = report->turn[t];
        const char *symbol;
        int32_t k = 0;
        bool list = false;

        ck_assert_int_ge(entry->state, PVSZ_VALUE); /* each is decided */
        if (entry->state != PVSZ_VALUE)
            continue;
        for (; (symbol = pvsz_symbol_at(entry->formula, k, &length)) != NULL; k++)
            list = list || *symbol == '+' || *symbol == ',';
        ck_assert_msg(list ? entry->operands >= k : entry->operands == k, "%s: %d", entry->formula,
                      (int)entry->operands);
    }
    pvsize_report_free(report);
}
END_TEST

/* All that can be taken for granted of a job, by rules of its own on every default: unlike
 * modules on one input, with a reading on each or, as readings take less than their room, with
 * none. Every default is told of each thing, once, and there is room left. */
static void take_all_for_granted(bool with_readings)
{
    enum { ARRAYS = 60 };
    pvsize_spec *system = SPEC(PVSIZE_KIND_SYSTEM, 0), *inverter = SPEC(PVSIZE_KIND_INVERTER, 0);
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    int32_t added = 0;

    give(system, SPEC(PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, -3, PVSIZE_SITE_TEMP_MAX, 41));
    give(inverter, SPEC(PVSIZE_KIND_INPUT, 0));
    give(system, inverter);
    for (int32_t i = 0; i < ARRAYS; i++) {
        pvsize_spec *array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0, PVSIZE_ARRAY_STRINGS, 3,
                                  PVSIZE_ARRAY_MODULES_PER_STRING, 9);
        pvsize_spec *module = invented_module();

        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, 38.8 + 0.1 * i, diag));
        OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC_COEFFICIENT, 0.25, diag));
        give(array, module);
        give(system, array);
        if (with_readings)
            give(system,
                 SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, i, PVSIZE_READING_IRRADIANCE, 800,
                      PVSIZE_READING_BACK_TEMP, 40, PVSIZE_READING_VOC, 300));
    }
    for (int32_t k = 0; k < PVSZ_SCOPES; k++)
        for (int32_t r = 0; r < pvsz_kinds[k].count; r++) {
            const pvsz_term *row = &pvsz_kinds[k].rows[r];
            char name[20];

            if (row->need != PVSIZE_NEED_DEFAULT)
                continue;
            snprintf(name, sizeof name, "own_%d", (int)added++);
            OK(pvsize_rules_add(rules, name, "own", row->number, PVSIZE_COMPARE_AT_LEAST, 0, 1000,
                                PVSIZE_SEVERITY_NOTE, NULL, NULL, diag));
        }
    report = checked(system, rules);
    ck_assert_int_lt(report->assumptions, report->assumption_room);
    for (int32_t k = 0; k < PVSZ_SCOPES; k++)
        for (int32_t r = 0; r < pvsz_kinds[k].count; r++)
            for (int32_t i = 0; i < report->design.count[k]; i++) {
                const pvsz_term *row = &pvsz_kinds[k].rows[r];
                int32_t told = 0;

                for (int32_t a = 0; a < report->assumptions; a++)
                    told += report->assumption[a].term == row->number &&
                            report->assumption[a].subject == &report->design.subject[k][i];
                /* others are estimated, or not */
                ck_assert_msg(row->need == PVSIZE_NEED_DEFAULT ? told == 1 : told <= 1, "%s of %d",
                              row->name, (int)i);
            }
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
}

START_TEST(everything_can_be_taken_for_granted)
{
    take_all_for_granted(false);
    take_all_for_granted(true);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "quantities", quantities_of_what_is_not_there);
    add_test(suite, "another report", subjects_of_another_report);
    add_test(suite, "parameters", parameters_of_what_is_not_there);
    add_test(suite, "symbols", symbols_count_in_the_order_of_first_use);
    add_test(suite, "not whole", steps_that_are_not_whole);
    add_test(suite, "lists", lists_name_what_they_are_of);
    add_test(suite, "operands", operands_belong_to_something);
    add_test(suite, "formulas", formulas_name_their_operands);
    add_test(suite, "taken for granted", everything_can_be_taken_for_granted);
}

int main(void)
{
    return run_cases("calc", add);
}
