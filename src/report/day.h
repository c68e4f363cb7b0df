/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the test in words. Minutes and seconds here are the bench's own clock, read off and
 * counted down; none is a prediction, and none is about a person.
 */
#ifndef SLOWLIFT_REPORT_DAY_H
#define SLOWLIFT_REPORT_DAY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "slowlift/clock.h"

enum {
    SL_DAY_WORDS = 400,  /* bytes that hold any line of this part */
    SL_DAY_ON_TIME_S = 5 /* less than this early or late is called on time */
};

/* "4:05", "1:04:05"; without a sign. */
void sl_day_span(double seconds, char *text, size_t size);
/* "in 4:05", "now", "0:12 late". */
void sl_day_when(double in_s, char *text, size_t size);
/* What was done against what was planned: "on time", "0:12 late", "0:12 early". */
void sl_day_off(double late_s, char *text, size_t size);
/* "EK9: put the mix on, in 0:30". */
void sl_day_due(const sl_bench *bench, const sl_due *due, char *text, size_t size);
/* "EK9: on the hair 12:04", "EK9: waiting", "EK9: rinsed after 30:10, 0:10 late". */
void sl_day_state(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size);
/* "label: at most 30 min from mixing, 17:56 left". */
void sl_day_label(const sl_bench *bench, int swatch, const sl_instant *now, char *text, size_t size);
/* Why the longer time was taken; "" where clocks agree. */
const char *sl_day_clocks(sl_clocks clocks);
const char *sl_day_stop_signs(void);      /* in full */
const char *sl_day_stop_signs_line(void); /* for one line of a screen */
const char *sl_day_done(sl_event_kind kind);
/* The same of a swatch before the event is folded: on a time ladder which piece was cut off. swatch: -1
 * for none. */
void sl_day_deed(const sl_bench *bench, int swatch, sl_event_kind kind, char *text, size_t size);

/* Reasons of a stop as keys 1, 2 ...; and notes that need no typing. */
enum { SL_DAY_REASONS = 9, SL_DAY_NOTES = 8 };
sl_stop_reason sl_day_reason(int place, const char **words);
const char *sl_day_note(int place);

/* How the day went against its plan: late and early, unequal time on the hair within an arm, age of
 * the mix. arm: the name of each swatch's arm, [bench->n]; NULL: codes alone, for a judge who is blind. */
bool sl_day_summary(FILE *out, const sl_bench *bench, const char *const *arm, const sl_instant *now);

#endif
