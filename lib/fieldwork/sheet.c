/* A judgement in words: a line for each number read, and the whole sheet. */
#include <math.h>

#include "judgement.h"

static const char *unit_of(int32_t measured)
{
    switch (measured) {
    case PVSIZE_MEASURED_VOC:
    case PVSIZE_MEASURED_VMP:
        return " V";
    case PVSIZE_MEASURED_ISC:
    case PVSIZE_MEASURED_IMP:
        return " A";
    default:
        return " Mohm";
    }
}

void pvsz_put_reading(pvsz_text *text, const pvsz_judged *row)
{
    pvsz_put(text, "reading ");
    pvsz_put_int(text, row->reading + 1);
    if (row->name[0]) {
        pvsz_put(text, " (");
        pvsz_put_given(text, row->name);
        pvsz_put(text, ")");
    }
    pvsz_put(text, ", ");
    if (row->string) {
        pvsz_put(text, "string ");
        pvsz_put_int(text, row->string);
        pvsz_put(text, " of ");
    }
    pvsz_put(text, "array ");
    pvsz_put_int(text, row->array + 1);
}

static void put_number(pvsz_text *text, const pvsz_judged *row, double value)
{
    pvsz_put_rounded(text, value, PVSZ_FINDING_DIGITS);
    pvsz_put(text, unit_of(row->measured));
}

/* What was expected of a sound string. */
static void put_band(pvsz_text *text, const pvsz_judged *row)
{
    if (isfinite(row->high)) {
        pvsz_put(text, "expected ");
        put_number(text, row, row->expected);
        pvsz_put(text, ", of a sound string ");
        pvsz_put_rounded(text, row->low, PVSZ_FINDING_DIGITS);
        pvsz_put(text, " to ");
        put_number(text, row, row->high);
    } else {
        pvsz_put(text, "at least ");
        put_number(text, row, row->low);
    }
}

static void put_why(pvsz_text *text, const pvsz_judged *row)
{
    if (row->why == PVSIZE_QUANTITY_READING_LIGHT) {
        pvsz_put(text, "size not judged: the light was too weak or not steady");
    } else if (row->why == PVSIZE_QUANTITY_INSULATION_TEST_VOLTAGE) {
        pvsz_put(text, "not judged: the test voltage was too low");
    } else {
        pvsz_put(text, "not judged: needs ");
        pvsz_put_term(text, row->why);
    }
}

/* "modules missing from the string: 1", "...: 2 to 4, likeliest 3" */
static void put_cause(pvsz_text *text, const pvsz_cause *cause)
{
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_CAUSE, cause->cause));
    if (cause->most == 0) /* nothing to count: colder by some, it is below 0 */
        return;
    pvsz_put(text, ": ");
    pvsz_put_rounded(text, cause->least, 3);
    if (cause->least == cause->most)
        return;
    pvsz_put(text, " to ");
    pvsz_put_rounded(text, cause->most, 3);
    pvsz_put(text, ", likeliest ");
    pvsz_put_rounded(text, cause->likeliest, 3);
}

static void put_causes(pvsz_text *text, const pvsz_judged *row)
{
    bool fits = row->judged == PVSIZE_JUDGED_FITS;

    if (fits && row->causes == 1)
        return;
    pvsz_put(text, fits ? "; it cannot rule out: " : "; it can be: ");
    for (int32_t i = fits; i < row->causes; i++) {
        bool besides = i > 0 && row->cause[i - 1].cause == PVSIZE_CAUSE_REVERSED;

        pvsz_put(text, besides ? "; and besides " : i > fits ? "; or " : "");
        put_cause(text, &row->cause[i]);
    }
}

void pvsz_put_judged(pvsz_text *text, const pvsz_judged *row)
{
    pvsz_put(text, pvsize_set_text(PVSIZE_SET_MEASURED, row->measured));
    pvsz_put(text, " ");
    put_number(text, row, row->value);
    pvsz_put(text, "; ");
    if (row->why) {
        put_why(text, row);
        if (row->causes)
            put_causes(text, row);
    } else {
        put_band(text, row);
        pvsz_put(text, ": ");
        pvsz_put(text, pvsize_set_text(PVSIZE_SET_JUDGED, row->judged));
        put_causes(text, row);
    }
    if (row->alike >= 0) {
        pvsz_put(text, "; ");
        pvsz_put_rounded(text, row->alike, 3);
        pvsz_put(text, " % from like strings at that moment");
        if (!pvsz_at_most(row->alike, row->alike_limit)) {
            pvsz_put(text, ", more than ");
            pvsz_put_rounded(text, row->alike_limit, 3);
            pvsz_put(text, " %: one of them is unlike the others");
        }
    }
}

/* the sheet */

static void put_summary(pvsz_text *text, const pvsize_judgement *judgement)
{
    pvsz_put(text, "\n");
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_JUDGED); i++) {
        int32_t judged = pvsize_set_at(PVSIZE_SET_JUDGED, i), count = 0;

        pvsize_judgement_count(judgement, judged, &count, NULL);
        pvsz_put(text, i ? "; " : "");
        pvsz_put(text, pvsize_set_text(PVSIZE_SET_JUDGED, judged));
        pvsz_put(text, ": ");
        pvsz_put_int(text, count);
    }
    pvsz_put(text, "\n");
}

static void put_order(pvsz_text *text, bool markdown)
{
    pvsz_put(text, markdown ? "\n## order of the tests\n\n" : "\n== order of the tests\n");
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_SITE_TEST); i++) {
        pvsz_put(text, markdown ? "" : "   ");
        pvsz_put_int(text, i + 1);
        pvsz_put(text, ". ");
        pvsz_put(text,
                 pvsize_set_text(PVSIZE_SET_SITE_TEST, pvsize_set_at(PVSIZE_SET_SITE_TEST, i)));
        pvsz_put(text, "\n");
    }
}

static void put_rows(pvsz_text *text, const pvsize_judgement *judgement, bool markdown)
{
    for (int32_t i = 0; i < judgement->rows; i++) {
        const pvsz_judged *row = &judgement->row[i];
        bool differs = row->judged == PVSIZE_JUDGED_DIFFERS;

        if (i == 0 || row->reading != row[-1].reading) {
            pvsz_put(text, markdown ? "\n## " : "\n== ");
            pvsz_put_reading(text, row);
            pvsz_put(text, markdown ? "\n\n" : "\n");
        }
        if (markdown)
            pvsz_put(text, differs ? "- **differs:** " : "- ");
        else
            pvsz_put(text, differs ? " > " : "   ");
        pvsz_put_judged(text, row);
        pvsz_put(text, "\n");
    }
}

pvsize_status pvsize_judgement_render(const pvsize_judgement *judgement, int32_t format,
                                      char *buffer, size_t capacity, size_t *length,
                                      pvsize_diag *diag)
{
    bool markdown = format == PVSIZE_FORMAT_MARKDOWN;
    pvsz_text text;
    pvsize_status status = pvsz_check_judgement(judgement, diag);

    if (status)
        return status;
    if (!pvsz_set_has(PVSIZE_SET_FORMAT, format))
        return pvsz_fail_choice(diag, "format", PVSIZE_SET_FORMAT, format);
    if (!judgement->filled)
        return pvsz_fail(diag, PVSIZE_E_NOT_SET);
    status = pvsz_text_begin(&text, buffer, capacity, diag);
    if (status)
        return status;
    text.markdown = markdown;
    pvsz_put_page_title(&text, "Readings on the day", judgement->job, judgement->title);
    pvsz_put_caution(&text);
    put_summary(&text, judgement);
    put_order(&text, markdown);
    put_rows(&text, judgement, markdown);
    return pvsz_text_end(&text, length, diag);
}
