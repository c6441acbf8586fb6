/* Reports as text and by getters: complete, stable, and true to the numbers. */
#include "../support/pv_test.h"

START_TEST(a_report_outlives_everything)
{
    pvsize_spec *system = invented_system();
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report = checked(system, rules);
    char *before = rendered(report, PVSIZE_FORMAT_MARKDOWN, 1), *after;

    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    after = rendered(report, PVSIZE_FORMAT_MARKDOWN, 1);
    ck_assert_str_eq(before, after);
    free(before);
    free(after);
    pvsize_report_free(report);
}
END_TEST

START_TEST(every_report_carries_the_caution)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);

    for (int32_t format = PVSIZE_FORMAT_PLAIN; format <= PVSIZE_FORMAT_MARKDOWN; format++) {
        char *text = rendered(report, format, 0);

        ck_assert_ptr_nonnull(strstr(text, "CAUTION"));
        ck_assert_ptr_nonnull(strstr(text, "licensed person"));
        free(text);
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* What the getters say stands in the text, for every finding. */
START_TEST(text_and_getters_agree)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    char *text = rendered(report, PVSIZE_FORMAT_PLAIN, 0);
    int32_t count;

    OK(pvsize_report_count(report, 0, 0, &count, diag));
    ck_assert_int_gt(count, 30);
    for (int32_t i = 0; i < count; i++) {
        char *title = text_of(report, i, PVSIZE_TEXT_TITLE);
        char *source = text_of(report, i, PVSIZE_TEXT_SOURCE);
        char *name = text_of(report, i, PVSIZE_TEXT_NAME);
        int32_t rule;

        OK(pvsize_report_finding(report, i, &rule, NULL, NULL, NULL, diag));
        ck_assert_str_eq(name, pvsize_term_name(rule));
        ck_assert_ptr_nonnull(strstr(text, title));
        ck_assert_ptr_nonnull(strstr(text, source));
        free(title);
        free(source);
        free(name);
    }
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(every_size_of_buffer_is_safe)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    char *whole = rendered(report, PVSIZE_FORMAT_PLAIN, 1);
    size_t length = strlen(whole);

    for (size_t capacity = 1; capacity <= length + 2; capacity += capacity < 300 ? 1 : 61) {
        char *buffer = malloc(capacity); /* ASan and valgrind watch its end */
        size_t needed;
        pvsize_status status =
            pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, 1, buffer, capacity, &needed, NULL);

        ck_assert_int_eq(status, capacity > length ? PVSIZE_OK : PVSIZE_E_CAPACITY);
        ck_assert_uint_eq(needed, length);
        ck_assert_uint_lt(strlen(buffer), capacity);
        ck_assert(strncmp(buffer, whole, strlen(buffer)) == 0);
        free(buffer);
    }
    free(whole);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(texts_of_a_finding)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    int32_t i;
    char *text;

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, 15, diag));
    report = checked_au(system);
    i = finding_of(report, PVSIZE_RULE_VOC_COLD_INPUT, 0);
    text = text_of(report, i, PVSIZE_TEXT_SENTENCE);
    ck_assert_str_eq(text, "array 1: cold open-circuit voltage within the input's maximum: "
                           "622.74 V, at most 600 V: exceeds, margin -22.74 V (-3.8 %); the input "
                           "can be destroyed on a cold morning");
    free(text);
    text = text_of(report, i, PVSIZE_TEXT_UNIT);
    ck_assert_str_eq(text, "V");
    free(text);
    text = text_of(report, i, PVSIZE_TEXT_REASON);
    ck_assert_str_eq(text, "");
    free(text);
    text = text_of(report, i, PVSIZE_TEXT_SUBJECT);
    ck_assert_str_eq(text, "array 1");
    free(text);
    text = text_of(report, i, PVSIZE_TEXT_WORKING);
    ck_assert_str_eq(text,
                     "module type 1: βVoc = -0.25 %/K\n"
                     "array 1: Voc,cold = Voc × (1 + βVoc / 100 × (Tmin - 25)) = 38.8 V × (1 + "
                     "(-0.25 %/K) / 100 × ((-3 °C) - 25)) = 41.516 V\n"
                     "array 1: Ustring,cold = N × Voc,cold = 15 × 41.516 V = 622.74 V\n"
                     "input.max_voltage = 600 V: absolute maximum d.c. voltage\n"
                     "622.74 V, at most 600 V: exceeds\n");
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* Labels come from outside: they must not become markup. */
START_TEST(markdown_is_escaped)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report;
    char *text;

    OK(pvsize_spec_set_text(system, PVSIZE_SYSTEM_NAME, "a|b *c* <d> `e` _f_ [g](h)", diag));
    report = checked_au(system);
    text = rendered(report, PVSIZE_FORMAT_MARKDOWN, 0);
    ck_assert_ptr_nonnull(strstr(text, "a\\|b \\*c\\* \\<d\\> \\`e\\` \\_f\\_ \\[g\\]\\(h\\)"));
    free(text);
    text = rendered(report, PVSIZE_FORMAT_PLAIN, 0);
    ck_assert_ptr_nonnull(strstr(text, "a|b *c* <d> `e` _f_ [g](h)"));
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(working_of_a_quantity)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    char text[2000];
    size_t length;
    int32_t input = subject_for(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, 0, 0, 0);

    OK(pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, PVSIZE_FORMAT_PLAIN,
                             PVSIZE_DETAIL_SHORT, text, sizeof text, &length, diag));
    ck_assert_str_eq(text, "array 1: Kcorr = 1\n"
                           "array 1: Isc,max,string = kI × Kcorr × Isc = 1.25 × 1 × 13.9 A = "
                           "17.375 A\n"
                           "array 1: Isc,max = S × Isc,max,string = 2 × 17.375 A = 34.75 A\n"
                           "input 1 of inverter 1: Isc,max,input = Isc,max[array 1] = 34.75 A\n"
                           "kI = 1.25: factor on module Isc for cables, protection and inverter "
                           "inputs; the trade's factor; AS/NZS 5033:2014 table 4.2 from memory "
                           "(common practice)\n");
    ck_assert_uint_eq(length, strlen(text));
    OK(pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, PVSIZE_FORMAT_MARKDOWN,
                             PVSIZE_DETAIL_SHORT, text, sizeof text, NULL, diag));
    ck_assert_int_eq(strncmp(text, "- array 1", 9), 0);
    FAILS(PVSIZE_E_BAD_CHOICE, "format",
          pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, 9,
                                PVSIZE_DETAIL_SHORT, NULL, 0, NULL, diag));
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* At length: every symbol of a step with its value, its meaning and where that is from. */
START_TEST(working_at_length)
{
    static const char *const lines[] = {
        "input 1 of inverter 1: largest short-circuit current into the input\n"
        "   Isc,max,input = Isc,max[array 1] = 34.75 A\n",
        "   Isc,max[array 1] = 34.75 A: largest short-circuit current of the array; computed "
        "above\n",
        "   kI = 1.25: factor on module Isc for cables, protection and inverter inputs; "
        "figure.isc_factor of the rule set: the trade's factor;",
        "   Isc = 13.9 A: short-circuit current at STC; module's data sheet, module.isc\n",
        "   S = 2: strings in parallel; given for the array, array.strings\n",
        "\nrounding: what was given stands as given;",
    };
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    int32_t input = subject_for(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, 0, 0, 0);
    char text[4000];

    OK(pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, PVSIZE_FORMAT_PLAIN,
                             PVSIZE_DETAIL_LONG, text, sizeof text, NULL, diag));
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        ck_assert_msg(strstr(text, lines[i]) != NULL, "not there: %s", lines[i]);
    OK(pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, PVSIZE_FORMAT_MARKDOWN,
                             PVSIZE_DETAIL_LONG, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "\n  - Isc = 13.9 A: "));
    FAILS(PVSIZE_E_BAD_CHOICE, "detail: not one of the choices; given 0",
          pvsize_report_working(report, PVSIZE_QUANTITY_INPUT_ISC_MAX, input, PVSIZE_FORMAT_PLAIN,
                                PVSIZE_DETAIL_FINDINGS, NULL, 0, NULL, diag));
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

START_TEST(assumptions_are_told)
{
    pvsize_spec *system = invented_system();
    pvsize_report *report = checked_au(system);
    char text[300];
    int32_t term;
    double value;

    OK(pvsize_report_assumption(report, 3, &term, &value, diag));
    ck_assert_int_eq(term, PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT);
    NEAR(value, -0.335, 1e-12);
    OK(pvsize_report_assumption(report, 3, NULL, &value, diag));
    OK(pvsize_report_assumption(report, 3, &term, NULL, diag));
    OK(pvsize_report_assumption_text(report, 3, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "-0.335 %/K, estimated"));
    OK(pvsize_report_assumption_text(report, 0, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 1: a load-break d.c. isolator is fitted beside the inverter: no, "
                           "the default");
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* What would read as equal and is not is printed with the digits that part it; two
 * equal numbers differ by nothing. */
START_TEST(near_ties_are_told_apart)
{
    pvsize_spec *system = invented_system(), *module = invented_module(), *inverter;
    pvsize_spec *array = invented_array(0, 0, 9, 2), *input = invented_input(2);
    pvsize_report *report;
    char *text;
    int32_t module_subject;
    double deviation;

    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC_COEFFICIENT, -0.28, diag));
    OK(pvsize_spec_set_number(module, PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE, -0.10864, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    /* 2 x 1.25 x 13.9 A = 34.75 A */
    OK(pvsize_spec_set_number(input, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT, 34.7499, diag));
    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    OK(pvsize_spec_replace(inverter, 0, input, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    report = checked_au(system);
    text = text_of(report, finding_of(report, PVSIZE_RULE_ISC_INPUT, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_ptr_nonnull(strstr(text, "34.75 A, at most 34.7499 A: exceeds"));
    free(text);
    module_subject = subject_for(report, PVSIZE_MODULE_VOC, 0, 0, 0);
    OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_MODULE_COEFFICIENT_DEVIATION, module_subject,
                              &deviation, diag));
    ck_assert(deviation == 0); /* -0.10864 / 38.8 x 100 is -0.28000000000000003 */
    pvsize_report_free(report);
    pvsize_spec_free(input);
    pvsize_spec_free(inverter);
    pvsize_spec_free(array);
    pvsize_spec_free(module);
    pvsize_spec_free(system);
}
END_TEST

/* Of two readings the one states what the other takes for granted: 3 K above the back at 1000
 * W/m2 (SAND2004-3535), 40 degC and 800 W/m2. */
START_TEST(what_is_given_is_not_taken_for_granted)
{
    static const double temps[] = {40 + 0.8 * 2, 40 + 0.8 * 3};
    static const char *const origins[] = {"; given for the reading, reading.back_rise",
                                          "; taken for granted, reading.back_rise"};
    pvsize_spec *system = invented_system();
    pvsize_report *report;

    for (int i = 0; i < 2; i++) {
        pvsize_spec *reading = SPEC(PVSIZE_KIND_READING, PVSIZE_READING_ARRAY, 0,
                                    PVSIZE_READING_IRRADIANCE, 800, PVSIZE_READING_BACK_TEMP, 40);

        if (i == 0)
            OK(pvsize_spec_set_number(reading, PVSIZE_READING_BACK_RISE, 2, diag));
        give(system, reading);
    }
    report = checked_au(system);
    for (int i = 1; i >= 0; i--) {
        char text[1200];
        int32_t subject;
        double temp;

        OK(pvsize_report_find(report, PVSIZE_KIND_READING, i, -1, &subject, diag));
        OK(pvsize_report_quantity(report, PVSIZE_QUANTITY_READING_CELL_TEMP, subject, &temp, diag));
        NEAR(temp, temps[i], 1e-12);
        OK(pvsize_report_working(report, PVSIZE_QUANTITY_READING_CELL_TEMP, subject,
                                 PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_LONG, text, sizeof text, NULL,
                                 diag));
        ck_assert_msg(strstr(text, origins[i]) && !strstr(text, origins[1 - i]), "%s", text);
    }
    pvsize_report_free(report);
    pvsize_spec_free(system);
}
END_TEST

/* An input that is looked at alone is of no inverter. */
START_TEST(an_input_alone_has_no_inverter)
{
    pvsize_spec *input = invented_input(2), *system = invented_system();
    pvsize_report *report = checked_au(input);
    char text[100];
    int32_t subject;

    OK(pvsize_report_subject_text(report, 0, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "input 1");
    pvsize_report_free(report);
    report = checked_au(system);
    subject = subject_for(report, PVSIZE_INPUT_MAX_VOLTAGE, 0, 1, 0);
    OK(pvsize_report_subject_text(report, subject, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "input 2 of inverter 1");
    pvsize_report_free(report);
    pvsize_spec_free(input);
    pvsize_spec_free(system);
}
END_TEST

/* Between choices lies no margin. */
START_TEST(a_choice_has_no_margin)
{
    pvsize_spec *module = invented_module();
    pvsize_rules *rules = preset(NULL);
    pvsize_report *report;
    int32_t most, least;
    char *text;

    OK(pvsize_rules_add(rules, "most", "silicon", PVSIZE_MODULE_CELL, PVSIZE_COMPARE_AT_MOST, 0,
                        PVSIZE_CELL_CRYSTALLINE_SILICON, PVSIZE_SEVERITY_MUST, "own", &most, diag));
    OK(pvsize_rules_add(rules, "least", "film", PVSIZE_MODULE_CELL, PVSIZE_COMPARE_AT_LEAST, 0,
                        PVSIZE_CELL_CADMIUM_TELLURIDE, PVSIZE_SEVERITY_MUST, "own", &least, diag));
    report = checked(module, rules);
    text = text_of(report, finding_of(report, most, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_str_eq(text, "module type 1: silicon: crystalline_silicon: meets");
    free(text);
    text = text_of(report, finding_of(report, least, 0), PVSIZE_TEXT_SENTENCE);
    ck_assert_str_eq(text, "module type 1: film: crystalline_silicon: falls short; an own rule of "
                           "this rule set is broken");
    free(text);
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(module);
}
END_TEST

/* More steps than are remembered: none is left out, though some may stand twice. */
START_TEST(the_working_of_a_large_system)
{
    enum { ARRAYS = 120 };
    pvsize_spec *system = invented_system(), *array = invented_array(0, 0, 9, 1);
    pvsize_report *report;
    char *text;

    for (int i = 2; i < ARRAYS; i++)
        OK(pvsize_spec_add(system, array, NULL, diag));
    report = checked_au(system);
    text = rendered(report, PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_SHORT);
    for (int i = 1; i <= ARRAYS; i++) {
        char line[80];

        snprintf(line, sizeof line, "\n   array %d: Ustring,cold = ", i);
        ck_assert_msg(strstr(text, line) != NULL, "%s", line);
        snprintf(line, sizeof line, "\n   array %d: n = ", i);
        ck_assert_msg(strstr(text, line) != NULL, "%s", line);
    }
    free(text);
    pvsize_report_free(report);
    pvsize_spec_free(array);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "near ties", near_ties_are_told_apart);
    add_test(suite, "outlives", a_report_outlives_everything);
    add_test(suite, "caution", every_report_carries_the_caution);
    add_test(suite, "agree", text_and_getters_agree);
    add_test(suite, "buffers", every_size_of_buffer_is_safe);
    add_test(suite, "texts", texts_of_a_finding);
    add_test(suite, "markdown", markdown_is_escaped);
    add_test(suite, "working", working_of_a_quantity);
    add_test(suite, "working at length", working_at_length);
    add_test(suite, "assumptions", assumptions_are_told);
    add_test(suite, "given or granted", what_is_given_is_not_taken_for_granted);
    add_test(suite, "an input alone", an_input_alone_has_no_inverter);
    add_test(suite, "choices", a_choice_has_no_margin);
    add_test(suite, "a large system", the_working_of_a_large_system);
}

int main(void)
{
    return run_cases("report", add);
}
