/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When to look and when to stop, as a document, CSV and JSON. Invariant: a minute is written only where
 * the answer holds minutes; text has whole minutes alone, and every computed one in a range.
 */
#ifndef SLOWLIFT_REPORT_LIMITS_H
#define SLOWLIFT_REPORT_LIMITS_H

#include <stdio.h>

#include "base/minute.h"
#include "document/document.h"
#include "document/table.h"
#include "slowlift/answer.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

typedef struct sl_limits_page {
    const sl_answers *answers;
    int only;     /* this arm alone; -1 = every arm */
    bool science; /* odds' interval and indices too */
} sl_limits_page;

/* On which its cautions are owed. */
unsigned sl_limits_occasions(const sl_limits_page *page);
/* Those that a person's strand brings; 0 of cut swatches. */
unsigned sl_person_occasions(const sl_answers *answers);
sl_document_sayer sl_limits_say;         /* of a sl_limits_page */
extern const sl_export sl_limits_export; /* of an sl_limits_page */

/* ---- one arm, for page and window alike (limits_arm.c) ------------------------------------------ */

/* What one arm's part is made of. */
typedef struct sl_limits_arm {
    const sl_scene *scene;
    int arm;
    const sl_answer *answer;
    const sl_limits *limits;     /* by the central values */
    const sl_draw_plan *plan;    /* what is drawn */
    const double *index;         /* [plan->n] first-order indices; NULL: none is told */
    const sl_observations *seen; /* of any arm */
    const sl_person *person;     /* NULL: cut swatches */
    long members;                /* counted so far */
    bool counting;               /* more of them may still change the verdict */
} sl_limits_arm;
/* Verdict and odds first; behind them goal, stop and looks, then what goes with them. */
void sl_limits_say_arm(sl_document *document, const sl_limits_arm *of);
/* What is asked for; of how many model runs it is told; when to rinse at once; what odds are not. */
void sl_limits_say_counted(sl_document *document, long members, uint64_t seed);
void sl_limits_say_signs(sl_document *document);
void sl_limits_say_worth(sl_document *document);
/* How much of the variance one draw accounts for, first order. */
void sl_say_index(sl_document *document, const char *label, const sl_scene *scene, const sl_drawn *drawn,
                  double index);

/* ---- the person (limits_person.c) --------------------------------------------------------------- */

/* All that is in the way of an arm's minutes, and when to look at a strand that is missing. */
void sl_limits_say_lacks(sl_document *document, const sl_limits_arm *of);
/* The strand that counts, and how long it was watched. */
void sl_limits_say_strand(sl_document *document, const sl_limits_arm *of);
/* The stamp of a person made up for a class; nothing for anybody else. */
void sl_limits_say_practice(sl_document *document, const sl_person *person);
/* What the form stops and lacks; what stops owes its caution. */
void sl_limits_say_person(sl_document *document, const sl_person *person);

/* Whether the page is about a person made up for a class: each of its parts says so. */
bool sl_is_practice(const sl_limits_page *page);

/* ---- words (limits_words.c) ----------------------------------------------------------------- */

/* P10 to P90 in whole minutes, none after last_min (HUGE_VAL: no end): "17 to 26 min"; what does not come
 * in this scene is said, or, with in_time, what does not come before the label's time or the strand's. */
void sl_three_words(sl_three minutes, bool in_time, double last_min, char *text, size_t size);
/* "9, 12 and 14 min"; "" when n is 0. */
enum { SL_MINUTES_TEXT = 640 };
void sl_minutes_words(sl_minute_kind kind, const int *minute, int n, char *text, size_t size);
/* "EK9 of test 4f3a2b1c, tried on 2026-11-20, 9 days before 2026-11-29". */
void sl_strand_words_of(const sl_strand *strand, char *text, size_t size);
/* What the verdict means, in a sentence or two of our own. */
const char *sl_verdict_sentence(const sl_answer *answer);

/* ---- an answer's parts, for page and window alike (answer_words.c) --------------------------------- */

/* When the goal comes, and in which zone it comes last. */
void sl_answer_goal_words(const sl_scene *scene, const sl_answer *answer, char *text, size_t size);
/* When to stop and what stops the arm, and where. */
void sl_answer_stop_words(const sl_scene *scene, int arm, const sl_answer *answer, const sl_limits *limits,
                          char *text, size_t size);
/* Whether the minutes go on to the stop of the central values: false where the label or the strand's watch
 * ends them first. What the hair is like at that stop is told only then. */
bool sl_answer_comes_to_the_stop(const sl_answer *answer, const sl_limits *limits);
/* What is left at the stop, and how it looks where that is known. */
void sl_answer_left_words(const sl_scene *scene, const sl_answer *answer, const sl_limits *limits, char *text,
                          size_t size);
/* The level of the base at the start and at the stop, and the end of the scale: "base from 9 to 9.6 ...". */
void sl_answer_base_words(const sl_limits *limits, char *text, size_t size);
/* Why waiting buys nothing, the first reason (0) or the second; false: there is none up to that minute. */
bool sl_answer_waiting_words(const sl_limits *limits, double last_min, int reason, char *text, size_t size);
/* When to wipe a lock and look at its colour, or what to do instead. */
void sl_answer_checks_words(const sl_answer *answer, char *text, size_t size);

#endif
