/* How a number came about: formula, substitution, result, step by step. Data
 * stand as they were given; computed numbers are rounded to PVSZ_WORKING_DIGITS. */
#include <string.h>

#include "words.h"

/* Steps already printed, one bit for each entry. Beyond the last bit a step
 * may be printed more than once. */
enum { REMEMBERED = 4096 };

typedef struct writer {
    pvsz_text *text;
    const pvsize_report *report;
    const char *line;
    uint64_t seen[REMEMBERED / 64];
    pvsz_figure_set figures; /* whose sources are to be stated */
} writer;

static const pvsz_term *quantity_of(const pvsz_entry *entry)
{
    return &pvsz_kinds[PVSZ_KIND_QUANTITY].rows[entry->quantity];
}

static void put_operand_name(writer *out, const pvsz_operand *operand)
{
    const pvsz_term *term = pvsz_term_find(operand->term);

    if (!term || term->kind != PVSZ_KIND_QUANTITY) {
        pvsz_put_term(out->text, operand->term);
        return;
    }
    pvsz_put(out->text, term->symbol);
    pvsz_put(out->text, "[");
    pvsz_put_subject(out->text, out->report, out->report->entry[operand->entry].subject);
    pvsz_put(out->text, "]");
}

static void put_operand_value(writer *out, const pvsz_operand *operand)
{
    bool negative = operand->value < 0;

    pvsz_put(out->text, negative ? "(" : "");
    pvsz_put_value(out->text, pvsz_term_find(operand->term), operand->value,
                   operand->entry >= 0 ? PVSZ_WORKING_DIGITS : 0);
    pvsz_put(out->text, negative ? ")" : "");
}

typedef void put_operand(writer *out, const pvsz_operand *operand);

/* Which operand a symbol stands for: symbols count in the order of first use. */
static int32_t operand_at(const char *formula, const char *symbol, size_t length)
{
    int32_t index = 0;

    for (const char *s = strchr(formula, '{'); s < symbol - 1; s = strchr(s + 1, '{')) {
        size_t n = strcspn(s + 1, "}");
        bool again = false;

        if (n == length && memcmp(s + 1, symbol, n) == 0)
            return index;
        for (const char *p = strchr(formula, '{'); p < s && !again; p = strchr(p + 1, '{'))
            again = strcspn(p + 1, "}") == n && memcmp(p + 1, s + 1, n) == 0;
        index += !again;
    }
    return index;
}

static void put_list(writer *out, const pvsz_entry *entry, int32_t from, char joint,
                     put_operand *put)
{
    for (int32_t i = from; i < entry->operands; i++) {
        if (i > from)
            pvsz_put(out->text, joint == '+' ? " + " : ", ");
        put(out, &out->report->operand[entry->first_operand + i]);
    }
}

/* The formula with each symbol as it stands (put null) or filled in. */
static void put_formula(writer *out, const pvsz_entry *entry, put_operand *put)
{
    const char *s = entry->formula;

    while (*s && *s != ';') {
        size_t plain = strcspn(s, "{;"), symbol;
        int32_t index;

        pvsz_put_bytes(out->text, s, plain);
        s += plain;
        if (*s != '{')
            continue;
        symbol = strcspn(++s, "}");
        index = operand_at(entry->formula, s, symbol);
        if (*s == '+' || *s == ',')
            put_list(out, entry, index, *s, put ? put : put_operand_name);
        else if (!put)
            pvsz_put_bytes(out->text, s, symbol);
        else if (index < entry->operands)
            put(out, &out->report->operand[entry->first_operand + index]);
        s += symbol + 1;
    }
}

/* "{x}" and nothing else: naming it again would say nothing. */
static bool is_plain(const char *formula)
{
    size_t n = strcspn(formula, "}");

    return formula[0] == '{' && formula[1] != '+' && formula[1] != ',' &&
           (formula[n + 1] == '\0' || formula[n + 1] == ';');
}

/* The remark behind the semicolon, its symbols filled in. */
static void put_remark(writer *out, const pvsz_entry *entry)
{
    const char *s = strchr(entry->formula, ';');

    if (!s)
        return;
    pvsz_put(out->text, " (");
    for (s += 2; *s;) {
        size_t plain = strcspn(s, "{"), symbol;
        int32_t index;

        pvsz_put_bytes(out->text, s, plain);
        s += plain;
        if (!*s)
            break;
        symbol = strcspn(++s, "}");
        index = operand_at(entry->formula, s, symbol);
        if (index < entry->operands)
            put_operand_value(out, &out->report->operand[entry->first_operand + index]);
        s += symbol + 1;
    }
    pvsz_put(out->text, ")");
}

/* A sum or choice of one value is that value: name it, do not repeat it. */
static bool is_list_of_one(const pvsz_entry *entry)
{
    const char *formula = entry->formula;

    return entry->operands == 1 &&
           (strncmp(formula, "{+", 2) == 0 || strncmp(formula, "max({,", 6) == 0 ||
            strncmp(formula, "min({,", 6) == 0);
}

static void put_step(writer *out, const pvsz_entry *entry)
{
    const pvsz_term *term = quantity_of(entry);

    pvsz_put(out->text, out->line);
    pvsz_put_subject(out->text, out->report, entry->subject);
    pvsz_put(out->text, ": ");
    pvsz_put(out->text, term->symbol);
    pvsz_put(out->text, " = ");
    if (is_list_of_one(entry)) {
        put_operand_name(out, &out->report->operand[entry->first_operand]);
        pvsz_put(out->text, " = ");
    } else if (!is_plain(entry->formula)) {
        put_formula(out, entry, NULL);
        pvsz_put(out->text, " = ");
        put_formula(out, entry, put_operand_value);
        pvsz_put(out->text, " = ");
    }
    pvsz_put_value(out->text, term, entry->value, PVSZ_WORKING_DIGITS);
    put_remark(out, entry);
    pvsz_put(out->text, "\n");
}

/* What a step builds on comes first. Quantities do not run in circles, and the
 * chain from data to limit is a handful of steps deep. */
static void put_steps(writer *out, int32_t index)
{
    const pvsz_entry *entry = &out->report->entry[index];

    if (entry->state != PVSZ_VALUE)
        return;
    if (index < REMEMBERED) {
        if (out->seen[index / 64] >> (index % 64) & 1)
            return;
        out->seen[index / 64] |= UINT64_C(1) << (index % 64);
    }
    for (int32_t i = 0; i < entry->operands; i++) {
        const pvsz_operand *operand = &out->report->operand[entry->first_operand + i];
        const pvsz_term *term = pvsz_term_find(operand->term);

        if (operand->entry >= 0)
            put_steps(out, operand->entry);
        else if (term && term->kind == PVSZ_KIND_FIGURE)
            pvsz_include_figure(&out->figures, pvsz_term_place(term));
    }
    put_step(out, entry);
}

static void put_figures(writer *out)
{
    const pvsz_term *rows = pvsz_kinds[PVSZ_KIND_FIGURE].rows;

    for (int32_t i = 0; i < PVSZ_FIGURES; i++) {
        const pvsz_figure *figure = &out->report->figure[i];

        if (!pvsz_includes_figure(&out->figures, i))
            continue;
        pvsz_put(out->text, out->line);
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

void pvsz_put_all_working(pvsz_text *text, const pvsize_report *report, const char *line)
{
    writer out = {.text = text, .report = report, .line = line};

    for (int32_t i = 0; i < report->entries; i++)
        put_steps(&out, i);
    put_figures(&out);
}

void pvsz_put_working(pvsz_text *text, const pvsize_report *report, int32_t entry, const char *line)
{
    writer out = {.text = text, .report = report, .line = line};

    put_steps(&out, entry);
    put_figures(&out);
}

/* A side that is no quantity: the parameter, figure or number itself. */
static void put_plain_side(writer *out, const pvsz_finding *finding, const pvsz_ref *ref,
                           double value)
{
    const pvsz_term *term = pvsz_term_find(ref->number);

    if (term && term->kind == PVSZ_KIND_FIGURE && term->low == term->high)
        return; /* a constant says nothing that the comparison does not */
    pvsz_put(out->text, out->line);
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
    pvsz_put(out->text, "\n");
}

/* Whether a side of an unassessed finding is there to be shown. */
static bool is_there(const pvsz_finding *finding, const pvsz_ref *ref)
{
    return finding->verdict != PVSIZE_VERDICT_NOT_ASSESSED || ref->kind == PVSZ_KIND_QUANTITY;
}

static void put_side(writer *out, const pvsz_finding *finding, const pvsz_ref *ref, int32_t entry,
                     double value)
{
    if (entry >= 0)
        put_steps(out, entry);
    else if (is_there(finding, ref))
        put_plain_side(out, finding, ref, value);
}

/* An own rule may take a share of a term as its limit. */
static void put_factor(writer *out, const pvsz_finding *finding)
{
    const pvsz_rule *rule = finding->rule;

    if (!rule->limit.number || rule->factor == 1 || finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return;
    pvsz_put(out->text, out->line);
    pvsz_put(out->text, "limit = ");
    pvsz_put_exact(out->text, rule->factor);
    pvsz_put(out->text, " × ");
    pvsz_put_value(out->text, pvsz_term_find(rule->limit.number), finding->limit_term,
                   PVSZ_WORKING_DIGITS);
    pvsz_put(out->text, " = ");
    pvsz_put_value(out->text, pvsz_finding_term(finding), finding->limit, PVSZ_WORKING_DIGITS);
    pvsz_put(out->text, "\n");
}

void pvsz_put_finding_working(pvsz_text *text, const pvsize_report *report,
                              const pvsz_finding *finding, const char *line)
{
    writer out = {.text = text, .report = report, .line = line};

    put_side(&out, finding, &finding->rule->value, finding->value_entry, finding->value);
    put_side(&out, finding, &finding->rule->limit, finding->limit_entry,
             finding->rule->limit.number ? finding->limit_term : finding->limit);
    put_factor(&out, finding);
    put_figures(&out);
    if (finding->verdict == PVSIZE_VERDICT_NOT_ASSESSED)
        return;
    pvsz_put(text, line);
    pvsz_put_comparison(text, finding);
    pvsz_put(text, ": ");
    pvsz_put(text, pvsz_verdict_word(finding));
    pvsz_put(text, "\n");
}
