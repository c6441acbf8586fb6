/* One step of the working as text: an entry's formula, filled in. */
#ifndef PVSZ_FORMULA_H
#define PVSZ_FORMULA_H

#include "words.h"

/* "Ustring,cold = N × Voc,cold = 14 × 41.846 V = 585.844 V (a remark)" */
void pvsz_put_equation(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry);
/* What each symbol of the formula, and of its remark, stands for: name, value,
 * meaning, and where the value is from; one line each, opened by `line`. */
void pvsz_put_meanings(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                       const char *line);

/* What a parameter among the operands belongs to: what the step speaks of or hangs on,
 * or, where that does not lead to one of its kind, the i-th of those; null for others. */
const pvsz_subject *pvsz_operand_subject(const pvsize_report *report, const pvsz_entry *entry,
                                         int32_t i);
/* The name and value of operand i of an entry, as they stand in the equation. Names are of
 * lists, whose operands are quantities or parameters. */
void pvsz_put_operand_name(pvsz_text *text, const pvsize_report *report, const pvsz_entry *entry,
                           int32_t i);
void pvsz_put_operand_value(pvsz_text *text, const pvsz_entry *entry, int32_t i);
/* What a symbol stands for whose number is in no table of terms. */
typedef struct pvsz_symbol {
    const char *symbol, *unit, *meaning, *origin;
} pvsz_symbol;
/* Null where there is a term, or the symbol is in no table. */
const pvsz_symbol *pvsz_symbol_of(const pvsz_entry *entry, int32_t i);
/* The k-th symbol of a formula in the order of first use; null behind the last. */
const char *pvsz_symbol_at(const char *formula, int32_t k, size_t *length);

#endif
