/* Wrong input of every kind: a clear error of its own, and nothing changed. */
#include "../support/pv_test.h"

static pvsize_spec *module;
static pvsize_rules *rules;
static pvsize_report *report;

static void open_all(void)
{
    module = invented_module();
    rules = preset("asnzs_5033_2021");
    OK(pvsize_report_new(NULL, &report, diag));
}

static void close_all(void)
{
    double value;

    /* whatever was tried, the module is as it was */
    OK(pvsize_spec_get_number(module, PVSIZE_MODULE_VOC, &value, diag));
    ck_assert(value == 38.8);
    pvsize_spec_free(module);
    pvsize_rules_free(rules);
    pvsize_report_free(report);
}

START_TEST(numbers)
{
    open_all();
    FAILS(PVSIZE_E_NOT_FINITE, "module.voc: not a finite number; given not a number",
          pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, NAN, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "infinity",
          pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, INFINITY, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE,
          "module.voc: outside the allowed range; given -3 V; allowed 0.1 V to 1500 V",
          pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, -3, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 0 V",
          pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, 0, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 1e300 V",
          pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, 1e300, diag));
    FAILS(PVSIZE_E_NOT_WHOLE, "module.cells: must be a whole number; given 60.5",
          pvsize_spec_set_number(module, PVSIZE_MODULE_CELLS, 60.5, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "allowed crystalline_silicon (1), cadmium_telluride (2)",
          pvsize_spec_set_number(module, PVSIZE_MODULE_CELL, 5, diag));
    FAILS(PVSIZE_E_NOT_WHOLE, "module.cell",
          pvsize_spec_set_number(module, PVSIZE_MODULE_CELL, 1.5, diag));
    close_all();
}
END_TEST

START_TEST(kinds_and_types)
{
    double value = 7;
    char text[8];

    open_all();
    FAILS(PVSIZE_E_WRONG_KIND,
          "input.max_voltage: of another kind than this call takes; it takes 'module'",
          pvsize_spec_set_number(module, PVSIZE_INPUT_MAX_VOLTAGE, 600, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 4711", pvsize_spec_set_number(module, 4711, 1, diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.name",
          pvsize_spec_set_none(module, PVSIZE_MODULE_NAME, diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.cell",
          pvsize_spec_set_none(module, PVSIZE_MODULE_CELL, diag));
    FAILS(PVSIZE_E_NEEDS_VALUE, "module.voc: must have a value",
          pvsize_spec_set_none(module, PVSIZE_MODULE_VOC, diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.name",
          pvsize_spec_set_number(module, PVSIZE_MODULE_NAME, 1, diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "given '38.8 V'; allowed 0.1 V to 1500 V",
          pvsize_spec_set_text(module, PVSIZE_MODULE_VOC, "38.8 V", diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.name",
          pvsize_spec_get_number(module, PVSIZE_MODULE_NAME, &value, diag));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.voc",
          pvsize_spec_get_text(module, PVSIZE_MODULE_VOC, text, sizeof text, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "module.cell: not one of the choices; given 'silicon'; allowed ",
          pvsize_spec_set_text(module, PVSIZE_MODULE_CELL, "silicon", diag));
    FAILS(PVSIZE_E_NOT_SET, "module.nmot",
          pvsize_spec_get_number(module, PVSIZE_MODULE_NMOT, &value, diag));
    FAILS(PVSIZE_E_NOT_SET, "module.name",
          pvsize_spec_get_text(module, PVSIZE_MODULE_NAME, text, sizeof text, NULL, diag));
    ck_assert(value == 7);
    close_all();
}
END_TEST

START_TEST(texts)
{
    char longer[300], got[300];

    open_all();
    memset(longer, 'x', sizeof longer);
    longer[201] = '\0';
    OK(pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, "Galah", diag));
    FAILS(PVSIZE_E_TOO_LONG, "module.name: text has too many bytes; given 201 bytes",
          pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, longer, diag));
    FAILS(PVSIZE_E_BAD_TEXT, "module.name",
          pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, "two\nlines", diag));
    FAILS(PVSIZE_E_BAD_TEXT, "UTF-8",
          pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, "\xff\xfe", diag));
    FAILS(PVSIZE_E_NULL_POINTER, "argument 'text'",
          pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_spec_get_text(module, PVSIZE_MODULE_NAME, NULL, 9, NULL, diag));
    OK(pvsize_spec_get_text(module, PVSIZE_MODULE_NAME, got, sizeof got, NULL, diag));
    ck_assert_str_eq(got, "Galah");
    longer[200] = '\0';
    OK(pvsize_spec_set_text(module, PVSIZE_MODULE_NAME, longer, diag));
    close_all();
}
END_TEST

START_TEST(null_pointers)
{
    pvsize_spec *spec = module;
    double value;
    int32_t number;

    open_all();
    FAILS(PVSIZE_E_NULL_POINTER, "argument 'out'",
          pvsize_spec_new(PVSIZE_KIND_MODULE, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'spec'",
          pvsize_spec_set_number(NULL, PVSIZE_MODULE_VOC, 1, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'spec'",
          pvsize_spec_get_number(NULL, PVSIZE_MODULE_VOC, &value, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'spec'",
          pvsize_spec_state(NULL, PVSIZE_MODULE_VOC, &number, diag));
    ck_assert_int_eq(pvsize_diag_text(diag, NULL, 9, NULL), PVSIZE_E_NULL_POINTER);
    FAILS(PVSIZE_E_NULL_POINTER, "'value'",
          pvsize_spec_get_number(module, PVSIZE_MODULE_VOC, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'part'", pvsize_spec_add(module, NULL, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'terms'", pvsize_spec_set_numbers(module, NULL, &value, 1, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'values'",
          pvsize_spec_set_numbers(module, &number, NULL, 1, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'state'",
          pvsize_spec_state(module, PVSIZE_MODULE_VOC, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'count'", pvsize_report_count(report, 0, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'rules'", pvsize_check(module, NULL, report, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'report'", pvsize_check(module, rules, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'buffer'", pvsize_rules_get_title(rules, NULL, 5, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "'out'", pvsize_rules_clone(rules, NULL, NULL, diag));
    {
        pvsize_allocator half = {NULL, NULL, NULL};

        FAILS(PVSIZE_E_NULL_POINTER, "memory->allocate",
              pvsize_spec_new(PVSIZE_KIND_MODULE, &half, &spec, diag));
        ck_assert_ptr_null(spec);
    }
    ck_assert_int_eq(pvsize_diag_new(NULL, NULL), PVSIZE_E_NULL_POINTER);
    ck_assert_int_eq(pvsize_diag_clear(NULL), PVSIZE_E_NULL_POINTER);
    ck_assert_int_eq(pvsize_diag_status(NULL), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_spec_kind(NULL), 0);
    ck_assert_int_eq(pvsize_rules_count(NULL), 0);
    pvsize_spec_free(NULL);
    pvsize_rules_free(NULL);
    pvsize_report_free(NULL);
    pvsize_diag_free(NULL);
    close_all();
}
END_TEST

/* Handles of another type, as an FFI that knows only addresses can pass them. */
START_TEST(foreign_handles)
{
    pvsize_spec *out = module;

    open_all();
    FAILS(PVSIZE_E_BAD_HANDLE, "argument 'spec'",
          pvsize_spec_set_number((pvsize_spec *)rules, PVSIZE_MODULE_VOC, 1, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "'spec'", pvsize_check((pvsize_spec *)rules, rules, report, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "'rules'",
          pvsize_check(module, (pvsize_rules *)module, report, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "'report'",
          pvsize_check(module, rules, (pvsize_report *)module, diag));
    FAILS(PVSIZE_E_BAD_HANDLE, "'spec'",
          pvsize_spec_clone((pvsize_spec *)report, NULL, &out, diag));
    ck_assert_ptr_null(out);
    FAILS(PVSIZE_E_BAD_HANDLE, "'rules'",
          pvsize_rules_set_severity((pvsize_rules *)report, PVSIZE_RULE_TERMINALS, 1, diag));
    ck_assert_int_eq(pvsize_spec_kind((pvsize_spec *)rules), 0);
    /* a diag that is none is not written to */
    ck_assert_int_eq(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, -1, (pvsize_diag *)rules),
                     PVSIZE_E_OUT_OF_RANGE);
    ck_assert_int_eq(pvsize_rules_count(rules) > 0, 1);
    /* freeing with the wrong call does nothing */
    pvsize_rules_free((pvsize_rules *)module);
    pvsize_report_free((pvsize_report *)module);
    pvsize_diag_free((pvsize_diag *)module);
    pvsize_spec_free((pvsize_spec *)rules);
    close_all();
}
END_TEST

START_TEST(parts)
{
    pvsize_spec *system = invented_system(), *input = invented_input(1), *out = input;
    int32_t count = 5;

    open_all();
    FAILS(PVSIZE_E_WRONG_KIND,
          "input: of another kind than this call takes; it takes 'a part of module'",
          pvsize_spec_add(module, input, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "array: index outside the list; given 2; allowed 0 to 1",
          pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 2, NULL, &out, diag));
    ck_assert_ptr_null(out);
    FAILS(PVSIZE_E_BAD_INDEX, "given -1", pvsize_spec_remove(system, PVSIZE_KIND_ARRAY, -1, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "plane",
          pvsize_spec_part_count(system, PVSIZE_KIND_PLANE, &count, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 12", pvsize_spec_part_count(system, 12, &count, diag));
    ck_assert_int_eq(count, 5);
    FAILS(PVSIZE_E_BAD_INDEX, "array",
          pvsize_spec_set_part_number(system, 9, PVSIZE_ARRAY_STRINGS, 1, diag));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "array[0].strings",
          pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 0, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "module",
          pvsize_spec_set_part_number(system, 0, PVSIZE_MODULE_VOC, 1, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "input", pvsize_spec_replace(system, 0, input, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "rule", pvsize_spec_new(PVSIZE_KIND_RULE, NULL, &out, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 3", pvsize_spec_new(3, NULL, &out, diag));
    pvsize_spec_free(system);
    pvsize_spec_free(input);
    close_all();
}
END_TEST

/* A system that is not whole cannot be checked; the report keeps what it held. */
START_TEST(systems_that_are_not_whole)
{
    pvsize_spec *system = invented_system(), *empty, *array;
    char *before, *after;

    open_all();
    OK(pvsize_check(system, rules, report, diag));
    before = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    OK(pvsize_spec_new(PVSIZE_KIND_SYSTEM, NULL, &empty, diag));
    FAILS(PVSIZE_E_MISSING_PART, "site", pvsize_check(empty, rules, report, diag));
    give(empty, invented_site());
    FAILS(PVSIZE_E_MISSING_PART, "inverter", pvsize_check(empty, rules, report, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_INPUT, 2, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE,
          "array[1].input: refers to a part that is not there; given 2; allowed 0 to 1",
          pvsize_check(system, rules, report, diag));
    ck_assert_int_eq(pvsize_check(system, rules, report, diag), PVSIZE_E_BROKEN_REFERENCE);
    ck_assert_int_eq(pvsize_diag_index(diag), 1); /* the array */
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_INPUT, 1, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_INVERTER, 3, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "array[1].inverter",
          pvsize_check(system, rules, report, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_INVERTER, 0, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_PLANE, 5, diag));
    FAILS(PVSIZE_E_BROKEN_REFERENCE, "array[1].plane", pvsize_check(system, rules, report, diag));
    OK(pvsize_spec_set_part_number(system, 1, PVSIZE_ARRAY_PLANE, 1, diag));
    give(system, SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INPUT, 0));
    FAILS(PVSIZE_E_MISSING_PART, "array[2]: ", pvsize_check(system, rules, report, diag));
    array = SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_STRINGS, 1);
    give(array, invented_module());
    OK(pvsize_spec_replace(system, 2, array, diag));
    FAILS(PVSIZE_E_NOT_SET, "array[2].input", pvsize_check(system, rules, report, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "array", pvsize_check(array, rules, report, diag));
    after = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    ck_assert_str_eq(before, after);
    free(before);
    free(after);
    pvsize_spec_free(array);
    pvsize_spec_free(empty);
    pvsize_spec_free(system);
    close_all();
}
END_TEST

START_TEST(rule_sets)
{
    pvsize_rules *out = NULL;
    int32_t number = 0;
    double value = 3;

    open_all();
    FAILS(PVSIZE_E_UNKNOWN_NAME, "given '?[31m?",
          pvsize_rules_new("\x1b[31m\xff\xc3", NULL, &out, diag)); /* shown as text */
    FAILS(PVSIZE_E_NEEDS_VALUE, "figure.required_yes",
          pvsize_rules_unset_figure(rules, PVSIZE_FIGURE_REQUIRED_YES, diag));
    FAILS(PVSIZE_E_UNKNOWN_NAME,
          "preset: no row of the table has this name; given 'as5033'; allowed asnzs_5033_2014, ",
          pvsize_rules_new("as5033", NULL, &out, diag));
    for (int32_t i = 0; i < pvsize_preset_count(); i++)
        FAILS(PVSIZE_E_UNKNOWN_NAME, pvsize_preset_name(i),
              pvsize_rules_new("as5033", NULL, &out, diag));
    ck_assert_ptr_null(out);
    FAILS(PVSIZE_E_OUT_OF_RANGE,
          "figure.isc_factor: outside the allowed range; given 0.9; allowed 1 to 3",
          pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 0.9, NULL, diag));
    FAILS(PVSIZE_E_NOT_FINITE, "isc_factor",
          pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, NAN, NULL, diag));
    FAILS(PVSIZE_E_BAD_TEXT, "isc_factor",
          pvsize_rules_set_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, 1.3, "\t", diag));
    FAILS(PVSIZE_E_WRONG_KIND, "module.voc",
          pvsize_rules_set_figure(rules, PVSIZE_MODULE_VOC, 1.3, NULL, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 5", pvsize_rules_set_figure(rules, 5, 1.3, NULL, diag));
    OK(pvsize_rules_get_figure(rules, PVSIZE_FIGURE_ISC_FACTOR, &value, diag));
    ck_assert(value == 1.25);
    FAILS(PVSIZE_E_BAD_CHOICE, "severity: not one of the choices; given 9; allowed off (0)",
          pvsize_rules_set_severity(rules, PVSIZE_RULE_TERMINALS, 9, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 50000",
          pvsize_rules_set_severity(rules, 50000, PVSIZE_SEVERITY_MUST, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "figure.isc_factor",
          pvsize_rules_set_severity(rules, PVSIZE_FIGURE_ISC_FACTOR, 1, diag));
    FAILS(PVSIZE_E_NOT_SET, "figure.voc_multiplier",
          pvsize_rules_get_figure(rules, PVSIZE_FIGURE_VOC_MULTIPLIER, &value, diag));
    FAILS(PVSIZE_E_NOT_SET, "figure.voc_multiplier",
          pvsize_rules_known(rules, PVSIZE_FIGURE_VOC_MULTIPLIER, &number, diag));
    close_all();
}
END_TEST

static pvsize_status add_rule(const char *name, int32_t value, int32_t compare, int32_t limit_of,
                              double limit, int32_t severity)
{
    return pvsize_rules_add(rules, name, "own", value, compare, limit_of, limit, severity, "own",
                            NULL, diag);
}

START_TEST(own_rules)
{
    int32_t before;

    open_all();
    before = pvsize_rules_count(rules);
    FAILS(PVSIZE_E_BAD_NAME, "given 'Not A Name'",
          add_rule("Not A Name", PVSIZE_QUANTITY_SYSTEM_MODULES, 1, 0, 5, 3));
    FAILS(PVSIZE_E_NAME_TAKEN, "given 'pv_ratio'",
          add_rule("pv_ratio", PVSIZE_QUANTITY_SYSTEM_MODULES, 1, 0, 5, 3));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 6", add_rule("a", 6, 1, 0, 5, 3));
    FAILS(PVSIZE_E_WRONG_TYPE, "module.name", add_rule("a", PVSIZE_MODULE_NAME, 1, 0, 5, 3));
    FAILS(PVSIZE_E_WRONG_KIND, "rule.terminals", add_rule("a", PVSIZE_RULE_TERMINALS, 1, 0, 5, 3));
    FAILS(PVSIZE_E_WRONG_KIND, "input.max_voltage",
          add_rule("a", PVSIZE_QUANTITY_SYSTEM_MODULES, 1, PVSIZE_INPUT_MAX_VOLTAGE, 1, 3));
    FAILS(PVSIZE_E_BAD_CHOICE,
          "compare: not one of the choices; given 4; allowed at_most (1), at_least (2)",
          add_rule("a", PVSIZE_QUANTITY_SYSTEM_MODULES, 4, 0, 5, 3));
    FAILS(PVSIZE_E_NOT_FINITE, "rule: limit: not a finite number; given not a number",
          add_rule("a", PVSIZE_QUANTITY_SYSTEM_MODULES, 1, 0, NAN, 3));
    FAILS(PVSIZE_E_BAD_CHOICE, "given 7",
          add_rule("a", PVSIZE_QUANTITY_SYSTEM_MODULES, 1, 0, 5, 7));
    FAILS(PVSIZE_E_WRONG_UNIT, "input.max_short_circuit_current",
          add_rule("a", PVSIZE_QUANTITY_STRING_VOC_COLD, 1, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
                   1, 3));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "given 0; allowed 0.000001 to 1000000",
          add_rule("a", PVSIZE_QUANTITY_STRING_VOC_COLD, 1, PVSIZE_INPUT_MAX_VOLTAGE, 0, 3));
    FAILS(PVSIZE_E_OUT_OF_RANGE, "rule: limit: outside the allowed range; given 1000001; allowed",
          add_rule("a", PVSIZE_QUANTITY_STRING_VOC_COLD, 1, PVSIZE_INPUT_MAX_VOLTAGE, 1000001, 3));
    FAILS(PVSIZE_E_NULL_POINTER, "'name'",
          add_rule(NULL, PVSIZE_QUANTITY_SYSTEM_MODULES, 1, 0, 5, 3));
    ck_assert_int_eq(pvsize_rules_count(rules), before);
    close_all();
}
END_TEST

START_TEST(reports)
{
    char small[10];
    size_t length = 99;
    double value;
    int32_t count;

    open_all();
    FAILS(PVSIZE_E_NOT_SET, "value",
          pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject: index outside the list; given 0",
          pvsize_report_quantity(report, PVSIZE_QUANTITY_STRING_VOC_COLD, 0, &value, diag));
    OK(pvsize_check(module, rules, report, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 0",
          pvsize_report_finding(report, 0, NULL, NULL, NULL, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "given 17", pvsize_report_count(report, 17, 0, &count, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "given 3", pvsize_report_render(report, 3, 0, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_BAD_CHOICE, "detail",
          pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 3, NULL, 0, NULL, diag));
    FAILS(PVSIZE_E_NULL_POINTER, "buffer",
          pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 0, NULL, 9, NULL, diag));
    FAILS(PVSIZE_E_CAPACITY, "too small",
          pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 0, small, sizeof small, &length, diag));
    ck_assert_str_eq(small, "PV sizing");
    ck_assert_uint_gt(length, 100);
    FAILS(PVSIZE_E_CAPACITY, "too small",
          pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 0, small, 0, NULL, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "module.voc",
          pvsize_report_quantity(report, PVSIZE_MODULE_VOC, 0, &value, diag));
    FAILS(PVSIZE_E_NOT_SET, "string_voc_cold",
          pvsize_report_quantity(report, PVSIZE_QUANTITY_STRING_VOC_COLD, 0, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "subject: index outside the list; given 1; allowed only 0",
          pvsize_report_quantity(report, PVSIZE_QUANTITY_STRING_VOC_COLD, 1, &value, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "array",
          pvsize_report_find(report, PVSIZE_KIND_ARRAY, 0, -1, &count, diag));
    FAILS(PVSIZE_E_WRONG_KIND, "kind of subject",
          pvsize_report_find(report, PVSIZE_KIND_RULE, 0, -1, &count, diag));
    FAILS(PVSIZE_E_UNKNOWN_NUMBER, "given 1", pvsize_report_find(report, 1, 0, -1, &count, diag));
    FAILS(PVSIZE_E_BAD_INDEX, "given 5",
          pvsize_report_assumption_text(report, 5, NULL, 0, NULL, diag));
    close_all();
}
END_TEST

/* A spec of each kind, checked alone: as the header says, or refused by name. */
START_TEST(every_kind_alone)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report;
    int refused = 0;

    OK(pvsize_report_new(NULL, &report, diag));
    for (int32_t i = 0; i < pvsize_kind_count(); i++) {
        pvsize_spec *spec;
        pvsize_status status;

        if (!pvsize_kind_is_spec(pvsize_kind_at(i)))
            continue;
        OK(pvsize_spec_new(pvsize_kind_at(i), NULL, &spec, diag));
        status = pvsize_check(spec, rules, report, diag);
        refused += status == PVSIZE_E_WRONG_KIND;
        ck_assert(status == PVSIZE_OK || status == PVSIZE_E_WRONG_KIND ||
                  status == PVSIZE_E_MISSING_PART);
        pvsize_spec_free(spec);
    }
    ck_assert_int_ge(refused, 11);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
}
END_TEST

/* A failure is the same without a diag to tell it to, and a diag that is none tells nothing. */
START_TEST(failures_without_a_diag)
{
    double value;
    int32_t number;

    open_all();
    ck_assert_int_eq(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, NAN, NULL),
                     PVSIZE_E_NOT_FINITE);
    ck_assert_int_eq(pvsize_spec_set_text(module, PVSIZE_MODULE_VOC, "38.8 V", NULL),
                     PVSIZE_E_WRONG_TYPE);
    ck_assert_int_eq(pvsize_report_count(report, 17, 0, &number, NULL), PVSIZE_E_BAD_CHOICE);
    ck_assert_int_eq(pvsize_rules_new("wombat", NULL, &(pvsize_rules *){NULL}, NULL),
                     PVSIZE_E_UNKNOWN_NAME);
    ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_MODULE, "vocc", &number, NULL),
                     PVSIZE_E_UNKNOWN_NAME);
    ck_assert_int_eq(pvsize_term_find(PVSIZE_KIND_SYSTEM, "arrays", &number, NULL),
                     PVSIZE_E_UNKNOWN_NAME);
    ck_assert_int_eq(pvsize_diag_term(NULL), 0);
    ck_assert_int_eq(pvsize_diag_index(NULL), -1);
    ck_assert_int_eq(pvsize_diag_term((void *)module), 0);
    ck_assert_int_eq(pvsize_diag_index((void *)module), -1);
    ck_assert_int_eq(pvsize_diag_value(NULL, &value), PVSIZE_E_BAD_HANDLE);
    ck_assert_int_eq(pvsize_diag_range(NULL, &value, &value), PVSIZE_E_BAD_HANDLE);
    close_all();
}
END_TEST

/* What is not asked for need not be there to be written to. */
START_TEST(a_diag_is_asked_in_part)
{
    double low = 7, high = 7;

    open_all();
    ck_assert_int_eq(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, -3, diag),
                     PVSIZE_E_OUT_OF_RANGE);
    OK(pvsize_diag_value(diag, NULL));
    OK(pvsize_diag_range(diag, NULL, &high));
    OK(pvsize_diag_range(diag, &low, NULL));
    ck_assert(low == 0.1 && high == 1500);
    pvsize_diag_clear(diag);
    ck_assert_int_eq(pvsize_diag_value(diag, NULL), PVSIZE_E_NOT_SET);
    ck_assert_int_eq(pvsize_diag_range(diag, NULL, NULL), PVSIZE_E_NOT_SET);
    close_all();
}
END_TEST

START_TEST(a_diag_without_memory)
{
    counter c = {0, 0, 0};
    pvsize_allocator memory = {counted, released, &c};
    pvsize_diag *made = diag;

    ck_assert_int_eq(pvsize_diag_new(&memory, &made), PVSIZE_E_NO_MEMORY);
    ck_assert_ptr_null(made);
    OK(pvsize_diag_new(&memory, &made));
    ck_assert_int_eq(pvsize_diag_index(made), -1);
    pvsize_diag_free(made);
    ck_assert_int_eq(c.live, 0);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "numbers", numbers);
    add_test(suite, "kinds and types", kinds_and_types);
    add_test(suite, "texts", texts);
    add_test(suite, "null pointers", null_pointers);
    add_test(suite, "foreign handles", foreign_handles);
    add_test(suite, "parts", parts);
    add_test(suite, "not whole", systems_that_are_not_whole);
    add_test(suite, "alone", every_kind_alone);
    add_test(suite, "rule sets", rule_sets);
    add_test(suite, "own rules", own_rules);
    add_test(suite, "reports", reports);
    add_test(suite, "no diag", failures_without_a_diag);
    add_test(suite, "diag in part", a_diag_is_asked_in_part);
    add_test(suite, "diag without memory", a_diag_without_memory);
}

int main(void)
{
    return run_cases("wrong input", add);
}
