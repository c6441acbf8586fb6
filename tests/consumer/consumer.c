/* A program of somebody else's, C99, built through pkg-config: an own rule on a
 * new job. Prints what must hold. */
#include <pvsize/pvsize.h>
#include <stdio.h>

static pvsize_diag *diag;

static pvsize_spec *made(int32_t kind)
{
    pvsize_spec *spec = NULL;

    pvsize_spec_new(kind, NULL, &spec, diag);
    return spec;
}

static void add(pvsize_spec *owner, pvsize_spec *part)
{
    pvsize_spec_add(owner, part, NULL, diag);
    pvsize_spec_free(part);
}

static pvsize_spec *job(void)
{
    pvsize_spec *system = made(PVSIZE_KIND_SYSTEM), *inverter = made(PVSIZE_KIND_INVERTER);
    pvsize_spec *site = made(PVSIZE_KIND_SITE), *input = made(PVSIZE_KIND_INPUT);
    pvsize_spec *array = made(PVSIZE_KIND_ARRAY), *module = made(PVSIZE_KIND_MODULE);

    pvsize_spec_set_number(site, PVSIZE_SITE_TEMP_MIN, 0, diag);
    pvsize_spec_set_number(module, PVSIZE_MODULE_VOC, 50, diag);
    pvsize_spec_set_number(module, PVSIZE_MODULE_VOC_COEFFICIENT, -0.28, diag);
    pvsize_spec_set_number(input, PVSIZE_INPUT_MAX_VOLTAGE, 500, diag);
    pvsize_spec_set_number(array, PVSIZE_ARRAY_INPUT, 0, diag);
    pvsize_spec_set_number(array, PVSIZE_ARRAY_MODULES_PER_STRING, 9, diag);
    pvsize_spec_set_number(array, PVSIZE_ARRAY_STRINGS, 1, diag);
    add(system, site);
    add(inverter, input);
    add(system, inverter);
    add(array, module);
    add(system, array);
    return system;
}

int main(void)
{
    pvsize_rules *rules = NULL;
    pvsize_report *report = NULL;
    pvsize_spec *system;
    int32_t rule = 0, broken = 0, count = 0, array = -1, i;
    char text[300] = "";
    double value = 0;

    pvsize_diag_new(NULL, &diag);
    system = job();
    pvsize_rules_new(NULL, NULL, &rules, diag);
    pvsize_rules_add(rules, "retailer_reserve", "at most 96 % of the input's voltage",
                     PVSIZE_QUANTITY_STRING_VOC_COLD, PVSIZE_COMPARE_AT_MOST,
                     PVSIZE_INPUT_MAX_VOLTAGE, 0.96, PVSIZE_SEVERITY_MUST, "retailer", &rule, diag);
    pvsize_report_new(NULL, &report, diag);
    pvsize_check(system, rules, report, diag);
    pvsize_report_count(report, 0, 0, &count, diag);
    pvsize_report_count(report, PVSIZE_VERDICT_EXCEEDS, PVSIZE_SEVERITY_MUST, &broken, diag);
    for (i = 0; i < count; i++) {
        pvsize_report_text(report, i, PVSIZE_TEXT_SENTENCE, text, sizeof text, NULL, diag);
        puts(text);
    }
    pvsize_report_find(report, PVSIZE_KIND_ARRAY, 0, -1, &array, diag);
    pvsize_report_quantity(report, PVSIZE_QUANTITY_STRING_VOC_COLD, array, &value, diag);
    if (pvsize_diag_status(diag) != PVSIZE_OK) {
        pvsize_diag_text(diag, text, sizeof text, NULL);
        fprintf(stderr, "%s\n", text);
        return 1;
    }
    pvsize_report_free(report);
    pvsize_rules_free(rules);
    pvsize_spec_free(system);
    pvsize_diag_free(diag);
    /* 9 x 50 x 1.07 = 481.5 V against 480 V */
    return count == 1 && broken == 1 && value > 481.49 && value < 481.51 ? 0 : 1;
}
