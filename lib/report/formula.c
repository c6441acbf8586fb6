/* Formula, substitution, result in one line. Data stand as they were given;
 * computed numbers are rounded to PVSZ_WORKING_DIGITS. */
#include <string.h>

#include "formula.h"

typedef void put_operand(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                         int32_t i);

const pvsz_subject *pvsz_operand_subject(const pvsize_report *report, const pvsz_entry *entry,
                                         int32_t i)
{
    const pvsz_term *term = pvsz_term_find(entry->operand[i].term);
    int32_t kind = term ? term->kind : PVSZ_SCOPES, at;

    if (kind >= PVSZ_SCOPES)
        return NULL;
    at = entry->subject->at[kind] < 0 ? i : entry->subject->at[kind];
    return at < report->design.count[kind] ? &report->design.subject[kind][at] : NULL;
}

void pvsz_put_operand_name(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                           int32_t i)
{
    const pvsz_operand *operand = &entry->operand[i];
    const pvsz_term *term = pvsz_term_find(operand->term);
    const pvsz_subject *of = NULL;

    if (operand->entry >= 0) {
        pvsz_put(text, term->symbol);
        of = report->entry[operand->entry].subject;
    } else {
        pvsz_put_term(text, operand->term);
        if (entry->subject->at[term->kind] < 0)
            of = pvsz_operand_subject(report, entry, i);
    }
    if (!of)
        return;
    pvsz_put(text, "[");
    pvsz_put_subject(text, report, of);
    pvsz_put(text, "]");
}

/* "{x}" and nothing else: naming it again would say nothing. */
static bool is_plain(const char *formula)
{
    size_t n = strcspn(formula, "}");

    return formula[0] == '{' && formula[1] != '+' && formula[1] != ',' &&
           (formula[n + 1] == '\0' || formula[n + 1] == ';');
}

void pvsz_put_operand_value(pvsz_text *text, const pvsz_entry *entry, int32_t i)
{
    const pvsz_operand *operand = &entry->operand[i];
    const pvsz_symbol *symbol = pvsz_symbol_of(entry, i);
    /* a number that is the whole formula has the unit of the quantity */
    bool is_result = !operand->term && i == 0 && is_plain(entry->formula);
    const pvsz_term *term = is_result ? &pvsz_kinds[PVSZ_KIND_QUANTITY].rows[entry->quantity]
                                      : pvsz_term_find(operand->term);

    pvsz_put_value(text, term, operand->value,
                   operand->entry >= 0 || !operand->term ? PVSZ_WORKING_DIGITS : 0);
    if (!is_result && symbol && symbol->unit[0]) {
        pvsz_put(text, " ");
        pvsz_put(text, symbol->unit);
    }
}

static void put_substituted(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                            int32_t i)
{
    bool negative = entry->operand[i].value < 0;

    (void)report; /* names need it, values do not */
    pvsz_put(text, negative ? "(" : "");
    pvsz_put_operand_value(text, entry, i);
    pvsz_put(text, negative ? ")" : "");
}

static const pvsz_symbol symbols[] = {
#define SYMBOL(symbol, unit, meaning, origin) {symbol, unit, meaning, origin},
#include "../tables/symbols.def"
#undef SYMBOL
};

const pvsz_symbol *pvsz_symbol_of(const pvsz_entry *entry, int32_t i)
{
    size_t length;
    const char *symbol = entry->operand[i].term ? NULL : pvsz_symbol_at(entry->formula, i, &length);

    for (int32_t k = 0; symbol && k < PVSZ_COUNT(symbols); k++)
        if (strlen(symbols[k].symbol) == length && memcmp(symbols[k].symbol, symbol, length) == 0)
            return &symbols[k];
    return NULL;
}

/* Whether the symbol at `s` stands further left as well. */
static bool stands_before(const char *formula, const char *s, size_t length)
{
    for (const char *p = strchr(formula, '{'); p < s - 1; p = strchr(p + 1, '{'))
        if (strcspn(p + 1, "}") == length && memcmp(p + 1, s, length) == 0)
            return true;
    return false;
}

const char *pvsz_symbol_at(const char *formula, int32_t k, size_t *length)
{
    for (const char *s = strchr(formula, '{'); s; s = strchr(s, '{')) {
        *length = strcspn(++s, "}");
        if (!stands_before(formula, s, *length) && k-- == 0)
            return s;
    }
    return NULL;
}

/* Which operand a symbol of the formula stands for: they count in the order of first use. */
static int32_t operand_at(const char *formula, const char *symbol, size_t length)
{
    size_t n;
    const char *s;

    for (int32_t k = 0; (s = pvsz_symbol_at(formula, k, &n)) != NULL; k++) /* GCOVR_EXCL_BR_LINE */
        if (n == length && memcmp(s, symbol, n) == 0)
            return k;
    return INT32_MAX; /* GCOVR_EXCL_LINE: it is found before the end, as it stands there */
}

static void put_list(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                     int32_t from, char joint, put_operand *put)
{
    for (int32_t i = from; i < entry->operands; i++) {
        if (i > from)
            pvsz_put(text, joint == '+' ? " + " : ", ");
        put(text, report, entry, i);
    }
}

/* Up to `end`, each symbol as it stands (put null) or filled in. */
static void put_filled(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                       const char *s, const char *end, put_operand *put)
{
    while (s < end) {
        size_t plain = strcspn(s, "{"), symbol;
        int32_t index;

        if (plain >= (size_t)(end - s)) {
            pvsz_put_bytes(text, s, (size_t)(end - s));
            return;
        }
        pvsz_put_bytes(text, s, plain);
        s += plain + 1;
        symbol = strcspn(s, "}");
        index = operand_at(entry->formula, s, symbol);
        if (*s == '+' || *s == ',')
            put_list(text, report, entry, index, *s, put ? put : pvsz_put_operand_name);
        else if (!put)
            pvsz_put_bytes(text, s, symbol);
        else if (index < entry->operands)
            put(text, report, entry, index);
        s += symbol + 1;
    }
}

/* A sum or choice of one value is that value: name it, do not repeat it. */
static bool is_list_of_one(const pvsz_entry *entry)
{
    const char *formula = entry->formula;

    return entry->operands == 1 &&
           (strncmp(formula, "{+", 2) == 0 || strncmp(formula, "max({,", 6) == 0 ||
            strncmp(formula, "min({,", 6) == 0);
}

void pvsz_put_equation(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry)
{
    const pvsz_term *term = &pvsz_kinds[PVSZ_KIND_QUANTITY].rows[entry->quantity];
    const char *formula = entry->formula, *end = formula + strcspn(formula, ";");

    pvsz_put(text, term->symbol);
    pvsz_put(text, " = ");
    if (is_list_of_one(entry)) {
        pvsz_put_operand_name(text, report, entry, 0);
        pvsz_put(text, " = ");
    } else if (!is_plain(formula)) {
        put_filled(text, report, entry, formula, end, NULL);
        pvsz_put(text, " = ");
        put_filled(text, report, entry, formula, end, put_substituted);
        pvsz_put(text, " = ");
    }
    pvsz_put_value(text, term, entry->value, PVSZ_WORKING_DIGITS);
    if (*end) { /* the remark */
        pvsz_put(text, " (");
        put_filled(text, report, entry, end + 2, end + strlen(end), put_substituted);
        pvsz_put(text, ")");
    }
}
