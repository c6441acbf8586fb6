/* See pv_test.h. */
#include "pv_test.h"

pvsize_diag *diag;

void ok_at(pvsize_status status, const char *call, const char *file, int line)
{
    char text[400] = "";

    if (status == PVSIZE_OK)
        return;
    pvsize_diag_text(diag, text, sizeof text, NULL);
    ck_abort_msg("%s:%d: %s: %s: %s", file, line, call, pvsize_status_name(status), text);
}

void fails_at(pvsize_status want, const char *words, pvsize_status got, const char *call,
              const char *file, int line)
{
    char text[400] = "";

    pvsize_diag_text(diag, text, sizeof text, NULL);
    if (got != want || pvsize_diag_status(diag) != want || !strstr(text, words))
        ck_abort_msg("%s:%d: %s: got %d (diag %d '%s'), want %d with '%s'", file, line, call,
                     (int)got, (int)pvsize_diag_status(diag), text, (int)want, words);
    pvsize_diag_clear(diag);
}

void near_at(double got, double want, double tolerance, const char *what, const char *file,
             int line)
{
    double size = fabs(want) > 1 ? fabs(want) : 1;

    if (!(fabs(got - want) <= tolerance * size))
        ck_abort_msg("%s:%d: %s is %.12g, want %.12g", file, line, what, got, want);
}

static void fresh_diag(void)
{
    pvsize_diag_clear(diag);
}

void add_test(Suite *suite, const char *name, const TTest *test)
{
    TCase *one = tcase_create(name);

    tcase_add_checked_fixture(one, fresh_diag, NULL);
    tcase_set_timeout(one, 600); /* of the wall, on a busy machine */
    tcase_add_test(one, test);
    suite_add_tcase(suite, one);
}

int run_cases(const char *name, void (*add)(Suite *suite))
{
    Suite *suite = suite_create(name);
    SRunner *runner;
    int failed;

    if (pvsize_diag_new(NULL, &diag))
        return 1;
    add(suite);
    runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    pvsize_diag_free(diag);
    return failed != 0;
}

pvsize_spec *spec_with(int32_t kind, const double *pairs)
{
    pvsize_spec *spec;

    OK(pvsize_spec_new(kind, NULL, &spec, diag));
    for (; *pairs != 0; pairs += 2)
        OK(pvsize_spec_set_number(spec, (int32_t)pairs[0], pairs[1], diag));
    return spec;
}

void give(pvsize_spec *owner, pvsize_spec *part)
{
    OK(pvsize_spec_add(owner, part, NULL, diag));
    pvsize_spec_free(part);
}

pvsize_spec *invented_module(void)
{
    return SPEC(PVSIZE_KIND_MODULE, PVSIZE_MODULE_PMAX, 430, PVSIZE_MODULE_VOC, 38.8,
                PVSIZE_MODULE_ISC, 13.9, PVSIZE_MODULE_VMP, 32.5, PVSIZE_MODULE_IMP, 13.23,
                PVSIZE_MODULE_VOC_COEFFICIENT, -0.25, PVSIZE_MODULE_ISC_COEFFICIENT, 0.045,
                PVSIZE_MODULE_PMAX_COEFFICIENT, -0.29, PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE, 1500,
                PVSIZE_MODULE_MAX_SERIES_FUSE, 25);
}

pvsize_spec *invented_input(int32_t strings)
{
    return SPEC(
        PVSIZE_KIND_INPUT, PVSIZE_INPUT_MAX_VOLTAGE, 600, PVSIZE_INPUT_TRACKING_MIN, 90,
        PVSIZE_INPUT_TRACKING_MAX, 560, PVSIZE_INPUT_FULL_POWER_MIN, 180,
        PVSIZE_INPUT_FULL_POWER_MAX, 520, PVSIZE_INPUT_START_VOLTAGE, 110,
        PVSIZE_INPUT_MAX_OPERATING_CURRENT, 14.0 * strings, PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT,
        18.0 * strings, PVSIZE_INPUT_TERMINALS, strings, PVSIZE_INPUT_TERMINAL_CURRENT, 20,
        PVSIZE_INPUT_MAX_POWER, 6000.0 * strings, PVSIZE_INPUT_ISOLATOR, PVSIZE_ISOLATOR_BUILT_IN,
        PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD, PVSIZE_ANSWER_YES, PVSIZE_INPUT_ISOLATOR_LOCKS_OFF,
        PVSIZE_ANSWER_YES, PVSIZE_INPUT_ISOLATOR_VOLTAGE, 600, PVSIZE_INPUT_ISOLATOR_CURRENT, 40);
}

pvsize_spec *invented_inverter(void)
{
    pvsize_spec *inverter =
        SPEC(PVSIZE_KIND_INVERTER, PVSIZE_INVERTER_RATED_AC_POWER, 9000,
             PVSIZE_INVERTER_RATED_APPARENT_POWER, 9000, PVSIZE_INVERTER_MAX_AC_CURRENT, 40,
             PVSIZE_INVERTER_PHASES, 1, PVSIZE_INVERTER_AC_VOLTAGE, 230,
             PVSIZE_INVERTER_MAX_PV_POWER, 12500);

    give(inverter, invented_input(2));
    give(inverter, invented_input(1));
    return inverter;
}

pvsize_spec *invented_site(void)
{
    pvsize_spec *site = SPEC(
        PVSIZE_KIND_SITE, PVSIZE_SITE_TEMP_MIN, -3, PVSIZE_SITE_TEMP_MAX, 41, PVSIZE_SITE_BUILDING,
        PVSIZE_BUILDING_DWELLING, PVSIZE_SITE_SUPPLY_PHASES, 1, PVSIZE_SITE_SUPPLY_VOLTAGE, 230,
        PVSIZE_SITE_CONNECTION_LIMIT, 10000, PVSIZE_SITE_PHASE_LIMIT, 10000,
        PVSIZE_SITE_EXPORT_LIMIT, 5000, PVSIZE_SITE_EXPORT_CONTROL, PVSIZE_EXPORT_CONTROL_METER);

    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 24, PVSIZE_PLANE_MOUNTING,
                    PVSIZE_MOUNTING_CLOSE, PVSIZE_PLANE_CURRENT_CORRECTION, 1));
    give(site, SPEC(PVSIZE_KIND_PLANE, PVSIZE_PLANE_CAPACITY, 10, PVSIZE_PLANE_MOUNTING,
                    PVSIZE_MOUNTING_RAISED, PVSIZE_PLANE_CURRENT_CORRECTION, 1));
    return site;
}

pvsize_spec *invented_array(int32_t input, int32_t plane, int32_t modules, int32_t strings)
{
    pvsize_spec *array =
        SPEC(PVSIZE_KIND_ARRAY, PVSIZE_ARRAY_INVERTER, 0, PVSIZE_ARRAY_INPUT, input,
             PVSIZE_ARRAY_MODULES_PER_STRING, modules, PVSIZE_ARRAY_STRINGS, strings);

    if (plane >= 0)
        OK(pvsize_spec_set_number(array, PVSIZE_ARRAY_PLANE, plane, diag));
    give(array, invented_module());
    return array;
}

pvsize_spec *invented_system(void)
{
    pvsize_spec *system;

    OK(pvsize_spec_new(PVSIZE_KIND_SYSTEM, NULL, &system, diag));
    give(system, invented_site());
    give(system, invented_inverter());
    give(system, invented_array(0, 0, 9, 2));
    give(system, invented_array(1, 1, 8, 1));
    return system;
}

void *counted(void *user, size_t size)
{
    counter *c = user;

    if (c->made++ == c->fail_at)
        return NULL;
    c->live++;
    return malloc(size);
}

void released(void *user, void *block)
{
    counter *c = user;

    ck_assert_ptr_nonnull(block);
    c->live--;
    free(block);
}

pvsize_rules *preset(const char *name)
{
    pvsize_rules *rules;

    OK(pvsize_rules_new(name, NULL, &rules, diag));
    return rules;
}

pvsize_report *checked(const pvsize_spec *spec, const pvsize_rules *rules)
{
    pvsize_report *report;

    OK(pvsize_report_new(NULL, &report, diag));
    OK(pvsize_check(spec, rules, report, diag));
    return report;
}

pvsize_report *checked_au(const pvsize_spec *spec)
{
    pvsize_rules *rules = preset("asnzs_5033_2021");
    pvsize_report *report = checked(spec, rules);

    pvsize_rules_free(rules);
    return report;
}

int32_t finding_of(const pvsize_report *report, int32_t rule, int32_t n)
{
    int32_t count, here;

    OK(pvsize_report_count(report, 0, 0, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_report_finding(report, i, &here, NULL, NULL, NULL, diag));
        if (here == rule && n-- == 0)
            return i;
    }
    return -1;
}

int32_t verdict_of(const pvsize_report *report, int32_t rule, int32_t n)
{
    int32_t verdict = 0, i = finding_of(report, rule, n);

    if (i >= 0)
        OK(pvsize_report_finding(report, i, NULL, NULL, &verdict, NULL, diag));
    return verdict;
}

int32_t subject_for(const pvsize_report *report, int32_t term, int32_t inverter, int32_t input,
                    int32_t array)
{
    int32_t kind = pvsize_term_scope(term), subject = -1;

    if (kind == PVSIZE_KIND_MODULE || kind == PVSIZE_KIND_ARRAY) {
        OK(pvsize_report_find(report, PVSIZE_KIND_ARRAY, array, -1, &subject, diag));
        return subject;
    }
    if (kind == PVSIZE_KIND_INVERTER || kind == PVSIZE_KIND_INPUT)
        OK(pvsize_report_find(report, PVSIZE_KIND_INVERTER, inverter, -1, &subject, diag));
    if (kind == PVSIZE_KIND_INPUT)
        OK(pvsize_report_find(report, kind, input, subject, &subject, diag));
    else if (kind != PVSIZE_KIND_INVERTER)
        OK(pvsize_report_find(report, kind, 0, -1, &subject, diag));
    return subject;
}

double quantity_of(const pvsize_report *report, int32_t quantity, int32_t input, int32_t array)
{
    double value = NAN;

    OK(pvsize_report_quantity(report, quantity, subject_for(report, quantity, 0, input, array),
                              &value, diag));
    return value;
}

char *text_of(const pvsize_report *report, int32_t finding, int32_t what)
{
    size_t length;
    char *text;

    OK(pvsize_report_text(report, finding, what, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_report_text(report, finding, what, text, length + 1, NULL, diag));
    return text;
}

char *rendered(const pvsize_report *report, int32_t format, int32_t detail)
{
    size_t length;
    char *text;

    OK(pvsize_report_render(report, format, detail, NULL, 0, &length, diag));
    text = malloc(length + 1);
    OK(pvsize_report_render(report, format, detail, text, length + 1, NULL, diag));
    return text;
}
