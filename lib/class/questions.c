/* What is asked, and how the answer is read from a report. */

#include "class.h"

static bool by_quantity(const pvsz_question *question, const pvsize_report *report, int32_t place,
                        double *value)
{
    int32_t entry = pvsz_question_entry(question, report, place);

    if (entry < 0)
        return false;
    *value = report->entry[entry].value;
    return true;
}

static int32_t limit_of(int32_t term)
{
    switch (term) {
    case PVSIZE_INPUT_MAX_VOLTAGE:
        return PVSIZE_LIMIT_INPUT;
    case PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE:
        return PVSIZE_LIMIT_MODULE;
    case PVSIZE_QUANTITY_BUILDING_VOLTAGE_LIMIT:
        return PVSIZE_LIMIT_BUILDING;
    case PVSIZE_QUANTITY_PV_LIMIT_RATIO:
        return PVSIZE_LIMIT_RATIO;
    default:
        return PVSIZE_LIMIT_MAKER;
    }
}

/* What a quantity was chosen from: the lowest of its operands. */
static const pvsz_operand *choice_at(const pvsz_question *question, const pvsize_report *report,
                                     int32_t place, int32_t k)
{
    int32_t index = pvsz_question_entry(question, report, place);
    const pvsz_entry *entry = index < 0 ? NULL : &report->entry[index];

    return entry && k < entry->operands ? &entry->operand[k] : NULL;
}

int32_t pvsz_limit_at(const pvsz_question *question, const pvsize_report *report, int32_t place,
                      int32_t k)
{
    const pvsz_operand *operand = choice_at(question, report, place, k);

    return operand ? limit_of(operand->term) : 0;
}

/* The limit that governs; none where two are the lowest, or there is one only. */
static bool by_limit(const pvsz_question *question, const pvsize_report *report, int32_t place,
                     double *value)
{
    const pvsz_operand *lowest = choice_at(question, report, place, 0), *other;
    int32_t alike = 0, k;

    for (k = 1; (other = choice_at(question, report, place, k)) != NULL; k++)
        if (other->value < lowest->value)
            lowest = other;
    if (!lowest || k < 2)
        return false;
    for (k = 0; (other = choice_at(question, report, place, k)) != NULL; k++)
        alike += other->value == lowest->value;
    *value = limit_of(lowest->term);
    return alike == 1;
}

static bool by_fault(const pvsz_question *question, const pvsize_report *report, int32_t place,
                     double *value)
{
    const pvsz_finding *broken = pvsz_broken(report);

    (void)question;
    (void)place;
    *value = broken ? pvsz_fault_of(broken->rule->number) : PVSIZE_FAULT_NONE;
    return broken ? *value != PVSIZE_FAULT_NONE : pvsz_broken_count(report) == 0;
}

static bool by_excess(const pvsz_question *question, const pvsize_report *report, int32_t place,
                      double *value)
{
    const pvsz_finding *broken = pvsz_broken(report);

    (void)question;
    (void)place;
    if (!broken || pvsz_fault_of(broken->rule->number) == PVSIZE_FAULT_NONE)
        return false;
    *value = -broken->margin;
    return true;
}

#define EXACT PVSZ_EXACT
#define PVSIZE_NO_SET 0
#define PVSZ_NO_QUANTITY -1
static const pvsz_question questions[] = {
#define QUESTION(ID, SCOPE, QUANTITY, answer, SET, decimals, text) \
    {PVSIZE_QUESTION_##ID,                                         \
     PVSZ_KIND_##SCOPE,                                            \
     PVSZ_##QUANTITY,                                              \
     answer,                                                       \
     PVSIZE_##SET,                                                 \
     decimals,                                                     \
     text},
#define ASKS(LEVEL, QUESTION, place)
#include "../tables/questions.def"
#undef QUESTION
#undef ASKS
};

static const struct {
    int32_t level, question, place;
} asks[] = {
#define QUESTION(ID, SCOPE, QUANTITY, answer, SET, decimals, text)
#define ASKS(LEVEL, QUESTION, place) {PVSIZE_LEVEL_##LEVEL, PVSIZE_QUESTION_##QUESTION, place},
#include "../tables/questions.def"
#undef QUESTION
#undef ASKS
};

const pvsz_question *pvsz_asked_at(int32_t level, int32_t i, int32_t *place)
{
    for (int32_t k = 0; k < PVSZ_COUNT(asks); k++) {
        if (asks[k].level != level || i-- > 0)
            continue;
        *place = asks[k].place;
        for (int32_t q = 0; q < PVSZ_COUNT(questions); q++) /* GCOVR_EXCL_BR_LINE: all asked are */
            if (questions[q].number == asks[k].question)
                return &questions[q];
    }
    return NULL;
}

const pvsz_subject *pvsz_question_subject(const pvsz_question *question,
                                          const pvsize_report *report, int32_t place)
{
    return &report->design
                .subject[question->scope][question->scope == PVSZ_KIND_INVERTER ? 0 : place];
}

int32_t pvsz_question_entry(const pvsz_question *question, const pvsize_report *report,
                            int32_t place)
{
    int32_t entry; /* there is one: a job has all that questions are asked of */

    if (question->quantity < 0)
        return -1;
    entry = pvsz_report_entry(report, question->quantity,
                              pvsz_question_subject(question, report, place));
    return report->entry[entry].state == PVSZ_VALUE ? entry : -1;
}

double pvsz_tolerance(const pvsz_question *question)
{
    static const double units[] = {1, 0.1, 0.01};

    return question->decimals == PVSZ_EXACT ? 0 : units[question->decimals];
}
