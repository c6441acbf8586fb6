/* What the symbols of a step stand for, and where each value is from. */
#include "formula.h"

/* Where parameters of a kind are from. */
static const char *const origins[PVSZ_SCOPES] = {
    [PVSZ_KIND_MODULE] = "module's data sheet",
    [PVSZ_KIND_INPUT] = "inverter's data sheet",
    [PVSZ_KIND_INVERTER] = "inverter's data sheet",
    [PVSZ_KIND_EFFICIENCY_POINT] = "inverter's data sheet",
};

static bool is_assumed(const pvsize_report *report, int32_t number, const pvsz_subject *of)
{
    for (int32_t i = 0; i < report->assumptions; i++)
        if (report->assumption[i].term == number && report->assumption[i].subject == of)
            return true;
    return false;
}

static void put_parameter_origin(pvsz_text *text, const pvsize_report *report,
                                 const pvsz_term *term, const pvsz_subject *of)
{
    const char *origin = origins[term->kind];

    if (is_assumed(report, term->number, of))
        pvsz_put(text, "taken for granted");
    else if (origin)
        pvsz_put(text, origin);
    else {
        pvsz_put(text, "given for the ");
        pvsz_put(text, pvsz_kinds[term->kind].name);
    }
    pvsz_put(text, ", ");
    pvsz_put_term(text, term->number);
}

static void put_origin(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                       int32_t i, const pvsz_term *term)
{
    if (term->kind == PVSZ_KIND_QUANTITY) {
        pvsz_put(text, "computed above");
    } else if (term->kind == PVSZ_KIND_FIGURE) {
        const pvsz_figure *figure = &report->figure[pvsz_term_place(term)];

        pvsz_put_term(text, term->number);
        pvsz_put(text, " of the rule set: ");
        pvsz_put_source(text, figure->source, figure->known);
    } else {
        put_parameter_origin(text, report, term, pvsz_operand_subject(report, entry, i));
    }
}

/* What an operand is: its term's words, or those of the symbol where a number
 * stands in no table of terms. */
static void put_meaning(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                        int32_t i)
{
    const pvsz_term *term = pvsz_term_find(entry->operand[i].term);
    const pvsz_symbol *row = pvsz_symbol_of(entry, i);

    pvsz_put(text, ": ");
    pvsz_put(text, term ? term->text : row ? row->meaning : "a number of the step");
    pvsz_put(text, "; ");
    if (term)
        put_origin(text, report, entry, i, term);
    else
        pvsz_put(text, row ? row->origin : "counted in the design");
}

void pvsz_put_meanings(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                       const char *line)
{
    const char *listed = NULL;

    for (int32_t i = 0; i < entry->operands; i++) {
        size_t length = 0;
        const char *symbol = listed ? listed : pvsz_symbol_at(entry->formula, i, &length);

        if (!symbol)
            return;
        if (*symbol == '+' || *symbol == ',')
            listed = symbol;
        pvsz_put(text, line);
        if (listed)
            pvsz_put_operand_name(text, report, entry, i);
        else
            pvsz_put_bytes(text, symbol, length);
        pvsz_put(text, " = ");
        pvsz_put_operand_value(text, entry, i);
        put_meaning(text, report, entry, i);
        pvsz_put(text, "\n");
    }
}
