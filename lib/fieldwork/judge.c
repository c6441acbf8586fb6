/* Judging: the numbers come from a check of the system, so that a report and a judgement
 * cannot differ. */
#include <math.h>
#include <string.h>

#include "judgement.h"

static const struct {
    int32_t measured, term, size, expected, low, high, alike; /* -1: none */
} measures[] = {
    {PVSIZE_MEASURED_VOC, PVSIZE_READING_VOC, PVSZ_QUANTITY_READING_VOC_SIZE,
     PVSZ_QUANTITY_READING_VOC_EXPECTED, PVSZ_QUANTITY_READING_VOC_LOWEST,
     PVSZ_QUANTITY_READING_VOC_HIGHEST, PVSZ_QUANTITY_READING_VOC_ALIKE},
    {PVSIZE_MEASURED_ISC, PVSIZE_READING_ISC, PVSZ_QUANTITY_READING_ISC_SIZE,
     PVSZ_QUANTITY_READING_ISC_EXPECTED, PVSZ_QUANTITY_READING_ISC_LOWEST,
     PVSZ_QUANTITY_READING_ISC_HIGHEST, PVSZ_QUANTITY_READING_ISC_ALIKE},
    {PVSIZE_MEASURED_VMP, PVSIZE_READING_VMP, PVSZ_QUANTITY_READING_VMP_SIZE,
     PVSZ_QUANTITY_READING_VMP_EXPECTED, PVSZ_QUANTITY_READING_VMP_LOWEST,
     PVSZ_QUANTITY_READING_VMP_HIGHEST, -1},
    {PVSIZE_MEASURED_IMP, PVSIZE_READING_IMP, PVSZ_QUANTITY_READING_IMP_SIZE,
     PVSZ_QUANTITY_READING_IMP_EXPECTED, PVSZ_QUANTITY_READING_IMP_LOWEST,
     PVSZ_QUANTITY_READING_IMP_HIGHEST, -1},
    {PVSIZE_MEASURED_INSULATION, PVSIZE_READING_INSULATION, PVSZ_QUANTITY_READING_INSULATION_VALUE,
     PVSZ_QUANTITY_INSULATION_RESISTANCE_MIN, PVSZ_QUANTITY_INSULATION_RESISTANCE_MIN, -1, -1},
};

/* A quantity of a reading, or why there is none: a term, or that the light did not
 * serve. A reading that was checked has an array and a module, and so a place for each. */
static bool number_of(const pvsize_report *report, const pvsz_subject *reading, int32_t quantity,
                      double *value, int32_t *why)
{
    const pvsz_entry *entry = &report->entry[pvsz_report_entry(report, quantity, reading)];

    if (entry->state == PVSZ_VALUE) {
        *value = entry->value;
        return true;
    }
    *why = entry->state == PVSZ_MISSING ? entry->missing
                                        : pvsz_kinds[PVSZ_KIND_QUANTITY].rows[quantity].number;
    return false;
}

/* Weak or unsteady light is why, wherever it leaves a quantity without a number. */
static void blame_light(const pvsize_report *report, const pvsz_subject *reading, pvsz_judged *row)
{
    double serves = 1;
    int32_t why = 0;

    if (row->measured != PVSIZE_MEASURED_INSULATION &&
        number_of(report, reading, PVSZ_QUANTITY_READING_LIGHT, &serves, &why) && serves == 0)
        row->why = PVSIZE_QUANTITY_READING_LIGHT;
}

/* An insulation test with too low a voltage proves nothing. */
static bool was_tested_enough(const pvsize_report *report, const pvsz_subject *reading,
                              pvsz_judged *row)
{
    double voltage = 0, needed = 0;

    if (!pvsz_at_most(row->low, row->value))
        return true; /* too low whatever the voltage */
    if (!number_of(report, reading, PVSZ_QUANTITY_READING_INSULATION_VOLTAGE, &voltage, &row->why))
        return false;
    /* there, as row->low is: both stand in one row of a table */
    number_of(report, reading, PVSZ_QUANTITY_INSULATION_TEST_VOLTAGE, &needed, &row->why);
    if (pvsz_at_most(needed, voltage))
        return true;
    row->why = PVSIZE_QUANTITY_INSULATION_TEST_VOLTAGE;
    return false;
}

/* Of a module whose data do not say: common practice. */
enum { COMMON_DIODES = 3 };

/* The parts of the system that a reading speaks of: a report has let go of them. */
typedef struct measured_string {
    const pvsize_spec *reading, *array, *module;
    const pvsz_subject *subject;
} measured_string;

static measured_string string_of(const pvsize_spec *system, const pvsize_report *report, int32_t at)
{
    measured_string found = {.subject = &report->design.subject[PVSZ_KIND_READING][at]};

    found.reading = pvsz_spec_parts(system, PVSZ_KIND_READING)->item[at];
    found.array =
        pvsz_spec_parts(system, PVSZ_KIND_ARRAY)->item[found.subject->at[PVSZ_KIND_ARRAY]];
    found.module = pvsz_spec_parts(found.array, PVSZ_KIND_MODULE)->item[0];
    return found;
}

static bool take_numbers(const pvsize_report *report, const measured_string *of, int32_t which,
                         pvsz_judged *row)
{
    const pvsz_subject *reading = of->subject;
    double voc = 0, coefficient = 0;

    row->high = HUGE_VAL;
    if (!number_of(report, reading, measures[which].expected, &row->expected, &row->why) ||
        !number_of(report, reading, measures[which].low, &row->low, &row->why))
        return false;
    if (measures[which].high < 0)
        return was_tested_enough(report, reading, row);
    /* GCOVR_EXCL_START: needs no more than the lowest, but for a correction that always is */
    if (!number_of(report, reading, measures[which].high, &row->high, &row->why))
        return false;
    /* GCOVR_EXCL_STOP */
    if (row->measured == PVSIZE_MEASURED_VOC) { /* what is expected hangs on both */
        pvsz_spec_number(of->module, PVSIZE_MODULE_VOC, &voc);
        number_of(report, reading, PVSZ_QUANTITY_MODULE_VOC_COEFFICIENT, &coefficient, &row->why);
        row->per_kelvin = row->modules * voc * coefficient / 100;
    }
    return true;
}

/* What the row is about, before anything is judged. */
static void take_reading(const pvsize_report *report, const measured_string *of, int32_t which,
                         pvsz_judged *row)
{
    double string = 0;
    int32_t none = 0;

    pvsz_spec_number(of->reading, measures[which].term, &row->value);
    pvsz_spec_number(of->reading, PVSIZE_READING_STRING, &string);
    pvsz_spec_number(of->reading, PVSIZE_READING_STRINGS, &row->strings);
    pvsz_spec_number(of->array, PVSIZE_ARRAY_MODULES_PER_STRING, &row->modules);
    row->diodes = COMMON_DIODES;
    pvsz_spec_number(of->module, PVSIZE_MODULE_BYPASS_DIODES, &row->diodes);
    row->measured = measures[which].measured;
    row->reading = of->subject->index;
    row->array = of->subject->at[PVSZ_KIND_ARRAY];
    row->string = (int32_t)string;
    row->reversed = row->value < 0;
    row->judged = PVSIZE_JUDGED_NOT_JUDGED;
    row->name = pvsz_spec_name(of->reading);
    if (measures[which].alike < 0 ||
        !number_of(report, of->subject, measures[which].alike, &row->alike, &none))
        row->alike = -1;
    row->alike_limit = report->figure[PVSZ_FIGURE_TEST_ALIKE].set
                           ? report->figure[PVSZ_FIGURE_TEST_ALIKE].value
                           : HUGE_VAL;
}

static void judge_row(const pvsize_report *report, const measured_string *of, int32_t which,
                      pvsz_judged *row)
{
    take_reading(report, of, which, row);
    if (!take_numbers(report, of, which, row)) {
        row->expected = row->low = row->high = 0;
        blame_light(report, of->subject, row);
        if (row->reversed) { /* the sign tells, whatever the light */
            row->cause[0] = (pvsz_cause){.cause = PVSIZE_CAUSE_REVERSED};
            row->causes = 1;
            row->judged = PVSIZE_JUDGED_DIFFERS;
        }
        return;
    }
    row->why = 0;
    pvsz_find_causes(row);
    /* there is a cause: the table has one for the band and for either side of it */
    row->judged =
        row->cause[0].cause == PVSIZE_CAUSE_SOUND ? PVSIZE_JUDGED_FITS : PVSIZE_JUDGED_DIFFERS;
}

/* Rows of all readings; with null only counts. */
static int32_t judge_all(const pvsize_spec *system, const pvsize_report *report, pvsz_judged *rows)
{
    int32_t count = 0;

    for (int32_t at = 0; at < report->design.count[PVSZ_KIND_READING]; at++) {
        measured_string of = string_of(system, report, at);
        double value;

        for (int32_t which = 0; which < PVSZ_COUNT(measures); which++)
            if (pvsz_spec_number(of.reading, measures[which].term, &value)) {
                if (rows)
                    judge_row(report, &of, which, &rows[count]);
                count++;
            }
    }
    return count;
}

/* labels */

static const char *keep_text(char **next, const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = memcpy(*next, text, size);

    *next += size;
    return copy;
}

static size_t text_bytes(const pvsize_spec *system, const pvsize_report *report,
                         const pvsz_judged *row, int32_t rows)
{
    size_t bytes = strlen(pvsz_spec_name(system)) + strlen(report->title) + 2;

    for (int32_t i = 0; i < rows; i++)
        bytes += strlen(row[i].name) + 1;
    return bytes;
}

/* Puts rows and labels in the place of the old ones, or leaves all as it was. */
static pvsize_status keep(pvsize_judgement *judgement, const pvsize_spec *system,
                          const pvsize_report *report, pvsize_diag *diag)
{
    const pvsz_memory *memory = &judgement->head.memory;
    int32_t rows = judge_all(system, report, NULL);
    pvsz_judged *row = pvsz_new(memory, (size_t)rows, sizeof *row);
    char *text = NULL, *next;

    if (row) {
        judge_all(system, report, row);
        text = pvsz_new(memory, text_bytes(system, report, row, rows), 1);
    }
    if (!text) {
        pvsz_release(memory, row);
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    }
    next = text;
    judgement->job = keep_text(&next, pvsz_spec_name(system));
    judgement->title = keep_text(&next, report->title);
    for (int32_t i = 0; i < rows; i++)
        row[i].name = keep_text(&next, row[i].name);
    pvsz_release(memory, judgement->row);
    pvsz_release(memory, judgement->text);
    judgement->row = row;
    judgement->rows = rows;
    judgement->text = text;
    judgement->filled = true;
    return PVSIZE_OK;
}

pvsize_status pvsize_judge(const pvsize_spec *system, const pvsize_rules *rules,
                           pvsize_judgement *judgement, pvsize_diag *diag)
{
    pvsize_report *report = NULL;
    pvsize_status status = pvsz_check_judgement(judgement, diag);

    if (status)
        return status;
    if (!system)
        return pvsz_fail_null(diag, "system");
    if (pvsz_spec_live(system) && system->kind != PVSZ_KIND_SYSTEM)
        return pvsz_fail_name(diag, PVSIZE_E_WRONG_KIND, pvsz_kinds[system->kind].number,
                              "a system");
    status = pvsize_report_new(&judgement->head.memory, &report, diag);
    if (!status)
        status = pvsize_check(system, rules, report, diag);
    if (!status)
        status = keep(judgement, system, report, diag);
    pvsize_report_free(report);
    return status;
}
