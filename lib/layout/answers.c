/* The answers kept, the best first: a stringing becomes one by the full check alone. */
#include "layout.h"

bool pvsz_is_worth(pvsz_problem *problem, const pvsz_key *key)
{
    if (pvsz_is_never(key))
        return false;
    problem->list.overflowed |= pvsz_is_beaten(&problem->list, key);
    return !pvsz_is_beaten(&problem->list, key);
}

/* Behind those that are as good and were found before. */
static void keep_answer(pvsz_problem *problem, const pvsz_key *key, int32_t outcome)
{
    pvsz_list *list = &problem->list;
    int32_t at = list->count;
    pvsz_answer added;

    if (list->count < list->most)
        list->count++;
    else
        list->overflowed = true;
    added = list->answer[list->most]; /* the spare one */
    if (at == list->most) {
        list->answer[list->most] = list->answer[list->most - 1];
        at--;
    } else {
        list->answer[list->most] = list->answer[at];
    }
    for (; at > 0 && pvsz_compare_keys(&list->answer[at - 1].key, key) < 0; at--)
        list->answer[at] = list->answer[at - 1];
    added.key = *key;
    added.outcome = outcome;
    for (int32_t i = 0; i < problem->slots; i++)
        added.choice[i] = problem->choice[i];
    list->answer[at] = added;
}

static int32_t outcome_of(const pvsize_report *report)
{
    int32_t outcome = PVSIZE_OUTCOME_NOTHING;

    pvsize_report_outcome(report, &outcome, NULL);
    return outcome;
}

/* Keeps what broke the best of the stringings that the full check refused. */
static void note_refusal(pvsz_problem *problem, const pvsz_key *key)
{
    const pvsz_option none = {.module = -1, .plane = {-1, -1}};

    if (problem->refused.rule && pvsz_compare_keys(key, &problem->refused_key) <= 0)
        return;
    /* one of them breaks: that is what the outcome says */
    for (int32_t i = 0; i < problem->report->findings; i++) { /* GCOVR_EXCL_BR_LINE */
        const pvsz_finding *finding = &problem->report->finding[i];

        if (!pvsz_breaks(finding))
            continue;
        problem->refused = pvsz_obstacle_of(
            finding, &none, finding->subject->at[PVSZ_KIND_INVERTER],
            finding->subject->scope == PVSZ_KIND_INPUT ? finding->subject->index : -1);
        problem->refused_key = *key;
        return;
    }
}

/* A whole stringing is an answer only if the full check says so. */
pvsize_status pvsz_judge(pvsz_problem *problem, const pvsz_key *key)
{
    int32_t made = pvsz_wire(problem, problem->choice), outcome;
    pvsize_status status;

    if (made == 0 && problem->fixed == 0)
        return PVSIZE_OK;
    status = pvsz_check_wired(problem);
    if (status)        /* GCOVR_EXCL_BR_LINE: a pass begins with a check that makes the room */
        return status; /* GCOVR_EXCL_LINE */
    outcome = outcome_of(problem->report);
    if (outcome == PVSIZE_OUTCOME_BROKEN)
        note_refusal(problem, key);
    else
        keep_answer(problem, key, outcome);
    return PVSIZE_OK;
}
