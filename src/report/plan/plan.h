/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan for people (plan_text.c) and for programs (plan_data.c), and its sealed key.
 */
#ifndef SLOWLIFT_REPORT_PLAN_H
#define SLOWLIFT_REPORT_PLAN_H

#include <stdbool.h>
#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "report/warnings.h"
#include "slowlift/caution.h"
#include "slowlift/plan.h"
#include "slowlift/promise.h"
#include "slowlift/report.h"
#include "slowlift/timeline.h"

/* How many repeats tell the difference that is wanted, and whether hands and class allow them. */
typedef struct sl_plan_proposal {
    int repeats; /* -1: none up to SL_PLAN_MOST_BLOCKS do */
    sl_plan_fit fit;
    double
        tells[SL_FIT_OFFERS]; /* the difference that is told with each change that the fit offers; -1: none */
} sl_plan_proposal;

typedef struct sl_plan_page {
    const sl_plan *plan;
    const sl_timeline *timeline;      /* of the plan's scene */
    sl_plan_error together, one_bowl; /* what those two mistakes would do */
    sl_promise promise;               /* what it can tell */
    double tell;                      /* the difference that is wanted, a share; 0: none */
    sl_plan_proposal proposal[2];     /* graded once; read by an instrument */
    bool blind;                       /* codes alone: what a judge may see */
    sl_plan_fit fit;                  /* of the class; class_s 0: it has no end */
} sl_plan_page;

sl_document_sayer sl_plan_say;      /* of a sl_plan_page */
sl_document_sayer sl_plan_say_kept; /* the same of a test that a log keeps: without the timetable */
void sl_promise_words(const sl_promise *promise, char *text, size_t size); /* in two or three sentences */
extern const sl_export sl_plan_export;     /* of an sl_plan_page; CSV: one row a task */
extern const sl_export sl_plan_key_export; /* CSV, of an sl_plan: what the codes mean */

/* On which its cautions are owed. */
unsigned sl_plan_occasions(const sl_plan_page *page);

/* What is to be done once the day is over (around.c). */
void sl_plan_say_after(sl_document *document, const sl_plan *plan);
/* The day on which swatches are dyed: list, order, codes, what to keep back (around.c). */
sl_document_sayer sl_plan_say_dye_day;                               /* of a sl_plan_page */
void sl_plan_say_dyeing(sl_document *document, const sl_plan *plan); /* the same without title and end */
/* "1 h 26 min": up to the next whole minute. */
void sl_plan_hours(double seconds, char *text, size_t size);
/* How long a plan takes; where the class is shorter, that it cannot work and each plan that would. */
void sl_plan_fit_each(const sl_plan_fit *fit, sl_warning_taker *take, void *self);
void sl_plan_fit_say(sl_document *document, const sl_plan_fit *fit);
/* What a wanted difference takes: read 0 graded, 1 by an instrument. */
void sl_plan_say_proposal(sl_document *document, const sl_plan_page *page, int read);
/* The arm that a task is about, or to mix what is weighed. */
void sl_task_about(const sl_plan *plan, const sl_task *task, char *text, size_t size);
/* "0:12:45" from the start of the day. */
void sl_day_time(int seconds, char *text, size_t size);
/* Why an arm does not lie as long as its scene says; false: it does. */
bool sl_plan_shortened(const sl_plan *plan, int arm, char *text, size_t size);
/* At which minutes an arm is not looked at though looks were asked for; false: at none. */
bool sl_plan_unlooked(const sl_plan *plan, int arm, char *text, size_t size);
/* Why a control is worth its swatch. */
const char *sl_control_reason(sl_control control);
/* Pairs of arms that differ in one thing alone: calls `use` for each. Returns how many. */
typedef void sl_fair_pair(void *with, int one, int other, sl_difference difference);
int sl_fair_pairs(const sl_scene *scene, sl_fair_pair *use, void *with);

#endif
