/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift report` was asked for and what it takes to write it, for the program that writes and for the
 * one that prints pages. Invariant: the log is only read, and what it says is settled before a word is
 * written.
 */
#ifndef SLOWLIFT_FRONT_REPORT_WORK_H
#define SLOWLIFT_FRONT_REPORT_WORK_H

#include "front/option.h"
#include "front/work/answer_work.h"
#include "log/papers/papers.h"

typedef struct sl_report_work {
    const char *log, *test, *outcomes, *client, *no;
    bool school, accident, labels, blind;
    sl_result_wish result;
    /* once computed */
    sl_document_sayer *say;
    const void *of; /* what that is a sayer of */
    sl_kept_test kept;
    sl_whole_paper whole;
    sl_school_paper paper;
    sl_client_paper sheet;
    sl_label_paper label;
    sl_intake form;
    sl_person person;
    sl_solver *solver;
    sl_plan *plan;
    sl_timeline *timeline;
    sl_compare *compare;
    sl_rate *rates;
    sl_promise promise;
    sl_seen_curves *curves;
    sl_answer_work answer; /* without a scene where the model says nothing of this one */
    char *words;           /* of the outcomes' file */
} sl_report_work;          /* start with {0}; too large for a stack */

extern const sl_command_line sl_report_typed;
bool sl_report_work_read(sl_report_work *work, int argc, char **argv, sl_error *error);
bool sl_report_work_compute(sl_report_work *work, sl_error *error);
void sl_report_work_free(sl_report_work *work);

#endif
