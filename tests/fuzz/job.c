/* The job reader of the C example on any text; what it reads is then sized. */
#include "fuzz.h"

#include "job_reader.h"

static void size_it(const job *work)
{
    pvsize_report *report = NULL;
    pvsize_bill *bill = NULL;
    size_t length = 0;

    pvsize_report_new(NULL, &report, NULL);
    pvsize_bill_new(NULL, &bill, NULL);
    if (pvsize_check(work->system, work->rules, report, NULL) == PVSIZE_OK)
        HOLDS(pvsize_report_render(report, PVSIZE_FORMAT_PLAIN, PVSIZE_DETAIL_SHORT, NULL, 0,
                                   &length, NULL) == PVSIZE_OK);
    pvsize_bill_fill(work->system, work->rules, bill, NULL);
    pvsize_bill_free(bill);
    pvsize_report_free(report);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t count)
{
    job_errors errors = {"job", 0};
    char *text = malloc(count + 1);
    job work;

    if (!text)
        return 0;
    memcpy(text, bytes, count);
    text[count] = 0;
    if (job_read(&errors, text, count, &work)) {
        HOLDS(errors.count == 0 && work.system && work.rules);
        size_it(&work);
        job_free(&work);
    } else {
        HOLDS(errors.count > 0); /* never silent */
    }
    free(text);
    return 0;
}
