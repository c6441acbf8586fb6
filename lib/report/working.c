/* How a number came about, step by step. What a step builds on comes first. In
 * short a step is a line; at length every symbol of it is explained as well. */
#include "formula.h"

/* Steps already printed, one bit for each entry. Beyond the last bit a step
 * may be printed more than once. */
enum { REMEMBERED = 4096 };

typedef struct writer {
    pvsz_text *text;
    const pvsize_report *report;
    pvsz_manner manner;
    uint64_t seen[REMEMBERED / 64];
    pvsz_figure_set figures; /* whose sources are to be stated */
} writer;

static bool is_long(const writer *out)
{
    return out->manner.detail == PVSIZE_DETAIL_LONG;
}

static void open_line(writer *out)
{
    pvsz_put(out->text, out->manner.line);
}

static void put_short_step(writer *out, const pvsz_entry *entry)
{
    open_line(out);
    pvsz_put_subject(out->text, out->report, entry->subject);
    pvsz_put(out->text, ": ");
    pvsz_put_equation(out->text, out->report, entry);
    pvsz_put(out->text, "\n");
}

static void put_long_step(writer *out, const pvsz_entry *entry)
{
    const char *below = out->manner.below;

    open_line(out);
    pvsz_put_subject(out->text, out->report, entry->subject);
    pvsz_put(out->text, ": ");
    pvsz_put(out->text, pvsz_kinds[PVSZ_KIND_QUANTITY].rows[entry->quantity].text);
    pvsz_put(out->text, "\n");
    pvsz_put(out->text, below);
    pvsz_put_equation(out->text, out->report, entry);
    pvsz_put(out->text, "\n");
    pvsz_put_meanings(out->text, out->report, entry, below);
}

/* What a step builds on comes first. Quantities do not run in circles, and the
 * chain from data to limit is a handful of steps deep. */
static void put_steps(writer *out, int32_t index)
{
    const pvsz_entry *entry = &out->report->entry[index];

    if (entry->state != PVSZ_VALUE)
        return;
    if (entry->turn < REMEMBERED) {
        if (out->seen[entry->turn / 64] >> (entry->turn % 64) & 1)
            return;
        out->seen[entry->turn / 64] |= UINT64_C(1) << (entry->turn % 64);
    }
    for (int32_t i = 0; i < entry->operands; i++) {
        const pvsz_operand *operand = &entry->operand[i];
        const pvsz_term *term = pvsz_term_find(operand->term);

        if (operand->entry >= 0)
            put_steps(out, operand->entry);
        else if (term && term->kind == PVSZ_KIND_FIGURE)
            pvsz_include_figure(&out->figures, pvsz_term_place(term));
    }
    if (is_long(out))
        put_long_step(out, entry);
    else
        put_short_step(out, entry);
}

/* In short, figures are explained once, behind the steps. */
static void put_figures(writer *out)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_FIGURE].rows;

    if (is_long(out))
        return;
    for (int32_t i = 0; i < PVSZ_FIGURES; i++) {
        const pvsz_figure *figure = &out->report->figure[i];

        if (!pvsz_includes_figure(&out->figures, i))
            continue;
        open_line(out);
        pvsz_put(out->text, rows[i].symbol);
        pvsz_put(out->text, " = ");
        pvsz_put_value(out->text, &rows[i], figure->value, 0);
        pvsz_put(out->text, ": ");
        pvsz_put(out->text, rows[i].text);
        pvsz_put(out->text, "; ");
        pvsz_put_source(out->text, figure->source, figure->known);
        pvsz_put(out->text, "\n");
    }
}

pvsz_manner pvsz_manner_of(int32_t format, int32_t detail)
{
    pvsz_manner manner = {"", "   ", detail};

    if (format == PVSIZE_FORMAT_MARKDOWN) {
        manner.line = "- ";
        manner.below = "  - ";
    }
    return manner;
}

/* The one place that says how numbers are rounded. */
static void put_rounding(writer *out)
{
    open_line(out);
    pvsz_put(out->text, "rounding: what was given stands as given; what is computed is carried in "
                        "full and printed to ");
    pvsz_put_int(out->text, PVSZ_WORKING_DIGITS);
    pvsz_put(out->text, " digits, halves away from zero, limits and margins of findings to ");
    pvsz_put_int(out->text, PVSZ_FINDING_DIGITS);
    pvsz_put(out->text, "; floor, ceil and every comparison take for equal what differs by a "
                        "billionth part or less\n");
}

void pvsz_put_all_working(pvsz_text *text, const pvsize_report *report, pvsz_manner manner)
{
    writer out = {.text = text, .report = report, .manner = manner};

    for (int32_t i = 0; i < report->turns; i++)
        put_steps(&out, (int32_t)(report->turn[i] - report->entry));
    put_figures(&out);
    put_rounding(&out);
}

pvsz_figure_set pvsz_figures_used(const pvsize_report *report, int32_t entry)
{
    pvsz_text nowhere = {0};
    writer out = {.text = &nowhere, .report = report, .manner = {"", "", PVSIZE_DETAIL_SHORT}};

    put_steps(&out, entry);
    return out.figures;
}

void pvsz_put_working(pvsz_text *text, const pvsize_report *report, int32_t entry,
                      pvsz_manner manner)
{
    writer out = {.text = text, .report = report, .manner = manner};

    put_steps(&out, entry);
    put_figures(&out);
    if (is_long(&out))
        put_rounding(&out);
}

/* A side that is no quantity: the parameter, figure or number itself. */
static void put_plain_side(writer *out, const pvsz_finding *finding, const pvsz_ref *ref,
                           double value)
{
    const pvsz_term *term = pvsz_term_find(ref->number);

    if (term && term->kind == PVSZ_KIND_FIGURE && term->low == term->high)
        return; /* a constant says nothing that the comparison does not */
    open_line(out);
    if (!term) {
        pvsz_put(out->text, "limit = ");
        pvsz_put_value(out->text, pvsz_finding_term(finding), value, 0);
    } else {
        pvsz_put_term(out->text, ref->number);
        pvsz_put(out->text, " = ");
        pvsz_put_value(out->text, term, value, 0);
        pvsz_put(out->text, ": ");
        pvsz_put(out->text, term->text);
    }
    if (term && term->kind == PVSZ_KIND_FIGURE) {
        const pvsz_figure *figure = &out->report->figure[pvsz_term_place(term)];

        pvsz_put(out->text, "; ");
        pvsz_put_source(out->text, figure->source, figure->known);
    }
    pvsz_put(out->text, "\n");
}

/* A quantity, as far as it came; what is none is there once the finding is assessed. */
static void put_side(writer *out, const pvsz_finding *finding, const pvsz_ref *ref, int32_t entry,
                     double value)
{
    if (entry >= 0)
        put_steps(out, entry);
    else if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED)
        put_plain_side(out, finding, ref, value);
}

/* An own rule may take a share of a term as its limit. */
static void put_factor(writer *out, const pvsz_finding *finding)
{
    const pvsz_rule *rule = finding->rule;

    if (!rule->limit.number || rule->factor == 1 || finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return;
    open_line(out);
    pvsz_put(out->text, "limit = ");
    pvsz_put_exact(out->text, rule->factor);
    pvsz_put(out->text, " × ");
    pvsz_put_value(out->text, pvsz_term_find(rule->limit.number), finding->limit_term,
                   PVSZ_WORKING_DIGITS);
    pvsz_put(out->text, " = ");
    pvsz_put_value(out->text, pvsz_finding_term(finding), finding->limit, PVSZ_WORKING_DIGITS);
    pvsz_put(out->text, "\n");
}

static void put_rule(writer *out, const pvsz_rule *rule)
{
    open_line(out);
    pvsz_put(out->text, "rule ");
    pvsz_put(out->text, rule->name);
    pvsz_put(out->text, ": ");
    pvsz_put_given(out->text, rule->title);
    pvsz_put(out->text, "; ");
    pvsz_put_source(out->text, rule->source, rule->known);
    pvsz_put(out->text, "\n");
}

void pvsz_put_finding_working(pvsz_text *text, const pvsize_report *report,
                              const pvsz_finding *finding, pvsz_manner manner)
{
    writer out = {.text = text, .report = report, .manner = manner};

    put_side(&out, finding, &finding->rule->value,
             pvsz_side_entry(&finding->rule->value, finding->subject), finding->value);
    put_side(&out, finding, &finding->rule->limit,
             pvsz_side_entry(&finding->rule->limit, finding->subject),
             finding->rule->limit.number ? finding->limit_term : finding->limit);
    put_factor(&out, finding);
    put_figures(&out);
    if (finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED) {
        open_line(&out);
        pvsz_put_comparison(text, finding);
        pvsz_put(text, ": ");
        pvsz_put(text, pvsz_verdict_word(finding));
        pvsz_put(text, "\n");
    }
    if (is_long(&out)) {
        put_rule(&out, finding->rule);
        put_rounding(&out);
    }
}
