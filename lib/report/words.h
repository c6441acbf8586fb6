/* Pieces of text that reports are put together from. */
#ifndef PV_WORDS_H
#define PV_WORDS_H

#include "../rules/findings.h"

/* Digits of computed numbers: in findings, and in working, where the last
 * digit of a step lets the next be recomputed. */
enum { PV_FINDING_DIGITS = 5, PV_WORKING_DIGITS = 7 };

/* "input 2 of inverter 1 (B)" */
void pv_put_subject(pv_text *text, const pvsize_report *report, const pv_subject *subject);
/* A value of a term: number with unit, or name of a choice. */
void pv_put_value(pv_text *text, const pv_term *term, double value, int32_t digits);
/* Term that gives a finding its unit and type. */
const pv_term *pv_finding_term(const pv_finding *finding);
const char *pv_verdict_word(const pv_finding *finding);
/* "595.96 V, at most 600 V" */
void pv_put_comparison(pv_text *text, const pv_finding *finding);
/* "4.05 V (0.7 %)" */
void pv_put_margin(pv_text *text, const pv_finding *finding);
void pv_put_sentence(pv_text *text, const pvsize_report *report, const pv_finding *finding);
/* "AS/NZS 5033:2021 cl. 3.1 (read in a source)" */
void pv_put_source(pv_text *text, const char *source, int32_t known);
void pv_put_reason(pv_text *text, const pv_finding *finding);
void pv_put_assumption(pv_text *text, const pvsize_report *report,
                       const pv_assumption *assumption);

/* Every step of the report once. */
void pv_put_all_working(pv_text *text, const pvsize_report *report, const char *line);
/* Steps to an entry, and to both sides of a finding. `line` opens each line. */
void pv_put_working(pv_text *text, const pvsize_report *report, int32_t entry, const char *line);
void pv_put_finding_working(pv_text *text, const pvsize_report *report, const pv_finding *finding,
                            const char *line);

#endif
