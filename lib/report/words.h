/* Pieces of text that reports are put together from. */
#ifndef PVSZ_WORDS_H
#define PVSZ_WORDS_H

#include "../rules/findings.h"

/* Digits of computed numbers: in findings, and in working, where the last
 * digit of a step lets the next be recomputed. */
enum { PVSZ_FINDING_DIGITS = 5, PVSZ_WORKING_DIGITS = 7 };
/* For value and limit of a finding: more where these would read as equal and are not. */
int32_t pvsz_finding_digits(const pvsz_finding *finding);

pvsize_status pvsz_check_report(const pvsize_report *report, pvsize_diag *diag);
/* Number of a subject in the report. */
int32_t pvsz_subject_number(const pvsize_report *report, const pvsz_subject *subject);
/* The subject with that number; null if there is none. */
const pvsz_subject *pvsz_subject_numbered(const pvsize_report *report, int32_t number);
/* The same, or the failure told. */
pvsize_status pvsz_find_subject(const pvsize_report *report, int32_t number,
                                const pvsz_subject **subject, pvsize_diag *diag);

/* PVSIZE_OUTCOME_... of the whole report. */
int32_t pvsz_outcome(const pvsize_report *report);
/* The caution in lines that fit a page. */
void pvsz_put_caution(pvsz_text *text);
/* "PV sizing: name of the job", and the title of the rule set. */
void pvsz_put_page_title(pvsz_text *text, const char *what, const char *name, const char *rules);
void pvsz_put_title(pvsz_text *text, const pvsize_report *report, const char *what);
/* "input 2 of inverter 1 (B)" */
void pvsz_put_subject(pvsz_text *text, const pvsize_report *report, const pvsz_subject *subject);
/* The same by its number in a report, which has it. */
void pvsz_put_subject_row(pvsz_text *text, const void *report, int32_t i);
/* A value of a term: number with unit, or name of a choice. */
void pvsz_put_value(pvsz_text *text, const pvsz_term *term, double value, int32_t digits);
/* Term that gives a finding its unit and type. */
const pvsz_term *pvsz_finding_term(const pvsz_finding *finding);
/* "at most " */
const char *pvsz_compare_words(int32_t compare);
const char *pvsz_verdict_word(const pvsz_finding *finding);
/* "595.96 V, at most 600 V" */
void pvsz_put_comparison(pvsz_text *text, const pvsz_finding *finding);
/* "4.05 V (0.7 %)" */
void pvsz_put_margin(pvsz_text *text, const pvsz_finding *finding);
void pvsz_put_sentence(pvsz_text *text, const pvsize_report *report, const pvsz_finding *finding);
/* "AS/NZS 5033:2021 cl. 3.1 (read in a source)" */
void pvsz_put_source(pvsz_text *text, const char *source, int32_t known);
void pvsz_put_reason(pvsz_text *text, const pvsz_finding *finding);
void pvsz_put_assumption(pvsz_text *text, const pvsize_report *report,
                         const pvsz_assumption *assumption);

/* How working is written: what opens a line, and one below it; PVSIZE_DETAIL_SHORT
 * or _LONG. */
typedef struct pvsz_manner {
    const char *line, *below;
    int32_t detail;
} pvsz_manner;
pvsz_manner pvsz_manner_of(int32_t format, int32_t detail);
/* Every step of the report once. */
void pvsz_put_all_working(pvsz_text *text, const pvsize_report *report, pvsz_manner manner);
/* Figures, by place, that the steps to an entry put in. */
pvsz_figure_set pvsz_figures_used(const pvsize_report *report, int32_t entry);
/* Steps to an entry, and to both sides of a finding. */
void pvsz_put_working(pvsz_text *text, const pvsize_report *report, int32_t entry,
                      pvsz_manner manner);
void pvsz_put_finding_working(pvsz_text *text, const pvsize_report *report,
                              const pvsz_finding *finding, pvsz_manner manner);

#endif
